//! The world outside the window: files, dialogs, the clock, threads.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use jiff::Timestamp;
use kurbo::Size;
use workshop::Today;

use crate::exports::Moment;
use crate::files::{self, FilesError, Printing};

/// The world outside the window. Tests have one of their own.
pub trait Host: Send + Sync {
    /// Reads a file of at most so many bytes.
    ///
    /// # Errors
    /// [`FilesError`] where it cannot be read.
    fn read(&self, path: &Path, most: u64) -> Result<Vec<u8>, FilesError>;
    /// Writes a file whole.
    ///
    /// # Errors
    /// [`FilesError`]; the file is then unchanged.
    fn write(&self, path: &Path, bytes: &[u8]) -> Result<(), FilesError>;
    /// Writes a file whole; one that is new can be read by its owner alone.
    ///
    /// # Errors
    /// [`FilesError`]; the file is then unchanged.
    fn write_private(&self, path: &Path, bytes: &[u8]) -> Result<(), FilesError>;
    /// Writes files into a folder; existing ones stop it unless they may be replaced.
    ///
    /// # Errors
    /// [`FilesError`] for the first that stops it.
    fn write_all(
        &self,
        folder: &Path,
        files: &[(String, Vec<u8>)],
        replace: bool,
    ) -> Result<Vec<PathBuf>, FilesError>;
    /// Takes a file away, if it is there and can be taken away.
    fn remove(&self, path: &Path);
    /// Renames a file that cannot be read, in its folder, and returns the new path; `None` where that failed.
    fn set_aside(&self, path: &Path) -> Option<PathBuf>;
    /// Locks a file, which is created if missing, until the returned lock is dropped or the program ends, however it does; none
    /// where another program has it locked, or it cannot be locked.
    fn hold(&self, path: &Path) -> Option<Held>;
    /// Takes away from a folder the unfinished files of programs that were ended while they wrote.
    fn sweep(&self, folder: &Path);
    /// A path from the root on, as seen from the folder the program was started in.
    fn absolute(&self, path: &Path) -> PathBuf;
    /// Whether there is a file.
    fn exists(&self, path: &Path) -> bool;
    /// Asks for a path with the system's dialog; blocks until it is answered.
    fn pick(&self, ask: &Ask) -> Picked;
    /// Opens a file or a folder with the program that the system has for it.
    ///
    /// # Errors
    /// A sentence, where the system has none.
    fn show(&self, path: &Path) -> Result<(), String>;
    /// Prints a file at true size on the system's usual printer, on paper of a size in mm, or opens it where it can be printed from.
    ///
    /// # Errors
    /// A sentence, if it could not be printed or opened.
    fn print(&self, path: &Path, page: Size) -> Result<Printing, String>;
    /// The folder for files that have none yet.
    fn documents(&self) -> PathBuf;
    /// The folder for what belongs to the maker rather than to a board; none where the system has none. It may not be
    /// there yet.
    fn settings_folder(&self) -> Option<PathBuf>;
    /// Makes a folder, and those above it, where they are not there.
    ///
    /// # Errors
    /// [`FilesError::Folder`] where it cannot be made.
    fn make_folder(&self, folder: &Path) -> Result<(), FilesError>;
    /// The date.
    fn today(&self) -> Moment;
    /// The date and the time of day, to be read.
    fn clock(&self) -> String;
    /// The name of the computer's time zone in the IANA database; empty where it has none.
    fn zone(&self) -> String;
    /// The instant.
    fn now(&self) -> Timestamp;
    /// Runs work beside the window.
    fn spawn(&self, name: &str, work: Box<dyn FnOnce() + Send>);
}

/// A locked file; it is free again when this is dropped.
pub struct Held {
    _lock: Box<dyn Send + Sync>,
}

impl Held {
    /// The lock on the file.
    pub fn by(lock: impl Send + Sync + 'static) -> Self {
        Self {
            _lock: Box::new(lock),
        }
    }
}

/// The request of a dialog.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Ask {
    /// A board file to open.
    Open,
    /// A place to save a board file, with a name to begin with.
    Save(String),
    /// A folder to export to.
    Folder,
}

/// The answer of a dialog.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Picked {
    /// This path.
    Path(PathBuf),
    /// Nothing: it was closed.
    Nothing,
    /// There is no dialog service here.
    NoDialog,
}

/// The real world.
pub struct Desktop;

/// A dialog that is gone so fast was never there: no service answered.
const NO_DIALOG: Duration = Duration::from_millis(150);

impl Host for Desktop {
    fn read(&self, path: &Path, most: u64) -> Result<Vec<u8>, FilesError> {
        files::read_limited(path, most)
    }

