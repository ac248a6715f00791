//! Stories of work on the drawing itself.

use egui::Pos2;
use egui_kittest::kittest::Queryable as _;
use geometry::Point;

use super::*;

impl Story {
    /// The screen point of a place on the fitted board.
    fn on_board(&self, at: Point) -> Pos2 {
        let plan = self.harness.get_by_label("Board plan").rect();
        // A fitted board keeps a margin of 42 points.
        let radius = plan.size().min_elem() / 2.0 - 42.0;
        let scale = 2.0 * radius / self.app().session.board.blank.diameter as f32;
        plan.center() + egui::vec2(at.x as f32, -at.y as f32) * scale
    }

    /// The screen point of a hole of the fitted board.
    fn at_hole(&self, name: &str) -> Pos2 {
        let workpiece = self.app().current.good().unwrap();
        let hole = workpiece.layout().hole(name.parse().unwrap()).unwrap();
        self.on_board(hole.center)
    }

    fn click_at(&mut self, at: Pos2) {
        self.harness.hover_at(at);
        self.harness.drag_at(at);
        self.harness.drop_at(at);
        self.harness.run();
    }
}

#[test]
fn the_wood_between_two_bores_is_measured_by_a_button_and_two_clicks() {
    let mut story = Story::begin();
    story.press("Measure");
    assert!(story.sees("Measure from: a hole"));
    for name in ["T1-07", "T1-08"] {
        let at = story.at_hole(name);
        story.click_at(at);
    }
    assert!(story.sees("T1-07 to T1-08: 19 mm   wood between"));
    story.keys(Modifiers::NONE, Key::Escape);
    assert!(!story.app().view.canvas.measuring());
    // The result stays, and a click chooses a hole again.
    let at = story.at_hole("H1-2");
    story.click_at(at);
    assert!(story.sees("T1-07 to T1-08: 19 mm"));
    assert_eq!(story.app().view.selected, "H1-2".parse().ok());
}
