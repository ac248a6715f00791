//! The storage recess cut across the grain, with its lid.
//!
//! The cut runs across the grain through the center of the recess, where a sliding lid shows the shape of its groove. Depths
//! are measured from the underside, as they are routed, and the wood above the recess from the top.

use board::{Board, LidHold, Measure, Quantity};
use kurbo::Rect;
use workshop::{LidPlace, RecessSizes, Section};

use super::figure::Figure;
use super::measures::{Side, Size};
use super::says::HAIR;
use super::scene::Shown;
use super::top;

/// Wood on either side of the recess and of the cuts for its lid: as a share of their width, and at least this many mm.
const BESIDE: (f64, f64) = (0.1, 10.0);

/// The figure.
pub fn recess<'a>(board: &Board, section: &'a Section, sizes: &RecessSizes) -> Figure<'a> {
    let widest = sizes.lid.map_or(0.0, |lid| lid.inside.max(lid.mouth));
    let widest = widest.max(sizes.width);
    let (share, least) = BESIDE;
    let half = widest / 2.0 + (share * widest).max(least);
    let thickness = sizes.thickness;
    Figure {
        heading: "Recess, across the grain".into(),
        remark: "",
        section,
        window: Rect::new(
            -half,
            -thickness.max(thickness - sizes.over),
            half,
            top(section),
        ),
        shown: Shown::default(),
        axes: vec![(0.0, 0.0)],
        more: Vec::new(),
        sizes: written(board, sizes),
        names: Vec::new(),
        tallest: 80.0,
    }
}

/// Wood above the recess, its depth and width, the board's thickness, and the sizes of the lid where it has one.
fn written(board: &Board, sizes: &RecessSizes) -> Vec<Size> {
    let length = |mm| Measure::mm(mm).shown(board.units);
    let (half, under) = (sizes.width / 2.0, -sizes.thickness);
    let ceiling = -sizes.over;
    let over = if sizes.over < 0.0 {
        format!("{} out of the top", length(-sizes.over))
    } else {
        format!("{} over the recess", length(sizes.over))
    };
    let left = |heights: [f64; 2], words| Size::new(Side::Left, heights.map(|z| (-half, z)), words);
    let mut all = vec![
        left([0.0, ceiling], over),
        left(
            [ceiling, under],
            format!("recess {} deep", length(sizes.depth)),
        ),
        left([0.0, under], format!("board {}", length(sizes.thickness))),
        Size::new(
            Side::Below,
            [(-half, under), (half, under)],
            format!("recess {} wide", length(sizes.width)),
        ),
    ];
    if let Some(lid) = &sizes.lid {
        all.extend(of_lid(board, sizes, lid));
    }
    all
}

/// Thickness of the lid, its clearance, and the cuts for it: how far ledge or groove extend beyond the recess, how wide they
/// open in the underside, and for a dovetailed groove the width inside and the dovetail angle.
fn of_lid(board: &Board, sizes: &RecessSizes, lid: &LidPlace) -> Vec<Size> {
    let length = |mm| Measure::mm(mm).shown(board.units);
    let under = -sizes.thickness;
    let (mouth, inside) = (lid.mouth / 2.0, lid.inside / 2.0);
    let top = under + lid.thickness;
    let below = |from: (f64, f64), to: (f64, f64), words| Size::new(Side::Below, [from, to], words);
    let mut all = vec![
        Size::new(
            Side::Right,
            [(inside, top), (mouth, under)],
            format!("lid {}", length(lid.thickness)),
        ),
        Size::note(
            Side::Right,
            (mouth - lid.clearance / 4.0, under),
            format!("lid {} narrower than its place", length(lid.clearance)),
        ),
    ];
    let place = match board.recess.map(|recess| recess.lid_fit.hold) {
        Some(LidHold::Slides { .. }) => "groove",
        _ => "ledge",
    };
    if lid.overlap > HAIR {
        all.push(below(
            (sizes.width / 2.0, under),
            (mouth, under),
            format!("{place} {} beyond", length(lid.overlap)),
        ));
    }
    if lid.mouth > sizes.width + HAIR || lid.leans.is_some() {
        let words = format!("{place} {} wide below", length(lid.mouth));
        all.push(below((-mouth, under), (mouth, under), words));
    }
    if let Some(leans) = lid.leans {
        let words = format!("{} wide inside", length(lid.inside));
        all.push(below((-inside, top), (inside, top), words));
        let words = format!(
            "sides lean {}",
            Quantity::Angle.shown(leans.as_degrees(), board.units)
        );
        let flank = (f64::midpoint(mouth, inside), f64::midpoint(top, under));
        all.push(Size::note(Side::Right, flank, words));
    }
    all
}
