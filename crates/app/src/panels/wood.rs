//! Controls of the wood in the seasons.

use board::{Board, Wood, field};
use egui::Ui;
use workshop::{Species, species};

use super::rows::remark;
use crate::widgets::{field_ui, fields_ui, search_choice};

/// Species, cut, moisture, and what is known of the very wood.
pub fn wood_ui(ui: &mut Ui, board: &mut Board) {
    field_ui(ui, board, &field::WOOD);
    if let Some(wood) = &mut board.wood {
        species_ui(ui, wood);
    }
    fields_ui(ui, board, field::WOOD_DETAILS);
}

/// The air that the board is made and kept in.
pub fn seasons_ui(ui: &mut Ui, board: &mut Board) {
    if board.wood.is_none() {
        remark(
            ui,
            "Choose a species above to see how far the board moves over the year.",
        );
        if ui.button("Choose a species").clicked() {
            board.wood = Some(Wood::default());
        }
        return;
    }
    for rows in [field::SHOP_AIR, field::DRY_AIR, field::HUMID_AIR] {
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
