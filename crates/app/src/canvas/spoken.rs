//! The board for screen readers: the plan as a list, and each hole in it with its name, role and place.

use board::{Hole, HoleId, Role as HoleRole};
use egui::accesskit::Action;
use egui::{Id, Response, Role, Sense, Ui, UiBuilder, WidgetInfo};
use geometry::bearing_of;

use super::BoardView;
use super::choosing::Choice;
use crate::camera::Camera;

/// Describes the plan and its holes to screen readers; returns the hole that a screen reader asks to choose.
///
/// The keys go to the plan as a whole, in which the selected hole is the active one: so Tab does not stop at a hundred holes.
pub fn describe(
    ui: &mut Ui,
    response: &Response,
    view: &BoardView<'_>,
    camera: Camera,
) -> Option<Choice> {
    response.widget_info(|| WidgetInfo::labeled(Role::ListBox, response.enabled(), "Board plan"));
    let (holes, players) = (view.layout().holes.len(), view.board().players);
    let selected = view.selected.and_then(|id| view.layout().hole(id));
    let is_heard = response.ctx.accesskit_node_builder(response.id, |node| {
        node.set_description(format!("{holes} holes, {players} players"));
        node.set_size_of_set(holes);
        if let Some(hole) = selected {
            node.set_value(hole.name.to_string());
        }
    });
    // Without a screen reader the holes need no nodes.
    is_heard?;
    let within = UiBuilder::new()
        .max_rect(response.rect)
        .accessibility_parent(response.id);
    let list = ui.new_child(within);
    let mut asked = None;
    for (place, hole) in view.layout().holes.iter().enumerate() {
        let id = node_of(response, hole.name.id());
        describe_hole(&list, id, (place, holes), hole, view, camera);
        let requests = |action| list.input(|input| input.has_accesskit_action_request(id, action));
        if requests(Action::Click) || requests(Action::Focus) {
            asked = Some(hole.name.id());
        }
    }
    if let Some(hole) = selected {
        let active = node_of(response, hole.name.id()).accesskit_id();
        response
            .ctx
            .accesskit_node_builder(response.id, |node| node.set_active_descendant(active));
    }
    if asked.is_some() {
        response.request_focus();
    }
    asked.map(|id| Choice::one(Some(id)))
}

fn node_of(response: &Response, hole: HoleId) -> Id {
    response.id.with(hole)
}

/// The node of one hole.
fn describe_hole(
    list: &Ui,
    id: Id,
    (place, count): (usize, usize),
    hole: &Hole,
    view: &BoardView<'_>,
    camera: Camera,
) {
    let radius = camera.length(hole.bore.radius()).max(3.0);
    let around =
        egui::Rect::from_center_size(camera.screen(hole.center), egui::Vec2::splat(2.0 * radius));
    let is_chosen = view.chosen.contains(&hole.name.id());
    let node = list.interact(around, id, Sense::hover());
    node.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, is_chosen, name(hole)));
    list.ctx().accesskit_node_builder(id, |node| {
        node.set_description(place_words(hole, view));
        node.set_position_in_set(place + 1);
        node.set_size_of_set(count);
        node.set_selected(is_chosen);
        node.add_action(Action::Click);
        node.add_action(Action::Focus);
    });
}

/// The name of a hole with its role and whose it is, as it is spoken.
pub fn name(hole: &Hole) -> String {
    let id = hole.name.id();
    if id.role() == HoleRole::Center {
        return "C, center hole".into();
    }
    format!(
        "{}, {}, player {}",
        hole.name,
        id.role().label(),
        id.player()
    )
}

/// The place and the bore of a hole, as they are spoken.
fn place_words(hole: &Hole, view: &BoardView<'_>) -> String {
    let length = |mm| board::Measure::mm(mm).shown(view.units);
    let bearing = bearing_of(hole.center).as_degrees();
    let bearing = board::Measure::degrees((bearing * 10.0).round() / 10.0).shown(view.units);
    format!(
        "radius {}, bearing {bearing}, bore {} wide, {} deep",
        length(hole.center.to_vec2().length()),
        length(hole.bore.diameter),
        length(hole.bore.depth),
    )
}
