//! The correction that removes a printer's stretch and skew from a page, and the errors of a board without it.

use geometry::{Angle, Point};
use kurbo::Affine;

/// The scale and skew with which a page is drawn so that the printer's output is true to size.
///
/// The printer makes lengths along its horizontal axis 1/`x` and along its vertical axis 1/`y` of their true size, and leans the
/// vertical axis by `skew`, clockwise as seen. The default changes nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrintCorrection {
    /// Factor across: the true length of a horizontal bar divided by its printed length.
    pub x: f64,
    /// Factor up: the true length of a vertical bar divided by its printed length, measured along the bar.
    pub y: f64,
    /// The lean that the printer gives vertical lines, clockwise.
    pub skew: Angle,
}

impl Default for PrintCorrection {
    fn default() -> Self {
        Self::IDENTITY
    }
}

impl PrintCorrection {
    /// The correction that changes nothing.
    pub const IDENTITY: Self = Self {
        x: 1.0,
        y: 1.0,
        skew: Angle::ZERO,
    };

    /// The point where a page point must be drawn so that it is printed in its true place, except for a rotation and a shift of
    /// the whole page.
    ///
    /// ```
    /// use geometry::{Angle, Point};
    /// use workshop::PrintCorrection;
    /// let correction = PrintCorrection { x: 1.01, ..PrintCorrection::IDENTITY };
    /// let center = Point::new(105.0, 148.5);
    /// assert_eq!(correction.map(Point::new(205.0, 148.5), center), Point::new(206.0, 148.5));
    /// ```
    pub fn map(self, point: Point, center: Point) -> Point {
        self.affine(center) * point
    }

    /// The true place of a point drawn here, the inverse of [`Self::map`].
    ///
    /// ```
    /// use geometry::{Angle, Point};
    /// use workshop::PrintCorrection;
    /// let correction = PrintCorrection { x: 1.01, y: 0.99, skew: Angle::degrees(0.3) };
    /// let (center, point) = (Point::new(105.0, 148.5), Point::new(20.0, 280.0));
    /// assert!(correction.undo(correction.map(point, center), center).distance(point) < 1e-9);
    /// ```
    pub fn undo(self, point: Point, center: Point) -> Point {
        let from = point - center;
        let up = from.y * self.skew.cos() / self.y;
        let across = from.x / self.x + up * self.skew.tan();
        center + (across, up)
    }

    /// [`Self::map`] as a transform of the page.
    ///
    /// A printer turns the unit vectors into (1/x, 0) and (sin s, cos s)/y, where s is the skew; this is the inverse of that
    /// matrix, about the page's center.
    pub fn affine(self, center: Point) -> Affine {
        let lean = -self.x * self.skew.tan();
        let about_origin = Affine::new([self.x, 0.0, lean, self.y / self.skew.cos(), 0.0, 0.0]);
        Affine::translate(center.to_vec2()) * about_origin * Affine::translate(-center.to_vec2())
    }

    /// The correction for a page that goes through the same printer rotated by a quarter turn: level and upright are swapped,
    /// and so are the two diagonals.
    #[must_use]
    pub fn turned(self) -> Self {
        Self {
            x: self.y,
            y: self.x,
            skew: -self.skew,
        }
    }

    /// Whether both factors and the skew are numbers that a page can be drawn with.
    pub fn is_sound(self) -> bool {
        let factor = |factor: f64| factor.is_finite() && factor > 0.0;
        factor(self.x) && factor(self.y) && self.skew.cos() > 0.0
    }

    /// The error at a radius from the printer alone.
    ///
    /// ```
    /// use workshop::PrintCorrection;
    /// let short = PrintCorrection { x: 100.0 / 99.0, ..PrintCorrection::IDENTITY };
    /// // Printed a hundredth short, a point 250 mm out comes 2.5 mm too far in.
    /// assert!((short.error_without(250.0).across + 2.5).abs() < 1e-9);
    /// ```
    pub fn error_without(self, radius: f64) -> PrintError {
        let (across, up) = (1.0 / self.x, 1.0 / self.y);
        PrintError {
            across: radius * (across - 1.0),
            up: radius * (up - 1.0),
            diagonal: radius * self.skew.sin() / 2.0,
            most: radius * most_stretch(across, up, self.skew),
        }
    }
}

