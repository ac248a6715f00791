//! The calendar: a row for each operation, its bars over the days; a click ticks it off.

mod bars;

use board::{Board, Day, Done};
use egui::{RichText, Role, ScrollArea, Sense, Ui, WidgetInfo, vec2};
use workshop::{Calendar, Dated, Operation, Task, WorkPlan, Workpiece};

use crate::theme::{self, Tokens};
use bars::{Scale, bars, dates, grounds, head};

/// Height of a row and of the days above them, and width of the names beside them, in points.
const ROW: f32 = 24.0;
const HEAD: f32 = 22.0;
const NAMES: f32 = 202.0;
/// Width of a day: with all days in view, and the least at which days can be distinguished.
const WIDE_DAY: f32 = 90.0;
const LEAST_DAY: f32 = 6.0;
/// Room at the right for the scroll bar.
const BAR: f32 = 14.0;

/// Shows the calendar of a workpiece, and ticks operations of the board off; the words are for the line below.
pub fn calendar_view_ui(ui: &mut Ui, board: &mut Board, workpiece: &Workpiece) -> String {
    let calendar = match workpiece.calendar() {
        Ok(calendar) => calendar,
        Err(error) => {
            ui.centered_and_justified(|ui| ui.label(format!("No calendar can be made: {error}.")));
            return String::new();
        }
    };
    about(ui, workpiece, calendar);
    let rows = workpiece.work_plan();
    let mut told =
        "Rest on a bar for its times; click to mark the operation done today, click again to clear it".into();
    let mut clicked = None;
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        ui.horizontal_top(|ui| {
            ui.add_space(theme::GAP);
            names(ui, rows, calendar);
            let room = (ui.available_width() - BAR).max(80.0);
            let days = calendar.every_day().count() as f32;
            let scale = Scale {
                first: calendar.first,
                day: (room / days).clamp(LEAST_DAY, WIDE_DAY),
            };
            ScrollArea::horizontal()
                .auto_shrink([false, true])
                .show(ui, |ui| {
                    let size = vec2(scale.day * days, HEAD + ROW * rows.operations.len() as f32);
                    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
                    grounds(ui, rect, calendar, &scale, workpiece);
                    for (at, operation) in rows.operations.iter().enumerate() {
                        let top = rect.top() + HEAD + ROW * at as f32;
                        let row = egui::Rect::from_min_size(
                            egui::pos2(rect.left(), top),
                            vec2(size.x, ROW),
                        );
                        let words = words_of(operation, rows, calendar, at, workpiece);
                        if row_ui(ui, row, (at, operation), calendar, &scale, &words) {
                            clicked = Some((operation.task, operation.number));
                        }
                        if ui.rect_contains_pointer(row) {
                            told = words;
                        }
                    }
                    dates(ui, rect, calendar, &scale, workpiece);
                });
        });
    });
    if let Some((task, number)) = clicked {
        tick(
            board,
            task,
            number,
            workpiece.today().map(|today| today.day),
        );
    }
    told
}

/// The days in a sentence, and the meaning of the bars.
fn about(ui: &mut Ui, workpiece: &Workpiece, calendar: &Calendar) {
    let units = workpiece.units();
    let day = |day: Day| day.with_weekday(units);
    let boards = match calendar.boards {
        1 => "1 board".into(),
        boards => format!("{boards} boards"),
    };
    let words = format!(
        "{boards}: begins {}, done {}",
        day(calendar.first),
        day(calendar.last)
    );
    let indented = |ui: &mut Ui, words: RichText| {
        ui.horizontal(|ui| {
            ui.add_space(theme::GAP);
            ui.add(egui::Label::new(words).wrap());
        });
    };
    indented(ui, theme::bold(words));
    let legend =
        "Filled: hands-on time · hatched: waiting · heavy outline and bold name: critical path";
    indented(ui, theme::quiet(legend));
}

/// The names of the operations, those on the critical path in bold.
fn names(ui: &mut Ui, plan: &WorkPlan, calendar: &Calendar) {
    let size = vec2(NAMES, HEAD + ROW * plan.operations.len() as f32);
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    let ink = Tokens::of(ui).ink;
    for (at, operation) in plan.operations.iter().enumerate() {
        let middle = rect.top() + HEAD + ROW * (at as f32 + 0.5);
        let all = calendar.of_operation(at);
        let family = if all.iter().any(Dated::is_critical) {
            theme::strong()
        } else {
            egui::FontFamily::Proportional
        };
        let mark = if all.iter().any(|it| it.done.is_some()) {
            "✓ "
        } else {
            ""
        };
        let words = format!("{mark}{}", title(operation, plan));
        let font = theme::body(family);
        let at = egui::pos2(rect.left(), middle);
        ui.painter()
            .text(at, egui::Align2::LEFT_CENTER, words, font, ink);
    }
    head(ui, rect);
}

