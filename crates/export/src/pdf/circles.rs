//! Large circles, kept once for all pages.
//!
//! Every sheet of a tiled board shows the same few guide circles and the edge, each of a dozen curves; they would be a
//! third of the file. A form (ISO 32000-1:2008, 8.10) is drawn with the pen of the page that calls it, so one of each
//! radius will do.

use std::collections::BTreeMap;

use pdf_writer::{Filter, Finish as _, Pdf, Rect, Ref};

use super::{content, deflate};

/// The circles in use: the number of each, by the bits of its radius.
#[derive(Default)]
pub struct Circles(BTreeMap<u64, usize>);

impl Circles {
    /// Whether a circle is large enough to be worth an object of its own.
    pub fn wants(radius: f64) -> bool {
        const LEAST: f64 = 20.0;
        radius >= LEAST
    }

    /// The name that pages call a circle by, its center at the origin.
    pub fn name(&mut self, radius: f64) -> String {
        let count = self.0.len();
        name(*self.0.entry(radius.to_bits()).or_insert(count))
    }

    /// Writes the circles; gives back the names and objects for the pages' resources.
    pub fn write(self, pdf: &mut Pdf, mut next: impl FnMut() -> Ref) -> Vec<(String, Ref)> {
        let mut written = Vec::with_capacity(self.0.len());
        for (bits, number) in self.0 {
            let (radius, id) = (f64::from_bits(bits), next());
            let mut circle = String::new();
            content::push_circle(&mut circle, radius);
            let packed = deflate(circle.as_bytes());
            // A form is cut off at its box, so there is room for the line.
            let reach = (radius + 1.0).ceil() as f32;
            let mut form = pdf.form_xobject(id, &packed);
            form.bbox(Rect::new(-reach, -reach, reach, reach));
            form.filter(Filter::FlateDecode);
            form.resources().finish();
            written.push((name(number), id));
        }
        written
    }
}

fn name(number: usize) -> String {
    format!("C{number}")
}
