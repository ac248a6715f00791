//! The price of the order: prices of things and hours, margin and tax, and the words of the quote.

use serde::{Deserialize, Serialize};

/// Prices and rates for the maker's cost and the customer's price. Money is in the currency's own unit: dollars, not cents.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Price {
    /// The currency of every price.
    pub currency: Currency,
    /// Rate for an hour of the maker's work; none: unknown.
    pub hourly: Option<f64>,
    /// Cost of machines and the shop per hour of work; none: included in the hourly rate or the overhead.
    pub machine: Option<f64>,
    /// Overhead on materials and time, as a share of them.
    pub overhead: f64,
    /// Margin, as a share of the price before tax.
    pub margin: f64,
    /// Sales tax or value-added tax, as a share of the price before tax.
    pub tax: f64,
    /// Extra lumber bought beyond the rough sizes of the parts, as a share of them.
    pub waste: f64,
    /// Whether whole packs are charged, or only the part used.
    pub whole_packs: bool,
    /// Prices of the articles bought.
    pub articles: Vec<ArticlePrice>,
    /// The maker's name on the quote.
    pub maker: String,
    /// The maker's address.
    pub address: String,
    /// Phone number, email or website.
    pub contact: String,
    /// The customer's name.
    pub customer: String,
    /// Number of days that the quote is valid.
    pub valid_days: u32,
    /// Text about anything that the price does not include.
    pub not_included: String,
}

/// The price of an article, under its name in the shopping list.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ArticlePrice {
    /// The name of the article.
    pub article: String,
    /// The price of a pack; none: unknown.
    #[serde(default)]
    pub price: Option<f64>,
    /// The amount in a pack, in the article's unit; none: the usual amount.
    #[serde(default)]
    pub pack: Option<f64>,
    /// Whether the shop already has it, so that it need not be bought.
    #[serde(default)]
    pub owned: bool,
}

impl Default for Price {
    /// No prices and no rates; 25 % lumber waste and a quote valid for 30 days, common practice, no source.
    fn default() -> Self {
        Self {
            currency: Currency::default(),
            hourly: None,
            machine: None,
            overhead: 0.0,
            margin: 0.0,
            tax: 0.0,
            waste: 0.25,
            whole_packs: true,
            articles: Vec::new(),
            maker: String::new(),
            address: String::new(),
            contact: String::new(),
            customer: String::new(),
            valid_days: 30,
            not_included: String::new(),
        }
    }
}

impl Price {
    /// The entry for an article, if there is one.
    pub fn of(&self, article: &str) -> Option<&ArticlePrice> {
        self.articles.iter().find(|price| price.article == article)
    }

    /// Whether anything has a price yet; missing prices are only reported once something does.
    ///
    /// ```
    /// use board::Price;
    /// assert!(!Price::default().is_begun());
    /// assert!(Price { hourly: Some(45.0), ..Price::default() }.is_begun());
    /// ```
    pub fn is_begun(&self) -> bool {
        let priced = self.articles.iter().any(|price| price.price.is_some());
        priced || self.hourly.is_some() || self.machine.is_some()
    }
}

/// The currencies that prices can be in, with their ISO 4217 codes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "UPPERCASE")]
pub enum Currency {
    /// US dollar.
    #[default]
    Usd,
    /// Canadian dollar.
    Cad,
    /// Euro.
    Eur,
    /// Pound sterling.
    Gbp,
    /// Australian dollar.
    Aud,
    /// Swiss franc.
    Chf,
    /// Swedish krona.
    Sek,
    /// Japanese yen.
    Jpy,
}

impl Currency {
    /// Every currency, in the order lists show them.
    pub const ALL: [Self; 8] = [
        Self::Usd,
        Self::Cad,
        Self::Eur,
        Self::Gbp,
        Self::Aud,
        Self::Chf,
        Self::Sek,
        Self::Jpy,
    ];

    /// The words that screens use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Usd => "US dollar",
            Self::Cad => "Canadian dollar",
            Self::Eur => "euro",
            Self::Gbp => "pound sterling",
            Self::Aud => "Australian dollar",
            Self::Chf => "Swiss franc",
            Self::Sek => "Swedish krona",
            Self::Jpy => "Japanese yen",
        }
    }

    /// The ISO 4217 code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Usd => "USD",
            Self::Cad => "CAD",
            Self::Eur => "EUR",
            Self::Gbp => "GBP",
            Self::Aud => "AUD",
            Self::Chf => "CHF",
            Self::Sek => "SEK",
            Self::Jpy => "JPY",
        }
    }

    /// The sign before an amount: a symbol if the currency has an unambiguous one, otherwise the code and a space.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Usd => "$",
            Self::Cad => "CA$",
            Self::Eur => "€",
            Self::Gbp => "£",
            Self::Aud => "A$",
            Self::Jpy => "¥",
            Self::Chf => "CHF ",
            Self::Sek => "SEK ",
        }
    }

    /// Number of decimals of an amount, according to ISO 4217.
    pub const fn decimals(self) -> u32 {
        match self {
            Self::Jpy => 0,
            _ => 2,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn currency_codes_are_unique_three_capitals_and_used_in_files() {
        for (at, currency) in Currency::ALL.into_iter().enumerate() {
            let code = currency.code();
            assert!(code.len() == 3 && code.chars().all(|letter| letter.is_ascii_uppercase()));
            assert_eq!(
                serde_json::to_string(&currency).unwrap(),
                format!("\"{code}\"")
            );
            assert!(
                Currency::ALL[..at]
                    .iter()
                    .all(|other| other.sign() != currency.sign())
            );
        }
    }

    #[test]
    fn a_price_missing_from_a_file_is_not_zero() {
        let price: Price =
            serde_json::from_str(r#"{"articles": [{"article": "wood-glue"}]}"#).unwrap();
        assert_eq!(price.of("wood-glue").unwrap().price, None);
        assert_eq!(price.hourly, None);
        assert!(!price.is_begun());
    }
}
