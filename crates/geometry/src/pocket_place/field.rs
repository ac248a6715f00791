//! The webs of a pocket at a position, and how much each can grow within a box of positions around it.
//!
//! Let h(b, r) be a hole's center as a function of the position, and (x, y) a position in the box as fractions of its half
//! bearing B and half radius R, each from -1 to 1. Then h = h0 + J (x, y) + e, where J (x, y) is the linear part and e the
//! rest, by Taylor's formula no longer than half the largest second derivative in the box: [`Give::bend`]. No hole moves
//! farther than [`Give::step`], which also bounds J (x, y).
//!
//! * A row, block or ring keeps its direction: each hole moves like the center, h'bb = -r n, h'br = t, h'rr = 0 with n outward
//!   and t clockwise.
//! * An arc's hole is at the bearing b + k s(r) with s = 2 asin(p / 2r), k steps from the center; with q = r^2 - p^2/4, r s' =
//!   -p / sqrt q and 2 s' + r s'' = p^3 / (4 r sqrt(q)^3), all of which decrease as r grows. The webs to the rim, to a bore on
//!   the pin and to the other players' arcs do not depend on the bearing, so it is left out there.
//!
//! Distances: for D = |v|, |v + w| <= D + v.w / D + |w|^2 / 2D, since the root is concave, and <= D + v.w / D + 2 |w|. The
//! rim's web has the negative distance: -|v + w| <= -D - v.w / D, without a remainder.
//!
//! The smallest web of a part of the pocket (see [`Part`]) is that of its center, plus or minus the reach of the part.

use crate::pocket::{arms_from_middle, half_step, places_from_middle};
use crate::{Angle, Circle, PocketSearch, PocketShape, Point, Vec2};

use super::bound::Line;
use super::parts::{self, Part};
use super::search::Region;

/// The webs of a pocket as functions of its position.
pub(super) struct Field<'a> {
    search: &'a PocketSearch<'a>,
    holes: Holes,
    parts: Vec<Part>,
    turns: Vec<Turn>,
}

/// Arrangement of the holes around the pocket's center, followed by the centers of parts.
pub(super) enum Holes {
    /// Vectors from the center to each hole, the same at every position.
    Kept(Vec<Vec2>),
    /// Steps from the center along the circle around the pin.
    Arc(Vec<f64>),
}

/// Number of single-hole webs from which the pocket is examined in parts.
const FEW_WEBS: usize = 5_000;

/// The rotation from the sector to another.
#[derive(Clone, Copy)]
pub(super) struct Turn {
    sin: f64,
    cos: f64,
    /// The most that the pockets' distance changes per mm that both move.
    stretch: f64,
}

/// One web: from a part of the pocket, often a single hole, to something else.
#[derive(Clone, Copy)]
pub(super) enum Term {
    Bore { part: u16, bore: Circle },
    Pocket { part: u16, other: u16, turn: Turn },
    Rim { part: u16 },
}

/// A web at the center of a region: that of a part is somewhere between its least and its most.
#[derive(Clone, Copy)]
pub(super) struct Web {
    pub(super) least: f64,
    pub(super) most: f64,
    /// The most that it changes within the region.
    pub(super) growth: f64,
}

/// A hole's center or a part's center, and its change over the box's half bearing and half radius.
#[derive(Clone, Copy, Default)]
pub(super) struct Spot {
    at: Vec2,
    by_bearing: Vec2,
    by_radius: Vec2,
    /// The reach of the part.
    reach: f64,
}

/// Vector from something to the center of a part; from the pin, for the rim.
struct Arm {
    spot: Spot,
    /// The part of the arm's length that is not wood, in mm; for the rim, its greatest length.
    radii: f64,
    step: f64,
    bend: f64,
    to_rim: bool,
}

/// Movement of the holes within a box, total and from the linear part; then the same for the radius alone.
pub(super) struct Give {
    step: f64,
    bend: f64,
    radial_step: f64,
    radial_bend: f64,
}

impl<'a> Field<'a> {
    pub(super) fn new(search: &'a PocketSearch<'a>) -> Self {
        // A single hole counts as an arc: then its web to the rim is known to be independent of the bearing.
        let is_arc = search.shape == PocketShape::Arc || search.holes == 1;
        let mut holes = if is_arc {
            Holes::Arc(places_from_middle(search.holes).collect())
        } else {
            Holes::Kept(arms_from_middle(search.shape, search.holes, search.pitch))
        };
        // The pocket k sectors ahead is as far as the one k sectors back.
        let turn = |sector| {
            let angle = Angle::turn_part(i64::from(sector), i64::from(search.players));
            let (sin, cos) = angle.sin_cos();
            let stretch = if is_arc {
                2.0
            } else {
                2.0 * (angle / 2.0).sin()
            };
            Turn { sin, cos, stretch }
        };
        let turns: Vec<Turn> = (1..=search.players / 2).map(turn).collect();
        let count = search.holes as usize;
        let webs = count * (1 + turns.len() * count + search.obstacles.len());
        let parts = if webs <= FEW_WEBS {
            parts::single(count)
        } else {
            parts::all(&mut holes, search.pitch)
        };
        Self {
            search,
            holes,
            parts,
            turns,
        }
    }

