//! Faults of earlier work plans, one test each.

use board::{
    Base, Bore, Bores, Bottom, Build, Center, CutterRun, DrillingMethod, EdgeRun, Filling, Grooves,
    INCH, LidFit, LidHold, Machine, Panel, PieceKind, Recess, RecessShape, Router, ScrewCircle,
    SectorJig, Tenons, Toward, Units, Wood,
};

use super::{Board, assert_order, only, plan, tasks, told};
use crate::{Caution, Task, Workpiece};

fn built(build: Build) -> Board {
    let mut board = Board {
        panel: Panel {
            build,
            tenons: Some(Tenons::default()),
            ..Panel::default()
        },
        ..Board::default()
    };
    board.stock.thickness = 30.0;
    board
}

pub(super) fn magnets() -> Board {
    let mut board = Board {
        filling: Some(Filling {
            around_insert: true,
            dome: 0.5,
            ..Filling::default()
        }),
        ..Board::default()
    };
    board.piece.kind = PieceKind::Magnet;
    board
}

pub(super) fn of_wood(mut board: Board, species: &str) -> Board {
    board.wood = Some(Wood {
        species: species.into(),
        ..Wood::default()
    });
    board
}

/// Strips of 30 mm are planed to 23 mm for a board of 20 mm. Flattening removes 1.5 mm from the top, so mortises 7 mm below the
/// finished top are cut 8.5 mm below the face that exists then.
#[test]
fn mortises_come_before_glue_and_are_measured_from_the_existing_face() {
    let board = built(Build::Strips { count: 3 });
    assert_order(
        &board,
        &[
            Task::Rest,
            Task::Rough,
            Task::Joint,
            Task::Mortise,
            Task::Glue,
            Task::Flatten,
            Task::Thickness,
        ],
    );
    let mortises = told(&board, Task::Mortise);
    for part in [
        "8.5 mm from it",
        "7 mm in the finished board",
        "1.5 mm that flattening",
        "7 passes",
    ] {
        assert!(mortises.contains(part), "{part} in {mortises}");
    }
}

#[test]
fn two_halves_are_resawn_opened_like_a_book_jointed_and_glued() {
    let mut board = built(Build::Halves);
    board.stock.thickness = 52.0;
    assert_order(
        &board,
        &[
            Task::Rest,
            Task::Resaw,
            Task::Rough,
            Task::Joint,
            Task::Glue,
        ],
    );
    let resaw = told(&board, Task::Resaw);
    assert!(
        resaw.contains("Open the leaves like a book") && resaw.contains("24.5 mm"),
        "{resaw}"
    );
    assert!(only(&board, Task::Resaw).wait.unwrap().hours >= 24.0);
}

#[test]
fn each_planing_step_gives_its_thickness() {
    let mut board = built(Build::Halves);
    board.stock.thickness = 52.0;
    for (task, thick) in [
        (Task::Resaw, "52 mm thick"),
        (Task::Resaw, "leaves of 24.5 mm"),
        (Task::Rough, "all to 22.2 mm"),
        (Task::Glue, "and 22.2 mm thick"),
        (Task::Flatten, "21.1 mm thick"),
        (Task::Thickness, "20 mm thick"),
    ] {
        let told = told(&board, task);
        assert!(told.contains(thick), "{thick} in {told}");
    }
}

#[test]
fn a_panel_bought_glued_is_only_flattened_and_planed() {
    let board = built(Build::Seams {
        at: vec![-40.0, 60.0],
    });
    let there = tasks(&board);
    for task in [Task::Rough, Task::Joint, Task::Mortise, Task::Glue] {
        assert!(!there.contains(&task), "{task:?}");
    }
    assert!(told(&board, Task::Flatten).contains("seams at -40 mm, 60 mm"));
}

/// The bit scores its circle before its spur loses its wood; work on the pin comes before the hole that removes the pin's wood,
/// and inserts for that hole come after it.
#[test]
fn the_pins_hole_comes_first_and_the_playing_hole_last() {
    for method in DrillingMethod::ALL {
        let board = Board {
            method,
            grooves: Some(Grooves {
                rim: Some(5.0),
                ..Grooves::default()
            }),
            filling: Some(Filling {
                dome: 2.0,
                ..Filling::default()
            }),
            ..magnets()
        };
        assert_order(
            &board,
            &[
                Task::PinHole,
                Task::Circle,
                Task::PinRings,
                Task::CenterBore,
                Task::Inserts,
                Task::Fill,
                Task::Level,
                Task::Grooves,
                Task::Sand,
            ],
        );
        let pin = told(&board, Task::PinHole);
        let (mark, drill) = (pin.find("Score a full circle"), pin.find("Drill 6 mm"));
        assert!(mark.is_some() && mark < drill, "{pin}");
        assert!(pin.contains("no deeper than 7.5 mm"), "{pin}");
    }
}

