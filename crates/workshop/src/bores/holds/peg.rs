//! The position of a peg in its hole with a little play, and the effort that dislodges it.

use board::{Bore, Piece};
use geometry::Angle;

use crate::bores::holds::{Hold, Leaving};

/// The position of a peg in its hole; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PegStand {
    /// Diameter of the hole less that of the shank.
    pub play: f64,
    /// Depth of the peg in the hole.
    pub deep: f64,
    /// Height above the top face; negative if it is sunk.
    pub above: f64,
    /// The most it can lean.
    pub lean: Angle,
    /// Distance that its upper end moves from upright when it leans that far.
    pub sway: f64,
    /// The sideways acceleration, in units of gravity, from which it leans on a level board; `None` if it cannot lean.
    pub leans_from: Option<f64>,
    /// The effort from which it could climb out; `None` if it cannot lean, and so stays in.
    pub hold: Option<Hold>,
}

/// The position of a peg in a bore; `None` if its shank does not fit.
///
/// A peg without play stays in its hole. One with play leans until its shank touches the rim on one side and the wall at the
/// bottom on the other. The model is a uniform cylinder that stands on the floor, with contacts free of friction: then the rim
/// lifts the leaning shank once the sideways push is large enough. Friction, which is high between wood and wood, holds it
/// longer or for good, so the result is a safe lower bound. A peg with a heavy head holds less well.
///
/// ```
/// use board::{Bore, Bottom, Piece, PieceKind};
/// let bore = Bore { diameter: 6.2, depth: 10.0, bottom: Bottom::Flat };
/// let peg = Piece { kind: PieceKind::Peg, height: 30.0, shank: Some(6.0), ..Piece::default() };
/// let stand = workshop::peg_stand(&peg, bore).unwrap();
/// assert!((stand.play - 0.2).abs() < 1e-12);
/// assert_eq!((stand.deep, stand.above), (10.0, 20.0));
/// // 0.2 mm of play over 10 mm of depth is a good degree.
/// assert!(stand.lean.as_degrees() > 1.1 && stand.lean.as_degrees() < 1.2);
/// ```
pub fn peg_stand(piece: &Piece, bore: Bore) -> Option<PegStand> {
    let shank = piece.shank.unwrap_or(bore.diameter);
    let play = bore.diameter - shank;
    let above = piece.height - bore.depth;
    let deep = bore.depth.min(piece.height);
    if play < 0.0 || deep <= 0.0 {
        return None;
    }
    let lean = lean(bore.diameter, shank, deep);
    let stands_out = above > 0.0 && play > 0.0;
    Some(PegStand {
        play,
        deep,
        above,
        lean,
        sway: piece.height * lean.sin(),
        leans_from: stands_out.then_some(shank / piece.height),
        hold: stands_out
            .then(|| climbing(shank, piece.height / 2.0, deep / lean.cos(), lean))
            .flatten()
            .map(|sideways| Hold::by_weight(Leaving::ClimbsOut, sideways)),
    })
}

/// The lean of a shank in a hole. It stands on its lower corner on the floor, its other lower corner touches the wall, and its
/// far side touches the rim, so that hole = shank · cos + depth · tan of the lean. A quarter turn where it falls flat before
/// that. Exact, by Newton's method from upright, from where no step overshoots the lean.
fn lean(hole: f64, shank: f64, deep: f64) -> Angle {
    /// Far more steps than needed: the error roughly squares with each.
    const STEPS: u32 = 60;
    let flat = Angle::degrees(90.0);
    let mut lean = 0.0;
    for _ in 0..STEPS {
        let (sin, cos) = Angle::radians(lean).sin_cos();
        let slope = deep / (cos * cos) - shank * sin;
        lean += (hole - shank * cos - deep * sin / cos) / slope;
        if slope <= 0.0 || Angle::radians(lean) >= flat {
            return flat;
        }
    }
    Angle::radians(lean)
}

