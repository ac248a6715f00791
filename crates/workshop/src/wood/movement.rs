//! The board in the dry and in the humid season: it becomes oval, since it moves only across the grain.

use board::{Cut, Wood};

use super::equilibrium_moisture;
use super::species::{Known, Species, find};

/// The reason why the movement or the weight of the wood is not known.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum WoodError {
    /// No wood is chosen.
    #[error("the wood is not chosen")]
    NoWood,
    /// The species is not in the table.
    #[error(
        "the table has no wood \"{species}\"; choose another, or type its movement and its density"
    )]
    Unknown {
        /// The species as typed.
        species: String,
    },
    /// The table has no movement for this species and cut.
    #[error("the table has no change of {} {species}; type it", cut.label())]
    NoChange {
        /// Name of the species.
        species: String,
        /// The cut from the log.
        cut: Cut,
    },
    /// The table has no specific gravity of this species.
    #[error("the table has no density of {species}; type it, or weigh the board")]
    NoDensity {
        /// Name of the species.
        species: String,
    },
}

/// The movement of the wood through the seasons.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WoodMoves {
    /// Change of width per 1 % of moisture, as a share, with its source.
    pub change: Known,
    /// Moisture when the board is cut, %, with its source.
    pub shop: Known,
    /// Moisture in the customer's dry season, %.
    pub dry: f64,
    /// Moisture in the customer's humid season, %.
    pub humid: f64,
}

/// A round board in one season; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Season {
    /// Its largest diameter.
    pub largest: f64,
    /// Its smallest diameter.
    pub smallest: f64,
    /// Its width across the grain less the width when it was cut; negative if it is narrower.
    pub change: f64,
}

/// The source of typed values.
const TYPED: &str = "as typed";
/// The source of the equation.
const BY_AIR: &str = "equilibrium with the air of the shop";

/// The movement of a board's wood through the seasons.
///
/// ```
/// use board::Wood;
/// let wood = Wood { change: Some(0.0025), moisture: Some(8.0), ..Wood::default() };
/// let moves = workshop::wood_moves(&wood)?;
/// assert!(moves.dry < moves.humid);
/// // A board of 500 mm that was cut at 8 % is narrower across the grain by the difference times 0.25 %.
/// let dry = moves.dry_board(500.0);
/// assert!((dry.change - 500.0 * 0.0025 * (moves.dry - 8.0)).abs() < 1e-9);
/// assert_eq!(dry.largest, 500.0);
/// # Ok::<(), workshop::WoodError>(())
/// ```
///
/// # Errors
/// [`WoodError`] where its movement is neither typed nor in the table.
pub fn wood_moves(wood: &Wood) -> Result<WoodMoves, WoodError> {
    let air = |air: board::Air| equilibrium_moisture(air.temperature, air.humidity);
    let shop = wood.moisture.map_or_else(
        || Known {
            value: air(wood.shop),
            source: BY_AIR,
        },
        typed,
    );
    Ok(WoodMoves {
        change: wood
            .change
            .map_or_else(|| by_table(wood), |value| Ok(typed(value)))?,
        shop,
        dry: air(wood.dry),
        humid: air(wood.humid),
    })
}

/// The change of a size across the grain from one moisture, in %, to another: by the Wood Handbook's Eq. 13-2 (FPL-GTR-190),
/// size times change per 1 % times the difference; valid from 6 to 14 %.
///
/// 232 mm of white fir, from 8 to 11 %, grow by 1.7 mm:
///
/// ```
/// assert!((workshop::change_of_size(232.0, 0.00245, 8.0, 11.0) - 1.7).abs() < 0.05);
/// ```
pub fn change_of_size(size: f64, change: f64, from: f64, to: f64) -> f64 {
    size * change * (to - from)
}

impl WoodMoves {
    /// A board of a diameter in the customer's dry season.
    pub fn dry_board(&self, diameter: f64) -> Season {
        self.season(diameter, self.dry)
    }

    /// A board of a diameter in the customer's humid season.
    pub fn humid_board(&self, diameter: f64) -> Season {
        self.season(diameter, self.humid)
    }

    /// The change of a size across the grain from the dry season to the humid one, mm.
    pub fn over_the_year(&self, size: f64) -> f64 {
        change_of_size(size, self.change.value, self.dry, self.humid)
    }

    /// The moistures of the board: in the shop, in the dry season, in the humid season.
    pub const fn moistures(&self) -> [f64; 3] {
        [self.shop.value, self.dry, self.humid]
    }

