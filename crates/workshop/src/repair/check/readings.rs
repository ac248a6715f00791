//! Rule: distances measured after the work are as long as they should be.

use board::{HoleId, HoleName, Measure, Measured, MeasuredOn, Units, as_sentence, show_length};

use crate::check::{Finding, Rule, Severity, counted};
use crate::repair::cause::{Cause, Reading, Readings, Verdict};
use crate::{Workpiece, readings};

pub const STATEMENT: &str = "Distances measured on the taped template or the drilled board are as long as they should \
     be, within the reading error. If not, the cause is found by least squares: scale, skew, a sheet that slipped, \
     holes out of place. An added cause has to improve the fit by the Bayesian information criterion (Schwarz 1978, \
     from memory). The reading error, {0.25 mm|1/64\"} on a steel rule, is common practice, no source.";

/// Findings for the verdict on the readings, and for names that the board does not have.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    if board.measured.distances.is_empty() {
        return Vec::new();
    }
    let told = readings(workpiece);
    let mut findings = Vec::new();
    if !told.unknown.is_empty() {
        findings.push(unknown(&told.unknown));
    }
    findings.extend(verdict(&told, &board.measured, board.units));
    findings
}

/// Names of holes that the board does not have.
pub fn unknown(names: &[HoleId]) -> Finding {
    let names: Vec<String> = names.iter().map(ToString::to_string).collect();
    let message = format!(
        "No hole is named {}. Names are on the template and in the hole table.",
        names.join(", ")
    );
    Finding::new(Severity::Caution, Rule::Readings, message)
}

/// The verdict on the readings of a board as a sentence; empty without readings.
///
/// ```
/// use board::{Board, Distance, layout};
/// use workshop::{Workpiece, verdict_words};
/// let mut board = Board::default();
/// assert_eq!(verdict_words(&Workpiece::of(&board)?), "");
/// let holes = layout(&board)?.holes;
/// let distance = holes[0].center.distance(holes[40].center);
/// board.measured.distances = vec![Distance { from: holes[0].name.id(), to: holes[40].name.id(), distance }];
/// assert_eq!(
///     verdict_words(&Workpiece::of(&board)?),
///     "1 distance measured on the taped template: within ±0.25 mm."
/// );
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn verdict_words(workpiece: &Workpiece) -> String {
    let board = workpiece.board();
    let words = message(&readings(workpiece), &board.measured, board.units);
    words.map(as_sentence).unwrap_or_default()
}

/// The finding of a verdict; `None` if nothing is wrong.
fn verdict(told: &Readings, measured: &Measured, units: Units) -> Option<Finding> {
    let message = message(told, measured, units)?;
    let severity = match told.verdict {
        Verdict::True => Severity::Note,
        _ => Severity::Caution,
    };
    let off = worst(&told.readings).map_or(0.0, Reading::long);
    Some(
        Finding::new(severity, Rule::Readings, message)
            .measuring(Measure::mm(off.abs()), Measure::mm(measured.error))
            .about(concerned(told)),
    )
}

/// A verdict as a sentence; `None` if nothing was measured.
fn message(told: &Readings, measured: &Measured, units: Units) -> Option<String> {
    let worst = worst(&told.readings)?;
    let count = counted(told.readings.len(), "distance");
    let thing = measured.on.label();
    let farthest = format!(
        "{} to {} is {} on {thing}",
        worst.ends[0],
        worst.ends[1],
        longer(worst, units)
    );
    Some(match &told.verdict {
        Verdict::Nothing => return None,
        Verdict::True => {
            let error = show_length(measured.error, units);
            let all = if told.readings.len() > 1 { "all " } else { "" };
            format!("{count} measured on {thing}: {all}within ±{error}")
        }
        Verdict::TooFew => {
            format!(
                "{farthest}. {count} cannot tell why: measure more, long ones in other directions."
            )
        }
        Verdict::Unclear => {
            format!(
                "{farthest}, and no single cause explains the {count} measured. Measure that one again."
            )
        }
        Verdict::Causes {
            causes,
            or,
            ask,
            partly,
        } => {
            let on = measured.on;
            let first = causes_words(causes, on, units);
            let partly = if *partly {
                ", as far as these directions show"
            } else {
                ""
            };
            let other = match &or[..] {
                [] => String::new(),
                or => format!("; or {}", causes_words(or, on, units)),
            };
            let which = ask.map_or_else(String::new, |[from, to]| {
                format!(". Measure {from} to {to} to tell which")
            });
            format!("By {count} measured on {thing}, {first}{partly}{other}{which}.")
        }
    })
}

/// The holes that a verdict concerns: those out of place, otherwise all that were measured.
fn concerned(told: &Readings) -> Vec<HoleName> {
    let off: Vec<HoleName> = match &told.verdict {
        Verdict::Causes { causes, .. } => {
            let off = causes.iter().filter_map(|cause| match cause {
                Cause::Off { hole, .. } => Some(*hole),
                _ => None,
            });
            off.collect()
        }
        _ => Vec::new(),
    };
    if off.is_empty() {
        told.readings
            .iter()
            .flat_map(|reading| reading.ends)
            .collect()
    } else {
        off
    }
}

