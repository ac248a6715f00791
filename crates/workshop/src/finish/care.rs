//! The care of a finished board, in sentences for the customer.
//!
//! Care follows from the coat that lies on top; colors are not counted, since a film or an oil goes over them. Common
//! practice, no source; the label of the finish counts for more.

use board::{Board, CoatKind};

/// The sentences about cleaning, renewing the finish, air and light, in the order in which a customer reads them.
///
/// ```
/// use board::{Board, Coat, CoatKind};
/// use workshop::care_words;
/// let board = Board { finish: vec![Coat::of(CoatKind::Oil, 24.0)], ..Board::default() };
/// assert!(care_words(&board).iter().any(|words| words.contains("penetrating oil")));
/// ```
pub fn care_words(board: &Board) -> Vec<String> {
    let mut words = vec![
        "Wipe with a soft cloth, dry or barely damp. No water, no cleaner, no dishwasher."
            .to_owned(),
    ];
    words.extend(renewed(board));
    words.push(air(board));
    words.push("Keep it out of the sun, which bleaches wood and colors, and off radiators, stoves and vents.".into());
    words
}

/// The finish that lies on top, by which a customer knows the board; none where only coats of color are planned.
///
/// ```
/// use board::{Board, Coat, CoatKind};
/// use workshop::topcoat;
/// let finish = [CoatKind::DewaxedShellac, CoatKind::OilPolyurethane, CoatKind::PaintPen];
/// let finish = finish.map(|kind| Coat::of(kind, 24.0)).to_vec();
/// let board = Board { finish, ..Board::default() };
/// assert_eq!(topcoat(&board), Some(CoatKind::OilPolyurethane));
/// ```
pub fn topcoat(board: &Board) -> Option<CoatKind> {
    use CoatKind as Kind;
    let is_color = |kind: &Kind| {
        matches!(
            kind,
            Kind::Dye | Kind::Stain | Kind::PaintPen | Kind::Enamel | Kind::Acrylic
        )
    };
    let kinds = board.finish.iter().map(|coat| coat.kind);
    kinds.rev().find(|kind| !is_color(kind))
}

/// The renewal of the finish; nothing where none is planned.
///
/// An oil can be renewed by its owner, a film only by a finisher; the top coat decides.
fn renewed(board: &Board) -> Option<String> {
    use CoatKind as Kind;
    let top = topcoat(board)?;
    let name = top.label();
    Some(match top {
        Kind::Oil | Kind::OilVarnish | Kind::OilWax => format!(
            "Finished with {name}. Where the wood looks dry, rub in a little of it and wipe off all that stands. Spread the \
             rag flat outdoors to dry: crumpled up it can catch fire by itself."
        ),
        Kind::Wax => {
            "Finished with wax. Once a year rub on a thin coat of paste wax and buff it.".into()
        }
        Kind::Shellac | Kind::DewaxedShellac => format!(
            "Finished with {name}. Alcohol and hot cups mark it; a little paste wax brings the shine back."
        ),
        _ => format!(
            "Finished with {name}: it needs no oil. No solvents and no silicone polish on it."
        ),
    })
}

/// The humidity that the board was made for: that of the rooms entered for the wood.
///
/// Without a wood part no range is worked out, and none is given.
fn air(board: &Board) -> String {
    let keeps = "Wood swells and shrinks with the humidity, so keep it in a room that is lived in, not in a garage or a basement.";
    match &board.wood {
        Some(wood) => {
            let (dry, humid) = (wood.dry.humidity, wood.humid.humidity);
            let (least, most) = (dry.min(humid), dry.max(humid));
            format!("Made for rooms of {least:.0} to {most:.0} % humidity. {keeps}")
        }
        None => keeps.into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Coat, Wood};

    fn said(kinds: &[CoatKind]) -> String {
        let finish = kinds.iter().map(|kind| Coat::of(*kind, 24.0)).collect();
        let board = Board {
            finish,
            ..Board::default()
        };
        care_words(&board).join(" ")
    }

    #[test]
    fn the_coat_on_top_says_how_it_is_renewed() {
        assert!(!said(&[]).contains("Finished with"));
        assert!(said(&[CoatKind::OilPolyurethane, CoatKind::Wax]).contains("paste wax"));
        assert!(said(&[CoatKind::Oil]).contains("catch fire"));
        // A paint pen under nothing else is a color, and no finish of the board.
        assert!(
            said(&[CoatKind::Lacquer, CoatKind::PaintPen]).contains("lacquer: it needs no oil")
        );
        assert!(!said(&[CoatKind::Acrylic]).contains("Finished with"));
    }

    #[test]
    fn the_air_is_that_of_the_wood_part() {
        let board = Board {
            wood: Some(Wood::default()),
            ..Board::default()
        };
        let words = care_words(&board).join(" ");
        assert!(words.contains("30 to 65 % humidity"), "{words}");
        assert!(!said(&[]).contains('%'));
    }
}
