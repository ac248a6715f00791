//! The hold of a magnet piece on the steel set into its hole.

use board::{Bore, Magnet, Piece};
use geometry::Angle;

use crate::bores::holds::{Hold, Leaving, insert_below, weight};

/// The hold of a magnet piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MagnetHold {
    /// Gap between magnet and steel, mm: the setback of both plus the finish.
    pub gap: f64,
    /// The share of the measured pull that remains over that gap; an estimate.
    pub left: f64,
    /// The pull that remains, N.
    pub pull: f64,
    /// The effort that dislodges the piece.
    pub hold: Hold,
}

/// The hold of a magnet piece on the insert of a bore; `None` if its magnet was not measured.
///
/// On a board that is turned, the piece slides when m ω² r exceeds μ (F + m g), for a pull F and friction μ, and tips over its
/// edge when the push at half its height exceeds what pull and weight hold at half its diameter. The steeper a board is tilted,
/// the less the weight holds; the pull stays the same.
pub fn magnet_hold(piece: &Piece, bore: Bore) -> Option<MagnetHold> {
    let magnet = piece.magnet?;
    let gap = insert_below(piece, bore).max(0.0) + magnet.set_back + magnet.finish;
    let left = share_of_pull(&magnet, gap);
    let pull = magnet.pull * left;
    let edge = piece.diameter / piece.height;
    let (leaving, grip) = if magnet.friction <= edge {
        (Leaving::Slides, magnet.friction)
    } else {
        (Leaving::Tips, edge)
    };
    let share = pull / weight(piece);
    Some(MagnetHold {
        gap,
        left,
        pull,
        hold: Hold {
            leaving,
            sideways: grip * (share + 1.0),
            tilt: tilt(grip, share),
        },
    })
}

/// The share of a disc magnet's pull that remains over a gap: an estimate.
///
/// The field on the axis of an evenly magnetized cylinder of radius R and thickness L, at a distance x, is proportional to (L +
/// x) / √(R² + (L + x)²) - x / √(R² + x²); the pull on flat iron is roughly proportional to the square of the field. From
/// memory. On a small ball it falls off faster: measure with a piece of veneer between.
pub fn share_of_pull(magnet: &Magnet, gap: f64) -> f64 {
    let radius = magnet.diameter / 2.0;
    let part = |along: f64| along / libm::hypot(radius, along);
    let field = |gap: f64| part(magnet.thickness + gap) - part(gap);
    let share = field(gap) / field(0.0);
    share * share
}

/// The gap between magnet and steel over which a share of the pull remains, mm: the inverse of [`share_of_pull`]. For a share
/// of 1 or more the gap is 0; for a tiny share it is the widest gap searched.
///
/// The field falls steadily as the gap widens, so that bisection finds the gap to the last digit.
pub fn gap_for_share(magnet: &Magnet, share: f64) -> f64 {
    /// The widest gap searched, mm; no board is that thick.
    const WIDEST: f64 = 1000.0;
    let (mut near, mut far) = (0.0, WIDEST);
    loop {
        let middle = f64::midpoint(near, far);
        if middle <= near || middle >= far {
            return near;
        }
        if share_of_pull(magnet, middle) >= share {
            near = middle;
        } else {
            far = middle;
        }
    }
}

