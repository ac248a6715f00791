//! The lists compared with examples worked by hand and with general laws.

use board::{
    Base, BaseHold, Board, Build, Coat, CoatPlace, Colored, Filling, Footing, Grooves, Hue, LidFit,
    LidGrain, Medium, PieceKind, Recess, Router, ScrewCircle, StockOutline, Tenons, Units, Wood,
};
use proptest::prelude::*;
use testkit::assert_near;

use super::*;

mod colors;
mod page;
mod sold;

fn listed(board: &Board, boards: u32) -> Vec<ToBuy> {
    shopping(&Workpiece::of(board).unwrap(), boards)
}

fn line<'a>(list: &'a [ToBuy], article: &str) -> &'a ToBuy {
    let found = list.iter().find(|line| line.article.starts_with(article));
    found.unwrap_or_else(|| panic!("no {article} in {list:#?}"))
}

/// An inch board of three strips: 22 in across, 1/4 in of trim, 1/16 in removed from each edge by the jointer.
fn strips() -> Board {
    let mut board = Board::begun(Units::INCH);
    board.wood = Some(Wood::default());
    board.blank.diameter = 22.0 * 25.4;
    board.stock.trim = 25.4 / 4.0;
    board.stock.thickness = 25.4;
    board.blank.thickness = 0.75 * 25.4;
    board.panel.joint = 25.4 / 16.0;
    board.panel.build = Build::Strips { count: 3 };
    board
}

/// By hand: strips of 22 1/2 / 3 + 1/8 = 7 5/8 in by 22 1/2 in by 4/4 are 171.5625 in³ each. Three of them, 514.6875 in³, are
/// 3.574 board feet; a quarter more is 4.468, so 5 are bought. For two boards it is 8.935, so 9.
#[test]
fn lumber_for_strips_matches_sums_worked_by_hand() {
    let list = listed(&strips(), 1);
    let lumber = line(&list, "lumber-");
    assert_near!(lumber.need, 3.0 * 171.5625 / 144.0 * 1.25, 1e-9);
    assert_eq!(lumber.to_buy(Units::INCH), "5 bd ft");
    assert!(lumber.name.ends_with("4/4, rough"), "{}", lumber.name);
    let two = listed(&strips(), 2);
    assert_eq!(line(&two, "lumber-").bought(), (9, 1));
}

/// On a measured slab picture, job sheet and cut list agree on the length of each strip: the outer ones of a circle 22 1/2 in
/// across begin 3 3/4 in from its middle and are 2 √(11.25² - 3.75²) = 21.213 in long, which is 21 7/32 in rounded up.
#[test]
fn strips_of_a_measured_slab_have_one_length_everywhere() {
    let mut board = strips();
    board.stock.outline = board::StockOutline::Slab {
        length: 48.0 * 25.4,
        width: 24.0 * 25.4,
        lower: vec![],
        upper: vec![],
    };
    let workpiece = Workpiece::of(&board).unwrap();
    let list = cut_list(&workpiece, 2);
    let rough = |at: usize| {
        let part = &list[at];
        (
            part.name,
            part.count,
            part.rough.unwrap().shown_at_least(Units::INCH),
        )
    };
    assert_eq!(rough(0), ("strip", 2, "22 1/2\" × 7 5/8\" × 1\"".into()));
    assert_eq!(
        rough(1),
        ("outer strip", 4, "21 7/32\" × 7 5/8\" × 1\"".into())
    );
    let slab = crate::slab(&board.stock).unwrap().unwrap();
    let places = crate::blank::stock::strips_of(&board, &slab).unwrap();
    for place in places {
        let part = &list[usize::from(place.strip != 1)];
        let [length, width, _] = part.rough.unwrap().block();
        assert_near!(place.size.length, length, 1e-9);
        assert_near!(place.size.width, width, 1e-9);
    }
    let sawn = workpiece.work_plan().of(crate::Task::Rough).next().unwrap();
    let words = "Saw 3 strips 7 5/8\" wide, strip 2 at least 22 1/2\" long, strips 1 and 3 at least 21 7/32\" long.";
    assert_eq!(sawn.work[0], words);
}

