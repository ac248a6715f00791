//! A picture as PNG (W3C Portable Network Graphics): eight bits per channel, in sRGB.

use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{ExtendedColorType, ImageEncoder as _};
use picture::Picture;

use crate::Error;

/// A picture as PNG, without transparency.
///
/// ```
/// use picture::Picture;
/// let dot = Picture { width: 1, height: 1, rgba: vec![200, 100, 50, 255] };
/// let file = export::png(&dot)?;
/// assert!(file.starts_with(b"\x89PNG\r\n\x1a\n"));
/// # Ok::<(), export::Error>(())
/// ```
///
/// # Errors
/// [`Error::Picture`] where the number of pixels does not match the picture's size.
pub fn png(picture: &Picture) -> Result<Vec<u8>, Error> {
    let kept = (CompressionType::Fast, ExtendedColorType::Rgb8);
    packed(picture, kept, |pixel| pixel.iter().take(3))
}

/// A picture with only grays as PNG with one channel, compressed as far as possible.
///
/// # Errors
/// The errors of [`png()`].
pub fn gray(picture: &Picture) -> Result<Vec<u8>, Error> {
    let kept = (CompressionType::Best, ExtendedColorType::L8);
    packed(picture, kept, |pixel| pixel.iter().take(1))
}

/// Whether a picture has only grays.
pub fn is_gray(picture: &Picture) -> bool {
    let mut pixels = picture.rgba.chunks_exact(4);
    pixels.all(|pixel| matches!(pixel, [red, green, blue, _] if red == green && green == blue))
}

/// A file with some channels of every pixel.
fn packed<'a, Parts: Iterator<Item = &'a u8>>(
    picture: &'a Picture,
    (compression, kind): (CompressionType, ExtendedColorType),
    parts: impl Fn(&'a [u8]) -> Parts,
) -> Result<Vec<u8>, Error> {
    let refused = |reason: String| Error::Picture { reason };
    let count = picture.width as usize * picture.height as usize * 4;
    if picture.rgba.len() != count {
        return Err(refused("it has not as many pixels as its size says".into()));
    }
    let bytes: Vec<u8> = picture
        .rgba
        .chunks_exact(4)
        .flat_map(parts)
        .copied()
        .collect();
    let mut file = Vec::new();
    let encoder = PngEncoder::new_with_quality(&mut file, compression, FilterType::Sub);
    encoder
        .write_image(&bytes, picture.width, picture.height, kind)
        .map_err(|error| refused(error.to_string()))?;
    Ok(file)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pixels_read_back_as_they_were_written() {
        let rgba: Vec<u8> = (0..=255)
            .flat_map(|step| [step, 255 - step, step / 2, 255])
            .collect();
        let picture = Picture {
            width: 32,
            height: 8,
            rgba,
        };
        let file = png(&picture).unwrap();
        let read = image::load_from_memory(&file).unwrap().to_rgba8();
        assert_eq!(read.dimensions(), (32, 8));
        assert_eq!(read.into_raw(), picture.rgba);
    }

    #[test]
    fn a_picture_that_lacks_pixels_is_rejected() {
        let picture = Picture {
            width: 3,
            height: 3,
            rgba: vec![0; 4],
        };
        assert!(matches!(png(&picture), Err(Error::Picture { .. })));
    }

    #[test]
    fn gray_pictures_are_detected_and_take_less_space() {
        let rgba: Vec<u8> = (0..=255).flat_map(|step| [step, step, step, 255]).collect();
        let picture = Picture {
            width: 32,
            height: 8,
            rgba,
        };
        assert!(is_gray(&picture));
        let file = gray(&picture).unwrap();
        let read = image::load_from_memory(&file).unwrap();
        assert_eq!(read.color(), image::ColorType::L8);
        assert_eq!(read.to_rgba8().into_raw(), picture.rgba);
        let red = Picture {
            rgba: vec![9, 8, 8, 255],
            width: 1,
            height: 1,
        };
        assert!(!is_gray(&red));
    }
}
