//! The sum of the pins' play where the last sector meets the first.
//!
//! A pin with play p is thinner than its hole by p, so the jig's hole may be off the board's by p: half for each of the two
//! holes that the pin is in. Turn k = 1 … n places the jig with its center hole off by a vector c(k), |c(k)| ≤ p, and its angle
//! off by θ(k); θ(1) = 0 by definition. From turn 2 on, the index hole is within p of the hole drilled in the turn before,
//! which is off by the errors of that turn. Along the circle through the index hole, which has radius r and direction t(k)
//! there,
//!
//! > r (θ(k) − θ(k−1)) = d(k) + (c(k−1) − c(k)) · t(k), with |d(k)| ≤ p.
//!
//! In the sum, the centers of all turns except the first and the last enter through the change of direction from one index hole
//! to the next, |t(k+1) − t(k)| = 2 sin(180°/n):
//!
//! > r θ(n) = Σ d(k) + c(1) · t(2) − c(n) · t(n) + Σ c(k) · (t(k+1) − t(k)).
//!
//! The wood between a hole A of the last sector and a hole B of the first changes along the unit vector u from B to A by
//! (c(n) + θ(n) × A − c(1)) · u. With the lever f = (clockwise direction at A · u) |A| / r that is
//!
//! > f Σ d(k) + c(1) · (f t(2) − u) + c(n) · (u − f t(n)) + f Σ c(k) · (t(k+1) − t(k)).
//!
//! Every d(k) and c(k) is free within p, so the worst change is p times the sum of the lengths of their factors, and the
//! typical one, for independent errors, is p times the root of the sum of their squares. A second index pin does not improve
//! the worst case, in which both are at their limits; in the typical case it reduces the share of the d(k) to r / √(r² + r₂²),
//! as in a weighted mean of two.

use board::{Hole, HoleName};
use geometry::{Circle, Point, Vec2, web_between};

use crate::hardboard::sector::{sector, turned};

/// The total error from the play of the pins: an angle or a length.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PlayError {
    /// The error with the play of every pin at its worst.
    pub worst: f64,
    /// The typical error, by root sum square.
    pub likely: f64,
}

/// The two holes expected to have the least wood between the last sector and the first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closing {
    /// The hole of the last sector.
    pub last: HoleName,
    /// The hole of the first sector.
    pub first: HoleName,
    /// Wood between them as laid out, mm.
    pub wood: f64,
    /// Wood that typically remains, mm.
    pub likely: f64,
    /// Wood that remains at worst, mm; below 0 the holes overlap.
    pub worst: f64,
}

/// Pins with their play and their positions.
pub struct Play {
    /// Difference in diameter between a hole and its pin, mm.
    thinner: f64,
    /// Number of turns after the first.
    turns: f64,
    /// Distance from the center pin to the first index pin, mm.
    arm: f64,
    /// Share of the index holes in the typical error, up to 1.
    share: f64,
    /// The clockwise direction at the index hole in the second and in the last turn.
    ways: [Vec2; 2],
    /// Change of that direction from turn to turn.
    change: f64,
}

impl Play {
    /// Pins with a play on a board for this many players, with the index holes at their places in the jig on player 1's sector.
    pub fn new(play: f64, players: u32, index: &[Circle]) -> Self {
        let sector = sector(players);
        let arms: Vec<f64> = index
            .iter()
            .map(|hole| hole.center.to_vec2().length())
            .collect();
        let arm = arms.first().copied().unwrap_or_default();
        let place = index.first().map_or(Point::ORIGIN, |hole| hole.center);
        let squares: f64 = arms.iter().map(|arm| arm * arm).sum();
        Self {
            thinner: play,
            turns: f64::from(players) - 1.0,
            arm,
            share: if squares > 0.0 {
                arm / squares.sqrt()
            } else {
                1.0
            },
            ways: [sector, -sector].map(|turn| clockwise(turned(place, turn))),
            change: 2.0 * (sector / 2.0).sin(),
        }
    }

    /// The angle by which the last sector may be off, radians.
    pub fn turned(&self) -> PlayError {
        let sums = self.sums(1.0 / self.arm.max(f64::MIN_POSITIVE), Vec2::ZERO);
        PlayError {
            worst: self.thinner * sums.0,
            likely: self.thinner * sums.1,
        }
    }

