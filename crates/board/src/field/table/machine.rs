//! The method and order of drilling, and the machine that drills and cuts.

use super::bores::DIAMETER;
use super::grooves::PASS;
use super::hardboard::BIT;
use crate::Quantity::{Count, Feed, Length, Rotation, Time};
use crate::field::Kind::{Choice, Entries, Number, Open, Part, Ticked};
use crate::field::choice;
use crate::{
    BitRun, Board, CutterRun, DrillWords, DrillingMethod, DrillingOrder, EdgeRun, Machine,
    ProgramFiles, Range, TimeUnit,
};

/// Heights above the work: never 0, where a bit would touch it.
const HEIGHT: Range = Length.of(0.001, 1000.0);
/// Times that a machine waits.
const WAIT: Range = Time(TimeUnit::Second).of(0.0, 600.0);
/// Speeds of spindles, from a brace to an engraving spindle.
const TURNS: Range = Rotation.of(1.0, 200_000.0);
/// Feeds in mm/min; never 0, or a program would never end.
const FEED: Range = Feed.of(0.001, 100_000.0);
/// The words for a feed or a speed before the maker types one: none is assumed.
const REQUIRED: &str = "required";

fields! {
    /// The method and order of drilling.
    ORDER_FIELDS:
    METHOD "method", [.method] "Drilling method", Choice,
        "The job sheet follows it. Automatic: the machine, router template or one-player jig that this board plans for, else the paper template";
    ORDER "order", [.order] "Drilling order", Choice, "";
}

fields! {
    /// The machine.
    MACHINE_FIELDS:
    MACHINE "machine", [.machine] "Drill by machine", Part, "A CNC machine";
    SAFE_HEIGHT "machine.clearance_mm", [.machine? .clearance] "Safe height", Number(HEIGHT),
        "Where the bit travels: above the top face, over every clamp and screw", us: "5/8", of shop;
    FEED_HEIGHT "machine.retract_mm", [.machine? .retract] "Start feed at", Number(HEIGHT), "Above the top face", us: "1/8", of shop;
    THROUGH "machine.through_mm", [.machine? .through] "Into spoilboard", Ticked(Length.of(0.0, 100.0), 0.5),
        "How far a bit may reach below the board; leave it out and no bit may come through", us: "1/32";
    SPIN_UP "machine.spin_up_s", [.machine? .spin_up] "Spindle warm-up", Number(WAIT), "Until it has come up to speed", of shop;
    PROGRAMS "machine.files", [.machine? .files] "Programs", Choice, "", of shop;
    DRILL_WORDS "machine.words", [.machine? .words] "Holes drilled by", Choice,
        "Canned cycles (G81, G82, G83) are short; plain moves (G0, G1, G4) run on a control that has no cycles", of shop;
    BITS "machine.bits", [.machine? .bits] "Bits", Entries(Count.range("bits of the machine", 0.0, 100.0)),
        "How each bit is run", of shop;
}

fields! {
    /// A bit of the machine: its speed, feed and pecks.
    BIT_FIELDS:
    BIT_DIAMETER "machine.bits[].diameter_mm", [.machine? .bits[] .diameter] "Bit #, diameter", Number(DIAMETER),
        "The diameter of the holes it drills; a ball that makes a shallow hole is larger than the hole", of shop;
    BIT_BOTTOM "machine.bits[].bottom", [.machine? .bits[] .bottom] "Bit #, bottom", Choice, "The shape that it leaves", of shop;
    BIT_SPEED "machine.bits[].speed_rpm", [.machine? .bits[] .speed] "Drill speed", Open(TURNS, REQUIRED), "", of shop;
    BIT_FEED "machine.bits[].feed_mm_min", [.machine? .bits[] .feed] "Plunge feed", Open(FEED, REQUIRED), "Down into the wood", of shop;
    PECK "machine.bits[].peck_mm", [.machine? .bits[] .peck] "Peck", Open(PASS, "in one go"),
        "How deep it goes before it is drawn out to clear the chips", of shop;
    DWELL "machine.bits[].dwell_s", [.machine? .bits[] .dwell] "Dwell", Open(WAIT, "not at all"),
        "How long it turns at the bottom", of shop;
}

fields! {
    /// The board's edge, cut by the machine.
    EDGE_FIELDS:
    EDGE "machine.edge", [.machine? .edge] "Cut board's edge", Part, "Round, by the machine";
    CUTTER "machine.edge.cutter_mm", [.machine? .edge? .cutter] "Cutter", Number(BIT), "Its diameter", us: "1/4", of shop;
    EDGE_SPEED "machine.edge.speed_rpm", [.machine? .edge? .speed] "Cutter speed", Open(TURNS, REQUIRED), "", of shop;
    EDGE_FEED "machine.edge.feed_mm_min", [.machine? .edge? .feed] "Feed along", Open(FEED, REQUIRED), "Along the cut", of shop;
    EDGE_PLUNGE "machine.edge.plunge_mm_min", [.machine? .edge? .plunge] "Feed down", Open(FEED, REQUIRED), "", of shop;
    EDGE_PASS "machine.edge.pass_mm", [.machine? .edge? .pass] "Depth of a pass", Number(PASS), "", us: "1/8", of shop;
    SKIN "machine.edge.skin_mm", [.machine? .edge? .skin] "Skin left", Number(Length.of(0.0, 500.0)),
        "Wood left uncut at the bottom, to hold the board until it is sawn free", us: "1/64";
}

fields! {
    /// The grooves, cut by the machine.
    GROOVE_RUN_FIELDS:
    GROOVE_RUN "machine.groove", [.machine? .groove] "Cut by machine", Part, "The V-grooves";
    GROOVE_SPEED "machine.groove.speed_rpm", [.machine? .groove? .speed] "V-bit speed", Open(TURNS, REQUIRED), "", of shop;
    GROOVE_FEED "machine.groove.feed_mm_min", [.machine? .groove? .feed] "V-bit feed along", Open(FEED, REQUIRED), "", of shop;
    GROOVE_PLUNGE "machine.groove.plunge_mm_min", [.machine? .groove? .plunge] "V-bit feed down", Open(FEED, REQUIRED), "", of shop;
}

plain!(DrillingMethod, DrillingOrder, ProgramFiles, DrillWords);
usual!(CutterRun, EdgeRun, Machine);

impl choice::Part for BitRun {
    fn begun(board: &Board) -> Self {
        let bore = board.bores.track;
        Self::unsettled(bore.diameter, bore.bottom)
    }
}
