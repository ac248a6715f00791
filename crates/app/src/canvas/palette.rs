//! Every color of the canvas, for light and for dark windows.

use crate::contrast::contrast;
use egui::{Color32, Visuals, lerp};

/// The players' colors, in order: the Okabe–Ito set of eight ("Color Universal Design", 2008),
/// chosen so that the color-blind tell them apart. After the eighth they come again with another mark.
const PLAYERS: [Color32; 8] = [
    Color32::from_rgb(0xE6, 0x9F, 0x00),
    Color32::from_rgb(0x56, 0xB4, 0xE9),
    Color32::from_rgb(0x00, 0x9E, 0x73),
    Color32::from_rgb(0xF0, 0xE4, 0x42),
    Color32::from_rgb(0x00, 0x72, 0xB2),
    Color32::from_rgb(0xD5, 0x5E, 0x00),
    Color32::from_rgb(0xCC, 0x79, 0xA7),
    Color32::from_rgb(0x00, 0x00, 0x00),
];

/// How much of a dimmed board is left.
const DIMMED: f32 = 0.35;

/// The colors of one theme; light falls from the upper left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Palette {
    /// What the board lies on.
    pub ground: Color32,
    /// Words and bars on the ground.
    pub ink: Color32,
    /// The flat of the board: toward the light, in the middle, away from it.
    pub flat: [Color32; 3],
    /// The turn of the roundover: toward the light, and away from it.
    pub turn: [Color32; 2],
    /// The board's edge, and crosses on plain wood.
    pub edge: Color32,
    /// The line where the roundover begins.
    pub shoulder: Color32,
    /// The dark side of a growth ring; most of it lets the wood through.
    pub grain: Color32,
    /// The shadow that the board casts, at its darkest.
    pub shadow: Color32,
    /// Axes and radius circles.
    pub guide: Color32,
    /// Seams, mortises, screws from below.
    pub seam: Color32,
    /// The line from space to space.
    pub path: Color32,
    /// The sides of grooves.
    pub groove: Color32,
    /// The bottom of grooves.
    pub valley: Color32,
    /// The wall of a bore, in shadow.
    pub well: Color32,
    /// The floor of a bore.
    pub floor: Color32,
    /// The arris of a bore that catches the light.
    pub lip: Color32,
    /// The pilot within a center hole.
    pub pilot: Color32,
    /// Names and crosses within a bore.
    pub name: Color32,
    /// The thin line around players' colors.
    pub casing: Color32,
    /// Holes that a finding is about.
    pub lit: Color32,
    /// The glow around them.
    pub halo: Color32,
    /// The selected hole.
    pub selected: Color32,
    /// What sets rings off from whatever lies below.
    pub contrast: Color32,
    /// The hole under the pointer.
    pub hover: Color32,
    /// Outlines of sheets.
    pub sheet: Color32,
    /// What words over the board stand on.
    pub chip: Color32,
    /// The players' colors.
    players: [Color32; 8],
}

impl Palette {
    /// The colors that go with a window's look.
    pub fn of(visuals: &Visuals, dimmed: bool) -> Self {
        let full = if visuals.dark_mode { DARK } else { LIGHT };
        let full = Self {
            ground: visuals.panel_fill,
            ..full
        };
        if dimmed { full.dimmed() } else { full }
    }

    /// The color of a player, counted from 1.
    pub fn player(&self, player: u32) -> Color32 {
        let place = player.saturating_sub(1) as usize % self.players.len();
        self.players.get(place).copied().unwrap_or(self.ink)
    }

    /// Black or white, whichever is read better on a color.
    pub fn on(color: Color32) -> Color32 {
        let [black, white] = [Color32::BLACK, Color32::WHITE];
        if contrast(black, color) >= contrast(white, color) {
            black
        } else {
            white
        }
    }

