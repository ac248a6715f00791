//! Things on the board that can be dragged, and the thing at a point.

use board::{Build, HoleId, Layout, Role, Units};
use geometry::{Circle, Point};
use kurbo::{Line as Segment, ParamCurveNearest as _};
use workshop::{GrooveKind, Stroke, Workpiece, recess_outline};

use super::half_chord;
use crate::Shape;
use crate::recess::around;

/// A thing on the board that can be dragged, because the document has its position.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Thing {
    /// A hole.
    Hole(HoleId),
    /// The home lanes, grabbed at a player's lane.
    Lane(u32),
    /// The start pockets, grabbed at a player's pocket.
    Pocket(u32),
    /// All grooves of a kind whose distance is typed.
    Groove(GrooveKind),
    /// A circle of screws, by its index in the document.
    Screws(usize),
    /// A seam of a panel bought glued, by its index in the document.
    Seam(usize),
    /// The recess in the underside.
    Recess,
    /// The edge of the board.
    Rim,
    /// The pattern, rotated by the number of a player outside the board.
    Turn,
}

impl Thing {
    /// Its name in a sentence.
    ///
    /// ```
    /// use board::Board;
    /// use drawing::Thing;
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&Board::default())?;
    /// let hole = Thing::Hole("T1-3".parse().unwrap());
    /// assert_eq!(hole.words(workpiece.layout()), "T1-03, track space");
    /// assert_eq!(Thing::Rim.words(workpiece.layout()), "edge of the board");
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn words(self, layout: &Layout) -> String {
        match self {
            Self::Hole(id) => {
                let name = layout
                    .hole(id)
                    .map_or_else(|| id.named(1), |hole| hole.name);
                format!("{name}, {}", id.role().label())
            }
            Self::Lane(_) => "home lanes".into(),
            Self::Pocket(_) => "start pockets".into(),
            Self::Groove(kind) => kind.label().into(),
            Self::Screws(at) => format!("screws, circle {}", at + 1),
            Self::Seam(at) => format!("seam {}", at + 1),
            Self::Recess => "recess in the underside".into(),
            Self::Rim => "edge of the board".into(),
            Self::Turn => "rotation of the pattern".into(),
        }
    }

    /// The lines that show it and where it can be grabbed; empty if the board does not have it.
    pub fn shapes(self, workpiece: &Workpiece) -> Vec<Shape> {
        let board = workpiece.board();
        match self {
            Self::Hole(id) => {
                let hole = workpiece.layout().hole(id);
                hole.map(|hole| Shape::Circle(hole.mouth()))
                    .into_iter()
                    .collect()
            }
            Self::Lane(player) => lane_lines(workpiece.layout(), player),
            Self::Pocket(player) => pocket_lines(workpiece.layout(), player),
            Self::Groove(kind) => groove_lines(workpiece, kind),
            Self::Screws(at) => screws(workpiece, at)
                .into_iter()
                .map(Shape::Circle)
                .collect(),
            Self::Seam(at) => {
                let seam = typed_seams(workpiece).get(at);
                seam.map(|height| seam_line(workpiece, *height))
                    .into_iter()
                    .collect()
            }
            Self::Recess => board
                .recess
                .iter()
                .flat_map(|recess| around(&recess_outline(recess)))
                .collect(),
            Self::Rim => vec![Shape::Circle(Circle::new(
                Point::ORIGIN,
                board.blank.radius(),
            ))],
            Self::Turn => Vec::new(),
        }
    }

    /// Distance of a point from it, mm; 0 within a hole, a pocket or a screw. Infinite where the board does not have it.
    fn miss(self, workpiece: &Workpiece, at: Point) -> f64 {
        let within = match self {
            Self::Hole(_) | Self::Screws(_) => true,
            Self::Lane(_)
            | Self::Pocket(_)
            | Self::Groove(_)
            | Self::Seam(_)
            | Self::Recess
            | Self::Rim
            | Self::Turn => false,
        };
        let beside = match self {
            Self::Lane(_) => workpiece.board().bores.home.radius(),
            Self::Pocket(_) => workpiece.board().bores.start.radius(),
            Self::Groove(_) => workpiece
                .board()
                .grooves
                .map_or(0.0, |grooves| grooves.width / 2.0),
            _ => 0.0,
        };
        let shapes = self.shapes(workpiece);
        let misses = shapes
            .iter()
            .map(|shape| (distance(shape, at, within) - beside).max(0.0));
        misses.fold(f64::INFINITY, f64::min)
    }
}

