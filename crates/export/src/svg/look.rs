//! The look of a part as the attributes of a group in the file.

use board::Rgb;
use drawing::font::Weight;
use drawing::{Anchor, Item, Line, Shape, Tinted};

use super::short;

/// The fill of an area.
const AREA_FILL: &str = "#d9d9d9";

/// The look of a part; neighbors that look alike share a group.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Look {
    /// Black strokes of a width and dashes.
    Stroke(Line),
    /// A gray inside without strokes.
    Area,
    /// Black words: their size in mm, weight, and which part of them is at their place.
    Words(f64, Weight, Anchor),
    /// A color, with the width of a line in it or none of an inside.
    Tint(Rgb, Option<f64>),
    /// Words in a color.
    TintedWords(Rgb, f64, Weight, Anchor),
}

impl Look {
    /// Text and areas look the same whatever line they belong to; all else is a stroke.
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

    /// The attributes of a group of this look.
    pub(super) fn attributes(self) -> String {
        match self {
            Self::Stroke(line) if line.dashes().is_empty() => {
                format!(" stroke-width=\"{}\"", short(line.width()))
            }
            Self::Stroke(line) => {
                let (width, dashes) = (short(line.width()), line.dashes().iter());
                let dashes: Vec<_> = dashes.map(|&dash| short(dash)).collect();
                let dashes = dashes.join(" ");
                format!(" stroke-width=\"{width}\" stroke-dasharray=\"{dashes}\"")
            }
            Self::Area => format!(" fill=\"{AREA_FILL}\" stroke=\"none\""),
            Self::Words(size, weight, anchor) => words_attributes("#000", size, weight, anchor),
            Self::Tint(color, None) => format!(" fill=\"{color}\" stroke=\"none\""),
            // A bit leaves round ends.
            Self::Tint(color, Some(width)) => format!(
                " stroke=\"{color}\" stroke-width=\"{}\" stroke-linecap=\"round\"",
                short(width)
            ),
            Self::TintedWords(color, size, weight, anchor) => {
                words_attributes(&color.to_string(), size, weight, anchor)
            }
        }
    }
}

/// The attributes of a group of words in a color.
fn words_attributes(color: &str, size: f64, weight: Weight, anchor: Anchor) -> String {
    let anchor = match anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    format!(
        " fill=\"{color}\" stroke=\"none\" font-size=\"{}\" font-weight=\"{}\" text-anchor=\"{anchor}\"",
        short(size),
        weight.css(),
    )
}
