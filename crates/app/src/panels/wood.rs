//! Controls of the wood in the seasons.

use board::{Board, Wood, field};
use egui::Ui;
use workshop::{Species, species};

use crate::widgets::{field_ui, fields_ui, search_choice};

/// Species, cut, moisture, and the air the board is made and kept in.
pub fn wood_ui(ui: &mut Ui, board: &mut Board) {
    field_ui(ui, board, &field::WOOD);
    if let Some(wood) = &mut board.wood {
        species_ui(ui, wood);
    }
    for rows in [
        field::WOOD_DETAILS,
        field::SHOP_AIR,
        field::DRY_AIR,
        field::HUMID_AIR,
    ] {
        fields_ui(ui, board, rows);
    }
}

/// The species of the table; one that a document names and the table does not know stays until another is chosen.
fn species_ui(ui: &mut Ui, wood: &mut Wood) {
    let all: Vec<Option<&Species>> = species().iter().map(Some).collect();
    let mut chosen = species().iter().find(|species| species.id == wood.species);
    let label = |species: Option<&Species>| {
        species.map_or_else(|| "not in the table".into(), Species::spoken)
    };
    if search_choice(ui, &field::SPECIES.label(0), &mut chosen, &all, label).changed()
        && let Some(species) = chosen
    {
        wood.species = species.id.into();
    }
}
