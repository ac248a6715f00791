//! Work that turns on the pin: drilling its hole, drilling the bores against a stop, cutting the circle; and finishing the two
//! edges.

use board::{Board, Center, INCH, Measure, Units};
use geometry::Angle;

use crate::bores::steps::{STOP, kinds_but_center, pin_hole};
use crate::job::{Method, Operation, Task, counted};
use crate::{Caution, Workpiece, passes, radii};

/// Height that a table saw's blade is raised for each turn of a blank, mm; common practice, no source.
const RAISE: f64 = 3.0;

/// The operations for the pin, the work that turns on it, and the board's edges.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let board = workpiece.board();
    let mut all = Vec::new();
    all.extend(pin(workpiece));
    if Method::of(board) == Method::Pivot {
        all.push(pivot_bores(workpiece));
    }
    if !edge_by_machine(board) {
        all.push(corners(workpiece));
        all.push(circle(workpiece));
    }
    if board.blank.roundover > 0.0 {
        all.push(roundover(workpiece));
    }
    all.push(ease(workpiece));
    all
}

/// Whether the machine cuts the board round.
pub fn edge_by_machine(board: &Board) -> bool {
    let edge = board.machine.as_ref().and_then(|machine| machine.edge);
    Method::of(board) == Method::Machine && edge.is_some()
}

/// Whether the machine cuts the grooves.
pub fn grooves_by_machine(board: &Board) -> bool {
    let run = board.machine.as_ref().and_then(|machine| machine.groove);
    Method::of(board) == Method::Machine && run.is_some() && board.grooves.is_some()
}

/// Whether rings about the pin are routed by hand, on the pin.
pub fn ring_on_pin(board: &Board) -> bool {
    let rings = board.grooves.is_some_and(|it| it.has_rings_on_pin());
    rings && !grooves_by_machine(board)
}

/// Whether anything turns on the pin.
fn turns_on_pin(board: &Board) -> bool {
    !edge_by_machine(board) || ring_on_pin(board)
}

/// Drilling the pin's hole, or preparing a substitute on a board without one; none for a board whose center is a playing hole
/// and on which nothing turns.
fn pin(workpiece: &Workpiece) -> Option<Operation> {
    let board = workpiece.board();
    match board.drilled_center() {
        Center::Nothing => turns_on_pin(board).then(|| pin_block(workpiece)),
        Center::Hole { .. } if !turns_on_pin(board) => None,
        Center::Hole { .. } | Center::Pivot { .. } => Some(
            Operation::of(Task::PinHole)
                .with(
                    "drill press square to its table, or a portable drill guide",
                    10.0,
                )
                .minding(&[Caution::DrillPress])
                .says(marked(workpiece))
                .says(pin_hole(workpiece)),
        ),
    }
}

/// The sentences that locate the center where no hole for a pin is drilled before the machine's; `None` elsewhere.
pub fn marked_for_machine(workpiece: &Workpiece) -> Option<[String; 2]> {
    let board = workpiece.board();
    let is_pivot = matches!(board.drilled_center(), Center::Pivot { .. });
    (!is_pivot && !turns_on_pin(board)).then(|| marked(workpiece))
}

/// The sentences that locate the center on the blank, and player 1's axis to the grain and the seams.
///
/// It is located where the blank was measured and stays in one piece: a glued-up panel no longer has that frame.
fn marked(workpiece: &Workpiece) -> [String; 2] {
    [center_mark(workpiece), axis_mark(workpiece)]
}

/// The sentence on player 1's axis: the grain of every board runs from left to right, and 12 o'clock is square to it.
fn axis_mark(workpiece: &Workpiece) -> String {
    let turn = Angle::degrees(workpiece.board().rotation).wrapped();
    let along = if workpiece.seams().is_empty() {
        "the grain"
    } else {
        "grain and seams"
    };
    match Measure::degrees(turn.as_degrees()).shown(workpiece.units()) {
        zero if zero == "0°" => format!(
            "Draw the axis of player 1 through it, square to {along}: the board is laid out with its grain from left to right."
        ),
        angle => format!(
            "Draw 12 o'clock through it, square to {along}, and the axis of player 1 {angle} clockwise from that."
        ),
    }
}

