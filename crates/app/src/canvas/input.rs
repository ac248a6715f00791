//! Pointer and keys on the canvas: the view, the selection and the measure.

use board::HoleId;
use drawing::End;
use egui::{Context, CursorIcon, Key, Response};
use geometry::Point;

use super::{BoardView, CanvasState, measuring, pick};
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
    /// The thing under the pointer that can be measured to, while the tool is in hand.
    pub end: Option<End>,
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
    state.measuring.begin(ctx, response, view, camera);
    let drags = !state.measuring.has_pointer();
    state.zoom.look(ctx, response, camera, drags);
    let camera = Camera::new(state.zoom, response.rect, all);
    let mut asked = point(response, view, state, camera);
    escape(ctx, response, state);
    state.measuring.follow(ctx, response, view, asked.end);
    if !view.dimmed {
        asked.clicked = select(ctx, response, view, state, asked.pointed);
    }
    if response.double_clicked() && asked.pointed.is_none() && !state.measuring.is_on() {
        state.fit();
    }
    show_cursor(ctx, response, state, asked);
    asked
}

fn point(response: &Response, view: &BoardView<'_>, state: &CanvasState, camera: Camera) -> Asked {
    let measures = state.measuring.is_on() || state.measuring.has_pointer();
    let pulled = response.interact_pointer_pos().filter(|_| measures);
    let screen = pulled.or_else(|| response.hover_pos());
    let pointer = screen.map(|at| camera.place(at));
    let hole = pointer
        .filter(|_| !view.dimmed)
        .and_then(|at| pick::hole_at(view.layout(), at, camera.mm(SLACK)));
    Asked {
        pointer,
        pointed: hole.map(|hole| hole.name.id()),
        end: pointer
            .filter(|_| measures)
            .and_then(|at| measuring::pointed(view, camera, at)),
        clicked: None,
    }
}

/// Escape takes one step back, wherever the keys go but to a text or a dialog.
fn escape(ctx: &Context, response: &Response, state: &mut CanvasState) {
    let is_elsewhere = ctx.text_edit_focused()
        || ctx.memory(|memory| memory.top_modal_layer().is_some())
        || egui::Popup::is_any_open(ctx);
    if !is_elsewhere
        && ctx.input(|input| input.key_pressed(Key::Escape))
        && state.measuring.escape()
    {
        ctx.memory_mut(|memory| memory.request_focus(response.id));
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
        keep_keys(ctx, response, state.measuring.is_busy());
        let presses = |key: Key| ctx.input(|input| input.num_presses(key)).cast_signed();
        steps = presses(Key::CloseBracket) - presses(Key::OpenBracket);
    }
    state.by_keys = steps != 0 || (state.by_keys && !pointer_moved);
    if response.clicked() {
        response.request_focus();
        return (!state.measuring.is_on()).then_some(pointed);
    }
    let next = pick::stepped(view.layout(), view.selected, steps);
    next.filter(|_| steps != 0).map(Some)
}

fn show_cursor(ctx: &Context, response: &Response, state: &CanvasState, asked: Asked) {
    let measures = state.measuring.is_on() || state.measuring.has_pointer();
    let icon = match asked.pointed {
        _ if measures && (asked.end.is_some() || state.measuring.has_pointer()) => {
            CursorIcon::Crosshair
        }
        _ if response.dragged() => CursorIcon::Grabbing,
        Some(_) => CursorIcon::PointingHand,
        None => return,
    };
    if response.hovered() || response.dragged() {
        ctx.set_cursor_icon(icon);
    }
}
