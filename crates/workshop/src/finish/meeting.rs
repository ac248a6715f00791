//! Where two coats meet, and whether the upper one holds there.

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
    /// Whether the upper coat comes off, whatever the time.
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
    let mut all = Vec::new();
    for (over, coat) in coats.iter().enumerate() {
        let mut open = Parts::of(coat.place);
        let mut below = Vec::new();
        let mut between = 0.0;
        for (under, lower) in coats.iter().enumerate().take(over).rev() {
            let on = open.both(Parts::of(lower.place));
            if !on.is_empty() {
                below.push(Meeting {
                    under,
                    over,
                    on,
                    waits: between + lower.dries,
                    bond: bond(lower.kind, coat.kind),
                });
                open = open.without(on);
            }
            between += lower.hours();
        }
        all.extend(below.into_iter().rev());
        if coat.coats > 1 {
            all.push(Meeting {
                under: over,
                over,
                on: Parts::of(coat.place),
                waits: coat.dries,
                bond: bond(coat.kind, coat.kind),
            });
        }
    }
    all
}

/// Whether every coat holds on what is under it, in time.
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
