//! The bytes of each file format: drawings as PDF, SVG and DXF, hole tables as CSV and G-code.
//!
//! A writer takes plain values and returns bytes or text. No writer knows a path, a clock or a window; the same input gives the
//! same bytes on every machine.
//!
//! Lengths are passed in millimeters, in the frame of crate `geometry`: origin at the center pin, y up to 12 o'clock. Each
//! writer converts them once to the unit and the frame of its format: PDF uses 1/72 in, SVG has y down, DXF and G-code are in
//! the maker's unit. A number that is not finite is rejected by name before a byte is written.
//!
//! # What is inside
//!
//! * [`pdf()`], [`PdfOptions`], [`Date`]: sheets as pages at true size.
//! * [`svg()`]: one sheet at true size, with true circles.
//! * [`dxf()`], [`DxfOptions`]: one sheet in the frame of the board, for machines and drawing programs.
//! * [`csv()`]: every hole with its position and bore; [`jig_csv()`]: the same in drilling order, for a jig.
//! * [`gcode()`], [`gcode_edge()`], [`gcode_grooves()`], with [`GcodeOptions`], [`Program`] and [`GcodeError`]: programs that
//!   drill the holes, cut the board's edge and cut its grooves.
//! * [`shopping_csv()`], [`cut_list_csv()`]: the shopping list and the cut list; [`costing_csv()`]: the costs.
//! * [`ical()`], [`calendar_csv()`]: the work on its days, for calendar programs and for a spreadsheet.
//! * [`png()`]: a picture; [`svg_over()`], [`pdf_over()`]: one with words over it.
//! * [`sums_csv()`], [`sums_json()`]: the shop math with its formulas.
//! * [`Error`]: the reason why a file cannot be written.
//!
//! The guarantees of each format, with the clauses of the standards they rest on, are in `docs/formats`.

#[cfg(test)]
mod agreement;
mod base64;
mod calendar_csv;
mod check;
#[cfg(test)]
mod corrected;
mod costing;
mod csv;
mod dxf;
mod error;
mod gcode;
mod ical;
mod jig_csv;
mod lists;
mod number;
mod pdf;
mod png;
mod sums;
mod svg;
mod table;

pub use calendar_csv::calendar_csv;
pub use costing::costing_csv;
pub use csv::csv;
pub use dxf::{DxfOptions, dxf};
pub use error::Error;
pub use gcode::{GcodeError, GcodeOptions, Program, gcode, gcode_edge, gcode_grooves};
pub use ical::ical;
pub use jig_csv::jig_csv;
pub use lists::{cut_list_csv, shopping_csv};
pub use pdf::{Date, PdfOptions, pdf, pdf_over};
pub use png::png;
pub use sums::{sums_csv, sums_json};
pub use svg::{svg, svg_over};
