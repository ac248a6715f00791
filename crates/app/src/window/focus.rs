//! A frame around the focused control, for keyboard users: many controls show little of their focus.

use egui::{Context, CornerRadius, Id, Key, LayerId, Order, Stroke, StrokeKind};

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

/// Whether the focus was moved by a key since the pointer was pressed last.
fn goes_by_keys(ctx: &Context) -> bool {
    let id = Id::unique("focus goes by keys");
    let (pressed, moved) = ctx.input(|input| {
        let moved = input.key_pressed(Key::Tab) || input.key_pressed(Key::F10);
        (input.pointer.any_pressed(), moved)
    });
    ctx.data_mut(|data| {
        let by_keys = data.get_temp_mut_or_default::<bool>(id);
        *by_keys = moved || (*by_keys && !pressed);
        *by_keys
    })
}
