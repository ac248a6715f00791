//! The position error of one hole.

use board::Errors;
use geometry::{Angle, Point, Vec2};

use crate::template::budget::TapedJoints;

/// The position errors of one hole, step by step, each as ± mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleError {
    /// The error from the printer's scale over the hole's distance from the center pin.
    ///
    /// Typical scales are 99 to 102 % for office copiers and within 0.03 % for a well-measured laser printer (mailing-list
    /// measurements of printers); bond paper grows by 0.1 to 0.4 % with the air's humidity (printing-trade pages on paper and
    /// humidity, which do not say over what range; a review: J. Mater. Sci. 53, 2018).
    pub print: f64,
    /// The error of one taped joint.
    pub tape: f64,
    /// Number of taped joints between the center pin and the hole.
    pub joints: usize,
    /// The error of center-punching.
    pub punch: f64,
    /// The drift of the drill.
    pub drill: f64,
    /// The error from indexing: the error of the angle over the hole's distance from the center pin.
    pub index: f64,
}

impl HoleError {
    /// The errors of a hole at `center`.
    pub(super) fn of(center: Point, errors: &Errors, joints: &TapedJoints) -> Self {
        let radius = center.to_vec2().length();
        let crossed = |lines: &[f64], place: f64| {
            let between = lines.iter().filter(|joint| is_beyond(place, **joint));
            between.count()
        };
        Self {
            print: errors.print * radius,
            tape: errors.tape,
            joints: crossed(&joints.upright, center.x) + crossed(&joints.level, center.y),
            punch: errors.punch,
            drill: errors.drill,
            index: Angle::degrees(errors.index).as_radians() * radius,
        }
    }

    /// The sum of all errors at their worst in the same direction, mm.
    pub fn worst_case(&self) -> f64 {
        worst_case(self.parts())
    }

    /// The combined error if the errors are independent of each other, mm: their root sum square.
    pub fn root_sum_square(&self) -> f64 {
        root_sum_square(self.parts())
    }

    /// The error of each step; each joint on the way to the hole counts once.
    fn parts(&self) -> impl Iterator<Item = f64> {
        let single = [self.print, self.punch, self.drill, self.index];
        single
            .into_iter()
            .chain(core::iter::repeat_n(self.tape, self.joints))
    }
}

/// The sum of tolerances.
pub fn worst_case(tolerances: impl IntoIterator<Item = f64>) -> f64 {
    tolerances.into_iter().sum()
}

/// The root of the sum of the squares of independent tolerances.
///
/// ```
/// assert_eq!(workshop::root_sum_square([0.3, 0.4]), 0.5);
/// assert_eq!(workshop::worst_case([0.3, 0.4]), 0.7);
/// ```
pub fn root_sum_square(tolerances: impl IntoIterator<Item = f64>) -> f64 {
    let squares = tolerances.into_iter().map(|one| one * one);
    squares.sum::<f64>().sqrt()
}

/// The true position of a hole that is off by this much: the diameter of the smallest tolerance zone that contains its center.
///
/// The rule of ASME Y14.5, as quoted in tolerance-stack pages: 2 sqrt(dx^2 + dy^2).
///
/// ```
/// assert_eq!(workshop::true_position(geometry::Vec2::new(0.3, 0.4)), 1.0);
/// ```
pub fn true_position(off: Vec2) -> f64 {
    2.0 * off.length()
}

/// Whether a place lies on the far side of a joint, seen from the center pin.
pub(super) fn is_beyond(place: f64, joint: f64) -> bool {
    if joint < 0.0 {
        place < joint
    } else {
        place > joint
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    /// Examples of tolerance-stack pages: three parts, then with the housing; ten equal parts; three others.
    #[test]
    fn tolerances_add_up_as_published() {
        let parts = [0.005, 0.003, 0.002];
        assert_near!(worst_case(parts), 0.010, 1e-12);
        assert_near!(root_sum_square(parts), 0.00616, 5e-6);
        let housed = parts.into_iter().chain([0.005]);
        assert_near!(worst_case(housed.clone()), 0.015, 1e-12);
        // The page prints .00794; the root of 63e-6 is .0079373.
        assert_near!(root_sum_square(housed), 0.00794, 5e-6);
        assert_near!(worst_case([0.1; 10]), 1.0, 1e-12);
        assert_near!(root_sum_square([0.1; 10]), 0.316, 5e-4);
        assert_near!(worst_case([0.20, 0.10, 0.15]), 0.45, 1e-12);
        assert_near!(root_sum_square([0.20, 0.10, 0.15]), 0.27, 5e-3);
    }

    /// The rule of ASME Y14.5 as quoted in tolerance-stack pages.
    #[test]
    fn true_positions_are_as_published() {
        assert_near!(true_position(Vec2::new(0.10, 0.15)), 0.3606, 5e-5);
        assert_near!(true_position(Vec2::new(0.02, -0.01)), 0.0447, 5e-5);
        assert_near!(true_position(Vec2::new(3.0, 4.0)), 10.0, 1e-12);
        assert_near!(true_position(Vec2::new(0.15, 0.0)), 0.30, 1e-12);
    }

    /// By hand: at 200 mm a scale that is off by 1 % moves a hole by 2 mm, a tenth of a degree by 0.349 mm.
    #[test]
    fn the_error_of_a_hole_grows_with_its_distance_and_the_joints_between() {
        let errors = Errors {
            print: 0.01,
            tape: 0.3,
            punch: 0.2,
            drill: 0.1,
            oversize: 0.5,
            index: 0.1,
        };
        let joints = TapedJoints {
            upright: vec![-90.0, 90.0, 180.0, 270.0],
            level: vec![0.0],
        };
        let hole = HoleError::of(Point::new(200.0, 0.0), &errors, &joints);
        assert_near!(hole.print, 2.0, 1e-12);
        assert_near!(hole.index, 0.349_066, 1e-6);
        assert_eq!(hole.joints, 2);
        assert_near!(hole.worst_case(), 2.0 + 0.6 + 0.3 + 0.349_066, 1e-6);
        let squares = 4.0 + 2.0 * 0.09 + 0.04 + 0.01 + 0.349_066 * 0.349_066;
        assert_near!(hole.root_sum_square(), f64::sqrt(squares), 1e-6);
        let pin = HoleError::of(Point::ORIGIN, &errors, &joints);
        assert_near!(pin.worst_case(), 0.3, 1e-12);
    }
}
