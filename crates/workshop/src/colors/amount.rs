//! The amount of each color: the areas of a board that have it, and the resin that is pigmented with it.

use board::{BorePart, CoatKind, CoatPlace, Medium, Rgb};

use super::check::medium::fault;
use super::resin::groove_ml;
use super::steps::{medium_of, part};
use super::used::{Place, Used, used};
use crate::Workpiece;
use crate::finish::{Parts, bore_area, covered, groove_area, ring_area};

/// Area of one board that has a color, mm²; 0 if the color is in resin.
///
/// A player's field is an equal share of the top face, and a mark counts as the square around it.
pub fn area(workpiece: &Workpiece, one: &Used) -> f64 {
    let board = workpiece.board();
    match one.place {
        Place::Groove => groove_area(workpiece, one.length),
        Place::Field => {
            let all = covered(workpiece, CoatPlace::Sectors);
            match one.player {
                0 => all,
                _ => all / f64::from(board.players.max(1)),
            }
        }
        Place::Mark => board.colors.marks.map_or(0.0, |made| made.size * made.size),
        Place::Bore(BorePart::Ring) => {
            of_holes(workpiece, one, |hole| ring_area(hole, board.colors.ring))
        }
        Place::Bore(BorePart::Inside) => of_holes(workpiece, one, bore_area),
        Place::Bore(BorePart::Filling) => 0.0,
    }
}

/// A figure summed over the holes that have a color.
fn of_holes(workpiece: &Workpiece, one: &Used, figure: impl Fn(&board::Hole) -> f64) -> f64 {
    let holes = one.holes.iter();
    let holes = holes.filter_map(|name| workpiece.layout().hole(name.id()));
    holes.map(figure).sum()
}

/// Resin of one board that has a color, waste included, ml; 0 if the color is not in resin.
pub fn resin(workpiece: &Workpiece, one: &Used) -> f64 {
    match (one.tint.medium, one.place) {
        (Medium::Resin, Place::Groove) => groove_ml(workpiece, one.length),
        (Medium::Resin, Place::Bore(BorePart::Filling)) => {
            let bores = workpiece.pour().map_or(&[][..], |pour| &pour.bores);
            let has_it = |bore: &&crate::FilledBore| one.holes.contains(&bore.name);
            bores.iter().filter(has_it).map(|bore| bore.ml).sum()
        }
        _ => 0.0,
    }
}

/// The colors that coats of one kind bring, each with its share of that finish; empty if the kind has no color, no part has
/// one, or it covers the whole top face.
pub fn brought(workpiece: &Workpiece, kind: CoatKind) -> Vec<(Rgb, f64)> {
    let board = workpiece.board();
    let layers: Vec<_> = board
        .finish
        .iter()
        .filter(|layer| layer.kind == kind)
        .collect();
    let Some(medium) = medium_of(kind) else {
        return Vec::new();
    };
    if layers
        .iter()
        .any(|layer| Parts::of(layer.place).has(Parts::TOP))
    {
        return Vec::new();
    }
    let mut areas: Vec<(Rgb, f64)> = Vec::new();
    for one in used(workpiece) {
        if one.tint.medium != medium || fault(board, one.place, medium).is_some() {
            continue;
        }
        let on_it = layers
            .iter()
            .filter(|layer| Parts::of(layer.place).has(part(one.place)));
        let coats: u32 = on_it.map(|layer| layer.coats).sum();
        let covered = f64::from(coats) * area(workpiece, &one);
        match areas.iter_mut().find(|(color, _)| *color == one.tint.color) {
            Some((_, area)) => *area += covered,
            None => areas.push((one.tint.color, covered)),
        }
    }
    areas.retain(|(_, area)| *area > 0.0);
    let all: f64 = areas.iter().map(|(_, area)| area).sum();
    areas
        .into_iter()
        .map(|(color, area)| (color, area / all))
        .collect()
}
