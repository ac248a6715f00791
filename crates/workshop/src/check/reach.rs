//! Rule: players can reach their holes, and hands that turn the board have a rim to hold.
//!
//! The two belong together: a board too wide to reach across is turned, and a board that is turned is held at its rim. A board
//! without a base or on feet does not turn; one on a turntable or any round base is assumed to.

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
/// A fixed round base counts as turning: the document does not distinguish the two, and a board on it is just as easily turned
/// by hand.
fn turns(board: &Board) -> bool {
    let footing = board.base.map(|base| base.footing);
    matches!(footing, Some(Footing::Round { .. }))
}

/// Holes farther from the player's edge than the player can reach.
///
/// The pieces of every player go all around the track, but only a player's own go into its home lane and start pocket. The
/// reach is measured from the edge where the player sits to the center of the hole, flat along the board, as a hand moves over
/// it.
fn far(workpiece: &Workpiece) -> Option<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let reach = board.limits.reach;
    let sectors = layout.sectors.iter();
    let seats: Vec<Point> = sectors.map(|sector| sit(board, sector.axis())).collect();
    let farthest = |hole: &Hole| {
        let (away, player) = farthest(&seats, hole)?;
        (away > reach + HAIR).then_some((away, player, hole.name))
    };
    let far: Vec<(f64, u32, HoleName)> = layout.holes.iter().filter_map(farthest).collect();
    // Of equally far holes, the last one of the last player.
    let by_distance = |a: &(f64, u32, HoleName), b: &(f64, u32, HoleName)| {
        a.0.total_cmp(&b.0).then(a.1.cmp(&b.1))
    };
    let &(worst, player, name) = far.iter().max_by(|a, b| by_distance(a, b))?;
    let names: Vec<HoleName> = far.iter().map(|(.., name)| *name).collect();
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

/// The player who sits farthest from a hole among those whose pieces go there, with the distance in mm; the last one among
/// equals.
fn farthest(seats: &[Point], hole: &Hole) -> Option<(f64, u32)> {
    /// Squares that differ by less than this may have equal roots.
    const SLACK: f64 = 1e-12;
    let played = (1..)
        .zip(seats)
        .filter(|(player, _)| is_played(hole, *player));
    let square = |seat: &Point| seat.distance_squared(hole.center);
    let most = played
        .clone()
        .map(|(_, seat)| square(seat))
        .fold(0.0, f64::max);
    let far = played.filter(|(_, seat)| square(seat) >= most * (1.0 - SLACK));
    let far = far.map(|(player, seat)| (seat.distance(hole.center), player));
    far.max_by(|a, b| a.0.total_cmp(&b.0))
}

/// The place where a player sits: the edge of the board on the axis of the sector.
fn sit(board: &Board, axis: Angle) -> Point {
    point_at(board.blank.radius(), axis)
}

/// Whether a player's pieces go to a hole.
fn is_played(hole: &Hole, player: u32) -> bool {
    let id = hole.name.id();
    match id.role() {
        Role::Home | Role::Start => id.player() == player,
        Role::Track | Role::Extra | Role::Center => true,
    }
}

/// The rim outside the pieces, mm, and the hole where it is least; `None` for a board without holes for pieces.
///
/// A piece may be wider than its bore, so that the rim for hands can be less than the margin of wood. The roundover is
/// included: fingers hold on to it as well.
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
/// The named hole is the one whose piece is nearest to the edge; others may be equally near.
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

    /// An ordinary board, measured player by player: the same holes and the same worst one, although many are equal.
    #[test]
    fn holes_out_of_reach_match_those_found_seat_by_seat() {
        for (players, rotation) in [(2, 0.0), (4, 0.0), (6, 7.5), (5, 33.0)] {
            let mut board = Board {
                players,
                rotation,
                ..Board::default()
            };
            board.limits.reach = 380.0;
            let workpiece = Workpiece::of(&board).unwrap();
            let layout = workpiece.layout();
            let seats = layout.sectors.iter().zip(1..);
            let far = seats.flat_map(|(sector, player)| {
                let seat = sit(&board, sector.axis());
                let own = layout
                    .holes
                    .iter()
                    .filter(move |hole| is_played(hole, player));
                own.map(move |hole| (seat.distance(hole.center), player, hole.name))
            });
            let far: Vec<_> = far.filter(|(away, ..)| *away > 380.0).collect();
            let worst = far.iter().max_by(|a, b| a.0.total_cmp(&b.0)).unwrap();
            let found = check(&workpiece).unwrap();
            let told = format!("Worst: {}, ", worst.2);
            assert!(found.message.contains(&told), "{told}: {}", found.message);
            let told = format!("player {} sits", worst.1);
            assert!(found.message.contains(&told), "{told}: {}", found.message);
            let is_far = |name: &board::HoleName| far.iter().any(|(.., far)| far == name);
            let names = layout.holes.iter().map(|hole| hole.name).filter(is_far);
            assert_eq!(found.holes, names.collect::<Vec<_>>());
        }
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
