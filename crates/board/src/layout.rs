//! Document → every hole placed.

use geometry::{Angle, Circle, PocketSearch, Point, Sector};

use crate::{Board, Bore, Center, Change, Edit, HoleId, HoleName, OutOfRange, Role, out_of_range};

/// A hole as it will be drilled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hole {
    /// Its name.
    pub name: HoleName,
    /// Its center.
    pub center: Point,
    /// The bore drilled there.
    pub bore: Bore,
}

impl Hole {
    /// The mouth of the bore in the top face.
    ///
    /// A ball bottom less deep than half the ball still has a mouth as wide as its bore.
    pub const fn mouth(&self) -> Circle {
        Circle {
            center: self.center,
            radius: self.bore.radius(),
        }
    }
}

/// Every hole of a board, placed.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// The holes, in the order of hole tables: by player, then track, home, start, extra, then number; the
    /// center hole last.
    pub holes: Vec<Hole>,
    /// The players' sectors, in order.
    pub sectors: Vec<Sector>,
    /// Distance of the first player's turn-in space from the center pin.
    pub turn_in_radius: f64,
    /// The position of the start pockets' centers, if there are any pockets.
    pub pocket: Option<PocketSpot>,
    /// Holes named by edits that this board does not have; the edits wait until it does.
    pub idle_edits: Vec<HoleId>,
}

/// The center of a start pocket, in a player's frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PocketSpot {
    /// Its bearing from the player's axis.
    pub bearing: Angle,
    /// Its distance from the center pin.
    pub radius: f64,
}

impl Board {
    /// The board with automatically placed pockets fixed at a spot; pockets that the maker placed stay where they are.
    ///
    /// ```
    /// use board::{Board, layout};
    /// let board = Board::default();
    /// let spot = layout(&board)?.pocket.unwrap();
    /// let kept = board.with_pockets_at(spot);
    /// assert_eq!(kept.pocket.radius, Some(spot.radius));
    /// assert_eq!(layout(&kept)?.pocket.unwrap().radius, spot.radius);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    #[must_use]
    pub fn with_pockets_at(&self, spot: PocketSpot) -> Self {
        let mut kept = self.clone();
        let pocket = &mut kept.pocket;
        pocket.bearing.get_or_insert(spot.bearing.as_degrees());
        pocket.radius.get_or_insert(spot.radius);
        kept
    }
}

/// The reasons why a document cannot be laid out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BuildError {
    /// A number is outside its range.
    #[error(transparent)]
    Range(#[from] OutOfRange),
    /// A hole is added under a name that one of the pattern's own holes has.
    #[error("{hole} cannot be added: added holes are called X, as in X{}-1", hole.player().max(1))]
    AddedName {
        /// The name requested for it.
        hole: HoleId,
    },
    /// The center hole is moved off the center pin.
    #[error(
        "the center hole lies at the center pin and cannot be moved; add a hole beside it instead"
    )]
    CenterMoved,
    /// Two holes are added under the same name.
    #[error("{hole} is added twice; give one of them another number")]
    AddedTwice {
        /// Their name.
        hole: HoleId,
    },
    /// The numbers contradict the pattern.
    #[error(fmt = crate::say_geometry)]
    Geometry(#[from] geometry::Error),
}

impl Layout {
    /// The hole with this name, if the board has it.
    ///
    /// ```
    /// use board::Board;
    /// let layout = board::layout(&Board::default())?;
    /// let first = layout.hole("T1-01".parse().unwrap()).unwrap();
    /// assert_eq!(first.name.to_string(), "T1-01");
    /// assert!(layout.hole("T9-01".parse().unwrap()).is_none());
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn hole(&self, id: HoleId) -> Option<&Hole> {
        let place = self
            .holes
            .binary_search_by_key(&id, |hole| hole.name.id())
            .ok()?;
        self.holes.get(place)
    }

    /// The holes that hold a piece: all but a pivot for the circle jig, which comes last.
    ///
    /// ```
    /// use board::{Board, Center};
    /// let board = Board { center: Center::Nothing, ..Board::default() };
    /// let layout = board::layout(&board)?;
    /// assert_eq!(layout.seats(&board).len(), 6 * (16 + 5 + 3));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn seats(&self, board: &Board) -> &[Hole] {
        match self.holes.split_last() {
            Some((last, others))
                if last.name.id() == HoleId::CENTER
                    && !matches!(board.center, Center::Hole { .. }) =>
            {
                others
            }
            _ => &self.holes,
        }
    }

    /// The mouths of all bores, in the order of [`Layout::holes`].
    pub fn mouths(&self) -> Vec<Circle> {
        self.holes.iter().map(Hole::mouth).collect()
    }
}

