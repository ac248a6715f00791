//! A maker's work with files: opening, saving, looking at exports before they are written, and exporting.

use super::*;
use crate::exports::{Kind, Source};
use crate::host::Host as _;

#[test]
fn a_board_is_saved_and_opened_by_a_typed_path() {
    let mut story = Story::begin();
    story.type_into("Players", "5");
    story.keys(Modifiers::COMMAND, Key::S);
    story.fill("Board file", "/boards/five");
    story.press("Save");
    let saved = story
        .host
        .file("/boards/five.json")
        .expect("nothing was saved");
    assert_eq!(read_board(&saved).unwrap(), story.app().session.board);
    assert!(!story.app().session.is_dirty());
    story.type_into("Players", "3");
    story.keys(Modifiers::COMMAND, Key::O);
    assert!(story.sees("Save changes?"));
    story.press("Don't save");
    story.fill("Board file", "/boards/five.json");
    story.press("Open");
    assert_eq!(story.app().session.board.players, 5);
    story.press("File");
    story.press("Sample boards");
    story.press(SAMPLES[3].title);
    story.press("File");
    story.press("Recent boards");
    story.press("five.json");
    assert_eq!(story.app().session.board.players, 5);
}

const FIRST: &str = "/home/maker/settings/unsaved-1.json";
const SECOND: &str = "/home/maker/settings/unsaved-2.json";

/// A window that opens after another one ended with five players typed.
fn after_a_crash(lock: bool, more: &[(&str, &[u8])]) -> Story {
    let mut story = Story::begin();
    assert_eq!(story.host.file(FIRST), None);
    story.type_into("Players", "5");
    let kept = story.host.file(FIRST).expect("nothing was kept aside");
    let mut fake = Fake::new();
    fake.put(FIRST, &kept);
    for (path, bytes) in more {
        fake.put(path, bytes);
    }
    if lock {
        fake.locked
            .push("/home/maker/settings/window-1.lock".into());
    }
    let mut story = Story::in_world(fake, None, [1280.0, 820.0]);
    story.harness.state_mut().offer_rescue();
    story.harness.run();
    assert_eq!(story.app().session.board.players, 6);
    story
}

#[test]
fn changes_that_no_file_holds_survive_the_end_of_the_program() {
    let mut opened = after_a_crash(false, &[]);
    assert!(opened.sees("5 players, last changed 2026-11-25 10:30, never saved"));
    opened.keys(Modifiers::NONE, Key::Enter);
    assert_eq!(opened.app().session.board.players, 5);
    assert!(opened.app().session.is_dirty() && opened.host.file(FIRST).is_some());
    // It goes on being kept in its place, and goes once it is saved.
    opened.type_into("Players", "7");
    assert!(opened.host.file(SECOND).is_none());
    opened.keys(Modifiers::COMMAND, Key::S);
    opened.fill("Board file", "/five");
    opened.press("Save");
    assert_eq!(opened.host.file(FIRST), None);
    let mut given_up = after_a_crash(false, &[]);
    given_up.press("Discard");
    assert_eq!(given_up.app().session.board.players, 6);
    assert_eq!(given_up.host.file(FIRST), None);
    assert!(given_up.app().view.dialog.is_none());
    // A copy left for later is there for the next window.
    let mut later = after_a_crash(false, &[]);
    later.press("Later");
    assert!(later.host.file(FIRST).is_some() && later.app().view.dialog.is_none());
}

/// The second window does not offer the changes of the first, which is open, and does not remove them when it closes.
#[test]
fn a_window_leaves_the_changes_of_another_one_alone() {
    let mut story = after_a_crash(true, &[]);
    assert!(story.app().view.dialog.is_none());
    let first = story.host.file(FIRST);
    story.type_into("Players", "7");
    assert!(story.host.file(SECOND).is_some());
    story.keys(Modifiers::COMMAND, Key::Q);
    story.press("Don't save");
    eframe::App::on_exit(story.harness.state_mut(), None);
    assert_eq!(story.host.file(SECOND), None);
    assert_eq!(story.host.file(FIRST), first);
}

