//! The colors of pieces, rings and grooves, as tones of light.
//!
//! Colors are those of the document; here they become light. Where the document has none, players have colors that are
//! told apart with every kind of color vision.

use workshop::Workpiece;

use crate::tone::Tone;

/// The colors of a board.
#[derive(Debug, Clone, PartialEq)]
pub struct Paints {
    /// The color of each player, from the first.
    players: Vec<Tone>,
}

/// Colors that are told apart with every kind of sight (Okabe and Ito 2008), but black.
const SAFE: [[u8; 3]; 8] = [
    [0xd5, 0x5e, 0x00],
    [0x00, 0x72, 0xb2],
    [0x00, 0x9e, 0x73],
    [0xf0, 0xe4, 0x42],
    [0xcc, 0x79, 0xa7],
    [0x56, 0xb4, 0xe9],
    [0xe6, 0x9f, 0x00],
    [0x2a, 0x2a, 0x2a],
];

impl Paints {
    /// The colors of a workpiece.
    pub fn of(workpiece: &Workpiece) -> Self {
        let players = workpiece.board().players as usize;
        Self {
            players: SAFE
                .iter()
                .cycle()
                .take(players.max(1))
                .map(|color| Tone::of(*color))
                .collect(),
        }
    }

    /// The color of a player's pieces.
    pub fn player(&self, player: u32) -> Tone {
        let place = (player.max(1) - 1) as usize;
        self.players.get(place).copied().unwrap_or(Tone::gray(0.5))
    }
}
