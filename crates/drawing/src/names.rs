//! The places of the holes' names: beside or inside their bores, never over a cross, a drilling line, a groove or another name.
//!
//! Each name tries the inside of its own bore below the cross, then places around it, in decreasing sizes; it takes the first
//! place that is free and nearer to its own hole than to any other. A name without a place is left out; the hole table has it
//! all the same.

use board::{Board, Hole, Marking};
use geometry::{Arc, Point};
use kurbo::{Rect, Vec2};

use crate::font::{self, Weight};
use crate::grooves::ring;
use crate::marks::cross_arm;
use crate::taken::{Taken, farthest, nearest};
use crate::{Anchor, Item, Layer, Line, Shape, Text};
use workshop::Workpiece;

/// Sizes to try, largest first, mm.
const SIZES: [f64; 3] = [2.4, 2.2, font::SMALLEST];
/// Clear space kept around a name, mm.
const CLEAR: f64 = 0.25;
/// By how much a name must be nearer to its own hole than to any other, mm.
const NEARER: f64 = 0.4;
/// Distance that names keep inside the board's edge, which may be on no sheet, mm.
const INSIDE: f64 = 5.0;

/// Adds the names of all holes that have room for one.
pub fn place_names(workpiece: &Workpiece, items: &mut Vec<Item>) {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let names = layout.holes.iter().map(|hole| hole.name.to_string());
    let labels = layout.holes.iter().copied().zip(names);
    let grooves = |item: &Item| item.layer == Layer::Grooves;
    place_labels(board, &layout.holes, labels, grooves, items);
}

/// Adds words beside each of some holes, if there is room between all holes, the words already written, and the lines to
/// keep clear of.
///
/// Labels are placed in their order, and a placed one is not moved to make room for a later one. On boards that can be made
/// there is nearly always room, and the same board always gives the same places.
pub fn place_labels(
    board: &Board,
    holes: &[Hole],
    labels: impl Iterator<Item = (Hole, String)>,
    keeps_off: fn(&Item) -> bool,
    items: &mut Vec<Item>,
) {
    let mut taken = obstacles(board, holes);
    let others = Others::of(board, holes);
    let note = items
        .iter()
        .filter(|item| matches!(item.shape, Shape::Text(_)));
    note.for_each(|item| taken.add(item.shape.bounds()));
    let lines = items.iter().filter(|item| keeps_off(item));
    lines.for_each(|item| keep_off(&item.shape, &mut taken));
    for (hole, words) in labels {
        let Some(text) = place(board, &hole, &words, &taken, &others) else {
            continue;
        };
        taken.add(text.bounds());
        items.push(Item {
            layer: Layer::Names,
            line: Line::Dimension,
            shape: Shape::Text(text),
        });
    }
}

/// Obstacles for a name: every cross, and the outline of every bore.
fn obstacles(board: &Board, holes: &[Hole]) -> Taken {
    let side = board.blank.diameter;
    let area = Rect::from_center_size(Point::ORIGIN, (side, side));
    let mut taken = Taken::new(area, holes.len());
    for hole in holes {
        let arm = cross_arm(hole);
        for (width, height) in [(arm, CLEAR), (CLEAR, arm)] {
            taken.add(Rect::from_center_size(
                hole.center,
                (2.0 * width, 2.0 * height),
            ));
        }
        if board.template.marking != Marking::Crosses {
            taken.add_outline(hole.mouth());
        }
    }
    taken
}

/// Adds a line as an obstacle: rings as outlines, everything else in short pieces.
pub fn keep_off(shape: &Shape, taken: &mut Taken) {
    /// Largest radius of a ring around a bore, mm; the box around a wider one holds half the board.
    const RING: f64 = 60.0;
    match shape {
        Shape::Circle(circle) if circle.radius <= RING => taken.add_outline(*circle),
        Shape::Circle(circle) => along(&Arc::from(*circle), taken),
        Shape::Arc(arc) => along(arc, taken),
        Shape::Line(line) => {
            pieces(
                (line.p1 - line.p0).length(),
                |share| line.p0.lerp(line.p1, share),
                taken,
            );
        }
        // No line to keep clear of has one of these shapes.
        Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => {}
    }
}

/// Adds an arc as an obstacle.
fn along(arc: &Arc, taken: &mut Taken) {
    pieces(arc.length(), |share| arc.at(share), taken);
}

