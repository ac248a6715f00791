//! The picture of the board, from the wood up.

mod grooves;
mod hold;
mod holes;
mod marks;
mod measure;
mod overlay;
mod tints;
mod wood;

use board::HoleId;
use drawing::{End, Guide, Thing};
use egui::{Pos2, pos2};

use geometry::Point;

pub use marks::badge_at;

use super::{BoardView, Measure};
use crate::painter::Pen;

/// The parts of one frame.
pub struct Scene<'a> {
    pub view: &'a BoardView<'a>,
    /// The hole under the pointer.
    pub pointed: Option<HoleId>,
    /// The thing that a drag would take along, or takes along.
    pub thing: Option<Thing>,
    /// The place of the thing in hand in words, with the guides that it lies on.
    pub told: Option<(&'a str, &'a [Guide])>,
    /// The box that chooses holes.
    pub part: Option<kurbo::Rect>,
    pub measure: Option<&'a Measure>,
    /// The thing under the pointer that can be measured to.
    pub end: Option<End>,
    /// Where a measure starts that has not met a second thing yet.
    pub pulled: Option<End>,
    /// The board point under the pointer.
    pub pointer: Option<Point>,
    /// Whether the keys go to the picture.
    pub is_focused: bool,
}

/// The whole picture.
pub fn paint(pen: &mut Pen<'_>, scene: &Scene<'_>) {
    let view = scene.view;
    wood::paint(pen, view.board().blank, view.wood);
    wood::guides(pen, view);
    grooves::paint(pen, view);
    tints::paint(pen, view, false);
    hold::mark(pen, scene);
    marks::halos(pen, view);
    holes::paint(pen, view);
    marks::badges(pen, view);
    overlay::sheets(pen, view.sheets);
    marks::rings(pen, view, scene.pointed);
    measure::paint(pen, scene);
    hold::paint(pen, scene);
    overlay::part(pen, scene.part);
    overlay::scale_bar(pen, view.units);
    if scene.is_focused {
        pen.focus();
    }
}

/// A screen point moved up and left, toward the light, for a positive share of `by`.
fn toward_light(at: Pos2, by: f32) -> Pos2 {
    pos2(at.x - 0.62 * by, at.y - 0.78 * by)
}
