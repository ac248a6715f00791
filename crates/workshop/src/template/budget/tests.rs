//! The budget compared with sums worked by hand, and its chances with boards simulated in the simplest way.

use board::{Board, Errors, layout};
use geometry::{Angle, Circle, Vec2, point_at};
use proptest::prelude::{ProptestConfig, prop, prop_assert, proptest};
use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng as _, SeedableRng as _};
use testkit::assert_near;

use super::*;
use crate::template::budget::normal::share_below;

const NONE: Errors = Errors {
    print: 0.0,
    tape: 0.0,
    punch: 0.0,
    drill: 0.0,
    oversize: 0.0,
    index: 0.0,
};

const ALL: Errors = Errors {
    print: 0.004,
    tape: 0.4,
    punch: 0.3,
    drill: 0.2,
    oversize: 0.1,
    index: 0.15,
};

fn joints() -> TapedJoints {
    TapedJoints {
        upright: vec![-92.0, 92.0],
        level: vec![3.0],
    }
}

fn going_on() -> bool {
    false
}

fn chance_of(mouths: &[Circle], errors: &Errors, joints: &TapedJoints, limit: f64) -> Chance {
    let work = Work {
        mouths,
        errors,
        joints,
    };
    chance(&work, limit, &going_on).unwrap()
}

fn in_one_piece() -> TapedJoints {
    TapedJoints::default()
}

/// Holes of 12 mm at these places along x.
fn row(places: &[f64]) -> Vec<Circle> {
    places.iter().map(|x| Circle::new((*x, 0.0), 6.0)).collect()
}

/// Boards simulated one by one: every error is drawn separately, and every hole is put where that leaves it.
struct Shop(Pcg64);

