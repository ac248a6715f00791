//! Tables: columns as wide as their content, or narrower if the page is narrow.
//!
//! A row is kept on one page. Where a row is longer than a page, which happens on paper the size of a card, its end is left out
//! instead of being drawn over the foot.

use kurbo::Point;

use super::flow::{Flow, LEADING};
use super::wrap::wrapped;
use crate::font::{self, Weight};
use crate::{Anchor, Line};

/// Size of the words in a table, as a share of plain words.
const SHARE: f64 = 0.9;
/// Room between columns.
const BETWEEN: f64 = 4.0;
/// Room above and below the words of a row.
const PADDING: f64 = 0.55;
/// Room below a sentence with a box.
const BETWEEN_TICKS: f64 = 0.6;
/// Greatest width of a column; longer words are broken.
const WIDEST: f64 = 90.0;

/// Rows and columns.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// The columns, from the left.
    pub columns: Vec<Column>,
    /// The rows, each with one cell per column.
    pub rows: Vec<Vec<Cell>>,
}

/// A column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// The words above it.
    pub title: String,
    /// The alignment of its cells.
    pub align: Align,
}

impl Column {
    /// Columns by their titles.
    ///
    /// ```
    /// use drawing::{Align, Column};
    /// let columns = Column::all(&[("Hole", Align::Start), ("Depth", Align::End)]);
    /// assert_eq!(columns[1], Column::new("Depth", Align::End));
    /// ```
    pub fn all(titles: &[(&str, Align)]) -> Vec<Self> {
        let column = |(title, align): &(&str, Align)| Self::new(title, *align);
        titles.iter().map(column).collect()
    }

    /// A column with a title.
    pub fn new(title: &str, align: Align) -> Self {
        Self {
            title: title.into(),
            align,
        }
    }
}

/// The alignment of the cells in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// At the left.
    Start,
    /// At the right, for numbers.
    End,
}

/// The content of a column in a row.
///
/// ```
/// use drawing::Cell;
/// let row = [Cell::Tick, "T1-07".into(), String::from("12 mm").into()];
/// assert_eq!(row[1], Cell::Words("T1-07".to_owned()));
/// ```
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Words or a number.
    Words(String),
    /// The same words as in the row above: printed only where a page or a column begins.
    Again(String),
    /// A box to tick by hand.
    Tick,
}

impl From<String> for Cell {
    fn from(words: String) -> Self {
        Self::Words(words)
    }
}

impl From<&str> for Cell {
    fn from(words: &str) -> Self {
        Self::Words(words.into())
    }
}

/// Puts a table onto the pages.
pub fn lay(flow: &mut Flow<'_>, table: &Table) {
    let size = SHARE * flow.words_size();
    let widths = widths(table, flow.width(), size);
    let titles: Vec<Cell> = table
        .columns
        .iter()
        .map(|column| Cell::Words(column.title.clone()))
        .collect();
    let header = Row::of(&titles, &widths, Weight::SemiBold, size);
    let beside = columns_beside(table, &widths, flow.width(), size);
    if beside > 1 {
        return in_columns(flow, table, &widths, &header, beside);
    }
    let mut needs_header = true;
    for cells in &table.rows {
        let row = Row::of(cells, &widths, Weight::Regular, size);
        let height = row.height + if needs_header { header.height } else { 0.0 };
        if flow.left() < height && !flow.is_fresh() {
            flow.turn();
            needs_header = true;
        }
        let row = if needs_header {
            header.draw(flow, table, &widths);
            flow.rule(Line::Cut, total(&widths, flow.width()));
            needs_header = false;
            Row::of(&begun(cells), &widths, Weight::Regular, size)
        } else {
            row
        };
        row.draw(flow, table, &widths);
        flow.rule(Line::Dimension, total(&widths, flow.width()));
    }
    flow.space(3.5);
}

/// Height of a table's header and first two rows, mm.
pub fn beginning(flow: &Flow<'_>, table: &Table) -> f64 {
    let size = SHARE * flow.words_size();
    let widths = widths(table, flow.width(), size);
    let titles = table.columns.iter();
    let titles: Vec<Cell> = titles.map(|column| column.title.as_str().into()).collect();
    let header = Row::of(&titles, &widths, Weight::SemiBold, size).height;
    let first = table.rows.iter().take(2);
    let rows: f64 = first
        .map(|cells| Row::of(cells, &widths, Weight::Regular, size).height)
        .sum();
    header + rows
}

