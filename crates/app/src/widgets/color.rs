//! Fields for a color: a button that opens a picker, and beside it the color as it is typed, `#rrggbb` or a name.

use board::Rgb;
use egui::{Id, Role, TextEdit, Ui, WidgetInfo};

use super::{FIELD, keep_fault, row, show_fault};

/// Width of the button.
const BUTTON: f32 = 36.0;

/// A color under a caption; tells what was picked or typed.
pub fn color_field(ui: &mut Ui, caption: &str, color: Rgb, hint: &str) -> Option<Rgb> {
    let fault = ui.scope_id().with(caption).with("fault");
    let picked = row(ui, caption, |ui, _| {
        let width = FIELD - BUTTON - ui.spacing().item_spacing.x;
        color_parts(ui, caption, color, width, hint, fault)
    });
    show_fault(ui, fault);
    picked
}

/// The button and the text of a color, of a width, for a row that has more; the fault of a text is kept under an id.
pub fn color_parts(
    ui: &mut Ui,
    name: &str,
    color: Rgb,
    width: f32,
    hint: &str,
    fault: Id,
) -> Option<Rgb> {
    let picked = color_button(ui, name, color);
    typed_color(ui, name, color, width, hint, fault).or(picked)
}

/// The button, which shows the color and opens the picker.
fn color_button(ui: &mut Ui, name: &str, color: Rgb) -> Option<Rgb> {
    let mut parts = color.parts();
    let size = &mut ui.spacing_mut().interact_size;
    let usual = std::mem::replace(&mut size.x, BUTTON);
    let button = ui.color_edit_button_srgb(&mut parts);
    ui.spacing_mut().interact_size.x = usual;
    let label = format!("{name}, pick");
    button.widget_info(|| WidgetInfo::labeled(Role::ColorWell, true, &label));
    let [red, green, blue] = parts;
    let picked = Rgb::new(red, green, blue);
    (picked != color).then_some(picked)
}

/// The color as text, read once the field is left.
fn typed_color(
    ui: &mut Ui,
    name: &str,
    color: Rgb,
    width: f32,
    hint: &str,
    fault: Id,
) -> Option<Rgb> {
    let kept = fault.with("typed");
    let typed = ui.data(|data| data.get_temp::<String>(kept));
    let mut text = typed.unwrap_or_else(|| shown(color));
    let edit = TextEdit::singleline(&mut text).desired_width(width);
    let mut response = ui.add(edit);
    if !hint.is_empty() {
        response = response.on_hover_text(hint);
    }
    ui.accesskit_node_builder(response.id, |node| node.set_label(name));
    if response.changed() {
        ui.data_mut(|data| data.insert_temp(kept, text.clone()));
    }
    if !response.lost_focus() {
        return None;
    }
    let escaped = ui.input(|input| input.key_pressed(egui::Key::Escape));
    let typed = ui.data_mut(|data| data.remove_temp::<String>(kept));
    let read = typed.filter(|_| !escaped)?.parse::<Rgb>();
    let color = read.as_ref().ok().copied();
    keep_fault(ui, fault, read.map(drop).map_err(|error| error.to_string()));
    color
}

/// The name of a color that has one, else `#rrggbb`.
fn shown(color: Rgb) -> String {
    let named = board::NAMED.iter().find(|(_, known)| *known == color);
    named.map_or_else(|| color.to_string(), |(name, _)| (*name).to_owned())
}
