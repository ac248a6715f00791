//! Exports of boards that lack something: what is told, and what is written all the same.

use std::fs;

use super::{folder, run, words};

#[test]
fn a_kind_that_the_board_does_not_plan_for_is_refused_with_the_way_out() {
    let folder = folder();
    assert!(run(folder.path(), &["new", "b.json"]).status.success());
    for kind in ["gcode", "router", "sector"] {
        let args = ["export", "b.json", "--out", "out", "--only", kind];
        let output = run(folder.path(), &args);
        assert_eq!(output.status.code(), Some(2), "{kind}");
        let said = words(&output.stderr);
        assert!(
            said.contains(kind) && said.contains("plan it under"),
            "{said}"
        );
        assert!(!folder.path().join("out").exists());
    }
    let args = [
        "export",
        "b.json",
        "--out",
        "out",
        "--printer",
        "No such one",
    ];
    let output = run(folder.path(), &args);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        words(&output.stderr).contains("No such one"),
        "{}",
        words(&output.stderr)
    );
}

/// The board is planned for a machine whose numbers are not typed yet: all else is written, and every number is named at once with the
/// command that sets it.
#[test]
fn an_export_that_lacks_numbers_writes_the_rest_and_tells_how_to_set_them() {
    let folder = folder();
    assert!(run(folder.path(), &["new", "b.json"]).status.success());
    let planned = run(folder.path(), &["set", "b.json", "machine", "default"]);
    assert!(planned.status.success(), "{}", words(&planned.stderr));
    let args = ["export", "b.json", "--out", "out", "--only", "csv,gcode"];
    let output = run(folder.path(), &args);
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(fs::read_dir(folder.path().join("out")).unwrap().count(), 1);
    let said = words(&output.stderr);
    assert!(said.contains("not written: gcode"), "{said}");
    let commands: Vec<&str> = said
        .lines()
        .filter_map(|line| line.split_once("ringwright set "))
        .map(|(_, command)| command)
        .collect();
    assert!(
        said.contains("Drill speed") && said.contains("Plunge feed") && commands.len() >= 2,
        "{said}"
    );
    for command in commands {
        let command = command.replace("RPM", "1500").replace("FEED", "200mm/min");
        let command = command.replace('"', "");
        let args: Vec<&str> = ["set"].into_iter().chain(command.split(' ')).collect();
        let set = run(folder.path(), &args);
        assert!(set.status.success(), "{command}: {}", words(&set.stderr));
    }
    let args = ["export", "b.json", "--out", "out", "--force"];
    let output = run(folder.path(), &args);
    assert!(output.status.success(), "{}", words(&output.stderr));
    assert!(
        words(&output.stdout).contains(".ngc"),
        "{}",
        words(&output.stdout)
    );
}
