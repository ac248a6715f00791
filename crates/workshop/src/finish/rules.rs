//! The rules for pairs of kinds of finish: the first rule that matches a pair applies, each with its reason and its source.
//!
//! The rows of a trade page on which finish goes over which are the base: oil takes shellac, polyurethane, wax; shellac takes
//! lacquer, polyurethane, oil, wax; lacquer takes polyurethane, wax; polyurethane takes oil, wax; wax takes nothing. Dewaxed
//! shellac goes between coats that would not bond otherwise (another trade page). Rules for kinds that the page does not name are from
//! memory, and say so.
//!
//! To add a rule, put it before the more general one that it is an exception to. A test checks that each rule is used; the compiler
//! checks that every pair has one.

use board::CoatKind;

use super::bond::BondSort;
use super::kinds::{MEMORY, TRADE};
use CoatKind::{
    Acrylic, DewaxedShellac, Dye, Enamel, Lacquer, Oil, OilPolyurethane, OilVarnish, OilWax,
    PaintPen, SandingSealer, Shellac, Stain, WaterPolyurethane, Wax, WipingVarnish,
};

/// A set of kinds, one bit for each.
pub type Kinds = u32;

/// The set of some kinds.
const fn of(kinds: &[CoatKind]) -> Kinds {
    let (mut set, mut at) = (0, 0);
    while at < kinds.len() {
        set |= 1 << kinds[at] as u32;
        at += 1;
    }
    set
}

/// Every kind.
const ANY: Kinds = of(&CoatKind::ALL);
/// Oils that soak in, without wax.
const OILS: Kinds = of(&[Oil, OilVarnish]);
/// Oils, with wax too.
const ALL_OILS: Kinds = of(&[Oil, OilVarnish, OilWax]);
/// Kinds that color bare wood by soaking in.
const SOAKING: Kinds = of(&[Dye, Stain]);
/// Shellac of either sort.
const SHELLACS: Kinds = of(&[Shellac, DewaxedShellac]);
/// Lacquer, and sealer of its type.
const LACQUERS: Kinds = of(&[Lacquer, SandingSealer]);
/// Varnish and polyurethane in spirits.
const VARNISHES: Kinds = of(&[WipingVarnish, OilPolyurethane]);
/// The kinds a trade page calls polyurethane, varnish among them.
const POLYS: Kinds = of(&[WipingVarnish, OilPolyurethane, WaterPolyurethane]);
/// Kinds that are thinned with water.
const WATERY: Kinds = of(&[WaterPolyurethane, Acrylic]);
/// Color that forms a film.
const COLORS: Kinds = of(&[PaintPen, Enamel, Acrylic]);

/// The drying time before the upper coat.
#[derive(Clone, Copy)]
pub enum Dries {
    /// The time before another coat of the same kind.
    Next,
    /// A number of hours.
    Hours(f64),
}

/// A rule for pairs of kinds.
pub struct Rule {
    /// The lower kinds.
    pub under: Kinds,
    /// The upper kinds.
    pub over: Kinds,
    /// The judgment of such a pair.
    pub sort: BondSort,
    /// The time between.
    pub dries: Dries,
    /// Grit to scuff-sand the lower one with.
    pub grit: Option<u32>,
    /// The reason.
    pub why: &'static str,
    /// A word of advice; empty where there is none.
    pub advice: &'static str,
    /// Source of the rule.
    pub source: &'static str,
}

impl Rule {
    /// A rule for a coat that bonds after a time.
    const fn bonds(
        under: Kinds,
        over: Kinds,
        dries: Dries,
        why: &'static str,
        source: &'static str,
    ) -> Self {
        Self {
            under,
            over,
            sort: BondSort::AfterTime,
            dries,
            grit: None,
            why,
            advice: "",
            source,
        }
    }

    /// The same, once the lower coat is scuff-sanded.
    const fn scuffed(mut self, grit: u32) -> Self {
        self.sort = BondSort::AfterAbrasion;
        self.grit = Some(grit);
        self
    }

    /// The same, with a word of advice.
    const fn minding(mut self, advice: &'static str) -> Self {
        self.advice = advice;
        self
    }

