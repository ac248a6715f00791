//! The whole board on one sheet, for a plotter, a print shop or a screen.
//!
//! The page grows with the board. Its bars are in the border, away from the holes.

use kurbo::{Point, Rect, Size, Vec2};
use workshop::Workpiece;

use crate::font::{self, Weight};
use crate::stopped::{stop_item, stop_line};
use crate::template::bars::longest_bar;
use crate::template::subject::Subject;
use crate::template::summary::summary;
use crate::{Anchor, Item, Line, Shape, Sheet, Stamp, Text, View, tints};

/// White border around the board, mm; wide enough for the vertical bar.
const BORDER: f64 = 15.0;
/// Height of the strip with title and bar below the board, mm.
const STRIP: f64 = 36.0;
/// Least width of the page, so that the title has room, mm.
const LEAST_WIDTH: f64 = 180.0;
/// Sizes of title and words, and line spacing, mm.
const TITLE: f64 = 7.0;
const WORDS: f64 = 3.0;
const LEADING: f64 = 4.8;

/// The whole board on one sheet, with bars both ways and a title block below.
///
/// The paper is as wide as the board and a border of 15 mm on each side, at least 180 mm, and higher by a strip of 36 mm
/// for title and bar; the board is at true size, 12 o'clock up.
///
/// ```
/// use board::Board;
/// use drawing::{Stamp, whole_sheet};
/// use workshop::Workpiece;
///
/// let mut board = Board::default();
/// board.blank.diameter = 560.0;
/// let sheet = whole_sheet(&Workpiece::of(&board)?, &Stamp { date: "29 Nov 2026".into() });
/// assert_eq!((sheet.size.width, sheet.size.height), (590.0, 626.0));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn whole_sheet(workpiece: &Workpiece, stamp: &Stamp) -> Sheet {
    let subject = Subject {
        notes: summary(workpiece.board(), workpiece.layout().holes.len()),
        stop: stop_line(workpiece),
        ..Subject::template(workpiece)
    };
    let mut sheet = whole_of(subject, "whole board", stamp);
    if workpiece.board().colors.on_plan {
        sheet.view.tints = tints(workpiece);
    }
    sheet
}

/// A whole subject as large as its board on one sheet, with its notes below.
pub fn whole_of(subject: Subject<'_>, label: &str, stamp: &Stamp) -> Sheet {
    let across = subject.board.blank.diameter + 2.0 * BORDER;
    let size = Size::new(across.max(LEAST_WIDTH), across + STRIP);
    let center = Point::new(size.width / 2.0, STRIP + across / 2.0);
    let mut marks = title(&subject, stamp, size);
    marks.extend(bars(size));
    let above = Point::new(BORDER, size.height - BORDER / 2.0);
    let room = size.width - 2.0 * BORDER;
    marks.extend(subject.stop.map(|line| stop_item(&line, above, room)));
    let view = View {
        window: size.to_rect(),
        page_from_board: center.to_vec2(),
        tints: Vec::new(),
        items: subject.items,
    };
    Sheet {
        size,
        label: label.into(),
        view,
        marks,
        correction: None,
    }
}

/// Kind, title and date in large letters below the board, and the notes below them.
fn title(subject: &Subject<'_>, stamp: &Stamp, size: Size) -> Vec<Item> {
    let top = Point::new(BORDER, STRIP - TITLE);
    let words = |text| Item::of_title(Line::Dimension, Shape::Text(text));
    let date = if stamp.date.is_empty() {
        String::new()
    } else {
        format!(" – {}", stamp.date)
    };
    let strong = Weight::SemiBold;
    let room = size.width - 2.0 * BORDER - font::width(&date, TITLE, strong);
    let kind = match subject.kind {
        "" => String::new(),
        kind => format!("{kind}: "),
    };
    let name = font::cut(&(kind + &subject.board.title), TITLE, strong, room);
    let heading = Text {
        weight: strong,
        ..Text::level(top, TITLE, Anchor::Start, format!("{name}{date}"))
    };
    let lines = subject.notes.iter().enumerate().map(|(at, line)| {
        let below = top - Vec2::new(0.0, 1.2 * LEADING + LEADING * at as f64);
        words(Text::level(below, WORDS, Anchor::Start, line))
    });
    std::iter::once(words(heading)).chain(lines).collect()
}

/// The vertical bar up the left border, and the horizontal one at the lower right, if the page is wide enough.
fn bars(size: Size) -> Vec<Item> {
    let upright = longest_bar(size.height - STRIP).map(|bar| bar.upright(Point::new(1.0, STRIP)));
    let beside_title = longest_bar(size.width - 2.0 * BORDER - TITLE_ROOM).map(|bar| {
        let room = Rect::from_origin_size(Point::ORIGIN, bar.room());
        bar.level(Point::new(size.width - BORDER - room.width(), BORDER / 2.0))
    });
    // A narrow page has the bar between title and board instead.
    let level = beside_title.or_else(|| {
        longest_bar(size.width - 2.0 * BORDER).map(|bar| bar.level(Point::new(BORDER, STRIP)))
    });
    upright.into_iter().chain(level).flatten().collect()
}

/// Greatest width of the longest line of the title block, mm.
const TITLE_ROOM: f64 = 160.0;

#[cfg(test)]
mod tests {
    use super::*;
    use board::Blank;
    use board::Board;

    #[test]
    fn the_page_holds_the_board_and_its_title() {
        for diameter in [150.0, 560.0] {
            let blank = Blank {
                diameter,
                thickness: 20.0,
                roundover: 3.0,
            };
            let title = "A title as long as the program lets anybody type it".repeat(2);
            let board = Board {
                title,
                blank,
                pitch: 19.0 * diameter / 640.0,
                ..Board::default()
            };
            let sheet = whole_sheet(
                &Workpiece::of(&board).unwrap(),
                &Stamp {
                    date: "2026-11-25".into(),
                },
            );
            let page = sheet.size.to_rect();
            for item in &sheet.view.items {
                let on_page = item.shape.bounds() + sheet.view.page_from_board;
                assert!(page.contains_rect(on_page), "{:?}", item.shape);
            }
            for item in &sheet.marks {
                assert!(
                    page.contains_rect(item.shape.bounds()),
                    "{:?} at {diameter}",
                    item.shape
                );
            }
        }
    }
}
