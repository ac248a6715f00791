//! A route jolted in one place after another and made shorter again around there.

use super::draw::Draw;
use super::legs::Legs;
use super::shorten::Shorten;

/// A short closed route through more than a dozen places.
pub(super) fn search(legs: &impl Legs, jolts: u32, cancel: &dyn Fn() -> bool) -> Vec<u32> {
    let mut shorten = Shorten::new(legs, TOO_LITTLE * extent(legs));
    if !settle_all(&mut shorten, cancel) {
        return shorten.route.order().to_vec();
    }
    let mut best = shorten.route.order().to_vec();
    // Lengths over that of the route at first, and over that of the best so far.
    let (mut length, mut shortest) = (0.0, 0.0);
    let mut draw = Draw::new();
    let heat = heat(&shorten, jolts);
    for jolt in 0..jolts {
        if jolt % ASK_EVERY == 0 && cancel() {
            break;
        }
        let change = jolt_somewhere(&mut shorten, &mut draw) - shorten.settle();
        let left = (1.0 - f64::from(jolt) / f64::from(jolts) / WARM).max(0.0);
        if change <= -heat * left * libm::log(draw.part()) {
            shorten.route.keep();
            length += change;
            if length < shortest {
                shortest = length;
                best.copy_from_slice(shorten.route.order());
            }
        } else {
            shorten.route.take_back();
        }
    }
    best
}

/// The most holes in each of three pieces that a jolt moves. More take longer to mend, fewer get less far.
const PIECE: u32 = 12;

/// Lengthening by a jolt that is kept on the average at first, in mean legs of the route.
const HEAT: f64 = 1.6;

/// With fewer jolts a place than this, there is less time to cool, and it begins cooler.
const JOLTS_TO_COOL: f64 = 20.0;

/// The part of the jolts in which a longer route may be kept. Boards have many ways that differ by a hair's breadth;
/// the rest of the jolts finds the best of those.
const WARM: f64 = 0.75;

/// Gains smaller than so many of the places' extent may be nothing but rounding.
const TOO_LITTLE: f64 = 1e-12;

/// Jolts, and places at first, between two questions whether to go on.
const ASK_EVERY: u32 = 64;

fn extent(legs: &impl Legs) -> f64 {
    let size = |point: &crate::Point| point.x.abs() + point.y.abs();
    legs.points().iter().map(size).fold(0.0, f64::max)
}

/// Makes the first route short everywhere; false when canceled.
fn settle_all<L: Legs>(shorten: &mut Shorten<'_, L>, cancel: &dyn Fn() -> bool) -> bool {
    for place in 0..shorten.route.count() {
        if place % ASK_EVERY == 0 && cancel() {
            return false;
        }
        shorten.wake(place);
        shorten.settle();
        shorten.route.keep();
    }
    true
}

fn heat<L: Legs>(shorten: &Shorten<'_, L>, jolts: u32) -> f64 {
    let count = shorten.route.count();
    let route = &shorten.route;
    let length: f64 = (0..count)
        .map(|spot| {
            shorten
                .legs
                .leg(route.at(spot), route.at(spot + 1))
                .max(0.0)
        })
        .sum();
    let count = f64::from(count);
    let time_to_cool = (f64::from(jolts) / count / JOLTS_TO_COOL).min(1.0);
    HEAT * time_to_cool * length / count
}

/// Puts three short pieces, one after another on the route, in the opposite order, and has their ends looked at;
/// returns by how much the route got longer.
///
/// Four legs change at once, and no exchange of fewer takes it back (the double bridge of Martin, Otto and Felten,
/// 1991).
fn jolt_somewhere<L: Legs>(shorten: &mut Shorten<'_, L>, draw: &mut Draw) -> f64 {
    let count = shorten.route.count();
    let most = PIECE.min((count - 1) / 3);
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