    /// A rule for a coat that does not stick.
    const fn fails(
        under: Kinds,
        over: Kinds,
        sort: BondSort,
        why: &'static str,
        source: &'static str,
    ) -> Self {
        let mut rule = Self::bonds(under, over, Dries::Hours(0.0), why, source);
        rule.sort = sort;
        rule
    }
}

/// Hours in a day.
const DAY: f64 = 24.0;
/// Hours until penetrating oil has cured, taken as two weeks where trade pages say "weeks, by the product"; from memory.
const CURED: Dries = Dries::Hours(14.0 * DAY);
/// Hours that shellac dries before any other finish; trade page.
const HARD_SHELLAC: Dries = Dries::Hours(2.0);
/// A day, for finishes without a time of their own; from memory.
const A_DAY: Dries = Dries::Hours(DAY);

/// The reason why nothing goes over wax, and the remedy.
const OVER_WAX: &str = "only wax bonds to wax; strip, sand and degrease first";
/// The remedy for two coats that do not bond.
const TIE: &str = "put a coat of dewaxed shellac between them";
/// The reason why dye and stain fail over oil or a film.
const CLOSED: &str = "the coat below seals the pores, so dye or stain cannot soak in";
/// The reason for sanding.
const KEY: &str = "the coat below must be dry and sanded dull so the next one can grip";
/// The advice on shellac with its wax under another film.
pub const WANTS_DEWAXED: &str =
    "dewaxed shellac is safer here, though one author's tests found no failure";
/// The advice on color under a solvent that could dissolve it.
const MAY_BLEED: &str = "the solvent may dissolve the color and make it bleed; test on scrap, and keep the first coat thin";