/// Places every hole of a board.
///
/// # Errors
/// [`BuildError`] for the first number out of range, or for numbers that contradict the pattern; it states the rule and the
/// nearest values that work.
///
/// ```
/// use board::{Board, layout};
/// assert_eq!(layout(&Board::default())?.holes.len(), 145);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn layout(board: &Board) -> Result<Layout, BuildError> {
    if let Some(&fault) = out_of_range(board).first() {
        return Err(fault.into());
    }
    if board.edits.iter().any(Edit::moves_center) {
        return Err(BuildError::CenterMoved);
    }
    let track = geometry::track(board.pattern, board.players, board.spaces, board.pitch)?;
    let turn_in = geometry::turn_in(board.spaces) as usize;
    let turn_in_radius = track.get(turn_in - 1).map_or(0.0, |space| space.y);
    let home = geometry::home_lane(turn_in_radius, board.home, board.pitch)?;
    let mut plan = Plan {
        board,
        spots: Vec::new(),
    };
    plan.add_row(Role::Track, &track, board.bores.track);
    plan.add_row(Role::Home, &home, board.bores.home);
    plan.add_extras()?;
    plan.edit();
    let pocket = plan.place_pockets()?;
    Ok(plan.finish(turn_in_radius, pocket))
}

/// The holes so far, each in its player's frame.
struct Plan<'a> {
    board: &'a Board,
    spots: Vec<Spot>,
}

#[derive(Clone, Copy)]
/// A hole while the layout is being made.
struct Spot {
    id: HoleId,
    local: Point,
    bore: Bore,
}

impl Plan<'_> {
    /// Adds the holes of one role, the same for every player.
    fn add_row(&mut self, role: Role, places: &[Point], bore: Bore) {
        for player in 1..=self.board.players {
            let numbered = (1..).zip(places);
            self.spots.extend(numbered.map(|(number, &local)| Spot {
                id: HoleId::new(role, player, number),
                local,
                bore,
            }));
        }
    }

    /// Adds the holes added by hand, in each sector they were added to.
    fn add_extras(&mut self) -> Result<(), BuildError> {
        let mut added = std::collections::BTreeSet::new();
        for edit in &self.board.edits {
            let Change::Add { u, v, bore } = edit.change else {
                continue;
            };
            if edit.hole.role() != Role::Extra {
                return Err(BuildError::AddedName { hole: edit.hole });
            }
            let players = if edit.mirrored {
                1..=self.board.players
            } else {
                edit.hole.player()..=edit.hole.player()
            };
            let players = players.filter(|&player| player <= self.board.players);
            for player in players {
                let id = edit.hole.of_player(player);
                if !added.insert(id) {
                    return Err(BuildError::AddedTwice { hole: id });
                }
                let local = Point::new(u, v);
                self.spots.push(Spot { id, local, bore });
            }
        }
        Ok(())
    }

    /// Applies the edits to the holes, in the order they were made.
    fn edit(&mut self) {
        let edits = &self.board.edits;
        if edits.is_empty() {
            return;
        }
        self.spots.retain_mut(|spot| apply(edits, spot));
    }

    /// Finds a position for the pockets, clear of every other hole, and adds their holes.
    fn place_pockets(&mut self) -> Result<Option<PocketSpot>, BuildError> {
        let board = self.board;
        if board.start == 0 {
            return Ok(None);
        }
        let spot = self.pocket_spot()?;
        let places = geometry::pocket(
            board.pocket.shape,
            board.start,
            board.pitch,
            spot.bearing,
            spot.radius,
        )?;
        let before = self.spots.len();
        self.add_row(Role::Start, &places, board.bores.start);
        let mut pockets = self.spots.split_off(before);
        pockets.retain_mut(|spot| apply(&board.edits, spot));
        self.spots.append(&mut pockets);
        Ok(Some(spot))
    }

    /// The position of the start pockets: as typed, or where the most wood remains around them.
    fn pocket_spot(&self) -> Result<PocketSpot, BuildError> {
        let board = self.board;
        let bearing = board.pocket.bearing.map(Angle::degrees);
        if let (Some(bearing), Some(radius)) = (bearing, board.pocket.radius) {
            return Ok(PocketSpot { bearing, radius });
        }
        let obstacles = self.obstacles();
        let found = geometry::best_pocket(&PocketSearch {
            shape: board.pocket.shape,
            holes: board.start,
            pitch: board.pitch,
            hole_radius: board.bores.start.radius(),
            players: board.players,
            bearing,
            radius: board.pocket.radius,
            obstacles: &obstacles,
            edge_radius: board.blank.flat_radius(),
        })?;
        Ok(PocketSpot {
            bearing: found.bearing,
            radius: found.radius,
        })
    }

    /// Every hole except the pockets', with the first player's axis at 12 o'clock.
    fn obstacles(&self) -> Vec<Circle> {
        let sectors = sectors(self.board.players, Angle::ZERO);
        let mut all: Vec<Circle> = self
            .spots
            .iter()
            .filter_map(|spot| Some(Circle::new(place(&sectors, spot)?, spot.bore.radius())))
            .collect();
        let center = self.board.drilled_center().bore();
        all.extend(center.map(|bore| Circle::new(Point::ORIGIN, bore.radius())));
        all
    }

    /// The holes in the order of their names, the center last.
    fn finish(mut self, turn_in_radius: f64, pocket: Option<PocketSpot>) -> Layout {
        let board = self.board;
        let sectors = sectors(board.players, Angle::degrees(board.rotation));
        self.spots
            .extend(board.drilled_center().bore().map(|bore| Spot {
                id: HoleId::CENTER,
                local: Point::ORIGIN,
                bore,
            }));
        self.spots.sort_by_key(|spot| spot.id);
        let digits = Digits::of(&self.spots);
        let holes: Vec<Hole> = self
            .spots
            .iter()
            .filter_map(|spot| {
                Some(Hole {
                    name: spot.id.named(digits.role(spot.id.role())),
                    center: place(&sectors, spot)?,
                    bore: spot.bore,
                })
            })
            .collect();
        let idle_edits = idle_edits(board);
        Layout {
            holes,
            sectors,
            turn_in_radius,
            pocket,
            idle_edits,
        }
    }
}

