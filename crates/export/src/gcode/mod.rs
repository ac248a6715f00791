//! The hole table, the board's edge and its grooves as G-code for a CNC machine.
//!
//! Only words of RS274/NGC (NISTIR 6556, 2000) are written, so that any control that follows it can run the program. Feeds and
//! speeds come from the maker: they depend on machine, bit and wood, and a wrong one breaks bits or burns wood, so none is
//! assumed. Every move to a hole is at clearance height, and anything that could drive a bit into the machine's bed is rejected
//! before a line is written.

mod check;
mod edge;
mod error;
mod grooves;
mod lines;
mod write;

use board::{HoleId, Machine, ProgramFiles, Units};
use workshop::{HoleRow, HoleTable};

pub use edge::gcode_edge;
pub use error::GcodeError;
pub use grooves::gcode_grooves;

/// The board and the machine that a program is for. Lengths in mm, feeds in mm per minute.
#[derive(Debug, Clone, PartialEq)]
pub struct GcodeOptions {
    /// The board's title; empty for none.
    pub title: String,
    /// The date as written; empty for none.
    pub date: String,
    /// The rules that stop the board, for the top of the program; empty if none do.
    pub stop: String,
    /// The unit of the file.
    pub units: Units,
    /// The machine: [`Machine::bits`] has the settings of each drill bit, [`Machine::edge`] and [`Machine::groove`] those of
    /// the cutters. A program ignores the values it does not need.
    pub machine: Machine,
    /// Thickness of the board.
    pub thickness: f64,
    /// Thickness of the blank before it is planed to that thickness.
    pub blank: f64,
    /// Length of a Forstner bit's spur below its rim, mm; only drilling needs it.
    pub spur: f64,
}

impl GcodeOptions {
    /// The head of a program for a kind of work, such as "Drilling".
    fn head<'a>(&'a self, work: &'a str) -> lines::Head<'a> {
        lines::Head {
            work,
            title: &self.title,
            date: &self.date,
            stop: &self.stop,
            clearance: self.machine.clearance,
            thickness: self.thickness,
            blank: self.blank,
        }
    }
}

/// A program.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Program {
    /// A file name without extension: letters, digits, hyphens and underscores.
    pub stem: String,
    /// Its lines.
    pub text: String,
}

/// The programs that drill the holes of a table, bit by bit in the order in which the bits are first needed, and for each bit
/// in the order of the table.
///
/// A center hole that comes after all others is always a separate program: the circle is cut on the pin before it is drilled.
///
/// A hole is drilled by a canned cycle, or by the same moves written out one by one, depending on [`Machine::words`].
///
/// Z is 0 at the top face and, at the bottom of a bore, minus its depth, where the full diameter ends above a point or a spur
/// ([`board::Bore::depth`]). Each program says how to set Z with its bit.
///
/// ```
/// use board::{BitRun, Board, Bottom, Machine, Units};
/// use export::{GcodeOptions, gcode};
///
/// let workpiece = workshop::Workpiece::of(&Board::default())?;
/// let run = BitRun {
///     speed: Some(1800.0),
///     feed: Some(250.0),
///     ..BitRun::unsettled(12.0, Bottom::Forstner)
/// };
/// let options = GcodeOptions {
///     title: "Six lobes".to_owned(),
///     date: String::new(),
///     stop: String::new(),
///     units: Units::Mm,
///     machine: Machine {
///         bits: vec![run],
///         ..Machine::default()
///     },
///     thickness: 20.0,
///     blank: 25.0,
///     spur: 2.0,
/// };
/// let programs = gcode(workpiece.hole_table(), &options)?;
/// assert_eq!(programs[0].stem, "drill-1-12mm-forstner");
/// assert_eq!(programs[0].text.matches("G81").count(), 144);
/// assert_eq!(programs[1].stem, "drill-center-12mm-forstner");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
///
/// A setting that is missing, impossible or dangerous; see [`GcodeError`].
pub fn gcode(table: &HoleTable, options: &GcodeOptions) -> Result<Vec<Program>, GcodeError> {
    check::options(options)?;
    let (others, center) = center_apart(table);
    let jobs = check::jobs(&others, options)?;
    let mut programs: Vec<Program> = match options.machine.files {
        ProgramFiles::OnePerBit => jobs
            .iter()
            .map(|job| write::one_bit(job, jobs.len(), options))
            .collect::<Result<_, _>>()?,
        ProgramFiles::One => vec![write::all_bits(&jobs, options)?],
    };
    if let Some(center) = center {
        for job in check::jobs(&center, options)? {
            programs.push(write::center(job, &jobs, options)?);
        }
    }
    Ok(programs)
}

/// The holes except the center hole, and the center hole where it comes after all others.
fn center_apart(table: &HoleTable) -> (HoleTable, Option<HoleTable>) {
    match table.rows.split_last() {
        Some((last, others)) if last.name.id() == HoleId::CENTER && !others.is_empty() => {
            let of = |rows: &[HoleRow]| HoleTable {
                rows: rows.to_vec(),
            };
            (of(others), Some(of(&[*last])))
        }
        _ => (table.clone(), None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{BitRun, Bottom};

    /// The program for one hole with a mouth of 12 mm and a ball bottom 3 mm deep, drilled with this ball.
    fn programs(cutter: f64, stop: &str) -> Result<Vec<Program>, GcodeError> {
        let workpiece = workshop::Workpiece::of(&board::Board::default()).unwrap();
        let row = HoleRow {
            diameter: 12.0,
            depth: 3.0,
            bottom: Bottom::Ball,
            ..workpiece.hole_table().rows[0]
        };
        let run = BitRun {
            speed: Some(1200.0),
            feed: Some(150.0),
            ..BitRun::unsettled(cutter, Bottom::Ball)
        };
        let options = GcodeOptions {
            title: String::new(),
            date: String::new(),
            stop: stop.into(),
            units: Units::Mm,
            machine: Machine {
                bits: vec![run],
                ..Machine::default()
            },
            thickness: 20.0,
            blank: 25.0,
            spur: 2.0,
        };
        gcode(&HoleTable { rows: vec![row] }, &options)
    }

    /// A ball of 12 mm would leave a mouth of 10.39 mm: (6² + 3²) / 3 = 15.
    #[test]
    fn a_shallow_ball_is_drilled_with_the_ball_that_leaves_its_mouth() {
        let program = programs(15.0, "").unwrap().remove(0);
        assert_eq!(program.stem, "drill-1-15mm-ball");
        assert!(program.text.contains("Bit 1 of 1: 15 mm ball"));
        let error = programs(12.0, "").unwrap_err().to_string();
        assert!(error.contains("15 mm ball"), "{error}");
    }

    #[test]
    fn a_program_for_a_stopped_board_says_so_before_any_motion() {
        let text = programs(15.0, "web, rim margin").unwrap().remove(0).text;
        let stop = text.find("(STOP: DO NOT RUN").unwrap();
        let said = text.find("(Settle first: web, rim margin)").unwrap();
        assert!(stop < said && said < text.find("G17").unwrap());
        assert!(text.lines().all(|line| line.len() < 256));
        assert!(!programs(15.0, "").unwrap()[0].text.contains("STOP"));
    }
}
