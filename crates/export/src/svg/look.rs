//! The look of a part, as the attributes of a group in the file.

use board::Rgb;
use drawing::font::Weight;
use drawing::{Anchor, Item, Line, Shape, Tinted};

use super::{FIGURE, PLACES};
use crate::number::Written;

/// The fill of an area.
const AREA_FILL: &str = "#d9d9d9";

/// The look of a part; neighbors with the same look share a group.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Look {
    /// Black strokes with a width and dashes.
    Stroke(Line),
    /// Filled with gray, without strokes.
    Area,
    /// Black words: their size in mm, weight, and anchor.
    Words(f64, Weight, Anchor),
    /// A color, with the width of the line in it, or none for a fill.
    Tint(Rgb, Option<f64>),
    /// Words in a color.
    TintedWords(Rgb, f64, Weight, Anchor),
}

impl Look {
    /// Text and areas look the same for every line; everything else is a stroke.
    pub(super) fn of(item: &Item) -> Self {
        match &item.shape {
            Shape::Area(_) => Self::Area,
            Shape::Text(text) => Self::Words(text.size, text.weight, text.anchor),
            _ => Self::Stroke(item.line),
        }
    }

    /// The look of a colored part.
    pub(super) fn of_tint(tint: &Tinted) -> Self {
        match &tint.shape {
            Shape::Text(text) => Self::TintedWords(tint.color, text.size, text.weight, text.anchor),
            _ => Self::Tint(tint.color, tint.stroke),
        }
    }

    /// Writes the attributes of a group with this look.
    pub(super) fn attributes(self, out: &mut Written) {
        match self {
            Self::Stroke(line) => {
                attribute(out, "stroke-width", &[line.width()]);
                if !line.dashes().is_empty() {
                    attribute(out, "stroke-dasharray", line.dashes());
                }
            }
            Self::Area => out.push_str(&format!(" fill=\"{AREA_FILL}\" stroke=\"none\"")),
            Self::Words(size, weight, anchor) => words(out, "#000", size, weight, anchor),
            Self::Tint(color, None) => {
                out.push_str(&format!(" fill=\"{color}\" stroke=\"none\""));
            }
            Self::Tint(color, Some(width)) => {
                out.push_str(&format!(" stroke=\"{color}\""));
                attribute(out, "stroke-width", &[width]);
                // A bit leaves round ends.
                out.push_str(" stroke-linecap=\"round\"");
            }
            Self::TintedWords(color, size, weight, anchor) => {
                words(out, &color.to_string(), size, weight, anchor);
            }
        }
    }
}

/// An attribute of numbers.
fn attribute(out: &mut Written, name: &str, numbers: &[f64]) {
    out.push_str(&format!(" {name}=\""));
    for (at, number) in numbers.iter().enumerate() {
        if at > 0 {
            out.push(' ');
        }
        out.short(FIGURE, *number, PLACES);
    }
    out.push('"');
}

/// The attributes of a group of words in a color.
fn words(out: &mut Written, color: &str, size: f64, weight: Weight, anchor: Anchor) {
    let anchor = match anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    out.push_str(&format!(" fill=\"{color}\" stroke=\"none\""));
    attribute(out, "font-size", &[size]);
    out.push_str(&format!(
        " font-weight=\"{}\" text-anchor=\"{anchor}\"",
        weight.css()
    ));
}
