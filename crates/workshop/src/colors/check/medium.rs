//! Rule: the medium of a color can be used in its place.

use board::{Board, BorePart, Coat, CoatKind, CoatPlace, Colors, HoleId, Hue, Measure, Medium};
use geometry::close_webs;

use super::listed;
use crate::check::{Finding, HAIR, Rule, Severity, counted};
use crate::colors::used::{Place, Used, used};
use crate::{GrooveKind, Mend, Workpiece};

/// The rule in words, as the list of rules shows it.
pub const STATEMENT: &str = "Resin is where holes are filled with it, or where a groove holds it; an inlay lies in a flat or a groove; \
     a wall under resin is not painted. Common practice, no source.";

/// Findings for colors in places that do not exist, coats under paint that are not planned, and rings that meet.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let all = used(workpiece);
    let mut findings: Vec<Finding> = misplaced(workpiece.board(), &all).into_iter().collect();
    findings.extend(nothing_there(workpiece));
    findings.extend(missing_coats(workpiece.board(), &all));
    findings.extend(paint_under_dye(workpiece.board(), &all));
    findings.extend(wide_rings(workpiece, &all));
    findings
}

/// The reason why a medium cannot be used at a place of a board; `None` if it can.
pub fn fault(board: &Board, place: Place, medium: Medium) -> Option<&'static str> {
    let filled = board.filling.is_some();
    match (place, medium) {
        (Place::Bore(BorePart::Filling), _) | (Place::Groove, Medium::Resin) if !filled => {
            Some("no filling is planned")
        }
        (Place::Bore(BorePart::Filling), Medium::Resin) => None,
        (Place::Bore(BorePart::Filling), _) => Some("resin is colored by pigment in it"),
        (Place::Bore(_) | Place::Field, Medium::Resin) => Some("resin runs off there"),
        (Place::Bore(BorePart::Inside), _) if filled => Some("resin fills the hole"),
        (Place::Bore(BorePart::Inside), Medium::Inlay) => Some("an inlay cannot go inside a hole"),
        _ => None,
    }
}

/// Media that cannot be used in their place: each part once, with the reason.
fn misplaced(board: &Board, all: &[Used]) -> Option<Finding> {
    let mut wrong: Vec<(&Used, &str)> = Vec::new();
    for one in all {
        let is_new = |known: &(&Used, &str)| known.0.part != one.part;
        if let Some(fault) = fault(board, one.place, one.tint.medium)
            && wrong.iter().all(is_new)
        {
            wrong.push((one, fault));
        }
    }
    wrong.first()?;
    let words = |(one, fault): &(&Used, &str)| {
        format!("{} on {} ({fault})", one.tint.medium.label(), one.part)
    };
    let message = format!(
        "colors that cannot go where they are planned: {}",
        listed(wrong.iter().map(words).collect())
    );
    let holes = wrong.iter().flat_map(|(one, _)| one.holes.iter().copied());
    Some(
        Finding::new(Severity::Caution, Rule::ColorMedium, message)
            .about(holes.collect())
            .mended_by(&[Mend::PaintInstead]),
    )
}

/// Colors of grooves that are not routed.
fn nothing_there(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let Colors {
        grooves,
        rings,
        rim,
        ..
    } = board.colors;
    let routed = |is: fn(GrooveKind) -> bool| {
        let plan = workpiece.grooves();
        plan.is_some_and(|plan| plan.grooves.iter().any(|groove| is(groove.kind)))
    };
    let is_line = |kind| !matches!(kind, GrooveKind::Ring | GrooveKind::Rim);
    let missing = [
        (grooves, "grooves", routed(is_line)),
        (
            rings,
            "routed rings",
            routed(|kind| kind == GrooveKind::Ring),
        ),
        (
            rim,
            "the border ring",
            routed(|kind| kind == GrooveKind::Rim),
        ),
    ];
    let missing = missing
        .into_iter()
        .filter(|(part, _, there)| part.hue != Hue::Bare && !there);
    let names: Vec<String> = missing.map(|(_, name, _)| name.into()).collect();
    if names.is_empty() {
        return None;
    }
    let names = listed(names);
    let message = format!(
        "color is planned for parts that are not routed: {names}; rout them at the stage Bench or leave them bare"
    );
    Some(Finding::new(Severity::Caution, Rule::ColorMedium, message))
}

