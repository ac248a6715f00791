//! Names of files.

/// The title as a file name's beginning: letters, figures and dashes.
pub fn stem(title: &str) -> String {
    let mut stem = String::new();
    for letter in title.chars().flat_map(char::to_lowercase) {
        if letter.is_alphanumeric() {
            stem.push(letter);
        } else if !stem.is_empty() && !stem.ends_with('-') {
            stem.push('-');
        }
    }
    let mut end = 0;
    for (at, letter) in stem.char_indices().take(60) {
        if at + letter.len_utf8() <= MOST_BYTES {
            end = at + letter.len_utf8();
        }
    }
    stem.truncate(end);
    match stem.trim_end_matches('-') {
        "" => "board".into(),
        taken if TAKEN.contains(&taken) || is_port(taken) => format!("{taken}-board"),
        free => free.into(),
    }
}

/// The most bytes of a beginning: common file systems take 255 in all, and an ending follows.
const MOST_BYTES: usize = 120;
/// Names that one system reserves for devices, with any extension (its developer pages, "Naming Files, Paths, and Namespaces";
/// from memory).
const TAKEN: [&str; 4] = ["con", "prn", "aux", "nul"];

/// Whether a name is that of a port, which the same system keeps too.
fn is_port(name: &str) -> bool {
    let number = name
        .strip_prefix("com")
        .or_else(|| name.strip_prefix("lpt"));
    number.is_some_and(|number| number.len() == 1 && number.bytes().all(|it| it.is_ascii_digit()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_becomes_a_plain_file_name() {
        assert_eq!(
            stem("Six-arm walnut, 145 holes"),
            "six-arm-walnut-145-holes"
        );
        assert_eq!(stem("../../etc/passwd"), "etc-passwd");
        assert_eq!(stem("  "), "board");
        assert_eq!(stem("Ahorn für Weiß"), "ahorn-für-weiß");
    }

    #[test]
    fn no_name_is_too_long_or_a_device() {
        for letter in ["a", "ß", "板", "𝔸"] {
            let stem = stem(&letter.repeat(300));
            assert!((30..=MOST_BYTES).contains(&stem.len()), "{stem}");
        }
        for (title, name) in [("CON", "con-board"), ("Lpt1", "lpt1-board"), ("Com", "com")] {
            assert_eq!(stem(title), name);
        }
    }
}
