//! The cut for the lid of a recess: a ledge around it, or a groove from it to the edge of the board.

use board::{Board, LidHold, Recess, RecessShape, Toward};
use geometry::Angle;

use crate::Workpiece;
use crate::recess::lid_size::{LidSize, lid_size};
use crate::recess::recess_outline;

/// The lid of a recess, and the cuts for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lid {
    /// The cut for it, as a recess of its own, as deep as the lid is thick; none without a lid, and for a lid that lies in the
    /// recess itself.
    ///
    /// A dovetailed groove is represented by the box around it, which is as wide as the groove at its top. For a bore that does
    /// not narrow toward the top face, and for anything above it, the box is as near as the groove itself.
    pub cut: Option<Recess>,
    /// The opening of a sliding lid's dovetailed groove: the groove at the underside, where it is narrowest; none for a lid that
    /// does not slide.
    pub mouth: Option<Recess>,
    /// The size of the lid; none without a lid.
    pub size: Option<LidSize>,
}

impl Lid {
    /// The planned lid of a board.
    pub(crate) fn of(board: &Board) -> Self {
        let cut = lid_cut(board);
        Self {
            cut,
            mouth: lid_mouth(board),
            size: lid_size(board, cut),
        }
    }
}

/// The cut for the lid: as far beyond the recess as the ledge is wide, or a groove to the edge of the board.
fn lid_cut(board: &Board) -> Option<Recess> {
    let recess = board.recess.filter(|recess| recess.lid > 0.0)?;
    let overlap = recess.lid_fit.overlap;
    match recess.lid_fit.hold {
        LidHold::LiesIn if overlap > 0.0 => Some(Recess {
            shape: grown(recess.shape, overlap),
            depth: recess.lid,
            ..recess
        }),
        LidHold::LiesIn => None,
        LidHold::Slides { toward, .. } => {
            let beyond = overlap + lean(&recess);
            Some(groove(&recess, beyond, toward, board.blank.radius()))
        }
    }
}

/// The cut at the underside, where a dovetailed groove is narrowest.
fn lid_mouth(board: &Board) -> Option<Recess> {
    let recess = board.recess.filter(|recess| recess.lid > 0.0)?;
    let LidHold::Slides { toward, .. } = recess.lid_fit.hold else {
        return None;
    };
    let overlap = recess.lid_fit.overlap;
    Some(groove(&recess, overlap, toward, board.blank.radius()))
}

/// Distance by which each side of a dovetailed groove narrows from its top to the underside, mm: depth times the tangent of the
/// dovetail angle; 0 for a lid that does not slide.
pub fn lean(recess: &Recess) -> f64 {
    match recess.lid_fit.hold {
        LidHold::LiesIn => 0.0,
        LidHold::Slides { angle, .. } => recess.lid * Angle::degrees(angle).tan(),
    }
}

/// The name of the cut.
pub const fn lid_cut_name(cut: &Recess) -> &'static str {
    match cut.lid_fit.hold {
        LidHold::LiesIn => "ledge of the lid",
        LidHold::Slides { .. } => "groove of the lid",
    }
}

/// Distance from the center pin to the farthest point of recess and lid that has to be inside the board, mm; for a groove, to
/// its closed end.
pub fn inner_reach(workpiece: &Workpiece, recess: &Recess) -> f64 {
    let of_recess = recess_outline(recess).farthest();
    let Some(cut) = workpiece.lid().cut else {
        return of_recess;
    };
    let LidHold::Slides { toward, .. } = recess.lid_fit.hold else {
        return of_recess.max(recess_outline(&cut).farthest());
    };
    let (length, width) = cut.shape.sides();
    let [x, y] = cut.at;
    let end = x - length / 2.0 * sign(toward);
    of_recess.max(libm::hypot(end, y.abs() + width / 2.0))
}

/// The outline of a recess enlarged by a width. A bit that follows the wall of the recess leaves corners whose radius is larger
/// by that width; square corners stay square, which is more than any bit cuts.
fn grown(shape: RecessShape, by: f64) -> RecessShape {
    match shape {
        RecessShape::Round { diameter } => RecessShape::Round {
            diameter: diameter + 2.0 * by,
        },
        RecessShape::Straight { length, width, .. } => RecessShape::Straight {
            length: length + 2.0 * by,
            width: width + 2.0 * by,
            corner: match shape.corner() {
                0.0 => 0.0,
                corner => corner + by,
            },
        },
    }
}

