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

impl Story {
    /// Drags without letting go.
    fn take_along(&mut self, from: Pos2, to: Pos2) {
        self.harness.hover_at(from);
        self.harness.drag_at(from);
        self.harness.hover_at(from.lerp(to, 0.5));
        self.harness.hover_at(to);
        self.harness.run_steps(4);
    }

    fn drag(&mut self, from: Pos2, to: Pos2) {
        self.take_along(from, to);
        self.harness.drop_at(to);
        self.harness.run();
    }

    fn hold(&mut self, modifiers: Modifiers) {
        self.harness.event(egui::Event::ModifiersChanged(modifiers));
        self.harness.run();
    }

    fn board(&self) -> &board::Board {
        &self.app().session.board
    }

    fn moved(&self, name: &str, mirrored: bool) -> (f64, f64) {
        self.board().moved(name.parse().unwrap(), mirrored)
    }

    /// The place of the hole in its player's sector.
    fn local(&self, name: &str) -> Point {
        let id: board::HoleId = name.parse().unwrap();
        let layout = self.app().current.good().unwrap().layout().clone();
        layout.sectors[id.player() as usize - 1].local(layout.hole(id).unwrap().center)
    }
}

/// Steps over the screen, in points: two millimeters and more, so that it is no click.
const DOWN: egui::Vec2 = egui::vec2(4.0, 17.0);

#[test]
fn a_hole_is_dragged_with_its_twins_in_one_step_that_is_undone() {
    let mut story = Story::begin();
    let (from, before) = (story.at_hole("T1-4"), story.local("T1-4"));
    story.take_along(from, from + DOWN);
    assert!(story.sees("T1-04: radius") && story.sees("least wood"));
    story.harness.drop_at(from + DOWN);
    story.harness.run();
    let after = story.local("T1-4");
    assert!(after.distance(before) > 5.0);
    for player in 2..=6 {
        assert_near!(story.local(&format!("T{player}-4")), after, 1e-9);
    }
    assert_eq!(story.board().edits.len(), 1);
    assert_eq!(story.app().view.selected, "T1-4".parse().ok());
    story.keys(Modifiers::NONE, Key::Escape);
    assert_eq!(story.app().view.selected, None);
    story.keys(Modifiers::COMMAND, Key::Z);
    assert_eq!(story.board().edits, []);
    assert!(!story.app().session.can_undo());
}

#[test]
fn with_ctrl_a_hole_is_dragged_alone_and_escape_takes_a_drag_back() {
    let mut story = Story::begin();
    let from = story.at_hole("T1-4");
    story.hold(Modifiers::COMMAND);
    story.drag(from, from + DOWN);
    story.hold(Modifiers::NONE);
    assert_eq!(story.moved("T1-4", true), (0.0, 0.0));
    assert!(story.moved("T1-4", false).1 < -5.0);
    let kept = story.board().clone();
    let pocket = story.at_hole("S2-2");
    story.take_along(pocket, pocket + DOWN);
    assert!(*story.board() != kept);
    story.keys(Modifiers::NONE, Key::Escape);
    assert_eq!(*story.board(), kept);
    // The rest of the drag changes nothing.
    story.harness.hover_at(pocket + 3.0 * DOWN);
    story.harness.drop_at(pocket + 3.0 * DOWN);
    story.harness.run();
    assert_eq!(*story.board(), kept);
}

#[test]
fn pockets_and_the_edge_of_the_board_are_dragged() {
    let mut story = Story::begin();
    let between = story.at_hole("S1-2").lerp(story.at_hole("S1-3"), 0.5);
    story.harness.hover_at(between);
    story.harness.run();
    assert!(story.sees("Drag: start pockets"));
    let before = story.local("S3-2");
    story.drag(between, between + egui::vec2(0.0, 20.0));
    let pocket = story.board().pocket;
    assert!(pocket.bearing.is_some() && pocket.radius.is_some());
    assert!(story.local("S3-2").distance(before) > 5.0);
    let rim = story.on_board(Point::new(0.0, -story.board().blank.radius()));
    let (from, to) = (rim + egui::vec2(30.0, -2.0), rim + egui::vec2(30.0, 14.0));
    let before = story.board().blank.diameter;
    story.drag(from, to);
    assert!(story.board().blank.diameter > before + 5.0);
    assert!(story.sees("Undo"));
}

