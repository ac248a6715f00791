//! The figure of the wood: a trunk's rings, wandering a little, cut by the board.
//!
//! Each strip of a glued panel comes from its own place in a trunk: the pith is at some height and depth relative to the strip,
//! and the plane of the face cuts the rings around it. Where the pith approaches the face along the board, the rings appear as
//! arches; far from it they are lines. Bookmatched leaves are cut from one place and mirrored.
//!
//! # From a point to its tone
//!
//! * The pith of the trunk wanders sideways and in depth, slowly along the board. The distance of a point from it is a radius;
//!   noise that is long along the grain and short across it makes the rings wander.
//! * The radius divided by the usual ring spacing gives the year; good and bad years make rings wide and narrow.
//! * The position within the year gives the share of latewood, by the kind of pores: softwood darkens toward the end of a ring
//!   and then stops abruptly, ring-porous wood begins with a row of pores, diffuse-porous wood ends with a thin line.
//! * Heartwood has clouds along the grain; sapwood begins at a radius, with a boundary that wanders.
//! * Fibers are fine noise along the grain. Pores are short dark strokes, one in each cell of a lattice that is as long as they are.
//!
//! Detail finer than a pixel is faded to its mean, since it would flicker. All noise is based on whole numbers and a seed, so
//! that a board always looks the same, on every machine.

use board::{Build, Cut};
use kurbo::{Point, Vec2};
use workshop::{Look, NEUTRAL_WOOD, Pores, Workpiece, look};

use crate::noise::{Layer, Noise, floor, hash, pick, share};
use crate::space::Space;
use crate::tone::Tone;

/// The wood of a board, strip by strip.
#[derive(Debug, Clone, PartialEq)]
pub struct Grain {
    /// Tone of the heartwood.
    heart: Tone,
    /// Tone of the sapwood.
    sap: Tone,
    /// Usual ring spacing, mm.
    ring: f32,
    /// Difference of tone between earlywood and latewood, as a share.
    contrast: f32,
    /// Darkness of the pores.
    streaks: f32,
    /// The waviness of rings, as a share.
    wander: f32,
    /// The kind of its pores.
    pores: Pores,
    /// The strips from the lowest up: one more than there are seams.
    strips: Vec<Strip>,
    /// Height of each seam, mm.
    seams: Vec<f32>,
}

/// A strip of the panel and its place in the trunk.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Strip {
    /// Height of the pith above the center pin, mm.
    pith: f32,
    /// Depth of the pith below the top face, mm.
    deep: f32,
    /// Change of that depth per length along the board.
    slope: f32,
    /// Offset along the trunk to the place it is cut from, mm.
    from: f32,
    /// Offset across the trunk to that place, mm; not 0 only where the maker moved the board on its blank.
    up: f32,
    /// Its lightness relative to its neighbors.
    light: f32,
    /// Radius at which the heartwood ends, mm.
    heart: f32,
    /// Whether it is mirrored relative to the half above the center pin.
    mirrored: bool,
    /// The seed of everything random in it.
    seed: u32,
}

impl Grain {
    /// The wood of a workpiece; plain pale wood if none is chosen.
    pub fn of(workpiece: &Workpiece) -> Self {
        let board = workpiece.board();
        let look = board
            .wood
            .as_ref()
            .map_or(NEUTRAL_WOOD, |wood| look(&wood.species));
        let cut = board.wood.as_ref().map_or(Cut::FlatSawn, |wood| wood.cut);
        let radius = board.blank.radius() as f32;
        let seams: Vec<f32> = workpiece.seams().iter().map(|&seam| seam as f32).collect();
        let is_matched = board.panel.build == Build::Halves;
        let (moved, blank) = (moved(workpiece), blank(workpiece));
        let strips = (0..=seams.len())
            .map(|at| {
                let lower = at.checked_sub(1).and_then(|at| seams.get(at));
                let lower = lower.copied().unwrap_or(-radius).max(-radius);
                let upper = seams.get(at).copied().unwrap_or(radius).min(radius);
                if is_matched {
                    Strip::of((cut, &look), (0.0, radius), 1).matched(at == 0)
                } else {
                    let mut strip = Strip::of((cut, &look), (lower, upper), at as u32 + 1);
                    if let Some(blank) = blank {
                        strip.keep_heart(look.heart_radius as f32, blank);
                    }
                    strip.moved(moved)
                }
            })
            .collect();
        Self::cut(&look, strips, seams)
    }

    /// The same wood with one more strip from a separate log, on top: the blank that strips are sawn from.
    pub fn with_log(mut self, workpiece: &Workpiece, lower: f64, upper: f64) -> Self {
        if let Some(wood) = &workpiece.board().wood {
            let (log, heights) = (self.strips.len() as u32 + 1, (lower as f32, upper as f32));
            let log = Strip::of((wood.cut, &look(&wood.species)), heights, log);
            self.strips.push(log);
        }
        self
    }

