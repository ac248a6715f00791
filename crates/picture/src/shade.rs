//! The tone of the first surface that a view ray hits, lit from the upper left.
//!
//! # The light
//!
//! One lamp is at the upper left of the picture and behind the board as seen by the viewer, so that bores, grooves and pieces
//! show their depth; it turns with the camera. The sky is uniform. A flat face under both shows the tone of its wood from the
//! table: the two add up to about one. The share of sky visible from a point in a bore follows from its depth and the width of
//! the mouth; whether the lamp reaches the point follows from where the line to the lamp leaves the mouth. The edge of a shadow
//! is softer the farther it is from what casts it.
//!
//! A finish reflects in two ways: a matte surface spreads the lamp into a wide pale patch, and a film mirrors the room, more so
//! at flatter viewing angles (Schlick's approximation of Fresnel's law, with 0.04 of the light reflected head-on, as by glass
//! and varnish; from memory).

use crate::noise::Noise;
use crate::scene::{Disc, LIP, Met, Scene, Shape, Standing, Surface, Well};
use crate::space::{Ray, Space, eased, fifth};
use crate::tone::Tone;
use crate::view::Camera;

/// The light on a scene: a wide lamp at the upper left, and the sky.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Light {
    /// Position of the lamp.
    lamp: Space,
    /// The direction to it from the center pin.
    toward: Space,
    /// Light from the sky.
    sky: f32,
    /// Light from the lamp on a surface that faces it.
    key: f32,
}

/// The number of a surface: a pixel whose neighbor hit another surface contains an edge.
pub type Id = u32;

/// The table.
const TABLE: Id = 0;
/// The top face.
const TOP: Id = 1;
/// The rim.
const EDGE: Id = 2;
/// A groove.
const GROOVE: Id = 3;
/// A foot, or the turntable.
const FOOT: Id = 4;
/// A colored ring around a bore.
const RING: Id = 5;
/// The field of the first player; the others' numbers follow.
const SECTOR: Id = 16;
/// The first part of the players' marks; the others' numbers follow.
const MARK: Id = 1 << 10;
/// The wall of the first bore; the others' numbers follow.
const WALL: Id = 1 << 20;
/// The floor of the first bore.
const FLOOR: Id = 2 << 20;
/// The resin in the first bore.
const RESIN: Id = 3 << 20;
/// The steel in the first bore.
const STEEL: Id = 5 << 20;
/// The first piece.
const PIECE: Id = 4 << 20;

impl Light {
    /// The lamp for a picture taken by a camera.
    pub fn of(camera: &Camera, radius: f64) -> Self {
        let (right, up) = camera.sides();
        let away = Space::new(up.x, up.y, 0.0).unit();
        let lamp = right * (-1.9 * radius) + away * (2.1 * radius) + Space::UP * (3.3 * radius);
        let toward = lamp.unit();
        Self {
            lamp,
            toward,
            sky: 0.42,
            key: 0.58 / toward.z as f32,
        }
    }

    /// The direction from a point to the lamp.
    fn at(&self, place: Space) -> Space {
        (self.lamp - place).unit()
    }

    /// Light on a surface with this normal, for the shares of lamp and sky that reach it.
    fn on(&self, out: Space, toward: Space, lit: f64, open: f64) -> f32 {
        let sky = self.sky * (0.72 + 0.28 * out.z as f32) * open as f32;
        sky + self.key * (out.dot(toward).max(0.0) * lit) as f32
    }

    /// The room as a glossy surface mirrors it, by the direction of the reflected ray.
    ///
    /// It is the lamp in a sky that is lighter above, with the table below: without something to mirror, a glossy marble looks
    /// matte.
    fn mirrored(&self, way: Space, table: Tone) -> Tone {
        if way.z < 0.0 {
            return table * (0.7 + 0.3 * way.z as f32);
        }
        let lamp = eased(0.86, 0.93, way.dot(self.toward)) as f32;
        Tone([0.34, 0.36, 0.4]) * (0.5 + 0.8 * way.z as f32) + Tone([2.3, 2.25, 2.15]) * lamp
    }
}

