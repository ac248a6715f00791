//! The bytes of each file format: drawings as PDF and SVG.
//!
//! A writer takes plain values and gives back bytes or text. No writer knows a path, a clock or a window; the
//! same input gives the same bytes on every machine.
//!
//! # What is inside
//!
//! * [`pdf()`], [`PdfOptions`], [`Date`]: sheets as pages at true size.
//! * [`svg()`]: one sheet at true size, circles still circles.
//! * [`Error`]: why a file cannot be written.
//!
//! What each format promises, and on which clause of which standard it rests, is in `docs/formats`.

mod check;
mod error;
mod number;
mod pdf;
mod svg;

pub use error::Error;
pub use pdf::{Date, PdfOptions, pdf};
pub use svg::svg;
