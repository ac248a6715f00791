//! Rule: the finished board fits where it has to go and can be carried there.
//!
//! A board grows at the bench by a player or a larger marble, and nobody thinks of the door until it is glued up. So the
//! opening is typed once, and every change of the board is checked against it. The weight is that of the finished board without
//! its pieces, which go in a bag.

use board::{Board, Measure};

use super::{Finding, HAIR, Rule, Severity};
use crate::Workpiece;

pub const STATEMENT: &str = "The finished board with its base goes, flat or on edge, through the door or into the box \
     that was entered, and weighs no more than one person carries. The default, {10 kg|22 lb}, is the lowest guide \
     figure for a load at arm's length and elbow height (HSE INDG143, from memory), the way a wide board is held.";

/// A finding about the opening, and one about the weight.
///
/// Neither is a stop: there may be another way in, and two people can carry. They are worth knowing before wood is bought.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let found = [opening(workpiece.board()), weight(workpiece)];
    found.into_iter().flatten().collect()
}

/// A board wider than the longer side of its opening, or higher than the shorter side.
///
/// Seen from the edge, a round board is a rectangle as long as its diameter and as high as board and base: it goes through flat
/// or on edge. Tilted, it may pass through an opening slightly smaller; nobody should count on that.
fn opening(board: &Board) -> Option<Finding> {
    let passage = board.passage?;
    let base = board.base.map_or(0.0, |base| base.height);
    let (wide, high) = (board.blank.diameter, board.blank.thickness + base);
    let long = passage.width.max(passage.height);
    let short = passage.width.min(passage.height);
    let length = |mm| Measure::mm(mm).shown(board.units);
    let through = format!(
        "an opening of {} by {}",
        length(passage.width),
        length(passage.height)
    );
    let (is, most, message) = if wide > long + HAIR {
        let message = format!(
            "The board is {} across and does not go through {through}. Make it smaller, or find another way in.",
            length(wide)
        );
        (wide, long, message)
    } else if high > short + HAIR {
        let message = if board.base.is_some() {
            let high = length(high);
            format!(
                "Board and base are {high} high and do not go through {through}. Use a base that comes off."
            )
        } else {
            let high = length(high);
            format!(
                "The board is {high} thick and does not go through {through}. Find another way in."
            )
        };
        (high, short, message)
    } else {
        return None;
    };
    let finding = Finding::new(Severity::Caution, Rule::Carry, message);
    Some(finding.measuring(Measure::mm(is), Measure::mm(most)))
}

/// A board heavier than one person can carry, as weighed or calculated from its wood; `None` if neither is known.
///
/// A base adds its own weight, which is not in the document: with a heavy base, a board near the limit is over it.
fn weight(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let weighed = board.base.and_then(|base| base.board);
    let by_wood = || Some(workpiece.mass().ok()?.total() / 1000.0);
    let weighs = weighed.or_else(by_wood)?;
    let most = board.limits.carry;
    (weighs > most + HAIR).then(|| {
        let [weighs, most] = [weighs, most].map(Measure::kilograms);
        let message = format!(
            "The board weighs {}; the limit for one person is {}. Carry it with two people, or rout handles into its \
             underside.",
            weighs.shown(board.units),
            most.shown(board.units)
        );
        Finding::new(Severity::Caution, Rule::Carry, message).measuring(weighs, most)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Base, INCH, Passage, Units};

    fn found(change: impl FnOnce(&mut Board)) -> Vec<Finding> {
        let mut board = Board::default();
        change(&mut board);
        check(&Workpiece::of(&board).unwrap())
    }

    fn through(width: f64, height: f64) -> Vec<Finding> {
        found(|board| board.passage = Some(Passage { width, height }))
    }

    /// A board of 640 mm by 20 mm.
    #[test]
    fn a_board_goes_through_flat_or_on_edge() {
        assert_eq!(through(640.0, 20.0), []);
        assert_eq!(through(20.0, 640.0), []);
        assert_eq!(through(639.9, 100.0).len(), 1);
        let low = through(680.0, 19.9).remove(0);
        assert_eq!(low.severity, Severity::Caution);
        assert_eq!(low.measured, Some(Measure::mm(20.0)));
        let with_base = found(|board| {
            board.base = Some(Base::default());
            board.passage = Some(Passage {
                width: 680.0,
                height: 31.9,
            });
        });
        assert!(with_base[0].message.contains("32 mm high"), "{with_base:?}");
        assert!(low.message.contains("20 mm thick"), "{low:?}");
    }

    #[test]
    fn an_inch_board_is_reported_in_inches() {
        let wide = found(|board| {
            board.units = Units::INCH;
            board.blank.diameter = 24.0 * INCH;
            board.passage = Some(Passage {
                width: 23.5 * INCH,
                height: 6.0 * INCH,
            });
        });
        let said = "The board is 24\" across and does not go through an opening of 23 1/2\" by 6\". Make it smaller, or find another way in.";
        assert_eq!(wide[0].message, said);
    }

    #[test]
    fn a_heavy_board_takes_two_people() {
        let weighing = |kilograms| {
            found(|board| {
                board.base = Some(Base {
                    board: Some(kilograms),
                    ..Base::default()
                });
            })
        };
        assert_eq!(weighing(10.0), []);
        assert_eq!(weighing(10.1)[0].severity, Severity::Caution);
        // By its wood: 5 dm³ of walnut weigh about 3 kg, and a board twice as wide and thick weighs eight times as much.
        let large = |size: f64| {
            found(|board| {
                board.wood = Some(board::Wood::default());
                board.blank.diameter *= size;
                board.blank.thickness *= size;
            })
        };
        assert_eq!(large(1.0), []);
        assert_eq!(large(2.0).len(), 1);
    }
}
