//! The jig sheet as CSV: one row per hole, in drilling order.
//!
//! The same dialect as the hole table: RFC 4180, a header with the unit, six decimals.

use core::fmt::Write as _;

use board::Units;
use workshop::{JigSheet, RadiusHole};

use crate::table::{self, Table, figure};
use crate::{Error, number};

/// The columns before those of the plates; `UNIT` is replaced by the unit of the lengths.
const HEADER: &str = "step,name,radius_UNIT,bearing_deg,diameter_UNIT,bottom,depth_UNIT";

/// The jig sheet as CSV, with lengths in the given unit: one row per hole, numbered by step in drilling order, with the radius
/// and the bearing to set on the jig, and the bit and the depth to drill with.
///
/// Bearings are from player 1's axis. Each of the maker's plates adds two columns: the division nearest to the hole's bearing,
/// counted clockwise from player 1's axis, and its distance from the hole along the hole's circle. They are empty for a hole at
/// the center pin.
///
/// ```
/// use board::{Board, Units};
///
/// let mut board = Board::default();
/// board.jig.plates = vec![96];
/// let jig = workshop::jig_sheet(&workshop::Workpiece::of(&board)?);
/// let text = String::from_utf8(export::jig_csv(&jig, Units::Mm)?)?;
/// let header = "step,name,radius_mm,bearing_deg,diameter_mm,bottom,depth_mm,index_96,miss_96_mm";
/// assert_eq!(text.split("\r\n").next(), Some(header));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
///
/// [`Error::Hole`] for a hole whose position or size is not a number.
pub fn jig_csv(jig: &JigSheet, units: Units) -> Result<Vec<u8>, Error> {
    let (suffix, unit) = table::unit(units);
    let mut header = HEADER.to_owned();
    for plate in &jig.plates {
        let divisions = plate.divisions;
        // Writing to a string cannot fail.
        let _ = write!(header, ",index_{divisions},miss_{divisions}_UNIT");
    }
    let mut written = Table::new(160 * (jig.table.rows.len() + 1));
    written.row(header.replace("UNIT", suffix).split(','))?;
    for row in rows(jig, unit)? {
        written.row(&row)?;
    }
    written.finish()
}

/// The rows in drilling order, with lengths in a unit of this many mm. Radius and bearing of a hole are those of the circle it
/// is drilled on, not of its exact center: the jig is set once for all holes of a circle.
fn rows(jig: &JigSheet, unit: f64) -> Result<Vec<Vec<String>>, Error> {
    let mut places = vec![(0.0, 0.0); jig.table.rows.len()];
    for radius in &jig.radii {
        for &RadiusHole { row, bearing } in &radius.holes {
            if let Some(place) = places.get_mut(row) {
                *place = (radius.mm, bearing);
            }
        }
    }
    let steps = jig.order.rows.iter().enumerate();
    steps
        .filter_map(|(step, row)| Some((step + 1, jig.table.rows.get(*row)?, places.get(*row)?)))
        .map(|(step, hole, &(radius, bearing))| {
            let sound = [radius, bearing, hole.diameter, hole.depth];
            if !sound.into_iter().all(number::is_sound) {
                let name = hole.name.to_string();
                return Err(Error::Hole { name });
            }
            let mut row = vec![
                step.to_string(),
                hole.name.to_string(),
                figure("radius", radius / unit)?,
                figure("bearing", bearing)?,
                figure("diameter", hole.diameter / unit)?,
                hole.bottom.id().into(),
                figure("depth", hole.depth / unit)?,
            ];
            for plate in &jig.plates {
                row.extend(indexed(plate.divisions, radius, bearing, unit)?);
            }
            Ok(row)
        })
        .collect()
}

/// The division of a plate nearest to a bearing, and its error.
fn indexed(divisions: u32, radius: f64, bearing: f64, unit: f64) -> Result<[String; 2], Error> {
    if radius <= 0.0 {
        return Ok(Default::default());
    }
    let step = 360.0 / f64::from(divisions);
    let nearest = (bearing / step).round();
    let miss = (bearing - nearest * step).abs().to_radians() * radius;
    // A bearing just before 12 o'clock is division 0, not -0.
    let index = nearest.rem_euclid(f64::from(divisions)) + 0.0;
    Ok([format!("{index:.0}"), figure("miss", miss / unit)?])
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, layout};
    use testkit::assert_near;
    use workshop::{Workpiece, jig_sheet};

    fn table(board: &Board) -> Vec<Vec<String>> {
        let jig = jig_sheet(&Workpiece::of(board).unwrap());
        let bytes = jig_csv(&jig, board.units).unwrap();
        let mut reader = ::csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(&*bytes);
        let records = reader.records();
        records
            .map(|record| record.unwrap().iter().map(Into::into).collect())
            .collect()
    }

    #[test]
    fn a_bearing_just_before_12_o_clock_is_division_0() {
        let [index, miss] = indexed(60, 100.0, -1e-13, 1.0).unwrap();
        assert_eq!((index.as_str(), miss.as_str()), ("0", "0.000000"));
        assert_eq!(indexed(60, 100.0, -6.0, 1.0).unwrap()[0], "59");
    }

    #[test]
    fn every_hole_is_in_its_step_with_its_position() {
        for units in [Units::Mm, Units::INCH] {
            let board = Board {
                units,
                rotation: 11.0,
                ..Board::default()
            };
            let rows = table(&board);
            assert_eq!(rows.len(), 146);
            let unit = if units == Units::Mm { 1.0 } else { 25.4 };
            let layout = layout(&board).unwrap();
            for (step, row) in rows.iter().skip(1).enumerate() {
                let number = |column: usize| row[column].parse::<f64>().unwrap();
                assert_near!(number(0), step as f64 + 1.0, 0.0);
                let hole = layout
                    .holes
                    .iter()
                    .find(|hole| hole.name.to_string() == row[1])
                    .unwrap();
                let bearing = geometry::Angle::degrees(number(3) + 11.0);
                let at = geometry::point_at(number(2) * unit, bearing);
                assert_near!(at, hole.center, 0.002);
                assert_near!(number(6) * unit, hole.bore.depth, 2e-5);
            }
        }
    }

    /// 96 holes are on every other hole of a plate of 192, and nowhere else.
    #[test]
    fn each_plate_has_its_index_and_miss_for_every_hole() {
        let mut board = Board {
            home: 0,
            start: 0,
            ..Board::default()
        };
        board.jig.plates = vec![100, 192];
        let rows = table(&board);
        assert_eq!(
            rows[0][7..],
            ["index_100", "miss_100_mm", "index_192", "miss_192_mm"]
        );
        let mut worst = 0.0_f64;
        for row in rows.iter().skip(1).filter(|row| row[1] != "C") {
            let [radius, bearing]: [f64; 2] =
                [2, 3].map(|column: usize| row[column].parse().unwrap());
            assert_near!(
                row[9].parse::<f64>().unwrap(),
                bearing / 360.0 * 192.0,
                1e-3
            );
            assert_eq!(row[10], "0.000000");
            let past = bearing.rem_euclid(3.6);
            let miss = past.min(3.6 - past).to_radians() * radius;
            assert_near!(row[8].parse::<f64>().unwrap(), miss, 2e-5);
            worst = worst.max(miss);
        }
        let jig = jig_sheet(&Workpiece::of(&board).unwrap());
        assert_near!(jig.plates[0].worst, worst, 2e-5);
        let center = rows.iter().find(|row| row[1] == "C").unwrap();
        assert_eq!(center[7..], ["", "", "", ""]);
    }
}
