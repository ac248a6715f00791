//! The arrangement of the panels: side by side where there is room, otherwise one at a time.
//!
//! A window of 1440 points enlarged to 200 % has 720 points left, and still shows everything.

use core::ops::RangeInclusive;

use egui::containers::panel::PanelState;
use egui::{CentralPanel, Frame, IdSalt, Margin, Panel, Pos2, Rect, Ui, UiBuilder, vec2};

use workshop::{Finding, Severity};

use super::App;
use crate::command::Command;
use crate::panels::bar::bar_ui;
use crate::panels::controls::{Controls, controls_ui};
use crate::panels::faces::faces_ui;
use crate::panels::findings::findings_ui;
use crate::panels::status::status_ui;
use crate::panels::tools::tools_ui;
use crate::theme::{self, Tokens};
use crate::view::{Pane, Room};

/// Width from which controls, board and findings stand side by side, in points.
const ALL_BESIDE: f32 = 1060.0;
/// Width from which the board has one panel beside it.
const ONE_BESIDE: f32 = 600.0;
/// Width that the board keeps beside both panels, as long as the findings can be read.
const BOARD_WIDTH: f32 = 380.0;
/// Width of the controls: the least, their share of the window until the maker gives them another, and the most.
const CONTROLS: (f32, f32, f32) = (theme::CONTROLS_WIDTH, 0.21, 460.0);
/// Width of the findings: the least, the least where there is room, their share of the window, and the most.
const FINDINGS: (f32, f32, f32, f32) = (248.0, theme::FINDINGS_WIDTH, 0.19, 420.0);
/// The panels, by the names that the toolkit keeps them under.
const CONTROLS_PANEL: &str = "controls";
const FINDINGS_PANEL: &str = "findings";

impl App {
    /// Bar, panels, board and status line.
    pub(super) fn panels(&mut self, ui: &mut Ui, commands: &mut Vec<Command>) {
        self.view.lit.clear();
        let tokens = Tokens::of(ui);
        let width = ui.available_width();
        self.view.room = if width >= ALL_BESIDE {
            Room::Both
        } else if width >= ONE_BESIDE {
            Room::Shared
        } else {
            Room::Single
        };
        let shown = [Pane::Controls, Pane::Findings].map(|pane| self.is_shown(pane));
        let bar = Frame::new()
            .fill(tokens.bench)
            .inner_margin(Margin::symmetric(12, 6));
        Panel::top("bar").frame(bar).show(ui, |ui| {
            bar_ui(
                ui,
                &self.session,
                &self.settings.recent,
                (&self.view, shown),
                commands,
            );
        });
        Panel::bottom("status")
            .frame(bar)
            .exact_size(34.0)
            .show(ui, |ui| {
                status_ui(ui, &mut self.view, &self.jobs, &self.studies);
            });
        self.view.pointed = None;
        match self.view.room {
            Room::Both => self.all_beside(ui, width),
            Room::Shared => self.one_beside(ui),
            Room::Single => self.one_at_a_time(ui),
        }
    }

    /// Whether a panel is in sight.
    fn is_shown(&self, pane: Pane) -> bool {
        let settings = &self.settings;
        match (self.view.room, pane) {
            (Room::Both, Pane::Findings) => !settings.findings.folded,
            (Room::Both, _) => !settings.controls.folded,
            (Room::Shared, pane) => !settings.controls.folded && self.view.pane == pane,
            (Room::Single, pane) => self.view.pane == pane,
        }
    }

    /// Folds a panel away, or brings it back.
    pub(super) fn fold(&mut self, pane: Pane) {
        let folds = self.is_shown(pane);
        match (self.view.room, pane) {
            (Room::Both, Pane::Findings) => self.settings.findings.folded = folds,
            (Room::Both, _) => self.settings.controls.folded = folds,
            (Room::Shared, pane) => {
                self.settings.controls.folded = folds;
                self.view.pane = pane;
            }
            (Room::Single, _) if folds => self.view.pane = Pane::Board,
            (Room::Single, pane) => self.view.pane = pane,
        }
    }