/// What the work needs beside the wood and the finish: the thinner that the finish plan names, rags for four coats on each of two
/// boards, strips for 12 tenons of 36 mm, and a screw for each foot.
#[test]
fn thinner_rags_tenons_and_screws_are_bought() {
    let mut board = strips();
    board.units = Units::Mm;
    board.finish = vec![board::Coat {
        coats: 4,
        ..board::Coat::of(board::CoatKind::WipingVarnish, 24.0)
    }];
    board.panel.tenons = Some(board::Tenons {
        count: 3,
        reach: 19.0,
        ..board::Tenons::default()
    });
    board.base = Some(Base {
        footing: Footing::Feet {
            count: 3,
            circle: 300.0,
        },
        ..Base::default()
    });
    let list = listed(&board, 2);
    assert_eq!(line(&list, "thinner-mineral-spirits").bought(), (1, 1));
    assert_near!(line(&list, "rag").need, 8.0, 0.0);
    // 2 boards, 2 seams and 3 tenons each, of 36 mm with a tenth for the cuts, are 475 mm of strips.
    assert_near!(line(&list, "tenon-stock-").need, 2.0, 0.0);
    assert_near!(line(&list, "base-screw").need, 6.0, 0.0);
    assert!(!list.iter().any(|line| line.article.starts_with("brush-")));
}

/// By hand: one slab of 650 by 326.5 by 52 mm makes both leaves. It is 0.01104 m³; a quarter more is 0.01379, so 0.014 are
/// bought.
#[test]
fn leaves_are_resawn_from_one_slab() {
    let mut board = Board::default();
    board.panel.build = Build::Halves;
    board.stock.thickness = 52.0;
    let list = listed(&board, 1);
    let lumber = line(&list, "lumber-any-52mm");
    assert_near!(lumber.need, 0.65 * 0.3265 * 0.052 * 1.25, 1e-12);
    assert_eq!(lumber.to_buy(Units::Mm), "0.014 m³");
    let parts = cut_list(&Workpiece::of(&board).unwrap(), 3);
    assert_eq!((parts[0].count, parts[1].count), (6, 3));
    assert_near!(parts[0].rough.unwrap().thickness, 24.5, 1e-12);
}

#[test]
fn wood_too_thin_for_the_board_is_replaced_by_thicker_wood() {
    let mut board = Board::default();
    board.panel.build = Build::Halves;
    // Two leaves of 20 mm with 3 mm each to plane off, plus the kerf, are 49 mm.
    board.stock.thickness = 25.0;
    assert!(line(&listed(&board, 1), "lumber-").article.contains("52mm"));
    // Wood that already has the thickness of the board is bought at that thickness.
    board.panel.build = Build::Whole;
    board.stock.thickness = 20.0;
    assert!(line(&listed(&board, 1), "lumber-").article.contains("20mm"));
}

/// By hand: 8 ft by 24 1/4 in has a surface of 16.17 ft², tallied as 16; in 8/4 that is 32 board feet per slab.
#[test]
fn a_measured_blank_is_tallied_as_a_yard_does() {
    let mut board = strips();
    board.panel.build = Build::Whole;
    board.stock.thickness = 50.8;
    board.stock.outline = StockOutline::Slab {
        length: 96.0 * 25.4,
        width: 24.25 * 25.4,
        lower: Vec::new(),
        upper: Vec::new(),
    };
    let list = listed(&board, 2);
    assert_near!(line(&list, "slab-").need, 64.0, 1e-9);
    assert!(list.iter().all(|line| !line.article.starts_with("lumber")));
}

#[test]
fn balls_magnets_and_pieces_are_counted_for_every_board() {
    let mut board = Board::default();
    board.piece.kind = PieceKind::Magnet;
    board.recess = Some(Recess {
        spare: 2,
        ..Recess::default()
    });
    let list = listed(&board, 2);
    let balls = line(&list, "steel-ball-12");
    assert_near!(balls.need, 290.0, 0.0);
    // 290 balls are 12 packs of 25, with 10 left over.
    assert_eq!((balls.bought(), balls.left()), ((12, 1), 10.0));
    assert_eq!(balls.to_buy(Units::Mm), "12 packs of 25");
    let pieces = list
        .iter()
        .filter(|line| line.article.starts_with("magnet-piece"));
    assert_near!(
        pieces.map(|line| line.need).sum::<f64>(),
        2.0 * (6.0 * 5.0 + 2.0),
        0.0
    );
    let magnets = list.iter().find(|line| line.article == "magnet");
    assert_near!(magnets.unwrap().need, 64.0, 0.0);
}

