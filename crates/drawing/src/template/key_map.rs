//! The key map of a tiled sheet: the whole grid, small, with the outline and this sheet filled.
//!
//! Windows of neighbors overlap; each is drawn smaller by half of the overlap on each side, so that the map looks like the
//! joined sheets. The outline is interrupted at the labels.

use std::collections::BTreeSet;

use geometry::Arc;
use kurbo::{Circle, Line as Segment, Point, Rect, Size, Vec2};
use workshop::{Tile, Tiling};

use crate::font::{self, Weight};
use crate::template::subject::Subject;
use crate::{Anchor, Item, Layer, Line, Shape, Text, corners_of};

/// Size of the labels, mm.
const LETTER: f64 = 2.2;
/// Gap around a label, mm.
const AIR: f64 = 0.4;
/// Step in which the outline is interrupted at labels, mm.
const STEP: f64 = 0.2;

/// A key map with its lower left corner at the origin.
pub struct KeyMap {
    /// Width and height, mm.
    pub size: Size,
    /// Its lines and labels.
    pub items: Vec<Item>,
}

/// The labels of the sheets on a map.
#[derive(Clone, Copy, PartialEq)]
enum Labels {
    /// A label on each sheet.
    Each,
    /// Letters above the columns and numbers beside the rows.
    Ends,
    /// No labels: this sheet is filled, and its label is beside the map.
    Bare,
}

impl KeyMap {
    /// The map of a tiling that fits into a room, with as many labels as there is room for.
    ///
    /// A map of many sheets has cells too small for their labels. It has letters above and numbers beside it instead, like a
    /// street map; where even those have no room, only the filled cell shows where the sheet belongs.
    pub fn of(subject: &Subject<'_>, tiling: &Tiling, tile: &Tile, room: Size) -> Self {
        let windows = tiling.tiles.iter().map(|tile| tile.window);
        let all = windows.reduce(|a, b| a.union(b)).unwrap_or(tile.window);
        let kinds = [Labels::Each, Labels::Ends, Labels::Bare];
        let drawn = |labels| Drawing::of(tiling, tile, all, room, labels);
        let fitting = kinds.into_iter().map(drawn).find(Drawing::fits);
        let drawing = fitting.unwrap_or_else(|| drawn(Labels::Bare));
        Self {
            size: drawing.size(),
            items: drawing.items(subject),
        }
    }
}

/// A map being drawn.
struct Drawing<'a> {
    /// All the sheets.
    tiling: &'a Tiling,
    /// The sheet that the map is on.
    tile: &'a Tile,
    /// The area that the sheets show, in the board frame.
    all: Rect,
    /// Millimeters on the map per millimeter of the board.
    scale: f64,
    /// The kind of labels.
    labels: Labels,
    /// Room at the left and above the grid for numbers and letters.
    ends: Size,
}

impl<'a> Drawing<'a> {
    /// The map as large as a room allows, with room for its labels at the ends.
    fn of(tiling: &'a Tiling, tile: &'a Tile, all: Rect, room: Size, labels: Labels) -> Self {
        let ends = match labels {
            Labels::Ends => {
                let number = width(&tiling.rows.to_string());
                Size::new(number + AIR, font::FIGURE_HEIGHT * LETTER + AIR)
            }
            Labels::Each | Labels::Bare => Size::ZERO,
        };
        let across = (room.width - ends.width) / all.width();
        let up = (room.height - ends.height) / all.height();
        Self {
            tiling,
            tile,
            all,
            scale: across.min(up).max(0.0),
            labels,
            ends,
        }
    }

    /// Whether every label has room in its place.
    fn fits(&self) -> bool {
        let cell = self.tile.window.inset(-self.tiling.overlap / 2.0).size() * self.scale;
        let widest = |of: fn(&Tile) -> String| {
            let widths = self.tiling.tiles.iter().map(|tile| width(&of(tile)));
            widths.fold(0.0, f64::max)
        };
        let wide = match self.labels {
            Labels::Each => widest(Tile::label),
            Labels::Ends => widest(Tile::column_letters),
            Labels::Bare => return true,
        };
        let high = font::FIGURE_HEIGHT * LETTER;
        cell.width >= wide + 2.0 * AIR && cell.height >= high + 2.0 * AIR
    }

