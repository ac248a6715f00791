//! The shop math as a table and as JSON: each sum with its unit, formula and source.

use serde::Serialize;
use workshop::SumGroup;

use crate::table::{Table, unwritten};
use crate::{Error, number};

/// The columns of the table.
const HEADER: [&str; 10] = [
    "group", "name", "at", "at_unit", "value", "unit", "words", "formula", "source", "holes",
];

/// The sums as CSV, one row per sum: its group and name, the position or size it applies to, its value and unit, its value in
/// words, the formula, the source of the formula or its numbers, and the holes it is about.
///
/// Values are in the units of the document, millimeters and grams, whatever units the board is shown in. A value that does not
/// exist, such as the tilt at which a magnet never lets go, is empty.
///
/// ```
/// use board::Board;
///
/// let workpiece = workshop::Workpiece::of(&Board::default())?;
/// let text = String::from_utf8(export::sums_csv(workpiece.sums())?)?;
/// assert!(text.starts_with("group,name,at,at_unit,value,unit,words,formula,source,holes\r\n"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
///
/// [`Error::Figure`] with the sum whose value is not a number.
pub fn sums_csv(groups: &[SumGroup]) -> Result<Vec<u8>, Error> {
    let mut written = Table::new(0);
    written.row(HEADER)?;
    for group in groups {
        for sum in &group.sums {
            let number = |measure: Option<board::Measure>| {
                measure.map_or(Ok(String::new()), |it| number::exact(sum.name, it.value))
            };
            let unit =
                |measure: Option<board::Measure>| measure.map_or("", |measure| measure.unit());
            let holes: Vec<String> = sum.holes.iter().map(ToString::to_string).collect();
            written.row([
                group.heading,
                sum.name,
                &number(sum.at)?,
                unit(sum.at),
                &number(sum.value)?,
                unit(sum.value),
                sum.words.as_deref().unwrap_or_default(),
                sum.formula,
                sum.source,
                &holes.join(" "),
            ])?;
        }
    }
    written.finish()
}

/// The sums as JSON, for programs: `format` 1, and `groups` as in the program, each with a heading and its `sums`, whose
/// members are the columns of [`sums_csv`].
///
/// # Errors
///
/// [`Error::Figure`] with the sum whose value is not a number.
pub fn sums_json(groups: &[SumGroup]) -> Result<Vec<u8>, Error> {
    #[derive(Serialize)]
    struct Sums<'a> {
        format: u32,
        groups: &'a [SumGroup],
    }
    for sum in groups.iter().flat_map(|group| &group.sums) {
        for measure in [sum.at, sum.value].into_iter().flatten() {
            number::sound(sum.name, measure.value)?;
        }
    }
    serde_json::to_vec_pretty(&Sums { format: 1, groups }).map_err(|error| unwritten(&error))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Wood};
    use workshop::Workpiece;

    #[test]
    fn table_and_json_have_every_sum_with_its_formula() {
        let board = Board {
            wood: Some(Wood::default()),
            ..Board::default()
        };
        let sums = Workpiece::of(&board).unwrap().sums().to_vec();
        let figures: usize = sums.iter().map(|group| group.sums.len()).sum();
        assert!(figures > 5);
        let table = sums_csv(&sums).unwrap();
        let mut reader = ::csv::Reader::from_reader(&*table);
        assert_eq!(reader.headers().unwrap(), &HEADER[..]);
        let rows: Vec<_> = reader.records().map(Result::unwrap).collect();
        assert_eq!(rows.len(), figures);
        assert!(
            rows.iter()
                .all(|row| !row[7].is_empty() && !row[8].is_empty())
        );
        let json: serde_json::Value = serde_json::from_slice(&sums_json(&sums).unwrap()).unwrap();
        assert_eq!(json["groups"].as_array().unwrap().len(), sums.len());
    }

    #[test]
    fn a_value_that_is_not_a_number_is_rejected_by_name() {
        let mut sums = Workpiece::of(&Board::default()).unwrap().sums().to_vec();
        for value in [f64::NAN, f64::INFINITY, 1e300] {
            sums[0].sums[0].value = Some(board::Measure::grams(value));
            let name = sums[0].sums[0].name;
            for error in [sums_csv(&sums).unwrap_err(), sums_json(&sums).unwrap_err()] {
                assert!(error.to_string().starts_with(name), "{error}");
            }
        }
    }
}