/// A groove from the far end of the recess to beyond the edge of the board; its corners count as square.
fn groove(recess: &Recess, beyond: f64, toward: Toward, edge: f64) -> Recess {
    let [x, y] = recess.at;
    let (long, wide) = recess.shape.sides();
    let closed = x * sign(toward) - long / 2.0 - beyond;
    Recess {
        shape: RecessShape::Straight {
            length: (edge - closed).max(0.0),
            width: wide + 2.0 * beyond,
            corner: 0.0,
        },
        at: [f64::midpoint(edge, closed) * sign(toward), y],
        depth: recess.lid,
        ..*recess
    }
}

/// The sign of a direction; right is positive.
const fn sign(toward: Toward) -> f64 {
    match toward {
        Toward::Left => -1.0,
        Toward::Right => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::LidFit;
    use testkit::assert_near;

    fn with(hold: LidHold, overlap: f64) -> Board {
        Board {
            recess: Some(Recess {
                shape: RecessShape::Straight {
                    length: 200.0,
                    width: 90.0,
                    corner: 0.0,
                },
                at: [-20.0, 10.0],
                lid: 5.0,
                lid_fit: LidFit {
                    hold,
                    overlap,
                    ..LidFit::default()
                },
                ..Recess::default()
            }),
            ..Board::default()
        }
    }

    #[test]
    fn a_ledge_is_as_wide_as_its_overlap_and_needs_one() {
        assert_eq!(lid_cut(&with(LidHold::LiesIn, 0.0)), None);
        let cut = lid_cut(&with(LidHold::LiesIn, 4.0)).unwrap();
        let shape = RecessShape::Straight {
            length: 208.0,
            width: 98.0,
            corner: 0.0,
        };
        assert_eq!((cut.shape, cut.depth), (shape, 5.0));
        let mut rounded = with(LidHold::LiesIn, 4.0);
        if let Some(RecessShape::Straight { corner, .. }) =
            rounded.recess.as_mut().map(|recess| &mut recess.shape)
        {
            *corner = 6.0;
        }
        assert_near!(lid_cut(&rounded).unwrap().shape.corner(), 10.0, 1e-12);
        assert_eq!(lid_cut(&Board::default()), None);
        assert_eq!(lid_mouth(&with(LidHold::LiesIn, 4.0)), None);
    }

    #[test]
    fn a_groove_runs_from_the_far_end_of_the_recess_beyond_the_edge() {
        for (toward, closed) in [(Toward::Right, -129.0), (Toward::Left, 89.0)] {
            let hold = LidHold::Slides {
                angle: 45.0,
                toward,
            };
            let board = with(hold, 4.0);
            let cut = lid_cut(&board).unwrap();
            let (length, width) = cut.shape.sides();
            // 4 mm beyond the recess, and 5 mm more at the top of the groove.
            assert_near!(width, 108.0, 1e-12);
            let ends = [cut.at[0] - length / 2.0, cut.at[0] + length / 2.0];
            let wanted = if toward == Toward::Right {
                [closed, 320.0]
            } else {
                [-320.0, closed]
            };
            assert_near!(ends[0], wanted[0], 1e-9);
            assert_near!(ends[1], wanted[1], 1e-9);
            let mouth = lid_mouth(&board).unwrap();
            let (length, width) = mouth.shape.sides();
            assert_near!(width, 98.0, 1e-12);
            let sign = if toward == Toward::Right { 1.0 } else { -1.0 };
            assert_near!(mouth.at[0] - sign * length / 2.0, closed + sign * 5.0, 1e-9);
            let reach = inner_reach(&Workpiece::of(&board).unwrap(), &board.recess.unwrap());
            let corner: f64 = libm::hypot(closed, 64.0);
            assert_near!(reach, corner.max(libm::hypot(120.0, 55.0)), 1e-9);
        }
    }
}
