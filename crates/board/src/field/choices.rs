//! What can be chosen: the words of each kind, and the numbers it begins with.
//!
//! A kind that has numbers of its own begins with usual ones, or with those that fit the board: a pivot with the pin of the jig,
//! feet on a circle as wide as the turntable before them. The words are those of lists on the screen, in their order.

use geometry::{Pattern, PocketShape};

use super::held::{Choice, Part};
use crate::{
    Base, BitRun, Board, Bore, Bottom, Build, Center, Change, Coat, CoatKind, Cut, CutterRun,
    DrillingOrder, EdgeRun, Edit, Filling, FlawKind, FlawShape, Footing, Grooves, HoleId, Insert,
    LidGrain, LidHold, Machine, Magnet, Marking, MixedBy, Paper, PieceKind, ProgramFiles, Recess,
    RecessShape, Rings, Role, Router, ScrewCircle, SectorJig, StockFlaw, StockOutline,
    TemplateCenter, Tenons, Toward, Units, Wood,
};

/// What a kind with a bore begins with where the board has none to take.
const BORE: Bore = Bore {
    diameter: 12.0,
    depth: 5.0,
    bottom: Bottom::Forstner,
};

/// Kinds without numbers, which know their words themselves.
macro_rules! plain {
    ($($kind:ty),+ $(,)?) => {
        $(impl Choice for $kind {
            const KINDS: &'static [Self] = &Self::ALL;

            fn words(&self) -> &'static str {
                self.label()
            }
        })+
    };
}

plain!(
    Bottom,
    CoatKind,
    Cut,
    DrillingOrder,
    FlawKind,
    LidGrain,
    Marking,
    MixedBy,
    PieceKind,
    ProgramFiles,
    TemplateCenter,
    Toward,
);

impl Choice for Units {
    const KINDS: &'static [Self] = &[Self::Mm, Self::Inch];

    fn words(&self) -> &'static str {
        match self {
            Self::Mm => "millimeters",
            Self::Inch => "inches",
        }
    }
}

impl Choice for Pattern {
    const KINDS: &'static [Self] = &[
        Self::Ring,
        Self::Lobes { depth: 0.15 },
        Self::Polygon,
        Self::Arms { across: 3 },
    ];

    fn words(&self) -> &'static str {
        match self {
            Self::Ring => "ring",
            Self::Lobes { .. } => "lobes",
            Self::Polygon => "polygon",
            Self::Arms { .. } => "arms",
        }
    }
}

impl Choice for PocketShape {
    const KINDS: &'static [Self] = &[Self::Row, Self::Arc, Self::Block, Self::Ring];

    fn words(&self) -> &'static str {
        match self {
            Self::Row => "row",
            Self::Arc => "arc",
            Self::Block => "block",
            Self::Ring => "ring",
        }
    }
}

impl Choice for Center {
    const KINDS: &'static [Self] = &[
        Self::Nothing,
        Self::Pivot {
            diameter: 6.0,
            depth: 10.0,
        },
        Self::Hole {
            bore: BORE,
            pilot: 6.0,
        },
    ];

    fn words(&self) -> &'static str {
        match self {
            Self::Nothing => "no hole",
            Self::Pivot { .. } => "pivot for the jig",
            Self::Hole { .. } => "playing hole",
        }
    }

    /// For the jig's pin, and with the track's bore.
    fn begun(&self, board: &Board) -> Self {
        let pin = board.jig.pin;
        match *self {
            Self::Nothing => Self::Nothing,
            Self::Pivot { depth, .. } => Self::Pivot {
                diameter: pin,
                depth,
            },
            Self::Hole { .. } => Self::Hole {
                bore: board.bores.track,
                pilot: pin,
            },
        }
    }
}

impl Choice for Insert {
    /// The disc as thick as is common; no source.
    const KINDS: &'static [Self] = &[Self::Ball, Self::Disc { thickness: 1.5 }];

    fn words(&self) -> &'static str {
        match self {
            Self::Ball => "a steel ball",
            Self::Disc { .. } => "a steel disc",
        }
    }
}

impl Choice for StockOutline {
    const KINDS: &'static [Self] = &[
        Self::Unknown,
        Self::Slab {
            length: 1200.0,
            width: 600.0,
            lower: Vec::new(),
            upper: Vec::new(),
        },
        Self::Corners {
            corners: Vec::new(),
        },
    ];

    fn words(&self) -> &'static str {
        match self {
            Self::Unknown => "not known yet",
            Self::Slab { .. } => "length and width",
            Self::Corners { .. } => "corners",
        }
    }

    /// Corners are those of the outline that there was.
    fn begun(&self, board: &Board) -> Self {
        let before = board.stock.outline.corners();
        match self {
            Self::Corners { .. } => Self::Corners {
                corners: before.unwrap_or_else(|| {
                    vec![[0.0, 0.0], [1200.0, 0.0], [1200.0, 600.0], [0.0, 600.0]]
                }),
            },
            other => other.clone(),
        }
    }
}

impl Choice for FlawShape {
    const KINDS: &'static [Self] = &[
        Self::Round {
            x: 0.0,
            y: 0.0,
            diameter: 30.0,
        },
        Self::Area {
            corners: Vec::new(),
        },
    ];

    fn words(&self) -> &'static str {
        match self {
            Self::Round { .. } => "round",
            Self::Area { .. } => "corners",
        }
    }
}

