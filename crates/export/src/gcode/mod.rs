//! The hole table as G-code: what a machine drills by itself.
//!
//! Only words of RS274/NGC (NISTIR 6556, 2000) are written, so that any control that follows it can run the program.
//! Feeds and speeds are the maker's: they depend on machine, bit and wood, and a wrong one breaks bits or burns wood,
//! so that none is assumed. Every way to a hole is at clearance height, and what could drive a bit into the
//! machine's bed is refused before a line is written.

mod check;
mod error;
mod write;

use board::{Bottom, Units};
use workshop::HoleTable;

pub use error::GcodeError;

/// How the holes are to be drilled. Lengths in mm, feeds in mm a minute.
#[derive(Debug, Clone, PartialEq)]
pub struct GcodeOptions {
    /// What the board is called; empty for no name.
    pub title: String,
    /// The date as it is to be written; empty for none.
    pub date: String,
    /// The unit of the file.
    pub units: Units,
    /// How each bit is run; one that no hole needs is left out.
    pub bits: Vec<BitSetting>,
    /// Height above the top face at which the bit travels; over every clamp, screw and dust hood in its way.
    pub clearance: f64,
    /// Height above the top face at which the feed begins; over the roughness of the face, up to the clearance.
    pub retract: f64,
    /// Thickness of the blank.
    pub thickness: f64,
    /// How far a bit may reach below the blank, into a spoilboard; none if it may not come through.
    pub through: Option<f64>,
    /// How far the spur of a Forstner bit reaches below its rim.
    pub spur: f64,
    /// Seconds that the spindle takes to come up to speed; 0 for no wait.
    pub spin_up: f64,
    /// What is put into one file.
    pub files: GcodeFiles,
    /// The rows of the table in the order of drilling, each once; none for the order of the table. The bits follow in
    /// the order in which they are first needed.
    pub order: Option<Vec<usize>>,
}

/// How one bit is run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BitSetting {
    /// Diameter of the bores it drills, mm.
    pub diameter: f64,
    /// The bottom it leaves.
    pub bottom: Bottom,
    /// Turns a minute of the spindle; there is no value that is right for every bit, and none is assumed.
    pub speed: Option<f64>,
    /// Feed down, mm a minute; as with the speed, none is assumed.
    pub feed: Option<f64>,
    /// How deep it goes before it is drawn out to clear the chips, mm; none for in one go.
    pub peck: Option<f64>,
    /// Seconds that it turns at the bottom, to leave it clean; none for not at all. Bores that are pecked have no dwell.
    pub dwell: Option<f64>,
}

/// What is put into one file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum GcodeFiles {
    /// A program for each bit, each with its own zero of Z: for a machine whose bits are changed by hand.
    #[default]
    OnePerBit,
    /// One program with tool changes; the length of each bit must be in the machine's tool table.
    One,
}

/// A program.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Program {
    /// A name for the file, without an ending: letters, digits, hyphens and underscores.
    pub stem: String,
    /// Its lines.
    pub text: String,
}

/// The programs that drill the holes of a table.
///
/// Z is 0 at the top face and, at the bottom of a bore, minus its depth: where the full diameter ends above a point
/// or a spur, as [`board::Bore::depth`] has it. Each program says how Z is set with its bit.
///
/// # Errors
///
/// A setting that is missing, impossible or dangerous; see [`GcodeError`].
pub fn gcode(table: &HoleTable, options: &GcodeOptions) -> Result<Vec<Program>, GcodeError> {
    check::options(options)?;
    let jobs = check::jobs(table, options)?;
    Ok(match options.files {
        GcodeFiles::OnePerBit => jobs
            .iter()
            .map(|job| write::one_bit(job, jobs.len(), options))
            .collect(),
        GcodeFiles::One => vec![write::all_bits(&jobs, options)],
    })
}
