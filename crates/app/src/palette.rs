//! Every color of drawings, by its role, for light and for dark windows.

use board::FlawKind;
use egui::{Color32, Visuals};
use workshop::{PlayerLook, Workpiece};

use crate::color::{contrast, mix, rgb, screen, veil};
use crate::theme;

/// Players that a board can have.
const MOST_PLAYERS: usize = 24;

/// The part of a dimmed picture that is left.
const DIMMED: f32 = 0.35;

/// Makes [`Palette`] of two tables: a row for each role, with its color by day and by night.
macro_rules! roles {
    (
        window { $($(#[$doc:meta])* $role:ident: $light:expr, $dark:expr;)* }
        wood { $($(#[$wood_doc:meta])* $wood:ident: $wood_light:expr, $wood_dark:expr;)* }
    ) => {
        /// The colors of one theme; light falls from the upper left.
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct Palette {
            $($(#[$doc])* pub $role: Color32,)*
            $($(#[$wood_doc])* pub $wood: Color32,)*
            players: [Color32; MOST_PLAYERS],
        }

        /// Maple on a light bench.
        const LIGHT: Palette = Palette {
            $($role: $light,)*
            $($wood: $wood_light,)*
            players: [rgb(0); MOST_PLAYERS],
        };

        /// Cherry on a dark bench.
        const DARK: Palette = Palette {
            $($role: $dark,)*
            $($wood: $wood_dark,)*
            players: [rgb(0); MOST_PLAYERS],
        };

        impl Palette {
            /// Every color changed in the same way.
            fn map(self, change: impl Fn(Color32) -> Color32) -> Self {
                Self {
                    $($role: change(self.$role),)*
                    $($wood: change(self.$wood),)*
                    players: self.players.map(&change),
                }
            }

            /// The wood of another palette and all that lies in it or is drawn on it; marks keep the colors that go with the window's
            /// words.
            const fn on_wood_as_in(self, other: Self) -> Self {
                Self {
                    $($wood: other.$wood,)*
                    ..self
                }
            }
        }
    };
}

roles! {
    // The window, marks over any ground, and paper.
    window {
        /// Words and bars on a plate.
        ink: rgb(0x0033_2B22), rgb(0x00E6_DCCE);
        /// The plate under words over a picture.
        chip: rgb(0x00FA_F7F2), rgb(0x002A_241E);
        /// The shadow that the board casts, at its darkest.
        shadow: veil(0x0000_0000, 0x48), veil(0x0000_0000, 0x90);
        /// The holes that a finding is about.
        lit: rgb(0x00C4_002F), rgb(0x00FF_4D6A);
        /// The glow around it.
        halo: veil(0x00E8_1040, 0x60), veil(0x00FF_3055, 0x70);
        /// The selection and the measure, and the most that a blank gives.
        selected: rgb(0x000B_4FD6), rgb(0x009C_D0FF);
        /// The edge that sets marks off from any background.
        contrast: rgb(0x00FF_FFFF), rgb(0x0012_0B05);
        /// Outlines of sheets over a board.
        sheet: rgb(0x001D_4F8C), rgb(0x00C6_DDF8);
        /// Paper, which is white in a dark shop too.
        paper: rgb(0x00FF_FFFF), rgb(0x00FF_FFFF);
        /// The print on it.
        print: rgb(0x0000_0000), rgb(0x0000_0000);
        /// Words too small to be read on it.
        print_faint: rgb(0x00B0_B0B0), rgb(0x00B0_B0B0);
        /// A light gray area on it.
        print_area: rgb(0x00D8_D8D8), rgb(0x00D8_D8D8);
        /// The shadow that paper casts.
        paper_shadow: veil(0x0000_0000, 60), veil(0x0000_0000, 60);
    }
    // Wood, and all that lies in it or is drawn on it.
    wood {
        /// The flat of a board, and a blank.
        wood: rgb(0x00EA_D0A3), rgb(0x009C_6E45);
        /// The flat toward the light.
        wood_lit: rgb(0x00F0_DAB2), rgb(0x00A8_794E);
        /// The flat away from the light.
        wood_shade: rgb(0x00E0_C290), rgb(0x008A_5F3A);
        /// The turn of the roundover toward the light.
        turn_lit: rgb(0x00F4_E3C2), rgb(0x00BE_9062);
        /// The turn of the roundover away from the light.
        turn_shade: rgb(0x00A8_7E4B), rgb(0x0053_361E);
        /// The board's edge, and crosses on plain wood.
        edge: rgb(0x007B_5830), rgb(0x002B_1B0E);
        /// The line where the roundover begins.
        shoulder: veil(0x007B_5830, 0x50), veil(0x002B_1B0E, 0x60);
        /// The dark side of a growth ring; most of it lets the wood through.
        growth: veil(0x00A8_7232, 0x26), veil(0x004A_280E, 0x34);
        /// Lines of the grain of a blank.
        grain: veil(0x009C_662A, 0x40), veil(0x004A_280E, 0x58);
        /// Axes and radius circles.
        guide: veil(0x005A_3E1E, 0x30), veil(0x0020_1206, 0x44);
        /// Seams, mortises, screws from below.
        seam: veil(0x005A_2A10, 0x90), veil(0x0018_0C04, 0xA0);
        /// The line from space to space.
        track: veil(0x006B_4720, 0x58), veil(0x0020_1206, 0x70);
        /// The sides of grooves.
        groove: rgb(0x006E_4722), rgb(0x002C_190B);
        /// The bottom of grooves.
        valley: rgb(0x003A_2410), rgb(0x000E_0803);
        /// The wall of a bore, in shadow.
        bore: rgb(0x0033_2214), rgb(0x0016_0E07);
        /// The floor of a bore.
        bore_floor: rgb(0x005B_4129), rgb(0x0035_2213);
        /// The arris of a bore that catches the light.
        bore_lip: rgb(0x00FD_F1DA), rgb(0x00D2_A87A);
        /// Names and crosses within a bore.
        bore_name: rgb(0x00FB_EFDC), rgb(0x00F6_E8D4);
        /// The pilot within a center hole.
        pilot: rgb(0x001C_120A), rgb(0x0008_0502);
        /// The pencil on a blank: its edge, the board's, flaws.
        pencil: rgb(0x0050_3618), rgb(0x0020_1206);
        /// The veil of a board laid over a blank.
        laid: veil(0x00FF_FBF0, 0x78), veil(0x00E6_B886, 0x60);
        /// A knot.
        knot: rgb(0x00A6_723F), rgb(0x004A_2C14);
        /// The hatching of knots.
        knot_hatch: rgb(0x003A_200A), rgb(0x00B9_8A5C);
        /// A crack.
        crack: rgb(0x00CD_B592), rgb(0x0086_6444);
        /// The hatching of cracks.
        crack_hatch: rgb(0x0030_2010), rgb(0x0014_0B04);
        /// Sapwood.
        sapwood: rgb(0x00FF_F8E4), rgb(0x00D8_BC92);
        /// The hatching of sapwood.
        sapwood_hatch: rgb(0x008A_6A30), rgb(0x005E_3F1C);
        /// The inside of drag handles.
        handle: rgb(0x00FF_FFFF), rgb(0x00E9_D6BE);
        /// The thing under the pointer.
        hover: rgb(0x00FF_FBF2), rgb(0x00FF_F4E2);
        /// The line around players' colors and around the thing under the pointer.
        casing: rgb(0x005A_3E20), rgb(0x002B_1B0E);
    }
}

/// Black on pale wood, on a white bench.
const HIGH_LIGHT: Palette = Palette {
    ink: rgb(0),
    chip: rgb(0x00FF_FFFF),
    lit: rgb(0x0098_0020),
    halo: veil(0x0098_0020, 0x70),
    selected: rgb(0x0000_2C96),
    contrast: rgb(0x00FF_FFFF),
    sheet: rgb(0x0000_2C66),
    ..LIGHT.on_pale_wood()
};

/// Black on pale wood, on a black bench.
const HIGH_DARK: Palette = Palette {
    ink: rgb(0x00FF_FFFF),
    chip: rgb(0),
    lit: rgb(0x00FF_90A0),
    halo: veil(0x00FF_3055, 0x90),
    selected: rgb(0x00A8_D8FF),
    contrast: rgb(0),
    sheet: rgb(0x00D0_E6FF),
    ..DARK.on_pale_wood()
};

impl Palette {
    /// The colors that go with a window's look.
    pub fn of(visuals: &Visuals) -> Self {
        match (theme::is_high_contrast(visuals), visuals.dark_mode) {
            (false, false) => LIGHT,
            (false, true) => DARK,
            (true, false) => HIGH_LIGHT,
            (true, true) => HIGH_DARK,
        }
    }

    /// Pale, even wood with every line on it drawn out in black.
    const fn on_pale_wood(self) -> Self {
        const PALE: Color32 = rgb(0x00FF_F4DC);
        const BLACK: Color32 = rgb(0);
        Self {
            wood: PALE,
            wood_lit: PALE,
            wood_shade: PALE,
            turn_lit: PALE,
            turn_shade: rgb(0x00B8_9A66),
            edge: BLACK,
            shoulder: veil(0, 0xA0),
            growth: Color32::TRANSPARENT,
            grain: Color32::TRANSPARENT,
            shadow: Color32::TRANSPARENT,
            guide: veil(0, 0x90),
            seam: BLACK,
            track: veil(0, 0xB0),
            groove: rgb(0x0040_2200),
            valley: BLACK,
            bore: BLACK,
            bore_floor: rgb(0x0020_1408),
            bore_lip: rgb(0x00FF_FFFF),
            bore_name: rgb(0x00FF_FFFF),
            pilot: BLACK,
            pencil: BLACK,
            knot: rgb(0x00C8_9058),
            knot_hatch: BLACK,
            crack: rgb(0x00F0_E0C0),
            crack_hatch: BLACK,
            sapwood: rgb(0x00FF_FFFF),
            sapwood_hatch: rgb(0x0050_3800),
            handle: rgb(0x00FF_FFFF),
            casing: BLACK,
            hover: rgb(0x00FF_FFFF),
            ..self
        }
    }

    /// The colors on the wood of a workpiece, where its figure is shown: walnut and other dark woods are dark in a light window too, and
    /// maple and other pale ones are pale in a dark one.
    pub fn on_wood_of(self, workpiece: &Workpiece) -> Self {
        let wood = workpiece.board().wood.as_ref();
        let Some(tone) = wood.map(|wood| screen(workshop::tone(&wood.species))) else {
            return self;
        };
        let is_dark = contrast(tone, DARK.wood) < contrast(tone, LIGHT.wood);
        match is_dark {
            true if self.wood == LIGHT.wood => self.on_wood_as_in(DARK),
            false if self.wood == DARK.wood => self.on_wood_as_in(LIGHT),
            _ => self,
        }
    }

    /// All colors drawn back into the ground, so that what overlaps stays in order.
    pub fn dimmed(self, ground: Color32) -> Self {
        // A color that lets others through keeps its hue and lets more through.
        let thin = |color: Color32| color.gamma_multiply(DIMMED);
        let back = |color: Color32| {
            if color.is_opaque() {
                mix(ground, color, DIMMED)
            } else {
                thin(color)
            }
        };
        Self {
            chip: self.chip,
            contrast: thin(self.contrast),
            hover: thin(self.hover),
            ..self.map(back)
        }
    }

    /// With the colors of these players, from the first.
    pub fn with_players(mut self, looks: &[PlayerLook]) -> Self {
        for (color, look) in self.players.iter_mut().zip(looks) {
            *color = screen(look.color);
        }
        self
    }

    /// The color of a player, counted from 1.
    pub fn player(&self, player: u32) -> Color32 {
        let place = player.saturating_sub(1) as usize % self.players.len();
        self.players.get(place).copied().unwrap_or(self.ink)
    }

    /// Fill and hatching of a kind of flaw.
    pub const fn flaw(&self, kind: FlawKind) -> (Color32, Color32) {
        match kind {
            FlawKind::Knot => (self.knot, self.knot_hatch),
            FlawKind::Crack => (self.crack, self.crack_hatch),
            FlawKind::Sapwood => (self.sapwood, self.sapwood_hatch),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::color::ink_on;

    fn at_least(ratio: f64, pairs: &[(Color32, Color32)]) {
        for (one, other) in pairs {
            let found = contrast(*one, *other);
            assert!(found >= ratio, "{one:?} on {other:?} is {found:.2}");
        }
    }

    /// WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text; 1.4.6: 7 to 1 for high contrast.
    #[test]
    fn words_can_be_read_on_what_they_stand_on() {
        for (palette, least) in [
            (LIGHT, 4.5),
            (LIGHT.on_wood_as_in(DARK), 4.5),
            (DARK.on_wood_as_in(LIGHT), 4.5),
            (DARK, 4.5),
            (HIGH_LIGHT, 7.0),
            (HIGH_DARK, 7.0),
        ] {
            at_least(
                least,
                &[
                    (palette.ink, palette.chip),
                    (palette.selected, palette.chip),
                    (palette.lit, palette.chip),
                    (palette.sheet, palette.chip),
                    (palette.bore_name, palette.bore),
                    (palette.bore_name, palette.bore_floor),
                    (palette.print, palette.paper),
                    (palette.print, palette.print_area),
                ],
            );
        }
        at_least(
            4.5,
            &board::SET.map(screen).map(|color| (ink_on(color), color)),
        );
    }

    /// WCAG 2.2, success criterion 1.4.11: 3 to 1 for marks that carry a meaning; 4.5 to 1 for high contrast.
    #[test]
    fn marks_stand_out_from_what_is_around_them() {
        for (palette, least) in [
            (LIGHT, 3.0),
            (LIGHT.on_wood_as_in(DARK), 3.0),
            (DARK.on_wood_as_in(LIGHT), 3.0),
            (DARK, 3.0),
            (HIGH_LIGHT, 4.5),
            (HIGH_DARK, 4.5),
        ] {
            at_least(
                least,
                &[
                    (palette.lit, palette.contrast),
                    (palette.selected, palette.contrast),
                    (palette.ink, palette.contrast),
                    (palette.sheet, palette.contrast),
                    (palette.hover, palette.casing),
                    (palette.pencil, palette.wood),
                    (palette.pencil, palette.handle),
                    (palette.bore, palette.wood),
                    (palette.groove, palette.wood),
                    (palette.groove, palette.wood_lit),
                    (palette.groove, palette.wood_shade),
                ],
            );
            at_least(least, &FlawKind::ALL.map(|kind| palette.flaw(kind)));
        }
    }

    #[test]
    fn a_window_of_high_contrast_has_a_drawing_of_high_contrast() {
        let ctx = egui::Context::default();
        for (theme, quiet, high) in [
            (egui::Theme::Light, LIGHT, HIGH_LIGHT),
            (egui::Theme::Dark, DARK, HIGH_DARK),
        ] {
            for (is_high, wanted) in [(false, quiet), (true, high)] {
                theme::color(&ctx, is_high);
                let style = ctx.style_of(theme);
                assert_eq!(Palette::of(&style.visuals), wanted);
            }
        }
    }

    #[test]
    fn walnut_is_dark_and_maple_pale_in_every_window() {
        let of = |species: &str, palette: Palette| {
            let board = board::Board {
                wood: Some(board::Wood {
                    species: species.into(),
                    ..board::Wood::default()
                }),
                ..board::Board::default()
            };
            palette.on_wood_of(&Workpiece::of(&board).unwrap())
        };
        let walnut = of("black-walnut", LIGHT);
        assert_eq!((walnut.wood, walnut.ink), (DARK.wood, LIGHT.ink));
        assert_eq!(of("sugar-maple", LIGHT), LIGHT);
        assert_eq!(of("black-walnut", DARK), DARK);
        let maple = of("sugar-maple", DARK);
        assert_eq!((maple.wood, maple.ink), (LIGHT.wood, DARK.ink));
        assert_eq!(of("black-walnut", HIGH_LIGHT), HIGH_LIGHT);
    }

    #[test]
    fn dimmed_colors_lie_nearer_to_the_ground() {
        let ground = Visuals::light().panel_fill;
        let dim = LIGHT.dimmed(ground);
        assert_eq!(dim.chip, LIGHT.chip);
        assert!(contrast(dim.bore, ground) < contrast(LIGHT.bore, ground) / 2.0);
    }

    #[test]
    fn players_have_the_colors_of_the_board() {
        let board = board::Board::default();
        let looks = [1, 2].map(|player| workshop::player_look(&board, player));
        let palette = LIGHT.with_players(&looks);
        assert_eq!(palette.player(2), screen(looks[1].color));
        assert_ne!(palette.player(1), palette.player(2));
    }
}
