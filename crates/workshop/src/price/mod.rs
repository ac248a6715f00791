//! The price of the order: the cost of material and time, and the customer's price.
//!
//! Articles without a price are named and left out, never taken as free. Tools stay in the shop: they are on the shopping list
//! with their prices, but not in the cost of the boards.

pub mod check;
mod money;
mod quote;
mod rate;
mod time;

use board::{ArticlePrice, Board, Currency};

use crate::Workpiece;
use crate::shopping::{Shelf, ToBuy, shopping};

pub use money::Money;
pub use quote::described;
pub use rate::Rate;
pub use time::OperationTime;

/// A line of the shopping list with its price.
///
/// Prices are those that the maker has typed, remembered by the name of the article: none come with the program.
#[derive(Debug, Clone, PartialEq)]
pub struct PricedLine {
    /// The line of the shopping list.
    pub line: ToBuy,
    /// The price of a pack as typed; `None` if it is missing.
    pub price: Option<Rate>,
    /// The cost of the line; `None` if its price is missing.
    pub cost: Option<Money>,
    /// The amount paid in the store, which is for whole packs however the order is charged.
    pub paid: Option<Money>,
}

impl PricedLine {
    /// Whether it is part of the cost of the boards: tools and things the shop has are not.
    pub fn is_charged(&self) -> bool {
        self.line.shelf != Shelf::Tools && !self.line.owned
    }
}

/// The maker's cost of a number of boards, and the price for the customer.
///
/// Every amount is in whole coins of one currency and rounded once, so that printed amounts add up to the printed total. Unit
/// prices and rates are not rounded before they are multiplied.
#[derive(Debug, Clone, PartialEq)]
pub struct Costing {
    /// The number of boards.
    pub boards: u32,
    /// The currency of every amount.
    pub currency: Currency,
    /// The shopping list with its prices.
    pub lines: Vec<PricedLine>,
    /// Material, excluding tools and things the shop has.
    pub material: Money,
    /// The part of the material that is lumber lost to ends, knots and edges.
    pub wood_waste: Money,
    /// The part of the material that is left over in packs.
    pub left_over: Money,
    /// Tools to buy, which stay in the shop and are not in the cost.
    pub tools: Money,
    /// The time of each operation.
    pub times: Vec<OperationTime>,
    /// The cost of the time; none without an hourly rate.
    pub time: Option<Money>,
    /// The cost of machines; `None` if they have no rate.
    pub machine: Option<Money>,
    /// Overhead on material, time and machines.
    pub overhead: Money,
    /// The total cost.
    pub cost: Money,
    /// The price of the order; none with a margin that leaves nothing.
    pub sale: Option<Sale>,
    /// The names of articles and rates without a price.
    pub missing: Vec<String>,
}

/// The price of the order.
///
/// The price of one board is rounded first, and the order is a multiple of it, so that the customer can check it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sale {
    /// One board before tax, rounded.
    pub each: Money,
    /// All boards before tax: a multiple of the price of one.
    pub net: Money,
    /// Tax on that.
    pub tax: Money,
    /// All boards with tax.
    pub total: Money,
}

impl Costing {
    /// Whether all material in the cost has a price.
    pub fn is_material_priced(&self) -> bool {
        let mut charged = self.lines.iter().filter(|line| line.is_charged());
        charged.all(|line| line.price.is_some())
    }

    /// Minutes of work on all boards, setup included, waits excluded.
    pub fn minutes(&self) -> f64 {
        let each = self.times.iter().map(|time| time.total());
        each.sum()
    }

    /// The cost of one of the boards, rounded.
    ///
    /// Halves of a coin go up.
    pub fn cost_each(&self) -> Money {
        self.cost.times(1, self.boards.max(1).into())
    }

    /// The part of the price before tax that the maker keeps; none without a price.
    ///
    /// It is negative if the order is sold below cost.
    pub fn profit(&self) -> Option<Money> {
        Some(self.sale?.net - self.cost)
    }
}

