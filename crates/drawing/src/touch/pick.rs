//! Holes that are selected together, and the next hole in a direction.

use std::collections::BTreeSet;

use board::{HoleId, Layout, Role};
use geometry::{Point, Vec2};
use kurbo::{Rect, Shape as _};

/// The holes whose centers are in a box, in the order of hole tables.
///
/// ```
/// use board::Board;
/// use kurbo::Rect;
/// let layout = board::layout(&Board::default())?;
/// let middle = drawing::holes_in(&layout, Rect::new(-20.0, -20.0, 20.0, 20.0));
/// assert_eq!(middle, [board::HoleId::CENTER]);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn holes_in(layout: &Layout, part: Rect) -> Vec<HoleId> {
    chosen(layout, |_, center| part.contains(center))
}

/// The holes of a role, of every player.
///
/// ```
/// use board::{Board, Role};
/// let layout = board::layout(&Board::default())?;
/// assert_eq!(drawing::holes_of_role(&layout, Role::Home).len(), 30);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn holes_of_role(layout: &Layout, role: Role) -> Vec<HoleId> {
    chosen(layout, |id, _| id.role() == role)
}

/// The holes of a player.
///
/// ```
/// use board::Board;
/// let layout = board::layout(&Board::default())?;
/// assert_eq!(drawing::holes_of_player(&layout, 2).len(), 16 + 5 + 3);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn holes_of_player(layout: &Layout, player: u32) -> Vec<HoleId> {
    chosen(layout, |id, _| id.player() == player)
}

/// The same hole of every player for each of some holes.
///
/// ```
/// use board::Board;
/// let layout = board::layout(&Board::default())?;
/// assert_eq!(drawing::twins(&layout, &["H2-1".parse().unwrap()]).len(), 6);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn twins(layout: &Layout, of: &[HoleId]) -> Vec<HoleId> {
    let of: BTreeSet<HoleId> = of.iter().map(|id| id.of_player(1)).collect();
    chosen(layout, |id, _| of.contains(&id.of_player(1)))
}

/// One hole out of each group of twins that are changed together, so that none is changed twice; all holes where each is
/// changed by itself.
///
/// ```
/// let holes = ["T1-3", "T4-3", "T2-5"].map(|name| name.parse().unwrap());
/// assert_eq!(drawing::one_each(&holes, true).len(), 2);
/// assert_eq!(drawing::one_each(&holes, false).len(), 3);
/// ```
pub fn one_each(holes: &[HoleId], mirrored: bool) -> Vec<HoleId> {
    let mut seen = BTreeSet::new();
    let key = |id: &HoleId| if mirrored { id.of_player(1) } else { *id };
    holes
        .iter()
        .copied()
        .filter(|id| seen.insert(key(id)))
        .collect()
}

/// The box around some holes, with a margin of one and a half hole spacings; `None` if the board has none of them.
///
/// ```
/// use board::{Board, HoleId};
/// let board = Board::default();
/// let layout = board::layout(&board)?;
/// let around = drawing::holes_box(&layout, &[HoleId::CENTER], board.pitch).unwrap();
/// assert_eq!(around.width(), 12.0 + 3.0 * board.pitch);
/// assert_eq!(drawing::holes_box(&layout, &[], board.pitch), None);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn holes_box(layout: &Layout, holes: &[HoleId], pitch: f64) -> Option<Rect> {
    let mouths = holes
        .iter()
        .filter_map(|id| layout.hole(*id))
        .map(board::Hole::mouth);
    let all = mouths
        .map(|mouth| mouth.bounding_box())
        .reduce(|all, one| all.union(one))?;
    Some(all.inflate(1.5 * pitch, 1.5 * pitch))
}

/// The nearest hole in a direction from another, those straight ahead before those to the side; `None` if there is none.
///
/// ```
/// use board::Board;
/// use geometry::Vec2;
/// let layout = board::layout(&Board::default())?;
/// let up = drawing::hole_toward(&layout, "H1-5".parse()?, Vec2::new(0.0, 1.0));
/// assert_eq!(up, "H1-4".parse().ok());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn hole_toward(layout: &Layout, from: HoleId, direction: Vec2) -> Option<HoleId> {
    let start = layout.hole(from)?.center;
    let others = layout.holes.iter().filter(|other| other.name.id() != from);
    let ahead = others.filter_map(|other| {
        let way = other.center - start;
        let along = way.dot(direction);
        let aside = way.cross(direction).abs();
        // A hole farther to the side than ahead is in another direction.
        (along > 0.0 && aside <= along).then(|| (along + 2.0 * aside, other.name.id()))
    });
    ahead.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, id)| id)
}

fn chosen(layout: &Layout, is_it: impl Fn(HoleId, Point) -> bool) -> Vec<HoleId> {
    let holes = layout
        .holes
        .iter()
        .map(|hole| (hole.name.id(), hole.center));
    holes
        .filter(|(id, center)| is_it(*id, *center))
        .map(|(id, _)| id)
        .collect()
}
