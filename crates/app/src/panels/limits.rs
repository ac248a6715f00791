//! Controls of the limits that the checks hold the board against.

use board::{Board, Range, ranges};
use egui::Ui;
use workshop::{Mend, Rule};

use super::controls::fit_button;
use crate::command::Command;
use crate::widgets::{count_field, length_field, plain_field};

/// Each limit says on hover what it is for and where its default comes from.
pub fn limits_ui(ui: &mut Ui, board: &mut Board, asked: &mut Vec<Command>) {
    let units = board.units;
    let limits = &mut board.limits;
    let length = |ui: &mut Ui, caption, mm: &mut f64, rule: Rule| {
        length_field(ui, caption, mm, ranges::LIMIT, units).on_hover_text(rule.statement());
    };
    length(ui, "Least web", &mut limits.web, Rule::Web);
    length(ui, "Least rim margin", &mut limits.rim, Rule::Rim);
    fit_button(ui, Mend::RimAsItIs, asked);
    length(ui, "Least floor", &mut limits.floor, Rule::Floor);
    length(ui, "Least wood inside", &mut limits.inside, Rule::Inside);
    length(ui, "Least to a seam", &mut limits.seam, Rule::Seam);
    length(ui, "Least piece gap", &mut limits.piece_gap, Rule::Pieces);
    length(ui, "Most piece play", &mut limits.piece_play, Rule::Seat);
    length(ui, "Most pin play", &mut limits.pin_play, Rule::Pilot);
    let template = Rule::TemplateWeb;
    length(ui, "Template web", &mut limits.template_web, template);
    let share = |ui: &mut Ui, caption, value: &mut f64, range: Range, rule: Rule| {
        plain_field(ui, caption, value, range).on_hover_text(rule.statement());
    };
    let (least, most) = (&mut limits.seat_least, &mut limits.seat_most);
    share(ui, "Marble sunk, least", least, ranges::SEAT, Rule::Seat);
    share(ui, "Marble sunk, most", most, ranges::SEAT, Rule::Seat);
    share(ui, "Most risk", &mut limits.risk, ranges::RISK, Rule::Risk);
    share(
        ui,
        "Least tipping push",
        &mut limits.tip,
        ranges::TIP,
        Rule::Base,
    );
    share(
        ui,
        "Turned as fast as",
        &mut limits.spin,
        ranges::SPIN,
        Rule::Spin,
    );
    count_field(ui, "Most sheets", &mut limits.sheets, ranges::SHEETS)
        .on_hover_text(Rule::Sheets.statement());
}
