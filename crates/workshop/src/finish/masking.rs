//! Parts to keep finish off: bores that fit a piece, faces that are glued, surfaces that slide or turn.

use board::{Base, BaseHold, BorePart, Footing, PieceKind};

use super::kinds::{coat_data, is_color};
use super::list;
use super::parts::Parts;
use crate::Workpiece;
use crate::base::fixing::Fixing;
use crate::colors::steps::{kind_of, laid};
use crate::colors::used::{Place, Used};

/// A part that is covered before the first coat.
struct Mask {
    /// The covering, in a sentence.
    words: &'static str,
    /// The cover that is taken off again; none where there is none.
    off: Option<&'static str>,
}

/// A part that is covered, and the thing that is taken off again.
const fn mask(words: &'static str, off: &'static str) -> Mask {
    Mask {
        words,
        off: Some(off),
    }
}

/// Everything that is covered before the first coat, a sentence each; may be empty.
///
/// ```
/// use board::{Board, Coat, PieceKind};
/// use workshop::{Workpiece, to_mask};
/// let mut board = Board { finish: vec![Coat::default()], ..Board::default() };
/// board.piece.kind = PieceKind::Peg;
/// assert!(to_mask(&Workpiece::of(&board)?)[0].starts_with("Plug the peg holes"));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn to_mask(workpiece: &Workpiece) -> Vec<String> {
    let all = masks(workpiece).into_iter();
    all.map(|mask| mask.words.to_owned()).collect()
}

/// The sentence on taking plugs and tape off again after the last coat or color; none where there are none.
///
/// A hard film tears along the tape, and runs onto the bare wood if the tape comes off while it is wet; common practice, no source.
pub fn to_unmask(workpiece: &Workpiece, coat: &str) -> Option<String> {
    let mut off: Vec<&str> = masks(workpiece)
        .iter()
        .filter_map(|mask| mask.off)
        .collect();
    off.dedup();
    (!off.is_empty()).then(|| {
        let what = list(&off);
        format!("Take the {what} off as soon as this {coat} no longer runs, before it is hard.")
    })
}

/// The materials for covering, as a tool list has them; may be empty.
pub fn mask_tools(workpiece: &Workpiece) -> String {
    let all = masks(workpiece);
    let has = |off: &str| all.iter().any(|mask| mask.off == Some(off));
    let tools = [
        (has("plugs"), "dowels or foam plugs"),
        (has("covers"), "paper dots or plugs for the balls or discs"),
        (has("tape"), "masking tape"),
    ];
    let needed = tools.iter().filter(|(needed, _)| *needed);
    needed
        .map(|(_, words)| *words)
        .collect::<Vec<_>>()
        .join(", ")
}

/// Whether any part is covered with tape.
pub fn needs_tape(workpiece: &Workpiece) -> bool {
    masks(workpiece).iter().any(|mask| mask.off == Some("tape"))
}

/// Every part that is covered, plugs first, then covers, then tape.
fn masks(workpiece: &Workpiece) -> Vec<Mask> {
    let board = workpiece.board();
    let goes = |parts: Parts| {
        let mut layers = board.finish.iter();
        layers.any(|coat| Parts::of(coat.place).has(parts))
    };
    let bare_magnets = board.piece.kind == PieceKind::Magnet
        && board
            .piece
            .magnet
            .is_some_and(|magnet| magnet.finish <= 0.0);
    let mut all = Vec::new();
    if board.piece.kind == PieceKind::Peg && goes(Parts::BORES) {
        all.push(mask(
            "Plug the peg holes with dowels or foam: a film of finish takes up the play that the pegs have.",
            "plugs",
        ));
    } else if let Some(words) = open_holes(workpiece) {
        all.push(mask(words, "plugs"));
    }
    if bare_magnets && goes(Parts::BORES) {
        all.push(mask(
            "Cover each ball or disc that is set in: the pull is figured without finish over it.",
            "covers",
        ));
    }
    if let Some(base) = board.base.filter(|_| goes(Parts::UNDERSIDE)) {
        all.extend(glue_faces(workpiece, &base));
        all.extend(bearing(&base));
    }
    if workpiece.lid().size.is_some() && goes(Parts::UNDERSIDE) {
        all.push(mask(
            "Tape off where the lid rubs or slides, ledge and groove of the recess too.",
            "tape",
        ));
    }
    all
}

