//! The shortest fix of a finish in which coats do not hold: the fewest changes to what the maker has planned.
//!
//! A change is a tie coat more, a layer moved, replaced by one of its relatives or left out, or a longer wait. The search goes by
//! the number of changes, and of each plan it looks at the first two coats that do not hold: some change of every fix concerns one
//! of the two or comes between them, so that trying those alone misses nothing. Of fixes with as many changes those come first
//! that keep most of the plan, then those that take less time. The same plan has the same fixes.

mod fix;
#[cfg(test)]
mod tests;

use board::{Coat, CoatKind, CoatPlace};

use super::bond::bond;
use super::kinds::coat_data;
use super::meeting::is_sound;
use super::parts::Parts;
use crate::check::HAIR;

pub use fix::{FinishChange, FinishFix};

/// Plans looked at before the search gives up on the shortest fix; keeps it within milliseconds.
const MOST_PLANS: usize = 20_000;
/// Fixes that are offered.
const OFFERED: usize = 3;
/// The coat that ties what does not bond; trade page.
const TIE: CoatKind = CoatKind::DewaxedShellac;

/// A layer in the search.
#[derive(Debug, Clone, Copy)]
struct Layer {
    /// As it is now.
    coat: Coat,
    /// Its place in the plan as it was; none for a tie coat.
    was: Option<usize>,
    /// Whether it was moved.
    moved: bool,
    /// Whether it was made to wait.
    waited: bool,
    /// The kind it had, if another one.
    kind_was: Option<CoatKind>,
}

impl Layer {
    /// A layer without changes of its own.
    const fn new(coat: Coat, was: Option<usize>) -> Self {
        Self {
            coat,
            was,
            moved: false,
            waited: false,
            kind_was: None,
        }
    }

    /// A tie coat in a place.
    const fn tie(place: CoatPlace) -> Self {
        let coat = Coat {
            place,
            ..Coat::of(TIE, coat_data(TIE).next)
        };
        Self::new(coat, None)
    }

    /// Whether its drying time costs no change: it was changed already, or is new.
    const fn is_free(&self) -> bool {
        self.waited || self.was.is_none() || self.kind_was.is_some()
    }

    /// The number of its changes.
    const fn count(&self) -> u32 {
        self.was.is_none() as u32
            + self.moved as u32
            + self.waited as u32
            + self.kind_was.is_some() as u32
    }

    /// The size of its changes: of equal counts, a tie or a wait keeps most of a plan, and leaving out least.
    const fn weight(&self) -> u32 {
        self.was.is_none() as u32
            + self.waited as u32
            + 2 * self.moved as u32
            + 3 * self.kind_was.is_some() as u32
    }
}

/// Two coats that do not hold.
#[derive(Debug, Clone, Copy)]
struct Fault {
    /// The layer of the lower coat, from 0.
    under: usize,
    /// The layer of the upper one.
    over: usize,
    /// The way in which they do not hold.
    lacks: Lack,
}

/// The way in which two coats do not hold.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Lack {
    /// They do not bond, whatever the time.
    Bond,
    /// So many hours more would do.
    Hours(f64),
}

impl Fault {
    /// The layers whose drying lies between the two coats.
    fn span(self) -> core::ops::Range<usize> {
        self.under..self.over.max(self.under + 1)
    }
}

/// The faults of a plan.
#[derive(Debug, Default)]
struct Faults {
    /// The first fault that a change has to mend.
    first: Option<Fault>,
    /// A fault that time mends which costs no change.
    free: Option<(Fault, usize)>,
    /// A number of changes that it takes at least.
    least: usize,
}