    /// The wood of a look, cut into strips.
    fn cut(look: &Look, strips: Vec<Strip>, seams: Vec<f32>) -> Self {
        Self {
            heart: Tone::of(look.heart.parts()),
            sap: Tone::of(look.sap.parts()),
            ring: look.ring as f32,
            contrast: look.contrast as f32,
            streaks: look.streaks as f32,
            wander: 1.0 - look.straight as f32,
            pores: look.pores,
            strips,
            seams,
        }
    }

    /// The tone of the wood at a point on or in the board, for the size of a pixel there.
    ///
    /// Wood is solid: the same figure continues down the wall of a bore and over the rim. Lengths are in mm; detail finer than
    /// the pixel is left out. `noise` caches its last cells.
    pub fn at(&self, place: Space, pixel: f32, noise: &Noise) -> Tone {
        let y = place.y as f32;
        let strip = self.seams.partition_point(|seam| *seam < y);
        let (wood, ring) = self.of_strip(strip, place, pixel, noise);
        wood.mix(ring * 0.45, self.seam(y, pixel))
    }

    /// The tone of one strip at a point, which may be beyond its seams; and the tone of its heartwood or sapwood there.
    pub fn of_strip(&self, strip: usize, place: Space, pixel: f32, noise: &Noise) -> (Tone, Tone) {
        let (x, y, z) = (place.x as f32, place.y as f32, place.z as f32);
        let Some(strip) = self.strips.get(strip) else {
            return (self.heart, self.heart);
        };
        let (across, x) = (if strip.mirrored { -y } else { y }, x + strip.from);
        let across = across + strip.up;
        let ring = self.ring_at(noise, strip, (x, across, z), pixel);
        let fiber = self.fiber(noise, strip, (x, across, z), pixel);
        let pores = self.pore(strip, ring, (x, across, z), pixel);
        let light = (strip.light + fiber) * (1.0 - pores);
        // Latewood is darker and warmer: it absorbs more blue than red.
        let late = Tone([0.78, 1.0, 1.22].map(|weight| (1.0 - ring.dark * weight).max(0.1)));
        (ring.tone.times(late) * light.max(0.05), ring.tone)
    }

    /// Mean tone of the wood.
    pub fn mean(&self) -> Tone {
        let is_sap = self.strips.iter().all(|strip| strip.heart == 0.0);
        if is_sap { self.sap } else { self.heart }
    }

    /// The share of a pixel that is glue line, 0 to 1.
    fn seam(&self, y: f32, pixel: f32) -> f32 {
        const LINE: f32 = 0.18;
        let near = self.seams.iter().map(|seam| (seam - y).abs());
        let near = near.fold(f32::INFINITY, f32::min);
        let reach = LINE.max(pixel) / 2.0;
        if near < reach {
            (LINE / (2.0 * reach)).min(0.7)
        } else {
            0.0
        }
    }
}

/// A point in a ring.
#[derive(Clone, Copy)]
struct InRing {
    /// The position within the ring, 0 to 1 from earlywood to latewood.
    through: f32,
    /// The darkening by the latewood, as a share.
    dark: f32,
    /// The tone of heartwood or sapwood there.
    tone: Tone,
}

/// The vector from the best place on the blank to the one that the maker chose: the wood stays, the board is moved on it.
///
/// Seams are given relative to the pin and move with it, so a glued panel is moved only along the grain.
fn moved(workpiece: &Workpiece) -> Vec2 {
    let board = workpiece.board();
    let best = workpiece.stock().and_then(|plan| plan.best.as_ref());
    match (board.stock.place, best, &board.panel.build) {
        (Some([x, y]), Some(best), Build::Whole) => Point::new(x, y) - best.circle.center,
        (Some([x, _]), Some(best), Build::Seams { .. }) => Vec2::new(x - best.circle.center.x, 0.0),
        _ => Vec2::ZERO,
    }
}

/// The lower and the upper edge of the blank relative to the best place for the pin, mm: heartwood covers all of it, wherever
/// the board is moved. None for a board that is not sawn from one blank in one piece.
fn blank(workpiece: &Workpiece) -> Option<(f32, f32)> {
    let plan = workpiece.stock()?;
    let best = plan.best.as_ref()?.circle.center.y;
    let slab = plan.slab.as_ref().ok()?;
    let heights = slab
        .outline
        .corners()
        .iter()
        .map(|corner| (corner.y - best) as f32);
    let is_whole = matches!(workpiece.board().panel.build, Build::Whole);
    is_whole.then(|| {
        let start = (f32::INFINITY, f32::NEG_INFINITY);
        heights.fold(start, |(low, high), y| (low.min(y), high.max(y)))
    })
}

