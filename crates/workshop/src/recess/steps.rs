//! The work on the recess and its lid.

use board::{LidHold, Measure, Recess, RecessShape, Toward};

use crate::base::steps::center_below;
use crate::jig::steps::{reach, usual_bit};
use crate::job::{Operation, Task, counted};
use crate::recess::lid_held::{buttons, held, peg};
use crate::{Caution, Workpiece, passes};

/// Routing the storage recess in the underside, and making its lid.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let Some(recess) = workpiece.board().recess else {
        return Vec::new();
    };
    let mut all = vec![routed(workpiece, &recess)];
    all.extend(lid(workpiece, &recess));
    all
}

/// Routing the recess and the place of its lid.
///
/// Passes are no deeper than half the bit's diameter, since the bit cuts its full width by hand; common practice, no source.
fn routed(workpiece: &Workpiece, recess: &Recess) -> Operation {
    let bit = bit(workpiece, recess);
    let passes = format!(
        "With the {} bit, which must reach {}, {}, none deeper than half the bit's diameter. Leave a little on the sides for a light last pass.",
        workpiece.length(bit),
        workpiece.at_least(reach(workpiece.units(), recess.depth)),
        counted(passes(recess.depth, bit / 2.0), "pass", "passes")
    );
    let words = format!(
        "From below rout the recess: {}, {} deep, {}.",
        outline(workpiece, recess.shape),
        workpiece.length(recess.depth),
        middle(workpiece, recess.at),
    );
    Operation {
        sums: &["storage"],
        ..Operation::of(Task::Recess)
    }
    .with(
        format!(
            "router, straight bit of {}, guides or a template",
            workpiece.length(bit)
        ),
        60.0,
    )
    .minding(&[Caution::Router])
    .says([
        "Lay the board on its top face, on a clean pad.".to_owned(),
        center_below(workpiece),
        words,
        passes,
    ])
    .says(lid_place(workpiece, recess))
}

/// A bit that fits the corners: the usual bit, or one as round as they are.
///
/// Square corners are cut with a chisel afterward, whatever the bit.
pub fn bit(workpiece: &Workpiece, recess: &Recess) -> f64 {
    let usual = 2.0 * usual_bit(workpiece.units());
    match recess.shape.corner() {
        corner if corner > 0.0 => usual.min(2.0 * corner),
        _ => usual_bit(workpiece.units()),
    }
}

/// The sentence on the place of the lid; none without a lid.
fn lid_place(workpiece: &Workpiece, recess: &Recess) -> Option<String> {
    workpiece.lid().size?;
    Some(match recess.lid_fit.hold {
        LidHold::LiesIn if recess.lid_fit.overlap > 0.0 => format!(
            "Rout a ledge {} deep, {} beyond the recess all round.",
            workpiece.length(recess.lid),
            workpiece.length(recess.lid_fit.overlap)
        ),
        LidHold::LiesIn => "The lid lies in the recess itself.".into(),
        LidHold::Slides { angle, toward } => format!(
            "Rout the dovetailed groove of the lid {} deep, a straight bit first, its sides leaning {}, open at the edge \
             {} as seen from below.",
            workpiece.length(recess.lid),
            Measure::degrees(angle).shown(workpiece.units()),
            from_below(toward).label()
        ),
    })
}

/// Making and fitting the lid; none without one.
fn lid(workpiece: &Workpiece, recess: &Recess) -> Option<Operation> {
    let lid = workpiece.lid().size?;
    let leaning = if lid.leans_in > 0.0 {
        let (_, inner) = lid.shape.sides();
        let outer = workpiece.length(rounded(inner - 2.0 * lid.leans_in));
        format!(" on its inner face and {outer} on its outer one")
    } else {
        String::new()
    };
    let made = format!(
        "Make the lid: {}{leaning}, {} thick. Cut it from a longer board, held by a sled or clamps, since small pieces are not safe at a saw or a router. \
         Try it before the finish, and leave room for that.",
        outline(workpiece, lid.shape),
        workpiece.length(lid.thickness)
    );
    let slides = matches!(recess.lid_fit.hold, LidHold::Slides { .. });
    let edge = slides
        .then(|| "Slide it home, mark the edge of the board on it, and cut it to that.".to_owned());
    let (tool, cautions) = match (buttons(workpiece), peg(workpiece)) {
        (None, None) => ("saw, plane or router, sanding block", &[][..]),
        _ => (
            "saw, plane or router, sanding block, drill with a stop collar",
            &[Caution::DrillPress][..],
        ),
    };
    Some(
        Operation::of(Task::Lid)
            .with(tool, 40.0)
            .minding(&[Caution::TableSaw, Caution::Router])
            .minding(cautions)
            .says([made])
            .says(edge)
            .says(held(workpiece, recess)),
    )
}

/// A phrase that locates the center of a recess for a maker looking at the underside.
fn middle(workpiece: &Workpiece, [x, y]: [f64; 2]) -> String {
    if x == 0.0 && y == 0.0 {
        return "its middle at the center".into();
    }
    // Once the board is turned over about its vertical axis, its right is on the left.
    let across = beside(
        workpiece,
        x,
        ["to the left of the center", "to the right of the center"],
    );
    let along = beside(workpiece, y, ["above it", "below it"]);
    format!("its middle {across} and {along} as seen from below, the board turned over sideways")
}

/// The direction of the top face as seen once the board is turned over about its vertical axis.
const fn from_below(toward: Toward) -> Toward {
    match toward {
        Toward::Left => Toward::Right,
        Toward::Right => Toward::Left,
    }
}

/// A phrase for the distance to a line through the center, on the side where it is positive or on the other.
fn beside(workpiece: &Workpiece, mm: f64, [positive, negative]: [&str; 2]) -> String {
    let side = if mm < 0.0 { negative } else { positive };
    format!("{} {side}", workpiece.length(mm.abs()))
}

/// An outline in words: diameter, or length, width and corners.
fn outline(workpiece: &Workpiece, shape: RecessShape) -> String {
    let length = |mm| workpiece.length(rounded(mm));
    match shape {
        RecessShape::Round { diameter } => format!("{} across", length(diameter)),
        RecessShape::Straight {
            length: long,
            width,
            ..
        } => {
            let corners = match shape.corner() {
                0.0 => String::new(),
                corner => format!("with corners of radius {}, ", length(corner)),
            };
            format!(
                "{corners}{} along the grain by {} across it",
                length(long),
                length(width)
            )
        }
    }
}

/// Rounded to 0.01 mm.
fn rounded(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}
