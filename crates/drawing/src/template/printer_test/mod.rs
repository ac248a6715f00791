//! The sheet for measuring a printer: two long bars, a square with its diagonals, a circle, and room for readings.
//!
//! The sheet is always portrait, so that across and up mean the same on every test.

mod parts;
mod scale;
#[cfg(test)]
mod tests;

use board::{Board, Choice, INCH, Units, show_length, show_number};
use kurbo::{Rect, Size, Vec2};

use crate::font::{self, Weight};
use crate::pages::wrapped;
use crate::{Sheet, Stamp, View};
use workshop::{Correction, TilingError, paper_size};
use workshop::{printable, printable_size};

/// The lengths on a printer test sheet, in mm: round numbers in the maker's unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestLengths {
    /// The horizontal bar.
    pub level: f64,
    /// The vertical bar.
    pub upright: f64,
    /// The sides of the square.
    pub square: f64,
    /// The diameter of the circle.
    pub circle: f64,
}

/// The lengths on the printer test sheet for a board's paper: bars as long as the margins allow in steps of a centimeter or a
/// quarter of an inch, and a square with its circle in the remaining room.
///
/// ```
/// use board::{Board, Paper};
/// use drawing::test_lengths;
///
/// let mut board = Board::default();
/// (board.template.paper, board.template.margin) = (Paper::A4, 10.0);
/// let lengths = test_lengths(&board)?;
/// // The bars of an A4 sheet with margins of 10 mm.
/// assert_eq!((lengths.level, lengths.upright), (170.0, 260.0));
/// assert!(lengths.circle < lengths.square && lengths.square <= lengths.level);
/// # Ok::<(), workshop::TilingError>(())
/// ```
///
/// # Errors
/// [`TilingError::NoPaperLeft`] where margins leave less than 60 mm of the paper.
pub fn test_lengths(board: &Board) -> Result<TestLengths, TilingError> {
    Page::of(board, &Stamp::default(), None).map(|page| page.lengths())
}

/// The sheet for measuring a printer, on the paper of a board's template.
///
/// Printed without correction, it shows the printer's errors. Printed with it, it shows whether the bars come out true to size;
/// they are shorter if the correction leaves no room for longer ones.
///
/// The paper is portrait, as it goes through the printer, since the stretch along it differs from that across it.
///
/// ```
/// use board::Board;
/// use drawing::{Stamp, printer_test_sheet};
///
/// let sheet = printer_test_sheet(&Board::default(), &Stamp::default(), None)?;
/// assert!(sheet.size.width < sheet.size.height);
/// assert!(sheet.correction.is_none() && sheet.view.items.is_empty());
/// # Ok::<(), workshop::TilingError>(())
/// ```
///
/// # Errors
/// [`TilingError::NoPaperLeft`] where margins leave less than 60 mm of the paper.
pub fn printer_test_sheet(
    board: &Board,
    stamp: &Stamp,
    correction: Option<&Correction>,
) -> Result<Sheet, TilingError> {
    let page = Page::of(board, stamp, correction)?;
    Ok(Sheet {
        size: page.paper,
        label: "printer test".into(),
        view: View {
            window: page.area,
            page_from_board: Vec2::ZERO,
            tints: Vec::new(),
            items: Vec::new(),
        },
        marks: parts::parts(&page),
        correction: correction.cloned(),
    })
}

/// Size of plain words on A4, mm; smaller paper has smaller ones, down to the smallest type.
const WORDS: f64 = 2.9;
/// Least size that the margins must leave of the paper, mm.
const LEAST: f64 = 60.0;
/// Room across a bar, and at each end of it, mm.
const BAR: f64 = 12.0;
const ENDS: f64 = 4.0;
/// Room between the parts of the sheet, mm.
const GAP: f64 = 4.0;
/// Least room between circle and square, mm.
const RIM: f64 = 6.0;

/// The paper, the words on it, and the places of its parts.
struct Page {
    /// Its paper, upright, mm.
    paper: Size,
    /// The unit of its bars and lengths.
    units: Units,
    /// The area where drawing is possible.
    area: Rect,
    /// Size of plain words, mm.
    size: f64,
    /// The words opposite the title.
    about: String,
    /// The instructions.
    lines: Vec<String>,
}

