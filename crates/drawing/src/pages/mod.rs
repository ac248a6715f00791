//! Pages of words and tables on the maker's paper, as sheets like all others.
//!
//! A page is filled from the top; a table continues on the next page with its header repeated, and a title stays with what
//! follows it.

mod flow;
mod table;
mod wrap;

use board::Board;
use kurbo::{Point, Size};
use workshop::{Workpiece, paper_size};

use crate::stopped::stop_line;
use crate::{Item, Sheet, Stamp};
use flow::Flow;
pub use flow::numbered;
pub use table::{Align, Cell, Column, Table};
pub(crate) use wrap::wrapped;

/// A part of a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A title above its text.
    Heading(String),
    /// Words, broken into lines.
    Words(String),
    /// Words that must not be overlooked: a bar beside them.
    Caution(String),
    /// Rows and columns.
    Table(Table),
    /// Sentences as wide as the page, each with a box to tick.
    Ticked(Vec<String>),
    /// A drawing at true size.
    Figure(Figure),
    /// The name of a stage of the work, over a rule.
    Stage(String),
    /// The size of words and of sentences with boxes from here on, mm; tables are a little smaller.
    Type(f64),
    /// Blocks that stay on one page where they fit on one.
    Kept(Vec<Self>),
}

/// A separate drawing that is kept on one page.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Its width and height, mm; at most the usable size of a page.
    pub size: Size,
    /// Its items, in mm from its lower left corner.
    pub items: Vec<Item>,
}

/// The head of every page.
#[derive(Debug, Clone, PartialEq)]
pub struct Head {
    /// The large title of the first page, repeated in the line at the foot of each page.
    pub title: String,
    /// The subject, below the title.
    pub subtitle: String,
    /// The name of the sheets in lists.
    pub label: String,
    /// The line about what stops the board, at the top of every page; `None` if nothing does.
    pub stop: Option<String>,
}

impl Head {
    /// The head of pages about a board, with the board's title and the date below the title, and anything that stops it above.
    ///
    /// ```
    /// use board::Board;
    /// use drawing::{Head, Stamp};
    /// use workshop::Workpiece;
    /// let board = Board { title: "Six lobes".into(), ..Board::default() };
    /// let stamp = Stamp { date: "29 Nov 2026".into() };
    /// let head = Head::of("Jig sheet", "jig sheet", &Workpiece::of(&board)?, &stamp);
    /// assert_eq!(head.subtitle, "Six lobes  29 Nov 2026");
    /// assert_eq!(head.stop, None);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn of(title: &str, label: &str, workpiece: &Workpiece, stamp: &Stamp) -> Self {
        Self {
            title: title.into(),
            subtitle: format!("{}  {}", workpiece.board().title, stamp.date),
            label: label.into(),
            stop: stop_line(workpiece),
        }
    }
}

/// The blocks on as many pages of a paper as they need, with a margin all around, mm.
///
/// The first page has the title in large letters; each has its title at the foot, with room for the number that [`numbered`] adds.
///
/// ```
/// use drawing::{Align, Block, Cell, Column, Head, Table, pages};
/// use kurbo::Size;
///
/// let head = Head {
///     title: "Cutting list".into(),
///     subtitle: "a board for six".into(),
///     label: "cutting list".into(),
///     stop: None,
/// };
/// let strip = |number: u32| vec![Cell::Tick, Cell::Words(format!("strip {number}"))];
/// let table = Table {
///     columns: Column::all(&[("", Align::Start), ("Saw", Align::Start)]),
///     rows: (1..=200).map(strip).collect(),
/// };
/// let letter = Size::new(215.9, 279.4);
/// let sheets = pages(letter, 12.0, &head, &[Block::Heading("Strips".into()), Block::Table(table)]);
/// assert!(sheets.len() > 1 && sheets.iter().all(|sheet| sheet.size == letter));
/// ```
pub fn pages(paper: Size, margin: f64, head: &Head, blocks: &[Block]) -> Vec<Sheet> {
    let mut flow = Flow::new(paper, margin, head);
    lay(&mut flow, blocks);
    flow.finish()
}

/// The upper left corner of the first block on the first page, mm from the lower left corner of the paper, and the room
/// below it.
pub(crate) fn beginning(paper: Size, margin: f64, head: &Head) -> (Point, f64) {
    let flow = Flow::new(paper, margin, head);
    (Point::new(margin, flow.top()), flow.left())
}

/// The blocks on as many pages as they need, on the paper and with the margin of the board's template.
///
/// A maker has one paper in the printer: pages that go with the template are printed on the same.
pub(crate) fn template_pages(board: &Board, head: &Head, blocks: &[Block]) -> Vec<Sheet> {
    let template = board.template;
    pages(paper_size(template.paper), template.margin, head, blocks)
}

