//! A recess as deep and as wide as the pieces need.

use board::{Board, Recess, RecessShape, field};

use super::{holds, pieces};
use crate::Workpiece;
use crate::check::{Finding, Rule, Severity};
use crate::fit::propose::neat::Neat;

/// Extra room above the pieces, since marbles vary in size and finish builds up, mm; common practice, no source.
const PLAY: f64 = 1.0;
/// The most layers of pieces that are tried.
const LAYERS: u32 = 8;

/// The recess of a board made just deep and wide enough for its pieces, with its depth and shorter side in neat lengths; `None`
/// if there is no recess, or no size leaves the required wood above and around it.
///
/// Its center, its lid and its outline stay unchanged; a rectangle keeps the ratio of its sides. The shallowest recess is
/// chosen, since the wood above it holds the bores, and of that depth the smallest.
pub fn fitted(board: &Board) -> Option<Recess> {
    let recess = board.recess?;
    let neat = Neat::of(board.units);
    let piece = &board.piece;
    let layer = piece.stored_height();
    let deepest = board.blank.thickness - board.limits.floor;
    let depths = (1..=LAYERS).map(|layers| {
        neat.depth_step
            .up(f64::from(layers) * layer + recess.lid + PLAY)
    });
    let mut depths = depths.take_while(|depth| *depth <= deepest);
    depths.find_map(|depth| {
        let step = neat.board_step;
        let most = step.count_down(board.blank.diameter) as u32;
        let sizes = (1..=most).map(|count| scaled(recess.shape, step.times(f64::from(count))));
        let mut sizes =
            sizes.filter(|shape| holds(*shape, depth - recess.lid, piece) >= pieces(board));
        let shape = sizes.next()?;
        let fitted = Recess {
            shape,
            depth,
            ..recess
        };
        leaves_wood(board, fitted).then_some(fitted)
    })
}

/// The least neat thickness, mm, of a board in which [`fitted`] finds a recess; none where the thickest has none either.
///
/// It is found by halving, as a recess that fits into a board fits into a thicker one.
pub fn thickness_for_pieces(board: &Board) -> Option<f64> {
    let step = Neat::of(board.units).thickness_step;
    let fits = |count: u32| {
        let mut thicker = board.clone();
        thicker.blank.thickness = step.times(f64::from(count));
        fitted(&thicker).is_some()
    };
    let mut thin = step.count_down(board.blank.thickness) as u32;
    let mut thick = step.count_down(field::BOARD_THICKNESS.range().max) as u32;
    if thick <= thin || !fits(thick) {
        return None;
    }
    while thick - thin > 1 {
        let middle = u32::midpoint(thin, thick);
        if fits(middle) {
            thick = middle;
        } else {
            thin = middle;
        }
    }
    Some(step.times(f64::from(thick)))
}

/// The depth that a recess with this lid needs for one layer of pieces, as a neat length, mm.
pub fn depth_of_a_layer(board: &Board, lid: f64) -> f64 {
    let step = Neat::of(board.units).depth_step;
    step.up(board.piece.stored_height() + lid + PLAY)
}

/// An outline whose shorter side has this length.
fn scaled(shape: RecessShape, side: f64) -> RecessShape {
    match shape {
        RecessShape::Round { .. } => RecessShape::Round { diameter: side },
        RecessShape::Straight {
            length,
            width,
            corner,
        } => {
            let ratio = side / length.min(width);
            RecessShape::Straight {
                length: length * ratio,
                width: width * ratio,
                corner,
            }
        }
    }
}

