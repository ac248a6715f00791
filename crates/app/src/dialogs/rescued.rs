//! The dialog that offers boards left unsaved by earlier runs of the program.

use egui::{RichText, ScrollArea, Ui};

use super::{Answer, button_row, heading};
use crate::rescue::Found;
use crate::session::Rescued;
use crate::theme;
use crate::widgets::main_button;

/// The most height of the list, in points.
const LIST: f32 = 320.0;
/// Height of everything but the list, in points.
const AROUND: f32 = 170.0;

/// The unsaved boards, each with buttons to restore or discard it; returns the answer when a button was pressed.
pub fn rescued_ui(ui: &mut Ui, found: &Found) -> Option<Answer> {
    let mut answer = None;
    heading(
        ui,
        match found.boards.len() {
            0 => "An unsaved copy could not be read",
            1 => "Restore unsaved board?",
            _ => "Restore an unsaved board?",
        },
    );
    let height = LIST.min((ui.ctx().content_rect().height() - AROUND).max(90.0));
    let list = ScrollArea::vertical().max_height(height);
    let list = list.min_scrolled_height(height);
    list.show(ui, |ui| {
        for (at, rescued) in found.boards.iter().enumerate() {
            let shown = ui.push_id(at, |ui| board_ui(ui, rescued, at == 0));
            answer = answer.take().or(shown.inner);
            ui.add_space(theme::GAP);
        }
        for path in &found.broken {
            ui.label(format!(
                "An unsaved copy could not be read. It is kept as {}.",
                path.display()
            ));
        }
    });
    let later = button_row(ui, |ui| ui.button("Later").clicked());
    answer.or(later.then_some(Answer::RescueLater))
}

/// One unsaved board: its title, when it was last changed, its file, and its buttons.
fn board_ui(ui: &mut Ui, rescued: &Rescued, is_main: bool) -> Option<Answer> {
    let board = &rescued.board;
    ui.label(RichText::new(&board.title).strong());
    let from = rescued.path.as_ref().map_or_else(
        || "never saved".to_owned(),
        |path| format!("unsaved changes to {}", path.display()),
    );
    ui.label(format!(
        "{} players, last changed {}, {from}",
        board.players, rescued.when
    ));
    ui.horizontal(|ui| {
        let open = if is_main {
            main_button(ui, "Restore")
        } else {
            ui.button("Restore")
        };
        // Enter restores at once: nothing is lost by it.
        if is_main && ui.memory(egui::Memory::focused).is_none() {
            open.request_focus();
        }
        if open.clicked() {
            return Some(Answer::Rescue(Box::new(rescued.clone())));
        }
        ui.button("Discard")
            .clicked()
            .then(|| Answer::GiveUp(Box::new(rescued.clone())))
    })
    .inner
}
