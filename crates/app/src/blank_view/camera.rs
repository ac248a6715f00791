//! Which part of the blank is in view, and how large: the one place where y turns over.

use egui::{Pos2, Rect, Vec2, pos2};
use geometry::Point;

/// Room around a fitted blank, in points of the screen.
const FIT_MARGIN: f32 = 38.0;
/// Least and most screen points a millimeter.
const SCALES: (f64, f64) = (0.005, 60.0);

/// How the view is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Zoom {
    /// All of it, whatever its size and that of the window.
    #[default]
    Fit,
    /// What the maker moved or zoomed to: the place in the middle, and screen points a millimeter.
    Free(Point, f64),
}

/// A view of the blank; x and y have the same scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    /// The part of the screen that is drawn on.
    pub frame: Rect,
    /// The place on the blank in the middle of it.
    middle: Point,
    /// Screen points a millimeter.
    scale: f64,
}

impl Camera {
    /// The view of a part of the screen, where `all` is what is fitted into it.
    pub fn new(zoom: Zoom, frame: Rect, all: kurbo::Rect) -> Self {
        match zoom {
            Zoom::Fit => Self::fitting(frame, all),
            Zoom::Free(middle, scale) => Self {
                frame,
                middle,
                scale,
            },
        }
    }

    fn fitting(frame: Rect, all: kurbo::Rect) -> Self {
        // A very small frame gives up its margin sooner than its blank.
        let margin = FIT_MARGIN.min(frame.size().min_elem() / 8.0);
        let room = frame.shrink(margin).size();
        let scale = (f64::from(room.x) / all.width()).min(f64::from(room.y) / all.height());
        Self {
            frame,
            middle: all.center(),
            scale: within_scales(scale),
        }
    }

    /// The same view, held where it is.
    pub fn held(&self) -> Zoom {
        Zoom::Free(self.middle, self.scale)
    }

    /// The screen point of a place on the blank.
    pub fn screen(&self, at: Point) -> Pos2 {
        let by = (at - self.middle) * self.scale;
        let center = self.frame.center();
        pos2(
            (f64::from(center.x) + by.x) as f32,
            (f64::from(center.y) - by.y) as f32,
        )
    }

    /// The place on the blank at a screen point.
    pub fn blank(&self, at: Pos2) -> Point {
        self.middle + self.way(at - self.frame.center())
    }

    /// A length on the blank as a length on the screen.
    pub fn length(&self, mm: f64) -> f32 {
        (mm * self.scale) as f32
    }

    /// A length on the screen as a length on the blank, mm.
    pub fn mm(&self, length: f32) -> f64 {
        f64::from(length) / self.scale
    }

    /// The view after its content is dragged over the screen.
    pub fn dragged(self, by: Vec2) -> Self {
        Self {
            middle: self.middle - self.way(by),
            ..self
        }
    }

    /// The view enlarged by a factor, with what is under `at` staying where it is.
    pub fn zoomed(self, at: Pos2, factor: f64) -> Self {
        let fixed = self.blank(at);
        let scale = within_scales(self.scale * factor);
        Self {
            middle: fixed + (self.middle - fixed) * (self.scale / scale),
            scale,
            ..self
        }
    }

    /// A way over the screen as a way over the blank.
    fn way(&self, by: Vec2) -> kurbo::Vec2 {
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
        assert_near!(f64::from(camera.length(1400.0)), 724.0, 1e-3);
    }

    #[test]
    fn there_and_back_is_the_same_place() {
        let held = Zoom::Free(Point::new(312.5, -40.25), 3.75);
        for camera in [fitted(), Camera::new(held, FRAME, SLAB)] {
            for place in [(0.0, 0.0), (512.3, 77.7), (-20.0, 900.0)] {
                let place = Point::from(place);
                assert_near!(camera.blank(camera.screen(place)), place, 1e-3);
            }
            assert_near!(camera.mm(camera.length(123.0)), 123.0, 1e-4);
        }
    }

    #[test]
    fn zooming_keeps_the_place_under_the_pointer() {
        let at = pos2(123.0, 456.0);
        let before = fitted().blank(at);
        for factor in [1.3, 0.5, 1e9, 1e-9] {
            let zoomed = fitted().zoomed(at, factor);
            assert_near!(zoomed.blank(at), before, 1e-9);
            assert!((SCALES.0..=SCALES.1).contains(&zoomed.scale));
        }
    }

    #[test]
    fn dragging_takes_the_blank_along_and_a_held_view_stays() {
        let (from, by) = (pos2(200.0, 200.0), vec2(31.0, -17.0));
        let dragged = fitted().dragged(by);
        assert_near!(dragged.blank(from + by), fitted().blank(from), 1e-9);
        let wider = kurbo::Rect::new(-500.0, 0.0, 3000.0, 900.0);
        assert_eq!(Camera::new(dragged.held(), FRAME, wider), dragged);
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
