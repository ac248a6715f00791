//! Lengths that are neat in a unit: what the shop has bits, balls and rules for.
//!
//! Sizes of pieces and bores are common practice, no source: a marble rests on a bore about three quarters as wide.

use board::{Units, field};

/// Steps that chosen lengths come in.
///
/// A step is kept as a fraction, so that so many of them are the nearest number to what they should be.
#[derive(Debug, Clone, Copy)]
pub struct Step {
    over: f64,
    under: f64,
}

impl Step {
    const fn new(over: f64, under: f64) -> Self {
        Self { over, under }
    }

    /// So many steps, mm.
    pub fn times(self, steps: f64) -> f64 {
        steps * self.over / self.under
    }

    /// The fewest steps that are not under a length.
    pub fn count_up(self, mm: f64) -> f64 {
        (mm * self.under / self.over - 1e-9).ceil()
    }

    /// The most steps that are not over a length.
    pub fn count_down(self, mm: f64) -> f64 {
        (mm * self.under / self.over + 1e-9).floor()
    }

    /// The least neat length that is not under a length, mm.
    pub fn up(self, mm: f64) -> f64 {
        self.times(self.count_up(mm))
    }

    /// The greatest neat length that is not over a length, mm.
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
    /// The unit.
    pub units: Units,
    /// The usual piece.
    pub usual: Sizes,
    /// Smaller ones for boards that have no room for it, the largest first.
    pub smaller: Vec<Sizes>,
    /// Steps of a bore or a piece that is chosen to suit the other.
    pub size_step: Step,
    /// The circle jig's pin.
    pub pin: f64,
    /// Depth of a pivot that is no playing hole.
    pub pivot_depth: f64,
    /// Least depth of a bore.
    pub depth: f64,
    /// Steps of a depth.
    pub depth_step: Step,
    /// Thickness of the board.
    pub thickness: f64,
    /// Steps of a thicker one.
    pub thickness_step: Step,
    /// Roundover of its edge.
    pub roundover: f64,
    /// Steps of a pitch that the board follows.
    pub pitch_step: Step,
    /// Steps of a pitch that follows the board, and of what is offered in place of a wish.
    pub fine_step: Step,
    /// Steps of a board's diameter.
    pub board_step: Step,
}

impl Neat {
    /// The neat lengths of a unit.
    ///
    /// Neat in inches is not neat in millimeters: each has its own steps, and none is converted from the other.
    pub fn of(units: Units) -> Self {
        match units {
            Units::Mm => Self::mm(),
            Units::Inch(_) => Self::inches(),
        }
    }

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
            units: Units::Mm,
            usual: sized((16.0, 12.0)),
            smaller: smaller.map(sized).to_vec(),
            size_step: Step::new(1.0, 2.0),
            pin: 6.0,
            pivot_depth: 10.0,
            depth: 5.0,
            depth_step: Step::new(1.0, 2.0),
            thickness: 20.0,
            thickness_step: Step::new(1.0, 1.0),
            roundover: 5.0,
            pitch_step: Step::new(1.0, 2.0),
            fine_step: Step::new(1.0, 10.0),
            board_step: Step::new(10.0, 1.0),
        }
    }

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
            units: Units::INCH,
            usual: sized((20.0, 16.0)),
            smaller: smaller.map(sized).to_vec(),
            size_step: part(32.0),
            pin: part(4.0).times(1.0),
            pivot_depth: part(8.0).times(3.0),
            depth: part(16.0).times(3.0),
            depth_step: part(16.0),
            thickness: part(4.0).times(3.0),
            thickness_step: part(8.0),
            roundover: part(16.0).times(3.0),
            pitch_step: part(16.0),
            fine_step: part(64.0),
            board_step: part(4.0),
        }
    }

    /// The jig's pin; a thinner one where a small playing hole would swallow its pilot.
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
        // A piece under a step or so has no neat bore.
        (if neat > 0.0 { neat } else { bore }).max(field::BORE_DIAMETER.min)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn so_many_steps_are_the_nearest_number_to_what_they_should_be() {
        let fine = Neat::of(Units::Mm).fine_step;
        assert_eq!(fine.down(20.25), 20.2);
        assert_eq!(fine.up(20.2), 20.2);
        assert_eq!(Neat::of(Units::INCH).pitch_step.up(18.9), 19.05);
        assert_eq!(Neat::of(Units::INCH).board_step.up(546.0), 546.1);
    }

    #[test]
    fn pieces_get_smaller_down_the_list_and_always_rest_on_the_rim() {
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
