//! Barriers that a disc has to stay clear of: the straight edges of areas, and round knots.
//!
//! The distances to an edge (including its ends) and to a round knot are convex: between two places they are never larger than
//! at the farther of the two. The searches depend on this.

use super::{Feature, Flaw, Outline};
use crate::{Point, Vec2};

/// An edge of an area, or a round knot.
#[derive(Debug, Clone, Copy)]
pub(super) enum Barrier {
    Wall(Wall),
    Round(Round),
}

/// An edge, without width.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wall {
    from: Point,
    to: Point,
    /// Unit vector from one end to the other.
    along: Vec2,
    length: f64,
    /// The index of the area it belongs to.
    pub(super) area: u32,
    /// The index of the edge in its area.
    edge: u32,
}

/// An exactly circular knot.
#[derive(Debug, Clone, Copy)]
pub(super) struct Round {
    center: Point,
    radius: f64,
    flaw: u32,
}

/// The nearest point of a barrier, as seen from a place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Contact {
    /// Distance to the barrier, in mm; negative inside a round knot.
    pub(super) distance: f64,
    /// The unit vector along which that distance grows fastest.
    pub(super) away: Vec2,
}

impl Barrier {
    pub(super) fn distance(&self, place: Point) -> f64 {
        match self {
            Self::Wall(wall) => wall.distance(place),
            Self::Round(round) => (place - round.center).length() - round.radius,
        }
    }

    pub(super) fn contact(&self, place: Point) -> Contact {
        match self {
            Self::Wall(wall) => wall.contact(place),
            Self::Round(round) => {
                let off = place - round.center;
                let distance = off.length();
                Contact {
                    distance: distance - round.radius,
                    away: unit(off, distance),
                }
            }
        }
    }

    pub(super) fn as_wall(&self) -> Option<&Wall> {
        match self {
            Self::Wall(wall) => Some(wall),
            Self::Round(_) => None,
        }
    }
}

impl Wall {
    fn new((from, to): (Point, Point), area: u32, edge: u32) -> Self {
        let length = (to - from).length();
        Self {
            from,
            to,
            along: unit(to - from, length),
            length,
            area,
            edge,
        }
    }

    fn distance(&self, place: Point) -> f64 {
        let off = place - self.from;
        let along = off.dot(self.along);
        if along <= 0.0 {
            off.length()
        } else if along >= self.length {
            (place - self.to).length()
        } else {
            off.cross(self.along).abs()
        }
    }

    fn contact(&self, place: Point) -> Contact {
        let off = place - self.from;
        let along = off.dot(self.along);
        if 0.0 < along && along < self.length {
            let side = self.along.cross(off);
            let left = Vec2::new(-self.along.y, self.along.x);
            return Contact {
                distance: side.abs(),
                away: if side < 0.0 { -left } else { left },
            };
        }
        let off = if along <= 0.0 { off } else { place - self.to };
        let distance = off.length();
        Contact {
            distance,
            away: unit(off, distance),
        }
    }

    /// Whether the barrier runs, to within `slack`, along the unit vector `line` at `distance` to one side of `place`.
    pub(super) fn runs_beside(&self, place: Point, line: Vec2, distance: f64, slack: f64) -> bool {
        [distance, -distance].iter().any(|side| {
            [self.from, self.to]
                .iter()
                .all(|end| ((*end - place).cross(line) - side).abs() <= slack)
        })
    }

    /// The ends of the part of the barrier that lies within a circle; `None` if it lies outside.
    pub(super) fn chord(&self, center: Point, radius: f64) -> Option<[Point; 2]> {
        let off = center - self.from;
        let (along, aside) = (off.dot(self.along), off.cross(self.along));
        let half = (radius * radius - aside * aside).max(0.0).sqrt();
        let (from, to) = ((along - half).max(0.0), (along + half).min(self.length));
        (aside.abs() <= radius && from < to)
            .then(|| [from, to].map(|along| self.from + self.along * along))
    }

    /// The end of the edge that lies within `slack` of the point nearest to `place`, as the corner's index.
    fn corner_near(&self, place: Point, slack: f64) -> Option<u32> {
        let along = (place - self.from).dot(self.along);
        if along <= slack {
            Some(0)
        } else {
            (along >= self.length - slack).then_some(1)
        }
    }
}

/// A vector of length 1, or one pointing right for a zero vector.
fn unit(vector: Vec2, length: f64) -> Vec2 {
    // A vector so short that its squared length underflows has no usable direction either.
    if length > f64::MIN_POSITIVE {
        vector / length
    } else {
        Vec2::new(1.0, 0.0)
    }
}

