//! Branch and bound over boxes of positions.

use std::collections::BinaryHeap;

use core::cmp::Ordering;

use crate::{Angle, PocketPlace, Vec2};

use super::bound::{Line, top};
use super::field::{Field, Spot, Term};

/// An interval between two numbers.
#[derive(Clone, Copy)]
pub(super) struct Range {
    pub(super) low: f64,
    pub(super) high: f64,
}

/// A box of positions: bearings in radians from the axis, radii in mm.
#[derive(Clone, Copy)]
pub(super) struct Region {
    pub(super) bearings: Range,
    pub(super) radii: Range,
}

/// The search for the best position in a region.
pub(super) struct Search<'a> {
    field: &'a Field<'a>,
    heap: BinaryHeap<Open>,
    /// The webs that matter in each open region, one region after the other.
    terms: Vec<Term>,
    best: Option<PocketPlace>,
    /// The web that a position must exceed.
    to_beat: f64,
    spots: Vec<Spot>,
    /// A lower bound within a region for each of its webs.
    floors: Vec<f64>,
    lines: Vec<Line>,
}

/// A region that may contain a better position.
struct Open {
    region: Region,
    /// No position in the region has a larger web.
    bound: f64,
    /// The range of the search's terms that can be smallest in the region.
    terms: (usize, usize),
    /// Regions are numbered in the order they are found, which orders equals.
    number: usize,
}

/// The lead that the mirror side must have to be preferred, in mm.
const TIE: f64 = 9e-7;

/// The most that the result may fall short of the best web, in mm; together with [`TIE`] it makes the promised 1e-6.
const SLACK: f64 = 1e-7;

/// Regions examined before the search settles for the best position found. No real board comes near it.
const MOST_REGIONS: usize = 50_000;

/// Webs kept for open regions before the search likewise settles: they grow with the holes, in time and memory. A board with a
/// usual pocket keeps a few thousand; of 1,500 pockets of 35 to 44 holes that overlap at every position, none kept over a
/// million.
const MOST_TERMS: usize = 2_000_000;

impl<'a> Search<'a> {
    pub(super) fn new(field: &'a Field<'a>) -> Self {
        Self {
            field,
            heap: BinaryHeap::new(),
            terms: Vec::new(),
            best: None,
            to_beat: f64::NEG_INFINITY,
            spots: Vec::new(),
            floors: Vec::new(),
            lines: Vec::new(),
        }
    }

    /// The position with the largest smallest web; `rival` if none is better by more than a tie.
    pub(super) fn best(
        mut self,
        bearings: Range,
        radii: Range,
        rival: Option<PocketPlace>,
    ) -> PocketPlace {
        if let Some(rival) = &rival {
            self.to_beat = rival.web + TIE;
        }
        self.terms = self.field.terms();
        let whole = Region { bearings, radii };
        self.look(whole, f64::INFINITY, (0, self.terms.len()));
        for _ in 0..MOST_REGIONS {
            let Some(open) = self.heap.pop() else { break };
            if open.bound <= self.to_beat + SLACK || self.terms.len() > MOST_TERMS {
                break;
            }
            for half in open.region.halves() {
                self.look(half, open.bound, open.terms);
            }
        }
        // Without a rival, the center of the whole region was recorded first.
        self.best.or(rival).unwrap_or(PocketPlace {
            bearing: Angle::radians(bearings.middle()),
            radius: radii.middle(),
            web: f64::NEG_INFINITY,
        })
    }

