//! A bore as a recess that view rays and light enter.
//!
//! A ray that enters through the mouth ends on the wall, on the floor or on resin, whichever is nearest. The shapes are those
//! that each drill leaves, as in crate `workshop`: flat, flat with the pit of a spur, a cone of 118 or 135 degrees, part of a
//! ball.

use board::{Bore, Bottom};
use geometry::Angle;

use crate::paint::BorePaint;
use crate::space::{Ray, Space, eased};

/// A bore, with its resin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Well {
    /// Its center.
    pub x: f64,
    /// Its center.
    pub y: f64,
    /// Radius of its mouth.
    pub radius: f64,
    /// Depth where its wall ends.
    wall: f64,
    /// The shape of its floor.
    floor: Floor,
    /// Its colors.
    pub paint: BorePaint,
    /// The steel set into it.
    pub steel: Option<Steel>,
    /// Depth of the resin's edge below the top face; none without resin.
    pub resin: Option<f64>,
}

/// The shape of its floor.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Floor {
    Flat,
    /// Flat, with a central pit of this radius from a spur.
    Pitted(f64),
    /// A cone of this length.
    Cone(f64),
    /// Part of a ball: the depth of its center, and its radius.
    Ball(f64, f64),
}

/// The steel set into a bore for a magnet piece; depths are those of its upper end, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Steel {
    /// A ball.
    Ball {
        /// Depth of its upper end.
        below: f64,
        /// Its radius.
        radius: f64,
    },
    /// A disc.
    Disc {
        /// Depth of its upper face.
        below: f64,
        /// Its radius.
        radius: f64,
    },
}

/// A surface in a bore that a ray can hit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surface {
    /// Its wall or its floor.
    Wood,
    /// The resin in it.
    Resin,
    /// The steel in it.
    Steel,
}

/// The point where a ray ends in a bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Met {
    /// Distance along the ray, mm.
    pub far: f64,
    /// The point.
    pub place: Space,
    /// The normal of the surface.
    pub out: Space,
    /// The surface.
    pub of: Surface,
}

impl Well {
    /// A bore at a point, with the length of the spur that drilled it.
    pub fn of((x, y): (f64, f64), bore: Bore, spur: f64, resin: Option<f64>) -> Self {
        let (radius, depth) = (bore.radius(), bore.depth);
        let cone = |included: f64| {
            let half = Angle::degrees(included / 2.0);
            Floor::Cone(radius * half.cos() / half.sin())
        };
        let (wall, floor) = match bore.bottom {
            Bottom::Flat => (depth, Floor::Flat),
            Bottom::Forstner => (depth, Floor::Pitted((spur / 2.0).min(radius / 2.0))),
            Bottom::Point118 => (depth, cone(118.0)),
            Bottom::Point135 => (depth, cone(135.0)),
            Bottom::Ball => {
                let ball = bore.cutter() / 2.0;
                let middle = depth - ball;
                (middle.max(0.0), Floor::Ball(middle, ball))
            }
        };
        Self {
            x,
            y,
            radius,
            wall,
            floor,
            paint: BorePaint::default(),
            steel: None,
            resin: resin.filter(|below| *below < depth),
        }
    }

    /// Distance from a point to the rim of the mouth; negative inside.
    pub fn outside(&self, x: f64, y: f64) -> f64 {
        let (x, y) = (x - self.x, y - self.y);
        (x * x + y * y).sqrt() - self.radius
    }

    /// The point where a ray that entered through the mouth ends.
    pub fn meet(&self, ray: Ray) -> Met {
        let wall = self.on_wall(ray);
        if let Some(below) = self.resin {
            let far = ray.to_level(-below).unwrap_or(0.0);
            if far < wall.far {
                return self.resin_at(ray, far);
            }
        }
        let floor = self.on_floor(ray);
        let wood = if floor.far < wall.far { floor } else { wall };
        let steel = self.steel.and_then(|steel| self.on_steel(ray, steel));
        steel.filter(|met| met.far < wood.far).unwrap_or(wood)
    }

