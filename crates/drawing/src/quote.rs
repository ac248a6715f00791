//! The quote for the customer, one page, and the costing for the shop.
//!
//! The two are separate files, so that nobody sends the customer the costs by mistake. The amounts come from the workpiece's
//! costing; this module only prints them.

use board::{Board, Day, Measure, Quantity, Units, counted};
use jiff::Span;
use workshop::{
    Costing, Money, PricedLine, Sale, Shelf, Workpiece, costing, described, stopped_by,
};

use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, template_pages};

/// The quote on the paper of the board's template: the goods, the price with tax, how long the price is valid, and when the
/// order is ready.
///
/// It has no legal text, and does not show the maker's costs. A line on top says that it is a draft while prices are missing or
/// the checks stop the board.
///
/// ```
/// use drawing::{Stamp, quote_pages};
/// use workshop::Workpiece;
/// let mut board = board::Board::default();
/// board.price.hourly = Some(45.0);
/// let sheets = quote_pages(&Workpiece::of(&board)?, &Stamp::default());
/// assert_eq!(sheets.len(), 1);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn quote_pages(workpiece: &Workpiece, stamp: &Stamp) -> Vec<Sheet> {
    let board = workpiece.board();
    let head = Head {
        title: "Quote".into(),
        subtitle: stamp.date.clone(),
        label: "quote".into(),
        stop: draft(workpiece),
    };
    let price = &board.price;
    let mut blocks: Vec<Block> = [&price.maker, &price.address, &price.contact]
        .into_iter()
        .filter(|line| !line.trim().is_empty())
        .map(|line| Block::Words(line.clone()))
        .collect();
    if !price.customer.trim().is_empty() {
        blocks.push(Block::Words(format!("For {}", price.customer)));
    }
    blocks.push(Block::Heading(board.title.clone()));
    blocks.extend(described(workpiece).into_iter().map(Block::Words));
    blocks.push(Block::Heading("Price".into()));
    blocks.push(offered(workpiece));
    blocks.extend(terms(workpiece, stamp).into_iter().map(Block::Words));
    template_pages(board, &head, &blocks)
}

/// The line that marks a quote as a draft while prices are missing or the board cannot be made; `None` for one that can be
/// sent.
fn draft(workpiece: &Workpiece) -> Option<String> {
    if workpiece.board().price.is_begun() {
        let missing = workpiece.costing().missing.len();
        if missing > 0 {
            let missing = counted(missing, "price is", "prices are");
            return Some(format!(
                "DRAFT, do not send: {missing} missing under Shopping and price."
            ));
        }
    }
    let rules = stopped_by(workpiece.findings())?;
    Some(format!(
        "DRAFT, do not send: the board cannot be made yet ({rules})."
    ))
}

/// The price in a table, or a sentence if there is none.
///
/// Its rows are the boards with the price of one, tax if there is any, and the total with the code of the currency, since
/// several currencies share the dollar sign.
fn offered(workpiece: &Workpiece) -> Block {
    let (board, costing) = (workpiece.board(), workpiece.costing());
    if !board.price.is_begun() {
        return Block::Words("No price is typed yet.".into());
    }
    let Some(sale) = costing.sale else {
        return Block::Words("No price is worked out at this margin.".into());
    };
    if sale.total.minor == 0 {
        return Block::Words("No price is worked out: the prices entered add up to 0.".into());
    }
    let shown = |money: Money| Cell::Words(money.shown(costing.currency));
    let row = |what: String, count: &str, each: Cell, amount: Money| {
        vec![what.into(), count.into(), each, shown(amount)]
    };
    let boards = costing.boards.to_string();
    let mut rows = vec![row(
        "Board with its pieces".into(),
        &boards,
        shown(sale.each),
        sale.net,
    )];
    if sale.tax.minor != 0 {
        let share = Quantity::Share.shown(board.price.tax, board.units);
        rows.push(row(format!("Sales tax, {share}"), "", "".into(), sale.tax));
    }
    let total = format!("Total, {}", costing.currency.code());
    rows.push(row(total, "", "".into(), sale.total));
    let columns = [
        ("", Align::Start),
        ("Number", Align::End),
        ("Each", Align::End),
        ("Amount", Align::End),
    ];
    Block::Table(Table {
        columns: Column::all(&columns),
        rows,
    })
}

/// The sentences on how long the price is valid, when the order is ready, and what the price does not include.
///
/// Days count from the date of the stamp.
fn terms(workpiece: &Workpiece, stamp: &Stamp) -> Vec<String> {
    let price = &workpiece.board().price;
    let mut terms = vec![valid(workpiece, stamp)];
    terms.extend(delivered(workpiece));
    if !price.not_included.trim().is_empty() {
        terms.push(format!("Not included: {}", price.not_included));
    }
    terms
}

