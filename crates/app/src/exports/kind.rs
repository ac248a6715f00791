//! The kinds of file that a board is exported to, and their names.

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
    /// Whole board as DXF (R2000, or R12 where the board asks for it), one layer a role, circles as circles, its unit in the first line
    Dxf,
    /// Router template with holes for the guide bushing: PDF in sheets with a page of settings, SVG of the whole
    Router,
    /// Sector jig to be turned from player to player: PDF in sheets with the order of turning
    Sector,
    /// Section of the board through a hole, the recess and the base, with sizes, as SVG
    Section,
    /// Hole table as CSV: name, place, radius, bearing, bore
    Csv,
    /// Jig sheet: radii, index plates, dividers and the order of drilling, as PDF and CSV
    Jig,
    /// Programs for a CNC machine (G-code of RS274/NGC): holes, and the edge and grooves where they are planned
    Gcode,
    /// Job sheet: all of the work step by step, with cautions, section and filling plan, as PDF
    Job,
    /// Card for the customer: pieces, age, care, and lines for the rules, as PDF to fold
    Card,
    /// Filling plan: batches of resin and the holes they go into, as PDF
    Filling,
    /// Finish plan: section through the film, coats in order with times, masking, amounts, as PDF
    Finish,
    /// Repair page: distances to measure, their verdict, and repairs of misdrilled holes, as PDF
    Repair,
    /// Proof for the customer: pictures of the finished board from above and in perspective, as PNG, SVG and PDF
    Proof,
    /// Sums of the bench with their formulas, as CSV and JSON
    Sums,
    /// Quote for the customer on one page as PDF; the costing for the shop as PDF and CSV
    Quote,
    /// Shopping list and cut list for all boards: PDF with boxes to tick, and a CSV of each
    Lists,
    /// Calendar of the work: iCalendar (RFC 5545) for calendar programs, CSV, and bars over the days as PDF
    Ical,
    /// Fit strip: five test holes around each size wanted, to try a piece in scrap, PDF at true size with a drilling list
    FitStrip,
    /// Sheet to measure a printer by, PDF at true size
    PrinterTest,
}

/// The use of a kind, which groups the list of exports.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// Printed at true size, to work by.
    Paper,
    /// For machines, and for programs that draw for them.
    Machine,
    /// To plan the work and to keep.
    Records,
    /// For the customer.
    Customer,
}

impl Group {
    /// Every group, in the order of the list.
    pub const ALL: [Self; 4] = [Self::Paper, Self::Machine, Self::Records, Self::Customer];

    /// The heading of the group.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Paper => "On paper, at true size",
            Self::Machine => "For a machine",
            Self::Records => "Plans and records",
            Self::Customer => "For the customer",
        }
    }
}

/// Every kind, in the order lists show them.
const ALL: [Kind; 23] = [
    Kind::TemplatePdf,
    Kind::TemplateSvg,
    Kind::PlotPdf,
    Kind::Svg,
    Kind::Dxf,
    Kind::Router,
    Kind::Sector,
    Kind::Section,
    Kind::Csv,
    Kind::Jig,
    Kind::Gcode,
    Kind::Job,
    Kind::Card,
    Kind::Filling,
    Kind::Finish,
    Kind::Repair,
    Kind::Proof,
    Kind::Sums,
    Kind::Lists,
    Kind::Ical,
    Kind::Quote,
    Kind::FitStrip,
    Kind::PrinterTest,
];

impl Kind {
    /// Every kind, in the order lists show them.
    pub const ALL: [Self; ALL.len()] = ALL;

