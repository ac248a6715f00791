//! Number fields, each with a caption, a range, and an error message below it.

use core::cell::RefCell;

use board::{MassUnit, Quantity, Range, Units};
use egui::accesskit::Invalid;
use egui::{Align, CursorIcon, DragValue, Layout, Response, Ui, UiBuilder, vec2};

use super::typed::kept_as_it_was;
use super::{LEAST_FIELD, field_room, field_width, row, words_width};
use crate::theme::Tokens;

/// A field for a number that can be typed in any unit, dragged, or stepped with the arrow keys.
///
/// Text that cannot be read, or a number out of range, is reported below the field, and the value stays as it was.
pub fn number_field(ui: &mut Ui, caption: &str, value: &mut f64, field: Field) -> Response {
    let response = row(ui, caption, |ui, caption_id| {
        drag(ui, value, field).labelled_by(caption_id)
    });
    fault_line(ui, &response);
    response
}

/// The range of a field, and the units it is shown in.
#[derive(Clone, Copy)]
pub struct Field {
    /// The range of its values.
    pub range: Range,
    /// The unit in which lengths are shown, and read where no unit is typed.
    pub units: Units,
}

impl Field {
    fn is_in_inches(self) -> bool {
        self.range.quantity == Quantity::Length && self.units.is_inch()
    }
}

/// The value rounded to 0.01 mm for a length, else to 0.1, so that a place found by the program has few digits.
pub fn rounded(value: f64, quantity: Quantity) -> f64 {
    let parts = if quantity == Quantity::Length {
        100.0
    } else {
        10.0
    };
    (value * parts).round() / parts
}

/// A number field without a caption. It can be typed or stepped with the arrow keys; a drag changes it only while Ctrl
/// is held, so that a drag that happens to cross it changes nothing.
pub fn drag(ui: &mut Ui, value: &mut f64, field: Field) -> Response {
    let width = field_room(ui).min(ui.available_width());
    let width = width.clamp(LEAST_FIELD, field_width(ui));
    let start = Layout::left_to_right(Align::Center).with_main_align(Align::Min);
    let scope = ui.scope_builder(UiBuilder::new().layout(start), |ui| {
        look_like_a_field(ui);
        number(ui, value, field, width)
    });
    scope.inner
}

/// Gives a number the fill and frame of a text field, so that it does not look like a button.
pub fn look_like_a_field(ui: &mut Ui) {
    let tokens = Tokens::of(ui);
    let widgets = &mut ui.visuals_mut().widgets;
    for look in [
        &mut widgets.inactive,
        &mut widgets.hovered,
        &mut widgets.active,
    ] {
        look.weak_bg_fill = tokens.field;
        look.bg_fill = tokens.field;
    }
    widgets.inactive.bg_stroke.color = tokens.edge;
}

/// Text that could not be read, and the value that was kept.
#[derive(Clone)]
struct Wrong {
    text: String,
    value: f64,
}

fn number(ui: &mut Ui, value: &mut f64, field: Field, width: f32) -> Response {
    // The parser runs inside the widget and stores the text and its result here.
    let verdict: RefCell<Option<(String, Result<f64, String>)>> = RefCell::new(None);
    let before = *value;
    let id = ui.next_auto_id();
    // Out of focus the field shows a rounded fraction; in focus it shows the number itself for editing.
    let is_entered = ui.memory(|memory| memory.has_focus(id));
    let wrong = ui.data(|data| data.get_temp::<Wrong>(id.with("wrong")));
    let wrong = wrong.filter(|wrong| wrong.value.total_cmp(&before).is_eq());
    let parser = |text: &str| {
        // Text left unedited keeps the exact value, because the text is only a rounding of it.
        let untouched = text == shown(before, field) || text == typed(before, field);
        let read = if untouched {
            Ok(before)
        } else {
            read(text, field)
        };
        *verdict.borrow_mut() = Some((text.to_owned(), read.clone()));
        read.ok()
    };
    let cut = wrong
        .as_ref()
        .filter(|_| !is_entered)
        .map(|wrong| cut_short(ui, &wrong.text, width));
    let arrows = arrows(ui);
    let (dragging, drags) = ui.input(|input| (input.pointer.any_down(), input.modifiers.command));
    let speed = if dragging && !drags {
        0.0
    } else {
        step(field, dragging)
    };
    let widget = DragValue::new(value)
        .range(field.range.min..=field.range.max)
        .clamp_existing_to_range(false)
        .speed(speed)
        // A step of 1/32 inch is not a round number of millimeters.
        .min_decimals(9)
        .custom_formatter(|value, _| match &wrong {
            // Text that could not be read stays so that it can be corrected.
            Some(wrong) => cut.clone().unwrap_or_else(|| wrong.text.clone()),
            None if is_entered => typed(value, field),
            None => shown(value, field),
        })
        .custom_parser(parser)
        .min_size(vec2(width, ui.spacing().interact_size.y));
    let response = ui.add(widget);
    if response.hovered() && !drags {
        ui.ctx().set_cursor_icon(CursorIcon::Text);
    }
    // The widget parses the text once more in the frame after Escape; that result is ignored.
    let was_given_up = ui.data_mut(|data| data.remove_temp::<bool>(id.with("given up")));
    let verdict = verdict.into_inner().filter(|_| was_given_up.is_none());
    if response.changed() && verdict.is_none() {
        *value = neat(before, *value, arrows, response.dragged(), field);
    }
    judge(ui, &response, value, before, verdict, field);
    restore(ui, &response, value, before);
    response
}

