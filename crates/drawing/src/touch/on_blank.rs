//! Things that can be dragged on the blank: the thing at a point, its position, its move, and the guides that it snaps to.

use board::{FlawShape, Stock, StockOutline, Units, at_mark, field};
use geometry::{Point, Vec2};
use kurbo::{BezPath, PathEl, Shape as _};

use super::{Guide, Way, snapped};

/// The most corners of an outline with handles; outlines with more were measured by a machine.
pub const MOST_HANDLES: usize = 200;

/// Something that can be dragged; flaws and corners by their index in the document.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grip {
    /// The center pin.
    Pin,
    /// A corner of the blank.
    Corner(usize),
    /// A corner of a flaw.
    FlawCorner(usize, usize),
    /// A flaw.
    Flaw(usize),
}

/// The thing at a point of the blank: small things first, then the flaw around the point. `slack` is how far from a thing the
/// point may be, mm.
///
/// ```
/// use board::Stock;
/// use drawing::on_blank::{Grip, grip_at};
/// use geometry::Point;
/// let pin = Point::new(300.0, 200.0);
/// let at = |x, y| grip_at(&Stock::default(), Some(pin), Point::new(x, y), 4.0);
/// assert_eq!(at(302.0, 201.0), Some(Grip::Pin));
/// assert_eq!(at(350.0, 200.0), None);
/// ```
pub fn grip_at(stock: &Stock, pin: Option<Point>, at: Point, slack: f64) -> Option<Grip> {
    if pin.is_some_and(|pin| pin.distance(at) <= 1.5 * slack) {
        return Some(Grip::Pin);
    }
    let near = handles(stock).map(|(grip, corner)| (corner.distance(at), grip));
    let near = near.filter(|(miss, _)| *miss <= slack);
    let corner = near.min_by(|a, b| a.0.total_cmp(&b.0));
    corner
        .map(|(_, grip)| grip)
        .or_else(|| flaw_at(stock, at, slack))
}

/// Corners that can be dragged.
pub fn handles(stock: &Stock) -> impl Iterator<Item = (Grip, Point)> {
    let corners = match &stock.outline {
        StockOutline::Corners { corners } => few(corners),
        StockOutline::Unknown | StockOutline::Slab { .. } => &[],
    };
    let blank = corners
        .iter()
        .enumerate()
        .map(|(at, corner)| (Grip::Corner(at), point(*corner)));
    let flaws = stock.flaws.iter().enumerate().flat_map(|(flaw, found)| {
        let corners = match &found.shape {
            FlawShape::Area { corners } => few(corners),
            FlawShape::Round { .. } => &[],
        };
        let grip =
            move |(at, corner): (usize, &[f64; 2])| (Grip::FlawCorner(flaw, at), point(*corner));
        corners.iter().enumerate().map(grip)
    });
    blank.chain(flaws)
}

/// The thing this many positions further among all that can be dragged, wrapping at the end: the pin, corners, flaws.
pub fn stepped(
    stock: &Stock,
    pin: Option<Point>,
    from: Option<Grip>,
    steps: isize,
) -> Option<Grip> {
    let pin = pin.map(|_| Grip::Pin).into_iter();
    let corners = handles(stock).map(|(grip, _)| grip);
    let flaws = (0..stock.flaws.len()).map(Grip::Flaw);
    let all: Vec<Grip> = pin.chain(corners).chain(flaws).collect();
    let count = all.len().cast_signed();
    let here = from.and_then(|from| all.iter().position(|grip| *grip == from));
    let next = match here {
        Some(here) => here.cast_signed() + steps,
        None => steps - isize::from(steps > 0),
    };
    all.get(next.checked_rem_euclid(count)? as usize).copied()
}

/// The position of a thing; for a flaw with corners, its first corner.
pub fn place(stock: &Stock, pin: Option<Point>, grip: Grip) -> Option<Point> {
    match grip {
        Grip::Pin => pin,
        Grip::Corner(at) => match &stock.outline {
            StockOutline::Corners { corners } => corners.get(at).copied().map(point),
            StockOutline::Unknown | StockOutline::Slab { .. } => None,
        },
        Grip::FlawCorner(flaw, at) => match &stock.flaws.get(flaw)?.shape {
            FlawShape::Area { corners } => corners.get(at).copied().map(point),
            FlawShape::Round { .. } => None,
        },
        Grip::Flaw(flaw) => match &stock.flaws.get(flaw)?.shape {
            FlawShape::Round { x, y, .. } => Some(Point::new(*x, *y)),
            FlawShape::Area { corners } => corners.first().copied().map(point),
        },
    }
}

/// Moves a thing to a point, rounded to a mark of the maker's rule and within the document's ranges.
pub fn bring(stock: &mut Stock, grip: Grip, to: Point, units: Units) {
    put(stock, grip, [at_mark(to.x, units), at_mark(to.y, units)]);
}

