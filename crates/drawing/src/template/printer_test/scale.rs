//! A long bar with ticks and digits.
//!
//! It is as long as the paper allows, since a misreading of half a millimeter matters less on a longer bar. The divisions are
//! for finding its ends, not for measuring one by one.

use board::{INCH, Units, show_number};
use geometry::Angle;
use kurbo::{Line as Segment, Point, Vec2};

use crate::font;
use crate::template::printer_test::length_words;
use crate::{Anchor, Item, Layer, Line, Shape, Text};

/// A long bar.
pub struct Scale<'a> {
    /// The start of its center line.
    pub start: Point,
    /// Its direction.
    pub turn: Angle,
    /// Length, mm.
    pub length: f64,
    /// The unit of its divisions.
    pub units: Units,
    /// Size of its name, mm; digits are smaller.
    pub size: f64,
    /// Its name.
    pub name: &'a str,
}

/// Half the length of the ticks at its ends, mm.
const END_TICK: f64 = 3.5;
/// Sizes of digits and of the name, as shares of the sheet's words.
const FIGURE: f64 = 0.76;
const NAME: f64 = 0.9;
/// Length of the last number beyond the end, mm.
const BEYOND: f64 = 3.5;
/// Distance from the end within which only the last number is written, mm.
const NEAR_END: f64 = 9.0;

impl Scale<'_> {
    /// Its line, with ticks and numbers at the left of its direction and its name at the right.
    pub fn items(&self) -> Vec<Item> {
        let mut items = vec![line(self.at(0.0, 0.0), self.at(self.length, 0.0))];
        for end in [0.0, self.length] {
            items.push(line(self.at(end, -END_TICK), self.at(end, END_TICK)));
        }
        let (step, whole) = self.divisions();
        let count = (self.length / step + 1e-9) as u32;
        for at in 1..=count {
            let along = f64::from(at) * step;
            let is_whole = at.is_multiple_of(whole);
            if self.length - along > 1e-6 {
                let tick = if is_whole { 2.4 } else { 1.4 };
                items.push(line(self.at(along, 0.0), self.at(along, tick)));
            }
            if is_whole && self.length - along > NEAR_END {
                items.push(self.figure(along, show_number(along / self.unit(), 0)));
            }
        }
        items.push(self.figure(0.0, "0".into()));
        items.push(self.last_figure());
        items.push(self.name());
        items
    }

    /// The least division, mm, and how many of them there are between long ticks with numbers.
    const fn divisions(&self) -> (f64, u32) {
        match self.units {
            Units::Mm => (10.0, 5),
            Units::Inch(_) => (INCH / 4.0, 4),
        }
    }

    /// The length that its numbers count, mm.
    const fn unit(&self) -> f64 {
        match self.units {
            Units::Mm => 1.0,
            Units::Inch(_) => INCH,
        }
    }

    /// A point at a distance along the bar and a distance to the left of it.
    fn at(&self, along: f64, left: f64) -> Point {
        let (sin, cos) = self.turn.sin_cos();
        self.start + Vec2::new(cos, sin) * along + Vec2::new(-sin, cos) * left
    }

    /// A number at a distance along the bar, beyond its ticks.
    fn figure(&self, along: f64, figure: String) -> Item {
        self.words(along, END_TICK + 0.6, FIGURE, figure)
    }

    /// The length at its end, not far beyond it.
    fn last_figure(&self) -> Item {
        let mut item = self.figure(self.length + BEYOND, length_words(self.length, self.units));
        if let Shape::Text(text) = &mut item.shape {
            text.anchor = Anchor::End;
        }
        item
    }

    /// The name of the bar, along its other side.
    fn name(&self) -> Item {
        let name = format!("{}, {}", self.name, length_words(self.length, self.units));
        self.words(
            self.length / 2.0,
            -1.2 - 0.73 * NAME * self.size,
            NAME,
            name,
        )
    }

    /// Words about a point of the bar, with their size as a share of the sheet's words.
    fn words(&self, along: f64, left: f64, share: f64, text: String) -> Item {
        words(Text {
            turn: self.turn,
            ..Text::level(
                self.at(along, left),
                (share * self.size).max(font::SMALLEST),
                Anchor::Middle,
                text,
            )
        })
    }
}

/// A thin line to measure along.
pub fn line(from: Point, to: Point) -> Item {
    mark(Shape::Line(Segment::new(from, to)))
}

/// Words.
pub fn words(text: Text) -> Item {
    mark(Shape::Text(text))
}

/// A mark of the test sheet.
pub fn mark(shape: Shape) -> Item {
    Item {
        layer: Layer::Marks,
        line: Line::Drill,
        shape,
    }
}
