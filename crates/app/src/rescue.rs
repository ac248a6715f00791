//! Changes that no file holds yet are kept aside, so that a crash or a power cut does not lose them.
//!
//! One file in the maker's settings folder; it is written beside the window, one writing at a time, and is gone once
//! the changes are saved or given up. Two windows share it: the one that changed last is kept.

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use board::{Board, LARGEST_FILE, read_board, write_board};
use serde::{Deserialize, Serialize};

use crate::host::Host;
use crate::session::Session;

/// The time, and the number of times, that the closing window waits for a writing to end.
const WAIT: Duration = Duration::from_millis(10);
const MOST_WAITS: u32 = 100;
/// The name of the file.
const NAME: &str = "unsaved.json";

/// The copy kept aside of the document at hand.
pub struct Rescue {
    file: Option<PathBuf>,
    /// The board in the file, as far as this window has written it.
    kept: Option<Board>,
    /// Whether a file of an earlier run waits to be looked at; it is not touched until then.
    waits: bool,
    writing: Arc<AtomicBool>,
}

/// A document that was kept aside.
#[derive(Debug, Clone, PartialEq)]
pub struct Rescued {
    /// The document.
    pub board: Board,
    /// The file it belongs to, if it was in one.
    pub path: Option<PathBuf>,
}

/// The content of the file.
#[derive(Serialize, Deserialize)]
struct Kept {
    path: Option<PathBuf>,
    /// A board file, as it would be saved.
    board: String,
}

impl Rescue {
    /// Keeps aside in the maker's settings folder; nowhere where there is none.
    pub fn new(host: &dyn Host) -> Self {
        Self {
            file: host.settings_folder().map(|folder| folder.join(NAME)),
            kept: None,
            waits: false,
            writing: Arc::new(AtomicBool::new(false)),
        }
    }

    /// The document that an earlier run left behind; nothing where it is broken, as nobody could mend it.
    pub fn found(&mut self, host: &dyn Host) -> Option<Rescued> {
        let bytes = host
            .read(self.file.as_deref()?, 2 * LARGEST_FILE as u64)
            .ok()?;
        let kept: Kept = serde_json::from_slice(&bytes).ok()?;
        let board = read_board(kept.board.as_bytes()).ok()?;
        self.waits = true;
        Some(Rescued {
            board,
            path: kept.path,
        })
    }

    /// The rescued document is open, or given up.
    pub const fn settled(&mut self) {
        self.waits = false;
    }

    /// Writes the changes of a document aside, or takes them away once a file has them; tells whether that has to wait
    /// for the writing before.
    pub fn keep(&mut self, host: &Arc<dyn Host>, session: &Session) -> bool {
        let wanted = session.is_dirty().then_some(&session.board);
        if self.waits || wanted == self.kept.as_ref() {
            return false;
        }
        let Some(file) = self.file.clone() else {
            return false;
        };
        if self.writing.swap(true, Ordering::AcqRel) {
            return true;
        }
        self.kept = wanted.cloned();
        let kept = wanted.map(|board| Kept {
            path: session.path().map(Into::into),
            board: write_board(board),
        });
        let (theirs, writing) = (host.clone(), self.writing.clone());
        let work = move || {
            write(&*theirs, &file, kept.as_ref());
            writing.store(false, Ordering::Release);
        };
        host.spawn("rescue", Box::new(work));
        false
    }

    /// Takes away what is kept: the window closes as its maker wants it to.
    pub fn forget(&self, host: &dyn Host) {
        // A writing that is under way would come back after it.
        for _ in 0..MOST_WAITS {
            if !self.writing.load(Ordering::Acquire) {
                break;
            }
            std::thread::sleep(WAIT);
        }
        if let Some(file) = self.file.as_deref().filter(|_| !self.waits) {
            host.remove(file);
        }
    }
}

/// A net below the maker's own saving: where it cannot be written, the work goes on.
fn write(host: &dyn Host, file: &std::path::Path, kept: Option<&Kept>) {
    let Some(kept) = kept else {
        host.remove(file);
        return;
    };
    let folder = file.parent().map(|folder| host.make_folder(folder));
    if let (Some(Ok(())), Ok(bytes)) = (folder, serde_json::to_vec(kept)) {
        // Told nowhere: the window says what it did with the maker's own files.
        let _ = host.write(file, &bytes);
    }
}
