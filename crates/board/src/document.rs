//! The document: everything the maker decides about one board.

use geometry::{Pattern, PocketShape};
use serde::{Deserialize, Serialize};

use crate::serial::{PatternText, PocketShapeText, auto_or_number};
use crate::{
    Base, Bore, Bottom, CircleJig, Coat, Colors, DrillingMethod, DrillingOrder, DxfRelease, Edit,
    Errors, Filling, Grooves, Limits, Machine, Measured, Panel, Passage, Piece, Price, Recess,
    Router, Schedule, ScrewCircle, SectorJig, SheetLayout, Stock, Tools, Units, Wood, WrongHole,
};

/// Everything the maker decides about one board. Lengths are in mm, in whichever unit they are shown.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Board {
    /// The maker's name for the board.
    pub title: String,
    /// The unit in which lengths are shown.
    pub units: Units,
    /// Number of players.
    pub players: u32,
    /// The shape of the track.
    #[serde(with = "PatternText")]
    pub pattern: Pattern,
    /// Track spaces per player.
    pub spaces: u32,
    /// Home-lane holes per player.
    pub home: u32,
    /// Start-pocket holes per player.
    pub start: u32,
    /// Straight distance between the centers of neighbors along the track.
    #[serde(rename = "pitch_mm")]
    pub pitch: f64,
    /// Bearing of the first player's axis, in degrees clockwise from 12 o'clock.
    #[serde(rename = "rotation_deg")]
    pub rotation: f64,
    /// Shape and position of the start pockets.
    pub pocket: Pocket,
    /// The hole at the center pin.
    pub center: Center,
    /// The bores, by role.
    pub bores: Bores,
    /// V-grooves in the top face; none: not planned.
    #[serde(default)]
    pub grooves: Option<Grooves>,
    /// The pieces of the game.
    pub piece: Piece,
    /// The finished board.
    pub blank: Blank,
    /// The wood it is made of.
    #[serde(default)]
    pub stock: Stock,
    /// The joints of that wood.
    #[serde(default)]
    pub panel: Panel,
    /// Circles of screws in the underside.
    #[serde(default)]
    pub screws: Vec<ScrewCircle>,
    /// Its species, and the air it will live in; none: not considered.
    #[serde(default)]
    pub wood: Option<Wood>,
    /// The base under the board; none: not planned.
    #[serde(default)]
    pub base: Option<Base>,
    /// An opening that the board must fit through; none: not considered.
    #[serde(default)]
    pub passage: Option<Passage>,
    /// Storage in the underside; none: not planned.
    #[serde(default)]
    pub recess: Option<Recess>,
    /// Resin in the bores; none: not planned.
    #[serde(default)]
    pub filling: Option<Filling>,
    /// Colors of the players and of the board.
    #[serde(default)]
    pub colors: Colors,
    /// Coats of finish, from the wood up; empty: not planned.
    #[serde(default)]
    pub finish: Vec<Coat>,
    /// The jig the circle is cut on.
    pub jig: CircleJig,
    /// The bits and guide bushings that the maker owns.
    #[serde(default)]
    pub tools: Tools,
    /// The limits that the checks compare the board against.
    pub limits: Limits,
    /// The drilling template, as drawn and printed.
    pub template: Template,
    /// The router for a hardboard template; none: no such template is made.
    #[serde(default)]
    pub router: Option<Router>,
    /// A template of one sector that is rotated from player to player; none: no such template is made.
    #[serde(default)]
    pub sector_jig: Option<SectorJig>,
    /// How the holes are drilled.
    #[serde(default)]
    pub method: DrillingMethod,
    /// The order in which the holes are drilled.
    #[serde(default)]
    pub order: DrillingOrder,
    /// The CNC machine; none: no program is made.
    #[serde(default)]
    pub machine: Option<Machine>,
    /// The errors to be expected from each step of the work.
    #[serde(default)]
    pub errors: Errors,
    /// Hand edits, in the order they were made.
    pub edits: Vec<Edit>,
    /// Distances measured after the work.
    #[serde(default)]
    pub measured: Measured,
    /// Holes that went wrong.
    #[serde(default)]
    pub wrong: Vec<WrongHole>,
    /// The order: how many boards, and when.
    #[serde(default)]
    pub schedule: Schedule,
    /// Prices, rates, margin and tax.
    #[serde(default)]
    pub price: Price,
}

