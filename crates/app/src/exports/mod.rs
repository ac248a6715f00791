//! The kinds of file that a board is exported to; window and commands share them.
//!
//! `kind` lists them, `content` builds each one and turns it into files: the preview shows exactly what is written.

mod content;
mod effort;
mod kind;
mod lack;
mod made;
mod name;

use drawing::RollError;
use workshop::{TilingError, Today};

pub use content::{Body, Content, File, Layers, Part, PictureFormat, SheetCount, Shown, Source};
pub use effort::Effort;
pub use kind::{Group, Kind};
pub use lack::Lack;
pub use made::{LeftOut, Made};
pub use name::stem;

/// Why a file cannot be made.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// The board does not plan for it.
    #[error("{0}")]
    Unplanned(&'static str),
    /// The template cannot be cut into sheets.
    #[error(transparent)]
    Tiling(#[from] TilingError),
    /// The whole board does not go on the roll.
    #[error(transparent)]
    Roll(#[from] RollError),
    /// The format cannot hold it.
    #[error(transparent)]
    Format(#[from] export::Error),
    /// No picture can be made.
    #[error(transparent)]
    Picture(#[from] picture::PictureError),
    /// There is no sector jig of the board.
    #[error(transparent)]
    Sector(#[from] workshop::SectorJigError),
    /// The work is on no days.
    #[error("no calendar can be made: {0}")]
    Calendar(#[from] workshop::CalendarError),
    /// No program for the machine is written.
    #[error(transparent)]
    Gcode(#[from] export::GcodeError),
}

/// The day on which the files are made; the caller reads it from the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moment {
    /// Year.
    pub year: u16,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day, 1 to 31.
    pub day: u8,
}

impl Moment {
    /// The day for the calendar, in the time zone of the computer; `None` for a date that does not exist.
    pub fn today(self, zone: impl Into<String>) -> Option<Today> {
        Some(Today {
            day: self.to_string().parse().ok()?,
            zone: zone.into(),
        })
    }
}

impl core::fmt::Display for Moment {
    /// As in ISO 8601: 2026-11-25.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{BitRun, Board, Filling, Machine, Router, SectorJig};

    const MOMENT: Moment = Moment {
        year: 2026,
        month: 11,
        day: 25,
    };

    /// A board that plans for every kind.
    fn planned() -> Board {
        let board = Board::default();
        let bore = board.bores.track;
        let bit = BitRun {
            diameter: bore.diameter,
            bottom: bore.bottom,
            speed: Some(1500.0),
            feed: Some(200.0),
            peck: None,
            dwell: None,
        };
        let machine = Machine {
            bits: vec![bit],
            ..Machine::default()
        };
        Board {
            machine: Some(machine),
            filling: Some(Filling::default()),
            finish: vec![board::Coat::default()],
            router: Some(Router::default()),
            sector_jig: Some(SectorJig::default()),
            ..board
        }
    }

    #[test]
    fn every_kind_makes_the_files_it_names() {
        let source = Source::of(&planned(), MOMENT).unwrap().with_proof(240);
        for kind in Kind::ALL {
            let files = source.files(kind).unwrap();
            let names: Vec<String> = files.iter().map(|(name, _)| name.clone()).collect();
            assert_eq!(names, source.file_names(kind), "{kind:?}");
            for (name, bytes) in files {
                assert!(name.starts_with("untitled-board-"), "{name}");
                assert!(bytes.len() > 150, "{name} has {} bytes", bytes.len());
            }
        }
    }

    #[test]
    fn what_a_board_does_not_plan_for_is_told() {
        let source = Source::of(&Board::default(), MOMENT).unwrap();
        let error = source.files(Kind::Gcode).unwrap_err();
        assert!(error.to_string().contains("no CNC machine"), "{error}");
        assert!(!Kind::Gcode.is_usual(source.board()));
        assert!(source.file_names(Kind::Gcode).is_empty());
    }

    #[test]
    fn a_roll_that_is_too_narrow_is_refused() {
        let mut board = planned();
        board.template.roll = Some(500.0);
        let source = Source::of(&board, MOMENT).unwrap();
        let error = source.files(Kind::PlotPdf).unwrap_err();
        assert!(error.to_string().contains("670"), "{error}");
    }
}
