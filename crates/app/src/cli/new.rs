//! The command `ringwright new`: writes a board file from a few options and chooses the rest.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use board::{Center, Choice, Fraction, Quantity, Shop, Units, write_board};
use clap::{Args, ValueEnum};
use geometry::Pattern;
use workshop::{Wishes, propose_for_shop};

use super::{Failure, printed};
use crate::files::{FilesError, create, write_atomic};
use crate::host::Desktop;
use crate::shop::{KeptShop, left_out_words, units_of};

/// Options of `ringwright new`.
#[derive(Debug, Args)]
pub struct New {
    /// Players
    #[arg(long, value_name = "N", value_parser = count, allow_hyphen_values = true)]
    players: Option<u32>,
    /// Shape of the track
    #[arg(long)]
    pattern: Option<Shape>,
    /// Track spaces per player
    #[arg(long, value_name = "T", value_parser = count, allow_hyphen_values = true)]
    spaces: Option<u32>,
    /// Home-lane holes per player
    #[arg(long, value_name = "H", value_parser = count, allow_hyphen_values = true)]
    home: Option<u32>,
    /// Start-pocket holes per player
    #[arg(long, value_name = "S", value_parser = count, allow_hyphen_values = true)]
    start: Option<u32>,
    /// Hole at the center pin
    #[arg(long)]
    center: Option<Middle>,
    /// Hole spacing in a straight line, center to center: 19, 19.5mm, 3/4, 1 3/16"
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pitch: Option<String>,
    /// Board diameter; without --pitch, the hole spacing is made to fit it
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    board: Option<String>,
    /// Hole diameter; without it, smaller holes are used where the spacing or the board needs them
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    bore: Option<String>,
    /// Depth of the lobes, 0 to 0.35 (pattern lobes) [default: 0.15]
    #[arg(long, value_name = "D", value_parser = number, allow_hyphen_values = true)]
    depth: Option<f64>,
    /// Holes across an arm, odd (pattern arms) [default: 3]
    #[arg(long, value_name = "N", value_parser = count, allow_hyphen_values = true)]
    across: Option<u32>,
    /// Bearing of the first player's axis, clockwise from 12 o'clock
    #[arg(long, value_name = "DEGREES", value_parser = number, allow_hyphen_values = true)]
    rotation: Option<f64>,
    /// Unit for lengths shown, and for lengths typed without a unit [default: the last one of your shop, else mm]
    #[arg(long)]
    units: Option<Unit>,
    /// Start with the usual paper, planer, bits, saw and resin instead of those of your shop
    #[arg(long)]
    no_shop: bool,
    /// Title of the board
    #[arg(long)]
    title: Option<String>,
    /// Replace the file if it exists
    #[arg(long)]
    force: bool,
    /// The file to write
    file: PathBuf,
}

/// The whole number, 0 or more, that an option gives.
///
/// # Errors
/// A message where the text is not such a number.
fn count(text: &str) -> Result<u32, &'static str> {
    text.trim()
        .parse()
        .map_err(|_| "expected a whole number of 0 or more, such as 6")
}

