//! The key sizes of a board, which are always in sight.

use board::{Board, HoleName, Layout};
use geometry::Circle;

use crate::Workpiece;

/// The key sizes of a board, which are always in sight; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// Holes to drill.
    pub holes: usize,
    /// The least wood between two bores; `None` with fewer than two holes.
    pub smallest_web: Option<ThinnestWood>,
    /// The least wood between a bore and the start of the roundover, mm, and the bore's hole; `None` without holes.
    pub smallest_rim: Option<(f64, HoleName)>,
    /// Distance of the farthest hole center from the center pin.
    pub reach: f64,
}

/// The place where the wood between two bores is thinnest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThinnestWood {
    /// The wood between the bores, mm; negative if they overlap.
    pub mm: f64,
    /// The two holes.
    pub holes: [HoleName; 2],
}

/// Measures a laid-out board.
pub(crate) fn figures(workpiece: &Workpiece) -> Figures {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    Figures {
        holes: layout.holes.len(),
        smallest_web: smallest_web(layout, workpiece.mouths()),
        smallest_rim: smallest_rim(board, layout),
        reach: layout
            .holes
            .iter()
            .map(|hole| hole.center.to_vec2().length())
            .fold(0.0, f64::max),
    }
}

/// The least wood between two bores.
fn smallest_web(layout: &Layout, mouths: &[Circle]) -> Option<ThinnestWood> {
    let web = geometry::smallest_web(mouths)?;
    Some(ThinnestWood {
        mm: web.mm,
        holes: [layout.holes.get(web.a)?.name, layout.holes.get(web.b)?.name],
    })
}

/// The least wood between a bore and the roundover, mm, and the bore's hole.
fn smallest_rim(board: &Board, layout: &Layout) -> Option<(f64, HoleName)> {
    let flat = board.blank.flat_radius();
    let rims = layout
        .holes
        .iter()
        .map(|hole| (rim_margin(flat, hole.mouth()), hole.name));
    rims.min_by(|a, b| a.0.total_cmp(&b.0))
}

/// Wood between a bore and the circle of radius `flat` where the roundover begins, mm; negative beyond it.
pub(crate) fn rim_margin(flat: f64, mouth: Circle) -> f64 {
    flat - mouth.center.to_vec2().length() - mouth.radius
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Blank;
    use testkit::assert_near;

    /// A ring of 96 holes at pitch 19: R = 19 / (2 sin(180/96)).
    #[test]
    fn the_sizes_of_a_ring_follow_its_formula() {
        let plain = Board {
            start: 0,
            home: 0,
            center: board::Center::Nothing,
            ..Board::default()
        };
        let board = Board {
            blank: Blank {
                diameter: 680.0,
                thickness: 20.0,
                roundover: 5.0,
            },
            ..plain
        };
        let figures = figures(&Workpiece::of(&board).unwrap());
        let radius = geometry::ring_radius(19.0, 96);
        assert_eq!(figures.holes, 96);
        assert_near!(figures.reach, radius, 1e-9);
        assert_near!(figures.smallest_web.unwrap().mm, 19.0 - 12.0, 1e-9);
        assert_near!(figures.smallest_rim.unwrap().0, 335.0 - radius - 6.0, 1e-9);
    }
}
