//! Cautions that a task needs with any tool: chips, dust and noise.
//!
//! Every operation begins with them, so that no module can forget one; a module adds those of its tools and materials.

use super::Caution;
use crate::Task;

/// The cautions where a machine cuts or sands.
const CUTS: &[Caution] = &[Caution::Eyes, Caution::Dust, Caution::Noise];
/// The cautions where cutting or sanding is by hand.
const BY_HAND: &[Caution] = &[Caution::Eyes, Caution::Dust];

/// The cautions of a task, before those of its tools.
pub const fn at_work(task: Task) -> &'static [Caution] {
    match task {
        Task::Resaw
        | Task::Rough
        | Task::Joint
        | Task::Mortise
        | Task::Flatten
        | Task::Thickness
        | Task::Trial
        | Task::RouterTemplate
        | Task::SectorJig
        | Task::PinHole
        | Task::PinBlock
        | Task::PunchedBores
        | Task::RoutedBores
        | Task::SectorBores
        | Task::PivotBores
        | Task::MachinedBores
        | Task::MachinedGrooves
        | Task::MachinedEdge
        | Task::Free
        | Task::Corners
        | Task::Circle
        | Task::PinRings
        | Task::CenterBore
        | Task::Level
        | Task::Grooves
        | Task::GrooveFill
        | Task::Roundover
        | Task::Recess
        | Task::Lid
        | Task::Inlay
        | Task::ScrewHoles
        | Task::Sand => CUTS,
        Task::Ease => BY_HAND,
        Task::Punch | Task::Seal | Task::Inserts | Task::Fill => &[Caution::Eyes],
        Task::Rest
        | Task::Print
        | Task::Glue
        | Task::Mask
        | Task::Stain
        | Task::Undercoat
        | Task::Paint
        | Task::Coat
        | Task::Harden
        | Task::Base
        | Task::HandOver => &[],
    }
}
