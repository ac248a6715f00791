//! The ranges themselves, named for what they bound.

use super::Range;
use crate::quantity::{
    DensityUnit::{GramsPerCubicCentimeter, GramsPerMilliliter, KilogramsPerCubicMeter},
    MassUnit::{Gram, Kilogram},
    Quantity::{
        Angle, Count, Density, Feed, Force, Length, Mass, Number, Percent, Rotation, Share,
        Temperature, Time, Volume,
    },
    TimeUnit::{Hour, Minute, Second},
};

/// Letters of the title.
pub const TITLE: Range = Range::new("letters of the title", Count, 0.0, 120.0);
/// Players.
pub const PLAYERS: Range = Range::new("players", Count, 1.0, *geometry::PLAYERS.end() as f64);
/// Track spaces a player.
pub const SPACES: Range = Range::new(
    "spaces a player",
    Count,
    1.0,
    *geometry::SPACES.end() as f64,
);
/// Home-lane holes a player.
pub const HOME: Range = Range::new(
    "home holes a player",
    Count,
    0.0,
    geometry::MOST_HOLES as f64,
);
/// Start-pocket holes a player.
pub const START: Range = Range::new(
    "start holes a player",
    Count,
    0.0,
    geometry::MOST_HOLES as f64,
);
/// Depth of lobes.
pub const LOBE_DEPTH: Range = Range::new(
    "depth of the lobes",
    Share,
    *geometry::LOBE_DEPTH.start(),
    *geometry::LOBE_DEPTH.end(),
);
/// Columns of an arm.
pub const ACROSS: Range = Range::new(
    "holes across an arm",
    Count,
    *geometry::ARM_WIDTH.start() as f64,
    *geometry::ARM_WIDTH.end() as f64,
);
/// Pitch.
pub const PITCH: Range = Range::new(
    "pitch",
    Length,
    *geometry::PITCH.start(),
    *geometry::PITCH.end(),
);
/// Rotation of the whole pattern.
pub const ROTATION: Range = Range::new("rotation", Angle, -360.0, 360.0);
/// Bearing of the middle of a start pocket from the player's axis.
pub const POCKET_BEARING: Range = Range::new("bearing of the start pocket", Angle, -180.0, 180.0);
/// Distance of the middle of a start pocket from the center pin.
pub const POCKET_RADIUS: Range = Range::new("radius of the start pocket", Length, 0.0, 5000.0);
/// Diameter of a bore.
pub const BORE_DIAMETER: Range = Range::new("bore diameter", Length, 0.1, 500.0);
/// Depth of a bore.
pub const BORE_DEPTH: Range = Range::new("bore depth", Length, 0.0, 500.0);
/// Diameter of the pilot or pivot at the center pin.
pub const PILOT: Range = Range::new("pilot diameter", Length, 0.1, 100.0);
/// Diameter of a piece.
pub const PIECE: Range = Range::new("piece diameter", Length, 0.1, 500.0);
/// Height of a peg or magnet piece.
pub const PIECE_HEIGHT: Range = Range::new("height of a piece", Length, 0.1, 500.0);
/// Diameter of what goes into the hole.
pub const SHANK: Range = Range::new("shank or set ball", Length, 0.1, 500.0);
/// Age of the youngest player.
pub const YOUNGEST: Range = Range::new("age of the youngest, years", Count, 0.0, 99.0);
/// What a piece weighs.
pub const PIECE_MASS: Range = Range::new("weight of a piece", Mass(Gram), 0.001, 100_000.0);
/// Density of what a piece is made of.
pub const DENSITY: Range = Range::new(
    "density of a piece",
    Density(GramsPerCubicCentimeter),
    0.01,
    25.0,
);
/// Thickness of a disc set into a hole.
pub const DISC: Range = Range::new("thickness of the disc", Length, 0.01, 100.0);
/// Pull of a magnet.
pub const PULL: Range = Range::new("pull of the magnet", Force, 0.0, 10_000.0);
/// Friction of a piece on the board.
pub const FRICTION: Range = Range::new("friction of the piece", Number, 0.01, 5.0);
/// Diameter or thickness of a magnet.
pub const MAGNET: Range = Range::new("size of the magnet", Length, 0.1, 200.0);
/// What is between a magnet and what it holds on.
pub const MAGNET_GAP: Range = Range::new("gap of the magnet", Length, 0.0, 100.0);
/// Letters of a species.
pub const SPECIES: Range = Range::new("letters of the species", Count, 0.0, 60.0);
/// Moisture of the wood.
pub const MOISTURE: Range = Range::new("moisture of the wood", Percent, 0.0, 30.0);
/// Change of width for 1 % of moisture.
pub const WOOD_CHANGE: Range = Range::new("change for 1 % of moisture", Share, 0.0, 0.01);
/// Density of wood at 12 % moisture.
pub const WOOD_DENSITY: Range = Range::new(
    "density of the wood",
    Density(KilogramsPerCubicMeter),
    50.0,
    1700.0,
);
/// Relative humidity.
pub const HUMIDITY: Range = Range::new("relative humidity", Percent, 0.0, 100.0);
/// Circle on which a base stands.
pub const FOOTING: Range = Range::new("footing of the base", Length, 1.0, 5000.0);
/// Feet of a base.
pub const FEET: Range = Range::new("feet of the base", Count, 3.0, 60.0);
/// Height of a base.
pub const BASE_HEIGHT: Range = Range::new("height of the base", Length, 0.0, 1000.0);
/// A load, or the board itself.
pub const LOAD: Range = Range::new("load", Mass(Kilogram), 0.0, 10_000.0);
/// Push on the rim that may tip the board.
pub const TIP: Range = Range::new("push that tips the board", Force, 0.0, 10_000.0);
/// Speed of turning the board.
pub const SPIN: Range = Range::new("speed of turning", Rotation, 0.0, 1000.0);
/// Reach of a Forstner bit's spur.
pub const SPUR: Range = Range::new("spur of the Forstner bit", Length, 0.0, 50.0);
/// Width of a groove.
pub const GROOVE_WIDTH: Range = Range::new("width of the grooves", Length, 0.1, 50.0);
/// Angle between the sides of a V bit.
pub const V_ANGLE: Range = Range::new("angle of the V bit", Angle, 10.0, 170.0);
/// Flat at the tip of a V bit.
pub const V_TIP: Range = Range::new("tip of the V bit", Length, 0.0, 50.0);
/// Wood left beside a groove.
pub const BESIDE_GROOVE: Range = Range::new("wood beside the groove", Length, 0.0, 500.0);
/// Where the lines between sectors begin.
pub const SECTORS_FROM: Range = Range::new("start of the sector lines", Length, 0.0, 2500.0);
/// A coordinate in the blank's frame.
pub const STOCK_PLACE: Range = Range::new("place on the blank", Length, -20_000.0, 20_000.0);
/// A side of the blank.
pub const STOCK_SIDE: Range = Range::new("side of the blank", Length, 1.0, 20_000.0);
/// How far a waney edge runs in.
pub const WANEY: Range = Range::new("offset of a waney edge", Length, 0.0, 20_000.0);
/// Offsets along one waney edge, or corners of an outline.
pub const CORNERS: Range = Range::new("corners of an outline", Count, 0.0, 10_000.0);
/// Flaws of a blank.
pub const FLAWS: Range = Range::new("flaws of the blank", Count, 0.0, 200.0);
/// Diameter of a round flaw.
pub const FLAW: Range = Range::new("diameter of a flaw", Length, 0.1, 5000.0);
/// Wood outside the finished edge, taken by jointing, or turned to dust by the saw.
pub const ALLOWANCE: Range = Range::new("allowance", Length, 0.0, 200.0);
/// The widest piece the planer takes.
pub const PLANER: Range = Range::new("width of the planer", Length, 10.0, 5000.0);
/// Strips of a panel.
pub const STRIPS: Range = Range::new("strips", Count, 2.0, 60.0);
/// Seams of a panel that is glued already.
pub const SEAMS: Range = Range::new("seams", Count, 0.0, 60.0);
/// How far above the center pin a seam runs.
pub const SEAM: Range = Range::new("place of a seam", Length, -2500.0, 2500.0);
/// Tenons along a seam.
pub const TENONS: Range = Range::new("tenons along a seam", Count, 1.0, 60.0);
/// Any size of a tenon.
pub const TENON: Range = Range::new("size of a tenon", Length, 0.1, 1000.0);
/// Wood between the top face and a mortise.
pub const BELOW_TOP: Range = Range::new("wood over the mortise", Length, 0.0, 500.0);
/// Circles of screws.
pub const SCREW_CIRCLES: Range = Range::new("circles of screws", Count, 0.0, 20.0);
/// Screws on one circle.
pub const SCREWS: Range = Range::new("screws on a circle", Count, 1.0, 60.0);
/// Diameter of a circle of screws.
pub const SCREW_CIRCLE: Range = Range::new("circle of the screws", Length, 0.0, 5000.0);
/// Bearing of the first screw.
pub const SCREW_BEARING: Range = Range::new("bearing of the first screw", Angle, -360.0, 360.0);
/// Diameter of a screw.
pub const SCREW: Range = Range::new("diameter of a screw", Length, 0.1, 100.0);
/// How deep a screw goes.
pub const SCREW_DEPTH: Range = Range::new("depth of a screw", Length, 0.0, 500.0);
/// A side or the diameter of a storage recess.
pub const RECESS: Range = Range::new("side of the recess", Length, 1.0, 5000.0);
/// Radius of the corners of a recess.
pub const RECESS_CORNER: Range = Range::new("corner of the recess", Length, 0.0, 2500.0);
/// A coordinate of the middle of a recess.
pub const RECESS_PLACE: Range = Range::new("place of the recess", Length, -2500.0, 2500.0);
/// Depth of a recess.
pub const RECESS_DEPTH: Range = Range::new("depth of the recess", Length, 0.0, 500.0);
/// Thickness of its lid.
pub const LID: Range = Range::new("lid of the recess", Length, 0.0, 500.0);
/// How far the ledge or groove of a lid reaches beyond the recess.
pub const OVERLAP_OF_LID: Range = Range::new("overlap of the lid", Length, 0.0, 200.0);
/// By how much a lid is narrower than its place.
pub const LID_CLEARANCE: Range = Range::new("clearance of the lid", Length, 0.0, 50.0);
/// How far the sides of a dovetailed groove lean.
pub const DOVETAIL: Range = Range::new("lean of the dovetail", Angle, 1.0, 45.0);
/// Pieces stored beside those that fill the start pockets.
pub const SPARE: Range = Range::new("spare pieces", Count, 0.0, 1000.0);
/// How far below the top face resin ends.
pub const FILL_BELOW: Range = Range::new("resin below the top", Length, 0.0, 500.0);
/// How far the crown of the resin stands over that.
pub const DOME: Range = Range::new("dome of resin", Length, 0.0, 20.0);
/// What is spilled and overfilled, as a share of what goes into the bores.
pub const WASTE: Range = Range::new("waste of resin", Share, 0.0, 2.0);
/// What stays in each cup.
pub const CUP: Range = Range::new("resin left in a cup", Volume, 0.0, 10_000.0);
/// Parts of resin or hardener in a mix.
pub const PARTS: Range = Range::new("parts of the mix", Number, 0.01, 1000.0);
/// Density of mixed resin.
pub const RESIN_DENSITY: Range = Range::new(
    "density of the resin",
    Density(GramsPerMilliliter),
    0.5,
    5.0,
);
/// Boards that are filled one after the other.
pub const FILLED_BOARDS: Range = Range::new("boards to fill", Count, 1.0, 50.0);
/// How long a batch is mixed.
pub const MIXING: Range = Range::new("time to mix a batch", Time(Minute), 0.0, 1000.0);
/// What is mixed at once.
pub const BATCH: Range = Range::new("batch of resin", Volume, 0.1, 100_000.0);
/// Pot life by the label.
pub const POT_LIFE: Range = Range::new("pot life", Time(Minute), 0.1, 100_000.0);
/// A temperature.
pub const TEMPERATURE: Range = Range::new("temperature", Temperature, -40.0, 80.0);
/// Time for ten bores.
pub const TEN_BORES: Range = Range::new("time for ten bores", Time(Second), 0.1, 100_000.0);
/// Coats of finish.
pub const COATS: Range = Range::new("coats of finish", Count, 0.0, 60.0);
/// How long a coat dries.
pub const DRIES: Range = Range::new("time a coat dries", Time(Hour), 0.0, 100_000.0);
/// Outside diameter of a guide bushing.
pub const BUSHING: Range = Range::new("guide bushing", Length, 0.1, 200.0);
/// Diameter of a router bit.
pub const BIT: Range = Range::new("router bit", Length, 0.1, 200.0);
/// How far a guide bushing stands out.
pub const BUSHING_REACH: Range = Range::new("reach of the guide bushing", Length, 0.1, 100.0);
/// Thickness of a hardboard template.
pub const HARDBOARD: Range = Range::new("thickness of the hardboard", Length, 0.1, 100.0);
/// Index pins of a sector jig.
pub const INDEX_PINS: Range = Range::new("index pins", Count, 1.0, 2.0);
/// Play of a pin in its hole.
pub const PIN_PLAY: Range = Range::new("play of the pins", Length, 0.0, 10.0);
/// Width of a cut.
pub const KERF: Range = Range::new("width of the cut", Length, 0.0, 100.0);
/// Index plates in the shop.
pub const PLATES: Range = Range::new("index plates", Count, 0.0, 40.0);
/// Divisions of an index plate.
pub const DIVISIONS: Range = Range::new("divisions of an index plate", Count, 1.0, 100_000.0);
/// Height of a bit above the top face.
pub const BIT_HEIGHT: Range = Range::new("height of the bit", Length, 0.001, 1000.0);
/// How far a bit may reach into a spoilboard.
pub const THROUGH: Range = Range::new("reach into the spoilboard", Length, 0.0, 100.0);
/// A wait of the machine.
pub const WAIT: Range = Range::new("wait of the machine", Time(Second), 0.0, 600.0);
/// Bits of a machine.
pub const MACHINE_BITS: Range = Range::new("bits of the machine", Count, 0.0, 100.0);
/// Turns of a spindle.
pub const SPEED: Range = Range::new("spindle speed", Rotation, 1.0, 200_000.0);
/// Feed of a machine, a minute.
pub const FEED: Range = Range::new("feed a minute", Feed, 0.001, 100_000.0);
/// How much deeper each peck or pass goes.
pub const PASS: Range = Range::new("depth of a pass", Length, 0.001, 500.0);
/// Wood left under a cut.
pub const SKIN: Range = Range::new("skin below the cut", Length, 0.0, 500.0);
/// A share of a marble's diameter.
pub const SEAT: Range = Range::new("share of the marble in its seat", Share, 0.0, 0.5);
/// A risk.
pub const RISK: Range = Range::new("risk of a thin web", Share, 0.0, 1.0);
/// Error of the printer's scale.
pub const PRINT_ERROR: Range = Range::new("error of the print scale", Share, 0.0, 0.2);
/// An error of one step of the work.
pub const ERROR: Range = Range::new("error", Length, 0.0, 50.0);
/// Error of indexing.
pub const INDEX_ERROR: Range = Range::new("error of indexing", Angle, 0.0, 20.0);
/// Diameter of the board.
pub const BOARD: Range = Range::new("board diameter", Length, 1.0, 5000.0);
/// Thickness of the board.
pub const THICKNESS: Range = Range::new("board thickness", Length, 0.5, 500.0);
/// Roundover of the top edge.
pub const ROUNDOVER: Range = Range::new("roundover", Length, 0.0, 200.0);
/// Diameter of the circle jig's pin.
pub const PIN: Range = Range::new("pin of the circle jig", Length, 0.1, 100.0);
/// Any limit of the checks that is a length.
pub const LIMIT: Range = Range::new("limit", Length, 0.0, 200.0);
/// Sheets the maker cares to tape together.
pub const SHEETS: Range = Range::new("most sheets", Count, 1.0, 400.0);
/// A side of custom paper.
pub const PAPER: Range = Range::new("side of the paper", Length, 30.0, 5000.0);
/// Margin of the printer.
pub const MARGIN: Range = Range::new("printer margin", Length, 0.0, 100.0);
/// What neighboring sheets share.
pub const OVERLAP: Range = Range::new("overlap of sheets", Length, 0.0, 100.0);
/// Width of a plotter's roll.
pub const ROLL: Range = Range::new("width of the roll", Length, 100.0, 5000.0);
/// Number of a hole that an edit is about.
pub const HOLE_NUMBER: Range = Range::new("number of a hole changed by hand", Count, 1.0, 9999.0);
/// How far an edit moves a hole, or where it adds one.
pub const OFFSET: Range = Range::new("offset of a hole", Length, -5000.0, 5000.0);
