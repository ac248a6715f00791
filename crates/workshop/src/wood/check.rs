//! Rule: the wood is known, is cut at a moisture it will have later, and stays within the handbook's range of movement.

use crate::Workpiece;
use crate::check::{Finding, Rule, Severity};
use crate::wood::WoodMoves;
use board::Measure;

pub const STATEMENT: &str = "The wood has a movement per 1 % of moisture, entered or from the table of species. When \
     the board is cut, its moisture lies between those of the customer's seasons, give or take half a percent (meters \
     are no better; common practice, no source); otherwise it moves one way in every season. The movement holds from \
     6 to 14 % (Wood Handbook, FPL-GTR-190, Eq. 13-2). Real boards, rarely all flat- or quarter-sawn, tend to move \
     less across.";

/// Moistures for which the handbook's coefficients are valid, %.
const HOLDS: core::ops::RangeInclusive<f64> = 6.0..=14.0;
/// Moisture beyond the seasons at which the wood may still be cut, %.
const SLACK: f64 = 0.5;

/// Every finding about the wood.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    if workpiece.board().wood.is_none() {
        return Vec::new();
    }
    match workpiece.moves() {
        Err(error) => vec![Finding::new(
            Severity::Caution,
            Rule::Wood,
            error.to_string(),
        )],
        Ok(moves) => [cut_at(moves), beyond(moves)]
            .into_iter()
            .flatten()
            .collect(),
    }
}

/// Wood that is cut drier or damper than it will be in any season, and so moves in only one direction.
fn cut_at(moves: &WoodMoves) -> Option<Finding> {
    let shop = moves.shop.value;
    let (least, most) = (moves.dry.min(moves.humid), moves.dry.max(moves.humid));
    let (wanted, does) = if shop < least - SLACK {
        (least, "swells")
    } else if shop > most + SLACK {
        (most, "shrinks")
    } else {
        return None;
    };
    let message = format!(
        "Cut at {} moisture, the board {does} in every season: at the customer's it will be between {} and {}. Let the wood \
         rest in a room like the customer's before cutting.",
        shown(shop),
        shown(least),
        shown(most)
    );
    Some(
        Finding::new(Severity::Caution, Rule::Wood, message)
            .measuring(percent(shop), percent(wanted)),
    )
}

/// A moisture outside the 6 to 14 % for which the equation is valid: a note, as the change is only approximate there.
fn beyond(moves: &WoodMoves) -> Option<Finding> {
    let out = |moisture: &f64| (HOLDS.start() - moisture).max(moisture - HOLDS.end());
    let moistures = moves.moistures();
    let worst = moistures.iter().max_by(|a, b| out(a).total_cmp(&out(b)))?;
    (out(worst) > 0.0).then(|| {
        let message = format!(
            "At {} moisture the movement of the wood is a rough figure; it is known from 6 to 14 %. Check the moisture \
             again before you rely on it.",
            shown(*worst)
        );
        let nearest = worst.clamp(*HOLDS.start(), *HOLDS.end());
        Finding::new(Severity::Note, Rule::Wood, message).measuring(percent(*worst), percent(nearest))
    })
}

/// A moisture as a measure.
const fn percent(moisture: f64) -> Measure {
    Measure::share(moisture / 100.0)
}

/// A moisture as text, to a tenth.
fn shown(moisture: f64) -> String {
    percent(moisture).shown(board::Units::Mm)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::{Air, Wood};

    fn found(wood: Wood) -> Vec<Finding> {
        check(
            &Workpiece::of(&Board {
                wood: Some(wood),
                ..Board::default()
            })
            .unwrap(),
        )
    }

    #[test]
    fn usual_rooms_and_unchosen_wood_give_no_finding() {
        assert_eq!(found(Wood::default()), []);
        assert_eq!(check(&Workpiece::of(&Board::default()).unwrap()), []);
    }

    #[test]
    fn wood_too_damp_or_too_dry_for_its_rooms_is_reported() {
        let cut_at = |moisture| {
            found(Wood {
                moisture: Some(moisture),
                ..Wood::default()
            })
        };
        // The customer's rooms give 6.2 to 11.9 %.
        assert_eq!(cut_at(12.2), []);
        let damp = cut_at(12.6);
        assert!(
            damp[0].message.contains("shrinks in every season"),
            "{damp:?}"
        );
        assert_eq!(damp[0].severity, Severity::Caution);
        assert_eq!(cut_at(5.7)[0].severity, Severity::Note);
        assert!(cut_at(5.0)[0].message.contains("swells in every season"));
    }

    #[test]
    fn very_damp_or_dry_rooms_and_unknown_woods_are_reported() {
        let mut wood = Wood::default();
        wood.humid = Air {
            humidity: 90.0,
            ..wood.humid
        };
        let damp = found(wood.clone());
        assert_eq!((damp.len(), damp[0].severity), (1, Severity::Note));
        wood.species = "driftwood".into();
        let unknown = found(wood);
        assert!(unknown[0].message.contains("driftwood"), "{unknown:?}");
    }
}
