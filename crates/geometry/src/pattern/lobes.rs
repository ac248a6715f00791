//! Lobes: spaces one pitch apart, in straight lines, on the curve r(b) = R (1 + d cos N b).
//!
//! One space is on each lobe's tip, and the pattern is symmetric about the axes, so half a lobe is enough: from the tip
//! (bearing 0) to the valley (bearing a = 180/N). With R = 1 and a chord c, `spaces / 2` chords are stepped off from the tip.
//! An even number of spaces must end on the valley; an odd number must end where the next chord, across the valley to the
//! mirror image of its own start, also has length c. That c is found by bracketed Newton's method, and then everything is
//! scaled from c to the pitch.
//!
//! Proof that the solution is unique. Write r, r0 for the radii at bearings b > b0 of the half lobe, e = b - b0; there r' <= 0
//! and r <= r0. Half the slope, in b, of the squared distance of the two points is r'(r - r0 cos e) + r r0 sin e. It is clearly
//! positive where r <= r0 cos e; otherwise r - r0 cos e is at most r0 (1 - cos e), and the slope is positive if r > |r'|
//! tan(e/2). For N >= 3, |r'| tan(e/2) is at most d N tan(90/N) <= 0.607 with d = 0.35, and r is at least 0.65. For N = 2, with
//! f = 2 b, it is at most 0.7 sin f tan(f/4), which is under 1 + 0.35 cos f on the whole half lobe. So the distance from a
//! point grows with the bearing, and each step of the walk has exactly one end. With respect to b0 the slope is r0'(r0 - r cos
//! e) - r r0 sin e, which is always negative; so every bearing of the walk grows with c, and so do both conditions at its end.

use crate::limits::{LOBE_DEPTH, check_closed, check_players};
use crate::{Angle, Error, Point, Vec2};

/// One lobe's spaces.
pub(super) fn track(
    depth: f64,
    players: u32,
    spaces: u32,
    pitch: f64,
) -> Result<Vec<Point>, Error> {
    if !LOBE_DEPTH.contains(&depth) {
        let nearest = depth.max(*LOBE_DEPTH.start()).min(*LOBE_DEPTH.end());
        return Err(Error::LobeDepth { depth, nearest });
    }
    check_players("a track of lobes", players, 2)?;
    check_closed(players, spaces)?;
    let curve = Curve::new(depth, players);
    let half = curve.half_lobe(spaces);
    let mirrored = half.points.iter().skip(1).rev().map(|point| {
        // With an even number of spaces, the last space of the half belongs to the valley; the next sector has its mirror
        // image.
        Point::new(-point.x, point.y)
    });
    let last = half.points.len() - usize::from(spaces.is_multiple_of(2));
    let scale = pitch / half.chord;
    Ok(mirrored
        .chain(half.points.iter().take(last).copied())
        .map(|point| (point.to_vec2() * scale).to_point())
        .collect())
}

/// The curve with R = 1.
struct Curve {
    depth: f64,
    lobes: f64,
    /// The bearing of the valley, in radians.
    valley: f64,
}

/// A point of the curve, and its derivative by the bearing.
#[derive(Clone, Copy)]
struct Spot {
    bearing: f64,
    point: Point,
    speed: Vec2,
}

/// The spaces from the tip toward the valley, and the chord between them.
struct HalfLobe {
    points: Vec<Point>,
    chord: f64,
}

/// The error at the end of a walk: positive if the chord is too long.
struct Miss {
    by: f64,
    slope: f64,
}

impl Curve {
    fn new(depth: f64, players: u32) -> Self {
        Self {
            depth,
            lobes: f64::from(players),
            valley: Angle::turn_part(1, 2 * i64::from(players)).as_radians(),
        }
    }

    /// A point of the curve, which continues straight past the valley, so that the miss of a slightly too long walk can still
    /// be measured: along the curve itself the distance from a point would stop growing there.
    fn spot(&self, bearing: f64) -> Spot {
        if bearing > self.valley {
            let valley = self.spot(self.valley);
            let point = valley.point + valley.speed * (bearing - self.valley);
            return Spot {
                bearing,
                point,
                ..valley
            };
        }
        let (sin, cos) = Angle::radians(bearing).sin_cos();
        let (lobe_sin, lobe_cos) = Angle::radians(self.lobes * bearing).sin_cos();
        let radius = 1.0 + self.depth * lobe_cos;
        let swell = -self.depth * self.lobes * lobe_sin;
        Spot {
            bearing,
            point: Point::new(radius * sin, radius * cos),
            speed: Vec2::new(swell * sin + radius * cos, swell * cos - radius * sin),
        }
    }

