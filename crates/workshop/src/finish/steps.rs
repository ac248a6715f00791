//! A test board, sanding, masking and the coats of finish.

use board::{Board, Coat, CoatKind, CoatPlace, Medium, capital};

use super::amounts::{coat_ml, volume};
use super::kinds::{coat_data, hard_after, hard_hours, is_color};
use super::masking::{mask_tools, to_mask, to_unmask};
use super::meeting::meetings;
use super::parts::on;
use crate::colors::steps::coats_under;
use crate::colors::words::{marks, rings};
use crate::finish::time;
use crate::job::{Operation, TIMED, Task, USUAL, Wait, for_each};
use crate::{Caution, Workpiece};

/// The air to work in wherever there is vapor: the motor of an ordinary fan can light the vapor it draws in; common practice, no
/// source.
pub const AIR: &str =
    "Open windows on two sides; no flame or pilot light near, and no ordinary fan in the vapor.";

/// From the test board to a finish that is hard.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let coats = coats(workpiece);
    let mut all = vec![sand(workpiece)];
    all.extend(trial(workpiece, &coats));
    let bare = to_mask(workpiece);
    if !bare.is_empty() {
        all.push(
            Operation::of(Task::Mask)
                .with(mask_tools(workpiece), 20.0)
                .says(bare),
        );
    }
    all.extend(coats);
    all.extend(last_to_harden(workpiece.board()).map(harden));
    all
}

/// Every coat, under the paint or over it.
///
/// Plugs and tape come off with the last coat that makes a film: wax has none, and is rubbed on when the film is hard.
fn coats(workpiece: &Workpiece) -> Vec<Operation> {
    let coats = planned(workpiece.board());
    let last = coats.iter().rposition(|it| it.coat.kind != CoatKind::Wax);
    let last = last.unwrap_or_else(|| coats.len().saturating_sub(1));
    let under = coats_under(workpiece);
    let operations = coats.into_iter().zip(1_u32..).map(|(coat, number)| {
        let unmask = (number as usize == last + 1)
            .then(|| to_unmask(workpiece, "coat"))
            .flatten();
        let applied = applied(workpiece, coat, number, unmask);
        let task = if number <= under {
            Task::Undercoat
        } else {
            Task::Coat
        };
        Operation { task, ..applied }
    });
    operations.collect()
}

/// A coat in its layer.
#[derive(Debug, Clone, Copy)]
struct InLayer {
    /// The place of its layer, from 0.
    layer: usize,
    /// Its number in the layer, from 1.
    number: u32,
    /// The layer.
    coat: Coat,
}

/// Every coat, in the order of the work.
fn planned(board: &Board) -> Vec<InLayer> {
    let layers = board.finish.iter().enumerate();
    let each = |(layer, coat): (usize, &Coat)| {
        let coat = *coat;
        (1..=coat.coats).map(move |number| InLayer {
            layer,
            number,
            coat,
        })
    };
    layers.flat_map(each).collect()
}

/// The layer that is hard last, each counted from when it is laid: the last one may be wax over varnish that takes a month.
pub fn last_to_harden(board: &Board) -> Option<&Coat> {
    let mut left = 0.0;
    let mut latest: Option<(f64, &Coat)> = None;
    for coat in board.finish.iter().rev() {
        let hard = hard_hours(coat.kind) - left;
        if latest.is_none_or(|(hours, _)| hard > hours) {
            latest = Some((hard, coat));
        }
        left += coat.hours();
    }
    latest.map(|(_, coat)| coat)
}

