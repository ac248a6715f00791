//! From an order to its template: the dialog of a new board.

use board::{INCH, Paper, PieceKind};

use super::*;

/// A story that counts the maker's actions: a press, a text typed into a field, a pair of keys.
struct Counted {
    story: Story,
    actions: usize,
}

impl Counted {
    fn press(&mut self, label: &str) {
        self.story.press(label);
        self.actions += 1;
    }

    /// Goes into a field and types: two actions.
    fn write(&mut self, label: &str, text: &str) {
        self.story.write_into(label, text);
        self.actions += 2;
    }

    fn number(&mut self, label: &str, text: &str) {
        self.story.type_into(label, text);
        self.actions += 2;
    }

    /// Opens a list and takes from it: two actions.
    fn choose(&mut self, label: &str, option: &str) {
        self.story.field(Role::ComboBox, label).scroll_to_me();
        self.story.harness.run();
        self.story.choose(label, option);
        self.actions += 2;
    }

    fn keys(&mut self, key: Key) {
        self.story.keys(Modifiers::COMMAND, key);
        self.actions += 1;
    }
}

/// Four players, a board of 20 inches, marbles of 5/8 inch, a template on Letter.
#[test]
fn an_order_becomes_a_template_in_fifteen_actions() {
    let mut order = Counted {
        story: Story::begin(),
        actions: 0,
    };
    order.keys(Key::N);
    order.choose("Units", "inches, to 1/32");
    order.number("Players", "4");
    order.write("Piece diameter", "5/8");
    order.write("Board diameter", "20");
    order.choose("Paper", "Letter");
    order.press("Begin");
    order.keys(Key::E);
    order.press("Export");
    assert!(order.actions <= 15, "{} actions", order.actions);
    let board = &order.story.app().session.board;
    assert_eq!((board.players, board.piece.kind), (4, PieceKind::Marble));
    assert_near!(board.blank.diameter, 20.0 * INCH, 1e-9);
    assert_near!(board.piece.diameter, 5.0 / 8.0 * INCH, 1e-9);
    assert_eq!(board.template.paper, Paper::Letter);
    let workpiece = order.story.app().current.good().unwrap();
    assert!(!workshop::stops(workpiece.findings()));
    let files = order.story.host.files.lock().unwrap();
    let is_template = |path: &std::path::PathBuf| path.ends_with("board-for-4-ring-template.pdf");
    assert!(files.keys().any(is_template), "{:?}", files.keys());
}

#[test]
fn a_slab_and_a_kind_of_wood_are_part_of_the_order() {
    let mut story = Story::begin();
    story.keys(Modifiers::COMMAND, Key::N);
    assert!(story.sees("The board to come: 145 holes"));
    story.press("Make it out of a slab I have");
    story.type_into("Slab width", "450");
    story.choose("Made of", "2 strips");
    story.field(Role::ComboBox, "Species").click();
    story.harness.run();
    story.harness.event(egui::Event::Text("hard".into()));
    story.harness.run();
    story.keys(Modifiers::NONE, Key::Enter);
    assert!(story.sees("The board to come"));
    story.press("Begin");
    let board = &story.app().session.board;
    assert_eq!(board.panel.build, board::Build::Strips { count: 2 });
    assert_eq!(board.wood.as_ref().unwrap().species, "sugar-maple");
    assert!(board.blank.diameter > 450.0, "{}", board.blank.diameter);
}

#[test]
fn what_cannot_be_made_is_told_at_once_with_what_would_do() {
    let mut story = Story::begin();
    story.keys(Modifiers::COMMAND, Key::N);
    story.write_into("Board diameter", "150");
    story.write_into("Piece diameter", "25");
    assert!(story.sees("one of these works"));
    let begin = story.harness.get_by_label("Begin");
    assert!(begin.accesskit_node().is_disabled());
    let offer = story.harness.get_by_label_contains("a board of");
    offer.click();
    story.harness.run();
    assert!(story.sees("The board to come"));
    story.press("Begin");
    assert_near!(story.app().session.board.piece.diameter, 25.0, 1e-9);
}

#[test]
fn spaces_and_lanes_are_offered_and_asked_for_by_the_names_of_the_controls() {
    let mut story = Story::begin();
    story.keys(Modifiers::COMMAND, Key::N);
    assert!(story.sees("The board to come"));
    let offered = story.field(Role::TextInput, "Home holes");
    assert_eq!(
        offered.accesskit_node().data().placeholder(),
        Some("chosen: 5")
    );
    story.write_into("Spaces per player", "10");
    story.write_into("Home holes", "3");
    story.write_into("Start holes", "2");
    assert!(story.sees("The board to come: 91 holes"));
    story.press("Begin");
    let board = &story.app().session.board;
    assert_eq!((board.spaces, board.home, board.start), (10, 3, 2));
}
