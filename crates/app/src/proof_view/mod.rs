//! The finished board as the customer will see it, live: from above, or in perspective and turned by dragging.
//!
//! Pictures are worked out beside the window, first coarse and then fine. They come onto the graphics card strip by strip, so that
//! no frame takes long.

mod maker;

use std::sync::Arc;

use egui::{
    Key, Rect, Role, Sense, Shape, TextureHandle, TextureOptions, Ui, UiBuilder, WidgetInfo, pos2,
    vec2,
};
use geometry::Angle;
use picture::{View, size_shown};
use workshop::Workpiece;

use crate::camera::Camera;
use crate::camera::keep_keys;
use crate::host::Host;
use crate::painter::Pen;
use crate::palette::Palette;
use crate::theme;
use maker::{Glimpse, Maker, Wish};

/// The view of the proof in this run.
pub struct ProofViewState {
    look: Look,
    /// The turn and the tilt of the perspective, degrees.
    turned: (f64, f64),
    maker: Maker,
    wish: Option<Wish>,
    /// The picture that is shown.
    shown: Option<Strips>,
    /// One that is coming onto the graphics card, with the strips that are yet to come.
    coming: Option<(Strips, Glimpse)>,
}

/// The point of view.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Look {
    Above,
    Perspective,
}

/// A picture on the graphics card, in strips from the top; heights in pixels.
struct Strips {
    size: [usize; 2],
    strips: Vec<(usize, TextureHandle)>,
}

/// The usual turn and tilt, degrees.
const USUAL: (f64, f64) = (-14.0, 38.0);
/// Degrees that a drag of a point turns and tilts.
const DRAG: f64 = 0.35;
/// Degrees that a press of an arrow key turns and tilts.
const STEP: f64 = 5.0;
/// The most pixels along a side: more is not seen, and takes long.
const MOST: u32 = 2400;

impl Default for ProofViewState {
    fn default() -> Self {
        Self {
            look: Look::Perspective,
            turned: USUAL,
            maker: Maker::default(),
            wish: None,
            shown: None,
            coming: None,
        }
    }
}

impl ProofViewState {
    /// Turns the board back as it is seen at first.
    pub const fn fit(&mut self) {
        self.turned = USUAL;
    }

    fn view(&self) -> View {
        match self.look {
            Look::Above => View::Above,
            Look::Perspective => View::Perspective {
                turn: Angle::degrees(self.turned.0),
                tilt: Angle::degrees(self.turned.1),
            },
        }
    }

    /// Turns and tilts by so many degrees.
    fn turn(&mut self, (turn, tilt): (f64, f64)) {
        let (least, most) = View::TILTS;
        self.turned.0 = (self.turned.0 + turn) % 360.0;
        self.turned.1 = (self.turned.1 + tilt).clamp(least, most);
    }

    /// Asks for the picture of this frame, if it is another.
    fn ask(&mut self, ui: &Ui, host: &dyn Host, workpiece: &Arc<Workpiece>, size: egui::Vec2) {
        let scale = ui.ctx().pixels_per_point();
        let pixels = |points: f32| ((points * scale).round() as u32).clamp(64, MOST);
        let wish = Wish {
            workpiece: workpiece.clone(),
            view: self.view(),
            size: (pixels(size.x), pixels(size.y)),
            is_dark: ui.visuals().dark_mode,
        };
        if self.wish.as_ref() != Some(&wish) {
            self.maker.ask(ui.ctx(), host, wish.clone());
            self.wish = Some(wish);
        }
    }

    /// Takes the newest picture, and brings one strip of it onto the graphics card.
    fn take(&mut self, ctx: &egui::Context) {
        if let Some(glimpse) = self.maker.newest() {
            let strips = Strips {
                size: glimpse.size,
                strips: Vec::new(),
            };
            self.coming = Some((strips, glimpse));
        }
        let Some((strips, glimpse)) = &mut self.coming else {
            return;
        };
        if let Some(image) = glimpse.strips.pop_front() {
            let height = image.size[1];
            let texture = ctx.load_texture("proof", image, TextureOptions::LINEAR);
            strips.strips.push((height, texture));
        }
        if glimpse.strips.is_empty() {
            self.shown = self.coming.take().map(|(strips, _)| strips);
        } else {
            ctx.request_repaint();
        }
    }
}