/// The parts that a thing on the blank may snap to.
#[derive(Debug, Clone, Copy)]
pub struct Marks {
    /// The center pin; `None` if it is not shown.
    pub pin: Option<Point>,
    /// The position of the pin with the most sound wood around it; `None` if it is not known.
    pub best: Option<Point>,
    /// Reach of the guides, mm; 0 for no snapping.
    pub reach: f64,
    /// The maker's unit.
    pub units: Units,
}

/// Moves a thing to a point, or to a guide near it; returns the guides that it is on. `before` is the blank at the start of the
/// drag.
///
/// ```
/// use board::{Stock, Units};
/// use drawing::on_blank::{Grip, Marks, bring_near};
/// use geometry::Point;
/// let (before, pin) = (Stock::default(), Point::new(300.0, 200.0));
/// let marks = Marks { pin: Some(pin), best: None, reach: 3.0, units: Units::Mm };
/// let mut stock = before.clone();
/// let on = bring_near(&mut stock, &before, Grip::Pin, Point::new(350.04, 201.0), marks);
/// assert_eq!(stock.place, Some([350.0, 200.0]));
/// assert_eq!(on[0].words, "as high as before");
/// ```
pub fn bring_near(
    stock: &mut Stock,
    before: &Stock,
    grip: Grip,
    to: Point,
    marks: Marks,
) -> Vec<Guide> {
    let guides = guides(before, grip, marks);
    let (at, on) = snapped(to, &guides, marks.reach).unwrap_or((to, Vec::new()));
    let fixes = |along: Vec2| {
        let is_it = |guide: &&Guide| match guide.way {
            Way::Line(_, way) => way == along,
            Way::Place(_) => true,
            Way::Circle(_) => false,
        };
        on.iter().any(is_it)
    };
    // A guide fixes one of the coordinates or both; a free one is rounded to a mark.
    let kept = |mm: f64, is_fixed: bool| {
        if is_fixed {
            (mm * 1e4).round() / 1e4 + 0.0
        } else {
            at_mark(mm, marks.units)
        }
    };
    let to = [kept(at.x, fixes(UPRIGHT)), kept(at.y, fixes(LEVEL))];
    put(stock, grip, to);
    on.into_iter().cloned().collect()
}

const LEVEL: Vec2 = Vec2::new(1.0, 0.0);
const UPRIGHT: Vec2 = Vec2::new(0.0, 1.0);
/// Number of corners above which they give no guides, since there would be one everywhere.
const MANY: usize = 24;

/// The guides for a thing on the blank: its start position, the pin, the corners, the center, and the best place.
fn guides(before: &Stock, grip: Grip, marks: Marks) -> Vec<Guide> {
    let line = |through: Point, along: Vec2, words: String| Guide {
        way: Way::Line(through, along),
        words,
    };
    let both = |through: Point, level: String, upright: String| {
        [line(through, LEVEL, level), line(through, UPRIGHT, upright)]
    };
    let mut all = Vec::new();
    if let Some(was) = place(before, marks.pin, grip) {
        let words = ["as high as before", "as far along as before"].map(str::to_owned);
        let [level, upright] = words;
        all.extend(both(was, level, upright));
    }
    if grip == Grip::Pin {
        all.extend(marks.best.map(|best| Guide {
            way: Way::Place(best),
            words: "the best place".into(),
        }));
        if let Some(middle) = middle(before) {
            let words = ["halfway up the blank", "halfway along the blank"].map(str::to_owned);
            let [level, upright] = words;
            all.extend(both(middle, level, upright));
        }
        return all;
    }
    // An automatic pin moves away from flaws while they move.
    if let Some(pin) = before.place.map(point) {
        all.extend(both(
            pin,
            "level with the pin".into(),
            "straight above or below the pin".into(),
        ));
    }
    if let (Grip::Corner(own), StockOutline::Corners { corners }) = (grip, &before.outline)
        && corners.len() < MANY
    {
        let others = corners.iter().enumerate().filter(|(at, _)| *at != own);
        all.extend(others.flat_map(|(at, corner)| {
            let name = format!("corner {}", at + 1);
            both(
                point(*corner),
                format!("level with {name}"),
                format!("straight above or below {name}"),
            )
        }));
    }
    all
}

/// The center of the box around a blank.
fn middle(stock: &Stock) -> Option<Point> {
    let corners = stock.outline.corners()?;
    let points = corners.iter().map(|corner| point(*corner));
    let boxes = points.map(|corner| kurbo::Rect::from_points(corner, corner));
    Some(boxes.reduce(|all, one| all.union(one))?.center())
}

