//! Which part of the board is in view, and how large.

use egui::{Pos2, Rect, Vec2};
use egui_plot::PlotBounds;
use geometry::Point;

/// Room around a fitted board for the players' badges, in points of the screen.
const FIT_MARGIN: f32 = 42.0;
/// Most and least screen points a millimeter.
const SCALES: (f64, f64) = (0.02, 60.0);

/// How the view is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Zoom {
    /// All of it, whatever its size and that of the window.
    #[default]
    Fit,
    /// What the maker moved or zoomed to.
    Free(Camera),
}

impl Zoom {
    /// The view for a part of the screen, where `all` is what fits the whole of it.
    pub fn camera(self, frame: Rect, all: kurbo::Rect) -> Camera {
        match self {
            Self::Fit => Camera::fitting(frame, all),
            Self::Free(camera) => camera,
        }
    }
}

/// A view of the board; x and y have the same scale, so that a circle is a circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    /// The board point in the middle of the screen's part.
    pub middle: Point,
    /// Screen points a millimeter.
    pub scale: f64,
}

impl Camera {
    /// The largest view that shows a part of the board whole, with room around it.
    pub fn fitting(frame: Rect, all: kurbo::Rect) -> Self {
        // A very small canvas gives up its margin sooner than its board.
        let margin = FIT_MARGIN.min(frame.size().min_elem() / 8.0);
        let room = frame.shrink(margin).size();
        let scale = (f64::from(room.x) / all.width()).min(f64::from(room.y) / all.height());
        Self {
            middle: all.center(),
            scale: within_scales(scale),
        }
    }

    /// The board point at a screen point.
    pub fn board_from_screen(&self, frame: Rect, at: Pos2) -> Point {
        self.middle + self.board_from_offset(at - frame.center())
    }

    /// The view after its content is dragged over the screen.
    pub fn dragged(self, by: Vec2) -> Self {
        Self {
            middle: self.middle - self.board_from_offset(by),
            ..self
        }
    }

    /// The view enlarged by a factor, with the board point under `at` staying where it is.
    pub fn zoomed(self, frame: Rect, at: Pos2, factor: f64) -> Self {
        let fixed = self.board_from_screen(frame, at);
        let scale = within_scales(self.scale * factor);
        let middle = fixed + (self.middle - fixed) * (self.scale / scale);
        Self { middle, scale }
    }

    /// The same view as the plot takes it.
    pub fn bounds(&self, frame: Rect) -> PlotBounds {
        let half = kurbo::Vec2::new(f64::from(frame.width()), f64::from(frame.height()))
            / (2.0 * self.scale);
        let (min, max) = (self.middle - half, self.middle + half);
        PlotBounds::from_min_max([min.x, min.y], [max.x, max.y])
    }

    /// A way over the screen as a way over the board: y turns over.
    fn board_from_offset(&self, by: Vec2) -> kurbo::Vec2 {
        kurbo::Vec2::new(f64::from(by.x), -f64::from(by.y)) / self.scale
    }
}

fn within_scales(scale: f64) -> f64 {
    let (least, most) = SCALES;
    // An empty frame has no scale; `max` also turns a NaN away.
    scale.max(least).min(most)
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::{pos2, vec2};
    use testkit::assert_near;

    const FRAME: Rect = Rect {
        min: pos2(10.0, 20.0),
        max: pos2(810.0, 620.0),
    };
    const BOARD: kurbo::Rect = kurbo::Rect::new(-280.0, -280.0, 280.0, 280.0);

    #[test]
    fn a_fitted_board_is_whole_and_in_the_middle() {
        let camera = Camera::fitting(FRAME, BOARD);
        assert_near!(
            camera.scale,
            (600.0 - 2.0 * f64::from(FIT_MARGIN)) / 560.0,
            1e-9
        );
        assert_near!(
            camera.board_from_screen(FRAME, FRAME.center()),
            Point::ORIGIN,
            1e-9
        );
    }

    #[test]
    fn up_on_the_screen_is_up_on_the_board() {
        let camera = Camera::fitting(FRAME, BOARD);
        let up = camera.board_from_screen(FRAME, FRAME.center() - vec2(0.0, 10.0));
        assert_near!(up, Point::new(0.0, 10.0 / camera.scale), 1e-9);
    }

    #[test]
    fn zooming_keeps_the_point_under_the_pointer() {
        let camera = Camera::fitting(FRAME, BOARD);
        let at = pos2(123.0, 456.0);
        let before = camera.board_from_screen(FRAME, at);
        for factor in [1.3, 0.5, 1e9, 1e-9] {
            let zoomed = camera.zoomed(FRAME, at, factor);
            assert_near!(zoomed.board_from_screen(FRAME, at), before, 1e-9);
            assert!((SCALES.0..=SCALES.1).contains(&zoomed.scale));
        }
    }

    #[test]
    fn dragging_takes_the_board_along() {
        let camera = Camera::fitting(FRAME, BOARD);
        let (from, by) = (pos2(200.0, 200.0), vec2(31.0, -17.0));
        let grabbed = camera.board_from_screen(FRAME, from);
        let after = camera.dragged(by).board_from_screen(FRAME, from + by);
        assert_near!(after, grabbed, 1e-9);
    }

    #[test]
    fn a_frame_without_room_still_has_a_scale() {
        let camera = Camera::fitting(Rect::from_min_size(pos2(0.0, 0.0), vec2(0.0, 0.0)), BOARD);
        assert!(camera.scale > 0.0 && camera.middle.is_finite());
    }
}
