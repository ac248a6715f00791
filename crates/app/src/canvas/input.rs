//! Pointer and keys on the canvas: the view, the selection and the measure.

use board::{Board, HoleId};
use drawing::{End, Thing};
use egui::{Context, CursorIcon, Key, Response};
use geometry::Point;

use super::choosing::{self, Choice};
use super::{BoardView, CanvasState, dragging, measuring, pick};
use crate::camera::{Camera, keep_keys};

/// Distance beside a mouth at which the pointer still means the hole, in points.
const SLACK: f32 = 3.0;

/// The requests of pointer and keys.
#[derive(Debug, Clone, Default)]
pub struct Asked {
    /// The board point under the pointer.
    pub pointer: Option<Point>,
    /// The hole under the pointer.
    pub pointed: Option<HoleId>,
    /// The thing that a drag would take along, or takes along.
    pub thing: Option<Thing>,
    /// The thing under the pointer that can be measured to, while the tool is in hand.
    pub end: Option<End>,
    /// The box that chooses holes.
    pub part: Option<kurbo::Rect>,
    /// Holes to choose.
    pub choice: Option<Choice>,
    /// The document with the requested change.
    pub changed: Option<Board>,
}

/// Moves the view, the measure and the dragged thing by this frame's input; `all` is the view that shows the whole board.
pub fn handle(
    ctx: &Context,
    response: &Response,
    view: &BoardView<'_>,
    state: &mut CanvasState,
    all: kurbo::Rect,
) -> Asked {
    let camera = state.camera(response.rect, all);
    if !view.chosen.is_empty() {
        // Holes were chosen, and arrow keys move those.
        state.choose(None);
    }
    state.measuring.begin(ctx, response, view, camera);
    if !state.measuring.has_pointer() && !state.measuring.is_on() {
        state.held = dragging::begin(ctx, response, view, camera).or_else(|| state.held.take());
    }
    let (part, boxed) = choosing::boxed(ctx, response, view, state, camera);
    let (keyed, chosen) = keys(ctx, response, view, state);
    let drags = !state.measuring.has_pointer() && state.held.is_none() && state.part_from.is_none();
    if state.held.is_none() {
        state.zoom.look(ctx, response, camera, drags);
    }
    let camera = state.camera(response.rect, all);
    let mut asked = point(response, view, state, camera);
    asked.part = part;
    let (taken_back, left) = escape(ctx, response, view, state);
    state.measuring.follow(ctx, response, view, asked.end);
    let carried = dragging::carry(ctx, response, view, camera, &mut state.held);
    asked.changed = taken_back.or(carried).or(keyed);
    let dropped = dropped(response, view, state, asked.thing);
    let clicked = select(ctx, response, view, state, &asked);
    asked.choice = clicked.or(dropped).or(boxed).or(chosen).or(left);
    if response.double_clicked() && asked.pointed.is_none() && !state.measuring.is_on() {
        state.fit();
    }
    show_cursor(ctx, response, state, &asked);
    asked
}

fn point(response: &Response, view: &BoardView<'_>, state: &CanvasState, camera: Camera) -> Asked {
    let measures = state.measuring.is_on() || state.measuring.has_pointer();
    let pulled = response
        .interact_pointer_pos()
        .filter(|_| measures || state.held.is_some());
    let screen = pulled.or_else(|| response.hover_pos());
    let pointer = screen.map(|at| camera.place(at));
    let hole = pointer
        .filter(|_| !view.dimmed && state.held.is_none())
        .and_then(|at| pick::hole_at(view.layout(), at, camera.mm(SLACK)));
    let thing = match &state.held {
        Some(held) => held.thing(),
        None if measures || response.dragged() => None,
        None => pointer.and_then(|at| dragging::thing_at(view, camera, at)),
    };
    Asked {
        pointer,
        pointed: hole.map(|hole| hole.name.id()),
        thing,
        end: pointer
            .filter(|_| measures)
            .and_then(|at| measuring::pointed(view, camera, at)),
        ..Asked::default()
    }
}

