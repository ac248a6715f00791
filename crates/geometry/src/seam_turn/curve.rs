//! The gap between one hole and one seam as a function of the hole's rotation.

use super::{Measure, Seam};
use crate::{Angle, Circle, Vec2};

/// The gap `|wave . (cos t, sin t) - offset| - bore` at a rotation of t.
#[derive(Debug, Clone, Copy)]
pub struct Curve {
    /// The index of the hole.
    pub hole: usize,
    /// The index of the seam.
    pub seam: usize,
    /// The fastest that the gap can change, in mm per radian: the hole's distance from the center pin.
    pub rate: f64,
    wave: Vec2,
    offset: f64,
    bore: f64,
}

impl Curve {
    /// The curve of a hole and a seam, each with its index.
    pub fn new(
        (hole, circle): (usize, Circle),
        (seam, line): (usize, Seam),
        measure: Measure,
    ) -> Self {
        let (sin, cos) = line.normal.sin_cos();
        let (normal, arm) = (Vec2::new(sin, cos), circle.center.to_vec2());
        Self {
            hole,
            seam,
            rate: arm.length(),
            // Rotating the hole clockwise is rotating the normal counterclockwise.
            wave: Vec2::new(arm.dot(normal), normal.cross(arm)),
            offset: line.offset,
            bore: match measure {
                Measure::Center => 0.0,
                Measure::Edge => circle.radius,
            },
        }
    }

    /// The gap at a rotation, given as its [`direction`].
    pub fn gap(&self, at: Vec2) -> f64 {
        (self.wave.dot(at) - self.offset).abs() - self.bore
    }

    /// Calls `found` with every rotation at which this curve has a maximum: two per full turn.
    pub fn turning_points(&self, mut found: impl FnMut(f64)) {
        let crest = Angle::atan2(self.wave.y, self.wave.x).as_radians();
        found(crest);
        found(crest + core::f64::consts::PI);
    }

    /// Calls `found` with every rotation at which the gaps of two curves may be equal.
    ///
    /// The sum and the difference of two sinusoids with the same period are also sinusoids, so each pair of signs of the two
    /// gaps gives one equation `wave . (cos t, sin t) = level`.
    pub fn crossings(&self, other: &Self, mut found: impl FnMut(f64)) {
        let wider = self.bore - other.bore;
        let mut meet = |wave: Vec2, level: f64| {
            let crest = Angle::atan2(wave.y, wave.x).as_radians();
            for level in [level + wider, level - wider] {
                let off = Angle::acos(level / wave.length()).as_radians();
                // Curves that never meet, and equal ones, give no finite angle.
                if off.is_finite() {
                    found(crest - off);
                    found(crest + off);
                }
                if wider == 0.0 {
                    break;
                }
            }
        };
        meet(self.wave - other.wave, self.offset - other.offset);
        meet(self.wave + other.wave, self.offset + other.offset);
    }
}

/// The cosine and the sine of a rotation in radians.
pub fn direction(turn: f64) -> Vec2 {
    let (sin, cos) = Angle::radians(turn).sin_cos();
    Vec2::new(cos, sin)
}

/// The least gap of all curves at a rotation in radians; infinite without curves.
pub fn lowest<'a>(curves: impl IntoIterator<Item = &'a Curve>, turn: f64) -> f64 {
    let at = direction(turn);
    curves
        .into_iter()
        .map(|curve| curve.gap(at))
        .fold(f64::INFINITY, f64::min)
}
