//! Tests of colors, resin in grooves, and shellac for sealing.

use super::*;

#[test]
fn each_color_is_bought_by_the_area_it_covers() {
    for (medium, article, coats) in [
        (Medium::Paint, "paint-", 2.0),
        (Medium::Dye, "dye-", 1.0),
        (Medium::Stain, "stain-", 1.0),
    ] {
        let board = grooved(medium);
        let workpiece = Workpiece::of(&board).unwrap();
        let list = listed(&board, 2);
        let colors = of_article(&list, article);
        let colors: Vec<_> = colors
            .into_iter()
            .filter(|line| line.sold == SoldBy::Volume)
            .collect();
        assert_eq!(colors.len(), 6, "{medium:?}");
        let kind = crate::colors::steps::kind_of(medium).unwrap();
        let each = crate::coat_ml(&workpiece, kind, CoatPlace::Grooves);
        let all: f64 = colors.iter().map(|line| line.need).sum();
        assert_near!(all, 2.0 * coats * each, 1e-9);
        assert!(colors[0].name.ends_with("orange"), "{}", colors[0].name);
        assert!(colors[0].note.contains("grooves of player 1"));
    }
}

/// The resin of a board is that of its bores plus that of its grooves: half a milliliter, mixed as the 10 ml that can be
/// measured out, divided among a cup for each color.
#[test]
fn resin_for_colored_grooves_is_bought_with_that_for_the_bores() {
    let mut board = grooved(Medium::Resin);
    board.filling = Some(Filling::default());
    let colored = listed(&board, 1);
    board.colors.grooves.hue = Hue::Bare;
    let clear = listed(&board, 1);
    let more = |article| line(&colored, article).need - line(&clear, article).need;
    let workpiece = Workpiece::of(&grooved(Medium::Resin)).unwrap();
    let length = workpiece.grooves().unwrap().length;
    let wanted = board.grooves.unwrap();
    let depth = crate::groove_depth(&wanted);
    let filling = board.filling.unwrap();
    let poured =
        length * (wanted.width + wanted.tip) / 2.0 * depth / 1000.0 * (1.0 + filling.waste);
    assert!(poured < 1.0, "{poured}");
    assert_near!(more("resin-kit"), 10.0, 1e-6);
    assert_near!(more("mixing-cup"), 7.0, 0.0);
    let pigments = of_article(&colored, "resin-pigment-");
    assert_eq!(pigments.len(), 6);
    assert_near!(
        pigments.iter().map(|line| line.need).sum::<f64>(),
        0.03 * poured,
        1e-9
    );
    assert!(of_article(&clear, "resin-pigment-").is_empty());
}

#[test]
fn inlays_are_strips_for_grooves_and_one_piece_per_mark() {
    let mut board = grooved(Medium::Inlay);
    board.colors.marks = Some(board::MarksMade {
        medium: Medium::Inlay,
        ..board::MarksMade::default()
    });
    let list = listed(&board, 1);
    let marks = of_article(&list, "inlay-mark-");
    assert_eq!(marks.len(), 6);
    assert!(marks.iter().all(|line| line.need == 1.0));
    let strips = of_article(&list, "inlay-strip-");
    let length = Workpiece::of(&board).unwrap().grooves().unwrap().length;
    for strip in strips {
        // A sixth of the grooves each, with a tenth more for joints and ends.
        assert_near!(strip.need, (length / 6.0 * 1.1 / 600.0).ceil(), 0.0);
    }
    let three = listed(&board, 3);
    assert_near!(of_article(&three, "inlay-mark-")[0].need, 3.0, 0.0);
}

/// Red oak has open pores: the plan seals its bores, with shellac from the can of the finish if the finish has shellac.
#[test]
fn shellac_to_seal_the_bores_is_bought() {
    let mut board = Board {
        filling: Some(Filling::default()),
        ..Board::default()
    };
    let of = |board: &Board| {
        let list = listed(board, 2);
        let found = list
            .into_iter()
            .find(|line| line.article == "finish-dewaxed-shellac");
        found.map(|line| (line.need, line.note))
    };
    board.wood = Some(Wood {
        species: "sugar-maple".into(),
        ..Wood::default()
    });
    assert_eq!(of(&board), None);
    board.wood = Some(Wood {
        species: "red-oak".into(),
        ..Wood::default()
    });
    let (seals, note) = of(&board).unwrap();
    assert!(note.contains("seal the holes"), "{note}");
    let holes = Workpiece::of(&board).unwrap();
    let bore = |hole: &board::Hole| {
        core::f64::consts::PI * hole.bore.diameter * (hole.bore.depth + hole.bore.diameter / 4.0)
    };
    let walls: f64 = holes.seats().iter().map(bore).sum();
    // 10 m² per liter, and a tenth more; for two boards.
    assert_near!(seals, 2.0 * walls / 1e6 / 10.0 * 1100.0, 1e-9);
    board.finish = vec![Coat::of(board::CoatKind::DewaxedShellac, 1.0)];
    let (both, note) = of(&board).unwrap();
    assert!(both > seals && note.starts_with("1 coat, and"), "{note}");
}

#[test]
fn colors_that_a_coat_of_the_finish_brings_are_listed_one_by_one() {
    let mut board = grooved(Medium::Paint);
    board.finish = vec![Coat {
        place: CoatPlace::Grooves,
        coats: 2,
        ..Coat::of(board::CoatKind::Acrylic, 4.0)
    }];
    let list = listed(&board, 1);
    let colors = of_article(&list, "finish-acrylic-color-");
    assert_eq!(colors.len(), 6);
    let workpiece = Workpiece::of(&board).unwrap();
    let needed = crate::finish_needs(&workpiece, 1)[0].ml;
    assert_near!(
        colors.iter().map(|line| line.need).sum::<f64>(),
        needed,
        1e-9
    );
    assert!(
        of_article(&list, "paint-")
            .iter()
            .all(|line| line.sold != SoldBy::Volume)
    );
    board.colors.grooves.hue = Hue::Bare;
    let list = listed(&board, 1);
    assert_near!(line(&list, "finish-acrylic-color").need, needed, 1e-9);
}
