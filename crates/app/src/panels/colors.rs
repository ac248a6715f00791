//! Controls of the colors: the players' own, and those of the board.

use board::{Board, Field, Mark, MarkShape, Medium, Value, field};
use egui::{ComboBox, Ui, WidgetInfo};
use workshop::{Caution, PlayerLook, player_look};

use super::rows::{add_button, remark};
use crate::widgets::{
    BUTTON, cautions, color_parts, entry_ui, field_ui, fields_ui, in_width, row_width, show_fault,
};

/// Widths of a player's number and of the color as text; the mark has the rest of the row.
const NUMBER: f32 = 20.0;
const TEXT: f32 = 96.0;

/// The players' colors and marks, one line for each.
pub fn players_ui(ui: &mut Ui, board: &mut Board) {
    for player in 1..=board.players {
        player_ui(ui, board, player);
    }
    if !board.colors.players.is_empty() && ui.button("Use the standard colors").clicked() {
        board.colors.players.clear();
    }
    remark(
        ui,
        "The set is that of Okabe and Ito (2008), chosen so that people of any color vision tell its colors apart.",
    );
}

/// A player's color as a button and as text, and the mark.
fn player_ui(ui: &mut Ui, board: &mut Board, player: u32) {
    let look = player_look(board, player);
    let name = format!("Player {player}");
    let fault = ui.scope_id().with(&name).with("fault");
    ui.horizontal(|ui| {
        let size = egui::vec2(NUMBER, ui.spacing().interact_size.y);
        let left = egui::Layout::left_to_right(egui::Align::Center);
        ui.allocate_ui_with_layout(size, left, |ui| {
            ui.set_min_width(size.x);
            let number = ui.label(player.to_string());
            number.widget_info(|| WidgetInfo::labeled(egui::Role::Label, true, &name));
        });
        let hint = field::PLAYER_COLOR.hint;
        if let Some(color) =
            color_parts(ui, &format!("{name}, color"), look.color, TEXT, hint, fault)
        {
            board.colors.of_player(player).color = Some(color);
        }
        mark_choice(ui, board, &look);
    });
    show_fault(ui, fault);
    if matches!(look.mark, Mark::Letters { .. }) {
        entry_ui(ui, board, &field::PLAYER_LETTERS, player as usize - 1);
    }
}

/// Every mark that can be chosen, in one list.
fn mark_choice(ui: &mut Ui, board: &mut Board, look: &PlayerLook) {
    let name = format!("Player {}, mark", look.player);
    let mut chosen = look.mark.clone();
    let width = row_width(ui) - NUMBER - BUTTON - TEXT - 3.0 * ui.spacing().item_spacing.x;
    let combo = ComboBox::from_id_salt(&name)
        .selected_text(mark_words(&chosen))
        .width(width)
        .height(360.0)
        .wrap();
    let shown = in_width(ui, width, |ui| {
        combo.show_ui(ui, |ui| {
            for mark in marks() {
                let words = mark_words(&mark);
                ui.selectable_value(&mut chosen, mark, words);
            }
        })
    });
    ui.accesskit_node_builder(shown.response.id, |node| node.set_label(name));
    shown.response.on_hover_text(mark_words(&chosen));
    if chosen != look.mark {
        board.colors.of_player(look.player).mark = chosen;
    }
}

/// Every mark in the order of the list: shapes, their outlines, shapes in a ring, letters.
fn marks() -> Vec<Mark> {
    let shapes = MarkShape::ALL;
    let solid = shapes.map(|shape| Mark::Solid { shape });
    let outlined = shapes.map(|shape| Mark::Outlined { shape });
    let ringed = shapes.map(|shape| Mark::Ringed { shape });
    let letters = Mark::Letters { text: "A".into() };
    let all = solid.into_iter().chain(outlined).chain(ringed);
    all.chain([letters]).collect()
}

/// A mark in words.
fn mark_words(mark: &Mark) -> String {
    match mark {
        Mark::Auto => "automatic".into(),
        Mark::Solid { shape } => shape.label().into(),
        Mark::Outlined { shape } => format!("{}, outline", shape.label()),
        Mark::Ringed { shape } => format!("{} in a ring", shape.label()),
        Mark::Letters { text } => format!("letters {text}"),
    }
}

/// The rows of the parts that can be colored.
fn parts() -> [&'static [&'static Field]; 9] {
    [
        field::TRACK_COLORS,
        field::HOME_COLORS,
        field::START_COLORS,
        field::EXTRA_COLORS,
        field::CENTER_COLORS,
        field::LINE_COLORS,
        field::RING_COLORS,
        field::RIM_COLORS,
        field::SECTOR_COLORS,
    ]
}

