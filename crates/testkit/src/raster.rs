//! A page as gray pixels, and the round marks on it.
//!
//! A raster is the ink that a printer would put on paper, from any format: two formats agree if their pixels do.

use kurbo::Point;

/// A page as gray pixels.
#[derive(Debug, Clone, PartialEq)]
pub struct Gray {
    /// Number of pixels in a row.
    pub width: usize,
    /// Number of rows.
    pub height: usize,
    /// Pixels per inch.
    pub dpi: u32,
    /// Height of the upper edge above the page's lower edge, mm; the lowest row may be incomplete.
    pub top: f64,
    /// Gray values from 0, black, to 255, white; row by row from the top.
    pub pixels: Vec<u8>,
}

/// A connected piece of ink.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blob {
    /// Its center of gravity, mm from the page's lower left corner, y up.
    pub center: Point,
    /// Width of the box around it, in mm.
    pub width: f64,
    /// Height of the box around it, in mm.
    pub height: f64,
    /// The area of ink, in mm².
    pub area: f64,
    /// Mean distance of its ink from the center, in mm.
    pub reach: f64,
    /// Standard deviation of that distance, in mm: near 0 for a thin ring.
    pub spread: f64,
}

impl Blob {
    /// The diameter, mm, if this is a ring (of the center of its line) or a filled disc (of its edge).
    pub fn diameter(&self) -> Option<f64> {
        let square = (self.width - self.height).abs() <= 0.05 * self.width.max(self.height);
        let share = self.spread / self.reach;
        if square && share < THIN {
            Some(2.0 * self.reach)
        } else if square && (share - DISC_SHARE).abs() < 0.02 {
            Some(3.0 * self.reach)
        } else {
            None
        }
    }
}

/// Spread below which ink is a ring, as a share of the reach.
const THIN: f64 = 0.1;
/// Ratio of spread to reach for a disc: its reach is 2/3 of its radius and its spread the square root of 1/18 of it.
const DISC_SHARE: f64 = 0.353_553_390_593_273_8;

impl Gray {
    /// A page from pixels of four bytes each, on white, with its height in mm.
    pub(crate) fn from_rgba(width: usize, dpi: u32, top: f64, bytes: &[u8]) -> Self {
        let pixels: Vec<u8> = bytes.chunks_exact(4).map(|pixel| pixel[1]).collect();
        let height = pixels.len() / width.max(1);
        Self {
            width,
            height,
            dpi,
            top,
            pixels,
        }
    }

    /// Share of ink at a pixel, 0 to 1; 0 outside the page.
    pub fn ink(&self, x: usize, y: usize) -> f64 {
        let inside = x < self.width && y < self.height;
        let pixel = inside
            .then(|| self.pixels.get(y * self.width + x))
            .flatten();
        1.0 - f64::from(pixel.copied().unwrap_or(255)) / 255.0
    }

    /// Total area of ink on the page, mm².
    pub fn area(&self) -> f64 {
        let ink = self
            .pixels
            .iter()
            .map(|&pixel| 1.0 - f64::from(pixel) / 255.0);
        ink.sum::<f64>() * self.pixel() * self.pixel()
    }

    /// Every connected piece of ink, by its topmost row, then from the left.
    pub fn blobs(&self) -> Vec<Blob> {
        let mut seen = vec![false; self.pixels.len()];
        let mut blobs = Vec::new();
        for start in 0..self.pixels.len() {
            if !seen[start] && self.has_ink(start) {
                blobs.push(self.blob(&self.piece(start, &mut seen)));
            }
        }
        blobs
    }

    /// The rings and discs of a page: center (mm, from the lower left corner, y up) and diameter (mm).
    pub fn round_blobs(&self) -> Vec<(Point, f64)> {
        let blobs = self.blobs().into_iter();
        blobs
            .filter_map(|blob| Some((blob.center, blob.diameter()?)))
            .collect()
    }

    /// Side of a pixel in mm.
    fn pixel(&self) -> f64 {
        25.4 / f64::from(self.dpi)
    }

    /// Whether a pixel has ink; faint pixels count too, since they are the edge of a line.
    fn has_ink(&self, index: usize) -> bool {
        self.pixels.get(index).is_some_and(|&pixel| pixel < 250)
    }

