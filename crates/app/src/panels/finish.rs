//! Controls of the finish: its layers, the first on the wood, what does not hold and how that is fixed, what it takes.

use board::{Board, Coat, field};
use egui::collapsing_header::CollapsingState;
use egui::{Button, RichText, Ui, WidgetInfo};
use workshop::{
    Caution, FinishPreset, Workpiece, coat_data, drying_time, finish_hours, finish_needs,
    finish_volume, hard_after, last_to_harden,
};

use super::rows::{add_button, fact, remark};
use crate::current::Current;
use crate::theme::{self, Tokens};
use crate::widgets::{at_right, cautions, entry_ui, row_width};

/// The layers of finish, the first on the wood.
pub fn finish_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    presets_ui(ui, board);
    layers_ui(ui, board);
    if add_button(ui, "Add a layer", board.finish.len(), &field::COATS) {
        board.finish.push(next_layer(board));
    }
    let known = current.good();
    let known = known.filter(|workpiece| workpiece.board().finish == board.finish);
    if let Some(workpiece) = known {
        fixes_ui(ui, board, workpiece);
        needs_ui(ui, workpiece);
    }
    let told = [Caution::OilyRags, Caution::Solvents];
    let told: Vec<Caution> = told
        .into_iter()
        .filter(|caution| caution.concerns(board))
        .collect();
    if !told.is_empty() {
        cautions(ui, &told);
    }
}

/// Proven schedules to begin with; the chosen one replaces the present layers, and Undo restores them.
fn presets_ui(ui: &mut Ui, board: &mut Board) {
    ui.menu_button("Use a schedule", |ui| {
        for preset in FinishPreset::ALL {
            let button = ui.button(preset.label());
            if button.on_hover_text(preset.tooltip()).clicked() {
                board.finish = preset.coats(board);
                ui.close();
            }
        }
    });
}

/// The layer to add: like the last one, or the usual first one on bare wood.
fn next_layer(board: &Board) -> Coat {
    board.finish.last().copied().unwrap_or_default()
}

/// A change to the list of coats.
enum Change {
    /// A layer is taken out.
    Remove(usize),
    /// A layer and the one after it change places.
    Swap(usize),
}

/// Every layer with its buttons and, unfolded, its fields.
fn layers_ui(ui: &mut Ui, board: &mut Board) {
    let mut change = None;
    for at in 0..board.finish.len() {
        let id = ui.scope_id().with(("layer of finish", at));
        let state = CollapsingState::load_with_default_open(ui.ctx(), id, true);
        let header = state.show_header(ui, |ui| {
            if let Some(done) = header_ui(ui, board, at) {
                change = Some(done);
            }
        });
        header.body_unindented(|ui| {
            let before = board.finish.get(at).map(|coat| coat.kind);
            entry_ui(ui, board, &field::COAT, at);
            entry_ui(ui, board, &field::COAT_PLACE, at);
            entry_ui(ui, board, &field::COAT_COUNT, at);
            entry_ui(ui, board, &field::COAT_DRIES, at);
            if let Some(coat) = board.finish.get_mut(at)
                && before != Some(coat.kind)
            {
                usual_time(coat);
            }
        });
    }
    match change {
        Some(Change::Remove(at)) => {
            board.finish.remove(at);
        }
        Some(Change::Swap(at)) => board.finish.swap(at, at + 1),
        None => {}
    }
}

/// Sets the usual drying time of a kind that was just chosen, because that of the old kind does not apply.
fn usual_time(coat: &mut Coat) {
    coat.dries = coat_data(coat.kind).next;
}

/// A layer in a line, with the buttons that move it and take it out.
fn header_ui(ui: &mut Ui, board: &Board, at: usize) -> Option<Change> {
    let coat = board.finish.get(at)?;
    let number = at + 1;
    let mut change = None;
    ui.horizontal(|ui| {
        // It ends where the fields below it end.
        ui.set_max_width(row_width(ui) - ui.spacing().indent);
        let words = match coat.coats {
            1 => format!("{number}. {}", coat.kind.label()),
            coats => format!("{number}. {} × {coats}", coat.kind.label()),
        };
        let words = theme::bold(words);
        let title = |ui: &mut Ui| {
            ui.add(egui::Label::new(words).truncate());
        };
        at_right(ui, &format!("layer {number}"), title, |ui| {
            if small(ui, "↑", at > 0, &format!("Move layer {number} up")) {
                change = at.checked_sub(1).map(Change::Swap);
            }
            let is_last = number == board.finish.len();
            if small(ui, "↓", !is_last, &format!("Move layer {number} down")) {
                change = Some(Change::Swap(at));
            }
            if small(ui, "×", true, &format!("Remove layer {number}")) {
                change = Some(Change::Remove(at));
            }
        });
    });
    change
}

