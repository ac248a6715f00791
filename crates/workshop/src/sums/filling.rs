//! Sums about resin in the bores.

use board::{Board, Layout};

use super::{GEOMETRY, Sum, SumGroup, TYPED};
use crate::{Measure, pour};

/// How pot life follows the temperature.
const TRADE: &str = "trade page on epoxy, not a standard; the label's own table comes first";

/// The group; none where no filling is planned.
pub fn group(board: &Board, layout: &Layout) -> Option<SumGroup> {
    let pour = pour(board, layout)?;
    let count = |count: usize| Some(Measure::Count(count as u32));
    let mut sums = vec![
        Sum::new(
            "bores that are filled",
            count(pour.bores),
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
            "bore with its bottom - ball in it, · (1 + waste)",
            GEOMETRY,
        ),
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
            count(pour.batches.len()),
            "each filled in time, and no larger than is mixed at once",
            GEOMETRY,
        ),
    ];
    for (at, batch) in pour.batches.iter().enumerate() {
        let number = Measure::Count(at as u32 + 1);
        sums.push(
            Sum::new(
                "bores of the batch",
                Some(Measure::Count(batch.bores)),
                "in the order of the hole table",
                TYPED,
            )
            .at(number),
        );
        sums.push(
            Sum::new(
                "resin of the batch",
                Some(Measure::Milliliters(batch.ml)),
                "its bores' resin",
                GEOMETRY,
            )
            .at(number),
        );
        sums.push(
            Sum::new(
                "clock of the batch",
                Some(Measure::Minutes(batch.minutes)),
                "bores · time for ten / 10",
                TYPED,
            )
            .at(number),
        );
    }
    Some(SumGroup {
        heading: "filling",
        sums,
        notes: Vec::new(),
    })
}
