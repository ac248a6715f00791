//! Resin that a maker plans to pour into the bores.

use serde::{Deserialize, Serialize};

/// Resin poured into the bores, mixed in batches.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Filling {
    /// Depth of the resin's edge below the top face.
    #[serde(rename = "below_top_mm")]
    pub below_top: f64,
    /// Height of its domed surface at the center of a bore above its edge.
    #[serde(rename = "dome_mm", default)]
    pub dome: f64,
    /// Whether resin is poured around the ball or disc set in each hole for magnet pieces; other pieces have no insert.
    #[serde(rename = "around_ball")]
    pub around_insert: bool,
    /// Resin lost to spills and overfilling, as a share of the resin in the holes.
    pub waste: f64,
    /// Resin left in each cup and on its stick.
    #[serde(rename = "cup_ml", default)]
    pub cup: f64,
    /// The largest batch mixed at once.
    #[serde(rename = "batch_ml")]
    pub batch: f64,
    /// The mix of resin and hardener.
    #[serde(default)]
    pub mix: Mix,
    /// Pot life according to the label.
    #[serde(rename = "pot_life_min")]
    pub pot_life: f64,
    /// The temperature that the label states it for.
    #[serde(rename = "pot_life_at_c")]
    pub pot_life_at: f64,
    /// The temperature of the shop.
    #[serde(rename = "shop_c")]
    pub shop: f64,
    /// Time to mix a batch, from when both parts are in the cup.
    #[serde(rename = "mixing_min", default)]
    pub mixing: f64,
    /// Time to fill ten bores.
    #[serde(rename = "ten_bores_s")]
    pub ten_bores: f64,
}

/// The mix ratio of a batch, according to the label.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mix {
    /// How its parts are measured out.
    pub by: MixedBy,
    /// Parts of resin.
    pub resin: f64,
    /// Parts of hardener.
    pub hardener: f64,
    /// Density of the mixed resin.
    #[serde(rename = "density_g_ml")]
    pub density: f64,
}

/// How the parts of a mix are measured out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum MixedBy {
    /// In a graduated cup.
    Volume,
    /// On a scale.
    Weight,
}

impl MixedBy {
    /// Both, in the order lists show them.
    pub const ALL: [Self; 2] = [Self::Volume, Self::Weight];

    /// The words that screens use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Volume => "by volume",
            Self::Weight => "by weight",
        }
    }
}

impl Default for Filling {
    /// Filled flush with a resin whose pot life is 30 minutes at 25 °C (77 °F), with 15 % waste and 5 ml left in each cup; from
    /// memory.
    fn default() -> Self {
        Self {
            below_top: 0.0,
            dome: 0.0,
            around_insert: false,
            waste: 0.15,
            cup: 5.0,
            batch: 30.0,
            mix: Mix::default(),
            pot_life: 30.0,
            pot_life_at: 25.0,
            shop: 20.0,
            mixing: 3.0,
            ten_bores: 120.0,
        }
    }
}

impl Default for Mix {
    /// Two parts to one by volume, at 1.15 g/ml as for most mixed epoxies (1.10 to 1.20); from memory.
    fn default() -> Self {
        Self {
            by: MixedBy::Volume,
            resin: 2.0,
            hardener: 1.0,
            density: 1.15,
        }
    }
}
