//! The center pin and the bores.

use crate::Quantity::Length;
use crate::field::Kind::{Choice, Number};
use crate::{Board, Bore, Bottom, Center, Range};

/// Diameter of a hole for a pin, from a wire to a dowel.
const PIN_HOLE: Range = Length.of(0.1, 100.0);
/// Diameter of any bore.
pub(super) const DIAMETER: Range = Length.of(0.1, 500.0);
/// The same, named for the bores of all roles at once.
pub const BORE_DIAMETER: Range = DIAMETER.named("Bore diameter");
/// Depth of any bore.
pub(super) const DEPTH: Range = Length.of(0.0, 500.0);
/// The default bore where the board has none to copy.
pub(super) const BORE: Bore = Bore {
    diameter: 12.0,
    depth: 5.0,
    bottom: Bottom::Forstner,
};

/// Diameter, depth and bottom of a bore.
macro_rules! bore {
    ($(#[$doc:meta])* $rows:ident: $diameter:ident $depth:ident $bottom:ident $path:literal, [$($way:tt)+] $label:literal
        $(, us: $us_diameter:literal by $us_depth:literal)?) => {
        fields! {
            $(#[$doc])*
            $rows:
            $diameter concat!($path, ".diameter_mm"), [$($way)+ .diameter] concat!($label, " diameter"),
                $crate::field::Kind::Number($crate::field::table::bores::DIAMETER), "At the top face" $(, us: $us_diameter)?;
            $depth concat!($path, ".depth_mm"), [$($way)+ .depth] concat!($label, " depth"),
                $crate::field::Kind::Number($crate::field::table::bores::DEPTH), "To where the full diameter ends, above a point or spur" $(, us: $us_depth)?;
            $bottom concat!($path, ".bottom"), [$($way)+ .bottom] concat!($label, " bottom"),
                $crate::field::Kind::Choice, "The shape that the bit leaves";
        }
    };
}
pub(super) use bore;

fields! {
    /// The hole at the center pin.
    CENTER_FIELDS:
    CENTER "center.kind", [.center] "At the center", Choice, "";
    PIVOT_DIAMETER "center.diameter_mm", [.center {Center::Pivot => diameter}] "Pivot diameter", Number(PIN_HOLE), "";
    PIVOT_DEPTH "center.depth_mm", [.center {Center::Pivot => depth}] "Pivot depth", Number(DEPTH), "", us: "3/8";
    PILOT "center.pilot_mm", [.center {Center::Hole => pilot}] "Pilot diameter", Number(PIN_HOLE),
        "The hole for the jig's pin in the middle of the playing hole";
}

bore! {
    /// The playing hole at the center pin.
    CENTER_BORE: CENTER_DIAMETER CENTER_DEPTH CENTER_BOTTOM "center.bore", [.center {Center::Hole => bore}] "Center"
}

bore! {
    /// The bores of the track.
    TRACK_BORE: TRACK_DIAMETER TRACK_DEPTH TRACK_BOTTOM "bores.track", [.bores.track] "Track", us: "1/2" by "3/16"
}

bore! {
    /// The bores of the home lanes.
    HOME_BORE: HOME_DIAMETER HOME_DEPTH HOME_BOTTOM "bores.home", [.bores.home] "Home", us: "1/2" by "3/16"
}

bore! {
    /// The bores of the start pockets.
    START_BORE: START_DIAMETER START_DEPTH START_BOTTOM "bores.start", [.bores.start] "Start", us: "1/2" by "3/16"
}

fields! {
    /// The number that all bores have in common.
    SPUR_FIELDS:
    SPUR "bores.spur_mm", [.bores.spur] "Forstner spur", Number(Length.of(0.0, 50.0)),
        "How far the spur of your bit reaches below the floor of the hole", us: "3/32", of shop;
}

plain!(Bottom);
kinds! {
    Center, begun by for_the_board:
    "no hole" => Nothing,
    "pivot for the jig" => Pivot { diameter: 6.0, depth: 10.0 },
    "playing hole" => Hole { bore: BORE, pilot: 6.0 },
}

/// A pivot that fits the jig's pin, and a playing hole with the track's bore.
fn for_the_board(center: &Center, board: &Board) -> Center {
    let pin = board.jig.pin;
    match *center {
        Center::Nothing => Center::Nothing,
        Center::Pivot { depth, .. } => Center::Pivot {
            diameter: pin,
            depth,
        },
        Center::Hole { .. } => Center::Hole {
            bore: board.bores.track,
            pilot: pin,
        },
    }
}
