//! Start pockets: a player's first holes, one pitch apart, around a center point.

use crate::limits::{check_finite, check_holes, check_pitch};
use crate::{Angle, Error, Point, Vec2, point_at, ring_radius};

/// The arrangement of the holes in a start pocket.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PocketShape {
    /// In a straight row along u, numbered toward the clockwise side.
    Row,
    /// On a circle around the center pin, numbered clockwise.
    Arc,
    /// In two rows along u, the outer row first, each numbered toward the clockwise side.
    Block,
    /// On a small circle around the pocket's center, numbered clockwise from the outermost.
    Ring,
}

/// The holes of a start pocket in its sector's local frame, in the order of their numbers.
///
/// The pocket's center is at `bearing` from the sector's axis and `radius` mm from the pin. Neighbors are one pitch apart in a
/// straight line. A block with an odd number of holes has its gap at the clockwise end of the inner row; a ring of two holes is
/// a row; a single hole is at the center in every shape.
///
/// ```
/// use geometry::{Angle, PocketShape, pocket};
/// let row = pocket(PocketShape::Row, 2, 20.0, Angle::ZERO, 150.0)?;
/// assert!((row[1].x - 10.0).abs() < 1e-9 && (row[1].y - 150.0).abs() < 1e-9);
/// # Ok::<(), geometry::Error>(())
/// ```
///
/// # Errors
///
/// [`Error`] if a value is out of range, or an arc's circle is too small for its holes.
pub fn pocket(
    shape: PocketShape,
    holes: u32,
    pitch: f64,
    bearing: Angle,
    radius: f64,
) -> Result<Vec<Point>, Error> {
    check_pitch(pitch)?;
    check_holes("a start pocket", holes)?;
    check_finite("the pocket's bearing", bearing.as_degrees())?;
    check_finite("the pocket's radius", radius)?;
    let least = least_radius(shape, holes, pitch);
    if radius < least {
        return Err(Error::TightArc {
            holes,
            radius,
            least,
        });
    }
    if shape == PocketShape::Arc {
        let half_step = half_step(pitch, radius);
        return Ok(places_from_middle(holes)
            .map(|place| point_at(radius, bearing + half_step * (2.0 * place)))
            .collect());
    }
    let middle = point_at(radius, bearing);
    let arms = arms_from_middle(shape, holes, pitch);
    Ok(arms.into_iter().map(|arm| middle + arm).collect())
}

/// The least radius at which a pocket can be: an arc must not overlap itself.
pub(crate) fn least_radius(shape: PocketShape, holes: u32, pitch: f64) -> f64 {
    match shape {
        // The slack accepts a radius that was itself computed as the least one.
        PocketShape::Arc => ring_radius(pitch, holes) * (1.0 - 1e-12),
        PocketShape::Row | PocketShape::Block | PocketShape::Ring => 0.0,
    }
}

/// Half the angle between neighbors of an arc; a single hole at the pin itself has none.
pub(crate) fn half_step(pitch: f64, radius: f64) -> Angle {
    // A radius of minus zero would make the ratio minus infinity.
    Angle::asin((pitch / (2.0 * radius.abs())).min(1.0))
}

/// Positions of the holes of a row or arc, in steps from its center.
pub(crate) fn places_from_middle(holes: u32) -> impl Iterator<Item = f64> {
    (0..holes).map(move |hole| f64::from(hole) - (f64::from(holes) - 1.0) / 2.0)
}

/// Vectors from the center of a row, block or ring to each hole, in mm along u and v; for an arc, as if it were straight.
pub(crate) fn arms_from_middle(shape: PocketShape, holes: u32, pitch: f64) -> Vec<Vec2> {
    match shape {
        PocketShape::Block if holes > 1 => block(holes, pitch),
        PocketShape::Ring if holes > 2 => ring(holes, pitch),
        _ => places_from_middle(holes)
            .map(|place| Vec2::new(place * pitch, 0.0))
            .collect(),
    }
}

fn block(holes: u32, pitch: f64) -> Vec<Vec2> {
    let columns = holes.div_ceil(2);
    let row = |out: f64| {
        places_from_middle(columns).map(move |place| Vec2::new(place * pitch, out * pitch))
    };
    row(0.5).chain(row(-0.5)).take(holes as usize).collect()
}

