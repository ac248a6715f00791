//! The jig sheet as CSV: one row a hole, in the order of drilling.
//!
//! The same dialect as the hole table: RFC 4180, a header with the unit, six decimals.

use board::{INCH, Units};
use workshop::JigSheet;

use crate::csv::{PLACES, unwritten};
use crate::{Error, number};

/// The jig sheet as CSV, its lengths in the unit given.
///
/// Bearings are from player 1's axis. `plate` is the plate of the maker's with the smallest miss as it lies, the first of
/// equals; its `index` counts divisions clockwise from player 1's axis, and `miss` is along the hole's circle. The three
/// are empty where there is no plate, or for a hole at the center pin.
///
/// # Errors
///
/// A hole whose place or size is not a number.
pub fn jig_csv(jig: &JigSheet, units: Units) -> Result<Vec<u8>, Error> {
    let (suffix, unit) = match units {
        Units::Mm => ("mm", 1.0),
        Units::Inch => ("in", INCH),
    };
    let mut writer = ::csv::WriterBuilder::new()
        .terminator(::csv::Terminator::CRLF)
        .from_writer(Vec::with_capacity(96 * (jig.table.rows.len() + 1)));
    let header = [
        "step".to_owned(),
        "name".into(),
        format!("radius_{suffix}"),
        "bearing_deg".into(),
        format!("diameter_{suffix}"),
        "bottom".into(),
        format!("depth_{suffix}"),
        "plate".into(),
        "index".into(),
        format!("miss_{suffix}"),
    ];
    writer
        .write_record(&header)
        .map_err(|error| unwritten(&error))?;
    for row in rows(jig, unit)? {
        writer
            .write_record(&row)
            .map_err(|error| unwritten(&error))?;
    }
    writer
        .into_inner()
        .map_err(|error| unwritten(error.error()))
}

fn rows(jig: &JigSheet, unit: f64) -> Result<Vec<[String; 10]>, Error> {
    let mut places = vec![(0.0, 0.0); jig.table.rows.len()];
    for radius in &jig.radii {
        for &(row, bearing) in &radius.holes {
            if let Some(place) = places.get_mut(row) {
                *place = (radius.mm, bearing);
            }
        }
    }
    let plate = jig
        .plates
        .iter()
        .min_by(|a, b| a.worst.0.total_cmp(&b.worst.0))
        .map(|plate| plate.divisions);
    let steps = jig.order.rows.iter().enumerate();
    steps
        .filter_map(|(step, row)| Some((step + 1, jig.table.rows.get(*row)?, places.get(*row)?)))
        .map(|(step, hole, &(radius, bearing))| {
            let sound = [radius, bearing, hole.diameter, hole.depth];
            if !sound.into_iter().all(f64::is_finite) {
                let name = hole.name.to_string();
                return Err(Error::Hole { name });
            }
            let [plate, index, miss] = indexed(plate, radius, bearing, unit);
            Ok([
                step.to_string(),
                hole.name.to_string(),
                six(radius / unit),
                six(bearing),
                six(hole.diameter / unit),
                hole.bottom.id().into(),
                six(hole.depth / unit),
                plate,
                index,
                miss,
            ])
        })
        .collect()
}

/// A plate's divisions, the one nearest a bearing, and what that misses by.
fn indexed(plate: Option<u32>, radius: f64, bearing: f64, unit: f64) -> [String; 3] {
    let Some(divisions) = plate.filter(|_| radius > 0.0) else {
        return Default::default();
    };
    let step = 360.0 / f64::from(divisions);
    let nearest = (bearing / step).round();
    let miss = (bearing - nearest * step).abs().to_radians() * radius;
    let index = nearest.rem_euclid(f64::from(divisions));
    [
        divisions.to_string(),
        format!("{index:.0}"),
        six(miss / unit),
    ]
}

fn six(value: f64) -> String {
    let mut text = String::new();
    number::push_fixed(&mut text, value, PLACES);
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, layout};
    use testkit::assert_near;
    use workshop::jig_sheet;

    fn table(board: &Board) -> Vec<Vec<String>> {
        let jig = jig_sheet(board, &layout(board).unwrap());
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
    fn every_hole_stands_in_its_step_at_its_place() {
        for units in [Units::Mm, Units::Inch] {
            let board = Board {
                units,
                rotation: 11.0,
                ..Board::default()
            };
            let rows = table(&board);
            assert_eq!(rows.len(), 134);
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

    /// 84 holes stand on every second hole of a plate of 168, and nowhere else.
    #[test]
    fn the_plate_that_misses_least_is_named_with_its_index() {
        let mut board = Board {
            home: 0,
            start: 0,
            ..Board::default()
        };
        board.jig.plates = vec![100, 168, 96];
        let rows = table(&board);
        for row in rows.iter().skip(1).filter(|row| row[1] != "C") {
            let bearing: f64 = row[3].parse().unwrap();
            assert_eq!(row[7], "168");
            assert_near!(
                row[8].parse::<f64>().unwrap(),
                bearing / 360.0 * 168.0,
                1e-3
            );
            assert_eq!(row[9], "0.000000");
        }
        let center = rows.iter().find(|row| row[1] == "C").unwrap();
        assert_eq!(center[7..], ["", "", ""]);
    }
}
