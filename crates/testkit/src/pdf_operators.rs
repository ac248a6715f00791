//! An interpreter for the operators of a PDF page (ISO 32000-1:2008, 8 and 9) that records what they draw.

use std::collections::BTreeMap;

use kurbo::{Affine, CubicBez, Line, ParamCurve as _, Point, Vec2};
use lopdf::content::{Content, Operation};
use lopdf::{Document, Encoding, Object};

use crate::read_pdf::{PageCircle, PageLine, PageWords, PdfPage, UNITS_PER_MM};

/// The part of the graphics state that matters here.
#[derive(Clone, Default)]
struct State {
    page_from_user: Affine,
    line_width: f64,
    font: String,
    size: f64,
}

/// A piece of a path, in the user space in which it was drawn.
#[derive(Clone, Copy)]
enum Piece {
    Line(Line),
    Curve(CubicBez),
}

/// Executes a page's operators.
pub struct Reader<'a> {
    encodings: BTreeMap<String, Encoding<'a>>,
    forms: BTreeMap<String, Content>,
    state: State,
    saved: Vec<State>,
    /// The start of the path under construction.
    start: Point,
    pieces: Vec<Piece>,
    /// The start and direction of the current line of words.
    line_matrix: Affine,
    /// The layer of each open marked part; a part may have none.
    marks: Vec<Option<String>>,
    /// The page as far as it has been read.
    pub page: PdfPage,
}

impl<'a> Reader<'a> {
    /// A reader for a page with these fonts and forms, by name.
    pub fn new(
        encodings: BTreeMap<String, Encoding<'a>>,
        forms: BTreeMap<String, Content>,
    ) -> Self {
        Self {
            encodings,
            forms,
            state: State::default(),
            saved: Vec::new(),
            start: Point::ZERO,
            pieces: Vec::new(),
            line_matrix: Affine::IDENTITY,
            marks: Vec::new(),
            page: PdfPage::default(),
        }
    }

    /// The page as printed by a printer, which moves points of the page, mm.
    pub fn printed(mut self, printer: Affine) -> Self {
        let mm_from_units = Affine::scale(1.0 / UNITS_PER_MM);
        self.state.page_from_user = mm_from_units.inverse() * printer * mm_from_units;
        self
    }

    /// Executes operators in order.
    ///
    /// # Errors
    ///
    /// A [`lopdf::Error`] for an operator without its operands.
    pub fn carry_out(&mut self, operations: &[Operation]) -> lopdf::Result<()> {
        operations
            .iter()
            .try_for_each(|operation| self.step(operation))
    }

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
            ("Do", _) => self.draw_form(operands.first())?,
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

    /// Records the stroked path: one circle, or lines.
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

    /// Draws a form as if its operators were in its place, and restores the state at the end.
    fn draw_form(&mut self, name: Option<&Object>) -> lopdf::Result<()> {
        let name = name.and_then(name_of).unwrap_or_default();
        let Some(form) = self.forms.get(&name).cloned() else {
            return Err(lopdf::Error::DictKey(name));
        };
        let before = self.state.clone();
        self.carry_out(&form.operations)?;
        self.state = before;
        Ok(())
    }

    fn show(&mut self, string: Option<&Object>) -> lopdf::Result<()> {
        let Some(encoding) = self.encodings.get(&self.state.font) else {
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

/// Center and radius of curves that run once around in equal steps, none of which deviates by more than 0.001 mm.
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
