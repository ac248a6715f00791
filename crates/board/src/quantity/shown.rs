//! Numbers as makers read them: millimeters, or fractions of an inch, ounces and °F.

use super::{DensityUnit, MassUnit, Quantity, TimeUnit, inches};
use crate::Units;

/// The most decimals that a small number gets.
const MOST_PLACES: i32 = 9;

impl Quantity {
    /// A number of the document as a field shows it, in the maker's system, with the digits that a maker would type. Inches are
    /// fractions no finer than the unit allows, with a mark if they are rounded.
    ///
    /// ```
    /// use board::{Fraction, MassUnit, Quantity, Units};
    /// assert_eq!(Quantity::Length.shown(30.1625, Units::INCH), "1 3/16\"");
    /// assert_eq!(Quantity::Length.shown(600.0, Units::Inch(Fraction::Sixteenth)), "≈ 23 5/8\"");
    /// assert_eq!(Quantity::Mass(MassUnit::Gram).shown(5.0, Units::INCH), "0.1764 oz");
    /// assert_eq!(Quantity::Share.shown(0.08, Units::Mm), "8 %");
    /// // Amounts of money have two decimals, and more only for parts of a cent.
    /// assert_eq!(Quantity::Money.shown(0.0, Units::Mm), "0.00");
    /// assert_eq!(Quantity::Money.shown(0.045, Units::Mm), "0.045");
    /// ```
    pub fn shown(self, held: f64, units: Units) -> String {
        let decimals = match self {
            Self::Count => 0,
            Self::Length => 3,
            Self::Number => 4,
            _ => 2,
        };
        self.rounded(held, units, |number| match self {
            Self::Length | Self::Count => decimals,
            Self::Money if is_whole_cents(number) => decimals,
            _ if self.is_converted(units) => decimals.max(places(number, 4)),
            // Small numbers keep two digits.
            _ => decimals.max(places(number, 2).min(4)),
        })
    }

    /// An end of a range, in the maker's system: money without cents, and a converted number with two digits, rounded by `toward`
    /// into the range, so that it is taken when typed.
    pub(crate) fn shown_end(self, held: f64, units: Units, toward: fn(f64) -> f64) -> String {
        if self == Self::Money && held.fract() == 0.0 {
            return show_number(held, 0);
        }
        if !self.is_converted(units) || held == 0.0 {
            return self.shown(held, units);
        }
        let (unit, _) = self.unit(units);
        let (number, _) = self.converted(held, units);
        let step = 10_f64.powi(number.abs().log10().floor() as i32 - 1);
        // A number that has two digits already is kept.
        let steps = (number / step * 1e6).round() / 1e6;
        self.shown(self.held().of(unit.reckoned(toward(steps) * step)), units)
    }

    /// A number of the document as a maker would type it: like [`Quantity::shown`], except that a length in inches that is not
    /// an exact fraction is a decimal.
    ///
    /// ```
    /// use board::{Quantity, Units};
    /// assert_eq!(Quantity::Length.typed(19.0, Units::INCH), "0.748\"");
    /// ```
    pub fn typed(self, held: f64, units: Units) -> String {
        match (self, units) {
            (Self::Length, Units::Inch(_)) => inches::typed(self.converted(held, units).0),
            _ => self.shown(held, units),
        }
    }

    /// The size of one unit of the maker's system, in the document's unit.
    ///
    /// ```
    /// use board::{Quantity, Units};
    /// assert_eq!(Quantity::Length.unit_size(Units::INCH), 25.4);
    /// ```
    pub fn unit_size(self, units: Units) -> f64 {
        let (unit, _) = self.unit(units);
        self.held().of(unit.size())
    }

    /// A number as a report shows it, with no more digits than are useful in the shop.
    pub(super) fn reported(self, held: f64, units: Units) -> String {
        if self.is_converted(units) {
            let digits = |number: f64| if number.abs() < 1.0 { 2 } else { 3 };
            return self.rounded(held, units, |number| places(number, digits(number)));
        }
        // Half a hundredth is rounded up, as makers do.
        let held = match self {
            Self::Length if units == Units::Mm => (held * 100.0).round() / 100.0,
            _ => held,
        };
        self.rounded(held, units, |number| match self {
            Self::Count | Self::Feed | Self::Density(DensityUnit::KilogramsPerCubicMeter) => 0,
            // Nobody measures a meter to a hundredth of a millimeter, or times fractions of a minute.
            Self::Length if number.abs() >= 1000.0 => 0,
            Self::Time(TimeUnit::Minute) if number.abs() >= 10.0 => 0,
            Self::Mass(_) if number.abs() >= 10.0 => 1,
            Self::Number => 5,
            Self::Angle | Self::Mass(MassUnit::Kilogram) => 3,
            Self::Volume | Self::Solid if number < 1.0 => 2,
            Self::Length | Self::Mass(_) | Self::Force | Self::Density(_) | Self::Money => 2,
            _ => 1,
        })
    }

    /// Whether the number is shown in a unit other than the document's; `false` for lengths.
    fn is_converted(self, units: Units) -> bool {
        let (unit, _) = self.unit(units);
        !matches!(self, Self::Length | Self::Share) && unit != self.held()
    }

    /// A number of the document converted to a system's unit, and that unit's symbol.
    pub(super) fn converted(self, held: f64, units: Units) -> (f64, &'static str) {
        let (unit, sign) = self.unit(units);
        if unit == self.held() {
            return (held, sign);
        }
        (unit.of(self.held().reckoned(held)), sign)
    }

    /// A number in the maker's unit, rounded to the number of decimals returned by `decimals`, and its symbol.
    fn rounded(self, held: f64, units: Units, decimals: impl Fn(f64) -> usize) -> String {
        let (number, sign) = self.converted(held, units);
        if let (Self::Length, Units::Inch(fraction)) = (self, units) {
            return inches::shown(number, fraction);
        }
        let decimals = decimals(number);
        let number = match self {
            Self::Money => format!("{number:.decimals$}"),
            _ => show_number(number, decimals),
        };
        match sign {
            "" => number,
            "°" => number + sign,
            sign => format!("{number} {sign}"),
        }
    }
}

/// Whether an amount is a whole number of cents. Others, such as the price of one screw, keep their digits.
fn is_whole_cents(amount: f64) -> bool {
    let cents = amount * 100.0;
    (cents - cents.round()).abs() < 1e-6
}

/// The number of decimals that gives a number `digits` significant digits.
fn places(number: f64, digits: i32) -> usize {
    let enough = 10_f64.powi(digits - 1);
    let places = (0..MOST_PLACES).find(|places| number.abs() * 10_f64.powi(*places) >= enough);
    places.unwrap_or(MOST_PLACES) as usize
}

/// A number with at most this many decimals, and no more than it needs.
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
