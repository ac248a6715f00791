//! Sheets of the maker's paper that a plan is cut into.
//!
//! Sheets share an overlap with each neighbor; the joint line runs along its middle. The grid of sheets is
//! shifted as far as its slack allows, so that no bore center lies on a joint.

use core::fmt::{self, Formatter};

use board::{Choice, HoleName, Paper, Template, Units, show_length};
use geometry::{best_joints, sheets_along};
use kurbo::{Point, Rect, Size};

use crate::template::correction::{printable, printable_size};
use crate::{Correction, TapedJoints, Workpiece, paper_size};

/// A plan cut into sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct Tiling {
    /// The paper as it goes through the printer, turned the better way.
    pub paper: Size,
    /// Border that stays white, mm.
    pub margin: f64,
    /// Overlap of neighboring sheets, mm.
    pub overlap: f64,
    /// Sheets side by side.
    pub columns: u32,
    /// Sheets above each other.
    pub rows: u32,
    /// The sheets that any of the board is on, row by row from the top left.
    pub tiles: Vec<Tile>,
    /// The bore whose center lies nearest a joint line, and how far from it; none without joints.
    pub nearest: Option<(HoleName, f64)>,
    /// The correction that takes the printer's errors out of the sheets, for paper that goes through as these do.
    pub correction: Option<Correction>,
}

/// One sheet's share of the board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tile {
    /// Counted from the left, from 0.
    pub column: u32,
    /// Counted from the top, from 0.
    pub row: u32,
    /// The part of the board that the sheet can show, in the board frame.
    pub window: Rect,
}

impl Tile {
    /// The name of the sheet: its row as a letter, its column as a number, as in B3.
    pub fn label(&self) -> String {
        let letter = char::from_digit(10 + self.row % 26, 36)
            .map_or('A', |letter| letter.to_ascii_uppercase());
        let again = self.row / 26;
        let more = if again == 0 {
            String::new()
        } else {
            again.to_string()
        };
        format!(
            "{letter}{more}{}{}",
            if again == 0 { "" } else { "-" },
            self.column + 1
        )
    }
}

/// Why a plan cannot be cut into sheets.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum TilingError {
    /// The margins leave nothing of the paper.
    #[error(fmt = nothing_left)]
    NoPaperLeft {
        /// Margin, mm.
        margin: f64,
        /// Width of the paper, mm.
        width: f64,
        /// Height of the paper, mm.
        height: f64,
    },
    /// The sheets do not advance, or are too many.
    #[error(fmt = board::say_geometry)]
    Geometry(#[from] geometry::Error),
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the error's derive passes its fields by reference"
)]
fn nothing_left(margin: &f64, width: &f64, height: &f64, f: &mut Formatter<'_>) -> fmt::Result {
    let units = Units::of(f);
    let [margin, width, height] = [margin, width, height].map(|mm| show_length(*mm, units));
    write!(
        f,
        "margins of {margin} leave nothing of paper {width} × {height}; smaller margins or larger paper would do"
    )
}

impl Tiling {
    /// Whether the paper lies on its long side.
    pub fn is_landscape(&self) -> bool {
        self.paper.width > self.paper.height
    }

    /// Where the sheets meet, in the board frame: the x of every upright joint line and the y of every level one, from
    /// the lower left.
    pub fn joints(&self) -> (Vec<f64>, Vec<f64>) {
        let half = self.overlap / 2.0;
        let mut upright: Vec<f64> = self
            .tiles
            .iter()
            .filter(|tile| tile.column > 0)
            .map(|tile| tile.window.x0 + half)
            .collect();
        let below = |tile: &&Tile| tile.row + 1 < self.rows;
        let mut level: Vec<f64> = self
            .tiles
            .iter()
            .filter(below)
            .map(|tile| tile.window.y0 + half)
            .collect();
        for joints in [&mut upright, &mut level] {
            joints.sort_by(f64::total_cmp);
            joints.dedup();
        }
        (upright, level)
    }

    /// The joints to tape, and their places.
    pub fn taped(&self) -> TapedJoints {
        let (upright, level) = self.joints();
        TapedJoints { upright, level }
    }

