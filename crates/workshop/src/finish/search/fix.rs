//! A fix of a finish, and its changes in words.

use board::{Coat, CoatKind, CoatPlace};

use crate::finish::parts::on;
use crate::finish::time;

/// A change of a plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FinishChange {
    /// A coat of dewaxed shellac more.
    Tie {
        /// Its place in the fixed plan, from 0.
        at: usize,
    },
    /// A layer dries longer.
    Wait {
        /// Its place in the fixed plan.
        at: usize,
    },
    /// A layer comes earlier or later.
    Move {
        /// Its place in the fixed plan.
        at: usize,
    },
    /// A layer is of another kind.
    Replace {
        /// Its place in the fixed plan.
        at: usize,
        /// The kind that was planned.
        was: CoatKind,
    },
    /// A layer is left out.
    Drop {
        /// Its place in the plan as it was.
        was_at: usize,
    },
}

/// A plan in which every coat holds, and the changes that lead to it.
#[derive(Debug, Clone, PartialEq)]
pub struct FinishFix {
    /// The fixed plan.
    pub coats: Vec<Coat>,
    /// The changes.
    pub changes: Vec<FinishChange>,
    /// Whether no fix has fewer changes; a plan with many faults is fixed one after the other, without that promise.
    pub is_shortest: bool,
    /// The plan as it was, for the words.
    pub(super) before: Vec<Coat>,
}

impl FinishFix {
    /// The changes in words, for a button: "Move wax to the end".
    pub fn words(&self) -> String {
        let mut words = String::new();
        for change in &self.changes {
            let told = self.words_of(*change);
            if words.is_empty() {
                words = told;
            } else {
                // The first letter of a change is never that of a name.
                words += "; ";
                words.extend(told.chars().take(1).flat_map(char::to_lowercase));
                words.extend(told.chars().skip(1));
            }
        }
        words
    }

    /// One change in words.
    fn words_of(&self, change: FinishChange) -> String {
        let named = |at: usize| self.coats.get(at).map_or("", |coat| coat.kind.label());
        match change {
            FinishChange::Tie { at } => {
                let tie = self.coats.get(at).copied().unwrap_or_default();
                let place = match tie.place {
                    CoatPlace::Whole => String::new(),
                    place => format!(" {}", on(place)),
                };
                format!("Add a coat of {}{place} under {}", named(at), named(at + 1))
            }
            FinishChange::Wait { at } => {
                let dries = self.coats.get(at).map_or(0.0, |coat| coat.dries);
                format!("Let {} dry {}", named(at), time(dries))
            }
            FinishChange::Move { at } if at + 1 == self.coats.len() => {
                format!("Move {} to the end", named(at))
            }
            FinishChange::Move { at } => format!("Move {} ahead of {}", named(at), named(at + 1)),
            FinishChange::Replace { at, was } => {
                format!("Use {} instead of {}", named(at), was.label())
            }
            FinishChange::Drop { was_at } => {
                let gone = self.before.get(was_at);
                format!("Leave out {}", gone.map_or("", |coat| coat.kind.label()))
            }
        }
    }

    /// The sorts of its changes, to distinguish fixes.
    pub(super) fn sorts(&self) -> Vec<core::mem::Discriminant<FinishChange>> {
        self.changes.iter().map(core::mem::discriminant).collect()
    }
}
