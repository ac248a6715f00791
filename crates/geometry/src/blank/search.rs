//! The search for the place with the most clearance, by branch and bound: the most promising box of places is halved until no
//! box can beat the best place found.
//!
//! The distance to a barrier is convex, and so is the mean of two such distances. Over a box, each is largest at one of the
//! corners, and the clearance is at most either, which gives the upper bound of the box. The mean is needed between two
//! parallel edges, where it is half their distance everywhere; without it, boxes there would be halved endlessly. Each box
//! keeps only the barriers that can be nearest somewhere in it, so that few are left after a few halvings, however many there
//! are.

use std::collections::BinaryHeap;
use std::rc::Rc;

use super::Stopped;
use super::barrier::{Barrier, Barriers, Wall};
use super::climb::climb;
use super::promise::Promising;
use crate::{Point, Vec2};

/// The search ends when no other place can have more than this much extra clearance, in mm.
const EXACT: f64 = 1e-10;

/// The least clearance that a place must have, as a fraction of the blank's longer side. Without it, the search would not end
/// along an edge shared by the outline and a flaw.
const LEAST_SHARE: f64 = 1e-5;

/// With more barriers than this near a box, a climb takes too long, so the box is halved first.
const MOST_TO_CLIMB: usize = 256;

/// The most edges in a box that are checked for being shared by two areas.
const MOST_ALIKE: usize = 12;

/// The place with the most clearance; `None` if no place has the least clearance.
///
/// # Errors
///
/// [`Stopped`] if `cancel` returned true.
pub(super) fn most_clear(
    barriers: &Barriers<'_>,
    corners: &[Point],
    cancel: &dyn Fn() -> bool,
) -> Result<Option<Point>, Stopped> {
    let (low, high) = bounds(corners);
    let size = high - low;
    let mut search = Search {
        barriers,
        cells: BinaryHeap::new(),
        seen: 0,
        best: None,
        clear: LEAST_SHARE * size.x.max(size.y),
        distances: Vec::new(),
    };
    let everything = Known {
        barriers: (0..barriers.list().len() as u32).collect(),
        unsure: barriers.all_areas().into(),
    };
    search.look(low.midpoint(high), size / 2.0, &everything);
    while let Some(Promising { bound, part, .. }) = search.cells.pop() {
        if bound <= search.clear + EXACT {
            break;
        }
        if cancel() {
            return Err(Stopped);
        }
        let (center, half) = (part.center, part.half);
        let step = if half.x >= half.y {
            Vec2::new(half.x / 2.0, 0.0)
        } else {
            Vec2::new(0.0, half.y / 2.0)
        };
        search.look(center - step, half - step, &part.known);
        search.look(center + step, half - step, &part.known);
    }
    Ok(search.best)
}

/// Whether two lists have the same straight parts, to within `slack`, in any order and direction.
fn are_alike(one: &[[Point; 2]], other: &[[Point; 2]], slack: f64) -> bool {
    let near = |a: Point, b: Point| (a - b).length() <= slack;
    let same = |a: &[Point; 2], b: &[Point; 2]| {
        (near(a[0], b[0]) && near(a[1], b[1])) || (near(a[0], b[1]) && near(a[1], b[0]))
    };
    let each_in = |some: &[[Point; 2]], all: &[[Point; 2]]| {
        some.iter()
            .all(|part| all.iter().any(|other| same(part, other)))
    };
    one.len() == other.len() && each_in(one, other) && each_in(other, one)
}

fn bounds(corners: &[Point]) -> (Point, Point) {
    let start = corners.first().copied().unwrap_or_default();
    corners.iter().fold((start, start), |(low, high), corner| {
        (
            Point::new(low.x.min(corner.x), low.y.min(corner.y)),
            Point::new(high.x.max(corner.x), high.y.max(corner.y)),
        )
    })
}

/// The barriers and areas that matter within a box.
#[derive(Clone)]
struct Known {
    /// The barriers that may be nearest to some place in the box.
    barriers: Rc<[u32]>,
    /// The areas that may still exclude some place in the box.
    unsure: Rc<[u32]>,
}

