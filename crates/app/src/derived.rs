//! Everything that follows from a document, worked out once for each of its revisions.

use board::{Board, BuildError, Layout, layout};
use drawing::{Item, Tiling, TilingError, plan_without_names, tiling};
use workshop::{Figures, Finding, check, figures};

/// Everything that follows from a document.
#[derive(Debug, Clone, PartialEq)]
pub struct Derived {
    /// Every hole, placed.
    pub layout: Layout,
    /// The measures that are always in sight.
    pub figures: Figures,
    /// The template cut into sheets, or why it cannot be.
    pub tiling: Result<Tiling, TilingError>,
    /// What would go wrong, worst first.
    pub findings: Vec<Finding>,
    /// The plan that screen and template share, but for the names, which the screen writes itself.
    pub plan: Vec<Item>,
}

impl Derived {
    /// Works everything out.
    ///
    /// # Errors
    /// [`BuildError`] where the document cannot be laid out.
    pub fn of(board: &Board) -> Result<Self, BuildError> {
        let layout = layout(board)?;
        let tiling = tiling(board, &layout);
        let sheets = tiling.as_ref().map(|tiling| tiling.tiles.len() as u32);
        let sheets = sheets.map_err(ToString::to_string);
        Ok(Self {
            figures: figures(board, &layout),
            findings: check(
                board,
                &layout,
                sheets.as_ref().copied().map_err(String::as_str),
            ),
            plan: plan_without_names(board, &layout),
            tiling,
            layout,
        })
    }
}
