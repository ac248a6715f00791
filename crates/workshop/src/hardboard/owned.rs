//! The maker's own router bit and guide bushing, chosen for the bores.

use board::{Board, Bottom, Router};

use super::check::bushing::{AIR, LED, WALL};
use super::check::web;
use super::router::{RouterWay, routed};
use crate::Workpiece;
use crate::check::HAIR;

/// A router bit in a guide bushing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RouterPair {
    /// Diameter of the bit, mm.
    pub bit: f64,
    /// Outside diameter of the bushing, mm.
    pub bushing: f64,
    /// Length of the bushing below the router's base, mm; `None` if it is not listed.
    pub reach: Option<f64>,
}

/// The maker's bit and bushing that can make all bores from a template with enough hardboard between its holes; `None` if no
/// pair can, or none are listed.
///
/// A bit that plunges straight down is preferred to one that is guided around, and among equals the pair that leaves more
/// hardboard. A bit wider than the narrowest bore is ruled out, and so is a bushing whose length does not suit the hardboard.
///
/// ```
/// use board::{Board, Router, Tools};
/// use workshop::{Workpiece, owned_pair};
/// let tools = Tools { straight: vec![6.0, 12.0], bushings: vec![16.0, 30.0], ..Tools::default() };
/// let board = Board { router: Some(Router::default()), tools, ..Board::default() };
/// let pair = owned_pair(&Workpiece::of(&board)?).unwrap();
/// assert_eq!((pair.bit, pair.bushing), (12.0, 16.0));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn owned_pair(workpiece: &Workpiece) -> Option<RouterPair> {
    let board = workpiece.board();
    let router = board.router?;
    let cutters = routed(workpiece.layout()).map(|hole| hole.bore.cutter());
    let (narrowest, widest) = cutters.fold((f64::INFINITY, 0.0_f64), |(least, most), cutter| {
        (least.min(cutter), most.max(cutter))
    });
    let bits = bits(workpiece);
    let fitting = bits.iter().filter(|bit| **bit <= narrowest + HAIR);
    let mut pairs: Vec<RouterPair> = fitting
        .flat_map(|bit| pairs_of(board, router, *bit))
        .collect();
    let rank = |pair: &RouterPair| match RouterWay::of(widest, pair.bit) {
        RouterWay::Plunge => 0,
        RouterWay::Round => 1,
        RouterWay::RoundAndAcross | RouterWay::TooWide => 2,
    };
    let wider = |pair: &RouterPair| pair.bushing - pair.bit;
    pairs.sort_by(|one, other| {
        let by_way = rank(one).cmp(&rank(other));
        by_way.then_with(|| wider(one).total_cmp(&wider(other)))
    });
    pairs
        .into_iter()
        .find(|pair| leaves_wood(workpiece, router, pair))
}

/// The bits that leave the bores' bottom, mm: round-nose bits where every bore has a round bottom, straight bits otherwise.
fn bits(workpiece: &Workpiece) -> &[f64] {
    let tools = &workpiece.board().tools;
    let is_round = routed(workpiece.layout()).all(|hole| hole.bore.bottom == Bottom::Ball);
    if is_round {
        &tools.round_nose
    } else {
        &tools.straight
    }
}

/// The bushings that a bit fits through, and that neither ride on the wood nor jump out of the hardboard.
fn pairs_of(board: &Board, router: Router, bit: f64) -> impl Iterator<Item = RouterPair> {
    let bushings = board.tools.bushings();
    let led = move |reach: f64| reach >= LED - HAIR && reach <= router.hardboard - AIR + HAIR;
    bushings
        .filter(move |(bushing, reach)| {
            *bushing >= bit + 2.0 * WALL - HAIR && reach.is_none_or(led)
        })
        .map(move |(bushing, reach)| RouterPair {
            bit,
            bushing,
            reach,
        })
}

/// Whether the template for a pair keeps the required web.
///
/// It uses the same rule that checks the template, so that the rule never rejects this choice.
fn leaves_wood(workpiece: &Workpiece, router: Router, pair: &RouterPair) -> bool {
    let mut board = workpiece.board().clone();
    board.router = Some(pair.fitted(router));
    let trial = Workpiece::laid(board, workpiece.layout().clone(), None);
    web::check(&trial).is_empty()
}

impl RouterPair {
    /// The router with this pair. Lengths and shank that were measured on another bit are cleared.
    #[must_use]
    pub fn fitted(self, router: Router) -> Router {
        let measured = if (self.bit - router.bit).abs() <= HAIR {
            router
        } else {
            Router {
                stands_out: None,
                edges: None,
                shank: None,
                ..router
            }
        };
        Router {
            bit: self.bit,
            bushing: self.bushing,
            reach: self.reach.unwrap_or(router.reach),
            ..measured
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bores, Tools};

    fn owning(straight: &[f64], bushings: &[f64], lengths: &[f64]) -> Board {
        let tools = Tools {
            straight: straight.to_vec(),
            bushings: bushings.to_vec(),
            bushing_lengths: lengths.to_vec(),
            ..Tools::default()
        };
        Board {
            router: Some(Router::default()),
            tools,
            ..Board::default()
        }
    }

    fn chosen(board: &Board) -> Option<(f64, f64)> {
        let pair = owned_pair(&Workpiece::of(board).unwrap())?;
        Some((pair.bit, pair.bushing))
    }

    /// Bores of 12 mm, 7 mm apart; 3 mm of hardboard are required, so the template's holes may be 4 mm wider.
    #[test]
    fn an_owned_pair_fits_together_and_leaves_hardboard() {
        assert_eq!(
            chosen(&owning(&[12.0], &[16.0, 14.0], &[])),
            Some((12.0, 14.0))
        );
        assert_eq!(
            chosen(&owning(&[12.0], &[13.0, 16.0], &[])),
            Some((12.0, 16.0))
        );
        assert_eq!(chosen(&owning(&[12.0], &[17.0], &[])), None);
        // The narrower bit is guided around, in a bushing that the wider one does not fit through.
        assert_eq!(
            chosen(&owning(&[14.0, 12.0, 8.0], &[12.0], &[])),
            Some((8.0, 12.0))
        );
        assert_eq!(chosen(&owning(&[], &[16.0], &[])), None);
    }

    /// Hardboard of 6 mm: a bushing of 6 mm rides on the wood.
    #[test]
    fn a_bushing_too_long_for_the_hardboard_is_skipped() {
        let board = owning(&[12.0], &[14.0, 16.0], &[6.0, 5.0]);
        assert_eq!(chosen(&board), Some((12.0, 16.0)));
    }

    #[test]
    fn a_round_bottom_needs_a_round_nose_bit() {
        let mut board = owning(&[12.0], &[16.0], &[]);
        board.tools.round_nose = vec![10.0];
        let mut bore = board.bores.track;
        (bore.bottom, bore.depth) = (Bottom::Ball, 6.0);
        board.bores = Bores::all(bore);
        assert_eq!(chosen(&board), None);
        board.tools.round_nose.push(12.0);
        assert_eq!(chosen(&board), Some((12.0, 16.0)));
    }

    #[test]
    fn measurements_of_another_bit_are_cleared() {
        let router = Router {
            stands_out: Some(40.0),
            ..Router::default()
        };
        let pair = |bit| RouterPair {
            bit,
            bushing: 16.0,
            reach: Some(4.0),
        };
        assert_eq!(pair(12.0).fitted(router).stands_out, Some(40.0));
        let other = pair(8.0).fitted(router);
        assert_eq!((other.stands_out, other.reach), (None, 4.0));
    }
}