    /// The number of sheets and their paper, as in "12 sheets of A4".
    pub fn words(&self, paper: Paper) -> String {
        let count = self.tiles.len();
        let noun = if count == 1 { "sheet" } else { "sheets" };
        format!("{count} {noun} of {}", paper.words())
    }

    /// The part of a page that can be drawn on, in the page frame: where it is corrected for the printer, what is drawn
    /// there still comes to lie inside the margins.
    pub fn printable(&self) -> Rect {
        printable(self.paper, self.margin, self.correction.as_ref())
    }

    /// The tile at a place of the grid, if any of the board is on it.
    ///
    /// The corners of the grid are often empty, since a board is round.
    pub fn tile(&self, column: u32, row: u32) -> Option<&Tile> {
        self.tiles
            .iter()
            .find(|tile| tile.column == column && tile.row == row)
    }
}

/// Cuts the plan of a board into the fewest sheets of its template's paper, upright or turned.
///
/// Between two ways with equally many sheets the one whose joints stay farther from the bores is taken. Sheets that are
/// corrected for a printer hold less where the correction stretches them.
///
/// # Errors
/// [`TilingError`] where margins or overlap leave nothing to print on, or the sheets would be too many.
pub(crate) fn cut_template(workpiece: &Workpiece) -> Result<Tiling, TilingError> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let radius = board.blank.radius();
    let side = board.blank.diameter;
    let places = layout.holes.iter().map(|hole| (hole.name, hole.center));
    let drawn = Drawn {
        bounds: Rect::from_center_size(Point::ORIGIN, (side, side)),
        is_on: &|window| nearest_point(window).to_vec2().length() <= radius,
        places: &places.collect::<Vec<_>>(),
    };
    cut_into_sheets(&board.template, &drawn, workpiece.printer())
}

/// The drawing that is cut into sheets.
pub struct Drawn<'a> {
    /// All of it.
    pub bounds: Rect,
    /// Whether any of it lies in a window of its bounds.
    pub is_on: &'a dyn Fn(Rect) -> bool,
    /// The holes to drill, which keep off the joints.
    pub places: &'a [(HoleName, Point)],
}

/// Cuts anything into the fewest sheets of a template's paper, upright or turned.
///
/// ```
/// use board::{Paper, Template};
/// use kurbo::Rect;
/// use workshop::{Drawn, cut_into_sheets};
/// let template = Template { paper: Paper::A4, margin: 10.0, overlap: 10.0, ..Template::default() };
/// // A strip of 500 × 150 mm goes on two sheets that lie; upright it would take three.
/// let strip = Drawn { bounds: Rect::new(0.0, 0.0, 500.0, 150.0), is_on: &|_| true, places: &[] };
/// let tiling = cut_into_sheets(&template, &strip, None)?;
/// assert_eq!((tiling.columns, tiling.rows), (2, 1));
/// assert!(tiling.is_landscape());
/// # Ok::<(), workshop::TilingError>(())
/// ```
///
/// # Errors
/// [`TilingError`] where margins or overlap leave nothing to print on, or the sheets would be too many.
pub fn cut_into_sheets(
    template: &Template,
    drawn: &Drawn<'_>,
    printer: Option<&Correction>,
) -> Result<Tiling, TilingError> {
    let upright = paper_size(template.paper);
    let turned = Size::new(upright.height, upright.width);
    let cut = |paper| {
        let correction = printer.map(|correction| correction.on(paper));
        cut(template, drawn, paper, correction)
    };
    match (cut(upright), cut(turned)) {
        (Ok(first), Ok(second)) => Ok(if better(&second, &first) {
            second
        } else {
            first
        }),
        (Ok(only), Err(_)) | (Err(_), Ok(only)) => Ok(only),
        (Err(error), Err(_)) => Err(error),
    }
}

