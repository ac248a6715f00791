//! A sound board from a few wishes: the solver that fits existing boards chooses the rest.
//!
//! The choices are common practice, no source: pieces are 3 mm apart, the board is the smallest neat one that keeps the limits
//! on webs, rim and room for pieces, and where pitch or board leave no room for the usual pieces, smaller ones are chosen. No
//! wish is changed: where the checks would stop the board, it is refused, and `nearest` names the nearest values that would
//! work.

mod draft;
mod nearest;
pub mod neat;
mod order;
mod settle;
mod shop;
mod wishes;

#[cfg(test)]
mod tests;

pub use order::{BoardOrder, OrderSlab, propose_order};
pub use shop::propose_for_shop;
pub use wishes::{Offer, Wish, Wishes};

use board::{Board, BuildError, SheetLayout, Units, as_sentence};

use super::{FitError, without_pockets};
use crate::{Rule, Severity, Workpiece, stops};
use neat::{Neat, Sizes};

/// A board with every wish, on which the rest is chosen so that it can be made.
///
/// # Errors
/// [`ProposeError`] where the wishes contradict each other, or no board with all of them can be made and played; it
/// names the nearest values that work.
///
/// ```
/// use workshop::{Wishes, Workpiece, propose, stops};
/// let board = propose(&Wishes { players: Some(4), ..Wishes::default() })?;
/// assert!(!stops(Workpiece::of(&board)?.findings()));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn propose(wishes: &Wishes) -> Result<Board, ProposeError> {
    off_rows(proposed(wishes)?, wishes.rotation)
}

/// The board with every wish, before its sheets are considered.
fn proposed(wishes: &Wishes) -> Result<Board, ProposeError> {
    wishes.check().map_err(BuildError::from)?;
    match choose(wishes) {
        Ok(choice) => Ok(choice.board),
        Err(Trouble::Build(fault)) => Err(fault.into()),
        Err(Trouble::Nothing(why)) => Err(refused(wishes, why)),
        Err(Trouble::Stopped(board)) => {
            let workpiece = Workpiece::of(&board)?;
            let worst = workpiece.findings().first();
            let why = worst.map_or_else(String::new, |stop| stop.message.clone());
            Err(refused(wishes, why))
        }
    }
}

/// The board with its sheets laid out for the widest clearance, where a joint between the fewest sheets would run along a row
/// of holes. Where that does not help either and no rotation was asked for, the pattern is turned by half a sector, which looks
/// just as even.
fn off_rows(board: Board, rotation: Option<f64>) -> Result<Board, ProposeError> {
    let along_a_row = |board: &Board| -> Result<bool, BuildError> {
        let workpiece = Workpiece::of(board)?;
        Ok(workpiece
            .findings()
            .iter()
            .any(|found| found.rule == Rule::Joints))
    };
    if !along_a_row(&board)? {
        return Ok(board);
    }
    let mut wider = board.clone();
    wider.template.layout = SheetLayout::Widest;
    let mut tries = vec![wider];
    if rotation.is_none() {
        let turned = |board: &Board| Board {
            rotation: 180.0 / f64::from(board.players),
            ..board.clone()
        };
        tries.extend([turned(&board), turned(&tries[0])]);
    }
    for tried in tries {
        if !along_a_row(&tried)? {
            return Ok(tried);
        }
    }
    Ok(board)
}

fn refused(wishes: &Wishes, why: String) -> ProposeError {
    ProposeError::Refused(Refusal {
        why,
        offers: nearest::offers(wishes),
        units: wishes.units.unwrap_or_default(),
    })
}

/// The reason why there is no board for some wishes.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ProposeError {
    /// A number is outside its range, or the pattern cannot be laid out with the counts.
    #[error(transparent)]
    Build(#[from] BuildError),
    /// No board with all of them can be made and played.
    #[error("{}", .0.sentence())]
    Refused(Refusal),
}

/// The fault of a board with all wishes, and offers that would work instead.
#[derive(Debug, Clone, PartialEq)]
pub struct Refusal {
    /// The fault as a sentence, in the maker's unit.
    pub why: String,
    /// Each offer, in place of the wish it is about, gives a board with all other wishes.
    pub offers: Vec<Vec<Offer>>,
    /// The maker's unit.
    pub units: Units,
}

