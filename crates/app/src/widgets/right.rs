//! A row whose end is aligned right but drawn from left to right, so that Tab follows the reading order.

use egui::{Align, Layout, Ui, UiBuilder, vec2};

/// Draws `right` at the right edge of a row, and `left` in the room that it leaves.
///
/// The width of `right` is known from the frame before; if it has changed, the frame is drawn again.
pub fn at_right<R>(
    ui: &mut Ui,
    name: &str,
    left: impl FnOnce(&mut Ui),
    right: impl FnOnce(&mut Ui) -> R,
) -> R {
    let id = ui.scope_id().with(name);
    let kept = ui.data(|data| data.get_temp::<f32>(id)).unwrap_or_default();
    let room = ui.available_width() - kept - ui.spacing().item_spacing.x;
    let size = vec2(room.max(0.0), ui.spacing().interact_size.y);
    let layout = Layout::left_to_right(Align::Center);
    ui.allocate_ui_with_layout(size, layout, |ui| {
        ui.set_min_width(size.x);
        left(ui);
    });
    let shown = ui.scope_builder(UiBuilder::new().layout(layout), right);
    let width = shown.response.rect.width();
    if (width - kept).abs() > 0.5 {
        ui.data_mut(|data| data.insert_temp(id, width));
        ui.ctx()
            .request_discard("a row at the right has another width");
    }
    shown.inner
}
