//! Carrying out requests: commands, and answers of dialogs.

use std::path::{Path, PathBuf};

use board::{Field, Units, field};
use egui::{ThemePreference, ViewportCommand};
use workshop::Mend;

use super::App;
use super::document::Begun;
use super::results::write_files;
use crate::command::Command;
use crate::dialogs::{Answer, Dialog, NewDialog, PathDialog, RulerDialog, ShopDialog};
use crate::exports::{Kind, Source};
use crate::help::{Found, Page, SearchState};
use crate::host::Ask;
use crate::jobs::{EXPORT, Outcome};
use crate::places::{Spot, place_of, spot_of};
use crate::samples::SAMPLES;
use crate::session::{Rescued, Session};
use crate::theme;
use crate::view::{Face, Pane};
use crate::widgets::{enter_when_found, seek, seek_in, term_in_focus};

impl App {
    /// Carries a command out.
    pub(super) fn apply(&mut self, ctx: &egui::Context, command: Command) {
        match command {
            Command::New | Command::Open | Command::Sample(_) | Command::Wanted | Command::Quit => {
                if self.session.is_dirty() {
                    self.view.dialog = Some(Dialog::Unsaved(command));
                } else {
                    self.leave(ctx, command);
                }
            }
            Command::Recent(at) => {
                // Saving first may move it in the list.
                self.view.wanted = self.settings.recent.get(at).cloned();
                self.apply(ctx, Command::Wanted);
            }
            Command::Save => self.save(),
            Command::SaveAs => self.ask_where_to_save(None),
            Command::Before => self.take_version_before(),
            Command::Export => self.ask_what_to_export(),
            Command::Undo | Command::Redo => self.step(ctx, command),
            Command::Mend(mend) => self.mend(mend),
            Command::Fit => self.fit_drawing(),
            Command::ZoomTo => self.zoom_to_chosen(),
            Command::TrueSize => match self.settings.pixels_per_mm {
                Some(pixels) => self.show_true_size(ctx, pixels),
                None => self.ask_for_a_ruler(),
            },
            Command::Ruler => self.ask_for_a_ruler(),
            Command::Measure => self
                .view
                .canvas
                .set_measuring(!self.view.canvas.measuring()),
            Command::Names => self.settings.show_names = !self.settings.show_names,
            Command::Figure => self.settings.show_wood = !self.settings.show_wood,
            Command::Sheets => self.turn_to(Face::Sheets),
            Command::Blank => self.turn_to(Face::Blank),
            Command::Section => self.turn_to(Face::Section),
            Command::Proof => self.turn_to(Face::Proof),
            Command::Calendar => self.turn_to(Face::Calendar),
            Command::Figures => self.turn_to(Face::Figures),
            Command::Stage(stage) => self.go_to_stage(stage),
            Command::ControlsPanel => self.fold(Pane::Controls),
            Command::FindingsPanel => self.fold(Pane::Findings),
            Command::Units => self.session.board.units = other(self.session.board.units),
            Command::Theme | Command::SystemTheme | Command::HighContrast => {
                self.change_theme(ctx, command);
            }
            Command::Shop => self.show_shop(),
            Command::Search => {
                let units = self.session.board.units;
                self.view.dialog = Some(Dialog::Search(SearchState::default(), units));
            }
            Command::Guide | Command::Keys | Command::Words | Command::Term => {
                self.explain(ctx, command);
            }
            Command::Safety => self.view.dialog = Some(Dialog::Safety),
        }
    }

    /// Opens the page of help that a command asks for.
    fn explain(&mut self, ctx: &egui::Context, command: Command) {
        let help = &mut self.view.help;
        match command {
            Command::Guide => help.open_at(self.view.stage),
            Command::Keys => help.open(Page::Keys),
            Command::Term => match term_in_focus(ctx) {
                Some(term) => help.open_word(term),
                None => help.open(Page::Words),
            },
            _ => help.open(Page::Words),
        }
    }

    /// Undoes or redoes a step, reports it, and shows the controls that it concerns.
    fn step(&mut self, ctx: &egui::Context, command: Command) {
        let before = self.session.board.clone();
        let (done, step) = if command == Command::Undo {
            let name = self.session.undo_name();
            self.session.undo();
            ("Undone", name)
        } else {
            let name = self.session.redo_name();
            self.session.redo();
            ("Redone", name)
        };
        let Some(step) = step else { return };
        self.view.notify(format!("{done}: {step}"));
        let changes = field::differences(&before, &self.session.board);
        let spot = changes.iter().find_map(|change| spot_of(change.field));
        // Folded controls stay folded: the undone change was perhaps a drag.
        if let Some(spot) = spot.filter(|_| !self.settings.controls.folded) {
            self.visit(ctx, spot);
        }
    }

