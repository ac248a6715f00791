//! Reading and writing whole files, so that a file is either the old one or the new one and never half of each.

use std::fs;
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};

/// Why a file cannot be read or written.
#[derive(Debug, thiserror::Error)]
pub enum FilesError {
    /// It cannot be opened or read.
    #[error("cannot read the file: {}: {}", said(reason, "there is no such file"), path.display())]
    Read {
        /// The system's reason.
        reason: io::Error,
        /// The file.
        path: PathBuf,
    },
    /// It cannot be written; whatever was there before is unchanged.
    #[error("cannot write the file, nothing was changed: {}: {}", said(reason, "there is no such folder"), path.display())]
    Write {
        /// The system's reason.
        reason: io::Error,
        /// The file.
        path: PathBuf,
    },
    /// It is larger than any file of ours.
    #[error("the file has {bytes} bytes, over the {most} that a board file may have: {}", path.display())]
    TooLarge {
        /// Its size.
        bytes: u64,
        /// The most that is read.
        most: u64,
        /// The file.
        path: PathBuf,
    },
    /// It is there already, and was not to be replaced.
    #[error("the file is there already and was not replaced: {}", .0.display())]
    Exists(PathBuf),
    /// The folder is not there and cannot be made.
    #[error("cannot make the folder: {}: {}", said(reason, "there is no folder to make it in"), path.display())]
    Folder {
        /// The system's reason.
        reason: io::Error,
        /// The folder.
        path: PathBuf,
    },
}

/// The system's reason, in plain words where they are known; a thing that is missing is named by the caller.
fn said(reason: &io::Error, missing: &str) -> String {
    let plain = match reason.kind() {
        io::ErrorKind::NotFound => missing,
        io::ErrorKind::PermissionDenied => "it is not permitted",
        io::ErrorKind::StorageFull => "the disk is full",
        io::ErrorKind::QuotaExceeded => "there is no disk space left for you",
        io::ErrorKind::ReadOnlyFilesystem => "the disk can only be read",
        io::ErrorKind::IsADirectory => "it is a folder",
        io::ErrorKind::NotADirectory => "a part of the path is no folder",
        io::ErrorKind::InvalidFilename => "the name cannot be a file's",
        _ => return reason.to_string(),
    };
    plain.into()
}

/// Reads a file of at most `most` bytes; a larger one is refused without reading it.
///
/// # Errors
/// [`FilesError`] where it cannot be read, or is too large.
pub fn read_limited(path: &Path, most: u64) -> Result<Vec<u8>, FilesError> {
    let failed = |reason| FilesError::Read {
        reason,
        path: path.into(),
    };
    let file = fs::File::open(path).map_err(failed)?;
    let about = file.metadata().map_err(failed)?;
    if about.is_dir() {
        return Err(failed(io::Error::from(io::ErrorKind::IsADirectory)));
    }
    let mut bytes = Vec::new();
    // A device may tell no size, so that what is read is limited too.
    file.take(most + 1)
        .read_to_end(&mut bytes)
        .map_err(failed)?;
    let size = about.len().max(bytes.len() as u64);
    if size > most {
        return Err(FilesError::TooLarge {
            bytes: size,
            most,
            path: path.into(),
        });
    }
    Ok(bytes)
}

/// Writes a file whole: into a new file beside it, which then takes its place.
///
/// A link is followed to its target, and an existing file keeps its permissions.
///
/// # Errors
/// [`FilesError::Write`]; the file is then what it was before.
pub fn write_atomic(path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
    staged(path, bytes)?.take_place()
}

/// A file that is written, but not yet in its place.
struct Staged {
    file: tempfile::NamedTempFile,
    target: PathBuf,
    path: PathBuf,
}

impl Staged {
    fn take_place(self) -> Result<(), FilesError> {
        let persisted = self.file.persist(&self.target);
        let failed = |error: tempfile::PersistError| FilesError::Write {
            reason: error.error,
            path: self.path,
        };
        persisted.map_err(failed).map(drop)
    }
}

/// Writes the bytes into a new file beside the one that they are for.
fn staged(path: &Path, bytes: &[u8]) -> Result<Staged, FilesError> {
    let failed = |reason| FilesError::Write {
        reason,
        path: path.into(),
    };
    let target = target_of(path);
    let folder = target
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."));
    if target.is_dir() {
        return Err(failed(io::Error::from(io::ErrorKind::IsADirectory)));
    }
    if !folder.is_dir() {
        return Err(failed(io::Error::from(io::ErrorKind::NotFound)));
    }
    let mut file = new_file_in(folder).map_err(failed)?;
    file.write_all(bytes)
        .and_then(|()| file.as_file().sync_all())
        .map_err(failed)?;
    if let Ok(about) = fs::metadata(&target) {
        if about.permissions().readonly() {
            return Err(failed(io::Error::from(io::ErrorKind::PermissionDenied)));
        }
        fs::set_permissions(file.path(), about.permissions()).map_err(failed)?;
    }
    Ok(Staged {
        file,
        target,
        path: path.into(),
    })
}

/// The file itself where the path is a link to it, be it there already or not.
fn target_of(path: &Path) -> PathBuf {
    fs::canonicalize(path)
        .or_else(|_| fs::read_link(path).map(|link| path.with_file_name(link)))
        .unwrap_or_else(|_| path.into())
}

#[cfg(unix)]
fn new_file_in(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    use std::os::unix::fs::PermissionsExt as _;
    // The process's own mask still applies, as it does to any new file.
    let plain = fs::Permissions::from_mode(0o666);
    tempfile::Builder::new()
        .prefix(".ringwright-")
        .permissions(plain)
        .tempfile_in(folder)
}