    /// All colors drawn back into the ground, so that what overlaps stays in order.
    fn dimmed(self) -> Self {
        let back = |color| mix(self.ground, color, DIMMED);
        // What lets other colors through keeps its color and lets more through.
        let thin = |color: Color32| color.gamma_multiply(DIMMED);
        Self {
            ground: self.ground,
            ink: back(self.ink),
            flat: self.flat.map(back),
            turn: self.turn.map(back),
            edge: back(self.edge),
            shoulder: thin(self.shoulder),
            grain: thin(self.grain),
            shadow: thin(self.shadow),
            guide: thin(self.guide),
            seam: thin(self.seam),
            path: thin(self.path),
            groove: back(self.groove),
            valley: back(self.valley),
            well: back(self.well),
            floor: back(self.floor),
            lip: back(self.lip),
            pilot: back(self.pilot),
            name: back(self.name),
            casing: back(self.casing),
            lit: back(self.lit),
            halo: thin(self.halo),
            selected: back(self.selected),
            contrast: thin(self.contrast),
            hover: thin(self.hover),
            sheet: back(self.sheet),
            chip: self.chip,
            players: self.players.map(back),
        }
    }
}

/// A color between two.
pub fn mix(from: Color32, to: Color32, share: f32) -> Color32 {
    let (from, to) = (from.to_array(), to.to_array());
    let [r, g, b, a] = [0, 1, 2, 3].map(|channel: usize| {
        let ends = f32::from(from[channel])..=f32::from(to[channel]);
        lerp(ends, share).round() as u8
    });
    Color32::from_rgba_premultiplied(r, g, b, a)
}

/// A maple board on a light bench.
const LIGHT: Palette = Palette {
    ground: Color32::from_rgb(0xF8, 0xF8, 0xF8),
    ink: Color32::from_rgb(0x33, 0x2B, 0x22),
    flat: [
        Color32::from_rgb(0xF0, 0xDA, 0xB2),
        Color32::from_rgb(0xEA, 0xD0, 0xA3),
        Color32::from_rgb(0xE0, 0xC2, 0x90),
    ],
    turn: [
        Color32::from_rgb(0xF4, 0xE3, 0xC2),
        Color32::from_rgb(0xA8, 0x7E, 0x4B),
    ],
    edge: Color32::from_rgb(0x7B, 0x58, 0x30),
    shoulder: Color32::from_rgba_unmultiplied_const(0x7B, 0x58, 0x30, 0x50),
    grain: Color32::from_rgba_unmultiplied_const(0xA8, 0x72, 0x32, 0x26),
    shadow: Color32::from_black_alpha(0x48),
    guide: Color32::from_rgba_unmultiplied_const(0x5A, 0x3E, 0x1E, 0x30),
    seam: Color32::from_rgba_unmultiplied_const(0x5A, 0x2A, 0x10, 0x90),
    path: Color32::from_rgba_unmultiplied_const(0x6B, 0x47, 0x20, 0x58),
    groove: Color32::from_rgb(0x6E, 0x47, 0x22),
    valley: Color32::from_rgb(0x3A, 0x24, 0x10),
    well: Color32::from_rgb(0x33, 0x22, 0x14),
    floor: Color32::from_rgb(0x5B, 0x41, 0x29),
    lip: Color32::from_rgb(0xFD, 0xF1, 0xDA),
    pilot: Color32::from_rgb(0x1C, 0x12, 0x0A),
    name: Color32::from_rgb(0xFB, 0xEF, 0xDC),
    casing: Color32::from_rgb(0x5A, 0x3E, 0x20),
    lit: Color32::from_rgb(0xC4, 0x00, 0x2F),
    halo: Color32::from_rgba_unmultiplied_const(0xE8, 0x10, 0x40, 0x60),
    selected: Color32::from_rgb(0x0B, 0x4F, 0xD6),
    contrast: Color32::from_rgb(0xFF, 0xFF, 0xFF),
    hover: Color32::from_rgb(0xFF, 0xFB, 0xF2),
    sheet: Color32::from_rgb(0x1D, 0x4F, 0x8C),
    chip: Color32::from_rgb(0xFA, 0xF7, 0xF2),
    players: PLAYERS,
};