    /// The name of the kind on screens.
    pub const fn label(self) -> &'static str {
        match self {
            Self::TemplatePdf => "Template in sheets (PDF)",
            Self::TemplateSvg => "Template in sheets (SVG)",
            Self::PlotPdf => "Whole board on one page (PDF)",
            Self::Svg => "Whole board (SVG)",
            Self::Dxf => "Whole board (DXF)",
            Self::Router => "Router template (PDF and SVG)",
            Self::Sector => "Sector jig (PDF)",
            Self::Section => "Section of the board (SVG)",
            Self::Csv => "Hole table (CSV)",
            Self::Jig => "Jig sheet (PDF and CSV)",
            Self::Gcode => "Machine programs (G-code)",
            Self::Job => "Job sheet (PDF)",
            Self::Card => "Card for the customer (PDF)",
            Self::Filling => "Filling plan (PDF)",
            Self::Finish => "Finish plan (PDF)",
            Self::Repair => "Repair page (PDF)",
            Self::Proof => "Proof for the customer (PNG, SVG, PDF)",
            Self::Sums => "Bench sums (CSV and JSON)",
            Self::Quote => "Quote (PDF) and costing (PDF and CSV)",
            Self::Lists => "Shopping and cut list (PDF and CSV)",
            Self::Ical => "Calendar (iCalendar, CSV and PDF)",
            Self::FitStrip => "Fit strip (PDF)",
            Self::PrinterTest => "Printer test sheet (PDF)",
        }
    }

    /// The group that it stands in.
    pub const fn group(self) -> Group {
        match self {
            Self::TemplatePdf
            | Self::TemplateSvg
            | Self::PlotPdf
            | Self::Router
            | Self::Sector
            | Self::Jig
            | Self::FitStrip
            | Self::PrinterTest => Group::Paper,
            Self::Svg | Self::Dxf | Self::Csv | Self::Gcode => Group::Machine,
            Self::Section
            | Self::Job
            | Self::Filling
            | Self::Finish
            | Self::Repair
            | Self::Sums
            | Self::Lists
            | Self::Ical => Group::Records,
            Self::Card | Self::Proof | Self::Quote => Group::Customer,
        }
    }

    /// The purpose of the kind, in a line.
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
            Self::Router => "of hardboard, for a guide bushing; with what to set",
            Self::Sector => {
                "of hardboard, one sector, turned on the pin; with the order of turning"
            }
            Self::Section => {
                "cut through the chosen hole, the recess and the base, with the sizes on it"
            }
            Self::Csv => "name, place, radius, bearing and bore of every hole, for jig or machine",
            Self::Jig => {
                "for drilling with a pin and stop, dividers or an index plate: radii, bearings, order"
            }
            Self::Gcode => "for a CNC machine; prove each program in air, above the wood, first",
            Self::Job => {
                "all of the work step by step: boxes to tick, what to mind, section, filling plan, lists"
            }
            Self::Card => "pieces, age, care, and lines for the rules; print at 100 % and fold",
            Self::Filling => "what to mix and when, and the number of its batch in every hole",
            Self::Finish => {
                "every coat in order with its time and the coat below it, masking and amounts, for the shop wall"
            }
            Self::Repair => {
                "what to measure after taping or drilling, and how to fix a hole that went wrong"
            }
            Self::Proof => {
                "the finished board with its pieces, to show before you cut: from above and in perspective. In SVG and PDF the board is a picture too, and the words are text"
            }
            Self::Sums => {
                "each figure with its formula and source, for a spreadsheet or another program"
            }
            Self::Quote => "a page for the customer, and the costs for the shop only",
            Self::Lists => "what to buy, in packs as sold, and every wooden part to cut",
            Self::Ical => {
                "every operation on its days: for a calendar program, a spreadsheet, and the wall"
            }
            Self::FitStrip => {
                "five test holes around each size you want, to drill in scrap and try the piece in"
            }
            Self::PrinterTest => "print it, measure it, and type what you measure under Printer",
        }
    }

    /// The part that the board would have to plan for this kind to be of use; nothing where it can be made.
    pub const fn missing(self, board: &Board) -> Option<&'static str> {
        match self {
            Self::Gcode if board.machine.is_none() => {
                Some("no CNC machine is set up: plan it under Drill, Machine")
            }
            Self::Router if board.router.is_none() => {
                Some("no router template is planned: plan it under Template, Hardboard")
            }
            Self::Sector if board.sector_jig.is_none() => {
                Some("no sector jig is planned: plan it under Template, Hardboard")
            }
            Self::Filling if board.filling.is_none() => {
                Some("no resin is planned: plan it under Bench, Filling")
            }
            Self::Finish if board.finish.is_empty() => {
                Some("no coats are planned: plan them under Finish, Finish coats")
            }
            _ => None,
        }
    }

    /// Whether it is made where no kinds are named: it can be made, is for the board and not for a trial or a check of it, and
    /// says those that other kinds leave out.
    pub fn is_usual(self, board: &Board) -> bool {
        let is_trial = matches!(self, Self::FitStrip | Self::PrinterTest | Self::Repair);
        let is_dated = self != Self::Ical || is_dated(board);
        let is_priced = self != Self::Quote || board.price.is_begun();
        let is_due = is_dated && is_priced;
        self.missing(board).is_none() && !is_trial && is_due && self != Self::TemplateSvg
    }

    /// The word that a command line knows the kind by.
    pub fn word(self) -> String {
        let value = clap::ValueEnum::to_possible_value(&self);
        value.map_or_else(String::new, |value| value.get_name().to_owned())
    }
}

/// Whether an order has a first day or a promise, and hours and a time zone that make a calendar.
fn is_dated(board: &Board) -> bool {
    let schedule = &board.schedule;
    let has_zone = schedule.zone.is_empty() || board::time_zone(&schedule.zone).is_some();
    let has_hours = schedule.hours.days().iter().any(|hours| *hours > 0.0);
    (schedule.start.is_some() || schedule.promised.is_some()) && has_zone && has_hours
}
