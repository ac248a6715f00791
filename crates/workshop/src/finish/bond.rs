//! Which coat bonds to which: rules for pairs of kinds, the first that fits holds, each with its reason and source.
//!
//! The rows of a trade page on what may go over what are the base: oil takes shellac, polyurethane, wax; shellac takes lacquer,
//! polyurethane, oil, wax; lacquer takes polyurethane, wax; polyurethane takes oil, wax; wax takes nothing. Dewaxed shellac ties
//! what else does not bond (another trade page). Kinds that the page does not name are from memory, and say so.

use board::CoatKind;

use super::kinds::{MEMORY, TRADE, coat_data};
use CoatKind::{
    Acrylic, DewaxedShellac, Dye, Enamel, Lacquer, Oil, OilPolyurethane, OilVarnish, OilWax,
    PaintPen, SandingSealer, Shellac, Stain, WaterPolyurethane, Wax, WipingVarnish,
};

/// Whether and how a coat bonds to the one under it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bond {
    /// The judgment.
    pub sort: BondSort,
    /// Hours that the lower coat dries before the upper one, at least; 0 where no time helps.
    pub hours: f64,
    /// Grit that the lower coat has to be rubbed down with; none where it bonds without.
    pub grit: Option<u32>,
    /// The reason, a clause without its full stop.
    pub why: &'static str,
    /// What to look out for although it bonds; empty where nothing.
    pub advice: &'static str,
    /// Source of the rule.
    pub source: &'static str,
}

/// The judgment of a pair of coats.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BondSort {
    /// It bonds at once.
    Bonds,
    /// It bonds once the lower one has dried long enough.
    AfterTime,
    /// It bonds once the lower one has dried and been rubbed down.
    AfterAbrasion,
    /// It bonds with another coat between them.
    NeedsTie,
    /// It does not bond, whatever is between.
    Never,
}

impl BondSort {
    /// The judgment in words.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Bonds => "bonds",
            Self::AfterTime => "bonds after a time",
            Self::AfterAbrasion => "bonds after sanding",
            Self::NeedsTie => "needs a tie coat",
            Self::Never => "does not bond",
        }
    }

    /// Whether the upper coat would come off.
    pub const fn fails(self) -> bool {
        matches!(self, Self::NeedsTie | Self::Never)
    }
}

/// A set of kinds, a bit each.
type Kinds = u32;

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
/// What color bare wood by soaking in.
const SOAKING: Kinds = of(&[Dye, Stain]);
/// Shellac of either sort.
const SHELLACS: Kinds = of(&[Shellac, DewaxedShellac]);
/// Lacquer, and sealer of its type.
const LACQUERS: Kinds = of(&[Lacquer, SandingSealer]);
/// Varnish and polyurethane in spirits.
const VARNISHES: Kinds = of(&[WipingVarnish, OilPolyurethane]);
/// What a trade page calls polyurethane, varnish with it.
const POLYS: Kinds = of(&[WipingVarnish, OilPolyurethane, WaterPolyurethane]);
/// What is thinned with water.
const WATERY: Kinds = of(&[WaterPolyurethane, Acrylic]);
/// Color that lies on what is under it.
const COLORS: Kinds = of(&[PaintPen, Enamel, Acrylic]);

/// The time that a rule asks for.
#[derive(Clone, Copy)]
enum Dries {
    /// As before a further coat of the same.
    Next,
    /// So many hours.
    Hours(f64),
}

/// A rule for pairs of kinds.
struct Rule {
    /// The lower kinds.
    under: Kinds,
    /// The upper kinds.
    over: Kinds,
    /// The judgment of such a pair.
    sort: BondSort,
    /// The time between.
    dries: Dries,
    /// Grit to rub the lower one down with.
    grit: Option<u32>,
    /// The reason.
    why: &'static str,
    /// What to look out for.
    advice: &'static str,
    /// Source of the rule.
    source: &'static str,
}

impl Rule {
    /// A rule by which a coat bonds after a time.
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

    /// The same, once the lower coat is rubbed down.
    const fn rubbed(mut self, grit: u32) -> Self {
        self.sort = BondSort::AfterAbrasion;
        self.grit = Some(grit);
        self
    }

    /// The same, with what to look out for.
    const fn minding(mut self, advice: &'static str) -> Self {
        self.advice = advice;
        self
    }