#[test]
fn a_bit_without_a_point_is_guided_where_the_pin_was() {
    let mut board = Board::default();
    let guide = |board: &Board| told(board, Task::CenterBore);
    assert!(guide(&board).contains("circle that it scored"));
    for bottom in [Bottom::Flat, Bottom::Ball] {
        let bore = Bore {
            bottom,
            ..board.bores.track
        };
        board.center = Center::Hole { bore, pilot: 6.0 };
        assert!(guide(&board).contains("as a guide"));
        assert!(!told(&board, Task::PinHole).contains("scored"));
    }
}

#[test]
fn a_pivot_stays_and_a_bare_center_gets_a_block() {
    let pivot = Board {
        center: Center::Pivot {
            diameter: 6.0,
            depth: 10.0,
        },
        ..Board::default()
    };
    assert!(!tasks(&pivot).contains(&Task::CenterBore));
    assert!(told(&pivot, Task::PinHole).contains("6 mm across and 10 mm deep"));
    let bare = Board {
        center: Center::Nothing,
        ..Board::default()
    };
    assert_order(&bare, &[Task::PinBlock, Task::Circle]);
    assert!(!tasks(&bare).contains(&Task::PinHole));
}

/// A bit of 1/4 in cuts 1/2 in deep in two passes, not in one.
#[test]
fn the_router_template_has_steps_with_passes_for_the_bit() {
    let bore = Bore {
        diameter: 0.5 * INCH,
        depth: 0.5 * INCH,
        bottom: Bottom::Flat,
    };
    let board = Board {
        units: Units::INCH,
        bores: Bores::all(bore),
        router: Some(Router {
            bushing: 0.75 * INCH,
            bit: 0.25 * INCH,
            hardboard: 0.25 * INCH,
            ..Router::default()
        }),
        ..Board::default()
    };
    assert_order(
        &board,
        &[
            Task::Print,
            Task::RouterTemplate,
            Task::RoutedBores,
            Task::Circle,
            Task::CenterBore,
        ],
    );
    let routed = told(&board, Task::RoutedBores);
    for part in [
        "plunge to 3/4\"",
        "plunge, then clockwise around the rim",
        "2 passes",
    ] {
        assert!(routed.contains(part), "{part} in {routed}");
    }
    assert!(told(&board, Task::RouterTemplate).contains("144 holes of 1\""));
}

#[test]
fn the_sector_jig_has_steps_of_its_own() {
    let board = Board {
        sector_jig: Some(SectorJig::default()),
        ..Board::default()
    };
    assert_order(
        &board,
        &[
            Task::Print,
            Task::SectorJig,
            Task::SectorBores,
            Task::Circle,
            Task::CenterBore,
        ],
    );
    let drilled = told(&board, Task::SectorBores);
    assert!(drilled.contains("by 60°, 5 times"), "{drilled}");
    assert!(told(&board, Task::SectorJig).contains("index holes: "));
}

#[test]
fn the_circle_is_cut_safely_after_the_corners() {
    let board = Board::default();
    assert_order(&board, &[Task::PunchedBores, Task::Corners, Task::Circle]);
    let circle = told(&board, Task::Circle);
    for part in [
        "router on a trammel is safest",
        "band saw with a circle jig",
        "clamp the jig so that it cannot shift",
        "only with a guard",
        "Raise the blade by no more than 3 mm at a time, 7 turns",
        "both hands on the half away from the blade",
        "Check that the blank reaches 320 mm from the pin",
        "must reach 23 mm below the trammel",
        "7 passes",
    ] {
        assert!(circle.contains(part), "{part} in {circle}");
    }
    let minded = only(&board, Task::Circle).cautions;
    assert!(minded.contains(&Caution::TableSaw) && minded.contains(&Caution::Router));
    // On a pin under a drill press the corners would hit the column.
    let turned = Board {
        method: DrillingMethod::Pivot,
        ..board
    };
    assert_order(&turned, &[Task::Corners, Task::PivotBores, Task::Circle]);
}

/// A template laid on crosswise puts the grain and the seams where the checks did not look.
#[test]
fn the_template_and_the_pins_axis_are_turned_to_grain_and_seams() {
    let plain = Board::default();
    assert!(told(&plain, Task::Punch).contains("until its grain arrow runs with the grain"));
    assert!(told(&plain, Task::PinHole).contains("square to the grain: the board"));
    // Four strips: a seam goes through the center; three: half a strip beside it.
    let mut board = built(Build::Strips { count: 4 });
    assert!(told(&board, Task::PinHole).contains("Mark the center on the seam"));
    assert!(told(&board, Task::Punch).contains("dashed seam lines lie on the seams"));
    board.panel.build = Build::Seams {
        at: vec![40.0, -90.0],
    };
    board.rotation = 30.0;
    let pin = told(&board, Task::PinHole);
    for part in [
        "40 mm below the nearest seam",
        "Draw 12 o'clock through it, square to grain and seams",
        "axis of player 1 30° clockwise",
    ] {
        assert!(pin.contains(part), "{part} in {pin}");
    }
    board.method = DrillingMethod::Router;
    board.router = Some(Router::default());
    assert!(told(&board, Task::RoutedBores).contains("dashed seam lines"));
    let machined = machined(None);
    assert!(told(&machined, Task::MachinedBores).contains("X along the grain"));
}

