//! The board, seen from above: always to scale, always live.
//!
//! `input` handles pointer and keys, `pick` finds the things under the pointer; everything a frame's input changes is seen in
//! that same frame's picture, which `paint` paints. Nothing here works out a length of the trade: it shows what the layout holds.

mod choosing;
mod dragging;
mod input;
mod measuring;
mod paint;
mod pick;
mod readout;
mod spoken;
#[cfg(test)]
mod tests;

use board::{Board, HoleId, HoleName, Layout, PocketSpot, Units, capital};
use egui::{Response, Sense, Ui};
use geometry::{Angle, Point};
use std::sync::Arc;

use crate::camera::{Camera, Zoom};
use crate::painter::Pen;
use crate::palette::Palette;
pub use choosing::Choice;
use dragging::Held;
use drawing::Thing;
pub use measuring::Measure;
use measuring::Measuring;
use paint::Scene;
pub use readout::readout;
pub use spoken::name as spoken_name;
use workshop::Workpiece;

/// The board to show, with all that lies over it.
#[derive(Debug, Clone, Copy)]
pub struct BoardView<'a> {
    /// The document with all that follows from it.
    pub workpiece: &'a Arc<Workpiece>,
    /// Its drawing, from which the guides are taken.
    pub plan: &'a [drawing::Item],
    /// The colors of its parts.
    pub tints: &'a [drawing::Tinted],
    /// Printed sheets to lay over the board; none: not shown.
    pub sheets: &'a [SheetOutline],
    /// Holes to point out: those a finding is about.
    pub lit: &'a [HoleId],
    /// The hole that the panels show.
    pub selected: Option<HoleId>,
    /// All holes that are chosen, that one among them.
    pub chosen: &'a [HoleId],
    /// Whether changes to holes apply to the same holes of every player.
    pub mirrored: bool,
    /// Whether this is the last board that could be built, instead of the one in the fields.
    pub dimmed: bool,
    /// The unit of the scale bar and of measured lengths.
    pub units: Units,
    /// The wood, as a picture of the square around the board; none: plain.
    pub wood: Option<egui::TextureId>,
    /// Whether holes carry their names, where there is room to read them.
    pub show_names: bool,
}

impl<'a> BoardView<'a> {
    /// The document.
    fn board(&self) -> &'a Board {
        self.workpiece.board()
    }

    /// Its holes.
    fn layout(&self) -> &'a Layout {
        self.workpiece.layout()
    }
}

/// The part of the board that one printed sheet shows.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetOutline {
    /// The part on it, in the board frame, mm.
    pub window: kurbo::Rect,
    /// The name of the sheet.
    pub label: String,
}

/// The memory of the canvas from frame to frame; starts with the whole board in view.
#[derive(Debug, Clone, Default)]
pub struct CanvasState {
    zoom: Zoom,
    /// The view that the next frame goes to.
    goal: Option<Goal>,
    measuring: Measuring,
    /// The thing that is being dragged.
    held: Option<Held>,
    /// The thing beside holes that arrow keys move.
    thing: Option<Thing>,
    /// Where that thing is, after keys moved it.
    told: Option<String>,
    /// The box that chooses holes, while it is pulled: where it begins.
    part_from: Option<Point>,
    /// Whether the selection was last moved by a key: the readout follows it until the pointer moves.
    by_keys: bool,
    /// Whether the drawing is focused in the next frame.
    takes_keys: bool,
}

impl CanvasState {
    /// Brings the whole board into view, and keeps it there while its size changes.
    pub fn fit(&mut self) {
        self.zoom = Zoom::Fit;
    }

    /// Focuses the drawing in the next frame, so that arrow keys and brackets work on it.
    pub const fn take_keys(&mut self) {
        self.takes_keys = true;
    }

    /// Brings a part of the board into view, as large as it can be.
    pub const fn zoom_to(&mut self, part: kurbo::Rect) {
        self.goal = Some(Goal::Part(part));
    }

    /// Shows so many screen points a millimeter, about the middle of the view.
    pub const fn show_at_scale(&mut self, scale: f64) {
        self.goal = Some(Goal::Scale(scale));
    }

    /// Goes to the requested view.
    fn go(&mut self, frame: egui::Rect, all: kurbo::Rect) {
        match self.goal.take() {
            Some(Goal::Part(part)) => self.zoom = Camera::new(Zoom::Fit, frame, part).held(),
            Some(Goal::Scale(scale)) => {
                self.zoom = Camera::new(self.zoom, frame, all).at_scale(scale).held();
            }
            None => {}
        }
    }

    /// The view of this frame: held while something is dragged.
    fn camera(&self, frame: egui::Rect, all: kurbo::Rect) -> Camera {
        let zoom = self.held.as_ref().map_or(self.zoom, |held| held.zoom);
        Camera::new(zoom, frame, all)
    }

    /// The place where automatic pockets stay while something else is dragged; none without a drag.
    pub fn pockets_kept(&self) -> Option<PocketSpot> {
        self.held.as_ref().and_then(Held::pockets)
    }

    /// Whether the measuring tool is in hand.
    pub const fn measuring(&self) -> bool {
        self.measuring.is_on()
    }

    /// Takes a thing beside holes for the arrow keys, or none.
    fn choose(&mut self, thing: Option<Thing>) {
        self.thing = thing;
        self.told = None;
    }

