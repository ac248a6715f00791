//! Options for the template on paper and in files.

use serde::{Deserialize, Serialize};

/// What the sheet layout of a template optimizes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SheetLayout {
    /// As few sheets as can hold every hole; parts of the edge may be on no sheet.
    #[default]
    Fewest,
    /// Joints as far from the holes as possible, and the whole edge.
    Widest,
}

impl SheetLayout {
    /// Every layout, in the order lists show them.
    pub const ALL: [Self; 2] = [Self::Fewest, Self::Widest];

    /// The words that screens use.
    ///
    /// ```
    /// assert_eq!(board::SheetLayout::default().label(), "fewest sheets");
    /// ```
    pub const fn label(self) -> &'static str {
        match self {
            Self::Fewest => "fewest sheets",
            Self::Widest => "widest clearance",
        }
    }
}

/// The release of the DXF format that files are written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum DxfRelease {
    /// AC1015, which states its unit where programs look for it.
    #[default]
    R2000,
    /// AC1009, which the oldest machines read; it can only state its unit in a comment.
    R12,
}

impl DxfRelease {
    /// Every release, in the order lists show them.
    pub const ALL: [Self; 2] = [Self::R2000, Self::R12];

    /// The words that screens use.
    ///
    /// ```
    /// assert_eq!(board::DxfRelease::default().label(), "R2000, states its unit");
    /// ```
    pub const fn label(self) -> &'static str {
        match self {
            Self::R2000 => "R2000, states its unit",
            Self::R12 => "R12, for old machines",
        }
    }
}