/// No cut comes between pouring and the end of the cure: every cut comes before the pour or needs the cure.
#[test]
fn resin_has_cured_before_anything_cuts() {
    let board = Board {
        recess: Some(Recess::default()),
        screws: vec![ScrewCircle::default()],
        grooves: Some(Grooves {
            track: true,
            rim: Some(4.0),
            ..Grooves::default()
        }),
        ..magnets()
    };
    let plan = plan(&board);
    let fill = plan
        .operations
        .iter()
        .position(|it| it.task == Task::Fill)
        .unwrap();
    assert!(plan.operations[fill].wait.unwrap().hours >= 24.0);
    for later in &plan.operations[fill + 1..] {
        let mut reached: Vec<usize> = later.needs.iter().map(|need| need.operation).collect();
        let mut at = 0;
        while let Some(next) = reached.get(at).copied() {
            reached.extend(
                plan.operations[next]
                    .needs
                    .iter()
                    .map(|need| need.operation),
            );
            at += 1;
        }
        // The lower edge is eased with a sanding block, far from any resin.
        assert!(
            reached.contains(&fill) || later.task == Task::Ease,
            "{:?}",
            later.task
        );
    }
}

#[test]
fn bores_are_sealed_where_the_wood_is_porous() {
    let sealed = of_wood(magnets(), "red-oak");
    assert_order(
        &sealed,
        &[Task::CenterBore, Task::Seal, Task::Inserts, Task::Fill],
    );
    assert!(!tasks(&of_wood(magnets(), "sugar-maple")).contains(&Task::Seal));
    let unknown = told(&magnets(), Task::Fill);
    assert!(unknown.contains("If the wood has open pores"), "{unknown}");
    let dry = Board {
        filling: None,
        ..of_wood(magnets(), "red-oak")
    };
    assert!(!tasks(&dry).contains(&Task::Seal));
}

#[test]
fn nothing_is_filled_where_the_resin_level_is_below_the_floors() {
    let board = Board {
        filling: Some(Filling {
            below_top: 500.0,
            ..Filling::default()
        }),
        ..Board::default()
    };
    assert!(!tasks(&board).contains(&Task::Fill));
}

/// 10 mm into the board plus a base 12 mm high: 22 mm.
#[test]
fn base_screws_have_their_length_and_the_wood_may_move() {
    let board = Board {
        base: Some(Base::default()),
        screws: vec![ScrewCircle::default()],
        ..of_wood(Board::default(), "white-oak")
    };
    assert_order(&board, &[Task::ScrewHoles, Task::Sand, Task::Base]);
    let base = told(&board, Task::Base);
    assert!(base.contains("22 mm through a base 12 mm high"), "{base}");
    assert!(
        base.contains("slots across the grain") && base.contains("plywood"),
        "{base}"
    );
    let mut still = board.clone();
    still.wood.as_mut().unwrap().change = Some(0.0);
    assert!(!told(&still, Task::Base).contains("slots"));
}

#[test]
fn a_machine_that_cuts_the_edge_needs_no_pin_and_no_saw() {
    let board = Board {
        machine: Some(Machine {
            edge: Some(EdgeRun::default()),
            ..Machine::default()
        }),
        ..Board::default()
    };
    let there = tasks(&board);
    for task in [Task::PinHole, Task::Corners, Task::Circle, Task::Print] {
        assert!(!there.contains(&task), "{task:?}");
    }
    assert_order(
        &board,
        &[
            Task::MachinedBores,
            Task::CenterBore,
            Task::MachinedEdge,
            Task::Free,
            Task::Ease,
        ],
    );
    assert!(told(&board, Task::MachinedEdge).contains("7 passes of at most 3 mm"));
}

/// A board with resin and grooves, with or without its edge by program.
fn machined(edge: Option<EdgeRun>) -> Board {
    Board {
        machine: Some(Machine {
            edge,
            groove: Some(CutterRun::default()),
            ..Machine::default()
        }),
        grooves: Some(Grooves {
            track: true,
            ..Grooves::default()
        }),
        filling: Some(Filling {
            dome: 0.5,
            ..Filling::default()
        }),
        ..Board::default()
    }
}

