//! The joints of the board, and the screws in its underside.

use super::blank::ALLOWANCE;
use crate::Quantity::{Angle, Count, Length};
use crate::field::Kind::{Choice, Entries, Number, Numbers, Part};
use crate::{Board, Build, Range, ScrewCircle, Tenons};

/// Dimensions of a tenon.
const TENON: Range = Length.of(0.1, 1000.0);

fields! {
    /// The joints of the board, and the list of its screws.
    JOINING_FIELDS:
    BUILD "panel.build.kind", [.panel.build] "Made of", Choice, "";
    STRIPS "panel.build.count", [.panel.build {Build::Strips => count}] "Strips", Number(Count.of(2.0, 60.0)),
        "Of equal width";
    SEAMS "panel.build.at_mm", [.panel.build {Build::Seams => at}] "Seams above pin",
        Numbers { each: Length.of(-2500.0, 2500.0), count: Count.range("seams", 0.0, 60.0), example: "{-90; 0; 90|-3 1/2; 0; 3 1/2}" },
        "How far above the center pin each seam of the glued panel runs; negative is below";
    JOINT "panel.joint_mm", [.panel.joint] "Removed by the jointer", Number(ALLOWANCE), "What the jointer takes off each glued edge", us: "1/16", of shop;
    PANEL_KERF "panel.kerf_mm", [.panel.kerf] "Saw kerf", Number(ALLOWANCE), "The width of wood that each cut removes", us: "1/8", of shop;
    PLANER "panel.planer_mm", [.panel.planer] "Planer width", Number(Length.of(10.0, 5000.0)),
        "The widest piece that your planer takes", us: "12 1/2", of shop;
    TENONS "panel.tenons", [.panel.tenons] "Use loose tenons", Part, "Across the seams";
    TENON_COUNT "panel.tenons.count", [.panel.tenons? .count] "Tenons per seam", Number(Count.of(1.0, 60.0)), "";
    TENON_SPACING "panel.tenons.spacing_mm", [.panel.tenons? .spacing] "Tenon spacing", Number(TENON),
        "From the middle of one to the middle of the next", us: "6";
    TENON_LENGTH "panel.tenons.length_mm", [.panel.tenons? .length] "Tenon length", Number(TENON), "Along the seam", us: "1 1/2";
    TENON_REACH "panel.tenons.reach_mm", [.panel.tenons? .reach] "Tenon reach", Number(TENON), "Into each of the two edges", us: "3/4";
    TENON_THICKNESS "panel.tenons.thickness_mm", [.panel.tenons? .thickness] "Tenon thickness", Number(TENON), "", us: "1/4";
    ABOVE_TENON "panel.tenons.below_top_mm", [.panel.tenons? .below_top] "Below top face", Number(Length.of(0.0, 500.0)),
        "Between the top face and the mortise", us: "1/4";
    SCREWS "screws", [.screws] "Circles of screws", Entries(Count.range("circles of screws", 0.0, 20.0)),
        "Screws of a turntable or of feet, in the underside";
}

fields! {
    /// A circle of screws in the underside.
    SCREW_FIELDS:
    SCREW_COUNT "screws[].count", [.screws[] .count] "Circle #, screws", Number(Count.of(1.0, 60.0)), "";
    SCREW_CIRCLE "screws[].circle_mm", [.screws[] .circle] "Circle #, across", Number(Length.of(0.0, 5000.0)),
        "Diameter of the circle through their middles", us: "4";
    SCREW_BEARING "screws[].bearing_deg", [.screws[] .bearing] "Circle #, angle", Number(Angle.of(-360.0, 360.0)),
        "Of the first one, seen from the top face";
    SCREW_DIAMETER "screws[].diameter_mm", [.screws[] .diameter] "Circle #, diameter", Number(Length.of(0.1, 100.0)),
        "Of the screw or of its pilot hole, whichever is larger", us: "5/32";
    SCREW_DEPTH "screws[].depth_mm", [.screws[] .depth] "Circle #, depth", Number(Length.of(0.0, 500.0)),
        "Into the underside", us: "3/8";
}

kinds! {
    Build, begun by with_a_seam:
    "one piece" => Whole,
    "bookmatched halves" => Halves,
    "strips" => Strips { count: 3 },
    "glued already" => Seams { at: Vec::new() },
}
usual!(Tenons, ScrewCircle);

/// Starts an already glued panel with a seam through the pin.
fn with_a_seam(build: &Build, _: &Board) -> Build {
    match build {
        Build::Seams { .. } => Build::Seams { at: vec![0.0] },
        other => other.clone(),
    }
}
