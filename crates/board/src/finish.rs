//! The finish that a maker plans: layers of one or more coats, each of one kind, applied to one part of the board.

use serde::{Deserialize, Serialize};

/// One layer of the finish: consecutive coats of one kind on the same part.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Coat {
    /// The kind of finish.
    pub kind: CoatKind,
    /// The part of the board that it is applied to.
    #[serde(default)]
    pub place: CoatPlace,
    /// Number of coats.
    #[serde(default = "Coat::one")]
    pub coats: u32,
    /// Drying time of each coat before the next one, in this layer or the following one.
    #[serde(rename = "dries_h")]
    pub dries: f64,
}

impl Coat {
    /// A single coat: the value for files from before layers had a number of coats.
    const fn one() -> u32 {
        1
    }

    /// One coat of a kind on the whole board.
    ///
    /// ```
    /// use board::{Coat, CoatKind, CoatPlace};
    /// let wax = Coat::of(CoatKind::Wax, 1.0);
    /// assert_eq!((wax.coats, wax.place), (1, CoatPlace::Whole));
    /// ```
    pub const fn of(kind: CoatKind, dries: f64) -> Self {
        Self {
            kind,
            place: CoatPlace::Whole,
            coats: 1,
            dries,
        }
    }

    /// Total hours for the layer, from its first coat to the start of the next layer.
    ///
    /// ```
    /// use board::{Coat, CoatKind};
    /// let three = Coat { coats: 3, ..Coat::of(CoatKind::WipingVarnish, 24.0) };
    /// assert_eq!(three.hours(), 72.0);
    /// ```
    pub fn hours(&self) -> f64 {
        f64::from(self.coats) * self.dries
    }
}

/// The kinds of finish.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CoatKind {
    /// Dye, in water or in alcohol: colors the wood itself.
    Dye,
    /// Pigment stain, liquid or gel.
    Stain,
    /// A penetrating oil that cures: linseed, tung, and blends of them.
    Oil,
    /// An oil and varnish blend, wiped on and off.
    OilVarnish,
    /// Oil with wax, such as a hard-wax oil.
    OilWax,
    /// Shellac with its natural wax.
    Shellac,
    /// Shellac without wax.
    DewaxedShellac,
    /// Sanding sealer, lacquer type.
    SandingSealer,
    /// Varnish or polyurethane thin enough to wipe on.
    WipingVarnish,
    /// Oil-based polyurethane or varnish.
    OilPolyurethane,
    /// Water-based polyurethane.
    WaterPolyurethane,
    /// Cellulose lacquer.
    Lacquer,
    /// A solvent-based paint pen.
    PaintPen,
    /// Enamel: oil-based paint.
    Enamel,
    /// Acrylic paint, including water-based pens.
    Acrylic,
    /// Paste wax.
    Wax,
}

impl CoatKind {
    /// Every kind, in the order lists show them: from colors for bare wood to topcoats.
    pub const ALL: [Self; 16] = [
        Self::Dye,
        Self::Stain,
        Self::Oil,
        Self::OilVarnish,
        Self::OilWax,
        Self::Shellac,
        Self::DewaxedShellac,
        Self::SandingSealer,
        Self::WipingVarnish,
        Self::OilPolyurethane,
        Self::WaterPolyurethane,
        Self::Lacquer,
        Self::PaintPen,
        Self::Enamel,
        Self::Acrylic,
        Self::Wax,
    ];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Dye => "dye",
            Self::Stain => "stain",
            Self::Oil => "penetrating oil",
            Self::OilVarnish => "oil-varnish blend",
            Self::OilWax => "hardwax oil",
            Self::Shellac => "shellac",
            Self::DewaxedShellac => "dewaxed shellac",
            Self::SandingSealer => "sanding sealer",
            Self::WipingVarnish => "wiping varnish",
            Self::OilPolyurethane => "oil-based polyurethane",
            Self::WaterPolyurethane => "water-based polyurethane",
            Self::Lacquer => "lacquer",
            Self::PaintPen => "paint pen",
            Self::Enamel => "enamel color",
            Self::Acrylic => "acrylic color",
            Self::Wax => "wax",
        }
    }
}

/// The part of the board that a layer of finish is applied to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CoatPlace {
    /// Both faces and the edge.
    #[default]
    Whole,
    /// Top face and edge: the underside stays bare.
    TopAndEdge,
    /// The top face only.
    Top,
    /// The edge only.
    Edge,
    /// The underside only.
    Underside,
    /// In the grooves.
    Grooves,
    /// Rings around holes.
    Rings,
    /// The players' areas of the top face.
    Sectors,
    /// Letters, numbers and marks.
    Marks,
    /// The walls and floors of the bores.
    Bores,
}

impl CoatPlace {
    /// Every place, in the order lists show them.
    pub const ALL: [Self; 10] = [
        Self::Whole,
        Self::TopAndEdge,
        Self::Top,
        Self::Edge,
        Self::Underside,
        Self::Grooves,
        Self::Rings,
        Self::Sectors,
        Self::Marks,
        Self::Bores,
    ];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Whole => "whole board",
            Self::TopAndEdge => "top and edge",
            Self::Top => "top face",
            Self::Edge => "edge",
            Self::Underside => "underside",
            Self::Grooves => "in the grooves",
            Self::Rings => "rings around holes",
            Self::Sectors => "sector fields",
            Self::Marks => "letters and marks",
            Self::Bores => "in the holes",
        }
    }
}

impl Default for Coat {
    /// Penetrating oil, with a day until the next coat; common practice, no source.
    fn default() -> Self {
        Self::of(CoatKind::Oil, 24.0)
    }
}
