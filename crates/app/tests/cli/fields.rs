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
    assert_eq!(get(folder.path(), "recess.depth_mm"), "0.3937\"");
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
    assert_eq!(board.grooves.unwrap().rim, Some(5.0));
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
            "pitch: hole spacing is 900\"; it may be 0.0039\" to 39.3701\"",
        ),
        (
            vec!["pich", "3/4"],
            "pich: no field is called so; is it pitch_mm?",
        ),
        (
            vec!["pattern.kind", "star"],
            "\"star\" is none of ring, lobes, polygon, arms",
        ),
        (
            vec!["pattern.depth", "10 %"],
            "set pattern.kind to lobes first",
        ),
        (
            vec!["screws[2].count", "3"],
            "the next entry of its list is added first",
        ),
        (
            vec!["recess.lid_fit.hold.angle", "14"],
            "set recess.lid_fit.hold.kind to slides first",
        ),
        (
            vec!["template.names", "perhaps"],
            "\"perhaps\" is none of yes, no",
        ),
        (vec!["edits[0].hole", "Q7"], "edits[0].hole: "),
        (vec!["pitch"], "pitch has no value"),
    ] {
        let output = run(
            folder.path(),
            &[&["set", "b.json", "players", "4"], &changes[..]].concat(),
        );
        assert_eq!(output.status.code(), Some(2), "{changes:?}");
        let told = words(&output.stderr);
        assert!(told.contains(said), "{told}");
        assert_eq!(
            fs::read_to_string(folder.path().join("b.json")).unwrap(),
            before
        );
    }
    let output = run(folder.path(), &["get", "b.json", "limits.wbe_mm"]);
    assert!(words(&output.stderr).contains("is it limits.web_mm?"));
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
    assert_eq!(line("pitch_mm"), "pitch_mm 3/4\" 0.0039\" to 39.3701\"");
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
