//! Things on the board that a measurement can start or end at.

use board::{HoleId, Layout};
use geometry::{Angle, Circle, Point, bearing_of};
use workshop::Workpiece;

/// A thing that a measurement starts or ends at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum End {
    /// The center pin, where no hole is drilled at the center.
    Pin,
    /// The center of a hole.
    Center(HoleId),
    /// The edge of a bore, at the point nearest to the other end.
    Edge(HoleId),
    /// The edge of the board, pointed at on a bearing.
    Rim(Angle),
    /// A seam, by its index from the lowest.
    Seam(usize),
}

impl End {
    /// Its name beside a measurement.
    ///
    /// ```
    /// use board::Board;
    /// use drawing::End;
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&Board::default())?;
    /// let hole = "T1-3".parse().unwrap();
    /// assert_eq!(End::Center(hole).words(&workpiece), "T1-03");
    /// assert_eq!(End::Edge(hole).words(&workpiece), "edge of T1-03");
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn words(&self, workpiece: &Workpiece) -> String {
        let name = |id: HoleId| {
            let hole = workpiece.layout().hole(id);
            hole.map_or_else(|| id.to_string(), |hole| hole.name.to_string())
        };
        match self {
            Self::Pin => "center pin".into(),
            Self::Center(id) => name(*id),
            Self::Edge(id) => format!("edge of {}", name(*id)),
            Self::Rim(_) => "edge of the board".into(),
            Self::Seam(_) if workpiece.seams().len() == 1 => "seam".into(),
            Self::Seam(at) => format!("seam {}", at + 1),
        }
    }
}

/// The end of a measurement at a point on the board; `None` if there is only wood. `slack` is how far from a thing the point
/// may be, mm.
///
/// The inner half of a bore selects its center, the rest its edge.
///
/// ```
/// use board::Board;
/// use drawing::{End, end_at};
/// use geometry::{Angle, Point};
/// use workshop::Workpiece;
/// let board = Board::default();
/// let workpiece = Workpiece::of(&board)?;
/// let hole = workpiece.layout().holes[0];
/// assert_eq!(end_at(&workpiece, hole.center, 1.0), Some(End::Center(hole.name.id())));
/// let edge = hole.center + (hole.bore.radius(), 0.0);
/// assert_eq!(end_at(&workpiece, edge, 1.0), Some(End::Edge(hole.name.id())));
/// let rim = Point::new(0.0, board.blank.radius() + 0.5);
/// assert_eq!(end_at(&workpiece, rim, 1.0), Some(End::Rim(Angle::ZERO)));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn end_at(workpiece: &Workpiece, at: Point, slack: f64) -> Option<End> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    if let Some((mouth, id)) = bore_at(layout, at, slack) {
        let is_inner = at.distance(mouth.center) <= mouth.radius / 2.0;
        return Some(if is_inner {
            End::Center(id)
        } else {
            End::Edge(id)
        });
    }
    let reach = at.to_vec2().length();
    if reach <= 1.5 * slack {
        return Some(End::Pin);
    }
    if (reach - board.blank.radius()).abs() <= slack {
        return Some(End::Rim(bearing_of(at)));
    }
    let miss = |seam: &f64| (seam - at.y).abs();
    let seams = workpiece.seams().iter().map(miss).enumerate();
    let near = seams.filter(|(_, miss)| *miss <= slack && reach <= board.blank.radius());
    near.min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(place, _)| End::Seam(place))
}

/// The mouth of the bore at a point, with its hole.
pub(super) fn bore_at(layout: &Layout, at: Point, slack: f64) -> Option<(Circle, HoleId)> {
    let miss = |mouth: Circle| mouth.center.distance(at) - mouth.radius;
    let mouths = layout
        .holes
        .iter()
        .map(|hole| (hole.mouth(), hole.name.id()));
    let near = mouths.filter(|(mouth, _)| miss(*mouth) <= slack);
    near.min_by(|a, b| miss(a.0).total_cmp(&miss(b.0)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Build, Center};

    #[test]
    fn the_pin_and_seams_are_found_between_holes() {
        let mut board = Board {
            center: Center::Nothing,
            ..Board::default()
        };
        board.panel.build = Build::Seams {
            at: vec![90.0, -47.0],
        };
        let workpiece = Workpiece::of(&board).unwrap();
        let at = |x, y| end_at(&workpiece, Point::new(x, y), 2.0);
        assert_eq!(at(1.0, -1.0), Some(End::Pin));
        assert_eq!(at(30.0, -46.0), Some(End::Seam(0)));
        assert_eq!(at(30.0, 91.0), Some(End::Seam(1)));
        assert_eq!(at(30.0, -20.0), None);
        // Off the board a seam is in the waste.
        assert_eq!(at(340.0, 91.0), None);
        assert_eq!(End::Seam(1).words(&workpiece), "seam 2");
    }
}
