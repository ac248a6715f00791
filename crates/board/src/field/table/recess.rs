//! The storage recess and its lid.

use super::bores::DEPTH;
use crate::Quantity::{Angle, Count, Length};
use crate::field::Kind::{Choice, Number, Part};
use crate::{Board, LidGrain, LidHold, Range, Recess, RecessShape, Toward};

/// Sides of a recess: at most the largest width of a board.
const SIDE: Range = Length.of(1.0, 5000.0);
/// Position relative to the center pin: no farther than a board reaches.
const PLACE: Range = Length.of(-2500.0, 2500.0);
/// Radius of a corner: at most half of the longest side.
const CORNER: Range = Length.of(0.0, 2500.0);

fields! {
    /// Storage in the underside.
    RECESS_FIELDS:
    RECESS "recess", [.recess] "Rout a recess", Part, "In the underside, to store the pieces";
    RECESS_SHAPE "recess.shape.kind", [.recess? .shape] "Recess outline", Choice, "";
    RECESS_DIAMETER "recess.shape.diameter_mm", [.recess? .shape {RecessShape::Round => diameter}] "Recess diameter",
        Number(SIDE), "", us: "4 3/4";
    RECESS_LENGTH "recess.shape.length_mm", [.recess? .shape {RecessShape::Straight => length}] "Recess length",
        Number(SIDE), "From left to right, along the grain", us: "4 3/4";
    RECESS_WIDTH "recess.shape.width_mm", [.recess? .shape {RecessShape::Straight => width}] "Recess width",
        Number(SIDE), "Across the grain", us: "4 3/4";
    RECESS_CORNER "recess.shape.corner_mm", [.recess? .shape {RecessShape::Straight => corner}] "Corner radius",
        Number(CORNER), "Half the diameter of the bit; 0 for square corners, which no bit leaves";
    RECESS_X "recess.at_mm[0]", [.recess? .at[0]] "Right of the pin", Number(PLACE),
        "The middle of the recess, seen from the top face";
    RECESS_Y "recess.at_mm[1]", [.recess? .at[1]] "Above the pin", Number(PLACE),
        "The middle of the recess, seen from the top face";
    RECESS_DEPTH "recess.depth_mm", [.recess? .depth] "Recess depth", Number(DEPTH), "From the underside", us: "3/8";
    LID "recess.lid_mm", [.recess? .lid] "Lid thickness", Number(DEPTH),
        "It lies in the recess, flush with the underside; 0 for none";
    SPARE "recess.spare", [.recess? .spare] "Spare pieces", Number(Count.of(0.0, 1000.0)),
        "In addition to those that fill the start pockets, or the home lanes if these have more holes";
}

fields! {
    /// The fit of the recess's lid.
    LID_FIELDS:
    LID_HOLD "recess.lid_fit.hold.kind", [.recess? .lid_fit.hold] "The lid", Choice, "";
    DOVETAIL "recess.lid_fit.hold.angle_deg", [.recess? .lid_fit.hold {LidHold::Slides => angle}] "Dovetail angle",
        Number(Angle.of(1.0, 45.0)), "Of each side from upright: half the included angle of the bit";
    LID_TOWARD "recess.lid_fit.hold.toward", [.recess? .lid_fit.hold {LidHold::Slides => toward}] "Lid direction", Choice,
        "The way it slides out, seen from the top face";
    LID_OVERLAP "recess.lid_fit.overlap_mm", [.recess? .lid_fit.overlap] "Ledge width", Number(Length.of(0.0, 200.0)),
        "How far the ledge or groove reaches beyond the recess, at the underside";
    LID_CLEARANCE "recess.lid_fit.clearance_mm", [.recess? .lid_fit.clearance] "Lid clearance",
        Number(Length.of(0.0, 50.0)), "How much smaller than its opening the lid is made", us: "1/64";
    LID_GRAIN "recess.lid_fit.grain", [.recess? .lid_fit.grain] "Lid grain", Choice, "";
}

kinds! {
    RecessShape, begun by as_large_as_before:
    "round" => Round { diameter: 120.0 },
    "rectangular" => Straight { length: 120.0, width: 120.0, corner: 0.0 },
}
kinds! {
    LidHold:
    "lies in, turn buttons" => LiesIn,
    // A common dovetail bit has sides at 14° (28° included); from memory.
    "slides in a dovetail" => Slides { angle: 14.0, toward: Toward::Right },
}
plain!(LidGrain, Toward);
usual!(Recess);

/// Keeps the size of the previous outline.
fn as_large_as_before(shape: &RecessShape, board: &Board) -> RecessShape {
    let before = board.recess.map_or(*shape, |recess| recess.shape);
    let (length, width) = before.sides();
    match *shape {
        RecessShape::Round { .. } => RecessShape::Round { diameter: width },
        RecessShape::Straight { corner, .. } => RecessShape::Straight {
            length,
            width,
            corner,
        },
    }
}