/// The thing at a point on the board: small things before large ones, and visible things before hidden ones. `slack` is how far
/// from a thing the point may be, mm.
///
/// ```
/// use board::Board;
/// use drawing::{Thing, thing_at};
/// use geometry::Point;
/// use workshop::Workpiece;
/// let board = Board::default();
/// let workpiece = Workpiece::of(&board)?;
/// let hole = workpiece.layout().holes[3];
/// assert_eq!(thing_at(&workpiece, hole.center, 1.0), Some(Thing::Hole(hole.name.id())));
/// assert_eq!(thing_at(&workpiece, Point::new(-320.5, 0.0), 1.0), Some(Thing::Rim));
/// assert_eq!(thing_at(&workpiece, Point::new(40.0, -20.0), 1.0), None);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn thing_at(workpiece: &Workpiece, at: Point, slack: f64) -> Option<Thing> {
    let hole = super::end::bore_at(workpiece.layout(), at, 0.6 * slack);
    if let Some((_, id)) = hole {
        return Some(Thing::Hole(id));
    }
    let near = |thing: &Thing| thing.miss(workpiece, at) <= slack;
    let between = |thing: &Thing| thing.miss(workpiece, at) <= 0.0;
    let pocket = nearest_pocket(workpiece, at).filter(between);
    let lane = || nearest_lane(workpiece, at).filter(between);
    let other = || others(workpiece).into_iter().find(near);
    pocket.or_else(other).or_else(lane)
}

/// Everything on the board except single holes, in the order in which keys go through it; lanes and pockets are represented by
/// the first player's.
pub(super) fn walked(workpiece: &Workpiece) -> Vec<Thing> {
    let mut all = vec![Thing::Lane(1), Thing::Pocket(1)];
    all.extend(others(workpiece));
    all.retain(|thing| !thing.shapes(workpiece).is_empty());
    all.push(Thing::Turn);
    all
}

/// The things on the board except holes, lanes and pockets, in order of priority.
fn others(workpiece: &Workpiece) -> Vec<Thing> {
    let mut all: Vec<Thing> = MOVABLE.into_iter().map(Thing::Groove).collect();
    all.extend((0..workpiece.board().screws.len()).map(Thing::Screws));
    all.extend((0..typed_seams(workpiece).len()).map(Thing::Seam));
    all.extend([Thing::Recess, Thing::Rim]);
    all
}

/// Grooves whose distance is typed.
const MOVABLE: [GrooveKind; 6] = [
    GrooveKind::Ring,
    GrooveKind::AroundHome,
    GrooveKind::AroundStart,
    GrooveKind::Middle,
    GrooveKind::Rim,
    GrooveKind::Sector,
];

/// The start pocket whose center is nearest.
fn nearest_pocket(workpiece: &Workpiece, at: Point) -> Option<Thing> {
    let layout = workpiece.layout();
    layout.pocket?;
    let starts = layout
        .holes
        .iter()
        .filter(|hole| hole.name.id().role() == Role::Start);
    let near = starts.min_by(|a, b| a.center.distance(at).total_cmp(&b.center.distance(at)))?;
    Some(Thing::Pocket(near.name.id().player()))
}

/// The home lane of the nearest hole.
fn nearest_lane(workpiece: &Workpiece, at: Point) -> Option<Thing> {
    let homes = workpiece.layout().holes.iter();
    let homes = homes.filter(|hole| hole.name.id().role() == Role::Home);
    let near = homes.min_by(|a, b| a.center.distance(at).total_cmp(&b.center.distance(at)))?;
    Some(Thing::Lane(near.name.id().player()))
}

/// Lines from hole to hole along a home lane.
fn lane_lines(layout: &Layout, player: u32) -> Vec<Shape> {
    let is_his = |id: HoleId| id.role() == Role::Home && id.player() == player;
    let holes = layout.holes.iter().filter(|hole| is_his(hole.name.id()));
    let centers: Vec<Point> = holes.map(|hole| hole.center).collect();
    let links = centers.windows(2);
    links
        .map(|ends| Shape::Line(Segment::new(ends[0], ends[1])))
        .collect()
}

/// Lines from each hole of a start pocket to each other.
fn pocket_lines(layout: &Layout, player: u32) -> Vec<Shape> {
    let is_his = |id: HoleId| id.role() == Role::Start && id.player() == player;
    let holes = layout.holes.iter().filter(|hole| is_his(hole.name.id()));
    let centers: Vec<Point> = holes.map(|hole| hole.center).collect();
    let pairs = centers.iter().enumerate();
    let lines = pairs.flat_map(|(at, from)| {
        centers
            .iter()
            .skip(at + 1)
            .map(|to| Segment::new(*from, *to))
    });
    lines.map(Shape::Line).collect()
}

