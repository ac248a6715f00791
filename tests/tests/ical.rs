//! The calendar read back by an independent reader: every period of work is there, at the right time, once.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use std::collections::BTreeSet;

use board::{Board, Coat, Filling, Schedule};
use jiff::Timestamp;
use testkit::IcalPart;
use workshop::Workpiece;

fn order() -> Board {
    Board {
        title: "Six lobes, walnut; \"first\" – für Ümit".into(),
        finish: vec![Coat::default(); 3],
        filling: Some(Filling::default()),
        schedule: Schedule {
            boards: 3,
            start: "2027-03-01".parse().ok(),
            zone: "America/New_York".into(),
            ..Schedule::default()
        },
        ..Board::default()
    }
}

/// A timestamp as written in the file.
fn instant(text: &str) -> Timestamp {
    let figures: String = text.chars().filter(char::is_ascii_digit).collect();
    assert_eq!((text.len(), figures.len()), (16, 14), "{text}");
    let part = |from: usize, to: usize| &figures[from..to];
    let iso = format!(
        "{}-{}-{}T{}:{}:{}Z",
        part(0, 4),
        part(4, 6),
        part(6, 8),
        part(8, 10),
        part(10, 12),
        part(12, 14)
    );
    iso.parse().unwrap()
}

#[test]
fn every_period_of_work_is_an_event_at_the_right_time() {
    let workpiece = Workpiece::of(&order()).unwrap();
    let calendar = workpiece.calendar().unwrap();
    let stamp: Timestamp = "2027-02-20T15:30:00Z".parse().unwrap();
    let file = IcalPart::read(&export::ical(&workpiece, calendar, stamp)).unwrap();
    assert_eq!(file.name, "VCALENDAR");
    assert_eq!(file.value("VERSION"), Some("2.0"));
    assert_eq!(file.value("X-WR-TIMEZONE"), Some("America/New_York"));
    assert!(
        file.parts
            .iter()
            .all(|part| part.name == "VEVENT" && part.parts.is_empty())
    );

    let mut read: Vec<(Timestamp, Timestamp)> = Vec::new();
    let mut names = BTreeSet::new();
    for event in &file.parts {
        assert_eq!(event.value("DTSTAMP"), Some("20270220T153000Z"));
        assert!(names.insert(event.value("UID").unwrap().to_owned()));
        let description = event.text("DESCRIPTION").unwrap();
        assert!(
            description.starts_with("Six lobes, walnut; \"first\" – für Ümit\n"),
            "{description}"
        );
        assert!(!event.text("SUMMARY").unwrap().is_empty());
        read.push((
            instant(event.value("DTSTART").unwrap()),
            instant(event.value("DTEND").unwrap()),
        ));
    }
    let stretches = calendar.work.iter().flat_map(|it| &it.stretches);
    let mut planned: Vec<_> = stretches
        .map(|it| (it.from, it.to))
        .filter(|(from, to)| from < to)
        .collect();
    read.sort_unstable();
    planned.sort_unstable();
    assert_eq!(read, planned);
    // Work starts at eight by the wall clock before and after clocks go forward on March 14, 2027.
    let begins: BTreeSet<String> = read.iter().map(|(from, _)| from.to_string()).collect();
    assert!(
        begins.iter().any(|it| it.starts_with("2027-03-08T13:")),
        "{begins:?}"
    );
    assert!(
        begins
            .iter()
            .all(|it| it.as_str() < "2027-03-14" || !it.contains("T11:")),
        "{begins:?}"
    );
}

/// The UIDs of a board's events, which distinguish them from those of other orders.
fn uids(board: &Board) -> BTreeSet<String> {
    let workpiece = Workpiece::of(board).unwrap();
    let stamp = "2027-02-20T15:30:00Z".parse().unwrap();
    let bytes = export::ical(&workpiece, workpiece.calendar().unwrap(), stamp);
    let file = IcalPart::read(&bytes).unwrap();
    let names = file.parts.iter().map(|part| part.value("UID").unwrap());
    names.map(str::to_owned).collect()
}

#[test]
fn orders_with_the_same_title_share_no_events_and_each_keeps_its_own() {
    let one = uids(&order());
    let changes: [fn(&mut Board); 3] = [
        |board| board.price.customer = "Customer B".into(),
        |board| board.players = 4,
        |board| board.spaces = 15,
    ];
    for change in changes {
        let mut other = order();
        change(&mut other);
        assert!(one.is_disjoint(&uids(&other)));
    }
    // A board with one more coat, or another rate, is still the same order.
    let mut coated = order();
    coated.finish.push(Coat::default());
    coated.price.hourly = Some(45.0);
    let kept = uids(&coated);
    assert!(one.intersection(&kept).count() * 10 >= one.len() * 9);
}

#[test]
fn the_same_calendar_gives_the_same_bytes_and_a_later_one_keeps_its_uids() {
    let names = |board: &Board, stamp: &str| {
        let workpiece = Workpiece::of(board).unwrap();
        let bytes = export::ical(
            &workpiece,
            workpiece.calendar().unwrap(),
            stamp.parse().unwrap(),
        );
        let again = export::ical(
            &workpiece,
            workpiece.calendar().unwrap(),
            stamp.parse().unwrap(),
        );
        assert_eq!(bytes, again);
        let file = IcalPart::read(&bytes).unwrap();
        let all = file
            .parts
            .iter()
            .map(|part| part.value("UID").unwrap().to_owned());
        all.collect::<BTreeSet<_>>()
    };
    let mut later = order();
    later.schedule.start = "2027-05-03".parse().ok();
    let (one, other) = (
        names(&order(), "2027-02-20T15:30:00Z"),
        names(&later, "2027-02-22T09:00:00Z"),
    );
    // Work on another day may be divided differently.
    assert!(
        one.intersection(&other).count() * 10 >= one.len() * 9,
        "{one:?} {other:?}"
    );
}
