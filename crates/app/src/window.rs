//! The window: its state, and what happens in a frame.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use board::Board;
use egui::{Ui, ViewportCommand};

use crate::command::Command;
use crate::current::Current;
use crate::dialogs::{Dialog, dialog_ui};
use crate::help::help_ui;
use crate::host::{Desktop, Host};
use crate::jobs::Jobs;
use crate::printers::Printers;
use crate::rescue::{Found, Rescue};
use crate::samples::SAMPLES;
use crate::session::Session;
use crate::settings::Settings;
use crate::sheet_view::SheetViewState;
use crate::shop::KeptShop;
use crate::spoken::Spoken;
use crate::study::Studies;
use crate::theme;
use crate::view::ViewState;
use crate::widgets::{asked_term, enter_sought, forget_focus};

mod carry_out;
mod document;
mod faces;
mod focus;
pub mod headless;
mod open;
mod panes;
mod results;
#[cfg(test)]
mod small;
#[cfg(test)]
pub(crate) mod tests;

use document::Begun;
pub use open::run;

/// The time until delayed work is tried again.
const LATER: Duration = Duration::from_millis(200);

/// The longest side of a texture, in pixels; no picture of the window is longer.
const WIDEST_TEXTURE: usize = 4096;

/// The window's state.
pub struct App {
    pub(crate) session: Session,
    pub(crate) printers: Printers,
    pub(crate) shop: KeptShop,
    pub(crate) settings: Settings,
    pub(crate) view: ViewState,
    pub(crate) current: Current,
    pub(crate) jobs: Jobs,
    pub(crate) studies: Studies,
    /// The document whose values the shop already has.
    known: Board,
    /// The document as it was begun; `None` for one opened from a file.
    begun: Option<Begun>,
    host: Arc<dyn Host>,
    rescue: Rescue,
    /// The window may close although there are changes.
    closing: bool,
}

impl App {
    /// Begins with a file, or with the first sample board.
    pub fn new(
        ctx: &egui::Context,
        mut settings: Settings,
        host: Arc<dyn Host>,
        file: Option<&Path>,
    ) -> Self {
        ctx.add_plugin(Spoken);
        ctx.set_theme(settings.theme);
        theme::color(ctx, settings.high_contrast);
        let sample = SAMPLES
            .first()
            .map(crate::samples::Sample::board)
            .unwrap_or_default();
        let mut view = ViewState {
            mirrored: true,
            section: SheetViewState::by_width(),
            ..ViewState::default()
        };
        let session = match file.map(|path| Session::open(&*host, path)) {
            Some(Ok(mut session)) => {
                if let Some(remarks) = session.take_remarks() {
                    view.warn(remarks);
                }
                session
            }
            Some(Err(error)) => {
                view.warn(format!("{error}; a sample board is shown instead"));
                Session::new(sample)
            }
            None => Session::new(sample),
        };
        if let Some(path) = session.path() {
            settings.remember(path);
            path.parent().inspect(|folder| host.sweep(folder));
        }
        let printers = Printers::load(&*host);
        if let Some(fault) = printers.fault() {
            view.warn(fault);
        }
        let shop = KeptShop::load(&*host);
        if let Some(fault) = shop.fault() {
            view.warn(fault);
        }
        let known = session.board.clone();
        let begun = session.path().is_none().then(|| Begun {
            asked: None,
            board: known.clone(),
        });
        view.face = settings.looks.of(view.stage, &session.board);
        let mut current = Current::of(&session.board);
        current.print_on(printers.correction());
        Self {
            session,
            printers,
            shop,
            known,
            begun,
            settings,
            view,
            current,
            jobs: Jobs::new(),
            studies: Studies::default(),
            rescue: Rescue::new(&*host),
            host,
            closing: false,
        }
    }

    /// The window as it is on a first start: its look installed, a sample board open.
    pub fn sample(ctx: &egui::Context) -> Self {
        theme::install(ctx);
        Self::new(ctx, Settings::default(), Arc::new(Desktop), None)
    }

    /// Asks about a board that an earlier run left unsaved, if there is one.
    pub fn offer_rescue(&mut self) {
        if let Some(folder) = self.host.settings_folder() {
            self.host.sweep(&folder);
        }
        let found = self.rescue.found(&*self.host);
        if found != Found::default() {
            self.view.dialog = Some(Dialog::Rescued(Box::new(found)));
        }
    }