/// The window of a display that is lost ends without a question.
#[test]
fn changes_are_kept_aside_where_nobody_gave_them_up() {
    let mut story = Story::begin();
    story.type_into("Players", "5");
    eframe::App::on_exit(story.harness.state_mut(), None);
    assert!(story.host.file(FIRST).is_some());
}

/// Text that is still in its field belongs to the board that a command is about.
#[test]
fn a_text_in_its_field_is_saved_with_the_board() {
    let mut story = opened_and_changed();
    story.press("Finish");
    story.fill("Player 2, color", "brick red");
    story.keys(Modifiers::COMMAND, Key::S);
    let saved = read_board(&story.host.file("/b.json").unwrap()).unwrap();
    assert_eq!(saved, story.app().session.board);
    let brick = board::Rgb::named("brick red").unwrap();
    assert_eq!(workshop::player_look(&saved, 2).color, brick);
    // A press on another stage ends the text too.
    story.fill("Player 3, color", "brick red");
    story.press("Bench");
    assert_eq!(
        workshop::player_look(&story.app().session.board, 3).color,
        brick
    );
}

#[test]
fn a_save_that_fails_after_a_question_says_so() {
    let mut story = opened_and_changed();
    story.host.put("/b.json", b"{}");
    story.keys(Modifiers::COMMAND, Key::S);
    story.press("Discard my changes and reload");
    assert!(story.sees("no board file") && story.app().session.is_dirty());
}

#[test]
fn a_broken_copy_is_named_and_set_aside() {
    let story = after_a_crash(false, &[(SECOND, b"{")]);
    assert!(story.sees("unsaved-2.json.broken-1") && story.sees("Restore"));
    assert_eq!(story.host.file(SECOND), None);
    assert!(
        story
            .host
            .file("/home/maker/settings/unsaved-2.json.broken-1")
            .is_some()
    );
}

#[test]
fn a_disk_that_keeps_nothing_aside_is_told_once() {
    let mut fake = Fake::new();
    fake.is_full = true;
    let mut story = Story::in_world(fake, None, [1280.0, 820.0]);
    story.type_into("Players", "5");
    story.harness.run();
    assert!(story.sees("save often") && story.sees("the disk is full"));
}

/// A board in a file, opened in a window that has another number of players typed.
fn opened_and_changed() -> Story {
    let fake = Fake::new();
    fake.put(
        "/b.json",
        board::write_board(&SAMPLES[1].board()).as_bytes(),
    );
    let mut story = Story::in_world(fake, Some("/b.json"), [1280.0, 820.0]);
    story.type_into("Players", "5");
    story
}

#[test]
fn a_file_that_another_program_changed_is_not_replaced_unasked() {
    let theirs = board::write_board(&SAMPLES[2].board());
    let mut story = opened_and_changed();
    story.host.put("/b.json", theirs.as_bytes());
    story.keys(Modifiers::COMMAND, Key::S);
    assert!(story.sees("has changed on disk"));
    assert_eq!(story.host.file("/b.json").unwrap(), theirs.as_bytes());
    story.press("Cancel");
    story.keys(Modifiers::COMMAND, Key::S);
    story.press("Discard my changes and reload");
    assert_eq!(story.app().session.board, SAMPLES[2].board());
    let mut story = opened_and_changed();
    story.host.put("/b.json", theirs.as_bytes());
    story.keys(Modifiers::COMMAND, Key::S);
    story.press("Replace");
    assert!(!story.app().session.is_dirty());
    assert_ne!(story.host.file("/b.json").unwrap(), theirs.as_bytes());
    // The replaced version is kept, and a second save asks nothing.
    assert_eq!(story.host.file("/b.json~").unwrap(), theirs.as_bytes());
    story.type_into("Players", "7");
    story.keys(Modifiers::COMMAND, Key::S);
    assert!(!story.app().session.is_dirty() && story.app().view.dialog.is_none());
}

