//! The program's findings and exports of rich boards and of the samples, compared with the pinned ones.
//!
//! `UPDATE_PINS=1 cargo test -p tests --test pinned` pins the current output; review the difference before committing it.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use app::cli::{Cli, run};
use app::exports::{Kind, Moment, Source};
use board::{Board, read_board};
use clap::Parser as _;
use testkit::PdfFile;

const MOMENT: Moment = Moment {
    year: 2026,
    month: 11,
    day: 25,
};

/// The files that are pinned in full, to be read alongside the findings; for every other file, a line in [`LIST`] is pinned.
const READ: [&str; 3] = ["-job.pdf.txt", "-jig.pdf.txt", ".ngc"];
/// The list of every file that a board is exported to, and of the exports that are refused.
const LIST: &str = "exports.txt";

/// Size at which proofs are pinned, pixels: small, so that the tests are quick.
const PROOF: u32 = 320;
/// The beginning of every PNG file.
const PNG: &[u8] = b"\x89PNG";

/// The pinned texts of one board, by the names of their files.
type Pins = BTreeMap<String, String>;

fn folder(of: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(of)
}

/// The entries of a folder, sorted: board files, or a folder for each board.
fn listed(of: &str) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder(of)).unwrap();
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
}

fn board_of(path: &Path) -> Board {
    read_board(&fs::read(path).unwrap())
        .unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn stem(path: &Path) -> String {
    path.file_stem().unwrap().to_string_lossy().into_owned()
}

/// The output of `ringwright check --json` for a board file.
fn checked(path: &Path) -> String {
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    let arguments = ["ringwright", "check", "--json", path.to_str().unwrap()];
    run(Cli::parse_from(arguments), &mut out, &mut errors);
    assert!(errors.is_empty(), "{}", String::from_utf8_lossy(&errors));
    String::from_utf8(out).unwrap()
}

/// 64-bit FNV-1a.
fn hash(bytes: &[u8]) -> u64 {
    let mixed = |hash: u64, byte: &u8| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, mixed)
}

/// A PDF without compression, so that the compression level does not matter, and its words page by page.
fn opened(bytes: &[u8]) -> (Vec<u8>, String) {
    let mut file = PdfFile::read(bytes).unwrap();
    file.document.decompress();
    let mut plain = Vec::new();
    file.document.save_to(&mut plain).unwrap();
    let mut words = String::new();
    for (number, page) in (1..).zip(&file.pages) {
        writeln!(words, "-- page {number}").unwrap();
        for line in &page.words {
            writeln!(words, "{}", line.words).unwrap();
        }
    }
    (plain, words)
}

/// Every file of every kind: its line in the list, and its readable text.
fn exported(board: &Board) -> Pins {
    let source = Source::of(board, MOMENT).unwrap().with_proof(PROOF);
    let (mut pins, mut list) = (Pins::new(), String::new());
    for kind in Kind::ALL {
        let files = match source.files(kind) {
            Ok(files) => files,
            Err(refusal) => {
                let words = board.units.say(&refusal);
                writeln!(list, "{} is refused: {words}", kind.word()).unwrap();
                continue;
            }
        };
        assert_eq!(
            files.iter().map(|(name, _)| name).collect::<Vec<_>>(),
            source.file_names(kind).iter().collect::<Vec<_>>()
        );
        for (name, bytes) in files {
            let (bytes, readable) = if bytes.starts_with(b"%PDF") {
                let (plain, words) = opened(&bytes);
                (plain, (format!("{name}.txt"), words))
            } else if bytes.starts_with(PNG) {
                let pixels = image::load_from_memory(&bytes).unwrap().to_rgb8();
                (pixels.into_raw(), (name.clone(), String::new()))
            } else {
                let text = String::from_utf8(bytes.clone()).unwrap();
                (bytes, (name.clone(), text))
            };
            writeln!(list, "{name}  {}  {:016x}", bytes.len(), hash(&bytes)).unwrap();
            let is_read = |name: &str| READ.iter().any(|ending| name.ends_with(ending));
            pins.extend(Some(readable).filter(|(name, _)| is_read(name)));
        }
    }
    pins.insert(LIST.into(), list);
    pins
}

fn made(path: &Path) -> Pins {
    let mut pins = exported(&board_of(path));
    pins.insert("check.json".into(), checked(path));
    pins
}

fn kept(folder: &Path) -> Pins {
    let entries = fs::read_dir(folder).into_iter().flatten();
    let read = |entry: std::io::Result<fs::DirEntry>| {
        let entry = entry.unwrap();
        let text = fs::read_to_string(entry.path()).unwrap();
        (entry.file_name().into_string().unwrap(), text)
    };
    entries.map(read).collect()
}

fn keep(pinned: &Path, made: &[(String, Pins)]) {
    if pinned.exists() {
        fs::remove_dir_all(pinned).unwrap();
    }
    for (board, pins) in made {
        fs::create_dir_all(pinned.join(board)).unwrap();
        for (name, text) in pins {
            fs::write(pinned.join(board).join(name), text).unwrap();
        }
    }
}

