//! Insides: polygons cut into triangles once, and painted from frame to frame.

use earcut::Earcut;
use egui::epaint::{Mesh, Vertex, WHITE_UV};
use egui::{Color32, Shape, Stroke, TextureId, pos2};
use geometry::Point;
use kurbo::Rect;

use super::Pen;

/// The inside of a polygon, cut into triangles: painters of triangles fill convex shapes only, and a live edge is
/// anything but.
#[derive(Debug, Default)]
pub struct Fill {
    corners: Vec<Point>,
    /// Three corners each.
    triangles: Vec<u32>,
}

impl Fill {
    /// The inside of a polygon that does not cross or touch itself.
    pub fn of(corners: &[Point]) -> Self {
        let mut triangles = Vec::new();
        let places = corners.iter().map(|at| [at.x, at.y]);
        Earcut::new().earcut(places, &[], &mut triangles);
        Self {
            corners: corners.to_vec(),
            triangles,
        }
    }
}

impl Pen<'_> {
    /// An inside, without an outline.
    pub fn fill(&mut self, fill: &Fill, color: Color32) {
        let vertex = |at: &Point| Vertex {
            pos: self.camera.screen(*at),
            uv: WHITE_UV,
            color,
        };
        self.add(Mesh {
            indices: fill.triangles.clone(),
            vertices: fill.corners.iter().map(vertex).collect(),
            ..Mesh::default()
        });
    }

    /// An inside, without an outline, cut from a picture that fills a box of the drawing.
    pub fn fill_with(&mut self, fill: &Fill, texture: TextureId, bounds: Rect) {
        let share = |from: f64, to: f64| (from / to.max(1e-9)) as f32;
        let vertex = |at: &Point| Vertex {
            pos: self.camera.screen(*at),
            uv: pos2(
                share(at.x - bounds.x0, bounds.width()),
                share(bounds.y1 - at.y, bounds.height()),
            ),
            color: Color32::WHITE,
        };
        self.add(Mesh {
            indices: fill.triangles.clone(),
            vertices: fill.corners.iter().map(vertex).collect(),
            texture_id: texture,
        });
    }

    /// The inside of a convex polygon, without an outline.
    pub fn polygon(&mut self, corners: &[Point], color: Color32) {
        let corners = self.way(corners);
        self.add(Shape::convex_polygon(corners, color, Stroke::NONE));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

    /// The shoelace formula.
    fn area(corners: &[Point]) -> f64 {
        let ends = corners.iter().cycle().skip(1);
        let twice: f64 = corners
            .iter()
            .zip(ends)
            .map(|(a, b)| a.to_vec2().cross(b.to_vec2()))
            .sum();
        twice / 2.0
    }

    /// The area of all triangles, whichever way around they go.
    fn covered(corners: &[Point]) -> f64 {
        let fill = Fill::of(corners);
        let triangles = fill.triangles.chunks_exact(3);
        triangles
            .map(|three| area(&[0, 1, 2].map(|at| fill.corners[three[at] as usize])).abs())
            .sum()
    }

    #[test]
    fn notches_and_teeth_are_left_out() {
        let comb = [
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 8.0),
            (7.0, 2.0),
            (6.0, 8.0),
            (4.0, 8.0),
            (3.0, 1.0),
            (0.0, 8.0),
        ]
        .map(Point::from);
        let turned = comb.map(|at| Point::new(-at.y, at.x));
        for shape in [comb, turned] {
            assert_near!(covered(&shape), area(&shape), 1e-9);
        }
    }

    #[test]
    fn crossed_and_missing_corners_are_no_reason_to_fall_over() {
        let crossed = [(0.0, 0.0), (9.0, 9.0), (9.0, 0.0), (0.0, 9.0)].map(Point::from);
        Fill::of(&crossed);
        for few in 0..3 {
            assert!(Fill::of(&crossed[..few]).triangles.is_empty());
        }
    }

    #[test]
    fn a_jagged_slab_of_ten_thousand_corners_is_covered() {
        let below = (0..5000_u32).map(|at| Point::new(f64::from(at), f64::from(at * 7919 % 41)));
        let above = (0..5000_u32)
            .rev()
            .map(|at| Point::new(f64::from(at), 400.0 - f64::from(at * 104_729 % 37)));
        let slab: Vec<Point> = below.chain(above).collect();
        assert_near!(covered(&slab), area(&slab), 1e-3);
    }

    proptest! {
        #[test]
        fn any_star_is_covered_exactly(reaches in prop::collection::vec(5.0..100.0_f64, 3..40), turn in 0.0..6.0_f64) {
            let count = reaches.len() as f64;
            let corner = |(at, reach): (usize, &f64)| {
                let bearing = turn + at as f64 / count * core::f64::consts::TAU;
                Point::new(reach * libm::cos(bearing), reach * libm::sin(bearing))
            };
            let star: Vec<Point> = reaches.iter().enumerate().map(corner).collect();
            prop_assert!((covered(&star) - area(&star)).abs() < 1e-6);
        }
    }
}
