//! Rule: grooves stay on the flat top.

use board::{HoleName, Measure, with_article};

use crate::Workpiece;
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::grooves::{Groove, Stroke};

pub const STATEMENT: &str = "A groove ends before the roundover begins: a bit that runs over the edge tears it, and \
     the bearing of a roundover bit falls into the groove later. Common practice, no source.";

/// Findings for grooves that run off the board, and grooves that run into the roundover.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    let (Some(wanted), Some(plan)) = (board.grooves, workpiece.grooves()) else {
        return Vec::new();
    };
    let (flat, edge) = (board.blank.flat_radius(), board.blank.radius());
    let reach = |groove: &&Groove| {
        let reaches = groove.path.iter().map(Stroke::farthest);
        reaches.fold(0.0, f64::max) + wanted.width / 2.0
    };
    let far = plan
        .grooves
        .iter()
        .filter(|groove| reach(groove) > flat + HAIR);
    let (off, over): (Vec<&Groove>, Vec<&Groove>) =
        far.partition(|groove| reach(groove) > edge + HAIR);
    let parts = [(off, Severity::Stop), (over, Severity::Caution)];
    parts
        .into_iter()
        .filter_map(|(grooves, severity)| {
            let worst = grooves
                .iter()
                .max_by(|a, b| reach(a).total_cmp(&reach(b)))?;
            let where_to = if severity == Severity::Stop {
                "off the board"
            } else {
                "into the roundover"
            };
            let left = flat - reach(worst);
            let message = format!(
                "{} {where_to}. Worst: {}, {} past the flat top. Make the board larger, or move the groove in.",
                board::counted(grooves.len(), "groove runs", "grooves run"),
                with_article(worst.kind.label()),
                Measure::mm(-left).shown(board.units)
            );
            let holes: Vec<HoleName> = grooves
                .iter()
                .flat_map(|groove| groove.holes.clone())
                .collect();
            Some(
                Finding::new(severity, Rule::GrooveRim, message)
                    .measuring(Measure::mm(left), Measure::mm(0.0))
                    .about(holes),
            )
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    use board::Board;
    use board::{Grooves, Rings};
    use testkit::assert_near;

    fn checked(diameter: f64) -> Vec<Finding> {
        let rings = Rings {
            track: true,
            ..Rings::default()
        };
        let wanted = Grooves {
            rings: Some(rings),
            sectors_from: Some(30.0),
            rim: Some(2.0),
            ..Grooves::default()
        };
        let mut board = Board {
            grooves: Some(wanted),
            start: 0,
            ..Board::default()
        };
        board.blank.diameter = diameter;
        check(&Workpiece::of(&board).unwrap())
    }

    #[test]
    fn rings_at_the_rim_stay_on_the_flat_top_or_are_reported() {
        // The radius of the ring of spaces plus a bore radius of 6 mm, a gap of 1.5 mm and a groove of 2 mm; the roundover is 5
        // mm.
        let reach = geometry::ring_radius(19.0, 96) + 6.0 + 1.5 + 2.0;
        assert_eq!(checked(2.0 * (reach + 5.0) + 0.001), []);
        let over = checked(2.0 * (reach + 4.0));
        assert_eq!(over[0].severity, Severity::Caution);
        let Some(Measure { value: left, .. }) = over[0].measured else {
            panic!("no measure")
        };
        assert_near!(left, -1.0, 1e-9);
        assert_eq!(over[0].holes.len(), 96);
        assert_eq!(checked(2.0 * (reach - 1.0))[0].severity, Severity::Stop);
    }
}
