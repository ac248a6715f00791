//! A board as a drawing: circles, arcs, lines, crosses and names in millimetres.
//!
//! A drawing says what each line is for ([`Line`]) and what it belongs to ([`Layer`]), never a color: the
//! window, the PDF and the SVG each choose their own strokes, and draw the same thing.
//!
//! # Frames
//!
//! Board items keep to the frame of crate `geometry` (origin at the center pin, y up). A [`Sheet`] has a
//! page frame of its own: millimetres, origin at the lower left corner of the paper, y up.
//!
//! # What is inside
//!
//! * [`Item`], [`Shape`], [`Layer`], [`Line`], [`Text`]: the parts of a drawing.
//! * [`Sheet`], [`View`]: one printed page, with the part of the board that it shows.
//! * [`font`]: the one typeface, its bytes and its measures.
//!
//! The crate knows nothing of windows and of file formats.

pub mod font;
mod item;
mod sheet;

pub use item::{Anchor, Arc, Item, Layer, Line, Shape, Text};
pub use sheet::{Sheet, View};
