//! Boards in inches, and the maker's shop, from the command line.

use std::fs;
use std::path::Path;

use board::{Paper, Units, read_board};

use super::{folder, run, words};

/// Puts a shop where the program looks for it.
fn put_shop(folder: &Path, text: &str) {
    let settings = folder.join("settings/ringwright");
    fs::create_dir_all(&settings).unwrap();
    fs::write(settings.join("shop.json"), text).unwrap();
}

fn begun(folder: &Path, options: &[&str]) -> (board::Board, String) {
    let output = run(
        folder,
        &[&["new", "--force"], options, &["b.json"]].concat(),
    );
    let told = words(&output.stderr);
    assert!(output.status.success(), "{told}");
    (
        read_board(&fs::read(folder.join("b.json")).unwrap()).unwrap(),
        told,
    )
}

#[test]
fn a_board_in_inches_begins_with_us_sizes_and_passes_its_check() {
    let folder = folder();
    for units in ["in", "in/32", "in/16"] {
        let (board, _) = begun(folder.path(), &["--units", units]);
        assert_eq!(board.template.paper, Paper::Letter);
        let inches = |mm: f64| mm / 25.4;
        let sizes = [
            board.template.margin,
            board.limits.web,
            board.limits.rim,
            board.bores.spur,
            board.jig.kerf,
            board.panel.kerf,
            board.panel.planer,
            board.stock.thickness,
            board.stock.trim,
            board.panel.joint,
        ];
        let wanted = [
            0.375, 0.125, 0.25, 0.093_75, 0.125, 0.125, 12.5, 1.0, 0.25, 0.0625,
        ];
        for (size, wanted) in sizes.map(inches).into_iter().zip(wanted) {
            assert!((size - wanted).abs() < 1e-12, "{size} {wanted}");
        }
        let told = run(folder.path(), &["check", "b.json"]);
        assert!(told.status.success());
        let told = words(&told.stdout);
        assert!(!told.contains(" mm") && !told.contains("A4"), "{told}");
    }
    let output = run(folder.path(), &["export", "b.json", "--out", "t"]);
    assert!(output.status.success(), "{}", words(&output.stderr));
}

#[test]
fn a_part_that_is_planned_later_begins_in_inches_too() {
    let folder = folder();
    begun(folder.path(), &["--units", "in"]);
    for (path, value) in [
        ("router", "default"),
        ("jig.throat", "default"),
        ("filling", "default"),
    ] {
        let output = run(folder.path(), &["set", "b.json", path, value]);
        assert!(output.status.success(), "{}", words(&output.stderr));
    }
    for (path, shown) in [
        ("router.bushing", "5/8\""),
        ("jig.throat", "6\""),
        ("filling.batch", "1 fl oz"),
        ("filling.pot_life_at", "77 °F"),
    ] {
        let output = run(folder.path(), &["get", "b.json", path]);
        assert_eq!(words(&output.stdout).trim(), shown, "{path}");
    }
}

#[test]
fn a_new_board_begins_with_the_shop_or_without_it() {
    let folder = folder();
    put_shop(
        folder.path(),
        r#"{"format": 1, "shop": {"template.paper": "tabloid", "panel.planer_mm": 406.4, "units": "in/16"}}"#,
    );
    let (board, told) = begun(folder.path(), &[]);
    assert_eq!(told, "");
    assert_eq!(board.template.paper, Paper::Tabloid);
    assert_eq!(board.panel.planer, 406.4);
    assert!(board.units.is_inch());
    let (plain, _) = begun(folder.path(), &["--no-shop"]);
    assert_eq!((plain.units, plain.template.paper), (Units::Mm, Paper::A4));
    let (metric, _) = begun(folder.path(), &["--units", "mm"]);
    assert_eq!(
        (metric.units, metric.template.paper),
        (Units::Mm, Paper::Tabloid)
    );
}

/// A part that a command adds begins with the shop's values, as in the window; typed values win.
#[test]
fn a_part_that_is_set_begins_with_the_shop() {
    let folder = folder();
    let board = folder.path().join("b.json");
    fs::write(&board, board::write_board(&board::Board::default())).unwrap();
    put_shop(
        folder.path(),
        r#"{"format": 1, "shop": {"router.bushing_mm": 19.0, "router.bit_mm": 10.0, "panel.planer_mm": 406.4}}"#,
    );
    let output = run(folder.path(), &["set", "b.json", "router.bit", "8"]);
    assert_eq!(output.status.code(), Some(0), "{}", words(&output.stderr));
    let set = board::read_board(&fs::read(&board).unwrap()).unwrap();
    let router = set.router.unwrap();
    assert_eq!((router.bushing, router.bit), (19.0, 8.0));
    assert_eq!(set.panel, board::Board::default().panel);
}

#[test]
fn a_shop_that_does_not_suit_never_prevents_a_board() {
    let folder = folder();
    put_shop(
        folder.path(),
        r#"{"format": 1, "shop": {"bores.spur_mm": 45, "panel.planer_mm": 406.4, "jig.kerf_mm": -1}}"#,
    );
    let (board, told) = begun(folder.path(), &[]);
    assert_eq!(board.panel.planer, 406.4);
    assert!(told.contains("jig.kerf_mm"), "{told}");
    assert!(told.contains("Forstner spur"), "{told}");
    assert!(run(folder.path(), &["check", "b.json"]).status.success());
    put_shop(folder.path(), "{ broken");
    let (_, told) = begun(folder.path(), &[]);
    assert!(told.contains("left alone"), "{told}");
}
