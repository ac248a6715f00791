//! Bars over days, for black ink.
//!
//! Names are at the left, one row per operation, and days run to the right from the first day of the calendar. Positions are in
//! mm from the lower left corner of the figure, y up.

use board::{Day, Units};
use jiff::Timestamp;
use jiff::civil::Weekday;
use kurbo::{Point, Rect, Size};
use workshop::{Calendar, Dated, Workpiece};

use super::title;
use crate::font::Weight;
use crate::{Anchor, Figure, Item, Layer, Line, Shape, Text, corners_of, font};

/// Height of a row, mm: its words are read at arm's length.
const ROW: f64 = 6.2;
/// Height of the line of dates above the rows, mm.
const HEAD: f64 = 6.0;
/// Width of the names at the left, mm; a longer name ends in an ellipsis.
const NAMES: f64 = 52.0;
/// Size of the names, mm.
const WORDS: f64 = 3.2;
/// Size of the dates, mm.
const DATES: f64 = 2.8;
/// Spacing of the lines that fill a bar, mm.
const FILL: f64 = 0.35;
/// Spacing of the slanted lines of a wait, mm: far enough apart that a wait looks lighter than a bar at first glance.
const HATCH: f64 = 1.6;
/// Least width of a bar, mm.
const LEAST: f64 = 0.9;

/// Bars of some operations over all days, as wide as the page.
///
/// `rows` are indices of operations in the work plan, and `width` is that of the figure, mm. Every board of the order has a bar
/// in the row of its operation, so that the maker sees which board waits for which.
pub fn figure(workpiece: &Workpiece, calendar: &Calendar, rows: &[usize], width: f64) -> Figure {
    let height = HEAD + ROW * rows.len() as f64;
    let days: Vec<Day> = calendar.every_day().collect();
    let scale = Scale {
        calendar,
        day: (width - NAMES) / days.len().max(1) as f64,
    };
    let mut items = grounds(&scale, &days, height, workpiece.units());
    for (place, &at) in rows.iter().enumerate() {
        let top = height - HEAD - ROW * place as f64;
        let all = calendar.of_operation(at);
        let weight = if all.iter().any(Dated::is_critical) {
            Weight::SemiBold
        } else {
            Weight::Regular
        };
        if let Some(operation) = workpiece.work_plan().operations.get(at) {
            let name = fitted(title(operation, workpiece.work_plan()), weight);
            let foot = Point::new(0.0, top - ROW / 2.0 - 0.36 * WORDS);
            items.push(text(foot, WORDS, weight, name));
        }
        for dated in all {
            items.extend(bar(&scale, dated, top));
        }
    }
    Figure {
        size: Size::new(width, height),
        items,
    }
}

/// Positions of days on the page.
///
/// Days are counted from the first day of the calendar, nights and days off included, so that the length of a wait is its real
/// duration.
struct Scale<'a> {
    /// The calendar whose first day is at the left.
    calendar: &'a Calendar,
    /// Width of a day, mm.
    day: f64,
}

impl Scale<'_> {
    /// The left end of a day, mm from the left of the figure.
    fn of_day(&self, day: Day) -> f64 {
        let hours = self
            .calendar
            .first
            .date()
            .duration_until(day.date())
            .as_hours();
        NAMES + self.day * (hours / 24) as f64
    }

    /// The position of an instant by the clock of the maker's time zone, mm from the left of the figure.
    fn of(&self, at: Timestamp) -> f64 {
        let local = self.calendar.local(at);
        let day = Day::of(local.date()).unwrap_or(self.calendar.first);
        let hours = f64::from(local.hour()) + f64::from(local.minute()) / 60.0;
        self.of_day(day) + self.day * hours / 24.0
    }
}

/// Days off in gray, a line at the start of each week, and dates as far as there is room for them.
///
/// A date is left out where it would run into the one before; where days are narrow, only the first day and Mondays have one.
/// Inch boards show month and day with a slash, metric boards with a dash and leading zeros.
fn grounds(scale: &Scale<'_>, days: &[Day], height: f64, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let mut written = f64::NEG_INFINITY;
    for day in days {
        let left = scale.of_day(*day);
        let column = Rect::new(left, 0.0, left + scale.day, height - HEAD);
        if scale.calendar.hours_on(*day) == 0.0 {
            items.push(item(Line::Guide, Shape::Area(corners_of(column).to_vec())));
        }
        let is_week = day.date().weekday() == Weekday::Monday || *day == scale.calendar.first;
        if is_week {
            let line = kurbo::Line::new((left, 0.0), (left, height - HEAD + 1.0));
            items.push(item(Line::Dimension, Shape::Line(line)));
        }
        let date = day.date();
        let words = if units.is_inch() {
            format!("{}/{}", date.month(), date.day())
        } else {
            format!("{:02}-{:02}", date.month(), date.day())
        };
        let wide = font::width(&words, DATES, Weight::Regular);
        if left >= written && (is_week || scale.day > wide + 1.0) {
            written = left + wide + 1.5;
            let foot = Point::new(left + 0.4, height - HEAD + 1.4);
            items.push(text(foot, DATES, Weight::Regular, words));
        }
    }
    items
}

