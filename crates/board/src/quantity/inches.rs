//! Inches as makers read them: fractions no finer than requested, marked if they are not exact.
//!
//! A length without a mark reads back exactly. A rounded length shorter than 16 fractions is shown as a decimal, since rounding
//! it to a fraction would change it too much: a web of 0.122" is not 1/8".

use super::show_number;
use crate::Fraction;

/// The mark before a rounded length.
pub(super) const MARK: char = '≈';
/// The largest difference, in inches, at which a text counts as exact: a millionth of a millimeter.
const SAME: f64 = 4e-8;
/// A rounded length of at least this many fractions is shown as a fraction, a shorter one as a decimal.
const FEWEST: f64 = 16.0;
/// Decimals that show thousandths of an inch.
const THOUSANDTH: usize = 3;
/// Decimals of a length meant for typing.
const TYPED: usize = 4;

/// A length for reading: a fraction or short decimal if one is exact, otherwise a rounded number with a mark.
pub(super) fn shown(inches: f64, fraction: Fraction) -> String {
    if let Some(exact) = exact(inches, fraction) {
        return exact;
    }
    let parts = (inches * f64::from(fraction.parts())).round();
    let rounded = if inches.abs() * f64::from(fraction.parts()) < FEWEST {
        show_number(inches, decimals(inches)) + "\""
    } else {
        in_parts(parts, fraction).unwrap_or_else(|| show_number(inches, 0) + "\"")
    };
    format!("{MARK} {rounded}")
}

/// A length for typing: a fraction to 1/64 if one is exact, otherwise a decimal.
pub(super) fn typed(inches: f64) -> String {
    let exact = exact(inches, Fraction::SixtyFourth);
    exact.unwrap_or_else(|| show_number(inches, TYPED) + "\"")
}

/// A length that a tool is set to: a fraction to 1/64 if one is exact, otherwise a decimal to a thousandth, never a rounded
/// fraction.
pub(super) fn setting(inches: f64) -> String {
    let exact = exact(inches, Fraction::SixtyFourth);
    exact.unwrap_or_else(|| show_number(inches, decimals(inches)) + "\"")
}

/// The fraction or short decimal that equals a length; `None` if neither does.
fn exact(inches: f64, fraction: Fraction) -> Option<String> {
    let is_it = |number: f64| (number - inches).abs() <= SAME;
    let parts = (inches * f64::from(fraction.parts())).round();
    if is_it(parts / f64::from(fraction.parts())) {
        return in_parts(parts, fraction);
    }
    let decimal = show_number(inches, THOUSANDTH);
    let is_exact = decimal.parse().is_ok_and(is_it);
    is_exact.then(|| decimal + "\"")
}

/// A number of fractions as a whole number and a fraction in lowest terms; `None` if it is too large to be shown this way.
fn in_parts(parts: f64, fraction: Fraction) -> Option<String> {
    const MOST: f64 = 1e9;
    // NaN fails this test too.
    if !(-MOST..MOST).contains(&parts) {
        return None;
    }
    let sign = if parts < 0.0 { "-" } else { "" };
    let (parts, of) = (parts.abs() as u32, fraction.parts());
    let (whole, rest) = (parts / of, parts % of);
    let common = 1 << rest.trailing_zeros().min(of.trailing_zeros());
    Some(match (whole, rest / common, of / common) {
        (whole, 0, _) => format!("{sign}{whole}\""),
        (0, over, under) => format!("{sign}{over}/{under}\""),
        (whole, over, under) => format!("{sign}{whole} {over}/{under}\""),
    })
}

