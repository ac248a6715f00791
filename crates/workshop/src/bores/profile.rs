//! The shape of a bore, as a profile about its axis: the only place that defines the shape of each bottom.
//!
//! Depths are measured down from the top face.

use board::{Bore, Bottom};
use core::f64::consts::PI;
use geometry::{Angle, Piece, Profile};

/// A bore as the drill leaves it; `spur` is the length of a Forstner bit's spur, mm.
///
/// ```
/// use board::{Bore, Bottom};
/// let bore = Bore { diameter: 12.0, depth: 5.0, bottom: Bottom::Point118 };
/// let profile = workshop::bore_profile(bore, 2.5);
/// assert_eq!(profile.radius_at(4.0), Some(6.0));
/// assert!((profile.bottom() - 8.605_163_7).abs() < 1e-6);
/// ```
pub fn bore_profile(bore: Bore, spur: f64) -> Profile {
    let (radius, depth) = (bore.radius(), bore.depth);
    let wall = |down| Profile::from(Piece::cylinder(radius, 0.0, down));
    let pointed = |root: f64, length: f64| {
        wall(depth).with(Piece::straight((depth, root), (depth + length, 0.0)))
    };
    match bore.bottom {
        Bottom::Flat => wall(depth),
        Bottom::Point118 => pointed(radius, point_length(radius, 118.0)),
        Bottom::Point135 => pointed(radius, point_length(radius, 135.0)),
        // A spur is about as wide at its root as it is long; from memory.
        Bottom::Forstner => pointed(spur / 2.0, spur),
        // A bore shallower than half the ball has a mouth as wide as the bore.
        Bottom::Ball => {
            let straight = (depth - radius).max(0.0);
            wall(straight).with(Piece::cap(radius, straight, depth))
        }
    }
}

/// Length of a twist drill's point below the full diameter, mm: half the diameter over the tangent of half
/// the included angle (0.3004 of the diameter at 118°, 0.2071 at 135°).
fn point_length(radius: f64, included: f64) -> f64 {
    let half = Angle::degrees(included / 2.0);
    radius * half.cos() / half.sin()
}

/// The depth of the deepest point of a bore below the top face, mm.
pub fn deepest(bore: Bore, spur: f64) -> f64 {
    bore_profile(bore, spur).bottom()
}

/// Length of a bore below its [`Bore::depth`], mm: the point of the drill or the spur of the bit.
///
/// ```
/// use board::{Bore, Bottom};
/// let bore = |bottom| Bore { diameter: 10.0, depth: 5.0, bottom };
/// assert_eq!(workshop::tip(bore(Bottom::Flat), 2.0), 0.0);
/// assert_eq!(workshop::tip(bore(Bottom::Forstner), 2.0), 2.0);
/// assert!((workshop::tip(bore(Bottom::Point118), 2.0) - 3.004).abs() < 1e-3);
/// ```
pub fn tip(bore: Bore, spur: f64) -> f64 {
    deepest(Bore { depth: 0.0, ..bore }, spur)
}

/// Depth below the top face of the lowest point of a ball set into a bore, mm. The pit of a Forstner bit's spur does not lower
/// it.
pub fn lowest(bore: Bore, diameter: f64) -> f64 {
    bore_profile(bore, 0.0).rest(diameter / 2.0).lowest
}

/// The volume of a ball, mm³: π d³ / 6.
///
/// ```
/// assert!((workshop::ball_volume(10.0) - 523.599).abs() < 1e-3);
/// ```
pub fn ball_volume(diameter: f64) -> f64 {
    PI * diameter * diameter * diameter / 6.0
}

#[cfg(test)]
pub mod tests {
    use super::*;
    use geometry::Upright;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn bore(bottom: Bottom, diameter: f64, depth: f64) -> Bore {
        Bore {
            diameter,
            depth,
            bottom,
        }
    }

    /// Length of a drill point per diameter: 118° about 0.3005 (trade page, not a standard; exact 0.3004303), 135° 0.2071068 by
    /// computation; the point of a number 37 drill, 0.104 in, is 0.031 in (trade page).
    #[test]
    fn points_are_as_long_as_published() {
        assert_near!(tip(bore(Bottom::Point118, 1.0, 5.0), 0.0), 0.300_430, 1e-6);
        assert_near!(tip(bore(Bottom::Point135, 1.0, 5.0), 0.0), 0.207_107, 1e-6);
        assert_near!(tip(bore(Bottom::Point118, 0.104, 5.0), 0.0), 0.031, 5e-4);
        assert_near!(deepest(bore(Bottom::Forstner, 12.0, 5.0), 2.5), 7.5, 1e-12);
        assert_near!(deepest(bore(Bottom::Ball, 12.0, 5.0), 2.5), 5.0, 1e-12);
    }

    #[test]
    fn wood_above_a_mortise_is_measured_from_the_bottom_of_the_bore() {
        let mortise = Upright {
            away: 0.0,
            top: 10.0,
            bottom: 16.0,
        };
        let wood = |bottom| bore_profile(bore(bottom, 12.0, 6.0), 2.5).distance(mortise);
        assert_near!(wood(Bottom::Flat), 4.0, 1e-12);
        assert_near!(wood(Bottom::Forstner), 1.5, 1e-12);
        assert_near!(wood(Bottom::Ball), 4.0, 1e-12);
        assert_near!(wood(Bottom::Point135), 4.0 - 12.0 * 0.207_106_781, 1e-8);
    }

    /// The center of a ball of radius r in a cone of included angle A is r / sin(A/2) above the apex: 9.333068 for r 8 at 118°.
    #[test]
    fn a_ball_settles_into_the_point() {
        let apex = 20.0 + 16.0 * 0.300_430_309_5;
        let point = bore(Bottom::Point118, 16.0, 20.0);
        assert_near!(lowest(point, 16.0), apex - 9.333_068 + 8.0, 1e-5);
        let spur = bore(Bottom::Forstner, 16.0, 20.0);
        assert_near!(lowest(spur, 16.0), 20.0, 0.0);
    }

    /// Width of the bore at a depth, mm; written from its definition, independently of the code above.
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
        /// No bore is wider below than above: two vertical bores are nearest at the top face, where the rule about webs
        /// measures.
        #[test]
        fn a_bore_has_the_shape_of_its_bottom_and_never_widens_below(
            kind in 0_usize..5,
            sizes in (2.0..40.0_f64, 0.5..30.0_f64, 0.5..4.0_f64),
            shares in (0.001..0.999_f64, 0.001..0.999_f64),
        ) {
            // No bit has a spur wider than itself.
            let spur = sizes.2.min(sizes.0 / 4.0);
            let bore = bore(Bottom::ALL[kind], sizes.0, sizes.1);
            let profile = bore_profile(bore, spur);
            let [one, other] = [shares.0, shares.1].map(|share| share * profile.bottom());
            let wide = |depth| profile.radius_at(depth).unwrap();
            for depth in [one, other] {
                prop_assert!((wide(depth) - width(bore, spur, depth).unwrap()).abs() < 1e-6);
            }
            prop_assert!(wide(one.min(other)) >= wide(one.max(other)) - 1e-9);
        }
    }
}
