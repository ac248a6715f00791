//! Reading and writing whole files, so that a file is either the old one or the new one and never half of each.

mod disk;
mod print;
mod several;
mod staged;

use std::fs;
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};
use std::time::Duration;

pub use print::{Printing, print};
pub use several::write_all;
pub use staged::{create, write_atomic, write_private};

/// Why a file cannot be read or written.
#[derive(Debug, thiserror::Error)]
pub enum FilesError {
    /// It cannot be opened or read.
    #[error("cannot read the file: {}: {}", plain_reason(reason, "there is no such file"), path.display())]
    Read {
        /// The system's reason.
        reason: io::Error,
        /// The file.
        path: PathBuf,
    },
    /// It cannot be written; the old file is unchanged.
    #[error("cannot write the file, nothing was changed: {}: {}", plain_reason(reason, "there is no such folder"), path.display())]
    Write {
        /// The system's reason.
        reason: io::Error,
        /// The file.
        path: PathBuf,
    },
    /// One of several could not be put in its place, and those before it could not all be taken back.
    #[error(
        "cannot write the file: {}: {}; {} new all the same: {}",
        plain_reason(reason, "there is no such folder"),
        path.display(),
        if new.len() == 1 { "this one is" } else { "these are" },
        list(new)
    )]
    Halfway {
        /// The system's reason.
        reason: io::Error,
        /// The file that could not be written.
        path: PathBuf,
        /// The files that are new.
        new: Vec<PathBuf>,
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
    #[error("cannot make the folder: {}: {}", plain_reason(reason, "there is no folder to make it in"), path.display())]
    Folder {
        /// The system's reason.
        reason: io::Error,
        /// The folder.
        path: PathBuf,
    },
}

/// Paths with commas between them.
fn list(paths: &[PathBuf]) -> String {
    let paths: Vec<String> = paths
        .iter()
        .map(|path| path.display().to_string())
        .collect();
    paths.join(", ")
}

