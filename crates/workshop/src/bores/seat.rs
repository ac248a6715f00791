//! The seat of a piece in its bore.

use board::Bore;
use geometry::RestsOn;

use crate::bores::profile::bore_profile;

/// How a marble sits in a bore; lengths in mm, down from the top face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MarbleSeat {
    /// It rests on the rim, its lowest place this far below the top face.
    OnRim {
        /// Depth to which it sinks.
        sinks: f64,
        /// Clearance below it.
        clear: f64,
    },
    /// It stands on the floor of the bore before it reaches the rim.
    OnFloor {
        /// Depth to which it sinks.
        sinks: f64,
        /// Depth to which it would sink to rest on the rim.
        wants: f64,
    },
    /// It falls into the bore, since it is no wider than the mouth.
    FallsIn,
}

/// How a marble of this diameter sits. If the bore is deep enough it sinks by r - √(r² - a²), for its radius r and the bore's
/// a.
///
/// A 5/8 in ball on a 1/2 in hole sinks exactly 1/8 in:
///
/// ```
/// use board::{Bore, Bottom};
/// use workshop::{MarbleSeat, marble_seat};
/// let bore = Bore { diameter: 12.7, depth: 6.35, bottom: Bottom::Flat };
/// let MarbleSeat::OnRim { sinks, .. } = marble_seat(bore, 15.875) else { panic!() };
/// assert!((sinks - 3.175).abs() < 1e-12);
/// ```
pub fn marble_seat(bore: Bore, diameter: f64) -> MarbleSeat {
    // The pit of a spur is too narrow for a ball to rest in.
    let (profile, ball) = (bore_profile(bore, 0.0), diameter / 2.0);
    let (rest, wants) = (profile.rest(ball), profile.rim(ball));
    let sinks = rest.lowest;
    if wants.is_infinite() {
        MarbleSeat::FallsIn
    } else if rest.on == RestsOn::Rim {
        let clear = profile.floor(ball) - sinks;
        MarbleSeat::OnRim { sinks, clear }
    } else {
        MarbleSeat::OnFloor { sinks, wants }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Bottom;
    use testkit::assert_near;

    fn seat(ball: f64, mouth: f64, depth: f64, bottom: Bottom) -> MarbleSeat {
        let bore = Bore {
            diameter: mouth,
            depth,
            bottom,
        };
        marble_seat(bore, ball)
    }

    /// Exact by r - √(r² - a²): 25 mm on 20 mm sinks 5 mm; 16 on 12 sinks 2.708497; 9/16 in on 1/2 in 3.871035 mm.
    #[test]
    fn marbles_sink_as_the_formula_says() {
        for (ball, mouth, wanted) in [
            (25.0, 20.0, 5.0),
            (16.0, 12.0, 2.708_497),
            (14.2875, 12.7, 3.871_035),
        ] {
            let MarbleSeat::OnRim { sinks, .. } = seat(ball, mouth, 9.0, Bottom::Flat) else {
                panic!("not on its rim")
            };
            assert_near!(sinks, wanted, 1e-6);
        }
    }

    #[test]
    fn shallow_bores_carry_the_marble_on_their_floor() {
        let MarbleSeat::OnFloor { sinks, wants } = seat(25.0, 20.0, 3.0, Bottom::Flat) else {
            panic!("on its rim")
        };
        assert_near!(sinks, 3.0, 1e-12);
        assert_near!(wants, 5.0, 1e-12);
        assert_eq!(seat(12.0, 12.0, 9.0, Bottom::Flat), MarbleSeat::FallsIn);
    }

    /// The center of a ball of radius r in a cone of included angle A is r / sin(A/2) above the apex: 9.333068 for r 8 at 118°.
    #[test]
    fn a_drill_point_gives_room_until_the_marble_touches_its_flank() {
        // A cone from the top face on: the ball of 16 mm touches the flank only in a mouth narrower than 8 cos 59° · 2.
        let wide = Bore {
            diameter: 15.0,
            depth: 0.0,
            bottom: Bottom::Point118,
        };
        let apex = 15.0 * 0.300_430_309_5;
        let MarbleSeat::OnFloor { sinks, .. } = marble_seat(wide, 16.0) else {
            panic!("on its rim")
        };
        assert_near!(sinks, apex - 9.333_068 + 8.0, 1e-5);
        let MarbleSeat::OnRim { clear, .. } = seat(16.0, 12.0, 5.0, Bottom::Point118) else {
            panic!("on its floor")
        };
        assert!(clear > 5.0 - 2.708_497);
    }
}
