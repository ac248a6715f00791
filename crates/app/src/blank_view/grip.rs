//! Things that can be dragged on the blank: the one under the pointer, its place, and its move.

use board::{FlawShape, Stock, StockOutline, Units, at_mark, field};
use geometry::Point;

use super::drawn::{Area, Drawn};

/// Outlines with more corners than this have no handles: they were measured by a machine.
pub const MOST_HANDLES: usize = 200;

/// Something that can be dragged; flaws and corners by their place in the document.
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

/// The thing under a point: small things first, then the flaw that lies around it. `slack` is how far beside a thing
/// the point may lie, mm.
pub fn grip_at(
    stock: &Stock,
    drawn: &Drawn,
    pin: Option<Point>,
    at: Point,
    slack: f64,
) -> Option<Grip> {
    if pin.is_some_and(|pin| pin.distance(at) <= 1.5 * slack) {
        return Some(Grip::Pin);
    }
    let near = handles(stock).map(|(grip, corner)| (corner.distance(at), grip));
    let near = near.filter(|(miss, _)| *miss <= slack);
    let corner = near.min_by(|a, b| a.0.total_cmp(&b.0));
    corner
        .map(|(_, grip)| grip)
        .or_else(|| flaw_at(stock, drawn, at, slack))
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

/// The thing so many places further among all that can be dragged, around the end: the pin, corners, flaws.
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

/// Where something is; the first corner stands for a flaw that has corners.
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

/// Brings something to a place, at a mark of the maker's rule and within what a document may hold.
pub fn bring(stock: &mut Stock, grip: Grip, to: Point, units: Units) {
    let to = [kept(to.x, units), kept(to.y, units)];
    match grip {
        Grip::Pin => stock.place = Some(to),
        Grip::Corner(at) => {
            if let StockOutline::Corners { corners } = &mut stock.outline
                && let Some(corner) = corners.get_mut(at)
            {
                *corner = to;
            }
        }
        Grip::FlawCorner(flaw, at) => {
            if let Some(corner) = stock
                .flaws
                .get_mut(flaw)
                .and_then(|flaw| corner_of(&mut flaw.shape, at))
            {
                *corner = to;
            }
        }
        Grip::Flaw(flaw) => match stock.flaws.get_mut(flaw).map(|flaw| &mut flaw.shape) {
            Some(FlawShape::Round { x, y, .. }) => [*x, *y] = to,
            Some(FlawShape::Area { corners }) => shift(corners, to, units),
            None => {}
        },
    }
}

fn flaw_at(stock: &Stock, drawn: &Drawn, at: Point, slack: f64) -> Option<Grip> {
    let flaws = stock.flaws.iter().zip(drawn.flaws()).enumerate();
    let miss = |shape: &FlawShape, area: &Area| match shape {
        FlawShape::Round { x, y, diameter } => Point::new(*x, *y).distance(at) - diameter / 2.0,
        FlawShape::Area { .. } if area.contains(at) => 0.0,
        FlawShape::Area { .. } => f64::INFINITY,
    };
    let misses = flaws.map(|(number, (flaw, (_, area)))| (miss(&flaw.shape, area), number));
    let near = misses.filter(|(miss, _)| *miss <= slack);
    // A round flaw within an area lies deeper in than its edge, and is meant.
    near.min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, number)| Grip::Flaw(number))
}

/// Moves corners so that the first comes to a place, if all of them stay within what a document may hold.
fn shift(corners: &mut [[f64; 2]], [x, y]: [f64; 2], units: Units) {
    let Some([from_x, from_y]) = corners.first().copied() else {
        return;
    };
    let moved =
        |[cx, cy]: [f64; 2]| [cx + x - from_x, cy + y - from_y].map(|mm| at_mark(mm, units));
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

fn kept(mm: f64, units: Units) -> f64 {
    let range = field::FLAW_X.range();
    at_mark(mm, units).max(range.min).min(range.max)
}

const fn point([x, y]: [f64; 2]) -> Point {
    Point::new(x, y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{FlawKind, StockFlaw};

    const PIN: Option<Point> = Some(Point::new(300.0, 200.0));

    /// A triangle with a crack, and a knot on it.
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
        let (stock, mut drawn) = (stock(), Drawn::default());
        drawn.follow(&stock);
        grip_at(&stock, &drawn, PIN, Point::new(x, y), 4.0)
    }

    #[test]
    fn what_is_under_the_pointer_is_found_small_things_first() {
        assert_eq!(picked(303.0, 202.0), Some(Grip::Pin));
        assert_eq!(picked(898.0, 2.0), Some(Grip::Corner(1)));
        assert_eq!(picked(101.0, 99.0), Some(Grip::FlawCorner(0, 0)));
        assert_eq!(picked(120.0, 120.0), Some(Grip::Flaw(0)));
        assert_eq!(picked(145.0, 121.0), Some(Grip::Flaw(1)));
        assert_eq!(picked(500.0, 50.0), None);
    }

    #[test]
    fn everything_that_is_found_can_be_brought_elsewhere() {
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
    fn on_an_inch_board_things_come_to_a_sixty_fourth() {
        let mut stock = stock();
        bring(&mut stock, Grip::Pin, Point::new(254.1, 12.8), Units::INCH);
        assert_eq!(stock.place, Some([254.0, 12.7]));
    }

    #[test]
    fn what_is_gone_meanwhile_is_not_missed() {
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
}