/// More coats before the paint than are planned in total.
fn missing_coats(board: &Board, all: &[Used]) -> Option<Finding> {
    let (after, planned) = (
        board.colors.after as usize,
        board.finish.iter().map(|layer| layer.coats as usize).sum(),
    );
    let is_painted = all.iter().any(|one| one.tint.medium == Medium::Paint);
    if !is_painted || after <= planned {
        return None;
    }
    let message = format!(
        "paint is planned after {}, but the finish has {}; add coats or paint sooner",
        counted(after, "coat"),
        counted(planned, "coat")
    );
    Some(Finding::new(Severity::Caution, Rule::ColorMedium, message))
}

/// Paint that goes on before a dye or stain of the finish, although both need bare wood.
fn paint_under_dye(board: &Board, all: &[Used]) -> Option<Finding> {
    let after = board.colors.after as usize;
    let is_painted = all.iter().any(|one| one.tint.medium == Medium::Paint);
    let soaks = |layer: &Coat| {
        matches!(layer.kind, CoatKind::Dye | CoatKind::Stain)
            && matches!(
                layer.place,
                CoatPlace::Whole | CoatPlace::TopAndEdge | CoatPlace::Top
            )
    };
    let last = board.finish.iter().rposition(soaks)?;
    let up_to = board.finish.get(..=last)?.iter();
    let needed: usize = up_to.map(|layer| layer.coats as usize).sum();
    if !is_painted || after >= needed {
        return None;
    }
    let kind = board.finish.get(last)?.kind.label();
    let message = format!(
        "Paint is planned before the {kind} (layer {}), which needs bare wood. Set Coats before paint to {needed}, or leave out the {kind}.",
        last + 1
    );
    Some(Finding::new(Severity::Caution, Rule::ColorMedium, message))
}

