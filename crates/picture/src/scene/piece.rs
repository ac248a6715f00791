//! The pieces on the board: balls, and solids of revolution around a vertical axis.

use board::{Bore, Piece, PieceKind};
use workshop::{marble_stand, peg_stand};

use crate::space::{Ray, Space, eased};
use crate::tone::Tone;

/// A piece in its place.
///
/// It stands upright: a marble lies in its bore by its own weight, a peg is held by its shank, a magnet piece by the steel in
/// the bore below it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// Its axis.
    pub x: f64,
    /// Its axis.
    pub y: f64,
    /// Its shape.
    pub shape: Shape,
    /// Its tone.
    pub tone: Tone,
}

/// The shape of a piece; heights are above the top face, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// A ball.
    Ball {
        /// Height of its center.
        middle: f64,
        /// Its radius.
        radius: f64,
    },
    /// A body with a foot that narrows to a round head.
    Turned {
        /// Height of its foot.
        foot: f64,
        /// Height of its top.
        top: f64,
        /// Radius at the foot.
        wide: f64,
        /// Radius of the head.
        head: f64,
    },
}

impl Shape {
    /// The shape of a piece in a bore.
    pub fn of(piece: &Piece, bore: Bore) -> Self {
        let radius = piece.diameter / 2.0;
        match piece.kind {
            PieceKind::Marble => {
                let sinks = marble_stand(piece.diameter, bore).sinks;
                Self::Ball {
                    middle: radius - sinks.unwrap_or(bore.depth),
                    radius,
                }
            }
            PieceKind::Peg => {
                let above = peg_stand(piece, bore).map_or(piece.height, |stand| stand.above);
                Self::turned(0.0, above.max(1.0), radius, 0.72)
            }
            PieceKind::Magnet => Self::turned(0.0, piece.height, radius, 0.8),
        }
    }

    /// A solid of revolution between two heights, with its head narrower by a share.
    fn turned(foot: f64, top: f64, wide: f64, narrows: f64) -> Self {
        let height = top - foot;
        // A piece lower than it is wide is a disc with straight sides.
        let head = if height < 1.2 * wide {
            wide
        } else {
            wide * narrows
        };
        Self::Turned {
            foot,
            top,
            wide,
            head,
        }
    }

    /// Height of its top.
    pub fn top(&self) -> f64 {
        match *self {
            Self::Ball { middle, radius } => middle + radius,
            Self::Turned { top, .. } => top,
        }
    }

    /// Its greatest radius.
    pub const fn reach(&self) -> f64 {
        match *self {
            Self::Ball { radius, .. } => radius,
            Self::Turned { wide, .. } => wide,
        }
    }
}

impl Standing {
    /// The point where a ray hits it, as the distance along the ray and the normal there.
    pub fn meet(&self, ray: Ray) -> Option<(f64, Space)> {
        match self.shape {
            Shape::Ball { middle, radius } => {
                let center = Space::new(self.x, self.y, middle);
                let far = through(ray, center, radius)?.0;
                Some((far, (ray.at(far) - center) * (1.0 / radius)))
            }
            Shape::Turned {
                foot,
                top,
                wide,
                head,
            } => {
                let middle = Space::new(self.x, self.y, f64::midpoint(foot, top));
                let half = (top - foot) / 2.0;
                let (from, to) = through(ray, middle, (half * half + wide * wide).sqrt())?;
                if !self.comes_by(ray, (foot, top), wide) {
                    return None;
                }
                self.march(
                    ray,
                    (from.max(0.0), to),
                    Turned {
                        foot,
                        top,
                        wide,
                        head,
                    },
                )
            }
        }
    }

