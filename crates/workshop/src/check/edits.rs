//! Rule: changes by hand have a hole to change.

use board::{HoleName, Layout};

use super::{Finding, Rule, Severity, counted, in_order};

pub const STATEMENT: &str = "A change by hand is kept for its hole even while the board has no such hole, and comes \
     back with it.";

/// A note where changes by hand wait for a hole that the board does not have now.
pub fn check(layout: &Layout) -> Option<Finding> {
    if layout.idle_edits.is_empty() {
        return None;
    }
    let names: Vec<HoleName> = layout.idle_edits.iter().map(|id| id.named(1)).collect();
    let names = in_order(names);
    let list: Vec<String> = names.iter().take(5).map(ToString::to_string).collect();
    let more = if names.len() > list.len() { " …" } else { "" };
    Some(Finding {
        severity: Severity::Note,
        rule: Rule::Edits,
        message: format!(
            "{} by hand for holes that are not on this board, kept for later: {}{more}",
            counted(layout.idle_edits.len(), "change"),
            list.join(", ")
        ),
        measured: None,
        wanted: None,
        holes: Vec::new(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Change, Edit, layout};

    #[test]
    fn a_waiting_change_is_noted() {
        let edit = Edit {
            hole: "T9-3".parse().unwrap(),
            mirrored: false,
            change: Change::Drop,
        };
        let board = Board {
            edits: vec![edit],
            ..Board::default()
        };
        let found = check(&layout(&board).unwrap()).unwrap();
        assert!(found.message.contains("T9-3"));
        assert_eq!(check(&layout(&Board::default()).unwrap()), None);
    }
}
