//! Faults of grammar that arithmetic puts into a sentence: a wrong article, a plural after 1, a number that is none.

/// Words that begin with a vowel letter and the sound of a consonant.
const AS_CONSONANT: [&str; 4] = ["one", "uni", "use", "eu"];
/// Words that end in s and may follow a 1 that counts nothing, or are one of a kind.
const NO_PLURAL: [&str; 10] = [
    "across", "is", "has", "was", "less", "pass", "as", "glass", "lies", "sits",
];

/// Every fault of a sentence, in words.
///
/// A measure and its limit that differ by less than they are usually told to have the digits that tell them apart: "now 0.4676", needs
/// 0.4682"".
pub fn faults(words: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (part, fault) in [
        ("  ", "two spaces"),
        ("NaN", "no number"),
        ("inf ", "no number"),
        (" ,", "space before a comma"),
        (" .", "space before a full stop"),
        ("..", "two full stops"),
        (",,", "two commas"),
        ("()", "nothing in brackets"),
        ("{", "a gap that was not filled"),
    ] {
        // An ellipsis of numbers and decimals without their zero are no faults of this kind.
        if words.contains(part) && !(part == " ." && has_bare_decimal(words)) {
            found.push(fault.to_owned());
        }
    }
    if words.trim() != words {
        found.push("space at an end".into());
    }
    let each: Vec<&str> = words.split_whitespace().collect();
    for pair in each.windows(2) {
        found.extend(article(pair[0], pair[1]));
        found.extend(plural(pair[0], pair[1]));
    }
    let is_pair = words.starts_with("now ") && words.contains(", needs ");
    let numbers = each.iter().filter(|_| !is_pair);
    found.extend(numbers.filter_map(|word| number(word)));
    found
}

/// Whether a decimal stands without the zero before its point.
fn has_bare_decimal(words: &str) -> bool {
    let mut after = words.split(" .").skip(1);
    after.any(|rest| rest.starts_with(|first: char| first.is_ascii_digit()))
}

/// An article that does not go with the word after it.
fn article(article: &str, next: &str) -> Option<String> {
    let word = next.trim_matches(|letter: char| !letter.is_alphanumeric());
    let first = word.chars().next()?;
    let is_letters = first.is_alphabetic() && word.len() > 1;
    let lower = word.to_lowercase();
    let sounds = if first.is_ascii_digit() {
        // Eight, eleven and eighteen are said with a vowel.
        let whole: String = word.chars().take_while(char::is_ascii_digit).collect();
        whole.starts_with('8') || whole == "11" || whole == "18"
    } else {
        "aeiou".contains(lower.chars().next()?)
            && !AS_CONSONANT.iter().any(|begin| lower.starts_with(begin))
            || lower.starts_with("hour")
    };
    let wrong = match article {
        "a" | "A" if is_letters || first.is_ascii_digit() => sounds,
        "an" | "An" if is_letters || first.is_ascii_digit() => !sounds,
        _ => false,
    };
    // Letters that are spelled: "an SVG", "an NPT".
    let spelled = word.len() > 1 && word.chars().all(char::is_uppercase);
    (wrong && !spelled).then(|| format!("article: {article} {next}"))
}

/// A plural after a 1.
fn plural(count: &str, next: &str) -> Option<String> {
    let word = next.trim_matches(|letter: char| !letter.is_alphabetic());
    let is_one = count == "1" || count == "(1";
    let plural = word.len() > 2
        && word.ends_with('s')
        && !word.ends_with("ss")
        && !NO_PLURAL.contains(&word)
        && word.chars().all(char::is_lowercase);
    (is_one && plural).then(|| format!("plural: {count} {next}"))
}

/// A zero with a minus, or more decimals than a maker can set.
fn number(word: &str) -> Option<String> {
    let bare = word.trim_matches(|letter: char| "(),;:".contains(letter));
    let digits: String = bare
        .chars()
        .take_while(|it| it.is_ascii_digit() || "-.".contains(*it))
        .collect();
    let value: f64 = digits.parse().ok()?;
    if digits.starts_with('-') && value == 0.0 {
        return Some(format!("zero with a minus: {word}"));
    }
    // Published coefficients and small forces keep their digits after the zeros.
    let decimals = digits
        .split_once('.')
        .map_or(0, |(_, after)| after.trim_start_matches('0').len());
    (decimals > 3).then(|| format!("too many decimals: {word}"))
}

#[test]
fn faults_are_found_and_right_words_pass() {
    for wrong in [
        "a outline",
        "an hole",
        "a 8 mm bit",
        "1 holes left",
        "two  spaces",
        "-0 mm",
        "NaN mm",
        "0.7874\" above",
        "ends with a stop..",
    ] {
        assert!(!faults(wrong).is_empty(), "{wrong}");
    }
    for right in [
        "an outline, a unit, an hour and a one-player jig",
        "an 8 mm bit, a 12 mm bit",
        "1 hole, 2 holes, 0 holes; player 1 is first",
        "0.787\" above, -0.5 mm",
        "an SVG",
    ] {
        assert!(faults(right).is_empty(), "{:?}", faults(right));
    }
}
