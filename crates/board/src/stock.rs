//! The wood a board is made of: the blank as bought, and how it is joined.
//!
//! The blank's own frame has x along the grain and y across it, seen from the face that becomes the top; the maker chooses its
//! origin. On the board, the grain runs from left to right, and so do the seams: the pattern is rotated relative to the wood,
//! not the wood relative to the pattern.

use serde::{Deserialize, Serialize};

use crate::serial::{auto_or_point, or_null};

/// The blank as bought.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stock {
    /// Its outline.
    pub outline: StockOutline,
    /// Its thickness before planing.
    #[serde(rename = "thickness_mm")]
    pub thickness: f64,
    /// Flaws to keep off the board.
    pub flaws: Vec<StockFlaw>,
    /// Position of the center pin; none: where the board has the most wood around it.
    #[serde(rename = "place_mm", with = "auto_or_point")]
    pub place: Option<[f64; 2]>,
    /// Extra wood outside the finished edge, for the saw.
    #[serde(rename = "trim_mm")]
    pub trim: f64,
}

/// The outline of a blank.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum StockOutline {
    /// Not known yet.
    Unknown,
    /// A slab with a straight reference line along each side, from which the live edges are measured inward; its lower left
    /// corner is the origin.
    Slab {
        /// Along the grain.
        #[serde(rename = "length_mm")]
        length: f64,
        /// Across the grain.
        #[serde(rename = "width_mm")]
        width: f64,
        /// Distance from the lower line inward to sound wood, at equal steps from the left end to the right; empty for a sawn
        /// edge.
        #[serde(rename = "lower_mm")]
        lower: Vec<f64>,
        /// The same for the upper line.
        #[serde(rename = "upper_mm")]
        upper: Vec<f64>,
    },
    /// Any corners, in order around the blank.
    Corners {
        /// x and y of each.
        #[serde(rename = "corners_mm")]
        corners: Vec<[f64; 2]>,
    },
}

impl StockOutline {
    /// Position along a slab at which its live edges leave no wood between them, mm; `None` if there is wood everywhere.
    ///
    /// Both edges are straight between stations, so only the stations of either edge need to be checked.
    pub fn edges_meet(&self) -> Option<f64> {
        let Self::Slab {
            length,
            width,
            lower,
            upper,
        } = self
        else {
            return None;
        };
        let (below, above) = (stations(*length, lower), stations(*length, upper));
        let mut places: Vec<f64> = below.iter().chain(&above).map(|[x, _]| *x).collect();
        places.sort_by(f64::total_cmp);
        places
            .into_iter()
            .find(|x| inward_at(&below, *x) + inward_at(&above, *x) >= *width)
    }

    /// The corners of the outline in order; `None` if it is not known.
    ///
    /// ```
    /// use board::StockOutline;
    /// let slab = StockOutline::Slab {
    ///     length: 900.0,
    ///     width: 300.0,
    ///     lower: Vec::new(),
    ///     upper: vec![20.0, 35.0, 25.0],
    /// };
    /// assert_eq!(slab.corners().unwrap().len(), 5);
    /// assert_eq!(StockOutline::Unknown.corners(), None);
    /// ```
    pub fn corners(&self) -> Option<Vec<[f64; 2]>> {
        match self {
            Self::Unknown => None,
            Self::Corners { corners } => Some(corners.clone()),
            Self::Slab {
                length,
                width,
                lower,
                upper,
            } => {
                let below = stations(*length, lower);
                let above = stations(*length, upper).into_iter().rev();
                let above = above.map(|[x, inward]| [x, width - inward]);
                Some(below.into_iter().chain(above).collect())
            }
        }
    }
}

/// Offsets at equal steps along an edge, with their positions along it; a single offset applies to the whole edge.
fn stations(length: f64, offsets: &[f64]) -> Vec<[f64; 2]> {
    match offsets {
        [] => vec![[0.0, 0.0], [length, 0.0]],
        [all] => vec![[0.0, *all], [length, *all]],
        many => {
            let step = length / (many.len() - 1) as f64;
            let place = |(at, inward): (usize, &f64)| [at as f64 * step, *inward];
            many.iter().enumerate().map(place).collect()
        }
    }
}

/// The offset at a position, interpolated between stations.
fn inward_at(stations: &[[f64; 2]], x: f64) -> f64 {
    let after = stations.partition_point(|station| station[0] < x);
    match (stations.get(after.saturating_sub(1)), stations.get(after)) {
        (Some(before), Some(after)) if after[0] > before[0] => {
            let share = (x - before[0]) / (after[0] - before[0]);
            before[1] + share * (after[1] - before[1])
        }
        (_, Some(station)) | (Some(station), None) => station[1],
        (None, None) => 0.0,
    }
}

/// Something in a blank to keep off the board.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StockFlaw {
    /// The kind of flaw.
    pub kind: FlawKind,
    /// Where it is.
    pub shape: FlawShape,
}

/// The kinds of flaw.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum FlawKind {
    /// A knot.
    Knot,
    /// A crack or check.
    Crack,
    /// Sapwood.
    Sapwood,
}

impl FlawKind {
    /// Every kind, in the order lists show them.
    pub const ALL: [Self; 3] = [Self::Knot, Self::Crack, Self::Sapwood];

    /// The word that screens use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Knot => "knot",
            Self::Crack => "crack",
            Self::Sapwood => "sapwood",
        }
    }
}