/// The first lines that differ between two texts, at most three of each.
fn first_difference(kept: &str, made: &str) -> String {
    let (kept, made): (Vec<_>, Vec<_>) = (
        kept.split_inclusive('\n').collect(),
        made.split_inclusive('\n').collect(),
    );
    let same = kept.iter().zip(&made).take_while(|(a, b)| a == b).count();
    let mut words = format!("from line {}", same + 1);
    for (sign, lines) in [("-", &kept), ("+", &made)] {
        for line in lines.iter().skip(same).take(3) {
            write!(words, "\n  {sign} {}", line.trim_end()).unwrap();
        }
    }
    words
}

/// The files that differ.
fn differences(board: &str, kept: &Pins, made: &Pins) -> Vec<String> {
    let mut names: Vec<&String> = kept.keys().chain(made.keys()).collect();
    names.sort();
    names.dedup();
    let of = |name: &String| match (kept.get(name), made.get(name)) {
        (Some(kept), Some(made)) if kept == made => None,
        (Some(kept), Some(made)) => Some(first_difference(kept, made)),
        (Some(_), None) => Some("is no longer made".into()),
        (None, _) => Some("is made, but not kept".into()),
    };
    let told = |name: &String| of(name).map(|words| format!("{board}/{name} {words}"));
    names.into_iter().filter_map(told).collect()
}

/// The boards that are pinned: the rich ones, which together have every part of the document, and the samples.
fn all_boards() -> Vec<PathBuf> {
    ["fixtures/rich", "../assets/boards"].map(listed).concat()
}

#[test]
fn findings_and_exports_match_the_pinned_ones() {
    let boards = all_boards();
    let made: Vec<(String, Pins)> = std::thread::scope(|scope| {
        let begun = boards.iter().map(|path| scope.spawn(|| made(path)));
        let begun: Vec<_> = begun.collect();
        let pins = begun.into_iter().map(|pins| pins.join().unwrap());
        boards.iter().map(|path| stem(path)).zip(pins).collect()
    });
    let pinned = folder("fixtures/pinned");
    if std::env::var_os("UPDATE_PINS").is_some() {
        keep(&pinned, &made);
    }
    let differ = |(name, made): &(String, Pins)| differences(name, &kept(&pinned.join(name)), made);
    let differ: Vec<String> = made.iter().flat_map(differ).collect();
    assert!(differ.is_empty(), "{}", differ.join("\n"));
    let folders = listed("fixtures/pinned");
    let mut names: Vec<&String> = made.iter().map(|(name, _)| name).collect();
    names.sort();
    let folders = folders.iter().map(|path| stem(path));
    assert!(
        folders.eq(names.into_iter().cloned()),
        "something is kept of a board that is gone"
    );
}

/// Whether a negative zero begins at a position in a text, such as `-0`, `-0.0` and `-0.000`.
fn is_minus_zero(text: &str, at: usize) -> bool {
    let before = text[..at].chars().next_back();
    let rest = &text[at + 1..];
    let zero = rest.trim_start_matches(['0', '.']);
    let follows = zero.chars().next();
    let is_word = |letter: Option<char>| letter.is_some_and(char::is_alphanumeric);
    rest.starts_with('0') && !is_word(before) && !is_word(follows)
}

/// Neither exports nor findings contain a negative zero: programs and machines read them.
#[test]
fn no_zero_is_negative() {
    assert!(is_minus_zero("x -0.0,", 2) && is_minus_zero("-0", 0));
    assert!(!is_minus_zero("T1-01", 2) && !is_minus_zero("-0.01", 0));
    for path in all_boards() {
        let source = Source::of(&board_of(&path), MOMENT)
            .unwrap()
            .with_proof(PROOF);
        let files = Kind::ALL.iter().filter_map(|kind| source.files(*kind).ok());
        let mut texts = vec![("check.json".to_owned(), checked(&path))];
        for (name, bytes) in files.flatten().filter(|(_, bytes)| !bytes.starts_with(PNG)) {
            let plain = if bytes.starts_with(b"%PDF") {
                let mut file = PdfFile::read(&bytes).unwrap();
                let pages = file.document.get_pages().into_values();
                let pages: Vec<_> = pages.collect();
                file.document.decompress();
                let content = |page| file.document.get_page_content(page);
                pages.into_iter().flat_map(content).collect()
            } else {
                bytes
            };
            texts.push((name, String::from_utf8_lossy(&plain).into_owned()));
        }
        for (name, text) in texts {
            let mut signs = text.match_indices('-');
            let found = signs.find(|(at, _)| is_minus_zero(&text, *at));
            if let Some((at, _)) = found {
                let around: String = text[at..].chars().take(40).collect();
                panic!("{} of {}: {around}", name, path.display());
            }
        }
    }
}

/// The more boards a kind of export is made for, the less of it remains unpinned.
#[test]
fn every_kind_of_export_is_made_for_several_rich_boards() {
    let sources = listed("fixtures/rich").into_iter();
    let sources = sources.map(|path| {
        Source::of(&board_of(&path), MOMENT)
            .unwrap()
            .with_proof(PROOF)
    });
    let sources: Vec<Source> = sources.collect();
    for kind in Kind::ALL {
        let made = sources.iter().filter(|source| source.content(kind).is_ok());
        assert!(made.count() >= 3, "{kind:?}");
    }
}
