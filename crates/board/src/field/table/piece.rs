//! The pieces, and the magnets that hold them.

use crate::Quantity::{Count, Density, Force, Length, Mass, Number as Plain};
use crate::field::Kind::{Auto, Choice, Number, Part};
use crate::{DensityUnit, Insert, Magnet, MassUnit, PieceKind, Range};

/// Diameter and thickness of a magnet.
const MAGNET_SIZE: Range = Length.of(0.1, 200.0);
/// A gap between magnet and steel in addition to air: the set-back, the finish.
const MAGNET_GAP: Range = Length.of(0.0, 100.0);

fields! {
    /// The pieces, and the age of the players.
    PIECE_FIELDS:
    PIECE_KIND "piece.kind", [.piece.kind] "Pieces", Choice, "";
    PIECE_DIAMETER "piece.diameter_mm", [.piece.diameter] "Piece diameter", Number(Length.of(0.1, 500.0)),
        "Measure the largest", us: "5/8";
    PIECE_HEIGHT "piece.height_mm", [.piece.height] "Piece height", Number(Length.of(0.1, 500.0)),
        "Overall, of a peg or a magnet piece", us: "1 1/4";
    SHANK "piece.shank_mm", [.piece.shank] "Shank or set ball", Auto(Length.of(0.1, 500.0), "made to fit the holes"),
        "Diameter of a peg's shank, or of the ball or disc set under a magnet piece";
    YOUNGEST "piece.youngest", [.piece.youngest] "Youngest player", Number(Count.of(0.0, 99.0)),
        "Age in years: small pieces and magnets are a hazard to children";
}

fields! {
    /// The weight of a piece.
    WEIGHT_FIELDS:
    PIECE_MASS "piece.mass_g", [.piece.mass] "Weight of one", Auto(Mass(MassUnit::Gram).of(0.01, 100_000.0), "calculated"),
        "Weighed on a scale; calculated from size and density if left empty";
    PIECE_DENSITY "piece.density_g_cm3", [.piece.density] "Piece density",
        Auto(Density(DensityUnit::GramsPerCubicCentimeter).of(0.01, 25.0), "usual"),
        "2.5 g/cm³ for a marble and 0.7 for other pieces if left empty";
}

fields! {
    /// What a magnet piece holds on to.
    MAGNET_FIELDS:
    INSERT "piece.insert.kind", [.piece.insert] "Set in each hole", Choice, "The ball or disc that a magnet piece sticks to";
    DISC "piece.insert.thickness_mm", [.piece.insert {Insert::Disc => thickness}] "Disc thickness",
        Number(Length.of(0.01, 100.0)), "", us: "1/16";
    MAGNET "piece.magnet", [.piece.magnet] "Enter magnet data", Part, "How a magnet piece holds";
    PULL "piece.magnet.pull_n", [.piece.magnet? .pull] "Measured pull", Number(Force.of(0.0, 10_000.0)),
        "Bare magnet off the bare insert, measured with a scale", us: "0.7 lbf";
    FRICTION "piece.magnet.friction", [.piece.magnet? .friction] "Friction", Number(Plain.of(0.01, 5.0)),
        "Tangent of the tilt at which the piece begins to slide without its magnet";
    MAGNET_DIAMETER "piece.magnet.diameter_mm", [.piece.magnet? .diameter] "Magnet diameter", Number(MAGNET_SIZE), "", us: "5/16";
    MAGNET_THICKNESS "piece.magnet.thickness_mm", [.piece.magnet? .thickness] "Magnet thickness", Number(MAGNET_SIZE), "", us: "1/8";
    SET_BACK "piece.magnet.set_back_mm", [.piece.magnet? .set_back] "Magnet setback", Number(MAGNET_GAP),
        "How far the magnet lies above the foot of the piece";
    INSERT_FINISH "piece.magnet.finish_mm", [.piece.magnet? .finish] "Finish over it", Number(MAGNET_GAP),
        "Thickness of the finish over the ball or disc", us: "0.004";
}

plain!(PieceKind);
kinds! {
    Insert:
    "a steel ball" => Ball,
    // A common thickness; no source.
    "a steel disc" => Disc { thickness: 1.5 },
}
usual!(Magnet);
