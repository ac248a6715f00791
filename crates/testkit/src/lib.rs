//! Assertions and readers that tests share; never a dependency of the program itself.
//!
//! * [`assert_near!`]: two numbers, or two points, within a tolerance.
//! * [`grammar_faults`]: grammar faults that calculated values cause in a sentence.
//! * `PdfFile`, `pdf_raster`, `svg_raster`, `svg_size`, `svg_circles`, `Gray`, `DxfFile`, `IcalPart`, with the feature `readback`:
//!   independent readers of exported drawings.
//! * `run_gcode`, with the feature `readback`: an interpreter that returns every move of a program.
//! * `Soft`, with the feature `window`: draws a window without a graphics card.

mod grammar;
#[cfg(feature = "readback")]
mod pdf_operators;
#[cfg(feature = "readback")]
mod raster;
#[cfg(feature = "readback")]
mod read_dxf;
#[cfg(feature = "readback")]
mod read_ical;
#[cfg(feature = "readback")]
mod read_pdf;
#[cfg(feature = "readback")]
mod read_svg;
#[cfg(feature = "readback")]
mod run_gcode;
#[cfg(feature = "window")]
mod soft;

pub use grammar::grammar_faults;
#[cfg(feature = "readback")]
pub use lopdf;
#[cfg(feature = "readback")]
pub use raster::{Blob, Gray};
#[cfg(feature = "readback")]
pub use read_dxf::{DxfFile, DxfKind, DxfShape};
#[cfg(feature = "readback")]
pub use read_ical::IcalPart;
#[cfg(feature = "readback")]
pub use read_pdf::{PageCircle, PageLine, PageWords, PdfFile, PdfPage, pdf_raster};
#[cfg(feature = "readback")]
pub use read_svg::{svg_circles, svg_pixels, svg_raster, svg_size};
#[cfg(feature = "readback")]
pub use run_gcode::{GcodeFault, GcodeKind, GcodeRun, GcodeStep, run_gcode};

#[cfg(feature = "window")]
pub use soft::Soft;

/// A value with a distance to another, for [`assert_near!`].
pub trait Near {
    /// Distance of `self` from `other`, in their common unit.
    fn distance_to(&self, other: &Self) -> f64;
}

impl Near for f64 {
    fn distance_to(&self, other: &Self) -> f64 {
        (self - other).abs()
    }
}

impl Near for kurbo::Point {
    fn distance_to(&self, other: &Self) -> f64 {
        self.distance(*other)
    }
}

/// Asserts that two numbers or points are within a tolerance; prints both and the difference.
#[macro_export]
macro_rules! assert_near {
    ($left:expr, $right:expr, $tolerance:expr $(,)?) => {{
        let (left, right, tolerance) = ($left, $right, $tolerance);
        let off = $crate::Near::distance_to(&left, &right);
        // Written so that a NaN fails.
        assert!(
            off <= tolerance,
            "{} is {left:?}, {} is {right:?}: {off:e} apart, over {tolerance:e}",
            stringify!($left),
            stringify!($right),
        );
    }};
}

#[cfg(test)]
mod tests {
    use kurbo::Point;

    #[test]
    fn near_values_pass() {
        assert_near!(1.0, 1.0 + 1e-10, 1e-9);
        assert_near!(Point::new(3.0, 4.0), Point::new(3.0, 4.0), 0.0);
    }

    #[test]
    #[should_panic(expected = "apart")]
    fn a_value_too_low_fails() {
        assert_near!(0.9, 1.0, 1e-3);
    }

    #[test]
    #[should_panic(expected = "apart")]
    fn a_value_too_high_fails() {
        assert_near!(1.1, 1.0, 1e-3);
    }

    #[test]
    #[should_panic(expected = "apart")]
    fn not_a_number_fails() {
        assert_near!(f64::NAN, 1.0, 1e9);
    }
}
