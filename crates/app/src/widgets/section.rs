//! A section of the controls that can be folded; folded, its header summarizes its contents.

use egui::collapsing_header::{CollapsingState, paint_default_icon};
use egui::text::{LayoutJob, TextFormat, TextWrapping};
use egui::{Id, Rect, Response, Role, Sense, TextStyle, Ui, WidgetInfo, pos2, vec2};
use workshop::Severity;

use super::{mark, seek};
use crate::section::{Folds, Section};
use crate::theme::{self, Tokens};

/// Width of the triangle at its left, and of the mark at its right, in points.
const ICON: f32 = 18.0;
const MARK: f32 = 20.0;
/// Size of the triangle itself.
const TRIANGLE: f32 = 8.0;

/// The words and the mark on a header.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Header {
    /// A summary of the section, shown while it is folded; may be empty.
    pub summary: String,
    /// The worst severity of the findings that are fixed in it, and their number in words.
    pub held: Option<(Severity, String)>,
    /// The fields in it that differ from a new board, for the tooltip of the header; may be empty.
    pub changed: String,
}

/// A section under its header, folded or not as the maker left it; returns the response of its body, or of its header while it is
/// folded.
pub fn section(
    ui: &mut Ui,
    section: Section,
    folds: &mut Folds,
    header: &Header,
    content: impl FnOnce(&mut Ui),
) -> Response {
    if seek::is_in(ui.ctx(), section) {
        folds.set(section, true);
    }
    let id = ui.make_persistent_id(section.title());
    let is_open = folds.is_open(section);
    let mut state = CollapsingState::load_with_default_open(ui.ctx(), id, is_open);
    let response = header_ui(ui, id, section, is_open, state.openness(ui.ctx()), header);
    if response.clicked() {
        folds.set(section, !is_open);
    }
    state.set_open(folds.is_open(section));
    let body = state.show_body_unindented(ui, |ui| {
        ui.add_space(theme::HAIR);
        // Two sections may have a row with the same caption.
        ui.push_id(section.title(), |ui| seek::within(ui, section, content));
        ui.add_space(theme::GAP);
    });
    state.store(ui.ctx());
    body.map_or(response, |body| body.response)
}

/// The header, as wide as the panel: triangle, title, summary, and the mark of what is wrong in the section.
fn header_ui(
    ui: &mut Ui,
    id: Id,
    section: Section,
    is_open: bool,
    openness: f32,
    header: &Header,
) -> Response {
    let size = vec2(ui.available_width(), ui.spacing().interact_size.y);
    let (_, rect) = ui.allocate_space(size);
    let response = ui.interact(rect, id, Sense::click());
    response.widget_info(|| {
        WidgetInfo::labeled(Role::DisclosureTriangle, ui.is_enabled(), section.title())
    });
    let summary = if is_open { "" } else { header.summary.as_str() };
    ui.ctx().accesskit_node_builder(id, |node| {
        node.set_expanded(is_open);
        let told = [summary, header.held.as_ref().map_or("", |held| &held.1)];
        let told = told
            .map(str::to_owned)
            .into_iter()
            .filter(|words| !words.is_empty());
        node.set_description(told.collect::<Vec<_>>().join("; "));
    });
    if ui.is_rect_visible(rect) {
        paint(
            ui,
            &response,
            section,
            summary,
            openness,
            header.held.as_ref().map(|held| held.0),
        );
    }
    let words = hint(header);
    if words.is_empty() {
        response
    } else {
        response.on_hover_text(words)
    }
}

/// The worst finding in the section, and the fields changed in it.
fn hint(header: &Header) -> String {
    let held = header
        .held
        .as_ref()
        .map(|(_, words)| format!("Here: {words}"));
    let changed = (!header.changed.is_empty()).then(|| format!("Changed: {}", header.changed));
    let lines: Vec<String> = held.into_iter().chain(changed).collect();
    lines.join("\n")
}

fn paint(
    ui: &mut Ui,
    response: &Response,
    section: Section,
    summary: &str,
    openness: f32,
    held: Option<Severity>,
) {
    let (tokens, rect) = (Tokens::of(ui), response.rect);
    if response.hovered() {
        ui.painter().rect_filled(rect, 4.0, tokens.button);
    }
    let mut icon = response.clone();
    icon.rect = Rect::from_center_size(
        pos2(rect.left() + ICON / 2.0, rect.center().y),
        vec2(TRIANGLE, TRIANGLE),
    );
    paint_default_icon(ui, openness, &icon);
    let room = rect.width() - ICON - MARK;
    let mut job = LayoutJob {
        wrap: TextWrapping::truncate_at_width(room),
        ..LayoutJob::default()
    };
    let size = TextStyle::Button.resolve(ui.style()).size;
    let strong = egui::FontId::new(size, theme::strong());
    job.append(section.title(), 0.0, TextFormat::simple(strong, tokens.ink));
    let small = TextStyle::Small.resolve(ui.style());
    if !summary.is_empty() {
        let mut format = TextFormat::simple(small, tokens.faint_ink);
        format.valign = egui::Align::Center;
        job.append(summary, 10.0, format);
    }
    let galley = ui.painter().layout_job(job);
    let at = pos2(rect.left() + ICON, rect.center().y - galley.size().y / 2.0);
    ui.painter().galley(at, galley, tokens.ink);
    if let Some(severity) = held {
        let at = pos2(rect.right() - MARK / 2.0, rect.center().y);
        mark(ui, at, 0.9, severity, tokens.severity(severity));
    }
}
