//! The board on its blank: where it lies best, how large a board the blank yields, and what joining would yield.
//!
//! The blank keeps the frame in which it was measured; only the place of the center pin leads from that frame to the board's.
//! The searches are those of crate `geometry`: exact for the board in one piece and for halves, a heuristic for strips.

use core::fmt::{self, Formatter};

use board::{Board, Build, FlawShape, Stock, Units, show_length};
use geometry::{Circle, Disc, Flaw, HalfDisc, Outline, OutlineError, Point, Stopped, StripPlace};

use crate::blank::panel::panel_width;

/// The blank as it was measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Slab {
    /// Its outline.
    pub outline: Outline,
    /// Flaws to keep off the board.
    pub flaws: Vec<Flaw>,
}

/// The reason why a board cannot be placed: the typed outline is invalid.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SlabError {
    /// The blank's outline is invalid.
    #[error("the outline of the blank: {0}")]
    Outline(OutlineError),
    /// Live edges that leave no wood between them.
    #[error(fmt = edges_meet)]
    Waney {
        /// Place along the blank, mm.
        x: f64,
    },
    /// The outline of a flaw is invalid.
    #[error("the outline of flaw {number}: {reason}")]
    Flaw {
        /// Its place in the list, from 1.
        number: usize,
        /// The fault of the outline.
        reason: OutlineError,
    },
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the error's derive passes its fields by reference"
)]
/// Writes the message about live edges that meet at a place along the slab, mm.
fn edges_meet(x: &f64, f: &mut Formatter<'_>) -> fmt::Result {
    let x = show_length(x.round(), Units::of(f));
    write!(
        f,
        "the live edges leave no wood between them {x} from the left end; use smaller offsets or a wider blank"
    )
}

/// The blank as it was measured; `None` if it is not described.
///
/// # Errors
/// [`SlabError`] where an outline crosses itself, has no area, or too many corners.
pub fn slab(stock: &Stock) -> Result<Option<Slab>, SlabError> {
    let Some(corners) = stock.outline.corners() else {
        return Ok(None);
    };
    if let Some(x) = stock.outline.edges_meet() {
        return Err(SlabError::Waney { x });
    }
    let outline = outline_of(&corners).map_err(SlabError::Outline)?;
    let flaws = stock.flaws.iter().zip(1..).map(|(flaw, number)| {
        let area = |reason| SlabError::Flaw { number, reason };
        Ok(match &flaw.shape {
            FlawShape::Round { x, y, diameter } => {
                Flaw::Round(Circle::new((*x, *y), diameter / 2.0))
            }
            FlawShape::Area { corners } => Flaw::Area(outline_of(corners).map_err(area)?),
        })
    });
    Ok(Some(Slab {
        flaws: flaws.collect::<Result<_, _>>()?,
        outline,
    }))
}

/// The typed corners, in mm from any origin, as an outline.
fn outline_of(corners: &[[f64; 2]]) -> Result<Outline, OutlineError> {
    Outline::new(corners.iter().map(|[x, y]| Point::new(*x, *y)).collect())
}

/// Where the board lies on its blank.
#[derive(Debug, Clone, PartialEq)]
pub struct StockPlan {
    /// The blank, or the reason why it is invalid.
    pub slab: Result<Slab, SlabError>,
    /// The largest disc of sound wood; `None` if there is no wood.
    pub best: Option<Disc>,
}

impl StockPlan {
    /// The position of the center pin: the one that was typed, or the best one.
    pub fn center(&self, board: &Board) -> Option<Point> {
        let typed = board.stock.place.map(|[x, y]| Point::new(x, y));
        typed.or_else(|| Some(self.best.as_ref()?.circle.center))
    }

    /// Radius of the largest disc of sound wood around the center pin, mm; negative off the wood.
    pub fn room(&self, board: &Board) -> Option<f64> {
        let slab = self.slab.as_ref().ok()?;
        match board.stock.place {
            Some([x, y]) => Some(geometry::clearance(
                &slab.outline,
                &slab.flaws,
                Point::new(x, y),
            )),
            None => Some(self.best.as_ref()?.circle.radius),
        }
    }

    /// Diameter of the largest board in one piece less the trim, mm; 0 if the blank yields none.
    pub fn largest_board(&self, board: &Board) -> f64 {
        let radius = self.best.as_ref().map_or(0.0, |disc| disc.circle.radius);
        board_from(radius, board)
    }
}

