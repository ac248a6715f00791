//! The resin for each player's bores, and the batches it comes from.

use super::Pour;

/// One player's bores on one board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SectorPour {
    /// The board, from 1.
    pub board: u32,
    /// The player; none for the center.
    pub player: Option<u32>,
    /// Number of its filled bores.
    pub bores: u32,
    /// Their resin, waste included, ml.
    pub ml: f64,
    /// The first and the last batch poured into them, counted from 1.
    pub batches: (u32, u32),
}

impl Pour {
    /// The resin for each player's bores and the batches it comes from, player by player and board by board.
    pub fn sectors(&self) -> Vec<SectorPour> {
        let mut batches = self.batches.iter().zip(1..);
        let mut batch = batches.next();
        let mut sectors: Vec<SectorPour> = Vec::new();
        let all =
            (1..=self.boards).flat_map(|board| self.bores.iter().map(move |bore| (board, bore)));
        for ((board, bore), at) in all.zip(0_u32..) {
            while batch.is_some_and(|(batch, _)| at >= batch.before + batch.bores) {
                batch = batches.next();
            }
            let number = batch.map_or(0, |(_, number)| number);
            let player = Some(bore.name.id().player()).filter(|player| *player > 0);
            match sectors.last_mut() {
                Some(last) if (last.board, last.player) == (board, player) => {
                    last.bores += 1;
                    last.ml += bore.ml;
                    last.batches.1 = number;
                }
                _ => sectors.push(SectorPour {
                    board,
                    player,
                    bores: 1,
                    ml: bore.ml,
                    batches: (number, number),
                }),
            }
        }
        sectors
    }
}
