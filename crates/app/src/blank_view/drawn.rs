//! The painting of a blank, kept from frame to frame: only changed parts are filled and hatched again.

use board::{FlawKind, FlawShape, Stock, StockFlaw, StockOutline};
use geometry::{Circle, Outline, Point, Vec2};
use kurbo::{BezPath, PathEl, Shape as _};

use crate::painter::Fill;

/// Gaps between lines of the grain, as shares of what an even gap would be: wood is not ruled.
const GRAIN: [f64; 7] = [0.6, 1.5, 0.8, 1.2, 0.5, 1.7, 0.7];
/// Lines of the grain across a blank.
const LINES: f64 = 26.0;
/// Lines of hatching across a flaw.
const HATCHES: u16 = 7;
/// Corners of a round flaw, for its hatching.
const ROUND: u16 = 48;

/// A blank and its flaws, ready to be painted.
#[derive(Debug, Default)]
pub struct Drawn {
    outline: Option<(StockOutline, Area)>,
    flaws: Vec<(StockFlaw, Area)>,
}

/// Part of the picture.
#[derive(Debug)]
pub struct Area {
    /// Its corners as they were typed; those of a round flaw stand around it.
    pub corners: Vec<Point>,
    edge: BezPath,
    /// A box around it, unless it has no corners.
    pub bounds: Option<kurbo::Rect>,
    /// The outline that its corners make, if they make one.
    outline: Option<Outline>,
    /// Its inside; empty where it is round, or no outline.
    pub fill: Fill,
    /// Grain or hatching.
    pub lines: Vec<[Point; 2]>,
}

impl Drawn {
    /// Follows the blank of the document.
    pub fn follow(&mut self, stock: &Stock) {
        if self.outline.as_ref().map(|(of, _)| of) != Some(&stock.outline) {
            let corners = stock.outline.corners().unwrap_or_default();
            self.outline = Some((stock.outline.clone(), Area::wood(points(&corners))));
        }
        self.flaws.truncate(stock.flaws.len());
        for (at, flaw) in stock.flaws.iter().enumerate() {
            match self.flaws.get_mut(at) {
                Some((of, _)) if of == flaw => {}
                Some(kept) => *kept = (flaw.clone(), Area::flaw(flaw)),
                None => self.flaws.push((flaw.clone(), Area::flaw(flaw))),
            }
        }
    }

    /// The wood.
    pub fn wood(&self) -> Option<&Area> {
        self.outline.as_ref().map(|(_, area)| area)
    }

    /// The flaws, as they stand in the document.
    pub fn flaws(&self) -> impl Iterator<Item = (&StockFlaw, &Area)> {
        self.flaws.iter().map(|(flaw, area)| (flaw, area))
    }

    /// All of the blank, flaws beside it too.
    pub fn bounds(&self) -> Option<kurbo::Rect> {
        let wood = self.wood().into_iter();
        let areas = wood.chain(self.flaws().map(|(_, area)| area));
        areas
            .filter_map(|area| area.bounds)
            .reduce(|all, area| all.union(area))
    }
}

impl Area {
    fn wood(corners: Vec<Point>) -> Self {
        let gaps = GRAIN.iter().cycle();
        let heights = gaps.scan(0.0, |height, gap| {
            *height += gap / LINES;
            Some(*height)
        });
        Self::new(corners).filled().hatched(
            Vec2::new(1.0, 0.0),
            heights.take_while(|height| *height < 1.0),
        )
    }

    fn flaw(flaw: &StockFlaw) -> Self {
        let area = match &flaw.shape {
            FlawShape::Round { x, y, diameter } => {
                Self::new(around(Circle::new((*x, *y), diameter / 2.0)))
            }
            FlawShape::Area { corners } => Self::new(points(corners)).filled(),
        };
        // The lines stand about the middle.
        let heights = (0..HATCHES).map(|line| (f64::from(line) + 0.5) / f64::from(HATCHES));
        let slopes = slopes(flaw.kind).iter();
        slopes.fold(area, |area, slope| area.hatched(*slope, heights.clone()))
    }

    fn new(corners: Vec<Point>) -> Self {
        let edge = edge(&corners);
        Self {
            bounds: (!edge.is_empty()).then(|| edge.bounding_box()),
            edge,
            outline: Outline::new(corners.clone()).ok(),
            corners,
            fill: Fill::default(),
            lines: Vec::new(),
        }
    }

    fn filled(mut self) -> Self {
        if let Some(outline) = &self.outline {
            self.fill = Fill::of(outline.corners());
        }
        self
    }

