//! Colors of the players and of the board.

use super::edits::MOST_BY_HAND;
use crate::Quantity::{Count, Length};
use crate::field::Kind::{AutoColor, Choice, Color, Entries, Hole, Number, Part, Text, Tick};
use crate::field::choice;
use crate::{
    Board, BoreColor, BorePart, HoleColor, HoleId, Hue, Mark, MarkShape, MarksMade, Medium,
    PlayerColor, Rgb, Role,
};

fields! {
    /// The list of the players' colors.
    PLAYER_COLORS_FIELDS:
    PLAYER_COLORS "colors.players", [.colors.players] "Players listed", Entries(Count.range("players listed", 0.0, 24.0)),
        "In order from player 1; players not listed get automatic colors and marks";
}

fields! {
    /// The color and the mark of a player.
    PLAYER_COLOR_FIELDS:
    PLAYER_COLOR "colors.players[].color", [.colors.players[] .color] "Player #, color", AutoColor("a standard color"),
        "Color of the pieces and of every part set to player's color";
    PLAYER_MARK "colors.players[].mark.kind", [.colors.players[] .mark] "Player #, mark", Choice,
        "Identifies the player without color";
    PLAYER_SHAPE "colors.players[].mark.shape", [.colors.players[] .mark {Mark::Solid | Mark::Outlined | Mark::Ringed => shape}]
        "Player #, shape", Choice, "";
    PLAYER_LETTERS "colors.players[].mark.text", [.colors.players[] .mark {Mark::Letters => text}] "Player #, letters",
        Text(Count.range("letters of a mark", 1.0, 2.0)), "One or two letters or figures";
}

fields! {
    /// The players' marks on the board.
    MARKS_FIELDS:
    MARKS "colors.marks", [.colors.marks] "Mark start pockets", Part, "Each player's mark beside the start pocket";
    MARK_SIZE "colors.marks.size_mm", [.colors.marks? .size] "Mark size", Number(Length.of(1.0, 200.0)), "Diameter of the circle around the mark", us: "3/8";
    MARK_MEDIUM "colors.marks.medium", [.colors.marks? .medium] "Marks made with", Choice, "";
    MARK_OUTLINE "colors.marks.outline", [.colors.marks? .outline] "Outline marks", Tick, "A dark line around each mark, where its color is near that of the wood";
}

