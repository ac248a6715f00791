//! The rules for pairs of kinds of finish: the first rule that matches a pair applies, each with its reason and its source.
//!
//! The rows of a trade page on which finish goes over which are the base: oil takes shellac, polyurethane, wax; shellac takes
//! lacquer, polyurethane, oil, wax; lacquer takes polyurethane, wax; polyurethane takes oil, wax; wax takes nothing. Dewaxed
//! shellac ties what else does not bond (another trade page). Kinds that the page does not name are from memory, and say so.
//!
//! To add a rule, put it before the more general one that it is an exception to: a test holds that each rule is used, and that
//! every pair has one is proved while the program is compiled.

use board::CoatKind;

use super::bond::BondSort;
use super::kinds::{MEMORY, TRADE};
use CoatKind::{
    Acrylic, DewaxedShellac, Dye, Enamel, Lacquer, Oil, OilPolyurethane, OilVarnish, OilWax,
    PaintPen, SandingSealer, Shellac, Stain, WaterPolyurethane, Wax, WipingVarnish,
};

/// A set of kinds, a bit each.
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

/// The time that a rule asks for.
#[derive(Clone, Copy)]
pub enum Dries {
    /// As before a further coat of the same.
    Next,
    /// So many hours.
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

    /// The same, with what to look out for.
    const fn minding(mut self, advice: &'static str) -> Self {
        self.advice = advice;
        self
    }

