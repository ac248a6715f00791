//! The window: its state, and what happens in a frame.

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use egui::{Ui, ViewportCommand};
use workshop::Workpiece;

use crate::blank_view::{BlankSeen, blank_view_ui};
use crate::canvas::{BoardView, SheetOutline, board_ui, readout};
use crate::command::Command;
use crate::current::Current;
use crate::dialogs::{Dialog, dialog_ui};
use crate::host::{Desktop, Host};
use crate::jobs::Jobs;
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

mod carry_out;
pub mod headless;
mod open;
mod panes;

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

    /// Asks for what the document now needs and what is worked out beside the window.
    fn study(&mut self, ctx: &egui::Context) {
        if let Some(workpiece) = self.current.good() {
            self.studies.ask(ctx, &self.host, workpiece);
        }
    }

    /// The board, its blank, or its section.
    fn drawing(&mut self, ui: &mut Ui) {
        match self.view.face {
            Face::Board => self.canvas(ui),
            Face::Blank => self.blank(ui),
            Face::Section => self.section(ui),
        }
    }

    fn blank(&mut self, ui: &mut Ui) {
        self.view.readout.clear();
        let board = &mut self.session.board;
        if let Some(workpiece) = self.current.good() {
            let seen = BlankSeen {
                workpiece,
                plan: self.current.plan(),
                is_old: self.current.error().is_some(),
            };
            self.view.readout = blank_view_ui(ui, board, &seen, &mut self.view.blank);
        }
        // A drag changes the document: its consequences are shown in the next frame.
        self.current.refresh(&self.session.board);
    }

    fn section(&mut self, ui: &mut Ui) {
        self.view.readout =
            "Drag to pan, turn the wheel to zoom, double-click to begin at the top".into();
        if let Some(workpiece) = self.current.good() {
            let view = &mut self.view;
            section_ui(ui, workpiece, &mut view.selected, &mut view.section);
        }
    }

    /// Shows a face, or the board where that is shown already.
    fn turn_to(&mut self, face: Face) {
        let is_shown = self.view.face == face;
        self.view.face = if is_shown { Face::Board } else { face };
    }

    fn canvas(&mut self, ui: &mut Ui) {
        let Some(workpiece) = self.current.good() else {
            ui.centered_and_justified(|ui| {
                ui.label("This board cannot be laid out; the findings say why.")
            });
            return;
        };
        let sheets = if self.view.show_sheets {
            outlines(workpiece)
        } else {
            Vec::new()
        };
        let lit = self.view.lit(workpiece.findings());
        let shown = BoardView {
            board: workpiece.board(),
            layout: workpiece.layout(),
            plan: self.current.plan(),
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

fn outlines(workpiece: &Workpiece) -> Vec<SheetOutline> {
    let tiles = workpiece
        .tiling()
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

#[cfg(test)]
mod tests {
    use egui::{Key, Modifiers};
    use egui_kittest::Harness;
    use egui_kittest::kittest::{NodeT as _, Queryable as _};

    use super::*;
    use crate::dialogs::PathDialog;
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