/// The reading with the largest error.
fn worst(readings: &[Reading]) -> Option<&Reading> {
    let off = |reading: &Reading| reading.long().abs();
    readings
        .iter()
        .max_by(|one, other| off(one).total_cmp(&off(other)))
}

/// The error of a reading in words: `0.8 mm too long`.
fn longer(reading: &Reading, units: Units) -> String {
    let off = reading.long();
    let word = if off > 0.0 { "too long" } else { "too short" };
    format!("{} {word}", show_length(off.abs(), units))
}

/// Some causes as a sentence, with what to do about them.
fn causes_words(causes: &[Cause], on: MeasuredOn, units: Units) -> String {
    let each: Vec<String> = causes
        .iter()
        .map(|cause| cause_words(cause, on, units))
        .collect();
    each.join(", and ")
}

/// One cause: its size in the maker's unit, and what to do about it where that is known.
fn cause_words(cause: &Cause, on: MeasuredOn, units: Units) -> String {
    let length = |mm: f64| show_length(mm.abs(), units);
    let share = |share: f64| {
        let size = Measure::share(share.abs()).shown(units);
        if size == Measure::share(0.0).shown(units) {
            return "right".into();
        }
        format!("{size} too {}", if share > 0.0 { "long" } else { "short" })
    };
    let again = match on {
        MeasuredOn::Template => " (print again at actual size, with the printer correction)",
        MeasuredOn::Board => "",
    };
    match cause {
        Cause::Scale { share: by } => format!("all lengths are {}{again}", share(*by)),
        Cause::Strain { across, up, skew } => {
            let leaning = Measure::degrees(skew.as_degrees().abs()).shown(units);
            let sheets = if leaning == Measure::degrees(0.0).shown(units) {
                String::new()
            } else {
                format!(", and the sheets {leaning} out of square")
            };
            format!(
                "lengths are {} from left to right and {} from bottom to top{sheets}{again}",
                share(*across),
                share(*up)
            )
        }
        Cause::Slip { sheet, shift, turn } => {
            let sideways = if shift.x < 0.0 { "left" } else { "right" };
            let upward = if shift.y < 0.0 { "down" } else { "up" };
            let turned = Measure::degrees(turn.as_degrees().abs()).shown(units);
            let way = if turn.as_degrees() < 0.0 {
                "clockwise"
            } else {
                "counter-clockwise"
            };
            let mend = match on {
                MeasuredOn::Template => " (tape it again by its crosses)",
                MeasuredOn::Board => "",
            };
            format!(
                "sheet {sheet} slipped {} {sideways} and {} {upward}, and is turned {turned} {way}{mend}",
                length(shift.x),
                length(shift.y)
            )
        }
        Cause::Off { hole, by } => {
            let sideways = if by.x < 0.0 { "left" } else { "right" };
            let upward = if by.y < 0.0 { "down" } else { "up" };
            format!(
                "{hole} is {} too far {sideways} and {} too far {upward}",
                length(by.x),
                length(by.y)
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Distance, layout};

    /// Findings about five distances across a board that measured longer by a share.
    fn found(units: Units, share: f64) -> Vec<Finding> {
        let mut board = Board {
            units,
            ..Board::default()
        };
        let holes = layout(&board).unwrap().holes;
        board.measured.distances = [(0, 42), (14, 56), (28, 70), (7, 49), (21, 63)]
            .map(|(from, to): (usize, usize)| Distance {
                from: holes[from].name.id(),
                to: holes[to].name.id(),
                distance: holes[from].center.distance(holes[to].center) * (1.0 + share),
            })
            .to_vec();
        check(&Workpiece::of(&board).unwrap())
    }

    #[test]
    fn right_distances_are_a_note_and_a_scale_comes_with_a_remedy() {
        let [note] = &found(Units::Mm, 0.0)[..] else {
            panic!()
        };
        assert_eq!(note.severity, Severity::Note);
        for units in [Units::Mm, Units::INCH] {
            let [told] = &found(units, 0.01)[..] else {
                panic!()
            };
            assert_eq!(told.severity, Severity::Caution);
            assert!(
                told.message.starts_with(
                    "By 5 distances measured on the taped template, all lengths are 1 % too long (print again at actual size"
                ),
                "{}",
                told.message
            );
        }
    }

    #[test]
    fn no_readings_give_no_finding_and_a_wrong_name_is_reported() {
        assert_eq!(check(&Workpiece::of(&Board::default()).unwrap()), []);
        let mut board = Board::default();
        board.measured.distances = vec![Distance {
            to: "T9-01".parse().unwrap(),
            distance: 100.0,
            ..Distance::default()
        }];
        let [told] = &check(&Workpiece::of(&board).unwrap())[..] else {
            panic!()
        };
        assert!(
            told.message.contains("No hole is named T9-1"),
            "{}",
            told.message
        );
    }
}
