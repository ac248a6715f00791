//! The maker's shop: paper, planer, bits, bushings, saw and resin, which are the same from board to board.
//!
//! The table of fields says which fields belong to it. The shop keeps the values that a maker changed last, by their paths in
//! the file; a new board starts with them, and so does a part that is planned later.

use std::collections::BTreeMap;

use crate::field::{self, fields_of};
use crate::{Board, Field, Kind, Value};

/// The values of one article's price, by field.
type Prices = Vec<(&'static Field, Value)>;

/// The shop's values, by field and list entry.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shop {
    kept: BTreeMap<String, (&'static Field, usize, Value)>,
}

impl Shop {
    /// Whether it has no values yet.
    pub fn is_empty(&self) -> bool {
        self.kept.is_empty()
    }

    /// Every value with its field and list entry, in the order of the document.
    pub fn values(&self) -> impl Iterator<Item = (&'static Field, usize, &Value)> {
        let of = |field: &'static Field| {
            let kept = self.kept.values();
            kept.filter(move |(other, ..)| *other == field)
                .map(|(field, entry, value)| (*field, *entry, value))
        };
        field::of_shop().flat_map(of)
    }

    /// The value of a field; `None` if the shop has none.
    pub fn value(&self, field: &Field, entry: usize) -> Option<&Value> {
        self.kept
            .get(&field.path_of(entry))
            .map(|(_, _, value)| value)
    }

    /// Keeps a value of a field that belongs to the shop; returns whether the value suits the field and was kept.
    pub fn keep(&mut self, field: &'static Field, entry: usize, value: Value) -> bool {
        let suits = field.of_shop && field.suits(&value) && field.check(&value, entry).is_ok();
        if suits {
            let path = field.path_of(entry);
            self.kept.insert(path, (field, entry, value));
        }
        suits
    }

    /// Forgets a field and everything that belongs to it.
    pub fn forget(&mut self, field: &Field) {
        self.kept.retain(|_, (other, ..)| !other.belongs_to(field));
    }

    /// Keeps the values of the shop's fields that differ between two boards.
    ///
    /// ```
    /// use board::{Board, Shop, field};
    /// let before = Board::default();
    /// let mut after = before.clone();
    /// after.panel.planer = 330.0;
    /// after.pitch = 20.0;
    /// let mut shop = Shop::default();
    /// shop.learn(&before, &after);
    /// let kept: Vec<_> = shop.values().map(|(field, ..)| field.path).collect();
    /// assert_eq!(kept, ["panel.planer_mm"]);
    /// ```
    pub fn learn(&mut self, before: &Board, after: &Board) {
        let changed = field::differences(before, after);
        for change in changed.iter().filter(|change| change.field.of_shop) {
            let list = change.field.list().unwrap_or(change.field);
            let others = self.other_prices(list, after);
            self.forget(list);
            for (field, entry, value) in fields_of(after) {
                if field.belongs_to(list) {
                    self.keep(field, entry, value);
                }
            }
            self.add_prices(others, after);
        }
    }

    /// The shop's prices of articles that have no price on the board, each with all of its values; empty for any other list.
    ///
    /// A board has the prices that were known when it was created. Adding a price on an old board must not lose those added
    /// since.
    fn other_prices(&self, list: &Field, board: &Board) -> Vec<Prices> {
        if *list != field::ARTICLES {
            return Vec::new();
        }
        let mut others = Vec::new();
        for entry in 0.. {
            let Some(Value::Text(article)) = self.value(&field::ARTICLE, entry) else {
                break;
            };
            if board.price.of(article).is_none() {
                let values = field::ARTICLE_FIELDS.iter();
                let values =
                    values.filter_map(|field| Some((*field, self.value(field, entry)?.clone())));
                others.push(values.collect());
            }
        }
        others
    }

    /// Adds prices after those of the board.
    fn add_prices(&mut self, others: Vec<Prices>, board: &Board) {
        if others.is_empty() {
            return;
        }
        let known = board.price.articles.len();
        let all = known + others.len();
        if !self.keep(&field::ARTICLES, 0, Value::Entries(all)) {
            return;
        }
        for (entry, values) in (known..).zip(others) {
            for (field, value) in values {
                self.keep(field, entry, value);
            }
        }
    }

    /// Gives a board all values that it has fields for.
    ///
    /// ```
    /// use board::{Board, Shop, Value, field};
    /// let mut shop = Shop::default();
    /// assert!(shop.keep(&field::PLANER, 0, Value::Number(330.0)));
    /// assert!(!shop.keep(&field::PLANER, 0, Value::Number(-1.0)));
    /// let mut board = Board::default();
    /// shop.give(&mut board);
    /// assert_eq!(board.panel.planer, 330.0);
    /// ```
    pub fn give(&self, board: &mut Board) {
        for (field, entry, value) in self.values() {
            field.set(board, entry, value);
        }
    }

    /// Gives a board the bits and bushings that the maker owns: they are the same for every board, including the open one.
    pub fn give_tools(&self, board: &mut Board) {
        for (field, entry, value) in self.values() {
            if field::TOOLS_FIELDS.contains(&field) {
                field.set(board, entry, value);
            }
        }
    }

    /// Gives a board the shop's values for the parts, kinds and entries that were newly added to it.
    ///
    /// ```
    /// use board::{Board, Router, Shop, Value, field};
    /// let mut shop = Shop::default();
    /// shop.keep(&field::BUSHING, 0, Value::Number(19.0));
    /// let before = Board::default();
    /// let mut after = Board { router: Some(Router::default()), ..before.clone() };
    /// shop.give_new(&before, &mut after);
    /// assert_eq!(after.router.unwrap().bushing, 19.0);
    /// ```
    pub fn give_new(&self, before: &Board, after: &mut Board) {
        for (field, entry, value) in self.values() {
            let list = field.list().unwrap_or(field);
            if list.value(before, 0).is_none() {
                field.set(after, entry, value);
            }
        }
    }
}