    /// Every web of the pocket: of its single holes, or of the pocket as a whole if those are too many.
    pub(super) fn terms(&self) -> Vec<Term> {
        let all = self.parts.len() as u16;
        let whole = if self.has_long_parts() {
            all - 1..all
        } else {
            0..all
        };
        let each = 1 + self.turns.len() * whole.len() + self.search.obstacles.len();
        let mut terms = Vec::with_capacity(each * whole.len());
        terms.extend(whole.clone().map(|part| Term::Rim { part }));
        for &turn in &self.turns {
            for part in whole.clone() {
                let others = whole.clone();
                terms.extend(others.map(|other| Term::Pocket { part, other, turn }));
            }
        }
        for &bore in self.search.obstacles {
            terms.extend(whole.clone().map(|part| Term::Bore { part, bore }));
        }
        terms
    }

    /// Adds the webs to examine in a region's halves for one that matters in the region.
    pub(super) fn refine(&self, term: Term, give: &Give, terms: &mut Vec<Term>) {
        if !self.has_long_parts() {
            terms.push(term);
            return;
        }
        match term {
            Term::Rim { part } => {
                let parts = self.finer(part, give.radial_step);
                terms.extend(parts.map(|part| Term::Rim { part }));
            }
            Term::Bore { part, bore } => {
                let parts = self.finer(part, give.step);
                terms.extend(parts.map(|part| Term::Bore { part, bore }));
            }
            Term::Pocket { part, other, turn } => {
                let step = turn.stretch * give.radial_step;
                for part in self.finer(part, step) {
                    let others = self.finer(other, step);
                    terms.extend(others.map(|other| Term::Pocket { part, other, turn }));
                }
            }
        }
    }

    /// Whether the pocket is examined in parts of more than one hole.
    const fn has_long_parts(&self) -> bool {
        self.parts.len() > self.search.holes as usize
    }

    /// The halves of a part whose reach makes a web more uncertain than steps of the region do, otherwise the part itself.
    fn finer(&self, part: u16, step: f64) -> impl Iterator<Item = u16> + use<> {
        let known = self.parts.get(part as usize);
        let halves = known.filter(|known| 2.0 * known.reach > step);
        let (first, second) = match halves.and_then(|known| known.halves) {
            Some([first, second]) => (first, Some(second)),
            None => (part, None),
        };
        core::iter::once(first).chain(second)
    }

    /// Whether a web depends on the bearing; an arc rotated around the pin keeps its distance from everything else that
    /// rotates.
    pub(super) fn hangs_on_bearing(&self, term: &Term) -> bool {
        let is_level = matches!(self.holes, Holes::Arc(_));
        match term {
            Term::Bore { bore, .. } => !is_level || bore.center != Point::ORIGIN,
            Term::Pocket { .. } | Term::Rim { .. } => !is_level,
        }
    }

    /// The holes and the centers of parts at the center of a region.
    pub(super) fn spots(&self, region: &Region, spots: &mut Vec<Spot>) {
        let (bearing, radius) = (region.bearings.middle(), region.radii.middle());
        let (half_bearing, half_radius) = (region.bearings.half(), region.radii.half());
        spots.clear();
        match &self.holes {
            Holes::Kept(arms) => {
                let (sin, cos) = Angle::radians(bearing).sin_cos();
                let (outward, clockwise) = (Vec2::new(sin, cos), Vec2::new(cos, -sin));
                let parts = arms.iter().zip(&self.parts);
                spots.extend(parts.map(|(arm, part)| Spot {
                    at: outward * radius + *arm,
                    by_bearing: clockwise * (radius * half_bearing),
                    by_radius: outward * half_radius,
                    reach: part.reach,
                }));
            }
            Holes::Arc(places) => {
                let step = self.arc_step(radius);
                let slide = self.arc_slide(radius) * half_radius;
                let parts = places.iter().zip(&self.parts);
                spots.extend(parts.map(|(place, part)| {
                    let (sin, cos) = Angle::radians(bearing + place * step).sin_cos();
                    let (outward, clockwise) = (Vec2::new(sin, cos), Vec2::new(cos, -sin));
                    Spot {
                        at: outward * radius,
                        by_bearing: clockwise * (radius * half_bearing),
                        by_radius: outward * half_radius - clockwise * (place * slide),
                        reach: part.reach,
                    }
                }));
            }
        }
    }

