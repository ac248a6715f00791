//! The cut list: every part cut from wood or sheet stock, rough and finished, with its grain and its stock.

use board::{
    Base, BaseHold, Board, Build, Footing, LidGrain, RecessShape, StockOutline, Units, show_least,
    show_length,
};

use super::lumber::SoldThickness;
use crate::blank::panel::{panel_width, piece_width, sawn_width, strip_lengths};
use crate::blank::thickness::left_for_flattening;
use crate::job::Method;
use crate::{Thicknesses, Workpiece};

/// A part that is cut of wood, plywood or hardboard.
#[derive(Debug, Clone, PartialEq)]
pub struct CutPart {
    /// Its name.
    pub name: &'static str,
    /// Number of such parts for all boards.
    pub count: u32,
    /// Its size as sawn, before it is jointed and planed; none for parts cut to final size at once.
    pub rough: Option<PartSize>,
    /// Its finished size.
    pub finished: PartSize,
    /// The direction of the grain.
    pub grain: &'static str,
    /// The stock it is cut from.
    pub from: CutFrom,
}

/// The size of a part, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartSize {
    /// Its outline.
    pub outline: PartOutline,
    /// Its thickness.
    pub thickness: f64,
}

/// The outline of a part, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PartOutline {
    /// A disc.
    Round(f64),
    /// A rectangle: length along the grain, and width.
    Straight(f64, f64),
}

impl PartSize {
    /// A part with straight sides: length along the grain, width, thickness.
    pub(crate) const fn straight([length, width, thickness]: [f64; 3]) -> Self {
        Self {
            outline: PartOutline::Straight(length, width),
            thickness,
        }
    }

    /// A disc.
    pub(crate) const fn round(diameter: f64, thickness: f64) -> Self {
        Self {
            outline: PartOutline::Round(diameter),
            thickness,
        }
    }

    /// Length, width and thickness of the smallest block that contains it.
    pub const fn block(self) -> [f64; 3] {
        match self.outline {
            PartOutline::Round(diameter) => [diameter, diameter, self.thickness],
            PartOutline::Straight(length, width) => [length, width, self.thickness],
        }
    }

    /// The size in the maker's units: `570 mm × 193 mm × 25 mm`, or `640 mm across × 20 mm`.
    ///
    /// ```
    /// use board::{Board, Units};
    /// use workshop::{Workpiece, cut_list};
    /// let list = cut_list(&Workpiece::of(&Board::default())?, 1);
    /// assert_eq!(list[0].finished.shown(Units::Mm), "640 mm across × 20 mm");
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn shown(self, units: Units) -> String {
        self.written(|mm| show_length(mm, units))
    }

    /// The size as the least that does, rounded up, as on the job sheet: wood that is sawn a hair short is lost.
    pub fn shown_at_least(self, units: Units) -> String {
        self.written(|mm| show_least(mm, units))
    }

    /// The size, its lengths written by a function.
    fn written(self, length: impl Fn(f64) -> String) -> String {
        let thick = length(self.thickness);
        match self.outline {
            PartOutline::Round(diameter) => format!("{} across × {thick}", length(diameter)),
            PartOutline::Straight(long, wide) => {
                format!("{} × {} × {thick}", length(long), length(wide))
            }
        }
    }
}

/// The stock that a part is cut from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CutFrom {
    /// Rough lumber of a thickness that is sold; `Err` with the thickness in mm if none sold is thick enough.
    Lumber(Result<SoldThickness, f64>),
    /// The blank that the maker measured.
    Slab,
    /// A panel bought glued.
    Panel,
    /// The parts that were glued up.
    GlueUp,
    /// Plywood.
    Plywood,
    /// Hardboard.
    Hardboard,
    /// Offcuts of other parts.
    Offcuts,
}

impl CutFrom {
    /// The words for it.
    pub fn words(self, units: Units) -> String {
        match self {
            Self::Lumber(Ok(sold)) => sold.label(),
            Self::Lumber(Err(mm)) => format!("a slab {} thick, by order", show_length(mm, units)),
            Self::Slab => "the measured blank".into(),
            Self::Panel => "a panel bought glued".into(),
            Self::GlueUp => "the glued-up panel".into(),
            Self::Plywood => "plywood".into(),
            Self::Hardboard => "hardboard".into(),
            Self::Offcuts => "offcuts, or strips as sold".into(),
        }
    }

    /// Rough lumber of at least a thickness, mm.
    fn lumber(mm: f64, units: Units) -> Self {
        Self::Lumber(SoldThickness::at_least(mm, units).ok_or(mm))
    }

