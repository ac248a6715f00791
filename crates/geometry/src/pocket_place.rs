//! Where a start pocket has the most wood around it: the true largest smallest web, by branch and bound.
//!
//! The place of the pocket's middle is a bearing and a radius. A box of such places is judged by the webs at
//! its center and by how far a hole can get from there within the box:
//!
//! * a row, block or ring keeps its direction, so that each of its holes moves as the middle does: by at most
//!   half the box's radii plus its outer radius times half its bearings, `D`; an arc's holes also slide along
//!   their circle as its radius changes, which [`arc_stretch`] bounds;
//! * a web to a fixed bore or to the rim changes by at most `D`; a web to another player's pocket by `2 D`,
//!   since both ends move.
//!
//! So no place in the box is better than its center by more than that, and a box that cannot beat the best
//! place found is dropped. Halving the most promising box first leads to the optimum of all places.

use std::collections::BinaryHeap;
use std::rc::Rc;

use core::cmp::Ordering;

use crate::limits::{check_finite, check_holes, check_pitch};
use crate::pocket::{arms_from_middle, half_step, least_radius, places_from_middle};
use crate::{Angle, Circle, Error, PocketShape, Point, Vec2, point_at};

/// What is known of a start pocket whose place is looked for.
#[derive(Debug, Clone, Copy)]
pub struct PocketSearch<'a> {
    /// How its holes lie.
    pub shape: PocketShape,
    /// How many they are.
    pub holes: u32,
    /// Straight distance between neighbors, mm.
    pub pitch: f64,
    /// Radius of each bore, mm.
    pub hole_radius: f64,
    /// Players, each with a pocket like this.
    pub players: u32,
    /// Bearing of the middle from the sector's axis; none to look for it.
    pub bearing: Option<Angle>,
    /// Distance of the middle from the center pin, mm; none to look for it.
    pub radius: Option<f64>,
    /// Every other bore of all sectors, with the first sector's axis at 12 o'clock.
    pub obstacles: &'a [Circle],
    /// Where the flat top of the board ends, mm from the center pin.
    pub edge_radius: f64,
}

/// Where a start pocket has the most wood around it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PocketPlace {
    /// Bearing of its middle from the sector's axis.
    pub bearing: Angle,
    /// Distance of its middle from the center pin, mm.
    pub radius: f64,
    /// The smallest web there: to other bores, to other players' pockets, to the rim; mm. Webs within the
    /// pocket do not count, since they are the same everywhere.
    pub web: f64,
}

/// The place of a start pocket whose smallest web is the largest there is, to 1e-6 mm.
///
/// Of two mirror images the one on the clockwise side is taken. A pocket without holes lies at the pin.
///
/// # Errors
///
/// When a value is out of range, or no radius on the board holds an arc of so many holes.
pub fn best_pocket(search: &PocketSearch<'_>) -> Result<PocketPlace, Error> {
    check_pitch(search.pitch)?;
    check_holes("a start pocket", search.holes)?;
    check_finite("the board's edge", search.edge_radius)?;
    check_finite("the pocket's radius", search.radius.unwrap_or_default())?;
    check_finite(
        "the pocket's bearing",
        search.bearing.unwrap_or_default().as_radians(),
    )?;
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
    let radii = search
        .radius
        .map_or((least, most), |radius| (radius, radius));
    let half = core::f64::consts::PI / f64::from(search.players.max(1));
    let best = if let Some(bearing) = search.bearing {
        field.search((bearing.as_radians(), bearing.as_radians()), radii, None)
    } else {
        let clockwise = field.search((0.0, half), radii, None);
        field.search((-half, 0.0), radii, Some(clockwise))
    };
    Ok(PocketPlace {
        bearing: Angle::radians(best.bearing),
        radius: best.radius,
        web: best.web,
    })
}

/// Webs that differ by less than this, in mm, are equal.
const TIE: f64 = 1e-6;
/// Boxes that are looked at before the search rests content with the best place found; only fields that are
/// level along a whole line, where every place is as good, come to it.
const MOST_BOXES: usize = 6_000;

#[derive(Clone, Copy)]
struct Place {
    bearing: f64,
    radius: f64,
    web: f64,
}

/// A box of places, with what the best of them can reach.
struct Boxed {
    bearings: (f64, f64),
    radii: (f64, f64),
    bound: f64,
    /// The obstacles that can still be the nearest somewhere in the box.
    near: Rc<[usize]>,
}

