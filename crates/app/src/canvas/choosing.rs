//! Holes chosen by the pointer and by keys: one, several, or all in a box.

use board::{Board, HoleId};
use drawing::{hole_toward, holes_in, one_each};
use egui::{Context, Key, Modifiers, PointerButton, Response};
use geometry::Vec2;
use kurbo::Rect;

use super::{BoardView, CanvasState, pick};
use crate::camera::{Camera, arrows};

/// Holes that are chosen together, and the one among them that the panels show.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Choice {
    /// The one that the panels show.
    pub selected: Option<HoleId>,
    /// All of them.
    pub chosen: Vec<HoleId>,
}

impl Choice {
    /// One hole, or none.
    pub fn one(selected: Option<HoleId>) -> Self {
        Self {
            selected,
            chosen: selected.into_iter().collect(),
        }
    }

    /// Several holes, of which the first is shown.
    pub fn several(chosen: Vec<HoleId>) -> Self {
        Self {
            selected: chosen.first().copied(),
            chosen,
        }
    }

    /// The chosen holes with one more, or without it if it was among them.
    fn with(chosen: &[HoleId], id: HoleId) -> Self {
        let mut chosen = chosen.to_vec();
        if let Some(place) = chosen.iter().position(|other| *other == id) {
            chosen.remove(place);
            return Self {
                selected: chosen.last().copied(),
                chosen,
            };
        }
        chosen.push(id);
        Self {
            selected: Some(id),
            chosen,
        }
    }
}

/// The choice that a click makes: a hole, the pocket between its holes, or none. With Ctrl it is added to those chosen, or taken
/// from it.
pub fn clicked(ctx: &Context, view: &BoardView<'_>, pointed: Option<HoleId>) -> Choice {
    let adds = ctx.input(|input| input.modifiers.command);
    match pointed {
        Some(id) if adds => Choice::with(view.chosen, id),
        None if adds => Choice {
            selected: view.selected,
            chosen: view.chosen.to_vec(),
        },
        _ => Choice::one(pointed),
    }
}

/// The choice that keys make: brackets step through the table of holes, arrows with Ctrl over the board.
pub fn stepped(ctx: &Context, view: &BoardView<'_>) -> Option<Choice> {
    let presses = |key: Key| ctx.input(|input| input.num_presses(key)).cast_signed();
    let steps = presses(Key::CloseBracket) - presses(Key::OpenBracket);
    if steps != 0 {
        return pick::stepped(view.layout(), view.selected, steps).map(|id| Choice::one(Some(id)));
    }
    let toward = arrows(ctx, Modifiers::COMMAND);
    if toward == Vec2::ZERO {
        return None;
    }
    let next = match view.selected {
        Some(id) => hole_toward(view.layout(), id, toward.normalize()),
        None => pick::stepped(view.layout(), None, 1),
    };
    next.map(|id| Choice::one(Some(id)))
}

/// The box that a drag with Ctrl on plain wood pulls, and the holes in it when it is let go of.
pub fn boxed(
    ctx: &Context,
    response: &Response,
    view: &BoardView<'_>,
    state: &mut CanvasState,
    camera: Camera,
) -> (Option<Rect>, Option<Choice>) {
    let begins = response.drag_started_by(PointerButton::Primary) && state.held.is_none();
    if begins && !view.dimmed && ctx.input(|input| input.modifiers.command) {
        let origin = ctx.input(|input| input.pointer.press_origin());
        state.part_from = origin.map(|at| camera.place(at));
    }
    let (Some(from), Some(to)) = (state.part_from, response.interact_pointer_pos()) else {
        return (None, None);
    };
    let part = Rect::from_points(from, camera.place(to));
    if response.dragged() {
        return (Some(part), None);
    }
    state.part_from = None;
    let mut chosen = view.chosen.to_vec();
    let found: Vec<HoleId> = holes_in(view.layout(), part);
    chosen.extend(found.into_iter().filter(|id| !view.chosen.contains(id)));
    (None, Some(Choice::several(chosen)))
}

/// The document without the chosen holes, where Delete asks for that.
pub fn dropped(ctx: &Context, view: &BoardView<'_>) -> Option<Board> {
    let asked = ctx.input(|input| input.key_pressed(Key::Delete));
    if !asked || view.chosen.is_empty() || view.dimmed {
        return None;
    }
    let mut board = view.board().clone();
    for id in one_each(view.chosen, view.mirrored) {
        board.drop_hole(id, view.mirrored && id != HoleId::CENTER);
    }
    Some(board)
}
