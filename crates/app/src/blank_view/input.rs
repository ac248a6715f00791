//! Pointer and keys on the blank: they drag, move the view, and zoom.

use board::{Board, Stock, Units};
use drawing::on_blank::{Grip, Marks, bring, bring_near, grip_at, place, stepped};
use drawing::{Guide, nudge_step};
use egui::{CursorIcon, Key, Modifiers, PointerButton, Response, Ui};
use geometry::Point;

use super::BlankViewState;
use crate::camera::{Camera, Zoom, arrows, keep_keys};

/// Distance beside a thing at which the pointer still means it, in points.
const SLACK: f32 = 7.0;
/// Distance over which guides reach, in points.
const REACH: f32 = 6.0;

/// The place and the thing that the pointer is at.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Pointed {
    /// The place on the blank.
    pub at: Option<Point>,
    /// The thing that can be dragged, or is being dragged.
    pub grip: Option<Grip>,
}

/// The center pin, and the best place for it, as far as they are known.
#[derive(Debug, Clone, Copy)]
pub struct Pins {
    /// The pin, where it can be dragged.
    pub pin: Option<Point>,
    /// The place with the most sound wood around it.
    pub best: Option<Point>,
}

/// Something that is being dragged.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    grip: Grip,
    /// The blank as it was when the drag began.
    before: Stock,
    /// The pin as it was then: where it finds its own place, it goes there while flaws move.
    pin: Option<Point>,
    /// Whether Escape has taken the drag back; the button is still held.
    is_over: bool,
    /// The guides that it lies on.
    guides: Vec<Guide>,
    /// From the pointer to the place of the thing.
    offset: kurbo::Vec2,
    /// The view stays while something is dragged: one that is fitted would run away from the pointer.
    pub zoom: Zoom,
}

impl Held {
    /// The guides that it lies on now.
    pub fn guides(&self) -> &[Guide] {
        if self.is_over { &[] } else { &self.guides }
    }
}

/// Moves the dragged thing, in the document, and the view; `all` is the view that shows everything.
pub fn handle(
    ui: &Ui,
    response: &Response,
    state: &mut BlankViewState,
    board: &mut Board,
    pins: Pins,
    all: kurbo::Rect,
) -> Pointed {
    let (stock, units, pin) = (&mut board.stock, board.units, pins.pin);
    escape(ui, state, stock);
    if response.has_focus() {
        keep_keys(
            ui.ctx(),
            response,
            state.held.is_some() || state.chosen.is_some(),
        );
        keys(ui, state, stock, pin, units);
    }
    let camera = state.camera(response.rect, all);
    take_hold(ui, response, state, stock, pin, camera);
    if state.held.is_none() {
        state.zoom.look(ui.ctx(), response, camera, true);
    }
    let camera = state.camera(response.rect, all);
    let pointed = point(response, state, stock, pin, camera);
    let wishes_no_guides = ui.input(|input| input.modifiers.shift);
    let reach = if wishes_no_guides {
        0.0
    } else {
        camera.mm(REACH)
    };
    let marks = Marks {
        pin,
        best: pins.best,
        reach,
        units,
    };
    if carry(response, state, stock, marks, pointed.at) {
        // Its consequences are worked out after this frame.
        ui.request_repaint();
    }
    click(response, state, stock, pointed.grip);
    show_cursor(ui, response, state, pointed);
    hover_words(ui, state, stock, pin, pointed)
}

/// The thing chosen by keys, until the pointer moves; else the one under the pointer.
fn hover_words(
    ui: &Ui,
    state: &mut BlankViewState,
    stock: &Stock,
    pin: Option<Point>,
    pointed: Pointed,
) -> Pointed {
    state.by_keys &= !ui.input(|input| input.pointer.is_moving());
    let chosen = state.chosen.filter(|_| state.by_keys);
    let at = chosen.and_then(|grip| place(stock, typed(stock).or(pin), grip));
    if at.is_some() {
        return Pointed { at, grip: chosen };
    }
    pointed
}

/// Escape takes a drag back, or the choice.
fn escape(ui: &Ui, state: &mut BlankViewState, stock: &mut Stock) {
    let is_elsewhere =
        ui.text_edit_focused() || ui.memory(|memory| memory.top_modal_layer().is_some());
    if is_elsewhere || !ui.input(|input| input.key_pressed(Key::Escape)) {
        return;
    }
    match &mut state.held {
        Some(held) if !held.is_over => {
            held.is_over = true;
            stock.clone_from(&held.before);
            ui.request_repaint();
        }
        Some(_) => {}
        None => state.chosen = None,
    }
}

/// Brackets go from thing to thing; arrows move the chosen one, with Shift ten times as far.
fn keys(ui: &Ui, state: &mut BlankViewState, stock: &mut Stock, pin: Option<Point>, units: Units) {
    let presses = |key: Key| ui.input(|input| input.num_presses(key)).cast_signed();
    let steps = presses(Key::CloseBracket) - presses(Key::OpenBracket);
    if steps != 0 {
        state.chosen = stepped(stock, pin, state.chosen, steps);
        state.by_keys = true;
    }
    let Some(grip) = state.chosen else { return };
    let Some(at) = place(stock, typed(stock).or(pin), grip) else {
        state.chosen = None;
        return;
    };
    let way = arrows(ui.ctx(), Modifiers::SHIFT) * 10.0 + arrows(ui.ctx(), Modifiers::NONE);
    if way != kurbo::Vec2::ZERO {
        bring(stock, grip, at + way * nudge_step(units), units);
        state.by_keys = true;
        ui.request_repaint();
    }
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
    let grip = grip_at(stock, pin, at, camera.mm(SLACK));
    state.held = grip.and_then(|grip| {
        Some(Held {
            grip,
            before: stock.clone(),
            pin,
            is_over: false,
            guides: Vec::new(),
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
    let held = state
        .held
        .as_ref()
        .filter(|held| !held.is_over)
        .map(|held| held.grip);
    let screen = response.interact_pointer_pos().filter(|_| held.is_some());
    let at = screen
        .or_else(|| response.hover_pos())
        .map(|at| camera.place(at));
    let free = || grip_at(stock, pin, at?, camera.mm(SLACK));
    Pointed {
        grip: held.or_else(free),
        at,
    }
}

/// Brings the held thing to the pointer, or to a guide near it; returns whether it moved.
fn carry(
    response: &Response,
    state: &mut BlankViewState,
    stock: &mut Stock,
    marks: Marks,
    pointer: Option<Point>,
) -> bool {
    let Some(held) = &mut state.held else {
        return false;
    };
    let has_hold = !held.is_over && (response.dragged() || response.drag_stopped());
    let mut has_moved = false;
    if let Some(at) = pointer.filter(|_| has_hold) {
        let where_it_is = |stock: &Stock| place(stock, typed(stock), held.grip);
        let was = where_it_is(stock);
        let (pin, to) = (held.pin, at + held.offset);
        let marks = Marks { pin, ..marks };
        held.guides = bring_near(stock, &held.before, held.grip, to, marks);
        has_moved = where_it_is(stock) != was;
    }
    if !response.dragged() {
        state.held = None;
    }
    has_moved
}

/// The center pin, if its place was typed or dragged.
fn typed(stock: &Stock) -> Option<Point> {
    stock.place.map(|[x, y]| Point::new(x, y))
}

/// A click chooses a thing. A double click takes the pin back to the best place; anywhere else all of the blank comes into view.
fn click(response: &Response, state: &mut BlankViewState, stock: &mut Stock, grip: Option<Grip>) {
    if response.clicked() {
        response.request_focus();
        state.chosen = grip;
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
