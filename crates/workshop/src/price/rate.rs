//! A price or a rate as typed, finer than the smallest coin.
//!
//! A screw at 3.5 cents has no price in whole cents. The rate is multiplied as typed, and only the product is rounded.

use board::Currency;

use super::Money;

/// Parts of the smallest coin in which a rate is counted.
const FINE: u32 = 1_000_000;

/// The price of one pack, or of one hour, in millionths of the smallest coin of its currency.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Hash)]
pub struct Rate {
    /// Millionths of a cent, or of a yen.
    micro: i64,
}

impl Rate {
    /// A rate as typed, in dollars and not in cents.
    ///
    /// ```
    /// use board::Currency;
    /// use workshop::Rate;
    /// // 24 screws at 3.5 cents are 84 cents.
    /// assert_eq!(Rate::of(0.035, Currency::Usd).times(24, 1).minor, 84);
    /// ```
    pub fn of(amount: f64, currency: Currency) -> Self {
        let coins = f64::from(10_u32.pow(currency.decimals()));
        Self {
            micro: (amount * coins * f64::from(FINE)).round() as i64,
        }
    }

    /// Whether it is 0.
    pub const fn is_nothing(self) -> bool {
        self.micro == 0
    }

    /// The rate multiplied by a fraction, `count` of `of` parts; rounded once, halves up.
    ///
    /// ```
    /// use board::Currency;
    /// use workshop::Rate;
    /// // 90 minutes at 45.125 an hour.
    /// assert_eq!(Rate::of(45.125, Currency::Usd).times(90, 60).minor, 6769);
    /// ```
    pub fn times(self, count: u64, of: u64) -> Money {
        Money::of_parts(
            i128::from(self.micro).saturating_mul(i128::from(count)),
            i128::from(of).saturating_mul(i128::from(FINE)),
        )
    }

    /// The amount for a share of a pack; rounded once, halves up.
    pub fn share(self, share: f64) -> Money {
        Money::of_share(i128::from(self.micro), share, i128::from(FINE))
    }

    /// The rate with its currency sign, and with more decimals than coins have only where it was typed with more.
    ///
    /// ```
    /// use board::Currency;
    /// use workshop::Rate;
    /// assert_eq!(Rate::of(0.035, Currency::Usd).shown(Currency::Usd), "$0.035");
    /// assert_eq!(Rate::of(1250.0, Currency::Usd).shown(Currency::Usd), "$1,250.00");
    /// ```
    pub fn shown(self, currency: Currency) -> String {
        self.whole().shown(currency) + &self.rest(currency)
    }

    /// The bare number, for tables: `0.035`.
    pub fn plain(self, currency: Currency) -> String {
        self.whole().plain(currency) + &self.rest(currency)
    }

    /// Its whole coins, truncated and not rounded.
    const fn whole(self) -> Money {
        Money {
            minor: self.micro / FINE as i64,
        }
    }

    /// The decimals beyond those of the coins, without trailing zeros.
    fn rest(self, currency: Currency) -> String {
        let parts = self.micro.unsigned_abs() % u64::from(FINE);
        let digits = format!("{parts:06}");
        let digits = digits.trim_end_matches('0');
        match (digits.is_empty(), currency.decimals()) {
            (true, _) => String::new(),
            (false, 0) => format!(".{digits}"),
            (false, _) => digits.into(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// By hand: 24 at 0.125 are 3.00, where 24 at 13 cents would be 3.12; 144 at a third of a cent are 48 cents.
    #[test]
    fn a_rate_is_multiplied_before_it_is_rounded() {
        let rate = |amount| Rate::of(amount, Currency::Usd);
        assert_eq!(rate(0.125).times(24, 1).minor, 300);
        assert_eq!(rate(0.01 / 3.0).times(144, 1).minor, 48);
        assert_eq!(rate(0.125).share(0.5).minor, 6);
        assert_eq!(rate(0.125).times(0, 1).minor, 0);
        assert!(!rate(0.001).is_nothing() && rate(0.0).is_nothing());
    }

    #[test]
    fn a_rate_is_shown_with_the_digits_typed() {
        for (amount, currency, shown) in [
            (0.25, Currency::Usd, "$0.25"),
            (0.0375, Currency::Usd, "$0.0375"),
            (120.0, Currency::Jpy, "¥120"),
            (120.5, Currency::Jpy, "¥120.5"),
            (1.1, Currency::Eur, "€1.10"),
        ] {
            assert_eq!(Rate::of(amount, currency).shown(currency), shown);
        }
    }

    #[test]
    fn absurd_rates_saturate() {
        let most = Rate::of(1e300, Currency::Usd);
        assert!(most.times(u64::MAX, 1).minor > 0);
        assert_eq!(Rate::of(f64::NAN, Currency::Usd), Rate::default());
        assert_eq!(Rate::of(5.0, Currency::Usd).times(5, 0), Money::ZERO);
    }

    proptest! {
        #[test]
        fn rates_in_whole_cents_equal_money(cents in 0..10_000_000_i64, count in 0..10_000_u64) {
            let rate = Rate::of(cents as f64 / 100.0, Currency::Usd);
            let money = Money { minor: cents };
            prop_assert_eq!(rate.times(count, 1), money.times(count, 1));
            prop_assert_eq!(rate.plain(Currency::Usd), money.plain(Currency::Usd));
        }
    }
}
