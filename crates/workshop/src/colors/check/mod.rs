//! Rules about colors.

pub mod marks;
pub mod medium;
pub mod players;
pub mod wood;

/// Names of the things a finding is about: the first few, and how many more.
fn listed(mut names: Vec<String>) -> String {
    /// The most names listed; more are counted.
    const MOST: usize = 3;
    let more = names.len().saturating_sub(MOST);
    names.truncate(MOST);
    match (more, names.split_last()) {
        (_, None) => String::new(),
        (0, Some((only, []))) => only.clone(),
        (0, Some((last, rest))) => format!("{} and {last}", rest.join(", ")),
        _ => format!("{} and {more} more", names.join(", ")),
    }
}
