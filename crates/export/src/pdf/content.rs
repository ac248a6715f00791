//! One page's content as drawing operators.
//!
//! The page's first operator makes a millimeter the unit, so that the numbers after it are short and readable; a second one, if
//! necessary, applies the printer's correction to all of them. Each circle and cross is drawn about its own origin: bores of
//! one size repeat the same text, which compression all but removes. Large circles and long runs of lines are left to
//! [`Forms`]. Widths, dashes, grays and fonts are set only when they change.

use drawing::{Item, Layer, Line, Shape, Sheet, Text, Tinted, View};
use geometry::{Angle, Point, Vec2};
use kurbo::{Affine, Rect};

use super::fonts::Fonts;
use super::forms::Forms;
use super::path;
use crate::Error;
use crate::number::Written;

/// Units of 1/72 in (ISO 32000-1:2008, 8.3.2.3) in a millimeter.
pub const UNITS_PER_MM: f64 = 72.0 / 25.4;

/// Decimals of a coordinate in mm: accurate to 0.00005 mm.
const PLACES: usize = 4;
/// The name of a rejected number; each part of the sheet was checked before, so this is never seen.
const FIGURE: &str = "a place or a size of the page";
/// Decimals of a factor; over the longest page the last one amounts to 0.00003 mm.
const FACTOR_PLACES: usize = 8;
/// Lightness of an area: 0 is black, 1 white.
const AREA_GRAY: f64 = 0.85;

/// Parts that the pages of a file share; a page adds those it needs.
pub struct Shared {
    /// The glyphs in use.
    pub fonts: Fonts,
    /// The forms stored once for all pages; `None` if forms are not used.
    pub forms: Option<Forms>,
    /// Whether parts are marked with their layer.
    pub layers: bool,
}

/// The operators of a page.
pub fn page(sheet: &Sheet, shared: &mut Shared) -> Result<String, Error> {
    let mut content = Content {
        out: Written::with_capacity(16 * 1024),
        state: State::START,
        placed: None,
        layer: None,
        shared,
    };
    content.out.push_str("q\n");
    content.scale(UNITS_PER_MM);
    if let Some(correction) = sheet.correction_transform() {
        content.transform(correction);
    }
    if !sheet.view.items.is_empty() || !sheet.view.tints.is_empty() {
        content.view(&sheet.view);
    }
    content.items(&sheet.marks, Vec2::ZERO);
    content.out.push_str("Q\n");
    content.out.finish()
}

/// The state set by the operators so far; a value that differs is set again.
#[derive(Clone, Copy)]
struct State {
    line: Option<Line>,
    gray: f64,
    font: Option<(drawing::font::Weight, f64)>,
}

impl State {
    /// The state that every page starts with: black (ISO 32000-1:2008, 8.4.1, Table 52), no font.
    const START: Self = Self {
        line: None,
        gray: 0.0,
        font: None,
    };
}

/// The operators of a page while they are being written.
struct Content<'a> {
    out: Written,
    state: State,
    /// The origin, if it has been moved.
    placed: Option<Point>,
    layer: Option<Layer>,
    shared: &'a mut Shared,
}

