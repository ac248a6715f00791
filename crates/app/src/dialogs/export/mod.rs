//! The export dialog: the kinds to export, the folder, and a preview of every page.

mod preview;

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{Align, Layout, RichText, ScrollArea, Ui, Vec2, vec2};

use super::path::{PathRow, path_row, typed};
use super::{Answer, fault_ui, heading, two_buttons};
use crate::exports::{Effort, Group, Kind, Lack, SheetCount, Source};
use crate::host::{Ask, Host};
use crate::places::Spot;
use crate::theme;
use crate::widgets::at_right;
use preview::{Preview, preview_ui};
use workshop::{Finding, stops};

/// State of the export dialog: the kinds, which of them are chosen, and the folder.
pub struct ExportDialog {
    source: Arc<Source>,
    kinds: Vec<Choice>,
    preview: Preview,
    /// Size of the proof picture: pixels along its longer side.
    proof: u32,
    /// The folder, as typed.
    pub folder: String,
    replace: bool,
    /// Whether any finding of the board is a stop.
    stopped: bool,
    /// Whether the files are being written.
    is_busy: bool,
    /// The message about the last failed export, if there is one.
    pub fault: Option<String>,
}

/// One kind of export, and whether it is chosen.
struct Choice {
    kind: Kind,
    files: Vec<String>,
    chosen: bool,
    /// The part that the board would have to plan first; the kind cannot be chosen without it.
    missing: Option<&'static str>,
    /// Numbers and parts that the kind needs and the board does not have.
    lacks: Vec<Lack>,
    /// The number of the template's sheets, for a kind that has sheets.
    sheets: Option<SheetCount>,
    /// The estimated time and memory, for a kind that can take long.
    effort: Option<Effort>,
}

impl ExportDialog {
    /// A new dialog for a board with these findings: the usual kinds are chosen, and `folder` is filled in.
    pub fn new(source: Source, findings: &[Finding], folder: &Path) -> Self {
        let choice = |kind: Kind| Choice {
            kind,
            files: source.file_names(kind),
            chosen: kind.is_usual(source.board()),
            missing: kind.missing(source.board()),
            lacks: source.lacks(kind),
            sheets: source.sheets(kind),
            effort: source.effort(kind),
        };
        Self {
            kinds: Kind::ALL.into_iter().map(choice).collect(),
            proof: source.proof_size(),
            source: Arc::new(source),
            preview: Preview::new(),
            folder: folder.display().to_string(),
            replace: false,
            stopped: stops(findings),
            is_busy: false,
            fault: None,
        }
    }

    /// Sets another folder. The permission to replace files is withdrawn, because it was given for the old folder.
    pub fn set_folder(&mut self, folder: String) {
        self.folder = folder;
        self.replace = false;
    }

    /// Shows the message about a failed export, and enables the Export button again.
    pub fn set_fault(&mut self, sentence: String) {
        self.fault = Some(sentence);
        self.is_busy = false;
    }

    /// Names of the chosen files that the folder already has.
    fn there(&self, folder: &PathBuf, host: &dyn Host) -> Vec<String> {
        let chosen = self.kinds.iter().filter(|choice| choice.chosen);
        let files = chosen.flat_map(|choice| choice.files.iter().cloned());
        files
            .filter(|file| host.exists(&Path::new(folder).join(file)))
            .collect()
    }
}

/// Width of the column with the kinds, in points.
const KINDS: f32 = 400.0;
/// Least and most width of the whole dialog, in points.
const WIDTHS: (f32, f32) = (340.0, 1500.0);
/// Least width of the dialog at which the preview fits beside the kinds, in points.
const BESIDE: f32 = 700.0;
/// Height of everything but the list of kinds, in points.
const AROUND: f32 = 250.0;
/// Height of each optional line (stop warning, existing files, error message), in points.
const LINE: f32 = 30.0;

/// The whole dialog; returns the answer when a button or a link was pressed.
pub fn export_ui(ui: &mut Ui, dialog: &mut ExportDialog, host: &dyn Host) -> Option<Answer> {
    let window = ui.ctx().content_rect().size();
    let width = (window.x - 80.0).clamp(WIDTHS.0, WIDTHS.1);
    ui.set_width(width);
    let there = dialog.there(&typed(&dialog.folder), host);
    heading(ui, "Export templates and tables");
    if dialog.stopped {
        let words = "▲ This board has findings marked stop. Fix them before you cut wood.";
        ui.label(RichText::new(words).color(theme::Tokens::of(ui).stop));
    }
    let lines = [dialog.stopped, !there.is_empty(), dialog.fault.is_some()];
    let lines = lines.into_iter().filter(|is_there| *is_there).count();
    let height = (window.y - AROUND - LINE * lines as f32).max(80.0);
    let is_beside = width >= BESIDE;
    let visited = ui
        .horizontal_top(|ui| {
            let column = Layout::top_down(Align::Min);
            let size = vec2(if is_beside { KINDS } else { width }, height);
            let kinds = ui.allocate_ui_with_layout(size, column, |ui| {
                ScrollArea::vertical()
                    .id_salt("kinds")
                    .max_height(height)
                    .min_scrolled_height(height.min(64.0))
                    .auto_shrink(false)
                    .show(ui, |ui| kinds_ui(ui, dialog, host))
                    .inner
            });
            if is_beside {
                ui.add_space(theme::GAP);
                let size = Vec2::new(ui.available_width(), height);
                preview_ui(ui, &mut dialog.preview, size);
            }
            kinds.inner
        })
        .inner;
    ui.add_space(theme::GAP);
    let answer = where_ui(ui, dialog, &there);
    visited.map(Answer::Visit).or(answer)
}

