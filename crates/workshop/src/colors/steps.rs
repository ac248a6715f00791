//! The work of inlaying, painting, dyeing and staining, each in its place among the coats of finish.
//!
//! Colored resin has a file of its own.

use board::{BorePart, CoatKind, Medium};

use super::check::medium::fault;
use super::used::{Place, Used, used};
use super::words::in_words;
use crate::finish::steps::{AIR, SHELL};
use crate::finish::{Parts, coat_data, list, time, to_unmask};
use crate::job::{Operation, Task};
use crate::{Caution, Workpiece};

/// The media that are applied by brush or cloth, in working order.
const IN_ORDER: [Medium; 3] = [Medium::Dye, Medium::Stain, Medium::Paint];

/// The inlays, and an operation for each medium; empty for a board without colors.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let all = laid(workpiece);
    let mut coloring: Vec<Operation> = IN_ORDER
        .into_iter()
        .filter_map(|medium| coloring(workpiece, &all, medium))
        .collect();
    // Where no finish follows, plugs and tape come off with the last color.
    if let Some(last) = coloring
        .last_mut()
        .filter(|_| workpiece.board().finish.is_empty())
    {
        last.work.extend(to_unmask(workpiece, "color"));
    }
    let mut stained = 0;
    let numbered = coloring.into_iter().map(|mut operation| {
        if operation.task == Task::Stain {
            stained += 1;
            operation.number = stained;
        }
        operation
    });
    numbered
        .chain(inlays(workpiece, &all))
        .chain(super::resin::operation(workpiece))
        .collect()
}

/// Number of coats of finish on the wood before it is painted; none where the work plan paints nothing. Dye and stain go on
/// bare wood before every finish.
pub fn coats_under(workpiece: &Workpiece) -> u32 {
    let after = workpiece.board().colors.after;
    if after > 0
        && laid(workpiece)
            .iter()
            .any(|one| one.tint.medium == Medium::Paint)
    {
        after
    } else {
        0
    }
}

/// The kind of finish whose times and vapor apply to a medium; none for media that are not brushed or wiped on. Among paints it
/// is enamel, which dries slowest.
pub const fn kind_of(medium: Medium) -> Option<CoatKind> {
    match medium {
        Medium::Paint => Some(CoatKind::Enamel),
        Medium::Dye => Some(CoatKind::Dye),
        Medium::Stain => Some(CoatKind::Stain),
        Medium::Inlay | Medium::Resin => None,
    }
}

/// Every color applied in an operation of its own, which excludes colors in impossible places and those that a coat of the
/// finish brings.
pub fn laid(workpiece: &Workpiece) -> Vec<Used> {
    let board = workpiece.board();
    let is_coat = |one: &Used| {
        let mut layers = board.finish.iter();
        layers.any(|layer| {
            medium_of(layer.kind) == Some(one.tint.medium)
                && Parts::of(layer.place).has(part(one.place))
        })
    };
    let mut all = used(workpiece);
    all.retain(|one| fault(board, one.place, one.tint.medium).is_none() && !is_coat(one));
    all
}

/// The medium of a coat of finish; none for coats without color.
pub const fn medium_of(kind: CoatKind) -> Option<Medium> {
    match kind {
        CoatKind::Dye => Some(Medium::Dye),
        CoatKind::Stain => Some(Medium::Stain),
        CoatKind::PaintPen | CoatKind::Enamel | CoatKind::Acrylic => Some(Medium::Paint),
        _ => None,
    }
}

/// The parts of the board that a place belongs to, in terms of the coats of finish.
pub const fn part(place: Place) -> Parts {
    match place {
        Place::Bore(BorePart::Ring) => Parts::RINGS,
        Place::Bore(BorePart::Inside | BorePart::Filling) => Parts::BORES,
        Place::Groove => Parts::GROOVES,
        Place::Field => Parts::SECTORS,
        Place::Mark => Parts::MARKS,
    }
}

/// The operation of coloring with a medium; `None` if it is not used.
fn coloring(workpiece: &Workpiece, all: &[Used], medium: Medium) -> Option<Operation> {
    let data = coat_data(kind_of(medium)?);
    let with: Vec<&Used> = all.iter().filter(|one| one.tint.medium == medium).collect();
    if with.is_empty() {
        return None;
    }
    let mut cautions = Vec::new();
    cautions.extend(data.has_vapor.then_some(Caution::Solvents));
    cautions.extend(data.is_oily.then_some(Caution::OilyRags));
    let mut work: Vec<String> = data.has_vapor.then(|| AIR.to_owned()).into_iter().collect();
    work.push(place_in_order(workpiece, medium));
    work.push(masked(&with, medium).into());
    work.extend(
        in_words(workpiece, &with)
            .into_iter()
            .map(|parts| format!("{} {parts}.", verb(medium))),
    );
    work.push(laid_on(medium).into());
    work.push(format!(
        "Let it dry {}, or as long as its label says, before anything goes over it.",
        time(data.next)
    ));
    let task = match medium {
        Medium::Paint => Task::Paint,
        _ => Task::Stain,
    };
    let operation = Operation::of(task)
        .with(tool(&with, medium), minutes(&with))
        .minding(&cautions)
        .waiting(data.next, "the color dries");
    Some(operation.says(work))
}

