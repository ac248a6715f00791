//! Controls of the blank: its outline, its flaws, and where the board goes on it.

use board::{Board, FlawKind, FlawShape, Measure, Stock, StockFlaw, StockOutline, Units, ranges};
use egui::{RichText, Ui};
use workshop::{Joined, StockPlan};

use super::list_field::{List, corners_field, lengths_field};
use crate::command::Command;
use crate::current::Current;
use crate::widgets::{choice, length_field, row};

/// Outline, thickness, flaws and place of the blank, and what it gives.
pub fn stock_ui(ui: &mut Ui, board: &mut Board, current: &Current, asked: &mut Vec<Command>) {
    let units = board.units;
    outline_ui(ui, &mut board.stock.outline, units);
    let stock = &mut board.stock;
    length_field(
        ui,
        "Blank thickness",
        &mut stock.thickness,
        ranges::THICKNESS,
        units,
    )
    .on_hover_text("Before it is planed");
    length_field(ui, "Trim", &mut stock.trim, ranges::ALLOWANCE, units)
        .on_hover_text("Wood wanted outside the finished edge, for the saw");
    if stock.outline == StockOutline::Unknown {
        return;
    }
    let good = current.good();
    let plan = good.and_then(|workpiece| workpiece.stock());
    place_ui(ui, stock, plan, units);
    flaws_ui(ui, stock, plan, units);
    if ui
        .button(Command::Blank.label())
        .on_hover_text(Command::Blank.tooltip())
        .clicked()
    {
        asked.push(Command::Blank);
    }
    gives_ui(
        ui,
        board,
        plan,
        good.and_then(|workpiece| workpiece.joined()),
    );
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Unknown,
    Slab,
    Corners,
}

/// Another kind of outline begins with a common size, or with the corners there were.
fn outline_ui(ui: &mut Ui, outline: &mut StockOutline, units: Units) {
    let mut kind = match outline {
        StockOutline::Unknown => Kind::Unknown,
        StockOutline::Slab { .. } => Kind::Slab,
        StockOutline::Corners { .. } => Kind::Corners,
    };
    let kinds = [Kind::Unknown, Kind::Slab, Kind::Corners];
    let label = |kind| match kind {
        Kind::Unknown => "not known yet",
        Kind::Slab => "length and width",
        Kind::Corners => "corners",
    };
    if choice(ui, "Outline", &mut kind, &kinds, label) {
        *outline = begun(kind, outline);
    }
    match outline {
        StockOutline::Unknown => {}
        StockOutline::Slab {
            length,
            width,
            lower,
            upper,
        } => {
            length_field(ui, "Blank length", length, ranges::STOCK_SIDE, units)
                .on_hover_text("Along the grain");
            length_field(ui, "Blank width", width, ranges::STOCK_SIDE, units);
            let list = List {
                each: ranges::WANEY,
                count: ranges::CORNERS,
                units,
            };
            let hint = "sawn; or 0; 12; 8";
            lengths_field(ui, "Lower waney edge", lower, list, hint);
            lengths_field(ui, "Upper waney edge", upper, list, hint);
            ui.label(
                RichText::new(
                    "A waney edge: how far in sound wood begins, at equal steps from left to right.",
                )
                .weak()
                .small(),
            );
        }
        StockOutline::Corners { corners } => {
            corners_field(ui, "Blank corners", corners, corner_list(units));
        }
    }
}

const fn corner_list(units: Units) -> List {
    List {
        each: ranges::STOCK_PLACE,
        count: ranges::CORNERS,
        units,
    }
}

fn begun(kind: Kind, before: &StockOutline) -> StockOutline {
    match kind {
        Kind::Unknown => StockOutline::Unknown,
        Kind::Slab => StockOutline::Slab {
            length: 1200.0,
            width: 600.0,
            lower: Vec::new(),
            upper: Vec::new(),
        },
        Kind::Corners => StockOutline::Corners {
            corners: before
                .corners()
                .unwrap_or_else(|| vec![[0.0, 0.0], [1200.0, 0.0], [1200.0, 600.0], [0.0, 600.0]]),
        },
    }
}

