//! The parts drawn on a printer test sheet.
//!
//! Bars along two sides give the scale in both directions, the diagonals of a square give the skew, and a circle shows both at
//! a glance. The readings are written into the table on the sheet and typed from there.

use board::{INCH, Units};
use geometry::Angle;
use kurbo::{Circle, Point, Rect, Size, Vec2};
use workshop::PrintLength;

use crate::font::{self, Weight};
use crate::template::printer_test::scale::{Scale, line, mark, words};
use crate::template::printer_test::{BAR, ENDS, Page, length_words};
use crate::{Anchor, Item, Shape, Text, corners_of};

/// Everything on a sheet.
pub fn parts(page: &Page) -> Vec<Item> {
    let lengths = page.lengths();
    let middle = page.middle();
    let side = Size::new(lengths.square, lengths.square);
    let low = middle.center().y - side.height / 2.0;
    let square = Rect::from_origin_size((middle.x0, low), side);
    [
        heading(page),
        bars(page),
        square_with_diagonals(page, square),
        circle(page, square.center(), lengths.circle / 2.0),
        table(page),
    ]
    .concat()
}

/// The title, the paper it is for, the date and the instructions, in as many lines as they need.
fn heading(page: &Page) -> Vec<Item> {
    let inner = page.inner();
    let baseline = page.area.y1 - 0.75 * 2.4 * page.size;
    let title = Text::level(
        Point::new(inner.x0, baseline),
        2.4 * page.size,
        Anchor::Start,
        "Printer test",
    )
    .weighing(Weight::SemiBold);
    let about = Text::level(
        Point::new(inner.x1, baseline),
        page.size,
        Anchor::End,
        page.about.as_str(),
    );
    let line = |(at, line): (usize, &String)| {
        let down = page.leading() * (at as f64 + 1.0);
        let at = Point::new(inner.x0, page.words_top() - down);
        words(Text::level(at, page.size, Anchor::Start, line.as_str()))
    };
    let lines = page.lines.iter().enumerate().map(line);
    // On the smallest paper there is room for the title only.
    let about = Some(about).filter(|about| !about.bounds().overlaps(title.bounds()));
    core::iter::once(title)
        .chain(about)
        .map(words)
        .chain(lines)
        .collect()
}

/// The vertical bar up the left side, the horizontal one along the foot.
fn bars(page: &Page) -> Vec<Item> {
    let (area, inner, lengths) = (page.area, page.inner(), page.lengths());
    let level = Scale {
        start: Point::new(inner.x0, area.y0 + BAR / 2.0),
        turn: Angle::ZERO,
        length: lengths.level,
        units: page.units,
        size: page.size,
        name: PrintLength::Level.label(),
    };
    let upright = Scale {
        start: Point::new(area.x0 + BAR / 2.0, area.y0 + ENDS),
        turn: Angle::degrees(90.0),
        length: lengths.upright,
        name: PrintLength::Upright.label(),
        ..level
    };
    [level.items(), upright.items()].concat()
}

/// The square whose diagonals show a skewed print: in a true one they are equal. Each has its nominal length beside it.
fn square_with_diagonals(page: &Page, square: Rect) -> Vec<Item> {
    let [a, b, c, d] = corners_of(square);
    let mut items: Vec<Item> = [(a, b), (b, c), (c, d), (d, a), (a, c), (d, b)]
        .map(|(from, to)| line(from, to))
        .to_vec();
    let lengths = page.lengths();
    if lengths.square - lengths.circle > 4.0 * page.size {
        let name = format!("Square, {}", length_words(lengths.square, page.units));
        let at = Point::new(square.center().x, square.y0 + 0.7 * page.size);
        items.push(words(Text::level(at, page.size, Anchor::Middle, name)));
    }
    // The room that the corners leave outside the circle.
    let room = (lengths.square * core::f64::consts::SQRT_2 - lengths.circle) / 2.0;
    for (length, corner, degrees) in [
        (PrintLength::Rising, a, 45.0),
        (PrintLength::Falling, d, -45.0),
    ] {
        let name = format!("{}, {}", length.label(), page.nominal(length));
        items.extend(along_diagonal(&name, corner, Angle::degrees(degrees), room));
    }
    items
}

/// A name on a diagonal, between the corner and the circle; `None` if there is no room to read it.
fn along_diagonal(name: &str, corner: Point, turn: Angle, room: f64) -> Option<Item> {
    let size = (room - 9.0) / font::width(name, 1.0, Weight::Regular);
    let size = size.min(2.6);
    let along = Vec2::new(turn.cos(), turn.sin());
    let up = Vec2::new(-along.y, along.x);
    let text = Text {
        turn,
        ..Text::level(corner + along * 6.0 + up * 0.9, size, Anchor::Start, name)
    };
    (size >= font::SMALLEST).then(|| words(text))
}

/// The circle in the square, which shows at a glance whether a print is stretched.
fn circle(page: &Page, center: Point, radius: f64) -> Vec<Item> {
    let name = format!("Circle, Ø {}", length_words(2.0 * radius, page.units));
    let below = center - Vec2::new(0.0, radius / 2.0);
    let size = page
        .size
        .min(radius / font::width(&name, 1.0, Weight::Regular));
    let arm = (radius / 6.0).min(8.0);
    let mut items = vec![
        mark(Shape::Circle(Circle::new(center, radius))),
        mark(Shape::Cross { center, arm }),
    ];
    if size >= font::SMALLEST {
        items.push(words(Text::level(below, size, Anchor::Middle, name)));
    }
    items
}

/// A line for each length, with places to write its readings.
///
/// There are as many places as the program accepts readings; one reading is enough, more show their spread.
fn table(page: &Page) -> Vec<Item> {
    const READINGS: usize = workshop::PrintReadings::MOST;
    let inner = page.inner();
    let names =
        PrintLength::ALL.map(|length| format!("{}, {}", length.label(), page.nominal(length)));
    let width = |name: &String| font::width(name, page.size, Weight::Regular);
    let first = inner.x0 + names.iter().map(width).fold(0.0, f64::max);
    let place = (inner.x1 - first) / READINGS as f64;
    let mut items = Vec::new();
    for (at, name) in names.into_iter().enumerate() {
        let baseline = page.table_foot() + page.row() * (3.0 - at as f64);
        let start = Point::new(inner.x0, baseline);
        items.push(words(Text::level(start, page.size, Anchor::Start, name)));
        for reading in 0..READINGS {
            let end = Point::new(first + place * (reading as f64 + 1.0), baseline - 0.6);
            items.push(line(end - Vec2::new(0.84 * place, 0.0), end));
        }
    }
    items
}

impl Page {
    /// The nominal length in words; for diagonals, to the nearest mark of a rule.
    fn nominal(&self, length: PrintLength) -> String {
        let lengths = self.lengths();
        let mm = match length {
            PrintLength::Level => lengths.level,
            PrintLength::Upright => lengths.upright,
            PrintLength::Rising | PrintLength::Falling => {
                let step = match self.units {
                    Units::Mm => 0.1,
                    Units::Inch(_) => INCH / 1000.0,
                };
                (lengths.square * core::f64::consts::SQRT_2 / step).round() * step
            }
        };
        length_words(mm, self.units)
    }
}
