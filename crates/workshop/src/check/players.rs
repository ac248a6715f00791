//! Rule: small pieces and magnets do not endanger the players.

use board::{Board, PieceKind, show_length};

use super::{Finding, Rule, Severity};
use crate::Workpiece;

pub const STATEMENT: &str = "Small parts, small balls and loose magnets are a hazard to children. The rules are 16 CFR \
     1501.4 (small parts), 16 CFR 1500.19 (small balls) and 16 CFR 1262 (magnets) in the United States; EN 71-1 has \
     similar rules in Europe. The small-parts cylinder is that of Canada SOR/2011-17, Schedule 1; that the US one is \
     the same, and the ages on labels, are from memory. This is a caution, not legal advice or a certificate: local \
     law and a qualified test laboratory come first, above all where boards are sold.";

/// Diameter of the widest ball that is a small part, mm: the bore of the test cylinder (31.7 mm in Canada SOR/2011-17, Schedule
/// 1; 1.25 in in 16 CFR 1501.4, from memory).
const SMALL_PART: f64 = 31.7;
/// Greatest depth of that cylinder, mm: it is 25.4 to 57.1 mm deep, with a floor at 45° (same schedule).
const CYLINDER: f64 = 57.1;
/// Diameter of the widest small ball, mm: it falls through the 1.75 in (44.4 mm) gauge of 16 CFR 1500.19(a)(2).
const SMALL_BALL: f64 = 44.4;
/// Age under which small parts and small balls are banned, years; 16 CFR 1501, from memory.
const BANNED_UNDER: u32 = 3;
/// Age under which a label must warn of them, years; from memory.
const LABELED_UNDER: u32 = 8;

/// Sentences for the customer about age and small parts: a summary, in our own words, of the rules that the statement names,
/// and not a certificate.
///
/// ```
/// use board::{Board, Units};
/// use workshop::age_words;
/// let words = age_words(&Board::default()).join(" ");
/// assert!(words.contains("For ages 8 and up"));
/// assert!(words.contains("Toy contains a marble") && words.contains("no certificate"));
/// ```
pub fn age_words(board: &Board) -> Vec<String> {
    let piece = board.piece;
    let mut words = vec![format!("For ages {} and up.", piece.youngest)];
    if let Some(what) = size_of(board) {
        // The signal words, and the words about a marble, are those of 16 CFR 1500.19, from memory.
        words.push(format!(
            "WARNING: CHOKING HAZARD – {}. Not for children under {BANNED_UNDER} yrs. Count the pieces after play.",
            match piece.kind {
                PieceKind::Marble => "Toy contains a marble".to_owned(),
                PieceKind::Peg | PieceKind::Magnet => format!("Each {} is {what}", one(piece.kind)),
            }
        ));
    }
    if piece.kind == PieceKind::Magnet {
        words.push(
            "Magnets inside. If two are swallowed they pull together through the gut and can kill. Keep the pieces away from \
             young children. Throw away, out of a child's reach, any piece whose magnet is loose. If a magnet may have been \
             swallowed, go to an emergency room at once; do not wait for symptoms."
                .into(),
        );
    }
    if words.len() > 1 {
        words.push(
            "These words sum up rules for toys (16 CFR 1501, 1500.19 and 1262 in the US, EN 71-1 in Europe). They are no \
             certificate that the board meets them."
                .into(),
        );
    }
    words
}

/// The hazard that the size of a piece is for small children, in words; `None` for a large piece.
///
/// A ball is a small part if it fits the test cylinder. The bore of the cylinder limits it, not the sloped floor, so that only
/// the diameter of the ball matters.
fn size_of(board: &Board) -> Option<&'static str> {
    let piece = board.piece;
    match piece.kind {
        PieceKind::Marble if piece.diameter <= SMALL_PART => Some("a small part and a small ball"),
        PieceKind::Marble if piece.diameter <= SMALL_BALL => Some("a small ball"),
        PieceKind::Peg | PieceKind::Magnet if is_small(piece.diameter, piece.height) => {
            Some("a small part")
        }
        _ => None,
    }
}

/// The word for one piece.
const fn one(kind: PieceKind) -> &'static str {
    match kind {
        PieceKind::Marble => "marble",
        PieceKind::Peg => "peg",
        PieceKind::Magnet => "magnet piece",
    }
}

