//! The measurement between two things on the board.

use geometry::{Angle, Circle, Point, Vec2, bearing_of, point_at};
use workshop::Workpiece;

use super::End;

/// Radii that differ by no more than this count as one circle, mm.
const ONE_CIRCLE: f64 = 0.005;

/// The measurement between two things.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Its start.
    pub from: Point,
    /// Its end.
    pub to: Point,
    /// The straight distance, mm; negative if two bores, or a bore and the other thing, overlap.
    pub straight: f64,
    /// Wood between the mouths of two bores that are measured from center to center, mm; negative if they overlap.
    pub between: Option<f64>,
    /// The path along a circle about the center pin, where both ends are on one.
    pub along: Option<Along>,
}

/// A path along a circle about the center pin, the shorter of the two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Along {
    /// Radius of the circle, mm.
    pub radius: f64,
    /// Bearing of its start.
    pub start: Angle,
    /// The angle from there to the end; negative for counterclockwise.
    pub sweep: Angle,
    /// Length of the path, mm.
    pub length: f64,
}

/// The measurement from one thing to another, as a rule laid between them would read; `None` if one of them is no longer on the
/// board, or both are the same.
///
/// An edge is measured at its point nearest to the other end: from edge to edge of two bores is the wood between them, and from
/// a bore to the edge of the board is the wood outside it. Between two points of the board's edge the rule lies across the
/// board.
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
/// // On a ring the path along the circle is longer than the straight distance.
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

/// The position of a single end of a measurement: a center, the point of the rim that was pointed at, the middle of a seam;
/// `None` if the board does not have it.
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

/// Half the length of a horizontal line at a height within a disc about the center pin, mm; 0 outside it.
///
/// ```
/// assert_eq!(drawing::half_chord(50.0, 30.0), 40.0);
/// assert_eq!(drawing::half_chord(50.0, -60.0), 0.0);
/// ```
pub fn half_chord(radius: f64, height: f64) -> f64 {
    (radius * radius - height * height).max(0.0).sqrt()
}

/// The shape to which a thing is measured.
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

    /// The ends of a rule between two shapes, and its reading.
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

    /// The center and the radius of a point or a bore.
    const fn round(&self) -> (Point, f64) {
        match self {
            Self::Point(point) => (*point, 0.0),
            Self::Bore(mouth) => (mouth.center, mouth.radius),
            Self::Rim(..) | Self::Line(_) => (Point::ORIGIN, 0.0),
        }
    }

    /// The point that can be on a circle about the center pin.
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

/// The rule from the edge of one bore to that of another; a point is a bore of width 0. From a point within a bore it runs
/// outward to the edge.
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

/// A unit vector, in an arbitrary direction if none is defined.
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

/// The path along the circle that both ends are on.
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
    fn a_center_is_a_radius_away_from_its_own_edge() {
        assert_near!(read(center("T1-1"), edge("T1-1")), 6.0, 1e-9);
        assert_near!(read(edge("C"), center("C")), 6.0, 1e-9);
        assert_eq!(span(&workpiece(), edge("C"), edge("C")), None);
    }

    #[test]
    fn the_distance_to_the_rim_is_the_wood_outside_a_bore() {
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
    fn a_bore_cut_by_a_seam_has_a_negative_distance_to_it() {
        assert_near!(read(End::Seam(0), edge("C")), -6.0, 1e-9);
        assert_near!(read(center("C"), End::Seam(0)), 0.0, 1e-9);
    }

    #[test]
    fn the_shorter_path_along_the_circle_is_chosen() {
        let rim = |degrees| End::Rim(Angle::degrees(degrees));
        let across = span(&workpiece(), rim(350.0), rim(80.0)).unwrap();
        let along = across.along.unwrap();
        assert_near!(along.sweep.as_degrees(), 90.0, 1e-9);
        assert_near!(along.length, 320.0 * core::f64::consts::FRAC_PI_2, 1e-9);
        assert_near!(across.straight, 320.0 * 2_f64.sqrt(), 1e-9);
        // A home lane runs outward: its holes are not on one circle.
        let lane = span(&workpiece(), center("H1-1"), center("H1-2")).unwrap();
        assert_eq!(lane.along, None);
        assert_eq!(lane.between, Some(19.0 - 12.0));
    }

    #[test]
    fn a_removed_thing_has_no_measurement() {
        assert_eq!(span(&workpiece(), center("T9-1"), center("C")), None);
        assert_eq!(span(&workpiece(), End::Seam(3), center("C")), None);
    }
}