/// A screw passes through the plate of a bearing, 1.5 mm, and 10 mm into the board; among those sold, 10 mm is the longest that
/// does not go deeper.
#[test]
fn screws_are_no_longer_than_their_holes_allow() {
    let mut board = Board {
        base: Some(Base::default()),
        screws: vec![ScrewCircle::default()],
        ..Board::default()
    };
    assert!(
        line(&listed(&board, 1), "wood-screw-4x10")
            .note
            .ends_with("no longer")
    );
    board.base = Some(Base {
        footing: Footing::Feet {
            count: 3,
            circle: 300.0,
        },
        height: 20.0,
        ..Base::default()
    });
    // Through half of the foot.
    let list = listed(&board, 1);
    assert_eq!(line(&list, "wood-screw-").article, "wood-screw-4x20");
    assert_near!(line(&list, "foot-20").need, 3.0, 0.0);
}

#[test]
fn a_turntable_is_bought_and_a_glued_base_is_cut() {
    let mut board = Board {
        base: Some(Base::default()),
        ..Board::default()
    };
    assert_eq!(
        line(&listed(&board, 1), "turntable").name,
        "Lazy Susan bearing, 12\""
    );
    board.base.as_mut().unwrap().hold = BaseHold::GluedPlywood;
    let list = listed(&board, 1);
    assert!(
        list.iter()
            .all(|line| !line.article.starts_with("turntable"))
    );
    assert_near!(line(&list, "plywood").need, 1.0, 0.0);
}

/// A board with something from every shelf.
fn rich(units: Units) -> Board {
    let mut board = Board::begun(units);
    board.panel.build = Build::Strips { count: 4 };
    board.panel.tenons = Some(Tenons::default());
    board.piece.kind = PieceKind::Magnet;
    board.recess = Some(Recess {
        lid: 4.0,
        spare: 3,
        lid_fit: LidFit {
            grain: LidGrain::Plywood,
            ..LidFit::default()
        },
        ..Recess::default()
    });
    board.grooves = Some(Grooves::default());
    board.filling = Some(Filling::default());
    board.finish = vec![Coat::default(); 3];
    board.router = Some(Router::default());
    board.base = Some(Base::default());
    board.screws = vec![ScrewCircle::default()];
    let colored = |medium| Colored {
        hue: Hue::Player,
        medium,
    };
    board.colors.grooves = colored(Medium::Resin);
    board.colors.sectors = colored(Medium::Stain);
    board.colors.marks = Some(board::MarksMade::default());
    board.wood = Some(Wood {
        species: "red-oak".into(),
        ..Wood::default()
    });
    board
}

/// A board with grooves in a medium, each in its player's color.
fn grooved(medium: Medium) -> Board {
    let mut board = Board {
        grooves: Some(Grooves::default()),
        ..Board::default()
    };
    board.colors.grooves = Colored {
        hue: Hue::Player,
        medium,
    };
    board
}

fn of_article<'a>(list: &'a [ToBuy], article: &str) -> Vec<&'a ToBuy> {
    let of = list.iter().filter(|line| line.article.starts_with(article));
    of.collect()
}

#[test]
fn every_shelf_has_lines_with_names_in_the_makers_units() {
    for (units, foreign) in [(Units::Mm, '"'), (Units::INCH, 'm')] {
        let list = listed(&rich(units), 2);
        for shelf in Shelf::ALL {
            assert!(
                list.iter().any(|line| line.shelf == shelf),
                "{}",
                shelf.label()
            );
        }
        for line in &list {
            let words = format!("{} {}", line.to_buy(units), line.name.trim_matches('"'));
            let is_foreign = match foreign {
                'm' => words.contains(" mm") || words.contains(" ml") || words.contains('³'),
                inch => words.contains(inch),
            };
            assert!(!is_foreign, "{words}");
        }
    }
}

#[test]
fn no_two_things_share_an_article() {
    let list = listed(&rich(Units::Mm), 1);
    for line in &list {
        let alike = list.iter().filter(|other| other.article == line.article);
        assert!(
            alike
                .clone()
                .all(|other| (&other.name, other.pack) == (&line.name, line.pack))
        );
    }
}

#[test]
fn tools_and_templates_are_the_same_for_any_number_of_boards() {
    let of = |boards| {
        let list = listed(&rich(Units::Mm), boards);
        let kept = list
            .into_iter()
            .filter(|line| line.shelf >= Shelf::Templates);
        kept.collect::<Vec<_>>()
    };
    assert_eq!(of(1), of(200));
    assert!(of(1).iter().any(|line| line.article == "guide-bushing-16"));
}

#[test]
fn bits_and_bushings_that_the_shop_has_are_not_bought() {
    let mut board = rich(Units::Mm);
    assert_eq!(
        line(&listed(&board, 1), "guide-bushing-16").bought(),
        (1, 1)
    );
    board.tools.bushings = vec![16.0];
    let list = listed(&board, 1);
    let bushing = line(&list, "guide-bushing-16");
    assert_eq!(
        (bushing.bought(), bushing.to_buy(Units::Mm).as_str()),
        ((0, 1), "in the shop")
    );
}