/// The diameter of the board that a disc of this radius leaves after trim, mm.
fn board_from(radius: f64, board: &Board) -> f64 {
    (2.0 * (radius - board.stock.trim)).max(0.0)
}

/// The number of corners and round flaws of a blank, which decides how long its search takes.
pub fn corners(stock: &Stock) -> usize {
    let flaw = |flaw: &board::StockFlaw| match &flaw.shape {
        FlawShape::Round { .. } => 1,
        FlawShape::Area { corners } => corners.len(),
    };
    let outline = stock.outline.corners().map_or(0, |corners| corners.len());
    outline + stock.flaws.iter().map(flaw).sum::<usize>()
}

/// The place of the board on its blank; `None` if the blank is not described.
///
/// # Errors
/// [`Stopped`] when `cancel` returned true.
pub fn stock_plan(stock: &Stock, cancel: &dyn Fn() -> bool) -> Result<Option<StockPlan>, Stopped> {
    let slab = match slab(stock) {
        Ok(None) => return Ok(None),
        Ok(Some(slab)) => slab,
        Err(error) => {
            return Ok(Some(StockPlan {
                slab: Err(error),
                best: None,
            }));
        }
    };
    Ok(Some(StockPlan {
        best: geometry::largest_disc(&slab.outline, &slab.flaws, cancel)?,
        slab: Ok(slab),
    }))
}

/// The boards that joining makes from a blank.
#[derive(Debug, Clone, PartialEq)]
pub struct Joined {
    /// Half a disc for each of two bookmatched leaves; `None` if there is no wood.
    pub half: Option<HalfDisc>,
    /// The largest board of two bookmatched halves, mm.
    pub halves: f64,
    /// The largest boards of 2, 3, … strips, mm.
    pub strips: Vec<StripBoard>,
    /// Where this board's own strips are sawn; `None` if it is not made of strips or no way was found.
    pub places: Option<Vec<StripPlace>>,
}

/// The largest board from a number of strips.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripBoard {
    /// Number of strips.
    pub count: u32,
    /// Diameter of the largest board, mm; 0 if there is no wood for it.
    pub diameter: f64,
}

/// The most strips that [`joined`] tries.
const MOST_STRIPS: u32 = 8;

/// The boards that joining makes from a blank. For outlines of many corners this takes a moment.
///
/// # Errors
/// [`Stopped`] when `cancel` returned true.
pub fn joined(board: &Board, slab: &Slab, cancel: &dyn Fn() -> bool) -> Result<Joined, Stopped> {
    let panel = &board.panel;
    let Slab { outline, flaws } = slab;
    let half = geometry::best_half(outline, flaws, panel.joint, cancel)?;
    let strips = (2..=MOST_STRIPS).map(|count| {
        let (joint, kerf) = (panel.joint, panel.kerf);
        let most = geometry::most_from_strips(outline, flaws, count, joint, kerf, cancel)?;
        Ok(StripBoard {
            count,
            diameter: board_from(most / 2.0, board),
        })
    });
    Ok(Joined {
        half,
        halves: half.map_or(0.0, |half| board_from(half.radius, board)),
        strips: strips.collect::<Result<_, _>>()?,
        places: strips_of(board, slab),
    })
}

/// Where this board's own strips are sawn from a blank; `None` if it is not made of strips, or no way is found.
pub(crate) fn strips_of(board: &Board, slab: &Slab) -> Option<Vec<StripPlace>> {
    let Build::Strips { count } = board.panel.build else {
        return None;
    };
    let strips = geometry::circle_strips(panel_width(board), count, board.panel.joint);
    geometry::lay_strips(&slab.outline, &slab.flaws, &strips, board.panel.kerf)
}

