//! The measure between two things on the board.

use geometry::{Angle, Circle, Point, Vec2, bearing_of, point_at};
use workshop::Workpiece;

use super::End;

/// Radii that differ by no more than this are those of one circle, mm.
const ONE_CIRCLE: f64 = 0.005;

/// The measure between two things.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Where it begins.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// The straight distance, mm; below zero where two bores, or a bore and the thing it is measured to, overlap.
    pub straight: f64,
    /// Wood between the mouths of two bores that are measured from center to center, mm; below zero where they meet.
    pub between: Option<f64>,
    /// The way along a circle about the center pin, where both ends lie on one.
    pub along: Option<Along>,
}

/// A way along a circle about the center pin, the shorter one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Along {
    /// Radius of the circle, mm.
    pub radius: f64,
    /// Bearing of the place where it begins.
    pub start: Angle,
    /// The turn from there to the end; below zero for a way against the clock.
    pub sweep: Angle,
    /// Length of the way, mm.
    pub length: f64,
}

/// The measure from one thing to another, as a rule laid between them would read; none where one of them is not on the board any
/// more, or both are the same.
///
/// An edge is measured where it is nearest to the other end: from edge to edge of two bores is the wood between them, and from
/// a bore to the edge of the board the wood outside it. Between two places of the board's edge the rule lies across.
///
/// ```
/// use board::Board;
/// use drawing::{End, span};
/// use workshop::Workpiece;
/// let board = Board::default();
/// let workpiece = Workpiece::of(&board)?;
/// let [a, b] = ["T1-3", "T1-4"].map(|name| name.parse().unwrap());
/// let neighbors = span(&workpiece, End::Center(a), End::Center(b)).unwrap();
/// assert!((neighbors.straight - board.pitch).abs() < 1e-9);
/// // On a ring the way along the circle is longer than the rule.
/// assert!(neighbors.along.unwrap().length > board.pitch);
/// let wood = span(&workpiece, End::Edge(a), End::Edge(b)).unwrap();
/// assert_eq!(Some(wood.straight), neighbors.between);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn span(workpiece: &Workpiece, from: End, to: End) -> Option<Span> {
    if from == to {
        return None;
    }
    let (start, end) = (Form::of(workpiece, from)?, Form::of(workpiece, to)?);
    let (near, far, straight) = start.to(&end);
    Some(Span {
        from: near,
        to: far,
        straight,
        between: between(workpiece, from, to),
        along: along(&start, &end),
    })
}

/// Where a thing that is measured to lies by itself: a center, the place of the rim that was pointed at, the middle of a seam;
/// none where the board does not have it.
///
/// ```
/// use board::Board;
/// use drawing::{End, end_place};
/// use geometry::{Angle, Point};
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&Board::default())?;
/// let top = end_place(&workpiece, End::Rim(Angle::ZERO));
/// assert_eq!(top, Some(Point::new(0.0, 320.0)));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn end_place(workpiece: &Workpiece, end: End) -> Option<Point> {
    Some(match Form::of(workpiece, end)? {
        Form::Point(at) => at,
        Form::Bore(mouth) => mouth.center,
        Form::Rim(radius, bearing) => point_at(radius, bearing),
        Form::Line(height) => Point::new(0.0, height),
    })
}

/// Half the length of a level line of a height within a disc about the center pin, mm; nothing outside it.
///
/// ```
/// assert_eq!(drawing::half_chord(50.0, 30.0), 40.0);
/// assert_eq!(drawing::half_chord(50.0, -60.0), 0.0);
/// ```
pub fn half_chord(radius: f64, height: f64) -> f64 {
    (radius * radius - height * height).max(0.0).sqrt()
}

/// The shape that a thing is measured by.
#[derive(Debug, Clone, Copy)]
enum Form {
    Point(Point),
    Bore(Circle),
    Rim(f64, Angle),
    Line(f64),
}

