//! Controls of the drilling template.

use board::{Board, Marking, Paper, TemplateCenter, Units, ranges};
use drawing::{ROLLS, paper_name, paper_size};
use egui::Ui;
use workshop::{Caution, Measure, plunge, sector_jig};

use super::stock::fact;

use crate::current::Current;
use crate::widgets::{cautions, choice, count_field, length_field, planned, row};

/// Paper, margin, overlap, marks and names.
pub fn template_ui(ui: &mut Ui, board: &mut Board) {
    let units = board.units;
    let template = &mut board.template;
    paper_ui(ui, &mut template.paper);
    if let Paper::Custom { width, height } = &mut template.paper {
        length_field(ui, "Paper width", width, ranges::PAPER, units);
        length_field(ui, "Paper height", height, ranges::PAPER, units);
    }
    length_field(
        ui,
        "Printer margin",
        &mut template.margin,
        ranges::MARGIN,
        units,
    )
    .on_hover_text("The border that your printer leaves white");
    length_field(ui, "Overlap", &mut template.overlap, ranges::OVERLAP, units)
        .on_hover_text("What neighboring sheets share");
    choice(
        ui,
        "Marks",
        &mut template.marking,
        &Marking::ALL,
        Marking::label,
    );
    row(ui, "Names", |ui, _| {
        ui.checkbox(&mut template.names, "on the template")
    });
    roll_ui(ui, &mut template.roll, units);
}

/// Paper for the whole board at a print shop.
fn roll_ui(ui: &mut Ui, roll: &mut Option<f64>, units: Units) {
    let known = |mm: f64| ROLLS.iter().any(|(_, roll)| *roll == mm);
    let own = roll.filter(|mm| !known(*mm));
    let mut all = vec![None];
    all.extend(ROLLS.map(|(_, mm)| Some(mm)));
    all.push(Some(own.unwrap_or(OWN_ROLL)));
    choice(ui, "Print shop's roll", roll, &all, |roll| {
        let name = ROLLS.iter().find(|(_, mm)| Some(*mm) == roll);
        match (roll, name) {
            (None, _) => "cut to size",
            (Some(_), Some((name, _))) => name,
            (Some(_), None) => "another width",
        }
    });
    if let Some(roll) = roll.as_mut().filter(|mm| !known(**mm)) {
        length_field(ui, "Width of the roll", roll, ranges::ROLL, units);
    }
}

/// Where a roll of another width begins, mm.
const OWN_ROLL: f64 = 700.0;

/// Templates of hardboard: for a router with a guide bushing, and of one sector that is turned.
pub fn hardboard_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    router_ui(ui, board);
    sector_ui(ui, board, current);
    if board.router.is_some() {
        cautions(ui, &[Caution::Router, Caution::Noise]);
    } else if board.sector_jig.is_some() {
        cautions(ui, &[Caution::DrillPress]);
    }
}

fn router_ui(ui: &mut Ui, board: &mut Board) {
    let units = board.units;
    planned(ui, "Router template", "of hardboard", &mut board.router);
    let Some(router) = &mut board.router else {
        return;
    };
    length_field(
        ui,
        "Guide bushing",
        &mut router.bushing,
        ranges::BUSHING,
        units,
    )
    .on_hover_text("Its outside diameter");
    length_field(
        ui,
        "Bushing reaches",
        &mut router.reach,
        ranges::BUSHING_REACH,
        units,
    )
    .on_hover_text("How far it stands out below the router's base");
    length_field(ui, "Router bit", &mut router.bit, ranges::BIT, units);
    length_field(
        ui,
        "Hardboard",
        &mut router.hardboard,
        ranges::HARDBOARD,
        units,
    )
    .on_hover_text("Its thickness");
    choice(
        ui,
        "At the center",
        &mut router.center,
        &TemplateCenter::ALL,
        TemplateCenter::label,
    );
    let mm = |mm| Measure::Mm(mm).shown(units);
    fact(ui, "Holes wider by", &mm(router.wider()));
    fact(ui, "Plunge, track", &mm(plunge(board.bores.track, *router)));
}

fn sector_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    let units = board.units;
    planned(ui, "Sector jig", "turned on the pin", &mut board.sector_jig);
    let Some(jig) = &mut board.sector_jig else {
        return;
    };
    count_field(ui, "Index pins", &mut jig.pins, ranges::INDEX_PINS);
    length_field(
        ui,
        "Play of the pins",
        &mut jig.play,
        ranges::PIN_PLAY,
        units,
    )
    .on_hover_text("By how much a pin is thinner than its hole");
    let plan = current
        .good()
        .and_then(|(good, derived)| sector_jig(good, &derived.layout));
    if let Some(Ok(plan)) = plan {
        let pins: Vec<String> = plan
            .index
            .iter()
            .map(|(name, _)| name.to_string())
            .collect();
        let mm = |mm| Measure::Mm(mm).shown(units);
        let degrees = |degrees| Measure::Degrees(degrees).shown(units);
        fact(ui, "Pin stands in", &pins.join(", "));
        fact(ui, "Turned off, likely", &degrees(plan.turned.1));
        fact(ui, "Turned off, worst", &degrees(plan.turned.0));
        if plan.closing.is_some() {
            fact(ui, "Last web, likely", &mm(plan.left.1));
            fact(ui, "Last web, worst", &mm(plan.left.0));
        }
    }
}

/// Custom paper begins as large as the paper before it.
fn paper_ui(ui: &mut Ui, paper: &mut Paper) {
    let size = paper_size(*paper);
    let custom = match *paper {
        Paper::Custom { .. } => *paper,
        _ => Paper::Custom {
            width: size.width,
            height: size.height,
        },
    };
    let all = [
        Paper::A4,
        Paper::A3,
        Paper::Letter,
        Paper::Legal,
        Paper::Tabloid,
        custom,
    ];
    choice(ui, "Paper", paper, &all, paper_name);
}
