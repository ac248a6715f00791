//! Checks that reject a job, and checked jobs, which can be written without further checks.

use board::{
    BitRun, Bore, Bottom, CutterRun, Machine, Measure, Quantity, TimeUnit, Units, show_setting,
};
use workshop::{HoleRow, HoleTable};

use super::{GcodeError, GcodeOptions};

/// The least length, feed, speed or time that is not rounded to 0.
pub const LEAST: f64 = 0.001;
/// Slack for sums of lengths, mm.
const ROUNDING: f64 = 1e-9;
/// The unit of a machine's waits in messages.
const SECONDS: Quantity = Quantity::Time(TimeUnit::Second);

/// The holes that one bit drills, and its settings.
pub struct Job<'a> {
    /// Number of the job, from 1; also the tool's slot in a program for all bits.
    pub number: usize,
    pub diameter: f64,
    pub bottom: Bottom,
    pub speed: f64,
    pub feed: f64,
    pub peck: Option<f64>,
    pub dwell: Option<f64>,
    pub holes: Vec<&'a HoleRow>,
}

impl Job<'_> {
    /// The bore that the bit makes, without the depths of the holes.
    pub fn bore(&self) -> Bore {
        Bore {
            diameter: self.diameter,
            depth: 0.0,
            bottom: self.bottom,
        }
    }

    /// The name of the bit.
    pub fn bit(&self, units: Units) -> String {
        bit_name(self.diameter, self.bottom, units)
    }
}

/// Diameter and bottom as in messages: "12 mm forstner".
fn bit_name(diameter: f64, bottom: Bottom, units: Units) -> String {
    format!("{} {}", show_setting(diameter, units), bottom.id())
}

/// Checks that heights and lengths are possible.
pub fn options(options: &GcodeOptions) -> Result<(), GcodeError> {
    let units = options.units;
    shop(&options.machine, options.thickness, units)?;
    length("spur of the Forstner bits", options.spur, 0.0, units)
}

/// Checks the machine's heights and times, and the board on it.
pub fn shop(machine: &Machine, thickness: f64, units: Units) -> Result<(), GcodeError> {
    let heights = [
        ("clearance height", machine.clearance),
        ("retract height", machine.retract),
    ];
    for (what, height) in heights {
        if height.is_nan() || height <= 0.0 {
            let value = show_setting(height, units);
            return Err(GcodeError::BelowTop { what, value });
        }
        length(what, height, LEAST, units)?;
    }
    if machine.retract > machine.clearance {
        return Err(GcodeError::RetractAboveClearance {
            retract: show_setting(machine.retract, units),
            clearance: show_setting(machine.clearance, units),
        });
    }
    length("thickness of the blank", thickness, LEAST, units)?;
    if let Some(through) = machine.through {
        length("allowance below the blank", through, 0.0, units)?;
    }
    let spin_up = Measure::new(SECONDS, machine.spin_up);
    at_least(
        "time for the spindle to come up to speed",
        spin_up,
        0.0,
        units,
    )
}

/// The speed and feeds of a cutter, all of them set.
#[derive(Clone, Copy)]
pub struct Milled {
    pub speed: f64,
    pub feed: f64,
    pub plunge: f64,
}

impl Milled {
    /// The speed, the feed and the plunge feed of a cutter; each must be set.
    pub fn of(what: &'static str, run: CutterRun, units: Units) -> Result<Self, GcodeError> {
        let settled = |setting: &'static str, value: Option<f64>| {
            value.ok_or(GcodeError::Missing { setting, what })
        };
        let run = Self {
            speed: settled("spindle speed", run.speed)?,
            feed: settled("feed along the cut", run.feed)?,
            plunge: settled("feed down", run.plunge)?,
        };
        for (setting, value) in [
            ("spindle speed", Measure::rpm(run.speed)),
            ("feed", Measure::new(Quantity::Feed, run.feed)),
            ("feed down", Measure::new(Quantity::Feed, run.plunge)),
        ] {
            at_least(&format!("{setting} of the {what}"), value, LEAST, units)?;
        }
        Ok(run)
    }
}

/// Number of passes to a depth; an error if it is unreasonably large.
pub fn passes(what: &'static str, depth: f64, pass: f64, units: Units) -> Result<u32, GcodeError> {
    const MOST: u32 = 500;
    let passes = workshop::passes(depth, pass);
    if passes <= MOST {
        return Ok(passes);
    }
    Err(GcodeError::TooManyPasses {
        what,
        passes: passes.to_string(),
        least: show_setting(depth / f64::from(MOST), units),
    })
}

