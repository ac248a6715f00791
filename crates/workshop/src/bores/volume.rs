//! Volumes of bores, and of balls set in them; mm³.

use board::{Bore, Bottom};
use core::f64::consts::PI;

use crate::bores::seat::{MarbleSeat, marble_seat};
use crate::bores::shape::tip;

/// The volume of a ball, mm³: π d³ / 6.
pub fn ball_volume(diameter: f64) -> f64 {
    PI * diameter * diameter * diameter / 6.0
}

/// The volume that a plane cuts off a ball, mm³: π h² (r - h/3) for a cap of height h, up to the whole ball.
///
/// ```
/// use workshop::cap_volume;
/// assert!((cap_volume(10.0, 2.0) - 117.286).abs() < 1e-3);
/// ```
pub fn cap_volume(radius: f64, height: f64) -> f64 {
    let height = height.clamp(0.0, 2.0 * radius);
    PI * height * height * (radius - height / 3.0)
}

/// The volume that a plane leaves at the top of a crown that stands over a round mouth, mm³: of a part of a ball with
/// that mouth for its rim and this height in the middle, the uppermost part of this height.
///
/// A whole crown is π h (3 a² + h²) / 6 over a mouth of radius a.
pub fn crown_volume(mouth: f64, height: f64, uppermost: f64) -> f64 {
    if height <= 0.0 {
        return 0.0;
    }
    let ball = (mouth * mouth + height * height) / (2.0 * height);
    cap_volume(ball, uppermost.min(height))
}

/// The volume of a bore below a level, which is given as a depth below the top face, mm³.
pub fn bore_volume(bore: Bore, spur: f64, level: f64) -> f64 {
    let (radius, tip) = (bore.radius(), tip(bore, spur));
    match bore.bottom {
        Bottom::Flat => cylinder(radius, bore.depth - level),
        Bottom::Point118 | Bottom::Point135 => {
            cylinder(radius, bore.depth - level) + cone(radius, tip, level - bore.depth)
        }
        // A spur is about as wide at its root as it is long; from memory.
        Bottom::Forstner => {
            cylinder(radius, bore.depth - level) + cone(spur / 2.0, tip, level - bore.depth)
        }
        Bottom::Ball if bore.depth >= radius => {
            let middle = bore.depth - radius;
            cylinder(radius, middle - level) + cap_volume(radius, (bore.depth - level).min(radius))
        }
        Bottom::Ball if bore.depth > 0.0 => {
            let ball = (radius * radius + bore.depth * bore.depth) / (2.0 * bore.depth);
            cap_volume(ball, bore.depth - level)
        }
        Bottom::Ball => 0.0,
    }
}

/// How much of a ball set in a bore is below a level, mm³. The pit of a Forstner bit's spur does not lower it.
pub fn ball_below(bore: Bore, diameter: f64, level: f64) -> f64 {
    cap_volume(diameter / 2.0, lowest(bore, diameter) - level)
}

/// How far below the top face the lowest place of a ball is that is set in a bore.
pub fn lowest(bore: Bore, diameter: f64) -> f64 {
    match marble_seat(bore, diameter) {
        MarbleSeat::OnRim { sinks, .. } | MarbleSeat::OnFloor { sinks, .. } => sinks,
        MarbleSeat::FallsIn => {
            let point = tip(bore, 0.0);
            if point <= 0.0 {
                return bore.depth;
            }
            // A ball touches a cone where its middle is the radius over the sine of half the angle above the apex.
            let sine = bore.radius() / libm::hypot(bore.radius(), point);
            let ball = diameter / 2.0;
            bore.depth + point - ball / sine + ball
        }
    }
}

fn cylinder(radius: f64, height: f64) -> f64 {
    PI * radius * radius * height.max(0.0)
}

