//! Points and vectors in space, in mm: x to the right, y to 12 o'clock, z up from the top face.

use core::ops::{Add, Mul, Sub};

/// A point or a vector.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Space {
    /// x, to the right.
    pub x: f64,
    /// y, to 12 o'clock.
    pub y: f64,
    /// z, up from the top face.
    pub z: f64,
}

/// A view ray.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ray {
    /// The starting point.
    pub from: Space,
    /// The direction, a unit vector.
    pub way: Space,
}

impl Ray {
    /// The point at a distance along it, mm.
    pub fn at(self, far: f64) -> Space {
        self.from + self.way * far
    }

    /// Distance along it to the horizontal plane at a height, mm; `None` if it is parallel to the plane or leads away from it.
    pub fn to_level(self, height: f64) -> Option<f64> {
        let far = (height - self.from.z) / self.way.z;
        (far.is_finite() && far >= 0.0).then_some(far)
    }
}

impl Space {
    /// The unit vector straight up.
    pub const UP: Self = Self::new(0.0, 0.0, 1.0);

    /// A point or vector from its three coordinates.
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// The dot product.
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// The cross product.
    pub fn cross(self, other: Self) -> Self {
        Self::new(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )
    }

    /// Its length.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The unit vector in the same direction; straight up for a vector of length 0.
    pub fn unit(self) -> Self {
        let length = self.length();
        if length > 0.0 {
            self * (1.0 / length)
        } else {
            Self::UP
        }
    }

    /// Distance from the axis of the center pin.
    pub fn across(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// The direction after reflection by a surface whose normal is `out`.
    pub fn mirrored(self, out: Self) -> Self {
        self - out * (2.0 * self.dot(out))
    }
}

impl Add for Space {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y, self.z + other.z)
    }
}

impl Sub for Space {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y, self.z - other.z)
    }
}

impl Mul<f64> for Space {
    type Output = Self;

    fn mul(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by, self.z * by)
    }
}

/// The fifth power.
pub fn fifth(base: f64) -> f64 {
    let square = base * base;
    square * square * base
}

/// 0 up to `from`, 1 from `to` on, with a smooth step between.
pub fn eased(from: f64, to: f64, at: f64) -> f64 {
    let share = ((at - from) / (to - from)).clamp(0.0, 1.0);
    share * share * (3.0 - 2.0 * share)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ray_straight_down_is_reflected_straight_up() {
        let down = Space::UP * -1.0;
        assert_eq!(down.mirrored(Space::UP), Space::UP);
        let slant = Space::new(1.0, 0.0, -1.0).mirrored(Space::UP);
        assert_eq!(slant, Space::new(1.0, 0.0, 1.0));
    }

    #[test]
    fn a_ray_meets_a_horizontal_plane_ahead_of_it_only() {
        let ray = Ray {
            from: Space::new(0.0, 0.0, 10.0),
            way: Space::UP * -1.0,
        };
        assert_eq!(ray.to_level(4.0), Some(6.0));
        assert_eq!(ray.to_level(12.0), None);
    }
}
