//! Printers kept and read again, and files that are left alone.

use std::sync::Arc;

use super::*;
use crate::fake::Fake;
use crate::settings::Settings;
use crate::theme;
use crate::window::App;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use testkit::assert_near;
use workshop::PrintBar;

const FILE: &str = "/home/maker/settings/printers.json";

fn readings(level: f64) -> PrintReadings {
    let bar = |reading| PrintBar {
        nominal: 100.0,
        readings: vec![reading],
    };
    PrintReadings {
        level: bar(level),
        upright: bar(100.0),
        ..PrintReadings::default()
    }
}

fn text(fake: &Fake) -> String {
    String::from_utf8(fake.file(FILE).unwrap()).unwrap()
}

#[test]
fn printers_are_read_as_they_were_kept() {
    let fake = Fake::new();
    let mut printers = Printers::load(&fake);
    assert_eq!((printers.fault(), printers.all().len()), (None, 0));
    assert_eq!(printers.keep(&fake), None);
    assert_eq!(fake.file(FILE), None, "nothing to keep, and no file");
    printers.add(readings(99.4));
    printers.rename(" Laser ").unwrap();
    printers.add(PrintReadings::default());
    printers.choose(Some("Laser"));
    assert_eq!(printers.keep(&fake), None);
    let again = Printers::load(&fake);
    assert_eq!(again.known, printers.known);
    assert_near!(again.correction().unwrap().print.x, 1.006_036_2, 1e-7);
    assert!(text(&fake).contains("\"readings_mm\""), "{}", text(&fake));
}

#[test]
fn the_example_of_the_page_is_read_and_gives_what_the_page_says() {
    let page = include_str!("../../../../docs/formats/printers.md");
    let after = page.split("```json\n").nth(1).unwrap();
    let fake = Fake::new();
    fake.put(FILE, after.split("```").next().unwrap().as_bytes());
    let printers = Printers::load(&fake);
    assert_eq!(printers.fault(), None);
    let [_, words] = printers.correction().unwrap().words();
    assert_eq!(words, "across × 1.0041, up × 0.9983, skew −0.12°");
    assert!(page.contains("× 1.0041 across, × 0.9983 up and a skew of −0.12°"));
    let members = [
        "chosen",
        "name",
        "measured",
        "level",
        "square_mm",
        "rising_mm",
        "division_mm",
    ];
    let row = |member: &&str| page.contains(&format!("| `{member}`"));
    assert!(members.iter().all(row));
}

#[test]
fn a_file_that_cannot_be_read_is_told_and_left_alone() {
    for (bytes, words) in [
        ("{ \"format\": 1, \"printers\": [", "line 1"),
        ("[]", "cannot be read"),
        ("{ \"format\": 2, \"pages\": [] }", "a newer one wrote them"),
        ("{ \"format\": 0, \"printers\": [] }", "format number is 0"),
        (
            "{ \"format\": 1, \"printers\": [{ \"name\": \"\", \"measured\": {} }] }",
            "needs a name",
        ),
        (
            "{ \"format\": 1, \"printers\": [{ \"name\": \"A\", \"measured\": {} }, { \"name\": \"A\", \"measured\": {} }] }",
            "two printers are named \"A\"",
        ),
        (
            "{ \"format\": 1, \"printers\": [{ \"name\": \"A\", \"measured\": { \"levle\": 3 } }] }",
            "levle",
        ),
    ] {
        let fake = Fake::new();
        fake.put(FILE, bytes.as_bytes());
        let mut printers = Printers::load(&fake);
        let fault = printers.fault().unwrap_or_default().to_owned();
        assert!(fault.contains(words), "{fault}");
        assert!(
            fault.contains(FILE) && fault.contains("left alone"),
            "{fault}"
        );
        printers.add(readings(99.4));
        assert_eq!(printers.keep(&fake), None);
        assert_eq!(text(&fake), bytes);
        assert!(printers.correction().is_some(), "it holds for this run");
    }
}

