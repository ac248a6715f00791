//! Controls of the printer: its choice, the readings of its test sheet, and the correction that follows for the template.

#[cfg(test)]
mod tests;

use board::{Board, Choice, Measure, Quantity, Range, Units};
use drawing::test_lengths;
use egui::{Button, ComboBox, RichText, TextEdit, Ui};
use workshop::{PrintError, PrintFault, PrintLength, PrintReadings, PrintScale, print_scale};

use crate::panels::rows::{amount, fact};
use crate::printers::Printers;
use crate::theme::{self, Tokens};
use crate::widgets::{Field, field_width, in_field, number_field, numbers_field, row};

/// The choice of the printer, and its readings if there is one.
pub fn printer_ui(ui: &mut Ui, board: &mut Board, printers: &mut Printers) {
    if let Some(fault) = printers.fault() {
        let words = format!("▲ {fault}. What you change here is not kept.");
        fault_line(ui, &words);
    }
    choice_ui(ui, printers);
    buttons_ui(ui, board, printers);
    if printers.chosen().is_none() {
        let words = "No printer prints quite true. Export the printer test sheet, print it, add your printer here and type \
                     what the sheet measures.";
        ui.label(theme::quiet(words));
        return;
    }
    name_ui(ui, printers);
    if let Some(readings) = printers.readings_mut() {
        lengths_ui(ui, board, readings);
        let scale = print_scale(readings);
        let faults = scale.as_ref().err().map(Vec::as_slice).unwrap_or_default();
        readings_ui(ui, readings, faults, board.units);
        match scale {
            Ok(scale) => gives_ui(ui, board, &scale),
            Err(faults) => not_yet_ui(ui, readings, &faults, board.units),
        }
    }
}

fn choice_ui(ui: &mut Ui, printers: &mut Printers) {
    const NONE: &str = "No correction";
    let chosen = printers.chosen().map(|printer| printer.name.clone());
    let mut now = chosen.clone();
    row(ui, "Printer", |ui, caption| {
        let combo = ComboBox::from_id_salt("printer")
            .selected_text(chosen.as_deref().unwrap_or(NONE))
            .width(field_width(ui))
            .wrap();
        let shown = in_field(ui, |ui| {
            combo.show_ui(ui, |ui| {
                ui.selectable_value(&mut now, None, NONE);
                for printer in printers.all() {
                    let name = printer.name.as_str();
                    ui.selectable_value(&mut now, Some(name.to_owned()), name);
                }
            })
        });
        shown.response.labelled_by(caption);
    });
    if now != chosen {
        printers.choose(now.as_deref());
    }
}

/// A new printer begins with the lengths of this paper's test sheet.
fn buttons_ui(ui: &mut Ui, board: &Board, printers: &mut Printers) {
    ui.horizontal_wrapped(|ui| {
        let room = printers.all().len() < Printers::MOST;
        if ui.add_enabled(room, Button::new("Add a printer")).clicked() {
            printers.add(on_test_sheet(board, PrintReadings::default()));
        }
        if printers.chosen().is_none() {
            return;
        }
        if ui.button("Remove this printer").clicked() {
            printers.remove();
        }
    });
}

/// The lengths of the test sheet on a board's paper, and the readings that there are.
fn on_test_sheet(board: &Board, mut readings: PrintReadings) -> PrintReadings {
    if let Ok(lengths) = test_lengths(board) {
        readings.level.nominal = lengths.level;
        readings.upright.nominal = lengths.upright;
        readings.square = lengths.square;
    }
    readings
}

/// Offers the lengths of this paper's sheet, where the printer has others.
fn lengths_ui(ui: &mut Ui, board: &Board, readings: &mut PrintReadings) {
    let on_sheet = on_test_sheet(board, readings.clone());
    if on_sheet == *readings {
        return;
    }
    let label = format!("Lengths of the {} sheet", board.template.paper.words());
    let button = ui.button(label);
    let about = "The test sheet on the template's paper has other bars than these";
    if button.on_hover_text(about).clicked() {
        *readings = on_sheet;
    }
}

/// The name, which is taken when the field is left; what is wrong with it is said below until the next try.
fn name_ui(ui: &mut Ui, printers: &mut Printers) {
    let name = printers
        .chosen()
        .map(|printer| printer.name.clone())
        .unwrap_or_default();
    let typed_id = ui.scope_id().with("printer name typed");
    let fault_id = ui.scope_id().with("printer name fault");
    let typed = ui.data(|data| data.get_temp::<String>(typed_id));
    let mut text = typed.unwrap_or_else(|| name.clone());
    let response = row(ui, "Printer name", |ui, caption| {
        let edit = TextEdit::singleline(&mut text).desired_width(field_width(ui));
        ui.add(edit).labelled_by(caption)
    });
    if response.changed() {
        ui.data_mut(|data| data.insert_temp(typed_id, text.clone()));
    }
    let typed = response
        .lost_focus()
        .then(|| ui.data_mut(|data| data.remove_temp::<String>(typed_id)))
        .flatten();
    if let Some(typed) = typed {
        let escaped = ui.input(|input| input.key_pressed(egui::Key::Escape));
        let fault = (!escaped).then(|| printers.rename(&typed).err()).flatten();
        ui.data_mut(|data| match fault {
            Some(fault) => {
                data.insert_temp(fault_id, fault);
            }
            None => data.remove::<String>(fault_id),
        });
    }
    if let Some(fault) = ui.data(|data| data.get_temp::<String>(fault_id)) {
        fault_line(ui, &format!("▲ {fault}. The old name stays."));
    }
}

