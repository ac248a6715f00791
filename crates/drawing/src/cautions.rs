//! Cautions on a sheet: a paragraph each, so that none is buried in the others.

use workshop::{Caution, FIRST};

use crate::Block;

/// The cautions in full, each with its subject and source, and last that the tool's manual comes first.
pub fn cautions(all: &[Caution]) -> Vec<Block> {
    let words = all.iter().map(|caution| caution.in_full());
    let words = words.chain([FIRST.to_owned()]);
    words.map(Block::Caution).collect()
}
