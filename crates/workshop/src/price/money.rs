//! Money in whole cents, or the smallest coin of the currency, so that printed amounts add up.
//!
//! Everything is rounded once, when it becomes an amount; halves round up. Shares have a resolution of one billionth.

use core::iter::Sum;
use core::ops::{Add, Sub};

use board::Currency;

/// An amount in the smallest coin of its currency.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Hash)]
pub struct Money {
    /// Cents, or yen.
    pub minor: i64,
}

/// The number of parts into which a share is divided.
const PARTS: i128 = 1_000_000_000;

/// A share in such parts; 0 for NaN or infinity.
///
/// Rounding to whole parts keeps a share that was typed as 8.25 % exactly that.
fn parts(share: f64) -> i128 {
    (share * PARTS as f64).round() as i128
}

/// A quotient with halves rounded up, for either sign; 0 divided by 0 is 0.
///
/// It saturates at the ends of the range of coins.
const fn half_up(number: i128, by: i128) -> i64 {
    if by == 0 {
        return 0;
    }
    let twice = number.saturating_mul(2).saturating_add(by);
    let quotient = twice.div_euclid(by.saturating_mul(2));
    if quotient > i64::MAX as i128 {
        i64::MAX
    } else if quotient < i64::MIN as i128 {
        i64::MIN
    } else {
        quotient as i64
    }
}

impl Money {
    /// No money.
    pub const ZERO: Self = Self { minor: 0 };

    /// An amount as typed, in dollars and not in cents.
    ///
    /// ```
    /// use board::Currency;
    /// use workshop::Money;
    /// assert_eq!(Money::of(9.75, Currency::Usd).minor, 975);
    /// assert_eq!(Money::of(120.5, Currency::Jpy).minor, 121);
    /// ```
    pub fn of(amount: f64, currency: Currency) -> Self {
        let coins = f64::from(10_u32.pow(currency.decimals()));
        // Slightly up, since 1.005 in binary is a little less than it was when typed.
        let minor = (amount * coins * (1.0 + f64::EPSILON) + 0.5).floor();
        Self {
            minor: minor as i64,
        }
    }

    /// The amount multiplied by a fraction, `count` of `of` parts.
    ///
    /// ```
    /// use workshop::Money;
    /// // Eleven thousandths of a cubic meter at 2,400 for one.
    /// assert_eq!(Money { minor: 240_000 }.times(11, 1000).minor, 2640);
    /// ```
    #[must_use]
    pub const fn times(self, count: u64, of: u64) -> Self {
        Self::of_parts(self.minor as i128 * count as i128, of as i128)
    }

    /// A quotient in whole coins, halves rounded up; 0 divided by 0 is 0.
    pub(super) const fn of_parts(number: i128, by: i128) -> Self {
        Self {
            minor: half_up(number, by),
        }
    }

    /// A share of a number of parts, with `by` parts per coin, in whole coins.
    pub(super) fn of_share(number: i128, share: f64, by: i128) -> Self {
        Self::of_parts(
            number.saturating_mul(parts(share)),
            by.saturating_mul(PARTS),
        )
    }

    /// A share of the amount.
    ///
    /// ```
    /// use workshop::Money;
    /// // 8.25 % of 199.99 are 16.499175.
    /// assert_eq!(Money { minor: 19_999 }.share(0.0825).minor, 1650);
    /// ```
    #[must_use]
    pub fn share(self, share: f64) -> Self {
        Self::of_share(i128::from(self.minor), share, 1)
    }

    /// The amount from which this one remains after a share is taken off; none for a share of the whole.
    ///
    /// ```
    /// use workshop::Money;
    /// // A quarter of 200 is the margin on what costs 150.
    /// assert_eq!(Money { minor: 15_000 }.before(0.25), Some(Money { minor: 20_000 }));
    /// assert_eq!(Money { minor: 15_000 }.before(1.0), None);
    /// ```
    pub fn before(self, share: f64) -> Option<Self> {
        let stays = PARTS - parts(share);
        (stays > 0).then(|| Self {
            minor: half_up(i128::from(self.minor) * PARTS, stays),
        })
    }

