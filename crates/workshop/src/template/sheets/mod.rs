//! A plan cut into sheets of the maker's paper.
//!
//! Sheets share an overlap with each neighbor; the joint line is the middle of the overlap. The grid of sheets is shifted so
//! that no hole center is on a joint, and sheets that show nothing of their own are dropped.

mod cut;
mod grid;
#[cfg(test)]
mod tests;

use core::fmt::{self, Formatter};

use board::{Choice, HoleName, Paper, Units, several, show_length};
use geometry::MOST_SHEETS;
use kurbo::{Rect, Size};

use crate::template::correction::printable;
use crate::{Correction, TapedJoints};
pub(crate) use cut::cut_template;
pub use cut::{Drawn, DrawnPart, cut_into_sheets};

/// A plan cut into sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct Tiling {
    /// The paper as it goes through the printer, in the better orientation.
    pub paper: Size,
    /// Border that stays white, mm.
    pub margin: f64,
    /// Overlap of neighboring sheets, mm.
    pub overlap: f64,
    /// Sheets side by side.
    pub columns: u32,
    /// Sheets above each other.
    pub rows: u32,
    /// The sheets that are needed, row by row from the top left; most grids leave corners empty, as boards are round.
    pub tiles: Vec<Tile>,
    /// Whether the whole edge of the board is on some sheet; slivers of it are left out where that saves a sheet.
    pub whole: bool,
    /// The hole whose center is nearest to a joint line, and its distance; none without joints.
    pub nearest: Option<(HoleName, f64)>,
    /// The correction that compensates the printer's errors on the sheets, for paper that goes through the printer as these do.
    pub correction: Option<Correction>,
}

/// One sheet of a plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tile {
    /// Counted from the left, from 0.
    pub column: u32,
    /// Counted from the top, from 0.
    pub row: u32,
    /// The part of the board that the sheet can show, in the board frame.
    pub window: Rect,
}

impl Tile {
    /// The name of the sheet: its row as a number and its column as a letter, as in 2C; the 27th column is AA.
    pub fn label(&self) -> String {
        format!("{}{}", self.row + 1, self.column_letters())
    }

    /// The letters of its column, from A.
    pub fn column_letters(&self) -> String {
        let mut letters = Vec::new();
        let mut left = self.column + 1;
        while left > 0 {
            letters.push(char::from(b'A' + ((left - 1) % 26) as u8));
            left = (left - 1) / 26;
        }
        letters.into_iter().rev().collect()
    }
}

/// The reason why a plan cannot be cut into sheets.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum TilingError {
    /// The margins leave no printable area.
    #[error(fmt = nothing_left)]
    NoPaperLeft {
        /// Margin, mm.
        margin: f64,
        /// Width of the paper, mm.
        width: f64,
        /// Height of the paper, mm.
        height: f64,
    },
    /// There would be more sheets than anyone tapes together.
    #[error(
        "the template would take {sheets} sheets, over the {MOST_SHEETS} that are laid out at most; larger paper or smaller margins \
         take fewer, and the whole board on one page of a print shop takes one"
    )]
    TooMany {
        /// Sheets of the grid.
        sheets: u32,
    },
    /// The sheets do not advance, or there are too many in a row.
    #[error(fmt = board::say_geometry)]
    Geometry(#[from] geometry::Error),
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the error's derive passes its fields by reference"
)]
fn nothing_left(margin: &f64, width: &f64, height: &f64, f: &mut Formatter<'_>) -> fmt::Result {
    let units = Units::of(f);
    let [margin, width, height] = [margin, width, height].map(|mm| show_length(*mm, units));
    write!(
        f,
        "margins of {margin} leave nothing of paper {width} × {height}; use smaller margins or larger paper"
    )
}

impl Tiling {
    /// Whether the paper is in landscape orientation.
    pub fn is_landscape(&self) -> bool {
        self.paper.width > self.paper.height
    }

    /// The joint lines in the board frame: the x of every vertical one and the y of every horizontal one, from the lower left.
    pub fn joints(&self) -> (Vec<f64>, Vec<f64>) {
        let half = self.overlap / 2.0;
        let mut upright: Vec<f64> = self
            .tiles
            .iter()
            .filter(|tile| tile.column > 0)
            .map(|tile| tile.window.x0 + half)
            .collect();
        let below = |tile: &&Tile| tile.row + 1 < self.rows;
        let mut level: Vec<f64> = self
            .tiles
            .iter()
            .filter(below)
            .map(|tile| tile.window.y0 + half)
            .collect();
        for joints in [&mut upright, &mut level] {
            joints.sort_by(f64::total_cmp);
            joints.dedup();
        }
        (upright, level)
    }

    /// The joints where sheets are taped together.
    pub fn taped(&self) -> TapedJoints {
        let (upright, level) = self.joints();
        TapedJoints { upright, level }
    }

    /// The number of sheets and their paper, as in "12 sheets of A4".
    pub fn words(&self, paper: Paper) -> String {
        let count = self.tiles.len();
        format!("{} of {}", several(count, "sheet"), paper.words())
    }

    /// The part of a page that can be drawn on, in the page frame; with a printer's correction, the corrected drawing also
    /// stays inside the margins.
    pub fn printable(&self) -> Rect {
        printable(self.paper, self.margin, self.correction.as_ref())
    }

    /// The tile at a position of the grid, if there is one.
    pub fn tile(&self, column: u32, row: u32) -> Option<&Tile> {
        self.tiles
            .iter()
            .find(|tile| tile.column == column && tile.row == row)
    }
}

/// The narrowest overlap in which the crosses on joints are complete, mm.
pub const LEAST_OVERLAP: f64 = 5.0;
/// Half the length of a cross's lines if there is room for it, mm.
const ARM: f64 = 4.0;

/// Half the length of a cross's lines on a joint, mm, such that both sheets show the whole cross. Below [`LEAST_OVERLAP`] it
/// gets no shorter, and each sheet cuts some of it off.
///
/// ```
/// assert_eq!(workshop::cross_arm_of(10.0), 4.0);
/// assert_eq!(workshop::cross_arm_of(6.0), 3.0);
/// assert_eq!(workshop::cross_arm_of(0.0), 2.5);
/// ```
pub const fn cross_arm_of(overlap: f64) -> f64 {
    overlap.clamp(LEAST_OVERLAP, 2.0 * ARM) / 2.0
}