    /// Rough lumber that can be planed to a thickness, mm.
    fn planed_to(mm: f64, units: Units) -> Self {
        Self::lumber(mm + left_for_flattening(units), units)
    }
}

/// Room on a router template around the board, for clamps and for the router's base, mm on each side; common practice, no
/// source.
const AROUND: f64 = 50.0;
/// Room in the two mortises of a loose tenon for glue, mm; common practice, no source.
const GLUE_ROOM: f64 = 2.0;

/// Every part to cut for this many boards, in the order of the work. Templates are made once, however many boards there are.
///
/// ```
/// use board::{Board, Build};
/// use workshop::{Workpiece, cut_list};
/// let mut board = Board::default();
/// board.panel.build = Build::Strips { count: 3 };
/// let list = cut_list(&Workpiece::of(&board)?, 2);
/// assert_eq!((list[0].name, list[0].count), ("strip", 6));
/// assert_eq!((list[1].name, list[1].count), ("board", 2));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn cut_list(workpiece: &Workpiece, boards: u32) -> Vec<CutPart> {
    let mut parts: Vec<CutPart> = glued(workpiece);
    parts.extend(tenons(workpiece));
    parts.push(disc(workpiece));
    parts.extend(lid(workpiece));
    parts.extend(base(workpiece.board()));
    for part in &mut parts {
        part.count = part.count.saturating_mul(boards);
    }
    parts.extend(templates(workpiece));
    parts
}

/// Thickness of the wood to buy, mm: that of the document, or, where it would not yield the board's thickness, the least that
/// would.
pub fn bought(board: &Board) -> f64 {
    let at = Thicknesses::of(board);
    if at.sawn >= at.finished {
        return at.bought;
    }
    let planed = at.finished + left_for_flattening(board.units);
    match board.panel.build {
        Build::Halves => 2.0 * planed + board.panel.kerf,
        Build::Whole | Build::Strips { .. } | Build::Seams { .. } => planed,
    }
}

/// The stock that the board's own wood is cut from.
fn own_stock(board: &Board) -> CutFrom {
    match (&board.panel.build, &board.stock.outline) {
        (Build::Seams { .. }, _) => CutFrom::Panel,
        (_, StockOutline::Unknown) => CutFrom::lumber(bought(board), board.units),
        _ => CutFrom::Slab,
    }
}

/// The leaves or strips of one board; empty for a board that is not glued up in the shop.
fn glued(workpiece: &Workpiece) -> Vec<CutPart> {
    let board = workpiece.board();
    let (Some(sawn_width), Some(width)) = (sawn_width(board), piece_width(board)) else {
        return Vec::new();
    };
    let at = Thicknesses::of(board);
    let part = |name, count, length, sawn| CutPart {
        name,
        count,
        rough: Some(PartSize::straight([length, sawn_width, sawn])),
        finished: PartSize::straight([length, width, at.finished]),
        grain: ALONG,
        from: own_stock(board),
    };
    match board.panel.build {
        Build::Halves => {
            let sawn = (bought(board) - board.panel.kerf) / 2.0;
            let name = "leaf, resawn and opened like a book";
            vec![part(name, 2, panel_width(board), sawn)]
        }
        Build::Strips { .. } => {
            let names = core::iter::once("strip").chain(core::iter::repeat("outer strip"));
            let strips = strip_lengths(board).into_iter().zip(names);
            let strips = strips.map(|(of, name)| {
                let count = of.numbers.len() as u32;
                part(name, count, of.length, bought(board))
            });
            strips.collect()
        }
        Build::Whole | Build::Seams { .. } => Vec::new(),
    }
}

/// Grain along the length of a part.
const ALONG: &str = "along the length";
/// Grain of parts without one.
const NONE: &str = "none";

/// The loose tenons of one board.
fn tenons(workpiece: &Workpiece) -> Option<CutPart> {
    let size = workpiece.board().panel.tenons?;
    let count = u32::try_from(workpiece.tenons().len()).ok()?;
    let long = (2.0 * size.reach - GLUE_ROOM).max(0.0);
    (count > 0).then_some(CutPart {
        name: "loose tenon",
        count,
        rough: None,
        finished: PartSize::straight([long, size.length, size.thickness]),
        grain: "across the seam",
        from: CutFrom::Offcuts,
    })
}

