//! Files of several kinds at once: those that can be made, and those that are left out with what they lack. Window and commands go by it.

use super::{Kind, Lack, Source};

/// The files of some kinds, and the kinds that could not be made.
#[derive(Debug, Default)]
pub struct Made {
    /// Names and bytes.
    pub files: Vec<(String, Vec<u8>)>,
    /// The kinds that were left out.
    pub left_out: Vec<LeftOut>,
}

/// A kind that could not be made.
#[derive(Debug)]
pub struct LeftOut {
    /// Which kind.
    pub kind: Kind,
    /// The fault, in a sentence.
    pub why: String,
    /// Numbers and parts that the board lacks for it.
    pub lacks: Vec<Lack>,
}

impl Source {
    /// The files of kinds, one kind after the other; a kind that cannot be made does not keep the others from it. `None` where the watch
    /// was stopped.
    pub fn made(&self, kinds: &[Kind]) -> Option<Made> {
        let mut made = Made::default();
        let watch = self.watch();
        for (at, &kind) in kinds.iter().enumerate() {
            watch.note(format!("{} of {}, {}", at + 1, kinds.len(), kind.label()));
            let files = self.files(kind);
            if watch.is_stopped() {
                return None;
            }
            match files {
                Ok(files) => made.files.extend(files),
                Err(error) => made.left_out.push(LeftOut {
                    kind,
                    why: self.board().units.say(&error),
                    lacks: self.lacks(kind),
                }),
            }
        }
        Some(made)
    }
}
