//! Sums about resin in the bores.

use board::{Board, Layout};

use super::{GEOMETRY, Sum, SumGroup, TYPED};
use crate::{Measure, Pour, pour};

/// How pot life follows the temperature.
const TRADE: &str = "trade page on epoxy, not a standard; the label's own table comes first";

/// The group; none where no filling is planned.
pub fn group(board: &Board, layout: &Layout) -> Option<SumGroup> {
    let pour = pour(board, layout)?;
    let mut sums = Vec::from(resin(&pour));
    sums.extend(time(&pour));
    sums.extend(batches(&pour));
    Some(SumGroup {
        heading: "filling",
        sums,
        notes: Vec::new(),
    })
}

fn resin(pour: &Pour) -> [Sum; 3] {
    [
        Sum::new(
            "bores that are filled",
            Some(Measure::Count(pour.bores as u32)),
            "those deeper than the resin's level",
            GEOMETRY,
        ),
        Sum::new(
            "resin to mix",
            Some(Measure::Milliliters(pour.resin)),
            "(bores with their bottoms - balls in them) · (1 + waste)",
            GEOMETRY,
        ),
        Sum::new(
            "largest bore takes",
            Some(Measure::Milliliters(pour.largest)),
            "(bore with its bottom - ball in it) · (1 + waste)",
            GEOMETRY,
        ),
    ]
}

fn time(pour: &Pour) -> [Sum; 3] {
    [
        Sum::new(
            "working time in the shop",
            Some(Measure::Minutes(pour.working)),
            "pot life · 2^((label's temperature - shop's) / 10 °C)",
            TRADE,
        ),
        Sum::new(
            "bores filled in that time",
            Some(Measure::Count(pour.in_time)),
            "working time / time for ten bores · 10",
            TYPED,
        ),
        Sum::new(
            "batches",
            Some(Measure::Count(pour.batches.len() as u32)),
            "each filled in time, and no larger than is mixed at once",
            GEOMETRY,
        ),
    ]
}

/// Three figures a batch, in the order in which they are poured.
fn batches(pour: &Pour) -> impl Iterator<Item = Sum> {
    let numbered = pour.batches.iter().enumerate();
    numbered.flat_map(|(at, batch)| {
        let number = Measure::Count(at as u32 + 1);
        let figures = [
            (
                "bores of the batch",
                Measure::Count(batch.bores),
                "in the order of the hole table",
            ),
            (
                "resin of the batch",
                Measure::Milliliters(batch.ml),
                "what its bores take",
            ),
            (
                "clock of the batch",
                Measure::Minutes(batch.minutes),
                "bores · time for ten bores / 10",
            ),
        ];
        figures.map(|(name, value, formula)| Sum::new(name, Some(value), formula, TYPED).at(number))
    })
}