/// The title of an operation, with its number where there are several of its task.
pub fn title(operation: &Operation, plan: &WorkPlan) -> String {
    let title = operation.task.title();
    if plan.of(operation.task).count() > 1 {
        return format!("{title} {}", operation.number);
    }
    title.into()
}

/// One operation in words: when, how long hands are at it, the wait, the slack.
fn words_of(
    operation: &Operation,
    plan: &WorkPlan,
    calendar: &Calendar,
    at: usize,
    workpiece: &Workpiece,
) -> String {
    let all = calendar.of_operation(at);
    let units = workpiece.units();
    let (Some(first), Some(last)) = (all.first(), all.last()) else {
        return title(operation, plan);
    };
    let when = match all.len() {
        1 => calendar.when_words(first, units),
        _ => format!(
            "first board {}, last board {}",
            calendar.when_words(first, units),
            calendar.when_words(last, units)
        ),
    };
    let wait = operation.wait.map_or_else(String::new, |wait| {
        let hours = board::Measure::hours(wait.hours).shown(units);
        format!(", then {hours}: {}", wait.reason)
    });
    let least = all.iter().min_by_key(|it| it.slack).unwrap_or(first);
    let slack = calendar.slack_words(least);
    format!("{}: {when}{wait}; {slack}", title(operation, plan))
}

/// A row of bars; returns whether it was clicked.
fn row_ui(
    ui: &Ui,
    row: egui::Rect,
    (at, operation): (usize, &Operation),
    calendar: &Calendar,
    scale: &Scale,
    words: &str,
) -> bool {
    let id = ui
        .scope_id()
        .with(("row", operation.task.title(), operation.number));
    let response = ui.interact(row, id, Sense::click());
    let is_done = calendar.of_operation(at).iter().any(|it| it.done.is_some());
    response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, is_done, words));
    bars(ui, row, calendar, calendar.of_operation(at), scale);
    if response.has_focus() || response.hovered() {
        let stroke = egui::Stroke::new(1.0, Tokens::of(ui).accent);
        ui.painter()
            .rect_stroke(row.shrink(1.0), 2.0, stroke, egui::StrokeKind::Inside);
    }
    // The words of a row would stay over a dialog that a key opens while the pointer rests on the row.
    if ui.memory(|memory| memory.top_modal_layer().is_some()) {
        return false;
    }
    response.on_hover_text_at_pointer(words).clicked()
}

/// Ticks an operation off today, or takes its tick away.
pub fn tick(board: &mut Board, task: Task, number: u32, today: Option<Day>) {
    let word = task.word();
    let done = &mut board.schedule.done;
    let before = done.len();
    done.retain(|it| !(it.task == word && it.number == number));
    if done.len() == before
        && let Some(day) = today
    {
        done.push(Done {
            task: word,
            number,
            day,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand;
    use egui_kittest::kittest::Queryable as _;
    use workshop::Today;

    fn view(ui: &mut Ui, board: &mut Board) {
        let today = Today {
            day: "2026-11-30".parse().unwrap(),
            zone: "America/New_York".into(),
        };
        let workpiece = Workpiece::of(board).unwrap().on(today);
        calendar_view_ui(ui, board, &workpiece);
    }

    #[test]
    fn a_click_ticks_an_operation_off_today_and_another_takes_it_back() {
        let mut panel = hand::panel(900.0, view);
        let row = "Resting the wood: Mon 2026-11-30 08:00";
        panel.get_by_label_contains(row).click();
        panel.run();
        let done = &panel.state().schedule.done;
        assert_eq!(done.len(), 1);
        assert_eq!(
            (done[0].task.as_str(), done[0].day.to_string()),
            ("rest", "2026-11-30".into())
        );
        panel
            .get_by_label_contains("Resting the wood: done")
            .click();
        panel.run();
        assert!(panel.state().schedule.done.is_empty());
    }

    #[test]
    fn a_row_tells_when_how_long_it_waits_and_what_a_day_late_would_do() {
        let panel = hand::panel(900.0, view);
        panel.get_by_label_contains(
            "then 168 h: the wood comes to the moisture of the shop; no slack: a day late here",
        );
        panel.get_by_label_contains("Printing the template: Mon 2026-11-30 08:20");
    }

    #[test]
    fn no_hours_are_told_in_place_of_bars() {
        let mut panel = hand::panel(900.0, view);
        panel.state_mut().schedule.hours = board::WorkHours {
            monday: 0.0,
            tuesday: 0.0,
            wednesday: 0.0,
            thursday: 0.0,
            friday: 0.0,
            saturday: 0.0,
            sunday: 0.0,
        };
        panel.run();
        panel.get_by_label_contains("No calendar can be made: no day of the week");
    }
}