/// Rows from which a table is long; shorter ones stay in one column, since breaking them in two makes them harder to read and
/// saves little.
const LONG: usize = 16;
/// Room between the columns of a long table, mm.
const GUTTER: f64 = 8.0;

/// Number of columns of a long table that fit side by side on the page: two or three where each of its rows is one line.
///
/// Tables of sentences stay in one column: they need the width, and their rows differ in height.
fn columns_beside(table: &Table, widths: &[f64], room: f64, size: f64) -> usize {
    let wide = total(widths, room);
    let is_one_line = |cells: &Vec<Cell>| {
        let row = Row::of(cells, widths, Weight::Regular, size);
        row.height < 2.0 * size * LEADING
    };
    if table.rows.len() < LONG || !table.rows.iter().all(is_one_line) {
        return 1;
    }
    (((room + GUTTER) / (wide + GUTTER)).floor() as usize).clamp(1, 3)
}

/// Lays out a long table in columns side by side, each read from the top; on its last page they have the same length.
///
/// Every column has the header above it, so that a row can be read without looking to the other side of the page.
fn in_columns(flow: &mut Flow<'_>, table: &Table, widths: &[f64], header: &Row, beside: usize) {
    let size = header.size;
    let wide = total(widths, flow.width());
    let high = size * LEADING + 2.0 * PADDING;
    let mut rest = table.rows.as_slice();
    while !rest.is_empty() {
        if flow.left() < header.height + 3.0 * high && !flow.is_fresh() {
            flow.turn();
        }
        let fits = (((flow.left() - header.height) / high) as usize).max(1);
        let each = fits.min(rest.len().div_ceil(beside));
        let top = flow.top();
        for column in 0..beside {
            let (now, later) = rest.split_at(each.min(rest.len()));
            rest = later;
            if now.is_empty() {
                break;
            }
            flow.go_to(top, column as f64 * (wide + GUTTER));
            header.draw(flow, table, widths);
            flow.rule(Line::Cut, wide);
            for (at, cells) in now.iter().enumerate() {
                let row = if at == 0 {
                    Row::of(&begun(cells), widths, Weight::Regular, size)
                } else {
                    Row::of(cells, widths, Weight::Regular, size)
                };
                row.draw(flow, table, widths);
                flow.rule(Line::Dimension, wide);
            }
        }
        flow.go_to(top - header.height - each as f64 * high, 0.0);
        if !rest.is_empty() {
            flow.turn();
        }
    }
    flow.space(3.5);
}

/// A row at the top of a page or a column, which repeats the words that it shares with the row above.
fn begun(cells: &[Cell]) -> Vec<Cell> {
    let written = |cell: &Cell| match cell {
        Cell::Again(words) => Cell::Words(words.clone()),
        other => other.clone(),
    };
    cells.iter().map(written).collect()
}

/// Puts sentences as wide as the page, each with a box to tick before it.
///
/// They are read from a bench at arm's length: a sentence is kept on one page where possible, and has a gap below it.
pub fn tick_off(flow: &mut Flow<'_>, lines: &[String]) {
    let size = SHARE * flow.words_size();
    let columns = Column::all(&[("", Align::Start), ("", Align::Start)]);
    let table = Table {
        columns,
        rows: Vec::new(),
    };
    let room = flow.width() - between(2, flow.width());
    let widths = [size, (room - size).max(1.0)];
    for line in lines {
        let row = Row::of(
            &[Cell::Tick, line.as_str().into()],
            &widths,
            Weight::Regular,
            size,
        );
        if flow.left() < row.height && !flow.is_fresh() {
            flow.turn();
        }
        row.draw(flow, &table, &widths);
        flow.space(BETWEEN_TICKS);
    }
    flow.space(2.0);
}

/// Gap between columns, smaller if the page is narrow.
fn between(columns: usize, room: f64) -> f64 {
    BETWEEN.min(room / (3.0 * columns.max(1) as f64))
}