    /// Width and height of grid and labels, mm.
    fn size(&self) -> Size {
        self.all.size() * self.scale + self.ends
    }

    /// The point on the map of a point of the board.
    fn at(&self, point: Point) -> Point {
        Point::new(self.ends.width, 0.0) + (point - self.all.origin()) * self.scale
    }

    /// Labels, grid and outline, with this sheet filled.
    fn items(&self, subject: &Subject<'_>) -> Vec<Item> {
        let filled = corners_of(self.tile.window).map(|corner| self.at(corner));
        let mut items = vec![mark(Line::Guide, Shape::Area(filled.to_vec()))];
        let grid = self.grid().into_iter().map(Shape::Line);
        items.extend(grid.map(|line| mark(Line::Dimension, line)));
        let labels = self.written();
        let air: Vec<Rect> = labels
            .iter()
            .map(|text| text.bounds().inflate(AIR, AIR))
            .collect();
        // A map of only a part has no outline to show.
        let area = self.all.inflate(1e-6, 1e-6);
        let shown = |shape: &&Shape| area.intersect(shape.bounds()).area() > 0.0;
        let frame = Rect::from_points(
            self.at(self.all.origin()),
            self.at(Point::new(self.all.x1, self.all.y1)),
        );
        for shape in subject.outline.iter().filter(shown) {
            let small = self.small(shape);
            let pieces = small
                .into_iter()
                .flat_map(|shape| broken(&shape, &air, frame));
            items.extend(pieces.map(|shape| mark(Line::Cut, shape)));
        }
        items.extend(
            labels
                .into_iter()
                .map(|text| mark(Line::Dimension, Shape::Text(text))),
        );
        items
    }

    /// The lines between the sheets and around them, each drawn once, along the sheets beside it.
    fn grid(&self) -> Vec<Segment> {
        let (columns, rows) = (self.tiling.columns, self.tiling.rows);
        let mut low = vec![Point::ORIGIN; columns.max(rows) as usize + 1];
        let mut there = BTreeSet::new();
        for tile in &self.tiling.tiles {
            let cell = tile.window.inset(-self.tiling.overlap / 2.0);
            let (from, to) = (
                self.at(cell.origin()),
                self.at(Point::new(cell.x1, cell.y1)),
            );
            let (column, row) = (tile.column as usize, tile.row as usize);
            // Rows are counted from the top.
            (low[column].x, low[column + 1].x) = (from.x, to.x);
            (low[row].y, low[row + 1].y) = (to.y, from.y);
            there.insert((tile.column, tile.row));
        }
        let is_there = |column: Option<u32>, row: Option<u32>| {
            column.zip(row).is_some_and(|place| there.contains(&place))
        };
        let level = (0..=rows).flat_map(|row| {
            let beside =
                |at| is_there(Some(at), Some(row)) || is_there(Some(at), row.checked_sub(1));
            runs(columns, beside).into_iter().map(move |run| (row, run))
        });
        let level = level.map(|(row, (from, to))| {
            let [y, x0, x1] = [low[row as usize].y, low[from].x, low[to].x];
            Segment::new((x0, y), (x1, y))
        });
        let upright = (0..=columns).flat_map(|column| {
            let beside =
                |at| is_there(Some(column), Some(at)) || is_there(column.checked_sub(1), Some(at));
            runs(rows, beside).into_iter().map(move |run| (column, run))
        });
        let upright = upright.map(|(column, (from, to))| {
            let [x, y0, y1] = [low[column as usize].x, low[from].y, low[to].y];
            Segment::new((x, y0), (x, y1))
        });
        level.chain(upright).collect()
    }