/// The board as a disc.
fn disc(workpiece: &Workpiece) -> CutPart {
    let board = workpiece.board();
    let (wide, thickness) = (panel_width(board), board.blank.thickness);
    let glued = matches!(board.panel.build, Build::Halves | Build::Strips { .. });
    let rough = match board.panel.build {
        Build::Seams { .. } => Some(PartSize::straight([
            wide,
            wide,
            board.stock.thickness.max(thickness),
        ])),
        Build::Whole => Some(PartSize::straight([wide, wide, bought(board)])),
        Build::Halves | Build::Strips { .. } => None,
    };
    CutPart {
        name: "board",
        count: 1,
        rough,
        finished: PartSize::round(board.blank.diameter, thickness),
        grain: "from left to right",
        from: if glued {
            CutFrom::GlueUp
        } else {
            own_stock(board)
        },
    }
}

/// The lid of the storage.
///
/// A round lid is cut from a square; one of the board's wood is resawn from the thinnest lumber.
fn lid(workpiece: &Workpiece) -> Option<CutPart> {
    let board = workpiece.board();
    let size = workpiece.lid().size?;
    let fit = board.recess?.lid_fit;
    let (long, wide) = size.shape.sides();
    let finished = match (size.shape, fit.grain) {
        (RecessShape::Round { diameter }, _) => PartSize::round(diameter, size.thickness),
        // The length of the lid is along its grain.
        (_, LidGrain::AcrossBoard) => PartSize::straight([wide, long, size.thickness]),
        _ => PartSize::straight([long, wide, size.thickness]),
    };
    let (grain, from) = match fit.grain {
        LidGrain::Plywood => ("of the face along the length", CutFrom::Plywood),
        LidGrain::WithBoard => (ALONG, CutFrom::planed_to(size.thickness, board.units)),
        LidGrain::AcrossBoard => (
            "along the length, across the board",
            CutFrom::planed_to(size.thickness, board.units),
        ),
    };
    Some(CutPart {
        name: "lid",
        count: 1,
        rough: Some(spared(finished, from, board)),
        finished,
        grain,
        from,
    })
}

/// A size with the saw allowance all around and, in solid wood, the planing allowance.
fn spared(finished: PartSize, from: CutFrom, board: &Board) -> PartSize {
    let [length, width, thickness] = finished.block();
    let spare = 2.0 * board.stock.trim;
    let planed = match from {
        CutFrom::Lumber(_) => left_for_flattening(board.units),
        _ => 0.0,
    };
    PartSize::straight([length + spare, width + spare, thickness + planed])
}

/// A wooden base, which is glued to the board.
fn base(board: &Board) -> Option<CutPart> {
    let base: Base = board.base?;
    let Footing::Round { diameter } = base.footing else {
        return None;
    };
    let (grain, from) = match base.hold {
        BaseHold::Loose => return None,
        BaseHold::GluedPlywood => ("none: plywood", CutFrom::Plywood),
        BaseHold::GluedWithGrain => (
            "with the board's",
            CutFrom::planed_to(base.height, board.units),
        ),
        BaseHold::GluedAcrossGrain => (
            "across the board's",
            CutFrom::planed_to(base.height, board.units),
        ),
    };
    let finished = PartSize::round(diameter, base.height);
    Some(CutPart {
        name: "base",
        count: 1,
        rough: Some(spared(finished, from, board)),
        finished,
        grain,
        from,
    })
}

/// The hardboard template for the drilling method of the board.
fn templates(workpiece: &Workpiece) -> Option<CutPart> {
    let board = workpiece.board();
    let (name, size) = match Method::of(board) {
        Method::Router => {
            let side = board.blank.diameter + 2.0 * AROUND;
            let router = board.router?;
            ("router template", [side, side, router.hardboard])
        }
        Method::SectorJig => {
            board.sector_jig?;
            let (long, wide) = sector(board);
            let thick = board::Router::default().hardboard;
            ("one-player jig", [long, wide, thick])
        }
        Method::Template | Method::Pivot | Method::Machine => return None,
    };
    Some(CutPart {
        name,
        count: 1,
        rough: None,
        finished: PartSize::straight(size),
        grain: NONE,
        from: CutFrom::Hardboard,
    })
}

/// The block around one player's sector with room for the pin and for clamps, mm.
fn sector(board: &Board) -> (f64, f64) {
    let radius = board.blank.radius();
    let long = radius + 2.0 * AROUND;
    let half = geometry::Angle::degrees(180.0 / f64::from(board.players.max(2)));
    let wide = 2.0 * radius * half.sin() + 2.0 * AROUND;
    (long, wide)
}
