//! Tables as RFC 4180 has them: a row a line, fields quoted where they must be, lines ended by CR LF.

use board::{INCH, Units};
use csv::{Terminator, Writer, WriterBuilder};

use crate::{Error, number};

/// Decimals of every length and angle.
pub const PLACES: usize = 6;

/// The unit of a table's lengths: what its columns end in, and its length in mm.
pub const fn unit(units: Units) -> (&'static str, f64) {
    match units {
        Units::Mm => ("mm", 1.0),
        Units::Inch(_) => ("in", INCH),
    }
}

/// Appends a length or an angle as every table has it: `12.500000`.
pub fn push(out: &mut String, value: f64) {
    number::push_fixed(out, value, PLACES);
}

/// A table while it is written; its first row is the header.
pub struct Table(Writer<Vec<u8>>);

impl Table {
    /// An empty table, with room for about so many bytes.
    pub fn new(room: usize) -> Self {
        let mut builder = WriterBuilder::new();
        builder.terminator(Terminator::CRLF);
        Self(builder.from_writer(Vec::with_capacity(room)))
    }

    /// Adds a row.
    ///
    /// # Errors
    ///
    /// [`Error::Table`] where it has not as many fields as the rows before it.
    pub fn row<F: AsRef<[u8]>>(
        &mut self,
        fields: impl IntoIterator<Item = F>,
    ) -> Result<(), Error> {
        self.0
            .write_record(fields)
            .map_err(|error| unwritten(&error))
    }

    /// The bytes of all rows.
    ///
    /// # Errors
    ///
    /// [`Error::Table`] where what is left cannot be put behind the rest.
    pub fn finish(self) -> Result<Vec<u8>, Error> {
        self.0
            .into_inner()
            .map_err(|error| unwritten(error.error()))
    }
}

/// Why a table or its sums could not be put into lines.
pub fn unwritten(error: &dyn core::error::Error) -> Error {
    Error::Table {
        reason: error.to_string(),
    }
}
