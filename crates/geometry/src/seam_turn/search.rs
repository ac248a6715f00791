//! The highest point of the lower envelope of many curves: the turn with the largest least gap.
//!
//! The circle is cut into stretches. No curve rises faster than its rate, so its value at the middle of a stretch
//! bounds it on the whole; stretches that cannot hold the best turn are dropped and the rest halved, until so few
//! curves are left to matter on a stretch that their crossings and turning points can all be solved.

use super::curve::{Curve, direction, lowest};
use crate::Angle;

/// The best turn from 0 up to `span`, in radians; 0 without curves.
pub fn best(curves: &[Curve], span: f64) -> f64 {
    let mut search = Search {
        curves,
        span,
        best: f64::NEG_INFINITY,
        found: Vec::new(),
    };
    let all: Vec<u32> = (0..curves.len() as u32).collect();
    let end = |part: u32| span * f64::from(part) / f64::from(FIRST_PARTS);
    let mut open: Vec<Stretch> = (0..FIRST_PARTS)
        .map(|part| Stretch::new(end(part), end(part + 1), all.clone()))
        .collect();
    while !open.is_empty() {
        for stretch in &mut open {
            search.bound(stretch);
        }
        open.retain(|stretch| stretch.most >= search.best - TIE);
        open = open
            .into_iter()
            .flat_map(|stretch| search.solve_or_halve(stretch))
            .collect();
    }
    search.first_of_the_best()
}

/// Gaps that differ by less than this, in mm, are equally large.
const TIE: f64 = 1e-10;

/// Stretches to begin with.
const FIRST_PARTS: u32 = 64;

/// So few curves are solved rather than halved further.
const FEW: usize = 4;

/// A part of the circle that may hold the best turn.
struct Stretch {
    from: f64,
    to: f64,
    /// The curves that may be lowest somewhere on it.
    near: Vec<u32>,
    /// No gap on it is larger.
    most: f64,
    /// Whether its gaps are all alike.
    flat: bool,
}

impl Stretch {
    fn new(from: f64, to: f64, near: Vec<u32>) -> Self {
        Self {
            from,
            to,
            near,
            most: f64::INFINITY,
            flat: false,
        }
    }

    fn middle(&self) -> f64 {
        f64::midpoint(self.from, self.to)
    }
}

struct Search<'a> {
    curves: &'a [Curve],
    span: f64,
    /// The largest least gap that has been seen.
    best: f64,
    /// Turns and their least gaps, all about as large as the largest known at the time.
    found: Vec<(f64, f64)>,
}

impl<'a> Search<'a> {
    /// Finds the most that a stretch can hold, and leaves out the curves that never matter on it.
    fn bound(&mut self, stretch: &mut Stretch) {
        let at = direction(stretch.middle());
        let half = (stretch.to - stretch.from) / 2.0;
        let gaps: Vec<(u32, f64, f64)> = self
            .named(&stretch.near)
            .map(|(index, curve)| (index, curve.gap(at), curve.rate * half))
            .collect();
        let (mut least, mut most) = (f64::INFINITY, f64::INFINITY);
        for (_, gap, change) in &gaps {
            least = least.min(*gap);
            most = most.min(gap + change);
        }
        stretch.most = most;
        stretch.flat = most - least <= TIE / 2.0;
        stretch.near.clear();
        let lowest_gap = |(_, gap, change): &&(u32, f64, f64)| gap - change <= most;
        stretch
            .near
            .extend(gaps.iter().filter(lowest_gap).map(|(index, ..)| index));
        self.best = self.best.max(least);
    }

    /// Keeps the best turns of a stretch where few curves matter, or gives its halves.
    fn solve_or_halve(&mut self, stretch: Stretch) -> Vec<Stretch> {
        if stretch.near.len() > FEW && !stretch.flat {
            let middle = stretch.middle();
            let first = Stretch::new(stretch.from, middle, stretch.near.clone());
            return vec![first, Stretch::new(middle, stretch.to, stretch.near)];
        }
        let near: Vec<Curve> = self.named(&stretch.near).map(|(_, curve)| *curve).collect();
        let mut turns = vec![stretch.from, stretch.middle(), stretch.to];
        if !stretch.flat {
            candidates(&near, stretch.from, stretch.to, &mut turns);
        }
        for turn in turns {
            self.keep(turn, lowest(&near, turn));
        }
        Vec::new()
    }

    fn keep(&mut self, turn: f64, gap: f64) {
        // The end of the last stretch is the start of the first.
        if gap >= self.best - TIE && turn < self.span {
            self.best = self.best.max(gap);
            self.found.push((turn, gap));
        }
    }

    /// The smallest turn of those that are about as good as the best.
    fn first_of_the_best(&self) -> f64 {
        let best = self.best - TIE;
        self.found
            .iter()
            .filter(|(_, gap)| *gap >= best)
            .map(|(turn, _)| *turn)
            .reduce(f64::min)
            .unwrap_or(0.0)
    }

    fn named<'s>(&self, near: &'s [u32]) -> impl Iterator<Item = (u32, &'a Curve)> + use<'s, 'a> {
        let curves = self.curves;
        near.iter()
            .filter_map(|&index| Some((index, curves.get(index as usize)?)))
    }
}

/// Adds the turns from `from` to `to` at which one of the curves turns back, or two of them cross.
fn candidates(near: &[Curve], from: f64, to: f64, turns: &mut Vec<f64>) {
    let mut add = |turn: f64| {
        let turn = from + Angle::radians(turn - from).wrapped().as_radians();
        // A turn that rounding has pushed out lies a whole turn on, or just past the end: both ends are kept anyway.
        if turn <= to {
            turns.push(turn);
        }
    };
    for (at, one) in near.iter().enumerate() {
        one.turning_points(&mut add);
        for other in near.iter().skip(at + 1) {
            one.crossings(other, &mut add);
        }
    }
}
