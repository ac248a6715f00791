//! Tests of calendars that were worked out by hand, and of rules that hold for all calendars.

mod edges;

use board::{Board, Coat, DaysOff, Done, Filling, Schedule, Timed, WorkHours};
use jiff::Timestamp;
use proptest::prelude::*;

use super::*;
use crate::{Operation, Task, Wait, WorkPlan};

fn day(text: &str) -> Day {
    text.parse().unwrap()
}

/// A board with this schedule.
fn board(schedule: Schedule) -> Board {
    Board {
        schedule,
        ..Board::default()
    }
}

fn on(board: &Board, today: &str) -> Workpiece {
    let today = Today {
        day: day(today),
        zone: "America/New_York".into(),
    };
    Workpiece::of(board).unwrap().on(today)
}

fn hours(each: [f64; 7]) -> WorkHours {
    let [
        monday,
        tuesday,
        wednesday,
        thursday,
        friday,
        saturday,
        sunday,
    ] = each;
    WorkHours {
        monday,
        tuesday,
        wednesday,
        thursday,
        friday,
        saturday,
        sunday,
    }
}

/// A plan of consecutive operations, each with its minutes and the hours of its wait.
fn chain(steps: &[(Task, f64, f64)]) -> WorkPlan {
    let operations = steps
        .iter()
        .enumerate()
        .map(|(at, (task, minutes, wait))| Operation {
            needs: at
                .checked_sub(1)
                .map(|operation| crate::Need {
                    operation,
                    why: "it comes first",
                })
                .into_iter()
                .collect(),
            wait: (*wait > 0.0).then_some(Wait {
                hours: *wait,
                reason: "it dries",
                source: "",
            }),
            ..Operation::of(*task).with("", *minutes)
        });
    WorkPlan {
        method: crate::Method::Template,
        operations: operations.collect(),
    }
}

/// The start and end of each step of a plan, in the maker's time.
fn dated(plan: &WorkPlan, schedule: &Schedule, today: Option<&str>) -> Vec<String> {
    let made = planned(plan, schedule, today).unwrap();
    let told = made.work.iter().map(|it| {
        let span = it.span().unwrap();
        let (from, to) = (made.local(span.from), made.local(span.to));
        let from = from.strftime("%a %Y-%m-%d %H:%M");
        format!("{from} to {}", to.strftime("%d %H:%M"))
    });
    told.collect()
}

fn planned(
    plan: &WorkPlan,
    schedule: &Schedule,
    today: Option<&str>,
) -> Result<Calendar, CalendarError> {
    let today = today.map(|text| Today {
        day: day(text),
        zone: String::new(),
    });
    scheduled(plan, schedule, today.as_ref(), |it| BatchTime {
        set_up: 0.0,
        each: it.hands_on.minutes,
    })
}

fn schedule(start: Option<&str>, promised: Option<&str>) -> Schedule {
    Schedule {
        start: start.map(day),
        promised: promised.map(day),
        zone: "America/New_York".into(),
        ..Schedule::default()
    }
}

#[test]
fn glue_dries_over_a_weekend() {
    // Friday 4 Dec 2026: an hour of jointing, half an hour of glue-up at 9:00, then 24 hours until Saturday 9:30, when nobody
    // works.
    let plan = chain(&[
        (Task::Joint, 60.0, 0.0),
        (Task::Glue, 30.0, 24.0),
        (Task::Flatten, 40.0, 0.0),
    ]);
    assert_eq!(
        dated(&plan, &schedule(Some("2026-12-04"), None), None),
        [
            "Fri 2026-12-04 08:00 to 04 09:00",
            "Fri 2026-12-04 09:00 to 04 09:30",
            "Mon 2026-12-07 08:00 to 07 08:40"
        ]
    );
}

#[test]
fn work_continues_at_once_when_a_wait_ends_in_working_hours() {
    // 24 hours after Tuesday 10:00, plus half an hour of hands-on work, is Wednesday 10:30.
    let plan = chain(&[
        (Task::Joint, 120.0, 0.0),
        (Task::Glue, 30.0, 24.0),
        (Task::Flatten, 40.0, 0.0),
    ]);
    let told = dated(&plan, &schedule(Some("2026-12-01"), None), None);
    assert_eq!(told[2], "Wed 2026-12-02 10:30 to 02 11:10");
}

