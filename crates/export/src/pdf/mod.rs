//! Sheets as a PDF, one page each, at true size.
//!
//! The file is set up for printing: no page scaling, the tray with the paper of that size, one side of the paper. The clauses
//! that this rests on are in `docs/formats/pdf.md`. Of the clauses named in this crate, 8.3.2 and 12.2 of ISO 32000-1:2008 were
//! read as quoted in manuals of PDF libraries; the others are from memory.

mod content;
mod fonts;
mod forms;
mod image;
mod path;
#[cfg(test)]
mod tests;

use drawing::{Item, Layer, Sheet};
use pdf_writer::{Filter, Finish as _, Name, Pdf, Rect, Ref, Settings, TextStr, writers};
use picture::Picture;

use crate::{Error, check};
use content::Shared;
use fonts::Fonts;
use forms::Forms;

/// Facts about a PDF besides its sheets.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PdfOptions {
    /// The document's title; viewers show it in the title bar.
    pub title: String,
    /// The program that made the drawing; empty to omit it.
    pub creator: String,
    /// The time of creation, by the maker's clock; without it, the same sheets always give the same bytes.
    pub created: Option<Date>,
    /// Whether each [`Layer`] in use can be switched on and off in the viewer.
    pub layers: bool,
}

/// A day and the time on it, as the maker's clock shows them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Date {
    /// The year, such as 2026.
    pub year: u16,
    /// The month, 1 to 12.
    pub month: u8,
    /// The day of the month, from 1.
    pub day: u8,
    /// The hour, 0 to 23.
    pub hour: u8,
    /// The minute, 0 to 59.
    pub minute: u8,
}

/// A PDF of sheets, one page each, in the order given.
///
/// Every page is as large as its sheet's paper, and a millimeter of the sheet is a millimeter of the page. The file asks not to
/// be scaled in printing, to be printed on one side, and for the tray with paper of that size; print dialogs may do otherwise,
/// so the bars on the paper have the final say. Circles are curves accurate to 0.0005 mm, as the format has no circles.
///
/// ```
/// use drawing::{Anchor, Item, Layer, Line, Shape, Sheet, Text, View};
/// use export::{Date, PdfOptions, pdf};
/// use geometry::{Point, Vec2};
/// use kurbo::Size;
///
/// let size = Size::new(210.0, 297.0);
/// let words = Text::level(Point::new(20.0, 270.0), 5.0, Anchor::Start, "Ø 12 mm");
/// let sheet = Sheet {
///     size,
///     label: "1A".to_owned(),
///     view: View {
///         window: size.to_rect(),
///         page_from_board: Vec2::ZERO,
///         tints: Vec::new(),
///         items: Vec::new(),
///     },
///     marks: vec![Item {
///         layer: Layer::Title,
///         line: Line::Dimension,
///         shape: Shape::Text(words),
///     }],
///     correction: None,
/// };
/// let options = PdfOptions {
///     title: "Six lobes".to_owned(),
///     created: Some(Date { year: 2026, month: 11, day: 29, hour: 9, minute: 30 }),
///     ..PdfOptions::default()
/// };
/// let file = pdf(&[sheet.clone(), sheet], &options)?;
/// assert!(file.starts_with(b"%PDF-1.7"));
/// assert!(matches!(pdf(&[], &options), Err(export::Error::NoSheets)));
/// # Ok::<(), export::Error>(())
/// ```
///
/// # Errors
///
/// An [`Error`] if there are no sheets, a sheet's size is not possible for a page, or a part of a sheet is not a number.
pub fn pdf(sheets: &[Sheet], options: &PdfOptions) -> Result<Vec<u8>, Error> {
    written(sheets, None, options)
}

/// A PDF of sheets with a picture behind everything on the first, in an area of it (mm, y up).
///
/// The picture is stored losslessly with PNG filters (ISO 32000-1:2008, 7.4.4.4), in the colors of the screen; a picture with
/// only grays is stored as grays, in a third of the space.
///
/// # Errors
///
/// The errors of [`pdf()`] and of [`crate::png()`].
pub fn pdf_over(
    sheets: &[Sheet],
    picture: &Picture,
    area: kurbo::Rect,
    options: &PdfOptions,
) -> Result<Vec<u8>, Error> {
    written(sheets, Some((picture, area)), options)
}