    /// The thing that arrow keys move, and where it is or how it is moved.
    fn thing_words(&self, view: &BoardView<'_>) -> Option<String> {
        let name = self.thing?.words(view.layout());
        Some(match &self.told {
            Some(told) => format!("{}: {told}", capital(&name)),
            None => format!("{}: move by arrow keys", capital(&name)),
        })
    }

    /// Takes the measuring tool up, or puts it down; the last measure stays.
    pub const fn set_measuring(&mut self, on: bool) {
        self.measuring.turn(on);
    }
}

/// A view requested where the size of the picture is not known yet.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Goal {
    /// A part of the board, as large as it can be.
    Part(kurbo::Rect),
    /// A scale: screen points a millimeter.
    Scale(f64),
}

/// A hole, described for the readout.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hover {
    /// Which hole.
    pub id: HoleId,
    /// Its name, as written.
    pub name: HoleName,
    /// Its center.
    pub center: Point,
    /// Its center's distance from the center pin, mm.
    pub radius: f64,
    /// Its center's bearing.
    pub bearing: Angle,
    /// The neighbor with the least wood between, and that wood, mm; below zero where they meet.
    pub nearest: Option<(HoleName, f64)>,
}

/// The hole that the maker points at, and the requests.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CanvasOutput {
    /// The document as a drag or a key has changed it.
    pub changed: Option<Board>,
    /// The thing under the pointer or in hand that can be dragged, and the words about it.
    pub thing: Option<String>,
    /// Holes to choose, by click, box or key; none of them: the click was on plain wood.
    pub choice: Option<Choice>,
    /// The board point under the pointer.
    pub pointer: Option<Point>,
    /// The hole under the pointer; while going from hole to hole by keys, the selected one.
    pub hover: Option<Hover>,
    /// Words on the effect of a click, where a tool is in hand.
    pub hint: Option<&'static str>,
    /// The measure being taken, or taken last.
    pub measure: Option<Measure>,
}

/// Draws the board in the remaining space, and returns words about the thing under the pointer: the input first, then the picture
/// that it led to.
pub fn board_ui(ui: &mut Ui, view: &BoardView<'_>, state: &mut CanvasState) -> CanvasOutput {
    let response = ui.allocate_response(ui.available_size(), Sense::click_and_drag());
    let all = whole(view);
    state.go(response.rect, all);
    if core::mem::take(&mut state.takes_keys) {
        response.request_focus();
    }
    let asked = input::handle(ui.ctx(), &response, view, state, all);
    let measure = state.measuring.shown(view.workpiece, asked.end);
    let loose = state.measuring.from().filter(|_| measure.is_none());
    let scene = Scene {
        view,
        pointed: asked.pointed.filter(|_| !state.measuring()),
        thing: asked.thing.or(state.thing),
        told: state.held.as_ref().and_then(Held::words_and_guides),
        part: asked.part,
        measure: measure.as_ref(),
        end: asked.end,
        pulled: loose,
        pointer: asked.pointer,
        is_focused: response.has_focus(),
    };
    picture(ui, &response, &scene, state.camera(response.rect, all));
    let spoken = spoken::describe(ui, &response, view, state.camera(response.rect, all));
    let told = match &asked.choice {
        Some(choice) if state.by_keys => choice.selected,
        None if state.by_keys => view.selected,
        _ => asked.pointed,
    };
    let thing = state
        .held
        .as_ref()
        .and_then(Held::words_and_guides)
        .map(|(words, _)| words.to_owned());
    let offered = asked.thing.filter(|thing| !matches!(thing, Thing::Hole(_)));
    let offered = offered.map(|thing| format!("Drag: {}", thing.words(view.layout())));
    let chosen = state.thing_words(view);
    if let Some(words) = &chosen {
        ui.ctx()
            .accesskit_node_builder(response.id, |node| node.set_value(words.as_str()));
    }
    let offered = if state.by_keys {
        chosen.or(offered)
    } else {
        offered.or(chosen)
    };
    CanvasOutput {
        changed: asked.changed,
        thing: thing.or(offered),
        pointer: asked.pointer,
        hover: told.and_then(|id| pick::described(view.layout(), id)),
        choice: asked.choice.or(spoken),
        hint: state.measuring.hint(),
        measure,
    }
}

fn picture(ui: &Ui, response: &Response, scene: &Scene<'_>, camera: Camera) {
    let workpiece = scene.view.workpiece;
    let mut palette = Palette::of(ui.visuals()).with_players(workpiece.players());
    if scene.view.wood.is_some() {
        palette = palette.on_wood_of(workpiece);
    }
    if scene.view.dimmed {
        palette = palette.dimmed(ui.visuals().panel_fill);
    }
    let mut pen = Pen::new(ui.painter_at(response.rect), camera, &palette);
    paint::paint(&mut pen, scene);
}

/// The box that must be in view for everything to be: the board, and every sheet laid over it.
fn whole(view: &BoardView<'_>) -> kurbo::Rect {
    let diameter = view.board().blank.diameter;
    let board = kurbo::Rect::from_center_size(Point::ORIGIN, (diameter, diameter));
    let windows = view.sheets.iter().map(|sheet| sheet.window);
    windows.fold(board, |all, window| all.union(window))
}
