//! Fields of the circle jig, the paper template and the templates of hardboard.

use super::Kind::{Choice, Number, Numbers, Part, Tick, Ticked};
use crate::Quantity::{Count, Length};
use crate::{Paper, Range};

/// Diameter of a router bit.
pub(super) const BIT: Range = Length.of(0.1, 200.0);

fields! {
    /// The jig the circle is cut on.
    JIG_FIELDS:
    JIG_PIN "jig.pin_mm", [.jig.pin] "Jig pin", Number(Length.of(0.1, 100.0)), "The pin that the circle jig turns on";
    JIG_KERF "jig.kerf_mm", [.jig.kerf] "Kerf", Number(Length.of(0.0, 100.0)),
        "Width of the blade or bit that runs around the board";
    PLATES "jig.plates", [.jig.plates] "Index plates",
        Numbers {
            each: Count.of(1.0, 100_000.0),
            count: Count.range("number of index plates", 0.0, 40.0),
            example: "24; 36; 48",
        },
        "Divisions of those in the shop";
    THROAT "jig.throat_mm", [.jig.throat] "Drill press throat", Ticked(Length.of(10.0, 2000.0), 150.0),
        "From the middle of the chuck to the column: half of what the press is sold by; a press sold as 12 in has 6 in";
}

/// Sides of paper, from a card to a roll.
const SIDE: Range = Length.of(30.0, 5000.0);

fields! {
    /// How the paper template is drawn and printed.
    TEMPLATE_FIELDS:
    PAPER "template.paper", [.template.paper] "Paper", Choice, "";
    PAPER_WIDTH "template.paper.custom.width_mm", [.template.paper {Paper::Custom => width}] "Paper width", Number(SIDE), "";
    PAPER_HEIGHT "template.paper.custom.height_mm", [.template.paper {Paper::Custom => height}] "Paper height",
        Number(SIDE), "";
    MARGIN "template.margin_mm", [.template.margin] "Printer margin", Number(Length.of(0.0, 100.0)),
        "The border that your printer leaves white";
    OVERLAP "template.overlap_mm", [.template.overlap] "Overlap", Number(Length.of(0.0, 100.0)),
        "What neighboring sheets share";
    MARKING "template.marking", [.template.marking] "Marks", Choice, "";
    HOLE_NAMES "template.names", [.template.names] "Print hole names", Tick, "";
    ROLL "template.roll_mm", [.template.roll] "Width of the roll", Ticked(Length.of(100.0, 5000.0), 700.0),
        "Of the print shop, for the whole board on one sheet; paper cut to size without one";
}

fields! {
    /// The router that follows a hardboard template.
    ROUTER_FIELDS:
    ROUTER "router", [.router] "Make router template", Part, "Of hardboard, for a router with a guide bushing";
    BUSHING "router.bushing_mm", [.router? .bushing] "Guide bushing", Number(BIT), "Its outside diameter";
    ROUTER_BIT "router.bit_mm", [.router? .bit] "Router bit", Number(BIT), "Its diameter; it goes through the bushing";
    BUSHING_REACH "router.reach_mm", [.router? .reach] "Bushing length", Number(Length.of(0.1, 100.0)),
        "How far it stands out below the router's base";
    HARDBOARD "router.hardboard_mm", [.router? .hardboard] "Hardboard", Number(Length.of(0.1, 100.0)), "Its thickness";
    TEMPLATE_CENTER "router.center", [.router? .center] "Template center", Choice, "";
}

fields! {
    /// The template of one sector.
    SECTOR_FIELDS:
    SECTOR_JIG "sector_jig", [.sector_jig] "Make one-player jig", Part,
        "A drilling template of one sector, turned on the pin from player to player";
    INDEX_PINS "sector_jig.pins", [.sector_jig? .pins] "Index pins", Number(Count.of(1.0, 2.0)), "";
    PIN_PLAY "sector_jig.play_mm", [.sector_jig? .play] "Pin slop", Number(Length.of(0.0, 10.0)),
        "By how much a pin is thinner than its hole";
}
