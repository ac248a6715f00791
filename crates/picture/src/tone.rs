//! Tones of light, as amounts of red, green and blue, and their conversion to the screen's bytes.
//!
//! Sums and means are of light, which is additive; the bytes of a screen are not proportional to it (IEC 61966-2-1). The
//! conversion back to bytes uses a table, since a root for every pixel would be slow and its last digit would differ from
//! machine to machine.

use core::ops::{Add, AddAssign, Mul};
use std::sync::LazyLock;

/// Red, green and blue light, in proportion to its energy; 1 is the light of a white page.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tone(pub [f32; 3]);

impl Tone {
    /// No light.
    pub const BLACK: Self = Self([0.0; 3]);
    /// A gray with this amount of light.
    pub const fn gray(light: f32) -> Self {
        Self([light; 3])
    }

    /// The light of a color in sRGB.
    pub fn of(color: [u8; 3]) -> Self {
        Self(color.map(|part| DECODED.get(usize::from(part)).copied().unwrap_or(0.0)))
    }

    /// The nearest color in sRGB.
    pub fn color(self) -> [u8; 3] {
        self.0.map(|part| {
            let place = (part.clamp(0.0, 1.0) * MOST as f32 + 0.5) as usize;
            ENCODED.get(place).copied().unwrap_or(255)
        })
    }

    /// A mixture with another tone, by the share of the other.
    pub fn mix(self, other: Self, share: f32) -> Self {
        let [a, b, c] = self.0;
        let [x, y, z] = other.0;
        Self([
            a + (x - a) * share,
            b + (y - b) * share,
            c + (z - c) * share,
        ])
    }

    /// The light that a surface of this tone reflects when lit by another.
    pub fn times(self, other: Self) -> Self {
        let [a, b, c] = self.0;
        let [x, y, z] = other.0;
        Self([a * x, b * y, c * z])
    }

    /// Its brightness, weighted for the eye.
    pub fn brightness(self) -> f32 {
        let [red, green, blue] = self.0;
        0.2126 * red + 0.7152 * green + 0.0722 * blue
    }
}

impl Add for Tone {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        let [a, b, c] = self.0;
        let [x, y, z] = other.0;
        Self([a + x, b + y, c + z])
    }
}

impl AddAssign for Tone {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Mul<f32> for Tone {
    type Output = Self;

    fn mul(self, by: f32) -> Self {
        Self(self.0.map(|part| part * by))
    }
}

/// Steps of light that have an sRGB byte in the table; fine enough to keep the darkest bytes apart.
const MOST: usize = 8191;

static ENCODED: LazyLock<Vec<u8>> = LazyLock::new(|| {
    let encode = |step: usize| {
        let light = step as f64 / MOST as f64;
        let part = if light <= 0.003_130_8 {
            12.92 * light
        } else {
            1.055 * libm::pow(light, 1.0 / 2.4) - 0.055
        };
        (part * 255.0 + 0.5) as u8
    };
    (0..=MOST).map(encode).collect()
});

static DECODED: LazyLock<Vec<f32>> = LazyLock::new(|| {
    let decode = |byte: u8| {
        let part = f64::from(byte) / 255.0;
        if part <= 0.040_45 {
            (part / 12.92) as f32
        } else {
            libm::pow((part + 0.055) / 1.055, 2.4) as f32
        }
    };
    (0..=255).map(decode).collect()
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_byte_converts_back_to_itself() {
        for byte in 0..=255 {
            assert_eq!(Tone::of([byte; 3]).color(), [byte; 3]);
        }
    }

    #[test]
    fn middle_gray_is_about_a_fifth_of_white() {
        // IEC 61966-2-1: byte 118 is 0.1812 of white.
        assert!((Tone::of([118; 3]).0[0] - 0.1812).abs() < 1e-3);
    }
}
