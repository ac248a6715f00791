//! The value that would work instead of a refused wish: the nearest to it, with all other wishes kept.
//!
//! Pitch and board come from the solver. Whether a bore, a piece or a count works depends on everything that is chosen to suit
//! it, so those are found by bisection between the wish and a value that works. Every offer was tested by an actual proposal.

use board::{Board, field};
use geometry::Pattern;

use super::super::{FitError, smallest_pitch_for_piece, without_pockets};
use super::neat::{Neat, Step};
use super::settle::{largest_sound_pitch, smallest_diameter};
use super::wishes::{Offer, Wish, Wishes};
use super::{choose, draft};

/// Greatest distance from a refused count within which another is searched for.
const FARTHEST: u32 = 64;

/// Each single value that gives a board instead of its wish; if none does, several together.
pub fn offers(wishes: &Wishes) -> Vec<Vec<Offer>> {
    let single = Wish::ALL
        .into_iter()
        .flat_map(|wish| {
            nearest(wishes, wish)
                .into_iter()
                .map(move |value| Offer { wish, value })
        })
        .filter(|offer| works(&wishes.with(&[*offer])))
        .map(|offer| vec![offer]);
    let single: Vec<_> = single.collect();
    if single.is_empty() {
        together(wishes).into_iter().collect()
    } else {
        single
    }
}

/// Whether there is a board for some wishes.
fn works(wishes: &Wishes) -> bool {
    choose(wishes).is_ok()
}

/// The values nearest to a wish; empty without the wish, or if none is known.
fn nearest(wishes: &Wishes, wish: Wish) -> Vec<f64> {
    let Some(asked) = wishes.number(wish) else {
        return Vec::new();
    };
    let mut free = wishes.clone();
    free.set(wish, None);
    let neat = Neat::of(wishes.units.unwrap_or_default());
    let found = match wish {
        Wish::Pitch => nearest_pitch(&free, &neat, asked).ok().flatten(),
        Wish::Diameter => {
            let found = nearest_diameter(&free, &neat).ok();
            found.map(|found| lowered(&free, neat.fine_step, asked, found))
        }
        Wish::Bore | Wish::Piece => nearest_size(&free, &neat, wish, asked),
        Wish::Home | Wish::Start | Wish::Players => nearest_count(wishes, wish, -1),
        Wish::Spaces => {
            let by = spaces_by(wishes);
            let either = [-by, by].map(|step| nearest_count(wishes, wish, step));
            return either.into_iter().flatten().collect();
        }
    };
    found.into_iter().collect()
}

/// Steps by which the spaces of a track may grow: patterns of arms or sides grow by two.
const fn spaces_by(wishes: &Wishes) -> i64 {
    match wishes.pattern {
        None | Some(Pattern::Ring) => 1,
        Some(_) => 2,
    }
}

/// The board for the smallest pieces that may be chosen, which leaves the most room.
fn tightest_draft(free: &Wishes, neat: &Neat) -> Board {
    let sizes = draft::sizes(free, neat);
    draft::draft(free, neat, sizes.last().copied().unwrap_or(neat.usual))
}

/// The smallest pitch that bores and pieces need, or the largest on the board, whichever is nearer.
fn nearest_pitch(free: &Wishes, neat: &Neat, asked: f64) -> Result<Option<f64>, FitError> {
    let mut tight = free.clone();
    // Smaller pieces may be chosen for a given pitch.
    tight.pitch = Some(asked);
    let board = tightest_draft(&tight, neat);
    let needed = smallest_pitch_for_piece(&without_pockets(&board))?;
    if asked < needed {
        return Ok(Some(neat.fine_step.up(needed)));
    }
    largest_sound_pitch(&board, neat.fine_step, needed)
}

/// The smallest board at the wished pitch, or else at the smallest pitch that bores and pieces need.
fn nearest_diameter(free: &Wishes, neat: &Neat) -> Result<f64, FitError> {
    let mut tight = free.clone();
    // Smaller pieces may be chosen for a given board.
    tight.diameter = Some(field::BOARD_DIAMETER.range().max);
    let mut board = tightest_draft(&tight, neat);
    if free.pitch.is_none() {
        board.pitch = smallest_pitch_for_piece(&without_pockets(&board))?;
    }
    Ok(neat.fine_step.up(smallest_diameter(&board)?))
}

/// The diameter that was found, or a nearer one at which the board keeps all limits too.
///
/// The solver keeps bores and pieces; a smaller board may get smaller ones, and pockets that the program places may find room
/// on it.
fn lowered(free: &Wishes, step: Step, asked: f64, found: f64) -> f64 {
    let under = found - step.times(1.0);
    if under > asked
        && is_sound(free, Wish::Diameter, under)
        && is_sound(free, Wish::Diameter, found)
    {
        nearer(free, step, Wish::Diameter, asked, under, true)
    } else {
        found
    }
}