/// The bar of an operation on a board: hands-on work filled, the wait hatched.
///
/// Ticked work has only a frame. Work on the critical path has a second, heavy frame outside the first. `top` is the top of its
/// row, mm.
fn bar(scale: &Scale<'_>, dated: &Dated, top: f64) -> Vec<Item> {
    let mut items = Vec::new();
    let Some(span) = dated.span() else {
        return items;
    };
    if dated.ready > span.to {
        let (left, right) = (scale.of(span.to), scale.of(dated.ready));
        items.extend(hatched(Rect::new(left, top - ROW + 2.2, right, top - 2.2)));
    }
    for stretch in &dated.stretches {
        let (left, right) = (scale.of(stretch.from), scale.of(stretch.to));
        let area = Rect::new(left, top - ROW + 1.4, right.max(left + LEAST), top - 1.4);
        if dated.done.is_none() && stretch.from < stretch.to {
            items.extend(filled(area));
        }
        items.extend(framed(area, Line::Dimension));
        if dated.is_critical() {
            items.extend(framed(area.inflate(0.35, 0.35), Line::Cut));
        }
    }
    items
}

/// An area filled with horizontal lines.
///
/// The lines leave a little white between them: a bar is dark gray, and takes less ink than a black area.
fn filled(area: Rect) -> Vec<Item> {
    let count = (area.height() / FILL).ceil() as usize;
    let level = |at: usize| {
        let y = area.y0 + area.height() * at as f64 / count as f64;
        item(
            Line::Cut,
            Shape::Line(kurbo::Line::new((area.x0, y), (area.x1, y))),
        )
    };
    (0..=count).map(level).collect()
}

/// An area with a frame and slanted lines.
fn hatched(area: Rect) -> Vec<Item> {
    let mut items = framed(area, Line::Guide);
    let slant = area.height();
    let count = ((area.width() + slant) / HATCH).floor() as usize;
    for at in 1..=count {
        // Each line runs up to the right; parts outside are cut off.
        let foot = area.x0 - slant + HATCH * at as f64;
        let from = foot.max(area.x0);
        let to = (foot + slant).min(area.x1);
        if to > from {
            let (low, high) = (area.y0 + from - foot, area.y0 + to - foot);
            let line = kurbo::Line::new((from, low), (to, high));
            items.push(item(Line::Dimension, Shape::Line(line)));
        }
    }
    items
}

/// The frame of an area.
fn framed(area: Rect, line: Line) -> Vec<Item> {
    let [a, b, c, d] = corners_of(area);
    let sides = [(a, b), (b, c), (c, d), (d, a)];
    sides
        .map(|(from, to)| item(line, Shape::Line(kurbo::Line::new(from, to))))
        .to_vec()
}

/// A part of the figure, on the layer of marks.
const fn item(line: Line, shape: Shape) -> Item {
    Item {
        layer: Layer::Marks,
        line,
        shape,
    }
}

/// Words that start at a point on their baseline, with a size in mm.
fn text(at: Point, size: f64, weight: Weight, words: String) -> Item {
    let text = Text::level(at, size, Anchor::Start, words).weighing(weight);
    item(Line::Dimension, Shape::Text(text))
}

/// A name shortened so that it ends before the bars begin.
fn fitted(name: String, weight: Weight) -> String {
    if font::width(&name, WORDS, weight) <= NAMES - 2.0 {
        return name;
    }
    let mut short = name;
    while font::width(&short, WORDS, weight) > NAMES - 4.0 && short.pop().is_some() {}
    short.push('…');
    short
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Coat, Schedule};

    /// Bars, dates and names of three boards with three coats stay inside the figure.
    #[test]
    fn everything_stays_inside_the_figure() {
        let board = Board {
            finish: vec![Coat::default(); 3],
            schedule: Schedule {
                boards: 3,
                start: "2026-11-30".parse().ok(),
                ..Schedule::default()
            },
            ..Board::default()
        };
        let workpiece = Workpiece::of(&board).unwrap();
        let rows: Vec<usize> = (0..workpiece.work_plan().operations.len()).collect();
        let figure = figure(&workpiece, workpiece.calendar().unwrap(), &rows, 190.0);
        let page = figure.size.to_rect().inflate(0.5, 0.5);
        for item in &figure.items {
            let bounds = item.shape.bounds();
            assert!(page.union(bounds) == page, "{item:?}");
        }
        let words = figure
            .items
            .iter()
            .filter(|it| matches!(it.shape, Shape::Text(_)));
        assert!(words.count() > rows.len());
    }
}
