//! The room that a bore takes inside the board: a cylinder, and under it what its bottom adds.
//!
//! Depths are measured down from the top face. Everything else that is cut into the board goes straight up or
//! down too (mortises, screws, recesses), so that only the distance from the bore's axis and the depth matter:
//! the three-dimensional distance is one in the half-plane of radius and depth.

use board::{Bore, Bottom};
use geometry::Angle;

/// How far the point of a twist drill reaches below the full diameter: half the diameter over the tangent of half
/// the included angle (0.3004 of the diameter at 118°, 0.2071 at 135°).
fn point_length(diameter: f64, included: f64) -> f64 {
    let half = Angle::degrees(included / 2.0);
    diameter / 2.0 * half.cos() / half.sin()
}

/// How far a bore reaches below its [`Bore::depth`], mm: by the point of the drill or the spur of the bit.
pub fn tip(bore: Bore, spur: f64) -> f64 {
    match bore.bottom {
        Bottom::Flat | Bottom::Ball => 0.0,
        Bottom::Point118 => point_length(bore.diameter, 118.0),
        Bottom::Point135 => point_length(bore.diameter, 135.0),
        Bottom::Forstner => spur,
    }
}

/// The deepest place of a bore below the top face, mm.
pub fn deepest(bore: Bore, spur: f64) -> f64 {
    bore.depth + tip(bore, spur)
}

/// Something upright inside the board, as a bore sees it.
#[derive(Debug, Clone, Copy)]
pub struct Upright {
    /// From the bore's axis to its nearest side, mm; 0 where the axis passes through it.
    pub away: f64,
    /// Depth of its upper end below the top face, mm.
    pub top: f64,
    /// Depth of its lower end, mm.
    pub bottom: f64,
}

impl Upright {
    /// Distance from a place at this radius from the axis and at this depth; 0 within.
    fn from(self, radius: f64, depth: f64) -> f64 {
        let across = (self.away - radius).max(0.0);
        let along = (self.top - depth).max(depth - self.bottom).max(0.0);
        libm::hypot(across, along)
    }
}

/// Wood between a bore and something upright inside the board, mm; 0 where they meet.
pub fn wood_between(bore: Bore, spur: f64, other: Upright) -> f64 {
    let radius = bore.radius();
    match bore.bottom {
        Bottom::Flat => to_cylinder(radius, bore.depth, other),
        Bottom::Point118 | Bottom::Point135 => {
            let point = Taper {
                wide: radius,
                narrow: 0.0,
                depth: bore.depth,
                length: tip(bore, spur),
            };
            to_cylinder(radius, bore.depth, other).min(point.wood_to(other))
        }
        // A spur is about as wide at its root as it is long; from memory.
        Bottom::Forstner => {
            let spur = Taper {
                wide: spur / 2.0,
                narrow: 0.0,
                depth: bore.depth,
                length: spur,
            };
            to_cylinder(radius, bore.depth, other).min(spur.wood_to(other))
        }
        Bottom::Ball if bore.depth >= radius => {
            let middle = bore.depth - radius;
            to_cylinder(radius, middle, other).min(to_ball(middle, radius, other))
        }
        Bottom::Ball => to_cap(radius, bore.depth, other),
    }
}

/// Wood between a V-groove of this width, depth and flat at its tip and something upright inside the board, mm, in a
/// section across the groove; 0 where they meet. The other is as far from the groove's middle as it says.
pub fn wood_under_groove((width, depth, tip): (f64, f64, f64), other: Upright) -> f64 {
    let groove = Taper {
        wide: width / 2.0,
        narrow: tip / 2.0,
        depth: 0.0,
        length: depth,
    };
    groove.wood_to(other)
}

/// To a cylinder from the top face down to a depth.
fn to_cylinder(radius: f64, depth: f64, other: Upright) -> f64 {
    other.from(radius, depth.min(other.bottom))
}

