//! A file that is written beside the one that it is for, and then takes its place.

use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use super::disk::{self, Disk, Step};
use super::{FilesError, UNFINISHED, is_file};

/// Writes a file whole: into a new file beside it, which then takes its place.
///
/// A link is followed to its target, and an existing file keeps its permissions and, where the system allows it, its owner. A file
/// with a second name, or of another owner, is not written: it would lose the one or the other without a word.
///
/// # Errors
/// [`FilesError::Write`]; the file is then unchanged.
pub fn write_atomic(path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
    write_on(disk::REAL, path, bytes)
}

/// The same on a disk.
pub(super) fn write_on(disk: Disk<'_>, path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
    Staged::beside(disk, path, bytes)?.take_place(disk)
}

/// Writes a file whole, as [`write_atomic`] does, so that a new one can be read by its owner alone.
///
/// # Errors
/// [`FilesError::Write`]; the file is then unchanged.
pub fn write_private(path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
    Staged::with_mode(disk::REAL, path, bytes, PRIVATE)?.take_place(disk::REAL)
}

/// Writes a file that must not be there yet. Of several programs that write the same one at once, one does.
///
/// # Errors
/// [`FilesError::Exists`] where it is there, [`FilesError::Write`] where it cannot be written.
pub fn create(path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
    create_on(disk::REAL, path, bytes)
}

/// The same on a disk.
pub(super) fn create_on(disk: Disk<'_>, path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
    Staged::beside(disk, path, bytes)?.take_free_place(disk)
}

/// A file that is written, but not yet in its place.
pub(super) struct Staged {
    file: NamedTempFile,
    /// The file that it is for, with links followed.
    pub target: PathBuf,
    /// The same file under its requested name.
    path: PathBuf,
}

impl Staged {
    /// Writes bytes into a new file beside the one that they are for.
    pub fn beside(disk: Disk<'_>, path: &Path, bytes: &[u8]) -> Result<Self, FilesError> {
        Self::with_mode(disk, path, bytes, USUAL)
    }

    /// The same with the rights of a file that is not there yet, which the process's own mask still cuts.
    fn with_mode(disk: Disk<'_>, path: &Path, bytes: &[u8], mode: u32) -> Result<Self, FilesError> {
        let target = target_of(path);
        let staged = write_beside(disk, &target, bytes, mode);
        let file = staged.map_err(|reason| failed(reason, path))?;
        Ok(Self {
            file,
            target,
            path: path.into(),
        })
    }

    /// Takes the place of the file that is there, or an empty one.
    pub fn take_place(self, disk: Disk<'_>) -> Result<(), FilesError> {
        disk(Step::Rename, &self.target).map_err(|reason| failed(reason, &self.path))?;
        let persisted = self.file.persist(&self.target);
        persisted.map_err(|error| failed(error.error, &self.path))?;
        sync_folder(disk, &self.target);
        Ok(())
    }

    /// Takes its place only if that is empty.
    pub fn take_free_place(self, disk: Disk<'_>) -> Result<(), FilesError> {
        disk(Step::Rename, &self.target).map_err(|reason| failed(reason, &self.path))?;
        let persisted = self.file.persist_noclobber(&self.target);
        persisted.map_err(|error| match error.error.kind() {
            io::ErrorKind::AlreadyExists => FilesError::Exists(self.path.clone()),
            _ => failed(error.error, &self.path),
        })?;
        sync_folder(disk, &self.target);
        Ok(())
    }
}

fn failed(reason: io::Error, path: &Path) -> FilesError {
    FilesError::Write {
        reason,
        path: path.into(),
    }
}

/// The folder of a file.
pub(super) fn folder_of(file: &Path) -> &Path {
    file.parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."))
}

/// The file itself where the path is a link to it, be it there already or not.
fn target_of(path: &Path) -> PathBuf {
    fs::canonicalize(path)
        .or_else(|_| fs::read_link(path).map(|link| path.with_file_name(link)))
        .unwrap_or_else(|_| path.into())
}

