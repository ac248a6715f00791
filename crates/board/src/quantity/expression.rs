//! Expressions as makers type them: 23 1/2 - 2*3/8, (3 + 1/4)*2 in, 1 h 30 min.
//!
//! ```text
//! sum     = product { ("+" | "-") product }
//! product = factor { ("*" | "×" | "x" | "/" | "÷") factor }
//! factor  = [ "+" | "-" ] ( "(" sum ")" [ unit ] | number [ unit { smaller number [ unit ] } ] )
//! number  = digits | digits "/" digits | digits ( " " | "-" ) digits "/" digits
//! ```

use super::error::{Fault, quoted};
use super::read::{Form, Reader, plain};
use super::term::{Bare, Term};
use super::{Quantity, QuantityError, unit};
use crate::Units;

/// The longest text that is read, in bytes.
const LONGEST: usize = 100;
/// The deepest nesting of parentheses.
const DEEPEST: usize = 16;
/// From this numerator on, a number over another is a division: nobody writes that many inches as a fraction.
const DIVISION: f64 = 10.0;

impl Quantity {
    /// Reads a number of this kind as a maker types it, and returns it in the document's unit.
    ///
    /// Numbers can be added, subtracted, multiplied and divided, also in parentheses. Fractions and whole numbers with a
    /// fraction bind tightest: 2*3/8 is twice three eighths. A dash without spaces joins numbers where possible (2'-3", 1-3/8);
    /// a dash with spaces subtracts.
    ///
    /// A number without a unit is in the displayed unit, except a fraction of a length, which is in inches in either system,
    /// since nobody divides a millimeter into eighths; 560/2 is still a division. A unit applies only to its number, or to the
    /// parentheses before it: if a sum has a number in a unit other than the displayed one, every number needs a unit. Only one
    /// factor of a product may have a unit, and a divisor must not have one. An ambiguous text is refused.
    ///
    /// # Errors
    /// [`QuantityError`] says what cannot be read, and what would work.
    ///
    /// ```
    /// use board::{Quantity, TimeUnit, Units};
    /// let minutes = Quantity::Time(TimeUnit::Minute);
    /// assert_eq!(minutes.read("1 h 30 min", Units::Mm), Ok(90.0));
    /// assert_eq!(Quantity::Length.read("23 1/2 - 2*3/8", Units::INCH), Ok(22.75 * 25.4));
    /// assert_eq!(Quantity::Temperature.read("68", Units::INCH), Ok(20.0));
    /// ```
    pub fn read(self, text: &str, units: Units) -> Result<f64, QuantityError> {
        self.value_of(text, units).map_err(|fault| QuantityError {
            quantity: self,
            text: quoted(text),
            fault,
        })
    }

    /// The value of a text, in the document's unit.
    fn value_of(self, text: &str, units: Units) -> Result<f64, Fault> {
        let text = text.trim();
        if text.is_empty() {
            return Err(Fault::Empty);
        }
        if text.len() > LONGEST {
            return Err(Fault::Unreadable(String::new()));
        }
        let plain = plain(text);
        let plain = plain.trim();
        let mut reader = Reader {
            rest: match self {
                Self::Money => plain.trim_start_matches(['$', '€', '£']),
                _ => plain,
            },
            quantity: self,
            units,
            depth: 0,
        };
        let sum = reader.sum()?;
        reader.skip();
        if !reader.rest.is_empty() {
            return Err(reader.unreadable());
        }
        let held = self.held().of(reader.settled(sum)?);
        self.accepted(held).ok_or(Fault::Unreadable(String::new()))
    }

    /// The value, if it is finite and, for counts, whole.
    fn accepted(self, held: f64) -> Option<f64> {
        let whole = held.round();
        match self {
            Self::Count => ((held - whole).abs() < 1e-9).then_some(whole),
            _ => held.is_finite().then_some(held),
        }
    }
}

