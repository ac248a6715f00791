//! The board as a whole, the pattern, the home lanes and the start pockets.

use geometry::{Pattern, PocketShape};

use crate::Quantity::{Angle, Count, Length, Share};
use crate::Units;
use crate::field::Kind::{Auto, Choice, Number, Text};

/// As many holes as the geometry lays out.
const MOST_HOLES: f64 = geometry::MOST_HOLES as f64;
/// The words for a start pocket without a position.
const AUTO: &str = "where most wood remains";

fields! {
    /// Title and units, pattern, lanes and pockets.
    PATTERN_FIELDS:
    TITLE "title", [.title] "Title",
        Text(Count.range("letters of the title", 0.0, 120.0)), "";
    UNITS "units", [.units] "Units", Choice, "For lengths on screen and paper; the file keeps millimeters", of shop;
    PLAYERS "players", [.players] "Players",
        Number(Count.of(1.0, *geometry::PLAYERS.end() as f64)), "";
    PATTERN "pattern.kind", [.pattern] "Track shape", Choice, "";
    LOBE_DEPTH "pattern.depth", [.pattern {Pattern::Lobes => depth}] "Lobe depth",
        Number(Share.of(*geometry::LOBE_DEPTH.start(), *geometry::LOBE_DEPTH.end())), "As a share of the radius";
    ACROSS "pattern.across", [.pattern {Pattern::Arms => across}] "Holes across an arm",
        Number(Count.of(*geometry::ARM_WIDTH.start() as f64, *geometry::ARM_WIDTH.end() as f64)), "An odd number";
    SPACES "spaces", [.spaces] "Spaces per player", Number(Count.of(1.0, *geometry::SPACES.end() as f64)),
        "Holes of the track from one player's axis to the next";
    HOME "home", [.home] "Home holes", Number(Count.of(0.0, MOST_HOLES)), "In the home lane of each player";
    START "start", [.start] "Start holes", Number(Count.of(0.0, MOST_HOLES)), "In the start pocket of each player";
    PITCH "pitch_mm", [.pitch] "Hole spacing",
        Number(Length.of(*geometry::PITCH.start(), *geometry::PITCH.end())),
        "The pitch: straight distance between the centers of neighbors along the track", us: "3/4";
    ROTATION "rotation_deg", [.rotation] "Rotation", Number(Angle.of(-360.0, 360.0)),
        "Bearing of the first player's axis, clockwise from 12 o'clock";
    POCKET_SHAPE "pocket.shape", [.pocket.shape] "Start pocket", Choice, "How its holes are arranged";
    POCKET_BEARING "pocket.bearing_deg", [.pocket.bearing] "Pocket angle",
        Auto(Angle.of(-180.0, 180.0), AUTO), "Of its middle from the player's axis, clockwise";
    POCKET_RADIUS "pocket.radius_mm", [.pocket.radius] "Pocket radius",
        Auto(Length.of(0.0, 5000.0), AUTO), "Of its middle from the center pin";
}

impl crate::field::choice::Choice for Units {
    const KINDS: &'static [Self] = &Self::ALL;

    fn words(&self) -> &'static str {
        self.label()
    }

    /// Inches are several kinds, one per finest fraction.
    fn is_kind(&self, other: &Self) -> bool {
        self == other
    }
}

kinds! {
    Pattern:
    "ring" => Ring,
    "lobes" => Lobes { depth: 0.15 },
    "polygon" => Polygon,
    "arms" => Arms { across: 3 },
}
kinds! { PocketShape: "row" => Row, "arc" => Arc, "block" => Block, "ring" => Ring }
