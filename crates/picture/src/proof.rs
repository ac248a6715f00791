//! The proof: the pixels of a board's page.

use workshop::Workpiece;

use crate::grain::Grain;
use crate::letters;
use crate::live::Live;
use crate::page::{Hand, Page};
use crate::render::{Ground, Shot};
use crate::ruler::Ruler;
use crate::scene::Scene;
use crate::shade::Light;
use crate::tone::Tone;
use crate::view::{Area, Camera, View};

/// A picture, pixel by pixel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Width, pixels.
    pub width: u32,
    /// Height, pixels.
    pub height: u32,
    /// Red, green, blue and alpha (255) of each pixel, row by row from the top.
    pub rgba: Vec<u8>,
}

/// The reason why a picture cannot be made.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PictureError {
    /// The size is too small to see anything, or larger than a picture may be.
    #[error(
        "a picture of {asked} pixels cannot be made: its longer side is from {least} to {most} pixels"
    )]
    Size {
        /// The longer side requested, pixels.
        asked: u32,
        /// The least allowed, pixels.
        least: u32,
        /// The most allowed, pixels.
        most: u32,
    },
    /// It was stopped.
    #[error("the picture was stopped")]
    Stopped,
}

/// Least, usual and most pixels along the longer side of a proof.
pub const SIZES: (u32, u32, u32) = (200, 2000, 6000);

impl Picture {
    /// The picture of a page with the page's words drawn over it.
    #[must_use]
    pub fn with_words(mut self, page: &Page) -> Self {
        for line in &page.lines {
            let (place, style) = ((line.x, line.y), (line.size, line.weight));
            let pixels = (self.rgba.as_mut_slice(), self.width as usize);
            letters::lay_words(&line.words, place, style, Tone::of(line.color), pixels);
        }
        self
    }
}

/// Whether the words are drawn into the picture, or left to a format that has text of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Words {
    /// Drawn as pixels.
    Drawn,
    /// Left out.
    LeftOut,
}

/// The proof of a board: a picture with title and facts, with its longer side in pixels.
///
/// ```
/// use picture::{View, Words, proof};
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// let picture = proof(&workpiece, View::Above, 240, Words::Drawn, &|| false).unwrap();
/// assert_eq!((picture.width, picture.height), (192, 240));
/// assert_eq!(picture.rgba.len(), 192 * 240 * 4);
/// // The error for a size too large names the largest one.
/// let error = proof(&workpiece, View::Above, 9000, Words::Drawn, &|| false).unwrap_err();
/// assert!(error.to_string().contains("6000"));
/// # Ok::<(), board::BuildError>(())
/// ```
///
/// # Errors
/// [`PictureError`] for a size out of range, or when `cancel` returned true.
pub fn proof(
    workpiece: &Workpiece,
    view: View,
    longest: u32,
    words: Words,
    cancel: &(dyn Fn() -> bool + Sync),
) -> Result<Picture, PictureError> {
    let (least, _, most) = SIZES;
    if !(least..=most).contains(&longest) {
        return Err(PictureError::Size {
            asked: longest,
            least,
            most,
        });
    }
    let page = Page::of(workpiece, view, longest);
    let size = (page.width as usize, page.height as usize);
    let mut rgba = board_pixels(workpiece, view, (size, page.board), PAPER, cancel)?;
    lay_beside((page.hand.as_ref(), page.ruler.as_ref()), &mut rgba, size);
    let picture = Picture {
        width: page.width,
        height: page.height,
        rgba,
    };
    Ok(match words {
        Words::Drawn => picture.with_words(&page),
        Words::LeftOut => picture,
    })
}

/// The estimated work of a picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effort {
    /// Pixels of the picture.
    pub pixels: f64,
    /// Pixels of a board without pieces that would take about the same time.
    pub looks: f64,
}

