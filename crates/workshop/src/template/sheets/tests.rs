//! Boards cut into sheets: the number of sheets, their content, and the clearance of their joints from holes.

use super::*;
use crate::Workpiece;
use board::{Blank, Board, HoleId, SheetLayout, Template};
use kurbo::Point;
use proptest::prelude::*;

fn cut_of(diameter: f64, paper: Paper) -> Tiling {
    let blank = Blank {
        diameter,
        thickness: 20.0,
        roundover: 0.0,
    };
    let template = Template {
        paper,
        layout: SheetLayout::Widest,
        ..Template::default()
    };
    let board = Board {
        blank,
        template,
        pitch: 19.0 * diameter / 600.0,
        ..Board::default()
    };
    Workpiece::of(&board).unwrap().tiling().unwrap().clone()
}

#[test]
fn joints_are_midway_in_the_overlap() {
    let tiling = cut_of(500.0, Paper::A4);
    let (upright, level) = tiling.joints();
    assert_eq!(
        (upright.len() as u32, level.len() as u32),
        (tiling.columns - 1, tiling.rows - 1)
    );
    let (first, second) = (&tiling.tiles[0].window, &tiling.tiles[1].window);
    assert!((upright[0] - f64::midpoint(first.x1, second.x0)).abs() < 1e-9);
}

/// Sheets counted by hand from the printable part: 190 × 277 mm of an A4 with margins of 10 mm, overlap 10 mm.
#[test]
fn boards_take_as_many_sheets_as_counted_by_hand() {
    for (diameter, paper, sheets) in [
        (500.0, Paper::A4, 6),
        (500.0, Paper::Letter, 6),
        (600.0, Paper::A3, 6),
        (400.0, Paper::A3, 2),
        (280.0, Paper::A4, 4),
        (150.0, Paper::A4, 1),
    ] {
        let tiling = cut_of(diameter, paper);
        assert_eq!(
            tiling.columns * tiling.rows,
            sheets,
            "{diameter} on {paper:?}"
        );
    }
}

#[test]
fn the_sheets_cover_the_board_and_share_their_overlap() {
    let tiling = cut_of(560.0, Paper::A4);
    let all = tiling
        .tiles
        .iter()
        .map(|tile| tile.window)
        .reduce(|a, b| a.union(b))
        .unwrap();
    assert!(
        all.contains_rect(Rect::new(-280.0, -280.0, 280.0, 280.0)),
        "{all:?}"
    );
    let (first, second) = (tiling.tile(0, 1).unwrap(), tiling.tile(1, 1).unwrap());
    assert!((first.window.x1 - second.window.x0 - 10.0).abs() < 1e-9);
    let (upper, lower) = (tiling.tile(1, 0).unwrap(), tiling.tile(1, 1).unwrap());
    assert!((lower.window.y1 - upper.window.y0 - 10.0).abs() < 1e-9);
}

#[test]
fn the_distance_of_the_nearest_hole_is_right() {
    let board = Board::default();
    let workpiece = Workpiece::of(&board).unwrap();
    let (holes, tiling) = (workpiece.layout(), workpiece.tiling().unwrap());
    let (name, said) = tiling.nearest.unwrap();
    let hole = holes.hole(name.id()).unwrap();
    let joints = |low: fn(&Rect) -> f64, at: f64| {
        let edges = tiling.tiles.iter().map(|tile| low(&tile.window));
        let inner: Vec<f64> = edges.collect();
        let first = inner.iter().copied().fold(f64::INFINITY, f64::min);
        inner
            .into_iter()
            .filter(|edge| *edge > first + 1.0)
            .map(|edge| (edge + 5.0 - at).abs())
            .fold(f64::INFINITY, f64::min)
    };
    let found =
        joints(|window| window.x0, hole.center.x).min(joints(|window| window.y0, hole.center.y));
    assert!((found - said).abs() < 1e-9, "{found} {said}");
    assert!(said > 0.5, "{said}");
}

