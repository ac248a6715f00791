//! Prices, margin, tax and the words of the quote.

use crate::Quantity::{Count, Money, Number as Plain, Share};
use crate::field::Kind::{Choice, Entries, Number, Open, Text, Tick};
use crate::{ArticlePrice, Currency, Range};

/// Prices and rates; a price of 0 is reported.
const PRICE: Range = Money.of(0.0, 1_000_000.0);
/// The words for a price before the maker types one: none is assumed.
const MISSING: &str = "missing";
/// A line of the quote.
const LINE: Range = Count.range("letters of the line", 0.0, 120.0);

fields! {
    /// Rates, margin and tax; the quote.
    PRICE_FIELDS:
    CURRENCY "price.currency", [.price.currency] "Currency", Choice, "", of shop;
    HOURLY "price.hourly", [.price.hourly] "Hourly rate", Open(PRICE, MISSING), "An hour of your work", of shop;
    MACHINE_HOUR "price.machine", [.price.machine] "Machine rate", Open(PRICE, "in the hourly rate"),
        "Machine, power and shop cost per hour, if the hourly rate and overhead leave it out", of shop;
    OVERHEAD "price.overhead", [.price.overhead] "Overhead", Number(Share.of(0.0, 5.0)),
        "On material and time: rent, insurance, blades, bits, the trip to the yard", of shop;
    PROFIT_MARGIN "price.margin", [.price.margin] "Margin", Number(Share.of(-1.0, 1.0)),
        "As a share of the price before tax: at 25 % a board that costs 150 is sold for 200", of shop;
    TAX "price.tax", [.price.tax] "Sales tax", Number(Share.of(0.0, 1.0)), "Or VAT, on top of the price", of shop;
    WOOD_WASTE "price.waste", [.price.waste] "Wood waste", Number(Share.of(0.0, 3.0)),
        "Lumber bought beyond the rough sizes of the parts: 20 to 30 % is usual shop practice; no published source", of shop;
    WHOLE_PACKS "price.whole_packs", [.price.whole_packs] "Charge whole packs", Tick,
        "Otherwise only the used part of a pack is charged", of shop;
    ARTICLES "price.articles", [.price.articles] "Prices", Entries(Count.range("prices", 0.0, 1000.0)),
        "For things on the shopping list", of shop;
}

fields! {
    /// The price of something that is bought.
    ARTICLE_FIELDS:
    ARTICLE "price.articles[].article", [.price.articles[] .article] "Price #, article",
        Text(Count.range("letters of the article", 0.0, 80.0)), "The name that the shopping list has for it", of shop;
    ARTICLE_PRICE "price.articles[].price", [.price.articles[] .price] "Price #", Open(PRICE, MISSING), "Of a pack", of shop;
    ARTICLE_PACK "price.articles[].pack", [.price.articles[] .pack] "Price #, pack", Open(Plain.of(0.001, 1_000_000.0), "as usual"),
        "The amount in a pack: pieces, board feet, m³ or ml", of shop;
    ARTICLE_OWNED "price.articles[].owned", [.price.articles[] .owned] "Price #, owned", Tick, "Your shop has it", of shop;
}

fields! {
    /// The quote.
    QUOTE_FIELDS:
    MAKER "price.maker", [.price.maker] "Your name", Text(LINE), "At the top of the quote", of shop;
    ADDRESS "price.address", [.price.address] "Your address", Text(LINE), "", of shop;
    CONTACT "price.contact", [.price.contact] "Phone or email", Text(LINE), "", of shop;
    CUSTOMER "price.customer", [.price.customer] "Customer", Text(LINE), "";
    VALID_DAYS "price.valid_days", [.price.valid_days] "Valid for, days", Number(Count.of(1.0, 3650.0)), "From the day of the quote", of shop;
    NOT_INCLUDED "price.not_included", [.price.not_included] "Not included", Text(Count.range("letters", 0.0, 300.0)),
        "In your own words: shipping, a case, a rule book", of shop;
}

plain!(Currency);
usual!(ArticlePrice);
