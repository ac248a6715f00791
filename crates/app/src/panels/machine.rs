//! Controls of the CNC machine: heights, bits with their feeds, the edge cut round.

use board::{
    BitRun, Board, Bottom, DrillingOrder, EdgeRun, Machine, ProgramFiles, Units, ranges,
    show_length,
};
use egui::{RichText, Ui};
use workshop::Caution;

use super::list_field::counts_field;
use crate::current::Current;
use crate::widgets::{
    Field, cautions, choice, length_field, optional_field, plain_field, planned, settled_field,
};

/// What a feed or a speed is before the maker types one: none is assumed.
pub const UNSETTLED: &str = "not settled";

/// The jigs that are set by hand, and the order of drilling.
pub fn jig_ui(ui: &mut Ui, board: &mut Board) {
    let units = board.units;
    length_field(
        ui,
        "Cut of the saw",
        &mut board.jig.kerf,
        ranges::KERF,
        units,
    )
    .on_hover_text("Width of the blade or bit that runs round the board");
    counts_field(
        ui,
        "Index plates",
        &mut board.jig.plates,
        ranges::DIVISIONS,
        ranges::PLATES,
    );
    choice(
        ui,
        "Drilling order",
        &mut board.order,
        &DrillingOrder::ALL,
        DrillingOrder::label,
    );
    cautions(ui, &[Caution::DrillPress, Caution::TableSaw]);
}

/// The CNC machine, if there is one.
pub fn machine_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    planned(ui, "CNC machine", "drills the holes", &mut board.machine);
    let units = board.units;
    let Some(machine) = &mut board.machine else {
        return;
    };
    heights_ui(ui, machine, units);
    if let Some(workpiece) = current.good() {
        for (diameter, bottom) in workpiece.hole_table().bits() {
            bit_ui(ui, &mut machine.bits, (diameter, bottom), units);
        }
    }
    planned(ui, "Board's edge", "cut round", &mut machine.edge);
    if let Some(edge) = &mut machine.edge {
        edge_ui(ui, edge, units);
    }
    let words = "Feeds and speeds are yours: by the bit's maker, the wood and the machine.";
    ui.label(RichText::new(words).weak().small());
    cautions(ui, &[Caution::Cnc, Caution::Dust, Caution::Noise]);
}

fn heights_ui(ui: &mut Ui, machine: &mut Machine, units: Units) {
    choice(
        ui,
        "Programs",
        &mut machine.files,
        &ProgramFiles::ALL,
        ProgramFiles::label,
    );
    length_field(
        ui,
        "Travel height",
        &mut machine.clearance,
        ranges::BIT_HEIGHT,
        units,
    )
    .on_hover_text("Above the top face, over every clamp and screw");
    length_field(
        ui,
        "Feed begins at",
        &mut machine.retract,
        ranges::BIT_HEIGHT,
        units,
    )
    .on_hover_text("Above the top face");
    let range = ranges::THROUGH;
    optional_field(
        ui,
        "Into spoilboard",
        &mut machine.through,
        0.5,
        Field { range, units },
        "allowed",
    );
    plain_field(ui, "Spindle starts in", &mut machine.spin_up, ranges::WAIT);
}

/// One bit that the board needs; what is typed begins or changes its entry.
fn bit_ui(ui: &mut Ui, bits: &mut Vec<BitRun>, (diameter, bottom): (f64, Bottom), units: Units) {
    let is_it = |bit: &&mut BitRun| bit.drills(diameter, bottom);
    let known = bits.iter_mut().find(is_it);
    let before = known
        .as_deref()
        .copied()
        .unwrap_or(BitRun::unsettled(diameter, bottom));
    let mut bit = before;
    let name = format!("{} {}", show_length(diameter, units), bottom.label());
    ui.label(RichText::new(&name).strong());
    ui.push_id(name, |ui| {
        for (caption, value, range, hint) in [
            ("Speed", &mut bit.speed, ranges::SPEED, UNSETTLED),
            ("Feed a minute", &mut bit.feed, ranges::FEED, UNSETTLED),
            ("Peck", &mut bit.peck, ranges::PASS, "in one go"),
            ("Dwell", &mut bit.dwell, ranges::WAIT, "not at all"),
        ] {
            settled_field(ui, caption, value, Field { range, units }, hint);
        }
    });
    if bit == before {
        return;
    }
    match known {
        Some(known) => *known = bit,
        None => bits.push(bit),
    }
}

fn edge_ui(ui: &mut Ui, edge: &mut EdgeRun, units: Units) {
    ui.push_id("edge", |ui| {
        length_field(ui, "Cutter", &mut edge.cutter, ranges::BIT, units);
        for (caption, value, range) in [
            ("Cutter speed", &mut edge.speed, ranges::SPEED),
            ("Feed along", &mut edge.feed, ranges::FEED),
            ("Feed down", &mut edge.plunge, ranges::FEED),
        ] {
            settled_field(ui, caption, value, Field { range, units }, UNSETTLED);
        }
        length_field(ui, "Depth of a pass", &mut edge.pass, ranges::PASS, units);
        length_field(ui, "Skin left", &mut edge.skin, ranges::SKIN, units)
            .on_hover_text("Wood left uncut below, which holds the board until it is sawn free");
    });
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
            jig_ui(ui, board);
            machine_ui(ui, board, &current);
        })
    }

    fn bits(panel: &Harness<'static, Board>) -> Vec<BitRun> {
        panel.state().machine.clone().unwrap().bits
    }

    #[test]
    fn no_feed_and_no_speed_is_assumed_and_each_is_typed_and_taken_back() {
        let mut panel = panel();
        press(&mut panel, "drills the holes");
        assert!(sees(&panel, "12 mm Forstner"));
        assert!(bits(&panel).is_empty());
        write_into(&mut panel, "Speed", "1500");
        write_into(&mut panel, "Feed a minute", "8\"");
        let bit = bits(&panel)[0];
        assert_eq!((bit.speed, bit.peck), (Some(1500.0), None));
        assert_near!(bit.feed.unwrap(), 203.2, 1e-9);
        write_into(&mut panel, "Speed", "0");
        assert!(sees(&panel, "it may be 1 rpm"));
        assert_eq!(bits(&panel)[0].speed, Some(1500.0));
        write_into(&mut panel, "Speed", " ");
        assert_eq!(bits(&panel)[0].speed, None);
    }

    #[test]
    fn plates_are_whole_numbers() {
        let mut panel = panel();
        write_into(&mut panel, "Index plates", "24, 84 90");
        assert_eq!(panel.state().jig.plates, [24, 84, 90]);
        write_into(&mut panel, "Index plates", "7.5");
        assert!(sees(&panel, "\"7.5\" is no whole number"));
        assert_eq!(panel.state().jig.plates, [24, 84, 90]);
    }
}
