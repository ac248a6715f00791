//! Which part of a drawing is in view, and how large: the one place where y turns over.

use egui::{Context, EventFilter, Key, Modifiers, PointerButton, Pos2, Rect, Response, Vec2, pos2};
use geometry::Point;

/// Room around a fitted drawing, in points of the screen.
const FIT_MARGIN: f32 = 42.0;
/// Least and most screen points a millimeter.
const SCALES: (f64, f64) = (0.005, 60.0);
/// Share of the fitted scale below which nothing is drawn, so that a drawing is never lost as a speck.
const SMALLEST: f64 = 0.25;
/// Distance that an arrow key moves the view, in points.
const KEY_PAN: f32 = 48.0;
/// The factor of one press of plus.
const KEY_ZOOM: f32 = 1.25;
/// Points of wheel travel that enlarge e-fold.
const WHEEL_TRAVEL: f32 = 240.0;

/// The choice of the view.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Zoom {
    /// All of it, for any size of it and of the window.
    #[default]
    Fit,
    /// The maker's own view: the place in the middle, and screen points a millimeter.
    Free(Point, f64),
}

impl Zoom {
    /// Moves the view as this frame's pointer and keys ask, a drag of the primary button only where `drags`. The key 0
    /// brings all of it back while the picture has the focus.
    pub fn look(&mut self, ctx: &Context, response: &Response, camera: Camera, drags: bool) {
        let moved = camera.looked(ctx, response, drags);
        if moved != camera {
            *self = moved.held();
        }
        if response.has_focus() && ctx.input(|input| input.key_pressed(Key::Num0)) {
            *self = Self::Fit;
        }
    }
}

/// A view of a drawing; x and y have the same scale, so that a circle is a circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    /// The part of the screen that is drawn on.
    pub frame: Rect,
    /// The place on the drawing in the middle of it.
    middle: Point,
    /// Screen points a millimeter.
    scale: f64,
    /// The least scale that zooming out gives.
    least: f64,
}

impl Camera {
    /// The view of a part of the screen, where `all` is the content fitted into it.
    pub fn new(zoom: Zoom, frame: Rect, all: kurbo::Rect) -> Self {
        Self::with_margin(zoom, frame, all, FIT_MARGIN)
    }

    /// The same with a margin around the fitted content, in points.
    pub fn with_margin(zoom: Zoom, frame: Rect, all: kurbo::Rect, margin: f32) -> Self {
        let fitting = Self::fitting(frame, all, margin);
        match zoom {
            Zoom::Fit => fitting,
            Zoom::Free(middle, scale) => Self {
                middle,
                scale,
                ..fitting
            },
        }
    }

    fn fitting(frame: Rect, all: kurbo::Rect, margin: f32) -> Self {
        // A very small frame keeps its drawing and drops its margin.
        let margin = margin.min(frame.size().min_elem() / 8.0);
        let room = frame.shrink(margin).size();
        let scale = (f64::from(room.x) / all.width()).min(f64::from(room.y) / all.height());
        let scale = within_scales(scale);
        Self {
            frame,
            middle: all.center(),
            scale,
            least: SMALLEST * scale,
        }
    }

    /// The same view, held where it is.
    pub fn held(&self) -> Zoom {
        Zoom::Free(self.middle, self.scale)
    }

    /// The screen point of a place on the drawing.
    pub fn screen(&self, at: Point) -> Pos2 {
        let by = (at - self.middle) * self.scale;
        let center = self.frame.center();
        pos2(
            (f64::from(center.x) + by.x) as f32,
            (f64::from(center.y) - by.y) as f32,
        )
    }

    /// The place on the drawing at a screen point.
    pub fn place(&self, at: Pos2) -> Point {
        self.middle + self.way(at - self.frame.center())
    }

    /// A length on the drawing as a length on the screen.
    pub fn length(&self, mm: f64) -> f32 {
        (mm * self.scale) as f32
    }

    /// A length on the screen as a length on the drawing, mm.
    pub fn mm(&self, length: f32) -> f64 {
        f64::from(length) / self.scale
    }

