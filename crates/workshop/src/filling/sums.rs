//! Shop math about resin in the bores.

use board::{HoleName, Measure};

use crate::Workpiece;
use crate::filling::{Batch, MixParts, Pour, SectorPour, mix_parts, part};
use crate::sums::{GEOMETRY, Sum, SumGroup, TYPED};

/// The source for pot life by temperature.
const TRADE: &str = "trade page on epoxy, not a standard; the label's own table comes first";
/// The source for the weight of most epoxies.
const DENSITY: &str = "by the density typed; most epoxies have 1.10 to 1.20 g/ml, from memory";
/// The note on why batches end where they do.
const FULL: &str = "each filled in time, and no larger than is mixed at once";
/// The most batches listed individually.
const TOLD: usize = 200;

/// The group; `None` if no filling is planned.
pub fn group(workpiece: &Workpiece) -> Option<SumGroup> {
    let (board, _layout) = (workpiece.board(), workpiece.layout());
    let (filling, pour) = (board.filling?, workpiece.pour()?);
    let mix = |ml| {
        let MixParts { resin, hardener } = mix_parts(&filling.mix, ml);
        [resin, hardener].map(|amount| part(&filling.mix, amount))
    };
    let mut sums = each_bore(pour);
    sums.extend(in_all(pour, filling.mix.density));
    sums.extend(of_two(mix(pour.resin), PARTS));
    sums.extend(overfill(pour));
    sums.extend(time(pour));
    for (batch, number) in pour.batches.iter().take(TOLD).zip(1..) {
        let two = of_two(mix(batch.ml), BATCH_PARTS);
        let of_batch = of_batch(batch).into_iter().chain(two);
        sums.extend(of_batch.map(|sum| sum.at(Measure::count(number))));
    }
    for sector in pour.sectors().iter().filter(|sector| sector.board == 1) {
        sums.extend(of_sector(sector));
    }
    Some(SumGroup {
        heading: "filling",
        sums,
        notes: notes(pour),
    })
}

/// The notes that keep the sums from being misread: when the clock starts, and which board the sectors belong to.
fn notes(pour: &Pour) -> Vec<String> {
    let mut notes = vec![
        "time counts from mixing the first batch of a board, with no break between batches".into(),
    ];
    if pour.boards > 1 {
        notes.push(format!(
            "for {} boards, each with its own batches; sectors are those of the first",
            pour.boards
        ));
    }
    if pour.batches.len() > TOLD {
        notes.push(format!(
            "of {} batches the first {TOLD} are listed",
            pour.batches.len()
        ));
    }
    notes
}

/// Resin in one bore, one sum for each different amount, in the order of the hole table.
fn each_bore(pour: &Pour) -> Vec<Sum> {
    let mut amounts: Vec<(f64, Vec<HoleName>)> = Vec::new();
    for bore in &pour.bores {
        match amounts.iter_mut().find(|(ml, _)| *ml == bore.ml) {
            Some((_, holes)) => holes.push(bore.name),
            None => amounts.push((bore.ml, vec![bore.name])),
        }
    }
    let filled = Sum::new(
        "holes that are filled on a board",
        Some(Measure::count(pour.bores.len() as u32)),
        "those deeper than the resin's level",
        GEOMETRY,
    );
    let takes = amounts.into_iter().map(|(ml, holes)| {
        let formula = "(hole with its bottom - insert + crown π h (3 a² + h²) / 6) · (1 + waste)";
        Sum::new(
            "resin per hole",
            Some(Measure::milliliters(ml)),
            formula,
            GEOMETRY,
        )
        .about(holes)
    });
    std::iter::once(filled).chain(takes).collect()
}

