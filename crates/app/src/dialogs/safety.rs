//! Cautions where hands, eyes, lungs and small children are at risk.

use egui::Ui;

use super::{Answer, heading};
use crate::theme;
use crate::widgets::main_button;

/// What to mind, by tool. Common practice; where a rule is behind it the rule is named.
const CAUTIONS: [(&str, &str); 6] = [
    (
        "Drill press",
        "Clamp the blank, keep sleeves and hair away, let the bit stop before clearing chips.",
    ),
    (
        "Router and saw",
        "Fix the work and the template well, feed against the cutter, use guards and push sticks, set up with the plug out.",
    ),
    (
        "Dust",
        "Collect it at the tool and wear a mask that fits; some woods are worse than others (OSHA and NIOSH publish limits).",
    ),
    (
        "Resin and finishes",
        "Gloves, air, and the maker's data sheet. Rags with drying oil heat up by themselves: spread them flat outdoors to dry.",
    ),
    (
        "Small parts",
        "Marbles, pegs and small balls choke small children (16 CFR 1501, 16 CFR 1500.19, EN 71-1). Say for which age a board is.",
    ),
    (
        "Magnets",
        "Swallowed magnets tear the bowel (16 CFR 1262). Fix them so that they cannot come out, or do without.",
    ),
];

/// What to mind.
pub fn safety_ui(ui: &mut Ui) -> Option<Answer> {
    heading(ui, "Working safely");
    for (tool, caution) in CAUTIONS {
        ui.label(egui::RichText::new(tool).family(theme::strong()));
        ui.label(caution);
    }
    ui.add_space(theme::GAP);
    ui.label(
        "A reminder, not advice: the tool's manual, local codes and licensed practice come first.",
    );
    ui.add_space(theme::GAP);
    main_button(ui, "Close").clicked().then_some(Answer::Cancel)
}
