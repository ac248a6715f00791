//! Circles and arcs as cubic curves, the only curves in a PDF.

use core::f64::consts::TAU;

use geometry::{Angle, Vec2};

/// Greatest deviation of a curve from its circle, mm.
///
/// The usual four curves would deviate by 2.7e-4 of the radius: 0.08 mm at a radius of 300 mm.
pub const TOLERANCE: f64 = 0.0005;

/// A cubic curve's three points after its start.
pub type Curve = [Vec2; 3];

/// The curves of an arc about the origin, from a bearing clockwise through a sweep.
///
/// `sweep` is limited to a full turn. A full turn is split at each quarter from `start`, so that programs that import the file
/// can snap to those points.
pub fn curves(radius: f64, start: Angle, sweep: Angle) -> impl Iterator<Item = Curve> {
    let sweep = sweep.as_radians().clamp(0.0, TAU);
    let count = count(radius, sweep);
    let step = Angle::radians(sweep / f64::from(count));
    let handle = radius * handle_length(step);
    (0..count).map(move |index| {
        let from = start + step * f64::from(index);
        let to = start + step * f64::from(index + 1);
        let end = outward(to) * radius;
        [
            outward(from) * radius + clockwise(from) * handle,
            end - clockwise(to) * handle,
            end,
        ]
    })
}

/// The direction outward from the center at a bearing.
pub fn outward(bearing: Angle) -> Vec2 {
    Vec2::new(bearing.sin(), bearing.cos())
}

/// The direction of increasing bearings at a bearing.
fn clockwise(bearing: Angle) -> Vec2 {
    Vec2::new(bearing.cos(), -bearing.sin())
}

/// Distance of the inner control points from the end points, for a radius of 1, such that the curve's midpoint is on the
/// circle.
fn handle_length(step: Angle) -> f64 {
    4.0 / 3.0 * (step / 4.0).tan()
}

/// Number of curves that keep an arc within [`TOLERANCE`], the same in each quarter turn.
fn count(radius: f64, sweep: f64) -> u32 {
    // No radius that fits on paper needs this many; it only bounds the search.
    const MOST: u32 = 1000;
    let quarters = (sweep / (TAU / 4.0)).ceil().max(1.0) as u32;
    let mut count = quarters;
    while count < MOST && deviation(radius, sweep / f64::from(count)) > TOLERANCE {
        count += quarters;
    }
    count
}

/// The greatest deviation of a curve over an angle (radians) from its circle.
///
/// The curve's distance from the center less the radius is greatest where the parameter is (1 ± 1/√3)/2; there it is 2/27
/// sin⁶(t/4) / cos²(t/4) of the radius except for terms of higher order, which the tests bound.
fn deviation(radius: f64, angle: f64) -> f64 {
    let quarter = Angle::radians(angle / 4.0);
    let (sine, cosine) = (quarter.sin(), quarter.cos());
    2.0 / 27.0 * radius.abs() * sine.powi(6) / (cosine * cosine)
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    /// The greatest deviation of the curves from the circle, by many points on each.
    fn worst(radius: f64, start: Angle, sweep: Angle) -> f64 {
        let mut from = outward(start) * radius;
        let mut worst = 0.0_f64;
        for [one, two, to] in curves(radius, start, sweep) {
            for step in 0..=100 {
                let t = f64::from(step) / 100.0;
                let u = 1.0 - t;
                let point = from * (u * u * u)
                    + one * (3.0 * u * u * t)
                    + two * (3.0 * u * t * t)
                    + to * (t * t * t);
                worst = worst.max((point.length() - radius).abs());
            }
            from = to;
        }
        worst
    }

    #[test]
    fn curves_keep_to_the_circle_within_the_tolerance() {
        for radius in [0.5, 3.175, 4.0, 25.4, 150.0, 300.0, 2540.0] {
            for degrees in [1.0, 37.0, 90.0, 200.0, 360.0] {
                let off = worst(radius, Angle::degrees(10.0), Angle::degrees(degrees));
                assert!(off <= TOLERANCE * 1.01, "{off} mm at radius {radius}");
            }
        }
    }

    #[test]
    fn the_usual_four_curves_would_exceed_the_tolerance() {
        let quarter = deviation(300.0, TAU / 4.0);
        assert_near!(quarter, 300.0 * 2.725e-4, 300.0 * 2e-6);
        assert!(count(300.0, TAU) > 4);
        assert_eq!(count(1.0, TAU), 4);
    }

    #[test]
    fn a_circle_is_split_at_the_quarters() {
        let ends: Vec<_> = curves(100.0, Angle::ZERO, Angle::TURN)
            .map(|curve| curve[2])
            .collect();
        assert_eq!(ends.len() % 4, 0);
        let quarter = ends.len() / 4;
        for (index, (x, y)) in [(100.0, 0.0), (0.0, -100.0), (-100.0, 0.0), (0.0, 100.0)]
            .iter()
            .enumerate()
        {
            let end = ends[(index + 1) * quarter - 1];
            assert_near!(end.x, *x, 1e-9);
            assert_near!(end.y, *y, 1e-9);
        }
    }

    #[test]
    fn an_arc_runs_clockwise_from_its_bearing() {
        let curves: Vec<_> = curves(10.0, Angle::ZERO, Angle::degrees(90.0)).collect();
        let first = curves.first().unwrap()[0];
        let last = curves.last().unwrap()[2];
        assert!(first.x > 0.0 && first.y > 9.9, "{first:?}");
        assert_near!(last.x, 10.0, 1e-9);
        assert_near!(last.y, 0.0, 1e-9);
    }
}