fn ring(holes: u32, pitch: f64) -> Vec<Vec2> {
    let radius = ring_radius(pitch, holes);
    (0..holes)
        .map(|hole| {
            let bearing = Angle::turn_part(i64::from(hole), i64::from(holes));
            point_at(radius, bearing).to_vec2()
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    const SHAPES: [PocketShape; 4] = [
        PocketShape::Row,
        PocketShape::Arc,
        PocketShape::Block,
        PocketShape::Ring,
    ];

    fn holes_of(shape: PocketShape, holes: u32) -> Vec<Point> {
        pocket(shape, holes, 20.0, Angle::degrees(12.0), 200.0).unwrap()
    }

    #[test]
    fn one_hole_at_the_pin_has_a_position_for_either_sign_of_zero_radius() {
        for (shape, radius) in SHAPES
            .into_iter()
            .flat_map(|shape| [(shape, 0.0), (shape, -0.0)])
        {
            let holes = pocket(shape, 1, 20.0, Angle::degrees(12.0), radius).unwrap();
            assert_near!(holes[0], Point::ORIGIN, 1e-12);
        }
    }

    #[test]
    fn one_hole_is_at_the_center_and_zero_holes_are_nowhere() {
        for shape in SHAPES {
            assert_near!(
                holes_of(shape, 1)[0],
                point_at(200.0, Angle::degrees(12.0)),
                1e-12
            );
            assert!(holes_of(shape, 0).is_empty());
        }
    }

    #[test]
    fn neighbors_in_a_line_are_one_pitch_apart() {
        for shape in [PocketShape::Row, PocketShape::Arc, PocketShape::Ring] {
            for count in 2..=20 {
                for pair in holes_of(shape, count).windows(2) {
                    assert_near!(pair[0].distance(pair[1]), 20.0, 1e-9);
                }
            }
        }
        for count in 3..=20 {
            let ring = holes_of(PocketShape::Ring, count);
            assert_near!(ring[0].distance(ring[ring.len() - 1]), 20.0, 1e-9);
        }
    }

    #[test]
    fn a_row_runs_along_u_toward_the_clockwise_side() {
        let row = holes_of(PocketShape::Row, 4);
        let middle = point_at(200.0, Angle::degrees(12.0));
        assert_near!(row[0], middle + Vec2::new(-30.0, 0.0), 1e-12);
        assert_near!(row[3], middle + Vec2::new(30.0, 0.0), 1e-12);
    }

    #[test]
    fn an_arc_keeps_its_radius_and_its_center() {
        let arc = holes_of(PocketShape::Arc, 5);
        for hole in &arc {
            assert_near!(hole.to_vec2().hypot(), 200.0, 1e-9);
        }
        assert_near!(arc[2], point_at(200.0, Angle::degrees(12.0)), 1e-12);
        assert!(arc[0].x < arc[4].x, "numbered clockwise");
    }

    #[test]
    fn a_block_has_its_outer_row_first_and_its_gap_last() {
        let block = pocket(PocketShape::Block, 5, 20.0, Angle::ZERO, 100.0).unwrap();
        let wanted = [
            (-20.0, 110.0),
            (0.0, 110.0),
            (20.0, 110.0),
            (-20.0, 90.0),
            (0.0, 90.0),
        ];
        for (hole, (u, v)) in block.iter().zip(wanted) {
            assert_near!(*hole, Point::new(u, v), 1e-12);
        }
        let three = pocket(PocketShape::Block, 3, 20.0, Angle::ZERO, 100.0).unwrap();
        assert_near!(three[2], Point::new(-10.0, 90.0), 1e-12);
    }

    #[test]
    fn a_ring_starts_at_the_outermost_hole_and_goes_clockwise() {
        let ring = pocket(PocketShape::Ring, 4, 20.0, Angle::ZERO, 100.0).unwrap();
        let arm = 20.0 / 2_f64.sqrt();
        assert_near!(ring[0], Point::new(0.0, 100.0 + arm), 1e-9);
        assert_near!(ring[1], Point::new(arm, 100.0), 1e-9);
    }

    #[test]
    fn an_arc_that_would_overlap_itself_is_refused_with_the_least_radius() {
        let arc = |radius| pocket(PocketShape::Arc, 6, 20.0, Angle::ZERO, radius);
        let Err(Error::TightArc { least, .. }) = arc(19.0) else {
            panic!("six holes 20 mm apart were accepted at 19 mm");
        };
        assert_near!(least, 20.0, 1e-9);
        assert!(arc(least).is_ok());
        assert!(pocket(PocketShape::Arc, 2, 20.0, Angle::ZERO, 10.0).is_ok());
        assert!(pocket(PocketShape::Arc, 1, 20.0, Angle::ZERO, 0.0).is_ok());
    }

    #[test]
    fn invalid_values_are_refused() {
        let bad = f64::NAN;
        for shape in SHAPES {
            assert!(pocket(shape, 4, bad, Angle::ZERO, 200.0).is_err());
            assert!(pocket(shape, 4, 20.0, Angle::degrees(bad), 200.0).is_err());
            assert!(pocket(shape, 4, 20.0, Angle::ZERO, bad).is_err());
            assert!(pocket(shape, 61, 20.0, Angle::ZERO, 2000.0).is_err());
        }
    }
}
