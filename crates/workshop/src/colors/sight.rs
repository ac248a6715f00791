//! Differences between colors: contrast, distance, and how colors look to people who lack one kind of cone.
//!
//! Contrast is that of W3C WCAG 2; distance is CIEDE2000 (CIE 142-2001), by crate `palette`. Sight without the long or the
//! middle cones is simulated after Viénot, Brettel and Mollon ("Digital video colourmaps for checking the legibility of
//! displays by dichromats", 1999); sight without the short cones, which that paper leaves out, after Machado, Oliveira and
//! Fernandes (2009).

use board::Rgb;
use palette::color_difference::Ciede2000;
use palette::white_point::D65;
use palette::{FromColor, Lab, LinSrgb, Srgb};

/// The contrast that a mark needs against its background: W3C WCAG 2.2, criterion 1.4.11.
pub const LEAST_CONTRAST: f64 = 3.0;
/// The distance in CIEDE2000 below which two colors are too alike to tell apart across a table, whether side by side or not;
/// our own choice, about four times what a practiced eye just notices side by side (2.3; from memory).
pub const ALIKE: f64 = 9.0;
/// The distance in CIEDE2000 below which two colors look the same to most people; from memory.
pub const SAME: f64 = 2.3;

/// A kind of color vision.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sight {
    /// All three kinds of cones.
    Normal,
    /// No cones for long waves: protanopia.
    Protan,
    /// No cones for middle waves: deuteranopia.
    Deutan,
    /// No cones for short waves: tritanopia.
    Tritan,
}

impl Sight {
    /// Every kind, normal sight first.
    pub const ALL: [Self; 4] = [Self::Normal, Self::Protan, Self::Deutan, Self::Tritan];

    /// Its name, as used after "to" or "for".
    pub const fn label(self) -> &'static str {
        match self {
            Self::Normal => "any eye",
            Self::Protan => "red-blind eyes (protan)",
            Self::Deutan => "green-blind eyes (deutan)",
            Self::Tritan => "blue-blind eyes (tritan)",
        }
    }

    /// The matrix from linear red, green and blue to those seen, by rows. The last digits are rounded so that white stays
    /// white.
    ///
    /// The matrices are those of the two papers named at the top of this file.
    const fn matrix(self) -> [[f64; 3]; 3] {
        match self {
            Self::Normal => [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
            Self::Protan => [
                [0.112_383, 0.887_617, 0.0],
                [0.112_383, 0.887_617, 0.0],
                [0.004_006, -0.004_006, 1.0],
            ],
            Self::Deutan => [
                [0.292_750, 0.707_250, 0.0],
                [0.292_750, 0.707_250, 0.0],
                [-0.022_336, 0.022_336, 1.0],
            ],
            Self::Tritan => [
                [1.255_528, -0.076_749, -0.178_779],
                [-0.078_411, 0.930_809, 0.147_602],
                [0.004_733, 0.691_367, 0.303_900],
            ],
        }
    }
}

/// The color that looks to normal sight as this one does to another kind of sight; clipped to sRGB.
///
/// ```
/// use board::Rgb;
/// use workshop::{Sight, seen_by};
/// // Red and green are both a dark yellow without the middle cones.
/// let red = seen_by(Rgb::new(255, 0, 0), Sight::Deutan);
/// assert!(red.red == red.green && red.blue < 20);
/// assert_eq!(seen_by(Rgb::WHITE, Sight::Protan), Rgb::WHITE);
/// ```
pub fn seen_by(color: Rgb, sight: Sight) -> Rgb {
    if sight == Sight::Normal {
        return color;
    }
    let light = linear(color);
    let seen = sight.matrix().map(|row| {
        let parts = row.iter().zip(light);
        parts.map(|(share, part)| share * part).sum::<f64>()
    });
    of_linear(seen)
}

/// Contrast ratio of two colors, from 1 to 21 (WCAG 2.2, "contrast ratio").
///
/// ```
/// use board::Rgb;
/// assert!((workshop::contrast(Rgb::BLACK, Rgb::WHITE) - 21.0).abs() < 1e-9);
/// ```
pub fn contrast(one: Rgb, other: Rgb) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// Relative luminance of a color, from 0 to 1 (WCAG 2.2).
///
/// The weights of red, green and blue are those of sRGB; black is 0 and white is 1.
pub fn luminance(color: Rgb) -> f64 {
    let [red, green, blue] = linear(color);
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

/// Distance of two colors in CIEDE2000 for normal sight.
///
/// ```
/// use board::Rgb;
/// let [one, other] = [Rgb::new(200, 30, 30), Rgb::new(30, 140, 30)];
/// assert_eq!(workshop::color_distance(one, other), workshop::color_distance(other, one));
/// ```
pub fn color_distance(one: Rgb, other: Rgb) -> f64 {
    lab(one).difference(lab(other))
}

/// Distance of two colors in CIEDE2000 for a kind of sight.
///
/// Both colors are first converted to what that sight sees, and then compared as for normal sight.
pub fn distance_to(sight: Sight, one: Rgb, other: Rgb) -> f64 {
    color_distance(seen_by(one, sight), seen_by(other, sight))
}

/// A color as each kind of sight sees it, for comparison with many others.
///
/// The conversion is done once per color and not again for each pair.
pub struct Seen([Lab<D65, f64>; 4]);

impl Seen {
    /// The color for each kind of sight.
    pub fn of(color: Rgb) -> Self {
        Self(Sight::ALL.map(|sight| lab(seen_by(color, sight))))
    }

    /// Distance from another color in CIEDE2000 for a kind of sight.
    pub fn distance(&self, other: &Self, sight: Sight) -> f64 {
        let place = Sight::ALL.iter().position(|one| *one == sight);
        let pair = place.and_then(|at| Some((self.0.get(at)?, other.0.get(at)?)));
        pair.map_or(0.0, |(one, other)| one.difference(*other))
    }
}

/// The common name of a color: the nearest of the named colors in CIEDE2000.
///
/// ```
/// use board::Rgb;
/// assert_eq!(workshop::color_name(Rgb::new(0x15, 0x4f, 0x24)), "dark green");
/// ```
pub fn color_name(color: Rgb) -> &'static str {
    let distance = |(_, named): &&(&str, Rgb)| color_distance(color, *named);
    let nearest = board::NAMED
        .iter()
        .min_by(|one, other| distance(one).total_cmp(&distance(other)));
    nearest.map_or("", |(name, _)| name)
}

/// Red, green and blue in proportion to the amount of light.
pub(super) fn linear(color: Rgb) -> [f64; 3] {
    let light: LinSrgb<f64> = encoded(color).into_linear();
    [light.red, light.green, light.blue]
}

/// The color of an amount of light; clipped to sRGB.
pub(super) fn of_linear(light: [f64; 3]) -> Rgb {
    let [red, green, blue] = light.map(|part| part.clamp(0.0, 1.0));
    let encoded: Srgb<f64> = Srgb::from_linear(LinSrgb::new(red, green, blue));
    let [red, green, blue] =
        [encoded.red, encoded.green, encoded.blue].map(|part| (part * 255.0).round() as u8);
    Rgb::new(red, green, blue)
}

/// The color as the library's type.
fn encoded(color: Rgb) -> Srgb<f64> {
    let [red, green, blue] = color.shares();
    Srgb::new(red, green, blue)
}

/// The color in CIELAB, relative to the white of sRGB.
fn lab(color: Rgb) -> Lab<D65, f64> {
    Lab::from_color(encoded(color))
}

#[cfg(test)]
mod tests;
