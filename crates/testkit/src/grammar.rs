//! Grammar faults that calculated values cause in a sentence: a wrong article, a plural after 1, a number that is not one, a
//! length without its unit.

/// Words that begin with a vowel but are pronounced with a consonant.
const AS_CONSONANT: [&str; 4] = ["one", "uni", "use", "eu"];
/// Words that end in s and may follow a 1 that is not a count, or that are singular.
const NO_PLURAL: [&str; 10] = [
    "across", "is", "has", "was", "less", "pass", "as", "glass", "lies", "sits",
];

/// Words before a number that is not a count: "Flaw 1 corners".
const NUMBERED: [&str; 4] = ["Flaw", "flaw", "Layer", "layer"];
/// Words after a letter that is a name and not an article: "with a and b", "a hole A of the jig".
const AFTER_NAME: [&str; 4] = ["and", "of", "or", "to"];
/// Words for which the program uses another one everywhere.
const NOT_OURS: [(&str, &str); 6] = [
    ("pcs", "pieces"),
    ("pcs.", "pieces"),
    ("waney", "live edge"),
    ("mended", "fixed"),
    ("mending", "fixing"),
    ("settled", "the state itself: typed, required"),
];
/// Words that may follow a number and an "in" that is not a unit: "1 in a row", "2 in each pocket".
const AFTER_IN: [&str; 13] = [
    "a", "all", "an", "both", "each", "every", "from", "it", "its", "one", "the", "two", "this",
];

/// Every fault of a sentence, in words.
///
/// Where a measured value differs from its limit by less than the usual digits show, it is printed with more of them: `now
/// 0.4676", needs 0.4682"`.
pub fn grammar_faults(words: &str) -> Vec<String> {
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
        ("about ≈", "rounding said twice"),
        ("{", "a gap that was not filled"),
    ] {
        // An ellipsis of numbers and decimals without their leading zero are no faults of this kind.
        if words.contains(part) && !(part == " ." && has_bare_decimal(words)) {
            found.push(fault.to_owned());
        }
    }
    if words.trim() != words {
        found.push("space at an end".into());
    }
    let each: Vec<&str> = words.split_whitespace().collect();
    for (at, pair) in each.windows(2).enumerate() {
        found.extend(article(pair[0], pair[1]));
        let before = at.checked_sub(1).and_then(|at| each.get(at));
        if !before.is_some_and(|word| NUMBERED.contains(word)) {
            found.extend(plural(pair[0], pair[1]));
        }
        found.extend(inches(pair[0], pair[1], each.get(at + 2).copied()));
    }
    found.extend(without_unit(&each));
    for word in &each {
        let bare = word.trim_matches(|letter: char| "(),;:".contains(letter));
        let other = NOT_OURS.iter().find(|(not, _)| *not == bare);
        found.extend(other.map(|(not, but)| format!("\"{not}\": say {but}")));
    }
    // A measured value close to its limit, and the ends of a range, need their digits.
    let is_exact = words.starts_with("now ") && words.contains(", needs ")
        || words.contains(" is out of range; use ");
    found.extend(each.iter().filter_map(|word| minus_zero(word)));
    let numbers = each.iter().filter(|_| !is_exact);
    found.extend(numbers.filter_map(|word| decimals(word)));
    found
}

/// Whether a decimal lacks the zero before its point.
fn has_bare_decimal(words: &str) -> bool {
    let mut after = words.split(" .").skip(1);
    after.any(|rest| rest.starts_with(|first: char| first.is_ascii_digit()))
}

/// The fault of an article that does not match the word after it.
fn article(article: &str, next: &str) -> Option<String> {
    let word = next.trim_matches(|letter: char| !letter.is_alphanumeric());
    let first = word.chars().next()?;
    let is_letters = first.is_alphabetic() && word.len() > 1;
    let lower = word.to_lowercase();
    let has_digit = word.contains(|letter: char| letter.is_ascii_digit());
    let sounds = if first.is_ascii_digit() {
        // Eight, eleven and eighteen begin with a vowel sound.
        let whole: String = word.chars().take_while(char::is_ascii_digit).collect();
        whole.starts_with('8') || whole == "11" || whole == "18"
    } else if has_digit && first.is_uppercase() {
        // Spelled letter by letter: an R12, a G81.
        "AEFHILMNORSX".contains(first)
    } else {
        "aeiou".contains(lower.chars().next()?)
            && !AS_CONSONANT.iter().any(|begin| lower.starts_with(begin))
            || lower.starts_with("hour")
    };
    if AFTER_NAME.contains(&word) {
        return None;
    }
    let wrong = match article {
        "a" | "A" if is_letters || first.is_ascii_digit() => sounds,
        "an" | "An" if is_letters || first.is_ascii_digit() => !sounds,
        _ => false,
    };
    // Capitals may be spelled or pronounced as a word: "an SVG", "a NIOSH limit".
    let spelled = word.len() > 1 && word.chars().all(char::is_uppercase);
    (wrong && !spelled).then(|| format!("article: {article} {next}"))
}

