//! A PDF read back: its pages' boxes, and the circles, lines and words drawn on them.
//!
//! The operators are carried out as ISO 32000-1:2008, 8 and 9 say, with two readers that know nothing of our writer:
//! one for the objects and operators, one for the pixels.

use std::collections::BTreeMap;
use std::sync::Arc;

use hayro::hayro_interpret::InterpreterSettings;
use hayro::hayro_syntax::Pdf;
use hayro::vello_cpu::color::palette::css::WHITE;
use hayro::{PixmapSettings, RenderCache, RenderSettings};
use kurbo::{Affine, CubicBez, Line, ParamCurve as _, Point, Rect, Vec2};
use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Encoding, Object};

use crate::Gray;

/// Units of 1/72 in in a millimetre.
const UNITS_PER_MM: f64 = 72.0 / 25.4;

/// A PDF, read.
#[derive(Debug)]
pub struct PdfFile {
    /// The objects of the file, for what this reader does not look at.
    pub document: Document,
    /// The pages in order.
    pub pages: Vec<PdfPage>,
}

/// One page, read.
#[derive(Debug, Clone, Default)]
pub struct PdfPage {
    /// The page's boxes by key (`MediaBox`, ...), in units of 1/72 in.
    pub boxes: BTreeMap<String, Rect>,
    /// Every path of curves that closes and is round.
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
    /// The layer that it belongs to, if any.
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
    /// The words, by the font's own table of what its glyphs stand for.
    pub words: String,
    /// Where the first letter starts on the baseline, in mm from the page's lower left corner.
    pub at: Point,
    /// Size of the type in mm.
    pub size: f64,
}

