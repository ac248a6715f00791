//! The price compared with sums worked by hand and with general laws.

use board::{Filling, Units};
use proptest::prelude::*;
use testkit::assert_near;

use super::*;
use crate::Severity;
use crate::price::check::check;

fn price(article: &str, price: f64, pack: Option<f64>) -> ArticlePrice {
    ArticlePrice {
        article: article.into(),
        price: Some(price),
        pack,
        owned: false,
    }
}

/// A board on which every article has a price.
fn all_priced() -> Board {
    let mut board = Board {
        filling: Some(Filling::default()),
        finish: vec![board::Coat::default(); 2],
        ..Board::default()
    };
    board.price.hourly = Some(45.0);
    board.price.machine = Some(5.5);
    board.price.overhead = 0.12;
    board.price.margin = 0.3;
    board.price.tax = 0.0825;
    let mut seen = Vec::new();
    for (at, line) in shopping(&Workpiece::of(&board).unwrap(), 1)
        .into_iter()
        .enumerate()
    {
        if !seen.contains(&line.article) {
            board
                .price
                .articles
                .push(price(&line.article, 1.37 + at as f64 * 0.91, None));
            seen.push(line.article);
        }
    }
    board
}

fn costed(board: &Board, boards: u32) -> Costing {
    costing(&Workpiece::of(board).unwrap(), boards)
}

/// By hand: 30 marbles at 0.25 are 7.50; the default board takes at least 90 minutes, at 40 an hour.
#[test]
fn material_and_time_match_sums_worked_by_hand() {
    let mut board = Board::default();
    board.price.hourly = Some(40.0);
    board.price.articles.push(price("marble-16", 0.25, None));
    let one = costed(&board, 1);
    assert_eq!(one.material.minor, 750);
    let hours = one.minutes() / 60.0;
    assert_near!(
        one.time.unwrap().minor as f64,
        (hours * 4000.0).round(),
        1.0
    );
    assert_eq!(one.cost, one.material + one.time.unwrap());
    // Two boards have 60 marbles.
    assert_eq!(costed(&board, 2).material.minor, 1500);
}

#[test]
fn sums_add_up_to_the_cent() {
    for boards in [1, 2, 3, 7, 200] {
        let costing = costed(&all_priced(), boards);
        assert!(costing.missing.is_empty(), "{:?}", costing.missing);
        let charged = costing.lines.iter().filter(|line| line.is_charged());
        let material: Money = charged.filter_map(|line| line.cost).sum();
        assert_eq!(material, costing.material);
        let work = costing.time.unwrap() + costing.machine.unwrap();
        assert_eq!(costing.material + work + costing.overhead, costing.cost);
        let sale = costing.sale.unwrap();
        assert_eq!(sale.each.times(boards.into(), 1), sale.net);
        assert_eq!(sale.net + sale.tax, sale.total);
        assert_eq!(costing.cost + costing.profit().unwrap(), sale.net);
    }
}

/// By hand: 30 marbles at 5.00 are a cost of 150, which at a margin of a quarter sells for 200, and with 8.25 % tax for 216.50.
#[test]
fn margin_is_a_share_of_the_price_and_tax_comes_on_top() {
    let mut board = Board::default();
    board.price.articles.push(price("marble-16", 5.0, None));
    board.price.margin = 0.25;
    board.price.tax = 0.0825;
    let costing = costed(&board, 1);
    assert_eq!(costing.cost.minor, 15_000);
    let sale = costing.sale.unwrap();
    assert_eq!(
        (sale.net.minor, sale.tax.minor, sale.total.minor),
        (20_000, 1650, 21_650)
    );
}

/// By hand: 24 marbles at 12.5 cents are 3.00, not 24 times 13 cents.
#[test]
fn a_price_of_half_a_cent_is_not_rounded_before_it_is_multiplied() {
    let mut board = Board {
        home: 4,
        ..Board::default()
    };
    board.price.articles.push(price("marble-16", 0.125, None));
    // Six players have four each, and each player's marbles are one line of 0.50.
    assert_eq!(costed(&board, 1).material.minor, 300);
    board.price.articles.clear();
    board.price.hourly = Some(45.125);
    let costing = costed(&board, 1);
    let by_hand = (costing.minutes() * 60.0).round() / 3600.0 * 4512.5;
    assert_near!(costing.time.unwrap().minor as f64, by_hand, 0.5 + 1e-6);
}

