//! Controls of the blank: its outline, its flaws, and where the board goes on it.

use board::{
    Board, Build, FlawKind, FlawShape, INCH, Measure, StockFlaw, StockOutline, Units, at_mark,
    field, show_most,
};
use egui::{RichText, Ui};
use workshop::{Joined, StockPlan, Thicknesses};

use crate::command::Command;
use crate::current::Current;
use crate::panels::rows::{add_button, amount, remark};
use crate::theme;
use crate::widgets::{entry_ui, field_ui, fields_ui};

/// Outline, thickness, flaws and place of the blank, and what it gives.
pub fn stock_ui(ui: &mut Ui, board: &mut Board, current: &Current, asked: &mut Vec<Command>) {
    fields_ui(ui, board, field::STOCK_FIELDS);
    field_ui(ui, board, &field::TRIM);
    if board.stock.outline == StockOutline::Unknown {
        return;
    }
    let good = current.good();
    let plan = good.and_then(|workpiece| workpiece.stock());
    place_ui(ui, board, plan);
    flaws_ui(ui, board, plan);
    if ui
        .button(Command::Blank.label())
        .on_hover_text(Command::Blank.tooltip())
        .clicked()
    {
        asked.push(Command::Blank);
    }
    let joined = good.and_then(|workpiece| workpiece.joined());
    gives_ui(ui, board, plan, joined);
}

/// Where the center pin goes; it begins at the best place.
fn place_ui(ui: &mut Ui, board: &mut Board, plan: Option<&StockPlan>) {
    let best = plan.and_then(|plan| Some(plan.best.as_ref()?.circle.center));
    if field_ui(ui, board, &field::STOCK_PLACE)
        && let (Some(place), Some(best)) = (&mut board.stock.place, best)
    {
        *place = [best.x, best.y].map(|mm| (mm * 10.0).round() / 10.0);
    }
    fields_ui(ui, board, &[&field::PLACE_X, &field::PLACE_Y]);
}

/// The flaws, each with its kind, its shape and its numbers.
fn flaws_ui(ui: &mut Ui, board: &mut Board, plan: Option<&StockPlan>) {
    let mut gone = None;
    for at in 0..board.stock.flaws.len() {
        ui.separator();
        for field in [
            &field::FLAW_KIND,
            &field::FLAW_X,
            &field::FLAW_Y,
            &field::FLAW_DIAMETER,
            &field::FLAW_CORNERS,
        ] {
            entry_ui(ui, board, field, at);
        }
        if ui.button(format!("Remove flaw {}", at + 1)).clicked() {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        board.stock.flaws.remove(at);
    }
    ui.separator();
    let units = board.units;
    let flaws = &mut board.stock.flaws;
    ui.horizontal_wrapped(|ui| {
        let center = plan.and_then(|plan| Some(plan.best.as_ref()?.circle.center));
        let (x, y) = center.map_or((0.0, 0.0), |center| {
            (at_mark(center.x, units), at_mark(center.y, units))
        });
        let round = FlawShape::Round {
            x,
            y,
            diameter: match units {
                Units::Mm => 30.0,
                Units::Inch(_) => 1.25 * INCH,
            },
        };
        let [long, short] = match units {
            Units::Mm => [20.0, 10.0],
            Units::Inch(_) => [INCH, INCH / 2.0],
        };
        let square = [
            [-long, -short],
            [long, -short],
            [long, short],
            [-long, short],
        ];
        let area = FlawShape::Area {
            corners: square.map(|[dx, dy]| [x + dx, y + dy]).to_vec(),
        };
        let offers = [
            ("Add a round flaw", FlawKind::Knot, round),
            ("Add a flaw with corners", FlawKind::Crack, area),
        ];
        for (words, kind, shape) in offers {
            if add_button(ui, words, flaws.len(), &field::FLAWS) {
                flaws.push(StockFlaw { kind, shape });
            }
        }
    });
}

/// The remark that two leaves of the blank come out too thin for the board; none where they are thick enough.
fn thin_leaves(board: &Board) -> Option<String> {
    let mut halves = board.clone();
    halves.panel.build = Build::Halves;
    let at = Thicknesses::of(&halves);
    let length = |mm| Measure::mm(mm).shown(board.units);
    (!at.is_enough(&halves.panel.build)).then(|| {
        format!(
            "Resawn, each half would be {} thick: too thin to plane to {}.",
            length(at.sawn),
            length(at.finished)
        )
    })
}

/// Boards that the blank gives in one piece, and those that joining would give.
fn gives_ui(ui: &mut Ui, board: &Board, plan: Option<&StockPlan>, joined: Option<&Joined>) {
    let Some(plan) = plan else {
        ui.label(RichText::new("Looking for the best place…").weak());
        return;
    };
    let length = |mm| show_most(mm, board.units);
    ui.add_space(theme::TIGHT);
    ui.label(RichText::new("Largest board from this blank").family(crate::theme::strong()));
    amount(
        ui,
        "in one piece",
        &length(plan.largest_board(board)),
        "The largest sound circle on the blank, less the saw allowance",
    );
    let Some(joined) = joined else {
        return;
    };
    let thin = thin_leaves(board);
    let halves = length(joined.halves);
    amount(
        ui,
        "bookmatched halves",
        &thin
            .as_ref()
            .map_or_else(|| halves.clone(), |_| format!("{halves}, too thin")),
        "The largest half circle on the blank, less saw and joint allowances",
    );
    if let Some(words) = thin {
        remark(ui, &words);
    }
    for strips in &joined.strips {
        amount(
            ui,
            &format!("{} strips", strips.count),
            &length(strips.diameter),
            "The largest board from that many strips, less saw and joint allowances",
        );
    }
    remark(
        ui,
        "Strips are laid out from the lower edge up; by eye you may find room for more.",
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A blank of 25 mm less a kerf of 3 mm gives two leaves of 11 mm, one of 52 mm two of 24.5 mm.
    #[test]
    fn halves_that_come_out_too_thin_are_marked() {
        let mut board = Board::default();
        board.stock.thickness = 25.0;
        let words = thin_leaves(&board).unwrap();
        assert_eq!(
            words,
            "Resawn, each half would be 11 mm thick: too thin to plane to 20 mm."
        );
        board.stock.thickness = 52.0;
        assert_eq!(thin_leaves(&board), None);
    }
}
