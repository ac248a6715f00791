//! Where each field stands in the controls: its section, by the beginning of its path in the file.

use board::{Field, Kind, field};

use crate::section::Section;

/// Beginnings of paths, the longer ones before those they begin with.
const PLACES: &[(&str, Section)] = &[
    ("title", Section::Board),
    ("units", Section::Board),
    ("players", Section::Pattern),
    ("pattern", Section::Pattern),
    ("spaces", Section::Pattern),
    ("pitch_mm", Section::Pattern),
    ("rotation_deg", Section::Pattern),
    ("home", Section::Lanes),
    ("start", Section::Lanes),
    ("pocket", Section::Lanes),
    ("center", Section::Center),
    ("jig.pin_mm", Section::Center),
    ("bores", Section::Bores),
    ("piece.magnet", Section::Weight),
    ("piece.insert", Section::Weight),
    ("piece.mass_g", Section::Weight),
    ("piece.density", Section::Weight),
    ("piece", Section::Pieces),
    ("limits", Section::Limits),
    ("blank", Section::Board),
    ("stock", Section::Blank),
    ("panel", Section::Joining),
    ("wood.shop", Section::Seasons),
    ("wood.dry", Section::Seasons),
    ("wood.humid", Section::Seasons),
    ("wood", Section::Species),
    ("base", Section::Base),
    ("passage", Section::Base),
    ("template", Section::Template),
    ("router", Section::Hardboard),
    ("sector_jig", Section::Hardboard),
    ("errors", Section::Accuracy),
    ("method", Section::Jig),
    ("order", Section::Jig),
    ("jig", Section::Jig),
    ("tools", Section::Tools),
    ("machine.groove", Section::Grooves),
    ("machine", Section::Machine),
    ("measured", Section::Repair),
    ("grooves", Section::Grooves),
    ("recess", Section::Storage),
    ("filling", Section::Filling),
    ("finish", Section::Coats),
    ("colors.players", Section::Players),
    ("colors", Section::Colors),
    ("schedule.boards", Section::Calendar),
    ("schedule.start", Section::Calendar),
    ("schedule.promised", Section::Calendar),
    ("schedule", Section::Hours),
    ("price.maker", Section::Quote),
    ("price.address", Section::Quote),
    ("price.contact", Section::Quote),
    ("price.customer", Section::Quote),
    ("price.valid_days", Section::Quote),
    ("price.not_included", Section::Quote),
    ("price", Section::Price),
];

/// The place of a field in the controls.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The section.
    pub section: Section,
    /// The caption of the row.
    pub caption: String,
}

/// A place to go to: a row, or a section where there is no row yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spot {
    /// The section.
    pub section: Section,
    /// The caption of the row; none for the section alone.
    pub caption: Option<String>,
    /// The part of the section whose row it is, where several have rows of that caption.
    pub part: Option<String>,
}

impl From<Place> for Spot {
    fn from(place: Place) -> Self {
        Self {
            section: place.section,
            caption: Some(place.caption),
            part: None,
        }
    }
}

/// The place of a field; `None` for a list and for fields inside one.
pub fn place_of(field: &Field) -> Option<Place> {
    let section = section_of(field)?;
    (!is_listed(field)).then(|| Place {
        section,
        caption: caption(field),
    })
}

/// The place to go to for a field: the section alone where it is a list, or stands in one.
pub fn spot_of(field: &Field) -> Option<Spot> {
    let section = section_of(field)?;
    let caption = (!is_listed(field)).then(|| caption(field));
    Some(Spot {
        section,
        caption,
        part: None,
    })
}

fn is_listed(field: &Field) -> bool {
    field.path.contains("[]") || matches!(field.kind, Kind::Entries(_))
}

/// The section that a field is in; `None` for a field without a control.
pub fn section_of(field: &Field) -> Option<Section> {
    let is_within = |part: &str| {
        let rest = field.path.strip_prefix(part);
        rest.is_some_and(|rest| rest.is_empty() || !rest.starts_with(char::is_alphanumeric))
    };
    let (_, section) = PLACES.iter().find(|(part, ..)| is_within(part))?;
    Some(*section)
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
