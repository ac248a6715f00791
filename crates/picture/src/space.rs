//! Points and ways in space: x to the right, y up to 12 o'clock, z out of the top face; mm.

use core::ops::{Add, Mul, Sub};

/// A point, or a way from one to another.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Space {
    /// To the right.
    pub x: f64,
    /// To 12 o'clock.
    pub y: f64,
    /// Out of the top face.
    pub z: f64,
}

/// A ray of sight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ray {
    /// Where it starts.
    pub from: Space,
    /// Where it goes, of length 1.
    pub way: Space,
}

impl Ray {
    /// The point so far along it, mm.
    pub fn at(self, far: f64) -> Space {
        self.from + self.way * far
    }

    /// Distance along it to a level height, mm; none where it runs level or away.
    pub fn to_level(self, height: f64) -> Option<f64> {
        let far = (height - self.from.z) / self.way.z;
        (far.is_finite() && far >= 0.0).then_some(far)
    }
}

impl Space {
    /// Straight up.
    pub const UP: Self = Self::new(0.0, 0.0, 1.0);

    /// Of its three parts.
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// Sum of the products of the parts.
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// The way square to two others.
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

    /// The same way with length 1; up where it has none.
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

    /// The way mirrored by a surface that looks along `out`.
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

/// 0 below a value, 1 above another, and eased between them.
pub fn eased(from: f64, to: f64, at: f64) -> f64 {
    let share = ((at - from) / (to - from)).clamp(0.0, 1.0);
    share * share * (3.0 - 2.0 * share)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mirror_gives_back_what_comes_straight_down() {
        let down = Space::UP * -1.0;
        assert_eq!(down.mirrored(Space::UP), Space::UP);
        let slant = Space::new(1.0, 0.0, -1.0).mirrored(Space::UP);
        assert_eq!(slant, Space::new(1.0, 0.0, 1.0));
    }

    #[test]
    fn a_ray_meets_a_level_height_or_does_not() {
        let ray = Ray {
            from: Space::new(0.0, 0.0, 10.0),
            way: Space::UP * -1.0,
        };
        assert_eq!(ray.to_level(4.0), Some(6.0));
        assert_eq!(ray.to_level(12.0), None);
    }
}
