//! Work on the drawing itself: the thing at a place, and measures from one thing to another.
//!
//! A screen knows where the pointer is and how near is near enough, in mm; all else about it is worked out here, so that it
//! is the same for pointer, keys and tests.

mod end;
mod span;

pub use end::{End, end_at};
pub use span::{Along, Span, end_place, half_chord, span};
