//! Controls of the work at the bench: storage below, coats of finish.

use board::{Board, Coat, Measure, field};
use egui::Ui;
use workshop::{Caution, finish_hours, hard_after};

use super::rows::{add_button, fact, remark};
use crate::current::Current;
use crate::widgets::{cautions, entry_ui, fields_ui};

/// The recess in which the pieces are stored, and how many it holds.
pub fn storage_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    fields_ui(ui, board, field::RECESS_FIELDS);
    if board.recess.is_none() {
        return;
    }
    let Some(storage) = current.good().and_then(|workpiece| workpiece.storage()) else {
        return;
    };
    let height = Measure::mm(storage.room).shown(board.units);
    fact(ui, "Height inside", &height);
    fact(ui, "Pieces to store", &storage.pieces.to_string());
    fact(ui, "Holds about", &storage.holds.to_string());
    remark(
        ui,
        "Lying loose or laid in rows; an estimate. Drawn on the board: the recess, and what is cut for its lid.",
    );
}

/// The coats of finish, the first on the wood.
pub fn finish_ui(ui: &mut Ui, board: &mut Board) {
    let mut gone = None;
    let last = board.finish.len().saturating_sub(1);
    for at in 0..board.finish.len() {
        entry_ui(ui, board, &field::COAT, at);
        if at < last {
            entry_ui(ui, board, &field::COAT_DRIES, at);
        }
        if ui.button(format!("Remove coat {}", at + 1)).clicked() {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        board.finish.remove(at);
    }
    if add_button(ui, "Add a coat", board.finish.len(), &field::COATS) {
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
        hand::panel(900.0, |ui, board| {
            storage_ui(ui, board, &Current::of(board));
            finish_ui(ui, board);
        })
    }

    #[test]
    fn a_recess_is_typed_and_says_how_many_it_holds() {
        let mut bench = bench();
        press(&mut bench, "Rout a recess");
        type_into(&mut bench, "Recess depth", "12");
        type_into(&mut bench, "Lid thickness", "1/4\"");
        let recess = bench.state().recess.unwrap();
        assert_near!(recess.depth, 12.0, 0.0);
        assert_near!(recess.lid, 6.35, 1e-12);
        // No marble of 16 mm goes into what is left.
        assert!(sees(&bench, "5.65 mm"));
        type_into(&mut bench, "Recess depth", "25");
        choose(&mut bench, "Recess outline", "rectangular");
        type_into(&mut bench, "Recess length", "160");
        type_into(&mut bench, "Spare pieces", "2");
        type_into(&mut bench, "Corner radius", "1/4\"");
        let shape = bench.state().recess.unwrap().shape;
        assert_near!(shape.corner(), 6.35, 1e-12);
        let workpiece = workshop::Workpiece::of(bench.state()).unwrap();
        let holds = workpiece.storage().unwrap();
        assert_eq!(holds.pieces, 26);
        assert!(holds.holds == 70 && sees(&bench, &holds.holds.to_string()));
    }

    #[test]
    fn coats_are_added_chosen_timed_and_taken_away() {
        let mut bench = bench();
        press(&mut bench, "Add a coat");
        assert!(sees(&bench, "weeks, by the product"));
        press(&mut bench, "Add a coat");
        choose(&mut bench, "Coat 2", "wax");
        type_into(&mut bench, "Coat 1 dries", "36 h");
        let kinds: Vec<CoatKind> = bench.state().finish.iter().map(|coat| coat.kind).collect();
        assert_eq!(kinds, [CoatKind::Oil, CoatKind::Wax]);
        assert_near!(bench.state().finish[0].dries, 36.0, 0.0);
        assert!(sees(&bench, "36 h"));
        press(&mut bench, "Remove coat 1");
        assert_eq!(bench.state().finish.len(), 1);
        assert_eq!(bench.state().finish[0].kind, CoatKind::Wax);
    }
}