/// The fault of a plural after a 1.
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

/// The fault of a length in inches with its unit spelled out, where `"` is used everywhere else.
fn inches(number: &str, unit: &str, next: Option<&str>) -> Option<String> {
    let is_number = number
        .chars()
        .all(|it| it.is_ascii_digit() || "./(≈".contains(it));
    let is_fraction = number.contains('/') || number.contains('.');
    let bare = unit.trim_end_matches(|letter: char| ".,;:)".contains(letter));
    let ends = bare != unit || next.is_none();
    let goes_on = next.is_some_and(|next| {
        let next = next.trim_end_matches(|letter: char| !letter.is_alphanumeric());
        !AFTER_IN.contains(&next) && !starts_a_count(next)
    });
    (is_number && bare == "in" && (is_fraction || ends || goes_on))
        .then(|| format!("inches have the sign \": {number} {unit}"))
}

/// Whether a word begins a count: "5 in 2 passes".
fn starts_a_count(word: &str) -> bool {
    word.starts_with(|first: char| first.is_ascii_digit())
}

/// The fault of a rounded number, marked by ≈, that ends without a unit.
fn without_unit(each: &[&str]) -> Option<String> {
    let is_digits = |word: &str| {
        word.chars()
            .all(|it| it.is_ascii_digit() || "./-".contains(it))
    };
    // The number and its unit are one word (3/4"), or the unit is the next word; a comma, a parenthesis or the end come too early.
    let ends_bare = |at: usize| {
        let rest = each.get(at + 1..)?;
        let number = rest.iter().take_while(|word| is_digits(word)).count();
        let after = rest.get(number);
        let closed = after.filter(|word| {
            let bare = word.trim_end_matches([',', ';', ')', '.', ':']);
            bare.len() < word.len() && !bare.is_empty() && is_digits(bare)
        });
        closed
            .or_else(|| rest.last().filter(|_| after.is_none()))
            .copied()
    };
    let mut marks = (0..each.len()).filter(|at| each[*at].ends_with('≈'));
    marks
        .find_map(ends_bare)
        .map(|number| format!("a rounded number without its unit: {number}"))
}

/// The digits at the start of a word.
fn digits(word: &str) -> String {
    let bare = word.trim_matches(|letter: char| "(),;:".contains(letter));
    let digits = bare.chars();
    digits
        .take_while(|it| it.is_ascii_digit() || "-.".contains(*it))
        .collect()
}

/// The fault of a zero with a minus sign.
fn minus_zero(word: &str) -> Option<String> {
    let digits = digits(word);
    let value: f64 = digits.parse().ok()?;
    (digits.starts_with('-') && value == 0.0).then(|| format!("zero with a minus: {word}"))
}

/// The fault of more decimals than a maker can set.
fn decimals(word: &str) -> Option<String> {
    let digits = digits(word);
    digits.parse::<f64>().ok()?;
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
        "1/4 in or more",
        "24 in of reach",
        "as wide as 3 in.",
        "about ≈ 1 3/4\"",
        "≈ 1 3/4",
        "≈ 1 3/4, deep",
        "(≈ 3/4)",
        "a A4 sheet",
        "-0 mm is out of range; use 1 mm to 2 mm",
        "24 pcs",
    ] {
        assert!(!grammar_faults(wrong).is_empty(), "{wrong}");
    }
    for right in [
        "an outline, a unit, an hour and a one-player jig",
        "an 8 mm bit, a 12 mm bit",
        "1 hole, 2 holes, 0 holes; player 1 is first",
        "0.787\" above, -0.5 mm",
        "an SVG, an A4 sheet, a G81 cycle, an R12 file",
        "≈ 1 3/4\" or about 3 mm",
        "12 in each pocket, 5 in all, 4 in 2 rows",
    ] {
        let found = grammar_faults(right);
        assert!(found.is_empty(), "{found:?}");
    }
}
