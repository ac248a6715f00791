//! The measuring tool and its two ends, set by clicks, by a drag or by keys.

use drawing::{End, Span, end_at, span};
use egui::{Context, Key, PointerButton, Response};
use workshop::Workpiece;

use super::BoardView;
use crate::camera::Camera;

/// Distance beside a thing at which the pointer still means it, in points.
const SLACK: f32 = 5.0;

/// The measuring tool.
#[derive(Debug, Clone, Default)]
pub struct Measuring {
    /// Whether clicks and drags measure; with Shift a drag always does.
    is_on: bool,
    /// The end from which a measure is under way.
    from: Option<End>,
    /// Whether that is pulled by a drag.
    is_pulled: bool,
    /// The ends of the measure that was taken last.
    ends: Option<(End, End)>,
}

/// A measure as it is shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Measure {
    /// The name of the thing it begins at.
    pub from: String,
    /// The name of the thing it ends at.
    pub to: String,
    /// Its places and lengths.
    pub span: Span,
}

impl Measuring {
    /// A tool that was put down after a measure.
    #[cfg(test)]
    pub fn taken(from: End, to: End) -> Self {
        Self {
            ends: Some((from, to)),
            ..Self::default()
        }
    }

    /// Whether clicks and drags measure.
    pub const fn is_on(&self) -> bool {
        self.is_on
    }

    /// Takes the tool up or puts it down; the last measure stays until the next one.
    pub const fn turn(&mut self, on: bool) {
        self.is_on = on;
        self.from = None;
        self.is_pulled = false;
    }

    /// The end from which a measure is under way.
    pub const fn from(&self) -> Option<End> {
        self.from
    }

    /// Whether the primary button belongs to the tool in this frame.
    pub const fn has_pointer(&self) -> bool {
        self.is_pulled
    }

    /// Whether Escape has something to take back.
    pub const fn is_busy(&self) -> bool {
        self.is_on || self.from.is_some() || self.ends.is_some()
    }

    /// Words on the next click while the tool is in hand.
    pub const fn hint(&self) -> Option<&'static str> {
        match (self.is_on, self.from) {
            (false, _) => None,
            (true, None) => Some(
                "Measure from: a hole, the edge of a hole or of the board, a seam; Escape ends",
            ),
            (true, Some(_)) => Some("Measure to: another hole, edge or seam; Escape begins anew"),
        }
    }

    /// The measure under way to the thing under the pointer, or else the last one.
    pub fn shown(&self, workpiece: &Workpiece, pointed: Option<End>) -> Option<Measure> {
        let (from, to) = match (self.from, pointed) {
            (Some(from), Some(to)) if from != to => (from, to),
            (Some(_), _) => return None,
            (None, _) => self.ends?,
        };
        Some(Measure {
            from: from.words(workpiece),
            to: to.words(workpiece),
            span: span(workpiece, from, to)?,
        })
    }

    /// A drag from a thing measures while the tool is in hand or Shift is held.
    pub fn begin(&mut self, ctx: &Context, response: &Response, view: &BoardView<'_>, at: Camera) {
        let meant = self.is_on || ctx.input(|input| input.modifiers.shift);
        if view.dimmed || !meant || !response.drag_started_by(PointerButton::Primary) {
            return;
        }
        // Where the press was: the pointer may have left the thing before it counts as a drag.
        let origin = ctx.input(|input| input.pointer.press_origin());
        let from = origin.and_then(|origin| pointed(view, at, at.place(origin)));
        if from.is_some() {
            self.from = from;
            self.is_pulled = true;
        }
    }

    /// Lays the tool to the thing under the pointer at a click or release; Enter lays it to the chosen hole.
    pub fn follow(
        &mut self,
        ctx: &Context,
        response: &Response,
        view: &BoardView<'_>,
        pointed: Option<End>,
    ) {
        if self.is_pulled {
            if !response.dragged() {
                if self.from.is_some() {
                    self.lay(pointed);
                }
                self.turn(self.is_on);
            }
        } else if self.is_on && response.clicked() {
            self.lay(pointed);
        }
        let enter = response.has_focus() && ctx.input(|input| input.key_pressed(Key::Enter));
        if self.is_on && enter {
            self.lay(view.selected.map(End::Center));
        }
    }

    /// One end, then the other; the same end twice begins anew.
    fn lay(&mut self, end: Option<End>) {
        match (self.from, end) {
            (_, None) => {}
            (None, Some(_)) => (self.from, self.ends) = (end, None),
            (Some(from), Some(to)) => {
                self.ends = (from != to).then_some((from, to));
                self.from = None;
            }
        }
    }

    /// One step back: the end that is laid, then the tool, then the last measure; returns whether there was one.
    pub fn escape(&mut self) -> bool {
        if self.from.take().is_some() {
            return true;
        }
        if self.is_on {
            self.turn(false);
            return true;
        }
        self.ends.take().is_some()
    }
}

/// The end of a measure at a place on the board.
pub fn pointed(view: &BoardView<'_>, camera: Camera, at: geometry::Point) -> Option<End> {
    end_at(view.workpiece, at, camera.mm(SLACK)).filter(|_| !view.dimmed)
}
