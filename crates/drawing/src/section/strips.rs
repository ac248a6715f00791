//! An area cut into level strips, since the areas of a drawing cannot have notches.
//!
//! Resin around a ball or beside a magnet is cut by horizontal lines at every corner of an outline, and more finely along circles.
//! Between two such lines every strip has straight sides.

use kurbo::{Point, Rect, Vec2};

use super::spans::{BESIDE, Contour, Ray, Spans};

/// Least height of a strip, mm on paper.
const STRIP: f64 = 0.1;
/// Number of heights along a circle at which a strip may end.
const STRIPS: u32 = 32;

/// The strips that horizontal lines give in a box, between the heights where any of some outlines may change.
pub fn strips<'a>(
    bounds: Rect,
    outlines: impl Iterator<Item = &'a Contour>,
    found: impl Fn(&Ray) -> Spans,
) -> Vec<Vec<Point>> {
    let mut heights: Vec<f64> = outlines.flat_map(levels).collect();
    heights.retain(|height| (bounds.y0..=bounds.y1).contains(height));
    heights.extend([bounds.y0, bounds.y1]);
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|next, kept| *next - *kept < STRIP);
    let at = |height: f64| {
        found(&Ray {
            from: Point::new(0.0, height),
            along: Vec2::new(1.0, 0.0),
        })
    };
    let mut strips = Vec::new();
    for (&low, &high) in heights.iter().zip(heights.iter().skip(1)) {
        let (mut below, mut above) = (at(low + BESIDE), at(high - BESIDE));
        if below.len() != above.len() {
            below = at(f64::midpoint(low, high));
            above.clone_from(&below);
        }
        for ((a, b), (c, d)) in below.into_iter().zip(above) {
            let corners = [(a, low), (b, low), (d, high), (c, high)];
            strips.push(corners.map(Point::from).into());
        }
    }
    strips
}

/// The heights at which an outline may change.
fn levels(contour: &Contour) -> Vec<f64> {
    match contour {
        Contour::Corners { corners, .. } => corners.iter().map(|corner| corner.y).collect(),
        Contour::Disc(circle) => (0..=STRIPS)
            .map(|at| {
                let turn = geometry::Angle::turn_part(i64::from(at), 2 * i64::from(STRIPS));
                circle.center.y + circle.radius * turn.cos()
            })
            .collect(),
    }
}
