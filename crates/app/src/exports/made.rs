//! Files of several kinds at once: those that can be made, and those that are left out with what they lack. Window and commands go by it.

use kurbo::Size;

use super::{Content, Kind, Lack, Source};

/// The files of some kinds, and the kinds that could not be made.
#[derive(Debug, Default)]
pub struct Made {
    /// Names and bytes.
    pub files: Vec<(String, Vec<u8>)>,
    /// Width and height of the pages of each file, mm; none where it has no pages.
    pub pages: Vec<Option<Size>>,
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
            let content = self.content(kind);
            let pages = content.as_ref().map(Content::page_sizes);
            let pages = pages.unwrap_or_default();
            let files = content.and_then(|content| self.written(content));
            if watch.is_stopped() {
                return None;
            }
            match files {
                Ok(files) => {
                    made.files.extend(files);
                    made.pages.extend(pages);
                }
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
