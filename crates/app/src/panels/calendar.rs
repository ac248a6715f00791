//! Controls of the calendar: the order, the maker's hours, own times, and what is done.

use board::{Board, Day, Field, Timed, Units, field};
use egui::{ComboBox, Ui};
use workshop::{Calendar, Task, Workpiece};

use super::rows::{add_button, fact, remark};
use crate::calendar_view::{tick, title};
use crate::current::Current;
use crate::widgets::{entry_ui, field_width, fields_ui, in_field, row};

/// The order and its days.
pub fn order_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    fields_ui(
        ui,
        board,
        &[&field::ORDERED, &field::FIRST_DAY, &field::PROMISED],
    );
    let Some(workpiece) = current.good() else {
        return;
    };
    let calendar = match workpiece.calendar_by_now() {
        Some(Ok(calendar)) => calendar,
        Some(Err(_)) => {
            remark(ui, "There is no calendar; the findings say why.");
            return;
        }
        None => {
            remark(ui, "Working out the days of all boards…");
            return;
        }
    };
    days_ui(ui, calendar, board.units);
}

/// First and last day of the work, and whether the promise can be kept.
fn days_ui(ui: &mut Ui, calendar: &Calendar, units: Units) {
    let told = |day: Day| day.with_weekday(units);
    let work = "From the operations, your hours and your days off";
    fact(ui, "Work begins", &told(calendar.first), work);
    fact(ui, "All finished", &told(calendar.last), work);
    let Some(promise) = &calendar.promise else {
        return;
    };
    let kept = if promise.is_kept {
        "can be kept"
    } else {
        "cannot be kept"
    };
    let from = "From the last day of work and the date promised";
    fact(ui, "The promise", kept, from);
    if let Some(first) = promise.first_day {
        let from = "Counted back from the date promised";
        fact(ui, "Begin by", &told(first), from);
    }
    if let Some(earliest) = promise.earliest {
        let from = "Counted forward from the first day";
        fact(ui, "Earliest end", &told(earliest), from);
    }
}

/// The maker's hours and stations, which the shop keeps.
pub fn hours_ui(ui: &mut Ui, board: &mut Board) {
    const HOURS: [&Field; 12] = [
        &field::HOURS_MONDAY,
        &field::HOURS_TUESDAY,
        &field::HOURS_WEDNESDAY,
        &field::HOURS_THURSDAY,
        &field::HOURS_FRIDAY,
        &field::HOURS_SATURDAY,
        &field::HOURS_SUNDAY,
        &field::BEGINS,
        &field::DAYS_OFF,
        &field::ZONE,
        &field::CLAMPS,
        &field::DRYING,
    ];
    fields_ui(ui, board, &HOURS);
}

/// The maker's own times, task by task.
pub fn times_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    let mut gone = None;
    for at in 0..board.schedule.timed.len() {
        if let Some(workpiece) = current.good() {
            task_ui(ui, board, workpiece, at);
        }
        entry_ui(ui, board, &field::TIMED_MINUTES, at);
        if ui.button(format!("Remove time {}", at + 1)).clicked() {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        board.schedule.timed.remove(at);
    }
    let count = board.schedule.timed.len();
    if add_button(ui, "Add your own time", count, &field::TIMED) {
        board.schedule.timed.push(untimed(board, current));
    }
}

/// The first task of the plan for which the maker has typed no time, with its minutes by common practice.
fn untimed(board: &Board, current: &Current) -> Timed {
    let has = |task: Task| board.schedule.timed.iter().any(|it| it.task == task.word());
    let plan = current.good().map(|it| it.work_plan());
    let mut open = plan.into_iter().flat_map(|plan| &plan.operations);
    let open = open.find(|it| it.hands_on.minutes > 0.0 && !has(it.task));
    open.map_or_else(Timed::default, |it| Timed {
        task: it.task.word(),
        minutes: it.hands_on.minutes.round(),
    })
}

/// The task of an own time, one of those in the plan.
fn task_ui(ui: &mut Ui, board: &mut Board, workpiece: &Workpiece, at: usize) {
    let Some(timed) = board.schedule.timed.get_mut(at) else {
        return;
    };
    let caption = field::TIMED_TASK.label(at);
    row(ui, &caption, |ui, id| {
        let chosen = Task::of_word(&timed.task)
            .map_or_else(|| timed.task.clone(), |task| task.title().into());
        let combo = ComboBox::from_id_salt(&caption)
            .selected_text(chosen)
            .width(field_width(ui))
            .wrap();
        let shown = in_field(ui, |ui| {
            combo.show_ui(ui, |ui| {
                for task in workpiece.work_plan().tasks() {
                    ui.selectable_value(&mut timed.task, task.word(), task.title());
                }
            })
        });
        shown.response.labelled_by(id)
    });
}

