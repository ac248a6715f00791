//! Time to write a DXF of many holes.
//!
//! `cargo bench -p export --bench dxf`

use core::hint::black_box;

use board::{DxfRelease, Units};
use divan::Bencher;
use drawing::{Anchor, Item, Layer, Line, Shape, Sheet, Text, View};
use export::DxfOptions;
use geometry::{Angle, Circle, Point, Vec2, point_at};
use kurbo::Size;

fn main() {
    divan::main();
}

/// A hole's outline and name.
fn hole(center: Point, name: String) -> [Item; 2] {
    let at = center + Vec2::new(0.0, 5.0);
    let words = Shape::Text(Text::level(at, 3.0, Anchor::Middle, name));
    [
        Item {
            layer: Layer::Track,
            line: Line::Drill,
            shape: Shape::Circle(Circle::new(center, 3.5)),
        },
        Item {
            layer: Layer::Names,
            line: Line::Dimension,
            shape: words,
        },
    ]
}

/// One large sheet with this many holes on seven rings.
fn sheet(count: usize) -> Sheet {
    let size = Size::new(2000.0, 2000.0);
    let holes = (0..count).flat_map(|index| {
        let bearing = Angle::TURN * (index as f64 / count as f64);
        let center = point_at(360.0 + 90.0 * (index % 7) as f64, bearing);
        hole(center, format!("T{}-{:02}", index % 6 + 1, index / 6))
    });
    Sheet {
        size,
        label: "whole board".to_owned(),
        view: View {
            window: size.to_rect(),
            page_from_board: size.to_vec2() / 2.0,
            tints: Vec::new(),
            items: holes.collect(),
        },
        marks: Vec::new(),
        correction: None,
    }
}

#[divan::bench(args = [DxfRelease::R12, DxfRelease::R2000])]
fn dxf_of_10_000_holes_with_names(bencher: Bencher<'_, '_>, release: DxfRelease) {
    let sheet = sheet(10_000);
    let units = Units::Mm;
    let options = DxfOptions { units, release };
    bencher.bench(|| export::dxf(black_box(&sheet), options));
}