/// The faults of a plan.
///
/// Layers are looked at as in [`meetings`](super::meeting::meetings), without a list: the search does this for each of
/// thousands of plans.
fn faults_of(plan: &[Layer]) -> Faults {
    let mut faults = Faults::default();
    let (mut apart, mut end) = (0_usize, None);
    let mut found = |fault: Fault| {
        if let Some(at) = free_layer(plan, fault) {
            faults.free.get_or_insert((fault, at));
            return;
        }
        // Faults that share no layer: one change mends two of them at most, by moving a layer from one into the other.
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

/// The fixes of a plan with the fewest changes, best first, at most three that differ in their sorts of change; none where every
/// coat holds.
///
/// ```
/// use board::{Coat, CoatKind};
/// use workshop::finish_fixes;
/// let plan = [Coat::of(CoatKind::Wax, 1.0), Coat::of(CoatKind::OilPolyurethane, 24.0)];
/// let fixes = finish_fixes(&plan);
/// assert_eq!(fixes[0].words(), "Move wax to the end");
/// assert!(finish_fixes(&fixes[0].coats).is_empty());
/// ```
pub fn finish_fixes(coats: &[Coat]) -> Vec<FinishFix> {
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
    // Every plan with fewer changes was looked at, so that these are the fewest even where the last round was cut short.
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
    /// A layer is moved once: all places that it could go to are tried, and what is moved later goes before or after it.
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

/// The two layers of a fault, each once.
fn two(under: usize, over: usize) -> impl Iterator<Item = usize> {
    [under].into_iter().chain((over != under).then_some(over))
}

/// Lets a layer between two coats dry as long as the upper one needs.
fn wait(plan: &mut [Layer], at: usize, fault: Fault) {
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
fn free_layer(plan: &[Layer], fault: Fault) -> Option<usize> {
    if fault.lacks == Lack::Bond {
        return None;
    }
    let is_free = |at: &usize| plan.get(*at).is_some_and(Layer::is_free);
    fault.span().find(is_free)
}

/// Kinds that may stand for each other: what they are for is the same.
///
/// Wax has none: a maker who plans wax wants its sheen on top.
const fn relatives(kind: CoatKind) -> &'static [CoatKind] {
    use CoatKind::{
        Acrylic, DewaxedShellac, Dye, Enamel, Lacquer, Oil, OilPolyurethane, OilVarnish, OilWax,
        PaintPen, SandingSealer, Shellac, Stain, WaterPolyurethane, Wax, WipingVarnish,
    };
    match kind {
        Dye | Stain => &[Dye, Stain],
        Oil | OilVarnish | OilWax => &[Oil, OilVarnish, OilWax],
        SandingSealer => &[SandingSealer, DewaxedShellac],
        Shellac | DewaxedShellac | WipingVarnish | OilPolyurethane | WaterPolyurethane
        | Lacquer => &[
            Shellac,
            DewaxedShellac,
            WipingVarnish,
            OilPolyurethane,
            WaterPolyurethane,
            Lacquer,
        ],
        PaintPen | Enamel | Acrylic => &[PaintPen, Enamel, Acrylic],
        Wax => &[],
    }
}

/// The best of the plans found, at most three that differ in their sorts of change.
fn best_of(found: Vec<Vec<Layer>>, before: &[Coat]) -> Vec<FinishFix> {
    let mut ranked: Vec<((u32, f64), FinishFix)> = found
        .into_iter()
        .map(|plan| (rank(&plan, before.len()), fix_of(&plan, before, true)))
        .collect();
    ranked.sort_by(|(one, _), (other, _)| one.0.cmp(&other.0).then(one.1.total_cmp(&other.1)));
    let mut best: Vec<FinishFix> = Vec::new();
    for (_, fix) in ranked {
        if best.iter().all(|other| other.sorts() != fix.sorts()) {
            best.push(fix);
        }
        if best.len() == OFFERED {
            break;
        }
    }
    best
}

/// The distance of a plan from the maker's, and the hours that it takes.
fn rank(plan: &[Layer], before: usize) -> (u32, f64) {
    let kept = plan.iter().filter(|layer| layer.was.is_some()).count();
    let weight: u32 = plan.iter().map(Layer::weight).sum();
    let dropped = u32::try_from(before - kept).unwrap_or(u32::MAX / 10);
    let hours = plan.iter().map(|layer| layer.coat.hours()).sum();
    (weight + 5 * dropped, hours)
}

/// A plan as a fix, its changes told in the order of the layers.
fn fix_of(plan: &[Layer], before: &[Coat], is_shortest: bool) -> FinishFix {
    let mut changes = Vec::new();
    for (at, layer) in plan.iter().enumerate() {
        if layer.was.is_none() {
            changes.push(FinishChange::Tie { at });
        }
        if layer.moved {
            changes.push(FinishChange::Move { at });
        }
        if let Some(was) = layer.kind_was {
            changes.push(FinishChange::Replace { at, was });
        }
        if layer.waited {
            changes.push(FinishChange::Wait { at });
        }
    }
    let is_gone = |at: &usize| plan.iter().all(|layer| layer.was != Some(*at));
    let gone = (0..before.len()).filter(is_gone);
    changes.extend(gone.map(|was_at| FinishChange::Drop { was_at }));
    FinishFix {
        coats: plan.iter().map(|layer| layer.coat).collect(),
        changes,
        is_shortest,
        before: before.to_vec(),
    }
}

/// A fix of a plan with many faults: one after the other, each by what keeps most.
///
/// It ends: a wait or a tie makes no new fault, and there are only so many layers to leave out.
fn one_by_one(before: &[Coat], mut plan: Vec<Layer>) -> FinishFix {
    loop {
        let faults = faults_of(&plan);
        let Some(fault) = faults.free.map(|(fault, _)| fault).or(faults.first) else {
            break;
        };
        let kind = |at: usize| plan.get(at).map(|layer| layer.coat);
        let (Some(under), Some(over)) = (kind(fault.under), kind(fault.over)) else {
            break;
        };
        let ties = [(under.kind, TIE), (TIE, over.kind)];
        let can_tie = ties
            .iter()
            .all(|(low, high)| !bond(*low, *high).sort.fails());
        if fault.lacks != Lack::Bond {
            let at = free_layer(&plan, fault).unwrap_or(fault.under);
            wait(&mut plan, at, fault);
        } else if can_tie && plan.len() < 2 * before.len() {
            plan.insert(fault.over, Layer::tie(over.place));
        } else {
            plan.remove(fault.under);
        }
    }
    fix_of(&plan, before, false)
}
