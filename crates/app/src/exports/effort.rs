//! Estimated time and memory of an export, shown before it is made.

use picture::{View, effort};

use super::{Kind, Source};

/// Time and memory of an export that may be more than a maker waits for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Effort {
    /// The quantity that makes it large, and about how long it takes, in words.
    pub words: String,
    /// Whether it has to be requested by itself: it takes more than 2 s, or more memory than 300 MB.
    pub is_large: bool,
}

/// Pixels of a plain board that both cores of the machine it was measured on make in about 2 s; their memory is 150 MB.
const MOST_LOOKS: f64 = 10e6;
/// Seconds of one of its cores for a million of them.
const SECONDS: f64 = 0.4;

impl Source {
    /// The estimate for a kind that can take more than 2 s; `None` for other kinds, whose limits keep them below that.
    pub fn effort(&self, kind: Kind) -> Option<Effort> {
        if kind != Kind::Proof {
            return None;
        }
        let of = |view| effort(self.workpiece(), view, self.proof_size());
        let [above, perspective] = [View::Above, View::PERSPECTIVE].map(of);
        let looks = above.looks + perspective.looks;
        let megapixels = above.pixels.max(perspective.pixels) / 1e6;
        let time = rough_time(looks / 1e6 * SECONDS);
        Some(Effort {
            words: format!(
                "2 pictures of {megapixels:.1} megapixels, about {time} of one processor"
            ),
            is_large: looks > MOST_LOOKS,
        })
    }
}

/// A time as it is guessed: nobody knows seconds of minutes.
fn rough_time(seconds: f64) -> String {
    if seconds < 90.0 {
        format!("{:.0} s", seconds.max(1.0))
    } else {
        format!("{:.0} min", seconds / 60.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exports::Moment;
    use board::{Board, PieceKind};

    fn effort_of(board: &Board, pixels: u32) -> Effort {
        let moment = Moment {
            year: 2026,
            month: 11,
            day: 29,
        };
        let source = Source::of(board, moment).unwrap().with_proof(pixels);
        assert_eq!(source.effort(Kind::Csv), None);
        source.effort(Kind::Proof).unwrap()
    }

    #[test]
    fn a_proof_of_the_usual_size_is_not_large_and_the_largest_is() {
        let board = Board::default();
        let usual = effort_of(&board, picture::SIZES.1);
        assert_eq!(
            usual.words,
            "2 pictures of 3.2 megapixels, about 3 s of one processor"
        );
        assert!(!usual.is_large);
        let most = effort_of(&board, picture::SIZES.2);
        assert!(
            most.is_large && most.words.starts_with("2 pictures of 28.8"),
            "{}",
            most.words
        );
    }

    /// 240 pegs half a meter high: nearly each place lies in the shadow of many.
    #[test]
    fn many_high_pieces_are_large_at_the_usual_size() {
        let mut board = Board {
            players: 4,
            start: 60,
            ..Board::default()
        };
        board.blank.diameter = 1500.0;
        board.piece.kind = PieceKind::Peg;
        board.piece.height = 500.0;
        let effort = effort_of(&board, picture::SIZES.1);
        assert!(effort.is_large, "{}", effort.words);
    }
}