/// Adds a path as an obstacle, in boxes around pieces of it with clear space on both sides; `at` returns the point at a share
/// of its length.
fn pieces(length: f64, at: impl Fn(f64) -> Point, taken: &mut Taken) {
    /// Length of a piece, mm.
    const PIECE: f64 = 1.0;
    let count = (length / PIECE).ceil().max(1.0);
    for piece in 0..count as u32 {
        let ends = [0.0, 1.0].map(|end| at((f64::from(piece) + end) / count));
        taken.add(Rect::from_points(ends[0], ends[1]).inflate(CLEAR, CLEAR));
    }
}

/// Words beside a hole, as large as there is room for; none without room. The smallest size is tried first, since most names
/// that have no place have none at any size.
fn place(
    board: &Board,
    hole: &Hole,
    words: &str,
    taken: &Taken,
    others: &Others<'_>,
) -> Option<Text> {
    let unit_width = font::width(words, 1.0, Weight::Regular);
    let spot = |size: f64| {
        let name = Name {
            hole,
            width: unit_width * size,
            height: font::FIGURE_HEIGHT * size,
            tail: font::tail(words) * size,
        };
        name.free_spot(board, taken, others)
    };
    // Where the smallest size has no place, no other has.
    let [larger @ .., smallest] = SIZES;
    let last = spot(smallest)?;
    let best = larger
        .into_iter()
        .find_map(|size| Some((spot(size)?, size)));
    let (middle, size) = best.unwrap_or((last, smallest));
    let baseline = middle - Vec2::new(0.0, font::FIGURE_HEIGHT * size / 2.0);
    Some(Text::level(baseline, size, Anchor::Middle, words))
}

/// Words of one size beside their hole.
struct Name<'a> {
    /// The hole they name.
    hole: &'a Hole,
    /// Width of the words, height of their digits, and depth of their descenders, mm.
    width: f64,
    height: f64,
    tail: f64,
}

impl Name<'_> {
    /// The center of the first free place: inside the bore, then around it.
    fn free_spot(&self, board: &Board, taken: &Taken, others: &Others<'_>) -> Option<Point> {
        let edge = board.blank.radius() - INSIDE;
        let inside = self.inside().into_iter();
        inside.chain(self.around(board)).find(|middle| {
            let room = self.room(*middle);
            let is_inside = farthest(room, Point::ORIGIN) <= edge;
            is_inside && taken.is_free(room) && others.is_nearest(self.hole, room)
        })
    }

    /// The box that the words need about their center.
    fn room(&self, middle: Point) -> Rect {
        let (half, up) = (self.width / 2.0 + CLEAR, self.height / 2.0 + CLEAR);
        Rect::new(
            middle.x - half,
            middle.y - up - self.tail,
            middle.x + half,
            middle.y + up,
        )
    }

    /// The center of the words inside their bore, below the cross, if they fit there.
    fn inside(&self) -> Option<Point> {
        let top = cross_arm(self.hole) + 2.0 * CLEAR;
        let bottom = top + self.height + self.tail;
        let room = self.hole.bore.radius() - 2.0 * CLEAR;
        let fits = Vec2::new(self.width / 2.0, bottom).length() <= room;
        fits.then(|| self.hole.center - Vec2::new(0.0, top + self.height / 2.0))
    }

    /// The centers of places around a bore, diagonal to the outward direction first, since guides run straight outward.
    fn around(&self, board: &Board) -> impl Iterator<Item = Point> {
        let hole = self.hole;
        let outward = geometry::bearing_of(hole.center);
        let radius = marked_radius(board, hole).max(cross_arm(hole)).max(ring(
            board,
            hole.name.id().role(),
            hole.bore.radius(),
        )) + 2.0 * CLEAR;
        let (half, up) = (self.width / 2.0, self.height / 2.0 + self.tail);
        [2, 14, 3, 13, 1, 15, 4, 12, 6, 10, 0, 8, 5, 11, 7, 9]
            .into_iter()
            .map(move |part| {
                let bearing = outward + geometry::Angle::turn_part(part, 16);
                let way = geometry::point_at(1.0, bearing).to_vec2();
                // Half the name's own extent in that direction keeps its box outside the circle.
                let reach = way.x.abs() * half + way.y.abs() * up;
                hole.center + way * (radius + reach)
            })
    }
}

/// Radius of what looks like the hole: its outline, or its cross where there is only a cross.
fn marked_radius(board: &Board, hole: &Hole) -> f64 {
    if board.template.marking == Marking::Crosses {
        cross_arm(hole)
    } else {
        hole.bore.radius()
    }
}

