//! Controls of the resin in the bores: how it is poured and mixed, and the plan of its batches.

use board::{Board, Field, HoleId, Measure, Mix, PieceKind, Units, field, show_number};
use egui::{Button, Grid, Ui};
use workshop::{Batch, Caution, Pour, SectorPour, Workpiece, groove_resin, parts_shown};

use super::rows::{fact, number_cell, remark};
use crate::current::Current;
use crate::theme;
use crate::widgets::{cautions, field_ui};

/// Batches and sectors that are listed; the export has all.
const LISTED: usize = 12;

/// Resin for the bores, and how it is mixed; the bores of the batch under the pointer are highlighted.
pub fn filling_ui(ui: &mut Ui, board: &mut Board, current: &Current, lit: &mut Vec<HoleId>) {
    let (units, kind) = (board.units, board.piece.kind);
    // Only magnet pieces have something set in their bores.
    let is_meant = |field: &Field| *field != field::AROUND_INSERT || kind == PieceKind::Magnet;
    for field in field::FILLING_FIELDS.iter().filter(|field| is_meant(field)) {
        field_ui(ui, board, field);
    }
    if board.filling.is_none() {
        return;
    }
    if let Some(workpiece) = current.good()
        && let (Some(filling), Some(pour)) = (workpiece.board().filling, workpiece.pour())
    {
        in_all_ui(ui, &filling.mix, pour, units);
        grooves_ui(ui, workpiece, units);
        batches_ui(ui, &filling.mix, pour, units, lit);
        sectors_ui(ui, &pour.sectors(), units);
    }
    cautions(ui, &[Caution::Resin]);
}

fn in_all_ui(ui: &mut Ui, mix: &Mix, pour: &Pour, units: Units) {
    let shown = |measure: Measure| measure.shown(units);
    let bores = pour.bores.len();
    let filled = match pour.boards {
        1 => bores.to_string(),
        boards => format!("{boards} × {bores}"),
    };
    fact(
        ui,
        "Holes filled",
        &filled,
        "From the holes by role, times the boards made together",
    );
    let weight = shown(Measure::grams(pour.resin * mix.density));
    let all = format!("{}, {weight}", shown(Measure::milliliters(pour.resin)));
    fact(
        ui,
        "Resin in all",
        &all,
        "From diameter, depth and bottom of the holes, less what is set in them, with crown, waste and cups",
    );
    fact(
        ui,
        "Resin + hardener",
        &parts_shown(mix, pour.resin, units),
        "Resin in all, divided by the mixing ratio",
    );
    if pour.overfill_height > 0.0 {
        let words = format!(
            "{} high, {}",
            shown(Measure::mm(pour.overfill_height)),
            shown(Measure::milliliters(pour.overfill))
        );
        fact(ui, "To level off", &words, "From the crown over each hole");
    }
    let working = format!(
        "{}, {} holes",
        shown(Measure::minutes(pour.working)),
        pour.in_time
    );
    fact(
        ui,
        "Workable for",
        &working,
        "From the pot life, by the temperature of the shop; holes by your time to fill ten",
    );
}

/// The resin of colored grooves, which is mixed by itself.
fn grooves_ui(ui: &mut Ui, workpiece: &Workpiece, units: Units) {
    let Some(resin) = groove_resin(workpiece) else {
        return;
    };
    let ml = Measure::milliliters(resin.mixed).shown(units);
    let cups = if resin.cups == 1 { "cup" } else { "cups" };
    let words = format!("{ml} in {} {cups}, each board", resin.cups);
    fact(
        ui,
        "Colored grooves",
        &words,
        "From length and cross-section of the grooves of a color",
    );
}

/// Tooltips of the columns of a batch: the numbers that each follows from.
const OF_BATCH: [&str; 3] = [
    "As many as are filled before the batch gets stiff: from the pot life and the time for ten holes",
    "From the holes of the batch, the rest left in cups, and the parts of the mix",
    "From the mixing time and the time for ten holes",
];
/// The same for the bores of a sector.
const OF_SECTOR: [&str; 3] = [
    "Holes of the sector that are filled",
    "From the size of these holes and how far the resin stays below the top",
    "From the order of pouring and the batches above",
];

fn batches_ui(ui: &mut Ui, mix: &Mix, pour: &Pour, units: Units, lit: &mut Vec<HoleId>) {
    if pour.batches.is_empty() {
        return;
    }
    let heads = ["Batch", "Holes", "Resin + hardener", "Minutes"];
    table_ui(ui, heads, OF_BATCH, |ui| {
        for (at, batch) in pour.batches.iter().take(LISTED).enumerate() {
            let button = ui.add(Button::new(format!("{}", at + 1)).small());
            if button.hovered() || button.has_focus() {
                lit.extend(pour.bores_of(batch).map(|(_, bore)| bore.name.id()));
            }
            button.on_hover_text(pour.first_and_last(batch));
            let [bores, resin, minutes] = OF_BATCH;
            number_cell(ui, batch.bores.to_string(), bores);
            number_cell(ui, parts_shown(mix, batch.ml, units), resin);
            number_cell(ui, clock(batch), minutes);
            ui.end_row();
        }
    });
    more(ui, pour.batches.len(), "batches");
}

