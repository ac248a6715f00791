//! Rule: a recess in the underside holds the pieces, and leaves wood around it.

use board::{Board, Measure, Recess, RecessShape, show_least, show_length};

use crate::blank::panel::{EdgePlace, TenonPlace};
use crate::bores::profile::bore_profile;
use crate::check::{Finding, HAIR, Rule, Severity, counted};
use crate::recess::fitted::depth_of_a_layer;
use crate::recess::lid_cut::inner_reach;
use crate::recess::{Storage, prism, recess_outline};
use crate::{Mend, Workpiece};

pub const STATEMENT: &str = "A storage recess holds the pieces and leaves the set amount of wood above it, and inside \
     the board to the edge, to screws and to mortises; holes above it are checked under \"cuts inside the board\". How many \
     pieces it holds is an estimate: loose marbles fill about 0.55 of a volume (random loose packing, from memory), \
     and less along walls; try it in a box of that size. Its corners are as round as the bit, which has to fit in.";

/// Every finding about the recess.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    let (Some(recess), Some(storage)) = (board.recess, workpiece.storage()) else {
        return Vec::new();
    };
    let findings = [
        corner(board, &recess),
        room(workpiece, storage),
        ceiling(board, &recess),
        edge(workpiece, &recess),
        neighbors(workpiece, &recess),
    ];
    findings.into_iter().flatten().collect()
}

/// More pieces than the recess is estimated to hold.
fn room(workpiece: &Workpiece, storage: &Storage) -> Option<Finding> {
    let (holds, pieces) = (storage.holds, storage.pieces);
    if holds >= pieces {
        return None;
    }
    if holds == 0 {
        return Some(none_goes_in(workpiece, storage));
    }
    let message = format!(
        "The recess holds about {} lying loose; {pieces} are to be stored. Make it larger.",
        counted(holds as usize, "piece")
    );
    let severity = if storage.at_most < pieces {
        Severity::Stop
    } else {
        Severity::Caution
    };
    Some(
        Finding::new(severity, Rule::Storage, message)
            .measuring(Measure::count(holds), Measure::count(pieces))
            .mended_by(&[Mend::RecessForPieces]),
    )
}

/// A recess too low or too narrow for a single piece.
fn none_goes_in(workpiece: &Workpiece, storage: &Storage) -> Finding {
    let board = workpiece.board();
    let piece = board.piece;
    let wants = piece.stored_height();
    let length = |mm| show_length(mm, board.units);
    let lid = board.recess.map_or(0.0, |recess| recess.lid);
    let (thickness, above) = (board.blank.thickness, wood_above(workpiece));
    let least = depth_of_a_layer(board, lid) + above;
    let wood = format!("wood {} thick or thicker", show_least(least, board.units));
    let is_thin = wants + lid + board.limits.floor > thickness + HAIR;
    // The holes over the recess may need more wood than its ceiling.
    let deeper = if wants + lid + above > thickness + HAIR {
        format!("A deeper recess comes too near the holes over it: use {wood}.")
    } else {
        "Make the recess deeper.".into()
    };
    let message = if storage.room <= 0.0 {
        format!("The lid fills the recess and leaves no room for pieces. {deeper}")
    } else if is_thin {
        format!(
            "A board {} thick is too thin to store pieces: one is {} high,{} and {} of wood stays above. Use {wood}, or keep the \
             pieces elsewhere.",
            length(thickness),
            length(wants),
            if lid > 0.0 {
                format!(" the lid {} thick,", length(lid))
            } else {
                String::new()
            },
            length(board.limits.floor)
        )
    } else if storage.room < wants - HAIR {
        format!(
            "A piece {} high does not go into the recess, which is {} high inside. {deeper}",
            length(wants),
            length(storage.room)
        )
    } else {
        format!(
            "A piece {} across does not go into the recess. Make the recess wider.",
            length(piece.diameter)
        )
    };
    // No depth is enough on a board this thin.
    let mends: &[Mend] = if is_thin {
        &[]
    } else {
        &[Mend::RecessForPieces]
    };
    Finding::new(Severity::Stop, Rule::Storage, message)
        .measuring(Measure::mm(storage.room), Measure::mm(wants))
        .mended_by(mends)
}