/// The system's reason, in plain words where they are known; a thing that is missing is named by the caller.
pub fn plain_reason(reason: &io::Error, missing: &str) -> String {
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

/// Nothing but a file is read or replaced: a folder, a device, a pipe or a socket is left alone.
fn is_file(about: &fs::Metadata) -> io::Result<()> {
    if about.is_file() {
        Ok(())
    } else if about.is_dir() {
        Err(io::Error::from(io::ErrorKind::IsADirectory))
    } else {
        Err(io::Error::other("it is a device or a pipe, not a file"))
    }
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
    // Opening a pipe would block, so the kind of file is checked before.
    let about = fs::metadata(path).map_err(failed)?;
    is_file(&about).map_err(failed)?;
    let file = fs::File::open(path).map_err(failed)?;
    let mut bytes = Vec::new();
    // The file may grow meanwhile, so the bytes read are limited too.
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

/// Locks a file, which is made if it is not there, until it is dropped; none where another has it locked.
pub fn hold(path: &Path) -> Option<fs::File> {
    let file = fs::OpenOptions::new()
        .create(true)
        .truncate(false)
        .write(true)
        .open(path)
        .ok()?;
    file.try_lock().ok().map(|()| file)
}

/// Renames a file that cannot be read, in its folder, and returns the new path; `None` where that failed.
pub fn set_aside(path: &Path) -> Option<PathBuf> {
    let free = |number: u32| {
        let mut name = path.file_name()?.to_os_string();
        name.push(format!(".broken-{number}"));
        let aside = path.with_file_name(name);
        (!aside.exists()).then_some(aside)
    };
    let aside = (1..=1000).find_map(free)?;
    fs::rename(path, &aside).ok().map(|()| aside)
}

/// Begins the names of files that are not in their place yet.
const UNFINISHED: &str = ".ringwright-";
/// Older unfinished files are of a program that was ended while it wrote.
const STALE: Duration = Duration::from_hours(1);

/// Takes away the unfinished files that an earlier run left in a folder when it was ended while it wrote.
pub fn sweep(folder: &Path) {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    for entry in entries {
        let is_ours = entry
            .file_name()
            .to_str()
            .is_some_and(|name| name.starts_with(UNFINISHED));
        let is_stale = || {
            let about = entry.metadata().ok()?;
            let age = about.modified().ok()?.elapsed().ok()?;
            Some(about.is_file() && age > STALE)
        };
        if is_ours && is_stale() == Some(true) {
            // A stale file that cannot be removed does no harm.
            let _ = fs::remove_file(entry.path());
        }
    }
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
        let said = |kind| plain_reason(&io::Error::from(kind), "there is no such file");
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

    #[cfg(unix)]
    #[test]
    fn a_device_or_a_pipe_is_neither_read_nor_replaced() {
        use std::os::unix::net::UnixListener;
        let folder = tempfile::tempdir().unwrap();
        let socket = folder.path().join("socket");
        let _open = UnixListener::bind(&socket).unwrap();
        for path in [Path::new("/dev/null"), &socket] {
            let read = read_limited(path, 10).unwrap_err().to_string();
            assert!(read.contains("device or a pipe"), "{read}");
            let written = write_atomic(path, b"new").unwrap_err().to_string();
            assert!(written.contains("device or a pipe"), "{written}");
        }
        let files = [("socket".to_owned(), b"1".to_vec())];
        assert!(write_all(folder.path(), &files, true).is_err());
        assert!(!fs::symlink_metadata(&socket).unwrap().is_file());
    }

    #[cfg(unix)]
    #[test]
    fn a_second_name_of_a_file_is_not_parted_from_it() {
        let folder = tempfile::tempdir().unwrap();
        let (one, two) = (folder.path().join("one"), folder.path().join("two"));
        fs::write(&one, "old").unwrap();
        fs::hard_link(&one, &two).unwrap();
        let said = write_atomic(&one, b"new").unwrap_err().to_string();
        assert!(said.contains("second name"), "{said}");
        assert_eq!(fs::read(&two).unwrap(), b"old");
    }

    #[cfg(unix)]
    #[test]
    fn a_private_file_is_private_at_every_moment() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("board.json");
        fs::write(&path, "old").unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o600)).unwrap();
        let staged = staged::Staged::beside(disk::REAL, &path, b"new").unwrap();
        for entry in fs::read_dir(folder.path()).unwrap().map(Result::unwrap) {
            assert_eq!(entry.metadata().unwrap().permissions().mode() & 0o077, 0);
        }
        staged.take_place(disk::REAL).unwrap();
        assert_eq!(
            fs::metadata(&path).unwrap().permissions().mode() & 0o777,
            0o600
        );
        // A copy that is new is its owner's too.
        let copy = folder.path().join("board.json~");
        write_private(&copy, b"old").unwrap();
        assert_eq!(fs::metadata(&copy).unwrap().permissions().mode() & 0o077, 0);
    }

    #[test]
    fn a_file_is_created_once() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("board.json");
        create(&path, b"one").unwrap();
        assert!(matches!(create(&path, b"two"), Err(FilesError::Exists(_))));
        assert_eq!(fs::read(&path).unwrap(), b"one");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn unfinished_files_of_long_ago_are_swept_away_and_no_others() {
        let folder = tempfile::tempdir().unwrap();
        let long_ago = std::time::SystemTime::now() - 2 * STALE;
        for (name, is_old) in [
            (".ringwright-Ab12", true),
            (".ringwright-Cd34", false),
            ("board.json", true),
        ] {
            let file = fs::File::create(folder.path().join(name)).unwrap();
            if is_old {
                file.set_modified(long_ago).unwrap();
            }
        }
        sweep(folder.path());
        let left = |name: &str| folder.path().join(name).exists();
        assert!(!left(".ringwright-Ab12") && left(".ringwright-Cd34") && left("board.json"));
        sweep(&folder.path().join("none"));
    }
}
