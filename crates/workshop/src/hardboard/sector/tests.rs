//! Tests of the holes of the jig, and simulations of a jig turned around with pins anywhere within their play.

use super::*;
use crate::Workpiece;
use board::Board;
use board::{Bore, Bottom, Center, Change, Edit, layout};
use geometry::{Pattern, Vec2};
use proptest::prelude::*;
use testkit::assert_near;

fn with(players: u32, pins: u32, play: f64) -> Board {
    Board {
        players,
        sector_jig: Some(SectorJig { pins, play }),
        ..Board::default()
    }
}

fn found(board: &Board) -> Result<SectorPlan, SectorJigError> {
    sector_jig(&Workpiece::of(board).unwrap()).unwrap()
}

fn names(names: &[HoleName]) -> Vec<String> {
    names.iter().map(ToString::to_string).collect()
}

fn edit(hole: &str, mirrored: bool, change: Change) -> Edit {
    Edit {
        hole: hole.parse().unwrap(),
        mirrored,
        change,
    }
}

#[test]
fn the_jig_of_a_ring_has_its_index_hole_in_the_sector_before() {
    let board = with(6, 1, 0.1);
    let plan = found(&board).unwrap();
    assert_eq!(plan.holes.len(), 24);
    assert_eq!(plan.index.len(), 1);
    let IndexHole { name, mouth: hole } = plan.index[0];
    let off = (bearing_of(hole.center) - Angle::degrees(board.rotation)).wrapped_to_half_turns();
    assert!((-60.1..-30.0).contains(&off.as_degrees()), "{off:?}");
    let pins: Vec<String> = plan
        .turns
        .iter()
        .flat_map(|turn| names(&turn.pins))
        .collect();
    let number = name.to_string().split_off(3);
    let wanted: Vec<String> = (1..6).map(|player| format!("T{player}-{number}")).collect();
    assert_eq!(pins, wanted);
    assert!(plan.turns[0].pins.is_empty());
    assert_eq!(names(&plan.proof), [format!("T6-{number}")]);
    assert!(plan.web >= board.limits.template_web);
    let closing = plan.closing.unwrap();
    let pair = (closing.last.to_string(), closing.first.to_string());
    assert_eq!(pair, ("T6-16".into(), "T1-01".into()));
    // A pitch of 19 mm less bores of 12 mm.
    assert_near!(closing.wood, 7.0, 1e-6);
    assert!(closing.worst < closing.likely && closing.likely < closing.wood);
}

/// The farther out the pin, the less its play turns the jig: with lobes, the pin takes the tip and not the valley between two
/// sectors.
#[test]
fn the_index_hole_is_far_out() {
    let board = Board {
        pattern: Pattern::Lobes { depth: 0.25 },
        pitch: 16.0,
        ..with(6, 1, 0.1)
    };
    let plan = found(&board).unwrap();
    let hole = plan.index[0].mouth;
    let farthest = plan
        .holes
        .iter()
        .map(|hole| hole.center.to_vec2().length())
        .fold(0.0, f64::max);
    assert!(hole.center.to_vec2().length() > 0.9 * farthest);
}

#[test]
fn two_pins_are_far_apart_and_leave_less_error() {
    let [one, two] = [1, 2].map(|pins| found(&with(6, pins, 0.1)).unwrap());
    assert_eq!(two.index.len(), 2);
    let [a, b] = [two.index[0].mouth, two.index[1].mouth];
    assert!(a.center.distance(b.center) > 50.0);
    assert!(two.turned.likely < one.turned.likely);
    assert!(two.closing.unwrap().likely > one.closing.unwrap().likely);
    assert_eq!(two.turns[1].pins.len(), 2);
    assert_eq!(
        found(&with(6, 1, 0.0)).unwrap().turned,
        PlayError::default()
    );
}

