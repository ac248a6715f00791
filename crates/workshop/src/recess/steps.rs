//! The steps of the recess and its lid.

use board::{LidHold, RecessShape, Toward, show_number};

use crate::Caution;
use crate::Workpiece;
use crate::job::Step;

/// The storage in the underside, and its lid.
pub fn recess(workpiece: &Workpiece) -> Option<Step> {
    let recess = workpiece.board().recess?;
    let mut work = vec![format!(
        "From below rout the recess: {}, {} deep, {}.",
        outline(workpiece, recess.shape),
        workpiece.length(recess.depth),
        middle(workpiece, recess.at),
    )];
    work.extend(lid(workpiece));
    Some(Step {
        title: "Recess",
        cautions: vec![Caution::Router],
        work,
        sums: &["storage"],
    })
}

/// How the lid is made and fitted.
fn lid(workpiece: &Workpiece) -> Vec<String> {
    let (Some(recess), Some(lid)) = (workpiece.board().recess, workpiece.lid().size) else {
        return Vec::new();
    };
    let place = match recess.lid_fit.hold {
        LidHold::LiesIn if recess.lid_fit.overlap > 0.0 => format!(
            "Rout a ledge {} deep, {} beyond the recess all round.",
            workpiece.length(recess.lid),
            workpiece.length(recess.lid_fit.overlap)
        ),
        LidHold::LiesIn => {
            "The lid lies in the recess itself; give it stops or buttons to rest on.".into()
        }
        LidHold::Slides { angle, toward } => format!(
            "Rout the dovetailed groove of the lid {} deep, its sides leaning {}°, open at the edge {} as seen from below.",
            workpiece.length(recess.lid),
            show_number(angle, 2),
            from_below(toward).label()
        ),
    };
    let leaning = if lid.leans_in > 0.0 {
        let (_, inner) = lid.shape.sides();
        let outer = workpiece.length(rounded(inner - 2.0 * lid.leans_in));
        format!(" on its inner face and {outer} on its outer one")
    } else {
        String::new()
    };
    let made = format!(
        "Make the lid: {}{leaning}, {} thick; try it before it is finished.",
        outline(workpiece, lid.shape),
        workpiece.length(lid.thickness)
    );
    vec![place, made]
}

/// Where the middle of a recess is, for the maker who has the underside before them.
fn middle(workpiece: &Workpiece, [x, y]: [f64; 2]) -> String {
    if x == 0.0 && y == 0.0 {
        return "its middle under the center pin".into();
    }
    // Turned over about its upright axis the board shows left what is right from the top.
    let across = beside(
        workpiece,
        x,
        ["to the left of the pin", "to the right of the pin"],
    );
    let along = beside(workpiece, y, ["above it", "below it"]);
    format!("its middle {across} and {along} as seen from below, the board turned over sideways")
}

/// Where a direction of the top face lies once the board is turned over about its upright axis.
const fn from_below(toward: Toward) -> Toward {
    match toward {
        Toward::Left => Toward::Right,
        Toward::Right => Toward::Left,
    }
}

/// How far off a line through the pin, on the side where it is positive or on the other.
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

/// To what a rule can show.
fn rounded(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}
