//! A closed route as an array whose pieces can be reversed.
//!
//! Turning around a piece of the array, or all the rest and the direction in which it is read, gives the same route: the shorter
//! of the two is reversed. Each reversal is logged, so that it can be undone.

/// A closed route through places 0, 1, ...
pub(super) struct Route {
    order: Vec<u32>,
    /// Where in `order` each place is.
    spots: Vec<u32>,
    /// Whether the array is read from its end.
    backward: bool,
    /// The turns made since the last [`keep`](Self::keep).
    turns: Vec<Turn>,
}

/// A piece of the array turned around.
#[derive(Clone, Copy)]
struct Turn {
    from: u32,
    count: u32,
    /// Whether the direction changed with it.
    mirrored: bool,
}

/// From so many places on, a piece is turned around faster by the processor's wide registers than place by place.
const LONG: u32 = 64;

impl Route {
    /// Through the places in the order of their numbers.
    pub(super) fn new(count: u32) -> Self {
        Self {
            order: (0..count).collect(),
            spots: (0..count).collect(),
            backward: false,
            turns: Vec::new(),
        }
    }

    /// Goes through the same places in another order.
    pub(super) fn set(&mut self, order: &[u32]) {
        for (spot, place) in (0..).zip(order) {
            self.put(spot, *place);
        }
        self.backward = false;
        self.turns.clear();
    }

    pub(super) fn order(&self) -> &[u32] {
        &self.order
    }

    pub(super) fn count(&self) -> u32 {
        self.order.len() as u32
    }

    /// The place at a spot of the array, which goes round once more after its end.
    pub(super) fn at(&self, spot: u32) -> u32 {
        let count = self.count();
        let spot = if spot < count { spot } else { spot - count };
        self.order.get(spot as usize).copied().unwrap_or_default()
    }

    pub(super) fn spot(&self, place: u32) -> u32 {
        self.spots.get(place as usize).copied().unwrap_or_default()
    }

    pub(super) fn next(&self, place: u32) -> u32 {
        self.at_step(self.spot(place), 1)
    }

    /// Number of steps to a place, on from a spot.
    pub(super) fn steps(&self, start: u32, place: u32) -> u32 {
        let (start, spot) = (start, self.spot(place));
        let (from, to) = if self.backward {
            (spot, start)
        } else {
            (start, spot)
        };
        // Which of the two it is cannot be foreseen: a product costs less than a wrong guess.
        to + self.count() * u32::from(to < from) - from
    }

    /// The place so many steps on from a spot, up to once round.
    pub(super) fn at_step(&self, start: u32, steps: u32) -> u32 {
        let spot = if self.backward {
            start + self.count() - steps
        } else {
            start + steps
        };
        self.at(spot)
    }

    /// Reads the same route in the other direction.
    pub(super) fn mirror(&mut self) {
        self.backward = !self.backward;
    }

    /// Reads the route as the array runs.
    pub(super) fn face_forward(&mut self) {
        self.backward = false;
    }

    /// Turns around the way from one place on to another.
    pub(super) fn reverse(&mut self, first: u32, last: u32) {
        let (from, to) = if self.backward {
            (self.spot(last), self.spot(first))
        } else {
            (self.spot(first), self.spot(last))
        };
        let all = self.count();
        let count = if from <= to {
            to - from + 1
        } else {
            to + all - from + 1
        };
        let turn = if 2 * count <= all {
            Turn {
                from,
                count,
                mirrored: false,
            }
        } else {
            Turn {
                from: if to + 1 == all { 0 } else { to + 1 },
                count: all - count,
                mirrored: true,
            }
        };
        self.turn(turn);
        self.turns.push(turn);
    }

    /// Takes back all turns since the last [`keep`](Self::keep).
    pub(super) fn take_back(&mut self) {
        while let Some(turn) = self.turns.pop() {
            self.turn(turn);
        }
    }

    /// Commits the last reversals.
    pub(super) fn keep(&mut self) {
        self.turns.clear();
    }

    fn turn(&mut self, turn: Turn) {
        self.backward ^= turn.mirrored;
        if turn.count >= LONG && self.turn_long(turn) {
            return;
        }
        let all = self.count();
        let mut low = turn.from;
        let mut high = turn.from + turn.count.saturating_sub(1);
        if high >= all {
            high -= all;
        }
        for _ in 0..turn.count / 2 {
            self.swap(low, high);
            low = if low + 1 == all { 0 } else { low + 1 };
            high = if high == 0 { all - 1 } else { high - 1 };
        }
    }

    /// Turns around a piece that does not go on at the array's begin; false where it does.
    fn turn_long(&mut self, turn: Turn) -> bool {
        let spots = turn.from as usize..(turn.from + turn.count) as usize;
        let Some(piece) = self.order.get_mut(spots) else {
            return false;
        };
        piece.reverse();
        for (spot, place) in (turn.from..).zip(piece) {
            if let Some(at) = self.spots.get_mut(*place as usize) {
                *at = spot;
            }
        }
        true
    }

    fn swap(&mut self, one: u32, other: u32) {
        let (at_one, at_other) = (self.at(one), self.at(other));
        self.put(one, at_other);
        self.put(other, at_one);
    }

    fn put(&mut self, spot: u32, place: u32) {
        if let Some(at) = self.order.get_mut(spot as usize) {
            *at = place;
        }
        if let Some(at) = self.spots.get_mut(place as usize) {
            *at = spot;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The route from a place on.
    fn read(route: &Route, from: u32) -> Vec<u32> {
        let start = route.spot(from);
        (0..route.count())
            .map(|steps| route.at_step(start, steps))
            .collect()
    }

    #[test]
    fn a_long_way_and_a_short_one_are_turned_around_alike() {
        let mut route = Route::new(8);
        route.reverse(6, 1);
        assert_eq!(read(&route, 5), [5, 1, 0, 7, 6, 2, 3, 4]);
        route.reverse(0, 4);
        assert_eq!(read(&route, 5), [5, 1, 4, 3, 2, 6, 7, 0]);
        assert_eq!(route.steps(route.spot(1), 7), 5);
        route.take_back();
        assert_eq!(read(&route, 0), [0, 1, 2, 3, 4, 5, 6, 7]);
    }

    #[test]
    fn what_is_kept_is_not_taken_back() {
        let mut route = Route::new(6);
        route.reverse(1, 2);
        route.keep();
        route.mirror();
        route.reverse(5, 3);
        route.take_back();
        route.face_forward();
        assert_eq!(read(&route, 0), [0, 2, 1, 3, 4, 5]);
    }
}