#[test]
fn margins_that_leave_no_paper_are_an_error() {
    let template = Template {
        margin: 100.0,
        paper: Paper::Custom {
            width: 150.0,
            height: 180.0,
        },
        ..Template::default()
    };
    let board = Board {
        template,
        ..Board::default()
    };
    let error = Workpiece::of(&board).unwrap().tiling().unwrap_err().clone();
    assert!(matches!(error, TilingError::NoPaperLeft { .. }), "{error}");
    let template = Template {
        overlap: 100.0,
        paper: Paper::Custom {
            width: 110.0,
            height: 110.0,
        },
        ..Template::default()
    };
    let board = Board {
        template,
        ..Board::default()
    };
    assert!(matches!(
        Workpiece::of(&board).unwrap().tiling(),
        Err(TilingError::Geometry(_))
    ));
}

#[test]
fn labels_are_row_number_and_column_letter() {
    let tile = |column, row| {
        Tile {
            column,
            row,
            window: Rect::ZERO,
        }
        .label()
    };
    assert_eq!(tile(0, 0), "1A");
    assert_eq!(tile(2, 1), "2C");
    assert_eq!(tile(25, 0), "1Z");
    assert_eq!(tile(26, 11), "12AA");
    assert_eq!(tile(999, 0), "1ALL");
}

/// A board of 560 mm on A4: three sheets of 190 mm that overlap by 10 mm are 550 mm, so four by three sheets without two
/// corners hold all of it, and three rows of three without two corners hold all but slivers of its edge.
#[test]
fn sheets_that_show_nothing_of_their_own_are_dropped() {
    // Rings that all cover the same share of their boards.
    let cut = |spaces, paper, diameter: f64, layout| {
        let mut board = Board {
            spaces,
            ..Board::default()
        };
        board.blank.diameter = diameter;
        board.pitch = 19.0 * diameter / 40.0 / f64::from(spaces);
        (board.template.paper, board.template.layout) = (paper, layout);
        Workpiece::of(&board).unwrap().tiling().unwrap().clone()
    };
    for (spaces, paper, diameter, widest, fewest, whole) in [
        (12, Paper::A4, 560.0, 10, 7, false),
        (16, Paper::A4, 600.0, 11, 10, true),
        (16, Paper::Letter, 800.0, 18, 17, false),
        (16, Paper::A4, 450.0, 6, 6, true),
    ] {
        let wide = cut(spaces, paper, diameter, SheetLayout::Widest);
        let few = cut(spaces, paper, diameter, SheetLayout::Fewest);
        assert_eq!(
            (wide.tiles.len(), few.tiles.len()),
            (widest, fewest),
            "{paper:?} {diameter}"
        );
        assert_eq!(
            (wide.whole, few.whole),
            (true, whole),
            "{paper:?} {diameter}"
        );
        assert!(few.nearest.unwrap().1 >= 2.0 - 1e-9);
    }
}

