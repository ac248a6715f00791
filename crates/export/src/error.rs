//! The reasons why a file cannot be written.

/// The reason why a file cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum Error {
    /// A PDF needs at least one page.
    #[error("there is no sheet to write")]
    NoSheets,
    /// The paper has no size, or one that the format cannot express.
    #[error(
        "sheet {label:?} is {width} x {height} mm, but each side must be over 0 and up to {most} mm"
    )]
    SheetSize {
        /// The sheet's label.
        label: String,
        /// Width of the paper in mm.
        width: f64,
        /// Height of the paper in mm.
        height: f64,
        /// The longest side that can be written, in mm.
        most: f64,
    },
    /// A coordinate, a radius or a size is infinite, not a number, or unreasonably large.
    #[error("sheet {label:?}: {part} has a place or a size that is not a number")]
    NotANumber {
        /// The sheet's label.
        label: String,
        /// The part of the sheet.
        part: String,
    },
    /// A number is infinite, not a number, or unreasonably large.
    #[error("{figure} is {value:e}, which no file can hold")]
    Figure {
        /// Its name.
        figure: String,
        /// Its value.
        value: f64,
    },
    /// The typeface lacks tables that a PDF must embed.
    #[error("the typeface cannot be embedded: {reason}")]
    Typeface {
        /// The fault.
        reason: String,
    },
    /// A hole's position or size is infinite or not a number.
    #[error("hole {name} has a place or size that is not a number")]
    Hole {
        /// The hole's name.
        name: String,
    },
    /// A picture cannot be written.
    #[error("the picture cannot be written: {reason}")]
    Picture {
        /// The fault.
        reason: String,
    },
    /// The table could not be written.
    #[error("the hole table cannot be written: {reason}")]
    Table {
        /// The fault.
        reason: String,
    },
}
