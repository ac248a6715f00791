//! Drilling jobs as lines of a program.

use board::{Bottom, DrillWords, INCH, ProgramFiles, Units, show_number};
use workshop::HoleRow;

use super::check::Job;
use super::lines::Lines;
use super::{GcodeError, GcodeOptions, Program};

/// A program for one bit, out of a number of bits.
pub fn one_bit(job: &Job<'_>, bits: usize, options: &GcodeOptions) -> Result<Program, GcodeError> {
    let mut lines = begun(options);
    about_bit(&mut lines, job, bits, options);
    lines.comment("Put this bit in and set Z with it before the start");
    lines.modes(&options.machine);
    drill(&mut lines, job, options);
    lines.end();
    Ok(Program {
        stem: format!("drill-{}-{}", job.number, bit_stem(job, options.units)),
        text: lines.into_text()?,
    })
}

/// One program for all bits.
pub fn all_bits(jobs: &[Job<'_>], options: &GcodeOptions) -> Result<Program, GcodeError> {
    let mut lines = begun(options);
    for job in jobs {
        about_bit(&mut lines, job, jobs.len(), options);
    }
    lines.comment("The length of each bit must be in the tool table under its number");
    lines.modes(&options.machine);
    for job in jobs {
        change_bit(&mut lines, job);
        drill(&mut lines, job, options);
    }
    lines.end();
    Ok(Program {
        stem: "drill".to_owned(),
        text: lines.into_text()?,
    })
}

/// The program for the center hole alone, after those of all other bits; it has the number of its bit if that drills others
/// too.
pub fn center(
    mut job: Job<'_>,
    others: &[Job<'_>],
    options: &GcodeOptions,
) -> Result<Program, GcodeError> {
    let same = |other: &&Job<'_>| other.diameter == job.diameter && other.bottom == job.bottom;
    let known = others.iter().find(same).map(|other| other.number);
    job.number = known.unwrap_or(others.len() + 1);
    let mut lines = begun(options);
    lines.comment("The hole at the center alone: run it when no more work turns on its pin");
    about_bit(&mut lines, &job, others.len().max(job.number), options);
    let bit = format!("drill-center-{}", bit_stem(&job, options.units));
    let stem = match options.machine.files {
        ProgramFiles::OnePerBit => {
            lines.comment("Put this bit in and set Z with it before the start");
            lines.modes(&options.machine);
            bit
        }
        ProgramFiles::One => {
            lines.comment("The length of the bit must be in the tool table under its number");
            lines.modes(&options.machine);
            change_bit(&mut lines, &job);
            "drill-center".to_owned()
        }
    };
    drill(&mut lines, &job, options);
    lines.end();
    Ok(Program {
        stem,
        text: lines.into_text()?,
    })
}

/// Diameter and bottom as part of a file's name.
fn bit_stem(job: &Job<'_>, units: Units) -> String {
    let diameter = match units {
        Units::Mm => show_number(job.diameter, 3) + "mm",
        Units::Inch(_) => show_number(job.diameter / INCH, 4) + "in",
    };
    diameter.replace('.', "_") + "-" + job.bottom.id()
}

/// A drilling program with its head.
fn begun(options: &GcodeOptions) -> Lines {
    let mut lines = Lines::new(options.units);
    lines.head(&options.head("Drilling"));
    lines
}

/// Writes the name of the bit, and how to set Z with it.
fn about_bit(lines: &mut Lines, job: &Job<'_>, bits: usize, options: &GcodeOptions) {
    let (number, bit, holes) = (job.number, job.bit(options.units), job.holes.len());
    lines.comment(&format!("Bit {number} of {bits}: {bit}, holes: {holes}"));
    let set = match job.bottom {
        Bottom::Flat | Bottom::Ball => "Z reads 0 when its end touches the top face".to_owned(),
        Bottom::Forstner => {
            "Z reads 0 when its rim, not its spur, is level with the top face".to_owned()
        }
        Bottom::Point118 | Bottom::Point135 => {
            let tip = lines.shown(workshop::tip(job.bore(), options.spur));
            format!(
                "Z reads {tip} when its point touches the top face: depths are of the full diameter"
            )
        }
    };
    lines.comment(&set);
}

/// Changes the bit with the spindle stopped; its length comes from the tool table.
fn change_bit(lines: &mut Lines, job: &Job<'_>) {
    let number = job.number;
    lines.line("M5");
    lines.line(&format!("T{number} M6"));
    lines.line(&format!("G43 H{number}"));
}

/// Up to clearance, spindle on, every hole of a bit.
fn drill(lines: &mut Lines, job: &Job<'_>, options: &GcodeOptions) {
    lines.start(&options.machine, job.speed);
    lines.feed("", job.feed);
    lines.line("");
    match options.machine.words {
        DrillWords::Cycles => {
            for row in &job.holes {
                cycle(lines, row, job, options.machine.retract);
            }
            lines.line("G80");
        }
        DrillWords::Moves => {
            for row in &job.holes {
                moves(lines, row, job, options);
            }
        }
    }
}

/// Height above the last bottom where the feed resumes after a peck, mm; common practice, no source.
const BACK_OFF: f64 = 0.5;

/// A hole by plain moves: the same moves as its cycle, each in a line of its own.
fn moves(lines: &mut Lines, row: &HoleRow, job: &Job<'_>, options: &GcodeOptions) {
    let (place, retract) = (row.center, options.machine.retract);
    lines.words("G0", &[('X', place.x), ('Y', place.y)]);
    lines.line(&format!(" ({})", row.name));
    lines.rise(retract);
    let peck = job.peck.filter(|&peck| row.depth > peck);
    let mut bottom = retract;
    while let Some(peck) = peck.filter(|&peck| bottom - peck > -row.depth + LEAST) {
        bottom -= peck;
        plunge(lines, bottom);
        // All the way out, as a cycle retracts the bit, so that chips fall off above the work.
        lines.rise(retract);
        lines.rise((bottom + BACK_OFF).min(retract));
    }
    plunge(lines, -row.depth);
    if let Some(dwell) = job.dwell.filter(|_| peck.is_none()) {
        lines.plain("G4 P", dwell);
        lines.line("");
    }
    lines.rise(options.machine.clearance);
}

/// A last peck shorter than this is part of the one before, mm.
const LEAST: f64 = 1e-6;

/// Down at the plunge feed.
fn plunge(lines: &mut Lines, z: f64) {
    lines.words("G1", &[('Z', z)]);
    lines.line("");
}

/// A hole by a canned cycle: deep bores are pecked, others dwell if the bit is set to. After each the bit returns to clearance
/// (G98).
fn cycle(lines: &mut Lines, row: &HoleRow, job: &Job<'_>, retract: f64) {
    let peck = job.peck.filter(|&peck| row.depth > peck);
    let dwell = job.dwell.filter(|_| peck.is_none());
    let cycle = match (peck, dwell) {
        (Some(_), _) => "G83",
        (None, Some(_)) => "G82",
        (None, None) => "G81",
    };
    let place = row.center;
    lines.words(
        cycle,
        &[
            ('X', place.x),
            ('Y', place.y),
            ('Z', -row.depth),
            ('R', retract),
        ],
    );
    if let Some(peck) = peck {
        lines.length('Q', peck);
    }
    if let Some(dwell) = dwell {
        lines.plain(" P", dwell);
    }
    lines.text(" (");
    lines.text(&row.name.to_string());
    lines.line(")");
}
