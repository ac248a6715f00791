//! The forms of what is cut into a board and of what stands in it, each made from what already says where it is.

use board::{Board, Bore, Bottom, Hole, Insert, LidHold, PieceKind, Recess, RecessShape, Toward};
use geometry::{Angle, Point};

use super::block::{Block, Sides};
use super::plane::View;
use super::revolved::{Revolved, Side, Zone};
use crate::Workpiece;
use crate::blank::panel::{ScrewPlace, TenonPlace};
use crate::bores::holds::{insert_below, insert_diameter, marble_stand, peg_stand};
use crate::bores::shape::tip;
use crate::bores::volume::lowest;
use crate::filling::open_bore;
use crate::recess::middle;

/// A form that can be cut.
pub enum Form {
    /// Round about an upright axis.
    Round(Revolved),
    /// With straight sides.
    Straight(Block),
}

impl Form {
    /// What a plane cuts of it; of what has straight sides no farther than `reach` from where s is 0.
    pub fn cut(&self, view: &View, reach: f64) -> Option<Vec<Point>> {
        match self {
            Self::Round(round) => round.cut(view),
            Self::Straight(block) => block.cut(view, reach),
        }
    }
}

/// The board itself, with its roundover.
pub fn blank(board: &Board) -> Revolved {
    let blank = &board.blank;
    let rounded = blank.roundover.min(blank.thickness);
    let roundover = Zone {
        top: 0.0,
        bottom: rounded,
        side: Side::Round {
            middle: blank.roundover,
            radius: blank.roundover,
            beyond: blank.flat_radius(),
        },
    };
    Revolved {
        center: Point::ORIGIN,
        zones: vec![
            roundover,
            Zone::cylinder(blank.radius(), rounded, blank.thickness),
        ],
    }
}

/// A bore as the drill leaves it.
pub fn bore(hole: &Hole, spur: f64) -> Revolved {
    Revolved {
        center: hole.center,
        zones: bore_zones(hole.bore, spur),
    }
}

fn bore_zones(bore: Bore, spur: f64) -> Vec<Zone> {
    let (radius, depth) = (bore.radius(), bore.depth);
    let cone = |wide: f64| Zone {
        top: depth,
        bottom: depth + tip(bore, spur),
        side: Side::Even {
            above: wide,
            below: 0.0,
        },
    };
    let round = |middle: f64, ball: f64| Zone {
        top: middle.max(0.0),
        bottom: depth,
        side: Side::Round {
            middle,
            radius: ball,
            beyond: 0.0,
        },
    };
    let wall = |down| Zone::cylinder(radius, 0.0, down);
    match bore.bottom {
        Bottom::Flat => vec![wall(depth)],
        Bottom::Point118 | Bottom::Point135 => vec![wall(depth), cone(radius)],
        // A spur is about as wide at its root as it is long; from memory.
        Bottom::Forstner => vec![wall(depth), cone(spur / 2.0)],
        Bottom::Ball if depth >= radius => {
            vec![wall(depth - radius), round(depth - radius, radius)]
        }
        Bottom::Ball if depth > 0.0 => {
            let ball = (radius * radius + depth * depth) / (2.0 * depth);
            vec![round(depth - ball, ball)]
        }
        Bottom::Ball => Vec::new(),
    }
}

/// How deep a bore is that is at least so wide there, mm; none where it is so wide nowhere.
pub fn depth_at(bore: Bore, spur: f64, radius: f64) -> Option<f64> {
    let zones = bore_zones(bore, spur);
    let ends = zones.iter().filter_map(|zone| zone.lowest(radius));
    ends.max_by(f64::total_cmp)
}

/// A screw from below.
pub fn screw(screw: &ScrewPlace, thickness: f64) -> Revolved {
    let circle = screw.circle;
    let up = thickness - screw.depth;
    Revolved {
        center: circle.center,
        zones: vec![Zone::cylinder(circle.radius, up, thickness)],
    }
}

/// The two mortises of a loose tenon.
pub fn mortise(board: &Board, tenon: &TenonPlace) -> Block {
    let size = board.panel.tenons.unwrap_or_default();
    Block {
        sides: [
            Sides::upright(tenon.center.x, 2.0 * tenon.half_length),
            Sides::upright(tenon.center.y, 2.0 * tenon.reach),
        ],
        top: size.below_top,
        bottom: size.below_top + size.thickness,
        corner: 0.0,
    }
}

/// The recess itself, without what is cut for its lid.
pub fn recess(board: &Board, recess: &Recess) -> Form {
    from_below(board, recess, recess.depth, 0.0)
}

/// What is cut for the lid.
pub fn place_of_lid(workpiece: &Workpiece) -> Option<Form> {
    lid_form(workpiece.board(), &workpiece.lid().cut?, 0.0)
}

/// The lid in its place, with half of its clearance on each side; one that slides has none along the grain.
pub fn lid(workpiece: &Workpiece) -> Option<Form> {
    let board = workpiece.board();
    let recess = board.recess.filter(|recess| recess.lid > 0.0)?;
    // Where nothing is cut for it, it lies in the recess.
    let place = workpiece.lid().cut.unwrap_or(recess);
    lid_form(board, &place, recess.lid_fit.clearance / 2.0)
}

