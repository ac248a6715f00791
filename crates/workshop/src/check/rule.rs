//! The index of rules: the name of each, and the module that checks it.

use board::Units;
use serde::Serialize;

use crate::{
    Finding, Workpiece, base, blank, bores, calendar, check, colors, filling, finish, grooves,
    hardboard, jig, price, recess, repair, template, wood,
};

macro_rules! rules {
    ($($(#[$doc:meta])* $rule:ident, $label:literal, $($file:ident)::+;)+) => {
        /// The rules.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
        #[serde(rename_all = "snake_case")]
        pub enum Rule {
            $($(#[$doc])* $rule,)+
        }

        impl Rule {
            /// Every rule, in the order of checking.
            pub const ALL: &[Self] = &[$(Self::$rule,)+];

            /// The name of the rule in a word or two.
            pub const fn label(self) -> &'static str {
                match self {
                    $(Self::$rule => $label,)+
                }
            }

            /// The rule as a sentence with the source of its limit, in the maker's units.
            pub fn statement(self, units: Units) -> String {
                units.spell(match self {
                    $(Self::$rule => $($file::)+STATEMENT,)+
                })
            }
        }

        /// Every finding about a workpiece, worst first; equals are in the order of the rules.
        pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
            let mut findings: Vec<Finding> = Vec::new();
            $(findings.extend($($file::)+check(workpiece));)+
            findings.sort_by_key(|finding| finding.severity);
            findings
        }
    };
}

rules! {
    /// Wood between two bores.
    Web, "wood between holes", check::web;
    /// Wood between a bore and the roundover.
    Rim, "rim margin", check::rim;
    /// The roundover of the top edge.
    Roundover, "roundover", check::roundover;
    /// Wood under a blind bore.
    Floor, "wood under holes", bores::check::floor;
    /// Wood between a bore and a mortise, screw or recess inside the board.
    Inside, "cuts inside the board", bores::check::inside;
    /// Bores on or beside a seam.
    Seam, "seam", blank::check::seam;
    /// Grooves beside bores, and lines without room.
    GrooveBores, "grooves near holes", grooves::check::bores;
    /// Grooves close beside each other.
    GrooveSides, "grooves side by side", grooves::check::sides;
    /// Grooves that leave the flat top.
    GrooveRim, "grooves at the rim", grooves::check::rim;
    /// Depth of the grooves, and wood under them.
    GrooveDepth, "groove depth", grooves::check::depth;
    /// The center pilot against the circle jig's pin.
    Pilot, "center pilot", bores::check::pilot;
    /// Room between neighboring pieces.
    Pieces, "room for pieces", bores::check::pieces;
    /// A piece in its bore.
    Seat, "fit of the pieces", bores::check::seat;
    /// Bits the maker owns.
    OwnedBits, "bits you own", bores::check::owned;
    /// Holes within the reach of the drill press.
    Throat, "drill press", jig::check;
    /// Hardboard between two holes of a router template.
    TemplateWeb, "template hardboard", hardboard::check::web;
    /// The guide bushing in the hardboard.
    Bushing, "guide bushing", hardboard::check::bushing;
    /// Length, edges and shank of the router's bit.
    RouterBit, "router bit", hardboard::check::bit;
    /// The router bit and the guide bushing the maker owns.
    OwnedRouter, "router bits you own", hardboard::check::owned;
    /// The combined errors of a sector jig.
    SectorJig, "sector jig", hardboard::check::sector;
    /// The webs that the errors of the work may leave.
    Risk, "risk of thin wood", template::check::risk;
    /// The board on its blank.
    Stock, "blank", blank::check::stock;
    /// Pieces of wood that fit the planer.
    Planer, "planer", blank::check::planer;
    /// Tenons, mortises and screws.
    Joinery, "tenons and screws", blank::check::joinery;
    /// Storage in the underside.
    Storage, "storage", recess::check::storage;
    /// The lid of the storage recess through the seasons.
    Lid, "lid", recess::check::lid;
    /// Species, moisture and seasons.
    Wood, "wood", wood::check;
    /// Turntable or feet.
    Base, "base", base::check;
    /// Pieces on a board that is turned.
    Spin, "turning", bores::check::spin;
    /// Reach of the players, and a rim to hold.
    Reach, "reach and grip", check::reach;
    /// The way to the table: the opening, and the weight.
    Carry, "carrying", check::carry;
    /// Resin in the bores.
    Filling, "filling", filling::check;
    /// The players' colors and marks.
    PlayerColors, "players' colors", colors::check::players;
    /// Colors against the wood.
    ColorOnWood, "color against the wood", colors::check::wood;
    /// Media in places where they cannot be used.
    ColorMedium, "how colors are applied", colors::check::medium;
    /// Room for the players' marks.
    MarkRoom, "room for marks", colors::check::marks;
    /// Coats of finish.
    Finish, "finish", finish::check;
    /// Paper joints of the template near hole centers.
    Joints, "joints", template::check::joint;
    /// Sheets of the template.
    Sheets, "sheets", template::check::sheets;
    /// The players.
    Players, "child safety", check::players;
    /// Prices, rates and margin of the order.
    Price, "price", price::check;
    /// Hand edits that wait for their hole.
    Edits, "edited holes", check::edits;
    /// Distances measured after the work.
    Readings, "measured distances", repair::check::readings;
    /// Holes that went wrong.
    WrongHoles, "misdrilled holes", repair::check::holes;
    /// Days: the promise, hours, ticks.
    Calendar, "calendar", calendar::check;
}
