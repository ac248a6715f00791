//! The costing as CSV, for a spreadsheet.

use workshop::{Costing, Money, PricedLine, Shelf};

use crate::Error;
use crate::table::{self, Table};

/// The columns.
const HEADER: [&str; 7] = [
    "part", "name", "quantity", "unit", "price", "amount", "currency",
];

/// The costing as CSV: a row for each line of material, each tool, each step of the work, and each sum.
///
/// `part` is `material`, `owned`, `tool`, `time` or `sum`. An unknown amount is empty, never 0. The rows of `material` add up
/// to the sum `material`; rows of `tool` and `owned` are in no sum except that of the tools.
///
/// ```
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// let text = String::from_utf8(export::costing_csv(workpiece.costing())?)?;
/// assert!(text.starts_with("part,name,quantity,unit,price,amount,currency\r\n"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
///
/// [`Error::Figure`] with the line whose amount is not a number.
pub fn costing_csv(costing: &Costing) -> Result<Vec<u8>, Error> {
    let mut written = Table::new(80 * (costing.lines.len() + costing.times.len() + 12));
    written.row(HEADER)?;
    let money = |money: Option<Money>| {
        money.map_or_else(String::new, |money| money.plain(costing.currency))
    };
    let code = costing.currency.code();
    for line in &costing.lines {
        let to_buy = &line.line;
        let amount = if line.is_charged() {
            line.cost
        } else {
            line.paid
        };
        let price = line.price.map(|price| price.plain(costing.currency));
        let price = price.unwrap_or_default();
        written.row([
            part(line),
            &to_buy.name,
            &table::figure(&to_buy.name, to_buy.amount())?,
            to_buy.sold.unit(),
            &price,
            &money(amount),
            code,
        ])?;
    }
    for time in &costing.times {
        written.row([
            "time",
            time.task.title(),
            &table::figure(time.task.title(), time.total())?,
            "min",
            "",
            "",
            "",
        ])?;
    }
    let sale = costing.sale;
    let sums = [
        ("material", Some(costing.material)),
        ("time", costing.time),
        ("machines", costing.machine),
        ("overhead", Some(costing.overhead)),
        ("cost", Some(costing.cost)),
        ("price before tax", sale.map(|sale| sale.net)),
        ("tax", sale.map(|sale| sale.tax)),
        ("price with tax", sale.map(|sale| sale.total)),
        ("tools", Some(costing.tools)),
    ];
    for (name, amount) in sums {
        written.row(["sum", name, "", "", "", &money(amount), code])?;
    }
    let boards = costing.boards.to_string();
    written.row(["sum", "boards", &boards, "pieces", "", "", ""])?;
    written.finish()
}

/// The part of the costing that a line is in.
fn part(line: &PricedLine) -> &'static str {
    match (line.line.owned, line.line.shelf) {
        (true, _) => "owned",
        (false, Shelf::Tools) => "tool",
        (false, _) => "material",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{ArticlePrice, Board};
    use workshop::Workpiece;

    #[test]
    fn rows_read_back_and_add_up_to_the_sums() {
        let mut board = Board::default();
        board.price.hourly = Some(40.0);
        for (article, price, owned) in [
            ("marble-16", 0.35, false),
            ("paper-tape", 3.99, false),
            ("paper-a4", 7.0, true),
        ] {
            board.price.articles.push(ArticlePrice {
                article: article.into(),
                price: Some(price),
                pack: None,
                owned,
            });
        }
        board.schedule.boards = 3;
        let workpiece = Workpiece::of(&board).unwrap();
        let bytes = costing_csv(workpiece.costing()).unwrap();
        let mut reader = ::csv::Reader::from_reader(&*bytes);
        assert_eq!(reader.headers().unwrap(), &HEADER[..]);
        let rows: Vec<_> = reader.records().map(Result::unwrap).collect();
        let cents = |text: &str| text.replace('.', "").parse::<i64>().ok();
        let of = |part: &str| -> Vec<(String, String)> {
            let own = rows.iter().filter(|row| row[0] == *part);
            own.map(|row| (row[1].to_owned(), row[5].to_owned()))
                .collect()
        };
        let material: i64 = of("material")
            .iter()
            .filter_map(|(_, amount)| cents(amount))
            .sum();
        let sum = |name: &str| {
            of("sum")
                .into_iter()
                .find(|(own, _)| own == name)
                .and_then(|(_, amount)| cents(&amount))
        };
        assert_eq!(Some(material), sum("material"));
        assert_eq!(
            sum("cost").unwrap(),
            material + sum("time").unwrap() + sum("overhead").unwrap()
        );
        assert_eq!(sum("machines"), None);
        assert_eq!(of("owned").len(), 1);
        assert!(
            of("material")
                .iter()
                .any(|(name, amount)| name.starts_with("Lumber") && amount.is_empty())
        );
        assert_eq!(
            sum("price with tax"),
            Some(workpiece.costing().sale.unwrap().total.minor)
        );
    }
}
