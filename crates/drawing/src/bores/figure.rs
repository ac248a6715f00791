//! The drawing of a fit strip: its bores at true size in a row, or in rows if the paper is narrow.
//!
//! Centers are a round number apart, so that one line from the first to the last shows whether the print is true to size. The
//! maker measures that line; the gap between two bores is too short for it, since a misreading of half a millimeter would count
//! for more there.
//!
//! On narrow paper no part of a strip is left out: the row is broken up, each part has its own frame and line, and the parts go
//! on the scrap one by one.

use board::{INCH, Units, show_length, show_setting};
use kurbo::{Circle, Line as Segment, Point, Rect, Size, Vec2};
use workshop::FitTry;

use crate::font::{self, Weight};
use crate::pages::Figure;
use crate::{Anchor, Item, Layer, Line, Shape, Text, corners_of};

/// Sizes of letters and of the words below a bore, mm.
const LETTER: f64 = 4.2;
const WORDS: f64 = 2.7;
/// Length of a cross's arms beyond the bore, mm.
const BEYOND: f64 = 2.0;
/// Distance from the frame to the crosses at the sides, and to the words above and below, mm.
const SIDE: f64 = 5.0;
const PADDING: f64 = 2.5;
/// Gap between a cross and the words above or below it, mm.
const GAP: f64 = 1.2;
/// Least wood between two bores, mm, so that none runs into the next. Common practice, no source.
const WOOD: f64 = 10.0;
/// Height of the measuring line with its words, mm.
const SCALE: f64 = 6.5;
/// Height that a page needs for the lines at its top and foot, mm.
const FOOT: f64 = 18.0;

/// The bores of a strip, with each row a figure; none if the page has no room for the widest.
///
/// A row has as many bores as the page is wide enough for, and rows are as even as possible: three and two instead of four and
/// one, so that each has a line long enough to measure.
pub fn rows(tries: &[FitTry], units: Units, room: Size) -> Vec<Figure> {
    let Some(strip) = Strip::of(tries, units) else {
        return Vec::new();
    };
    let (across, high) = (strip.width(1), strip.height());
    if across > room.width || high > room.height - FOOT {
        return Vec::new();
    }
    let most = 1 + ((room.width - across) / strip.spacing) as usize;
    // Rows are as even as possible.
    let count = tries.len().div_ceil(most);
    let each = tries.len().div_ceil(count);
    tries.chunks(each).map(|row| strip.row(row)).collect()
}

/// The dimensions that all rows of a strip share, mm.
///
/// They follow the widest bore, so that letters and sizes are aligned above and below bores of any width.
struct Strip {
    /// The unit of sizes.
    units: Units,
    /// Radius of the widest bore.
    radius: f64,
    /// Distance from center to center.
    spacing: f64,
}

impl Strip {
    /// The dimensions for some bores; none without bores.
    fn of(tries: &[FitTry], units: Units) -> Option<Self> {
        let widths = tries.iter().map(|tried| {
            let words = show_setting(tried.bore.diameter, units);
            font::width(&words, WORDS, Weight::Regular)
        });
        let words = widths.fold(0.0, f64::max);
        let widest = tries.last()?.bore;
        let least = (widest.diameter + WOOD).max(words + 2.0 * SIDE);
        let step = match units {
            Units::Mm => 5.0,
            Units::Inch(_) => INCH / 4.0,
        };
        Some(Self {
            units,
            radius: widest.radius(),
            spacing: (least / step).ceil() * step,
        })
    }

    /// Width of a row with this many bores. The frame leaves enough wood beside the outer crosses to clamp, and is as far from
    /// the outer sizes as the sizes are from each other.
    fn width(&self, count: usize) -> f64 {
        let ends = (self.radius + BEYOND + SIDE).max(self.spacing / 2.0);
        self.spacing * count.saturating_sub(1) as f64 + 2.0 * ends
    }

    /// Height of a row: letters, crosses, sizes, and the measuring line. Digits and capitals do not extend below the baseline,
    /// so only their height counts.
    fn height(&self) -> f64 {
        let words = (LETTER + WORDS) * font::FIGURE_HEIGHT;
        2.0 * (PADDING + GAP + self.radius + BEYOND) + words + SCALE
    }