    /// Leaves the open document, whose changes are saved or discarded.
    pub(super) fn leave(&mut self, ctx: &egui::Context, command: Command) {
        match command {
            Command::New => {
                self.shop.refresh(&*self.host);
                let dialog = NewDialog::new(self.usual_units(), &self.shop.shop);
                self.view.dialog = Some(Dialog::New(Box::new(dialog)));
            }
            Command::Open => self.view.dialog = Some(Dialog::Open(PathDialog::default())),
            Command::Sample(at) => {
                if let Some(sample) = SAMPLES.get(at) {
                    let board = sample.board();
                    self.begin(Session::new(board.clone()));
                    self.begun = Some(Begun { asked: None, board });
                }
            }
            Command::Wanted => {
                if let Some(path) = self.view.wanted.take() {
                    self.open(&path);
                }
            }
            Command::Quit => {
                self.closing = true;
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
            _ => {}
        }
    }

    /// Carries out the answer of a dialog.
    pub(super) fn answer(&mut self, ctx: &egui::Context, answer: Answer) {
        match answer {
            Answer::Cancel => self.view.dialog = None,
            Answer::Browse(ask) => self.browse(ctx, ask),
            Answer::Open(path) => self.open(&path),
            Answer::SaveAs(path, then) => {
                if self.save_to(&path, then)
                    && let Some(then) = then
                {
                    self.leave(ctx, then);
                }
            }
            Answer::Export(source, kinds, folder, replace) => {
                self.export(ctx, &source, kinds, folder, replace);
            }
            Answer::Stop => self.jobs.watch().stop(),
            Answer::Show(path) => self.complain(self.host.show(&path).err()),
            Answer::Print(path, page) => self.print(ctx, path, page),
            Answer::Visit(spot) => {
                self.view.dialog = None;
                self.visit(ctx, spot);
                enter_when_found(ctx);
            }
            Answer::New(asked, proposed) => self.propose(*asked, proposed),
            Answer::SaveThen(then) => self.save_then(ctx, then),
            Answer::Rescue(rescued) => {
                self.rescue.opened(&rescued);
                self.begin(Session::rescued(*rescued));
                self.view.dialog = None;
            }
            Answer::GiveUp(rescued) => {
                self.rescue.given_up(&*self.host, &rescued);
                self.give_up(&rescued);
            }
            Answer::RescueLater => {
                self.rescue.left_for_later();
                self.view.dialog = None;
            }
            Answer::Replace(then) => {
                if let Some(path) = self.session.path().map(Path::to_path_buf)
                    && self.save_over(&path)
                    && let Some(then) = then
                {
                    self.leave(ctx, then);
                }
            }
            Answer::Screen(pixels) => self.show_true_size(ctx, pixels),
            Answer::Elsewhere(then) => self.ask_where_to_save(then),
            Answer::Go(found) => {
                self.view.dialog = None;
                self.go(ctx, found);
            }
            Answer::Discard(then) => {
                self.view.dialog = None;
                self.leave(ctx, then);
            }
        }
    }

    /// Starts an export beside the window, which can be stopped there.
    fn export(
        &mut self,
        ctx: &egui::Context,
        source: &Source,
        kinds: Vec<Kind>,
        folder: PathBuf,
        replace: bool,
    ) {
        self.settings.export_folder.clone_from(&folder);
        let source = source.clone();
        let started = self
            .jobs
            .start(ctx, &self.host, EXPORT, move |host, watch| {
                let source = source.watched(watch.clone());
                Outcome::Exported(write_files(host, &source, &kinds, &folder, replace))
            });
        self.complain(started.err());
    }

    /// Asks for a path with the system's dialog, beside the window.
    fn browse(&mut self, ctx: &egui::Context, ask: Ask) {
        let started = self
            .jobs
            .start(ctx, &self.host, "the file dialog", move |host, _| {
                let picked = host.pick(&ask);
                Outcome::Picked(ask, picked)
            });
        self.complain(started.err());
    }

    /// Brings the whole board into view, and focuses the drawing.
    fn fit_drawing(&mut self) {
        self.view.fit();
        self.go_to_drawing();
    }

    /// Focuses the drawing if it is the plan: a maker who goes there by a shortcut goes on by keys.
    fn go_to_drawing(&mut self) {
        if self.view.face.is_plan() {
            self.view.canvas.take_keys();
        }
    }

    fn show_shop(&mut self) {
        self.shop.refresh(&*self.host);
        let dialog = ShopDialog::new(&self.shop.shop, self.session.board.units);
        self.view.dialog = Some(Dialog::Shop(Box::new(dialog)));
    }

    /// Brings the chosen holes into view.
    fn zoom_to_chosen(&mut self) {
        let chosen = self.view.chosen();
        let part = self.current.good().and_then(|workpiece| {
            drawing::holes_box(workpiece.layout(), &chosen, workpiece.board().pitch)
        });
        match part {
            Some(part) => {
                self.show_plan();
                self.view.canvas.zoom_to(part);
                self.go_to_drawing();
            }
            None => self.view.notify("Choose a hole on the plan first"),
        }
    }

    /// Shows the board as large as it will be, on a screen of so many pixels a millimeter, which is remembered.
    fn show_true_size(&mut self, ctx: &egui::Context, pixels_per_mm: f64) {
        self.settings.pixels_per_mm = Some(pixels_per_mm);
        self.view.dialog = None;
        self.show_plan();
        let points = pixels_per_mm / f64::from(ctx.pixels_per_point());
        self.view.canvas.show_at_scale(points);
    }

    /// Shows the plan, with the sheets over it where they are there already.
    fn show_plan(&mut self) {
        if !self.view.face.is_plan() {
            self.view.face = Face::Board;
        }
    }

    fn ask_for_a_ruler(&mut self) {
        let dialog = RulerDialog::new(self.session.board.units);
        self.view.dialog = Some(Dialog::Ruler(dialog));
    }

    /// Goes to a search result.
    fn go(&mut self, ctx: &egui::Context, found: Found) {
        match found {
            Found::Command(command) => self.apply(ctx, command),
            Found::Field(field) => {
                self.go_to(ctx, field);
                enter_when_found(ctx);
            }
            Found::Chapter(at) => self.view.help.open_chapter(at),
            Found::Word(at) => self.view.help.open_word(at),
        }
    }

    /// Brings a place in the controls into view.
    pub(super) fn visit(&mut self, ctx: &egui::Context, spot: Spot) {
        self.show_controls(spot.section.stage());
        seek_in(ctx, spot.caption, spot.section, spot.part);
    }

    /// Brings a field into view; says which part it belongs to where the board does not have it now.
    pub(crate) fn go_to(&mut self, ctx: &egui::Context, field: &'static Field) {
        let Some(place) = place_of(field) else {
            return;
        };
        self.show_controls(place.section.stage());
        let is_there = field.value(&self.session.board, 0).is_some();
        seek(ctx, is_there.then_some(place.caption), place.section);
        if !is_there {
            self.view.notify(format!(
                "{} appears in {} after you plan that part",
                field.label(0),
                place.section.title()
            ));
        }
    }

    /// Removes a discarded board from the open dialog, which closes after the last.
    fn give_up(&mut self, rescued: &Rescued) {
        if let Some(Dialog::Rescued(found)) = &mut self.view.dialog {
            found.boards.retain(|board| board != rescued);
            if found.boards.is_empty() {
                self.view.dialog = None;
            }
        }
    }

    /// Reports an error in the open dialog, or below the board.
    pub(super) fn complain(&mut self, fault: Option<String>) {
        let Some(fault) = fault else { return };
        let left = match &mut self.view.dialog {
            Some(dialog) => dialog.fault(fault),
            None => Some(fault),
        };
        if let Some(fault) = left {
            // A dialog without a place for the message would cover it.
            self.view.dialog = None;
            self.view.warn(fault);
        }
    }

    fn mend(&mut self, mend: Mend) {
        match mend.applied(&self.session.board) {
            Ok(board) => {
                let changed = field::changes(&self.session.board, &board);
                let fields = field::differences(&self.session.board, &board);
                let what = mend.label().to_lowercase();
                // A change too small to be shown is none to the maker.
                let is_same =
                    board == self.session.board || changed.is_empty() && !fields.is_empty();
                let told = if is_same {
                    format!("{what}: already set")
                } else if changed.is_empty() {
                    format!("done: {what}")
                } else {
                    format!("done: {what}: {}", changed.join(", "))
                };
                let bound = mend.bound(&self.session.board);
                let bound = bound.map_or_else(String::new, |bound| format!(" ({bound})"));
                self.view.notify(told + &bound);
                if !is_same {
                    self.session.board = board;
                }
            }
            Err(error) => self.view.warn(self.session.board.units.say(&error)),
        }
    }

    /// Sets the theme: light, dark, as the system has it, or high contrast.
    fn change_theme(&mut self, ctx: &egui::Context, command: Command) {
        let settings = &mut self.settings;
        match command {
            Command::HighContrast => settings.high_contrast = !settings.high_contrast,
            Command::SystemTheme => settings.theme = ThemePreference::System,
            _ if ctx.theme() == egui::Theme::Dark => settings.theme = ThemePreference::Light,
            _ => settings.theme = ThemePreference::Dark,
        }
        ctx.set_theme(settings.theme);
        theme::color(ctx, settings.high_contrast);
    }
}

const fn other(units: Units) -> Units {
    match units {
        Units::Mm => Units::INCH,
        Units::Inch(_) => Units::Mm,
    }
}
