//! The table of kinds of finish: times, coverage, film, solvent, grits.
//!
//! Times are in usual room conditions; where a page gives a span, the shorter end is taken: sooner than that is too early by all
//! of them. No source says by how much a cold or damp shop slows drying, so it is left out. The label comes first.

use board::CoatKind;

use CoatKind::{
    Acrylic, DewaxedShellac, Dye, Enamel, Lacquer, Oil, OilPolyurethane, OilVarnish, OilWax,
    PaintPen, SandingSealer, Shellac, Stain, WaterPolyurethane, Wax, WipingVarnish,
};

/// Source of a figure found on trade pages.
pub(crate) const TRADE: &str = "trade pages on finishes, not a standard";
/// Source of a figure that was not looked up.
pub(crate) const MEMORY: &str = "from memory";

/// Square feet for a quart where there is a square meter for a liter.
const SQUARE_FEET_A_QUART: f64 = 10.763_910_4 * 0.946_352_946;

/// A kind of finish with its figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoatData {
    /// The kind.
    pub kind: CoatKind,
    /// Area that a liter covers once, m²; from memory.
    pub coverage: f64,
    /// Thickness of the dry film of one coat, mm; 0 where it soaks in. From memory.
    pub film: f64,
    /// Hours until it can be touched.
    pub touch: f64,
    /// Hours until a further coat of the same.
    pub next: f64,
    /// Hours until it is hard.
    pub hard: f64,
    /// The same in words.
    pub hard_words: &'static str,
    /// Source of the times.
    pub times: &'static str,
    /// The thinner, which also cleans the brush; from memory.
    pub solvent: &'static str,
    /// Usual number of coats; from memory.
    pub usual: u32,
    /// Grit of the last paper on bare wood; common practice, no source.
    pub wood_grit: u32,
    /// Grit that a coat is scuff-sanded with before the next; none where it is left alone. From memory.
    pub between: Option<u32>,
    /// Whether it has oil that dries, so that rags with it can catch fire.
    pub is_oily: bool,
    /// Whether its solvent burns and has to be aired out.
    pub has_vapor: bool,
}

impl CoatData {
    /// Square feet that a quart covers once.
    ///
    /// ```
    /// use board::CoatKind;
    /// let square_feet = workshop::coat_data(CoatKind::OilPolyurethane).square_feet_a_quart();
    /// assert!((110.0..125.0).contains(&square_feet));
    /// ```
    pub const fn square_feet_a_quart(&self) -> f64 {
        self.coverage * SQUARE_FEET_A_QUART
    }

    /// Whether it leaves a film on the wood that has a thickness.
    pub const fn builds(&self) -> bool {
        self.film > 0.0
    }
}

/// Hours in a day.
const DAY: f64 = 24.0;

/// The row of a kind before its own figures: a film finish in spirits.
const ROW: CoatData = CoatData {
    kind: OilPolyurethane,
    coverage: 11.0,
    film: 0.04,
    touch: DAY,
    next: DAY,
    hard: 30.0 * DAY,
    hard_words: "about 30 days",
    times: TRADE,
    solvent: "mineral spirits",
    usual: 3,
    wood_grit: 180,
    between: Some(320),
    is_oily: true,
    has_vapor: true,
};

/// Penetrating oil, of which the others that soak in differ little. Two weeks count as "weeks; see the label".
const SOAKS_IN: CoatData = CoatData {
    kind: Oil,
    coverage: 12.0,
    film: 0.0,
    touch: 6.0,
    next: 6.0,
    hard: 14.0 * DAY,
    hard_words: "weeks; see the label",
    wood_grit: 220,
    ..ROW
};

/// Shellac, with or without its wax.
const SHELLAC: CoatData = CoatData {
    kind: Shellac,
    coverage: 10.0,
    film: 0.01,
    touch: 5.0 / 60.0,
    next: 0.5,
    hard: 2.0,
    hard_words: "about 2 h",
    solvent: "alcohol",
    wood_grit: 220,
    is_oily: false,
    ..ROW
};