    /// Tries the center of a region, and opens the region if it may contain a better position.
    fn look(&mut self, region: Region, bound: f64, terms: (usize, usize)) {
        let give = self.field.give(&region);
        self.field.spots(&region, &mut self.spots);
        self.floors.clear();
        let (mut least, mut most) = (f64::INFINITY, bound);
        for term in self.terms.get(terms.0..terms.1).unwrap_or_default() {
            let web = self.field.web(*term, &self.spots, &give);
            least = least.min(web.least);
            most = most.min(web.most + web.growth);
            self.floors.push(web.least - web.growth);
        }
        self.take(region.bearings.middle(), region.radii.middle(), least);
        if most <= self.to_beat + SLACK || region.is_point() {
            return;
        }
        let start = self.terms.len();
        self.lines.clear();
        for (at, floor) in (terms.0..terms.1).zip(&self.floors) {
            if *floor <= most
                && let Some(&term) = self.terms.get(at)
            {
                self.field.refine(term, &give, &mut self.terms);
                self.lines.push(self.field.line(term, &self.spots, &give));
            }
        }
        let kept = (start, self.terms.len());
        let top = top(&self.lines, region.reach(), self.to_beat + SLACK);
        let bound = most.min(top.bound);
        if bound <= self.to_beat + SLACK {
            self.terms.truncate(start);
            return;
        }
        self.try_place(region.place(top.point), kept);
        self.heap.push(Open {
            region: self.without_idle_bearings(region, kept),
            bound,
            terms: kept,
            number: start,
        });
    }

    /// The region itself, or its center bearing alone if no web that matters depends on the bearing: all positions with the
    /// same radius are equally good there, and would be searched without end.
    fn without_idle_bearings(&self, region: Region, terms: (usize, usize)) -> Region {
        let terms = self.terms.get(terms.0..terms.1).unwrap_or_default();
        if terms.iter().any(|term| self.field.hangs_on_bearing(term)) {
            return region;
        }
        let bearing = region.bearings.middle();
        Region {
            bearings: Range::new(bearing, bearing),
            ..region
        }
    }

    /// Tries a single position.
    fn try_place(&mut self, place: Region, terms: (usize, usize)) {
        let give = self.field.give(&place);
        self.field.spots(&place, &mut self.spots);
        let mut web = f64::INFINITY;
        for term in self.terms.get(terms.0..terms.1).unwrap_or_default() {
            web = web.min(self.field.web(*term, &self.spots, &give).least);
            if web <= self.to_beat {
                return;
            }
        }
        self.take(place.bearings.low, place.radii.low, web);
    }

    fn take(&mut self, bearing: f64, radius: f64, web: f64) {
        if web > self.to_beat {
            self.to_beat = web;
            self.best = Some(PocketPlace {
                bearing: Angle::radians(bearing),
                radius,
                web,
            });
        }
    }
}

impl Range {
    pub(super) fn new(low: f64, high: f64) -> Self {
        Self { low, high }
    }

    pub(super) fn middle(&self) -> f64 {
        f64::midpoint(self.low, self.high)
    }

    pub(super) fn half(&self) -> f64 {
        0.5 * (self.high - self.low)
    }

    fn halves(&self) -> [Self; 2] {
        let middle = self.middle();
        [Self::new(self.low, middle), Self::new(middle, self.high)]
    }

    /// The number `part` half widths from the center, kept inside; without width, the number itself.
    fn at(&self, part: f64) -> f64 {
        (self.middle() + part * self.half()).clamp(self.low, self.high)
    }
}

impl Region {
    /// Two halves, cut across the side that is longer when measured on the board.
    fn halves(&self) -> [Self; 2] {
        let Self { bearings, radii } = *self;
        if radii.half() >= radii.high * bearings.half() {
            radii.halves().map(|radii| Self { bearings, radii })
        } else {
            bearings.halves().map(|bearings| Self { bearings, radii })
        }
    }

    fn is_point(&self) -> bool {
        self.bearings.half() == 0.0 && self.radii.half() == 0.0
    }

    /// The distance from the center of the region, in half widths, to its corners or to the ends of a line.
    fn reach(&self) -> f64 {
        if self.bearings.half() == 0.0 || self.radii.half() == 0.0 {
            1.0
        } else {
            core::f64::consts::SQRT_2
        }
    }

    /// The position in the region nearest to a point given in half widths.
    fn place(&self, point: Vec2) -> Self {
        let (bearing, radius) = (self.bearings.at(point.x), self.radii.at(point.y));
        Self {
            bearings: Range::new(bearing, bearing),
            radii: Range::new(radius, radius),
        }
    }
}

impl PartialEq for Open {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Open {}

impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Open {
    fn cmp(&self, other: &Self) -> Ordering {
        let by_bound = self.bound.total_cmp(&other.bound);
        by_bound.then(other.number.cmp(&self.number))
    }
}
