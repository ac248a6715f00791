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
    /// The time when its parts are combined, minutes after the first batch's.
    pub begins: f64,
    /// Time to mix and to pour, minutes.
    pub minutes: f64,
}

/// Groups consecutive bores into batches; a bore that needs more than a batch is one by itself.
pub fn batches(bores: &[FilledBore], boards: u32, filling: &Filling, most: u32) -> Vec<Batch> {
    let full = filling.batch * (1.0 + HAIR);
    let mut batches: Vec<Batch> = Vec::new();
    let all = (0..boards).flat_map(|_| bores);
    for (FilledBore { ml, .. }, before) in all.zip(0_u32..) {
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
    let least = least_run(&each, pour.boards as usize, too_long)? + filling.cup;
    let range = field::BATCH.range();
    let tenths = ((least * 10.0 * (1.0 - 1e-6)).floor() / 10.0).min(range.max);
    (tenths >= (pour.largest + filling.cup).max(range.min)).then_some(tenths)
}

/// The least resin in a run of this many consecutive bores, where the bores of one board repeat for every board; `None` if
/// there are fewer bores.
fn least_run(each: &[f64], boards: usize, length: usize) -> Option<f64> {
    if length > each.len().saturating_mul(boards) {
        return None;
    }
    // A run that continues from board to board repeats after one of them.
    let rounds = (length.div_ceil(each.len()) + 1).min(boards);
    let mut poured = 0.0;
    let mut before = vec![poured];
    for ml in each.iter().cycle().take(rounds * each.len()) {
        poured += ml;
        before.push(poured);
    }
    let runs = before.iter().zip(before.iter().skip(length));
    runs.map(|(start, end)| end - start).min_by(f64::total_cmp)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_run_ends_with_the_last_board() {
        assert_eq!(least_run(&[1.0, 2.0], 2, 5), None);
        assert_eq!(least_run(&[], 2, 1), None);
        // From the second bore of the first board on.
        assert_eq!(least_run(&[4.0, 1.0, 2.0], 2, 2), Some(3.0));
        assert_eq!(least_run(&[1.0, 4.0, 2.0], 2, 2), Some(3.0));
        assert_eq!(least_run(&[1.0, 4.0, 2.0], 1, 2), Some(5.0));
    }

    proptest! {
        #[test]
        fn no_run_takes_less_than_the_least_run(
            each in prop::collection::vec(0.1..9.0_f64, 1..7),
            boards in 1_usize..6,
            length in 1_usize..20,
        ) {
            let all = each.repeat(boards);
            let runs = all.windows(length).map(|run| run.iter().sum::<f64>());
            match (least_run(&each, boards, length), runs.min_by(f64::total_cmp)) {
                (Some(found), Some(wanted)) => prop_assert!((found - wanted).abs() < 1e-9),
                (found, wanted) => prop_assert_eq!(found, wanted),
            }
        }
    }
}
