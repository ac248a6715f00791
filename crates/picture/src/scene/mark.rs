//! The players' marks on the top face, as outlines that a point is inside of or close to.
//!
//! They come from the drawing of the board, so that the proof shows the same marks as the plan. Curves and letters are cut into
//! sides so short that nobody sees their corners.

use board::Medium;
use drawing::{PlayerMark, Shape, Text, Tinted, font};
use geometry::{Angle, Circle};
use workshop::Tint;

use crate::letters::{Side, sides_of};
use crate::paint::Paint;

/// A painted part of a mark.
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    /// Its paint.
    pub paint: Paint,
    /// The sides of its outline; each of its shapes is closed.
    sides: Vec<Side>,
    /// Half the width of the line along the outline, mm; `None` if the inside is painted.
    half: Option<f64>,
}

/// Number of sides of a circle.
const SIDES: i64 = 96;
/// Width of the line around letters, as a share of their size.
const AROUND_LETTERS: f64 = 0.12;

impl Patch {
    /// The parts of a player's mark in drawing order: the line around it, and the mark.
    pub fn of(mark: &PlayerMark) -> Vec<Self> {
        let line = mark.line.iter().filter_map(|part| {
            let paint = Paint::of(Tint {
                color: part.color,
                medium: Medium::Paint,
            });
            let around = match &part.shape {
                Shape::Text(text) => Some(AROUND_LETTERS * text.size),
                _ => part.stroke,
            };
            Self::part(part, paint, around)
        });
        let paint = Paint::of(mark.tint);
        let inside = mark.inside.iter();
        line.chain(inside.filter_map(|part| Self::part(part, paint, part.stroke)))
            .collect()
    }

    /// One part of a drawing; `None` for a shape that marks do not use.
    fn part(part: &Tinted, paint: Paint, stroke: Option<f64>) -> Option<Self> {
        let sides = match &part.shape {
            Shape::Circle(circle) => around(*circle),
            Shape::Area(corners) => {
                let places = corners.iter().map(|corner| (corner.x, corner.y));
                closed(&places.collect::<Vec<_>>())
            }
            Shape::Text(text) => letters(text),
            _ => return None,
        };
        Some(Self {
            paint,
            sides,
            half: stroke.map(|width| width / 2.0),
        })
    }

    /// Its lower left and upper right corner.
    pub fn bounds(&self) -> [(f64, f64); 2] {
        let places = self.sides.iter().flatten();
        let (mut least, mut most) = ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN));
        for place in places {
            least = (least.0.min(place.0), least.1.min(place.1));
            most = (most.0.max(place.0), most.1.max(place.1));
        }
        let half = self.half.unwrap_or(0.0);
        [
            (least.0 - half, least.1 - half),
            (most.0 + half, most.1 + half),
        ]
    }

    /// Whether a point has its paint.
    pub fn covers(&self, x: f64, y: f64) -> bool {
        match self.half {
            Some(half) => self.sides.iter().any(|side| is_near(side, (x, y), half)),
            None => {
                self.sides
                    .iter()
                    .map(|side| turns(side, (x, y)))
                    .sum::<i32>()
                    != 0
            }
        }
    }
}

/// Whether a point is within `reach` of a side.
fn is_near([from, to]: &Side, (x, y): (f64, f64), reach: f64) -> bool {
    let way = (to.0 - from.0, to.1 - from.1);
    let (x, y) = (x - from.0, y - from.1);
    let square = (way.0 * way.0 + way.1 * way.1).max(1e-12);
    let share = ((x * way.0 + y * way.1) / square).clamp(0.0, 1.0);
    let (x, y) = (x - way.0 * share, y - way.1 * share);
    x * x + y * y <= reach * reach
}

/// The winding of a side around a point: 1 where it passes upward at its right, -1 downward; 0 elsewhere.
fn turns([from, to]: &Side, (x, y): (f64, f64)) -> i32 {
    if (from.1 <= y) == (to.1 <= y) {
        return 0;
    }
    let at = from.0 + (y - from.1) / (to.1 - from.1) * (to.0 - from.0);
    match (at > x, to.1 > from.1) {
        (false, _) => 0,
        (true, true) => 1,
        (true, false) => -1,
    }
}

