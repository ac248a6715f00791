//! Exports asked for, and the results of jobs: files written, paths picked.

use std::path::{Path, PathBuf};

use kurbo::Size;

use super::App;
use crate::dialogs::{Dialog, ExportDialog, ExportedDialog};
use crate::exports::{Kind, Made, Source};
use crate::files::Printing;
use crate::host::{Ask, Host, Picked};
use crate::jobs::{Outcome, Written, WrittenFile};

impl App {
    pub(super) fn ask_what_to_export(&mut self) {
        let last = &self.settings.export_folder;
        let folder = if last.as_os_str().is_empty() {
            self.folder().join("templates")
        } else {
            last.clone()
        };
        let Some(workpiece) = self
            .current
            .good()
            .filter(|_| self.current.error().is_none())
        else {
            self.view
                .warn("this board cannot be laid out, so that there is nothing to export");
            return;
        };
        let source = Source::new(workpiece.clone(), self.host.today()).at(self.host.now());
        let source = source.with_cut(self.view.selected);
        let dialog = ExportDialog::new(source, workpiece.findings(), &folder);
        self.view.dialog = Some(Dialog::Export(dialog));
    }

    /// Takes the results of finished jobs.
    pub(super) fn finish_jobs(&mut self) {
        while let Some(outcome) = self.jobs.finished() {
            match outcome {
                Outcome::Picked(ask, picked) => self.take_pick(&ask, picked),
                Outcome::Exported(result) => self.take_export(result),
                Outcome::Printed(name, result) => self.take_print(&name, result),
                Outcome::Broken(what) => {
                    self.view.warn(format!(
                        "{what} failed: internal error; nothing of yours was changed"
                    ));
                }
            }
        }
    }

    /// Gives a picked path to the dialog that asked for it, if that is still open.
    fn take_pick(&mut self, ask: &Ask, picked: Picked) {
        let Some(dialog) = self.view.dialog.as_mut().filter(|dialog| dialog.asks(ask)) else {
            return;
        };
        match picked {
            Picked::Path(path) => dialog.take_path(&path),
            Picked::Nothing => {}
            Picked::NoDialog => {
                let words = "no file browser is available; type a path";
                self.complain(Some(words.into()));
            }
        }
    }

    /// Sends a file to the printer beside the window: the system may take its time.
    pub(super) fn print(&mut self, ctx: &egui::Context, path: PathBuf, page: Size) {
        let name = path.file_name().unwrap_or(path.as_os_str());
        let name = name.to_string_lossy().into_owned();
        let started = self
            .jobs
            .start(ctx, &self.host, "the printing", move |host, _| {
                Outcome::Printed(name, host.print(&path, page))
            });
        self.complain(started.err());
    }

    /// Reports how a print went, and what to check on it before any wood is drilled.
    fn take_print(&mut self, name: &str, result: Result<Printing, String>) {
        let words = match result {
            Ok(Printing::Sent) => format!(
                "{name} went to the printer at 100 %. Measure the bars of the first sheet both ways before you drill"
            ),
            Ok(Printing::Shown) => format!(
                "{name} is open in its viewer: print it there at 100 %, not fitted to the page, and measure the bars"
            ),
            Err(error) => return self.complain(Some(error)),
        };
        match &mut self.view.dialog {
            Some(Dialog::Exported(dialog)) => dialog.tell(words),
            _ => self.view.notify(words),
        }
    }

    /// Reports how an export went: in a dialog of its own if that of the export is still open, and below the board otherwise.
    fn take_export(&mut self, result: Result<Written, String>) {
        let open = matches!(self.view.dialog, Some(Dialog::Export(_)));
        match result {
            Ok(written) => {
                if !written.files.is_empty() {
                    self.view.notify(exported(&written.files));
                }
                if open || !written.left_out.is_empty() {
                    let dialog = ExportedDialog::new(written, self.session.board.units);
                    self.view.dialog = Some(Dialog::Exported(dialog));
                }
            }
            Err(error) if open => self.complain(Some(error)),
            Err(error) => self.view.warn(error),
        }
    }
}

/// Writes exports of kinds into a folder, all files of those that can be made or none; returns the files written and the kinds
/// left out.
///
/// # Errors
/// The fault in words, where a file cannot be written.
pub(super) fn write_files(
    host: &dyn Host,
    source: &Source,
    kinds: &[Kind],
    folder: &Path,
    replace: bool,
) -> Result<Written, String> {
    let Some(Made {
        files,
        pages,
        left_out,
    }) = source.made(kinds)
    else {
        return Err("the export was stopped; no file was written".into());
    };
    let paths = if files.is_empty() {
        Vec::new()
    } else {
        host.write_all(folder, &files, replace)
            .map_err(|error| error.to_string())?
    };
    let files = paths.into_iter().zip(pages);
    let files = files.map(|(path, page)| WrittenFile { path, page });
    Ok(Written {
        files: files.collect(),
        left_out,
    })
}

fn exported(files: &[WrittenFile]) -> String {
    let folder = files
        .first()
        .and_then(|file| file.path.parent())
        .map(|folder| folder.display().to_string())
        .unwrap_or_default();
    let names: Vec<_> = files
        .iter()
        .filter_map(|file| file.path.file_name())
        .map(|name| name.to_string_lossy())
        .collect();
    format!(
        "wrote {} to {folder}: {}",
        board::several(names.len(), "file"),
        names.join(", ")
    )
}
