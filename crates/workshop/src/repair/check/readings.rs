//! Rule: distances that were measured after the work are as long as they should be.

use board::{HoleId, Measure, MeasuredOn, Units, show_length};

use crate::check::{Finding, Rule, Severity, counted};
use crate::repair::cause::{Cause, Reading, Readings, Verdict};
use crate::{Workpiece, readings};

pub const STATEMENT: &str = "Distances measured on the taped template or the drilled board are as long as they should be, \
     within the error of reading. Where they are not, the cause is found by least squares: scale, skew, a sheet that \
     slipped, holes beside their places. Each unknown has to earn its place by the information criterion of Bayes (Schwarz \
     1978, from memory). The error of reading, ± 0.25 mm on a steel rule, is common practice, no source.";

/// The verdict on the readings, and names that the board does not have.
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
    findings.extend(verdict(
        &told,
        board.measured.on,
        board.measured.error,
        board.units,
    ));
    findings
}

/// Names of holes that the board does not have.
pub fn unknown(names: &[HoleId]) -> Finding {
    let names: Vec<String> = names.iter().map(ToString::to_string).collect();
    let message = format!(
        "no hole has the name {}; names are on the template and in the hole table",
        names.join(", ")
    );
    Finding::new(Severity::Caution, Rule::Readings, message)
}

/// The finding of a verdict; none where there is nothing to tell.
fn verdict(told: &Readings, on: MeasuredOn, error: f64, units: Units) -> Option<Finding> {
    let length = |mm| show_length(mm, units);
    let count = counted(told.readings.len(), "distance");
    let (thing, worst) = (on.label(), worst(&told.readings));
    let (severity, message) = match &told.verdict {
        Verdict::Nothing => return None,
        Verdict::True => (
            Severity::Note,
            format!(
                "{count} on {thing} come out right, within ±{}",
                length(error)
            ),
        ),
        Verdict::TooFew => (
            Severity::Caution,
            format!(
                "{} is {} on {thing}; {count} are too few to tell why: measure some more, long ones in other directions",
                named(worst?),
                longer(worst?, units)
            ),
        ),
        Verdict::Unclear => (
            Severity::Caution,
            format!(
                "{} is {} on {thing}, and no one cause explains all {count}: measure that one again",
                named(worst?),
                longer(worst?, units)
            ),
        ),
        Verdict::Causes {
            causes,
            or,
            ask,
            partly,
        } => {
            let mut message = format!("{count} on {thing} say: {}", said(causes, on, units));
            if *partly {
                message += ", as far as these directions tell";
            }
            if !or.is_empty() {
                message += &format!("; or else {}", said(or, on, units));
            }
            if let Some([from, to]) = ask {
                message += &format!("; measure {from} to {to} to tell which");
            }
            (Severity::Caution, message)
        }
    };
    let mut holes: Vec<_> = told
        .readings
        .iter()
        .flat_map(|reading| reading.ends)
        .collect();
    if let Verdict::Causes { causes, .. } = &told.verdict {
        let off: Vec<_> = causes
            .iter()
            .filter_map(|cause| match cause {
                Cause::Off { hole, .. } => Some(*hole),
                _ => None,
            })
            .collect();
        if !off.is_empty() {
            holes = off;
        }
    }
    let off = worst.map_or(0.0, |worst| (worst.read - worst.nominal).abs());
    Some(
        Finding::new(severity, Rule::Readings, message)
            .measuring(Measure::mm(off), Measure::mm(error))
            .about(holes),
    )
}

/// The reading that is farthest from what it should be.
fn worst(readings: &[Reading]) -> Option<&Reading> {
    let off = |reading: &Reading| (reading.read - reading.nominal).abs();
    readings
        .iter()
        .max_by(|one, other| off(one).total_cmp(&off(other)))
}

fn named(reading: &Reading) -> String {
    format!("{} to {}", reading.ends[0], reading.ends[1])
}

/// `0.8 mm too long`.
fn longer(reading: &Reading, units: Units) -> String {
    let off = reading.read - reading.nominal;
    let word = if off > 0.0 { "too long" } else { "too short" };
    format!("{} {word}", show_length(off.abs(), units))
}

/// Some causes in a sentence, with what to do.
fn said(causes: &[Cause], on: MeasuredOn, units: Units) -> String {
    let each: Vec<String> = causes
        .iter()
        .map(|cause| cause_said(cause, on, units))
        .collect();
    each.join(", and ")
}

fn cause_said(cause: &Cause, on: MeasuredOn, units: Units) -> String {
    let length = |mm: f64| show_length(mm.abs(), units);
    let share = |share: f64| {
        let size = Measure::share(share.abs()).shown(units);
        format!("{size} too {}", if share > 0.0 { "long" } else { "short" })
    };
    let again = match on {
        MeasuredOn::Template => {
            " (print again at actual size, with the printer's errors taken out)"
        }
        MeasuredOn::Board => "",
    };
    match cause {
        Cause::Scale { share: by } => format!("all lengths are {}{again}", share(*by)),
        Cause::Strain { across, up, skew } => {
            let leaning = Measure::degrees(skew.as_degrees().abs()).shown(units);
            format!(
                "lengths are {} from left to right and {} from bottom to top, and the sheets {leaning} out of square{again}",
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
                "sheet {sheet} slipped {} {sideways} and {} {upward}, and turned {turned} {way}{mend}",
                length(shift.x),
                length(shift.y)
            )
        }
        Cause::Off { hole, by } => {
            let sideways = if by.x < 0.0 { "left" } else { "right" };
            let upward = if by.y < 0.0 { "down" } else { "up" };
            format!(
                "{hole} is {} {sideways} and {} {upward} of its place",
                length(by.x),
                length(by.y)
            )
        }
    }
}