/// Colored rings that meet a neighbor's, or run over the edge.
pub fn wide_rings(workpiece: &Workpiece, all: &[Used]) -> Option<Finding> {
    let ring = workpiece.board().colors.ring;
    let ringed = all
        .iter()
        .filter(|one| one.place == Place::Bore(BorePart::Ring));
    let mut ringed: Vec<HoleId> = ringed
        .flat_map(|one| one.holes.iter().map(|name| name.id()))
        .collect();
    if ringed.is_empty() {
        return None;
    }
    ringed.sort_unstable();
    let layout = workpiece.layout();
    let is_ringed: Vec<bool> = layout
        .holes
        .iter()
        .map(|hole| ringed.binary_search(&hole.name.id()).is_ok())
        .collect();
    let flat = workpiece.board().blank.flat_radius();
    let mut room: Vec<f64> = workpiece
        .mouths()
        .iter()
        .map(|mouth| flat - mouth.center.to_vec2().hypot() - mouth.radius)
        .collect();
    for web in close_webs(workpiece.mouths(), 2.0 * ring) {
        // Where both bores have rings, the rings share the wood between them.
        let both = is_ringed[web.a] && is_ringed[web.b];
        let share = if both { web.mm / 2.0 } else { web.mm };
        for at in [web.a, web.b] {
            room[at] = room[at].min(share);
        }
    }
    let tight = layout.holes.iter().zip(&room).zip(&is_ringed);
    let tight = tight.filter(|((_, room), ringed)| **ringed && **room + HAIR < ring);
    let (about, rooms): (Vec<_>, Vec<f64>) =
        tight.map(|((hole, room), _)| (hole.name, *room)).unzip();
    let least = rooms.into_iter().fold(f64::INFINITY, f64::min);
    if about.is_empty() {
        return None;
    }
    let message = format!(
        "{} of {} run into each other, into a hole or over the roundover; make the rings narrower",
        counted(about.len(), "colored ring"),
        Measure::mm(ring).shown(workpiece.units()),
    );
    Some(
        Finding::new(Severity::Caution, Rule::ColorMedium, message)
            .measuring(Measure::mm(least.max(0.0)), Measure::mm(ring))
            .about(about)
            .mended_by(&[Mend::NarrowerColorRings]),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{BoreColor, Filling, Grooves};

    fn of(board: &Board) -> Vec<String> {
        let found = check(&Workpiece::of(board).unwrap());
        found.into_iter().map(|one| one.message).collect()
    }

    fn homes(on: BorePart, medium: Medium) -> Board {
        let mut board = Board::default();
        let hue = Hue::Player;
        board.colors.home = BoreColor { hue, on, medium };
        board
    }

    #[test]
    fn colored_resin_needs_a_filling_and_a_place_in_the_bore() {
        let mut board = homes(BorePart::Filling, Medium::Resin);
        assert_eq!(
            of(&board),
            [
                "Colors that cannot go where they are planned: colored resin on home lanes (no filling is planned)."
            ]
        );
        board.filling = Some(Filling::default());
        assert!(of(&board).is_empty());
        board.colors.home.on = BorePart::Ring;
        assert_eq!(of(&board).len(), 1);
        let painted = Mend::PaintInstead.applied(&board).unwrap();
        assert!(of(&painted).is_empty());
    }

    #[test]
    fn every_medium_works_in_a_groove_of_a_filled_board() {
        let mut board = Board {
            grooves: Some(Grooves::default()),
            filling: Some(Filling::default()),
            ..Board::default()
        };
        board.colors.grooves.hue = Hue::Player;
        for medium in Medium::ALL {
            board.colors.grooves.medium = medium;
            assert!(of(&board).is_empty(), "{medium:?}");
        }
        board.grooves = None;
        assert!(
            of(&board)[0].starts_with("Color is planned for parts that are not routed: grooves;")
        );
    }

    #[test]
    fn paint_needs_the_coats_under_it_to_be_planned() {
        let mut board = homes(BorePart::Ring, Medium::Paint);
        board.colors.after = 1;
        assert!(of(&board)[0].contains("after 1 coat, but the finish has 0 coats"));
        board.finish = vec![board::Coat::default()];
        assert!(of(&board).is_empty());
        board.finish.clear();
        board.colors.home.medium = Medium::Dye;
        assert!(of(&board).is_empty());
    }

    #[test]
    fn paint_goes_on_after_dye_and_stain() {
        let mut board = homes(BorePart::Ring, Medium::Paint);
        board.finish = vec![
            Coat::of(CoatKind::Stain, 24.0),
            Coat::of(CoatKind::Lacquer, 1.0),
        ];
        assert!(
            of(&board)[0].contains("Set Coats before paint to 1"),
            "{:?}",
            of(&board)
        );
        board.colors.after = 1;
        assert!(of(&board).is_empty());
        board.colors.after = 0;
        board.finish.remove(0);
        assert!(of(&board).is_empty());
    }

    #[test]
    fn a_wall_under_resin_is_not_painted() {
        let mut board = homes(BorePart::Inside, Medium::Paint);
        assert!(of(&board).is_empty());
        board.filling = Some(board::Filling::default());
        assert!(of(&board)[0].contains("resin fills the hole"));
    }

    #[test]
    fn rings_that_meet_are_made_narrower() {
        let mut board = homes(BorePart::Ring, Medium::Paint);
        board.colors.ring = 3.6;
        assert!(
            of(&board)[0].starts_with("30 colored rings of 3.6 mm run into"),
            "{:?}",
            of(&board)
        );
        let narrow = Mend::NarrowerColorRings.applied(&board).unwrap();
        assert!(of(&narrow).is_empty(), "{}", narrow.colors.ring);
    }
}