/// A thing that was dragged and let go of is chosen, so that arrow keys can go on with it.
fn dropped(
    response: &Response,
    view: &BoardView<'_>,
    state: &mut CanvasState,
    thing: Option<Thing>,
) -> Option<Choice> {
    let thing = thing.filter(|_| response.drag_stopped() && state.held.is_none())?;
    response.request_focus();
    if let Thing::Hole(id) = thing {
        return (!view.chosen.contains(&id)).then(|| Choice::one(Some(id)));
    }
    state.choose(Some(thing));
    Some(Choice::default())
}

/// Escape takes one step back: it ends a drag, wherever the focus is; else it drops the measure or the choice, unless a text or a
/// dialog has the focus. It gives the document, or the choice, as it is then.
fn escape(
    ctx: &Context,
    response: &Response,
    view: &BoardView<'_>,
    state: &mut CanvasState,
) -> (Option<Board>, Option<Choice>) {
    let is_elsewhere = ctx.text_edit_focused()
        || ctx.memory(|memory| memory.top_modal_layer().is_some())
        || egui::Popup::is_any_open(ctx);
    if !ctx.input(|input| input.key_pressed(Key::Escape)) {
        return (None, None);
    }
    if let Some(held) = &mut state.held {
        return (held.take_back(), None);
    }
    if is_elsewhere {
        return (None, None);
    }
    if state.measuring.escape() {
        ctx.memory_mut(|memory| memory.request_focus(response.id));
        return (None, None);
    }
    let leaves = response.has_focus() && (!view.chosen.is_empty() || state.thing.is_some());
    if leaves {
        state.choose(None);
    }
    (None, leaves.then(Choice::default))
}

/// The document and the choice that keys ask for while the picture has the focus.
fn keys(
    ctx: &Context,
    response: &Response,
    view: &BoardView<'_>,
    state: &mut CanvasState,
) -> (Option<Board>, Option<Choice>) {
    if !response.has_focus() || view.dimmed {
        return (None, None);
    }
    let has_step = state.measuring.is_busy()
        || state.held.is_some()
        || state.thing.is_some()
        || !view.chosen.is_empty();
    keep_keys(ctx, response, has_step);
    let mut choice = choosing::stepped(ctx, view);
    let thing = dragging::stepped(ctx, view, state.thing);
    if thing.is_some() {
        state.choose(thing);
        // One thing at a time: arrow keys move the last chosen one.
        choice = Some(Choice::default());
    } else if choice.is_some() {
        state.choose(None);
    }
    let pointer_moved = ctx.input(|input| input.pointer.is_moving());
    let moved = dragging::nudge(ctx, view, state.thing);
    if state.thing.is_some()
        && let Some(moved) = &moved
    {
        state.told = Some(moved.words.clone());
    }
    let moved = moved.map(|moved| moved.board);
    let changed = moved.or_else(|| choosing::dropped(ctx, view));
    let by_keys = choice.is_some() || changed.is_some();
    state.by_keys = by_keys || (state.by_keys && !pointer_moved);
    (changed, choice)
}

/// A click chooses the hole or other thing under it, which arrow keys then move; while measuring it measures.
fn select(
    ctx: &Context,
    response: &Response,
    view: &BoardView<'_>,
    state: &mut CanvasState,
    asked: &Asked,
) -> Option<Choice> {
    if !response.clicked() || view.dimmed {
        return None;
    }
    response.request_focus();
    if state.measuring.is_on() {
        return None;
    }
    let adds = ctx.input(|input| input.modifiers.command);
    state.choose(asked.thing.filter(|_| asked.pointed.is_none() && !adds));
    Some(choosing::clicked(ctx, view, asked.pointed))
}

fn show_cursor(ctx: &Context, response: &Response, state: &CanvasState, asked: &Asked) {
    let measures = state.measuring.is_on() || state.measuring.has_pointer();
    let icon = match asked.thing {
        _ if measures && (asked.end.is_some() || state.measuring.has_pointer()) => {
            CursorIcon::Crosshair
        }
        _ if asked.part.is_some() => CursorIcon::Crosshair,
        _ if response.dragged() => CursorIcon::Grabbing,
        Some(Thing::Hole(_)) => CursorIcon::PointingHand,
        Some(_) => CursorIcon::Grab,
        None if asked.pointed.is_some() => CursorIcon::PointingHand,
        None => return,
    };
    if response.hovered() || response.dragged() {
        ctx.set_cursor_icon(icon);
    }
}
