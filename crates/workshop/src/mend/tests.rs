//! Every fix, on a board that needs it.

use super::*;
use crate::check::Finding;
use crate::template::check::joint::tests::along_a_row;
use board::{Build, Edit, StockOutline};

fn findings(board: &Board) -> Vec<Finding> {
    Workpiece::of(board).unwrap().findings().to_vec()
}

/// A board on which a fix is offered.
fn in_need(mend: Mend) -> Board {
    let mut board = Board::default();
    match mend {
        Mend::FitBoard | Mend::FitPitch => board.blank.diameter = 500.0,
        Mend::WiderPitch => board.pitch = 14.0,
        Mend::RimAsItIs | Mend::LargestBore | Mend::LargestPiece | Mend::BoardForPiece => {}
        Mend::MostSpaces => board.spaces = 8,
        Mend::ShallowerBores => board.blank.thickness = 7.0,
        Mend::DeeperBores => board.bores.track.depth = 1.0,
        Mend::FlushInserts => board.piece.kind = board::PieceKind::Magnet,
        Mend::RoomForResin => board = resin_around_a_ball(),
        Mend::WiderOutlines => {
            board.grooves = Some(board::Grooves {
                around_start: Some(0.5),
                around_home: Some(0.5),
                ..board::Grooves::default()
            });
        }
        Mend::PlanTurntable => board.limits.reach = 100.0,
        Mend::RimForHands => {
            board.base = Some(board::Base::default());
            board.limits.hands = 60.0;
        }
        Mend::ScrewBase => {
            let hold = board::BaseHold::GluedPlywood;
            board.base = Some(board::Base {
                hold,
                ..board::Base::default()
            });
        }
        Mend::ShiftSheets => board = along_a_row(board::SheetLayout::Fewest),
        Mend::TurnOffJoints => board = along_a_row(board::SheetLayout::Widest),
        Mend::OwnedBits => board.tools.forstner = vec![10.0, 14.0],
        Mend::OwnedRouter => board = routed_otherwise(),
        Mend::PilotForPin => board.jig.pin = 8.0,
        Mend::TurnOffSeams => board.panel.build = Build::Halves,
        Mend::LeastCutBySeams => board.panel.build = Build::Strips { count: 5 },
        Mend::BestPlace => {
            board.stock.outline = slab(700.0);
            board.stock.place = Some([100.0, 300.0]);
        }
        Mend::StripsForPlaner => {
            board.panel.build = Build::Strips { count: 2 };
            board.panel.planer = 200.0;
        }
        Mend::RecessForPieces => (board.blank.thickness, board.recess) = (30.0, Some(recess())),
        Mend::SmallerBatches => board.filling = Some(filling(900.0)),
        Mend::LowerResin => board.filling = Some(filling(120.0)),
        Mend::LongerDrying | Mend::FixFinish => board.finish = faulty_finish(mend),
        Mend::DropWaitingEdits => board.edits.push(Edit {
            hole: "T9-3".parse().unwrap(),
            mirrored: false,
            change: board::Change::Drop,
        }),
        _ => color_badly(&mut board, mend),
    }
    board
}

/// Holes filled to the top, ten of them in so many seconds.
fn filling(ten_bores: f64) -> board::Filling {
    board::Filling {
        ten_bores,
        ..board::Filling::default()
    }
}

/// A recess too shallow for the usual marbles.
fn recess() -> board::Recess {
    board::Recess::default()
}

