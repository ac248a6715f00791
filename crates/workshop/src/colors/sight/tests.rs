use super::*;
use board::SET;
use nalgebra::Matrix3;
use proptest::prelude::*;
use testkit::assert_near;

/// Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data, and
/// mathematical observations" (2005), Table 1: L, a and b of two colors, and their distance.
const SHARMA: [[f64; 7]; 34] = [
    [50.0, 2.6772, -79.7751, 50.0, 0.0, -82.7485, 2.0425],
    [50.0, 3.1571, -77.2803, 50.0, 0.0, -82.7485, 2.8615],
    [50.0, 2.8361, -74.0200, 50.0, 0.0, -82.7485, 3.4412],
    [50.0, -1.3802, -84.2814, 50.0, 0.0, -82.7485, 1.0],
    [50.0, -1.1848, -84.8006, 50.0, 0.0, -82.7485, 1.0],
    [50.0, -0.9009, -85.5211, 50.0, 0.0, -82.7485, 1.0],
    [50.0, 0.0, 0.0, 50.0, -1.0, 2.0, 2.3669],
    [50.0, -1.0, 2.0, 50.0, 0.0, 0.0, 2.3669],
    [50.0, 2.4900, -0.0010, 50.0, -2.4900, 0.0009, 7.1792],
    [50.0, 2.4900, -0.0010, 50.0, -2.4900, 0.0010, 7.1792],
    [50.0, 2.4900, -0.0010, 50.0, -2.4900, 0.0011, 7.2195],
    [50.0, 2.4900, -0.0010, 50.0, -2.4900, 0.0012, 7.2195],
    [50.0, -0.0010, 2.4900, 50.0, 0.0009, -2.4900, 4.8045],
    [50.0, -0.0010, 2.4900, 50.0, 0.0010, -2.4900, 4.8045],
    [50.0, -0.0010, 2.4900, 50.0, 0.0011, -2.4900, 4.7461],
    [50.0, 2.5, 0.0, 50.0, 0.0, -2.5, 4.3065],
    [50.0, 2.5, 0.0, 73.0, 25.0, -18.0, 27.1492],
    [50.0, 2.5, 0.0, 61.0, -5.0, 29.0, 22.8977],
    [50.0, 2.5, 0.0, 56.0, -27.0, -3.0, 31.9030],
    [50.0, 2.5, 0.0, 58.0, 24.0, 15.0, 19.4535],
    [50.0, 2.5, 0.0, 50.0, 3.1736, 0.5854, 1.0],
    [50.0, 2.5, 0.0, 50.0, 3.2972, 0.0, 1.0],
    [50.0, 2.5, 0.0, 50.0, 1.8634, 0.5757, 1.0],
    [50.0, 2.5, 0.0, 50.0, 3.2592, 0.3350, 1.0],
    [
        60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644,
    ],
    [
        63.0109, -31.0961, -5.8663, 62.8187, -29.7946, -4.0864, 1.2630,
    ],
    [61.2901, 3.7196, -5.3901, 61.4292, 2.2480, -4.9620, 1.8731],
    [35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645],
    [
        22.7233, 20.0904, -46.6940, 23.0331, 14.9730, -42.5619, 2.0373,
    ],
    [36.4612, 47.8580, 18.3852, 36.2715, 50.5065, 21.2231, 1.4146],
    [90.8027, -2.0831, 1.4410, 91.1528, -1.6435, 0.0447, 1.4441],
    [90.9257, -0.5406, -0.9208, 88.6381, -0.8985, -0.7239, 1.5381],
    [6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377],
    [2.0776, 0.0795, -1.1350, 0.9033, -0.0636, -0.5514, 0.9082],
];

#[test]
fn distances_are_as_published() {
    for [l1, a1, b1, l2, a2, b2, wanted] in SHARMA {
        let one = Lab::<D65, f64>::new(l1, a1, b1);
        let other = Lab::<D65, f64>::new(l2, a2, b2);
        assert_near!(one.difference(other), wanted, 0.5e-4);
        assert_near!(other.difference(one), wanted, 0.5e-4);
    }
}

/// Ratios that pages on WCAG give as examples (21, 8.59, 2.15); those of the two grays are computed from the formula of WCAG 2.
#[test]
fn contrasts_are_as_published() {
    let gray = |level| Rgb::new(level, level, level);
    let [red, blue] = [Rgb::new(255, 0, 0), Rgb::new(0, 0, 255)];
    assert_near!(contrast(Rgb::WHITE, Rgb::BLACK), 21.0, 1e-9);
    assert_near!(contrast(red, red), 1.0, 1e-12);
    assert_near!(contrast(blue, Rgb::WHITE), 8.59, 0.005);
    assert_near!(contrast(blue, red), 2.15, 0.005);
    assert_near!(contrast(gray(0x77), Rgb::WHITE), 4.478, 0.001);
    assert_near!(contrast(gray(0x76), Rgb::WHITE), 4.542, 0.001);
}