    /// Solves for the chord. The miss changes sign at the correct chord; Newton steps that leave the bracket, or no longer
    /// shrink it, are replaced by bisection.
    fn half_lobe(&self, spaces: u32) -> HalfLobe {
        let mut walk = Vec::with_capacity(spaces as usize / 2 + 1);
        let (mut low, mut high) = (0.0, 2.0 * (1.0 + self.depth));
        let mut chord = self.length() / (f64::from(spaces) / 2.0);
        for _ in 0..MOST_ROUNDS {
            let mut next = f64::NAN;
            let miss = self.walk(spaces, chord, &mut walk);
            if let Some(miss) = &miss {
                next = chord - miss.by / miss.slope;
            }
            if miss.is_none_or(|miss| miss.by > 0.0) {
                high = chord;
            } else {
                low = chord;
            }
            let next = if low <= next && next <= high {
                next
            } else {
                0.5 * (low + high)
            };
            let step = (next - chord).abs();
            chord = next;
            if step <= 1e-15 * chord || high - low <= 1e-16 * chord {
                break;
            }
        }
        self.walk(spaces, chord, &mut walk);
        let mut points: Vec<Point> = walk.iter().map(|spot| spot.point).collect();
        if spaces.is_multiple_of(2)
            && let Some(last) = points.last_mut()
        {
            *last = self.spot(self.valley).point;
        }
        HalfLobe { points, chord }
    }

    /// Walks from the tip with one chord length and returns by how much the end misses; `None` if even the step before the last
    /// passes the valley.
    fn walk(&self, spaces: u32, chord: f64, walk: &mut Vec<Spot>) -> Option<Miss> {
        walk.clear();
        let mut here = self.spot(0.0);
        walk.push(here);
        // The derivative of the bearing of `here` by the chord.
        let mut growth = 0.0;
        let mut stride = chord / (1.0 + self.depth);
        for left in (0..spaces / 2).rev() {
            // Only the last step may pass the valley, where Newton's method needs to know by how much.
            let end = if left == 0 {
                2.0 * self.valley
            } else {
                self.valley
            };
            let there = self.step(here, chord, stride, end)?;
            let along = (there.point - here.point) / chord;
            growth = (1.0 + along.dot(here.speed) * growth) / along.dot(there.speed);
            stride = there.bearing - here.bearing;
            walk.push(there);
            here = there;
        }
        Some(self.miss(spaces, chord, here, growth))
    }

    /// The spot one chord after `here`, by Newton's method bracketed between `here` and `end`.
    fn step(&self, here: Spot, chord: f64, stride: f64, end: f64) -> Option<Spot> {
        let (mut low, mut high) = (here.bearing, end);
        let mut bearing = (here.bearing + stride).min(end);
        let mut reached_end = false;
        for _ in 0..MOST_ROUNDS {
            let there = self.spot(bearing);
            let arm = there.point - here.point;
            let length = arm.hypot();
            let over = length - chord;
            if over > 0.0 {
                high = bearing;
            } else if bearing >= end {
                reached_end = true;
                break;
            } else {
                low = bearing;
            }
            let mut next = bearing - over * length / arm.dot(there.speed);
            if next >= end && over <= 0.0 {
                next = end;
            } else if !(low <= next && next <= high) {
                next = 0.5 * (low + high);
            }
            if (next - bearing).abs() <= 4e-16 * bearing {
                return Some(there);
            }
            bearing = next;
        }
        (!reached_end).then(|| self.spot(bearing))
    }

    fn miss(&self, spaces: u32, chord: f64, last: Spot, growth: f64) -> Miss {
        if spaces.is_multiple_of(2) {
            return Miss {
                by: last.bearing - self.valley,
                slope: growth,
            };
        }
        // Twice the distance from the valley's ray is the length of the chord to the mirror image across it.
        let (sin, cos) = Angle::radians(self.valley).sin_cos();
        let across = Vec2::new(cos, -sin);
        Miss {
            by: chord + 2.0 * across.dot(last.point.to_vec2()),
            slope: 1.0 + 2.0 * across.dot(last.speed) * growth,
        }
    }

