//! Direct work on the drawing: the thing at a point, and measurements from one thing to another.
//!
//! A screen knows the pointer's position and how close is close enough, in mm; everything else is worked out here, so that it
//! is the same for pointer, keys and tests.

mod end;
mod guide;
mod nudge;
pub mod on_blank;
mod pick;
mod pull;
mod span;
mod thing;

pub use end::{End, end_at};
pub use guide::{Guide, Way, snapped};
pub use nudge::{Nudge, nudged, thing_after};
pub use pick::{hole_toward, holes_box, holes_in, holes_of_player, holes_of_role, one_each, twins};
pub use pull::{Pull, Pulled, Snap, pulled};
pub use span::{Along, Span, end_place, half_chord, span};
pub use thing::{Thing, nudge_step, thing_at};
