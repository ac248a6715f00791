//! Cutting a plan into sheets: the position of the grid, and the orientation of the paper.
//!
//! Two aims conflict: joints should be far from holes, and sheets should be few. The grid with the widest clearance is found
//! first; where few sheets are wanted, the other grids have to beat it.

use board::{HoleName, SheetLayout, Template};
use geometry::{JointPlace, MOST_SHEETS, SheetRow, best_joints, sheets_along};
use kurbo::{Point, Rect, Size};

use super::grid::{Grid, Kept};
use super::{Tiling, TilingError};
use crate::template::correction::printable_size;
use crate::{Correction, Workpiece, paper_size};

/// Width of the edge that may be on no sheet, from the rim inward, mm: the roundover removes about as much.
const SLIVER: f64 = 5.0;
/// Room around a hole that its sheet shows too, mm.
const AROUND: f64 = 3.0;
/// Least distance of joints from the center of every hole, wherever the sheets are, if the board allows it, mm.
const LEAST_CLEAR: f64 = 2.0;
/// Clearances that differ by less count as equal, mm.
const TIE: f64 = 1e-9;
/// A drawing that extends beyond the sheets by less is still on them, mm.
pub(super) const FUZZ: f64 = 1e-6;
/// A disc that extends into a window by less only touches it, mm².
const TOUCHING: f64 = 1e-6;

/// Cuts the plan of a board into sheets of its template's paper, upright or turned.
///
/// Sheets that are corrected for a printer hold less where the correction stretches them.
///
/// # Errors
/// [`TilingError`] where margins or overlap leave nothing to print on, or the sheets would be too many.
pub(crate) fn cut_template(workpiece: &Workpiece) -> Result<Tiling, TilingError> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let (edge, needed) = (board.blank.radius(), needed_radius(workpiece));
    let places = layout.holes.iter().map(|hole| (hole.name, hole.center));
    let drawn = Drawn {
        all: DrawnPart {
            bounds: square(edge),
            is_on: &|window| is_on_disc(window, edge),
            core: edge,
        },
        needed: DrawnPart {
            bounds: square(needed),
            is_on: &|window| is_on_disc(window, needed),
            core: needed,
        },
        places: &places.collect::<Vec<_>>(),
    };
    cut_into_sheets(&board.template, &drawn, workpiece.printer())
}

/// The radius of everything that the sheets must show: every hole, as wide as in a router template, a groove inside the rim,
/// and all of the board except a sliver of its edge.
fn needed_radius(workpiece: &Workpiece) -> f64 {
    let board = workpiece.board();
    let wider = board
        .router
        .map_or(0.0, |router| router.wider().max(0.0) / 2.0);
    let mouths = workpiece.mouths().iter();
    let reach = mouths.map(|mouth| mouth.center.to_vec2().length() + mouth.radius);
    let holes = reach.fold(0.0, f64::max) + wider + AROUND;
    let rim = board.grooves.as_ref().and_then(|grooves| grooves.rim);
    let groove = rim.map_or(0.0, |rim| board.blank.flat_radius() - rim);
    let edge = board.blank.radius();
    (edge - SLIVER).max(holes).max(groove).min(edge)
}

/// The box around a disc about the center pin.
pub(super) fn square(radius: f64) -> Rect {
    Rect::from_center_size(Point::ORIGIN, (2.0 * radius, 2.0 * radius))
}

/// Whether any part of a disc about the center pin is in a window.
pub(super) fn is_on_disc(window: Rect, radius: f64) -> bool {
    let nearest = Point::new(
        0.0_f64.clamp(window.x0, window.x1.max(window.x0)),
        0.0_f64.clamp(window.y0, window.y1.max(window.y0)),
    );
    let is_area = window.width() > 0.0 && window.height() > 0.0;
    is_area && nearest.to_vec2().length_squared() < radius * radius - TOUCHING
}

/// A drawing to be cut into sheets.
pub struct Drawn<'a> {
    /// The whole drawing.
    pub all: DrawnPart<'a>,
    /// The part that no sheet may leave out, even where that would save a sheet.
    pub needed: DrawnPart<'a>,
    /// The holes to drill, which joints keep clear of.
    pub places: &'a [(HoleName, Point)],
}