/// Sets the position of a thing, within the document's ranges.
fn put(stock: &mut Stock, grip: Grip, to: [f64; 2]) {
    let range = field::FLAW_X.range();
    let within = to.map(|mm| mm.max(range.min).min(range.max));
    match grip {
        Grip::Pin => stock.place = Some(within),
        Grip::Corner(at) => {
            if let StockOutline::Corners { corners } = &mut stock.outline
                && let Some(corner) = corners.get_mut(at)
            {
                *corner = within;
            }
        }
        Grip::FlawCorner(flaw, at) => {
            if let Some(corner) = stock
                .flaws
                .get_mut(flaw)
                .and_then(|flaw| corner_of(&mut flaw.shape, at))
            {
                *corner = within;
            }
        }
        Grip::Flaw(flaw) => match stock.flaws.get_mut(flaw).map(|flaw| &mut flaw.shape) {
            Some(FlawShape::Round { x, y, .. }) => [*x, *y] = within,
            Some(FlawShape::Area { corners }) => shift(corners, within),
            None => {}
        },
    }
}

fn flaw_at(stock: &Stock, at: Point, slack: f64) -> Option<Grip> {
    let miss = |shape: &FlawShape| match shape {
        FlawShape::Round { x, y, diameter } => Point::new(*x, *y).distance(at) - diameter / 2.0,
        FlawShape::Area { corners } if contains(corners, at) => 0.0,
        FlawShape::Area { .. } => f64::INFINITY,
    };
    let flaws = stock.flaws.iter().enumerate();
    let misses = flaws.map(|(number, flaw)| (miss(&flaw.shape), number));
    let near = misses.filter(|(miss, _)| *miss <= slack);
    // A round flaw within an area is deeper inside than its edge, and is the one selected.
    near.min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, number)| Grip::Flaw(number))
}

/// Whether a point is inside corners, also where their edges cross.
fn contains(corners: &[[f64; 2]], at: Point) -> bool {
    let Some((first, rest)) = corners.split_first() else {
        return false;
    };
    let start = core::iter::once(PathEl::MoveTo(point(*first)));
    let lines = rest.iter().map(|corner| PathEl::LineTo(point(*corner)));
    let edge: BezPath = start.chain(lines).chain([PathEl::ClosePath]).collect();
    edge.winding(at) % 2 != 0
}

/// Moves corners so that the first comes to a point, if all of them stay within the document's ranges.
fn shift(corners: &mut [[f64; 2]], [x, y]: [f64; 2]) {
    let Some([from_x, from_y]) = corners.first().copied() else {
        return;
    };
    let clean = |mm: f64| (mm * 1e4).round() / 1e4 + 0.0;
    let moved = |[cx, cy]: [f64; 2]| [cx + x - from_x, cy + y - from_y].map(clean);
    let range = field::FLAW_X.range();
    let is_kept = |[x, y]: [f64; 2]| range.check(x).is_ok() && range.check(y).is_ok();
    if corners.iter().all(|corner| is_kept(moved(*corner))) {
        for corner in corners {
            *corner = moved(*corner);
        }
    }
}

fn corner_of(shape: &mut FlawShape, at: usize) -> Option<&mut [f64; 2]> {
    match shape {
        FlawShape::Area { corners } => corners.get_mut(at),
        FlawShape::Round { .. } => None,
    }
}

fn few(corners: &[[f64; 2]]) -> &[[f64; 2]] {
    if corners.len() <= MOST_HANDLES {
        corners
    } else {
        &[]
    }
}