/// Relative luminance of the set, computed from the formula of WCAG 2 outside this program.
#[test]
fn the_luminances_of_the_set_follow_the_formula() {
    let wanted = [
        0.416_19, 0.405_04, 0.256_92, 0.744_05, 0.152_49, 0.221_52, 0.293_02, 0.0,
    ];
    for (color, wanted) in SET.into_iter().zip(wanted) {
        assert_near!(luminance(color), wanted, 1e-5);
    }
}

/// Viénot, Brettel and Mollon 1999: cone responses for red, green and blue, and the substitutes for missing cones.
#[test]
fn sight_without_long_or_middle_cones_follows_the_published_matrices() {
    #[rustfmt::skip]
    let cones = Matrix3::new(
        17.8824, 43.5161, 4.119_35,
        3.455_65, 27.1554, 3.867_14,
        0.029_956_6, 0.184_309, 1.467_09,
    );
    #[rustfmt::skip]
    let without = [
        (Sight::Protan, Matrix3::new(0.0, 2.023_44, -2.525_81, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0)),
        (Sight::Deutan, Matrix3::new(1.0, 0.0, 0.0, 0.494_207, 0.0, 1.248_27, 0.0, 0.0, 1.0)),
    ];
    for (sight, lacking) in without {
        let wanted = cones.try_inverse().unwrap() * lacking * cones;
        for (at, row) in sight.matrix().iter().enumerate() {
            for (of, share) in row.iter().enumerate() {
                assert_near!(*share, wanted[(at, of)], 1e-5);
            }
        }
    }
}

/// Colors of the set as seen without middle cones and, after Machado, without short cones, from a public library that simulates
/// sight. For the first it uses other primaries, which the tolerance of a tenth of the scale allows for.
#[test]
fn the_set_looks_as_a_public_library_simulates_it() {
    let cases = [
        (Sight::Deutan, SET[0], [183, 183, 0]),
        (Sight::Deutan, SET[6], [151, 151, 165]),
        (Sight::Protan, SET[1], [172, 172, 232]),
        (Sight::Protan, SET[5], [115, 115, 8]),
        (Sight::Tritan, SET[0], [251, 139, 135]),
        (Sight::Tritan, SET[4], [0, 129, 137]),
        (Sight::Tritan, Rgb::new(0, 0, 255), [0, 107, 149]),
    ];
    for (sight, color, wanted) in cases {
        let allowed = if sight == Sight::Tritan { 1 } else { 25 };
        let near = seen_by(color, sight).parts().into_iter().zip(wanted);
        for (found, wanted) in near {
            let beside = i32::from(found) - wanted;
            assert!(
                beside.abs() <= allowed,
                "{color} to {sight:?}: {found}, {wanted}"
            );
        }
    }
}

#[test]
fn every_kind_of_sight_distinguishes_the_set() {
    for (at, one) in SET.iter().enumerate() {
        for other in SET.iter().skip(at + 1) {
            for sight in Sight::ALL {
                let distance = distance_to(sight, *one, *other);
                assert!(
                    distance >= ALIKE,
                    "{one} and {other} to {sight:?}: {distance:.1}"
                );
            }
        }
    }
}

#[test]
fn red_and_green_look_alike_without_long_or_middle_cones() {
    let [red, green] = [Rgb::new(0x9e, 0x5b, 0x25), Rgb::new(0x6f, 0x72, 0x25)];
    assert!(distance_to(Sight::Normal, red, green) > ALIKE);
    assert!(distance_to(Sight::Deutan, red, green) < ALIKE);
}

fn colors() -> impl Strategy<Value = Rgb> {
    any::<[u8; 3]>().prop_map(|[red, green, blue]| Rgb::new(red, green, blue))
}

proptest! {
    #[test]
    fn distance_and_contrast_are_symmetric(one in colors(), other in colors()) {
        prop_assert!((color_distance(one, other) - color_distance(other, one)).abs() < 1e-9);
        prop_assert!(color_distance(one, one) < 1e-9);
        prop_assert!((contrast(one, other) - contrast(other, one)).abs() < 1e-12);
        prop_assert!((1.0..=21.0).contains(&contrast(one, other)));
    }

    /// Grays stay gray except for rounding in the program and in the published numbers.
    #[test]
    fn grays_look_the_same_to_all(level in any::<u8>()) {
        for sight in Sight::ALL {
            for part in seen_by(Rgb::new(level, level, level), sight).parts() {
                prop_assert!(part.abs_diff(level) <= 1);
            }
        }
    }

    /// Without long or middle cones, a color that was simulated once does not change when simulated again.
    #[test]
    fn simulating_twice_changes_nothing_further(color in colors()) {
        for sight in [Sight::Protan, Sight::Deutan] {
            let once = seen_by(color, sight);
            let twice = seen_by(once, sight);
            for (one, other) in once.parts().into_iter().zip(twice.parts()) {
                prop_assert!(one.abs_diff(other) <= 6, "{once} {twice}");
            }
        }
    }
}