    /// The point where a ray hits the ball or disc set into the bore.
    fn on_steel(&self, ray: Ray, steel: Steel) -> Option<Met> {
        let (far, out) = match steel {
            Steel::Ball { below, radius } => {
                let center = Space::new(self.x, self.y, -below - radius);
                let from = ray.from - center;
                let half = from.dot(ray.way);
                let square = half * half - from.dot(from) + radius * radius;
                let far = (square >= 0.0).then(|| -half - square.sqrt())?;
                (far, (ray.at(far) - center) * (1.0 / radius))
            }
            Steel::Disc { below, radius } => {
                let far = ray.to_level(-below)?;
                let place = ray.at(far);
                let (x, y) = (place.x - self.x, place.y - self.y);
                (x * x + y * y < radius * radius).then_some((far, Space::UP))?
            }
        };
        Some(Met {
            far,
            place: ray.at(far),
            out,
            of: Surface::Steel,
        })
    }

    /// The point on the resin, whose surface creeps up the wall a little, as liquids do.
    fn resin_at(&self, ray: Ray, far: f64) -> Met {
        let place = ray.at(far);
        let (x, y) = (place.x - self.x, place.y - self.y);
        let off = (x * x + y * y).sqrt();
        let lean = eased(self.radius - 1.1, self.radius, off) * 0.8;
        let scale = lean / off.max(1e-6);
        Met {
            far,
            place,
            out: Space::new(-x * scale, -y * scale, 1.0).unit(),
            of: Surface::Resin,
        }
    }

    /// The point where a ray inside hits the wall, however deep that is.
    fn on_wall(&self, ray: Ray) -> Met {
        let (x, y) = (ray.from.x - self.x, ray.from.y - self.y);
        let (way_x, way_y) = (ray.way.x, ray.way.y);
        let square = way_x * way_x + way_y * way_y;
        let far = if square > 1e-12 {
            let half = x * way_x + y * way_y;
            let rest = x * x + y * y - self.radius * self.radius;
            (-half + (half * half - square * rest).max(0.0).sqrt()) / square
        } else {
            f64::INFINITY
        };
        let place = if far.is_finite() {
            ray.at(far)
        } else {
            ray.from
        };
        let inward = Space::new(self.x - place.x, self.y - place.y, 0.0);
        Met {
            far: if place.z < -self.wall {
                f64::INFINITY
            } else {
                far
            },
            place,
            out: inward.unit(),
            of: Surface::Wood,
        }
    }

    /// The point where a ray inside hits the floor.
    fn on_floor(&self, ray: Ray) -> Met {
        let level = ray.to_level(-self.wall).unwrap_or(0.0);
        let (far, out) = match self.floor {
            Floor::Flat => (level, Space::UP),
            Floor::Pitted(pit) => (level, self.pit(ray.at(level), pit)),
            Floor::Cone(length) => self.on_cone(ray, length).unwrap_or((level, Space::UP)),
            Floor::Ball(middle, ball) => self
                .on_ball(ray, middle, ball)
                .unwrap_or((level, Space::UP)),
        };
        Met {
            far,
            place: ray.at(far),
            out,
            of: Surface::Wood,
        }
    }

    /// The normal of the floor at a point, tilted where the pit of a spur is.
    fn pit(&self, place: Space, pit: f64) -> Space {
        let (x, y) = (place.x - self.x, place.y - self.y);
        let off = (x * x + y * y).sqrt();
        if off < pit && off > 1e-9 {
            Space::new(-x / off * 1.6, -y / off * 1.6, 1.0).unit()
        } else {
            Space::UP
        }
    }

    /// The point where a ray hits the cone of a drill point: the farther of two, since the ray comes from inside.
    fn on_cone(&self, ray: Ray, length: f64) -> Option<(f64, Space)> {
        // Height above the apex increases by the slope of the side with the distance from the axis.
        let slope = length / self.radius;
        let from = Space::new(
            ray.from.x - self.x,
            ray.from.y - self.y,
            ray.from.z + self.wall + length,
        );
        let steep = slope * slope;
        let square =
            steep * (ray.way.x * ray.way.x + ray.way.y * ray.way.y) - ray.way.z * ray.way.z;
        let half = steep * (from.x * ray.way.x + from.y * ray.way.y) - from.z * ray.way.z;
        let rest = steep * (from.x * from.x + from.y * from.y) - from.z * from.z;
        let root = (half * half - square * rest).max(0.0).sqrt();
        let ends = [(-half - root) / square, (-half + root) / square];
        let inside = ends.into_iter().filter(|far| {
            let height = from.z + ray.way.z * far;
            far.is_finite() && (-1e-6..=length + 1e-6).contains(&height)
        });
        let far = inside.reduce(f64::max)?;
        let place = from + ray.way * far;
        let off = place.across().max(1e-9);
        let out = Space::new(-place.x / off * slope, -place.y / off * slope, 1.0);
        Some((far, out.unit()))
    }

