//! The webs found by grid and tree compared with those found by comparing all pairs.

use geometry::{Circle, Web, close_webs, nearest_webs, smallest_web};
use proptest::prelude::*;

fn web(circles: &[Circle], a: usize, b: usize) -> Web {
    let (one, other) = (circles[a], circles[b]);
    let mm = (other.center - one.center).hypot() - (one.radius + other.radius);
    Web { a, b, mm }
}

/// All webs, from the smallest to the largest.
fn by_hand(circles: &[Circle]) -> Vec<Web> {
    let pairs = (0..circles.len()).flat_map(|a| (a + 1..circles.len()).map(move |b| (a, b)));
    let mut webs: Vec<Web> = pairs.map(|(a, b)| web(circles, a, b)).collect();
    webs.sort_by(|x, y| x.mm.total_cmp(&y.mm).then((x.a, x.b).cmp(&(y.a, y.b))));
    webs
}

fn circles(radius: impl Strategy<Value = f64>) -> impl Strategy<Value = Vec<Circle>> {
    let circle = (-300.0..300.0, -300.0..300.0, radius)
        .prop_map(|(x, y, radius)| Circle::new((x, y), radius));
    proptest::collection::vec(circle, 0..160)
}

/// Circles spread out, in a line, at only a few points, and with one far away.
fn any_circles() -> impl Strategy<Value = Vec<Circle>> {
    let spread = circles(0.5..30.0);
    let alike = circles(Just(4.0));
    let line = circles(0.1..3.0).prop_map(|mut circles| {
        for circle in &mut circles {
            circle.center.y = 7.0;
        }
        circles
    });
    let crowd = circles(1.0..2.0).prop_map(|mut circles| {
        for circle in &mut circles {
            circle.center = (circle.center.to_vec2() / 150.0).round().to_point();
        }
        circles
    });
    let outlier = circles(0.5..9.0).prop_map(|mut circles| {
        circles.push(Circle::new((4e7, -3e9), 5.0));
        circles
    });
    prop_oneof![spread, alike, line, crowd, outlier]
}

fn assert_webs_agree(circles: &[Circle], limit: f64) {
    let all = by_hand(circles);
    let close: Vec<Web> = all.iter().copied().filter(|web| web.mm < limit).collect();
    assert_eq!(close_webs(circles, limit), close);
    let smallest = smallest_web(circles);
    assert_eq!(smallest.map(|web| web.mm), all.first().map(|web| web.mm));
    assert_eq!(
        smallest.map(|found| web(circles, found.a, found.b)),
        smallest
    );
    for (index, nearest) in nearest_webs(circles).into_iter().enumerate() {
        let own = all.iter().find(|web| web.a == index || web.b == index);
        assert_eq!(nearest.map(|web| web.mm), own.map(|web| web.mm));
        assert!(nearest.is_none_or(|web| web.a == index || web.b == index));
    }
}

proptest! {
    #[test]
    fn webs_match_a_comparison_of_all_pairs(circles in any_circles(), limit in -15.0..40.0) {
        assert_webs_agree(&circles, limit);
    }
}

/// More circles than in the random cases, to get many cells and boxes.
#[test]
fn webs_of_a_wide_field_match_a_comparison_of_all_pairs() {
    let field: Vec<Circle> = (0..1500_u32)
        .map(|index| {
            let (x, y) = (
                index.wrapping_mul(7919) % 1009,
                index.wrapping_mul(104_729) % 997,
            );
            Circle::new((f64::from(x), f64::from(y)), 1.0 + f64::from(index % 7))
        })
        .collect();
    for limit in [-3.0, 1.0, 25.0] {
        assert_webs_agree(&field, limit);
    }
}