/// All or part of a drawing that is cut into sheets.
#[derive(Clone, Copy)]
pub struct DrawnPart<'a> {
    /// The box around it.
    pub bounds: Rect,
    /// Whether any of it is in a window.
    pub is_on: &'a dyn Fn(Rect) -> bool,
    /// Radius of a disc about the center pin that belongs to it entirely, mm; 0 if there is none. A sheet that alone shows some
    /// of that disc cannot be dropped, which rules out most grids of a search at once.
    pub core: f64,
}

/// Cuts anything into sheets of a template's paper, upright or turned, as the template asks: into the fewest, or with joints that
/// keep farthest from the holes.
///
/// The fewest sheets may leave out parts that are not needed. Their joints keep 2 mm from every hole center, or as far as the
/// joints of the widest clearance where that is less.
///
/// ```
/// use board::{Paper, Template};
/// use kurbo::Rect;
/// use workshop::{Drawn, DrawnPart, cut_into_sheets};
/// let template = Template { paper: Paper::A4, margin: 10.0, overlap: 10.0, ..Template::default() };
/// // A strip of 500 × 150 mm fits on two landscape sheets; upright it would take three.
/// let all = DrawnPart { bounds: Rect::new(0.0, 0.0, 500.0, 150.0), is_on: &|_| true, core: 0.0 };
/// let tiling = cut_into_sheets(&template, &Drawn { all, needed: all, places: &[] }, None)?;
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
    let way = |paper| Way::of(template, drawn, paper, printer);
    let ways = [way(upright), way(turned)];
    let widest = |way: &Result<Way, TilingError>| match way {
        Ok(way) => way.widest(drawn),
        Err(error) => Err(error.clone()),
    };
    let (at, mut best) = match (widest(&ways[0]), widest(&ways[1])) {
        (Ok(first), Ok(second)) if second.is_better(&first) => (1, second),
        (Ok(first), _) => (0, first),
        (Err(_), Ok(second)) => (1, second),
        (Err(error), Err(_)) => return Err(error),
    };
    let mut chosen = ways[at].as_ref().map_err(Clone::clone)?;
    if template.layout == SheetLayout::Fewest {
        let least = best.clear.min(LEAST_CLEAR);
        for way in ways.iter().flatten() {
            if let Some(better) = way.fewer(drawn, least, &best)? {
                (chosen, best) = (way, better);
            }
        }
    }
    Ok(chosen.tiling(template, drawn, &best))
}

/// Paper in one orientation.
struct Way {
    paper: Size,
    printable: Size,
    overlap: f64,
    correction: Option<Correction>,
    /// Coordinates of the holes, across and up.
    coordinates: [Vec<f64>; 2],
}

/// A position of a row of sheets that a search tries.
struct Tried {
    place: JointPlace,
    /// For each sheet, the least squared distance (mm²) from the center pin along the row, over what no other sheet shows.
    near: Vec<f64>,
    /// Whether the sheets cover the whole drawing along the row.
    covers: bool,
}

impl Tried {
    /// A row of sheets at a position, over a drawing from one coordinate to another.
    fn along(row: SheetRow, place: JointPlace, (lo, hi): (f64, f64)) -> Self {
        let step = row.printable - row.overlap;
        let near = |sheet: u32| {
            let from = place.origin + f64::from(sheet) * step + row.overlap;
            let to = from + step - row.overlap;
            if to <= from {
                return f64::INFINITY;
            }
            let nearest = 0.0_f64.clamp(from, to);
            nearest * nearest
        };
        let end = place.origin + f64::from(row.sheets) * step + row.overlap;
        Self {
            covers: place.origin <= lo + FUZZ && hi <= end + FUZZ,
            place,
            near: (0..row.sheets).map(near).collect(),
        }
    }

