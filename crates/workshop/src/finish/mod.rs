//! Coats of finish: which bonds to which, and how long each dries before the next.
//!
//! The pairs and times are those of trade pages on finishes, not of a standard, in usual room conditions. Of a time
//! that is given as a span the shorter end is taken: sooner than that is too early by all of them.

pub mod check;
pub mod steps;

use board::{Board, CoatKind};

/// Whether one coat bonds to the one under it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bond {
    /// It does, this many hours later at the soonest.
    After(f64),
    /// It does not.
    Never(&'static str),
}

/// The reason why nothing goes over wax, and the way out.
const OVER_WAX: &str = "nothing bonds to wax but more wax: strip, sand and degrease first";
/// The reason for a coat between two that do not bond.
const WANTS_TIE: &str = "they do not bond; a coat of dewaxed shellac between ties them";

/// Hours that shellac dries before what is not shellac.
const SHELLAC_HARD: f64 = 2.0;
/// Hours until penetrating oil has cured, two weeks: "weeks, by the product"; from memory.
const OIL_CURED: f64 = 14.0 * 24.0;

/// Whether a coat bonds to the one under it, once that has dried.
///
/// ```
/// use board::CoatKind;
/// use workshop::{Bond, bond};
/// assert_eq!(bond(CoatKind::DewaxedShellac, CoatKind::WaterPolyurethane), Bond::After(2.0));
/// assert!(matches!(bond(CoatKind::Wax, CoatKind::Lacquer), Bond::Never(_)));
/// ```
pub const fn bond(under: CoatKind, over: CoatKind) -> Bond {
    use CoatKind::{
        DewaxedShellac, Lacquer, Oil, OilPolyurethane, Shellac, WaterPolyurethane, Wax,
    };
    match (under, over) {
        (Wax, Wax) => Bond::After(0.0),
        (Wax, _) => Bond::Never(OVER_WAX),
        // Solvent-based finishes go over oil that is dry, water-based ones only over oil that has cured.
        (Oil, WaterPolyurethane) => Bond::After(OIL_CURED),
        (Oil, Lacquer)
        | (Lacquer, Oil | Shellac)
        | (OilPolyurethane, Shellac | Lacquer | WaterPolyurethane)
        | (WaterPolyurethane, Shellac | Lacquer | OilPolyurethane) => Bond::Never(WANTS_TIE),
        (Shellac | DewaxedShellac, Shellac | DewaxedShellac) => Bond::After(dries(under)),
        (Shellac | DewaxedShellac, _) => Bond::After(SHELLAC_HARD),
        _ => Bond::After(dries(under)),
    }
}

/// Whether shellac without wax would be surer under a coat: good practice, while one author's tests found no failure
/// (trade pages).
pub const fn wants_dewaxed(under: CoatKind, over: CoatKind) -> bool {
    matches!(under, CoatKind::Shellac)
        && matches!(
            over,
            CoatKind::Lacquer | CoatKind::OilPolyurethane | CoatKind::WaterPolyurethane
        )
}

/// Hours from the first coat of a board to the last.
///
/// The last coat's own drying is not in it: how long that takes to get hard, [`hard_after`] says.
pub fn finish_hours(board: &Board) -> f64 {
    let coats = board.finish.iter().rev().skip(1);
    coats.map(|coat| coat.dries).sum()
}

/// The time in which a coat gets hard, in words.
pub const fn hard_after(kind: CoatKind) -> &'static str {
    match kind {
        CoatKind::Oil => "weeks, by the product",
        CoatKind::Shellac | CoatKind::DewaxedShellac => "about 2 h",
        CoatKind::Lacquer => "about a week",
        CoatKind::OilPolyurethane => "about 30 days",
        CoatKind::WaterPolyurethane => "about 3 weeks",
        CoatKind::Wax => "as soon as it is buffed",
    }
}

