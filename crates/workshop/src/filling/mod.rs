//! Resin for the bores: its amount, its two parts, and the batches that keep any of it from setting in its cup.

mod amount;
mod batches;
pub mod check;
mod level;
mod mix;
mod sectors;
pub mod steps;
pub mod sums;

use board::HoleName;

use crate::Workpiece;

use amount::{Amount, amount};
use batches::batches;

pub use amount::{LEAST_GAP, insert_with_room, is_filled, open_bore};
pub use batches::{Batch, batch_in_time};
pub use level::{level_below_pieces, seat_depth};
pub(crate) use mix::part;
pub use mix::{MixParts, mix_parts, parts_shown};
pub use sectors::SectorPour;

/// Rounding slack for a batch that is exactly full, as a share.
const HAIR: f64 = 1e-9;

/// The most boards in one filling plan: nobody pours more in a row.
const AT_ONCE: u32 = 50;

/// Resin for the bores of all boards that are filled in a row.
#[derive(Debug, Clone, PartialEq)]
pub struct Pour {
    /// The filled bores of one board, in the order of the hole table: those that hold a piece and are deeper than the resin's
    /// level.
    pub bores: Vec<FilledBore>,
    /// Number of boards filled in a row: those of the order, as far as there are places for them to cure.
    pub boards: u32,
    /// Resin that goes into the bores of all boards, waste included, ml.
    pub poured: f64,
    /// All resin to mix: the resin poured and the residue in the cups, ml.
    pub resin: f64,
    /// The most resin in one bore, waste included, ml.
    pub largest: f64,
    /// Resin that remains in one board after leveling, ml.
    pub stays: f64,
    /// Resin above the top faces of all boards, to be leveled off, ml.
    pub overfill: f64,
    /// Its height above them, mm; 0 if there is none.
    pub overfill_height: f64,
    /// Working time of a batch at the shop's temperature, counted from when both parts are in the cup, minutes.
    pub working: f64,
    /// Number of bores that can be filled in the working time left after mixing.
    pub in_time: u32,
    /// The slowest batch, among batches as large as the maker mixes them.
    pub longest: Batch,
    /// The batches, board after board, each no larger than the maker mixes them and filled in time; every board has the same.
    pub batches: Vec<Batch>,
}

/// A bore and the resin in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilledBore {
    /// Its name.
    pub name: HoleName,
    /// Its resin, waste included, ml.
    pub ml: f64,
}

/// Working time of resin in a shop, minutes, from its pot life at the label's temperature: doubled for every 10 °C (18 °F)
/// colder, halved for every 10 °C warmer (trade page, not a standard).
///
/// ```
/// use workshop::working_time;
/// assert_eq!(working_time(40.0, 25.0, 25.0), 40.0);
/// assert_eq!(working_time(40.0, 25.0, 15.0), 80.0);
/// assert_eq!(working_time(40.0, 25.0, 35.0), 20.0);
/// ```
pub fn working_time(pot_life: f64, label: f64, shop: f64) -> f64 {
    pot_life * libm::exp2((label - shop) / 10.0)
}

impl Pour {
    /// The first and the last bore of a batch, with its board where there are several.
    ///
    /// ```
    /// use board::{Board, Filling};
    /// use workshop::Workpiece;
    /// let board = Board { filling: Some(Filling::default()), ..Board::default() };
    /// let workpiece = Workpiece::of(&board)?;
    /// let pour = workpiece.pour().unwrap();
    /// let told = pour.first_and_last(&pour.batches[0]);
    /// assert!(told.starts_with("T1-01 to "));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn first_and_last(&self, batch: &Batch) -> String {
        let mut bores = self.bores_of(batch).map(|(_, bore)| bore.name.to_string());
        let first = bores.next().unwrap_or_default();
        let told = match bores.last() {
            Some(last) => format!("{first} to {last}"),
            None => first,
        };
        match self.bores_of(batch).next() {
            Some((board, _)) if self.boards > 1 => format!("{told} of board {board}"),
            _ => told,
        }
    }

    /// The batches of one board, which are those of every other.
    pub fn of_one_board(&self) -> &[Batch] {
        let each = self.batches.len() / self.boards.max(1) as usize;
        self.batches.get(..each).unwrap_or_default()
    }

    /// The bores of a batch, each with the number of its board, counted from 1.
    pub fn bores_of(&self, batch: &Batch) -> impl Iterator<Item = (u32, FilledBore)> {
        // Skips straight to its first bore, since there may be as many batches as bores.
        let each = self.bores.len().max(1);
        let all = batch.before as usize..batch.before as usize + batch.bores as usize;
        all.filter_map(move |at| {
            let board = u32::try_from(at / each + 1).ok()?;
            Some((board, *self.bores.get(at % each)?))
        })
    }
}