/// Shows the board as the customer will see it, and the ways to look at it.
pub fn proof_view_ui(
    ui: &mut Ui,
    workpiece: &Arc<Workpiece>,
    host: &dyn Host,
    state: &mut ProofViewState,
) {
    looks_ui(ui, workpiece, state);
    let response = ui.allocate_response(ui.available_size(), Sense::click_and_drag());
    handle(ui, &response, state);
    state.ask(ui, host, workpiece, response.rect.size());
    state.take(ui.ctx());
    let palette = Palette::of(ui.visuals());
    let camera = Camera::with_margin(
        crate::camera::Zoom::Fit,
        response.rect,
        kurbo::Rect::new(0.0, 0.0, 1.0, 1.0),
        0.0,
    );
    let mut pen = Pen::new(ui.painter_at(response.rect), camera, &palette);
    match &state.shown {
        Some(strips) => strips.paint(&mut pen, response.rect),
        None if state.maker.is_broken() => {
            let words = "This picture failed: internal error.";
            ui.put(response.rect, egui::Label::new(words));
        }
        None => {
            ui.put(response.rect, egui::Spinner::new());
        }
    }
    if response.has_focus() {
        pen.focus();
    }
    drop(pen);
    size_ui(ui, response.rect, workpiece, state);
    let name = match state.look {
        Look::Above => "Picture of the finished board, from above",
        Look::Perspective => "Picture of the finished board, in perspective",
    };
    response.widget_info(|| WidgetInfo::labeled(Role::Figure, true, name));
}

/// The length of the hand or the ruler in the picture, in its lower left corner.
fn size_ui(ui: &mut Ui, frame: Rect, workpiece: &Workpiece, state: &ProofViewState) {
    let Some(wish) = state.wish.as_ref().filter(|_| state.shown.is_some()) else {
        return;
    };
    let words = size_shown(workpiece, wish.view, wish.size);
    let corner = Rect::from_min_max(frame.left_bottom() - vec2(0.0, 26.0), frame.max);
    let place = UiBuilder::new().max_rect(corner.shrink2(vec2(theme::GAP, 2.0)));
    ui.new_child(place).label(words);
}

/// From above or in perspective; back to the usual view; and where wood is missing, that it is.
fn looks_ui(ui: &mut Ui, workpiece: &Workpiece, state: &mut ProofViewState) {
    ui.horizontal_wrapped(|ui| {
        ui.add_space(theme::GAP);
        ui.selectable_value(&mut state.look, Look::Above, "From above");
        ui.selectable_value(&mut state.look, Look::Perspective, "In perspective");
        let is_turned = state.look == Look::Perspective && state.turned != USUAL;
        if ui
            .add_enabled(is_turned, egui::Button::new("Turn back"))
            .clicked()
        {
            state.fit();
        }
        if workpiece.board().wood.is_none() {
            ui.label("No wood chosen yet (stage Wood): plain pale wood is shown.");
        }
    });
}

/// Turns the board as this frame's pointer and keys ask.
fn handle(ui: &Ui, response: &egui::Response, state: &mut ProofViewState) {
    if response.clicked() {
        response.request_focus();
    }
    if state.look == Look::Above {
        return;
    }
    let drag = response.drag_delta();
    state.turn((f64::from(drag.x) * -DRAG, f64::from(drag.y) * DRAG));
    if response.double_clicked() {
        state.fit();
    }
    if response.has_focus() {
        keep_keys(ui.ctx(), response, false);
        let pressed = |key| f64::from(i8::from(ui.input(|input| input.key_pressed(key))));
        let turn = pressed(Key::ArrowLeft) - pressed(Key::ArrowRight);
        let tilt = pressed(Key::ArrowUp) - pressed(Key::ArrowDown);
        state.turn((STEP * turn, STEP * tilt));
    }
}

impl Strips {
    /// Puts the picture into a part of the window, as large as it goes.
    fn paint(&self, pen: &mut Pen<'_>, frame: Rect) {
        let [width, height] = self.size.map(|side| side as f32);
        let scale = (frame.width() / width).min(frame.height() / height);
        let size = vec2(width, height) * scale;
        let corner = frame.center() - size / 2.0;
        let mut top = corner.y;
        for (height, texture) in &self.strips {
            let bottom = top + *height as f32 * scale;
            let place = Rect::from_min_max(pos2(corner.x, top), pos2(corner.x + size.x, bottom));
            let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
            pen.add(Shape::image(
                texture.id(),
                place,
                whole,
                egui::Color32::WHITE,
            ));
            top = bottom;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drag_turns_round_and_tilts_within_its_range() {
        let mut state = ProofViewState::default();
        state.turn((370.0, 500.0));
        assert_eq!(state.turned.1, View::TILTS.1);
        assert!(state.turned.0 < 360.0);
        state.turn((0.0, -500.0));
        assert_eq!(state.turned.1, View::TILTS.0);
        state.fit();
        assert_eq!(state.view(), View::PERSPECTIVE);
    }
}
