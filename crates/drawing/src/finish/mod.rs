//! The finish plan on paper: the section through the film, the work in order with its times, amounts, and how coats hold on
//! each other.
//!
//! Waits, amounts and assessments come from module `finish` of crate `workshop`; this module only prints them. The label of the
//! can overrules all of them, and the page says so.

mod film;

use board::{Board, Units, several};
use kurbo::{Point, Size, Vec2};
use workshop::{
    FinishNeed, Meeting, Operation, Rule, Severity, Task, Workpiece, coat_data, drying_time,
    finish_hours, finish_needs, finish_volume, hard_after, last_to_harden, meetings, paper_size,
};

use crate::cautions::cautions;
use crate::stopped::{SIZE as STOP, stop_item, stop_line};
use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, pages};

pub use film::film_figure;

/// The section through the film as a sheet of a width for the window, mm; none where no coats are planned.
///
/// ```
/// use board::{Board, Coat};
/// use drawing::film_sheet;
/// use workshop::Workpiece;
/// assert!(film_sheet(&Workpiece::of(&Board::default())?, 200.0).is_none());
/// let board = Board { finish: vec![Coat::default()], ..Board::default() };
/// assert!(film_sheet(&Workpiece::of(&board)?, 200.0).is_some());
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn film_sheet(workpiece: &Workpiece, width: f64) -> Option<Sheet> {
    /// Border around the drawing, mm.
    const BORDER: f64 = 8.0;
    let figure = film_figure(workpiece, width - 2.0 * BORDER)?;
    let stop = stop_line(workpiece);
    let above = stop.as_ref().map_or(0.0, |_| 2.0 * STOP);
    // No wider than its content, so that a window can show it as large as possible.
    let width = match stop {
        Some(_) => width,
        None => width.min(figure.size.width + 2.0 * BORDER),
    };
    let size = Size::new(width, figure.size.height + 2.0 * BORDER + above);
    let corner = Vec2::new(BORDER, BORDER);
    let items = figure.items.into_iter().map(|item| item.moved(corner));
    let mut marks: Vec<_> = items.collect();
    let at = Point::new(BORDER, size.height - BORDER - STOP / 2.0);
    marks.extend(stop.map(|line| stop_item(&line, at, width - 2.0 * BORDER)));
    Some(Sheet::of_marks(
        size,
        "section through the film".into(),
        marks,
    ))
}

/// The finish plan of a board on the paper of its template; empty where no coats are planned.
///
/// ```
/// use board::{Board, Coat};
/// use drawing::{Stamp, finish_pages};
/// use workshop::Workpiece;
/// let board = Board { finish: vec![Coat::default(); 2], ..Board::default() };
/// assert!(!finish_pages(&Workpiece::of(&board)?, &Stamp::default()).is_empty());
/// assert!(finish_pages(&Workpiece::of(&Board::default())?, &Stamp::default()).is_empty());
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn finish_pages(workpiece: &Workpiece, stamp: &Stamp) -> Vec<Sheet> {
    let board = workpiece.board();
    if board.finish.is_empty() {
        return Vec::new();
    }
    let head = Head::of("Finish plan", "finish plan", workpiece, stamp);
    let (paper, margin) = (paper_size(board.template.paper), board.template.margin);
    let mut blocks = vec![Block::Words(in_short(board))];
    blocks.extend(minded(workpiece));
    blocks.extend(found(workpiece));
    blocks.push(Block::Heading("Section through the film".into()));
    let thick = match board.units {
        Units::Mm => "hundredths of a millimeter",
        Units::Inch(_) => "thousandths of an inch",
    };
    blocks.push(Block::Words(format!(
        "Not to scale: a film is a few {thick} thick. The strip at the left has a line for each coat. Thickness is from memory; the \
         label may say."
    )));
    blocks.extend(film_figure(workpiece, paper.width - 2.0 * margin).map(Block::Figure));
    for task in [
        Task::Trial,
        Task::Sand,
        Task::Mask,
        Task::Stain,
        Task::Undercoat,
        Task::Paint,
        Task::Coat,
        Task::Harden,
    ] {
        blocks.extend(step(workpiece, task));
    }
    blocks.push(Block::Heading(amounts_title(board.schedule.boards)));
    blocks.push(Block::Table(amounts(workpiece)));
    blocks.push(Block::Words(
        "Areas leave out the holes. Coverage is from memory; amounts add a tenth for brush, rag and can."
            .into(),
    ));
    blocks.push(Block::Heading("Which coat bonds to which".into()));
    blocks.push(Block::Table(bonds(board)));
    pages(paper, margin, &head, &blocks)
}

