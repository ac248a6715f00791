//! The words and the key map of a tiled sheet, laid into its quietest corners.
//!
//! Nothing here has a fixed place, as any corner may be full of holes: label, words and map keep together in one block, and that goes
//! where it covers the least. On paper that is too small for the words the label alone is left.

use board::{Board, Choice, Units, show_length, show_setting};
use geometry::Arc;
use kurbo::{Circle, Line as Segment, Point, Rect, Size, Vec2};

use crate::font::{self, Weight};
use crate::template::subject::Subject;
use workshop::{Correction, Tile, Tiling};

use crate::{Anchor, Item, Layer, Line, Shape, Stamp, Text, corners_of};

/// Sizes of type, mm: the label, the words, and what kind of template it is.
const LABEL: f64 = 8.0;
const WORDS: f64 = 2.4;
const KIND: f64 = 3.2;
/// From one line down to the next, mm.
const LEADING: f64 = 3.8;
/// Lines beside the key map.
const LINES: usize = 6;
/// Side of the key map.
const MAP: f64 = 33.0;

/// The room that label, words and key map take, without lines below.
const ROOM: Size = Size::new(80.0, 34.0);
/// The room they take where paper is too small for the words.
pub const SMALL_ROOM: Size = Size::new(24.0, 10.0);
/// Room to spare for the first of the lines below, mm.
const SPARE: f64 = 2.4;

/// The room that label, words and key map of a sheet take.
pub fn room(subject: &Subject<'_>, tiling: &Tiling) -> Size {
    match foot(subject, tiling).len() {
        0 => ROOM,
        lines => ROOM + Size::new(0.0, LEADING * lines as f64 - SPARE),
    }
}

/// Whether a line at the foot of the block is told in full.
pub fn fits(line: &str) -> bool {
    font::width(line, WORDS, Weight::Regular) <= ROOM.width
}

/// The sheet's label, what it is part of, how to print and join it, and the key map, in a block.
pub fn title_block(
    subject: &Subject<'_>,
    tiling: &Tiling,
    tile: &Tile,
    stamp: &Stamp,
    block: Rect,
) -> Vec<Item> {
    let mut items = label(tile, Point::new(block.x0, block.y1 - LABEL));
    if block.height() < ROOM.height {
        return items;
    }
    items.extend(kind(subject, tile, block));
    let top = Point::new(block.x0, block.y1 - LABEL - LEADING);
    let line = |at: usize, line: &str, room: f64| {
        let below = Vec2::new(0.0, LEADING * at as f64);
        words(top - below, font::cut(line, WORDS, Weight::Regular, room))
    };
    let beside = block.width() - MAP - 3.0;
    let lines = lines(subject, tiling, tile, stamp);
    items.extend((0..).zip(&lines).map(|(at, words)| line(at, words, beside)));
    let foot = foot(subject, tiling);
    let below = (LINES..).zip(&foot);
    items.extend(below.map(|(at, words)| line(at, words, block.width())));
    // The first line at the foot takes what the block has to spare, and air above it.
    let low = if foot.is_empty() {
        MAP
    } else {
        MAP - SPARE / 2.0
    };
    let corner = Point::new(block.x1 - MAP, block.y1 - low);
    let map = Rect::from_points(corner, Point::new(block.x1 - 1.0, block.y1 - 1.0));
    items.extend(key_map(subject, tiling, tile, map));
    items
}

/// The kind of sheet, beside its label.
fn kind(subject: &Subject<'_>, tile: &Tile, block: Rect) -> Option<Item> {
    let strong = Weight::SemiBold;
    let beside = font::width(&tile.label(), LABEL, strong) + 2.5;
    let room = block.width() - MAP - 1.0 - beside;
    let at = Point::new(block.x0 + beside, block.y1 - LABEL);
    let kind = font::cut(subject.kind, KIND, strong, room);
    let text = Text {
        weight: strong,
        ..Text::level(at, KIND, Anchor::Start, kind)
    };
    (!subject.kind.is_empty()).then(|| mark(Line::Dimension, Shape::Text(text)))
}

/// The lines beside the key map.
fn lines(subject: &Subject<'_>, tiling: &Tiling, tile: &Tile, stamp: &Stamp) -> [String; LINES] {
    let place = tiling
        .tiles
        .iter()
        .position(|other| other == tile)
        .map_or(0, |at| at + 1);
    [
        format!("row {}, column {}", tile.row + 1, tile.column + 1),
        format!(
            "sheet {place} of {}, {}",
            tiling.tiles.len(),
            subject.board.template.paper.words()
        ),
        subject.board.title.clone(),
        stamp.date.clone(),
        "Print at 100 %; measure the bars.".into(),
        joining(tiling).into(),
    ]
}

/// The lines at the foot of the block: what is to be set, and what the printer's correction is.
fn foot(subject: &Subject<'_>, tiling: &Tiling) -> Vec<String> {
    let correction = tiling.correction.iter().flat_map(Correction::words);
    subject.notes.iter().cloned().chain(correction).collect()
}