/// All holes, indexed by position.
///
/// A board may have ten thousand, so a name is compared only with those in its neighborhood.
struct Others<'a> {
    /// The board, whose template determines how a hole is marked.
    board: &'a Board,
    /// The holes with the radius of their marks, cell by cell.
    holes: Vec<(&'a Hole, f64)>,
    /// Index of the first hole of each cell in the list, plus one more entry for the end.
    begins: Vec<u32>,
    /// Number of cells side by side, and above each other.
    cells: usize,
    /// Lower left corner, and side of a cell, mm.
    low: f64,
    side: f64,
    /// The largest radius of a mark, mm.
    largest: f64,
}

impl<'a> Others<'a> {
    /// The holes of a board with the radius that each is marked with.
    fn of(board: &'a Board, holes: &'a [Hole]) -> Self {
        /// The most cells side by side.
        const MOST: f64 = 400.0;
        let marked = |hole| (hole, marked_radius(board, hole));
        let mut holes: Vec<(&Hole, f64)> = holes.iter().map(marked).collect();
        let largest = holes.iter().map(|(_, radius)| *radius).fold(1.0, f64::max);
        let reach = board.blank.radius();
        let side = (2.0 * largest + 4.0).max(2.0 * reach / MOST);
        let mut others = Self {
            board,
            holes: Vec::new(),
            begins: Vec::new(),
            cells: (2.0 * reach / side) as usize + 1,
            low: -reach,
            side,
            largest,
        };
        let cell = |hole: &Hole| others.cell(hole.center.x, hole.center.y);
        holes.sort_by_key(|(hole, _)| cell(hole));
        let mut begins = vec![0; others.cells * others.cells + 1];
        for (hole, _) in &holes {
            if let Some(count) = begins.get_mut(cell(hole) + 1) {
                *count += 1;
            }
        }
        let mut sum = 0;
        for begin in &mut begins {
            sum += *begin;
            *begin = sum;
        }
        (others.holes, others.begins) = (holes, begins);
        others
    }

    /// The index of a coordinate among the cells; positions outside count as being in the cells at the border.
    fn along(&self, mm: f64) -> usize {
        (((mm - self.low) / self.side).max(0.0) as usize).min(self.cells - 1)
    }

    /// The cell of a point.
    fn cell(&self, x: f64, y: f64) -> usize {
        self.along(y) * self.cells + self.along(x)
    }

    /// The holes of the cells that an area touches, with the radius of their marks.
    fn near(&self, area: Rect) -> impl Iterator<Item = &(&'a Hole, f64)> {
        let (left, right) = (self.along(area.x0), self.along(area.x1));
        let rows = self.along(area.y0)..=self.along(area.y1);
        rows.flat_map(move |row| {
            let begin = |column: usize| self.begins.get(row * self.cells + column).copied();
            let holes = begin(left).zip(begin(right + 1));
            let range = holes.map_or(0..0, |(from, to)| from as usize..to as usize);
            self.holes.get(range).unwrap_or_default()
        })
    }