/// The plugs of open holes that color or a film would run into; none where only oil, wax or the like is laid on, where the holes
/// are full of resin, and where they hold balls or discs.
///
/// A film that runs into a hole stands on its floor; common practice, no source. Holes that are colored inside stay open.
fn open_holes(workpiece: &Workpiece) -> Option<&'static str> {
    let board = workpiece.board();
    let is_full = board
        .filling
        .is_some_and(|filling| filling.below_top <= 0.0)
        && workpiece.pour().is_some_and(|pour| !pour.bores.is_empty());
    if is_full || board.piece.kind == PieceKind::Magnet {
        return None;
    }
    let laid = laid(workpiece);
    let brushed = |one: &Used| kind_of(one.tint.medium).is_some();
    let at_holes = |one: &Used| matches!(one.place, Place::Bore(BorePart::Ring) | Place::Field);
    let colors = laid.iter().any(|one| brushed(one) && at_holes(one));
    let mut coats = board.finish.iter();
    let runs = coats.any(|coat| {
        let parts = Parts::of(coat.place);
        let over = parts.has(Parts::TOP) || parts.has(Parts::RINGS) || parts.has(Parts::SECTORS);
        over && (coat_data(coat.kind).film >= FILM || is_color(coat.kind))
    });
    let inside = |one: &Used| brushed(one) && one.place == Place::Bore(BorePart::Inside);
    match (colors || runs, laid.iter().any(inside)) {
        (false, _) => None,
        (true, false) => Some(
            "Plug the holes with foam or dowels: color and film run into holes that are open, and stand on their floors.",
        ),
        (true, true) => Some(
            "Plug the holes with foam or dowels, but for those that are colored inside: color and film run into holes that are open, and \
             stand on their floors.",
        ),
    }
}

/// Least thickness of a coat that runs when it is brushed on, mm: thinner ones are wiped on and off. Common practice, no source.
const FILM: f64 = 0.02;

/// The faces that are glued to the base; none where screws or a bearing hold it.
fn glue_faces(workpiece: &Workpiece, base: &Base) -> Option<Mask> {
    let words = match Fixing::of(workpiece, base) {
        Fixing::GluedRound => {
            "Tape off the middle of the underside, where the base is glued: glue does not hold on finish."
        }
        Fixing::GluedFeet => {
            "Tape off where the feet are glued to the underside: glue does not hold on finish."
        }
        Fixing::ScrewedRound | Fixing::LiesOn | Fixing::ScrewedFeet => return None,
    };
    Some(mask(words, "tape"))
}