/// Colors and coats on a scrap first: labels differ, and so do woods; none without colors and coats.
///
/// It takes as long as they take on the board, rests included.
fn trial(workpiece: &Workpiece, coats: &[Operation]) -> Option<Operation> {
    let colors = colored(workpiece);
    let laid = || colors.iter().chain(coats);
    laid().next()?;
    let waits = laid().filter_map(|operation| operation.wait);
    let hours: f64 = waits.map(|wait| wait.hours).sum();
    let cautions = laid().flat_map(|operation| &operation.cautions);
    let cautions: Vec<Caution> = cautions.copied().collect();
    let operation = Operation {
        wait: Some(Wait {
            hours,
            reason: "the test board dries, color by color and coat by coat",
            source: TIMED,
        }),
        ..Operation::of(Task::Trial)
    };
    let (layers, judged) = match (colors.is_empty(), coats.is_empty()) {
        (true, _) => ("coat", "coats"),
        (false, true) => ("color", "colors"),
        (false, false) => ("color and coat", "colors and coats"),
    };
    Some(operation
        .with("an offcut of the board, brush or rag", 45.0)
        .minding(&cautions)
        .says([
            format!("Read every label. Where it differs from the times, grits and order of {judged} here, the label wins."),
            format!(
                "Sand an offcut of the board's wood as you will sand the board, and lay every {layers} on it in the same order, with the same waits."
            ),
            "When it is dry, press tape on it and pull it off: nothing may come away. Judge color and sheen where the board will be used."
                .into(),
            "Times are for usual room conditions. A cold or damp shop takes longer; no source says by how much.".into(),
        ]))
}

/// The colors that are laid on, each an operation of its own.
fn colored(workpiece: &Workpiece) -> Vec<Operation> {
    let mut all = crate::colors::steps::operations(workpiece);
    all.retain(|operation| matches!(operation.task, Task::Stain | Task::Paint));
    all
}

/// The grits that a board is sanded with, one after the other: film finishes end at 180, oil, shellac and wax at 220; common
/// practice, no source.
pub fn grits(board: &Board) -> &'static [u32] {
    let first = board.finish.first();
    match first.map(|coat| coat_data(coat.kind).wood_grit) {
        Some(180) => &[120, 150, 180],
        _ => &[120, 150, 180, 220],
    }
}

/// From grit to grit, not so fine that a finish finds no hold.
///
/// Each grit takes off the scratches of the one before it, and no more than half again as fine; common practice, no source.
fn sand(workpiece: &Workpiece) -> Operation {
    let grits: Vec<String> = grits(workpiece.board())
        .iter()
        .map(ToString::to_string)
        .collect();
    let grits = grits.join(", ");
    let is_filled = has_resin(workpiece);
    let cautions: &[Caution] = if is_filled { &[Caution::Resin] } else { &[] };
    Operation::of(Task::Sand)
        .with(format!("random-orbit sander, paper of grit {grits}"), 90.0)
        .minding(cautions)
        .says(is_filled.then(|| {
            "Let the resin cure fully first, and sand lightly over it so that it stays cool.".to_owned()
        }))
        .says(has_inlay(workpiece).then(|| SHELL.to_owned()))
        .says([
            format!("Sand with the grain through {grits}. Skip no grit, and take the dust off after each."),
            "Break the edges of holes and grooves by hand with folded sandpaper. Keep the sander flat over them."
                .into(),
            "Wipe with a damp cloth to raise the grain, let it dry, and go over it once more with the last grit.".into(),
        ])
}

/// The dust of shell, which inlays may be of; common practice, no source.
pub const SHELL: &str = "Keep shell wet while you saw or sand it, and wear a fitted P100 respirator: its dust harms the lungs.";

/// Whether there is resin under the sander, in bores or in grooves.
fn has_resin(workpiece: &Workpiece) -> bool {
    let in_bores = workpiece.pour().is_some_and(|pour| !pour.bores.is_empty());
    in_bores || crate::colors::resin::groove_resin(workpiece).is_some()
}

/// Whether there is an inlay under the sander.
fn has_inlay(workpiece: &Workpiece) -> bool {
    let all = crate::colors::steps::laid(workpiece);
    all.iter().any(|one| one.tint.medium == Medium::Inlay)
}