/// A phrase that says which coats are on the wood by then.
fn place_in_order(workpiece: &Workpiece, medium: Medium) -> String {
    let board = workpiece.board();
    let planned = board.finish.iter().map(|layer| layer.coats).sum::<u32>();
    match (coats_under(workpiece).min(planned), medium) {
        (_, Medium::Dye | Medium::Stain) => "Dye and stain go on bare, sanded wood, before any finish.".into(),
        (0, _) => {
            "Paint on bare, sanded wood creeps along the grain: where that shows on the offcut, lay a thin coat of the finish first."
                .into()
        }
        (under, _) => format!(
            "Paint goes on after coat {under}: when that is dry, dull it lightly with grit 320 and take the dust off."
        ),
    }
}

/// Whether a color lies on the face, where tape or film can go around it.
pub const fn lies_flat(one: &Used) -> bool {
    matches!(
        one.place,
        Place::Bore(BorePart::Ring) | Place::Field | Place::Mark
    )
}

/// The sentence about masking what stays clean.
fn masked(with: &[&Used], medium: Medium) -> &'static str {
    let is_flat = with.iter().any(|one| lies_flat(one));
    match medium {
        Medium::Paint if is_flat => {
            "Mask around each part with low-tack tape or stencil film, press the edges down, and pull it off before the paint is hard."
        }
        Medium::Dye | Medium::Stain if is_flat => {
            "Tape does not stop what runs along the grain: cut around each part with a knife first, or seal the wood beside it with \
             dewaxed shellac."
        }
        _ => "Wipe off at once what gets on the wood beside it.",
    }
}

/// The tools of a medium; common practice, no source.
fn tool(with: &[&Used], medium: Medium) -> &'static str {
    match medium {
        Medium::Paint if with.iter().any(|one| lies_flat(one)) => {
            "fine brush or paint pen, low-tack tape, stencil film"
        }
        Medium::Paint => "fine brush or paint pen, rag",
        Medium::Dye => "small brush, lint-free rag, knife, gloves",
        _ => "small brush or rag, knife, gloves",
    }
}

/// A sentence on applying a medium.
const fn laid_on(medium: Medium) -> &'static str {
    match medium {
        Medium::Paint => {
            "Two thin coats cover better than a thick one, which runs and dries slowly."
        }
        Medium::Dye => {
            "Wet each part quickly from edge to edge, and wipe up what stands on the wood; a second pass darkens it."
        }
        _ => {
            "Brush or wipe it on, leave it a few minutes, and wipe off the excess along the grain before it gets tacky."
        }
    }
}

/// The verb for applying a medium, capitalized to start a sentence.
const fn verb(medium: Medium) -> &'static str {
    match medium {
        Medium::Paint => "Paint",
        Medium::Dye => "Dye",
        Medium::Stain => "Stain",
        Medium::Inlay | Medium::Resin => "Inlay",
    }
}

/// Hands-on minutes for coloring these parts: masking, plus a quarter of an hour to set up; common practice, no source.
fn minutes(with: &[&Used]) -> f64 {
    let one = |used: &&Used| match used.place {
        Place::Bore(_) => 1.5 * used.holes.len() as f64,
        Place::Groove => 10.0,
        Place::Field => 15.0,
        Place::Mark => 8.0,
    };
    15.0 + with.iter().map(one).sum::<f64>()
}

