//! Making hardboard templates, and making the bores with them.

use board::{Measure, Router, TemplateCenter, in_a_row};

use crate::bores::steps::kinds_but_center;
use crate::hardboard::router::{RouterSetting, plunges, routed, router_settings};
use crate::job::{Method, Operation, Task, counted};
use crate::template::steps::turned_to_wood;
use crate::{Caution, SectorPlan, Workpiece, passes};

/// Making the router template or the sector jig, and the bores; empty for other methods.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    match Method::of(workpiece.board()) {
        Method::Router => router_work(workpiece).to_vec(),
        Method::SectorJig => sector_work(workpiece).to_vec(),
        Method::Template | Method::Pivot | Method::Machine => Vec::new(),
    }
}

/// Making the router template and the bores with it, whether or not the work plan uses that method, so that the page of the
/// template says the same as the job sheet.
///
/// ```
/// use board::{Board, DrillingMethod, Router};
/// use workshop::{Workpiece, router_work};
/// let board = Board { router: Some(Router::default()), ..Board::default() };
/// let by_hand = Board { method: DrillingMethod::Template, ..board.clone() };
/// assert_eq!(router_work(&Workpiece::of(&board)?), router_work(&Workpiece::of(&by_hand)?));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn router_work(workpiece: &Workpiece) -> [Operation; 2] {
    [template(workpiece), routed_bores(workpiece)]
}

/// Making the sector jig and the bores through it, whether or not the work plan uses that method.
pub fn sector_work(workpiece: &Workpiece) -> [Operation; 2] {
    [jig(workpiece), sector_bores(workpiece)]
}

/// Drilling the router template.
///
/// A minute for each hole, and twenty to glue the sheets on; common practice, no source.
fn template(workpiece: &Workpiece) -> Operation {
    let holes = routed(workpiece.layout()).count();
    let operation = Operation::of(Task::RouterTemplate)
        .with("drill press, Forstner bits, hardboard", 20.0 + holes as f64)
        .minding(&[Caution::DrillPress]);
    let Some(router) = workpiece.board().router else {
        let words = "Tick “Make router template” under Template, Hardboard, and enter bushing, bit and hardboard: its holes are sized by them.";
        return operation.says([words.to_owned()]);
    };
    let sheets = format!(
        "Glue the sheets on hardboard {} thick (spray adhesive outdoors only), wide enough for clamps outside the board's edge.",
        workpiece.length(router.hardboard)
    );
    let settings = router_settings(workpiece.layout(), router);
    let center = match router.center {
        TemplateCenter::Pilot => {
            "Drill the pin's hole at the center with the bit that drills it in the board."
        }
        TemplateCenter::Undrilled => "Leave the center as a mark.",
    };
    let rest = "Ease the rims of the holes, wax the top, and try bushing and bit on scrap.";
    operation
        .says([sheets])
        .says(openings(workpiece, &settings))
        .says([center.to_owned(), rest.to_owned()])
}

/// The widths of the template's holes, one sentence each.
fn openings(workpiece: &Workpiece, settings: &[RouterSetting]) -> Vec<String> {
    let mut widths: Vec<(f64, usize)> = Vec::new();
    for setting in settings {
        let holes: usize = setting.holes.iter().map(|(_, count)| count).sum();
        match widths.iter_mut().find(|(mm, _)| *mm == setting.opening) {
            Some((_, count)) => *count += holes,
            None => widths.push((setting.opening, holes)),
        }
    }
    let told = |(mm, holes): &(f64, usize)| {
        let holes = counted(holes, "hole", "holes");
        format!("Drill {holes} of {} through it.", workpiece.length(*mm))
    };
    widths.iter().map(told).collect()
}

/// Routing the bores with the template, in passes that the bit can handle.
///
/// A pass is no deeper than the bit is wide: twice as deep as in a circle, a recess or a mortise, since in a bore the router
/// plunges straight down and then moves only a little, while those are long cuts of the bit's full width. Common practice, no
/// source. The depth is that of the bore: in the template the bit cuts nothing.
fn routed_bores(workpiece: &Workpiece) -> Operation {
    let holes = routed(workpiece.layout()).count();
    let router = workpiece.board().router;
    let held = match router.map(|router| router.center) {
        Some(TemplateCenter::Undrilled) => {
            "Lay the template's center mark on the center of the blank."
        }
        Some(TemplateCenter::Pilot) | None => "Pin template and blank together at the center.",
    };
    let mut work = vec![held.to_owned(), turned_to_wood(workpiece).to_owned()];
    work.push(
        match router.map(|router| router.center) {
            Some(TemplateCenter::Undrilled) => {
                "Screw the template down outside the board's edge, and clamp both outside the router's way."
            }
            Some(TemplateCenter::Pilot) | None => "Clamp both outside the router's way.",
        }
        .into(),
    );
    if let Some(router) = router {
        work.extend(settings(workpiece, router));
    }
    work.push("Let the router run up, plunge, and lift it only when the bit is clear of the wood; switch off before you move on.".into());
    Operation {
        sums: &["bores"],
        ..Operation::of(Task::RoutedBores)
    }
    .with(router_tool(workpiece), 20.0 + 0.75 * holes as f64)
    .minding(&[Caution::Router])
    .says(work)
}