/// As much of a text as fits in a field, so that it does not push what stands beside it out of the panel.
fn cut_short(ui: &Ui, text: &str, width: f32) -> String {
    const MOST: usize = 40;
    let room = width - 2.0 * ui.spacing().button_padding.x;
    let mut short: String = text.chars().take(MOST).collect();
    if short == text && words_width(ui, text) <= room {
        return short;
    }
    while !short.is_empty() && words_width(ui, format!("{short}…")) > room {
        short.pop();
    }
    short + "…"
}

/// Presses of the up arrow in this frame, less those of the down arrow.
fn arrows(ui: &Ui) -> f64 {
    let presses = |key| ui.input(|input| input.num_presses(key)) as f64;
    presses(egui::Key::ArrowUp) - presses(egui::Key::ArrowDown)
}

/// The value after an arrow key or a drag: a whole step, or half a step for a drag in inches, within the range.
fn neat(before: f64, after: f64, arrows: f64, dragged: bool, field: Field) -> f64 {
    let step = step(field, false);
    let whole = match (arrows > 0.0, arrows < 0.0) {
        (true, _) => ((before / step + 1e-6).floor() + arrows) * step,
        (_, true) => ((before / step - 1e-6).ceil() + arrows) * step,
        _ if dragged && field.is_in_inches() => (after / step * 2.0).round() * step / 2.0,
        _ => return after,
    };
    whole.max(field.range.min).min(field.range.max)
}

/// Restores the value if it went out of range, and stores the error message for the following frames.
fn judge(
    ui: &Ui,
    response: &Response,
    value: &mut f64,
    before: f64,
    verdict: Option<(String, Result<f64, String>)>,
    field: Field,
) {
    let typed = verdict.is_some();
    let (text, read) = verdict.unzip();
    let mut words = read.and_then(Result::err);
    if response.changed()
        && let Err(refused) = in_range(*value, field)
    {
        *value = before;
        words = Some(refused);
    }
    let fault = fault_id(response);
    match words {
        Some(words) => {
            ui.data_mut(|data| {
                data.insert_temp(fault, words);
                if let Some(text) = text {
                    let wrong = Wrong {
                        text,
                        value: before,
                    };
                    data.insert_temp(wrong_id(response), wrong);
                }
            });
        }
        None if typed || response.changed() => forget(ui, response),
        // The message is removed, but the text stays so that it can be corrected.
        None if response.gained_focus() => {
            ui.data_mut(|data| data.remove::<String>(fault));
        }
        None => {}
    }
}

/// Restores the value from before editing when the field loses focus with unreadable text or by Escape: while typing,
/// part of the text may have been read as a number.
fn restore(ui: &Ui, response: &Response, value: &mut f64, before: f64) {
    let start = response.id.with("start");
    if response.gained_focus() {
        ui.data_mut(|data| data.insert_temp(start, before));
    }
    if response.lost_focus() {
        let escaped = ui.input(|input| input.key_pressed(egui::Key::Escape));
        let entered_with = ui.data_mut(|data| data.remove_temp::<f64>(start));
        if let Some(entered_with) = entered_with
            && (escaped || fault_of(ui, response).is_some())
        {
            *value = entered_with;
        }
        if escaped {
            forget(ui, response);
            ui.data_mut(|data| data.insert_temp(response.id.with("given up"), true));
        }
    }
}

/// Removes the error message of a field, and the text that it is about.
fn forget(ui: &Ui, response: &Response) {
    ui.data_mut(|data| {
        data.remove::<String>(fault_id(response));
        data.remove::<Wrong>(wrong_id(response));
    });
}

/// The key under which text that could not be read is stored.
fn wrong_id(field: &Response) -> egui::Id {
    field.id.with("wrong")
}

/// The key under which the error message of a field is stored from frame to frame.
fn fault_id(field: &Response) -> egui::Id {
    field.id.with("fault")
}

fn fault_of(ui: &Ui, field: &Response) -> Option<String> {
    ui.data(|data| data.get_temp(fault_id(field)))
}

