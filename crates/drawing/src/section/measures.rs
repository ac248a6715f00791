//! Sizes around a figure: dimension lines in lanes beside it, with a label for each, none overlapping another.
//!
//! Vertical sizes have their lanes at the left and the right, and their labels in a column outside them; horizontal sizes have
//! lanes above and below, with the label at the end of the lane.

use kurbo::{Line as Segment, Point, Rect, Vec2};

use super::frame::Frame;
use crate::font::{self, Weight};
use crate::{Anchor, Item, Layer, Line, Shape, Text};

/// Size of the labels.
const WORDS: f64 = 3.0;
/// Least distance from one label down to the next.
const LEADING: f64 = 1.4 * WORDS;
/// Distance from the figure to the first lane.
const FIRST: f64 = 5.0;
/// Distance from one lane to the next.
const LANE: f64 = 4.5;
/// Distance from the last lane to the labels.
const AWAY: f64 = 5.0;
/// Gap between the measured part and its extension line.
const GAP: f64 = 0.6;
/// Length of an extension line beyond its lane, mm on paper.
const PAST: f64 = 1.0;
/// Half of an oblique tick, across and up.
const TICK: f64 = 0.7;
/// Gap between a leader and its words.
const AIR: f64 = 0.8;

/// A side of a figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Left, for sizes of the wood.
    Left,
    /// Right, for sizes of the piece in it.
    Right,
    /// Above.
    Above,
    /// Below.
    Below,
}

impl Side {
    /// The sign of the direction: positive toward greater coordinates.
    const fn sign(self) -> f64 {
        match self {
            Self::Left | Self::Below => -1.0,
            Self::Right | Self::Above => 1.0,
        }
    }

    /// Whether sizes on this side are vertical.
    const fn is_upright(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }
}

/// A size to write.
#[derive(Debug, Clone, PartialEq)]
pub struct Size {
    /// The side of its dimension line, which determines whether it is vertical or horizontal.
    pub side: Side,
    /// Its ends; the same point twice for a note that only points at a part.
    pub ends: [Point; 2],
    /// Its name and length.
    pub words: String,
}

impl Size {
    /// A size between two points.
    pub fn new(side: Side, ends: [(f64, f64); 2], words: impl Into<String>) -> Self {
        Self {
            side,
            ends: ends.map(Point::from),
            words: words.into(),
        }
    }

    /// A note about one point.
    pub fn note(side: Side, at: (f64, f64), words: impl Into<String>) -> Self {
        Self::new(side, [at, at], words)
    }

    /// Whether it only points at something.
    fn is_note(&self) -> bool {
        self.ends[0] == self.ends[1]
    }

    /// Its extent along the dimension line.
    fn span(&self) -> (f64, f64) {
        let along = |at: Point| if self.side.is_upright() { at.y } else { at.x };
        let [a, b] = self.ends.map(along);
        (a.min(b), a.max(b))
    }

    /// Length of its dimension line, mm.
    fn length(&self) -> f64 {
        let (low, high) = self.span();
        high - low
    }

    /// The size on paper.
    fn placed(&self, frame: &Frame) -> Self {
        Self {
            ends: self.ends.map(|end| frame.place(end)),
            ..self.clone()
        }
    }

    /// Width of its label, mm on paper.
    fn width(&self) -> f64 {
        font::width(&self.words, WORDS, Weight::Regular)
    }
}

/// Room that sizes take at the left and the right of a figure at any scale, mm on paper.
pub fn room(sizes: &[Size]) -> [f64; 2] {
    let of = |side: Side| sizes.iter().filter(move |size| size.side == side);
    let widest = |side: Side| of(side).map(Size::width).fold(0.0, f64::max);
    let beside = |side: Side| {
        if of(side).next().is_none() {
            return 0.0;
        }
        let lanes = lanes(sizes, side).len().max(1) as f64;
        FIRST + LANE * (lanes - 1.0) + AWAY + AIR + widest(side)
    };
    let level = widest(Side::Above).max(widest(Side::Below));
    let right = if level > 0.0 { AWAY + AIR + level } else { 0.0 };
    [beside(Side::Left), beside(Side::Right).max(right)]
}

/// All sizes of a figure around the box that it occupies on paper.
pub fn sizes_around(sizes: &[Size], frame: &Frame, around: Rect) -> Vec<Item> {
    let sizes: Vec<Size> = sizes.iter().map(|size| size.placed(frame)).collect();
    let mut items = Vec::new();
    for side in [Side::Left, Side::Right] {
        items.extend(upright(&sizes, side, around));
    }
    // Horizontal sizes keep clear of labels that were pushed beyond the figure.
    let taken = items.iter().map(|item: &Item| item.shape.bounds());
    let around = taken.fold(around, |all, bounds| Rect {
        y0: all.y0.min(bounds.y0),
        y1: all.y1.max(bounds.y1),
        ..all
    });
    for side in [Side::Above, Side::Below] {
        items.extend(level(&sizes, side, around));
    }
    items
}

