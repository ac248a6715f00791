//! Where each field stands in the controls: the stage and the section, by the beginning of its path in the file.

use board::{Field, Kind, field};

use crate::stage::Stage;

/// Beginnings of paths, the longer ones before those they begin with.
const PLACES: &[(&str, Stage, &str)] = &[
    ("title", Stage::LayOut, "Board"),
    ("units", Stage::LayOut, "Board"),
    ("players", Stage::LayOut, "Pattern"),
    ("pattern", Stage::LayOut, "Pattern"),
    ("spaces", Stage::LayOut, "Pattern"),
    ("pitch_mm", Stage::LayOut, "Pattern"),
    ("rotation_deg", Stage::LayOut, "Pattern"),
    ("home", Stage::LayOut, "Home and start"),
    ("start", Stage::LayOut, "Home and start"),
    ("pocket", Stage::LayOut, "Home and start"),
    ("center", Stage::LayOut, "Center"),
    ("jig.pin_mm", Stage::LayOut, "Center"),
    ("bores", Stage::Drill, "Bores"),
    ("piece.magnet", Stage::LayOut, "Weight and magnets"),
    ("piece.insert", Stage::LayOut, "Weight and magnets"),
    ("piece.mass_g", Stage::LayOut, "Weight and magnets"),
    ("piece.density", Stage::LayOut, "Weight and magnets"),
    ("piece", Stage::LayOut, "Pieces"),
    ("limits", Stage::LayOut, "Minimum sizes"),
    ("blank", Stage::LayOut, "Board"),
    ("stock", Stage::Wood, "Blank"),
    ("panel", Stage::Wood, "Joining"),
    ("wood.shop", Stage::Wood, "Seasonal movement"),
    ("wood.dry", Stage::Wood, "Seasonal movement"),
    ("wood.humid", Stage::Wood, "Seasonal movement"),
    ("wood", Stage::Wood, "Species"),
    ("base", Stage::Wood, "Base"),
    ("passage", Stage::Wood, "Base"),
    ("template", Stage::Template, "Template"),
    ("router", Stage::Template, "Hardboard"),
    ("sector_jig", Stage::Template, "Hardboard"),
    ("errors", Stage::Template, "Accuracy"),
    ("method", Stage::Drill, "Jig and order"),
    ("order", Stage::Drill, "Jig and order"),
    ("jig", Stage::Drill, "Jig and order"),
    ("tools", Stage::Drill, "Bits you own"),
    ("machine.groove", Stage::Bench, "Grooves"),
    ("machine", Stage::Drill, "Machine"),
    ("measured", Stage::Drill, "Repair"),
    ("grooves", Stage::Bench, "Grooves"),
    ("recess", Stage::Bench, "Storage below"),
    ("filling", Stage::Bench, "Filling"),
    ("finish", Stage::Finish, "Finish coats"),
    ("colors.players", Stage::Finish, "Players' colors"),
    ("colors", Stage::Finish, "Colors of the board"),
    ("schedule.boards", Stage::HandOver, "Calendar"),
    ("schedule.start", Stage::HandOver, "Calendar"),
    ("schedule.promised", Stage::HandOver, "Calendar"),
    ("schedule", Stage::HandOver, "Your hours"),
    ("price.maker", Stage::HandOver, "Quote"),
    ("price.address", Stage::HandOver, "Quote"),
    ("price.contact", Stage::HandOver, "Quote"),
    ("price.customer", Stage::HandOver, "Quote"),
    ("price.valid_days", Stage::HandOver, "Quote"),
    ("price.not_included", Stage::HandOver, "Quote"),
    ("price", Stage::HandOver, "Shopping and price"),
];

/// The place of a field in the controls.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The stage.
    pub stage: Stage,
    /// The title of the section.
    pub section: &'static str,
    /// The caption of the row.
    pub caption: String,
}

/// A place to go to: a row, or a section where there is no row yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spot {
    /// The stage.
    pub stage: Stage,
    /// The title of the section.
    pub section: &'static str,
    /// The caption of the row; none for the section alone.
    pub caption: Option<String>,
    /// The part of the section whose row it is, where several have rows of that caption.
    pub part: Option<String>,
}

impl From<Place> for Spot {
    fn from(place: Place) -> Self {
        Self {
            stage: place.stage,
            section: place.section,
            caption: Some(place.caption),
            part: None,
        }
    }
}

/// The place of a field; none of a list and of what stands in one.
pub fn place_of(field: &Field) -> Option<Place> {
    let (stage, section) = section_of(field)?;
    (!is_listed(field)).then(|| Place {
        stage,
        section,
        caption: caption(field),
    })
}

/// The place to go to for a field: the section alone where it is a list, or stands in one.
pub fn spot_of(field: &Field) -> Option<Spot> {
    let (stage, section) = section_of(field)?;
    let caption = (!is_listed(field)).then(|| caption(field));
    Some(Spot {
        stage,
        section,
        caption,
        part: None,
    })
}

fn is_listed(field: &Field) -> bool {
    field.path.contains("[]") || matches!(field.kind, Kind::Entries(_))
}

fn section_of(field: &Field) -> Option<(Stage, &'static str)> {
    let is_within = |part: &str| {
        let rest = field.path.strip_prefix(part);
        rest.is_some_and(|rest| rest.is_empty() || !rest.starts_with(char::is_alphanumeric))
    };
    let (_, stage, section) = PLACES.iter().find(|(part, ..)| is_within(part))?;
    Some((*stage, *section))
}

/// The caption of a field's row. Of a color, its part and its medium stand in one row with it, and so does the width of a roll with
/// the list of rolls.
fn caption(field: &Field) -> String {
    let label = field.label(0);
    if field == &field::ROLL {
        return "Print shop's roll".into();
    }
    match label
        .strip_suffix(", part")
        .or_else(|| label.strip_suffix(", with"))
    {
        Some(colored) if field.path.starts_with("colors.") => format!("{colored} color"),
        _ => label,
    }
}
