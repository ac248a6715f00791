//! On random boards, every operation comes after those it needs, each operation that the document implies is there once, and
//! none belongs to another method.

use std::collections::BTreeSet;

use board::{Board, BorePart, Build, Center, Medium, PieceKind};
use proptest::prelude::*;

use super::made::boards;
use crate::job::needs::NEEDS;
use crate::{Method, Parts, Task, Workpiece};

/// The tasks that a document implies, derived independently of the modules: a list of parts and cases.
fn implied(workpiece: &Workpiece) -> BTreeSet<Task> {
    let board = workpiece.board();
    let method = Method::of(board);
    let conditions = [
        by_wood(board).to_vec(),
        by_method(board, method).to_vec(),
        by_bench(workpiece, method).to_vec(),
        by_color(workpiece).to_vec(),
    ];
    let all = conditions.into_iter().flatten();
    all.filter_map(|(task, there)| there.then_some(task))
        .collect()
}

fn by_wood(board: &Board) -> [(Task, bool); 8] {
    let build = &board.panel.build;
    let seams =
        matches!(build, Build::Halves) || matches!(build, Build::Strips { count } if *count > 1);
    [
        (Task::Rest, true),
        (Task::Resaw, *build == Build::Halves),
        (Task::Rough, !matches!(build, Build::Seams { .. })),
        (Task::Joint, seams),
        (Task::Mortise, seams && board.panel.tenons.is_some()),
        (Task::Glue, seams),
        (Task::Flatten, true),
        (Task::Thickness, true),
    ]
}

fn by_method(board: &Board, method: Method) -> [(Task, bool); 20] {
    let machine = board.machine.as_ref().filter(|_| method == Method::Machine);
    let edge = machine.is_some_and(|machine| machine.edge.is_some());
    let milled = machine.is_some_and(|machine| machine.groove.is_some());
    let rim = board
        .grooves
        .is_some_and(|grooves| grooves.rim.or(grooves.middle).is_some());
    let turns = !edge || (rim && !milled);
    let center = board.drilled_center();
    let lines = board.grooves.is_some_and(|grooves| {
        let mut bare = grooves;
        (bare.rim, bare.middle) = (None, None);
        (bare.track, bare.home) != (false, false)
            || bare
                .around_home
                .or(bare.around_start)
                .or(bare.sectors_from)
                .is_some()
            || bare.rings.is_some()
    });
    let drilled = match center {
        Center::Nothing => false,
        Center::Pivot { .. } => true,
        Center::Hole { .. } => turns,
    };
    let paper = [Method::Template, Method::Router, Method::SectorJig].contains(&method);
    [
        (Task::Print, paper),
        (Task::RouterTemplate, method == Method::Router),
        (Task::SectorJig, method == Method::SectorJig),
        (Task::Punch, method == Method::Template),
        (Task::PinHole, drilled),
        (Task::PinBlock, center == Center::Nothing && turns),
        (Task::PunchedBores, method == Method::Template),
        (Task::RoutedBores, method == Method::Router),
        (Task::SectorBores, method == Method::SectorJig),
        (Task::PivotBores, method == Method::Pivot),
        (Task::MachinedBores, method == Method::Machine),
        (Task::MachinedEdge, edge),
        (Task::Free, edge),
        (Task::Corners, !edge),
        (Task::Circle, !edge),
        (Task::MachinedGrooves, milled && board.grooves.is_some()),
        (Task::PinRings, rim && !milled),
        (Task::Grooves, lines && !milled),
        (Task::CenterBore, matches!(center, Center::Hole { .. })),
        (Task::Ease, true),
    ]
}

