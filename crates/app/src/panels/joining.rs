//! Controls of how the board is glued up, and of the screws below.

use board::{Board, Build, INCH, Measure, ScrewCircle, Tenons, Units, ranges};
use egui::{RichText, Ui};
use egui_plot::{HLine, Line, Plot, PlotPoints, VLine};
use workshop::{EdgePlace, Mend, SeamTurns, Workpiece, piece_width, sawn_width};

use super::controls::fit_button;
use super::list_field::{List, lengths_field};
use super::stock::fact;
use crate::command::Command;
use crate::current::Current;
use crate::theme::Tokens;
use crate::widgets::{choice, count_field, length_field, plain_field, row};

/// What is joined, what that costs in wood, where seams and tenons fall.
pub fn joining_ui(ui: &mut Ui, board: &mut Board, current: &Current, asked: &mut Vec<Command>) {
    let units = board.units;
    build_ui(ui, &mut board.panel.build, units);
    let panel = &mut board.panel;
    length_field(
        ui,
        "Jointed off",
        &mut panel.joint,
        ranges::ALLOWANCE,
        units,
    )
    .on_hover_text("What jointing takes off each glued edge");
    length_field(ui, "Saw kerf", &mut panel.kerf, ranges::ALLOWANCE, units)
        .on_hover_text("What each saw cut turns to dust");
    length_field(ui, "Planer takes", &mut panel.planer, ranges::PLANER, units)
        .on_hover_text("The widest piece that your planer takes");
    tenons_ui(ui, &mut board.panel.tenons, units);
    if let Some(workpiece) = current.good() {
        widths_ui(ui, workpiece);
    }
    let turns = current.good().and_then(|workpiece| workpiece.turns());
    if let Some(turns) = turns {
        turns_ui(ui, turns, units);
        fit_button(ui, Mend::TurnOffSeams, asked);
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Whole,
    Halves,
    Strips,
    Seams,
}

fn build_ui(ui: &mut Ui, build: &mut Build, units: Units) {
    let mut kind = match build {
        Build::Whole => Kind::Whole,
        Build::Halves => Kind::Halves,
        Build::Strips { .. } => Kind::Strips,
        Build::Seams { .. } => Kind::Seams,
    };
    let kinds = [Kind::Whole, Kind::Halves, Kind::Strips, Kind::Seams];
    let label = |kind| match kind {
        Kind::Whole => "one piece",
        Kind::Halves => "bookmatched halves",
        Kind::Strips => "strips",
        Kind::Seams => "glued already",
    };
    if choice(ui, "Made of", &mut kind, &kinds, label) {
        *build = match kind {
            Kind::Whole => Build::Whole,
            Kind::Halves => Build::Halves,
            Kind::Strips => Build::Strips { count: 3 },
            Kind::Seams => Build::Seams { at: vec![0.0] },
        };
    }
    match build {
        Build::Whole | Build::Halves => {}
        Build::Strips { count } => {
            count_field(ui, "Strips", count, ranges::STRIPS);
        }
        Build::Seams { at } => {
            let list = List {
                each: ranges::SEAM,
                count: ranges::SEAMS,
                units,
            };
            lengths_field(ui, "Seams above pin", at, list, "-90; 0; 90");
        }
    }
}

fn tenons_ui(ui: &mut Ui, tenons: &mut Option<Tenons>, units: Units) {
    let mut wanted = tenons.is_some();
    row(ui, "Tenons", |ui, _| {
        if ui.checkbox(&mut wanted, "across the seams").changed() {
            *tenons = wanted.then(Tenons::default);
        }
    });
    let Some(tenons) = tenons else { return };
    count_field(ui, "Tenons a seam", &mut tenons.count, ranges::TENONS);
    let sizes = [
        ("Tenon spacing", &mut tenons.spacing),
        ("Tenon length", &mut tenons.length),
        ("Tenon reach", &mut tenons.reach),
        ("Tenon thickness", &mut tenons.thickness),
    ];
    for (caption, size) in sizes {
        length_field(ui, caption, size, ranges::TENON, units);
    }
    length_field(
        ui,
        "Wood over it",
        &mut tenons.below_top,
        ranges::BELOW_TOP,
        units,
    )
    .on_hover_text("Between the top face and the mortise");
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
        fact(ui, "Each piece", &length(glued));
        fact(ui, "Sawn to", &length(sawn));
    }
    let places: Vec<String> = seams.iter().copied().map(length).collect();
    row(ui, "Seams at", |ui, _| {
        ui.add(egui::Label::new(places.join("; ")).wrap());
    });
    let tenons = workpiece.tenons();
    if !tenons.is_empty() {
        let count = |place| tenons.iter().filter(|tenon| tenon.place == place).count();
        let words = format!(
            "{} inside, {} cut by the edge, {} outside",
            count(EdgePlace::Inside),
            count(EdgePlace::Cut),
            count(EdgePlace::Outside)
        );
        row(ui, "Tenons lie", |ui, _| {
            ui.add(egui::Label::new(words).wrap());
        });
    }
}

