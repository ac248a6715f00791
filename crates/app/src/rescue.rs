//! Changes that no file holds yet are kept aside, so that a crash or a power cut does not lose them.
//!
//! Each window has a place of its own in the maker's settings folder, with a number: a file with the document, and one that is
//! locked as long as the window lives. A document whose lock is free was left behind, and is offered by the next window. It is
//! written beside the window, one writing at a time, and is removed once the changes are saved or discarded.

#[cfg(test)]
mod killed;

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::time::Duration;

use board::{Board, LARGEST_FILE, read_board, write_board};
use serde::{Deserialize, Serialize};

use crate::host::{Held, Host};
use crate::session::{Rescued, Session};

/// The time, and the number of times, that the closing window waits for a writing to end.
const WAIT: Duration = Duration::from_millis(10);
const MOST_WAITS: u32 = 100;
/// So many windows have a place; more keep nothing aside.
const MOST_PLACES: u32 = 64;

/// The copy kept aside of the open document.
pub struct Rescue {
    /// The place of this window; none where no place is free.
    place: Option<Place>,
    /// The board in the file, as far as this window has written it.
    kept: Option<Board>,
    /// Places of earlier runs that wait for the maker's answer.
    left: Vec<(Rescued, Place)>,
    writing: Arc<AtomicBool>,
    /// The fault of the last failed write; shown once.
    fault: Arc<Mutex<Option<String>>>,
    told: bool,
}

/// A place for one document.
struct Place {
    file: PathBuf,
    /// Held as long as the place is this window's.
    _held: Held,
}

impl Place {
    /// The place of a number, if no living window has it.
    fn of(host: &dyn Host, folder: &Path, number: u32) -> Option<Self> {
        let held = host.hold(&folder.join(format!("window-{number}.lock")))?;
        Some(Self {
            file: folder.join(format!("unsaved-{number}.json")),
            _held: held,
        })
    }
}

/// The content of the file.
#[derive(Serialize, Deserialize)]
struct Kept {
    /// A path that is not text is left out: the document matters more than its place.
    path: Option<String>,
    on_disk: Option<String>,
    when: String,
    /// A board file, as it would be saved.
    board: String,
}

/// The documents that earlier runs left behind.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Found {
    /// Those that can be opened.
    pub boards: Vec<Rescued>,
    /// Files that are none, renamed so that they are not in the way.
    pub broken: Vec<PathBuf>,
}

impl Rescue {
    /// Takes a place in the maker's settings folder.
    pub fn new(host: &dyn Host) -> Self {
        let fault = Arc::new(Mutex::new(None));
        let place = host.settings_folder().and_then(|folder| {
            if let Err(error) = host.make_folder(&folder) {
                keep_fault(&fault, &error.to_string());
                return None;
            }
            let free = |number| {
                let file = folder.join(format!("unsaved-{number}.json"));
                (!host.exists(&file)).then(|| Place::of(host, &folder, number))?
            };
            let place = (1..=MOST_PLACES).find_map(free);
            if place.is_none() {
                keep_fault(&fault, "no place is free in the folder of the settings");
            }
            place
        });
        Self {
            place,
            kept: None,
            left: Vec::new(),
            writing: Arc::new(AtomicBool::new(false)),
            fault,
            told: false,
        }
    }

    /// The documents that earlier runs left behind. Those of living windows are none of them, and a file that cannot be read is set
    /// aside under another name.
    pub fn found(&mut self, host: &dyn Host) -> Found {
        let mut found = Found::default();
        let Some(folder) = host.settings_folder() else {
            return found;
        };
        for number in 1..=MOST_PLACES {
            let file = folder.join(format!("unsaved-{number}.json"));
            if !host.exists(&file) {
                continue;
            }
            let Some(place) = Place::of(host, &folder, number) else {
                continue;
            };
            // One that cannot be read now may be read later.
            let Ok(bytes) = host.read(&file, 4 * LARGEST_FILE as u64) else {
                continue;
            };
            match parsed(&bytes) {
                Some(rescued) => {
                    found.boards.push(rescued.clone());
                    self.left.push((rescued, place));
                }
                None => found.broken.extend(host.set_aside(&file)),
            }
        }
        found
    }

