//! Fields for several numbers at once: the offsets of a live edge, corners, seams, index plates.

use board::{Range, TypedError, Units, read_numbers};
use egui::Ui;

use super::number::{Field, typed};
use super::{keep_fault, show_fault, typed_text};

/// Numbers separated by semicolons in one line, each in range and not too many. Text that cannot be read is reported below, and the
/// list stays as it was.
pub fn numbers_field(
    ui: &mut Ui,
    caption: &str,
    numbers: &mut Vec<f64>,
    ranges: [Range; 2],
    units: Units,
    words: [&str; 2],
) {
    let before = joined(numbers, ranges[0], units);
    let typed = typed_text(ui, caption, &before, words, false);
    take(ui, caption, typed, |text| {
        read_numbers(text, ranges, 1, units).map(|read| *numbers = read)
    });
}

/// Corners, one to a line, x and y separated by a semicolon; the list holds x and y in turn.
pub fn corners_field(
    ui: &mut Ui,
    caption: &str,
    numbers: &mut Vec<f64>,
    ranges: [Range; 2],
    units: Units,
    hint: &str,
) {
    let corners = numbers.chunks(2);
    let lines: Vec<String> = corners
        .map(|corner| joined(corner, ranges[0], units))
        .collect();
    let typed = typed_text(
        ui,
        caption,
        &lines.join("\n"),
        ["x; y\nx; y\n…", hint],
        true,
    );
    take(ui, caption, typed, |text| {
        read_numbers(text, ranges, 2, units).map(|read| *numbers = read)
    });
}

fn joined(numbers: &[f64], range: Range, units: Units) -> String {
    let field = Field { range, units };
    let words: Vec<String> = numbers.iter().map(|number| typed(*number, field)).collect();
    words.join("; ")
}

/// Returns the typed values, or stores the error message until the next try.
fn take(
    ui: &mut Ui,
    caption: &str,
    typed: Option<String>,
    give: impl FnOnce(&str) -> Result<(), TypedError>,
) {
    let fault = ui.scope_id().with(caption).with("fault");
    if let Some(text) = typed {
        keep_fault(ui, fault, give(&text).map_err(|error| error.to_string()));
    }
    show_fault(ui, fault);
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Kind, field};

    #[test]
    fn lists_are_read_whole_or_not_at_all() {
        let Kind::Numbers { each, count, .. } = field::LOWER_EDGE.kind else {
            panic!("a live edge is no list")
        };
        let read = |text: &str| read_numbers(text, [each, count], 1, Units::Mm);
        assert_eq!(read("0; 12.5; 1/2\""), Ok(vec![0.0, 12.5, 12.7]));
        assert_eq!(read("  "), Ok(vec![]));
        assert!(read("0; x").is_err());
        let negative = read("3; -1").unwrap_err().to_string();
        assert!(negative.starts_with("Lower live edge: -1 mm"), "{negative}");
    }
}