const fn point([x, y]: [f64; 2]) -> Point {
    Point::new(x, y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{FlawKind, StockFlaw};

    const PIN: Option<Point> = Some(Point::new(300.0, 200.0));

    /// A triangle with a crack and a knot.
    fn stock() -> Stock {
        let flaw = |kind, shape| StockFlaw { kind, shape };
        let crack = vec![
            [100.0, 100.0],
            [180.0, 100.0],
            [180.0, 140.0],
            [100.0, 140.0],
        ];
        Stock {
            outline: StockOutline::Corners {
                corners: vec![[0.0, 0.0], [900.0, 0.0], [0.0, 700.0]],
            },
            flaws: vec![
                flaw(FlawKind::Crack, FlawShape::Area { corners: crack }),
                flaw(
                    FlawKind::Knot,
                    FlawShape::Round {
                        x: 140.0,
                        y: 120.0,
                        diameter: 20.0,
                    },
                ),
            ],
            ..Stock::default()
        }
    }

    fn picked(x: f64, y: f64) -> Option<Grip> {
        grip_at(&stock(), PIN, Point::new(x, y), 4.0)
    }

    #[test]
    fn the_thing_under_the_pointer_is_found_small_things_first() {
        assert_eq!(picked(303.0, 202.0), Some(Grip::Pin));
        assert_eq!(picked(898.0, 2.0), Some(Grip::Corner(1)));
        assert_eq!(picked(101.0, 99.0), Some(Grip::FlawCorner(0, 0)));
        assert_eq!(picked(120.0, 120.0), Some(Grip::Flaw(0)));
        assert_eq!(picked(145.0, 121.0), Some(Grip::Flaw(1)));
        assert_eq!(picked(500.0, 50.0), None);
    }

    #[test]
    fn everything_that_is_found_can_be_moved() {
        let to = Point::new(41.26, 33.333);
        for grip in [
            Grip::Pin,
            Grip::Corner(2),
            Grip::FlawCorner(0, 3),
            Grip::Flaw(0),
            Grip::Flaw(1),
        ] {
            let mut stock = stock();
            assert!(place(&stock, PIN, grip).is_some());
            bring(&mut stock, grip, to, Units::Mm);
            let pin = stock.place.map(point).or(PIN);
            assert_eq!(
                place(&stock, pin, grip),
                Some(Point::new(41.3, 33.3)),
                "{grip:?}"
            );
        }
    }

    #[test]
    fn a_flaw_with_corners_keeps_its_shape_and_stays_in_range() {
        let mut stock = stock();
        bring(&mut stock, Grip::Flaw(0), Point::new(50.0, 60.0), Units::Mm);
        assert_eq!(
            place(&stock, None, Grip::FlawCorner(0, 2)),
            Some(Point::new(130.0, 100.0))
        );
        bring(&mut stock, Grip::Flaw(0), Point::new(1e6, 60.0), Units::Mm);
        assert_eq!(
            place(&stock, None, Grip::FlawCorner(0, 0)),
            Some(Point::new(50.0, 60.0))
        );
        bring(&mut stock, Grip::Pin, Point::new(-1e6, -0.01), Units::Mm);
        assert_eq!(stock.place, Some([-20_000.0, 0.0]));
    }

    #[test]
    fn on_an_inch_board_things_move_to_a_sixty_fourth() {
        let mut stock = stock();
        bring(&mut stock, Grip::Pin, Point::new(254.1, 12.8), Units::INCH);
        assert_eq!(stock.place, Some([254.0, 12.7]));
    }

    #[test]
    fn a_thing_removed_meanwhile_is_ignored() {
        let mut stock = stock();
        let before = stock.clone();
        for grip in [
            Grip::Corner(7),
            Grip::Flaw(9),
            Grip::FlawCorner(1, 0),
            Grip::FlawCorner(0, 9),
        ] {
            assert_eq!(place(&stock, None, grip), None);
            bring(&mut stock, grip, Point::ORIGIN, Units::Mm);
        }
        assert_eq!(stock, before);
    }

    #[test]
    fn an_outline_of_many_corners_has_no_handles() {
        let corners: Vec<[f64; 2]> = (0..201)
            .map(|at| [f64::from(at), f64::from(at * at)])
            .collect();
        let stock = Stock {
            outline: StockOutline::Corners { corners },
            ..Stock::default()
        };
        assert_eq!(handles(&stock).count(), 0);
    }

    #[test]
    fn a_dragged_thing_snaps_to_the_pin_to_corners_and_to_its_start() {
        let before = Stock {
            place: Some([300.0, 200.0]),
            ..stock()
        };
        let marks = Marks {
            pin: PIN,
            best: Some(Point::new(310.0, 210.0)),
            reach: 4.0,
            units: Units::Mm,
        };
        let brought = |grip, x, y| {
            let mut stock = before.clone();
            let on = bring_near(&mut stock, &before, grip, Point::new(x, y), marks);
            let pin = stock.place.map(point).or(PIN);
            let words: Vec<String> = on.into_iter().map(|guide| guide.words).collect();
            (place(&stock, pin, grip).unwrap(), words.join(", "))
        };
        let (at, on) = brought(Grip::Flaw(1), 301.5, 77.77);
        assert_eq!(
            (at, on.as_str()),
            (Point::new(300.0, 77.8), "straight above or below the pin")
        );
        let (at, on) = brought(Grip::Corner(1), 880.04, 698.5);
        assert_eq!(
            (at, on.as_str()),
            (Point::new(880.0, 700.0), "level with corner 3")
        );
        let (at, on) = brought(Grip::Pin, 309.0, 212.0);
        assert_eq!(
            (at, on.as_str()),
            (Point::new(310.0, 210.0), "the best place")
        );
        let (at, on) = brought(Grip::Pin, 451.0, 351.0);
        assert_eq!(at, Point::new(450.0, 350.0));
        assert!(
            on.contains("halfway up") && on.contains("halfway along"),
            "{on}"
        );
        let (at, on) = brought(Grip::Pin, 500.04, 260.0);
        assert_eq!((at, on.as_str()), (Point::new(500.0, 260.0), ""));
    }
}
