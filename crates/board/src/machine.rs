//! A CNC machine and how the maker runs it. Nothing is assumed about feeds and speeds: they depend on machine,
//! bit and wood.

use serde::{Deserialize, Serialize};

use crate::Bottom;
use crate::serial::or_null;

/// A CNC machine.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Machine {
    /// Height above the top face at which the bit travels.
    #[serde(rename = "clearance_mm")]
    pub clearance: f64,
    /// Height above the top face at which the feed begins.
    #[serde(rename = "retract_mm")]
    pub retract: f64,
    /// Depth that a bit may reach below the board, into a spoilboard; none: it may not come through.
    #[serde(rename = "through_mm", deserialize_with = "or_null")]
    pub through: Option<f64>,
    /// Time for the spindle to come up to speed.
    #[serde(rename = "spin_up_s")]
    pub spin_up: f64,
    /// The division into files.
    pub files: ProgramFiles,
    /// The words in which a hole is drilled.
    #[serde(default)]
    pub words: DrillWords,
    /// Speed and feed of each bit.
    pub bits: Vec<BitRun>,
    /// The board's edge cut round; none: it is cut elsewhere.
    #[serde(deserialize_with = "or_null")]
    pub edge: Option<EdgeRun>,
    /// Speed and feed of the V bit; none: the grooves are cut elsewhere.
    #[serde(default)]
    pub groove: Option<CutterRun>,
}

/// The division of programs into files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ProgramFiles {
    /// A program for each bit: for a machine whose bits are changed by hand.
    #[default]
    OnePerBit,
    /// One program with tool changes.
    One,
}

impl ProgramFiles {
    /// Every choice, in the order lists show them.
    pub const ALL: [Self; 2] = [Self::OnePerBit, Self::One];

    /// The words that screens use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::OnePerBit => "one for each bit",
            Self::One => "one, with tool changes",
        }
    }
}

/// The words in which a program drills a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DrillWords {
    /// A canned cycle a hole: short, and the control draws the bit out.
    #[default]
    Cycles,
    /// Each move by itself: for a control without canned cycles.
    Moves,
}

impl DrillWords {
    /// Every choice, in the order lists show them.
    pub const ALL: [Self; 2] = [Self::Cycles, Self::Moves];

    /// The words that screens use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Cycles => "canned cycles",
            Self::Moves => "plain moves",
        }
    }
}

/// Speed, feed and pecks of one bit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BitRun {
    /// Its diameter: that of the bores it drills, but where [`crate::Bore::cutter`] says otherwise.
    #[serde(rename = "diameter_mm")]
    pub diameter: f64,
    /// The bottom it leaves.
    pub bottom: Bottom,
    /// Turns a minute; none: not settled yet.
    #[serde(rename = "speed_rpm", deserialize_with = "or_null")]
    pub speed: Option<f64>,
    /// Feed down in mm a minute; none: not settled yet.
    #[serde(rename = "feed_mm_min", deserialize_with = "or_null")]
    pub feed: Option<f64>,
    /// Depth at which it is drawn out to clear the chips; none: in one go.
    #[serde(rename = "peck_mm", deserialize_with = "or_null")]
    pub peck: Option<f64>,
    /// Time that it turns at the bottom; none: not at all.
    #[serde(rename = "dwell_s", deserialize_with = "or_null")]
    pub dwell: Option<f64>,
}

impl BitRun {
    /// Diameters closer than this are those of one bit, mm.
    pub const SAME: f64 = 1e-6;

    /// A bit with no speed or feed yet.
    pub const fn unsettled(diameter: f64, bottom: Bottom) -> Self {
        Self {
            diameter,
            bottom,
            speed: None,
            feed: None,
            peck: None,
            dwell: None,
        }
    }

    /// Whether it is the bit of a diameter that leaves a bottom.
    ///
    /// ```
    /// use board::{BitRun, Bottom};
    /// let bit = BitRun::unsettled(12.7, Bottom::Forstner);
    /// assert!(bit.drills(0.5 * 25.4, Bottom::Forstner));
    /// assert!(!bit.drills(12.7, Bottom::Flat));
    /// ```
    pub fn drills(&self, cutter: f64, bottom: Bottom) -> bool {
        self.bottom == bottom && (self.diameter - cutter).abs() < Self::SAME
    }
}

/// The cut round the board's edge.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgeRun {
    /// Diameter of the cutter.
    #[serde(rename = "cutter_mm")]
    pub cutter: f64,
    /// Turns a minute; none: not settled yet.
    #[serde(rename = "speed_rpm", deserialize_with = "or_null")]
    pub speed: Option<f64>,
    /// Feed along the cut in mm a minute; none: not settled yet.
    #[serde(rename = "feed_mm_min", deserialize_with = "or_null")]
    pub feed: Option<f64>,
    /// Feed down in mm a minute; none: not settled yet.
    #[serde(rename = "plunge_mm_min", deserialize_with = "or_null")]
    pub plunge: Option<f64>,
    /// Depth of each pass.
    #[serde(rename = "pass_mm")]
    pub pass: f64,
    /// Wood left uncut below, which holds the board until it is sawn free.
    #[serde(rename = "skin_mm")]
    pub skin: f64,
}

impl EdgeRun {
    /// Its speed and its feeds.
    pub const fn run(&self) -> CutterRun {
        CutterRun {
            speed: self.speed,
            feed: self.feed,
            plunge: self.plunge,
        }
    }
}

/// Speed and feeds of a cutter that is led through the wood. For grooves this is all: the shape of the V bit and the
/// depth of a pass are those of the grooves.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CutterRun {
    /// Turns a minute; none: not settled yet.
    #[serde(rename = "speed_rpm", deserialize_with = "or_null")]
    pub speed: Option<f64>,
    /// Feed along the cut in mm a minute; none: not settled yet.
    #[serde(rename = "feed_mm_min", deserialize_with = "or_null")]
    pub feed: Option<f64>,
    /// Feed down in mm a minute; none: not settled yet.
    #[serde(rename = "plunge_mm_min", deserialize_with = "or_null")]
    pub plunge: Option<f64>,
}

impl Default for Machine {
    /// Heights that are common practice, no source; no feed and no speed.
    fn default() -> Self {
        Self {
            clearance: 15.0,
            retract: 2.0,
            through: None,
            spin_up: 3.0,
            files: ProgramFiles::OnePerBit,
            words: DrillWords::Cycles,
            bits: Vec::new(),
            edge: None,
            groove: None,
        }
    }
}

impl Default for EdgeRun {
    /// A small straight cutter in shallow passes; common practice, no source.
    fn default() -> Self {
        Self {
            cutter: 6.0,
            speed: None,
            feed: None,
            plunge: None,
            pass: 3.0,
            skin: 0.5,
        }
    }
}