#[test]
fn the_version_before_the_last_save_is_kept_and_can_be_taken_back() {
    let before = SAMPLES[1].board();
    let mut story = opened_and_changed();
    story.keys(Modifiers::COMMAND, Key::S);
    story.press("File");
    story.press("Version before the last save");
    assert_eq!(story.app().session.board, before);
    assert!(story.app().session.is_dirty());
    story.keys(Modifiers::COMMAND, Key::Z);
    assert_eq!(story.app().session.board.players, 5);
    let mut new = Story::begin();
    new.press("File");
    new.press("Version before the last save");
    assert!(new.sees("never saved"));
}

#[test]
fn a_file_is_known_by_its_whole_path() {
    let fake = Fake::new();
    fake.put(
        "/work/b.json",
        board::write_board(&SAMPLES[1].board()).as_bytes(),
    );
    let story = Story::in_world(fake, Some("b.json"), [1280.0, 820.0]);
    let whole = std::path::Path::new("/work/b.json");
    assert_eq!(story.app().session.path(), Some(whole));
    assert_eq!(story.app().settings.recent, [whole]);
}

#[test]
fn a_broken_file_is_refused_with_its_fault_and_left_alone() {
    let fake = Fake::new();
    fake.put("/boards/newer.json", b"{\"format\": 9}");
    let mut story = Story::in_world(fake, None, [1280.0, 820.0]);
    story.keys(Modifiers::COMMAND, Key::O);
    story.fill("Board file", "/boards/newer.json");
    story.press("Open");
    assert!(story.sees("a newer one wrote it"));
    assert_eq!(story.holes(), 127);
    assert_eq!(
        story.host.file("/boards/newer.json").unwrap(),
        b"{\"format\": 9}"
    );
}

#[test]
fn a_file_that_is_named_at_the_start_is_opened() {
    let fake = Fake::new();
    fake.put(
        "/b.json",
        board::write_board(&SAMPLES[1].board()).as_bytes(),
    );
    let story = Story::in_world(fake, Some("/b.json"), [1280.0, 820.0]);
    assert_eq!(story.app().session.board, SAMPLES[1].board());
    let story = Story::in_world(Fake::new(), Some("/missing.json"), [1280.0, 820.0]);
    assert!(story.sees("a sample board is shown instead"));
}

#[test]
fn every_kind_is_exported_and_nothing_replaced_unasked() {
    let mut story = Story::begin();
    story.press("Export templates");
    story.fill("Folder", "/out");
    story.press("Export");
    let pdf = story
        .host
        .file("/out/six-lobes-in-walnut-template.pdf")
        .unwrap();
    assert!(pdf.starts_with(b"%PDF-"));
    let workpiece = story.app().current.good().unwrap().clone();
    let source = Source::new(workpiece.clone(), story.host.today());
    let usual = Kind::ALL
        .into_iter()
        .filter(|kind| kind.is_usual(workpiece.board()));
    let mut wanted: Vec<String> = usual.flat_map(|kind| source.file_names(kind)).collect();
    let mut written: Vec<String> = story
        .host
        .files
        .lock()
        .unwrap()
        .keys()
        .filter_map(|path| Some(path.strip_prefix("/out").ok()?.display().to_string()))
        .collect();
    wanted.sort();
    written.sort();
    assert_eq!(written, wanted);
    assert!(written.len() > 10, "{written:?}");
    assert!(story.sees("Wrote"));
    story.press("Open folder");
    story.press("Open file six-lobes-in-walnut-template.pdf");
    let shown = story.host.shown.lock().unwrap().clone();
    let wanted = ["/out", "/out/six-lobes-in-walnut-template.pdf"];
    assert_eq!(shown, wanted.map(std::path::PathBuf::from));
    story.press("Close");
    story.keys(Modifiers::COMMAND, Key::E);
    assert!(story.sees("Already in the folder"));
    assert!(
        story
            .harness
            .get_by_label("Export")
            .accesskit_node()
            .is_disabled()
    );
    story.press("Replace existing files");
    story.press("Export");
    story.keys(Modifiers::NONE, Key::Escape);
    assert!(story.app().view.dialog.is_none());
}

