//! The resin in the bores.

use super::bores::DEPTH;
use super::wood::TEMPERATURE;
use crate::Quantity::{Density, Length, Number as Plain, Share, Time, Volume};
use crate::field::Kind::{Choice, Number, Part, Tick};
use crate::{DensityUnit, Filling, MixedBy, Quantity, Range, TimeUnit};

/// Parts of a mix, as labels give them: 2 : 1, or 100 : 43 by weight.
const PARTS: Range = Plain.of(0.01, 1000.0);
/// The unit of pot life and mixing.
const MINUTES: Quantity = Time(TimeUnit::Minute);

fields! {
    /// Resin in the bores.
    FILLING_FIELDS:
    FILLING "filling", [.filling] "Fill holes with resin", Part, "";
    FILL_BELOW "filling.below_top_mm", [.filling? .below_top] "Resin below top", Number(DEPTH),
        "Between the resin and the top face";
    DOME "filling.dome_mm", [.filling? .dome] "Crown", Number(Length.of(0.0, 20.0)),
        "How much higher it stands in the middle of a hole; what stands above the top face is leveled off";
    AROUND_INSERT "filling.around_ball", [.filling? .around_insert] "Pour around inserts", Tick,
        "Around the ball or disc set in each hole; only with magnet pieces";
    WASTE "filling.waste", [.filling? .waste] "Waste", Number(Share.of(0.0, 2.0)),
        "Spilled and overfilled, as a share of what goes into the holes";
    CUP "filling.cup_ml", [.filling? .cup] "Left in the cup", Number(Volume.of(0.0, 10_000.0)),
        "Of each batch, including what sticks to the stir stick", us: "1/8 fl oz", of shop;
    BATCH "filling.batch_ml", [.filling? .batch] "Largest batch", Number(Volume.of(0.1, 100_000.0)),
        "The most you mix at once", us: "1 fl oz", of shop;
    MIXED_BY "filling.mix.by", [.filling? .mix.by] "Measured out", Choice, "", of shop;
    MIX_RESIN "filling.mix.resin", [.filling? .mix.resin] "Parts of resin", Number(PARTS),
        "From the label, such as 2 to 1 or 100 to 43; never change the ratio to change the speed", of shop;
    MIX_HARDENER "filling.mix.hardener", [.filling? .mix.hardener] "Parts of hardener", Number(PARTS), "By the label", of shop;
    MIX_DENSITY "filling.mix.density_g_ml", [.filling? .mix.density] "Mixed density",
        Number(Density(DensityUnit::GramsPerMilliliter).of(0.5, 5.0)),
        "By the data sheet; most epoxies have {1.10 to 1.20 g/ml|9.2 to 10.0 lb/gal}, from memory", us: "9.6 lb/gal", of shop;
    POT_LIFE "filling.pot_life_min", [.filling? .pot_life] "Pot life", Number(MINUTES.of(0.1, 100_000.0)), "By the label", of shop;
    POT_LIFE_AT "filling.pot_life_at_c", [.filling? .pot_life_at] "Pot life given at", Number(TEMPERATURE),
        "The label's temperature, such as {25 °C}", of shop;
    SHOP "filling.shop_c", [.filling? .shop] "Shop temperature", Number(TEMPERATURE), "While you pour", of shop;
    MIXING "filling.mixing_min", [.filling? .mixing] "Mixing time", Number(MINUTES.of(0.0, 1000.0)),
        "From the moment both parts are in the cup, when the pot life begins", of shop;
    TEN_BORES "filling.ten_bores_s", [.filling? .ten_bores] "Time for ten holes",
        Number(Time(TimeUnit::Second).of(0.1, 100_000.0)), "Time yourself on a scrap", of shop;
}

plain!(MixedBy);
usual!(Filling);
