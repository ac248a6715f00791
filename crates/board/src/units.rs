//! Lengths as makers type and read them: 12.5 mm, 1 3/16", 2' 1/4".
//!
//! A length is one value with a unit, or feet followed by inches. A value is a decimal number, a fraction, or
//! a whole number with a fraction. Without a unit it is in the unit shown, but for a fraction, which is in
//! inches whatever the unit shown, since nobody divides a millimeter into eighths.

use crate::Units;

/// Millimeters in an inch, exactly.
pub const INCH: f64 = 25.4;
/// Parts of an inch that are shown as a fraction.
const FINEST: u32 = 64;
/// How far a fraction may be from the length it is shown for, mm.
const FRACTION_SLACK: f64 = 0.001;

/// Text that is no length.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LengthError {
    /// There is nothing to read.
    #[error("a length is missing; {HELP}")]
    Empty,
    /// Something that is no part of a length.
    #[error("\"{text}\" is no length: \"{part}\" cannot be read there; {HELP}")]
    Unreadable {
        /// The text, cut short where it is long.
        text: String,
        /// The part that is wrong.
        part: String,
    },
    /// A fraction over zero.
    #[error("\"{text}\" divides by zero; {HELP}")]
    ZeroDivisor {
        /// The text, cut short where it is long.
        text: String,
    },
    /// Comma and point in one number, or a comma that may part thousands.
    #[error(
        "\"{text}\" has a comma that can be read two ways; write 1234 or 1.234, without a comma for thousands"
    )]
    Ambiguous {
        /// The text, cut short where it is long.
        text: String,
    },
}

const HELP: &str = "12.5, 12,5 mm, 5/8, 1 3/16\" or 2' 1/4\" would do";
/// The longest text that can be a length; anything longer is something else.
const LONGEST: usize = 64;

/// Reads lengths parted by semicolons or line ends, in mm, as [`parse_length`] reads each; an empty text has none.
///
/// # Errors
/// [`LengthError`] of the first that cannot be read.
///
/// ```
/// use board::{Units, parse_lengths};
/// assert_eq!(parse_lengths("0; 12,5; 1/2\"", Units::Mm), Ok(vec![0.0, 12.5, 12.7]));
/// ```
pub fn parse_lengths(text: &str, units: Units) -> Result<Vec<f64>, LengthError> {
    text.split([';', '\n'])
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .map(|part| parse_length(part, units))
        .collect()
}

/// Reads a length, in mm; a value without a unit is in `units`, a fraction without one in inches.
///
/// # Errors
/// [`LengthError`] says what cannot be read, and what could.
///
/// ```
/// use board::{Units, parse_length};
/// assert_eq!(parse_length("5/8", Units::Inch), Ok(15.875));
/// assert_eq!(parse_length("12,5 mm", Units::Inch), Ok(12.5));
/// assert!((parse_length("2' 1/4\"", Units::Mm)? - 615.95).abs() < 1e-9);
/// # Ok::<(), board::LengthError>(())
/// ```
pub fn parse_length(text: &str, units: Units) -> Result<f64, LengthError> {
    let quoted = || text.trim().chars().take(40).collect::<String>();
    if text.trim().len() > LONGEST {
        return Err(LengthError::Unreadable {
            text: quoted(),
            part: "a text so long".into(),
        });
    }
    let plain = plain(text);
    let mut reader = Reader {
        text: plain.trim(),
        whole: quoted(),
    };
    if reader.text.is_empty() {
        return Err(LengthError::Empty);
    }
    let sign = if reader.eat("-") || reader.eat("−") {
        -1.0
    } else {
        1.0
    };
    let (value, is_fraction) = reader.value()?;
    let unit = reader.unit()?;
    let meant = unit.unwrap_or(if is_fraction {
        Unit::Inch
    } else {
        units.into()
    });
    let mut mm = meant.to_mm(value);
    if unit == Some(Unit::Foot) && !reader.text.is_empty() {
        // Feet and inches are also written with a dash between them: 2'-3 1/2".
        reader.eat("-");
        let (inches, _) = reader.value()?;
        match reader.unit()? {
            None | Some(Unit::Inch) => mm += Unit::Inch.to_mm(inches),
            Some(_) => return Err(reader.unreadable()),
        }
    }
    if reader.text.is_empty() {
        Ok(sign * mm)
    } else {
        Err(reader.unreadable())
    }
}

/// Writes a length for reading: mm with up to three decimals, or inches as a fraction where one fits.
///
/// ```
/// use board::{Units, show_length};
/// assert_eq!(show_length(12.5, Units::Mm), "12.5 mm");
/// assert_eq!(show_length(30.1625, Units::Inch), "1 3/16\"");
/// assert_eq!(show_length(12.5, Units::Inch), "0.4921\"");
/// ```
pub fn show_length(mm: f64, units: Units) -> String {
    match units {
        Units::Mm => format!("{} mm", show_number(mm, 3)),
        Units::Inch => {
            let inches = mm / INCH;
            fraction(inches).unwrap_or_else(|| format!("{}\"", show_number(inches, 4)))
        }
    }
}

