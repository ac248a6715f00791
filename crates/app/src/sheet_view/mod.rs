//! A sheet as it comes out of the printer: paper, and ink of the true width.

mod paint;

use drawing::Sheet;
use egui::{Rect, Role, Sense, Ui, Vec2, WidgetInfo};

use crate::camera::{Camera, Zoom, keep_keys};

/// Room around a fitted sheet, in points.
const MARGIN: f32 = 12.0;

/// What is looked at on a sheet in this run; starts with all of it in view.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SheetViewState {
    zoom: Zoom,
    /// Whether a sheet that is high is brought into view from its top, as wide as there is room, so that it can be read.
    by_width: bool,
}

impl SheetViewState {
    /// Of a sheet that is read from its top.
    pub const fn by_width() -> Self {
        Self {
            zoom: Zoom::Fit,
            by_width: true,
        }
    }

    /// Brings the whole sheet into view, or its top where it is read from there.
    pub const fn fit(&mut self) {
        self.zoom = Zoom::Fit;
    }
}

/// Shows a sheet in a part of the window of a size; `name` is what screen readers call it.
pub fn sheet_view_ui(
    ui: &mut Ui,
    size: Vec2,
    sheet: &Sheet,
    name: &str,
    state: &mut SheetViewState,
) -> egui::Response {
    let response = ui.allocate_response(size, Sense::click_and_drag());
    let mut shown = sheet.size.to_rect();
    if state.by_width {
        let high = shown.width() * f64::from(size.y / size.x.max(1.0));
        shown.y0 = shown.y0.max(shown.y1 - high);
    }
    let camera = look(ui, &response, shown, state);
    let painter = ui.painter_at(response.rect);
    painter.rect_filled(response.rect, 3.0, crate::theme::Tokens::of(ui).bench);
    paint::paint(&painter, &camera, sheet);
    if response.has_focus() {
        let stroke = ui.visuals().selection.stroke;
        painter.rect_stroke(response.rect, 3.0, stroke, egui::StrokeKind::Inside);
    }
    response.widget_info(|| WidgetInfo::labeled(Role::Figure, true, name));
    response
}

/// Moves the view as this frame's pointer and keys ask.
fn look(
    ui: &Ui,
    response: &egui::Response,
    shown: kurbo::Rect,
    state: &mut SheetViewState,
) -> Camera {
    let fitted = |zoom| Camera::with_margin(zoom, response.rect, shown, MARGIN);
    if response.clicked() {
        response.request_focus();
    }
    if response.has_focus() {
        keep_keys(ui.ctx(), response, false);
    }
    let camera = fitted(state.zoom);
    let moved = camera.looked(ui.ctx(), response, true);
    if moved != camera {
        state.zoom = moved.held();
    }
    let all = response.has_focus() && ui.input(|input| input.key_pressed(egui::Key::Num0));
    if all || response.double_clicked() {
        state.fit();
    }
    fitted(state.zoom)
}

/// Where the paper lies on the screen.
fn paper_on_screen(camera: &Camera, sheet: &Sheet) -> Rect {
    let paper = sheet.size;
    Rect::from_two_pos(
        camera.screen(kurbo::Point::ORIGIN),
        camera.screen(kurbo::Point::new(paper.width, paper.height)),
    )
}