impl Choice for Build {
    const KINDS: &'static [Self] = &[
        Self::Whole,
        Self::Halves,
        Self::Strips { count: 3 },
        Self::Seams { at: Vec::new() },
    ];

    fn words(&self) -> &'static str {
        match self {
            Self::Whole => "one piece",
            Self::Halves => "bookmatched halves",
            Self::Strips { .. } => "strips",
            Self::Seams { .. } => "glued already",
        }
    }

    /// A panel that is glued already begins with a seam through the pin.
    fn begun(&self, _: &Board) -> Self {
        match self {
            Self::Seams { .. } => Self::Seams { at: vec![0.0] },
            other => other.clone(),
        }
    }
}

impl Choice for Footing {
    const KINDS: &'static [Self] = &[
        Self::Round { diameter: 304.8 },
        Self::Feet {
            count: 3,
            circle: 304.8,
        },
    ];

    fn words(&self) -> &'static str {
        match self {
            Self::Round { .. } => "a turntable, or round",
            Self::Feet { .. } => "feet",
        }
    }

    /// As wide as the footing before it.
    fn begun(&self, board: &Board) -> Self {
        match (*self, board.base.map(|base| base.footing)) {
            (Self::Round { .. }, Some(Self::Feet { circle, .. })) => {
                Self::Round { diameter: circle }
            }
            (Self::Feet { count, .. }, Some(Self::Round { diameter })) => Self::Feet {
                count,
                circle: diameter,
            },
            (footing, _) => footing,
        }
    }
}

impl Choice for RecessShape {
    const KINDS: &'static [Self] = &[
        Self::Round { diameter: 120.0 },
        Self::Straight {
            length: 120.0,
            width: 120.0,
            corner: 0.0,
        },
    ];

    fn words(&self) -> &'static str {
        match self {
            Self::Round { .. } => "round",
            Self::Straight { .. } => "rectangular",
        }
    }

    /// As large as the outline before it.
    fn begun(&self, board: &Board) -> Self {
        let (length, width) = board
            .recess
            .map_or_else(|| self.sides(), |recess| recess.shape.sides());
        match *self {
            Self::Round { .. } => Self::Round { diameter: width },
            Self::Straight { corner, .. } => Self::Straight {
                length,
                width,
                corner,
            },
        }
    }
}

impl Choice for LidHold {
    /// A common dovetail bit leans 14°, of included 28°; from memory.
    const KINDS: &'static [Self] = &[
        Self::LiesIn,
        Self::Slides {
            angle: 14.0,
            toward: Toward::Right,
        },
    ];

    fn words(&self) -> &'static str {
        match self {
            Self::LiesIn => "lies in, turn buttons",
            Self::Slides { .. } => "slides in a dovetail",
        }
    }
}

impl Choice for Paper {
    const KINDS: &'static [Self] = &[
        Self::A4,
        Self::A3,
        Self::Letter,
        Self::Legal,
        Self::Tabloid,
        Self::Custom {
            width: 210.0,
            height: 297.0,
        },
    ];

    fn words(&self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::A3 => "A3",
            Self::Letter => "Letter",
            Self::Legal => "Legal",
            Self::Tabloid => "Tabloid",
            Self::Custom { .. } => "custom paper",
        }
    }
}

impl Choice for Change {
    const KINDS: &'static [Self] = &[
        Self::Move { u: 0.0, v: 0.0 },
        Self::Drop,
        Self::Bore { bore: BORE },
        Self::Add {
            u: 0.0,
            v: 0.0,
            bore: BORE,
        },
    ];

    fn words(&self) -> &'static str {
        match self {
            Self::Move { .. } => "moved",
            Self::Drop => "left out",
            Self::Bore { .. } => "another bore",
            Self::Add { .. } => "added",
        }
    }
}

/// Parts and entries that begin alike on every board.
macro_rules! usual {
    ($($part:ty),+ $(,)?) => {
        $(impl Part for $part {
            fn begun(_: &Board) -> Self {
                Self::default()
            }
        })+
    };
}

usual!(
    Base,
    Coat,
    EdgeRun,
    Filling,
    CutterRun,
    Grooves,
    Machine,
    Magnet,
    Recess,
    Rings,
    Router,
    ScrewCircle,
    SectorJig,
    Tenons,
    Wood,
);

impl Part for BitRun {
    fn begun(board: &Board) -> Self {
        let bore = board.bores.track;
        Self::unsettled(bore.diameter, bore.bottom)
    }
}

impl Part for StockFlaw {
    fn begun(_: &Board) -> Self {
        Self {
            kind: FlawKind::Knot,
            shape: FlawShape::Round {
                x: 0.0,
                y: 0.0,
                diameter: 30.0,
            },
        }
    }
}

impl Part for Edit {
    /// No distance: it moves nothing until it is given one.
    fn begun(_: &Board) -> Self {
        Self {
            hole: HoleId::new(Role::Track, 1, 1),
            mirrored: true,
            change: Change::Move { u: 0.0, v: 0.0 },
        }
    }
}
