//! Rule: a hole that went wrong is mended, or nobody sees it.

use board::{Fault, HoleName, Units, show_length};

use super::readings::unknown;
use crate::Workpiece;
use crate::check::{Finding, Rule, Severity};
use crate::repair::plug::{Around, Plug, Remedy, Repair, repairs, unknown_holes};

pub const STATEMENT: &str = "A hole that went wrong is plugged with the same wood, its grain along the board's, and drilled \
     again with the board clamped and the bit guided. A plug leaves 2 mm of its wood around the new hole and 1 mm of the \
     board's to the next bore; half a millimeter out of line is not seen: common practice, no source. Glue is dry before \
     the plug is trimmed and drilled; the label says when.";

/// One finding for each hole that went wrong, and one for names that the board does not have.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let units = workpiece.board().units;
    let missing = unknown_holes(workpiece);
    let mut findings: Vec<Finding> = repairs(workpiece)
        .iter()
        .map(|repair| found(repair, units))
        .collect();
    if !missing.is_empty() {
        findings.push(Finding {
            rule: Rule::WrongHoles,
            ..unknown(&missing)
        });
    }
    findings
}

fn found(repair: &Repair, units: Units) -> Finding {
    let severity = match repair.remedy {
        Remedy::Leave => Severity::Note,
        _ => Severity::Caution,
    };
    let message = format!(
        "{} is {} and leaves {}: {}",
        repair.hole,
        fault(repair.fault, units),
        around(&repair.leaves, units),
        remedy(&repair.remedy, repair.hole, units)
    );
    Finding::new(severity, Rule::WrongHoles, message).about(vec![repair.hole])
}

/// The mistake: `2 mm beside its place`.
pub fn fault(fault: Fault, units: Units) -> String {
    let length = |mm| show_length(mm, units);
    match fault {
        Fault::Off { u, v } => format!("{} beside its place", length(u.hypot(v))),
        Fault::Deep { by } => format!("{} too deep", length(by)),
        Fault::Chipped { reach } => format!("chipped {} beyond its edge", length(reach)),
    }
}

/// The wood around a bore: `5 mm to T1-04, 20 mm to the roundover, 12 mm under it`.
pub fn around(around: &Around, units: Units) -> String {
    let length = |mm: f64| show_length(mm.max(0.0), units);
    let web = around
        .web
        .map(|(hole, web)| format!("{} to {hole}", length(web)));
    let rim = format!("{} to the roundover", length(around.rim));
    let floor = format!("{} under it", length(around.floor));
    let all: Vec<String> = web.into_iter().chain([rim, floor]).collect();
    all.join(", ")
}

/// What to do: `plug it with …`.
pub fn remedy(remedy: &Remedy, hole: HoleName, units: Units) -> String {
    let length = |mm| show_length(mm, units);
    match remedy {
        Remedy::Leave => "leave it; nobody will see".into(),
        Remedy::Disc {
            thickness,
            through: false,
        } => {
            format!("glue a disc {} thick on its floor", length(*thickness))
        }
        Remedy::Disc { thickness, .. } => {
            format!(
                "it comes out below; glue a plug {} thick in from the underside",
                length(*thickness)
            )
        }
        Remedy::Plug(plug) => format!("{}, then drill {hole} again", bored(plug, units)),
        Remedy::NoRoom(plug) => {
            let into = plug.around.web.filter(|(_, web)| *web < plug.around.rim);
            let what = into.map_or_else(|| "the roundover".into(), |(other, _)| other.to_string());
            format!(
                "a plug of {} would cut into {what}; fill {what} first and drill both again, or patch by hand",
                plug.bit.name
            )
        }
    }
}

/// The bore for a plug: its bit, depth and place.
fn bored(plug: &Plug, units: Units) -> String {
    let length = |mm| show_length(mm, units);
    let depth = if plug.through {
        "through".into()
    } else {
        format!("{} deep", length(plug.depth))
    };
    let aside = plug.beside.hypot();
    let place = if aside < 0.05 {
        "at the hole's own place".into()
    } else {
        let sideways = if plug.beside.x < 0.0 {
            "counter-clockwise"
        } else {
            "clockwise"
        };
        let outward = if plug.beside.y < 0.0 {
            "inward"
        } else {
            "outward"
        };
        format!(
            "{} {sideways} and {} {outward} of the hole's place",
            length(plug.beside.x.abs()),
            length(plug.beside.y.abs())
        )
    };
    format!("bore {} {depth}, {place}, and plug it", plug.bit.name)
}