    fn write(&self, path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
        files::write_atomic(path, bytes)
    }

    fn write_private(&self, path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
        files::write_private(path, bytes)
    }

    fn write_all(
        &self,
        folder: &Path,
        files: &[(String, Vec<u8>)],
        replace: bool,
    ) -> Result<Vec<PathBuf>, FilesError> {
        files::write_all(folder, files, replace)
    }

    fn remove(&self, path: &Path) {
        let _ = std::fs::remove_file(path);
    }

    fn set_aside(&self, path: &Path) -> Option<PathBuf> {
        files::set_aside(path)
    }

    fn hold(&self, path: &Path) -> Option<Held> {
        files::hold(path).map(Held::by)
    }

    fn sweep(&self, folder: &Path) {
        files::sweep(folder);
    }

    fn absolute(&self, path: &Path) -> PathBuf {
        std::path::absolute(path).unwrap_or_else(|_| path.into())
    }

    fn exists(&self, path: &Path) -> bool {
        path.exists()
    }

    fn pick(&self, ask: &Ask) -> Picked {
        let asked = Instant::now();
        let boards = || rfd::FileDialog::new().add_filter("Board", &["json"]);
        let path = match ask {
            Ask::Open => boards().pick_file(),
            Ask::Save(name) => boards().set_file_name(name).save_file(),
            Ask::Folder => rfd::FileDialog::new().pick_folder(),
        };
        match path {
            Some(path) => Picked::Path(path),
            None if asked.elapsed() < NO_DIALOG => Picked::NoDialog,
            None => Picked::Nothing,
        }
    }

    fn show(&self, path: &Path) -> Result<(), String> {
        open::that_detached(path)
            .map_err(|_| format!("no program was found that opens {}", path.display()))
    }

    fn print(&self, path: &Path, page: Size) -> Result<Printing, String> {
        if files::print(path, page)? {
            return Ok(Printing::Sent);
        }
        self.show(path).map(|()| Printing::Shown)
    }

    fn documents(&self) -> PathBuf {
        let user = directories::UserDirs::new();
        let folder = user.map(|user| {
            let documents = user.document_dir().filter(|folder| folder.is_dir());
            documents.unwrap_or_else(|| user.home_dir()).to_path_buf()
        });
        folder.unwrap_or_default()
    }

    fn settings_folder(&self) -> Option<PathBuf> {
        let folders = directories::ProjectDirs::from("", "", "ringwright");
        folders.map(|folders| folders.config_dir().to_path_buf())
    }

    fn make_folder(&self, folder: &Path) -> Result<(), FilesError> {
        std::fs::create_dir_all(folder).map_err(|reason| FilesError::Folder {
            reason,
            path: folder.into(),
        })
    }

    fn today(&self) -> Moment {
        today()
    }

    fn clock(&self) -> String {
        let now = jiff::ZonedDateTime::now();
        now.strftime("%Y-%m-%d %H:%M").to_string()
    }

    fn zone(&self) -> String {
        zone()
    }

    fn now(&self) -> Timestamp {
        now()
    }

    fn spawn(&self, name: &str, work: Box<dyn FnOnce() + Send>) {
        // Without a thread the work is done at once: the window waits, but no work is lost.
        let shared = std::sync::Arc::new(std::sync::Mutex::new(Some(work)));
        let take = |shared: &std::sync::Mutex<Option<Box<dyn FnOnce() + Send>>>| {
            shared.lock().ok().and_then(|mut work| work.take())
        };
        let theirs = shared.clone();
        let spawned = std::thread::Builder::new()
            .name(name.into())
            .spawn(move || {
                if let Some(work) = take(&theirs) {
                    work();
                }
            });
        if spawned.is_err()
            && let Some(work) = take(&shared)
        {
            work();
        }
    }
}

/// Today's date, by the machine's clock and time zone.
pub fn today() -> Moment {
    let now = jiff::ZonedDateTime::now();
    Moment {
        year: u16::try_from(now.year()).unwrap_or_default(),
        month: u8::try_from(now.month()).unwrap_or(1),
        day: u8::try_from(now.day()).unwrap_or(1),
    }
}

/// The name of the machine's time zone in the IANA database; empty where it has none.
pub fn zone() -> String {
    let zone = jiff::tz::TimeZone::system();
    zone.iana_name().unwrap_or_default().to_owned()
}

/// The instant, by the machine's clock.
pub fn now() -> Timestamp {
    Timestamp::now()
}

/// Today, as the calendar is made on it.
pub fn this_day() -> Option<Today> {
    today().today(zone())
}
