//! The open document: its undo steps, and its file.

use std::path::{Path, PathBuf};

use board::field::step_name;
use board::{Board, FileError, LARGEST_FILE, open_board, read_board, write_board};

use crate::files::FilesError;
use crate::history::History;
use crate::host::Host;

/// The open document.
pub struct Session {
    /// The maker's decisions; panels change them in place.
    pub board: Board,
    history: History<Board>,
    path: Option<PathBuf>,
    /// The board as saved in its file, or as it was begun; `None` for a board rescued from an earlier run.
    saved: Option<Board>,
    /// The content of the file when it was last read or written.
    on_disk: Option<Vec<u8>>,
    /// Remarks for the maker on how the file was read.
    remarks: Vec<String>,
}

/// Why a board could not be saved.
#[derive(Debug, thiserror::Error)]
pub enum SaveError {
    /// The file cannot be written.
    #[error(transparent)]
    Files(#[from] FilesError),
    /// Another program has changed it since it was last read or written.
    #[error("the file has changed on disk since it was opened here: {}", .0.display())]
    Changed(PathBuf),
}

/// A document that was kept aside.
#[derive(Debug, Clone, PartialEq)]
pub struct Rescued {
    /// The document.
    pub board: Board,
    /// The file it belongs to, if it was in one.
    pub path: Option<PathBuf>,
    /// The content of that file when it was opened or saved last.
    pub on_disk: Option<Vec<u8>>,
    /// When it was kept aside, in words.
    pub when: String,
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
            on_disk: None,
            remarks: Vec::new(),
        }
    }

    /// Takes the remarks on how the file was read, so that each is shown once; `None` where there are none.
    pub fn take_remarks(&mut self) -> Option<String> {
        let remarks = core::mem::take(&mut self.remarks);
        (!remarks.is_empty()).then(|| remarks.join(" "))
    }

    /// The document of a file.
    ///
    /// # Errors
    /// [`OpenError`]; the file is left alone.
    pub fn open(host: &dyn Host, path: &Path) -> Result<Self, OpenError> {
        let path = host.absolute(path);
        let bytes = host.read(&path, LARGEST_FILE as u64)?;
        let opened = open_board(&bytes).map_err(|reason| OpenError::Board {
            reason,
            path: path.clone(),
        })?;
        Ok(Self {
            path: Some(path),
            on_disk: Some(bytes),
            remarks: opened.remarks,
            ..Self::new(opened.board)
        })
    }

    /// A document that an earlier run left unsaved.
    pub fn rescued(rescued: Rescued) -> Self {
        Self {
            path: rescued.path,
            on_disk: rescued.on_disk,
            saved: None,
            ..Self::new(rescued.board)
        }
    }

    /// The board as it was before its file was last saved; `None` for a board that was never saved.
    ///
    /// # Errors
    /// [`OpenError`] where there is no such version, or it cannot be read.
    pub fn before_last_save(&self, host: &dyn Host) -> Option<Result<Board, OpenError>> {
        let path = version_before(self.path.as_deref()?);
        Some(Self::open(host, &path).map(|session| session.board))
    }

    /// Writes the document to a file, which it is kept in from then on. The board that is replaced is kept beside it, under
    /// the same name with a tilde.
    ///
    /// # Errors
    /// [`SaveError`]; the file is then unchanged. A change by another program is no error if the file may be replaced.
    pub fn save(&mut self, host: &dyn Host, path: &Path, replace: bool) -> Result<(), SaveError> {
        let path = host.absolute(path);
        let is_same_file = self.path.as_ref() == Some(&path);
        let there = match host.read(&path, LARGEST_FILE as u64) {
            Ok(bytes) => Some(bytes),
            // It exists and cannot be read: saving might overwrite anything.
            Err(_) if is_same_file && !replace && host.exists(&path) => {
                return Err(SaveError::Changed(path));
            }
            Err(_) => None,
        };
        if is_same_file && !replace && there.is_some() && there != self.on_disk {
            return Err(SaveError::Changed(path));
        }
        let text = write_board(&self.board).into_bytes();
        host.write(&path, &text)?;
        let is_other = |bytes: &&Vec<u8>| **bytes != text && read_board(bytes).is_ok();
        if let Some(bytes) = there.as_ref().filter(is_other) {
            // A net below the net: where it cannot be written, the board is saved all the same. It is written after the board, so
            // that a save that fails leaves the older version too.
            let _ = host.write_private(&version_before(&path), bytes);
        }
        self.saved = Some(self.board.clone());
        self.path = Some(path);
        self.on_disk = Some(text);
        Ok(())
    }

    /// The content of the file when it was last read or written; none without a file.
    pub fn on_disk(&self) -> Option<&[u8]> {
        self.on_disk.as_deref()
    }

    /// The file the document is kept in.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// The board's title, its file's name, and whether there are changes that it does not hold.
    pub fn caption(&self) -> String {
        let unsaved = if self.is_dirty() { ", changed" } else { "" };
        format!("{}{unsaved}", self.name())
    }

    /// The board's title and its file's name.
    pub fn name(&self) -> String {
        let file = self.path.as_deref().and_then(Path::file_name);
        let file = file.map_or_else(|| "not saved yet".into(), |name| name.to_string_lossy());
        format!("{} – {file}", self.board.title)
    }

    /// Whether there are changes that no file holds.
    pub fn is_dirty(&self) -> bool {
        self.saved.as_ref() != Some(&self.board)
    }

    /// Makes the present document an undo step, if it has changed.
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

/// The name under which the version before the last save is kept: the same with a tilde.
fn version_before(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_os_string();
    name.push("~");
    name.into()
}