/// The file of some sheets, with a picture behind the first of them if there is one.
fn written(
    sheets: &[Sheet],
    behind: Option<(&Picture, kurbo::Rect)>,
    options: &PdfOptions,
) -> Result<Vec<u8>, Error> {
    if sheets.is_empty() {
        return Err(Error::NoSheets);
    }
    sheets.iter().try_for_each(check::sheet)?;
    let mut document = Document::new(sheets, options);
    let mut shared = Shared {
        fonts: Fonts::new()?,
        forms: (sheets.len() > 1).then(Forms::default),
        layers: options.layers,
    };
    let mut behind_first = behind.map(|(_, area)| image::placed(area)).transpose()?;
    for sheet in sheets {
        let content = content::page(sheet, &mut shared)?;
        let behind = behind_first.take().unwrap_or_default();
        document.add_page(sheet, &(behind + &content));
    }
    if let Some((picture, _)) = behind {
        let id = document.next();
        image::write(&mut document.pdf, id, picture)?;
        document.picture = Some(id);
    }
    document.add_pages(shared)?;
    document.add_catalog(sheets);
    document.add_info(options);
    Ok(document.pdf.finish())
}

/// Compression level, 1 to 10; beyond this one the file hardly shrinks.
const LEVEL: u8 = 6;

/// Bytes compressed for `FlateDecode`.
fn deflate(bytes: &[u8]) -> Vec<u8> {
    miniz_oxide::deflate::compress_to_vec_zlib(bytes, LEVEL)
}

/// The file while it is being written.
struct Document {
    pdf: Pdf,
    /// The first unused object number.
    free: Ref,
    catalog: Ref,
    tree: Ref,
    pages: Vec<Ref>,
    layers: Vec<(Layer, Ref)>,
    /// The picture behind the sheets, if there is one.
    picture: Option<Ref>,
}

impl Document {
    /// A file with its layers numbered; objects may be written in any order, as long as each has its own number.
    fn new(sheets: &[Sheet], options: &PdfOptions) -> Self {
        let mut pdf = Pdf::with_settings(Settings { pretty: false });
        // The version that introduced the preferences for printing.
        pdf.set_version(1, 7);
        let (catalog, tree) = (Ref::new(1), Ref::new(2));
        let mut document = Self {
            pdf,
            free: Ref::new(3),
            catalog,
            tree,
            pages: Vec::with_capacity(sheets.len()),
            layers: Vec::new(),
            picture: None,
        };
        if options.layers {
            document.add_layers(sheets);
        }
        document
    }

    /// A number for one more object.
    fn next(&mut self) -> Ref {
        self.free.bump()
    }

    /// Adds a group of optional content for each layer in use (ISO 32000-1:2008, 8.11); an empty one would be a switch without
    /// effect.
    fn add_layers(&mut self, sheets: &[Sheet]) {
        for layer in Layer::ALL {
            let belongs = |item: &Item| item.layer == layer;
            let mut items = sheets
                .iter()
                .flat_map(|sheet| sheet.view.items.iter().chain(&sheet.marks));
            if items.any(belongs) {
                let id = self.next();
                let mut group = self.pdf.indirect(id).dict();
                group.pair(Name(b"Type"), Name(b"OCG"));
                group.pair(Name(b"Name"), TextStr(layer.id()));
                group.finish();
                self.layers.push((layer, id));
            }
        }
    }

    /// Adds a page and its content. All three boxes are the paper: there is no bleed or trim (ISO 32000-1:2008, 14.11.2).
    fn add_page(&mut self, sheet: &Sheet, content: &str) {
        let (page, stream) = (self.next(), self.next());
        let units = |side: f64| (side * content::UNITS_PER_MM) as f32;
        let paper = Rect::new(0.0, 0.0, units(sheet.size.width), units(sheet.size.height));
        self.pdf
            .page(page)
            .parent(self.tree)
            .media_box(paper)
            .crop_box(paper)
            .trim_box(paper)
            .contents(stream);
        let packed = deflate(content.as_bytes());
        self.pdf.stream(stream, &packed).filter(Filter::FlateDecode);
        self.pages.push(page);
    }

