//! The position where a start pocket has the most wood around it: the exact maximum of the smallest web, by branch and bound.
//!
//! A position is a bearing and a radius of the pocket's center. [`field`] gives the webs at a position and how much each can
//! grow within a box of positions, [`parts`] treats many holes as one where that is enough, [`bound`] turns that into an upper
//! bound over the box, and [`search`] halves the most promising boxes until none can beat the best position found.

mod bound;
mod field;
mod parts;
mod search;

use core::f64::consts::PI;

use crate::limits::{check_finite, check_holes, check_pitch, check_players, check_positive};
use crate::pocket::least_radius;
use crate::{Angle, Circle, Error, PocketShape};
use field::Field;
use search::{Range, Search};

/// The known properties of a start pocket whose position is searched for.
#[derive(Debug, Clone, Copy)]
pub struct PocketSearch<'a> {
    /// The arrangement of its holes.
    pub shape: PocketShape,
    /// The number of its holes.
    pub holes: u32,
    /// Straight distance between neighbors, mm.
    pub pitch: f64,
    /// Radius of each bore, mm.
    pub hole_radius: f64,
    /// Players, each with a pocket like this.
    pub players: u32,
    /// Bearing of the center from the sector's axis; `None` to search for it.
    pub bearing: Option<Angle>,
    /// Distance of the center from the center pin, mm; `None` to search for it.
    pub radius: Option<f64>,
    /// Every other bore of all sectors, with the first sector's axis at 12 o'clock.
    pub obstacles: &'a [Circle],
    /// Radius at which the flat top of the board ends, mm.
    pub edge_radius: f64,
}

/// The position where a start pocket has the most wood around it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PocketPlace {
    /// Bearing of its center from the sector's axis.
    pub bearing: Angle,
    /// Distance of its center from the center pin, mm.
    pub radius: f64,
    /// The smallest web there: to other bores, to other players' pockets, or to the rim; mm. Webs within the pocket do not
    /// count, since they are the same everywhere.
    pub web: f64,
}

/// The position of a start pocket with the largest possible smallest web, to within 1e-6 mm.
///
/// For pockets with so many holes that the search does not finish in about half a second, the best position found by then is
/// returned.
///
/// Of two mirror images, the one on the clockwise side is returned. Radii from the pin to the edge are searched, and bearings
/// up to half a sector to either side; a given bearing or radius is kept.
///
/// ```
/// use geometry::{Angle, PocketSearch, PocketShape, best_pocket};
/// let alone = PocketSearch {
///     shape: PocketShape::Row,
///     holes: 1,
///     pitch: 20.0,
///     hole_radius: 6.0,
///     players: 2,
///     bearing: Some(Angle::ZERO),
///     radius: None,
///     obstacles: &[],
///     edge_radius: 100.0,
/// };
/// // As far from the other player's hole, 2 r - 12, as from the rim, 100 - r - 6.
/// assert!((best_pocket(&alone)?.radius - 106.0 / 3.0).abs() < 1e-6);
/// # Ok::<(), geometry::Error>(())
/// ```
///
/// # Errors
///
/// [`Error`] if a value is out of range, there are no holes, or no radius on the board can hold an arc of that many holes.
pub fn best_pocket(search: &PocketSearch<'_>) -> Result<PocketPlace, Error> {
    check(search)?;
    let least = least_radius(search.shape, search.holes, search.pitch);
    let most = search.radius.unwrap_or(search.edge_radius);
    if most < least {
        return Err(Error::TightArc {
            holes: search.holes,
            radius: most,
            least,
        });
    }
    let field = Field::new(search);
    let radii = Range::new(search.radius.unwrap_or(least), most);
    if let Some(bearing) = search.bearing {
        let bearing = bearing.as_radians();
        let place = Search::new(&field).best(Range::new(bearing, bearing), radii, None);
        return Ok(place);
    }
    let half = PI / f64::from(search.players);
    let clockwise = Search::new(&field).best(Range::new(0.0, half), radii, None);
    if is_mirror_image(search) {
        return Ok(clockwise);
    }
    Ok(Search::new(&field).best(Range::new(-half, 0.0), radii, Some(clockwise)))
}

/// Whether the counterclockwise side of the axis is the mirror image of the clockwise side, including the pocket, so that it
/// need not be searched.
fn is_mirror_image(search: &PocketSearch<'_>) -> bool {
    if search.shape == PocketShape::Block && !search.holes.is_multiple_of(2) {
        return false;
    }
    let bores = search.obstacles;
    let is_image = |bore: &Circle, other: &Circle| {
        (bore.center.x + other.center.x).abs() <= IMAGE
            && (bore.center.y - other.center.y).abs() <= IMAGE
            && (bore.radius - other.radius).abs() <= IMAGE
    };
    let mut by_height: Vec<&Circle> = bores.iter().collect();
    by_height.sort_by(|one, other| one.center.y.total_cmp(&other.center.y));
    bores.iter().all(|bore| {
        let (low, high) = (bore.center.y - IMAGE, bore.center.y + IMAGE);
        let from = by_height.partition_point(|other| other.center.y < low);
        let level = by_height.iter().skip(from);
        level
            .take_while(|other| other.center.y <= high)
            .any(|other| is_image(bore, other))
    })
}

/// The farthest that a bore may be from another's mirror image, in mm: far less than a tie.
const IMAGE: f64 = 1e-8;

fn check(search: &PocketSearch<'_>) -> Result<(), Error> {
    check_pitch(search.pitch)?;
    check_holes("a start pocket", search.holes)?;
    if search.holes == 0 {
        return Err(Error::EmptyPocket);
    }
    check_players("a board", search.players, 1)?;
    check_finite("the hole's radius", search.hole_radius)?;
    check_positive("the board's edge radius", search.edge_radius)?;
    let bearing = search.bearing.unwrap_or_default().as_radians();
    check_finite("the pocket's bearing", bearing)?;
    let radius = search.radius.unwrap_or_default();
    check_finite("the pocket's radius", radius)?;
    if radius < 0.0 {
        return Err(Error::NotPositive {
            what: "the pocket's radius",
            value: radius,
        });
    }
    Ok(())
}
