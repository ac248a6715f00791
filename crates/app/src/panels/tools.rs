//! The tools of the plan, beside the tabs over it.

use board::{HoleId, Layout, Role};
use drawing::{holes_of_player, holes_of_role, twins};
use egui::{Button, Ui};

use crate::command::Command;
use crate::current::Current;
use crate::theme;
use crate::view::ViewState;
use crate::widgets::words_width;

/// The words on the menu that chooses holes.
const SELECT: &str = "Select";
/// Space between two tools.
const BETWEEN: f32 = theme::TIGHT;

/// The tools for work on the plan.
pub fn tools_ui(ui: &mut Ui, view: &mut ViewState, current: &Current) {
    let measures = view.canvas.measuring();
    let button = Button::selectable(measures, Command::Measure.label()).frame_when_inactive(true);
    let keys = Command::Measure.shortcut();
    let keys = keys.map_or_else(String::new, |keys| ui.ctx().format_shortcut(&keys));
    let hint = format!("{} ({keys})", Command::Measure.tooltip());
    if ui.add(button).on_hover_text(hint).clicked() {
        view.asked.push(Command::Measure);
    }
    ui.add_space(BETWEEN);
    let Some(workpiece) = current.good() else {
        return;
    };
    let menu = ui.menu_button(SELECT, |ui| {
        let chosen = view.chosen();
        if let Some(chosen) = choices_ui(ui, workpiece.layout(), &chosen, &mut view.asked) {
            view.selected = chosen.first().copied();
            view.show_chosen = view.selected.is_some();
            view.group = chosen;
        }
    });
    let hint = "Choose holes by role or player; Ctrl and a click adds one, Ctrl and a drag on plain wood those in a box";
    menu.response.on_hover_text(hint);
}

/// Width of the tools, with the space before them.
pub fn tools_width(ui: &Ui) -> f32 {
    let words = [Command::Measure.label(), SELECT];
    let spacing = ui.spacing();
    let buttons = words.map(|words| words_width(ui, words) + 2.0 * spacing.button_padding.x);
    let gaps = theme::GAP + BETWEEN + 3.0 * spacing.item_spacing.x;
    buttons.iter().sum::<f32>() + gaps
}

/// The holes that an entry of the menu chooses.
fn choices_ui(
    ui: &mut Ui,
    layout: &Layout,
    chosen: &[HoleId],
    commands: &mut Vec<Command>,
) -> Option<Vec<HoleId>> {
    let mut asked = None;
    for (role, label) in ROLES {
        let holes = holes_of_role(layout, role);
        if !holes.is_empty() && ui.button(label).clicked() {
            asked = Some(holes);
        }
    }
    ui.separator();
    let mut players = 1..=layout.sectors.len() as u32;
    if let Some(player) =
        players.find(|player| ui.button(format!("Holes of player {player}")).clicked())
    {
        asked = Some(holes_of_player(layout, player));
    }
    ui.separator();
    let any = !chosen.is_empty();
    let same = ui.add_enabled(any, Button::new("Same holes of every player"));
    if same.clicked() {
        asked = Some(twins(layout, chosen));
    }
    if ui.add_enabled(any, Button::new("No holes")).clicked() {
        asked = Some(Vec::new());
    }
    let zoom = Button::new(Command::ZoomTo.label());
    let zoom = match Command::ZoomTo.shortcut() {
        Some(keys) => zoom.shortcut_text(ui.ctx().format_shortcut(&keys)),
        None => zoom,
    };
    if ui
        .add_enabled(any, zoom)
        .on_hover_text(Command::ZoomTo.tooltip())
        .clicked()
    {
        commands.push(Command::ZoomTo);
    }
    asked
}

/// The roles that many holes have, as entries of the menu.
const ROLES: [(Role, &str); 4] = [
    (Role::Track, "All track spaces"),
    (Role::Home, "All home lanes"),
    (Role::Start, "All start pockets"),
    (Role::Extra, "All extra holes"),
];
