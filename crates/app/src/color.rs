//! Colors as numbers: written, mixed, and compared by the contrast ratio of W3C WCAG 2.

use egui::{Color32, lerp};

/// An opaque color from 0xRRGGBB.
pub const fn rgb(hex: u32) -> Color32 {
    Color32::from_rgb((hex >> 16) as u8, (hex >> 8) as u8, hex as u8)
}

/// A color of the document as the window paints it.
pub const fn screen(color: board::Rgb) -> Color32 {
    Color32::from_rgb(color.red, color.green, color.blue)
}

/// A color from 0xRRGGBB with an opacity from 0 to 255.
pub const fn veil(hex: u32, cover: u8) -> Color32 {
    Color32::from_rgba_unmultiplied_const((hex >> 16) as u8, (hex >> 8) as u8, hex as u8, cover)
}

/// A color between two, `share` of the way from the first to the second.
pub fn mix(from: Color32, to: Color32, share: f32) -> Color32 {
    let (from, to) = (from.to_array(), to.to_array());
    let [r, g, b, a] = [0, 1, 2, 3].map(|channel: usize| {
        let ends = f32::from(from[channel])..=f32::from(to[channel]);
        lerp(ends, share).round() as u8
    });
    Color32::from_rgba_premultiplied(r, g, b, a)
}

/// Black or white, whichever has more contrast on a color.
pub fn ink_on(color: Color32) -> Color32 {
    let [black, white] = [Color32::BLACK, Color32::WHITE];
    if contrast(black, color) >= contrast(white, color) {
        black
    } else {
        white
    }
}

/// Contrast ratio of two opaque colors, from 1 to 21 (WCAG 2.2, "contrast ratio").
pub fn contrast(one: Color32, other: Color32) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// Relative luminance of an opaque color, 0 to 1 (WCAG 2.2, "relative luminance").
fn luminance(color: Color32) -> f64 {
    let [r, g, b, _] = color.to_array().map(|channel| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.040_45 {
            share / 12.92
        } else {
            libm::pow((share + 0.055) / 1.055, 2.4)
        }
    });
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    /// Ratios that pages on WCAG print as examples (21, 8.59, 2.15); those of the two grays are computed from the formula of WCAG 2.
    #[test]
    fn contrast_ratios_are_those_that_pages_print() {
        let gray = |level| Color32::from_rgb(level, level, level);
        assert_near!(contrast(Color32::WHITE, Color32::BLACK), 21.0, 1e-9);
        assert_near!(contrast(Color32::RED, Color32::RED), 1.0, 1e-12);
        assert_near!(contrast(Color32::BLUE, Color32::WHITE), 8.59, 0.005);
        assert_near!(contrast(Color32::BLUE, Color32::RED), 2.15, 0.005);
        assert_near!(contrast(gray(0x77), Color32::WHITE), 4.478, 0.001);
        assert_near!(contrast(gray(0x76), Color32::WHITE), 4.542, 0.001);
    }
}
