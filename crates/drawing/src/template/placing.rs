//! Title block and bars in the quietest places of a sheet.
//!
//! A block never overlaps a cross or another block. The first of its forms that covers no hole is chosen; if there is none,
//! the form that covers the least.

use geometry::Arc;
use kurbo::{Point, Rect, Size, Vec2};
use workshop::{Tile, Tiling};

use crate::font::{self, Weight};
use crate::pages::wrapped;
use crate::quiet::{Place, Quiet, Sums, weight};
use crate::stopped::{self, stop_item};
use crate::taken::nearest;
use crate::template::bars::{BARS, Bar};
use crate::template::furniture::{Block, title_blocks};
use crate::template::subject::Subject;
use crate::{Item, Layer, Line, Shape, Stamp};

/// Gap around marks and words, mm.
const AIR: f64 = 0.5;
/// Width kept free along a line, so that words beside it do not touch it, mm.
const BESIDE_LINE: f64 = 1.0;
/// Parts of the page, from the top, in which the line about what stops the board is placed; the next part is used where all of
/// one is full.
const STOP_PARTS: [f64; 3] = [4.0, 2.0, 1.0];
/// Spacing of its lines, in sizes of the type.
const STOP_LEADING: f64 = 1.4;
/// The weight of a joint line, along which sheets are cut and taped.
const JOINT: u64 = 8 * weight::LINE;
/// Largest radius at which a circle counts as a hole, mm.
const HOLE: f64 = 25.0;

/// Title block and bars of a sheet in the page frame, with the boxes they occupy.
pub struct Furniture {
    /// Their items.
    pub marks: Vec<Item>,
    /// The boxes, which overlap neither each other nor any cross.
    pub blocks: Vec<Rect>,
}

/// Title block and bars for a page that shows some items, moved onto the page by a vector.
///
/// Each line on the page has a weight by its purpose: a block covers a guide before it covers a hole, a hole before its name,
/// and a cross only if the page is full of them. The title comes first, as it has the most forms to choose from, and then
/// the bars; each reserves its place.
pub fn furniture(
    subject: &Subject<'_>,
    tiling: &Tiling,
    tile: &Tile,
    stamp: &Stamp,
    items: &[Item],
    page_from_board: Vec2,
) -> Furniture {
    let page = tiling.printable().inset(-1.0);
    let mut quiet = Quiet::new(page);
    for item in items {
        busy(&mut quiet, item, page_from_board);
    }
    let mut placed = Furniture {
        marks: Vec::new(),
        blocks: Vec::new(),
    };
    if let Some(line) = &subject.stop {
        placed.stop(&mut quiet, page, line);
    }
    placed.title(&mut quiet, title_blocks(subject, tiling, tile, stamp), page);
    placed.bar(&mut quiet, page, false);
    placed.bar(&mut quiet, page, true);
    placed
}

impl Furniture {
    /// Places the line about what stops the board in the upper part of the page: a line at the foot of a sheet would be noticed
    /// only after drilling. It is lower only where crosses leave no room.
    fn stop(&mut self, quiet: &mut Quiet, page: Rect, line: &str) {
        let sums = quiet.sums();
        let mut parts = STOP_PARTS.iter().filter_map(|part| {
            let bottom = page.y1 - page.height() / part;
            stop_place(&sums, Rect { y0: bottom, ..page }, line)
        });
        let is_free = |(place, _): &(Place, Vec<String>)| place.covered < weight::MARK;
        let first = parts.next();
        let found = first.filter(is_free).or_else(|| parts.find(is_free));
        let Some((place, lines)) = found.or_else(|| stop_place(&sums, page, line)) else {
            return;
        };
        let at = |number: usize| {
            let down = STOP_LEADING * stopped::SIZE * number as f64 + stopped::SIZE;
            Point::new(place.block.x0, place.block.y1 - down)
        };
        let width = place.block.width() + 1e-6;
        let items = lines.iter().enumerate();
        let items = items.map(|(number, line)| stop_item(line, at(number), width));
        self.take(quiet, place.block, items);
    }

    /// Places the title block in the fullest form that covers no hole, otherwise in the one that covers the least.
    fn title(&mut self, quiet: &mut Quiet, blocks: impl Iterator<Item = Block>, page: Rect) {
        let corner = Point::new(page.x0, page.y1);
        let sums = quiet.sums();
        let mut least: Option<(Place, Vec<Item>)> = None;
        for block in blocks {
            let Some(place) = sums.quietest(block.size, corner) else {
                continue;
            };
            let known = least.as_ref().map_or(u64::MAX, |(place, _)| place.covered);
            if place.covered < known {
                let covers_no_hole = place.covered < weight::HOLE;
                least = Some((place, block.items));
                if covers_no_hole {
                    break;
                }
            }
        }
        if let Some((place, items)) = least {
            let by = Vec2::new(place.block.x0, place.block.y1);
            self.take(
                quiet,
                place.block,
                items.into_iter().map(|item| item.moved(by)),
            );
        }
    }

