//! Fields of the document, each drawn from its row in the field table, with caption, hint and error.

use board::{Board, Choice, Field, HoleId, Kind, Quantity, Range, Units, Value, Written};
use egui::{Align, Checkbox, Layout, RichText, Role, TextEdit, Ui, WidgetInfo, vec2};

use super::list::{corners_field, numbers_field};
use super::number::{
    self, drag, fault_line, look_like_a_field, number_field, read, rounded, shown, typed,
};
use super::{
    caption_width, choice, color_field, field_width, hinted, keep_fault, row, row_of, show_fault,
    typed_text,
};

/// Fields one below the other; those that the board does not have now are left out.
pub fn fields_ui(ui: &mut Ui, board: &mut Board, fields: &[&Field]) {
    for field in fields {
        field_ui(ui, board, field);
    }
}

/// A field of the board, if it has it now; returns whether it was changed.
pub fn field_ui(ui: &mut Ui, board: &mut Board, field: &Field) -> bool {
    entry_ui(ui, board, field, 0)
}

/// A field of an entry of a list, if the entry has it now; returns whether it was changed.
pub fn entry_ui(ui: &mut Ui, board: &mut Board, field: &Field, entry: usize) -> bool {
    let Some(before) = field.value(board, entry) else {
        return false;
    };
    let mut value = before.clone();
    value_ui(ui, &field.label(entry), field, &mut value, board.units);
    value != before && field.set(board, entry, &value)
}

/// A number of the board with a longer hint than its own.
pub fn explained_ui(ui: &mut Ui, board: &mut Board, field: &Field, hint: &str) {
    if let Some(Value::Number(mut number)) = field.value(board, 0) {
        let range = numeric(field.range(), board.units);
        hinted_number_ui(ui, &field.label(0), &mut number, range, hint);
        field.set(board, 0, &Value::Number(number));
    }
}

/// A number under a caption of its own, with the range of a field; it need not be on the board.
pub fn number_ui(ui: &mut Ui, caption: &str, field: &Field, number: &mut f64, units: Units) {
    hinted_number_ui(
        ui,
        caption,
        number,
        numeric(field.range(), units),
        &field.hint_in(units),
    );
}

fn hinted_number_ui(
    ui: &mut Ui,
    caption: &str,
    number: &mut f64,
    numeric: number::Field,
    hint: &str,
) {
    hinted(number_field(ui, caption, number, numeric), hint);
    // Dragging passes through values between two counts.
    if numeric.range.quantity == Quantity::Count {
        *number = number.round();
    }
}

