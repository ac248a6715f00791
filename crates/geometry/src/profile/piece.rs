//! One piece of a profile, straight or circular.

use core::f64::consts::PI;
use kurbo::Circle;

use crate::Angle;

/// A cap lower than this fraction of its rim's radius is treated as a cone: the radius of its ball is so large that rounding
/// would lose the rim, and infinite for almost no height.
const FLAT: f64 = 1e-5;

/// A piece of a profile between two depths; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Depth of its upper end.
    pub(super) top: f64,
    /// Depth of its lower end.
    pub(super) bottom: f64,
    /// Its radius at its upper end.
    pub(super) above: f64,
    /// Its radius at its lower end.
    pub(super) below: f64,
    /// The circle whose outer half it follows, in the half-plane of radius and depth; `None` for a straight piece.
    pub(super) bend: Option<Circle>,
}

impl Piece {
    /// A cylinder between two depths.
    pub const fn cylinder(radius: f64, top: f64, bottom: f64) -> Self {
        Self::straight((top, radius), (bottom, radius))
    }

    /// A cone, or a frustum, from a depth and the radius there to a lower depth and the radius there.
    pub const fn straight((top, above): (f64, f64), (bottom, below): (f64, f64)) -> Self {
        Self {
            top,
            bottom,
            above,
            below,
            bend: None,
        }
    }

    /// The part within the outer half of a circle in the half-plane with its center at (radius, depth): a part of a ball if the
    /// center is on the axis, of a roundover if it is off the axis. Both depths must be within the circle.
    pub fn round(circle: Circle, top: f64, bottom: f64) -> Self {
        Self {
            top,
            bottom,
            above: outer(circle, top),
            below: outer(circle, bottom),
            bend: Some(circle),
        }
    }

    /// A spherical cap, from the radius and the depth of its rim to the depth of its farthest point: a bowl below the rim, a
    /// crown above it.
    ///
    /// ```
    /// use geometry::{Piece, Profile};
    /// // A ball-nose cutter of 20 mm leaves a dimple 12 mm wide where it goes in by 2.
    /// let dimple = Profile::from(Piece::cap(6.0, 0.0, 2.0));
    /// assert!((dimple.volume() - 117.286).abs() < 1e-3);
    /// assert!((dimple.depth_at(0.0).unwrap() - 2.0).abs() < 1e-12);
    /// ```
    pub fn cap(rim: f64, depth: f64, farthest: f64) -> Self {
        let height = farthest - depth;
        let is_bent = height.abs() > FLAT * rim.abs();
        // With the sign of the height, so that it reaches from the farthest point back to the center.
        let radius = (rim * rim + height * height) / (2.0 * height);
        let bend = is_bent.then(|| Circle::new((0.0, farthest - radius), radius.abs()));
        let (top, bottom) = (depth.min(farthest), depth.max(farthest));
        let (above, below) = if height > 0.0 { (rim, 0.0) } else { (0.0, rim) };
        Self {
            top,
            bottom,
            above,
            below,
            bend,
        }
    }

    /// Height from its upper end to its lower.
    pub(super) const fn height(&self) -> f64 {
        self.bottom - self.top
    }

    /// Whether a depth is within the piece.
    pub(super) fn has(&self, depth: f64) -> bool {
        (self.top..=self.bottom).contains(&depth)
    }

    /// Its radius at a depth; above and below it, that of the nearer end.
    pub(super) fn radius(&self, depth: f64) -> f64 {
        if depth <= self.top {
            self.above
        } else if depth >= self.bottom {
            self.below
        } else if let Some(circle) = self.bend {
            outer(circle, depth)
        } else {
            self.above + (self.below - self.above) * (depth - self.top) / self.height()
        }
    }

    /// The depths between which it has at least this radius; `None` if it does nowhere, or has no height.
    pub(super) fn span(&self, radius: f64) -> Option<(f64, f64)> {
        let Self {
            top,
            bottom,
            above,
            below,
            bend,
        } = *self;
        if bottom <= top {
            return None;
        }
        if let Some(circle) = bend {
            let (middle, reach) = (circle.center.y, reach(circle, radius));
            let (from, to) = (top.max(middle - reach), bottom.min(middle + reach));
            return (from < to).then_some((from, to));
        }
        // The depth at which it has exactly this radius.
        let meets = || top + (bottom - top) * (above - radius) / (above - below);
        match (above >= radius, below >= radius) {
            (true, true) => Some((top, bottom)),
            (true, false) => Some((top, meets())),
            (false, true) => Some((meets(), bottom)),
            (false, false) => None,
        }
    }

    /// The volume of its part between two depths: for a cone between radii a and b over a height h, π h (a² + ab + b²) / 3; for
    /// a ball, π h (3a² + 3b² + h²) / 6. A circle with its center off the axis adds to that a cylinder, and the area beside it
    /// revolved around the axis.
    pub(super) fn volume(&self, upper: f64, lower: f64) -> f64 {
        let Some((first, last)) = self.span(0.0) else {
            return 0.0;
        };
        let (from, to) = (first.max(upper), last.min(lower));
        let height = to - from;
        if height <= 0.0 {
            return 0.0;
        }
        let (a, b) = (self.radius(from), self.radius(to));
        let Some(circle) = self.bend else {
            return PI * height * (a * a + a * b + b * b) / 3.0;
        };
        let beyond = circle.center.x;
        let (a, b) = (a - beyond, b - beyond);
        let ball = PI * height * (3.0 * (a * a + b * b) + height * height) / 6.0;
        if beyond == 0.0 {
            return ball;
        }
        let area = beside(circle, to, b) - beside(circle, from, a);
        ball + PI * beyond * (beyond * height + 2.0 * area)
    }
}

/// Distance of a circle's outer half from the axis at a depth, in mm.
fn outer(circle: Circle, depth: f64) -> f64 {
    let down = depth - circle.center.y;
    let square = (circle.radius - down) * (circle.radius + down);
    (circle.center.x + libm::sqrt(square.max(0.0))).max(0.0)
}

/// The height above and below its center up to which a circle has at least this distance from the axis, in mm.
pub(super) fn reach(circle: Circle, radius: f64) -> f64 {
    let short = (radius - circle.center.x).max(0.0);
    libm::sqrt((circle.radius * circle.radius - short * short).max(0.0))
}

/// The area between the vertical line through a circle's center and its outer half, from the center's depth to another depth,
/// where the circle is `out` from the center.
fn beside(circle: Circle, depth: f64, out: f64) -> f64 {
    let down = depth - circle.center.y;
    let turn = Angle::asin((down / circle.radius).clamp(-1.0, 1.0));
    f64::midpoint(
        down * out,
        circle.radius * circle.radius * turn.as_radians(),
    )
}
