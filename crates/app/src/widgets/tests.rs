//! Fields of the table in the window: shown, typed and stepped in the maker's system.

use board::{Board, Units, Value, field};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use testkit::assert_near;

use super::field_ui;
use crate::theme;

/// The temperature of the shop on a board in inches.
fn shop() -> Harness<'static, Board> {
    let mut board = Board {
        units: Units::INCH,
        ..Board::default()
    };
    field::SHOP.begin(&mut board, 0);
    field::SHOP.set(&mut board, 0, &Value::Number(20.0));
    let builder = Harness::builder().with_context_setup(theme::install);
    builder.build_ui_state(
        |ui, board: &mut Board| {
            field_ui(ui, board, &field::SHOP);
        },
        board,
    )
}

fn celsius(harness: &Harness<'static, Board>) -> f64 {
    harness.state().filling.unwrap().shop
}

fn press(harness: &mut Harness<'static, Board>, key: egui::Key) {
    harness.key_press(key);
    harness.run();
}

#[test]
fn a_temperature_on_an_inch_board_is_shown_typed_and_stepped_in_fahrenheit() {
    let mut harness = shop();
    harness.run();
    let shown = |harness: &Harness<'static, Board>| {
        let field = harness.get_by_label(field::SHOP.label);
        field.accesskit_node().value().unwrap()
    };
    assert_eq!(shown(&harness), "68 °F");
    harness.get_by_label(field::SHOP.label).click();
    harness.run();
    for letter in ["7", "7"] {
        harness.event(egui::Event::Text(letter.into()));
        harness.run();
    }
    press(&mut harness, egui::Key::Enter);
    assert_near!(celsius(&harness), 25.0, 1e-9);
    assert_eq!(shown(&harness), "77 °F");
    harness.get_by_label(field::SHOP.label).click();
    harness.run();
    press(&mut harness, egui::Key::ArrowUp);
    assert_near!(celsius(&harness), 25.0 + 5.0 / 9.0, 1e-9);
    press(&mut harness, egui::Key::ArrowDown);
    press(&mut harness, egui::Key::ArrowDown);
    assert_near!(celsius(&harness), 25.0 - 5.0 / 9.0, 1e-9);
}
