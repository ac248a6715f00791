//! Where two coats meet, and whether the upper one holds there.

use core::ops::ControlFlow;

use board::Coat;

use super::bond::{Bond, bond};
use super::parts::Parts;
use crate::check::HAIR;

/// Two coats that meet: of two layers, or of one layer of several coats.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Meeting {
    /// The layer of the lower coat, from 0.
    pub under: usize,
    /// The layer of the upper one; the same where a layer has several coats.
    pub over: usize,
    /// The parts of the board where they meet.
    pub on: Parts,
    /// Hours between the two, as planned: other layers elsewhere on the board give the lower one time too.
    pub waits: f64,
    /// The judgment.
    pub bond: Bond,
}

impl Meeting {
    /// Whether the upper coat comes off, with any wait.
    pub const fn fails(&self) -> bool {
        self.bond.sort.fails()
    }

    /// Whether it bonds, and comes too early.
    pub fn is_early(&self) -> bool {
        !self.fails() && self.waits < self.bond.hours - HAIR
    }

    /// Whether it holds as planned.
    pub fn holds(&self) -> bool {
        !self.fails() && !self.is_early()
    }
}

/// Everywhere that two coats meet, by the upper layer and then by the lower.
///
/// Where color lies in the grooves alone, the coat over all meets the color there and the coat below it beside them: both are
/// judged.
///
/// ```
/// use board::{Coat, CoatKind, CoatPlace};
/// use workshop::meetings;
/// let color = Coat { place: CoatPlace::Grooves, ..Coat::of(CoatKind::Acrylic, 24.0) };
/// let coats = [Coat::of(CoatKind::DewaxedShellac, 2.0), color, Coat::of(CoatKind::WaterPolyurethane, 6.0)];
/// let pairs: Vec<_> = meetings(&coats).iter().map(|met| (met.under, met.over)).collect();
/// assert_eq!(pairs, [(0, 1), (0, 2), (1, 2)]);
/// ```
pub fn meetings(coats: &[Coat]) -> Vec<Meeting> {
    let coat_at = |at: usize| coats.get(at).copied();
    let mut all = Vec::new();
    for over in 0..coats.len() {
        let begins = all.len();
        let met = lies_on(over, coat_at, |lower, upper, on, waits| {
            all.push(Meeting {
                under: lower.0,
                over,
                on,
                waits,
                bond: bond(lower.1.kind, upper.kind),
            });
            ControlFlow::<()>::Continue(())
        });
        debug_assert!(met.is_continue(), "no meeting ends the list");
        if let Some(row) = all.get_mut(begins..) {
            row.reverse();
        }
    }
    all
}

/// Every coat that a layer lies on, from the uppermost down: itself where it has several coats, and those of lower layers as far
/// as no other coat covers them. Each has its place, the layer itself, the parts where they meet, and the hours between the two.
pub(super) fn lies_on<Stop>(
    over: usize,
    coat_at: impl Fn(usize) -> Option<Coat>,
    mut found: impl FnMut((usize, Coat), Coat, Parts, f64) -> ControlFlow<Stop>,
) -> ControlFlow<Stop> {
    let Some(coat) = coat_at(over) else {
        return ControlFlow::Continue(());
    };
    let mut open = Parts::of(coat.place);
    if coat.coats > 1 {
        found((over, coat), coat, open, coat.dries)?;
    }
    let mut between = 0.0;
    for under in (0..over).rev() {
        let Some(lower) = coat_at(under).filter(|_| !open.is_empty()) else {
            break;
        };
        let on = open.both(Parts::of(lower.place));
        if !on.is_empty() {
            found((under, lower), coat, on, between + lower.dries)?;
            open = open.without(on);
        }
        between += lower.hours();
    }
    ControlFlow::Continue(())
}

/// Whether every coat bonds to the one under it, in time.
pub fn is_sound(coats: &[Coat]) -> bool {
    meetings(coats).iter().all(Meeting::holds)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::CoatKind::{
        Acrylic, DewaxedShellac, Lacquer, Oil, OilPolyurethane, WaterPolyurethane, Wax,
    };
    use board::CoatPlace;

    fn grooves(kind: board::CoatKind, dries: f64) -> Coat {
        Coat {
            place: CoatPlace::Grooves,
            ..Coat::of(kind, dries)
        }
    }

    /// Color in the grooves dries a day, and the oil beside it has that day too.
    #[test]
    fn time_that_another_part_of_the_board_dries_counts() {
        let coats = [
            Coat::of(Oil, 6.0),
            Coat {
                coats: 2,
                ..grooves(Acrylic, 12.0)
            },
            Coat::of(WaterPolyurethane, 6.0),
        ];
        let met = meetings(&coats);
        let waits: Vec<_> = met
            .iter()
            .map(|met| (met.under, met.over, met.waits))
            .collect();
        assert_eq!(
            waits,
            [(0, 1, 6.0), (1, 1, 12.0), (0, 2, 30.0), (1, 2, 12.0)]
        );
        assert_eq!(met[3].on, Parts::GROOVES);
        assert!(!met[2].on.has(Parts::GROOVES));
    }

    #[test]
    fn only_where_layers_lie_on_each_other_do_they_meet() {
        let below = Coat {
            place: CoatPlace::Underside,
            ..Coat::of(Wax, 1.0)
        };
        let above = Coat {
            place: CoatPlace::TopAndEdge,
            ..Coat::of(Lacquer, 0.5)
        };
        assert!(meetings(&[below, above]).is_empty());
        assert!(!is_sound(&[below, Coat::of(Lacquer, 0.5)]));
    }

    #[test]
    fn a_layer_of_several_coats_meets_itself() {
        let quick = Coat {
            coats: 3,
            ..Coat::of(OilPolyurethane, 3.0)
        };
        assert!(!is_sound(&[quick]));
        assert!(is_sound(&[Coat {
            dries: 24.0,
            ..quick
        }]));
        assert!(is_sound(&[Coat { coats: 1, ..quick }]));
        assert!(is_sound(&[
            Coat::of(DewaxedShellac, 2.0),
            Coat::of(WaterPolyurethane, 0.0)
        ]));
        assert!(is_sound(&[]));
    }
}
