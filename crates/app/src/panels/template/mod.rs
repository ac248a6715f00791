//! Controls of the drilling template.

pub mod accuracy;
pub mod printer;

use board::{Board, Paper, field};
use drawing::ROLLS;
use egui::Ui;
use workshop::paper_size;

use crate::widgets::{choice, field_ui, fields_ui, number_ui};

/// Paper, margin, overlap, marks and names.
pub fn template_ui(ui: &mut Ui, board: &mut Board) {
    paper_ui(ui, board);
    fields_ui(
        ui,
        board,
        &[
            &field::PAPER_WIDTH,
            &field::PAPER_HEIGHT,
            &field::MARGIN,
            &field::OVERLAP,
            &field::SHEET_LAYOUT,
            &field::MARKING,
            &field::HOLE_NAMES,
        ],
    );
    roll_ui(ui, board);
    fields_ui(ui, board, &[&field::DXF_RELEASE]);
}

/// Paper for the whole board at a print shop.
fn roll_ui(ui: &mut Ui, board: &mut Board) {
    let units = board.units;
    let roll = &mut board.template.roll;
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
        number_ui(ui, &field::ROLL.label(0), &field::ROLL, roll, units);
    }
}

/// The width that a roll of custom width starts with, mm.
const OWN_ROLL: f64 = 700.0;

/// Custom paper starts with the size of the paper chosen before.
fn paper_ui(ui: &mut Ui, board: &mut Board) {
    let before = paper_size(board.template.paper);
    if field_ui(ui, board, &field::PAPER)
        && let Paper::Custom { width, height } = &mut board.template.paper
    {
        (*width, *height) = (before.width, before.height);
    }
}
