//! The controls, in the order of the work.

use board::{Board, HoleId, field};
use egui::{Button, ScrollArea, Ui, vec2};
use workshop::Mend;

use super::rows::fitted;
use super::summary::{header_of, held_words};
use super::{
    base, blank, bores, calendar, colors, filling, finish, grooves, hardboard, jig, limits,
    machine, pattern, price, recess, repair, template, wood,
};
use crate::command::Command;
use crate::current::Current;
use crate::printers::Printers;
use crate::section::{Folds, Section};
use crate::stage::Stage;
use crate::theme::{self, Tokens};
use crate::widgets::{fields_ui, mark, section, share_room};

/// The parts that the controls change.
pub struct Controls<'a> {
    /// The document.
    pub board: &'a mut Board,
    /// The maker's printers.
    pub printers: &'a mut Printers,
    /// All holes that are chosen.
    pub chosen: &'a [HoleId],
    /// The hole among them that is shown.
    pub selected: &'a mut Option<HoleId>,
    /// Whether a change to it is made for every player.
    pub mirrored: &'a mut bool,
    /// Holes to choose in place of these, if the maker searched for others.
    pub choice: Option<Vec<HoleId>>,
    /// The stage of the work whose controls are shown.
    pub stage: &'a mut Stage,
    /// The sections that the maker has folded or unfolded.
    pub folds: &'a mut Folds,
    /// Whether the controls of the chosen hole are to be brought into view.
    pub show_chosen: bool,
    /// The workpiece, or the fault that keeps it from being laid out.
    pub current: &'a Current,
    /// The holes to highlight while the pointer is on something about them.
    pub lit: &'a mut Vec<HoleId>,
    /// The commands that the maker chose.
    pub asked: &'a mut Vec<Command>,
}

/// The stages, and the controls of the current one, one section below the other.
pub fn controls_ui(ui: &mut Ui, controls: &mut Controls<'_>) {
    if controls.show_chosen {
        *controls.stage = Stage::LayOut;
        controls.folds.set(Section::Holes, true);
    }
    if let Some(stage) = stages_ui(ui, *controls.stage, controls.current) {
        controls.asked.push(Command::Stage(stage));
    }
    let stage = *controls.stage;
    let area = ScrollArea::vertical()
        .id_salt(stage.label())
        .auto_shrink(false);
    area.show(ui, |ui| {
        share_room(ui);
        for one in Section::of_stage(stage) {
            folding_ui(ui, one, controls);
        }
    });
}

/// A section under its header.
fn folding_ui(ui: &mut Ui, one: Section, controls: &mut Controls<'_>) {
    let mut header = header_of(one, controls.board, controls.current);
    if one == Section::Printer
        && let Some(printer) = controls.printers.chosen()
    {
        header.summary.clone_from(&printer.name);
    }
    // The folds are borrowed by the header alone, so that the content can borrow the rest.
    let mut folds = core::mem::take(controls.folds);
    let shown = section(ui, one, &mut folds, &header, |ui| {
        section_ui(ui, one, controls);
    });
    *controls.folds = folds;
    if one == Section::Holes && controls.show_chosen {
        shown.scroll_to_me(Some(egui::Align::Max));
    }
}

/// The stages, in as many rows as the panel needs; returns the one that was pressed. A stage with findings that are fixed there has a
/// mark.
fn stages_ui(ui: &mut Ui, chosen: Stage, current: &Current) -> Option<Stage> {
    let mut pressed = None;
    let good = current.good();
    let findings = good.map_or(&[][..], |workpiece| workpiece.findings());
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(5.0, 5.0);
        for stage in Stage::ALL {
            let button =
                Button::selectable(chosen == stage, stage.label()).frame_when_inactive(true);
            let button = ui.add(button);
            let held = held_words(findings, |finding| {
                Section::of_rule(finding.rule).stage() == stage
            });
            if let Some((severity, _)) = &held {
                let color = Tokens::of(ui).severity(*severity);
                let corner = button.rect.right_top() + vec2(-2.0, 2.0);
                ui.painter()
                    .circle_filled(corner, 7.0, Tokens::of(ui).panel);
                mark(ui, corner, 0.8, *severity, color);
            }
            let held = held.map_or_else(String::new, |(_, words)| format!("\nHere: {words}"));
            // A screen reader hears it as the description of the tab.
            let hint = format!("{}{held}", stage.tooltip());
            if button.on_hover_text(hint).clicked() {
                pressed = Some(stage);
            }
        }
    });
    ui.add_space(theme::GAP);
    pressed
}