/// A number with at most so many decimals, and no more than it needs.
///
/// ```
/// assert_eq!(board::show_number(12.50, 3), "12.5");
/// ```
pub fn show_number(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let short = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if short == "-0" {
        "0".into()
    } else {
        short.into()
    }
}

/// Inches as a whole number and a fraction, where they are one.
fn fraction(inches: f64) -> Option<String> {
    let parts = (inches.abs() * f64::from(FINEST)).round();
    let off = (inches.abs() - parts / f64::from(FINEST)).abs() * INCH;
    // The comparison is false for what is no number.
    if !(off <= FRACTION_SLACK && parts < 1e9) {
        return None;
    }
    let parts = parts as u32;
    let sign = if inches < 0.0 && parts > 0 { "-" } else { "" };
    let (whole, rest) = (parts / FINEST, parts % FINEST);
    let common = 1 << rest.trailing_zeros().min(6);
    Some(match (whole, rest / common, FINEST / common) {
        (whole, 0, _) => format!("{sign}{whole}\""),
        (0, over, under) => format!("{sign}{over}/{under}\""),
        (whole, over, under) => format!("{sign}{whole} {over}/{under}\""),
    })
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Unit {
    Mm,
    Cm,
    Meter,
    Inch,
    Foot,
}

impl Unit {
    /// So many of the unit, in mm.
    ///
    /// Inches go by tenths of a mm, of which an inch has a whole number: 3/4 in is then 19.05 mm to the last digit.
    fn to_mm(self, value: f64) -> f64 {
        match self {
            Self::Mm => value,
            Self::Cm => value * 10.0,
            Self::Meter => value * 1000.0,
            Self::Inch => value * 254.0 / 10.0,
            Self::Foot => value * 3048.0 / 10.0,
        }
    }
}

impl From<Units> for Unit {
    fn from(units: Units) -> Self {
        match units {
            Units::Mm => Self::Mm,
            Units::Inch => Self::Inch,
        }
    }
}

/// The words for units; the longer of two with the same beginning comes first.
const UNITS: [(&str, Unit); 12] = [
    ("mm", Unit::Mm),
    ("cm", Unit::Cm),
    ("m", Unit::Meter),
    ("inches", Unit::Inch),
    ("inch", Unit::Inch),
    ("in", Unit::Inch),
    ("''", Unit::Inch),
    ("\"", Unit::Inch),
    ("feet", Unit::Foot),
    ("foot", Unit::Foot),
    ("ft", Unit::Foot),
    ("'", Unit::Foot),
];

/// The text with typographer's signs written plainly.
fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '″' | '”' | '“' => plain.push('"'),
            '′' | '’' | '‘' => plain.push('\''),
            '⁄' | '∕' => plain.push('/'),
            '½' => plain.push_str(" 1/2"),
            '¼' => plain.push_str(" 1/4"),
            '¾' => plain.push_str(" 3/4"),
            '⅛' => plain.push_str(" 1/8"),
            '⅜' => plain.push_str(" 3/8"),
            '⅝' => plain.push_str(" 5/8"),
            '⅞' => plain.push_str(" 7/8"),
            letter if letter.is_whitespace() => plain.push(' '),
            letter => plain.extend(letter.to_lowercase()),
        }
    }
    plain
}

/// Whether a comma may stand for a point or may part thousands: beside a point, or before just three figures.
fn is_ambiguous(digits: &str) -> bool {
    let Some((whole, rest)) = digits.split_once(',') else {
        return false;
    };
    let parts_thousands = !matches!(whole, "" | "0") && rest.len() == 3;
    digits.contains('.') || parts_thousands
}

struct Reader<'a> {
    /// What is left to read.
    text: &'a str,
    /// All of it, for messages.
    whole: String,
}

impl<'a> Reader<'a> {
    fn eat(&mut self, start: &str) -> bool {
        let rest = self.text.strip_prefix(start);
        self.text = rest.map_or(self.text, str::trim_start);
        rest.is_some()
    }

    fn unreadable(&self) -> LengthError {
        let part: String = self.text.chars().take(12).collect();
        let part = if part.is_empty() {
            "the end".into()
        } else {
            part
        };
        LengthError::Unreadable {
            text: self.whole.clone(),
            part,
        }
    }

