//! Sanding, colors and coats come in an order that works, with what each of them needs.

use board::{Base, Coat, CoatKind, PieceKind};

use super::faults::{magnets, of_wood};
use super::{Board, assert_order, only, plan, tasks, told};
use crate::{Caution, Operation, Task};

#[test]
fn sanding_goes_from_grit_to_grit_and_the_lower_edge_is_eased() {
    let mut board = Board {
        finish: vec![Coat::default()],
        ..Board::default()
    };
    assert!(told(&board, Task::Sand).contains("120, 150, 180, 220."));
    board.finish[0].kind = CoatKind::Lacquer;
    assert!(told(&board, Task::Sand).contains("120, 150, 180."));
    assert_order(&board, &[Task::Circle, Task::Ease, Task::Sand, Task::Coat]);
}

/// With shellac before resin, the alcohol is aired out before heat drives out bubbles, and sanding resin makes more than plain
/// dust.
#[test]
fn alcohol_is_out_of_the_room_before_heat_is_used() {
    let sealed = only(&of_wood(magnets(), "red-oak"), Task::Seal);
    assert_eq!(sealed.cautions, [Caution::Eyes, Caution::Solvents]);
    assert!(
        sealed
            .work
            .join(" ")
            .contains("keep flames, sparks and pilot lights out")
    );
    let poured = only(&of_wood(magnets(), "red-oak"), Task::Fill);
    assert!(poured.work.join(" ").contains("before you use heat"));
    let unknown = only(&magnets(), Task::Fill);
    assert_eq!(
        unknown.cautions,
        [Caution::Eyes, Caution::Resin, Caution::Solvents]
    );
    let work = unknown.work.join(" ");
    assert!(work.contains("pilot lights out") && work.contains("before you use heat"));
    let maple = only(&of_wood(magnets(), "sugar-maple"), Task::Fill);
    assert_eq!(maple.cautions, [Caution::Eyes, Caution::Resin]);
    assert!(!maple.work.join(" ").contains("shellac"));
    let sanded = only(&magnets(), Task::Sand);
    assert!(sanded.cautions.contains(&Caution::Resin));
    assert!(sanded.work[0].starts_with("Let the resin cure fully first"));
    assert!(!told(&Board::default(), Task::Sand).contains("resin"));
}

/// Oil that is not wiped off stays sticky for good; each kind of coat has its own way of application.
#[test]
fn every_coat_says_how_it_is_applied() {
    let coat = |kind| {
        let finish = vec![Coat::of(kind, 24.0)];
        told(
            &Board {
                finish,
                ..Board::default()
            },
            Task::Coat,
        )
    };
    for kind in [CoatKind::Oil, CoatKind::OilVarnish] {
        assert!(coat(kind).contains("wipe again after an hour"), "{kind:?}");
    }
    assert!(coat(CoatKind::OilWax).contains("wipe off all the excess within"));
    assert!(coat(CoatKind::Stain).contains("before it gets tacky"));
    assert!(coat(CoatKind::Wax).contains("let it haze, and buff it"));
    for kind in [CoatKind::Lacquer, CoatKind::SandingSealer] {
        assert!(coat(kind).contains("explosion-proof fan"), "{kind:?}");
    }
    let marks = Coat {
        place: board::CoatPlace::Edge,
        ..Coat::of(CoatKind::Wax, 1.0)
    };
    let small = Board {
        finish: vec![marks],
        ..Board::default()
    };
    assert!(!told(&small, Task::Coat).contains("about a few"));
}