    /// Adds the list of pages, with the resources that all of them share.
    fn add_pages(&mut self, shared: Shared) -> Result<(), Error> {
        let (pdf, free) = (&mut self.pdf, &mut self.free);
        let fonts = shared.fonts.embed(pdf, || free.bump())?;
        let forms = shared.forms.unwrap_or_default().write(pdf, || free.bump());
        let mut pages = self.pdf.pages(self.tree);
        let count = i32::try_from(self.pages.len()).unwrap_or(i32::MAX);
        pages.kids(self.pages.iter().copied()).count(count);
        let mut resources = pages.resources();
        if !fonts.is_empty() {
            let mut dict = resources.fonts();
            for (name, id) in fonts {
                dict.pair(Name(name.as_bytes()), id);
            }
        }
        if !forms.is_empty() || self.picture.is_some() {
            let mut dict = resources.x_objects();
            if let Some(picture) = self.picture {
                dict.pair(Name(image::NAME), picture);
            }
            for (name, id) in forms {
                dict.pair(Name(name.as_bytes()), id);
            }
        }
        if !self.layers.is_empty() {
            let mut dict = resources.insert(Name(b"Properties")).dict();
            for (layer, id) in &self.layers {
                dict.pair(Name(layer.id().as_bytes()), id);
            }
        }
        Ok(())
    }

    /// Writes the root that viewers start from: the pages, their labels, the printing preferences, and the layers.
    fn add_catalog(&mut self, sheets: &[Sheet]) {
        let mut catalog = self.pdf.catalog(self.catalog);
        catalog.pages(self.tree).lang(TextStr("en"));
        write_preferences(&mut catalog.viewer_preferences());
        write_labels(&mut catalog, sheets);
        if !self.layers.is_empty() {
            let ids = || self.layers.iter().map(|(_, id)| id);
            let mut properties = catalog.insert(Name(b"OCProperties")).dict();
            properties.insert(Name(b"OCGs")).array().items(ids());
            let mut shown = properties.insert(Name(b"D")).dict();
            shown.insert(Name(b"Order")).array().items(ids());
        }
    }

    /// Adds title, program and date, each only if it is given.
    fn add_info(&mut self, options: &PdfOptions) {
        let id = self.next();
        let mut info = self.pdf.document_info(id);
        if !options.title.is_empty() {
            info.title(TextStr(&options.title));
        }
        if !options.creator.is_empty() {
            info.creator(TextStr(&options.creator));
        }
        if let Some(date) = options.created {
            info.creation_date(
                pdf_writer::Date::new(date.year)
                    .month(date.month)
                    .day(date.day)
                    .hour(date.hour)
                    .minute(date.minute),
            );
        }
    }
}

/// Writes the printing preferences (ISO 32000-1:2008, 12.2, Table 150).
fn write_preferences(preferences: &mut writers::ViewerPreferences<'_>) {
    preferences.display_doc_title(true);
    preferences.pair(Name(b"PrintScaling"), Name(b"None"));
    preferences.pair(Name(b"PickTrayByPDFSize"), true);
    preferences.pair(Name(b"Duplex"), Name(b"Simplex"));
    let mut enforce = preferences.insert(Name(b"Enforce")).array();
    enforce.item(Name(b"PrintScaling"));
}

/// Writes each sheet's own label for the viewer's list of pages (ISO 32000-1:2008, 12.4.2).
fn write_labels(catalog: &mut writers::Catalog<'_>, sheets: &[Sheet]) {
    let mut labels = catalog.insert(Name(b"PageLabels")).dict();
    let mut numbers = labels.insert(Name(b"Nums")).array();
    for (page, sheet) in (0_i32..).zip(sheets) {
        numbers.item(page);
        numbers
            .push()
            .dict()
            .pair(Name(b"P"), TextStr(&sheet.label));
    }
}
