//! Printers kept and read again, and files that are left alone.

use super::*;
use crate::fake::Fake;
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
