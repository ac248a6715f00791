//! Several files that are written together: all of them, or none.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use tempfile::TempPath;

use super::disk::{self, Disk, Step};
use super::staged::{Staged, folder_of};
use super::{FilesError, UNFINISHED};

/// Writes several files into a folder, all or none; it is made if it is not there, but not the folders above it: a path
/// with a slip in it leaves no folders behind. Files that are there already stop it before anything is written,
/// unless they may be replaced.
///
/// # Errors
/// [`FilesError`] for the first file that exists already or cannot be written. The old files are back in place, and a new folder
/// is removed, except with [`FilesError::Halfway`], which names the new files.
pub fn write_all(
    folder: &Path,
    files: &[(String, Vec<u8>)],
    replace: bool,
) -> Result<Vec<PathBuf>, FilesError> {
    write_all_on(disk::REAL, folder, files, replace)
}

/// The same on a disk.
pub(super) fn write_all_on(
    disk: Disk<'_>,
    folder: &Path,
    files: &[(String, Vec<u8>)],
    replace: bool,
) -> Result<Vec<PathBuf>, FilesError> {
    let paths: Vec<PathBuf> = files.iter().map(|(name, _)| folder.join(name)).collect();
    if !replace && let Some(path) = paths.iter().find(|path| path.exists()) {
        return Err(FilesError::Exists(path.clone()));
    }
    let made = make_folder(disk, folder).map_err(|reason| FilesError::Folder {
        reason,
        path: folder.into(),
    })?;
    let written = stage_and_place(disk, &paths, files, replace);
    if written.is_err() && made {
        // It goes only if it is empty.
        let _ = fs::remove_dir(folder);
    }
    written.map(|()| paths)
}

fn stage_and_place(
    disk: Disk<'_>,
    paths: &[PathBuf],
    files: &[(String, Vec<u8>)],
    replace: bool,
) -> Result<(), FilesError> {
    // All are written before the first takes its place: a disk that fills up leaves none of them behind.
    let staged: Result<Vec<Staged>, FilesError> = paths
        .iter()
        .zip(files)
        .map(|(path, (_, bytes))| Staged::beside(disk, path, bytes))
        .collect();
    let mut done: Vec<Placed> = Vec::new();
    for staged in staged? {
        let placed = Placed {
            before: replace.then(|| kept(disk, &staged.target)).flatten(),
            target: staged.target.clone(),
        };
        let outcome = if placed.before.is_some() {
            staged.take_place(disk)
        } else if replace && placed.target.exists() {
            Err(not_kept(&placed.target))
        } else {
            staged.take_free_place(disk)
        };
        match outcome {
            Ok(()) => done.push(placed),
            Err(error) => return Err(taken_back(disk, done, error)),
        }
    }
    Ok(())
}

/// A file that is in its place, and the one that was there before.
struct Placed {
    target: PathBuf,
    before: Option<TempPath>,
}

/// A second name for a file that is about to be replaced, or a copy where there are no second names; none where it is not there, or
/// neither can be made.
fn kept(disk: Disk<'_>, target: &Path) -> Option<TempPath> {
    fs::symlink_metadata(target).ok()?;
    disk(Step::Keep, target).ok()?;
    let made = tempfile::Builder::new()
        .prefix(UNFINISHED)
        .make_in(folder_of(target), |name| {
            match fs::hard_link(target, name) {
                Err(error) if error.kind() != io::ErrorKind::AlreadyExists => {
                    fs::copy(target, name).map(drop)
                }
                linked => linked,
            }
        });
    made.ok().map(tempfile::NamedTempFile::into_temp_path)
}

fn not_kept(target: &Path) -> FilesError {
    FilesError::Write {
        reason: io::Error::other("the file that is there cannot be kept aside meanwhile"),
        path: target.into(),
    }
}