/// The estimated work of a proof, given the pixels along its longer side.
///
/// ```
/// use picture::{View, effort};
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// let [small, large] = [500, 1000].map(|longest| effort(&workpiece, View::Above, longest));
/// assert_eq!((small.pixels, large.pixels), (400.0 * 500.0, 800.0 * 1000.0));
/// assert!(large.looks >= large.pixels && large.looks < 4.0 * large.pixels);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn effort(workpiece: &Workpiece, view: View, longest: u32) -> Effort {
    /// Number of pieces that can be tested for shadow in the time that one pixel of wood takes; measured.
    const SHADES: f64 = 25.0;
    let page = Page::of(workpiece, view, longest);
    let pixels = f64::from(page.width) * f64::from(page.height);
    let shades = Scene::of(workpiece).mean_shades();
    Effort {
        pixels,
        looks: pixels * (1.0 + shades / SHADES),
    }
}

/// The board on its background with a hand or a ruler beside it, to fill a window of this size (pixels).
///
/// It serves for a coarse picture while the view is turned or a number is dragged, and for a finer one afterward. It has no
/// words, since a window has text of its own.
///
/// ```
/// use picture::{GroundColors, View, glimpse};
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// let night = GroundColors { light: [40, 40, 42], dark: [28, 28, 30] };
/// let picture = glimpse(&workpiece, View::PERSPECTIVE, (120, 90), night, &|| false).unwrap();
/// assert_eq!(picture.rgba.len(), 120 * 90 * 4);
/// assert!(picture.rgba[0] < 60);
/// // A canceled picture is an error.
/// assert!(glimpse(&workpiece, View::Above, (120, 90), night, &|| true).is_err());
/// # Ok::<(), board::BuildError>(())
/// ```
///
/// # Errors
/// The errors of [`proof`].
pub fn glimpse(
    workpiece: &Workpiece,
    view: View,
    (width, height): (u32, u32),
    colors: GroundColors,
    cancel: &(dyn Fn() -> bool + Sync),
) -> Result<Picture, PictureError> {
    let (least, most) = (16, SIZES.2);
    let asked = width.max(height);
    if width.min(height) < least || asked > most {
        return Err(PictureError::Size { asked, least, most });
    }
    let (live, size) = (
        Live::of(workpiece, view, (width, height)),
        (width as usize, height as usize),
    );
    let mut rgba = board_pixels(workpiece, view, (size, live.board), colors, cancel)?;
    lay_beside((live.hand.as_ref(), live.ruler.as_ref()), &mut rgba, size);
    Ok(Picture {
        width,
        height,
        rgba,
    })
}

/// Mean brightness of a thumbnail's wood, as sRGB: light enough that a laser printer's gray leaves bores and words dark.
const LIGHT_WOOD: f64 = 0.8;

/// Only the board, from above, in grays on white paper, in a square of this many pixels; `inset` is the share of the side that
/// stays white around it.
///
/// Dark woods are brightened and pale ones are not, so that bores, grooves and pieces stand out on any printer.
///
/// ```
/// use board::{Board, Wood};
/// use picture::thumbnail;
/// use workshop::Workpiece;
/// let board = Board { wood: Some(Wood::default()), ..Board::default() };
/// let picture = thumbnail(&Workpiece::of(&board)?, 100, 0.08, &|| false).unwrap();
/// let pixel = |x: usize, y: usize| &picture.rgba[(y * 100 + x) * 4..][..3];
/// assert_eq!(pixel(1, 1), [255, 255, 255]);
/// // Walnut is light gray.
/// assert!(pixel(44, 53)[0] > 150 && pixel(44, 53)[0] == pixel(44, 53)[2]);
/// # Ok::<(), board::BuildError>(())
/// ```
///
/// # Errors
/// The errors of [`proof`].
pub fn thumbnail(
    workpiece: &Workpiece,
    pixels: u32,
    inset: f64,
    cancel: &(dyn Fn() -> bool + Sync),
) -> Result<Picture, PictureError> {
    let (side, white) = (f64::from(pixels), [255; 3]);
    let inset = inset.clamp(0.0, 0.4) * side;
    let area = Area {
        x: inset,
        y: inset,
        width: side - 2.0 * inset,
        height: side - 2.0 * inset,
    };
    let ground = GroundColors {
        light: white,
        dark: white,
    };
    let size = (pixels as usize, pixels as usize);
    let mut rgba = board_pixels(workpiece, View::Above, (size, area), ground, cancel)?;
    let wood = bright(Grain::of(workpiece).mean().color()).clamp(0.05, 0.9);
    for pixel in rgba.chunks_exact_mut(4) {
        if let [red, green, blue, _] = pixel {
            let gray = lifted(bright([*red, *green, *blue]), wood);
            let gray = (gray * 255.0).round().clamp(0.0, 255.0) as u8;
            (*red, *green, *blue) = (gray, gray, gray);
        }
    }
    Ok(Picture {
        width: pixels,
        height: pixels,
        rgba,
    })
}

