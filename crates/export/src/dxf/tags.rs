//! The pairs of lines that make up a DXF: a group code, then its value.

use board::{DxfRelease, INCH, Units};
use kurbo::Point;

use super::DxfOptions;
use crate::Error;
use crate::number::Written;

/// Decimals of every coordinate: half a millionth of a micrometer in a file in millimeters.
const PLACES: usize = 9;
/// The first free handle; those below it are used by tables and dictionaries.
const FIRST_FREE: u32 = 0x100;

/// Tags as text, with lengths in the unit of the file.
pub struct Tags {
    out: Written,
    options: DxfOptions,
    /// Length of the file's unit in mm.
    unit: f64,
    next_handle: u32,
}

impl Tags {
    /// No tags yet.
    pub fn new(options: DxfOptions) -> Self {
        let unit = match options.units {
            Units::Mm => 1.0,
            Units::Inch(_) => INCH,
        };
        Self {
            out: Written::default(),
            options,
            unit,
            next_handle: FIRST_FREE,
        }
    }

    /// The options of the file.
    pub const fn options(&self) -> DxfOptions {
        self.options
    }

    /// The tags as they are written to a file.
    ///
    /// # Errors
    ///
    /// [`Error::Figure`] for a number that is NaN or infinite.
    pub fn into_text(self) -> Result<String, Error> {
        self.out.finish()
    }

    /// Adds tags that were written separately; their handles stay unchanged.
    pub fn append(&mut self, others: &Self) {
        self.out.append(&others.out);
    }

    /// A section and its content.
    pub fn section(&mut self, name: &str, body: impl FnOnce(&mut Self)) {
        self.text(0, "SECTION");
        self.text(2, name);
        body(self);
        self.text(0, "ENDSEC");
    }

    /// A variable of the header.
    pub fn variable(&mut self, name: &str, code: u16, value: &str) {
        self.text(9, name);
        self.text(code, value);
    }

    /// A tag whose value is a word.
    pub fn text(&mut self, code: u16, value: &str) {
        self.code(code);
        self.out.push_str(value);
        self.out.push('\n');
    }

    /// A tag that only R2000 has.
    pub fn since_2000(&mut self, code: u16, value: &str) {
        if self.options.release == DxfRelease::R2000 {
            self.text(code, value);
        }
    }

    /// A length in mm, written in the unit of the file.
    pub fn length(&mut self, code: u16, mm: f64) {
        self.plain(code, mm / self.unit);
    }

    /// A number that is not a length.
    pub fn plain(&mut self, code: u16, value: f64) {
        self.code(code);
        self.out.fixed("a number of the drawing", value, PLACES);
        self.out.push('\n');
    }

    /// A point on the face of the board; the codes of y and z follow that of x in steps of ten.
    pub fn point(&mut self, code: u16, point: Point) {
        self.length(code, point.x);
        self.length(code + 10, point.y);
        self.length(code + 20, 0.0);
    }

    /// The next handle, which R2000 requires on each part of the drawing.
    pub fn new_handle(&mut self) {
        if self.options.release == DxfRelease::R2000 {
            let handle = self.free_handle();
            self.text(5, &handle);
            self.next_handle += 1;
        }
    }

    /// The first handle that is not in use.
    pub fn free_handle(&self) -> String {
        format!("{:X}", self.next_handle)
    }

    /// A group code on a line of its own, right-aligned to three places as in the format's own examples.
    fn code(&mut self, code: u16) {
        self.out.push_str(&format!("{code:>3}\n"));
    }
}
