//! Tests of the panels: where they stand, how wide they are, and that nothing is cut off in a small window.

use egui::Vec2;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;

use super::*;
use crate::settings::Settings;
use crate::stage::Stage;
use crate::view::Face;
use crate::window::tests::sized;

/// The place of a control, which must lie inside the window and beside those before it.
fn lies_free(window: &Harness<'static, App>, size: Vec2, label: &str, others: &mut Vec<Rect>) {
    let rect = window.get_by_label(label).rect();
    assert!(
        Rect::from_min_size(Pos2::ZERO, size).contains_rect(rect),
        "{label} at {rect:?} in {size:?}"
    );
    let over = others
        .iter()
        .find(|other| other.shrink(1.0).intersects(rect));
    assert!(over.is_none(), "{label} at {rect:?} covers {over:?}");
    others.push(rect);
}

#[test]
fn the_bar_keeps_its_buttons_apart_at_every_width() {
    for width in [450.0, 500.0, 600.0, 640.0, 720.0, 860.0, 900.0, 1440.0] {
        let size = vec2(width, 450.0);
        let (window, mut others) = (sized(size), Vec::new());
        for label in [
            "File",
            "Edit",
            "View",
            "Help",
            "mm",
            "in",
            "Export templates",
        ] {
            lies_free(&window, size, label, &mut others);
        }
    }
}

/// A change of stage or face moves neither the drawing nor what is under the pointer.
#[test]
fn panels_keep_their_width_whatever_is_in_them() {
    for width in [900.0, 1280.0] {
        let mut window = sized(vec2(width, 600.0));
        let tab = |window: &Harness<'static, App>| window.get_by_label("Plan").rect();
        let before = tab(&window);
        for label in Stage::ALL.map(Stage::label) {
            window.get_by_label(label).click();
            window.run_steps(4);
            assert_eq!(tab(&window), before, "{label} at {width}");
        }
        for face in Face::ALL {
            window.state_mut().view.face = face;
            window.run_steps(4);
            assert_eq!(tab(&window).min, before.min, "{face:?} at {width}");
        }
    }
}

/// The tab nearest to the controls, and the field of a caption.
fn begin_and_field(window: &Harness<'static, App>) -> (f32, Rect) {
    let field = window.get_by_role_and_label(egui::accesskit::Role::TextInput, "Title");
    (window.get_by_label("Plan").rect().left(), field.rect())
}

#[test]
fn panels_and_fields_are_wider_in_a_wide_window() {
    let (begin, field) = begin_and_field(&sized(vec2(1280.0, 820.0)));
    let (wide, wide_field) = begin_and_field(&sized(vec2(1920.0, 1080.0)));
    assert!(wide > begin + 60.0, "{begin} {wide}");
    assert!(wide_field.width() > field.width() + 40.0 && wide_field.right() < wide);
}

#[test]
fn a_width_that_the_maker_has_pulled_is_kept() {
    let mut window = sized(vec2(1920.0, 1080.0));
    let before = begin_and_field(&window).0;
    let edge = Pos2::new(before - theme::GAP - 2.0, 500.0);
    window.drag_at(edge);
    window.run_steps(2);
    for step in 1..=4 {
        window.hover_at(edge - vec2(10.0 * step as f32, 0.0));
        window.run_steps(2);
    }
    window.drop_at(edge - vec2(40.0, 0.0));
    window.run_steps(2);
    let pulled = begin_and_field(&window).0;
    assert!((before - pulled - 40.0).abs() < 3.0, "{before} {pulled}");
    let kept = serde_json::to_string(&window.state().settings).unwrap();
    let read: Settings = serde_json::from_str(&kept).unwrap();
    assert!(read.controls.width.is_some() && read.findings.width.is_none());
    for size in [vec2(900.0, 600.0), vec2(1920.0, 1080.0)] {
        window.set_size(size);
        window.run_steps(4);
    }
    assert_eq!(begin_and_field(&window).0, pulled);
}