/// The sizes of a side grouped into lanes, short ones nearest; those in one lane do not overlap.
///
/// So no extension line crosses a dimension line of a shorter size (ISO 129-1, from memory: the shorter dimension is nearer to
/// the outline).
fn lanes(sizes: &[Size], side: Side) -> Vec<Vec<&Size>> {
    let mut measured: Vec<&Size> = sizes
        .iter()
        .filter(|size| size.side == side && !size.is_note())
        .collect();
    measured.sort_by(|a, b| a.length().total_cmp(&b.length()));
    let mut lanes: Vec<Vec<&Size>> = Vec::new();
    for size in measured {
        let (low, high) = size.span();
        let hair = 1e-6 * (high - low);
        let is_free = |lane: &Vec<&Size>| {
            // The label of a horizontal size is at the end of its lane.
            side.is_upright()
                && lane.iter().all(|other| {
                    let (from, to) = other.span();
                    from >= high - hair || to <= low + hair
                })
        };
        // No nearer than any shorter size that it would cross.
        match lanes.last_mut().filter(|lane| is_free(lane)) {
            Some(lane) => lane.push(size),
            None => lanes.push(vec![size]),
        }
    }
    lanes
}

/// Vertical sizes of a side, and its notes.
fn upright(sizes: &[Size], side: Side, around: Rect) -> Vec<Item> {
    let out = side.sign();
    let border = if out < 0.0 { around.x0 } else { around.x1 };
    let lanes = lanes(sizes, side);
    let lane_at = |lane: usize| border + out * (FIRST + LANE * lane as f64);
    let last = lane_at(lanes.len().saturating_sub(1));
    let column = last + out * AWAY;
    let mut items = Vec::new();
    let mut labels: Vec<(Point, &str)> = Vec::new();
    for (number, lane) in lanes.iter().enumerate() {
        let x = lane_at(number);
        for size in lane {
            let (low, high) = size.span();
            items.extend(dimension(Point::new(x, low), Point::new(x, high)));
            items.extend(size.ends.map(|end| extension(end, Point::new(x, end.y))));
            labels.push((Point::new(x, f64::midpoint(low, high)), &size.words));
        }
    }
    let notes = sizes
        .iter()
        .filter(|size| size.side == side && size.is_note());
    labels.extend(notes.map(|note| (note.ends[0], note.words.as_str())));
    items.extend(in_column(labels, column, side));
    items
}

/// Labels in a column, each at the end of a leader.
fn in_column(mut labels: Vec<(Point, &str)>, column: f64, side: Side) -> Vec<Item> {
    labels.sort_by(|a, b| a.0.y.total_cmp(&b.0.y));
    let wanted: Vec<f64> = labels.iter().map(|(from, _)| from.y).collect();
    let anchor = match side {
        Side::Left => Anchor::End,
        _ => Anchor::Start,
    };
    let places = spread(&wanted, LEADING);
    let both = labels.into_iter().zip(places);
    both.flat_map(|((from, words), y)| {
        let to = Point::new(column, y);
        let at = to + Vec2::new(side.sign() * AIR, -font::FIGURE_HEIGHT * WORDS / 2.0);
        [
            mark(Line::Dimension, Shape::Line(Segment::new(from, to))),
            mark(
                Line::Dimension,
                Shape::Text(Text::level(at, WORDS, anchor, words)),
            ),
        ]
    })
    .collect()
}

/// Horizontal sizes above or below, each in a lane of its own, with their labels in a column at the right.
fn level(sizes: &[Size], side: Side, around: Rect) -> Vec<Item> {
    let out = side.sign();
    let border = if out < 0.0 { around.y0 } else { around.y1 };
    let lanes = lanes(sizes, side);
    let all = lanes.iter().flatten();
    let column = all.map(|size| size.span().1).fold(around.x1, f64::max) + AWAY;
    let mut items = Vec::new();
    for (number, size) in lanes.iter().flatten().enumerate() {
        let y = border + out * (FIRST + LANE * number as f64);
        let (low, high) = size.span();
        let (from, to) = (Point::new(low, y), Point::new(high, y));
        items.extend(dimension(from, to));
        items.extend(size.ends.map(|end| extension(end, Point::new(end.x, y))));
        let leader = Segment::new(to, Point::new(column, y));
        items.push(mark(Line::Dimension, Shape::Line(leader)));
        let at = leader.p1 + Vec2::new(AIR, -font::FIGURE_HEIGHT * WORDS / 2.0);
        let text = Text::level(at, WORDS, Anchor::Start, &size.words);
        items.push(mark(Line::Dimension, Shape::Text(text)));
    }
    items
}

