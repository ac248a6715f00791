//! The shortest fix of a finish in which coats do not hold: the fewest changes to the maker's plan.
//!
//! A change is a tie coat more, a layer moved, replaced by a related kind or left out, or a longer wait. The search goes by the
//! number of changes, and of each plan it looks at the first two coats that do not hold: some change of every fix concerns one of
//! the two or comes between them, so that trying those alone misses nothing. Of fixes with as many changes those come first that
//! keep most of the plan, then those that take less time. The same plan has the same fixes.

mod faults;
mod fix;
#[cfg(test)]
mod plain;
#[cfg(test)]
mod tests;

use board::{Coat, CoatKind, CoatPlace};

use super::bond::hours_between;
use super::kinds::coat_data;
use super::meeting::is_sound;

use faults::{Fault, Judged, Lack, Touch, judged, wait};
pub use fix::{FinishChange, FinishFix};

/// Plans tried before the search gives up on the shortest fix; keeps it within milliseconds.
const MOST_PLANS: usize = 20_000;
/// Fixes that are offered.
const OFFERED: usize = 3;
/// The coat that ties two coats that do not bond; trade page.
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
        search.seen += 1;
        if search.seen < MOST_PLANS {
            search.go(plan.clone(), 0, depth, None);
        }
        depth += 1;
    }
    if search.found.is_empty() {
        return vec![one_by_one(coats, plan)];
    }
    // Every plan with fewer changes was tried, so that these are the fewest even where the last round was cut short.
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

/// A plan from which others are made by one change.
#[derive(Clone, Copy)]
struct From<'a> {
    /// The plan.
    plan: &'a [Layer],
    /// Its faults.
    judged: &'a Judged,
    /// Changes that may follow.
    left: usize,
}

impl Search {
    /// Looks through the plans that are so many changes away.
    ///
    /// Layers below the one at `begins` hold, as they did before the last change.
    fn go(
        &mut self,
        mut plan: Vec<Layer>,
        begins: usize,
        left: usize,
        before: Option<(&Judged, Touch)>,
    ) {
        let Some(judged) = judged(&mut plan, begins, 2 * left, before) else {
            return;
        };
        match judged.first {
            None => self.found.push(plan),
            Some(fault) => {
                let from = From {
                    plan: &plan,
                    judged: &judged,
                    left: left.saturating_sub(1),
                };
                self.branch(from, fault);
            }
        }
    }

    /// Goes on with a plan that is one change away, where that can lead to a fix.
    ///
    /// Faults that the change leaves alone are faults of the new plan too. Where they alone take more changes than may follow, the plan
    /// counts as looked at, and is not even made.
    fn step(
        &mut self,
        from: From<'_>,
        touch: Touch,
        begins: usize,
        change: impl FnOnce(&mut Vec<Layer>),
    ) {
        self.seen += 1;
        if self.seen >= MOST_PLANS || from.judged.leaves_more_than(2 * from.left, touch, 0) {
            return;
        }
        let mut next = Vec::with_capacity(from.plan.len() + 1);
        next.extend_from_slice(from.plan);
        change(&mut next);
        self.go(next, begins, from.left, Some((from.judged, touch)));
    }

    /// Every change that concerns a fault.
    fn branch(&mut self, from: From<'_>, fault: Fault) {
        if fault.lacks != Lack::Bond {
            for at in fault.span() {
                self.step(from, Touch::at(at), at, |next| wait(next, at, fault));
            }
        }
        self.tie(from, fault);
        for at in two(fault.under, fault.over) {
            self.replace(from, at);
            self.drop(from, at);
        }
        self.moves(from, fault);
    }

    /// A tie coat between the two, in each of the places of the plan.
    ///
    /// It may go anywhere between them, under and over what else lies there.
    fn tie(&mut self, from: From<'_>, fault: Fault) {
        for at in fault.under + 1..=fault.over {
            for place in self.places.clone() {
                let touch = Touch {
                    changed: None,
                    before: Some(at),
                };
                self.step(from, touch, at, |next| next.insert(at, Layer::tie(place)));
            }
        }
    }

