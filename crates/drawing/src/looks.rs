//! The board as a small drawing, and colors and marks in words, for sheets that are black on white.
//!
//! The card for the customer and the first page of the job sheet use them.

use board::{NAMED, Rgb};
use geometry::Arc;
use kurbo::{Circle, Line as Segment, Point};
use workshop::Workpiece;

use crate::plan::plan_without_names;
use crate::{Anchor, Item, Layer, Line, Shape, Text};

/// Size of the players' numbers around the board, mm: 6 pt or more, so that they can be read.
const NUMBER: f64 = 2.8;
/// Room around the board for them, mm.
pub const AROUND: f64 = 1.8 * NUMBER;

/// The board from above in a square of this side, mm, not to scale: edge, grooves and bores, with the number of each player at
/// the rim.
///
/// Its items are in mm from the lower left corner of the square. Names, dimensions and hidden cuts are left out, since nobody
/// could read them at this size.
pub fn small_plan(workpiece: &Workpiece, side: f64) -> Vec<Item> {
    let radius = workpiece.board().blank.radius();
    let scale = (side / 2.0 - AROUND).max(1.0) / radius;
    let middle = Point::new(side / 2.0, side / 2.0);
    let at = |point: Point| middle + point.to_vec2() * scale;
    let shrunk = |item: Item| {
        let is_seen = matches!(item.line, Line::Cut | Line::Groove)
            && matches!(item.layer, Layer::Edge | Layer::Grooves);
        let shape = match item.shape {
            _ if !is_seen => return None,
            Shape::Circle(circle) => {
                Shape::Circle(Circle::new(at(circle.center), circle.radius * scale))
            }
            Shape::Arc(arc) => Shape::Arc(Arc {
                center: at(arc.center),
                radius: arc.radius * scale,
                ..arc
            }),
            Shape::Line(line) => Shape::Line(Segment::new(at(line.p0), at(line.p1))),
            Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => return None,
        };
        Some(Item {
            layer: Layer::Title,
            shape,
            ..item
        })
    };
    let mut items: Vec<Item> = plan_without_names(workpiece)
        .into_iter()
        .filter_map(shrunk)
        .collect();
    let bores = workpiece.mouths().iter().map(|mouth| {
        Item::of_title(
            Line::Drill,
            Shape::Circle(Circle::new(at(mouth.center), mouth.radius * scale)),
        )
    });
    items.extend(bores);
    items.extend(player_numbers(workpiece, side));
    items
}

/// The number of each player at the rim of a board in a square of this side, mm.
pub fn player_numbers(workpiece: &Workpiece, side: f64) -> Vec<Item> {
    let middle = Point::new(side / 2.0, side / 2.0);
    let sectors = workpiece.layout().sectors.iter().zip(1_u32..);
    let number = |(sector, player): (&geometry::Sector, u32)| {
        let out = geometry::point_at(side / 2.0 - 0.5 * AROUND, sector.axis());
        let base = middle + out.to_vec2() - kurbo::Vec2::new(0.0, 0.36 * NUMBER);
        let text = Text::level(base, NUMBER, Anchor::Middle, player.to_string());
        Item::of_title(Line::Dimension, Shape::Text(text))
    };
    sectors.map(number).collect()
}

/// The name of the color that is nearest to one.
///
/// Distance is the sum of the squared differences of red, green and blue: simple, and good enough to name a color. The names
/// are those that a color field accepts.
pub fn near_name(color: Rgb) -> &'static str {
    let off = |other: Rgb| {
        let parts = color.parts().into_iter().zip(other.parts());
        parts
            .map(|(one, two)| i32::from(one.abs_diff(two)).pow(2))
            .sum::<i32>()
    };
    let nearest = NAMED.iter().min_by_key(|(_, named)| off(*named));
    nearest.map_or("", |(name, _)| name)
}

/// A color in words for the maker: its name, or the nearest name with the color's number.
pub fn color_name(color: Rgb) -> String {
    let name = near_name(color);
    if Rgb::named(name) == Some(color) {
        name.into()
    } else {
        format!("{name} ({color})")
    }
}
