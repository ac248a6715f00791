//! Resin for the bores: how much, and in how many batches before each sets in its cup.

use board::{Board, Filling, Hole, Layout, PieceKind, ranges};

use crate::volume::{ball_below, bore_volume};

/// What rounding may take from a batch that is just full, as a share.
const HAIR: f64 = 1e-9;

/// Resin for the bores of a board.
#[derive(Debug, Clone, PartialEq)]
pub struct Pour {
    /// Bores that are filled: those that hold a piece and are deeper than the resin's level.
    pub bores: usize,
    /// All resin to mix, waste included, ml.
    pub resin: f64,
    /// The most that one bore takes, waste included, ml.
    pub largest: f64,
    /// How long a batch can be worked at the temperature of the shop, minutes.
    pub working: f64,
    /// How many bores are filled in that time.
    pub in_time: u32,
    /// Of batches that are as large as the maker mixes them, the one that takes longest.
    pub longest: Batch,
    /// Batches no larger than the maker mixes them, and filled in time, in the order of the hole table.
    pub batches: Vec<Batch>,
}

/// One batch of resin.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Batch {
    /// Bores it fills.
    pub bores: u32,
    /// How much is mixed, waste included, ml.
    pub ml: f64,
    /// How long they take, minutes.
    pub minutes: f64,
}

/// How long resin can be worked in a shop, minutes, from its pot life at the label's temperature: twice as long for
/// each 10 °C (18 °F) colder, half as long for each 10 °C warmer (trade page, not a standard).
pub fn working_time(pot_life: f64, label: f64, shop: f64) -> f64 {
    pot_life * libm::exp2((label - shop) / 10.0)
}

/// Resin for the bores of a laid-out board; none where none is planned.
pub fn pour(board: &Board, layout: &Layout) -> Option<Pour> {
    let filling = board.filling?;
    let takes = takes(board, &filling, layout);
    let working = working_time(filling.pot_life, filling.pot_life_at, filling.shop);
    // A hair over the whole number, and more than can be counted counts as the most.
    let in_time = (working * 600.0 / filling.ten_bores * (1.0 + HAIR)).floor() as u32;
    let mixed = batches(&takes, &filling, u32::MAX);
    let longest = mixed.into_iter().max_by_key(|batch| batch.bores);
    Some(Pour {
        bores: takes.len(),
        resin: takes.iter().sum(),
        largest: takes.iter().copied().fold(0.0, f64::max),
        working,
        in_time,
        longest: longest.unwrap_or_default(),
        batches: batches(&takes, &filling, in_time.max(1)),
    })
}

/// The largest batch, ml, that never fills more bores than the time allows; none where no batch does that and fills a
/// bore.
pub fn batch_in_time(board: &Board, layout: &Layout) -> Option<f64> {
    let filling = board.filling?;
    let pour = pour(board, layout)?;
    let takes = takes(board, &filling, layout);
    // It must run out before any run of bores that is one too long.
    let too_long = usize::try_from(pour.in_time).ok()?.checked_add(1)?;
    let runs = takes.windows(too_long).map(|run| run.iter().sum::<f64>());
    let least = runs.min_by(f64::total_cmp)?;
    let tenths = (least * 10.0 * (1.0 - 1e-6)).floor() / 10.0;
    (tenths >= pour.largest.max(ranges::BATCH.min)).then_some(tenths)
}

/// Whether a hole is filled: it holds a piece, and is deeper than the level of the resin.
pub fn is_filled(board: &Board, filling: &Filling, hole: &Hole) -> bool {
    takes_hole(board, filling, hole) > 0.0
}

/// What each bore that is filled takes, waste included, ml.
fn takes(board: &Board, filling: &Filling, layout: &Layout) -> Vec<f64> {
    let seats = layout.seats(board).iter();
    let each = seats.map(|hole| takes_hole(board, filling, hole));
    each.filter(|ml| *ml > 0.0).collect()
}

fn takes_hole(board: &Board, filling: &Filling, hole: &Hole) -> f64 {
    let (bore, level) = (hole.bore, filling.below_top);
    let mut volume = bore_volume(bore, board.bores.spur, level);
    if filling.around_ball && board.piece.kind == PieceKind::Magnet {
        let ball = board.piece.shank.unwrap_or(bore.diameter);
        volume -= ball_below(bore, ball, level);
    }
    // Rounding of a level at the floor is no resin.
    if volume < 1e-6 {
        return 0.0;
    }
    volume / 1000.0 * (1.0 + filling.waste)
}

