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
    let stem: String = stem.trim_end_matches('-').chars().take(60).collect();
    if stem.is_empty() {
        "board".into()
    } else {
        stem
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_becomes_a_plain_file_name() {
        assert_eq!(
            stem("Six-arm walnut, 133 holes"),
            "six-arm-walnut-133-holes"
        );
        assert_eq!(stem("../../etc/passwd"), "etc-passwd");
        assert_eq!(stem("  "), "board");
        assert_eq!(stem("Ahorn für Weiß"), "ahorn-für-weiß");
    }
}
