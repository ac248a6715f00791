//! Sums about the base: load and tipping.

use board::{Base, Footing, Measure};

use crate::Workpiece;
use crate::base::Standing;
use crate::sums::{GEOMETRY, STATICS, Sum, SumGroup, TYPED};

/// The group; `None` if no base is planned.
pub fn group(workpiece: &Workpiece) -> Option<SumGroup> {
    let (board, _layout) = (workpiece.board(), workpiece.layout());
    let base = board.base?;
    let (sums, notes) = match workpiece.standing()? {
        Ok(standing) => (figures(&base, standing), Vec::new()),
        Err(error) => (Vec::new(), vec![error.to_string()]),
    };
    Some(SumGroup {
        heading: "base",
        sums,
        notes,
    })
}

/// The load on the base, the edge over which it tips, the push that tips it, and its height.
fn figures(base: &Base, standing: &Standing) -> Vec<Sum> {
    let kilograms = |name, kilograms, formula, source| {
        Sum::new(name, Some(Measure::kilograms(kilograms)), formula, source)
    };
    let (by, from) = match base.board {
        Some(_) => ("on a scale", TYPED),
        None => ("by its wood", GEOMETRY),
    };
    let edge = match base.footing {
        Footing::Round { .. } => "half the diameter",
        Footing::Feet { .. } => "half the circle of the feet · cos(180° / feet)",
    };
    let mut sums = vec![
        kilograms("weight of the board", standing.board, by, from),
        kilograms(
            "weight of all pieces",
            standing.pieces,
            "pieces · weight of one",
            GEOMETRY,
        ),
        kilograms(
            "load on the base",
            standing.carried(),
            "board + pieces + extra load",
            GEOMETRY,
        ),
    ];
    if let Some(rating) = base.rating.filter(|rating| *rating > 0.0) {
        let share = Measure::share(standing.carried() / rating);
        sums.push(Sum::new(
            "share of the rating",
            Some(share),
            "load / rating",
            TYPED,
        ));
    }
    sums.extend([
        Sum::mm(
            "edge over which it tips, from the middle",
            standing.edge,
            edge,
            GEOMETRY,
        ),
        Sum::new(
            "push on the rim that tips the board",
            standing.tips.map(Measure::newtons),
            "W a / (R - a): weight of the board alone, edge a, radius of the board R",
            STATICS,
        ),
        Sum::mm(
            "height of the top face",
            standing.height,
            "height of the base + thickness of the board",
            GEOMETRY,
        ),
    ]);
    sums
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    use testkit::assert_near;

    #[test]
    fn a_board_that_no_push_tips_says_so() {
        let on = |diameter| {
            let board = Board {
                base: Some(Base {
                    footing: Footing::Round { diameter },
                    board: Some(3.0),
                    rating: Some(50.0),
                    ..Base::default()
                }),
                ..Board::default()
            };
            group(&Workpiece::of(&board).unwrap()).unwrap().sums
        };
        let push = |sums: &[Sum]| {
            let push = sums
                .iter()
                .find(|sum| sum.name.starts_with("push"))
                .unwrap();
            push.value
        };
        // 3 kg, an edge at 160 of 320.
        let Some(Measure { value: newtons, .. }) = push(&on(320.0)) else {
            panic!("no push")
        };
        assert_near!(newtons, 3.0 * 9.806_65, 1e-9);
        assert_eq!(push(&on(640.0)), None);
    }
}
