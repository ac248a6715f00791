//! Colors: those of the players and of the colored parts of the board, and the medium of each.

use serde::{Deserialize, Serialize};

use crate::serial::auto_or_color;
use crate::{HoleId, Rgb, Role};

/// Everything about colors. A hole may have its own color instead of its role's.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Colors {
    /// The players' colors and marks, from the first player; players not listed have the default set's.
    pub players: Vec<PlayerColor>,
    /// The marks of the players beside their start pockets; none: not made.
    pub marks: Option<MarksMade>,
    /// Track spaces.
    pub track: BoreColor,
    /// Holes of home lanes.
    pub home: BoreColor,
    /// Holes of start pockets.
    pub start: BoreColor,
    /// Holes added by hand.
    pub extra: BoreColor,
    /// The hole at the center pin.
    pub center: BoreColor,
    /// Width of the ring where the top face is colored around a bore.
    #[serde(rename = "ring_mm")]
    pub ring: f64,
    /// V-grooves that are lines and outlines.
    pub grooves: Colored,
    /// V-grooves around bores.
    pub rings: Colored,
    /// The groove inside the rim.
    pub rim: Colored,
    /// The fields of the top face between the players' lines.
    pub sectors: Colored,
    /// Coats of finish applied to the wood before it is painted.
    pub after: u32,
    /// Individually colored holes, in the order they were entered.
    pub holes: Vec<HoleColor>,
    /// Whether the drawing of the whole board is in color; the drilling template never is.
    pub on_plan: bool,
}

impl Colors {
    /// The color of a role's bores, for holes without their own color.
    pub const fn of(&self, role: Role) -> &BoreColor {
        match role {
            Role::Track => &self.track,
            Role::Home => &self.home,
            Role::Start => &self.start,
            Role::Extra => &self.extra,
            Role::Center => &self.center,
        }
    }

    /// The color of one hole: its own if it has one (the last one entered), otherwise its role's.
    ///
    /// ```
    /// use board::{BoreColor, Colors, HoleColor, HoleId, Hue, Rgb};
    /// let gold = BoreColor { hue: Hue::One { color: Rgb::new(230, 159, 0) }, ..BoreColor::default() };
    /// let hole: HoleId = "T1-08".parse().unwrap();
    /// let by_hand = HoleColor { hole, mirrored: true, look: gold };
    /// let colors = Colors { holes: vec![by_hand], ..Colors::default() };
    /// assert_eq!(colors.of_hole(hole.of_player(3)).hue, gold.hue);
    /// assert_eq!(colors.of_hole("T1-07".parse().unwrap()).hue, Hue::Bare);
    /// ```
    pub fn of_hole(&self, hole: HoleId) -> &BoreColor {
        let by_hand = self.holes.iter().rev().find(|one| one.concerns(hole));
        by_hand.map_or_else(|| self.of(hole.role()), |one| &one.look)
    }

    /// Gives a hole, or the same hole of every player, its own color; `None` restores its role's. A previous own color is
    /// removed.
    ///
    /// ```
    /// use board::{BoreColor, Colors, HoleId, Hue};
    /// let mut colors = Colors::default();
    /// let hole: HoleId = "H1-2".parse().unwrap();
    /// let own = BoreColor { hue: Hue::Player, ..BoreColor::default() };
    /// colors.set_by_hand(hole, true, Some(own));
    /// assert_eq!(colors.of_hole(hole.of_player(5)).hue, Hue::Player);
    /// colors.set_by_hand(hole.of_player(5), true, None);
    /// assert_eq!(colors, Colors::default());
    /// ```
    pub fn set_by_hand(&mut self, hole: HoleId, mirrored: bool, look: Option<BoreColor>) {
        self.holes.retain(|one| {
            let is_it = if mirrored {
                one.concerns(hole)
            } else {
                one.hole == hole
            };
            !(one.mirrored == mirrored && is_it)
        });
        self.holes.extend(look.map(|look| HoleColor {
            hole,
            mirrored,
            look,
        }));
    }