impl Form {
    /// The shape of a thing, if the board has it.
    fn of(workpiece: &Workpiece, end: End) -> Option<Self> {
        let hole = |id| workpiece.layout().hole(id);
        Some(match end {
            End::Pin => Self::Point(Point::ORIGIN),
            End::Center(id) => Self::Point(hole(id)?.center),
            End::Edge(id) => Self::Bore(hole(id)?.mouth()),
            End::Rim(bearing) => Self::Rim(workpiece.board().blank.radius(), bearing),
            End::Seam(at) => Self::Line(*workpiece.seams().get(at)?),
        })
    }

    /// The place of a rule between two shapes, and its reading.
    fn to(&self, other: &Self) -> (Point, Point, f64) {
        match (*self, *other) {
            (Self::Rim(radius, a), Self::Rim(_, b)) => {
                straight(point_at(radius, a), point_at(radius, b))
            }
            (Self::Rim(radius, bearing), Self::Line(_)) => {
                Self::Point(point_at(radius, bearing)).to(other)
            }
            (Self::Rim(radius, bearing), _) => {
                let (center, bore) = other.round();
                let out = direction(center.to_vec2(), bearing);
                let left = radius - center.to_vec2().length() - bore;
                let at = (out * radius).to_point();
                (at, center + out * bore, left)
            }
            (Self::Line(a), Self::Line(b)) => straight(Point::new(0.0, a), Point::new(0.0, b)),
            (Self::Line(_), Self::Rim(..))
            | (Self::Point(_) | Self::Bore(_), Self::Rim(..) | Self::Line(_)) => {
                let (to, from, length) = other.to(self);
                (from, to, length)
            }
            (Self::Line(height), _) => {
                let (center, bore) = other.round();
                let up = if center.y < height { 1.0 } else { -1.0 };
                let left = (center.y - height).abs() - bore;
                let edge = center + Vec2::new(0.0, up * bore);
                (Point::new(center.x, height), edge, left)
            }
            _ => between_round(self.round(), other.round()),
        }
    }

    /// The middle and the radius of a point or a bore.
    const fn round(&self) -> (Point, f64) {
        match self {
            Self::Point(point) => (*point, 0.0),
            Self::Bore(mouth) => (mouth.center, mouth.radius),
            Self::Rim(..) | Self::Line(_) => (Point::ORIGIN, 0.0),
        }
    }

    /// The place that can lie on a circle about the center pin.
    fn place(&self) -> Option<Point> {
        match self {
            Self::Point(point) => Some(*point),
            Self::Rim(radius, bearing) => Some(point_at(*radius, *bearing)),
            Self::Bore(_) | Self::Line(_) => None,
        }
    }
}

fn straight(from: Point, to: Point) -> (Point, Point, f64) {
    (from, to, from.distance(to))
}

/// The rule from the edge of one bore to that of another; a point is a bore without width. From a point within a bore it
/// runs outward to the edge.
fn between_round((a, near): (Point, f64), (b, far): (Point, f64)) -> (Point, Point, f64) {
    let (way, apart) = (b - a, a.distance(b));
    let out = direction(way, Angle::ZERO);
    if near == 0.0 && apart < far {
        return (a, b - out * far, far - apart);
    }
    if far == 0.0 && apart < near {
        return (a + out * near, b, near - apart);
    }
    (a + out * near, b - out * far, apart - near - far)
}

/// A unit vector, in an arbitrary direction where none is defined.
fn direction(way: Vec2, else_on: Angle) -> Vec2 {
    if way.length() > 0.0 {
        way.normalize()
    } else {
        point_at(1.0, else_on).to_vec2()
    }
}

/// Wood between two bores that are measured by their centers.
fn between(workpiece: &Workpiece, from: End, to: End) -> Option<f64> {
    let mouth = |end| match end {
        End::Center(id) => workpiece.layout().hole(id).map(board::Hole::mouth),
        _ => None,
    };
    Some(geometry::web_between(mouth(from)?, mouth(to)?))
}