/// A scene under its light.
#[derive(Debug, Clone, Copy)]
pub struct Lit<'a> {
    /// The scene.
    pub scene: &'a Scene,
    /// The light.
    pub light: Light,
    /// The noise of its wood, cached from ray to ray.
    pub noise: &'a Noise,
}

impl Lit<'_> {
    /// The wood at a point, for the size of a pixel there, mm.
    fn wood(&self, place: Space, pixel: f32) -> Tone {
        self.scene.grain.at(place, pixel, self.noise)
    }

    /// The tone that a ray hits, given the tone of the table there and the size of a pixel at a distance.
    pub fn sample(&self, ray: Ray, table: Tone, covers: impl Fn(f64) -> f64) -> (Tone, Id) {
        let disc = &self.scene.disc;
        let piece = self.piece(ray);
        let board = self.board(ray);
        match (piece, board) {
            (Some((far, out, number, piece)), other) if other.is_none_or(|(at, _)| far < at) => (
                self.piece_tone(ray, ray.at(far), out, piece),
                PIECE + number,
            ),
            (_, Some((far, part))) => {
                // At a flat viewing angle, a pixel covers more of the face.
                let flat = 0.4 + 0.6 / ray.way.z.abs().max(0.2);
                self.part_tone(ray, far, part, (covers(far) * flat) as f32)
            }
            _ => match self.foot(ray) {
                Some((far, out)) => (self.foot_tone(ray.at(far), out), FOOT),
                None => (
                    self.on_table(ray.to_level(disc.table).map(|far| ray.at(far)), table),
                    TABLE,
                ),
            },
        }
    }

    /// The piece that a ray hits first.
    fn piece(&self, ray: Ray) -> Option<(f64, Space, u32, &Standing)> {
        let scene = self.scene;
        let (high, low) = (ray.to_level(scene.tallest() + 0.1)?, ray.to_level(-1.0)?);
        if scene.tallest() <= 0.0 {
            return None;
        }
        let highest = ray.to_level(scene.tallest())?;
        let (from, to) = (ray.at(high), ray.at(low));
        let run = Space::new(to.x - from.x, to.y - from.y, 0.0).length();
        let steps = (run / (0.5 * Scene::piece_square()))
            .ceil()
            .clamp(1.0, 60.0) as u32;
        let mut best: Option<(f64, Space, u32, &Standing)> = None;
        let mut asked: &[u32] = &[];
        for step in 0..=steps {
            let place = from + (to - from) * (f64::from(step) / f64::from(steps));
            let near = scene.pieces_near(place.x, place.y);
            // Neighboring squares mostly contain the same pieces, in the order of their numbers.
            for number in near.iter().filter(|it| asked.binary_search(it).is_err()) {
                let Some(piece) = scene.piece(*number) else {
                    continue;
                };
                let met = piece.meet(ray).filter(|(far, _)| *far > 0.0);
                if let Some((far, out)) = met
                    && best.is_none_or(|(known, ..)| far < known)
                {
                    best = Some((far, out, *number, piece));
                }
                // A ray hits nothing above the highest piece.
                if best.is_some_and(|(known, ..)| known <= highest) {
                    return best;
                }
            }
            asked = near;
        }
        best
    }

    /// The part of the board that a ray hits first.
    fn board(&self, ray: Ray) -> Option<(f64, Part<'_>)> {
        let (scene, disc) = (self.scene, &self.scene.disc);
        let far = ray.to_level(0.0)?;
        let place = ray.at(far);
        if place.across() > disc.flat() {
            return edge(disc, ray, far).map(|far| (far, Part::Edge));
        }
        let mut near: Option<(f64, &Well)> = None;
        for (number, well) in scene.wells_near(place.x, place.y) {
            let outside = well.outside(place.x, place.y);
            if outside < 0.0 {
                let met = well.meet(ray);
                return Some((met.far, Part::Well(number, well, met)));
            }
            if near.is_none_or(|(known, _)| outside < known) {
                near = Some((outside, well));
            }
        }
        Some((far, Part::Top(near)))
    }

    /// The tone of a part of the board, and its surface number.
    fn part_tone(&self, ray: Ray, far: f64, part: Part<'_>, pixel: f32) -> (Tone, Id) {
        let place = ray.at(far);
        match part {
            Part::Edge => (self.edge_tone(ray, place, pixel), EDGE),
            Part::Top(lip) => self.top_tone(ray, place, lip, pixel),
            Part::Well(number, well, met) => {
                let id = match met.of {
                    Surface::Resin => RESIN,
                    Surface::Steel => STEEL,
                    Surface::Wood if met.out.z > 0.01 => FLOOR,
                    Surface::Wood => WALL,
                };
                (self.well_tone(ray, well, &met, pixel), id + number)
            }
        }
    }

    /// The shares of lamp and sky that the pieces leave for a point.
    fn shade_of_pieces(&self, place: Space, light: Space) -> (f64, f64) {
        let near = self.scene.shades_near(place.x, place.y);
        near.fold((1.0, 1.0), |(lit, open), piece| {
            // No other piece can darken a point in full shadow.
            let by = if lit > 0.0 {
                piece.lets_by(place, light)
            } else {
                0.0
            };
            (lit * by, open * piece.leaves_open(place))
        })
    }

    /// The tone of the top face: in a groove, on the eased edge of a mouth, or flat.
    fn top_tone(
        &self,
        ray: Ray,
        place: Space,
        near: Option<(f64, &Well)>,
        pixel: f32,
    ) -> (Tone, Id) {
        let light = self.light.at(place);
        let (lit, open) = self.shade_of_pieces(place, light);
        if let Some((vee, at)) = self.scene.groove_at(place.x, place.y) {
            let down = Space::new(place.x, place.y, -vee.depth_at(at.off));
            let wood = self.scene.sheen.over(self.wood(down, pixel) * 0.86);
            let (lit, open) = (lit * vee.lit(&at, light), open * vee.open(&at));
            let paint = at.paint.map_or(wood, |paint| paint.over(wood));
            return (
                paint * self.light.on(vee.out(&at), light, lit, open),
                GROOVE,
            );
        }
        let lip = near.filter(|(off, _)| *off < LIP);
        let out = lip.map_or(Space::UP, |(off, well)| {
            let lean = 0.75 * (1.0 - off / LIP) / (well.radius + off);
            Space::new((well.x - place.x) * lean, (well.y - place.y) * lean, 1.0).unit()
        });
        let wood = self.scene.sheen.over(self.wood(place, pixel));
        let ring = near.and_then(|(off, well)| well.paint.ring.filter(|(_, width)| off < *width));
        let mark = self.scene.mark_at(place.x, place.y);
        let field = || self.scene.sector_at(place.x, place.y);
        let (paint, id) = match (mark, ring) {
            (Some((number, paint)), _) => (Some(paint), MARK + number),
            (None, Some((paint, _))) => (Some(paint), RING),
            (None, None) => field().map_or((None, TOP), |(number, paint)| {
                (Some(paint), SECTOR + number)
            }),
        };
        let gloss = self.scene.sheen.gloss;
        let (tone, gloss) = paint.map_or((wood, gloss), |paint| {
            (paint.over(wood), gloss.max(paint.gloss))
        });
        (
            self.shiny(tone, (out, ray.way), light, (lit, open), gloss),
            id,
        )
    }

    /// The tone of the rim, with end grain at the left and right, where the grain runs out.
    fn edge_tone(&self, ray: Ray, place: Space, pixel: f32) -> Tone {
        let (disc, out) = (&self.scene.disc, self.scene.disc.out(place));
        let light = self.light.at(place);
        // End grain absorbs the finish, and is darker even without it.
        let end = (out.x * out.x) as f32 * (1.0 - 0.35 * out.z as f32);
        let wood = self.wood(place, pixel) * (1.0 - 0.26 * end);
        let near_table = eased(0.0, 1.3 * disc.thick, place.z - disc.table);
        let open = 0.45 + 0.55 * near_table.max(out.z);
        let (lit, by_pieces) = self.shade_of_pieces(place, light);
        let wood = self.scene.sheen.over(wood);
        self.shiny(
            wood,
            (out, ray.way),
            light,
            (lit, open * by_pieces),
            self.scene.sheen.gloss,
        )
    }

    /// The tone of the inside of a bore, or of the resin in it.
    fn well_tone(&self, ray: Ray, well: &Well, met: &Met, pixel: f32) -> Tone {
        let light = self.light.at(met.place);
        let (by_pieces, open_by) = self.shade_of_pieces(met.place, light);
        let lit = well.lit(met.place, light) * by_pieces;
        let open = well.open(met) * open_by;
        let wood = self.wood(met.place, pixel);
        if met.of == Surface::Steel {
            let mirrored = self.light.mirrored(ray.way.mirrored(met.out), wood * 0.4);
            let base = Tone::gray(0.34) * self.light.on(met.out, light, lit, open);
            return base + mirrored * (0.4 * open * (0.4 + 0.6 * lit)) as f32;
        }
        if met.of == Surface::Resin {
            // Clear resin shows the wood below it as if it were wet.
            let clear = wood.times(wood) * 0.9;
            let tone = well.paint.resin.map_or(clear, |paint| paint.tone);
            return self.shiny(tone, (met.out, ray.way), light, (lit, open), 1.0);
        }
        let end = (met.out.x * met.out.x) as f32;
        let wood = self.scene.sheen.over(wood * (0.97 - 0.2 * end));
        let wood = well.paint.inside.map_or(wood, |paint| paint.over(wood));
        // Light reflected between the sides of the bore takes on their tone.
        let thrown = wood.times(wood) * (0.3 * (1.0 - open as f32) * (0.35 + 0.65 * lit as f32));
        wood * self.light.on(met.out, light, lit, open) + thrown
    }

    /// A lit surface with the reflection of a film of this gloss, given its normal and the view direction.
    fn shiny(
        &self,
        tone: Tone,
        (out, way): (Space, Space),
        light: Space,
        (lit, open): (f64, f64),
        gloss: f64,
    ) -> Tone {
        let base = tone * self.light.on(out, light, lit, open);
        let half = (light - way).unit();
        let cosine = out.dot(half).max(0.0);
        // A matte surface spreads the lamp widely; a film mirrors it.
        let broad = fifth(cosine * cosine) * 0.05 * (0.4 + gloss) * lit;
        let facing = (-out.dot(way)).clamp(0.0, 1.0);
        let glance = 0.04 + 0.96 * fifth(1.0 - facing);
        let mirrored = self.light.mirrored(way.mirrored(out), tone);
        let share = (glance * gloss * open * (0.3 + 0.7 * lit)) as f32;
        base + Tone::gray(broad as f32) + mirrored * share
    }

    /// The tone of a piece: a ball is glass, a solid of revolution is painted.
    fn piece_tone(&self, ray: Ray, place: Space, out: Space, piece: &Standing) -> Tone {
        let light = self.light.at(place);
        let facing = (-out.dot(ray.way)).clamp(0.0, 1.0);
        let open = 0.55 + 0.45 * out.z.max(-0.2);
        let wood = self.scene.grain.mean();
        let bounced = piece.tone.times(wood) * (0.3 * (1.0 - out.z).max(0.0)) as f32;
        let glance = (0.04 + 0.96 * fifth(1.0 - facing)) as f32;
        let mirrored = self.light.mirrored(ray.way.mirrored(out), wood * 0.5);
        match piece.shape {
            Shape::Ball { .. } => {
                // Glass focuses the lamp on the side facing away from it.
                let through = Space::new(-light.x, -light.y, 0.35)
                    .unit()
                    .dot(out)
                    .max(0.0);
                let through = through * through * through;
                let body = self.light.on(out, light, 0.8, open) * 0.8 + (0.75 * through) as f32;
                piece.tone * body + bounced + mirrored * (glance * 1.1).min(1.0)
            }
            Shape::Turned { .. } => {
                let base = piece.tone * self.light.on(out, light, 1.0, open);
                base + bounced + mirrored * (glance * 0.6)
            }
        }
    }
}

