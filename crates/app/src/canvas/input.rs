//! Pointer and keys on the canvas: the view, the selection and the measure.

use board::HoleId;
use egui::{Context, CursorIcon, Key, PointerButton, Response};
use geometry::Point;

use super::{BoardView, CanvasState, pick};
use crate::camera::{Camera, keep_keys};

/// Distance beside a mouth at which the pointer still means the hole, in points.
const SLACK: f32 = 3.0;

/// The requests of pointer and keys.
#[derive(Debug, Clone, Copy, Default)]
pub struct Asked {
    /// The board point under the pointer.
    pub pointer: Option<Point>,
    /// The hole under the pointer.
    pub pointed: Option<HoleId>,
    /// A hole to select, or none.
    #[allow(
        clippy::option_option,
        reason = "no click, a click on wood, a click on a hole"
    )]
    pub clicked: Option<Option<HoleId>>,
}

/// Moves the view and the measure as this frame's input asks; `all` is what fits the whole board.
pub fn handle(
    ctx: &Context,
    response: &Response,
    view: &BoardView<'_>,
    state: &mut CanvasState,
    all: kurbo::Rect,
) -> Asked {
    let camera = Camera::new(state.zoom, response.rect, all);
    start_measure(ctx, response, view, state, camera);
    let drags = state.pulled_from.is_none();
    state.zoom.look(ctx, response, camera, drags);
    let mut asked = point(response, view, Camera::new(state.zoom, response.rect, all));
    follow_measure(ctx, response, state, asked.pointed);
    if !view.dimmed {
        asked.clicked = select(ctx, response, view, state, asked.pointed);
    }
    if response.double_clicked() && asked.pointed.is_none() {
        state.fit();
    }
    show_cursor(ctx, response, state, asked.pointed);
    asked
}

/// A drag from a hole measures where the tool is on or Shift is held.
fn start_measure(
    ctx: &Context,
    response: &Response,
    view: &BoardView<'_>,
    state: &mut CanvasState,
    camera: Camera,
) {
    let meant = state.measuring || ctx.input(|input| input.modifiers.shift);
    if view.dimmed || !meant || !response.drag_started_by(PointerButton::Primary) {
        return;
    }
    // Where the press was: the pointer may have left the hole before it counts as a drag.
    let origin = ctx.input(|input| input.pointer.press_origin());
    let from = origin.and_then(|at| {
        let at = camera.place(at);
        pick::hole_at(view.layout, at, camera.mm(SLACK))
    });
    state.pulled_from = from.map(|hole| hole.name.id());
}

fn point(response: &Response, view: &BoardView<'_>, camera: Camera) -> Asked {
    let screen = response.hover_pos();
    let pointer = screen.map(|at| camera.place(at));
    let hole = pointer
        .filter(|_| !view.dimmed)
        .and_then(|at| pick::hole_at(view.layout, at, camera.mm(SLACK)));
    Asked {
        pointer,
        pointed: hole.map(|hole| hole.name.id()),
        clicked: None,
    }
}

/// Keeps the end of a measure on the hole under the pointer; Escape and a click clear it.
fn follow_measure(
    ctx: &Context,
    response: &Response,
    state: &mut CanvasState,
    pointed: Option<HoleId>,
) {
    if let Some(from) = state.pulled_from {
        let to = pointed.filter(|to| *to != from);
        state.measured = to.map(|to| (from, to));
        if !response.dragged() {
            state.pulled_from = None;
        }
    }
    let escape = response.has_focus() && ctx.input(|input| input.key_pressed(Key::Escape));
    if escape || response.clicked() {
        state.measured = None;
    }
}

/// A click selects what is under it; brackets step from hole to hole.
#[allow(
    clippy::option_option,
    reason = "no click, a click on wood, a click on a hole"
)]
fn select(
    ctx: &Context,
    response: &Response,
    view: &BoardView<'_>,
    state: &mut CanvasState,
    pointed: Option<HoleId>,
) -> Option<Option<HoleId>> {
    let (mut steps, pointer_moved) = (0, ctx.input(|input| input.pointer.is_moving()));
    if response.has_focus() {
        keep_keys(ctx, response, state.measured.is_some());
        let presses = |key: Key| ctx.input(|input| input.num_presses(key)).cast_signed();
        steps = presses(Key::CloseBracket) - presses(Key::OpenBracket);
    }
    state.by_keys = steps != 0 || (state.by_keys && !pointer_moved);
    if response.clicked() {
        response.request_focus();
        return Some(pointed);
    }
    let next = pick::stepped(view.layout, view.selected, steps);
    next.filter(|_| steps != 0).map(Some)
}

fn show_cursor(ctx: &Context, response: &Response, state: &CanvasState, pointed: Option<HoleId>) {
    let icon = match (state.pulled_from, pointed) {
        (Some(_), _) => CursorIcon::Crosshair,
        (None, _) if response.dragged() => CursorIcon::Grabbing,
        (None, Some(_)) if state.measuring => CursorIcon::Crosshair,
        (None, Some(_)) => CursorIcon::PointingHand,
        (None, None) => return,
    };
    if response.hovered() || response.dragged() {
        ctx.set_cursor_icon(icon);
    }
}
