//! Drags that change one distance: the edge of the board, grooves, seams.

use board::{Board, Build, Field, Role, field};
use geometry::Point;
use workshop::{GrooveKind, Workpiece};

use super::{Pull, Pulled, put, shown_length, within};
use crate::touch::thing::typed_seams;
use crate::touch::{Guide, Thing, Way};

/// Drags the edge of the board.
pub fn rim(start: &Workpiece, pull: &Pull<'_>) -> Pulled {
    let by = 2.0 * (reach(pull.to) - reach(pull.from));
    let diameter = pull.length(start.board().blank.diameter + by, start.units());
    let words = "board diameter";
    kept(start.board(), &field::BOARD_DIAMETER, diameter, words)
}

/// Drags all grooves of a kind, changing their distance from holes, from the pin or from the rim.
pub fn groove(start: &Workpiece, pull: &Pull<'_>, kind: GrooveKind) -> Option<Pulled> {
    let grooves = start.board().grooves?;
    let out = reach(pull.to) - reach(pull.from);
    let by = match kind {
        GrooveKind::Rim => -out,
        GrooveKind::Middle | GrooveKind::Sector => out,
        GrooveKind::Ring => off_holes(start, pull, |role| {
            grooves.rings.is_some_and(|rings| rings.of(role))
        }),
        GrooveKind::AroundHome => off_holes(start, pull, |role| role == Role::Home),
        GrooveKind::AroundStart => off_holes(start, pull, |role| role == Role::Start),
        GrooveKind::Track | GrooveKind::Home => return None,
    };
    groove_off(start, kind, by, |mm| pull.length(mm, start.units()))
}

/// All grooves of a kind at a distance larger by this much, rounded as it is stored.
pub fn groove_off(
    start: &Workpiece,
    kind: GrooveKind,
    by: f64,
    kept_as: impl Fn(f64) -> f64,
) -> Option<Pulled> {
    let grooves = start.board().grooves?;
    let (field, now, words): (&Field, _, _) = match kind {
        GrooveKind::Rim => (
            &field::BORDER,
            grooves.rim?,
            "border ring, in from the roundover",
        ),
        GrooveKind::Middle => (
            &field::MIDDLE_RING,
            grooves.middle?,
            "middle ring, from the pin",
        ),
        GrooveKind::Sector => (
            &field::SECTOR_LINES,
            grooves.sectors_from?,
            "player lines, from the pin",
        ),
        GrooveKind::Ring => (&field::RING_GAP, grooves.rings?.gap, "ring gap"),
        GrooveKind::AroundHome => (
            &field::AROUND_HOME,
            grooves.around_home?,
            "outline of lanes, from the holes",
        ),
        GrooveKind::AroundStart => (
            &field::AROUND_START,
            grooves.around_start?,
            "outline of pockets, from the holes",
        ),
        GrooveKind::Track | GrooveKind::Home => return None,
    };
    Some(kept(start.board(), field, kept_as(now + by), words))
}

/// Change of the pointer's distance from the holes of some roles, mm.
///
/// Both ends are measured from the chain of holes, of one player and role, that is nearest to the start of the drag; rings
/// surround one hole each.
fn off_holes(start: &Workpiece, pull: &Pull<'_>, of: impl Fn(Role) -> bool) -> f64 {
    let holes = start.layout().holes.iter();
    let all: Vec<_> = holes.filter(|hole| of(hole.name.id().role())).collect();
    let off = |hole: &&&board::Hole| hole.center.distance(pull.from);
    let Some(nearest) = all.iter().min_by(|a, b| off(a).total_cmp(&off(b))) else {
        return 0.0;
    };
    let is_ring = pull.thing == Thing::Groove(GrooveKind::Ring);
    let is_of_chain = |hole: &&&board::Hole| {
        let (id, near) = (hole.name.id(), nearest.name.id());
        id == near || (!is_ring && id.role() == near.role() && id.player() == near.player())
    };
    let centers: Vec<Point> = all
        .iter()
        .filter(is_of_chain)
        .map(|hole| hole.center)
        .collect();
    off_chain(&centers, pull.to) - off_chain(&centers, pull.from)
}

/// Distance of a point from a chain of lines between centers.
fn off_chain(centers: &[Point], at: Point) -> f64 {
    let links = centers
        .windows(2)
        .map(|ends| off_link(ends[0], ends[1], at));
    let ends = centers.iter().map(|center| center.distance(at));
    links.chain(ends).fold(f64::INFINITY, f64::min)
}

/// Distance of a point from the segment between two others.
fn off_link(from: Point, to: Point, at: Point) -> f64 {
    let way = to - from;
    let square = way.hypot2();
    let share = if square > 0.0 {
        ((at - from).dot(way) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (from + way * share).distance(at)
}

/// Drags a seam of a panel bought glued.
pub fn seam(start: &Workpiece, pull: &Pull<'_>, at: usize) -> Option<Pulled> {
    let (board, seams) = (start.board(), typed_seams(start));
    let wanted = seams.get(at)? + pull.way().y;
    let others = seams.iter().enumerate().filter(|(other, _)| *other != at);
    let mirrored = others.map(|(other, height)| {
        (
            -height,
            format!("as far from the pin as seam {}", other + 1),
        )
    });
    let pin = core::iter::once((0.0, "through the pin".to_owned()));
    let near = pin
        .chain(mirrored)
        .find(|(height, _)| (height - wanted).abs() <= pull.reach());
    let (height, words) = match near {
        Some((height, words)) => (height, Some(words)),
        None => (pull.length(wanted, board.units), None),
    };
    let height = within(&field::SEAMS, height);
    let mut after = board.clone();
    if let Build::Seams { at: heights } = &mut after.panel.build {
        *heights.get_mut(at)? = height;
    }
    let guide = words.map(|words| Guide {
        way: Way::Line(Point::new(0.0, height), geometry::Vec2::new(1.0, 0.0)),
        words,
    });
    Some(Pulled {
        board: after,
        words: format!("seam {} above the pin", shown_length(height, board.units)),
        guides: guide.into_iter().collect(),
    })
}

/// The board with another value for one number.
fn kept(board: &Board, field: &Field, number: f64, words: &str) -> Pulled {
    let mut after = board.clone();
    put(&mut after, field, 0, number);
    Pulled {
        board: after,
        words: format!(
            "{words} {}",
            shown_length(within(field, number), board.units)
        ),
        guides: Vec::new(),
    }
}

/// Distance from the center pin, mm.
fn reach(at: Point) -> f64 {
    at.to_vec2().length()
}
