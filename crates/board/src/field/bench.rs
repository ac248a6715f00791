//! Fields of the storage recess, the resin and the finish.

use super::Kind::{Choice, Entries, Number, Part, Tick};
use crate::Quantity::{Angle, Count, Density, Length, Number as Plain, Share, Time, Volume};
use crate::{DensityUnit, LidHold, Range, RecessShape, TimeUnit};

/// Sides of a recess: as long as a board may be wide.
const SIDE: Range = Length.of(1.0, 5000.0);
/// From the center pin: no farther than a board reaches.
const PLACE: Range = Length.of(-2500.0, 2500.0);
/// Radius of a corner: half of the longest side.
const CORNER: Range = Length.of(0.0, 2500.0);
/// As deep as a board may be thick.
const DEPTH: Range = Length.of(0.0, 500.0);

fields! {
    /// Storage in the underside.
    RECESS_FIELDS:
    RECESS "recess", [.recess] "Rout a recess", Part, "In the underside, to store the pieces";
    RECESS_SHAPE "recess.shape.kind", [.recess? .shape] "Recess outline", Choice, "";
    RECESS_DIAMETER "recess.shape.diameter_mm", [.recess? .shape {RecessShape::Round => diameter}] "Recess diameter",
        Number(SIDE), "";
    RECESS_LENGTH "recess.shape.length_mm", [.recess? .shape {RecessShape::Straight => length}] "Recess length",
        Number(SIDE), "From left to right, along the grain";
    RECESS_WIDTH "recess.shape.width_mm", [.recess? .shape {RecessShape::Straight => width}] "Recess width",
        Number(SIDE), "Across the grain";
    RECESS_CORNER "recess.shape.corner_mm", [.recess? .shape {RecessShape::Straight => corner}] "Corner radius",
        Number(CORNER), "Half the diameter of the bit; 0 for square corners, which count for more than any bit cuts";
    RECESS_X "recess.at_mm[0]", [.recess? .at[0]] "Right of the pin", Number(PLACE),
        "The middle of the recess, seen from the top face";
    RECESS_Y "recess.at_mm[1]", [.recess? .at[1]] "Above the pin", Number(PLACE),
        "The middle of the recess, seen from the top face";
    RECESS_DEPTH "recess.depth_mm", [.recess? .depth] "Recess depth", Number(DEPTH), "From the underside";
    LID "recess.lid_mm", [.recess? .lid] "Lid thickness", Number(DEPTH),
        "It lies in the recess, flush with the underside; 0 for none";
    SPARE "recess.spare", [.recess? .spare] "Spare pieces", Number(Count.of(0.0, 1000.0)),
        "Beside those that fill the start pockets, or the home lanes where these have more holes";
}

fields! {
    /// How the lid of the recess is fitted.
    LID_FIELDS:
    LID_HOLD "recess.lid_fit.hold.kind", [.recess? .lid_fit.hold] "The lid", Choice, "";
    DOVETAIL "recess.lid_fit.hold.angle_deg", [.recess? .lid_fit.hold {LidHold::Slides => angle}] "Dovetail angle",
        Number(Angle.of(1.0, 45.0)), "Of each side from upright: half the included angle of the bit";
    LID_TOWARD "recess.lid_fit.hold.toward", [.recess? .lid_fit.hold {LidHold::Slides => toward}] "Lid opens", Choice,
        "Seen from the top face";
    LID_OVERLAP "recess.lid_fit.overlap_mm", [.recess? .lid_fit.overlap] "Ledge width", Number(Length.of(0.0, 200.0)),
        "How far ledge or groove reach beyond the recess, at the underside";
    LID_CLEARANCE "recess.lid_fit.clearance_mm", [.recess? .lid_fit.clearance] "Lid clearance",
        Number(Length.of(0.0, 50.0)), "By how much the lid is narrower than its place when it is made";
    LID_GRAIN "recess.lid_fit.grain", [.recess? .lid_fit.grain] "Lid grain", Choice, "";
}

