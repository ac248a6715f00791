//! Optional features of the underside: storage for the pieces.

use serde::{Deserialize, Serialize};

/// A recess routed into the underside, in which the pieces are stored.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Recess {
    /// Its outline.
    pub shape: RecessShape,
    /// Its center relative to the center pin, seen from the top face.
    #[serde(rename = "at_mm")]
    pub at: [f64; 2],
    /// Depth, from the underside.
    #[serde(rename = "depth_mm")]
    pub depth: f64,
    /// Thickness of its lid, flush with the underside; 0 for none.
    #[serde(rename = "lid_mm")]
    pub lid: f64,
    /// Pieces to store in addition to those that fill the start pockets.
    pub spare: u32,
    /// The fit of the lid.
    #[serde(default)]
    pub lid_fit: LidFit,
}

/// The fit of a recess's lid, which lies in a rabbet or groove as deep as the lid is thick.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LidFit {
    /// How it is held.
    pub hold: LidHold,
    /// Width of the rabbet or groove beyond the outline of the recess, at the underside.
    #[serde(rename = "overlap_mm")]
    pub overlap: f64,
    /// How much narrower the lid is made than its opening.
    #[serde(rename = "clearance_mm")]
    pub clearance: f64,
    /// The direction of its grain.
    pub grain: LidGrain,
}

/// How the lid of a recess is held.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
pub enum LidHold {
    /// It lies in, held by turn buttons or magnets.
    LiesIn,
    /// It slides along the grain in a dovetailed groove that is open at the edge of the board.
    Slides {
        /// Angle of the groove's sides from vertical: half the included angle of the bit.
        #[serde(rename = "angle_deg")]
        angle: f64,
        /// The edge of the board where the groove is open.
        toward: Toward,
    },
}

/// A direction along the grain, seen from the top face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Toward {
    /// To the left.
    Left,
    /// To the right.
    Right,
}

impl Toward {
    /// Both, in the order lists show them.
    pub const ALL: [Self; 2] = [Self::Left, Self::Right];

    /// The words that screens use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Left => "to the left",
            Self::Right => "to the right",
        }
    }
}

/// The grain of a lid; unless it is plywood, it is made of the board's wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LidGrain {
    /// Parallel to the board's grain.
    #[default]
    WithBoard,
    /// Perpendicular to the board's grain.
    AcrossBoard,
    /// Plywood: thin layers with alternating grain.
    Plywood,
}

impl LidGrain {
    /// Every grain, in the order lists show them.
    pub const ALL: [Self; 3] = [Self::WithBoard, Self::AcrossBoard, Self::Plywood];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::WithBoard => "as the board's",
            Self::AcrossBoard => "across the board's",
            Self::Plywood => "plywood",
        }
    }
}

/// The outline of a recess.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum RecessShape {
    /// A circle.
    Round {
        /// Its diameter.
        #[serde(rename = "diameter_mm")]
        diameter: f64,
    },
    /// Straight sides.
    Straight {
        /// From left to right, along the grain.
        #[serde(rename = "length_mm")]
        length: f64,
        /// Across the grain.
        #[serde(rename = "width_mm")]
        width: f64,
        /// Radius that the bit leaves in the corners; 0 for square corners.
        #[serde(rename = "corner_mm", default)]
        corner: f64,
    },
}

impl RecessShape {
    /// Length from left to right, and width, mm.
    ///
    /// ```
    /// use board::RecessShape;
    /// assert_eq!(RecessShape::Round { diameter: 80.0 }.sides(), (80.0, 80.0));
    /// ```
    pub const fn sides(self) -> (f64, f64) {
        match self {
            Self::Round { diameter } => (diameter, diameter),
            Self::Straight { length, width, .. } => (length, width),
        }
    }

    /// Radius of its corners, mm: as typed, but at most half its shorter side; half the diameter for a round recess.
    pub const fn corner(self) -> f64 {
        match self {
            Self::Round { diameter } => diameter / 2.0,
            Self::Straight { corner, .. } => corner.min(self.widest_corner()),
        }
    }

    /// The largest radius that its corners can have, mm.
    pub const fn widest_corner(self) -> f64 {
        let (length, width) = self.sides();
        length.min(width) / 2.0
    }
}

impl Default for Recess {
    /// A round recess centered on the center pin; common practice, no source.
    fn default() -> Self {
        Self {
            shape: RecessShape::Round { diameter: 120.0 },
            at: [0.0, 0.0],
            depth: 10.0,
            lid: 0.0,
            spare: 0,
            lid_fit: LidFit::default(),
        }
    }
}

impl Default for LidFit {
    /// A lid that lies in the recess itself with half a millimeter to spare; common practice, no source.
    fn default() -> Self {
        Self {
            hold: LidHold::LiesIn,
            overlap: 0.0,
            clearance: 0.5,
            grain: LidGrain::WithBoard,
        }
    }
}
