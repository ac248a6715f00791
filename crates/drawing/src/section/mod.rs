//! The section of a board on one sheet: the whole board, one bore and the storage recess, to scale, with their sizes.
//!
//! The sheet is as wide as landscape A4, or as requested, and as high as necessary. Each figure has the largest of a few scales
//! that its room allows. Sizes come from crate `workshop` and are never worked out again here.

mod bore;
mod figure;
mod frame;
mod measures;
mod pieces;
mod recess;
mod says;
mod scene;
mod spans;
mod strips;
#[cfg(test)]
mod tests;
mod whole;

use board::{Board, HoleId};
use kurbo::{Point, Rect, Shape as _, Size, Vec2};
use workshop::{
    BodyKind, Face, Section, Workpiece, bore_sizes, recess_section, recess_sizes, section,
};

use crate::font::{self, Weight};
use crate::stopped::{self, stop_item, stop_line};
use crate::{Anchor, Item, Line, Shape, Sheet, Stamp, Text};

use figure::{Drawn, Figure};

/// Default width of the sheet, mm.
const WIDTH: f64 = 297.0;
/// The narrowest sheet that has room for a bore with its sizes, mm.
const LEAST_WIDTH: f64 = 180.0;
/// White border, mm.
const BORDER: f64 = 10.0;
/// Gap between two figures, mm.
const BETWEEN: f64 = 9.0;
/// Size of the title.
const TITLE: f64 = 6.0;
/// Size of the words below it.
const WORDS: f64 = 3.2;
/// Size of the legend.
const LEGEND: f64 = 2.6;
/// Height for the title and the words below it.
const HEAD: f64 = 20.0;
/// Height for the legend.
const FOOT: f64 = 7.0;

/// The section through a hole, and across the recess where one is planned; `None` if the board has no hole with this name.
///
/// The board is cut along the ray from the center pin through the hole and, if that is not the center, straight on beyond the
/// pin. The scale of each figure is written above it; sizes on the sheet are those of the board.
///
/// ```
/// use board::Board;
/// use drawing::{Stamp, section_sheet};
/// use workshop::Workpiece;
///
/// let workpiece = Workpiece::of(&Board::default())?;
/// let first = workpiece.layout().holes[0].name.id();
/// let sheet = section_sheet(&workpiece, first, &Stamp::default()).unwrap();
/// assert_eq!(sheet.size.width, 297.0);
/// // Nothing on it is at true size, so everything is a mark.
/// assert!(sheet.view.items.is_empty() && !sheet.marks.is_empty());
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn section_sheet(workpiece: &Workpiece, hole: HoleId, stamp: &Stamp) -> Option<Sheet> {
    section_page(workpiece, hole, WIDTH, stamp)
}

/// The section on a sheet of a width, mm, but never narrower than 180 mm.
///
/// ```
/// use board::{Board, HoleId};
/// use drawing::{Stamp, section_page};
/// use workshop::Workpiece;
///
/// let workpiece = Workpiece::of(&Board::default())?;
/// let page = |hole, width| section_page(&workpiece, hole, width, &Stamp::default());
/// let first = workpiece.layout().holes[0].name.id();
/// assert_eq!(page(first, 100.0).unwrap().size.width, 180.0);
/// let nobody = first.of_player(99);
/// assert!(page(nobody, 297.0).is_none());
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn section_page(
    workpiece: &Workpiece,
    hole: HoleId,
    width: f64,
    stamp: &Stamp,
) -> Option<Sheet> {
    let (board, width) = (workpiece.board(), width.max(LEAST_WIDTH));
    let cut = section(workpiece, hole)?;
    let bore = bore_sizes(workpiece, hole)?;
    let across = recess_section(workpiece).zip(recess_sizes(workpiece));
    let mut figures = vec![
        whole::whole(board, &cut, &bore),
        bore::bore(board, &cut, &bore),
    ];
    if let Some((section, sizes)) = &across {
        figures.push(recess::recess(board, section, sizes));
    }
    let name = bore.hole.name.to_string();
    let through = match across {
        Some(_) => format!("Section: cut through {name} and the recess"),
        None => format!("Section: cut through {name}"),
    };
    let named = (through.as_str(), format!("section {name}"));
    let sheet = sheet(board, &figures, named, width, stamp);
    Some(match stop_line(workpiece) {
        Some(line) => below(&line, sheet),
        None => sheet,
    })
}

/// A sheet with a line above everything, on paper that is higher by as much.
fn below(line: &str, sheet: Sheet) -> Sheet {
    let Size { width, height } = sheet.size;
    let above = Point::new(BORDER, height - BORDER + stopped::SIZE / 2.0);
    let mut marks = sheet.marks;
    marks.push(stop_item(line, above, width - 2.0 * BORDER));
    let size = Size::new(width, height + 2.0 * stopped::SIZE);
    Sheet::of_marks(size, sheet.label, marks)
}