#[test]
fn names_are_neither_empty_nor_long_nor_twice() {
    let mut printers = Printers::default();
    printers.add(readings(99.0));
    printers.add(readings(99.0));
    let names: Vec<_> = printers.all().iter().map(|printer| &printer.name).collect();
    assert_eq!(names, ["Printer", "Printer 2"]);
    for (name, words) in [
        ("  ", "needs a name"),
        ("Printer", "named \"Printer\" already"),
        ("a\tb", "no line breaks"),
        (&"x".repeat(41), "41 letters"),
    ] {
        let fault = printers.rename(name).unwrap_err();
        assert!(fault.contains(words), "{fault}");
    }
    assert_eq!(printers.rename("Printer 2"), Ok(()));
    printers.remove();
    assert_eq!(printers.all().len(), 1);
    assert_eq!(printers.correction(), None);
    printers.remove();
    assert_eq!(printers.all().len(), 1, "none is chosen");
}

#[test]
fn a_printer_is_found_by_name_or_the_names_are_told() {
    let mut printers = Printers::default();
    let error = printers.named("Laser").unwrap_err().to_string();
    assert!(error.contains("none is known yet"), "{error}");
    printers.add(readings(99.4));
    printers.add(PrintReadings::default());
    printers.choose(None);
    assert_eq!(printers.named("Printer").unwrap().printer, "Printer");
    let error = printers.named("Laser").unwrap_err().to_string();
    assert!(error.contains("known are Printer, Printer 2"), "{error}");
    let error = printers.named("Printer 2").unwrap_err().to_string();
    assert!(error.contains("level bar is not measured yet"), "{error}");
}

#[test]
fn a_file_that_cannot_be_written_is_told_once_for_each_change() {
    let fake = Fake {
        is_full: true,
        ..Fake::new()
    };
    let mut printers = Printers::load(&fake);
    printers.add(readings(99.4));
    let fault = printers.keep(&fake).unwrap();
    assert!(
        fault.contains("not kept") && fault.contains("the disk is full"),
        "{fault}"
    );
    assert_eq!(printers.keep(&fake), None);
    printers.add(readings(99.4));
    assert!(printers.keep(&fake).is_some());
}

/// The window, with a printer in the file that prints 1 % small across.
#[test]
fn the_window_lays_the_template_out_for_the_chosen_printer() {
    let host = Arc::new(Fake::new());
    let mut printers = Printers::default();
    printers.add(readings(99.0));
    printers.keep(&*host);
    let theirs = host.clone();
    let mut window = Harness::builder()
        .with_size([1280.0, 820.0])
        .with_context_setup(theme::install)
        .build_eframe(move |cc| App::new(&cc.egui_ctx, Settings::default(), theirs, None));
    window.run();
    let tiling = |window: &Harness<'_, App>| {
        let workpiece = window.state().current.good().unwrap();
        workpiece.tiling().unwrap().clone()
    };
    let small = tiling(&window);
    assert_eq!(small.correction.as_ref().unwrap().printer, "Printer");
    window.state_mut().printers.choose(None);
    window.run();
    let plain = tiling(&window);
    assert_eq!(plain.correction, None);
    assert!(small.printable().area() < plain.printable().area());
    assert!(text(&host).contains("\"chosen\": null"), "{}", text(&host));
}

#[test]
fn the_window_tells_that_the_printers_cannot_be_read() {
    let host = Arc::new(Fake::new());
    host.put(FILE, b"{");
    let theirs = host.clone();
    let mut window = Harness::builder()
        .with_size([1280.0, 820.0])
        .with_context_setup(theme::install)
        .build_eframe(move |cc| App::new(&cc.egui_ctx, Settings::default(), theirs, None));
    window.run();
    window.get_by_label_contains("The printers cannot be read");
    assert_eq!(text(&host), "{");
}
