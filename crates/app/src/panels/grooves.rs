//! Controls of the V-grooves: the bit, what is grooved, and how a machine runs the bit.

use board::{Board, Measure, Units, field};
use egui::Ui;
use workshop::{Caution, GroovePlan};

use super::rows::amount;
use crate::current::Current;
use crate::widgets::{cautions, fields_ui};

/// The grooves that are planned, and their results.
pub fn grooves_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    let units = board.units;
    fields_ui(ui, board, field::GROOVE_FIELDS);
    if board.grooves.is_none() {
        return;
    }
    if let Some(plan) = current.good().and_then(|workpiece| workpiece.grooves()) {
        plan_ui(ui, plan, units);
    }
    fields_ui(ui, board, field::GROOVE_RUN_FIELDS);
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

/// The formula of the depth, for the tooltip.
const FORMULA: &str = "Depth = (width − tip) / (2 × tan(angle / 2)): the width is set, and the bit's shape makes the depth";

fn plan_ui(ui: &mut Ui, plan: &GroovePlan, units: Units) {
    let length = |mm| Measure::mm(mm).shown(units);
    amount(ui, "Groove depth", &length(plan.depth), FORMULA);
    amount(
        ui,
        "Passes",
        &plan.passes.to_string(),
        "Groove depth divided by the deepest pass",
    );
    amount(
        ui,
        "Grooves",
        &plan.grooves.len().to_string(),
        "From the kinds of groove ticked and the pattern",
    );
    amount(
        ui,
        "Total length",
        &length(plan.length),
        "The lengths of all grooves added",
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, press, sees, type_into, write_into};
    use board::{CutterRun, Grooves, Machine};
    use egui_kittest::Harness;
    use testkit::assert_near;

    fn panel() -> Harness<'static, Board> {
        hand::panel(1100.0, |ui, board| {
            let current = Current::of(board);
            grooves_ui(ui, board, &current);
        })
    }

    fn planned_now(panel: &Harness<'static, Board>) -> Grooves {
        panel.state().grooves.unwrap()
    }

    #[test]
    fn width_and_bit_make_the_depth() {
        let mut panel = panel();
        press(&mut panel, "Rout V-grooves");
        assert!(sees(&panel, "1.73 mm") && sees(&panel, "126"));
        type_into(&mut panel, "Groove width", "3");
        type_into(&mut panel, "Bit angle", "90");
        type_into(&mut panel, "Deepest pass", "0.8");
        assert_near!(planned_now(&panel).width, 3.0, 0.0);
        assert_near!(planned_now(&panel).angle, 90.0, 0.0);
        assert!(sees(&panel, "1.5 mm") && sees(&panel, "2"));
        type_into(&mut panel, "Bit tip", "1/64\"");
        assert_near!(planned_now(&panel).tip, 25.4 / 64.0, 1e-9);
        press(&mut panel, "Rout V-grooves");
        assert_eq!(panel.state().grooves, None);
    }

    #[test]
    fn every_kind_of_groove_is_asked_for_by_its_name() {
        let mut panel = panel();
        press(&mut panel, "Rout V-grooves");
        press(&mut panel, "Lines along the track");
        press(&mut panel, "Lines along home lanes");
        press(&mut panel, "Rings around holes");
        press(&mut panel, "Around start holes");
        type_into(&mut panel, "Ring gap", "2.5");
        type_into(&mut panel, "Stop before holes", "2");
        let wanted = planned_now(&panel);
        assert!(!wanted.track && !wanted.home);
        let rings = wanted.rings.unwrap();
        assert!(rings.start && rings.center && !rings.track);
        assert_near!(rings.gap, 2.5, 0.0);
        assert_near!(wanted.stop, 2.0, 0.0);
        // 18 start holes and the center.
        assert!(sees(&panel, "19"));
    }

    #[test]
    fn a_machine_has_speed_and_feeds_for_the_bit() {
        let mut panel = panel();
        press(&mut panel, "Rout V-grooves");
        assert!(!sees(&panel, "Cut by machine"));
        panel.state_mut().machine = Some(Machine::default());
        panel.run();
        press(&mut panel, "Cut by machine");
        let machine = panel.state().machine.clone().unwrap();
        assert_eq!(machine.groove, Some(CutterRun::default()));
        // Nothing is assumed of how the bit is run.
        write_into(&mut panel, "V-bit feed down", "6\"");
        let run = |panel: &Harness<'static, Board>| {
            panel.state().machine.clone().unwrap().groove.unwrap()
        };
        assert_near!(run(&panel).plunge.unwrap(), 152.4, 1e-9);
        write_into(&mut panel, "V-bit speed", "fast");
        assert_eq!(run(&panel).speed, None);
        assert!(sees(&panel, "Not a speed of turning: \"fast\""));
    }
}
