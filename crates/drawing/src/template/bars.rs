//! Bars for checking the size of a print: 100 mm and 4 in along one line.
//!
//! A bar is measured with a rule in either unit before anything is drilled. Four inches are 101.6 mm, so that both scales share
//! one line.

use board::{INCH, Units};
use geometry::Angle;
use kurbo::{Line as Segment, Point, Size, Vec2};

use crate::{Anchor, Item, Layer, Line, Shape, Text};

/// A bar with millimeters on one side and inches on the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// Whole millimeters it measures, a multiple of 10.
    pub mm: u32,
    /// Whole inches it measures.
    pub inches: u32,
}

/// The bars to try, longest first.
pub const BARS: [Bar; 3] = [
    Bar { mm: 100, inches: 4 },
    Bar { mm: 50, inches: 2 },
    Bar { mm: 20, inches: 1 },
];

/// Room beside the line for ticks and digits, mm.
const DEPTH: f64 = 9.0;
/// Room at the ends for digits, mm.
const ENDS: f64 = 2.0;
/// Size of the digits, mm.
const FIGURE: f64 = 2.2;

/// The longest bar that fits into a length.
pub fn longest_bar(room: f64) -> Option<Bar> {
    BARS.into_iter()
        .find(|bar| bar.length() + 2.0 * ENDS <= room)
}

impl Bar {
    /// Length of the longer of its two scales, mm.
    fn length(self) -> f64 {
        f64::from(self.mm).max(f64::from(self.inches) * INCH)
    }

    /// The room that a horizontal bar takes.
    pub fn room(self) -> Size {
        Size::new(self.length() + 2.0 * ENDS, DEPTH)
    }

    /// A horizontal bar in the block whose lower left corner is given.
    pub fn level(self, corner: Point) -> Vec<Item> {
        let start = corner + Vec2::new(ENDS, DEPTH / 2.0);
        self.draw(start, Vec2::new(1.0, 0.0), Angle::ZERO)
    }

    /// A vertical bar in the block (the rotated room) whose lower left corner is given.
    pub fn upright(self, corner: Point) -> Vec<Item> {
        let start = corner + Vec2::new(DEPTH / 2.0, ENDS);
        self.draw(start, Vec2::new(0.0, 1.0), Angle::degrees(90.0))
    }

    /// The bar along a direction, with millimeters at its left and inches at its right.
    ///
    /// There is a tick at every 10 mm, longer at 0, at 50 and at the end, and at every quarter of an inch, longer at whole
    /// inches.
    fn draw(self, start: Point, along: Vec2, turn: Angle) -> Vec<Item> {
        let left = Vec2::new(-along.y, along.x);
        let mut items = vec![stroke(start, start + along * self.length())];
        for mm in 0..=self.mm / 10 {
            let long = mm == 0 || mm * 10 == self.mm || mm == 5;
            items.push(stroke(
                start + along * f64::from(mm * 10),
                start + along * f64::from(mm * 10) + left * tick(long),
            ));
        }
        for quarter in 0..=self.inches * 4 {
            let at = start + along * (f64::from(quarter) * INCH / 4.0);
            items.push(stroke(at, at - left * tick(quarter % 4 == 0)));
        }
        let words = [
            (f64::from(self.mm), left * (tick(true) + 0.5), Units::Mm),
            (
                f64::from(self.inches) * INCH,
                -left * (tick(true) + 0.5 + 0.73 * FIGURE),
                Units::INCH,
            ),
        ];
        items.extend(
            words.map(|(end, aside, units)| self.figure(start + along * end + aside, turn, units)),
        );
        items
    }

    /// The length of a scale at its end, "100 mm" or "4 in"; the text ends there, so that it keeps clear of the board.
    fn figure(self, at: Point, turn: Angle, units: Units) -> Item {
        let words = match units {
            Units::Mm => format!("{} mm", self.mm),
            Units::Inch(_) => format!("{}\"", self.inches),
        };
        let text = Text {
            turn,
            ..Text::level(at, FIGURE, Anchor::End, words)
        };
        Item {
            layer: Layer::Marks,
            line: Line::Dimension,
            shape: Shape::Text(text),
        }
    }
}

/// Length of a tick, mm.
fn tick(long: bool) -> f64 {
    if long { 2.0 } else { 1.2 }
}

/// A stroke of a bar, as thin as a dimension line.
fn stroke(from: Point, to: Point) -> Item {
    Item {
        layer: Layer::Marks,
        line: Line::Dimension,
        shape: Shape::Line(Segment::new(from, to)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    fn longest_line(items: &[Item]) -> f64 {
        let lengths = items.iter().filter_map(|item| match item.shape {
            Shape::Line(line) => Some((line.p1 - line.p0).length()),
            _ => None,
        });
        lengths.fold(0.0, f64::max)
    }

    #[test]
    fn the_bar_has_its_stated_length_in_both_units() {
        let bar = longest_bar(190.0).unwrap();
        assert_eq!((bar.mm, bar.inches), (100, 4));
        for items in [bar.level(Point::ORIGIN), bar.upright(Point::ORIGIN)] {
            assert_near!(longest_line(&items), 101.6, 1e-9);
        }
    }

    #[test]
    fn its_items_stay_in_its_room() {
        let bar = longest_bar(190.0).unwrap();
        let room = bar.room().to_rect().inflate(0.01, 0.01);
        for item in bar.level(Point::ORIGIN) {
            assert!(room.contains_rect(item.shape.bounds()), "{:?}", item.shape);
        }
    }

    #[test]
    fn small_paper_gets_a_shorter_bar_or_none() {
        assert_eq!(longest_bar(60.0), Some(Bar { mm: 50, inches: 2 }));
        assert_eq!(longest_bar(10.0), None);
    }
}
