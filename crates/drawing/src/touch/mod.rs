//! Work on the drawing itself: the thing at a place, and measures from one thing to another.
//!
//! A screen knows where the pointer is and how near is near enough, in mm; all else about it is worked out here, so that it
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
