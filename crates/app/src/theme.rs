//! The look of the window: paper and ink by day, a dark shop by night. Colors come from here and from nowhere else.

use std::sync::Arc;

use drawing::font;
use egui::epaint::Shadow;
use egui::style::{Selection, WidgetVisuals, Widgets};
use egui::{
    Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Margin, Stroke,
    TextStyle, Theme, Visuals, vec2,
};
use workshop::Severity;

use crate::color::rgb;

mod scale;

pub use scale::{
    BODY, CAPTION, FIELD, FIGURE, GAP, HAIR, INDENT, PART, SMALL, TIGHT, TITLE, body, bold, figure,
    heading, quiet, small, strong,
};

/// The colors of one theme.
#[derive(Debug, Clone, Copy)]
pub struct Tokens {
    /// Panels.
    pub panel: Color32,
    /// Behind the board, and bars.
    pub bench: Color32,
    /// Fields to type in.
    pub field: Color32,
    /// The frame of such a field.
    pub edge: Color32,
    /// Buttons.
    pub button: Color32,
    /// Buttons under the pointer.
    pub button_hot: Color32,
    /// Words.
    pub ink: Color32,
    /// Words of less weight.
    pub faint_ink: Color32,
    /// Lines between parts.
    pub line: Color32,
    /// The one strong color.
    pub accent: Color32,
    /// Words on it.
    pub on_accent: Color32,
    /// The choice made.
    pub chosen: Color32,
    /// A stop.
    pub stop: Color32,
    /// A caution.
    pub caution: Color32,
    /// A note.
    pub note: Color32,
    /// All is well.
    pub fine: Color32,
}

const LIGHT: Tokens = Tokens {
    panel: rgb(0x00F7_F3EA),
    bench: rgb(0x00EA_E3D4),
    field: rgb(0x00FF_FDF8),
    edge: rgb(0x0095_8874),
    button: rgb(0x00E9_E1D1),
    button_hot: rgb(0x00DF_D3BC),
    ink: rgb(0x002A_241E),
    faint_ink: rgb(0x0065_5B4E),
    line: rgb(0x00CF_C4B0),
    accent: rgb(0x0085_431E),
    on_accent: rgb(0x00FF_F9F0),
    chosen: rgb(0x00EB_D3B8),
    stop: rgb(0x00A0_241C),
    caution: rgb(0x007A_4E00),
    note: rgb(0x0033_5876),
    fine: rgb(0x002C_6136),
};

const DARK: Tokens = Tokens {
    panel: rgb(0x0028_231E),
    bench: rgb(0x001D_1916),
    field: rgb(0x0019_1613),
    edge: rgb(0x0084_7868),
    button: rgb(0x003B_342D),
    button_hot: rgb(0x004C_4339),
    ink: rgb(0x00EE_E6DA),
    faint_ink: rgb(0x00B8_AC9C),
    line: rgb(0x0050_473D),
    accent: rgb(0x00E0_A064),
    on_accent: rgb(0x0020_1812),
    chosen: rgb(0x0063_4628),
    stop: rgb(0x00F4_9388),
    caution: rgb(0x00EB_B85C),
    note: rgb(0x00A3_C6E2),
    fine: rgb(0x0093_CFA0),
};

/// Black on white, and every line drawn out.
const HIGH_LIGHT: Tokens = Tokens {
    panel: rgb(0x00FF_FFFF),
    bench: rgb(0x00F7_F7F7),
    field: rgb(0x00FF_FFFE),
    edge: rgb(0x0000_0000),
    button: rgb(0x00F0_F0F0),
    button_hot: rgb(0x00DA_DADA),
    ink: rgb(0x0000_0000),
    faint_ink: rgb(0x0030_3030),
    line: rgb(0x0000_0000),
    accent: rgb(0x005A_2600),
    on_accent: rgb(0x00FF_FFFF),
    chosen: rgb(0x00FF_DE85),
    stop: rgb(0x0088_0000),
    caution: rgb(0x0056_3700),
    note: rgb(0x0000_3864),
    fine: rgb(0x0008_4415),
};