    /// Whether the grid of these columns and rows could be better than the best known, before its sheets are checked.
    fn may_better(&self, rows: &Self, core: f64, least: f64, known: &Laid) -> bool {
        let clear = self.place.clear.min(rows.place.clear);
        if clear < least - TIE {
            return false;
        }
        let whole = self.covers && rows.covers;
        let as_few = match (whole, known.whole) {
            (true, false) => true,
            (false, true) => false,
            _ => clear > known.clear + TIE,
        };
        let most = known.kept.count().saturating_sub(usize::from(!as_few));
        self.fewest_with(rows, core) <= most
    }

    /// A lower bound on the number of sheets in a grid of these columns and rows: those that alone show some of a disc whose
    /// radius is the root of `core`.
    fn fewest_with(&self, rows: &Self, core: f64) -> usize {
        let in_column = |across: &f64| {
            let some = rows.near.iter().filter(|up| across + *up < core);
            some.count()
        };
        self.near.iter().map(in_column).sum()
    }
}

/// A grid with its kept sheets.
struct Laid {
    grid: Grid,
    kept: Kept,
    /// Distance of the nearest joint from a center, mm.
    clear: f64,
    /// Whether it shows everything.
    whole: bool,
}

impl Laid {
    /// Whether one grid is better: fewer sheets, then the whole edge, then joints farther from holes.
    fn is_better(&self, other: &Self) -> bool {
        let (mine, theirs) = (self.kept.count(), other.kept.count());
        let fewer = mine.cmp(&theirs);
        let wholer = other.whole.cmp(&self.whole);
        let farther = self.clear > other.clear + TIE;
        fewer.then(wholer).is_lt() || (fewer.then(wholer).is_eq() && farther)
    }
}

impl Way {
    /// The paper in its orientation, with its printable area.
    fn of(
        template: &Template,
        drawn: &Drawn<'_>,
        paper: Size,
        printer: Option<&Correction>,
    ) -> Result<Self, TilingError> {
        let correction = printer.map(|correction| correction.on(paper));
        let printable = printable_size(paper, template.margin, correction.as_ref());
        if printable.width <= 0.0 || printable.height <= 0.0 {
            return Err(TilingError::NoPaperLeft {
                margin: template.margin,
                width: paper.width,
                height: paper.height,
            });
        }
        let (xs, ys) = drawn.places.iter().map(|(_, at)| (at.x, at.y)).unzip();
        Ok(Self {
            paper,
            printable,
            overlap: template.overlap,
            correction,
            coordinates: [xs, ys],
        })
    }

    /// A row of sheets, side by side or above each other.
    fn row(&self, axis: usize, sheets: u32) -> SheetRow {
        let printable = [self.printable.width, self.printable.height];
        SheetRow {
            sheets,
            printable: printable[axis],
            overlap: self.overlap,
        }
    }

    /// The grid that begins at two positions.
    const fn grid(&self, first: Point, columns: u32, rows: u32) -> Grid {
        Grid {
            first,
            printable: self.printable,
            overlap: self.overlap,
            columns,
            rows,
        }
    }

    /// The grid that shows everything with joints as far from the holes as possible.
    fn widest(&self, drawn: &Drawn<'_>) -> Result<Laid, TilingError> {
        let DrawnPart { bounds, is_on, .. } = drawn.all;
        let along = |axis: usize, lo: f64, hi: f64| {
            let row = self.row(axis, 0);
            let sheets = sheets_along(hi - lo, row.printable, row.overlap)?;
            let plan = best_joints(&self.coordinates[axis], lo, hi, row.printable, row.overlap)?;
            let clear = plan.nearest.map_or(f64::INFINITY, |(_, mm)| mm);
            Ok::<_, geometry::Error>((plan.origin, clear, sheets))
        };
        let (x, clear_x, columns) = along(0, bounds.x0, bounds.x1)?;
        let (y, clear_y, rows) = along(1, bounds.y0, bounds.y1)?;
        // The limit for a row also holds for all sheets together; a board of 5 m takes 532 sheets of A4.
        let sheets = columns * rows;
        if sheets > MOST_SHEETS {
            return Err(TilingError::TooMany { sheets });
        }
        let grid = self.grid(Point::new(x, y), columns, rows);
        Ok(Laid {
            kept: grid.kept(is_on),
            grid,
            clear: clear_x.min(clear_y),
            whole: true,
        })
    }

