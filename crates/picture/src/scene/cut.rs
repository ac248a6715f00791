//! V-grooves: the cut around the path of the bit, as straight pieces.
//!
//! A groove is so narrow that rays are not traced into it: the position on the top face gives the depth there and the direction
//! of the groove's side. Light that passes over the near edge reaches the far side; the rest follows from depth and width.

use workshop::Stroke;

use crate::paint::Paint;
use crate::space::Space;

/// A straight piece of a groove's center line.
///
/// Curves are cut into pieces so short that nobody sees their corners, so for grooves of every shape, a point only needs the
/// nearest of a few straight pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutLine {
    /// Its start.
    from: (f64, f64),
    /// The vector to its end.
    way: (f64, f64),
    /// 1 divided by the square of its length; 0 for a point.
    share: f64,
    /// The color painted into it, if any.
    pub paint: Option<Paint>,
}

/// The cross-section of every groove: half its width, its depth, and half the flat that the tip of the bit leaves, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vee {
    /// Half its width at the top face.
    pub half: f64,
    /// Its depth.
    pub depth: f64,
    /// Half the width of its floor.
    pub floor: f64,
}

/// A point in a groove.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InGroove {
    /// Distance from the center line.
    pub off: f64,
    /// The unit vector from the center line to the point.
    pub aside: (f64, f64),
    /// The color painted into it, if any.
    pub paint: Option<Paint>,
}

/// Greatest distance of a straight piece from its curve, mm, and least length of a piece, mm.
const FINE: (f64, f64) = (0.012, 0.3);

/// The pieces of a stroke.
pub fn lines_of(stroke: &Stroke, paint: Option<Paint>) -> Vec<CutLine> {
    let radius = match stroke {
        Stroke::Line(_) => f64::INFINITY,
        Stroke::Arc(arc) => arc.radius,
        Stroke::Circle(circle) => circle.radius,
    };
    // A chord of length s deviates from its circle by s² / 8r.
    let step = (8.0 * FINE.0 * radius).sqrt().max(FINE.1);
    let count = ((stroke.length() / step).ceil() as usize).clamp(1, 2000);
    let at = |number: usize| stroke.at(number as f64 / count as f64);
    (0..count)
        .map(|number| {
            let (from, to) = (at(number), at(number + 1));
            let way = to - from;
            let square = way.hypot2();
            CutLine {
                from: (from.x, from.y),
                way: (way.x, way.y),
                share: if square > 0.0 { 1.0 / square } else { 0.0 },
                paint,
            }
        })
        .collect()
}

impl CutLine {
    /// Both its ends.
    pub fn ends(&self) -> [(f64, f64); 2] {
        let to = (self.from.0 + self.way.0, self.from.1 + self.way.1);
        [self.from, to]
    }

    /// The vector to a point from the nearest point of the line.
    pub fn to(&self, x: f64, y: f64) -> (f64, f64) {
        let (x, y) = (x - self.from.0, y - self.from.1);
        let share = ((x * self.way.0 + y * self.way.1) * self.share).clamp(0.0, 1.0);
        (x - self.way.0 * share, y - self.way.1 * share)
    }
}

impl Vee {
    /// The nearest piece at a point, if the point is in a groove.
    pub fn nearest<'a>(
        &self,
        lines: impl Iterator<Item = &'a CutLine>,
        x: f64,
        y: f64,
    ) -> Option<InGroove> {
        let mut nearest: Option<(f64, (f64, f64), Option<Paint>)> = None;
        let mut least = self.half * self.half;
        for line in lines {
            let way = line.to(x, y);
            let square = way.0 * way.0 + way.1 * way.1;
            if square < least {
                least = square;
                nearest = Some((square, way, line.paint));
            }
        }
        let (square, way, paint) = nearest?;
        let off = square.sqrt();
        let scale = 1.0 / off.max(1e-9);
        Some(InGroove {
            off,
            aside: (way.0 * scale, way.1 * scale),
            paint,
        })
    }

    /// Depth at a distance from the center line, mm.
    pub fn depth_at(&self, off: f64) -> f64 {
        let side = (self.half - self.floor).max(1e-6);
        self.depth * ((self.half - off) / side).clamp(0.0, 1.0)
    }

    /// The normal of the side at a point.
    pub fn out(&self, at: &InGroove) -> Space {
        if at.off < self.floor {
            return Space::UP;
        }
        // At the very center the two sides meet; there the normal points up.
        let steep = self.depth / (self.half - self.floor).max(1e-6);
        let ease = (at.off / (0.12 * self.half)).min(1.0) * steep;
        Space::new(-at.aside.0 * ease, -at.aside.1 * ease, 1.0).unit()
    }

    /// Share of the lamp's light that reaches a point in it.
    pub fn lit(&self, at: &InGroove, light: Space) -> f64 {
        let across = light.x * at.aside.0 + light.y * at.aside.1;
        let leaves = at.off + across / light.z.max(0.05) * self.depth_at(at.off);
        let soft = 0.15 * self.half;
        1.0 - eased_out(leaves.abs() - self.half, soft)
    }

    /// Share of the sky visible from a point in it.
    pub fn open(&self, at: &InGroove) -> f64 {
        0.42 + 0.58 * (at.off / self.half).clamp(0.0, 1.0)
    }
}

/// 0 well inside and 1 well outside, with a smooth step over the soft edge.
fn eased_out(off: f64, soft: f64) -> f64 {
    crate::space::eased(-soft, soft, off)
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::Circle;
    use testkit::assert_near;

    const VEE: Vee = Vee {
        half: 1.0,
        depth: 1.5,
        floor: 0.0,
    };

    #[test]
    fn a_ring_is_found_all_around() {
        let lines = lines_of(&Stroke::Circle(Circle::new((0.0, 0.0), 20.0)), None);
        for bearing in 0..60 {
            let (sin, cos) = geometry::Angle::turn_part(bearing, 60).sin_cos();
            let at = VEE.nearest(lines.iter(), sin * 20.5, cos * 20.5).unwrap();
            assert_near!(at.off, 0.5, 0.05);
            assert_near!(VEE.depth_at(at.off), 0.75, 0.08);
        }
        assert!(VEE.nearest(lines.iter(), 0.0, 0.0).is_none());
    }

    #[test]
    fn the_side_facing_the_light_is_lit() {
        let light = Space::new(-1.0, 0.0, 1.0).unit();
        let at = |x: f64| InGroove {
            off: 0.6,
            aside: (x, 0.0),
            paint: None,
        };
        assert!(VEE.out(&at(1.0)).dot(light) > VEE.out(&at(-1.0)).dot(light));
        assert!(VEE.lit(&at(1.0), light) > 0.9);
        assert!(VEE.lit(&at(-1.0), light) < VEE.lit(&at(1.0), light));
    }
}
