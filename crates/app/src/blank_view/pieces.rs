//! The pieces cut from the blank, as the document plans them: the whole board, two halves, or strips.

use board::{Board, Build, Measure, show_most};
use geometry::{HalfDisc, Point, StripPlace};
use workshop::{Rule, Severity, SlabError};

use super::BlankSeen;

/// The pieces cut from the blank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pieces<'a> {
    /// None, or not worked out yet.
    None,
    /// The whole board, with its center pin at this place.
    Whole(Point),
    /// Half a board for each of two leaves, and the largest board that two halves give, mm.
    Half(&'a HalfDisc, f64),
    /// Strips, each with its place on the blank.
    Strips(&'a [StripPlace]),
}

/// A message on the picture, with its severity.
pub type Note = (Severity, String);

impl<'a> Pieces<'a> {
    /// The pieces that a board is made of, where they are known.
    pub fn of(board: &Board, seen: &BlankSeen<'a>) -> Self {
        let found = match &board.panel.build {
            Build::Whole | Build::Seams { .. } => center(board, seen).map(Self::Whole),
            Build::Halves => joined(seen)
                .and_then(|joined| Some(Self::Half(joined.half.as_ref()?, joined.halves))),
            Build::Strips { .. } => {
                joined(seen).and_then(|joined| Some(Self::Strips(joined.places.as_deref()?)))
            }
        };
        found.unwrap_or(Self::None)
    }

    /// The center pin; `None` where it cannot be dragged.
    pub const fn pin(&self) -> Option<Point> {
        match self {
            Self::Whole(pin) => Some(*pin),
            Self::None | Self::Half(..) | Self::Strips(_) => None,
        }
    }
}

/// Reasons why no part can be cut, or why the board does not fit; empty where all is well.
pub fn notes(board: &Board, seen: &BlankSeen<'_>) -> Vec<Note> {
    if seen.is_old {
        let words = "This board cannot be laid out; see the findings";
        return vec![(Severity::Stop, words.into())];
    }
    if seen.workpiece.stock_is_waiting() {
        return vec![(Severity::Note, "Looking for the best place…".into())];
    }
    match fault(seen) {
        Some(fault) => vec![(Severity::Caution, board.units.say(fault))],
        None => stops(seen).chain(joining(board, seen)).collect(),
    }
}

/// Whether a finding about the blank stops the board.
pub fn is_stopped(seen: &BlankSeen<'_>) -> bool {
    stops(seen).next().is_some()
}

fn stops(seen: &BlankSeen<'_>) -> impl Iterator<Item = Note> {
    let findings = seen.workpiece.findings().iter();
    let about =
        findings.filter(|found| found.rule == Rule::Stock && found.severity == Severity::Stop);
    about.map(|found| (Severity::Stop, found.message.clone()))
}

fn joining(board: &Board, seen: &BlankSeen<'_>) -> Option<Note> {
    let waiting = |what: &str| Some((Severity::Note, format!("Working out the {what}…")));
    let short = |words: String| Some((Severity::Caution, words));
    match board.panel.build {
        Build::Whole | Build::Seams { .. } => None,
        Build::Halves => match joined(seen) {
            None => waiting("halves"),
            Some(joined) if joined.halves < board.blank.diameter => short(format!(
                "Bookmatched halves give a board of at most {}; this one is {}",
                show_most(joined.halves, board.units),
                Measure::mm(board.blank.diameter).shown(board.units)
            )),
            Some(_) => None,
        },
        Build::Strips { count } => match joined(seen).map(|joined| &joined.places) {
            None => waiting("strips"),
            Some(None) => short(format!(
                "Found no way to saw {count} strips for this board from the blank"
            )),
            Some(Some(_)) => None,
        },
    }
}

fn fault<'a>(seen: &BlankSeen<'a>) -> Option<&'a SlabError> {
    seen.workpiece.stock()?.slab.as_ref().err()
}

fn center(board: &Board, seen: &BlankSeen<'_>) -> Option<Point> {
    let plan = seen
        .workpiece
        .stock()
        .filter(|plan| plan.slab.is_ok() && !seen.is_old)?;
    plan.center(board)
}

fn joined<'a>(seen: &BlankSeen<'a>) -> Option<&'a workshop::Joined> {
    Some(seen).filter(|seen| !seen.is_old)?.workpiece.joined()
}
