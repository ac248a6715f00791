//! Controls of the finish: its coats, the first on the wood.

use board::{Board, Coat, Measure, field};
use egui::Ui;
use workshop::{Caution, finish_hours, hard_after};

use super::rows::{add_button, fact};
use crate::widgets::{cautions, entry_ui};

/// The coats of finish, the first on the wood.
pub fn finish_ui(ui: &mut Ui, board: &mut Board) {
    let mut gone = None;
    let last = board.finish.len().saturating_sub(1);
    for at in 0..board.finish.len() {
        entry_ui(ui, board, &field::COAT, at);
        entry_ui(ui, board, &field::COAT_PLACE, at);
        entry_ui(ui, board, &field::COAT_COUNT, at);
        if at < last || board.finish.get(at).is_some_and(|coat| coat.coats > 1) {
            entry_ui(ui, board, &field::COAT_DRIES, at);
        }
        if ui.button(format!("Remove layer {}", at + 1)).clicked() {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        board.finish.remove(at);
    }
    if add_button(ui, "Add a layer", board.finish.len(), &field::COATS) {
        let next = board.finish.last().copied().unwrap_or_default();
        board.finish.push(next);
    }
    if let Some(Coat { kind, .. }) = board.finish.last() {
        let hours = Measure::hours(finish_hours(board)).shown(board.units);
        fact(ui, "First to last", &hours);
        fact(ui, "Last one hard in", hard_after(*kind));
    }
    if Caution::OilyRags.concerns(board) {
        cautions(ui, &[Caution::OilyRags]);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, press, sees, type_into};
    use board::CoatKind;
    use egui_kittest::Harness;
    use testkit::assert_near;

    fn bench() -> Harness<'static, Board> {
        hand::panel(900.0, finish_ui)
    }

    #[test]
    fn coats_are_added_chosen_timed_and_taken_away() {
        let mut bench = bench();
        press(&mut bench, "Add a layer");
        assert!(sees(&bench, "weeks, by the product"));
        press(&mut bench, "Add a layer");
        choose(&mut bench, "Layer 2", "stain");
        type_into(&mut bench, "Layer 1 dries", "36 h");
        let kinds: Vec<CoatKind> = bench.state().finish.iter().map(|coat| coat.kind).collect();
        assert_eq!(kinds, [CoatKind::Oil, CoatKind::Stain]);
        assert_near!(bench.state().finish[0].dries, 36.0, 0.0);
        assert!(sees(&bench, "36 h"));
        press(&mut bench, "Remove layer 1");
        assert_eq!(bench.state().finish.len(), 1);
        assert_eq!(bench.state().finish[0].kind, CoatKind::Stain);
    }
}