/// The holes grouped by the bit that drills them, in the order of the table.
pub fn jobs<'a>(table: &'a HoleTable, options: &GcodeOptions) -> Result<Vec<Job<'a>>, GcodeError> {
    let mut jobs: Vec<Job<'a>> = Vec::new();
    for row in &table.rows {
        hole(row, options)?;
        let bit = BitRun::unsettled(row.cutter(), row.bottom);
        let same = |job: &&mut Job<'_>| bit.drills(job.diameter, job.bottom);
        match jobs.iter_mut().find(same) {
            Some(job) => job.holes.push(row),
            None => jobs.push(job(jobs.len() + 1, row, options)?),
        }
    }
    if jobs.is_empty() {
        return Err(GcodeError::NoHoles);
    }
    Ok(jobs)
}

/// Checks that a hole is finite, and that its bit stays out of the machine's bed.
fn hole(row: &HoleRow, options: &GcodeOptions) -> Result<(), GcodeError> {
    let hole = || row.name.to_string();
    let sound = |size: f64| size.is_finite() && size >= LEAST;
    if !row.center.is_finite() || !sound(row.diameter) || !sound(row.depth) {
        return Err(GcodeError::Hole { hole: hole() });
    }
    let reach = workshop::deepest(row.bore(), options.spur);
    let over = reach - options.thickness - options.machine.through.unwrap_or_default();
    let is_through = options.machine.through.is_none() && over >= -ROUNDING;
    if !is_through && over <= ROUNDING {
        return Ok(());
    }
    let shown = |mm| show_setting(mm, options.units);
    let allowed = options
        .machine
        .through
        .map(|below| format!(" and {} are allowed below it", shown(below)));
    Err(GcodeError::TooDeep {
        hole: hole(),
        reach: shown(reach),
        thickness: shown(options.thickness),
        allowed: allowed.unwrap_or_default(),
        over: shown(over.max(0.0)),
    })
}

/// The job that a hole starts.
fn job<'a>(number: usize, row: &'a HoleRow, options: &GcodeOptions) -> Result<Job<'a>, GcodeError> {
    let units = options.units;
    let bit = bit_name(row.cutter(), row.bottom, units);
    let mut settings = options.machine.bits.iter();
    let setting = settings.find(|setting| setting.drills(row.cutter(), row.bottom));
    let (speed, feed) = (
        setting.and_then(|setting| setting.speed),
        setting.and_then(|setting| setting.feed),
    );
    let peck = setting.and_then(|setting| setting.peck);
    let dwell = setting.and_then(|setting| setting.dwell);
    let job = Job {
        number,
        diameter: row.cutter(),
        bottom: row.bottom,
        speed: speed.ok_or_else(|| GcodeError::MissingSpeed { bit: bit.clone() })?,
        feed: feed.ok_or_else(|| GcodeError::MissingFeed { bit: bit.clone() })?,
        peck,
        dwell,
        holes: vec![row],
    };
    let settings = [
        ("spindle speed", Some(Measure::rpm(job.speed))),
        ("feed", Some(Measure::new(Quantity::Feed, job.feed))),
        ("peck", peck.map(Measure::mm)),
        ("dwell", dwell.map(|dwell| Measure::new(SECONDS, dwell))),
    ];
    for (setting, value) in settings {
        value.map_or(Ok(()), |value| {
            at_least(&format!("{setting} of the {bit} bit"), value, LEAST, units)
        })?;
    }
    Ok(job)
}

/// Checks that a length can be written.
pub fn length(what: &str, mm: f64, least: f64, units: Units) -> Result<(), GcodeError> {
    at_least(what, Measure::mm(mm), least, units)
}

/// Checks that a number has at least a value, in the unit of the document.
fn at_least(what: &str, value: Measure, least: f64, units: Units) -> Result<(), GcodeError> {
    if value.value.is_finite() && value.value >= least {
        return Ok(());
    }
    Err(GcodeError::TooSmall {
        what: what.to_owned(),
        value: value.quantity.shown(value.value, units),
        // In the unit of the document, since the same number of inches is a different length.
        least: value.quantity.shown(least, Units::Mm),
    })
}
