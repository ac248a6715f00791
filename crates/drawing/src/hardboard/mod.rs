//! Hardboard templates on sheets: the router template, and the sector jig.

pub mod router;
pub mod sector;
