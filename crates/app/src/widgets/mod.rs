//! Parts that the panels are built from: rows with captions, sections, choices, and fields that say what is wrong.

mod color;
mod field;
mod list;
mod mark;
mod number;
mod pick;
mod right;
mod section;
mod seek;
mod term;
#[cfg(test)]
mod tests;
mod typed;

use egui::{Align, CollapsingHeader, ComboBox, Layout, Response, RichText, Ui, vec2};
use workshop::{Caution, FIRST, PROTECTION};

use crate::theme::{self, CAPTION, FIELD, Tokens};

pub use color::{BUTTON, color_field, color_parts};
pub use field::{
    FIT, auto_ui, choice_ui, entry_ui, explained_ui, field_ui, fields_ui, fit_button,
    fitted_explained_ui, fitted_number_ui, fitted_ui, number_ui, optional_ui, value_ui,
};
pub use list::numbers_field;
pub use mark::mark;
pub use number::{Field, look_like_a_field, number_field};
pub use pick::search_choice;
pub use right::at_right;
pub use section::{Header, section};
pub use seek::{enter_sought, enter_when_found, part, seek, seek_in};
pub use term::{asked_term, caption_ui, forget_focus, term_in_focus};
pub use typed::{keep_fault, show_fault, text_in, typed_search, typed_text};

/// The most that they get in a wide panel: farther from its caption a field would be hard to find.
const WIDE_CAPTION: f32 = 170.0;
const WIDE_FIELD: f32 = 240.0;
/// Width that a scroll bar takes beside them.
const BAR: f32 = 10.0;
/// Least width of a field that shares its row.
const LEAST_FIELD: f32 = 78.0;

/// Divides the width of a panel between captions and fields, for everything drawn in it afterwards.
///
/// The toolkit passes spacing on from a panel to its contents, so the widths are stored there: that of captions as the slider width,
/// since the window has no sliders.
pub fn share_room(ui: &mut Ui) {
    let gap = ui.spacing().item_spacing.x;
    let spare = (ui.available_width() - CAPTION - gap - FIELD - BAR).max(0.0);
    let spacing = ui.spacing_mut();
    spacing.slider_width = (CAPTION + spare / 3.0).min(WIDE_CAPTION).floor();
    spacing.text_edit_width = (FIELD + spare * 2.0 / 3.0).min(WIDE_FIELD).floor();
}

/// Width of the captions here, so that fields stand in line.
pub fn caption_width(ui: &Ui) -> f32 {
    ui.spacing().slider_width
}

/// Width of the fields here.
pub fn field_width(ui: &Ui) -> f32 {
    ui.spacing().text_edit_width
}

/// Width of a row here, from the beginning of its caption to the end of its field.
pub fn row_width(ui: &Ui) -> f32 {
    caption_width(ui) + ui.spacing().item_spacing.x + field_width(ui)
}

/// A choice of one among several, by name.
pub fn choice<T: Copy + PartialEq>(
    ui: &mut Ui,
    caption: &str,
    chosen: &mut T,
    all: &[T],
    label: impl Fn(T) -> &'static str,
) -> Response {
    let before = *chosen;
    let mut response = row(ui, caption, |ui, caption_id| {
        let combo = ComboBox::from_id_salt(caption)
            .selected_text(label(*chosen))
            .width(field_width(ui))
            .wrap();
        let shown = in_field(ui, |ui| {
            combo.show_ui(ui, |ui| {
                for &one in all {
                    ui.selectable_value(chosen, one, label(one));
                }
            })
        });
        shown.response.labelled_by(caption_id)
    });
    if *chosen != before {
        response.mark_changed();
    }
    response
}

/// A list to choose from that is no wider than a field, whatever is chosen: long words take two lines.
pub fn in_field<R>(ui: &mut Ui, list: impl FnOnce(&mut Ui) -> R) -> R {
    in_width(ui, field_width(ui), list)
}

/// The same of another width.
pub fn in_width<R>(ui: &mut Ui, width: f32, list: impl FnOnce(&mut Ui) -> R) -> R {
    ui.scope(|ui| {
        ui.set_max_width(width - 3.0 * ui.spacing().button_padding.x);
        list(ui)
    })
    .inner
}

/// A caption and what stands beside it.
///
/// The caption gives the field its id, so that lines added or removed above it do not change it.
pub fn row<R>(ui: &mut Ui, caption: &str, field: impl FnOnce(&mut Ui, egui::Id) -> R) -> R {
    row_of(ui, caption, |ui| {
        let size = vec2(caption_width(ui), ui.spacing().interact_size.y);
        let label = ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(size.x);
            caption_ui(ui, caption, RichText::new(caption)).id
        });
        field(ui, label.inner)
    })
}

