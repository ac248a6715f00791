//! Key sizes and findings: what the board measures, and what would go wrong.

use std::sync::Arc;

use board::{Board, capital};
use egui::{
    Align, Color32, FontFamily, Galley, Layout, Margin, RichText, Role, ScrollArea, Sense, Stroke,
    Ui, WidgetInfo, vec2,
};
use workshop::{Finding, Severity};

use super::key_sizes::key_sizes_ui;
use crate::command::Command;
use crate::current::Current;
use crate::section::Section;
use crate::theme::{self, Tokens};
use crate::view::{Pane, ViewState, key};
use crate::widgets::{mark, seek};

/// Key sizes above, findings below.
pub fn findings_ui(ui: &mut Ui, current: &Current, view: &mut ViewState) {
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        // The scroll bar covers the right edge of the contents.
        ui.set_max_width(ui.available_width() - theme::GAP);
        if let Some(workpiece) = current.good() {
            sizes_heading(ui, &mut view.asked);
            key_sizes_ui(ui, workpiece, &mut view.asked);
            ui.separator();
            ui.add_space(theme::TIGHT);
        }
        heading(ui, "Findings");
        if let Some(error) = current.error() {
            error_ui(ui, &current.units().say(&error));
        }
        if let Some(workpiece) = current.good() {
            let (board, findings) = (workpiece.board(), workpiece.findings());
            let sound = |finding: &Finding| finding.severity == Severity::Note;
            if findings.iter().all(sound) && current.error().is_none() {
                all_clear(ui);
            }
            for finding in findings {
                finding_ui(ui, board, finding, view);
            }
        }
    });
}

/// A heading with a link at its right.
fn heading(ui: &mut Ui, title: &str) {
    ui.label(theme::heading(title));
    ui.add_space(theme::TIGHT);
}

/// The heading of the sizes, with a link to all figures.
fn sizes_heading(ui: &mut Ui, asked: &mut Vec<Command>) {
    ui.horizontal(|ui| {
        ui.label(theme::heading("Key sizes"));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let more = Command::Figures;
            let link = ui.link(more.label());
            // The tab over the drawing has the same words.
            link.widget_info(|| WidgetInfo::labeled(Role::Link, true, "Show all figures"));
            if link.on_hover_text(more.tooltip()).clicked() {
                asked.push(more);
            }
        });
    });
    ui.add_space(theme::TIGHT);
}

fn all_clear(ui: &mut Ui) {
    let color = Tokens::of(ui).fine;
    ui.label(RichText::new("✓ No problems found").color(color));
}

fn error_ui(ui: &mut Ui, sentence: &str) {
    let tokens = Tokens::of(ui);
    egui::Frame::new()
        .stroke(Stroke::new(1.0, tokens.stop))
        .corner_radius(theme::TIGHT)
        .inner_margin(theme::GAP)
        .show(ui, |ui| {
            ui.set_min_width(ui.available_width());
            ui.label(theme::bold("Cannot be built").color(tokens.stop));
            ui.label(sentence);
            ui.label(theme::quiet(
                "The board shown is the last one that could be.",
            ));
        });
}

/// One finding: its mark, its rule, its sentence; a click lights its holes and keeps them lit.
fn finding_ui(ui: &mut Ui, board: &Board, finding: &Finding, view: &mut ViewState) {
    let chosen = view.finding == Some(key(finding));
    let width = ui.available_width();
    let (spoken, lines) = lines(ui, board, finding, width - theme::INDENT - theme::GAP);
    let tall: f32 = lines.iter().map(|line| line.size().y + theme::HAIR).sum();
    let size = vec2(width, tall + 2.0 * theme::TIGHT);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, chosen, &spoken));
    let tokens = Tokens::of(ui);
    let ground = if chosen {
        tokens.chosen
    } else if response.hovered() {
        tokens.bench
    } else {
        Color32::TRANSPARENT
    };
    ui.painter().rect_filled(rect, theme::TIGHT, ground);
    let first = lines.first().map_or(0.0, |line| line.size().y);
    let corner = rect.left_top() + vec2(theme::INDENT, 2.0 * theme::TIGHT + first) / 2.0;
    let color = tokens.severity(finding.severity);
    mark(ui, corner, 1.0, finding.severity, color);
    let mut at = rect.left_top() + vec2(theme::INDENT, theme::TIGHT);
    for line in lines {
        let tall = line.size().y;
        ui.painter().galley(at, line, tokens.ink);
        at.y += tall + theme::HAIR;
    }
    let response = response.on_hover_text(finding.rule.statement(board.units));
    if response.hovered() || response.has_focus() {
        view.pointed = Some(key(finding));
    }
    if response.clicked() {
        view.finding = if chosen { None } else { Some(key(finding)) };
    }
    mends_ui(ui, finding, view);
    ui.add_space(theme::TIGHT);
}

/// The words of a finding: all of them in one, and its rule, its sentence and its measures laid out in a width.
fn lines(ui: &Ui, board: &Board, finding: &Finding, width: f32) -> (String, Vec<Arc<Galley>>) {
    let tokens = Tokens::of(ui);
    let title = format!(
        "{} · {}",
        capital(finding.severity.label()),
        finding.rule.label()
    );
    let plain = FontFamily::Proportional;
    let measures = finding.measures(board.units);
    let parts = [
        Some((title, theme::strong(), tokens.severity(finding.severity))),
        Some((capital(&finding.message), plain.clone(), tokens.ink)),
        measures.map(|words| (words, plain, tokens.faint_ink)),
    ];
    let parts = parts.into_iter().flatten();
    let laid = parts.map(|(words, family, color)| {
        let spoken = words.clone();
        let font = theme::body(family);
        (spoken, ui.painter().layout(words, font, color, width))
    });
    let (spoken, lines): (Vec<String>, Vec<Arc<Galley>>) = laid.unzip();
    (spoken.join("\n"), lines)
}

/// A button for each one-step fix of a finding, and one for each section in which it is fixed by hand.
fn mends_ui(ui: &mut Ui, finding: &Finding, view: &mut ViewState) {
    let under = egui::Frame::new().inner_margin(Margin {
        left: theme::INDENT as i8,
        ..Margin::ZERO
    });
    under.show(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            // Two findings may have the same fix: its name for screen readers says which finding it belongs to.
            let (severity, rule) = (finding.severity.label(), finding.rule.label());
            let pressed = |ui: &mut Ui, label: &str| {
                let name = format!("{label} ({severity}: {rule})");
                let button = ui.button(label);
                button.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
                button.clicked()
            };
            for &mend in &finding.mends {
                if pressed(ui, mend.label()) {
                    view.asked.push(Command::Mend(mend));
                }
            }
            // A hole that breaks into a mortise is helped by moving either of them.
            let rules = core::iter::once(finding.rule).chain(finding.meets);
            for section in rules.map(Section::of_rule) {
                if pressed(ui, &format!("Go to {}", section.title())) {
                    view.stage = section.stage();
                    view.pane = Pane::Controls;
                    seek(ui.ctx(), None, section);
                }
            }
        })
    });
}