/// Puts blocks below each other.
fn lay(flow: &mut Flow<'_>, blocks: &[Block]) {
    for (at, block) in blocks.iter().enumerate() {
        let following = blocks.get(at + 1..).unwrap_or_default();
        match block {
            Block::Heading(words) => flow.heading(words, kept_with(flow, following)),
            Block::Stage(words) => flow.stage(words, kept_with(flow, following)),
            Block::Words(words) => flow.words(words),
            Block::Caution(words) => flow.caution(words),
            Block::Table(table) => table::lay(flow, table),
            Block::Ticked(lines) => table::tick_off(flow, lines),
            Block::Figure(figure) => flow.figure(figure),
            Block::Type(size) => flow.set_words_size(*size),
            Block::Kept(blocks) => keep(flow, blocks),
        }
    }
}

/// Share of a page that has to be free for a block longer than a page to start on it.
const BEGINS: f64 = 0.5;
/// Gap above a heading that does not start a page, mm.
const ABOVE: f64 = 4.0;

/// Puts blocks that stay together on a page: on a new one if they do not fit on this one but fit on a whole page.
fn keep(flow: &mut Flow<'_>, blocks: &[Block]) {
    if flow.left() < kept_height(flow, blocks) && !flow.is_fresh() {
        flow.turn();
    }
    lay(flow, blocks);
}

/// Room that blocks which stay together need on a page to begin on it, mm.
fn kept_height(flow: &Flow<'_>, blocks: &[Block]) -> f64 {
    let mut trial = flow.trial();
    lay(&mut trial, blocks);
    let whole = trial.taken().map(|height| height + ABOVE);
    whole.unwrap_or_else(|| BEGINS * flow.height_of_page())
}

