//! Controls of one hole, and of all that was changed by hand.

use board::{
    Board, Bore, BoreColor, Change, Edit, HoleId, Hue, Layout, Role, Units, field, show_length,
    show_setting,
};
use drawing::one_each;
use egui::{RichText, Ui};
use workshop::{player_look, tone_of};

use crate::current::Current;
use crate::panels::bores::bore_ui;
use crate::panels::bores::find::find_ui;
use crate::widgets::{color_field, number_ui, row};

/// The parts that the controls of a hole change.
pub struct Chosen<'a> {
    /// The document.
    pub board: &'a mut Board,
    /// All holes that are chosen.
    pub holes: &'a [HoleId],
    /// The hole among them that is shown.
    pub selected: &'a mut Option<HoleId>,
    /// Whether a change to it is made for every player.
    pub mirrored: &'a mut bool,
    /// Holes to choose in place of these, if the maker searched for others.
    pub choice: &'a mut Option<Vec<HoleId>>,
}

/// The chosen hole, and the list of changes by hand.
pub fn hole_ui(ui: &mut Ui, controls: &mut Chosen<'_>, current: &Current) {
    let layout = current.good().map(|workpiece| workpiece.layout());
    if let Some(choice) = layout.and_then(|layout| find_ui(ui, layout, controls.holes)) {
        *controls.choice = Some(choice);
    }
    let chosen = controls
        .selected
        .and_then(|id| Some((id, *layout?.hole(id)?)));
    if let Some((_, hole)) = chosen.filter(|_| controls.holes.len() > 1) {
        several_ui(ui, controls, layout, hole.bore);
    } else if let Some((id, hole)) = chosen {
        chosen_ui(ui, controls, id, hole);
    } else {
        ui.label(
            RichText::new(
                "Choose a hole on the board to move it, leave it out or give it another bore.",
            )
            .weak(),
        );
    }
    let add = ui
        .button("Add a hole")
        .on_hover_text("Between the center pin and the home lane; move it from there");
    if add.clicked() {
        let board = &mut *controls.board;
        let middle = layout.map_or(board.pitch, |layout| layout.turn_in_radius / 2.0);
        let bore = board.bores.track;
        let id = board.add_hole(*controls.mirrored, (board.pitch, middle), bore);
        *controls.selected = Some(id);
    }
    changes_ui(ui, controls.board);
}

fn chosen_ui(ui: &mut Ui, controls: &mut Chosen<'_>, id: HoleId, hole: board::Hole) {
    let board = &mut *controls.board;
    ui.label(
        RichText::new(format!("{}, {}", hole.name, id.role().label()))
            .family(crate::theme::strong()),
    );
    if id.role() != Role::Center {
        row(ui, "Change", |ui, _| {
            ui.checkbox(controls.mirrored, "for every player")
        });
    }
    let mirrored = *controls.mirrored && id.role() != Role::Center;
    let units = board.units;
    if id.role() != Role::Center {
        moves_ui(ui, board, id, mirrored);
    }
    let mut bore = hole.bore;
    bore_ui(ui, "Its", &mut bore, units);
    if bore != hole.bore {
        board.set_bore(id, mirrored, Some(bore));
    }
    color_ui(ui, board, &[id], mirrored, "Its color");
    if ui.button("Remove this hole").clicked() {
        board.drop_hole(id, mirrored);
    }
}

/// Controls for several chosen holes: a number changed for the hole that is shown is changed for all of them.
fn several_ui(ui: &mut Ui, controls: &mut Chosen<'_>, layout: Option<&Layout>, shown: Bore) {
    let board = &mut *controls.board;
    let title = format!("{} holes chosen", controls.holes.len());
    ui.label(RichText::new(title).family(crate::theme::strong()));
    row(ui, "Change", |ui, _| {
        ui.checkbox(controls.mirrored, "for every player")
    });
    let holes = one_each(controls.holes, *controls.mirrored);
    let mirrored = |id: HoleId| *controls.mirrored && id.role() != Role::Center;
    let mut bore = shown;
    bore_ui(ui, "Their", &mut bore, board.units);
    if bore != shown {
        for id in &holes {
            let own = layout
                .and_then(|layout| layout.hole(*id))
                .map(|hole| hole.bore);
            let bore = own.map(|own| own.with_changes(shown, bore));
            board.set_bore(*id, mirrored(*id), bore);
        }
    }
    color_ui(ui, board, &holes, *controls.mirrored, "Their color");
    if ui.button("Remove these holes").clicked() {
        for id in holes {
            board.drop_hole(id, mirrored(id));
        }
    }
}

/// The color by hand of some holes, as the first of them has it, and a button that goes back to that of their roles.
fn color_ui(ui: &mut Ui, board: &mut Board, holes: &[HoleId], mirrored: bool, caption: &str) {
    let Some(first) = holes.first() else { return };
    let mirrored = |id: HoleId| mirrored && id.role() != Role::Center;
    let by_hand = board.colors.holes.iter().any(|one| one.concerns(*first));
    let shown = match board.colors.of_hole(*first).hue {
        Hue::One { color } => color,
        Hue::Player => player_look(board, first.player().max(1)).color,
        Hue::Bare => tone_of(board),
    };
    let hint = "In place of the color of the role; how and with what is at the stage Finish";
    if let Some(color) = color_field(ui, caption, shown, hint) {
        for id in holes {
            let look = BoreColor {
                hue: Hue::One { color },
                ..*board.colors.of_hole(*id)
            };
            board.colors.set_by_hand(*id, mirrored(*id), Some(look));
        }
    }
    if by_hand && ui.button("Back to the color of the role").clicked() {
        for id in holes {
            board.colors.set_by_hand(*id, mirrored(*id), None);
        }
    }
}

/// The hole's move from where the pattern has it.
fn moves_ui(ui: &mut Ui, board: &mut Board, id: HoleId, mirrored: bool) {
    let units = board.units;
    let before = board.moved(id, mirrored);
    let (mut u, mut v) = before;
    number_ui(ui, "Moved clockwise", &field::EDIT_U, &mut u, units);
    number_ui(ui, "Moved outward", &field::EDIT_V, &mut v, units);
    if (u, v) != before {
        board.set_moved(id, mirrored, (u, v));
    }
}

/// Every change by hand, each with a button that takes it back.
fn changes_ui(ui: &mut Ui, board: &mut Board) {
    let units = board.units;
    let mut back = None;
    for (at, edit) in board.edits.iter().enumerate() {
        ui.horizontal(|ui| {
            let words = in_words(edit, units);
            if ui
                .small_button("Take back")
                .on_hover_text(format!("Take back: {words}"))
                .clicked()
            {
                back = Some(at);
            }
            // A long line must not widen the panel.
            let line = egui::Label::new(&words).truncate();
            ui.add(line).on_hover_text(words);
        });
    }
    if let Some(at) = back {
        board.edits.remove(at);
    }
}

fn in_words(edit: &Edit, units: Units) -> String {
    let whose = if edit.mirrored {
        " of every player"
    } else {
        ""
    };
    let what = match edit.change {
        Change::Move { u, v } => {
            format!("moved {}, {}", show_length(u, units), show_length(v, units))
        }
        Change::Drop => "left out".into(),
        Change::Bore { bore } => format!("bore Ø {}", show_setting(bore.diameter, units)),
        Change::Add { .. } => "added".into(),
    };
    format!("{}{whose}: {what}", edit.hole)
}