/// Takes files back that are in their places, after one could not be put there.
fn taken_back(disk: Disk<'_>, done: Vec<Placed>, error: FilesError) -> FilesError {
    let mut new = Vec::new();
    for placed in done.into_iter().rev() {
        let back = disk(Step::TakeBack, &placed.target).and_then(|()| match placed.before {
            Some(before) => before.persist(&placed.target).map_err(|error| error.error),
            None => fs::remove_file(&placed.target),
        });
        if back.is_err() {
            new.push(placed.target);
        }
    }
    if new.is_empty() {
        return error;
    }
    match error {
        FilesError::Write { reason, path } => FilesError::Halfway { reason, path, new },
        FilesError::Exists(path) => FilesError::Halfway {
            reason: io::Error::other("another program wrote it meanwhile"),
            path,
            new,
        },
        error => error,
    }
}

/// Makes a folder where it is not there; returns whether it did.
fn make_folder(disk: Disk<'_>, folder: &Path) -> io::Result<bool> {
    if folder.as_os_str().is_empty() || folder.is_dir() {
        return Ok(false);
    }
    if folder.exists() {
        return Err(io::Error::other("it is a file; name a folder"));
    }
    disk(Step::Folder, folder)?;
    fs::create_dir(folder).map(|()| true)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn three() -> Vec<(String, Vec<u8>)> {
        let file = |name: &str| (name.to_owned(), b"new".to_vec());
        ["a", "b", "c"].map(file).into()
    }

    fn content(folder: &Path) -> Vec<(String, String)> {
        let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
        let mut files: Vec<(String, String)> = entries
            .map(|entry| {
                let name = entry.file_name().into_string().unwrap();
                (name, fs::read_to_string(entry.path()).unwrap())
            })
            .collect();
        files.sort();
        files
    }

    /// The second of the files that replace another finds its place refused, as a virus scanner does it.
    #[test]
    fn where_a_place_is_refused_halfway_the_old_files_come_back() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["a", "b"] {
            fs::write(folder.path().join(name), "old").unwrap();
        }
        let before = content(folder.path());
        let second_fails = |step: Step, path: &Path| {
            if step == Step::Rename && path.ends_with("b") {
                return Err(io::Error::other("in use"));
            }
            Ok(())
        };
        let failed = write_all_on(&second_fails, folder.path(), &three(), true);
        assert!(
            failed
                .unwrap_err()
                .to_string()
                .contains("nothing was changed")
        );
        assert_eq!(content(folder.path()), before);
    }

    #[test]
    fn a_file_that_cannot_be_taken_back_is_named() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["a", "b"] {
            fs::write(folder.path().join(name), "old").unwrap();
        }
        let first = folder.path().join("a");
        let gone = |step: Step, path: &Path| {
            if step != Step::Rename || !path.ends_with("b") {
                return Ok(());
            }
            // A folder takes the place of the new file, which no file can replace.
            fs::remove_file(&first)?;
            fs::create_dir(&first)?;
            fs::write(first.join("in"), "")?;
            Err(io::Error::other("in use"))
        };
        let failed = write_all_on(&gone, folder.path(), &three(), true).unwrap_err();
        let said = failed.to_string();
        assert!(matches!(failed, FilesError::Halfway { .. }), "{said}");
        assert!(
            said.contains("this one is new all the same") && said.ends_with("/a"),
            "{said}"
        );
    }

    #[test]
    fn a_folder_that_was_made_goes_again_where_nothing_could_be_written() {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("out");
        let files = [("no/such".to_owned(), b"1".to_vec())];
        assert!(write_all(&out, &files, false).is_err());
        assert!(!out.exists());
    }

    /// Eight writers of the same files at once: one of them has written all of them, and the others say that they are there.
    #[test]
    fn of_several_that_write_at_once_one_does() {
        let folder = tempfile::tempdir().unwrap();
        let outcomes: Vec<bool> = std::thread::scope(|scope| {
            let each = |at: u8| {
                let folder = folder.path();
                scope.spawn(move || {
                    let files = [("a".to_owned(), vec![at]), ("b".to_owned(), vec![at])];
                    write_all(folder, &files, false).is_ok()
                })
            };
            let running: Vec<_> = (0..8).map(each).collect();
            running.into_iter().map(|it| it.join().unwrap()).collect()
        });
        assert_eq!(outcomes.iter().filter(|done| **done).count(), 1);
        let content = content(folder.path());
        assert_eq!(content.len(), 2);
        assert_eq!(content[0].1, content[1].1);
    }
}
