//! Controls of the V-grooves: the bit, what is grooved, and how a machine runs the bit.

use board::{Board, CutterRun, Grooves, Measure, Rings, Units, ranges};
use egui::Ui;
use workshop::{Caution, GroovePlan};

use super::machine::UNSETTLED;
use super::stock::fact;
use crate::current::Current;
use crate::widgets::{
    Field, cautions, length_field, optional_field, plain_field, planned, row, settled_field,
};

/// What grooves are planned, and what comes of it.
pub fn grooves_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    planned(ui, "V-grooves", "in the top face", &mut board.grooves);
    let units = board.units;
    let Some(grooves) = &mut board.grooves else {
        return;
    };
    bit_ui(ui, grooves, units);
    lines_ui(ui, grooves, units);
    rounds_ui(ui, grooves, units);
    if let Some(plan) = current.good().and_then(|workpiece| workpiece.grooves()) {
        plan_ui(ui, plan, units);
    }
    if let Some(machine) = &mut board.machine {
        planned(ui, "By machine", "cut the grooves", &mut machine.groove);
        if let Some(run) = &mut machine.groove {
            run_ui(ui, run, units);
        }
    }
    cautions(ui, &[Caution::Router, Caution::Dust, Caution::Noise]);
}

/// How the depth follows, for whoever points at it.
const FORMULA: &str = "Depth = (width − tip) / (2 × tan(angle / 2)): the width is set, and the bit's shape makes the depth";

fn bit_ui(ui: &mut Ui, grooves: &mut Grooves, units: Units) {
    let width = ranges::GROOVE_WIDTH;
    length_field(ui, "Groove width", &mut grooves.width, width, units)
        .on_hover_text("At the top face");
    plain_field(ui, "Bit angle", &mut grooves.angle, ranges::V_ANGLE)
        .on_hover_text("Between the two sides of the V bit");
    length_field(ui, "Bit tip", &mut grooves.tip, ranges::V_TIP, units)
        .on_hover_text("Width of the flat at the tip; measure yours, 0 for a sharp one");
    length_field(ui, "Deepest pass", &mut grooves.pass, ranges::PASS, units)
        .on_hover_text("The most that one pass takes; all passes take the same");
}

/// The straight ones.
fn lines_ui(ui: &mut Ui, grooves: &mut Grooves, units: Units) {
    tick(ui, "lines along the track", &mut grooves.track)
        .on_hover_text("Between every two neighbors, and from sector to sector");
    tick(ui, "lines along home lanes", &mut grooves.home)
        .on_hover_text("From each turn-in space inward");
    let field = |range| Field { range, units };
    let begun = Grooves::USUAL_SECTORS_FROM;
    let from = field(ranges::SECTORS_FROM);
    optional_field(
        ui,
        "Between sectors",
        &mut grooves.sectors_from,
        begun,
        from,
        "from",
    );
    let beside = ranges::BESIDE_GROOVE;
    length_field(ui, "Stop before bores", &mut grooves.stop, beside, units)
        .on_hover_text("Wood between the end of a line and the edge of a bore");
}

/// Those that close; each distance is of wood.
fn rounds_ui(ui: &mut Ui, grooves: &mut Grooves, units: Units) {
    let field = Field {
        range: ranges::BESIDE_GROOVE,
        units,
    };
    for (caption, gap, begun) in [
        (
            "Round home lanes",
            &mut grooves.around_home,
            Grooves::USUAL_AROUND,
        ),
        (
            "Round pockets",
            &mut grooves.around_start,
            Grooves::USUAL_AROUND,
        ),
        ("Inside the rim", &mut grooves.rim, Grooves::USUAL_RIM),
    ] {
        optional_field(ui, caption, gap, begun, field, "at");
    }
    planned(ui, "Rings", "round bores", &mut grooves.rings);
    if let Some(rings) = &mut grooves.rings {
        rings_ui(ui, rings, field);
    }
}