impl PartialEq for Boxed {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Boxed {}

impl PartialOrd for Boxed {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Boxed {
    fn cmp(&self, other: &Self) -> Ordering {
        self.bound.total_cmp(&other.bound)
    }
}

/// The webs of a pocket as a function of its place.
struct Field<'a> {
    search: &'a PocketSearch<'a>,
    /// From the middle to each hole; empty for an arc.
    arms: Vec<Vec2>,
    /// From the sector to each other one that can be nearer than its mirror image.
    turns: Vec<(f64, f64)>,
}

impl<'a> Field<'a> {
    fn new(search: &'a PocketSearch<'a>) -> Self {
        let arms = match search.shape {
            PocketShape::Arc => Vec::new(),
            shape => arms_from_middle(shape, search.holes, search.pitch),
        };
        let turn =
            |sector| Angle::turn_part(i64::from(sector), i64::from(search.players)).sin_cos();
        // The pocket k sectors on is as far as the one k sectors back.
        let turns = (1..=search.players / 2).map(turn).collect();
        Self {
            search,
            arms,
            turns,
        }
    }

    /// The best place of a range, or `floor` where nothing beats it by more than a tie.
    fn search(&self, bearings: (f64, f64), radii: (f64, f64), floor: Option<Place>) -> Place {
        let middle = |range: (f64, f64)| f64::midpoint(range.0, range.1);
        let nowhere = Place {
            bearing: middle(bearings),
            radius: middle(radii),
            web: f64::NEG_INFINITY,
        };
        let mut best = floor.unwrap_or(nowhere);
        let mut heap = BinaryHeap::new();
        let all: Rc<[usize]> = (0..self.search.obstacles.len()).collect();
        heap.extend(self.look(bearings, radii, &all, &mut best, floor.is_some()));
        for _ in 0..MOST_BOXES {
            let Some(boxed) = heap.pop() else { break };
            if boxed.bound <= best.web + TIE {
                break;
            }
            for (bearings, radii) in boxed.halves() {
                heap.extend(self.look(bearings, radii, &boxed.near, &mut best, floor.is_some()));
            }
        }
        best
    }

    /// Judges a box by its center; none where it cannot beat the best.
    fn look(
        &self,
        bearings: (f64, f64),
        radii: (f64, f64),
        near: &Rc<[usize]>,
        best: &mut Place,
        by_a_tie: bool,
    ) -> Option<Boxed> {
        let (bearing, radius) = (
            f64::midpoint(bearings.0, bearings.1),
            f64::midpoint(radii.0, radii.1),
        );
        let reach = self.reach(bearings, radii);
        let holes = self.holes(bearing, radius);
        let webs = self.obstacle_webs(&holes, near);
        let to_obstacles = webs.iter().copied().fold(f64::INFINITY, f64::min);
        let fixed = to_obstacles.min(self.rim(&holes));
        let moving = self.other_pockets(&holes);
        let web = fixed.min(moving);
        let margin = if by_a_tie { TIE } else { 0.0 };
        if web > best.web + margin {
            *best = Place {
                bearing,
                radius,
                web,
            };
        }
        let bound = (fixed + reach).min(moving + 2.0 * reach);
        if bound <= best.web + TIE || reach == 0.0 {
            return None;
        }
        let near = near
            .iter()
            .zip(&webs)
            .filter(|(_, mm)| **mm <= bound + reach)
            .map(|(at, _)| *at)
            .collect();
        Some(Boxed {
            bearings,
            radii,
            bound,
            near,
        })
    }

    /// How far a hole can get from where it is at the box's center.
    fn reach(&self, bearings: (f64, f64), radii: (f64, f64)) -> f64 {
        let stretch = if self.search.shape == PocketShape::Arc {
            self.arc_stretch(radii.0)
        } else {
            1.0
        };
        stretch * (radii.1 - radii.0) / 2.0 + radii.1 * (bearings.1 - bearings.0) / 2.0
    }

    /// How far an arc's outermost hole moves for each mm of radius: outward by one, and along its circle by
    /// its place times p / R / sqrt(1 - (p / 2 R)^2), which falls as R grows.
    fn arc_stretch(&self, radius: f64) -> f64 {
        let outermost = (f64::from(self.search.holes) - 1.0) / 2.0;
        let ratio = self.search.pitch / radius;
        let along = outermost * ratio / (1.0 - ratio * ratio / 4.0).max(1e-6).sqrt();
        if outermost > 0.0 {
            Vec2::new(1.0, along).length()
        } else {
            1.0
        }
    }

