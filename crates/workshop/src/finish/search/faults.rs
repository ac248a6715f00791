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
    /// They do not bond, whatever the time.
    Bond,
    /// So many hours more would do.
    Hours(f64),
}

impl Fault {
    /// The layers whose drying lies between the two coats.
    pub fn span(self) -> Range<usize> {
        self.under..self.over.max(self.under + 1)
    }
}

/// The faults of a plan that a change has to mend.
#[derive(Debug, Default)]
pub struct Judged {
    /// The first of them.
    pub first: Option<Fault>,
    /// As many as can be found of which no two share a layer, each by its lowest and its highest layer, from the first up.
    ///
    /// One change mends two of them at most, by moving a layer from one into the other.
    pub apart: Vec<(usize, usize)>,
    /// For each layer the number of the fault among them that it is in, from 1; 0 where it is in none.
    within: Vec<u8>,
}

impl Judged {
    /// The number of those faults that a change of a layer can mend: 1 where it is in one, else 0.
    pub fn at(&self, layer: usize) -> usize {
        self.within
            .get(layer)
            .is_some_and(|fault| *fault > 0)
            .into()
    }

    /// The number of those faults that a layer put in before another can mend: 1 where it comes to lie within one, else 0.
    pub fn before(&self, layer: usize) -> usize {
        let fault = |at: Option<usize>| at.and_then(|at| self.within.get(at)).copied();
        let (below, above) = (fault(layer.checked_sub(1)), fault(Some(layer)));
        below
            .is_some_and(|fault| fault > 0 && above == Some(fault))
            .into()
    }

    /// Marks the layers of the faults that are apart.
    fn mark(&mut self, layers: usize) {
        self.within.resize(layers, 0);
        for (number, (under, over)) in self.apart.iter().enumerate() {
            for within in self.within.iter_mut().take(over + 1).skip(*under) {
                *within = u8::try_from(number + 1).unwrap_or(u8::MAX);
            }
        }
    }
}

/// The faults of a plan whose layers below the one at `begins` hold; none where more than so many share no layer, which no number of
/// changes that may still come can mend.
///
/// A fault that time mends which costs no change is mended here, where it is met: it makes none of those below it, and no other fault
/// hangs on the time of a layer that costs no change.
pub fn judged(plan: &mut [Layer], begins: usize, most: usize) -> Option<Judged> {
    let mut judged = Judged::default();
    let mut row = Vec::new();
    for over in begins..plan.len() {
        while let Some((fault, at)) = faults_of(plan, over, &mut row) {
            wait(plan, at, fault);
        }
        for fault in &row {
            judged.first.get_or_insert(*fault);
            let is_apart = judged
                .apart
                .last()
                .is_none_or(|(_, end)| fault.under > *end);
            if is_apart {
                judged.apart.push((fault.under, fault.over));
            }
        }
        if judged.apart.len() > most {
            return None;
        }
    }
    if judged.first.is_some() {
        judged.mark(plan.len());
    }
    Some(judged)
}

/// Collects the faults of a layer over those below it; of one that time mends which costs no change, that and the layer that waits.
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

/// The layer whose drying time mends a fault and costs no change.
pub fn free_layer(plan: &[Layer], fault: Fault) -> Option<usize> {
    if fault.lacks == Lack::Bond {
        return None;
    }
    let is_free = |at: &usize| plan.get(*at).is_some_and(Layer::is_free);
    fault.span().find(is_free)
}
