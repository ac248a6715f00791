//! The filling plan: the batches of resin, when each is mixed, and the bores it goes into.
//!
//! Resin sets while it is poured, so a batch is only as large as can be poured in its working time: the table says when each is
//! mixed, and the plan which bores it goes into. The numbers come from the workpiece's `pour`; this module only prints them.

mod plan;

use board::{Board, Measure, show_length, show_number};
use workshop::{
    Batch, Caution, GrooveResin, Pour, Workpiece, groove_resin, paper_size, parts_shown,
};

use crate::cautions::cautions;
use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, pages};

/// The plan of a filling on the paper of the board's template: a page of batches and sectors, and then each board with the
/// number of the batch in every bore; empty if no filling is planned.
///
/// Amounts are in the unit that the filling is measured in, by volume or by weight; times count from the first batch of a board.
///
/// ```
/// use board::{Board, Filling};
/// use drawing::{Stamp, filling_pages};
/// use workshop::Workpiece;
///
/// let mut board = Board::default();
/// assert!(filling_pages(&Workpiece::of(&board)?, &Stamp::default()).is_empty());
/// board.filling = Some(Filling::default());
/// board.schedule.boards = 2;
/// let sheets = filling_pages(&Workpiece::of(&board)?, &Stamp::default());
/// // At least a page of batches, and a plan for each of the two boards.
/// assert!(sheets.len() >= 3);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn filling_pages(workpiece: &Workpiece, stamp: &Stamp) -> Vec<Sheet> {
    let Some(pour) = workpiece.pour() else {
        return Vec::new();
    };
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let head = Head::of("Filling plan", "filling plan", workpiece, stamp);
    let says = Says {
        board,
        pour,
        stop: head.stop.clone(),
    };
    let mut blocks = vec![says.amounts()];
    blocks.extend(groove_resin(workpiece).map(|resin| says.grooves(resin)));
    blocks.extend(cautions(&[Caution::Resin]));
    blocks.extend([
        Block::Heading("Batches".into()),
        Block::Words(says.clock()),
        Block::Table(says.batches()),
        Block::Heading("What each sector takes".into()),
        Block::Table(says.sectors()),
    ]);
    let (paper, margin) = (paper_size(board.template.paper), board.template.margin);
    let mut sheets = pages(paper, margin, &head, &blocks);
    sheets.extend((1..=pour.boards).map(|number| says.plan(layout, paper, number)));
    sheets
}

/// Builds the text of a filling plan.
struct Says<'a> {
    /// The board, for its units and its mix.
    board: &'a Board,
    /// The resin poured into it.
    pour: &'a Pour,
    /// The line about what stops the board; `None` if nothing does.
    stop: Option<String>,
}

