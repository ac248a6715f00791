//! The commands as a maker or a script runs them: the real program, in a folder of its own.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

mod fields;
mod lacks;
mod shop;

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use board::{Board, Center, read_board, write_board};
use geometry::Pattern;

fn run(folder: &Path, args: &[&str]) -> Output {
    let program = env!("CARGO_BIN_EXE_ringwright");
    Command::new(program)
        .args(args)
        .current_dir(folder)
        .env("XDG_CONFIG_HOME", folder.join("settings"))
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .output()
        .unwrap()
}

fn words(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

/// A board whose holes are too near each other for its pieces.
fn write_bad(folder: &Path, pitch: f64) {
    let bad = Board {
        pitch,
        ..Board::default()
    };
    fs::write(folder.join("bad.json"), write_board(&bad)).unwrap();
}

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().unwrap()
}

#[test]
fn what_takes_long_is_told_before_and_made_only_if_it_is_asked_for() {
    let folder = folder();
    fs::write(
        folder.path().join("board.json"),
        write_board(&Board::default()),
    )
    .unwrap();
    let asked = [
        "export",
        "board.json",
        "--out",
        "out",
        "--only",
        "csv,proof",
    ];
    let large = [asked.as_slice(), &["--proof-size", "6000"]].concat();
    let told = run(folder.path(), &large);
    assert_eq!(told.status.code(), Some(2));
    let said = words(&told.stderr);
    assert!(
        said.contains("proof: 2 pictures of 28.8 megapixels, about "),
        "{said}"
    );
    assert!(
        said.trim_end().ends_with("add --large to make it"),
        "{said}"
    );
    assert!(!folder.path().join("out").exists());
    let small = [asked.as_slice(), &["--proof-size", "200"]].concat();
    assert!(run(folder.path(), &small).status.success());
}

#[test]
fn new_writes_what_is_wished_for_and_chooses_the_rest() {
    let folder = folder();
    let options = [
        "new",
        "--players",
        "4",
        "--pattern",
        "arms",
        "--across",
        "5",
        "--spaces",
        "20",
        "--home",
        "3",
        "--start",
        "3",
    ];
    let more = [
        "--center",
        "pivot",
        "--pitch",
        "3/4\"",
        "--board",
        "700",
        "--bore",
        "1/2\"",
        "--rotation",
        "-45",
        "b.json",
    ];
    let output = run(folder.path(), &[&options[..], &more[..]].concat());
    assert!(output.status.success(), "{}", words(&output.stderr));
    let board = read_board(&fs::read(folder.path().join("b.json")).unwrap()).unwrap();
    assert_eq!(
        (board.players, board.spaces, board.home, board.start),
        (4, 20, 3, 3)
    );
    assert_eq!(board.pattern, Pattern::Arms { across: 5 });
    assert!(matches!(board.center, Center::Pivot { .. }));
    assert!((board.pitch - 19.05).abs() < 1e-9 && (board.bores.track.diameter - 12.7).abs() < 1e-9);
    assert_eq!((board.blank.diameter, board.rotation), (700.0, -45.0));
}

