//! The colored parts in the words of the work: what they are, how large, where, and in which colors.

use board::{BorePart, Mark, Rgb};

use super::places::{MARK_LINE, mark_places};
use super::used::{Place, Used};
use super::{color_name, mark_name};
use crate::Workpiece;

/// Every part with its colors: "rings 2 mm wide around home lanes: player 1 orange, player 2 sky blue".
pub fn in_words(workpiece: &Workpiece, with: &[&Used]) -> Vec<String> {
    let mut parts: Vec<(String, Vec<String>)> = Vec::new();
    for one in with {
        let name = place_words(workpiece, one);
        let color = color_words(workpiece, one);
        match parts.iter_mut().find(|(part, _)| *part == name) {
            Some((_, colors)) if colors.contains(&color) => {}
            Some((_, colors)) => colors.push(color),
            None => parts.push((name, vec![color])),
        }
    }
    let told = |(part, colors): (String, Vec<String>)| format!("{part}: {}", colors.join(", "));
    parts.into_iter().map(told).collect()
}

/// A part with the place of the color on it, and its size.
fn place_words(workpiece: &Workpiece, one: &Used) -> String {
    match one.place {
        Place::Bore(BorePart::Ring) => format!("{} {}", rings(workpiece), one.part),
        Place::Bore(_) => format!("wall and floor of {}", one.part),
        Place::Groove | Place::Field => one.part.into(),
        Place::Mark => marks(workpiece).unwrap_or_else(|| one.part.into()),
    }
}

/// The rings around holes, with their width.
pub fn rings(workpiece: &Workpiece) -> String {
    let wide = workpiece.length(workpiece.board().colors.ring);
    format!("rings {wide} wide around the rims of")
}

/// The players' marks with their size, their outline and their place; none where none are made.
///
/// They lie at one distance from the center on every board whose sectors are alike, and where no mark has room, no place can be
/// said.
pub fn marks(workpiece: &Workpiece) -> Option<String> {
    let made = workpiece.board().colors.marks?;
    let outline = if made.outline {
        let wide = workpiece.length(hundredths(MARK_LINE * made.size / 2.0));
        format!(", with a line {wide} wide around each, dark or on dark wood light")
    } else {
        String::new()
    };
    let places = mark_places(workpiece, made.size);
    let mut away = places.iter().flatten().map(|place| place.to_vec2().hypot());
    let place = match away.next() {
        None => String::new(),
        Some(first) if away.all(|next| (next - first).abs() < SAME) => format!(
            ", each beside its start pocket as on the proof, its middle {} from the center",
            workpiece.length(hundredths(first))
        ),
        Some(_) => ", each beside its start pocket as on the proof".into(),
    };
    Some(format!(
        "marks {} across{outline}{place}",
        workpiece.length(made.size)
    ))
}

/// Distances from the center closer than this are one, mm: nobody paints nearer.
const SAME: f64 = 0.1;

/// Rounded to 0.01 mm.
fn hundredths(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}

/// A color in words, with the player it belongs to and that player's mark.
fn color_words(workpiece: &Workpiece, one: &Used) -> String {
    let color = named(one.tint.color);
    let mark = workpiece
        .players()
        .iter()
        .find(|look| one.place == Place::Mark && look.player == one.player)
        .map(|look| &look.mark);
    match (one.player, mark) {
        (0, _) => color,
        (player, Some(Mark::Letters { text })) => format!("player {player} {color} {text}"),
        (player, Some(mark)) => format!("player {player} {color} {}", mark_name(mark)),
        (player, None) => format!("player {player} {color}"),
    }
}

/// The name of a color.
fn named(color: Rgb) -> String {
    color_name(color).into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colors::used::used;
    use board::{Board, Hue, MarksMade};

    fn told(board: &Board) -> String {
        let workpiece = Workpiece::of(board).unwrap();
        let all = used(&workpiece);
        in_words(&workpiece, &all.iter().collect::<Vec<_>>()).join(". ")
    }

    /// A line of 0.16 of the radius around a mark of 12 mm: 0.96 mm.
    #[test]
    fn marks_have_their_size_their_line_and_their_place() {
        let mut board = Board::default();
        board.colors.marks = Some(MarksMade {
            size: 12.0,
            outline: true,
            ..MarksMade::default()
        });
        let said = told(&board);
        for part in [
            "marks 12 mm across, with a line 0.96 mm wide around each",
            "beside its start pocket as on the proof, its middle ",
            ": player 1 orange dot, player 2 sky blue triangle",
        ] {
            assert!(said.contains(part), "{part} in {said}");
        }
        if let Some(made) = &mut board.colors.marks {
            made.outline = false;
        }
        assert!(!told(&board).contains("line"));
        board.start = 0;
        assert!(told(&board).starts_with("marks 12 mm across: player 1"));
    }

    #[test]
    fn rings_have_their_width() {
        let mut board = Board::default();
        board.colors.home.hue = Hue::Player;
        board.colors.ring = 3.0;
        let said = told(&board);
        assert!(
            said.starts_with("rings 3 mm wide around the rims of home lanes: player 1 orange"),
            "{said}"
        );
    }
}
