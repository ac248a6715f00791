//! V-grooves as a program: the bit follows each groove, pass by pass.

use core::f64::consts::PI;

use board::{Grooves, show_setting};
use geometry::{Angle, Point};
use workshop::{Groove, Stroke, groove_depth};

use super::check::{self, Milled};
use super::lines::Lines;
use super::{GcodeError, GcodeOptions, Program};

/// The program that cuts grooves of a given shape, with the settings of the V bit in
/// [`Machine::groove`](board::Machine::groove).
///
/// Grooves are cut one after the other, each in passes of equal depth, none deeper than [`Grooves::pass`]; a closed groove is
/// followed around and around, an open one back and forth. Between grooves the bit is at clearance height.
///
/// ```
/// use board::{Board, CutterRun, Grooves, Machine, Units};
/// use export::{GcodeOptions, gcode_grooves};
///
/// let wanted = Grooves { rim: Some(5.0), ..Grooves::default() };
/// let board = Board { grooves: Some(wanted), ..Board::default() };
/// let workpiece = workshop::Workpiece::of(&board)?;
/// let run = CutterRun {
///     speed: Some(16_000.0),
///     feed: Some(600.0),
///     plunge: Some(150.0),
/// };
/// let options = GcodeOptions {
///     title: String::new(),
///     date: String::new(),
///     stop: String::new(),
///     units: Units::Mm,
///     machine: Machine { groove: Some(run), ..Machine::default() },
///     thickness: board.blank.thickness,
///     blank: board.stock.thickness,
///     spur: 0.0,
/// };
/// let program = gcode_grooves(&workpiece.grooves().unwrap().grooves, &wanted, &options)?;
/// assert_eq!(program.stem, "grooves");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
///
/// A setting that is missing, impossible or dangerous; see [`GcodeError`].
pub fn gcode_grooves(
    grooves: &[Groove],
    wanted: &Grooves,
    options: &GcodeOptions,
) -> Result<Program, GcodeError> {
    check::shop(&options.machine, options.thickness, options.units)?;
    let run = options.machine.groove;
    let run = run.ok_or(GcodeError::NoRun { what: BIT })?;
    let run = Milled::of(BIT, run, options.units)?;
    let depth = settle(grooves, wanted, options)?;
    let passes = check::passes("the grooves", depth, wanted.pass, options.units)?;
    let mut lines = Lines::new(options.units);
    lines.head(&options.head("Groove"));
    about(&mut lines, grooves.len(), wanted, (depth, passes));
    lines.modes(&options.machine);
    lines.start(&options.machine, run.speed);
    for groove in grooves {
        let cut = Cut {
            groove,
            run,
            depth,
            passes,
        };
        cut.write(&mut lines, options);
    }
    lines.end();
    Ok(Program {
        stem: "grooves".to_owned(),
        text: lines.into_text()?,
    })
}

/// The bit's name in messages.
const BIT: &str = "V bit";
/// Arcs shorter than this are written as lines, mm: rounding might swap their ends, and the arc would go all the way around.
const SHORTEST_ARC: f64 = 0.005;
/// Ends closer than this count as one point, mm.
const CLOSED: f64 = 1e-6;

/// The depth of grooves, checked: the grooves are finite, end in the wood, and can be cut with this bit.
fn settle(grooves: &[Groove], wanted: &Grooves, options: &GcodeOptions) -> Result<f64, GcodeError> {
    let units = options.units;
    check::length("width of the grooves", wanted.width, check::LEAST, units)?;
    check::length(
        "depth of a pass of the grooves",
        wanted.pass,
        check::LEAST,
        units,
    )?;
    let depth = groove_depth(wanted);
    if !depth.is_finite() || depth < check::LEAST {
        return Err(GcodeError::NoDepth {
            tip: show_setting(wanted.tip, units),
            width: show_setting(wanted.width, units),
        });
    }
    if depth >= options.thickness {
        return Err(GcodeError::GrooveTooDeep {
            depth: show_setting(depth, units),
            thickness: show_setting(options.thickness, units),
        });
    }
    if grooves.iter().all(|groove| groove.path.is_empty()) {
        return Err(GcodeError::NoGrooves);
    }
    let somewhere = |stroke: &Stroke| {
        let box_around = stroke.bounds();
        box_around.is_finite() && stroke.length().is_finite()
    };
    let lost = grooves
        .iter()
        .find(|groove| !groove.path.iter().all(somewhere));
    match lost {
        Some(groove) => Err(GcodeError::Groove {
            what: groove.kind.label(),
        }),
        None => Ok(depth),
    }
}

