//! Text for a terminal, made safe: titles and file names may contain control characters, which a terminal would act on.

use std::io::{self, Write};

/// Writes text with its control characters made visible; line ends and tabs stay.
pub struct Plain<W>(pub W);

impl<W: Write> Write for Plain<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.write_all(bytes).map(|()| bytes.len())
    }

    fn write_all(&mut self, bytes: &[u8]) -> io::Result<()> {
        let text = String::from_utf8_lossy(bytes);
        let is_command = |letter: char| letter.is_control() && !matches!(letter, '\n' | '\t');
        if !text.contains(is_command) {
            return self.0.write_all(bytes);
        }
        for letter in text.chars() {
            if is_command(letter) {
                write!(self.0, "{}", letter.escape_unicode())?;
            } else {
                write!(self.0, "{letter}")?;
            }
        }
        Ok(())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.0.flush()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn control_characters_are_shown_as_escapes() {
        let written = |text: &str| {
            let mut out = Plain(Vec::new());
            write!(out, "{text}").unwrap();
            String::from_utf8(out.0).unwrap()
        };
        assert_eq!(written("Maple, 3/4\"\t×\n"), "Maple, 3/4\"\t×\n");
        assert_eq!(written("\u{1b}[2J\u{9b}\r"), "\\u{1b}[2J\\u{9b}\\u{d}");
    }
}
