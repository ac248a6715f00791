//! Content as bytes, in the format of each file.

use export::{Date, DxfOptions, PdfOptions};
use kurbo::Size;

use super::super::{ExportError, Kind};
use super::{Body, Content, Layers, PictureFormat, Source};

impl Content {
    /// Width and height of the largest page of each file, mm; none for a file without pages.
    pub fn page_sizes(&self) -> Vec<Option<Size>> {
        let each = self.0.iter();
        each.map(|file| file.body.page_size()).collect()
    }
}

impl Body {
    fn page_size(&self) -> Option<Size> {
        let sheets = match self {
            Self::Pages(sheets, _) | Self::Illustrated(sheets, _) => &sheets[..],
            Self::Picture(shown, PictureFormat::Pdf) => core::slice::from_ref(&shown.sheet),
            Self::Svg(_) | Self::Dxf(_) | Self::Picture(..) | Self::Text(_) => &[],
        };
        let sizes = sheets.iter().map(|sheet| sheet.size);
        sizes.max_by(|one, other| one.area().total_cmp(&other.area()))
    }
}

impl Source {
    /// The files of a kind: their names and their bytes.
    ///
    /// # Errors
    /// As [`Self::content`], and where the format cannot hold it.
    pub fn files(&self, kind: Kind) -> Result<Vec<(String, Vec<u8>)>, ExportError> {
        self.written(self.content(kind)?)
    }

    /// The names and the bytes of the files of some content.
    ///
    /// # Errors
    /// Where a format cannot hold it.
    pub(in super::super) fn written(
        &self,
        content: Content,
    ) -> Result<Vec<(String, Vec<u8>)>, ExportError> {
        let files = content.0.into_iter();
        files
            .map(|file| Ok((self.file_name(&file.ending), self.bytes(file.body)?)))
            .collect()
    }

    fn bytes(&self, body: Body) -> Result<Vec<u8>, export::Error> {
        Ok(match body {
            Body::Pages(sheets, layers) => {
                export::pdf(&sheets, &self.pdf_options(layers == Layers::Kept))?
            }
            Body::Svg(sheet) => export::svg(&sheet)?.into_bytes(),
            Body::Dxf(sheet) => {
                let options = DxfOptions {
                    units: self.board().units,
                    release: self.board().template.dxf,
                };
                export::dxf(&sheet, options)?.into_bytes()
            }
            Body::Picture(shown, PictureFormat::Png) => export::png(&shown.whole)?,
            Body::Picture(shown, PictureFormat::Svg) => {
                export::svg_over(&shown.sheet, &shown.bare, shown.area)?.into_bytes()
            }
            Body::Picture(shown, PictureFormat::Pdf) => {
                let options = self.pdf_options(false);
                let sheets = core::slice::from_ref(&shown.sheet);
                export::pdf_over(sheets, &shown.bare, shown.area, &options)?
            }
            Body::Illustrated(sheets, behind) => {
                export::pdf_over(&sheets, &behind.0, behind.1, &self.pdf_options(false))?
            }
            Body::Text(text) => text,
        })
    }

    fn pdf_options(&self, layers: bool) -> PdfOptions {
        PdfOptions {
            title: self.board().title.clone(),
            creator: "Ringwright".into(),
            created: Some(Date {
                year: self.moment.year,
                month: self.moment.month,
                day: self.moment.day,
                hour: 0,
                minute: 0,
            }),
            layers,
        }
    }
}
