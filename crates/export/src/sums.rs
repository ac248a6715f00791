//! The sums of the bench as a table and as JSON: each figure with its unit, formula and source.

use serde::Serialize;
use workshop::SumGroup;

use crate::Error;
use crate::csv::unwritten;

/// The columns of the table.
const HEADER: [&str; 10] = [
    "group", "name", "at", "at_unit", "value", "unit", "words", "formula", "source", "holes",
];

/// The sums as CSV: RFC 4180, a row a figure. A value that never comes to be is empty.
///
/// # Errors
///
/// Where the table cannot be put into lines.
pub fn sums_csv(groups: &[SumGroup]) -> Result<Vec<u8>, Error> {
    let mut writer = ::csv::WriterBuilder::new()
        .terminator(::csv::Terminator::CRLF)
        .from_writer(Vec::new());
    writer
        .write_record(HEADER)
        .map_err(|error| unwritten(&error))?;
    for group in groups {
        for sum in &group.sums {
            let number = |measure: Option<workshop::Measure>| {
                measure.map_or_else(String::new, |measure| measure.number().to_string())
            };
            let unit =
                |measure: Option<workshop::Measure>| measure.map_or("", |measure| measure.unit());
            let holes: Vec<String> = sum.holes.iter().map(ToString::to_string).collect();
            writer
                .write_record([
                    group.heading,
                    sum.name,
                    &number(sum.at),
                    unit(sum.at),
                    &number(sum.value),
                    unit(sum.value),
                    sum.words.as_deref().unwrap_or_default(),
                    sum.formula,
                    sum.source,
                    &holes.join(" "),
                ])
                .map_err(|error| unwritten(&error))?;
        }
    }
    writer
        .into_inner()
        .map_err(|error| unwritten(error.error()))
}

/// The sums as JSON: `format` 1, and `groups` as the program has them.
///
/// # Errors
///
/// A figure that is not a number.
pub fn sums_json(groups: &[SumGroup]) -> Result<Vec<u8>, Error> {
    #[derive(Serialize)]
    struct Sums<'a> {
        format: u32,
        groups: &'a [SumGroup],
    }
    serde_json::to_vec_pretty(&Sums { format: 1, groups }).map_err(|error| unwritten(&error))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Wood};
    use workshop::Workpiece;

    #[test]
    fn table_and_json_have_every_figure_with_its_formula() {
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
}