/// Shape and position of a start pocket; its center is given relative to the player's axis and the center pin.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pocket {
    /// The arrangement of its holes.
    #[serde(with = "PocketShapeText")]
    pub shape: PocketShape,
    /// Bearing of its center from the player's axis, in degrees clockwise; none: where the most wood remains.
    #[serde(rename = "bearing_deg", with = "auto_or_number")]
    pub bearing: Option<f64>,
    /// Distance of its center from the center pin; none: where the most wood remains.
    #[serde(rename = "radius_mm", with = "auto_or_number")]
    pub radius: Option<f64>,
}

/// The hole at the center pin.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum Center {
    /// No hole.
    Nothing,
    /// A hole for the pin of the circle jig.
    Pivot {
        /// Its diameter.
        #[serde(rename = "diameter_mm")]
        diameter: f64,
        /// Its depth.
        #[serde(rename = "depth_mm")]
        depth: f64,
    },
    /// A playing hole, with a smaller pilot hole for the jig's pin at its center.
    Hole {
        /// The playing hole.
        bore: Bore,
        /// Diameter of the pilot.
        #[serde(rename = "pilot_mm")]
        pilot: f64,
    },
}

impl Center {
    /// Diameter of the hole that the circle jig's pin goes into, if there is one.
    pub const fn pilot(&self) -> Option<f64> {
        match self {
            Self::Nothing => None,
            Self::Pivot { diameter, .. } => Some(*diameter),
            Self::Hole { pilot, .. } => Some(*pilot),
        }
    }

    /// The bore drilled there, if there is one.
    pub const fn bore(&self) -> Option<Bore> {
        match self {
            Self::Nothing => None,
            Self::Pivot { diameter, depth } => Some(Bore {
                diameter: *diameter,
                depth: *depth,
                bottom: Bottom::Flat,
            }),
            Self::Hole { bore, .. } => Some(*bore),
        }
    }
}

/// The bores, by role.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bores {
    /// Of the track spaces.
    pub track: Bore,
    /// Of the home lanes.
    pub home: Bore,
    /// Of the start pockets.
    pub start: Bore,
    /// Length of a Forstner bit's spur below the floor it cuts.
    #[serde(rename = "spur_mm", default = "Bores::usual_spur")]
    pub spur: f64,
}

impl Bores {
    /// Common for Forstner bits of this size, whose spurs are 1 to 4 mm long; from memory.
    const fn usual_spur() -> f64 {
        2.5
    }

    /// The same bore in every role.
    pub const fn all(bore: Bore) -> Self {
        Self {
            track: bore,
            home: bore,
            start: bore,
            spur: Self::usual_spur(),
        }
    }
}

/// The finished board, cut to a circle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Blank {
    /// Diameter of the finished board.
    #[serde(rename = "diameter_mm")]
    pub diameter: f64,
    /// Thickness of the finished board.
    #[serde(rename = "thickness_mm")]
    pub thickness: f64,
    /// Radius of the roundover along the top edge; 0 for a sharp edge.
    #[serde(rename = "roundover_mm")]
    pub roundover: f64,
}

impl Blank {
    /// Radius of the board, mm.
    pub const fn radius(&self) -> f64 {
        self.diameter / 2.0
    }

    /// Radius at which the flat top ends and the roundover begins, mm.
    pub const fn flat_radius(&self) -> f64 {
        self.radius() - self.roundover
    }
}