/// The kinds by group, each with a check box and a Show button; returns where to go when a missing number was pressed.
fn kinds_ui(ui: &mut Ui, dialog: &mut ExportDialog, host: &dyn Host) -> Option<Spot> {
    let (mut shown, mut visited) = (dialog.preview.kind(), None);
    // The scroll bar is drawn over the right edge of the contents.
    ui.set_max_width(ui.available_width() - theme::GAP - theme::TIGHT);
    for group in Group::ALL {
        let in_group = |choice: &&mut Choice| choice.kind.group() == group;
        group_ui(ui, group, dialog.kinds.iter_mut().filter(in_group));
        for choice in dialog.kinds.iter_mut().filter(in_group) {
            kind_ui(ui, choice, &mut shown);
            let is_shown = shown == Some(choice.kind);
            let about = about_ui(ui, choice, is_shown, &mut dialog.proof);
            visited = visited.or(about);
        }
    }
    if dialog.proof != dialog.source.proof_size() {
        let source = (*dialog.source).clone();
        dialog.source = Arc::new(source.with_proof(dialog.proof));
        for choice in &mut dialog.kinds {
            choice.effort = dialog.source.effort(choice.kind);
        }
    }
    let first = || {
        dialog
            .kinds
            .iter()
            .find(|choice| choice.missing.is_none())
            .map(|choice| choice.kind)
    };
    if let Some(kind) = shown.or_else(first) {
        let source = previewed(ui.ctx(), &dialog.source);
        dialog.preview.show(ui.ctx(), host, &source, kind);
    }
    visited
}

/// The heading of a group, with buttons that choose all of its kinds or none.
fn group_ui<'a>(ui: &mut Ui, group: Group, choices: impl Iterator<Item = &'a mut Choice>) {
    ui.add_space(theme::GAP);
    let mut all = None;
    ui.horizontal(|ui| {
        let title = |ui: &mut Ui| {
            ui.label(theme::bold(group.label()));
        };
        at_right(ui, group.label(), title, |ui| {
            for (word, chosen) in [("All", true), ("None", false)] {
                let button = ui.button(word);
                let name = format!("{word}: {}", group.label());
                button.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
                if button.clicked() {
                    all = Some(chosen);
                }
            }
        });
    });
    if let Some(chosen) = all {
        for choice in choices {
            choice.chosen = chosen && choice.missing.is_none();
        }
    }
}

/// One kind: its check box, and the button that shows it in the preview.
fn kind_ui(ui: &mut Ui, choice: &mut Choice, shown: &mut Option<Kind>) {
    ui.horizontal(|ui| {
        ui.add_enabled(
            choice.missing.is_none(),
            egui::Checkbox::new(&mut choice.chosen, choice.kind.label()),
        );
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let is_shown = *shown == Some(choice.kind);
            let button = egui::Button::selectable(is_shown, "Show").frame_when_inactive(true);
            let button = ui.add_enabled(choice.missing.is_none(), button);
            let name = format!("Show {}", choice.kind.label());
            button.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
            if button.clicked() {
                *shown = Some(choice.kind);
            }
        });
    });
}

/// The lines below a kind: its use, missing numbers, sheets and files; returns where to go when a missing number
/// was pressed.
fn about_ui(ui: &mut Ui, choice: &Choice, is_shown: bool, proof: &mut u32) -> Option<Spot> {
    let line = ui.horizontal(|ui| {
        ui.add_space(theme::INDENT);
        let about = ui.vertical(|ui| {
            if choice.missing.is_none() {
                ui.label(RichText::new(choice.kind.purpose()).small());
            }
            let visited = lacks_ui(ui, &choice.lacks);
            if let Some(sheets) = &choice.sheets {
                let tokens = theme::Tokens::of(ui);
                let (mark, color) = if sheets.is_within_limit {
                    ("", tokens.ink)
                } else {
                    ("▲ ", tokens.caution)
                };
                let words = format!("{mark}{}", sheets.words);
                ui.label(RichText::new(words).small().color(color));
            }
            if choice.kind == Kind::Proof {
                proof_size_ui(ui, proof);
            }
            if let Some(effort) = choice.effort.as_ref().filter(|effort| effort.is_large) {
                let words = format!("▲ {}; it can be stopped", effort.words);
                let color = theme::Tokens::of(ui).caution;
                ui.label(RichText::new(words).small().color(color));
            }
            // Only for the kind in the preview: file names below every kind would make the list twice as long.
            if is_shown && !choice.files.is_empty() {
                ui.label(theme::quiet(told(&choice.files)));
            }
            visited
        });
        about.inner
    });
    line.inner
}