/// The number without a unit that an option gives.
///
/// # Errors
/// A message where the text is not a number.
fn number(text: &str) -> Result<f64, &'static str> {
    text.trim()
        .parse()
        .map_err(|_| "expected a number, such as 0.2 or 30")
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Shape {
    /// All spaces on one circle
    Ring,
    /// A wavy ring, a space on each tip
    Lobes,
    /// Straight sides, corners between players
    Polygon,
    /// An arm for each player
    Arms,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Middle {
    /// No hole
    None,
    /// A hole for the pin of the circle jig
    Pivot,
    /// A playing hole with a pilot
    Hole,
}

impl Middle {
    /// The center of this kind, with its default sizes.
    fn center(self) -> Option<Center> {
        let is_it = |kind: &Center| {
            matches!(
                (self, kind),
                (Self::None, Center::Nothing)
                    | (Self::Pivot, Center::Pivot { .. })
                    | (Self::Hole, Center::Hole { .. })
            )
        };
        Center::KINDS.iter().copied().find(is_it)
    }
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Unit {
    /// Millimeters
    Mm,
    /// Inches, with fractions to 1/64
    In,
    /// Inches, with fractions to 1/32
    #[value(name = "in/32")]
    In32,
    /// Inches, with fractions to 1/16
    #[value(name = "in/16")]
    In16,
}

impl New {
    /// Writes the board, and prints the path of the file.
    ///
    /// # Errors
    /// A [`Failure`] where the file exists and `--force` is not given, a length cannot be read, no board without
    /// problems meets all the options, or the file cannot be written.
    pub fn run(&self, out: &mut dyn Write, errors: &mut dyn Write) -> Result<ExitCode, Failure> {
        if self.file.exists() && !self.force {
            return Err(FilesError::Exists(self.file.clone()).into());
        }
        let shop = if self.no_shop {
            KeptShop::default()
        } else {
            KeptShop::load(&Desktop)
        };
        // A failure to write to standard error is ignored: there is nowhere left to report it.
        let _ = shop
            .fault()
            .map(|fault| writeln!(errors, "ringwright: {fault}"));
        let wishes = self.wishes(&shop.shop)?;
        // The message shows lengths in the unit they were typed in.
        let units = wishes.units.unwrap_or_default();
        let proposed = propose_for_shop(&wishes, &shop.shop);
        let (board, left_out) = proposed.map_err(|error| units.say(&error))?;
        if let Some(words) = left_out_words(&left_out) {
            let _ = writeln!(errors, "ringwright: {words}");
        }
        let write = if self.force { write_atomic } else { create };
        write(&self.file, write_board(&board).as_bytes())?;
        printed(writeln!(out, "{}", self.file.display()).map_err(Failure::from))?;
        Ok(ExitCode::SUCCESS)
    }

    /// The options as wishes for the proposal, with lengths in mm.
    fn wishes(&self, shop: &Shop) -> Result<Wishes, Failure> {
        let units = match self.units {
            Some(Unit::Mm) => Units::Mm,
            Some(Unit::In) => Units::INCH,
            Some(Unit::In32) => Units::Inch(Fraction::ThirtySecond),
            Some(Unit::In16) => Units::Inch(Fraction::Sixteenth),
            None => units_of(shop).unwrap_or_default(),
        };
        let length = |name: &str, text: &Option<String>| {
            let read = text
                .as_ref()
                .map(|text| Quantity::Length.read(text, units))
                .transpose();
            read.map_err(|error| format!("--{name}: {error}"))
        };
        Ok(Wishes {
            title: self.title.clone(),
            units: Some(units),
            players: self.players,
            pattern: self.pattern()?,
            spaces: self.spaces,
            home: self.home,
            start: self.start,
            center: self.center.and_then(Middle::center),
            pitch: length("pitch", &self.pitch)?,
            diameter: length("board", &self.board)?,
            bore: length("bore", &self.bore)?,
            rotation: self.rotation,
            piece: None,
            piece_diameter: None,
        })
    }

    /// The pattern with its depth or width; an option that belongs to another pattern is an error rather than ignored.
    fn pattern(&self) -> Result<Option<Pattern>, Failure> {
        let guessed = match (self.depth, self.across) {
            (Some(_), None) => Some(Shape::Lobes),
            (None, Some(_)) => Some(Shape::Arms),
            _ => None,
        };
        let shape = self.pattern.or(guessed);
        if self.depth.is_some() && shape != Some(Shape::Lobes) {
            return Err("--depth is for --pattern lobes only".into());
        }
        if self.across.is_some() && shape != Some(Shape::Arms) {
            return Err("--across is for --pattern arms only".into());
        }
        Ok(shape.map(|shape| match shape {
            Shape::Ring => Pattern::Ring,
            Shape::Lobes => Pattern::Lobes {
                depth: self.depth.unwrap_or(0.15),
            },
            Shape::Polygon => Pattern::Polygon,
            Shape::Arms => Pattern::Arms {
                across: self.across.unwrap_or(3),
            },
        }))
    }
}
