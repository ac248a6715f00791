//! The steps of a write that a system can refuse.
//!
//! A write asks its disk before each of them. The program's disk allows every step; those of tests refuse one, so that any system
//! may refuse, and whenever it does, is tried on every machine.

use std::io;
use std::path::Path;

/// A step of a write.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// The folder and an existing file are examined.
    Look,
    /// An unfinished file is made beside it.
    Create,
    /// It is given the owner of the one that is there.
    Owner,
    /// The first half of its content is written.
    Begin,
    /// The second half of it is.
    Rest,
    /// The content is made to last.
    Sync,
    /// The file is given all rights of the one that is there.
    Rights,
    /// The one that is there is kept under a second name meanwhile.
    Keep,
    /// The new one takes its place.
    Rename,
    /// The name is made to last.
    SyncFolder,
    /// The one that was there takes its place again.
    TakeBack,
    /// A folder is made.
    Folder,
}

/// A disk that is asked before each step, with its path; it answers with an error of the system.
pub type Disk<'a> = &'a dyn Fn(Step, &Path) -> io::Result<()>;

/// The real disk: the system itself refuses.
pub const REAL: Disk<'static> = &|_, _| Ok(());

#[cfg(test)]
mod tests {
    use super::super::several::write_all_on;
    use super::super::staged::{create_on, write_on};
    use super::super::{FilesError, read_limited};
    use super::*;
    use std::cell::Cell;
    use std::fs;

    /// Errors of operating systems, each with our words for it.
    const SAID: [(io::ErrorKind, &str); 5] = [
        (io::ErrorKind::StorageFull, "the disk is full"),
        (io::ErrorKind::PermissionDenied, "it is not permitted"),
        (
            io::ErrorKind::ReadOnlyFilesystem,
            "the disk can only be read",
        ),
        (io::ErrorKind::NotFound, "there is no such folder"),
        (io::ErrorKind::QuotaExceeded, "no disk space left for you"),
    ];

    /// Steps without which a file is saved all the same: its content is safe by then.
    const NOT_NEEDED: [Step; 2] = [Step::Rights, Step::SyncFolder];

    /// Names and contents of a folder.
    fn content(folder: &Path) -> Vec<(String, Vec<u8>)> {
        let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
        let mut files: Vec<_> = entries
            .map(|entry| {
                let name = entry.file_name().into_string().unwrap();
                (name, fs::read(entry.path()).unwrap())
            })
            .collect();
        files.sort();
        files
    }

    /// The steps that a piece of work takes on a disk that refuses none.
    fn steps(work: &dyn Fn(Disk<'_>)) -> Vec<Step> {
        let taken = std::cell::RefCell::new(Vec::new());
        work(&|step, _| {
            taken.borrow_mut().push(step);
            Ok(())
        });
        taken.into_inner()
    }

    /// A disk that refuses the step of a number, and all that take the same step after it.
    fn refusing(at: usize, kind: io::ErrorKind) -> impl Fn(Step, &Path) -> io::Result<()> {
        let count = Cell::new(0);
        move |_, _| {
            count.set(count.get() + 1);
            if count.get() == at + 1 {
                return Err(io::Error::from(kind));
            }
            Ok(())
        }
    }

    #[test]
    fn whatever_step_of_a_write_is_refused_the_old_file_is_whole_and_alone() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("board.json");
        let write = |disk: Disk<'_>| write_on(disk, &path, b"new content");
        let fresh = || fs::write(&path, "old content").unwrap();
        fresh();
        let all = steps(&|disk| write(disk).unwrap());
        assert!(
            all.contains(&Step::Rest) && all.contains(&Step::Rename),
            "{all:?}"
        );
        for (at, step) in all.iter().enumerate() {
            for (kind, words) in SAID {
                fresh();
                let written = write(&refusing(at, kind));
                if NOT_NEEDED.contains(step) {
                    written.unwrap();
                    assert_eq!(
                        content(folder.path()),
                        [("board.json".into(), b"new content".to_vec())]
                    );
                    continue;
                }
                let said = written.unwrap_err().to_string();
                assert!(
                    said.contains("nothing was changed") && said.contains(words),
                    "{step:?}: {said}"
                );
                assert!(said.ends_with("board.json"), "{step:?}: {said}");
                assert_eq!(
                    content(folder.path()),
                    [("board.json".into(), b"old content".to_vec())],
                    "{step:?}"
                );
            }
        }
    }