/// A board of 10 lb must not hang on a skin of 1/64 in while resin is poured and cures.
#[test]
fn the_edge_is_the_last_program_and_the_skin_is_cut_at_once() {
    let board = machined(Some(EdgeRun::default()));
    assert_order(
        &board,
        &[
            Task::MachinedBores,
            Task::CenterBore,
            Task::Fill,
            Task::Level,
            Task::MachinedGrooves,
            Task::MachinedEdge,
            Task::Free,
            Task::Roundover,
        ],
    );
    let all = tasks(&board);
    let edge = all.iter().position(|it| *it == Task::MachinedEdge).unwrap();
    assert_eq!(all[edge + 1], Task::Free);
    assert!(told(&board, Task::MachinedBores).contains("two dowel holes through its waste"));
    for task in [Task::MachinedGrooves, Task::MachinedEdge] {
        assert!(told(&board, task).contains("back on its two dowels"));
    }
    assert!(told(&board, Task::MachinedEdge).contains("last program: the skin of 0.5 mm"));
    assert!(told(&board, Task::Free).contains("with a knife"));
    let thick = machined(Some(EdgeRun {
        skin: 3.0,
        ..EdgeRun::default()
    }));
    let freed = only(&thick, Task::Free);
    assert!(freed.work[0].contains("saw through the skin of 3 mm"));
    assert!(freed.cautions.contains(&Caution::HandSaw));
}

/// Where nothing comes between the programs, the blank stays clamped.
#[test]
fn dowels_are_drilled_only_for_a_blank_that_comes_back() {
    let mut board = machined(Some(EdgeRun::default()));
    board.filling = None;
    assert!(!told(&board, Task::MachinedBores).contains("dowel"));
    assert!(told(&board, Task::MachinedEdge).contains("Leave the blank clamped"));
}

#[test]
fn a_machine_without_a_pin_has_its_center_marked_first() {
    let board = machined(Some(EdgeRun::default()));
    assert!(!tasks(&board).contains(&Task::PinHole));
    let work = only(&board, Task::MachinedBores).work;
    assert!(work[0].starts_with("Mark the center"), "{work:?}");
    let on_pin = machined(None);
    assert!(!told(&on_pin, Task::MachinedBores).contains("Mark the center"));
}

/// Cut on the pin, the edge comes before the center hole, and the waste with any dowels is gone before the grooves.
#[test]
fn a_round_board_gets_its_zero_again_from_what_is_left() {
    let board = machined(None);
    assert_order(
        &board,
        &[
            Task::Circle,
            Task::CenterBore,
            Task::Fill,
            Task::MachinedGrooves,
        ],
    );
    assert!(!told(&board, Task::MachinedBores).contains("dowel"));
    let center = told(&board, Task::CenterBore);
    assert!(center.contains("Set X0 Y0 again on the middle of the pin's hole"));
    assert!(!center.contains("as they were set"));
    let grooves = told(&board, Task::MachinedGrooves);
    assert!(grooves.contains("halfway between two opposite points of its edge"));
    assert!(grooves.contains("two track holes far apart"));
}

#[test]
fn the_makers_own_pace_is_used_where_it_is_given() {
    let board = magnets();
    let workpiece = Workpiece::of(&board).unwrap();
    let pour = workpiece.pour().unwrap();
    let fill = only(&board, Task::Fill);
    let filling = board.filling.unwrap();
    let wanted = pour.batches.len() as f64 * filling.mixing + 145.0 * filling.ten_bores / 600.0;
    testkit::assert_near!(fill.hands_on.minutes, wanted, 1e-9);
    assert_eq!(fill.hands_on.source, "as typed by the maker");
    assert!(plan(&board).hands_on_minutes() > wanted);
    assert!(plan(&board).waiting_hours() > 72.0);
}

#[test]
fn a_recess_step_names_its_side_its_corners_and_both_faces_of_its_lid() {
    let recess = Recess {
        shape: RecessShape::Straight {
            length: 120.0,
            width: 90.0,
            corner: 6.0,
        },
        at: [-30.0, 10.0],
        lid: 5.0,
        lid_fit: LidFit {
            hold: LidHold::Slides {
                angle: 45.0,
                toward: Toward::Left,
            },
            overlap: 4.0,
            clearance: 0.5,
            ..LidFit::default()
        },
        ..Recess::default()
    };
    let board = Board {
        recess: Some(recess),
        ..Board::default()
    };
    let told = told(&board, Task::Recess) + &told(&board, Task::Lid);
    for part in [
        "30 mm to the right of the center and 10 mm above it as seen from below",
        "corners of radius 6 mm",
        "107.5 mm across it on its inner face and 97.5 mm on its outer one",
        "open at the edge to the right as seen from below",
        "With the 12 mm bit, which must reach 13 mm, 2 passes",
    ] {
        assert!(told.contains(part), "{part} in {told}");
    }
}