/// A row whose id is a name.
fn row_of<R>(ui: &mut Ui, name: &str, content: impl FnOnce(&mut Ui) -> R) -> R {
    let line = egui::UiBuilder::new().scope_id(ui.scope_id().with(name));
    let drawn = ui.scope_builder(line, |ui| ui.horizontal(content)).inner;
    seek::show(ui, name, &drawn.response);
    term::keep_focus(ui, name, drawn.response.rect);
    drawn.inner
}

/// Adds a tooltip, if there is one.
fn hinted(response: Response, hint: &str) -> Response {
    if hint.is_empty() {
        response
    } else {
        response.on_hover_text(hint)
    }
}

/// Width left of a row for a field that ends where all fields end.
fn field_room(ui: &Ui) -> f32 {
    let end = ui.min_rect().left() + row_width(ui);
    end - ui.cursor().left()
}

/// The cautions of a piece of work, one line each; pressing a line shows its words and source.
///
/// Cautions for eyes, dust and noise are one line with the sources of all three: the window of cautions and the job sheet have each in full.
pub fn cautions(ui: &mut Ui, cautions: &[Caution]) {
    const GENERAL: [Caution; 3] = [Caution::Eyes, Caution::Dust, Caution::Noise];
    let is_general = |caution: &Caution| GENERAL.contains(caution);
    ui.add_space(theme::TIGHT);
    for caution in cautions.iter().filter(|caution| !is_general(caution)) {
        caution_ui(ui, caution.label(), caution.words(), caution.source());
    }
    if cautions.iter().any(is_general) {
        let sources = GENERAL.map(Caution::source).join("; ");
        let (title, words) = PROTECTION.split_once(": ").unwrap_or(("", PROTECTION));
        caution_ui(ui, title, &board::capital(words), &sources);
    }
    ui.label(theme::quiet(FIRST));
}

/// A caution folded to its title, and below it, once it is pressed, its words and its source.
fn caution_ui(ui: &mut Ui, title: &str, words: &str, source: &str) {
    let color = Tokens::of(ui).caution;
    let title = RichText::new(format!("▲ {title}")).color(color);
    let header = CollapsingHeader::new(title).id_salt(("caution", words));
    header.show_unindented(ui, |ui| {
        let under = egui::Frame::new().outer_margin(egui::Margin {
            left: theme::INDENT as i8,
            bottom: theme::TIGHT as i8,
            ..egui::Margin::ZERO
        });
        under.show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = theme::HAIR;
            ui.label(words);
            ui.label(theme::quiet(source));
        });
    });
}

/// The placeholder where there is nothing to show yet: what is missing, what to do, and the button that does it; returns whether the
/// button was pressed.
pub fn empty_state(ui: &mut Ui, title: &str, words: &str, action: &str) -> bool {
    const WIDTH: f32 = 340.0;
    let room = ui.available_size();
    let top = (0.3 * room.y).max(theme::PART);
    let inner = ui.vertical_centered(|ui| {
        ui.add_space(top);
        ui.set_max_width(WIDTH.min(room.x - 2.0 * theme::PART));
        ui.label(theme::heading(title));
        ui.add_space(theme::TIGHT);
        ui.label(words);
        ui.add_space(theme::PART);
        main_button(ui, action).clicked()
    });
    inner.inner
}

/// The main button of a group.
pub fn main_button(ui: &mut Ui, label: &str) -> Response {
    let tokens = Tokens::of(ui);
    let words = RichText::new(label)
        .color(tokens.on_accent)
        .family(theme::strong());
    let button = egui::Button::new(words)
        .fill(tokens.accent)
        .stroke(egui::Stroke::new(1.0, tokens.accent));
    ui.scope(|ui| {
        ui.spacing_mut().button_padding = vec2(14.0, 4.0);
        ui.add(button)
    })
    .inner
}

/// Width of words in one line, in points; plain ones are as large as on a button.
pub fn words_width(ui: &Ui, words: impl Into<egui::WidgetText>) -> f32 {
    let font = egui::FontSelection::Style(egui::TextStyle::Button);
    let words = words.into();
    let galley = words.into_galley(ui, Some(egui::TextWrapMode::Extend), f32::INFINITY, font);
    galley.size().x
}
