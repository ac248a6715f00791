//! Fields of a board's file shown and changed by `get` and `set`.

use std::fs;
use std::path::Path;

use board::read_board;

use super::{folder, run, words};

/// A sample of the commands' own: a board as `new` writes it, in inches.
fn new_board(folder: &Path) -> String {
    let output = run(folder, &["new", "--units", "in", "b.json"]);
    assert_eq!(output.status.code(), Some(0));
    fs::read_to_string(folder.join("b.json")).unwrap()
}

fn get(folder: &Path, path: &str) -> String {
    let output = run(folder, &["get", "b.json", path]);
    assert_eq!(output.status.code(), Some(0), "{}", words(&output.stderr));
    words(&output.stdout).trim_end().to_owned()
}

#[test]
fn fields_are_set_as_makers_type_them_and_got_back() {
    let folder = folder();
    new_board(folder.path());
    let set = |changes: &[&str]| {
        let output = run(folder.path(), &[&["set", "b.json"], changes].concat());
        assert_eq!(output.status.code(), Some(0), "{}", words(&output.stderr));
        words(&output.stdout)
    };
    let told = set(&[
        "pitch",
        "7/8",
        "blank.diameter_mm",
        "26 1/2 - 2*3/8",
        "pattern.kind",
        "polygon",
    ]);
    assert!(told.contains("hole spacing 3/4\" → 7/8\""), "{told}");
    assert_eq!(get(folder.path(), "blank.diameter"), "25 3/4\"");
    assert_eq!(get(folder.path(), "pattern.kind"), "polygon");
    // A part is added by its default or by its first member, and taken away again.
    set(&[
        "recess",
        "default",
        "filling.pot_life_at",
        "77 °F",
        "screws[0].count",
        "3",
        "pocket.radius",
        "4",
    ]);
    assert_eq!(get(folder.path(), "recess.depth_mm"), "3/8\"");
    assert_eq!(get(folder.path(), "filling.pot_life_at_c"), "77 °F");
    set(&[
        "recess",
        "none",
        "screws",
        "none",
        "pocket.radius",
        "auto",
        "grooves.rim_mm",
        "default",
    ]);
    assert_eq!(get(folder.path(), "recess"), "none");
    assert_eq!(get(folder.path(), "pocket.radius_mm"), "auto");
    // Words of the screen serve too, and numbers follow the unit that is set before them.
    set(&[
        "bores.track.bottom",
        "ball nose",
        "units",
        "mm",
        "rotation",
        "-15",
        "jig.plates",
        "24; 60",
    ]);
    assert_eq!(get(folder.path(), "bores.track.bottom"), "ball");
    assert_eq!(get(folder.path(), "rotation_deg"), "-15°");
    assert_eq!(get(folder.path(), "jig.plates"), "24; 60");
    assert_eq!(set(&["jig.plates", "24 60"]), "already set\n");
    let board = read_board(&fs::read(folder.path().join("b.json")).unwrap()).unwrap();
    assert_eq!(board.pitch, 22.225);
    assert_eq!(board.screws, []);
    // Planned while the board was in inches: 3/16 in.
    assert_eq!(board.grooves.unwrap().rim, Some(4.7625));
}

#[test]
fn one_entry_is_taken_out_of_the_middle_of_a_list() {
    let folder = folder();
    new_board(folder.path());
    let set = |changes: &[&str]| {
        let output = run(folder.path(), &[&["set", "b.json"], changes].concat());
        assert_eq!(output.status.code(), Some(0), "{}", words(&output.stderr));
        words(&output.stdout)
    };
    set(&[
        "screws[0].count",
        "3",
        "screws[1].count",
        "4",
        "screws[2].count",
        "5",
        "jig.plates",
        "24; 36; 48",
        "stock.outline.kind",
        "corners",
        "stock.outline.corners",
        "0; 0; 30; 0; 30; 15; 20; 25; 0; 25",
    ]);
    let told = set(&["screws[1]", "none"]);
    assert_eq!(told, "circles of screws 3 → 2\n");
    assert_eq!(get(folder.path(), "screws[1].count"), "5");
    set(&[
        "jig.plates[1]",
        "none",
        "stock.outline.corners_mm[2]",
        "None",
    ]);
    assert_eq!(get(folder.path(), "jig.plates"), "24; 48");
    assert_eq!(
        get(folder.path(), "stock.outline.corners"),
        "0\"; 0\"; 30\"; 0\"; 20\"; 25\"; 0\"; 25\""
    );
    // Entries move up, so that the same name takes out the next one.
    set(&["screws[0]", "none", "screws[0]", "none"]);
    assert_eq!(get(folder.path(), "screws"), "0");
}

