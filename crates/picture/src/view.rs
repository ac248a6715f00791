//! Views of the board: straight from above, true to size, or from the side, as the board stands on a table.
//!
//! From above, a pixel has the same length everywhere, so that sizes can be measured in the picture. In perspective the eye is
//! so far away that the far rim is not much smaller than the near one, as in a photograph with a long lens. The board is fitted
//! into its area by the corners that its faces have in the picture.

use geometry::Angle;

use crate::space::{Ray, Space};

/// A way of looking at the board.
///
/// ```
/// use geometry::Angle;
/// use picture::View;
/// let low = View::Perspective { turn: Angle::ZERO, tilt: Angle::degrees(15.0) };
/// assert_ne!(low, View::PERSPECTIVE);
/// assert!((View::TILTS.0..View::TILTS.1).contains(&15.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum View {
    /// Straight from above, the whole board to one scale.
    Above,
    /// In perspective.
    Perspective {
        /// Rotation of the board, clockwise; at 0 its 12 o'clock is far.
        turn: Angle,
        /// Elevation of the eye above the table: 0 is level with it, 90 degrees straight above.
        tilt: Angle,
    },
}

impl View {
    /// The usual perspective.
    pub const PERSPECTIVE: Self = Self::Perspective {
        turn: Angle::degrees(-14.0),
        tilt: Angle::degrees(38.0),
    };

    /// Least and greatest elevation, degrees: lower down the board is an edge, higher up it is seen from above.
    pub const TILTS: (f64, f64) = (12.0, 80.0);
}

/// A rectangle of a picture, in pixels from its upper left corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left edge.
    pub x: f64,
    /// Upper edge.
    pub y: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// The camera of a picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    /// The eye point; none from above, where all rays are parallel.
    eye: Option<Space>,
    /// The direction to the right in the picture.
    right: Space,
    /// The direction up in the picture.
    up: Space,
    /// The direction into the picture.
    ahead: Space,
    /// The size of a pixel: mm from above, otherwise as a share of the distance.
    pixel: f64,
    /// The pixel whose ray runs along `ahead`.
    middle: (f64, f64),
}

/// Distance of the eye, in diameters of the board: far enough that the board does not look distorted.
const FAR: f64 = 2.6;

impl Camera {
    /// The camera for a board of a radius, with its lowest and highest heights, fitted into an area.
    pub fn fitted(view: View, radius: f64, (low, high): (f64, f64), area: Area) -> Self {
        match view {
            View::Above => Self {
                eye: None,
                right: Space::new(1.0, 0.0, 0.0),
                up: Space::new(0.0, 1.0, 0.0),
                ahead: Space::UP * -1.0,
                pixel: 2.0 * radius / area.width.min(area.height),
                middle: (area.x + area.width / 2.0, area.y + area.height / 2.0),
            },
            View::Perspective { turn, tilt } => {
                Self::standing((turn, tilt), radius, (low, high), area)
            }
        }
    }

    /// The camera for a view from the side; its scale follows from the corners that the board has in the picture.
    fn standing(
        (turn, tilt): (Angle, Angle),
        radius: f64,
        heights: (f64, f64),
        area: Area,
    ) -> Self {
        let ((across, along), (rise, level)) = (turn.sin_cos(), tilt.sin_cos());
        let back = Space::new(-across * level, -along * level, rise);
        let right = Space::new(along, -across, 0.0);
        let mut camera = Self {
            eye: Some(back * (FAR * 2.0 * radius)),
            right,
            up: back.cross(right),
            ahead: back * -1.0,
            pixel: 1.0,
            middle: (0.0, 0.0),
        };
        let ((left, top), (end, bottom)) = camera.bounds(radius, heights);
        let pixel = ((end - left) / area.width).max((bottom - top) / area.height);
        camera.pixel = pixel;
        camera.middle = (
            area.x + area.width / 2.0 - f64::midpoint(left, end) / pixel,
            area.y + area.height / 2.0 - f64::midpoint(top, bottom) / pixel,
        );
        camera
    }

    /// Upper left and lower right corner of the board in the picture.
    fn bounds(&self, radius: f64, (low, high): (f64, f64)) -> ((f64, f64), (f64, f64)) {
        let (mut least, mut most) = ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN));
        for step in 0..72 {
            let (sin, cos) = Angle::turn_part(step, 72).sin_cos();
            for (share, height) in [(1.0, low), (0.93, high)] {
                let rim = Space::new(sin * radius * share, cos * radius * share, height);
                let (x, y) = self.pixel_of(rim);
                least = (least.0.min(x), least.1.min(y));
                most = (most.0.max(x), most.1.max(y));
            }
        }
        (least, most)
    }

    /// The pixel in which a point is seen, from the left and from the top, with fractions.
    ///
    /// It is the inverse of [`Self::ray`].
    pub fn pixel_of(&self, place: Space) -> (f64, f64) {
        let (way, scale) = match self.eye {
            None => (place, 1.0),
            Some(eye) => {
                let way = place - eye;
                (way, way.dot(self.ahead).max(1.0))
            }
        };
        let scale = scale * self.pixel;
        (
            self.middle.0 + way.dot(self.right) / scale,
            self.middle.1 - way.dot(self.up) / scale,
        )
    }

    /// The ray through a point of the picture; from above it starts at a height.
    pub fn ray(&self, x: f64, y: f64, height: f64) -> Ray {
        let (x, y) = (
            (x - self.middle.0) * self.pixel,
            (self.middle.1 - y) * self.pixel,
        );
        let aside = self.right * x + self.up * y;
        match self.eye {
            None => Ray {
                from: aside + Space::UP * height,
                way: self.ahead,
            },
            Some(eye) => Ray {
                from: eye,
                way: (self.ahead + aside).unit(),
            },
        }
    }

    /// The size of a pixel at a distance from the eye, mm.
    pub fn covers(&self, far: f64) -> f64 {
        if self.eye.is_some() {
            self.pixel * far
        } else {
            self.pixel
        }
    }

    /// The directions to the right and up in the picture, from which the direction of the light follows.
    pub const fn sides(&self) -> (Space, Space) {
        (self.right, self.up)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    const AREA: Area = Area {
        x: 100.0,
        y: 50.0,
        width: 400.0,
        height: 300.0,
    };

    #[test]
    fn a_ray_through_the_pixel_of_a_place_meets_it() {
        for view in [View::Above, View::PERSPECTIVE] {
            let camera = Camera::fitted(view, 200.0, (-20.0, 10.0), AREA);
            let place = Space::new(60.0, -110.0, 0.0);
            let (x, y) = camera.pixel_of(place);
            let ray = camera.ray(x, y, 100.0);
            let met = ray.at(ray.to_level(0.0).unwrap());
            assert_near!(met.x, place.x, 1e-6);
            assert_near!(met.y, place.y, 1e-6);
        }
    }

    #[test]
    fn the_board_fills_its_area_and_stays_inside() {
        let camera = Camera::fitted(View::PERSPECTIVE, 200.0, (-20.0, 10.0), AREA);
        let ((left, top), (end, bottom)) = camera.bounds(200.0, (-20.0, 10.0));
        let (x, y) = camera.middle;
        let pixel = 1.0;
        assert!(left * pixel >= AREA.x - 1e-6 && end <= AREA.x + AREA.width + 1e-6);
        assert!(top >= AREA.y - 1e-6 && bottom <= AREA.y + AREA.height + 1e-6);
        assert!(x > left && x < end && y > top && y < bottom);
    }
}
