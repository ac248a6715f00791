//! Words broken into lines of a width.

use crate::font::{self, Weight};

/// The lines of words that fit into a width, mm; a word wider than that is cut.
///
/// Each line holds as many words as fit, and breaks at a space: no word is hyphenated, since names of holes and sizes contain
/// hyphens. Empty words give one empty line, so that a cell of a table has its height.
pub fn wrapped(words: &str, size: f64, weight: Weight, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in words.split_whitespace() {
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if font::width(&longer, size, weight) <= room {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(core::mem::take(&mut line));
        }
        line = font::cut(word, size, weight, room);
        if font::width(&line, size, weight) > room {
            line.clear();
        }
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_word_is_lost_and_no_line_too_wide() {
        let words = "one two three four five six seven eight nine ten";
        let lines = wrapped(words, 3.0, Weight::Regular, 25.0);
        assert!(lines.len() > 2);
        assert_eq!(lines.join(" "), words);
        for line in &lines {
            assert!(font::width(line, 3.0, Weight::Regular) <= 25.0, "{line}");
        }
    }

    #[test]
    fn a_word_too_wide_is_cut() {
        let lines = wrapped("a incomprehensibilities b", 3.0, Weight::Regular, 12.0);
        assert_eq!(lines.len(), 3);
        assert!(
            font::width(&lines[1], 3.0, Weight::Regular) <= 12.0,
            "{lines:?}"
        );
    }
}