/// Applies every edit of a hole; returns whether the hole is still drilled.
fn apply(edits: &[Edit], spot: &mut Spot) -> bool {
    let mut drilled = true;
    for edit in edits.iter().filter(|edit| edit.concerns(spot.id)) {
        match edit.change {
            Change::Move { u, v } => spot.local += (u, v),
            Change::Drop => drilled = false,
            Change::Bore { bore } => spot.bore = bore,
            Change::Add { .. } => {}
        }
    }
    drilled
}

/// A sector for each player, clockwise from the first.
fn sectors(players: u32, rotation: Angle) -> Vec<Sector> {
    (0..players)
        .map(|index| Sector::new(index, players, rotation))
        .collect()
}

/// The position of a hole on the board; the center hole is in the first player's frame.
fn place(sectors: &[Sector], spot: &Spot) -> Option<Point> {
    let sector = sectors.get(spot.id.player().max(1) as usize - 1)?;
    Some(sector.place(spot.local))
}

/// The holes named by edits that the pattern does not have.
fn idle_edits(board: &Board) -> Vec<HoleId> {
    let added = |hole: HoleId| {
        board
            .edits
            .iter()
            .any(|edit| matches!(edit.change, Change::Add { .. }) && edit.concerns(hole))
    };
    let on_board = |hole: HoleId| match hole.role() {
        Role::Track => hole.number() <= board.spaces,
        Role::Home => hole.number() <= board.home,
        Role::Start => hole.number() <= board.start,
        Role::Extra => added(hole),
        Role::Center => board.center.bore().is_some(),
    };
    let idle = |hole: &HoleId| hole.player() > board.players || !on_board(*hole);
    board
        .edits
        .iter()
        .map(|edit| edit.hole)
        .filter(idle)
        .collect()
}

/// The number of digits of each role's largest number.
struct Digits {
    by_role: [u8; Role::ALL.len()],
}

impl Digits {
    /// As many digits as each role's largest number has, so that names line up in lists.
    fn of(spots: &[Spot]) -> Self {
        let mut by_role = [1; Role::ALL.len()];
        for spot in spots {
            let digits = spot.id.number().checked_ilog10().unwrap_or(0) as u8 + 1;
            if let Some(widest) = by_role.get_mut(spot.id.role() as usize) {
                *widest = digits.max(*widest);
            }
        }
        Self { by_role }
    }

    /// The number of digits of a role's numbers.
    fn role(&self, role: Role) -> u8 {
        self.by_role.get(role as usize).copied().unwrap_or(1)
    }
}

#[cfg(test)]
mod tests;
