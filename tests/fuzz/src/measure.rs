//! Time and memory for each export, search and view of a document, and for the search for a new board of its kind.

use std::fs;
use std::hint::black_box;
use std::time::{Duration, Instant};

use app::exports::{Kind, Moment, Source};
use app::window::headless::Headless;
use board::Board;
use workshop::{Mend, Open, Wishes, Workpiece, propose, solve};

/// The time and memory that a part of the work took.
#[derive(Debug, Clone)]
pub struct Taken {
    /// The name of the part.
    pub part: String,
    /// Elapsed time.
    pub time: Duration,
    /// CPU time of all threads; `None` if the system does not report it. On a busy machine it is more reliable than the elapsed
    /// time.
    pub busy: Duration,
    /// Peak memory in bytes, above the amount before; 0 if the system does not report it.
    pub memory: u64,
}

/// Computes a document part by part, and reports each part as it finishes; optional parts only if requested.
pub fn measure(board: &Board, is_wanted: &dyn Fn(&str) -> bool, mut tell: impl FnMut(Taken)) {
    let moment = Moment {
        year: 2026,
        month: 11,
        day: 25,
    };
    let mut source = None;
    tell(taken("worked out".into(), &mut || {
        source = Source::of(board, moment).ok();
    }));
    let mut tell = |part: String, work: &mut dyn FnMut()| {
        if is_wanted(&part) {
            tell(taken(part, work));
        }
    };
    let Some(source) = source else {
        return;
    };
    tell("findings".into(), &mut || {
        black_box(source.workpiece().findings());
    });
    tell("sums".into(), &mut || {
        black_box(source.workpiece().sums());
    });
    for kind in Kind::ALL {
        tell(kind.word(), &mut || {
            let _ = black_box(source.files(kind));
        });
    }
    for mend in Mend::ALL {
        tell(format!("{mend:?}"), &mut || {
            let _ = black_box(mend.applied(board));
        });
    }
    for open in Open::ALL {
        tell(format!("solve {open:?}"), &mut || {
            let _ = black_box(solve(board, open));
        });
    }
    tell("study".into(), &mut || {
        let _ = black_box(source.workpiece().work_out(&|| false));
    });
    drop(source);
    tell("new".into(), &mut || {
        let _ = black_box(propose(&wishes(board)));
    });
    tell("edit".into(), &mut || {
        if let Ok(workpiece) = Workpiece::of(board) {
            black_box(drawing::plan_without_names(&workpiece));
            black_box(workpiece.findings());
        }
    });
    measure_window(board, &mut tell);
}

/// Opens a window on a document and shows each of its views.
fn measure_window(board: &Board, tell: &mut impl FnMut(String, &mut dyn FnMut())) {
    let mut window = None;
    tell("window".into(), &mut || {
        window = Some(Headless::new(board.clone()));
    });
    tell("frame".into(), &mut || {
        black_box(window.as_mut().map(Headless::frame));
    });
    for view in Headless::views() {
        // The first frame of a view computes what it shows; for a view requested alone, the time includes opening the window.
        tell(format!("view {view}"), &mut || {
            let window = window.get_or_insert_with(|| Headless::new(board.clone()));
            window.turn_to(view);
            black_box(window.frame());
        });
    }
}

/// The wishes of someone who wants a new board like an existing one, with its spacing left to the search.
fn wishes(board: &Board) -> Wishes {
    Wishes {
        players: Some(board.players),
        pattern: Some(board.pattern),
        spaces: Some(board.spaces),
        home: Some(board.home),
        start: Some(board.start),
        diameter: Some(board.blank.diameter),
        ..Wishes::default()
    }
}

/// The time and memory of a piece of work.
fn taken(part: String, work: &mut dyn FnMut()) -> Taken {
    // If the kernel does not accept 5 here, the peak is that of the whole run so far, which is no less.
    let _ = fs::write("/proc/self/clear_refs", "5");
    let before = kilobytes("VmRSS:");
    let (start, busy) = (Instant::now(), processors());
    work();
    Taken {
        part,
        time: start.elapsed(),
        busy: processors().saturating_sub(busy),
        memory: 1024 * kilobytes("VmHWM:").saturating_sub(before),
    }
}

/// CPU time of all threads of this process so far (proc(5): fields 14 and 15 of stat, in hundredths of a second).
fn processors() -> Duration {
    let stat = fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after_name = stat.rsplit(')').next().unwrap_or_default();
    let fields = after_name.split_whitespace().skip(11).take(2);
    let ticks: u64 = fields.filter_map(|ticks| ticks.parse::<u64>().ok()).sum();
    Duration::from_millis(10 * ticks)
}

/// A number from the process's own status.
fn kilobytes(name: &str) -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix(name));
    let number = line.and_then(|line| line.split_whitespace().next());
    number
        .and_then(|number| number.parse().ok())
        .unwrap_or_default()
}
