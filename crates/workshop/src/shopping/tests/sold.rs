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
        holes.work[0].contains("7/64\" wide for #7 screws"),
        "{:?}",
        holes.work
    );
}
