//! The search for a fix done plainly: every plan is made and judged anew. It holds the quick search to the same answers.

use board::{Coat, CoatPlace};

use super::faults::{Fault, Lack, free_layer, wait};
use super::{FinishFix, Layer, MOST_PLANS, best_of, one_by_one, relatives, two};
use crate::check::HAIR;
use crate::finish::bond::bond;
use crate::finish::kinds::coat_data;
use crate::finish::meeting::is_sound;
use crate::finish::parts::Parts;
use board::CoatKind;

/// The fixes of a plan.
pub fn plain_fixes(coats: &[Coat]) -> Vec<FinishFix> {
    if is_sound(coats) {
        return Vec::new();
    }
    let planned = |(at, coat): (usize, &Coat)| Layer::new(*coat, Some(at));
    let plan: Vec<Layer> = coats.iter().enumerate().map(planned).collect();
    let mut places: Vec<CoatPlace> = coats.iter().map(|coat| coat.place).collect();
    places.sort_unstable();
    places.dedup();
    let mut search = Search {
        places,
        seen: 0,
        found: Vec::new(),
    };
    let mut depth = 1;
    while search.found.is_empty() && search.seen < MOST_PLANS {
        search.go(plan.clone(), depth);
        depth += 1;
    }
    if search.found.is_empty() {
        return vec![one_by_one(coats, plan)];
    }
    best_of(search.found, coats)
}

/// A search to a depth.
struct Search {
    /// The places of the plan, where a tie coat may go.
    places: Vec<CoatPlace>,
    /// Plans looked at.
    seen: usize,
    /// Plans in which every coat holds.
    found: Vec<Vec<Layer>>,
}

impl Search {
    /// Looks through the plans that are so many changes away.
    fn go(&mut self, mut plan: Vec<Layer>, left: usize) {
        self.seen += 1;
        if self.seen >= MOST_PLANS {
            return;
        }
        let mut faults = faults_of(&plan);
        while let Some((fault, at)) = faults.free {
            wait(&mut plan, at, fault);
            faults = faults_of(&plan);
        }
        match faults.first {
            None => self.found.push(plan),
            Some(fault) if left > 0 && faults.least <= left => self.branch(&plan, fault, left - 1),
            Some(_) => {}
        }
    }

    /// Every change that concerns a fault.
    fn branch(&mut self, plan: &[Layer], fault: Fault, left: usize) {
        if fault.lacks != Lack::Bond {
            for at in fault.span() {
                let mut next = plan.to_vec();
                wait(&mut next, at, fault);
                self.go(next, left);
            }
        }
        self.tie(plan, fault, left);
        for at in two(fault.under, fault.over) {
            self.replace(plan, at, left);
            self.drop(plan, at, left);
        }
        self.moves(plan, fault, left);
    }

    /// A tie coat between the two, in each of the places of the plan.
    ///
    /// It may go anywhere between them, under and over what else lies there.
    fn tie(&mut self, plan: &[Layer], fault: Fault, left: usize) {
        for at in fault.under + 1..=fault.over {
            for place in self.places.clone() {
                let mut next = plan.to_vec();
                next.insert(at, Layer::tie(place));
                self.go(next, left);
            }
        }
    }

    /// A relative in place of a layer, with the usual time of its kind.
    ///
    /// Layers that were replaced already are left alone, and so are tie coats: either would be two changes where one does.
    fn replace(&mut self, plan: &[Layer], at: usize, left: usize) {
        let is_planned = |layer: &&Layer| layer.kind_was.is_none() && layer.was.is_some();
        let Some(layer) = plan.get(at).filter(is_planned) else {
            return;
        };
        let was = layer.coat.kind;
        for kind in relatives(was) {
            let mut next = plan.to_vec();
            if let Some(layer) = next.get_mut(at).filter(|_| *kind != was) {
                layer.kind_was = Some(was);
                (layer.coat.kind, layer.coat.dries) = (*kind, coat_data(*kind).next);
                self.go(next, left);
            }
        }
    }

    /// The plan without a layer of the maker's.
    ///
    /// A layer that was changed before is not left out then: leaving it out at once is a change less.
    fn drop(&mut self, plan: &[Layer], at: usize, left: usize) {
        if plan.get(at).is_some_and(|layer| layer.count() == 0) {
            let mut next = plan.to_vec();
            next.remove(at);
            self.go(next, left);
        }
    }

    /// One of the two elsewhere, or another layer between them.
    ///
    /// A layer is moved once: all places that it could go to are tried, and layers moved later go before or after it.
    fn moves(&mut self, plan: &[Layer], fault: Fault, left: usize) {
        for from in 0..plan.len() {
            if plan
                .get(from)
                .is_none_or(|layer| layer.moved || layer.was.is_none())
            {
                continue;
            }
            for to in (0..plan.len()).filter(|to| *to != from) {
                let is_one = from == fault.under || from == fault.over;
                let comes_between = if from < fault.under {
                    (fault.under..fault.over).contains(&to)
                } else {
                    (fault.under + 1..=fault.over).contains(&to)
                };
                if is_one || comes_between {
                    let mut next = plan.to_vec();
                    let mut layer = next.remove(from);
                    layer.moved = true;
                    next.insert(to, layer);
                    self.go(next, left);
                }
            }
        }
    }
}

/// The faults of a plan.
#[derive(Debug, Default)]
struct Faults {
    /// The first fault that a change has to fix.
    first: Option<Fault>,
    /// A fault fixed by a longer wait, which costs no change.
    free: Option<(Fault, usize)>,
    /// A number of changes that it takes at least.
    least: usize,
}

/// The faults of a plan.
///
/// All of them are checked, without use of earlier results.
fn faults_of(plan: &[Layer]) -> Faults {
    let mut faults = Faults::default();
    let (mut apart, mut end) = (0_usize, None);
    let mut found = |fault: Fault| {
        if let Some(at) = free_layer(plan, fault) {
            faults.free.get_or_insert((fault, at));
            return;
        }
        // Disjoint faults: one change fixes two of them at most, by moving a layer from one into the other.
        if end.is_none_or(|end| fault.under > end) {
            (apart, end) = (apart + 1, Some(fault.over));
        }
        faults.first.get_or_insert(fault);
    };
    for (over, layer) in plan.iter().enumerate() {
        let coat = layer.coat;
        if coat.coats > 1
            && let Some(lacks) = fault_between(coat.kind, coat.kind, coat.dries)
        {
            found(Fault {
                under: over,
                over,
                lacks,
            });
        }
        let (mut open, mut between) = (Parts::of(coat.place), 0.0);
        for (under, lower) in plan.iter().enumerate().take(over).rev() {
            if open.is_empty() {
                break;
            }
            let lower = lower.coat;
            let on = open.both(Parts::of(lower.place));
            if !on.is_empty()
                && let Some(lacks) = fault_between(lower.kind, coat.kind, between + lower.dries)
            {
                found(Fault { under, over, lacks });
            }
            open = open.without(on);
            between += lower.hours();
        }
    }
    faults.least = apart.div_ceil(2);
    faults
}

/// The way in which an upper coat does not hold; none where it does.
fn fault_between(under: CoatKind, over: CoatKind, waits: f64) -> Option<Lack> {
    let bond = bond(under, over);
    let lacks = bond.hours - waits;
    if bond.sort.fails() {
        Some(Lack::Bond)
    } else {
        (lacks > HAIR).then_some(Lack::Hours(lacks))
    }
}