/// The error at the edge of a board with the sheets laid as well as possible, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrintError {
    /// Error to the sides; positive is too far out.
    pub across: f64,
    /// Error above and below; positive is too far out.
    pub up: f64,
    /// Error at the upper right and the lower left; the other two corners are equally far in.
    pub diagonal: f64,
    /// The largest error in any direction, in or out.
    pub most: f64,
}

/// The greatest deviation of a radius of the printed ellipse, as a share.
///
/// The semi-axes of the ellipse that a printer makes from a unit circle are the singular values of its matrix. Their squares
/// are the eigenvalues of the matrix of products of the printed unit vectors, [[a², ab sin s], [ab sin s, b²]].
fn most_stretch(a: f64, b: f64, skew: Angle) -> f64 {
    let middle = f64::midpoint(a * a, b * b);
    let spread = libm::hypot((a * a - b * b) / 2.0, a * b * skew.sin());
    let axes = [middle + spread, middle - spread].map(|square| square.max(0.0).sqrt() - 1.0);
    axes[0].abs().max(axes[1].abs())
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::point_at;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn correction() -> impl Strategy<Value = PrintCorrection> {
        (0.9..1.1_f64, 0.9..1.1_f64, -5.0..5.0_f64).prop_map(|(x, y, degrees)| PrintCorrection {
            x,
            y,
            skew: Angle::degrees(degrees),
        })
    }

    /// A printer with an x factor of 1/1.004 and a y factor of 1/0.998 stretches a radius of 200 mm by 0.80 mm and shrinks it
    /// by 0.40 mm.
    #[test]
    fn the_error_without_correction_follows_from_the_factors() {
        let printer = PrintCorrection {
            x: 1.0 / 1.004,
            y: 1.0 / 0.998,
            skew: Angle::ZERO,
        };
        let error = printer.error_without(200.0);
        assert_near!(error.across, 0.80, 1e-9);
        assert_near!(error.up, -0.40, 1e-9);
        assert_near!(error.most, 0.80, 1e-9);
        let small = PrintCorrection {
            x: 1.0 / 0.99,
            y: 1.0 / 0.99,
            skew: Angle::ZERO,
        };
        assert_near!(small.error_without(200.0).most, 2.0, 1e-9);
    }

    proptest! {
        #[test]
        fn undoing_restores_the_point(
            correction in correction(), x in -500.0..500.0_f64, y in -500.0..500.0_f64,
        ) {
            let (point, center) = (Point::new(x, y), Point::new(105.0, 148.5));
            assert_near!(correction.undo(correction.map(point, center), center), point, 1e-9);
            assert_near!(correction.map(correction.undo(point, center), center), point, 1e-9);
            assert_near!(correction.map(center, center), center, 1e-9);
        }

        /// Compared with many points on the circle as printed.
        #[test]
        fn the_largest_error_matches_the_printed_circle(correction in correction()) {
            let steps = 3600;
            let off = |step| {
                let drawn = point_at(200.0, Angle::turn_part(step, steps));
                correction.undo(drawn, Point::ZERO).to_vec2().length() - 200.0
            };
            let most = (0..steps).map(|step| off(step).abs()).fold(0.0, f64::max);
            assert_near!(correction.error_without(200.0).most, most, 1e-4);
        }

        #[test]
        fn rotating_twice_changes_nothing(correction in correction()) {
            prop_assert_eq!(correction.turned().turned(), correction);
        }

        /// Lengths on a corrected page that goes through rotated are also true.
        #[test]
        fn a_rotated_page_has_the_rotated_correction(
            correction in correction(), x in -200.0..200.0_f64, y in -200.0..200.0_f64,
        ) {
            let drawn = correction.turned().map(Point::new(x, y), Point::ZERO);
            let through = Point::new(-drawn.y, drawn.x);
            let printed = correction.undo(through, Point::ZERO);
            let length = |point: Point| point.to_vec2().length();
            assert_near!(length(printed), length(Point::new(x, y)), 1e-9);
        }
    }
}