/// Amounts for all boards: resin poured, left in cups and mixed, and its weight.
fn in_all(pour: &Pour, density: f64) -> [Sum; 4] {
    let ml = |name, ml, formula| Sum::new(name, Some(Measure::milliliters(ml)), formula, GEOMETRY);
    [
        ml("resin poured", pour.poured, "resin in the holes · boards"),
        ml(
            "resin left in cups",
            pour.resin - pour.poured,
            "rest in a cup · batches",
        ),
        ml("resin to mix", pour.resin, "poured + left in cups"),
        Sum::new(
            "weight of the resin to mix",
            Some(Measure::grams(pour.resin * density)),
            "volume · density",
            DENSITY,
        ),
    ]
}

/// Captions of the two parts of the whole filling.
const PARTS: [&str; 2] = ["resin to measure out", "hardener to measure out"];
/// Captions of the two parts of one batch.
const BATCH_PARTS: [&str; 2] = ["resin for the batch", "hardener for the batch"];

/// Both parts of a mix as two sums.
fn of_two([resin, hardener]: [Measure; 2], [first, second]: [&'static str; 2]) -> [Sum; 2] {
    [
        Sum::new(
            first,
            Some(resin),
            "amount · parts of resin / all parts",
            TYPED,
        ),
        Sum::new(
            second,
            Some(hardener),
            "amount · parts of hardener / all parts",
            TYPED,
        ),
    ]
}

/// Resin above the top faces that is leveled off; empty without any.
fn overfill(pour: &Pour) -> Vec<Sum> {
    if pour.overfill_height <= 0.0 {
        return Vec::new();
    }
    vec![
        Sum::mm(
            "overfill above the top face",
            pour.overfill_height,
            "crown - depth of the level",
            TYPED,
        ),
        Sum::new(
            "resin to level off",
            Some(Measure::milliliters(pour.overfill)),
            "the part of the crowns above the top face",
            GEOMETRY,
        ),
    ]
}

/// Working time of a batch, the bores filled in it, and the number of batches.
fn time(pour: &Pour) -> [Sum; 3] {
    [
        Sum::new(
            "working time in the shop",
            Some(Measure::minutes(pour.working)),
            "pot life · 2^((label's temperature - shop's) / 10 °C)",
            TRADE,
        ),
        Sum::new(
            "holes filled in that time",
            Some(Measure::count(pour.in_time)),
            "(working time - mixing) / time for ten holes · 10",
            TYPED,
        ),
        Sum::new(
            "batches",
            Some(Measure::count(pour.batches.len() as u32)),
            FULL,
            GEOMETRY,
        ),
    ]
}

/// The bores of a batch and its resin, when it begins, and when it is poured.
fn of_batch(batch: &Batch) -> [Sum; 4] {
    let minutes =
        |name, minutes, formula| Sum::new(name, Some(Measure::minutes(minutes)), formula, TYPED);
    [
        Sum::new(
            "holes of the batch",
            Some(Measure::count(batch.bores)),
            "in the order of the hole table",
            TYPED,
        ),
        Sum::new(
            "amount of the batch",
            Some(Measure::milliliters(batch.ml)),
            "resin in its holes + rest in the cup",
            GEOMETRY,
        ),
        minutes(
            "batch begins",
            batch.begins,
            "when those of its board before it are poured",
        ),
        minutes(
            "batch is poured",
            batch.begins + batch.minutes,
            "beginning + mixing + holes · time for ten holes / 10",
        ),
    ]
}

/// Resin for one sector, and its batches.
fn of_sector(sector: &SectorPour) -> Vec<Sum> {
    let ml = |name| {
        Sum::new(
            name,
            Some(Measure::milliliters(sector.ml)),
            "resin in its holes",
            GEOMETRY,
        )
    };
    let count =
        |name, count, formula| Sum::new(name, Some(Measure::count(count)), formula, GEOMETRY);
    let Some(player) = sector.player else {
        return vec![ml("resin of the center hole")];
    };
    let (first, last) = sector.batches;
    let sums = [
        count(
            "holes of the sector",
            sector.bores,
            "those of the player that are filled",
        ),
        ml("resin of the sector"),
        count("first batch of the sector", first, FULL),
        count("last batch of the sector", last, FULL),
    ];
    sums.map(|sum| sum.at(Measure::count(player))).to_vec()
}