#[test]
fn arrow_keys_nudge_the_chosen_hole_and_its_twins() {
    let mut story = Story::begin();
    let at = story.at_hole("T1-7");
    story.click_at(at);
    story.keys(Modifiers::NONE, Key::ArrowRight);
    story.keys(Modifiers::NONE, Key::ArrowRight);
    story.keys(Modifiers::SHIFT, Key::ArrowUp);
    assert_eq!(story.moved("T1-7", true), (1.0, 5.0));
    story.keys(Modifiers::COMMAND, Key::Z);
    assert_eq!(story.moved("T1-7", true), (1.0, 0.0));
    let fewer = story.holes() - 6;
    story.harness.get_by_label("Board plan").focus();
    story.harness.run();
    story.keys(Modifiers::NONE, Key::Delete);
    assert_eq!(story.holes(), fewer);
}

#[test]
fn several_holes_are_chosen_by_ctrl_and_by_a_box_and_move_together() {
    let mut story = Story::begin();
    let (first, second) = (story.at_hole("H1-1"), story.at_hole("H1-2"));
    story.click_at(first);
    story.hold(Modifiers::COMMAND);
    story.click_at(second);
    story.hold(Modifiers::NONE);
    assert_eq!(story.app().view.chosen().len(), 2);
    story.keys(Modifiers::NONE, Key::ArrowUp);
    assert_eq!(story.moved("H1-1", true), (0.0, 0.5));
    assert_eq!(story.moved("H1-2", true), (0.0, 0.5));
    // Around the start pocket of the first player, on plain wood.
    let corners = (story.at_hole("S2-1"), story.at_hole("S2-3"));
    let part = egui::Rect::from_two_pos(corners.0, corners.1).expand(14.0);
    story.hold(Modifiers::COMMAND);
    story.drag(part.left_top(), part.right_bottom());
    story.hold(Modifiers::NONE);
    assert_eq!(story.app().view.chosen().len(), 2 + 3);
}

#[test]
fn holes_are_chosen_by_role_and_player_and_get_one_depth() {
    let mut story = Story::begin();
    story.press("Select");
    story.press("All home lanes");
    assert_eq!(story.app().view.chosen().len(), 30);
    assert!(story.sees("30 holes chosen"));
    story.type_into("Their depth", "7");
    let board = story.board().clone();
    let depth = |name: &str| {
        board::layout(&board)
            .unwrap()
            .hole(name.parse().unwrap())
            .unwrap()
            .bore
            .depth
    };
    assert_eq!((depth("H1-1"), depth("H6-5")), (7.0, 7.0));
    // For every player, one change does for all of them.
    assert_eq!(board.edits.len(), 5);
    story.press("Select");
    story.press("Holes of player 3");
    assert_eq!(story.app().view.chosen().len(), 21);
    let fewer = story.holes() - 6 * 21;
    story.reach("Remove these holes");
    assert_eq!(story.holes(), fewer);
}

#[test]
fn a_hole_is_chosen_and_moved_by_the_names_that_a_screen_reader_says() {
    let mut story = Story::begin();
    story
        .harness
        .get_by_label("T1-07, track space, player 1")
        .click_accesskit();
    story.harness.run();
    story.keys(Modifiers::NONE, Key::ArrowDown);
    assert_eq!(story.moved("T1-7", true), (0.0, -0.5));
    story.keys(Modifiers::COMMAND, Key::ArrowDown);
    let hole = story.harness.get_by_label("H1-1, home lane, player 1");
    assert_eq!(hole.accesskit_node().is_selected(), Some(true));
    assert!(hole.is_focused());
}

#[test]
fn true_size_asks_for_a_ruler_once_and_chosen_holes_are_zoomed_to() {
    let mut story = Story::begin();
    story.press("View");
    story.press("True size on the screen");
    story.fill("Length of the bar", "3");
    story.press("Show true size");
    assert!(story.sees("20 mm to 2000 mm"));
    story.fill("Length of the bar", "100");
    story.press("Show true size");
    // The bar is 400 points long.
    assert_near!(story.app().settings.pixels_per_mm.unwrap(), 4.0, 1e-9);
    let apart = |story: &Story| {
        let hole = |name: &str| story.harness.get_by_label(name).rect().center();
        hole("H1-1, home lane, player 1").distance(hole("H1-2, home lane, player 1"))
    };
    assert!((apart(&story) - 4.0 * 19.0).abs() < 0.1);
    story.keys(Modifiers::COMMAND, Key::F);
    story.press("View");
    story.press("True size on the screen");
    assert!((apart(&story) - 4.0 * 19.0).abs() < 0.1);
    let chosen = "S4-2, start pocket, player 4";
    story.keys(Modifiers::COMMAND, Key::F);
    story.harness.get_by_label(chosen).click_accesskit();
    story.harness.run();
    story.keys(Modifiers::COMMAND, Key::I);
    let (plan, hole) = ("Board plan", story.harness.get_by_label(chosen).rect());
    let plan = story.harness.get_by_label(plan).rect();
    assert!(plan.center().distance(hole.center()) < 1.0 && hole.width() > 80.0);
}