/// A cherry board on a dark bench.
const DARK: Palette = Palette {
    ground: Color32::from_rgb(0x1B, 0x1B, 0x1B),
    ink: Color32::from_rgb(0xE6, 0xDC, 0xCE),
    flat: [
        Color32::from_rgb(0xA8, 0x79, 0x4E),
        Color32::from_rgb(0x9C, 0x6E, 0x45),
        Color32::from_rgb(0x8A, 0x5F, 0x3A),
    ],
    turn: [
        Color32::from_rgb(0xBE, 0x90, 0x62),
        Color32::from_rgb(0x53, 0x36, 0x1E),
    ],
    edge: Color32::from_rgb(0x2B, 0x1B, 0x0E),
    shoulder: Color32::from_rgba_unmultiplied_const(0x2B, 0x1B, 0x0E, 0x60),
    grain: Color32::from_rgba_unmultiplied_const(0x4A, 0x28, 0x0E, 0x34),
    shadow: Color32::from_black_alpha(0x90),
    guide: Color32::from_rgba_unmultiplied_const(0x20, 0x12, 0x06, 0x44),
    seam: Color32::from_rgba_unmultiplied_const(0x18, 0x0C, 0x04, 0xA0),
    path: Color32::from_rgba_unmultiplied_const(0x20, 0x12, 0x06, 0x70),
    groove: Color32::from_rgb(0x2C, 0x19, 0x0B),
    valley: Color32::from_rgb(0x0E, 0x08, 0x03),
    well: Color32::from_rgb(0x16, 0x0E, 0x07),
    floor: Color32::from_rgb(0x35, 0x22, 0x13),
    lip: Color32::from_rgb(0xD2, 0xA8, 0x7A),
    pilot: Color32::from_rgb(0x08, 0x05, 0x02),
    name: Color32::from_rgb(0xF6, 0xE8, 0xD4),
    casing: Color32::from_rgb(0x2B, 0x1B, 0x0E),
    lit: Color32::from_rgb(0xFF, 0x4D, 0x6A),
    halo: Color32::from_rgba_unmultiplied_const(0xFF, 0x30, 0x55, 0x70),
    selected: Color32::from_rgb(0x9C, 0xD0, 0xFF),
    contrast: Color32::from_rgb(0x12, 0x0B, 0x05),
    hover: Color32::from_rgb(0xFF, 0xF4, 0xE2),
    sheet: Color32::from_rgb(0xC6, 0xDD, 0xF8),
    chip: Color32::from_rgb(0x2A, 0x24, 0x1E),
    players: PLAYERS,
};

#[cfg(test)]
mod tests {
    use super::*;

    /// WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text.
    #[test]
    fn words_can_be_read_on_what_they_stand_on() {
        for palette in [LIGHT, DARK] {
            for (words, below) in [
                (palette.ink, palette.ground),
                (palette.ink, palette.chip),
                (palette.name, palette.well),
                (palette.name, palette.floor),
                (palette.sheet, palette.chip),
            ] {
                let ratio = contrast(words, below);
                assert!(ratio >= 4.5, "{words:?} on {below:?} is {ratio:.2}");
            }
        }
        for color in PLAYERS {
            assert!(contrast(Palette::on(color), color) >= 4.5, "{color:?}");
        }
    }

    /// WCAG 2.2, success criterion 1.4.11: 3 to 1 for marks that carry a meaning.
    #[test]
    fn marks_stand_out_from_their_casing() {
        for palette in [LIGHT, DARK] {
            for mark in [palette.lit, palette.selected] {
                assert!(contrast(mark, palette.contrast) >= 3.0, "{mark:?}");
            }
            for wood in palette.flat {
                let ratio = contrast(palette.groove, wood);
                assert!(ratio >= 3.0, "a groove on {wood:?} is {ratio:.2}");
            }
        }
    }

    #[test]
    fn dimmed_colors_lie_nearer_to_the_ground() {
        let visuals = Visuals::light();
        let (full, dim) = (Palette::of(&visuals, false), Palette::of(&visuals, true));
        assert_eq!(dim.ground, full.ground);
        assert!(contrast(dim.well, dim.ground) < contrast(full.well, full.ground) / 2.0);
    }

    #[test]
    fn the_ninth_player_has_the_first_ones_color() {
        assert_eq!(LIGHT.player(9), LIGHT.player(1));
        assert_ne!(LIGHT.player(8), LIGHT.player(1));
    }
}