#[test]
fn new_replaces_nothing_unasked() {
    let folder = folder();
    fs::write(folder.path().join("b.json"), "mine").unwrap();
    let output = run(folder.path(), &["new", "b.json"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(words(&output.stderr).contains("was not replaced: b.json"));
    assert_eq!(fs::read(folder.path().join("b.json")).unwrap(), b"mine");
    assert!(
        run(folder.path(), &["new", "--force", "b.json"])
            .status
            .success()
    );
}

#[test]
fn wishes_that_cannot_be_built_name_the_nearest_that_can() {
    let folder = folder();
    let output = run(
        folder.path(),
        &["new", "--pattern", "arms", "--spaces", "13", "b.json"],
    );
    assert_eq!(output.status.code(), Some(2));
    assert!(
        words(&output.stderr).contains("use 12 or 14"),
        "{}",
        words(&output.stderr)
    );
    assert!(!folder.path().join("b.json").exists());
    let output = run(folder.path(), &["new", "--pitch", "wide", "b.json"]);
    assert!(words(&output.stderr).contains("--pitch: Not a length: \"wide\""));
    let output = run(
        folder.path(),
        &["new", "--pattern", "ring", "--depth", "0.2", "b.json"],
    );
    assert!(words(&output.stderr).contains("--depth is for --pattern lobes only"));
    let output = run(
        folder.path(),
        &["new", "--pitch", "NaN", "--rotation", "1e999", "b.json"],
    );
    assert_eq!(output.status.code(), Some(2));
}

#[test]
fn a_wish_out_of_its_range_is_named_itself() {
    let folder = folder();
    for (option, value, said) in [
        ("--board", "100000", "Board diameter: 100000 mm"),
        ("--bore", "-5", "Bore diameter: -5 mm"),
        ("--pitch", "0", "Hole spacing: 0 mm"),
        ("--rotation", "NaN", "Rotation: NaN°"),
        ("--players", "0", "Players: 0"),
    ] {
        let output = run(folder.path(), &["new", option, value, "b.json"]);
        assert_eq!(output.status.code(), Some(2));
        assert!(
            words(&output.stderr).contains(said),
            "{}",
            words(&output.stderr)
        );
    }
    let output = run(
        folder.path(),
        &["new", "--units", "in", "--board", "350", "b.json"],
    );
    assert!(words(&output.stderr).contains("Board diameter: 350\""));
    let output = run(folder.path(), &["new", "missing/b.json"]);
    assert!(words(&output.stderr).contains("there is no such folder: missing/b.json"));
}

#[test]
fn text_that_is_not_a_number_is_refused_in_plain_words() {
    let folder = folder();
    for (option, value, said) in [
        ("--players", "-3", "expected a whole number of 0 or more"),
        ("--spaces", "14.5", "expected a whole number of 0 or more"),
        ("--rotation", "north", "expected a number"),
    ] {
        let output = run(folder.path(), &["new", option, value, "b.json"]);
        assert_eq!(output.status.code(), Some(2));
        let errors = words(&output.stderr);
        assert!(errors.contains(said) && errors.contains(option), "{errors}");
    }
    assert!(!folder.path().join("b.json").exists());
}

#[test]
fn a_small_board_gets_pieces_and_bores_that_have_room() {
    let folder = folder();
    for size in [["--board", "300"], ["--pitch", "10"], ["--pitch", "1/2\""]] {
        let made = run(
            folder.path(),
            &[&["new", "--force"], &size[..], &["b.json"]].concat(),
        );
        assert!(made.status.success(), "{}", words(&made.stderr));
        let checked = run(folder.path(), &["check", "b.json"]);
        assert_eq!(checked.status.code(), Some(0), "{}", words(&checked.stdout));
    }
}

/// The lanes of both run so near the center pin that no pieces have room there.
#[test]
fn what_check_would_stop_is_refused_with_what_works_instead() {
    let folder = folder();
    let ring = "new --players 2 --spaces 10 --home 3 --pitch 20.1mm";
    let polygon = "new --players 3 --pattern polygon --spaces 14 --home 4 --start 3 --pitch 19.6mm";
    for (options, instead) in [
        (ring, "2 home holes per player"),
        (polygon, "3 home holes per player"),
    ] {
        let args: Vec<&str> = options.split(' ').chain(["b.json"]).collect();
        let output = run(folder.path(), &args);
        assert_eq!(output.status.code(), Some(2));
        let said = words(&output.stderr);
        assert!(
            said.contains(instead) && said.contains("a hole spacing of"),
            "{said}"
        );
        assert!(!folder.path().join("b.json").exists());
    }
}

#[test]
fn a_closed_pipe_is_no_fault_and_does_not_change_the_verdict() {
    let folder = folder();
    write_bad(folder.path(), 10.0);
    assert!(run(folder.path(), &["new", "good.json"]).status.success());
    for (args, code) in [
        (&["check", "bad.json"][..], 1),
        (&["check", "--json", "bad.json"], 1),
        (&["check", "good.json"], 0),
        (&["new", "another.json"], 0),
        (&["export", "good.json", "--out", "out"], 0),
    ] {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let output = Command::new(env!("CARGO_BIN_EXE_ringwright"))
            .args(args)
            .current_dir(folder.path())
            .stdout(writer)
            .output()
            .unwrap();
        assert_eq!(output.status.code(), Some(code), "{args:?}");
        assert_eq!(words(&output.stderr), "", "{args:?}");
    }
    assert!(folder.path().join("another.json").exists());
    assert_eq!(
        fs::read_dir(folder.path().join("out")).unwrap().count(),
        USUAL.len()
    );
}

/// The exit code of a check of a board file, its output and its errors.
fn checked(folder: &Path, file: &str) -> (Option<i32>, String, String) {
    let output = run(folder, &["check", file]);
    let code = output.status.code();
    (code, words(&output.stdout), words(&output.stderr))
}

#[test]
fn check_ends_with_0_on_a_clean_board_and_on_one_with_cautions() {
    let folder = folder();
    assert!(run(folder.path(), &["new", "good.json"]).status.success());
    let (code, told, _) = checked(folder.path(), "good.json");
    assert_eq!(code, Some(0), "{told}");
    // Marbles are small parts on every board.
    let cautions = |told: &str| told.matches("caution").count();
    assert!(
        cautions(&told) == 1 && told.contains("child safety") && !told.contains("stop"),
        "{told}"
    );
    write_bad(folder.path(), 16.2);
    let (code, told, _) = checked(folder.path(), "bad.json");
    assert_eq!(code, Some(0), "{told}");
    assert!(cautions(&told) > 1 && !told.contains("stop"), "{told}");
}

#[test]
fn check_ends_with_1_on_a_board_with_a_stop() {
    let folder = folder();
    write_bad(folder.path(), 10.0);
    let (code, told, fault) = checked(folder.path(), "bad.json");
    assert_eq!((code, fault.as_str()), (Some(1), ""));
    assert!(told.contains("stop"), "{told}");
    let as_json = run(folder.path(), &["check", "--json", "bad.json"]);
    assert_eq!(as_json.status.code(), Some(1));
}

#[test]
fn check_ends_with_2_where_there_is_no_board_to_check() {
    let folder = folder();
    assert!(run(folder.path(), &["new", "good.json"]).status.success());
    let text = fs::read_to_string(folder.path().join("good.json")).unwrap();
    fs::write(folder.path().join("cut.json"), &text[..text.len() / 2]).unwrap();
    let (code, told, fault) = checked(folder.path(), "cut.json");
    assert_eq!((code, told.as_str()), (Some(2), ""));
    assert!(fault.contains("ends too early, at line"), "{fault}");
    let (code, told, fault) = checked(folder.path(), "missing.json");
    assert_eq!((code, told.as_str()), (Some(2), ""));
    assert!(fault.contains("missing.json"), "{fault}");
    // A folder can be opened, but not read.
    fs::create_dir(folder.path().join("folder.json")).unwrap();
    assert_eq!(checked(folder.path(), "folder.json").0, Some(2));
    assert_eq!(run(folder.path(), &["check"]).status.code(), Some(2));
}

#[test]
fn a_command_reports_the_number_of_boards_it_took_from_an_older_file() {
    let folder = folder();
    let board = Board {
        filling: Some(board::Filling::default()),
        ..Board::default()
    };
    let text = write_board(&board);
    let older = text.replacen("\"filling\": {", "\"filling\": {\"boards\": 3,", 1);
    assert_ne!(text, older);
    fs::write(folder.path().join("older.json"), older).unwrap();
    let (_, told, fault) = checked(folder.path(), "older.json");
    assert!(
        fault.contains("3 boards to fill and 1 ordered: 3 are taken"),
        "{fault}"
    );
    assert!(!told.contains("to fill"), "{told}");
}

#[test]
fn check_tells_other_programs_the_same() {
    let folder = folder();
    write_bad(folder.path(), 13.0);
    let output = run(folder.path(), &["check", "--json", "bad.json"]);
    let report: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(report["format"], 1);
    assert_eq!(report["holes"], 145);
    let web = report["findings"]
        .as_array()
        .unwrap()
        .iter()
        .find(|finding| finding["rule"] == "web")
        .unwrap();
    assert_eq!(web["severity"], "caution");
    assert!((web["measured"]["mm"].as_f64().unwrap() - 1.0).abs() < 1e-9);
    assert!(
        web["holes"]
            .as_array()
            .unwrap()
            .iter()
            .any(|hole| hole == "T1-01")
    );
}

/// The files of a board that plans for nothing more.
const USUAL: [&str; 21] = [
    "oak-for-two-card.pdf",
    "oak-for-two-cut-list.csv",
    "oak-for-two-holes.csv",
    "oak-for-two-jig.csv",
    "oak-for-two-jig.pdf",
    "oak-for-two-job.pdf",
    "oak-for-two-lists.pdf",
    "oak-for-two-proof-perspective.pdf",
    "oak-for-two-proof-perspective.png",
    "oak-for-two-proof-perspective.svg",
    "oak-for-two-proof.pdf",
    "oak-for-two-proof.png",
    "oak-for-two-proof.svg",
    "oak-for-two-section.svg",
    "oak-for-two-shopping.csv",
    "oak-for-two-sums.csv",
    "oak-for-two-sums.json",
    "oak-for-two-template.pdf",
    "oak-for-two-whole.dxf",
    "oak-for-two-whole.pdf",
    "oak-for-two-whole.svg",
];

#[test]
fn export_writes_all_kinds_or_those_that_are_named() {
    let folder = folder();
    assert!(
        run(
            folder.path(),
            &["new", "--title", "Oak for two", "--players", "2", "b.json"]
        )
        .status
        .success()
    );
    let output = run(folder.path(), &["export", "b.json", "--out", "all"]);
    assert!(output.status.success(), "{}", words(&output.stderr));
    let mut names: Vec<String> = fs::read_dir(folder.path().join("all"))
        .unwrap()
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    assert_eq!(names, USUAL);
    assert_eq!(words(&output.stdout).lines().count(), 21);
    let output = run(
        folder.path(),
        &["export", "b.json", "--out", "some", "--only", "csv,svg"],
    );
    assert!(output.status.success());
    assert_eq!(fs::read_dir(folder.path().join("some")).unwrap().count(), 2);
    let output = run(
        folder.path(),
        &["export", "b.json", "--out", "twice", "--only", "csv,csv"],
    );
    assert_eq!(words(&output.stdout).lines().count(), 1);
    let output = run(folder.path(), &["export", "b.json", "--out", "not/there"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(words(&output.stderr).contains("no folder to make it in: not/there"));
    assert!(!folder.path().join("not").exists());
    assert_eq!(
        run(
            folder.path(),
            &["export", "b.json", "--out", "x", "--only", "stl"]
        )
        .status
        .code(),
        Some(2)
    );
}

#[test]
fn the_exported_table_has_a_row_of_numbers_for_every_hole() {
    let folder = folder();
    assert!(
        run(folder.path(), &["new", "--title", "b", "b.json"])
            .status
            .success()
    );
    let options = ["export", "b.json", "--out", "out", "--only", "csv"];
    assert!(run(folder.path(), &options).status.success());
    let table = fs::read_to_string(folder.path().join("out/b-holes.csv")).unwrap();
    let mut lines = table.lines();
    let header: Vec<&str> = lines.next().unwrap().split(',').collect();
    let column = |name: &str| header.iter().position(|title| *title == name).unwrap();
    let (x, y, radius) = (column("x_mm"), column("y_mm"), column("radius_mm"));
    let mut rows = 0;
    for line in lines {
        let cells: Vec<&str> = line.split(',').collect();
        assert_eq!(cells.len(), header.len(), "{line}");
        let number = |at: usize| cells[at].parse::<f64>().unwrap();
        let apart = number(x).powi(2) + number(y).powi(2) - number(radius).powi(2);
        assert!(apart.abs() < 0.01, "{line}");
        rows += 1;
    }
    assert_eq!(rows, 145);
}

#[test]
fn export_tells_that_a_board_should_not_be_made() {
    let folder = folder();
    write_bad(folder.path(), 10.0);
    let output = run(folder.path(), &["export", "bad.json", "--out", "out"]);
    assert!(output.status.success());
    assert!(words(&output.stderr).contains("ringwright check bad.json"));
}

#[test]
fn export_replaces_nothing_unasked_and_writes_nothing_then() {
    let folder = folder();
    assert!(
        run(folder.path(), &["new", "--title", "b", "b.json"])
            .status
            .success()
    );
    fs::create_dir(folder.path().join("out")).unwrap();
    fs::write(folder.path().join("out/b-holes.csv"), "mine").unwrap();
    let output = run(folder.path(), &["export", "b.json", "--out", "out"]);
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(fs::read_dir(folder.path().join("out")).unwrap().count(), 1);
    assert!(
        run(
            folder.path(),
            &["export", "b.json", "--out", "out", "--force"]
        )
        .status
        .success()
    );
    assert_ne!(
        fs::read(folder.path().join("out/b-holes.csv")).unwrap(),
        b"mine"
    );
    // A file where the folder should be.
    assert_eq!(
        run(folder.path(), &["export", "b.json", "--out", "b.json"])
            .status
            .code(),
        Some(2)
    );
}

#[test]
fn without_a_display_one_sentence_names_what_is_missing_and_what_to_do() {
    let output = run(folder().path(), &[]);
    assert_eq!(output.status.code(), Some(1));
    let said = words(&output.stderr);
    assert_eq!(said.trim().lines().count(), 1, "{said}");
    assert!(
        said.contains("DISPLAY") && said.contains("ringwright export"),
        "{said}"
    );
}

#[test]
fn help_shows_how_each_command_is_used() {
    let help = words(&run(folder().path(), &["--help"]).stdout);
    for part in [
        "new",
        "check",
        "export",
        "ringwright export walnut.json --out templates",
        "100 %",
    ] {
        assert!(help.contains(part), "{part} is not in\n{help}");
    }
    let kinds = words(&run(folder().path(), &["export", "--help"]).stdout);
    for kind in [
        "template-pdf",
        "template-svg",
        "plot-pdf",
        "svg",
        "dxf",
        "router",
        "sector",
        "csv",
        "jig",
        "gcode",
        "sums",
        "fit-strip",
        "printer-test",
    ] {
        assert!(kinds.contains(&format!("- {kind}:")), "{kind} in {kinds}");
    }
}
