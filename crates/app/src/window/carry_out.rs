//! Carrying out requests: commands, answers of dialogs, results of jobs.

use std::path::{Path, PathBuf};

use board::{Units, field};
use egui::{ThemePreference, ViewportCommand};
use workshop::{Mend, Wishes, propose};

use super::App;
use crate::command::Command;
use crate::dialogs::{Answer, Dialog, ExportDialog, NewDialog, PathDialog};
use crate::exports::{Kind, Source, stem};
use crate::host::{Ask, Host, Picked};
use crate::jobs::{EXPORT, Outcome};
use crate::samples::SAMPLES;
use crate::session::Session;
use crate::view::{Face, Pane};

impl App {
    /// Carries a command out.
    pub(super) fn apply(&mut self, ctx: &egui::Context, command: Command) {
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

    pub(super) fn begin(&mut self, session: Session) {
        self.session = session;
        self.view.selected = None;
        self.view.finding = None;
        self.view.fit();
        self.current.refresh(&self.session.board);
    }

    /// Carries out what a dialog asks for.
    pub(super) fn answer(&mut self, ctx: &egui::Context, answer: Answer) {
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
                self.begin(Session::rescued(rescued.board, rescued.path));
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
    pub(super) fn complain(&mut self, fault: Option<String>) {
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
        let Some(workpiece) = self
            .current
            .good()
            .filter(|_| self.current.error().is_none())
        else {
            self.view
                .warn("this board cannot be laid out, so that there is nothing to export");
            return;
        };
        let source = Source::new(workpiece.clone(), self.host.today());
        let source = source.with_cut(self.view.selected);
        let dialog = ExportDialog::new(source, workpiece.findings(), &folder);
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
                self.complain(Some(units.say(&error)));
            }
        }
    }

    /// Takes what jobs have come to.
    pub(super) fn finish_jobs(&mut self) {
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
                let changed = field::changes(&self.session.board, &board);
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
            Err(error) => self.view.warn(self.session.board.units.say(&error)),
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

const fn other(units: Units) -> Units {
    match units {
        Units::Mm => Units::Inch,
        Units::Inch => Units::Mm,
    }
}

fn write_files(
    host: &dyn Host,
    source: &Source,
    kinds: &[Kind],
    folder: &Path,
    replace: bool,
) -> Result<Vec<PathBuf>, String> {
    let files: Result<Vec<_>, _> = kinds.iter().map(|&kind| source.files(kind)).collect();
    let files = files.map_err(|error| source.board().units.say(&error))?;
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
