//! Fields for numbers and choices: each with its caption, its range, and its fault in words below it.

use core::cell::RefCell;

use board::{Quantity, Range, Units, parse_length, show_length, show_number};
use egui::{Align, ComboBox, DragValue, Layout, Response, RichText, Role, Ui, WidgetInfo, vec2};

use crate::theme::{self, Tokens};

/// Width of the captions, so that fields stand in line.
const CAPTION: f32 = 122.0;

/// A length that can be typed in any unit, dragged, or stepped with the arrow keys.
///
/// What cannot be read, or is out of range, is said below the field; the value stays as it was.
pub fn length_field(
    ui: &mut Ui,
    caption: &str,
    mm: &mut f64,
    range: Range,
    units: Units,
) -> Response {
    number_field(ui, caption, mm, Field { range, units })
}

/// A whole number.
pub fn count_field(ui: &mut Ui, caption: &str, count: &mut u32, range: Range) -> Response {
    let mut value = f64::from(*count);
    let response = number_field(
        ui,
        caption,
        &mut value,
        Field {
            range,
            units: Units::Mm,
        },
    );
    if response.changed() && value >= 0.0 {
        *count = value.round() as u32;
    }
    response
}

/// A plain number or an angle in degrees.
pub fn plain_field(ui: &mut Ui, caption: &str, value: &mut f64, range: Range) -> Response {
    number_field(
        ui,
        caption,
        value,
        Field {
            range,
            units: Units::Mm,
        },
    )
}

/// A length or an angle that can be left to the program, which then shows what it found (`now`).
pub fn auto_field(ui: &mut Ui, caption: &str, value: &mut Option<f64>, now: f64, field: Field) {
    let response = row(ui, caption, |ui, caption_id| {
        let mut auto = value.is_none();
        let tick = ui
            .checkbox(&mut auto, "auto")
            .on_hover_text("Where the most wood is left around it");
        // A screen reader hears which "auto" it is.
        tick.widget_info(|| {
            WidgetInfo::selected(
                Role::CheckBox,
                true,
                value.is_none(),
                format!("{caption}, auto"),
            )
        });
        if tick.changed() {
            *value = if auto {
                None
            } else {
                Some(rounded(now, field.range.quantity))
            };
        }
        if let Some(value) = value {
            Some(drag(ui, value, field).labelled_by(caption_id))
        } else {
            ui.label(RichText::new(shown(now, field)).weak());
            None
        }
    });
    if let Some(response) = response {
        fault_line(ui, &response);
    }
}

/// What a field may hold and how it is shown.
#[derive(Clone, Copy)]
pub struct Field {
    /// What it may hold.
    pub range: Range,
    /// The unit of lengths.
    pub units: Units,
}

/// One of several, by name.
pub fn choice<T: Copy + PartialEq>(
    ui: &mut Ui,
    caption: &str,
    chosen: &mut T,
    all: &[T],
    label: impl Fn(T) -> &'static str,
) -> bool {
    let before = *chosen;
    row(ui, caption, |ui, caption_id| {
        let combo = ComboBox::from_id_salt(caption)
            .selected_text(label(*chosen))
            .width(150.0);
        let shown = combo.show_ui(ui, |ui| {
            for &one in all {
                ui.selectable_value(chosen, one, label(one));
            }
        });
        shown.response.labelled_by(caption_id);
    });
    *chosen != before
}

/// A caption and what stands beside it.
pub fn row<R>(ui: &mut Ui, caption: &str, field: impl FnOnce(&mut Ui, egui::Id) -> R) -> R {
    let line = ui.horizontal(|ui| {
        let size = vec2(CAPTION, ui.spacing().interact_size.y);
        let label = ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(CAPTION);
            ui.label(caption).id
        });
        field(ui, label.inner)
    });
    line.inner
}

/// A title above a group of rows that can be folded away.
pub fn section(ui: &mut Ui, title: &str, open: bool, content: impl FnOnce(&mut Ui)) {
    let words = RichText::new(title).family(theme::strong());
    egui::CollapsingHeader::new(words)
        .default_open(open)
        .show_unindented(ui, |ui| {
            ui.add_space(2.0);
            content(ui);
            ui.add_space(theme::GAP);
        });
}

