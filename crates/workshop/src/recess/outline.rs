//! The outline of a recess, seen from above: a circle, or straight sides with corners as round as the bit leaves them.
//!
//! Either is every place that is no farther than a radius from a rectangle, of which a circle has no more than its middle.
//! Distances to such a shape are exact: those to the rectangle, less the radius.

use board::{Recess, RecessShape};
use core::f64::consts::PI;
use geometry::Point;

use super::HAIR;
use crate::blank::panel::TenonPlace;

/// Distance from a point of the board to a recess, seen from above, mm; 0 over it.
pub fn away(recess: &Recess, point: Point) -> f64 {
    let from = point - middle(recess);
    let outline = Outline::of(recess.shape);
    let [x, y] = outline.half;
    let across = libm::hypot((from.x.abs() - x).max(0.0), (from.y.abs() - y).max(0.0));
    (across - outline.round).max(0.0)
}

/// Distance from a tenon to a recess, seen from above, mm; 0 where they overlap.
pub fn away_from_tenon(recess: &Recess, tenon: &TenonPlace) -> f64 {
    let outline = Outline::of(recess.shape);
    let [x, y] = outline.half;
    let grown = TenonPlace {
        half_length: tenon.half_length + x,
        reach: tenon.reach + y,
        ..*tenon
    };
    (grown.away(middle(recess)) - outline.round).max(0.0)
}

/// Distance of the farthest place of a recess from the center pin, mm.
pub fn farthest(recess: &Recess) -> f64 {
    let [x, y] = recess.at;
    let outline = Outline::of(recess.shape);
    let [half_x, half_y] = outline.half;
    libm::hypot(x.abs() + half_x, y.abs() + half_y) + outline.round
}

/// Its middle on the board.
pub const fn middle(recess: &Recess) -> Point {
    let [x, y] = recess.at;
    Point::new(x, y)
}

/// The area of a recess, mm².
///
/// A rounded corner takes (1 − π/4) r² off the rectangle's.
pub fn area(shape: RecessShape) -> f64 {
    Outline::of(shape).area()
}

/// A rectangle about the middle, grown all round.
#[derive(Debug, Clone, Copy)]
pub(super) struct Outline {
    /// Half the sides of the rectangle, mm.
    half: [f64; 2],
    /// By how much it is grown, mm.
    round: f64,
}

impl Outline {
    /// A circle as a point that is grown, a rectangle as a smaller one that is grown by its corners' radius.
    pub(super) fn of(shape: RecessShape) -> Self {
        let (round, (length, width)) = (shape.corner(), shape.sides());
        Self {
            half: [length / 2.0 - round, width / 2.0 - round],
            round,
        }
    }

    /// Half of all of its height.
    pub(super) const fn reach(&self) -> f64 {
        self.half[1] + self.round
    }

    /// Where the middles of discs of this radius are that lie wholly in it; none where none does.
    pub(super) fn less(&self, by: f64) -> Option<Self> {
        let round = (self.round - by).max(0.0);
        let half = self.half.map(|half| half + self.round - by - round);
        (half[0] > -HAIR && half[1] > -HAIR).then_some(Self { half, round })
    }

    /// Its area, mm²: the rectangle, a strip along each side, and the corners, which make one circle.
    pub(super) fn area(&self) -> f64 {
        let [length, width] = self.half.map(|half| 2.0 * (half + self.round).max(0.0));
        length * width - (4.0 - PI) * self.round * self.round
    }