fn sectors_ui(ui: &mut Ui, sectors: &[SectorPour], units: Units) {
    if sectors.is_empty() {
        return;
    }
    // Of several boards only the first is listed, since all take the same.
    let first = sectors.iter().filter(|sector| sector.board == 1);
    let count = first.clone().count();
    let heads = ["Sector", "Holes", "Resin", "From batch"];
    table_ui(ui, heads, OF_SECTOR, |ui| {
        for sector in first.take(LISTED) {
            let player = sector
                .player
                .map_or_else(|| "center".into(), |player| player.to_string());
            ui.label(player);
            let [bores, resin, from_batch] = OF_SECTOR;
            number_cell(ui, sector.bores.to_string(), bores);
            number_cell(ui, Measure::milliliters(sector.ml).shown(units), resin);
            let batches = match sector.batches {
                (first, last) if first == last => first.to_string(),
                (first, last) => format!("{first} to {last}"),
            };
            number_cell(ui, batches, from_batch);
            ui.end_row();
        }
    });
    more(ui, count, "sectors");
}

/// A table with a head, as wide as it needs; each column of numbers has a tooltip with the numbers it follows from.
fn table_ui(ui: &mut Ui, heads: [&str; 4], from: [&str; 3], rows: impl FnOnce(&mut Ui)) {
    ui.add_space(theme::GAP);
    let table = Grid::new(heads).striped(true).spacing([10.0, 2.0]);
    table.show(ui, |ui| {
        // The first column names the row, all others are numbers.
        let [first, numbers @ ..] = heads;
        ui.label(theme::quiet(first));
        for (head, from) in numbers.into_iter().zip(from) {
            number_cell(ui, theme::quiet(head), from);
        }
        ui.end_row();
        rows(ui);
    });
}

fn more(ui: &mut Ui, all: usize, what: &str) {
    if let Some(more) = all.checked_sub(LISTED).filter(|more| *more > 0) {
        let words = format!("and {more} more {what}: see the exports Bench sums and Filling plan");
        remark(ui, &words);
    }
}

/// The time from the first contact of the two parts to the last bore.
fn clock(batch: &Batch) -> String {
    let end = batch.begins + batch.minutes;
    format!(
        "{} to {}",
        show_number(batch.begins, 1),
        show_number(end, 1)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, press, sees, type_into};
    use board::Filling;
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable as _;
    use testkit::assert_near;
    use workshop::{MixParts, mix_parts};

    fn filling() -> Harness<'static, Board> {
        hand::panel(1200.0, |ui, board| {
            let current = Current::of(board);
            filling_ui(ui, board, &current, &mut Vec::new());
        })
    }

    #[test]
    fn resin_is_timed_with_units_and_its_batches_are_told() {
        let mut panel = filling();
        press(&mut panel, "Fill holes with resin");
        type_into(&mut panel, "Pot life given at", "77 °F");
        type_into(&mut panel, "Shop temperature", "15");
        type_into(&mut panel, "Mixing time", "0");
        type_into(&mut panel, "Time for ten holes", "600 s");
        let filling = panel.state().filling.unwrap();
        assert_near!(filling.pot_life_at, 25.0, 1e-12);
        assert_near!(filling.shop, 15.0, 0.0);
        assert_near!(filling.ten_bores, 600.0, 0.0);
        assert!(sees(&panel, "60 min, 60 holes"));
        press(&mut panel, "Fill holes with resin");
        assert_eq!(panel.state().filling, None);
    }

    #[test]
    fn batches_and_sectors_are_listed_with_their_parts_and_their_clock() {
        let mut panel = filling();
        press(&mut panel, "Fill holes with resin");
        choose(&mut panel, "Measured out", "by weight");
        type_into(&mut panel, "Parts of resin", "100");
        type_into(&mut panel, "Parts of hardener", "15");
        // 144 bores of 12 by 5, and 15 % more, 38 of them in each batch of 30 ml with 5 left in the cup.
        assert!(sees(&panel, "From batch"));
        let board = panel.state();
        let workpiece = workshop::Workpiece::of(board).unwrap();
        let pour = workpiece.pour().unwrap();
        assert_eq!((pour.batches.len(), pour.batches[0].bores), (4, 38));
        let MixParts { resin, hardener } =
            mix_parts(&board.filling.unwrap().mix, pour.batches[0].ml);
        assert_near!(resin / hardener, 100.0 / 15.0, 1e-9);
        assert!(sees(
            &panel,
            &format!("{} + {} g", show_number(resin, 1), show_number(hardener, 1))
        ));
        assert!(sees(&panel, "10.6 to 21.2"));
    }

    #[test]
    fn the_bores_of_a_batch_are_lit_while_its_button_has_the_focus() {
        let mut lit = Vec::new();
        let mut panel = Harness::builder()
            .with_size([340.0, 1200.0])
            .with_context_setup(theme::install)
            .build_ui_state(
                move |ui, shown: &mut usize| {
                    let mut board = Board {
                        filling: Some(Filling::default()),
                        ..Board::default()
                    };
                    lit.clear();
                    let current = Current::of(&board);
                    filling_ui(ui, &mut board, &current, &mut lit);
                    *shown = lit.len();
                },
                0,
            );
        assert_eq!(*panel.state(), 0);
        panel
            .get_by_role_and_label(egui::accesskit::Role::Button, "2")
            .focus();
        panel.run();
        assert_eq!(*panel.state(), 38);
    }
}
