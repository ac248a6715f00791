//! Figures and findings: what the board measures, and what would go wrong.

use board::{Board, Choice, Measure, capital};
use egui::{
    Align, Button, Color32, Layout, RichText, Role, ScrollArea, Shape, Stroke, Ui, WidgetInfo, vec2,
};
use workshop::{Finding, Severity, Workpiece};

use crate::command::Command;
use crate::current::Current;
use crate::section::Section;
use crate::theme::{self, Tokens};
use crate::view::{Pane, ViewState, key};
use crate::widgets::seek;

/// Figures above, findings below.
pub fn findings_ui(ui: &mut Ui, current: &Current, view: &mut ViewState) {
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        if let Some(workpiece) = current.good() {
            heading(ui, "Figures");
            figures_ui(ui, workpiece);
            ui.add_space(theme::GAP);
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

fn heading(ui: &mut Ui, title: &str) {
    ui.add_space(4.0);
    ui.label(RichText::new(title).family(theme::strong()).size(15.0));
    ui.add_space(2.0);
}

fn figures_ui(ui: &mut Ui, workpiece: &Workpiece) {
    let board = workpiece.board();
    let length = |mm| Measure::mm(mm).shown(board.units);
    let figures = workpiece.figures();
    figure(ui, "Holes", &figures.holes.to_string(), "");
    if let Some((web, a, b)) = figures.smallest_web {
        figure(
            ui,
            "Least between holes",
            &length(web),
            &format!("{a} – {b}"),
        );
    }
    if let Some((rim, name)) = figures.smallest_rim {
        figure(ui, "Rim margin", &length(rim), &name.to_string());
    }
    figure(ui, "Farthest hole center", &length(figures.reach), "");
    match workpiece.tiling() {
        Ok(tiling) => {
            let way = if tiling.is_landscape() {
                "landscape"
            } else {
                "portrait"
            };
            let paper = board.template.paper.words();
            figure(
                ui,
                "Sheets",
                &tiling.tiles.len().to_string(),
                &format!("{} × {} {paper}, {way}", tiling.columns, tiling.rows),
            );
            if let Some((name, mm)) = tiling.nearest {
                figure(ui, "Nearest to a joint", &length(mm), &name.to_string());
            }
        }
        Err(_) => figure(ui, "Sheets", "none", "see the findings"),
    }
}

fn figure(ui: &mut Ui, caption: &str, value: &str, about: &str) {
    ui.horizontal(|ui| {
        ui.allocate_ui_with_layout(
            vec2(140.0, 18.0),
            Layout::left_to_right(Align::Center),
            |ui| {
                ui.set_min_width(140.0);
                ui.label(RichText::new(caption).weak());
            },
        );
        ui.label(RichText::new(value).family(theme::strong()));
        ui.add(egui::Label::new(RichText::new(about).weak().small()).truncate());
    });
}

fn all_clear(ui: &mut Ui) {
    let color = Tokens::of(ui).fine;
    ui.label(RichText::new("✓ No problems found").color(color));
}

fn error_ui(ui: &mut Ui, sentence: &str) {
    let tokens = Tokens::of(ui);
    egui::Frame::new()
        .stroke(Stroke::new(1.0, tokens.stop))
        .corner_radius(4.0)
        .inner_margin(8.0)
        .show(ui, |ui| {
            ui.set_min_width(ui.available_width());
            ui.label(
                RichText::new("Cannot be built")
                    .color(tokens.stop)
                    .family(theme::strong()),
            );
            ui.label(sentence);
            ui.label(
                RichText::new("The board shown is the last one that could be.")
                    .weak()
                    .small(),
            );
        });
}

/// One finding: its mark, its rule, its sentence; a click lights its holes and keeps them lit.
fn finding_ui(ui: &mut Ui, board: &Board, finding: &Finding, view: &mut ViewState) {
    let chosen = view.finding == Some(key(finding));
    let tokens = Tokens::of(ui);
    let color = tokens.severity(finding.severity);
    let mut job = egui::text::LayoutJob::default();
    let word = |text: &str, family, color| {
        (
            text.to_owned(),
            egui::TextFormat::simple(egui::FontId::new(13.5, family), color),
        )
    };
    let measures = finding.measures(board.units);
    let measures = measures.map_or_else(String::new, |line| format!("\n{line}"));
    let parts = [
        word(
            &format!(
                "     {} · {}\n",
                capital(finding.severity.label()),
                finding.rule.label()
            ),
            theme::strong(),
            color,
        ),
        word(&finding.message, egui::FontFamily::Proportional, tokens.ink),
        word(&measures, egui::FontFamily::Proportional, tokens.faint_ink),
    ];
    for (text, format) in parts {
        job.append(&text, 0.0, format);
    }
    job.wrap.max_width = ui.available_width() - 20.0;
    let response = ui.add(
        Button::selectable(chosen, job)
            .wrap()
            .min_size(vec2(ui.available_width(), 0.0)),
    );
    let corner = response.rect.left_top() + vec2(16.0, 13.0);
    mark(ui, corner, 1.0, finding.severity, color);
    let response = response.on_hover_text(finding.rule.statement(board.units));
    if response.hovered() || response.has_focus() {
        view.pointed = Some(key(finding));
    }
    if response.clicked() {
        view.finding = if chosen { None } else { Some(key(finding)) };
    }
    mends_ui(ui, finding, view);
}

/// A button for each way to mend a finding in one step, and one that goes to the section in which it is mended by hand.
fn mends_ui(ui: &mut Ui, finding: &Finding, view: &mut ViewState) {
    ui.horizontal_wrapped(|ui| {
        ui.add_space(22.0);
        // Two findings may be mended by the same step: a screen reader hears which this is.
        let (severity, rule) = (finding.severity.label(), finding.rule.label());
        let pressed = |ui: &mut Ui, label: &str| {
            let name = format!("{label} ({severity}: {rule})");
            let button = ui.small_button(label);
            button.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
            button.clicked()
        };
        for &mend in &finding.mends {
            if pressed(ui, mend.label()) {
                view.asked.push(Command::Mend(mend));
            }
        }
        let section = Section::of_rule(finding.rule);
        if pressed(ui, &format!("Go to {}", section.title())) {
            view.stage = section.stage();
            view.pane = Pane::Controls;
            seek(ui.ctx(), None, section);
        }
    });
}

/// The severity as a shape too, of a size: a filled square, a triangle, a ring.
pub fn mark(ui: &Ui, center: egui::Pos2, size: f32, severity: Severity, color: Color32) {
    let painter = ui.painter();
    let at = |x: f32, y: f32| center + size * vec2(x, y);
    match severity {
        Severity::Stop => {
            let square = egui::Rect::from_center_size(center, size * vec2(10.0, 10.0));
            painter.rect_filled(square, 1.0, color);
        }
        Severity::Caution => {
            painter.add(Shape::convex_polygon(
                vec![at(0.0, -6.0), at(6.0, 5.0), at(-6.0, 5.0)],
                color,
                Stroke::NONE,
            ));
        }
        Severity::Note => {
            painter.circle_stroke(center, size * 4.5, Stroke::new(2.0, color));
        }
    }
}
