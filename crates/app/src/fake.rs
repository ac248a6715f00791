//! A world for tests: files in memory, dialogs with prepared answers, jobs done at once.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Mutex;

use kurbo::Size;

use crate::exports::Moment;
use crate::files::{FilesError, Printing};
use crate::host::{Ask, Held, Host, Picked};

/// A world for tests.
pub struct Fake {
    pub files: Mutex<BTreeMap<PathBuf, Vec<u8>>>,
    pub picks: Picked,
    /// Whether single files find no room on the disk.
    pub is_full: bool,
    /// Files and folders that were opened with other programs.
    pub shown: Mutex<Vec<PathBuf>>,
    /// Files that were printed, and the sizes of their pages in mm.
    pub printed: Mutex<Vec<(PathBuf, Size)>>,
    /// Files that are locked by a program that lives.
    pub locked: Vec<PathBuf>,
}

impl Fake {
    pub fn new() -> Self {
        Self {
            files: Mutex::new(BTreeMap::new()),
            picks: Picked::NoDialog,
            is_full: false,
            shown: Mutex::new(Vec::new()),
            printed: Mutex::new(Vec::new()),
            locked: Vec::new(),
        }
    }

    pub fn file(&self, path: &str) -> Option<Vec<u8>> {
        self.files.lock().unwrap().get(Path::new(path)).cloned()
    }

    pub fn put(&self, path: &str, bytes: &[u8]) {
        self.files.lock().unwrap().insert(path.into(), bytes.into());
    }
}

impl Host for Fake {
    fn read(&self, path: &Path, most: u64) -> Result<Vec<u8>, FilesError> {
        let missing = || FilesError::Read {
            reason: std::io::ErrorKind::NotFound.into(),
            path: path.into(),
        };
        let bytes = self
            .files
            .lock()
            .unwrap()
            .get(path)
            .cloned()
            .ok_or_else(missing)?;
        assert!(bytes.len() as u64 <= most);
        Ok(bytes)
    }

    fn write(&self, path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
        if self.is_full {
            return Err(FilesError::Write {
                reason: std::io::ErrorKind::StorageFull.into(),
                path: path.into(),
            });
        }
        self.files.lock().unwrap().insert(path.into(), bytes.into());
        Ok(())
    }

    fn write_private(&self, path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
        self.write(path, bytes)
    }

    fn write_all(
        &self,
        folder: &Path,
        files: &[(String, Vec<u8>)],
        replace: bool,
    ) -> Result<Vec<PathBuf>, FilesError> {
        let paths: Vec<PathBuf> = files.iter().map(|(name, _)| folder.join(name)).collect();
        if let Some(path) = paths.iter().find(|path| !replace && self.exists(path)) {
            return Err(FilesError::Exists(path.clone()));
        }
        for (path, (_, bytes)) in paths.iter().zip(files) {
            self.write(path, bytes)?;
        }
        Ok(paths)
    }

    fn remove(&self, path: &Path) {
        self.files.lock().unwrap().remove(path);
    }

    fn set_aside(&self, path: &Path) -> Option<PathBuf> {
        let mut files = self.files.lock().unwrap();
        let bytes = files.remove(path)?;
        let aside = PathBuf::from(format!("{}.broken-1", path.display()));
        files.insert(aside.clone(), bytes);
        Some(aside)
    }

    fn hold(&self, path: &Path) -> Option<Held> {
        let is_locked = self.locked.iter().any(|locked| locked == path);
        (!is_locked).then(|| Held::by(()))
    }

    fn sweep(&self, _folder: &Path) {}

    fn absolute(&self, path: &Path) -> PathBuf {
        Path::new("/work").join(path)
    }

    fn exists(&self, path: &Path) -> bool {
        self.files.lock().unwrap().contains_key(path)
    }

    fn pick(&self, _ask: &Ask) -> Picked {
        self.picks.clone()
    }

    fn show(&self, path: &Path) -> Result<(), String> {
        self.shown.lock().unwrap().push(path.into());
        Ok(())
    }

    fn print(&self, path: &Path, page: Size) -> Result<Printing, String> {
        self.printed.lock().unwrap().push((path.into(), page));
        Ok(Printing::Sent)
    }

    fn documents(&self) -> PathBuf {
        "/home/maker".into()
    }

    fn settings_folder(&self) -> Option<PathBuf> {
        Some("/home/maker/settings".into())
    }

    fn make_folder(&self, _folder: &Path) -> Result<(), FilesError> {
        Ok(())
    }

    fn today(&self) -> Moment {
        Moment {
            year: 2026,
            month: 11,
            day: 25,
        }
    }

    fn clock(&self) -> String {
        "2026-11-25 10:30".into()
    }

    fn zone(&self) -> String {
        "America/New_York".into()
    }

    fn now(&self) -> jiff::Timestamp {
        jiff::Timestamp::UNIX_EPOCH + jiff::SignedDuration::from_secs(1_795_600_000)
    }

    fn spawn(&self, _name: &str, work: Box<dyn FnOnce() + Send>) {
        work();
    }
}
