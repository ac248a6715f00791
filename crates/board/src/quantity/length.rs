//! Lengths as makers read them: 12.5 mm, 1 3/16".

use super::{Quantity, inches};
use crate::Units;

/// Millimeters in an inch, exactly.
pub const INCH: f64 = 25.4;
/// Milliliters in a US fluid ounce, exactly: 1/128 of a gallon of 231 cubic inches.
pub const FLUID_OUNCE: f64 = 29.573_529_562_5;

/// Writes a length for reading: mm with up to three decimals, or inches as a fraction, marked if it is rounded.
///
/// ```
/// use board::{Units, show_length};
/// assert_eq!(show_length(12.5, Units::Mm), "12.5 mm");
/// assert_eq!(show_length(30.1625, Units::INCH), "1 3/16\"");
/// assert_eq!(show_length(12.5, Units::INCH), "≈ 31/64\"");
/// ```
pub fn show_length(mm: f64, units: Units) -> String {
    Quantity::Length.shown(mm, units)
}

/// The length rounded to the nearest mark of a shop ruler, in mm: a tenth of a millimeter, or a fraction of an inch. Never
/// minus zero.
///
/// ```
/// use board::{Units, at_mark};
/// assert_eq!(at_mark(12.34, Units::Mm), 12.3);
/// assert_eq!(at_mark(19.0, Units::INCH), 19.05);
/// ```
pub fn at_mark(mm: f64, units: Units) -> f64 {
    match units {
        Units::Mm => (mm * 10.0).round() / 10.0 + 0.0,
        // Rounded to the fraction first, the mark reads back as that fraction.
        Units::Inch(fraction) => {
            let under = f64::from(fraction.parts()) * 5.0;
            (mm * under / 127.0).round() * 127.0 / under + 0.0
        }
    }
}

/// Writes a length that a tool is set to or bought by, for reading: to a thousandth of an inch if it is not a fraction, since a
/// rounded fraction might be the size of another drill.
///
/// ```
/// use board::{Units, show_setting};
/// assert_eq!(show_setting(12.7, Units::INCH), "1/2\"");
/// assert_eq!(show_setting(12.0, Units::INCH), "0.472\"");
/// ```
pub fn show_setting(mm: f64, units: Units) -> String {
    match units {
        Units::Mm => Quantity::Length.typed(mm, units),
        Units::Inch(_) => inches::setting(mm / INCH),
    }
}

/// Writes the maximum of a length, for reading: rounded down to a value that is accepted when typed.
///
/// ```
/// use board::{Units, show_most};
/// assert_eq!(show_most(560.0, Units::Mm), "560 mm");
/// assert_eq!(show_most(559.996, Units::Mm), "559.99 mm");
/// assert_eq!(show_most(560.0, Units::INCH), "22 3/64\"");
/// ```
pub fn show_most(mm: f64, units: Units) -> String {
    show_length(units.round_down(mm), units)
}