/// The order of assembly.
fn joining(tiling: &Tiling) -> &'static str {
    match (tiling.columns, tiling.rows) {
        (1, 1) => "All of it is on this sheet.",
        (1, _) => "Join from the top, cross on cross.",
        (_, 1) => "Join from the left, cross on cross.",
        _ => "Join rows from the left, then the rows.",
    }
}

/// The sheet's label, large enough to be read from the other side of a bench.
fn label(tile: &Tile, at: Point) -> Vec<Item> {
    let text = Text {
        weight: Weight::SemiBold,
        ..Text::level(at, LABEL, Anchor::Start, tile.label())
    };
    vec![mark(Line::Dimension, Shape::Text(text))]
}

/// A line of words that begins at a point of the page.
fn words(at: Point, line: String) -> Item {
    mark(
        Line::Dimension,
        Shape::Text(Text::level(at, WORDS, Anchor::Start, line)),
    )
}

/// A part of the furniture.
fn mark(line: Line, shape: Shape) -> Item {
    Item {
        layer: Layer::Marks,
        line,
        shape,
    }
}

/// The whole grid, small, with the outline and this sheet filled.
///
/// Windows of neighbors overlap; each is drawn smaller by half of that on each side, so that the map looks like the sheets
/// once they are joined.
fn key_map(subject: &Subject<'_>, tiling: &Tiling, tile: &Tile, map: Rect) -> Vec<Item> {
    let all = tiling
        .tiles
        .iter()
        .map(|tile| tile.window)
        .reduce(|a, b| a.union(b))
        .unwrap_or(tile.window);
    let scale = (map.width() / all.width()).min(map.height() / all.height());
    let to_map = |point: Point| map.center() + (point - all.center()) * scale;
    let corners = |area: Rect| corners_of(area).map(to_map);
    let mut items = vec![mark(
        Line::Guide,
        Shape::Area(corners(tile.window).to_vec()),
    )];
    for other in &tiling.tiles {
        let [a, b, c, d] = corners(other.window.inset(-tiling.overlap / 2.0));
        items.extend(
            [(a, b), (b, c), (c, d), (d, a)]
                .map(|(from, to)| mark(Line::Dimension, Shape::Line(Segment::new(from, to)))),
        );
        let middle = to_map(other.window.center()) - Vec2::new(0.0, 0.8);
        items.push(mark(
            Line::Dimension,
            Shape::Text(Text::level(middle, 2.2, Anchor::Middle, other.label())),
        ));
    }
    // A map of a part only has no outline to show.
    let shapes = subject.outline.iter();
    if shapes
        .clone()
        .all(|shape| all.contains_rect(shape.bounds()))
    {
        items.extend(
            shapes
                .filter_map(|shape| small(shape, scale, &to_map))
                .map(|shape| mark(Line::Cut, shape)),
        );
    }
    items
}

/// A line of the outline on the map.
fn small(shape: &Shape, scale: f64, to_map: &impl Fn(Point) -> Point) -> Option<Shape> {
    match shape {
        Shape::Circle(circle) => Some(Shape::Circle(Circle::new(
            to_map(circle.center),
            circle.radius * scale,
        ))),
        Shape::Arc(arc) => Some(Shape::Arc(Arc {
            center: to_map(arc.center),
            radius: arc.radius * scale,
            ..*arc
        })),
        Shape::Line(line) => Some(Shape::Line(Segment::new(to_map(line.p0), to_map(line.p1)))),
        Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => None,
    }
}

/// A board's main numbers, as lines of words.
pub fn summary(board: &Board, holes: usize) -> Vec<String> {
    let length = |mm| show_length(mm, board.units);
    vec![
        format!(
            "{} players, {} spaces, {} home and {} start holes each; {holes} holes in all",
            board.players, board.spaces, board.home, board.start
        ),
        format!(
            "Pitch {}, board Ø {}, thickness {}, roundover {}",
            length(board.pitch),
            length(board.blank.diameter),
            length(board.blank.thickness),
            length(board.blank.roundover)
        ),
        bores(board),
        true_size(board),
    ]
}

/// The words below a drawing of the whole.
pub fn true_size(board: &Board) -> String {
    let unit = match board.units {
        Units::Mm => "millimeters",
        Units::Inch(_) => "inches",
    };
    format!("Lengths in {unit}; drawn at true size. Measure the bars before drilling.")
}

/// Diameter and depth of the bores: once where all roles have the same, else for each.
fn bores(board: &Board) -> String {
    let bore = |bore: board::Bore| {
        format!(
            "Ø {} × {} deep",
            show_setting(bore.diameter, board.units),
            show_setting(bore.depth, board.units)
        )
    };
    let roles = board.bores;
    if roles.track == roles.home && roles.track == roles.start {
        return format!(
            "Bores {}, {}",
            bore(roles.track),
            roles.track.bottom.label()
        );
    }
    format!(
        "Bores: track {}; home {}; start {}",
        bore(roles.track),
        bore(roles.home),
        bore(roles.start)
    )
}