/// Height of what stays with a title: the headings, words and cautions below it, and the beginning of the table, list or figure that they
/// lead to.
///
/// A heading alone at the foot of a page is overlooked, and its table on the next page is taken for part of the one before.
fn kept_with(flow: &Flow<'_>, following: &[Block]) -> f64 {
    let mut height = 0.0;
    for block in following {
        match block {
            Block::Words(words) | Block::Caution(words) => height += flow.words_height(words),
            Block::Table(table) => return height + table::beginning(flow, table),
            Block::Ticked(lines) => {
                let first = lines.first().map_or(0.0, |line| flow.words_height(line));
                return height + first;
            }
            Block::Figure(figure) => return height + figure.size.height,
            Block::Kept(blocks) => return height + kept_height(flow, blocks),
            Block::Heading(words) => height += flow.heading_height(words),
            Block::Stage(_) => return height,
            Block::Type(_) => {}
        }
    }
    height
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Shape, Text};

    const A4: Size = Size::new(210.0, 297.0);

    fn head() -> Head {
        Head {
            title: "Jig sheet".into(),
            subtitle: "A board".into(),
            label: "jig".into(),
            stop: None,
        }
    }

    fn texts(sheet: &Sheet) -> impl Iterator<Item = &Text> {
        sheet.marks.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text),
            _ => None,
        })
    }

    fn long_table(rows: usize) -> Block {
        let columns = vec![
            Column::new("Hole", Align::Start),
            Column::new("Bearing", Align::End),
            Column::new(
                "What to do there, which may be a long story that has to be broken",
                Align::Start,
            ),
        ];
        let row = |at: usize| {
            vec![
                Cell::Words(format!("T1-{at:02}")),
                Cell::Words(format!("{:.3}°", at as f64 * 1.7)),
                Cell::Words(
                    "turn the blank until the stop clicks, clamp, drill, and blow the chips out"
                        .into(),
                ),
            ]
        };
        Block::Table(Table {
            columns,
            rows: (0..rows).map(row).collect(),
        })
    }

    #[test]
    fn nothing_leaves_the_margins_on_any_paper() {
        let blocks = [
            Block::Heading("Radii".into()),
            Block::Words("Set the drill to each radius and turn the blank. ".repeat(12)),
            Block::Caution("Clamp the blank before you drill.".into()),
            long_table(90),
        ];
        for paper in [
            A4,
            Size::new(215.9, 279.4),
            Size::new(80.0, 120.0),
            Size::new(30.0, 30.0),
        ] {
            let room = paper.to_rect().inset(-7.9);
            for sheet in pages(paper, 8.0, &head(), &blocks) {
                for item in &sheet.marks {
                    let bounds = item.shape.bounds();
                    assert!(room.contains_rect(bounds), "{:?} on {paper:?}", item.shape);
                }
            }
        }
    }

    #[test]
    fn every_page_of_a_board_that_is_stopped_says_so_at_its_top() {
        let stop = "STOP: do not cut wood by this sheet. Settle first: web, rim margin.";
        let stopped = Head {
            stop: Some(stop.into()),
            ..head()
        };
        let sheets = pages(A4, 10.0, &stopped, &[long_table(120)]);
        assert!(sheets.len() > 1);
        for sheet in &sheets {
            let at = texts(sheet).find(|text| text.words == stop).unwrap().at;
            assert!(texts(sheet).all(|text| text.at.y <= at.y));
            let near = texts(sheet).filter(|text| text.at.y > at.y - 3.5);
            assert_eq!(near.count(), 1);
        }
    }

    #[test]
    fn a_table_continues_with_its_header_and_loses_no_row() {
        let sheets = pages(A4, 10.0, &head(), &[long_table(120)]);
        assert!(sheets.len() > 1);
        let mut found = 0;
        for sheet in &sheets {
            assert_eq!(
                texts(sheet).filter(|text| text.words == "Bearing").count(),
                1
            );
            found += texts(sheet)
                .filter(|text| text.words.starts_with("T1-"))
                .count();
        }
        assert_eq!(found, 120);
    }

    #[test]
    fn lines_of_words_never_overlap() {
        let blocks = [
            Block::Heading("Radii".into()),
            Block::Words("Set the drill to each radius and turn the blank. ".repeat(12)),
            long_table(20),
        ];
        for sheet in pages(A4, 10.0, &head(), &blocks) {
            let boxes: Vec<_> = texts(&sheet)
                .map(|text| (text.bounds(), &text.words))
                .collect();
            for (at, (one, words)) in boxes.iter().enumerate() {
                for (other, others) in &boxes[at + 1..] {
                    let shared = one.intersect(*other);
                    let apart = shared.width() <= 0.0 || shared.height() <= 0.0;
                    assert!(apart, "{words:?} over {others:?}");
                }
            }
        }
    }

    /// Anywhere on a page, a heading is on the same page as the words below it and two rows of its table.
    #[test]
    fn a_heading_stays_with_its_table() {
        for filler in 1..60 {
            let blocks = [
                Block::Words("Filler. ".repeat(filler * 12)),
                Block::Heading("Radii".into()),
                Block::Words("Set the drill to each radius and turn the blank. ".repeat(3)),
                long_table(20),
            ];
            let sheets = pages(A4, 10.0, &head(), &blocks);
            let with = |words: &str| {
                let has = |sheet: &Sheet| texts(sheet).any(|text| text.words == words);
                sheets.iter().position(has).unwrap()
            };
            assert_eq!(with("Radii"), with("T1-01"), "after {filler}");
        }
    }

    /// The name of a stage has a heading and rows of its table on the same page.
    #[test]
    fn a_stage_stays_with_the_table_below_its_heading() {
        for filler in 1..60 {
            let blocks = [
                Block::Words("Filler. ".repeat(filler * 12)),
                Block::Stage("Figures".into()),
                Block::Heading("Radii".into()),
                long_table(20),
            ];
            let sheets = pages(A4, 10.0, &head(), &blocks);
            let with = |words: &str| {
                let has = |sheet: &Sheet| texts(sheet).any(|text| text.words == words);
                sheets.iter().position(has).unwrap()
            };
            assert_eq!(with("Figures"), with("T1-01"), "after {filler}");
        }
    }

    /// A narrow table of 200 rows takes three columns, reads down each, and has its header above each.
    #[test]
    fn a_long_narrow_table_is_laid_in_columns() {
        let row = |at: usize| {
            let radius = if at.is_multiple_of(10) {
                Cell::Words(format!("R{}", at / 10))
            } else {
                Cell::Again(format!("R{}", at / 10))
            };
            vec![Cell::Tick, radius, Cell::Words(format!("T1-{at:03}"))]
        };
        let table = Table {
            columns: Column::all(&[
                ("", Align::Start),
                ("Radius", Align::End),
                ("Hole", Align::Start),
            ]),
            rows: (0..200).map(row).collect(),
        };
        let sheets = pages(A4, 10.0, &head(), &[Block::Table(table)]);
        assert!(sheets.len() <= 2, "{} sheets", sheets.len());
        let found = |sheet: &Sheet, words: &str| {
            texts(sheet)
                .filter(|text| text.words.starts_with(words))
                .count()
        };
        assert_eq!(found(&sheets[0], "Radius"), 3);
        let rows: usize = sheets.iter().map(|sheet| found(sheet, "T1-")).sum();
        assert_eq!(rows, 200);
        // Each column begins with the radius of its first row.
        let tops = texts(&sheets[0]).filter(|text| text.words.starts_with("T1-"));
        let top = tops.map(|text| text.at.y).fold(0.0, f64::max);
        let radii =
            texts(&sheets[0]).filter(|text| text.words.starts_with('R') && text.words != "Radius");
        assert_eq!(
            radii.filter(|text| (text.at.y - top).abs() < 1e-6).count(),
            3
        );
    }

    #[test]
    fn pages_of_several_parts_are_numbered_consecutively() {
        let mut all = pages(A4, 10.0, &head(), &[long_table(120)]);
        all.extend(pages(A4, 10.0, &head(), &[long_table(2)]));
        let all = numbered(all, 10.0);
        for (sheet, number) in all.iter().zip(1..) {
            let words = format!("page {number} of {}", all.len());
            assert_eq!(texts(sheet).filter(|text| text.words == words).count(), 1);
        }
    }
}
