//! Rules about colors.

pub mod marks;
pub mod medium;
pub mod players;
pub mod wood;

/// The first few names in a finding, and the number of the rest.
fn listed(mut names: Vec<String>) -> String {
    /// The most names listed; the rest are counted.
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