/// Gives the board colors with a fault that the fix is for.
fn color_badly(board: &mut Board, mend: Mend) {
    match mend {
        Mend::DistinctColors => {
            let alike = ["#d01c1f", "#d0201f"].map(|color| board::PlayerColor {
                color: color.parse().ok(),
                mark: board::Mark::Auto,
            });
            board.colors.players = alike.to_vec();
        }
        Mend::MarksOfSet => {
            let shape = board::MarkShape::Triangle;
            board.colors.players = vec![board::PlayerColor {
                color: None,
                mark: board::Mark::Solid { shape },
            }];
        }
        Mend::OutlineMarks => board.colors.marks = Some(board::MarksMade::default()),
        Mend::ColorsOffWood => {
            board.colors.home.hue = board::Hue::One {
                color: crate::tone_of(board),
            };
        }
        Mend::PaintInstead => {
            board.colors.track.hue = board::Hue::Player;
            board.colors.track.on = board::BorePart::Filling;
        }
        Mend::NarrowerColorRings => {
            board.colors.track.hue = board::Hue::Player;
            board.colors.ring = 8.0;
        }
        _ => {}
    }
}

/// Coats with a fault that the fix is for: too early, or on wax.
fn faulty_finish(mend: Mend) -> Vec<board::Coat> {
    use board::{Coat, CoatKind};
    if mend == Mend::LongerDrying {
        vec![Coat::of(CoatKind::Oil, 1.0); 3]
    } else {
        vec![Coat::of(CoatKind::Wax, 1.0), Coat::default()]
    }
}

/// A router template for a bit and a bushing that the shop does not have.
fn routed_otherwise() -> Board {
    let mut board = Board {
        router: Some(Router::default()),
        ..Board::default()
    };
    (board.tools.straight, board.tools.bushings) = (vec![9.5], vec![12.7]);
    board
}

/// Magnet pieces, and resin around the balls in their bores.
fn resin_around_a_ball() -> Board {
    let mut board = Board::default();
    board.piece.kind = board::PieceKind::Magnet;
    board.filling = Some(board::Filling {
        around_insert: true,
        ..board::Filling::default()
    });
    board
}

fn slab(width: f64) -> StockOutline {
    StockOutline::Slab {
        length: 1200.0,
        width,
        lower: vec![],
        upper: vec![],
    }
}

fn offering(board: &Board, mend: Mend) -> Vec<Finding> {
    let offers = |finding: &Finding| finding.mends.contains(&mend);
    findings(board).into_iter().filter(offers).collect()
}

#[test]
fn every_fix_resolves_its_finding_and_changes_the_board() {
    for mend in Mend::ALL {
        let board = in_need(mend);
        if !mend.is_offered() {
            // No finding offers it.
            assert_ne!(mend.applied(&board).unwrap(), board, "{mend:?}");
            continue;
        }
        assert!(
            !offering(&board, mend).is_empty(),
            "{mend:?} is not offered"
        );
        let mended = mend.applied(&board).unwrap();
        assert_ne!(mended, board, "{mend:?}");
        let left = offering(&mended, mend);
        assert!(left.is_empty(), "{mend:?} leaves {left:#?}");
    }
}

#[test]
fn solutions_on_inch_boards_are_fractions_that_work() {
    for units in [
        board::Units::INCH,
        board::Units::Inch(board::Fraction::Sixteenth),
    ] {
        let mut board = Board::begun(units);
        board.blank.diameter = 24.5 * board::INCH;
        for (mend, value) in [
            (
                Mend::FitBoard,
                (|board| board.blank.diameter) as fn(&Board) -> f64,
            ),
            (Mend::FitPitch, |board| board.pitch),
            (Mend::RimAsItIs, |board| board.limits.rim),
            (Mend::LargestBore, |board| board.bores.track.diameter),
            (Mend::LargestPiece, |board| board.piece.diameter),
            (Mend::WiderPitch, |board| board.pitch),
            (Mend::BoardForPiece, |board| board.pitch),
            (Mend::BoardForPiece, |board| board.blank.diameter),
        ] {
            let mended = mend.applied(&board).unwrap();
            let shown = board::show_length(value(&mended), units);
            assert!(!shown.contains(['≈', '.']), "{mend:?} gives {shown}");
            let left = findings(&mended);
            assert!(!crate::stops(&left), "{mend:?} leaves {left:#?}");
        }
    }
}