impl Says<'_> {
    /// The resin mixed in total, and the resin leveled off: by volume, by weight, and as parts of resin and hardener. The loss
    /// in cups is included; the domes are listed separately.
    fn amounts(&self) -> Block {
        let Pour {
            bores,
            boards,
            resin,
            ..
        } = self.pour;
        let each = match (bores.len(), boards) {
            (1, 1) => "1 hole takes".into(),
            (bores, 1) => format!("{bores} holes take"),
            (1, boards) => format!("{boards} boards with 1 hole each take"),
            (bores, boards) => format!("{boards} boards with {bores} holes each take"),
        };
        let weight = self
            .board
            .filling
            .map_or(0.0, |filling| resin * filling.mix.density);
        let mut words = format!(
            "{each} {} in all, {}: {} of resin and hardener.",
            self.ml(*resin),
            Measure::grams(weight).shown(self.board.units),
            self.parts(*resin)
        );
        if self.pour.overfill_height > 0.0 {
            let height = show_length(self.pour.overfill_height, self.board.units);
            let more = format!(
                "The crowns stand {height} above the top; {} are leveled off once the resin is fully cured.",
                self.ml(self.pour.overfill)
            );
            words.push_str(&more);
        }
        Block::Words(words)
    }

    /// The resin for colored grooves, which is mixed separately.
    fn grooves(&self, resin: GrooveResin) -> Block {
        let cups = match resin.cups {
            1 => "1 cup".into(),
            cups => format!("{cups} cups"),
        };
        Block::Words(format!(
            "Colored grooves take {} more on each board, mixed by themselves in {cups}, one or more for each color: {}.",
            self.ml(resin.mixed),
            self.parts(resin.mixed)
        ))
    }

    /// An amount in its parts, as text.
    fn parts(&self, amount: f64) -> String {
        let mix = self.board.filling.map(|filling| filling.mix);
        mix.map_or_else(String::new, |mix| {
            parts_shown(&mix, amount, self.board.units)
        })
    }

    /// An amount of resin in the maker's unit, as text.
    fn ml(&self, ml: f64) -> String {
        Measure::milliliters(ml).shown(self.board.units)
    }

    /// The sentences on the start of the clock, and on the working time of a batch.
    fn clock(&self) -> String {
        let each = match self.pour.boards {
            1 => "the first batch",
            _ => "the first batch of the same board",
        };
        let clock = format!(
            "Minutes count from the moment the parts of {each} meet; each batch can be worked for {} from its own start, \
             mixing included. Keep a little of each batch to see that it sets.",
            Measure::minutes(self.pour.working).shown(self.board.units)
        );
        let ordered = self.board.schedule.boards;
        if ordered <= self.pour.boards {
            return clock;
        }
        format!(
            "{clock} Of the {ordered} boards ordered this plan is for {}, as many as have a place to cure.",
            self.pour.boards
        )
    }

    /// One row per batch: the bores it goes into, what to measure out, and when it must be mixed and poured. The boxes are to
    /// tick, since two batches look alike.
    fn batches(&self) -> Table {
        let row = |(batch, number): (&Batch, u32)| {
            vec![
                Cell::Tick,
                Cell::Words(number.to_string()),
                Cell::Words(batch.bores.to_string()),
                Cell::Words(self.pour.first_and_last(batch)),
                Cell::Words(self.parts(batch.ml)),
                Cell::Words(show_number(batch.begins, 1)),
                Cell::Words(show_number(batch.begins + batch.minutes, 1)),
            ]
        };
        Table {
            columns: Column::all(&[
                ("", Align::Start),
                ("No.", Align::End),
                ("Holes", Align::End),
                ("First and last", Align::Start),
                ("Resin + hardener", Align::Start),
                ("Mix at, min", Align::End),
                ("Poured by, min", Align::End),
            ]),
            rows: self.pour.batches.iter().zip(1..).map(row).collect(),
        }
    }

    /// One row per sector: the resin for its bores, and the batches it comes from.
    fn sectors(&self) -> Table {
        let rows = self.pour.sectors().into_iter().map(|sector| {
            let (first, last) = sector.batches;
            let batches = if first == last {
                first.to_string()
            } else {
                format!("{first} to {last}")
            };
            let player = sector
                .player
                .map_or_else(|| "center".into(), |player| player.to_string());
            let cells = [
                sector.board.to_string(),
                player,
                sector.bores.to_string(),
                self.ml(sector.ml),
                batches,
            ];
            cells.map(Cell::Words).to_vec()
        });
        Table {
            columns: Column::all(&[
                ("Board", Align::End),
                ("Sector", Align::End),
                ("Holes", Align::End),
                ("Resin", Align::End),
                ("Batches", Align::Start),
            ]),
            rows: rows.collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Layer, Shape};
    use board::{Filling, Paper};
    use kurbo::Circle;

    fn sheets(filling: Filling, boards: u32, paper: Option<Paper>) -> Vec<Sheet> {
        let mut board = Board {
            filling: Some(filling),
            ..Board::default()
        };
        board.schedule.boards = boards;
        if let Some(paper) = paper {
            board.template.paper = paper;
        }
        filling_pages(&Workpiece::of(&board).unwrap(), &Stamp::default())
    }

    fn words(sheet: &Sheet) -> Vec<&str> {
        let texts = sheet.marks.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text.words.as_str()),
            _ => None,
        });
        texts.collect()
    }

    #[test]
    fn every_filled_bore_carries_the_number_of_its_batch() {
        let sheets = sheets(Filling::default(), 2, None);
        assert_eq!(sheets.len(), 3);
        let numbered = |sheet: &Sheet, number: &str| {
            words(sheet).iter().filter(|word| **word == number).count()
        };
        // A batch of 30 ml fills 38 bores of the default board, which has 145: 38, 38, 38, and 31 of the fourth batch.
        assert_eq!(numbered(&sheets[1], "1"), 38 + 1);
        assert_eq!(numbered(&sheets[1], "4"), 31 + 1);
        // The fourth batch ends with the first board; the second begins with the fifth.
        assert_eq!(numbered(&sheets[2], "4"), 1);
        assert_eq!(numbered(&sheets[2], "5"), 38 + 1);
        assert_eq!(numbered(&sheets[2], "8"), 31);
    }

    #[test]
    fn the_page_of_batches_says_what_to_measure_out_and_when() {
        let sheets = sheets(Filling::default(), 1, None);
        let said = words(&sheets[0]).join("|");
        for part in [
            "T1-01 to",
            " + ",
            "Mix at, min",
            "Poured by, min",
            "What each sector takes",
        ] {
            assert!(said.contains(part), "{part} in {said}");
        }
    }

    #[test]
    fn numbers_stay_within_their_bores_and_everything_within_the_page() {
        let tiny = Paper::Custom {
            width: 100.0,
            height: 140.0,
        };
        for sheet in sheets(
            Filling {
                batch: 6.0,
                ..Filling::default()
            },
            1,
            Some(tiny),
        ) {
            let page = sheet.size.to_rect();
            let circles: Vec<Circle> = sheet
                .marks
                .iter()
                .filter_map(|item| match item.shape {
                    Shape::Circle(circle) if item.layer != Layer::Edge => Some(circle),
                    _ => None,
                })
                .collect();
            for item in &sheet.marks {
                assert!(page.contains_rect(item.shape.bounds()), "{item:?}");
                let Shape::Text(text) = &item.shape else {
                    continue;
                };
                let middle = text.bounds().center();
                let holding = circles
                    .iter()
                    .find(|circle| circle.center.distance(middle) < 0.3 * circle.radius);
                if let Some(circle) = holding {
                    assert!(text.bounds().width() <= 2.0 * circle.radius, "{text:?}");
                }
            }
        }
    }
}
