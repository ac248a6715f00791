//! Words as sentences and lines begin with them.

/// Words with a capital at their beginning; what begins with no letter stays as it is.
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