#[test]
fn hand_edits_in_one_sector_are_listed_at_its_turn() {
    let away = Change::Move { u: 0.5, v: 0.0 };
    let mut board = with(6, 1, 0.1);
    board.edits = vec![edit("T2-3", false, away), edit("H4-1", false, Change::Drop)];
    let plan = found(&board).unwrap();
    let told = |player: usize| {
        let turn = &plan.turns[player - 1];
        (names(&turn.skip), names(&turn.apart))
    };
    assert_eq!(told(2), (vec!["T1-03".into()], vec!["T2-03".into()]));
    assert_eq!(told(4), (vec!["H1-1".into()], vec![]));
    assert_eq!(told(3), (vec![], vec![]));
    board.edits = vec![edit("T2-3", true, away)];
    let plan = found(&board).unwrap();
    let same = |turn: &SectorTurn| turn.skip.is_empty() && turn.apart.is_empty();
    assert!(plan.turns.iter().all(same));
}

/// A different bore at the same place is drilled separately: hardboard with one width of hole guides one bit.
#[test]
fn a_pin_only_uses_holes_that_every_sector_has() {
    let mut board = with(4, 1, 0.1);
    let before = found(&board).unwrap().index[0].name.id();
    let bore = Bore {
        diameter: 8.0,
        depth: 5.0,
        bottom: Bottom::Flat,
    };
    let third = before.of_player(3).to_string();
    board.edits = vec![edit(&third, false, Change::Bore { bore })];
    let plan = found(&board).unwrap();
    assert_ne!(plan.index[0].name.id(), before);
    assert_eq!(plan.turns[2].skip.len(), 1);
    // The last sector takes no pin.
    let last = before.of_player(4).to_string();
    board.edits = vec![edit(&last, false, Change::Drop)];
    let plan = found(&board).unwrap();
    assert_eq!(plan.index[0].name.id(), before);
    assert!(plan.proof.is_empty());
}

#[test]
fn a_board_without_a_possible_jig_reports_why() {
    let alone = Board {
        home: 0,
        start: 0,
        ..with(1, 1, 0.1)
    };
    assert_eq!(found(&alone), Err(SectorJigError::OnePlayer));
    let bare = Board {
        center: Center::Nothing,
        ..with(4, 1, 0.1)
    };
    assert_eq!(found(&bare), Err(SectorJigError::NoPin));
    let mut uneven = Board {
        spaces: 4,
        home: 0,
        start: 0,
        ..with(3, 1, 0.1)
    };
    let away = Change::Move { u: 2.0, v: 0.0 };
    uneven.edits = (1..=4)
        .map(|number| edit(&format!("T2-{number}"), false, away))
        .collect();
    assert_eq!(found(&uneven), Err(SectorJigError::NoIndex));
    let unasked = Board::default();
    assert_eq!(sector_jig(&Workpiece::of(&unasked).unwrap()), None);
}

/// The place of the jig in a turn: its center hole, and its clockwise rotation, radians.
#[derive(Clone, Copy)]
struct Pose {
    center: Vec2,
    turn: f64,
}

impl Pose {
    fn at(&self, point: Point) -> Vec2 {
        let (sin, cos) = (libm::sin(self.turn), libm::cos(self.turn));
        self.center + Vec2::new(point.x * cos + point.y * sin, point.y * cos - point.x * sin)
    }
}

/// Uniform random numbers from −1 to 1.
struct Draw(u64);

impl Draw {
    fn next(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
    }

    /// A random vector in a disc.
    fn disc(&mut self, radius: f64) -> Vec2 {
        loop {
            let at = Vec2::new(self.next(), self.next());
            if at.length() <= 1.0 {
                return at * radius;
            }
        }
    }
}

/// A jig as it is turned around a board, without small-angle approximations; each pin stays within its play.
struct Round<'a> {
    plan: &'a SectorPlan,
    players: u32,
    play: f64,
}