#[test]
fn drilling_continues_after_a_holiday_and_a_glue_up_waits_for_its_end() {
    // Wednesday 25 Nov 2026, before Thanksgiving, with Friday off too: 12 hours of drilling are 8 on Wednesday and 4 on Monday.
    let off: DaysOff = "2026-11-26 to 2026-11-27".parse().unwrap();
    let schedule = Schedule {
        days_off: vec![off],
        ..schedule(Some("2026-11-25"), None)
    };
    let plan = chain(&[(Task::PunchedBores, 720.0, 0.0), (Task::Sand, 61.0, 0.0)]);
    assert_eq!(
        dated(&plan, &schedule, None),
        [
            "Wed 2026-11-25 08:00 to 30 12:00",
            "Mon 2026-11-30 12:00 to 30 13:01"
        ]
    );
    let made = planned(&plan, &schedule, None).unwrap();
    assert_eq!(made.work[0].stretches.len(), 2);
    // Jointing for seven and a half hours leaves half an hour, too little to begin a glue-up of 50 minutes.
    let plan = chain(&[(Task::Joint, 450.0, 0.0), (Task::Glue, 50.0, 0.0)]);
    assert_eq!(
        dated(&plan, &schedule, None)[1],
        "Mon 2026-11-30 08:00 to 30 08:50"
    );
}

#[test]
fn backward_planning_ends_the_last_work_on_the_promised_day() {
    // Promised for Sunday 13 Dec 2026: the work ends on Friday at 16:00, after 24 hours of drying and 30 minutes of coating.
    let plan = chain(&[(Task::Coat, 30.0, 24.0), (Task::HandOver, 20.0, 0.0)]);
    assert_eq!(
        dated(
            &plan,
            &schedule(None, Some("2026-12-13")),
            Some("2026-12-01")
        ),
        [
            "Thu 2026-12-10 15:10 to 10 15:40",
            "Fri 2026-12-11 15:40 to 11 16:00"
        ]
    );
}

#[test]
fn a_promise_that_cannot_be_kept_is_planned_as_early_as_possible() {
    let plan = chain(&[(Task::Coat, 30.0, 72.0), (Task::HandOver, 20.0, 0.0)]);
    // 72 hours after Friday 4 Dec is Monday 8:30; for the promised Saturday, Wednesday was the last day to begin.
    let made = planned(
        &plan,
        &schedule(None, Some("2026-12-05")),
        Some("2026-12-04"),
    )
    .unwrap();
    let promise = made.promise.unwrap();
    assert!(!promise.is_kept && !made.is_backward);
    assert_eq!(promise.earliest, Some(day("2026-12-07")));
    assert_eq!(promise.first_day, Some(day("2026-12-01")));
    assert_eq!(made.last, day("2026-12-07"));
}

#[test]
fn february_has_29_days_in_a_leap_year() {
    // 24 hours after Monday 28 Feb 2028 is Tuesday the 29th; 24 hours more is Wednesday 1 March.
    let plan = chain(&[
        (Task::Coat, 30.0, 24.0),
        (Task::Coat, 30.0, 24.0),
        (Task::Coat, 30.0, 0.0),
    ]);
    assert_eq!(
        dated(&plan, &schedule(Some("2028-02-28"), None), None),
        [
            "Mon 2028-02-28 08:00 to 28 08:30",
            "Tue 2028-02-29 08:30 to 29 09:00",
            "Wed 2028-03-01 09:00 to 01 09:30"
        ]
    );
}

/// Clocks in New York go forward on Sunday 14 March 2027 and back on Sunday 7 November 2027, at 2:00.
#[test]
fn waits_run_in_real_hours_when_clocks_change() {
    let week = Schedule {
        hours: hours([8.0; 7]),
        ..schedule(Some("2027-03-13"), None)
    };
    let plan = chain(&[(Task::Coat, 30.0, 24.0), (Task::Coat, 30.0, 0.0)]);
    // 24 hours after Saturday 8:30 is Sunday 9:30, as an hour is skipped.
    assert_eq!(
        dated(&plan, &week, None)[1],
        "Sun 2027-03-14 09:30 to 14 10:00"
    );
    let week = Schedule {
        start: Some(day("2027-11-06")),
        ..week
    };
    // With an hour more in the day, 24 hours are over at 7:30, before work begins at 8:00.
    assert_eq!(
        dated(&plan, &week, None)[1],
        "Sun 2027-11-07 08:00 to 07 08:30"
    );
    let utc = Schedule {
        zone: "UTC".into(),
        ..week
    };
    assert_eq!(
        dated(&plan, &utc, None)[1],
        "Sun 2027-11-07 08:30 to 07 09:00"
    );
}

