//! Rule: every player can tell the players apart by color and by mark.

use board::{Mark, Measure, Quantity, Rgb, show_number};

use super::listed;
use crate::check::{Finding, Rule, Severity};
use crate::colors::sight::{ALIKE, Seen, Sight, color_name};
use crate::colors::used::pocket_names;
use crate::{Mend, PlayerLook, Workpiece};

/// The rule in words, as the list of rules shows it.
pub const STATEMENT: &str = "The colors of any two players have a CIEDE2000 distance of 9 or more, for normal color vision and \
     the three kinds of color blindness, by published simulations (the limit is our own; 2.3 is what one just notices side by \
     side, from memory). Every player has a mark of its own as well.";

/// Findings for colors that look alike, marks that are the same, and more players than the set has colors.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let mut findings: Vec<Finding> = alike(workpiece).into_iter().collect();
    findings.extend(same_marks(workpiece));
    findings.extend(repeated(workpiece));
    findings
}

/// Two players whose colors look alike, with the kind of sight to which they look most alike.
pub struct Alike<'a> {
    /// The two players.
    pub pair: [&'a PlayerLook; 2],
    /// The kind of sight to which they are closest.
    pub sight: Sight,
    /// Their distance for that sight, in CIEDE2000.
    pub distance: f64,
}

/// Every two players whose colors look alike to some kind of sight, except those to which the set gives the same color.
pub fn alike_pairs(players: &[PlayerLook]) -> Vec<Alike<'_>> {
    let seen: Vec<Seen> = players.iter().map(|look| Seen::of(look.color)).collect();
    let mut found = Vec::new();
    for (at, one) in players.iter().enumerate() {
        for (beside, other) in players.iter().enumerate().skip(at + 1) {
            if one.is_of_set && other.is_of_set {
                continue;
            }
            let distances =
                Sight::ALL.map(|sight| (sight, seen[at].distance(&seen[beside], sight)));
            // Colors that look alike to normal sight are reported only for that.
            let usual = distances.first().filter(|(_, usual)| *usual < ALIKE);
            let worst = usual.or_else(|| distances.iter().min_by(|a, b| a.1.total_cmp(&b.1)));
            if let Some((sight, distance)) = worst.filter(|(_, distance)| *distance < ALIKE) {
                found.push(Alike {
                    pair: [one, other],
                    sight: *sight,
                    distance: *distance,
                });
            }
        }
    }
    found
}

/// One finding for all colors that look alike to some kind of sight.
fn alike(workpiece: &Workpiece) -> Option<Finding> {
    let pairs = alike_pairs(workpiece.players());
    let worst = pairs
        .iter()
        .min_by(|a, b| a.distance.total_cmp(&b.distance))?;
    let words = |pair: &Alike<'_>| {
        let [one, other] = pair.pair;
        let [a, b] = [one.color, other.color].map(color_name);
        let (first, second) = (one.player, other.player);
        let eyes = pair.sight.label();
        format!("{first} and {second} ({a}, {b}) to {eyes}")
    };
    // Rounded down, so that the number shown never reaches the limit that the color misses.
    let distance = |value: f64| Measure::new(Quantity::Number, (value * 10.0).floor() / 10.0);
    let [is, least] = [worst.distance, ALIKE].map(|value| show_number(distance(value).value, 1));
    let message = format!(
        "players' colors are too alike: {}; the least color distance is {is} and should be {least} or more, so change one color of \
         each pair",
        listed(pairs.iter().map(words).collect())
    );
    let holes = pairs.iter().flat_map(|pair| pair.pair);
    let holes = holes.flat_map(|look| pocket_names(workpiece, look.player));
    Some(
        Finding::new(Severity::Caution, Rule::PlayerColors, message)
            .measuring(distance(worst.distance), distance(ALIKE))
            .about(holes.collect())
            .mended_by(&[Mend::DistinctColors]),
    )
}

/// Players with the same mark, or with none.
fn same_marks(workpiece: &Workpiece) -> Option<Finding> {
    let players = workpiece.players();
    let blank = |mark: &Mark| matches!(mark, Mark::Letters { text } if text.trim().is_empty());
    let is_clear = |look: &&PlayerLook| {
        let same = players.iter().filter(|other| other.mark == look.mark);
        same.count() == 1 && !blank(&look.mark)
    };
    let unclear: Vec<&PlayerLook> = players.iter().filter(|look| !is_clear(look)).collect();
    if unclear.is_empty() {
        return None;
    }
    let who = listed(unclear.iter().map(|look| look.player.to_string()).collect());
    let message = format!(
        "players without a mark of their own: {who}; anyone who does not see these colors cannot tell them apart, so give each a mark"
    );
    let holes = unclear
        .iter()
        .flat_map(|look| pocket_names(workpiece, look.player));
    Some(
        Finding::new(Severity::Caution, Rule::PlayerColors, message)
            .about(holes.collect())
            .mended_by(&[Mend::MarksOfSet]),
    )
}

/// More players than the set has colors. It is a note, as marks distinguish the players.
fn repeated(workpiece: &Workpiece) -> Option<Finding> {
    let players = workpiece.players();
    let mut colors: Vec<Rgb> = players.iter().map(|look| look.color).collect();
    colors.sort_unstable();
    colors.dedup();
    let of_set = players.iter().filter(|look| look.is_of_set).count();
    if colors.len() == players.len() || of_set < 2 {
        return None;
    }
    let (count, shared) = (players.len(), colors.len());
    let message = format!(
        "{count} players share {shared} colors, the most that every kind of color vision can tell apart; put the marks on the \
         board and on the pieces"
    );
    Some(Finding::new(Severity::Note, Rule::PlayerColors, message))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, PlayerColor};

    fn of(board: &Board) -> Vec<Finding> {
        check(&Workpiece::of(board).unwrap())
    }

    fn colored(colors: &[&str]) -> Board {
        let mut board = Board::default();
        let listed = colors.iter().map(|color| PlayerColor {
            color: color.parse().ok(),
            mark: Mark::Auto,
        });
        board.colors.players = listed.collect();
        board
    }

    #[test]
    fn the_set_distinguishes_eight_players_and_repeats_for_more() {
        for players in 1..=24 {
            let mut board = Board {
                home: 0,
                players,
                ..Board::default()
            };
            board.blank.diameter = 3000.0;
            let found = of(&board);
            assert_eq!(found.len(), usize::from(players > 8), "{found:?}");
            assert!(found.iter().all(|one| one.severity == Severity::Note));
        }
    }

    #[test]
    fn colors_alike_to_some_kind_of_sight_are_reported_with_it() {
        let found = of(&colored(&["#9e5b25", "#6f7225"]));
        assert_eq!(found[0].severity, Severity::Caution);
        let said = "1 and 2 (brown, olive) to green-blind eyes (deutan)";
        assert!(found[0].message.contains(said), "{}", found[0].message);
        assert!(found[0].holes.len() >= 8);
        let same = of(&colored(&["red", "red"]));
        assert!(
            same[0].message.contains("(red, red) to any eye"),
            "{same:?}"
        );
    }

    #[test]
    fn each_player_needs_a_mark_of_its_own() {
        let mut board = colored(&["auto", "auto", "auto"]);
        board.colors.players[2].mark = Mark::Letters { text: " ".into() };
        board.colors.players[0].mark = Mark::Solid {
            shape: board::MarkShape::Triangle,
        };
        let found = of(&board);
        assert!(
            found[0]
                .message
                .starts_with("Players without a mark of their own: 1, 2 and 3;")
        );
    }
}