fn by_bench(workpiece: &Workpiece, _: Method) -> [(Task, bool); 14] {
    let board = workpiece.board();
    let pour = workpiece.pour();
    let filled = pour.is_some_and(|pour| !pour.bores.is_empty());
    let crown = pour.is_some_and(|pour| pour.overfill > 0.0);
    let open = [
        "oak", "ash", "walnut", "elm", "hickory", "locust", "mahogany",
    ];
    let more = [
        "butternut",
        "hackberry",
        "persimmon",
        "sassafras",
        "teak",
        "southern-yellow-pine",
    ];
    let wood = board.wood.as_ref().map_or("", |wood| wood.species.as_str());
    let porous = open.iter().any(|name| wood.ends_with(name)) || more.contains(&wood);
    let coats = !board.finish.is_empty();
    let laid = [Medium::Paint, Medium::Dye, Medium::Stain];
    let colored = media(workpiece).iter().any(|it| laid.contains(it));
    let lid = workpiece.lid().size.is_some();
    let goes = |place| {
        let mut layers = board.finish.iter();
        layers.any(|coat| Parts::of(coat.place).has(place))
    };
    let minds = |base: board::Base| match base.footing {
        board::Footing::Round { .. } => true,
        board::Footing::Feet { .. } => {
            base.hold != board::BaseHold::Loose || board.screws.is_empty()
        }
    };
    let below = board.base.is_some_and(minds) || lid;
    let fits = match board.piece.kind {
        PieceKind::Peg => true,
        PieceKind::Magnet => board
            .piece
            .magnet
            .is_some_and(|magnet| magnet.finish <= 0.0),
        PieceKind::Marble => false,
    };
    let bare = (below && goes(Parts::UNDERSIDE)) || (fits && goes(Parts::BORES));
    let plugged = runs_in(workpiece) && !(fits && goes(Parts::BORES));
    [
        (Task::Inserts, board.piece.kind == PieceKind::Magnet),
        (Task::Seal, filled && porous),
        (Task::Fill, filled),
        (Task::Level, filled && crown),
        (Task::Roundover, board.blank.roundover > 0.0),
        (Task::Recess, board.recess.is_some()),
        (Task::Lid, lid),
        (Task::ScrewHoles, !board.screws.is_empty()),
        (Task::Sand, true),
        (Task::Trial, coats || colored),
        (Task::Mask, bare || plugged),
        (Task::Harden, coats),
        (Task::Base, board.base.is_some()),
        (Task::HandOver, true),
    ]
}

/// Whether color or a film runs into holes that are open: not into those with balls, discs or resin up to the top.
fn runs_in(workpiece: &Workpiece) -> bool {
    let board = workpiece.board();
    let filled = workpiece.pour().is_some_and(|pour| !pour.bores.is_empty());
    let is_full = filled
        && board
            .filling
            .is_some_and(|filling| filling.below_top <= 0.0);
    let near = [Parts::TOP, Parts::RINGS, Parts::SECTORS];
    let laid = [Medium::Paint, Medium::Dye, Medium::Stain];
    let colors = parts(workpiece);
    let colors = colors
        .iter()
        .any(|(medium, part)| laid.contains(medium) && near.contains(part));
    let films = board.finish.iter().any(|coat| {
        use board::CoatKind::{Acrylic, Enamel, PaintPen};
        let data = crate::coat_data(coat.kind);
        let colors = [PaintPen, Enamel, Acrylic].contains(&coat.kind);
        (data.film >= 0.02 || colors) && near.iter().any(|part| Parts::of(coat.place).has(*part))
    });
    board.piece.kind != PieceKind::Magnet && !is_full && (colors || films)
}

/// The media of everything colored: holes one by one, grooves one by one, fields and marks. Left out are impossible places of a
/// medium, and places where a coat of the finish has the same color.
fn media(workpiece: &Workpiece) -> Vec<Medium> {
    let all = parts(workpiece).into_iter();
    all.map(|(medium, _)| medium).collect()
}

/// Each of them with its part of the board.
fn parts(workpiece: &Workpiece) -> Vec<(Medium, Parts)> {
    use board::CoatKind::{Acrylic, Dye, Enamel, PaintPen, Stain};
    let board = workpiece.board();
    let layered = |medium, part| {
        let mut layers = board.finish.iter();
        layers.any(|layer| {
            let is_it = match medium {
                Medium::Paint => [PaintPen, Enamel, Acrylic].contains(&layer.kind),
                Medium::Dye => layer.kind == Dye,
                Medium::Stain => layer.kind == Stain,
                Medium::Inlay | Medium::Resin => false,
            };
            is_it && Parts::of(layer.place).has(part)
        })
    };
    let mut all = Vec::new();
    for hole in &workpiece.layout().holes {
        match workpiece
            .color_of(hole.name.id())
            .map(|it| (it.on, it.tint.medium))
        {
            Some((BorePart::Ring, medium)) => all.push((medium, Parts::RINGS)),
            Some((BorePart::Inside, medium))
                if medium != Medium::Inlay && board.filling.is_none() =>
            {
                all.push((medium, Parts::BORES));
            }
            _ => {}
        }
    }
    for groove in workpiece.grooves().iter().flat_map(|plan| &plan.grooves) {
        let tint = workpiece.groove_color(groove.kind, groove.player);
        all.extend(tint.map(|tint| (tint.medium, Parts::GROOVES)));
    }
    all.extend(
        workpiece
            .sector_color(1)
            .map(|tint| (tint.medium, Parts::SECTORS)),
    );
    all.extend(board.colors.marks.map(|made| (made.medium, Parts::MARKS)));
    all.retain(|(medium, part)| !layered(*medium, *part));
    all
}

