//! Cautions on a sheet, one paragraph each, so that none gets lost among the others.

use workshop::{Caution, FIRST};

use crate::Block;

/// The cautions in full, each with its subject and source, and finally that the tool's manual comes first.
pub fn cautions(all: &[Caution]) -> Vec<Block> {
    let words = all.iter().map(|caution| caution.in_full());
    let words = words.chain([FIRST.to_owned()]);
    words.map(Block::Caution).collect()
}
