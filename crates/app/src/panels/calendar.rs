//! Controls of the calendar: how many boards.

use board::{Board, field};
use egui::Ui;

use crate::widgets::fields_ui;

/// The number of boards in the order.
pub fn calendar_ui(ui: &mut Ui, board: &mut Board) {
    fields_ui(ui, board, &[&field::ORDERED]);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, type_into};

    #[test]
    fn the_number_of_boards_is_typed() {
        let mut panel = hand::panel(900.0, calendar_ui);
        type_into(&mut panel, "Boards ordered", "12");
        assert_eq!(panel.state().schedule.boards, 12);
    }
}