/// Missing numbers, each a link to its field; returns where to go when a link was pressed.
pub(super) fn lacks_ui(ui: &mut Ui, lacks: &[Lack]) -> Option<Spot> {
    if lacks.is_empty() {
        return None;
    }
    let color = theme::Tokens::of(ui).caution;
    let line = ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        ui.label(RichText::new("▲ Needs:").small().color(color));
        let mut visited = None;
        for lack in lacks {
            let link = ui.link(RichText::new(&lack.words).small());
            if link.on_hover_text("Go to this setting").clicked() {
                visited = Some(lack.spot.clone());
            }
        }
        visited
    });
    line.inner
}

/// The source for the preview: its proof no larger than the usual size and what the graphics card can hold.
fn previewed(ctx: &egui::Context, source: &Arc<Source>) -> Arc<Source> {
    let (least, usual, _) = picture::SIZES;
    let most = ctx.input(|input| input.max_texture_side) as u32;
    let seen = source.proof_size().min(usual).min(most).max(least);
    if seen == source.proof_size() {
        return source.clone();
    }
    Arc::new((**source).clone().with_proof(seen))
}

/// The field for the size of the proof: pixels along its longer side.
fn proof_size_ui(ui: &mut Ui, pixels: &mut u32) {
    let (least, _, most) = picture::SIZES;
    ui.horizontal(|ui| {
        let label = ui.label(RichText::new("Longer side, pixels").small());
        ui.add(egui::DragValue::new(pixels).range(least..=most).speed(20))
            .on_hover_text(format!(
                "{least} to {most}; 2000 is enough for email or a printed page"
            ))
            .labelled_by(label.id);
    });
}

/// The names of files in words; of many, the first, the last and their number.
fn told(files: &[String]) -> String {
    match files {
        [] => String::new(),
        [one] => one.clone(),
        [first, .., last] => format!("{first} … {last}: {} files", files.len()),
    }
}

/// The folder, the check box for replacing existing files, and the buttons; returns the answer when one was pressed.
fn where_ui(ui: &mut Ui, dialog: &mut ExportDialog, there: &[String]) -> Option<Answer> {
    let before = dialog.folder.clone();
    let PathRow { browse, .. } = path_row(ui, "Folder", &mut dialog.folder, &mut true);
    if dialog.folder != before {
        dialog.replace = false;
    }
    let folder = typed(&dialog.folder);
    if !there.is_empty() {
        ui.horizontal(|ui| {
            ui.checkbox(&mut dialog.replace, "Replace existing files");
            ui.label(RichText::new(format!("Already in the folder: {}", told(there))).weak());
        });
    }
    fault_ui(ui, dialog.fault.as_ref());
    let chosen = dialog.kinds.iter().filter(|choice| choice.chosen);
    let kinds: Vec<Kind> = chosen.map(|choice| choice.kind).collect();
    let ready = !dialog.is_busy
        && !kinds.is_empty()
        && !dialog.folder.trim().is_empty()
        && (there.is_empty() || dialog.replace);
    // The status line has a Stop button too, but the dialog covers it.
    let [other, words] = if dialog.is_busy {
        ["Stop", "Exporting …"]
    } else {
        ["Cancel", "Export"]
    };
    let was_busy = dialog.is_busy;
    let (export, leave) = two_buttons(ui, other, words, ready);
    if browse {
        Some(Answer::Browse(Ask::Folder))
    } else if export {
        (dialog.is_busy, dialog.fault) = (true, None);
        Some(Answer::Export(
            dialog.source.clone(),
            kinds,
            folder,
            dialog.replace,
        ))
    } else if was_busy {
        leave.then_some(Answer::Stop)
    } else {
        leave.then_some(Answer::Cancel)
    }
}

#[cfg(test)]
mod tests {
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable as _;

    use super::*;
    use crate::fake::Fake;

    #[test]
    fn an_export_that_is_running_is_stopped_from_its_dialog() {
        let source = Source::of(&board::Board::default(), Fake::new().today()).unwrap();
        let mut dialog = ExportDialog::new(source, &[], Path::new("/home/maker"));
        dialog.is_busy = true;
        let mut window = Harness::builder()
            .with_size([1000.0, 700.0])
            .with_context_setup(crate::theme::install)
            .build_ui_state(
                |ui, (dialog, answer): &mut (ExportDialog, Option<Answer>)| {
                    let now = export_ui(ui, dialog, &Fake::new());
                    *answer = now.or(answer.take());
                },
                (dialog, None),
            );
        window.run_steps(4);
        assert!(window.query_by_label("Cancel").is_none());
        window.get_by_label("Stop").click();
        window.run_steps(4);
        assert!(matches!(window.state().1, Some(Answer::Stop)));
    }
}