/// The last day of the offer, or the number of days if the page has no date.
fn valid(workpiece: &Workpiece, stamp: &Stamp) -> String {
    let days = workpiece.board().price.valid_days;
    let begin = stamp.date.parse::<Day>().ok();
    let end = begin.and_then(|day| {
        let span = Span::new().try_days(i64::from(days)).ok()?;
        Day::of(day.date().checked_add(span).ok()?)
    });
    match (end, days) {
        (Some(end), _) => format!("Valid until {}.", end.with_weekday(workpiece.units())),
        (None, 1) => "Valid for 1 day.".into(),
        (None, days) => format!("Valid for {days} days."),
    }
}

/// The promised day; without a promise, the day on which the calendar ends, if there is a calendar.
fn delivered(workpiece: &Workpiece) -> Option<String> {
    let told = |day: Day| day.with_weekday(workpiece.units());
    if let Some(promised) = workpiece.board().schedule.promised {
        return Some(format!("Ready by {}.", told(promised)));
    }
    let calendar = workpiece.calendar().ok()?;
    Some(format!(
        "Expected to be ready on {} if work begins on {}.",
        told(calendar.last),
        told(calendar.first)
    ))
}

/// The maker's own costing, marked for the shop: the totals for one board and for the order, every line of material with its
/// price, and the time of every step.
///
/// It begins with a caution and carries no mark of a stopped board: it is about money, not about cutting.
///
/// ```
/// use drawing::{Stamp, costing_pages};
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// let sheets = costing_pages(&workpiece, &Stamp::default());
/// assert!(sheets[0].label.starts_with("costing"));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn costing_pages(workpiece: &Workpiece, stamp: &Stamp) -> Vec<Sheet> {
    let board = workpiece.board();
    let head = Head {
        stop: None,
        ..Head::of(
            "Costing, for the shop",
            "costing for the shop",
            workpiece,
            stamp,
        )
    };
    let order = workpiece.costing();
    let mut blocks = vec![
        Block::Caution("For the shop: not for the customer.".into()),
        Block::Heading("Sums".into()),
        Block::Table(sums(workpiece, order)),
    ];
    if !order.missing.is_empty() {
        let names = order.missing.join("; ");
        blocks.push(Block::Caution(format!(
            "Without a price, and left out of the cost: {names}."
        )));
    }
    let says = Says {
        order,
        units: board.units,
    };
    blocks.push(Block::Heading("Material and tools".into()));
    blocks.push(Block::Table(says.material()));
    blocks.push(Block::Heading("Time".into()));
    blocks.push(Block::Words(
        "Setting up counts once, the rest for every board.".into(),
    ));
    blocks.push(Block::Table(says.time()));
    template_pages(board, &head, &blocks)
}

/// The totals for a single board and for the order.
///
/// Those of a single board are worked out separately, as a single board bears all of the setup and all of the packs. An unknown
/// amount is called missing, never 0.
fn sums(workpiece: &Workpiece, order: &Costing) -> Table {
    let board = workpiece.board();
    let single = costing(workpiece, 1);
    let known = |money: Option<Money>| {
        money.map_or_else(|| "missing".to_owned(), |money| money.shown(order.currency))
    };
    let both = parts(board, &single).into_iter().zip(parts(board, order));
    let rows = both.map(|((name, one), (_, all))| {
        let mut row = vec![Cell::Words(name), known(one).into()];
        if order.boards > 1 {
            row.push(known(all).into());
        }
        row
    });
    let mut columns = vec![
        Column::new("", Align::Start),
        Column::new("1 board", Align::End),
    ];
    if order.boards > 1 {
        columns.push(Column::new(&format!("{} boards", order.boards), Align::End));
    }
    Table {
        rows: rows.collect(),
        columns,
    }
}

/// The named parts of a costing, from the material to the price with tax, and the tools that are not in it.
///
/// The parts depend on the prices that are typed and not on the number of boards.
fn parts(board: &Board, costing: &Costing) -> Vec<(String, Option<Money>)> {
    let price = &board.price;
    let share =
        |name: &str, share: f64| format!("{name}, {}", Quantity::Share.shown(share, board.units));
    let sold = |part: fn(&Sale) -> Money| costing.sale.as_ref().map(part);
    let mut parts = vec![
        ("Material".into(), Some(costing.material)),
        ("  including lumber waste".into(), Some(costing.wood_waste)),
        (
            "  including leftovers in packs".into(),
            Some(costing.left_over),
        ),
        ("Time".into(), costing.time),
    ];
    if costing.machine.is_some() {
        parts.push(("Machines".into(), costing.machine));
    }
    parts.extend([
        (share("Overhead", price.overhead), Some(costing.overhead)),
        ("Cost".into(), Some(costing.cost)),
        ("Cost of one".into(), Some(costing.cost_each())),
        (share("Margin", price.margin), costing.profit()),
        ("Price before tax".into(), sold(|sale| sale.net)),
        ("Price of one before tax".into(), sold(|sale| sale.each)),
        (share("Tax", price.tax), sold(|sale| sale.tax)),
        ("Price with tax".into(), sold(|sale| sale.total)),
        ("Tools to buy, not in the cost".into(), Some(costing.tools)),
    ]);
    parts
}

