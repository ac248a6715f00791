//! Things that are round about an upright axis, cut by an upright plane.
//!
//! At each depth the cut is as wide as the chord of the circle there: 2 √(r² - d²) at a distance d of the plane from the
//! axis.

use geometry::{Angle, Circle, Point};

use super::plane::{Keep, View};

/// How far a polygon may be off the curve it stands for, mm.
const OFF: f64 = 0.003;
/// How often a curve is halved at most.
const HALVINGS: u32 = 12;

/// Something round, from its upper end down.
#[derive(Debug, Clone)]
pub struct Revolved {
    /// Where its axis is.
    pub center: Point,
    /// Its parts.
    pub zones: Vec<Zone>,
}

/// A part of something round, between two depths below the top face.
#[derive(Debug, Clone, Copy)]
pub struct Zone {
    /// Depth of its upper end.
    pub top: f64,
    /// Depth of its lower end.
    pub bottom: f64,
    /// Its shape.
    pub side: Side,
}

/// How the radius goes with the depth.
#[derive(Debug, Clone, Copy)]
pub enum Side {
    /// Evenly from one radius at the upper end to another at the lower.
    Even {
        /// At the upper end.
        above: f64,
        /// At the lower end.
        below: f64,
    },
    /// Along a part of a circle: of a ball, or of what is turned about an axis beside it.
    Round {
        /// Depth of the middle of the circle.
        middle: f64,
        /// Radius of the circle.
        radius: f64,
        /// Distance of its middle from the axis; 0 for a ball.
        beyond: f64,
    },
}

impl Zone {
    /// A cylinder.
    pub const fn cylinder(radius: f64, top: f64, bottom: f64) -> Self {
        Self {
            top,
            bottom,
            side: Side::Even {
                above: radius,
                below: radius,
            },
        }
    }

    /// A whole ball.
    pub const fn ball(middle: f64, radius: f64) -> Self {
        Self {
            top: middle - radius,
            bottom: middle + radius,
            side: Side::Round {
                middle,
                radius,
                beyond: 0.0,
            },
        }
    }

    /// Its radius at a depth within it.
    pub fn radius(&self, depth: f64) -> f64 {
        match self.side {
            Side::Even { above, below } => {
                above + (below - above) * (depth - self.top) / (self.bottom - self.top)
            }
            Side::Round {
                middle,
                radius,
                beyond,
            } => {
                let down = depth - middle;
                beyond + libm::sqrt((radius * radius - down * down).max(0.0))
            }
        }
    }

    /// The lowest depth at which it is at least so wide, from its axis; none where it is so wide nowhere.
    pub fn lowest(&self, radius: f64) -> Option<f64> {
        self.way(radius).map(|way| way.depth(1.0))
    }

    /// Depth and half the width of the cut, from its upper end to its lower, at a distance of the plane from the axis.
    fn profile(&self, off: f64) -> Vec<(f64, f64)> {
        let Some(way) = self.way(off) else {
            return Vec::new();
        };
        let at = |share: f64| {
            let depth = way.depth(share);
            let radius = self.radius(depth);
            (depth, libm::sqrt((radius * radius - off * off).max(0.0)))
        };
        let (first, last) = (at(0.0), at(1.0));
        let mut points = vec![first];
        refine(&at, (0.0, first), (1.0, last), HALVINGS, &mut points);
        points
    }

    /// The way along its side where that is at least so far from the axis; none where it is nowhere.
    fn way(&self, off: f64) -> Option<Way> {
        let (top, bottom) = (self.top, self.bottom);
        if bottom <= top {
            return None;
        }
        match self.side {
            Side::Even { above, below } => {
                // Where it is just as wide as the plane is away.
                let meets = || top + (bottom - top) * (above - off) / (above - below);
                let (from, to) = match (above >= off, below >= off) {
                    (true, true) => (top, bottom),
                    (true, false) => (top, meets()),
                    (false, true) => (meets(), bottom),
                    (false, false) => return None,
                };
                Some(Way::Straight { from, to })
            }
            Side::Round {
                middle,
                radius,
                beyond,
            } => {
                let short = (off - beyond).max(0.0);
                let reach = libm::sqrt((radius * radius - short * short).max(0.0));
                let turn = |depth: f64| Angle::asin(((depth - middle) / reach).clamp(-1.0, 1.0));
                let is_met = short < radius && top - middle < reach && middle - bottom < reach;
                is_met.then(|| Way::Turned {
                    middle,
                    reach,
                    from: turn(top),
                    to: turn(bottom),
                })
            }
        }
    }
}

/// Depths in steps that suit a side: even ones, or those of even turns.
enum Way {
    Straight {
        from: f64,
        to: f64,
    },
    Turned {
        middle: f64,
        reach: f64,
        from: Angle,
        to: Angle,
    },
}

impl Way {
    fn depth(&self, share: f64) -> f64 {
        match self {
            Self::Straight { from, to } => from + (to - from) * share,
            Self::Turned {
                middle,
                reach,
                from,
                to,
            } => middle + reach * (*from + (*to - *from) * share).sin(),
        }
    }
}

/// Adds points of a curve after its first one, until straight lines between them are near enough.
pub fn refine(
    at: &impl Fn(f64) -> (f64, f64),
    (from, first): (f64, (f64, f64)),
    (to, last): (f64, (f64, f64)),
    halvings: u32,
    points: &mut Vec<(f64, f64)>,
) {
    let halfway = f64::midpoint(from, to);
    let between = at(halfway);
    let way = (last.0 - first.0, last.1 - first.1);
    let length = libm::hypot(way.0, way.1);
    let aside = way.0 * (between.1 - first.1) - way.1 * (between.0 - first.0);
    if halvings == 0 || aside.abs() <= OFF * length {
        points.push(last);
    } else {
        refine(at, (from, first), (halfway, between), halvings - 1, points);
        refine(at, (halfway, between), (to, last), halvings - 1, points);
    }
}

impl Revolved {
    /// What a plane cuts of it; none where it misses it.
    pub fn cut(&self, view: &View) -> Option<Vec<Point>> {
        let (s, off) = view.see(self.center);
        let profiles = self.zones.iter().flat_map(|zone| zone.profile(off));
        let mut profile: Vec<(f64, f64)> = profiles.collect();
        profile.dedup();
        let right = profile.iter().map(|(depth, half)| (s + half, -depth));
        let left = profile.iter().rev().map(|(depth, half)| (s - half, -depth));
        let mut corners: Vec<Point> = right.chain(left).map(Point::from).collect();
        corners.dedup();
        let kept = view.kept(corners);
        (kept.len() >= 3).then_some(kept)
    }

    /// The circle that a plane cuts of it, where it is a ball and the circle belongs to the section.
    pub fn disc(&self, view: &View) -> Option<Circle> {
        let [zone] = self.zones.as_slice() else {
            return None;
        };
        let Side::Round { middle, radius, .. } = zone.side else {
            return None;
        };
        let (s, off) = view.see(self.center);
        let left = radius * radius - off * off;
        let cut = libm::sqrt(left.max(0.0));
        let belongs = match view.keep {
            Keep::All => true,
            Keep::Left => s <= -cut,
            Keep::Right => s >= cut,
        };
        (left > 0.0 && belongs).then(|| Circle::new((s, -middle), cut))
    }
}