/// The number of boards, up to a most, whose strips are sawn from one blank like the measured one; 1 for boards that are not
/// made of strips, and for outlines of so many corners that the search would take a moment.
///
/// It is found by the search that places the strips of one board, so that a sharp eye may find room for more.
pub(crate) fn boards_of_blank(board: &Board, most: u32) -> u32 {
    /// Most corners of an outline that is searched.
    const MOST_CORNERS: usize = 300;
    /// Most boards that are tried: more are hardly sawn from one slab.
    const MOST_BOARDS: u32 = 12;
    let (Build::Strips { count }, Ok(Some(slab))) = (&board.panel.build, slab(&board.stock)) else {
        return 1;
    };
    if slab.outline.corners().len() > MOST_CORNERS {
        return 1;
    }
    let one = geometry::circle_strips(panel_width(board), *count, board.panel.joint);
    let fits = |boards: &u32| {
        let strips = one.repeat(*boards as usize);
        geometry::lay_strips(&slab.outline, &slab.flaws, &strips, board.panel.kerf).is_some()
    };
    let more = (2..=most.min(MOST_BOARDS)).take_while(fits);
    more.last().unwrap_or(1)
}

/// Thickness of each of two leaves that the blank is resawn into, mm: half of the thickness less the kerf.
///
/// ```
/// let mut board = board::Board::default();
/// (board.stock.thickness, board.panel.kerf) = (50.0, 3.0);
/// assert_eq!(workshop::leaf_thickness(&board), 23.5);
/// ```
pub fn leaf_thickness(board: &Board) -> f64 {
    (board.stock.thickness - board.panel.kerf).max(0.0) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{FlawKind, StockFlaw, StockOutline};
    use testkit::assert_near;

    fn on_slab(length: f64, width: f64) -> Board {
        let mut board = Board::default();
        board.blank.diameter = 560.0;
        board.stock.outline = StockOutline::Slab {
            length,
            width,
            lower: vec![],
            upper: vec![],
        };
        board
    }

    fn plan(board: &Board) -> StockPlan {
        stock_plan(&board.stock, &|| false).unwrap().unwrap()
    }

    #[test]
    fn a_slab_gives_a_board_of_its_width_less_the_trim() {
        let board = on_slab(900.0, 600.0);
        assert_near!(plan(&board).largest_board(&board), 590.0, 1e-6);
        assert_eq!(stock_plan(&Board::default().stock, &|| false), Ok(None));
    }

    #[test]
    fn a_typed_place_is_used_unchanged() {
        let mut board = on_slab(900.0, 600.0);
        board.stock.place = Some([290.0, 300.0]);
        assert_near!(plan(&board).room(&board).unwrap(), 290.0, 1e-9);
    }

    #[test]
    fn invalid_outlines_are_named() {
        let mut board = on_slab(900.0, 600.0);
        let corners = vec![[0.0, 0.0], [9.0, 9.0], [9.0, 0.0], [0.0, 9.0]];
        board.stock.flaws = vec![StockFlaw {
            kind: FlawKind::Crack,
            shape: FlawShape::Area { corners },
        }];
        let error = plan(&board).slab.unwrap_err().to_string();
        assert!(error.starts_with("the outline of flaw 1"), "{error}");
    }

    #[test]
    fn joining_a_narrow_slab_gives_a_larger_board() {
        let mut board = on_slab(1300.0, 300.0);
        board.panel.build = Build::Strips { count: 2 };
        let slab = slab(&board.stock).unwrap().unwrap();
        let joined = joined(&board, &slab, &|| false).unwrap();
        // The width less what jointing removes, doubled, less the trim.
        assert_near!(joined.halves, 2.0 * (298.5 - 5.0), 0.2);
        // Two strips end to end: each as wide as the slab less one joint, as the outer edges are not glued.
        assert_near!(joined.strips[0].diameter, 2.0 * 298.5 - 10.0, 0.1);
        assert_eq!(joined.places.unwrap().len(), 2);
    }

    /// Strips 1/3 of 570 mm wide and two joints, in three bands with kerfs between, take 585 mm of the width; two of 570 mm lie
    /// end to end on 1143.2 mm, and three do not.
    #[test]
    fn one_slab_gives_strips_for_several_boards() {
        let mut board = on_slab(1200.0, 610.0);
        board.panel.build = Build::Strips { count: 3 };
        assert_eq!(boards_of_blank(&board, 3), 2);
        assert_eq!(boards_of_blank(&board, 1), 1);
        board.stock.outline = on_slab(1100.0, 610.0).stock.outline;
        assert_eq!(boards_of_blank(&board, 3), 1);
        board.panel.build = Build::Whole;
        assert_eq!(boards_of_blank(&board, 3), 1);
    }
}