/// The wood that has to stay above the recess, mm: the floor, or the holes over it with the wood below them.
fn wood_above(workpiece: &Workpiece) -> f64 {
    let board = workpiece.board();
    let outline = board.recess.as_ref().map(recess_outline);
    let over = workpiece.layout().holes.iter().filter(|hole| {
        let away = outline.as_ref().map(|outline| outline.away(hole.center));
        away.is_some_and(|away| away < hole.bore.radius())
    });
    let needed = over.map(|hole| bore_profile(hole.bore, board.bores.spur).bottom());
    let deepest = needed.max_by(f64::total_cmp);
    let needed = deepest.map_or(0.0, |bottom| bottom + board.limits.inside);
    needed.max(board.limits.floor)
}

/// Too little wood above the recess, or none.
fn ceiling(board: &Board, recess: &Recess) -> Option<Finding> {
    let wood = board.blank.thickness - recess.depth;
    let length = |mm| show_length(mm, board.units);
    let wanted = board.limits.floor;
    let (depth, thickness) = (length(recess.depth), length(board.blank.thickness));
    let (severity, message) = if wood <= HAIR {
        (
            Severity::Stop,
            format!(
                "A recess {depth} deep comes out through the top of a board {thickness} thick. Make it shallower."
            ),
        )
    } else if wood < wanted - HAIR {
        (
            Severity::Caution,
            format!(
                "A recess {depth} deep leaves {} of wood above it; the limit is {}. Make it shallower.",
                length(wood),
                length(wanted)
            ),
        )
    } else {
        return None;
    };
    Some(
        Finding::new(severity, Rule::Storage, message)
            .measuring(Measure::mm(wood), Measure::mm(wanted)),
    )
}

/// Corners rounder than any bit that fits into the recess can leave.
fn corner(board: &Board, recess: &Recess) -> Option<Finding> {
    let RecessShape::Straight { corner, .. } = recess.shape else {
        return None;
    };
    let widest = recess.shape.widest_corner();
    let length = |mm| show_length(mm, board.units);
    (corner > widest + HAIR).then(|| {
        let message = format!(
            "A bit that leaves corners of {} is wider than the recess; they are drawn as {}. Use a smaller bit.",
            length(corner),
            length(widest)
        );
        Finding::new(Severity::Stop, Rule::Storage, message)
            .measuring(Measure::mm(corner), Measure::mm(widest))
    })
}

/// A recess too close to the edge of the board, or beyond it.
fn edge(workpiece: &Workpiece, recess: &Recess) -> Option<Finding> {
    let board = workpiece.board();
    let wood = board.blank.radius() - inner_reach(workpiece, recess);
    let wanted = board.limits.inside;
    let (severity, message) = if wood <= HAIR {
        (
            Severity::Stop,
            "The recess or its lid comes out at the edge of the board. Make it smaller.".into(),
        )
    } else if wood < wanted - HAIR {
        let wood = show_length((wood * 1000.0).round() / 1000.0, board.units);
        let limit = show_length(wanted, board.units);
        (
            Severity::Caution,
            format!(
                "The recess and its lid leave {wood} of wood to the edge of the board; the limit is {limit}. Make it smaller."
            ),
        )
    } else {
        return None;
    };
    Some(
        Finding::new(severity, Rule::Storage, message)
            .measuring(Measure::mm(wood), Measure::mm(wanted)),
    )
}

/// Screws and mortises that the recess opens, or comes close to.
fn neighbors(workpiece: &Workpiece, recess: &Recess) -> Option<Finding> {
    let board = workpiece.board();
    let wanted = board.limits.inside;
    let cut = workpiece.lid().cut;
    let cuts = || core::iter::once(recess).chain(&cut);
    let screw = workpiece.screws().iter().map(|screw| {
        let away = cuts().map(|cut| recess_outline(cut).away(screw.circle.center));
        away.fold(f64::INFINITY, f64::min) - screw.circle.radius
    });
    let screw: Vec<f64> = screw.filter(|wood| *wood < wanted - HAIR).collect();
    let mortise = inner_tenons(workpiece).map(|tenon| {
        let wood = cuts().map(|cut| mortise_wood(board, cut, tenon));
        wood.fold(f64::INFINITY, f64::min)
    });
    let mortise: Vec<f64> = mortise.filter(|wood| *wood < wanted - HAIR).collect();
    let all = screw.iter().chain(&mortise).copied();
    let worst = all.min_by(f64::total_cmp)?.max(0.0);
    let count = |found: &[f64], one| (!found.is_empty()).then(|| counted(found.len(), one));
    let counts = [count(&screw, "screw"), count(&mortise, "mortise")];
    let counts: Vec<String> = counts.into_iter().flatten().collect();
    let message = format!(
        "Cut by the recess, or too close to it: {}. Move them, or make the recess smaller.",
        counts.join(" and ")
    );
    Some(
        Finding::new(Severity::Caution, Rule::Storage, message)
            .measuring(Measure::mm(worst), Measure::mm(wanted))
            .meeting((!mortise.is_empty()).then_some(Rule::Joinery)),
    )
}

