//! Placeholder.

pub mod canvas;