/// Whether one way of laying the paper is better: fewer sheets, then joints that keep farther from bores.
fn better(a: &Tiling, b: &Tiling) -> bool {
    let clearance = |tiling: &Tiling| tiling.nearest.map_or(f64::INFINITY, |(_, mm)| mm);
    let sheets = |tiling: &Tiling| tiling.tiles.len();
    sheets(a) < sheets(b) || (sheets(a) == sheets(b) && clearance(a) > clearance(b) + 1e-9)
}

/// The plan cut into sheets of paper that lies one way.
fn cut(
    template: &Template,
    drawn: &Drawn<'_>,
    paper: Size,
    correction: Option<Correction>,
) -> Result<Tiling, TilingError> {
    let (margin, overlap) = (template.margin, template.overlap);
    let printable = printable_size(paper, margin, correction.as_ref());
    if printable.width <= 0.0 || printable.height <= 0.0 {
        return Err(TilingError::NoPaperLeft {
            margin,
            width: paper.width,
            height: paper.height,
        });
    }
    let all = drawn.bounds;
    let columns = sheets_along(all.width(), printable.width, overlap)?;
    let rows = sheets_along(all.height(), printable.height, overlap)?;
    let (xs, ys): (Vec<f64>, Vec<f64>) = drawn.places.iter().map(|(_, at)| (at.x, at.y)).unzip();
    let across = best_joints(&xs, all.x0, all.x1, printable.width, overlap)?;
    let up = best_joints(&ys, all.y0, all.y1, printable.height, overlap)?;
    let nearest = [across.nearest, up.nearest]
        .into_iter()
        .flatten()
        .min_by(|a, b| a.1.total_cmp(&b.1));
    let nearest = nearest.and_then(|(at, mm)| Some((drawn.places.get(at)?.0, mm)));
    let grid = Grid {
        first: Point::new(across.origin, up.origin),
        printable,
        overlap,
        columns,
        rows,
    };
    Ok(Tiling {
        paper,
        margin,
        overlap,
        columns,
        rows,
        tiles: grid.tiles(drawn.is_on),
        nearest,
        correction,
    })
}

/// Sheets in columns and rows over a plan.
struct Grid {
    /// Lower left corner of the lower left sheet's printable part, in the board frame.
    first: Point,
    printable: Size,
    overlap: f64,
    columns: u32,
    rows: u32,
}

impl Grid {
    /// The part of the board that a sheet can show; rows count from the top.
    fn window(&self, column: u32, row: u32) -> Rect {
        let steps = Size::new(
            self.printable.width - self.overlap,
            self.printable.height - self.overlap,
        );
        let up = f64::from(self.rows - 1 - row);
        let corner = self.first + (steps.width * f64::from(column), steps.height * up);
        Rect::from_origin_size(corner, self.printable)
    }

    /// The tiles that anything is on, row by row from the top left.
    fn tiles(&self, is_on: &dyn Fn(Rect) -> bool) -> Vec<Tile> {
        let places =
            (0..self.rows).flat_map(|row| (0..self.columns).map(move |column| (column, row)));
        places
            .map(|(column, row)| Tile {
                column,
                row,
                window: self.window(column, row),
            })
            .filter(|tile| is_on(tile.window))
            .collect()
    }
}