    /// A board at a moisture: it changes across the grain, and practically not along it.
    fn season(&self, diameter: f64, moisture: f64) -> Season {
        let change = change_of_size(diameter, self.change.value, self.shop.value, moisture);
        Season {
            largest: diameter + change.max(0.0),
            smallest: diameter + change.min(0.0),
            change,
        }
    }
}

/// The species of a board's wood.
pub fn species_of(wood: &Wood) -> Result<&'static Species, WoodError> {
    find(&wood.species).ok_or_else(|| WoodError::Unknown {
        species: wood.species.clone(),
    })
}

/// A value that the maker typed.
pub const fn typed(value: f64) -> Known {
    Known {
        value,
        source: TYPED,
    }
}

/// The movement of a species, by how the board is sawn.
fn by_table(wood: &Wood) -> Result<Known, WoodError> {
    let species = species_of(wood)?;
    let change = match wood.cut {
        Cut::FlatSawn => species.tangential,
        Cut::QuarterSawn => species.radial,
    };
    change.ok_or_else(|| WoodError::NoChange {
        species: species.spoken(),
        cut: wood.cut,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equilibrium_moisture_at_fahrenheit;
    use proptest::prelude::*;
    use testkit::assert_near;

    /// Wood Handbook, FPL-GTR-190, the example of Eq. 13-2: 232 mm (9.15 in) grow by 1.7 mm to 233.7 (9.217 in); its species
    /// and moistures are from memory. Trade pages, not a standard: 8 in of red alder over 6 %, 0.1248 in; 5 in with 0.00129
    /// over 3 %, 0.019 in.
    #[test]
    fn boards_change_as_published() {
        assert_near!(change_of_size(232.0, 0.002_45, 8.0, 11.0), 1.7, 0.05);
        assert_near!(
            9.15 + change_of_size(9.15, 0.002_45, 8.0, 11.0),
            9.217,
            5e-4
        );
        assert_near!(change_of_size(8.0, 0.0026, 6.0, 12.0), 0.1248, 1e-6);
        assert_near!(change_of_size(5.0, 0.001_29, 6.0, 9.0), 0.019, 5e-4);
    }

    /// Both equations: 450 mm of flat-sawn black walnut at 70 °F, from 30 to 60 %.
    #[test]
    fn walnut_grows_six_millimeters_from_winter_to_summer() {
        let moisture = |humidity| equilibrium_moisture_at_fahrenheit(70.0, humidity);
        let walnut = find("black-walnut").unwrap().tangential.unwrap().value;
        let change = change_of_size(450.0, walnut, moisture(30.0), moisture(60.0));
        assert_near!(change, 5.916, 0.01);
    }

    fn walnut() -> Wood {
        Wood {
            moisture: Some(8.0),
            ..Wood::default()
        }
    }

    #[test]
    fn a_board_becomes_oval_across_the_grain() {
        let moves = wood_moves(&walnut()).unwrap();
        let (dry, humid) = (moves.dry_board(500.0), moves.humid_board(500.0));
        assert_eq!((dry.largest, humid.smallest), (500.0, 500.0));
        assert_near!(dry.smallest, 500.0 + dry.change, 0.0);
        assert_near!(humid.change, 500.0 * 0.002_74 * (moves.humid - 8.0), 1e-12);
        assert_near!(humid.change - dry.change, moves.over_the_year(500.0), 1e-9);
        assert!(dry.change < 0.0 && humid.change > 0.0);
    }

    #[test]
    fn the_cut_determines_the_movement_across_the_grain() {
        let quarter = Wood {
            cut: Cut::QuarterSawn,
            ..walnut()
        };
        assert_eq!(wood_moves(&quarter).unwrap().change.value, 0.0019);
        let typed = Wood {
            change: Some(0.003),
            species: "driftwood".into(),
            ..walnut()
        };
        let change = wood_moves(&typed).unwrap().change;
        assert_eq!((change.value, change.source), (0.003, "as typed"));
    }

    #[test]
    fn missing_data_is_reported() {
        let wood = |species: &str, cut| Wood {
            species: species.into(),
            cut,
            ..walnut()
        };
        let said = |wood| wood_moves(&wood).unwrap_err().to_string();
        assert!(said(wood("driftwood", Cut::FlatSawn)).contains("no wood \"driftwood\""));
        let fir = said(wood("douglas-fir", Cut::QuarterSawn));
        assert!(
            fir.contains("no change of quarter-sawn Douglas-fir"),
            "{fir}"
        );
    }

    proptest! {
        #[test]
        fn a_change_and_its_reverse_cancel(from in 6.0..14.0_f64, to in 6.0..14.0_f64) {
            let there = change_of_size(500.0, 0.003, from, to);
            prop_assert!((there + change_of_size(500.0, 0.003, to, from)).abs() < 1e-9);
        }
    }
}