    /// One row in its frame, with the measuring line below it.
    fn row(&self, tries: &[FitTry]) -> Figure {
        let size = Size::new(self.width(tries.len()), self.height());
        let ends = (size.width - self.spacing * tries.len().saturating_sub(1) as f64) / 2.0;
        let foot = PADDING + SCALE + WORDS * font::FIGURE_HEIGHT + GAP;
        let first = Point::new(ends, foot + self.radius + BEYOND);
        let mut items = frame(size.to_rect());
        for (at, tried) in tries.iter().enumerate() {
            let center = first + Vec2::new(self.spacing * at as f64, 0.0);
            items.extend(self.bore(tried, center));
        }
        items.extend(self.scale(tries, first.x));
        Figure { size, items }
    }

    /// A bore with its cross, its letter above and its size below. The arms of the cross extend beyond the outline, so that the
    /// center can be found again after the paper inside it is drilled away.
    fn bore(&self, tried: &FitTry, center: Point) -> Vec<Item> {
        let reach = self.radius + BEYOND + GAP;
        let letter = Text::level(
            center + Vec2::new(0.0, reach),
            LETTER,
            Anchor::Middle,
            tried.letter.to_string(),
        )
        .weighing(Weight::SemiBold);
        let below = Vec2::new(0.0, -reach - WORDS * font::FIGURE_HEIGHT);
        let size = show_setting(tried.bore.diameter, self.units);
        let size = Text::level(center + below, WORDS, Anchor::Middle, size);
        let arm = tried.bore.radius() + BEYOND;
        vec![
            drawn(
                Line::Drill,
                Shape::Circle(Circle::new(center, tried.bore.radius())),
            ),
            drawn(Line::Drill, Shape::Cross { center, arm }),
            drawn(Line::Dimension, Shape::Text(letter)),
            drawn(Line::Dimension, Shape::Text(size)),
        ]
    }

    /// The measuring line from the first center to the last, or across a single bore, with its length. A bore is single where
    /// the paper has no room for two of its size, and is then wide enough to be measured itself.
    fn scale(&self, tries: &[FitTry], first: f64) -> Vec<Item> {
        let [Some(from), Some(to)] = [tries.first(), tries.last()] else {
            return Vec::new();
        };
        let (start, length, name) = if tries.len() == 1 {
            let bore = from.bore;
            (
                first - bore.radius(),
                bore.diameter,
                format!("{} across", from.letter),
            )
        } else {
            let length = self.spacing * (tries.len() - 1) as f64;
            (first, length, format!("{} to {}", from.letter, to.letter))
        };
        let start = Point::new(start, PADDING + 1.2);
        let end = start + Vec2::new(length, 0.0);
        let tick = |at: Point| line(at - Vec2::new(0.0, 1.2), at + Vec2::new(0.0, 1.2));
        let words = format!("{name}: {}", show_length(length, self.units));
        let at = start.midpoint(end) + Vec2::new(0.0, GAP);
        let words = Text::level(at, WORDS, Anchor::Middle, words);
        vec![
            line(start, end),
            tick(start),
            tick(end),
            drawn(Line::Dimension, Shape::Text(words)),
        ]
    }
}

/// The frame of a strip, to cut it out along.
fn frame(area: Rect) -> Vec<Item> {
    let corners = corners_of(area);
    let sides = (0..4).map(|at| Segment::new(corners[at], corners[(at + 1) % 4]));
    sides
        .map(|side| drawn(Line::Cut, Shape::Line(side)))
        .collect()
}

/// A thin line to measure along.
fn line(from: Point, to: Point) -> Item {
    drawn(Line::Dimension, Shape::Line(Segment::new(from, to)))
}

/// A part of the strip. Everything is a mark: nothing is a bore of the board, and nothing is on a layer that a machine drills.
const fn drawn(line: Line, shape: Shape) -> Item {
    Item {
        layer: Layer::Marks,
        line,
        shape,
    }
}
