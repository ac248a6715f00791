//! The window under a maker's keys and pointer, with a file system of its own.

use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};

use super::*;
use crate::dialogs::PathDialog;
use crate::fake::Fake;

/// A window of a size, in points, with an empty world.
pub fn sized(size: egui::Vec2) -> Harness<'static, App> {
    in_world(&Arc::new(Fake::new()), size)
}

/// Presses and releases Tab in one frame: tests that visit every control draw many of them.
pub fn tab(window: &mut Harness<'static, App>) {
    let event = |pressed| egui::Event::Key {
        key: Key::Tab,
        physical_key: None,
        pressed,
        repeat: false,
        modifiers: Modifiers::NONE,
    };
    window.input_mut().events.extend([true, false].map(event));
    window.step();
}

fn window(fake: &Arc<Fake>) -> Harness<'static, App> {
    in_world(fake, egui::vec2(1280.0, 820.0))
}

fn in_world(fake: &Arc<Fake>, size: egui::Vec2) -> Harness<'static, App> {
    let host = fake.clone();
    let builder = Harness::builder()
        .with_size(size)
        .with_max_steps(12)
        .with_context_setup(theme::install);
    let mut window =
        builder.build_eframe(move |cc| App::new(&cc.egui_ctx, Settings::default(), host, None));
    window.run();
    window
}

fn keys(window: &mut Harness<'static, App>, modifiers: Modifiers, key: Key) {
    window.key_press_modifiers(modifiers, key);
    window.run();
}

fn press(window: &mut Harness<'static, App>, label: &str) {
    window.get_by_label(label).click();
    window.run();
}

#[test]
fn a_save_before_leaving_goes_on_to_what_waited_for_it() {
    let fake = Arc::new(Fake::new());
    let mut window = window(&fake);
    window.state_mut().session.board.players = 5;
    keys(&mut window, Modifiers::COMMAND, Key::N);
    press(&mut window, "Save");
    press(&mut window, "Save");
    let path = "/home/maker/six-lobes-in-walnut.json";
    assert!(fake.file(path).is_some());
    assert!(matches!(window.state().view.dialog, Some(Dialog::New(_))));
}

#[test]
fn leave_to_replace_a_file_is_for_that_file_alone() {
    let fake = Arc::new(Fake::new());
    fake.put("/one.json", b"1");
    fake.put("/two.json", b"2");
    let mut window = window(&fake);
    window.state_mut().view.dialog = Some(Dialog::SaveAs(PathDialog::new(
        Path::new("/one.json"),
        None,
    )));
    window.run();
    press(&mut window, "Replace existing file");
    window.get_by_label("Board file").focus();
    window.run();
    keys(&mut window, Modifiers::COMMAND, Key::A);
    window.event(egui::Event::Text("/two.json".into()));
    window.run();
    let save = window.get_by_label("Save");
    assert!(save.accesskit_node().is_disabled());
    keys(&mut window, Modifiers::NONE, Key::Enter);
    assert_eq!(fake.file("/two.json").unwrap(), b"2");
}

#[test]
fn a_path_can_be_typed_as_soon_as_it_is_asked_for() {
    let mut window = window(&Arc::new(Fake::new()));
    keys(&mut window, Modifiers::COMMAND, Key::O);
    window.event(egui::Event::Text("/missing.json".into()));
    window.run();
    keys(&mut window, Modifiers::NONE, Key::Enter);
    window.get_by_label_contains("Cannot read the file");
}

#[test]
fn redo_has_the_keys_of_both_habits() {
    let mut window = window(&Arc::new(Fake::new()));
    let undo = |window: &mut Harness<'static, App>| keys(window, Modifiers::COMMAND, Key::Z);
    window.state_mut().session.board.players = 5;
    window.run();
    undo(&mut window);
    assert_eq!(window.state().session.board.players, 6);
    keys(&mut window, Modifiers::COMMAND, Key::Y);
    assert_eq!(window.state().session.board.players, 5);
    undo(&mut window);
    keys(&mut window, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert_eq!(window.state().session.board.players, 5);
}

/// A picture longer than that could not be shown.
#[test]
fn the_longest_texture_is_as_long_as_the_longest_picture_or_longer() {
    let mut window = window(&Arc::new(Fake::new()));
    let ctx = window.ctx.clone();
    let mut side = |most| {
        let mut input = egui::RawInput {
            max_texture_side: most,
            ..egui::RawInput::default()
        };
        eframe::App::raw_input_hook(window.state_mut(), &ctx, &mut input);
        input.max_texture_side
    };
    assert_eq!(side(Some(16_384)), Some(WIDEST_TEXTURE));
    assert_eq!((side(Some(2048)), side(None)), (Some(2048), None));
    let (_, usual, _) = picture::SIZES;
    assert!(usual as usize <= WIDEST_TEXTURE);
}