#[test]
fn packs_are_worded_for_none_one_and_two() {
    let mut balls = ToBuy {
        article: "steel-ball-12".into(),
        name: "Steel balls".into(),
        note: String::new(),
        shelf: Shelf::Pieces,
        sold: SoldBy::Piece,
        need: 0.0,
        pack: 25.0,
        owned: false,
    };
    for (need, words) in [
        (0.0, "0 packs of 25"),
        (1.0, "1 pack of 25"),
        (25.0, "1 pack of 25"),
        (26.0, "2 packs of 25"),
    ] {
        balls.need = need;
        assert_eq!(balls.to_buy(Units::Mm), words);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn packs_cover_the_need_without_a_pack_too_many(need in 0.001..5000.0_f64, pack in 0.01..500.0_f64, by in 0_usize..4) {
        let sold = [SoldBy::Piece, SoldBy::BoardFoot, SoldBy::CubicMeter, SoldBy::Volume][by];
        let line = ToBuy {
            article: String::new(), name: String::new(), note: String::new(), shelf: Shelf::Wood, sold, need, pack, owned: false,
        };
        let step = pack / f64::from(sold.parts());
        prop_assert!(line.amount() >= need - 1e-6 * pack);
        prop_assert!(line.left() < step * (1.0 + 1e-6));
    }

    #[test]
    fn more_boards_never_need_less(boards in 1_u32..200, inches in any::<bool>()) {
        let board = rich(if inches { Units::INCH } else { Units::Mm });
        let workpiece = Workpiece::of(&board).unwrap();
        let (fewer, more) = (shopping(&workpiece, boards), shopping(&workpiece, boards + 1));
        prop_assert_eq!(fewer.len(), more.len());
        for (few, many) in fewer.iter().zip(&more) {
            prop_assert_eq!(&few.article, &many.article);
            prop_assert!(many.need >= few.need && many.bought() >= few.bought());
        }
    }
}

/// By hand: three times around 640 mm is 6.03 m of tape; nine boards take 54 m, so two rolls of 50 m.
#[test]
fn tape_and_film_are_bought_where_something_is_masked() {
    let mut board = Board::default();
    let has = |board: &Board, article: &str| {
        let list = listed(board, 1);
        list.iter().any(|line| line.article == article)
    };
    assert!(!has(&board, "masking-tape") && !has(&board, "stencil-film"));
    // Glue faces of the base are kept free of finish.
    board.finish = vec![Coat::default()];
    assert!(!has(&board, "masking-tape"));
    board.base = Some(Base {
        hold: BaseHold::GluedWithGrain,
        ..Base::default()
    });
    assert!(has(&board, "masking-tape") && !has(&board, "stencil-film"));
    // Rings around bores are painted through a stencil.
    board.base = None;
    board.colors.track = board::BoreColor {
        hue: Hue::Player,
        medium: Medium::Paint,
        ..board::BoreColor::default()
    };
    board.colors.track.on = board::BorePart::Ring;
    assert!(has(&board, "masking-tape") && has(&board, "stencil-film"));
    let list = listed(&board, 9);
    let tape = line(&list, "masking-tape");
    assert!(tape.note.contains("around painted parts"), "{}", tape.note);
    assert_eq!(tape.bought(), (2, 1));
    // A colored coat of the finish is taped too.
    board.colors.track.hue = Hue::Bare;
    board.finish = vec![Coat {
        place: CoatPlace::Grooves,
        ..Coat::of(board::CoatKind::Enamel, 24.0)
    }];
    assert!(has(&board, "masking-tape") && !has(&board, "stencil-film"));
}

#[test]
fn shellac_that_may_be_needed_is_listed_for_unchosen_wood() {
    let mut board = Board {
        filling: Some(Filling::default()),
        ..Board::default()
    };
    let note = |board: &Board| {
        let list = listed(board, 1);
        let found = list
            .into_iter()
            .find(|line| line.article == "finish-dewaxed-shellac");
        found.map(|line| line.note)
    };
    assert!(note(&board).unwrap().contains("if the wood has open pores"));
    board.wood = Some(Wood::default());
    assert_eq!(note(&board).unwrap(), "to seal the holes before the resin");
    board.wood = Some(Wood {
        species: "sugar-maple".into(),
        ..Wood::default()
    });
    assert_eq!(note(&board), None);
}