    /// Mutable references to every bore color, by role and by hole.
    pub fn bores_mut(&mut self) -> impl Iterator<Item = &mut BoreColor> {
        let roles = [
            &mut self.track,
            &mut self.home,
            &mut self.start,
            &mut self.extra,
            &mut self.center,
        ];
        let by_hand = self.holes.iter_mut().map(|one| &mut one.look);
        roles.into_iter().chain(by_hand)
    }

    /// The mutable entry of a player, counted from 1; it and those before it are added if they are missing.
    ///
    /// ```
    /// use board::{Colors, Rgb};
    /// let mut colors = Colors::default();
    /// colors.of_player(3).color = Some(Rgb::BLACK);
    /// assert_eq!(colors.players.len(), 3);
    /// assert_eq!(colors.players[0].color, None);
    /// ```
    pub fn of_player(&mut self, player: u32) -> &mut PlayerColor {
        let place = player.saturating_sub(1) as usize;
        if self.players.len() <= place {
            self.players.resize_with(place + 1, PlayerColor::default);
        }
        &mut self.players[place]
    }

    /// Whether any of the wood is colored or marked.
    ///
    /// ```
    /// assert!(!board::Colors::default().colors_wood());
    /// ```
    pub fn colors_wood(&self) -> bool {
        let bores = Role::ALL.map(|role| self.of(role).hue);
        let parts = [self.grooves, self.rings, self.rim, self.sectors].map(|part| part.hue);
        let by_hand = self.holes.iter().map(|one| one.look.hue);
        let mut all = bores.into_iter().chain(parts).chain(by_hand);
        self.marks.is_some() || all.any(|hue| hue != Hue::Bare)
    }

    /// Whether any of the wood is colored or marked with a medium.
    ///
    /// ```
    /// use board::{Colors, Hue, Medium};
    /// let mut colors = Colors::default();
    /// colors.grooves.hue = Hue::Player;
    /// assert!(colors.uses(Medium::Paint) && !colors.uses(Medium::Dye));
    /// ```
    pub fn uses(&self, medium: Medium) -> bool {
        let bores = Role::ALL.map(|role| self.of(role)).into_iter();
        let bores = bores.chain(self.holes.iter().map(|one| &one.look));
        let bores = bores.map(|bore| (bore.hue, bore.medium));
        let parts = [self.grooves, self.rings, self.rim, self.sectors];
        let parts = parts.map(|part| (part.hue, part.medium));
        let mut all = bores.chain(parts);
        let is_marked = self.marks.is_some_and(|marks| marks.medium == medium);
        is_marked || all.any(|(hue, with)| hue != Hue::Bare && with == medium)
    }
}

/// The color and the mark of a player.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct PlayerColor {
    /// The color; none: the default set's.
    #[serde(with = "auto_or_color")]
    pub color: Option<Rgb>,
    /// The mark that identifies the player without color.
    pub mark: Mark,
}

/// The mark of a player, for people who cannot tell the colors apart.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum Mark {
    /// The default set's mark: a different one for each player.
    #[default]
    Auto,
    /// A shape, filled.
    Solid {
        /// Its shape.
        shape: MarkShape,
    },
    /// The outline of a shape.
    Outlined {
        /// Its shape.
        shape: MarkShape,
    },
    /// A filled shape within a circle.
    Ringed {
        /// Its shape.
        shape: MarkShape,
    },
    /// A letter or two, or a number.
    Letters {
        /// The letters.
        text: String,
    },
}

/// Shapes of marks, distinguishable from every side of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MarkShape {
    /// A round dot.
    Dot,
    /// An equilateral triangle.
    Triangle,
    /// A square.
    Square,
    /// Two crossed bars.
    Cross,
    /// A five-pointed star.
    Star,
    /// A single bar.
    Bar,
    /// Half a disc.
    HalfMoon,
    /// A slender diamond.
    Lozenge,
}

