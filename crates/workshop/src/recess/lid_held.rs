//! The parts that keep a lid in its place: turn buttons with their screws, or the peg of a sliding lid.

use board::{INCH, LidHold, Recess, ScrewCircle, Units};

use crate::Workpiece;
use crate::base::screw::Screw;
use crate::bores::profile::deepest;

/// Thickness of a turn button, mm; common practice, no source: measure yours.
pub const BUTTON: f64 = 3.0;
/// Diameter of a button's screw, mm: a #4, or 3 mm; common practice, no source.
const SCREW: f64 = 3.0;
/// Length of a lid's side up to which one button at each end holds it, mm; common practice, no source.
const SHORT: f64 = 200.0;
/// The least depth of wood in which a screw or a peg holds, mm; common practice, no source.
const HOLDS: f64 = 5.0;

/// The turn buttons of a lid, with the wood for their screws; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Buttons {
    /// Number of buttons.
    pub count: u32,
    /// Greatest depth of a screw in the underside.
    pub deepest: f64,
    /// Whether that depth is right only where no hole is above the screw.
    pub between_holes: bool,
}

impl Buttons {
    /// The screw of a button, in the sizes it is sold in.
    pub fn screw(units: Units) -> Screw {
        let ring = ScrewCircle {
            diameter: SCREW,
            ..ScrewCircle::default()
        };
        Screw::of(&ring, units)
    }
}

/// The turn buttons of a lid that lies in its place; none without a lid, and for one that slides.
pub fn buttons(workpiece: &Workpiece) -> Option<Buttons> {
    let board = workpiece.board();
    let lid = workpiece.lid().size?;
    if board.recess?.lid_fit.hold != LidHold::LiesIn {
        return None;
    }
    let (length, width) = lid.shape.sides();
    let under_holes = under_holes(workpiece);
    let between_holes = under_holes < HOLDS;
    let most = if between_holes {
        board.blank.thickness - board.limits.floor
    } else {
        under_holes
    };
    Some(Buttons {
        count: if length.max(width) > SHORT { 4 } else { 2 },
        deepest: most.max(0.0),
        between_holes,
    })
}

/// The peg of a sliding lid, mm: its diameter, and the depth of its hole in the wood above the lid; none for another lid, and
/// where too little wood is above it.
pub fn peg(workpiece: &Workpiece) -> Option<[f64; 2]> {
    let recess = workpiece.board().recess?;
    workpiece.lid().size?;
    if recess.lid_fit.hold == LidHold::LiesIn {
        return None;
    }
    let across = match workpiece.units() {
        Units::Mm => 6.0,
        Units::Inch(_) => INCH / 4.0,
    };
    let above = under_holes(workpiece) - recess.lid;
    (above >= HOLDS).then_some([across, across.min(above)])
}

/// Wood under the deepest hole less the wood that must stay between a hole and a cut from below, mm.
fn under_holes(workpiece: &Workpiece) -> f64 {
    let board = workpiece.board();
    let holes = workpiece.layout().holes.iter();
    let depths = holes.map(|hole| deepest(hole.bore, board.bores.spur));
    board.blank.thickness - depths.fold(0.0, f64::max) - board.limits.inside
}

/// The sentences on the parts that hold a lid.
pub fn held(workpiece: &Workpiece, recess: &Recess) -> Vec<String> {
    match (buttons(workpiece), peg(workpiece)) {
        (Some(buttons), _) => on_buttons(workpiece, recess, buttons),
        (None, Some([across, deep])) => vec![
            THUMB.into(),
            format!(
                "A peg keeps it from sliding out: close to the edge of the board drill {} through the lid and no more than {} into the wood \
                 above it, and fit a dowel that can be pulled out by hand.",
                workpiece.length(across),
                workpiece.at_most(deep)
            ),
        ],
        (None, None) => vec![
            THUMB.into(),
            "A strip of thin leather glued on its inner face lets it drag, so that it does not slide out by itself.".into(),
        ],
    }
}

/// The notch by which a sliding lid is pulled.
const THUMB: &str = "Carve a shallow thumb notch into its outer face, by which to pull it.";