impl Reader<'_> {
    /// Products, added and subtracted.
    fn sum(&mut self) -> Result<Term, Fault> {
        let mut sum = self.product(true)?;
        loop {
            self.skip();
            let sign = if self.eat('+') {
                1.0
            } else if self.eat('-') || self.eat('−') {
                -1.0
            } else {
                return Ok(sum);
            };
            let next = self.product(false)?;
            self.stands_alone(&[sum, next])?;
            sum = sum.plus(next.times(sign));
        }
    }

    /// Factors, multiplied and divided; a length times a length is an error.
    fn product(&mut self, signed: bool) -> Result<Term, Fault> {
        let (mut product, mut has_stroke) = self.factor(signed)?;
        loop {
            self.skip();
            let multiplies = self.eat('*') || self.eat('x');
            let slash = !multiplies && self.eat('/');
            if !multiplies && !slash && !self.eat('÷') {
                return Ok(product);
            }
            let (factor, stroke) = self.factor(true)?;
            // 5/8/2 and 10/(5/8) without the parentheses are ambiguous.
            if slash && (has_stroke || stroke) {
                return Err(Fault::Slashes);
            }
            has_stroke = stroke;
            self.stands_alone(&[product, factor])?;
            product = if multiplies {
                product.by(factor)?
            } else {
                product.over(factor)?
            };
        }
    }

    /// A number or parentheses; also returns whether it ends in a fraction without a unit.
    fn factor(&mut self, signed: bool) -> Result<(Term, bool), Fault> {
        self.skip();
        let is_negative = signed && (self.eat('-') || self.eat('−'));
        if signed && !is_negative {
            self.eat('+');
        }
        self.skip();
        let sign = if is_negative { -1.0 } else { 1.0 };
        if !self.rest.starts_with('(') {
            return self.number(sign);
        }
        let group = self.group()?;
        if is_negative {
            self.stands_alone(&[group])?;
        }
        Ok((group.times(sign), false))
    }

    /// A sum in parentheses, with an optional unit after them that applies to all of it.
    fn group(&mut self) -> Result<Term, Fault> {
        if self.depth == DEEPEST {
            return Err(self.unreadable());
        }
        self.eat('(');
        self.depth += 1;
        let sum = self.sum()?;
        self.depth -= 1;
        self.skip();
        if !self.eat(')') {
            return Err(self.unreadable());
        }
        let before = self.clone();
        match (self.unit(), sum.known, sum.bare) {
            (None, ..) => Ok(sum),
            (Some(unit), None, Some(bare)) => {
                Ok(Term::known(unit.reckoned(bare.value), self.is_other(unit)))
            }
            _ => Err(before.unreadable()),
        }
    }

    /// A number with its unit, and an optional number in a smaller unit: feet and inches, hours and minutes.
    fn number(&mut self, sign: f64) -> Result<(Term, bool), Fault> {
        let (value, form) = self.value()?;
        let Some(mut unit) = self.unit() else {
            let bare = self.bare(value, form);
            let term = Term::bare(bare).times(sign);
            return Ok((term, form != Form::Digits));
        };
        let mut reckoned = unit.reckoned(sign * value);
        while let Some(smaller) = unit.smaller
            && self.goes_on(unit)?
        {
            let (value, _) = self.value()?;
            let next = self.unit().unwrap_or(*smaller);
            if !unit.is_above(next) {
                return Err(self.unreadable());
            }
            reckoned += next.reckoned(sign * value);
            unit = next;
        }
        Ok((Term::known(reckoned, self.is_other(unit)), false))
    }

    /// A number without a unit, with the units that it can be in.
    fn bare(&self, value: f64, form: Form) -> Bare {
        let inch = self.quantity == Quantity::Length
            && match form {
                Form::Digits => false,
                Form::Fraction => value < DIVISION,
                Form::Mixed => true,
            };
        Bare {
            value,
            shown: !inch || (form == Form::Fraction && value >= 1.0),
            inch,
            whole: !inch,
        }
    }

    /// Whether a unit belongs to the system other than the displayed one.
    fn is_other(&self, unit: unit::Unit) -> bool {
        unit != self.quantity.unit(self.units).0
    }

    /// Refuses arithmetic with temperatures that have a unit: 60 °F and 8 °F do not add up to 68 °F.
    fn stands_alone(&self, terms: &[Term]) -> Result<(), Fault> {
        let has_unit = terms.iter().any(|term| term.known.is_some());
        if has_unit && self.quantity == Quantity::Temperature {
            return Err(Fault::Temperature);
        }
        Ok(())
    }

    /// The final value, once the numbers without a unit are given one.
    fn settled(&self, term: Term) -> Result<f64, Fault> {
        let known = term.known.unwrap_or(0.0);
        let Some(bare) = term.bare else {
            return Ok(known);
        };
        let shown = self.quantity.unit(self.units).0;
        let in_inches = unit::INCH.reckoned(bare.value);
        if self.quantity == Quantity::Length && shown == unit::INCH {
            let mixes = bare.whole && term.other_unit;
            return if mixes {
                Err(Fault::OpenUnits)
            } else {
                Ok(known + in_inches)
            };
        }
        match (bare.shown, bare.inch) {
            _ if bare.whole && term.other_unit => Err(Fault::OpenUnits),
            (false, false) => Err(Fault::OpenUnits),
            (true, true) if term.known.is_none() => Err(Fault::InchOrNot),
            (_, true) if term.other_unit || !bare.shown => Ok(known + in_inches),
            _ => Ok(known + shown.reckoned(bare.value)),
        }
    }
}