/// The colors of the board's parts, the marks, and holes colored by hand.
pub fn colors_ui(ui: &mut Ui, board: &mut Board) {
    fields_ui(ui, board, field::MARKS_FIELDS);
    for rows in parts() {
        part_ui(ui, board, rows, 0);
    }
    if board.colors.colors_wood() {
        fields_ui(ui, board, field::COLOR_RING_FIELDS);
        field_ui(ui, board, &field::COLOR_AFTER);
    }
    by_hand_ui(ui, board);
    fields_ui(ui, board, field::COLOR_PLAN_FIELDS);
    let laid_on = [Medium::Paint, Medium::Dye, Medium::Stain];
    if laid_on.into_iter().any(|it| board.colors.uses(it)) {
        cautions(ui, &[Caution::Solvents]);
    }
}

/// The rows of a part: whether it is colored, and if so its color and medium.
fn part_ui(ui: &mut Ui, board: &mut Board, rows: &[&Field], entry: usize) {
    let Some((hue, rest)) = rows.split_first() else {
        return;
    };
    entry_ui(ui, board, hue, entry);
    if hue.value(board, entry) == Some(Value::Choice(0)) {
        return;
    }
    for field in rest {
        entry_ui(ui, board, field, entry);
    }
}

/// Holes with a color of their own instead of that of their role.
fn by_hand_ui(ui: &mut Ui, board: &mut Board) {
    let mut gone = None;
    for at in 0..board.colors.holes.len() {
        for field in field::HOLE_COLOR_FIELDS {
            entry_ui(ui, board, field, at);
        }
        part_ui(ui, board, field::HOLE_LOOK, at);
        if ui
            .button(format!("Remove colored hole {}", at + 1))
            .clicked()
        {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        board.colors.holes.remove(at);
    }
    let count = board.colors.holes.len();
    if add_button(ui, "Color a hole by hand", count, &field::COLORED_HOLES) {
        field::COLORED_HOLES.set(board, 0, &Value::Entries(count + 1));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, press, sees, write_into};
    use board::{Hue, Rgb, SET};
    use egui_kittest::Harness;

    fn panel(show: fn(&mut Ui, &mut Board)) -> Harness<'static, Board> {
        hand::panel(900.0, show)
    }

    #[test]
    fn a_players_color_is_typed_as_number_or_name() {
        let mut panel = panel(players_ui);
        write_into(&mut panel, "Player 2, color", "Brick red");
        write_into(&mut panel, "Player 3, color", "#123456");
        let players = &panel.state().colors.players;
        let colors: Vec<Option<Rgb>> = players.iter().map(|player| player.color).collect();
        let typed = [Rgb::new(0x9e, 0x2b, 0x25), Rgb::new(0x12, 0x34, 0x56)];
        assert_eq!(colors, [None, Some(typed[0]), Some(typed[1])]);
        write_into(&mut panel, "Player 3, color", "reddish");
        assert!(sees(&panel, "Not a color: \"reddish\""));
        assert_eq!(panel.state().colors.players[2].color, Some(typed[1]));
        press(&mut panel, "Use the standard colors");
        assert_eq!(player_look(panel.state(), 2).color, SET[1]);
    }

    #[test]
    fn a_mark_is_chosen_from_one_list() {
        let mut panel = panel(players_ui);
        choose(&mut panel, "Player 6, mark", "cross in a ring");
        choose(&mut panel, "Player 1, mark", "letters A");
        write_into(&mut panel, "Player 1, letters", "JR");
        let marks = [1, 6].map(|player| player_look(panel.state(), player).mark);
        let shape = MarkShape::Cross;
        let text = "JR".to_owned();
        assert_eq!(marks, [Mark::Letters { text }, Mark::Ringed { shape }]);
    }

    #[test]
    fn parts_are_colored_and_holes_by_hand() {
        let mut panel = panel(colors_ui);
        assert!(!sees(&panel, "Home, with"));
        choose(&mut panel, "Home color", "player's color");
        choose(&mut panel, "Home, with", "dye");
        choose(&mut panel, "Groove color", "one color");
        write_into(&mut panel, "Groove shade", "dark blue");
        press(&mut panel, "Color a hole by hand");
        write_into(&mut panel, "Colored 1, hole", "T1-08");
        let colors = &panel.state().colors;
        assert_eq!(colors.home.hue, Hue::Player);
        let dark = Rgb::named("dark blue").unwrap();
        assert_eq!(colors.grooves.hue, Hue::One { color: dark });
        let hole = "T4-08".parse().unwrap();
        assert_eq!(colors.of_hole(hole).hue, Hue::Player);
        press(&mut panel, "Remove colored hole 1");
        assert!(panel.state().colors.holes.is_empty());
    }
}
