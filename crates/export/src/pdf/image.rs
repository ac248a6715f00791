//! A picture behind a page.

use kurbo::Rect;
use pdf_writer::types::Predictor;
use pdf_writer::{Filter, Pdf, Ref};
use picture::Picture;

use super::content::UNITS_PER_MM;
use crate::number::Written;
use crate::{Error, png};

/// The name of the picture among the resources.
pub const NAME: &[u8] = b"Picture";

/// Decimals of a number in the page's unit.
const PLACES: usize = 4;

/// The operators that draw the picture in an area, mm; by itself a picture is one unit wide and high (ISO 32000-1:2008, 8.9.5).
///
/// # Errors
///
/// [`Error::Figure`] for an area without a size.
pub fn placed(area: Rect) -> Result<String, Error> {
    let mut out = Written::default();
    out.push_str("q\n");
    let numbers = [area.width(), 0.0, 0.0, area.height(), area.x0, area.y0];
    for value in numbers {
        out.short("the area of the picture", value * UNITS_PER_MM, PLACES);
        out.push(' ');
    }
    out.push_str("cm\n/Picture Do\nQ\n");
    out.finish()
}

/// Writes the picture as an image object: its data are those of a PNG, row by row with the filter of each.
pub fn write(pdf: &mut Pdf, id: Ref, picture: &Picture) -> Result<(), Error> {
    let is_gray = png::is_gray(picture);
    let file = if is_gray {
        png::gray(picture)?
    } else {
        png::png(picture)?
    };
    let data = packed(&file);
    let side = |side: u32| i32::try_from(side).unwrap_or(i32::MAX);
    let mut image = pdf.image_xobject(id, &data);
    image.filter(Filter::FlateDecode);
    image
        .width(side(picture.width))
        .height(side(picture.height));
    if is_gray {
        image.color_space().device_gray();
    } else {
        image.color_space().device_rgb();
    }
    image.bits_per_component(8);
    image
        .decode_parms()
        .predictor(Predictor::PngOptimum)
        .colors(if is_gray { 1 } else { 3 })
        .bits_per_component(8)
        .columns(side(picture.width));
    Ok(())
}

/// The compressed rows of a PNG: the data of its `IDAT` chunks, one after the other (W3C PNG, 5.3 and 11.2.3).
fn packed(file: &[u8]) -> Vec<u8> {
    let mut data = Vec::with_capacity(file.len());
    let mut rest = file.get(8..).unwrap_or_default();
    while let Some((&[a, b, c, d], after)) = rest.split_first_chunk() {
        let length = u32::from_be_bytes([a, b, c, d]) as usize;
        let (Some(kind), Some(chunk)) = (after.get(..4), after.get(4..4 + length)) else {
            break;
        };
        if kind == b"IDAT" {
            data.extend_from_slice(chunk);
        }
        rest = after.get(8 + length..).unwrap_or_default();
    }
    data
}
