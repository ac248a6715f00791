//! A frame around the focused control, for keyboard users: many controls show little of their focus. A control that Tab focuses
//! out of sight is scrolled to.

use egui::accesskit::{Action, ActionRequest, TreeId};
use egui::{Context, CornerRadius, Event, Id, Key, LayerId, Order, Stroke, StrokeKind};

/// Width of the frame, in points.
const WIDTH: f32 = 2.0;

/// Draws the frame while the focus moves by keys; a press of the pointer hides it.
pub fn show(ctx: &Context) {
    if !goes_by_keys(ctx) {
        return;
    }
    let focused = ctx.memory(egui::Memory::focused);
    let Some(response) = focused.and_then(|id| ctx.read_response(id)) else {
        return;
    };
    let accent = ctx.global_style().visuals.hyperlink_color;
    let layer = LayerId::new(Order::Foreground, Id::unique("focus"));
    let rect = response
        .rect
        .intersect(response.interact_rect.expand(WIDTH));
    ctx.layer_painter(layer).rect_stroke(
        rect.expand(WIDTH / 2.0),
        CornerRadius::same(5),
        Stroke::new(WIDTH, accent),
        StrokeKind::Outside,
    );
}

/// Number of frames after a change of focus in which the control is checked for being in sight: a text field scrolls to its own
/// cursor in the first of them.
const LOOKS: u8 = 3;

/// Scrolls to the control that Tab has focused, if part of it is out of sight; called before anything is drawn.
pub fn follow(ctx: &Context) {
    let id = Id::unique("focus was here");
    let focused = ctx.memory(egui::Memory::focused);
    let looks = ctx.data_mut(|data| {
        let (before, looks) = data.get_temp_mut_or_default::<(Option<Id>, u8)>(id);
        let is_new = core::mem::replace(before, focused) != focused;
        *looks = if is_new {
            LOOKS
        } else {
            looks.saturating_sub(1)
        };
        *looks
    });
    let Some(focused) = focused.filter(|_| looks > 0 && has_gone_by_keys(ctx)) else {
        return;
    };
    ctx.request_repaint();
    let is_out_of_sight = ctx.read_response(focused).is_some_and(|response| {
        let seen = response.interact_rect.expand(1.0);
        !seen.contains_rect(response.rect)
    });
    if is_out_of_sight {
        // egui scrolls on request of a screen reader, but not for the Tab key.
        let request = ActionRequest {
            action: Action::ScrollIntoView,
            target_tree: TreeId::ROOT,
            target_node: focused.accesskit_id(),
            data: None,
        };
        ctx.input_mut(|input| input.events.push(Event::AccessKitActionRequest(request)));
    }
}

/// Whether the focus was moved by a key since the pointer was pressed last.
fn goes_by_keys(ctx: &Context) -> bool {
    let (pressed, moved) = ctx.input(|input| {
        let moved = input.key_pressed(Key::Tab) || input.key_pressed(Key::F10);
        (input.pointer.any_pressed(), moved)
    });
    if moved {
        // The focused control may be out of sight until the next frame scrolls to it.
        ctx.request_repaint();
    }
    ctx.data_mut(|data| {
        let by_keys = data.get_temp_mut_or_default::<bool>(by_keys());
        *by_keys = moved || (*by_keys && !pressed);
        *by_keys
    })
}

/// Whether the frame before this one found that the focus goes by keys.
fn has_gone_by_keys(ctx: &Context) -> bool {
    ctx.data(|data| data.get_temp(by_keys()).unwrap_or_default())
}

/// The id under which it is stored whether the focus moves by keys.
fn by_keys() -> Id {
    Id::unique("focus goes by keys")
}
