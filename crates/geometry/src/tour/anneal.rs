//! A route jolted in one place after another and made shorter again around there.

use super::Cancel;
use super::draw::Draw;
use super::legs::{Legs, length};
use super::route::Route;
use super::shorten::Shorten;

/// A closed route and its length.
pub(super) struct Found {
    pub(super) length: f64,
    pub(super) order: Vec<u32>,
}

/// The effort of jolting one route.
#[derive(Clone, Copy)]
pub(super) struct Effort {
    pub(super) jolts: u32,
    /// By how much longer a route that is kept gets on the average, at first.
    pub(super) heat: f64,
    /// The most places in each of the three pieces that a jolt moves. The larger they are, the more the routes differ, and the
    /// longer they take to shorten.
    pub(super) piece: u32,
}

/// The shortest route met on the way. A slightly longer one is gone on from too, less and less.
pub(super) fn anneal<L: Legs>(
    shorten: &mut Shorten<'_, L>,
    draw: &mut Draw,
    effort: Effort,
    cancel: &Cancel<'_>,
) -> Found {
    let Effort { jolts, heat, piece } = effort;
    let mut length = length(shorten.legs, shorten.route.order());
    let mut best = Found {
        length,
        order: shorten.route.order().to_vec(),
    };
    for jolt in 0..jolts {
        if jolt % ASK_EVERY == 0 && cancel.ask() {
            break;
        }
        let change = jolt_somewhere(shorten, draw, piece) - shorten.settle();
        let left = (1.0 - f64::from(jolt) / f64::from(jolts) / WARM).max(0.0);
        if change <= -heat * left * libm::log(draw.part()) {
            shorten.route.keep();
            length += change;
            if length < best.length {
                best.length = length;
                best.order.copy_from_slice(shorten.route.order());
            }
        } else {
            shorten.route.take_back();
        }
    }
    best
}

/// The heat, in mean legs of the route.
const HEAT: f64 = 1.6;

/// The part of the jolts in which a longer route may be kept. Boards have many ways that differ by a hair's breadth;
/// the rest of the jolts finds the best of those.
const WARM: f64 = 0.75;

/// Jolts between two questions whether to go on.
const ASK_EVERY: u32 = 64;

/// The lengthening by a jolt that is kept on the average at first.
///
/// It does not hang on the number of jolts: routes that have less time to cool come out longer, but differ more.
pub(super) fn heat(legs: &impl Legs, route: &Route) -> f64 {
    let count = route.count();
    let leg = |spot| legs.leg(route.at(spot), route.at(spot + 1)).max(0.0);
    HEAT * (0..count).map(leg).sum::<f64>() / f64::from(count)
}

/// Puts three short pieces, one after another on the route, in the opposite order, and has their ends looked at;
/// returns by how much the route got longer.
///
/// Four legs change at once, and no exchange of fewer takes it back (the double bridge of Martin, Otto and Felten,
/// 1991).
fn jolt_somewhere<L: Legs>(shorten: &mut Shorten<'_, L>, draw: &mut Draw, piece: u32) -> f64 {
    let count = shorten.route.count();
    let most = piece.min((count - 1) / 3);
    let mut spot = draw.below(count);
    let spots = [0; 4].map(|_| {
        let here = if spot < count { spot } else { spot - count };
        spot += 1 + draw.below(most);
        here
    });
    shorten.route.face_forward();
    let [before, one_end, two_end, three_end] = spots.map(|spot| shorten.route.at(spot));
    let [one, two, three, after] = spots.map(|spot| shorten.route.at(spot + 1));
    for (first, last) in [
        (one, three_end),
        (three_end, three),
        (two_end, two),
        (one_end, one),
    ] {
        shorten.route.reverse(first, last);
    }
    for place in [before, one, one_end, two, two_end, three, three_end, after] {
        shorten.wake(place);
    }
    let leg = |one, other| shorten.legs.leg(one, other);
    leg(before, three) + leg(three_end, two) + leg(two_end, one) + leg(one_end, after)
        - (leg(before, one) + leg(one_end, two) + leg(two_end, three) + leg(three_end, after))
}
