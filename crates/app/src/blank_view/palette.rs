//! Every color of the blank, for light and for dark windows.

use board::FlawKind;
use egui::{Color32, Visuals};

/// The colors of one theme.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Palette {
    /// The wood.
    pub wood: Color32,
    /// Lines of the grain; most of it lets the wood through.
    pub grain: Color32,
    /// Edges of the blank and of the board, and everything that is drawn on the wood with a pencil.
    pub line: Color32,
    /// What the board is laid over the wood with.
    pub board: Color32,
    /// Fill and hatching of knots, cracks and sapwood.
    flaws: [(Color32, Color32); 3],
    /// Bores.
    pub bore: Color32,
    /// The largest disc, half disc or strips that the blank gives.
    pub most: Color32,
    /// A board that does not fit.
    pub stop: Color32,
    /// What sets lines off from whatever lies below.
    pub casing: Color32,
    /// What can be dragged and is under the pointer.
    pub hot: Color32,
    /// What sets that off.
    pub hot_casing: Color32,
    /// The inside of handles and of the center pin.
    pub handle: Color32,
    /// What words stand on.
    pub chip: Color32,
    /// Words.
    pub ink: Color32,
}

impl Palette {
    /// The colors that go with a window's look.
    pub const fn of(visuals: &Visuals) -> Self {
        if visuals.dark_mode { DARK } else { LIGHT }
    }

    /// Fill and hatching of a kind of flaw.
    pub const fn flaw(&self, kind: FlawKind) -> (Color32, Color32) {
        let [knot, crack, sapwood] = self.flaws;
        match kind {
            FlawKind::Knot => knot,
            FlawKind::Crack => crack,
            FlawKind::Sapwood => sapwood,
        }
    }
}

const fn rgb(hex: u32) -> Color32 {
    Color32::from_rgb((hex >> 16) as u8, (hex >> 8) as u8, hex as u8)
}

/// A maple slab on a light bench.
const LIGHT: Palette = Palette {
    wood: rgb(0x00EC_D6AE),
    grain: Color32::from_rgba_unmultiplied_const(0x9C, 0x66, 0x2A, 0x40),
    line: rgb(0x0050_3618),
    board: Color32::from_rgba_unmultiplied_const(0xFF, 0xFB, 0xF0, 0x78),
    flaws: [
        (rgb(0x00A6_723F), rgb(0x003A_200A)),
        (rgb(0x00CD_B592), rgb(0x0030_2010)),
        (rgb(0x00FF_F8E4), rgb(0x008A_6A30)),
    ],
    bore: rgb(0x0046_301C),
    most: rgb(0x000B_4FD6),
    stop: rgb(0x00C4_002F),
    casing: rgb(0x00FF_FFFF),
    hot: rgb(0x00FF_FBF2),
    hot_casing: rgb(0x005A_3E20),
    handle: rgb(0x00FF_FFFF),
    chip: rgb(0x00FA_F7F2),
    ink: rgb(0x0033_2B22),
};

/// A cherry slab on a dark bench.
const DARK: Palette = Palette {
    wood: rgb(0x009C_6E45),
    grain: Color32::from_rgba_unmultiplied_const(0x4A, 0x28, 0x0E, 0x58),
    line: rgb(0x0020_1206),
    board: Color32::from_rgba_unmultiplied_const(0xE6, 0xB8, 0x86, 0x60),
    flaws: [
        (rgb(0x004A_2C14), rgb(0x00B9_8A5C)),
        (rgb(0x0086_6444), rgb(0x0014_0B04)),
        (rgb(0x00D8_BC92), rgb(0x005E_3F1C)),
    ],
    bore: rgb(0x001C_1109),
    most: rgb(0x009C_D0FF),
    stop: rgb(0x00FF_6B80),
    casing: rgb(0x0012_0B05),
    hot: rgb(0x00FF_F4E2),
    hot_casing: rgb(0x002B_1B0E),
    handle: rgb(0x00E9_D6BE),
    chip: rgb(0x002A_241E),
    ink: rgb(0x00E6_DCCE),
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::contrast::contrast;

    /// WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text.
    #[test]
    fn words_can_be_read_on_their_plates() {
        for palette in [LIGHT, DARK] {
            for words in [palette.ink, palette.most, palette.stop] {
                let ratio = contrast(words, palette.chip);
                assert!(ratio >= 4.5, "{words:?} is {ratio:.2}");
            }
        }
    }

    /// WCAG 2.2, success criterion 1.4.11: 3 to 1 for marks that carry a meaning.
    #[test]
    fn marks_stand_out_from_what_is_around_them() {
        for palette in [LIGHT, DARK] {
            let hatched = FlawKind::ALL.map(|kind| palette.flaw(kind));
            let marks = [
                (palette.line, palette.wood),
                (palette.line, palette.handle),
                (palette.ink, palette.casing),
                (palette.bore, palette.wood),
                (palette.most, palette.casing),
                (palette.stop, palette.casing),
                (palette.hot, palette.hot_casing),
            ];
            for (mark, below) in marks
                .into_iter()
                .chain(hatched.map(|(fill, hatch)| (hatch, fill)))
            {
                let ratio = contrast(mark, below);
                assert!(ratio >= 3.0, "{mark:?} on {below:?} is {ratio:.2}");
            }
        }
    }
}
