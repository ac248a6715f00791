//! Drills, bits and bushings: what the work needs, once for any number of boards.
//!
//! A tool is found again by its article, kind and size in one word, which is also what the bits of the shop are compared
//! by.

use board::{Bore, Bottom, Center, HoleId, LidHold, Measure, Tools, Units, show_length};

use super::{Shelf, ToBuy, in_name};
use crate::Workpiece;
use crate::bores::sums::kinds;
use crate::hardboard::router::router_settings;
use crate::jig::steps::{grooves_by_machine, usual_bit};
use crate::job::{Method, Task};

/// Every drill, bit and bushing that the plan of the work names, each once.
///
/// Those that the maker has listed as the shop's are there too, marked as owned: the list is also what to lay out on the
/// bench.
///
/// Saws, planes and clamps are not listed: a shop that makes boards has them, and the plan tells where each is used.
pub fn lines(workpiece: &Workpiece) -> Vec<ToBuy> {
    let mut all = bore_bits(workpiece);
    all.extend(pin_drill(workpiece));
    all.extend(router(workpiece));
    all.extend(profiles(workpiece));
    all.extend(storage(workpiece));
    let owned = owned(&workpiece.board().tools);
    let mut once: Vec<ToBuy> = Vec::new();
    for mut tool in all {
        tool.owned = owned.contains(&tool.article);
        if once.iter().all(|other| other.article != tool.article) {
            once.push(tool);
        }
    }
    once
}

/// The articles of the bits and bushings that the maker has listed as the shop's.
///
/// Sizes go to a hundredth of a millimeter, so that two that were typed in different units are one.
fn owned(tools: &Tools) -> Vec<String> {
    let kinds = [
        ("forstner-bit", &tools.forstner),
        ("straight-bit", &tools.straight),
        ("round-nose-bit", &tools.round_nose),
        ("guide-bushing", &tools.bushings),
    ];
    let named = |(kind, sizes): (&str, &Vec<f64>)| {
        let each = sizes.iter().map(|mm| format!("{kind}-{}", in_name(*mm)));
        each.collect::<Vec<_>>()
    };
    kinds.into_iter().flat_map(named).collect()
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
/// Its kind follows from the bottom of the bore, its size from the cutter, mm.
fn bit_for(bore: Bore, units: Units, note: &str) -> ToBuy {
    let (id, name) = match bore.bottom {
        Bottom::Forstner => ("forstner-bit", "Forstner bit"),
        Bottom::Point118 => ("drill-118", "Drill, 118° point"),
        Bottom::Point135 => ("drill-135", "Drill, 135° point"),
        Bottom::Flat => ("flat-bit", "Flat-bottom bit"),
        Bottom::Ball => ("round-nose-bit", "Round-nose bit"),
    };
    let across = bore.cutter();
    tool(
        format!("{id}-{}", in_name(across)),
        format!("{name}, {}", show_length(across, units)),
        note,
    )
}

/// A twist drill.
///
/// Screws and pins need no more than its diameter, mm.
fn drill(diameter: f64, units: Units, note: &str) -> ToBuy {
    let bottom = Bottom::Point118;
    bit_for(
        Bore {
            diameter,
            depth: diameter,
            bottom,
        },
        units,
        note,
    )
}

/// Bits for the bores; of those that a router cuts with its own bit only those of the template's holes.
///
/// Bores of one diameter and several depths need one bit.
fn bore_bits(workpiece: &Workpiece) -> Vec<ToBuy> {
    let units = workpiece.units();
    let holes = workpiece.layout().holes.iter();
    let but_center = holes.filter(|hole| hole.name.id() != HoleId::CENTER);
    if let (Method::Router, Some(router)) =
        (Method::of(workpiece.board()), workpiece.board().router)
    {
        let settings = router_settings(workpiece.layout(), router);
        let openings = settings.iter().map(|setting| {
            let bottom = Bottom::Forstner;
            bit_for(
                Bore {
                    diameter: setting.opening,
                    depth: 1.0,
                    bottom,
                },
                units,
                "for the holes of the template",
            )
        });
        return openings.collect();
    }
    let kinds = kinds(but_center);
    let each = kinds
        .iter()
        .map(|kind| bit_for(kind.bore, units, "for the bores"));
    each.collect()
}

/// The drills of the hole at the center: of the pin, and of a playing hole there.
///
/// A board with nothing at its center needs none.
fn pin_drill(workpiece: &Workpiece) -> Vec<ToBuy> {
    let (board, units) = (workpiece.board(), workpiece.units());
    match board.drilled_center() {
        Center::Nothing => Vec::new(),
        Center::Pivot { diameter, .. } => vec![drill(diameter, units, "for the pin")],
        Center::Hole { bore, pilot } => vec![
            drill(pilot, units, "for the pin"),
            bit_for(bore, units, "for the hole at the center"),
        ],
    }
}

/// Bushing and bit of the router template.
///
/// It is empty unless the bores are cut with the router.
fn router(workpiece: &Workpiece) -> Vec<ToBuy> {
    let (board, units) = (workpiece.board(), workpiece.units());
    let Some(router) = board.router.filter(|_| Method::of(board) == Method::Router) else {
        return Vec::new();
    };
    let length = |mm| show_length(mm, units);
    vec![
        tool(
            format!("guide-bushing-{}", in_name(router.bushing)),
            format!("Guide bushing, {}", length(router.bushing)),
            "for the router template",
        ),
        straight(router.bit, units, "for the router template"),
    ]
}

/// A straight router bit.
fn straight(diameter: f64, units: Units, note: &str) -> ToBuy {
    tool(
        format!("straight-bit-{}", in_name(diameter)),
        format!("Straight router bit, {}", show_length(diameter, units)),
        note,
    )
}

/// V bit, roundover bit, and the bit that cuts mortises and the circle.
///
/// Grooves that the machine cuts need none here: its bits are set with the machine.
fn profiles(workpiece: &Workpiece) -> Vec<ToBuy> {
    let (board, units) = (workpiece.board(), workpiece.units());
    let plan = workpiece.work_plan();
    let mut all = Vec::new();
    if let Some(grooves) = board.grooves.filter(|_| !grooves_by_machine(board)) {
        let angle = Measure::degrees(grooves.angle).shown(units);
        all.push(tool(
            format!("v-bit-{}", in_name(grooves.angle)),
            format!("V bit, {angle}"),
            "for the grooves",
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
            "for the upper edge",
        ));
    }
    if plan.has(Task::Circle) {
        all.push(straight(
            usual_bit(units),
            units,
            "for the circle, on a trammel",
        ));
    }
    if let (true, Some(tenons)) = (plan.has(Task::Mortise), board.panel.tenons) {
        all.push(straight(tenons.thickness, units, "for the mortises"));
    }
    let screws = board.screws.iter();
    all.extend(screws.map(|ring| drill(ring.diameter, units, "for the screws")));
    all
}

/// Bits for the storage in the underside, and for the groove of a lid that slides.
fn storage(workpiece: &Workpiece) -> Vec<ToBuy> {
    let Some(recess) = workpiece.board().recess else {
        return Vec::new();
    };
    let units = workpiece.units();
    let bit = crate::recess::steps::bit(workpiece, &recess);
    let mut all = vec![straight(bit, units, "for the storage")];
    let slides = workpiece.lid().size.is_some();
    if let (true, LidHold::Slides { angle, .. }) = (slides, recess.lid_fit.hold) {
        all.push(tool(
            format!("dovetail-bit-{}", in_name(angle)),
            format!("Dovetail bit, {}", Measure::degrees(angle).shown(units)),
            "for the groove of the lid",
        ));
    }
    all
}
