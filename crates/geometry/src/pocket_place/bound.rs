//! An upper bound over a box for the smallest of several linear functions.
//!
//! For any weights that sum to 1, the smallest function is nowhere above the weighted mean of all; and a mean function is at
//! most its value at the center plus the length of its slope times the reach of the box. The weights that minimize this are
//! approximated by adding, one at a time, the function that is lowest where the mean is highest. The bound holds for any
//! weights.

use crate::Vec2;

/// A linear function over the box: its value at the center, and its slope per half width.
#[derive(Clone, Copy)]
pub(super) struct Line {
    pub(super) at: f64,
    pub(super) slope: Vec2,
}

/// An upper bound over the box, and the point where the mean function reaches it, in half widths.
pub(super) struct Top {
    pub(super) bound: f64,
    pub(super) point: Vec2,
}

/// Functions added before the bound is accepted as is.
const MOST_ROUNDS: usize = 8;

/// The bound over a box that reaches `reach` half widths from its center.
///
/// It is returned as soon as it is below `enough`, or known not to get below it.
pub(super) fn top(lines: &[Line], reach: f64, enough: f64) -> Top {
    let (mut mean, _) = lowest(lines, Vec2::ZERO);
    for _ in 0..MOST_ROUNDS {
        if mean.reaches(reach) <= enough {
            break;
        }
        let (line, height) = lowest(lines, mean.highest(reach));
        let share = mean.best_share(&line, reach);
        if share <= 0.0 {
            break;
        }
        mean = mean.mix(&line, share);
        if height > enough {
            break;
        }
    }
    Top {
        bound: mean.reaches(reach),
        point: mean.highest(reach),
    }
}

/// The function that is lowest at a point, and its value there; infinite without functions.
fn lowest(lines: &[Line], at: Vec2) -> (Line, f64) {
    let mut least = f64::INFINITY;
    let mut found = Line {
        at: f64::INFINITY,
        slope: Vec2::ZERO,
    };
    for line in lines {
        let height = line.at + line.slope.dot(at);
        if height < least {
            (found, least) = (*line, height);
        }
    }
    (found, least)
}

impl Line {
    fn reaches(&self, reach: f64) -> f64 {
        self.at + reach * self.slope.hypot()
    }

    fn highest(&self, reach: f64) -> Vec2 {
        let steep = self.slope.hypot();
        if steep > 0.0 {
            self.slope * (reach / steep)
        } else {
            Vec2::ZERO
        }
    }

    fn mix(&self, other: &Self, share: f64) -> Self {
        Self {
            at: self.at + share * (other.at - self.at),
            slope: self.slope + (other.slope - self.slope) * share,
        }
    }

    /// The share of `other`, from 0 to 1, at which the maximum of the mix is smallest.
    ///
    /// The slope's length is sqrt(q^2 (s - s0)^2 + e^2) for a share s, with q the length of the slopes' difference: the sum
    /// with the center value is smallest where the derivative of q times that root balances the derivative of the value.
    fn best_share(&self, other: &Self, reach: f64) -> f64 {
        let change = other.slope - self.slope;
        let rise = other.at - self.at;
        let length = change.hypot();
        if length * reach <= rise.abs() {
            return if rise < 0.0 { 1.0 } else { 0.0 };
        }
        let flattest = -self.slope.dot(change) / (length * length);
        let aside = self.slope.cross(change).abs() / length;
        let lean = -rise / (length * reach);
        let off = lean * aside / (1.0 - lean * lean).sqrt();
        (flattest + off / length).clamp(0.0, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    fn line(at: f64, x: f64, y: f64) -> Line {
        Line {
            at,
            slope: Vec2::new(x, y),
        }
    }

    #[test]
    fn one_function_reaches_its_maximum_at_the_rim() {
        let top = top(&[line(2.0, 3.0, 4.0)], 1.5, 0.0);
        assert_near!(top.bound, 9.5, 1e-12);
        assert_near!(top.point.to_point(), (0.9, 1.2).into(), 1e-12);
    }

    #[test]
    fn two_opposed_functions_meet_at_a_ridge() {
        let top = top(&[line(2.0, 3.0, 0.0), line(5.0, -6.0, 0.0)], 1.0, 0.0);
        // They cross at x = 1/3.
        assert_near!(top.bound, 3.0, 1e-9);
    }

    #[test]
    fn three_functions_make_a_peak_close_to_the_bound() {
        let lines = [
            line(0.0, 0.0, 2.0),
            line(0.1, 1.5, -1.0),
            line(0.0, -1.7, -1.1),
        ];
        let top = top(&lines, 1.0, 0.0);
        let height = |x: f64, y: f64| {
            lines
                .iter()
                .map(|line| line.at + line.slope.dot(Vec2::new(x, y)))
                .fold(f64::INFINITY, f64::min)
        };
        let steps = || (-300..=300).map(|step| f64::from(step) / 300.0);
        let peak = steps()
            .flat_map(|x| steps().map(move |y| height(x, y)))
            .fold(f64::NEG_INFINITY, f64::max);
        assert!(top.bound >= peak, "{} under {peak}", top.bound);
        assert!(top.bound <= peak + 0.25, "{} far over {peak}", top.bound);
    }
}
