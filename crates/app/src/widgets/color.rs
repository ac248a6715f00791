//! Fields for a color: a button that opens the named colors, and a text field for `#rrggbb` or a name.

use board::{NAMED, Rgb};
use egui::{Button, Color32, Id, Popup, Response, Role, TextEdit, Ui, WidgetInfo, vec2};

use super::number::look_like_a_field;
use super::typed::kept_text;
use super::{field_width, hinted, keep_fault, row, show_fault};

/// Width of the button.
pub const BUTTON: f32 = 36.0;
/// Colors in a line of those that have names, and the width of each.
const SWATCHES: usize = 6;
const SWATCH: f32 = 28.0;

/// A color under a caption; returns the color that was picked or typed.
pub fn color_field(ui: &mut Ui, caption: &str, color: Rgb, hint: &str) -> Option<Rgb> {
    let fault = ui.scope_id().with(caption).with("fault");
    let picked = row(ui, caption, |ui, _| {
        let width = field_width(ui) - BUTTON - ui.spacing().item_spacing.x;
        color_parts(ui, caption, color, width, hint, fault)
    });
    show_fault(ui, fault);
    picked
}

/// The button and the text field of a color in a given width, for a row with other fields; the error of the text is stored under an id.
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

/// The button, which shows the color and opens the colors that have names.
fn color_button(ui: &mut Ui, name: &str, color: Rgb) -> Option<Rgb> {
    let button = swatch(ui, color, BUTTON, &format!("{name}, pick"));
    let mut picked = None;
    Popup::menu(&button).show(|ui| {
        for line in NAMED.chunks(SWATCHES) {
            ui.horizontal(|ui| {
                for (word, one) in line {
                    if swatch(ui, *one, SWATCH, word)
                        .on_hover_text(*word)
                        .clicked()
                    {
                        picked = Some(*one);
                    }
                }
            });
        }
    });
    picked.filter(|picked| *picked != color)
}

/// A button filled with a color, which a screen reader hears by its name.
fn swatch(ui: &mut Ui, color: Rgb, width: f32, name: &str) -> Response {
    let [red, green, blue] = color.parts();
    let size = vec2(width, ui.spacing().interact_size.y);
    let filled = Button::new("")
        .fill(Color32::from_rgb(red, green, blue))
        .min_size(size);
    let button = ui.add(filled);
    button.widget_info(|| WidgetInfo::labeled(Role::ColorWell, true, name));
    button
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
    let typed = kept_text(ui, fault.with("typed"), &shown(color), |ui, text| {
        let edit = TextEdit::singleline(text).desired_width(width);
        let field = |ui: &mut Ui| {
            look_like_a_field(ui);
            ui.add(edit)
        };
        let response = hinted(ui.scope(field).inner, hint);
        ui.accesskit_node_builder(response.id, |node| node.set_label(name));
        response
    });
    let read = typed?.parse::<Rgb>();
    let color = read.as_ref().ok().copied();
    keep_fault(ui, fault, read.map(drop).map_err(|error| error.to_string()));
    color
}

/// The name of a color that has one, else `#rrggbb`.
fn shown(color: Rgb) -> String {
    let named = board::NAMED.iter().find(|(_, known)| *known == color);
    named.map_or_else(|| color.to_string(), |(name, _)| (*name).to_owned())
}
