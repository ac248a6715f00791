//! The glue-up of the board: seams, strips, tenons and screws, in the board's frame.
//!
//! The grain runs from left to right, and so do the seams: a seam is a height above the center pin.
//!
//! Three widths are easily mixed up: the width of a piece in the glued panel; the width it is sawn to, which adds what the
//! jointer removes; and the width of the panel, which is the board plus the trim on both sides.

use board::{Board, Build, StockOutline, Tenons};
use geometry::{Angle, Circle, Point, Prism, RoundRect, circle_strips, point_at};

/// Height of each seam above the center pin, mm, from the lowest up.
pub(crate) fn seams(board: &Board) -> Vec<f64> {
    match &board.panel.build {
        Build::Whole => Vec::new(),
        Build::Halves => vec![0.0],
        Build::Strips { count } => {
            let width = panel_width(board);
            let share = |strip: u32| f64::from(strip) / f64::from(*count) - 0.5;
            (1..*count).map(|strip| width * share(strip)).collect()
        }
        Build::Seams { at } => {
            let mut at = at.clone();
            at.sort_by(f64::total_cmp);
            at
        }
    }
}

/// Width of the panel that the circle is cut from, mm: the board and its trim on both sides.
///
/// ```
/// use board::{Board, Build};
/// use workshop::{panel_width, piece_width, sawn_width};
/// let mut board = Board::default();
/// (board.blank.diameter, board.stock.trim, board.panel.joint) = (500.0, 5.0, 1.0);
/// board.panel.build = Build::Strips { count: 3 };
/// assert_eq!(panel_width(&board), 510.0);
/// assert_eq!(piece_width(&board), Some(170.0));
/// // Jointing takes 1 mm off either edge.
/// assert_eq!(sawn_width(&board), Some(172.0));
/// ```
pub fn panel_width(board: &Board) -> f64 {
    board.blank.diameter + 2.0 * board.stock.trim
}

/// Width of the glued pieces after glue-up, mm; none for a panel bought glued.
pub fn piece_width(board: &Board) -> Option<f64> {
    let pieces = match &board.panel.build {
        Build::Whole => 1,
        Build::Halves => 2,
        Build::Strips { count } => *count,
        Build::Seams { .. } => return None,
    };
    Some(panel_width(board) / f64::from(pieces))
}

/// Width to which such a piece is sawn, mm: it includes what jointing removes from each glued edge.
pub fn sawn_width(board: &Board) -> Option<f64> {
    let edges = match board.panel.build {
        Build::Whole => 0.0,
        Build::Halves | Build::Strips { count: 2 } => 1.0,
        Build::Strips { .. } | Build::Seams { .. } => 2.0,
    };
    Some(piece_width(board)? + edges * board.panel.joint)
}

/// Strips of one length: the length to which they are sawn at least, mm, and their numbers, counted from the lowest in the
/// board up.
#[derive(Debug, Clone, PartialEq)]
pub struct StripsOfLength {
    /// The least length, mm.
    pub length: f64,
    /// Their numbers, from 1.
    pub numbers: Vec<u32>,
}

/// The strips of a board by their length, the longest first; empty for a board that is not made of strips.
///
/// On a measured blank a strip away from the middle is only as long as the circle needs there, which is how its place is found.
/// Of lumber that is bought all are as long as the panel is wide: they are easier to glue up.
pub fn strip_lengths(board: &Board) -> Vec<StripsOfLength> {
    let Build::Strips { count } = board.panel.build else {
        return Vec::new();
    };
    let wide = panel_width(board);
    let is_measured = board.stock.outline != StockOutline::Unknown;
    let strips = circle_strips(wide, count, board.panel.joint);
    let mut lengths: Vec<StripsOfLength> = Vec::new();
    for (strip, number) in strips.into_iter().zip(1..) {
        let length = if is_measured { strip.length } else { wide };
        match lengths
            .iter_mut()
            .find(|of| (of.length - length).abs() < 1e-6)
        {
            Some(of) => of.numbers.push(number),
            None => lengths.push(StripsOfLength {
                length,
                numbers: vec![number],
            }),
        }
    }
    lengths.sort_by(|a, b| b.length.total_cmp(&a.length));
    lengths
}

/// A loose tenon in its two mortises, seen from above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TenonPlace {
    /// Its outline, centered on the seam.
    pub outline: RoundRect,
    /// Its position relative to the finished edge.
    pub place: EdgePlace,
}

impl TenonPlace {
    /// Its two mortises.
    pub(crate) const fn mortise(&self, tenons: &Tenons) -> Prism {
        Prism {
            outline: self.outline,
            top: tenons.below_top,
            bottom: tenons.below_top + tenons.thickness,
        }
    }
}

/// Position of something relative to the edge of the finished board.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EdgePlace {
    /// Within it.
    Inside,
    /// The edge cuts through it.
    Cut,
    /// Outside it, in the waste.
    Outside,
}

