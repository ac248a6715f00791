//! Controls of the limits that the checks hold the board against.

use board::{Board, field};
use egui::Ui;
use workshop::{Mend, Rule};

use crate::command::Command;
use crate::widgets::{explained_ui, fitted_explained_ui};

/// Each limit says on hover what it is for and where its default comes from.
pub fn limits_ui(ui: &mut Ui, board: &mut Board, asked: &mut Vec<Command>) {
    for (field, rule) in [
        (&field::LEAST_WEB, Rule::Web),
        (&field::LEAST_RIM, Rule::Rim),
        (&field::LEAST_FLOOR, Rule::Floor),
        (&field::LEAST_INSIDE, Rule::Inside),
        (&field::LEAST_SEAM, Rule::Seam),
        (&field::LEAST_GAP, Rule::Pieces),
        (&field::MOST_PLAY, Rule::Seat),
        (&field::MOST_PIN_PLAY, Rule::Pilot),
        (&field::LEAST_TEMPLATE, Rule::TemplateWeb),
        (&field::LEAST_SEAT, Rule::Seat),
        (&field::MOST_SEAT, Rule::Seat),
        (&field::MOST_RISK, Rule::Risk),
        (&field::LEAST_TIP, Rule::Base),
        (&field::MOST_SPIN, Rule::Spin),
        (&field::REACH, Rule::Reach),
        (&field::LEAST_HANDS, Rule::Reach),
        (&field::MOST_CARRIED, Rule::Carry),
        (&field::MOST_SHEETS, Rule::Sheets),
    ] {
        let hint = rule.statement(board.units);
        if rule == Rule::Rim {
            let mend = Mend::RimAsItIs;
            let fit = [mend.label(), mend.tooltip(), &hint];
            if fitted_explained_ui(ui, board, field, fit) {
                asked.push(Command::Mend(mend));
            }
        } else {
            explained_ui(ui, board, field, &hint);
        }
    }
}