/// The plan in one sentence.
///
/// It gives the number of coats, the time from the first to the last, and the coat that hardens last.
fn in_short(board: &Board) -> String {
    let coats: u32 = board.finish.iter().map(|coat| coat.coats).sum();
    let hard = last_to_harden(board).map_or(String::new(), |coat| {
        format!("{}, {}", coat.kind.label(), hard_after(coat.kind))
    });
    format!(
        "{}, {} from the first to the last. Last to cure: {hard}. Labels come before this plan; make a test board first.",
        several(coats, "coat"),
        drying_time(finish_hours(board))
    )
}

/// The cautions for the whole finish.
///
/// They are those of the trial on a test piece, which comes first and involves every one of the materials.
fn minded(workpiece: &Workpiece) -> Vec<Block> {
    let trial = workpiece.work_plan().of(Task::Trial).next();
    let all = trial.map_or(&[][..], |trial| &trial.cautions);
    if all.is_empty() {
        return Vec::new();
    }
    cautions(all)
}

/// The findings about the coats except notes, which only the window shows.
///
/// A maker who has only the page still sees that a coat will not hold.
fn found(workpiece: &Workpiece) -> Vec<Block> {
    let told = workpiece
        .findings()
        .iter()
        .filter(|finding| finding.rule == Rule::Finish && finding.severity != Severity::Note);
    told.map(|finding| Block::Caution(format!("{}: {}", finding.severity.label(), finding.message)))
        .collect()
}

/// A task of the work plan, with boxes to tick; empty where the plan does not have it.
///
/// The tools of coats are left out: each coat names its own.
fn step(workpiece: &Workpiece, task: Task) -> Vec<Block> {
    let plan = workpiece.work_plan();
    let operations: Vec<&Operation> = plan.of(task).collect();
    let Some(first) = operations.first() else {
        return Vec::new();
    };
    let mut blocks = vec![Block::Heading(first.task.title().into())];
    if !first.tool.is_empty() && !matches!(task, Task::Undercoat | Task::Coat) {
        blocks.push(Block::Words(format!("Tools: {}.", first.tool)));
    }
    let work = operations.iter().flat_map(|operation| &operation.work);
    blocks.push(Block::Ticked(work.cloned().collect()));
    blocks
}

/// "Amounts", or the same for a number of boards.
fn amounts_title(boards: u32) -> String {
    match boards {
        1 => "Amounts".into(),
        boards => format!("Amounts for {boards} boards"),
    }
}

/// One row per kind: coats, area, coverage, amount, thinner.
///
/// Areas and amounts are for all boards of the order and all coats, so that one follows from the other. The last column is the
/// solvent that thins it.
fn amounts(workpiece: &Workpiece) -> Table {
    let board = workpiece.board();
    let row = |need: FinishNeed| {
        let data = coat_data(need.kind);
        let coverage = match board.units {
            Units::Mm => format!("{} m²/l", data.coverage),
            Units::Inch(_) => format!("{:.0} sq ft/qt", data.square_feet_a_quart()),
        };
        let cells = [
            need.kind.label().to_owned(),
            need.coats.to_string(),
            area(need.area * f64::from(board.schedule.boards), board.units),
            coverage,
            finish_volume(need.ml, board.units),
            data.solvent.to_owned(),
        ];
        cells.map(Cell::Words).to_vec()
    };
    let needs = finish_needs(workpiece, board.schedule.boards);
    Table {
        columns: Column::all(&[
            ("Finish", Align::Start),
            ("Coats", Align::End),
            ("Area, all coats", Align::End),
            ("Covers", Align::End),
            ("Needed", Align::End),
            ("Thinned with", Align::Start),
        ]),
        rows: needs.into_iter().map(row).collect(),
    }
}

