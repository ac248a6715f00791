//! A sheet as printed: paper, and ink of the true width.

use drawing::Sheet;
use egui::{Color32, Rect, Role, Sense, Shape, TextureId, Ui, Vec2, WidgetInfo, pos2, vec2};

use crate::camera::{Camera, Zoom, keep_keys};
use crate::painter::Pen;
use crate::palette::Palette;

/// Room around a fitted sheet, in points.
const MARGIN: f32 = 12.0;

/// The view of a sheet in this run; starts with all of it in view.
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
    illustrated_ui(ui, size, (sheet, None), name, state)
}

/// The same, of a sheet with a picture behind everything, and where it lies, mm.
pub fn illustrated_ui(
    ui: &mut Ui,
    size: Vec2,
    (sheet, behind): (&Sheet, Option<(TextureId, kurbo::Rect)>),
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
    let palette = Palette::of(ui.visuals());
    let mut pen = Pen::new(ui.painter_at(response.rect), camera, &palette);
    let bench = crate::theme::Tokens::of(ui).bench;
    pen.add(Shape::rect_filled(response.rect, 3.0, bench));
    paint(&mut pen, sheet, behind);
    if response.has_focus() {
        pen.focus();
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
    state.zoom.look(ui.ctx(), response, camera, true);
    if response.double_clicked() {
        state.fit();
    }
    fitted(state.zoom)
}

/// A sheet with its paper, the part of the board within its window, and the marks over it.
fn paint(pen: &mut Pen<'_>, sheet: &Sheet, behind: Option<(TextureId, kurbo::Rect)>) {
    let paper = pen.rect(sheet.size.to_rect());
    let shadow = paper.translate(vec2(2.0, 3.0));
    pen.add(Shape::rect_filled(shadow, 0.0, pen.palette.paper_shadow));
    pen.add(Shape::rect_filled(paper, 0.0, pen.palette.paper));
    if let Some((texture, area)) = behind {
        let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
        let place = pen.rect(area);
        pen.add(Shape::image(texture, place, whole, Color32::WHITE));
    }
    let view = &sheet.view;
    pen.within(pen.rect(view.window), |pen| {
        pen.moved(view.page_from_board, |pen| {
            view.items.iter().for_each(|item| pen.item(item));
        });
    });
    pen.within(paper, |pen| {
        sheet.marks.iter().for_each(|item| pen.item(item));
    });
}
