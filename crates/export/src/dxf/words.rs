//! Words as a DXF can hold them.

use core::fmt::Write as _;

use board::DxfRelease;

/// Words in ASCII: drawing symbols as control codes, other letters by their number.
///
/// `%%c`, `%%d`, `%%p` and `%%%` stand for diameter, degree, plus-minus and percent; `\U+00E9` is a letter by number. Both are
/// from memory. Control characters, which would end the tag, are left out. R12 has no letters by number and shows them as they
/// are written, and no release has numbers of more than four digits: such letters become an underscore. A text in R12 has at
/// most 255 characters; also from memory.
pub fn in_ascii(words: &str, release: DxfRelease) -> String {
    /// The most characters in a tag's value, with room for anything a reader may add.
    const LONGEST: usize = 250;
    let mut out = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            'Ø' | '⌀' => out.push_str("%%c"),
            '°' => out.push_str("%%d"),
            '±' => out.push_str("%%p"),
            '×' => out.push('x'),
            '–' | '—' | '−' => out.push('-'),
            '%' => out.push_str("%%%"),
            '′' | '’' => out.push('\''),
            '″' | '“' | '”' => out.push('"'),
            '…' => out.push_str("..."),
            '\u{a0}' => out.push(' '),
            ' '..='~' => out.push(letter),
            _ if letter.is_control() => {}
            '\u{a1}'..='\u{ffff}' if release == DxfRelease::R2000 => {
                // Writing to a string does not fail.
                let _ = write!(out, "\\U+{:04X}", u32::from(letter));
            }
            _ => out.push('_'),
        }
        if out.len() >= LONGEST {
            break;
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn drawing_symbols_have_their_codes() {
        assert_eq!(
            in_ascii("pilot Ø 6 mm", DxfRelease::R2000),
            "pilot %%c 6 mm"
        );
        assert_eq!(in_ascii("60° ± 0.5", DxfRelease::R2000), "60%%d %%p 0.5");
        assert_eq!(
            in_ascii("20 × 30 – 1 3/16″", DxfRelease::R2000),
            "20 x 30 - 1 3/16\""
        );
        assert_eq!(in_ascii("5 % Ø", DxfRelease::R2000), "5 %%% %%c");
    }

    #[test]
    fn other_letters_are_written_by_number_and_line_ends_left_out() {
        assert_eq!(in_ascii("Fête\r\n", DxfRelease::R2000), "F\\U+00EAte");
        assert_eq!(in_ascii("Fête 𝔸", DxfRelease::R12), "F_te _");
        assert_eq!(in_ascii("𝔸", DxfRelease::R2000), "_");
        assert!(in_ascii(&"ê".repeat(500), DxfRelease::R2000).len() < 256);
    }
}