    fn all_beside(&mut self, ui: &mut Ui, width: f32) {
        self.forget_chosen();
        let (least, share, most) = CONTROLS;
        let side = Side {
            panel: Panel::left(CONTROLS_PANEL),
            name: CONTROLS_PANEL,
            range: least..=most,
            usual: (share * width).clamp(least, most),
        };
        if !self.settings.controls.folded {
            let own = self.settings.controls.width;
            self.settings.controls.width = side.show(ui, own, |ui| self.controls(ui));
        }
        let (narrow, least, share, most) = FINDINGS;
        let room = ui.available_width() - BOARD_WIDTH;
        let side = Side {
            panel: Panel::right(FINDINGS_PANEL),
            name: FINDINGS_PANEL,
            range: room.clamp(narrow, least)..=room.clamp(narrow, most),
            usual: (share * width).clamp(least, most),
        };
        if !self.settings.findings.folded {
            let own = self.settings.findings.width;
            self.settings.findings.width = side.show(ui, own, |ui| {
                findings_ui(ui, &self.current, &mut self.view);
            });
        }
        self.board(ui);
    }

    /// While the controls are hidden, choosing a hole does not scroll them to it, not even when they are shown again.
    fn forget_chosen(&mut self) {
        self.view.show_chosen &= !self.settings.controls.folded;
    }

    fn one_beside(&mut self, ui: &mut Ui) {
        self.forget_chosen();
        if self.view.show_chosen || self.view.pane == Pane::Board {
            self.view.pane = Pane::Controls;
        }
        if !self.settings.controls.folded {
            Panel::left("side")
                .frame(side(ui))
                .exact_size(theme::CONTROLS_WIDTH)
                .show(ui, |ui| {
                    self.tabs(ui, &[Pane::Controls, Pane::Findings]);
                    ui.add_space(theme::GAP);
                    within(ui, |ui| self.front(ui));
                });
        }
        self.board(ui);
    }

    fn one_at_a_time(&mut self, ui: &mut Ui) {
        Panel::top("tabs").frame(side(ui)).show(ui, |ui| {
            self.tabs(ui, &[Pane::Board, Pane::Controls, Pane::Findings]);
        });
        if self.view.pane == Pane::Board {
            self.board(ui);
        } else {
            self.view.readout.clear();
            CentralPanel::default()
                .frame(side(ui))
                .show(ui, |ui| within(ui, |ui| self.front(ui)));
        }
    }

    fn tabs(&mut self, ui: &mut Ui, panes: &[Pane]) {
        ui.horizontal(|ui| {
            for &pane in panes {
                let title = self.title(pane);
                ui.selectable_value(&mut self.view.pane, pane, title);
            }
        });
    }

    fn title(&self, pane: Pane) -> String {
        match pane {
            Pane::Board => "Drawing".into(),
            Pane::Controls => "Controls".into(),
            Pane::Findings => {
                let good = self.current.good();
                findings_title(good.map_or(&[], |workpiece| workpiece.findings()))
            }
        }
    }

    fn front(&mut self, ui: &mut Ui) {
        match self.view.pane {
            Pane::Board | Pane::Controls => self.controls(ui),
            Pane::Findings => findings_ui(ui, &self.current, &mut self.view),
        }
    }

    fn controls(&mut self, ui: &mut Ui) {
        let before = (!self.shop.shop.is_empty()).then(|| self.session.board.clone());
        let chosen = self.view.chosen();
        let mut controls = Controls {
            board: &mut self.session.board,
            printers: &mut self.printers,
            chosen: &chosen,
            selected: &mut self.view.selected,
            mirrored: &mut self.view.mirrored,
            choice: None,
            stage: &mut self.view.stage,
            folds: &mut self.settings.folds,
            show_chosen: core::mem::take(&mut self.view.show_chosen),
            lit: &mut self.view.lit,
            current: &self.current,
            asked: &mut self.view.asked,
        };
        controls_ui(ui, &mut controls);
        if let Some(choice) = controls.choice.take() {
            self.view.selected = choice.first().copied();
            self.view.group = choice;
        }
        if let Some(before) = before.filter(|before| *before != self.session.board) {
            self.shop.shop.give_new(&before, &mut self.session.board);
        }
        self.current.print_on(self.printers.correction());
        // Fields change the document: its results are worked out before they are shown.
        self.current.refresh(&self.session.board);
    }