impl Shop {
    fn normal(&mut self) -> f64 {
        let mut even = || (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64;
        let (one, two) = (even(), even());
        (-2.0 * libm::log(1.0 - one)).sqrt() * (Angle::TURN * two).cos()
    }

    fn shift(&mut self, most: f64) -> Vec2 {
        Vec2::new(self.normal(), self.normal()) * (most / 3.0)
    }

    fn has_thin_web(&mut self, work: &Work<'_>, limit: f64) -> bool {
        let errors = work.errors;
        let scale = 1.0 + self.normal() * errors.print / 3.0;
        let lines = work.joints.upright.len() + work.joints.level.len();
        let taped: Vec<Vec2> = (0..lines).map(|_| self.shift(errors.tape)).collect();
        let mut made = Vec::new();
        for mouth in work.mouths {
            let turned = self.normal() * errors.index / 3.0;
            let bearing = geometry::bearing_of(mouth.center) + Angle::degrees(turned);
            let mut center = point_at(mouth.center.to_vec2().length(), bearing);
            center += mouth.center.to_vec2() * (scale - 1.0);
            let upright = work.joints.upright.iter().map(|x| (*x, mouth.center.x));
            let level = work.joints.level.iter().map(|y| (*y, mouth.center.y));
            for ((joint, place), shift) in upright.chain(level).zip(&taped) {
                if place / joint > 1.0 {
                    center += *shift;
                }
            }
            center += self.shift(errors.punch) + self.shift(errors.drill);
            made.push(Circle::new(center, mouth.radius + errors.oversize / 2.0));
        }
        geometry::smallest_web(&made).is_some_and(|web| web.mm < limit)
    }

    /// The share of this many boards with a thin web, and its standard error.
    fn share(&mut self, work: &Work<'_>, limit: f64, boards: u32) -> (f64, f64) {
        let thin = (0..boards).filter(|_| self.has_thin_web(work, limit));
        let share = thin.count() as f64 / f64::from(boards);
        (share, (share * (1.0 - share) / f64::from(boards)).sqrt())
    }
}

#[test]
fn the_chance_of_one_web_matches_simulated_boards() {
    let (mouths, joints) = (row(&[85.0, 101.0]), joints());
    let work = Work {
        mouths: &mouths,
        errors: &ALL,
        joints: &joints,
    };
    for limit in [3.4, 3.7, 3.9, 4.2] {
        let told = chance(&work, limit, &going_on).unwrap();
        assert_eq!((told.trials, told.standard_error), (0, 0.0));
        let (share, off) = Shop(Pcg64::seed_from_u64(7)).share(&work, limit, 40_000);
        assert_near!(told.share, share, 4.0 * off);
    }
}

/// By hand: punching of 0.3 mm alone gives each hole a deviation of 0.1 mm along the line, and the web one of 0.1 sqrt 2.
#[test]
fn one_web_has_its_closed_form() {
    let errors = Errors {
        punch: 0.3,
        oversize: 0.05,
        ..NONE
    };
    let told = chance_of(&row(&[0.0, 16.0]), &errors, &in_one_piece(), 3.75);
    assert_near!(
        told.share,
        share_below(-0.2 / (0.1 * 2.0_f64.sqrt())),
        1e-12
    );
    assert_near!(told.share, 0.078_649_6, 1e-7);
}

#[test]
fn the_chance_of_a_whole_board_matches_simulated_boards() {
    let board = Board::default();
    let mouths = layout(&board).unwrap().mouths();
    let joints = joints();
    let work = Work {
        mouths: &mouths,
        errors: &ALL,
        joints: &joints,
    };
    for limit in [5.8, 6.0, 6.2] {
        let told = chance(&work, limit, &going_on).unwrap();
        let (share, off) = Shop(Pcg64::seed_from_u64(11)).share(&work, limit, 4000);
        assert!(0.003 < share && share < 1.0, "{share} tells nothing");
        let off = libm::hypot(off, told.standard_error);
        assert_near!(told.share, share, 4.0 * off);
    }
}

#[test]
fn two_webs_far_apart_are_independent() {
    let errors = Errors {
        punch: 0.3,
        drill: 0.3,
        index: 0.2,
        ..NONE
    };
    let mouths = row(&[-116.0, -100.0, 100.0, 116.0]);
    for limit in [2.0, 3.2, 3.6, 4.0] {
        let one = chance_of(&mouths[..2], &errors, &in_one_piece(), limit).share;
        let any = chance_of(&mouths, &errors, &in_one_piece(), limit);
        let wanted = 1.0 - (1.0 - one) * (1.0 - one);
        assert_near!(any.share, wanted, 4.0 * any.standard_error);
        assert_near!(any.at_most, f64::min(2.0 * one, 1.0), 1e-12);
    }
}

#[test]
fn webs_that_share_their_only_error_are_thin_together() {
    let errors = Errors {
        print: 0.05,
        ..NONE
    };
    let mouths = row(&[-116.0, -100.0, 100.0, 116.0]);
    let one = chance_of(&mouths[..2], &errors, &in_one_piece(), 3.8).share;
    let any = chance_of(&mouths, &errors, &in_one_piece(), 3.8);
    assert!(one > 0.1, "{one}");
    assert_near!(any.share, one, 1e-12);
}

#[test]
fn webs_across_one_joint_are_thin_together() {
    let errors = Errors { tape: 0.9, ..NONE };
    let joints = TapedJoints {
        upright: vec![92.0],
        level: Vec::new(),
    };
    // One web is given starting from its inner hole, the other from its outer one.
    let mouths = [(84.0, 50.0), (100.0, 50.0), (100.0, -50.0), (84.0, -50.0)]
        .map(|center| Circle::new(center, 6.0));
    let any = chance_of(&mouths, &errors, &joints, 3.8).share;
    assert_near!(any, share_below(-0.2 / 0.3), 1e-12);
}

#[test]
fn a_rare_thin_web_is_found_as_accurately_as_a_common_one() {
    let mouths: Vec<f64> = (0..10).map(|hole| 16.0 * f64::from(hole)).collect();
    let errors = Errors { punch: 0.3, ..NONE };
    let told = chance_of(&row(&mouths), &errors, &in_one_piece(), 3.2);
    let one = share_below(-0.8 / (0.1 * 2.0_f64.sqrt()));
    assert!(one < 1e-7, "{one}");
    assert_near!(told.share / (9.0 * one), 1.0, 1e-3);
    assert!(told.share <= told.at_most);
}

#[test]
fn a_higher_limit_never_lowers_the_chance() {
    let mouths = layout(&Board::default()).unwrap().mouths();
    let mut before = 0.0;
    for step in 0..8 {
        let limit = 5.2 + 0.25 * f64::from(step);
        let told = chance_of(&mouths, &ALL, &joints(), limit);
        let slack = 4.0 * told.standard_error;
        assert!(told.share >= before - slack, "{limit}: {told:?}");
        assert!(told.share <= told.at_most + slack);
        before = told.share;
    }
    assert_near!(before, 1.0, 0.02);
}

#[test]
fn without_errors_the_chance_is_0_or_1() {
    let mouths = row(&[0.0, 16.0, 40.0]);
    let share = |errors: &Errors, limit| chance_of(&mouths, errors, &in_one_piece(), limit).share;
    assert_eq!(share(&NONE, 3.9), 0.0);
    // A limit met exactly is kept.
    assert_eq!(share(&NONE, 4.0), 0.0);
    assert_eq!(share(&NONE, 4.1), 1.0);
    let wide = Errors {
        oversize: 0.5,
        ..NONE
    };
    assert_eq!(share(&wide, 3.4), 0.0);
    assert_eq!(share(&wide, 3.6), 1.0);
    assert_eq!(chance_of(&[], &ALL, &joints(), 100.0).share, 0.0);
    assert_eq!(chance_of(&mouths[..1], &ALL, &joints(), 100.0).share, 0.0);
}

/// The share that the program reports, also compared at this limit with boards simulated one by one.
#[test]
fn the_same_board_has_the_same_chance_on_every_machine() {
    let mouths = layout(&Board::default()).unwrap().mouths();
    let told = chance_of(&mouths, &ALL, &joints(), 6.0);
    assert_eq!(told, chance_of(&mouths, &ALL, &joints(), 6.0));
    assert_eq!(told.share, 0.685_033_970_595_003, "{told:?}");
}

#[test]
fn sampling_stops_when_canceled() {
    let mouths = layout(&Board::default()).unwrap().mouths();
    let work = Work {
        mouths: &mouths,
        errors: &ALL,
        joints: &joints(),
    };
    assert_eq!(chance(&work, 6.2, &|| true), Err(BudgetError::Stopped));
}

/// By hand: holes of 12 mm, 16 mm apart, 200 mm from the pin.
#[test]
fn a_web_loses_the_errors_that_its_two_holes_do_not_share() {
    let mouths = row(&[200.0, 216.0]);
    let budget_of = |errors: Errors, joints: TapedJoints| {
        let work = Work {
            mouths: &mouths,
            errors: &errors,
            joints: &joints,
        };
        budget(&work).unwrap()
    };
    let between = || TapedJoints {
        upright: vec![-50.0, 50.0, 210.0],
        level: Vec::new(),
    };
    let all = budget_of(Errors { index: 0.0, ..ALL }, between());
    assert_near!(all.nominal_web.unwrap().mm, 4.0, 1e-12);
    // The scale over 16 mm, one joint, two punches, two drills, the oversize of the bit.
    let worst = 0.064 + 0.4 + 0.6 + 0.4 + 0.1;
    assert_near!(all.worst_web.unwrap().mm, 4.0 - worst, 1e-12);
    let squares = 0.064 * 0.064 + 0.16 + 2.0 * 0.09 + 2.0 * 0.04;
    let likely = 4.0 - f64::sqrt(squares) - 0.1;
    assert_near!(all.likely_web.unwrap().mm, likely, 1e-12);
    let far = all.worst_hole.unwrap();
    assert_eq!((far.hole, far.errors.joints), (1, 2));
    assert_near!(far.mm, 0.004 * 216.0 + 2.0 * 0.4 + 0.3 + 0.2, 1e-12);
    // When the pattern turns about the pin, holes on one radius move across their web.
    let turned = budget_of(Errors { index: 1.0, ..NONE }, between());
    assert_near!(turned.worst_web.unwrap().mm, 4.0, 1e-12);
    assert_near!(
        turned.likely_hole.unwrap().mm,
        Angle::degrees(1.0).as_radians() * 216.0,
        1e-12
    );
}

#[test]
fn the_smallest_worst_web_need_not_be_the_smallest() {
    // The second web is wider, but a joint crosses it.
    let mouths = row(&[0.0, 16.0, 32.1]);
    let joints = TapedJoints {
        upright: vec![24.0],
        level: Vec::new(),
    };
    let errors = Errors { tape: 0.5, ..NONE };
    let work = Work {
        mouths: &mouths,
        errors: &errors,
        joints: &joints,
    };
    let told = budget(&work).unwrap();
    let nominal = told.nominal_web.unwrap();
    let worst = told.worst_web.unwrap();
    assert_eq!((nominal.a, nominal.b), (0, 1));
    assert_eq!((worst.a, worst.b), (1, 2));
    assert_near!(worst.mm, 3.6, 1e-12);
}

#[test]
fn no_holes_have_no_budget() {
    let work = Work {
        mouths: &[],
        errors: &ALL,
        joints: &joints(),
    };
    let told = budget(&work).unwrap();
    assert_eq!((told.worst_hole, told.worst_web), (None, None));
}

#[test]
fn an_error_that_is_not_a_number_is_rejected_with_a_valid_value() {
    let mouths = row(&[0.0, 16.0]);
    let told = |errors: Errors| {
        let work = Work {
            mouths: &mouths,
            errors: &errors,
            joints: &in_one_piece(),
        };
        assert!(chance(&work, 3.0, &going_on).is_err());
        budget(&work).unwrap_err().to_string()
    };
    let negative = told(Errors { punch: -0.1, ..ALL });
    assert_eq!(
        negative,
        "the error of punching must be 0 to 1000, not -0.1; use 0"
    );
    let wild = told(Errors {
        index: f64::NAN,
        ..ALL
    });
    assert!(
        wild.contains("indexing") && wild.ends_with("; use 0"),
        "{wild}"
    );
    let endless = told(Errors {
        print: f64::INFINITY,
        ..ALL
    });
    assert!(endless.ends_with("; use 1000"), "{endless}");
}

#[test]
fn holes_joints_and_limits_that_are_not_finite_are_rejected() {
    let mut mouths = row(&[0.0, 16.0]);
    let joints = TapedJoints {
        upright: Vec::new(),
        level: vec![f64::NAN],
    };
    let work = Work {
        mouths: &mouths,
        errors: &ALL,
        joints: &joints,
    };
    assert!(matches!(budget(&work), Err(BudgetError::NotFinite { .. })));
    let joints = in_one_piece();
    let work = Work {
        joints: &joints,
        ..work
    };
    for limit in [f64::NAN, f64::INFINITY] {
        let told = chance(&work, limit, &going_on);
        assert!(matches!(told, Err(BudgetError::NotFinite { .. })));
    }
    mouths[1].center.y = f64::NAN;
    let work = Work {
        mouths: &mouths,
        errors: &ALL,
        joints: &joints,
    };
    assert_eq!(budget(&work), Err(BudgetError::NoPlace { hole: 1 }));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn the_worst_case_is_never_better_than_the_typical(
        places in prop::collection::vec((-200.0..200.0, -200.0..200.0, 1.0..8.0), 2..20),
        errors in prop::array::uniform6(0.0..1.0),
        limit in -5.0..20.0,
    ) {
        let mouths: Vec<Circle> = places
            .iter()
            .map(|&(x, y, radius)| Circle::new((x, y), radius))
            .collect();
        let [print, tape, punch, drill, oversize, index] = errors;
        let errors = Errors { print: print / 100.0, tape, punch, drill, oversize, index };
        let joints = joints();
        let work = Work { mouths: &mouths, errors: &errors, joints: &joints };
        let told = budget(&work).unwrap();
        let (worst, likely) = (told.worst_web.unwrap().mm, told.likely_web.unwrap().mm);
        prop_assert!(worst <= likely + 1e-9 && likely <= told.nominal_web.unwrap().mm + 1e-9);
        prop_assert!(told.worst_hole.unwrap().mm >= told.likely_hole.unwrap().mm - 1e-9);
        let every = geometry::close_webs(&mouths, 1e6);
        let plain = every
            .iter()
            .filter_map(|web| Pair::new(*web, &work))
            .map(|pair| pair.web.mm - pair.worst)
            .fold(f64::INFINITY, f64::min);
        assert_near!(worst, plain, 1e-9);
        let told = chance(&work, limit, &going_on).unwrap();
        prop_assert!((0.0..=1.0).contains(&told.share));
        prop_assert!(told.share <= told.at_most + 1e-12 + 4.0 * told.standard_error);
    }
}
