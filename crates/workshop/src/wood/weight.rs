//! The weight of a board: its volume less all cuts, at the density its moisture gives the wood.

use board::{Board, Layout, PieceKind, Wood};

use super::movement::{WoodError, species_of, typed};
use super::species::Known;
use super::wood_moves;
use crate::Workpiece;
use crate::blank::profile::blank_profile;
use crate::bores::holds;
use crate::bores::profile::bore_profile;
use crate::recess::recess_outline;

/// The moisture at which specific gravities and densities are given, %.
const GIVEN_AT: f64 = 12.0;

/// The weight of a board and its parts; masses in g, without base and pieces.
///
/// Not included: grooves, screws and their holes, the pilot hole in a playing hole at the center, the groove of a sliding lid
/// beyond its recess, finish. A lid counts as the board's wood, tenons as the wood they replace.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoardMass {
    /// Volume of the wood, mm³.
    pub volume: f64,
    /// Density of the wood at the moisture of the shop, kg/m³, with its source.
    pub density: Known,
    /// The wood.
    pub wood: f64,
    /// Resin in the bores.
    pub resin: f64,
    /// The balls or discs set into the bores for magnet pieces to hold on.
    pub inserts: f64,
}

impl BoardMass {
    /// The total, g.
    pub const fn total(&self) -> f64 {
        self.wood + self.resin + self.inserts
    }
}

/// The weight of a board from its wood.
///
/// # Errors
/// [`WoodError`] where its wood is not chosen, or its density is neither typed nor in the table.
pub fn board_mass(workpiece: &Workpiece) -> Result<BoardMass, WoodError> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let wood = board.wood.as_ref().ok_or(WoodError::NoWood)?;
    let volume = wood_volume(board, layout);
    let density = density(wood)?;
    let resin = match (board.filling, workpiece.pour()) {
        (Some(filling), Some(pour)) => pour.stays * filling.mix.density,
        _ => 0.0,
    };
    Ok(BoardMass {
        volume,
        density,
        wood: volume * density.value * 1e-6,
        resin,
        inserts: inserts(board, layout),
    })
}

/// Density at the moisture of the shop, kg/m³. Dry wood with a volume measured at 12 % weighs 1000 times its specific gravity;
/// its water is added, and the volume follows its moisture radially and tangentially by Eq. 13-2 of the Wood Handbook. (That
/// density is 1000 · gravity · (1 + moisture) is from memory.)
fn density(wood: &Wood) -> Result<Known, WoodError> {
    let species = species_of(wood);
    let given = if let Some(density) = wood.density {
        typed(density)
    } else {
        let species = species.clone()?;
        let gravity = species.gravity.ok_or_else(|| WoodError::NoDensity {
            species: species.spoken(),
        })?;
        Known {
            value: 1000.0 * gravity.value * (1.0 + GIVEN_AT / 100.0),
            ..gravity
        }
    };
    let changes = match species {
        Ok(species) => {
            [species.radial, species.tangential].map(|known| known.map_or(0.0, |known| known.value))
        }
        Err(_) => [wood.change.unwrap_or(0.0), 0.0],
    };
    let moisture = wood_moves(wood).map_or(GIVEN_AT, |moves| moves.shop.value);
    let swollen: f64 = changes
        .iter()
        .map(|change| 1.0 + change * (moisture - GIVEN_AT))
        .product();
    let damp = (100.0 + moisture) / (100.0 + GIVEN_AT);
    Ok(Known {
        value: given.value * damp / swollen,
        ..given
    })
}

/// Volume of the disc less its roundover, bores and recess, mm³; never negative.
fn wood_volume(board: &Board, layout: &Layout) -> f64 {
    let disc = blank_profile(&board.blank).volume();
    let bore = |hole: &board::Hole| bore_profile(hole.bore, board.bores.spur).volume();
    let bores: f64 = layout.holes.iter().map(bore).sum();
    let recess = board.recess.map_or(0.0, |recess| {
        recess_outline(&recess).area() * (recess.depth - recess.lid).max(0.0)
    });
    (disc - bores - recess).max(0.0)
}

