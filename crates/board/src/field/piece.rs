//! Fields of the grooves, the pieces and the finished board.

use super::Kind::{Auto, Choice, Number, Part, Tick, Ticked};
use crate::Quantity::{Angle, Count, Density, Force, Length, Mass, Number as Plain};
use crate::{DensityUnit, Insert, MassUnit, Range};

/// Wood left beside a groove.
const BESIDE: Range = Length.of(0.0, 500.0);
/// How much deeper a pass goes.
pub(super) const PASS: Range = Length.of(0.001, 500.0);

fields! {
    /// V-grooves in the top face. Where they begin is common practice, no source.
    GROOVE_FIELDS:
    GROOVES "grooves", [.grooves] "Rout V-grooves", Part, "In the top face";
    GROOVE_WIDTH "grooves.width_mm", [.grooves? .width] "Groove width", Number(Length.of(0.1, 50.0)), "At the top face";
    GROOVE_ANGLE "grooves.angle_deg", [.grooves? .angle] "Bit angle", Number(Angle.of(10.0, 170.0)),
        "Between the two sides of the V-bit";
    GROOVE_TIP "grooves.tip_mm", [.grooves? .tip] "Bit tip", Number(Length.of(0.0, 50.0)),
        "Width of the flat at the tip; measure yours, 0 for a sharp one";
    GROOVE_PASS "grooves.pass_mm", [.grooves? .pass] "Deepest pass", Number(PASS),
        "The most that one pass takes; all passes take the same";
    GROOVE_STOP "grooves.stop_mm", [.grooves? .stop] "Stop before bores", Number(BESIDE),
        "Wood between the end of a line and the edge of a bore";
    GROOVE_TRACK "grooves.track", [.grooves? .track] "Lines along the track", Tick,
        "Between every two neighbors, and from sector to sector";
    GROOVE_HOME "grooves.home", [.grooves? .home] "Lines along home lanes", Tick, "From each turn-in space inward";
    AROUND_HOME "grooves.around_home_mm", [.grooves? .around_home] "Outline lanes", Ticked(BESIDE, 3.0),
        "Wood between the holes and the outline around them";
    AROUND_START "grooves.around_start_mm", [.grooves? .around_start] "Outline pockets", Ticked(BESIDE, 3.0),
        "Wood between the holes of a start pocket and the outline around them";
    RINGS "grooves.rings", [.grooves? .rings] "Rings around bores", Part, "";
    RING_GAP "grooves.rings.gap_mm", [.grooves? .rings? .gap] "Ring gap", Number(BESIDE), "Wood between a bore and its ring";
    RING_TRACK "grooves.rings.track", [.grooves? .rings? .track] "Around track spaces", Tick, "";
    RING_HOME "grooves.rings.home", [.grooves? .rings? .home] "Around home holes", Tick, "";
    RING_START "grooves.rings.start", [.grooves? .rings? .start] "Around start holes", Tick, "";
    RING_EXTRA "grooves.rings.extra", [.grooves? .rings? .extra] "Around extra holes", Tick, "Those added by hand";
    RING_CENTER "grooves.rings.center", [.grooves? .rings? .center] "Around the center", Tick, "";
    SECTOR_LINES "grooves.sectors_from_mm", [.grooves? .sectors_from] "Player lines",
        Ticked(Length.of(0.0, 2500.0), 40.0), "Lines between players, from this far off the center pin out to the rim";
    BORDER "grooves.rim_mm", [.grooves? .rim] "Border ring", Ticked(BESIDE, 5.0),
        "Wood between the start of the roundover and a ring around the board";
}

fields! {
    /// What is played with, and who plays.
    PIECE_FIELDS:
    PIECE_KIND "piece.kind", [.piece.kind] "Pieces", Choice, "";
    PIECE_DIAMETER "piece.diameter_mm", [.piece.diameter] "Piece diameter", Number(Length.of(0.1, 500.0)),
        "Measure the largest";
    PIECE_HEIGHT "piece.height_mm", [.piece.height] "Piece height", Number(Length.of(0.1, 500.0)),
        "Overall, of a peg or a magnet piece";
    SHANK "piece.shank_mm", [.piece.shank] "Shank or set ball", Auto(Length.of(0.1, 500.0), "made to fit the bores"),
        "Diameter of a peg's shank, or of the ball or disc set under a magnet piece";
    YOUNGEST "piece.youngest", [.piece.youngest] "Youngest player", Number(Count.of(0.0, 99.0)),
        "Age in years: small pieces and magnets are a hazard to children";
}

fields! {
    /// What a piece weighs.
    WEIGHT_FIELDS:
    PIECE_MASS "piece.mass_g", [.piece.mass] "Weight of one", Auto(Mass(MassUnit::Gram).of(0.001, 100_000.0), "calculated"),
        "On a scale; calculated from size and density where it is left open";
    PIECE_DENSITY "piece.density_g_cm3", [.piece.density] "Piece density",
        Auto(Density(DensityUnit::GramsPerCubicCentimeter).of(0.01, 25.0), "usual"),
        "2.5 g/cm³ for a marble and 0.7 for other pieces where it is left open";
}

fields! {
    /// What holds a magnet piece.
    MAGNET_FIELDS:
    INSERT "piece.insert.kind", [.piece.insert] "Set in each hole", Choice, "For a magnet piece to hold on";
    DISC "piece.insert.thickness_mm", [.piece.insert {Insert::Disc => thickness}] "Disc thickness",
        Number(Length.of(0.01, 100.0)), "";
    MAGNET "piece.magnet", [.piece.magnet] "Enter magnet data", Part, "How a magnet piece holds";
    PULL "piece.magnet.pull_n", [.piece.magnet? .pull] "Measured pull", Number(Force.of(0.0, 10_000.0)),
        "Bare magnet off the bare insert, measured with a scale";
    FRICTION "piece.magnet.friction", [.piece.magnet? .friction] "Friction", Number(Plain.of(0.01, 5.0)),
        "Tangent of the tilt at which the piece begins to slide without its magnet";
    MAGNET_DIAMETER "piece.magnet.diameter_mm", [.piece.magnet? .diameter] "Magnet diameter", Number(MAGNET_SIZE), "";
    MAGNET_THICKNESS "piece.magnet.thickness_mm", [.piece.magnet? .thickness] "Magnet thickness", Number(MAGNET_SIZE), "";
    SET_BACK "piece.magnet.set_back_mm", [.piece.magnet? .set_back] "Set back by", Number(MAGNET_GAP),
        "How far the magnet lies above the foot of the piece";
    INSERT_FINISH "piece.magnet.finish_mm", [.piece.magnet? .finish] "Finish over it", Number(MAGNET_GAP),
        "Thickness of the finish over the ball or disc";
}

/// Diameter and thickness of a magnet.
const MAGNET_SIZE: Range = Length.of(0.1, 200.0);
/// What lies between magnet and steel beside air: how far it is set back, the finish over it.
const MAGNET_GAP: Range = Length.of(0.0, 100.0);

fields! {
    /// The finished board.
    BOARD_FIELDS:
    BOARD_DIAMETER "blank.diameter_mm", [.blank.diameter] "Board diameter", Number(Length.of(1.0, 5000.0)), "";
    BOARD_THICKNESS "blank.thickness_mm", [.blank.thickness] "Board thickness", Number(super::stock::THICKNESS), "";
    ROUNDOVER "blank.roundover_mm", [.blank.roundover] "Roundover", Number(Length.of(0.0, 200.0)),
        "Radius along the top edge; 0 for a sharp one";
}
