//! Controls of the CNC machine: heights, bits with their feeds, the edge cut round.

use board::{BitRun, Board, Bottom, Value, field, show_setting};
use egui::{RichText, Ui};
use workshop::Caution;

use super::rows::remark;
use crate::current::Current;
use crate::widgets::{cautions, fields_ui, part, value_ui};

/// The CNC machine, if there is one.
pub fn machine_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    fields_ui(ui, board, field::MACHINE_FIELDS);
    if board.machine.is_none() {
        return;
    }
    if let Some(workpiece) = current.good() {
        for (diameter, bottom) in workpiece.hole_table().bits() {
            bit_ui(ui, board, diameter, bottom);
        }
    }
    fields_ui(ui, board, field::EDGE_FIELDS);
    let words = "Feeds and speeds are yours: by the bit's maker, the wood and the machine.";
    remark(ui, words);
    cautions(
        ui,
        &[Caution::Cnc, Caution::Eyes, Caution::Dust, Caution::Noise],
    );
}

/// One bit that the board needs; typing a number adds its entry or changes it.
fn bit_ui(ui: &mut Ui, board: &mut Board, diameter: f64, bottom: Bottom) {
    let units = board.units;
    let name = format!("{} {}", show_setting(diameter, units), bottom.label());
    ui.label(RichText::new(&name).strong());
    part(ui, &name, |ui| {
        ui.push_id(&name, |ui| run_ui(ui, board, diameter, bottom));
    });
}

/// Its speed, feed, pecks and dwell.
fn run_ui(ui: &mut Ui, board: &mut Board, diameter: f64, bottom: Bottom) {
    let units = board.units;
    for field in [
        &field::BIT_SPEED,
        &field::BIT_FEED,
        &field::PECK,
        &field::DWELL,
    ] {
        let Some(machine) = &mut board.machine else {
            return;
        };
        let known = machine
            .bits
            .iter()
            .position(|bit| bit.drills(diameter, bottom));
        let entry = known.unwrap_or(machine.bits.len());
        let before = field.value(board, entry).unwrap_or(Value::Open);
        let mut value = before.clone();
        value_ui(ui, &field.label(entry), field, &mut value, units);
        if value == before {
            continue;
        }
        if let (None, Some(machine)) = (known, &mut board.machine) {
            machine.bits.push(BitRun::unsettled(diameter, bottom));
        }
        field.set(board, entry, &value);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, press, sees, write_into};
    use egui_kittest::Harness;
    use testkit::assert_near;

    fn panel() -> Harness<'static, Board> {
        hand::panel(1100.0, |ui, board| {
            let current = Current::of(board);
            machine_ui(ui, board, &current);
        })
    }

    fn bits(panel: &Harness<'static, Board>) -> Vec<BitRun> {
        panel.state().machine.clone().unwrap().bits
    }

    #[test]
    fn no_feed_and_no_speed_is_assumed_and_each_is_typed_and_taken_back() {
        let mut panel = panel();
        press(&mut panel, "Drill by machine");
        assert!(sees(&panel, "12 mm Forstner"));
        assert!(bits(&panel).is_empty());
        write_into(&mut panel, "Drill speed", "1500");
        write_into(&mut panel, "Plunge feed", "8\"");
        let bit = bits(&panel)[0];
        assert_eq!((bit.speed, bit.peck), (Some(1500.0), None));
        assert_near!(bit.feed.unwrap(), 203.2, 1e-9);
        write_into(&mut panel, "Drill speed", "0");
        assert!(sees(&panel, "use 1 rpm"));
        assert_eq!(bits(&panel)[0].speed, Some(1500.0));
        write_into(&mut panel, "Drill speed", " ");
        assert_eq!(bits(&panel)[0].speed, None);
    }
}