/// The error message about the text typed last, if there is one.
pub fn fault_line(ui: &mut Ui, field: &Response) {
    let Some(fault) = fault_of(ui, field) else {
        return;
    };
    ui.accesskit_node_builder(field.id, |node| {
        node.set_invalid(Invalid::True);
        node.set_description(fault.as_str());
    });
    kept_as_it_was(ui, &fault);
}

/// The number that a text stands for.
///
/// # Errors
/// A message where the text cannot be read or the number is out of range.
pub fn read(text: &str, field: Field) -> Result<f64, String> {
    let read = field.range.quantity.read(text, field.units);
    let typed = read.map_err(|error| error.to_string())?;
    let value = field.range.meant(typed, field.units);
    in_range(value, field)?;
    Ok(value)
}

fn in_range(value: f64, field: Field) -> Result<(), String> {
    let checked = field.range.check(value);
    checked.map_err(|fault| field.units.say(&fault))
}

/// A number as the field shows it.
pub fn shown(value: f64, field: Field) -> String {
    field.range.quantity.shown(value, field.units)
}

/// A number as the field shows it while it is edited: inches as a decimal instead of a rounded fraction.
pub fn typed(value: f64, field: Field) -> String {
    field.range.quantity.typed(value, field.units)
}

/// The change by one press of an arrow key, or by a drag of one point, in the unit that the document stores.
fn step(field: Field, dragging: bool) -> f64 {
    let quantity = field.range.quantity;
    let shown = match (quantity, field.units) {
        (Quantity::Length, Units::Mm) => 0.5,
        (Quantity::Length, Units::Inch(fraction)) => 1.0 / f64::from(fraction.parts().min(32)),
        (Quantity::Number, _) => 0.01,
        (Quantity::Mass(MassUnit::Gram) | Quantity::Volume | Quantity::Force, Units::Inch(_)) => {
            0.1
        }
        _ => 1.0,
    };
    let whole = shown * quantity.unit_size(field.units);
    if dragging { whole / 8.0 } else { whole }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theme;
    use board::field::{BOARD_DIAMETER, MOST_RISK, PLAYERS, ROUNDOVER};
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable as _;
    use testkit::assert_near;

    const INCH: f64 = 25.4;

    /// Diameter, roundover and players, one field below the other.
    type State = (f64, f64, f64);

    fn fields(units: Units) -> Harness<'static, State> {
        let panel = move |ui: &mut Ui, state: &mut State| {
            let field = |row: &'static board::Field| Field {
                range: row.range(),
                units,
            };
            number_field(ui, "Diameter", &mut state.0, field(&BOARD_DIAMETER));
            number_field(ui, "Roundover", &mut state.1, field(&ROUNDOVER));
            number_field(ui, "Players", &mut state.2, field(&PLAYERS));
        };
        let builder = Harness::builder().with_context_setup(theme::install);
        builder.build_ui_state(panel, (500.0, 5.0, 2.0))
    }

    fn enter(harness: &mut Harness<'static, State>, caption: &str) {
        harness.get_by_label(caption).click();
        harness.run();
    }

    fn write(harness: &mut Harness<'static, State>, caption: &str, text: &str) {
        enter(harness, caption);
        for letter in text.chars() {
            harness.event(egui::Event::Text(letter.to_string()));
            harness.run();
        }
        harness.key_press(egui::Key::Enter);
        harness.run();
    }

    fn press(harness: &mut Harness<'static, State>, key: egui::Key) {
        harness.key_press(key);
        harness.run();
    }

    #[test]
    fn a_length_is_read_in_any_unit() {
        let mut harness = fields(Units::Mm);
        for (text, mm) in [
            ("5/8", 15.875),
            ("1 3/16\"", 30.1625),
            ("12,5", 12.5),
            ("2' 1/4\"", 615.95),
        ] {
            write(&mut harness, "Diameter", text);
            assert_near!(harness.state().0, mm, 1e-9);
        }
    }

    #[test]
    fn text_that_only_begins_with_a_length_changes_nothing() {
        let mut harness = fields(Units::INCH);
        write(&mut harness, "Diameter", "5/0");
        assert_near!(harness.state().0, 500.0, 0.0);
        harness.get_by_label_contains("divides by zero");
        write(&mut harness, "Diameter", "20");
        assert_near!(harness.state().0, 20.0 * INCH, 1e-9);
        assert!(harness.query_by_label_contains("divides by zero").is_none());
    }

    #[test]
    fn escape_takes_back_what_was_typed() {
        let mut harness = fields(Units::Mm);
        enter(&mut harness, "Diameter");
        harness.event(egui::Event::Text("7".into()));
        harness.run();
        assert_near!(harness.state().0, 7.0, 0.0);
        press(&mut harness, egui::Key::Escape);
        assert_near!(harness.state().0, 500.0, 0.0);
    }

    #[test]
    fn each_field_shows_its_own_error() {
        let mut harness = fields(Units::Mm);
        write(&mut harness, "Players", "many");
        write(&mut harness, "Roundover", "900");
        write(&mut harness, "Diameter", "wide");
        assert_eq!(*harness.state(), (500.0, 5.0, 2.0));
        let place = |words: &str| harness.get_by_label_contains(words).rect().top();
        let field = |caption: &str| harness.get_by_label(caption).rect().top();
        assert!(field("Diameter") < place("wide") && place("wide") < field("Roundover"));
        assert!(
            field("Roundover") < place("Roundover: ") && place("Roundover: ") < field("Players")
        );
        assert!(field("Players") < place("many"));
    }

    #[test]
    fn arrows_go_to_whole_steps_and_stop_at_the_end_of_the_range() {
        let mut harness = fields(Units::INCH);
        enter(&mut harness, "Diameter");
        press(&mut harness, egui::Key::ArrowUp);
        assert_near!(harness.state().0, (19.0 + 22.0 / 32.0) * INCH, 1e-9);
        press(&mut harness, egui::Key::ArrowUp);
        press(&mut harness, egui::Key::ArrowDown);
        press(&mut harness, egui::Key::ArrowDown);
        assert_near!(harness.state().0, (19.0 + 21.0 / 32.0) * INCH, 1e-9);
        enter(&mut harness, "Players");
        for _ in 0..3 {
            press(&mut harness, egui::Key::ArrowDown);
        }
        assert_near!(harness.state().2, 1.0, 0.0);
    }

    #[test]
    fn a_drag_changes_a_number_only_with_ctrl_held() {
        let mut harness = fields(Units::Mm);
        for (modifiers, is_changed) in [
            (egui::Modifiers::NONE, false),
            (egui::Modifiers::COMMAND, true),
        ] {
            harness.event(egui::Event::ModifiersChanged(modifiers));
            let from = harness.get_by_label("Diameter").rect().center();
            harness.drag_at(from);
            harness.run_steps(2);
            harness.hover_at(from + egui::vec2(30.0, 0.0));
            harness.run_steps(2);
            harness.drop_at(from + egui::vec2(30.0, 0.0));
            harness.run_steps(2);
            assert_eq!(harness.state().0 > 500.0, is_changed, "{modifiers:?}");
        }
    }

    #[test]
    fn unreadable_text_stays_until_escape() {
        let mut harness = fields(Units::Mm);
        write(&mut harness, "Diameter", "wide");
        let text = |harness: &Harness<'static, State>| {
            use egui_kittest::kittest::NodeT as _;
            let field = harness.get_by_label("Diameter");
            field.accesskit_node().value().unwrap_or_default()
        };
        assert_eq!(text(&harness), "wide");
        enter(&mut harness, "Diameter");
        press(&mut harness, egui::Key::Escape);
        assert_eq!(text(&harness), "500 mm");
        assert!(harness.query_by_label_contains("wide").is_none());
    }

    #[test]
    fn a_long_text_takes_no_more_room_than_the_field_has() {
        let mut harness = fields(Units::Mm);
        let wide = harness.get_by_label("Diameter").rect().width();
        let long = "as wide as the table is ".repeat(20);
        write(&mut harness, "Diameter", &long);
        let text = |harness: &Harness<'static, State>| {
            use egui_kittest::kittest::NodeT as _;
            let field = harness.get_by_label("Diameter");
            field.accesskit_node().value().unwrap_or_default()
        };
        let now = harness.get_by_label("Diameter").rect().width();
        assert!((now - wide).abs() < 0.5, "{now} {wide}");
        let cut = text(&harness);
        assert!(cut.starts_with("as wide as") && cut.ends_with('…'), "{cut}");
        // It is all there to be corrected.
        enter(&mut harness, "Diameter");
        assert_eq!(text(&harness), long);
    }

    #[test]
    fn shares_are_typed_and_shown_in_percent() {
        let field = Field {
            range: MOST_RISK.range(),
            units: Units::Mm,
        };
        assert_eq!(shown(0.05, field), "5 %");
        for text in ["5", "5 %", "5%", " 5,0 % "] {
            assert_near!(read(text, field).unwrap(), 0.05, 1e-12);
        }
        assert_eq!(
            read("101", field).unwrap_err(),
            "Allowed risk: 101 % is out of range; use 0 % to 100 %"
        );
    }

    #[test]
    fn a_number_out_of_range_is_refused_with_a_message() {
        let mut harness = fields(Units::Mm);
        harness.get_by_label("Roundover").set_value_accesskit(-1.0);
        harness.run();
        assert_near!(harness.state().1, 5.0, 0.0);
        harness.get_by_label_contains("use 0 mm to 200 mm");
    }
}
