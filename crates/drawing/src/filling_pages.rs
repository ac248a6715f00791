//! The filling plan: what is mixed and when, and which bores each batch goes into.

use board::{Board, Hole, Layout, show_length, show_number};
use geometry::point_at;
use kurbo::{Circle, Line as Segment, Point, Size, Vec2};
use workshop::{Batch, Caution, FIRST, Measure, Pour, parts_shown};

use crate::font::{self, Weight};
use crate::plan::layer;
use crate::{
    Align, Anchor, Block, Cell, Column, Head, Item, Layer, Line, Shape, Sheet, Stamp, Table, Text,
    View, pages, paper_size,
};

/// Room above the board on the page of a plan, mm.
const HEAD: f64 = 18.0;
/// Room around it for the numbers of the sectors, mm.
const AROUND: f64 = 7.0;
/// Size of the title.
const TITLE: f64 = 5.0;
/// Size of plain words.
const WORDS: f64 = 3.0;
/// Where the line between two sectors begins, as a share of the radius: it keeps out of the numbers.
const BORDER: f64 = 0.86;
/// Largest size of a number in a bore.
const NUMBER: f64 = 3.2;

/// The plan of a filling on the paper of the board's template: a page of batches and sectors, and then each board with
/// the number of its batch in every bore; nothing where no filling is planned.
pub fn filling_pages(board: &Board, layout: &Layout, pour: &Pour, stamp: &Stamp) -> Vec<Sheet> {
    let head = Head {
        title: "Filling plan".into(),
        subtitle: format!("{}  {}", board.title, stamp.date),
        label: "filling plan".into(),
    };
    let says = Says { board, pour };
    let blocks = [
        says.amounts(),
        Block::Caution(format!("{} {FIRST}", Caution::Resin.words())),
        Block::Heading("Batches".into()),
        Block::Words(says.clock()),
        Block::Table(says.batches()),
        Block::Heading("What each sector takes".into()),
        Block::Table(says.sectors()),
    ];
    let (paper, margin) = (paper_size(board.template.paper), board.template.margin);
    let mut sheets = pages(paper, margin, &head, &blocks);
    sheets.extend((1..=pour.boards).map(|number| says.plan(layout, paper, number)));
    sheets
}

struct Says<'a> {
    board: &'a Board,
    pour: &'a Pour,
}

impl Says<'_> {
    /// What is mixed in all, and what is taken off again.
    fn amounts(&self) -> Block {
        let Pour {
            bores,
            boards,
            resin,
            ..
        } = self.pour;
        let each = match boards {
            1 => format!("{} bores", bores.len()),
            boards => format!("{boards} boards with {} bores each", bores.len()),
        };
        let weight = self
            .board
            .filling
            .map_or(0.0, |filling| resin * filling.mix.density);
        let mut words = format!(
            "{each} take {} in all, {}: {} of resin and hardener.",
            ml(*resin),
            Measure::Grams(weight).shown(self.board.units),
            self.parts(*resin)
        );
        if self.pour.overfill_height > 0.0 {
            let height = show_length(self.pour.overfill_height, self.board.units);
            let more = format!(
                " The domes stand {height} above the top; {} are levelled off once the resin is fully cured.",
                ml(self.pour.overfill)
            );
            words.push_str(&more);
        }
        Block::Words(words)
    }

    /// An amount as it is measured out.
    fn parts(&self, amount: f64) -> String {
        let mix = self.board.filling.map(|filling| filling.mix);
        mix.map_or_else(String::new, |mix| parts_shown(&mix, amount))
    }

    fn clock(&self) -> String {
        format!(
            "Minutes run from when the parts of the first batch come together; a batch can be worked for {} from its own \
             beginning, mixing included. Keep a scrap with each batch to see that it sets.",
            Measure::Minutes(self.pour.working).shown(self.board.units)
        )
    }

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
                ("Bores", Align::End),
                ("First and last", Align::Start),
                ("Resin + hardener", Align::Start),
                ("Mix at, min", Align::End),
                ("Poured by, min", Align::End),
            ]),
            rows: self.pour.batches.iter().zip(1..).map(row).collect(),
        }
    }

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
                ml(sector.ml),
                batches,
            ];
            cells.map(Cell::Words).to_vec()
        });
        Table {
            columns: Column::all(&[
                ("Board", Align::End),
                ("Sector", Align::End),
                ("Bores", Align::End),
                ("Resin", Align::End),
                ("Batches", Align::Start),
            ]),
            rows: rows.collect(),
        }
    }

    /// A board as large as the page has room for, the number of its batch in each bore.
    fn plan(&self, layout: &Layout, paper: Size, number: u32) -> Sheet {
        let margin = self.board.template.margin;
        let room = (paper.width.min(paper.height - HEAD) / 2.0 - margin - AROUND).max(1.0);
        let page = Page {
            scale: room / self.board.blank.radius(),
            middle: Point::new(paper.width / 2.0, (paper.height - HEAD) / 2.0),
        };
        let mut marks = self.title(paper, number);
        marks.extend(page.frame(self.board, layout));
        let batches = self.numbers(number);
        for hole in &layout.holes {
            let id = hole.name.id();
            let found = batches.binary_search_by_key(&id, |batch| batch.0);
            let batch = found
                .ok()
                .and_then(|at| batches.get(at))
                .map(|batch| batch.1);
            marks.extend(page.bore(hole, batch));
        }
        Sheet {
            size: paper,
            label: format!("filling plan, board {number}"),
            view: View {
                window: paper.to_rect(),
                page_from_board: Vec2::ZERO,
                items: Vec::new(),
            },
            marks,
            correction: None,
        }
    }

    fn title(&self, paper: Size, number: u32) -> Vec<Item> {
        let margin = self.board.template.margin;
        let room = paper.width - 2.0 * margin;
        let of = match self.pour.boards {
            1 => String::new(),
            boards => format!(", board {number} of {boards}"),
        };
        let line = |down: f64, size, weight, words: &str| {
            words_at(Text {
                weight,
                ..Text::level(
                    Point::new(margin, paper.height - margin - down),
                    size,
                    Anchor::Start,
                    font::cut(words, size, weight, room),
                )
            })
        };
        let title = format!("Filling plan{of}: {}", self.board.title);
        let about = "Each bore carries the number of its batch, each sector that of its player; not to scale for drilling.";
        vec![
            line(TITLE, TITLE, Weight::SemiBold, &title),
            line(TITLE + 1.6 * WORDS, WORDS, Weight::Regular, about),
        ]
    }

    /// The batch of each bore of a board, in the order of the hole table.
    fn numbers(&self, board: u32) -> Vec<(board::HoleId, u32)> {
        let batches = self.pour.batches.iter().zip(1..);
        let all = batches.flat_map(|(batch, number)| {
            self.pour
                .bores_of(batch)
                .map(move |(of, bore)| (of, bore.name.id(), number))
        });
        let mut numbers: Vec<_> = all
            .filter(|(of, ..)| *of == board)
            .map(|(_, id, number)| (id, number))
            .collect();
        numbers.sort_unstable();
        numbers
    }
}