#[test]
fn two_sets_of_clamps_are_four_hours_apart() {
    let plan = chain(&[(Task::Glue, 30.0, 24.0)]);
    let of = |clamps| Schedule {
        boards: 3,
        clamps,
        ..schedule(Some("2026-12-01"), None)
    };
    let told = dated(&plan, &of(2), None);
    let begins: Vec<&str> = told.iter().map(|it| &it[4..20]).collect();
    assert_eq!(
        begins,
        ["2026-12-01 08:00", "2026-12-01 08:30", "2026-12-01 12:30"]
    );
    assert_eq!(&dated(&plan, &of(3), None)[2][4..20], "2026-12-01 09:00");
    assert_eq!(&dated(&plan, &of(1), None)[2][4..20], "2026-12-02 08:00");
}

#[test]
fn a_step_ticked_off_stays_on_its_day_and_the_rest_is_planned_around_it() {
    let mut board = board(schedule(None, None));
    board.schedule.done.push(Done {
        task: "rest".into(),
        number: 1,
        day: day("2026-11-20"),
    });
    let workpiece = on(&board, "2026-11-30");
    let made = workpiece.calendar().unwrap();
    assert_eq!(made.work[0].done, Some(day("2026-11-20")));
    assert_eq!(made.first, day("2026-11-20"));
    // A week's rest was over on the 27th, so the next step is done today.
    let next = made.work.iter().find(|it| it.operation == 1).unwrap();
    assert_eq!(
        made.local(next.span().unwrap().from).date(),
        day("2026-11-30").date()
    );
    board.schedule.done[0].day = day("2026-11-28");
    let workpiece = on(&board, "2026-11-30");
    let made = workpiece.calendar().unwrap();
    let resaw = workpiece
        .work_plan()
        .operations
        .iter()
        .position(|it| it.task == Task::Flatten);
    let flat = made.of_operation(resaw.unwrap())[0].span().unwrap();
    assert!(made.local(flat.from).date() >= day("2026-12-05").date());
}

#[test]
fn typed_times_replace_common_practice() {
    let mut board = board(schedule(Some("2026-12-01"), None));
    board.schedule.timed.push(Timed {
        task: "punched-bores".into(),
        minutes: 123.0,
    });
    let workpiece = Workpiece::of(&board).unwrap();
    let bores = workpiece.work_plan().of(Task::PunchedBores).next().unwrap();
    assert_eq!(bores.hands_on.minutes.to_bits(), 123.0_f64.to_bits());
    assert_eq!(bores.hands_on.source, crate::job::TIMED);
}

#[test]
fn work_that_cannot_be_split_must_fit_into_a_day() {
    let plan = chain(&[(Task::Glue, 150.0, 24.0)]);
    let short = Schedule {
        hours: hours([2.0; 7]),
        ..schedule(Some("2026-12-01"), None)
    };
    let refused = planned(&plan, &short, None).unwrap_err();
    assert!(matches!(
        refused,
        CalendarError::TooLong {
            minutes: 150,
            longest: 120,
            ..
        }
    ));
    let drilled = chain(&[(Task::PunchedBores, 150.0, 24.0)]);
    assert!(planned(&drilled, &short, None).is_ok());
}

