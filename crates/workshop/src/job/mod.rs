//! The work on a board, step by step, in the order in which it is done.

use board::PieceKind;

use crate::{
    Caution, Workpiece, base, blank, bores, filling, finish, grooves, jig, recess, template,
};

/// A step of the work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What is done.
    pub title: &'static str,
    /// What to mind at it.
    pub cautions: Vec<Caution>,
    /// What is done one after the other, a sentence each.
    pub work: Vec<String>,
    /// The groups of sums that go with it, by their headings.
    pub sums: &'static [&'static str],
}

/// The steps of a workpiece, those that its document plans for.
///
/// ```
/// use board::{Board, Filling};
/// use workshop::{Workpiece, job_steps};
/// let titles = |board: &Board| -> Result<Vec<&str>, board::BuildError> {
///     Ok(job_steps(&Workpiece::of(board)?).iter().map(|step| step.title).collect())
/// };
/// let plain = titles(&Board::default())?;
/// let filled = titles(&Board { filling: Some(Filling::default()), ..Board::default() })?;
/// assert_eq!(filled.len(), plain.len() + 1);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn job_steps(workpiece: &Workpiece) -> Vec<Step> {
    let steps = [
        Some(blank::steps::blank(workpiece)),
        Some(template::steps::template(workpiece)),
        Some(bores::steps::drill(workpiece)),
        // Resin that is leveled after the circle and the grooves are cut would run into them.
        filling::steps::fill(workpiece),
        Some(jig::steps::circle(workpiece)),
        grooves::steps::grooves(workpiece),
        recess::steps::recess(workpiece),
        finish::steps::finish(workpiece),
        base::steps::base(workpiece),
        Some(hand_over(workpiece)),
    ];
    steps.into_iter().flatten().collect()
}

/// What goes with the board.
fn hand_over(workpiece: &Workpiece) -> Step {
    let piece = workpiece.board().piece;
    let mut cautions = vec![Caution::SmallParts];
    if piece.kind == PieceKind::Magnet {
        cautions.push(Caution::Magnets);
    }
    let work = vec![
        format!(
            "Count {} {} of {}, try each in its hole, and turn and tilt the board.",
            recess::pieces(workpiece.board()),
            piece.kind.label(),
            workpiece.length(piece.diameter)
        ),
        format!(
            "Say in writing that it is for players of {} years and over, and why.",
            piece.youngest
        ),
    ];
    Step {
        title: "Hand-over",
        cautions,
        work,
        sums: &["pieces"],
    }
}

/// So many of something, in the words for one and for any other count.
pub(crate) fn counted<N: std::fmt::Display>(count: N, one: &str, many: &str) -> String {
    let count = count.to_string();
    let what = if count == "1" { one } else { many };
    format!("{count} {what}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::{
        Base, Build, Coat, Filling, Grooves, LidFit, LidHold, PieceKind, Recess, RecessShape,
        Toward, Wood,
    };

    fn titles(board: &Board) -> Vec<&'static str> {
        let steps = job_steps(&Workpiece::of(board).unwrap());
        steps.iter().map(|step| step.title).collect()
    }

    #[test]
    fn a_step_is_there_for_what_is_planned() {
        let plain = Board::default();
        assert_eq!(
            titles(&plain),
            ["Blank", "Template", "Bores", "Circle", "Hand-over"]
        );
        let all = Board {
            grooves: Some(Grooves::default()),
            recess: Some(Recess::default()),
            filling: Some(Filling::default()),
            finish: vec![Coat::default()],
            base: Some(Base::default()),
            wood: Some(Wood::default()),
            ..plain
        };
        assert_eq!(
            titles(&all),
            [
                "Blank",
                "Template",
                "Bores",
                "Filling",
                "Circle",
                "Grooves",
                "Recess",
                "Finish",
                "Base",
                "Hand-over"
            ]
        );
    }

    #[test]
    fn the_work_is_told_in_the_makers_unit_with_its_numbers() {
        let mut board = Board::default();
        board.panel.build = Build::Halves;
        board.piece.kind = PieceKind::Magnet;
        let steps = job_steps(&Workpiece::of(&board).unwrap());
        let told = |title: &str| {
            let step = steps.iter().find(|step| step.title == title).unwrap();
            step.work.join(" ")
        };
        assert!(told("Blank").contains("286.5 mm"), "{}", told("Blank"));
        assert!(told("Template").contains("12 sheets of A4"));
        assert!(told("Bores").contains("132 bores"), "{}", told("Bores"));
        assert!(told("Circle").contains("280 mm") && told("Circle").contains("The bore C"));
        let last = steps.last().unwrap();
        assert_eq!(last.cautions, [Caution::SmallParts, Caution::Magnets]);
    }

    #[test]
    fn a_recess_is_told_with_its_side_of_the_pin_its_corners_and_both_faces_of_its_lid() {
        let recess = Recess {
            shape: RecessShape::Straight {
                length: 120.0,
                width: 90.0,
                corner: 6.0,
            },
            at: [-30.0, 10.0],
            lid: 5.0,
            lid_fit: LidFit {
                hold: LidHold::Slides {
                    angle: 45.0,
                    toward: Toward::Left,
                },
                overlap: 4.0,
                clearance: 0.5,
                ..LidFit::default()
            },
            ..Recess::default()
        };
        let board = Board {
            recess: Some(recess),
            ..Board::default()
        };
        let steps = job_steps(&Workpiece::of(&board).unwrap());
        let told = steps.iter().find(|step| step.title == "Recess").unwrap();
        let told = told.work.join(" ");
        for part in [
            "30 mm to the right of the pin and 10 mm above it as seen from below",
            "corners of radius 6 mm",
            "107.5 mm across it on its inner face and 97.5 mm on its outer one",
        ] {
            assert!(told.contains(part), "{part} in {told}");
        }
    }

    #[test]
    fn nothing_is_filled_where_the_resin_would_end_under_the_floors() {
        let board = Board {
            filling: Some(Filling {
                below_top: 500.0,
                ..Filling::default()
            }),
            ..Board::default()
        };
        assert!(!titles(&board).contains(&"Filling"));
    }

    #[test]
    fn no_step_is_without_work_and_no_sentence_without_its_end() {
        for kind in PieceKind::ALL {
            let mut board = Board {
                recess: Some(Recess::default()),
                grooves: Some(Grooves::default()),
                ..Board::default()
            };
            board.piece.kind = kind;
            for step in job_steps(&Workpiece::of(&board).unwrap()) {
                assert!(!step.work.is_empty(), "{step:?}");
                assert!(step.work.iter().all(|line| line.ends_with('.')), "{step:?}");
            }
        }
    }

    /// Turned over sideways, right is left.
    #[test]
    fn the_underside_is_told_as_it_lies_before_the_maker() {
        let mut recess = Recess {
            at: [20.0, -5.0],
            lid: 4.0,
            ..Recess::default()
        };
        recess.lid_fit.hold = LidHold::Slides {
            angle: 14.0,
            toward: Toward::Right,
        };
        let board = Board {
            recess: Some(recess),
            ..Board::default()
        };
        let steps = job_steps(&Workpiece::of(&board).unwrap());
        let told = steps.iter().find(|step| step.title == "Recess").unwrap();
        let told = told.work.join(" ");
        assert!(
            told.contains("20 mm to the left of the pin and 5 mm below it"),
            "{told}"
        );
        assert!(
            told.contains("open at the edge to the left as seen from below"),
            "{told}"
        );
    }
}
