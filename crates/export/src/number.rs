//! Numbers as text: the one writer of numbers for all text formats, and the check of each number before it is written.
//!
//! The format has a decimal point and no grouping in every locale, never an exponent, and never "-0". Fixed-point digits come
//! from one rounding of the scaled value, which is several times faster than the standard formatting and differs from it only
//! in ties.

use crate::Error;

/// The largest number that a file holds. Nothing in a shop comes close to it in any unit, and hundreds of digits help no
/// reader.
pub const LARGEST: f64 = 1e12;

/// Whether a file can hold a number.
pub const fn is_sound(value: f64) -> bool {
    value.abs() <= LARGEST
}

/// The number, if a file can hold it; `figure` is its name for the maker.
///
/// # Errors
///
/// [`Error::Figure`] where it is infinite, not a number, or larger than anything in a shop.
pub fn sound(figure: &str, value: f64) -> Result<f64, Error> {
    if is_sound(value) {
        return Ok(value);
    }
    let figure = figure.to_owned();
    Err(Error::Figure { figure, value })
}

/// A number with all its digits, for tables that programs calculate with; a number too small to measure becomes 0.
///
/// # Errors
/// The errors of [`sound`].
pub fn exact(figure: &str, value: f64) -> Result<String, Error> {
    /// Below this value a number has more zeros than digits.
    const LEAST: f64 = 1e-12;
    let value = sound(figure, value)?;
    let value = if value.abs() < LEAST { 0.0 } else { value };
    Ok(value.to_string())
}

/// The text of a file while it is being written. It accepts words as they are, and numbers only if a file can hold them.
///
/// A writer need not stop at each number. The first one that cannot be written is recorded with its name, and then
/// [`Written::finish`] returns an error instead of the text, so that no file contains a substitute.
#[derive(Debug, Clone, Default)]
pub struct Written {
    text: String,
    /// The first rejected number, with its name.
    refused: Option<(String, f64)>,
}

impl Written {
    /// No text yet, with room for this many bytes.
    pub fn with_capacity(bytes: usize) -> Self {
        Self {
            text: String::with_capacity(bytes),
            refused: None,
        }
    }

    /// Appends words.
    pub fn push_str(&mut self, words: &str) {
        self.text.push_str(words);
    }

    /// Appends a character.
    pub fn push(&mut self, letter: char) {
        self.text.push(letter);
    }

    /// Appends a number, rounded to `decimals` places, without trailing zeros; `figure` is its name for the maker.
    pub fn short(&mut self, figure: &str, value: f64, decimals: usize) {
        if self.takes(figure, value) {
            push(&mut self.text, value, decimals);
        }
    }

    /// Appends a number with exactly `decimals` places.
    pub fn fixed(&mut self, figure: &str, value: f64, decimals: usize) {
        if self.takes(figure, value) {
            push_fixed(&mut self.text, value, decimals);
        }
    }

    /// Appends the text of another writer, with its first rejected number.
    pub fn append(&mut self, other: &Self) {
        self.text.push_str(&other.text);
        if self.refused.is_none() {
            self.refused.clone_from(&other.refused);
        }
    }

    /// Number of bytes written so far.
    pub const fn len(&self) -> usize {
        self.text.len()
    }

    /// The text.
    ///
    /// # Errors
    ///
    /// [`Error::Figure`] with the first number that no file can hold.
    pub fn finish(self) -> Result<String, Error> {
        match self.refused {
            None => Ok(self.text),
            Some((figure, value)) => Err(Error::Figure { figure, value }),
        }
    }

    /// Whether a number can be written; records the first that cannot.
    fn takes(&mut self, figure: &str, value: f64) -> bool {
        let is_sound = is_sound(value);
        if !is_sound && self.refused.is_none() {
            self.refused = Some((figure.to_owned(), value));
        }
        is_sound
    }
}

/// A number rounded to `decimals` places as text, without trailing zeros; `figure` is its name for the maker.
///
/// # Errors
/// The errors of [`sound`].
pub fn short(figure: &str, value: f64, decimals: usize) -> Result<String, Error> {
    let mut written = Written::default();
    written.short(figure, value, decimals);
    written.finish()
}

/// Appends a number that a file can hold, rounded to `decimals` places, without trailing zeros: `12.5`, `-0.25`, `3`.
fn push(out: &mut String, value: f64, decimals: usize) {
    let start = out.len();
    push_fixed(out, value, decimals);
    let Some(text) = out.get(start..).filter(|text| text.contains('.')) else {
        return;
    };
    let zeros = text.len() - text.trim_end_matches('0').trim_end_matches('.').len();
    out.truncate(out.len() - zeros);
}

/// Appends a number that a file can hold with exactly `decimals` places: `12.500000`.
fn push_fixed(out: &mut String, value: f64, decimals: usize) {
    let units = TENS.get(decimals).map(|&unit| (value * unit as f64, unit));
    match units {
        Some((scaled, unit)) if scaled.abs() < EXACT => {
            push_units(out, scaled.round() as i64, unit, decimals);
        }
        _ => push_slowly(out, value, decimals),
    }
}

/// Powers of ten, by the number of decimals.
const TENS: [u64; 10] = [
    1,
    10,
    100,
    1_000,
    10_000,
    100_000,
    1_000_000,
    10_000_000,
    100_000_000,
    1_000_000_000,
];

/// Up to here every whole number has an exact f64 (2^53).
const EXACT: f64 = 9_007_199_254_740_992.0;

/// Room for a sign, the digits of 2^53, a dot and leading zeros.
const ROOM: usize = 32;

