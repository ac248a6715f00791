//! The shopping list and the cut list as CSV, for a spreadsheet.
//!
//! RFC 4180, like all tables. Amounts are bare numbers in the unit that a column names; lengths are in mm or inches, like the
//! board's.

use board::Units;
use workshop::{CutPart, PartOutline, PartSize, PricedLine};

use crate::Error;
use crate::table::{self, Table};

/// The columns of the shopping list.
const TO_BUY: [&str; 10] = [
    "shelf", "article", "name", "need", "unit", "pack", "packs", "left", "owned", "note",
];

/// The columns of the cut list; `UNIT` is replaced by the unit of the lengths.
const TO_CUT: &str = "count,part,rough_length_UNIT,rough_width_UNIT,rough_thickness_UNIT,diameter_UNIT,length_UNIT,width_UNIT,thickness_UNIT,grain,from";

/// The shopping list as CSV: a row for each article to buy, with the amount used, the amount in a pack, and how many packs are
/// bought.
///
/// ```
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// let text = String::from_utf8(export::shopping_csv(&workpiece.costing().lines)?)?;
/// assert!(text.starts_with("shelf,article,name,need,unit,pack,packs,left,owned,note\r\n"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
///
/// [`Error::Figure`] with the line whose number no file can hold.
pub fn shopping_csv(list: &[PricedLine]) -> Result<Vec<u8>, Error> {
    let mut written = Table::new(120 * (list.len() + 1));
    written.row(TO_BUY)?;
    for PricedLine { line, .. } in list {
        let (parts, of) = line.bought();
        let six = |value| table::figure(&line.name, value);
        written.row([
            line.shelf.label(),
            &line.article,
            &line.name,
            &six(line.need)?,
            line.sold.unit(),
            &six(line.pack)?,
            &six(parts as f64 / of as f64)?,
            &six(line.left())?,
            if line.owned { "yes" } else { "no" },
            &line.note,
        ])?;
    }
    written.finish()
}

/// The cut list as CSV, with lengths in the given unit: a row for each kind of part, with its rough and its finished size. A
/// round part has a diameter and no length and width.
///
/// # Errors
///
/// [`Error::Figure`] with the line whose number no file can hold.
pub fn cut_list_csv(list: &[CutPart], units: Units) -> Result<Vec<u8>, Error> {
    let (suffix, unit) = table::unit(units);
    let mut written = Table::new(160 * (list.len() + 1));
    written.row(TO_CUT.replace("UNIT", suffix).split(','))?;
    for part in list {
        let length = |mm: f64| table::figure(part.name, mm / unit);
        let rough = part.rough.map(PartSize::block);
        let rough = rough.map_or([None; 3], |block| block.map(Some));
        let rough = rough.map(|mm| mm.map_or(Ok(String::new()), length));
        let [rough_length, rough_width, rough_thick] = rough;
        let (across, long, wide) = match part.finished.outline {
            PartOutline::Round(diameter) => (length(diameter)?, String::new(), String::new()),
            PartOutline::Straight(long, wide) => (String::new(), length(long)?, length(wide)?),
        };
        written.row([
            &part.count.to_string(),
            part.name,
            &rough_length?,
            &rough_width?,
            &rough_thick?,
            &across,
            &long,
            &wide,
            &length(part.finished.thickness)?,
            part.grain,
            &part.from.words(units),
        ])?;
    }
    written.finish()
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Build};
    use testkit::assert_near;
    use workshop::{Workpiece, cut_list};

    fn rows(bytes: &[u8]) -> Vec<Vec<String>> {
        let mut reader = ::csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(bytes);
        let records = reader.records();
        records
            .map(|record| record.unwrap().iter().map(Into::into).collect())
            .collect()
    }

    #[test]
    fn the_shopping_list_reads_back_and_packs_cover_the_need() {
        let mut board = Board::default();
        board.schedule.boards = 3;
        let workpiece = Workpiece::of(&board).unwrap();
        let list = &workpiece.costing().lines;
        let read = rows(&shopping_csv(list).unwrap());
        assert_eq!(read[0], TO_BUY);
        assert_eq!(read.len(), list.len() + 1);
        for (row, PricedLine { line, .. }) in read.iter().skip(1).zip(list) {
            let number = |column: usize| row[column].parse::<f64>().unwrap();
            assert_eq!(row[1], line.article);
            assert_near!(number(3), line.need, 1e-6);
            assert_near!(number(5) * number(6) - number(3), number(7), 1e-5);
            assert!(number(5) * number(6) >= number(3) - 1e-6);
        }
    }

    #[test]
    fn the_cut_list_reads_back_in_either_unit() {
        for (units, inch) in [(Units::Mm, 1.0), (Units::INCH, 25.4)] {
            let mut board = Board {
                units,
                ..Board::default()
            };
            board.panel.build = Build::Strips { count: 3 };
            let list = cut_list(&Workpiece::of(&board).unwrap(), 2);
            let read = rows(&cut_list_csv(&list, units).unwrap());
            let number =
                |row: usize, column: usize| read[row][column].parse::<f64>().unwrap() * inch;
            assert!(read[0][2].ends_with(if inch > 1.0 { "_in" } else { "_mm" }));
            assert_eq!(read[1][..2], ["6", "strip"]);
            // 640 mm and 5 mm of trim on each side in three strips, with 1.5 mm removed by the jointer from each edge.
            assert_near!(number(1, 2), 650.0, 1e-4);
            assert_near!(number(1, 3), 650.0 / 3.0 + 3.0, 1e-4);
            assert_near!(number(1, 7), 650.0 / 3.0, 1e-4);
            assert_near!(number(2, 5), 640.0, 1e-4);
            assert_eq!(read[2][6], "");
        }
    }

    /// The first cells of the rows below a heading of the documentation page, each name separately.
    fn named(heading: &str) -> Vec<&'static str> {
        let page = include_str!("../../../docs/formats/lists.md");
        let below = page.split(heading).nth(1).unwrap();
        let rows = below.split("\n#").next().unwrap().lines();
        let first = rows.filter_map(|row| row.strip_prefix("| `")?.split('|').next());
        first
            .flat_map(|cell| cell.split(','))
            .map(|name| name.trim().trim_matches('`'))
            .collect()
    }

    #[test]
    fn the_page_of_the_format_has_every_column_and_no_others() {
        assert_eq!(named("## shopping.csv"), TO_BUY);
        let to_cut = TO_CUT.replace("_UNIT", "");
        let to_cut: Vec<&str> = to_cut.split(',').collect();
        assert_eq!(named("## cut-list.csv"), to_cut);
    }
}
