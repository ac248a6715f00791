//! Orders of work that shops and makers of glue, resin and finish recommend; all of it from memory, none looked up.

use board::{Build, Coat, Filling, Grooves, Panel, Tenons, Wood};

use super::{Board, assert_order, only};
use crate::Task;

fn panel(build: Build) -> Board {
    Board {
        panel: Panel {
            build,
            tenons: Some(Tenons::default()),
            ..Panel::default()
        },
        ..Board::default()
    }
}

/// Wood Handbook (FPL-GTR-190), chapter 10 on bonding: wood is brought to the moisture of its use; surfaces are machined
/// shortly before they are glued; after gluing, the wood beside the joint is left to lose the water of the glue before it is
/// surfaced, or the joint sinks. From memory.
#[test]
fn gluing_follows_the_wood_handbook() {
    for build in [Build::Halves, Build::Strips { count: 4 }] {
        let board = panel(build);
        assert_order(
            &board,
            &[
                Task::Rest,
                Task::Joint,
                Task::Glue,
                Task::Flatten,
                Task::Thickness,
            ],
        );
        assert!(only(&board, Task::Glue).wait.unwrap().hours >= 24.0);
    }
}

/// A usual bookmatch as woodworking magazines describe it: joint a face and an edge, resaw, sticker the leaves, flatten, joint
/// the edges that meet, glue; common practice, no source.
#[test]
fn resawing_follows_the_usual_bookmatch() {
    let board = panel(Build::Halves);
    assert_order(
        &board,
        &[
            Task::Rest,
            Task::Resaw,
            Task::Rough,
            Task::Joint,
            Task::Mortise,
            Task::Glue,
            Task::Flatten,
        ],
    );
    assert!(only(&board, Task::Resaw).work[0].starts_with("Joint one face and one edge"));
    assert!(only(&board, Task::Resaw).wait.is_some());
}

/// Data sheets of casting epoxies: seal porous wood, pour, let it cure fully (one to three days), then sand or machine it;
/// finish comes over cured resin; from memory.
#[test]
fn resin_follows_data_sheets() {
    let board = Board {
        filling: Some(Filling {
            dome: 0.5,
            ..Filling::default()
        }),
        wood: Some(Wood {
            species: "black-walnut".into(),
            ..Wood::default()
        }),
        grooves: Some(Grooves {
            track: true,
            ..Grooves::default()
        }),
        finish: vec![Coat::default()],
        ..Board::default()
    };
    assert_order(
        &board,
        &[
            Task::Seal,
            Task::Fill,
            Task::Level,
            Task::Grooves,
            Task::Sand,
            Task::Coat,
        ],
    );
    let cure = only(&board, Task::Fill).wait.unwrap().hours;
    assert!((24.0..=168.0).contains(&cure));
}

/// Wood Handbook (FPL-GTR-190), chapter 16 on finishing, and labels of finishes: sand through the grits, remove the dust, coat,
/// let dry, scuff-sand, coat again, and wait until it is hard before use; from memory.
#[test]
fn finishing_follows_labels() {
    let board = Board {
        finish: vec![Coat::default(), Coat::default(), Coat::default()],
        ..Board::default()
    };
    assert_order(
        &board,
        &[Task::Sand, Task::Coat, Task::Harden, Task::HandOver],
    );
    let plan = super::plan(&board);
    let coats: Vec<&super::Operation> = plan.of(Task::Coat).collect();
    assert!(
        !coats[0].work[0].contains("scuff-sand")
            && coats[1].work[0].contains("First scuff-sand the coat below")
    );
    assert!(coats.iter().all(|coat| coat.wait.is_some()));
}