/// White on black.
const HIGH_DARK: Tokens = Tokens {
    panel: rgb(0x0000_0000),
    bench: rgb(0x0008_0808),
    field: rgb(0x0000_0001),
    edge: rgb(0x00FF_FFFF),
    button: rgb(0x001C_1C1C),
    button_hot: rgb(0x0036_3636),
    ink: rgb(0x00FF_FFFF),
    faint_ink: rgb(0x00D4_D4D4),
    line: rgb(0x00FF_FFFF),
    accent: rgb(0x00FF_C08A),
    on_accent: rgb(0x0000_0000),
    chosen: rgb(0x005A_3A00),
    stop: rgb(0x00FF_A8A0),
    caution: rgb(0x00FF_D070),
    note: rgb(0x00AC_DAFF),
    fine: rgb(0x00A0_EAB0),
};

/// Whether a look is one of high contrast, judged by its panels.
pub fn is_high_contrast(visuals: &Visuals) -> bool {
    [HIGH_LIGHT.panel, HIGH_DARK.panel].contains(&visuals.panel_fill)
}

impl Tokens {
    /// The colors of the theme that a part of the window is drawn in, judged by its panels.
    pub fn of(ui: &egui::Ui) -> &'static Self {
        let visuals = ui.visuals();
        let is_it = |tokens: &&&Self| tokens.panel == visuals.panel_fill;
        let plain = if visuals.dark_mode { &DARK } else { &LIGHT };
        [&HIGH_LIGHT, &HIGH_DARK]
            .iter()
            .find(is_it)
            .copied()
            .unwrap_or(plain)
    }

    /// The color of a severity.
    pub const fn severity(&self, severity: Severity) -> Color32 {
        match severity {
            Severity::Stop => self.stop,
            Severity::Caution => self.caution,
            Severity::Note => self.note,
        }
    }
}

/// Width of the panel with the controls.
pub const CONTROLS_WIDTH: f32 = 312.0;
/// Width of the panel with figures and findings.
pub const FINDINGS_WIDTH: f32 = 290.0;

/// Installs fonts and both themes.
pub fn install(ctx: &egui::Context) {
    // A press elsewhere ends a text while its field is still drawn; a click may have taken its panel away.
    ctx.options_mut(|options| {
        options.input_options.surrender_focus_on = egui::SurrenderFocusOn::Presses;
    });
    ctx.set_fonts(fonts());
    color(ctx, false);
    ctx.all_styles_mut(|style| {
        let sized = |size| FontId::new(size, FontFamily::Proportional);
        style.text_styles = [
            (TextStyle::Heading, FontId::new(TITLE, strong())),
            (TextStyle::Body, sized(BODY)),
            (TextStyle::Button, sized(BODY)),
            (TextStyle::Monospace, sized(BODY)),
            (TextStyle::Small, sized(SMALL)),
        ]
        .into();
        style.spacing.item_spacing = vec2(GAP, 6.0);
        style.spacing.button_padding = vec2(8.0, 3.0);
        style.spacing.interact_size = vec2(40.0, 23.0);
        style.spacing.slider_width = CAPTION;
        style.spacing.text_edit_width = FIELD;
        style.spacing.window_margin = Margin::same(PART as i8);
        style.spacing.menu_margin = Margin::same(6);
        style.interaction.selectable_labels = false;
    });
}

/// Gives the window its colors, by day and by night: quiet ones, or those of high contrast.
pub fn color(ctx: &egui::Context, high_contrast: bool) {
    let (light, dark) = if high_contrast {
        (&HIGH_LIGHT, &HIGH_DARK)
    } else {
        (&LIGHT, &DARK)
    };
    ctx.set_visuals_of(Theme::Light, visuals(light, Visuals::light()));
    ctx.set_visuals_of(Theme::Dark, visuals(dark, Visuals::dark()));
}

fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    for (name, bytes) in [("regular", font::REGULAR), ("semi-bold", font::SEMI_BOLD)] {
        fonts
            .font_data
            .insert(name.into(), Arc::new(FontData::from_static(bytes)));
    }
    for family in [FontFamily::Proportional, FontFamily::Monospace] {
        fonts.families.insert(family, vec!["regular".into()]);
    }
    fonts
        .families
        .insert(strong(), vec!["semi-bold".into(), "regular".into()]);
    fonts
}

fn visuals(tokens: &Tokens, plain: Visuals) -> Visuals {
    Visuals {
        widgets: widgets(tokens),
        selection: Selection {
            bg_fill: tokens.chosen,
            stroke: Stroke::new(1.0, tokens.ink),
        },
        hyperlink_color: tokens.accent,
        faint_bg_color: tokens.bench,
        extreme_bg_color: tokens.field,
        code_bg_color: tokens.bench,
        warn_fg_color: tokens.caution,
        error_fg_color: tokens.stop,
        weak_text_color: Some(tokens.faint_ink),
        window_fill: tokens.panel,
        window_stroke: Stroke::new(1.0, tokens.line),
        window_corner_radius: CornerRadius::same(8),
        menu_corner_radius: CornerRadius::same(6),
        window_shadow: Shadow {
            offset: [0, 8],
            blur: 24,
            spread: 0,
            color: Color32::from_black_alpha(60),
        },
        popup_shadow: Shadow {
            offset: [0, 4],
            blur: 12,
            spread: 0,
            color: Color32::from_black_alpha(50),
        },
        panel_fill: tokens.panel,
        indent_has_left_vline: false,
        ..plain
    }
}

fn widgets(tokens: &Tokens) -> Widgets {
    let corner_radius = CornerRadius::same(4);
    let look = |fill: Color32, edge: Color32| WidgetVisuals {
        bg_fill: fill,
        weak_bg_fill: fill,
        bg_stroke: Stroke::new(1.0, edge),
        corner_radius,
        fg_stroke: Stroke::new(1.0, tokens.ink),
        expansion: 0.0,
    };
    Widgets {
        noninteractive: look(tokens.panel, tokens.line),
        inactive: look(tokens.button, tokens.line),
        hovered: look(tokens.button_hot, tokens.faint_ink),
        active: look(tokens.button_hot, tokens.accent),
        open: look(tokens.button_hot, tokens.line),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::color::contrast;

    /// WCAG 2 level AA for text, and level AAA for high contrast.
    #[test]
    fn all_words_can_be_read_on_what_they_stand_on() {
        for (tokens, least) in [
            (LIGHT, 4.5),
            (DARK, 4.5),
            (HIGH_LIGHT, 7.0),
            (HIGH_DARK, 7.0),
        ] {
            let grounds = [tokens.panel, tokens.bench, tokens.field, tokens.button];
            let inks = [
                tokens.ink,
                tokens.faint_ink,
                tokens.stop,
                tokens.caution,
                tokens.note,
                tokens.fine,
                tokens.accent,
            ];
            for ground in grounds {
                for ink in inks {
                    assert!(
                        contrast(ground, ink) >= least,
                        "{ink:?} on {ground:?}: {}",
                        contrast(ground, ink)
                    );
                }
            }
            for ground in [tokens.button_hot, tokens.chosen] {
                assert!(contrast(ground, tokens.ink) >= least);
            }
            assert!(contrast(tokens.accent, tokens.on_accent) >= least);
        }
    }

    /// WCAG 2.2, success criterion 1.4.11: 3 to 1 for the edges of fields.
    #[test]
    fn frames_of_fields_stand_out() {
        for tokens in [LIGHT, DARK, HIGH_LIGHT, HIGH_DARK] {
            for ground in [tokens.panel, tokens.field] {
                let found = contrast(tokens.edge, ground);
                assert!(found >= 3.0, "{:?} on {ground:?}: {found}", tokens.edge);
            }
        }
    }
}
