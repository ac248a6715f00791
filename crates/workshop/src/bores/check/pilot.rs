//! Rule: the center pilot hole fits the circle jig's pin with little play.

use board::{Center, HoleId, Measure, show_length};

use crate::Mend;
use crate::Workpiece;
use crate::check::{Finding, Rule, Severity};

pub const STATEMENT: &str = "The pilot at the center pin fits the circle jig's pin with little play, since play makes \
     the edge run out. The pilot of a playing hole is drilled away with the hole, so it is smaller than the hole. The \
     default play, {0.3 mm|1/64\"}, is common practice, no source.";

/// At most one finding about the pilot.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let pin = board.jig.pin;
    let center = board.drilled_center();
    let Some(pilot) = center.pilot() else {
        return Some(no_pilot());
    };
    let length = |mm| show_length(mm, board.units);
    if let Center::Hole { bore, .. } = center
        && pilot >= bore.diameter
    {
        let message = format!(
            "The pilot ({}) must be smaller than the center hole ({}).",
            length(pilot),
            length(bore.diameter)
        );
        return Some(finding(Severity::Stop, message, pilot, bore.diameter));
    }
    if pilot < pin {
        let message = format!(
            "The jig's pin ({}) does not go into the pilot ({}). Drill the pilot to fit the pin.",
            length(pin),
            length(pilot)
        );
        let found = finding(Severity::Stop, message, pilot, pin);
        return Some(found.mended_by(&[Mend::PilotForPin]));
    }
    let play = pilot - pin;
    (play > board.limits.pin_play).then(|| {
        let message = format!(
            "The jig's pin ({}) has {} of play in the pilot, and the edge may run out by as much. Drill the pilot to fit the pin.",
            length(pin),
            length(play)
        );
        finding(
            Severity::Caution,
            message,
            pilot,
            pin + board.limits.pin_play,
        )
        .mended_by(&[Mend::PilotForPin])
    })
}

/// The finding for a board without a center hole, which cannot be cut round on the pin.
fn no_pilot() -> Finding {
    let message =
        "There is no hole at the center pin. Hold the blank on the circle jig in another way.";
    Finding::new(Severity::Note, Rule::Pilot, message.into())
}

/// A finding with the actual and the required diameter of the pilot hole, mm.
fn finding(severity: Severity, message: String, measured: f64, wanted: f64) -> Finding {
    Finding::new(severity, Rule::Pilot, message)
        .measuring(Measure::mm(measured), Measure::mm(wanted))
        .about(vec![HoleId::CENTER.named(1)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::CircleJig;

    fn with(pilot: f64, pin: f64) -> Option<Severity> {
        let center = Center::Pivot {
            diameter: pilot,
            depth: 10.0,
        };
        check(
            &Workpiece::of(&Board {
                center,
                jig: CircleJig::with_pin(pin),
                ..Board::default()
            })
            .unwrap(),
        )
        .map(|found| found.severity)
    }

    #[test]
    fn a_pin_that_fits_gives_no_finding() {
        assert_eq!(with(6.0, 6.0), None);
        assert_eq!(with(6.2, 6.0), None);
    }

    #[test]
    fn a_small_pilot_is_a_stop_and_a_large_one_a_caution() {
        assert_eq!(with(5.9, 6.0), Some(Severity::Stop));
        assert_eq!(with(6.5, 6.0), Some(Severity::Caution));
    }

    #[test]
    fn a_pilot_as_wide_as_the_playing_hole_is_a_stop() {
        let bore = Board::default().bores.track;
        let center = Center::Hole {
            bore,
            pilot: bore.diameter,
        };
        let found = check(
            &Workpiece::of(&Board {
                center,
                jig: CircleJig::with_pin(12.0),
                ..Board::default()
            })
            .unwrap(),
        )
        .unwrap();
        assert_eq!(found.severity, Severity::Stop);
    }

    #[test]
    fn hand_edits_of_the_center_hole_count() {
        let mut board = Board::default();
        board.set_bore(
            HoleId::CENTER,
            false,
            Some(board::Bore {
                diameter: 5.0,
                ..board.bores.track
            }),
        );
        assert_eq!(
            check(&Workpiece::of(&board).unwrap()).unwrap().severity,
            Severity::Stop
        );
        board.drop_hole(HoleId::CENTER, false);
        assert_eq!(
            check(&Workpiece::of(&board).unwrap()).unwrap().severity,
            Severity::Note
        );
    }

    #[test]
    fn a_missing_center_hole_is_a_note() {
        let found = check(
            &Workpiece::of(&Board {
                center: Center::Nothing,
                ..Board::default()
            })
            .unwrap(),
        )
        .unwrap();
        assert_eq!(found.severity, Severity::Note);
    }
}
