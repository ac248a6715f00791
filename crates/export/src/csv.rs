//! The hole table as CSV, for spreadsheets and machines.
//!
//! RFC 4180: a header, lines end in CR LF, fields with a comma or a quote are quoted. Six decimals throughout; the
//! unit of length is in the header, not in the fields.

use core::fmt::Write as _;

use board::Units;
use geometry::bearing_of;
use workshop::{HoleRow, HoleTable};

use crate::table::{self, Table};
use crate::{Error, number};

/// The columns; `UNIT` is replaced by the unit of the lengths.
const HEADER: &str =
    "name,role,player,number,x_UNIT,y_UNIT,radius_UNIT,bearing_deg,diameter_UNIT,depth_UNIT,bottom";

/// The hole table as CSV, with lengths in the given unit.
///
/// A header, then one row per hole in the order of the table: name, role, player and number; the center's x and y, and its
/// radius and bearing; diameter, depth and bottom of the bore. The origin is the center pin, y points to 12 o'clock, bearings
/// run clockwise from there in degrees. Player and number of the center hole, which belongs to no player, are empty.
///
/// ```
/// use board::{Board, Units};
///
/// let workpiece = workshop::Workpiece::of(&Board::default())?;
/// let file = export::csv(workpiece.hole_table(), Units::INCH)?;
/// let text = String::from_utf8(file)?;
/// let mut lines = text.split("\r\n");
/// assert!(lines.next().is_some_and(|header| header.starts_with("name,role,player,number,x_in,y_in")));
/// assert!(lines.next().is_some_and(|first| first.starts_with("T1-01,track,1,1,")));
/// assert_eq!(lines.count(), 144 + 1);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
///
/// [`Error::Hole`] for a hole whose position or size is not a number.
pub fn csv(holes: &HoleTable, units: Units) -> Result<Vec<u8>, Error> {
    let (suffix, unit) = table::unit(units);
    let mut written = Table::new(96 * (holes.rows.len() + 1));
    written.row(HEADER.replace("UNIT", suffix).split(','))?;
    let mut fields = Fields::default();
    for row in &holes.rows {
        check(row)?;
        fields.fill(row, unit)?;
        written.row(fields.each())?;
    }
    written.finish()
}

/// Rejects a hole whose numbers are not finite, by its name; a bad field would not say which hole it belongs to.
fn check(row: &HoleRow) -> Result<(), Error> {
    let numbers = [row.center.x, row.center.y, row.diameter, row.depth];
    if numbers.into_iter().all(number::is_sound) {
        Ok(())
    } else {
        let name = row.name.to_string();
        Err(Error::Hole { name })
    }
}

/// The fields of a row, concatenated in one text that is reused for the next row.
#[derive(Default)]
struct Fields {
    text: String,
    ends: Vec<usize>,
}

impl Fields {
    /// The fields of a hole, in the order of [`HEADER`]; `unit` is the length of the unit in mm.
    fn fill(&mut self, row: &HoleRow, unit: f64) -> Result<(), Error> {
        self.text.clear();
        self.ends.clear();
        // Writing to a string cannot fail.
        let _ = write!(self.text, "{}", row.name);
        self.end();
        self.push(row.role.id());
        self.push_count(row.player);
        self.push_count(row.number);
        self.push_number("x", row.center.x / unit)?;
        self.push_number("y", row.center.y / unit)?;
        self.push_number("radius", row.center.to_vec2().length() / unit)?;
        self.push_bearing(bearing_of(row.center).as_degrees())?;
        self.push_number("diameter", row.diameter / unit)?;
        self.push_number("depth", row.depth / unit)?;
        self.push(row.bottom.id());
        Ok(())
    }

    /// The fields one by one.
    fn each(&self) -> impl Iterator<Item = &str> {
        let starts = core::iter::once(&0).chain(&self.ends);
        let ranges = starts.zip(&self.ends);
        ranges.map(|(&start, &end)| self.text.get(start..end).unwrap_or_default())
    }

    fn end(&mut self) {
        self.ends.push(self.text.len());
    }

    fn push(&mut self, field: &str) {
        self.text.push_str(field);
        self.end();
    }

    /// Adds a count; counts begin at 1, and 0 means none.
    fn push_count(&mut self, count: u32) {
        if count > 0 {
            // Writing to a string cannot fail.
            let _ = write!(self.text, "{count}");
        }
        self.end();
    }

