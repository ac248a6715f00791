//! One page's content: what is drawn, as operators.
//!
//! The page's first operator makes a millimetre the unit, so that the numbers after it are short and mean what they
//! say. Each circle and cross is drawn about its own origin: bores of one size repeat the same text, which
//! compression all but removes. Widths, dashes, grays and fonts are stated when they change.

use drawing::{Arc, Item, Layer, Line, Shape, Sheet, Text, View};
use geometry::{Angle, Circle, Point, Vec2};
use kurbo::Rect;

use super::fonts::Fonts;
use super::path;
use crate::number;

/// Units of 1/72 in (ISO 32000-1:2008, 8.3.2.3) in a millimetre.
pub const UNITS_PER_MM: f64 = 72.0 / 25.4;

/// Places of a coordinate in mm: right within 0.00005 mm.
const PLACES: usize = 4;
/// Places of a factor; over the longest page the last one is worth 0.00003 mm.
const FACTOR_PLACES: usize = 8;
/// How light an area is: 0 is black, 1 white.
const AREA_GRAY: f64 = 0.85;

/// The operators of a page; glyphs that it needs are added to `fonts`.
pub fn page(sheet: &Sheet, layers: bool, fonts: &mut Fonts) -> String {
    let mut content = Content {
        out: String::with_capacity(16 * 1024),
        state: State::START,
        layers,
        layer: None,
        fonts,
    };
    content.out.push_str("q\n");
    content.scale(UNITS_PER_MM);
    if !sheet.view.items.is_empty() {
        content.view(&sheet.view);
    }
    content.items(&sheet.marks, Vec2::ZERO);
    content.out.push_str("Q\n");
    content.out
}

/// What the operators so far have set; a part that differs is set again.
#[derive(Clone, Copy)]
struct State {
    line: Option<Line>,
    gray: f64,
    font: Option<(drawing::font::Weight, f64)>,
}

impl State {
    /// What every page starts with: black (ISO 32000-1:2008, 8.4.1, Table 52), no font.
    const START: Self = Self {
        line: None,
        gray: 0.0,
        font: None,
    };
}

struct Content<'a> {
    out: String,
    state: State,
    layers: bool,
    layer: Option<Layer>,
    fonts: &'a mut Fonts,
}

