//! The calendar for calendar programs: RFC 5545, one event for each stretch of work.
//!
//! Times are instants in UTC, which every program shows in the maker's own time, even without a table of time zones; the name
//! of the maker's zone is added for programs that use it. There are no alarms and no waits, since drying needs nobody. The same
//! calendar and the same stamp give the same bytes.

use board::{Board, Measure};
use icalendar::{Calendar as Ics, Component as _, Event};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use workshop::{Calendar, Dated, Operation, Stretch, Workpiece};

/// The calendar of a workpiece as an iCalendar file, stamped with the instant at which it is made.
///
/// Ticked operations are left out. The UID of an event depends on the order (title, customer and game), the operation, its
/// number, the board and the stretch, so that a later file moves the events of an earlier one in programs that treat both as
/// the same calendar.
///
/// ```
/// use board::{Board, Schedule};
/// use workshop::Workpiece;
/// let schedule = Schedule { start: "2026-11-30".parse().ok(), zone: "America/New_York".into(), ..Schedule::default() };
/// let workpiece = Workpiece::of(&Board { schedule, ..Board::default() })?;
/// let stamp = "2026-11-25T15:00:00Z".parse()?;
/// let text = String::from_utf8(export::ical(&workpiece, workpiece.calendar().unwrap(), stamp))?;
/// assert!(text.starts_with("BEGIN:VCALENDAR\r\n") && text.ends_with("END:VCALENDAR\r\n"));
/// // Eight in the morning in New York, in winter.
/// assert!(text.contains("DTSTART:20261130T130000Z\r\n"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn ical(workpiece: &Workpiece, calendar: &Calendar, stamp: Timestamp) -> Vec<u8> {
    let title = &workpiece.board().title;
    let mut ics = Ics::empty();
    for (key, value) in [
        ("VERSION", "2.0"),
        ("PRODID", "-//Ringwright//Calendar//EN"),
        ("CALSCALE", "GREGORIAN"),
        ("X-WR-CALNAME", title.as_str()),
    ] {
        ics.append_property((key, value));
    }
    if let Some(zone) = calendar.zone().iana_name() {
        ics.append_property(("X-WR-TIMEZONE", zone));
    }
    for dated in calendar.work.iter().filter(|it| it.done.is_none()) {
        let Some(operation) = workpiece.work_plan().operations.get(dated.operation) else {
            continue;
        };
        let stretches = dated.stretches.iter().filter(|it| it.from < it.to);
        for (stretch, part) in stretches.zip(1_u32..) {
            let told = Told {
                workpiece,
                calendar,
                operation,
                dated,
            };
            ics.push(told.event(*stretch, part, stamp));
        }
    }
    folded(&ics.to_string()).into_bytes()
}

/// The lines of a file, folded again by RFC 5545, 3.1: the crate that writes them does not count the space at the start of a
/// continued line, so that the last part of a line may have 76 octets.
fn folded(text: &str) -> String {
    /// The most octets of a line, not counting its end.
    const MOST: usize = 75;
    let mut folded = String::with_capacity(text.len() + text.len() / MOST);
    for line in text.replace("\r\n ", "").split_terminator("\r\n") {
        let mut octets = 0;
        for letter in line.chars() {
            if octets + letter.len_utf8() > MOST {
                folded.push_str("\r\n ");
                octets = 1;
            }
            folded.push(letter);
            octets += letter.len_utf8();
        }
        folded.push_str("\r\n");
    }
    folded
}

/// A stretch of work with its summary and description.
struct Told<'a> {
    workpiece: &'a Workpiece,
    calendar: &'a Calendar,
    operation: &'a Operation,
    dated: &'a Dated,
}

impl Told<'_> {
    fn event(&self, stretch: Stretch, part: u32, stamp: Timestamp) -> Event {
        Event::new()
            .uid(&self.uid(part))
            .summary(&self.summary(part))
            .description(&self.description())
            .add_property("DTSTAMP", utc(stamp))
            .add_property("DTSTART", utc(stretch.from))
            .add_property("DTEND", utc(stretch.to))
            .done()
    }

    /// The UID of the event: letters, digits and dashes, different for every event.
    fn uid(&self, part: u32) -> String {
        let word = self.operation.task.word();
        let board = self.dated.board.unwrap_or(0);
        format!(
            "{:016x}-{word}-{}-{board}-{part}@ringwright",
            order(self.workpiece.board()),
            self.operation.number
        )
    }

    fn summary(&self, part: u32) -> String {
        let title = self.operation.task.title();
        let several = self.workpiece.work_plan().of(self.operation.task).count() > 1;
        let mut words = if several {
            format!("{title} {}", self.operation.number)
        } else {
            title.into()
        };
        if let (Some(board), 2..) = (self.dated.board, self.calendar.boards) {
            words += &[
                ", board ",
                &board.to_string(),
                " of ",
                &self.calendar.boards.to_string(),
            ]
            .concat();
        }
        if part > 1 {
            words += " (goes on)";
        }
        words
    }

    /// The board, tool, work, wait, slack and cautions, one per line.
    fn description(&self) -> String {
        let units = self.workpiece.units();
        let mut lines = vec![self.workpiece.board().title.clone()];
        if !self.operation.tool.is_empty() {
            lines.push(format!("Tools: {}.", self.operation.tool));
        }
        lines.extend(self.operation.work.iter().cloned());
        if let Some(wait) = self.operation.wait {
            let hours = Measure::hours(wait.hours).shown(units);
            lines.push(format!("Then {hours}: {}.", wait.reason));
        }
        lines.push(format!("Slack: {}.", self.calendar.slack_words(self.dated)));
        let cautions = self.operation.cautions.iter();
        lines.extend(cautions.map(|it| it.in_full()));
        lines.join("\n")
    }
}

/// An instant in the form of RFC 5545, 3.3.5, form 2.
fn utc(at: Timestamp) -> String {
    let at = TimeZone::UTC.to_datetime(at);
    format!(
        "{:04}{:02}{:02}T{:02}{:02}{:02}Z",
        at.year(),
        at.month(),
        at.day(),
        at.hour(),
        at.minute(),
        at.second()
    )
}

/// A number for an order, made from the fields that distinguish orders and seldom change during the work: title, customer and
/// game.
///
/// A number for the whole document would change with every added coat, and the events of the earlier file would remain beside
/// the new ones.
fn order(board: &Board) -> u64 {
    let [players, spaces, home, start] =
        [board.players, board.spaces, board.home, board.start].map(|count| count.to_string());
    let parts = [
        &board.title,
        &board.price.customer,
        &players,
        &spaces,
        &home,
        &start,
    ];
    // A zero byte, which no text of a board has, keeps the parts apart.
    hash(&parts.map(String::as_str).join("\0"))
}

/// A number for a text, the same on every machine: FNV-1a of 64 bits.
fn hash(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}