/// Whether a groove that the bit can cut is colored by resin, on a board with resin for it.
fn groove_resin(workpiece: &Workpiece) -> bool {
    let mut grooves = workpiece
        .grooves()
        .into_iter()
        .flat_map(|plan| &plan.grooves);
    let is_resin = |groove: &crate::Groove| {
        let tint = workpiece.groove_color(groove.kind, groove.player);
        tint.is_some_and(|tint| tint.medium == Medium::Resin)
    };
    let is_cut = workpiece.grooves().is_some_and(|plan| plan.depth > 0.0);
    workpiece.board().filling.is_some() && is_cut && grooves.any(is_resin)
}

fn by_color(workpiece: &Workpiece) -> [(Task, bool); 6] {
    let board = workpiece.board();
    let media = media(workpiece);
    let stains = |medium: &Medium| [Medium::Dye, Medium::Stain].contains(medium);
    let paints = media.contains(&Medium::Paint);
    let coats: u32 = board.finish.iter().map(|coat| coat.coats).sum();
    let under = if paints { board.colors.after } else { 0 };
    [
        (Task::Inlay, media.contains(&Medium::Inlay)),
        (Task::GrooveFill, groove_resin(workpiece)),
        (Task::Stain, media.iter().any(stains)),
        (Task::Paint, paints),
        (Task::Undercoat, under > 0 && coats > 0),
        (Task::Coat, coats > under),
    ]
}

/// How often a task occurs in the plan, if at all.
fn times(workpiece: &Workpiece, task: Task) -> usize {
    let board = workpiece.board();
    let coats: u32 = board.finish.iter().map(|coat| coat.coats).sum();
    let media = media(workpiece);
    let under = if media.contains(&Medium::Paint) {
        board.colors.after.min(coats)
    } else {
        0
    };
    let stains = [Medium::Dye, Medium::Stain];
    match task {
        Task::Undercoat => under as usize,
        Task::Stain => stains.iter().filter(|it| media.contains(it)).count(),
        Task::Coat => (coats - under) as usize,
        _ => 1,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    #[test]
    fn needs_come_first_and_every_implied_task_occurs_as_often_as_it_should(board in boards()) {
        let workpiece = Workpiece::of(&board).unwrap();
        let plan = workpiece.work_plan();
        let there: BTreeSet<Task> = plan.operations.iter().map(|it| it.task).collect();
        prop_assert_eq!(&there, &implied(&workpiece));
        for task in &there {
            let count = plan.of(*task).count();
            prop_assert_eq!(count, times(&workpiece, *task), "{:?}", task);
            prop_assert!(task.method().is_none_or(|own| own == plan.method), "{:?}", task);
        }
        for needs in NEEDS {
            for (at, operation) in plan.operations.iter().enumerate() {
                let later = &plan.operations[at..];
                prop_assert!(
                    operation.task != needs.task || later.iter().all(|it| !needs.before.contains(&it.task)),
                    "{:?} in {:?}", needs.task, later
                );
            }
        }
    }

    #[test]
    fn the_edge_is_the_last_program_and_the_board_is_cut_free_right_after(board in boards()) {
        let workpiece = Workpiece::of(&board).unwrap();
        let all: Vec<Task> = workpiece.work_plan().operations.iter().map(|it| it.task).collect();
        if let Some(edge) = all.iter().position(|it| *it == Task::MachinedEdge) {
            prop_assert_eq!(all.get(edge + 1), Some(&Task::Free));
            let earlier = [
                Task::MachinedBores, Task::MachinedGrooves, Task::CenterBore, Task::PinRings, Task::Fill, Task::Level,
            ];
            prop_assert!(all[edge..].iter().all(|it| !earlier.contains(it)), "{:?}", all);
        }
    }

    #[test]
    fn every_operation_has_its_steps_its_time_and_its_reasons(board in boards()) {
        let workpiece = Workpiece::of(&board).unwrap();
        let plan = workpiece.work_plan();
        for (at, operation) in plan.operations.iter().enumerate() {
            prop_assert!(!operation.work.is_empty(), "{:?}", operation);
            prop_assert!(operation.work.iter().all(|line| line.ends_with('.')), "{:?}", operation);
            prop_assert!(operation.hands_on.minutes >= 0.0 && operation.hands_on.minutes.is_finite());
            prop_assert!(!operation.hands_on.source.is_empty());
            prop_assert!(operation.wait.is_none_or(|wait| wait.hours >= 0.0 && !wait.reason.is_empty()));
            prop_assert!(operation.needs.iter().all(|need| need.operation < at && !need.why.is_empty()));
            // Only the first operations on a board have no needs.
            let begins = [Task::Rest, Task::Print].contains(&operation.task);
            prop_assert_eq!(operation.needs.is_empty(), begins, "{:?}", operation.task);
        }
    }
}