impl Content<'_> {
    /// The part of the board, cut off at the window.
    fn view(&mut self, view: &View) {
        let before = self.state;
        self.out.push_str("q\n");
        self.rectangle(view.window);
        self.out.push_str("W n\n");
        self.items(&view.items, view.page_from_board);
        self.out.push_str("Q\n");
        self.state = before;
    }

    fn items(&mut self, items: &[Item], offset: Vec2) {
        for item in items {
            self.enter_layer(Some(item.layer));
            self.item(item, offset);
        }
        self.enter_layer(None);
    }

    fn item(&mut self, item: &Item, offset: Vec2) {
        match &item.shape {
            Shape::Circle(circle) => {
                self.set_line(item.line);
                self.circle(*circle + offset);
            }
            Shape::Arc(arc) => {
                self.set_line(item.line);
                self.arc(*arc, arc.center + offset);
            }
            Shape::Line(line) => {
                self.set_line(item.line);
                self.line(line.p0 + offset, line.p1 + offset);
            }
            Shape::Cross { center, arm } => {
                self.set_line(item.line);
                self.cross(*center + offset, *arm);
            }
            Shape::Area(corners) => self.area(corners, offset),
            Shape::Text(text) => self.text(text, offset),
        }
    }

    fn circle(&mut self, circle: Circle) {
        self.place(circle.center);
        self.curves(circle.radius, Angle::ZERO, Angle::TURN);
        self.out.push_str("s\nQ\n");
    }

    fn arc(&mut self, arc: Arc, center: Point) {
        self.place(center);
        self.curves(arc.radius, arc.start, arc.sweep);
        self.out.push_str("S\nQ\n");
    }

    fn line(&mut self, from: Point, to: Point) {
        self.points(&[from.to_vec2()], "m");
        self.points(&[to.to_vec2()], "l");
        self.out.push_str("S\n");
    }

    fn cross(&mut self, center: Point, arm: f64) {
        self.place(center);
        for arm in [Vec2::new(arm, 0.0), Vec2::new(0.0, arm)] {
            self.points(&[-arm], "m");
            self.points(&[arm], "l");
        }
        self.out.push_str("S\nQ\n");
    }

    fn area(&mut self, corners: &[Point], offset: Vec2) {
        let Some((first, rest)) = corners.split_first() else {
            return;
        };
        self.set_gray(AREA_GRAY);
        self.points(&[first.to_vec2() + offset], "m");
        for corner in rest {
            self.points(&[corner.to_vec2() + offset], "l");
        }
        self.out.push_str("f\n");
    }

    fn text(&mut self, text: &Text, offset: Vec2) {
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
        self.fonts.push_glyphs(&mut self.out, text);
        self.out.push_str(" Tj\nET\n");
    }

    fn curves(&mut self, radius: f64, start: Angle, sweep: Angle) {
        self.points(&[path::outward(start) * radius], "m");
        for curve in path::curves(radius, start, sweep) {
            self.points(&curve, "c");
        }
    }

    fn rectangle(&mut self, rect: Rect) {
        let (corner, size) = (rect.origin().to_vec2(), rect.size().to_vec2());
        self.points(&[corner, size], "re");
    }

    /// Makes one unit so many units long.
    fn scale(&mut self, factor: f64) {
        self.factors(&[factor, 0.0, 0.0, factor]);
        self.points(&[Vec2::ZERO], "cm");
    }

    /// Moves the origin; the next `Q` moves it back.
    fn place(&mut self, origin: Point) {
        self.out.push_str("q\n1 0 0 1 ");
        self.points(&[origin.to_vec2()], "cm");
    }

    fn set_line(&mut self, line: Line) {
        if self.state.line == Some(line) {
            return;
        }
        if self.state.line.map(Line::width) != Some(line.width()) {
            number::push(&mut self.out, line.width(), PLACES);
            self.out.push_str(" w\n");
        }
        let dashes = self.state.line.map_or(&[] as &[f64], Line::dashes);
        if dashes != line.dashes() {
            self.out.push('[');
            for dash in line.dashes() {
                number::push(&mut self.out, *dash, PLACES);
                self.out.push(' ');
            }
            self.out.push_str("] 0 d\n");
        }
        self.state.line = Some(line);
    }

    fn set_gray(&mut self, gray: f64) {
        if self.state.gray != gray {
            number::push(&mut self.out, gray, PLACES);
            self.out.push_str(" g\n");
            self.state.gray = gray;
        }
    }

    fn set_font(&mut self, text: &Text) {
        let font = Some((text.weight, text.size));
        if self.state.font != font {
            self.out.push('/');
            self.out.push_str(Fonts::resource(text.weight));
            self.out.push(' ');
            number::push(&mut self.out, text.size, PLACES);
            self.out.push_str(" Tf\n");
            self.state.font = font;
        }
    }

    /// What follows belongs to a layer, or to none.
    fn enter_layer(&mut self, layer: Option<Layer>) {
        if !self.layers || self.layer == layer {
            return;
        }
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

    fn points(&mut self, points: &[Vec2], operator: &str) {
        for point in points {
            number::push(&mut self.out, point.x, PLACES);
            self.out.push(' ');
            number::push(&mut self.out, point.y, PLACES);
            self.out.push(' ');
        }
        self.out.push_str(operator);
        self.out.push('\n');
    }

    fn factors(&mut self, factors: &[f64]) {
        for factor in factors {
            number::push(&mut self.out, *factor, FACTOR_PLACES);
            self.out.push(' ');
        }
    }
}
