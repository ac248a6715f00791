//! Words for numbers and names: counting, articles, lists, capitals. Every crate that composes sentences uses these.

use std::fmt::Display;

/// A count of something, with the singular for one and the plural for any other count.
///
/// ```
/// use board::counted;
/// assert_eq!(counted(1, "pass", "passes"), "1 pass");
/// assert_eq!(counted(0, "pass", "passes"), "0 passes");
/// ```
pub fn counted<N: Display>(count: N, one: &str, many: &str) -> String {
    let count = count.to_string();
    let what = if count == "1" { one } else { many };
    format!("{count} {what}")
}

/// A count of something whose plural ends in s.
///
/// ```
/// use board::several;
/// assert_eq!(several(1, "hole"), "1 hole");
/// assert_eq!(several(2, "hole"), "2 holes");
/// ```
pub fn several<N: Display>(count: N, one: &str) -> String {
    counted(count, one, &format!("{one}s"))
}

/// A noun, or a number with what it counts, with its indefinite article, chosen by sound: eight, eleven and eighteen take "an".
///
/// ```
/// use board::with_article;
/// assert_eq!(with_article("outline"), "an outline");
/// assert_eq!(with_article("8 mm bit"), "an 8 mm bit");
/// assert_eq!(with_article("unit"), "a unit");
/// ```
pub fn with_article(noun: &str) -> String {
    /// Words that begin with a vowel letter but a consonant sound.
    const AS_CONSONANT: [&str; 4] = ["one", "uni", "use", "eu"];
    let noun_in_small = noun.to_lowercase();
    let digits: String = noun.chars().take_while(char::is_ascii_digit).collect();
    let begins = |part: &&str| noun_in_small.starts_with(*part);
    let is_vowel = if digits.is_empty() {
        noun_in_small.starts_with(['a', 'e', 'i', 'o', 'u']) && !AS_CONSONANT.iter().any(begins)
            || noun_in_small.starts_with("hour")
    } else {
        digits.starts_with('8') || digits == "11" || digits == "18"
    };
    let article = if is_vowel { "an" } else { "a" };
    format!("{article} {noun}")
}

/// Words as a list: "a", "a and b", "a, b and c".
///
/// ```
/// use board::in_a_row;
/// assert_eq!(in_a_row(&["rim", "seam", "bore"]), "rim, seam and bore");
/// assert_eq!(in_a_row(&["rim"]), "rim");
/// ```
pub fn in_a_row(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}

/// Words as a sentence: with an initial capital and a final period, unless they already end in a punctuation mark.
///
/// ```
/// use board::as_sentence;
/// assert_eq!(as_sentence("the lid binds".into()), "The lid binds.");
/// assert_eq!(as_sentence("Use 5/8\".".into()), "Use 5/8\".");
/// ```
pub fn as_sentence(mut words: String) -> String {
    words.truncate(words.trim_end().len());
    if let Some(first) = words.chars().next().filter(|first| first.is_lowercase()) {
        let upper: String = first.to_uppercase().collect();
        words.replace_range(..first.len_utf8(), &upper);
    }
    if !words.is_empty() && !words.ends_with(['.', '!', '?', '…']) {
        words.push('.');
    }
    words
}

/// Words with an initial capital; text that does not start with a letter is unchanged.
///
/// ```
/// assert_eq!(board::capital("hard maple"), "Hard maple");
/// assert_eq!(board::capital(""), "");
/// ```
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}
