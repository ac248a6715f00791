//! The bits and guide bushings that the maker owns.

use super::hardboard::BIT;
use crate::Quantity::{Count, Length};
use crate::Range;
use crate::field::Kind::{self, Numbers};

/// The number of tools: as many as a drawer holds.
const TOOLS: Range = Count.range("number of bits or bushings", 0.0, 60.0);
/// Diameters of bits or bushings.
const DIAMETERS: Kind = Numbers {
    each: BIT,
    count: TOOLS,
    example: "{10, 12, 15|3/8, 1/2, 5/8}",
};

fields! {
    /// The bits and guide bushings that the maker owns.
    TOOLS_FIELDS:
    FORSTNER_BITS "tools.forstner_mm", [.tools.forstner] "Forstner bits you own", DIAMETERS,
        "Brad-point bits too; leave empty to skip this check", of shop;
    STRAIGHT_BITS "tools.straight_mm", [.tools.straight] "Straight router bits you own", DIAMETERS, "Their diameters", of shop;
    ROUND_NOSE_BITS "tools.round_nose_mm", [.tools.round_nose] "Round-nose bits you own", DIAMETERS,
        "Diameters of router bits that leave a round bottom", of shop;
    BUSHINGS "tools.bushings_mm", [.tools.bushings] "Guide bushings you own", DIAMETERS, "Their outside diameters", of shop;
    BUSHING_LENGTHS "tools.bushing_lengths_mm", [.tools.bushing_lengths] "Bushing lengths",
        Numbers {
            each: Length.of(0.1, 100.0),
            count: TOOLS,
            example: "{5, 8|3/16, 5/16}",
        },
        "Below the router's base, in the order of the bushings; a single length counts for all of them", of shop;
}
