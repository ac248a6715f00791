//! The board's edge as a program: turns around the outside, down to a skin that holds the board.
//!
//! The cutter goes down along a helix, so that it never dwells in the wood, and ends with a level turn. It runs
//! counterclockwise, against the rotation of the cutter, which therefore cannot pull itself along.

use core::f64::consts::TAU;

use board::{EdgeRun, show_setting};

use super::check::{self, Milled};
use super::lines::Lines;
use super::{GcodeError, GcodeOptions, Program};

/// The turns of the cutter, checked.
struct Turns {
    /// Radius of the cutter's center, mm.
    radius: f64,
    /// Depth of the last turn, mm.
    depth: f64,
    passes: u32,
    run: Milled,
}

/// The program that cuts a board of a diameter, mm, round, with the cutter and settings of
/// [`Machine::edge`](board::Machine::edge).
///
/// The cutter's center runs at the board's radius plus half the cutter, rounded up. It starts at 3 o'clock in the waste, goes
/// down to the top face, then around in turns that each go one pass deeper, and finally once level at the depth that leaves the
/// skin.
///
/// ```
/// use board::{EdgeRun, Machine, Units};
/// use export::{GcodeOptions, gcode_edge};
///
/// let edge = EdgeRun {
///     cutter: 6.0,
///     speed: Some(12_000.0),
///     feed: Some(800.0),
///     plunge: Some(150.0),
///     pass: 3.0,
///     skin: 0.5,
/// };
/// let options = GcodeOptions {
///     title: String::new(),
///     date: String::new(),
///     stop: String::new(),
///     units: Units::Mm,
///     machine: Machine {
///         edge: Some(edge),
///         ..Machine::default()
///     },
///     thickness: 20.0,
///     blank: 25.0,
///     spur: 0.0,
/// };
/// let program = gcode_edge(560.0, &options)?;
/// assert!(program.text.contains("G0 X283.0000 Y0.0000"));
/// // 19.5 mm in passes of at most 3 mm are seven turns; one more runs level.
/// assert_eq!(program.text.matches("G3").count(), 8);
/// # Ok::<(), export::GcodeError>(())
/// ```
///
/// # Errors
///
/// A setting that is missing, impossible or dangerous; see [`GcodeError`].
pub fn gcode_edge(diameter: f64, options: &GcodeOptions) -> Result<Program, GcodeError> {
    check::shop(&options.machine, options.thickness, options.units)?;
    let edge = options
        .machine
        .edge
        .ok_or(GcodeError::NoRun { what: CUTTER })?;
    let mut lines = Lines::new(options.units);
    let turns = settle(diameter, &edge, options, &lines)?;
    lines.head(&options.head("Edge"));
    about(&mut lines, diameter, &edge, &turns);
    lines.modes(&options.machine);
    lines.start(&options.machine, turns.run.speed);
    cut(&mut lines, &turns, options);
    lines.end();
    Ok(Program {
        stem: "edge".to_owned(),
        text: lines.into_text()?,
    })
}

/// The cutter's name in messages.
const CUTTER: &str = "cutter for the edge";

/// The turns of an edge that can be cut: sizes are positive lengths, speed and feeds are set, the skin is thinner than the
/// board, and no skin is planned only where a spoilboard holds the board.
fn settle(
    diameter: f64,
    edge: &EdgeRun,
    options: &GcodeOptions,
    lines: &Lines,
) -> Result<Turns, GcodeError> {
    let units = options.units;
    for (what, mm) in [
        ("diameter of the board", diameter),
        ("diameter of the cutter", edge.cutter),
        ("depth of a pass round the edge", edge.pass),
    ] {
        check::length(what, mm, check::LEAST, units)?;
    }
    check::length("skin left under the edge", edge.skin, 0.0, units)?;
    let run = Milled::of(CUTTER, edge.run(), units)?;
    let depth = options.thickness - edge.skin;
    if depth < check::LEAST {
        return Err(GcodeError::AllSkin {
            skin: show_setting(edge.skin, units),
            thickness: show_setting(options.thickness, units),
        });
    }
    if edge.skin < check::LEAST && options.machine.through.is_none() {
        return Err(GcodeError::NoSkin);
    }
    Ok(Turns {
        // Written so that no rounding brings the cutter into the board.
        radius: lines.no_shorter(diameter / 2.0 + edge.cutter / 2.0),
        depth,
        passes: check::passes("the edge", depth, edge.pass, units)?,
        run,
    })
}

/// Comments on cutter, board, turns and skin, and how Z is set.
fn about(lines: &mut Lines, diameter: f64, edge: &EdgeRun, turns: &Turns) {
    let (cutter, depth) = (lines.shown(edge.cutter), lines.shown(turns.depth));
    lines.comment(&format!(
        "Straight cutter {cutter} across, its edges longer than {depth}"
    ));
    let board = lines.shown(diameter);
    let reach = lines.shown(2.0 * turns.radius + edge.cutter);
    lines.comment(&format!(
        "Board {board} across; the cut reaches out to {reach} across: clear clamps and screws"
    ));
    lines
        .comment("Conventional: counter-clockwise around the board, against the cutter's rotation");
    let (passes, deeper) = (turns.passes, turns.depth / f64::from(turns.passes));
    let deeper = lines.shown(deeper);
    lines.comment(&format!(
        "Turns down: {passes}, each {deeper} deeper; then a level one"
    ));
    if edge.skin < check::LEAST {
        lines.comment("CUTS THROUGH: fasten the board and the waste to the spoilboard");
    } else {
        let skin = lines.shown(edge.skin);
        lines.comment(&format!(
            "Leaves a skin of {skin} that holds the board: saw it free"
        ));
    }
    lines.comment("Z reads 0 when the end of the cutter touches the top face");
}

/// From 3 o'clock: down to the top face, around and down, around level, up.
fn cut(lines: &mut Lines, turns: &Turns, options: &GcodeOptions) {
    let radius = turns.radius;
    lines.words("G0", &[('X', radius), ('Y', 0.0)]);
    lines.line("");
    lines.rise(options.machine.retract);
    lines.words("G1", &[('Z', 0.0)]);
    lines.feed(" ", turns.run.plunge);
    lines.line("");
    let step = turns.depth / f64::from(turns.passes);
    let way = kurbo::Vec2::new(TAU * radius, step).length();
    // Around and down, no faster down than the cutter may plunge.
    let slope = turns.run.feed.min(turns.run.plunge * way / step);
    for pass in 1..=turns.passes {
        let z = -turns.depth * f64::from(pass) / f64::from(turns.passes);
        round(lines, radius, z);
        if pass == 1 {
            lines.feed(" ", slope);
        }
        lines.line("");
    }
    round(lines, radius, -turns.depth);
    lines.feed(" ", turns.run.feed);
    lines.line("");
    lines.rise(options.machine.clearance);
}

/// Once around the pin from 3 o'clock, counterclockwise, to a height.
fn round(lines: &mut Lines, radius: f64, z: f64) {
    let words = [
        ('X', radius),
        ('Y', 0.0),
        ('Z', z),
        ('I', -radius),
        ('J', 0.0),
    ];
    lines.words("G3", &words);
}
