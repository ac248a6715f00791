//! Choices for the template on paper and in files.

use serde::{Deserialize, Serialize};

/// The aim that the sheets of a template are laid out for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SheetLayout {
    /// As few sheets as hold every hole; slivers of the edge may be on none.
    #[default]
    Fewest,
    /// Joints as far from the holes as can be, and all of the edge.
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
    /// AC1015, which says its unit where programs look for it.
    #[default]
    R2000,
    /// AC1009, which the oldest machines read; it cannot say its unit but in a comment.
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