    /// A rescued document is open: its place becomes this window's, so that no moment passes in which it is kept nowhere. The others
    /// wait for the next window.
    pub fn opened(&mut self, rescued: &Rescued) {
        let at = self.left.iter().position(|(left, _)| left == rescued);
        if let Some(at) = at {
            let (rescued, place) = self.left.swap_remove(at);
            self.place = Some(place);
            self.kept = Some(rescued.board);
        }
        self.left.clear();
    }

    /// Leaves the copies of earlier runs for the next window that opens.
    pub fn left_for_later(&mut self) {
        self.left.clear();
    }

    /// A rescued document is discarded.
    pub fn given_up(&mut self, host: &dyn Host, rescued: &Rescued) {
        self.left.retain(|(left, place)| {
            let goes = left == rescued;
            if goes {
                host.remove(&place.file);
            }
            !goes
        });
    }

    /// The fault of the last writing that failed, the first time that one does.
    pub fn fault(&mut self) -> Option<String> {
        if self.told {
            return None;
        }
        let fault = self.fault.lock().ok()?.take()?;
        self.told = true;
        Some(format!(
            "changes are kept in your own files only, save often: {fault}"
        ))
    }

    /// Writes the changes of a document aside, or takes them away once a file has them; returns whether that has to wait
    /// for the writing before.
    pub fn keep(&mut self, host: &Arc<dyn Host>, session: &Session) -> bool {
        let wanted = session.is_dirty().then_some(&session.board);
        if wanted == self.kept.as_ref() {
            return false;
        }
        let Some(file) = self.place.as_ref().map(|place| place.file.clone()) else {
            return false;
        };
        if self.writing.swap(true, Ordering::AcqRel) {
            return true;
        }
        self.kept = wanted.cloned();
        let text = |bytes: &[u8]| String::from_utf8(bytes.into()).ok();
        let board = wanted.cloned();
        let mut kept = wanted.map(|_| Kept {
            path: session.path().and_then(Path::to_str).map(Into::into),
            on_disk: session.on_disk().and_then(text),
            when: host.clock(),
            board: String::new(),
        });
        let (theirs, writing, fault) = (
            host.clone(),
            Writing(self.writing.clone()),
            self.fault.clone(),
        );
        let work = move || {
            // It ends with this work, also where that breaks.
            let _writing = writing;
            if let (Some(kept), Some(board)) = (&mut kept, &board) {
                kept.board = write_board(board);
            }
            if let Err(error) = write(&*theirs, &file, kept.as_ref()) {
                keep_fault(&fault, &error);
            }
        };
        host.spawn("rescue", Box::new(work));
        false
    }

    /// Removes the unsaved copy: the window closes because the maker chose to close it.
    pub fn forget(&self, host: &dyn Host) {
        // A writing that is under way would come back after it.
        for _ in 0..MOST_WAITS {
            if !self.writing.load(Ordering::Acquire) {
                break;
            }
            std::thread::sleep(WAIT);
        }
        if let Some(place) = &self.place {
            host.remove(&place.file);
        }
    }
}

/// A writing that is under way.
struct Writing(Arc<AtomicBool>);

impl Drop for Writing {
    fn drop(&mut self) {
        self.0.store(false, Ordering::Release);
    }
}

/// Keeps a fault, unless one is kept already.
fn keep_fault(fault: &Mutex<Option<String>>, what: &str) {
    if let Ok(mut fault) = fault.lock() {
        fault.get_or_insert_with(|| what.to_owned());
    }
}

/// The document of a file; none where it is broken.
fn parsed(bytes: &[u8]) -> Option<Rescued> {
    let kept: Kept = serde_json::from_slice(bytes).ok()?;
    Some(Rescued {
        board: read_board(kept.board.as_bytes()).ok()?,
        path: kept.path.map(Into::into),
        on_disk: kept.on_disk.map(String::into_bytes),
        when: kept.when,
    })
}

/// Writes the copy; a safety net below the maker's own saving.
fn write(host: &dyn Host, file: &Path, kept: Option<&Kept>) -> Result<(), String> {
    let Some(kept) = kept else {
        host.remove(file);
        return Ok(());
    };
    let bytes = serde_json::to_vec(kept).map_err(|error| error.to_string())?;
    host.write_private(file, &bytes)
        .map_err(|error| error.to_string())
}
