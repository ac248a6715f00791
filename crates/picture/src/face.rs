//! The bare wood of the top face, as a background for drawings.
//!
//! A drawing on wood must stay readable, on walnut as on maple. So the figure and the hue of the species are kept, and its
//! brightness is adjusted to the background color for which the drawing's inks were chosen.

use board::Rgb;
use kurbo::{Point, Rect};
use workshop::Workpiece;

use crate::grain::Grain;
use crate::noise::Noise;
use crate::proof::Picture;
use crate::space::Space;
use crate::tone::Tone;

/// Least and greatest brightness of a pixel, as a share of the background color's.
const RANGE: (f32, f32) = (0.86, 1.14);
/// Share of the background color itself that is mixed in, so that dark woods made light do not turn pink.
const GROUND: f32 = 0.62;

/// The wood in the square around a board, `pixels` wide, as bright as a background color.
///
/// Its upper edge is the board's 12 o'clock, and its grain runs from left to right, as on the board.
///
/// ```
/// use board::{Board, Rgb, Wood};
/// use picture::wood_face;
/// use workshop::Workpiece;
/// let board = Board { wood: Some(Wood::default()), ..Board::default() };
/// let workpiece = Workpiece::of(&board)?;
/// let ground = Rgb::new(0xea, 0xd0, 0xa3);
/// let picture = wood_face(&workpiece, 64, ground);
/// assert_eq!((picture.width, picture.height), (64, 64));
/// // Walnut is as light as the background color.
/// assert!(picture.rgba.chunks(4).all(|pixel| pixel[1] > 150));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn wood_face(workpiece: &Workpiece, pixels: u32, ground: Rgb) -> Picture {
    let (grain, radius) = (Grain::of(workpiece), workpiece.board().blank.radius());
    let square = Rect::new(-radius, -radius, radius, radius);
    let noise = Noise::default();
    paint(
        square,
        (pixels, pixels),
        &Ground::of(ground, &grain),
        |at, step| grain.at(Space::new(at.x, at.y, 0.0), step, &noise),
    )
}

/// The brightness of a background color, and the adjustment of a wood to it.
pub struct Ground {
    level: f32,
    color: Tone,
    lift: f32,
}

impl Ground {
    /// The adjustment of a wood to a background color.
    pub fn of(ground: Rgb, grain: &Grain) -> Self {
        let color = Tone::of(ground.parts());
        let level = color.brightness();
        Self {
            level,
            color,
            lift: level / grain.mean().brightness().max(1e-3),
        }
    }

    /// A tone of the wood, as bright as the background color.
    fn pixel(&self, wood: Tone) -> [u8; 3] {
        let (level, wood) = (self.level, wood * self.lift);
        let tinted = wood.mix(self.color * (wood.brightness() / level), GROUND);
        let bright = tinted.brightness();
        let held = bright.clamp(RANGE.0 * level, RANGE.1 * level);
        (tinted * (held / bright.max(1e-4))).color()
    }
}

/// A part of a plane with the tone at each point, as bright as a background color.
///
/// The tone is a function of the point, mm, and the width of a pixel there.
pub fn paint(
    part: Rect,
    (width, height): (u32, u32),
    ground: &Ground,
    tone: impl Fn(Point, f32) -> Tone,
) -> Picture {
    let (across, down) = (
        part.width() / f64::from(width.max(1)),
        part.height() / f64::from(height.max(1)),
    );
    let mut rgba = Vec::with_capacity(width as usize * height as usize * 4);
    for row in 0..height {
        let y = part.y1 - (f64::from(row) + 0.5) * down;
        for column in 0..width {
            let at = Point::new(part.x0 + (f64::from(column) + 0.5) * across, y);
            let [red, green, blue] = ground.pixel(tone(at, across as f32));
            rgba.extend([red, green, blue, 255]);
        }
    }
    Picture {
        width,
        height,
        rgba,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Build, Wood};

    const GROUNDS: [Rgb; 2] = [Rgb::new(0xea, 0xd0, 0xa3), Rgb::new(0x9c, 0x6e, 0x45)];

    fn face(species: &str, build: Build, ground: Rgb) -> Picture {
        let mut board = Board {
            wood: Some(Wood {
                species: species.into(),
                ..Wood::default()
            }),
            ..Board::default()
        };
        board.panel.build = build;
        wood_face(&Workpiece::of(&board).unwrap(), 80, ground)
    }

    #[test]
    fn every_species_is_as_bright_as_its_background() {
        for species in workshop::species() {
            for ground in GROUNDS {
                let level = Tone::of(ground.parts()).brightness();
                for pixel in face(species.id, Build::Whole, ground).rgba.chunks(4) {
                    let bright = Tone::of([pixel[0], pixel[1], pixel[2]]).brightness();
                    let share = bright / level;
                    assert!((0.8..1.2).contains(&share), "{}: {share}", species.id);
                }
            }
        }
    }

    #[test]
    fn bookmatched_leaves_are_mirror_images() {
        let face = face("black-walnut", Build::Halves, GROUNDS[0]);
        let row = |row: usize| &face.rgba[row * 320..(row + 1) * 320];
        for above in 0..38 {
            assert_eq!(row(above), row(79 - above), "row {above}");
        }
    }

    #[test]
    fn strips_differ_in_tone() {
        let face = face("sugar-maple", Build::Strips { count: 4 }, GROUNDS[1]);
        let mean = |row: usize| {
            let pixels = face.rgba[row * 320..(row + 1) * 320].chunks(4);
            pixels.map(|pixel| f64::from(pixel[1])).sum::<f64>() / 80.0
        };
        let strips = [10, 30, 50, 70].map(|row| f64::midpoint(mean(row), mean(row + 3)));
        let apart = strips
            .windows(2)
            .filter(|pair| (pair[0] - pair[1]).abs() > 0.7);
        assert!(apart.count() >= 2, "{strips:?}");
    }
}
