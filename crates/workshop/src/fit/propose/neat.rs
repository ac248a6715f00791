//! Lengths that are neat in a unit: the sizes of bits, balls and rules.
//!
//! Sizes of pieces and bores are common practice, no source: a marble rests on a bore about three quarters as wide.

use board::{Board, Units, Value, field};

/// Depth of the center pivot if it is not a playing hole, on metric boards, mm.
const PIVOT_DEPTH: f64 = 10.0;

/// The increment of chosen lengths.
///
/// It is kept as a fraction, so that a multiple of it is rounded only once.
#[derive(Debug, Clone, Copy)]
pub struct Step {
    over: f64,
    under: f64,
}

impl Step {
    /// A fraction of a millimeter.
    const fn new(over: f64, under: f64) -> Self {
        Self { over, under }
    }

    /// A whole number, for counts.
    pub const fn whole(by: i64) -> Self {
        Self::new(by as f64, 1.0)
    }

    /// A multiple of the increment, mm.
    pub fn times(self, steps: f64) -> f64 {
        steps * self.over / self.under
    }

    /// The fewest increments that are not less than a length.
    pub fn count_up(self, mm: f64) -> f64 {
        (mm * self.under / self.over - 1e-9).ceil()
    }

    /// The most increments that are not more than a length.
    pub fn count_down(self, mm: f64) -> f64 {
        (mm * self.under / self.over + 1e-9).floor()
    }

    /// The least neat length that is not less than a length, mm.
    pub fn up(self, mm: f64) -> f64 {
        self.times(self.count_up(mm))
    }

    /// The greatest neat length that is not more than a length, mm.
    pub fn down(self, mm: f64) -> f64 {
        self.times(self.count_down(mm))
    }
}

/// A piece and the bore it goes with, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sizes {
    /// Diameter of the piece.
    pub piece: f64,
    /// Diameter of the bore.
    pub bore: f64,
}

/// Lengths that are neat in a unit, mm.
pub struct Neat {
    /// The board to start from.
    pub plain: Board,
    /// The usual piece.
    pub usual: Sizes,
    /// Smaller sizes for boards without room for it, the largest first.
    pub smaller: Vec<Sizes>,
    /// Increment of a bore or a piece that is chosen to suit the other.
    pub size_step: Step,
    /// The circle jig's pin.
    pub pin: f64,
    /// Depth of the center pivot if it is not a playing hole.
    pub pivot_depth: f64,
    /// Least depth of a bore.
    pub depth: f64,
    /// Increment of a depth.
    pub depth_step: Step,
    /// Thickness of the board.
    pub thickness: f64,
    /// Increment of the thickness of a thicker board.
    pub thickness_step: Step,
    /// Roundover of its edge.
    pub roundover: f64,
    /// Increment of a pitch to which the board is then fitted.
    pub pitch_step: Step,
    /// Increment of a pitch that is fitted to the board, and of offers in place of a wish.
    pub fine_step: Step,
    /// Increment of a board's diameter.
    pub board_step: Step,
}

/// Increments of lengths, and the sizes smaller than the usual ones.
struct Steps {
    smaller: Vec<Sizes>,
    size: Step,
    depth: Step,
    thickness: Step,
    pitch: Step,
    fine: Step,
    board: Step,
}

impl Steps {
    /// Sizes that are round in millimeters.
    fn mm() -> Self {
        let smaller = [
            (14.0, 10.5),
            (12.0, 9.0),
            (10.0, 7.5),
            (8.0, 6.0),
            (6.0, 4.5),
            (4.0, 3.0),
        ];
        let sized = |(piece, bore)| Sizes { piece, bore };
        Self {
            smaller: smaller.map(sized).to_vec(),
            size: Step::new(1.0, 2.0),
            depth: Step::new(1.0, 2.0),
            thickness: Step::new(1.0, 1.0),
            pitch: Step::new(1.0, 2.0),
            fine: Step::new(1.0, 10.0),
            board: Step::new(10.0, 1.0),
        }
    }

