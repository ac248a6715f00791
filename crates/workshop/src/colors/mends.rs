//! Fixes of colors.

use board::{Board, BuildError, Hue, Mark, Medium, NAMED, Rgb, SET};

use super::Tint;
use super::check::medium::fault;
use super::check::players::alike_pairs;
use super::player::player_look;
use super::seen::seen_on;
use super::sight::{ALIKE, Seen, Sight, color_distance, distance_to};
use super::used::{Place, used};
use crate::{Mend, MendError, Workpiece, tone_of};

/// The tooltip of a fix about colors.
pub const fn tooltip(mend: Mend) -> &'static str {
    match mend {
        Mend::DistinctColors => {
            "The next color that every eye tells from the others, for one of each two that are alike"
        }
        Mend::MarksOfSet => "A mark of its own for each player",
        Mend::OutlineMarks => "A line around each mark, dark on light wood and light on dark",
        Mend::ColorsOffWood => {
            "Paint in place of dye or stain, and black or white where that is not enough"
        }
        Mend::PaintInstead => "Paint where another medium cannot be",
        Mend::NarrowerColorRings => "As wide as there is room between the holes",
        _ => "",
    }
}

/// Applies a fix about colors; any other fix changes nothing.
///
/// # Errors
/// [`MendError`] where no color is left, or the board cannot be laid out.
pub fn mend_colors(mend: Mend, board: &mut Board) -> Result<(), MendError> {
    let nothing = MendError::Nothing(
        "no named color differs from all the others for every kind of color vision",
    );
    match mend {
        Mend::DistinctColors => distinct_colors(board).then_some(()).ok_or(nothing)?,
        Mend::MarksOfSet => marks_of_set(board),
        Mend::OutlineMarks => {
            if let Some(marks) = &mut board.colors.marks {
                marks.outline = true;
            }
        }
        Mend::ColorsOffWood => colors_off_wood(board),
        Mend::PaintInstead => paint_instead(board),
        Mend::NarrowerColorRings => narrower_rings(board)?,
        _ => {}
    }
    Ok(())
}

/// Changes one of each two players that look alike to the next color of the set that differs from all others for every kind of
/// sight; returns whether there was one.
fn distinct_colors(board: &mut Board) -> bool {
    // Each pass changes one player, and none is changed twice.
    for _ in 0..board.players {
        let players: Vec<_> = (1..=board.players)
            .map(|player| player_look(board, player))
            .collect();
        let pairs = alike_pairs(&players);
        let Some(pair) = pairs.first() else {
            return true;
        };
        // A color chosen by hand is changed rather than one of the set; of two chosen by hand, the later player's.
        let [one, other] = pair.pair;
        let changed = if other.is_of_set {
            one.player
        } else {
            other.player
        };
        let rest = players.iter().filter(|look| look.player != changed);
        let taken: Vec<Seen> = rest.map(|look| Seen::of(look.color)).collect();
        let is_free = |color: &Rgb| {
            let seen = Seen::of(*color);
            taken.iter().all(|other| {
                let mut sights = Sight::ALL.into_iter();
                sights.all(|sight| seen.distance(other, sight) >= ALIKE)
            })
        };
        let mut all = SET
            .into_iter()
            .chain(NAMED.into_iter().map(|(_, color)| color));
        let Some(color) = all.find(is_free) else {
            return false;
        };
        board.colors.of_player(changed).color = Some(color);
    }
    true
}

/// Gives every player the mark of the set.
fn marks_of_set(board: &mut Board) {
    for player in &mut board.colors.players {
        player.mark = Mark::Auto;
    }
}

/// Replaces media that cannot be used in their place with paint, and an unfilled colored filling with a ring around the bore.
fn paint_instead(board: &mut Board) {
    let before = board.clone();
    let colors = &mut board.colors;
    for look in colors.bores_mut() {
        let wrong = |look: &board::BoreColor| fault(&before, Place::Bore(look.on), look.medium);
        if wrong(look).is_some() {
            // A filling that exists takes pigment.
            if look.on == board::BorePart::Filling && before.filling.is_some() {
                look.medium = Medium::Resin;
            } else if look.on == board::BorePart::Filling {
                (look.on, look.medium) = (board::BorePart::Ring, Medium::Paint);
            } else {
                look.medium = Medium::Paint;
            }
        }
    }
    let lines = [
        (&mut colors.grooves, Place::Groove),
        (&mut colors.rings, Place::Groove),
        (&mut colors.rim, Place::Groove),
        (&mut colors.sectors, Place::Field),
    ];
    for (part, place) in lines {
        if fault(&before, place, part.medium).is_some() {
            part.medium = Medium::Paint;
        }
    }
}

/// Replaces dye and stain that do not show with paint, and a color that equals the wood's with black or white, whichever is
/// farther off.
///
/// Two colors are close where their CIEDE2000 distance is below the limit of the checks for any kind of sight.
fn colors_off_wood(board: &mut Board) {
    let wood = tone_of(board);
    let far = if color_distance(wood, Rgb::BLACK) > color_distance(wood, Rgb::WHITE) {
        Rgb::BLACK
    } else {
        Rgb::WHITE
    };
    let players: Vec<Rgb> = (1..=board.players)
        .map(|player| player_look(board, player).color)
        .collect();
    let is_near = |color: Rgb, medium: Medium| {
        let seen = seen_on(wood, Tint { color, medium });
        Sight::ALL
            .into_iter()
            .any(|sight| distance_to(sight, wood, seen) < ALIKE)
    };
    let clear = |hue: &mut Hue, medium: &mut Medium| {
        let colors: &[Rgb] = match hue {
            Hue::Bare => &[],
            Hue::One { color } => &[*color],
            Hue::Player => &players,
        };
        let near = |medium| colors.iter().any(|color| is_near(*color, medium));
        if near(*medium) && matches!(medium, Medium::Dye | Medium::Stain) {
            *medium = Medium::Paint;
        }
        if near(*medium) {
            *hue = Hue::One { color: far };
        }
    };
    let colors = &mut board.colors;
    for look in colors.bores_mut() {
        clear(&mut look.hue, &mut look.medium);
    }
    for part in [
        &mut colors.grooves,
        &mut colors.rings,
        &mut colors.rim,
        &mut colors.sectors,
    ] {
        clear(&mut part.hue, &mut part.medium);
    }
}

/// Makes colored rings as wide as they have room for.
///
/// # Errors
/// [`BuildError`] where the board cannot be laid out.
fn narrower_rings(board: &mut Board) -> Result<(), BuildError> {
    let workpiece = Workpiece::of(board)?;
    let all = used(&workpiece);
    let found = super::check::medium::wide_rings(&workpiece, &all);
    if let Some(room) = found.and_then(|finding| finding.measured) {
        // Slightly less, rounded to a tenth of a millimeter.
        board.colors.ring = ((room.value - 0.05) * 10.0).floor() / 10.0;
        board.colors.ring = board.colors.ring.max(0.1);
    }
    Ok(())
}