/// A box of places: its center and half its dimensions, mm.
struct Cell {
    center: Point,
    half: Vec2,
    known: Known,
}

/// The state of a search.
struct Search<'a> {
    barriers: &'a Barriers<'a>,
    /// Boxes still to be halved, the most promising first; equally promising ones in the order they were made, so that the
    /// result is deterministic.
    cells: BinaryHeap<Promising<Cell>>,
    /// Number of boxes queued so far.
    seen: u32,
    best: Option<Point>,
    /// The clearance to beat, mm: that of the best place, or the least clearance while there is none.
    clear: f64,
    /// A buffer reused for every box: distances from its center, with the barriers' indices.
    distances: Vec<(f64, u32)>,
}

impl Search<'_> {
    /// Tests the center of a box, and queues the box if it may contain a better place.
    fn look(&mut self, center: Point, half: Vec2, known: &Known) {
        let reach = half.length();
        let distances = self.measure(center, reach, &known.barriers);
        let bound = self.bound(&distances, center, half);
        let known = (bound > self.clear + EXACT)
            .then(|| self.narrow(&distances, bound, center, reach, known))
            .flatten();
        if let Some(known) = known {
            let nearest = distances.first().map_or(0.0, |nearest| nearest.0);
            if nearest > self.clear && self.is_allowed(center, &known.unsure) {
                self.improve(center, nearest, reach, &known.barriers);
            }
            if bound > self.clear + EXACT {
                self.cells.push(Promising {
                    bound,
                    turn: f64::from(self.seen),
                    part: Cell {
                        center,
                        half,
                        known,
                    },
                });
                self.seen += 1;
            }
        }
        self.distances = distances;
    }

    /// The distances from the center of a box to its barriers, mm: the smallest first, the rest in any order. Barriers that are
    /// not nearest anywhere in the box are left out.
    fn measure(&mut self, center: Point, reach: f64, barriers: &[u32]) -> Vec<(f64, u32)> {
        let mut distances = core::mem::take(&mut self.distances);
        distances.clear();
        let measured = self.barriers.pick(barriers).zip(barriers);
        distances.extend(measured.map(|(barrier, index)| (barrier.distance(center), *index)));
        let nearest = (0..distances.len()).min_by(|one, other| {
            let distance = |at: &usize| distances.get(*at).map_or(f64::INFINITY, |known| known.0);
            distance(one).total_cmp(&distance(other))
        });
        if let Some(nearest) = nearest {
            distances.swap(0, nearest);
        }
        let least = distances.first().map_or(0.0, |nearest| nearest.0);
        distances.retain(|known| known.0 <= least + 2.0 * reach);
        distances
    }

    /// The upper bound of the clearance within a box, in mm.
    fn bound(&self, distances: &[(f64, u32)], center: Point, half: Vec2) -> f64 {
        let corners = [
            center - half,
            center + half,
            Point::new(center.x - half.x, center.y + half.y),
            Point::new(center.x + half.x, center.y - half.y),
        ];
        let at_corners = |index: u32| {
            let barrier = self.barriers.list().get(index as usize);
            corners.map(|corner| barrier.map_or(f64::INFINITY, |known| known.distance(corner)))
        };
        let Some(&(least, nearest)) = distances.first() else {
            return f64::INFINITY;
        };
        let to_nearest = at_corners(nearest);
        let mut bound = to_nearest.into_iter().fold(0.0, f64::max);
        for &(distance, index) in distances.iter().skip(1) {
            if bound <= self.clear + EXACT {
                break;
            }
            // The mean is convex: at some corner it is at least its value at the center, so this pair cannot lower the
            // bound.
            if f64::midpoint(least, distance) >= bound {
                continue;
            }
            let to_other = at_corners(index);
            let pairs = to_nearest.into_iter().zip(to_other);
            let mean = pairs.map(|(one, other)| f64::midpoint(one, other));
            bound = bound
                .min(to_other.into_iter().fold(0.0, f64::max))
                .min(mean.fold(0.0, f64::max));
        }
        bound
    }

    /// The barriers and areas that matter within a smaller box inside that of `known`; `None` if an area excludes all of the
    /// smaller box.
    fn narrow(
        &self,
        distances: &[(f64, u32)],
        bound: f64,
        center: Point,
        reach: f64,
        known: &Known,
    ) -> Option<Known> {
        let kept = distances
            .iter()
            .filter(|(distance, _)| *distance <= bound + reach);
        let barriers: Vec<u32> = kept.clone().map(|(_, index)| *index).collect();
        let within = kept.filter(|(distance, _)| *distance <= reach);
        let walls = within.clone().filter_map(|(_, index)| {
            let barrier = self.barriers.list().get(*index as usize);
            barrier.and_then(Barrier::as_wall)
        });
        let walls: Vec<&Wall> = walls.take(MOST_ALIKE + 1).collect();
        let least = distances.first().map_or(0.0, |nearest| nearest.0);
        if self.is_shared_out(&walls, least, center, reach) {
            return None;
        }
        let area = |index: u32| {
            let barrier = self.barriers.list().get(index as usize);
            barrier.and_then(Barrier::as_wall).map(|wall| wall.area)
        };
        let mut cut: Vec<u32> = within.filter_map(|(_, index)| area(*index)).collect();
        cut.sort_unstable();
        cut.dedup();
        let mut unsure = Vec::new();
        for area in known.unsure.iter().copied() {
            if cut.binary_search(&area).is_ok() {
                unsure.push(area);
            } else if self.barriers.forbids(area, center) {
                return None;
            }
        }
        Some(Known {
            barriers: barriers.into(),
            unsure: if unsure.len() == known.unsure.len() {
                known.unsure.clone()
            } else {
                unsure.into()
            },
        })
    }

    /// Whether two areas that share all their edges in a box together exclude every place in it.
    ///
    /// Where a flaw runs along the edge of the blank, everything on one side is off the blank and everything on the other is in
    /// the flaw: crossing any edge leaves one and enters the other. Boxes along such an edge would otherwise be halved down to
    /// the least clearance. Edges count as shared if they differ by far less than that clearance.
    fn is_shared_out(&self, walls: &[&Wall], least: f64, center: Point, reach: f64) -> bool {
        let slack = self.clear / 8.0;
        let Some(one) = walls.first().filter(|_| walls.len() <= MOST_ALIKE) else {
            return false;
        };
        // Too close to an edge, it is uncertain on which side of it the center lies.
        if least <= slack || reach <= 8.0 * slack {
            return false;
        }
        let chords = |area: u32| -> Vec<[Point; 2]> {
            let own = walls.iter().filter(|wall| wall.area == area);
            own.filter_map(|wall| wall.chord(center, reach)).collect()
        };
        let own = chords(one.area);
        let forbids = |area| self.barriers.forbids(area, center);
        let mut others = walls.iter().map(|wall| wall.area);
        others.any(|other| {
            other != one.area
                && forbids(other) != forbids(one.area)
                && are_alike(&own, &chords(other), slack)
        })
    }

    fn is_allowed(&self, place: Point, unsure: &[u32]) -> bool {
        !unsure
            .iter()
            .any(|area| self.barriers.forbids(*area, place))
    }

    /// Records an allowed place that is better than the best, and climbs from it unless too many barriers are near.
    fn improve(&mut self, start: Point, clear: f64, reach: f64, near: &[u32]) {
        (self.best, self.clear) = (Some(start), clear);
        if near.len() > MOST_TO_CLIMB {
            return;
        }
        let near: Vec<Barrier> = self.barriers.pick(near).copied().collect();
        let place = climb(&near, start, reach);
        let clear = self.barriers.clearance(place);
        if clear > self.clear {
            (self.best, self.clear) = (Some(place), clear);
        }
    }
}