    fn hatched(mut self, slope: Vec2, heights: impl Iterator<Item = f64>) -> Self {
        if let Some(outline) = &self.outline {
            self.lines.extend(outline.hatching(slope, heights));
        }
        self
    }

    /// Whether its corners make an outline.
    pub const fn is_sound(&self) -> bool {
        self.outline.is_some()
    }

    /// Whether a point lies inside, also where edges cross.
    pub fn contains(&self, at: Point) -> bool {
        self.edge.winding(at) % 2 != 0
    }
}

fn edge(corners: &[Point]) -> BezPath {
    let Some((first, rest)) = corners.split_first() else {
        return BezPath::new();
    };
    let lines = rest.iter().map(|at| PathEl::LineTo(*at));
    let start = core::iter::once(PathEl::MoveTo(*first));
    start.chain(lines).chain([PathEl::ClosePath]).collect()
}

/// Ways that the hatching of a kind runs: each kind has its own.
const fn slopes(kind: FlawKind) -> &'static [Vec2] {
    const UP: Vec2 = Vec2::new(
        core::f64::consts::FRAC_1_SQRT_2,
        core::f64::consts::FRAC_1_SQRT_2,
    );
    const DOWN: Vec2 = Vec2::new(
        core::f64::consts::FRAC_1_SQRT_2,
        -core::f64::consts::FRAC_1_SQRT_2,
    );
    const ACROSS: Vec2 = Vec2::new(0.0, 1.0);
    match kind {
        FlawKind::Knot => &[UP, DOWN],
        FlawKind::Crack => &[UP],
        FlawKind::Sapwood => &[ACROSS],
    }
}

fn around(circle: Circle) -> Vec<Point> {
    let corner = |at: u16| {
        let turn = geometry::Angle::turn_part(i64::from(at), i64::from(ROUND));
        circle.center + geometry::point_at(circle.radius, turn).to_vec2()
    };
    (0..ROUND).map(corner).collect()
}

fn points(corners: &[[f64; 2]]) -> Vec<Point> {
    corners.iter().map(|[x, y]| Point::new(*x, *y)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    fn knot(x: f64) -> StockFlaw {
        StockFlaw {
            kind: FlawKind::Knot,
            shape: FlawShape::Round {
                x,
                y: 50.0,
                diameter: 30.0,
            },
        }
    }

    fn slab() -> Stock {
        Stock {
            outline: StockOutline::Slab {
                length: 900.0,
                width: 300.0,
                lower: vec![],
                upper: vec![40.0, 0.0, 20.0],
            },
            flaws: vec![knot(100.0), knot(200.0)],
            ..Stock::default()
        }
    }

    #[test]
    fn a_moved_knot_leaves_the_rest_as_it_is() {
        let (mut drawn, mut stock) = (Drawn::default(), slab());
        drawn.follow(&stock);
        let before: Vec<*const Point> = areas(&drawn);
        stock.flaws[1] = knot(-20.0);
        drawn.follow(&stock);
        let after = areas(&drawn);
        assert_eq!(before[..2], after[..2]);
        assert_near!(drawn.bounds().unwrap().x0, -35.0, 1e-9);
        stock.flaws.clear();
        drawn.follow(&stock);
        assert_eq!(areas(&drawn), before[..1]);
    }

    fn areas(drawn: &Drawn) -> Vec<*const Point> {
        let all = drawn
            .wood()
            .into_iter()
            .chain(drawn.flaws().map(|(_, area)| area));
        all.map(|area| area.corners.as_ptr()).collect()
    }

    #[test]
    fn each_kind_of_flaw_is_hatched_in_its_own_way() {
        let hatches = FlawKind::ALL.map(|kind| {
            let area = Area::flaw(&StockFlaw { kind, ..knot(0.0) });
            assert!(area.lines.len() >= 6, "{kind:?}");
            area.lines
        });
        assert!(hatches[0] != hatches[1] && hatches[1] != hatches[2] && hatches[0] != hatches[2]);
    }

    #[test]
    fn corners_that_cross_are_kept_and_not_filled() {
        let mut stock = slab();
        let corners = vec![[0.0, 0.0], [9.0, 9.0], [9.0, 0.0], [0.0, 9.0]];
        stock.outline = StockOutline::Corners { corners };
        let mut drawn = Drawn::default();
        drawn.follow(&stock);
        let wood = drawn.wood().unwrap();
        assert!(!wood.is_sound() && wood.lines.is_empty() && wood.corners.len() == 4);
    }
}
