//! Words as a DXF can hold them.

use core::fmt::Write as _;

use board::DxfRelease;

/// Words in ASCII: signs of drawings by their control codes, letters that have none by their number.
///
/// `%%c`, `%%d`, `%%p` and `%%%` are the signs of diameter, degree, plus-minus and percent; `\U+00E9` is a letter by
/// its number. Both are from memory; control characters, which would end the tag, are left out. R12 knows no letters by number and shows
/// them as they are written, and none has a number of more than four digits: such letters are an underscore. A word of R12 has up to
/// 255 letters; from memory too.
pub fn in_ascii(words: &str, release: DxfRelease) -> String {
    /// The most letters of a tag's value, with room for anything a reader may put around it.
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
    fn signs_of_drawings_have_their_codes() {
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
    fn other_letters_are_told_by_number_and_line_ends_left_out() {
        assert_eq!(in_ascii("Fête\r\n", DxfRelease::R2000), "F\\U+00EAte");
        assert_eq!(in_ascii("Fête 𝔸", DxfRelease::R12), "F_te _");
        assert_eq!(in_ascii("𝔸", DxfRelease::R2000), "_");
        assert!(in_ascii(&"ê".repeat(500), DxfRelease::R2000).len() < 256);
    }
}
