//! The blank with the board on it, to scale: flaws, corners and the center pin can be dragged.
//!
//! `drawn` keeps the picture, `input` handles pointer and keys (drags and their effect on the document come from
//! [`drawing::on_blank`]), `pieces` has the parts cut from the blank; `paint` and `cut` paint them. No length of the trade is
//! worked out here: the best place of the board and its largest size come from the document's plan.

mod cut;
mod drawn;
mod input;
mod paint;
mod pieces;
#[cfg(test)]
mod tests;
mod words;

use board::{Board, StockOutline};
use drawing::on_blank::Grip;
use drawing::{Guide, Item};
use egui::{
    Align, Color32, Layout, Rect, Response, RichText, Role, Sense, Ui, UiBuilder, WidgetInfo,
};
use geometry::{Circle, Point};
use kurbo::Shape as _;
use workshop::Workpiece;
use workshop::{Severity, panel_width};

use crate::camera::{Camera, Zoom};
use crate::painter::Pen;
use crate::palette::Palette;
use crate::theme::Tokens;
use crate::widgets::empty_state;
use crate::wood_face::Figured;
use drawn::Drawn;
use input::{Held, Pins};
use pieces::{Note, Pieces};

const UNKNOWN: &str =
    "Enter the blank's length and width, or its corners, and see where the board goes on it.";

/// The view of the blank in this run; starts with all of it in view.
#[derive(Debug, Default)]
pub struct BlankViewState {
    zoom: Zoom,
    held: Option<Held>,
    /// The thing that arrow keys move.
    chosen: Option<Grip>,
    /// Whether it was last chosen or moved by a key; the status line then describes it until the pointer moves.
    by_keys: bool,
    /// Whether the button that leads to the controls of the blank was pressed.
    pub to_controls: bool,
    drawn: Drawn,
}

impl BlankViewState {
    /// Brings the whole blank into view, and keeps it there while its size changes.
    pub const fn fit(&mut self) {
        self.zoom = Zoom::Fit;
    }

    fn camera(&self, frame: Rect, all: kurbo::Rect) -> Camera {
        let zoom = self.held.as_ref().map_or(self.zoom, |held| held.zoom);
        Camera::new(zoom, frame, all)
    }
}

/// The parts of the blank view beside the document.
pub struct BlankSeen<'a> {
    /// The workpiece of the document.
    pub workpiece: &'a Workpiece,
    /// Its plan without names.
    pub plan: &'a [Item],
    /// Whether the document cannot be laid out; the other parts are then those of the last one that could.
    pub is_old: bool,
    /// The picture of the wood of the blank; `None`: plain color.
    pub wood: Option<Figured>,
}

/// The parts of one frame.
struct Scene<'a> {
    board: &'a Board,
    seen: &'a BlankSeen<'a>,
    drawn: &'a Drawn,
    pieces: Pieces<'a>,
    /// Whether a finding about the blank stops the board.
    is_stopped: bool,
    /// The thing under the pointer, or dragged.
    grip: Option<Grip>,
    /// The name and place of the dragged thing; empty without a drag.
    told: &'a str,
    /// The guides that it lies on.
    guides: &'a [Guide],
    /// The place under the pointer.
    pointer: Option<Point>,
}

impl Scene<'_> {
    /// The tint over the parts cut from the blank: more transparent over figured wood, so that the figure shows.
    fn laid(&self, palette: &Palette) -> Color32 {
        match self.seen.wood {
            Some(_) => palette.laid.gamma_multiply(0.5),
            None => palette.laid,
        }
    }
}