fn rings_ui(ui: &mut Ui, rings: &mut Rings, field: Field) {
    length_field(ui, "Ring gap", &mut rings.gap, field.range, field.units)
        .on_hover_text("Wood between a bore and its ring");
    for (words, round) in [
        ("round track spaces", &mut rings.track),
        ("round home holes", &mut rings.home),
        ("round start holes", &mut rings.start),
        ("round extra holes", &mut rings.extra),
        ("round the center", &mut rings.center),
    ] {
        tick(ui, words, round);
    }
}

/// A box beside no caption of its own.
fn tick(ui: &mut Ui, words: &str, on: &mut bool) -> egui::Response {
    ui.push_id(words, |ui| row(ui, "", |ui, _| ui.checkbox(on, words)))
        .inner
}

fn plan_ui(ui: &mut Ui, plan: &GroovePlan, units: Units) {
    let length = |mm| Measure::mm(mm).shown(units);
    row(ui, "Groove depth", |ui, _| {
        ui.label(length(plan.depth)).on_hover_text(FORMULA);
    });
    fact(ui, "Passes", &plan.passes.to_string());
    fact(ui, "Grooves", &plan.grooves.len().to_string());
    fact(ui, "All of them long", &length(plan.length));
}

fn run_ui(ui: &mut Ui, run: &mut CutterRun, units: Units) {
    let field = |range| Field { range, units };
    for (caption, value, range) in [
        ("V bit speed", &mut run.speed, ranges::SPEED),
        ("V bit feed along", &mut run.feed, ranges::FEED),
        ("V bit feed down", &mut run.plunge, ranges::FEED),
    ] {
        settled_field(ui, caption, value, field(range), UNSETTLED);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, press, sees, type_into, write_into};
    use board::Machine;
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
        press(&mut panel, "in the top face");
        assert!(sees(&panel, "1.73 mm") && sees(&panel, "108"));
        type_into(&mut panel, "Groove width", "3");
        type_into(&mut panel, "Bit angle", "90");
        type_into(&mut panel, "Deepest pass", "0.8");
        assert_near!(planned_now(&panel).width, 3.0, 0.0);
        assert_near!(planned_now(&panel).angle, 90.0, 0.0);
        assert!(sees(&panel, "1.5 mm") && sees(&panel, "2"));
        type_into(&mut panel, "Bit tip", "1/64\"");
        assert_near!(planned_now(&panel).tip, 25.4 / 64.0, 1e-9);
        press(&mut panel, "in the top face");
        assert_eq!(panel.state().grooves, None);
    }

    #[test]
    fn every_kind_of_groove_is_asked_for_by_its_name() {
        let mut panel = panel();
        press(&mut panel, "in the top face");
        press(&mut panel, "lines along the track");
        press(&mut panel, "lines along home lanes");
        press(&mut panel, "round bores");
        press(&mut panel, "round start holes");
        type_into(&mut panel, "Ring gap", "2.5");
        type_into(&mut panel, "Stop before bores", "2");
        let wanted = planned_now(&panel);
        assert!(!wanted.track && !wanted.home);
        let rings = wanted.rings.unwrap();
        assert!(rings.start && rings.center && !rings.track);
        assert_near!(rings.gap, 2.5, 0.0);
        assert_near!(wanted.stop, 2.0, 0.0);
        // 24 start holes and the center.
        assert!(sees(&panel, "25"));
    }

    #[test]
    fn a_machine_has_speed_and_feeds_for_the_bit() {
        let mut panel = panel();
        press(&mut panel, "in the top face");
        assert!(!sees(&panel, "cut the grooves"));
        panel.state_mut().machine = Some(Machine::default());
        panel.run();
        press(&mut panel, "cut the grooves");
        let machine = panel.state().machine.clone().unwrap();
        assert_eq!(machine.groove, Some(CutterRun::default()));
        // Nothing is assumed of how the bit is run.
        write_into(&mut panel, "V bit feed down", "6\"");
        let run = |panel: &Harness<'static, Board>| {
            panel.state().machine.clone().unwrap().groove.unwrap()
        };
        assert_near!(run(&panel).plunge.unwrap(), 152.4, 1e-9);
        write_into(&mut panel, "V bit speed", "fast");
        assert_eq!(run(&panel).speed, None);
        assert!(sees(&panel, "Not a speed of turning: \"fast\""));
    }
}