/// Builds the tables of a costing.
struct Says<'a> {
    /// The costing of the order.
    order: &'a Costing,
    /// The maker's units.
    units: Units,
}

impl Says<'_> {
    /// A row for each line of the shopping list, tools with a note that they are not charged.
    ///
    /// The price is that of a pack or a unit, the cost the amount charged for the order; for tools, it is the price in the
    /// store. Articles that the shop already has have neither.
    fn material(&self) -> Table {
        let missing = "missing";
        let row = |line: &PricedLine| {
            let shown = |money: Option<Money>| {
                let words = money.map(|money| money.shown(self.order.currency));
                words.unwrap_or_else(|| missing.into())
            };
            let to_buy = &line.line;
            let note = match (to_buy.owned, to_buy.shelf) {
                (true, _) => "in the shop",
                (false, Shelf::Tools) => "tool, not charged",
                (false, _) => &to_buy.note,
            };
            let cost = if line.is_charged() {
                line.cost
            } else {
                line.paid
            };
            let (price, cost) = if to_buy.owned {
                (String::new(), String::new())
            } else {
                let price = line.price.map(|price| price.shown(self.order.currency));
                (price.unwrap_or_else(|| missing.into()), shown(cost))
            };
            vec![
                to_buy.name.clone().into(),
                to_buy.to_buy(self.units).into(),
                to_buy.sold.shown(to_buy.pack, self.units).into(),
                price.into(),
                cost.into(),
                note.into(),
            ]
        };
        let columns = [
            ("What", Align::Start),
            ("Buy", Align::End),
            ("Per", Align::End),
            ("Price", Align::End),
            ("Cost", Align::End),
            ("For", Align::Start),
        ];
        Table {
            columns: Column::all(&columns),
            rows: self.order.lines.iter().map(row).collect(),
        }
    }

    /// A row for each step with hands-on work.
    ///
    /// Times are hands-on minutes; the last row has the total in hours. An operation that occurs several times has its number.
    fn time(&self) -> Table {
        let minutes = |minutes: f64| Cell::Words(format!("{minutes:.0}"));
        let mut rows: Vec<Vec<Cell>> = self
            .order
            .times
            .iter()
            .map(|time| {
                let alike = self
                    .order
                    .times
                    .iter()
                    .filter(|other| other.task == time.task);
                let name = match alike.count() {
                    1 => time.task.title().to_owned(),
                    _ => format!("{} {}", time.task.title(), time.number),
                };
                vec![
                    name.into(),
                    minutes(time.set_up),
                    minutes(time.run),
                    minutes(time.total()),
                ]
            })
            .collect();
        let all = Measure::hours(self.order.minutes() / 60.0).shown(self.units);
        rows.push(vec!["In all".into(), "".into(), "".into(), all.into()]);
        let columns = [
            ("Step", Align::Start),
            ("Set up, min", Align::End),
            ("Boards, min", Align::End),
            ("In all, min", Align::End),
        ];
        Table {
            columns: Column::all(&columns),
            rows,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Shape, Text};
    use board::{ArticlePrice, Coat, Currency, Filling, Grooves, Paper, Recess, Wood};

    fn words(sheets: &[Sheet]) -> String {
        let items = sheets.iter().flat_map(|sheet| &sheet.marks);
        let text = items.filter_map(|item| match &item.shape {
            Shape::Text(Text { words, .. }) => Some(words.as_str()),
            _ => None,
        });
        text.collect::<Vec<_>>().join(" ")
    }

    /// A board with everything that a quote can show.
    fn full(paper: Paper) -> Board {
        let mut board = Board {
            wood: Some(Wood::default()),
            grooves: Some(Grooves::default()),
            filling: Some(Filling::default()),
            recess: Some(Recess {
                lid: 4.0,
                ..Recess::default()
            }),
            base: Some(board::Base::default()),
            finish: vec![Coat::default(); 4],
            ..Board::default()
        };
        board.template.paper = paper;
        board.schedule.boards = 3;
        board.price.hourly = Some(45.0);
        board.price.margin = 0.25;
        board.price.tax = 0.0825;
        let article = |article: &str, price| ArticlePrice {
            article: article.into(),
            price: Some(price),
            ..ArticlePrice::default()
        };
        board.price.articles = vec![article("marble-16", 0.25), article("wood-glue", 6.5)];
        board.price.maker = "Maker M".into();
        board.price.address = "1 Street, Town".into();
        board.price.contact = "555 0100".into();
        board.price.customer = "Customer C".into();
        board.price.not_included = "Shipping, a case and a rule book. ".repeat(6);
        board
    }

    #[test]
    fn a_quote_is_one_page_and_adds_up() {
        for paper in [Paper::A4, Paper::Letter, Paper::Legal] {
            let workpiece = Workpiece::of(&full(paper)).unwrap();
            let stamp = Stamp {
                date: "2026-11-29".into(),
            };
            let sheets = quote_pages(&workpiece, &stamp);
            assert_eq!(sheets.len(), 1);
            let told = words(&sheets);
            let missing = workpiece.costing().missing.len();
            assert_eq!(told.contains("DRAFT, do not send"), missing > 0, "{told}");
            let sale = workpiece.costing().sale.unwrap();
            for money in [sale.each, sale.net, sale.tax, sale.total] {
                assert!(told.contains(&money.shown(Currency::Usd)), "{told}");
            }
            for part in [
                "Maker M",
                "For Customer C",
                "8.25 %",
                "Total, USD",
                "Valid until Tue 2026-12-29.",
                "Not included: Shipping",
            ] {
                assert!(told.contains(part), "{part} in {told}");
            }
            // The customer must not see the costs.
            let cost = workpiece.costing().cost.shown(Currency::Usd);
            assert!(!told.contains(&cost) && !told.contains("argin") && !told.contains("STOP"));
        }
    }

    /// By hand: 92 days from November 29 are 1 to the end of November, then 31, 31 and 29 in December, January and February
    /// 2028.
    #[test]
    fn a_quote_names_the_last_day_of_the_offer_and_the_day_of_delivery() {
        let stamp = Stamp {
            date: "2027-11-29".into(),
        };
        let told = |board: &Board, stamp: &Stamp| {
            words(&quote_pages(&Workpiece::of(board).unwrap(), stamp))
        };
        let mut board = full(Paper::A4);
        board.price.valid_days = 92;
        let bare = told(&board, &stamp);
        assert!(bare.contains("Valid until Tue 2028-02-29."), "{bare}");
        assert!(!bare.contains("ready"), "no day is known: {bare}");
        assert!(told(&board, &Stamp::default()).contains("Valid for 92 days."));

        board.schedule.start = "2027-12-06".parse().ok();
        let dated = Workpiece::of(&board).unwrap();
        let last = dated.calendar().unwrap().last.with_weekday(board.units);
        let begun = told(&board, &stamp);
        let expected = format!("ready on {last} if work begins on Mon 2027-12-06.");
        assert!(begun.contains(&expected), "{begun}");

        board.schedule.promised = "2028-06-01".parse().ok();
        let promised = told(&board, &stamp);
        assert!(promised.contains("Ready by Thu 2028-06-01."), "{promised}");
        assert!(!promised.contains("Expected"), "{promised}");
    }

    #[test]
    fn a_costing_is_marked_for_the_shop_and_names_missing_prices() {
        let workpiece = Workpiece::of(&full(Paper::A4)).unwrap();
        let told = words(&costing_pages(&workpiece, &Stamp::default()));
        assert!(told.contains("not for the customer") && told.contains("3 boards"));
        for name in &workpiece.costing().missing {
            let first = name.split(' ').next().unwrap();
            assert!(told.contains(first), "{name}");
        }
        assert!(told.contains("missing"));
        let cost = workpiece.costing().cost.shown(Currency::Usd);
        assert!(told.contains(&cost), "{cost} in {told}");
    }

    #[test]
    fn a_margin_of_100_percent_quotes_no_price() {
        let mut board = full(Paper::A4);
        board.price.margin = 1.0;
        let told = words(&quote_pages(
            &Workpiece::of(&board).unwrap(),
            &Stamp::default(),
        ));
        assert!(told.contains("No price is worked out"), "{told}");
        assert!(!told.contains('$'), "{told}");
    }

    #[test]
    fn prices_of_0_quote_no_price() {
        let mut board = Board::default();
        board.price.hourly = Some(0.0);
        let told = words(&quote_pages(
            &Workpiece::of(&board).unwrap(),
            &Stamp::default(),
        ));
        assert!(told.contains("add up to 0"), "{told}");
        assert!(!told.contains('$') && !told.contains("Total"), "{told}");
    }
}
