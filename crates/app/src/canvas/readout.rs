//! The line of words about the place under the pointer.

use board::Units;
use drawing::{Along, Span};
use geometry::{Angle, Point, bearing_of};

use super::{CanvasOutput, Measure};

/// The line for the status bar: the hole under the pointer, or else the place of the pointer on the board, and after it the
/// measure; may be empty.
pub fn readout(output: &CanvasOutput, units: Units) -> String {
    let mut parts = Vec::new();
    let measure = output
        .measure
        .as_ref()
        .map(|measure| measure_words(measure, units));
    if let Some(hint) = output.hint {
        return measure.unwrap_or_else(|| hint.into());
    }
    if let Some(thing) = &output.thing {
        parts.push(thing.clone());
    } else if let Some(hole) = &output.hover {
        parts.push(hole.name.to_string());
        parts.extend(place(hole.center, hole.radius, hole.bearing, units));
        if let Some((neighbor, web)) = hole.nearest {
            parts.push(format!("{} of wood to {neighbor}", length(web, units)));
        }
    } else if let Some(at) = output.pointer {
        parts.extend(place(at, at.to_vec2().length(), bearing_of(at), units));
    }
    parts.extend(measure);
    parts.join("   ")
}

/// A measure with its two ends.
fn measure_words(measure: &Measure, units: Units) -> String {
    let span = &measure.span;
    let mut words = format!(
        "{} to {}: {}",
        measure.from,
        measure.to,
        length_words(span, units)
    );
    if let Some(along) = &span.along {
        words += "   ";
        words += &along_words(along, units);
    }
    words
}

/// The straight distance of a measure, with the wood between two bores.
pub fn length_words(span: &Span, units: Units) -> String {
    let straight = if span.straight < 0.0 {
        format!("overlap {}", length(-span.straight, units))
    } else {
        length(span.straight, units)
    };
    match span.between {
        Some(wood) if wood < 0.0 => format!("{straight}   holes overlap {}", length(-wood, units)),
        Some(wood) => format!("{straight}   wood between {}", length(wood, units)),
        None => straight,
    }
}

/// The way along the circle of a measure.
pub fn along_words(along: &Along, units: Units) -> String {
    let turn = board::Measure::degrees((along.sweep.as_degrees().abs() * 10.0).round() / 10.0);
    format!(
        "{} along the circle, {}",
        length(along.length, units),
        turn.shown(units)
    )
}

fn place(at: Point, radius: f64, bearing: Angle, units: Units) -> [String; 4] {
    [
        format!("x {}", length(at.x, units)),
        format!("y {}", length(at.y, units)),
        format!("radius {}", length(radius, units)),
        format!(
            "bearing {}",
            board::Measure::degrees(rounded_degrees(bearing)).shown(units)
        ),
    ]
}

/// Tenths of a degree, rounded before a whole turn is taken off, so that 359.96° is 0° and not 360°.
fn rounded_degrees(bearing: Angle) -> f64 {
    let degrees = (bearing.wrapped().as_degrees() * 10.0).round() / 10.0;
    if degrees >= 360.0 { 0.0 } else { degrees }
}

fn length(mm: f64, units: Units) -> String {
    board::Measure::mm(mm).shown(units)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::canvas::Hover;
    use board::{HoleId, Role};

    fn hover() -> Hover {
        let name = |role, number| HoleId::new(role, 3, number).named(1);
        Hover {
            id: name(Role::Track, 7).id(),
            name: name(Role::Track, 7),
            center: Point::new(3.0, -4.0),
            radius: 5.0,
            bearing: bearing_of(Point::new(3.0, -4.0)),
            nearest: Some((name(Role::Home, 1), 4.2)),
        }
    }

    #[test]
    fn a_hole_is_told_by_name_place_and_nearest_web() {
        let output = CanvasOutput {
            pointer: Some(Point::new(1.0, 1.0)),
            hover: Some(hover()),
            ..CanvasOutput::default()
        };
        assert_eq!(
            readout(&output, Units::Mm),
            "T3-7   x 3 mm   y -4 mm   radius 5 mm   bearing 143.1°   4.2 mm of wood to H3-1"
        );
    }

    #[test]
    fn plain_wood_is_told_by_its_place() {
        let output = CanvasOutput {
            pointer: Some(Point::new(-1e-9, 25.4)),
            ..CanvasOutput::default()
        };
        assert_eq!(
            readout(&output, Units::INCH),
            "x 0\"   y 1\"   radius 1\"   bearing 0°"
        );
        assert_eq!(readout(&CanvasOutput::default(), Units::Mm), "");
    }

    #[test]
    fn a_measure_comes_last() {
        let span = Span {
            from: Point::ORIGIN,
            to: Point::new(19.0, 0.0),
            straight: 19.0,
            between: Some(7.0),
            along: Some(Along {
                radius: 100.0,
                start: Angle::ZERO,
                sweep: Angle::degrees(-10.92),
                length: 19.06,
            }),
        };
        let measure = Measure {
            from: "T1-01".into(),
            to: "T1-02".into(),
            span,
        };
        let output = CanvasOutput {
            measure: Some(measure),
            ..CanvasOutput::default()
        };
        assert_eq!(
            readout(&output, Units::Mm),
            "T1-01 to T1-02: 19 mm   wood between 7 mm   19.06 mm along the circle, 10.9°"
        );
    }
}