    /// The view about the same middle at another scale: screen points a millimeter.
    pub fn at_scale(self, scale: f64) -> Self {
        Self {
            scale: within_scales(scale),
            ..self
        }
    }

    /// The view after its content is dragged over the screen.
    pub fn dragged(self, by: Vec2) -> Self {
        Self {
            middle: self.middle - self.way(by),
            ..self
        }
    }

    /// The view enlarged by a factor about `at`, which stays in place.
    pub fn zoomed(self, at: Pos2, factor: f64) -> Self {
        let fixed = self.place(at);
        // A view that is smaller already, of a drawing that has grown, stays as it is.
        let least = self.least.min(self.scale);
        let scale = within_scales(self.scale * factor).max(least);
        Self {
            middle: fixed + (self.middle - fixed) * (self.scale / scale),
            scale,
            ..self
        }
    }

    /// The same view as seen from a drawing that lies moved on this one.
    pub fn moved(self, by: kurbo::Vec2) -> Self {
        Self {
            middle: self.middle - by,
            ..self
        }
    }

    /// The view after this frame's pointer and keys: a drag moves it where `drags`, the wheel and pinching zoom about the
    /// pointer; arrows, plus and minus do the same while the picture has the focus.
    fn looked(self, ctx: &Context, response: &Response, drags: bool) -> Self {
        self.by_pointer(ctx, response, drags).by_keys(ctx, response)
    }

    fn by_pointer(self, ctx: &Context, response: &Response, drags: bool) -> Self {
        let mut camera = self;
        let dragged = drags && response.dragged_by(PointerButton::Primary);
        if dragged || response.dragged_by(PointerButton::Middle) {
            camera = camera.dragged(response.drag_delta());
        }
        let Some(at) = response.hover_pos() else {
            return camera;
        };
        let (wheel, pinch) = ctx.input(|input| (input.smooth_scroll_delta(), input.zoom_delta()));
        let factor = (wheel.y / WHEEL_TRAVEL).exp() * pinch;
        if factor != 1.0 {
            camera = camera.zoomed(at, f64::from(factor));
        }
        camera.dragged(Vec2::new(wheel.x, 0.0))
    }

    fn by_keys(self, ctx: &Context, response: &Response) -> Self {
        if !response.has_focus() {
            return self;
        }
        let presses = |key: Key| ctx.input(|input| input.num_presses(key)) as f32;
        let right = presses(Key::ArrowLeft) - presses(Key::ArrowRight);
        let down = presses(Key::ArrowUp) - presses(Key::ArrowDown);
        let larger = presses(Key::Plus) + presses(Key::Equals) - presses(Key::Minus);
        let camera = self.dragged(Vec2::new(right, down) * KEY_PAN);
        if larger == 0.0 {
            return camera;
        }
        let factor = f64::from(KEY_ZOOM.powf(larger));
        camera.zoomed(response.rect.center(), factor)
    }

    /// A way over the screen as a way over the drawing.
    fn way(&self, by: Vec2) -> kurbo::Vec2 {
        kurbo::Vec2::new(f64::from(by.x), -f64::from(by.y)) / self.scale
    }
}

/// Tells egui that arrows move the picture that has the focus, and Escape too if requested, rather than the focus.
pub fn keep_keys(ctx: &Context, response: &Response, escape: bool) {
    let filter = EventFilter {
        tab: false,
        horizontal_arrows: true,
        vertical_arrows: true,
        escape,
    };
    ctx.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
}

/// Takes the presses of the arrow keys with some modifiers, as a way over the board.
pub fn arrows(ctx: &Context, modifiers: Modifiers) -> kurbo::Vec2 {
    let presses = |key| ctx.input_mut(|input| input.count_and_consume_key(modifiers, key)) as f64;
    kurbo::Vec2::new(
        presses(Key::ArrowRight) - presses(Key::ArrowLeft),
        presses(Key::ArrowUp) - presses(Key::ArrowDown),
    )
}