/// A cone, perhaps without its point.
struct Taper {
    /// Radius at its upper end.
    wide: f64,
    /// Radius at its lower end.
    narrow: f64,
    /// Depth of its upper end.
    depth: f64,
    /// How far down it reaches from there.
    length: f64,
}

impl Taper {
    fn wood_to(&self, other: Upright) -> f64 {
        let Self {
            wide,
            narrow,
            depth,
            length,
        } = *self;
        let (end, reach, inward) = (depth + length, other.away, narrow - wide);
        let slant = libm::hypot(inward, length);
        // From either end of the flank, and from the two corners of the other square to the flank.
        let ends = other.from(wide, depth).min(other.from(narrow, end));
        if slant == 0.0 {
            return ends;
        }
        let corner = |corner_depth: f64| {
            let along = ((reach - wide) * inward + (corner_depth - depth) * length) / slant;
            let on = (along / slant).clamp(0.0, 1.0);
            let (r, z) = (wide + on * inward, depth + on * length);
            libm::hypot(reach - r, corner_depth - z)
        };
        let least = ends.min(corner(other.top)).min(corner(other.bottom));
        // They meet where it is as wide as the other is far, at a depth that both have.
        let shared = depth.max(other.top);
        let width = wide + inward * (shared - depth) / length.max(f64::MIN_POSITIVE);
        if shared <= end.min(other.bottom) && width >= reach {
            0.0
        } else {
            least
        }
    }
}

/// To a ball with its middle on the axis at a depth.
fn to_ball(middle: f64, radius: f64, other: Upright) -> f64 {
    (other.from(0.0, middle) - radius).max(0.0)
}

/// To the cap of a ball that is less deep than half the ball: its mouth is as wide as the bore.
fn to_cap(mouth: f64, depth: f64, other: Upright) -> f64 {
    if depth <= 0.0 {
        return other.from(mouth, 0.0);
    }
    let radius = (mouth * mouth + depth * depth) / (2.0 * depth);
    let middle = depth - radius;
    // From the ball's middle, which is above the board, to the nearest place of the other.
    let (across, down) = (other.away, other.top - middle);
    let far = libm::hypot(across, down);
    let touches_below_top = middle + radius * down / far >= 0.0;
    if touches_below_top {
        (far - radius).max(0.0)
    } else {
        other.from(mouth, 0.0)
    }
}