/// The drilling template, as drawn and printed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Template {
    /// The printer's paper.
    pub paper: Paper,
    /// Margin that the printer leaves blank on every side.
    #[serde(rename = "margin_mm")]
    pub margin: f64,
    /// Overlap of neighboring sheets.
    #[serde(rename = "overlap_mm")]
    pub overlap: f64,
    /// What the sheet layout optimizes.
    #[serde(default)]
    pub layout: SheetLayout,
    /// The marks at a bore.
    pub marking: Marking,
    /// Whether holes carry their names.
    pub names: bool,
    /// Width of a print shop's roll that the whole board is printed on; none: paper cut to size.
    #[serde(rename = "roll_mm", default)]
    pub roll: Option<f64>,
    /// The release of the DXF format that the whole board is written in.
    #[serde(default)]
    pub dxf: DxfRelease,
}

/// The printer's paper, by its name in ISO 216 or ANSI/ASME Y14.1, or by its dimensions.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase", deny_unknown_fields)]
pub enum Paper {
    /// ISO 216 A4.
    A4,
    /// ISO 216 A3.
    A3,
    /// ANSI A, US letter.
    Letter,
    /// Legal.
    Legal,
    /// ANSI B, tabloid.
    Tabloid,
    /// Any other.
    Custom {
        /// The side across the paper's path through the printer; may be the shorter or the longer one.
        #[serde(rename = "width_mm")]
        width: f64,
        /// The other side.
        #[serde(rename = "height_mm")]
        height: f64,
    },
}

/// The marks at a bore on the template.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Marking {
    /// The outline of the bore and a cross at its center.
    Both,
    /// The cross alone.
    Crosses,
    /// The outline alone.
    Circles,
}

impl Marking {
    /// Every marking, in the order lists show them.
    pub const ALL: [Self; 3] = [Self::Both, Self::Crosses, Self::Circles];

    /// The words that screens use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Both => "circles and crosses",
            Self::Crosses => "crosses",
            Self::Circles => "circles",
        }
    }
}

impl Default for Template {
    fn default() -> Self {
        Self {
            paper: Paper::A4,
            margin: 10.0,
            overlap: 10.0,
            layout: SheetLayout::Fewest,
            marking: Marking::Both,
            names: true,
            roll: None,
            dxf: DxfRelease::R2000,
        }
    }
}

impl Default for Board {
    /// Six players on a ring for 16 mm marbles: 145 holes, including the one at the center.
    fn default() -> Self {
        let bore = Bore {
            diameter: 12.0,
            depth: 5.0,
            bottom: Bottom::Forstner,
        };
        Self {
            title: "Untitled board".into(),
            units: Units::Mm,
            players: 6,
            pattern: Pattern::Ring,
            spaces: 16,
            home: 5,
            start: 3,
            pitch: 19.0,
            rotation: 0.0,
            pocket: Pocket {
                shape: PocketShape::Row,
                bearing: None,
                radius: None,
            },
            center: Center::Hole { bore, pilot: 6.0 },
            bores: Bores::all(bore),
            grooves: None,
            piece: Piece::default(),
            blank: Blank {
                diameter: 640.0,
                thickness: 20.0,
                roundover: 5.0,
            },
            stock: Stock::default(),
            panel: Panel::default(),
            screws: Vec::new(),
            wood: None,
            base: None,
            passage: None,
            recess: None,
            filling: None,
            colors: Colors::default(),
            finish: Vec::new(),
            jig: CircleJig::with_pin(6.0),
            tools: Tools::default(),
            limits: Limits::default(),
            template: Template::default(),
            router: None,
            sector_jig: None,
            method: DrillingMethod::default(),
            order: DrillingOrder::default(),
            machine: None,
            errors: Errors::default(),
            edits: Vec::new(),
            measured: Measured::default(),
            wrong: Vec::new(),
            schedule: Schedule::default(),
            price: Price::default(),
        }
    }
}
