//! Drills, bits and bushings for the work, once for any number of boards.
//!
//! A tool is identified by its article, which has its kind and size in one word.

use board::{Bore, Bottom, Center, HoleId, LidHold, Measure, show_length};

use super::{Shelf, ToBuy, in_name};
use crate::base::screw::Screw;
use crate::bores::owned::has_size;
use crate::bores::sums::kinds;
use crate::hardboard::router::{routed, router_settings};
use crate::jig::steps::{grooves_by_machine, reach, usual_bit};
use crate::job::{Method, Task};
use crate::{Workpiece, owned_bits};

/// Every drill, bit and bushing that the work plan names, each once with all that it is for.
///
/// Those in the shop's list are included and marked as owned: the list also serves to lay them out on the bench.
///
/// Saws, planes and clamps are not listed: a shop that makes boards has them, and the plan says where each is used.
pub fn lines(workpiece: &Workpiece) -> Vec<ToBuy> {
    let mut all = bore_bits(workpiece);
    all.extend(pin_drill(workpiece));
    all.extend(router(workpiece));
    all.extend(profiles(workpiece));
    all.extend(storage(workpiece));
    let mut once: Vec<ToBuy> = Vec::new();
    for tool in all {
        match once.iter_mut().find(|other| other.article == tool.article) {
            Some(other) if other.note.contains(&tool.note) => {}
            Some(other) => other.note = format!("{}; {}", other.note, tool.note),
            None => once.push(tool),
        }
    }
    once
}

/// A tool.
fn tool(article: String, name: String, note: impl Into<String>) -> ToBuy {
    ToBuy {
        note: note.into(),
        ..ToBuy::pieces(Shelf::Tools, article, name, 1.0)
    }
}

/// The drill or cutter that leaves a bore.
///
/// Its kind follows from the bottom of the bore, its size from the cutter, mm. Sizes are compared with the shop's bits as
/// everywhere: two that differ by less than a bit's accuracy are equal.
fn bit_for(workpiece: &Workpiece, bore: Bore, note: &str) -> ToBuy {
    let (id, name) = match bore.bottom {
        Bottom::Forstner => ("forstner-bit", "Forstner bit"),
        Bottom::Point118 => ("drill-118", "Drill, 118° point"),
        Bottom::Point135 => ("drill-135", "Drill, 135° point"),
        Bottom::Flat => return straight(workpiece, bore.cutter(), note),
        Bottom::Ball => ("round-nose-bit", "Round-nose bit"),
    };
    let across = bore.cutter();
    let owned = owned_bits(&workpiece.board().tools, bore.bottom);
    ToBuy {
        owned: has_size(owned, across),
        ..tool(
            format!("{id}-{}", in_name(across)),
            format!("{name}, {}", show_length(across, workpiece.units())),
            note,
        )
    }
}

/// A twist drill of a diameter, mm, for screws and pins, which need no more than that.
fn drill(workpiece: &Workpiece, diameter: f64, note: &str) -> ToBuy {
    let bottom = Bottom::Point118;
    bit_for(
        workpiece,
        Bore {
            diameter,
            depth: diameter,
            bottom,
        },
        note,
    )
}

/// Bits for the bores; where a router cuts the bores, only those for the template's holes.
///
/// Bores of one diameter and several depths need one bit.
fn bore_bits(workpiece: &Workpiece) -> Vec<ToBuy> {
    let holes = workpiece.layout().holes.iter();
    let but_center = holes.filter(|hole| hole.name.id() != HoleId::CENTER);
    if let (Method::Router, Some(router)) =
        (Method::of(workpiece.board()), workpiece.board().router)
    {
        let settings = router_settings(workpiece.layout(), router);
        let openings = settings.iter().map(|setting| {
            let bottom = Bottom::Forstner;
            bit_for(
                workpiece,
                Bore {
                    diameter: setting.opening,
                    depth: 1.0,
                    bottom,
                },
                "for the holes of the template",
            )
        });
        return openings.collect();
    }
    let kinds = kinds(but_center);
    let each = kinds
        .iter()
        .map(|kind| bit_for(workpiece, kind.bore, "for the holes"));
    each.collect()
}

/// The drills for the center: for the pin's hole, and for a playing hole there.
///
/// A board with nothing at its center needs none.
fn pin_drill(workpiece: &Workpiece) -> Vec<ToBuy> {
    match workpiece.board().drilled_center() {
        Center::Nothing => Vec::new(),
        Center::Pivot { diameter, .. } => vec![drill(workpiece, diameter, "for the pin")],
        Center::Hole { bore, pilot } => vec![
            drill(workpiece, pilot, "for the pin"),
            bit_for(workpiece, bore, "for the hole at the center"),
        ],
    }
}