    /// The approximate length of the half lobe, by Simpson's rule: the starting point of the search.
    fn length(&self) -> f64 {
        let steps = 8_u32;
        let sum: f64 = (0..=steps)
            .map(|step| {
                let weight = match step {
                    0 | 8 => 1.0,
                    _ if step % 2 == 1 => 4.0,
                    _ => 2.0,
                };
                let part = f64::from(step) / f64::from(steps);
                weight * self.spot(self.valley * part).speed.hypot()
            })
            .sum();
        sum * self.valley / (3.0 * f64::from(steps))
    }
}

/// More rounds than bisecting a bracket down to rounding error takes.
const MOST_ROUNDS: usize = 120;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Pattern, Sector, turn_in};
    use testkit::assert_near;

    fn worst_chord(depth: f64, players: u32, spaces: u32, pitch: f64) -> f64 {
        let mut lobe = track(depth, players, spaces, pitch).unwrap();
        lobe.push(Sector::new(1, players, Angle::ZERO).place(lobe[0]));
        lobe.windows(2)
            .map(|pair| (pair[0].distance(pair[1]) - pitch).abs())
            .fold(0.0, f64::max)
    }

    #[test]
    fn all_chords_are_one_pitch_for_every_count_and_depth() {
        for players in [2, 3, 4, 5, 6, 8, 12, 24] {
            for spaces in (1..=30).chain([99, 100, 249, 250]) {
                if players * spaces < 3 {
                    continue;
                }
                for depth in [0.0, 1e-9, 0.05, 0.18, 0.35] {
                    let worst = worst_chord(depth, players, spaces, 20.0);
                    let size = f64::from(players * spaces) * 20.0;
                    assert!(
                        worst < 1e-9_f64.min(1e-10 + 1e-15 * size),
                        "{players} x {spaces}, depth {depth}: a chord is {worst:e} mm off"
                    );
                }
            }
        }
    }

    #[test]
    fn every_space_is_on_the_curve_and_the_turn_in_space_on_the_tip() {
        for (players, spaces) in [(2, 2), (2, 5), (3, 1), (6, 14), (6, 15), (24, 7)] {
            let depth = 0.3;
            let lobe = track(depth, players, spaces, 20.0).unwrap();
            let tip = lobe[turn_in(spaces) as usize - 1];
            assert_near!(tip.x, 0.0, 1e-9);
            let mean = tip.y / (1.0 + depth);
            for space in &lobe {
                let bearing = Angle::atan2(space.x, space.y);
                let wanted = mean * (1.0 + depth * (bearing * f64::from(players)).cos());
                assert_near!(space.to_vec2().hypot(), wanted, 1e-9);
            }
        }
    }

    #[test]
    fn lobes_without_depth_are_the_ring() {
        for (players, spaces) in [(2, 2), (2, 11), (3, 1), (6, 14), (24, 250)] {
            let ring = crate::track(Pattern::Ring, players, spaces, 16.0).unwrap();
            let lobes = track(0.0, players, spaces, 16.0).unwrap();
            assert_eq!(ring.len(), lobes.len());
            for (on_ring, on_lobes) in ring.iter().zip(&lobes) {
                assert_near!(*on_ring, *on_lobes, 1e-9);
            }
        }
    }

    #[test]
    fn one_space_per_player_has_a_closed_form() {
        let lobe = track(0.2, 5, 1, 20.0).unwrap();
        let wanted = 20.0 / (2.0 * Angle::degrees(36.0).sin());
        assert_near!(lobe[0], Point::new(0.0, wanted), 1e-9);
    }

    #[test]
    fn a_depth_out_of_range_is_refused_with_the_nearest_one() {
        for (depth, wanted) in [
            (0.36, 0.35),
            (-0.1, 0.0),
            (f64::NAN, 0.0),
            (f64::INFINITY, 0.35),
        ] {
            let Err(Error::LobeDepth { nearest, .. }) = track(depth, 6, 14, 20.0) else {
                panic!("a depth of {depth} was accepted");
            };
            assert_eq!(nearest, wanted);
        }
        assert!(track(0.1, 1, 14, 20.0).is_err());
        assert!(track(0.1, 2, 1, 20.0).is_err());
    }
}