#[test]
fn default_is_the_value_of_a_new_board_in_the_same_unit() {
    let folder = folder();
    new_board(folder.path());
    let set = |changes: &str| {
        let changes: Vec<&str> = changes.split_whitespace().collect();
        let output = run(folder.path(), &[&["set", "b.json"], &changes[..]].concat());
        assert_eq!(output.status.code(), Some(0), "{}", words(&output.stderr));
    };
    set(
        "pitch 1 players 4 pattern.kind arms pocket.radius 5 template.names no jig.plates 24 center.kind pivot",
    );
    set("recess.lid_fit.hold.kind slides recess.lid_fit.hold.angle 7 filling.shop 50");
    let plates = board::Board::default().jig.plates;
    let plates: Vec<String> = plates.iter().map(u32::to_string).collect();
    for (path, value) in [
        ("pitch", "3/4\""),
        ("players", "6"),
        ("pattern.across", "3"),
        ("pocket.radius", "auto"),
        ("template.names", "yes"),
        ("jig.plates", &plates.join("; ")),
        ("center.diameter", "1/4\""),
        ("recess.lid_fit.hold.angle", "14°"),
        ("filling.shop", "68 °F"),
        // A title may be called so.
        ("title", "default"),
    ] {
        set(&format!("{path} default"));
        assert_eq!(get(folder.path(), path), value, "{path}");
    }
    set("units mm pitch default");
    assert_eq!(get(folder.path(), "pitch"), "19 mm");
}

/// Asserts that a change is refused with these words, and leaves the file as before.
fn refused(folder: &Path, before: &str, changes: &[&str], said: &str) {
    let begun = ["set", "b.json", "players", "4"];
    let output = run(folder, &[&begun, changes].concat());
    assert_eq!(output.status.code(), Some(2), "{changes:?}");
    let told = words(&output.stderr);
    assert!(told.contains(said), "{told}");
    assert_eq!(fs::read_to_string(folder.join("b.json")).unwrap(), before);
}

#[test]
fn an_entry_that_is_not_there_is_refused_with_those_that_are() {
    let folder = folder();
    let before = new_board(folder.path());
    for (changes, said) in [
        ("screws[0] none", "screws[0]: the list has no entries"),
        (
            "machine.bits[0] none",
            "machine.bits[0]: the list has no entries",
        ),
        (
            "finish[0].kind wax finish[2] none",
            "finish[2]: the list has finish[0] alone",
        ),
        (
            "jig.plates 24;36 jig.plates[2] none",
            "jig.plates[2]: the list has jig.plates[0] to jig.plates[1]",
        ),
        (
            "jig.plates[1] 60",
            "\"60\" is not a value for a list entry; type none to remove it",
        ),
        ("pitch[0] none", "pitch[0]: there is no such field"),
        ("edits[0].hole default", "edits[0].hole: "),
    ] {
        let changes: Vec<&str> = changes.split_whitespace().collect();
        refused(folder.path(), &before, &changes, said);
    }
}

#[test]
fn a_change_that_cannot_be_leaves_the_file_as_it_was_and_says_what_would_work() {
    let folder = folder();
    let before = new_board(folder.path());
    for (changes, said) in [
        (
            vec!["pitch", "banana"],
            "pitch: Not a length: \"banana\". Try ",
        ),
        (
            vec!["pitch", "900"],
            "pitch: Hole spacing: 900\" is out of range; use ≈ 0.004\" to ≈ 9 27/32\"",
        ),
        (
            vec!["pich", "3/4"],
            "pich: there is no such field; did you mean pitch_mm?",
        ),
        (
            vec!["pattern.kind", "star"],
            "\"star\" is not one of ring, lobes, polygon, arms",
        ),
        (
            vec!["pattern.depth", "10 %"],
            "set pattern.kind to lobes first",
        ),
        (
            vec!["screws[2].count", "3"],
            "add the next entry of its list first",
        ),
        (
            vec!["recess.lid_fit.hold.angle", "14"],
            "set recess.lid_fit.hold.kind to slides first",
        ),
        (
            vec!["template.names", "perhaps"],
            "\"perhaps\" is not one of yes, no",
        ),
        (vec!["edits[0].hole", "Q7"], "edits[0].hole: "),
        (vec!["pitch"], "pitch has no value"),
    ] {
        refused(folder.path(), &before, &changes, said);
    }
    let output = run(folder.path(), &["get", "b.json", "limits.wbe_mm"]);
    assert!(words(&output.stderr).contains("did you mean limits.web_mm?"));
    assert_eq!(
        run(folder.path(), &["get", "none.json"]).status.code(),
        Some(2)
    );
}

#[test]
fn every_field_is_listed_with_its_value_and_what_it_may_be() {
    let folder = folder();
    new_board(folder.path());
    let output = run(folder.path(), &["get", "b.json"]);
    let listed = words(&output.stdout);
    let line = |path: &str| {
        let mut lines = listed.lines();
        let line = lines
            .find(|line| line.starts_with(&format!("{path} ")))
            .unwrap();
        line.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert_eq!(line("pitch_mm"), "pitch_mm 3/4\" ≈ 0.004\" to ≈ 9 27/32\"");
    assert_eq!(
        line("pattern.kind"),
        "pattern.kind ring ring, lobes, polygon, arms"
    );
    assert_eq!(line("grooves"), "grooves none default, none");
    assert!(listed.lines().count() > 60);
    // Each value that is printed is one that can be set.
    let all = board::field::all_fields();
    let board = read_board(&fs::read(folder.path().join("b.json")).unwrap()).unwrap();
    let mut changes = vec!["set".to_owned(), "b.json".into()];
    for field in all.filter(|field| field.value(&board, 0).is_some()) {
        changes.extend([field.path.to_owned(), get(folder.path(), field.path)]);
    }
    let changes: Vec<&str> = changes.iter().map(String::as_str).collect();
    let output = run(folder.path(), &changes);
    assert_eq!(output.status.code(), Some(0), "{}", words(&output.stderr));
}
