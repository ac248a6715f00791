//! The amount of each finish: areas of the board's parts, coats, coverage by the table of kinds.
//!
//! An amount is area × coats ÷ coverage, with a tenth more. The areas are computed from the board; coverage comes from
//! the table of kinds, from memory: the label of the can wins.

use core::f64::consts::PI;

use board::{BorePart, CoatKind, CoatPlace, FLUID_OUNCE, Measure, Units};
use geometry::Angle;

use super::kinds::coat_data;
use crate::Workpiece;

/// Finish left in brush, rag and can, as a share of the amount on the wood; common practice, no source.
const LOST: f64 = 0.1;
/// Square millimeters in a square meter.
const SQUARE_METER: f64 = 1e6;

/// The finish of a kind that is needed.
///
/// Two layers of one kind are one need: they come from one can.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinishNeed {
    /// The kind.
    pub kind: CoatKind,
    /// Coats of it, of all its layers.
    pub coats: u32,
    /// Area of one board that is covered, each coat counted, m².
    pub area: f64,
    /// Volume for all boards, ml, with a tenth more for brush, rag and can.
    pub ml: f64,
}

/// Every kind of finish that so many boards take, in the order in which they are first used.
///
/// ```
/// use board::{Board, Coat, CoatKind};
/// use workshop::{Workpiece, finish_needs};
/// let mut board = Board { finish: vec![Coat::of(CoatKind::Oil, 24.0)], ..Board::default() };
/// let one = finish_needs(&Workpiece::of(&board)?, 1)[0].ml;
/// board.finish[0].coats = 3;
/// assert!((finish_needs(&Workpiece::of(&board)?, 2)[0].ml - 6.0 * one).abs() < 1e-9);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn finish_needs(workpiece: &Workpiece, boards: u32) -> Vec<FinishNeed> {
    let board = workpiece.board();
    let mut needs: Vec<FinishNeed> = Vec::new();
    for layer in &board.finish {
        let at = needs.iter().position(|need| need.kind == layer.kind);
        let at = at.unwrap_or_else(|| {
            needs.push(FinishNeed {
                kind: layer.kind,
                coats: 0,
                area: 0.0,
                ml: 0.0,
            });
            needs.len() - 1
        });
        if let Some(need) = needs.get_mut(at) {
            need.coats += layer.coats;
            need.area += f64::from(layer.coats) * covered(workpiece, layer.place) / SQUARE_METER;
        }
    }
    for need in &mut needs {
        let coverage = coat_data(need.kind).coverage;
        need.ml = need.area / coverage * 1000.0 * (1.0 + LOST) * f64::from(boards);
    }
    needs
}

/// A volume of finish in the maker's unit, rounded up to an amount that can be measured out.
///
/// ```
/// use board::Units;
/// use workshop::finish_volume;
/// assert_eq!(finish_volume(62.0, Units::Mm), "65 ml");
/// assert_eq!(finish_volume(62.0, Units::INCH), "2.1 fl oz");
/// assert_eq!(finish_volume(0.4, Units::Mm), "a few drops");
/// ```
pub fn volume(ml: f64, units: Units) -> String {
    if ml < 2.0 {
        return "a few drops".into();
    }
    let step = match units {
        Units::Inch(_) => FLUID_OUNCE / 10.0,
        Units::Mm if ml < 20.0 => 1.0,
        Units::Mm => 5.0,
    };
    Measure::milliliters((ml / step).ceil() * step).shown(units)
}

/// Milliliters that one coat takes in a place, on one board.
///
/// It has the tenth for brush, rag and can in it.
pub fn coat_ml(workpiece: &Workpiece, kind: CoatKind, place: CoatPlace) -> f64 {
    ml_on(kind, covered(workpiece, place))
}

/// Milliliters that one coat of a kind takes on an area in mm², with the tenth for brush, rag and can.
pub fn ml_on(kind: CoatKind, area: f64) -> f64 {
    area / SQUARE_METER / coat_data(kind).coverage * 1000.0 * (1.0 + LOST)
}