/// The bushing and the bit for the router template; empty unless the bores are routed.
fn router(workpiece: &Workpiece) -> Vec<ToBuy> {
    let (board, units) = (workpiece.board(), workpiece.units());
    let Some(router) = board.router.filter(|_| Method::of(board) == Method::Router) else {
        return Vec::new();
    };
    let length = |mm| show_length(mm, units);
    let bushing = tool(
        format!("guide-bushing-{}", in_name(router.bushing)),
        format!("Guide bushing, {}", length(router.bushing)),
        "for the router template",
    );
    vec![
        ToBuy {
            owned: has_size(&board.tools.bushings, router.bushing),
            ..bushing
        },
        router_bit(workpiece, router.bit),
    ]
}

/// The bit for the router template: round-nose where every bore has a round bottom, otherwise straight.
fn router_bit(workpiece: &Workpiece, diameter: f64) -> ToBuy {
    let mut bores = routed(workpiece.layout()).map(|hole| hole.bore);
    let note = "for the router template";
    if bores.all(|bore| bore.bottom == Bottom::Ball) {
        let bore = Bore {
            diameter,
            depth: diameter,
            bottom: Bottom::Ball,
        };
        return bit_for(workpiece, bore, note);
    }
    straight(workpiece, diameter, note)
}

/// A straight router bit, which also leaves bores with a flat bottom.
fn straight(workpiece: &Workpiece, diameter: f64, note: &str) -> ToBuy {
    ToBuy {
        owned: has_size(&workpiece.board().tools.straight, diameter),
        ..tool(
            format!("straight-bit-{}", in_name(diameter)),
            format!(
                "Straight router bit, {}",
                show_length(diameter, workpiece.units())
            ),
            note,
        )
    }
}

/// The V bit, the roundover bit, and the bit that cuts mortises and the circle.
///
/// Grooves that the machine cuts need none here: its bits are listed with the machine.
fn profiles(workpiece: &Workpiece) -> Vec<ToBuy> {
    let (board, units) = (workpiece.board(), workpiece.units());
    let plan = workpiece.work_plan();
    let long = |depth| workpiece.at_least(reach(units, depth));
    let mut all = Vec::new();
    if let Some(grooves) = board.grooves.filter(|_| !grooves_by_machine(board)) {
        let angle = Measure::degrees(grooves.angle).shown(units);
        all.push(tool(
            format!("v-bit-{}", in_name(grooves.angle)),
            format!("V bit, {angle}"),
            format!(
                "for the grooves; wider than {}",
                show_length(grooves.width, units)
            ),
        ));
    }
    if plan.has(Task::Roundover) {
        let radius = board.blank.roundover;
        all.push(tool(
            format!("roundover-bit-{}", in_name(radius)),
            format!(
                "Roundover bit with a bearing, radius {}",
                show_length(radius, units)
            ),
            "for the top edge",
        ));
    }
    if plan.has(Task::Circle) {
        all.push(straight(
            workpiece,
            usual_bit(units),
            &format!(
                "for the circle, on a trammel; must reach {}",
                long(board.blank.thickness)
            ),
        ));
    }
    if let (true, Some(tenons)) = (plan.has(Task::Mortise), board.panel.tenons) {
        let note = format!("for the mortises; must reach {}", long(tenons.reach));
        all.push(straight(workpiece, tenons.thickness, &note));
    }
    let screws = board.screws.iter();
    all.extend(screws.map(|ring| {
        let pilot = Screw::of(ring, units).pilot;
        drill(workpiece, pilot, "for the pilot holes of the screws")
    }));
    all
}

/// Bits for the storage in the underside, and for the groove of a sliding lid.
fn storage(workpiece: &Workpiece) -> Vec<ToBuy> {
    let Some(recess) = workpiece.board().recess else {
        return Vec::new();
    };
    let units = workpiece.units();
    let bit = crate::recess::steps::bit(workpiece, &recess);
    let note = format!(
        "for the storage; must reach {}",
        workpiece.at_least(reach(units, recess.depth))
    );
    let mut all = vec![straight(workpiece, bit, &note)];
    let slides = workpiece.lid().size.is_some();
    if let (true, LidHold::Slides { angle, .. }) = (slides, recess.lid_fit.hold) {
        all.push(tool(
            format!("dovetail-bit-{}", in_name(angle)),
            format!("Dovetail bit, {}", Measure::degrees(angle).shown(units)),
            format!(
                "for the groove of the lid; edges at least {} long",
                workpiece.at_least(recess.lid)
            ),
        ));
    }
    all
}
