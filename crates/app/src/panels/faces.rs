//! The views over the drawing, in one row: tabs as far as there is room, and a list of the others.

use egui::{Button, ComboBox, Response, Ui};

use super::tools::tools_width;
use crate::command::Command;
use crate::theme;
use crate::view::Face;
use crate::widgets::words_width;

/// Label of the list of views that have no tab, while none of them is shown.
const MORE: &str = "More";
/// Space between two tabs.
const BETWEEN: f32 = theme::TIGHT;

/// The views, with the current one marked; returns the view that was pressed.
///
/// Which views are tabs depends on the width alone, so that nothing moves when another view is shown.
pub fn faces_ui(ui: &mut Ui, shown: Face) -> Option<Face> {
    let room = ui.available_width() - tools_width(ui);
    let (tabs, others) = Face::ALL.split_at(tab_count(ui, room));
    let mut pressed = None;
    let gap = ui.spacing().item_spacing.x;
    ui.spacing_mut().item_spacing.x = BETWEEN;
    for &face in tabs {
        let tab = ui.add(Button::selectable(shown == face, face.label()));
        if about(tab, face).clicked() {
            pressed = Some(face);
        }
    }
    if !others.is_empty() {
        // The colors of the marked list must not spread to the tools beside it.
        let list = ui.scope(|ui| others_ui(ui, others, shown));
        pressed = list.inner.or(pressed);
    }
    ui.spacing_mut().item_spacing.x = gap;
    pressed
}

/// The list of the views that have no tab; it says which of them is shown.
fn others_ui(ui: &mut Ui, others: &[Face], shown: Face) -> Option<Face> {
    let mut pressed = None;
    let here = others.contains(&shown);
    let words = if here { shown.label() } else { MORE };
    let width = list_width(ui, others);
    if here {
        let chosen = ui.visuals().selection.bg_fill;
        let look = &mut ui.visuals_mut().widgets;
        look.inactive.weak_bg_fill = chosen;
        look.hovered.weak_bg_fill = chosen;
        look.open.weak_bg_fill = chosen;
    }
    let list = ComboBox::from_id_salt("more views")
        .selected_text(words)
        .width(width - 2.0 * ui.spacing().button_padding.x)
        .show_ui(ui, |ui| {
            for &face in others {
                let entry = ui.selectable_label(shown == face, face.label());
                if about(entry, face).clicked() {
                    pressed = Some(face);
                }
            }
        });
    list.response.widget_info(|| {
        let mut info = egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "More views");
        info.current_text_value = here.then(|| words.into());
        info
    });
    pressed
}

/// Adds a hint with what the view shows and its keys.
fn about(tab: Response, face: Face) -> Response {
    let (words, command) = face.about();
    let keys = command.and_then(Command::shortcut);
    let keys = keys.map(|keys| tab.ctx.format_shortcut(&keys));
    let keys = keys.map_or_else(String::new, |keys| format!(" ({keys})"));
    tab.on_hover_text(format!("{words}{keys}"))
}

/// The views that become tabs in a given width: all, or as many as leave room for the list of the others.
fn tab_count(ui: &Ui, room: f32) -> usize {
    let row = |count: usize| {
        let (tabs, others) = Face::ALL.split_at(count);
        let tabs = tabs
            .iter()
            .map(|face| tab_width(ui, face.label()) + BETWEEN);
        let list = (!others.is_empty()).then(|| list_width(ui, others));
        tabs.sum::<f32>() + list.unwrap_or_default()
    };
    let fits = |count: &usize| row(*count) <= room;
    (1..=Face::ALL.len()).rev().find(fits).unwrap_or(1)
}

/// Width of a tab.
fn tab_width(ui: &Ui, words: &str) -> f32 {
    words_width(ui, words) + 2.0 * ui.spacing().button_padding.x
}

/// Width of the list, whichever of its views is shown.
fn list_width(ui: &Ui, others: &[Face]) -> f32 {
    let words = others.iter().map(|face| face.label()).chain([MORE]);
    let widest = words
        .map(|words| words_width(ui, words))
        .fold(0.0, f32::max);
    let spacing = ui.spacing();
    widest + 2.0 * spacing.button_padding.x + spacing.icon_spacing + spacing.icon_width
}