    /// Places a bar in the quietest place for it: a long one that covers no hole if there is room, a long one over the outline
    /// of a hole before a very short one, and none where each would overlap a cross or a name.
    fn bar(&mut self, quiet: &mut Quiet, page: Rect, upright: bool) {
        let sums = quiet.sums();
        let [long, middle, short] = BARS;
        let tries = [
            (long, weight::HOLE),
            (middle, weight::HOLE),
            (long, weight::NAME),
            (middle, weight::NAME),
            (short, weight::HOLE),
            (short, weight::NAME),
        ];
        let room = |bar: Bar| {
            let room = bar.room();
            if upright {
                Size::new(room.height, room.width)
            } else {
                room
            }
        };
        let found = tries.into_iter().find_map(|(bar, most)| {
            let place = sums.quietest(room(bar), page.origin())?;
            (place.covered < most).then_some((bar, place.block))
        });
        let Some((bar, block)) = found else { return };
        let items = if upright {
            bar.upright(block.origin())
        } else {
            bar.level(block.origin())
        };
        self.take(quiet, block, items.into_iter());
    }

    /// Reserves a block, which nothing else may overlap: its surroundings weigh as much as a cross, so that the next one keeps
    /// clear of it.
    fn take(&mut self, quiet: &mut Quiet, block: Rect, items: impl Iterator<Item = Item>) {
        quiet.add(block.inflate(AIR, AIR), weight::MARK);
        self.blocks.push(block);
        self.marks.extend(items);
    }
}

/// The place of the line about what stops the board within a part of the page, with its lines: it is broken where it does not
/// fit in one.
fn stop_place(sums: &Sums, part: Rect, line: &str) -> Option<(Place, Vec<String>)> {
    let (size, strong) = (stopped::SIZE, Weight::SemiBold);
    let whole = font::width(line, size, strong).ceil();
    let mut least: Option<(Place, Vec<String>)> = None;
    for width in [
        whole,
        0.6 * whole,
        0.4 * whole,
        0.28 * whole,
        part.width() - 1.0,
    ] {
        if width > part.width() {
            continue;
        }
        let lines = wrapped(line, size, strong, width);
        let room = Size::new(width, STOP_LEADING * size * lines.len() as f64);
        let Some(place) = sums.quietest_in(part, room, Point::new(part.x0, part.y1)) else {
            continue;
        };
        let known = least.as_ref().map_or(u64::MAX, |(place, _)| place.covered);
        if place.covered < known {
            let covers_no_name = place.covered < weight::NAME;
            least = Some((place, lines));
            if covers_no_name {
                break;
            }
        }
    }
    least
}

/// Adds the weight of an item: crosses and marks by their box, holes too, lines and large circles along their course.
///
/// The inside of a large circle is as free as the outside; a box around the board's edge would cover the whole sheet.
fn busy(quiet: &mut Quiet, item: &Item, page_from_board: Vec2) {
    let is_mark = item.layer == Layer::Marks;
    let bounds = item.shape.bounds() + page_from_board;
    let page = quiet.area().inflate(BESIDE_LINE, BESIDE_LINE);
    let mut course = |length: f64, at: &dyn Fn(f64) -> Point| {
        let steps = (length / BESIDE_LINE).ceil().max(1.0);
        let mut step = 0.0;
        while step <= steps {
            let at = at(step / steps) + page_from_board;
            let line = Rect::from_center_size(at, (BESIDE_LINE, BESIDE_LINE));
            quiet.add(line, if is_mark { JOINT } else { weight::LINE });
            // A line this far off the page cannot come nearer within this many steps.
            step += (nearest(page, at) * steps / length.max(BESIDE_LINE))
                .floor()
                .max(1.0);
        }
    };
    match &item.shape {
        Shape::Circle(circle) if circle.radius > HOLE => {
            let round = Arc::from(*circle);
            course(round.length(), &|share| round.at(share));
        }
        Shape::Arc(arc) => course(arc.length(), &|share| arc.at(share)),
        Shape::Line(line) => course((line.p1 - line.p0).length(), &|share| {
            line.p0.lerp(line.p1, share)
        }),
        Shape::Cross { center, arm } => {
            for (across, up) in [(*arm, AIR), (AIR, *arm)] {
                let at = *center + page_from_board;
                let line = Rect::from_center_size(at, (2.0 * across, 2.0 * up));
                quiet.add(line.inflate(AIR, AIR), weight::MARK);
            }
        }
        Shape::Circle(_) | Shape::Text(_) if is_mark => {
            quiet.add(bounds.inflate(AIR, AIR), weight::MARK);
        }
        Shape::Circle(_) if item.line == Line::Guide => quiet.add(bounds, weight::LINE),
        Shape::Circle(_) => quiet.add(bounds.inflate(1.0, 1.0), weight::HOLE),
        Shape::Text(_) => quiet.add(bounds.inflate(AIR, AIR), weight::NAME),
        Shape::Area(_) => quiet.add(bounds, weight::LINE),
    }
}