fn lid_form(board: &Board, place: &Recess, clear: f64) -> Option<Form> {
    match (place.lid_fit.hold, place.shape) {
        (LidHold::Slides { angle, toward }, RecessShape::Straight { length, width, .. }) => {
            if length <= 0.0 {
                return None;
            }
            let leans = Angle::degrees(angle).tan();
            let [x, y] = place.at;
            // A lid meets the closed end.
            let mut along = Sides::leaning(x, length, leans);
            // It is open at the edge, and so goes on beyond it.
            match toward {
                Toward::Left => (along.low, along.low_leans) = (f64::NEG_INFINITY, 0.0),
                Toward::Right => (along.high, along.high_leans) = (f64::INFINITY, 0.0),
            }
            let thickness = board.blank.thickness;
            Some(Form::Straight(Block {
                sides: [along, Sides::leaning(y, width, leans).narrowed(clear)],
                top: thickness - place.lid,
                bottom: thickness,
                corner: 0.0,
            }))
        }
        _ => Some(from_below(board, place, place.lid, clear)),
    }
}

/// So deep from the underside, and on each side narrower by so much.
fn from_below(board: &Board, recess: &Recess, depth: f64, clear: f64) -> Form {
    let bottom = board.blank.thickness;
    let top = bottom - depth;
    let at = middle(recess);
    match recess.shape {
        RecessShape::Round { diameter } => Form::Round(Revolved {
            center: at,
            zones: vec![Zone::cylinder(diameter / 2.0 - clear, top, bottom)],
        }),
        RecessShape::Straight { length, width, .. } => Form::Straight(Block {
            sides: [
                Sides::upright(at.x, length).narrowed(clear),
                Sides::upright(at.y, width).narrowed(clear),
            ],
            top,
            bottom,
            corner: (recess.shape.corner() - clear).max(0.0),
        }),
    }
}

/// A turntable, as a disc under the board.
pub fn turntable(board: &Board, diameter: f64, height: f64) -> Revolved {
    let top = board.blank.thickness;
    Revolved {
        center: Point::ORIGIN,
        zones: vec![Zone::cylinder(diameter / 2.0, top, top + height)],
    }
}

/// What is set into a hole for a magnet piece.
pub fn insert(board: &Board, hole: &Hole) -> Revolved {
    let (piece, bore) = (&board.piece, hole.bore);
    let (radius, top) = (
        insert_diameter(piece, bore) / 2.0,
        insert_below(piece, bore),
    );
    let zone = match piece.insert {
        Insert::Ball => Zone::ball(top + radius, radius),
        Insert::Disc { thickness } => Zone::cylinder(radius, top, top + thickness),
    };
    Revolved {
        center: hole.center,
        zones: vec![zone],
    }
}

/// The piece that stands in or on a hole; none where it does not go in.
pub fn piece(board: &Board, hole: &Hole) -> Option<Revolved> {
    let (piece, bore) = (&board.piece, hole.bore);
    let radius = piece.diameter / 2.0;
    let zones = match piece.kind {
        PieceKind::Marble => {
            let open = open_bore(board, bore);
            let sinks = marble_stand(piece.diameter, open).sinks;
            let lowest = sinks.unwrap_or_else(|| lowest(open, piece.diameter));
            vec![Zone::ball(lowest - radius, radius)]
        }
        PieceKind::Peg => {
            let stand = peg_stand(piece, bore)?;
            let shank = (bore.diameter - stand.play) / 2.0;
            // Its largest diameter is that of what stands out.
            vec![
                Zone::cylinder(radius.max(shank), -stand.above, 0.0),
                Zone::cylinder(shank, (-stand.above).max(0.0), bore.depth),
            ]
        }
        PieceKind::Magnet => {
            let foot = foot(board, hole);
            vec![Zone::cylinder(radius, foot - piece.height, foot)]
        }
    };
    Some(Revolved {
        center: hole.center,
        zones,
    })
}

/// The magnet in the foot of a piece; none where it was not measured.
pub fn magnet(board: &Board, hole: &Hole) -> Option<Revolved> {
    let magnet = board.piece.magnet?;
    let bottom = foot(board, hole) - magnet.set_back;
    let zone = Zone::cylinder(magnet.diameter / 2.0, bottom - magnet.thickness, bottom);
    Some(Revolved {
        center: hole.center,
        zones: vec![zone],
    })
}

/// Depth of the foot of a magnet piece: on the top face, or on what stands above it.
fn foot(board: &Board, hole: &Hole) -> f64 {
    insert_below(&board.piece, hole.bore).min(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bores::shape::{deepest, tests::width};
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_parts_of_a_bore_are_as_wide_as_the_bore(
            kind in 0_usize..5,
            sizes in (2.0..40.0_f64, 0.5..30.0_f64, 0.5..4.0_f64),
            share in 0.001..0.999_f64,
        ) {
            let bore = Bore { diameter: sizes.0, depth: sizes.1, bottom: Bottom::ALL[kind] };
            let spur = sizes.2.min(sizes.0);
            let depth = share * deepest(bore, spur);
            let zones = bore_zones(bore, spur);
            let zone = zones.iter().find(|zone| (zone.top..zone.bottom).contains(&depth)).unwrap();
            let wanted = width(bore, spur, depth).unwrap();
            prop_assert!((zone.radius(depth) - wanted).abs() < 1e-6, "{} {wanted}", zone.radius(depth));
            let below = depth_at(bore, spur, wanted * 0.999).unwrap();
            prop_assert!(below >= depth - 1e-6 && below <= deepest(bore, spur) + 1e-9);
        }
    }
}