/// Number of decimals of a length: thousandths, or one more digit for a length under a thousandth. Nobody in a shop works finer
/// than that.
fn decimals(inches: f64) -> usize {
    if inches.abs() < 0.00095 {
        THOUSANDTH + 1
    } else {
        THOUSANDTH
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Quantity, Units};
    use proptest::prelude::*;
    use testkit::assert_near;

    const ALL: [Fraction; 3] = [
        Fraction::Sixteenth,
        Fraction::ThirtySecond,
        Fraction::SixtyFourth,
    ];

    fn of(mm: f64, fraction: Fraction) -> String {
        Quantity::Length.shown(mm, Units::Inch(fraction))
    }

    #[test]
    fn fractions_are_no_finer_than_requested_and_marked_if_rounded() {
        for (mm, sixteenth, thirty_second, sixty_fourth) in [
            (19.05, "3/4\"", "3/4\"", "3/4\""),
            (19.0, "≈ 0.748\"", "≈ 3/4\"", "≈ 3/4\""),
            (600.0, "≈ 23 5/8\"", "≈ 23 5/8\"", "≈ 23 5/8\""),
            (25.796_875, "≈ 1\"", "≈ 1 1/32\"", "1 1/64\""),
            (560.0, "≈ 22 1/16\"", "≈ 22 1/16\"", "≈ 22 3/64\""),
            (3.1, "≈ 0.122\"", "≈ 0.122\"", "≈ 0.122\""),
            (12.0, "≈ 0.472\"", "≈ 0.472\"", "≈ 15/32\""),
            (6.2, "≈ 0.244\"", "≈ 0.244\"", "≈ 0.244\""),
            (2.54, "0.1\"", "0.1\"", "0.1\""),
            (0.127, "0.005\"", "0.005\"", "0.005\""),
            (0.004, "≈ 0.0002\"", "≈ 0.0002\"", "≈ 0.0002\""),
            (0.001, "≈ 0\"", "≈ 0\"", "≈ 0\""),
            (-0.001, "≈ 0\"", "≈ 0\"", "≈ 0\""),
            (-600.0, "≈ -23 5/8\"", "≈ -23 5/8\"", "≈ -23 5/8\""),
            (-3.175, "-1/8\"", "-1/8\"", "-1/8\""),
            (0.0, "0\"", "0\"", "0\""),
        ] {
            let told = ALL.map(|fraction| of(mm, fraction));
            assert_eq!(told, [sixteenth, thirty_second, sixty_fourth], "{mm}");
        }
    }

    #[test]
    fn text_meant_for_typing_has_no_mark() {
        for (mm, text) in [
            (19.05, "3/4\""),
            (19.0, "0.748\""),
            (25.796_875, "1 1/64\""),
            (560.0, "22.0472\""),
        ] {
            for fraction in ALL {
                assert_eq!(Quantity::Length.typed(mm, Units::Inch(fraction)), text);
            }
        }
        assert_eq!(Quantity::Length.typed(19.05, Units::Mm), "19.05 mm");
    }

    #[test]
    fn any_size_can_be_shown() {
        for wild in [f64::MAX, f64::INFINITY, f64::NEG_INFINITY, f64::NAN, 1e-300] {
            for fraction in ALL {
                assert!(of(wild, fraction).ends_with('"'), "{wild}");
            }
        }
    }

    proptest! {
        /// Unmarked text is the exact number; marked text is off by at most half a fraction.
        #[test]
        fn unmarked_text_is_exact_and_marked_text_is_close(
            mm in prop_oneof![-5000.0..5000.0_f64, -9.0..9.0_f64, (-6400..6400_i32).prop_map(|parts| f64::from(parts) * 25.4 / 64.0)],
            at in 0..3_usize,
        ) {
            let fraction = ALL[at];
            let shown = of(mm, fraction);
            let read = Quantity::Length.read(&shown, Units::INCH).unwrap();
            let off = if shown.contains(MARK) { 12.7 / f64::from(fraction.parts()) } else { 1.1e-6 };
            prop_assert!((read - mm).abs() <= off + 1e-9, "{shown} {mm} {read}");
        }

        #[test]
        fn a_whole_number_of_fractions_is_never_marked(parts in 0_u32..9999, at in 0..3_usize) {
            let mm = f64::from(parts) * 25.4 / f64::from(ALL[at].parts());
            let shown = of(mm, ALL[at]);
            prop_assert!(!shown.contains(MARK) && !shown.contains('.'), "{shown}");
            assert_near!(Quantity::Length.read(&shown, Units::Mm).unwrap(), mm, 1e-9);
        }

        #[test]
        fn text_meant_for_typing_reads_back(mm in -5000.0..5000.0_f64) {
            let typed = Quantity::Length.typed(mm, Units::INCH);
            let read = Quantity::Length.read(&typed, Units::Mm).unwrap();
            prop_assert!((read - mm).abs() <= 0.001_28, "{typed} {mm}");
        }
    }
}
