//! The finished board, the blank as bought, and the board's position on the blank.

use crate::Quantity::{Count, Length};
use crate::field::Kind::{self, Choice, Corners, Entries, Number, Numbers, Part};
use crate::field::choice;
use crate::{Board, FlawKind, FlawShape, Range, StockFlaw, StockOutline};

/// Thickness of board and blank.
pub(super) const THICKNESS: Range = Length.of(0.5, 500.0);
/// Positions on a blank: as far as the geometry accepts outlines.
const PLACE: Range = Length.of(-20_000.0, 20_000.0);
/// Sides of a blank.
const SIDE: Range = Length.of(1.0, 20_000.0);
/// Wood lost to sawing, jointing and planing.
pub(super) const ALLOWANCE: Range = Length.of(0.0, 200.0);
/// Corners of one outline: one every 4 mm around a slab of 3 m by 1 m is within the limit.
const CORNERS: Range = Count.range("corners of an outline", 0.0, 2_000.0);
/// Depth of the bark and rough edge above sound wood, one number per station; empty for a sawn edge.
const LIVE_EDGE: Kind = Numbers {
    each: Length.of(0.0, 20_000.0),
    count: CORNERS,
    example: "sawn; or {0; 12; 8|0; 1/2; 3/8}",
};
/// Corners in order around an outline.
const OUTLINE: Kind = Corners {
    each: PLACE,
    count: CORNERS,
};
/// Initial diameter of a flaw, before it is measured.
const FLAW: f64 = 30.0;

fields! {
    /// The finished board.
    BOARD_FIELDS:
    BOARD_DIAMETER "blank.diameter_mm", [.blank.diameter] "Board diameter", Number(Length.of(1.0, 5000.0)), "", us: "24 1/2";
    BOARD_THICKNESS "blank.thickness_mm", [.blank.thickness] "Board thickness", Number(THICKNESS), "", us: "3/4";
    ROUNDOVER "blank.roundover_mm", [.blank.roundover] "Roundover", Number(Length.of(0.0, 200.0)),
        "Radius along the top edge; 0 for a sharp one", us: "3/16";
}

fields! {
    /// The blank as bought.
    STOCK_FIELDS:
    STOCK_OUTLINE "stock.outline.kind", [.stock.outline] "Blank outline", Choice, "";
    STOCK_LENGTH "stock.outline.length_mm", [.stock.outline {StockOutline::Slab => length}] "Blank length", Number(SIDE),
        "Along the grain", us: "48";
    STOCK_WIDTH "stock.outline.width_mm", [.stock.outline {StockOutline::Slab => width}] "Blank width", Number(SIDE),
        "Across the grain", us: "24";
    LOWER_EDGE "stock.outline.lower_mm", [.stock.outline {StockOutline::Slab => lower}] "Lower live edge", LIVE_EDGE,
        "How far in from the edge sound wood begins, at equal steps from left to right; empty for a sawn edge";
    UPPER_EDGE "stock.outline.upper_mm", [.stock.outline {StockOutline::Slab => upper}] "Upper live edge", LIVE_EDGE,
        "How far in from the edge sound wood begins, at equal steps from left to right; empty for a sawn edge";
    STOCK_CORNERS "stock.outline.corners_mm", [.stock.outline {StockOutline::Corners => corners}] "Blank corners", OUTLINE,
        "x along the grain and y across it, in order around the blank", us: "0; 0; 48; 0; 48; 24; 0; 24";
    STOCK_THICKNESS "stock.thickness_mm", [.stock.thickness] "Blank thickness", Number(THICKNESS), "Before it is planed", us: "1";
    FLAWS "stock.flaws", [.stock.flaws] "Flaws", Entries(Count.range("flaws of the blank", 0.0, 200.0)),
        "Knots, cracks and sapwood that stay off the board";
}

fields! {
    /// A flaw of the blank.
    FLAW_FIELDS:
    FLAW_KIND "stock.flaws[].kind", [.stock.flaws[] .kind] "Flaw #", Choice, "";
    FLAW_SHAPE "stock.flaws[].shape.kind", [.stock.flaws[] .shape] "Flaw # outline", Choice, "";
    FLAW_X "stock.flaws[].shape.x_mm", [.stock.flaws[] .shape {FlawShape::Round => x}] "Flaw # along", Number(PLACE),
        "Its middle, along the grain";
    FLAW_Y "stock.flaws[].shape.y_mm", [.stock.flaws[] .shape {FlawShape::Round => y}] "Flaw # across", Number(PLACE),
        "Its middle, across the grain";
    FLAW_DIAMETER "stock.flaws[].shape.diameter_mm", [.stock.flaws[] .shape {FlawShape::Round => diameter}]
        "Flaw # diameter", Number(Length.of(0.1, 5000.0)), "", us: "1 1/4";
    FLAW_CORNERS "stock.flaws[].shape.corners_mm", [.stock.flaws[] .shape {FlawShape::Area => corners}] "Flaw # corners",
        OUTLINE, "x along the grain and y across it, in order around the flaw";
}

fields! {
    /// The board's position on the blank.
    PLACE_FIELDS:
    STOCK_PLACE "stock.place_mm", [.stock.place] "Place the center pin", Part,
        "On the blank; otherwise it goes where most wood remains around the board";
    PLACE_X "stock.place_mm[0]", [.stock.place? [0]] "Pin along", Number(PLACE), "Along the grain of the blank";
    PLACE_Y "stock.place_mm[1]", [.stock.place? [1]] "Pin across", Number(PLACE), "Across the grain of the blank";
    TRIM "stock.trim_mm", [.stock.trim] "Saw allowance", Number(ALLOWANCE),
        "Wood wanted outside the finished edge, for the saw", us: "1/4";
}

kinds! {
    StockOutline, begun by with_its_corners:
    "not known yet" => Unknown,
    "length and width" => Slab { length: 1200.0, width: 600.0, lower: Vec::new(), upper: Vec::new() },
    "corners" => Corners { corners: Vec::new() },
}
plain!(FlawKind);
kinds! {
    FlawShape:
    "round" => Round { x: 0.0, y: 0.0, diameter: FLAW },
    "corners" => Area { corners: Vec::new() },
}

/// Keeps the corners of the previous outline.
fn with_its_corners(outline: &StockOutline, board: &Board) -> StockOutline {
    const USUAL: [[f64; 2]; 4] = [[0.0, 0.0], [1200.0, 0.0], [1200.0, 600.0], [0.0, 600.0]];
    let before = board.stock.outline.corners();
    match outline {
        StockOutline::Corners { .. } => StockOutline::Corners {
            corners: before.unwrap_or_else(|| USUAL.to_vec()),
        },
        other => other.clone(),
    }
}

impl choice::Part for StockFlaw {
    fn begun(_: &Board) -> Self {
        Self {
            kind: FlawKind::Knot,
            shape: FlawShape::Round {
                x: 0.0,
                y: 0.0,
                diameter: FLAW,
            },
        }
    }
}