/// An area given in m², in the maker's system.
///
/// Square meters have two decimals and square feet one, which is about the same resolution.
fn area(square_meters: f64, units: Units) -> String {
    /// Square feet in a square meter.
    const SQUARE_FEET: f64 = 10.763_910_4;
    match units {
        Units::Mm => format!("{square_meters:.2} m²"),
        Units::Inch(_) => format!("{:.1} sq ft", square_meters * SQUARE_FEET),
    }
}

/// A row for every two coats that meet, with the assessment, its reason and its source.
///
/// The time is the least wait between the two; it is left out where no wait makes them hold.
fn bonds(board: &Board) -> Table {
    let name = |at: usize| {
        let kind = board.finish.get(at).map_or("", |coat| coat.kind.label());
        format!("{}. {kind}", at + 1)
    };
    let row = |met: Meeting| {
        let wait = if met.bond.hours > 0.0 && !met.fails() {
            drying_time(met.bond.hours)
        } else {
            String::new()
        };
        let cells = [
            name(met.over),
            name(met.under),
            met.bond.sort.label().to_owned(),
            wait,
            format!("{} ({})", met.bond.why, met.bond.source),
        ];
        cells.map(Cell::Words).to_vec()
    };
    Table {
        columns: Column::all(&[
            ("Coat", Align::Start),
            ("On", Align::Start),
            ("Judged", Align::Start),
            ("At least", Align::End),
            ("Why", Align::Start),
        ]),
        rows: meetings(&board.finish).into_iter().map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Shape;
    use board::{Coat, CoatKind, Paper, PieceKind};

    fn said(board: &Board) -> String {
        let sheets = finish_pages(&Workpiece::of(board).unwrap(), &Stamp::default());
        let marks = sheets.iter().flat_map(|sheet| &sheet.marks);
        let texts = marks.filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text.words.as_str()),
            _ => None,
        });
        texts.collect::<Vec<_>>().join(" ")
    }

    fn planned() -> Board {
        let mut board = Board {
            finish: vec![
                Coat::of(CoatKind::DewaxedShellac, 2.0),
                Coat {
                    coats: 3,
                    ..Coat::of(CoatKind::OilPolyurethane, 24.0)
                },
            ],
            ..Board::default()
        };
        board.piece.kind = PieceKind::Peg;
        board.schedule.boards = 2;
        board
    }

    #[test]
    fn the_page_has_the_whole_plan() {
        let said = said(&planned());
        for part in [
            "Finish plan",
            "4 coats",
            "Section through the film",
            "Test board of the finish",
            "120, 150, 180",
            "Plug the peg holes",
            "Coat 4: oil-based polyurethane",
            "grit 320",
            "Amounts for 2 boards",
            "mineral spirits",
            "Which coat bonds to which",
            "bonds after sanding",
            "trade pages on finishes",
            "Rags with drying oil",
            "respirator",
        ] {
            assert!(said.contains(part), "{part} in {said}");
        }
    }

    /// Area and amount are of all coats and all boards, so that one divided by the coverage is the other.
    #[test]
    fn area_and_amount_are_for_the_same_boards() {
        let board = planned();
        let workpiece = Workpiece::of(&board).unwrap();
        let table = amounts(&workpiece);
        let need = finish_needs(&workpiece, 2)[1];
        assert_eq!(need.coats, 3);
        assert_eq!(table.columns[2].title, "Area, all coats");
        assert_eq!(
            table.rows[1][2],
            Cell::Words(area(2.0 * need.area, board.units))
        );
    }

    #[test]
    fn stops_of_the_finish_come_first() {
        let mut board = planned();
        board.finish = vec![
            Coat::of(CoatKind::Wax, 1.0),
            Coat::of(CoatKind::Lacquer, 0.5),
        ];
        let said = said(&board);
        assert!(
            said.contains("stop: Lacquer (layer 2) will not stick to wax"),
            "{said}"
        );
    }

    #[test]
    fn nothing_leaves_a_small_page() {
        let mut board = planned();
        board.template.paper = Paper::Custom {
            width: 120.0,
            height: 160.0,
        };
        for sheet in finish_pages(&Workpiece::of(&board).unwrap(), &Stamp::default()) {
            let page = sheet.size.to_rect();
            for item in &sheet.marks {
                assert!(page.contains_rect(item.shape.bounds()), "{item:?}");
            }
        }
    }
}
