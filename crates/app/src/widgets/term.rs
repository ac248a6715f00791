//! Captions with an entry in the glossary: they have a dotted underline; a click opens the entry, and so does a key while the field
//! beside them has the focus.

use egui::{Context, CursorIcon, Id, Label, Response, RichText, Sense, Shape, Ui, pos2};

use crate::terms::term_of;
use crate::theme::Tokens;

/// A caption, with a dotted underline where the glossary has an entry for it.
pub fn caption_ui(ui: &mut Ui, caption: &str, words: RichText) -> Response {
    let Some(term) = term_of(caption) else {
        return ui.add(Label::new(words).wrap());
    };
    // Tab skips the caption, since a key opens the entry from the field beside it.
    let label = ui.add(Label::new(words).wrap().sense(Sense::CLICK));
    let rect = label.rect;
    let line = [
        pos2(rect.left(), rect.bottom() + 1.0),
        pos2(rect.right(), rect.bottom() + 1.0),
    ];
    let tokens = Tokens::of(ui);
    let color = if label.hovered() {
        tokens.accent
    } else {
        tokens.faint_ink
    };
    let dots = Shape::dotted_line(&line, color, 3.0, 0.8);
    ui.painter().extend(dots);
    if label.clicked() {
        ui.data_mut(|data| data.insert_temp(asked(), term));
    }
    label.on_hover_cursor(CursorIcon::Help)
}

/// Remembers the entry of a row while something in it has the focus, for the key that opens it.
pub(super) fn keep_focus(ui: &Ui, caption: &str, row: egui::Rect) {
    let Some(term) = term_of(caption) else {
        return;
    };
    let focused = ui.memory(egui::Memory::focused);
    let response = focused.and_then(|id| ui.ctx().read_response(id));
    if response.is_some_and(|response| row.contains_rect(response.rect)) {
        ui.data_mut(|data| data.insert_temp(focus(), term));
    }
}

/// The entry whose caption was clicked in this frame.
pub fn asked_term(ctx: &Context) -> Option<usize> {
    ctx.data_mut(|data| data.remove_temp(asked()))
}

/// The entry of the field that has the focus or had it in the last frame; forgotten once it is read.
pub fn term_in_focus(ctx: &Context) -> Option<usize> {
    ctx.data_mut(|data| data.remove_temp(focus()))
}

/// Forgets the entry of a field that may have lost the focus.
pub fn forget_focus(ctx: &Context) {
    ctx.data_mut(|data| data.remove_temp::<usize>(focus()));
}

fn asked() -> Id {
    Id::unique("word asked for")
}

fn focus() -> Id {
    Id::unique("word of the field in focus")
}