    /// Whether a box is nearer to one hole than to any other, measured from the outline.
    ///
    /// A name midway between two holes can be read as either's, which costs a wrong bore.
    fn is_nearest(&self, own: &Hole, room: Rect) -> bool {
        let gap = |center, radius: f64| (nearest(room, center) - radius).max(0.0);
        let least = gap(own.center, marked_radius(self.board, own)) + NEARER;
        let reach = least + self.largest;
        let mut near = self.near(room.inflate(reach, reach));
        near.all(|(other, radius)| other.name == own.name || gap(other.center, *radius) >= least)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan;
    use board::{Bore, Bores, Bottom, Grooves, Rings};

    fn names_and_crosses(items: &[Item]) -> (Vec<Rect>, Vec<Rect>) {
        let names = items
            .iter()
            .filter(|item| item.layer == Layer::Names)
            .map(|item| item.shape.bounds());
        let crosses = items.iter().filter_map(|item| match item.shape {
            Shape::Cross { center, arm } => Some([
                Rect::from_center_size(center, (2.0 * arm, 0.0)),
                Rect::from_center_size(center, (0.0, 2.0 * arm)),
            ]),
            _ => None,
        });
        (names.collect(), crosses.flatten().collect())
    }

    #[test]
    fn names_keep_clear_of_grooves() {
        let bore = Bore {
            diameter: 6.0,
            depth: 5.0,
            bottom: Bottom::Flat,
        };
        let rings = Rings {
            track: true,
            home: true,
            ..Rings::default()
        };
        let wanted = Grooves {
            around_start: Some(3.0),
            rings: Some(rings),
            sectors_from: Some(40.0),
            ..Grooves::default()
        };
        let mut board = Board {
            bores: Bores::all(bore),
            grooves: Some(wanted),
            ..Board::default()
        };
        board.pocket.shape = geometry::PocketShape::Arc;
        let workpiece = Workpiece::of(&board).unwrap();
        let (names, _) = names_and_crosses(&plan(&workpiece));
        assert!(names.len() > 120, "{} names", names.len());
        let grooves = &workpiece.grooves().unwrap().grooves;
        for stroke in grooves.iter().flat_map(|groove| &groove.path) {
            for step in 0..=400 {
                let at = stroke.at(f64::from(step) / 400.0);
                let on = names.iter().find(|name| name.contains(at));
                assert_eq!(on, None, "{stroke:?}");
            }
        }
    }

    #[test]
    fn names_keep_clear_of_crosses_and_other_names() {
        for diameter in [4.0, 6.35, 12.0, 15.0] {
            let bore = Bore {
                diameter,
                depth: 5.0,
                bottom: Bottom::Flat,
            };
            let board = Board {
                bores: Bores::all(bore),
                ..Board::default()
            };
            let items = plan(&Workpiece::of(&board).unwrap());
            let (names, crosses) = names_and_crosses(&items);
            assert!(names.len() > 120, "{} names at {diameter}", names.len());
            for (at, name) in names.iter().enumerate() {
                let meets = |other: &Rect| name.overlaps(*other);
                assert!(
                    !crosses.iter().any(meets),
                    "a name on a cross at {diameter}"
                );
                assert!(
                    !names[at + 1..].iter().any(meets),
                    "a name on a name at {diameter}"
                );
            }
        }
    }

    /// Compares the box of each name with the outline of every hole, on boards with narrow to wide holes.
    #[test]
    fn every_name_is_nearer_to_its_own_hole_than_to_any_other() {
        for (diameter, marking) in [
            (4.0, Marking::Both),
            (6.35, Marking::Crosses),
            (12.0, Marking::Both),
            (15.0, Marking::Circles),
        ] {
            let bore = Bore {
                diameter,
                depth: 5.0,
                bottom: Bottom::Flat,
            };
            let mut board = Board {
                bores: Bores::all(bore),
                ..Board::default()
            };
            board.template.marking = marking;
            let workpiece = Workpiece::of(&board).unwrap();
            let mut seen = 0;
            for item in plan(&workpiece) {
                let Shape::Text(text) = &item.shape else {
                    continue;
                };
                let Ok(id) = text.words.parse() else { continue };
                let gap = |hole: &Hole| {
                    let away = nearest(text.bounds(), hole.center);
                    (away - marked_radius(&board, hole)).max(0.0)
                };
                let own = gap(workpiece.layout().hole(id).unwrap());
                let others = workpiece.layout().holes.iter();
                let others = others.filter(|hole| hole.name.to_string() != text.words);
                let next = others.map(gap).fold(f64::INFINITY, f64::min);
                assert!(own < next - 0.1, "{} at {own} and {next}", text.words);
                assert!(text.size >= font::SMALLEST);
                seen += 1;
            }
            assert!(seen > 120, "{seen} names at {diameter}");
        }
    }

    /// The reference solution checks every hole.
    #[test]
    fn neighboring_holes_give_the_same_answer_as_all_holes() {
        let mut board = Board::default();
        board.bores.home.diameter = 60.0;
        let workpiece = Workpiece::of(&board).unwrap();
        let holes = &workpiece.layout().holes;
        let others = Others::of(&board, holes);
        let (mut yes, mut no) = (0, 0);
        for (at, hole) in holes.iter().enumerate() {
            for step in 0..40_u32 {
                let way = geometry::point_at(
                    f64::from(step),
                    geometry::Angle::turn_part(i64::from(step * 7), 40),
                );
                let size = (3.0 + f64::from(step % 7), 2.0);
                let room = Rect::from_center_size(hole.center + way.to_vec2(), size);
                let gap = |hole: &Hole| {
                    (nearest(room, hole.center) - marked_radius(&board, hole)).max(0.0)
                };
                let least = gap(hole) + NEARER;
                let mut all = holes.iter().enumerate();
                let plain = all.all(|(other, it)| other == at || gap(it) >= least);
                assert_eq!(
                    others.is_nearest(hole, room),
                    plain,
                    "{} {room:?}",
                    hole.name
                );
                (yes, no) = (yes + u32::from(plain), no + u32::from(!plain));
            }
        }
        assert!(yes > 100 && no > 100, "{yes} and {no}");
    }
}