/// The point of a box nearest the center pin.
fn nearest_point(window: Rect) -> Point {
    Point::new(
        0.0_f64.clamp(window.x0, window.x1),
        0.0_f64.clamp(window.y0, window.y1),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Blank, Board};

    fn cut_of(diameter: f64, paper: Paper) -> Tiling {
        let blank = Blank {
            diameter,
            thickness: 20.0,
            roundover: 0.0,
        };
        let template = Template {
            paper,
            ..Template::default()
        };
        let board = Board {
            blank,
            template,
            pitch: 19.0 * diameter / 600.0,
            ..Board::default()
        };
        Workpiece::of(&board).unwrap().tiling().unwrap().clone()
    }

    #[test]
    fn joints_lie_midway_in_what_neighbors_share() {
        let tiling = cut_of(500.0, Paper::A4);
        let (upright, level) = tiling.joints();
        assert_eq!(
            (upright.len() as u32, level.len() as u32),
            (tiling.columns - 1, tiling.rows - 1)
        );
        let (first, second) = (&tiling.tiles[0].window, &tiling.tiles[1].window);
        assert!((upright[0] - f64::midpoint(first.x1, second.x0)).abs() < 1e-9);
    }

    /// Sheets counted by hand from the printable part: 190 × 277 mm of an A4 with margins of 10, overlap 10.
    #[test]
    fn boards_take_as_many_sheets_as_counted_by_hand() {
        for (diameter, paper, sheets) in [
            (500.0, Paper::A4, 6),
            (500.0, Paper::Letter, 6),
            (600.0, Paper::A3, 6),
            (400.0, Paper::A3, 2),
            (280.0, Paper::A4, 4),
            (150.0, Paper::A4, 1),
        ] {
            let tiling = cut_of(diameter, paper);
            assert_eq!(
                tiling.columns * tiling.rows,
                sheets,
                "{diameter} on {paper:?}"
            );
        }
    }

    #[test]
    fn the_sheets_cover_the_board_and_share_their_overlap() {
        let tiling = cut_of(560.0, Paper::A4);
        let all = tiling
            .tiles
            .iter()
            .map(|tile| tile.window)
            .reduce(|a, b| a.union(b))
            .unwrap();
        assert!(
            all.contains_rect(Rect::new(-280.0, -280.0, 280.0, 280.0)),
            "{all:?}"
        );
        let (first, second) = (tiling.tile(0, 1).unwrap(), tiling.tile(1, 1).unwrap());
        assert!((first.window.x1 - second.window.x0 - 10.0).abs() < 1e-9);
        let (upper, lower) = (tiling.tile(1, 0).unwrap(), tiling.tile(1, 1).unwrap());
        assert!((lower.window.y1 - upper.window.y0 - 10.0).abs() < 1e-9);
    }

    #[test]
    fn the_nearest_bore_is_as_near_as_is_said() {
        let board = Board::default();
        let workpiece = Workpiece::of(&board).unwrap();
        let (holes, tiling) = (workpiece.layout(), workpiece.tiling().unwrap());
        let (name, said) = tiling.nearest.unwrap();
        let hole = holes.hole(name.id()).unwrap();
        let joints = |low: fn(&Rect) -> f64, at: f64| {
            let edges = tiling.tiles.iter().map(|tile| low(&tile.window));
            let inner: Vec<f64> = edges.collect();
            let first = inner.iter().copied().fold(f64::INFINITY, f64::min);
            inner
                .into_iter()
                .filter(|edge| *edge > first + 1.0)
                .map(|edge| (edge + 5.0 - at).abs())
                .fold(f64::INFINITY, f64::min)
        };
        let found = joints(|window| window.x0, hole.center.x)
            .min(joints(|window| window.y0, hole.center.y));
        assert!((found - said).abs() < 1e-9, "{found} {said}");
        assert!(said > 0.5, "{said}");
    }

    #[test]
    fn margins_that_leave_no_paper_are_refused() {
        let template = Template {
            margin: 100.0,
            paper: Paper::Custom {
                width: 150.0,
                height: 180.0,
            },
            ..Template::default()
        };
        let board = Board {
            template,
            ..Board::default()
        };
        let error = Workpiece::of(&board).unwrap().tiling().unwrap_err().clone();
        assert!(matches!(error, TilingError::NoPaperLeft { .. }), "{error}");
        let template = Template {
            overlap: 100.0,
            paper: Paper::Custom {
                width: 110.0,
                height: 110.0,
            },
            ..Template::default()
        };
        let board = Board {
            template,
            ..Board::default()
        };
        assert!(matches!(
            Workpiece::of(&board).unwrap().tiling(),
            Err(TilingError::Geometry(_))
        ));
    }

    #[test]
    fn labels_go_by_row_letter_and_column_number() {
        let tile = |column, row| {
            Tile {
                column,
                row,
                window: Rect::ZERO,
            }
            .label()
        };
        assert_eq!(tile(0, 0), "A1");
        assert_eq!(tile(2, 1), "B3");
        assert_eq!(tile(0, 25), "Z1");
        assert_eq!(tile(3, 26), "A1-4");
    }
}