#[test]
fn missing_hours_zones_and_days_are_reported() {
    let plan = chain(&[(Task::Glue, 30.0, 24.0)]);
    let none = Schedule {
        hours: hours([0.0; 7]),
        ..schedule(Some("2026-12-01"), None)
    };
    assert_eq!(planned(&plan, &none, None), Err(CalendarError::NoHours));
    let lost = Schedule {
        zone: "Nowhere/Else".into(),
        ..schedule(Some("2026-12-01"), None)
    };
    assert_eq!(
        planned(&plan, &lost, None),
        Err(CalendarError::Zone("Nowhere/Else".into()))
    );
    assert_eq!(
        planned(&plan, &schedule(None, None), None),
        Err(CalendarError::NoDay)
    );
    let off: DaysOff = "2026-01-01 to 2199-12-31".parse().unwrap();
    let never = Schedule {
        days_off: vec![off],
        ..schedule(Some("2026-12-01"), None)
    };
    assert_eq!(planned(&plan, &never, None), Err(CalendarError::TooFar));
}

#[test]
fn the_critical_path_runs_from_the_first_day_to_the_last() {
    let workpiece = on(&board(schedule(None, None)), "2026-11-30");
    let made = workpiece.calendar().unwrap();
    let first = made.work.iter().find(|it| it.is_critical()).unwrap();
    assert_eq!(first.operation, 0);
    assert!(made.work.last().unwrap().is_critical());
    // The template is printed while the wood rests.
    let print = workpiece
        .work_plan()
        .operations
        .iter()
        .position(|it| it.task == Task::Print);
    assert!(made.of_operation(print.unwrap())[0].slack >= 4);
}

/// Bores at punch marks: 15 minutes to set up the press, and one minute for each of 144 holes; the price uses the same times.
#[test]
fn the_first_board_includes_the_setup_and_the_total_is_what_the_price_charges() {
    let mut board = board(Schedule {
        boards: 4,
        ..Schedule::default()
    });
    board.filling = Some(Filling::default());
    board.finish = vec![Coat::default(); 2];
    for promised in [None, Some(day("2027-12-01"))] {
        board.schedule.promised = promised;
        let workpiece = on(&board, "2026-11-30");
        let calendar = workpiece.calendar().unwrap();
        let operations = &workpiece.work_plan().operations;
        for time in &workpiece.costing().times {
            let is_it = |it: &Operation| it.task == time.task && it.number == time.number;
            let at = operations.iter().position(is_it).unwrap();
            let dated = calendar.of_operation(at);
            let minutes: Vec<i64> = dated.iter().map(minutes_of).collect();
            if time.task == Task::PunchedBores {
                assert_eq!(minutes, [15 + 144, 144, 144, 144]);
            }
            let (all, charged) = (minutes.iter().sum::<i64>() as f64, time.total());
            let rounded = all - charged;
            assert!(
                (-1e-6..4.0).contains(&rounded),
                "{:?} {minutes:?} {charged}",
                time.task
            );
            let begins = dated.iter().map(|it| it.span().unwrap().from);
            assert_eq!(
                begins.min(),
                dated[0].span().map(|it| it.from),
                "{:?}",
                time.task
            );
        }
    }
}

/// Hands-on minutes.
fn minutes_of(dated: &Dated) -> i64 {
    let each = dated.stretches.iter();
    each.map(|it| (it.to.as_second() - it.from.as_second()) / 60)
        .sum()
}

#[test]
fn two_hundred_boards_are_planned_in_good_time() {
    let mut board = board(schedule(None, None));
    board.schedule.boards = 200;
    board.finish = vec![Coat::default(); 3];
    board.filling = Some(Filling::default());
    let begun = std::time::Instant::now();
    let workpiece = on(&board, "2026-11-30");
    let made = workpiece.calendar().unwrap();
    assert!(made.work.len() > 2000);
    assert!(begun.elapsed().as_secs() < 20, "{:?}", begun.elapsed());
}

