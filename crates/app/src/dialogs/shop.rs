//! The dialog of the shop: the values that each new board begins with.

use board::{Board, Field, Kind, Shop, Units, Value, field};
use egui::{ScrollArea, Ui};

use super::{Answer, heading};
use crate::theme;
use crate::widgets::{entry_ui, main_button};

/// The state of the dialog.
pub struct ShopDialog {
    /// The shop as it is now.
    pub shop: Shop,
    /// A board that has every part that the shop has fields of.
    board: Board,
}

impl ShopDialog {
    /// The dialog for a shop, in the maker's unit.
    pub fn new(shop: &Shop, units: Units) -> Self {
        Self {
            board: whole_board(shop, units),
            shop: shop.clone(),
        }
    }
}

/// A usual board with every part that the shop has fields of, and with what the shop has.
fn whole_board(shop: &Shop, units: Units) -> Board {
    let mut board = Board::begun(units);
    for field in field::of_shop().filter(|field| !field.is_of_entry()) {
        // A field that only another kind of paper has is there once that is chosen.
        field.begin(&mut board, 0);
    }
    shop.give(&mut board);
    board.units = units;
    board
}

/// Headings of the fields, by the first member of their paths.
const SUBJECTS: [(&str, &str); 11] = [
    ("template", "Paper and printer"),
    ("errors", "Printer's error"),
    ("jig", "Circle jig and drill press"),
    ("tools", "Bits and bushings you own"),
    ("bores", "Forstner spur"),
    ("panel", "Saw, jointer and planer"),
    ("router", "Router and bushings"),
    ("base", "Turntable"),
    ("filling", "Resin"),
    ("schedule", "Hours and days"),
    ("price", "Prices and quotes"),
];

/// Every field of the shop, by subject; what is changed is kept at once.
pub fn shop_ui(ui: &mut Ui, dialog: &mut ShopDialog) -> Option<Answer> {
    heading(ui, "Your shop");
    ui.label("New boards begin with these, and so do parts that you plan later. What you change on a board is kept here too.");
    ui.add_space(theme::GAP);
    let height = (ui.ctx().content_rect().height() - 260.0).max(160.0);
    // It opens at its full height; otherwise it would grow a little with each frame.
    let list = ScrollArea::vertical().max_height(height);
    let list = list.min_scrolled_height(height);
    list.auto_shrink([false, true]).show(ui, |ui| {
        for (member, title) in SUBJECTS.into_iter().chain([("machine", "CNC machine")]) {
            ui.label(theme::bold(title));
            let rows =
                field::of_shop().filter(|field| field.path.split('.').next() == Some(member));
            for row in rows {
                rows_ui(ui, dialog, row);
            }
            ui.add_space(theme::GAP);
        }
    });
    ui.add_space(theme::GAP);
    let mut answer = None;
    ui.horizontal(|ui| {
        if main_button(ui, "Done").clicked() {
            answer = Some(Answer::Cancel);
        }
        let about = "Forget what the shop has: new boards begin with usual sizes";
        let forget = egui::Button::new("Use usual sizes");
        let is_known = !dialog.shop.is_empty();
        if ui
            .add_enabled(is_known, forget)
            .on_hover_text(about)
            .clicked()
        {
            *dialog = ShopDialog::new(&Shop::default(), dialog.board.units);
        }
    });
    answer
}

/// A field, or one for each entry of its list; changes are kept at once.
///
/// Prices stand beside what is bought, at the stage Hand over: here they are counted.
fn rows_ui(ui: &mut Ui, dialog: &mut ShopDialog, field: &'static Field) {
    if field.path.starts_with(field::ARTICLES.path) {
        if *field == field::ARTICLES {
            let count = dialog.board.price.articles.len();
            ui.label(format!("{}: {count}", field.label(0)));
        }
        return;
    }
    if matches!(field.kind, Kind::Entries(_)) {
        entries_ui(ui, dialog, field);
        return;
    }
    let mut entry = 0;
    while field.value(&dialog.board, entry).is_some() && (entry == 0 || field.is_of_entry()) {
        let before = dialog.board.clone();
        if entry_ui(ui, &mut dialog.board, field, entry) {
            dialog.shop.learn(&before, &dialog.board);
        }
        entry += 1;
    }
}

/// The number of entries of a list, which is changed by buttons.
fn entries_ui(ui: &mut Ui, dialog: &mut ShopDialog, list: &'static Field) {
    let Some(Value::Entries(count)) = list.value(&dialog.board, 0) else {
        return;
    };
    ui.horizontal(|ui| {
        ui.label(format!("{}: {count}", list.label(0)));
        let more = ui.button("Add a bit").clicked().then_some(count + 1);
        let fewer = (count > 0 && ui.button("Remove the last bit").clicked()).then(|| count - 1);
        if let Some(count) = more.or(fewer) {
            let before = dialog.board.clone();
            list.set(&mut dialog.board, 0, &Value::Entries(count));
            dialog.shop.learn(&before, &dialog.board);
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_of_the_shop_stands_under_a_heading() {
        for field in field::of_shop().filter(|field| **field != field::UNITS) {
            let member = field.path.split('.').next().unwrap();
            let has = SUBJECTS.iter().any(|(known, _)| *known == member) || member == "machine";
            assert!(has, "{}", field.path);
        }
    }
}