/// Whether wishes with one more number have a board that keeps all limits.
fn is_sound(free: &Wishes, wish: Wish, value: f64) -> bool {
    choose(&free.with(&[Offer { wish, value }])).is_ok_and(|found| found.is_sound)
}

/// The size of bore or piece nearest to the one asked for, between it and the size chosen when left open.
fn nearest_size(free: &Wishes, neat: &Neat, wish: Wish, asked: f64) -> Option<f64> {
    let choice = choose(free).ok()?;
    let chosen = value(&choice.board, wish);
    let step = neat.fine_step;
    Some(nearer(free, step, wish, asked, chosen, choice.is_sound))
}

/// The number nearest to the one asked for that gives a board, in steps between it and a number known to do so; with `sound`,
/// only boards that keep all limits count.
fn nearer(free: &Wishes, step: Step, wish: Wish, asked: f64, chosen: f64, sound: bool) -> f64 {
    let good = |steps: i64| {
        let value = step.times(steps as f64);
        if sound {
            is_sound(free, wish, value)
        } else {
            works(&free.with(&[Offer { wish, value }]))
        }
    };
    let (bad, known) = if chosen < asked {
        (step.count_up(asked), step.count_down(chosen))
    } else {
        (step.count_down(asked), step.count_up(chosen))
    };
    step.times(closest(bad as i64, known as i64, good) as f64)
}

/// The first count, in steps away from the one asked for, that gives a board.
fn nearest_count(wishes: &Wishes, wish: Wish, step: i64) -> Option<f64> {
    let (asked, range) = (wishes.number(wish)?, wish.range());
    let at = |steps: i64| asked + (steps * step) as f64;
    let good = |steps: i64| {
        let offer = Offer {
            wish,
            value: at(steps),
        };
        range.check(offer.value).is_ok() && works(&wishes.with(&[offer]))
    };
    let mut bad = 0;
    for reach in (0..=FARTHEST.ilog2()).map(|power| 1 << power) {
        if good(reach) {
            return Some(at(closest(bad, reach, good)));
        }
        bad = reach;
    }
    None
}

/// The number closest to a bad one that is still good, found by bisection between them.
fn closest(bad: i64, known: i64, good: impl Fn(i64) -> bool) -> i64 {
    let (mut bad, mut known) = (bad, known);
    while (known - bad).abs() > 1 {
        let middle = i64::midpoint(bad, known);
        if good(middle) {
            known = middle;
        } else {
            bad = middle;
        }
    }
    known
}

/// Several numbers that together give a board: as few as possible, with the values chosen when they are left open.
fn together(wishes: &Wishes) -> Option<Vec<Offer>> {
    let order = Wish::ALL.into_iter().rev();
    let asked: Vec<Wish> = order
        .filter(|wish| wishes.number(*wish).is_some())
        .collect();
    let mut free = wishes.clone();
    let choice = asked.iter().find_map(|wish| {
        free.set(*wish, None);
        choose(&free).ok()
    })?;
    let mut offers: Vec<Offer> = asked
        .into_iter()
        .filter(|wish| free.number(*wish).is_none())
        .map(|wish| Offer {
            wish,
            value: value(&choice.board, wish),
        })
        .collect();
    for wish in Wish::ALL {
        let fewer: Vec<Offer> = offers
            .iter()
            .copied()
            .filter(|offer| offer.wish != wish)
            .collect();
        if fewer.len() < offers.len() && works(&wishes.with(&fewer)) {
            offers = fewer;
        }
    }
    let choice = choose(&wishes.with(&offers)).ok()?;
    // A single number may get closer to its wish than on a board where more is left open.
    if let [offer] = &mut offers[..] {
        let asked = wishes.number(offer.wish)?;
        let step = match offer.wish {
            Wish::Spaces => Step::whole(spaces_by(wishes)),
            Wish::Home | Wish::Start | Wish::Players => Step::whole(1),
            Wish::Pitch | Wish::Diameter | Wish::Bore | Wish::Piece => {
                Neat::of(wishes.units.unwrap_or_default()).fine_step
            }
        };
        let chosen = value(&choice.board, offer.wish);
        offer.value = nearer(wishes, step, offer.wish, asked, chosen, choice.is_sound);
    }
    Some(offers)
}

/// The number of a board that a wish is about, lengths in mm.
pub fn value(board: &Board, wish: Wish) -> f64 {
    match wish {
        Wish::Home => board.home.into(),
        Wish::Start => board.start.into(),
        Wish::Spaces => board.spaces.into(),
        Wish::Players => board.players.into(),
        Wish::Pitch => board.pitch,
        Wish::Bore => board.bores.track.diameter,
        Wish::Piece => board.piece.diameter,
        Wish::Diameter => board.blank.diameter,
    }
}
