//! Distances that are worth measuring after taping or drilling.

use board::{HoleName, Role};

use crate::Workpiece;

/// A distance worth measuring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToMeasure {
    /// The holes at its ends.
    pub ends: [HoleName; 2],
    /// Distance of their centers as laid out, mm.
    pub mm: f64,
}

/// Distances that tell scale, skew and slips: between the outermost track spaces of players, each to the next, to the one
/// after that, and to the one opposite.
///
/// ```
/// use board::Board;
/// use workshop::{Workpiece, worth_measuring};
/// let distances = worth_measuring(&Workpiece::of(&Board::default())?);
/// assert_eq!(distances.len(), 15);
/// assert!(distances.iter().all(|distance| distance.mm > 100.0));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn worth_measuring(workpiece: &Workpiece) -> Vec<ToMeasure> {
    let players = workpiece.board().players;
    let farthest = |player: u32| {
        let holes = workpiece.layout().holes.iter();
        let own = holes.filter(move |hole| {
            hole.name.id().player() == player && hole.name.id().role() == Role::Track
        });
        own.max_by(|one, other| {
            one.center
                .to_vec2()
                .hypot()
                .total_cmp(&other.center.to_vec2().hypot())
        })
    };
    // A board for more players has enough long distances between a dozen of them.
    let stride = players.div_ceil(MOST_ENDS).max(1);
    let ends: Vec<_> = (1..=players)
        .step_by(stride as usize)
        .filter_map(farthest)
        .collect();
    let mut distances = Vec::new();
    for (at, from) in ends.iter().enumerate() {
        for (other, to) in ends.iter().enumerate().skip(at + 1) {
            let steps = (other - at).min(ends.len() - (other - at));
            if steps <= 2 || 2 * steps >= ends.len() - 1 {
                distances.push(ToMeasure {
                    ends: [from.name, to.name],
                    mm: from.center.distance(to.center),
                });
            }
        }
    }
    distances
}

/// Players whose outermost spaces are measured between.
const MOST_ENDS: u32 = 6;