/// Resin for the bores of a laid-out board; `None` if no filling is planned.
pub(crate) fn pour(workpiece: &Workpiece) -> Option<Pour> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let filling = board.filling?;
    let schedule = &board.schedule;
    let filled = schedule.boards.min(schedule.drying).clamp(1, AT_ONCE);
    let boards = f64::from(filled);
    let seats = layout.seats(board).iter();
    let amounts: Vec<(HoleName, Amount)> = seats
        .map(|hole| (hole.name, amount(board, &filling, hole.bore)))
        .collect();
    let each = amounts.iter().map(|(name, amount)| FilledBore {
        name: *name,
        ml: amount.takes(&filling),
    });
    let bores: Vec<FilledBore> = each.filter(|bore| bore.ml > 0.0).collect();
    let poured = boards * total(bores.iter().map(|bore| bore.ml));
    let in_all = |part: fn(&Amount) -> f64| total(amounts.iter().map(|(_, amount)| part(amount)));
    let overfill = boards * in_all(|amount| amount.above) / 1000.0;
    let working = working_time(filling.pot_life, filling.pot_life_at, filling.shop);
    let pouring = (working - filling.mixing).max(0.0);
    // The slack lets a number just below a whole one count as that; a number too large to count becomes the largest there is.
    let in_time = (pouring * 600.0 / filling.ten_bores * (1.0 + HAIR)).floor() as u32;
    let mixed = batches(&bores, 1, &filling, u32::MAX);
    let longest = mixed.into_iter().max_by_key(|batch| batch.bores);
    let batches = batches(&bores, filled, &filling, in_time.max(1));
    Some(Pour {
        boards: filled,
        poured,
        resin: poured + filling.cup * batches.len() as f64,
        largest: bores.iter().map(|bore| bore.ml).fold(0.0, f64::max),
        stays: in_all(|amount| amount.within) / 1000.0,
        overfill,
        overfill_height: if overfill > 0.0 {
            filling.dome - filling.below_top
        } else {
            0.0
        },
        working,
        in_time,
        longest: longest.unwrap_or_default(),
        batches,
        bores,
    })
}