    /// How far it reaches to either side at a height above its middle, mm; none above it.
    pub(super) fn half_chord(&self, height: f64) -> Option<f64> {
        let [half, straight] = self.half;
        let over = (height.abs() - straight).max(0.0);
        let square = self.round * self.round - over * over;
        (over <= self.round + HAIR).then(|| half + libm::sqrt(square.max(0.0)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn straight(length: f64, width: f64, corner: f64) -> Recess {
        Recess {
            shape: RecessShape::Straight {
                length,
                width,
                corner,
            },
            at: [10.0, 0.0],
            ..Recess::default()
        }
    }

    #[test]
    fn distances_are_those_of_the_outline() {
        let round = Recess {
            at: [10.0, 0.0],
            ..Recess::default()
        };
        assert_near!(away(&round, Point::new(80.0, 0.0)), 10.0, 1e-12);
        assert_near!(farthest(&round), 70.0, 1e-12);
        let square = straight(40.0, 20.0, 0.0);
        assert_near!(away(&square, Point::new(33.0, 14.0)), 5.0, 1e-12);
        assert_near!(farthest(&square), libm::hypot(30.0, 10.0), 1e-12);
        let tenon = |x| TenonPlace {
            center: Point::new(x, 30.0),
            half_length: 20.0,
            reach: 15.0,
            place: crate::EdgePlace::Inside,
        };
        assert_near!(away_from_tenon(&square, &tenon(10.0)), 5.0, 1e-12);
        // Corner to corner, 3 and 5 apart; then with a corner of radius 4 about (26, 6).
        let apart = libm::hypot(3.0, 5.0);
        assert_near!(away_from_tenon(&square, &tenon(53.0)), apart, 1e-12);
        let rounded = straight(40.0, 20.0, 4.0);
        let apart = libm::hypot(7.0, 9.0) - 4.0;
        assert_near!(away_from_tenon(&rounded, &tenon(53.0)), apart, 1e-12);
        let apart = libm::hypot(7.0, 8.0) - 4.0;
        assert_near!(away(&rounded, Point::new(33.0, 14.0)), apart, 1e-12);
        assert_near!(away(&rounded, Point::new(15.0, 14.0)), 4.0, 1e-12);
        assert_near!(farthest(&rounded), libm::hypot(26.0, 6.0) + 4.0, 1e-12);
    }

    #[test]
    fn a_square_that_is_all_corner_is_a_circle() {
        let shape = straight(40.0, 40.0, 20.0).shape;
        assert_near!(area(shape), PI * 400.0, 1e-9);
        assert_near!(
            area(RecessShape::Round { diameter: 40.0 }),
            PI * 400.0,
            1e-9
        );
        // Of corners that are rounder than the sides let them be, as much as there is room for.
        assert_near!(area(straight(40.0, 40.0, 70.0).shape), PI * 400.0, 1e-9);
        assert_near!(area(straight(40.0, 20.0, 0.0).shape), 800.0, 1e-12);
    }

    proptest! {
        #[test]
        fn the_area_is_what_its_chords_sum_up_to(
            sides in (1.0..200.0_f64, 1.0..200.0_f64),
            share in 0.0..1.0_f64,
            strip in 0.0..30.0_f64,
        ) {
            let corner = share * sides.0.min(sides.1) / 2.0;
            let shape = straight(sides.0, sides.1, corner).shape;
            let Some(outline) = Outline::of(shape).less(strip) else {
                prop_assert!(sides.0.min(sides.1) <= 2.0 * strip);
                return Ok(());
            };
            let steps = 20_000;
            let step = 2.0 * outline.reach() / f64::from(steps);
            let sum: f64 = (0..steps)
                .map(|at| (f64::from(at) + 0.5) * step - outline.reach())
                .map(|height| 2.0 * outline.half_chord(height).unwrap() * step)
                .sum();
            prop_assert!((sum - outline.area()).abs() < 1e-3 * (1.0 + outline.area()));
        }

        /// Whoever walks around the outline finds no place nearer.
        #[test]
        fn the_distance_is_that_to_the_nearest_place_of_the_outline(
            sides in (2.0..200.0_f64, 2.0..200.0_f64),
            share in 0.0..1.0_f64,
            point in (-200.0..200.0_f64, -200.0..200.0_f64),
        ) {
            let corner = share * sides.0.min(sides.1) / 2.0;
            let recess = straight(sides.0, sides.1, corner);
            let outline = Outline::of(recess.shape);
            let point = Point::new(point.0, point.1);
            let steps = 4000;
            let walked = (0..=steps)
                .flat_map(|at| {
                    let height = (2.0 * f64::from(at) / f64::from(steps) - 1.0) * outline.reach();
                    let half = outline.half_chord(height).unwrap();
                    [-half, half].map(|x| (x, height))
                })
                // From the chord at this height, of which the nearest place counts.
                .map(|(x, height)| {
                    let from = point - middle(&recess);
                    let along = (from.x.abs() - x.abs()).max(0.0);
                    libm::hypot(along, from.y - height)
                })
                .fold(f64::INFINITY, f64::min);
            prop_assert!((walked - away(&recess, point)).abs() < 2.0, "{walked}");
            prop_assert!(walked >= away(&recess, point) - 1e-9);
        }
    }
}
