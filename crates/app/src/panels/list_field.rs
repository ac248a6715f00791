//! Fields for several lengths at once: the offsets of a waney edge, corners, seams.

use board::{Range, Units, parse_lengths, show_length};
use egui::Ui;

use crate::widgets::{keep_fault, show_fault, typed_text};

/// What a list may hold and how it is shown.
#[derive(Clone, Copy)]
pub struct List {
    /// What each length may be.
    pub each: Range,
    /// How many there may be.
    pub count: Range,
    /// The unit they are shown in.
    pub units: Units,
}

/// Lengths parted by semicolons in one line. What cannot be read is said below, and the list stays as it was.
pub fn lengths_field(ui: &mut Ui, caption: &str, lengths: &mut Vec<f64>, list: List, hint: &str) {
    let shown = joined(lengths, list.units);
    let typed = typed_text(ui, caption, &shown, hint, false);
    take(ui, caption, typed, list, |read| {
        *lengths = read;
        Ok(())
    });
}

/// Whole numbers parted by semicolons, commas or spaces.
pub fn counts_field(ui: &mut Ui, caption: &str, counts: &mut Vec<u32>, each: Range, most: Range) {
    let shown: Vec<String> = counts.iter().map(ToString::to_string).collect();
    let typed = typed_text(ui, caption, &shown.join("; "), "24; 36; 48", false);
    let fault_id = ui.scope_id().with(caption).with("fault");
    if let Some(text) = typed {
        let read = read_counts(&text, each, most);
        keep_fault(ui, fault_id, read.map(|read| *counts = read));
    }
    show_fault(ui, fault_id);
}

fn read_counts(text: &str, each: Range, most: Range) -> Result<Vec<u32>, String> {
    let words = text.split([';', ',', ' ']).map(str::trim);
    let read = |word: &str| {
        let count: u32 = word
            .parse()
            .map_err(|_| format!("\"{word}\" is no whole number"))?;
        each.check(f64::from(count))
            .map_err(|fault| fault.to_string())?;
        Ok(count)
    };
    let counts: Vec<u32> = words
        .filter(|word| !word.is_empty())
        .map(read)
        .collect::<Result<_, String>>()?;
    most.check(counts.len() as f64)
        .map_err(|fault| fault.to_string())?;
    Ok(counts)
}

/// Corners, one a line, its x and y parted by a semicolon.
pub fn corners_field(ui: &mut Ui, caption: &str, corners: &mut Vec<[f64; 2]>, list: List) {
    let lines: Vec<String> = corners
        .iter()
        .map(|corner| joined(corner, list.units))
        .collect();
    let typed = typed_text(ui, caption, &lines.join("\n"), "x; y\nx; y\n…", true);
    take(ui, caption, typed, list, |read| {
        if read.len() % 2 == 1 {
            return Err("the last corner has no y; each corner is x; y".into());
        }
        *corners = read
            .chunks_exact(2)
            .filter_map(|pair| <[f64; 2]>::try_from(pair).ok())
            .collect();
        Ok(())
    });
}

fn joined(lengths: &[f64], units: Units) -> String {
    let shown: Vec<String> = lengths.iter().map(|mm| show_length(*mm, units)).collect();
    shown.join("; ")
}

/// Reads what was typed and gives it on, or keeps the words that say what is wrong until the next try.
fn take(
    ui: &mut Ui,
    caption: &str,
    typed: Option<String>,
    list: List,
    give: impl FnOnce(Vec<f64>) -> Result<(), String>,
) {
    let fault_id = ui.scope_id().with(caption).with("fault");
    if let Some(text) = typed {
        keep_fault(ui, fault_id, read(&text, list).and_then(give));
    }
    show_fault(ui, fault_id);
}

fn read(text: &str, list: List) -> Result<Vec<f64>, String> {
    let lengths = parse_lengths(text, list.units).map_err(|error| error.to_string())?;
    list.count
        .check(lengths.len() as f64)
        .map_err(|fault| fault.shown_in(list.units))?;
    for length in &lengths {
        list.each
            .check(*length)
            .map_err(|fault| fault.shown_in(list.units))?;
    }
    Ok(lengths)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::ranges;

    const WANEY: List = List {
        each: ranges::WANEY,
        count: ranges::CORNERS,
        units: Units::Mm,
    };

    #[test]
    fn lists_are_read_whole_or_not_at_all() {
        assert_eq!(read("0; 12.5; 1/2\"", WANEY), Ok(vec![0.0, 12.5, 12.7]));
        assert_eq!(read("  ", WANEY), Ok(vec![]));
        assert!(read("0; x", WANEY).is_err());
        let negative = read("3; -1", WANEY).unwrap_err();
        assert!(negative.contains("offset of a waney edge"), "{negative}");
    }
}
