//! Readings taken after the work, and holes that went wrong.

use crate::Quantity::{Count, Length};
use crate::field::Kind::{Choice, Entries, Hole, Number};
use crate::{Distance, Fault, MeasuredOn, Range, WrongHole};

/// A hole's number among those of its player.
const NUMBER: Range = Count.range("number of a hole", 1.0, 9999.0);
/// How far a hole is off its position: beyond this it is another hole.
const BESIDE: Range = Length.of(-200.0, 200.0);

fields! {
    /// Readings after the work, and the list of holes that went wrong.
    REPAIR_FIELDS:
    MEASURED_ON "measured.on", [.measured.on] "Measured on", Choice, "After taping the sheets, or after drilling";
    READING_ERROR "measured.error_mm", [.measured.error] "Reading error", Number(Length.of(0.01, 20.0)),
        "Plus or minus, of one distance as you read it", us: "1/64";
    DISTANCES "measured.distances", [.measured.distances] "Distances", Entries(Count.range("measured distances", 0.0, 200.0)),
        "Long ones in several directions tell most";
    WRONG_HOLES "wrong", [.wrong] "Misdrilled holes", Entries(Count.range("misdrilled holes", 0.0, 200.0)), "";
}

fields! {
    /// A measured distance.
    DISTANCE_FIELDS:
    DISTANCE_FROM "measured.distances[].from", [.measured.distances[] .from] "Distance # from", Hole(NUMBER),
        "The name of a hole, as in T3-07; C is the center";
    DISTANCE_TO "measured.distances[].to", [.measured.distances[] .to] "Distance # to", Hole(NUMBER),
        "The name of a hole, as in T3-07; C is the center";
    DISTANCE "measured.distances[].distance_mm", [.measured.distances[] .distance] "Distance #",
        Number(Length.of(0.0, 5000.0)),
        "From center to center; of two like holes, from the left edge of one to the left edge of the other";
}

fields! {
    /// A hole that went wrong.
    WRONG_FIELDS:
    WRONG_HOLE "wrong[].hole", [.wrong[] .hole] "Wrong #, hole", Hole(NUMBER), "Its name on the board, as in T3-07; C is the center";
    WRONG_KIND "wrong[].fault.kind", [.wrong[] .fault] "Wrong #, mistake", Choice, "";
    WRONG_U "wrong[].fault.u_mm", [.wrong[] .fault {Fault::Off => u}] "Wrong #, clockwise", Number(BESIDE),
        "From its place; counter-clockwise is negative";
    WRONG_V "wrong[].fault.v_mm", [.wrong[] .fault {Fault::Off => v}] "Wrong #, outward", Number(BESIDE),
        "From its place; toward the center pin is negative";
    WRONG_DEEP "wrong[].fault.by_mm", [.wrong[] .fault {Fault::Deep => by}] "Wrong #, deeper", Number(Length.of(0.0, 500.0)), "How much deeper than planned";
    WRONG_REACH "wrong[].fault.reach_mm", [.wrong[] .fault {Fault::Chipped => reach}] "Wrong #, chip",
        Number(Length.of(0.0, 200.0)), "How far it reaches from the edge of the hole";
}

kinds! {
    Fault:
    "beside its place" => Off { u: 0.0, v: 0.0 },
    "too deep" => Deep { by: 0.0 },
    "chipped" => Chipped { reach: 0.0 },
}
plain!(MeasuredOn);
usual!(Distance, WrongHole);
