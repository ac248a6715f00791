//! The stages of the work, one per page of the job sheet: the work at one place with one kind of tools.

use super::{Operation, Task, WorkPlan};

/// A stage of the work.
///
/// Tasks are grouped by their tools and their place, so that a page of the job sheet can hang where its work is done. The
/// stages follow the order of their tasks in the plan, for every method: with drilling on the pin, the corners come off before
/// the bores, so the circle is in two parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WorkStage {
    /// From the lumberyard to a flat board.
    Blank,
    /// Paper, hardboard templates, and the pin.
    Template,
    /// The bores.
    Bores,
    /// The circle, and the hole at its center.
    Circle,
    /// Balls, discs and resin in the bores.
    Filling,
    /// Grooves, edges and the underside.
    Shaping,
    /// Sanding and coats.
    Finish,
    /// Base and handover.
    HandOver,
}

impl WorkStage {
    /// Its name on sheets.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Blank => "The blank",
            Self::Template => "Template and pin",
            Self::Bores => "The holes",
            Self::Circle => "The circle",
            Self::Filling => "Into the holes",
            Self::Shaping => "Grooves, edges, underside",
            Self::Finish => "Sanding and finish",
            Self::HandOver => "Base and hand-over",
        }
    }
}

impl Task {
    /// The stage of the work that the task belongs to.
    ///
    /// ```
    /// use workshop::{Task, WorkStage};
    /// assert_eq!(Task::Glue.stage(), WorkStage::Blank);
    /// assert_eq!(Task::CenterBore.stage(), WorkStage::Circle);
    /// ```
    pub const fn stage(self) -> WorkStage {
        match self {
            Self::Rest
            | Self::Resaw
            | Self::Rough
            | Self::Joint
            | Self::Mortise
            | Self::Glue
            | Self::Flatten
            | Self::Thickness
            | Self::Trial => WorkStage::Blank,
            Self::Print
            | Self::RouterTemplate
            | Self::SectorJig
            | Self::PinHole
            | Self::PinBlock
            | Self::Punch => WorkStage::Template,
            Self::PunchedBores
            | Self::RoutedBores
            | Self::SectorBores
            | Self::PivotBores
            | Self::MachinedBores => WorkStage::Bores,
            Self::Corners
            | Self::Circle
            | Self::MachinedEdge
            | Self::Free
            | Self::PinRings
            | Self::CenterBore => WorkStage::Circle,
            Self::Seal | Self::Inserts | Self::Fill | Self::Level => WorkStage::Filling,
            Self::Grooves
            | Self::MachinedGrooves
            | Self::GrooveFill
            | Self::Roundover
            | Self::Ease
            | Self::Recess
            | Self::Lid
            | Self::Inlay
            | Self::ScrewHoles => WorkStage::Shaping,
            Self::Sand
            | Self::Mask
            | Self::Stain
            | Self::Undercoat
            | Self::Paint
            | Self::Coat
            | Self::Harden => WorkStage::Finish,
            Self::Base | Self::HandOver => WorkStage::HandOver,
        }
    }
}

impl WorkPlan {
    /// The operations in their order, split where another stage begins; a stage may occur more than once.
    ///
    /// ```
    /// use board::Board;
    /// use workshop::{WorkStage, Workpiece};
    /// let workpiece = Workpiece::of(&Board::default())?;
    /// let stages = workpiece.work_plan().stages();
    /// assert_eq!(stages[0].0, WorkStage::Blank);
    /// let operations: usize = stages.iter().map(|(_, operations)| operations.len()).sum();
    /// assert_eq!(operations, workpiece.work_plan().operations.len());
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn stages(&self) -> Vec<(WorkStage, &[Operation])> {
        let is_same = |one: &Operation, next: &Operation| one.task.stage() == next.task.stage();
        let parts = self.operations.chunk_by(is_same);
        let named = parts.filter_map(|part| Some((part.first()?.task.stage(), part)));
        named.collect()
    }
}