fn within_scales(scale: f64) -> f64 {
    let (least, most) = SCALES;
    // An empty frame has no scale; `max` also turns a NaN away.
    scale.max(least).min(most)
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::vec2;
    use testkit::assert_near;

    const FRAME: Rect = Rect {
        min: pos2(10.0, 20.0),
        max: pos2(810.0, 620.0),
    };
    const SLAB: kurbo::Rect = kurbo::Rect::new(0.0, 0.0, 1400.0, 500.0);

    fn fitted() -> Camera {
        Camera::new(Zoom::Fit, FRAME, SLAB)
    }

    #[test]
    fn a_fitted_slab_is_whole_with_its_lower_left_corner_low_and_left() {
        let camera = fitted();
        let corner = camera.screen(Point::ORIGIN);
        assert_near!(f64::from(corner.x), f64::from(10.0 + FIT_MARGIN), 1e-3);
        assert!(corner.y > FRAME.center().y && FRAME.contains(corner));
        assert_near!(f64::from(camera.length(1400.0)), 716.0, 1e-3);
    }

    #[test]
    fn there_and_back_is_the_same_place() {
        let held = Zoom::Free(Point::new(312.5, -40.25), 3.75);
        for camera in [fitted(), Camera::new(held, FRAME, SLAB)] {
            for place in [(0.0, 0.0), (512.3, 77.7), (-20.0, 900.0)] {
                let place = Point::from(place);
                assert_near!(camera.place(camera.screen(place)), place, 1e-3);
            }
            assert_near!(camera.mm(camera.length(123.0)), 123.0, 1e-4);
        }
    }

    #[test]
    fn zooming_keeps_the_place_under_the_pointer() {
        let at = pos2(123.0, 456.0);
        let before = fitted().place(at);
        for factor in [1.3, 0.5, 1e9, 1e-9] {
            let zoomed = fitted().zoomed(at, factor);
            assert_near!(zoomed.place(at), before, 1e-9);
            assert!((SMALLEST * fitted().scale..=SCALES.1).contains(&zoomed.scale));
        }
    }

    #[test]
    fn at_true_size_a_millimeter_is_as_long_as_it_was_measured() {
        let camera = fitted().at_scale(3.78);
        assert_near!(f64::from(camera.length(100.0)), 378.0, 1e-3);
        assert_near!(
            camera.place(FRAME.center()),
            fitted().place(FRAME.center()),
            1e-9
        );
    }

    #[test]
    fn dragging_takes_the_blank_along_and_a_held_view_stays() {
        let (from, by) = (pos2(200.0, 200.0), vec2(31.0, -17.0));
        let dragged = fitted().dragged(by);
        assert_near!(dragged.place(from + by), fitted().place(from), 1e-9);
        let wider = kurbo::Rect::new(-500.0, 0.0, 3000.0, 900.0);
        let held = Camera::new(dragged.held(), FRAME, wider);
        assert_eq!((held.middle, held.scale), (dragged.middle, dragged.scale));
    }

    #[test]
    fn a_moved_drawing_is_seen_where_it_lies() {
        let by = kurbo::Vec2::new(120.0, -35.0);
        let place = Point::new(7.0, 9.0);
        let seen = fitted().moved(by).screen(place);
        assert!(seen.distance(fitted().screen(place + by)) < 1e-3);
    }

    #[test]
    fn up_on_the_screen_is_up_on_the_drawing() {
        let camera = fitted();
        let at = FRAME.center();
        let up = camera.place(at - vec2(0.0, 10.0)) - camera.place(at);
        assert!(up.y > 0.0 && up.x == 0.0);
    }

    #[test]
    fn a_frame_or_a_blank_without_size_still_has_a_scale() {
        let empty = Rect::from_min_size(pos2(0.0, 0.0), Vec2::ZERO);
        for (frame, all) in [
            (empty, SLAB),
            (FRAME, kurbo::Rect::ZERO),
            (empty, kurbo::Rect::ZERO),
        ] {
            let camera = Camera::new(Zoom::Fit, frame, all);
            assert!(camera.scale > 0.0 && camera.middle.is_finite());
        }
    }
}
