//! The position of a marble on the rim of its bore, and the effort that dislodges it.

use board::Bore;
use geometry::Angle;

use crate::bores::holds::{Hold, Leaving};
use crate::bores::seat::{MarbleSeat, marble_seat};

/// The position of a marble in its bore; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarbleStand {
    /// Depth of its lowest point below the top face; `None` if it falls in.
    pub sinks: Option<f64>,
    /// Height of its highest point above the top face; `None` if it falls in.
    pub above: Option<f64>,
    /// Diameter of the circle on which it touches the rim, or would before it rolls out; `None` if it falls in.
    pub contact: Option<f64>,
    /// Clearance below it; negative by how far the floor keeps it off the rim; `None` if it falls in.
    pub clear: Option<f64>,
    /// The effort that rolls it out; `None` if it falls in.
    pub hold: Option<Hold>,
}

/// The position of a marble with a given diameter in a bore. It rolls out when its weight and the push sideways point past the
/// rim: the tangent of that tilt is the radius of the contact circle over the height of the marble's middle above the top face.
/// A marble on the floor first rolls against the rim and then over it.
///
/// ```
/// use board::{Bore, Bottom};
/// use workshop::marble_stand;
/// let bore = Bore { diameter: 12.0, depth: 5.0, bottom: Bottom::Flat };
/// let tilt = marble_stand(16.0, bore).hold.and_then(|hold| hold.tilt).unwrap();
/// assert!((tilt.tan() - 6.0 / 28_f64.sqrt()).abs() < 1e-12);
/// ```
pub fn marble_stand(diameter: f64, bore: Bore) -> MarbleStand {
    let (sinks, clear) = match marble_seat(bore, diameter) {
        MarbleSeat::OnRim { sinks, clear } => (sinks, clear),
        MarbleSeat::OnFloor { sinks, wants } => (sinks, sinks - wants),
        MarbleSeat::FallsIn => {
            return MarbleStand {
                sinks: None,
                above: None,
                contact: None,
                clear: None,
                hold: None,
            };
        }
    };
    let ball = diameter / 2.0;
    let middle = ball - sinks;
    let contact = libm::sqrt((ball * ball - middle * middle).max(0.0));
    let tilt = Angle::atan2(contact, middle);
    MarbleStand {
        sinks: Some(sinks),
        above: Some(diameter - sinks),
        contact: Some(2.0 * contact),
        clear: Some(clear),
        hold: Some(Hold::by_weight(Leaving::RollsOut, tilt.tan())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Bottom;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn bore(diameter: f64, depth: f64) -> Bore {
        Bore {
            diameter,
            depth,
            bottom: Bottom::Flat,
        }
    }

    /// A ball of 5/8 in on a hole of 1/2 in sinks exactly 1/8 in; one of 25 mm on 20 mm exactly 5 mm.
    #[test]
    fn marble_positions_match_right_triangles() {
        let inch = marble_stand(15.875, bore(12.7, 9.0));
        assert_near!(inch.sinks.unwrap(), 3.175, 1e-12);
        assert_near!(inch.above.unwrap(), 12.7, 1e-12);
        // The triangle with sides 3, 4 and 5: radius 10, height 7.5.
        let stand = marble_stand(25.0, bore(20.0, 9.0));
        assert_near!(stand.contact.unwrap(), 20.0, 1e-12);
        assert_near!(stand.clear.unwrap(), 4.0, 1e-12);
        let hold = stand.hold.unwrap();
        assert_near!(hold.sideways, 10.0 / 7.5, 1e-12);
        assert_near!(hold.tilt.unwrap().as_degrees(), 53.130_102, 1e-6);
    }

    #[test]
    fn a_marble_on_the_floor_rolls_out_sooner_and_one_that_falls_in_never() {
        let floor = marble_stand(25.0, bore(20.0, 2.0));
        assert_near!(floor.clear.unwrap(), -3.0, 1e-12);
        // The marble's center is 10.5 up; it touches the rim √(12.5² - 10.5²) away from its center.
        assert_near!(floor.hold.unwrap().sideways, 46.0_f64.sqrt() / 10.5, 1e-12);
        let inside = marble_stand(12.0, bore(12.0, 9.0));
        assert_eq!((inside.sinks, inside.hold), (None, None));
    }

    proptest! {
        #[test]
        fn a_wider_bore_holds_a_marble_better(ball in 10.0..30.0_f64, share in 0.1..0.9_f64) {
            let sideways = |mouth| marble_stand(ball, bore(mouth, 30.0)).hold.unwrap().sideways;
            prop_assert!(sideways(ball * share) < sideways(ball * (share + 0.05)));
        }
    }
}
