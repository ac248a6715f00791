//! The proof before the board is made: in perspective, turned by keys, and from above.

use super::*;

const PERSPECTIVE: &str = "Picture of the finished board, in perspective";

impl Story {
    fn has(&self, label: &str) -> bool {
        self.harness.query_by_label(label).is_some()
    }

    /// Whether a button can be pressed.
    fn is_ready(&self, label: &str) -> bool {
        let button = self.harness.get_by_role_and_label(Role::Button, label);
        !button.accesskit_node().is_disabled()
    }
}

#[test]
fn the_board_is_turned_by_keys_and_turned_back() {
    let mut story = Story::begin();
    story.keys(Modifiers::COMMAND, Key::P);
    assert!(story.has(PERSPECTIVE) && !story.is_ready("Turn back"));
    story.press(PERSPECTIVE);
    for key in [Key::ArrowLeft, Key::ArrowUp] {
        story.keys(Modifiers::NONE, key);
        assert!(story.is_ready("Turn back"));
        story.press("Turn back");
        assert!(!story.is_ready("Turn back"));
        story.press(PERSPECTIVE);
    }
}

#[test]
fn from_above_there_is_nothing_to_turn() {
    let mut story = Story::begin();
    story.press("Proof");
    story.press("From above");
    let above = "Picture of the finished board, from above";
    assert!(story.has(above) && !story.has(PERSPECTIVE));
    story.press(above);
    story.keys(Modifiers::NONE, Key::ArrowLeft);
    assert!(!story.is_ready("Turn back"));
    story.press("In perspective");
    assert!(story.has(PERSPECTIVE) && !story.is_ready("Turn back"));
}

#[test]
fn the_proof_says_that_no_wood_is_chosen() {
    let mut story = Story::begin();
    story.press("Proof");
    let missing = "No wood chosen yet (stage Wood): plain pale wood is shown.";
    let has_wood = story.app().session.board.wood.is_some();
    assert_eq!(story.has(missing), !has_wood);
}
