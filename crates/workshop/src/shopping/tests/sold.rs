//! Tests of articles as they are sold: bits, slabs, screws.

use super::*;

/// A straight bit leaves a flat bottom, and sizes closer than any two bits are merged.
#[test]
fn bits_that_the_shop_has_are_found_by_kind_and_by_size() {
    for (bottom, article) in [
        (board::Bottom::Flat, "straight-bit-"),
        (board::Bottom::Ball, "round-nose-bit-"),
        (board::Bottom::Forstner, "forstner-bit-"),
    ] {
        let bore = board::Bore {
            diameter: 12.704,
            depth: 7.0,
            bottom,
        };
        let mut board = Board {
            bores: board::Bores::all(bore),
            ..Board::default()
        };
        let bits = |board: &Board| {
            let list = listed(board, 1);
            let of = of_article(&list, article).into_iter();
            of.filter(|line| line.note == "for the holes")
                .map(|line| line.owned)
                .collect::<Vec<_>>()
        };
        assert_eq!(bits(&board), [false], "{article}");
        board.tools = board::Tools {
            forstner: vec![12.7],
            straight: vec![12.7],
            round_nose: vec![12.7],
            ..board::Tools::default()
        };
        assert_eq!(bits(&board), [true], "{article}");
    }
}

/// By hand: 8 in by 8 in is 0.44 square feet. A yard that rounded to the nearest whole number would give the slab away.
#[test]
fn a_small_slab_stays_on_the_list() {
    let mut board = strips();
    board.panel.build = Build::Whole;
    board.blank.diameter = 7.0 * 25.4;
    board.stock.outline = StockOutline::Slab {
        length: 8.0 * 25.4,
        width: 8.0 * 25.4,
        lower: Vec::new(),
        upper: Vec::new(),
    };
    let slab = |board: &Board| {
        let workpiece = Workpiece::of(board).unwrap();
        wood::lines(&workpiece, 1)
            .into_iter()
            .find(|line| line.article.starts_with("slab-"))
            .unwrap()
    };
    assert_near!(slab(&board).need, 1.0, 0.0);
}

/// A lid of the board's wood is planed from thicker wood; plywood is cut to size at once.
#[test]
fn a_solid_lid_is_rough_before_it_is_planed() {
    let lid = |grain| {
        let board = Board {
            recess: Some(Recess {
                lid: 4.0,
                lid_fit: LidFit {
                    grain,
                    ..LidFit::default()
                },
                ..Recess::default()
            }),
            ..Board::default()
        };
        let list = cut_list(&Workpiece::of(&board).unwrap(), 1);
        let lid = list.into_iter().find(|part| part.name == "lid").unwrap();
        (lid.rough.unwrap().thickness, lid.finished.thickness)
    };
    for grain in [LidGrain::WithBoard, LidGrain::AcrossBoard] {
        let (rough, finished) = lid(grain);
        assert_near!(rough, finished + 3.0, 1e-9);
    }
    let (rough, finished) = lid(LidGrain::Plywood);
    assert_near!(rough, finished, 0.0);
}

/// On an inch board screws are named by gauge: 5/32 in takes a #7, whose pilot hole is 7/64 in wide.
#[test]
fn screws_have_a_gauge_and_pilot_holes() {
    let board = Board {
        screws: vec![ScrewCircle {
            diameter: 25.4 * 5.0 / 32.0,
            ..ScrewCircle::default()
        }],
        base: Some(Base::default()),
        ..Board::begun(Units::INCH)
    };
    let list = listed(&board, 1);
    assert!(
        line(&list, "wood-screw-")
            .name
            .starts_with("Wood screws, #7 × ")
    );
    let pilots = list.iter().find(|line| line.note.contains("pilot holes"));
    assert!(pilots.unwrap().name.contains("7/64\""), "{pilots:?}");
    let workpiece = Workpiece::of(&board).unwrap();
    let holes = workpiece
        .work_plan()
        .of(crate::Task::ScrewHoles)
        .next()
        .unwrap();
    assert!(
        holes.work[1].contains("7/64\" wide for #7 screws"),
        "{:?}",
        holes.work
    );
}

/// 9.5 mm into the wood and 3 mm through the button: among those sold, 12 mm is the longest that does not go deeper.
#[test]
fn turn_buttons_are_bought_with_their_screws() {
    let mut board = Board {
        recess: Some(Recess {
            lid: 4.0,
            ..Recess::default()
        }),
        ..Board::default()
    };
    let list = listed(&board, 2);
    assert_near!(line(&list, "turn-button").need, 4.0, 0.0);
    let screws = line(&list, "wood-screw-");
    assert_eq!(screws.article, "wood-screw-3x12");
    assert_near!(screws.need, 4.0, 0.0);
    assert!(screws.note.ends_with("no longer than 12.5 mm"));
    board.recess = Some(Recess::default());
    let none = listed(&board, 1);
    assert!(none.iter().all(|line| line.article != "turn-button"));
}

/// A board 20 mm thick and a recess 10 mm deep with corners for the same bit: it is bought once, for both.
#[test]
fn a_bit_is_bought_as_long_as_its_deepest_cut() {
    let board = Board {
        recess: Some(Recess {
            shape: board::RecessShape::Straight {
                length: 90.0,
                width: 60.0,
                corner: 3.0,
            },
            ..Recess::default()
        }),
        ..Board::default()
    };
    let list = listed(&board, 1);
    let bits = of_article(&list, "straight-bit-");
    assert_eq!(bits.len(), 1);
    assert_eq!(
        bits[0].note,
        "for the circle, on a trammel; must reach 23 mm; for the storage; must reach 13 mm"
    );
}

/// By hand: a patch of 100 mm at 200 g/m², and 2 ml for each foot.
#[test]
fn glue_is_bought_for_a_base_that_is_glued() {
    let with = |base: Base| {
        let board = Board {
            base: Some(base),
            ..Board::default()
        };
        let list = listed(&board, 1);
        let mut glue = list.into_iter().filter(|line| line.article == "wood-glue");
        glue.next().map(|line| (line.need, line.note))
    };
    let glued = with(Base {
        hold: BaseHold::GluedPlywood,
        ..Base::default()
    });
    let (need, note) = glued.unwrap();
    assert_near!(need, core::f64::consts::PI * 0.05 * 0.05 * 200.0, 1e-9);
    assert_eq!(note, "for the base");
    let feet = with(Base {
        footing: Footing::Feet {
            count: 4,
            circle: 300.0,
        },
        ..Base::default()
    });
    assert_near!(feet.unwrap().0, 8.0, 0.0);
    assert_eq!(with(Base::default()), None);
}
