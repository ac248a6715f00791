//! The jig sheet as CSV: one row a hole, in the order of drilling.
//!
//! The same dialect as the hole table: RFC 4180, a header with the unit, six decimals.

use board::{INCH, Units};
use workshop::JigSheet;

use crate::csv::{PLACES, unwritten};
use crate::{Error, number};

/// The jig sheet as CSV, its lengths in the unit given.
///
/// Bearings are from player 1's axis. For each of the maker's plates there are two columns more: the division nearest the
/// hole's bearing, counted clockwise from player 1's axis, and what it misses by along the hole's circle. They are empty for
/// a hole at the center pin.
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
        .from_writer(Vec::with_capacity(160 * (jig.table.rows.len() + 1)));
    let mut header = vec![
        "step".to_owned(),
        "name".into(),
        format!("radius_{suffix}"),
        "bearing_deg".into(),
        format!("diameter_{suffix}"),
        "bottom".into(),
        format!("depth_{suffix}"),
    ];
    for plate in &jig.plates {
        let divisions = plate.divisions;
        header.push(format!("index_{divisions}"));
        header.push(format!("miss_{divisions}_{suffix}"));
    }
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

fn rows(jig: &JigSheet, unit: f64) -> Result<Vec<Vec<String>>, Error> {
    let mut places = vec![(0.0, 0.0); jig.table.rows.len()];
    for radius in &jig.radii {
        for &(row, bearing) in &radius.holes {
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
            if !sound.into_iter().all(f64::is_finite) {
                let name = hole.name.to_string();
                return Err(Error::Hole { name });
            }
            let mut row = vec![
                step.to_string(),
                hole.name.to_string(),
                six(radius / unit),
                six(bearing),
                six(hole.diameter / unit),
                hole.bottom.id().into(),
                six(hole.depth / unit),
            ];
            for plate in &jig.plates {
                row.extend(indexed(plate.divisions, radius, bearing, unit));
            }
            Ok(row)
        })
        .collect()
}

/// The division of a plate nearest a bearing, and what that misses by.
fn indexed(divisions: u32, radius: f64, bearing: f64, unit: f64) -> [String; 2] {
    if radius <= 0.0 {
        return Default::default();
    }
    let step = 360.0 / f64::from(divisions);
    let nearest = (bearing / step).round();
    let miss = (bearing - nearest * step).abs().to_radians() * radius;
    let index = nearest.rem_euclid(f64::from(divisions));
    [format!("{index:.0}"), six(miss / unit)]
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
    fn each_plate_has_its_index_and_miss_for_every_hole() {
        let mut board = Board {
            home: 0,
            start: 0,
            ..Board::default()
        };
        board.jig.plates = vec![100, 168];
        let rows = table(&board);
        assert_eq!(
            rows[0][7..],
            ["index_100", "miss_100_mm", "index_168", "miss_168_mm"]
        );
        let mut worst = 0.0_f64;
        for row in rows.iter().skip(1).filter(|row| row[1] != "C") {
            let [radius, bearing]: [f64; 2] =
                [2, 3].map(|column: usize| row[column].parse().unwrap());
            assert_near!(
                row[9].parse::<f64>().unwrap(),
                bearing / 360.0 * 168.0,
                1e-3
            );
            assert_eq!(row[10], "0.000000");
            let past = bearing.rem_euclid(3.6);
            let miss = past.min(3.6 - past).to_radians() * radius;
            assert_near!(row[8].parse::<f64>().unwrap(), miss, 2e-5);
            worst = worst.max(miss);
        }
        let jig = jig_sheet(&Workpiece::of(&board).unwrap());
        assert_near!(jig.plates[0].worst.0, worst, 2e-5);
        let center = rows.iter().find(|row| row[1] == "C").unwrap();
        assert_eq!(center[7..], ["", "", "", ""]);
    }
}
