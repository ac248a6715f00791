//! A board of a filling plan: the number of the batch in every bore.
//!
//! The board is drawn as large as the page allows and not to scale, so everything on it is a mark of the sheet, and no writer
//! takes it for something to drill.

use std::collections::BTreeMap;

use board::{Board, Hole, HoleId, Layout};
use geometry::point_at;
use kurbo::{Circle, Line as Segment, Point, Size, Vec2};

use crate::filling::Says;
use crate::font::{self, Weight};
use crate::marks::layer;
use crate::stopped::stop_item;
use crate::{Anchor, Item, Layer, Line, Shape, Sheet, Text};

/// Room above the board on the page of a plan, mm.
const HEAD: f64 = 18.0;
/// Room around it for the numbers of the sectors, mm.
const AROUND: f64 = 7.0;
/// Size of the title.
const TITLE: f64 = 5.0;
/// Size of plain words.
const WORDS: f64 = 3.0;
/// Length of the line between two sectors, mm; outside the board, so that it keeps clear of the numbers.
const BORDER: f64 = 5.0;
/// Largest size of a number in a bore.
const NUMBER: f64 = 3.2;

impl Says<'_> {
    /// A board as large as the page has room for, with the number of the batch in each bore.
    ///
    /// With several boards each has a page of its own, counted from 1, as a batch may end in the middle of one.
    pub(super) fn plan(&self, layout: &Layout, paper: Size, number: u32) -> Sheet {
        let margin = self.board.template.margin;
        let room = (paper.width.min(paper.height - HEAD) / 2.0 - margin - AROUND).max(1.0);
        let page = Page {
            scale: room / self.board.blank.radius(),
            middle: Point::new(paper.width / 2.0, (paper.height - HEAD) / 2.0),
        };
        let mut marks = self.title(paper, number);
        let below = Point::new(margin, paper.height - margin - TITLE - 3.0 * WORDS);
        let stop = self.stop.as_deref();
        marks.extend(stop.map(|line| stop_item(line, below, paper.width - 2.0 * margin)));
        marks.extend(page.frame(self.board, layout));
        let batches = self.numbers(number);
        for hole in &layout.holes {
            let batch = batches.get(&hole.name.id()).copied();
            marks.extend(page.bore(hole, batch));
        }
        Sheet::of_marks(paper, format!("filling plan, board {number}"), marks)
    }

    /// The number of the board among all, and what the numbers mean.
    fn title(&self, paper: Size, number: u32) -> Vec<Item> {
        let margin = self.board.template.margin;
        let room = paper.width - 2.0 * margin;
        let of = match self.pour.boards {
            1 => String::new(),
            boards => format!(", board {number} of {boards}"),
        };
        let line = |down: f64, size, weight, words: &str| {
            words_at(
                Text::level(
                    Point::new(margin, paper.height - margin - down),
                    size,
                    Anchor::Start,
                    font::cut(words, size, weight, room),
                )
                .weighing(weight),
            )
        };
        let title = format!("Filling plan{of}: {}", self.board.title);
        let about = "Each hole carries the number of its batch, each sector that of its player; not to scale for drilling.";
        vec![
            line(TITLE, TITLE, Weight::SemiBold, &title),
            line(TITLE + 1.6 * WORDS, WORDS, Weight::Regular, about),
        ]
    }

    /// The batch of each bore of a board, numbered from 1 in mixing order; bores without resin are left out.
    fn numbers(&self, board: u32) -> BTreeMap<HoleId, u32> {
        let batches = self.pour.batches.iter().zip(1..);
        let all = batches.flat_map(|(batch, number)| {
            let bores = self.pour.bores_of(batch);
            bores.map(move |(of, bore)| (of, bore.name.id(), number))
        });
        let of_board = all.filter(|(of, ..)| *of == board);
        of_board.map(|(_, id, number)| (id, number)).collect()
    }
}

/// The position and scale of the board on a page.
struct Page {
    /// Millimeters on the page per millimeter of the board.
    scale: f64,
    /// The center pin on the page.
    middle: Point,
}

impl Page {
    /// The point on the page of a point of the board.
    fn at(&self, point: Point) -> Point {
        self.middle + point.to_vec2() * self.scale
    }

    /// Edge, borders between sectors, and the numbers of the sectors.
    fn frame(&self, board: &Board, layout: &Layout) -> Vec<Item> {
        let radius = board.blank.radius();
        let mut items = vec![Item {
            layer: Layer::Edge,
            line: Line::Cut,
            shape: Shape::Circle(Circle::new(self.middle, radius * self.scale)),
        }];
        let half = geometry::Angle::degrees(180.0 / f64::from(board.players));
        for (sector, number) in layout.sectors.iter().zip(1..) {
            let border =
                |beyond: f64| self.at(point_at(radius + beyond / self.scale, sector.axis() + half));
            items.push(Item {
                layer: Layer::Guides,
                line: Line::Guide,
                shape: Shape::Line(Segment::new(border(0.0), border(BORDER))),
            });
            let outside = radius + AROUND / 2.0 / self.scale;
            let at = self.at(point_at(outside, sector.axis()));
            items.push(words_at(Text {
                weight: Weight::SemiBold,
                ..centered(at, WORDS, number)
            }));
        }
        items
    }

    /// A bore, with the number of its batch if it is filled.
    fn bore(&self, hole: &Hole, batch: Option<u32>) -> Vec<Item> {
        let (at, radius) = (self.at(hole.center), hole.bore.radius() * self.scale);
        let circle = Item {
            layer: layer(hole.name.id().role()),
            line: Line::Drill,
            shape: Shape::Circle(Circle::new(at, radius)),
        };
        let number = batch.map(|batch| {
            let wide = font::width(&batch.to_string(), 1.0, Weight::Regular);
            // The box of the number keeps within the circle.
            let diagonal = Vec2::new(wide, font::FIGURE_HEIGHT).hypot();
            words_at(centered(at, NUMBER.min(1.8 * radius / diagonal), batch))
        });
        std::iter::once(circle).chain(number).collect()
    }
}

/// A number centered at a point.
fn centered(at: Point, size: f64, number: u32) -> Text {
    let down = font::FIGURE_HEIGHT * size / 2.0;
    Text::level(at - (0.0, down), size, Anchor::Middle, number.to_string())
}

/// Words as a mark of the page.
const fn words_at(text: Text) -> Item {
    Item {
        layer: Layer::Marks,
        line: Line::Dimension,
        shape: Shape::Text(text),
    }
}