/// The rules; the first that fits a pair holds.
pub static RULES: [Rule; 47] = [
    // Wax, and oil with wax in it. "Wax or oil-wax always last": a trade page; that oil with wax counts as wax: from memory.
    Rule::bonds(
        of(&[Wax]),
        of(&[Wax]),
        Dries::Next,
        "wax goes over wax",
        MEMORY,
    ),
    // Trade page: wax takes nothing.
    Rule::fails(of(&[Wax]), ANY, BondSort::Never, OVER_WAX, TRADE),
    // Hardwax oil takes itself and paste wax on top; from memory.
    Rule::bonds(
        of(&[OilWax]),
        of(&[OilWax, Wax]),
        Dries::Next,
        "hardwax oil takes more hardwax oil, or wax",
        MEMORY,
    ),
    // Nothing else sticks to its wax; from memory.
    Rule::fails(
        of(&[OilWax]),
        ANY,
        BondSort::Never,
        "the wax in hardwax oil keeps any other finish from bonding; strip, sand and degrease first",
        MEMORY,
    ),
    // Dye and stain go on bare wood, from memory; pigment may glaze a film that is sanded.
    Rule::bonds(
        of(&[Dye]),
        of(&[Dye]),
        Dries::Next,
        "dye goes over dye",
        MEMORY,
    ),
    // Dye soaks in before the oil of a stain does.
    Rule::bonds(
        of(&[Dye]),
        of(&[Stain]),
        Dries::Hours(12.0),
        "stain goes over dry dye",
        MEMORY,
    ),
    // A second coat of stain darkens the first.
    Rule::bonds(
        of(&[Stain]),
        of(&[Stain]),
        Dries::Next,
        "stain goes over dry stain",
        MEMORY,
    ),
    // The other way about, the pores are closed already.
    Rule::fails(
        of(&[Stain]),
        of(&[Dye]),
        BondSort::Never,
        "the oil in stain seals the pores, so dye cannot soak in",
        MEMORY,
    ),
    // Oil fills the pores that dye and stain need.
    Rule::fails(OILS, SOAKING, BondSort::Never, CLOSED, MEMORY),
    // So does every film; dye makes no film that could stick to it.
    Rule::fails(ANY, of(&[Dye]), BondSort::Never, CLOSED, MEMORY),
    // Paint has no pores for stain to soak into.
    Rule::fails(
        COLORS,
        of(&[Stain]),
        BondSort::Never,
        "stain does not stick to paint",
        MEMORY,
    ),
    // Gel stain has enough binder to stick to a scuff-sanded film.
    Rule::bonds(
        ANY,
        of(&[Stain]),
        Dries::Next,
        "over a film, stain works as a glaze",
        MEMORY,
    )
    .scuffed(320)
    .minding("use only gel stain over a film, and test it on scrap"),
    // Dye and stain under the rest, from memory.
    Rule::bonds(
        of(&[Dye]),
        WATERY,
        Dries::Hours(12.0),
        "the dye must be dry",
        MEMORY,
    )
    .minding(
        "water-based dye bleeds into a water-based coat; put a coat of dewaxed shellac between them",
    ),
    // A finish that is not water-based does not make dye bleed.
    Rule::bonds(
        of(&[Dye]),
        ANY,
        Dries::Hours(12.0),
        "the dye must be dry",
        MEMORY,
    ),
    // Labels of oil stains ask for three days under water-based coats; from memory.
    Rule::bonds(
        of(&[Stain]),
        WATERY,
        Dries::Hours(3.0 * DAY),
        "the oil in the stain must be dry before a water-based coat",
        MEMORY,
    ),
    // All else goes over stain that is dry.
    Rule::bonds(
        of(&[Stain]),
        ANY,
        Dries::Next,
        "the stain must be dry",
        MEMORY,
    ),
    // Wax goes over everything: every row of the trade page has it; colors from memory.
    Rule::bonds(
        COLORS,
        of(&[Wax]),
        A_DAY,
        "wax goes over dry color",
        MEMORY,
    ),
    // Trade page: wax is in every row.
    Rule::bonds(
        ANY,
        of(&[Wax]),
        Dries::Next,
        "wax goes over any dry finish",
        TRADE,
    ),
    // Oil: a trade page has shellac, polyurethane and wax; water-based ones only over oil that has cured (another).
    Rule::bonds(
        OILS,
        ALL_OILS,
        Dries::Next,
        "oil goes over dry oil",
        TRADE,
    ),
    // Another trade page: wait for cure, weeks; taken as two weeks.
    Rule::bonds(
        OILS,
        of(&[WaterPolyurethane]),
        CURED,
        "water-based polyurethane goes only over fully cured oil",
        TRADE,
    ),
    // Water-based color is held to the same; from memory.
    Rule::bonds(
        OILS,
        of(&[Acrylic]),
        CURED,
        "water-based color goes only over fully cured oil",
        MEMORY,
    ),
    // The same trade page: oil-based may go over oil that has not cured.
    Rule::bonds(
        OILS,
        VARNISHES,
        Dries::Next,
        "oil-based polyurethane goes over oil, cured or not",
        TRADE,
    ),
    // Trade page: shellac is in the row of oil.
    Rule::bonds(
        OILS,
        SHELLACS,
        Dries::Next,
        "shellac goes over dry oil",
        TRADE,
    ),
    // Trade page: lacquer is not in the row of oil.
    Rule::fails(OILS, LACQUERS, BondSort::NeedsTie, TIE, TRADE),
    // Color with a solvent of its own; from memory.
    Rule::bonds(
        OILS,
        of(&[PaintPen, Enamel]),
        A_DAY,
        "the oil must be dry, or the color stays soft",
        MEMORY,
    ),
    // Shellac: a trade page has lacquer, polyurethane, oil, wax. It melts into itself.
    Rule::bonds(
        SHELLACS,
        SHELLACS,
        Dries::Next,
        "each coat of shellac melts into the one below",
        TRADE,
    ),
    // Good practice, and one author's tests found no failure: advice and no stop.
    Rule::bonds(
        of(&[Shellac]),
        of(&[
            Lacquer,
            SandingSealer,
            WipingVarnish,
            OilPolyurethane,
            WaterPolyurethane,
        ]),
        HARD_SHELLAC,
        "the shellac must be hard",
        TRADE,
    )
    .minding(WANTS_DEWAXED),
    // Alcohol is the solvent of shellac; from memory.
    Rule::bonds(
        SHELLACS,
        of(&[PaintPen]),
        HARD_SHELLAC,
        "the shellac must be hard",
        MEMORY,
    )
    .minding("an alcohol-based pen dissolves shellac; test it on scrap"),
    // Trade page: lacquer, polyurethane, oil; the tie coat of another page.
    Rule::bonds(SHELLACS, ANY, HARD_SHELLAC, "the shellac must be hard", TRADE),
    // Lacquer and its sealer: a trade page has polyurethane and wax, and that shellac makes two skins.
    Rule::bonds(
        LACQUERS,
        LACQUERS,
        Dries::Next,
        "each coat of lacquer melts into the one below",
        TRADE,
    ),
    // Labels of polyurethane warn of sealers with stearates; from memory.
    Rule::fails(
        of(&[SandingSealer]),
        of(&[OilPolyurethane, WaterPolyurethane]),
        BondSort::NeedsTie,
        "the soap in sanding sealer weakens the bond of polyurethane; put a coat of dewaxed shellac between them",
        MEMORY,
    ),
    // Trade page: polyurethane is in the row of lacquer.
    Rule::bonds(LACQUERS, POLYS, Dries::Next, KEY, TRADE).scuffed(320),
    // Dewaxed shellac sticks to scuff-sanded lacquer; trade page.
    Rule::bonds(
        LACQUERS,
        of(&[DewaxedShellac]),
        Dries::Next,
        "dewaxed shellac sticks to a coat that is dry and sanded dull",
        TRADE,
    )
    .scuffed(320),
    // Trade page: spirit shellac does not melt in and makes two skins.
    Rule::fails(LACQUERS, of(&[Shellac]), BondSort::NeedsTie, TIE, TRADE),
    // Trade page: oil is not in the row of lacquer.
    Rule::fails(LACQUERS, ALL_OILS, BondSort::NeedsTie, TIE, TRADE),
    // Color holds on a coat that is sanded dull; from memory.
    Rule::bonds(LACQUERS, COLORS, Dries::Next, KEY, MEMORY).scuffed(320),
    // Polyurethane and varnish: a trade page has oil and wax; themselves once sanded; dewaxed shellac ties.
    Rule::bonds(VARNISHES, VARNISHES, Dries::Next, KEY, TRADE).scuffed(320),
    // Water-based polyurethane takes itself.
    Rule::bonds(
        of(&[WaterPolyurethane]),
        of(&[WaterPolyurethane]),
        Dries::Next,
        KEY,
        TRADE,
    )
    .scuffed(320),
    // The tie coat of a trade page.
    Rule::bonds(
        POLYS,
        of(&[DewaxedShellac]),
        Dries::Next,
        "dewaxed shellac sticks to a coat that is dry and sanded dull",
        TRADE,
    )
    .scuffed(320),
    // Trade page: oil is in the row of polyurethane.
    Rule::bonds(
        POLYS,
        ALL_OILS,
        Dries::Next,
        "oil goes over dry polyurethane",
        TRADE,
    ),
    // Color holds on a coat that is sanded dull; from memory.
    Rule::bonds(POLYS, COLORS, Dries::Next, KEY, MEMORY).scuffed(320),
    // Trade page: oil and wax only, so that the rest needs a tie.
    Rule::fails(POLYS, ANY, BondSort::NeedsTie, TIE, TRADE),
    // Color under the rest: "over sealed wood, under the topcoat, test for solvent bleed", from memory.
    Rule::bonds(
        of(&[PaintPen]),
        of(&[Lacquer, SandingSealer, Shellac, DewaxedShellac]),
        A_DAY,
        "the color must be dry",
        MEMORY,
    )
    .minding(MAY_BLEED),
    // Lacquer thinner is a stronger solvent than enamel withstands; from memory.
    Rule::fails(
        of(&[Enamel]),
        LACQUERS,
        BondSort::NeedsTie,
        "the solvent in lacquer lifts enamel; put a coat of dewaxed shellac between them",
        MEMORY,
    ),
    // Enamel is a varnish with pigment, and takes varnish as varnish does.
    Rule::bonds(
        of(&[Enamel]),
        of(&[Enamel, WipingVarnish, OilPolyurethane]),
        Dries::Next,
        KEY,
        MEMORY,
    )
    .scuffed(320),
    // Water-based coats wait until its oil is dry; from memory.
    Rule::bonds(of(&[Enamel]), WATERY, Dries::Hours(3.0 * DAY), KEY, MEMORY).scuffed(320),
    // All else goes over color that is dry.
    Rule::bonds(COLORS, ANY, A_DAY, "the color must be dry", MEMORY),
];
