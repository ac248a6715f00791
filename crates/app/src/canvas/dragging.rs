//! Dragging things on the board, and moving the chosen ones with the arrow keys.

use std::sync::Arc;

use board::{Board, HoleId, PocketSpot};
use drawing::{Guide, Nudge, Pull, Pulled, Snap, Thing, nudged, pulled, thing_after};
use egui::{Context, Key, Modifiers, PointerButton, Response};
use geometry::{Point, Vec2};
use workshop::Workpiece;

use super::{BoardView, paint};
use crate::camera::{Camera, Zoom, arrows};

/// Distance from a thing within which the pointer still picks it, in points.
const SLACK: f32 = 5.0;
/// Distance within which a dragged thing snaps to a guide, in points.
const REACH: f32 = 6.0;

/// A thing that is being dragged.
#[derive(Debug, Clone)]
pub struct Held {
    thing: Thing,
    /// The place on the board where the drag began.
    from: Point,
    /// The document as it was when the drag began.
    start: Arc<Workpiece>,
    /// The view during the drag. It is held, because a fitted view would shift under the pointer as the board changes.
    pub zoom: Zoom,
    /// Whether Escape canceled the drag; the button may still be down.
    is_over: bool,
    /// Where the thing is now, in words, and the guides that it lies on.
    told: Option<(String, Vec<Guide>)>,
}

impl Held {
    /// The thing that is being dragged; `None` once the drag was canceled.
    pub fn thing(&self) -> Option<Thing> {
        (!self.is_over).then_some(self.thing)
    }

    /// Where the thing is now, in words, and the guides that it lies on; `None` before the first move or once canceled.
    pub fn words_and_guides(&self) -> Option<(&str, &[Guide])> {
        let (words, guides) = self.told.as_ref().filter(|_| !self.is_over)?;
        Some((words, guides))
    }

    /// Where the pockets were when the drag began; `None` while a pocket is dragged.
    pub fn pockets(&self) -> Option<PocketSpot> {
        let is_pocket = matches!(self.thing, Thing::Pocket(_));
        self.start.layout().pocket.filter(|_| !is_pocket)
    }

    /// Cancels the drag and returns the document that it began with; `None` where it was canceled already.
    pub fn take_back(&mut self) -> Option<Board> {
        (!core::mem::replace(&mut self.is_over, true)).then(|| self.start.board().clone())
    }

    /// The document with the thing moved to where the pointer is.
    fn carried(
        &mut self,
        ctx: &Context,
        view: &BoardView<'_>,
        at: Camera,
        to: Point,
    ) -> Option<Board> {
        let modifiers = ctx.input(|input| input.modifiers);
        // A longer reach would leave no free place between guides that are close together.
        let reach = at.mm(REACH).min(self.start.board().pitch / 6.0);
        let pull = Pull {
            thing: self.thing,
            with: view.chosen,
            from: self.from,
            to,
            mirrored: view.mirrored != modifiers.command,
            snap: if modifiers.shift {
                Snap::Marks
            } else {
                Snap::Guides(reach)
            },
        };
        let done = pulled(&self.start, &pull)?;
        self.told = Some((done.words, done.guides));
        Some(done.board)
    }
}

/// The thing at a place on the board that a drag would move; never the hole at the center.
pub fn thing_at(view: &BoardView<'_>, camera: Camera, at: Point) -> Option<Thing> {
    if view.dimmed {
        return None;
    }
    if paint::badge_at(view, camera, at) {
        return Some(Thing::Turn);
    }
    let thing = drawing::thing_at(view.workpiece, at, camera.mm(SLACK));
    thing.filter(|thing| *thing != Thing::Hole(HoleId::CENTER))
}

/// The drag that starts in this frame, if it starts on a thing.
pub fn begin(
    ctx: &Context,
    response: &Response,
    view: &BoardView<'_>,
    camera: Camera,
) -> Option<Held> {
    if !response.drag_started_by(PointerButton::Primary) {
        return None;
    }
    // Where the press was: the pointer may have left the thing before it counts as a drag.
    let from = camera.place(ctx.input(|input| input.pointer.press_origin())?);
    Some(Held {
        thing: thing_at(view, camera, from)?,
        from,
        start: view.workpiece.clone(),
        zoom: camera.held(),
        is_over: false,
        told: None,
    })
}

/// The document after this frame's move, if that changes it. Clears `held` once the button is released.
pub fn carry(
    ctx: &Context,
    response: &Response,
    view: &BoardView<'_>,
    camera: Camera,
    held: &mut Option<Held>,
) -> Option<Board> {
    let it = held.as_mut()?;
    let has_hold = response.dragged() || response.drag_stopped();
    let to = response
        .interact_pointer_pos()
        .filter(|_| has_hold && !it.is_over);
    let board = to.and_then(|to| it.carried(ctx, view, camera, camera.place(to)));
    if !response.dragged() {
        *held = None;
    }
    board.filter(|board| board != view.board())
}

/// The result of the arrow keys for `thing`, or else for the chosen holes; with Shift they move ten times as far.
/// `None` where no arrow key was pressed.
pub fn nudge(ctx: &Context, view: &BoardView<'_>, thing: Option<Thing>) -> Option<Pulled> {
    let hole = view.selected.filter(|id| *id != HoleId::CENTER);
    let thing = thing.or(hole.map(Thing::Hole)).filter(|_| !view.dimmed)?;
    let steps = arrows(ctx, Modifiers::SHIFT) * 10.0 + arrows(ctx, Modifiers::NONE);
    if steps == Vec2::ZERO {
        return None;
    }
    let nudge = Nudge {
        thing,
        with: view.chosen,
        steps,
        mirrored: view.mirrored,
    };
    nudged(view.workpiece, &nudge)
}

/// The thing, other than a hole, that the comma key (back) or the period key (forward) goes to; `None` where neither
/// was pressed.
pub fn stepped(ctx: &Context, view: &BoardView<'_>, from: Option<Thing>) -> Option<Thing> {
    let presses = |key: Key| ctx.input(|input| input.num_presses(key)).cast_signed();
    let steps = presses(Key::Period) - presses(Key::Comma);
    if steps == 0 {
        return None;
    }
    thing_after(view.workpiece, from, steps)
}
