//! The papers of an order read back: their totals are recalculated here.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use app::exports::Kind;
use board::{ArticlePrice, Board, Coat, CoatKind, Colored, Filling, Grooves, Hue, Medium, Units};
use testkit::{PageWords, PdfFile};
use tests::{files, worked};
use workshop::{Shelf, ToBuy, boards_of, shopping};

/// Rates of the order: an hour of work, overhead, margin and tax.
const HOURLY: f64 = 42.375;
const OVERHEAD: f64 = 0.12;
const MARGIN: f64 = 0.3;
const TAX: f64 = 0.0825;

/// The price of the article at an index of the list, in thousandths of a cent, so that the sums below are integers.
fn price_at(at: usize) -> i128 {
    1_375_500 + 91_025 * at as i128
}

/// A board with resin, colored grooves and coats, ordered in a quantity, with a price for each article.
fn priced(boards: u32, units: Units) -> Board {
    let mut board = Board {
        grooves: Some(Grooves::default()),
        filling: Some(Filling::default()),
        finish: vec![Coat::of(CoatKind::OilPolyurethane, 24.0)],
        ..Board::begun(units)
    };
    board.colors.grooves = Colored {
        hue: Hue::Player,
        medium: Medium::Resin,
    };
    board.schedule.boards = boards;
    board.price.hourly = Some(HOURLY);
    board.price.overhead = OVERHEAD;
    board.price.margin = MARGIN;
    board.price.tax = TAX;
    for (at, article) in articles(&board).into_iter().enumerate() {
        board.price.articles.push(ArticlePrice {
            article,
            price: Some(price_at(at) as f64 / 100_000.0),
            ..ArticlePrice::default()
        });
    }
    board
}

/// The articles in a board's list, without duplicates.
fn articles(board: &Board) -> Vec<String> {
    let mut names = Vec::new();
    for line in shopping(&worked(board), boards_of(board)) {
        if !names.contains(&line.article) {
            names.push(line.article);
        }
    }
    names
}

/// The integer nearest to a quotient of integers, halves rounded up.
fn rounded(number: i128, by: i128) -> i128 {
    (2 * number + by).div_euclid(2 * by)
}

/// The amount bought in a line and the amount in a pack, as integers: lumber by the cubic meter is counted in thousandths.
fn packs(line: &ToBuy) -> (i128, i128) {
    let of = if line.article.ends_with("-m3") {
        1000.0
    } else {
        1.0
    };
    (
        (line.need / line.pack * of - 1e-9).ceil() as i128,
        of as i128,
    )
}

/// Price per board, subtotal, tax and total in cents, from the list, the typed prices and the minutes in the table.
fn added_up(board: &Board, minutes: f64) -> [i128; 4] {
    let names = articles(board);
    let lines = shopping(&worked(board), boards_of(board));
    let charged = lines.iter().filter(|line| line.shelf != Shelf::Tools);
    let cost_of = |line: &ToBuy| {
        let at = names.iter().position(|name| *name == line.article).unwrap();
        let (parts, of) = packs(line);
        rounded(parts * price_at(at), of * 1000)
    };
    let material: i128 = charged.map(cost_of).sum();
    let seconds = (minutes * 60.0).round() as i128;
    let time = rounded(seconds * 42_375, 3600 * 10);
    let overhead = rounded((material + time) * 12, 100);
    let cost = material + time + overhead;
    let boards = i128::from(boards_of(board));
    let price = rounded(cost * 10, 7);
    let each = rounded(price, boards);
    let net = each * boards;
    let tax = rounded(net * 825, 10_000);
    [each, net, tax, net + tax]
}

/// Cents as written in a quote.
fn shown(cents: i128) -> String {
    let whole = (cents / 100).to_string();
    let mut grouped = String::new();
    for (at, digit) in whole.chars().enumerate() {
        if at > 0 && (whole.len() - at).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    format!("${grouped}.{:02}", cents % 100)
}

/// The words from left to right in the row of a page that begins with some words.
fn row(page: &[PageWords], begins: &str) -> Vec<String> {
    let first = page.iter().find(|words| words.words.starts_with(begins));
    let first = first.unwrap_or_else(|| panic!("no row {begins}"));
    let in_row = page
        .iter()
        .filter(|words| (words.at.y - first.at.y).abs() < 0.5);
    let mut in_row: Vec<&PageWords> = in_row.collect();
    in_row.sort_by(|one, other| one.at.x.total_cmp(&other.at.x));
    let words = in_row.into_iter().map(|words| words.words.clone());
    words.filter(|words| !words.is_empty()).collect()
}

/// The amounts in a column of a table in a file.
fn column(text: &[u8], part: &str, at: usize) -> Vec<f64> {
    let mut reader = csv::Reader::from_reader(text);
    let rows = reader.records().map(Result::unwrap);
    let of_part = rows.filter(|row| row[0] == *part);
    of_part.map(|row| row[at].parse().unwrap()).collect()
}

#[test]
fn the_total_of_a_quote_is_the_sum_of_its_lines() {
    for (boards, units) in [(1, Units::Mm), (3, Units::Mm), (3, Units::INCH)] {
        let board = priced(boards, units);
        let files = files(Kind::Quote, &board);
        let [quote, _, table] = &files[..] else {
            panic!("{} files", files.len());
        };
        let minutes: f64 = column(&table.1, "time", 2).into_iter().sum();
        let [each, net, tax, total] = added_up(&board, minutes).map(shown);
        let page = &PdfFile::read(&quote.1).unwrap().pages[0].words;
        let number = boards.to_string();
        assert_eq!(
            row(page, "Board with its pieces"),
            ["Board with its pieces", &number, &each, &net]
        );
        assert_eq!(row(page, "Sales tax"), ["Sales tax, 8.25 %", &tax]);
        assert_eq!(row(page, "Total"), ["Total, USD", &total]);
    }
}

/// The cost in each line of the costing table is the quantity bought times the price, both as printed in the table.
#[test]
fn each_line_of_a_costing_is_its_packs_times_its_price() {
    let board = priced(3, Units::INCH);
    let files = files(Kind::Quote, &board);
    let [prices, amounts] = [4, 5].map(|at| column(&files[2].1, "material", at));
    let lines = shopping(&worked(&board), 3);
    let charged = lines.iter().filter(|line| line.shelf != Shelf::Tools);
    let charged: Vec<_> = charged.collect();
    assert_eq!(charged.len(), prices.len());
    for ((line, price), amount) in charged.into_iter().zip(prices).zip(amounts) {
        let (parts, of) = packs(line);
        let exact = parts as f64 / of as f64 * price;
        assert!(
            (exact - amount).abs() < 0.005 + 1e-9,
            "{}: {exact} {amount}",
            line.name
        );
    }
}
