//! The kinds of file that a board is exported to, and what they are called.

use board::Board;

/// A kind of export; some make several files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Kind {
    /// Drilling template in sheets for a home printer, PDF at true size
    TemplatePdf,
    /// Drilling template in sheets, one SVG a sheet
    TemplateSvg,
    /// Whole board on one page for a plotter or print shop, PDF at true size with layers
    PlotPdf,
    /// Whole board as SVG at true size, one group for each kind of hole
    Svg,
    /// Whole board as DXF (R12), one layer a role, circles as circles, its unit in the first line
    Dxf,
    /// Hole table as CSV: name, place, radius, bearing, bore
    Csv,
    /// Jig sheet: radii, index plates, dividers and the order of drilling, as PDF and CSV
    Jig,
    /// Programs that drill the holes on a CNC machine (G-code of RS274/NGC)
    Gcode,
}

/// Every kind, in the order lists show them.
const ALL: [Kind; 8] = [
    Kind::TemplatePdf,
    Kind::TemplateSvg,
    Kind::PlotPdf,
    Kind::Svg,
    Kind::Dxf,
    Kind::Csv,
    Kind::Jig,
    Kind::Gcode,
];

impl Kind {
    /// Every kind, in the order lists show them.
    pub const ALL: [Self; ALL.len()] = ALL;

    /// What the kind is called on screens.
    pub const fn label(self) -> &'static str {
        match self {
            Self::TemplatePdf => "Template in sheets (PDF)",
            Self::TemplateSvg => "Template in sheets (SVG)",
            Self::PlotPdf => "Whole board on one page (PDF)",
            Self::Svg => "Whole board (SVG)",
            Self::Dxf => "Whole board (DXF)",
            Self::Csv => "Hole table (CSV)",
            Self::Jig => "Jig sheet (PDF and CSV)",
            Self::Gcode => "Drilling programs (G-code)",
        }
    }

    /// What the kind is for, in a line.
    pub const fn purpose(self) -> &'static str {
        match self {
            Self::TemplatePdf => {
                "for a home printer: print at 100 %, measure the bars, join cross on cross"
            }
            Self::TemplateSvg => "the same sheets, each a file of its own",
            Self::PlotPdf => "for a plotter or a print shop, at true size",
            Self::Svg => "for drawing programs and laser cutters, at true size",
            Self::Dxf => {
                "for CAD programs and CNC routers, in the unit shown, origin at the center pin"
            }
            Self::Csv => "name, place, radius, bearing and bore of every hole, for jig or machine",
            Self::Jig => {
                "for a pin and a stop, dividers, an index plate: radii, bearings, order of drilling"
            }
            Self::Gcode => "for a CNC machine; prove each program in air, above the wood, first",
        }
    }

    /// What the board would have to plan for this kind to be of use; nothing where it can be made.
    pub const fn missing(self, board: &Board) -> Option<&'static str> {
        match self {
            Self::Gcode if board.machine.is_none() => {
                Some("no CNC machine is described: see Machine among the controls")
            }
            _ => None,
        }
    }

    /// Whether it is made where no kinds are named: it can be made, and says what no other kind says.
    pub fn is_usual(self, board: &Board) -> bool {
        self.missing(board).is_none() && self != Self::TemplateSvg
    }

    /// The word that a command line knows the kind by.
    pub fn word(self) -> String {
        let value = clap::ValueEnum::to_possible_value(&self);
        value.map_or_else(String::new, |value| value.get_name().to_owned())
    }
}