impl Refusal {
    fn sentence(&self) -> String {
        let words = |offers: &Vec<Offer>| {
            let each: Vec<String> = offers.iter().map(|offer| self.units.say(offer)).collect();
            each.join(" with ")
        };
        let offers: Vec<String> = self.offers.iter().map(words).collect();
        let instead = match offers.split_last() {
            None => return self.why.clone(),
            Some((only, [])) => format!("{only} would work"),
            Some((last, others)) => {
                format!(
                    "any one of these would work: {}, or {last}",
                    others.join(", ")
                )
            }
        };
        format!(
            "{} With all else as you asked, {instead}",
            as_sentence(self.why.clone())
        )
    }
}

/// A board that can be made and played.
struct Choice {
    board: Board,
    /// Whether it keeps its own limits as well.
    is_sound: bool,
}

/// The reason why there is no such board.
enum Trouble {
    /// The counts contradict the pattern; the error names counts that work.
    Build(BuildError),
    /// No size fits; the message is in the maker's unit.
    Nothing(String),
    /// The checks stop this board.
    Stopped(Box<Board>),
}

impl Trouble {
    fn of(fault: FitError, units: Units) -> Self {
        match fault {
            // The values that it names as working need not leave room for bores and pieces.
            FitError::Build(BuildError::Geometry(geometry::Error::LongLane {
                holes,
                most,
                ..
            })) => Self::Nothing(format!(
                "a home lane of {holes} holes runs past the center pin; at most {most} lie on it"
            )),
            FitError::Build(fault) => Self::Build(fault),
            FitError::Nothing { .. } => Self::Nothing(units.say(&fault)),
        }
    }
}

/// The board for the largest sizes of pieces and bores at which all limits are kept. Where not even the smallest sizes keep
/// them, the board for those, if nothing stops it.
fn choose(wishes: &Wishes) -> Result<Choice, Trouble> {
    let neat = Neat::of(wishes.units.unwrap_or_default());
    let sizes = draft::sizes(wishes, &neat);
    let (smallest, larger) = sizes.split_last().unwrap_or((&neat.usual, &[]));
    let kept = |sizes| settled(wishes, &neat, sizes).ok().filter(|(_, kept)| *kept);
    // Smaller sizes need no more room: where these have none, no others are tried.
    let (board, is_kept) = settled(wishes, &neat, *smallest)?;
    let largest = if is_kept {
        let first = larger.partition_point(|sizes| kept(*sizes).is_none());
        larger.get(first).and_then(|sizes| kept(*sizes))
    } else {
        None
    };
    judged(largest.map_or(board, |(board, _)| board))
}

/// The board for some sizes of pieces and bores, and whether it keeps its limits with some shape of pocket.
fn settled(wishes: &Wishes, neat: &Neat, sizes: Sizes) -> Result<(Board, bool), Trouble> {
    let mut board = draft::draft(wishes, neat, sizes);
    let trouble = |fault| Trouble::of(fault, neat.plain.units);
    settle::fit_pattern(&mut board, wishes, neat).map_err(trouble)?;
    // A board that is stopped without pockets is also stopped with them, and pockets take long to place.
    let pattern = without_pockets(&board);
    if settle::overlaps(&pattern).map_err(trouble)? {
        return Err(Trouble::Stopped(Box::new(pattern)));
    }
    let is_kept = settle::fit_pockets(&mut board, wishes, neat).map_err(trouble)?;
    Ok((board, is_kept))
}

/// The board with its best pocket, and whether it keeps its limits, unless a finding stops it.
fn judged(mut board: Board) -> Result<Choice, Trouble> {
    settle::fit_pocket(&mut board);
    let workpiece =
        Workpiece::of(&board).map_err(|fault| Trouble::of(fault.into(), board.units))?;
    let findings = workpiece.findings();
    if stops(findings) {
        return Err(Trouble::Stopped(Box::new(board)));
    }
    let spoils = |rule| matches!(rule, Rule::Web | Rule::Rim | Rule::Pieces | Rule::Seat);
    let mut cautions = findings
        .iter()
        .filter(|found| found.severity == Severity::Caution);
    let is_sound = !cautions.any(|found| spoils(found.rule));
    Ok(Choice { board, is_sound })
}
