//! The document and its file: begun, opened, proposed, saved.

use std::path::{Path, PathBuf};

use workshop::{Wishes, propose};

use super::App;
use crate::command::Command;
use crate::dialogs::{Dialog, PathDialog};
use crate::exports::stem;
use crate::session::Session;

impl App {
    pub(super) fn begin(&mut self, session: Session) {
        self.session = session;
        self.view.selected = None;
        self.view.finding = None;
        self.view.fit();
        self.current.refresh(&self.session.board);
    }

    pub(super) fn open(&mut self, path: &Path) {
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

    pub(super) fn propose(&mut self, wishes: &Wishes) {
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

    pub(super) fn save(&mut self) {
        match self.session.path().map(Path::to_path_buf) {
            Some(path) => {
                self.save_to(&path);
            }
            None => self.ask_where_to_save(None),
        }
    }

    pub(super) fn ask_where_to_save(&mut self, then: Option<Command>) {
        let path = self.session.path().map_or_else(
            || {
                let name = format!("{}.json", stem(&self.session.board.title));
                self.folder().join(name)
            },
            Path::to_path_buf,
        );
        self.view.dialog = Some(Dialog::SaveAs(PathDialog::new(&path, then)));
    }

    /// Saves, and tells whether it went well.
    pub(super) fn save_to(&mut self, path: &Path) -> bool {
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
    pub(super) fn save_then(&mut self, ctx: &egui::Context, then: Command) {
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

    /// The folder of the board's file, or the one for files that have none yet.
    pub(super) fn folder(&self) -> PathBuf {
        let file = self.session.path().and_then(Path::parent);
        file.map_or_else(|| self.host.documents(), Path::to_path_buf)
    }
}
