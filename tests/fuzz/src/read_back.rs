//! Files read back by readers independent of the writers: each must be complete, and each number in it finite.

use std::path::Path;

use testkit::{DxfFile, IcalPart, PdfFile, run_gcode};

use crate::Fault;

/// Reads a file back, by its file name extension.
///
/// # Errors
///
/// A sentence if it cannot be read, or has a number that is not finite.
pub fn read_back(name: &str, bytes: &[u8]) -> Result<(), Fault> {
    let ending = Path::new(name).extension().unwrap_or_default();
    match ending.to_string_lossy().as_ref() {
        "pdf" => pdf(bytes),
        "svg" => svg(bytes),
        "dxf" => dxf(bytes),
        "ngc" => gcode(bytes),
        "csv" => csv(bytes),
        "json" => json(bytes),
        "ics" => IcalPart::read(bytes).map(drop),
        "png" if bytes.starts_with(b"\x89PNG\r\n\x1a\n") => Ok(()),
        other => Err(format!("no reader for {other}")),
    }
}

/// Checks that words contain no NaN, infinity or negative zero, and no number too long to read.
///
/// # Errors
///
/// The offending words.
pub fn is_plain(words: &str) -> Result<(), Fault> {
    /// This many digits in a row are too long to read.
    const MANY: usize = 20;
    let has_word = words
        .split(|letter: char| !letter.is_alphanumeric())
        .any(|word| matches!(word, "NaN" | "inf" | "Infinity"));
    let figures = words
        .split(|letter: char| !letter.is_ascii_digit())
        .map(str::len)
        .max();
    let is_long = figures.unwrap_or_default() > MANY;
    let parts =
        words.split(|letter: char| letter.is_whitespace() || "()[]\"″°%,;".contains(letter));
    let is_negative_zero = |part: &str| {
        let digits = part.strip_prefix(['-', '−']);
        digits.is_some_and(|digits| {
            digits.starts_with('0') && digits.bytes().all(|it| matches!(it, b'0' | b'.'))
        })
    };
    if has_word || is_long || parts.into_iter().any(is_negative_zero) {
        return Err(format!("{words:?}"));
    }
    Ok(())
}

/// Whether a number is finite, and not larger than anything in a shop.
fn is_sound(number: f64) -> bool {
    number.is_finite() && number.abs() < 1e12
}

fn pdf(bytes: &[u8]) -> Result<(), Fault> {
    let file = PdfFile::read(bytes)?;
    for page in &file.pages {
        let circles = page
            .circles
            .iter()
            .map(|it| [it.center.x, it.center.y, it.radius]);
        let words = page.words.iter().map(|it| [it.at.x, it.at.y, it.size]);
        let lines = page.lines.iter().map(|it| [it.from.x, it.to.y, it.width]);
        let mut all = circles.chain(words).chain(lines).flatten();
        if let Some(wrong) = all.find(|number| !is_sound(*number)) {
            return Err(format!("a page has a {wrong}"));
        }
    }
    if file.pages.is_empty() {
        return Err("no page".into());
    }
    Ok(())
}

fn svg(bytes: &[u8]) -> Result<(), Fault> {
    let text = core::str::from_utf8(bytes).map_err(|error| error.to_string())?;
    let file = roxmltree::Document::parse(text).map_err(|error| error.to_string())?;
    for node in file.descendants() {
        for attribute in node.attributes() {
            if matches!(attribute.name(), "href" | "id" | "font-family") {
                continue;
            }
            let parts = attribute.value().split([' ', ',']);
            for part in parts {
                let is_none = part.contains("NaN") || part.contains("inf") || part == "-0";
                let number = part.parse::<f64>();
                if is_none || number.is_ok_and(|number| !is_sound(number)) {
                    return Err(format!("{} is {:?}", attribute.name(), attribute.value()));
                }
            }
        }
    }
    Ok(())
}

fn dxf(bytes: &[u8]) -> Result<(), Fault> {
    DxfFile::read(bytes)?;
    let text = core::str::from_utf8(bytes).map_err(|error| error.to_string())?;
    let lines: Vec<&str> = text.lines().collect();
    for pair in lines.chunks(2) {
        let [code, value] = pair else {
            return Err("a tag without a value".into());
        };
        let is_number = code
            .trim()
            .parse()
            .is_ok_and(|code: u32| (10..60).contains(&code));
        if is_number && !value.trim().parse().is_ok_and(is_sound) {
            return Err(format!("tag {code} is {value:?}"));
        }
    }
    Ok(())
}

fn gcode(bytes: &[u8]) -> Result<(), Fault> {
    /// RS274/NGC, 3.3: the most characters per line.
    const LONGEST: usize = 256;
    let text = core::str::from_utf8(bytes).map_err(|error| error.to_string())?;
    if let Some(long) = text.lines().find(|line| line.len() > LONGEST) {
        return Err(format!("a line of {} bytes: {long}", long.len()));
    }
    let run = run_gcode(text, [0.0, 0.0, 50.0]).map_err(|fault| format!("{fault:?}"))?;
    let mut places = run
        .steps
        .iter()
        .flat_map(|step| step.to.into_iter().chain([step.feed, step.spindle]));
    match places.find(|number| !is_sound(*number)) {
        Some(wrong) => Err(format!("it moves to {wrong}")),
        None => Ok(()),
    }
}

fn csv(bytes: &[u8]) -> Result<(), Fault> {
    let mut reader = csv::Reader::from_reader(bytes);
    for record in reader.records() {
        let record = record.map_err(|error| error.to_string())?;
        for field in &record {
            let number = field.parse::<f64>();
            if number.is_ok_and(|number| !is_sound(number)) || is_negative_zero(field) {
                return Err(format!("a field is {field:?} in {record:?}"));
            }
            let begins_a_formula = field.starts_with(['=', '+', '-', '@', '\t', '\r']);
            if begins_a_formula && field.parse::<f64>().is_err() {
                return Err(format!("a spreadsheet takes {field:?} for a formula"));
            }
        }
    }
    Ok(())
}

fn is_negative_zero(field: &str) -> bool {
    field.starts_with('-') && field.parse().is_ok_and(|number: f64| number == 0.0)
}

fn json(bytes: &[u8]) -> Result<(), Fault> {
    let text = core::str::from_utf8(bytes).map_err(|error| error.to_string())?;
    let file: serde_json::Value = serde_json::from_str(text).map_err(|error| error.to_string())?;
    numbers(&file)
}

fn numbers(value: &serde_json::Value) -> Result<(), Fault> {
    match value {
        serde_json::Value::Number(number) => {
            let is_zero = number.to_string().starts_with('-') && number.as_f64() == Some(0.0);
            match number
                .as_f64()
                .filter(|number| is_sound(*number) && !is_zero)
            {
                Some(_) => Ok(()),
                None => Err(format!("a number is {number}")),
            }
        }
        serde_json::Value::Array(entries) => entries.iter().try_for_each(numbers),
        serde_json::Value::Object(members) => members.values().try_for_each(numbers),
        _ => Ok(()),
    }
}
