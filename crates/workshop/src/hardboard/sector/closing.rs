//! The sum of the pins' play where the last sector meets the first.
//!
//! A pin of play p is thinner than its hole by p, so the jig's hole may be off the board's by p: half for each of the two
//! holes that the pin stands in. Turn k = 1 … n puts the jig with its center hole off by a vector c(k), |c(k)| ≤ p, and
//! turned off by θ(k), of which θ(1) = 0 counts as right. From turn 2 on, the index hole comes within p of the hole that
//! the turn before drilled, which lies off by the errors of that turn. Along the circle at the index hole, whose arm is r
//! and whose direction there t(k),
//!
//! > r (θ(k) − θ(k−1)) = d(k) + (c(k−1) − c(k)) · t(k), with |d(k)| ≤ p.
//!
//! Added up, the centers of all turns but the first and the last count by the change of direction from one index hole to
//! the next, |t(k+1) − t(k)| = 2 sin(180°/n):
//!
//! > r θ(n) = Σ d(k) + c(1) · t(2) − c(n) · t(n) + Σ c(k) · (t(k+1) − t(k)).
//!
//! The wood between a hole A of the last sector and a hole B of the first changes along the unit vector u from B to A by
//! (c(n) + θ(n) × A − c(1)) · u. With the lever f = (clockwise direction at A · u) |A| / r that is
//!
//! > f Σ d(k) + c(1) · (f t(2) − u) + c(n) · (u − f t(n)) + f Σ c(k) · (t(k+1) − t(k)).
//!
//! Every d(k) and c(k) is free within p, so that at worst the change is p times the sum of the lengths of their factors;
//! likely, as independent errors, p times the root of the sum of their squares. A second index pin does not make the worst
//! better, which takes both at their limits; of the likely it takes the share of the d(k) down to r / √(r² + r₂²), the
//! weighted mean of two.

use board::{Hole, HoleName};
use geometry::{Circle, Point, Vec2, web_between};

use crate::hardboard::sector::{sector, turned};

/// The error that the play of the pins adds up to: an angle or a length.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PlayError {
    /// With the play of every pin at its worst.
    pub worst: f64,
    /// The likely error, by root sum square.
    pub likely: f64,
}

/// The two holes with the least wood to expect between the last sector and the first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closing {
    /// The hole of the last sector.
    pub last: HoleName,
    /// The hole of the first.
    pub first: HoleName,
    /// Wood between them as laid out, mm.
    pub wood: f64,
    /// The wood that play is likely to leave, mm.
    pub likely: f64,
    /// The wood that it leaves at worst, mm; below 0 they overlap.
    pub worst: f64,
}

/// Pins with their play, and where they stand.
pub struct Play {
    /// By how much a pin is thinner than its hole, mm.
    thinner: f64,
    /// Turns after the first.
    turns: f64,
    /// From the center pin to the first index pin, mm.
    arm: f64,
    /// The likely share of the index holes, of 1.
    share: f64,
    /// The clockwise direction at the index hole in the second turn and in the last.
    ways: [Vec2; 2],
    /// By how much that direction changes from turn to turn.
    change: f64,
}

impl Play {
    /// Pins of a play in a board for so many, with index holes where they lie in the jig on player 1's sector.
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

    /// The turn that the last sector may be off, radians.
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

    /// The largest loss of a gap against the layout, mm, for two holes no farther out than `reach`, mm.
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

    /// The weight of all centers between the first turn and the last together.
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
    /// From the first's center to the last's, of length 1.
    along: Vec2,
    /// The clockwise direction at the last's center, as long as that is far out, mm.
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

/// The gaps that are no wider than the narrowest by more than this, mm.
pub fn narrowest(last: &[Hole], first: &[Hole], more: f64) -> Vec<Gap> {
    let pairs = || last.iter().flat_map(|a| first.iter().map(move |b| (a, b)));
    let wood = |(a, b): (&Hole, &Hole)| web_between(a.mouth(), b.mouth());
    let least = pairs().map(wood).fold(f64::INFINITY, f64::min);
    pairs()
        .filter(|pair| wood(*pair) <= least + more)
        .map(|(a, b)| Gap::between(a, b))
        .collect()
}

/// The gap with the least wood left at worst.
pub fn closing(last: &[Hole], first: &[Hole], play: &Play) -> Option<Closing> {
    let reach = last
        .iter()
        .map(|hole| hole.center.to_vec2().length())
        .fold(0.0, f64::max);
    // A gap wider than the narrowest by more than play can take stays wider.
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

/// The direction clockwise about the center pin at a point, of length 1.
fn clockwise(at: Point) -> Vec2 {
    let (way, out) = (quarter_on(at), at.to_vec2().length());
    if out > 0.0 { way / out } else { Vec2::ZERO }
}

/// A point's place turned clockwise by a quarter.
fn quarter_on(at: Point) -> Vec2 {
    Vec2::new(at.y, -at.x)
}