#[test]
fn finish_stays_out_of_peg_holes_and_off_glue_faces() {
    let mut board = Board {
        finish: vec![Coat::default(), Coat::default()],
        base: Some(Base {
            hold: board::BaseHold::GluedPlywood,
            ..Base::default()
        }),
        ..Board::default()
    };
    assert!(!told(&board, Task::Mask).contains("peg"));
    board.piece.kind = PieceKind::Peg;
    let bare = told(&board, Task::Mask);
    assert!(
        bare.contains("Plug the peg holes") && bare.contains("where the base is glued"),
        "{bare}"
    );
    // Plugs and tape come off after the last coat; without any, no step mentions them.
    let coats = plan(&board);
    let coats: Vec<&Operation> = coats.of(Task::Coat).collect();
    assert!(!coats[0].work[0].contains("plugs"));
    assert!(coats[1].work[0].contains("Take the plugs and tape off as soon as"));
    assert_order(&board, &[Task::Sand, Task::Mask, Task::Coat, Task::Harden]);
    let numbers: Vec<u32> = plan(&board)
        .of(Task::Coat)
        .map(|coat| coat.number)
        .collect();
    assert_eq!(numbers, [1, 2]);
    let plain = Board {
        base: None,
        finish: vec![Coat::default()],
        ..Board::default()
    };
    assert!(!tasks(&plain).contains(&Task::Mask));
    assert!(!told(&plain, Task::Coat).contains("tape"));
}

/// Colors that turn muddy under their finish show that on scrap, which takes as long as the board.
#[test]
fn the_test_board_has_every_color_and_coat_and_waits_as_long() {
    let mut board = Board {
        finish: vec![Coat {
            coats: 5,
            ..Coat::of(CoatKind::Shellac, 0.5)
        }],
        ..Board::default()
    };
    board.colors.marks = Some(board::MarksMade::default());
    let whole = plan(&board);
    let laid = [Task::Stain, Task::Paint, Task::Undercoat, Task::Coat];
    let waits = laid.into_iter().flat_map(|task| whole.of(task));
    let hours: f64 = waits
        .filter_map(|one| one.wait)
        .map(|wait| wait.hours)
        .sum();
    let trial = only(&board, Task::Trial);
    testkit::assert_near!(trial.wait.unwrap().hours, hours, 1e-9);
    // Shellac rests 12 h after the fourth of its five coats; the paint of the marks must dry too.
    assert!(hours > 12.0 + 4.0 * 0.5, "{hours}");
    assert!(trial.work.join(" ").contains("every color and coat"));
    board.finish.clear();
    assert!(told(&board, Task::Trial).contains("every color on it"));
    board.colors.marks = None;
    assert!(!tasks(&board).contains(&Task::Trial));
}

/// Four coats in two layers of shellac rest like four in one.
#[test]
fn layers_of_shellac_are_counted_together() {
    let coat = |kind, coats| Coat {
        coats,
        ..Coat::of(kind, 0.5)
    };
    let board = Board {
        finish: vec![
            coat(CoatKind::DewaxedShellac, 2),
            coat(CoatKind::Shellac, 3),
        ],
        ..Board::default()
    };
    let whole = plan(&board);
    let hours: Vec<f64> = whole
        .of(Task::Coat)
        .map(|one| one.wait.unwrap().hours)
        .collect();
    assert_eq!(hours, [0.5, 0.5, 0.5, 12.0, 0.5]);
}

#[test]
fn sanding_takes_account_of_inlays_and_resin_in_grooves() {
    let mut board = Board {
        grooves: Some(board::Grooves::default()),
        ..Board::default()
    };
    let sanded = |board: &Board| only(board, Task::Sand);
    assert!(!sanded(&board).work.join(" ").contains("shell"));
    board.colors.grooves.hue = board::Hue::Player;
    board.colors.grooves.medium = board::Medium::Inlay;
    assert!(sanded(&board).work.join(" ").contains("Keep shell wet"));
    board.colors.grooves.medium = board::Medium::Resin;
    // The bores are too shallow to be filled, so only the grooves have resin.
    board.filling = Some(board::Filling {
        below_top: 200.0,
        ..board::Filling::default()
    });
    assert!(sanded(&board).cautions.contains(&Caution::Resin));
}
