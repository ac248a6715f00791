//! The V-grooves in the top face.

use crate::Quantity::{Angle, Length};
use crate::field::Kind::{Number, Part, Tick, Ticked};
use crate::{Grooves, Range, Rings};

/// Wood left at the side of a groove.
const BESIDE: Range = Length.of(0.0, 500.0);
/// Depth of one pass.
pub(super) const PASS: Range = Length.of(0.001, 500.0);

fields! {
    /// V-grooves in the top face. Initial values are common practice, no source.
    GROOVE_FIELDS:
    GROOVES "grooves", [.grooves] "Rout V-grooves", Part, "In the top face";
    GROOVE_WIDTH "grooves.width_mm", [.grooves? .width] "Groove width", Number(Length.of(0.1, 50.0)), "At the top face", us: "1/16";
    GROOVE_ANGLE "grooves.angle_deg", [.grooves? .angle] "Bit angle", Number(Angle.of(10.0, 170.0)),
        "Between the two sides of the V-bit";
    GROOVE_TIP "grooves.tip_mm", [.grooves? .tip] "Bit tip", Number(Length.of(0.0, 50.0)),
        "Width of the flat at the tip; measure yours, 0 for a sharp one";
    GROOVE_PASS "grooves.pass_mm", [.grooves? .pass] "Deepest pass", Number(PASS),
        "The most that one pass takes; all passes take the same", us: "1/16";
    GROOVE_STOP "grooves.stop_mm", [.grooves? .stop] "Stop before holes", Number(BESIDE),
        "Wood between the end of a line and the edge of a hole", us: "1/16";
    GROOVE_TRACK "grooves.track", [.grooves? .track] "Lines along the track", Tick,
        "Between every two neighbors, and from sector to sector";
    GROOVE_HOME "grooves.home", [.grooves? .home] "Lines along home lanes", Tick, "From each turn-in space inward";
    AROUND_HOME "grooves.around_home_mm", [.grooves? .around_home] "Outline lanes", Ticked(BESIDE, 3.0),
        "Wood between the holes and the outline around them", us: "1/8";
    AROUND_START "grooves.around_start_mm", [.grooves? .around_start] "Outline pockets", Ticked(BESIDE, 3.0),
        "Wood between the holes of a start pocket and the outline around them", us: "1/8";
    RINGS "grooves.rings", [.grooves? .rings] "Rings around holes", Part, "";
    RING_GAP "grooves.rings.gap_mm", [.grooves? .rings? .gap] "Ring gap", Number(BESIDE), "Wood between a hole and its ring", us: "1/16";
    RING_TRACK "grooves.rings.track", [.grooves? .rings? .track] "Around track spaces", Tick, "";
    RING_HOME "grooves.rings.home", [.grooves? .rings? .home] "Around home holes", Tick, "";
    RING_START "grooves.rings.start", [.grooves? .rings? .start] "Around start holes", Tick, "";
    RING_EXTRA "grooves.rings.extra", [.grooves? .rings? .extra] "Around extra holes", Tick, "Those added by hand";
    RING_CENTER "grooves.rings.center", [.grooves? .rings? .center] "Around the center", Tick, "";
    SECTOR_LINES "grooves.sectors_from_mm", [.grooves? .sectors_from] "Player lines",
        Ticked(Length.of(0.0, 2500.0), 40.0), "Lines between players, from this far off the center pin out to the rim", us: "1 1/2";
    BORDER "grooves.rim_mm", [.grooves? .rim] "Border ring", Ticked(BESIDE, 5.0),
        "Wood between the start of the roundover and a ring around the board", us: "3/16";
    MIDDLE_RING "grooves.middle_mm", [.grooves? .middle] "Middle ring", Ticked(Length.of(0.0, 2500.0), 40.0),
        "A ring around the center, at this distance from the center pin", us: "1 1/2";
}

usual!(Grooves, Rings);