/// Lacquer, and sealer of its type.
const LACQUER: CoatData = CoatData {
    kind: Lacquer,
    coverage: 8.0,
    film: 0.025,
    touch: 5.0 / 60.0,
    next: 0.5,
    hard: 7.0 * DAY,
    hard_words: "about a week",
    solvent: "lacquer thinner",
    is_oily: false,
    ..ROW
};

/// Every kind, in the order of [`CoatKind::ALL`].
static TABLE: [CoatData; CoatKind::ALL.len()] = [
    // Dye leaves no film: it soaks into the wood, and only its solvent dries. That may be alcohol, whose vapor burns.
    CoatData {
        kind: Dye,
        coverage: 10.0,
        touch: 1.0,
        next: 1.0,
        hard: 12.0,
        hard_words: "about 12 h",
        times: MEMORY,
        solvent: "water or alcohol",
        usual: 1,
        between: None,
        is_oily: false,
        ..SOAKS_IN
    },
    // Oil carries the pigment, so that stain dries as slowly as oil does and its rags heat up.
    CoatData {
        kind: Stain,
        touch: 8.0,
        next: DAY,
        hard: 3.0 * DAY,
        hard_words: "about 3 days",
        times: MEMORY,
        usual: 1,
        wood_grit: 180,
        between: None,
        ..SOAKS_IN
    },
    SOAKS_IN,
    // A little varnish is left on the wood once the rest is wiped off; labels say overnight.
    CoatData {
        kind: OilVarnish,
        film: 0.005,
        touch: 8.0,
        next: DAY,
        times: MEMORY,
        ..SOAKS_IN
    },
    // Laid on so thin that a liter goes twice as far as any other.
    CoatData {
        kind: OilWax,
        coverage: 24.0,
        film: 0.01,
        touch: 8.0,
        next: 12.0,
        times: MEMORY,
        usual: 2,
        ..SOAKS_IN
    },
    SHELLAC,
    // Mostly a coat between others.
    CoatData {
        kind: DewaxedShellac,
        usual: 2,
        ..SHELLAC
    },
    // Lacquer with a soap that makes it easy to sand.
    CoatData {
        kind: SandingSealer,
        next: 1.0,
        hard: DAY,
        hard_words: "about a day",
        times: MEMORY,
        usual: 1,
        ..LACQUER
    },
    // Varnish thinned with an equal part of spirits: a third of the film, and the same time to the next coat.
    CoatData {
        kind: WipingVarnish,
        coverage: 14.0,
        film: 0.013,
        touch: 4.0,
        usual: 4,
        ..ROW
    },
    ROW,
    // Labels often say 2 h to the next coat; the trade page says when it is dry, 6 to 8 h.
    CoatData {
        kind: WaterPolyurethane,
        film: 0.03,
        touch: 6.0,
        next: 6.0,
        hard: 21.0 * DAY,
        hard_words: "about 3 weeks",
        solvent: "water",
        is_oily: false,
        has_vapor: false,
        ..ROW
    },
    LACQUER,
    // Pens differ: the barrel names the solvent.
    CoatData {
        kind: PaintPen,
        coverage: 8.0,
        film: 0.02,
        touch: 0.25,
        next: 0.5,
        hard: DAY,
        hard_words: "about a day",
        times: MEMORY,
        solvent: "as the pen says",
        usual: 2,
        between: None,
        is_oily: false,
        ..ROW
    },
    // Alkyd enamel is an oil varnish with pigment in it.
    CoatData {
        kind: Enamel,
        film: 0.035,
        touch: 4.0,
        hard: 7.0 * DAY,
        hard_words: "about a week",
        times: MEMORY,
        usual: 2,
        ..ROW
    },
    // Not scuff-sanded: the coat would be sanded through before it is dull.
    CoatData {
        kind: Acrylic,
        coverage: 9.0,
        film: 0.03,
        touch: 0.5,
        next: 1.0,
        hard: 7.0 * DAY,
        hard_words: "about a week",
        times: MEMORY,
        solvent: "water",
        usual: 2,
        between: None,
        is_oily: false,
        has_vapor: false,
        ..ROW
    },
    // Buffed as soon as it hazes; nothing has to harden.
    CoatData {
        kind: Wax,
        coverage: 25.0,
        film: 0.001,
        touch: 0.25,
        next: 0.0,
        hard: 0.0,
        hard_words: "as soon as it is buffed",
        usual: 1,
        wood_grit: 220,
        between: None,
        is_oily: false,
        times: MEMORY,
        ..ROW
    },
];

