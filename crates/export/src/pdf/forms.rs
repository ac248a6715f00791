//! Parts of the drawing that many pages show, stored once.
//!
//! Every sheet of a tiled board has the same few guide circles, of a dozen curves each, and the same bars, of a hundred ticks;
//! they would make up half of the file. A form (ISO 32000-1:2008, 8.10) is drawn with the current settings of the page that
//! uses it, so one form serves for every kind of line.

use std::collections::BTreeMap;

use kurbo::Rect;
use pdf_writer::{Filter, Finish as _, Pdf, Ref};

use super::deflate;

/// The forms in use: operators about an origin, with a number and the box around them (mm).
#[derive(Default)]
pub struct Forms(BTreeMap<String, (usize, Rect)>);

impl Forms {
    /// The name under which pages use these operators; equal operators have the same name.
    pub fn name(&mut self, operators: String, bounds: Rect) -> String {
        let count = self.0.len();
        name(self.0.entry(operators).or_insert((count, bounds)).0)
    }

    /// Writes the forms; returns the names and objects for the pages' resources.
    pub fn write(self, pdf: &mut Pdf, mut next: impl FnMut() -> Ref) -> Vec<(String, Ref)> {
        let mut written = Vec::with_capacity(self.0.len());
        for (operators, (number, bounds)) in self.0 {
            let id = next();
            let packed = deflate(operators.as_bytes());
            let mut form = pdf.form_xobject(id, &packed);
            // A part outside its box is clipped, so the box has room for the width of the line.
            let room = bounds.inflate(1.0, 1.0).expand();
            form.bbox(pdf_writer::Rect::new(
                room.x0 as f32,
                room.y0 as f32,
                room.x1 as f32,
                room.y1 as f32,
            ));
            form.filter(Filter::FlateDecode);
            form.resources().finish();
            written.push((name(number), id));
        }
        written
    }
}

/// The name of a form: `F0`, `F1`.
fn name(number: usize) -> String {
    format!("F{number}")
}