    fn push_number(&mut self, figure: &str, value: f64) -> Result<(), Error> {
        self.push(&table::figure(figure, value)?);
        Ok(())
    }

    /// Adds a bearing; one that rounds up to a full turn becomes 12 o'clock.
    fn push_bearing(&mut self, degrees: f64) -> Result<(), Error> {
        let text = table::figure("bearing", degrees)?;
        if text.starts_with("360.") {
            self.push_number("bearing", 0.0)
        } else {
            self.push(&text);
            Ok(())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use geometry::{Angle, Point, point_at};
    use testkit::assert_near;

    fn table() -> HoleTable {
        let workpiece = workshop::Workpiece::of(&Board::default()).unwrap();
        workpiece.hole_table().clone()
    }

    fn text(table: &HoleTable, units: Units) -> String {
        String::from_utf8(csv(table, units).unwrap()).unwrap()
    }

    /// A table with one hole at a point.
    fn one(center: Point) -> HoleTable {
        let row = HoleRow {
            center,
            ..table().rows[0]
        };
        HoleTable { rows: vec![row] }
    }

    #[test]
    fn the_header_names_the_unit() {
        let header = |units| text(&table(), units).lines().next().unwrap().to_owned();
        assert_eq!(
            header(Units::Mm),
            "name,role,player,number,x_mm,y_mm,radius_mm,bearing_deg,diameter_mm,depth_mm,bottom"
        );
        assert_eq!(header(Units::INCH), header(Units::Mm).replace("_mm", "_in"));
    }

    /// RFC 4180, 2, rule 1.
    #[test]
    fn every_line_ends_in_cr_lf() {
        let text = text(&table(), Units::Mm);
        assert!(text.ends_with("\r\n"));
        assert_eq!(text.matches('\n').count(), table().rows.len() + 1);
        assert_eq!(text.matches("\r\n").count(), table().rows.len() + 1);
    }

    #[test]
    fn every_hole_reads_back_at_its_position() {
        for (units, unit) in [(Units::Mm, 1.0), (Units::INCH, 25.4)] {
            let bytes = csv(&table(), units).unwrap();
            let mut reader = ::csv::Reader::from_reader(bytes.as_slice());
            let records: Vec<_> = reader.records().map(Result::unwrap).collect();
            assert_eq!(records.len(), table().rows.len());
            for (record, row) in records.iter().zip(&table().rows) {
                let number = |column: usize| record[column].parse::<f64>().unwrap();
                let half = 0.500_001e-6 * unit;
                assert_eq!(record[0], row.name.to_string());
                assert_eq!(&record[1], row.role.id());
                assert_near!(number(4) * unit, row.center.x, half);
                assert_near!(number(5) * unit, row.center.y, half);
                let polar = point_at(number(6) * unit, Angle::degrees(number(7)));
                assert_near!(polar, row.center, 2e-5);
                assert!((0.0..360.0).contains(&number(7)), "{record:?}");
                assert_near!(number(8) * unit, row.diameter, half);
                assert_near!(number(9) * unit, row.depth, half);
                assert_eq!(&record[10], row.bottom.id());
            }
        }
    }

    #[test]
    fn the_center_hole_has_no_player_and_no_number() {
        let text = text(&table(), Units::Mm);
        let last = text.lines().last().unwrap();
        assert!(
            last.starts_with("C,center,,,0.000000,0.000000,0.000000,0.000000,"),
            "{last}"
        );
    }

    #[test]
    fn a_bearing_just_short_of_a_full_turn_is_12_o_clock() {
        let text = text(&one(Point::new(-1e-10, 100.0)), Units::Mm);
        let row = text.lines().nth(1).unwrap();
        assert!(
            row.contains(",0.000000,100.000000,100.000000,0.000000,"),
            "{row}"
        );
        assert!(!text.contains("-0.000000"), "{row}");
    }

    #[test]
    fn a_hole_without_a_finite_position_is_rejected_by_name() {
        let error = csv(&one(Point::new(f64::NAN, 0.0)), Units::Mm).unwrap_err();
        assert!(
            error
                .to_string()
                .contains(&table().rows[0].name.to_string()),
            "{error}"
        );
    }
}