/// Checks that hold for every calendar.
fn check_all(workpiece: &Workpiece, made: &Calendar) -> Result<(), TestCaseError> {
    let plan = workpiece.work_plan();
    let schedule = &workpiece.board().schedule;
    let left = |it: &&Dated| it.done.is_none();
    // Every operation occurs once per board, or once for all.
    for at in 0..plan.operations.len() {
        let boards: Vec<Option<u32>> = made.of_operation(at).iter().map(|it| it.board).collect();
        let each: Vec<Option<u32>> = (1..=schedule.boards).map(Some).collect();
        prop_assert!(boards == [None] || boards == each, "{boards:?}");
    }
    // Predecessors and waits are respected.
    for later in made.work.iter().filter(left) {
        for need in &plan.operations[later.operation].needs {
            for before in made.of_operation(need.operation) {
                if before.board.is_none() || later.board.is_none() || before.board == later.board {
                    prop_assert!(later.span().unwrap().from >= before.ready);
                }
            }
        }
    }
    // One thing at a time, and only in working hours.
    let mut hands: Vec<Stretch> = made
        .work
        .iter()
        .filter(left)
        .flat_map(|it| it.stretches.clone())
        .filter(|it| it.from < it.to)
        .collect();
    hands.sort_by_key(|it| it.from);
    for pair in hands.windows(2) {
        prop_assert!(pair[0].to <= pair[1].from);
    }
    for stretch in hands {
        let date = made.local(stretch.from).date();
        let days = [date.yesterday().unwrap(), date];
        let within = days.into_iter().any(|date| {
            let Some(opens) = made.days.opens(date) else {
                return false;
            };
            let closes = opens + made.days.minutes(date);
            timestamp(opens) <= stretch.from && stretch.to <= timestamp(closes)
        });
        prop_assert!(within, "{stretch:?}");
    }
    // A kept promise is never exceeded.
    if let Some(promise) = made.promise.filter(|it| it.is_kept) {
        let end = made.bounds(promise.day).to;
        prop_assert!(made.work.iter().all(|it| it.ready <= end));
    }
    Ok(())
}

fn timestamp(minute: i64) -> Timestamp {
    Timestamp::from_second(minute * 60).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn no_calendar_breaks_a_rule(
        boards in 1..7_u32,
        week in prop::array::uniform7(prop::sample::select(vec![0.0, 2.5, 8.0, 11.75])),
        begins in 0..24_u16,
        stations in (1..4_u32, 1..4_u32),
        coats in 0..4_usize,
        is_filled in any::<bool>(),
        promised in prop::option::of(0..400_i64),
        zone in prop::sample::select(vec!["America/New_York", "Australia/Lord_Howe", "UTC", "Asia/Kathmandu"]),
        done in prop::collection::vec((0..41_usize, 0..40_i64), 0..6),
    ) {
        let today = day("2027-02-20");
        let later = |days: i64| Day::of(today.date() + jiff::Span::new().days(days));
        let done = done.into_iter().map(|(task, ago)| Done {
            task: Task::ALL[task].word(),
            number: 1,
            day: later(-ago).unwrap(),
        });
        let board = Board {
            finish: vec![Coat::default(); coats],
            filling: is_filled.then(Filling::default),
            schedule: Schedule {
                boards,
                hours: hours(week),
                begins: board::Clock::of(begins * 60).unwrap(),
                clamps: stations.0,
                drying: stations.1,
                promised: promised.and_then(later),
                zone: zone.into(),
                days_off: vec!["2027-03-01 to 2027-03-05".parse().unwrap()],
                done: done.collect(),
                ..Schedule::default()
            },
            ..Board::default()
        };
        let workpiece = on(&board, "2027-02-20");
        match workpiece.calendar() {
            Ok(made) => check_all(&workpiece, made)?,
            Err(error) => prop_assert!(
                matches!(error, CalendarError::NoHours | CalendarError::TooLong { .. }),
                "{error}"
            ),
        }
    }
}

/// The promise of many boards is judged once their calendar is worked out in the background, and the shop math has it only
/// then.
#[test]
fn calendars_of_many_boards_are_worked_out_in_the_background_and_then_judged() {
    let mut board = Board::default();
    board.schedule.boards = 200;
    board.schedule.promised = "2026-12-24".parse().ok();
    let today = Today {
        day: "2026-11-30".parse().unwrap(),
        zone: "UTC".into(),
    };
    let workpiece = Workpiece::of(&board).unwrap().on(today);
    let is_judged = || {
        let mut found = workpiece.findings().iter();
        found.any(|found| found.rule == crate::Rule::Calendar)
    };
    let is_summed = || {
        workpiece
            .sums()
            .iter()
            .any(|group| group.heading == "calendar")
    };
    assert!(workpiece.calendar_is_waiting() && !is_judged() && !is_summed());
    workpiece.work_out(&|| false).unwrap();
    assert!(!workpiece.calendar_is_waiting() && is_judged() && is_summed());
}