/// An outline that a place must lie inside, or a flaw that it must lie outside.
struct Area<'a> {
    outline: &'a Outline,
    flaw: Option<u32>,
}

impl Area<'_> {
    fn forbids(&self, place: Point) -> bool {
        self.outline.contains(place) == self.flaw.is_some()
    }
}

/// All barriers of a blank.
pub(super) struct Barriers<'a> {
    list: Vec<Barrier>,
    /// The blank itself, then the flaws with outlines.
    areas: Vec<Area<'a>>,
}

impl<'a> Barriers<'a> {
    pub(super) fn new(outline: &'a Outline, flaws: &'a [Flaw]) -> Self {
        let mut barriers = Self {
            list: Vec::new(),
            areas: Vec::new(),
        };
        barriers.add_area(outline, None);
        for (flaw, number) in flaws.iter().zip(0..) {
            match flaw {
                Flaw::Area(area) => barriers.add_area(area, Some(number)),
                Flaw::Round(circle) if circle.is_finite() && circle.radius >= 0.0 => {
                    barriers.list.push(Barrier::Round(Round {
                        center: circle.center,
                        radius: circle.radius,
                        flaw: number,
                    }));
                }
                Flaw::Round(_) => {}
            }
        }
        barriers
    }

    fn add_area(&mut self, outline: &'a Outline, flaw: Option<u32>) {
        let area = self.areas.len() as u32;
        let walls = outline.edges().zip(0..);
        self.list
            .extend(walls.map(|(ends, edge)| Barrier::Wall(Wall::new(ends, area, edge))));
        self.areas.push(Area { outline, flaw });
    }

    pub(super) fn list(&self) -> &[Barrier] {
        &self.list
    }

    /// The barriers with these indices.
    pub(super) fn pick(&self, indices: &[u32]) -> impl Iterator<Item = &Barrier> {
        indices
            .iter()
            .filter_map(|index| self.list.get(*index as usize))
    }

    pub(super) fn all_areas(&self) -> Vec<u32> {
        (0..self.areas.len() as u32).collect()
    }

    /// Whether a place lies outside the blank or inside a flaw, judging by one area.
    pub(super) fn forbids(&self, area: u32, place: Point) -> bool {
        self.areas
            .get(area as usize)
            .is_some_and(|area| area.forbids(place))
    }

    /// Distance from a place to the nearest barrier, in mm; outside the blank or inside a flaw, minus the distance to the edge
    /// of the area that it violates most deeply.
    pub(super) fn clearance(&self, place: Point) -> f64 {
        let mut to_walls = vec![f64::INFINITY; self.areas.len()];
        let mut clear = f64::INFINITY;
        for barrier in &self.list {
            let distance = barrier.distance(place);
            match barrier {
                Barrier::Round(_) => clear = clear.min(distance),
                Barrier::Wall(wall) => {
                    if let Some(nearest) = to_walls.get_mut(wall.area as usize) {
                        *nearest = nearest.min(distance);
                    }
                }
            }
        }
        for (area, distance) in self.areas.iter().zip(to_walls) {
            let signed = if area.forbids(place) {
                -distance
            } else {
                distance
            };
            clear = clear.min(signed);
        }
        clear
    }

    /// The features that a circle touches to within `slack`, without duplicates and in order.
    pub(super) fn touched(&self, center: Point, radius: f64, slack: f64) -> Vec<Feature> {
        let mut features: Vec<Feature> = self
            .list
            .iter()
            .filter(|barrier| barrier.distance(center) <= radius + slack)
            .map(|barrier| self.feature(barrier, center, slack))
            .collect();
        features.sort_unstable();
        features.dedup();
        features
    }

    fn feature(&self, barrier: &Barrier, center: Point, slack: f64) -> Feature {
        let wall = match barrier {
            Barrier::Round(round) => return Feature::Round(round.flaw as usize),
            Barrier::Wall(wall) => wall,
        };
        let area = self.areas.get(wall.area as usize);
        let corners = area.map_or(1, |area| area.outline.corners().len());
        let edge = wall.edge as usize;
        let corner = wall
            .corner_near(center, slack)
            .map(|end| (edge + end as usize) % corners);
        match (area.and_then(|area| area.flaw), corner) {
            (None, None) => Feature::Edge(edge),
            (None, Some(corner)) => Feature::Corner(corner),
            (Some(flaw), None) => Feature::FlawEdge {
                flaw: flaw as usize,
                edge,
            },
            (Some(flaw), Some(corner)) => Feature::FlawCorner {
                flaw: flaw as usize,
                corner,
            },
        }
    }
}