impl Field {
    /// Whether the field is the other one or is within it: in its list, its part, or one of its kinds.
    fn belongs_to(&self, other: &Self) -> bool {
        let within = other.path.trim_end_matches(".kind");
        let rest = self.path.strip_prefix(within);
        self == other || rest.is_some_and(|rest| rest.starts_with(['.', '[']))
    }

    /// The list whose entry the field belongs to.
    fn list(&self) -> Option<&'static Self> {
        let (list, _) = self.path.split_once("[]")?;
        field::all_fields().find(|field| field.path == list)
    }

    /// Whether the field can have such a value.
    fn suits(&self, value: &Value) -> bool {
        match (self.kind, value) {
            (
                Kind::Number(_) | Kind::Auto(..) | Kind::Open(..) | Kind::Ticked(..),
                Value::Number(_),
            )
            | (
                Kind::Auto(..) | Kind::Open(..) | Kind::Ticked(..) | Kind::AutoColor(_),
                Value::Open,
            )
            | (Kind::Color | Kind::AutoColor(_), Value::Color(_))
            | (Kind::Tick | Kind::Part, Value::Tick(_))
            | (Kind::Text(_) | Kind::Hole(_), Value::Text(_))
            | (Kind::Numbers { .. } | Kind::Corners { .. }, Value::Numbers(_))
            | (Kind::Entries(_), Value::Entries(_)) => true,
            (Kind::Written(form), Value::Text(text)) => form.read(text).is_ok(),
            (Kind::Choice, Value::Choice(place)) => *place < self.choices().len(),
            _ => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::field::made::{boards, full_boards};
    use crate::{BitRun, Bottom, Machine, Paper, Units};
    use proptest::prelude::*;

    fn learned(change: impl FnOnce(&mut Board)) -> Shop {
        let before = Board {
            machine: Some(Machine::default()),
            ..Board::default()
        };
        let mut after = before.clone();
        change(&mut after);
        let mut shop = Shop::default();
        shop.learn(&before, &after);
        shop
    }

    #[test]
    fn bits_are_kept_as_a_list_and_given_when_a_machine_is_planned() {
        let shop = learned(|board| {
            let bits = &mut board.machine.as_mut().unwrap().bits;
            for diameter in [12.0, 6.0] {
                let mut bit = BitRun::unsettled(diameter, Bottom::Forstner);
                bit.feed = Some(300.0);
                bits.push(bit);
            }
        });
        let before = Board::default();
        let mut after = before.clone();
        shop.give(&mut after);
        assert_eq!(after, before, "nothing is planned by the shop");
        after.machine = Some(Machine::default());
        shop.give_new(&before, &mut after);
        let bits = after.machine.unwrap().bits;
        let sizes: Vec<_> = bits.iter().map(|bit| (bit.diameter, bit.feed)).collect();
        assert_eq!(sizes, [(12.0, Some(300.0)), (6.0, Some(300.0))]);
    }

    #[test]
    fn prices_from_one_board_are_kept_when_another_is_priced() {
        let priced = |names: &[(&str, f64)]| {
            let mut board = Board::default();
            for (article, price) in names {
                board.price.articles.push(crate::ArticlePrice {
                    article: (*article).into(),
                    price: Some(*price),
                    ..Default::default()
                });
            }
            board
        };
        let mut shop = Shop::default();
        shop.learn(
            &Board::default(),
            &priced(&[("wood-glue", 6.5), ("marble-16", 0.25)]),
        );
        shop.learn(
            &Board::default(),
            &priced(&[("marble-16", 0.3), ("paper-a4", 7.0)]),
        );
        let mut board = Board::default();
        shop.give(&mut board);
        let price = |article| board.price.of(article).and_then(|known| known.price);
        assert_eq!(board.price.articles.len(), 3);
        assert_eq!(price("wood-glue"), Some(6.5));
        assert_eq!(price("marble-16"), Some(0.3));
        assert_eq!(price("paper-a4"), Some(7.0));
    }

    #[test]
    fn custom_paper_is_kept_with_its_size() {
        let shop = learned(|board| {
            board.template.paper = Paper::Custom {
                width: 300.0,
                height: 450.0,
            };
        });
        let mut board = Board::default();
        shop.give(&mut board);
        assert_eq!(
            board.template.paper,
            Paper::Custom {
                width: 300.0,
                height: 450.0
            }
        );
    }

    #[test]
    fn units_and_the_finest_fraction_are_kept() {
        let shop = learned(|board| board.units = Units::Inch(crate::Fraction::Sixteenth));
        let mut board = Board::default();
        shop.give(&mut board);
        assert_eq!(board.units, Units::Inch(crate::Fraction::Sixteenth));
    }

    #[test]
    fn shop_fields_refuse_values_of_another_kind() {
        let mut shop = Shop::default();
        for field in field::of_shop() {
            let is_tick = matches!(field.kind, Kind::Tick | Kind::Part);
            let is_text = matches!(field.kind, Kind::Text(_) | Kind::Hole(_));
            for (value, is_own) in [
                (Value::Choice(99), false),
                (Value::Tick(true), is_tick),
                (Value::Text("x".into()), is_text),
            ] {
                assert!(is_own || !shop.keep(field, 0, value), "{}", field.path);
            }
            assert!(
                !shop.keep(field, 0, Value::Number(f64::NAN)),
                "{}",
                field.path
            );
        }
        assert!(shop.is_empty());
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(16))]

        /// A board takes over what the shop learned from another for every field that both have.
        #[test]
        fn learned_values_are_given_to_other_boards(one in boards()) {
            for before in full_boards() {
                let mut shop = Shop::default();
                shop.learn(&before, &one);
                let mut given = before.clone();
                shop.give(&mut given);
                for (field, entry, value) in shop.values() {
                    let has = field.value(&given, entry);
                    prop_assert!(has.is_none() || has.as_ref() == Some(value), "{}", field.path);
                }
                prop_assert!(crate::out_of_range(&given).is_empty());
            }
        }
    }
}
