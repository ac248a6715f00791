//! Pixels of a scene: one ray each, and more where an edge passes through a pixel.
//!
//! An edge is where neighboring pixels hit different surfaces. There the pixel is the mean of eight rays, of light and not of
//! bytes, so that round bores look round. Within a surface one ray is enough: the wood receives the area of the pixel and
//! leaves out finer detail.
//!
//! Rows are rendered in bands. Each core takes the next band when it has finished one, and between two bands the caller can
//! cancel, so that a view being turned does not wait for a picture that nobody will see.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::noise::Noise;
use crate::scene::Scene;
use crate::shade::{Id, Light, Lit};
use crate::tone::Tone;
use crate::view::Camera;

/// Number of rows rendered at a time; cancellation is checked between bands.
const BAND: usize = 24;
/// Rays through a pixel that contains an edge: one in each of eight columns, with its height in eighths.
///
/// No two share a row, so that a nearly horizontal or vertical edge crosses them one by one and looks as smooth as with eight times
/// as many.
const FINE: [u8; 8] = [3, 6, 1, 5, 2, 7, 4, 0];

/// The background of the board, by the position in the picture: light at the center and darker toward the corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    /// Its tone at the lightest point.
    pub light: Tone,
    /// Its tone in the corners.
    pub dark: Tone,
    /// Width and height of the picture, pixels.
    pub size: (f64, f64),
}

impl Ground {
    /// The tone at a point of the picture.
    pub fn at(&self, x: f64, y: f64) -> Tone {
        let (x, y) = (x / self.size.0 - 0.44, y / self.size.1 - 0.4);
        let off = ((x * x + y * y) * 1.6).min(1.0) as f32;
        self.light.mix(self.dark, off)
    }
}

/// Everything that determines the pixels.
#[derive(Debug, Clone, Copy)]
pub struct Shot<'a> {
    /// The scene.
    pub scene: &'a Scene,
    /// The light on it.
    pub light: Light,
    /// The camera that views it.
    pub camera: Camera,
    /// The background.
    pub ground: Ground,
    /// Width and height, pixels.
    pub size: (usize, usize),
}

impl Shot<'_> {
    /// The pixels, row by row from the top, each as red, green, blue and alpha (255); `None` if it was canceled.
    pub fn pixels(&self, threads: usize, cancel: &(dyn Fn() -> bool + Sync)) -> Option<Vec<u8>> {
        let (width, height) = self.size;
        let mut pixels = vec![0; width * height * 4];
        let stopped = AtomicBool::new(false);
        let bands = Mutex::new(pixels.chunks_mut(width * 4 * BAND).enumerate());
        let work = || {
            let noise = Noise::default();
            let lit = self.lit(&noise);
            loop {
                let next = bands.lock().map_or(None, |mut bands| bands.next());
                let Some((band, pixels)) = next else {
                    return;
                };
                if cancel() {
                    stopped.store(true, Ordering::Relaxed);
                    return;
                }
                self.band(lit, band * BAND, pixels);
            }
        };
        std::thread::scope(|scope| {
            for _ in 1..threads.max(1) {
                scope.spawn(work);
            }
            work();
        });
        (!stopped.into_inner()).then_some(pixels)
    }

    /// The scene under its light, with the noise of one thread.
    const fn lit<'b>(&'b self, noise: &'b Noise) -> Lit<'b> {
        Lit {
            scene: self.scene,
            light: self.light,
            noise,
        }
    }

    /// Renders the rows from one on, as many as there is room for.
    fn band(&self, lit: Lit<'_>, first: usize, pixels: &mut [u8]) {
        let width = self.size.0;
        let rows = pixels.len() / (width * 4);
        // The neighboring rows show where edges are.
        let from = first.saturating_sub(1);
        let to = (first + rows + 1).min(self.size.1);
        let seen: Vec<(Tone, Id)> = (from..to)
            .flat_map(|row| (0..width).map(move |column| (column, row)))
            .map(|(column, row)| self.ray(lit, column as f64 + 0.5, row as f64 + 0.5))
            .collect();
        let id =
            |column: usize, row: usize| seen.get((row - from) * width + column).map(|(_, id)| *id);
        let places =
            (first..first + rows).flat_map(|row| (0..width).map(move |column| (column, row)));
        for ((column, row), pixel) in places.zip(pixels.chunks_exact_mut(4)) {
            let Some(&(tone, own)) = seen.get((row - from) * width + column) else {
                continue;
            };
            let left = id(column.saturating_sub(1), row);
            let right = id((column + 1).min(width - 1), row);
            let above = id(column, row.saturating_sub(1).max(from));
            let below = id(column, (row + 1).min(to - 1));
            let is_edge = [left, right, above, below]
                .into_iter()
                .flatten()
                .any(|other| other != own);
            let tone = if is_edge {
                self.fine(lit, column, row)
            } else {
                tone
            };
            let [red, green, blue] = tone.color();
            pixel.copy_from_slice(&[red, green, blue, 255]);
        }
    }

    /// The tone seen through a point of the picture, and the surface it belongs to.
    fn ray(&self, lit: Lit<'_>, x: f64, y: f64) -> (Tone, Id) {
        let start = lit.scene.tallest() + 100.0;
        let ray = self.camera.ray(x, y, start);
        let table = self.ground.at(x, y);
        lit.sample(ray, table, |far| self.camera.covers(far))
    }

    /// The mean of several rays through a pixel; values brighter than white count as white, so that edges stay smooth.
    fn fine(&self, lit: Lit<'_>, column: usize, row: usize) -> Tone {
        let step = 1.0 / FINE.len() as f64;
        let mut sum = Tone::BLACK;
        for (along, down) in FINE.iter().enumerate() {
            let (x, y) = (along as f64 + 0.5, f64::from(*down) + 0.5);
            let (tone, _) = self.ray(lit, column as f64 + x * step, row as f64 + y * step);
            sum += Tone(tone.0.map(|part| part.min(1.0)));
        }
        sum * step as f32
    }
}
