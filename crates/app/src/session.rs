//! The document at hand: its steps, and the file it is kept in.

use std::path::{Path, PathBuf};

use board::field::step_name;
use board::{Board, FileError, LARGEST_FILE, read_board, write_board};

use crate::files::FilesError;
use crate::history::History;
use crate::host::Host;

/// The document at hand.
pub struct Session {
    /// The maker's decisions; panels change them in place.
    pub board: Board,
    history: History<Board>,
    path: Option<PathBuf>,
    /// The board in the file at hand, or the one begun with; none of a board that was rescued.
    saved: Option<Board>,
}

/// Why a board could not be opened.
#[derive(Debug, thiserror::Error)]
pub enum OpenError {
    /// The file cannot be read.
    #[error(transparent)]
    Files(#[from] FilesError),
    /// It is no board file, or a broken or newer one.
    #[error("{reason}: {}", path.display())]
    Board {
        /// The fault.
        reason: FileError,
        /// The file.
        path: PathBuf,
    },
}

impl Session {
    /// A document that is in no file yet.
    pub fn new(board: Board) -> Self {
        Self {
            history: History::new(board.clone()),
            saved: Some(board.clone()),
            board,
            path: None,
        }
    }

    /// The document of a file.
    ///
    /// # Errors
    /// [`OpenError`]; the file is left alone.
    pub fn open(host: &dyn Host, path: &Path) -> Result<Self, OpenError> {
        let bytes = host.read(path, LARGEST_FILE as u64)?;
        let board = read_board(&bytes).map_err(|reason| OpenError::Board {
            reason,
            path: path.into(),
        })?;
        Ok(Self {
            path: Some(path.into()),
            ..Self::new(board)
        })
    }

    /// A document that an earlier run left unsaved.
    pub fn rescued(board: Board, path: Option<PathBuf>) -> Self {
        Self {
            path,
            saved: None,
            ..Self::new(board)
        }
    }

    /// Writes the document to a file, which it is kept in from then on.
    ///
    /// # Errors
    /// [`FilesError`]; the file is then what it was before.
    pub fn save(&mut self, host: &dyn Host, path: &Path) -> Result<(), FilesError> {
        host.write(path, write_board(&self.board).as_bytes())?;
        self.saved = Some(self.board.clone());
        self.path = Some(path.into());
        Ok(())
    }

    /// The file the document is kept in.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// The board's title, its file's name, and whether there are changes that it does not hold.
    pub fn caption(&self) -> String {
        let file = self.path.as_deref().and_then(Path::file_name);
        let file = file.map_or_else(|| "not saved yet".into(), |name| name.to_string_lossy());
        let unsaved = if self.is_dirty() { ", changed" } else { "" };
        format!("{}  –  {file}{unsaved}", self.board.title)
    }

    /// Whether there are changes that no file holds.
    pub fn is_dirty(&self) -> bool {
        self.saved.as_ref() != Some(&self.board)
    }

    /// Makes what the document is now an undo step, if it has changed.
    pub fn commit(&mut self) {
        self.history.commit(&self.board);
    }

    /// Goes one step back; a change not yet committed is a step of its own.
    pub fn undo(&mut self) {
        self.commit();
        if let Some(board) = self.history.undo() {
            self.board = board.clone();
        }
    }

    /// Goes one step forward again.
    pub fn redo(&mut self) {
        if let Some(board) = self.history.redo() {
            self.board = board.clone();
        }
    }

    /// Whether there is a step to undo.
    pub fn can_undo(&self) -> bool {
        self.history.before().is_some()
    }

    /// Whether there is a step to redo.
    pub fn can_redo(&self) -> bool {
        self.history.after().is_some()
    }

    /// The step that undo takes back, in words; a change not yet committed comes first.
    pub fn undo_name(&self) -> Option<String> {
        let now = self.history.present();
        step_name(now, &self.board).or_else(|| step_name(self.history.before()?, now))
    }

    /// The step that redo brings back, in words.
    pub fn redo_name(&self) -> Option<String> {
        step_name(self.history.present(), self.history.after()?)
    }
}