#[test]
fn chosen_holes_get_a_color_by_hand_and_lose_it_again() {
    let mut story = Story::begin();
    let at = story.at_hole("H2-1");
    story.click_at(at);
    let field = story
        .harness
        .get_by_role_and_label(Role::TextInput, "Its color");
    field.scroll_to_me();
    story.harness.run();
    story.write_into("Its color", "Brick red");
    let hue = |story: &Story, name: &str| story.board().colors.of_hole(name.parse().unwrap()).hue;
    let red = board::Hue::One {
        color: board::Rgb::new(0x9e, 0x2b, 0x25),
    };
    assert_eq!((hue(&story, "H2-1"), hue(&story, "H5-1")), (red, red));
    story.reach("Back to the color of the role");
    assert_eq!(hue(&story, "H5-1"), board::Hue::Bare);
}

#[test]
fn everything_that_can_be_dragged_is_moved_by_keys_too() {
    let mut story = Story::begin();
    story.harness.get_by_label("Board plan").focus();
    story.harness.run();
    let told = |story: &Story| {
        let plan = story.harness.get_by_label("Board plan");
        plan.accesskit_node()
            .data()
            .value()
            .unwrap_or_default()
            .to_owned()
    };
    let mut met = std::collections::BTreeSet::new();
    for _ in 0..4 {
        story.keys(Modifiers::NONE, Key::Period);
        let before = story.board().clone();
        met.insert(told(&story));
        story.keys(Modifiers::NONE, Key::ArrowUp);
        assert_ne!(*story.board(), before, "{met:?}");
        story.keys(Modifiers::COMMAND, Key::Z);
        assert_eq!(*story.board(), before, "{met:?}");
        story.harness.get_by_label("Board plan").focus();
        story.harness.run();
    }
    let all = [
        "Home lanes",
        "Start pockets",
        "Edge of the board",
        "Rotation of the pattern",
    ];
    let all = all.map(|thing| format!("{thing}: move by arrow keys"));
    assert_eq!(met, all.into_iter().collect());
    story.keys(Modifiers::NONE, Key::Comma);
    story.keys(Modifiers::SHIFT, Key::ArrowUp);
    assert!(story.sees("Edge of the board: board diameter 505 mm"));
    assert_near!(story.board().blank.diameter, 505.0, 1e-9);
    story.keys(Modifiers::NONE, Key::Escape);
    assert_eq!(told(&story), "");
}

#[test]
fn a_click_on_the_edge_takes_it_for_the_arrow_keys_until_a_hole_is_chosen() {
    let mut story = Story::begin();
    let rim = story.on_board(Point::new(0.0, -story.board().blank.radius()));
    story.click_at(rim + egui::vec2(40.0, -3.0));
    story.keys(Modifiers::NONE, Key::ArrowUp);
    assert_near!(story.board().blank.diameter, 500.5, 1e-9);
    let hole = story.at_hole("T1-7");
    story.click_at(hole);
    story.keys(Modifiers::NONE, Key::ArrowUp);
    assert_eq!(story.moved("T1-7", true), (0.0, 0.5));
    assert_near!(story.board().blank.diameter, 500.5, 1e-9);
}

#[test]
fn start_pockets_stay_while_a_hole_is_dragged_and_settle_after_it() {
    let mut story = Story::begin();
    let (from, pocket) = (story.at_hole("T1-4"), story.local("S1-2"));
    let far = from + egui::vec2(-30.0, 110.0);
    story.take_along(from, far);
    let others = ["S1-1", "S1-2", "S1-3"].map(|name| story.local(name));
    assert_near!(others[1], pocket, 1e-9);
    assert_eq!(story.board().pocket.radius, None);
    story.harness.drop_at(far);
    story.harness.run();
    let settled = board::layout(story.board()).unwrap();
    let workpiece = story.app().current.good().unwrap();
    assert_eq!(workpiece.layout().pocket, settled.pocket);
    assert!(story.local("S1-2").distance(pocket) > 1.0);
    assert_eq!(story.board().pocket.radius, None);
}