/// Where a flaw is, in the blank's frame.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum FlawShape {
    /// Round.
    Round {
        /// Its center, along the grain.
        #[serde(rename = "x_mm")]
        x: f64,
        /// Its center, across the grain.
        #[serde(rename = "y_mm")]
        y: f64,
        /// Its diameter.
        #[serde(rename = "diameter_mm")]
        diameter: f64,
    },
    /// Any corners, in order around it.
    Area {
        /// x and y of each.
        #[serde(rename = "corners_mm")]
        corners: Vec<[f64; 2]>,
    },
}

/// How the board is glued up, and how much wood that costs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Panel {
    /// The parts that are joined.
    pub build: Build,
    /// Wood that jointing removes from each glued edge.
    #[serde(rename = "joint_mm")]
    pub joint: f64,
    /// Width of each saw cut.
    #[serde(rename = "kerf_mm")]
    pub kerf: f64,
    /// The widest piece that fits the maker's planer.
    #[serde(rename = "planer_mm")]
    pub planer: f64,
    /// Loose tenons across the seams; none: only glue.
    #[serde(deserialize_with = "or_null")]
    pub tenons: Option<Tenons>,
}

/// The parts that a board is joined from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum Build {
    /// One piece, without a seam.
    Whole,
    /// Two bookmatched leaves of one slab, with the seam through the center pin.
    Halves,
    /// Strips of equal width.
    Strips {
        /// Number of strips.
        count: u32,
    },
    /// An already glued panel.
    Seams {
        /// Position of each seam above the center pin; negative is below.
        #[serde(rename = "at_mm")]
        at: Vec<f64>,
    },
}

/// Loose tenons across a seam, in mortises of the same size, spaced evenly around the middle of the seam.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tenons {
    /// Number along each seam.
    pub count: u32,
    /// Center-to-center distance.
    #[serde(rename = "spacing_mm")]
    pub spacing: f64,
    /// Length along the seam.
    #[serde(rename = "length_mm")]
    pub length: f64,
    /// Depth of the mortise in each of the two edges.
    #[serde(rename = "reach_mm")]
    pub reach: f64,
    /// Thickness between its flat sides.
    #[serde(rename = "thickness_mm")]
    pub thickness: f64,
    /// Depth of wood between the top face and the mortise.
    #[serde(rename = "below_top_mm")]
    pub below_top: f64,
}

/// Screws driven into the underside on a circle around the center pin: those of a turntable, or of feet.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ScrewCircle {
    /// Number of screws.
    pub count: u32,
    /// Diameter of the circle they are on.
    #[serde(rename = "circle_mm")]
    pub circle: f64,
    /// Bearing of the first screw, seen from the top face.
    #[serde(rename = "bearing_deg")]
    pub bearing: f64,
    /// Diameter of the screw or of its pilot, whichever is larger.
    #[serde(rename = "diameter_mm")]
    pub diameter: f64,
    /// Depth into the underside.
    #[serde(rename = "depth_mm")]
    pub depth: f64,
}

impl Default for Stock {
    fn default() -> Self {
        Self {
            outline: StockOutline::Unknown,
            thickness: 25.0,
            flaws: Vec::new(),
            place: None,
            trim: 5.0,
        }
    }
}

impl Default for Panel {
    /// Common practice, no source: 1.5 mm jointed off an edge, a 3 mm kerf, a 300 mm planer.
    fn default() -> Self {
        Self {
            build: Build::Whole,
            joint: 1.5,
            kerf: 3.0,
            planer: 300.0,
            tenons: None,
        }
    }
}

impl Default for Tenons {
    /// A common loose tenon in the middle of a 20 mm board; common practice, no source.
    fn default() -> Self {
        Self {
            count: 3,
            spacing: 150.0,
            length: 40.0,
            reach: 20.0,
            thickness: 6.0,
            below_top: 7.0,
        }
    }
}

impl Default for ScrewCircle {
    /// The screws of a small turntable; common practice, no source.
    fn default() -> Self {
        Self {
            count: 4,
            circle: 100.0,
            bearing: 45.0,
            diameter: 4.0,
            depth: 10.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn live_edges_are_measured_inward_from_the_straight_lines() {
        let slab = StockOutline::Slab {
            length: 800.0,
            width: 300.0,
            lower: vec![0.0, 20.0, 5.0],
            upper: vec![12.0],
        };
        let corners = slab.corners().unwrap();
        let wanted = [
            [0.0, 0.0],
            [400.0, 20.0],
            [800.0, 5.0],
            [800.0, 288.0],
            [0.0, 288.0],
        ];
        assert_eq!(corners, wanted);
    }

    #[test]
    fn live_edges_that_meet_are_found_at_the_right_position() {
        let slab = |lower, upper| StockOutline::Slab {
            length: 800.0,
            width: 300.0,
            lower,
            upper,
        };
        assert_eq!(slab(vec![0.0, 120.0, 0.0], vec![100.0]).edges_meet(), None);
        let met = slab(vec![0.0, 120.0, 250.0], vec![100.0]).edges_meet();
        assert_eq!(met, Some(800.0));
        assert_eq!(slab(vec![200.0], vec![150.0]).edges_meet(), Some(0.0));
        // The lower edge is at 100 for x = 200, midway between its stations.
        let upper = vec![0.0, 210.0, 0.0, 0.0, 0.0];
        let met = slab(vec![0.0, 200.0, 0.0], upper).edges_meet();
        assert_eq!(met, Some(200.0));
    }

    #[test]
    fn a_sawn_slab_has_four_corners_and_an_unknown_blank_has_none() {
        let sawn = StockOutline::Slab {
            length: 3.0,
            width: 2.0,
            lower: vec![],
            upper: vec![],
        };
        assert_eq!(sawn.corners().map(|corners| corners.len()), Some(4));
        assert_eq!(StockOutline::Unknown.corners(), None);
    }
}