/// Writes the minimum of a length, for reading: rounded up to a value that is accepted when typed.
///
/// ```
/// use board::{Units, show_least};
/// assert_eq!(show_least(560.0, Units::Mm), "560 mm");
/// assert_eq!(show_least(560.0, Units::INCH), "22 1/16\"");
/// ```
pub fn show_least(mm: f64, units: Units) -> String {
    show_length(units.round_up(mm), units)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::QuantityError;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn parse_length(text: &str, units: Units) -> Result<f64, QuantityError> {
        Quantity::Length.read(text, units)
    }

    #[test]
    fn lengths_are_read_as_makers_write_them() {
        for (text, mm) in [
            ("12.5mm", 12.5),
            ("12,5 mm", 12.5),
            ("  7 ", 7.0),
            (".5", 0.5),
            ("1.25 cm", 12.5),
            ("0.5 m", 500.0),
            ("5/8", 15.875),
            ("5/8\"", 15.875),
            ("1 3/16\"", 30.1625),
            ("1-3/16\"", 30.1625),
            ("1½\"", 38.1),
            ("½", 12.7),
            ("3⁄8 in", 9.525),
            ("2' 1/4\"", 615.95),
            ("2' 3 1/2\"", 698.5),
            ("2′ 3″", 685.8),
            ("2'-3 1/2\"", 698.5),
            ("2ft", 609.6),
            ("1 foot 6 inches", 457.2),
            ("3 INCH", 76.2),
            ("6''", 152.4),
            ("-2 mm", -2.0),
        ] {
            assert_near!(parse_length(text, Units::Mm).unwrap(), mm, 1e-9);
        }
        assert_near!(parse_length("3", Units::INCH).unwrap(), 76.2, 1e-9);
        assert_near!(parse_length("0.75", Units::INCH).unwrap(), 19.05, 1e-9);
    }

    #[test]
    fn round_inches_are_exact_in_mm_to_the_last_digit() {
        for (text, mm) in [
            ("3/4", 19.05),
            ("5/8", 15.875),
            ("21 1/2", 546.1),
            ("0.1 in", 2.54),
        ] {
            assert_eq!(parse_length(text, Units::INCH), Ok(mm));
        }
    }

    #[test]
    fn texts_that_are_not_lengths_are_refused_with_a_sentence() {
        for text in [
            "",
            " ",
            "abc",
            "1/0",
            "5/8/2",
            "1.2.3",
            "1,234.5",
            "1,234",
            "12,500 mm",
            "12 mm 3",
            "NaN",
            "inf",
            "1e400",
            "1e3",
            "--2",
            "3 1/2 1/2",
            "2' 3 mm",
            "2'--3",
            "2'-",
            "5/",
            "/5",
            "1-",
            "1 2",
            "mm",
            "1 mmm",
            "½½",
            "٣",
        ] {
            let message = parse_length(text, Units::Mm).expect_err(text).to_string();
            assert!(message.len() > 20 && message.len() < 200, "{message}");
        }
        assert!(
            parse_length(&"9".repeat(10_000_000), Units::Mm)
                .unwrap_err()
                .to_string()
                .len()
                < 200
        );
    }

    #[test]
    fn lengths_are_shown_as_short_as_accuracy_allows() {
        for (mm, units, text) in [
            (12.5, Units::Mm, "12.5 mm"),
            (12.0, Units::Mm, "12 mm"),
            (0.000_1, Units::Mm, "0 mm"),
            (-0.000_1, Units::Mm, "0 mm"),
            (100.0, Units::Mm, "100 mm"),
            (1.23456, Units::Mm, "1.235 mm"),
            (19.05, Units::INCH, "3/4\""),
            (25.4, Units::INCH, "1\""),
            (0.0, Units::INCH, "0\""),
            (-3.175, Units::INCH, "-1/8\""),
        ] {
            assert_eq!(show_length(mm, units), text);
        }
    }

    proptest! {
        #[test]
        fn shown_lengths_read_back(mm in -5000.0..5000.0_f64) {
            let read = parse_length(&show_length(mm, Units::Mm), Units::INCH).unwrap();
            prop_assert!((read - mm).abs() <= 0.000_501, "{read} {mm}");
        }

        #[test]
        fn every_sixty_fourth_reads_back_exactly(parts in 0_u32..6400) {
            let mm = f64::from(parts) / 64.0 * INCH;
            let shown = show_length(mm, Units::INCH);
            prop_assert!((parse_length(&shown, Units::INCH).unwrap() - mm).abs() < 1e-9, "{shown}");
        }

        #[test]
        fn no_text_causes_a_panic(text in ".{0,40}") {
            let _ = parse_length(&text, Units::Mm);
        }

        #[test]
        fn no_text_like_a_length_causes_a_panic(text in "[-0-9./,' \"½minft]{0,20}") {
            let _ = parse_length(&text, Units::INCH);
        }
    }
}