    /// A number, a fraction, or a whole number with a fraction; whether there was a fraction.
    fn value(&mut self) -> Result<(f64, bool), LengthError> {
        let before = self.text;
        let first = self.number()?;
        if self.eat("/") {
            return Ok((first / self.divisor()?, true));
        }
        if first.fract() != 0.0 || self.text == before {
            return Ok((first, false));
        }
        // A fraction may follow a whole number; if none does, what follows is left for the unit to read.
        let after_whole = self.text;
        let dashed = self.eat("-");
        if self
            .text
            .starts_with(|letter: char| letter.is_ascii_digit())
        {
            let over = self.number()?;
            if self.eat("/") {
                return Ok((first + over / self.divisor()?, true));
            }
            self.text = after_whole;
            return Err(self.unreadable());
        }
        if dashed {
            Err(self.unreadable())
        } else {
            Ok((first, false))
        }
    }

    fn divisor(&mut self) -> Result<f64, LengthError> {
        let under = self.number()?;
        if under == 0.0 {
            return Err(LengthError::ZeroDivisor {
                text: self.whole.clone(),
            });
        }
        Ok(under)
    }

    /// Digits, with a point or a comma among them.
    fn number(&mut self) -> Result<f64, LengthError> {
        let digits: &'a str = self.text;
        let end =
            digits.find(|letter: char| !letter.is_ascii_digit() && letter != '.' && letter != ',');
        let (digits, rest) = digits.split_at(end.unwrap_or(digits.len()));
        if is_ambiguous(digits) {
            return Err(LengthError::Ambiguous {
                text: self.whole.clone(),
            });
        }
        let number = digits
            .replace(',', ".")
            .parse()
            .ok()
            .filter(|number: &f64| number.is_finite());
        let number = number.ok_or_else(|| self.unreadable())?;
        self.text = rest.trim_start();
        Ok(number)
    }

    fn unit(&mut self) -> Result<Option<Unit>, LengthError> {
        if self.text.is_empty() {
            return Ok(None);
        }
        let found = UNITS
            .into_iter()
            .find(|(word, _)| self.text.starts_with(word));
        let Some((word, unit)) = found else {
            return Err(self.unreadable());
        };
        self.eat(word);
        Ok(Some(unit))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

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
        assert_near!(parse_length("3", Units::Inch).unwrap(), 76.2, 1e-9);
        assert_near!(parse_length("0.75", Units::Inch).unwrap(), 19.05, 1e-9);
    }

    #[test]
    fn neat_inches_are_neat_in_mm_to_the_last_digit() {
        for (text, mm) in [
            ("3/4", 19.05),
            ("5/8", 15.875),
            ("21 1/2", 546.1),
            ("0.1 in", 2.54),
        ] {
            assert_eq!(parse_length(text, Units::Inch), Ok(mm));
        }
    }

    #[test]
    fn what_is_no_length_is_refused_with_a_sentence() {
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
    fn lengths_are_shown_as_short_as_they_are_true() {
        for (mm, units, text) in [
            (12.5, Units::Mm, "12.5 mm"),
            (12.0, Units::Mm, "12 mm"),
            (0.000_1, Units::Mm, "0 mm"),
            (-0.000_1, Units::Mm, "0 mm"),
            (100.0, Units::Mm, "100 mm"),
            (1.23456, Units::Mm, "1.235 mm"),
            (19.05, Units::Inch, "3/4\""),
            (25.4, Units::Inch, "1\""),
            (0.0, Units::Inch, "0\""),
            (-3.175, Units::Inch, "-1/8\""),
            (19.0, Units::Inch, "0.748\""),
            (560.0, Units::Inch, "22.0472\""),
        ] {
            assert_eq!(show_length(mm, units), text);
        }
    }

    proptest! {
        #[test]
        fn what_is_shown_reads_back(mm in -5000.0..5000.0_f64) {
            let read = parse_length(&show_length(mm, Units::Mm), Units::Inch).unwrap();
            prop_assert!((read - mm).abs() <= 0.000_501, "{read} {mm}");
            let read = parse_length(&show_length(mm, Units::Inch), Units::Mm).unwrap();
            prop_assert!((read - mm).abs() <= 0.001_3, "{read} {mm}");
        }

        #[test]
        fn every_sixty_fourth_reads_back_exactly(parts in 0_u32..6400) {
            let mm = f64::from(parts) / 64.0 * INCH;
            let shown = show_length(mm, Units::Inch);
            prop_assert!((parse_length(&shown, Units::Inch).unwrap() - mm).abs() < 1e-9, "{shown}");
        }

        #[test]
        fn no_text_makes_it_panic(text in ".{0,40}") {
            let _ = parse_length(&text, Units::Mm);
        }

        #[test]
        fn no_text_like_a_length_makes_it_panic(text in "[-0-9./,' \"½minft]{0,20}") {
            let _ = parse_length(&text, Units::Inch);
        }
    }
}
