//! Settings for a maker who drills with a jig instead of a template: radii, bearings, plates, dividers, the drilling order.
//!
//! The blank turns on the center pin; a stop or an index plate holds it at a bearing, and the drill stands at a radius.
//! Bearings are measured from player 1's axis, since the blank may lie on the jig at any angle.

pub mod check;
mod circle;
mod dividers;
mod plate;
mod radii;
pub mod steps;

pub use circle::{CircleCut, circle_cut};
pub use dividers::{Dividers, closing_error, dividers};
pub use plate::{MOST_DIVISIONS, PlateFit, exact_divisions, plate_fit};
pub use radii::{Radius, RadiusHole, radii};

use crate::{Caution, HoleTable, Order, Workpiece};

/// The cautions for drilling and cutting on a pin, for the window and the jig sheet.
pub const JIG_CAUTIONS: [Caution; 7] = [
    Caution::DrillPress,
    Caution::Router,
    Caution::TableSaw,
    Caution::BandSaw,
    Caution::Eyes,
    Caution::Dust,
    Caution::Noise,
];

/// Every setting of a jig.
#[derive(Debug, Clone, PartialEq)]
pub struct JigSheet {
    /// Every hole, in the order of names; the row numbers below refer to it.
    pub table: HoleTable,
    /// The distinct radii with their holes, from the center outward.
    pub radii: Vec<Radius>,
    /// The fewest divisions of an index plate that hit every bearing; `None` if no plate up to [`MOST_DIVISIONS`] does.
    pub divisions: Option<u32>,
    /// The fit of the maker's plates, in the order of the document.
    pub plates: Vec<PlateFit>,
    /// The settings of dividers, ring by ring.
    pub dividers: Vec<Dividers>,
    /// The cut of the circle.
    pub circle: CircleCut,
    /// The drilling order chosen in the document.
    pub order: Order,
}

/// Every jig setting of a laid-out board.
pub fn jig_sheet(workpiece: &Workpiece) -> JigSheet {
    let (board, table) = (workpiece.board(), workpiece.hole_table());
    let radii = radii(table, board.rotation);
    let bearings: Vec<f64> = radii
        .iter()
        .filter(|radius| radius.mm > 0.0)
        .flat_map(|radius| radius.holes.iter().map(|hole| hole.bearing))
        .collect();
    JigSheet {
        divisions: exact_divisions(&bearings),
        plates: board
            .jig
            .plates
            .iter()
            .filter_map(|plate| plate_fit(&radii, *plate))
            .collect(),
        dividers: dividers(&radii),
        circle: circle_cut(board.blank.radius(), board.jig.kerf),
        order: workpiece.drilling_order().clone(),
        radii,
        table: table.clone(),
    }
}