#[cfg(not(unix))]
fn new_file_in(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    tempfile::Builder::new()
        .prefix(".ringwright-")
        .tempfile_in(folder)
}

/// Writes several files into a folder, all or none; it is made if it is not there, but not the folders above it: a path
/// with a slip in it leaves no folders behind. Files that are there already stop it before anything is written,
/// unless they may be replaced.
///
/// # Errors
/// [`FilesError`] for the first file that is there already or cannot be written.
pub fn write_all(
    folder: &Path,
    files: &[(String, Vec<u8>)],
    replace: bool,
) -> Result<Vec<PathBuf>, FilesError> {
    let paths: Vec<PathBuf> = files.iter().map(|(name, _)| folder.join(name)).collect();
    if !replace && let Some(path) = paths.iter().find(|path| path.exists()) {
        return Err(FilesError::Exists(path.clone()));
    }
    make_folder(folder).map_err(|reason| FilesError::Folder {
        reason,
        path: folder.into(),
    })?;
    // All are written before the first takes its place: a disk that fills up leaves none of them behind.
    let staged: Result<Vec<Staged>, FilesError> = paths
        .iter()
        .zip(files)
        .map(|(path, (_, bytes))| staged(path, bytes))
        .collect();
    staged?.into_iter().try_for_each(Staged::take_place)?;
    Ok(paths)
}

fn make_folder(folder: &Path) -> io::Result<()> {
    if folder.as_os_str().is_empty() || folder.is_dir() {
        return Ok(());
    }
    fs::create_dir(folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_written_whole_and_replaced_whole() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("board.json");
        write_atomic(&path, b"one").unwrap();
        write_atomic(&path, b"two").unwrap();
        assert_eq!(read_limited(&path, 10).unwrap(), b"two");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn a_larger_file_is_not_read() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("large");
        fs::write(&path, [0; 11]).unwrap();
        assert!(matches!(
            read_limited(&path, 10),
            Err(FilesError::TooLarge { bytes: 11, .. })
        ));
    }

    #[test]
    fn a_missing_file_or_folder_is_told_with_its_path() {
        let folder = tempfile::tempdir().unwrap();
        let missing = folder.path().join("none").join("board.json");
        assert!(
            read_limited(&missing, 10)
                .unwrap_err()
                .to_string()
                .ends_with("board.json")
        );
        assert!(matches!(
            write_atomic(&missing, b""),
            Err(FilesError::Write { .. })
        ));
        assert!(matches!(
            read_limited(folder.path(), 10),
            Err(FilesError::Read { .. })
        ));
        assert!(matches!(
            write_atomic(folder.path(), b""),
            Err(FilesError::Write { .. })
        ));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_is_followed_and_permissions_are_kept() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().unwrap();
        let (target, link) = (folder.path().join("target"), folder.path().join("link"));
        fs::write(&target, "old").unwrap();
        fs::set_permissions(&target, fs::Permissions::from_mode(0o640)).unwrap();
        std::os::unix::fs::symlink(&target, &link).unwrap();
        write_atomic(&link, b"new").unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read(&target).unwrap(), b"new");
        assert_eq!(
            fs::metadata(&target).unwrap().permissions().mode() & 0o777,
            0o640
        );
    }

    #[cfg(unix)]
    #[test]
    fn a_link_to_a_file_that_is_not_there_yet_is_followed_too() {
        let folder = tempfile::tempdir().unwrap();
        let link = folder.path().join("link");
        std::os::unix::fs::symlink("target", &link).unwrap();
        write_atomic(&link, b"new").unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read(folder.path().join("target")).unwrap(), b"new");
    }

    #[test]
    fn a_folder_is_made_but_not_those_above_it() {
        let folder = tempfile::tempdir().unwrap();
        let files = [("a".to_owned(), b"1".to_vec())];
        write_all(&folder.path().join("one"), &files, false).unwrap();
        let error = write_all(&folder.path().join("two/three"), &files, false).unwrap_err();
        assert!(
            error.to_string().contains("no folder to make it in"),
            "{error}"
        );
        assert!(!folder.path().join("two").exists());
    }

    #[test]
    fn where_one_of_several_cannot_be_written_none_is() {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir(folder.path().join("b")).unwrap();
        let files = [
            ("a".to_owned(), b"1".to_vec()),
            ("b".to_owned(), b"2".to_vec()),
        ];
        assert!(write_all(folder.path(), &files, true).is_err());
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn what_the_system_says_is_said_plainly() {
        let said = |kind| said(&io::Error::from(kind), "there is no such file");
        assert_eq!(said(io::ErrorKind::StorageFull), "the disk is full");
        assert_eq!(said(io::ErrorKind::NotFound), "there is no such file");
        assert!(!said(io::ErrorKind::TimedOut).is_empty());
    }

    #[test]
    fn nothing_is_written_where_one_file_exists() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("b"), "old").unwrap();
        let files = [
            ("a".to_owned(), b"1".to_vec()),
            ("b".to_owned(), b"2".to_vec()),
        ];
        assert!(matches!(
            write_all(folder.path(), &files, false),
            Err(FilesError::Exists(_))
        ));
        assert!(!folder.path().join("a").exists());
        assert_eq!(write_all(folder.path(), &files, true).unwrap().len(), 2);
        assert_eq!(fs::read(folder.path().join("b")).unwrap(), b"2");
    }
}