/// A brightness, adjusted so that the wood becomes light gray: darker tones get more contrast to it, lighter ones less.
fn lifted(bright: f64, wood: f64) -> f64 {
    let share = bright / wood;
    if share < 1.0 {
        LIGHT_WOOD * share * libm::sqrt(share)
    } else {
        // Paper, and the faint end of a shadow on it, become white.
        let rest = (bright - wood) / (0.97 - wood).max(0.02);
        LIGHT_WOOD + (1.0 - LIGHT_WOOD) * rest.min(1.0)
    }
}

/// Brightness of a color, 0 to 1, with its parts weighted for the eye (luma of Rec. 709, from memory).
fn bright([red, green, blue]: [u8; 3]) -> f64 {
    let weighted = 0.2126 * f64::from(red) + 0.7152 * f64::from(green) + 0.0722 * f64::from(blue);
    weighted / 255.0
}

/// Colors of the background, sRGB: at its lightest point, and in the corners.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GroundColors {
    /// The color at its lightest point.
    pub light: [u8; 3],
    /// The color in the corners.
    pub dark: [u8; 3],
}

/// The color of warm paper.
pub const PAPER: GroundColors = GroundColors {
    light: [0xf5, 0xf2, 0xed],
    dark: [0xdb, 0xd5, 0xcc],
};

/// The pixels of the board on its background; bands of rows are distributed over the cores.
fn board_pixels(
    workpiece: &Workpiece,
    view: View,
    (size, area): ((usize, usize), Area),
    colors: GroundColors,
    cancel: &(dyn Fn() -> bool + Sync),
) -> Result<Vec<u8>, PictureError> {
    let scene = Scene::of(workpiece);
    let disc = scene.disc;
    let camera = Camera::fitted(view, disc.radius, (disc.table, scene.tallest()), area);
    let light = Light::of(&camera, disc.radius);
    let ground = Ground {
        light: Tone::of(colors.light),
        dark: Tone::of(colors.dark),
        size: (size.0 as f64, size.1 as f64),
    };
    let shot = Shot {
        scene: &scene,
        light,
        camera,
        ground,
        size,
    };
    let threads = std::thread::available_parallelism().map_or(1, core::num::NonZero::get);
    shot.pixels(threads.min(16), cancel)
        .ok_or(PictureError::Stopped)
}

/// Draws a hand or a ruler over the pixels.
fn lay_beside(
    (hand, ruler): (Option<&Hand>, Option<&Ruler>),
    rgba: &mut [u8],
    size: (usize, usize),
) {
    if let Some(hand) = hand {
        lay_hand(hand, rgba, size);
    }
    if let Some(ruler) = ruler {
        ruler.lay(rgba, size.0);
    }
}

/// Draws the hand over the background, as a shape slightly darker than it.
fn lay_hand(hand: &Hand, rgba: &mut [u8], (width, height): (usize, usize)) {
    let shade = Tone::of([0x8e, 0x84, 0x78]);
    let [left, top, right, bottom] = hand.bounds().map(|edge| edge.max(0.0) as usize);
    for row in top..bottom.min(height) {
        for column in left..right.min(width) {
            let share = hand.covers(column as f64 + 0.5, row as f64 + 0.5);
            let place = (row * width + column) * 4;
            if let Some([red, green, blue, _]) = rgba.get_mut(place..place + 4)
                && share > 0.0
            {
                let under = Tone::of([*red, *green, *blue]);
                [*red, *green, *blue] = under.mix(shade, 0.5 * share as f32).color();
            }
        }
    }
}