/// The sum; 0 of no numbers, where the standard library's sum is -0.
fn total(parts: impl Iterator<Item = f64>) -> f64 {
    parts.fold(0.0, |sum, part| sum + part)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::{Bore, Bores, Bottom, Center, Filling, Insert, PieceKind};
    use core::f64::consts::PI;
    use proptest::prelude::*;
    use testkit::assert_near;

    /// Pot life doubles for every 18 °F below 77 °F and halves for every 18 °F above it (trade page, not a standard).
    #[test]
    fn resin_works_longer_in_the_cold() {
        assert_near!(working_time(30.0, 25.0, 15.0), 60.0, 1e-12);
        assert_near!(working_time(30.0, 25.0, 35.0), 15.0, 1e-12);
        assert_near!(working_time(30.0, 25.0, 25.0), 30.0, 0.0);
    }

    fn with_bores(filling: Filling) -> Board {
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

    /// A board with this many copies in its order, each with a place to cure.
    fn several(board: Board, boards: u32) -> Board {
        let schedule = board::Schedule {
            boards,
            drying: boards,
            ..board::Schedule::default()
        };
        Board { schedule, ..board }
    }

    fn poured(board: &Board) -> Pour {
        pour(&Workpiece::of(board).unwrap()).unwrap()
    }

    #[test]
    fn size_or_time_ends_a_batch() {
        let each = PI * 25.0 * 5.0 / 1000.0 * 1.15;
        let filling = Filling {
            batch: 20.5 * each,
            cup: 0.0,
            mixing: 0.0,
            shop: 25.0,
            ten_bores: 60.0,
            ..Filling::default()
        };
        let by_size = poured(&with_bores(filling));
        assert_eq!(by_size.bores.len(), 144);
        assert_near!(by_size.resin, 144.0 * each, 1e-9);
        assert_eq!((by_size.in_time, by_size.longest.bores), (300, 20));
        assert_near!(by_size.longest.minutes, 2.0, 1e-12);
        // 144 bores: a batch holds enough for 20, and the time is enough for 15.
        assert_eq!(by_size.batches.len(), 8);
        let slow = poured(&with_bores(Filling {
            ten_bores: 1200.0,
            ..filling
        }));
        assert_eq!((slow.in_time, slow.batches.len()), (15, 10));
        assert_eq!(slow.longest.bores, 20);
    }

    #[test]
    fn a_ball_and_a_lower_level_save_resin() {
        let whole = Filling {
            waste: 0.0,
            around_insert: true,
            ..Filling::default()
        };
        let mut board = with_bores(whole);
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
            (none.bores.len(), none.batches.len(), none.longest.bores),
            (0, 0, 0)
        );
        assert!(none.poured.is_sign_positive() && none.stays.is_sign_positive());
    }

    #[test]
    fn a_disc_saves_what_it_fills_below_the_level() {
        let mut board = with_bores(Filling {
            waste: 0.0,
            below_top: 2.0,
            around_insert: true,
            ..Filling::default()
        });
        board.piece.kind = PieceKind::Magnet;
        board.piece.shank = Some(8.0);
        board.piece.insert = Insert::Disc { thickness: 2.5 };
        let cylinder = |radius: f64, height: f64| PI * radius * radius * height;
        let left = cylinder(5.0, 3.0) - cylinder(4.0, 2.5);
        assert_near!(poured(&board).largest * 1000.0, left, 1e-9);
        // The disc rises above what is left of the resin.
        board.filling.as_mut().unwrap().below_top = 4.0;
        let left = cylinder(5.0, 1.0) - cylinder(4.0, 1.0);
        assert_near!(poured(&board).largest * 1000.0, left, 1e-9);
    }

    #[test]
    fn resin_above_the_top_face_is_leveled_off() {
        let domed = Filling {
            waste: 0.0,
            dome: 0.6,
            ..Filling::default()
        };
        let full = poured(&several(with_bores(domed), 3));
        let crown = PI * 0.6 * (75.0 + 0.36) / 6.0;
        assert_near!(full.overfill * 1000.0, 3.0 * 144.0 * crown, 1e-6);
        assert_near!(full.overfill_height, 0.6, 0.0);
        assert_near!(full.largest * 1000.0, PI * 125.0 + crown, 1e-9);
        assert_near!(full.stays * 1000.0, 144.0 * PI * 125.0, 1e-6);
        let lower = poured(&with_bores(Filling {
            below_top: 1.0,
            ..domed
        }));
        assert_near!(lower.overfill, 0.0, 0.0);
        assert_near!(lower.stays * 1000.0, 144.0 * (PI * 100.0 + crown), 1e-6);
    }

    #[test]
    fn each_cup_retains_resin_and_the_clock_runs_on() {
        let filling = Filling {
            waste: 0.0,
            cup: 2.0,
            mixing: 3.0,
            shop: 25.0,
            ten_bores: 60.0,
            batch: 2.0 + 50.5 * PI * 0.125,
            ..Filling::default()
        };
        let pour = poured(&several(with_bores(filling), 2));
        assert_eq!(pour.batches.len(), 6);
        assert_near!(pour.poured, 288.0 * PI * 0.125, 1e-9);
        assert_near!(pour.resin, pour.poured + 12.0, 1e-9);
        let mixed: f64 = pour.batches.iter().map(|batch| batch.ml).sum();
        assert_near!(mixed, pour.resin, 1e-9);
        // 27 minutes are left for pouring.
        assert_eq!((pour.in_time, pour.batches[2].bores), (270, 44));
        assert_near!(pour.batches[2].begins, 16.0, 1e-9);
        assert_near!(pour.batches[2].minutes, 7.4, 1e-9);
        assert_eq!(
            pour.first_and_last(&pour.batches[2]),
            format!(
                "{} to {} of board 1",
                pour.bores[100].name, pour.bores[143].name
            )
        );
    }

    /// The calendar may pour the second board on another day, when what the first left in its cup has set.
    #[test]
    fn no_batch_goes_into_two_boards() {
        let filling = Filling {
            batch: 20.0,
            ..Filling::default()
        };
        let one = poured(&with_bores(filling));
        let three = poured(&several(with_bores(filling), 3));
        assert_near!(three.resin, 3.0 * one.resin, 1e-9);
        assert_eq!(three.of_one_board(), one.batches);
        assert_eq!(three.batches.len(), 3 * one.batches.len());
        for (at, batch) in three.batches.iter().enumerate() {
            let boards = three.bores_of(batch).map(|(board, _)| board as usize - 1);
            assert!(boards.eq([at / one.batches.len()].repeat(batch.bores as usize)));
        }
        assert_near!(three.batches[one.batches.len()].begins, 0.0, 0.0);
    }

    #[test]
    fn every_sector_knows_its_batches() {
        let filling = Filling {
            waste: 0.0,
            cup: 0.0,
            batch: 30.5 * PI * 0.125,
            ten_bores: 60.0,
            ..Filling::default()
        };
        let pour = poured(&several(with_bores(filling), 2));
        let sectors = pour.sectors();
        assert_eq!(sectors.len(), 12);
        assert!(sectors.iter().all(|sector| sector.bores == 24));
        let batches: Vec<(u32, u32)> = sectors.iter().map(|sector| sector.batches).collect();
        // Batches of 30 and sectors of 24: bores 73 to 96 draw on the third batch, which ends at 90, and the fourth.
        assert_eq!(batches[..4], [(1, 1), (1, 2), (2, 3), (3, 4)]);
        assert_eq!((sectors[6].board, sectors[6].player), (2, Some(1)));
        let ml: f64 = sectors.iter().map(|sector| sector.ml).sum();
        assert_near!(ml, pour.poured, 1e-9);
    }

    /// Twelve boards are ordered and four have places to cure, so four are filled at once; with places for 200, no more than
    /// fifty.
    #[test]
    fn as_many_ordered_boards_are_filled_as_have_room_to_cure() {
        let mut board = with_bores(Filling::default());
        for (ordered, room, filled) in [(1, 4, 1), (3, 4, 3), (12, 4, 4), (200, 200, 50)] {
            (board.schedule.boards, board.schedule.drying) = (ordered, room);
            assert_eq!(poured(&board).boards, filled);
        }
    }

    #[test]
    fn absurd_numbers_end_in_finite_time() {
        let board = with_bores(Filling {
            shop: -40.0,
            pot_life_at: 80.0,
            pot_life: 100_000.0,
            ten_bores: 0.1,
            batch: 0.1,
            ..Filling::default()
        });
        let pour = poured(&board);
        assert_eq!((pour.in_time, pour.batches.len()), (u32::MAX, 144));
        let pour = poured(&several(board.clone(), 50));
        assert_eq!(pour.batches.len(), 144 * 50);
        let last = pour.first_and_last(pour.batches.last().unwrap());
        let wanted = pour.bores.last().unwrap().name;
        assert_eq!(last, format!("{wanted} of board 50"));
        assert_eq!(batch_in_time(&Workpiece::of(&board).unwrap()), None);
    }

    proptest! {
        #[test]
        fn a_batch_in_time_is_filled_in_time(
            sizes in [4.0..14.0_f64, 4.0..14.0_f64, 4.0..14.0_f64],
            ten_bores in 20.0..4000.0_f64,
            boards in 1..4_u32,
        ) {
            let filling = Filling { ten_bores, batch: 1000.0, ..Filling::default() };
            let mut board = several(with_bores(filling), boards);
            board.bores.track.diameter = sizes[0];
            board.bores.home.diameter = sizes[1];
            board.bores.start.diameter = sizes[2];
            if let Some(batch) = batch_in_time(&Workpiece::of(&board).unwrap()) {
                board.filling.as_mut().unwrap().batch = batch;
                let pour = pour(&Workpiece::of(&board).unwrap()).unwrap();
                prop_assert!(pour.longest.bores <= pour.in_time);
                prop_assert!(pour.longest.minutes <= pour.working * (1.0 + 1e-9));
                prop_assert!(pour.largest + 5.0 <= batch);
            }
        }
    }
}
