//! Improves a good place to the exact local optimum.
//!
//! Near a place, distances change in proportion to a step. The step after which the smallest of them is largest is found
//! exactly: it makes three of them equal. Between straight edges one step is enough; with corners and round knots each step
//! about doubles the number of correct digits.

use super::barrier::{Barrier, Contact};
use crate::{Point, Vec2};

/// The most steps; a climb needs about five.
const STEPS: usize = 60;

/// The most exchanges to find a step; it needs only a few.
const EXCHANGES: usize = 100;

/// A gain smaller than this, in mm, is not worth a step.
const NO_GAIN: f64 = 1e-13;

/// A step this short, in mm, makes no progress.
const NO_STEP: f64 = 1e-12;

/// A place at least as good as `start`, and a local optimum if steps of about `reach` mm get there; `near` are the barriers
/// that matter there.
pub(super) fn climb(near: &[Barrier], start: Point, reach: f64) -> Point {
    let (mut place, mut reach) = (start, reach);
    let mut clear = least(near, place);
    for _ in 0..STEPS {
        let contacts: Vec<Contact> = near
            .iter()
            .map(|barrier| barrier.contact(place))
            .filter(|contact| contact.distance <= clear + 4.0 * reach)
            .collect();
        let rise = rise(&contacts, clear, reach);
        if rise.level <= clear + NO_GAIN {
            break;
        }
        let next = place + rise.step;
        let next_clear = least(near, next);
        if next_clear > clear {
            (place, clear) = (next, next_clear);
        } else {
            reach /= 4.0;
            if reach < NO_STEP {
                break;
            }
        }
    }
    place
}

fn least(near: &[Barrier], place: Point) -> f64 {
    near.iter()
        .map(|barrier| barrier.distance(place))
        .fold(f64::INFINITY, f64::min)
}

/// A step, and a lower bound of all distances after it, assuming they change in proportion.
#[derive(Clone, Copy)]
struct Rise {
    step: Vec2,
    level: f64,
}

/// The step of not much more than `reach` after which the smallest distance is largest.
///
/// It starts with three artificial walls around the place, whose optimum is the place itself, and replaces them one at a time
/// by any wall that is nearer, until none is.
fn rise(contacts: &[Contact], clear: f64, reach: f64) -> Rise {
    let half_root_3 = 3.0_f64.sqrt() / 2.0;
    let mut held = [(0.0, 1.0), (-half_root_3, -0.5), (half_root_3, -0.5)].map(|away| Contact {
        distance: clear + reach,
        away: Vec2::from(away),
    });
    let mut rise = Rise {
        step: Vec2::ZERO,
        level: clear + reach,
    };
    for _ in 0..EXCHANGES {
        let after = |contact: &Contact| contact.distance + contact.away.dot(rise.step);
        let nearest = contacts
            .iter()
            .min_by(|one, other| after(one).total_cmp(&after(other)));
        let entering = nearest.filter(|contact| after(contact) < rise.level - NO_GAIN / 2.0);
        let Some((next, next_rise)) = entering.and_then(|entering| exchange(held, *entering))
        else {
            break;
        };
        (held, rise) = (next, next_rise);
    }
    rise
}

/// Three of four contacts that hold a place from all sides, including `entering`, and the step that makes their distances
/// equal.
fn exchange(held: [Contact; 3], entering: Contact) -> Option<([Contact; 3], Rise)> {
    let [a, b, c] = held;
    [[entering, b, c], [a, entering, c], [a, b, entering]]
        .into_iter()
        .filter_map(|three| Some((three, hold(three)?)))
        .max_by(|one, other| one.1.total_cmp(&other.1))
        .filter(|(_, hold)| *hold >= -1e-9)
        .and_then(|(three, _)| Some((three, level(three)?)))
}

/// The smallest share of three contacts in holding a place where it is: negative if they do not hold it, because they are all
/// on one side.
fn hold([a, b, c]: [Contact; 3]) -> Option<f64> {
    let shares = [
        b.away.cross(c.away),
        c.away.cross(a.away),
        a.away.cross(b.away),
    ];
    let whole: f64 = shares.iter().sum();
    let least = |shares: [f64; 3]| shares.into_iter().fold(f64::INFINITY, f64::min);
    (whole.abs() > 1e-12).then(|| least(shares.map(|share| share / whole)))
}

/// The step that makes three distances equal.
fn level([a, b, c]: [Contact; 3]) -> Option<Rise> {
    let (to_b, to_c) = (b.away - a.away, c.away - a.away);
    let (less_b, less_c) = (a.distance - b.distance, a.distance - c.distance);
    let whole = to_b.cross(to_c);
    let step = (Vec2::new(to_c.y, -to_c.x) * less_b + Vec2::new(-to_b.y, to_b.x) * less_c) / whole;
    step.is_finite().then(|| Rise {
        step,
        level: a.distance + a.away.dot(step),
    })
}