#[test]
fn an_export_with_a_missing_feed_writes_the_rest_and_leads_to_the_field() {
    let mut story = Story::begin();
    story.press("Drill");
    story.fold("Machine");
    story.reach("Drill by machine");
    story.write_into("Drill speed", "1500");
    story.press("Export templates");
    assert!(story.sees("Plunge feed of the 12 mm Forstner bit"));
    assert!(!story.sees("Drill speed of the 12 mm Forstner bit"));
    story.fill("Folder", "/out");
    story.reach("None: Plans and records");
    story.reach("None: For the customer");
    story.press("Export");
    let template = "/out/six-lobes-in-walnut-template.pdf";
    assert!(story.host.file(template).is_some());
    assert!(
        story
            .host
            .file("/out/six-lobes-in-walnut-job.pdf")
            .is_none()
    );
    assert!(story.sees("Not written: Machine programs (G-code)"));
    story.press("Plunge feed of the 12 mm Forstner bit");
    assert!(story.app().view.dialog.is_none());
    assert_eq!(story.app().view.stage, crate::stage::Stage::Drill);
    story.write_into("Plunge feed", "200");
    story.press("Export templates");
    assert!(!story.sees("Plunge feed of the"));
    story.reach("None: On paper, at true size");
    story.reach("None: Plans and records");
    story.reach("None: For the customer");
    story.fill("Folder", "/programs");
    story.press("Export");
    let files = story.host.files.lock().unwrap();
    let is_program = |path: &std::path::PathBuf| {
        path.starts_with("/programs") && path.extension().is_some_and(|ending| ending == "ngc")
    };
    assert!(files.keys().any(is_program), "{:?}", files.keys());
}

#[test]
fn every_page_of_every_kind_can_be_looked_at_before_it_is_written() {
    let mut story = Story::begin();
    story.press("Drill");
    story.fold("Machine");
    story.reach("Drill by machine");
    story.press("Template");
    story.fold("Hardboard");
    story.reach("Make router template");
    story.reach("Make one-player jig");
    story.press("Export templates");
    assert!(story.sees("page 1 of 6: 1A"));
    story.press("Next");
    assert!(story.sees("page 2 of 6: 1B"));
    story.keys(Modifiers::NONE, Key::PageUp);
    assert!(story.sees("page 1 of 6: 1A"));
    // No feed is typed yet: the missing ones are listed in place of the programs.
    story.reach("Show Machine programs (G-code)");
    assert!(story.sees("missing spindle speed") || story.sees("missing feed"));
    for (kind, first, shown) in [
        (
            "Sector jig (PDF)",
            "page 1 of 5: 1A",
            "Preview of the sheet",
        ),
        (
            "Router template (PDF and SVG)",
            "page 1 of 7: 1A",
            "Preview of the sheet",
        ),
        (
            "Hole table (CSV)",
            "file 1 of 1: holes.csv",
            "name,role,player,number,x_mm",
        ),
    ] {
        assert!(!story.sees(first), "{first} is there before {kind}");
        story.reach(&format!("Show {kind}"));
        assert!(story.sees(first) && story.sees(shown), "{kind}");
    }
}

#[test]
fn an_export_of_a_board_that_is_stopped_says_so() {
    let mut story = Story::begin();
    story.press("Export templates");
    assert!(!story.sees("findings marked stop"));
    story.press("Cancel");
    story.type_into("Hole spacing", "10");
    story.press("Export templates");
    assert!(story.sees("findings marked stop"));
}

