//! Controls of the work at the bench: storage below, coats of finish.

use board::{Board, Coat, CoatKind, Measure, Recess, RecessShape, Units, ranges};
use egui::{RichText, Ui};
use workshop::{Caution, finish_hours, hard_after};

use super::stock::fact;
use crate::current::Current;
use crate::widgets::{cautions, choice, count_field, length_field, plain_field, planned};

/// The recess in which the pieces are stored, and how many it holds.
pub fn storage_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    planned(ui, "Recess", "in the underside", &mut board.recess);
    let Some(recess) = &mut board.recess else {
        return;
    };
    recess_ui(ui, recess, board.units);
    let Some(storage) = current.good().and_then(|workpiece| workpiece.storage()) else {
        return;
    };
    let height = Measure::mm(storage.room).shown(board.units);
    fact(ui, "Height inside", &height);
    fact(ui, "Pieces to store", &storage.pieces.to_string());
    fact(ui, "Holds about", &storage.holds.to_string());
    hint(
        ui,
        "Lying loose or laid in rows; an estimate. Drawn on the board: the recess, and what is cut for its lid.",
    );
}

/// The coats of finish, the first on the wood.
pub fn finish_ui(ui: &mut Ui, board: &mut Board) {
    let mut gone = None;
    let last = board.finish.len().saturating_sub(1);
    for (at, coat) in board.finish.iter_mut().enumerate() {
        let name = format!("Coat {}", at + 1);
        choice(ui, &name, &mut coat.kind, &CoatKind::ALL, CoatKind::label);
        if at < last {
            plain_field(ui, &format!("{name} dries"), &mut coat.dries, ranges::DRIES)
                .on_hover_text("Until the next coat");
        }
        if ui.button(format!("Remove coat {}", at + 1)).clicked() {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        board.finish.remove(at);
    }
    let full = board.finish.len() as f64 >= ranges::COATS.max;
    let add = ui.add_enabled(!full, egui::Button::new("Add a coat"));
    if add.on_hover_text("Over the last one").clicked() {
        let next = board.finish.last().copied().unwrap_or_default();
        board.finish.push(next);
    }
    if let Some(Coat { kind, .. }) = board.finish.last() {
        let hours = Measure::hours(finish_hours(board)).shown(board.units);
        fact(ui, "First to last", &hours);
        fact(ui, "Last one hard in", hard_after(*kind));
    }
    if Caution::OilyRags.concerns(board) {
        cautions(ui, &[Caution::OilyRags]);
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Round,
    Straight,
}

fn recess_ui(ui: &mut Ui, recess: &mut Recess, units: Units) {
    let mut kind = match recess.shape {
        RecessShape::Round { .. } => Kind::Round,
        RecessShape::Straight { .. } => Kind::Straight,
    };
    let label = |kind| match kind {
        Kind::Round => "round",
        Kind::Straight => "straight sides",
    };
    if choice(
        ui,
        "Recess outline",
        &mut kind,
        &[Kind::Round, Kind::Straight],
        label,
    ) {
        recess.shape = begun(kind, recess.shape);
    }
    let side = ranges::RECESS;
    match &mut recess.shape {
        RecessShape::Round { diameter } => {
            length_field(ui, "Recess diameter", diameter, side, units);
        }
        RecessShape::Straight {
            length,
            width,
            corner,
        } => {
            length_field(ui, "Recess length", length, side, units)
                .on_hover_text("From left to right, along the grain");
            length_field(ui, "Recess width", width, side, units);
            length_field(ui, "Corner radius", corner, ranges::RECESS_CORNER, units)
                .on_hover_text("Half the diameter of the bit; 0 for square corners, which count for more than any bit cuts");
        }
    }
    let [x, y] = &mut recess.at;
    length_field(ui, "Right of the pin", x, ranges::RECESS_PLACE, units)
        .on_hover_text("Its middle, seen from the top face");
    length_field(ui, "Above the pin", y, ranges::RECESS_PLACE, units);
    length_field(
        ui,
        "Recess depth",
        &mut recess.depth,
        ranges::RECESS_DEPTH,
        units,
    )
    .on_hover_text("From the underside");
    length_field(ui, "Lid thickness", &mut recess.lid, ranges::LID, units)
        .on_hover_text("It lies in the recess, flush with the underside; 0 for none");
    count_field(ui, "Spare pieces", &mut recess.spare, ranges::SPARE)
        .on_hover_text("Beside those that fill the start pockets");
}

/// The other outline begins as large as the one before it.
const fn begun(kind: Kind, before: RecessShape) -> RecessShape {
    match (kind, before) {
        (Kind::Round, RecessShape::Straight { width, .. }) => {
            RecessShape::Round { diameter: width }
        }
        (Kind::Straight, RecessShape::Round { diameter }) => RecessShape::Straight {
            length: diameter,
            width: diameter,
            corner: 0.0,
        },
        (Kind::Round | Kind::Straight, shape) => shape,
    }
}

fn hint(ui: &mut Ui, words: &str) {
    ui.label(RichText::new(words).weak().small());
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, press, sees, type_into};
    use egui_kittest::Harness;
    use testkit::assert_near;

    fn bench() -> Harness<'static, Board> {
        hand::panel(900.0, |ui, board| {
            storage_ui(ui, board, &Current::of(board));
            finish_ui(ui, board);
        })
    }

    #[test]
    fn a_recess_is_typed_and_says_how_many_it_holds() {
        let mut bench = bench();
        press(&mut bench, "in the underside");
        type_into(&mut bench, "Recess depth", "12");
        type_into(&mut bench, "Lid thickness", "1/4\"");
        let recess = bench.state().recess.unwrap();
        assert_near!(recess.depth, 12.0, 0.0);
        assert_near!(recess.lid, 6.35, 1e-12);
        // No marble of 16 mm goes into what is left.
        assert!(sees(&bench, "5.65 mm"));
        type_into(&mut bench, "Recess depth", "25");
        choose(&mut bench, "Recess outline", "straight sides");
        type_into(&mut bench, "Recess length", "160");
        type_into(&mut bench, "Spare pieces", "2");
        type_into(&mut bench, "Corner radius", "1/4\"");
        let shape = bench.state().recess.unwrap().shape;
        assert_near!(shape.corner(), 6.35, 1e-12);
        let workpiece = workshop::Workpiece::of(bench.state()).unwrap();
        let holds = workpiece.storage().unwrap();
        assert_eq!(holds.pieces, 26);
        assert!(holds.holds == 70 && sees(&bench, &holds.holds.to_string()));
    }

    #[test]
    fn coats_are_added_chosen_timed_and_taken_away() {
        let mut bench = bench();
        press(&mut bench, "Add a coat");
        assert!(sees(&bench, "weeks, by the product"));
        press(&mut bench, "Add a coat");
        choose(&mut bench, "Coat 2", "wax");
        type_into(&mut bench, "Coat 1 dries", "36 h");
        let kinds: Vec<CoatKind> = bench.state().finish.iter().map(|coat| coat.kind).collect();
        assert_eq!(kinds, [CoatKind::Oil, CoatKind::Wax]);
        assert_near!(bench.state().finish[0].dries, 36.0, 0.0);
        assert!(sees(&bench, "36 h"));
        press(&mut bench, "Remove coat 1");
        assert_eq!(bench.state().finish.len(), 1);
        assert_eq!(bench.state().finish[0].kind, CoatKind::Wax);
    }
}