    /// A relative in place of a layer, with the usual time of its kind.
    ///
    /// Layers that were replaced already are left alone, and so are tie coats: either would be two changes where one does.
    fn replace(&mut self, from: From<'_>, at: usize) {
        let is_planned = |layer: &&Layer| layer.kind_was.is_none() && layer.was.is_some();
        let Some(layer) = from.plan.get(at).filter(is_planned) else {
            return;
        };
        let was = layer.coat.kind;
        for kind in relatives(was).iter().filter(|kind| **kind != was) {
            self.step(from, Touch::at(at), at, |next| {
                if let Some(layer) = next.get_mut(at) {
                    layer.kind_was = Some(was);
                    (layer.coat.kind, layer.coat.dries) = (*kind, coat_data(*kind).next);
                }
            });
        }
    }

    /// The plan without a layer of the maker's.
    ///
    /// A layer that was changed before is not left out then: leaving it out at once is a change less.
    fn drop(&mut self, from: From<'_>, at: usize) {
        if from.plan.get(at).is_some_and(|layer| layer.count() == 0) {
            self.step(from, Touch::at(at), at, |next| {
                next.remove(at);
            });
        }
    }

    /// One of the two elsewhere, or another layer between them.
    ///
    /// A layer is moved once: all places that it could go to are tried, and layers moved later go before or after it.
    fn moves(&mut self, from: From<'_>, fault: Fault) {
        for (at, layer) in from.plan.iter().enumerate() {
            if layer.moved || layer.was.is_none() {
                continue;
            }
            let is_one = at == fault.under || at == fault.over;
            let places = match at < fault.under {
                _ if is_one => 0..from.plan.len(),
                true => fault.under..fault.over,
                false => fault.under + 1..fault.over + 1,
            };
            for to in places.filter(|to| *to != at) {
                // A layer that moves up goes behind the layer now in that place; one that moves down goes before it.
                let touch = Touch {
                    changed: Some(at),
                    before: Some(if to > at { to + 1 } else { to }),
                };
                self.step(from, touch, at.min(to), |next| {
                    let mut layer = next.remove(at);
                    layer.moved = true;
                    next.insert(to, layer);
                });
            }
        }
    }
}

/// The two layers of a fault, each once.
fn two(under: usize, over: usize) -> impl Iterator<Item = usize> {
    [under].into_iter().chain((over != under).then_some(over))
}

/// Kinds that may replace each other: they have the same purpose.
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
    let mut ranked: Vec<((u32, f64), Vec<Layer>)> = found
        .into_iter()
        .map(|plan| (rank(&plan, before.len()), plan))
        .collect();
    ranked.sort_by(|(one, _), (other, _)| one.0.cmp(&other.0).then(one.1.total_cmp(&other.1)));
    let mut best: Vec<FinishFix> = Vec::new();
    for (_, plan) in ranked {
        let fix = fix_of(&plan, before, true);
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

/// A plan as a fix, its changes in the order of the layers.
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
    // Waits, which change no layer, have been added by now.
    while let Some(fault) = judged(&mut plan, 0, usize::MAX, None).and_then(|judged| judged.first) {
        let kind = |at: usize| plan.get(at).map(|layer| layer.coat);
        let (Some(under), Some(over)) = (kind(fault.under), kind(fault.over)) else {
            break;
        };
        let ties = [(under.kind, TIE), (TIE, over.kind)];
        let can_tie = ties
            .iter()
            .all(|(low, high)| hours_between(*low, *high).is_finite());
        if fault.lacks != Lack::Bond {
            wait(&mut plan, fault.under, fault);
        } else if can_tie && plan.len() < 2 * before.len() {
            plan.insert(fault.over, Layer::tie(over.place));
        } else {
            plan.remove(fault.under);
        }
    }
    fix_of(&plan, before, false)
}