    /// Whether a ray that runs downward comes within reach of the axis between two heights; most rays that enter the ball
    /// around a low piece do not.
    fn comes_by(&self, ray: Ray, (foot, top): (f64, f64), wide: f64) -> bool {
        /// Slack, larger than the distance at which the shape counts as hit.
        const SLACK: f64 = 0.1;
        if ray.way.z >= 0.0 {
            return true;
        }
        let at = |height: f64| ray.at((height - ray.from.z) / ray.way.z);
        let (high, low) = (at(top + SLACK), at(foot - SLACK));
        let (x, y) = (self.x - high.x, self.y - high.y);
        let (along, up) = (low.x - high.x, low.y - high.y);
        let square = (along * along + up * up).max(1e-12);
        let share = ((x * along + y * up) / square).clamp(0.0, 1.0);
        let (x, y) = (x - along * share, y - up * share);
        x * x + y * y <= (wide + SLACK) * (wide + SLACK)
    }

    /// Marches along a ray in steps of the distance to the shape until it is hit.
    fn march(&self, ray: Ray, (from, to): (f64, f64), turned: Turned) -> Option<(f64, Space)> {
        const NEAR: f64 = 0.01;
        let mut far = from;
        for _ in 0..120 {
            let place = ray.at(far);
            let off = self.off(place, turned);
            if off < NEAR {
                return Some((far, self.out(place, turned)));
            }
            far += off;
            if far > to {
                break;
            }
        }
        None
    }

    /// Distance of a point from the solid of revolution.
    fn off(&self, place: Space, turned: Turned) -> f64 {
        let (x, y) = (place.x - self.x, place.y - self.y);
        turned.off((x * x + y * y).sqrt(), place.z)
    }

    /// The normal of the shape at a point: the direction in which the distance grows fastest.
    fn out(&self, place: Space, turned: Turned) -> Space {
        const STEP: f64 = 0.02;
        let step = |way: Space| {
            self.off(place + way * STEP, turned) - self.off(place - way * STEP, turned)
        };
        let (x, y) = (Space::new(1.0, 0.0, 0.0), Space::new(0.0, 1.0, 0.0));
        Space::new(step(x), step(y), step(Space::UP)).unit()
    }

    /// Share of the lamp's light that it lets through to a point on or beside the board.
    pub fn lets_by(&self, place: Space, light: Space) -> f64 {
        match self.shape {
            Shape::Ball { middle, radius } => {
                let way = Space::new(self.x, self.y, middle) - place;
                let along = way.dot(light);
                if along <= 0.0 {
                    return 1.0;
                }
                let off = (way.dot(way) - along * along).max(0.0).sqrt() - radius;
                let soft = 0.1 * along + 0.2;
                eased(-soft, soft, off)
            }
            Shape::Turned {
                top, wide, head, ..
            } => {
                // The shadow on a level face is that of the axis, as wide as the piece is at each height.
                let run = (top - head - place.z).max(0.1) / light.z;
                let (x, y) = (self.x - place.x, self.y - place.y);
                let level = light.x * light.x + light.y * light.y;
                let at = ((x * light.x + y * light.y) / (level * run).max(1e-9)).clamp(0.0, 1.0);
                let (x, y) = (x - light.x * run * at, y - light.y * run * at);
                let radius = wide + (head - wide) * at;
                let soft = 0.1 * run * at + 0.3;
                eased(-soft, soft, (x * x + y * y).sqrt() - radius)
            }
        }
    }

    /// Share of the sky that it leaves visible for a point on the board near its foot.
    pub fn leaves_open(&self, place: Space) -> f64 {
        let (x, y) = (place.x - self.x, place.y - self.y);
        let off = x * x + y * y;
        match self.shape {
            Shape::Ball { middle, radius } => {
                let rise = (middle - place.z).max(0.0);
                let square = off + rise * rise;
                let covered = radius * radius * rise / (square * square.sqrt()).max(1e-9);
                1.0 - covered.min(1.0) * 0.8
            }
            Shape::Turned { wide, top, .. } => {
                let off = (off.sqrt() - wide).max(0.0);
                1.0 - 0.5 * (1.0 - eased(0.0, (0.6 * top).max(2.0), off))
            }
        }
    }
}

