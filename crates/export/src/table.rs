//! Tables as in RFC 4180: one line per row, fields quoted where necessary, lines ended by CR LF.

use std::borrow::Cow;

use board::{INCH, Units};
use csv::{Terminator, Writer, WriterBuilder};

use crate::Error;
use crate::number::Written;

/// Decimals of every length and angle.
pub const PLACES: usize = 6;

/// The unit of a table's lengths: the ending of its column names, and its length in mm.
pub const fn unit(units: Units) -> (&'static str, f64) {
    match units {
        Units::Mm => ("mm", 1.0),
        Units::Inch(_) => ("in", INCH),
    }
}

/// A number as a field of a table.
///
/// # Errors
///
/// [`Error::Figure`] where no file can hold it.
pub fn figure(name: &str, value: f64) -> Result<String, Error> {
    let mut text = Written::default();
    text.fixed(name, value, PLACES);
    text.finish()
}

/// A field that a spreadsheet reads as text: a field that begins like a formula gets an apostrophe before it, which
/// spreadsheets hide. Numbers stay unchanged.
///
/// The characters are those that OWASP lists for CSV injection; from memory.
fn as_words(field: &str) -> Cow<'_, str> {
    let begins_a_formula = field.starts_with(['=', '+', '-', '@', '\t', '\r']);
    if begins_a_formula && field.parse::<f64>().is_err() {
        format!("'{field}").into()
    } else {
        field.into()
    }
}

/// A table while it is being written; its first row is the header.
pub struct Table(Writer<Vec<u8>>);

impl Table {
    /// An empty table, with room for about this many bytes.
    pub fn new(room: usize) -> Self {
        let mut builder = WriterBuilder::new();
        builder.terminator(Terminator::CRLF);
        Self(builder.from_writer(Vec::with_capacity(room)))
    }

    /// Adds a row.
    ///
    /// # Errors
    ///
    /// [`Error::Table`] where the number of fields differs from that of the rows before it.
    pub fn row<F: AsRef<str>>(&mut self, fields: impl IntoIterator<Item = F>) -> Result<(), Error> {
        for field in fields {
            let field = as_words(field.as_ref());
            let written = self.0.write_field(field.as_bytes());
            written.map_err(|error| unwritten(&error))?;
        }
        let ended = self.0.write_record(None::<&[u8]>);
        ended.map_err(|error| unwritten(&error))
    }

    /// The bytes of all rows.
    ///
    /// # Errors
    ///
    /// [`Error::Table`] if the last bytes cannot be appended.
    pub fn finish(self) -> Result<Vec<u8>, Error> {
        self.0
            .into_inner()
            .map_err(|error| unwritten(error.error()))
    }
}

/// The error that a table or its sums could not be written.
pub fn unwritten(error: &dyn core::error::Error) -> Error {
    Error::Table {
        reason: error.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_field_reads_as_a_formula_and_numbers_stay_numbers() {
        let mut table = Table::new(0);
        table
            .row(["=1+1", "+49 30", "-x", "@home", "-12.5", "plain, text"])
            .unwrap();
        let text = String::from_utf8(table.finish().unwrap()).unwrap();
        assert_eq!(text, "'=1+1,'+49 30,'-x,'@home,-12.5,\"plain, text\"\r\n");
    }

    #[test]
    fn rows_of_different_lengths_are_rejected() {
        let mut table = Table::new(0);
        table.row(["a", "b"]).unwrap();
        assert!(table.row(["a"]).is_err());
    }

    #[test]
    fn a_value_that_is_not_a_number_is_rejected_by_name() {
        assert_eq!(figure("left", 1.5).unwrap(), "1.500000");
        assert!(
            figure("left", f64::NAN)
                .unwrap_err()
                .to_string()
                .starts_with("left is NaN")
        );
    }
}
