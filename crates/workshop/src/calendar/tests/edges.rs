//! Tests of calendars with ticks, promises, and orders at the limits of planning.

use super::*;

/// The schedule of a chain with operations ticked off on a day.
fn ticked(schedule: Schedule, tasks: &[Task], on: &str) -> Schedule {
    let tick = |task: &Task| Done {
        task: task.word(),
        number: 1,
        day: day(on),
    };
    Schedule {
        done: tasks.iter().map(tick).collect(),
        ..schedule
    }
}

#[test]
fn a_wait_began_when_its_predecessors_were_over() {
    let plan = chain(&[(Task::Coat, 30.0, 24.0), (Task::Harden, 0.0, 240.0)]);
    for promised in [None, Some("2026-12-24")] {
        let coated = ticked(schedule(None, promised), &[Task::Coat], "2026-11-20");
        let last = |today| planned(&plan, &coated, Some(today)).unwrap().last;
        // Friday 20 Nov at 17:00, a day to dry, and ten days more.
        assert_eq!(last("2026-11-23"), day("2026-12-01"), "{promised:?}");
        assert_eq!(last("2026-11-27"), day("2026-12-01"), "{promised:?}");
    }
}

#[test]
fn a_finished_plan_keeps_its_promise() {
    let plan = chain(&[(Task::Coat, 30.0, 24.0)]);
    let of = |promised| {
        let coated = ticked(schedule(None, Some(promised)), &[Task::Coat], "2026-11-20");
        let made = planned(&plan, &coated, Some("2026-11-20")).unwrap();
        made.promise.unwrap()
    };
    assert!(of("2026-11-24").is_kept);
    let early = of("2026-11-20");
    assert_eq!(
        (early.is_kept, early.earliest),
        (false, Some(day("2026-11-22")))
    );
}

#[test]
fn an_open_coat_is_waited_for_although_a_later_one_is_ticked() {
    let coats = (1..=2).map(|number| Operation {
        number,
        needs: Vec::new(),
        ..Operation::of(Task::Coat).with("", 30.0)
    });
    let mut plan = chain(&[]);
    plan.operations = coats
        .chain([Operation::of(Task::HandOver).with("", 20.0)])
        .collect();
    plan.operations[1].needs = vec![crate::Need {
        operation: 0,
        why: "",
    }];
    plan.operations[2].needs = vec![crate::Need {
        operation: 1,
        why: "",
    }];
    let mut second = ticked(
        schedule(Some("2026-12-01"), None),
        &[Task::Coat],
        "2026-11-20",
    );
    second.done[0].number = 2;
    let told = dated(&plan, &second, None);
    assert_eq!(told[0], "Tue 2026-12-01 08:00 to 01 08:30");
    assert_eq!(told[2], "Tue 2026-12-01 08:30 to 01 08:50");
}

#[test]
fn the_first_possible_day_can_be_promised() {
    let plan = chain(&[(Task::Coat, 30.0, 12.0)]);
    let of = |promised| {
        let made = planned(&plan, &schedule(Some("2026-12-01"), Some(promised)), None);
        made.unwrap().promise.unwrap()
    };
    // Dry at 20:30, when nobody is in the shop.
    let early = of("2026-12-01");
    assert_eq!(
        (early.is_kept, early.earliest),
        (false, Some(day("2026-12-02")))
    );
    assert!(of("2026-12-02").is_kept);
}

#[test]
fn work_until_midnight_ends_that_day_and_a_wait_beyond_all_calendars_is_an_error() {
    let late = Schedule {
        begins: board::Clock::of(16 * 60).unwrap(),
        hours: hours([8.0; 7]),
        ..schedule(Some("2026-12-01"), None)
    };
    let made = planned(&chain(&[(Task::Joint, 480.0, 0.0)]), &late, None).unwrap();
    assert_eq!((made.first, made.last), (late.start.unwrap(), made.first));
    let end = schedule(Some("2199-12-30"), None);
    let plan = chain(&[(Task::Coat, 30.0, 720.0)]);
    assert_eq!(planned(&plan, &end, None), Err(CalendarError::TooFar));
}

#[test]
fn a_board_occupies_a_drying_place_without_hands_on_work() {
    let plan = chain(&[(Task::Coat, 0.0, 24.0)]);
    let two = Schedule {
        boards: 2,
        drying: 1,
        ..schedule(Some("2026-12-01"), None)
    };
    let told = dated(&plan, &two, None);
    assert_eq!(
        told,
        [
            "Tue 2026-12-01 08:00 to 01 08:00",
            "Wed 2026-12-02 08:00 to 02 08:00"
        ]
    );
}

#[test]
fn an_order_with_too_many_operations_is_refused_at_once() {
    let plan = chain(&vec![(Task::Sand, 10.0, 0.0); 150]);
    let all = Schedule {
        boards: 200,
        ..schedule(Some("2026-12-01"), None)
    };
    let refused = planned(&plan, &all, None).unwrap_err();
    assert_eq!(refused, CalendarError::TooMany { jobs: 30_000 });
    assert!(refused.to_string().contains("the 20000 that can"));
}