/// The router with its bushing and bit.
fn router_tool(workpiece: &Workpiece) -> String {
    workpiece.board().router.map_or_else(
        || "plunge router with a guide bushing".to_owned(),
        |router| {
            format!(
                "plunge router, guide bushing {}, bit {}",
                workpiece.length(router.bushing),
                workpiece.length(router.bit)
            )
        },
    )
}

/// The plunge settings, with the number of passes for each bore.
///
/// The plunge comes first, once for all bores that share it; then each kind of bore with the path of the bit in it.
fn settings(workpiece: &Workpiece, router: Router) -> Vec<String> {
    let settings = router_settings(workpiece.layout(), router);
    let mut work: Vec<String> = plunges(&settings)
        .into_iter()
        .map(|plunge| {
            let roles: Vec<&str> = plunge.roles.iter().map(|role| role.id()).collect();
            format!(
                "Set the plunge to {} from the top of the template for {} holes; try it on scrap.",
                workpiece.length(plunge.mm),
                in_a_row(&roles)
            )
        })
        .collect();
    for setting in &settings {
        let bore = setting.bore;
        work.push(format!(
            "Holes {} across and {} deep: {}, in {}, none deeper than the bit's diameter.",
            workpiece.length(bore.diameter),
            workpiece.length(bore.depth),
            setting.way.label(),
            counted(passes(bore.depth, router.bit), "pass", "passes")
        ));
    }
    work
}

/// Making the jig for one sector.
///
/// Its index holes come last, as they are marked through the holes whose places they share.
fn jig(workpiece: &Workpiece) -> Operation {
    let minded = [Caution::DrillPress, Caution::BandSaw, Caution::HandSaw];
    let operation = Operation::of(Task::SectorJig).minding(&minded);
    let Some(Ok(plan)) = workpiece.sector_jig() else {
        let words = "Tick “Make one-player jig” under Template, Hardboard, and fix what the findings report about it.";
        return operation
            .with("drill press, hardboard", 60.0)
            .says([words.to_owned()]);
    };
    let index: Vec<String> = plan
        .index
        .iter()
        .map(|hole| {
            format!(
                "{} for {}",
                workpiece.length(2.0 * hole.mouth.radius),
                hole.name
            )
        })
        .collect();
    operation
        .with(
            "drill press, band saw or jig saw, hardboard",
            20.0 + 2.0 * plan.holes.len() as f64,
        )
        .says([
            "Glue the sheets on hardboard (spray adhesive outdoors only) and saw its outline."
                .to_owned(),
            "Drill the center pin's hole, then every hole of the sector.".into(),
            format!("Drill the index holes: {}.", index.join(", ")),
        ])
}

/// Drilling the bores through the jig.
///
/// The turns have a page of their own; this step gives their number, and the index hole.
fn sector_bores(workpiece: &Workpiece) -> Operation {
    let holes = routed(workpiece.layout()).count();
    let turns = match workpiece.sector_jig() {
        Some(Ok(plan)) => turned(workpiece, plan),
        _ => Vec::new(),
    };
    Operation {
        sums: &["bores"],
        ..Operation::of(Task::SectorBores)
    }
    .with(
        "drill press or drill guide, the jig on its pin",
        20.0 + holes as f64,
    )
    .minding(&[Caution::DrillPress])
    .says([
        "Put the jig on the center pin and clamp it on player 1's axis; drill all its holes."
            .to_owned(),
    ])
    .says(turns)
    .says(kinds_but_center(
        workpiece,
        "set the stop on scrap through the jig, measure a hole, then drill",
    ))
}

/// The sentences on the other sectors: their number, and the page that lists them.
fn turned(workpiece: &Workpiece, plan: &SectorPlan) -> Vec<String> {
    let pins: Vec<String> = plan
        .index
        .iter()
        .map(|hole| hole.name.to_string())
        .collect();
    let turn = Measure::degrees(360.0 / f64::from(workpiece.board().players.max(1)));
    let others = plan.turns.len().saturating_sub(1);
    vec![format!(
        "Turn the jig clockwise by {}, {}. Each time drop the index pin through the jig's hole {} into the one drilled for the \
         player before; clamp, and drill by the jig's table of turns.",
        turn.shown(workpiece.units()),
        counted(others, "time", "times"),
        pins.join(" and ")
    )]
}