/// The sides of a shape with these corners.
fn closed(corners: &[(f64, f64)]) -> Vec<Side> {
    let nexts = corners.iter().cycle().skip(1);
    let pairs = corners.iter().zip(nexts);
    pairs.map(|(from, to)| [*from, *to]).collect()
}

/// The sides of a circle.
fn around(circle: Circle) -> Vec<Side> {
    let corner = |number: i64| {
        let (sin, cos) = Angle::turn_part(number, SIDES).sin_cos();
        (
            circle.center.x + circle.radius * sin,
            circle.center.y + circle.radius * cos,
        )
    };
    closed(&(0..SIDES).map(corner).collect::<Vec<_>>())
}

/// The outlines of horizontal words; y runs up in letters, as on the board.
fn letters(text: &Text) -> Vec<Side> {
    let long = font::width(&text.words, text.size, text.weight);
    let left = match text.anchor {
        drawing::Anchor::Start => text.at.x,
        drawing::Anchor::Middle => text.at.x - long / 2.0,
        drawing::Anchor::End => text.at.x - long,
    };
    let upright = |(x, y): (f64, f64)| (left + x, text.at.y - y);
    let sides = sides_of(&text.words, (text.size, text.weight));
    sides.into_iter().map(|side| side.map(upright)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Mark, MarkShape, MarksMade};
    use workshop::Workpiece;

    /// The parts of the first player's mark, 10 mm across, and its center.
    fn first(mark: Mark, outline: bool) -> (Vec<Patch>, (f64, f64)) {
        let mut board = Board::default();
        board.colors.marks = Some(MarksMade {
            outline,
            ..MarksMade::default()
        });
        board.colors.of_player(1).mark = mark;
        let workpiece = Workpiece::of(&board).unwrap();
        let place = workshop::mark_places(&workpiece, 10.0)[0].unwrap();
        let marks = drawing::player_marks(&workpiece);
        (Patch::of(&marks[0]), (place.x, place.y))
    }

    #[test]
    fn a_square_is_full_inside_and_a_ringed_dot_has_a_gap() {
        let shape = MarkShape::Square;
        let (parts, (x, y)) = first(Mark::Solid { shape }, false);
        assert!(parts[0].covers(x, y) && parts[0].covers(x + 3.4, y - 3.4));
        assert!(!parts[0].covers(x + 3.7, y) && !parts[0].covers(x, y + 4.0));
        let shape = MarkShape::Dot;
        let (parts, (x, y)) = first(Mark::Ringed { shape }, false);
        let covers = |off: f64| parts.iter().any(|part| part.covers(x + off, y));
        assert!(covers(0.0) && covers(2.9) && !covers(3.5) && covers(4.6));
    }

    #[test]
    fn the_line_around_a_mark_is_below_it_and_wider() {
        for mark in [
            Mark::Solid {
                shape: MarkShape::Star,
            },
            Mark::Letters { text: "A".into() },
        ] {
            let (parts, _) = first(mark, true);
            let (inside, line) = parts.split_last().unwrap();
            let [low, high] = inside.bounds();
            for way in [(low.0 - 0.2, low.1), (high.0 + 0.2, high.1)] {
                let reaches = |part: &Patch| {
                    let [low, high] = part.bounds();
                    low.0 < way.0 && high.0 > way.0 && low.1 < way.1 && high.1 > way.1
                };
                assert!(line.iter().any(reaches), "{way:?}");
            }
        }
    }

    #[test]
    fn a_letter_stands_upright_and_has_its_counter() {
        let text = "A".into();
        let (parts, (x, y)) = first(Mark::Letters { text }, false);
        let width = |at: f64| {
            let steps = (-60..=60).map(|step| x + f64::from(step) * 0.1);
            steps.filter(|x| parts[0].covers(*x, at)).count()
        };
        // The top of an A is narrow, its bar is wide, and its feet are apart.
        let [low, high] = parts[0].bounds();
        assert!(high.1 - low.1 > 4.0 && (f64::midpoint(low.1, high.1) - y).abs() < 1.0);
        let covered = |share: f64| width(low.1 + share * (high.1 - low.1));
        assert!(
            covered(0.3) > covered(0.95),
            "{} {}",
            covered(0.3),
            covered(0.95)
        );
        assert!(!parts[0].covers(f64::midpoint(low.0, high.0), low.1 + 0.05));
    }
}
