//! The jig that the circle is cut on.

use crate::Quantity::{Count, Length};
use crate::field::Kind::{Number, Numbers, Ticked};

fields! {
    /// The jig the circle is cut on.
    JIG_FIELDS:
    JIG_PIN "jig.pin_mm", [.jig.pin] "Jig pin", Number(Length.of(0.1, 100.0)), "The pin that the circle jig turns on", us: "1/4", of shop;
    JIG_KERF "jig.kerf_mm", [.jig.kerf] "Kerf", Number(Length.of(0.0, 100.0)),
        "Width of the blade or bit that runs around the board", us: "1/8", of shop;
    PLATES "jig.plates", [.jig.plates] "Index plates",
        Numbers {
            each: Count.of(1.0, 100_000.0),
            count: Count.range("number of index plates", 0.0, 40.0),
            example: "24; 36; 48",
        },
        "Divisions of the plates in your shop", of shop;
    THROAT "jig.throat_mm", [.jig.throat] "Drill press throat", Ticked(Length.of(10.0, 2000.0), 150.0),
        "From the middle of the chuck to the column: half of the size that the press is sold as; a press sold as {300 mm has 150 \
         mm|12\" has 6\"} (from memory)", us: "6", of shop;
}
