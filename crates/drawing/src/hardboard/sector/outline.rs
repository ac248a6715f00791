//! The outline of a sector jig: wood of constant width beside everything that is drilled in it.
//!
//! The jig is a sector of a disc with a hub, the smallest piece of hardboard that has enough wood beside every hole. Where
//! hardly anything would be cut off it stays a whole disc, which is turned on the lathe or sawn on the pin in one go.

use board::{Board, Hole};
use geometry::{Angle, Arc, bearing_of, point_at};
use kurbo::{Circle, Line as Segment, Point};
use workshop::SectorPlan;

use crate::Shape;

/// Hardboard beside the outermost holes and around the pin, mm; common practice, no source.
pub const WOOD: f64 = 20.0;

/// Two sides beside the outermost bearings, an outer arc, and a hub around the pin.
pub struct Outline {
    /// Bearing of the first hole, counterclockwise.
    from: Angle,
    /// Angle clockwise from there to the last hole.
    sweep: Angle,
    /// Distance from those bearings to the sides, which is also the radius of the hub, mm.
    hub: f64,
    /// Radius of the outer arc, mm.
    outer: f64,
}

impl Outline {
    /// The outline around all holes of a jig.
    pub fn of(board: &Board, jig: &SectorPlan) -> Self {
        let axis = Angle::degrees(board.rotation);
        let off = |at: Point| (bearing_of(at) - axis).wrapped_to_half_turns().as_degrees();
        // Half a turn back equals half a turn forward; index holes count as back.
        let back = |at: Point| match off(at) {
            half if half > 180.0 - 1e-6 => half - 360.0,
            other => other,
        };
        let own = jig.holes.iter().map(Hole::mouth);
        let own = own.map(|hole| (off(hole.center), hole));
        let index = jig
            .index
            .iter()
            .map(|hole| (back(hole.mouth.center), hole.mouth));
        let (mut low, mut high, mut outer) = (0.0_f64, 0.0_f64, 0.0_f64);
        let mut widest = board.jig.pin / 2.0;
        for (off, hole) in own.chain(index) {
            low = low.min(off);
            high = high.max(off);
            outer = outer.max(hole.center.to_vec2().length() + hole.radius);
            widest = widest.max(hole.radius);
        }
        Self {
            from: axis + Angle::degrees(low),
            sweep: Angle::degrees(high - low),
            hub: widest + WOOD,
            outer: outer.max(widest) + WOOD,
        }
    }

    /// Its lines, from the first side clockwise.
    ///
    /// A side runs beside the bearing of an outermost hole at the hub's radius, so that it touches the hub and meets the outer
    /// arc at an angle of asin(hub / outer) from that bearing.
    pub fn shapes(&self) -> Vec<Shape> {
        if self.is_whole() {
            return vec![Shape::Circle(Circle::new(Point::ORIGIN, self.outer))];
        }
        let quarter = Angle::degrees(90.0);
        let to = self.from + self.sweep;
        let open = Angle::TURN - self.sweep;
        let aside = Angle::asin((self.hub / self.outer).min(1.0));
        // Where less than half the disc is cut away, the sides meet before they reach the hub.
        let is_wide = open.as_degrees() < 180.0;
        let corner = point_at(self.meeting(), to + open / 2.0);
        let [left, right] = [(self.from, -quarter, -aside), (to, quarter, aside)].map(
            |(bearing, beside, aside)| {
                let inner = point_at(self.hub, bearing + beside);
                let start = if is_wide { corner } else { inner };
                Shape::Line(Segment::new(start, point_at(self.outer, bearing + aside)))
            },
        );
        let arc = |radius, start: Angle, sweep: Angle| {
            Shape::Arc(Arc {
                center: Point::ORIGIN,
                radius,
                start,
                sweep,
            })
        };
        let rim = arc(self.outer, self.from - aside, self.sweep + aside * 2.0);
        let hub = (!is_wide).then(|| arc(self.hub, to + quarter, open - quarter * 2.0));
        [left, rim, right].into_iter().chain(hub).collect()
    }

    /// Whether a point is on the jig.
    pub fn contains(&self, at: Point) -> bool {
        let out = at.to_vec2().length();
        let round = (bearing_of(at) - self.from).wrapped().as_degrees();
        let beside = |bearing: Angle| {
            let way = point_at(1.0, bearing).to_vec2();
            at.to_vec2().dot(way) >= 0.0 && at.to_vec2().cross(way).abs() <= self.hub
        };
        let within = || {
            self.is_whole()
                || round <= self.sweep.as_degrees()
                || beside(self.from)
                || beside(self.from + self.sweep)
        };
        out <= self.hub || (out <= self.outer && within())
    }

    /// Distance from the pin at which the sides meet where less than half the disc is cut away, mm.
    fn meeting(&self) -> f64 {
        let open = Angle::TURN - self.sweep;
        self.hub / (open / 2.0).sin().abs().max(1e-9)
    }

    /// Whether the jig is a whole disc: a shallow notch is not worth a cut.
    fn is_whole(&self) -> bool {
        self.sweep.as_degrees() > 180.0 && self.outer - self.meeting() < WOOD / 2.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The ends of every line and arc.
    fn ends(shape: &Shape) -> Option<[Point; 2]> {
        match shape {
            Shape::Line(line) => Some([line.p0, line.p1]),
            Shape::Arc(arc) => Some([arc.at(0.0), arc.at(1.0)]),
            _ => None,
        }
    }

    fn along(shape: &Shape, share: f64) -> Point {
        match shape {
            Shape::Line(line) => line.p0.lerp(line.p1, share),
            Shape::Arc(arc) => arc.at(share),
            Shape::Circle(circle) => Arc::from(*circle).at(share),
            _ => Point::ORIGIN,
        }
    }

    proptest! {
        #[test]
        fn lines_close_and_bound_the_jig(
            from in -180.0..180.0_f64, sweep in 0.0..359.0_f64, hub in 15.0..40.0_f64, outer in 60.0..300.0_f64,
        ) {
            let outline = Outline { from: Angle::degrees(from), sweep: Angle::degrees(sweep), hub, outer };
            let shapes = outline.shapes();
            let ends: Vec<Point> = shapes.iter().filter_map(ends).flatten().collect();
            for (at, end) in ends.iter().enumerate() {
                let meets = |(other, point): (usize, &Point)| other / 2 != at / 2 && point.distance(*end) < 1e-6;
                prop_assert!(ends.iter().enumerate().any(meets), "{end:?} is loose");
            }
            for shape in &shapes {
                for share in [0.1, 0.35, 0.6, 0.9] {
                    let at = along(shape, share);
                    let around = (0..64).map(|step| at + point_at(0.05, Angle::turn_part(step, 64)).to_vec2());
                    let inside = around.filter(|point| outline.contains(*point)).count();
                    prop_assert!((16..=48).contains(&inside), "{inside} of 64 around {at:?} of {shape:?}");
                }
            }
        }
    }
}