/// A window of 900 by 600 points enlarged to 200 %.
#[test]
fn every_entry_of_a_menu_can_be_brought_into_a_low_window() {
    let size = vec2(450.0, 300.0);
    for (menu, entries) in [
        ("File", ["Recent boards", "Shop…"]),
        ("View", ["True size on the screen", "High contrast"]),
    ] {
        let mut window = sized(size);
        window.get_by_label(menu).click();
        window.run_steps(4);
        for entry in entries {
            window.get_by_label(entry).scroll_to_me();
            window.run_steps(8);
            lies_free(&window, size, entry, &mut Vec::new());
        }
    }
}

#[test]
fn menus_show_all_their_entries_where_there_is_room() {
    let size = vec2(900.0, 600.0);
    for (menu, entries) in [
        ("File", ["Recent boards", "Shop…"]),
        ("View", ["True size on the screen", "High contrast"]),
    ] {
        let mut window = sized(size);
        window.get_by_label(menu).click();
        window.run_steps(8);
        let mut others = Vec::new();
        for entry in entries {
            lies_free(&window, size, entry, &mut others);
        }
    }
}

#[test]
fn each_panel_is_folded_away_and_brought_back() {
    for (width, label, inside) in [
        (1280.0, "Panel of controls", "Board diameter"),
        (1280.0, "Panel of findings", "Key sizes"),
        (900.0, "Panel of controls", "Board diameter"),
        (900.0, "Panel of findings", "Key sizes"),
        (450.0, "Panel of findings", "Key sizes"),
    ] {
        let mut window = sized(vec2(width, 600.0));
        let press = |window: &mut Harness<'static, App>| {
            let ctx = window.ctx.clone();
            let mut all = Command::ALL.into_iter();
            let command = all.find(|command| command.label() == label);
            match window.query_by_label(label) {
                Some(button) => button.click(),
                None => window.state_mut().apply(&ctx, command.unwrap()),
            }
            window.run_steps(4);
        };
        let is_there = |window: &Harness<'static, App>| window.query_by_label(inside).is_some();
        if !is_there(&window) {
            press(&mut window);
        }
        assert!(is_there(&window), "{label} at {width}");
        press(&mut window);
        assert!(!is_there(&window), "{label} at {width}");
        window.get_by_label("Board plan");
        press(&mut window);
        assert!(is_there(&window), "{label} at {width}");
    }
}

#[test]
fn whoever_goes_to_a_stage_finds_its_controls_unfolded() {
    let mut window = sized(vec2(1280.0, 820.0));
    let before = window.get_by_label("Board plan").rect().width();
    window.key_press(egui::Key::F8);
    window.run_steps(4);
    assert!(window.get_by_label("Board plan").rect().width() > before + 300.0);
    window.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Num1);
    window.run_steps(4);
    assert_eq!(window.get_by_label("Board plan").rect().width(), before);
}

/// Every chosen word is in sight, and no list is wider than the fields.
#[test]
fn lists_end_where_fields_end() {
    use egui::accesskit::Role;
    let mut window = sized(vec2(900.0, 600.0));
    window.get_by_label("Template").click();
    window.run_steps(4);
    let field = window
        .get_by_role_and_label(Role::SpinButton, "Overlap")
        .rect();
    for caption in ["Marks", "DXF release", "Printer"] {
        let list = window.get_by_role_and_label(Role::ComboBox, caption).rect();
        assert!(
            (list.right() - field.right()).abs() < 1.0,
            "{caption}: {list:?} {field:?}"
        );
        assert!(
            (list.left() - field.left()).abs() < 1.0,
            "{caption}: {list:?} {field:?}"
        );
    }
}

