//! Errors for patterns that cannot be built, with the nearest values that can.
//!
//! Every message states the rule in a woodworker's words; the fields contain the same facts, for a caller that shows them in
//! another unit or offers them as buttons.

use core::fmt;

/// The valid counts nearest to a refused one; shown as `use 12 or 14`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Nearest {
    /// The largest valid count below the refused one.
    pub below: Option<u32>,
    /// The smallest valid count above the refused one.
    pub above: Option<u32>,
}

impl Nearest {
    /// The end of the range `least..=most` that is nearest to a count outside it.
    pub(crate) fn in_range(count: u32, least: u32, most: u32) -> Self {
        Self {
            below: (count > most).then_some(most),
            above: (count < least).then_some(least),
        }
    }

    /// The counts one below and one above a count of the wrong parity, both limited to `least..=most`.
    pub(crate) fn beside(count: u32, least: u32, most: u32) -> Self {
        Self {
            below: count.checked_sub(1).filter(|below| *below >= least),
            above: Some(count.saturating_add(1).max(least)).filter(|above| *above <= most),
        }
    }
}

impl fmt::Display for Nearest {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.below, self.above) {
            (Some(below), Some(above)) => write!(out, "use {below} or {above}"),
            (Some(one), None) | (None, Some(one)) => write!(out, "use {one}"),
            (None, None) => write!(out, "no count near it works"),
        }
    }
}

/// The reasons why a pattern, lane, pocket or sheet grid cannot be built.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Error {
    /// The number of players is out of range.
    #[error("a board has 1 to 24 players, not {players}")]
    Players {
        /// The requested number of players.
        players: u32,
        /// The nearest counts that work.
        nearest: Nearest,
    },
    /// A player's number of track spaces is out of range.
    #[error("a player has 1 to 250 track spaces, not {spaces}")]
    Spaces {
        /// The requested number of spaces.
        spaces: u32,
        /// The nearest counts that work.
        nearest: Nearest,
    },
    /// The pitch is not in the accepted range.
    #[error("{}", self.message(&mm))]
    Pitch {
        /// The requested pitch, in mm.
        pitch: f64,
        /// The nearest pitch that would work, in mm.
        nearest: f64,
    },
    /// The pattern needs more players.
    #[error("{pattern} needs at least {least} players, not {players}")]
    FewPlayers {
        /// The pattern, in words.
        pattern: &'static str,
        /// The requested number of players.
        players: u32,
        /// The fewest that would work.
        least: u32,
    },
    /// The whole track has fewer than three spaces.
    #[error(
        "a closed track needs at least 3 spaces in all; with {players} players, that is {least} spaces per player, not {spaces}"
    )]
    FewSpaces {
        /// The number of players.
        players: u32,
        /// The requested spaces per player.
        spaces: u32,
        /// The fewest spaces per player that would work.
        least: u32,
    },
    /// The lobes are too deep, or their depth is negative or not a number.
    #[error("the lobe depth must be 0 to 0.35, not {depth}")]
    LobeDepth {
        /// The requested depth.
        depth: f64,
        /// The nearest depth that would work.
        nearest: f64,
    },
    /// The pattern needs an even number of spaces per player.
    #[error("{pattern} needs an even number of spaces per player, not {spaces}; {nearest}")]
    OddSpaces {
        /// The pattern, in words.
        pattern: &'static str,
        /// The requested number of spaces.
        spaces: u32,
        /// The nearest counts that work.
        nearest: Nearest,
    },
    /// The arms' width is even, under 3 or out of range.
    #[error("an arm is an odd number of holes wide, 3 to 249, not {across}; {nearest}")]
    ArmWidth {
        /// The requested width, in holes.
        across: u32,
        /// The nearest widths that work.
        nearest: Nearest,
    },
    /// There are too few spaces to go around the end of an arm.
    #[error("arms {across} holes wide need at least {least} spaces per player, not {spaces}")]
    ShortArms {
        /// The width of the arms in holes.
        across: u32,
        /// The requested number of spaces.
        spaces: u32,
        /// The fewest spaces that would work.
        least: u32,
    },
    /// Too many holes in a lane or a pocket.
    #[error("{what} has at most 60 holes, not {holes}")]
    ManyHoles {
        /// The lane or the pocket, in words.
        what: &'static str,
        /// The requested number of holes.
        holes: u32,
    },
    /// The home lane would reach or pass the center.
    #[error("{}", self.message(&mm))]
    LongLane {
        /// The requested number of home holes.
        holes: u32,
        /// The most home holes that fit.
        most: u32,
        /// Distance of the turn-in space from the center, in mm.
        turn_in: f64,
        /// Distance from the center that the turn-in space must exceed, in mm.
        needed: f64,
        /// The pitch at which the last hole would be at the center, in mm; it must be less than this.
        pitch_under: f64,
    },
    /// An arc of pocket holes does not fit on such a small circle.
    #[error("{}", self.message(&mm))]
    TightArc {
        /// The number of holes in the pocket.
        holes: u32,
        /// The requested radius, in mm.
        radius: f64,
        /// The least radius that would work, in mm.
        least: f64,
    },
    /// There is no pocket to place.
    #[error("a start pocket needs at least 1 hole")]
    EmptyPocket,
    /// A length that must be positive is not.
    #[error("{}", self.message(&mm))]
    NotPositive {
        /// The length, in words.
        what: &'static str,
        /// The requested value, in mm.
        value: f64,
    },
    /// A number that must be finite is not.
    #[error("{what} must be a plain number, not {value}")]
    NotFinite {
        /// The number, in words.
        what: &'static str,
        /// The requested value.
        value: f64,
    },
    /// Sheets overlap by at least their printable length, so that more sheets do not cover more.
    #[error("{}", self.message(&mm))]
    Overlap {
        /// The requested overlap, in mm.
        overlap: f64,
        /// The printable length, in mm.
        printable: f64,
    },
    /// The template needs more sheets than any real one.
    #[error("{}", self.message(&mm))]
    ManySheets {
        /// The requested length, in mm.
        length: f64,
        /// The longest template that would work, in mm.
        longest: f64,
        /// The most sheets along one side.
        most: u32,
    },
}

