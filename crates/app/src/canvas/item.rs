//! The plot's one item: the whole picture, from the wood up.

use core::ops::RangeInclusive;

use board::HoleId;
use egui::{Color32, Pos2, Response, Shape, Ui};
use egui_plot::{PlotBounds, PlotGeometry, PlotItem, PlotItemBase, PlotTransform};

use super::input::Asked;
use super::paint::{Brush, grooves, holes, marks, overlay, wood};
use super::palette::Palette;
use super::{BoardView, CanvasState, Measure};

/// What one frame shows.
pub struct BoardItem<'a> {
    base: PlotItemBase,
    view: &'a BoardView<'a>,
    pointed: Option<HoleId>,
    measure: Option<Measure>,
    /// The end of a measure that has not met a hole yet: where it starts, and the pointer.
    pulled: Option<(HoleId, Pos2)>,
    focused: bool,
}

impl<'a> BoardItem<'a> {
    pub fn new(
        view: &'a BoardView<'a>,
        state: &CanvasState,
        asked: &Asked,
        response: &Response,
        measure: Option<Measure>,
    ) -> Self {
        let loose = state.pulled_from.filter(|_| measure.is_none());
        Self {
            base: PlotItemBase::new("board".to_owned()),
            view,
            pointed: asked.pointed,
            measure,
            pulled: loose.zip(response.interact_pointer_pos()),
            focused: response.has_focus(),
        }
    }
}

impl PlotItem for BoardItem<'_> {
    fn shapes(&self, ui: &Ui, transform: &PlotTransform, shapes: &mut Vec<Shape>) {
        let palette = Palette::of(ui.visuals(), self.view.dimmed);
        let mut brush = Brush::new(ui, transform, palette, shapes);
        let view = self.view;
        wood::paint(&mut brush, view.board.blank);
        wood::guides(&mut brush, view);
        grooves::paint(&mut brush, view);
        marks::halos(&mut brush, view);
        holes::paint(&mut brush, view);
        marks::badges(&mut brush, view);
        overlay::sheets(&mut brush, view.sheets);
        marks::rings(&mut brush, view, self.pointed);
        overlay::measure(&mut brush, view, self.measure.as_ref(), self.pulled);
        overlay::scale_bar(&mut brush, view.units);
        if self.focused {
            overlay::focus(&mut brush);
        }
    }

    fn initialize(&mut self, _x_range: RangeInclusive<f64>) {}

    fn color(&self) -> Color32 {
        Color32::TRANSPARENT
    }

    /// None: pointing is ours.
    fn geometry(&self) -> PlotGeometry<'_> {
        PlotGeometry::None
    }

    /// Nothing: the view is set by hand each frame.
    fn bounds(&self) -> PlotBounds {
        PlotBounds::NOTHING
    }

    fn base(&self) -> &PlotItemBase {
        &self.base
    }

    fn base_mut(&mut self) -> &mut PlotItemBase {
        &mut self.base
    }
}
