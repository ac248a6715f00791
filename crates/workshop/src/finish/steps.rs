//! A test board, sanding, masking and the coats of finish.

use board::{Board, Coat, CoatKind};

use super::amounts::{coat_ml, volume};
use super::kinds::{coat_data, hard_after, hard_hours, is_color};
use super::masking::to_mask;
use super::meeting::meetings;
use super::parts::on;
use crate::colors::steps::coats_under;
use crate::finish::time;
use crate::job::{Operation, TIMED, Task, USUAL, Wait};
use crate::{Caution, Workpiece};

/// From the test board to a finish that is hard.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let board = workpiece.board();
    let mut all = vec![sand(workpiece)];
    if board.finish.is_empty() {
        return all;
    }
    all.push(trial(workpiece));
    let bare = to_mask(workpiece);
    if !bare.is_empty() {
        all.push(
            Operation::of(Task::Mask)
                .with("dowels, masking tape", 20.0)
                .says(bare),
        );
    }
    let coats = planned(board);
    let last = coats.len();
    let under = coats_under(workpiece);
    all.extend(coats.into_iter().zip(1_u32..).map(|(coat, number)| {
        let is_last = number as usize == last;
        let applied = applied(workpiece, coat, number, is_last);
        let task = if number <= under {
            Task::Undercoat
        } else {
            Task::Coat
        };
        Operation { task, ..applied }
    }));
    all.extend(last_to_harden(board).map(harden));
    all
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

/// The coats on a scrap first: labels differ, and so do woods.
fn trial(workpiece: &Workpiece) -> Operation {
    let board = workpiece.board();
    let hours: f64 = board.finish.iter().map(Coat::hours).sum();
    Operation {
        wait: Some(Wait {
            hours,
            reason: "the coats of the test board dry",
            source: TIMED,
        }),
        ..Operation::of(Task::Trial)
    }
    .with("an offcut of the board, brush or rag", 45.0)
    .minding(&cautions(board))
    .says([
        "Read the label of every can: where it says otherwise, the label wins over the times, grits and pairs of this plan.".into(),
        "Sand an offcut of the same wood as the board will be, and lay every coat on it in the same order and with the same waits."
            .into(),
        "When it is dry, press tape on it and pull it off: nothing may come away. Judge color and sheen where the board will stand."
            .into(),
        "Times are for usual room conditions; a cold or damp shop takes longer, by how much no source says.".into(),
    ])
}

/// The cautions of a finish: rags with oil, vapor.
pub fn cautions(board: &Board) -> Vec<Caution> {
    let of = [Caution::OilyRags, Caution::Solvents];
    of.into_iter()
        .filter(|caution| caution.concerns(board))
        .collect()
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
    let is_filled = workpiece.pour().is_some_and(|pour| !pour.bores.is_empty());
    let cautions: &[Caution] = if is_filled {
        &[Caution::Dust, Caution::Noise, Caution::Resin]
    } else {
        &[Caution::Dust, Caution::Noise]
    };
    Operation::of(Task::Sand)
        .with(format!("random-orbit sander, paper of grit {grits}"), 90.0)
        .minding(cautions)
        .says(is_filled.then(|| {
            "Cure the resin fully first; sand lightly over it so that it stays cool.".to_owned()
        }))
        .says([
            format!("Sand with the grain through {grits}. Skip no grit, and take the dust off after each."),
            "Break the edges of the holes and grooves by hand with folded paper. Keep the sander flat over them."
                .into(),
            "Wipe with a damp cloth to raise the grain, let it dry, and go over it once more with the last grit.".into(),
        ])
}

/// A coat and the time it dries.
///
/// Both faces get as many coats, or the board cups as one of them takes up the moisture of the air sooner.
fn applied(workpiece: &Workpiece, coat: InLayer, number: u32, is_last: bool) -> Operation {
    let rub = rubbed(workpiece.board(), coat);
    let InLayer {
        coat,
        number: of_layer,
        ..
    } = coat;
    let rests = rests_after(coat, of_layer);
    let hours = coat.dries.max(rests.unwrap_or_default());
    let mut words = format!(
        "Coat {number}: {} {}, {}.",
        coat.kind.label(),
        on(coat.place),
        amount(workpiece, coat),
    );
    words += &rub;
    words += put_on(coat.kind);
    words += " Let it dry ";
    words += &time(hours);
    words += ".";
    if is_last {
        words += " Take plugs and tape off before it is hard.";
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
    .minding(&of_coat(coat))
    .says([words])
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
    use CoatKind::{Lacquer, Oil, OilVarnish, OilWax, SandingSealer, Stain, Wax};
    match kind {
        Oil | OilVarnish => {
            " Flood it on, keep it wet 10 to 15 minutes, then wipe off all the excess; wipe again after an hour where it weeps from \
             the pores."
        }
        OilWax => {
            " Rub on a very thin coat and wipe off all the excess within the time on the label."
        }
        Stain => " Wipe off the excess along the grain within a few minutes, before it gets tacky.",
        Wax => " Rub on a thin coat, let it haze, and buff it.",
        Lacquer => {
            " Use brushing lacquer with a brush. Spray only with a spray booth and an explosion-proof fan."
        }
        SandingSealer => " Brush it on. Spray only with a spray booth and an explosion-proof fan.",
        _ => "",
    }
}

/// Hours that shellac rests after every fourth coat: "12 hours every three to four coats" (trade page); none otherwise.
fn rests_after(coat: Coat, number: u32) -> Option<f64> {
    use board::CoatKind::{DewaxedShellac, Shellac};
    /// Hours of each such rest.
    const REST: f64 = 12.0;
    let is_shellac = matches!(coat.kind, Shellac | DewaxedShellac);
    let is_due = number.is_multiple_of(4) && number < coat.coats;
    (is_shellac && is_due && coat.dries < REST).then_some(REST)
}

/// The sentence about rubbing down what is under a coat; empty where nothing is.
///
/// Within a layer it is about the coat before, at the first coat of a layer about all that the layer lies on. Color is thin, and
/// sanded through in a moment.
fn rubbed(board: &Board, coat: InLayer) -> String {
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
                " Rub the coat before it down first, with a gray pad or grit {grit}{spared}, and take the dust off."
            )
        }
    }
}

/// The tool that a kind is laid on with; common practice, no source.
///
/// Finish that is wiped on and off leaves no brush marks; color is brushed or drawn between strips of tape.
fn tool(coat: Coat) -> &'static str {
    use board::CoatKind::{Oil, OilVarnish, OilWax, PaintPen, Wax, WipingVarnish};
    match coat.kind {
        Oil | OilVarnish | OilWax | WipingVarnish | Wax => "lint-free rag",
        PaintPen => "the pen, masking tape",
        kind if is_color(kind) => "fine brush, masking tape",
        _ => "brush or lint-free rag",
    }
}

/// The cautions of one coat.
fn of_coat(coat: Coat) -> Vec<Caution> {
    let data = coat_data(coat.kind);
    let rags = data.is_oily.then_some(Caution::OilyRags);
    let vapor = data.has_vapor.then_some(Caution::Solvents);
    rags.into_iter().chain(vapor).collect()
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
        "Time until the {} is hard: {}. No pieces go in and nothing stands on it before.",
        coat.kind.label(),
        hard_after(coat.kind)
    )])
}