fn groove_lines(workpiece: &Workpiece, kind: GrooveKind) -> Vec<Shape> {
    let grooves = workpiece.grooves().map_or(&[][..], |plan| &plan.grooves);
    let of_kind = grooves.iter().filter(|groove| groove.kind == kind);
    of_kind
        .flat_map(|groove| &groove.path)
        .map(|stroke| match *stroke {
            Stroke::Line(line) => Shape::Line(line),
            Stroke::Arc(arc) => Shape::Arc(arc),
            Stroke::Circle(circle) => Shape::Circle(circle),
        })
        .collect()
}

/// The screws of a circle of the document.
fn screws(workpiece: &Workpiece, at: usize) -> Vec<Circle> {
    let rings = &workpiece.board().screws;
    let before: u32 = rings.iter().take(at).map(|ring| ring.count).sum();
    let count = rings.get(at).map_or(0, |ring| ring.count);
    let all = workpiece.screws().iter().skip(before as usize);
    all.take(count as usize).map(|screw| screw.circle).collect()
}

/// The seams whose heights are typed.
pub(super) fn typed_seams(workpiece: &Workpiece) -> &[f64] {
    match &workpiece.board().panel.build {
        Build::Seams { at } => at,
        Build::Whole | Build::Halves | Build::Strips { .. } => &[],
    }
}

fn seam_line(workpiece: &Workpiece, height: f64) -> Shape {
    let half = half_chord(workpiece.board().blank.radius(), height);
    Shape::Line(Segment::new((-half, height), (half, height)))
}

/// Distance of a point from a line; 0 inside a circle that counts as a disc.
fn distance(shape: &Shape, at: Point, is_disc: bool) -> f64 {
    match shape {
        Shape::Circle(circle) => {
            let out = at.distance(circle.center) - circle.radius;
            if is_disc { out.max(0.0) } else { out.abs() }
        }
        Shape::Arc(arc) => arc.distance(at),
        Shape::Line(line) => line.nearest(at, 1e-9).distance_sq.sqrt(),
        Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => f64::INFINITY,
    }
}

/// The distance that one press of an arrow key moves a thing, mm: half a millimeter, or the finest mark of the maker's rule.
///
/// ```
/// use board::Units;
/// assert_eq!(drawing::nudge_step(Units::Mm), 0.5);
/// assert_eq!(drawing::nudge_step(Units::INCH), 25.4 / 64.0);
/// ```
pub fn nudge_step(units: Units) -> f64 {
    match units {
        Units::Mm => 0.5,
        Units::Inch(fraction) => board::INCH / f64::from(fraction.parts()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Grooves, Recess, ScrewCircle};
    use geometry::{Angle, point_at};

    fn full() -> Workpiece {
        let mut board = Board {
            grooves: Some(Grooves {
                rim: Some(5.0),
                middle: Some(30.0),
                sectors_from: Some(60.0),
                ..Grooves::default()
            }),
            recess: Some(Recess::default()),
            screws: vec![ScrewCircle::default()],
            ..Board::default()
        };
        board.panel.build = Build::Seams {
            at: vec![93.0, -75.0],
        };
        Workpiece::of(&board).unwrap()
    }

    #[test]
    fn every_thing_is_found_where_it_is_drawn() {
        let workpiece = full();
        let at = |x: f64, y: f64| thing_at(&workpiece, Point::new(x, y), 1.5);
        let on =
            |radius, degrees| thing_at(&workpiece, point_at(radius, Angle::degrees(degrees)), 1.5);
        assert_eq!(on(320.4, 77.0), Some(Thing::Rim));
        assert_eq!(
            on(320.0 - 5.0 - 5.0 - 1.0, 77.0),
            Some(Thing::Groove(GrooveKind::Rim))
        );
        assert_eq!(on(31.0, 10.0), Some(Thing::Groove(GrooveKind::Middle)));
        assert_eq!(on(90.0, 30.0), Some(Thing::Groove(GrooveKind::Sector)));
        assert_eq!(on(50.0, 45.0), Some(Thing::Screws(0)));
        assert_eq!(on(60.0, 100.0), Some(Thing::Recess));
        assert_eq!(at(20.0, 93.0), Some(Thing::Seam(0)));
        assert_eq!(at(-20.0, -75.5), Some(Thing::Seam(1)));
        assert_eq!(at(0.5, 0.5), Some(Thing::Hole(HoleId::CENTER)));
    }

    #[test]
    fn the_wood_between_the_holes_of_a_pocket_selects_the_pocket() {
        let workpiece = full();
        let center = |name: &str| {
            workpiece
                .layout()
                .hole(name.parse().unwrap())
                .unwrap()
                .center
        };
        let between = center("S3-1").midpoint(center("S3-2"));
        assert_eq!(thing_at(&workpiece, between, 1.0), Some(Thing::Pocket(3)));
        assert!(Thing::Pocket(9).shapes(&workpiece).is_empty());
        assert!(Thing::Seam(7).shapes(&workpiece).is_empty());
    }
}
