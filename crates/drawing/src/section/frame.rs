//! The frame that puts a part of a section on paper.
//!
//! In the frame of a section x runs along the cut from the center pin and y up from the top face, in mm of the board; on paper
//! both are scaled alike. Curves arrive as many corners; those that no reader would miss are dropped here, once.

use kurbo::{Circle, Point, Rect};
use workshop::Face;

use super::spans::Contour;

/// Greatest distance between a dropped corner and the edge drawn instead, mm on paper.
const OFF: f64 = 0.01;
/// Length below which an edge has no direction, mm on paper.
const SHORTEST: f64 = 1e-9;

/// The frame that puts a part of a section on paper.
#[derive(Debug, Clone, Copy)]
pub struct Frame {
    /// Millimeters on paper per millimeter of the board.
    pub scale: f64,
    /// The point of the section that is drawn at the origin.
    pub at: Point,
}

impl Frame {
    /// The point on paper of a point of the section.
    pub fn place(&self, at: Point) -> Point {
        ((at - self.at) * self.scale).to_point()
    }

    /// The box on paper of a box of the section.
    pub fn place_box(&self, area: Rect) -> Rect {
        Rect::from_points(
            self.place(Point::new(area.x0, area.y0)),
            self.place(Point::new(area.x1, area.y1)),
        )
    }

    /// The outline of a body on paper.
    pub fn contour(&self, face: &Face) -> Contour {
        match face {
            Face::Disc(circle) => Contour::Disc(Circle::new(
                self.place(circle.center),
                circle.radius * self.scale,
            )),
            Face::Corners(corners) => self.polygon(corners),
        }
    }

    /// An outline on paper.
    pub fn polygon(&self, corners: &[Point]) -> Contour {
        let placed: Vec<Point> = corners.iter().map(|at| self.place(*at)).collect();
        Contour::new(plainer(&placed))
    }
}

/// Corners without those that make no difference on paper, so that curves have no more of them than they need.
///
/// A corner is dropped if all corners dropped since the last kept one stay within a hundredth of a millimeter of the edge drawn
/// instead. One pass from corner to corner is enough, as the outlines are finely divided arcs.
fn plainer(corners: &[Point]) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::with_capacity(corners.len());
    // The corners dropped since the last kept one.
    let mut passed: Vec<Point> = Vec::new();
    for (&at, &next) in corners.iter().zip(corners.iter().skip(1)) {
        let is_plain = kept.last().is_some_and(|&from| {
            let mut skipped = passed.iter().chain([&at]);
            skipped.all(|corner| off_line(*corner, from, next) <= OFF)
        });
        if is_plain {
            passed.push(at);
        } else {
            kept.push(at);
            passed.clear();
        }
    }
    kept.extend(corners.last());
    kept
}

/// Distance of a point from the line between two others.
fn off_line(point: Point, from: Point, to: Point) -> f64 {
    let way = to - from;
    let length = way.hypot();
    if length < SHORTEST {
        return (point - from).hypot();
    }
    (way.cross(point - from) / length).abs()
}
