//! The rotation of the pattern relative to the seams.

use board::{HoleId, HoleName, Units};
use geometry::{Angle, Circle, Measure, Seam};

use crate::Workpiece;
use crate::check::HAIR;

/// The rotation of the pattern relative to the seams, now and at its best.
#[derive(Debug, Clone, PartialEq)]
pub struct SeamTurns {
    /// Distance of the nearest bore from any seam by rotation: (degrees clockwise, mm), from the present rotation over one
    /// sector; negative if a seam cuts a bore.
    pub curve: Vec<(f64, f64)>,
    /// The bore nearest to a seam at the present rotation.
    pub now: ToSeam,
    /// The rotation of the pattern at which the nearest bore is farthest from the seams, degrees.
    pub best: f64,
    /// The bore nearest to a seam at the best rotation.
    pub at_best: ToSeam,
    /// Distance of the nearest hole center from any seam, mm, now and at the rotation that is best for centers.
    pub centers: (f64, f64),
}

/// The bore nearest to a seam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToSeam {
    /// Its distance from the seam, mm; negative if the seam cuts it.
    pub mm: f64,
    /// Its hole.
    pub hole: HoleName,
}

impl SeamTurns {
    /// Whether another rotation keeps the bores farther from the seams.
    pub fn can_be_better(&self) -> bool {
        self.at_best.mm > self.now.mm + 1e-6
    }

    /// Whether some rotation keeps every bore this far from the seams, mm.
    pub fn clears(&self, limit: f64) -> bool {
        self.at_best.mm >= limit - HAIR
    }

    /// The sentence on the best rotation where none clears every bore, without its period: "no angle clears every hole; at 29° the
    /// worst is cut least, 1.6 mm".
    pub fn bound(&self, units: Units) -> String {
        let angle = board::Measure::degrees((self.best * 10.0).round() / 10.0).shown(units);
        let worst = board::Measure::mm(self.at_best.mm.abs()).shown(units);
        if self.at_best.mm < 0.0 {
            format!("no angle clears every hole; at {angle} the worst is cut least, {worst} deep")
        } else {
            format!(
                "no angle keeps every hole clear by the limit; at {angle} the nearest is farthest, {worst} away"
            )
        }
    }
}

/// Samples of [`SeamTurns::curve`], about three per pixel of a panel; more would not show.
const SAMPLES: usize = 361;

/// The rotation of the pattern relative to the seams, measured to the edges of the bores. The center hole does not count, since
/// no rotation moves it. None without seams, or without other holes.
pub(crate) fn seam_turns(workpiece: &Workpiece) -> Option<SeamTurns> {
    let board = workpiece.board();
    let Seen {
        holes,
        names,
        lines,
        sectors,
    } = Seen::of(workpiece)?;
    let best = geometry::best_turn(&holes, &lines, sectors, Measure::Edge)?;
    let now = geometry::seam_gap(&holes, &lines, Angle::ZERO, Measure::Edge)?;
    let curve = geometry::turn_curve(&holes, &lines, sectors, Measure::Edge, SAMPLES);
    let turned = |turn: Angle| board.rotation + turn.as_degrees();
    Some(SeamTurns {
        curve: curve
            .into_iter()
            .map(|(turn, mm)| (turned(turn), mm))
            .collect(),
        now: ToSeam {
            mm: now.mm,
            hole: *names.get(now.hole)?,
        },
        best: turned(best.turn),
        centers: (
            geometry::seam_gap(&holes, &lines, Angle::ZERO, Measure::Center)?.mm,
            geometry::best_turn(&holes, &lines, sectors, Measure::Center)?
                .gap
                .mm,
        ),
        at_best: ToSeam {
            mm: best.gap.mm,
            hole: *names.get(best.gap.hole)?,
        },
    })
}

/// The rotation in ±180° that keeps the nearest bore as far from any seam as possible, degrees; none without seams.
pub fn best_rotation(workpiece: &Workpiece) -> Option<f64> {
    let seen = Seen::of(workpiece)?;
    let best = geometry::best_turn(&seen.holes, &seen.lines, seen.sectors, Measure::Edge)?;
    let rotation = Angle::degrees(workpiece.board().rotation + best.turn.as_degrees());
    Some(rotation.wrapped_to_half_turns().as_degrees())
}

/// The holes that a rotation moves, and the seams.
struct Seen {
    holes: Vec<Circle>,
    names: Vec<HoleName>,
    lines: Vec<Seam>,
    sectors: u32,
}

impl Seen {
    /// The bores that rotate with the pattern, which are all but the center hole, and the seams; none without either.
    fn of(workpiece: &Workpiece) -> Option<Self> {
        let (board, layout) = (workpiece.board(), workpiece.layout());
        let lines: Vec<Seam> = workpiece
            .seams()
            .iter()
            .map(|&offset| Seam {
                normal: Angle::ZERO,
                offset,
            })
            .collect();
        let turning = layout
            .holes
            .iter()
            .filter(|hole| hole.name.id() != HoleId::CENTER);
        let (holes, names): (Vec<_>, Vec<_>) =
            turning.map(|hole| (hole.mouth(), hole.name)).unzip();
        let mirrored = board.edits.iter().all(|edit| edit.mirrored);
        (!lines.is_empty() && !holes.is_empty()).then_some(Self {
            holes,
            names,
            lines,
            sectors: if mirrored { board.players } else { 1 },
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::Build;
    use testkit::assert_near;

    fn halves(rotation: f64) -> Board {
        let mut board = Board {
            home: 0,
            start: 0,
            rotation,
            ..Board::default()
        };
        board.panel.build = Build::Halves;
        board
    }

    #[test]
    fn the_best_rotation_of_a_ring_puts_the_seam_midway_between_two_spaces() {
        let board = halves(10.0);
        let turns = seam_turns(&Workpiece::of(&board).unwrap()).unwrap();
        // 96 spaces at a pitch of 19: half a pitch from where the seam crosses the ring, less a little for the curve of the
        // circle.
        let radius = geometry::ring_radius(19.0, 96);
        let wanted = radius * Angle::degrees(180.0 / 96.0).sin() - 6.0;
        assert_near!(turns.at_best.mm, wanted, 1e-9);
        let turned = Board {
            rotation: best_rotation(&Workpiece::of(&board).unwrap()).unwrap(),
            ..board
        };
        let after = seam_turns(&Workpiece::of(&turned).unwrap()).unwrap();
        assert_near!(after.now.mm, wanted, 1e-9);
        assert_near!(after.centers.0, wanted + 6.0, 1e-9);
        assert!(turns.can_be_better() && !after.can_be_better());
    }

    #[test]
    fn the_curve_begins_at_the_present_rotation_and_never_exceeds_the_best() {
        let board = halves(3.0);
        let turns = seam_turns(&Workpiece::of(&board).unwrap()).unwrap();
        assert_near!(turns.curve[0].0, 3.0, 1e-12);
        assert_near!(turns.curve[0].1, turns.now.mm, 1e-9);
        let most = turns.curve.iter().map(|(_, mm)| *mm).fold(-1e9, f64::max);
        assert!(most <= turns.at_best.mm + 1e-9);
    }

    #[test]
    fn without_seams_there_is_no_best_rotation() {
        let board = Board::default();
        assert_eq!(seam_turns(&Workpiece::of(&board).unwrap()), None);
    }
}