/// A message stands in the line below, clear of the sizes that matter, and is read in full beside other words.
#[test]
fn a_message_covers_no_figures() {
    let size = vec2(900.0, 600.0);
    let mut window = sized(size);
    window.get_by_label_contains("Findings: 1 caution").click();
    window.run_steps(4);
    let app = window.state_mut();
    app.view.face = Face::Calendar;
    app.view.notify("Undone: hole spacing");
    window.run_steps(4);
    let mut places = Vec::new();
    for label in [
        "✓ Undone: hole spacing",
        "Hole spacing",
        "Least wood between holes",
        "Board weight",
        "Sheets",
    ] {
        let labels = window.get_all_by_label(label);
        let rect = labels.map(|node| node.rect()).reduce(|one, _| one).unwrap();
        let over = places.iter().find(|other: &&Rect| other.intersects(rect));
        assert!(over.is_none(), "{label} at {rect:?} covers {over:?}");
        places.push(rect);
    }
    let message = places[0];
    assert!(Rect::from_min_size(Pos2::ZERO, size).contains_rect(message));
    assert!(message.width() > 130.0, "{message:?}");
}

#[test]
fn the_views_stand_in_one_row_at_every_width() {
    for width in [450.0, 640.0, 900.0, 1100.0, 1280.0, 1920.0] {
        let size = vec2(width, 600.0);
        let mut window = sized(size);
        let mut others = Vec::new();
        let top = window.get_by_label("Plan").rect().center().y;
        for label in ["Plan", "Measure", "Select"] {
            lies_free(&window, size, label, &mut others);
            assert!((window.get_by_label(label).rect().center().y - top).abs() < 2.0);
        }
        // What has no tab is in the list.
        if window.query_by_label("Calendar").is_none() {
            lies_free(&window, size, "More views", &mut others);
            window.get_by_label("More views").click();
            window.run_steps(4);
        }
        window.get_by_label("Calendar").click();
        window.run_steps(4);
        assert_eq!(window.state().view.face, Face::Calendar, "{width}");
    }
}

#[test]
fn a_window_of_900_points_leaves_the_drawing_half_of_it() {
    let window = sized(vec2(900.0, 600.0));
    assert!(window.get_by_label("Board plan").rect().width() >= 450.0);
    window.get_by_label_contains("Findings: 1 caution");
}

#[test]
fn a_window_of_720_points_shows_the_board_beside_one_panel() {
    let mut window = sized(vec2(720.0, 450.0));
    assert!(window.get_by_label("Board plan").rect().width() > 380.0);
    window.get_by_label("Board diameter");
    window.get_by_label_contains("Findings: 1 caution").click();
    window.run();
    window.get_by_label("Least wood between holes");
    window.get_by_label("Board plan");
    assert!(window.query_by_label("Board diameter").is_none());
}

/// A window of 900 by 600 points enlarged to 200 %.
#[test]
fn every_dialog_lies_inside_a_window_of_450_points() {
    use egui::{Key, Modifiers};
    let size = vec2(450.0, 300.0);
    for (key, buttons) in [
        (Key::N, ["Begin", "Cancel"]),
        (Key::E, ["Export", "Cancel"]),
        (Key::O, ["Open", "Cancel"]),
    ] {
        let mut window = sized(size);
        window.key_press_modifiers(Modifiers::COMMAND, key);
        window.run_steps(8);
        for label in buttons {
            lies_free(&window, size, label, &mut Vec::new());
        }
    }
}

#[test]
fn a_window_of_450_points_shows_one_thing_at_a_time() {
    let mut window = sized(vec2(450.0, 300.0));
    window.get_by_label("Board plan");
    window.get_by_label("Controls").click();
    window.run();
    window.get_by_label("Board diameter");
    assert!(window.query_by_label("Board plan").is_none());
    window.get_by_label("Drawing").click();
    window.run();
    window.get_by_label("Board plan");
    // Whoever asks for a view sees it.
    window.get_by_label("Controls").click();
    window.run();
    window.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::J);
    window.run();
    assert!(window.query_by_label("Board diameter").is_none());
    window.get_by_label_contains("Section of the board, cut through");
}
