//! The kinds of file that a board is exported to; window and commands share them.

use board::{Board, Marking};
use drawing::{Stamp, TilingError, tiled_sheets, whole_sheet};
use export::{Date, DxfOptions, PdfOptions};
use workshop::hole_table;

use crate::derived::Derived;

/// A kind of file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Kind {
    /// Drilling template in tiles for a home printer, PDF at true size
    TemplatePdf,
    /// Whole board on one page for a plotter or print shop, PDF at true size
    PlotPdf,
    /// Whole board as SVG at true size, one group for each kind of hole
    Svg,
    /// Whole board as DXF (R12), one layer a role, circles as circles, its unit in the first line
    Dxf,
    /// Hole table as CSV: name, place, radius, bearing, bore
    Csv,
}

/// Why a file cannot be made.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// The template cannot be cut into sheets.
    #[error(transparent)]
    Tiling(#[from] TilingError),
    /// The format cannot hold it.
    #[error(transparent)]
    Format(#[from] export::Error),
}

/// The moment of making, told by whoever has a clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moment {
    /// Year.
    pub year: u16,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day, 1 to 31.
    pub day: u8,
}

impl Kind {
    /// Every kind, in the order lists show them.
    pub const ALL: [Self; 5] = [
        Self::TemplatePdf,
        Self::PlotPdf,
        Self::Svg,
        Self::Dxf,
        Self::Csv,
    ];

    /// What the kind is called on screens.
    pub const fn label(self) -> &'static str {
        match self {
            Self::TemplatePdf => "Template in sheets (PDF)",
            Self::PlotPdf => "Whole board on one page (PDF)",
            Self::Svg => "Whole board (SVG)",
            Self::Dxf => "Whole board (DXF)",
            Self::Csv => "Hole table (CSV)",
        }
    }

    /// What the kind is for, in a line.
    pub const fn purpose(self) -> &'static str {
        match self {
            Self::TemplatePdf => {
                "for a home printer: print at 100 %, measure the bars, join cross on cross"
            }
            Self::PlotPdf => "for a plotter or a print shop, at true size",
            Self::Svg => "for drawing programs and laser cutters, at true size",
            Self::Dxf => {
                "for CAD programs and CNC routers, in the unit shown, origin at the center pin"
            }
            Self::Csv => "name, place, radius, bearing and bore of every hole, for jig or machine",
        }
    }

    const fn ending(self) -> &'static str {
        match self {
            Self::TemplatePdf => "template.pdf",
            Self::PlotPdf => "whole.pdf",
            Self::Svg => "whole.svg",
            Self::Dxf => "whole.dxf",
            Self::Csv => "holes.csv",
        }
    }

    /// The name of the file that this kind of export makes of a board.
    pub fn file_name(self, board: &Board) -> String {
        format!("{}-{}", stem(&board.title), self.ending())
    }
}

/// The file of a kind: its name and its bytes.
///
/// # Errors
/// [`ExportError`] where the template cannot be cut into sheets, or the format cannot hold the board.
pub fn file_of(
    kind: Kind,
    board: &Board,
    derived: &Derived,
    moment: Moment,
) -> Result<(String, Vec<u8>), ExportError> {
    let stamp = Stamp {
        date: format!("{:04}-{:02}-{:02}", moment.year, moment.month, moment.day),
    };
    let options = |layers| PdfOptions {
        title: board.title.clone(),
        creator: "Ringwright".into(),
        created: Some(Date {
            year: moment.year,
            month: moment.month,
            day: moment.day,
            hour: 0,
            minute: 0,
        }),
        layers,
    };
    let whole = || whole_sheet(board, &derived.layout, &stamp);
    let bytes = match kind {
        Kind::TemplatePdf => {
            let tiling = derived.tiling.as_ref().map_err(Clone::clone)?;
            export::pdf(
                &tiled_sheets(board, &derived.layout, tiling, &stamp),
                &options(false),
            )?
        }
        Kind::PlotPdf => export::pdf(&[whole()], &options(true))?,
        Kind::Svg => export::svg(&whole())?.into_bytes(),
        Kind::Dxf => dxf(board, derived, &stamp)?,
        Kind::Csv => export::csv(&hole_table(&derived.layout), board.units)?,
    };
    Ok((kind.file_name(board), bytes))
}

/// The whole board with every bore as a circle, however the template marks them: a machine drills circles.
fn dxf(board: &Board, derived: &Derived, stamp: &Stamp) -> Result<Vec<u8>, export::Error> {
    let mut circled = board.clone();
    if circled.template.marking == Marking::Crosses {
        circled.template.marking = Marking::Both;
    }
    let options = DxfOptions {
        units: board.units,
        ..DxfOptions::default()
    };
    let sheet = whole_sheet(&circled, &derived.layout, stamp);
    Ok(export::dxf(&sheet, options)?.into_bytes())
}

/// The title as a file name's beginning: letters, figures and dashes.
pub fn stem(title: &str) -> String {
    let mut stem = String::new();
    for letter in title.chars().flat_map(char::to_lowercase) {
        if letter.is_alphanumeric() {
            stem.push(letter);
        } else if !stem.is_empty() && !stem.ends_with('-') {
            stem.push('-');
        }
    }
    let stem: String = stem.trim_end_matches('-').chars().take(60).collect();
    if stem.is_empty() {
        "board".into()
    } else {
        stem
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_becomes_a_plain_file_name() {
        assert_eq!(
            stem("Six-arm walnut, 133 holes"),
            "six-arm-walnut-133-holes"
        );
        assert_eq!(stem("../../etc/passwd"), "etc-passwd");
        assert_eq!(stem("  "), "board");
        assert_eq!(stem("Ahorn für Weiß"), "ahorn-für-weiß");
    }

    #[test]
    fn every_kind_makes_a_file_of_the_board_one_starts_from() {
        let board = Board::default();
        let derived = Derived::of(&board).unwrap();
        for kind in Kind::ALL {
            let (name, bytes) = file_of(
                kind,
                &board,
                &derived,
                Moment {
                    year: 2026,
                    month: 11,
                    day: 25,
                },
            )
            .unwrap();
            assert!(name.starts_with("untitled-board-"), "{name}");
            assert!(bytes.len() > 1000, "{name} has {} bytes", bytes.len());
        }
    }
}