/// The operation of inlaying parts; none without inlays.
fn inlays(workpiece: &Workpiece, all: &[Used]) -> Option<Operation> {
    let inlaid: Vec<&Used> = all
        .iter()
        .filter(|one| one.tint.medium == Medium::Inlay)
        .collect();
    if inlaid.is_empty() {
        return None;
    }
    let mut names: Vec<&str> = inlaid.iter().map(|one| one.part).collect();
    names.dedup();
    let mut work = vec![format!(
        "Inlay {}: outside a groove, rout or carve the recess slightly shallower than the inlay is thick. Unplug the router \
         before you change bits.",
        list(&names)
    )];
    work.extend(
        in_words(workpiece, &inlaid)
            .into_iter()
            .map(|parts| format!("Inlay {parts}.")),
    );
    work.extend([
        "Glue it in, wax paper over it, and press it down with a flat block until the glue is dry."
            .into(),
        format!("Scrape it flush with the face. {SHELL}"),
    ]);
    let operation = Operation::of(Task::Inlay)
        .with(
            "small router bit or carving knife, glue, block and clamps, scraper",
            // Fitting takes far longer than painting does.
            4.0 * minutes(&inlaid),
        )
        .minding(&[Caution::Router])
        .waiting(24.0, "the glue dries");
    Some(operation.says(work))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Coat, CoatPlace, Colored, Grooves, Hue, MarksMade};

    fn of(board: &Board) -> Vec<Operation> {
        operations(&Workpiece::of(board).unwrap())
    }

    /// A board with grooves colored in this medium, and with painted marks.
    fn colored(medium: Medium) -> Board {
        let mut board = Board {
            grooves: Some(Grooves::default()),
            ..Board::default()
        };
        board.colors.grooves = Colored {
            hue: Hue::Player,
            medium,
        };
        board.colors.marks = Some(MarksMade::default());
        board
    }

    #[test]
    fn each_medium_is_an_operation_of_its_own() {
        assert!(of(&Board::default()).is_empty());
        let told = |medium| {
            let all = of(&colored(medium)).into_iter();
            all.map(|one| (one.task, one.number)).collect::<Vec<_>>()
        };
        assert_eq!(told(Medium::Paint), [(Task::Paint, 1)]);
        assert_eq!(told(Medium::Dye), [(Task::Stain, 1), (Task::Paint, 1)]);
        assert_eq!(told(Medium::Inlay), [(Task::Paint, 1), (Task::Inlay, 1)]);
        let stain = &of(&colored(Medium::Stain))[0];
        assert_eq!(stain.cautions, [Caution::OilyRags, Caution::Solvents]);
        // An ordinary fan can ignite flammable vapor; dye may be alcohol based.
        for medium in [Medium::Paint, Medium::Dye, Medium::Stain] {
            let colored = &of(&colored(medium))[0];
            assert!(colored.cautions.contains(&Caution::Solvents), "{medium:?}");
            assert!(colored.work[0].contains("no ordinary fan"), "{medium:?}");
        }
        assert!(
            stain
                .work
                .iter()
                .any(|line| line.starts_with("Stain grooves: player 1 orange"))
        );
    }

    #[test]
    fn coats_come_before_and_after_the_color() {
        let mut board = colored(Medium::Paint);
        board.finish = vec![Coat {
            coats: 3,
            ..Coat::default()
        }];
        board.colors.after = 1;
        let workpiece = Workpiece::of(&board).unwrap();
        let order = workpiece.work_plan().operations.iter();
        let order = order.map(|one| (one.task, one.number));
        let order: Vec<_> = order
            .filter(|(task, _)| [Task::Undercoat, Task::Paint, Task::Coat].contains(task))
            .collect();
        assert_eq!(
            order,
            [
                (Task::Undercoat, 1),
                (Task::Paint, 1),
                (Task::Coat, 2),
                (Task::Coat, 3)
            ]
        );
    }

    /// Marks are painted over the first coat, while stained grooves need bare wood.
    #[test]
    fn stain_comes_before_the_coats_under_paint() {
        let mut board = colored(Medium::Stain);
        board.finish = vec![Coat {
            coats: 2,
            ..Coat::default()
        }];
        board.colors.after = 1;
        let workpiece = Workpiece::of(&board).unwrap();
        let order: Vec<Task> = workpiece
            .work_plan()
            .operations
            .iter()
            .map(|it| it.task)
            .collect();
        let place = |task| order.iter().position(|it| *it == task).unwrap();
        assert!(place(Task::Stain) < place(Task::Undercoat));
        assert!(place(Task::Undercoat) < place(Task::Paint));
        assert!(place(Task::Paint) < place(Task::Coat));
        board.colors.marks = None;
        let stained = Workpiece::of(&board).unwrap();
        assert_eq!(coats_under(&stained), 0);
        assert!(stained.work_plan().of(Task::Undercoat).next().is_none());
    }

    #[test]
    fn color_that_a_coat_of_the_finish_brings_is_not_applied_twice() {
        let mut board = colored(Medium::Paint);
        board.colors.marks = None;
        board.colors.after = 1;
        board.finish = vec![
            Coat::default(),
            Coat {
                place: CoatPlace::Grooves,
                ..Coat::of(CoatKind::PaintPen, 4.0)
            },
        ];
        assert!(of(&board).is_empty());
        assert_eq!(coats_under(&Workpiece::of(&board).unwrap()), 0);
    }
}