/// A small button with a symbol and a name for screen readers; returns whether it was pressed.
fn small(ui: &mut Ui, sign: &str, on: bool, name: &str) -> bool {
    let button = ui.add_enabled(on, Button::new(sign).small());
    button.widget_info(|| WidgetInfo::labeled(egui::Role::Button, on, name));
    button.on_hover_text(name).clicked()
}

/// The fixes of a plan with coats that do not hold, best first, a button for each.
fn fixes_ui(ui: &mut Ui, board: &mut Board, workpiece: &Workpiece) {
    let fixes = workpiece.finish_fixes();
    if fixes.is_empty() {
        return;
    }
    let shortest = fixes.iter().all(|fix| fix.is_shortest);
    let words = if shortest {
        "Not every coat holds. The fewest changes that help:"
    } else {
        "Not every coat holds. These changes help, though fewer may do:"
    };
    let color = Tokens::of(ui).caution;
    ui.label(RichText::new(format!("▲ {words}")).color(color));
    for fix in fixes {
        let size = egui::vec2(row_width(ui), ui.spacing().interact_size.y);
        let button = Button::new(fix.words()).wrap();
        if ui.add_sized(size, button).clicked() {
            board.finish.clone_from(&fix.coats);
        }
    }
}

/// Times in all, and what is to be bought for the boards of the order.
fn needs_ui(ui: &mut Ui, workpiece: &Workpiece) {
    let board = workpiece.board();
    if board.finish.is_empty() {
        return;
    }
    fact(
        ui,
        "First to last coat",
        &drying_time(finish_hours(board)),
        "From the drying times of the coats above",
    );
    if let Some(coat) = last_to_harden(board) {
        let words = format!("{}, {}", coat.kind.label(), hard_after(coat.kind));
        fact(
            ui,
            "Hard last",
            &words,
            "From the cure times of the coats above",
        );
    }
    let needs = finish_needs(workpiece, board.schedule.boards).into_iter();
    let needs = needs.map(|need| {
        let volume = finish_volume(need.ml, board.units);
        format!("{volume} of {}", need.kind.label())
    });
    fact(
        ui,
        "Needed in all",
        &needs.collect::<Vec<_>>().join("\n"),
        "From the areas coated, the coats and the number of boards",
    );
    remark(
        ui,
        "Labels come before these times and amounts; make a test board first. A cold or damp shop takes longer; no source says \
         by how much.",
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, press, sees, type_into};
    use board::{CoatKind, CoatPlace};
    use egui_kittest::Harness;
    use testkit::assert_near;

    fn bench() -> Harness<'static, Board> {
        hand::panel(1200.0, |ui, board| {
            let current = Current::of(board);
            finish_ui(ui, board, &current);
        })
    }

    #[test]
    fn layers_are_added_chosen_timed_moved_and_taken_away() {
        let mut bench = bench();
        press(&mut bench, "Add a layer");
        assert!(sees(&bench, "weeks; see the label"));
        press(&mut bench, "Add a layer");
        choose(&mut bench, "Layer 2", "stain");
        type_into(&mut bench, "Layer 1 drying time", "36 h");
        type_into(&mut bench, "Layer 1, coats", "3");
        choose(&mut bench, "Layer 2, where", "top face");
        let kinds: Vec<CoatKind> = bench.state().finish.iter().map(|coat| coat.kind).collect();
        assert_eq!(kinds, [CoatKind::Oil, CoatKind::Stain]);
        assert_near!(bench.state().finish[0].dries, 36.0, 0.0);
        assert_eq!(bench.state().finish[0].coats, 3);
        assert_eq!(bench.state().finish[1].place, CoatPlace::Top);
        assert!(sees(&bench, "4.5 days"));
        press(&mut bench, "Move layer 2 up");
        assert_eq!(bench.state().finish[0].kind, CoatKind::Stain);
        press(&mut bench, "Remove layer 2");
        assert_eq!(bench.state().finish.len(), 1);
        assert_eq!(bench.state().finish[0].kind, CoatKind::Stain);
    }

    #[test]
    fn a_plan_that_does_not_hold_is_fixed_with_a_press() {
        let mut bench = bench();
        bench.state_mut().finish = vec![
            Coat::of(CoatKind::Wax, 1.0),
            Coat::of(CoatKind::OilPolyurethane, 24.0),
        ];
        bench.run();
        press(&mut bench, "Move wax to the end");
        assert_eq!(bench.state().finish[1].kind, CoatKind::Wax);
        assert!(!sees(&bench, "Not every coat holds"));
    }

    #[test]
    fn a_schedule_of_the_house_takes_the_place_of_what_is_there() {
        let mut bench = bench();
        press(&mut bench, "Use a schedule");
        press(&mut bench, "Wiping varnish, satin");
        assert_eq!(bench.state().finish[0].kind, CoatKind::WipingVarnish);
        assert_eq!(bench.state().finish[0].coats, 4);
        assert!(sees(&bench, " of wiping varnish"));
    }
}
