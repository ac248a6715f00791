//! Cautions on a sheet: a paragraph each, so that none is buried in the others.

use workshop::{Caution, FIRST, Operation};

use crate::Block;

/// The cautions in full, each with its subject and source, and last that the tool's manual comes first.
pub fn cautions(all: &[Caution]) -> Vec<Block> {
    let words = all.iter().map(|caution| caution.in_full());
    let words = words.chain([FIRST.to_owned()]);
    words.map(Block::Caution).collect()
}

/// The cautions of some operations, each once, in the order of the table of cautions.
pub fn of_operations(operations: &[Operation]) -> Vec<Caution> {
    let all = operations.iter().flat_map(|operation| &operation.cautions);
    let mut all: Vec<Caution> = all.copied().collect();
    all.sort_unstable();
    all.dedup();
    all
}