/// The sentence on the center.
fn center_mark(workpiece: &Workpiece) -> String {
    let board = workpiece.board();
    let place = workpiece.stock().and_then(|plan| plan.center(board));
    let whole = board.panel.build == board::Build::Whole;
    match place.filter(|_| whole) {
        Some(at) => format!(
            "Mark the center on the top face, {} along the blank and {} across it from where it was measured.",
            workpiece.length((at.x * 10.0).round() / 10.0),
            workpiece.length((at.y * 10.0).round() / 10.0)
        ),
        None if board.panel.build == board::Build::Halves => {
            "Mark the center on the seam of the top face.".into()
        }
        None => match nearest_seam(workpiece) {
            Some(seam) if seam.abs() < 0.1 => "Mark the center on the seam of the top face.".into(),
            Some(seam) => format!(
                "Mark the center on the top face, {} {} the nearest seam.",
                workpiece.length((seam.abs() * 10.0).round() / 10.0),
                if seam > 0.0 { "below" } else { "above" }
            ),
            None => "Mark the center on the top face.".into(),
        },
    }
}

/// Height of the seam nearest to the center above it, mm; negative below it.
fn nearest_seam(workpiece: &Workpiece) -> Option<f64> {
    let seams = workpiece.seams().iter().copied();
    seams.min_by(|one, other| one.abs().total_cmp(&other.abs()))
}

/// Attaching a block for the pin, where the board has no hole for it.
///
/// Double-sided tape holds it, as patternmakers hold parts that must not be screwed; common practice, no source.
fn pin_block(workpiece: &Workpiece) -> Operation {
    Operation::of(Task::PinBlock)
        .with("drill press, scrap block, double-sided tape", 15.0)
        .minding(&[Caution::DrillPress])
        .says(marked(workpiece))
        .says([
            format!(
                "Drill {} through a block of scrap, and stick it over the center with double-sided tape: on the underside \
                 for a sled, on top for a trammel.",
                workpiece.length(workpiece.board().jig.pin)
            ),
        ])
}

/// Drilling with the blank on its pin, radius by radius.
///
/// Three minutes to set a radius and one for each hole; common practice, no source.
fn pivot_bores(workpiece: &Workpiece) -> Operation {
    let holes = workpiece.layout().holes.len();
    let rings = radii(workpiece.hole_table(), workpiece.board().rotation).len();
    Operation {
        sums: &["bores"],
        ..Operation::of(Task::PivotBores)
    }
    .with(
        "drill press, pin in a sliding base, stop or index plate",
        20.0 + 3.0 * rings as f64 + holes as f64,
    )
    .minding(&[Caution::DrillPress])
    .says([format!(
        "Put the blank on the pin. Set the {} of the jig sheet one after the other, and drill all holes of one before \
         the next, clamped each time.",
        counted(rings, "radius", "radii")
    )])
    .says(kinds_but_center(workpiece, STOP))
}

/// Cutting off the corners that a saw or a column would hit first.
///
/// The wood left outside the circle is little enough for one cut, and enough to allow for a saw that wanders.
fn corners(workpiece: &Workpiece) -> Operation {
    let outside = match workpiece.units() {
        Units::Mm => 6.0,
        Units::Inch(_) => INCH / 4.0,
    };
    Operation::of(Task::Corners)
        .with("band saw, jig saw or circular saw", 15.0)
        .minding(&[Caution::BandSaw, Caution::HandSaw])
        .says([format!(
            "Draw the circle of {} about the pin and saw the corners off straight, to about {} outside it all round.",
            workpiece.length(workpiece.board().blank.diameter),
            workpiece.length(outside)
        )])
}

