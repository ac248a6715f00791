//! An angle, and all trigonometry of the program.
//!
//! The functions use `libm`, so that the same document gives the same digits on every machine; clippy rejects the standard
//! library's. Degrees and radians cannot be confused: both have named constructors.

use core::f64::consts::{PI, TAU};
use core::ops::{Add, Div, Mul, Neg, Sub};

/// An angle of any size; a bearing is measured clockwise from 12 o'clock.
///
/// ```
/// use geometry::Angle;
/// assert_eq!(Angle::degrees(180.0), Angle::turn_part(1, 2));
/// let eighth = Angle::TURN / 8.0;
/// assert!((eighth.as_degrees() - 45.0).abs() < 1e-12);
/// assert!((eighth.tan() - 1.0).abs() < 1e-12);
/// assert!((Angle::atan2(1.0, 1.0).as_radians() - eighth.as_radians()).abs() < 1e-12);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Angle(f64);

impl Angle {
    /// Zero; as a bearing, 12 o'clock.
    pub const ZERO: Self = Self(0.0);
    /// A full turn.
    pub const TURN: Self = Self(TAU);

    /// From degrees.
    pub const fn degrees(degrees: f64) -> Self {
        Self(degrees * (PI / 180.0))
    }

    /// From radians.
    pub const fn radians(radians: f64) -> Self {
        Self(radians)
    }

    /// `part` of `whole` equal parts of a full turn: `turn_part(1, 6)` is 60 degrees.
    ///
    /// `whole` must not be zero; if it is, the angle is not finite.
    pub fn turn_part(part: i64, whole: i64) -> Self {
        Self(TAU * (part as f64 / whole as f64))
    }

    /// In degrees.
    pub const fn as_degrees(self) -> f64 {
        self.0 * (180.0 / PI)
    }

    /// In radians.
    pub const fn as_radians(self) -> f64 {
        self.0
    }

    /// The same direction as an angle from 0 up to, but not including, a full turn.
    ///
    /// ```
    /// use geometry::Angle;
    /// assert!((Angle::degrees(-90.0).wrapped().as_degrees() - 270.0).abs() < 1e-12);
    /// ```
    pub fn wrapped(self) -> Self {
        let rest = self.0 % TAU;
        let rest = if rest < 0.0 { rest + TAU } else { rest };
        Self(if rest >= TAU { 0.0 } else { rest })
    }

    /// The same direction as an angle greater than -180 and at most 180 degrees.
    ///
    /// ```
    /// use geometry::Angle;
    /// let off = Angle::degrees(350.0).wrapped_to_half_turns();
    /// assert!((off.as_degrees() + 10.0).abs() < 1e-12);
    /// ```
    pub fn wrapped_to_half_turns(self) -> Self {
        let rest = self.wrapped().0;
        Self(if rest > PI { rest - TAU } else { rest })
    }

    /// The sine.
    pub fn sin(self) -> f64 {
        libm::sin(self.0)
    }

    /// The cosine.
    pub fn cos(self) -> f64 {
        libm::cos(self.0)
    }

    /// The sine and the cosine, computed together faster than separately.
    pub fn sin_cos(self) -> (f64, f64) {
        libm::sincos(self.0)
    }

    /// The tangent.
    pub fn tan(self) -> f64 {
        libm::tan(self.0)
    }

    /// The angle whose sine is `ratio`; NaN if `ratio` is not from -1 to 1.
    pub fn asin(ratio: f64) -> Self {
        Self(libm::asin(ratio))
    }

    /// The angle whose cosine is `ratio`; NaN if `ratio` is not from -1 to 1.
    pub fn acos(ratio: f64) -> Self {
        Self(libm::acos(ratio))
    }

    /// The angle whose tangent is `opposite / adjacent`, in the quadrant given by their signs.
    pub fn atan2(opposite: f64, adjacent: f64) -> Self {
        Self(libm::atan2(opposite, adjacent))
    }
}

impl Add for Angle {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Angle {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Angle {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for Angle {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }
}

impl Div<f64> for Angle {
    type Output = Self;
    fn div(self, divisor: f64) -> Self {
        Self(self.0 / divisor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    /// OEIS A019845, A019827, A019818, A019819; cos 36 from public tables of special angles.
    #[test]
    fn exact_values_of_the_sine_and_cosine() {
        assert_near!(Angle::degrees(36.0).sin(), 0.587_785_252_292_473_1, 1e-15);
        assert_near!(Angle::degrees(18.0).sin(), 0.309_016_994_374_947_4, 1e-15);
        assert_near!(Angle::degrees(9.0).sin(), 0.156_434_465_040_230_9, 1e-15);
        assert_near!(Angle::degrees(10.0).sin(), 0.173_648_177_666_930_35, 1e-15);
        assert_near!(Angle::degrees(36.0).cos(), 0.809_016_994_374_947_4, 1e-15);
    }

    #[test]
    fn wrapping_keeps_the_direction() {
        for degrees in [-725.0, -360.0, -0.0, 0.0, 359.999, 360.0, 1080.5] {
            let angle = Angle::degrees(degrees);
            let wrapped = angle.wrapped();
            assert!(
                (0.0..360.0).contains(&wrapped.as_degrees()),
                "{degrees} gave {wrapped:?}"
            );
            assert_near!(wrapped.sin(), angle.sin(), 1e-12);
            assert_near!(wrapped.cos(), angle.cos(), 1e-12);
        }
        assert_near!(
            Angle::degrees(270.0).wrapped_to_half_turns().as_degrees(),
            -90.0,
            1e-12
        );
    }
}
