//! The parts of an expression as they appear in the text: digits, fractions, units and dashes.

use super::error::{Fault, quoted};
use super::inches::MARK;
use super::unit::Unit;
use super::{Quantity, unit};
use crate::Units;

/// The text in lower case, with typographic characters replaced by plain ones and with single spaces.
pub(super) fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '″' | '”' | '“' => plain.push('"'),
            '′' | '’' | '‘' => plain.push('\''),
            '⁄' | '∕' => plain.push('/'),
            '×' | '·' => plain.push('*'),
            '–' => plain.push('-'),
            'º' => plain.push('°'),
            '½' => plain.push_str(" 1/2"),
            '¼' => plain.push_str(" 1/4"),
            '¾' => plain.push_str(" 3/4"),
            '⅛' => plain.push_str(" 1/8"),
            '⅜' => plain.push_str(" 3/8"),
            '⅝' => plain.push_str(" 5/8"),
            '⅞' => plain.push_str(" 7/8"),
            // A rounded length can be typed back as shown.
            letter if letter.is_whitespace() || letter == MARK => {
                if !plain.ends_with(' ') {
                    plain.push(' ');
                }
            }
            letter => plain.extend(letter.to_lowercase()),
        }
    }
    plain
}

/// The meaning of a dash between two numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Dash {
    /// Without spaces: 2'-3", 1-3/8.
    Tight,
    /// With a space on both sides, as in a subtraction.
    Spaced,
    /// With a space on one side.
    Lopsided,
}

/// The form of a written number, as far as it affects the number's unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// Digits, perhaps with a point.
    Digits,
    /// A whole number over another.
    Fraction,
    /// A whole number with a fraction.
    Mixed,
}

/// The part of a text that is still to be read.
#[derive(Debug, Clone)]
pub(super) struct Reader<'a> {
    pub(super) rest: &'a str,
    pub(super) quantity: Quantity,
    pub(super) units: Units,
    /// Number of open parentheses.
    pub(super) depth: usize,
}

impl Reader<'_> {
    /// Skips spaces.
    pub(super) fn skip(&mut self) {
        self.rest = self.rest.trim_start();
    }

    /// Skips a sign if it is next; returns whether it was.
    pub(super) fn eat(&mut self, start: char) -> bool {
        let rest = self.rest.strip_prefix(start);
        self.rest = rest.unwrap_or(self.rest);
        rest.is_some()
    }

    /// The error for the current position in the text.
    pub(super) fn unreadable(&self) -> Fault {
        Fault::Unreadable(quoted(self.rest))
    }

    /// A number, a fraction, or a whole number with a fraction.
    pub(super) fn value(&mut self) -> Result<(f64, Form), Fault> {
        let (first, is_whole) = self.digits()?;
        if !is_whole {
            return Ok((first, Form::Digits));
        }
        if let Some(under) = self.divisor()? {
            return Ok((first / under, Form::Fraction));
        }
        // A fraction may follow a whole number; if none does, the rest is left for other readers.
        let mut ahead = self.clone();
        let dash = ahead.dash();
        if dash == Some(Dash::Spaced) {
            return Ok((first, Form::Digits));
        }
        ahead.skip();
        if starts_with_digit(ahead.rest)
            && let (over, true) = ahead.digits()?
            && let Some(under) = ahead.divisor()?
        {
            if dash == Some(Dash::Lopsided) {
                return Err(Fault::Dash);
            }
            *self = ahead;
            return Ok((first + over / under, Form::Mixed));
        }
        Ok((first, Form::Digits))
    }

    /// The whole number after a fraction's slash, if there is one.
    fn divisor(&mut self) -> Result<Option<f64>, Fault> {
        let mut ahead = self.clone();
        ahead.skip();
        if !ahead.eat('/') {
            return Ok(None);
        }
        ahead.skip();
        if !starts_with_digit(ahead.rest) {
            return Ok(None);
        }
        match ahead.digits()? {
            (_, false) => Ok(None),
            (0.0, _) => Err(Fault::ZeroDivisor),
            (under, _) => {
                *self = ahead;
                Ok(Some(under))
            }
        }
    }

    /// Digits, with an optional point or comma; also returns whether there are any.
    fn digits(&mut self) -> Result<(f64, bool), Fault> {
        let is_part = |letter: char| letter.is_ascii_digit() || letter == '.' || letter == ',';
        let end = self.rest.find(|letter| !is_part(letter));
        let (digits, rest) = self.rest.split_at(end.unwrap_or(self.rest.len()));
        if is_ambiguous(digits) {
            return Err(Fault::Comma);
        }
        let number = digits.replace(',', ".").parse().ok();
        let number = number.filter(|number: &f64| number.is_finite());
        let number = number.ok_or_else(|| self.unreadable())?;
        self.rest = rest;
        Ok((number, !digits.contains(['.', ','])))
    }

    /// A unit, if one follows; an abbreviation may end in a period.
    pub(super) fn unit(&mut self) -> Option<Unit> {
        let text = self.rest.trim_start();
        let words = self.quantity.words().iter();
        let (rest, unit) = words
            .filter_map(|(word, unit)| Some((text.strip_prefix(word)?, *unit)))
            .min_by_key(|(rest, _)| rest.len())?;
        let pointed = rest
            .strip_prefix('.')
            .filter(|rest| !starts_with_digit(rest));
        self.rest = pointed.unwrap_or(rest);
        Some(unit)
    }

    /// Reads a dash, and returns how it is spaced. A true minus sign is not a dash: it always means subtraction.
    fn dash(&mut self) -> Option<Dash> {
        let mut ahead = self.clone();
        ahead.skip();
        let before = ahead.rest.len() < self.rest.len();
        if !ahead.eat('-') {
            return None;
        }
        let after = ahead.rest.starts_with(' ');
        ahead.skip();
        *self = ahead;
        Some(match (before, after) {
            (false, false) => Dash::Tight,
            (true, true) => Dash::Spaced,
            _ => Dash::Lopsided,
        })
    }

    /// Whether a number follows that continues the previous one, as inches do after feet; reads the dash before it.
    pub(super) fn goes_on(&mut self, after: Unit) -> Result<bool, Fault> {
        let mut ahead = self.clone();
        let dash = ahead.dash();
        ahead.skip();
        let follows = starts_with_digit(ahead.rest) || ahead.rest.starts_with(['.', ',']);
        let joins = match dash {
            None => follows,
            // Feet and inches are also written with a dash between them: 2'-3 1/2".
            Some(Dash::Tight) if after == unit::FOOT => follows,
            Some(Dash::Tight) if follows => return Err(Fault::Dash),
            Some(_) if follows && after == unit::FOOT && ahead.clone().is_in_inches() => {
                return Err(Fault::Dash);
            }
            Some(_) => false,
        };
        if joins {
            *self = ahead;
        }
        Ok(joins)
    }

    /// Whether the following value is in inches or has no unit.
    fn is_in_inches(&mut self) -> bool {
        self.value().is_ok() && self.unit().is_none_or(|unit| unit == unit::INCH)
    }
}

/// Whether a number begins here, without its sign.
fn starts_with_digit(text: &str) -> bool {
    text.starts_with(|letter: char| letter.is_ascii_digit())
}

/// Whether a comma may be a decimal comma or a thousands separator: beside a point, or before exactly three digits.
fn is_ambiguous(digits: &str) -> bool {
    let Some((whole, rest)) = digits.split_once(',') else {
        return false;
    };
    let parts_thousands = !matches!(whole, "" | "0") && rest.len() == 3;
    digits.contains('.') || parts_thousands
}