/// The range of a length of the test sheet, nominal or measured.
const LENGTH: Range = Quantity::Length.range("Length on the test sheet", 0.0, 5000.0);
/// Number of readings that a list takes; too many are told by the correction.
const COUNT: Range = Quantity::Count.range("Number of readings", 0.0, 100.0);
/// The division of a rule.
const DIVISION: Range = Quantity::Length.range("Division of the rule", 0.01, 10.0);

fn readings_ui(ui: &mut Ui, readings: &mut PrintReadings, faults: &[PrintFault], units: Units) {
    let first = readings.is_empty();
    let said = |range| Field { range, units };
    let field = |ui: &mut Ui, caption: &str, values: &mut Vec<f64>, length: PrintLength| {
        numbers_field(
            ui,
            caption,
            values,
            [LENGTH, COUNT],
            units,
            ["169.2; 169.4", ""],
        );
        let is_here = |fault: &&PrintFault| fault.length() == Some(length) && !first;
        for fault in faults.iter().filter(is_here) {
            fault_line(ui, &format!("▲ {}", units.say(fault)));
        }
    };
    let PrintReadings {
        level,
        upright,
        square,
        rising,
        falling,
        division,
    } = readings;
    number_field(ui, "Level bar", &mut level.nominal, said(LENGTH)).on_hover_text(SAYS);
    field(
        ui,
        "Level readings",
        &mut level.readings,
        PrintLength::Level,
    );
    number_field(ui, "Upright bar", &mut upright.nominal, said(LENGTH)).on_hover_text(SAYS);
    field(
        ui,
        "Upright readings",
        &mut upright.readings,
        PrintLength::Upright,
    );
    number_field(ui, "Square", square, said(LENGTH)).on_hover_text(SAYS);
    field(ui, "Rising diagonal", rising, PrintLength::Rising);
    field(ui, "Falling diagonal", falling, PrintLength::Falling);
    number_field(ui, "Rule divided by", division, said(DIVISION))
        .on_hover_text("The least division of the rule that you measure with");
}

const SAYS: &str =
    "What the test sheet says that it should measure; you may measure to another tick";

/// The correction, and its effect on this board.
fn gives_ui(ui: &mut Ui, board: &mut Board, scale: &PrintScale) {
    let correction = scale.correction;
    amount(
        ui,
        "Factor across",
        &format!("× {:.4}", correction.x),
        "Length that was meant, divided by the readings across",
    );
    amount(
        ui,
        "Factor up",
        &format!("× {:.4}", correction.y),
        "Length that was meant, divided by the readings up",
    );
    let skew = match scale.skew_uncertainty {
        Some(_) => Measure::degrees(correction.skew.as_degrees()).shown(board.units),
        None => "not measured".into(),
    };
    fact(ui, "Skew", &skew, "From the two diagonals");
    let radius = board.blank.radius();
    let (before, left) = (scale.error_without(radius), scale.error_left(radius));
    fact(
        ui,
        "Off, as it comes",
        &most(before, board.units),
        "At the edge of this board, from the factors and the skew",
    );
    fact(
        ui,
        "Off, corrected",
        &format!("up to {}", most(left, board.units)),
        "From how well the test sheet can be read, at the edge of this board",
    );
    let words = format!(
        "Uncorrected, the edge of this board comes out {} across and {} up. Corrected, what is left is how well the test \
         sheet can be read. Sheets that lie on their long side get the two factors the other way around.",
        signed(before.across, board.units),
        signed(before.up, board.units),
    );
    ui.label(theme::quiet(words));
    let share = left.most / radius;
    let button = ui.button("Take as print scale error");
    if button
        .on_hover_text("The accuracy below then counts with what the correction leaves")
        .clicked()
    {
        board.errors.print = (share * 1e5).ceil() / 1e5;
    }
}

/// The lengths still to be measured, or the faults of the readings as a whole.
fn not_yet_ui(ui: &mut Ui, readings: &PrintReadings, faults: &[PrintFault], units: Units) {
    if readings.is_empty() {
        let words = "Type what the test sheet measures, up to five readings each, separated by semicolons. Until then the \
                     template is printed as it comes.";
        ui.label(theme::quiet(words));
        return;
    }
    for fault in faults.iter().filter(|fault| fault.length().is_none()) {
        fault_line(ui, &format!("▲ {}", units.say(fault)));
    }
    fault_line(
        ui,
        "▲ The template is printed as it comes until the readings make sense.",
    );
}

fn fault_line(ui: &mut Ui, words: &str) {
    let color = Tokens::of(ui).stop;
    ui.horizontal_wrapped(|ui| ui.label(RichText::new(words).color(color).small()));
}

fn length(mm: f64, units: Units) -> String {
    Measure::mm(mm).shown(units)
}

/// The farthest off in any direction.
fn most(error: PrintError, units: Units) -> String {
    length(error.most, units)
}

/// A number with its sign, since an error can go either way.
fn signed(mm: f64, units: Units) -> String {
    let sign = if mm < 0.0 { "−" } else { "+" };
    format!("{sign}{}", length(mm.abs(), units))
}
