//! The pocket's holes, in parts: a pocket of many holes among many bores has too many webs to examine one by one.
//!
//! A part is a run of holes, represented by a center that moves with the pocket like its holes, and by how far they are from
//! it. It stands for all of its holes while positions are coarse, and is halved as they become finer. The parts with a single
//! hole come first, in the order of the holes; the pocket as a whole comes last.

use crate::Vec2;

use super::field::Holes;

/// A run of holes of the pocket.
#[derive(Clone, Copy)]
pub(super) struct Part {
    /// The distance of its farthest hole from its center, in mm; 0 for a single hole.
    pub(super) reach: f64,
    /// The indices of its halves; `None` for a single hole.
    pub(super) halves: Option<[u16; 2]>,
}

/// The single-hole parts.
pub(super) fn single(count: usize) -> Vec<Part> {
    let hole = Part {
        reach: 0.0,
        halves: None,
    };
    vec![hole; count]
}

/// All parts down to the single holes; the centers of the longer ones are appended to the holes.
pub(super) fn all(holes: &mut Holes, pitch: f64) -> Vec<Part> {
    let count = holes.count();
    let mut parts = single(count);
    add(holes, &mut parts, (0, count), pitch);
    parts
}

/// Adds the part for a run of holes after its halves; returns its index.
fn add(holes: &mut Holes, parts: &mut Vec<Part>, (from, to): (usize, usize), pitch: f64) -> u16 {
    if to - from <= 1 {
        return from as u16;
    }
    let middle = from.midpoint(to);
    let halves = [(from, middle), (middle, to)].map(|run| add(holes, parts, run, pitch));
    let reach = match holes {
        Holes::Kept(arms) => {
            let run = arms.get(from..to).unwrap_or_default();
            let sum = run.iter().fold(Vec2::ZERO, |sum, arm| sum + *arm);
            let center = sum / run.len() as f64;
            let away = run.iter().map(|arm| (*arm - center).hypot());
            let reach = away.fold(0.0, f64::max);
            arms.push(center);
            reach
        }
        Holes::Arc(places) => {
            let ends = [from, to - 1].map(|at| places.get(at).copied().unwrap_or_default());
            let half = 0.5 * (ends[1] - ends[0]);
            places.push(ends[0] + half);
            // The chord of this many steps is no longer than the same number of one-step chords; half a step has a chord of up
            // to 0.71.
            half.max(1.0) * pitch
        }
    };
    parts.push(Part {
        reach,
        halves: Some(halves),
    });
    (parts.len() - 1) as u16
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pocket::{arms_from_middle, places_from_middle};
    use crate::{Angle, PocketShape, Point, pocket, point_at, ring_radius};

    /// The single holes of a part.
    fn holes_of(parts: &[Part], part: u16) -> Vec<u16> {
        match parts[part as usize].halves {
            Some(halves) => halves
                .iter()
                .flat_map(|&half| holes_of(parts, half))
                .collect(),
            None => vec![part],
        }
    }

    #[test]
    fn the_last_part_is_the_pocket_and_every_hole_is_within_its_parts_reach() {
        let shapes = [PocketShape::Row, PocketShape::Block, PocketShape::Ring];
        for (shape, count) in shapes
            .iter()
            .flat_map(|shape| (1..=60).map(move |at| (*shape, at)))
        {
            let mut holes = Holes::Kept(arms_from_middle(shape, count, 20.0));
            let parts = all(&mut holes, 20.0);
            let Holes::Kept(arms) = &holes else { panic!() };
            assert_eq!(
                (parts.len(), arms.len()),
                (2 * count as usize - 1, parts.len())
            );
            assert_eq!(
                holes_of(&parts, parts.len() as u16 - 1).len(),
                count as usize
            );
            for (at, part) in (0..).zip(&parts) {
                for hole in holes_of(&parts, at) {
                    let away = (arms[hole as usize] - arms[at as usize]).hypot();
                    assert!(away <= part.reach + 1e-9, "{shape:?} of {count}, part {at}");
                }
            }
        }
    }

    #[test]
    fn every_hole_of_an_arc_is_within_its_parts_reach_on_any_circle() {
        for count in 2..=60 {
            let mut holes = Holes::Arc(places_from_middle(count).collect());
            let parts = all(&mut holes, 20.0);
            let Holes::Arc(places) = &holes else { panic!() };
            for radius in [ring_radius(20.0, count), 10.0 * f64::from(count), 3000.0] {
                let arc = pocket(PocketShape::Arc, count, 20.0, Angle::ZERO, radius).unwrap();
                let step = 2.0 * Angle::asin(10.0 / radius).as_radians();
                let middle = |at: u16| -> Point {
                    point_at(radius, Angle::radians(step * places[at as usize]))
                };
                for (at, part) in (0..).zip(&parts) {
                    for hole in holes_of(&parts, at) {
                        let away = arc[hole as usize].distance(middle(at));
                        assert!(away <= part.reach + 1e-9, "{count} at {radius}, part {at}");
                    }
                }
            }
        }
    }
}
