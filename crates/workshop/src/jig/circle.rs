//! The circle cut on the center pin, on a saw or with a router on a trammel.

/// From the center pin to a blade or a bit, mm: to the side of the cut that is nearer the pin, to its middle, and to the
/// farther side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CircleCut {
    /// Radius of the cut.
    pub radius: f64,
    /// Where the inside is kept, as of the board: the near side runs along its edge.
    pub disc: [f64; 3],
    /// Where the outside is kept, as of a hole of this radius: the far side runs along its edge.
    pub hole: [f64; 3],
}

/// The cut of a circle of a radius by a blade or bit of a width, mm.
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
