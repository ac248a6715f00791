//! The choice of the index pins' places.

use board::{Board, Hole, HoleName, SectorJig};
use geometry::{Angle, Circle, Point, bearing_of, web_between};

use crate::Workpiece;
use crate::hardboard::sector::closing::{Gap, Play, narrowest};
use crate::hardboard::sector::copies::Copies;
use crate::hardboard::sector::{IndexHole, of_player, sector, turned};

/// Share of error that does not justify a larger jig; our own choice, no source.
const WORTH: f64 = 0.1;
/// Least distance of a second pin from the center pin as a share of the first's; our own choice, no source.
const OUT: f64 = 0.75;
/// Rounding slack, mm.
const HAIR: f64 = 1e-9;

/// A hole that could take a pin.
#[derive(Clone, Copy)]
struct Candidate {
    name: HoleName,
    /// The hole's place in the sector before.
    hole: Circle,
    /// Hardboard between it and the other holes of the jig and the center pin, mm.
    web: f64,
    /// Bearing from the jig's axis, degrees; the closer to 0, the smaller the jig.
    turn: f64,
}

impl Candidate {
    /// Its distance from the center pin, mm; the farther out, the less the play of a pin turns the jig.
    fn arm(&self) -> f64 {
        self.hole.center.to_vec2().length()
    }
}

/// The index holes, and the least hardboard between one of them and another hole of the jig; `None` if no hole can take a pin
/// in every sector.
///
/// A possible index hole has a copy in every sector before the last, and leaves the template's web. Among those in the nearer
/// half of the sector before, the leading one leaves the least error where the circle closes. Of all within a tenth of that,
/// the nearest is chosen, for a small jig; with two pins, the one that has another farthest from it that is also well out.
pub fn choose(
    workpiece: &Workpiece,
    copies: &Copies<'_>,
    jig: SectorJig,
) -> Option<(Vec<IndexHole>, f64)> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let pool = pool(board, copies);
    let last: Vec<Hole> = of_player(layout, board.players).copied().collect();
    let gaps = narrowest(&last, copies.own, HAIR);
    let leading = leading(board, &pool, &gaps);
    let nearest = leading.iter().copied().reduce(nearer)?;
    let pair = (jig.pins > 1).then(|| apart(&pool, &leading)).flatten();
    let (first, second) = pair.map_or((nearest, None), |(first, second)| (first, Some(second)));
    let chosen: Vec<Candidate> = core::iter::once(first).chain(second).collect();
    let between = second.map_or(f64::INFINITY, |second| web_between(first.hole, second.hole));
    let least = chosen.iter().map(|hole| hole.web).fold(between, f64::min);
    let index = chosen.iter().map(|chosen| IndexHole {
        name: chosen.name,
        mouth: chosen.hole,
    });
    Some((index.collect(), least))
}

/// The candidates: those with enough hardboard in the nearer half, otherwise those with enough hardboard, otherwise the one
/// with the most.
fn pool(board: &Board, copies: &Copies<'_>) -> Vec<Candidate> {
    let all: Vec<Candidate> = copies
        .own
        .iter()
        .enumerate()
        .filter(|(at, hole)| hole.center != Point::ORIGIN && copies.takes_pins(*at))
        .map(|(_, hole)| candidate(board, copies.own, hole))
        .collect();
    let enough = |hole: &&Candidate| hole.web >= board.limits.template_web - HAIR;
    let near = |hole: &&Candidate| hole.turn >= -sector(board.players).as_degrees() - HAIR;
    let near_ones: Vec<Candidate> = all.iter().filter(enough).filter(near).copied().collect();
    if !near_ones.is_empty() {
        return near_ones;
    }
    let roomy: Vec<Candidate> = all.iter().filter(enough).copied().collect();
    if !roomy.is_empty() {
        return roomy;
    }
    let most = all
        .iter()
        .copied()
        .reduce(|a, b| if b.web > a.web { b } else { a });
    most.into_iter().collect()
}

/// A hole of the jig at its place in the sector before, with the hardboard left around it.
fn candidate(board: &Board, own: &[Hole], hole: &Hole) -> Candidate {
    let back = sector(board.players);
    let place = Circle::new(turned(hole.center, -back), hole.bore.radius());
    let pin = Circle::new(Point::ORIGIN, board.jig.pin / 2.0);
    let own_turn = bearing_of(hole.center) - Angle::degrees(board.rotation);
    Candidate {
        name: hole.name,
        hole: place,
        web: own
            .iter()
            .map(|other| web_between(place, other.mouth()))
            .fold(web_between(place, pin), f64::min),
        turn: own_turn.wrapped_to_half_turns().as_degrees() - back.as_degrees(),
    }
}

/// The hole of least error, and those almost as good.
fn leading(board: &Board, pool: &[Candidate], gaps: &[Gap]) -> Vec<Candidate> {
    let error = |hole: &Candidate| {
        // For a play of 1 mm, since the error is proportional to the play.
        let play = Play::new(1.0, board.players, &[hole.hole]);
        gaps.iter()
            .map(|gap| play.error(gap).worst)
            .fold(0.0, f64::max)
    };
    let errors: Vec<f64> = pool.iter().map(error).collect();
    let least = errors.iter().copied().fold(f64::INFINITY, f64::min);
    pool.iter()
        .zip(&errors)
        .filter(|(_, error)| **error <= (1.0 + WORTH) * least)
        .map(|(hole, _)| *hole)
        .collect()
}

/// The hole nearer to the jig's axis; of two equally near, the one farther out.
fn nearer(a: Candidate, b: Candidate) -> Candidate {
    let (turn, out) = (a.turn.abs() - b.turn.abs(), b.arm() - a.arm());
    if turn > HAIR || (turn.abs() <= HAIR && out > HAIR) {
        b
    } else {
        a
    }
}

/// A leading hole and another one farthest from it; the other is well out, if any is.
fn apart(pool: &[Candidate], leading: &[Candidate]) -> Option<(Candidate, Candidate)> {
    let pairs = |out: f64| {
        let with = move |first: Candidate| {
            pool.iter()
                .copied()
                .filter(move |hole| hole.name != first.name && hole.arm() >= out * first.arm())
                .map(move |second| (first, second))
        };
        let distance = |(a, b): &(Candidate, Candidate)| a.hole.center.distance(b.hole.center);
        leading
            .iter()
            .copied()
            .flat_map(with)
            .filter(|(a, b)| web_between(a.hole, b.hole) > 0.0)
            .reduce(|a, b| {
                if distance(&b) > distance(&a) + HAIR {
                    b
                } else {
                    a
                }
            })
    };
    pairs(OUT).or_else(|| pairs(0.0))
}
