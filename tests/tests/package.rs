//! The parts of an installed program that are not code: icons, and the entries that desktops read.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use std::fs;
use std::path::PathBuf;

use tests::source::repository as root;

/// Sizes of icons that desktops request, in pixels.
const SIZES: [u32; 6] = [16, 32, 48, 64, 128, 256];

fn asset(name: &str) -> PathBuf {
    root().join("assets").join(name)
}

/// The icon of a size, rendered from the original.
fn drawn(size: u32) -> Vec<u8> {
    let svg = fs::read_to_string(asset("icon.svg")).unwrap();
    testkit::svg_pixels(&svg, size).unwrap()
}

/// `UPDATE_ICONS=1` renders them again.
#[test]
fn icons_of_every_size_are_rendered_from_the_original() {
    for size in SIZES {
        let path = asset(&format!("icons/{size}.png"));
        let drawn = drawn(size);
        if std::env::var_os("UPDATE_ICONS").is_some() {
            image::save_buffer(&path, &drawn, size, size, image::ColorType::Rgba8).unwrap();
        }
        let kept = image::open(&path).unwrap().into_rgba8();
        assert_eq!(kept.dimensions(), (size, size));
        let mut pairs = kept.iter().zip(&drawn);
        let is_alike = pairs.all(|(kept, drawn)| kept.abs_diff(*drawn) <= 2);
        assert!(is_alike, "{} is of another picture", path.display());
    }
}

/// The keys that a menu entry must have according to the Desktop Entry Specification 1.5.
#[test]
fn the_menu_entry_names_the_program_and_its_files() {
    let entry = fs::read_to_string(asset("linux/ringwright.desktop")).unwrap();
    let value = |key: &str| {
        let lines = entry.lines().filter_map(|line| line.split_once('='));
        let mut found = lines.filter(|(name, _)| *name == key);
        let value = found.next().map(|(_, value)| value.to_owned());
        assert!(found.next().is_none(), "{key} twice");
        value.unwrap_or_default()
    };
    assert!(entry.starts_with("[Desktop Entry]\n"));
    assert_eq!(
        (value("Type"), value("Icon")),
        ("Application".into(), "ringwright".into())
    );
    assert_eq!(value("Exec"), "ringwright %f");
    for list in ["Categories", "Keywords", "MimeType"] {
        assert!(value(list).ends_with(';'), "{list}");
    }
    let kinds = fs::read_to_string(asset("linux/ringwright.xml")).unwrap();
    let kinds = roxmltree::Document::parse(&kinds).unwrap();
    let kind = kinds
        .descendants()
        .find(|node| node.has_tag_name((SHARED_MIME, "mime-type")));
    let kind = kind.unwrap().attribute("type").unwrap();
    assert_eq!(value("MimeType"), format!("{kind};"));
}

const SHARED_MIME: &str = "http://www.freedesktop.org/standards/shared-mime-info";

/// Desktops recognize a board file by words near its beginning, so files must continue to start with them.
#[test]
fn a_board_file_begins_as_its_mime_type_says() {
    let kinds = fs::read_to_string(asset("linux/ringwright.xml")).unwrap();
    let kinds = roxmltree::Document::parse(&kinds).unwrap();
    let matches = kinds
        .descendants()
        .filter(|node| node.has_tag_name((SHARED_MIME, "match")));
    let board = board::write_board(&board::Board::default());
    let mut count = 0;
    for node in matches {
        let (least, most) = node.attribute("offset").unwrap().split_once(':').unwrap();
        let (least, most): (usize, usize) = (least.parse().unwrap(), most.parse().unwrap());
        let value = node.attribute("value").unwrap();
        let at = board.find(value).unwrap();
        assert!((least..=most).contains(&at), "{value} at {at}");
        count += 1;
    }
    assert_eq!(count, 2);
}

/// Every file that the package includes exists.
#[test]
fn every_file_in_the_package_exists() {
    let manifest = fs::read_to_string(root().join("crates/app/Cargo.toml")).unwrap();
    let quoted = manifest
        .split('"')
        .filter(|text| text.starts_with("../../"));
    let kept = quoted.filter(|text| !text.starts_with("../../target"));
    let mut count = 0;
    for path in kept {
        assert!(root().join("crates/app").join(path).exists(), "{path}");
        count += 1;
    }
    assert!(count >= 10, "{count} files");
}