impl Grain {
    /// The point in a ring, after the wandering of pith and rings.
    ///
    /// Rings narrower than two pixels are left out, since they would form a pattern that no board has.
    fn ring_at(
        &self,
        noise: &Noise,
        strip: &Strip,
        (x, y, z): (f32, f32, f32),
        pixel: f32,
    ) -> InRing {
        let wander = self.wander;
        let sway = noise.on_line(x / 240.0, strip.layer(0)) * 26.0 * wander;
        let dive = strip.slope * x + noise.on_line(x / 170.0, strip.layer(1)) * 20.0 * wander;
        let (up, deep) = (y - strip.pith + sway, z + strip.deep + dive);
        let plain = (up * up + deep * deep).sqrt();
        let wide = noise.in_plane(x / 190.0, (up + 0.7 * deep) / 50.0, strip.layer(2))
            * self.ring
            * 3.2
            * wander;
        let fine =
            noise.in_plane(x / 46.0, (up + 0.7 * deep) / 9.0, strip.layer(3)) * self.ring * 0.24;
        let radius = (plain + wide + fine).max(0.0);
        let turns = radius / self.ring;
        // Good years and bad ones make rings of different widths.
        let turns = turns + noise.on_line(turns * 0.21, strip.layer(4)) * 1.4;
        let year = floor(turns);
        let through = turns - year as f32;
        let tone = self.heart_or_sap(noise, strip, radius, (x, up));
        let apart = self.ring * (plain / up.abs().max(plain * 0.06).max(1.0)).min(8.0);
        let sharp = ((apart / pixel - 1.2) / 2.4).clamp(0.0, 1.0);
        let good = 0.65 + 0.7 * pick(year, strip.seed_of(5));
        let dark = (self.late(through) - self.mean_late()) * self.contrast * 1.9 * good * sharp;
        InRing {
            through,
            dark,
            tone,
        }
    }

    /// The share of latewood at a position in a ring, by the kind of pores.
    fn late(&self, through: f32) -> f32 {
        let square = through * through;
        // The end of a ring changes into the start of the next within a twelfth of its width.
        let fall = ((1.0 - through) * 12.0).min(1.0);
        match self.pores {
            Pores::Softwood => square * through * fall,
            Pores::Diffuse => (0.25 * through + 0.9 * square * square * square) * fall,
            Pores::SemiRingPorous => (0.3 + 0.7 * square) * fall,
            Pores::RingPorous => {
                let open = (1.0 - through * 2.6).max(0.0);
                (0.85 * open + 0.35 * through) * fall.max(1.0 - through)
            }
        }
    }

    /// The mean of [`Self::late`] over a ring.
    fn mean_late(&self) -> f32 {
        match self.pores {
            Pores::Softwood => 0.22,
            Pores::Diffuse => 0.2,
            Pores::SemiRingPorous => 0.5,
            Pores::RingPorous => 0.33,
        }
    }

    /// The tone of heartwood or sapwood at a radius, with a boundary that wanders; heartwood is cloudy along the grain.
    fn heart_or_sap(&self, noise: &Noise, strip: &Strip, radius: f32, (x, up): (f32, f32)) -> Tone {
        let edge = strip.heart + noise.on_line(x / 120.0, strip.layer(6)) * 9.0;
        let sappy = ((radius - edge) / 7.0 + 0.5).clamp(0.0, 1.0);
        // Cloudy tone along the grain, stronger in dark heartwoods.
        let cloud = noise.in_plane(x / 330.0, up / 30.0, strip.layer(7)) * 0.6
            + noise.in_plane(x / 140.0, up / 8.0, strip.layer(8)) * 0.4;
        let deep = (1.0 - self.heart.brightness()).max(0.0);
        let heart = self.heart.mix(
            self.heart.times(Tone([0.74, 0.68, 0.68])),
            (cloud * 0.8 * deep).max(0.0),
        );
        let heart = heart.mix(self.heart * 1.28, (-cloud * 0.7 * deep).max(0.0));
        heart.mix(self.sap, sappy)
    }

    /// Fine lines of fiber along the grain.
    fn fiber(&self, noise: &Noise, strip: &Strip, (x, y, z): (f32, f32, f32), pixel: f32) -> f32 {
        // A plane cut through fibers at a slant, so that fibers also show in a bore's wall and in the rim.
        let inside = y + 0.83 * z;
        let broad = noise.in_plane(x / 85.0, inside / 2.4, strip.layer(9));
        let mut sum = broad * 0.045 * (1.8 / pixel).min(1.0);
        if pixel < 1.2 {
            let fine = noise.in_plane(x / 26.0, inside / 0.6, strip.layer(10));
            sum += fine * 0.05 * (0.45 / pixel).min(1.0);
        }
        // A broad shimmer, where fibers lean one way and the other.
        sum + noise.in_plane(x / 34.0, y / 120.0, strip.layer(11)) * 0.022 * self.wander
    }