impl Content<'_> {
    /// The part of the board, clipped to the window.
    fn view(&mut self, view: &View) {
        let before = self.state;
        self.out.push_str("q\n");
        self.rectangle(view.window);
        self.out.push_str("W n\n");
        for tint in &view.tints {
            self.tint(tint, view.page_from_board);
        }
        self.items(&view.items, view.page_from_board);
        self.out.push_str("Q\n");
        self.state = before;
    }

    /// A colored part, in a graphics state of its own (ISO 32000-1:2008, 8.6.4.3 and 8.4.3.3: color, round line caps).
    fn tint(&mut self, tint: &Tinted, offset: Vec2) {
        let before = self.state;
        self.out.push_str("q\n");
        for operator in ["rg", "RG"] {
            for share in tint.color.shares() {
                self.out.short(FIGURE, share, PLACES);
                self.out.push(' ');
            }
            self.out.push_str(operator);
            self.out.push('\n');
        }
        if let Some(width) = tint.stroke {
            self.out.short(FIGURE, width, PLACES);
            self.out.push_str(" w 1 J\n");
        }
        let ends = if tint.stroke.is_some() { "s\n" } else { "f\n" };
        match &tint.shape {
            Shape::Circle(circle) => {
                self.shift(circle.center + offset);
                push_curves(&mut self.out, circle.radius, Angle::ZERO, Angle::TURN);
                self.out.push_str(ends);
            }
            Shape::Arc(arc) => {
                let arc = arc.clockwise();
                self.shift(arc.center + offset);
                push_curves(&mut self.out, arc.radius, arc.start, arc.sweep);
                self.out.push_str("S\n");
            }
            Shape::Line(line) => {
                self.points(&[line.p0.to_vec2() + offset], "m");
                self.points(&[line.p1.to_vec2() + offset], "l");
                self.out.push_str("S\n");
            }
            Shape::Area(corners) => {
                for (at, corner) in corners.iter().enumerate() {
                    let operator = if at == 0 { "m" } else { "l" };
                    self.points(&[corner.to_vec2() + offset], operator);
                }
                self.out.push_str(ends);
            }
            // Words take the color that is set; a cross is never colored.
            Shape::Text(text) => self.text(text, offset),
            Shape::Cross { .. } => {}
        }
        self.out.push_str("Q\n");
        self.state = before;
    }

    /// Moves the origin until the state is restored.
    fn shift(&mut self, to: Point) {
        self.out.push_str("1 0 0 1 ");
        self.points(&[to.to_vec2()], "cm");
    }

    /// Draws items in their order, moved onto the page by `offset` (mm).
    fn items(&mut self, items: &[Item], offset: Vec2) {
        let mut rest = items;
        while let Some(first) = rest.first() {
            self.enter_layer(Some(first.layer));
            let (run, others) = rest.split_at(lines_at_start(rest).max(1));
            self.run(run, first, offset);
            rest = others;
        }
        self.leave();
        self.enter_layer(None);
    }

    /// Draws a run of lines of the same kind, or one item of another kind.
    fn run(&mut self, run: &[Item], first: &Item, offset: Vec2) {
        match &first.shape {
            Shape::Circle(circle) => {
                self.place(circle.center + offset, first.line);
                self.circle(circle.radius);
            }
            Shape::Arc(arc) => {
                let arc = arc.clockwise();
                self.place(arc.center + offset, first.line);
                push_curves(&mut self.out, arc.radius, arc.start, arc.sweep);
                self.out.push_str("S\n");
            }
            Shape::Cross { center, arm } => {
                self.place(*center + offset, first.line);
                self.cross(*arm);
            }
            Shape::Line(line) => self.lines(run, first.line, line.p0, offset),
            Shape::Area(corners) => self.area(corners, offset),
            Shape::Text(text) => self.text(text, offset),
        }
    }

    /// A circle about the current origin; a large one is stored once for all pages.
    fn circle(&mut self, radius: f64) {
        // Smaller ones repeat on each page but add hardly anything to it.
        const LARGE: f64 = 20.0;
        let mut circle = Written::default();
        push_curves(&mut circle, radius, Angle::ZERO, Angle::TURN);
        circle.push_str("s\n");
        let bounds = Rect::ZERO.inflate(radius, radius);
        self.draw(&circle, bounds, radius >= LARGE);
    }

    /// A cross about the current origin.
    fn cross(&mut self, arm: f64) {
        for arm in [Vec2::new(arm, 0.0), Vec2::new(0.0, arm)] {
            self.points(&[-arm], "m");
            self.points(&[arm], "l");
        }
        self.out.push_str("S\n");
    }

    /// Draws lines about the start of the first, so that a bar is the same text wherever it is.
    fn lines(&mut self, run: &[Item], line: Line, origin: Point, offset: Vec2) {
        // A name, a position and the form itself take as much room as some lines.
        const MANY: usize = 8;
        let mut lines = Written::default();
        let mut bounds = Rect::ZERO;
        for item in run {
            if let Shape::Line(line) = &item.shape {
                let ends = [line.p0 - origin, line.p1 - origin];
                push_points(&mut lines, &ends[..1], "m");
                push_points(&mut lines, &ends[1..], "l");
                bounds = bounds
                    .union_pt(ends[0].to_point())
                    .union_pt(ends[1].to_point());
            }
        }
        lines.push_str("S\n");
        self.place(origin + offset, line);
        self.draw(&lines, bounds, run.len() >= MANY);
    }

    /// Draws operators about the current origin: as a form if that saves room, otherwise in place.
    fn draw(&mut self, operators: &Written, bounds: Rect, pays: bool) {
        let forms = self.shared.forms.as_mut().filter(|_| pays);
        // Operators that cannot be written go to the page, which is then rejected as a whole.
        let (Some(forms), Ok(kept)) = (forms, operators.clone().finish()) else {
            self.out.append(operators);
            return;
        };
        self.out.push('/');
        self.out.push_str(&forms.name(kept, bounds));
        self.out.push_str(" Do\n");
    }

    /// An area in light gray, without an outline.
    fn area(&mut self, corners: &[Point], offset: Vec2) {
        let Some((first, rest)) = corners.split_first() else {
            return;
        };
        self.leave();
        self.set_gray(AREA_GRAY);
        self.points(&[first.to_vec2() + offset], "m");
        for corner in rest {
            self.points(&[corner.to_vec2() + offset], "l");
        }
        self.out.push_str("f\n");
    }

    /// A line of words from the start of its first letter: the format has no anchors, so the typeface's own widths position the
    /// words.
    fn text(&mut self, text: &Text, offset: Vec2) {
        // A page must not name a typeface without used letters, because that typeface is not in the file.
        if text.words.is_empty() {
            return;
        }
        self.leave();
        self.set_gray(0.0);
        self.set_font(text);
        let start = text.start() + offset;
        self.out.push_str("BT\n");
        if text.turn == Angle::ZERO {
            self.points(&[start.to_vec2()], "Td");
        } else {
            let along = text.along();
            self.factors(&[along.x, along.y, -along.y, along.x]);
            self.points(&[start.to_vec2()], "Tm");
        }
        self.shared.fonts.push_glyphs(&mut self.out, text);
        self.out.push_str(" Tj\nET\n");
    }

    /// A rectangle as a path.
    fn rectangle(&mut self, rect: Rect) {
        let (corner, size) = (rect.origin().to_vec2(), rect.size().to_vec2());
        self.points(&[corner, size], "re");
    }

    /// Scales the unit by a factor.
    fn scale(&mut self, factor: f64) {
        self.factors(&[factor, 0.0, 0.0, factor]);
        self.points(&[Vec2::ZERO], "cm");
    }

    /// Transforms everything that follows.
    fn transform(&mut self, transform: Affine) {
        let [a, b, c, d, x, y] = transform.as_coeffs();
        self.factors(&[a, b, c, d]);
        self.points(&[Vec2::new(x, y)], "cm");
    }

    /// Moves the origin for the next parts; parts about the same point share the move.
    fn place(&mut self, origin: Point, line: Line) {
        if self.placed == Some(origin) && self.state.line == Some(line) {
            return;
        }
        self.leave();
        self.set_line(line);
        self.out.push_str("q\n1 0 0 1 ");
        self.points(&[origin.to_vec2()], "cm");
        self.placed = Some(origin);
    }

    /// Returns the origin to the page's corner.
    fn leave(&mut self) {
        if self.placed.take().is_some() {
            self.out.push_str("Q\n");
        }
    }

    /// Sets width and dashes of a line, where they differ from those of the line before.
    fn set_line(&mut self, line: Line) {
        if self.state.line == Some(line) {
            return;
        }
        if self.state.line.map(Line::width) != Some(line.width()) {
            self.out.short(FIGURE, line.width(), PLACES);
            self.out.push_str(" w\n");
        }
        let dashes = self.state.line.map_or(&[] as &[f64], Line::dashes);
        if dashes != line.dashes() {
            self.out.push('[');
            for dash in line.dashes() {
                self.out.short(FIGURE, *dash, PLACES);
                self.out.push(' ');
            }
            self.out.push_str("] 0 d\n");
        }
        self.state.line = Some(line);
    }

    /// Sets the lightness of areas and words, where it differs.
    fn set_gray(&mut self, gray: f64) {
        if self.state.gray != gray {
            self.out.short(FIGURE, gray, PLACES);
            self.out.push_str(" g\n");
            self.state.gray = gray;
        }
    }

    /// Sets weight and size of the type, where they differ.
    fn set_font(&mut self, text: &Text) {
        let font = Some((text.weight, text.size));
        if self.state.font != font {
            self.out.push('/');
            self.out.push_str(Fonts::resource(text.weight));
            self.out.push(' ');
            self.out.short(FIGURE, text.size, PLACES);
            self.out.push_str(" Tf\n");
            self.state.font = font;
        }
    }

    /// Puts the following items on a layer, or on none.
    fn enter_layer(&mut self, layer: Option<Layer>) {
        if !self.shared.layers || self.layer == layer {
            return;
        }
        self.leave();
        if self.layer.is_some() {
            self.out.push_str("EMC\n");
        }
        if let Some(layer) = layer {
            self.out.push_str("/OC /");
            self.out.push_str(layer.id());
            self.out.push_str(" BDC\n");
        }
        self.layer = layer;
    }

    /// Points in mm followed by their operator.
    fn points(&mut self, points: &[Vec2], operator: &str) {
        push_points(&mut self.out, points, operator);
    }

    /// The factors of a transform, without its translation.
    fn factors(&mut self, factors: &[f64]) {
        for factor in factors {
            self.out.short(FIGURE, *factor, FACTOR_PLACES);
            self.out.push(' ');
        }
    }
}

/// Number of items from the start that are straight lines of the same kind.
fn lines_at_start(items: &[Item]) -> usize {
    let Some(first) = items.first() else {
        return 0;
    };
    let alike = |item: &&Item| {
        let is_line = matches!(item.shape, Shape::Line(_));
        is_line && item.line == first.line && item.layer == first.layer
    };
    items.iter().take_while(alike).count()
}

/// Appends the curves of an arc about the origin as an open path.
fn push_curves(out: &mut Written, radius: f64, start: Angle, sweep: Angle) {
    push_points(out, &[path::outward(start) * radius], "m");
    for curve in path::curves(radius, start, sweep) {
        push_points(out, &curve, "c");
    }
}

/// Points and an operator as one line; operands come before their operator (ISO 32000-1:2008, 7.8.2, from memory).
fn push_points(out: &mut Written, points: &[Vec2], operator: &str) {
    for point in points {
        out.short(FIGURE, point.x, PLACES);
        out.push(' ');
        out.short(FIGURE, point.y, PLACES);
        out.push(' ');
    }
    out.push_str(operator);
    out.push('\n');
}
