//! Consecutive bores grouped into batches that are poured before they set.

use board::{Filling, field};

use super::{FilledBore, HAIR};
use crate::Workpiece;

/// One batch of resin.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Batch {
    /// Number of bores filled before it, counted over all boards.
    pub before: u32,
    /// Number of bores it fills.
    pub bores: u32,
    /// Resin mixed, with the part that stays in the cup, ml.
    pub ml: f64,
    /// The time when its parts are combined, minutes after those of the first batch of its board.
    pub begins: f64,
    /// Time to mix and to pour, minutes.
    pub minutes: f64,
}

/// Groups consecutive bores into batches, board by board; a bore that needs more than a batch is one by itself.
///
/// A batch ends with its board: the calendar may pour the next board on another day, when what is left in the cup has set. So
/// all boards have the same batches.
pub fn batches(bores: &[FilledBore], boards: u32, filling: &Filling, most: u32) -> Vec<Batch> {
    let of_board = of_board(bores, filling, most);
    let count = u32::try_from(bores.len()).unwrap_or(u32::MAX);
    let all = (0..boards).flat_map(|board| {
        of_board.iter().map(move |batch| Batch {
            before: batch.before + board * count,
            ..*batch
        })
    });
    all.collect()
}

/// The batches of one board.
fn of_board(bores: &[FilledBore], filling: &Filling, most: u32) -> Vec<Batch> {
    let full = filling.batch * (1.0 + HAIR);
    let mut batches: Vec<Batch> = Vec::new();
    for (FilledBore { ml, .. }, before) in bores.iter().zip(0_u32..) {
        match batches.last_mut() {
            Some(last) if last.bores < most && last.ml + ml <= full => {
                last.bores += 1;
                last.ml += ml;
            }
            _ => batches.push(Batch {
                before,
                bores: 1,
                ml: filling.cup + ml,
                ..Batch::default()
            }),
        }
    }
    let mut begins = 0.0;
    for batch in &mut batches {
        batch.minutes = filling.mixing + f64::from(batch.bores) * filling.ten_bores / 600.0;
        batch.begins = begins;
        begins += batch.minutes;
    }
    batches
}

/// The largest batch, ml, that never fills more bores than time allows; `None` if no such batch fills even one bore.
pub fn batch_in_time(workpiece: &Workpiece) -> Option<f64> {
    let filling = workpiece.board().filling?;
    let pour = workpiece.pour()?;
    // It must run out before it fills any run of bores that is one too long.
    let too_long = usize::try_from(pour.in_time).ok()?.checked_add(1)?;
    let each: Vec<f64> = pour.bores.iter().map(|bore| bore.ml).collect();
    let least = least_run(&each, too_long)? + filling.cup;
    let range = field::BATCH.range();
    let tenths = ((least * 10.0 * (1.0 - 1e-6)).floor() / 10.0).min(range.max);
    (tenths >= (pour.largest + filling.cup).max(range.min)).then_some(tenths)
}

/// The least resin in a run of this many consecutive bores; none where a board has fewer.
fn least_run(each: &[f64], length: usize) -> Option<f64> {
    let mut poured = 0.0;
    let mut before = vec![poured];
    for ml in each {
        poured += ml;
        before.push(poured);
    }
    let runs = before.iter().zip(before.iter().skip(length));
    runs.map(|(start, end)| end - start).min_by(f64::total_cmp)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_run_ends_with_the_board() {
        assert_eq!(least_run(&[1.0, 2.0], 3), None);
        assert_eq!(least_run(&[], 2), None);
        assert_eq!(least_run(&[4.0, 1.0, 2.0], 2), Some(3.0));
        assert_eq!(least_run(&[1.0, 4.0, 2.0], 2), Some(5.0));
    }
}
