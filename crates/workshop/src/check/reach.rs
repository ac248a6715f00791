//! Rule: players reach their holes, and hands that turn the board find a rim to hold.
//!
//! The two belong together: a board that is too wide to reach across is turned, and a board that is turned is held at its rim.
//! A board without a base, or on feet, lies still; one on a turntable, or on any round base, is taken to turn.

use board::{Board, Footing, Hole, HoleName, Measure, Role, counted, show_length};
use geometry::{Angle, Point, point_at};

use super::{Finding, HAIR, Rule, Severity};
use crate::{Mend, Workpiece};

pub const STATEMENT: &str = "Every player reaches the holes their pieces come to from the edge where they sit. A board \
     on a turntable is turned instead, and needs rim outside the pieces for the hand that turns it. The defaults are \
     {610 mm|24\"} of reach (from memory) and {10 mm|3/8\"} of rim (common practice, no source); children reach less.";

/// A finding about holes that are out of reach, or about a rim that is too narrow to hold.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    if turns(workpiece.board()) {
        rim(workpiece)
    } else {
        far(workpiece)
    }
}

/// Whether the board is turned from player to player.
///
/// A round base that does not turn counts as one that does: the document does not distinguish them, and a board on it is as
/// easily turned by hand.
fn turns(board: &Board) -> bool {
    let footing = board.base.map(|base| base.footing);
    matches!(footing, Some(Footing::Round { .. }))
}

/// Holes farther from the player's edge than the player reaches.
///
/// Pieces of every player go all round the track; into home lanes and start pockets only those of their own. The reach is
/// measured from the edge where the player sits to the middle of the hole, flat along the board: a hand goes over it.
fn far(workpiece: &Workpiece) -> Option<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let reach = board.limits.reach;
    let seats = layout.sectors.iter().zip(1_u32..);
    let seats = seats.map(|(sector, player)| (sit(board, sector.axis()), player));
    let far = seats.flat_map(|(seat, player)| {
        let own = layout
            .holes
            .iter()
            .filter(move |hole| is_played(hole, player));
        own.map(move |hole| (seat.distance(hole.center), hole.name, player))
    });
    let far: Vec<(f64, HoleName, u32)> = far.filter(|(away, ..)| *away > reach + HAIR).collect();
    let &(worst, name, player) = far.iter().max_by(|a, b| a.0.total_cmp(&b.0))?;
    let mut names: Vec<HoleName> = far.iter().map(|(_, name, _)| *name).collect();
    names.sort_by_key(|name| name.id());
    names.dedup();
    let length = |mm: f64| show_length((mm * 10.0).round() / 10.0, board.units);
    let message = format!(
        "{} out of reach. Worst: {name}, {} from where player {player} sits; the limit is {}. Plan a turntable or a \
         smaller board.",
        counted(names.len(), "hole is", "holes are"),
        length(worst),
        show_length(reach, board.units)
    );
    Some(
        Finding::new(Severity::Caution, Rule::Reach, message)
            .measuring(Measure::mm(worst), Measure::mm(reach))
            .about(names)
            .mended_by(&[Mend::PlanTurntable]),
    )
}

/// Where a player sits: the edge of the board on the axis of the sector.
fn sit(board: &Board, axis: Angle) -> Point {
    point_at(board.blank.radius(), axis)
}

/// Whether a player's pieces come to a hole.
fn is_played(hole: &Hole, player: u32) -> bool {
    let id = hole.name.id();
    match id.role() {
        Role::Home | Role::Start => id.player() == player,
        Role::Track | Role::Extra | Role::Center => true,
    }
}

/// The rim outside the pieces, mm, and the hole where it is least; `None` for a board without holes for pieces.
///
/// A piece may be wider than its bore, so that the rim for hands is less than the margin of wood. The roundover belongs to it:
/// fingers hold on to that as well.
pub fn least_rim(workpiece: &Workpiece) -> Option<(f64, HoleName)> {
    let board = workpiece.board();
    let rim = |hole: &Hole| {
        let half = hole.bore.radius().max(board.piece.diameter / 2.0);
        let out = hole.center.to_vec2().length() + half;
        (board.blank.radius() - out, hole.name)
    };
    let rims = workpiece.seats().iter().map(rim);
    rims.min_by(|a, b| a.0.total_cmp(&b.0))
}

/// A rim too narrow for the hand that turns the board.
///
/// The named hole is the one whose piece is nearest to the edge; others may be as near.
fn rim(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let (least, name) = least_rim(workpiece)?;
    let wanted = board.limits.hands;
    (least < wanted - HAIR).then(|| {
        let length = |mm: f64| Measure::mm(mm).shown(board.units);
        let rim = if least > 0.0 {
            format!("only {} of rim", length(least))
        } else {
            "no rim".to_owned()
        };
        let message = format!(
            "There is {rim} outside the piece in {name}, and the hand that turns the board may knock it off. Make the \
             board larger, to leave {}.",
            length(wanted)
        );
        Finding::new(Severity::Caution, Rule::Reach, message)
            .measuring(Measure::mm(least), Measure::mm(wanted))
            .about(vec![name])
            .mended_by(&[Mend::RimForHands])
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Base;
    use testkit::assert_near;

    fn found(board: &Board) -> Option<Finding> {
        check(&Workpiece::of(board).unwrap())
    }

    /// A ring about the pin whose farthest hole is opposite: its radius and that of the board.
    fn ring(reach: f64) -> Board {
        let mut board = Board {
            home: 0,
            start: 0,
            players: 2,
            spaces: 48,
            ..Board::default()
        };
        board.limits.reach = reach;
        board
    }

    #[test]
    fn the_farthest_hole_is_across_the_board() {
        let radius = geometry::ring_radius(19.0, 96);
        let across = radius + 320.0;
        assert_eq!(found(&ring(across)), None);
        assert_eq!(
            found(&ring(22.0 * board::INCH)).is_some(),
            across > 22.0 * board::INCH
        );
        let far = found(&ring(across - 0.01)).unwrap();
        assert_eq!((far.severity, far.holes.len()), (Severity::Caution, 2));
        assert_eq!(far.mends, [Mend::PlanTurntable]);
        let Some(Measure { value, .. }) = far.measured else {
            panic!("no measure")
        };
        assert_near!(value, across, 1e-9);
    }

    #[test]
    fn another_players_lane_need_not_be_reached() {
        let mut board = Board::default();
        let radius = geometry::ring_radius(19.0, 96);
        board.limits.reach = radius + 320.0;
        assert_eq!(found(&board), None);
        board.limits.reach = 0.0;
        let all = found(&board).unwrap().holes.len();
        assert_eq!(all, 145);
    }

    #[test]
    fn a_board_that_turns_has_a_rim_to_hold() {
        let turning = |diameter: f64| {
            let mut board = ring(100.0);
            board.base = Some(Base::default());
            board.blank.diameter = diameter;
            found(&board)
        };
        // The pieces of 16 mm are wider than their bores.
        let out = 2.0 * (geometry::ring_radius(19.0, 96) + 8.0);
        assert_eq!(turning(out + 20.0 + 1e-6), None);
        assert_eq!(turning(out + 2.0 * board::INCH * 13.0 / 32.0), None);
        let narrow = turning(out + 19.0).unwrap();
        assert_eq!(narrow.severity, Severity::Caution);
        assert_eq!(narrow.mends, [Mend::RimForHands]);
        let Some(Measure { value, .. }) = narrow.measured else {
            panic!("no measure")
        };
        assert_near!(value, 9.5, 1e-9);
    }
}
