//! The shopping list and the cut list on paper, with boxes to tick in the store and at the saw.
//!
//! One is in the order of a store's shelves, the other in the order of the work; both are for all boards at once, since one
//! trip to the lumberyard buys for all of them. The numbers come from the workpiece; this module only prints them.

use board::Units;
use workshop::{Shelf, SoldBy, ToBuy, Workpiece, boards_of};

use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, template_pages};

/// The shopping list of a board, shelf by shelf, and its cut list, on the paper of its template, for the number of boards in
/// the document.
///
/// ```
/// use drawing::{Stamp, lists_pages};
/// use workshop::Workpiece;
///
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// let sheets = lists_pages(&workpiece, &Stamp::default());
/// assert!(sheets[0].label.starts_with("shopping and cut list"));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn lists_pages(workpiece: &Workpiece, stamp: &Stamp) -> Vec<Sheet> {
    let head = Head::of(
        "Shopping and cut list",
        "shopping and cut list",
        workpiece,
        stamp,
    );
    let mut blocks = vec![Block::Words(for_boards(boards_of(workpiece.board())))];
    blocks.extend(to_buy(workpiece));
    blocks.extend(to_cut(workpiece));
    template_pages(workpiece.board(), &head, &blocks)
}

/// The sentence on the number of boards.
///
/// Amounts below it are for all of them at once.
fn for_boards(boards: u32) -> String {
    match boards {
        1 => "For 1 board.".into(),
        boards => format!("For {boards} boards."),
    }
}

/// The shopping list, one table for each shelf with lines.
///
/// The amounts used and left over are beside those bought, so that a maker with half a can sees whether it is enough.
fn to_buy(workpiece: &Workpiece) -> Vec<Block> {
    let lines = &workpiece.costing().lines;
    let mut blocks = Vec::new();
    for shelf in Shelf::ALL {
        let rows: Vec<Vec<Cell>> = lines
            .iter()
            .filter(|line| line.line.shelf == shelf)
            .map(|line| bought(&line.line, workpiece))
            .collect();
        if rows.is_empty() {
            continue;
        }
        blocks.push(Block::Heading(shelf.label().into()));
        let columns = [
            ("", Align::Start),
            ("Buy", Align::End),
            ("What", Align::Start),
            ("Used", Align::End),
            ("Left over", Align::End),
            ("For", Align::Start),
        ];
        blocks.push(Block::Table(Table {
            columns: Column::all(&columns),
            rows,
        }));
    }
    blocks
}

/// A line of the list: packs to buy, the amount used, and the amount left.
///
/// Amounts are in the unit in which the article is sold. If nothing is left over the field stays blank, so that leftovers stand
/// out.
fn bought(line: &ToBuy, workpiece: &Workpiece) -> Vec<Cell> {
    let units = workpiece.units();
    // A remainder under a thousandth of a cubic meter is just a shaving.
    let left = line.sold.shown(line.left(), units);
    let is_none = left == "0" || left.starts_with("0 ");
    let left = if is_none { String::new() } else { left };
    vec![
        Cell::Tick,
        line.to_buy(units).into(),
        line.name.clone().into(),
        used(line, units).into(),
        left.into(),
        line.note.clone().into(),
    ]
}

/// The amount used, or "a few drops" if it is too small to measure.
fn used(line: &ToBuy, units: Units) -> String {
    /// Amount below which nothing can be measured out, ml.
    const DROPS: f64 = 2.0;
    if line.sold == SoldBy::Volume && line.need < DROPS {
        return "a few drops".into();
    }
    line.sold.shown(line.need, units)
}

/// The cut list: every part with its rough and its finished size.
///
/// It comes with the caution about nominal thickness, since a part that is planed from wood thinner than its name is too thin.
fn to_cut(workpiece: &Workpiece) -> Vec<Block> {
    let units = workpiece.units();
    let row = |part: &workshop::CutPart| {
        let rough = part.rough.map(|size| size.shown_at_least(units));
        vec![
            Cell::Tick,
            part.count.to_string().into(),
            part.name.into(),
            rough.unwrap_or_default().into(),
            part.finished.shown(units).into(),
            part.grain.into(),
            part.from.words(units).into(),
        ]
    };
    let columns = [
        ("", Align::Start),
        ("No.", Align::End),
        ("Part", Align::Start),
        ("Rough", Align::Start),
        ("Finished", Align::Start),
        ("Grain", Align::Start),
        ("From", Align::Start),
    ];
    vec![
        Block::Heading("Cut list".into()),
        Block::Words(
            "Length along the grain, then width, then thickness. Rough sizes are the least. Measure the wood before you cut: what is \
             sold as one thickness is often thinner."
                .into(),
        ),
        Block::Table(Table {
            columns: Column::all(&columns),
            rows: workpiece.cut_list().iter().map(row).collect(),
        }),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Shape, Text};
    use board::{Board, Build, Filling, Paper};
    use workshop::shopping;

    fn words(sheets: &[Sheet]) -> Vec<&str> {
        let items = sheets.iter().flat_map(|sheet| &sheet.marks);
        let text = items.filter_map(|item| match &item.shape {
            Shape::Text(Text { words, .. }) => Some(words.as_str()),
            _ => None,
        });
        text.collect()
    }

    fn sheets(board: &Board) -> Vec<Sheet> {
        lists_pages(&Workpiece::of(board).unwrap(), &Stamp::default())
    }

    #[test]
    fn every_line_and_every_part_is_on_the_pages() {
        for units in [Units::Mm, Units::INCH] {
            let mut board = Board::begun(units);
            board.panel.build = Build::Strips { count: 3 };
            board.filling = Some(Filling::default());
            board.schedule.boards = 2;
            let sheets = sheets(&board);
            let told = words(&sheets).join(" ");
            let workpiece = Workpiece::of(&board).unwrap();
            for line in shopping(&workpiece, 2) {
                let first = line.name.split(' ').next().unwrap();
                assert!(told.contains(first), "{} in {told}", line.name);
                assert!(told.contains(&line.to_buy(units)), "{}", line.to_buy(units));
            }
            assert!(told.contains("For 2 boards.") && told.contains("strip"));
        }
    }

    #[test]
    fn nothing_leaves_the_page_on_any_paper() {
        for paper in [
            Paper::A4,
            Paper::Letter,
            Paper::Custom {
                width: 120.0,
                height: 180.0,
            },
        ] {
            let mut board = Board::default();
            board.template.paper = paper;
            for sheet in sheets(&board) {
                let room = sheet.size.to_rect().inset(-board.template.margin + 0.1);
                for item in &sheet.marks {
                    assert!(room.contains_rect(item.shape.bounds()), "{:?}", item.shape);
                }
            }
        }
    }
}
