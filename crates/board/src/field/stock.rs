//! Fields of the blank and of how it is joined.

use super::Kind::{Choice, Corners, Entries, Number, Numbers, Part};
use crate::Quantity::{Angle, Count, Length};
use crate::{Build, FlawShape, Range, StockOutline};

/// Thickness of board and blank.
pub(super) const THICKNESS: Range = Length.of(0.5, 500.0);
/// Places on a blank: as far as the geometry takes outlines.
const PLACE: Range = Length.of(-20_000.0, 20_000.0);
/// Sides of a blank.
const SIDE: Range = Length.of(1.0, 20_000.0);
/// What sawing, jointing and planing take.
const ALLOWANCE: Range = Length.of(0.0, 200.0);
/// As many corners as the geometry takes.
const CORNERS: Range = Count.range("corners of an outline", 0.0, 10_000.0);
/// How far in sound wood begins, one number a step; none for a sawn edge.
const LIVE_EDGE: super::Kind = Numbers {
    each: Length.of(0.0, 20_000.0),
    count: CORNERS,
    example: "sawn; or 0; 12; 8",
};
/// Corners in order around an outline.
const OUTLINE: super::Kind = Corners {
    each: PLACE,
    count: CORNERS,
};

fields! {
    /// The blank as it was bought.
    STOCK_FIELDS:
    STOCK_OUTLINE "stock.outline.kind", [.stock.outline] "Blank outline", Choice, "";
    STOCK_LENGTH "stock.outline.length_mm", [.stock.outline {StockOutline::Slab => length}] "Blank length", Number(SIDE),
        "Along the grain";
    STOCK_WIDTH "stock.outline.width_mm", [.stock.outline {StockOutline::Slab => width}] "Blank width", Number(SIDE),
        "Across the grain";
    LOWER_EDGE "stock.outline.lower_mm", [.stock.outline {StockOutline::Slab => lower}] "Lower live edge", LIVE_EDGE,
        "How far in sound wood begins, at equal steps from left to right; empty for a sawn edge";
    UPPER_EDGE "stock.outline.upper_mm", [.stock.outline {StockOutline::Slab => upper}] "Upper live edge", LIVE_EDGE,
        "How far in sound wood begins, at equal steps from left to right; empty for a sawn edge";
    STOCK_CORNERS "stock.outline.corners_mm", [.stock.outline {StockOutline::Corners => corners}] "Blank corners", OUTLINE,
        "x along the grain and y across it, in order around the blank";
    STOCK_THICKNESS "stock.thickness_mm", [.stock.thickness] "Blank thickness", Number(THICKNESS), "Before it is planed";
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
        "Flaw # diameter", Number(Length.of(0.1, 5000.0)), "";
    FLAW_CORNERS "stock.flaws[].shape.corners_mm", [.stock.flaws[] .shape {FlawShape::Area => corners}] "Flaw # corners",
        OUTLINE, "x along the grain and y across it, in order around the flaw";
}

fields! {
    /// Where the board goes on the blank.
    PLACE_FIELDS:
    STOCK_PLACE "stock.place_mm", [.stock.place] "Place the center pin", Part,
        "On the blank; where most wood remains around the board if it is left open";
    PLACE_X "stock.place_mm[0]", [.stock.place? [0]] "Pin along", Number(PLACE), "Along the grain of the blank";
    PLACE_Y "stock.place_mm[1]", [.stock.place? [1]] "Pin across", Number(PLACE), "Across the grain of the blank";
    TRIM "stock.trim_mm", [.stock.trim] "Saw allowance", Number(ALLOWANCE),
        "Wood wanted outside the finished edge, for the saw";
}

/// Sizes of a tenon.
const TENON: Range = Length.of(0.1, 1000.0);

fields! {
    /// How the board is joined, and the screws in its underside.
    JOINING_FIELDS:
    BUILD "panel.build.kind", [.panel.build] "Made of", Choice, "";
    STRIPS "panel.build.count", [.panel.build {Build::Strips => count}] "Strips", Number(Count.of(2.0, 60.0)),
        "Of equal width";
    SEAMS "panel.build.at_mm", [.panel.build {Build::Seams => at}] "Seams above pin",
        Numbers { each: Length.of(-2500.0, 2500.0), count: Count.range("seams", 0.0, 60.0), example: "-90; 0; 90" },
        "How far above the center pin each seam of the glued panel runs; negative is below";
    JOINT "panel.joint_mm", [.panel.joint] "Jointed off", Number(ALLOWANCE), "What the jointer takes off each glued edge";
    PANEL_KERF "panel.kerf_mm", [.panel.kerf] "Saw kerf", Number(ALLOWANCE), "What each saw cut turns to dust";
    PLANER "panel.planer_mm", [.panel.planer] "Planer width", Number(Length.of(10.0, 5000.0)),
        "The widest piece that your planer takes";
    TENONS "panel.tenons", [.panel.tenons] "Use loose tenons", Part, "Across the seams";
    TENON_COUNT "panel.tenons.count", [.panel.tenons? .count] "Tenons per seam", Number(Count.of(1.0, 60.0)), "";
    TENON_SPACING "panel.tenons.spacing_mm", [.panel.tenons? .spacing] "Tenon spacing", Number(TENON),
        "From the middle of one to the middle of the next";
    TENON_LENGTH "panel.tenons.length_mm", [.panel.tenons? .length] "Tenon length", Number(TENON), "Along the seam";
    TENON_REACH "panel.tenons.reach_mm", [.panel.tenons? .reach] "Tenon reach", Number(TENON), "Into each of the two edges";
    TENON_THICKNESS "panel.tenons.thickness_mm", [.panel.tenons? .thickness] "Tenon thickness", Number(TENON), "";
    ABOVE_TENON "panel.tenons.below_top_mm", [.panel.tenons? .below_top] "Wood over it", Number(Length.of(0.0, 500.0)),
        "Between the top face and the mortise";
    SCREWS "screws", [.screws] "Circles of screws", Entries(Count.range("circles of screws", 0.0, 20.0)),
        "In the underside: of a turntable, or of feet";
}

fields! {
    /// A circle of screws in the underside.
    SCREW_FIELDS:
    SCREW_COUNT "screws[].count", [.screws[] .count] "Circle #, screws", Number(Count.of(1.0, 60.0)), "";
    SCREW_CIRCLE "screws[].circle_mm", [.screws[] .circle] "Circle #, across", Number(Length.of(0.0, 5000.0)),
        "Diameter of the circle through their middles";
    SCREW_BEARING "screws[].bearing_deg", [.screws[] .bearing] "Circle #, angle", Number(Angle.of(-360.0, 360.0)),
        "Of the first one, seen from the top face";
    SCREW_DIAMETER "screws[].diameter_mm", [.screws[] .diameter] "Circle #, diameter", Number(Length.of(0.1, 100.0)),
        "Of the screw or of its pilot hole, whichever is larger";
    SCREW_DEPTH "screws[].depth_mm", [.screws[] .depth] "Circle #, depth", Number(Length.of(0.0, 500.0)),
        "Into the underside";
}