/// The way along the circle that both ends lie on.
fn along(from: &Form, to: &Form) -> Option<Along> {
    let (from, to) = (from.place()?, to.place()?);
    let radius = from.to_vec2().length();
    let is_one = (to.to_vec2().length() - radius).abs() <= ONE_CIRCLE;
    if !is_one || radius <= ONE_CIRCLE {
        return None;
    }
    let start = bearing_of(from);
    let sweep = (bearing_of(to) - start).wrapped_to_half_turns();
    Some(Along {
        radius,
        start,
        sweep,
        length: radius * sweep.as_radians().abs(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Build};
    use testkit::assert_near;

    fn workpiece() -> Workpiece {
        let mut board = Board::default();
        board.panel.build = Build::Halves;
        Workpiece::of(&board).unwrap()
    }

    fn center(name: &str) -> End {
        End::Center(name.parse().unwrap())
    }

    fn edge(name: &str) -> End {
        End::Edge(name.parse().unwrap())
    }

    fn read(from: End, to: End) -> f64 {
        span(&workpiece(), from, to).unwrap().straight
    }

    #[test]
    fn a_rule_reads_the_same_from_either_end() {
        let rim = End::Rim(Angle::degrees(77.0));
        let other = End::Rim(Angle::degrees(200.0));
        let ends = [
            center("T2-5"),
            edge("H3-1"),
            center("C"),
            rim,
            other,
            End::Seam(0),
        ];
        for (at, from) in ends.into_iter().enumerate() {
            for to in ends.into_iter().skip(at + 1) {
                let there = span(&workpiece(), from, to).unwrap();
                let back = span(&workpiece(), to, from).unwrap();
                assert_near!(there.straight, back.straight, 1e-9);
                assert_near!(there.from, back.to, 1e-9);
                assert_near!(there.from.distance(there.to), there.straight.abs(), 1e-9);
            }
        }
    }

    #[test]
    fn from_a_center_to_its_own_edge_is_the_radius_of_the_bore() {
        assert_near!(read(center("T1-1"), edge("T1-1")), 6.0, 1e-9);
        assert_near!(read(edge("C"), center("C")), 6.0, 1e-9);
        assert_eq!(span(&workpiece(), edge("C"), edge("C")), None);
    }

    #[test]
    fn to_the_rim_is_the_wood_outside_a_bore() {
        let workpiece = workpiece();
        let hole = *workpiece.layout().hole("T1-9".parse().unwrap()).unwrap();
        let radius = hole.center.to_vec2().length();
        let rim = End::Rim(Angle::degrees(190.0));
        assert_near!(read(rim, edge("T1-9")), 320.0 - radius - 6.0, 1e-9);
        assert_near!(read(rim, center("T1-9")), 320.0 - radius, 1e-9);
        assert_near!(
            read(rim, End::Seam(0)),
            320.0 * Angle::degrees(10.0).cos(),
            1e-9
        );
    }

    #[test]
    fn a_bore_that_a_seam_runs_through_is_less_than_nothing_from_it() {
        assert_near!(read(End::Seam(0), edge("C")), -6.0, 1e-9);
        assert_near!(read(center("C"), End::Seam(0)), 0.0, 1e-9);
    }

    #[test]
    fn along_the_circle_the_shorter_way_is_taken() {
        let rim = |degrees| End::Rim(Angle::degrees(degrees));
        let across = span(&workpiece(), rim(350.0), rim(80.0)).unwrap();
        let along = across.along.unwrap();
        assert_near!(along.sweep.as_degrees(), 90.0, 1e-9);
        assert_near!(along.length, 320.0 * core::f64::consts::FRAC_PI_2, 1e-9);
        assert_near!(across.straight, 320.0 * 2_f64.sqrt(), 1e-9);
        // A home lane runs outward: its holes lie on no one circle.
        let lane = span(&workpiece(), center("H1-1"), center("H1-2")).unwrap();
        assert_eq!(lane.along, None);
        assert_eq!(lane.between, Some(19.0 - 12.0));
    }

    #[test]
    fn what_is_gone_has_no_measure() {
        assert_eq!(span(&workpiece(), center("T9-1"), center("C")), None);
        assert_eq!(span(&workpiece(), End::Seam(3), center("C")), None);
    }
}