/// The masking of the bearing of a base that turns; `None` for a base that stands on feet or is glued.
///
/// A round base whose rated load is known is a turntable; of another one the document does not say whether it turns.
const fn bearing(base: &Base) -> Option<Mask> {
    let words = match (base.footing, base.rating, base.hold) {
        (Footing::Round { .. }, Some(_), _) => {
            "Keep finish out of the bearing: mount the turntable when the finish is hard."
        }
        (Footing::Round { .. }, None, BaseHold::Loose) => {
            "If the base turns on a bearing, keep finish out of it: mount it when the finish is hard."
        }
        _ => return None,
    };
    Some(Mask { words, off: None })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Coat, CoatKind, CoatPlace};

    #[test]
    fn only_what_finish_would_get_on_is_masked() {
        let mut board = Board {
            base: Some(Base::default()),
            finish: vec![Coat::default()],
            ..Board::default()
        };
        board.piece.kind = PieceKind::Peg;
        let masked = |board: &Board| to_mask(&Workpiece::of(board).unwrap());
        assert_eq!(masked(&board).len(), 2);
        board.finish[0].place = CoatPlace::Edge;
        assert!(masked(&board).is_empty());
        board.finish = vec![Coat {
            place: CoatPlace::Top,
            ..Coat::of(CoatKind::Lacquer, 1.0)
        }];
        assert_eq!(masked(&board).len(), 1);
        board.finish.clear();
        assert!(masked(&board).is_empty());
    }

    #[test]
    fn a_bearing_is_kept_clean_only_where_there_is_one() {
        let said = |base: Base| {
            let board = Board {
                base: Some(base),
                finish: vec![Coat::default()],
                ..Board::default()
            };
            let workpiece = Workpiece::of(&board).unwrap();
            to_mask(&workpiece).join(" ").contains("bearing")
        };
        let round = Footing::Round { diameter: 200.0 };
        let of = |footing, rating| Base {
            footing,
            rating,
            ..Base::default()
        };
        assert!(said(of(round, Some(50.0))));
        // It may be a turntable: then so.
        assert!(said(of(round, None)));
        let glued = Base {
            hold: BaseHold::GluedPlywood,
            ..of(round, None)
        };
        assert!(!said(glued));
        let feet = Footing::Feet {
            count: 4,
            circle: 200.0,
        };
        assert!(!said(of(feet, Some(50.0))));
    }

    #[test]
    fn only_what_was_put_on_is_taken_off() {
        let mut board = Board {
            finish: vec![Coat::default()],
            ..Board::default()
        };
        let off =
            |board: &Board| to_unmask(&Workpiece::of(board).unwrap(), "coat").unwrap_or_default();
        assert_eq!(off(&board), "");
        board.piece.kind = PieceKind::Peg;
        assert!(off(&board).contains("the plugs off"));
        board.base = Some(Base {
            hold: BaseHold::GluedWithGrain,
            ..Base::default()
        });
        assert!(off(&board).contains("the plugs and tape off"));
    }

    #[test]
    fn open_holes_are_plugged_against_color_and_film() {
        let plugs = |board: &Board| {
            let all = to_mask(&Workpiece::of(board).unwrap());
            all.iter().any(|words| words.starts_with("Plug the holes"))
        };
        let coated = |kind| Board {
            finish: vec![Coat::of(kind, 12.0)],
            ..Board::default()
        };
        assert!(plugs(&coated(CoatKind::OilPolyurethane)));
        assert!(!plugs(&coated(CoatKind::Oil)) && !plugs(&coated(CoatKind::WipingVarnish)));
        let mut painted = Board::default();
        painted.colors.home.hue = board::Hue::Player;
        assert!(plugs(&painted));
        painted.colors.home.medium = board::Medium::Inlay;
        assert!(!plugs(&painted));
        painted.colors.home.medium = board::Medium::Dye;
        painted.colors.home.on = BorePart::Inside;
        assert!(!plugs(&painted));
        painted.colors.sectors.hue = board::Hue::Player;
        let told = to_mask(&Workpiece::of(&painted).unwrap()).join(" ");
        assert!(
            told.contains("but for those that are colored inside"),
            "{told}"
        );
        // Full of resin, there is no hole left.
        painted.colors.home = board::BoreColor::default();
        painted.filling = Some(board::Filling::default());
        assert!(!plugs(&painted));
    }

    #[test]
    fn a_magnet_that_stays_bare_is_covered() {
        let mut board = Board {
            finish: vec![Coat::default()],
            ..Board::default()
        };
        board.piece.kind = PieceKind::Magnet;
        let masked = |board: &Board| to_mask(&Workpiece::of(board).unwrap()).len();
        assert_eq!(masked(&board), 0);
        board.piece.magnet = Some(board::Magnet {
            finish: 0.0,
            ..board::Magnet::default()
        });
        assert_eq!(masked(&board), 1);
    }
}
