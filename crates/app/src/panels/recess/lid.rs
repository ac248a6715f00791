//! Controls of the lid of the storage: what holds it, and its fit through the seasons.

use board::{Board, Measure, field};
use egui::Ui;
use workshop::{Caution, lid_moves};

use crate::current::Current;
use crate::panels::rows::amount;
use crate::widgets::{cautions, fields_ui};

/// The fit of the lid, if the recess has one, and the right clearance where the wood is known.
pub fn lid_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    let units = board.units;
    if board.recess.is_none_or(|recess| recess.lid <= 0.0) {
        return;
    }
    fields_ui(ui, board, field::LID_FIELDS);
    if let Some(Ok(moves)) = current.good().and_then(|workpiece| lid_moves(workpiece)) {
        let mm = |mm| Measure::mm(mm).shown(units);
        amount(
            ui,
            "Least clearance",
            &mm(moves.least),
            "From the wood's movement over the year, along and across the grain",
        );
        if let Some(most) = moves.most {
            amount(
                ui,
                "Most clearance",
                &mm(most),
                "From the lid's overlap and the wood's movement over the year",
            );
        }
    }
    cautions(ui, &[Caution::TableSaw, Caution::Magnets]);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, sees, type_into};
    use board::{LidHold, Recess, Toward, Wood};
    use testkit::assert_near;

    #[test]
    fn a_lid_is_fitted_and_tells_what_clearance_is_right() {
        let mut panel = hand::panel(700.0, |ui, board| lid_ui(ui, board, &Current::of(board)));
        assert!(!sees(&panel, "Lid clearance"));
        panel.state_mut().recess = Some(Recess {
            lid: 4.0,
            ..Recess::default()
        });
        panel.run();
        assert!(sees(&panel, "Lid clearance") && !sees(&panel, "Least clearance"));
        panel.state_mut().wood = Some(Wood::default());
        panel.run();
        assert!(sees(&panel, "Least clearance"));
        choose(&mut panel, "The lid", "slides in a dovetail");
        type_into(&mut panel, "Dovetail angle", "10");
        choose(&mut panel, "Lid direction", "to the left");
        type_into(&mut panel, "Lid clearance", "0.8");
        let fit = panel.state().recess.unwrap().lid_fit;
        assert_eq!(
            fit.hold,
            LidHold::Slides {
                angle: 10.0,
                toward: Toward::Left
            }
        );
        assert_near!(fit.clearance, 0.8, 0.0);
    }
}
