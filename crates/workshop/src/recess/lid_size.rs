//! The size of the lid of a recess as it is cut: its place less the clearance.

use board::{Board, LidHold, Recess, RecessShape};

use crate::recess::lid_cut::lean;

/// The size of a lid when it is made, rounded to 0.01 mm; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LidSize {
    /// Its outline; for a lid with slanted sides, that of its wider face, which is inside.
    pub shape: RecessShape,
    /// Thickness.
    pub thickness: f64,
    /// By how much its outer face is narrower on each slanted side.
    pub leans_in: f64,
}

impl LidSize {
    /// Width of its outer face across the grain, as made; on a sliding lid this face is the narrower one.
    pub fn outer(&self) -> f64 {
        let (_, inner) = self.shape.sides();
        ruled(inner - 2.0 * self.leans_in)
    }
}

/// The lid of a board's recess; `None` if no lid is planned, or its clearance exceeds its size.
pub fn lid_size(board: &Board, cut: Option<Recess>) -> Option<LidSize> {
    let recess = board.recess.filter(|recess| recess.lid > 0.0)?;
    let place = cut.unwrap_or(recess);
    let leans_in = lean(&recess);
    let clearance = recess.lid_fit.clearance;
    let shape = match (place.shape, recess.lid_fit.hold) {
        (RecessShape::Round { diameter }, _) => RecessShape::Round {
            diameter: diameter - clearance,
        },
        (shape, LidHold::LiesIn) => smaller(shape, clearance, clearance),
        // Along the grain it meets the closed end, and is cut flush with the edge of the board.
        (shape, LidHold::Slides { .. }) => smaller(shape, 0.0, clearance),
    };
    let shape = to_a_rule(shape);
    let (length, width) = shape.sides();
    (length > 0.0 && width > 2.0 * leans_in).then_some(LidSize {
        shape,
        thickness: recess.lid,
        leans_in,
    })
}

/// A length rounded to 0.01 mm, so that every table and sentence shows the same one.
///
/// Tables show hundredths and sentences as many digits as one types; once rounded, both agree in either unit.
fn ruled(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}

/// A shape with its sizes rounded to 0.01 mm.
fn to_a_rule(shape: RecessShape) -> RecessShape {
    match shape {
        RecessShape::Round { diameter } => RecessShape::Round {
            diameter: ruled(diameter),
        },
        RecessShape::Straight {
            length,
            width,
            corner,
        } => RecessShape::Straight {
            length: ruled(length),
            width: ruled(width),
            corner: ruled(corner),
        },
    }
}

/// A rectangle less a clearance along and across the grain.
fn smaller(shape: RecessShape, along: f64, across: f64) -> RecessShape {
    let mut shape = shape;
    if let RecessShape::Straight {
        length,
        width,
        corner,
    } = &mut shape
    {
        *length -= along;
        *width -= across;
        // The gap is the same all around.
        *corner = (*corner - across / 2.0).max(0.0);
    }
    shape
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Lid;
    use board::{LidFit, Recess, Toward};
    use testkit::assert_near;

    fn lid(shape: RecessShape, hold: LidHold) -> LidSize {
        let recess = Recess {
            shape,
            lid: 5.0,
            lid_fit: LidFit {
                hold,
                overlap: 4.0,
                clearance: 0.6,
                ..LidFit::default()
            },
            ..Recess::default()
        };
        let board = Board {
            recess: Some(recess),
            ..Board::default()
        };
        Lid::of(&board).size.unwrap()
    }

    #[test]
    fn a_round_lid_is_its_place_less_the_clearance() {
        let lid = lid(RecessShape::Round { diameter: 120.0 }, LidHold::LiesIn);
        assert_eq!(lid.shape, RecessShape::Round { diameter: 127.4 });
        assert_eq!((lid.thickness, lid.leans_in), (5.0, 0.0));
    }

    #[test]
    fn a_sliding_lid_is_wider_inside_than_outside() {
        let slides = LidHold::Slides {
            angle: 14.0,
            toward: Toward::Right,
        };
        let lid = lid(RecessShape::Round { diameter: 90.0 }, slides);
        let lean = 5.0 * libm::tan(14_f64.to_radians());
        assert_near!(lid.leans_in, lean, 1e-12);
        let RecessShape::Straight { width, .. } = lid.shape else {
            panic!("{lid:?}")
        };
        assert_near!(width, 90.0 + 2.0 * (4.0 + lean) - 0.6, 0.005);
        assert_near!(lid.outer(), width - 2.0 * lean, 0.005);
        assert_eq!(Lid::of(&Board::default()).size, None);
    }

    #[test]
    fn a_clearance_as_wide_as_its_place_leaves_no_lid() {
        let with = |clearance| {
            let recess = Recess {
                shape: RecessShape::Round { diameter: 20.0 },
                lid: 5.0,
                lid_fit: LidFit {
                    hold: LidHold::LiesIn,
                    overlap: 4.0,
                    clearance,
                    ..LidFit::default()
                },
                ..Recess::default()
            };
            let board = Board {
                recess: Some(recess),
                ..Board::default()
            };
            Lid::of(&board).size
        };
        assert!(with(27.9).is_some());
        assert_eq!(with(28.0), None);
    }
}
