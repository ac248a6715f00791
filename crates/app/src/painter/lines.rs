//! Lines through many points, round and dashed ones too.

use egui::{Pos2, Shape, Stroke, Vec2};
use geometry::{Arc, Point};

use super::Pen;

/// The most that a circle or arc may be painted off its true line, in points of the screen.
const FLATNESS: f32 = 0.08;
/// Most corners of a line that is painted in one.
const MOST_JOINED: usize = 200;
/// Corners of such a line nearer to the last one than this are left out, in points.
const NEAR: f32 = 0.5;
/// The shortest dash or gap of a line on the screen, in points: a shorter gap closes between the soft edges of its dashes.
const SHORTEST: f32 = 3.0;
/// Dashes of a ring for a point of its radius, and the fewest and the most.
const DASHES: (f32, f32, f32) = (0.6, 6.0, 96.0);
/// The part of a ring that is dashes and not gaps.
const DASHED: f32 = 0.62;

impl Pen<'_> {
    /// A closed line through places on the drawing.
    pub fn outline(&mut self, corners: &[Point], stroke: impl Into<Stroke>) {
        let way = self.way(corners);
        self.joined(way, true, stroke.into());
    }

    /// An open line through places on the drawing.
    pub fn path(&mut self, places: &[Point], stroke: impl Into<Stroke>) {
        let way = self.way(places);
        self.joined(way, false, stroke.into());
    }

    /// A line through places on the drawing with dashes and gaps of lengths in mm; a full line where there are none.
    pub fn dashed(&mut self, places: &[Point], stroke: Stroke, dashes: &[f64]) {
        let way = self.way(places);
        if dashes.is_empty() {
            self.add(Shape::line(way, stroke));
            return;
        }
        let shortest = dashes.iter().copied().fold(f64::INFINITY, f64::min);
        // Far off the dashes are drawn longer than they are, so that a line to cut and a line to guide stay apart.
        let stretch = (SHORTEST / self.camera.length(shortest)).max(1.0);
        let length = |mm: f64| self.camera.length(mm) * stretch;
        let pairs = dashes.chunks_exact(2);
        let (dashes, gaps): (Vec<f32>, Vec<f32>) =
            pairs.map(|pair| (length(pair[0]), length(pair[1]))).unzip();
        let pieces = Shape::dashed_line_with_offset(&way, stroke, &dashes, &gaps, 0.0);
        self.shapes.extend(pieces);
    }

    /// A dashed circle on the screen. It has a whole number of dashes, so that there is no seam, and no more of them in
    /// a close view than in a far one.
    pub fn dashed_ring(&mut self, at: Pos2, radius: f32, stroke: impl Into<Stroke>) {
        let (density, fewest, most) = DASHES;
        let dashes = (density * radius).clamp(fewest, most).round();
        let pitch = core::f32::consts::TAU * radius / dashes;
        let toward = directions(radius.max(60.0)).chain(core::iter::once(Vec2::RIGHT));
        let way: Vec<Pos2> = toward.map(|toward| at + toward * radius).collect();
        let pieces = Shape::dashed_line(&way, stroke, DASHED * pitch, (1.0 - DASHED) * pitch);
        self.shapes.extend(pieces);
    }

    /// Places along an arc, enough for it to look round.
    pub fn along(&self, arc: &Arc) -> Vec<Point> {
        let turns = (arc.sweep.as_radians() / core::f64::consts::TAU).abs();
        let steps = f64::from(corners(self.camera.length(arc.radius))) * turns;
        let steps = steps.ceil().clamp(6.0, 3000.0) as u32;
        let at = |step: u32| arc.at(f64::from(step) / f64::from(steps));
        (0..=steps).map(at).collect()
    }

    pub(super) fn way(&self, places: &[Point]) -> Vec<Pos2> {
        places.iter().map(|at| self.camera.screen(*at)).collect()
    }

    fn joined(&mut self, mut way: Vec<Pos2>, is_closed: bool, stroke: Stroke) {
        if way.len() > MOST_JOINED && is_closed {
            way.extend(way.first().copied());
        }
        if way.len() > MOST_JOINED {
            // Joined lines grow long spikes where they turn back sharply, as a scanned edge does at every point.
            for ends in thinned(&way).windows(2) {
                self.line([ends[0], ends[1]], stroke);
            }
        } else if is_closed {
            self.add(Shape::closed_line(way, stroke));
        } else {
            self.add(Shape::line(way, stroke));
        }
    }
}

/// Directions around a circle, enough for it to look round at a radius on the screen; the first is right.
pub fn directions(radius: f32) -> impl Iterator<Item = Vec2> {
    let count = corners(radius).ceil().clamp(24.0, 2400.0) as u16;
    let step = core::f32::consts::TAU / f32::from(count);
    (0..count).map(move |corner| Vec2::angled(step * f32::from(corner)))
}

/// Number of corners that a circle of a radius on the screen needs to look round.
fn corners(radius: f32) -> f32 {
    core::f32::consts::PI * (radius.max(1.0) / (2.0 * FLATNESS)).sqrt()
}

/// A line without corners too small to be seen; its ends stay.
fn thinned(way: &[Pos2]) -> Vec<Pos2> {
    let mut kept: Vec<Pos2> = Vec::new();
    for corner in way {
        if kept
            .last()
            .is_none_or(|last| last.distance(*corner) >= NEAR)
        {
            kept.push(*corner);
        }
    }
    kept.extend(way.last().filter(|end| kept.last() != Some(end)));
    kept
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::painter::tests::with_pen;
    use egui::pos2;
    use geometry::Angle;

    #[test]
    fn circles_and_arcs_look_round_at_every_size() {
        for radius in [1.0, 30.0, 300.0, 17_000.0] {
            let corners: Vec<Vec2> = directions(radius).collect();
            let sagitta = radius * (1.0 - ((corners[0] + corners[1]) / 2.0).length());
            assert!(sagitta <= 1.1 * FLATNESS, "{sagitta} at {radius}");
        }
        for (radius, sweep) in [(0.2, 90.0), (40.0, 90.0), (900.0, 270.0)] {
            let arc = Arc {
                center: Point::new(3.0, -2.0),
                radius,
                start: Angle::degrees(30.0),
                sweep: Angle::degrees(sweep),
            };
            let way = with_pen(|pen| pen.along(&arc));
            assert!(way[0].distance(arc.at(0.0)) < 1e-9);
            assert!(way[way.len() - 1].distance(arc.at(1.0)) < 1e-9);
            for ends in way.windows(2) {
                let sagitta = radius - ends[0].midpoint(ends[1]).distance(arc.center);
                assert!(
                    sagitta <= 1.1 * f64::from(FLATNESS),
                    "{sagitta} at {radius}"
                );
            }
        }
    }

    #[test]
    fn a_line_of_many_corners_is_thinned_and_keeps_its_ends() {
        let way: Vec<Pos2> = (0..1001_u16)
            .map(|at| pos2(f32::from(at) * 0.01, 0.0))
            .collect();
        let kept = thinned(&way);
        assert!((20..25).contains(&kept.len()), "{}", kept.len());
        assert_eq!(kept.first(), Some(&pos2(0.0, 0.0)));
        assert_eq!(kept.last(), Some(&pos2(10.0, 0.0)));
        assert!(thinned(&[]).is_empty());
    }
}