/// The one button of a group that is meant to be pressed.
pub fn main_button(ui: &mut Ui, label: &str) -> Response {
    let tokens = Tokens::of(ui);
    let words = RichText::new(label)
        .color(tokens.on_accent)
        .family(theme::strong());
    let button = egui::Button::new(words)
        .fill(tokens.accent)
        .stroke(egui::Stroke::new(1.0, tokens.accent));
    ui.scope(|ui| {
        ui.spacing_mut().button_padding = vec2(14.0, 4.0);
        ui.add(button)
    })
    .inner
}

fn number_field(ui: &mut Ui, caption: &str, value: &mut f64, field: Field) -> Response {
    let response = row(ui, caption, |ui, caption_id| {
        drag(ui, value, field).labelled_by(caption_id)
    });
    fault_line(ui, &response);
    response
}

/// To a hundredth of a millimeter or a tenth of a degree: a place taken over from the program can be read.
fn rounded(value: f64, quantity: Quantity) -> f64 {
    let parts = if quantity == Quantity::Length {
        100.0
    } else {
        10.0
    };
    (value * parts).round() / parts
}

fn drag(ui: &mut Ui, value: &mut f64, field: Field) -> Response {
    // The parser runs inside the widget and tells here what it thought of the text.
    let verdict: RefCell<Option<Result<(), String>>> = RefCell::new(None);
    let parser = |text: &str| {
        let read = read(text, field);
        *verdict.borrow_mut() = Some(read.as_ref().map(drop).map_err(Clone::clone));
        read.ok()
    };
    let dragging = ui.input(|input| input.pointer.any_down());
    let widget = DragValue::new(value)
        .range(field.range.min..=field.range.max)
        .clamp_existing_to_range(false)
        .speed(step(field, dragging))
        .custom_formatter(|value, _| shown(value, field))
        .custom_parser(parser)
        .min_size(vec2(96.0, ui.spacing().interact_size.y));
    let response = ui.add(widget);
    let fault = fault_id(&response);
    match verdict.into_inner() {
        Some(Err(words)) => {
            ui.data_mut(|data| data.insert_temp(fault, words));
        }
        Some(Ok(())) => ui.data_mut(|data| data.remove::<String>(fault)),
        None if response.gained_focus() || response.changed() => {
            ui.data_mut(|data| data.remove::<String>(fault));
        }
        None => {}
    }
    response
}

/// Where the fault of a field is kept from frame to frame.
fn fault_id(field: &Response) -> egui::Id {
    field.id.with("fault")
}

/// What is wrong with the text that was typed last, if anything is.
fn fault_line(ui: &mut Ui, field: &Response) {
    let Some(fault) = ui.data(|data| data.get_temp::<String>(fault_id(field))) else {
        return;
    };
    let color = Tokens::of(ui).stop;
    ui.horizontal_wrapped(|ui| {
        ui.label(
            RichText::new(format!("▲ {fault}; kept as it was"))
                .color(color)
                .small(),
        );
    });
}

fn read(text: &str, field: Field) -> Result<f64, String> {
    let value = match field.range.quantity {
        Quantity::Length => parse_length(text, field.units).map_err(|error| error.to_string())?,
        Quantity::Count => {
            let count: u32 = text
                .trim()
                .parse()
                .map_err(|_| format!("\"{}\" is no whole number", short(text)))?;
            f64::from(count)
        }
        Quantity::Degrees | Quantity::Share => {
            let plain = text.trim().trim_end_matches('°').trim().replace(',', ".");
            plain
                .parse()
                .map_err(|_| format!("\"{}\" is no number", short(text)))?
        }
    };
    let range = field.range;
    range.check(value).map_err(|_| {
        format!(
            "{} may be {} to {}",
            range.name,
            shown(range.min, field),
            shown(range.max, field)
        )
    })?;
    Ok(value)
}

fn short(text: &str) -> String {
    text.trim().chars().take(24).collect()
}

fn shown(value: f64, field: Field) -> String {
    match field.range.quantity {
        Quantity::Length => show_length(value, field.units),
        Quantity::Count => format!("{value:.0}"),
        Quantity::Degrees => format!("{}°", show_number(value, 2)),
        Quantity::Share => show_number(value, 3),
    }
}

/// How far one arrow key goes, or one point of dragging.
fn step(field: Field, dragging: bool) -> f64 {
    let whole = match (field.range.quantity, field.units) {
        (Quantity::Length, Units::Mm) => 0.5,
        (Quantity::Length, Units::Inch) => 25.4 / 32.0,
        (Quantity::Count | Quantity::Degrees, _) => 1.0,
        (Quantity::Share, _) => 0.01,
    };
    if dragging { whole / 8.0 } else { whole }
}
