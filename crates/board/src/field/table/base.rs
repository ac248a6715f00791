//! The turntable or the feet that the board stands on, and the opening that it must fit through.

use crate::Quantity::{Count, Length, Mass};
use crate::field::Kind::{Auto, Choice, Number, Open, Part};
use crate::{Base, BaseHold, Board, Footing, MassUnit, Passage, Range};

/// Load on a board, kg.
const LOAD: Range = Mass(MassUnit::Kilogram).of(0.0, 10_000.0);
/// A rated load, kg; a share of one that is next to nothing is no number.
const RATED: Range = Mass(MassUnit::Kilogram).of(0.1, 10_000.0);
/// A base, or the circle of its feet.
const FOOTING_SIZE: Range = Length.of(1.0, 5000.0);

/// A side of an opening.
const OPENING: Range = Length.of(1.0, 10_000.0);

fields! {
    /// The base of the board.
    BASE_FIELDS:
    BASE "base", [.base] "Add a base", Part, "A turntable or feet below the board";
    FOOTING "base.footing.kind", [.base? .footing] "Stands on", Choice, "", of shop;
    FOOTING_DIAMETER "base.footing.diameter_mm", [.base? .footing {Footing::Round => diameter}] "Base diameter",
        Number(FOOTING_SIZE), "Of a turntable that the board only rests on: the circle of its bearing", of shop;
    FEET "base.footing.count", [.base? .footing {Footing::Feet => count}] "Feet", Number(Count.of(3.0, 60.0)),
        "At equal steps around a circle";
    FEET_CIRCLE "base.footing.circle_mm", [.base? .footing {Footing::Feet => circle}] "Circle of the feet",
        Number(FOOTING_SIZE), "Diameter through their middles";
    BASE_HOLD "base.hold", [.base? .hold] "Held by", Choice,
        "Solid wood glued across the grain of the board cannot move with it";
    BASE_HEIGHT "base.height_mm", [.base? .height] "Base height", Number(Length.of(0.0, 1000.0)),
        "From the table to the underside of the board", us: "1/2", of shop;
    RATING "base.rating_kg", [.base? .rating] "Rated load", Open(RATED, "not known"), "Of the turntable", of shop;
    LOAD_BESIDE "base.load_kg", [.base? .load] "Other load", Number(LOAD), "Anything else that may be put on the board";
    BOARD_MASS "base.board_kg", [.base? .board] "Board weight", Auto(LOAD, "by its wood"),
        "On a scale, without base and pieces";
}

fields! {
    /// The opening that the board must fit through.
    PASSAGE_FIELDS:
    PASSAGE "passage", [.passage] "Fits through a door", Part, "Or into a box or a car: an opening for the finished board";
    PASSAGE_WIDTH "passage.width_mm", [.passage? .width] "Opening width", Number(OPENING), "", us: "30";
    PASSAGE_HEIGHT "passage.height_mm", [.passage? .height] "Opening height", Number(OPENING), "", us: "80";
}

kinds! {
    Footing, begun by as_wide_as_before:
    "a turntable, or round" => Round { diameter: 304.8 },
    "feet" => Feet { count: 3, circle: 304.8 },
}
plain!(BaseHold);
usual!(Base, Passage);

/// Keeps the width of the previous footing.
fn as_wide_as_before(footing: &Footing, board: &Board) -> Footing {
    match (*footing, board.base.map(|base| base.footing)) {
        (Footing::Round { .. }, Some(Footing::Feet { circle, .. })) => {
            Footing::Round { diameter: circle }
        }
        (Footing::Feet { count, .. }, Some(Footing::Round { diameter })) => Footing::Feet {
            count,
            circle: diameter,
        },
        (footing, _) => footing,
    }
}
