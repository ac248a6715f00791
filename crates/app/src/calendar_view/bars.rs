//! Bars over days: days off shaded, waits hatched, the critical path in a heavy outline, today as a line.

use board::{Day, Units};
use egui::{Align2, Color32, Pos2, Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use jiff::Timestamp;
use jiff::civil::Weekday;
use workshop::{Calendar, Dated, Workpiece};

use super::HEAD;
use crate::theme::{self, Tokens};

/// Distance of hatching lines, in points.
const HATCH: f32 = 5.0;
/// A bar is never narrower, so that an hour is seen among weeks.
const LEAST_BAR: f32 = 3.0;
/// Width of a day from which each is numbered; below, each week.
const NUMBERED: f32 = 22.0;

/// Days as places from the left.
pub struct Scale {
    /// The first day.
    pub first: Day,
    /// Width of a day, in points.
    pub day: f32,
}

impl Scale {
    /// The place of a day's begin.
    fn of_day(&self, day: Day) -> f32 {
        let days = self.first.date().duration_until(day.date()).as_hours() / 24;
        self.day * days as f32
    }

    /// The place of an instant.
    fn of(&self, calendar: &Calendar, at: Timestamp) -> f32 {
        let local = calendar.local(at);
        let day = Day::of(local.date()).unwrap_or(self.first);
        let hours = f32::from(local.hour()) + f32::from(local.minute()) / 60.0;
        self.of_day(day) + self.day * hours / 24.0
    }
}

/// The days behind the bars: those off shaded, each Monday a line, today.
pub fn grounds(ui: &Ui, rect: Rect, calendar: &Calendar, scale: &Scale, workpiece: &Workpiece) {
    let tokens = Tokens::of(ui);
    let painter = ui.painter();
    let column = |day: Day| {
        let left = rect.left() + scale.of_day(day);
        Rect::from_min_size(
            pos2(left, rect.top() + HEAD),
            vec2(scale.day, rect.height() - HEAD),
        )
    };
    let seen = ui.clip_rect();
    painter.rect_filled(rect, 0.0, tokens.panel);
    let days: Vec<Day> = calendar.every_day().collect();
    for day in &days {
        let column = column(*day);
        if column.right() < seen.left() || column.left() > seen.right() {
            continue;
        }
        if calendar.hours_on(*day) == 0.0 {
            painter.rect_filled(column, 0.0, tokens.button);
        }
        if day.date().weekday() == Weekday::Monday {
            let line = [column.left_top(), column.left_bottom()];
            painter.line_segment(line, Stroke::new(1.0, tokens.line));
        }
    }
    let today = workpiece.today().map(|today| today.day);
    if let Some(today) = today.filter(|day| days.contains(day)) {
        let left = column(today).left();
        let line = [pos2(left, rect.top()), pos2(left, rect.bottom())];
        painter.line_segment(line, Stroke::new(2.0, tokens.accent));
    }
}

/// The band above the rows, which stays in sight while they are scrolled; drawn after them, it covers those that go
/// under it. Returns its top.
pub fn head(ui: &Ui, rect: Rect) -> f32 {
    let seen = ui.clip_rect();
    let top = rect.top().max(seen.top());
    let band = Rect::from_x_y_ranges(seen.x_range(), top..=top + HEAD);
    ui.painter().rect_filled(band, 0.0, Tokens::of(ui).bench);
    top
}

/// The dates above the days, each day's or each week's.
pub fn dates(ui: &Ui, rect: Rect, calendar: &Calendar, scale: &Scale, workpiece: &Workpiece) {
    let tokens = Tokens::of(ui);
    let painter = ui.painter();
    let head = head(ui, rect);
    let today = workpiece.today().map(|today| today.day);
    let mut written = f32::NEG_INFINITY;
    for day in calendar.every_day() {
        let is_today = Some(day) == today;
        let is_first = day == scale.first || day.date().weekday() == Weekday::Monday;
        let left = rect.left() + scale.of_day(day);
        if !(is_today || is_first || scale.day >= NUMBERED) || left < written {
            continue;
        }
        let (words, color) = if is_today {
            ("today".into(), tokens.accent)
        } else {
            (short(day, workpiece.units()), tokens.faint_ink)
        };
        let at = pos2(left + 2.0, head + HEAD / 2.0);
        let drawn = painter.text(at, Align2::LEFT_CENTER, words, theme::small(), color);
        written = drawn.right() + 4.0;
    }
}

/// Month and day in figures.
fn short(day: Day, units: Units) -> String {
    let date = day.date();
    if units.is_inch() {
        format!("{}/{}", date.month(), date.day())
    } else {
        format!("{:02}-{:02}", date.month(), date.day())
    }
}

/// The bars of an operation on every board.
pub fn bars(ui: &Ui, row: Rect, calendar: &Calendar, all: &[Dated], scale: &Scale) {
    let tokens = Tokens::of(ui);
    let seen = ui.clip_rect();
    let bar = |from: Timestamp, to: Timestamp| {
        let [left, right] = [from, to].map(|at| row.left() + scale.of(calendar, at));
        Rect::from_min_max(pos2(left, row.top() + 5.0), pos2(right, row.bottom() - 5.0))
    };
    for dated in all {
        let Some(span) = dated.span() else {
            continue;
        };
        let waits = bar(span.to, dated.ready);
        if bar(span.from, dated.ready.max(span.to)).intersects(seen) {
            if dated.ready > span.to {
                hatch(ui, waits.shrink2(vec2(0.0, 2.0)), tokens.faint_ink);
            }
            for stretch in &dated.stretches {
                let worked = bar(stretch.from, stretch.to);
                let width = worked.width().max(LEAST_BAR);
                let worked = Rect::from_min_size(worked.min, vec2(width, worked.height()));
                worked_bar(ui, worked, dated);
            }
        }
    }
}

/// A bar of work: finished work is pale, and critical work has a heavy outline.
fn worked_bar(ui: &Ui, bar: Rect, dated: &Dated) {
    let tokens = Tokens::of(ui);
    let (fill, edge) = match (dated.done.is_some(), dated.is_critical()) {
        (true, _) => (tokens.button_hot, Stroke::new(1.0, tokens.faint_ink)),
        (_, true) => (tokens.accent, Stroke::new(2.0, tokens.ink)),
        _ => (tokens.note, Stroke::new(1.0, tokens.note)),
    };
    ui.painter().rect(bar, 1.0, fill, edge, StrokeKind::Outside);
}

/// Slanted lines in a box with an outline.
fn hatch(ui: &Ui, area: Rect, color: Color32) {
    let painter = ui.painter().with_clip_rect(area.intersect(ui.clip_rect()));
    painter.rect_stroke(area, 0.0, Stroke::new(1.0, color), StrokeKind::Inside);
    let seen = painter.clip_rect();
    let slant = area.height();
    let first = ((seen.left() - area.left() - slant) / HATCH)
        .floor()
        .max(-slant / HATCH);
    let mut left = area.left() + first * HATCH;
    while left < seen.right().min(area.right()) {
        let ends: [Pos2; 2] = [pos2(left, area.bottom()), pos2(left + slant, area.top())];
        painter.line_segment(ends, Stroke::new(1.0, color));
        left += HATCH;
    }
}