/// Whether every sheet can be reached from the first by joints.
fn hangs_together(tiling: &Tiling) -> bool {
    let mut reached = vec![(tiling.tiles[0].column, tiling.tiles[0].row)];
    let mut at = 0;
    while let Some((column, row)) = reached.get(at).copied() {
        for tile in &tiling.tiles {
            let place = (tile.column, tile.row);
            let off = tile.column.abs_diff(column) + tile.row.abs_diff(row);
            if off == 1 && !reached.contains(&place) {
                reached.push(place);
            }
        }
        at += 1;
    }
    reached.len() == tiling.tiles.len()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Checked at points along every bore and at the ends of every cross, on every paper.
    #[test]
    fn every_hole_is_on_a_sheet_and_none_is_lost_with_a_dropped_one(
        diameter in 300.0..900.0_f64,
        players in 2_u32..9,
        sides in (100.0..320.0_f64, 100.0..450.0_f64),
        margin in 0.0..18.0_f64,
        overlap in 0.0..30.0_f64,
        rotation in 0.0..60.0_f64,
    ) {
        let mut board = Board { players, rotation, ..Board::default() };
        board.blank.diameter = diameter;
        board.pitch = 0.8 * diameter * 19.0 / 640.0 * 6.0 / f64::from(players);
        board.template.paper = Paper::Custom { width: sides.0, height: sides.1 };
        (board.template.margin, board.template.overlap) = (margin, overlap);
        let Ok(few) = Workpiece::of(&board) else { return Ok(()) };
        board.template.layout = SheetLayout::Widest;
        let wide = Workpiece::of(&board).unwrap();
        let (Ok(tiling), Ok(wide)) = (few.tiling(), wide.tiling()) else { return Ok(()) };
        let shown = |at: Point| tiling.tiles.iter().any(|tile| tile.window.inflate(1e-6, 1e-6).contains(at));
        for mouth in few.mouths() {
            for step in 0..16 {
                let way = geometry::point_at(mouth.radius.max(2.5), geometry::Angle::turn_part(step, 16));
                prop_assert!(shown(mouth.center + way.to_vec2()), "{:?}", mouth);
            }
        }
        let lost = if tiling.whole { 0.0 } else { 5.0 };
        for step in 0..360 {
            let rim = geometry::point_at(diameter / 2.0 - lost - 1e-6, geometry::Angle::turn_part(step, 360));
            prop_assert!(shown(rim), "{:?} of {}", rim, diameter);
        }
        prop_assert!(tiling.tiles.len() <= wide.tiles.len());
        prop_assert!(hangs_together(tiling));
        prop_assert!(tiling.tiles.iter().any(|tile| tile.row == 0) && tiling.tiles.iter().any(|tile| tile.column == 0));
        let clear = |tiling: &Tiling| tiling.nearest.map_or(f64::INFINITY, |(_, mm)| mm);
        prop_assert!(clear(tiling) >= clear(wide).min(2.0) - 1e-6, "{} {}", clear(tiling), clear(wide));
    }

    /// The search skips most grids without checking their sheets; it must not skip the best one.
    #[test]
    fn skipped_grids_would_not_have_been_better(
        diameter in 300.0..900.0_f64,
        needed in 0.0..12.0_f64,
        centers in prop::collection::vec((-1.0..1.0_f64, -1.0..1.0_f64), 0..60),
        sides in (100.0..320.0_f64, 100.0..450.0_f64),
        overlap in 0.0..60.0_f64,
    ) {
        let (edge, needed) = (diameter / 2.0, diameter / 2.0 - needed);
        let places: Vec<_> = centers
            .iter()
            .map(|(x, y)| Point::new(0.6 * edge * x, 0.6 * edge * y))
            .map(|at| (HoleId::CENTER.named(1), at))
            .collect();
        let template = Template {
            paper: Paper::Custom { width: sides.0, height: sides.1 },
            overlap,
            ..Template::default()
        };
        let cut = |core: [f64; 2]| {
            let part = |radius: f64, core, is_on| DrawnPart { bounds: cut::square(radius), is_on, core };
            let on_all = |window| cut::is_on_disc(window, edge);
            let on_needed = |window| cut::is_on_disc(window, needed);
            let drawn = Drawn {
                all: part(edge, core[0], &on_all),
                needed: part(needed, core[1], &on_needed),
                places: &places,
            };
            cut_into_sheets(&template, &drawn, None)
        };
        prop_assert_eq!(cut([edge, needed]), cut([0.0, 0.0]));
    }
}

/// A board of 5 m on small cards would take 60,000 of them, although no single row has too many.
#[test]
fn the_total_number_of_sheets_is_limited_and_not_only_that_of_a_row() {
    let paper = |side| Paper::Custom {
        width: side,
        height: side,
    };
    let error = |side| {
        let mut board = Board::default();
        board.blank.diameter = 5000.0;
        board.template.paper = paper(side);
        let workpiece = Workpiece::of(&board).unwrap();
        workpiece.tiling().err().map(ToString::to_string)
    };
    let told = error(50.0).unwrap();
    assert!(
        told.starts_with("the template would take 62500 sheets"),
        "{told}"
    );
    assert_eq!(error(200.0), None);
}