/// Whether a recess leaves the required wood to the faces, the edge, the bores and other cuts in the board. Faults that the
/// board has without the recess do not count.
fn leaves_wood(board: &Board, recess: Recess) -> bool {
    let faults = |recess: Option<Recess>| {
        let with = Board {
            recess,
            ..board.clone()
        };
        let findings = Workpiece::of(&with).map(|workpiece| workpiece.findings().to_vec());
        let is_about = |found: &Finding| {
            found.severity != Severity::Note && matches!(found.rule, Rule::Storage | Rule::Inside)
        };
        findings.map(|all| all.into_iter().filter(is_about).collect::<Vec<_>>())
    };
    let (Ok(without), Ok(with)) = (faults(None), faults(Some(recess))) else {
        return false;
    };
    with.iter().all(|fault| without.contains(fault))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{PieceKind, ScrewCircle, Units};
    use testkit::assert_near;

    fn thick(thickness: f64) -> Board {
        let mut board = Board {
            recess: Some(Recess::default()),
            ..Board::default()
        };
        board.blank.thickness = thickness;
        board
    }

    #[test]
    fn the_recess_holds_the_pieces_in_one_layer() {
        let board = thick(30.0);
        let recess = fitted(&board).unwrap();
        assert_near!(recess.depth, 17.0, 1e-9);
        let with = Board {
            recess: Some(recess),
            ..board
        };
        let storage = super::super::storage(&with).unwrap();
        assert!(storage.holds >= storage.pieces, "{storage:?}");
        // A recess 10 mm narrower holds too few.
        let (side, _) = recess.shape.sides();
        let smaller = scaled(recess.shape, side - 10.0);
        assert!(holds(smaller, 17.0, &with.piece) < storage.pieces);
    }

    #[test]
    fn a_lid_is_kept_and_an_inch_board_gets_a_fraction() {
        let mut board = thick(40.0);
        board.units = Units::INCH;
        board.recess.as_mut().unwrap().lid = 6.35;
        let recess = fitted(&board).unwrap();
        assert_near!(recess.lid, 6.35, 0.0);
        // 16 + 6.35 + 1 mm, rounded up to the next sixteenth.
        assert_near!(recess.depth, 15.0 / 16.0 * 25.4, 1e-9);
    }

    #[test]
    fn lying_pegs_need_only_their_thickness() {
        let mut board = thick(30.0);
        board.piece.kind = PieceKind::Peg;
        (board.piece.diameter, board.piece.height) = (8.0, 40.0);
        assert_near!(fitted(&board).unwrap().depth, 9.0, 1e-9);
    }

    #[test]
    fn a_rectangle_keeps_the_ratio_of_its_sides() {
        let mut board = thick(30.0);
        board.recess.as_mut().unwrap().shape = RecessShape::Straight {
            length: 120.0,
            width: 60.0,
            corner: 5.0,
        };
        let (length, width) = fitted(&board).unwrap().shape.sides();
        assert_near!(length, 2.0 * width, 1e-9);
    }

    #[test]
    fn a_screw_under_a_hole_is_not_blamed_on_the_recess() {
        let mut board = thick(30.0);
        let track = geometry::ring_radius(board.pitch, board.players * board.spaces);
        board.screws.push(ScrewCircle {
            count: 48,
            circle: 2.0 * track,
            bearing: 0.0,
            diameter: 4.0,
            depth: 26.0,
        });
        let faults = Workpiece::of(&board).unwrap().findings().to_vec();
        assert!(faults.iter().any(|found| found.rule == Rule::Inside));
        assert!(fitted(&board).is_some());
    }

    /// The recess for marbles of 16 mm is 17 mm deep, and 5 mm holes with a spur of 2.5 mm lie over it, 3 mm of wood between: 27.5
    /// mm, in whole millimeters 28.
    #[test]
    fn the_least_thickness_is_found_where_a_board_is_too_thin() {
        let board = thick(20.0);
        let least = thickness_for_pieces(&board).unwrap();
        assert!(fitted(&thick(least)).is_some());
        assert_eq!(fitted(&thick(least - 1.0)), None);
        let error = crate::Mend::RecessForPieces.applied(&board).unwrap_err();
        let said = board.units.say(&error);
        assert!(
            said.contains(&format!("use wood {least} mm thick or thicker")),
            "{said}"
        );
        assert_eq!(thickness_for_pieces(&Board::default()), None);
    }

    #[test]
    fn a_board_too_thin_gets_no_recess() {
        // A marble of 16 mm under a floor of 3 mm; with the bores above, even less wood remains.
        assert_eq!(fitted(&thick(19.9)), None);
        assert_eq!(fitted(&Board::default()), None);
    }
}
