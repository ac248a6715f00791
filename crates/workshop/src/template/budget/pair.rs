//! The effect of the work's errors on one web.
//!
//! Along the line of centers every error changes the web in proportion. Errors are so much smaller than the distance of two
//! holes that the part across that line hardly matters (its square over twice the distance).

use geometry::{Angle, Circle, Vec2, Web};

use crate::template::budget::Work;
use crate::template::budget::hole::{is_beyond, root_sum_square};

/// Number of standard deviations that a ± stands for: common practice, no source. A normal error exceeds it once in 370 times,
/// which matches the "hardly ever" that most people mean by a tolerance.
pub const DEVIATIONS: f64 = 3.0;

/// One web, and the effect of the work's errors on it.
#[derive(Debug, Clone)]
pub struct Pair {
    /// The web as laid out.
    pub web: Web,
    /// Wood that is certainly lost because bits drill wide.
    pub oversize: f64,
    /// Wood lost with every error at its worst, mm; this includes the certain loss.
    pub worst: f64,
    /// The independent errors: the index of each, and the mm by which one standard deviation of it widens the web.
    pub terms: Vec<(usize, f64)>,
}

impl Pair {
    /// The pair of a web; none for a web of other holes.
    pub fn new(web: Web, work: &Work<'_>) -> Option<Self> {
        let (a, b) = (work.mouths.get(web.a)?, work.mouths.get(web.b)?);
        let apart = b.center - a.center;
        let distance = apart.length();
        let mut pair = Self {
            web,
            oversize: work.errors.oversize,
            worst: work.errors.oversize,
            terms: Vec::with_capacity(8),
        };
        // Two holes in the same place have no line of centers, so any direction will do.
        let along = if distance > 0.0 {
            apart / distance
        } else {
            Vec2::new(1.0, 0.0)
        };
        pair.worst += work.errors.print * distance;
        pair.push(PRINT, work.errors.print * distance);
        pair.add_joints(a, b, along, work);
        let joints = work.joints.upright.len() + work.joints.level.len();
        for (hole, mouth, outward) in [(web.a, a, -along), (web.b, b, along)] {
            pair.add_hole(first_of_hole(hole, joints), mouth, outward, work);
        }
        Some(pair)
    }

    /// The standard deviation of the web, in mm.
    pub fn deviation(&self) -> f64 {
        root_sum_square(self.terms.iter().map(|(_, mm)| *mm))
    }

    /// Wood lost by root sum square, mm; this includes the certain loss.
    pub fn likely(&self) -> f64 {
        self.oversize + DEVIATIONS * self.deviation()
    }

    /// Adds the joints between the two holes: each moves the hole beyond it.
    fn add_joints(&mut self, a: &Circle, b: &Circle, along: Vec2, work: &Work<'_>) {
        let upright = work
            .joints
            .upright
            .iter()
            .map(|x| (*x, a.center.x, b.center.x));
        let level = work
            .joints
            .level
            .iter()
            .map(|y| (*y, a.center.y, b.center.y));
        for (number, (joint, a, b)) in upright.chain(level).enumerate() {
            let outward = match (is_beyond(a, joint), is_beyond(b, joint)) {
                (true, false) => -along,
                (false, true) => along,
                // An error that moves both holes does not change the web.
                _ => continue,
            };
            let (first, tape) = (FIRST_JOINT + 2 * number, work.errors.tape);
            self.worst += tape;
            self.push(first, tape * outward.x);
            self.push(first + 1, tape * outward.y);
        }
    }

    /// Adds the errors of one hole alone; `outward` is the direction in which it widens the web.
    ///
    /// Punching and drilling spread equally in every direction, and indexing only along the circle, so the radius and the
    /// circle are the axes of the combined spread.
    fn add_hole(&mut self, first: usize, mouth: &Circle, outward: Vec2, work: &Work<'_>) {
        let errors = work.errors;
        let arm = mouth.center.to_vec2();
        let radius = arm.length();
        let radial = if radius > 0.0 {
            arm / radius
        } else {
            Vec2::new(0.0, 1.0)
        };
        let along_circle = Vec2::new(radial.y, -radial.x).dot(outward);
        let index = Angle::degrees(errors.index).as_radians() * radius;
        self.worst += errors.punch + errors.drill + index * along_circle.abs();
        let (punch, drill) = (errors.punch, errors.drill);
        self.push(first, root_sum_square([punch, drill]) * radial.dot(outward));
        self.push(
            first + 1,
            root_sum_square([punch, drill, index]) * along_circle,
        );
    }

    /// Adds an error that widens the web by at most `most`.
    fn push(&mut self, error: usize, most: f64) {
        if most != 0.0 {
            self.terms.push((error, most / DEVIATIONS));
        }
    }
}

/// Index of the error of the printer's scale, which is the same for the whole board.
const PRINT: usize = 0;

/// Index of the first error of a joint; each joint has two.
const FIRST_JOINT: usize = 1;

/// Index of the first error of a hole alone; each hole has two.
fn first_of_hole(hole: usize, joints: usize) -> usize {
    FIRST_JOINT + 2 * joints + 2 * hole
}
