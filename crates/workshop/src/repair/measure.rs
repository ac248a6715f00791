//! Distances worth measuring after taping or drilling.

use board::{Hole, HoleName, Role};

use crate::Workpiece;

/// A distance worth measuring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToMeasure {
    /// The holes at its ends.
    pub ends: [HoleName; 2],
    /// Distance of their centers as laid out, mm.
    pub mm: f64,
}

/// Distances that show scale, skew and slips: between the outermost track spaces of players, from each to the next, to the one
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
    let holes = &workpiece.layout().holes;
    let track = |player: u32| {
        let own = move |hole: &&Hole| {
            hole.name.id().player() == player && hole.name.id().role() == Role::Track
        };
        holes.iter().filter(own)
    };
    // The same space of every player, chosen so that the distances are long: the first of the farthest spaces.
    let reach = |hole: &Hole| hole.center.to_vec2().length();
    let most = track(1).map(reach).fold(0.0, f64::max);
    let Some(number) = track(1)
        .find(|hole| reach(hole) > most - HAIR)
        .map(|hole| hole.name.id().number())
    else {
        return Vec::new();
    };
    let farthest = |player: u32| track(player).find(|hole| hole.name.id().number() == number);
    // A board for more players has enough long distances between every second or third of them.
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

/// Spaces whose distance is within this of the farthest count as equally far, mm.
const HAIR: f64 = 1e-6;

/// The most players whose outermost spaces are measured.
const MOST_ENDS: u32 = 6;