    /// The darkening of a point by the streak of a pore, as a share.
    fn pore(&self, strip: &Strip, ring: InRing, (x, y, z): (f32, f32, f32), pixel: f32) -> f32 {
        if self.streaks <= 0.0 {
            return 0.0;
        }
        let (room, long, crowd) = match self.pores {
            Pores::RingPorous => (0.55, 11.0, (1.05 - ring.through * 2.0).clamp(0.08, 0.95)),
            Pores::SemiRingPorous => (0.62, 10.0, (0.9 - ring.through * 0.8).clamp(0.1, 0.9)),
            Pores::Diffuse => (0.5, 5.0, 0.55),
            Pores::Softwood => return 0.0,
        };
        let mean = self.streaks * crowd * 0.3;
        let seen = ((room / pixel - 0.45) / 1.0).clamp(0.0, 1.0);
        if seen <= 0.0 {
            return mean;
        }
        let (row, layer) = (floor(y / room), floor(z / room));
        let shift = pick(row, strip.seed_of(12));
        let place = x / long + shift * 7.0;
        let cell = floor(place);
        let key = hash(cell, row, layer, strip.seed_of(13));
        let exact = if share(key) < crowd {
            let middle = 0.2 + 0.6 * share(key.wrapping_mul(0x9e37_79b1));
            let off = ((y / room - row as f32) - middle).abs() * room;
            let reach = 0.13_f32.max(pixel * 0.5);
            let line = (1.0 - off / reach).clamp(0.0, 1.0) * (0.13 / reach).min(1.0);
            let end = (place - cell as f32) * 2.0 - 1.0;
            line * (1.0 - end * end) * self.streaks * 1.5
        } else {
            0.0
        };
        mean + (exact - mean) * seen
    }
}

/// Width of the sapwood left along an edge, as a share of a strip's width; negative, so that only a wavy edge shows any.
const SLIVER: f32 = -0.03;

impl Strip {
    /// The seed of one layer of its figure.
    const fn seed_of(&self, number: u32) -> u32 {
        self.seed.wrapping_add(number.wrapping_mul(0x9e37_79b9))
    }

    /// One layer of its figure.
    const fn layer(&self, number: u32) -> Layer {
        Layer {
            number: number as usize,
            seed: self.seed_of(number),
        }
    }

    /// A strip between two heights, cut from a trunk by the number of the log.
    fn of((cut, look): (Cut, &Look), (lower, upper): (f32, f32), log: u32) -> Self {
        let seed = hash(log.cast_signed(), 5, 9, 17);
        let chance = |what: i32| 2.0 * pick(what, seed) - 1.0;
        let side = if chance(2) > 0.0 { 1.0 } else { -1.0 };
        let (middle, width) = (f32::midpoint(lower, upper), (upper - lower).max(20.0));
        let heart = look.heart_radius as f32;
        let around = 34.0;
        let (pith, deep) = match cut {
            Cut::FlatSawn => (
                middle + chance(0) * width.min(260.0) * 0.26,
                (around + 26.0 + 26.0 * chance(1)) * side,
            ),
            Cut::QuarterSawn => (
                middle + side * (width / 2.0 + around + 50.0),
                9.0 * chance(1),
            ),
        };
        let mut strip = Self {
            pith,
            deep,
            slope: 0.034 * (0.5 + 0.5 * chance(3).abs()) * side,
            from: 4000.0 * chance(4),
            up: 0.0,
            light: 1.0 + 0.07 * chance(5),
            heart: if look.is_sapwood() { 0.0 } else { heart },
            mirrored: false,
            seed,
        };
        strip.keep_heart(heart, (lower, upper));
        strip
    }

    /// The same log, cut at another place.
    fn moved(mut self, by: Vec2) -> Self {
        self.from += by.x as f32;
        self.up += by.y as f32;
        self
    }

    /// Leaves at most a sliver of sapwood at an edge of species sold for their heartwood.
    fn keep_heart(&mut self, heart: f32, (lower, upper): (f32, f32)) {
        if heart >= 200.0 {
            let far = (upper - self.pith).abs().max((lower - self.pith).abs());
            let far = far - SLIVER * (upper - lower);
            self.heart = heart.max((far * far + self.deep * self.deep).sqrt());
        }
    }

    /// The strip as one of two bookmatched leaves: its pith is near the seam, so that sapwood is outward.
    fn matched(mut self, mirrored: bool) -> Self {
        (self.pith, self.mirrored) = (0.35 * self.pith, mirrored);
        self
    }
}
