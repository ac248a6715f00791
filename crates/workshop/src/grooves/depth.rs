//! The depth at which a V bit cuts a groove of a given width, and the number of passes.

use board::Grooves;
use geometry::{Angle, Piece, Profile};

/// Depth of a groove of the set width, mm: (width − tip) / (2 tan(angle / 2)), from the geometry of the bit; 0 or less where
/// the tip of the bit is as wide as the groove.
///
/// ```
/// use board::Grooves;
/// let grooves = Grooves { width: 3.0, angle: 90.0, ..Grooves::default() };
/// assert!((workshop::groove_depth(&grooves) - 1.5).abs() < 1e-12);
/// ```
pub fn groove_depth(grooves: &Grooves) -> f64 {
    let half = Angle::degrees(grooves.angle / 2.0);
    (grooves.width - grooves.tip) / (2.0 * half.tan())
}

/// Half of the bit's cross-section, from the center line of the groove; depths are measured down from the top face.
pub fn groove_profile(grooves: &Grooves, depth: f64) -> Profile {
    let (half, tip) = (grooves.width / 2.0, grooves.tip / 2.0);
    Piece::straight((0.0, half), (depth, tip)).into()
}

/// Number of equal passes to that depth, none deeper than `pass`; 0 if there is no depth.
///
/// ```
/// use workshop::passes;
/// assert_eq!(passes(1.5, 0.75), 2);
/// assert_eq!(passes(1.6, 0.75), 3);
/// assert_eq!(passes(0.0, 0.75), 0);
/// ```
pub fn passes(depth: f64, pass: f64) -> u32 {
    // A whole number of passes may come out slightly too high by rounding.
    const HAIR: f64 = 1e-9;
    if depth > 0.0 && pass > 0.0 {
        (depth / pass - HAIR).ceil().max(1.0) as u32
    } else {
        0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

    /// Computed from the geometry of the bit; the last is from a trade page, not a standard: .030 deep at 60 degrees is .035
    /// wide.
    #[test]
    fn depths_follow_from_width_and_angle() {
        for (width, angle, tip, depth) in [
            (3.0, 60.0, 0.0, 2.598_076),
            (3.0, 90.0, 0.0, 1.5),
            (6.0, 120.0, 0.0, 1.732_051),
            (3.0, 60.0, 0.2, 2.424_871),
            (0.034_641, 60.0, 0.0, 0.03),
        ] {
            let grooves = Grooves {
                width,
                angle,
                tip,
                ..Grooves::default()
            };
            assert_near!(groove_depth(&grooves), depth, 1e-6);
        }
    }

    #[test]
    fn a_tip_as_wide_as_the_groove_has_no_depth() {
        let grooves = Grooves {
            width: 2.0,
            tip: 2.0,
            ..Grooves::default()
        };
        assert_eq!(groove_depth(&grooves), 0.0);
        assert_eq!(passes(groove_depth(&grooves), 1.0), 0);
    }

    #[test]
    fn rounding_does_not_add_a_pass() {
        assert_eq!(passes(3.0, 1.0), 3);
        assert_eq!(passes(0.3, 0.1), 3);
        assert_eq!(passes(3.001, 1.0), 4);
        assert_eq!(passes(0.2, 1.0), 1);
    }

    proptest! {
        #[test]
        fn a_groove_of_that_depth_has_the_set_width(width in 0.1..50.0_f64, share in 0.0..0.99_f64, angle in 10.0..170.0_f64) {
            let grooves = Grooves { width, angle, tip: share * width, ..Grooves::default() };
            let depth = groove_depth(&grooves);
            let wide = 2.0 * depth * Angle::degrees(angle / 2.0).tan() + grooves.tip;
            prop_assert!((wide - width).abs() < 1e-9);
        }
    }
}
