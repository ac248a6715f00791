//! A field that is looked for: its section unfolds, it comes into view, and a frame around it shows it for a moment. It is focused
//! if the maker chose it in order to change it, so that typing works at once.

use egui::{Context, CornerRadius, Id, Rect, Response, Stroke, StrokeKind, Ui};

use crate::section::Section;
use crate::theme::Tokens;

/// The time that the frame is shown, seconds.
const SHOWN: f64 = 2.0;

/// The field that is looked for.
#[derive(Clone)]
struct Seek {
    /// The caption of its row; none where only the section is to unfold.
    caption: Option<String>,
    section: Section,
    /// The part of the section that the row is in; `None` where the caption alone identifies it.
    part: Option<String>,
    /// Whether the section is being drawn.
    is_inside: bool,
    /// Whether that part is being drawn.
    is_in_part: bool,
    /// Whether its field is focused when it is found.
    enters: bool,
    /// When it was found, in the time of the window.
    found: Option<f64>,
}

fn id() -> Id {
    Id::unique("sought field")
}

fn sought(ctx: &Context) -> Option<Seek> {
    ctx.data(|data| data.get_temp(id()))
}

fn keep(ctx: &Context, seek: Seek) {
    ctx.data_mut(|data| data.insert_temp(id(), seek));
}

/// Looks for the row of a caption in a section, or unfolds the section alone.
pub fn seek(ctx: &Context, caption: Option<String>, section: Section) {
    seek_in(ctx, caption, section, None);
}

/// The same in a part of the section, where several have rows of that caption.
pub fn seek_in(ctx: &Context, caption: Option<String>, section: Section, part: Option<String>) {
    keep(
        ctx,
        Seek {
            caption,
            section,
            is_in_part: part.is_none(),
            part,
            is_inside: false,
            enters: false,
            found: None,
        },
    );
    ctx.request_repaint();
}

/// Focuses the field that is looked for once it is found.
pub fn enter_when_found(ctx: &Context) {
    if let Some(seek) = sought(ctx) {
        keep(
            ctx,
            Seek {
                enters: true,
                ..seek
            },
        );
    }
}

/// Draws the content of a section, in which a row may be the one that is looked for.
pub(super) fn within<R>(ui: &mut Ui, drawn: Section, content: impl FnOnce(&mut Ui) -> R) -> R {
    let ctx = ui.ctx().clone();
    if sought(&ctx).is_none_or(|seek| seek.section != drawn) {
        return content(ui);
    }
    let mark = |is_inside| {
        let now = sought(&ctx).filter(|now| now.section == drawn);
        if let Some(now) = now {
            keep(&ctx, Seek { is_inside, ..now });
        }
    };
    mark(true);
    let shown = content(ui);
    mark(false);
    // A section that is drawn has been unfolded, so the search is over.
    if sought(&ctx).is_some_and(|seek| seek.section == drawn && seek.caption.is_none()) {
        ctx.data_mut(|data| data.remove::<Seek>(id()));
    }
    shown
}

/// Draws a part of a section, in which a row may be the one that is looked for.
pub fn part<R>(ui: &mut Ui, name: &str, content: impl FnOnce(&mut Ui) -> R) -> R {
    let ctx = ui.ctx().clone();
    let is_it = |seek: &Seek| seek.part.as_deref() == Some(name);
    let mark = |is_in_part| {
        if let Some(seek) = sought(&ctx).filter(is_it) {
            keep(&ctx, Seek { is_in_part, ..seek });
        }
    };
    mark(true);
    let drawn = content(ui);
    mark(false);
    drawn
}

/// Whether a section holds the row that is looked for, and is to unfold for it.
pub(super) fn is_in(ctx: &Context, drawn: Section) -> bool {
    sought(ctx).is_some_and(|seek| seek.section == drawn && seek.found.is_none())
}

/// Brings a row into view if it is the one that is looked for.
pub(super) fn show(ui: &Ui, caption: &str, row: &Response) {
    let ctx = ui.ctx();
    let Some(seek) = sought(ctx).filter(|seek| {
        seek.is_inside && seek.is_in_part && seek.caption.as_deref() == Some(caption)
    }) else {
        return;
    };
    let now = ctx.input(|input| input.time);
    let since = seek.found.unwrap_or(now);
    if seek.found.is_none() {
        row.scroll_to_me(Some(egui::Align::Center));
        if seek.enters {
            enter(ui, row.rect);
        }
        keep(
            ctx,
            Seek {
                found: Some(now),
                ..seek
            },
        );
    }
    if now - since > SHOWN {
        ctx.data_mut(|data| data.remove::<Seek>(id()));
        return;
    }
    let stroke = Stroke::new(2.0, Tokens::of(ui).accent);
    let around = row.rect.expand(3.0);
    ui.painter()
        .rect_stroke(around, CornerRadius::same(3), stroke, StrokeKind::Outside);
    ctx.request_repaint_after_secs(SHOWN as f32);
}

/// Finds the first field of a row that was just drawn, to be focused in the next frame.
fn enter(ui: &Ui, row: Rect) {
    let field = ui.ctx().viewport(|viewport| {
        let mut drawn = viewport.this_pass.widgets.get_layer(ui.layer_id());
        let field = drawn.find(|widget| {
            widget.enabled && widget.sense.is_focusable() && row.contains_rect(widget.rect)
        });
        field.map(|widget| widget.id)
    });
    if let Some(field) = field {
        ui.data_mut(|data| data.insert_temp(entered(), Some(field)));
        ui.ctx().request_repaint();
    }
}

/// Focuses the field that was found in the last frame. This comes before the field is drawn, so that its text is selected and typing
/// replaces it.
pub fn enter_sought(ctx: &Context) {
    let field = ctx.data_mut(|data| data.remove_temp::<Option<Id>>(entered()));
    if let Some(field) = field.flatten() {
        ctx.memory_mut(|memory| memory.request_focus(field));
    }
}

fn entered() -> Id {
    Id::unique("field to enter")
}