    /// A rule by which a coat comes off.
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
/// Hours that shellac dries before what is not shellac; trade page.
const HARD_SHELLAC: Dries = Dries::Hours(2.0);
/// A day, for what has no time of its own; from memory.
const A_DAY: Dries = Dries::Hours(DAY);

/// The reason why nothing goes over wax, and the way out.
const OVER_WAX: &str = "nothing bonds to wax but more wax: strip, sand and degrease first";
/// The reason for a coat between two that do not bond.
const TIE: &str = "they do not bond; a coat of dewaxed shellac between ties them";
/// Wood that no longer takes color.
const CLOSED: &str = "it closes the pores, and dye or stain cannot soak in";
/// The reason for sanding.
const KEY: &str = "it has to be dry, and sanded dull to give hold";
/// Why shellac of the common sort is not the best below.
const WANTS_DEWAXED: &str =
    "shellac without wax is surer there, though one author's tests found no failure";
/// Color under a solvent that could dissolve it.
const MAY_BLEED: &str = "its solvent may dissolve the color and make it bleed: try it on scrap, and lay the first coat on thin";

/// The rules; the first that fits a pair holds.
static RULES: [Rule; 47] = [
    // Wax, and oil with wax in it. "Wax or oil-wax always last": a trade page; that oil with wax counts as wax: from memory.
    Rule::bonds(
        of(&[Wax]),
        of(&[Wax]),
        Dries::Next,
        "wax takes more wax",
        MEMORY,
    ),
    Rule::fails(of(&[Wax]), ANY, BondSort::Never, OVER_WAX, TRADE),
    Rule::bonds(
        of(&[OilWax]),
        of(&[OilWax, Wax]),
        Dries::Next,
        "it takes more of the same, and wax",
        MEMORY,
    ),
    Rule::fails(
        of(&[OilWax]),
        ANY,
        BondSort::Never,
        "the wax in hardwax oil keeps all else from bonding: strip, sand and degrease first",
        MEMORY,
    ),
    // What colors the wood goes on bare wood, from memory; pigment may glaze a film that is sanded.
    Rule::bonds(
        of(&[Dye]),
        of(&[Dye]),
        Dries::Next,
        "dye goes over dye",
        MEMORY,
    ),
    Rule::bonds(
        of(&[Dye]),
        of(&[Stain]),
        Dries::Hours(12.0),
        "stain goes over dye that is dry",
        MEMORY,
    ),
    Rule::bonds(
        of(&[Stain]),
        of(&[Stain]),
        Dries::Next,
        "stain goes over stain that is dry",
        MEMORY,
    ),
    Rule::fails(
        of(&[Stain]),
        of(&[Dye]),
        BondSort::Never,
        "the oil in stain closes the pores to dye",
        MEMORY,
    ),
    Rule::fails(OILS, SOAKING, BondSort::Never, CLOSED, MEMORY),
    Rule::fails(ANY, of(&[Dye]), BondSort::Never, CLOSED, MEMORY),
    Rule::fails(
        COLORS,
        of(&[Stain]),
        BondSort::Never,
        "stain does not hold on paint",
        MEMORY,
    ),
    Rule::bonds(
        ANY,
        of(&[Stain]),
        Dries::Next,
        "over a film it is a glaze",
        MEMORY,
    )
    .rubbed(320)
    .minding("only a gel stain lies on a film: try it on scrap"),
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
    Rule::bonds(
        of(&[Dye]),
        ANY,
        Dries::Hours(12.0),
        "dye has to be dry",
        MEMORY,
    ),
    Rule::bonds(
        of(&[Stain]),
        WATERY,
        Dries::Hours(3.0 * DAY),
        "the oil of the stain has to be dry under water-based coats",
        MEMORY,
    ),
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
    Rule::bonds(
        OILS,
        of(&[WaterPolyurethane]),
        CURED,
        "water-based polyurethane goes only over oil that has cured",
        TRADE,
    ),
    Rule::bonds(
        OILS,
        of(&[Acrylic]),
        CURED,
        "water-based color goes only over oil that has cured",
        MEMORY,
    ),
    Rule::bonds(
        OILS,
        VARNISHES,
        Dries::Next,
        "oil-based polyurethane goes over oil, cured or not",
        TRADE,
    ),
    Rule::bonds(
        OILS,
        SHELLACS,
        Dries::Next,
        "shellac goes over oil that is dry",
        TRADE,
    ),
    Rule::fails(OILS, LACQUERS, BondSort::NeedsTie, TIE, TRADE),
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
    Rule::bonds(
        SHELLACS,
        of(&[PaintPen]),
        HARD_SHELLAC,
        "shellac has to be hard",
        MEMORY,
    )
    .minding("a pen with alcohol dissolves shellac: try it on scrap"),
    Rule::bonds(SHELLACS, ANY, HARD_SHELLAC, "shellac has to be hard", TRADE),
    // Lacquer and its sealer: a trade page has polyurethane and wax, and that shellac makes two skins.
    Rule::bonds(
        LACQUERS,
        LACQUERS,
        Dries::Next,
        "lacquer melts into lacquer",
        TRADE,
    ),
    Rule::fails(
        of(&[SandingSealer]),
        of(&[OilPolyurethane, WaterPolyurethane]),
        BondSort::NeedsTie,
        "the soap in sanding sealer weakens the bond of polyurethane; a coat of dewaxed shellac between ties them",
        MEMORY,
    ),
    Rule::bonds(LACQUERS, POLYS, Dries::Next, KEY, TRADE).rubbed(320),
    Rule::bonds(
        LACQUERS,
        of(&[DewaxedShellac]),
        Dries::Next,
        "dewaxed shellac ties",
        TRADE,
    )
    .rubbed(320),
    Rule::fails(LACQUERS, of(&[Shellac]), BondSort::NeedsTie, TIE, TRADE),
    Rule::fails(LACQUERS, ALL_OILS, BondSort::NeedsTie, TIE, TRADE),
    Rule::bonds(LACQUERS, COLORS, Dries::Next, KEY, MEMORY).rubbed(320),
    // Polyurethane and varnish: a trade page has oil and wax; themselves once sanded; dewaxed shellac ties.
    Rule::bonds(VARNISHES, VARNISHES, Dries::Next, KEY, TRADE).rubbed(320),
    Rule::bonds(
        of(&[WaterPolyurethane]),
        of(&[WaterPolyurethane]),
        Dries::Next,
        KEY,
        TRADE,
    )
    .rubbed(320),
    Rule::bonds(
        POLYS,
        of(&[DewaxedShellac]),
        Dries::Next,
        "dewaxed shellac ties",
        TRADE,
    )
    .rubbed(320),
    Rule::bonds(
        POLYS,
        ALL_OILS,
        Dries::Next,
        "oil goes over polyurethane",
        TRADE,
    ),
    Rule::bonds(POLYS, COLORS, Dries::Next, KEY, MEMORY).rubbed(320),
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
    Rule::fails(
        of(&[Enamel]),
        LACQUERS,
        BondSort::NeedsTie,
        "the solvent of lacquer lifts enamel; a coat of dewaxed shellac between keeps it off",
        MEMORY,
    ),
    Rule::bonds(
        of(&[Enamel]),
        of(&[Enamel, WipingVarnish, OilPolyurethane]),
        Dries::Next,
        KEY,
        MEMORY,
    )
    .rubbed(320),
    Rule::bonds(of(&[Enamel]), WATERY, Dries::Hours(3.0 * DAY), KEY, MEMORY).rubbed(320),
    Rule::bonds(COLORS, ANY, A_DAY, "color has to be dry", MEMORY),
];

/// Number of kinds.
const COUNT: usize = CoatKind::ALL.len();

/// The rule of every pair, by the lower kind and then by the upper.
static RULE_OF: [[u8; COUNT]; COUNT] = rules_of_pairs();

/// The rule of every pair; that each has one is proved while the program is compiled.
const fn rules_of_pairs() -> [[u8; COUNT]; COUNT] {
    let mut rules = [[0; COUNT]; COUNT];
    let mut under = 0;
    while under < COUNT {
        let mut over = 0;
        while over < COUNT {
            rules[under][over] = first_rule(under, over);
            over += 1;
        }
        under += 1;
    }
    rules
}

/// The first rule that fits two kinds.
const fn first_rule(under: usize, over: usize) -> u8 {
    let mut at = 0;
    while at < RULES.len() {
        let rule = &RULES[at];
        if rule.under & (1 << under) != 0 && rule.over & (1 << over) != 0 {
            return at as u8;
        }
        at += 1;
    }
    panic!("a pair of kinds without a rule")
}

/// Whether and how a coat bonds to the one under it.
///
/// ```
/// use board::CoatKind;
/// use workshop::{BondSort, bond};
/// let tied = bond(CoatKind::DewaxedShellac, CoatKind::WaterPolyurethane);
/// assert_eq!((tied.sort, tied.hours), (BondSort::AfterTime, 2.0));
/// assert_eq!(bond(CoatKind::Wax, CoatKind::Lacquer).sort, BondSort::Never);
/// ```
pub const fn bond(under: CoatKind, over: CoatKind) -> Bond {
    let rule = &RULES[RULE_OF[under as usize][over as usize] as usize];
    let hours = match rule.dries {
        Dries::Next => coat_data(under).next,
        Dries::Hours(hours) => hours,
    };
    let is_at_once = hours <= 0.0 && matches!(rule.sort, BondSort::AfterTime);
    Bond {
        sort: if is_at_once {
            BondSort::Bonds
        } else {
            rule.sort
        },
        hours,
        grit: rule.grit,
        why: rule.why,
        advice: rule.advice,
        source: rule.source,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The kinds that a coat takes over it as it is.
    fn takes(under: CoatKind) -> Vec<CoatKind> {
        let bonds = |over: &CoatKind| !bond(under, *over).sort.fails();
        CoatKind::ALL.into_iter().filter(bonds).collect()
    }

    /// Trade page: what may go over what, row by row; "dewaxed shellac ties" from another; each goes over itself.
    #[test]
    fn each_takes_what_the_trade_page_says() {
        let polys = [WipingVarnish, OilPolyurethane, WaterPolyurethane];
        let rows: [(CoatKind, &[CoatKind], &[CoatKind]); 6] = [
            (Oil, &[Oil, Shellac, DewaxedShellac, Wax], &[Lacquer]),
            (Shellac, &[Shellac, Lacquer, Oil, Wax], &[]),
            (Lacquer, &[Lacquer, DewaxedShellac, Wax], &[Oil, Shellac]),
            (
                OilPolyurethane,
                &[OilPolyurethane, DewaxedShellac, Oil, Wax],
                &[Shellac, Lacquer, WaterPolyurethane],
            ),
            (
                WaterPolyurethane,
                &[WaterPolyurethane, DewaxedShellac, Oil, Wax],
                &[Shellac, Lacquer, OilPolyurethane],
            ),
            (
                Wax,
                &[Wax],
                &[
                    Oil,
                    Shellac,
                    DewaxedShellac,
                    Lacquer,
                    OilPolyurethane,
                    WaterPolyurethane,
                    Acrylic,
                ],
            ),
        ];
        for (under, over, not) in rows {
            let taken = takes(under);
            assert!(
                over.iter().all(|kind| taken.contains(kind)),
                "{under:?}: {taken:?}"
            );
            assert!(
                not.iter().all(|kind| !taken.contains(kind)),
                "{under:?}: {taken:?}"
            );
        }
        for under in [Oil, Shellac, DewaxedShellac, Lacquer] {
            assert!(
                polys.iter().all(|poly| takes(under).contains(poly)),
                "{under:?}"
            );
        }
    }

    /// "Nothing bonds over wax: it must be stripped, sanded and degreased first" (trade page).
    #[test]
    fn nothing_but_wax_goes_over_wax() {
        assert_eq!(takes(Wax), [Wax]);
        assert_eq!(takes(OilWax), [OilWax, Wax]);
        for under in CoatKind::ALL {
            assert!(takes(under).contains(&Wax), "{under:?}");
        }
    }

    /// "Oil-based polyurethane may go over uncured penetrating oil, water-based may not: wait for cure, weeks" (trade page).
    #[test]
    fn water_based_waits_for_oil_to_cure_and_oil_based_does_not() {
        assert!(bond(Oil, WaterPolyurethane).hours >= 14.0 * 24.0);
        assert!(bond(Oil, OilPolyurethane).hours <= 24.0);
    }

    /// "Dewaxed shellac works as the tie coat between otherwise incompatible films" (trade page).
    #[test]
    fn whatever_needs_a_tie_is_tied_by_dewaxed_shellac() {
        for under in CoatKind::ALL {
            for over in CoatKind::ALL {
                if bond(under, over).sort == BondSort::NeedsTie {
                    let ways = [(under, DewaxedShellac), (DewaxedShellac, over)];
                    assert!(
                        ways.iter()
                            .all(|(low, high)| !bond(*low, *high).sort.fails()),
                        "{under:?} {over:?}"
                    );
                }
            }
        }
    }

    #[test]
    fn every_rule_is_used_and_every_pair_has_its_reason_and_source() {
        for rule in &RULES {
            let used = CoatKind::ALL.iter().any(|under| {
                CoatKind::ALL.iter().any(|over| {
                    let found = bond(*under, *over);
                    let (low, high) = (1 << *under as u32, 1 << *over as u32);
                    rule.under & low != 0 && rule.over & high != 0 && found.why == rule.why
                })
            });
            assert!(used, "{}", rule.why);
            assert!(!rule.why.ends_with('.') && [TRADE, MEMORY].contains(&rule.source));
        }
        for under in CoatKind::ALL {
            for over in CoatKind::ALL {
                let bond = bond(under, over);
                assert!(!bond.why.is_empty() && bond.hours >= 0.0);
                assert_eq!(bond.grit.is_some(), bond.sort == BondSort::AfterAbrasion);
                // A coat that is never dry enough for itself could not be laid twice.
                assert!(
                    under != over || !bond.sort.fails() || under == Dye,
                    "{under:?}"
                );
            }
        }
    }

    #[test]
    fn shellac_with_wax_under_a_film_is_a_matter_of_advice() {
        assert_eq!(bond(Shellac, OilPolyurethane).advice, WANTS_DEWAXED);
        assert_eq!(bond(DewaxedShellac, OilPolyurethane).advice, "");
    }
}
