//! Words of the trade and of this program, explained in a sentence or two, and the captions that they explain.

/// A word and its meaning, in the order of the alphabet.
pub const WORDS: &[(&str, &str)] = &[
    (
        "Bearing",
        "A direction from the center pin in degrees, clockwise from 12 o'clock. On a router bit it is the ring that runs along a guide.",
    ),
    ("Blank", "The piece of wood that the board is cut from."),
    (
        "Bookmatch",
        "Two leaves sawn from one board and opened like a book, so that the grain of one mirrors the other.",
    ),
    (
        "Bore",
        "The size of a drilled hole: its diameter, its depth, and the shape of its bottom.",
    ),
    (
        "Center pin",
        "The pin at the middle of the board. Jigs turn on it, and every distance is measured from it.",
    ),
    (
        "Floor",
        "The wood left under a hole that does not go through.",
    ),
    (
        "Forstner bit",
        "A bit that cuts a flat-bottomed hole, guided by its rim. Its spur reaches a little deeper than its floor.",
    ),
    (
        "Guide bushing",
        "A collar in the router's base that rides the edge of a template. Template holes are larger than those of the board, by bushing minus bit.",
    ),
    (
        "Hole spacing (pitch)",
        "The straight distance from the center of one hole of the track to the center of the next.",
    ),
    (
        "Home lane",
        "The holes of one player that lead from the track toward the center.",
    ),
    (
        "Index plate",
        "A disc with evenly spaced holes that a pin locks, to turn the board by the same angle each time.",
    ),
    (
        "Joint",
        "A paper joint is where two sheets are taped; a seam is where two boards are glued.",
    ),
    (
        "Jointer",
        "A machine, or a long plane, that makes an edge straight and square.",
    ),
    ("Kerf", "The width of wood a saw cut removes."),
    (
        "Loose tenon",
        "A separate tongue of wood, glued into a mortise on either side of a seam.",
    ),
    ("Mortise", "A slot that a tenon is glued into."),
    (
        "Pilot",
        "A smaller hole at the center of a playing hole, for the pin of the jig.",
    ),
    (
        "Pocket",
        "The start pocket of a player: the holes in which pieces wait.",
    ),
    (
        "Pot life",
        "The time in which mixed resin can still be poured.",
    ),
    (
        "Resaw",
        "To saw a board into thinner ones through its thickness.",
    ),
    (
        "Rim margin",
        "The wood between a hole and the edge, after the edge is rounded over.",
    ),
    ("Roundover", "The rounding routed along the top edge."),
    (
        "Sector",
        "One player's share of the circle. Every sector is the first one, turned.",
    ),
    (
        "Sheet",
        "One printed page of the template: 1A is the upper left one, 1B the one beside it.",
    ),
    (
        "Spoilboard",
        "Scrap under the work that the bit may run into.",
    ),
    (
        "Start pocket",
        "The holes in which a player's pieces wait before they come into play.",
    ),
    (
        "Tolerance budget",
        "What printing, taping, punching and drilling each may be off, and what that adds up to.",
    ),
    ("Track", "The loop of holes that all players share."),
    (
        "Turn-in space",
        "The space where a player's pieces leave the track for the home lane.",
    ),
    (
        "V-groove",
        "A groove cut by a bit with a point: the deeper it goes, the wider the groove.",
    ),
    (
        "Wood between holes (web)",
        "The wood left between the walls of two holes, at the face or below it.",
    ),
];

/// Captions of fields and sizes with the word that explains them.
const CAPTIONS: &[(&str, &str)] = &[
    ("Hole spacing", "Hole spacing (pitch)"),
    ("Home holes", "Home lane"),
    ("Start holes", "Start pocket"),
    ("Start pocket", "Start pocket"),
    ("Pocket angle", "Bearing"),
    ("Roundover", "Roundover"),
    ("Rim margin", "Rim margin"),
    ("Least wood between holes", "Wood between holes (web)"),
    ("Nearest to a joint", "Joint"),
    ("Sheets", "Sheet"),
    ("Blank outline", "Blank"),
    ("Made of", "Bookmatch"),
    ("Removed by the jointer", "Jointer"),
    ("Saw kerf", "Kerf"),
    ("Kerf", "Kerf"),
    ("Overlap", "Sheet"),
    ("Guide bushing", "Guide bushing"),
    ("Index plates", "Index plate"),
    ("Bore bottom", "Bore"),
    ("Bore depth", "Floor"),
    ("Forstner spur", "Forstner bit"),
    ("Pilot diameter", "Pilot"),
    ("Into spoilboard", "Spoilboard"),
    ("Pot life", "Pot life"),
    ("Groove width", "V-groove"),
];

/// The word that explains a caption, by its place in the list.
pub fn term_of(caption: &str) -> Option<usize> {
    let (_, word) = CAPTIONS.iter().find(|(known, _)| *known == caption)?;
    WORDS.iter().position(|(known, _)| known == word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stand_in_the_order_of_the_alphabet_and_are_explained() {
        for pair in WORDS.windows(2) {
            assert!(
                pair[0].0.to_lowercase() < pair[1].0.to_lowercase(),
                "{}",
                pair[1].0
            );
        }
        for (word, meaning) in WORDS {
            assert!(meaning.ends_with('.') && meaning.len() > 20, "{word}");
        }
    }

    #[test]
    fn captions_that_are_explained_are_there_and_so_are_their_words() {
        let others = [
            "Bore bottom",
            "Bore depth",
            "Least wood between holes",
            "Rim margin",
            "Nearest to a joint",
            "Sheets",
        ];
        let labels: Vec<String> = board::field::all_fields()
            .map(|field| field.label(0))
            .collect();
        let unknown: Vec<_> = CAPTIONS
            .iter()
            .filter(|(caption, _)| {
                let is_field = labels.iter().any(|label| label == caption);
                !is_field && !others.contains(caption)
            })
            .collect();
        assert!(unknown.is_empty(), "{unknown:?}");
        for (caption, word) in CAPTIONS {
            let at = term_of(caption).unwrap_or_else(|| panic!("{word} is not explained"));
            assert_eq!(WORDS[at].0, *word);
        }
    }
}