/// Every finding about the players.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    small(board).into_iter().chain(magnet(board)).collect()
}

/// A small piece that a child can choke on, by the sizes of the quoted rules. It is a caution at any age, since small children
/// may live in the house.
fn small(board: &Board) -> Option<Finding> {
    let piece = board.piece;
    let diameter = show_length(piece.diameter, board.units);
    let what = size_of(board)?;
    let severity = match piece.youngest {
        age if age < BANNED_UNDER => Severity::Stop,
        _ => Severity::Caution,
    };
    let advice = match piece.youngest {
        age if age < BANNED_UNDER => {
            "Products for children under 3 must not have such parts: use larger pieces, or raise the youngest age"
        }
        age if age < LABELED_UNDER => {
            "Label the board as a choking hazard, and keep it away from children under 3"
        }
        _ => "Keep it away from children under 3",
    };
    let one = one(piece.kind);
    let message = format!("A {one} of {diameter} is {what}. {advice}.");
    Some(Finding::new(severity, Rule::Players, message))
}

/// Whether a piece may fit inside the test cylinder. An upright piece goes in as far as the sloped floor allows, and a leaning
/// one may go deeper, so every piece no longer than the greatest depth counts.
fn is_small(diameter: f64, height: f64) -> bool {
    diameter <= SMALL_PART && height <= CYLINDER
}

/// Magnets that may come loose: if swallowed, they attract each other through the gut.
///
/// Common neodymium magnets fail the test by calculation: a disc of 5 mm would have to be under 1.6 kG, and they read 2 to 4 kG
/// at a pole (from memory).
fn magnet(board: &Board) -> Option<Finding> {
    let piece = board.piece;
    (piece.kind == PieceKind::Magnet && is_small(piece.diameter, piece.height)).then(|| {
        let severity = if piece.youngest < LABELED_UNDER {
            Severity::Stop
        } else {
            Severity::Caution
        };
        let message = "A magnet piece this small can be swallowed, and two swallowed magnets can kill. If a magnet can \
             come loose, its flux index must be under 50 kG²·mm² (16 CFR 1262.3); common neodymium magnets are above \
             that. Have it tested, or use marbles or pegs."
            .into();
        Finding::new(severity, Rule::Players, message)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(kind: PieceKind, diameter: f64, youngest: u32) -> Vec<Severity> {
        let mut board = Board::default();
        board.piece.kind = kind;
        board.piece.diameter = diameter;
        board.piece.youngest = youngest;
        check(&Workpiece::of(&board).unwrap())
            .iter()
            .map(|found| found.severity)
            .collect()
    }

    /// A ball is a small part up to 31.7 mm (16 CFR 1501.4; cylinder as in Canada SOR/2011-17, Schedule 1), a small
    /// ball up to 44.4 mm (16 CFR 1500.19).
    #[test]
    fn balls_are_judged_by_the_published_gauges() {
        use PieceKind::Marble;
        let mut board = Board::default();
        for (diameter, words) in [
            (16.0, Some("a small part and a small ball")),
            (31.7, Some("a small part and a small ball")),
            (32.0, Some("is a small ball")),
            (44.0, Some("is a small ball")),
            (45.0, None),
        ] {
            board.piece.kind = Marble;
            board.piece.diameter = diameter;
            let message = small(&board).map(|found| found.message);
            assert_eq!(message.is_some(), words.is_some(), "{diameter}");
            if let (Some(message), Some(words)) = (message, words) {
                assert!(message.contains(words), "{message}");
            }
        }
    }

    #[test]
    fn the_age_of_the_youngest_player_sets_the_severity() {
        use PieceKind::{Magnet, Marble, Peg};
        assert_eq!(found(Marble, 16.0, 2), [Severity::Stop]);
        assert_eq!(found(Marble, 16.0, 5), [Severity::Caution]);
        assert_eq!(found(Marble, 16.0, 8), [Severity::Caution]);
        assert_eq!(found(Peg, 12.0, 9), [Severity::Caution]);
        assert_eq!(found(Peg, 40.0, 2), []);
        assert_eq!(
            found(Magnet, 20.0, 12),
            [Severity::Caution, Severity::Caution]
        );
        assert_eq!(found(Magnet, 20.0, 6), [Severity::Caution, Severity::Stop]);
    }
}