    /// The labels in their places: centered on the sheets, or at the ends of rows and columns.
    fn written(&self) -> Vec<Text> {
        let down = Vec2::new(0.0, font::FIGURE_HEIGHT * LETTER / 2.0);
        let text = |at: Point, anchor, words: String| Text::level(at - down, LETTER, anchor, words);
        let tiles = &self.tiling.tiles;
        match self.labels {
            Labels::Bare => Vec::new(),
            Labels::Each => {
                let each =
                    |tile: &Tile| text(self.at(tile.window.center()), Anchor::Middle, tile.label());
                tiles.iter().map(each).collect()
            }
            Labels::Ends => {
                let top = self.all.height() * self.scale + self.ends.height / 2.0;
                let column = |at: u32| tiles.iter().find(|tile| tile.column == at);
                let row = |at: u32| tiles.iter().find(|tile| tile.row == at);
                let letters = (0..self.tiling.columns).filter_map(column).map(|tile| {
                    let at = Point::new(self.at(tile.window.center()).x, top);
                    text(at, Anchor::Middle, tile.column_letters())
                });
                let numbers = (0..self.tiling.rows).filter_map(row).map(|tile| {
                    let at = Point::new(self.ends.width - AIR, self.at(tile.window.center()).y);
                    text(at, Anchor::End, (tile.row + 1).to_string())
                });
                letters.chain(numbers).collect()
            }
        }
    }

    /// A line of the outline on the map.
    fn small(&self, shape: &Shape) -> Option<Shape> {
        match shape {
            Shape::Circle(circle) => Some(Shape::Circle(Circle::new(
                self.at(circle.center),
                circle.radius * self.scale,
            ))),
            Shape::Arc(arc) => Some(Shape::Arc(Arc {
                center: self.at(arc.center),
                radius: arc.radius * self.scale,
                ..*arc
            })),
            Shape::Line(line) => Some(Shape::Line(Segment::new(
                self.at(line.p0),
                self.at(line.p1),
            ))),
            Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => None,
        }
    }
}

/// The pieces of a line that are outside some boxes and inside a frame; the line unchanged where it is clear.
///
/// Pieces stay arcs and lines. Their ends are found in steps, as a fifth of a millimeter does not show in a gap.
fn broken(shape: &Shape, boxes: &[Rect], frame: Rect) -> Vec<Shape> {
    let frame = frame.inflate(1e-6, 1e-6);
    let is_free = |at: Point| frame.contains(at) && !boxes.iter().any(|area| area.contains(at));
    let runs = |length: f64, at: &dyn Fn(f64) -> Point| {
        let count = (length / STEP).ceil().max(1.0);
        let mut runs: Vec<(f64, f64)> = Vec::new();
        for step in 0..count as u32 {
            let [from, middle, to] = [0.0, 0.5, 1.0].map(|by| (f64::from(step) + by) / count);
            if ![from, middle, to]
                .into_iter()
                .all(|share| is_free(at(share)))
            {
                continue;
            }
            match runs.last_mut() {
                Some(last) if (last.1 - from).abs() < 1e-9 => last.1 = to,
                _ => runs.push((from, to)),
            }
        }
        runs
    };
    let of_arc = |arc: &Arc| {
        let piece = |(from, to): (f64, f64)| Arc {
            start: arc.start + arc.sweep * from,
            sweep: arc.sweep * (to - from),
            ..*arc
        };
        let runs = runs(arc.length(), &|share| arc.at(share));
        runs.into_iter()
            .map(piece)
            .map(Shape::Arc)
            .collect::<Vec<_>>()
    };
    match shape {
        Shape::Circle(circle) => match of_arc(&Arc::from(*circle)).as_slice() {
            [Shape::Arc(only)] if only.sweep.as_degrees().abs() > 359.9 => vec![shape.clone()],
            pieces => pieces.to_vec(),
        },
        Shape::Arc(arc) => of_arc(arc),
        Shape::Line(line) => {
            let at = |share: f64| line.p0.lerp(line.p1, share);
            let runs = runs((line.p1 - line.p0).length(), &at);
            let piece = |(from, to)| Shape::Line(Segment::new(at(from), at(to)));
            runs.into_iter().map(piece).collect()
        }
        Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => Vec::new(),
    }
}

/// The runs of consecutive indices at which something is there, each from its first index to the one after its last.
fn runs(count: u32, is_there: impl Fn(u32) -> bool) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for at in (0..count).filter(|at| is_there(*at)) {
        let at = at as usize;
        match runs.last_mut() {
            Some((_, end)) if *end == at => *end = at + 1,
            _ => runs.push((at, at + 1)),
        }
    }
    runs
}

/// Width of a label, mm.
fn width(words: &str) -> f64 {
    font::width(words, LETTER, Weight::Regular)
}

/// A part of the map.
fn mark(line: Line, shape: Shape) -> Item {
    Item {
        layer: Layer::Marks,
        line,
        shape,
    }
}
