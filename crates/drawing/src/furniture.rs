//! The words and the key map of a tiled sheet, laid into its quietest corners.

use board::{Board, Units, show_length};
use kurbo::{Circle, Line as Segment, Point, Rect, Size, Vec2};

use crate::font::{self, Weight};
use crate::tiling::Tile;
use crate::{Anchor, Correction, Item, Layer, Line, Shape, Stamp, Text, Tiling, paper_name};

const LABEL: f64 = 8.0;
const WORDS: f64 = 2.4;
const LEADING: f64 = 3.8;
/// Side of the key map.
const MAP: f64 = 33.0;

/// The room that label, words and key map take, without the correction.
const ROOM: Size = Size::new(80.0, 34.0);
/// The room they take where paper is too small for the words.
pub const SMALL_ROOM: Size = Size::new(24.0, 10.0);

/// The room that label, words and key map of a sheet take.
pub fn room(tiling: &Tiling) -> Size {
    let lines = tiling.correction.as_ref().map_or(0, |_| 2);
    ROOM + Size::new(0.0, LEADING * f64::from(lines))
}

/// The sheet's label, what it is part of, how to print and join it, and the key map, in a block.
pub fn title_block(
    board: &Board,
    tiling: &Tiling,
    tile: &Tile,
    stamp: &Stamp,
    block: Rect,
) -> Vec<Item> {
    let mut items = label(tile, Point::new(block.x0, block.y1 - LABEL));
    if block.height() < ROOM.height {
        return items;
    }
    let place = tiling
        .tiles
        .iter()
        .position(|other| other == tile)
        .map_or(0, |at| at + 1);
    let lines = [
        format!("row {}, column {}", tile.row + 1, tile.column + 1),
        format!(
            "sheet {place} of {}, {}",
            tiling.tiles.len(),
            paper_name(board.template.paper)
        ),
        board.title.clone(),
        stamp.date.clone(),
        "Print at 100 %; measure the bars.".into(),
        joining(tiling).into(),
    ];
    let room = block.width() - MAP - 3.0;
    let top = Point::new(block.x0, block.y1 - LABEL - LEADING);
    items.extend(lines.into_iter().enumerate().map(|(at, line)| {
        words(
            top - Vec2::new(0.0, LEADING * at as f64),
            font::cut(&line, WORDS, Weight::Regular, room),
        )
    }));
    let mut low = block.y0;
    if let Some(correction) = &tiling.correction {
        items.extend(corrected(correction, block));
        low += 2.0 * LEADING;
    }
    let map = Rect::new(block.x1 - MAP, low + 1.0, block.x1 - 1.0, block.y1 - 1.0);
    items.extend(key_map(board, tiling, tile, map));
    items
}

/// What the printer's correction is, in two lines at the foot of the block.
fn corrected(correction: &Correction, block: Rect) -> [Item; 2] {
    let [first, second] = correction.words();
    let line = |line: String, above: f64| {
        let at = Point::new(block.x0, block.y0 + above);
        words(at, font::cut(&line, WORDS, Weight::Regular, block.width()))
    };
    [line(first, 1.0 + LEADING), line(second, 1.0)]
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

fn label(tile: &Tile, at: Point) -> Vec<Item> {
    let text = Text {
        weight: Weight::SemiBold,
        ..Text::level(at, LABEL, Anchor::Start, tile.label())
    };
    vec![mark(Line::Dimension, Shape::Text(text))]
}

fn words(at: Point, line: String) -> Item {
    mark(
        Line::Dimension,
        Shape::Text(Text::level(at, WORDS, Anchor::Start, line)),
    )
}

fn mark(line: Line, shape: Shape) -> Item {
    Item {
        layer: Layer::Marks,
        line,
        shape,
    }
}

/// The whole grid, small, with the board's edge and this sheet filled.
fn key_map(board: &Board, tiling: &Tiling, tile: &Tile, map: Rect) -> Vec<Item> {
    let all = tiling
        .tiles
        .iter()
        .map(|tile| tile.window)
        .reduce(|a, b| a.union(b))
        .unwrap_or(tile.window);
    let scale = (map.width() / all.width()).min(map.height() / all.height());
    let to_map = |point: Point| map.center() + (point - all.center()) * scale;
    let corners = |area: Rect| {
        [
            (area.x0, area.y0),
            (area.x1, area.y0),
            (area.x1, area.y1),
            (area.x0, area.y1),
        ]
        .map(|corner| to_map(corner.into()))
    };
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
    // A map of a part of the board only has no edge to show.
    let side = board.blank.diameter;
    if all.contains_rect(Rect::from_center_size(Point::ORIGIN, (side, side))) {
        let edge = Circle::new(to_map(Point::ORIGIN), board.blank.radius() * scale);
        items.push(mark(Line::Cut, Shape::Circle(edge)));
    }
    items
}

/// A board's main numbers, as lines of words.
pub fn summary(board: &Board, holes: usize) -> Vec<String> {
    let length = |mm| show_length(mm, board.units);
    let unit = match board.units {
        Units::Mm => "millimeters",
        Units::Inch => "inches",
    };
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
        format!("Lengths in {unit}; drawn at true size. Measure the bars before drilling."),
    ]
}

fn bores(board: &Board) -> String {
    let bore = |bore: board::Bore| {
        format!(
            "Ø {} × {} deep",
            show_length(bore.diameter, board.units),
            show_length(bore.depth, board.units)
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