    /// Everything on screen, and the commands it asks for.
    fn show(&mut self, ui: &mut Ui) {
        if !self.view.help.shown {
            self.view.help.before = ui.ctx().memory(egui::Memory::focused);
        }
        enter_sought(ui.ctx());
        focus::follow(ui.ctx());
        let mut commands = Command::pressed(ui.ctx());
        // An open dialog may still be about the file requested before.
        if let Some(path) = dropped_file(ui.ctx()).filter(|_| self.view.dialog.is_none()) {
            self.view.wanted = Some(path);
            commands.push(Command::Wanted);
        }
        if self.view.dialog.is_some() {
            commands.clear();
        }
        if !commands.is_empty() {
            leave_field(ui.ctx());
        }
        self.current
            .be_on(self.host.today().today(self.host.zone()));
        self.current.refresh(&self.session.board);
        if !commands.contains(&Command::Term) {
            forget_focus(ui.ctx());
        }
        self.panels(ui, &mut commands);
        if let Some(term) = asked_term(ui.ctx()) {
            self.view.help.open_word(term);
        }
        commands.append(&mut self.view.asked);
        let answer = self
            .view
            .dialog
            .as_mut()
            .and_then(|dialog| dialog_ui(ui.ctx(), dialog, &*self.host));
        focus::show(ui.ctx());
        help_ui(ui.ctx(), &mut self.view.help);
        for command in commands {
            self.apply(ui.ctx(), command);
        }
        if let Some(answer) = answer {
            self.answer(ui.ctx(), answer);
        }
        if let Some(Dialog::Shop(dialog)) = &self.view.dialog {
            if self.shop.shop != dialog.shop {
                dialog.shop.give_tools(&mut self.session.board);
            }
            self.shop.shop.clone_from(&dialog.shop);
        }
        self.follow_units();
        self.name_window(ui.ctx());
        self.keep_aside(ui.ctx());
        if is_settled(ui.ctx()) {
            self.session.commit();
            self.learn_shop();
            self.study(ui.ctx());
            if let Some(fault) = self.printers.keep(&*self.host) {
                self.view.warn(fault);
            }
        }
    }

    /// Backs up unsaved changes, even while a text is being typed.
    fn keep_aside(&mut self, ctx: &egui::Context) {
        let is_dragging = ctx.input(|input| input.pointer.any_down());
        if !is_dragging && self.rescue.keep(&self.host, &self.session) {
            ctx.request_repaint_after(LATER);
        }
        if let Some(fault) = self.rescue.fault() {
            self.view.warn(fault);
        }
    }

    /// Keeps the title bar of the window at the open document.
    fn name_window(&mut self, ctx: &egui::Context) {
        let caption = self.session.caption();
        if caption != self.view.caption {
            let title = format!("{caption} – Ringwright");
            ctx.send_viewport_cmd(ViewportCommand::Title(title));
            self.view.caption = caption;
        }
    }

    /// Requests the results for the present document that are worked out beside the window.
    fn study(&mut self, ctx: &egui::Context) {
        if let Some(workpiece) = self.current.good() {
            self.studies.ask(ctx, &self.host, workpiece);
        }
    }
}

impl eframe::App for App {
    /// Letters are kept in one picture that is as wide as a texture may be: 16,384 pixels on some cards, most of them empty.
    fn raw_input_hook(&mut self, _ctx: &egui::Context, input: &mut egui::RawInput) {
        input.max_texture_side = input.max_texture_side.map(|side| side.min(WIDEST_TEXTURE));
    }

    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        self.finish_jobs();
        let asked_to_close = ctx.input(|input| input.viewport().close_requested());
        if asked_to_close && self.jobs.is_exporting() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            // Changes made meanwhile have to be confirmed again.
            self.closing = false;
            self.view
                .warn("the export is not finished yet; close the window after it");
        } else if asked_to_close && !self.closing && self.session.is_dirty() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.view.dialog = Some(Dialog::Unsaved(Command::Quit));
        }
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.show(ui);
    }

    fn on_exit(&mut self, _: Option<&eframe::glow::Context>) {
        // A lost display closes the window too, without the maker having discarded the changes.
        if self.closing || !self.session.is_dirty() {
            self.rescue.forget(&*self.host);
        }
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        eframe::set_value(storage, Settings::KEY, &self.settings);
    }
}

/// The first of the files that were dropped on the window in this frame.
fn dropped_file(ctx: &egui::Context) -> Option<PathBuf> {
    ctx.input(|input| {
        let first = input.raw.dropped_files.first();
        first.map(|file| file.path().to_path_buf())
    })
}

/// Takes the focus from a field, which is then read in this frame: a command by its keys is about the text too.
fn leave_field(ctx: &egui::Context) {
    ctx.memory_mut(|memory| {
        if let Some(id) = memory.focused() {
            memory.surrender_focus(id);
        }
    });
}

/// Whether a change is finished: no button is held, and no text is being typed.
fn is_settled(ctx: &egui::Context) -> bool {
    !ctx.input(|input| input.pointer.any_down()) && !ctx.text_edit_focused()
}
