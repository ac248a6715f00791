//! The best grid of sheets compared with a scan of all grids.

#![allow(clippy::unwrap_used, reason = "helpers of tests fail by panicking")]

use geometry::{SheetRow, best_joints, sheets_along};
use proptest::prelude::*;
use testkit::assert_near;

/// The least distance of a coordinate from an actual joint line, in the simplest way.
fn clearance(coordinates: &[f64], sheets: u32, origin: f64, printable: f64, overlap: f64) -> f64 {
    let mut least = f64::INFINITY;
    for joint in 1..sheets {
        let line = origin + f64::from(joint) * (printable - overlap) + overlap / 2.0;
        for coordinate in coordinates {
            least = least.min((coordinate - line).abs());
        }
    }
    least
}

proptest! {
    #[test]
    fn no_scanned_grid_of_sheets_keeps_its_joints_farther_away(
        coordinates in proptest::collection::vec(-300.0..300.0, 1..40),
        printable in 90.0..400.0,
        overlap in 0.0..40.0,
    ) {
        let sheets = sheets_along(620.0, printable, overlap).unwrap();
        let plan = best_joints(&coordinates, -310.0, 310.0, printable, overlap).unwrap();
        let step = printable - overlap;
        let first = 310.0 - (f64::from(sheets) * step + overlap);
        prop_assert!(first - 1e-9 <= plan.origin && plan.origin <= -310.0 + 1e-9);
        let Some((index, distance)) = plan.nearest else {
            prop_assert_eq!(sheets, 1);
            return Ok(());
        };
        let told = clearance(&coordinates, sheets, plan.origin, printable, overlap);
        assert_near!(distance, told, 1e-9);
        assert_near!(clearance(&coordinates[index..=index], sheets, plan.origin, printable, overlap), told, 1e-9);
        for part in 0..=2000 {
            let origin = first + (-310.0 - first) * f64::from(part) / 2000.0;
            let scanned = clearance(&coordinates, sheets, origin, printable, overlap);
            prop_assert!(scanned <= distance + 1e-9, "{} at {}", scanned, origin);
        }
    }

    /// The clearance of each position matches the simplest calculation and is no less than requested; if no returned position
    /// has that clearance, a scan finds none either.
    #[test]
    fn every_position_of_a_row_has_the_stated_clearance(
        coordinates in proptest::collection::vec(-300.0..300.0, 1..40),
        printable in 90.0..400.0,
        overlap in 0.0..40.0,
        least in 0.0..8.0,
        more in 0..2_u32,
    ) {
        let sheets = sheets_along(620.0, printable, overlap).unwrap() + more;
        let row = SheetRow { sheets, printable, overlap };
        let places = row.places(&coordinates, -310.0, 310.0, least);
        let step = printable - overlap;
        let first = 310.0 - (f64::from(sheets) * step + overlap);
        prop_assert!(!places.is_empty());
        for place in &places {
            prop_assert!(first - 1e-9 <= place.origin && place.origin <= -310.0 + 1e-9);
            let told = clearance(&coordinates, sheets, place.origin, printable, overlap);
            prop_assert!(told == place.clear || (told - place.clear).abs() < 1e-9, "{} {}", told, place.clear);
            prop_assert!(places.len() == 1 || place.clear >= least - 1e-9);
        }
        let widest = places.iter().map(|place| place.clear).fold(0.0, f64::max);
        for part in 0..=500 {
            let origin = first + (-310.0 - first) * f64::from(part) / 500.0;
            let scanned = clearance(&coordinates, sheets, origin, printable, overlap);
            prop_assert!(scanned <= widest.max(least) + 1e-9 || widest >= least, "{} at {}", scanned, origin);
        }
    }
}
