//! The window: its state, and what happens in a frame.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use board::{Units, Wishes, propose};
use egui::{ThemePreference, Ui, ViewportCommand};
use workshop::{Mend, changes};

use crate::blank_view::{BlankSeen, blank_view_ui};
use crate::canvas::{BoardView, SheetOutline, board_ui, readout};
use crate::command::Command;
use crate::current::Current;
use crate::dialogs::{Answer, Dialog, ExportDialog, NewDialog, PathDialog, dialog_ui};
use crate::exports::{Kind, Source, stem};
use crate::host::{Ask, Desktop, Host, Picked};
use crate::jobs::{EXPORT, Jobs, Outcome};
use crate::panes::Pane;
use crate::printers::Printers;
use crate::rescue::Rescue;
use crate::samples::SAMPLES;
use crate::section_view::section_ui;
use crate::session::Session;
use crate::settings::Settings;
use crate::sheet_view::SheetViewState;
use crate::study::Studies;
use crate::theme;
use crate::view::{Face, ViewState};

pub mod headless;
mod open;

pub use open::run;

/// When what has to wait is tried again.
const LATER: Duration = Duration::from_millis(200);

/// The window's state.
pub struct App {
    pub(crate) session: Session,
    pub(crate) printers: Printers,
    pub(crate) settings: Settings,
    pub(crate) view: ViewState,
    pub(crate) current: Current,
    pub(crate) jobs: Jobs,
    pub(crate) studies: Studies,
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
        ctx.set_theme(settings.theme);
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
            Some(Ok(session)) => session,
            Some(Err(error)) => {
                view.warn(format!("{error}; a sample board is shown instead"));
                Session::new(sample)
            }
            None => Session::new(sample),
        };
        if let Some(path) = session.path() {
            settings.remember(path);
        }
        let printers = Printers::load(&*host);
        if let Some(fault) = printers.fault() {
            view.warn(fault);
        }
        let mut current = Current::of(&session.board);
        current.print_on(printers.correction());
        Self {
            session,
            printers,
            settings,
            view,
            current,
            jobs: Jobs::new(),
            studies: Studies::new(),
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
        let found = self.rescue.found(&*self.host);
        if let Some(rescued) = found {
            self.view.dialog = Some(Dialog::Rescued(Box::new(rescued)));
        }
    }

    /// Everything that is seen, and what is asked for by it.
    fn show(&mut self, ui: &mut Ui) {
        let mut commands = Command::pressed(ui.ctx());
        if self.view.dialog.is_some() {
            commands.clear();
        }
        self.current.refresh(&self.session.board);
        self.panels(ui, &mut commands);
        commands.append(&mut self.view.asked);
        let answer = self
            .view
            .dialog
            .as_mut()
            .and_then(|dialog| dialog_ui(ui.ctx(), dialog, &*self.host));
        for command in commands {
            self.apply(ui.ctx(), command);
        }
        if let Some(answer) = answer {
            self.answer(ui.ctx(), answer);
        }
        self.name_window(ui.ctx());
        if is_settled(ui.ctx()) {
            self.session.commit();
            if self.rescue.keep(&self.host, &self.session) {
                ui.ctx().request_repaint_after(LATER);
            }
            self.study(ui.ctx());
            if let Some(fault) = self.printers.keep(&*self.host) {
                self.view.warn(fault);
            }
        }
    }

    /// Keeps the title bar of the window at the document at hand.
    fn name_window(&mut self, ctx: &egui::Context) {
        let caption = self.session.caption();
        if caption != self.view.caption {
            let title = format!("{caption}  –  Ringwright");
            ctx.send_viewport_cmd(ViewportCommand::Title(title));
            self.view.caption = caption;
        }
    }

    /// Takes what was worked out beside the window, and asks for what the document now needs.
    fn study(&mut self, ctx: &egui::Context) {
        self.studies.take();
        let board = &self.session.board;
        if let Some(study) = self.studies.of(board) {
            self.current.take(board, study);
        }
        if let Some((board, derived)) = self.current.good() {
            self.studies.ask(ctx, &self.host, board, derived);
        }
    }

    /// The board, its blank, or its section.
    pub(crate) fn drawing(&mut self, ui: &mut Ui) {
        match self.view.face {
            Face::Board => self.canvas(ui),
            Face::Blank => self.blank(ui),
            Face::Section => self.section(ui),
        }
    }

    fn blank(&mut self, ui: &mut Ui) {
        self.view.readout.clear();
        let board = &mut self.session.board;
        if let Some((_, derived)) = self.current.good() {
            let seen = BlankSeen {
                derived,
                study: self.studies.of(board),
                is_old: self.current.error().is_some(),
            };
            self.view.readout = blank_view_ui(ui, board, &seen, &mut self.view.blank);
        }
        // What is dragged changes the document: what follows from it is shown in the next frame.
        self.current.refresh(&self.session.board);
    }

    fn section(&mut self, ui: &mut Ui) {
        self.view.readout =
            "Drag to pan, turn the wheel to zoom, double-click to begin at the top".into();
        if let Some((board, derived)) = self.current.good() {
            let view = &mut self.view;
            section_ui(ui, board, derived, &mut view.selected, &mut view.section);
        }
    }

    /// Shows a face, or the board where that is shown already.
    fn turn_to(&mut self, face: Face) {
        let is_shown = self.view.face == face;
        self.view.face = if is_shown { Face::Board } else { face };
    }

    fn canvas(&mut self, ui: &mut Ui) {
        let Some((board, derived)) = self.current.good() else {
            ui.centered_and_justified(|ui| {
                ui.label("This board cannot be laid out; the findings say why.")
            });
            return;
        };
        let sheets = if self.view.show_sheets {
            outlines(derived)
        } else {
            Vec::new()
        };
        let lit = self.view.lit(&derived.findings);
        let shown = BoardView {
            board,
            layout: &derived.layout,
            plan: &derived.plan,
            sheets: &sheets,
            lit: &lit,
            selected: self.view.selected,
            dimmed: self.current.error().is_some(),
            units: self.session.board.units,
            show_names: self.settings.show_names,
        };
        let output = board_ui(ui, &shown, &mut self.view.canvas);
        self.view.readout = readout(&output, shown.units);
        if let Some(clicked) = output.clicked {
            self.view.selected = clicked;
            self.view.show_chosen = clicked.is_some();
        }
    }

    /// Carries a command out.
    fn apply(&mut self, ctx: &egui::Context, command: Command) {
        match command {
            Command::New
            | Command::Open
            | Command::Sample(_)
            | Command::Recent(_)
            | Command::Quit => {
                if self.session.is_dirty() {
                    self.view.dialog = Some(Dialog::Unsaved(command));
                } else {
                    self.leave(ctx, command);
                }
            }
            Command::Save => self.save(),
            Command::SaveAs => self.ask_where_to_save(None),
            Command::Export => self.ask_what_to_export(),
            Command::Undo => self.session.undo(),
            Command::Redo => self.session.redo(),
            Command::Mend(mend) => self.mend(mend),
            Command::Fit => self.view.fit(),
            Command::Measure => self
                .view
                .canvas
                .set_measuring(!self.view.canvas.measuring()),
            Command::Names => self.settings.show_names = !self.settings.show_names,
            Command::Sheets => self.view.show_sheets = !self.view.show_sheets,
            Command::Blank => self.turn_to(Face::Blank),
            Command::Section => self.turn_to(Face::Section),
            Command::Stage(stage) => {
                self.view.stage = stage;
                self.view.pane = Pane::Controls;
            }
            Command::Units => self.session.board.units = other(self.session.board.units),
            Command::Theme => self.change_theme(ctx),
            Command::Safety => self.view.dialog = Some(Dialog::Safety),
        }
    }

    /// Leaves the document at hand, whose changes are saved or given up.
    fn leave(&mut self, ctx: &egui::Context, command: Command) {
        match command {
            Command::New => {
                self.view.dialog = Some(Dialog::New(NewDialog::new(self.session.board.units)));
            }
            Command::Open => self.view.dialog = Some(Dialog::Open(PathDialog::default())),
            Command::Sample(at) => {
                if let Some(sample) = SAMPLES.get(at) {
                    self.begin(Session::new(sample.board()));
                }
            }
            Command::Recent(at) => {
                if let Some(path) = self.settings.recent.get(at).cloned() {
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

    fn begin(&mut self, session: Session) {
        self.session = session;
        self.view.selected = None;
        self.view.finding = None;
        self.view.fit();
        self.current.refresh(&self.session.board);
    }

    /// Carries out what a dialog asks for.
    fn answer(&mut self, ctx: &egui::Context, answer: Answer) {
        match answer {
            Answer::Cancel => self.view.dialog = None,
            Answer::Browse(ask) => {
                let started = self
                    .jobs
                    .start(ctx, &self.host, "the file dialog", move |host| {
                        let picked = host.pick(&ask);
                        Outcome::Picked(ask, picked)
                    });
                self.complain(started.err());
            }
            Answer::Open(path) => self.open(&path),
            Answer::SaveAs(path, then) => {
                if self.save_to(&path)
                    && let Some(then) = then
                {
                    self.leave(ctx, then);
                }
            }
            Answer::Export(source, kinds, folder, replace) => {
                self.settings.export_folder.clone_from(&folder);
                let started = self.jobs.start(ctx, &self.host, EXPORT, move |host| {
                    Outcome::Exported(write_files(host, &source, &kinds, &folder, replace))
                });
                self.complain(started.err());
            }
            Answer::New(wishes) => self.propose(&wishes),
            Answer::SaveThen(then) => self.save_then(ctx, then),
            Answer::Rescue(rescued) => {
                self.begin(Session::rescued(*rescued));
                self.rescue.settled();
                self.view.dialog = None;
            }
            Answer::GiveUp => {
                self.rescue.settled();
                self.rescue.forget(&*self.host);
                self.view.dialog = None;
            }
            Answer::Discard(then) => {
                self.view.dialog = None;
                self.leave(ctx, then);
            }
        }
    }

    /// Says in the open dialog, or below the board, what went wrong.
    fn complain(&mut self, fault: Option<String>) {
        let Some(fault) = fault else { return };
        match &mut self.view.dialog {
            Some(dialog) => dialog.fault(fault),
            None => self.view.warn(fault),
        }
    }

    fn open(&mut self, path: &Path) {
        match Session::open(&*self.host, path) {
            Ok(session) => {
                self.begin(session);
                self.settings.remember(path);
                self.view.dialog = None;
                self.view.tell(format!("opened {}", path.display()));
            }
            Err(error) => self.complain(Some(error.to_string())),
        }
    }

    fn save(&mut self) {
        match self.session.path().map(Path::to_path_buf) {
            Some(path) => {
                self.save_to(&path);
            }
            None => self.ask_where_to_save(None),
        }
    }

    fn ask_where_to_save(&mut self, then: Option<Command>) {
        let path = self.session.path().map_or_else(
            || {
                let name = format!("{}.json", stem(&self.session.board.title));
                self.folder().join(name)
            },
            Path::to_path_buf,
        );
        self.view.dialog = Some(Dialog::SaveAs(PathDialog::new(&path, then)));
    }

    fn ask_what_to_export(&mut self) {
        let last = &self.settings.export_folder;
        let folder = if last.as_os_str().is_empty() {
            self.folder().join("templates")
        } else {
            last.clone()
        };
        let Some((_, derived)) = self
            .current
            .good()
            .filter(|_| self.current.error().is_none())
        else {
            self.view
                .warn("this board cannot be laid out, so that there is nothing to export");
            return;
        };
        let source = Source::new(
            &self.session.board,
            derived,
            self.printers.correction(),
            self.host.today(),
        );
        let source = source.with_cut(self.view.selected);
        let dialog = ExportDialog::new(source, &derived.findings, &folder);
        self.view.dialog = Some(Dialog::Export(dialog));
    }

    /// The folder of the board's file, or the one for files that have none yet.
    fn folder(&self) -> PathBuf {
        let file = self.session.path().and_then(Path::parent);
        file.map_or_else(|| self.host.documents(), Path::to_path_buf)
    }

    /// Saves, and tells whether it went well.
    fn save_to(&mut self, path: &Path) -> bool {
        match self.session.save(&*self.host, path) {
            Ok(()) => {
                self.settings.remember(path);
                self.view.dialog = None;
                self.view.tell(format!("saved {}", path.display()));
                true
            }
            Err(error) => {
                self.complain(Some(error.to_string()));
                false
            }
        }
    }

    /// Saves before the document is left; one without a file is asked where to go.
    fn save_then(&mut self, ctx: &egui::Context, then: Command) {
        self.view.dialog = None;
        match self.session.path().map(Path::to_path_buf) {
            Some(path) => {
                if self.save_to(&path) {
                    self.leave(ctx, then);
                }
            }
            None => self.ask_where_to_save(Some(then)),
        }
    }

    fn propose(&mut self, wishes: &Wishes) {
        match propose(wishes) {
            Ok(board) => {
                self.begin(Session::new(board));
                self.view.dialog = None;
            }
            Err(error) => {
                let units = wishes.units.unwrap_or_default();
                self.complain(Some(error.shown_in(units)));
            }
        }
    }

    /// Takes what jobs have come to.
    fn finish_jobs(&mut self) {
        while let Some(outcome) = self.jobs.finished() {
            match outcome {
                Outcome::Picked(ask, picked) => self.take_pick(&ask, picked),
                Outcome::Exported(result) => self.take_export(result),
                Outcome::Broken(what) => {
                    self.view.warn(format!(
                        "{what} broke by a fault of the program; nothing of yours was changed"
                    ));
                }
            }
        }
    }

    /// Gives a picked path to the dialog that asked for it, if that is still open.
    fn take_pick(&mut self, ask: &Ask, picked: Picked) {
        let Some(dialog) = self.view.dialog.as_mut().filter(|dialog| dialog.asks(ask)) else {
            return;
        };
        match picked {
            Picked::Path(path) => dialog.take_path(&path),
            Picked::Nothing => {}
            Picked::NoDialog => {
                dialog.fault("no file dialog answered here; type the path instead".into());
            }
        }
    }

    /// Tells how an export went: in its dialog if that is still open, and below the board otherwise.
    fn take_export(&mut self, result: Result<Vec<PathBuf>, String>) {
        let open = matches!(self.view.dialog, Some(Dialog::Export(_)));
        match result {
            Ok(paths) => {
                if open {
                    self.view.dialog = None;
                }
                self.view.tell(exported(&paths));
            }
            Err(error) if open => self.complain(Some(error)),
            Err(error) => self.view.warn(error),
        }
    }

    fn mend(&mut self, mend: Mend) {
        match mend.applied(&self.session.board) {
            Ok(board) => {
                let changed = changes(&self.session.board, &board);
                let what = mend.label().to_lowercase();
                self.view.tell(if board == self.session.board {
                    format!("{what}: nothing to change, it is so already")
                } else if changed.is_empty() {
                    format!("done: {what}")
                } else {
                    format!("done: {what}: {}", changed.join(", "))
                });
                self.session.board = board;
            }
            Err(error) => self.view.warn(error.shown_in(self.session.board.units)),
        }
    }

    fn change_theme(&mut self, ctx: &egui::Context) {
        let dark = ctx.theme() == egui::Theme::Dark;
        self.settings.theme = if dark {
            ThemePreference::Light
        } else {
            ThemePreference::Dark
        };
        ctx.set_theme(self.settings.theme);
    }
}

impl eframe::App for App {
    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        self.finish_jobs();
        let asked_to_close = ctx.input(|input| input.viewport().close_requested());
        if asked_to_close && self.jobs.is_exporting() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
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
        self.rescue.forget(&*self.host);
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        eframe::set_value(storage, Settings::KEY, &self.settings);
    }
}

/// Whether a change is finished: no button is held, and no text is being typed.
fn is_settled(ctx: &egui::Context) -> bool {
    !ctx.input(|input| input.pointer.any_down()) && !ctx.text_edit_focused()
}

const fn other(units: Units) -> Units {
    match units {
        Units::Mm => Units::Inch,
        Units::Inch => Units::Mm,
    }
}

fn outlines(derived: &crate::derived::Derived) -> Vec<SheetOutline> {
    let tiles = derived
        .tiling
        .as_ref()
        .map(|tiling| tiling.tiles.as_slice())
        .unwrap_or_default();
    tiles
        .iter()
        .map(|tile| SheetOutline {
            window: tile.window,
            label: tile.label(),
        })
        .collect()
}

fn write_files(
    host: &dyn Host,
    source: &Source,
    kinds: &[Kind],
    folder: &Path,
    replace: bool,
) -> Result<Vec<PathBuf>, String> {
    let files: Result<Vec<_>, _> = kinds.iter().map(|&kind| source.files(kind)).collect();
    let files = files.map_err(|error| error.shown_in(source.board().units))?;
    host.write_all(folder, &files.concat(), replace)
        .map_err(|error| error.to_string())
}

fn exported(paths: &[PathBuf]) -> String {
    let folder = paths
        .first()
        .and_then(|path| path.parent())
        .map(|folder| folder.display().to_string())
        .unwrap_or_default();
    let names: Vec<_> = paths
        .iter()
        .filter_map(|path| path.file_name())
        .map(|name| name.to_string_lossy())
        .collect();
    let files = if names.len() == 1 { "file" } else { "files" };
    format!(
        "wrote {} {files} to {folder}: {}",
        names.len(),
        names.join(", ")
    )
}

#[cfg(test)]
mod tests {
    use egui::{Key, Modifiers};
    use egui_kittest::Harness;
    use egui_kittest::kittest::{NodeT as _, Queryable as _};

    use super::*;
    use crate::fake::Fake;

    fn window(fake: &Arc<Fake>) -> Harness<'static, App> {
        let host = fake.clone();
        let builder = Harness::builder()
            .with_size([1280.0, 820.0])
            .with_max_steps(12)
            .with_context_setup(theme::install);
        let mut window =
            builder.build_eframe(move |cc| App::new(&cc.egui_ctx, Settings::default(), host, None));
        window.run();
        window
    }

    fn keys(window: &mut Harness<'static, App>, modifiers: Modifiers, key: Key) {
        window.key_press_modifiers(modifiers, key);
        window.run();
    }

    fn press(window: &mut Harness<'static, App>, label: &str) {
        window.get_by_label(label).click();
        window.run();
    }

    #[test]
    fn a_save_before_leaving_goes_on_to_what_waited_for_it() {
        let fake = Arc::new(Fake::new());
        let mut window = window(&fake);
        window.state_mut().session.board.players = 5;
        keys(&mut window, Modifiers::COMMAND, Key::N);
        press(&mut window, "Save");
        press(&mut window, "Save");
        let path = "/home/maker/six-lobes-in-walnut.json";
        assert!(fake.file(path).is_some());
        assert!(matches!(window.state().view.dialog, Some(Dialog::New(_))));
    }

    #[test]
    fn leave_to_replace_a_file_is_for_that_file_alone() {
        let fake = Arc::new(Fake::new());
        fake.put("/one.json", b"1");
        fake.put("/two.json", b"2");
        let mut window = window(&fake);
        window.state_mut().view.dialog = Some(Dialog::SaveAs(PathDialog::new(
            Path::new("/one.json"),
            None,
        )));
        window.run();
        press(&mut window, "Replace the file that is there");
        window.get_by_label("Board file").focus();
        window.run();
        keys(&mut window, Modifiers::COMMAND, Key::A);
        window.event(egui::Event::Text("/two.json".into()));
        window.run();
        let save = window.get_by_label("Save");
        assert!(save.accesskit_node().is_disabled());
        keys(&mut window, Modifiers::NONE, Key::Enter);
        assert_eq!(fake.file("/two.json").unwrap(), b"2");
    }

    #[test]
    fn a_path_can_be_typed_as_soon_as_it_is_asked_for() {
        let mut window = window(&Arc::new(Fake::new()));
        keys(&mut window, Modifiers::COMMAND, Key::O);
        window.event(egui::Event::Text("/missing.json".into()));
        window.run();
        keys(&mut window, Modifiers::NONE, Key::Enter);
        window.get_by_label_contains("cannot read the file");
    }

    #[test]
    fn redo_has_the_keys_of_both_habits() {
        let mut window = window(&Arc::new(Fake::new()));
        let undo = |window: &mut Harness<'static, App>| keys(window, Modifiers::COMMAND, Key::Z);
        window.state_mut().session.board.players = 5;
        window.run();
        undo(&mut window);
        assert_eq!(window.state().session.board.players, 6);
        keys(&mut window, Modifiers::COMMAND, Key::Y);
        assert_eq!(window.state().session.board.players, 5);
        undo(&mut window);
        keys(&mut window, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
        assert_eq!(window.state().session.board.players, 5);
    }
}