/// The sideways acceleration, in units of gravity, at which the rim alone lifts the whole peg.
///
/// Moments about the corner that leans on the wall: weight and push act at the center of the peg, `middle` up its axis and half
/// the shank across; the force of the rim, square to the shank, acts `deep` up. The peg lifts when the upward part of that
/// force, its sine of the lean, equals the weight.
fn climbing(shank: f64, middle: f64, deep: f64, lean: Angle) -> Option<f64> {
    let (sin, cos) = lean.sin_cos();
    let arm = middle * cos - shank / 2.0 * sin;
    let needed = deep / sin - middle * sin - shank / 2.0 * cos;
    (arm > 0.0 && needed > 0.0).then(|| needed / arm)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bottom, PieceKind};
    use proptest::prelude::*;
    use testkit::assert_near;

    fn stand(shank: f64, height: f64, depth: f64) -> Option<PegStand> {
        let bore = Bore {
            diameter: 8.0,
            depth,
            bottom: Bottom::Flat,
        };
        let piece = Piece {
            kind: PieceKind::Peg,
            height,
            shank: Some(shank),
            ..Piece::default()
        };
        peg_stand(&piece, bore)
    }

    #[test]
    fn a_peg_in_a_bore_of_almost_no_depth_falls_flat() {
        for (shank, depth) in [(0.1, f64::MIN_POSITIVE), (7.9, 1e-200), (0.1, 1e-3)] {
            let peg = stand(shank, 30.0, depth).unwrap();
            assert_near!(peg.lean.as_degrees(), 90.0, 1e-9);
        }
    }

    #[test]
    fn a_peg_leans_until_rim_and_wall_stop_it() {
        let peg = stand(7.5, 40.0, 10.0).unwrap();
        let (sin, cos) = peg.lean.sin_cos();
        // One corner on the floor, the other on the wall, the far side on the rim of a hole of 8 mm.
        assert_near!(7.5 * cos + 10.0 * sin / cos, 8.0, 1e-12);
        // It is about play over depth.
        assert_near!(peg.lean.tan(), 0.05, 1.5e-3);
        assert_near!(peg.sway, 40.0 * peg.lean.sin(), 1e-12);
        assert_eq!((peg.above, peg.deep), (30.0, 10.0));
        // From upright it leans when the push passes its lower edge: 3.75 across, 20 up.
        assert_near!(peg.leans_from.unwrap(), 3.75 / 20.0, 1e-12);
    }

    #[test]
    fn a_thick_peg_in_a_dimple_falls_flat() {
        let peg = stand(5.0, 40.0, 0.5).unwrap();
        assert_near!(peg.lean.as_degrees(), 90.0, 1e-9);
        assert_eq!(stand(8.0, 40.0, 10.0).unwrap().lean.as_degrees(), 0.0);
    }

    #[test]
    fn the_rim_lifts_a_leaning_peg_when_it_carries_its_whole_weight() {
        let peg = stand(7.5, 40.0, 10.0).unwrap();
        let sideways = peg.hold.unwrap().sideways;
        // Forces on the peg, of weight 1: N from the rim, square to the shank, and a horizontal one from the wall. Moments about the
        // center of the peg, in the frame of the page.
        let (sin, cos) = peg.lean.sin_cos();
        let rim = 1.0 / sin;
        let wall = rim * cos - sideways;
        let place = |up: f64, across: f64| (up * sin + across * cos, up * cos - across * sin);
        let (middle, corner, edge) = (place(20.0, 3.75), place(0.0, 0.0), place(10.0 / cos, 7.5));
        let moment = |at: (f64, f64), force: (f64, f64)| {
            (at.0 - middle.0) * force.1 - (at.1 - middle.1) * force.0
        };
        let turned = moment(edge, (-rim * cos, rim * sin)) + moment(corner, (wall, 0.0));
        assert_near!(turned, 0.0, 1e-9);
        assert!(sideways > 5.0, "{sideways}");
    }

    #[test]
    fn a_peg_that_fits_or_is_sunk_stays_and_one_too_thick_does_not_go_in() {
        let fits = stand(8.0, 40.0, 10.0).unwrap();
        assert_eq!((fits.hold, fits.leans_from, fits.sway), (None, None, 0.0));
        let sunk = stand(7.5, 9.0, 10.0).unwrap();
        assert_eq!((sunk.hold, sunk.above, sunk.deep), (None, -1.0, 9.0));
        assert_eq!(stand(8.1, 40.0, 10.0), None);
        assert_eq!(stand(7.5, 40.0, 0.0), None);
    }

    proptest! {
        #[test]
        fn less_play_and_more_depth_hold_better(play in 0.1..0.6_f64, depth in 6.0..15.0_f64) {
            let sideways =
                |play: f64, depth: f64| stand(8.0 - play, 40.0, depth).unwrap().hold.unwrap().sideways;
            prop_assert!(sideways(play, depth) > sideways(play + 0.1, depth));
            prop_assert!(sideways(play, depth) < sideways(play, depth + 1.0));
        }
    }
}