/// Width of the whole table, mm.
fn total(widths: &[f64], room: f64) -> f64 {
    widths.iter().sum::<f64>() + between(widths.len(), room) * widths.len().saturating_sub(1) as f64
}

/// The width of each column: that of its widest cell, reduced in the widest columns where the page cannot hold all.
///
/// Numbers are short and keep their width this way; the column of sentences shrinks, and is broken into lines.
fn widths(table: &Table, room: f64, size: f64) -> Vec<f64> {
    let natural = |at: usize, column: &Column| {
        let title = font::width(&column.title, size, Weight::SemiBold).min(WIDEST / 4.0);
        let cells = table.rows.iter().filter_map(|row| row.get(at));
        cells
            .map(|cell| match cell {
                Cell::Words(words) | Cell::Again(words) => {
                    font::width(words, size, Weight::Regular)
                }
                Cell::Tick => size,
            })
            .fold(title.max(longest_word(&column.title, size)), f64::max)
            .min(WIDEST)
    };
    let columns = table.columns.iter().enumerate();
    let mut widths: Vec<f64> = columns.map(|(at, column)| natural(at, column)).collect();
    let gaps = between(widths.len(), room) * widths.len().saturating_sub(1) as f64;
    let room = (room - gaps).max(1.0);
    // The widest column shrinks first, down to the next one.
    for _ in 0..200 {
        let over = widths.iter().sum::<f64>() - room;
        if over <= 1e-9 {
            break;
        }
        let widest = widths.iter().copied().fold(0.0, f64::max);
        for width in &mut widths {
            if *width >= widest - 1e-9 {
                *width = (*width - over).max(*width * 0.9).max(1.0);
            }
        }
    }
    widths
}

/// Width of the longest word of a title, which is not broken.
fn longest_word(words: &str, size: f64) -> f64 {
    let widths = words
        .split_whitespace()
        .map(|word| font::width(word, size, Weight::SemiBold));
    widths.fold(0.0, f64::max)
}

/// A row, its words broken into lines.
struct Row {
    /// Lines of each cell; none for a box.
    cells: Vec<Option<Vec<String>>>,
    /// The weight of its words.
    weight: Weight,
    /// The size of its words, mm.
    size: f64,
    /// Its total height, mm.
    height: f64,
}

impl Row {
    /// A row with its words broken to the widths of the columns; it is as high as its highest cell.
    fn of(cells: &[Cell], widths: &[f64], weight: Weight, size: f64) -> Self {
        let cells: Vec<Option<Vec<String>>> = cells
            .iter()
            .zip(widths)
            .map(|(cell, width)| match cell {
                Cell::Words(words) => Some(wrapped(words, size, weight, *width + 1e-6)),
                Cell::Again(_) => Some(vec![String::new()]),
                Cell::Tick => None,
            })
            .collect();
        let lines = cells.iter().flatten().map(Vec::len).max().unwrap_or(1);
        Self {
            cells,
            weight,
            size,
            height: lines as f64 * size * LEADING + 2.0 * PADDING,
        }
    }

    /// Draws the row at the top of the free part of the page.
    fn draw(&self, flow: &mut Flow<'_>, table: &Table, widths: &[f64]) {
        let size = self.size;
        let mut left = flow.start();
        let base = flow.top() - PADDING - size;
        for ((lines, column), width) in self.cells.iter().zip(&table.columns).zip(widths) {
            let (at, anchor) = match column.align {
                Align::Start => (left, Anchor::Start),
                Align::End => (left + width, Anchor::End),
            };
            let left_over = flow.left();
            match lines {
                None => flow.tick_box(Point::new(left, base - 0.2), size * 0.85),
                Some(lines) => {
                    // On paper so small that a row is longer than a page, its end is left out.
                    let fits = (left_over / (size * LEADING)).max(0.0) as usize;
                    for (line, words) in lines.iter().take(fits).enumerate() {
                        let at = Point::new(at, base - size * LEADING * line as f64);
                        flow.text(at, size, self.weight, anchor, words.clone());
                    }
                }
            }
            left += width + between(widths.len(), flow.width());
        }
        flow.space(self.height.min(flow.left().max(0.0)));
    }
}