/// A check box for every operation of the plan, and the day it was done.
pub fn done_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    let Some(workpiece) = current.good() else {
        return;
    };
    let plan = workpiece.work_plan();
    for operation in &plan.operations {
        let (task, number) = (operation.task, operation.number);
        let word = task.word();
        let is_it = |it: &board::Done| it.task == word && it.number == number;
        let place = board.schedule.done.iter().position(is_it);
        let mut is_done = place.is_some();
        let name = format!("Done: {}", title(operation, plan));
        if ui.checkbox(&mut is_done, name).changed() {
            tick(
                board,
                task,
                number,
                workpiece.today().map(|today| today.day),
            );
        } else if let Some(at) = place {
            entry_ui(ui, board, &field::DONE_DAY, at);
        }
    }
    let strange = |it: &board::Done| {
        let task = Task::of_word(&it.task);
        !task.is_some_and(|task| plan.of(task).any(|operation| operation.number == it.number))
    };
    if board.schedule.done.iter().any(strange)
        && ui
            .button("Remove ticks of what is not in the plan")
            .clicked()
    {
        board.schedule.done.retain(|it| !strange(it));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, press, sees, type_into, write_into};
    use workshop::Today;

    /// Today is Monday 30 Nov 2026.
    fn on(board: &Board) -> Current {
        let mut current = Current::of(board);
        current.be_on(Some(Today {
            day: "2026-11-30".parse().unwrap(),
            zone: "America/New_York".into(),
        }));
        current.refresh(board);
        current
    }

    #[test]
    fn the_order_tells_its_days_and_what_a_promise_needs() {
        let mut panel = hand::panel(900.0, |ui, board| order_ui(ui, board, &on(board)));
        type_into(&mut panel, "Boards ordered", "12");
        assert_eq!(panel.state().schedule.boards, 12);
        assert!(sees(&panel, "Mon 2026-11-30"));
        write_into(&mut panel, "Promised for", "12/4/2026");
        assert_eq!(panel.state().schedule.promised, "2026-12-04".parse().ok());
        assert!(sees(&panel, "cannot be kept"));
        write_into(&mut panel, "Promised for", "someday");
        assert!(sees(&panel, "Not a date: \"someday\""));
        write_into(&mut panel, "Promised for", "2027-06-30");
        assert!(sees(&panel, "can be kept"));
    }

    #[test]
    fn hours_days_off_and_zone_are_typed() {
        let mut panel = hand::panel(900.0, hours_ui);
        type_into(&mut panel, "Saturday", "4 h");
        write_into(&mut panel, "Work begins at", "7:30 am");
        write_into(
            &mut panel,
            "Days off",
            "11/26/2026; 2026-12-24 to 2027-01-02",
        );
        write_into(&mut panel, "Time zone", "america/chicago");
        let schedule = &panel.state().schedule;
        assert!((schedule.hours.saturday - 4.0).abs() < 1e-9);
        assert_eq!(schedule.begins.to_string(), "07:30");
        assert_eq!(schedule.days_off.len(), 2);
        assert_eq!(schedule.zone, "America/Chicago");
        write_into(&mut panel, "Time zone", "Nowhere/Else");
        assert!(sees(&panel, "Not a time zone"));
        assert_eq!(panel.state().schedule.zone, "America/Chicago");
    }

    #[test]
    fn own_times_and_ticks_are_added_and_taken_away() {
        let mut panel = hand::panel(1400.0, |ui, board| {
            let current = on(board);
            times_ui(ui, board, &current);
            done_ui(ui, board, &current);
        });
        press(&mut panel, "Add your own time");
        type_into(&mut panel, "Time 1, each", "45 min");
        assert_eq!(panel.state().schedule.timed[0].task, "rest");
        press(&mut panel, "Remove time 1");
        assert!(panel.state().schedule.timed.is_empty());
        press(&mut panel, "Done: Resting the wood");
        write_into(&mut panel, "Done 1, on", "11/20/2026");
        assert_eq!(panel.state().schedule.done[0].day.to_string(), "2026-11-20");
        press(&mut panel, "Done: Resting the wood");
        assert!(panel.state().schedule.done.is_empty());
    }
}