    /// The point where a ray hits the ball from inside.
    fn on_ball(&self, ray: Ray, middle: f64, ball: f64) -> Option<(f64, Space)> {
        let center = Space::new(self.x, self.y, -middle);
        let from = ray.from - center;
        let half = from.dot(ray.way);
        let rest = from.dot(from) - ball * ball;
        let square = half * half - rest;
        if square < 0.0 {
            return None;
        }
        let far = -half + square.sqrt();
        Some((far, (center - ray.at(far)).unit()))
    }

    /// Share of the lamp's light that reaches a point, with an edge that is softer the deeper the point is.
    pub fn lit(&self, place: Space, light: Space) -> f64 {
        let depth = -place.z;
        if depth <= 0.0 || light.z <= 0.0 {
            return 1.0;
        }
        let run = depth / light.z;
        let off = self.outside(place.x + light.x * run, place.y + light.y * run);
        let soft = 0.16 * depth + 0.12;
        1.0 - eased(-soft, soft, off)
    }

    /// Share of the sky visible from a point in it.
    pub fn open(&self, met: &Met) -> f64 {
        let (depth, square) = (-met.place.z, self.radius * self.radius);
        let floor = square / (square + depth * depth);
        let wall = 0.5 * (1.0 - depth / (depth * depth + 1.4 * square).sqrt());
        let upright = met.out.z.clamp(0.0, 1.0);
        wall + (floor - wall) * upright
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    fn well(bottom: Bottom) -> Well {
        let bore = Bore {
            diameter: 12.0,
            depth: 6.0,
            bottom,
        };
        Well::of((100.0, 50.0), bore, 2.5, None)
    }

    fn down(x: f64, y: f64) -> Ray {
        Ray {
            from: Space::new(x, y, 0.0),
            way: Space::UP * -1.0,
        }
    }

    /// Depths by computation from the shape of each drill.
    #[test]
    fn a_vertical_ray_ends_at_the_depth_of_the_floor() {
        for (bottom, off, depth) in [
            (Bottom::Flat, 5.0, 6.0),
            (Bottom::Forstner, 5.0, 6.0),
            (Bottom::Ball, 0.0, 6.0),
            (Bottom::Ball, 3.6, 4.8),
            (Bottom::Point118, 0.0, 6.0 + 12.0 * 0.300_430_309_5),
            (Bottom::Point118, 3.0, 6.0 + 6.0 * 0.300_430_309_5),
        ] {
            let met = well(bottom).meet(down(100.0 + off, 50.0));
            assert_near!(-met.place.z, depth, 1e-6);
            assert!(met.out.z > 0.0);
        }
    }

    #[test]
    fn a_slanted_ray_ends_on_the_wall() {
        let ray = Ray {
            from: Space::new(95.0, 50.0, 0.0),
            way: Space::new(4.0, 0.0, -1.0).unit(),
        };
        let met = well(Bottom::Flat).meet(ray);
        assert_near!(met.place.x, 106.0, 1e-9);
        assert_near!(met.place.z, -2.75, 1e-9);
        assert_near!(met.out.x, -1.0, 1e-9);
    }

    #[test]
    fn light_from_the_upper_left_leaves_the_upper_left_of_the_floor_dark() {
        let light = Space::new(-1.0, 1.0, 1.5).unit();
        let well = well(Bottom::Flat);
        let lit = |x: f64, y: f64| well.lit(Space::new(100.0 + x, 50.0 + y, -6.0), light);
        assert!(lit(-4.0, 4.0) < 0.05);
        assert!(lit(4.0, -4.0) > 0.95);
    }

    #[test]
    fn a_ray_hits_a_ball_in_a_bore_before_the_floor() {
        let mut well = well(Bottom::Flat);
        well.steel = Some(Steel::Ball {
            below: 0.5,
            radius: 2.5,
        });
        let met = well.meet(down(100.0, 50.0));
        assert_near!(-met.place.z, 0.5, 1e-9);
        assert_eq!(met.of, Surface::Steel);
        assert_eq!(well.meet(down(104.0, 50.0)).of, Surface::Wood);
    }
}