impl Page {
    fn of(
        board: &Board,
        stamp: &Stamp,
        correction: Option<&Correction>,
    ) -> Result<Self, TilingError> {
        let template = &board.template;
        let paper = paper_size(template.paper);
        let paper = Size::new(paper.min_side(), paper.max_side());
        let room = printable_size(paper, template.margin, correction);
        if room.min_side() < LEAST {
            return Err(TilingError::NoPaperLeft {
                margin: template.margin,
                width: paper.width,
                height: paper.height,
            });
        }
        let name = template.paper.words();
        let about = match stamp.date.as_str() {
            "" => name.into(),
            date => format!("{name}, {date}"),
        };
        let mut page = Self {
            paper,
            units: board.units,
            area: printable(paper, template.margin, correction),
            size: WORDS
                * (room.width / 190.0)
                    .min(room.height / 277.0)
                    .clamp(font::SMALLEST / WORDS, 1.0),
            about,
            lines: Vec::new(),
        };
        let (size, room) = (page.size, page.inner().width());
        let lines = sentences(correction).into_iter();
        let lines = lines.flat_map(|line| wrapped(&line, size, Weight::Regular, room));
        page.lines = lines.collect();
        Ok(page)
    }

    /// The area right of the vertical bar and above the horizontal one.
    fn inner(&self) -> Rect {
        let low = BAR + GAP;
        Rect::new(
            self.area.x0 + low,
            self.area.y0 + low,
            self.area.x1,
            self.area.y1,
        )
    }

    /// Line spacing of the words, mm.
    fn leading(&self) -> f64 {
        1.6 * self.size
    }

    /// Top of the instructions.
    fn words_top(&self) -> f64 {
        self.area.y1 - 3.0 * self.size
    }

    /// Height of a line of the table.
    fn row(&self) -> f64 {
        2.9 * self.size
    }

    /// Baseline of the table's last line.
    fn table_foot(&self) -> f64 {
        self.inner().y0 + GAP
    }

    /// The area for the square, between instructions and table.
    fn middle(&self) -> Rect {
        let inner = self.inner();
        let words = self.leading() * self.lines.len() as f64;
        Rect::new(
            inner.x0,
            self.table_foot() + 4.0 * self.row(),
            inner.x1,
            self.words_top() - words - GAP,
        )
    }

    /// The longest lengths that there is room for.
    fn lengths(&self) -> TestLengths {
        let square = self.round(self.middle().size().min_side());
        let handy = match self.units {
            Units::Mm => 150.0,
            Units::Inch(_) => 6.0 * INCH,
        };
        TestLengths {
            level: self.round(self.inner().width() - ENDS),
            upright: self.round(self.area.height() - 2.0 * ENDS),
            square,
            circle: self.round(square - 2.0 * RIM.min(square / 10.0)).min(handy),
        }
    }

    /// A length rounded down to a round number.
    fn round(&self, length: f64) -> f64 {
        let step = match self.units {
            Units::Mm => 10.0,
            Units::Inch(_) => INCH / 2.0,
        };
        let step = if length < 5.0 * step {
            step / 2.0
        } else {
            step
        };
        // A length that is a whole step except for rounding counts as one.
        ((length / step + 1e-9).floor() * step).max(step)
    }
}

/// A length of the sheet in words; inches in decimals, as it is measured with a rule or a caliper and typed as read.
fn length_words(mm: f64, units: Units) -> String {
    match units {
        Units::Mm => show_length(mm, units),
        Units::Inch(_) => format!("{}\"", show_number(mm / INCH, 3)),
    }
}

/// The instructions for the sheet, in as many lines as its paper has room for.
fn sentences(correction: Option<&Correction>) -> [String; 3] {
    let print = "Print at 100 %, not fitted to the page, on the template's paper.";
    match correction {
        None => [
            print.into(),
            "Measure both bars between their end ticks and both diagonals from corner to corner, up to five times."
                .into(),
            "Type the readings with the printer under Template. Then print this sheet again to see that it measures true.".into(),
        ],
        Some(correction) => [
            print.into(),
            correction.words().join(" "),
            "Everything here should now measure what it says. To measure the printer anew, choose none and print again."
                .into(),
        ],
    }
}