/// Where the board lies on a page.
struct Page {
    scale: f64,
    middle: Point,
}

impl Page {
    fn at(&self, point: Point) -> Point {
        self.middle + point.to_vec2() * self.scale
    }

    /// Edge, borders between sectors, and the numbers of the sectors.
    fn frame(&self, board: &Board, layout: &Layout) -> Vec<Item> {
        let radius = board.blank.radius();
        let mut items = vec![Item {
            layer: Layer::Edge,
            line: Line::Cut,
            shape: Shape::Circle(Circle::new(self.middle, radius * self.scale)),
        }];
        let half = geometry::Angle::degrees(180.0 / f64::from(board.players));
        for (sector, number) in layout.sectors.iter().zip(1..) {
            let border = |share: f64| self.at(point_at(share * radius, sector.axis() + half));
            items.push(Item {
                layer: Layer::Guides,
                line: Line::Guide,
                shape: Shape::Line(Segment::new(border(BORDER), border(1.0))),
            });
            let outside = radius + AROUND / 2.0 / self.scale;
            let at = self.at(point_at(outside, sector.axis()));
            items.push(words_at(Text {
                weight: Weight::SemiBold,
                ..centered(at, WORDS, number)
            }));
        }
        items
    }

    /// A bore, and the number of its batch if it is filled.
    fn bore(&self, hole: &Hole, batch: Option<u32>) -> Vec<Item> {
        let (at, radius) = (self.at(hole.center), hole.bore.radius() * self.scale);
        let circle = Item {
            layer: layer(hole.name.id().role()),
            line: Line::Drill,
            shape: Shape::Circle(Circle::new(at, radius)),
        };
        let number = batch.map(|batch| {
            let wide = font::width(&batch.to_string(), 1.0, Weight::Regular);
            // Its box keeps within the circle.
            let diagonal = Vec2::new(wide, font::FIGURE_HEIGHT).hypot();
            words_at(centered(at, NUMBER.min(1.8 * radius / diagonal), batch))
        });
        std::iter::once(circle).chain(number).collect()
    }
}

/// A number with its middle at a point.
fn centered(at: Point, size: f64, number: u32) -> Text {
    let down = font::FIGURE_HEIGHT * size / 2.0;
    Text::level(at - (0.0, down), size, Anchor::Middle, number.to_string())
}

const fn words_at(text: Text) -> Item {
    Item {
        layer: Layer::Marks,
        line: Line::Dimension,
        shape: Shape::Text(text),
    }
}

fn ml(ml: f64) -> String {
    show_number(ml, 1) + " ml"
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Filling, Paper, layout};
    use workshop::pour;

    fn sheets(filling: Filling, paper: Option<Paper>) -> Vec<Sheet> {
        let mut board = Board {
            filling: Some(filling),
            ..Board::default()
        };
        if let Some(paper) = paper {
            board.template.paper = paper;
        }
        let layout = layout(&board).unwrap();
        let pour = pour(&board, &layout).unwrap();
        filling_pages(&board, &layout, &pour, &Stamp::default())
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
        let sheets = sheets(
            Filling {
                boards: 2,
                ..Filling::default()
            },
            None,
        );
        assert_eq!(sheets.len(), 3);
        let numbered = |sheet: &Sheet, number: &str| {
            words(sheet).iter().filter(|word| **word == number).count()
        };
        // 38 bores of the default board to a batch of 30 ml, 133 bores a board: 38, 38, 38 and 19 of the fourth.
        assert_eq!(numbered(&sheets[1], "1"), 38 + 1);
        assert_eq!(numbered(&sheets[1], "4"), 19 + 1);
        assert_eq!(numbered(&sheets[2], "4"), 19 + 1);
        assert_eq!(numbered(&sheets[2], "7"), 38);
    }

    #[test]
    fn the_page_of_batches_tells_what_is_measured_out_and_when() {
        let sheets = sheets(Filling::default(), None);
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
    fn numbers_stay_within_their_bores_and_all_within_the_page() {
        let tiny = Paper::Custom {
            width: 100.0,
            height: 140.0,
        };
        for sheet in sheets(
            Filling {
                batch: 6.0,
                ..Filling::default()
            },
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