/// The dimensions of a solid of revolution.
#[derive(Clone, Copy)]
struct Turned {
    foot: f64,
    top: f64,
    wide: f64,
    head: f64,
}

impl Turned {
    /// A lower bound of the distance of a point from the shape, from the point's distance from the axis and its height.
    fn off(self, across: f64, height: f64) -> f64 {
        if self.head >= self.wide {
            return self.off_disc(across, height);
        }
        // A cone tangent to the ball of the head.
        let ball = self.top - self.head;
        let rise = (ball - self.foot).max(0.1);
        let share = ((height - self.foot) / rise).clamp(0.0, 1.0);
        let radius = self.wide + (self.head - self.wide) * share * (2.0 - share);
        let side = (across - radius) * 0.85;
        let (below, above) = (self.foot - height, height - ball);
        let head = (across * across + above.max(0.0) * above.max(0.0)).sqrt() - self.head;
        let body = side.max(below).max(above);
        body.min(head.max(below))
    }

    /// The same for a disc with eased edges.
    fn off_disc(self, across: f64, height: f64) -> f64 {
        let edge = (0.25 * (self.top - self.foot)).min(0.2 * self.wide);
        let half = (self.top - self.foot) / 2.0;
        let (out, up) = (
            across - (self.wide - edge),
            (height - self.foot - half).abs() - (half - edge),
        );
        let corner = (out.max(0.0) * out.max(0.0) + up.max(0.0) * up.max(0.0)).sqrt();
        corner + out.max(up).min(0.0) - edge
    }
}

/// Distances at which a ray enters and leaves a ball.
fn through(ray: Ray, center: Space, radius: f64) -> Option<(f64, f64)> {
    let from = ray.from - center;
    let half = from.dot(ray.way);
    let square = half * half - from.dot(from) + radius * radius;
    (square >= 0.0).then(|| (-half - square.sqrt(), -half + square.sqrt()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    fn down(x: f64) -> Ray {
        Ray {
            from: Space::new(x, 0.0, 100.0),
            way: Space::UP * -1.0,
        }
    }

    fn standing(shape: Shape) -> Standing {
        Standing {
            x: 0.0,
            y: 0.0,
            shape,
            tone: Tone::gray(1.0),
        }
    }

    /// A 16 mm marble on a 12 mm bore sinks 2.708497 mm, by r - √(r² - a²).
    #[test]
    fn a_ray_hits_a_marble_at_its_height() {
        let shape = Shape::of(&Piece::default(), board::Board::default().bores.start);
        let marble = standing(shape);
        let (far, out) = marble.meet(down(0.0)).unwrap();
        assert_near!(100.0 - far, 16.0 - 2.708_497, 1e-6);
        assert_near!(out.z, 1.0, 1e-9);
        assert!(marble.meet(down(8.1)).is_none());
    }

    #[test]
    fn a_ray_hits_a_peg_at_its_head_and_misses_it_beside_its_foot() {
        let peg = standing(Shape::turned(0.0, 30.0, 6.0, 0.7));
        assert_near!(100.0 - peg.meet(down(0.0)).unwrap().0, 30.0, 0.01);
        assert!(peg.meet(down(6.2)).is_none());
        assert!(peg.meet(down(5.0)).is_some());
    }

    #[test]
    fn the_shadow_falls_away_from_the_light() {
        let light = Space::new(-1.0, 1.0, 1.5).unit();
        for shape in [
            Shape::Ball {
                middle: 5.0,
                radius: 8.0,
            },
            Shape::turned(0.0, 30.0, 6.0, 0.7),
        ] {
            let piece = standing(shape);
            let dark = piece.lets_by(Space::new(6.0, -6.0, 0.0), light);
            let bright = piece.lets_by(Space::new(-12.0, 12.0, 0.0), light);
            assert!(
                dark < 0.2 && bright > 0.95,
                "{shape:?}: {dark} and {bright}"
            );
        }
    }
}