/// The costing of a workpiece for any number of boards.
///
/// ```
/// use board::{ArticlePrice, Board};
/// use workshop::{Workpiece, costing};
/// let mut board = Board::default();
/// board.price.hourly = Some(40.0);
/// board.price.articles.push(ArticlePrice {
///     article: "marble-16".into(),
///     price: Some(0.25),
///     ..ArticlePrice::default()
/// });
/// let costing = costing(&Workpiece::of(&board)?, 1);
/// // Six players have five marbles each.
/// assert_eq!(costing.material.minor, 750);
/// // Lumber has no price, and is not taken as free.
/// assert!(costing.missing.iter().any(|name| name.starts_with("Lumber")));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn costing(workpiece: &Workpiece, boards: u32) -> Costing {
    let board = workpiece.board();
    let lines: Vec<PricedLine> = shopping(workpiece, boards)
        .into_iter()
        .map(|line| priced(board, line))
        .collect();
    let times = time::times(workpiece, boards);
    let mut costing = Costing {
        boards,
        currency: board.price.currency,
        missing: missing(board, &lines),
        lines,
        material: Money::ZERO,
        wood_waste: Money::ZERO,
        left_over: Money::ZERO,
        tools: Money::ZERO,
        times,
        time: None,
        machine: None,
        overhead: Money::ZERO,
        cost: Money::ZERO,
        sale: None,
    };
    costing.add_material(board);
    costing.add_work(board);
    costing.sell(board);
    costing
}

impl Costing {
    /// Adds up the material.
    ///
    /// Waste and leftovers are parts of the material and not added to it: they show the maker where the money goes.
    fn add_material(&mut self, board: &Board) {
        for line in &self.lines {
            let (Some(cost), Some(paid)) = (line.cost, line.paid) else {
                continue;
            };
            if line.line.shelf == Shelf::Tools {
                self.tools = self.tools + paid;
            } else if line.is_charged() {
                let used = used(line.price.unwrap_or_default(), &line.line);
                self.material = self.material + cost;
                self.left_over = self.left_over + (cost - used);
                if line.line.article.starts_with("lumber-") {
                    let waste = board.price.waste;
                    self.wood_waste = self.wood_waste + used.share(waste / (1.0 + waste));
                }
            }
        }
    }

    /// Adds time, machines and overhead.
    ///
    /// A missing rate adds nothing here and is listed as missing, so that the total never looks complete when it is not.
    fn add_work(&mut self, board: &Board) {
        // Whole seconds, so that the total does not depend on the last digit of a minute.
        let seconds = (self.minutes() * 60.0).round() as u64;
        let hourly = |rate: f64| Rate::of(rate, self.currency).times(seconds, 3600);
        self.time = board.price.hourly.map(hourly);
        self.machine = board.price.machine.map(hourly);
        let before =
            self.material + self.time.unwrap_or_default() + self.machine.unwrap_or_default();
        self.overhead = before.share(board.price.overhead);
        self.cost = before + self.overhead;
    }

    /// Works out the price: cost plus margin, for each board in whole coins, and tax on all of them.
    ///
    /// The margin is a share of the price before tax, not of the cost: at 25 % a cost of 150 sells at 200.
    fn sell(&mut self, board: &Board) {
        let boards = u64::from(self.boards.max(1));
        self.sale = self.cost.before(board.price.margin).map(|net| {
            let each = net.times(1, boards);
            let net = each.times(boards, 1);
            let tax = net.share(board.price.tax);
            Sale {
                each,
                net,
                tax,
                total: net + tax,
            }
        });
    }
}

/// A line with its price.
///
/// The store is paid for whole packs, however the customer is charged.
fn priced(board: &Board, line: ToBuy) -> PricedLine {
    let known = board.price.of(&line.article);
    let price = known.and_then(|known: &ArticlePrice| known.price);
    let price = price.map(|price| Rate::of(price, board.price.currency));
    let (parts, of) = line.bought();
    let paid = price.map(|price| price.times(parts, of));
    let cost = if board.price.whole_packs || line.owned {
        paid
    } else {
        price.map(|price| used(price, &line))
    };
    PricedLine {
        line,
        price,
        cost,
        paid,
    }
}

/// The cost of the part of a pack that is used; 0 for articles the shop has.
fn used(price: Rate, line: &ToBuy) -> Money {
    if line.owned {
        return Money::ZERO;
    }
    price.share(line.need / line.pack)
}

/// The names of articles in the cost without a price, each once.
///
/// The marbles of six players are six lines but one price.
fn missing(board: &Board, lines: &[PricedLine]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for line in lines {
        let is_missing = line.is_charged() && line.price.is_none();
        if is_missing && !names.contains(&line.line.name) {
            names.push(line.line.name.clone());
        }
    }
    if board.price.hourly.is_none() {
        names.push("your hourly rate".into());
    }
    names
}

#[cfg(test)]
mod tests;
