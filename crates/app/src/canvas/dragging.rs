//! Things dragged on the board, and chosen holes moved by keys.

use std::sync::Arc;

use board::{Board, HoleId, PocketSpot};
use drawing::{Guide, Nudge, Pull, Pulled, Snap, Thing, nudged, pulled, thing_after};
use egui::{Context, Key, Modifiers, PointerButton, Response};
use geometry::{Point, Vec2};
use workshop::Workpiece;

use super::{BoardView, paint};
use crate::camera::{Camera, Zoom, arrows};

/// Distance beside a thing at which the pointer still means it, in points.
const SLACK: f32 = 5.0;
/// Distance over which guides reach, in points.
const REACH: f32 = 6.0;

/// A thing that is being dragged.
#[derive(Debug, Clone)]
pub struct Held {
    thing: Thing,
    /// Where it was taken hold of.
    from: Point,
    /// The document as it was then.
    start: Arc<Workpiece>,
    /// The view stays while something is dragged: one that is fitted would run away from the pointer.
    pub zoom: Zoom,
    /// Whether Escape has taken the drag back; the button is still held.
    is_over: bool,
    /// Where the thing is, and the guides that it lies on.
    told: Option<(String, Vec<Guide>)>,
}

impl Held {
    /// The thing that is being dragged, unless that was taken back.
    pub fn thing(&self) -> Option<Thing> {
        (!self.is_over).then_some(self.thing)
    }

    /// Where the thing is now in words, and the guides that it lies on.
    pub fn told(&self) -> Option<(&str, &[Guide])> {
        let (words, guides) = self.told.as_ref().filter(|_| !self.is_over)?;
        Some((words, guides))
    }

    /// Where the pockets were when the drag began; none where it is they that are dragged.
    pub fn pockets(&self) -> Option<PocketSpot> {
        let is_pocket = matches!(self.thing, Thing::Pocket(_));
        self.start.layout().pocket.filter(|_| !is_pocket)
    }

    /// Takes the drag back: the document that it began with; none where that is done already.
    pub fn take_back(&mut self) -> Option<Board> {
        (!core::mem::replace(&mut self.is_over, true)).then(|| self.start.board().clone())
    }

    /// The document with the thing where the pointer is.
    fn carried(
        &mut self,
        ctx: &Context,
        view: &BoardView<'_>,
        at: Camera,
        to: Point,
    ) -> Option<Board> {
        let modifiers = ctx.input(|input| input.modifiers);
        // Very near guides would leave no place between them.
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

/// The thing at a place on the board that a drag would take along.
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

/// A drag that begins on a thing takes it along.
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

/// The document as this frame's pointer makes it; what is let go of is held no more.
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

/// The outcome of the arrow keys for the chosen holes, or for another thing; with Shift ten times as far.
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

/// The thing beside holes that the keys for the one before and the next go to.
pub fn stepped(ctx: &Context, view: &BoardView<'_>, from: Option<Thing>) -> Option<Thing> {
    let presses = |key: Key| ctx.input(|input| input.num_presses(key)).cast_signed();
    let steps = presses(Key::Period) - presses(Key::Comma);
    if steps == 0 {
        return None;
    }
    thing_after(view.workpiece, from, steps)
}
