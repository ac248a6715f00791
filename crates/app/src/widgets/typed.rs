//! Fields whose text is read once they are left; until then it is kept beside the document.

use egui::accesskit::Live;
use egui::{Id, Response, RichText, Role, TextEdit, Ui, WidgetInfo, vec2};

use super::number::look_like_a_field;
use super::{field_width, hinted, row};
use crate::theme::Tokens;

/// The text that was typed, once the field is left; while it is typed in, the text is kept beside the document. An empty
/// field shows an example, or the value used without a text; the hint is the tooltip.
pub fn typed_text(
    ui: &mut Ui,
    caption: &str,
    shown: &str,
    [example, hint]: [&str; 2],
    lines: bool,
) -> Option<String> {
    let kept = ui.scope_id().with(caption).with("typed");
    let fault = ui.scope_id().with(caption).with("fault");
    let wrong = wrong_text(ui, kept, fault, shown);
    let left = kept_text(ui, kept, wrong.as_deref().unwrap_or(shown), |ui, text| {
        row(ui, caption, |ui, label| {
            look_like_a_field(ui);
            let edit = if lines {
                TextEdit::multiline(text).desired_rows(4)
            } else {
                TextEdit::singleline(text)
            };
            let edit = edit.hint_text(example).desired_width(field_width(ui));
            hinted(ui.add(edit), hint).labelled_by(label)
        })
    });
    if let Some(text) = &left {
        let wrong = Wrong {
            text: text.clone(),
            shown: shown.to_owned(),
        };
        ui.data_mut(|data| {
            data.insert_temp(kept.with("wrong"), wrong);
            // Text typed back to the shown value is valid and is not parsed again.
            if text == shown {
                data.remove::<String>(fault);
            }
        });
    }
    left
}

/// A search field that takes effect while it is typed in; its text is kept while the window is open and is no part of the document.
pub fn typed_search(ui: &mut Ui, caption: &str, kept: Id, [example, hint]: [&str; 2]) -> String {
    let mut text = ui
        .data(|data| data.get_temp::<String>(kept))
        .unwrap_or_default();
    row(ui, caption, |ui, label| {
        look_like_a_field(ui);
        let edit = TextEdit::singleline(&mut text);
        let edit = edit.hint_text(example).desired_width(field_width(ui));
        hinted(ui.add(edit), hint).labelled_by(label);
    });
    ui.data_mut(|data| data.insert_temp(kept, text.clone()));
    text
}

/// A text whose field was left, and the text shown before.
#[derive(Clone)]
struct Wrong {
    text: String,
    shown: String,
}

/// The text that could not be read, kept for correction until Escape is pressed or the value changes.
fn wrong_text(ui: &Ui, kept: Id, fault: Id, shown: &str) -> Option<String> {
    let wrong = ui.data(|data| data.get_temp::<Wrong>(kept.with("wrong")))?;
    ui.data(|data| data.get_temp::<String>(fault))?;
    let is_given_up = ui.data(|data| data.get_temp::<bool>(kept.with("escaped")));
    if wrong.shown != shown || is_given_up == Some(true) {
        ui.data_mut(|data| {
            data.remove::<Wrong>(kept.with("wrong"));
            data.remove::<bool>(kept.with("escaped"));
            data.remove::<String>(fault);
        });
        return None;
    }
    Some(wrong.text)
}

/// The text that was typed into a field of a table, once it is left: it has a name for screen readers and no caption.
pub fn text_in(ui: &mut Ui, name: &str, shown: &str, example: &str, width: f32) -> Option<String> {
    let kept = ui.scope_id().with(name).with("typed");
    kept_text(ui, kept, shown, |ui, text| {
        let edit = TextEdit::singleline(text)
            .id(kept.with("field"))
            .hint_text(example)
            .desired_width(width);
        // In a table a field can be only as wide as its column was before.
        let size = vec2(width, ui.spacing().interact_size.y);
        let field = |ui: &mut Ui| {
            look_like_a_field(ui);
            ui.add_sized(size, edit)
        };
        let response = ui.scope(field).inner;
        response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, name));
        response
    })
}

/// The text that was typed into a field, once it is left with anything but Escape; while it is typed in, the text is kept under an
/// id beside the document.
pub(super) fn kept_text(
    ui: &mut Ui,
    kept: Id,
    shown: &str,
    field: impl FnOnce(&mut Ui, &mut String) -> Response,
) -> Option<String> {
    let typed = ui.data(|data| data.get_temp::<String>(kept));
    let mut text = typed.unwrap_or_else(|| shown.to_owned());
    let response = field(ui, &mut text);
    if response.changed() {
        ui.data_mut(|data| data.insert_temp(kept, text));
    }
    if !response.lost_focus() {
        return None;
    }
    let escaped = ui.input(|input| input.key_pressed(egui::Key::Escape));
    ui.data_mut(|data| data.insert_temp(kept.with("escaped"), escaped));
    let typed = ui.data_mut(|data| data.remove_temp::<String>(kept));
    typed.filter(|_| !escaped)
}

/// Stores an error message until the next try, or removes it.
pub fn keep_fault(ui: &Ui, fault: Id, verdict: Result<(), String>) {
    ui.data_mut(|data| match verdict {
        Err(words) => {
            data.insert_temp(fault, words);
        }
        Ok(()) => data.remove::<String>(fault),
    });
}

/// The fault of the text that was typed last, if there is one.
pub fn show_fault(ui: &mut Ui, fault: Id) {
    if let Some(fault) = ui.data(|data| data.get_temp::<String>(fault)) {
        kept_as_it_was(ui, &fault);
    }
}

/// The message about a text that could not be read, and that the value stays.
pub fn kept_as_it_was(ui: &mut Ui, fault: &str) {
    let color = Tokens::of(ui).stop;
    ui.horizontal_wrapped(|ui| {
        let words = format!("▲ {}. The old value stays.", begun(fault));
        let label = ui.label(RichText::new(words).color(color).small());
        // Screen readers say it when it comes.
        ui.accesskit_node_builder(label.id, |node| node.set_live(Live::Polite));
    });
}

/// A message as the beginning of a sentence: with a capital, without the point that ends it.
fn begun(message: &str) -> String {
    board::capital(message.trim_end_matches('.'))
}
