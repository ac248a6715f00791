//! The circle cut on the center pin, on a saw or with a router on a trammel.

/// Distances from the center pin to a blade or bit, mm: to the near side of the cut, to its center line, and to its far side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CircleCut {
    /// Radius of the disc or hole that is cut.
    pub radius: f64,
    /// The distances for cutting out a disc, such as the board: the near side of the cut is the disc's edge.
    pub disc: [f64; 3],
    /// The distances for cutting a hole: the far side of the cut is the hole's edge.
    pub hole: [f64; 3],
}

/// The settings for cutting a disc or hole of a radius with a blade or bit of a width, both in mm.
///
/// ```
/// let cut = workshop::circle_cut(250.0, 3.2);
/// assert_eq!(cut.disc, [250.0, 251.6, 253.2]);
/// assert_eq!(cut.hole[2], 250.0);
/// ```
pub fn circle_cut(radius: f64, kerf: f64) -> CircleCut {
    CircleCut {
        radius,
        disc: [radius, radius + kerf / 2.0, radius + kerf],
        hole: [radius - kerf, radius - kerf / 2.0, radius],
    }
}
