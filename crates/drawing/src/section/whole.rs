//! The whole board cut open, with the names of the holes that are cut.
//!
//! The cut runs from the edge of the board through the chosen hole to the center pin, and from there through the recess if
//! there is one; where it turns at the pin, the figure says so. Names are above the holes that it passes.

use board::{Board, Footing, HoleId, HoleName, Measure};
use kurbo::Point;
use workshop::{Body, BodyKind, BoreSizes, CavityKind, Section};

use super::figure::{Figure, Name};
use super::measures::{Side, Size};
use super::scene::Shown;
use super::{around, body_of, bounds_of, top};
use crate::font::Weight;

/// The figure.
pub fn whole<'a>(board: &Board, section: &'a Section, bore: &BoreSizes) -> Figure<'a> {
    let chosen = bore.hole.name.id();
    let base = section.bodies.iter().filter(|body| is_base(body));
    let window = base.fold(around(&section.outline), |all, body| {
        all.union(bounds_of(&body.face))
    });
    let at = bore.hole.center.to_vec2().hypot();
    let piece = body_of(section, BodyKind::Piece, chosen);
    let over = piece.map_or(0.0, |piece| piece.y1.max(0.0));
    let mut axes = vec![(at, over)];
    if chosen != HoleId::CENTER {
        axes.push((0.0, 0.0));
    }
    Figure {
        heading: "Board".into(),
        remark: if section.plane.is_straight() {
            ""
        } else {
            "the cut turns at the center pin"
        },
        section,
        window: window
            .union_pt(Point::new(at, over.max(top(section))))
            .union(piece.unwrap_or(window)),
        shown: Shown {
            piece_of: Some(chosen),
            base: true,
        },
        axes,
        more: Vec::new(),
        sizes: sizes(board, section, bore),
        names: names(section, chosen, over),
        tallest: 110.0,
    }
}

/// Whether a body is below the board.
const fn is_base(body: &Body) -> bool {
    matches!(body.kind, BodyKind::Turntable | BodyKind::Foot)
}

/// Thickness and diameter of the board, the distance of the chosen hole, and the sizes of recess and base where they are cut.
///
/// A straight cut passes through the recess only by chance, so the distance of the recess is written only where the cut turns
/// toward it.
fn sizes(board: &Board, section: &Section, bore: &BoreSizes) -> Vec<Size> {
    let length = |mm| Measure::mm(mm).shown(board.units);
    let (radius, thickness) = (board.blank.radius(), board.blank.thickness);
    let mut sizes = vec![
        Size::new(
            Side::Right,
            [(radius, 0.0), (radius, -thickness)],
            format!("board {}", length(thickness)),
        ),
        Size::new(
            Side::Below,
            [(-radius, -thickness), (radius, -thickness)],
            format!("board Ø {}", length(board.blank.diameter)),
        ),
    ];
    let out = bore.hole.center.to_vec2().hypot();
    if out > 1e-9 {
        let words = format!("{} at {}", bore.hole.name, length(out));
        sizes.push(Size::new(
            Side::Below,
            [(0.0, -thickness), (out, -thickness)],
            words,
        ));
    }
    let recess = board.recess.filter(|_| !section.plane.is_straight());
    if let Some(recess) = recess {
        let away = Point::from((recess.at[0], recess.at[1])).to_vec2().hypot();
        let words = format!("recess at {}", length(away));
        let ends = [(-away, -thickness), (0.0, -thickness)];
        sizes.push(Size::new(Side::Below, ends, words));
    }
    sizes.extend(base(board));
    sizes
}

/// Height and footing of the base; `None` without one.
fn base(board: &Board) -> Vec<Size> {
    let Some(base) = board.base.filter(|base| base.height > 0.0) else {
        return Vec::new();
    };
    let length = |mm| Measure::mm(mm).shown(board.units);
    let (top, foot) = (-board.blank.thickness, -board.blank.thickness - base.height);
    let (across, words) = match base.footing {
        Footing::Round { diameter } => (diameter, format!("base Ø {}", length(diameter))),
        Footing::Feet { count, circle } => {
            (circle, format!("{count} feet on Ø {}", length(circle)))
        }
    };
    let half = across / 2.0;
    vec![
        Size::new(Side::Below, [(-half, foot), (half, foot)], words),
        Size::new(
            Side::Right,
            [(half, top), (half, foot)],
            format!("base {}", length(base.height)),
        ),
    ]
}

/// A name for each hole that is cut, above the center of its visible part.
///
/// A hole whose pilot hole or counterbore is cut too consists of several cavities; it gets one name.
fn names(section: &Section, chosen: HoleId, over: f64) -> Vec<Name> {
    let bores = section.cavities.iter();
    let bores = bores.filter(|cavity| cavity.kind == CavityKind::Bore);
    let mut named: Vec<(HoleName, kurbo::Rect)> = Vec::new();
    for bore in bores {
        let (Some(name), area) = (bore.hole, around(&bore.corners)) else {
            continue;
        };
        match named.last_mut().filter(|(last, _)| *last == name) {
            Some((_, all)) => *all = all.union(area),
            None => named.push((name, area)),
        }
    }
    let piece = body_of(section, BodyKind::Piece, chosen);
    named
        .into_iter()
        .map(|(name, area)| {
            let is_chosen = name.id() == chosen;
            let standing = piece.filter(|_| is_chosen);
            Name {
                at: area.center().x,
                over: if is_chosen {
                    over
                } else {
                    set_in(section, name.id())
                },
                wide: standing.map_or(0.0, |piece| piece.width() / 2.0),
                words: name.to_string(),
                weight: if is_chosen {
                    Weight::SemiBold
                } else {
                    Weight::Regular
                },
            }
        })
        .collect()
}

/// Height of the upper end of what is set into a hole, mm.
fn set_in(section: &Section, hole: HoleId) -> f64 {
    let insert = body_of(section, BodyKind::Insert, hole);
    insert.map_or(0.0, |area| area.y1.max(0.0))
}