    /// A better grid than the best so far with joints far enough from the holes, if there is one.
    ///
    /// One column or row more than needed is tried too, as sheets that extend less at the sides leave more corners empty.
    fn fewer(
        &self,
        drawn: &Drawn<'_>,
        least: f64,
        best: &Laid,
    ) -> Result<Option<Laid>, TilingError> {
        let (columns, rows) = (self.places(0, drawn, least)?, self.places(1, drawn, least)?);
        let mut found: Option<Laid> = None;
        let mut kept = Kept::default();
        let one_more = |places: &[Tried], sheets: usize| {
            places
                .first()
                .is_some_and(|fewest| sheets > fewest.near.len())
        };
        let core = drawn.needed.core * drawn.needed.core - TOUCHING;
        for column in &columns {
            let more_columns = one_more(&columns, column.near.len());
            for row in &rows {
                let known = found.as_ref().unwrap_or(best);
                let is_more = more_columns && one_more(&rows, row.near.len());
                if is_more || !column.may_better(row, core, least, known) {
                    continue;
                }
                let laid = self.laid(drawn, (column, row), known, &mut kept);
                found = laid.or(found);
            }
        }
        Ok(found)
    }

    /// The grid of two positions, if it is better than the best known.
    fn laid(
        &self,
        drawn: &Drawn<'_>,
        (column, row): (&Tried, &Tried),
        known: &Laid,
        kept: &mut Kept,
    ) -> Option<Laid> {
        let first = Point::new(column.place.origin, row.place.origin);
        let grid = self.grid(first, column.near.len() as u32, row.near.len() as u32);
        grid.keep(drawn.needed.is_on, kept);
        if kept.count() > known.kept.count() {
            return None;
        }
        let laid = Laid {
            grid,
            clear: column.place.clear.min(row.place.clear),
            whole: !grid.loses(kept, drawn.all.bounds, drawn.all.is_on),
            kept: kept.clone(),
        };
        laid.is_better(known).then_some(laid)
    }

    /// Positions worth trying along one axis.
    fn places(
        &self,
        axis: usize,
        drawn: &Drawn<'_>,
        least: f64,
    ) -> Result<Vec<Tried>, TilingError> {
        let ends = |bounds: Rect| [(bounds.x0, bounds.x1), (bounds.y0, bounds.y1)][axis];
        let ((lo, hi), all) = (ends(drawn.needed.bounds), ends(drawn.all.bounds));
        let row = self.row(axis, 1);
        let sheets = sheets_along(hi - lo, row.printable, row.overlap)?;
        let most = if (2..=MOST_MORE).contains(&sheets) {
            sheets + 1
        } else {
            sheets
        };
        let each = |sheets| {
            let row = self.row(axis, sheets);
            let places = row.places(&self.coordinates[axis], lo, hi, least);
            places
                .into_iter()
                .map(move |place| Tried::along(row, place, all))
        };
        Ok((sheets..=most).flat_map(each).collect())
    }

    /// The sheets of a grid as a [`Tiling`].
    fn tiling(&self, template: &Template, drawn: &Drawn<'_>, laid: &Laid) -> Tiling {
        let (grid, tiles) = laid.grid.tiles(&laid.kept);
        let near = |axis: usize, sheets: u32, origin: f64| {
            self.row(axis, sheets)
                .nearest(&self.coordinates[axis], origin)
        };
        let nearest = [
            near(0, grid.columns, grid.first.x),
            near(1, grid.rows, grid.first.y),
        ];
        let nearest = nearest
            .into_iter()
            .flatten()
            .min_by(|a, b| a.1.total_cmp(&b.1));
        Tiling {
            paper: self.paper,
            margin: template.margin,
            overlap: template.overlap,
            columns: grid.columns,
            rows: grid.rows,
            tiles,
            whole: laid.whole,
            nearest: nearest.and_then(|(at, mm)| Some((drawn.places.get(at)?.0, mm))),
            correction: self.correction.clone(),
        }
    }
}

/// Number of sheets along one axis beyond which one more is not tried: holes leave no wide gaps between that many joints.
const MOST_MORE: u32 = 12;
