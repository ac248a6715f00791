//! Every label, tooltip and message of the window, over rich boards in both units, held to the grammar that a reader expects.
//!
//! `WORDS_TABLE=window.tsv cargo test -p app every_word` writes the table of all of it: where each text stands, and the text, once each,
//! to be read from top to bottom.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use board::{Board, Fraction, write_board};
use testkit::grammar_faults;

use super::*;
use crate::dialogs::Dialog;
use crate::section::Section;
use crate::stage::Stage;
use crate::view::Face;

/// Texts by where they stand: "stage Wood", "dialog Export…".
type Said = BTreeMap<String, String>;

/// Boards that have most parts, and one that goes wrong everywhere, each in a unit.
const BOARDS: [(&str, Units); 3] = [
    ("a-ring-marbles", Units::Mm),
    ("c-polygon-magnets", Units::Inch(Fraction::Sixteenth)),
    ("g-all-goes-wrong", Units::Inch(Fraction::SixtyFourth)),
];

/// Commands that open a dialog or a page of help.
const OPENING: [Command; 9] = [
    Command::New,
    Command::Open,
    Command::SaveAs,
    Command::Export,
    Command::Shop,
    Command::Search,
    Command::Ruler,
    Command::Safety,
    Command::Keys,
];

/// Frames until what is shown anew has found its place.
const FRAMES: usize = 3;

impl Story {
    /// Keeps each text of the window with the first place where it stands.
    fn read_out(&self, place: &str, said: &mut Said) {
        for node in self.harness.root().children_recursive() {
            let node = node.accesskit_node();
            // The content of fields is the maker's, with as many digits as were typed.
            let is_typed = matches!(
                node.role(),
                Role::TextInput | Role::TextRun | Role::SpinButton
            );
            let value = node.value().unwrap_or_default();
            let description = node.data().description().map(|described| {
                // On Linux the value stands before it, see `spoken`.
                let said = described
                    .strip_prefix(value.trim_end_matches('.'))
                    .and_then(|rest| rest.strip_prefix(". "));
                said.filter(|_| is_typed).unwrap_or(described).to_owned()
            });
            let texts = [node.label(), Some(value).filter(|_| !is_typed), description];
            for text in texts.into_iter().flatten() {
                // Parts of a line that stand apart have three spaces between them.
                for part in text.lines().flat_map(|line| line.split("   ")) {
                    said.entry(part.to_owned()).or_insert_with(|| place.into());
                }
            }
        }
    }
}

/// A rich board from the fixtures.
fn rich(name: &str) -> Board {
    let path = format!(
        "{}/../../tests/fixtures/rich/{name}.json",
        env!("CARGO_MANIFEST_DIR")
    );
    read_board(&std::fs::read(path).unwrap()).unwrap()
}

/// Reads out every stage with all of its sections unfolded, every view and every dialog, with a board at hand.
fn of_board(board: &Board, said: &mut Said) {
    let fake = Fake::new();
    fake.put("/rich.json", write_board(board).as_bytes());
    let mut story = Story::in_world(fake, Some("/rich.json"), [1280.0, 4000.0]);
    for stage in Stage::ALL {
        for section in Section::of_stage(stage) {
            story.harness.state_mut().settings.folds.set(section, true);
        }
        story.harness.state_mut().view.stage = stage;
        story.harness.run_steps(FRAMES);
        story.read_out(&format!("stage {}", stage.label()), said);
    }
    for face in Face::ALL {
        story.harness.state_mut().view.face = face;
        story.harness.run_steps(FRAMES);
        story.read_out(&format!("view {}", face.label()), said);
    }
    for command in OPENING {
        story.harness.state_mut().view.asked.push(command);
        story.harness.run_steps(FRAMES);
        story.read_out(&format!("dialog {}", command.label()), said);
        story.harness.state_mut().view.dialog = None;
        story.harness.state_mut().view.help.shown = false;
        story.harness.run_steps(FRAMES);
    }
    for dialog in [
        Dialog::Unsaved(Command::Quit),
        Dialog::Changed("/home/maker/a.json".into(), None),
    ] {
        story.harness.state_mut().view.dialog = Some(dialog);
        story.harness.run_steps(FRAMES);
        story.read_out("dialog on files", said);
    }
}

/// Labels and tooltips of every command, and the pages that explain the trade's words.
fn fixed(said: &mut Said) {
    for command in Command::ALL {
        for words in [command.label(), command.tooltip()] {
            said.entry(words.into()).or_insert_with(|| "command".into());
        }
    }
    for (word, meaning) in crate::terms::WORDS {
        for words in [word, meaning] {
            said.entry((*words).into()).or_insert_with(|| "word".into());
        }
    }
}

#[test]
fn every_word_of_the_window_is_put_as_a_reader_expects() {
    let mut said = Said::new();
    fixed(&mut said);
    for (name, units) in BOARDS {
        let board = Board {
            units,
            ..rich(name)
        };
        of_board(&board, &mut said);
    }
    if let Ok(path) = std::env::var("WORDS_TABLE") {
        let mut lines: Vec<String> = said
            .iter()
            .map(|(words, place)| format!("{place}\t{words}\n"))
            .collect();
        lines.sort();
        std::fs::write(&path, lines.concat()).unwrap();
    }
    assert!(said.len() > 2000, "{}", said.len());
    let mut faults = String::new();
    for (words, place) in &said {
        for fault in grammar_faults(words) {
            writeln!(faults, "{fault}: [{place}] {words}").unwrap();
        }
    }
    assert!(faults.is_empty(), "\n{faults}");
}