/// The tilt at which the part of the weight along the board exceeds the grip from the pull and the rest of the weight: sin t =
/// grip (share + cos t), for a pull of `share` times the weight; `None` if that is beyond upright.
fn tilt(grip: f64, share: f64) -> Option<Angle> {
    let friction = Angle::atan2(grip, 1.0);
    let by_pull = share * friction.sin();
    let tilt = Angle::radians(friction.as_radians() + Angle::asin(by_pull.min(1.0)).as_radians());
    (by_pull <= 1.0 && tilt.as_degrees() <= 90.0).then_some(tilt)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bottom, PieceKind};
    use proptest::prelude::*;
    use testkit::assert_near;

    fn piece(magnet: Magnet) -> Piece {
        Piece {
            kind: PieceKind::Magnet,
            diameter: 15.0,
            height: 30.0,
            mass: Some(10.0),
            shank: Some(10.0),
            magnet: Some(magnet),
            ..Piece::default()
        }
    }

    const BORE: Bore = Bore {
        diameter: 10.0,
        depth: 10.0,
        bottom: Bottom::Flat,
    };

    fn held(magnet: Magnet) -> MagnetHold {
        magnet_hold(&piece(magnet), BORE).unwrap()
    }

    fn bare(pull: f64, friction: f64) -> Magnet {
        Magnet {
            pull,
            friction,
            finish: 0.0,
            ..Magnet::default()
        }
    }

    #[test]
    fn a_piece_slides_or_tips_whichever_comes_first() {
        // 10 g weigh 0.098_066_5 N; the pull is 1/4 of that.
        let slides = held(bare(0.098_066_5 / 4.0, 0.3));
        assert_eq!((slides.hold.leaving, slides.left), (Leaving::Slides, 1.0));
        assert_near!(slides.hold.sideways, 0.3 * 1.25, 1e-12);
        // 15 mm across and 30 mm high: the piece tips before it slides where friction is over a half.
        let tips = held(bare(0.098_066_5 / 4.0, 0.6));
        assert_eq!(tips.hold.leaving, Leaving::Tips);
        assert_near!(tips.hold.sideways, 0.5 * 1.25, 1e-12);
    }

    #[test]
    fn without_pull_a_piece_slides_at_the_tilt_of_its_friction() {
        let tilt = held(bare(0.0, 0.3)).hold.tilt.unwrap();
        assert_near!(tilt.tan(), 0.3, 1e-12);
        // A piece that stays on an upright board: friction times pull exceeds the weight.
        assert_eq!(held(bare(0.098_066_5 * 4.0, 0.3)).hold.tilt, None);
    }

    #[test]
    fn gaps_reduce_the_pull() {
        let magnet = Magnet {
            set_back: 0.5,
            finish: 0.2,
            ..bare(3.0, 0.3)
        };
        let found = held(magnet);
        assert_near!(found.gap, 0.7, 1e-12);
        // 8 mm across and 3 mm thick: 3.7 / √(16 + 13.69) - 0.7 / √(16 + 0.49), divided by 3 / 5.
        let field = 3.7 / 29.69_f64.sqrt() - 0.7 / 16.49_f64.sqrt();
        assert_near!(found.left, (field / 0.6) * (field / 0.6), 1e-12);
        assert_near!(found.pull, 3.0 * found.left, 1e-12);
        let deeper = Bore {
            depth: 11.0,
            ..BORE
        };
        assert_near!(magnet_hold(&piece(magnet), deeper).unwrap().gap, 1.7, 1e-12);
        let unknown = Piece {
            magnet: None,
            ..piece(magnet)
        };
        assert_eq!(magnet_hold(&unknown, BORE), None);
    }

    #[test]
    fn no_gap_leaves_the_whole_pull() {
        let magnet = Magnet::default();
        assert_near!(gap_for_share(&magnet, 1.0), 0.0, 1e-12);
        assert_eq!(gap_for_share(&magnet, 2.0), 0.0);
        assert_near!(gap_for_share(&magnet, 0.0), 1000.0, 1e-9);
    }

    proptest! {
        #[test]
        fn the_gap_for_a_share_leaves_that_share(
            share in 0.001..1.0_f64,
            (diameter, thickness) in (3.0..30.0_f64, 1.0..15.0_f64),
        ) {
            let magnet = Magnet { diameter, thickness, ..Magnet::default() };
            let gap = gap_for_share(&magnet, share);
            prop_assert!((share_of_pull(&magnet, gap) - share).abs() < 1e-9);
        }

        #[test]
        fn at_its_tilt_a_piece_is_just_held(friction in 0.05..0.5_f64, pull in 0.0..0.09_f64) {
            let found = held(bare(pull, friction));
            let share = pull / 0.098_066_5;
            if let Some(tilt) = found.hold.tilt {
                let (sin, cos) = tilt.sin_cos();
                prop_assert!((sin - friction * (share + cos)).abs() < 1e-9);
            } else {
                // It holds even upright.
                prop_assert!(friction * share >= 1.0 - 1e-9);
            }
        }
    }
}
