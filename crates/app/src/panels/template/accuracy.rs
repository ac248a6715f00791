//! Controls of the error of each step of the work, and the wood between holes that remains.

use board::{Board, Measure, field};
use egui::Ui;
use workshop::{Chance, Workpiece};

use crate::current::Current;
use crate::panels::rows::fact;
use crate::theme;
use crate::widgets::fields_ui;

/// The errors of the work, and the webs to expect.
pub fn accuracy_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    fields_ui(ui, board, field::ERROR_FIELDS);
    if let Some(workpiece) = current.good() {
        leaves_ui(ui, workpiece);
    }
}

/// The errors of holes to expect, the webs, and the risk.
fn leaves_ui(ui: &mut Ui, workpiece: &Workpiece) {
    let Some((budget, at_most)) = workpiece.budget() else {
        return;
    };
    let shown = workpiece.board();
    let length = |mm| Measure::mm(mm).shown(shown.units);
    let name = |at: usize| {
        workpiece
            .layout()
            .holes
            .get(at)
            .map_or_else(String::new, |hole| hole.name.to_string())
    };
    ui.add_space(theme::TIGHT);
    for (caption, hole) in [
        ("Position error, typical", budget.likely_hole),
        ("Position error, worst", budget.worst_hole),
    ] {
        if let Some(hole) = hole {
            fact(
                ui,
                caption,
                &format!("{} ({})", length(hole.mm), name(hole.hole)),
                "From the errors above and how far out the hole lies",
            );
        }
    }
    let webs = [
        ("Wood as laid out", budget.nominal_web),
        ("Wood to expect", budget.likely_web),
        ("Wood at worst", budget.worst_web),
    ];
    for (caption, web) in webs {
        if let Some(web) = web {
            let between = format!("{} ({} – {})", length(web.mm), name(web.a), name(web.b));
            let from = "From the layout, less the errors of both holes";
            fact(ui, caption, &between, from);
        }
    }
    let limit = length(shown.limits.web);
    let chance = risk(*at_most, workpiece.chance());
    let from = "From the wood between holes, the errors above and the limit";
    fact(ui, "Risk of thin wood", &chance, from);
    ui.label(
        theme::quiet(format!("The chance that the wood between any two holes comes out under {limit}. Independent errors are combined (root sum square), and each ± counts as three standard deviations. Defaults: common practice, no source.")),
    );
}

/// The chance as it was sampled, with its standard error; while it is being sampled, what it is at most.
fn risk(at_most: f64, chance: Option<&Chance>) -> String {
    let percent = |share: f64| Measure::share(share).shown(board::Units::Mm);
    match chance {
        Some(chance) if chance.trials > 0 => format!(
            "{} ± {}",
            percent(chance.share),
            percent(chance.standard_error)
        ),
        Some(chance) => percent(chance.share),
        None => format!("at most {}", percent(at_most)),
    }
}
