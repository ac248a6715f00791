//! Names of holes: T3-07, H1-2, S6-4, X2-1, C.

use core::cmp::Ordering;
use core::fmt;
use core::str::FromStr;

use serde::{Deserialize, Serialize};

/// The purpose of a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// A space of the track.
    Track,
    /// A hole of a home lane.
    Home,
    /// A hole of a start pocket.
    Start,
    /// A hole added by hand.
    Extra,
    /// The hole at the center pin.
    Center,
}

impl Role {
    /// Every role, in the order of hole tables.
    pub const ALL: [Self; 5] = [
        Self::Track,
        Self::Home,
        Self::Start,
        Self::Extra,
        Self::Center,
    ];

    /// The letter that names begin with.
    pub const fn letter(self) -> char {
        match self {
            Self::Track => 'T',
            Self::Home => 'H',
            Self::Start => 'S',
            Self::Extra => 'X',
            Self::Center => 'C',
        }
    }

    /// The word that files use.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Track => "track",
            Self::Home => "home",
            Self::Start => "start",
            Self::Extra => "extra",
            Self::Center => "center",
        }
    }

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Track => "track space",
            Self::Home => "home lane",
            Self::Start => "start pocket",
            Self::Extra => "extra hole",
            Self::Center => "center",
        }
    }
}

/// A hole's identity in the document, whatever the padding of its number.
///
/// The order is that of hole tables: by player, then track, home, start, extra, then number; the center last.
///
/// Ordered as hole tables are: by player, then track, home, start, extra, then number; the center last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct HoleId {
    role: Role,
    player: u32,
    number: u32,
}

impl HoleId {
    /// The hole at the center pin.
    pub const CENTER: Self = Self {
        role: Role::Center,
        player: 0,
        number: 0,
    };

    /// Hole `number` (from 1) of a player (from 1); for [`Role::Center`], the center hole whatever the numbers.
    pub const fn new(role: Role, player: u32, number: u32) -> Self {
        match role {
            Role::Center => Self::CENTER,
            _ => Self {
                role,
                player,
                number,
            },
        }
    }

    /// The purpose of the hole.
    pub const fn role(self) -> Role {
        self.role
    }

    /// The player it belongs to, from 1; 0 for the center hole.
    pub const fn player(self) -> u32 {
        self.player
    }

    /// Its number in its role, from 1; 0 for the center hole.
    pub const fn number(self) -> u32 {
        self.number
    }

    /// The same hole of another player; the center hole is returned unchanged.
    ///
    /// ```
    /// use board::HoleId;
    /// let mine: HoleId = "H1-3".parse().unwrap();
    /// assert_eq!(mine.of_player(4), "H4-3".parse().unwrap());
    /// ```
    pub const fn of_player(self, player: u32) -> Self {
        Self::new(self.role, player, self.number)
    }

    /// Its name, with the number padded to `digits`.
    ///
    /// ```
    /// use board::{HoleId, Role};
    /// let hole = HoleId::new(Role::Track, 2, 7);
    /// assert_eq!(hole.named(1).to_string(), "T2-7");
    /// assert_eq!(hole.named(3).to_string(), "T2-007");
    /// ```
    pub const fn named(self, digits: u8) -> HoleName {
        HoleName { id: self, digits }
    }

    /// The order of names: the center last, else by player, role and number.
    fn order(self) -> (bool, u32, Role, u32) {
        (
            self.role == Role::Center,
            self.player,
            self.role,
            self.number,
        )
    }
}

impl Ord for HoleId {
    fn cmp(&self, other: &Self) -> Ordering {
        self.order().cmp(&other.order())
    }
}

impl PartialOrd for HoleId {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for HoleId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.named(1).fmt(f)
    }
}

impl From<HoleId> for String {
    fn from(id: HoleId) -> Self {
        id.to_string()
    }
}

impl TryFrom<String> for HoleId {
    type Error = NameError;
    fn try_from(text: String) -> Result<Self, NameError> {
        text.parse()
    }
}

/// A text that is not the name of a hole.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "\"{text}\" names no hole: a name is T, H, S or X, the player, a dash and the number, as in T3-7; the center hole is C"
)]
pub struct NameError {
    /// The text.
    pub text: String,
}

impl FromStr for HoleId {
    type Err = NameError;

    /// Reads a name, padded or not: `T3-7` and `T3-07` are the same hole.
    fn from_str(text: &str) -> Result<Self, NameError> {
        read(text).ok_or_else(|| NameError {
            text: text.chars().take(40).collect(),
        })
    }
}

/// A name as it appears on the template, in upper or lower case, with or without leading zeros.
fn read(text: &str) -> Option<HoleId> {
    if text == "C" {
        return Some(HoleId::CENTER);
    }
    let role = match text.chars().next()? {
        'T' => Role::Track,
        'H' => Role::Home,
        'S' => Role::Start,
        'X' => Role::Extra,
        _ => return None,
    };
    let (player, number) = text.get(1..)?.split_once('-')?;
    Some(HoleId::new(role, count(player)?, count(number)?))
}

/// Only digits: a sign or a space means a mistyped name.
fn count(text: &str) -> Option<u32> {
    let plain = !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let count = text.parse().ok()?;
    (plain && count > 0).then_some(count)
}

/// A hole's name as written: the number padded to the widest one of its role.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HoleName {
    id: HoleId,
    digits: u8,
}

impl HoleName {
    /// The hole it names.
    pub const fn id(self) -> HoleId {
        self.id
    }
}

impl fmt::Display for HoleName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let HoleId {
            role,
            player,
            number,
        } = self.id;
        match role {
            Role::Center => f.write_str("C"),
            _ => write!(
                f,
                "{}{player}-{number:0width$}",
                role.letter(),
                width = usize::from(self.digits)
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_padded_and_read_back_padded_or_not() {
        let hole = HoleId::new(Role::Track, 3, 7);
        assert_eq!(hole.named(2).to_string(), "T3-07");
        assert_eq!("T3-07".parse(), Ok(hole));
        assert_eq!("T3-7".parse(), Ok(hole));
        assert_eq!("C".parse(), Ok(HoleId::CENTER));
    }

    #[test]
    fn texts_that_are_not_names_are_refused() {
        for text in [
            "", "T", "T3", "T3-", "T-3", "T0-1", "T1-0", "Q1-1", "t1-1", "T+1-1", "C1", "T1-1 ",
            "Ø1-1",
        ] {
            assert!(text.parse::<HoleId>().is_err(), "{text} was read");
        }
    }

    #[test]
    fn names_are_ordered_by_player_role_and_number_with_the_center_last() {
        let mut names: Vec<HoleId> = ["C", "T2-1", "S1-1", "X1-1", "H1-2", "T1-10", "T1-2"]
            .iter()
            .map(|name| name.parse().unwrap())
            .collect();
        names.sort();
        let names: Vec<String> = names.into_iter().map(String::from).collect();
        assert_eq!(
            names,
            ["T1-2", "T1-10", "H1-2", "S1-1", "X1-1", "T2-1", "C"]
        );
    }
}