/// Area that a layer covers in its place on one board, mm².
///
/// Bores are left out of the top face, as are what screws and recess take of the underside: a recess has a floor as large. The
/// roundover goes with the edge.
pub fn covered(workpiece: &Workpiece, place: CoatPlace) -> f64 {
    match place {
        CoatPlace::Whole => top(workpiece) + edge(workpiece) + underside(workpiece),
        CoatPlace::TopAndEdge => top(workpiece) + edge(workpiece),
        CoatPlace::Top | CoatPlace::Sectors => top(workpiece),
        CoatPlace::Edge => edge(workpiece),
        CoatPlace::Underside => underside(workpiece),
        CoatPlace::Grooves => grooves(workpiece),
        CoatPlace::Rings => rings(workpiece),
        CoatPlace::Marks => marks(workpiece),
        CoatPlace::Bores => bores(workpiece),
    }
}

/// The flat top between its bores, mm².
///
/// The roundover is no part of it.
fn top(workpiece: &Workpiece) -> f64 {
    let flat = workpiece.board().blank.flat_radius();
    let mouths: f64 = workpiece.mouths().iter().map(kurbo::Shape::area).sum();
    (PI * flat * flat - mouths).max(0.0)
}

/// The edge with the roundover of its upper corner, mm².
///
/// It is a straight band with a quarter of a ring above it.
fn edge(workpiece: &Workpiece) -> f64 {
    let blank = workpiece.board().blank;
    edge_area(blank.radius(), blank.thickness, blank.roundover)
}

/// The edge of a disc with a rounded upper corner, mm².
///
/// A quarter of a ring is as large as its arc times the way of the arc's center of gravity, 2 r / π out from its middle. A
/// roundover that is larger than the board counts as one of its size: the checks name it, and no area is below nothing.
fn edge_area(radius: f64, thickness: f64, round: f64) -> f64 {
    let round = round.min(thickness).min(radius).max(0.0);
    let straight = 2.0 * PI * radius * (thickness - round);
    let arc = PI / 2.0 * round;
    straight + arc * 2.0 * PI * (radius - round + 2.0 * round / PI)
}

/// The underside, mm².
fn underside(workpiece: &Workpiece) -> f64 {
    let radius = workpiece.board().blank.radius();
    PI * radius * radius
}

/// Both flanks and the floor of all grooves, mm².
fn grooves(workpiece: &Workpiece) -> f64 {
    let length = workpiece.grooves().map_or(0.0, |plan| plan.length);
    groove_area(workpiece, length)
}

/// Both flanks and the floor of grooves of a length, mm²; nothing where the bit cuts none.
pub fn groove_area(workpiece: &Workpiece, length: f64) -> f64 {
    let Some(wanted) = workpiece.board().grooves else {
        return 0.0;
    };
    let half = Angle::degrees(wanted.angle / 2.0).sin();
    let sloped = wanted.width - wanted.tip;
    if half > 0.0 && sloped > 0.0 {
        length * (sloped / half + wanted.tip)
    } else {
        0.0
    }
}

/// Rings around holes as colors have them: around every hole that has one, or around all where colors have none, mm².
fn rings(workpiece: &Workpiece) -> f64 {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let ringed = |hole: &&board::Hole| {
        let tint = workpiece.color_of(hole.name.id());
        tint.is_some_and(|tint| tint.on == BorePart::Ring)
    };
    let around = |hole: &board::Hole| ring_area(hole, board.colors.ring);
    let colored: f64 = layout.holes.iter().filter(ringed).map(around).sum();
    if colored > 0.0 {
        colored
    } else {
        layout.holes.iter().map(around).sum()
    }
}

/// The ring of a width around a hole, mm².
pub fn ring_area(hole: &board::Hole, width: f64) -> f64 {
    let inner = hole.bore.diameter / 2.0;
    let outer = inner + width;
    PI * (outer * outer - inner * inner)
}

/// The squares that the players' marks fit in, mm².
fn marks(workpiece: &Workpiece) -> f64 {
    let board = workpiece.board();
    let size = board.colors.marks.unwrap_or_default().size;
    f64::from(board.players) * size * size
}

/// Wall and floor of every bore, mm².
fn bores(workpiece: &Workpiece) -> f64 {
    workpiece.layout().holes.iter().map(bore_area).sum()
}