#[cfg(test)]
pub mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn bore(bottom: Bottom, diameter: f64, depth: f64) -> Bore {
        Bore {
            diameter,
            depth,
            bottom,
        }
    }

    /// Lengths of points per diameter: 118° about 0.3005 (trade page, not a standard; exact 0.3004303), 135°
    /// 0.2071068 by computation; a number 37 drill, 0.104 in, has a point of 0.031 in (trade page).
    #[test]
    fn points_are_as_long_as_published() {
        assert_near!(tip(bore(Bottom::Point118, 1.0, 5.0), 0.0), 0.300_430, 1e-6);
        assert_near!(tip(bore(Bottom::Point135, 1.0, 5.0), 0.0), 0.207_107, 1e-6);
        assert_near!(tip(bore(Bottom::Point118, 0.104, 5.0), 0.0), 0.031, 5e-4);
        assert_near!(deepest(bore(Bottom::Forstner, 12.0, 5.0), 2.5), 7.5, 1e-12);
        assert_near!(deepest(bore(Bottom::Ball, 12.0, 5.0), 2.5), 5.0, 1e-12);
    }

    #[test]
    fn a_mortise_below_is_measured_from_the_bottom() {
        let mortise = Upright {
            away: 0.0,
            top: 10.0,
            bottom: 16.0,
        };
        let wood = |bottom| wood_between(bore(bottom, 12.0, 6.0), 2.5, mortise);
        assert_near!(wood(Bottom::Flat), 4.0, 1e-12);
        assert_near!(wood(Bottom::Forstner), 1.5, 1e-12);
        assert_near!(wood(Bottom::Ball), 4.0, 1e-12);
        assert_near!(wood(Bottom::Point135), 4.0 - 12.0 * 0.207_106_781, 1e-8);
    }

    #[test]
    fn a_round_bottom_stays_farther_from_what_is_beside_it_than_a_flat_one() {
        let screw = Upright {
            away: 8.0,
            top: 5.0,
            bottom: 20.0,
        };
        let flat = wood_between(bore(Bottom::Flat, 12.0, 6.0), 0.0, screw);
        let round = wood_between(bore(Bottom::Ball, 12.0, 6.0), 0.0, screw);
        assert_near!(flat, 2.0, 1e-12);
        // The ball's middle is at the top face: the nearest place of the screw is 8 across and 5 down.
        assert_near!(round, libm::hypot(8.0, 5.0) - 6.0, 1e-12);
    }

    /// How wide the bore is at a depth; written from its meaning, not from the code above.
    pub fn width(bore: Bore, spur: f64, depth: f64) -> Option<f64> {
        let radius = bore.radius();
        let below = depth - bore.depth;
        let cone =
            |root: f64, length: f64| (below <= length).then(|| root * (1.0 - below / length));
        match bore.bottom {
            Bottom::Ball if bore.depth >= radius => {
                let middle = bore.depth - radius;
                if depth <= middle {
                    Some(radius)
                } else {
                    let square = radius * radius - (depth - middle) * (depth - middle);
                    (square >= 0.0).then(|| square.sqrt())
                }
            }
            Bottom::Ball => {
                let ball = (radius * radius + bore.depth * bore.depth) / (2.0 * bore.depth);
                let square =
                    ball * ball - (depth - (bore.depth - ball)) * (depth - (bore.depth - ball));
                (square >= 0.0).then(|| square.sqrt())
            }
            _ if below <= 0.0 => Some(radius),
            Bottom::Flat => None,
            Bottom::Forstner => cone(spur / 2.0, spur),
            Bottom::Point118 => cone(radius, radius / libm::tan(59_f64.to_radians())),
            Bottom::Point135 => cone(radius, radius / libm::tan(67.5_f64.to_radians())),
        }
    }

    proptest! {
        /// Therefore two bores drilled straight down are nearest at the top face, where the rule of webs measures.
        #[test]
        fn no_bore_is_wider_below_than_above(
            kind in 0_usize..5,
            sizes in (2.0..40.0_f64, 0.5..30.0_f64, 0.5..4.0_f64),
            depths in (0.0..1.0_f64, 0.0..1.0_f64),
        ) {
            // No bit has a spur wider than itself.
            let spur = sizes.2.min(sizes.0 / 4.0);
            let bore = bore(Bottom::ALL[kind], sizes.0, sizes.1);
            let end = deepest(bore, spur);
            let (above, below) = (depths.0.min(depths.1) * end, depths.0.max(depths.1) * end);
            if let Some(lower) = width(bore, spur, below) {
                prop_assert!(width(bore, spur, above).unwrap() >= lower - 1e-9);
            }
        }

        #[test]
        fn the_wood_is_what_a_search_through_all_depths_finds(
            kind in 0_usize..5,
            sizes in (2.0..40.0_f64, 0.5..30.0_f64, 0.5..4.0_f64),
            place in (0.0..60.0_f64, 0.0..30.0_f64, 0.5..20.0_f64),
        ) {
            let bore = bore(Bottom::ALL[kind], sizes.0, sizes.1);
            let spur = sizes.2;
            let other = Upright { away: place.0, top: place.1, bottom: place.1 + place.2 };
            let steps = 40_000;
            let end = deepest(bore, spur);
            let searched = (0..=steps)
                .filter_map(|step| {
                    let depth = end * f64::from(step) / f64::from(steps);
                    Some(other.from(width(bore, spur, depth)?, depth))
                })
                .fold(f64::INFINITY, f64::min);
            let wood = wood_between(bore, spur, other);
            prop_assert!((wood - searched).abs() < 0.02, "{wood} against {searched}");
        }
    }
}
