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
    /// Depth that a bit may reach below the board, into a spoilboard; none: it must not break through.
    #[serde(rename = "through_mm", deserialize_with = "or_null")]
    pub through: Option<f64>,
    /// Time for the spindle to come up to speed.
    #[serde(rename = "spin_up_s")]
    pub spin_up: f64,
    /// How programs are divided into files.
    pub files: ProgramFiles,
    /// The kind of commands that drill a hole.
    #[serde(default)]
    pub words: DrillWords,
    /// Speed and feed of each bit.
    pub bits: Vec<BitRun>,
    /// The cut along the board's edge; none: the edge is cut elsewhere.
    #[serde(deserialize_with = "or_null")]
    pub edge: Option<EdgeRun>,
    /// Speed and feed of the V bit; none: the grooves are cut elsewhere.
    #[serde(default)]
    pub groove: Option<CutterRun>,
}

/// How programs are divided into files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ProgramFiles {
    /// A program for each bit: for a machine with manual tool changes.
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

/// The kind of commands with which a program drills a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DrillWords {
    /// A canned cycle per hole: short, and the control retracts the bit.
    #[default]
    Cycles,
    /// Every move spelled out: for a control without canned cycles.
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
    /// Its diameter: that of the bores it drills, unless [`crate::Bore::cutter`] says otherwise.
    #[serde(rename = "diameter_mm")]
    pub diameter: f64,
    /// The bottom it leaves.
    pub bottom: Bottom,
    /// Spindle speed, rpm; none: not decided yet.
    #[serde(rename = "speed_rpm", deserialize_with = "or_null")]
    pub speed: Option<f64>,
    /// Downward feed, mm/min; none: not decided yet.
    #[serde(rename = "feed_mm_min", deserialize_with = "or_null")]
    pub feed: Option<f64>,
    /// Depth of each peck, after which the bit is retracted to clear the chips; none: in one pass.
    #[serde(rename = "peck_mm", deserialize_with = "or_null")]
    pub peck: Option<f64>,
    /// Dwell time at the bottom; none: no dwell.
    #[serde(rename = "dwell_s", deserialize_with = "or_null")]
    pub dwell: Option<f64>,
}

impl BitRun {
    /// Diameters that differ by less than this belong to the same bit, mm.
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

    /// Whether the bit has this diameter and leaves this bottom.
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

/// The cut along the board's edge.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgeRun {
    /// Diameter of the cutter.
    #[serde(rename = "cutter_mm")]
    pub cutter: f64,
    /// Spindle speed, rpm; none: not decided yet.
    #[serde(rename = "speed_rpm", deserialize_with = "or_null")]
    pub speed: Option<f64>,
    /// Feed along the cut, mm/min; none: not decided yet.
    #[serde(rename = "feed_mm_min", deserialize_with = "or_null")]
    pub feed: Option<f64>,
    /// Downward feed, mm/min; none: not decided yet.
    #[serde(rename = "plunge_mm_min", deserialize_with = "or_null")]
    pub plunge: Option<f64>,
    /// Depth of each pass.
    #[serde(rename = "pass_mm")]
    pub pass: f64,
    /// Thickness of wood left uncut at the bottom, which holds the board until it is sawn free.
    #[serde(rename = "skin_mm")]
    pub skin: f64,
}

impl EdgeRun {
    /// Its speed and feeds.
    pub const fn run(&self) -> CutterRun {
        CutterRun {
            speed: self.speed,
            feed: self.feed,
            plunge: self.plunge,
        }
    }
}

/// Speed and feeds of a cutter that is moved through the wood. For grooves, this is all: the shape of the V-bit and the depth
/// of a pass belong to the grooves.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CutterRun {
    /// Spindle speed, rpm; none: not decided yet.
    #[serde(rename = "speed_rpm", deserialize_with = "or_null")]
    pub speed: Option<f64>,
    /// Feed along the cut, mm/min; none: not decided yet.
    #[serde(rename = "feed_mm_min", deserialize_with = "or_null")]
    pub feed: Option<f64>,
    /// Downward feed, mm/min; none: not decided yet.
    #[serde(rename = "plunge_mm_min", deserialize_with = "or_null")]
    pub plunge: Option<f64>,
}

impl Default for Machine {
    /// Common heights, no source; no feed and no speed.
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
