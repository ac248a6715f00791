//! Controls of how far off each step of the work may be, and what that leaves.

use board::{Board, ranges};
use egui::{RichText, Ui};
use workshop::Measure;

use super::stock::fact;
use crate::current::Current;
use crate::derived::Derived;
use crate::study::Study;
use crate::widgets::{length_field, plain_field};

/// The errors of the work, and the webs to expect.
pub fn accuracy_ui(ui: &mut Ui, board: &mut Board, current: &Current, study: Option<&Study>) {
    let units = board.units;
    let errors = &mut board.errors;
    plain_field(ui, "Print scale ±", &mut errors.print, ranges::PRINT_ERROR)
        .on_hover_text("As a share: 0.002 is 2 mm in a meter. Measure the bars on a sheet.");
    let lengths = [
        ("Taping ±", &mut errors.tape, "One joint between two sheets"),
        (
            "Punching ±",
            &mut errors.punch,
            "Center-punching through the paper",
        ),
        ("Drill wander ±", &mut errors.drill, "From the punched mark"),
        (
            "Oversize",
            &mut errors.oversize,
            "By how much a bore comes out wider than the bit",
        ),
    ];
    for (caption, error, about) in lengths {
        length_field(ui, caption, error, ranges::ERROR, units).on_hover_text(about);
    }
    plain_field(ui, "Indexing ±", &mut errors.index, ranges::INDEX_ERROR)
        .on_hover_text("Where the board is turned from hole to hole; 0 where it is not");
    if let Some((shown, derived)) = current.good() {
        leaves_ui(ui, shown, derived, study);
    }
}

/// How far off holes may be, the webs to expect, and the risk.
fn leaves_ui(ui: &mut Ui, shown: &Board, derived: &Derived, study: Option<&Study>) {
    let Some((budget, at_most)) = &derived.budget else {
        return;
    };
    let length = |mm| Measure::Mm(mm).shown(shown.units);
    let name = |at: usize| {
        derived
            .layout
            .holes
            .get(at)
            .map_or_else(String::new, |hole| hole.name.to_string())
    };
    ui.add_space(4.0);
    for (caption, hole) in [
        ("Hole off, likely", budget.likely_hole),
        ("Hole off, worst", budget.worst_hole),
    ] {
        if let Some(hole) = hole {
            fact(
                ui,
                caption,
                &format!("{} ({})", length(hole.mm), name(hole.hole)),
            );
        }
    }
    let webs = [
        ("Web as laid out", budget.nominal_web),
        ("Web to expect", budget.likely_web),
        ("Web at worst", budget.worst_web),
    ];
    for (caption, web) in webs {
        if let Some(web) = web {
            let between = format!("{} ({} – {})", length(web.mm), name(web.a), name(web.b));
            fact(ui, caption, &between);
        }
    }
    let limit = length(shown.limits.web);
    fact(ui, "Risk of a thin web", &risk(*at_most, study));
    ui.label(
        RichText::new(format!("The chance that any web comes out under {limit}. Errors add up by the root of the sum of squares; each ± is taken as three standard deviations. Defaults: common practice, no source."))
            .weak()
            .small(),
    );
}

/// The chance as it was sampled, with its standard error; while it is being sampled, what it is at most.
fn risk(at_most: f64, study: Option<&Study>) -> String {
    let percent = |share: f64| Measure::Share(share).shown(board::Units::Mm);
    match study.and_then(|study| study.chance) {
        Some(chance) if chance.trials > 0 => format!(
            "{} ± {}",
            percent(chance.share),
            percent(chance.standard_error)
        ),
        Some(chance) => percent(chance.share),
        None => format!("at most {}", percent(at_most)),
    }
}