/// Bores one after the other into batches; a bore that takes more than a batch is one by itself.
fn batches(takes: &[f64], filling: &Filling, most: u32) -> Vec<Batch> {
    let full = filling.batch * (1.0 + HAIR);
    let mut batches: Vec<Batch> = Vec::new();
    for ml in takes {
        match batches.last_mut() {
            Some(last) if last.bores < most && last.ml + ml <= full => {
                last.bores += 1;
                last.ml += ml;
            }
            _ => batches.push(Batch {
                bores: 1,
                ml: *ml,
                minutes: 0.0,
            }),
        }
    }
    for batch in &mut batches {
        batch.minutes = f64::from(batch.bores) * filling.ten_bores / 600.0;
    }
    batches
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bore, Bores, Bottom, Center, layout};
    use core::f64::consts::PI;
    use proptest::prelude::*;
    use testkit::assert_near;

    /// Pot life doubles for each 18 °F colder than 77 °F and halves for each warmer (trade page, not a standard).
    #[test]
    fn resin_works_longer_in_the_cold() {
        assert_near!(working_time(30.0, 25.0, 15.0), 60.0, 1e-12);
        assert_near!(working_time(30.0, 25.0, 35.0), 15.0, 1e-12);
        assert_near!(working_time(30.0, 25.0, 25.0), 30.0, 0.0);
    }

    fn filled(filling: Filling) -> Board {
        let bore = Bore {
            diameter: 10.0,
            depth: 5.0,
            bottom: Bottom::Flat,
        };
        Board {
            bores: Bores::all(bore),
            center: Center::Nothing,
            filling: Some(filling),
            ..Board::default()
        }
    }

    fn poured(board: &Board) -> Pour {
        pour(board, &layout(board).unwrap()).unwrap()
    }

    #[test]
    fn batches_end_by_size_or_by_the_clock() {
        let each = PI * 25.0 * 5.0 / 1000.0 * 1.15;
        let filling = Filling {
            batch: 20.5 * each,
            shop: 25.0,
            ten_bores: 60.0,
            ..Filling::default()
        };
        let by_size = poured(&filled(filling));
        assert_eq!(by_size.bores, 132);
        assert_near!(by_size.resin, 132.0 * each, 1e-9);
        assert_eq!((by_size.in_time, by_size.longest.bores), (300, 20));
        assert_near!(by_size.longest.minutes, 2.0, 1e-12);
        assert_eq!(by_size.batches.len(), 7);
        let slow = poured(&filled(Filling {
            ten_bores: 1200.0,
            ..filling
        }));
        assert_eq!((slow.in_time, slow.batches.len()), (15, 9));
        assert_eq!(slow.longest.bores, 20);
    }

    #[test]
    fn a_ball_and_a_lower_level_save_resin() {
        let whole = Filling {
            waste: 0.0,
            around_ball: true,
            ..Filling::default()
        };
        let mut board = filled(whole);
        board.bores.track.depth = 12.0;
        board.bores = Bores::all(board.bores.track);
        let plain = PI * 25.0 * 12.0;
        assert_near!(poured(&board).largest * 1000.0, plain, 1e-9);
        board.piece.kind = PieceKind::Magnet;
        // A ball made to fit the bore.
        let ball = PI * 1000.0 / 6.0;
        assert_near!(poured(&board).largest * 1000.0, plain - ball, 1e-9);
        board.filling = Some(Filling {
            below_top: 12.0,
            ..whole
        });
        let none = poured(&board);
        assert_eq!(
            (none.bores, none.batches.len(), none.longest.bores),
            (0, 0, 0)
        );
    }

    #[test]
    fn absurd_numbers_end() {
        let board = filled(Filling {
            shop: -40.0,
            pot_life_at: 80.0,
            pot_life: 100_000.0,
            ten_bores: 0.1,
            batch: 0.1,
            ..Filling::default()
        });
        let pour = poured(&board);
        assert_eq!((pour.in_time, pour.batches.len()), (u32::MAX, 132));
        assert_eq!(batch_in_time(&board, &layout(&board).unwrap()), None);
    }

    proptest! {
        #[test]
        fn a_batch_in_time_is_filled_in_time(
            sizes in [4.0..14.0_f64, 4.0..14.0_f64, 4.0..14.0_f64],
            ten_bores in 20.0..4000.0_f64,
        ) {
            let mut board = filled(Filling { ten_bores, batch: 1000.0, ..Filling::default() });
            board.bores.track.diameter = sizes[0];
            board.bores.home.diameter = sizes[1];
            board.bores.start.diameter = sizes[2];
            let layout = layout(&board).unwrap();
            if let Some(batch) = batch_in_time(&board, &layout) {
                board.filling.as_mut().unwrap().batch = batch;
                let pour = pour(&board, &layout).unwrap();
                prop_assert!(pour.longest.bores <= pour.in_time);
                prop_assert!(pour.largest <= batch);
            }
        }
    }
}
