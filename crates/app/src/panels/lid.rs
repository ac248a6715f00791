//! Controls of the lid of the storage: what holds it, and its fit through the seasons.

use board::{Board, LidFit, LidGrain, LidHold, Measure, Toward, Units, ranges};
use egui::Ui;
use workshop::lid_moves;

use super::stock::fact;
use crate::current::Current;
use crate::widgets::{choice, length_field, plain_field};

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    LiesIn,
    Slides,
}

/// Lean of a common dovetail bit, degrees: 14° of included 28°; from memory.
const DOVETAIL: f64 = 14.0;

/// How the lid is fitted, if the recess has one, and what clearance is right where the wood is known.
pub fn lid_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    let units = board.units;
    let Some(recess) = board.recess.as_mut().filter(|recess| recess.lid > 0.0) else {
        return;
    };
    fit_ui(ui, &mut recess.lid_fit, units);
    if let Some(Ok(moves)) = current.good().and_then(|workpiece| lid_moves(workpiece)) {
        let mm = |mm| Measure::mm(mm).shown(units);
        fact(ui, "Least clearance", &mm(moves.least));
        if let Some(most) = moves.most {
            fact(ui, "Most clearance", &mm(most));
        }
    }
}

fn fit_ui(ui: &mut Ui, fit: &mut LidFit, units: Units) {
    let mut kind = match fit.hold {
        LidHold::LiesIn => Kind::LiesIn,
        LidHold::Slides { .. } => Kind::Slides,
    };
    let label = |kind| match kind {
        Kind::LiesIn => "lies in, turn buttons",
        Kind::Slides => "slides in a dovetail",
    };
    if choice(
        ui,
        "The lid",
        &mut kind,
        &[Kind::LiesIn, Kind::Slides],
        label,
    ) {
        fit.hold = match kind {
            Kind::LiesIn => LidHold::LiesIn,
            Kind::Slides => LidHold::Slides {
                angle: DOVETAIL,
                toward: Toward::Right,
            },
        };
    }
    if let LidHold::Slides { angle, toward } = &mut fit.hold {
        plain_field(ui, "Dovetail leans", angle, ranges::DOVETAIL)
            .on_hover_text("Each side from upright: half the included angle of the bit");
        choice(ui, "Opens", toward, &Toward::ALL, Toward::label);
    }
    length_field(
        ui,
        "Beyond the recess",
        &mut fit.overlap,
        ranges::OVERLAP_OF_LID,
        units,
    )
    .on_hover_text("How far ledge or groove reach beyond the recess, at the underside");
    length_field(
        ui,
        "Lid clearance",
        &mut fit.clearance,
        ranges::LID_CLEARANCE,
        units,
    )
    .on_hover_text("By how much the lid is narrower than its place when it is made");
    choice(
        ui,
        "Grain of the lid",
        &mut fit.grain,
        &LidGrain::ALL,
        LidGrain::label,
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, sees, type_into};
    use board::{Recess, Wood};
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
        type_into(&mut panel, "Dovetail leans", "10");
        choose(&mut panel, "Opens", "to the left");
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
