//! The job sheet: all of the work in order, with cautions and boxes to tick, and at the end the shop math of its steps.
//!
//! Operations come from the work plan of crate `workshop`, in its order and with its reasons; each has the headings of the sums
//! that belong to it. A stage of the work is kept on one page where it fits. The first page shows the board, the players with
//! their colors, and the open findings, since a board that is stopped should not be cut by its sheet.

mod front;
mod steps;

use kurbo::Rect;
use workshop::{Workpiece, paper_size};

use crate::pages::beginning;
use crate::{Block, Head, Sheet, Stamp, looks, pages};

/// The job sheet of a board on the paper of its template: the board and its open findings, then every operation in order, stage
/// by stage, with cautions and boxes to tick, and finally the shop math of all steps.
///
/// The first page reserves a square for a picture of the board, see [`job_picture`].
///
/// ```
/// use board::Board;
/// use drawing::{Stamp, job_pages};
/// use workshop::Workpiece;
///
/// let sheets = job_pages(&Workpiece::of(&Board::default())?, &Stamp::default());
/// assert!(!sheets.is_empty() && sheets[0].label.starts_with("job sheet"));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn job_pages(workpiece: &Workpiece, stamp: &Stamp) -> Vec<Sheet> {
    let template = workpiece.board().template;
    let head = head(workpiece, stamp);
    let paper = paper_size(template.paper);
    let is_pictured = job_picture(workpiece, stamp).is_some();
    let width = paper.width - 2.0 * template.margin;
    let mut blocks = front::front(workpiece, width, is_pictured);
    blocks.extend(stages(workpiece));
    pages(paper, template.margin, &head, &blocks)
}

fn head(workpiece: &Workpiece, stamp: &Stamp) -> Head {
    Head::of("Job sheet", "job sheet", workpiece, stamp)
}

/// A square on the first page of the job sheet that is reserved for a picture of the board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PictureRoom {
    /// The square, mm from the lower left corner of the paper.
    pub area: Rect,
    /// The share of its side that stays free around the board, for the numbers of the players.
    pub inset: f64,
}

/// The place on the first page of the job sheet that is reserved for a picture of the board; none on paper so small that the
/// board is drawn on a page of its own.
///
/// ```
/// use board::Board;
/// use drawing::{Stamp, job_picture};
/// use workshop::Workpiece;
///
/// let room = job_picture(&Workpiece::of(&Board::default())?, &Stamp::default()).unwrap();
/// assert_eq!((room.area.width(), room.area.height()), (66.0, 66.0));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn job_picture(workpiece: &Workpiece, stamp: &Stamp) -> Option<PictureRoom> {
    let template = workpiece.board().template;
    let paper = paper_size(template.paper);
    let side = front::side(paper.width - 2.0 * template.margin);
    let (corner, below) = beginning(paper, template.margin, &head(workpiece, stamp));
    (side <= below).then(|| PictureRoom {
        area: Rect::new(corner.x, corner.y - side, corner.x + side, corner.y),
        inset: looks::AROUND / side,
    })
}