/// Every tenon of the panel, seam by seam.
pub(crate) fn tenons(board: &Board, seams: &[f64]) -> Vec<TenonPlace> {
    let Some(tenons) = board.panel.tenons else {
        return Vec::new();
    };
    let middle = f64::from(tenons.count - 1) / 2.0;
    let along = |at: u32| (f64::from(at) - middle) * tenons.spacing;
    let on_seam = |seam: f64| {
        (0..tenons.count).map(move |at| {
            let sides = (tenons.length, 2.0 * tenons.reach);
            let outline = RoundRect::new(Point::new(along(at), seam), sides, 0.0);
            let place = edge_place(&outline, board.blank.radius());
            TenonPlace { outline, place }
        })
    };
    seams.iter().copied().flat_map(on_seam).collect()
}

/// Position of an outline relative to the edge of a disc about the pin, by its farthest corner and its nearest point.
fn edge_place(outline: &RoundRect, radius: f64) -> EdgePlace {
    if outline.farthest() <= radius {
        EdgePlace::Inside
    } else if outline.away(Point::ORIGIN) >= radius {
        EdgePlace::Outside
    } else {
        EdgePlace::Cut
    }
}

/// A screw in the underside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScrewPlace {
    /// Its position and diameter.
    pub circle: Circle,
    /// Depth in the underside.
    pub depth: f64,
}

impl ScrewPlace {
    /// The body of the screw, in a board of this thickness.
    pub(crate) fn prism(&self, thickness: f64) -> Prism {
        Prism {
            outline: self.circle.into(),
            top: thickness - self.depth,
            bottom: thickness,
        }
    }
}

/// Every screw in the underside, seen from the top face.
pub(crate) fn screws(board: &Board) -> Vec<ScrewPlace> {
    let on_circle = |ring: &board::ScrewCircle| {
        let ring = *ring;
        (0..ring.count).map(move |at| {
            let turn = Angle::turn_part(i64::from(at), i64::from(ring.count));
            let bearing = Angle::degrees(ring.bearing + turn.as_degrees());
            ScrewPlace {
                circle: Circle::new(point_at(ring.circle / 2.0, bearing), ring.diameter / 2.0),
                depth: ring.depth,
            }
        })
    };
    board.screws.iter().flat_map(on_circle).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn places_on(board: &Board) -> Vec<TenonPlace> {
        tenons(board, &seams(board))
    }

    use board::{Panel, ScrewCircle, Tenons};
    use testkit::assert_near;

    fn built(build: Build) -> Board {
        let panel = Panel {
            build,
            tenons: Some(Tenons::default()),
            ..Panel::default()
        };
        let mut board = Board {
            panel,
            ..Board::default()
        };
        board.blank.diameter = 560.0;
        board
    }

    #[test]
    fn strips_share_the_panel_evenly() {
        // 560 mm and 5 mm of trim on each side: three strips of 190 mm.
        let board = built(Build::Strips { count: 3 });
        let seams = seams(&board);
        assert_near!(seams[0], -95.0, 1e-9);
        assert_near!(seams[1], 95.0, 1e-9);
        assert_near!(piece_width(&board).unwrap(), 190.0, 1e-9);
        assert_near!(sawn_width(&board).unwrap(), 193.0, 1e-9);
        assert_near!(sawn_width(&built(Build::Halves)).unwrap(), 286.5, 1e-9);
    }

    #[test]
    fn tenons_are_spaced_evenly_about_the_middle_of_each_seam() {
        let places = places_on(&built(Build::Strips { count: 3 }));
        assert_eq!(places.len(), 6);
        assert_near!(places[0].outline.middle.x, -150.0, 1e-12);
        assert_near!(places[0].outline.middle.y, -95.0, 1e-9);
        assert!(places.iter().all(|tenon| tenon.place == EdgePlace::Inside));
        assert_near!(places[1].outline.away(Point::new(0.0, -50.0)), 25.0, 1e-9);
        assert_near!(places[1].outline.away(Point::new(23.0, -71.0)), 5.0, 1e-9);
    }

    #[test]
    fn the_edge_cuts_tenons_that_reach_over_it() {
        let mut board = built(Build::Halves);
        board.panel.tenons = Some(Tenons {
            spacing: 275.0,
            ..Tenons::default()
        });
        let places = places_on(&board);
        assert_eq!(places[1].place, EdgePlace::Inside);
        assert_eq!(places[0].place, EdgePlace::Cut);
        board.blank.diameter = 400.0;
        assert_eq!(places_on(&board)[2].place, EdgePlace::Outside);
    }

    #[test]
    fn screws_are_evenly_spaced_on_their_circle() {
        let board = Board {
            screws: vec![ScrewCircle::default()],
            ..Board::default()
        };
        let places = screws(&board);
        assert_eq!(places.len(), 4);
        let corner = 50.0 * libm::sqrt(0.5);
        assert_near!(places[0].circle.center.x, corner, 1e-12);
        assert_near!(places[1].circle.center.y, -corner, 1e-12);
    }
}
