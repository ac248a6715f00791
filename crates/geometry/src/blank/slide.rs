//! Slides a disc between two parallel edges without losing clearance, to the place along them with the most clearance from
//! everything else.
//!
//! A line of places is searched like the plane: distances are convex along it too, so over an interval each is largest at one
//! of the two ends.

use std::collections::BinaryHeap;

use super::Stopped;
use super::barrier::{Barrier, Barriers};
use super::promise::Promising;
use crate::{Point, Vec2};

/// Clearances that differ by less than this, in mm, are equal.
const EVEN: f64 = 1e-10;

/// Edges whose directions differ by less than this, in radians, are parallel: a disc that slides along them for the whole
/// length of a blank loses less than [`TIGHT`].
const PARALLEL: f64 = 1e-13;

/// A barrier within this distance, in mm, counts as touched.
const TIGHT: f64 = 1e-9;

/// The most contacts that are searched for two parallel ones; a disc held by more cannot slide.
const MOST_CONTACTS: usize = 64;

/// The place that a disc at `center` should slide to: `center` itself if it is not between parallel edges.
pub(super) fn slid(
    barriers: &Barriers<'_>,
    corners: &[Point],
    center: Point,
    cancel: &dyn Fn() -> bool,
) -> Result<Point, Stopped> {
    let clear = barriers.clearance(center);
    let Some(along) = free_direction(barriers, center, clear) else {
        return Ok(center);
    };
    let line = Line {
        barriers,
        center,
        along,
        others: others(barriers, center, along, clear),
        clear,
    };
    let at = line.most_clear(line.stretch(corners), cancel)?;
    let place = line.place(at);
    let is_as_good = barriers.clearance(place) >= clear - EVEN;
    Ok(if is_as_good { place } else { center })
}

/// The direction of two parallel edges that a disc touches on opposite sides.
fn free_direction(barriers: &Barriers<'_>, center: Point, clear: f64) -> Option<Vec2> {
    let walls = barriers
        .list()
        .iter()
        .filter(|barrier| barrier.as_wall().is_some());
    let contacts = walls.map(|wall| wall.contact(center));
    let touching = contacts.filter(|contact| contact.distance <= clear + TIGHT);
    let away: Vec<Vec2> = touching
        .map(|contact| contact.away)
        .take(MOST_CONTACTS)
        .collect();
    let is_opposite =
        |one: Vec2, other: Vec2| one.dot(other) < 0.0 && one.cross(other).abs() <= PARALLEL;
    let held = away
        .iter()
        .find(|one| away.iter().any(|other| is_opposite(**one, *other)));
    held.map(|away| Vec2::new(-away.y, away.x))
}

/// All barriers except the edges that run along the line at exactly the distance of the clearance.
fn others(barriers: &Barriers<'_>, center: Point, along: Vec2, clear: f64) -> Vec<Barrier> {
    let is_side = |barrier: &&Barrier| {
        let wall = barrier.as_wall();
        wall.is_some_and(|wall| wall.runs_beside(center, along, clear, TIGHT))
    };
    let all = barriers.list().iter();
    all.filter(|barrier| !is_side(barrier)).copied().collect()
}

/// The line along which a disc can slide.
struct Line<'a> {
    barriers: &'a Barriers<'a>,
    center: Point,
    along: Vec2,
    /// The barriers other than the sides it slides between.
    others: Vec<Barrier>,
    /// The clearance it must not lose.
    clear: f64,
}

/// An interval of the line: from where, to where.
type Stretch = (f64, f64);

impl Line<'_> {
    fn place(&self, at: f64) -> Point {
        self.center + self.along * at
    }

    /// The interval of the line alongside the blank.
    fn stretch(&self, corners: &[Point]) -> Stretch {
        let along = corners
            .iter()
            .map(|corner| (*corner - self.center).dot(self.along));
        along.fold((0.0, 0.0), |(from, to): (f64, f64), at| {
            (from.min(at), to.max(at))
        })
    }

    /// The place in an interval where the clearance to the others is largest, among places that lose no clearance to the sides.
    fn most_clear(&self, (from, to): Stretch, cancel: &dyn Fn() -> bool) -> Result<f64, Stopped> {
        let (mut best, mut most) = (0.0, self.to_others(0.0));
        let mut stretches = BinaryHeap::from([self.between(from, to)]);
        while let Some(next) = stretches.pop() {
            let (bound, (from, to)) = (next.bound, next.part);
            if bound <= most + EVEN {
                break;
            }
            if cancel() {
                return Err(Stopped);
            }
            let middle = f64::midpoint(from, to);
            let clear = self.to_others(middle);
            if clear > most && self.barriers.clearance(self.place(middle)) >= self.clear - EVEN {
                (best, most) = (middle, clear);
            }
            for (from, to) in [(from, middle), (middle, to)] {
                if to - from > EVEN && !self.is_forbidden(from, to) {
                    stretches.push(self.between(from, to));
                }
            }
        }
        Ok(best)
    }

    fn to_others(&self, at: f64) -> f64 {
        let place = self.place(at);
        let distances = self.others.iter().map(|barrier| barrier.distance(place));
        distances.fold(f64::INFINITY, f64::min)
    }

    /// An interval with an upper bound of the clearance to the others.
    fn between(&self, from: f64, to: f64) -> Promising<Stretch> {
        let ends = [self.place(from), self.place(to)];
        let most = |barrier: &Barrier| {
            ends.map(|end| barrier.distance(end))
                .into_iter()
                .fold(0.0, f64::max)
        };
        Promising {
            bound: self.others.iter().map(most).fold(f64::INFINITY, f64::min),
            turn: from,
            part: (from, to),
        }
    }

    /// Whether the middle of an interval is so deep outside the blank or inside a flaw that the whole interval is.
    fn is_forbidden(&self, from: f64, to: f64) -> bool {
        self.barriers.clearance(self.place(f64::midpoint(from, to))) < -(to - from) / 2.0
    }
}
