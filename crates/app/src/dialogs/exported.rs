//! The dialog after an export: files written, with ways to open them, and kinds that could not be made.

use std::path::{Path, PathBuf};

use board::field::Choice as _;
use board::{Measure, Paper, Units};
use egui::{RichText, Role, ScrollArea, Ui, WidgetInfo};
use kurbo::Size;
use workshop::paper_of;

use super::export::lacks_ui;
use super::{Answer, button_row, fault_ui, heading};
use crate::exports::LeftOut;
use crate::jobs::{Written, WrittenFile};
use crate::theme::{self, Tokens};
use crate::widgets::{main_button, words_width};

/// The files that were written, and the kinds that were not.
pub struct ExportedDialog {
    written: Written,
    /// The units that paper is given in.
    units: Units,
    /// The file that is to be printed, if the maker agrees, and the size of its pages in mm.
    printing: Option<(PathBuf, Size)>,
    /// The result of opening or printing a file, in words.
    said: Option<String>,
    /// The fault, if there is one.
    pub fault: Option<String>,
}

impl ExportedDialog {
    /// The dialog for the result of an export.
    pub const fn new(written: Written, units: Units) -> Self {
        Self {
            written,
            units,
            printing: None,
            said: None,
            fault: None,
        }
    }

    /// Shows the result of opening or printing a file.
    pub fn tell(&mut self, words: String) {
        (self.said, self.fault) = (Some(words), None);
    }

    fn folder(&self) -> Option<&Path> {
        self.written.files.first()?.path.parent()
    }
}

/// Height of everything but the list of files, in points.
const AROUND: f32 = 230.0;
/// Height of the question whether to print.
const ASKS: f32 = 132.0;
/// Rows taken by a kind that was not written.
const LEFT_OUT: f32 = 3.0;

/// The folder and its files, each with a button that opens it, and what is left to do for those that are missing.
pub fn exported_ui(ui: &mut Ui, dialog: &mut ExportedDialog) -> Option<Answer> {
    let count = dialog.written.files.len();
    heading(
        ui,
        if count == 0 {
            "Nothing was exported"
        } else {
            "Exported"
        },
    );
    if let Some(folder) = dialog.folder() {
        let files = board::several(count, "file");
        ui.label(format!("{files} in {}", folder.display()));
    }
    let rows = count as f32 + LEFT_OUT * dialog.written.left_out.len() as f32;
    let all = rows * (ui.spacing().interact_size.y + ui.spacing().item_spacing.y);
    let asks = if dialog.printing.is_some() { ASKS } else { 0.0 };
    let height = all.min((ui.ctx().content_rect().height() - AROUND - asks).max(90.0));
    let asked = ScrollArea::vertical()
        .max_height(height)
        .min_scrolled_height(height)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            ui.set_max_width(ui.available_width() - theme::GAP);
            let mut asked = None;
            for left_out in &dialog.written.left_out {
                asked = asked.or(left_out_ui(ui, left_out));
            }
            for file in &dialog.written.files {
                asked = asked.or(file_ui(ui, file, &mut dialog.printing));
            }
            asked
        });
    let prints = print_ui(ui, &mut dialog.printing, dialog.units);
    if let Some(words) = &dialog.said {
        ui.add_space(theme::TIGHT);
        ui.colored_label(Tokens::of(ui).fine, format!("✓ {words}."));
    }
    fault_ui(ui, dialog.fault.as_ref());
    let pressed = button_row(ui, |ui| {
        let closes = ui.button("Close").clicked().then_some(Answer::Cancel);
        let folder = dialog.folder().map(Path::to_path_buf);
        let opens = folder.filter(|_| main_button(ui, "Open folder").clicked());
        closes.or(opens.map(Answer::Show))
    });
    pressed.or(prints).or(asked.inner)
}

/// A kind that was not written: why, and what it needs.
fn left_out_ui(ui: &mut Ui, left_out: &LeftOut) -> Option<Answer> {
    let words = format!("▲ Not written: {}", left_out.kind.label());
    ui.colored_label(Tokens::of(ui).stop, words);
    if left_out.lacks.is_empty() {
        ui.label(RichText::new(&left_out.why).small());
    }
    let visited = lacks_ui(ui, &left_out.lacks);
    ui.add_space(theme::GAP);
    visited.map(Answer::Visit)
}

/// The words on the button that asks to print a file.
const PRINT: &str = "Print…";

/// A file with the button that opens it, and for one of pages the button that asks to print it.
fn file_ui(
    ui: &mut Ui,
    file: &WrittenFile,
    printing: &mut Option<(PathBuf, Size)>,
) -> Option<Answer> {
    let name = file.path.file_name()?.to_string_lossy().into_owned();
    let line = ui.horizontal(|ui| {
        let pressed = |ui: &mut Ui, words: &str| {
            let button = ui.button(words);
            let label = format!("{words} {name}");
            button.widget_info(|| WidgetInfo::labeled(Role::Button, true, &label));
            button.clicked()
        };
        let opens = pressed(ui, "Open file");
        if let Some(page) = file.page {
            if pressed(ui, PRINT) {
                *printing = Some((file.path.clone(), page));
            }
        } else {
            // The print buttons have a column of their own, so that the names line up.
            let around = 2.0 * ui.spacing().button_padding.x + ui.spacing().item_spacing.x;
            ui.add_space(words_width(ui, PRINT) + around);
        }
        ui.label(&name);
        opens
    });
    line.inner.then(|| Answer::Show(file.path.clone()))
}

/// `A4 paper`, or `paper 24" × 30"` where the size has no name.
fn paper_words(page: Size, units: Units) -> String {
    let length = |mm| Measure::mm(mm).shown(units);
    match paper_of(page) {
        Paper::Custom { width, height } => {
            format!("paper {} × {}", length(width), length(height))
        }
        known => format!("{} paper", known.words()),
    }
}

/// Asks before a file is printed, and says how it will be.
fn print_ui(ui: &mut Ui, printing: &mut Option<(PathBuf, Size)>, units: Units) -> Option<Answer> {
    let (path, page) = printing.clone()?;
    let name = path.file_name()?.to_string_lossy().into_owned();
    ui.add_space(theme::GAP);
    let frame = egui::Frame::new()
        .stroke(egui::Stroke::new(1.0, Tokens::of(ui).accent))
        .corner_radius(theme::TIGHT)
        .inner_margin(theme::GAP);
    let pressed = frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.label(theme::bold(format!("Print {name}?")));
        let paper = paper_words(page, units);
        ui.label(format!(
            "It goes to your default printer at true size, without scaling, on one side of {paper}. Load that paper first."
        ));
        ui.horizontal(|ui| {
            let prints = ui.button("Print").clicked();
            let leaves = ui.button("Don't print").clicked();
            if prints || leaves {
                *printing = None;
            }
            prints
        })
        .inner
    });
    pressed.inner.then_some(Answer::Print(path, page))
}
