//! Fields of the order of drilling, the machine and the changes by hand.

use super::Kind::{Choice, Entries, Hole, Number, Open, Part, Tick, Ticked};
use super::bores::{self, bore};
use super::jigs::BIT;
use super::piece::PASS;
use crate::Quantity::{Count, Feed, Length, Rotation, Time};
use crate::{Change, Range, TimeUnit};

/// Heights above the work: never 0, where a bit would touch it.
const HEIGHT: Range = Length.of(0.001, 1000.0);
/// Times that a machine waits.
const WAIT: Range = Time(TimeUnit::Second).of(0.0, 600.0);
/// Speeds of spindles, from a brace to an engraving spindle.
const TURNS: Range = Rotation.of(1.0, 200_000.0);
/// Feeds in mm a minute; never 0, with which a program has no end.
const FEED: Range = Feed.of(0.001, 100_000.0);
/// What holds for a feed or a speed before the maker types one: none is assumed.
const REQUIRED: &str = "required";

fields! {
    /// The order of drilling.
    ORDER_FIELDS:
    ORDER "order", [.order] "Drilling order", Choice, "";
}

fields! {
    /// The machine.
    MACHINE_FIELDS:
    MACHINE "machine", [.machine] "Drill by machine", Part, "A CNC machine";
    SAFE_HEIGHT "machine.clearance_mm", [.machine? .clearance] "Safe height", Number(HEIGHT),
        "Where the bit travels: above the top face, over every clamp and screw";
    FEED_HEIGHT "machine.retract_mm", [.machine? .retract] "Start feed at", Number(HEIGHT), "Above the top face";
    THROUGH "machine.through_mm", [.machine? .through] "Into spoilboard", Ticked(Length.of(0.0, 100.0), 0.5),
        "How far a bit may reach below the board; without it none may come through";
    SPIN_UP "machine.spin_up_s", [.machine? .spin_up] "Spindle warm-up", Number(WAIT), "Until it has come up to speed";
    PROGRAMS "machine.files", [.machine? .files] "Programs", Choice, "";
    BITS "machine.bits", [.machine? .bits] "Bits", Entries(Count.range("bits of the machine", 0.0, 100.0)),
        "How each bit is run";
}

fields! {
    /// How a bit of the machine is run.
    BIT_FIELDS:
    BIT_DIAMETER "machine.bits[].diameter_mm", [.machine? .bits[] .diameter] "Bit #, diameter", Number(bores::DIAMETER),
        "Of the bores it drills";
    BIT_BOTTOM "machine.bits[].bottom", [.machine? .bits[] .bottom] "Bit #, bottom", Choice, "The shape that it leaves";
    BIT_SPEED "machine.bits[].speed_rpm", [.machine? .bits[] .speed] "Drill speed", Open(TURNS, REQUIRED), "";
    BIT_FEED "machine.bits[].feed_mm_min", [.machine? .bits[] .feed] "Plunge feed", Open(FEED, REQUIRED), "Down into the wood";
    PECK "machine.bits[].peck_mm", [.machine? .bits[] .peck] "Peck", Open(PASS, "in one go"),
        "How deep it goes before it is drawn out to clear the chips";
    DWELL "machine.bits[].dwell_s", [.machine? .bits[] .dwell] "Dwell", Open(WAIT, "not at all"),
        "How long it turns at the bottom";
}

fields! {
    /// How the machine cuts the board's edge.
    EDGE_FIELDS:
    EDGE "machine.edge", [.machine? .edge] "Cut board's edge", Part, "Round, by the machine";
    CUTTER "machine.edge.cutter_mm", [.machine? .edge? .cutter] "Cutter", Number(BIT), "Its diameter";
    EDGE_SPEED "machine.edge.speed_rpm", [.machine? .edge? .speed] "Cutter speed", Open(TURNS, REQUIRED), "";
    EDGE_FEED "machine.edge.feed_mm_min", [.machine? .edge? .feed] "Feed along", Open(FEED, REQUIRED), "Along the cut";
    EDGE_PLUNGE "machine.edge.plunge_mm_min", [.machine? .edge? .plunge] "Feed down", Open(FEED, REQUIRED), "";
    EDGE_PASS "machine.edge.pass_mm", [.machine? .edge? .pass] "Depth of a pass", Number(PASS), "";
    SKIN "machine.edge.skin_mm", [.machine? .edge? .skin] "Skin left", Number(Length.of(0.0, 500.0)),
        "Wood left uncut below, which holds the board until it is sawn free";
}

fields! {
    /// How the machine cuts the grooves.
    GROOVE_RUN_FIELDS:
    GROOVE_RUN "machine.groove", [.machine? .groove] "Cut by machine", Part, "The V-grooves";
    GROOVE_SPEED "machine.groove.speed_rpm", [.machine? .groove? .speed] "V-bit speed", Open(TURNS, REQUIRED), "";
    GROOVE_FEED "machine.groove.feed_mm_min", [.machine? .groove? .feed] "V-bit feed along", Open(FEED, REQUIRED), "";
    GROOVE_PLUNGE "machine.groove.plunge_mm_min", [.machine? .groove? .plunge] "V-bit feed down", Open(FEED, REQUIRED), "";
}

/// A move by hand: no farther than across a board.
const OFFSET: Range = Length.of(-5000.0, 5000.0);

fields! {
    /// Changes by hand.
    EDITS_FIELDS:
    EDITS "edits", [.edits] "Edited holes", Entries(Count.range("changes by hand", 0.0, f64::INFINITY)),
        "In the order they were made";
}

fields! {
    /// A change by hand. A hole is moved from where the pattern has it, and added from the center pin in the player's frame.
    EDIT_FIELDS:
    EDIT_HOLE "edits[].hole", [.edits[] .hole] "Edit #, hole",
        Hole(Count.range("number of a hole changed by hand", 1.0, 9999.0)), "Its name on the board, as in T3-07; C is the center";
    EDIT_MIRRORED "edits[].mirrored", [.edits[] .mirrored] "Edit #, for all", Tick, "The same hole of every player";
    EDIT_KIND "edits[].change.kind", [.edits[] .change] "Edit #, change", Choice, "";
    EDIT_U "edits[].change.u_mm", [.edits[] .change {Change::Move | Change::Add => u}] "Moved clockwise", Number(OFFSET),
        "From where the pattern has it; of an added hole, from the player's axis";
    EDIT_V "edits[].change.v_mm", [.edits[] .change {Change::Move | Change::Add => v}] "Moved outward", Number(OFFSET),
        "From where the pattern has it; of an added hole, from the center pin";
}

bore! {
    /// The bore of an edited hole.
    EDIT_BORE: EDIT_DIAMETER EDIT_DEPTH EDIT_BOTTOM
        "edits[].change.bore", [.edits[] .change {Change::Bore | Change::Add => bore}] "Edited"
}
