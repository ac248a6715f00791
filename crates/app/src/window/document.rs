//! The document and its file: begun, opened, proposed, saved.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use board::{Board, Units};
use workshop::{Workpiece, stops};

use super::App;
use crate::command::Command;
use crate::dialogs::{Asked, Dialog, PathDialog, Proposed, propose_at_once};
use crate::exports::stem;
use crate::session::{SaveError, Session};
use crate::shop::{left_out_words, units_of};
use crate::stage::Stage;

/// A board as it was created; its sizes follow its unit until anything else is changed.
pub(crate) struct Begun {
    /// The order that the board was proposed for; `None` for a sample board.
    pub asked: Option<Asked>,
    /// The board.
    pub board: Board,
}

/// Whether a finding stops a board.
fn is_stopped(board: &Board) -> bool {
    Workpiece::of(board).is_ok_and(|workpiece| stops(workpiece.findings()))
}

impl App {
    pub(super) fn begin(&mut self, session: Session) {
        self.session = session;
        self.begun = None;
        self.known.clone_from(&self.session.board);
        self.view.selected = None;
        self.view.finding = None;
        self.view.dated = None;
        self.view.fit();
        self.current.refresh(&self.session.board);
    }

    pub(super) fn open(&mut self, path: &Path) {
        match Session::open(&*self.host, path) {
            Ok(mut session) => {
                let remarks = session.take_remarks();
                let path = session.path().unwrap_or(path).to_path_buf();
                if let Some(folder) = path.parent() {
                    self.host.sweep(folder);
                }
                self.begin(session);
                self.settings.remember(&path);
                self.view.dialog = None;
                match remarks {
                    Some(remarks) => self.view.warn(remarks),
                    None => self.view.notify(format!("opened {}", path.display())),
                }
            }
            Err(error) => self.complain(Some(error.to_string())),
        }
    }

    /// Goes back to the content of the file before its last save; undo brings back the present document.
    pub(super) fn take_version_before(&mut self) {
        let Some(before) = self.session.before_last_save(&*self.host) else {
            self.view.warn("this board was never saved");
            return;
        };
        match before {
            Ok(board) => {
                self.session.board = board;
                self.view
                    .notify("this is the board before its last save; save to keep it");
            }
            Err(error) => self.view.warn(format!("No earlier version yet: {error}")),
        }
    }

    /// The unit that a new board begins in: the last one that boards were shown in.
    pub(super) fn usual_units(&self) -> Units {
        units_of(&self.shop.shop).unwrap_or(self.session.board.units)
    }

    /// Creates the board of an order, or uses the one that was worked out already.
    pub(super) fn propose(&mut self, asked: Asked, proposed: Option<Arc<Proposed>>) {
        let made = proposed.map_or_else(|| propose_at_once(&asked, &self.shop.shop), Ok);
        match made {
            Ok(proposed) => {
                let board = proposed.workpiece.board().clone();
                self.begin(Session::new(board.clone()));
                self.begun = Some(Begun {
                    asked: Some(asked),
                    board,
                });
                self.view.dialog = None;
                self.go_to_stage(Stage::LayOut);
                if let Some(words) = left_out_words(&proposed.left_out) {
                    self.view.warn(words);
                }
            }
            Err(error) => {
                let units = asked.order.wishes.units.unwrap_or_default();
                self.complain(Some(units.say(&error)));
            }
        }
    }

    /// Replaces the sizes by those of the other system if only the unit of a new board was changed.
    pub(super) fn follow_units(&mut self) {
        let units = self.session.board.units;
        let Some(begun) = self.begun.take() else {
            return;
        };
        if begun.board.units.is_inch() == units.is_inch() || !self.is_untouched(&begun.board) {
            self.begun = Some(begun);
            return;
        }
        let board = match &begun.asked {
            Some(asked) => {
                let mut asked = asked.clone();
                asked.order.wishes.units = Some(units);
                let made = propose_at_once(&asked, &self.shop.shop).ok();
                made.map(|proposed| proposed.workpiece.board().clone())
            }
            None => Some(begun.board.in_defaults_of(units)),
        };
        let limits = self.session.board.limits;
        let lenient = board.clone().map(|board| Board { limits, ..board });
        let sound = [board, lenient].into_iter().flatten();
        let Some(board) = sound.into_iter().find(|board| !is_stopped(board)) else {
            return;
        };
        self.shop.refresh(&*self.host);
        self.shop.shop.learn(&begun.board, &self.session.board);
        self.session.board = board.clone();
        self.known.clone_from(&board);
        self.begun = Some(Begun { board, ..begun });
        self.current.refresh(&self.session.board);
    }

    /// Whether the document has no file and is unchanged since it was created, apart from its unit.
    fn is_untouched(&self, begun: &Board) -> bool {
        let is = Board {
            units: begun.units,
            ..self.session.board.clone()
        };
        self.session.path().is_none() && is == *begun
    }

    /// Keeps the maker's changes to the shop.
    pub(super) fn learn_shop(&mut self) {
        if self.known != self.session.board {
            self.shop.refresh(&*self.host);
            self.shop.shop.learn(&self.known, &self.session.board);
            self.known.clone_from(&self.session.board);
        }
        if let Some(fault) = self.shop.keep(&*self.host) {
            self.view.warn(fault);
        }
    }

    pub(super) fn save(&mut self) {
        match self.session.path().map(Path::to_path_buf) {
            Some(path) => {
                self.save_to(&path, None);
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

    /// Saves, and returns whether it went well; asks first where another program has changed the file.
    pub(super) fn save_to(&mut self, path: &Path, then: Option<Command>) -> bool {
        let saved = self.session.save(&*self.host, path, false);
        if let Err(SaveError::Changed(path)) = saved {
            self.view.dialog = Some(Dialog::Changed(path, then));
            return false;
        }
        self.report_saved(path, saved)
    }

    /// Saves over the open file whatever its content now, and returns whether it went well.
    pub(super) fn save_over(&mut self, path: &Path) -> bool {
        let saved = self.session.save(&*self.host, path, true);
        self.report_saved(path, saved)
    }

    fn report_saved(&mut self, path: &Path, saved: Result<(), SaveError>) -> bool {
        match saved {
            Ok(()) => {
                let path = self.session.path().unwrap_or(path).to_path_buf();
                self.settings.remember(&path);
                self.view.dialog = None;
                self.view.notify(format!("saved {}", path.display()));
                true
            }
            Err(error) => {
                self.complain(Some(error.to_string()));
                false
            }
        }
    }

    /// Saves before the document is left; without a file it asks for one.
    pub(super) fn save_then(&mut self, ctx: &egui::Context, then: Command) {
        self.view.dialog = None;
        match self.session.path().map(Path::to_path_buf) {
            Some(path) => {
                if self.save_to(&path, Some(then)) {
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