/// The content of a section.
fn section_ui(ui: &mut Ui, section: Section, controls: &mut Controls<'_>) {
    let board = &mut *controls.board;
    let current = controls.current;
    let asked = &mut *controls.asked;
    match section {
        Section::Board => board_ui(ui, board, asked),
        Section::Pattern => pattern::pattern_ui(ui, board, current, asked),
        Section::Lanes => pattern::lanes_ui(ui, board, current),
        Section::Pieces => bores::pieces_ui(ui, board, asked),
        Section::Center => bores::center_ui(ui, board),
        Section::Weight => bores::piece::piece_ui(ui, board),
        Section::Holes => holes_ui(ui, controls),
        Section::Limits => limits::limits_ui(ui, board, asked),
        Section::Species => wood::wood_ui(ui, board),
        Section::Blank => blank::stock::stock_ui(ui, board, current, asked),
        Section::Joining => blank::joining::joining_ui(ui, board, current, asked),
        Section::Screws => blank::joining::screws_ui(ui, board),
        Section::Seasons => wood::seasons_ui(ui, board),
        Section::Base => base::base_ui(ui, board),
        Section::Template => template::template_ui(ui, board),
        Section::Printer => template::printer::printer_ui(ui, board, controls.printers),
        Section::Hardboard => hardboard::hardboard_ui(ui, board, current, asked),
        Section::Accuracy => template::accuracy::accuracy_ui(ui, board, current),
        Section::Bores => bores::bores_ui(ui, board, asked),
        Section::Jig => jig::jig_ui(ui, board),
        Section::Tools => jig::tools_ui(ui, board),
        Section::Machine => machine::machine_ui(ui, board, current),
        Section::Repair => repair::repair_ui(ui, board, current),
        Section::Grooves => grooves::grooves_ui(ui, board, current),
        Section::Storage => {
            recess::storage_ui(ui, board, current);
            recess::lid_ui(ui, board, current);
        }
        Section::Filling => filling::filling_ui(ui, board, current, controls.lit),
        Section::Players => colors::players_ui(ui, board),
        Section::Colors => colors::colors_ui(ui, board),
        Section::Coats => finish::finish_ui(ui, board, current),
        Section::Calendar => calendar::order_ui(ui, board, current),
        Section::Hours => calendar::hours_ui(ui, board),
        Section::Times => calendar::times_ui(ui, board, current),
        Section::Done => calendar::done_ui(ui, board, current),
        Section::Price => price::price_ui(ui, board, current),
        Section::Quote => price::quote_ui(ui, board),
    }
}

/// The chosen holes, and all changes by hand.
fn holes_ui(ui: &mut Ui, controls: &mut Controls<'_>) {
    let mut chosen = bores::hole::Chosen {
        board: controls.board,
        holes: controls.chosen,
        selected: controls.selected,
        mirrored: controls.mirrored,
        choice: &mut controls.choice,
    };
    bores::hole::hole_ui(ui, &mut chosen, controls.current);
}

fn board_ui(ui: &mut Ui, board: &mut Board, asked: &mut Vec<Command>) {
    fields_ui(ui, board, &[&field::TITLE, &field::UNITS]);
    fitted(ui, board, &field::BOARD_DIAMETER, Mend::FitBoard, asked);
    fields_ui(ui, board, &[&field::BOARD_THICKNESS, &field::ROUNDOVER]);
}