/// A dimension line with an oblique tick at each end.
fn dimension(from: Point, to: Point) -> Vec<Item> {
    let tick = |at: Point| {
        let half = Vec2::new(TICK, TICK);
        mark(Line::Cut, Shape::Line(Segment::new(at - half, at + half)))
    };
    let line = mark(Line::Dimension, Shape::Line(Segment::new(from, to)));
    vec![line, tick(from), tick(to)]
}

/// An extension line from the measured part to beyond the lane.
fn extension(from: Point, lane: Point) -> Item {
    let way = lane - from;
    let along = way / way.hypot().max(f64::MIN_POSITIVE);
    let (start, end) = (from + along * GAP, lane + along * PAST);
    mark(Line::Dimension, Shape::Line(Segment::new(start, end)))
}

/// Positions as close to the wanted ones as possible, in the same order and at least `apart` from each other, by the least sum
/// of squares.
///
/// This is isotonic regression by pooling neighbors (pool adjacent violators): with each position taken relative to its own
/// multiple of the distance, the positions must not decrease. Where one would, it joins the run before it, and the run is
/// placed at its mean.
fn spread(wanted: &[f64], apart: f64) -> Vec<f64> {
    /// Neighbors that touch: their number, and the sum of where each would put the first of them.
    struct Run {
        count: usize,
        sum: f64,
    }
    let place = |run: &Run| run.sum / run.count as f64;
    let mut runs: Vec<Run> = Vec::new();
    for (number, at) in wanted.iter().enumerate() {
        let mut new = Run {
            count: 1,
            sum: at - apart * number as f64,
        };
        while let Some(last) = runs.pop_if(|last| place(last) > place(&new)) {
            new.count += last.count;
            new.sum += last.sum;
        }
        runs.push(new);
    }
    let firsts = runs.iter().flat_map(|run| vec![place(run); run.count]);
    let numbered = firsts.enumerate();
    numbered
        .map(|(number, first)| first + apart * number as f64)
        .collect()
}

/// A part of a dimension.
const fn mark(line: Line, shape: Shape) -> Item {
    Item {
        layer: Layer::Marks,
        line,
        shape,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

    #[test]
    fn labels_that_would_overlap_move_apart_evenly() {
        let places = spread(&[0.0, 1.0, 1.0, 40.0], 4.0);
        for (place, wanted) in places
            .iter()
            .zip([-10.0 / 3.0, 2.0 / 3.0, 14.0 / 3.0, 40.0])
        {
            assert_near!(*place, wanted, 1e-12);
        }
    }

    #[test]
    fn sizes_that_follow_one_another_share_a_lane() {
        let upright = |low: f64, high: f64| Size::new(Side::Left, [(0.0, low), (0.0, high)], "");
        let sizes = [
            upright(-20.0, 0.0),
            upright(-5.0, 0.0),
            upright(-20.0, -5.0),
        ];
        let lanes = lanes(&sizes, Side::Left);
        let counts: Vec<usize> = lanes.iter().map(Vec::len).collect();
        assert_eq!(counts, [2, 1]);
        assert_near!(lanes[1][0].length(), 20.0, 1e-12);
    }

    #[test]
    fn horizontal_sizes_keep_clear_of_labels_beside_a_thin_figure() {
        let note = |number: i32| Size::note(Side::Right, (10.0, 0.0), format!("label {number}"));
        let mut sizes: Vec<Size> = (0..8).map(note).collect();
        sizes.push(Size::new(Side::Above, [(0.0, 0.0), (10.0, 0.0)], "above"));
        sizes.push(Size::new(Side::Below, [(0.0, 0.0), (10.0, 0.0)], "below"));
        let frame = Frame {
            scale: 1.0,
            at: Point::ORIGIN,
        };
        let items = sizes_around(&sizes, &frame, Rect::new(0.0, -1.0, 10.0, 0.0));
        let words = items.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text.bounds()),
            _ => None,
        });
        let words: Vec<Rect> = words.collect();
        assert_eq!(words.len(), 10);
        for (at, one) in words.iter().enumerate() {
            assert!(words.iter().skip(at + 1).all(|other| !other.overlaps(*one)));
        }
    }

    proptest! {
        #[test]
        fn spread_labels_are_apart_and_move_no_more_than_necessary(
            mut wanted in prop::collection::vec(-40.0..40.0_f64, 1..12),
        ) {
            wanted.sort_by(f64::total_cmp);
            let places = spread(&wanted, 4.2);
            prop_assert_eq!(places.len(), wanted.len());
            for pair in places.windows(2) {
                prop_assert!(pair[1] - pair[0] > 4.2 - 1e-9);
            }
            // On average they are not shifted to one side.
            let off: f64 = places.iter().zip(&wanted).map(|(place, wanted)| place - wanted).sum();
            prop_assert!(off.abs() < 1e-6);
        }
    }
}