/// The figures below each other, with two side by side where that makes neither smaller.
fn sheet(
    board: &Board,
    figures: &[Figure<'_>],
    (through, label): (&str, String),
    width: f64,
    stamp: &Stamp,
) -> Sheet {
    let room = width - 2.0 * BORDER;
    let rows = rows(figures, room);
    let between = BETWEEN * (rows.len().saturating_sub(1)) as f64;
    let high: f64 = rows.iter().map(Row::height).sum();
    let size = Size::new(width, 2.0 * BORDER + HEAD + high + between + FOOT);
    let mut marks = title(board, through, size, stamp);
    let mut top = size.height - BORDER - HEAD;
    for row in rows {
        let height = row.height();
        marks.extend(row.placed(room, top));
        top -= height + BETWEEN;
    }
    marks.push(words(
        Point::new(BORDER, BORDER),
        LEGEND,
        Weight::Regular,
        font::cut(LEGEND_WORDS, LEGEND, Weight::Regular, room),
    ));
    Sheet::of_marks(size, label, marks)
}

const LEGEND_WORDS: &str = "Hatched: cut wood, the lid the other way. Gray: resin. White: pieces, inserts, \
     the base. Each figure is to its own scale; go by the sizes written.";

/// The board's name and the hole that the section passes through, above all figures.
fn title(board: &Board, through: &str, size: Size, stamp: &Stamp) -> Vec<Item> {
    let top = Point::new(BORDER, size.height - BORDER - TITLE);
    let date = if stamp.date.is_empty() {
        String::new()
    } else {
        format!(" – {}", stamp.date)
    };
    let strong = Weight::SemiBold;
    let room = size.width - 2.0 * BORDER;
    let left = room - font::width(&date, TITLE, strong);
    let name = font::cut(&board.title, TITLE, strong, left);
    let below = top - Vec2::new(0.0, 1.9 * WORDS);
    let through = font::cut(through, WORDS, Weight::Regular, room);
    vec![
        words(top, TITLE, strong, format!("{name}{date}")),
        words(below, WORDS, Weight::Regular, through),
    ]
}

/// A line of words on the sheet.
fn words(at: Point, size: f64, weight: Weight, line: String) -> Item {
    Item::of_title(
        Line::Dimension,
        Shape::Text(Text::level(at, size, Anchor::Start, line).weighing(weight)),
    )
}

/// Figures side by side.
struct Row(Vec<Drawn>);

impl Row {
    /// Height of its highest figure, mm on paper.
    fn height(&self) -> f64 {
        let heights = self.0.iter().map(|drawn| drawn.bounds.height());
        heights.fold(0.0, f64::max)
    }

    /// The drawing with its upper end at a height of the sheet, and the spare width distributed.
    fn placed(self, room: f64, top: f64) -> Vec<Item> {
        let widths: f64 = self.0.iter().map(|drawn| drawn.bounds.width()).sum();
        let spare = (room - widths).max(0.0) / self.0.len().max(1) as f64;
        let mut left = BORDER;
        let mut items = Vec::new();
        for drawn in self.0 {
            let to = Point::new(left, top);
            let by = to - Point::new(drawn.bounds.x0, drawn.bounds.y1);
            left += drawn.bounds.width() + spare;
            items.extend(drawn.items.into_iter().map(|item| item.moved(by)));
        }
        items
    }
}

/// The figures in rows, as many side by side as the width has room for.
///
/// A figure goes beside the one before only if that does not reduce its scale: readability matters more than paper.
fn rows(figures: &[Figure<'_>], room: f64) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    let mut left = 0.0;
    for figure in figures {
        let free = left - BETWEEN;
        let (_, alone) = figure.scale(room);
        let fits = free > 0.0 && figure.scale(free).1 >= alone;
        let drawn = figure.drawn(if fits { free } else { room });
        let wide = drawn.bounds.width();
        let beside = rows.last_mut().filter(|_| fits && wide <= free);
        if let Some(row) = beside {
            row.0.push(drawn);
            left -= wide + BETWEEN;
        } else {
            rows.push(Row(vec![drawn]));
            left = room - wide;
        }
    }
    rows
}

/// The box around corners.
fn around(corners: &[Point]) -> Rect {
    let first = corners.first().copied().unwrap_or_default();
    let start = Rect::from_points(first, first);
    corners
        .iter()
        .fold(start, |all, corner| all.union_pt(*corner))
}

/// The box around a body.
fn bounds_of(face: &Face) -> Rect {
    match face {
        Face::Disc(circle) => circle.bounding_box(),
        Face::Corners(corners) => around(corners),
    }
}

/// The box around the things of one kind in a hole.
fn body_of(section: &Section, kind: BodyKind, hole: HoleId) -> Option<Rect> {
    let of_hole = section
        .bodies
        .iter()
        .filter(|body| body.kind == kind && body.hole.is_some_and(|name| name.id() == hole));
    let boxes = of_hole.map(|body| bounds_of(&body.face));
    boxes.reduce(|all, bounds| all.union(bounds))
}

/// Height of the highest thing set into the holes, at least the top face.
fn top(section: &Section) -> f64 {
    let bodies = section.bodies.iter();
    let set_in = bodies.filter(|body| body.kind == BodyKind::Insert);
    let tops = set_in.map(|body| bounds_of(&body.face).y1);
    tops.fold(0.0, f64::max)
}
