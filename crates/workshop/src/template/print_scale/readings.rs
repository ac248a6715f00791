//! The lengths measured on a printed test sheet.

use serde::{Deserialize, Serialize};

/// A bar of known length and its readings; all in mm.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct PrintBar {
    /// The nominal length.
    #[serde(rename = "nominal_mm")]
    pub nominal: f64,
    /// The readings, one to five.
    #[serde(rename = "readings_mm")]
    pub readings: Vec<f64>,
}

impl Default for PrintBar {
    fn default() -> Self {
        Self {
            nominal: 100.0,
            readings: Vec::new(),
        }
    }
}

/// The lengths measured on a printed test sheet; all in mm.
///
/// Both diagonals may be left out; the skew is then unknown and taken as zero.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct PrintReadings {
    /// The horizontal bar.
    pub level: PrintBar,
    /// The vertical bar.
    pub upright: PrintBar,
    /// The nominal side of the square.
    #[serde(rename = "square_mm")]
    pub square: f64,
    /// Its diagonal from the lower left to the upper right.
    #[serde(rename = "rising_mm")]
    pub rising: Vec<f64>,
    /// Its diagonal from the upper left to the lower right.
    #[serde(rename = "falling_mm")]
    pub falling: Vec<f64>,
    /// The division of the rule used to measure.
    #[serde(rename = "division_mm")]
    pub division: f64,
}

impl Default for PrintReadings {
    fn default() -> Self {
        Self {
            level: PrintBar::default(),
            upright: PrintBar::default(),
            square: 100.0,
            rising: Vec::new(),
            falling: Vec::new(),
            division: 0.5,
        }
    }
}

impl PrintReadings {
    /// The most readings of one length.
    pub const MOST: usize = 5;

    /// Whether nothing has been measured yet.
    pub fn is_empty(&self) -> bool {
        PrintLength::ALL
            .into_iter()
            .all(|length| self.of(length).is_empty())
    }

    /// The readings of a length.
    pub fn of(&self, length: PrintLength) -> &[f64] {
        match length {
            PrintLength::Level => &self.level.readings,
            PrintLength::Upright => &self.upright.readings,
            PrintLength::Rising => &self.rising,
            PrintLength::Falling => &self.falling,
        }
    }

    /// The nominal value of a length.
    pub fn nominal(&self, length: PrintLength) -> f64 {
        match length {
            PrintLength::Level => self.level.nominal,
            PrintLength::Upright => self.upright.nominal,
            PrintLength::Rising | PrintLength::Falling => self.square * core::f64::consts::SQRT_2,
        }
    }
}

/// A length on the test sheet to measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PrintLength {
    /// The horizontal bar.
    Level,
    /// The vertical bar.
    Upright,
    /// The diagonal from the lower left to the upper right.
    Rising,
    /// The diagonal from the upper left to the lower right.
    Falling,
}

impl PrintLength {
    /// All of them, in the order of measuring.
    pub const ALL: [Self; 4] = [Self::Level, Self::Upright, Self::Rising, Self::Falling];

    /// Its name on the test sheet and beside its field.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Level => "Level bar",
            Self::Upright => "Upright bar",
            Self::Rising => "Rising diagonal",
            Self::Falling => "Falling diagonal",
        }
    }
}
