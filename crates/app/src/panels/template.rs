//! Controls of the drilling template.

use board::{Board, Marking, Paper, Units, ranges};
use drawing::ROLLS;
use egui::Ui;
use workshop::{paper_name, paper_size};

use crate::widgets::{choice, length_field, row};

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