/// On 24 1/2" the wood has room for bores of 5/8", into which a marble of 5/8" would fall.
#[test]
fn the_largest_bore_still_carries_its_marble_and_names_its_bound() {
    let mut board = Board::begun(board::Units::INCH);
    board.blank.diameter = 24.5 * board::INCH;
    let mended = Mend::LargestBore.applied(&board).unwrap();
    assert!(mended.bores.track.diameter < board.piece.diameter);
    let seats = |board: &Board| {
        let mut left = findings(board);
        left.retain(|finding| finding.rule == crate::Rule::Seat);
        left
    };
    assert_eq!(seats(&mended), []);
    let why = |board: &Board| Mend::LargestBore.bound(board).unwrap();
    assert!(
        why(&board).contains("a marble of 5/8\" stands on the floor"),
        "{}",
        why(&board)
    );
    for bore in [
        &mut board.bores.track,
        &mut board.bores.home,
        &mut board.bores.start,
    ] {
        bore.depth = 10.0;
    }
    assert_eq!(
        why(&board),
        "wider, a marble of 5/8\" sinks by more than 45 %"
    );
    assert_eq!(seats(&Mend::LargestBore.applied(&board).unwrap()), []);
    board.limits.web = 8.0;
    assert!(
        why(&board).contains("wood between holes"),
        "{}",
        why(&board)
    );
    assert_eq!(Mend::LargestPiece.bound(&board), None);
}

/// Five strips have four seams; every angle leaves a hole on one of them. The fix says so, and so does the finding left after it.
#[test]
fn a_turn_that_clears_no_seam_says_so() {
    let mut board = Board::default();
    board.panel.build = Build::Strips { count: 5 };
    let seam = |board: &Board| {
        let found = Workpiece::of(board).unwrap();
        let found = found
            .findings()
            .iter()
            .find(|found| found.rule == crate::Rule::Seam);
        found.cloned().unwrap()
    };
    let before = seam(&board);
    assert_eq!(before.mends, [Mend::LeastCutBySeams]);
    assert!(
        before.message.contains("No angle clears every hole"),
        "{}",
        before.message
    );
    let why = Mend::LeastCutBySeams.bound(&board).unwrap();
    assert!(why.contains("the worst is cut least"), "{why}");
    let after = seam(&Mend::LeastCutBySeams.applied(&board).unwrap());
    assert_eq!(after.mends, []);
    assert!(after.measured.unwrap().value > before.measured.unwrap().value);
    assert!(
        after.message.contains("No other angle is better"),
        "{}",
        after.message
    );
    board.panel.build = Build::Halves;
    assert_eq!(Mend::TurnOffSeams.bound(&board), None);
}

#[test]
fn a_fix_that_cannot_work_reports_why() {
    let board = Board::default();
    assert!(Mend::TurnOffSeams.applied(&board).is_err());
    let mut small = Board::default();
    small.blank.diameter = 30.0;
    assert!(matches!(
        Mend::FitPitch.applied(&small),
        Err(MendError::Fit(_))
    ));
}

/// A resin that sets in weeks, poured at a second per ten bores, would allow a batch larger than any cup.
#[test]
fn a_batch_stays_in_its_range() {
    let mut board = Board {
        filling: Some(board::Filling {
            pot_life: 3000.0,
            mixing: 0.0,
            ten_bores: 30_000.0,
            shop: 20.0,
            batch: 100_000.0,
            ..board::Filling::default()
        }),
        ..Board::default()
    };
    for bore in [
        &mut board.bores.track,
        &mut board.bores.home,
        &mut board.bores.start,
    ] {
        (bore.diameter, bore.depth) = (200.0, 200.0);
    }
    board.pitch = 250.0;
    (board.schedule.boards, board.schedule.drying) = (50, 50);
    match Mend::SmallerBatches.applied(&board) {
        Ok(mended) => {
            let batch = mended.filling.unwrap().batch;
            assert!(board::field::BATCH.range().check(batch).is_ok(), "{batch}");
        }
        Err(error) => panic!("{error}"),
    }
}