impl MarkShape {
    /// Every shape, in the order lists show them, which is also the order in the default set.
    pub const ALL: [Self; 8] = [
        Self::Dot,
        Self::Triangle,
        Self::Square,
        Self::Cross,
        Self::Star,
        Self::Bar,
        Self::HalfMoon,
        Self::Lozenge,
    ];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Dot => "dot",
            Self::Triangle => "triangle",
            Self::Square => "square",
            Self::Cross => "cross",
            Self::Star => "star",
            Self::Bar => "bar",
            Self::HalfMoon => "half moon",
            Self::Lozenge => "lozenge",
        }
    }
}

/// How the players' marks are made on the board.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct MarksMade {
    /// Diameter of the circle that each mark fits into.
    #[serde(rename = "size_mm")]
    pub size: f64,
    /// The medium they are colored with.
    pub medium: Medium,
    /// Whether each has a dark line around it.
    pub outline: bool,
}

/// The color of a part of the board.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Colored {
    /// The color.
    pub hue: Hue,
    /// The medium it is colored with.
    pub medium: Medium,
}

/// The color of bores, and which part of them is colored.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct BoreColor {
    /// The color.
    pub hue: Hue,
    /// The part of the bore that is colored.
    pub on: BorePart,
    /// The medium it is colored with.
    pub medium: Medium,
}

/// The color of an individually colored hole.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HoleColor {
    /// The hole.
    pub hole: HoleId,
    /// Whether it also applies to the same hole of every other player.
    pub mirrored: bool,
    /// Its color instead of the role's.
    pub look: BoreColor,
}

impl HoleColor {
    /// Whether it applies to this hole, directly or by mirroring.
    pub fn concerns(&self, hole: HoleId) -> bool {
        self.hole == hole || (self.mirrored && self.hole == hole.of_player(self.hole.player()))
    }
}

/// What color something has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum Hue {
    /// None: bare wood.
    #[default]
    Bare,
    /// The color of the player it belongs to.
    Player,
    /// One color for all players.
    One {
        /// The color.
        color: Rgb,
    },
}

/// The part of a bore that is colored.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BorePart {
    /// A ring of the top face around its mouth.
    #[default]
    Ring,
    /// Its wall and floor.
    Inside,
    /// The resin that fills it.
    Filling,
}

impl BorePart {
    /// Every part, in the order lists show them.
    pub const ALL: [Self; 3] = [Self::Ring, Self::Inside, Self::Filling];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Ring => "ring around it",
            Self::Inside => "wall and floor",
            Self::Filling => "its resin",
        }
    }
}

/// The medium that wood is colored with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Medium {
    /// Enamel, acrylic or a paint pen: it covers the wood.
    #[default]
    Paint,
    /// Dye: colors the wood itself, with the grain showing through.
    Dye,
    /// Pigment stain: settles in the pores and partly covers the wood.
    Stain,
    /// Another wood, veneer, wire or shell inlaid in the wood.
    Inlay,
    /// Resin with pigment in it.
    Resin,
}

impl Medium {
    /// Every medium, in the order lists show them.
    pub const ALL: [Self; 5] = [
        Self::Paint,
        Self::Dye,
        Self::Stain,
        Self::Inlay,
        Self::Resin,
    ];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Paint => "paint",
            Self::Dye => "dye",
            Self::Stain => "stain",
            Self::Inlay => "inlay",
            Self::Resin => "colored resin",
        }
    }
}

impl Default for MarksMade {
    /// As large as a small bore; common practice, no source.
    fn default() -> Self {
        Self {
            size: 10.0,
            medium: Medium::Paint,
            outline: false,
        }
    }
}

impl Default for Colors {
    /// The default set of players' colors, and bare wood.
    fn default() -> Self {
        Self {
            players: Vec::new(),
            marks: None,
            track: BoreColor::default(),
            home: BoreColor::default(),
            start: BoreColor::default(),
            extra: BoreColor::default(),
            center: BoreColor::default(),
            ring: 2.0,
            grooves: Colored::default(),
            rings: Colored::default(),
            rim: Colored::default(),
            sectors: Colored::default(),
            after: 0,
            holes: Vec::new(),
            on_plan: false,
        }
    }
}