/// Two players with five marbles each, from bags of 100 at 8.00, use 0.40 of each bag.
#[test]
fn either_the_part_used_or_whole_packs_are_charged() {
    let mut board = Board {
        players: 2,
        start: 5,
        ..Board::default()
    };
    board
        .price
        .articles
        .push(price("marble-16", 8.0, Some(100.0)));
    let whole = costed(&board, 1);
    assert_eq!((whole.material.minor, whole.left_over.minor), (1600, 1520));
    board.price.whole_packs = false;
    let used = costed(&board, 1);
    assert_eq!((used.material.minor, used.left_over.minor), (80, 0));
}

#[test]
fn tools_and_things_the_shop_has_are_not_in_the_cost() {
    let mut board = all_priced();
    let before = costed(&board, 1);
    assert!(before.tools.minor > 0);
    let marbles = board
        .price
        .articles
        .iter_mut()
        .find(|price| price.article == "marble-16");
    marbles.unwrap().owned = true;
    let after = costed(&board, 1);
    assert!(after.material < before.material);
    assert!(after.missing.is_empty());
}

#[test]
fn a_missing_price_is_reported_and_not_treated_as_0() {
    let mut board = all_priced();
    let all = costed(&board, 1);
    let paper = board
        .price
        .articles
        .iter_mut()
        .find(|price| price.article == "paper-a4");
    paper.unwrap().price = None;
    board.price.hourly = None;
    let less = costed(&board, 1);
    assert_eq!(less.missing, ["Paper, A4", "your hourly rate"]);
    assert_eq!(less.time, None);
    assert!(less.cost < all.cost);
    assert!(all.is_material_priced() && !less.is_material_priced());
    let found = check(&Workpiece::of(&board).unwrap());
    assert!(
        found[0].message.starts_with("2 prices are missing"),
        "{}",
        found[0].message
    );
}

fn messages(change: impl FnOnce(&mut Board)) -> Vec<(Severity, String)> {
    let mut board = all_priced();
    change(&mut board);
    let found = check(&Workpiece::of(&board).unwrap());
    found
        .into_iter()
        .map(|finding| (finding.severity, finding.message))
        .collect()
}

#[test]
fn bad_numbers_are_findings() {
    assert_eq!(messages(|_| {}), []);
    let starts = |found: Vec<(Severity, String)>, severity, words: &str| {
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(
            found[0].0 == severity && found[0].1.starts_with(words),
            "{found:?}"
        );
    };
    starts(
        messages(|board| board.price.margin = 1.0),
        Severity::Caution,
        "A margin of 100 %",
    );
    starts(
        messages(|board| board.price.margin = -0.2),
        Severity::Caution,
        "The price is below the cost",
    );
    starts(
        messages(|board| board.price.tax = 0.8),
        Severity::Note,
        "A tax of 80 %",
    );
    starts(
        messages(|board| board.price.hourly = Some(0.0)),
        Severity::Caution,
        "A price of 0",
    );
    starts(
        messages(|board| board.price.articles[0].price = Some(0.0)),
        Severity::Caution,
        "A price of 0: Lumber",
    );
    starts(
        messages(|board| board.price.articles[0].price = None),
        Severity::Note,
        "1 price is missing",
    );
    // Two hundred boards can be priced like one.
    assert_eq!(messages(|board| board.schedule.boards = 200), []);
    // Until a first price is typed, no missing prices are reported.
    assert_eq!(check(&Workpiece::of(&Board::default()).unwrap()), []);
}

#[test]
fn the_customer_reads_about_a_board_and_not_about_bores() {
    let mut board = all_priced();
    board.units = Units::INCH;
    board.base = Some(board::Base::default());
    board.recess = Some(board::Recess::default());
    let told = described(&Workpiece::of(&board).unwrap()).join("\n");
    for words in [
        "for 6 players",
        "30 marbles",
        "On a turntable",
        "Finish: penetrating oil",
        "Storage",
        "resin",
    ] {
        assert!(told.contains(words), "{told}");
    }
    assert!(!told.contains(" mm") && !told.contains("bore"), "{told}");
    board.players = 1;
    board.start = 1;
    board.home = 1;
    let told = described(&Workpiece::of(&board).unwrap()).join("\n");
    assert!(
        told.contains("1 player,") && told.contains("1 marble,"),
        "{told}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn more_boards_never_cost_less(boards in 1_u32..200, whole in any::<bool>()) {
        let mut board = all_priced();
        board.price.whole_packs = whole;
        let workpiece = Workpiece::of(&board).unwrap();
        let (fewer, more) = (costing(&workpiece, boards), costing(&workpiece, boards + 1));
        prop_assert!(more.cost >= fewer.cost && more.material >= fewer.material);
        // The price of one board is rounded, which may lose half a coin per board.
        let slack = i64::from(boards) + 1;
        prop_assert!(more.sale.unwrap().net.minor + slack >= fewer.sale.unwrap().net.minor);
    }
}
