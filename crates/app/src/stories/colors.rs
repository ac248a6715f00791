//! A maker who colors a board at the stage Finish.

use board::{Rgb, SET};
use workshop::player_look;

use super::*;

/// The smallest window.
const SMALL: [f32; 2] = [900.0, 600.0];

#[test]
fn a_players_color_is_picked_by_its_name_and_undone() {
    let mut story = Story::in_world(Fake::new(), None, SMALL);
    story.press("Finish");
    let color = |story: &Story| player_look(&story.app().session.board, 2).color;
    assert_eq!(color(&story), SET[1]);
    story.write_into("Player 2, color", "brick red");
    assert_eq!(color(&story), Rgb::named("brick red").unwrap());
    story.keys(Modifiers::COMMAND, Key::Z);
    assert_eq!(color(&story), SET[1]);
    // The button beside it opens the colors that have names; a press beside them changes nothing.
    story.press("Player 2, color, pick");
    story.press("brick red");
    assert_eq!(color(&story), Rgb::named("brick red").unwrap());
    story.keys(Modifiers::COMMAND, Key::Z);
    story.press("Player 2, color, pick");
    let outside = egui::pos2(700.0, 560.0);
    story.harness.drag_at(outside);
    story.harness.drop_at(outside);
    story.harness.run();
    assert_eq!(color(&story), SET[1]);
}

#[test]
fn twenty_four_players_have_lines_of_their_own() {
    let mut story = Story::in_world(Fake::new(), None, SMALL);
    story.harness.state_mut().session.board.players = 24;
    story.harness.run();
    story.press("Finish");
    let parts = |player: u32| {
        ["color, pick", "color", "mark"].map(|part| {
            let name = format!("Player {player}, {part}");
            story.harness.get_by_label(&name).rect()
        })
    };
    let lines: Vec<[egui::Rect; 3]> = (1..=24).map(parts).collect();
    for line in &lines {
        assert!(line[0].right() <= line[1].left() && line[1].right() <= line[2].left());
        // The panel is as wide as its fields.
        assert!(
            line[0].left() >= 0.0 && line[2].right() <= 312.0,
            "{line:?}"
        );
    }
    for pair in lines.windows(2) {
        let ends = pair[0].iter().map(egui::Rect::bottom);
        let begins = pair[1].iter().map(egui::Rect::top);
        assert!(
            ends.fold(f32::MIN, f32::max) <= begins.fold(f32::MAX, f32::min),
            "{pair:?}"
        );
    }
}