/// The sentences on turn buttons.
fn on_buttons(workpiece: &Workpiece, recess: &Recess, buttons: Buttons) -> Vec<String> {
    let length = |mm| workpiece.length(mm);
    let place = match (buttons.count, workpiece.lid().cut) {
        (2, Some(_)) => "opposite each other, one beside each end of the ledge",
        (2, None) => "opposite each other, one beside each end of the recess",
        (_, Some(_)) => "one beside the middle of each side of the ledge",
        (_, None) => "one beside the middle of each side of the recess",
    };
    let screw = Buttons::screw(workpiece.units());
    let above = if buttons.between_holes {
        ", where no hole is above it"
    } else {
        ""
    };
    let turns = format!(
        "{} turn buttons hold it: screw them to the underside, {place}, so that each turns over the lid.",
        if buttons.count == 2 { "Two" } else { "Four" },
    );
    let screws = format!(
        "Drill a pilot hole of {} for the {} screw of each, no deeper than {}{above}: a collar or tape on the bit. Drive it until the button \
         turns with some drag.",
        length(screw.pilot),
        screw.name(workpiece.units()),
        workpiece.at_most(buttons.deepest)
    );
    let base = workpiece.board().base;
    let flush = base.is_none_or(|base| base.height <= BUTTON).then(|| {
        "Let the buttons into the underside, so that the board lies flat on the table.".to_owned()
    });
    let rests = workpiece.lid().cut.is_none().then(|| {
        format!(
            "Glue blocks {} high into the recess, on which the lid rests.",
            length(recess.depth - recess.lid)
        )
    });
    rests
        .into_iter()
        .chain([turns, screws])
        .chain(flush)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Base, Board, LidFit, RecessShape, Toward};

    /// A board with a lid 5 mm thick, held in this way.
    fn with(hold: LidHold, overlap: f64) -> Board {
        Board {
            recess: Some(Recess {
                shape: RecessShape::Straight {
                    length: 120.0,
                    width: 80.0,
                    corner: 6.0,
                },
                lid: 5.0,
                lid_fit: LidFit {
                    hold,
                    overlap,
                    ..LidFit::default()
                },
                ..Recess::default()
            }),
            ..Board::default()
        }
    }

    fn said(board: &Board) -> String {
        held(&Workpiece::of(board).unwrap(), &board.recess.unwrap()).join(" ")
    }

    const SLIDES: LidHold = LidHold::Slides {
        angle: 30.0,
        toward: Toward::Left,
    };

    /// 20 mm less a bore of 5 mm with a spur of 2.5 mm, less 3 mm that must stay: 9.5 mm.
    #[test]
    fn the_screws_of_turn_buttons_are_shorter_than_the_wood() {
        let mut board = with(LidHold::LiesIn, 4.0);
        let told = said(&board);
        for part in [
            "Two turn buttons hold it",
            "beside each end of the ledge",
            "for the 3 mm screw of each, no deeper than 9.5 mm:",
            "Let the buttons into the underside",
        ] {
            assert!(told.contains(part), "{part} in {told}");
        }
        assert!(!told.contains("agnet"), "{told}");
        board.bores.track.depth = 12.0;
        let told = said(&board);
        assert!(
            told.contains("no deeper than 16 mm, where no hole is above it"),
            "{told}"
        );
        board.base = Some(Base::default());
        assert!(!said(&board).contains("Let the buttons"));
    }

    #[test]
    fn a_lid_without_a_ledge_rests_on_blocks_and_a_long_one_has_four_buttons() {
        let mut board = with(LidHold::LiesIn, 0.0);
        assert!(said(&board).contains("Glue blocks 5 mm high"));
        if let Some(recess) = &mut board.recess {
            recess.shape = RecessShape::Round { diameter: 240.0 };
        }
        assert!(said(&board).contains("Four turn buttons"));
    }

    #[test]
    fn a_sliding_lid_is_kept_in_by_a_peg_where_there_is_wood_for_one() {
        let mut board = with(SLIDES, 4.0);
        assert!(!said(&board).contains("button"));
        board.bores.spur = 1.0;
        board.blank.thickness = 25.0;
        let told = said(&board);
        assert!(
            told.contains("drill 6 mm through the lid and no more than 6 mm into"),
            "{told}"
        );
        board.blank.thickness = 14.0;
        assert!(said(&board).contains("strip of thin leather"));
        board.recess = Some(Recess::default());
        assert_eq!(buttons(&Workpiece::of(&board).unwrap()), None);
    }
}