    #[test]
    fn whatever_step_of_a_new_file_is_refused_there_is_none() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("board.json");
        let write = |disk: Disk<'_>| create_on(disk, &path, b"new");
        let all = steps(&|disk| write(disk).unwrap());
        fs::remove_file(&path).unwrap();
        for (at, step) in all
            .iter()
            .enumerate()
            .filter(|(_, step)| !NOT_NEEDED.contains(step))
        {
            let said = write(&refusing(at, io::ErrorKind::StorageFull))
                .unwrap_err()
                .to_string();
            assert!(said.contains("the disk is full"), "{step:?}: {said}");
            assert!(content(folder.path()).is_empty(), "{step:?}");
        }
    }

    /// Each step of an export of three files, of which two replace others, is refused in turn; and then all steps after it too, so that
    /// nothing can be taken back either.
    #[test]
    fn whatever_step_of_an_export_is_refused_all_files_are_old_or_the_new_ones_are_named() {
        let files = ["a", "b", "c"].map(|name| (name.to_owned(), b"new".to_vec()));
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("out");
        let write = |disk: Disk<'_>| write_all_on(disk, &out, &files, true);
        let fresh = || {
            let _ = fs::remove_dir_all(&out);
            fs::create_dir(&out).unwrap();
            for name in ["a", "b"] {
                fs::write(out.join(name), "old").unwrap();
            }
        };
        fresh();
        let before = content(&out);
        let all = steps(&|disk| drop(write(disk).unwrap()));
        assert!(all.contains(&Step::Keep), "{all:?}");
        for (at, step) in all
            .iter()
            .enumerate()
            .filter(|(_, step)| !NOT_NEEDED.contains(step))
        {
            fresh();
            let error = write(&refusing(at, io::ErrorKind::StorageFull)).unwrap_err();
            assert!(
                matches!(error, FilesError::Write { .. }),
                "{step:?}: {error}"
            );
            assert_eq!(content(&out), before, "{step:?} at {at}");

            fresh();
            let count = Cell::new(0);
            let from_then_on = |_: Step, _: &Path| {
                count.set(count.get() + 1);
                if count.get() > at {
                    return Err(io::Error::from(io::ErrorKind::PermissionDenied));
                }
                Ok(())
            };
            let error = write(&from_then_on).unwrap_err();
            let new: Vec<String> = content(&out)
                .into_iter()
                .filter(|(_, bytes)| bytes == b"new")
                .map(|(name, _)| name)
                .collect();
            let said = error.to_string();
            match error {
                FilesError::Halfway { new: told, .. } => {
                    let told: Vec<String> = told
                        .iter()
                        .map(|path| path.file_name().unwrap().to_string_lossy().into_owned())
                        .collect();
                    let mut told = told;
                    told.sort();
                    assert_eq!(told, new, "{step:?}: {said}");
                }
                _ => assert_eq!(content(&out), before, "{step:?}: {said}"),
            }
        }
    }

    #[test]
    fn a_folder_that_cannot_be_made_is_told_and_one_that_was_made_goes_again() {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("out");
        let files = [("a".to_owned(), b"new".to_vec())];
        let write = |disk: Disk<'_>| write_all_on(disk, &out, &files, false);
        let all = steps(&|disk| drop(write(disk).unwrap()));
        fs::remove_dir_all(&out).unwrap();
        for (at, step) in all
            .iter()
            .enumerate()
            .filter(|(_, step)| !NOT_NEEDED.contains(step))
        {
            let said = write(&refusing(at, io::ErrorKind::PermissionDenied))
                .unwrap_err()
                .to_string();
            assert!(
                said.contains("it is not permitted") && said.contains("out"),
                "{step:?}: {said}"
            );
            assert!(!out.exists(), "{step:?}");
        }
    }

    /// Both happen between two looks at the disk: the path is a folder by the time of the write, and the folder around it is gone.
    #[test]
    fn a_name_taken_by_a_folder_and_a_folder_that_goes_meanwhile_are_told() {
        let folder = tempfile::tempdir().unwrap();
        let (inner, path) = (
            folder.path().join("in"),
            folder.path().join("in/board.json"),
        );
        fs::create_dir(&inner).unwrap();
        fs::write(&path, "old").unwrap();
        let taken = |step: Step, _: &Path| {
            if step == Step::Rename {
                fs::remove_file(&path)?;
                fs::create_dir(&path)?;
            }
            Ok(())
        };
        let said = write_on(&taken, &path, b"new").unwrap_err().to_string();
        assert!(
            said.contains("it is a folder") && said.ends_with("board.json"),
            "{said}"
        );
        assert_eq!(fs::read_dir(&inner).unwrap().count(), 1);
        let gone = |step: Step, _: &Path| {
            if step == Step::Create {
                fs::remove_dir_all(&inner)?;
            }
            Ok(())
        };
        fs::remove_dir(&path).unwrap();
        let said = write_on(&gone, &path, b"new").unwrap_err().to_string();
        assert!(said.contains("there is no such folder"), "{said}");
        assert!(!inner.exists());
    }

    /// A clock that was set back: what an earlier run left has a time to come, and is no reason to fail or to take it for old.
    #[test]
    fn a_clock_that_goes_back_loses_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("board.json");
        let ahead = std::time::SystemTime::now() + std::time::Duration::from_hours(48);
        for name in ["board.json", ".ringwright-Ab12"] {
            let file = fs::File::create(folder.path().join(name)).unwrap();
            file.set_modified(ahead).unwrap();
        }
        super::super::sweep(folder.path());
        assert!(folder.path().join(".ringwright-Ab12").exists());
        write_on(REAL, &path, b"new").unwrap();
        assert_eq!(read_limited(&path, 10).unwrap(), b"new");
    }
}