/// Wall and floor of the bore of a hole, mm².
pub fn bore_area(hole: &board::Hole) -> f64 {
    let radius = hole.bore.diameter / 2.0;
    2.0 * PI * radius * hole.bore.depth + PI * radius * radius
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Coat};
    use testkit::assert_near;

    fn plain(radius: f64, thickness: f64, roundover: f64) -> Workpiece {
        let mut board = Board::default();
        board.blank.diameter = 2.0 * radius;
        board.blank.thickness = thickness;
        board.blank.roundover = roundover;
        Workpiece::of(&board).unwrap()
    }

    #[test]
    fn areas_are_those_of_the_board_less_its_bores() {
        let workpiece = plain(300.0, 20.0, 0.0);
        let holes = workpiece.layout().holes.iter();
        let holes: f64 = holes
            .map(|hole| PI / 4.0 * hole.bore.diameter.powi(2))
            .sum();
        let face = PI * 300.0 * 300.0;
        assert_near!(covered(&workpiece, CoatPlace::Top), face - holes, 1e-6);
        assert_near!(covered(&workpiece, CoatPlace::Underside), face, 1e-6);
        assert_near!(
            covered(&workpiece, CoatPlace::Edge),
            2.0 * PI * 300.0 * 20.0,
            1e-6
        );
        assert_near!(
            covered(&workpiece, CoatPlace::Whole),
            2.0 * face - holes + 2.0 * PI * 6000.0,
            1e-6
        );
    }

    /// A roundover as large as the board is half the surface of a ball: 2 π r².
    #[test]
    fn a_roundover_is_the_quarter_of_a_ring() {
        assert_near!(
            edge_area(200.0, 200.0, 200.0),
            2.0 * PI * 200.0 * 200.0,
            1e-6
        );
    }

    /// A roundover that is larger than the board leaves no straight band, and takes none away.
    #[test]
    fn a_roundover_larger_than_the_board_is_as_large_as_the_board() {
        assert_near!(
            edge_area(200.0, 20.0, 50.0),
            edge_area(200.0, 20.0, 20.0),
            1e-9
        );
        assert_near!(
            edge_area(10.0, 20.0, 50.0),
            edge_area(10.0, 20.0, 10.0),
            1e-9
        );
    }

    /// By hand: a bit of 90° with a tip of 1 mm cuts a groove of 3 mm one deep, with flanks of √2 mm each and a floor of 1 mm.
    #[test]
    fn a_groove_with_a_flat_tip_has_a_floor() {
        let wanted = board::Grooves {
            width: 3.0,
            angle: 90.0,
            tip: 1.0,
            ..board::Grooves::default()
        };
        let board = Board {
            grooves: Some(wanted),
            ..Board::default()
        };
        let workpiece = Workpiece::of(&board).unwrap();
        assert_near!(
            groove_area(&workpiece, 10.0),
            10.0 * (2.0 * 2.0_f64.sqrt() + 1.0),
            1e-9
        );
    }

    /// 0.6 m across: about 0.6 m² with both faces; at 11 m² to the liter some 60 ml a coat.
    #[test]
    fn a_coat_of_polyurethane_takes_what_the_label_says() {
        let mut board = plain(300.0, 20.0, 3.0).board().clone();
        board.finish = vec![Coat {
            coats: 3,
            ..Coat::of(CoatKind::OilPolyurethane, 24.0)
        }];
        let needs = finish_needs(&Workpiece::of(&board).unwrap(), 1);
        assert_eq!((needs.len(), needs[0].coats), (1, 3));
        assert_near!(needs[0].ml, needs[0].area / 11.0 * 1100.0, 1e-9);
        assert!((150.0..200.0).contains(&needs[0].ml), "{}", needs[0].ml);
    }

    #[test]
    fn every_place_that_a_board_has_takes_some() {
        let board = Board {
            grooves: Some(board::Grooves::default()),
            ..Board::default()
        };
        let workpiece = Workpiece::of(&board).unwrap();
        for place in CoatPlace::ALL {
            assert!(covered(&workpiece, place) > 0.0, "{place:?}");
        }
        let bare = Workpiece::of(&Board::default()).unwrap();
        assert_near!(covered(&bare, CoatPlace::Grooves), 0.0, 0.0);
    }
}
