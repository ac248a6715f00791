//! Which coat bonds to which: the judgment of a pair of kinds, by the first of the rules that fits.

use board::CoatKind;

use super::kinds::coat_data;
use super::rules::{Dries, RULES};

/// Whether and how a coat bonds to the one under it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bond {
    /// The judgment.
    pub sort: BondSort,
    /// Hours that the lower coat dries before the upper one, at least; 0 where no time helps.
    pub hours: f64,
    /// Grit that the lower coat has to be scuff-sanded with; none where it bonds without.
    pub grit: Option<u32>,
    /// The reason, a clause without its full stop.
    pub why: &'static str,
    /// A word of advice although it bonds; empty where there is none.
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
    /// It bonds once the lower one has dried and been scuff-sanded.
    AfterAbrasion,
    /// It bonds with another coat between them.
    NeedsTie,
    /// It does not bond, with any wait.
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

/// Number of kinds.
const COUNT: usize = CoatKind::ALL.len();

/// The rule of every pair, by the lower kind and then by the upper.
static RULE_OF: [[u8; COUNT]; COUNT] = rules_of_pairs();

/// The rule of every pair, found while the program is compiled: a search through the rules looks pairs up by the thousand.
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

/// The first rule that fits two kinds; their number where none does.
const fn first_rule(under: usize, over: usize) -> u8 {
    let mut at = 0;
    while at < RULES.len() {
        let rule = &RULES[at];
        if rule.under & (1 << under) != 0 && rule.over & (1 << over) != 0 {
            break;
        }
        at += 1;
    }
    at as u8
}

/// Whether every pair has a rule.
const fn all_pairs_have_rules() -> bool {
    let mut pair = 0;
    while pair < COUNT * COUNT {
        if RULE_OF[pair / COUNT][pair % COUNT] as usize >= RULES.len() {
            return false;
        }
        pair += 1;
    }
    true
}

const _: () = assert!(all_pairs_have_rules(), "a pair of kinds has no rule");

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

/// Hours that every pair needs, by the lower kind and then by the upper; infinite where no time helps.
static HOURS_OF: [[f64; COUNT]; COUNT] = hours_of_pairs();

/// The hours of every pair, found while the program is compiled.
const fn hours_of_pairs() -> [[f64; COUNT]; COUNT] {
    let mut hours = [[0.0; COUNT]; COUNT];
    let mut pair = 0;
    while pair < COUNT * COUNT {
        let (under, over) = (pair / COUNT, pair % COUNT);
        let bond = bond(CoatKind::ALL[under], CoatKind::ALL[over]);
        hours[under][over] = if bond.sort.fails() {
            f64::INFINITY
        } else {
            bond.hours
        };
        pair += 1;
    }
    hours
}

/// Hours that a coat dries at least before another holds on it; infinite where it never does.
pub(super) fn hours_between(under: CoatKind, over: CoatKind) -> f64 {
    HOURS_OF[under as usize][over as usize]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finish::kinds::{MEMORY, TRADE};
    use crate::finish::rules::WANTS_DEWAXED;
    use CoatKind::{
        Acrylic, DewaxedShellac, Dye, Lacquer, Oil, OilPolyurethane, OilWax, Shellac,
        WaterPolyurethane, Wax, WipingVarnish,
    };

    /// The kinds that a coat takes over it as it is.
    fn takes(under: CoatKind) -> Vec<CoatKind> {
        let bonds = |over: &CoatKind| !bond(under, *over).sort.fails();
        CoatKind::ALL.into_iter().filter(bonds).collect()
    }

    /// Trade page: which finish goes over which, row by row; "dewaxed shellac ties" from another; each goes over itself.
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
    fn dewaxed_shellac_bonds_both_coats_of_every_pair_that_needs_a_tie() {
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
    fn shellac_with_wax_under_a_film_gets_advice_only() {
        assert_eq!(bond(Shellac, OilPolyurethane).advice, WANTS_DEWAXED);
        assert_eq!(bond(DewaxedShellac, OilPolyurethane).advice, "");
    }
}
