//! The hardboard templates: for the router, and of one sector.

use crate::Quantity::{Count, Length};
use crate::field::Kind::{Choice, Number, Open, Part};
use crate::{Range, Router, SectorJig, TemplateCenter};

/// Diameter of a router bit.
pub(super) const BIT: Range = Length.of(0.1, 200.0);

/// A length along the bit.
const BIT_LENGTH: Range = Length.of(0.1, 300.0);
/// The words for a bit dimension that is left open.
const NOT_MEASURED: &str = "not measured";

fields! {
    /// The router that follows a hardboard template.
    ROUTER_FIELDS:
    ROUTER "router", [.router] "Make router template", Part, "Of hardboard, for a router with a guide bushing";
    BUSHING "router.bushing_mm", [.router? .bushing] "Guide bushing", Number(BIT), "Its outside diameter", us: "5/8", of shop;
    ROUTER_BIT "router.bit_mm", [.router? .bit] "Router bit", Number(BIT), "Its diameter; it goes through the bushing", us: "1/2", of shop;
    BUSHING_REACH "router.reach_mm", [.router? .reach] "Bushing length", Number(Length.of(0.1, 100.0)),
        "How far it stands out below the router's base", us: "3/16", of shop;
    BIT_STANDS_OUT "router.stands_out_mm", [.router? .stands_out] "Bit reach", Open(BIT_LENGTH, NOT_MEASURED),
        "Below the router's base, plunged all the way";
    BIT_EDGES "router.edges_mm", [.router? .edges] "Cutting edges", Open(BIT_LENGTH, NOT_MEASURED), "Their length, up from the tip";
    BIT_SHANK "router.shank_mm", [.router? .shank] "Bit shank", Open(BIT, NOT_MEASURED), "Its diameter, above the edges";
    HARDBOARD "router.hardboard_mm", [.router? .hardboard] "Hardboard", Number(Length.of(0.1, 100.0)), "Its thickness", us: "1/4", of shop;
    TEMPLATE_CENTER "router.center", [.router? .center] "Template center", Choice, "";
}

fields! {
    /// The template of one sector.
    SECTOR_FIELDS:
    SECTOR_JIG "sector_jig", [.sector_jig] "Make one-player jig", Part,
        "A drilling template of one sector, turned on the pin from player to player";
    INDEX_PINS "sector_jig.pins", [.sector_jig? .pins] "Index pins", Number(Count.of(1.0, 2.0)), "";
    PIN_PLAY "sector_jig.play_mm", [.sector_jig? .play] "Pin slop", Number(Length.of(0.0, 10.0)),
        "By how much a pin is thinner than its hole", us: "0.004";
}

plain!(TemplateCenter);
usual!(Router, SectorJig);
