//! Rule: every hand edit has a hole to change.

use board::{HoleName, counted};

use super::{Finding, Rule, Severity};
use crate::Mend;
use crate::Workpiece;

pub const STATEMENT: &str = "Changes made by hand to a hole are kept when the board no longer has that hole, and apply \
     again when it comes back.";

/// A note where hand edits wait for a hole that the board does not have at present.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let layout = workpiece.layout();
    if layout.idle_edits.is_empty() {
        return None;
    }
    let mut names: Vec<HoleName> = layout.idle_edits.iter().map(|id| id.named(1)).collect();
    names.sort_by_key(|name| name.id());
    names.dedup();
    let list: Vec<String> = names.iter().take(5).map(ToString::to_string).collect();
    let more = if names.len() > list.len() { " …" } else { "" };
    let message = format!(
        "{} not on this board: {}{more}. The changes are kept, and come back with the holes.",
        counted(names.len(), "edited hole is", "edited holes are"),
        list.join(", ")
    );
    Some(Finding::new(Severity::Note, Rule::Edits, message).mended_by(&[Mend::DropWaitingEdits]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Change, Edit};

    #[test]
    fn a_waiting_edit_gives_a_note() {
        let edit = Edit {
            hole: "T9-3".parse().unwrap(),
            mirrored: false,
            change: Change::Drop,
        };
        let board = Board {
            edits: vec![edit],
            ..Board::default()
        };
        let found = check(&Workpiece::of(&board).unwrap()).unwrap();
        assert!(found.message.contains("T9-3"));
        assert_eq!(check(&Workpiece::of(&Board::default()).unwrap()), None);
    }
}