/// The weight of the inserts for magnet pieces, g.
fn inserts(board: &Board, layout: &Layout) -> f64 {
    if board.piece.kind != PieceKind::Magnet {
        return 0.0;
    }
    let each = |hole: &board::Hole| holds::insert_mass(&board.piece, hole.bore);
    layout.seats(board).iter().map(each).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bore, Bores, Bottom, Center, Filling, Recess, RecessShape};
    use core::f64::consts::PI;
    use testkit::assert_near;

    fn bare(diameter: f64, thickness: f64) -> Board {
        let bore = Bore {
            diameter: 12.0,
            depth: 5.0,
            bottom: Bottom::Flat,
        };
        let mut board = Board {
            bores: Bores::all(bore),
            center: Center::Nothing,
            wood: Some(Wood {
                moisture: Some(12.0),
                ..Wood::default()
            }),
            ..Board::default()
        };
        board.blank.diameter = diameter;
        board.blank.thickness = thickness;
        board.blank.roundover = 0.0;
        board
    }

    fn mass(board: &Board) -> BoardMass {
        board_mass(&Workpiece::of(board).unwrap()).unwrap()
    }

    /// By computation for walnut of 616 kg/m³, 500 mm across and 18 mm thick: 2.17712 kg.
    #[test]
    fn a_disc_of_walnut_has_the_computed_weight() {
        let board = bare(500.0, 18.0);
        let bores = 144.0 * PI * 36.0 * 5.0;
        let found = mass(&board);
        assert_near!(found.density.value, 616.0, 1e-9);
        assert_near!(found.wood + bores * 616e-6, 2177.12, 0.01);
        assert_eq!(found.total(), found.wood);
    }

    /// By 1000 · gravity · 1.12: sugar maple 706, cherry 560, beech 717, basswood 414 kg/m³.
    #[test]
    fn densities_follow_from_gravity_and_moisture() {
        for (species, wanted) in [
            ("sugar-maple", 706.0),
            ("black-cherry", 560.0),
            ("american-beech", 717.0),
            ("american-basswood", 414.0),
        ] {
            let wood = |moisture| Wood {
                species: species.into(),
                moisture: Some(moisture),
                ..Wood::default()
            };
            assert_near!(density(&wood(12.0)).unwrap().value, wanted, 0.5);
            // Oven-dry mass is constant: a drier board is lighter, although it also shrinks.
            assert!(density(&wood(6.0)).unwrap().value < wanted);
        }
    }

    #[test]
    fn cuts_reduce_the_weight_and_inserts_add_to_it() {
        let mut board = bare(500.0, 18.0);
        let whole = mass(&board);
        board.recess = Some(Recess {
            shape: RecessShape::Straight {
                length: 100.0,
                width: 50.0,
                corner: 0.0,
            },
            depth: 10.0,
            lid: 4.0,
            ..Recess::default()
        });
        assert_near!(whole.volume - mass(&board).volume, 100.0 * 50.0 * 6.0, 1e-6);
        board.filling = Some(Filling {
            waste: 0.5,
            ..Filling::default()
        });
        // Bores 12 mm wide and 5 mm deep, filled to the top at 1.15 g/cm³.
        assert_near!(mass(&board).resin, 144.0 * PI * 36.0 * 5.0 * 1.15e-3, 1e-9);
        board.piece.kind = PieceKind::Magnet;
        assert_near!(mass(&board).inserts, 144.0 * PI * 288.0 * 7.85e-3, 1e-9);
    }

    #[test]
    fn without_a_density_the_reason_is_reported() {
        let mut board = bare(500.0, 18.0);
        board.wood = Some(Wood {
            species: "apple".into(),
            ..Wood::default()
        });
        let error = board_mass(&Workpiece::of(&board).unwrap()).unwrap_err();
        assert_eq!(
            error,
            WoodError::NoDensity {
                species: "apple".into()
            }
        );
        board.wood = None;
        assert_eq!(
            board_mass(&Workpiece::of(&board).unwrap()),
            Err(WoodError::NoWood)
        );
        board.wood = Some(Wood {
            species: "driftwood".into(),
            density: Some(500.0),
            change: Some(0.002),
            moisture: Some(12.0),
            ..Wood::default()
        });
        assert_near!(
            board_mass(&Workpiece::of(&board).unwrap())
                .unwrap()
                .density
                .value,
            500.0,
            1e-9
        );
    }
}
