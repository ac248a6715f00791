//! Controls of the recess in the underside, and of its lid.

mod lid;

use board::{Board, Measure, field};
use egui::Ui;
use workshop::{Caution, Mend, Storage};

use crate::current::Current;
use crate::panels::rows::{amount, remark};
use crate::widgets::{cautions, fields_ui};

pub use lid::lid_ui;

/// The recess in which the pieces are stored, and how many it holds.
pub fn storage_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    let had_none = board.recess.is_none();
    fields_ui(ui, board, field::RECESS_FIELDS);
    if board.recess.is_none() {
        return;
    }
    if had_none && let Ok(fitted) = Mend::RecessForPieces.applied(board) {
        *board = fitted;
    }
    if let Some(storage) = current.good().and_then(|workpiece| workpiece.storage()) {
        holds_ui(ui, board, storage);
    }
    cautions(
        ui,
        &[
            Caution::Router,
            Caution::Eyes,
            Caution::Dust,
            Caution::Noise,
        ],
    );
}

/// The room inside, and the pieces that it has to hold and holds.
fn holds_ui(ui: &mut Ui, board: &Board, storage: &Storage) {
    let height = Measure::mm(storage.room).shown(board.units);
    amount(
        ui,
        "Height inside",
        &height,
        "Recess depth less lid thickness",
    );
    amount(
        ui,
        "Pieces to store",
        &storage.pieces.to_string(),
        "Home holes times players, and spare pieces",
    );
    amount(
        ui,
        "Holds about",
        &storage.holds.to_string(),
        "From the room inside and the piece diameter",
    );
    remark(
        ui,
        "Lying loose or laid in rows; an estimate. Drawn on the board: the recess, and what is cut for its lid.",
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, press, sees, type_into};
    use egui_kittest::Harness;
    use testkit::assert_near;

    fn bench() -> Harness<'static, Board> {
        hand::panel(900.0, |ui, board| {
            storage_ui(ui, board, &Current::of(board));
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
        assert_eq!(holds.pieces, 6 * 5 + 2);
        assert!(holds.holds == 70 && sees(&bench, &holds.holds.to_string()));
    }
}