/// The rest of a cone, point down, that is filled from so far below its base.
fn cone(radius: f64, length: f64, below: f64) -> f64 {
    if length <= 0.0 {
        return 0.0;
    }
    let left = (1.0 - below.max(0.0) / length).max(0.0);
    PI * radius * radius * length / 3.0 * left * left * left
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bores::shape::{deepest, tests::width};
    use proptest::prelude::*;
    use testkit::assert_near;

    /// Machinery's Handbook 31st ed., p. 91: a ball of 6.5 has a volume of 143.79; a segment of height 50 and chord
    /// 125 one of 372,247 (exactly 372,246.0).
    #[test]
    fn balls_and_caps_are_as_large_as_published() {
        assert_near!(ball_volume(6.5), 143.79, 0.01);
        let radius = (62.5_f64 * 62.5 + 50.0 * 50.0) / 100.0;
        assert_near!(cap_volume(radius, 50.0), 372_247.0, 2.0);
        assert_near!(cap_volume(10.0, 2.0), 117.286, 5e-4);
        assert_near!(cap_volume(3.25, 99.0), ball_volume(6.5), 1e-9);
        assert_near!(cap_volume(3.25, -1.0), 0.0, 0.0);
    }

    /// Machinery's Handbook 31st ed., p. 91, gives a segment of height 50 over a chord of 125 as 372,247.
    #[test]
    fn a_crown_is_a_segment_of_a_ball() {
        assert_near!(crown_volume(62.5, 50.0, 50.0), 372_247.0, 2.0);
        let whole = PI * 1.2 * (3.0 * 36.0 + 1.2 * 1.2) / 6.0;
        assert_near!(crown_volume(6.0, 1.2, 9.0), whole, 1e-9);
        assert_near!(crown_volume(6.0, 0.0, 1.0), 0.0, 0.0);
        // Nearly flat: half of the height holds a quarter.
        assert_near!(
            crown_volume(600.0, 0.2, 0.1) / crown_volume(600.0, 0.2, 0.2),
            0.25,
            1e-6
        );
    }

    fn bore(bottom: Bottom, depth: f64) -> Bore {
        Bore {
            diameter: 12.0,
            depth,
            bottom,
        }
    }

    #[test]
    fn a_ball_set_to_the_level_of_the_top_displaces_all_of_itself() {
        let flat = bore(Bottom::Flat, 12.0);
        assert_near!(ball_below(flat, 12.0, 0.0), ball_volume(12.0), 1e-9);
        assert_near!(ball_below(flat, 12.0, 6.0), ball_volume(12.0) / 2.0, 1e-9);
        assert_near!(ball_below(flat, 12.0, 13.0), 0.0, 0.0);
        // On the rim: 16 on 12 sinks 2.708497.
        let rim = ball_below(flat, 16.0, 0.0);
        assert_near!(rim, cap_volume(8.0, 2.708_497), 1e-3);
    }

    /// A ball of radius r in a cone of included angle A has its middle r / sin(A/2) over the apex: 9.333068 for
    /// r 8 at 118°.
    #[test]
    fn a_ball_settles_into_the_point() {
        let point = Bore {
            diameter: 16.0,
            depth: 20.0,
            bottom: Bottom::Point118,
        };
        let apex = 20.0 + 16.0 * 0.300_430_309_5;
        assert_near!(lowest(point, 16.0), apex - 9.333_068 + 8.0, 1e-5);
    }

    proptest! {
        #[test]
        fn a_bore_holds_what_its_slices_hold(
            kind in 0_usize..5,
            sizes in (2.0..40.0_f64, 0.5..30.0_f64, 0.5..4.0_f64),
            level in 0.0..1.2_f64,
        ) {
            let bore = Bore { diameter: sizes.0, depth: sizes.1, bottom: Bottom::ALL[kind] };
            let spur = sizes.2;
            let (from, end) = (level * bore.depth, deepest(bore, spur));
            let steps = 20_000;
            let slice = (end - from).max(0.0) / f64::from(steps);
            let summed: f64 = (0..steps)
                .filter_map(|step| width(bore, spur, from + (f64::from(step) + 0.5) * slice))
                .map(|radius| PI * radius * radius * slice)
                .sum();
            let volume = bore_volume(bore, spur, from);
            // Where the bore steps in to its spur one slice is counted as all wide or all narrow.
            let step = bore.radius() * bore.radius() * PI * slice;
            prop_assert!((volume - summed).abs() <= 1e-3 * summed + step + 1e-3, "{volume} against {summed}");
        }
    }
}
