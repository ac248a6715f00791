//! The reason why nothing fits: the limit that prevents it, by how much, and at which holes.

use core::fmt::{self, Formatter};

use board::{BuildError, HoleName, Range, Units, show_length};

use super::tightest::Tightest;

/// The reason why nothing fits.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FitError {
    /// The board cannot be laid out at any size.
    #[error(transparent)]
    Build(#[from] BuildError),
    /// No value in the range respects the limits.
    #[error(fmt = nothing)]
    Nothing {
        /// The range that was searched.
        range: Range,
        /// The shortfall at the value where it is least, mm.
        short: f64,
        /// The limit that prevents it there.
        limit: Limit,
        /// The hole or the two holes where that is.
        holes: Vec<HoleName>,
    },
}

/// A limit that a board is checked against when a value is solved for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limit {
    /// The wood between a bore and the roundover.
    Rim,
    /// The wood between two bores.
    Web,
    /// The gap between two pieces.
    Gap,
    /// Bores lie on the flat top, inside the roundover.
    Flat,
    /// Pieces stand inside the board's edge.
    Edge,
}

impl Limit {
    /// Its name in messages.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Rim => "the rim margin",
            Self::Web => "the wood between holes",
            Self::Gap => "the gap between pieces",
            Self::Flat => "the holes on the flat top",
            Self::Edge => "the pieces inside the edge",
        }
    }
}

impl FitError {
    /// The error for a number that fits at no value of its range, with the limit that prevents it.
    pub(super) fn nothing(range: Range, tightest: Tightest) -> Self {
        Self::Nothing {
            range,
            short: -tightest.spare,
            limit: tightest.limit,
            holes: tightest.holes,
        }
    }
}

/// The message for a search that found nothing: the value searched, its range, and the smallest shortfall with its holes.
#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the error's derive passes its fields by reference"
)]
/// The same message for lengths in mm.
fn nothing(
    range: &Range,
    short: &f64,
    limit: &Limit,
    holes: &[HoleName],
    f: &mut Formatter<'_>,
) -> fmt::Result {
    let units = Units::of(f);
    let ends = range.ends(units);
    let names: Vec<String> = holes.iter().map(ToString::to_string).collect();
    let place = if names.is_empty() {
        String::new()
    } else {
        format!(", at {}", names.join(" and "))
    };
    write!(
        f,
        "no {} from {ends} keeps {}; {} are missing at best{place}",
        range.name(),
        limit.label(),
        show_length(*short, units),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::field;

    #[test]
    fn the_message_uses_the_makers_unit() {
        let id = |text: &str| text.parse::<board::HoleId>().unwrap().named(2);
        let error = FitError::Nothing {
            range: field::PITCH.range(),
            short: 3.175,
            limit: Limit::Web,
            holes: vec![id("T1-8"), id("T1-9")],
        };
        assert_eq!(
            error.to_string(),
            "no hole spacing from 0.1 mm to 250 mm keeps the wood between holes; 3.175 mm are missing at best, at T1-08 and T1-09"
        );
        assert!(
            Units::INCH
                .say(&error)
                .ends_with("1/8\" are missing at best, at T1-08 and T1-09")
        );
    }

    #[test]
    fn a_count_has_no_unit() {
        let error = FitError::Nothing {
            range: field::SPACES.range(),
            short: 25.4,
            limit: Limit::Rim,
            holes: Vec::new(),
        };
        assert_eq!(
            Units::INCH.say(&error),
            "no spaces per player from 1 to 250 keeps the rim margin; 1\" are missing at best"
        );
    }
}
