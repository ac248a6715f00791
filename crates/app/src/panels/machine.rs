//! Controls of the CNC machine: heights, bits with their feeds, the edge cut round.

use board::{
    BitRun, Board, Bottom, DrillingOrder, EdgeRun, Machine, ProgramFiles, Units, ranges,
    show_length,
};
use egui::{RichText, Ui};
use workshop::{Caution, hole_table};

use super::list_field::counts_field;
use crate::current::Current;
use crate::widgets::{Field, cautions, choice, length_field, optional_field, plain_field, planned};

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
    if let Some((_, derived)) = current.good() {
        for (diameter, bottom) in hole_table(&derived.layout).bits() {
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
        let field = |range| Field { range, units };
        optional_field(
            ui,
            "Speed",
            &mut bit.speed,
            1000.0,
            field(ranges::SPEED),
            "set",
        );
        optional_field(
            ui,
            "Feed a minute",
            &mut bit.feed,
            100.0,
            field(ranges::FEED),
            "set",
        );
        optional_field(
            ui,
            "Peck",
            &mut bit.peck,
            3.0,
            field(ranges::PASS),
            "clears chips",
        );
        optional_field(
            ui,
            "Dwell",
            &mut bit.dwell,
            0.5,
            field(ranges::WAIT),
            "at the bottom",
        );
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
        let field = |range| Field { range, units };
        length_field(ui, "Cutter", &mut edge.cutter, ranges::BIT, units);
        optional_field(
            ui,
            "Cutter speed",
            &mut edge.speed,
            12_000.0,
            field(ranges::SPEED),
            "set",
        );
        optional_field(
            ui,
            "Feed along",
            &mut edge.feed,
            500.0,
            field(ranges::FEED),
            "set",
        );
        optional_field(
            ui,
            "Feed down",
            &mut edge.plunge,
            100.0,
            field(ranges::FEED),
            "set",
        );
        length_field(ui, "Depth of a pass", &mut edge.pass, ranges::PASS, units);
        length_field(ui, "Skin left", &mut edge.skin, ranges::SKIN, units)
            .on_hover_text("Wood left uncut below, which holds the board until it is sawn free");
    });
}
