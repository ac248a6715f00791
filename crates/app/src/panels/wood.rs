//! Controls of the wood in the seasons, and of what the board stands on.

use board::{Air, Base, Board, Cut, Footing, Units, Wood, ranges};
use egui::Ui;
use workshop::{Species, species};

use crate::widgets::{
    Field, choice, count_field, length_field, plain_field, planned, settled_field,
};

/// Species, cut, moisture, and the air the board is made and kept in.
pub fn wood_ui(ui: &mut Ui, board: &mut Board) {
    planned(ui, "Wood", "in the seasons", &mut board.wood);
    let Some(wood) = &mut board.wood else {
        return;
    };
    species_ui(ui, wood);
    choice(ui, "Sawn", &mut wood.cut, &Cut::ALL, Cut::label);
    let field = |range| Field {
        range,
        units: Units::Mm,
    };
    for (caption, value, range, hint) in [
        (
            "Moisture",
            &mut wood.moisture,
            ranges::MOISTURE,
            "by the shop's air",
        ),
        (
            "Change for 1 %",
            &mut wood.change,
            ranges::WOOD_CHANGE,
            "by the table",
        ),
        (
            "Density at 12 %",
            &mut wood.density,
            ranges::WOOD_DENSITY,
            "by the table",
        ),
    ] {
        settled_field(ui, caption, value, field(range), hint);
    }
    air_ui(ui, "Shop", &mut wood.shop);
    air_ui(ui, "Dry room", &mut wood.dry);
    air_ui(ui, "Damp room", &mut wood.humid);
}

/// The species of the table; one that a document names and the table does not know stays until another is chosen.
fn species_ui(ui: &mut Ui, wood: &mut Wood) {
    let all: Vec<Option<&Species>> = species().iter().map(Some).collect();
    let mut chosen = species().iter().find(|species| species.id == wood.species);
    let label =
        |species: Option<&Species>| species.map_or("not in the table", |species| species.name);
    if choice(ui, "Species", &mut chosen, &all, label)
        && let Some(species) = chosen
    {
        wood.species = species.id.into();
    }
}

fn air_ui(ui: &mut Ui, name: &str, air: &mut Air) {
    plain_field(
        ui,
        &format!("{name}, at"),
        &mut air.temperature,
        ranges::TEMPERATURE,
    );
    plain_field(
        ui,
        &format!("{name}, humidity"),
        &mut air.humidity,
        ranges::HUMIDITY,
    );
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Round,
    Feet,
}

/// Turntable or feet.
pub fn base_ui(ui: &mut Ui, board: &mut Board) {
    planned(ui, "Base", "below the board", &mut board.base);
    let units = board.units;
    let Some(base) = &mut board.base else {
        return;
    };
    let mut kind = match base.footing {
        Footing::Round { .. } => Kind::Round,
        Footing::Feet { .. } => Kind::Feet,
    };
    let label = |kind| match kind {
        Kind::Round => "a turntable, or round",
        Kind::Feet => "feet",
    };
    if choice(
        ui,
        "Stands on",
        &mut kind,
        &[Kind::Round, Kind::Feet],
        label,
    ) {
        base.footing = match (kind, base.footing) {
            (Kind::Round, Footing::Feet { circle, .. }) => Footing::Round { diameter: circle },
            (Kind::Feet, Footing::Round { diameter }) => Footing::Feet {
                count: 3,
                circle: diameter,
            },
            (_, footing) => footing,
        };
    }
    match &mut base.footing {
        Footing::Round { diameter } => {
            length_field(ui, "Across", diameter, ranges::FOOTING, units);
        }
        Footing::Feet { count, circle } => {
            count_field(ui, "Feet", count, ranges::FEET);
            length_field(ui, "Circle of the feet", circle, ranges::FOOTING, units);
        }
    }
    loads_ui(ui, base, units);
}

fn loads_ui(ui: &mut Ui, base: &mut Base, units: Units) {
    length_field(
        ui,
        "Height of the base",
        &mut base.height,
        ranges::BASE_HEIGHT,
        units,
    );
    let field = |range| Field { range, units };
    settled_field(
        ui,
        "Rated for",
        &mut base.rating,
        field(ranges::LOAD),
        "not known",
    );
    plain_field(ui, "Load beside pieces", &mut base.load, ranges::LOAD);
    settled_field(
        ui,
        "Board weighs",
        &mut base.board,
        field(ranges::LOAD),
        "by its wood",
    );
}
