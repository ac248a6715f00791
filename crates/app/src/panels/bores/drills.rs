//! The drills and cutters nearest to a bore, in a line below its diameter; pressing one uses its size.

use board::{Bore, Bottom, Measure, Units, show_setting};
use egui::{Button, Response, RichText, Role, TextStyle, Ui, WidgetInfo};
use workshop::{NearDrill, nearest_drills};

use crate::theme;
use crate::widgets::caption_width;

/// Below the field of this caption: the drill or cutter of the bore's size, or those next to it.
pub fn drills_ui(ui: &mut Ui, caption: &str, bore: &mut Bore, units: Units) {
    let near = nearest_drills(bore.cutter(), bore.bottom);
    if let Some(taken) = near_ui(ui, caption, near, units) {
        *bore = bore.by_cutter(taken);
    }
}

/// The same for the hole of a pin, for which only twist drills are listed.
pub fn pin_drills_ui(ui: &mut Ui, caption: &str, diameter: &mut f64, units: Units) {
    let near = nearest_drills(*diameter, Bottom::Point118);
    if let Some(taken) = near_ui(ui, caption, near, units) {
        *diameter = taken;
    }
}

/// Drills or cutters by the field of a caption; gives the diameter of one that is taken, mm.
fn near_ui(ui: &mut Ui, caption: &str, near: Vec<NearDrill>, units: Units) -> Option<f64> {
    let mut taken = None;
    ui.scope(|ui| {
        // A line no higher than its small words.
        ui.spacing_mut().interact_size.y = ui.text_style_height(&TextStyle::Small);
        if near.iter().all(|near| near.is_exact()) {
            ui.horizontal(|ui| {
                ui.add_space(caption_width(ui) + ui.spacing().item_spacing.x);
                ui.label(theme::quiet(exact(&near))).on_hover_text(MEASURE);
            });
            return;
        }
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = theme::GAP / 2.0;
            for near in near {
                if use_button(ui, caption, near, units).clicked() {
                    taken = Some(near.drill.diameter);
                }
                ui.label(theme::quiet(signed(near, units)))
                    .on_hover_text(difference(near, units));
            }
        });
    });
    taken
}

const MEASURE: &str = "A bit can drill wider or narrower than the size stamped on it: measure your own bit, and a test hole in scrap";

/// A small button with the size alone; its name for screen readers says what it does, and to which field.
fn use_button(ui: &mut Ui, caption: &str, near: NearDrill, units: Units) -> Response {
    let (name, cutter) = (&near.drill.name, near.drill.series.cutter.label());
    let button = ui.add(Button::new(RichText::new(name).small()).small());
    button
        .widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("{caption}, use {name}")));
    let size = difference(near, units);
    button.on_hover_text(format!("Take the nearest {cutter}: {size}. {MEASURE}"))
}

/// The names of sizes that are those of the bore.
fn exact(near: &[NearDrill]) -> String {
    let names: Vec<&str> = near.iter().map(|near| near.drill.name.as_str()).collect();
    let cutter = near
        .first()
        .map_or("", |near| near.drill.series.cutter.label());
    format!("{cutter}: {}", names.join(" or "))
}

/// Its width beyond the bore, with a sign.
fn signed(near: NearDrill, units: Units) -> String {
    difference_of(near.larger, units)
}

/// A width beyond another, mm, with a sign.
pub fn difference_of(larger: f64, units: Units) -> String {
    let sign = if larger < 0.0 { "−" } else { "+" };
    format!("{sign}{}", size_of(larger.abs(), units))
}

fn difference(near: NearDrill, units: Units) -> String {
    let word = if near.larger < 0.0 { "less" } else { "more" };
    let by = size_of(near.larger.abs(), units);
    format!("{} is {by} {word}", near.drill.name)
}

fn size_of(larger: f64, units: Units) -> String {
    match units {
        Units::Mm => Measure::mm(larger).shown(units),
        Units::Inch(_) => show_setting(larger, units),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::bores::{bores_ui, center_ui};
    use crate::panels::hand::{self, press, sees, type_into};
    use testkit::assert_near;

    #[test]
    fn a_press_takes_the_nearest_drill() {
        let mut panel = hand::panel(900.0, |ui, board| bores_ui(ui, board, &mut Vec::new()));
        type_into(&mut panel, "Bore diameter", "15,1");
        assert!(sees(&panel, "+0.78 mm"));
        press(&mut panel, "Bore diameter, use 15 mm");
        assert_eq!(panel.state().bores.home.diameter, 15.0);
        assert!(sees(&panel, "Forstner bit: 15 mm"));
        type_into(&mut panel, "Bore diameter", "25.4");
        assert!(sees(&panel, "Forstner bit: 1\""));
    }

    /// A ball of 14 mm, sunk 3 mm, has a mouth of 2 · √(3 · 11).
    #[test]
    fn a_shallow_ball_takes_the_cutter_and_not_the_mouth() {
        let mut panel = hand::panel(900.0, |ui, board| {
            board.bores.track.bottom = Bottom::Ball;
            board.bores.track.depth = 3.0;
            bores_ui(ui, board, &mut Vec::new());
        });
        type_into(&mut panel, "Track diameter", "12");
        assert_near!(panel.state().bores.track.cutter(), 15.0, 1e-12);
        press(&mut panel, "Track diameter, use 14 mm");
        assert_near!(
            panel.state().bores.track.diameter,
            2.0 * 33.0_f64.sqrt(),
            1e-12
        );
    }

    #[test]
    fn differences_are_said_in_the_unit_shown() {
        let mut panel = hand::panel(900.0, |ui, board| {
            board.units = Units::INCH;
            board.bores.track.bottom = Bottom::Point118;
            bores_ui(ui, board, &mut Vec::new());
        });
        type_into(&mut panel, "Track diameter", "15.1 mm");
        assert!(sees(&panel, "−0.0007\""));
        press(&mut panel, "Track diameter, use 19/32\"");
        assert_near!(panel.state().bores.track.diameter, 15.081_25, 1e-9);
        assert!(sees(&panel, "twist drill: 19/32\""));
    }

    #[test]
    fn pivot_and_pilot_are_drilled_with_twist_drills() {
        let mut panel = hand::panel(600.0, center_ui);
        type_into(&mut panel, "Pilot diameter", "0.257 in");
        assert!(sees(&panel, "twist drill: letter F"));
    }
}
