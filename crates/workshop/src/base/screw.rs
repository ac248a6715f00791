//! The screws in the underside in the sizes they are sold in, and the drill for their pilot holes.

use board::{INCH, ScrewCircle, Units, show_length};

/// Gauge numbers that wood screws are sold in; from memory.
const GAUGES: core::ops::RangeInclusive<u32> = 2..=14;
/// Width of a pilot hole in hardwood as a share of the screw's diameter, about the diameter of its core; from memory.
const PILOT: f64 = 0.7;
/// Tolerance by which a gauge may exceed the typed diameter, mm: less than anybody can measure on a thread.
const HAIR: f64 = 0.05;

/// A wood screw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screw {
    /// Its gauge number; `None` if screws are sold in millimeters.
    pub gauge: Option<u32>,
    /// Its diameter, mm.
    pub diameter: f64,
    /// The drill for its pilot hole, mm.
    pub pilot: f64,
}

/// The diameter of a gauge number, mm: 0.060 in plus 0.013 in per number (ASME B18.6.1, from memory).
fn of_gauge(number: u32) -> f64 {
    (0.060 + 0.013 * f64::from(number)) * INCH
}

impl Screw {
    /// The screw for a circle of screws. On a board in inches it is the thickest gauge no thicker than the typed diameter, or
    /// the thinnest gauge where all are thicker.
    pub fn of(ring: &ScrewCircle, units: Units) -> Self {
        let (gauge, diameter, step) = match units {
            Units::Mm => (None, ring.diameter, 0.1),
            Units::Inch(_) => {
                let fits = |number: &u32| of_gauge(*number) <= ring.diameter + HAIR;
                let number = GAUGES.rev().find(fits).unwrap_or(*GAUGES.start());
                (Some(number), of_gauge(number), INCH / 64.0)
            }
        };
        Self {
            gauge,
            diameter,
            pilot: (diameter * PILOT / step).round().max(1.0) * step,
        }
    }

    /// Its thickness as stores name it: `#8`, or `4 mm`.
    pub fn name(self, units: Units) -> String {
        match self.gauge {
            Some(number) => format!("#{number}"),
            None => show_length(self.diameter, units),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    fn screw(diameter: f64, units: Units) -> Screw {
        Screw::of(
            &ScrewCircle {
                diameter,
                ..ScrewCircle::default()
            },
            units,
        )
    }

    /// A #8 screw is 0.164 in thick and needs a pilot of 7/64 in in hardwood; a #6 is 0.138 in and needs 3/32 in (from memory).
    #[test]
    fn gauges_and_pilots_are_those_of_the_trade() {
        for (inches, name, pilot) in [
            (0.164, "#8", 7.0),
            (0.138, "#6", 6.0),
            (5.0 / 32.0, "#7", 7.0),
            (0.01, "#2", 4.0),
            (2.0, "#14", 11.0),
        ] {
            let screw = screw(inches * INCH, Units::INCH);
            assert_eq!(screw.name(Units::INCH), name);
            assert_near!(screw.pilot, pilot * INCH / 64.0, 1e-9);
        }
        let metric = screw(4.0, Units::Mm);
        assert_eq!(
            (metric.gauge, metric.name(Units::Mm).as_str()),
            (None, "4 mm")
        );
        assert_near!(metric.pilot, 2.8, 1e-9);
    }
}
