//! Controls of how the board is glued up, and of the screws in the underside.

use board::{Board, INCH, Measure, Units, Value, field};
use egui::Ui;
use egui_plot::{HLine, Line, Plot, PlotPoints, VLine};
use workshop::{Caution, EdgePlace, Mend, SeamTurns, Workpiece, piece_width, sawn_width};

use crate::command::Command;
use crate::current::Current;
use crate::panels::rows::{add_button, fact, fitted_fact, remark};
use crate::theme::{self, Tokens};
use crate::widgets::{cautions, entry_ui, fields_ui, row_width};

/// Joints, their cost in wood, and the places of seams and tenons.
pub fn joining_ui(ui: &mut Ui, board: &mut Board, current: &Current, asked: &mut Vec<Command>) {
    let units = board.units;
    fields_ui(ui, board, field::JOINING_FIELDS);
    if let Some(workpiece) = current.good() {
        widths_ui(ui, workpiece);
    }
    let turns = current.good().and_then(|workpiece| workpiece.turns());
    if let Some(turns) = turns {
        turns_ui(ui, turns, units, asked);
    }
    cautions(ui, &minded(board));
}

/// The cautions of the machines that make the blank.
fn minded(board: &Board) -> Vec<Caution> {
    let machines = [Caution::TableSaw, Caution::BandSaw, Caution::Jointer];
    let mortised = board.panel.tenons.map(|_| Caution::Mortise);
    let all = [Caution::Eyes, Caution::Dust, Caution::Noise];
    machines.into_iter().chain(mortised).chain(all).collect()
}

/// Widths of the pieces, places of seams and tenons.
fn widths_ui(ui: &mut Ui, workpiece: &Workpiece) {
    let board = workpiece.board();
    let length = |mm| Measure::mm(mm).shown(board.units);
    let seams = workpiece.seams();
    if seams.is_empty() {
        return;
    }
    if let (Some(glued), Some(sawn)) = (piece_width(board), sawn_width(board)) {
        fact(
            ui,
            "Each piece",
            &length(glued),
            "Board diameter and saw allowance, divided by the pieces",
        );
        fact(
            ui,
            "Sawn to",
            &length(sawn),
            "Each piece, with what the jointer removes",
        );
    }
    let places: Vec<String> = seams.iter().copied().map(length).collect();
    fact(
        ui,
        "Seams at",
        &places.join("; "),
        "Height above the center pin, from the pieces and their widths",
    );
    let tenons = workpiece.tenons();
    if !tenons.is_empty() {
        let count = |place| tenons.iter().filter(|tenon| tenon.place == place).count();
        let words = format!(
            "{} inside, {} cut by the edge, {} outside",
            count(EdgePlace::Inside),
            count(EdgePlace::Cut),
            count(EdgePlace::Outside)
        );
        fact(
            ui,
            "Tenons lie",
            &words,
            "From the seams, the spacing of the tenons and the board's edge",
        );
    }
}

/// The distance of the nearest bore from any seam over the turn of the pattern: now, and at its best.
fn turns_ui(ui: &mut Ui, turns: &SeamTurns, units: Units, asked: &mut Vec<Command>) {
    let length = |mm| Measure::mm(mm).shown(units);
    let angle = |degrees| Measure::degrees(degrees).shown(units);
    ui.add_space(theme::TIGHT);
    let now = format!("{} ({})", length(turns.now.mm), turns.now.hole);
    let from = "From the nearest hole to a seam at this rotation";
    let turn = if turns.at_best.mm < 0.0 {
        Mend::LeastCutBySeams
    } else {
        Mend::TurnOffSeams
    };
    fitted_fact(ui, "To a seam now", [&now, from], turn, asked);
    fact(
        ui,
        "At best",
        &format!("{} at {}", length(turns.at_best.mm), angle(turns.best)),
        "From the nearest hole to a seam, over all rotations of the pattern",
    );
    fact(
        ui,
        "Centers to it",
        &format!(
            "{}, at best {}",
            length(turns.centers.0),
            length(turns.centers.1)
        ),
        "From the nearest center to a seam, now and over all rotations",
    );
    curve_ui(ui, turns, units);
    remark(
        ui,
        "Line: now. Dashes: best. Below 0 a seam cuts a hole; the center hole does not count.",
    );
}

/// The distance over the turn, with the present rotation and the best.
fn curve_ui(ui: &mut Ui, turns: &SeamTurns, units: Units) {
    let length = |mm| Measure::mm(mm).shown(units);
    let angle = |degrees| Measure::degrees(degrees).shown(units);
    let tokens = Tokens::of(ui);
    let (unit, name) = match units {
        Units::Mm => (1.0, "mm"),
        Units::Inch(_) => (INCH, "in"),
    };
    let point = |&(turn, mm): &(f64, f64)| [turn, mm / unit];
    let curve: Vec<[f64; 2]> = turns.curve.iter().map(point).collect();
    let now = turns.curve.first().map_or(0.0, |(turn, _)| *turn);
    let plot = Plot::new("seam turns")
        .width(row_width(ui))
        .height(150.0)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .show_x(false)
        .show_y(false)
        .x_axis_label("rotation (°)")
        .y_axis_label(name);
    let shown = plot.show(ui, |plot| {
        plot.hline(HLine::new("seam", 0.0).color(tokens.line));
        plot.line(Line::new("gap", PlotPoints::from(curve)).color(tokens.accent));
        plot.vline(VLine::new("now", now).color(tokens.faint_ink));
        plot.vline(
            VLine::new("best", turns.best)
                .color(tokens.fine)
                .style(egui_plot::LineStyle::dashed_dense()),
        );
    });
    let said = format!(
        "Distance of the nearest hole from a seam over the rotation; now {}, best {} at {}",
        length(turns.now.mm),
        length(turns.at_best.mm),
        angle(turns.best)
    );
    shown
        .response
        .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Figure, true, &said));
}

/// Circles of screws in the underside.
pub fn screws_ui(ui: &mut Ui, board: &mut Board) {
    let mut gone = None;
    for at in 0..board.screws.len() {
        ui.separator();
        for field in field::SCREW_FIELDS {
            entry_ui(ui, board, field, at);
        }
        if ui.button(format!("Remove circle {}", at + 1)).clicked() {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        board.screws.remove(at);
    }
    if add_button(
        ui,
        "Add a circle of screws",
        board.screws.len(),
        &field::SCREWS,
    ) {
        let more = board.screws.len() + 1;
        field::SCREWS.set(board, 0, &Value::Entries(more));
    }
    if !board.screws.is_empty() {
        cautions(ui, &[Caution::DrillPress, Caution::Eyes]);
    }
}