    /// Sizes that are round in inches: fractions of the rule.
    fn inches() -> Self {
        // In 32nds of an inch.
        let smaller = [
            (18.0, 14.0),
            (16.0, 12.0),
            (14.0, 11.0),
            (12.0, 9.0),
            (10.0, 8.0),
            (8.0, 6.0),
            (6.0, 4.0),
        ];
        let part = |parts: f64| Step::new(254.0, 10.0 * parts);
        let sized = |(piece, bore)| Sizes {
            piece: part(32.0).times(piece),
            bore: part(32.0).times(bore),
        };
        Self {
            smaller: smaller.map(sized).to_vec(),
            size: part(32.0),
            depth: part(16.0),
            thickness: part(8.0),
            pitch: part(16.0),
            fine: part(64.0),
            board: part(4.0),
        }
    }
}

impl Neat {
    /// The neat lengths of a unit; lengths that the usual board has are its defaults.
    ///
    /// Neat in inches is not neat in millimeters: each unit has its own increments, and none is converted from the other.
    pub fn of(units: Units) -> Self {
        Self::beside(Board::begun(units))
    }

    /// The neat lengths that go with a board to start from.
    fn beside(plain: Board) -> Self {
        let steps = match plain.units {
            Units::Mm => Steps::mm(),
            Units::Inch(_) => Steps::inches(),
        };
        let pivot_depth = match field::PIVOT_DEPTH.us_default() {
            Some(Value::Number(depth)) if plain.units.is_inch() => depth,
            _ => PIVOT_DEPTH,
        };
        Self {
            usual: Sizes {
                piece: plain.piece.diameter,
                bore: plain.bores.track.diameter,
            },
            pin: plain.jig.pin,
            pivot_depth,
            depth: plain.bores.track.depth,
            thickness: plain.blank.thickness,
            roundover: plain.blank.roundover,
            smaller: steps.smaller,
            size_step: steps.size,
            depth_step: steps.depth,
            thickness_step: steps.thickness,
            pitch_step: steps.pitch,
            fine_step: steps.fine,
            board_step: steps.board,
            plain,
        }
    }

    /// The jig's pin, or a thinner one where a small playing hole would swallow its pilot hole.
    pub fn pin_for(&self, bore: f64) -> f64 {
        self.pin.min(bore / 2.0).max(field::JIG_PIN.range().min)
    }

    /// The piece that goes with a bore.
    pub fn piece_for(&self, bore: f64) -> f64 {
        self.size_step
            .up(bore * 4.0 / 3.0)
            .min(field::PIECE_DIAMETER.range().max)
    }

    /// The bore that goes with a piece.
    pub fn bore_for(&self, piece: f64) -> f64 {
        let bore = piece * 3.0 / 4.0;
        let neat = self.size_step.down(bore);
        // A piece of about one increment or less has no neat bore.
        (if neat > 0.0 { neat } else { bore }).max(field::BORE_DIAMETER.min)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn multiples_of_a_step_are_rounded_only_once() {
        let fine = Neat::of(Units::Mm).fine_step;
        assert_eq!(fine.down(20.25), 20.2);
        assert_eq!(fine.up(20.2), 20.2);
        assert_eq!(Neat::of(Units::INCH).pitch_step.up(18.9), 19.05);
        assert_eq!(Neat::of(Units::INCH).board_step.up(546.0), 546.1);
    }

    #[test]
    fn pieces_shrink_down_the_list_and_always_rest_on_the_rim() {
        for units in [Units::Mm, Units::INCH] {
            let neat = Neat::of(units);
            let all = [&[neat.usual], &neat.smaller[..]].concat();
            assert!(all.is_sorted_by(|a, b| a.piece > b.piece && a.bore > b.bore));
            for sizes in all {
                let share = sizes.bore / sizes.piece;
                assert!((0.65..=0.8).contains(&share), "{sizes:?}");
            }
        }
    }

    #[test]
    fn a_bore_and_its_piece_suit_each_other() {
        let neat = Neat::of(Units::Mm);
        assert_eq!((neat.piece_for(12.0), neat.bore_for(16.0)), (16.0, 12.0));
        assert_eq!(neat.piece_for(500.0), field::PIECE_DIAMETER.range().max);
        assert!(neat.bore_for(0.1) >= field::BORE_DIAMETER.min);
    }
}
