//! Time to write each format.
//!
//! `cargo bench -p export`

use core::hint::black_box;

use divan::Bencher;
use drawing::{Anchor, Item, Layer, Line, Shape, Sheet, Text, View};
use export::PdfOptions;
use geometry::{Angle, Circle, Point, Vec2, point_at};
use kurbo::{Rect, Size};

fn main() {
    divan::main();
}

/// A hole's outline, cross and name.
fn hole(center: Point, name: String) -> [Item; 3] {
    let item = |layer, line, shape| Item { layer, line, shape };
    let circle = Shape::Circle(Circle::new(center, 3.5));
    let at = center + Vec2::new(0.0, 5.0);
    let words = Shape::Text(Text::level(at, 3.0, Anchor::Middle, name));
    [
        item(Layer::Track, Line::Drill, circle),
        item(Layer::Track, Line::Drill, Shape::Cross { center, arm: 2.0 }),
        item(Layer::Names, Line::Dimension, words),
    ]
}

/// The holes of a board as wide as the radius allows, on seven rings.
fn holes(count: usize, radius: f64) -> Vec<Item> {
    let holes = (0..count).flat_map(|index| {
        let bearing = Angle::TURN * (index as f64 / count as f64);
        let ring = radius * (0.4 + 0.1 * (index % 7) as f64);
        hole(
            point_at(ring, bearing),
            format!("T{}-{:02}", index % 6 + 1, index / 6),
        )
    });
    holes.collect()
}

/// Bars, corner crosses and words, as each sheet of a template has.
fn marks(label: &str, size: Size) -> Vec<Item> {
    let item = |line, shape| Item {
        layer: Layer::Marks,
        line,
        shape,
    };
    let mut marks = Vec::new();
    for (index, across) in [20.0, 60.0, 100.0, 140.0, 180.0].into_iter().enumerate() {
        for up in [10.0, size.height - 10.0] {
            let center = Point::new(across, up);
            marks.push(item(Line::Guide, Shape::Cross { center, arm: 4.0 }));
            let words = format!("{label} {index}");
            let text = Text::level(center, 2.5, Anchor::Start, words);
            marks.push(item(Line::Dimension, Shape::Text(text)));
        }
    }
    let bar = kurbo::Line::new((20.0, 20.0), (120.0, 20.0));
    marks.push(item(Line::Dimension, Shape::Line(bar)));
    marks
}

/// 24 sheets of A4, six by four, over a board of 145 holes.
fn tiles() -> Vec<Sheet> {
    let (size, step) = (Size::new(210.0, 297.0), Size::new(180.0, 260.0));
    let board = holes(145, 500.0);
    let mut sheets = Vec::new();
    for row in 0..4 {
        for column in 0..6 {
            let window = Rect::new(10.0, 15.0, 200.0, 285.0);
            let corner = Point::new(
                step.width * (f64::from(column) - 3.0),
                step.height * (f64::from(row) - 2.0),
            );
            let page_from_board = window.origin() - corner;
            let seen = |item: &&Item| {
                let bounds = item.shape.bounds() + page_from_board;
                bounds.overlaps(window)
            };
            let items = board.iter().filter(seen).cloned().collect();
            let label = format!("{}{row}", char::from(b'A' + column));
            sheets.push(Sheet {
                size,
                marks: marks(&label, size),
                label,
                view: View {
                    window,
                    page_from_board,
                    tints: Vec::new(),
                    items,
                },
                correction: None,
            });
        }
    }
    sheets
}

/// One large sheet with this many holes.
fn whole_board(count: usize) -> Sheet {
    let size = Size::new(2000.0, 2000.0);
    Sheet {
        size,
        label: "whole board".to_owned(),
        view: View {
            window: size.to_rect(),
            page_from_board: size.to_vec2() / 2.0,
            tints: Vec::new(),
            items: holes(count, 900.0),
        },
        marks: Vec::new(),
        correction: None,
    }
}

#[divan::bench]
fn pdf_of_24_sheets_with_145_holes(bencher: Bencher<'_, '_>) {
    let sheets = tiles();
    let options = PdfOptions::default();
    bencher.bench(|| export::pdf(black_box(&sheets), &options));
}

#[divan::bench]
fn svg_of_10_000_holes_with_names(bencher: Bencher<'_, '_>) {
    let mut sheet = whole_board(10_000);
    let is_cross = |item: &Item| matches!(item.shape, Shape::Cross { .. });
    sheet.view.items.retain(|item| !is_cross(item));
    bencher.bench(|| export::svg(black_box(&sheet)));
}

#[divan::bench]
fn csv_of_10_000_holes(bencher: Bencher<'_, '_>) {
    let workpiece = workshop::Workpiece::of(&board::Board::default());
    let small = workpiece
        .map(|workpiece| workpiece.hole_table().rows.clone())
        .unwrap_or_default();
    let rows: Vec<_> = small.into_iter().cycle().take(10_000).collect();
    assert_eq!(rows.len(), 10_000);
    let table = workshop::HoleTable { rows };
    bencher.bench(|| export::csv(black_box(&table), board::Units::Mm));
}

/// The settings of a jig, its pages and its table, for the 145 holes of the default board.
#[divan::bench]
fn jig_sheet_of_145_holes(bencher: Bencher<'_, '_>) {
    let board = board::Board::default();
    bencher.bench(|| {
        let workpiece = workshop::Workpiece::of(black_box(&board))?;
        let jig = workshop::jig_sheet(&workpiece);
        let sheets = drawing::jig_pages(&workpiece, &jig, &drawing::Stamp::default());
        let options = export::PdfOptions {
            title: String::new(),
            creator: String::new(),
            created: None,
            layers: false,
        };
        Ok::<_, board::BuildError>((
            export::pdf(&sheets, &options).map(|pdf| pdf.len()),
            export::jig_csv(&jig, board.units),
        ))
    });
}

/// The drilling order by travel, with the shortest path from hole to hole.
#[divan::bench]
fn drilling_order_of_145_holes_by_travel(bencher: Bencher<'_, '_>) {
    let board = board::Board {
        order: board::DrillingOrder::Travel,
        ..board::Board::default()
    };
    bencher.bench(|| {
        workshop::Workpiece::of(black_box(&board))
            .map(|workpiece| workpiece.drilling_order().clone())
    });
}
