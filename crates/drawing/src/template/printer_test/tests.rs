//! Test sheets on all papers, compared with their own labels.

use super::*;
use crate::{Item, Shape};
use board::{Paper, Template};
use geometry::Angle;
use proptest::prelude::*;
use testkit::assert_near;
use workshop::PrintCorrection;

fn board(paper: Paper, margin: f64, units: Units) -> Board {
    let template = Template {
        paper,
        margin,
        ..Template::default()
    };
    Board {
        template,
        units,
        ..Board::default()
    }
}

fn papers() -> impl Strategy<Value = Paper> {
    let side = 100.0..900.0_f64;
    prop_oneof![
        Just(Paper::A4),
        Just(Paper::A3),
        Just(Paper::Letter),
        Just(Paper::Legal),
        Just(Paper::Tabloid),
        (side.clone(), side).prop_map(|(width, height)| Paper::Custom { width, height }),
    ]
}

fn sheet(paper: Paper, units: Units) -> (Sheet, TestLengths) {
    let board = board(paper, 10.0, units);
    (
        printer_test_sheet(&board, &Stamp::default(), None).unwrap(),
        test_lengths(&board).unwrap(),
    )
}

fn all_words(sheet: &Sheet) -> Vec<&str> {
    let words = sheet.marks.iter().filter_map(|item| match &item.shape {
        Shape::Text(text) => Some(text.words.as_str()),
        _ => None,
    });
    words.collect()
}

/// Lengths of all lines in a direction.
fn runs(items: &[Item], degrees: f64) -> Vec<f64> {
    let along = Vec2::new(Angle::degrees(degrees).cos(), Angle::degrees(degrees).sin());
    let lines = items.iter().filter_map(|item| match item.shape {
        Shape::Line(line) => Some(line.p1 - line.p0),
        _ => None,
    });
    lines
        .filter(|way| way.cross(along).abs() < 1e-9)
        .map(Vec2::length)
        .collect()
}

fn has(lengths: &[f64], wanted: f64) -> bool {
    lengths.iter().any(|length| (length - wanted).abs() < 1e-9)
}

#[test]
fn bars_square_and_circle_have_their_stated_sizes() {
    for units in [Units::Mm, Units::INCH] {
        let (sheet, lengths) = sheet(Paper::A4, units);
        assert!(has(&runs(&sheet.marks, 0.0), lengths.level));
        assert!(has(&runs(&sheet.marks, 90.0), lengths.upright));
        for degrees in [0.0, 90.0] {
            assert!(has(&runs(&sheet.marks, degrees), lengths.square));
        }
        for degrees in [45.0, -45.0] {
            let diagonal = lengths.square * core::f64::consts::SQRT_2;
            assert!(has(&runs(&sheet.marks, degrees), diagonal));
        }
        let circles = sheet.marks.iter().filter_map(|item| match item.shape {
            Shape::Circle(circle) => Some(2.0 * circle.radius),
            _ => None,
        });
        assert_eq!(circles.collect::<Vec<_>>(), [lengths.circle]);
        let words = all_words(&sheet);
        for (name, mm) in [
            ("Level bar", lengths.level),
            ("Upright bar", lengths.upright),
            ("Circle, Ø", lengths.circle),
        ] {
            let wanted = length_words(mm, units);
            let says = |words: &&&str| words.starts_with(name) && words.ends_with(&wanted);
            assert!(
                words.iter().any(|words| says(&words)),
                "{name} {wanted}: {words:?}"
            );
        }
    }
}

#[test]
fn an_a4_has_long_bars_and_the_whole_circle() {
    let (sheet, lengths) = sheet(Paper::A4, Units::Mm);
    assert_near!(lengths.circle, 150.0, 0.0);
    assert!(
        lengths.level >= 160.0 && lengths.upright >= 260.0,
        "{lengths:?}"
    );
    assert!(lengths.square >= 160.0, "{lengths:?}");
    let instructions = all_words(&sheet)
        .iter()
        .filter(|words| words.ends_with('.'))
        .count();
    assert_eq!(instructions, 3);
}

#[test]
fn a_corrected_sheet_names_the_printer() {
    let board = board(Paper::Letter, 10.0, Units::INCH);
    let print = PrintCorrection {
        x: 1.006,
        y: 0.998,
        skew: Angle::degrees(0.12),
    };
    let correction = Correction {
        printer: "Laser".into(),
        print,
    };
    let sheet = printer_test_sheet(&board, &Stamp::default(), Some(&correction)).unwrap();
    let wanted = "Corrected for Laser: across × 1.0060, up × 0.9980, skew 0.12°";
    assert!(
        all_words(&sheet).contains(&wanted),
        "{:?}",
        all_words(&sheet)
    );
    assert_eq!(sheet.correction, Some(correction));
}

#[test]
fn paper_too_small_is_an_error() {
    let paper = Paper::Custom {
        width: 100.0,
        height: 150.0,
    };
    let error = test_lengths(&board(paper, 20.5, Units::Mm)).unwrap_err();
    assert!(matches!(error, TilingError::NoPaperLeft { .. }));
    assert!(test_lengths(&board(paper, 19.5, Units::Mm)).is_ok());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn everything_stays_within_the_printable_area(
        paper in papers(), margin in 0.0..20.0_f64, inches in any::<bool>(),
        x in 0.95..1.05_f64, y in 0.95..1.05_f64, degrees in -0.5..0.5_f64,
    ) {
        let board = board(paper, margin, if inches { Units::INCH } else { Units::Mm });
        let print = PrintCorrection { x, y, skew: Angle::degrees(degrees) };
        let correction = Correction { printer: "the wide one upstairs".into(), print };
        for correction in [None, Some(&correction)] {
            let Ok(sheet) = printer_test_sheet(&board, &Stamp { date: "2026-11-25".into() }, correction) else {
                // Close to the least size, the correction may leave too little.
                prop_assert!(margin > 15.0);
                continue;
            };
            prop_assert!(sheet.size.width <= sheet.size.height);
            let inside = sheet.size.to_rect().inset(1e-6 - margin);
            let map = sheet.correction_transform().unwrap_or_default();
            for item in &sheet.marks {
                let bounds = map.transform_rect_bbox(item.shape.bounds());
                prop_assert!(inside.contains_rect(bounds), "{:?} of {board:?}", item.shape);
            }
        }
    }

    #[test]
    fn no_words_overlap(paper in papers(), margin in 0.0..20.0_f64, inches in any::<bool>()) {
        let board = board(paper, margin, if inches { Units::INCH } else { Units::Mm });
        let sheet = printer_test_sheet(&board, &Stamp { date: "2026-11-25".into() }, None).unwrap();
        // Slanted words have boxes much larger than themselves.
        let boxes: Vec<Rect> = sheet.marks.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) if text.turn.sin().abs() < 0.1 || text.turn.cos().abs() < 0.1 => Some(text.bounds()),
            _ => None,
        }).collect();
        for (at, one) in boxes.iter().enumerate() {
            for other in &boxes[at + 1..] {
                prop_assert!(!one.overlaps(*other), "{one:?} {other:?} of {:?}", board.template);
            }
        }
    }
}