/// A coat and the time it dries.
///
/// Both faces get as many coats, or the board cups as one of them takes up the moisture of the air sooner.
fn applied(workpiece: &Workpiece, coat: InLayer, number: u32, unmask: Option<String>) -> Operation {
    let scuff = scuffed(workpiece.board(), coat);
    let rests = rests_after(workpiece.board(), coat);
    let coat = coat.coat;
    let hours = coat.dries.max(rests.unwrap_or_default());
    let mut words = format!(
        "Coat {number}: {} {}, {}{}.",
        coat.kind.label(),
        on(coat.place),
        amount(workpiece, coat),
        for_each(workpiece.board().schedule.boards),
    );
    if coat_data(coat.kind).has_vapor {
        words += " ";
        words += AIR;
    }
    words += &scuff;
    words += put_on(coat.kind);
    words += &sizes(workpiece, coat);
    words += " Let it dry ";
    words += &time(hours);
    words += ".";
    if let Some(unmask) = unmask {
        words += " ";
        words += &unmask;
    }
    Operation {
        number,
        wait: Some(Wait {
            hours,
            reason: "the coat dries",
            source: if rests.is_some() { USUAL } else { TIMED },
        }),
        ..Operation::of(Task::Coat)
    }
    .with(tool(coat), 40.0)
    .minding(&of_coat(coat, !scuff.is_empty()))
    .says([words])
}

/// The sentence on the sizes of the marks or the rings that a coat colors; empty for any other coat.
fn sizes(workpiece: &Workpiece, coat: Coat) -> String {
    let sizes = match coat.place {
        CoatPlace::Marks => marks(workpiece),
        CoatPlace::Rings => Some(format!("{} their holes", rings(workpiece))),
        _ => None,
    };
    let sizes = sizes.filter(|_| is_color(coat.kind));
    sizes.map_or_else(String::new, |sizes| format!(" {}.", capital(&sizes)))
}

/// The amount of finish for one coat: "about 60 ml", "a few drops".
fn amount(workpiece: &Workpiece, coat: Coat) -> String {
    let ml = coat_ml(workpiece, coat.kind, coat.place);
    let volume = volume(ml, workpiece.units());
    if volume.starts_with(|first: char| first.is_ascii_digit()) {
        format!("about {volume}")
    } else {
        volume
    }
}

/// The sentences on putting a kind on; common practice, no source. Oil that is not wiped off stays sticky, and lacquer that is sprayed
/// fills the air with vapor that a spark lights.
const fn put_on(kind: CoatKind) -> &'static str {
    match kind {
        CoatKind::Oil | CoatKind::OilVarnish => {
            " Flood it on, keep it wet 10 to 15 minutes, then wipe off all the excess; wipe again after an hour where it weeps from \
             the pores."
        }
        CoatKind::OilWax => {
            " Rub on a very thin coat and wipe off all the excess within the time on the label."
        }
        CoatKind::Stain => {
            " Wipe off the excess along the grain within a few minutes, before it gets tacky."
        }
        CoatKind::Dye => " Wet it evenly from edge to edge and wipe up what stands on the wood.",
        CoatKind::Wax => " Rub on a thin coat, let it haze, and buff it.",
        CoatKind::Lacquer => {
            " Use brushing lacquer with a brush. Spray only with a spray booth and an explosion-proof fan."
        }
        CoatKind::SandingSealer => {
            " Brush it on. Spray only with a spray booth and an explosion-proof fan."
        }
        CoatKind::Shellac | CoatKind::DewaxedShellac => {
            " Lay it on thin and quickly, and do not go back over it."
        }
        CoatKind::WipingVarnish => " Wipe on a thin, even coat along the grain.",
        CoatKind::OilPolyurethane => " Brush on a thin coat and tip it off along the grain.",
        CoatKind::WaterPolyurethane => {
            " Brush on a thin coat along the grain, and do not go back over it."
        }
        CoatKind::PaintPen | CoatKind::Enamel | CoatKind::Acrylic => {
            " Keep the coat thin: a thick one runs."
        }
    }
}