fn place_ui(ui: &mut Ui, stock: &mut Stock, plan: Option<&StockPlan>, units: Units) {
    let best = plan.and_then(|plan| Some(plan.best.as_ref()?.circle.center));
    let mut auto = stock.place.is_none();
    row(ui, "Center pin", |ui, _| {
        if ui.checkbox(&mut auto, "at the best place").changed() {
            let rounded = |mm: f64| (mm * 10.0).round() / 10.0;
            let start = best.map_or([0.0, 0.0], |best| [rounded(best.x), rounded(best.y)]);
            stock.place = if auto { None } else { Some(start) };
        }
    });
    if let Some([x, y]) = &mut stock.place {
        length_field(ui, "Pin along", x, ranges::STOCK_PLACE, units);
        length_field(ui, "Pin across", y, ranges::STOCK_PLACE, units);
    }
}

/// The flaws, each with its kind, its shape and its numbers.
fn flaws_ui(ui: &mut Ui, stock: &mut Stock, plan: Option<&StockPlan>, units: Units) {
    let mut gone = None;
    for (at, flaw) in stock.flaws.iter_mut().enumerate() {
        let name = format!("Flaw {}", at + 1);
        ui.separator();
        choice(ui, &name, &mut flaw.kind, &FlawKind::ALL, FlawKind::label);
        shape_ui(ui, &name, &mut flaw.shape, units);
        if ui.button(format!("Remove flaw {}", at + 1)).clicked() {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        stock.flaws.remove(at);
    }
    ui.separator();
    let full = stock.flaws.len() as f64 >= ranges::FLAWS.max;
    ui.horizontal(|ui| {
        let center = plan.and_then(|plan| Some(plan.best.as_ref()?.circle.center));
        let (x, y) = center.map_or((0.0, 0.0), |center| (center.x.round(), center.y.round()));
        let round = FlawShape::Round {
            x,
            y,
            diameter: 30.0,
        };
        let square = [[-20.0, -10.0], [20.0, -10.0], [20.0, 10.0], [-20.0, 10.0]];
        let area = FlawShape::Area {
            corners: square.map(|[dx, dy]| [x + dx, y + dy]).to_vec(),
        };
        let offers = [
            ("Add a round flaw", FlawKind::Knot, round),
            ("Add a flaw with corners", FlawKind::Crack, area),
        ];
        for (words, kind, shape) in offers {
            let button = ui.add_enabled(!full, egui::Button::new(words));
            if button.clicked() {
                stock.flaws.push(StockFlaw { kind, shape });
            }
        }
    });
}

fn shape_ui(ui: &mut Ui, name: &str, shape: &mut FlawShape, units: Units) {
    match shape {
        FlawShape::Round { x, y, diameter } => {
            let place = ranges::STOCK_PLACE;
            length_field(ui, &format!("{name} along"), x, place, units);
            length_field(ui, &format!("{name} across"), y, place, units);
            length_field(
                ui,
                &format!("{name} diameter"),
                diameter,
                ranges::FLAW,
                units,
            );
        }
        FlawShape::Area { corners } => {
            corners_field(ui, &format!("{name} corners"), corners, corner_list(units));
        }
    }
}

/// What the blank gives in one piece, and what joining would.
fn gives_ui(ui: &mut Ui, board: &Board, plan: Option<&StockPlan>, joined: Option<&Joined>) {
    let Some(plan) = plan else {
        ui.label(RichText::new("Looking for the best place…").weak());
        return;
    };
    let length = |mm| Measure::mm(mm).shown(board.units);
    ui.add_space(4.0);
    ui.label(RichText::new("Largest board from this blank").family(crate::theme::strong()));
    fact(ui, "in one piece", &length(plan.largest_board(board)));
    let Some(joined) = joined else {
        return;
    };
    fact(ui, "bookmatched halves", &length(joined.halves));
    for (count, most) in &joined.strips {
        fact(ui, &format!("{count} strips"), &length(*most));
    }
    ui.label(
        RichText::new("Strips are laid from the lower edge up; a sharp eye may find more.")
            .weak()
            .small(),
    );
}

/// A caption and what is known of it.
pub fn fact(ui: &mut Ui, caption: &str, value: &str) {
    row(ui, caption, |ui, _| ui.add(egui::Label::new(value).wrap()));
}