    /// The amount with its currency sign, decimals, and commas between thousands.
    ///
    /// ```
    /// use board::Currency;
    /// use workshop::Money;
    /// assert_eq!(Money { minor: 123_456 }.shown(Currency::Usd), "$1,234.56");
    /// assert_eq!(Money { minor: 1_234_567 }.shown(Currency::Jpy), "¥1,234,567");
    /// assert_eq!(Money { minor: -5 }.shown(Currency::Eur), "-€0.05");
    /// ```
    pub fn shown(self, currency: Currency) -> String {
        let minus = if self.minor < 0 { "-" } else { "" };
        format!("{minus}{}{}", currency.sign(), self.digits(currency, ","))
    }

    /// The bare number, for tables: `1234.56`.
    ///
    /// A table for programs has no currency sign and no commas.
    pub fn plain(self, currency: Currency) -> String {
        let minus = if self.minor < 0 { "-" } else { "" };
        format!("{minus}{}", self.digits(currency, ""))
    }

    /// The digits without a sign, with a separator between thousands.
    fn digits(self, currency: Currency, between: &str) -> String {
        let coins = 10_u64.pow(currency.decimals());
        let minor = self.minor.unsigned_abs();
        let whole = (minor / coins).to_string();
        let mut text = String::new();
        for (at, digit) in whole.chars().enumerate() {
            if at > 0 && (whole.len() - at).is_multiple_of(3) {
                text.push_str(between);
            }
            text.push(digit);
        }
        if currency.decimals() > 0 {
            let width = currency.decimals() as usize;
            let rest = format!("{:0width$}", minor % coins);
            text.push('.');
            text.push_str(&rest);
        }
        text
    }
}

impl Add for Money {
    type Output = Self;

    /// The sum of two amounts of one currency; it saturates.
    fn add(self, other: Self) -> Self {
        Self {
            minor: self.minor.saturating_add(other.minor),
        }
    }
}

impl Sub for Money {
    type Output = Self;

    /// The difference of two amounts of one currency.
    fn sub(self, other: Self) -> Self {
        Self {
            minor: self.minor.saturating_sub(other.minor),
        }
    }
}

impl Sum for Money {
    /// The sum of amounts of one currency; 0 of no amounts.
    fn sum<I: Iterator<Item = Self>>(amounts: I) -> Self {
        amounts.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const fn cents(minor: i64) -> Money {
        Money { minor }
    }

    /// Worked by hand: half a cent rounds up, less than half rounds down.
    #[test]
    fn halves_round_up() {
        assert_eq!(cents(1).times(1, 2), cents(1));
        assert_eq!(cents(50).share(0.01), cents(1));
        assert_eq!(cents(49).share(0.01), cents(0));
        assert_eq!(cents(-1).times(1, 2), cents(0));
        assert_eq!(Money::of(1.005, Currency::Usd), cents(101));
        assert_eq!(Money::of(0.1 + 0.2, Currency::Usd), cents(30));
    }

    /// Tax worked by hand: 7 % of 107.50 is 7.525, rounded to 7.53; 19 % of 1,234.56 is 234.5664, rounded to 234.57.
    #[test]
    fn tax_is_rounded_as_worked_by_hand() {
        assert_eq!(cents(10_750).share(0.07), cents(753));
        assert_eq!(cents(123_456).share(0.19), cents(23_457));
    }

    #[test]
    fn absurd_amounts_saturate() {
        assert_eq!(Money::of(f64::NAN, Currency::Usd), Money::ZERO);
        assert_eq!(Money::of(1e300, Currency::Usd).minor, i64::MAX);
        assert_eq!(cents(i64::MAX).times(u64::MAX, 1).minor, i64::MAX);
        assert_eq!(cents(5).times(5, 0), Money::ZERO);
    }

    proptest! {
        #[test]
        fn taking_off_the_margin_restores_the_cost(minor in 0..100_000_000_i64, share in -0.9..0.99_f64) {
            let before = cents(minor).before(share).unwrap();
            let off = before.share(share);
            prop_assert!(((before - off).minor - minor).abs() <= 1);
        }

        #[test]
        fn a_shown_amount_has_all_its_digits(minor in any::<i32>()) {
            let money = cents(i64::from(minor));
            let plain: f64 = money.plain(Currency::Usd).parse().unwrap();
            prop_assert_eq!((plain * 100.0).round() as i64, money.minor);
            let bare: String = money.shown(Currency::Usd).chars().filter(|c| !matches!(c, ',' | '$')).collect();
            prop_assert_eq!(bare, money.plain(Currency::Usd));
        }
    }
}
