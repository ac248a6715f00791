//! The highest point of the lower envelope of many curves: the rotation with the largest least gap.
//!
//! The circle is divided into intervals. No curve rises faster than its rate, so its value at the middle of an interval bounds
//! it on the whole interval; intervals that cannot contain the best rotation are dropped and the rest halved, until so few
//! curves matter on an interval that all of their crossings and maxima can be solved for.

use super::curve::{Curve, direction, lowest};
use crate::Angle;

/// The best rotation from 0 up to `span`, in radians; 0 without curves.
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

/// The initial number of intervals.
const FIRST_PARTS: u32 = 64;

/// If this few curves matter, they are solved rather than halved further.
const FEW: usize = 4;

/// A part of the circle that may contain the best rotation.
struct Stretch {
    from: f64,
    to: f64,
    /// The curves that may be lowest somewhere in it.
    near: Vec<u32>,
    /// No gap in it is larger.
    most: f64,
    /// Whether its gaps are all the same.
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
    /// The largest least gap found so far.
    best: f64,
    /// Rotations and their least gaps, all about as large as the largest known at the time.
    found: Vec<(f64, f64)>,
}

impl<'a> Search<'a> {
    /// Finds the upper bound of an interval, and drops the curves that never matter in it.
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

    /// Keeps the best rotations of an interval where few curves matter, or returns its halves.
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
        // The end of the last interval is the start of the first.
        if gap >= self.best - TIE && turn < self.span {
            self.best = self.best.max(gap);
            self.found.push((turn, gap));
        }
    }

    /// The smallest of the rotations that are about as good as the best.
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

/// Adds the rotations from `from` to `to` at which one of the curves has a maximum, or two of them cross.
fn candidates(near: &[Curve], from: f64, to: f64, turns: &mut Vec<f64>) {
    let mut add = |turn: f64| {
        let turn = from + Angle::radians(turn - from).wrapped().as_radians();
        // A rotation that rounding has pushed out is a whole turn away, or just past the end: both ends are candidates anyway.
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