/// A number of the board with a button beside it that finds one; returns whether the button was pressed.
pub fn fitted_ui(
    ui: &mut Ui,
    board: &mut Board,
    field: &Field,
    [name, about]: [&'static str; 2],
) -> bool {
    let hint = field.hint_in(board.units);
    fitted_explained_ui(ui, board, field, [name, about, &hint])
}

/// The same with a longer hint than its own.
pub fn fitted_explained_ui(
    ui: &mut Ui,
    board: &mut Board,
    field: &Field,
    [name, about, hint]: [&str; 3],
) -> bool {
    let Some(Value::Number(mut number)) = field.value(board, 0) else {
        return false;
    };
    let numeric = numeric(field.range(), board.units);
    let fit = [name, about, hint];
    let pressed = fitted_number_ui(ui, &field.label(0), &mut number, numeric, fit);
    field.set(board, 0, &Value::Number(number));
    pressed
}

/// A number under a caption of its own with a button beside it that finds one; returns whether the button was pressed.
pub fn fitted_number_ui(
    ui: &mut Ui,
    caption: &str,
    number: &mut f64,
    numeric: number::Field,
    [name, about, hint]: [&str; 3],
) -> bool {
    let (response, pressed) = row(ui, caption, |ui, caption_id| {
        let room = field_width(ui) - FIT - ui.spacing().item_spacing.x;
        let narrow = |ui: &mut Ui| {
            ui.set_max_width(room);
            hinted(drag(ui, number, numeric), hint).labelled_by(caption_id)
        };
        let response = ui.scope(narrow).inner;
        (response, fit_button(ui, name, about))
    });
    fault_line(ui, &response);
    pressed
}

/// The button that finds a number, with its name for screen readers and its effect; returns whether it was pressed.
pub fn fit_button(ui: &mut Ui, name: &str, about: &str) -> bool {
    let size = vec2(FIT, ui.spacing().interact_size.y);
    let button = ui.add(egui::Button::new("Fit").min_size(size));
    button.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    let button = button.on_hover_text(format!("{name}: {about}"));
    button.clicked()
}

/// Width of that button, in points.
pub const FIT: f32 = 44.0;

/// One of several kinds under a caption of its own.
pub fn choice_ui<T: Choice + Copy + PartialEq>(ui: &mut Ui, caption: &str, chosen: &mut T) {
    choice(ui, caption, chosen, T::KINDS, |kind| kind.words());
}

const fn numeric(range: Range, units: Units) -> number::Field {
    number::Field { range, units }
}

/// A field under a caption of its own, for a value that may not stand on the board yet.
pub fn value_ui(ui: &mut Ui, caption: &str, field: &Field, value: &mut Value, units: Units) {
    let numeric = |range| numeric(range, units);
    let hint = field.hint_in(units);
    let hint = hint.as_str();
    match (field.kind, &mut *value) {
        (Kind::Number(_), Value::Number(number)) => number_ui(ui, caption, field, number, units),
        (Kind::Auto(range, without) | Kind::Open(range, without), _) => {
            open_ui(ui, caption, value, numeric(range), [without, hint]);
        }
        (Kind::Ticked(range, _), _) => {
            let begun = field.begun(units);
            ticked_ui(ui, caption, value, numeric(range), begun, hint);
        }
        (Kind::Choice, Value::Choice(place)) => {
            let words = field.choices();
            let places: Vec<usize> = (0..words.len()).collect();
            let label = |place: usize| words.get(place).copied().unwrap_or_default();
            let response = choice(ui, caption, place, &places, label);
            hinted(response, hint);
        }
        (Kind::Color | Kind::AutoColor(_), Value::Color(color)) => {
            if let Some(picked) = color_field(ui, caption, *color, hint) {
                *color = picked;
            }
        }
        (Kind::Tick | Kind::Part, Value::Tick(on)) => {
            hinted(row_of(ui, caption, |ui| ui.checkbox(on, caption)), hint);
        }
        (Kind::Text(letters), Value::Text(text)) => text_ui(ui, caption, text, letters, hint),
        (
            Kind::Numbers {
                each,
                count,
                example,
            },
            Value::Numbers(numbers),
        ) => {
            numbers_field(
                ui,
                caption,
                numbers,
                [each, count],
                units,
                [&units.spell(example), hint],
            );
        }
        (Kind::Corners { each, count }, Value::Numbers(numbers)) => {
            corners_field(ui, caption, numbers, [each, count], units, hint);
        }
        (Kind::Hole(_), Value::Text(name)) => hole_name_ui(ui, caption, name, hint),
        (Kind::Written(_), _) => written_ui(ui, caption, field, value, units, hint),
        // Entries are added and removed by buttons.
        _ => {}
    }
}

/// A number that can be left to the program; the field then shows the value that the program found.
pub fn auto_ui(ui: &mut Ui, board: &mut Board, field: &Field, found: f64) {
    let (Kind::Auto(range, meaning), Some(mut value)) = (field.kind, field.value(board, 0)) else {
        return;
    };
    let caption = field.label(0);
    let numeric = numeric(range, board.units);
    let response = row(ui, &caption, |ui, caption_id| {
        let mut auto = value == Value::Open;
        let tick = ui
            .checkbox(&mut auto, "auto")
            .on_hover_text(format!("Automatic: {meaning}"));
        // The name for screen readers says which "auto" it is.
        tick.widget_info(|| {
            WidgetInfo::selected(Role::CheckBox, true, auto, format!("{caption}, auto"))
        });
        if tick.changed() {
            value = if auto {
                Value::Open
            } else {
                Value::Number(rounded(found, range.quantity))
            };
        }
        if let Value::Number(number) = &mut value {
            Some(
                hinted(drag(ui, number, numeric), &field.hint_in(board.units))
                    .labelled_by(caption_id),
            )
        } else {
            ui.label(RichText::new(shown(found, numeric)).weak());
            None
        }
    });
    if let Some(response) = response {
        fault_line(ui, &response);
    }
    field.set(board, 0, &value);
}

/// The name of a hole; a text that is no hole's name is reported below, and the name stays as it was.
fn hole_name_ui(ui: &mut Ui, caption: &str, name: &mut String, hint: &str) {
    let typed = typed_text(ui, caption, name, ["T3-07", hint], false);
    let fault = ui.scope_id().with(caption).with("fault");
    if let Some(text) = typed {
        let read = text.trim().parse::<HoleId>();
        keep_fault(
            ui,
            fault,
            read.map(|hole| *name = hole.to_string())
                .map_err(|error| error.to_string()),
        );
    }
    show_fault(ui, fault);
}

/// A field for a day, a time of day or days off, as makers write them. Text that cannot be read is reported below it,
/// and the value stays.
fn written_ui(
    ui: &mut Ui,
    caption: &str,
    field: &Field,
    value: &mut Value,
    units: Units,
    hint: &str,
) {
    let Kind::Written(form) = field.kind else {
        return;
    };
    let before = match value {
        Value::Open => String::new(),
        _ => field.shown(value, units),
    };
    let example = match form {
        Written::MaybeDay(without) => without.to_owned(),
        Written::DaysOff(_) => "none".into(),
        Written::Zone => "as the computer".into(),
        form => form.example(units),
    };
    let left = typed_text(ui, caption, &before, [&example, hint], false);
    let fault = ui.scope_id().with(caption).with("fault");
    if let Some(text) = left.filter(|text| *text != before) {
        let read = match (form, text.trim()) {
            (Written::MaybeDay(_), "") => Ok(Value::Open),
            _ => read_written(field, &text, units),
        };
        keep_fault(ui, fault, read.map(|read| *value = read));
    }
    show_fault(ui, fault);
}

/// The value of a typed text; of the board only the units are used.
fn read_written(field: &Field, text: &str, units: Units) -> Result<Value, String> {
    let board = Board {
        units,
        ..Board::default()
    };
    let read = field.read(text, &board, 0);
    read.map_err(|error| error.to_string())
}

/// A number that may be missing; clearing the field removes it.
fn open_ui(
    ui: &mut Ui,
    caption: &str,
    value: &mut Value,
    numeric: number::Field,
    [without, hint]: [&str; 2],
) {
    let before = match value {
        Value::Number(number) => typed(*number, numeric),
        _ => String::new(),
    };
    let left = typed_text(ui, caption, &before, [without, hint], false);
    let fault = ui.scope_id().with(caption).with("fault");
    // Text left unedited keeps the exact value, because the text is only a rounding of it.
    if let Some(text) = left.filter(|text| *text != before) {
        let read = match text.trim() {
            "" => Ok(Value::Open),
            text => read(text, numeric).map(Value::Number),
        };
        keep_fault(ui, fault, read.map(|read| *value = read));
    }
    show_fault(ui, fault);
}

/// A number of the kind of a field that may be left empty, under a caption of its own; the empty field shows the value used instead.
pub fn optional_ui(
    ui: &mut Ui,
    caption: &str,
    field: &Field,
    number: &mut Option<f64>,
    units: Units,
    without: &str,
) {
    let mut value = number.map_or(Value::Open, Value::Number);
    let hint = field.hint_in(units);
    let numeric = numeric(field.range(), units);
    open_ui(ui, caption, &mut value, numeric, [without, &hint]);
    *number = match value {
        Value::Number(number) => Some(number),
        _ => None,
    };
}

/// A number that is there while its box is ticked.
fn ticked_ui(
    ui: &mut Ui,
    caption: &str,
    value: &mut Value,
    numeric: number::Field,
    begun: f64,
    hint: &str,
) {
    let response = row_of(ui, caption, |ui| {
        let mut on = *value != Value::Open;
        let size = vec2(caption_width(ui), ui.spacing().interact_size.y);
        let tick = ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(size.x);
            ui.add(Checkbox::new(&mut on, caption))
        });
        if hinted(tick.inner, hint).changed() {
            *value = if on {
                Value::Number(begun)
            } else {
                Value::Open
            };
        }
        let Value::Number(number) = value else {
            return None;
        };
        let response = hinted(drag(ui, number, numeric), hint);
        // The box has the caption for its name, and the number one of its own.
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_label(format!("{caption}, size"));
        });
        Some(response)
    });
    if let Some(response) = response {
        fault_line(ui, &response);
    }
}

fn text_ui(ui: &mut Ui, caption: &str, text: &mut String, letters: Range, hint: &str) {
    row(ui, caption, |ui, caption_id| {
        look_like_a_field(ui);
        let edit = TextEdit::singleline(text)
            .char_limit(letters.max as usize)
            .desired_width(field_width(ui));
        hinted(ui.add(edit), hint).labelled_by(caption_id);
    });
}
