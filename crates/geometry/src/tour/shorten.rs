//! Exchanges of two or three legs of a route that make it shorter.
//!
//! A leg a-b goes, b is joined to a near place c instead, a leg c-d goes, and so on, until the last end is joined to
//! a. At no moment may what was added be as long as what went (Lin and Kernighan, 1973): of any exchange that helps,
//! one order of its legs is so, and it leaves little to look through.

use std::collections::VecDeque;

use super::legs::Legs;
use super::near::Near;
use super::route::Route;

/// A route, and the places at which it may still be made shorter.
pub(super) struct Shorten<'a, L> {
    pub(super) legs: &'a L,
    pub(super) route: Route,
    pub(super) near: Near,
    waiting: VecDeque<u32>,
    /// Whether each place waits.
    waits: Vec<bool>,
    /// The least gain that counts, so that rounding cannot go round in circles.
    pub(super) least: f64,
}

/// An exchange of legs a-b, c-d and e-f for b-c, d-e and f-a.
struct Exchange {
    gain: f64,
    ends: [u32; 6],
    kind: Kind,
}

/// The rearrangement of the way that was a, b ... and ended at a again.
#[derive(Clone, Copy)]
enum Kind {
    /// b to d is turned around; e and f are c and d again.
    Turned,
    /// b to d is turned around, and then the way from d, which follows a now, to f.
    TurnedTwice,
    /// b to e and f to c change places.
    Swapped,
    /// b to f and e to c are turned around where they are.
    BothTurned,
}

/// The first half of an exchange: a-b went, b-c came.
struct Begun {
    a: u32,
    b: u32,
    c: u32,
    /// The spot of b.
    start: u32,
    /// Number of steps from b on to c.
    steps: u32,
    gain: f64,
}

impl<'a, L: Legs> Shorten<'a, L> {
    /// The route through the places in the order of their numbers; places are joined to near ones, and `least` is too
    /// small a gain.
    pub(super) fn new(legs: &'a L, near: Near, least: f64) -> Self {
        Self {
            legs,
            route: Route::new(legs.count()),
            near,
            waiting: VecDeque::new(),
            waits: vec![false; legs.count() as usize],
            least,
        }
    }

    /// Queues a place to be examined by [`Self::settle`].
    pub(super) fn wake(&mut self, place: u32) {
        if let Some(waits) = self.waits.get_mut(place as usize)
            && !*waits
        {
            *waits = true;
            self.waiting.push_back(place);
        }
    }

    /// Makes the route shorter until no place waits any more; returns by how much.
    pub(super) fn settle(&mut self) -> f64 {
        let mut total = 0.0;
        while let Some(place) = self.waiting.pop_front() {
            // It stays marked as queued while it is examined, so that its own exchanges do not queue it again.
            while let Some(gain) = self.shorten_at(place) {
                total += gain;
            }
            if let Some(waits) = self.waits.get_mut(place as usize) {
                *waits = false;
            }
        }
        total
    }

    fn shorten_at(&mut self, place: u32) -> Option<f64> {
        for _ in 0..2 {
            if let Some(exchange) = self.find(place) {
                self.make(&exchange);
                return Some(exchange.gain);
            }
            self.route.mirror();
        }
        None
    }

    /// The first exchange that helps and in which the leg on from `a` goes.
    fn find(&self, a: u32) -> Option<Exchange> {
        let b = self.route.next(a);
        let start = self.route.spot(b);
        let went = self.legs.leg(a, b);
        for &(c, came) in self.near.of(b) {
            let gain = went - came;
            if gain <= self.least {
                break;
            }
            let steps = self.route.steps(start, c);
            let begun = Begun {
                a,
                b,
                c,
                start,
                steps,
                gain,
            };
            let found = self.turning(&begun).or_else(|| self.parting(&begun));
            if found.is_some() {
                return found;
            }
        }
        None
    }

    /// Exchanges in which d comes before c: a closed route after two legs already.
    fn turning(&self, begun: &Begun) -> Option<Exchange> {
        let &Begun {
            a,
            b,
            c,
            start,
            steps,
            gain,
        } = begun;
        if steps < 2 {
            return None;
        }
        let d = self.route.at_step(start, steps - 1);
        let gain = gain + self.legs.leg(c, d);
        let closed = gain - self.legs.leg(d, a);
        if closed > self.least {
            return Some(Exchange {
                gain: closed,
                ends: [a, b, c, d, c, d],
                kind: Kind::Turned,
            });
        }
        for &(e, came) in self.near.of(d) {
            let gain = gain - came;
            if gain <= self.least {
                break;
            }
            let to_e = self.route.steps(start, e);
            if to_e == steps {
                continue;
            }
            // The way from b to d is read from d to b now.
            let to_f = if to_e > steps { to_e - 1 } else { to_e + 1 };
            let f = self.route.at_step(start, to_f);
            let gain = gain + self.legs.leg(e, f) - self.legs.leg(f, a);
            if gain > self.least {
                return Some(Exchange {
                    gain,
                    ends: [a, b, c, d, e, f],
                    kind: Kind::TurnedTwice,
                });
            }
        }
        None
    }

    /// Exchanges in which d comes after c: b to c is a ring of its own until e-f opens it.
    fn parting(&self, begun: &Begun) -> Option<Exchange> {
        let &Begun {
            a,
            b,
            c,
            start,
            steps,
            gain,
        } = begun;
        if c == a {
            return None;
        }
        let d = self.route.at_step(start, steps + 1);
        let gain = gain + self.legs.leg(c, d);
        for &(e, came) in self.near.of(d) {
            let gain = gain - came;
            if gain <= self.least {
                break;
            }
            let to_e = self.route.steps(start, e);
            if to_e > steps {
                continue;
            }
            let open = |to_f: u32, kind: Kind| {
                let f = self.route.at_step(start, to_f);
                let gain = gain + self.legs.leg(e, f) - self.legs.leg(f, a);
                (gain > self.least).then_some(Exchange {
                    gain,
                    ends: [a, b, c, d, e, f],
                    kind,
                })
            };
            let after = (e != c).then(|| open(to_e + 1, Kind::Swapped)).flatten();
            let before = || (e != b).then(|| open(to_e - 1, Kind::BothTurned)).flatten();
            let found = after.or_else(before);
            if found.is_some() {
                return found;
            }
        }
        None
    }

    fn make(&mut self, exchange: &Exchange) {
        let [_, b, c, d, e, f] = exchange.ends;
        let turns: &[(u32, u32)] = match exchange.kind {
            Kind::Turned => &[(b, d)],
            Kind::TurnedTwice => &[(b, d), (d, f)],
            Kind::Swapped => &[(b, c), (c, f), (e, b)],
            Kind::BothTurned => &[(b, f), (e, c)],
        };
        for (first, last) in turns {
            self.route.reverse(*first, *last);
        }
        for end in exchange.ends {
            self.wake(end);
        }
    }
}