    /// A rule for a coat that comes off.
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
/// Hours until penetrating oil has cured, two weeks: "weeks, by the product"; from memory.
const CURED: Dries = Dries::Hours(14.0 * DAY);
/// Hours that shellac dries before any other finish; trade page.
const HARD_SHELLAC: Dries = Dries::Hours(2.0);
/// A day, for finishes without a time of their own; from memory.
const A_DAY: Dries = Dries::Hours(DAY);

/// The reason why nothing goes over wax, and the way out.
const OVER_WAX: &str = "nothing bonds to wax but more wax: strip, sand and degrease first";
/// The reason for a coat between two that do not bond.
const TIE: &str = "they do not bond; a coat of dewaxed shellac between ties them";
/// Wood that no longer takes color.
const CLOSED: &str = "it closes the pores, and dye or stain cannot soak in";
/// The reason for sanding.
const KEY: &str = "it has to be dry and sanded dull, so that the next coat can grip";
/// Why shellac of the common sort is not the best below.
pub const WANTS_DEWAXED: &str =
    "shellac without wax is surer there, though one author's tests found no failure";
/// Color under a solvent that could dissolve it.
const MAY_BLEED: &str = "its solvent may dissolve the color and make it bleed: test it on scrap, and put the first coat on thin";

/// The rules; the first that fits a pair holds.
pub static RULES: [Rule; 47] = [
    // Wax, and oil with wax in it. "Wax or oil-wax always last": a trade page; that oil with wax counts as wax: from memory.
    Rule::bonds(
        of(&[Wax]),
        of(&[Wax]),
        Dries::Next,
        "wax takes more wax",
        MEMORY,
    ),
    // Trade page: wax takes nothing.
    Rule::fails(of(&[Wax]), ANY, BondSort::Never, OVER_WAX, TRADE),
    // Hardwax oil takes itself and paste wax on top; from memory.
    Rule::bonds(
        of(&[OilWax]),
        of(&[OilWax, Wax]),
        Dries::Next,
        "it takes more of the same, and wax",
        MEMORY,
    ),
    // All else slides off its wax; from memory.
    Rule::fails(
        of(&[OilWax]),
        ANY,
        BondSort::Never,
        "the wax in hardwax oil keeps all else from bonding: strip, sand and degrease first",
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
        "stain goes over dye that is dry",
        MEMORY,
    ),
    // A second coat of stain darkens the first.
    Rule::bonds(
        of(&[Stain]),
        of(&[Stain]),
        Dries::Next,
        "stain goes over stain that is dry",
        MEMORY,
    ),
    // The other way about, the pores are closed already.
    Rule::fails(
        of(&[Stain]),
        of(&[Dye]),
        BondSort::Never,
        "the oil in stain closes the pores to dye",
        MEMORY,
    ),
    // Oil fills the pores that dye and stain need.
    Rule::fails(OILS, SOAKING, BondSort::Never, CLOSED, MEMORY),
    // So does every film, and dye has no film of its own to hold by.
    Rule::fails(ANY, of(&[Dye]), BondSort::Never, CLOSED, MEMORY),
    // Paint has no pores at all.
    Rule::fails(
        COLORS,
        of(&[Stain]),
        BondSort::Never,
        "stain does not hold on paint",
        MEMORY,
    ),
    // Gel stain has binder enough to lie on a film that is keyed.
    Rule::bonds(
        ANY,
        of(&[Stain]),
        Dries::Next,
        "over a film it is a glaze",
        MEMORY,
    )
    .scuffed(320)
    .minding("only a gel stain works over a film: test it on scrap"),
    // Dye and stain under the rest, from memory.
    Rule::bonds(
        of(&[Dye]),
        WATERY,
        Dries::Hours(12.0),
        "dye has to be dry",
        MEMORY,
    )
    .minding(
        "dye in water bleeds into a water-based coat: a coat of dewaxed shellac between keeps it",
    ),
    // A finish that is not thinned with water does not move dye.
    Rule::bonds(
        of(&[Dye]),
        ANY,
        Dries::Hours(12.0),
        "dye has to be dry",
        MEMORY,
    ),
    // Labels of oil stains ask for three days under water-based coats; from memory.
    Rule::bonds(
        of(&[Stain]),
        WATERY,
        Dries::Hours(3.0 * DAY),
        "the oil of the stain has to be dry under water-based coats",
        MEMORY,
    ),
    // All else goes over stain that is dry.
    Rule::bonds(
        of(&[Stain]),
        ANY,
        Dries::Next,
        "stain has to be dry",
        MEMORY,
    ),
    // Wax goes over everything: every row of the trade page has it; colors from memory.
    Rule::bonds(
        COLORS,
        of(&[Wax]),
        A_DAY,
        "wax goes over color that is dry",
        MEMORY,
    ),
    // Trade page: wax is in every row.
    Rule::bonds(
        ANY,
        of(&[Wax]),
        Dries::Next,
        "wax goes over every finish that is dry",
        TRADE,
    ),
    // Oil: a trade page has shellac, polyurethane and wax; water-based ones only over oil that has cured (another).
    Rule::bonds(
        OILS,
        ALL_OILS,
        Dries::Next,
        "oil goes over oil that is dry",
        TRADE,
    ),
    // Another trade page: wait for cure, weeks; taken as two weeks.
    Rule::bonds(
        OILS,
        of(&[WaterPolyurethane]),
        CURED,
        "water-based polyurethane goes only over oil that has cured",
        TRADE,
    ),
    // Water-based color is held to the same; from memory.
    Rule::bonds(
        OILS,
        of(&[Acrylic]),
        CURED,
        "water-based color goes only over oil that has cured",
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
        "shellac goes over oil that is dry",
        TRADE,
    ),
    // Trade page: lacquer is not in the row of oil.
    Rule::fails(OILS, LACQUERS, BondSort::NeedsTie, TIE, TRADE),
    // Color with a solvent of its own; from memory.
    Rule::bonds(
        OILS,
        of(&[PaintPen, Enamel]),
        A_DAY,
        "color stays soft on oil that is wet",
        MEMORY,
    ),
    // Shellac: a trade page has lacquer, polyurethane, oil, wax. It melts into itself.
    Rule::bonds(
        SHELLACS,
        SHELLACS,
        Dries::Next,
        "shellac melts into shellac",
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
        "shellac has to be hard",
        TRADE,
    )
    .minding(WANTS_DEWAXED),
    // Alcohol is the solvent of shellac; from memory.
    Rule::bonds(
        SHELLACS,
        of(&[PaintPen]),
        HARD_SHELLAC,
        "shellac has to be hard",
        MEMORY,
    )
    .minding("a pen with alcohol dissolves shellac: try it on scrap"),
    // Trade page: lacquer, polyurethane, oil; the tie coat of another page.
    Rule::bonds(SHELLACS, ANY, HARD_SHELLAC, "shellac has to be hard", TRADE),
    // Lacquer and its sealer: a trade page has polyurethane and wax, and that shellac makes two skins.
    Rule::bonds(
        LACQUERS,
        LACQUERS,
        Dries::Next,
        "lacquer melts into lacquer",
        TRADE,
    ),
    // Labels of polyurethane warn of sealers with stearates; from memory.
    Rule::fails(
        of(&[SandingSealer]),
        of(&[OilPolyurethane, WaterPolyurethane]),
        BondSort::NeedsTie,
        "the soap in sanding sealer weakens the bond of polyurethane; a coat of dewaxed shellac between ties them",
        MEMORY,
    ),
    // Trade page: polyurethane is in the row of lacquer.
    Rule::bonds(LACQUERS, POLYS, Dries::Next, KEY, TRADE).scuffed(320),
    // Dewaxed shellac holds on lacquer that is keyed; trade page.
    Rule::bonds(
        LACQUERS,
        of(&[DewaxedShellac]),
        Dries::Next,
        "dewaxed shellac ties",
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
        "dewaxed shellac ties",
        TRADE,
    )
    .scuffed(320),
    // Trade page: oil is in the row of polyurethane.
    Rule::bonds(
        POLYS,
        ALL_OILS,
        Dries::Next,
        "oil goes over polyurethane",
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
        "color has to be dry",
        MEMORY,
    )
    .minding(MAY_BLEED),
    // Lacquer thinner is hotter than what enamel is made for; from memory.
    Rule::fails(
        of(&[Enamel]),
        LACQUERS,
        BondSort::NeedsTie,
        "the solvent of lacquer lifts enamel; a coat of dewaxed shellac between keeps it off",
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
    Rule::bonds(COLORS, ANY, A_DAY, "color has to be dry", MEMORY),
];