/// Draws the blank, and moves the dragged thing in the document. Returns words about the thing under the pointer, or how to bring the
/// blank back into view.
pub fn blank_view_ui(
    ui: &mut Ui,
    board: &mut Board,
    seen: &BlankSeen<'_>,
    state: &mut BlankViewState,
) -> String {
    if board.stock.outline == StockOutline::Unknown {
        state.to_controls =
            empty_state(ui, "No blank described yet", UNKNOWN, "Describe the blank");
        return "The tab Plan shows the board again".into();
    }
    let response = ui.allocate_response(ui.available_size(), Sense::click_and_drag());
    state.drawn.follow(&board.stock);
    let before = Pieces::of(board, seen);
    let all = whole(board, &state.drawn, before);
    let best = seen.workpiece.stock().and_then(|plan| plan.best.as_ref());
    let pins = Pins {
        pin: before.pin(),
        best: best.map(|best| best.circle.center),
    };
    let pointed = input::handle(ui, &response, state, board, pins, all);
    state.drawn.follow(&board.stock);
    let pin = Pieces::of(board, seen).pin();
    let readout = words::readout(board, &state.drawn, pin, pointed);
    let scene = Scene {
        board,
        seen,
        drawn: &state.drawn,
        pieces: Pieces::of(board, seen),
        is_stopped: pieces::is_stopped(seen),
        grip: pointed.grip.or(state.chosen),
        told: state.held.as_ref().map_or("", |_| readout.as_str()),
        guides: state.held.as_ref().map_or(&[], Held::guides),
        pointer: pointed.at,
    };
    picture(ui, &response, &scene, state.camera(response.rect, all));
    notes_ui(ui, response.rect, &pieces::notes(board, seen));
    describe(
        &response,
        &words::description(board, seen.workpiece.stock(), pin),
    );
    buttons_ui(ui, response.rect, board, state);
    readout
}

/// The bounding box of the blank and everything drawn on it.
fn whole(board: &Board, drawn: &Drawn, pieces: Pieces<'_>) -> kurbo::Rect {
    let wood = drawn
        .bounds()
        .unwrap_or(kurbo::Rect::new(0.0, 0.0, 100.0, 100.0));
    let trim = |pin| Circle::new(pin, panel_width(board) / 2.0).bounding_box();
    pieces.pin().map_or(wood, |pin| wood.union(trim(pin)))
}

fn picture(ui: &Ui, response: &Response, scene: &Scene<'_>, camera: Camera) {
    let mut palette = Palette::of(ui.visuals());
    if scene.seen.wood.is_some() {
        palette = palette.on_wood_of(scene.seen.workpiece);
    }
    let mut pen = Pen::new(ui.painter_at(response.rect), camera, &palette);
    paint::paint(&mut pen, scene);
    if response.has_focus() {
        pen.focus();
    }
}

/// The buttons that take back a drag: of the view, and of the pin.
fn buttons_ui(ui: &mut Ui, frame: Rect, board: &mut Board, state: &mut BlankViewState) {
    let place = Rect::from_min_max(frame.left_bottom() - egui::vec2(0.0, 34.0), frame.max);
    let place = place.shrink2(egui::vec2(10.0, 4.0));
    let row = UiBuilder::new()
        .max_rect(place)
        .layout(Layout::right_to_left(Align::Center));
    let mut ui = ui.new_child(row);
    if board.stock.place.is_some() {
        let pin = ui.button("Pin to the best place");
        let why = "Where the board has the most sound wood around it";
        if pin.on_hover_text(why).clicked() {
            board.stock.place = None;
        }
    }
    if state.zoom != Zoom::Fit {
        let fits = ui.button("Whole blank");
        if fits
            .on_hover_text("Bring the whole blank into view")
            .clicked()
        {
            state.fit();
        }
    }
}

/// Sentences over the picture, each with the mark of its severity.
fn notes_ui(ui: &mut Ui, frame: Rect, notes: &[Note]) {
    let (tokens, palette) = (Tokens::of(ui), Palette::of(ui.visuals()));
    let column = UiBuilder::new()
        .max_rect(frame.shrink(10.0))
        .layout(Layout::top_down(Align::Min));
    let mut ui = ui.new_child(column);
    for (severity, words) in notes {
        let mark = match severity {
            Severity::Note => "",
            Severity::Stop | Severity::Caution => "▲ ",
        };
        let words = RichText::new(format!("{mark}{words}")).color(tokens.severity(*severity));
        egui::Frame::new()
            .fill(palette.chip)
            .corner_radius(4)
            .inner_margin(egui::Margin::symmetric(8, 4))
            .show(&mut ui, |ui| ui.label(words));
    }
}

/// The picture's node for screen readers.
fn describe(response: &Response, words: &str) {
    response.widget_info(|| WidgetInfo::labeled(Role::Figure, response.enabled(), "Blank plan"));
    response
        .ctx
        .accesskit_node_builder(response.id, |node| node.set_description(words));
}