    fn holes(&self, bearing: f64, radius: f64) -> Vec<Point> {
        let bearing = Angle::radians(bearing);
        if self.search.shape == PocketShape::Arc {
            let half = half_step(self.search.pitch, radius);
            return places_from_middle(self.search.holes)
                .map(|place| point_at(radius, bearing + half * (2.0 * place)))
                .collect();
        }
        let middle = point_at(radius, bearing);
        self.arms.iter().map(|arm| middle + *arm).collect()
    }

    /// The web of each obstacle in `near` to the hole nearest it.
    fn obstacle_webs(&self, holes: &[Point], near: &[usize]) -> Vec<f64> {
        let web = |&at: &usize| {
            let Some(obstacle) = self.search.obstacles.get(at) else {
                return f64::INFINITY;
            };
            let squared = holes
                .iter()
                .map(|hole| hole.distance_squared(obstacle.center))
                .fold(f64::INFINITY, f64::min);
            squared.sqrt() - obstacle.radius - self.search.hole_radius
        };
        near.iter().map(web).collect()
    }

    fn rim(&self, holes: &[Point]) -> f64 {
        let squared = holes
            .iter()
            .map(|hole| hole.to_vec2().length_squared())
            .fold(0.0, f64::max);
        self.search.edge_radius - squared.sqrt() - self.search.hole_radius
    }

    fn other_pockets(&self, holes: &[Point]) -> f64 {
        let mut squared = f64::INFINITY;
        for &(sin, cos) in &self.turns {
            for hole in holes {
                let turned = Point::new(hole.x * cos + hole.y * sin, hole.y * cos - hole.x * sin);
                squared = holes
                    .iter()
                    .map(|other| other.distance_squared(turned))
                    .fold(squared, f64::min);
            }
        }
        squared.sqrt() - 2.0 * self.search.hole_radius
    }
}

impl Boxed {
    /// The two halves, cut across the longer side as it lies on the board.
    fn halves(&self) -> [((f64, f64), (f64, f64)); 2] {
        let (bearings, radii) = (self.bearings, self.radii);
        if radii.1 - radii.0 >= radii.1 * (bearings.1 - bearings.0) {
            let middle = f64::midpoint(radii.0, radii.1);
            [(bearings, (radii.0, middle)), (bearings, (middle, radii.1))]
        } else {
            let middle = f64::midpoint(bearings.0, bearings.1);
            [((bearings.0, middle), radii), ((middle, bearings.1), radii)]
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Pattern, Sector, home_lane, track, turn_in};
    use testkit::assert_near;

    fn bores(pattern: Pattern, players: u32, spaces: u32, home: u32) -> Vec<Circle> {
        let places = track(pattern, players, spaces, 19.0).unwrap();
        let turn_in = places[turn_in(spaces) as usize - 1].y;
        let lane = home_lane(turn_in, home, 19.0).unwrap();
        let sectors = (0..players).map(|index| Sector::new(index, players, Angle::ZERO));
        let mut all: Vec<Circle> = sectors
            .flat_map(|sector| {
                places
                    .iter()
                    .chain(&lane)
                    .map(move |local| Circle::new(sector.place(*local), 6.0))
                    .collect::<Vec<_>>()
            })
            .collect();
        all.push(Circle::new(Point::ORIGIN, 6.0));
        all
    }

    fn search(shape: PocketShape, obstacles: &[Circle], players: u32) -> PocketSearch<'_> {
        let reach = obstacles
            .iter()
            .map(|bore| bore.center.to_vec2().length())
            .fold(0.0, f64::max);
        PocketSearch {
            shape,
            holes: 4,
            pitch: 19.0,
            hole_radius: 6.0,
            players,
            bearing: None,
            radius: None,
            obstacles,
            edge_radius: reach + 12.0,
        }
    }

