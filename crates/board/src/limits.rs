//! The limits that the checks compare the board against, and the errors to be expected from each step of the work.

use serde::{Deserialize, Serialize};

/// The limits that the checks compare the board against; the maker can change all of them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Limits {
    /// Least wood between two bores.
    #[serde(rename = "web_mm")]
    pub web: f64,
    /// Least wood between a bore and the start of the roundover.
    #[serde(rename = "rim_mm")]
    pub rim: f64,
    /// Least wood under a bore, including its point or spur.
    #[serde(rename = "floor_mm", default = "Limits::usual_floor")]
    pub floor: f64,
    /// Least wood between a bore and a mortise or screw that it could break into inside the board.
    #[serde(rename = "inside_mm", default = "Limits::usual_inside")]
    pub inside: f64,
    /// Least distance from a seam to the edge of a bore.
    #[serde(rename = "seam_mm", default = "Limits::usual_seam")]
    pub seam: f64,
    /// Least gap between two neighboring pieces.
    #[serde(rename = "piece_gap_mm")]
    pub piece_gap: f64,
    /// Most play of a peg or a set ball in its bore.
    #[serde(rename = "piece_play_mm", default = "Limits::usual_piece_play")]
    pub piece_play: f64,
    /// Least share of a marble's diameter that sits below the rim of its bore.
    #[serde(rename = "seat_least", default = "Limits::usual_seat_least")]
    pub seat_least: f64,
    /// Greatest share of a marble's diameter that sits below the rim of its bore.
    #[serde(rename = "seat_most", default = "Limits::usual_seat_most")]
    pub seat_most: f64,
    /// Most play of the jig's pin in its pilot.
    #[serde(rename = "pin_play_mm")]
    pub pin_play: f64,
    /// Least hardboard between two holes of a router template.
    #[serde(rename = "template_web_mm", default = "Limits::usual_template_web")]
    pub template_web: f64,
    /// Most sheets that the maker is willing to tape together.
    pub sheets: u32,
    /// Highest acceptable risk that any web comes out thinner than its limit, as a share.
    #[serde(rename = "risk", default = "Limits::usual_risk")]
    pub risk: f64,
    /// Least downward force on the rim that may tip the board, N.
    #[serde(rename = "tip_n", default = "Limits::usual_tip")]
    pub tip: f64,
    /// The rotational speed up to which pieces stay in their holes, rpm.
    #[serde(rename = "spin_rpm", default = "Limits::usual_spin")]
    pub spin: f64,
    /// How far a player can reach over the board, from its edge.
    #[serde(rename = "reach_mm", default = "Limits::usual_reach")]
    pub reach: f64,
    /// Least rim outside the pieces for hands that rotate the board.
    #[serde(rename = "hands_mm", default = "Limits::usual_hands")]
    pub hands: f64,
    /// Most weight that one person carries, kg.
    #[serde(rename = "carry_kg", default = "Limits::usual_carry")]
    pub carry: f64,
}

/// The defaults, each common practice without a source.
impl Limits {
    const fn usual_floor() -> f64 {
        4.0
    }

    const fn usual_inside() -> f64 {
        3.0
    }

    const fn usual_seam() -> f64 {
        1.0
    }

    const fn usual_piece_play() -> f64 {
        0.6
    }

    const fn usual_seat_least() -> f64 {
        0.1
    }

    const fn usual_seat_most() -> f64 {
        0.45
    }

    const fn usual_template_web() -> f64 {
        3.0
    }

    const fn usual_risk() -> f64 {
        0.05
    }

    /// About the weight of 1 kg: a hand resting on the rim.
    const fn usual_tip() -> f64 {
        10.0
    }

    /// One turn in two seconds: a board that is turned by hand.
    const fn usual_spin() -> f64 {
        30.0
    }

    /// Two feet, rounded: as far as a seated adult reaches; from memory.
    const fn usual_reach() -> f64 {
        610.0
    }

    /// Space for fingertips.
    const fn usual_hands() -> f64 {
        10.0
    }

    /// The lowest guideline figure for a load at arm's length and elbow height (HSE INDG143); from memory.
    const fn usual_carry() -> f64 {
        10.0
    }
}

impl Default for Limits {
    /// Common practice, no source.
    fn default() -> Self {
        Self {
            web: 3.0,
            rim: 6.0,
            floor: Self::usual_floor(),
            inside: Self::usual_inside(),
            seam: Self::usual_seam(),
            piece_gap: 2.0,
            piece_play: Self::usual_piece_play(),
            seat_least: Self::usual_seat_least(),
            seat_most: Self::usual_seat_most(),
            pin_play: 0.3,
            template_web: Self::usual_template_web(),
            sheets: 24,
            risk: Self::usual_risk(),
            tip: Self::usual_tip(),
            spin: Self::usual_spin(),
            reach: Self::usual_reach(),
            hands: Self::usual_hands(),
            carry: Self::usual_carry(),
        }
    }
}

/// The error of each step of the work, as a "plus or minus" that is hardly ever exceeded.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Errors {
    /// Error of the printer's scale: how much too long or too short lengths come out, as a share.
    pub print: f64,
    /// Error of one taped joint between sheets.
    #[serde(rename = "tape_mm")]
    pub tape: f64,
    /// Error of center-punching through the paper.
    #[serde(rename = "punch_mm")]
    pub punch: f64,
    /// Error from the drill wandering off the punched mark.
    #[serde(rename = "drill_mm")]
    pub drill: f64,
    /// How much wider a bore is than the bit.
    #[serde(rename = "oversize_mm")]
    pub oversize: f64,
    /// Indexing error if the board is rotated from hole to hole; 0 if it is not.
    #[serde(rename = "index_deg")]
    pub index: f64,
}

impl Default for Errors {
    /// A home printer and careful work; common practice, no source.
    fn default() -> Self {
        Self {
            print: 0.002,
            tape: 0.3,
            punch: 0.3,
            drill: 0.3,
            oversize: 0.1,
            index: 0.0,
        }
    }
}