/// Parts of a mix, as labels give them: 2 : 1, or 100 : 43 by weight.
const PARTS: Range = Plain.of(0.01, 1000.0);
/// What resin is timed in.
const MINUTES: crate::Quantity = Time(TimeUnit::Minute);

fields! {
    /// Resin in the bores.
    FILLING_FIELDS:
    FILLING "filling", [.filling] "Fill bores with resin", Part, "";
    FILL_BELOW "filling.below_top_mm", [.filling? .below_top] "Resin below top", Number(DEPTH),
        "Between the resin and the top face";
    DOME "filling.dome_mm", [.filling? .dome] "Crown", Number(Length.of(0.0, 20.0)),
        "How much higher it stands in the middle of a bore; what stands above the top face is leveled off";
    AROUND_INSERT "filling.around_ball", [.filling? .around_insert] "Pour around inserts", Tick,
        "Around the ball or disc set in each bore; only with magnet pieces";
    WASTE "filling.waste", [.filling? .waste] "Waste", Number(Share.of(0.0, 2.0)),
        "Spilled and overfilled, as a share of what goes into the bores";
    CUP "filling.cup_ml", [.filling? .cup] "Left in the cup", Number(Volume.of(0.0, 10_000.0)),
        "Of each batch, with what stays on the stick";
    BATCH "filling.batch_ml", [.filling? .batch] "Largest batch", Number(Volume.of(0.1, 100_000.0)),
        "What you mix at once";
    MIXED_BY "filling.mix.by", [.filling? .mix.by] "Measured out", Choice, "";
    MIX_RESIN "filling.mix.resin", [.filling? .mix.resin] "Parts of resin", Number(PARTS),
        "By the label, such as 2 to 1, or 100 to 43; never another ratio to change the speed";
    MIX_HARDENER "filling.mix.hardener", [.filling? .mix.hardener] "Parts of hardener", Number(PARTS), "By the label";
    MIX_DENSITY "filling.mix.density_g_ml", [.filling? .mix.density] "Mixed density",
        Number(Density(DensityUnit::GramsPerMilliliter).of(0.5, 5.0)),
        "By the data sheet; most epoxies have 1.10 to 1.20 g/ml, from memory";
    FILLED_BOARDS "filling.boards", [.filling? .boards] "Boards to fill", Number(Count.of(1.0, 50.0)), "One after the other";
    POT_LIFE "filling.pot_life_min", [.filling? .pot_life] "Pot life", Number(MINUTES.of(0.1, 100_000.0)), "By the label";
    POT_LIFE_AT "filling.pot_life_at_c", [.filling? .pot_life_at] "Pot life given at", Number(super::wood::TEMPERATURE),
        "The label's temperature; 77 °F can be typed too";
    SHOP "filling.shop_c", [.filling? .shop] "Shop temperature", Number(super::wood::TEMPERATURE), "While you pour";
    MIXING "filling.mixing_min", [.filling? .mixing] "Mixing time", Number(MINUTES.of(0.0, 1000.0)),
        "From when both parts are in the cup: the pot life runs already";
    TEN_BORES "filling.ten_bores_s", [.filling? .ten_bores] "Time for ten holes",
        Number(Time(TimeUnit::Second).of(0.1, 100_000.0)), "Time yourself on a scrap";
}

fields! {
    /// The finish.
    FINISH_FIELDS:
    COATS "finish", [.finish] "Coats of finish", Entries(Count.range("coats of finish", 0.0, 60.0)),
        "The first is on the wood";
}

fields! {
    /// A coat of finish.
    COAT_FIELDS:
    COAT "finish[].kind", [.finish[] .kind] "Coat #", Choice, "";
    COAT_DRIES "finish[].dries_h", [.finish[] .dries] "Coat # dries", Number(Time(TimeUnit::Hour).of(0.0, 100_000.0)),
        "Until the next coat";
}