    /// The pixels connected with one, including across corners.
    fn piece(&self, start: usize, seen: &mut [bool]) -> Vec<usize> {
        let mut piece = vec![start];
        let mut next = 0;
        seen[start] = true;
        while let Some(&index) = piece.get(next) {
            next += 1;
            let (x, y) = (index % self.width, index / self.width);
            for near_y in y.saturating_sub(1)..=(y + 1).min(self.height - 1) {
                for near_x in x.saturating_sub(1)..=(x + 1).min(self.width - 1) {
                    let near = near_y * self.width + near_x;
                    if !seen[near] && self.has_ink(near) {
                        seen[near] = true;
                        piece.push(near);
                    }
                }
            }
        }
        piece
    }

    fn blob(&self, piece: &[usize]) -> Blob {
        let inked = || {
            piece.iter().map(|index| {
                let (x, y) = (index % self.width, index / self.width);
                let (right, down) = (x as f64 + 0.5, y as f64 + 0.5);
                let at = Point::new(right * self.pixel(), self.top - down * self.pixel());
                (at, self.ink(x, y))
            })
        };
        let ink: f64 = inked().map(|(_, ink)| ink).sum();
        let mean = |value: &dyn Fn(Point) -> f64| {
            inked().map(|(at, ink)| value(at) * ink).sum::<f64>() / ink
        };
        let center = Point::new(mean(&|at| at.x), mean(&|at| at.y));
        let reach = mean(&|at| at.distance(center));
        let spread = mean(&|at| (at.distance(center) - reach).powi(2)).sqrt();
        let extent = |value: &dyn Fn(Point) -> f64| {
            let values = || inked().map(|(at, _)| value(at));
            values().fold(f64::MIN, f64::max) - values().fold(f64::MAX, f64::min) + self.pixel()
        };
        Blob {
            center,
            width: extent(&|at| at.x),
            height: extent(&|at| at.y),
            area: ink * self.pixel() * self.pixel(),
            reach,
            spread,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assert_near;

    const DPI: u32 = 254;

    /// A page of 20 x 10 mm with ten pixels per mm, each pixel's ink computed from its center in mm.
    fn page(ink: impl Fn(Point) -> f64) -> Gray {
        let (width, height) = (200, 100);
        let pixels = (0..width * height).map(|index| {
            let (x, y) = (index % width, index / width);
            let at = Point::new(x as f64 + 0.5, height as f64 - y as f64 - 0.5);
            (255.0 * (1.0 - ink((at.to_vec2() / 10.0).to_point())).clamp(0.0, 1.0)).round() as u8
        });
        Gray {
            width,
            height,
            dpi: DPI,
            top: 10.0,
            pixels: pixels.collect(),
        }
    }

    /// The share of a pixel inside an edge, by the center's distance from it.
    fn cover(inside: f64) -> f64 {
        (inside * 10.0 + 0.5).clamp(0.0, 1.0)
    }

    #[test]
    fn a_ring_and_a_disc_are_found_and_a_bar_is_not() {
        let (ring, disc) = (Point::new(4.03, 5.27), Point::new(14.0, 4.0));
        let gray = page(|at| {
            let on_ring = cover(0.15 - (at.distance(ring) - 3.0).abs());
            let bar = f64::from(u8::from(at.y > 9.2 && at.x > 9.0));
            on_ring.max(cover(2.0 - at.distance(disc))).max(bar)
        });
        assert_eq!(gray.blobs().len(), 3);
        let found = gray.round_blobs();
        assert_eq!(found.len(), 2, "{:?}", gray.blobs());
        for (center, diameter) in [(ring, 6.0), (disc, 4.0)] {
            let near = found
                .iter()
                .find(|(at, _)| at.distance(center) < 0.02)
                .unwrap();
            assert_near!(near.1, diameter, 0.02);
        }
    }

    #[test]
    fn ink_is_counted_as_area() {
        let gray = page(|at| f64::from(u8::from(at.x < 5.0 && at.y < 2.0)));
        assert_near!(gray.area(), 10.0, 1e-9);
        let [bar] = gray.blobs()[..] else {
            panic!("not one piece")
        };
        assert_near!(bar.center, Point::new(2.5, 1.0), 1e-9);
        assert_near!(bar.width, 5.0, 1e-9);
        assert_near!(bar.height, 2.0, 1e-9);
        assert_near!(bar.area, 10.0, 1e-9);
        assert_eq!(bar.diameter(), None);
    }
}