/// Appends a count of units, of which `unit` make 1: 12500 of 1000 as `12.500`.
///
/// Digits are put into a byte array from the right. A count of 0 has no sign, so that a value that rounds to 0 is never "-0".
fn push_units(out: &mut String, count: i64, unit: u64, decimals: usize) {
    if count < 0 {
        out.push('-');
    }
    let count = count.unsigned_abs();
    let mut digits = [b'0'; ROOM];
    let mut start = digits.len();
    let mut rest = count % unit;
    for digit in digits.iter_mut().rev().take(decimals) {
        *digit = b'0' + (rest % 10) as u8;
        rest /= 10;
        start -= 1;
    }
    if decimals > 0 {
        start -= 1;
        digits[start] = b'.';
    }
    let mut rest = count / unit;
    for digit in digits.iter_mut().rev().skip(ROOM - start) {
        *digit = b'0' + (rest % 10) as u8;
        rest /= 10;
        start -= 1;
        if rest == 0 {
            break;
        }
    }
    let text = digits.get(start..).unwrap_or_default();
    out.push_str(core::str::from_utf8(text).unwrap_or_default());
}

/// Appends a number too large to be counted in units.
fn push_slowly(out: &mut String, value: f64, decimals: usize) {
    let text = format!("{value:.decimals$}");
    let bare = text.trim_start_matches('-');
    let is_zero = bare.bytes().all(|byte| matches!(byte, b'0' | b'.'));
    out.push_str(if is_zero { bare } else { &text });
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn short(value: f64, decimals: usize) -> String {
        let mut written = Written::default();
        written.text.reserve(32);
        push(&mut written.text, value, decimals);
        written.text
    }

    fn fixed(value: f64, decimals: usize) -> String {
        let mut out = String::new();
        push_fixed(&mut out, value, decimals);
        out
    }

    #[test]
    fn trailing_zeros_are_left_out() {
        assert_eq!(short(12.5, 4), "12.5");
        assert_eq!(short(-0.25, 4), "-0.25");
        assert_eq!(short(300.0, 4), "300");
        assert_eq!(short(300.0, 0), "300");
        assert_eq!(short(0.00004, 4), "0");
        assert_eq!(short(1.0 / 3.0, 4), "0.3333");
    }

    #[test]
    fn fixed_places_are_all_written() {
        assert_eq!(fixed(12.5, 6), "12.500000");
        assert_eq!(fixed(0.000_001, 6), "0.000001");
        assert_eq!(fixed(-7.0, 0), "-7");
        assert_eq!(fixed(999.999_999_9, 6), "1000.000000");
    }

    #[test]
    fn there_is_no_negative_zero() {
        assert_eq!(short(-0.0, 4), "0");
        assert_eq!(short(-0.000_01, 4), "0");
        assert_eq!(fixed(-0.000_000_4, 6), "0.000000");
        assert_eq!(fixed(-0.0, 12), "0.000000000000");
    }

    #[test]
    fn large_numbers_have_no_exponent() {
        assert_eq!(short(1e20, 4), "100000000000000000000");
        assert_eq!(short(-1e15, 6), "-1000000000000000");
    }

    #[test]
    fn a_number_that_no_file_can_hold_is_rejected_by_name() {
        for value in [f64::NAN, f64::INFINITY, -1e300] {
            let error = sound("weight of one", value).unwrap_err().to_string();
            assert!(
                error.starts_with("weight of one is ") && error.len() < 100,
                "{error}"
            );
            assert!(exact("weight of one", value).is_err());
        }
        assert_eq!(exact("weight of one", -1e-300).unwrap(), "0");
        assert_eq!(exact("weight of one", -0.1).unwrap(), "-0.1");
    }

    #[test]
    fn a_text_with_a_number_that_is_not_finite_is_an_error() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 2e12] {
            for fixed in [false, true] {
                let mut written = Written::default();
                written.push_str("x ");
                written.short("width", 1.5, 2);
                if fixed {
                    written.fixed("height", value, 2);
                } else {
                    written.short("height", value, 2);
                }
                written.short("depth", f64::NAN, 2);
                let mut all = Written::default();
                all.append(&written);
                for text in [written, all] {
                    let error = text.finish().unwrap_err().to_string();
                    assert!(error.starts_with("height is "), "{error}");
                }
            }
        }
        let mut written = Written::default();
        written.fixed("width", -0.0, 2);
        assert_eq!(written.finish().unwrap(), "0.00");
    }

    proptest! {
        #[test]
        fn a_number_reads_back_within_half_its_last_place(
            value in prop_oneof![-1e4..1e4_f64, -1e-3..1e-3_f64, -1e12..1e12_f64, any::<f64>()],
            decimals in 0_u8..12,
        ) {
            prop_assume!(value.is_finite());
            let half = 0.5 * 10_f64.powi(-i32::from(decimals));
            // Scaling and reading back may each be off by the last bit of the value.
            let tolerance = half + value.abs() * 4.0 * f64::EPSILON;
            let decimals = usize::from(decimals);
            for text in [short(value, decimals), fixed(value, decimals)] {
                let read: f64 = text.parse().unwrap();
                prop_assert!((read - value).abs() <= tolerance, "{value} as {text}");
                prop_assert!(text.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'.' | b'-')));
                prop_assert!(!(text.starts_with('-') && read == 0.0), "{text}");
            }
        }

        #[test]
        fn the_short_form_is_the_fixed_form_without_trailing_zeros(value in -1e6..1e6_f64, decimals in 1_usize..10) {
            let long = fixed(value, decimals);
            let trimmed = long.trim_end_matches('0').trim_end_matches('.');
            prop_assert_eq!(short(value, decimals), trimmed);
        }
    }
}