/// A part of the board.
#[derive(Clone, Copy)]
enum Part<'a> {
    /// The top face; near a mouth, the bore and its distance.
    Top(Option<(f64, &'a Well)>),
    /// The rim.
    Edge,
    /// A bore.
    Well(u32, &'a Well, Met),
}

/// The distance at which a ray that misses the flat top hits the edge of the board.
fn edge(disc: &Disc, ray: Ray, level: f64) -> Option<f64> {
    const NEAR: f64 = 4e-3;
    let (x, y) = (ray.way.x, ray.way.y);
    let square = x * x + y * y;
    let mut far = level;
    if ray.at(level).across() > disc.radius {
        let half = ray.from.x * x + ray.from.y * y;
        let from = ray.from.x * ray.from.x + ray.from.y * ray.from.y;
        let root = half * half - square * (from - disc.radius * disc.radius);
        if root < 0.0 || square < 1e-12 {
            return None;
        }
        far = level.max((-half - root.sqrt()) / square);
    }
    for _ in 0..40 {
        let place = ray.at(far);
        if place.z < -disc.thick - NEAR
            || (place.across() > disc.radius + 1.0 && far > level + disc.radius)
        {
            return None;
        }
        let off = disc.off(place.across(), place.z);
        if off < NEAR {
            return Some(far);
        }
        far += off;
    }
    None
}

impl Lit<'_> {
    /// The foot that a ray hits first.
    fn foot(&self, ray: Ray) -> Option<(f64, Space)> {
        let disc = &self.scene.disc;
        let met = self.scene.feet.iter().filter_map(|foot| {
            let (x, y) = (ray.from.x - foot.x, ray.from.y - foot.y);
            let square = ray.way.x * ray.way.x + ray.way.y * ray.way.y;
            let half = x * ray.way.x + y * ray.way.y;
            let root = half * half - square * (x * x + y * y - foot.radius * foot.radius);
            let far = (-half - root.max(0.0).sqrt()) / square;
            let place = ray.at(far);
            let is_met =
                root >= 0.0 && square > 1e-12 && place.z <= -disc.thick && place.z >= disc.table;
            let out = Space::new(place.x - foot.x, place.y - foot.y, 0.0).unit();
            is_met.then_some((far, out))
        });
        met.reduce(|one, other| if other.0 < one.0 { other } else { one })
    }

    /// The tone of a foot or the turntable, in the board's shadow.
    fn foot_tone(&self, place: Space, out: Space) -> Tone {
        let light = self.light.at(place);
        let open = 0.12 + 0.3 * eased(-self.scene.disc.thick, self.scene.disc.table, place.z);
        self.scene.grain.mean() * (0.5 * self.light.on(out, light, 0.15, open))
    }

    /// The tone of the table, in the shadow of the board.
    fn on_table(&self, place: Option<Space>, table: Tone) -> Tone {
        let Some(place) = place else {
            return table;
        };
        let (disc, light) = (&self.scene.disc, self.light.toward);
        let (low, high) = (-disc.thick - disc.table, -disc.table);
        // The shadow of a round board is that of its two faces and everything between them.
        let at = |height: f64| {
            (
                place.x + light.x / light.z * height,
                place.y + light.y / light.z * height,
            )
        };
        let (from, to) = (at(low), at(high));
        let way = (to.0 - from.0, to.1 - from.1);
        let square = (way.0 * way.0 + way.1 * way.1).max(1e-9);
        let share = (-(from.0 * way.0 + from.1 * way.1) / square).clamp(0.0, 1.0);
        let (x, y) = (from.0 + way.0 * share, from.1 + way.1 * share);
        let off = (x * x + y * y).sqrt() - disc.radius;
        let height = low + (high - low) * share;
        let soft = 0.3 * height + 0.012 * disc.radius;
        let lit = eased(-soft, soft, off);
        let beside = place.across() - disc.radius;
        let near = 1.0 - eased(-1.2 * low - 1.0, low + 1.6 * disc.thick, beside);
        let wide = 1.0 - eased(-0.1 * disc.radius, 0.26 * disc.radius, off);
        let light = 1.0 - 0.4 * (1.0 - lit) - 0.26 * near - 0.12 * wide;
        let feet = self.scene.feet.iter().map(|foot| {
            let (x, y) = (place.x - foot.x, place.y - foot.y);
            let off = (x * x + y * y).sqrt() - foot.radius;
            1.0 - 0.5 * (1.0 - eased(0.0, 6.0 + 0.6 * low, off))
        });
        table * (light.max(0.08) * feet.product::<f64>()) as f32
    }
}
