//! Drilling, cutting round, grooving, routing.

use board::{Board, Center, HoleId, LidHold, RecessShape, Toward, show_number};

use super::{Job, Step, counted};
use crate::lid_size::lid_size;
use crate::sums::{Kind, kinds};
use crate::{Caution, groove_depth, passes};

/// Printing, measuring and laying the template on.
pub fn template(sheets: Option<&str>) -> Step {
    let print = sheets.map_or_else(
        || "Have the template printed on one page at 100 %.".to_owned(),
        |sheets| format!("Print {sheets} at 100 %, not fitted to the page."),
    );
    let work = vec![
        print,
        "Measure the bars of a sheet both ways; if they are not true, the template is not.".into(),
        "Tape the sheets together, cross on cross, and lay them on the blank, center cross on the pin."
            .into(),
        "Punch every center, the center pin too.".into(),
    ];
    Step {
        title: "Template",
        cautions: Vec::new(),
        work,
        sums: &[],
    }
}

/// Drilling, bit by bit.
pub fn drill(job: Job<'_>) -> Step {
    let mut work: Vec<String> = pilot(job).into_iter().collect();
    let later = job
        .layout
        .hole(HoleId::CENTER)
        .filter(|_| pilot(job).is_some());
    let now = job.layout.holes.iter().filter(|hole| Some(*hole) != later);
    work.extend(kinds(now).iter().map(|kind| bores(job, kind)));
    Step {
        title: "Bores",
        cautions: vec![Caution::DrillPress],
        work,
        sums: &["bores"],
    }
}

/// All bores of one kind.
fn bores(job: Job<'_>, kind: &Kind) -> String {
    let which = match kind.holes.as_slice() {
        [first, .., last] => format!("{} bores, {first} to {last},", kind.holes.len()),
        [only] => format!("The bore {only},"),
        [] => String::new(),
    };
    format!(
        "{which} {} across, {}, {} deep: set the stop on scrap, measure a hole, then drill.",
        job.length(kind.bore.diameter),
        kind.bore.bottom.label(),
        job.length(kind.bore.depth),
    )
}

fn pilot(job: Job<'_>) -> Option<String> {
    match job.board.drilled_center() {
        Center::Hole { pilot, .. } => {
            let pilot = job.length(pilot);
            Some(format!(
                "At the center drill the pilot of {pilot} first; the hole there comes after the circle is cut."
            ))
        }
        Center::Pivot { .. } | Center::Nothing => None,
    }
}

/// The circle on its pin, and its edge.
pub fn circle(job: Job<'_>) -> Step {
    let board = job.board;
    let [near, _, far] = crate::circle_cut(board.blank.radius(), board.jig.kerf).disc;
    let mut work = vec![format!(
        "Turn the blank on a pin of {}: from the middle of the pin {} to the near side of the cut, {} to its far side.",
        job.length(board.jig.pin),
        job.length(near),
        job.length(far),
    )];
    if board.blank.roundover > 0.0 {
        work.push(format!(
            "Round the upper edge over by {}.",
            job.length(board.blank.roundover)
        ));
    }
    if let (Some(_), Some(hole)) = (pilot(job), job.layout.hole(HoleId::CENTER)) {
        work.extend(kinds([hole]).iter().map(|kind| bores(job, kind)));
    }
    Step {
        title: "Circle",
        cautions: vec![Caution::TableSaw, Caution::Router],
        work,
        sums: &[],
    }
}

/// V-grooves in the top face.
pub fn grooves(job: Job<'_>) -> Option<Step> {
    let wanted = job.board.grooves?;
    let depth = groove_depth(&wanted);
    let passes = counted(passes(depth, wanted.pass), "pass", "passes");
    let work = vec![
        format!(
            "V bit of {}°: grooves {} wide are {} deep, in {passes}; try it on scrap.",
            show_number(wanted.angle, 2),
            job.length(wanted.width),
            job.length((depth * 1000.0).round() / 1000.0),
        ),
        "Stop each line short of its bores, as the template shows.".into(),
    ];
    Some(Step {
        title: "Grooves",
        cautions: vec![Caution::Router],
        work,
        sums: &["grooves"],
    })
}

/// The storage in the underside, and its lid.
pub fn recess(job: Job<'_>) -> Option<Step> {
    let recess = job.board.recess?;
    let mut work = vec![format!(
        "From below rout the recess: {}, {} deep, {}.",
        outline(job, recess.shape),
        job.length(recess.depth),
        middle(job, recess.at),
    )];
    work.extend(lid(job.board, job));
    Some(Step {
        title: "Recess",
        cautions: vec![Caution::Router],
        work,
        sums: &["storage"],
    })
}

fn lid(board: &Board, job: Job<'_>) -> Vec<String> {
    let (Some(recess), Some(lid)) = (board.recess, lid_size(board)) else {
        return Vec::new();
    };
    let place = match recess.lid_fit.hold {
        LidHold::LiesIn if recess.lid_fit.overlap > 0.0 => format!(
            "Rout a ledge {} deep, {} beyond the recess all round.",
            job.length(recess.lid),
            job.length(recess.lid_fit.overlap)
        ),
        LidHold::LiesIn => {
            "The lid lies in the recess itself; give it stops or buttons to rest on.".into()
        }
        LidHold::Slides { angle, toward } => format!(
            "Rout the dovetailed groove of the lid {} deep, its sides leaning {}°, open at the edge {} as seen from below.",
            job.length(recess.lid),
            show_number(angle, 2),
            from_below(toward).label()
        ),
    };
    let leaning = if lid.leans_in > 0.0 {
        let (_, inner) = lid.shape.sides();
        let outer = job.length(rounded(inner - 2.0 * lid.leans_in));
        format!(" on its inner face and {outer} on its outer one")
    } else {
        String::new()
    };
    let made = format!(
        "Make the lid: {}{leaning}, {} thick; try it before it is finished.",
        outline(job, lid.shape),
        job.length(lid.thickness)
    );
    vec![place, made]
}

/// Where the middle of a recess is, for the maker who has the underside before them.
fn middle(job: Job<'_>, [x, y]: [f64; 2]) -> String {
    if x == 0.0 && y == 0.0 {
        return "its middle under the center pin".into();
    }
    // Turned over about its upright axis the board shows left what is right from the top.
    let across = beside(
        job,
        x,
        ["to the left of the pin", "to the right of the pin"],
    );
    let along = beside(job, y, ["above it", "below it"]);
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
fn beside(job: Job<'_>, mm: f64, [positive, negative]: [&str; 2]) -> String {
    let side = if mm < 0.0 { negative } else { positive };
    format!("{} {side}", job.length(mm.abs()))
}

fn outline(job: Job<'_>, shape: RecessShape) -> String {
    let length = |mm| job.length(rounded(mm));
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