impl Round<'_> {
    fn own(&self, name: HoleName) -> &Hole {
        self.plan
            .holes
            .iter()
            .find(|hole| hole.name.id() == name.id().of_player(1))
            .unwrap()
    }

    /// The place of the jig in the last turn and in the first.
    fn turned(&self, draw: &mut Draw) -> (Pose, Pose) {
        let first = Pose {
            center: draw.disc(self.play),
            turn: 0.0,
        };
        let mut pose = first;
        for _ in 1..self.players {
            pose = (0..100_000)
                .find_map(|_| self.next(pose, draw))
                .expect("pins without play fit");
        }
        (pose, first)
    }

    /// A random next place of the jig, if every pin allows it.
    fn next(&self, before: Pose, draw: &mut Draw) -> Option<Pose> {
        let center = draw.disc(self.play);
        let IndexHole { name, mouth: lead } = self.plan.index[0];
        let target = before.at(self.own(name).center) - center;
        let bearing = |at: Vec2| libm::atan2(at.x, at.y);
        let aside = draw.next() * self.play / lead.center.to_vec2().length();
        let turn = bearing(target) - bearing(lead.center.to_vec2()) + aside;
        let pose = Pose { center, turn };
        let fits = self.plan.index.iter().all(|hole| {
            let off = pose.at(hole.mouth.center) - before.at(self.own(hole.name).center);
            off.length() <= self.play
        });
        fits.then_some(pose)
    }

    /// The least wood between the last sector and the first over all pairs, and that between two given holes.
    fn wood(&self, (last, first): (Pose, Pose), pair: (HoleName, HoleName)) -> (f64, f64) {
        let gap = |a: &Hole, b: &Hole| {
            (last.at(a.center) - first.at(b.center)).length() - a.bore.radius() - b.bore.radius()
        };
        let holes = &self.plan.holes;
        let all = holes.iter().flat_map(|a| holes.iter().map(move |b| (a, b)));
        let least = all.map(|(a, b)| gap(a, b)).fold(f64::INFINITY, f64::min);
        (least, gap(self.own(pair.0), self.own(pair.1)))
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    #[test]
    fn no_simulated_round_leaves_less_than_the_worst(
        players in 2_u32..9, pins in 1_u32..=2, depth in 0.0..0.3_f64, seed in 1_u64..u64::MAX,
    ) {
        let board = Board {
            pattern: if depth < 0.1 { Pattern::Ring } else { Pattern::Lobes { depth } },
            ..with(players, pins, 0.1)
        };
        let plan = found(&board).unwrap();
        let closing = plan.closing.unwrap();
        let round = Round { plan: &plan, players, play: 0.1 };
        let (mut draw, mut below, mut most_off) = (Draw(seed), 0, 0.0_f64);
        let rounds = 4000;
        for _ in 0..rounds {
            let poses = round.turned(&mut draw);
            let (least, pair) = round.wood(poses, (closing.last, closing.first));
            // Turns this small are straight to a few thousandths of a millimeter.
            prop_assert!(least >= closing.worst - 0.005, "{least} of {closing:?}");
            below += u32::from(pair < closing.likely);
            most_off = most_off.max(closing.wood - pair);
            let sector = core::f64::consts::TAU / f64::from(players);
            let off = poses.0.turn - sector * f64::from(players - 1);
            let off = libm::remainder(off, core::f64::consts::TAU).to_degrees();
            prop_assert!(off.abs() <= plan.turned.worst + 1e-3, "{off} of {:?}", plan.turned);
        }
        // The typical error is nearly two standard deviations: some 4 % are worse, and the worst case can occur.
        prop_assert!(below < rounds / 10, "{below} of {rounds}");
        prop_assert!(most_off > 0.25 * (closing.wood - closing.worst), "{most_off} of {closing:?}");
    }

    #[test]
    fn index_holes_coincide_with_holes_of_the_sector_before(
        players in 2_u32..9, rotation in -180.0..180.0_f64, pins in 1_u32..=2, pattern in 0..4_usize,
    ) {
        let pattern = [
            Pattern::Ring,
            Pattern::Lobes { depth: 0.2 },
            Pattern::Polygon,
            Pattern::Arms { across: 3 },
        ][if players > 2 { pattern } else { pattern % 2 }];
        // A home lane short enough for a triangle with three sides of 304 mm.
        let board = Board { rotation, pattern, home: 3, ..with(players, pins, 0.1) };
        let holes = layout(&board).unwrap();
        let plan = found(&board).unwrap();
        prop_assert_eq!(plan.index.len(), pins as usize);
        for IndexHole { name, mouth } in &plan.index {
            let before = holes.hole(name.id().of_player(players)).unwrap();
            prop_assert!(before.center.distance(mouth.center) < 1e-9, "{}", name);
            prop_assert_eq!(before.bore.radius(), mouth.radius);
        }
    }
}
