//! Findings about hardboard templates.

pub mod bit;
pub mod bushing;
pub mod owned;
pub mod sector;
pub mod web;