/// Hours that shellac rests after every fourth coat of it: "12 hours every three to four coats" (trade page); none otherwise, and none
/// after the last.
///
/// Layers of shellac that follow each other are counted together.
fn rests_after(board: &Board, laid: InLayer) -> Option<f64> {
    /// Hours of each such rest.
    const REST: f64 = 12.0;
    let is_shellac =
        |coat: &Coat| matches!(coat.kind, CoatKind::Shellac | CoatKind::DewaxedShellac);
    let coat = laid.coat;
    let (below, above) = board.finish.split_at_checked(laid.layer)?;
    let below = below.iter().rev().take_while(|coat| is_shellac(coat));
    let number = below.map(|coat| coat.coats).sum::<u32>() + laid.number;
    let more = above.get(1).is_some_and(is_shellac) || laid.number < coat.coats;
    let is_due = is_shellac(&coat) && number.is_multiple_of(4) && more;
    (is_due && coat.dries < REST).then_some(REST)
}

/// The sentence about scuff-sanding the coat below; empty on bare wood.
///
/// Within a layer it is about the coat before, at the first coat of a layer about all that the layer lies on. Color is thin, and
/// sanded through in a moment.
fn scuffed(board: &Board, coat: InLayer) -> String {
    let (layer, within) = (coat.layer, coat.number > 1);
    let met = meetings(&board.finish).into_iter();
    let met = met.filter(|met| met.over == layer && (met.under == layer) == within);
    let mut grits = Vec::new();
    let mut color = false;
    for met in met {
        let Some(under) = board.finish.get(met.under) else {
            continue;
        };
        color |= is_color(under.kind);
        grits.extend(met.bond.grit.or(coat_data(under.kind).between));
    }
    match grits.into_iter().min() {
        None => String::new(),
        Some(grit) => {
            let spared = if color { ", the color but lightly" } else { "" };
            format!(
                " First scuff-sand the coat below with a gray pad or grit {grit}{spared}, and take the dust off."
            )
        }
    }
}

/// Whether a kind is wiped on with a rag, rather than brushed or drawn; common practice, no source.
pub const fn is_wiped(kind: CoatKind) -> bool {
    matches!(
        kind,
        CoatKind::Oil
            | CoatKind::OilVarnish
            | CoatKind::OilWax
            | CoatKind::WipingVarnish
            | CoatKind::Wax
    )
}

/// The tool that a kind is laid on with; common practice, no source.
///
/// Finish that is wiped on and off leaves no brush marks; color is brushed or drawn between strips of tape.
fn tool(coat: Coat) -> &'static str {
    match coat.kind {
        kind if is_wiped(kind) => "lint-free rag",
        CoatKind::PaintPen => "the pen, masking tape",
        kind if is_color(kind) => "fine brush, masking tape",
        _ => "brush or lint-free rag",
    }
}

/// The cautions of one coat; dust too where the coat before it is scuff-sanded.
fn of_coat(coat: Coat, is_scuffed: bool) -> Vec<Caution> {
    let data = coat_data(coat.kind);
    let dust = is_scuffed.then_some(Caution::Dust);
    let rags = data.is_oily.then_some(Caution::OilyRags);
    let vapor = data.has_vapor.then_some(Caution::Solvents);
    dust.into_iter().chain(rags).chain(vapor).collect()
}

/// The wait until the finish can be played on.
///
/// Hands at nothing, and the longest wait of all.
fn harden(coat: &Coat) -> Operation {
    Operation {
        wait: Some(Wait {
            hours: hard_hours(coat.kind),
            reason: "the finish hardens",
            source: USUAL,
        }),
        ..Operation::of(Task::Harden)
    }
    .says([format!(
        "Cure time of the {}: {}. Until then put no pieces in and stand nothing on it.",
        coat.kind.label(),
        hard_after(coat.kind)
    )])
}
