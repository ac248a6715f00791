//! Pointer and keys on the blank: they drag, move the view, and zoom.

use board::{Board, Stock, Units};
use egui::{CursorIcon, PointerButton, Response, Ui};
use geometry::Point;

use super::BlankViewState;
use super::grip::{Grip, bring, grip_at, place};
use crate::camera::{Camera, Zoom, keep_keys};

/// Distance beside a thing at which the pointer still means it, in points.
const SLACK: f32 = 7.0;

/// The place and the thing that the pointer is at.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Pointed {
    /// The place on the blank.
    pub at: Option<Point>,
    /// The thing that can be dragged, or is being dragged.
    pub grip: Option<Grip>,
}

/// Something that is being dragged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    grip: Grip,
    /// From the pointer to the place of the thing.
    offset: kurbo::Vec2,
    /// The view stays while something is dragged: one that is fitted would run away from the pointer.
    pub zoom: Zoom,
}

/// Moves what is dragged, in the document, and the view; `all` is what fits the whole of it.
pub fn handle(
    ui: &Ui,
    response: &Response,
    state: &mut BlankViewState,
    board: &mut Board,
    pin: Option<Point>,
    all: kurbo::Rect,
) -> Pointed {
    let (stock, units) = (&mut board.stock, board.units);
    if response.has_focus() {
        keep_keys(ui.ctx(), response, false);
    }
    let camera = state.camera(response.rect, all);
    take_hold(ui, response, state, stock, pin, camera);
    if state.held.is_none() {
        state.zoom.look(ui.ctx(), response, camera, true);
    }
    let camera = state.camera(response.rect, all);
    let pointed = point(response, state, stock, pin, camera);
    if carry(response, state, stock, units, pointed) {
        // Its consequences are worked out after this frame.
        ui.request_repaint();
    }
    double_click(response, state, stock, pointed.grip);
    show_cursor(ui, response, state, pointed);
    pointed
}

/// A drag that begins on something takes it along.
fn take_hold(
    ui: &Ui,
    response: &Response,
    state: &mut BlankViewState,
    stock: &Stock,
    pin: Option<Point>,
    camera: Camera,
) {
    if !response.drag_started_by(PointerButton::Primary) {
        return;
    }
    // Where the press was: the pointer may have left the thing before it counts as a drag.
    let Some(origin) = ui.input(|input| input.pointer.press_origin()) else {
        return;
    };
    let at = camera.place(origin);
    let grip = grip_at(stock, &state.drawn, pin, at, camera.mm(SLACK));
    state.held = grip.and_then(|grip| {
        Some(Held {
            grip,
            offset: place(stock, pin, grip)? - at,
            zoom: camera.held(),
        })
    });
}

fn point(
    response: &Response,
    state: &BlankViewState,
    stock: &Stock,
    pin: Option<Point>,
    camera: Camera,
) -> Pointed {
    let held = state.held.map(|held| held.grip);
    let screen = response.interact_pointer_pos().filter(|_| held.is_some());
    let at = screen
        .or_else(|| response.hover_pos())
        .map(|at| camera.place(at));
    let free = || grip_at(stock, &state.drawn, pin, at?, camera.mm(SLACK));
    Pointed {
        grip: held.or_else(free),
        at,
    }
}

/// Brings what is held to the pointer; whether it moved.
fn carry(
    response: &Response,
    state: &mut BlankViewState,
    stock: &mut Stock,
    units: Units,
    pointed: Pointed,
) -> bool {
    let Some(held) = state.held else { return false };
    if !response.dragged() {
        state.held = None;
    }
    let has_hold = response.dragged() || response.drag_stopped();
    let Some(at) = pointed.at.filter(|_| has_hold) else {
        return false;
    };
    let where_it_is = |stock: &Stock| place(stock, typed(stock), held.grip);
    let before = where_it_is(stock);
    bring(stock, held.grip, at + held.offset, units);
    where_it_is(stock) != before
}

/// The center pin, if its place was typed or dragged.
fn typed(stock: &Stock) -> Option<Point> {
    stock.place.map(|[x, y]| Point::new(x, y))
}

/// The pin goes back to the best place; anywhere else all of the blank comes into view.
fn double_click(
    response: &Response,
    state: &mut BlankViewState,
    stock: &mut Stock,
    grip: Option<Grip>,
) {
    if response.clicked() {
        response.request_focus();
    }
    if response.double_clicked() {
        match grip {
            Some(Grip::Pin) => stock.place = None,
            Some(_) => {}
            None => state.fit(),
        }
    }
}

fn show_cursor(ui: &Ui, response: &Response, state: &BlankViewState, pointed: Pointed) {
    let icon = match pointed.grip {
        _ if state.held.is_some() || response.dragged() => CursorIcon::Grabbing,
        Some(_) if response.hovered() => CursorIcon::Grab,
        _ => return,
    };
    ui.set_cursor_icon(icon);
}