    /// The smallest web of a pocket at a place, measured hole by hole in the plainest way.
    fn web_at(search: &PocketSearch<'_>, bearing: Angle, radius: f64) -> f64 {
        let holes =
            crate::pocket(search.shape, search.holes, search.pitch, bearing, radius).unwrap();
        let mut web = f64::INFINITY;
        for hole in &holes {
            web = web.min(search.edge_radius - hole.to_vec2().length() - search.hole_radius);
            for bore in search.obstacles {
                web = web.min(hole.distance(bore.center) - bore.radius - search.hole_radius);
            }
            for sector in
                (1..search.players).map(|index| Sector::new(index, search.players, Angle::ZERO))
            {
                let others = holes
                    .iter()
                    .map(|other| hole.distance(sector.place(*other)));
                web = others
                    .map(|mm| mm - 2.0 * search.hole_radius)
                    .fold(web, f64::min);
            }
        }
        web
    }

    fn dense_best(search: &PocketSearch<'_>) -> f64 {
        let half = 180.0 / f64::from(search.players);
        let bearings = (-120..=120).map(|step| Angle::degrees(half * f64::from(step) / 120.0));
        let least = least_radius(search.shape, search.holes, search.pitch) * 1.001;
        let radii = |step: u32| least + (search.edge_radius - least) * f64::from(step) / 300.0;
        bearings
            .flat_map(|bearing| (0..=300).map(move |step| web_at(search, bearing, radii(step))))
            .fold(f64::NEG_INFINITY, f64::max)
    }

    #[test]
    fn no_place_of_a_dense_scan_is_better() {
        let cases = [
            (Pattern::Ring, 6, 14, PocketShape::Row),
            (Pattern::Ring, 2, 20, PocketShape::Arc),
            (Pattern::Arms { across: 3 }, 4, 14, PocketShape::Ring),
            (Pattern::Polygon, 3, 16, PocketShape::Block),
            (Pattern::Lobes { depth: 0.2 }, 5, 13, PocketShape::Row),
        ];
        for (pattern, players, spaces, shape) in cases {
            let obstacles = bores(pattern, players, spaces, 3);
            let search = search(shape, &obstacles, players);
            let best = best_pocket(&search).unwrap();
            assert_near!(web_at(&search, best.bearing, best.radius), best.web, 1e-9);
            let scanned = dense_best(&search);
            assert!(
                best.web >= scanned - TIE,
                "{pattern:?} {shape:?}: {} under {scanned}",
                best.web
            );
            assert!(
                best.web <= scanned + 4.0,
                "{pattern:?}: a scan this dense misses at most a step"
            );
        }
    }

    #[test]
    fn along_a_given_bearing_or_radius_nothing_is_better_either() {
        let obstacles = bores(Pattern::Ring, 6, 14, 4);
        let free = search(PocketShape::Row, &obstacles, 6);
        let on_axis = PocketSearch {
            bearing: Some(Angle::degrees(30.0)),
            ..free
        };
        let best = best_pocket(&on_axis).unwrap();
        assert_eq!(best.bearing, Angle::degrees(30.0));
        for step in 0..=20_000 {
            let radius = free.edge_radius * f64::from(step) / 20_000.0;
            assert!(web_at(&free, best.bearing, radius) <= best.web + TIE);
        }
        let on_circle = PocketSearch {
            radius: Some(120.0),
            ..free
        };
        let best = best_pocket(&on_circle).unwrap();
        assert_eq!(best.radius, 120.0);
        for step in -10_000..=10_000 {
            let bearing = Angle::degrees(30.0 * f64::from(step) / 10_000.0);
            assert!(web_at(&free, bearing, 120.0) <= best.web + TIE);
        }
    }

    #[test]
    fn of_mirror_images_the_clockwise_one_is_taken() {
        let obstacles = bores(Pattern::Lobes { depth: 0.15 }, 6, 14, 4);
        let best = best_pocket(&search(PocketShape::Ring, &obstacles, 6)).unwrap();
        assert!(best.bearing.as_degrees() >= 0.0, "{best:?}");
    }

    #[test]
    fn both_given_is_only_measured() {
        let obstacles = bores(Pattern::Ring, 6, 14, 4);
        let fixed = PocketSearch {
            bearing: Some(Angle::ZERO),
            radius: Some(100.0),
            ..search(PocketShape::Row, &obstacles, 6)
        };
        let best = best_pocket(&fixed).unwrap();
        assert_near!(best.web, web_at(&fixed, Angle::ZERO, 100.0), 1e-12);
    }

    #[test]
    fn an_arc_that_fits_nowhere_is_refused() {
        let small = PocketSearch {
            edge_radius: 10.0,
            ..search(PocketShape::Arc, &[], 6)
        };
        assert!(matches!(best_pocket(&small), Err(Error::TightArc { .. })));
    }
}
