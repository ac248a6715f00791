//! The sizes shown in the section of a bore, from the functions that work them out.

use board::{Board, Bore, Hole, HoleId, Insert, PieceKind, Recess};

use crate::Workpiece;
use crate::bores::holds::{
    MagnetHold, MarbleStand, PegStand, insert_below, insert_diameter, insert_gap, magnet_hold,
    marble_stand, peg_stand,
};
use crate::bores::profile::{bore_profile, tip};
use crate::filling::{is_filled, open_bore};
use crate::recess::recess_outline;

/// The sizes of a bore and of the piece in it; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoreSizes {
    /// The hole.
    pub hole: Hole,
    /// Length of the drill's point or the bit's spur below its depth.
    pub tip: f64,
    /// Thickness of the board.
    pub thickness: f64,
    /// The wood left under it.
    pub floor: Floor,
    /// Depth of the resin's edge below the top face; `None` if the bore is not filled.
    pub resin: Option<f64>,
    /// The thing that stands in the hole.
    pub stands: Stands,
}

/// The wood left straight under a bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Floor {
    /// Wood left, mm; negative if the bore goes through.
    pub left: f64,
    /// The part under it.
    pub over: FloorOver,
}

/// The cut or face below a floor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FloorOver {
    /// The underside of the board.
    Underside,
    /// The storage recess.
    Recess,
    /// Ledge or groove of its lid.
    Lid,
}

impl FloorOver {
    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Underside => "the underside",
            Self::Recess => "the recess",
            Self::Lid => "cut for the lid",
        }
    }
}

/// The thing that stands in a hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stands {
    /// Nothing: it is for the pin of the circle jig.
    Nothing,
    /// A marble on the rim.
    Marble(MarbleStand),
    /// A peg; `None` if its shank does not fit.
    Peg(Option<PegStand>),
    /// A magnet piece on its ball or disc.
    Magnet(InsertSizes),
}

/// The ball or disc set into a hole for a magnet piece; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InsertSizes {
    /// Its diameter.
    pub diameter: f64,
    /// Thickness of a disc; none for a ball.
    pub thickness: Option<f64>,
    /// Depth of its upper end below the top face; negative if it stands above.
    pub below: f64,
    /// Clearance for glue all around; negative if it does not fit.
    pub gap: f64,
    /// The hold of the piece on it; `None` if its magnet was not measured.
    pub hold: Option<MagnetHold>,
}

/// The sizes of the hole with this name; `None` if the board has no such hole.
///
/// ```
/// use workshop::{Stands, Workpiece, bore_sizes};
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// let first = workpiece.layout().holes[0].name.id();
/// let sizes = bore_sizes(&workpiece, first).unwrap();
/// // A board of 20 mm, a bore 5 mm deep and a spur of 2 mm.
/// assert_eq!(sizes.floor.left, sizes.thickness - sizes.hole.bore.depth - sizes.tip);
/// assert!(matches!(sizes.stands, Stands::Marble(_)));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn bore_sizes(workpiece: &Workpiece, hole: HoleId) -> Option<BoreSizes> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let hole = *layout.hole(hole)?;
    let is_seat = layout
        .seats(board)
        .iter()
        .any(|seat| seat.name == hole.name);
    let filling = board
        .filling
        .filter(|filling| is_filled(board, filling, hole.bore));
    Some(BoreSizes {
        hole,
        tip: tip(hole.bore, board.bores.spur),
        thickness: board.blank.thickness,
        floor: floor(workpiece, &hole),
        resin: filling.filter(|_| is_seat).map(|filling| filling.below_top),
        stands: if is_seat {
            stands(board, hole.bore)
        } else {
            Stands::Nothing
        },
    })
}

/// The thing that stands in a bore, with the sizes shown in a section.
fn stands(board: &Board, bore: Bore) -> Stands {
    let piece = &board.piece;
    match piece.kind {
        PieceKind::Marble => Stands::Marble(marble_stand(piece.diameter, open_bore(board, bore))),
        PieceKind::Peg => Stands::Peg(peg_stand(piece, open_bore(board, bore))),
        PieceKind::Magnet => Stands::Magnet(InsertSizes {
            diameter: insert_diameter(piece, bore),
            thickness: match piece.insert {
                Insert::Ball => None,
                Insert::Disc { thickness } => Some(thickness),
            },
            below: insert_below(piece, bore),
            gap: insert_gap(piece, bore),
            hold: magnet_hold(piece, bore),
        }),
    }
}

/// The least wood straight below any point of a bore.
fn floor(workpiece: &Workpiece, hole: &Hole) -> Floor {
    let board = workpiece.board();
    let thickness = board.blank.thickness;
    let bore = bore_profile(hole.bore, board.bores.spur);
    let under = |cut: Option<Recess>, over: FloorOver| {
        let cut = cut?;
        // The deepest point of the bore above the recess.
        let deep = bore.depth_at(recess_outline(&cut).away(hole.center))?;
        let left = thickness - cut.depth - deep;
        Some(Floor { left, over })
    };
    let underside = Floor {
        left: thickness - bore.bottom(),
        over: FloorOver::Underside,
    };
    let cuts = [
        under(board.recess, FloorOver::Recess),
        under(workpiece.lid().cut, FloorOver::Lid),
    ];
    let floors = cuts.into_iter().flatten();
    floors.fold(underside, |least, floor| {
        if floor.left < least.left {
            floor
        } else {
            least
        }
    })
}