/// The stages of the work, each kept on one page where it fits.
///
/// A caution is printed in full in the stage where it first applies, and by name from there on. The shop math of all steps
/// comes last.
fn stages(workpiece: &Workpiece) -> Vec<Block> {
    let plan = workpiece.work_plan();
    let mut sheet = steps::Steps::new(workpiece, plan);
    let told = |(stage, operations): &(_, &[_])| {
        let mut blocks = vec![Block::Stage(workshop::WorkStage::label(*stage).into())];
        blocks.extend(sheet.of_stage(operations));
        Block::Kept(blocks)
    };
    let mut blocks: Vec<Block> = plan.stages().iter().map(told).collect();
    let figures = sheet.figures();
    if !figures.is_empty() {
        blocks.push(Block::Stage("Figures for the steps".into()));
        blocks.extend(figures);
    }
    blocks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Shape;
    use board::{Board, Filling, Wood};
    use workshop::Severity;

    fn words(sheets: &[Sheet]) -> String {
        let marks = sheets.iter().flat_map(|sheet| &sheet.marks);
        let texts = marks.filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text.words.as_str()),
            _ => None,
        });
        texts.collect::<Vec<_>>().join(" ")
    }

    fn said(board: &Board) -> String {
        words(&job_pages(
            &Workpiece::of(board).unwrap(),
            &Stamp::default(),
        ))
    }

    #[test]
    fn steps_are_numbered_with_their_cautions_and_shop_math() {
        let board = Board {
            wood: Some(Wood::default()),
            filling: Some(Filling::default()),
            ..Board::default()
        };
        let said = said(&board);
        for part in [
            "1. Resting the wood",
            "10. Cutting the circle",
            "Resin",
            "Hand-over",
            "sheets of A4",
            "working time in the shop",
            "Drill press: Clamp the work.",
        ] {
            assert!(said.contains(part), "{part} in {said}");
        }
        assert!(!said.contains("batch begins"));
        let plain = Workpiece::of(&Board::default()).unwrap();
        let sound = plain
            .findings()
            .iter()
            .all(|found| found.severity == Severity::Note);
        assert_eq!(
            sound,
            self::said(plain.board()).contains("No problems found")
        );
    }

    /// In an order of several boards every time says whether it is for one board or for all, and amounts are for one.
    #[test]
    fn times_and_amounts_of_an_order_say_how_many_boards_they_are_for() {
        let mut board = Board {
            filling: Some(Filling::default()),
            finish: vec![board::Coat::default()],
            ..Board::default()
        };
        let one = said(&board);
        assert!(!one.contains("for one board") && !one.contains("for each board"));
        board.schedule.boards = 3;
        let said = said(&board);
        // Cutting the circle takes 20 minutes to set up and 20 for each board; the wood rests once.
        for part in [
            "hands-on for one board, ",
            "Pieces and amounts in the steps are for one board, and the order is for 3",
            "Hands-on: 20 minutes, once for all 3 boards.",
            "Hands-on: 40 minutes for one board, 80 minutes for all 3.",
            "for each board in 4 batches by the filling plan",
            "ml for each board. Open windows",
        ] {
            assert!(said.contains(part), "{part} in {said}");
        }
    }

    #[test]
    fn findings_come_before_the_steps() {
        let board = Board {
            pitch: 11.0,
            ..Board::default()
        };
        let workpiece = Workpiece::of(&board).unwrap();
        let found = |severity: Severity| {
            let all = workpiece.findings().iter();
            let found = all.filter(move |finding| finding.severity == severity);
            found.map(|finding| finding.message.clone()).next().unwrap()
        };
        let said = said(&board);
        assert!(said.contains("stop: wood between holes") && said.contains(&found(Severity::Stop)));
        assert!(!said.contains("No problems found"));
    }

    /// Bores of one diameter and two depths: their sums say which holes they are about.
    #[test]
    fn sums_of_one_diameter_are_distinguished_by_role() {
        let mut board = Board::default();
        board.bores.start.depth = 8.0;
        let said = said(&board);
        assert!(said.contains("depth of the bore, 12 mm (start)"), "{said}");
        assert!(said.contains("(track, home"), "{said}");
    }

    /// The steps are those of the work plan, one for one and in its order.
    #[test]
    fn steps_are_in_the_order_of_the_plan() {
        for method in board::DrillingMethod::ALL {
            let board = Board {
                method,
                filling: Some(Filling::default()),
                ..Board::default()
            };
            let workpiece = Workpiece::of(&board).unwrap();
            let said = said(&board);
            let mut tasks: Vec<_> = workpiece
                .work_plan()
                .operations
                .iter()
                .map(|it| it.task)
                .collect();
            tasks.dedup();
            let mut last = 0;
            for (task, number) in tasks.iter().zip(1..) {
                let heading = format!("{number}. {}", task.title());
                let place = said
                    .find(&heading)
                    .unwrap_or_else(|| panic!("{heading} in {said}"));
                assert!(place > last, "{heading}");
                last = place;
            }
        }
    }

    /// Steps are set in 11 pt, and nothing on the sheet is smaller than 6 pt; a point is 1/72 in.
    #[test]
    fn steps_are_large_enough_to_read_at_arms_length() {
        let sheets = job_pages(
            &Workpiece::of(&Board::default()).unwrap(),
            &Stamp::default(),
        );
        let marks = sheets.iter().flat_map(|sheet| &sheet.marks);
        let texts: Vec<_> = marks
            .filter_map(|item| match &item.shape {
                Shape::Text(text) => Some(text),
                _ => None,
            })
            .collect();
        let points = |size: f64| size / 25.4 * 72.0;
        assert!(texts.iter().all(|text| points(text.size) >= 6.0));
        let step = texts
            .iter()
            .find(|text| text.words.starts_with("Clamp the board"))
            .unwrap();
        assert!(points(step.size) >= 11.0 - 1e-9, "{}", points(step.size));
    }

    /// A step that fits on one page is on one page: its number and its last box.
    #[test]
    fn a_step_that_fits_on_a_page_is_not_split() {
        let board = Board {
            wood: Some(Wood::default()),
            filling: Some(Filling::default()),
            ..Board::default()
        };
        let workpiece = Workpiece::of(&board).unwrap();
        let sheets = job_pages(&workpiece, &Stamp::default());
        let page_of = |words: &str| {
            let has = |sheet: &Sheet| self::words(core::slice::from_ref(sheet)).contains(words);
            sheets
                .iter()
                .position(has)
                .unwrap_or_else(|| panic!("{words}"))
        };
        let mut number = 0;
        for step in workpiece
            .work_plan()
            .operations
            .chunk_by(|one, next| one.task == next.task)
        {
            number += 1;
            let last = step.iter().flat_map(|it| &it.work).next_back().unwrap();
            let end: String = last
                .split_whitespace()
                .take(4)
                .collect::<Vec<_>>()
                .join(" ");
            let heading = format!("{number}. {}", step[0].task.title());
            assert_eq!(page_of(&heading), page_of(&end), "{heading}: {end}");
        }
    }

    #[test]
    fn the_first_page_says_who_has_which_color() {
        let said = said(&Board::default());
        assert!(
            said.contains("1 orange, dot") || said.contains("1  orange, dot"),
            "{said}"
        );
    }
}