#[test]
fn without_a_dialog_service_the_path_is_typed() {
    let mut story = Story::begin();
    story.keys(Modifiers::COMMAND, Key::O);
    story.press("Browse…");
    assert!(story.sees("type a path"));
    let fake = Fake {
        picks: Picked::Path("/picked.json".into()),
        ..Fake::new()
    };
    fake.put(
        "/picked.json",
        board::write_board(&SAMPLES[2].board()).as_bytes(),
    );
    let mut story = Story::in_world(fake, None, [1280.0, 820.0]);
    story.keys(Modifiers::COMMAND, Key::O);
    story.press("Browse…");
    story.press("Open");
    assert_eq!(story.app().session.board.title, SAMPLES[2].title);
}

#[test]
fn a_sample_is_opened_from_the_menu() {
    let mut story = Story::begin();
    story.press("File");
    story.press("Sample boards");
    story.press(SAMPLES[3].title);
    assert_eq!(story.app().session.board.title, SAMPLES[3].title);
}

#[test]
fn a_template_is_printed_after_a_question_and_is_to_be_measured() {
    let mut story = Story::begin();
    story.press("Export templates");
    story.reach("None: Plans and records");
    story.reach("None: For the customer");
    story.fill("Folder", "/out");
    story.press("Export");
    let name = "six-lobes-in-walnut-template.pdf";
    story.press(&format!("Print… {name}"));
    assert!(story.sees("at true size, without scaling, on one side of A4 paper"));
    story.press("Don't print");
    assert!(story.host.printed.lock().unwrap().is_empty());
    story.press(&format!("Print… {name}"));
    story.press("Print");
    let printed = story.host.printed.lock().unwrap().clone();
    let file = std::path::PathBuf::from(format!("/out/{name}"));
    assert_eq!(printed, [(file, kurbo::Size::new(210.0, 297.0))]);
    story.harness.run();
    assert!(story.sees("Measure the bars of the first sheet"));
}

/// A file as the system hands it over.
#[derive(Debug)]
struct Handed(&'static str);

impl egui::DroppedFile for Handed {
    fn path(&self) -> &std::path::Path {
        std::path::Path::new(self.0)
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        Err("it is read by its path".into())
    }
}

/// A world with a board of so many players in each of these files.
fn with_boards(files: &[(&str, u32)]) -> Fake {
    let fake = Fake::new();
    for &(path, players) in files {
        let board = board::Board {
            players,
            ..board::Board::default()
        };
        fake.put(path, board::write_board(&board).as_bytes());
    }
    fake
}

#[test]
fn a_file_that_is_dropped_on_the_window_is_opened_after_changes_are_asked_about() {
    let fake = with_boards(&[("/boards/four.json", 4)]);
    let mut story = Story::in_world(fake, None, [1280.0, 820.0]);
    story.type_into("Players", "5");
    let file = Arc::new(Handed("/boards/four.json"));
    story.harness.input_mut().dropped_files.push(file);
    story.harness.run();
    assert!(story.sees("Save changes?"));
    story.press("Don't save");
    assert_eq!(story.app().session.board.players, 4);
    assert_eq!(story.app().settings.recent.len(), 1);
}

/// The list changes when the board at hand is saved first.
#[test]
fn the_recent_board_that_was_picked_is_opened_also_after_a_save() {
    let fake = with_boards(&[("/boards/two.json", 2), ("/boards/four.json", 4)]);
    let mut story = Story::in_world(fake, None, [1280.0, 820.0]);
    let recent = ["/boards/two.json", "/boards/four.json"].map(Into::into);
    story.harness.state_mut().settings.recent = recent.to_vec();
    story.type_into("Players", "5");
    story.press("File");
    story.press("Recent boards");
    story.press("four.json");
    story.press("Save");
    story.fill("Board file", "/boards/five");
    story.press("Save");
    assert_eq!(story.app().session.board.players, 4);
    assert_eq!(story.app().settings.recent.len(), 3);
}