/// The distance of the nearest bore from any seam over the turn of the pattern: now, and at its best.
fn turns_ui(ui: &mut Ui, turns: &SeamTurns, units: Units) {
    let length = |mm| Measure::mm(mm).shown(units);
    ui.add_space(4.0);
    fact(
        ui,
        "To a seam now",
        &format!("{} ({})", length(turns.now.0), turns.now.1),
    );
    fact(
        ui,
        "At best",
        &format!("{} at {:.2}°", length(turns.there.0), turns.best),
    );
    fact(
        ui,
        "Centers to it",
        &format!(
            "{}, at best {}",
            length(turns.centers.0),
            length(turns.centers.1)
        ),
    );
    curve_ui(ui, turns, units);
    ui.label(
        RichText::new(
            "Line: now. Dashes: best. Below 0 a seam cuts a bore; the center hole does not count.",
        )
        .weak()
        .small(),
    );
}

/// The distance over the turn, with the present rotation and the best.
fn curve_ui(ui: &mut Ui, turns: &SeamTurns, units: Units) {
    let length = |mm| Measure::mm(mm).shown(units);
    let tokens = Tokens::of(ui);
    let (unit, name) = match units {
        Units::Mm => (1.0, "mm"),
        Units::Inch => (INCH, "in"),
    };
    let point = |&(turn, mm): &(f64, f64)| [turn, mm / unit];
    let curve: Vec<[f64; 2]> = turns.curve.iter().map(point).collect();
    let now = turns.curve.first().map_or(0.0, |(turn, _)| *turn);
    let plot = Plot::new("seam turns")
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
        "Distance of the nearest bore from a seam over the rotation; now {}, best {} at {:.2}°",
        length(turns.now.0),
        length(turns.there.0),
        turns.best
    );
    shown
        .response
        .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Figure, true, &said));
}

/// Circles of screws in the underside.
pub fn screws_ui(ui: &mut Ui, board: &mut Board) {
    let units = board.units;
    let mut gone = None;
    for (at, screws) in board.screws.iter_mut().enumerate() {
        let name = format!("Circle {}", at + 1);
        ui.separator();
        count_field(
            ui,
            &format!("{name}, screws"),
            &mut screws.count,
            ranges::SCREWS,
        );
        length_field(
            ui,
            &format!("{name}, across"),
            &mut screws.circle,
            ranges::SCREW_CIRCLE,
            units,
        );
        plain_field(
            ui,
            &format!("{name}, bearing"),
            &mut screws.bearing,
            ranges::SCREW_BEARING,
        );
        let (wide, deep) = (format!("{name}, diameter"), format!("{name}, depth"));
        length_field(ui, &wide, &mut screws.diameter, ranges::SCREW, units);
        length_field(ui, &deep, &mut screws.depth, ranges::SCREW_DEPTH, units);
        if ui.button(format!("Remove circle {}", at + 1)).clicked() {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        board.screws.remove(at);
    }
    let full = board.screws.len() as f64 >= ranges::SCREW_CIRCLES.max;
    let add = ui.add_enabled(!full, egui::Button::new("Add a circle of screws"));
    if add.on_hover_text("Of a turntable, or of feet").clicked() {
        board.screws.push(ScrewCircle::default());
    }
}