/// Comments on bit, width, depth and passes, and how Z is set.
fn about(lines: &mut Lines, count: usize, wanted: &Grooves, (depth, passes): (f64, u32)) {
    let angle = board::show_number(wanted.angle, 2);
    let tip = lines.shown(wanted.tip);
    lines.comment(&format!(
        "V bit of {angle} degrees with a tip of {tip}; grooves: {count}"
    ));
    let (width, deep) = (lines.shown(wanted.width), lines.shown(depth));
    lines.comment(&format!("Width {width}, depth {deep}, passes: {passes}"));
    lines.comment("Z reads 0 when the tip of the bit touches the top face");
    lines.comment("The top face must be flat: a tenth deeper is wider on both sides");
}

/// A groove to be cut.
struct Cut<'a> {
    groove: &'a Groove,
    run: Milled,
    depth: f64,
    passes: u32,
}

impl Cut<'_> {
    /// Writes the moves to its start, down, along it, and up. An open groove is cut back and forth.
    fn write(&self, lines: &mut Lines, options: &GcodeOptions) {
        let mut path: Vec<Stroke> = self.groove.path.iter().flat_map(halves).collect();
        let (Some(first), Some(last)) = (path.first(), path.last()) else {
            return;
        };
        let is_closed = last.end().distance(first.start()) < CLOSED;
        let start = first.start();
        lines.words("G0", &[('X', start.x), ('Y', start.y)]);
        lines.text(" (");
        lines.text(self.groove.kind.label());
        for name in &self.groove.holes {
            lines.text(&format!(" {name}"));
        }
        lines.line(")");
        lines.rise(options.machine.retract);
        for pass in 1..=self.passes {
            let z = -self.depth * f64::from(pass) / f64::from(self.passes);
            lines.words("G1", &[('Z', z)]);
            lines.feed(" ", self.run.plunge);
            lines.line("");
            for (at, one) in path.iter().enumerate() {
                stroke(lines, one);
                if at == 0 {
                    lines.feed(" ", self.run.feed);
                }
                lines.line("");
            }
            if !is_closed {
                path = path.iter().rev().map(Stroke::reversed).collect();
            }
        }
        lines.rise(options.machine.clearance);
    }
}

/// One piece of a groove, at the bit's current depth.
fn stroke(lines: &mut Lines, stroke: &Stroke) {
    let (start, end) = (stroke.start(), stroke.end());
    match stroke {
        Stroke::Line(_) => straight(lines, end),
        Stroke::Circle(circle) => round(lines, true, [start, start, circle.center]),
        Stroke::Arc(_) if stroke.length() < SHORTEST_ARC => straight(lines, end),
        Stroke::Arc(arc) => round(lines, arc.sweep > Angle::ZERO, [start, end, arc.center]),
    }
}

/// An arc of more than half a turn as two arcs: where little is missing to a full circle, rounding might leave hardly any of
/// it.
fn halves(stroke: &Stroke) -> Vec<Stroke> {
    match stroke {
        Stroke::Arc(arc) if arc.sweep.as_radians().abs() > PI => {
            arc.split(0.5).map(Stroke::Arc).to_vec()
        }
        _ => vec![*stroke],
    }
}

/// A straight move to a point.
fn straight(lines: &mut Lines, end: Point) {
    lines.words("G1", &[('X', end.x), ('Y', end.y)]);
}

/// A move along an arc from its start to its end about its center. I and J are relative to the start, even under G90
/// (RS274/NGC, 3.5.3.2).
fn round(lines: &mut Lines, is_clockwise: bool, [start, end, center]: [Point; 3]) {
    let code = if is_clockwise { "G2" } else { "G3" };
    let offset = center - start;
    let words = [('X', end.x), ('Y', end.y), ('I', offset.x), ('J', offset.y)];
    lines.words(code, &words);
}
