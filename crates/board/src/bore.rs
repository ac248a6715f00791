//! A bore: a drilled hole as the drill leaves it.

use serde::{Deserialize, Serialize};

/// A drilled hole.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bore {
    /// Diameter at the top face, mm.
    #[serde(rename = "diameter_mm")]
    pub diameter: f64,
    /// Depth from the top face, mm: to where the full diameter ends (a point or spur reaches deeper), or to the deepest place
    /// of a flat or ball bottom.
    #[serde(rename = "depth_mm")]
    pub depth: f64,
    /// The shape of the floor.
    pub bottom: Bottom,
}

impl Bore {
    /// Half the diameter, mm.
    pub const fn radius(&self) -> f64 {
        self.diameter / 2.0
    }

    /// Diameter of the cutter that makes it, mm.
    ///
    /// It equals the bore's diameter, except for a ball bottom less deep than half its mouth: a ball of diameter d sunk h deep
    /// leaves a mouth of radius a with a² = h (d - h), so that d = (a² + h²) / h.
    ///
    /// It is that of the bore, but for a ball bottom less deep than half its mouth: of a ball of diameter d, sunk h deep, the mouth
    /// has the radius a where a² = h (d - h), so that d = (a² + h²) / h.
    ///
    /// ```
    /// use board::{Bore, Bottom};
    /// let shallow = Bore { diameter: 12.0, depth: 3.0, bottom: Bottom::Ball };
    /// assert_eq!(shallow.cutter(), 15.0);
    /// assert_eq!(Bore { depth: 6.0, ..shallow }.cutter(), 12.0);
    /// assert_eq!(Bore { bottom: Bottom::Flat, ..shallow }.cutter(), 12.0);
    /// ```
    pub fn cutter(&self) -> f64 {
        let (mouth, depth) = (self.radius(), self.depth);
        if self.is_shallow_ball() {
            (mouth * mouth + depth * depth) / depth
        } else {
            self.diameter
        }
    }

    /// The bore that a cutter of another diameter leaves at the same depth, with the same bottom.
    ///
    /// ```
    /// use board::{Bore, Bottom};
    /// let bore = Bore { diameter: 11.0, depth: 3.0, bottom: Bottom::Ball };
    /// assert_eq!(bore.by_cutter(15.0).diameter, 12.0);
    /// assert_eq!(Bore { depth: 9.0, ..bore }.by_cutter(15.0).diameter, 15.0);
    /// ```
    #[must_use]
    pub fn by_cutter(self, cutter: f64) -> Self {
        let is_shallow = self.bottom == Bottom::Ball && self.depth < cutter / 2.0;
        Self {
            diameter: if is_shallow {
                2.0 * (self.depth * (cutter - self.depth)).sqrt()
            } else {
                cutter
            },
            ..self
        }
    }

    /// The bore with the differences between two other bores applied to it; everything else stays as it was.
    ///
    /// ```
    /// use board::{Bore, Bottom};
    /// let bore = Bore { diameter: 12.0, depth: 5.0, bottom: Bottom::Flat };
    /// let own = Bore { depth: 9.0, ..bore };
    /// let wider = own.with_changes(bore, Bore { diameter: 14.0, ..bore });
    /// assert_eq!((wider.diameter, wider.depth), (14.0, 9.0));
    /// ```
    #[must_use]
    pub fn with_changes(self, was: Self, is: Self) -> Self {
        Self {
            diameter: if is.diameter == was.diameter {
                self.diameter
            } else {
                is.diameter
            },
            depth: if is.depth == was.depth {
                self.depth
            } else {
                is.depth
            },
            bottom: if is.bottom == was.bottom {
                self.bottom
            } else {
                is.bottom
            },
        }
    }

    /// Whether its bottom is less than half a ball, so that the cutter is wider than the mouth. Always `false` for a bore with
    /// almost no depth, whose ball would be infinitely wide.
    ///
    /// ```
    /// use board::{Bore, Bottom};
    /// let none = Bore { diameter: 12.0, depth: f64::MIN_POSITIVE, bottom: Bottom::Ball };
    /// assert!(!none.is_shallow_ball() && none.cutter() == 12.0);
    /// ```
    pub fn is_shallow_ball(&self) -> bool {
        /// The least depth, as a share of the radius.
        const LEAST: f64 = 1e-5;
        let (radius, depth) = (self.radius(), self.depth);
        self.bottom == Bottom::Ball && depth > LEAST * radius && depth < radius
    }
}

/// The shape that a drill or cutter leaves at the floor of a blind bore.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Bottom {
    /// Flat: an end mill, or a bit whose spur is too short to matter.
    #[serde(rename = "flat")]
    Flat,
    /// A twist drill's cone of 118 degrees.
    #[serde(rename = "point-118")]
    Point118,
    /// A twist drill's cone of 135 degrees.
    #[serde(rename = "point-135")]
    Point135,
    /// Half a ball, or less: a ball-nose or core-box cutter.
    #[serde(rename = "ball")]
    Ball,
    /// Flat, with the small cone of a Forstner bit's spur at the center.
    #[serde(rename = "forstner")]
    Forstner,
}

impl Bottom {
    /// Every bottom, in the order lists show them.
    pub const ALL: [Self; 5] = [
        Self::Flat,
        Self::Forstner,
        Self::Point118,
        Self::Point135,
        Self::Ball,
    ];

    /// The word that files use.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Point118 => "point-118",
            Self::Point135 => "point-135",
            Self::Ball => "ball",
            Self::Forstner => "forstner",
        }
    }

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Point118 => "118° point",
            Self::Point135 => "135° point",
            Self::Ball => "ball nose",
            Self::Forstner => "Forstner",
        }
    }
}
