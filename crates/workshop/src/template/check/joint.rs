//! Rule: joints between the sheets of the template do not run along a row of holes.
//!
//! A hole whose center is on a joint is punched through two halves of a cross, each moved by the taping. Joints cross the
//! pattern, and a hole here and there is always close; the grid of sheets is shifted off hole centers. A row of holes along one
//! joint is a different matter: the whole row is as far off as that joint is taped.

use board::{HoleName, INCH, Measure, SheetLayout};
use geometry::Point;

use crate::check::{Finding, HAIR, Rule, Severity, counted};
use crate::{Mend, Workpiece};

pub const STATEMENT: &str = "No joint between two sheets runs along a row of three or more holes closer than {6.35 \
     mm|1/4\"} to their centers, so that the crosses of a row are whole on one sheet; common practice, no source. \
     Shift the sheets for the widest clearance, which may take one more, turn the pattern, or use larger paper.";

/// Least distance from a joint to a hole center, mm.
const LEAST: f64 = INCH / 4.0;
/// Number of holes that make a row.
const ROW: usize = 3;
/// Distance along the joint, in pitches, at which one row ends and another begins.
const APART: f64 = 2.0;

/// A hole near a joint: its position along the joint, its distance from it, and its name.
type Near = (f64, f64, HoleName);

/// A finding if a joint runs along a row of holes, for the longest row.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let row = longest_row(workpiece)?;
    let board = workpiece.board();
    let (_, away, name) = row.iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
    let length = |mm| Measure::mm(mm).shown(board.units);
    let message = format!(
        "A joint between two sheets runs along {}, {} from the center of {name}, and taping moves all of them. Keep it {} away.",
        counted(row.len(), "hole"),
        length(*away),
        length(LEAST)
    );
    // Rotating the pattern comes last: on a board with seams it was already rotated for those.
    let mends: &[Mend] = match board.template.layout {
        SheetLayout::Fewest => &[Mend::ShiftSheets],
        SheetLayout::Widest if workpiece.seams().is_empty() => &[Mend::TurnOffJoints],
        SheetLayout::Widest => &[],
    };
    Some(
        Finding::new(Severity::Caution, Rule::Joints, message)
            .measuring(Measure::mm(*away), Measure::mm(LEAST))
            .about(row.iter().map(|(.., name)| *name).collect())
            .mended_by(mends),
    )
}

/// The longest row of holes along a joint; `None` if no joint has a row.
fn longest_row(workpiece: &Workpiece) -> Option<Vec<Near>> {
    let joints = workpiece.joints();
    let upright = joints.upright.iter();
    let upright = upright.flat_map(|x| rows(workpiece, |at| (at.y, (at.x - x).abs())));
    let level = joints.level.iter();
    let level = level.flat_map(|y| rows(workpiece, |at| (at.x, (at.y - y).abs())));
    upright.chain(level).max_by_key(Vec::len)
}

/// The rows along one joint; `place` gives a center's position along the joint and its distance from it.
fn rows(workpiece: &Workpiece, place: impl Fn(Point) -> (f64, f64)) -> Vec<Vec<Near>> {
    let holes = workpiece.layout().holes.iter();
    let near = holes.map(|hole| {
        let (along, away) = place(hole.center);
        (along, away, hole.name)
    });
    let mut near: Vec<Near> = near.filter(|(_, away, _)| *away < LEAST - HAIR).collect();
    near.sort_by(|a, b| a.0.total_cmp(&b.0));
    let apart = APART * workpiece.board().pitch;
    let rows = near.chunk_by(|a, b| b.0 - a.0 <= apart);
    let rows = rows.filter(|row| row.len() >= ROW);
    rows.map(<[Near]>::to_vec).collect()
}

/// The rotation within one sector, degrees, nearest to the present one at which no joint runs along a row; `None` if there is
/// none.
///
/// Whole degrees are tried: each rotation shifts the grid of sheets again, so that there is no continuous curve to follow.
pub fn rotation_off_joints(workpiece: &Workpiece) -> Option<f64> {
    let board = workpiece.board();
    let half = 180 / board.players.max(1);
    let turns = (1..=half).flat_map(|degrees| [f64::from(degrees), -f64::from(degrees)]);
    let mut rotations = turns.map(|turn| board.rotation + turn);
    rotations.find(|rotation| {
        let mut turned = board.clone();
        turned.rotation = *rotation;
        Workpiece::of(&turned).is_ok_and(|turned| longest_row(&turned).is_none())
    })
}

#[cfg(test)]
pub mod tests {
    use super::*;
    use board::Board;
    use geometry::Pattern;

    fn found(board: &Board) -> Option<Finding> {
        check(&Workpiece::of(board).unwrap())
    }

    /// A board with straight rows and a joint along one of them, which a rotation of the pattern fixes.
    pub fn along_a_row(layout: SheetLayout) -> Board {
        let pitches = (30..60).map(|half| f64::from(half) / 2.0);
        let boards = pitches.map(|pitch| {
            let mut board = Board {
                players: 4,
                pattern: Pattern::Arms { across: 3 },
                pitch,
                ..Board::default()
            };
            board.blank.diameter = 900.0;
            board.template.layout = layout;
            board
        });
        let is_near = |board: &Board| {
            let workpiece = Workpiece::of(board).unwrap();
            check(&workpiece).is_some() && rotation_off_joints(&workpiece).is_some()
        };
        boards.into_iter().find(is_near).unwrap()
    }

    #[test]
    fn sheets_are_shifted_before_the_pattern_is_rotated() {
        for (layout, mend) in [
            (SheetLayout::Fewest, Mend::ShiftSheets),
            (SheetLayout::Widest, Mend::TurnOffJoints),
        ] {
            let found = found(&along_a_row(layout)).unwrap();
            assert_eq!(
                (found.severity, found.mends),
                (Severity::Caution, vec![mend])
            );
            assert!(found.holes.len() >= ROW);
            assert!(found.measured.is_some_and(|away| away.value < LEAST));
        }
    }

    /// Rows of a straight arm 20 mm apart: a row is close within a quarter inch of its centers, and not beyond.
    #[test]
    fn a_row_is_close_within_a_quarter_inch_of_its_centers() {
        let workpiece = Workpiece::of(&along_a_row(SheetLayout::Fewest)).unwrap();
        let row = longest_row(&workpiece).unwrap();
        let joints = workpiece.joints();
        let first = workpiece.layout().hole(row[0].2.id()).unwrap().center;
        let by = |x: f64| (first.x - x).abs() < LEAST;
        let is_upright = joints.upright.iter().any(|x| by(*x));
        let shifted = |off: f64| {
            rows(&workpiece, |at| {
                if is_upright {
                    (at.y, (at.x - first.x - off).abs())
                } else {
                    (at.x, (at.y - first.y - off).abs())
                }
            })
        };
        assert!(!shifted(0.0).is_empty() && !shifted(6.3).is_empty());
        let has = |off: f64| shifted(off).iter().flatten().any(|near| near.2 == row[0].2);
        assert!(has(6.34) && !has(6.35) && !has(6.36));
    }

    #[test]
    fn a_board_on_one_sheet_has_no_joint() {
        let mut board = Board::default();
        board.template.paper = board::Paper::Custom {
            width: 700.0,
            height: 700.0,
        };
        assert_eq!(found(&board), None);
    }
}
