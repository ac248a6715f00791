//! The pattern rotated around the center pin, so that its bores stay clear of the seams.
//!
//! The seams of a glued panel are fixed; the holes may be rotated relative to them. As the pattern rotates, the distance of a
//! hole from a seam is a sinusoid, so the best rotation is where two such curves cross or where one of them has a maximum: it
//! is solved for, not searched in steps. Holes and seams with a number that is not finite, or is over a kilometer, are ignored.

mod curve;
mod search;

use crate::{Angle, Circle};
use curve::Curve;

/// A straight seam, without ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seam {
    /// The bearing of the line from the center pin that is perpendicular to the seam.
    pub normal: Angle,
    /// Position of the seam along that line, in mm; negative on the other side of the center pin.
    pub offset: f64,
}

/// The part of a bore that must stay clear of the seams.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Its center.
    Center,
    /// Its edge.
    Edge,
}

/// The bore nearest to any seam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NearSeam {
    /// The distance, in mm; negative if it is measured from the bore's edge and the seam cuts the bore.
    pub mm: f64,
    /// The index of the hole.
    pub hole: usize,
    /// The index of the seam.
    pub seam: usize,
}

/// The rotation that keeps the bores farthest from the seams.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeamTurn {
    /// Rotation of the pattern, clockwise.
    pub turn: Angle,
    /// The bore that is then nearest to any seam.
    pub gap: NearSeam,
}

/// The bore nearest to any seam after the holes are rotated clockwise by `turn`; `None` without holes or without seams.
///
/// Of equally near ones, it is the first hole, then the first seam.
///
/// ```
/// use geometry::{Angle, Circle, Measure, Seam, seam_gap};
/// let hole = Circle::new((0.0, 100.0), 6.0);
/// let across = Seam { normal: Angle::ZERO, offset: 20.0 };
/// let gap = seam_gap(&[hole], &[across], Angle::degrees(90.0), Measure::Edge).unwrap();
/// assert!((gap.mm - 14.0).abs() < 1e-9);
/// ```
pub fn seam_gap(
    holes: &[Circle],
    seams: &[Seam],
    turn: Angle,
    measure: Measure,
) -> Option<NearSeam> {
    let at = curve::direction(turn.as_radians());
    let nears = curves(holes, seams, measure)
        .into_iter()
        .map(|curve| NearSeam {
            mm: curve.gap(at),
            hole: curve.hole,
            seam: curve.seam,
        });
    nears.min_by(|one, other| one.mm.total_cmp(&other.mm))
}

/// The rotation, from 0 up to one sector, that keeps the nearest bore as far as possible from its seam.
///
/// `sectors` is the number of times the holes repeat around the center pin: 1 if hand edits have broken the symmetry. Rotations
/// whose gaps differ by less than 1e-10 mm count as equal, and the smallest of them is returned. `None` without holes or
/// without seams.
///
/// ```
/// use geometry::{Circle, Angle, Measure, Seam, best_turn};
/// let holes = [(0.0, 100.0), (100.0, 0.0)].map(|center| Circle::new(center, 6.0));
/// let middle = Seam { normal: Angle::ZERO, offset: 0.0 };
/// let best = best_turn(&holes, &[middle], 1, Measure::Center).unwrap();
/// assert!((best.turn.as_degrees() - 45.0).abs() < 1e-9);
/// assert!((best.gap.mm - 100.0 * 0.5_f64.sqrt()).abs() < 1e-9);
/// ```
pub fn best_turn(
    holes: &[Circle],
    seams: &[Seam],
    sectors: u32,
    measure: Measure,
) -> Option<SeamTurn> {
    let curves = curves(holes, seams, measure);
    let turn = Angle::radians(search::best(&curves, sector(sectors).as_radians()));
    let gap = seam_gap(holes, seams, turn, measure)?;
    Some(SeamTurn { turn, gap })
}

/// The gap of [`seam_gap`] at `samples` rotations, evenly spaced from 0 to one sector inclusive, for a plot.
///
/// It is empty without holes or without seams.
///
/// ```
/// use geometry::{Angle, Circle, Measure, Seam, turn_curve};
/// let hole = Circle::new((0.0, 100.0), 6.0);
/// let middle = Seam { normal: Angle::ZERO, offset: 0.0 };
/// let curve = turn_curve(&[hole], &[middle], 1, Measure::Center, 5);
/// assert!((curve[0].1 - 100.0).abs() < 1e-9);
/// assert!(curve[1].1.abs() < 1e-9 && (curve[1].0.as_degrees() - 90.0).abs() < 1e-9);
/// ```
pub fn turn_curve(
    holes: &[Circle],
    seams: &[Seam],
    sectors: u32,
    measure: Measure,
    samples: usize,
) -> Vec<(Angle, f64)> {
    let curves = curves(holes, seams, measure);
    if curves.is_empty() {
        return Vec::new();
    }
    let steps = samples.saturating_sub(1).max(1) as f64;
    (0..samples)
        .map(|sample| sector(sectors) * (sample as f64 / steps))
        .map(|turn| (turn, curve::lowest(&curves, turn.as_radians())))
        .collect()
}

/// Coordinates larger than this are on no board, in mm.
const FAR: f64 = 1e6;

/// The rotation after which the holes are where they were before; 0 repetitions count as 1.
fn sector(sectors: u32) -> Angle {
    Angle::turn_part(1, i64::from(sectors.max(1)))
}

/// Every combination of a hole and a seam, in order.
fn curves(holes: &[Circle], seams: &[Seam], measure: Measure) -> Vec<Curve> {
    let mut curves = Vec::with_capacity(holes.len() * seams.len());
    for (hole, circle) in holes.iter().enumerate() {
        for (seam, line) in seams.iter().enumerate() {
            if has_place(circle, line) {
                curves.push(Curve::new((hole, *circle), (seam, *line), measure));
            }
        }
    }
    curves
}

fn has_place(circle: &Circle, line: &Seam) -> bool {
    let lengths = [circle.center.x, circle.center.y, circle.radius, line.offset];
    line.normal.as_radians().is_finite() && lengths.iter().all(|length| length.abs() <= FAR)
}