/// The time in which a coat gets hard, hours, in the numbers of [`hard_after`]: where that says weeks, two.
///
/// ```
/// use board::CoatKind;
/// assert_eq!(workshop::hard_hours(CoatKind::Lacquer), 7.0 * 24.0);
/// ```
pub const fn hard_hours(kind: CoatKind) -> f64 {
    match kind {
        CoatKind::Oil => OIL_CURED,
        CoatKind::Shellac | CoatKind::DewaxedShellac => SHELLAC_HARD,
        CoatKind::Lacquer => 7.0 * 24.0,
        CoatKind::OilPolyurethane => 30.0 * 24.0,
        CoatKind::WaterPolyurethane => 21.0 * 24.0,
        CoatKind::Wax => 0.0,
    }
}

/// The board with every coat dried as long as the next one wants; coats that bond to nothing stay as they are.
pub fn dried(board: &Board) -> Board {
    let mut dried = board.clone();
    let overs = board.finish.iter().skip(1);
    for (coat, over) in dried.finish.iter_mut().zip(overs) {
        if let Bond::After(least) = bond(coat.kind, over.kind) {
            coat.dries = coat.dries.max(least);
        }
    }
    dried
}

/// Hours before a further coat of the same.
const fn dries(kind: CoatKind) -> f64 {
    match kind {
        CoatKind::Oil | CoatKind::WaterPolyurethane => 6.0,
        CoatKind::Shellac | CoatKind::DewaxedShellac | CoatKind::Lacquer => 0.5,
        CoatKind::OilPolyurethane => 24.0,
        CoatKind::Wax => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use CoatKind::{
        DewaxedShellac, Lacquer, Oil, OilPolyurethane, Shellac, WaterPolyurethane, Wax,
    };
    use board::Coat;

    fn accepts(under: CoatKind) -> Vec<CoatKind> {
        let bonds = |over: &CoatKind| matches!(bond(under, *over), Bond::After(_));
        CoatKind::ALL.into_iter().filter(bonds).collect()
    }

    /// Each accepts the finishes that a trade page names, with dewaxed shellac as a tie coat (another trade page), and
    /// each accepts itself.
    #[test]
    fn each_accepts_what_the_table_says() {
        let poly = [OilPolyurethane, WaterPolyurethane];
        let rows = [
            (Wax, vec![Wax]),
            (
                Oil,
                vec![Oil, Shellac, DewaxedShellac, poly[0], poly[1], Wax],
            ),
            (Shellac, CoatKind::ALL.to_vec()),
            (DewaxedShellac, CoatKind::ALL.to_vec()),
            (
                Lacquer,
                vec![DewaxedShellac, Lacquer, poly[0], poly[1], Wax],
            ),
            (poly[0], vec![Oil, DewaxedShellac, poly[0], Wax]),
            (poly[1], vec![Oil, DewaxedShellac, poly[1], Wax]),
        ];
        for (under, wanted) in rows {
            assert_eq!(accepts(under), wanted, "{under:?}");
        }
    }

    #[test]
    fn oil_polyurethane_goes_over_fresh_oil_and_water_based_waits_for_weeks() {
        assert_eq!(bond(Oil, OilPolyurethane), Bond::After(6.0));
        assert_eq!(bond(Oil, WaterPolyurethane), Bond::After(336.0));
        assert_eq!(bond(Oil, DewaxedShellac), Bond::After(6.0));
        assert_eq!(bond(DewaxedShellac, WaterPolyurethane), Bond::After(2.0));
    }

    #[test]
    fn what_is_dried_is_dry_enough_and_never_dries_shorter() {
        let coat = |kind, dries| Coat { kind, dries };
        let board = Board {
            finish: vec![
                coat(OilPolyurethane, 3.0),
                coat(OilPolyurethane, 48.0),
                coat(Wax, 0.0),
            ],
            ..Board::default()
        };
        let after = dried(&board);
        let hours: Vec<f64> = after.finish.iter().map(|coat| coat.dries).collect();
        assert_eq!(hours, [24.0, 48.0, 0.0]);
        assert!((finish_hours(&after) - 72.0).abs() < 1e-12);
        assert!(finish_hours(&Board::default()).abs() < 1e-12);
    }
}