/// Cutting the circle on its pin, the safer tools first.
///
/// Many makers cut a disc on a table saw, and saw manuals advise against it: the two safer ways come first, and the saw is
/// described with what keeps hands off the blade. Common practice, no source; the passes are for a bit that most shops have.
fn circle(workpiece: &Workpiece) -> Operation {
    let board = workpiece.board();
    let length = |mm| workpiece.length(mm);
    let [near, _, far] = crate::circle_cut(board.blank.radius(), board.jig.kerf).disc;
    let thick = board.blank.thickness;
    let bit = usual_bit(board.units);
    let trammel = format!(
        "A router on a trammel is safest. Fix the blank to a spoilboard: double-sided tape under the disc, screws outside it. Pin {}, near side of the bit {} from the \
         middle of the pin; {} with a {} bit, none deeper than half its diameter. The bit must reach {} below the trammel, with edges that \
         long or a shank no thicker than the bit. Move the router counter-clockwise around the board, \
         and take a light last pass: nothing may come free while the bit turns. A band saw with a circle jig does as well.",
        length(board.jig.pin),
        length(near),
        counted(passes(thick, bit / 2.0), "pass", "passes"),
        length(bit),
        workpiece.at_least(reach(workpiece.units(), thick))
    );
    let saw = format!(
        "Use a table saw only with a guard that stays over the blade during the cut; if the circle jig leaves no room for one, take \
         the trammel or the band saw. Unplug the saw, then clamp the jig so that it cannot shift, its pin {} from the near side of the blade; the far \
         side is at {}.",
        length(near),
        length(far)
    );
    let raise = match board.units {
        Units::Mm => RAISE,
        Units::Inch(_) => INCH / 8.0,
    };
    let turned = format!(
        "Raise the blade by no more than {} at a time, {} in all, and turn the blank slowly, a whole turn each time, both hands on the half \
         away from the blade. The edge at the blade must move away from you: counter-clockwise seen from above with the pin left of the \
         blade, clockwise with it right. Stop the saw before you raise the blade.",
        workpiece.at_most(raise),
        counted(passes(thick, raise), "turn", "turns")
    );
    let check = format!(
        "Check that the blank reaches {} from the pin all around.",
        workpiece.at_least(near)
    );
    Operation::of(Task::Circle)
        .with(
            "router on a trammel, or band saw; table saw with a clamped circle jig",
            40.0,
        )
        .minding(&[Caution::Router, Caution::TableSaw, Caution::BandSaw])
        .says([check, trammel, saw, turned])
}

/// The size of a router bit that most shops have, mm: 6 mm or 1/4 in; common practice, no source.
pub const fn usual_bit(units: Units) -> f64 {
    match units {
        Units::Mm => 6.0,
        Units::Inch(_) => INCH / 4.0,
    }
}

/// How far a bit must reach to cut to a depth, mm: a little more, so that its collet and the chips stay clear; common practice, no
/// source.
pub const fn reach(units: Units, depth: f64) -> f64 {
    depth
        + match units {
            Units::Mm => 3.0,
            Units::Inch(_) => INCH / 8.0,
        }
}

/// Rounding over the top edge.
///
/// Counterclockwise around the outside of a disc is against the rotation of a bit that turns clockwise seen from above.
fn roundover(workpiece: &Workpiece) -> Operation {
    let radius = workpiece.length(workpiece.board().blank.roundover);
    Operation::of(Task::Roundover)
        .with(format!("router, roundover bit of {radius} with a bearing"), 15.0)
        .minding(&[Caution::Router])
        .says([format!(
            "Round the top edge over by {radius} in two or three passes, counter-clockwise around the board; make the last \
             one very light."
        )])
}

/// Easing the bottom edge, which hands and table touch.
///
/// The document has no field for how much; very little is enough.
fn ease(workpiece: &Workpiece) -> Operation {
    let by = match workpiece.units() {
        Units::Mm => 1.0,
        Units::Inch(_) => INCH / 32.0,
    };
    Operation::of(Task::Ease)
        .with("block plane, or sanding block", 10.0)
        .says([format!(
            "Break the bottom edge all around by {}, so that it does not chip.",
            workpiece.length(by)
        )])
}