    /// The views over the drawing, and the tools of the plan.
    fn faces(&mut self, ui: &mut Ui) {
        ui.add_space(theme::TIGHT);
        ui.horizontal(|ui| {
            ui.add_space(theme::GAP);
            if let Some(face) = faces_ui(ui, self.view.face) {
                self.choose_face(face);
            }
            if self.view.face.is_plan() {
                ui.add_space(theme::GAP);
                tools_ui(ui, &mut self.view, &self.current);
            }
        });
    }

    fn board(&mut self, ui: &mut Ui) {
        let bench = Frame::new().fill(Tokens::of(ui).bench);
        CentralPanel::default().frame(bench).show(ui, |ui| {
            within(ui, |ui| {
                self.faces(ui);
                self.drawing(ui);
            });
        });
    }
}

/// The tab of the findings, with a mark that shows even beside the controls whether something stops the board.
fn findings_title(findings: &[Finding]) -> String {
    let worst = [Severity::Stop, Severity::Caution];
    let told = worst.into_iter().filter_map(|severity| {
        let is_so = |finding: &&Finding| finding.severity == severity;
        let count = findings.iter().filter(is_so).count();
        (count > 0).then(|| board::several(count, severity.label()))
    });
    let told: Vec<String> = told.collect();
    if told.is_empty() {
        format!("Figures and findings ({})", findings.len())
    } else {
        format!("Findings: {}", told.join(", "))
    }
}

/// A panel beside the board, as wide as the maker has pulled it, or else as the window has room for.
struct Side {
    panel: Panel,
    name: &'static str,
    /// The widths it may have.
    range: RangeInclusive<f32>,
    /// Its width until the maker gives it another.
    usual: f32,
}

impl Side {
    /// Shows the panel; its width where the maker has given it one.
    fn show(self, ui: &mut Ui, own: Option<f32>, content: impl FnOnce(&mut Ui)) -> Option<f32> {
        let (least, most) = (*self.range.start(), *self.range.end());
        let width = own.unwrap_or(self.usual).clamp(least, most).round();
        // The toolkit would keep the width from a smaller window as if the maker had chosen it.
        let id = ui.scope_id().with_salt(IdSalt::new(self.name));
        let outer_rect = Rect::from_min_size(Pos2::ZERO, vec2(width, ui.available_height()));
        ui.data_mut(|data| data.insert_persisted(id, PanelState { outer_rect }));
        let panel = self.panel.frame(side(ui)).size_range(self.range);
        let shown = panel.show(ui, |ui| within(ui, content)).response.rect;
        let is_pulled = (shown.width() - width).abs() >= 1.0;
        if is_pulled { Some(shown.width()) } else { own }
    }
}

/// Draws in all of the remaining room, and takes no more of it: a panel keeps its width with any content.
fn within(ui: &mut Ui, content: impl FnOnce(&mut Ui)) {
    /// Room for the focus frame.
    const FOCUS: f32 = 4.0;
    let room = ui.available_rect_before_wrap();
    let mut inside = ui.new_child(UiBuilder::new().max_rect(room));
    inside.shrink_clip_rect(room.expand(FOCUS));
    content(&mut inside);
    ui.advance_cursor_after_rect(room);
}

fn side(ui: &Ui) -> Frame {
    Frame::new()
        .fill(Tokens::of(ui).panel)
        .inner_margin(Margin::same(12))
}

#[cfg(test)]
mod tests;
