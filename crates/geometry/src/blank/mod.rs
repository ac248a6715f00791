//! The best position of a round board in a sawn blank: the largest disc inside its outline and clear of its flaws.
//!
//! [`outline`] checks the measurements of the blank; [`barrier`] gives distances; [`search`] finds the region of the best place
//! and proves that there is no better one, [`climb`] refines it to the last digit, and [`slide`] picks a place where two
//! parallel edges leave a choice. [`hatch`] fills an outline with lines.

mod barrier;
mod climb;
mod crossing;
mod hatch;
mod outline;
mod promise;
mod search;
mod slide;

use crate::{Circle, Point};
use barrier::Barriers;
pub use outline::{FARTHEST_CORNER, MOST_CORNERS, Outline, OutlineError};

/// A part of a blank to stay clear of; it may extend past the blank's edge, or lie outside.
#[derive(Debug, Clone, PartialEq)]
pub enum Flaw {
    /// A knot or a hole, exactly circular; a radius of 0 is a nail. A circle that is not finite, or whose radius is negative,
    /// is ignored.
    Round(Circle),
    /// A crack, bark, or anything else with an outline of its own.
    Area(Outline),
}

/// A feature that the largest disc touches. Flaws are identified by their index in the list; edges and corners by theirs in
/// [`Outline::corners`], where edge `k` runs from corner `k` to the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Feature {
    /// An edge of the blank.
    Edge(usize),
    /// A corner of the blank.
    Corner(usize),
    /// A round flaw.
    Round(usize),
    /// An edge of a flaw.
    FlawEdge {
        /// The flaw.
        flaw: usize,
        /// The edge.
        edge: usize,
    },
    /// A corner of a flaw.
    FlawCorner {
        /// The flaw.
        flaw: usize,
        /// The corner.
        corner: usize,
    },
}

/// The largest disc that fits in a blank.
#[derive(Debug, Clone, PartialEq)]
pub struct Disc {
    /// Its position and size, in mm.
    pub circle: Circle,
    /// The features that limit its size: all that it touches to within 1e-7 mm, in order and without duplicates.
    pub touches: Vec<Feature>,
}

/// A search was canceled before it finished.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the search for the largest disc was stopped")]
pub struct Stopped;

/// The largest disc inside a blank and clear of all its flaws; `None` if there is none, or none with a radius of at least
/// 1/100,000 of the blank's longer side.
///
/// No disc is larger by more than 1e-9 mm, for flaws within 20 m of the origin. If it can slide between two parallel edges, it
/// is where it is farthest from everything else. Of several equally large discs in different places, one is returned
/// deterministically.
///
/// ```
/// use geometry::{Circle, Flaw, Outline, Point, largest_disc};
/// let corners = [(0.0, 0.0), (900.0, 0.0), (900.0, 400.0), (0.0, 400.0)].map(Point::from);
/// let slab = Outline::new(corners.to_vec())?;
/// let knot = Flaw::Round(Circle::new((500.0, 200.0), 30.0));
/// let disc = largest_disc(&slab, &[knot], &|| false)?.unwrap();
/// // Between the left edge and the knot there is more room than above or below it.
/// assert!((disc.circle.radius - 200.0).abs() < 1e-9);
/// assert!((disc.circle.center - Point::new(235.0, 200.0)).length() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
///
/// [`Stopped`] if `cancel`, which is called repeatedly, returned true.
pub fn largest_disc(
    outline: &Outline,
    flaws: &[Flaw],
    cancel: &dyn Fn() -> bool,
) -> Result<Option<Disc>, Stopped> {
    let barriers = Barriers::new(outline, flaws);
    let Some(center) = search::most_clear(&barriers, outline.corners(), cancel)? else {
        return Ok(None);
    };
    let center = slide::slid(&barriers, outline.corners(), center, cancel)?;
    let radius = barriers.clearance(center);
    Ok(Some(Disc {
        circle: Circle::new(center, radius),
        touches: barriers.touched(center, radius, TOUCH),
    }))
}

/// Distance from a point to the nearest edge or flaw, in mm: the radius of the largest disc around it. Outside the blank or
/// inside a flaw it is negative: minus the distance to the edge of the area that it violates most deeply.
///
/// ```
/// use geometry::{Circle, Flaw, Outline, Point, clearance};
/// let corners = [(0.0, 0.0), (900.0, 0.0), (900.0, 400.0), (0.0, 400.0)].map(Point::from);
/// let slab = Outline::new(corners.to_vec())?;
/// let knot = [Flaw::Round(Circle::new((450.0, 200.0), 30.0))];
/// assert_eq!(clearance(&slab, &knot, Point::new(450.0, 50.0)), 50.0);
/// assert_eq!(clearance(&slab, &knot, Point::new(450.0, 200.0)), -30.0);
/// assert_eq!(clearance(&slab, &knot, Point::new(-7.0, 200.0)), -7.0);
/// # Ok::<(), geometry::OutlineError>(())
/// ```
pub fn clearance(outline: &Outline, flaws: &[Flaw], point: Point) -> f64 {
    Barriers::new(outline, flaws).clearance(point)
}

/// A disc touches anything closer than this, mm.
const TOUCH: f64 = 1e-7;