/// Color, colored part and medium of bores.
macro_rules! bores {
    ($(#[$doc:meta])* $rows:ident: $hue:ident $color:ident $on:ident $medium:ident $path:literal, [$($way:tt)+] $label:literal) => {
        fields! {
            $(#[$doc])*
            $rows:
            $hue concat!($path, ".hue.kind"), [$($way)+ .hue] concat!($label, " color"), Choice, "";
            $color concat!($path, ".hue.color"), [$($way)+ .hue {Hue::One => color}] concat!($label, " shade"), Color, "Typed as #rrggbb or by name, or picked";
            $on concat!($path, ".on"), [$($way)+ .on] concat!($label, ", part"), Choice, "The part of the hole that is colored";
            $medium concat!($path, ".medium"), [$($way)+ .medium] concat!($label, ", with"), Choice, "";
        }
    };
}

/// Color and medium of another part of the board.
macro_rules! part {
    ($(#[$doc:meta])* $rows:ident: $hue:ident $color:ident $medium:ident $path:literal, [$($way:tt)+] $label:literal, $hint:literal) => {
        fields! {
            $(#[$doc])*
            $rows:
            $hue concat!($path, ".hue.kind"), [$($way)+ .hue] concat!($label, " color"), Choice, $hint;
            $color concat!($path, ".hue.color"), [$($way)+ .hue {Hue::One => color}] concat!($label, " shade"), Color, "Typed as #rrggbb or by name, or picked";
            $medium concat!($path, ".medium"), [$($way)+ .medium] concat!($label, ", with"), Choice, "";
        }
    };
}

bores! {
    /// Colors of the track.
    TRACK_COLORS: TRACK_HUE TRACK_COLOR TRACK_COLORED TRACK_MEDIUM "colors.track", [.colors.track] "Track"
}
bores! {
    /// Colors of the home lanes.
    HOME_COLORS: HOME_HUE HOME_COLOR HOME_COLORED HOME_MEDIUM "colors.home", [.colors.home] "Home"
}
bores! {
    /// Colors of the start pockets.
    START_COLORS: START_HUE START_COLOR START_COLORED START_MEDIUM "colors.start", [.colors.start] "Start"
}
bores! {
    /// Colors of holes added by hand.
    EXTRA_COLORS: EXTRA_HUE EXTRA_COLOR EXTRA_COLORED EXTRA_MEDIUM "colors.extra", [.colors.extra] "Extra"
}
bores! {
    /// The color of the hole at the center pin.
    CENTER_COLORS: CENTER_HUE CENTER_COLOR CENTER_COLORED CENTER_MEDIUM "colors.center", [.colors.center] "Center"
}

fields! {
    /// The width of rings around bores.
    COLOR_RING_FIELDS:
    COLOR_RING "colors.ring_mm", [.colors.ring] "Colored ring, width", Number(Length.of(0.1, 50.0)),
        "Where the top face is colored around a hole", us: "1/16";
}

part! {
    /// Colors of lines and outlines.
    LINE_COLORS: LINE_HUE LINE_COLOR LINE_MEDIUM "colors.grooves", [.colors.grooves] "Groove", "Lines and outlines"
}
part! {
    /// Colors of routed rings around bores.
    RING_COLORS: RINGS_HUE RINGS_COLOR RINGS_MEDIUM "colors.rings", [.colors.rings] "Ring", "Grooves around holes"
}
part! {
    /// The color of the ring inside the rim.
    RIM_COLORS: RIM_HUE RIM_COLOR RIM_MEDIUM "colors.rim", [.colors.rim] "Border", "The groove around the board"
}
part! {
    /// Colors of the fields between the players' lines.
    SECTOR_COLORS: SECTOR_HUE SECTOR_COLOR SECTOR_MEDIUM "colors.sectors", [.colors.sectors] "Field",
        "The top face between two players' lines"
}

fields! {
    /// When colors are applied among the coats, and the list of individually colored holes.
    COLOR_ORDER_FIELDS:
    COLOR_AFTER "colors.after", [.colors.after] "Coats before paint", Number(Count.of(0.0, 60.0)),
        "Coats of finish that are on the wood before it is painted; a first coat keeps paint out of the grain";
    COLORED_HOLES "colors.holes", [.colors.holes] "Holes colored by hand", Entries(Count.range("holes colored by hand", 0.0, MOST_BY_HAND)),
        "Each color replaces the one that the hole would have by its kind";
}

fields! {
    /// An individually colored hole.
    HOLE_COLOR_FIELDS:
    COLORED_HOLE "colors.holes[].hole", [.colors.holes[] .hole] "Colored #, hole",
        Hole(Count.range("number of a colored hole", 1.0, 9999.0)), "Its name on the board, as in T3-07; C is the center";
    COLORED_MIRRORED "colors.holes[].mirrored", [.colors.holes[] .mirrored] "Colored #, for all", Tick, "The same hole of every player";
}

bores! {
    /// The color of an individually colored hole.
    HOLE_LOOK: HOLE_HUE HOLE_COLOR HOLE_COLORED HOLE_MEDIUM "colors.holes[].look", [.colors.holes[] .look] "Colored #"
}

fields! {
    /// Colors on paper.
    COLOR_PLAN_FIELDS:
    COLORS_ON_PLAN "colors.on_plan", [.colors.on_plan] "Colors on the whole board", Tick,
        "The whole board as SVG and as PDF has its colors; the drilling template stays black";
}

kinds! {
    Hue:
    "no color" => Bare,
    "player's color" => Player,
    "one color" => One { color: Rgb::new(0x44, 0x44, 0x44) },
}
kinds! {
    Mark, begun by with_letters:
    "automatic" => Auto,
    "shape" => Solid { shape: MarkShape::Dot },
    "outline" => Outlined { shape: MarkShape::Dot },
    "shape in a ring" => Ringed { shape: MarkShape::Dot },
    "letters" => Letters { text: String::new() },
}
plain!(MarkShape, Medium, BorePart);
usual!(PlayerColor, MarksMade);

/// Starts with a letter, since a mark must not be empty.
fn with_letters(mark: &Mark, _: &Board) -> Mark {
    match mark {
        Mark::Letters { .. } => Mark::Letters { text: "A".into() },
        other => other.clone(),
    }
}

impl choice::Part for HoleColor {
    /// One color for a hole of the first player.
    fn begun(_: &Board) -> Self {
        Self {
            hole: HoleId::new(Role::Track, 1, 1),
            mirrored: true,
            look: BoreColor {
                hue: Hue::Player,
                on: BorePart::Ring,
                medium: Medium::Paint,
            },
        }
    }
}
