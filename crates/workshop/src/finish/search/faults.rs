//! The faults of a plan in the search for a fix, with the least number of changes that they take.

use core::ops::{ControlFlow, Range};

use super::Layer;
use crate::check::HAIR;
use crate::finish::bond::hours_between;
use crate::finish::meeting::lies_on;

/// Two coats that do not hold.
#[derive(Debug, Clone, Copy)]
pub struct Fault {
    /// The layer of the lower coat, from 0.
    pub under: usize,
    /// The layer of the upper one.
    pub over: usize,
    /// The way in which they do not hold.
    pub lacks: Lack,
}

/// The way in which two coats do not hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lack {
    /// They do not bond, with any wait.
    Bond,
    /// This many hours more are enough.
    Hours(f64),
}

impl Fault {
    /// The layers whose drying lies between the two coats.
    pub fn span(self) -> Range<usize> {
        self.under..self.over.max(self.under + 1)
    }
}

/// The faults of a plan that a change has to fix.
#[derive(Debug, Default)]
pub struct Judged {
    /// The first of them.
    pub first: Option<Fault>,
    /// All of them, each by its lowest and its highest layer, in the order of their highest layers.
    all: Vec<(usize, usize)>,
}

/// The layers that a change of a plan concerns.
#[derive(Debug, Clone, Copy)]
pub struct Touch {
    /// The layer that is another one after the change, or in another place, or gone; none where a layer is only added.
    pub changed: Option<usize>,
    /// The layer before which another comes to lie; none where none does.
    pub before: Option<usize>,
}

impl Touch {
    /// Of a layer that stays in its place, or goes.
    pub const fn at(layer: usize) -> Self {
        Self {
            changed: Some(layer),
            before: None,
        }
    }

    /// The highest layer that it concerns.
    fn end(self) -> usize {
        self.changed.max(self.before).unwrap_or(0)
    }

    /// Whether a fault may not be the same after the change: it has the layer, or another comes to lie within it.
    fn concerns(self, (under, over): (usize, usize)) -> bool {
        let has = |layer: usize| under <= layer && layer <= over;
        let holds = |layer: usize| under < layer && layer <= over;
        self.changed.is_some_and(has) || self.before.is_some_and(holds)
    }
}

impl Judged {
    /// Whether a change leaves more than this many disjoint faults (no two share a layer) as they were, of those that lie from a
    /// layer on up.
    ///
    /// One change fixes two of them at most, by moving a layer from one into the other.
    pub fn leaves_more_than(&self, most: usize, touch: Touch, from: usize) -> bool {
        let mut apart = Apart::default();
        let left = |fault: &&(usize, usize)| fault.0 >= from && !touch.concerns(**fault);
        let mut left = self.all.iter().filter(left);
        left.any(|fault| apart.count(*fault) > most)
    }
}

/// The largest number of disjoint faults, counted in the order of their highest layers.
#[derive(Debug, Default)]
struct Apart {
    /// The number of them.
    count: usize,
    /// The highest layer of the last one.
    end: Option<usize>,
}

impl Apart {
    /// The number with one more fault.
    fn count(&mut self, (under, over): (usize, usize)) -> usize {
        if self.end.is_none_or(|end| under > end) {
            (self.count, self.end) = (self.count + 1, Some(over));
        }
        self.count
    }
}

/// The faults of a plan whose layers below the one at `begins` hold; none where more than so many share no layer, which no number
/// of remaining changes can fix.
///
/// A fault fixed by a longer wait, which costs no change, is fixed here at once: it makes none of those below it, and no other
/// fault hangs on the time of a layer that costs no change.
///
/// Of a plan that comes from another by a change, the faults of that one which it leaves alone are counted twice on the way up: beyond
/// the lowest layer that is another one now, and beyond all of them.
pub fn judged(
    plan: &mut [Layer],
    begins: usize,
    most: usize,
    before: Option<(&Judged, Touch)>,
) -> Option<Judged> {
    let mut judged = Judged::default();
    let (mut row, mut apart) = (Vec::new(), Apart::default());
    for over in begins..plan.len() {
        while let Some((fault, at)) = faults_of(plan, over, &mut row) {
            wait(plan, at, fault);
        }
        for fault in &row {
            judged.first.get_or_insert(*fault);
            let layers = (fault.under, fault.over);
            judged.all.push(layers);
            if apart.count(layers) > most {
                return None;
            }
        }
        // A layer may have moved down by one, so that the one two above it is surely not looked at yet.
        let leaves_too_many = |(before, touch): (&Judged, Touch)| {
            let is_time = over == begins + 1 || over == touch.end() + 1;
            is_time && before.leaves_more_than(most - apart.count, touch, over + 2)
        };
        if before.is_some_and(leaves_too_many) {
            return None;
        }
    }
    Some(judged)
}

/// Collects the faults of a layer over those below it; for one that a free wait fixes, that and the layer that waits.
fn faults_of(plan: &[Layer], over: usize, row: &mut Vec<Fault>) -> Option<(Fault, usize)> {
    row.clear();
    let coat_at = |at: usize| plan.get(at).map(|layer| layer.coat);
    let free = lies_on(over, coat_at, |(under, lower), upper, _, waits| {
        let lacks = hours_between(lower.kind, upper.kind) - waits;
        if lacks <= HAIR {
            return ControlFlow::Continue(());
        }
        let lacks = if lacks.is_finite() {
            Lack::Hours(lacks)
        } else {
            Lack::Bond
        };
        let fault = Fault { under, over, lacks };
        if let Some(at) = free_layer(plan, fault) {
            return ControlFlow::Break((fault, at));
        }
        row.push(fault);
        ControlFlow::Continue(())
    });
    free.break_value()
}

/// Lets a layer between two coats dry as long as the upper one needs.
pub fn wait(plan: &mut [Layer], at: usize, fault: Fault) {
    if let (Some(layer), Lack::Hours(lacks)) = (plan.get_mut(at), fault.lacks) {
        let coats = if at == fault.under {
            1
        } else {
            layer.coat.coats
        };
        layer.waited |= !layer.is_free();
        layer.coat.dries += lacks / f64::from(coats.max(1));
    }
}

/// The layer whose longer drying time fixes a fault and costs no change.
pub fn free_layer(plan: &[Layer], fault: Fault) -> Option<usize> {
    if fault.lacks == Lack::Bond {
        return None;
    }
    let is_free = |at: &usize| plan.get(*at).is_some_and(Layer::is_free);
    fault.span().find(is_free)
}
