//! The dialog that calibrates the screen: the maker measures a bar on it with a ruler.

use board::{Quantity, Units};
use egui::{Rect, Role, Sense, Stroke, TextEdit, Ui, WidgetInfo, vec2};

use super::{Answer, buttons, fault_ui, heading};
use crate::theme;

/// Length of the bar, in points.
const BAR: f32 = 400.0;
/// The bar is no shorter and no longer than this on any screen, mm.
const PLAUSIBLE: (f64, f64) = (20.0, 2000.0);

/// The measured length of the bar, as typed so far.
pub struct RulerDialog {
    text: String,
    units: Units,
    fault: Option<String>,
    entered: bool,
}

impl RulerDialog {
    /// An empty field; lengths are read in these units.
    pub const fn new(units: Units) -> Self {
        Self {
            text: String::new(),
            units,
            fault: None,
            entered: false,
        }
    }

    /// Pixels per millimeter, from the typed length of a bar whose length in pixels is known.
    fn pixels_per_mm(&self, pixels: f64) -> Result<f64, String> {
        let (least, most) = PLAUSIBLE;
        let bar = Quantity::Length.range("Length of the bar", least, most);
        let read = Quantity::Length.read(&self.text, self.units);
        let mm = read.map_err(|error| error.to_string())?;
        bar.check(mm).map_err(|error| self.units.say(&error))?;
        Ok(pixels / mm)
    }
}

/// The bar, and a field for its measured length.
pub fn ruler_ui(ui: &mut Ui, dialog: &mut RulerDialog) -> Option<Answer> {
    heading(ui, "Check the screen with a ruler");
    ui.label("Hold a ruler to the screen and measure the bar between the outer edges of its ends. It is asked once for each screen.");
    ui.add_space(theme::GAP);
    let bar = bar_ui(ui);
    ui.add_space(theme::GAP);
    let label = ui.label("Length of the bar").id;
    let example = if dialog.units.is_inch() {
        "4 1/8"
    } else {
        "105.5"
    };
    let edit = TextEdit::singleline(&mut dialog.text)
        .hint_text(example)
        .desired_width(120.0);
    let field = ui.add(edit).labelled_by(label);
    if !core::mem::replace(&mut dialog.entered, true) {
        field.request_focus();
    }
    if field.changed() {
        dialog.fault = None;
    }
    let entered = field.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
    fault_ui(ui, dialog.fault.as_ref());
    let (pressed, cancel) = buttons(ui, "Show true size", !dialog.text.trim().is_empty());
    if !pressed && !entered {
        return cancel.then_some(Answer::Cancel);
    }
    let pixels = f64::from(bar * ui.pixels_per_point());
    match dialog.pixels_per_mm(pixels) {
        Ok(pixels_per_mm) => Some(Answer::Screen(pixels_per_mm)),
        Err(fault) => {
            dialog.fault = Some(fault);
            None
        }
    }
}

/// A bar with upright ends; its length in points, from pixel to pixel.
fn bar_ui(ui: &mut Ui) -> f32 {
    let (place, response) = ui.allocate_exact_size(vec2(BAR, 26.0), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Figure, true, "Bar to measure"));
    let per_point = ui.pixels_per_point();
    let on_pixel = |x: f32| (x * per_point).round() / per_point;
    let (left, right) = (on_pixel(place.left()), on_pixel(place.right()));
    let ink = ui.visuals().strong_text_color();
    let thick = 1.0 / per_point;
    let end = |x: f32| Rect::from_min_size(egui::pos2(x, place.top()), vec2(thick, place.height()));
    let painter = ui.painter();
    painter.rect_filled(end(left), 0.0, ink);
    painter.rect_filled(end(right - thick), 0.0, ink);
    painter.hline(left..=right, place.center().y, Stroke::new(2.0, ink));
    right - left
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn a_bar_is_read_in_any_unit_and_only_where_it_can_be_so_long() {
        let typed = |text: &str, units| {
            let mut dialog = RulerDialog::new(units);
            dialog.text = text.into();
            dialog.pixels_per_mm(400.0)
        };
        assert_near!(typed("100", Units::Mm).unwrap(), 4.0, 1e-12);
        assert_near!(typed("4", Units::INCH).unwrap(), 400.0 / 101.6, 1e-12);
        assert_near!(typed("4 in", Units::Mm).unwrap(), 400.0 / 101.6, 1e-12);
        assert!(
            typed("2", Units::Mm)
                .unwrap_err()
                .contains("20 mm to 2000 mm")
        );
        assert!(typed("banana", Units::Mm).is_err());
    }
}