/// Rights of a new file, before the process's own mask, and of one for its owner alone.
const USUAL: u32 = 0o666;
const PRIVATE: u32 = 0o600;

fn write_beside(
    disk: Disk<'_>,
    target: &Path,
    bytes: &[u8],
    mode: u32,
) -> io::Result<NamedTempFile> {
    let folder = folder_of(target);
    disk(Step::Look, target)?;
    if !folder.is_dir() {
        return Err(io::Error::from(io::ErrorKind::NotFound));
    }
    let there = fs::metadata(target).ok();
    if let Some(about) = &there {
        is_file(about)?;
        if about.permissions().readonly() {
            return Err(io::Error::from(io::ErrorKind::PermissionDenied));
        }
    }
    disk(Step::Create, target)?;
    let mut file = new_file_in(folder, there.as_ref(), mode)?;
    if let Some(about) = &there {
        disk(Step::Owner, target)?;
        keep_owner(file.path(), about)?;
    }
    let (first, rest) = bytes.split_at(bytes.len() / 2);
    disk(Step::Begin, target)?;
    file.write_all(first)?;
    disk(Step::Rest, target)?;
    file.write_all(rest)?;
    disk(Step::Sync, target)?;
    file.as_file().sync_all()?;
    if let Some(about) = &there {
        // The new file was made with no more rights than these; where it cannot be given all of them, it is saved all the same.
        let _ = disk(Step::Rights, target)
            .and_then(|()| fs::set_permissions(file.path(), about.permissions()));
    }
    Ok(file)
}

/// A new file that is readable only by those who can read the file it will replace.
#[cfg(unix)]
fn new_file_in(
    folder: &Path,
    there: Option<&fs::Metadata>,
    mode: u32,
) -> io::Result<NamedTempFile> {
    use std::os::unix::fs::PermissionsExt as _;
    let mode = there.map_or(mode, |about| about.permissions().mode() & 0o777);
    // The process's own mask still applies, as it does to any new file.
    tempfile::Builder::new()
        .prefix(UNFINISHED)
        .permissions(fs::Permissions::from_mode(mode))
        .tempfile_in(folder)
}

#[cfg(not(unix))]
fn new_file_in(
    folder: &Path,
    _there: Option<&fs::Metadata>,
    _mode: u32,
) -> io::Result<NamedTempFile> {
    tempfile::Builder::new()
        .prefix(UNFINISHED)
        .tempfile_in(folder)
}

/// Gives a new file the owner of the one whose place it will take.
#[cfg(unix)]
fn keep_owner(new: &Path, there: &fs::Metadata) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt as _, chown};
    if there.nlink() > 1 {
        return Err(io::Error::other(
            "it has a second name (a hard link) that would keep the old content; save under another name",
        ));
    }
    let (uid, gid) = (there.uid(), there.gid());
    let now = fs::metadata(new)?;
    if (now.uid(), now.gid()) == (uid, gid) || chown(new, Some(uid), Some(gid)).is_ok() {
        return Ok(());
    }
    if now.uid() == uid {
        // Another group of the same owner: the folder says which group new files have.
        return Ok(());
    }
    Err(io::Error::other(
        "it belongs to another user, who would lose it; save under another name",
    ))
}

#[cfg(not(unix))]
fn keep_owner(_new: &Path, _there: &fs::Metadata) -> io::Result<()> {
    Ok(())
}

/// Makes the new name last through a power cut, where the system can.
#[cfg(unix)]
fn sync_folder(disk: Disk<'_>, file: &Path) {
    // The content is safe already; some file systems refuse to sync a folder.
    let _ = disk(Step::SyncFolder, file)
        .and_then(|()| fs::File::open(folder_of(file)))
        .and_then(|folder| folder.sync_all());
}

#[cfg(not(unix))]
fn sync_folder(_disk: Disk<'_>, _file: &Path) {}
