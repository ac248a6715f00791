//! Lumber as sold: standard thicknesses, board feet and cubic meters.
//!
//! A board foot is 144 cubic inches of rough wood at its nominal thickness. Yards that sell by the inch name thickness in
//! quarters; those that sell by the meter have thicknesses of their own. Both series are from memory.

use board::{INCH, Units};

/// Thicknesses of rough hardwood in quarters of an inch; from memory.
const QUARTERS: [u32; 7] = [4, 5, 6, 8, 10, 12, 16];
/// Thicknesses of rough hardwood in mm; from memory; they differ from yard to yard.
const MILLIMETERS: [u32; 7] = [20, 26, 32, 38, 52, 65, 80];
/// Tolerance by which a thickness may exceed a standard one, mm: less than any caliper shows.
const HAIR: f64 = 0.01;
/// Cubic inches in a board foot.
const BOARD_FOOT: f64 = 144.0;

/// A thickness that rough lumber is sold in.
///
/// ```
/// use board::Units;
/// use workshop::SoldThickness;
/// let sold = SoldThickness::at_least(52.0, Units::INCH).unwrap();
/// assert_eq!((sold.label(), sold.mm()), ("10/4".to_owned(), 63.5));
/// assert_eq!(SoldThickness::at_least(52.0, Units::Mm).unwrap().label(), "52 mm");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SoldThickness {
    /// Quarters of an inch.
    Quarters(u32),
    /// Millimeters.
    Millimeters(u32),
}

impl SoldThickness {
    /// The thinnest size sold that is at least this thick, mm, in the units of a system; `None` if all are thinner.
    ///
    /// A thickness barely over a size counts as that size, as nobody planes off the difference.
    pub fn at_least(mm: f64, units: Units) -> Option<Self> {
        let steps = match units {
            Units::Inch(_) => QUARTERS.map(Self::Quarters),
            Units::Mm => MILLIMETERS.map(Self::Millimeters),
        };
        steps.into_iter().find(|step| step.mm() >= mm - HAIR)
    }

    /// The nominal thickness, mm.
    pub const fn mm(self) -> f64 {
        match self {
            Self::Quarters(quarters) => quarters as f64 * INCH / 4.0,
            Self::Millimeters(mm) => mm as f64,
        }
    }

    /// Its name at the lumberyard.
    ///
    /// Quarters are written over 4, as `8/4` for two inches.
    pub fn label(self) -> String {
        match self {
            Self::Quarters(quarters) => format!("{quarters}/4"),
            Self::Millimeters(mm) => format!("{mm} mm"),
        }
    }
}

/// Board feet of a piece, from its sizes in mm.
///
/// ```
/// // One inch by twelve by twelve is one board foot, by definition.
/// assert!((workshop::board_feet([304.8, 304.8, 25.4]) - 1.0).abs() < 1e-12);
/// ```
pub const fn board_feet([length, width, thickness]: [f64; 3]) -> f64 {
    length * width * thickness / (INCH * INCH * INCH * BOARD_FOOT)
}

/// Board feet of a single board or slab as a yard tallies it: its surface, width in inches times length in feet divided by 12,
/// is rounded to a whole number and multiplied by the quarters divided by 4. A piece of less than half a foot counts as one, as
/// no yard gives it away.
///
/// By the rules of the hardwood trade (National Hardwood Lumber Association), from memory; a half rounds up here, while the
/// rules round it up and down in turn.
///
/// ```
/// // 6 1/4 in wide and 8 ft long have a surface of 4; in 8/4 that is 8 board feet.
/// let feet = workshop::tallied_board_feet([8.0 * 304.8, 6.25 * 25.4], 8);
/// assert_eq!(feet, 8.0);
/// ```
pub fn tallied_board_feet([length, width]: [f64; 2], quarters: u32) -> f64 {
    let surface = width / INCH * (length / (12.0 * INCH)) / 12.0;
    let whole = if surface > 0.0 {
        surface.round().max(1.0)
    } else {
        0.0
    };
    whole * f64::from(quarters) / 4.0
}

/// Cubic meters of a piece, from its sizes in mm.
///
/// The shopping list adds waste.
pub const fn cubic_meters([length, width, thickness]: [f64; 3]) -> f64 {
    length * width * thickness / 1e9
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

    /// 1 in by 12 in by 12 in is a board foot, by definition; a board of 2 in by 6 in by 8 ft has 8 (from memory, an example in
    /// many handbooks).
    #[test]
    fn board_feet_match_the_handbook() {
        assert_near!(board_feet([304.8, 304.8, 25.4]), 1.0, 1e-12);
        assert_near!(board_feet([96.0 * 25.4, 152.4, 50.8]), 8.0, 1e-12);
        assert_near!(
            board_feet([120.0 * 25.4, 8.0 * 25.4, 31.75]),
            8.333_333,
            1e-6
        );
    }

    /// Surfaces are rounded to whole feet: 6 1/2 in by 8 ft is 4.33 and counts as 4, 8 in by 10 ft is 6.67 and counts as 7
    /// (rules of the hardwood trade, from memory; worked by hand).
    #[test]
    fn a_yard_tallies_whole_feet_of_surface() {
        let feet = |inches: f64, length: f64| [length * 304.8, inches * 25.4];
        assert_near!(tallied_board_feet(feet(6.5, 8.0), 4), 4.0, 0.0);
        assert_near!(tallied_board_feet(feet(8.0, 10.0), 4), 7.0, 0.0);
        assert_near!(tallied_board_feet(feet(8.0, 10.0), 6), 10.5, 0.0);
        assert_near!(tallied_board_feet(feet(6.0, 1.0), 5), 1.25, 0.0);
        // 8 in by 8 in is 0.44 of a foot, and counts as one all the same.
        assert_near!(tallied_board_feet([203.2, 203.2], 8), 2.0, 0.0);
        assert_near!(tallied_board_feet([0.0, 203.2], 8), 0.0, 0.0);
    }

    /// A cube of 100 mm is a thousandth of a cubic meter.
    #[test]
    fn cubic_meters_follow_from_geometry() {
        assert_near!(cubic_meters([100.0; 3]), 0.001, 1e-15);
    }

    #[test]
    fn an_exact_thickness_is_its_own_size_and_none_is_above_the_last() {
        let label = |mm, units| SoldThickness::at_least(mm, units).map(SoldThickness::label);
        assert_eq!(label(25.4, Units::INCH).unwrap(), "4/4");
        assert_eq!(label(25.5, Units::INCH).unwrap(), "5/4");
        assert_eq!(label(0.0, Units::INCH).unwrap(), "4/4");
        assert_eq!(label(26.0, Units::Mm).unwrap(), "26 mm");
        assert_eq!(label(26.5, Units::Mm).unwrap(), "32 mm");
        assert_eq!(label(80.5, Units::Mm), None);
        assert_eq!(label(101.7, Units::INCH), None);
    }

    proptest! {
        #[test]
        fn the_size_sold_is_thick_enough(mm in 0.0..120.0_f64) {
            for units in [Units::Mm, Units::INCH] {
                if let Some(sold) = SoldThickness::at_least(mm, units) {
                    prop_assert!(sold.mm() >= mm - HAIR);
                }
            }
        }
    }
}
