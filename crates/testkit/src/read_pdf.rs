//! A PDF read back: its pages' boxes, and the circles, lines and words drawn on them.
//!
//! Two readers independent of the writer are used: one for the objects and operators, one for the pixels.

use std::collections::BTreeMap;
use std::sync::Arc;

use hayro::hayro_interpret::InterpreterSettings;
use hayro::hayro_syntax::Pdf;
use hayro::vello_cpu::color::palette::css::WHITE;
use hayro::{PixmapSettings, RenderCache, RenderSettings};
use kurbo::{Affine, Point, Rect};
use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object};

use crate::Gray;
use crate::pdf_operators::Reader;

/// Units of 1/72 in in a millimeter.
pub(crate) const UNITS_PER_MM: f64 = 72.0 / 25.4;

/// A PDF, read.
#[derive(Debug)]
pub struct PdfFile {
    /// The objects of the file, for what this reader ignores.
    pub document: Document,
    /// The pages in order.
    pub pages: Vec<PdfPage>,
}

/// One page, read.
#[derive(Debug, Clone, Default)]
pub struct PdfPage {
    /// The page's boxes by key (`MediaBox`, ...), in units of 1/72 in.
    pub boxes: BTreeMap<String, Rect>,
    /// Every closed round path of curves.
    pub circles: Vec<PageCircle>,
    /// Every straight piece of a stroked path.
    pub lines: Vec<PageLine>,
    /// Every string shown.
    pub words: Vec<PageWords>,
}

/// A circle on a page.
#[derive(Debug, Clone, PartialEq)]
pub struct PageCircle {
    /// Its center in mm from the page's lower left corner.
    pub center: Point,
    /// Its radius in mm.
    pub radius: f64,
    /// Its layer, if any.
    pub layer: Option<String>,
}

/// A straight line on a page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PageLine {
    /// One end, in mm from the page's lower left corner.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// Width of the stroke in mm.
    pub width: f64,
}

/// A string on a page.
#[derive(Debug, Clone, PartialEq)]
pub struct PageWords {
    /// The words, by the font's own table from glyphs to letters.
    pub words: String,
    /// The start of the first letter on the baseline, mm from the page's lower left corner.
    pub at: Point,
    /// Size of the type in mm.
    pub size: f64,
}

impl PdfFile {
    /// Reads a PDF.
    ///
    /// # Errors
    ///
    /// A sentence if the bytes are not a PDF or a page cannot be read.
    pub fn read(bytes: &[u8]) -> Result<Self, String> {
        Self::read_printed(bytes, Affine::IDENTITY)
    }

    /// Reads a PDF as a simulated printer prints it, which moves points of each page, in mm from its lower left corner.
    ///
    /// # Errors
    ///
    /// The errors of [`Self::read`].
    pub fn read_printed(bytes: &[u8], printer: Affine) -> Result<Self, String> {
        let document = Document::load_mem(bytes).map_err(|error| error.to_string())?;
        let pages = document.get_pages().into_values();
        let pages: lopdf::Result<_> = pages.map(|id| read_page(&document, id, printer)).collect();
        let pages = pages.map_err(|error| error.to_string())?;
        Ok(Self { document, pages })
    }

    /// The viewer preferences as PDF text, by key: `PrintScaling` is `/None`.
    pub fn preferences(&self) -> BTreeMap<String, String> {
        let catalog = self.document.catalog();
        let entry =
            catalog.and_then(|catalog| catalog.get_deref(b"ViewerPreferences", &self.document));
        let Ok(preferences) = entry.and_then(Object::as_dict) else {
            return BTreeMap::new();
        };
        let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        preferences
            .iter()
            .map(|(key, value)| (text(key), format!("{value:?}")))
            .collect()
    }
}

/// A page as pixels at this many pixels per inch; pages count from 0.
///
/// # Errors
///
/// A sentence if the bytes are not a PDF or there is no such page.
pub fn pdf_raster(bytes: &[u8], page: usize, dpi: u32) -> Result<Gray, String> {
    let pdf = Pdf::new(Arc::new(bytes.to_vec())).map_err(|error| format!("{error:?}"))?;
    let page = pdf
        .pages()
        .get(page)
        .ok_or_else(|| format!("there is no page {page}"))?;
    let scale = dpi as f32 / 72.0;
    let settings = PixmapSettings {
        x_scale: scale,
        y_scale: scale,
        bg_color: WHITE,
    };
    let (interpret, render) = (InterpreterSettings::default(), RenderSettings::default());
    let pixmap = hayro::render(page, &RenderCache::new(), &interpret, &render, &settings);
    let width = usize::from(pixmap.width());
    let top = f64::from(page.render_dimensions().1) / UNITS_PER_MM;
    Ok(Gray::from_rgba(width, dpi, top, pixmap.data_as_u8_slice()))
}

fn read_page(document: &Document, id: lopdf::ObjectId, printer: Affine) -> lopdf::Result<PdfPage> {
    let mut encodings = BTreeMap::new();
    for (name, font) in document.get_page_fonts(id)? {
        let name = String::from_utf8_lossy(&name).into_owned();
        encodings.insert(name, font.get_font_encoding(document)?);
    }
    let mut reader = Reader::new(encodings, forms(document, id)?).printed(printer);
    reader.carry_out(&Content::decode(&document.get_page_content(id))?.operations)?;
    let boxes = boxes(document.get_dictionary(id)?);
    Ok(PdfPage {
        boxes,
        ..reader.page
    })
}