/// The tenons that remain in the board.
fn inner_tenons(workpiece: &Workpiece) -> impl Iterator<Item = &TenonPlace> {
    let places = workpiece.tenons().iter();
    places.filter(|tenon| tenon.place != EdgePlace::Outside)
}

/// Wood between the recess, or the cuts for its lid, and a mortise.
fn mortise_wood(board: &Board, cut: &Recess, tenon: &TenonPlace) -> f64 {
    let size = board.panel.tenons.unwrap_or_default();
    let cut = prism(recess_outline(cut), cut.depth, board.blank.thickness);
    cut.distance(&tenon.mortise(&size))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Build, LidHold, ScrewCircle, Tenons, Toward};
    use testkit::assert_near;

    fn with(recess: Recess, thickness: f64) -> Board {
        let mut board = Board {
            recess: Some(recess),
            ..Board::default()
        };
        board.blank.thickness = thickness;
        board
    }

    fn severities(board: &Board) -> Vec<Severity> {
        check(&Workpiece::of(board).unwrap())
            .iter()
            .map(|found| found.severity)
            .collect()
    }

    fn round(diameter: f64, depth: f64, lid: f64) -> Recess {
        Recess {
            shape: RecessShape::Round { diameter },
            depth,
            lid,
            ..Recess::default()
        }
    }

    #[test]
    fn a_board_without_a_recess_gives_no_finding() {
        assert_eq!(check(&Workpiece::of(&Board::default()).unwrap()), []);
    }

    #[test]
    fn thirty_marbles_of_16_need_a_wide_recess() {
        assert_eq!(severities(&with(round(120.0, 20.0, 4.0), 30.0)), []);
        let tight = check(&Workpiece::of(&with(round(90.0, 20.0, 4.0), 30.0)).unwrap());
        assert_eq!(tight[0].severity, Severity::Caution);
        assert_eq!(tight[0].wanted, Some(Measure::count(30)));
        // Less than the volume of the marbles themselves, however they lie.
        assert_eq!(
            severities(&with(round(50.0, 20.0, 4.0), 30.0)),
            [Severity::Stop]
        );
        // More than any arrangement needs.
        let spare = Recess {
            spare: 200,
            ..round(120.0, 20.0, 4.0)
        };
        assert_eq!(severities(&with(spare, 30.0)), [Severity::Stop]);
    }

    #[test]
    fn the_lid_must_leave_the_height_of_a_piece() {
        let words = |lid| {
            check(&Workpiece::of(&with(round(120.0, 20.0, lid), 30.0)).unwrap())[0]
                .message
                .clone()
        };
        assert_eq!(severities(&with(round(120.0, 20.0, 4.0), 30.0)), []);
        assert!(words(4.1).contains("15.9 mm high inside"), "{}", words(4.1));
        assert!(words(20.0).contains("lid fills"));
        // 16 mm of marble and 1 mm of play, 4.1 mm of lid, and the center hole of 5 mm with its spur of 2.5 mm and 3 mm of wood:
        // the depth is rounded up to half a millimeter.
        assert!(
            words(4.1).contains("too near the holes over it: use wood 32 mm thick"),
            "{}",
            words(4.1)
        );
        let slot = Recess {
            shape: RecessShape::Straight {
                length: 300.0,
                width: 15.0,
                corner: 0.0,
            },
            ..round(1.0, 20.0, 0.0)
        };
        assert!(
            check(&Workpiece::of(&with(slot, 30.0)).unwrap())[0]
                .message
                .contains("Make the recess wider")
        );
    }

    #[test]
    fn a_thin_board_is_not_advised_to_have_a_deeper_recess() {
        let words = |thickness: f64, lid| {
            let board = with(round(120.0, 10.0, lid), thickness);
            check(&Workpiece::of(&board).unwrap())[0].message.clone()
        };
        assert!(words(40.0, 0.0).contains("Make the recess deeper"));
        let thin = words(18.0, 0.0);
        assert!(
            thin.contains("18 mm thick is too thin to store pieces: one is 16 mm high, and 4 mm"),
            "{thin}"
        );
        assert!(words(20.0, 3.0).contains("16 mm high, the lid 3 mm thick, and 4 mm of wood"));
    }

    #[test]
    fn a_recess_must_be_wide_enough_for_the_bit_that_leaves_its_corners() {
        let with_corner = |corner| {
            let shape = RecessShape::Straight {
                length: 120.0,
                width: 100.0,
                corner,
            };
            let recess = Recess {
                shape,
                ..round(1.0, 20.0, 0.0)
            };
            check(&Workpiece::of(&with(recess, 30.0)).unwrap())
        };
        assert_eq!(with_corner(50.0), []);
        let wide = with_corner(50.5);
        assert_eq!((wide.len(), wide[0].severity), (1, Severity::Stop));
        assert_eq!(wide[0].wanted, Some(Measure::mm(50.0)));
        assert!(wide[0].message.contains("drawn as 50 mm"), "{wide:?}");
    }

    #[test]
    fn wood_must_remain_above_the_recess_and_at_the_edge() {
        assert_eq!(severities(&with(round(120.0, 20.0, 0.0), 24.0)), []);
        assert_eq!(
            severities(&with(round(120.0, 20.0, 0.0), 23.9)),
            [Severity::Caution]
        );
        assert_eq!(
            severities(&with(round(120.0, 20.0, 0.0), 20.0)),
            [Severity::Stop]
        );
        let at = |x| Recess {
            at: [x, 0.0],
            ..round(120.0, 20.0, 0.0)
        };
        // The board is 640 mm across, the recess 120 mm.
        assert_eq!(severities(&with(at(257.0), 30.0)), []);
        assert_eq!(severities(&with(at(257.1), 30.0)), [Severity::Caution]);
        assert_eq!(severities(&with(at(260.0), 30.0)), [Severity::Stop]);
    }

    #[test]
    fn ledge_and_groove_of_a_lid_count_with_the_recess() {
        let mut recess = round(120.0, 20.0, 4.0);
        recess.lid_fit.overlap = 10.0;
        recess.at = [247.0, 0.0];
        // 247 + 60 + 10 mm of the 320 mm to the edge.
        assert_eq!(severities(&with(recess, 30.0)), []);
        recess.at = [247.1, 0.0];
        assert_eq!(severities(&with(recess, 30.0)), [Severity::Caution]);
        recess.lid_fit.hold = LidHold::Slides {
            angle: 10.0,
            toward: Toward::Right,
        };
        // A groove is open at the edge.
        let mut board = with(recess, 30.0);
        assert_eq!(severities(&board), []);
        board.screws = vec![ScrewCircle {
            count: 1,
            circle: 620.0,
            bearing: 90.0,
            ..ScrewCircle::default()
        }];
        let found = check(&Workpiece::of(&board).unwrap());
        assert!(found[0].message.contains(": 1 screw."), "{found:?}");
    }

    #[test]
    fn screws_and_mortises_must_keep_clear_of_the_recess() {
        let mut board = with(round(120.0, 20.0, 0.0), 30.0);
        board.screws = vec![ScrewCircle {
            circle: 130.0,
            ..ScrewCircle::default()
        }];
        // 65 mm from the center pin, of which the screw takes 2 mm: 3 mm of wood.
        assert_eq!(severities(&board), []);
        board.screws[0].circle = 129.0;
        assert!(
            check(&Workpiece::of(&board).unwrap())[0]
                .message
                .contains(": 4 screws.")
        );
        board.screws.clear();
        board.panel.build = Build::Halves;
        board.panel.tenons = Some(Tenons {
            below_top: 2.0,
            ..Tenons::default()
        });
        // 2 mm of wood between the mortise, which ends 8 mm down, and the ceiling at 10 mm.
        let found = check(&Workpiece::of(&board).unwrap());
        assert!(found[0].message.contains(": 1 mortise."), "{found:?}");
        let Some(Measure { value: wood, .. }) = found[0].measured else {
            panic!("no measure")
        };
        assert_near!(wood, 2.0, 1e-9);
    }
}
