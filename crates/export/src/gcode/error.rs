//! The reasons why no G-code is written.

use crate::Error;

/// The reason why no G-code is written; each message names what would work.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum GcodeError {
    /// A number is infinite, not a number, or unreasonably large.
    #[error("{reason}")]
    Figure {
        /// Its name and its value, in a sentence.
        reason: String,
    },
    /// The board has no holes to drill.
    #[error("there are no holes to drill")]
    NoHoles,
    /// A hole's position or bore is infinite or not a number, or its bore has no size.
    #[error("hole {hole} has no place, or a bore without diameter or depth")]
    Hole {
        /// The hole's name.
        hole: String,
    },
    /// No feed was given for a bit.
    #[error("missing feed for the {bit} bit: enter the plunge feed under Drill, Machine")]
    MissingFeed {
        /// Diameter and bottom.
        bit: String,
    },
    /// No speed was given for a bit.
    #[error(
        "missing spindle speed for the {bit} bit: enter the spindle speed (rpm) under Drill, Machine"
    )]
    MissingSpeed {
        /// Diameter and bottom.
        bit: String,
    },
    /// A setting that must be positive is not, or is not a number.
    #[error("the {what} is {value}, but must be {least} or more")]
    TooSmall {
        /// The setting.
        what: String,
        /// The value given.
        value: String,
        /// The least that can be written.
        least: String,
    },
    /// A height at or below the top face.
    #[error(
        "the {what} is {value} above the top face, but must be over 0: the bit would travel in the wood"
    )]
    BelowTop {
        /// The height.
        what: &'static str,
        /// The value given.
        value: String,
    },
    /// The feed would start above the clearance height.
    #[error(
        "the retract height, {retract}, is above the clearance height, {clearance}: make it {clearance} or less"
    )]
    RetractAboveClearance {
        /// The height where the feed starts.
        retract: String,
        /// The height of travel.
        clearance: String,
    },
    /// A bit would come through the board, or farther than allowed.
    #[error(
        "hole {hole}: with its point or spur the bit reaches {reach} below the top face, but the board is {thickness} thick{allowed}; make the hole more than {over} shallower, or allow for it in a spoilboard"
    )]
    TooDeep {
        /// The hole's name.
        hole: String,
        /// Depth that the bit reaches.
        reach: String,
        /// Thickness of the board.
        thickness: String,
        /// The depth allowed below it, in words; empty if none is allowed.
        allowed: String,
        /// By how much it is too far.
        over: String,
    },
    /// The document has no speed or feed for a cutter.
    #[error("no speed and feeds for the {what}: enter them under Drill, Machine")]
    NoRun {
        /// The cutter.
        what: &'static str,
    },
    /// A speed or a feed of a cutter is not set.
    #[error("missing {setting} of the {what}: enter it; there is no default")]
    Missing {
        /// The setting.
        setting: &'static str,
        /// The cutter.
        what: &'static str,
    },
    /// The skin under the edge is as thick as the board.
    #[error(
        "a skin of {skin} in a board of {thickness} leaves nothing to cut: make the skin thinner"
    )]
    AllSkin {
        /// Thickness of the skin.
        skin: String,
        /// Thickness of the board.
        thickness: String,
    },
    /// Nothing holds the board in the last turn.
    #[error(
        "without a skin the last turn cuts the board loose: leave one, or allow for the cutter in a spoilboard and fasten the board to it"
    )]
    NoSkin,
    /// The passes are so thin that the program would be endless.
    #[error("{what} would take {passes} passes; make each {least} or more")]
    TooManyPasses {
        /// The part that is cut.
        what: &'static str,
        /// Number of passes.
        passes: String,
        /// The least depth of a pass that works.
        least: String,
    },
    /// The board has no grooves.
    #[error("there are no grooves to cut")]
    NoGrooves,
    /// A groove is infinite or not a number.
    #[error("a {what} has no place")]
    Groove {
        /// The part that is wrong.
        what: &'static str,
    },
    /// The tip of the V bit is as wide as the groove.
    #[error(
        "a V bit with a tip of {tip} cuts no groove {width} wide: take a sharper one or a wider groove"
    )]
    NoDepth {
        /// Width of the flat at the tip.
        tip: String,
        /// Width of the groove.
        width: String,
    },
    /// Grooves that cut through the underside.
    #[error(
        "grooves of this width are {depth} deep, in a board of {thickness}: make them narrower, or take a wider angle"
    )]
    GrooveTooDeep {
        /// Depth of the grooves.
        depth: String,
        /// Thickness of the board.
        thickness: String,
    },
}

impl From<Error> for GcodeError {
    fn from(error: Error) -> Self {
        let reason = error.to_string();
        Self::Figure { reason }
    }
}