impl PdfFile {
    /// Reads a PDF.
    ///
    /// # Errors
    ///
    /// A sentence if the bytes are no PDF or a page cannot be read.
    pub fn read(bytes: &[u8]) -> Result<Self, String> {
        let document = Document::load_mem(bytes).map_err(|error| error.to_string())?;
        let pages = document.get_pages().into_values();
        let pages: lopdf::Result<_> = pages.map(|id| read_page(&document, id)).collect();
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

/// What a page looks like at so many pixels an inch; pages count from 0.
///
/// # Errors
///
/// A sentence if the bytes are no PDF or there is no such page.
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

fn read_page(document: &Document, id: lopdf::ObjectId) -> lopdf::Result<PdfPage> {
    let dictionary = document.get_dictionary(id)?;
    let fonts = document.get_page_fonts(id)?;
    let mut encodings = BTreeMap::new();
    for (name, font) in fonts {
        encodings.insert(name, font.get_font_encoding(document)?);
    }
    let mut reader = Reader {
        encodings,
        state: State::default(),
        saved: Vec::new(),
        start: Point::ZERO,
        pieces: Vec::new(),
        line_matrix: Affine::IDENTITY,
        marks: Vec::new(),
        page: PdfPage {
            boxes: boxes(dictionary),
            ..PdfPage::default()
        },
    };
    let content = Content::decode(&document.get_page_content(id))?;
    for operation in &content.operations {
        reader.step(operation)?;
    }
    Ok(reader.page)
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

/// The part of the graphics state that matters here.
#[derive(Clone, Default)]
struct State {
    page_from_user: Affine,
    line_width: f64,
    font: String,
    size: f64,
}

/// A piece of a path, in the user space that it was drawn in.
#[derive(Clone, Copy)]
enum Piece {
    Line(Line),
    Curve(CubicBez),
}

struct Reader<'a> {
    encodings: BTreeMap<Vec<u8>, Encoding<'a>>,
    state: State,
    saved: Vec<State>,
    /// Where the path under construction has started.
    start: Point,
    pieces: Vec<Piece>,
    /// Where the current line of words starts, and which way it runs.
    line_matrix: Affine,
    /// The layer of each marked part that is open; a part may have none.
    marks: Vec<Option<String>>,
    page: PdfPage,
}

impl Reader<'_> {
    fn step(&mut self, operation: &Operation) -> lopdf::Result<()> {
        let operands = &operation.operands;
        let numbers = operands.iter().flat_map(Object::as_float).map(f64::from);
        let numbers: Vec<f64> = numbers.collect();
        match (operation.operator.as_str(), numbers.as_slice()) {
            ("q", _) => self.saved.push(self.state.clone()),
            ("Q", _) => self.state = self.saved.pop().unwrap_or_default(),
            ("cm", &[a, b, c, d, e, f]) => {
                self.state.page_from_user *= Affine::new([a, b, c, d, e, f]);
            }
            ("w", &[width]) => self.state.line_width = width,
            ("BDC", _) => self.marks.push(operands.last().and_then(name_of)),
            ("EMC", _) => drop(self.marks.pop()),
            ("Tf", &[size]) => {
                self.state.size = size;
                self.state.font = operands.first().and_then(name_of).unwrap_or_default();
            }
            ("BT", _) => self.line_matrix = Affine::IDENTITY,
            ("Td", &[x, y]) => self.line_matrix *= Affine::translate((x, y)),
            ("Tm", &[a, b, c, d, e, f]) => self.line_matrix = Affine::new([a, b, c, d, e, f]),
            ("Tj", _) => self.show(operands.first())?,
            (operator, numbers) => self.path_step(operator, numbers),
        }
        Ok(())
    }

    fn path_step(&mut self, operator: &str, numbers: &[f64]) {
        match (operator, numbers) {
            ("m", &[x, y]) => self.start = Point::new(x, y),
            ("l", &[x, y]) => self.line_to(Point::new(x, y)),
            ("c", &[x1, y1, x2, y2, x, y]) => {
                let [one, two, to] = [(x1, y1), (x2, y2), (x, y)].map(Point::from);
                self.pieces
                    .push(Piece::Curve(CubicBez::new(self.start, one, two, to)));
                self.start = to;
            }
            ("S" | "s" | "B" | "b", _) => self.paint(),
            ("f" | "n", _) => self.pieces.clear(),
            _ => {}
        }
    }

    fn line_to(&mut self, to: Point) {
        self.pieces.push(Piece::Line(Line::new(self.start, to)));
        self.start = to;
    }

    /// Keeps what is stroked: one circle, or lines.
    fn paint(&mut self) {
        let page_from_user = self.mm_from_user();
        let curves = self.pieces.iter().filter_map(|piece| match piece {
            Piece::Curve(curve) => Some(page_from_user * *curve),
            Piece::Line(_) => None,
        });
        let curves: Vec<_> = curves.collect();
        if let Some((center, radius)) = circle_of(&curves) {
            let layer = self.marks.iter().rev().find_map(Clone::clone);
            self.page.circles.push(PageCircle {
                center,
                radius,
                layer,
            });
        }
        let scale = page_from_user.determinant().abs().sqrt();
        for piece in self.pieces.drain(..) {
            if let Piece::Line(line) = piece {
                let line = page_from_user * line;
                let width = self.state.line_width * scale;
                self.page.lines.push(PageLine {
                    from: line.p0,
                    to: line.p1,
                    width,
                });
            }
        }
    }

    fn show(&mut self, string: Option<&Object>) -> lopdf::Result<()> {
        let Some(encoding) = self.encodings.get(self.state.font.as_bytes()) else {
            return Err(lopdf::Error::DictKey(self.state.font.clone()));
        };
        let bytes = string.map_or(Ok(&[] as &[u8]), Object::as_str)?;
        let page_from_text = self.mm_from_user() * self.line_matrix;
        self.page.words.push(PageWords {
            words: Document::decode_text(encoding, bytes)?,
            at: page_from_text * Point::ZERO,
            size: self.state.size * page_from_text.determinant().abs().sqrt(),
        });
        Ok(())
    }

    fn mm_from_user(&self) -> Affine {
        Affine::scale(1.0 / UNITS_PER_MM) * self.state.page_from_user
    }
}

fn name_of(object: &Object) -> Option<String> {
    let name = object.as_name().ok()?;
    Some(String::from_utf8_lossy(name).into_owned())
}

/// Center and radius of curves that run once around in equal steps, none of them more than 0.001 mm off.
fn circle_of(curves: &[CubicBez]) -> Option<(Point, f64)> {
    let (first, last) = (curves.first()?, curves.last()?);
    let sum: Vec2 = curves
        .iter()
        .map(|curve| curve.p3.to_vec2())
        .fold(Vec2::ZERO, |sum, end| sum + end);
    let center = (sum / curves.len() as f64).to_point();
    let radius = first.p0.distance(center);
    let is_round = curves.iter().all(|curve| {
        [0.0, 0.211, 0.5, 0.789, 1.0].iter().all(|&share| {
            let off = curve.eval(share).distance(center) - radius;
            off.abs() <= 0.001
        })
    });
    let is_closed = first.p0.distance(last.p3) <= 0.001;
    (is_round && is_closed && curves.len() > 1).then_some((center, radius))
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
    fn what_is_not_round_is_no_circle() {
        let oval = format!("q 1 0 0 1.01 60 40 cm {CIRCLE} Q");
        let read = PdfFile::read(&file(&oval)).unwrap();
        assert_eq!(read.pages[0].circles, []);
    }

    #[test]
    fn lines_words_layers_boxes_and_preferences_are_read() {
        let content = format!(
            "2 w 0 0 m 72 0 l S /OC /deep BDC 1 0 0 1 72 72 cm {CIRCLE} EMC BT /F 12 Tf 72 0 Td (A1) Tj ET"
        );
        let read = PdfFile::read(&file(&content)).unwrap();
        let page = &read.pages[0];
        assert_near!(page.lines[0].to, Point::new(25.4, 0.0), 1e-6);
        assert_near!(page.lines[0].width, 25.4 / 36.0, 1e-6);
        assert_eq!(page.circles[0].layer.as_deref(), Some("deep"));
        assert_eq!(page.words[0].words, "A1");
        assert_near!(page.words[0].at, Point::new(50.8, 25.4), 1e-5);
        assert_near!(page.words[0].size, 25.4 / 6.0, 1e-5);
        assert_near!(page.boxes["MediaBox"].width(), 283.4646, 1e-4);
        assert_eq!(read.preferences()["PrintScaling"], "/None");
    }

    #[test]
    fn pixels_lie_where_the_operators_say() {
        let content = format!("2.83464567 0 0 2.83464567 0 0 cm .2 w 1 0 0 1 30 20 cm {CIRCLE}");
        let found = pdf_raster(&file(&content), 0, 600).unwrap().round_blobs();
        let [(center, diameter)] = found[..] else {
            panic!("{found:?}")
        };
        assert_near!(center, Point::new(30.0, 20.0), 0.02);
        assert_near!(diameter, 20.0, 0.02);
    }

    #[test]
    fn what_is_no_pdf_is_refused() {
        assert!(PdfFile::read(b"no pdf").is_err());
        assert!(pdf_raster(b"no pdf", 0, 72).is_err());
        assert!(pdf_raster(&file(""), 1, 72).is_err());
    }
}