impl Error {
    /// The message of the error, with its lengths formatted by `length`, which takes mm.
    ///
    /// ```
    /// use geometry::Error;
    /// let error = Error::NotPositive { what: "the radius", value: -25.4 };
    /// let said = error.message(&|mm| format!("{}\"", mm / 25.4));
    /// assert_eq!(said, "the radius must be more than 0\", not -1\"");
    /// ```
    pub fn message(&self, length: &dyn Fn(f64) -> String) -> String {
        match *self {
            Self::Pitch { pitch, .. } => {
                let [least, most, pitch] = [0.1, 250.0, pitch].map(length);
                format!("the hole spacing must be {least} to {most}, not {pitch}")
            }
            Self::LongLane {
                holes,
                most,
                turn_in,
                needed,
                pitch_under,
            } => long_lane(holes, most, [needed, turn_in, pitch_under].map(length)),
            Self::TightArc {
                holes,
                radius,
                least,
            } => {
                let [radius, least] = [radius, least].map(length);
                format!(
                    "{holes} pocket holes in an arc need a radius of at least {least}, not {radius}"
                )
            }
            Self::NotPositive { what, value } => {
                let [none, value] = [0.0, value].map(length);
                format!("{what} must be more than {none}, not {value}")
            }
            Self::Overlap { overlap, printable } => {
                let [overlap, printable] = [overlap, printable].map(length);
                format!(
                    "sheets must overlap by 0 or more and by less than the printable {printable}, not by {overlap}"
                )
            }
            Self::ManySheets {
                length: along,
                longest,
                most,
            } => {
                let [along, longest] = [along, longest].map(length);
                format!(
                    "a template {along} long takes more than {most} sheets along that side; make it {longest} or less"
                )
            }
            // Listed individually: a variant with lengths that fell through to `to_string` would recurse without end.
            Self::Players { .. }
            | Self::Spaces { .. }
            | Self::FewPlayers { .. }
            | Self::FewSpaces { .. }
            | Self::LobeDepth { .. }
            | Self::OddSpaces { .. }
            | Self::ArmWidth { .. }
            | Self::ShortArms { .. }
            | Self::ManyHoles { .. }
            | Self::EmptyPocket
            | Self::NotFinite { .. } => self.to_string(),
        }
    }
}

fn long_lane(holes: u32, most: u32, [needed, turn_in, pitch]: [String; 3]) -> String {
    format!(
        "the home lane must end before the center: at most {most} holes fit, not {holes}. To fit {holes}, use a hole spacing under \
         {pitch}, or a pattern whose turn-in space is more than {needed} from the center; it is now {turn_in} from it"
    )
}

/// A length rounded to a thousandth of a millimeter.
fn mm(length: f64) -> String {
    let thousandths = (length * 1000.0).round() / 1000.0;
    format!("{thousandths} mm")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_message_states_the_rule_and_what_would_work() {
        let odd = Error::OddSpaces {
            pattern: "a track of arms",
            spaces: 13,
            nearest: Nearest::beside(13, 4, 400),
        };
        assert_eq!(
            odd.to_string(),
            "a track of arms needs an even number of spaces per player, not 13; use 12 or 14"
        );
    }

    #[test]
    fn lengths_are_formatted_in_the_requested_unit() {
        let tight = Error::TightArc {
            holes: 4,
            radius: 12.7,
            least: 25.4,
        };
        assert_eq!(
            tight.to_string(),
            "4 pocket holes in an arc need a radius of at least 25.4 mm, not 12.7 mm"
        );
        let inches = |mm: f64| format!("{}\"", mm / 25.4);
        assert_eq!(
            tight.message(&inches),
            "4 pocket holes in an arc need a radius of at least 1\", not 0.5\""
        );
    }

    #[test]
    fn nearest_counts_stay_in_their_range() {
        assert_eq!(Nearest::beside(3, 4, 400).to_string(), "use 4");
        assert_eq!(Nearest::beside(0, 3, 399).to_string(), "use 3");
        assert_eq!(
            Nearest::beside(u32::MAX, 3, 399).to_string(),
            format!("use {}", u32::MAX - 1)
        );
        assert_eq!(Nearest::in_range(30, 1, 24).to_string(), "use 24");
        assert_eq!(Nearest::in_range(0, 1, 24).to_string(), "use 1");
    }
}