    /// The loss of wood in a gap, mm.
    pub fn error(&self, gap: &Gap) -> PlayError {
        let lever = gap.out.dot(gap.along) / self.arm.max(f64::MIN_POSITIVE);
        let sums = self.sums(lever, gap.along);
        PlayError {
            worst: self.thinner * sums.0,
            likely: self.thinner * sums.1,
        }
    }

    /// The largest loss of any gap relative to the layout, mm, for two holes no farther out than `reach`, mm.
    fn most(&self, reach: f64) -> f64 {
        let lever = reach / self.arm.max(f64::MIN_POSITIVE);
        self.thinner * (2.0 + lever * (self.turns + 2.0 + self.between()))
    }

    /// The sum of the factors' lengths, and the root of the sum of their squares.
    fn sums(&self, lever: f64, along: Vec2) -> (f64, f64) {
        let [second, last] = self.ways;
        let ends = [
            (second * lever - along).length(),
            (along - last * lever).length(),
        ];
        let lever = lever.abs();
        let worst = lever * (self.turns + self.between()) + ends[0] + ends[1];
        let index = self.turns * lever * self.share * lever * self.share;
        let centers = (self.turns - 1.0) * (lever * self.change) * (lever * self.change);
        let squares = index + centers + ends[0] * ends[0] + ends[1] * ends[1];
        (worst, squares.sqrt())
    }

    /// The combined weight of all centers between the first and the last turn.
    fn between(&self) -> f64 {
        (self.turns - 1.0) * self.change
    }
}

/// The wood between a hole of the last sector and one of the first.
pub struct Gap {
    last: HoleName,
    first: HoleName,
    /// Wood as laid out, mm.
    wood: f64,
    /// Unit vector from the first sector's center to the last sector's.
    along: Vec2,
    /// The clockwise direction at the last sector's center, with the length of its distance from the pin, mm.
    out: Vec2,
}

impl Gap {
    /// The gap between a hole of the last sector and one of the first.
    fn between(last: &Hole, first: &Hole) -> Self {
        let apart = last.center - first.center;
        let length = apart.length();
        let along = if length > 0.0 {
            apart / length
        } else {
            Vec2::ZERO
        };
        Self {
            last: last.name,
            first: first.name,
            wood: length - last.bore.radius() - first.bore.radius(),
            along,
            out: quarter_on(last.center),
        }
    }
}

/// The gaps that exceed the narrowest by no more than this, mm.
pub fn narrowest(last: &[Hole], first: &[Hole], more: f64) -> Vec<Gap> {
    let pairs = || last.iter().flat_map(|a| first.iter().map(move |b| (a, b)));
    let wood = |(a, b): (&Hole, &Hole)| web_between(a.mouth(), b.mouth());
    let least = pairs().map(wood).fold(f64::INFINITY, f64::min);
    pairs()
        .filter(|pair| wood(*pair) <= least + more)
        .map(|(a, b)| Gap::between(a, b))
        .collect()
}

/// The gap with the least wood remaining at worst.
pub fn closing(last: &[Hole], first: &[Hole], play: &Play) -> Option<Closing> {
    let reach = last
        .iter()
        .map(|hole| hole.center.to_vec2().length())
        .fold(0.0, f64::max);
    // A gap that exceeds the narrowest by more than play can remove stays wider.
    let gaps = narrowest(last, first, play.most(reach));
    gaps.iter()
        .map(|gap| {
            let PlayError { worst, likely } = play.error(gap);
            Closing {
                last: gap.last,
                first: gap.first,
                wood: gap.wood,
                likely: gap.wood - likely,
                worst: gap.wood - worst,
            }
        })
        .min_by(|a, b| a.worst.total_cmp(&b.worst))
}

/// The clockwise direction about the center pin at a point, as a unit vector.
fn clockwise(at: Point) -> Vec2 {
    let (way, out) = (quarter_on(at), at.to_vec2().length());
    if out > 0.0 { way / out } else { Vec2::ZERO }
}

/// A point rotated clockwise by a quarter turn.
fn quarter_on(at: Point) -> Vec2 {
    Vec2::new(at.y, -at.x)
}