    /// The movement of the holes within a region.
    pub(super) fn give(&self, region: &Region) -> Give {
        let (turned, out) = (region.bearings.half(), region.radii.half());
        let (low, middle, high) = (region.radii.low, region.radii.middle(), region.radii.high);
        let Holes::Arc(places) = &self.holes else {
            let step = Vec2::new(out, high * turned).hypot();
            let bend = 0.5 * (high * turned * turned) + turned * out;
            return Give {
                step,
                bend,
                radial_step: step,
                radial_bend: bend,
            };
        };
        let outermost = places.first().map_or(0.0, |place| -place);
        // Steps grow faster on smaller circles.
        let slid = outermost * (self.arc_step(low) - self.arc_step(middle));
        let slide = outermost * self.arc_slide(low);
        let curl = if outermost > 0.0 && out > 0.0 {
            self.arc_curl(low, outermost)
        } else {
            0.0
        };
        let radial_bend = 0.5 * curl * out * out;
        Give {
            step: Vec2::new(out, high * (turned + slid)).hypot(),
            bend: 0.5 * (high * turned * turned) + (1.0 + slide) * turned * out + radial_bend,
            radial_step: Vec2::new(out, high * slid).hypot(),
            radial_bend,
        }
    }

    /// The angle between neighbors of an arc.
    fn arc_step(&self, radius: f64) -> f64 {
        if self.search.holes == 1 {
            return 0.0;
        }
        2.0 * half_step(self.search.pitch, radius).as_radians()
    }

    /// Slide of the first hole from the center along the circle, per mm of radius.
    fn arc_slide(&self, radius: f64) -> f64 {
        if self.search.holes == 1 {
            return 0.0;
        }
        let pitch = self.search.pitch;
        pitch / (radius * radius - pitch * pitch / 4.0).max(0.0).sqrt()
    }

    /// An upper bound of the second derivative by the radius of an arc's outermost hole.
    fn arc_curl(&self, radius: f64, outermost: f64) -> f64 {
        let slide = self.arc_slide(radius);
        let along = outermost * slide * slide * slide / (4.0 * radius);
        let inward = outermost * outermost * slide * slide / radius;
        along + inward
    }

    /// A web at the spots, and how much it can grow within the region that `give` is for; inlined, since it is called most
    /// often.
    #[inline]
    pub(super) fn web(&self, term: Term, spots: &[Spot], give: &Give) -> Web {
        let arm = self.arm(term, spots, give);
        let web = arm.spot.at.hypot2().sqrt() - arm.radii;
        let web = if arm.to_rim { -web } else { web };
        Web {
            least: web - arm.spot.reach,
            most: web + arm.spot.reach,
            growth: arm.step,
        }
    }

    /// A linear function over the region that is an upper bound of the web.
    pub(super) fn line(&self, term: Term, spots: &[Spot], give: &Give) -> Line {
        let arm = self.arm(term, spots, give);
        let length = arm.spot.at.hypot2().sqrt();
        let along = if length > 0.0 {
            arm.spot.at / length
        } else {
            Vec2::ZERO
        };
        let slope = Vec2::new(
            along.dot(arm.spot.by_bearing),
            along.dot(arm.spot.by_radius),
        );
        if arm.to_rim {
            return Line {
                at: arm.radii - length + arm.bend + arm.spot.reach,
                slope: -slope,
            };
        }
        let rest = (arm.step * arm.step / (2.0 * length)).min(2.0 * arm.step);
        Line {
            at: length - arm.radii + rest + arm.bend + arm.spot.reach,
            slope,
        }
    }

    /// The line that a web is measured along; inlined, since most callers use only a part of it.
    #[inline]
    fn arm(&self, term: Term, spots: &[Spot], give: &Give) -> Arm {
        let spot = |part: u16| spots.get(part as usize).copied().unwrap_or_default();
        let radius = self.search.hole_radius;
        match term {
            Term::Bore { part, bore } => {
                let (step, bend) = if bore.center == Point::ORIGIN {
                    (give.radial_step, give.radial_bend)
                } else {
                    (give.step, give.bend)
                };
                let mut spot = spot(part);
                spot.at -= bore.center.to_vec2();
                Arm {
                    spot,
                    radii: bore.radius + radius,
                    step,
                    bend,
                    to_rim: false,
                }
            }
            Term::Pocket { part, other, turn } => Arm {
                spot: spot(part) - turn.spot(spot(other)),
                radii: 2.0 * radius,
                step: turn.stretch * give.radial_step,
                bend: turn.stretch * give.radial_bend,
                to_rim: false,
            },
            Term::Rim { part } => Arm {
                spot: spot(part),
                radii: self.search.edge_radius - radius,
                step: give.radial_step,
                bend: give.radial_bend,
                to_rim: true,
            },
        }
    }
}

impl Holes {
    pub(super) const fn count(&self) -> usize {
        match self {
            Self::Kept(arms) => arms.len(),
            Self::Arc(places) => places.len(),
        }
    }
}

impl core::ops::Sub for Spot {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self {
            at: self.at - other.at,
            by_bearing: self.by_bearing - other.by_bearing,
            by_radius: self.by_radius - other.by_radius,
            reach: self.reach + other.reach,
        }
    }
}

impl Turn {
    fn spot(&self, spot: Spot) -> Spot {
        Spot {
            at: self.arm(spot.at),
            by_bearing: self.arm(spot.by_bearing),
            by_radius: self.arm(spot.by_radius),
            reach: spot.reach,
        }
    }

    fn arm(&self, arm: Vec2) -> Vec2 {
        Vec2::new(
            arm.x * self.cos + arm.y * self.sin,
            arm.y * self.cos - arm.x * self.sin,
        )
    }
}