/// The figures of a kind of finish.
///
/// ```
/// use board::CoatKind;
/// use workshop::coat_data;
/// let poly = coat_data(CoatKind::OilPolyurethane);
/// // Trade pages: a day to the next coat, a month until it is hard.
/// assert_eq!((poly.next, poly.hard), (24.0, 720.0));
/// ```
pub const fn coat_data(kind: CoatKind) -> &'static CoatData {
    &TABLE[kind as usize]
}

/// The time in which a coat gets hard, in words.
pub const fn hard_after(kind: CoatKind) -> &'static str {
    coat_data(kind).hard_words
}

/// The time in which a coat gets hard, hours, in the numbers of [`hard_after`]: where that says weeks, two.
///
/// ```
/// use board::CoatKind;
/// assert_eq!(workshop::hard_hours(CoatKind::Lacquer), 7.0 * 24.0);
/// ```
pub const fn hard_hours(kind: CoatKind) -> f64 {
    coat_data(kind).hard
}

/// Whether a kind is color that lies on the wood or on a film.
pub const fn is_color(kind: CoatKind) -> bool {
    matches!(kind, PaintPen | Enamel | Acrylic)
}

/// Whether a kind makes a film that seals the wood and is the finish itself.
pub const fn is_film(kind: CoatKind) -> bool {
    matches!(
        kind,
        Shellac
            | DewaxedShellac
            | SandingSealer
            | WipingVarnish
            | OilPolyurethane
            | WaterPolyurethane
            | Lacquer
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_a_row_with_figures_that_can_be() {
        for kind in CoatKind::ALL {
            let row = coat_data(kind);
            assert_eq!(row.kind, kind);
            assert!((5.0..30.0).contains(&row.coverage), "{kind:?}");
            assert!((0.0..0.1).contains(&row.film), "{kind:?}");
            assert!(row.touch <= row.next.max(row.hard).max(0.25), "{kind:?}");
            assert!(row.usual >= 1 && [180, 220].contains(&row.wood_grit));
            assert!([TRADE, MEMORY].contains(&row.times));
        }
    }

    /// Trade page on drying times: oil varnish a day, a day, 30 days; water-based 6 to 8 h and 20 to 21 days; lacquer 5 to
    /// 15 min, 30 min, a week; shellac 5 min, 30 min, 2 h; penetrating oil 6 to 8 h, weeks.
    #[test]
    fn times_are_as_published() {
        let published = [
            (OilPolyurethane, 24.0, 24.0, 720.0),
            (WaterPolyurethane, 6.0, 6.0, 504.0),
            (Lacquer, 5.0 / 60.0, 0.5, 168.0),
            (Shellac, 5.0 / 60.0, 0.5, 2.0),
            (DewaxedShellac, 5.0 / 60.0, 0.5, 2.0),
            (Oil, 6.0, 6.0, 336.0),
        ];
        for (kind, touch, next, hard) in published {
            let row = coat_data(kind);
            assert_eq!((row.touch, row.next, row.hard), (touch, next, hard));
            assert_eq!(row.times, TRADE);
        }
    }

    /// A gallon of varnish covers about 400 to 500 square feet, by most labels; from memory.
    #[test]
    fn coverage_in_square_feet_is_that_of_labels() {
        let gallon = 4.0 * coat_data(OilPolyurethane).square_feet_a_quart();
        assert!((400.0..500.0).contains(&gallon), "{gallon}");
    }
}
