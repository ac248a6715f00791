//! Words as a DXF can hold them.

use core::fmt::Write as _;

/// Words in ASCII: signs of drawings by their control codes, letters that have none by their number.
///
/// `%%c`, `%%d`, `%%p` and `%%%` are the signs of diameter, degree, plus-minus and percent; `\U+00E9` is a letter by
/// its number. Both are from memory; control characters, which would end the tag, are left out.
pub fn in_ascii(words: &str) -> String {
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
            // Writing to a string does not fail.
            _ => drop(write!(out, "\\U+{:04X}", u32::from(letter))),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_of_drawings_have_their_codes() {
        assert_eq!(in_ascii("pilot Ø 6 mm"), "pilot %%c 6 mm");
        assert_eq!(in_ascii("60° ± 0.5"), "60%%d %%p 0.5");
        assert_eq!(in_ascii("20 × 30 – 1 3/16″"), "20 x 30 - 1 3/16\"");
        assert_eq!(in_ascii("5 % Ø"), "5 %%% %%c");
    }

    #[test]
    fn other_letters_are_told_by_number_and_line_ends_left_out() {
        assert_eq!(in_ascii("Fête\r\n"), "F\\U+00EAte");
    }
}
