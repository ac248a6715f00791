//! The limits that the checks compare a board against, and the errors to be expected from each step of the work.

use crate::Quantity::{Angle, Count, Force, Length, Mass, Rotation, Share};
use crate::field::Kind::Number;
use crate::{MassUnit, Range};

/// Wood, gaps and play that a check compares a board against; 0 switches the check off.
const LIMIT: Range = Length.of(0.0, 200.0);
/// The fraction of a ball's diameter below the rim: at one half, the ball is widest at the rim.
const SEAT: Range = Share.of(0.0, 0.5);
/// The error of one step of the work.
const ERROR: Range = Length.of(0.0, 50.0);

fields! {
    /// The limits of the checks; their defaults are common practice, no source.
    LIMIT_FIELDS:
    LEAST_WEB "limits.web_mm", [.limits.web] "Least wood between holes", Number(LIMIT), "Wood between two holes", us: "1/8";
    LEAST_RIM "limits.rim_mm", [.limits.rim] "Least rim margin", Number(LIMIT),
        "Wood between a hole and the start of the roundover", us: "1/4";
    LEAST_FLOOR "limits.floor_mm", [.limits.floor] "Least under a hole", Number(LIMIT),
        "Wood under a hole, point or spur included", us: "5/32";
    LEAST_INSIDE "limits.inside_mm", [.limits.inside] "Least wood inside", Number(LIMIT),
        "Wood between a hole and a mortise, screw or recess inside the board", us: "1/8";
    LEAST_SEAM "limits.seam_mm", [.limits.seam] "Least to a seam", Number(LIMIT), "From a seam to the edge of a hole", us: "1/32";
    LEAST_GAP "limits.piece_gap_mm", [.limits.piece_gap] "Least piece gap", Number(LIMIT),
        "Between two pieces that stand side by side", us: "1/16";
    MOST_PLAY "limits.piece_play_mm", [.limits.piece_play] "Most piece play", Number(LIMIT),
        "Of a shank or a set ball in its hole", us: "1/32";
    LEAST_SEAT "limits.seat_least", [.limits.seat_least] "Marble sunk, least", Number(SEAT),
        "Share of its diameter below the rim of its hole: sunk less, it rolls out easily";
    MOST_SEAT "limits.seat_most", [.limits.seat_most] "Marble sunk, most", Number(SEAT),
        "Share of its diameter below the rim of its hole: sunk more, it is hard to pick up";
    MOST_PIN_PLAY "limits.pin_play_mm", [.limits.pin_play] "Loosest pin fit", Number(LIMIT), "Of the jig's pin in its pilot hole", us: "1/64";
    LEAST_TEMPLATE "limits.template_web_mm", [.limits.template_web] "Least in a template", Number(LIMIT),
        "Hardboard between two holes of a router template", us: "1/8";
    MOST_SHEETS "limits.sheets", [.limits.sheets] "Most sheets", Number(Count.of(1.0, 400.0)), "To tape together";
    MOST_RISK "limits.risk", [.limits.risk] "Allowed risk", Number(Share.of(0.0, 1.0)),
        "The chance that the wood between any two holes comes out thinner than its limit";
    LEAST_TIP "limits.tip_n", [.limits.tip] "Least tipping push", Number(Force.of(0.0, 10_000.0)),
        "How hard a hand may push down on the rim without tipping the board", us: "2 lbf";
    MOST_SPIN "limits.spin_rpm", [.limits.spin] "Turning speed", Number(Rotation.of(0.0, 1000.0)),
        "Pieces stay in their holes up to this speed";
    REACH "limits.reach_mm", [.limits.reach] "Players' reach", Number(Length.of(0.0, 5000.0)),
        "From the edge of the board; a board that turns is not held to it", us: "24";
    LEAST_HANDS "limits.hands_mm", [.limits.hands] "Hand room at rim", Number(LIMIT),
        "Outside the pieces, on a board that is turned by hand", us: "3/8";
    MOST_CARRIED "limits.carry_kg", [.limits.carry] "Heaviest lift", Number(Mass(MassUnit::Kilogram).of(0.0, 10_000.0)),
        "By one person, the board at arm's length";
}

fields! {
    /// The errors of the work, each a "plus or minus" that is hardly ever exceeded; their defaults are common practice, no
    /// source.
    ERROR_FIELDS:
    PRINT_ERROR "errors.print", [.errors.print] "Print scale error", Number(Share.of(0.0, 0.2)),
        "0.2 % is {2 mm in a meter|1/16\" in 31\"}; measure the bars on a sheet", of shop;
    TAPE_ERROR "errors.tape_mm", [.errors.tape] "Taping error", Number(ERROR), "One joint between two sheets", us: "0.012";
    PUNCH_ERROR "errors.punch_mm", [.errors.punch] "Punching error", Number(ERROR), "Center-punching through the paper", us: "0.012";
    DRILL_ERROR "errors.drill_mm", [.errors.drill] "Drill drift", Number(ERROR), "From the punched mark", us: "0.012";
    OVERSIZE "errors.oversize_mm", [.errors.oversize] "Oversize", Number(ERROR),
        "How much wider than the bit a hole comes out", us: "0.004";
    INDEX_ERROR "errors.index_deg", [.errors.index] "Indexing error", Number(Angle.of(0.0, 20.0)),
        "If the board is turned from hole to hole; 0 if it is not";
}