/// The forms that a page can draw, by name; their own matrices are ignored.
fn forms(document: &Document, page: lopdf::ObjectId) -> lopdf::Result<BTreeMap<String, Content>> {
    let mut forms = BTreeMap::new();
    let resources = document.get_page_resources(page)?.0;
    let Some(Ok(entries)) = resources.map(|all| all.get(b"XObject").and_then(Object::as_dict))
    else {
        return Ok(forms);
    };
    for (name, id) in entries {
        let stream = document.get_object(id.as_reference()?)?.as_stream()?;
        let content = Content::decode(&stream.decompressed_content()?)?;
        forms.insert(String::from_utf8_lossy(name).into_owned(), content);
    }
    Ok(forms)
}

fn boxes(page: &Dictionary) -> BTreeMap<String, Rect> {
    let mut boxes = BTreeMap::new();
    for key in ["MediaBox", "CropBox", "TrimBox"] {
        let sides = page.get(key.as_bytes()).and_then(Object::as_array);
        let sides = sides.map(|sides| sides.iter().flat_map(Object::as_float).map(f64::from));
        if let Ok([x0, y0, x1, y1]) = sides.map(Iterator::collect::<Vec<_>>).as_deref() {
            boxes.insert(key.to_owned(), Rect::new(*x0, *y0, *x1, *y1));
        }
    }
    boxes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assert_near;
    use core::fmt::Write as _;

    /// A page of 100 x 50 mm that draws `content`, its objects counted by hand.
    fn file(content: &str) -> Vec<u8> {
        let (width, height) = (100.0 * UNITS_PER_MM, 50.0 * UNITS_PER_MM);
        let objects = [
            "<</Type/Catalog/Pages 2 0 R/ViewerPreferences<</PrintScaling/None>>>>".to_owned(),
            "<</Type/Pages/Kids[3 0 R]/Count 1>>".to_owned(),
            format!(
                "<</Type/Page/Parent 2 0 R/MediaBox[0 0 {width} {height}]/Contents 4 0 R\
                 /Resources<</Font<</F 5 0 R>>>>>>"
            ),
            format!("<</Length {}>>stream\n{content}\nendstream", content.len()),
            "<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>".to_owned(),
        ];
        let mut out = "%PDF-1.7\n".to_owned();
        let mut table = "0000000000 65535 f \n".to_owned();
        for (number, object) in (1..).zip(&objects) {
            let place = out.len();
            writeln!(table, "{place:010} 00000 n ").unwrap();
            writeln!(out, "{number} 0 obj{object}\nendobj").unwrap();
        }
        let start = out.len();
        let trailer = "trailer<</Size 6/Root 1 0 R>>\nstartxref";
        writeln!(out, "xref\n0 6\n{table}{trailer}\n{start}\n%%EOF").unwrap();
        out.into_bytes()
    }

    /// A circle of radius 10 about the origin, from four curves.
    const CIRCLE: &str = "10 0 m 10 5.523 5.523 10 0 10 c -5.523 10 -10 5.523 -10 0 c \
        -10 -5.523 -5.523 -10 0 -10 c 5.523 -10 10 -5.523 10 0 c s";

    #[test]
    fn a_circle_is_found_through_all_its_transforms() {
        let content = format!("q 2 0 0 2 0 0 cm q 1 0 0 1 30 20 cm .1 0 0 .1 0 0 cm {CIRCLE} Q Q");
        let read = PdfFile::read(&file(&content)).unwrap();
        let [circle] = &read.pages[0].circles[..] else {
            panic!("{:?}", read.pages)
        };
        assert_near!(
            circle.center,
            Affine::scale(1.0 / UNITS_PER_MM) * Point::new(60.0, 40.0),
            1e-4
        );
        assert_near!(circle.radius, 2.0 / UNITS_PER_MM, 1e-4);
        assert_eq!(circle.layer, None);
    }

    #[test]
    fn a_path_that_is_not_round_is_not_a_circle() {
        let oval = format!("q 1 0 0 1.01 60 40 cm {CIRCLE} Q");
        let read = PdfFile::read(&file(&oval)).unwrap();
        assert_eq!(read.pages[0].circles, []);
    }

    #[test]
    fn lines_words_layers_boxes_and_preferences_are_read() {
        let content = format!(
            "2 w 0 0 m 72 0 l S /OC /deep BDC 1 0 0 1 72 72 cm {CIRCLE} EMC BT /F 12 Tf 72 0 Td (1A) Tj ET"
        );
        let read = PdfFile::read(&file(&content)).unwrap();
        let page = &read.pages[0];
        assert_near!(page.lines[0].to, Point::new(25.4, 0.0), 1e-6);
        assert_near!(page.lines[0].width, 25.4 / 36.0, 1e-6);
        assert_eq!(page.circles[0].layer.as_deref(), Some("deep"));
        assert_eq!(page.words[0].words, "1A");
        assert_near!(page.words[0].at, Point::new(50.8, 25.4), 1e-5);
        assert_near!(page.words[0].size, 25.4 / 6.0, 1e-5);
        assert_near!(page.boxes["MediaBox"].width(), 283.4646, 1e-4);
        assert_eq!(read.preferences()["PrintScaling"], "/None");
    }

    #[test]
    fn pixels_are_where_the_operators_put_them() {
        let content = format!("2.83464567 0 0 2.83464567 0 0 cm .2 w 1 0 0 1 30 20 cm {CIRCLE}");
        let found = pdf_raster(&file(&content), 0, 600).unwrap().round_blobs();
        let [(center, diameter)] = found[..] else {
            panic!("{found:?}")
        };
        assert_near!(center, Point::new(30.0, 20.0), 0.02);
        assert_near!(diameter, 20.0, 0.02);
    }

    #[test]
    fn bytes_that_are_not_a_pdf_are_an_error() {
        assert!(PdfFile::read(b"no pdf").is_err());
        assert!(pdf_raster(b"no pdf", 0, 72).is_err());
        assert!(pdf_raster(&file(""), 1, 72).is_err());
    }
}
