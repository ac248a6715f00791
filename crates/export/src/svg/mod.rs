//! A sheet as an SVG at true size: one user unit is one millimeter.
//!
//! The frame of the file (root, title, clip path, a group for each layer) is built with crate `svg`; the many parts inside a
//! group are appended to one string, as that crate's elements would allocate a dozen times for each circle. Parts with the same
//! look share a group, so that line width and dashes are written once and a bore needs only its center and radius.

mod look;

use drawing::{Item, Layer, Shape, Sheet, Text, font};
use geometry::{Angle, Arc, Circle, Point, Vec2};
use kurbo::{Affine, Rect};
use picture::Picture;
use svg::node::element::{ClipPath, Definitions, Description, Group, Rectangle, Title};
use svg::node::{Blob, Text as Words};

use self::look::Look;
use crate::base64::base64;
use crate::number::{self, Written};
use crate::{Error, check, png};

/// Decimals of a coordinate in mm: accurate to 0.00005 mm.
const PLACES: usize = 4;
/// The name of a rejected number; each part of the sheet was checked before, so this is never seen.
const FIGURE: &str = "a place or a size of the drawing";
/// Decimals of a factor; over the longest page the last one amounts to 0.00003 mm.
const FACTOR_PLACES: usize = 8;
/// The name of the clip path.
const WINDOW: &str = "window";

/// An SVG of one sheet: width and height in mm, and a view box in the same unit, so that programs open it at true size.
///
/// Each [`Layer`] in use is a group with the layer's name as its id. Lines are black strokes with the widths and dashes of
/// [`Line`](drawing::Line); the board's part is clipped to the sheet's window. If the sheet has a printer's correction, one
/// transform around all groups applies it.
///
/// ```
/// use drawing::{Item, Layer, Line, Shape, Sheet, View};
/// use geometry::{Circle, Point, Vec2};
/// use kurbo::Size;
///
/// let size = Size::new(100.0, 60.0);
/// let bore = Item {
///     layer: Layer::Track,
///     line: Line::Drill,
///     shape: Shape::Circle(Circle::new(Point::new(0.0, 10.0), 6.0)),
/// };
/// let sheet = Sheet {
///     size,
///     label: "one bore".to_owned(),
///     view: View {
///         window: size.to_rect(),
///         page_from_board: Vec2::new(50.0, 30.0),
///         tints: Vec::new(),
///         items: vec![bore],
///     },
///     marks: Vec::new(),
///     correction: None,
/// };
/// let file = export::svg(&sheet)?;
/// assert!(file.contains(r#"width="100mm""#) && file.contains(r#"<g id="track">"#));
/// // The center pin is at (50, 30) of the page; y points down in the file.
/// assert!(file.contains(r#"<circle cx="50" cy="20" r="6"/>"#));
/// # Ok::<(), export::Error>(())
/// ```
///
/// # Errors
///
/// An [`Error`] for a sheet whose size is not possible for a page, or with a part that is not a number.
pub fn svg(sheet: &Sheet) -> Result<String, Error> {
    written(sheet, None)
}

/// An SVG of one sheet with a picture behind everything, in an area of the sheet (mm, y up).
///
/// The picture is embedded in the file, as PNG in base 64, so that the file is complete by itself.
///
/// # Errors
///
/// The errors of [`svg()`] and of [`crate::png()`].
pub fn svg_over(sheet: &Sheet, picture: &Picture, area: Rect) -> Result<String, Error> {
    let data = base64(&png(picture)?);
    let corner = flipped(sheet, Point::new(area.x0, area.y1));
    let [x, y, width, height] = [corner.x, corner.y, area.width(), area.height()].map(short);
    let image = format!(
        "<image x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" preserveAspectRatio=\"none\" href=\"data:image/png;base64,{data}\"/>",
        x?, y?, width?, height?
    );
    written(sheet, Some(image))
}

/// The file of a sheet, with an element behind everything if there is one.
fn written(sheet: &Sheet, behind: Option<String>) -> Result<String, Error> {
    check::sheet(sheet)?;
    let clipped = reaches_outside(sheet);
    let mut document = root(sheet)?;
    if let Some(behind) = behind {
        document = document.add(Blob::new(behind));
    }
    if clipped {
        document = document.add(clip_path(sheet)?);
    }
    let colors = colors_body(sheet)?;
    if !colors.is_empty() {
        let body = Blob::new(colors.trim_end());
        document = document.add(Group::new().set("id", COLORS).add(body));
    }
    let mut layers = Vec::new();
    for layer in Layer::ALL {
        let body = layer_body(sheet, layer, clipped)?;
        if !body.is_empty() {
            let body = Blob::new(body.trim_end());
            layers.push(Group::new().set("id", layer.id()).add(body));
        }
    }
    let layers = layers.into_iter();
    let document = match sheet.correction_transform() {
        None => layers.fold(document, svg::Document::add),
        Some(correction) => {
            let group = Group::new().set("transform", matrix(sheet, correction)?);
            document.add(layers.fold(group, Group::add))
        }
    };
    Ok(document.to_string() + "\n")
}

/// A transform of the sheet, whose y points up, converted to one of the file, whose y points down.
fn matrix(sheet: &Sheet, transform: Affine) -> Result<String, Error> {
    let flip = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, sheet.size.height]);
    let mut out = Written::default();
    out.push_str("matrix(");
    for (index, factor) in (flip * transform * flip)
        .as_coeffs()
        .into_iter()
        .enumerate()
    {
        if index > 0 {
            out.push(' ');
        }
        out.short("the printer's correction", factor, FACTOR_PLACES);
    }
    out.push(')');
    out.finish()
}

/// The root with what all parts share, the sheet's label as title, and a sentence about its size.
fn root(sheet: &Sheet) -> Result<svg::Document, Error> {
    let (width, height) = (short(sheet.size.width)?, short(sheet.size.height)?);
    let about = format!("Full size, {width} x {height} mm; one unit is 1 mm.");
    // Where the typeface is missing, narrower ones keep names within their measured width.
    let families = format!("{}, 'Helvetica Neue', Arial, sans-serif", font::FAMILY);
    Ok(svg::Document::new()
        .set("width", format!("{width}mm"))
        .set("height", format!("{height}mm"))
        .set("viewBox", format!("0 0 {width} {height}"))
        .set("fill", "none")
        .set("stroke", "#000")
        .set("font-family", families)
        .set("role", "img")
        .add(Title::new(sheet.label.as_str()))
        .add(Description::new().add(Words::new(about))))
}

/// Whether any part of the board would be drawn outside the window without clipping.
fn reaches_outside(sheet: &Sheet) -> bool {
    let view = &sheet.view;
    view.items.iter().any(|item| {
        let half = item.line.width() / 2.0;
        let bounds = item.shape.bounds().inflate(half, half) + view.page_from_board;
        !view.window.contains_rect(bounds)
    })
}

/// The window as a clip path, for the groups of the board's parts.
fn clip_path(sheet: &Sheet) -> Result<Definitions, Error> {
    let window = sheet.view.window;
    let corner = flipped(sheet, Point::new(window.x0, window.y1));
    let rectangle = Rectangle::new()
        .set("x", short(corner.x)?)
        .set("y", short(corner.y)?)
        .set("width", short(window.width())?)
        .set("height", short(window.height())?);
    Ok(Definitions::new().add(ClipPath::new().set("id", WINDOW).add(rectangle)))
}

/// Everything on a layer: the board's part, clipped to the window if necessary, then the marks.
fn layer_body(sheet: &Sheet, layer: Layer, clipped: bool) -> Result<String, Error> {
    let mut body = Body::new(sheet);
    if clipped {
        body.out
            .push_str(&format!("<g clip-path=\"url(#{WINDOW})\">\n"));
    }
    let begun = body.out.len();
    body.items(layer, &sheet.view.items, sheet.view.page_from_board);
    if body.out.len() == begun {
        body = Body::new(sheet);
    } else if clipped {
        body.out.push_str("</g>\n");
    }
    body.items(layer, &sheet.marks, Vec2::ZERO);
    body.out.finish()
}

/// The name of the group of colors, which is below all layers.
const COLORS: &str = "colors";

/// The colored parts of the board, below its lines.
fn colors_body(sheet: &Sheet) -> Result<String, Error> {
    let mut body = Body::new(sheet);
    for tint in &sheet.view.tints {
        body.enter(Some(Look::of_tint(tint)));
        body.shape(&tint.shape, sheet.view.page_from_board);
    }
    body.enter(None);
    body.out.finish()
}

/// The only place where y is flipped: up on the sheet, down in the file.
fn flipped(sheet: &Sheet, point: Point) -> Point {
    Point::new(point.x, sheet.size.height - point.y)
}

/// A length in mm as an attribute value: `12.5`.
fn short(value: f64) -> Result<String, Error> {
    number::short(FIGURE, value, PLACES)
}

/// Whether two numbers are written the same.
fn is_same(one: f64, other: f64) -> bool {
    let units = |value: f64| (value * 1e4).round();
    units(one) == units(other)
}

/// The parts of one layer, as text.
struct Body<'a> {
    sheet: &'a Sheet,
    out: Written,
    look: Option<Look>,
}

impl<'a> Body<'a> {
    /// No parts yet.
    fn new(sheet: &'a Sheet) -> Self {
        Self {
            sheet,
            out: Written::default(),
            look: None,
        }
    }

    /// Appends the items of one layer, moved onto the page by `offset` (mm). Only neighbors share a group: parts are drawn in
    /// the given order, so that a name is above the area below it.
    fn items(&mut self, layer: Layer, items: &[Item], offset: Vec2) {
        for item in items.iter().filter(|item| item.layer == layer) {
            self.enter(Some(Look::of(item)));
            self.item(item, offset);
        }
        self.enter(None);
    }

    /// Closes the group of the look before, and opens one for the next.
    fn enter(&mut self, look: Option<Look>) {
        if self.look == look {
            return;
        }
        if self.look.is_some() {
            self.out.push_str("</g>\n");
        }
        if let Some(look) = look {
            self.out.push_str("<g");
            look.attributes(&mut self.out);
            self.out.push_str(">\n");
        }
        self.look = look;
    }

    fn item(&mut self, item: &Item, offset: Vec2) {
        self.shape(&item.shape, offset);
    }

    /// Appends a shape, moved onto the page by `offset` (mm), in the look of the current group.
    fn shape(&mut self, shape: &Shape, offset: Vec2) {
        match shape {
            Shape::Circle(circle) => self.circle(*circle + offset),
            Shape::Arc(arc) => self.arc(*arc, offset),
            Shape::Line(line) => self.line(line.p0 + offset, line.p1 + offset),
            Shape::Cross { center, arm } => self.cross(*center + offset, *arm),
            Shape::Area(corners) => self.area(corners, offset),
            Shape::Text(text) => self.text(text, offset),
        }
    }

    /// Appends a circle as such, so that a program that reads the file finds centers without fitting.
    fn circle(&mut self, circle: Circle) {
        let center = flipped(self.sheet, circle.center);
        self.attribute("<circle cx=\"", center.x);
        self.attribute("\" cy=\"", center.y);
        self.attribute("\" r=\"", circle.radius);
        self.out.push_str("\"/>\n");
    }

    /// Appends an arc as a path with one `A` (SVG 1.1, 8.3.8, from memory): the radius twice, no rotation, the large-arc flag
    /// if it is over half a turn, and the direction.
    ///
    /// An arc of a full turn is written as a circle: its ends coincide, and would not give the direction.
    fn arc(&mut self, arc: Arc, offset: Vec2) {
        let arc = arc.clockwise() + offset;
        let [from, to] = [0.0, 1.0].map(|share| arc.at(share));
        let half = Angle::TURN / 2.0;
        if arc.sweep > half && is_same(from.x, to.x) && is_same(from.y, to.y) {
            return self.circle(arc.circle());
        }
        self.pair("<path d=\"M", from);
        self.attribute("A", arc.radius);
        self.attribute(" ", arc.radius);
        // Clockwise on the sheet is clockwise on the screen, which SVG calls positive.
        self.pair(
            if arc.sweep > half {
                " 0 1 1 "
            } else {
                " 0 0 1 "
            },
            to,
        );
        self.out.push_str("\"/>\n");
    }

    /// A straight line between two points of the sheet.
    fn line(&mut self, from: Point, to: Point) {
        let [from, to] = [from, to].map(|end| flipped(self.sheet, end));
        self.attribute("<line x1=\"", from.x);
        self.attribute("\" y1=\"", from.y);
        self.attribute("\" x2=\"", to.x);
        self.attribute("\" y2=\"", to.y);
        self.out.push_str("\"/>\n");
    }

    /// Appends both strokes of a cross as one path, so that a click in a drawing program selects both.
    fn cross(&mut self, center: Point, arm: f64) {
        let (across, up) = (Vec2::new(arm, 0.0), Vec2::new(0.0, arm));
        self.pair("<path d=\"M", center - across);
        self.pair("L", center + across);
        self.pair("M", center - up);
        self.pair("L", center + up);
        self.out.push_str("\"/>\n");
    }

    /// Appends an area as a polygon, which closes by itself.
    fn area(&mut self, corners: &[Point], offset: Vec2) {
        self.out.push_str("<polygon points=\"");
        for (index, corner) in corners.iter().enumerate() {
            self.pair(if index == 0 { "" } else { " " }, *corner + offset);
        }
        self.out.push_str("\"/>\n");
    }

    /// Appends one line of words at its anchor. Rotation is counterclockwise on the sheet and clockwise in SVG (SVG 1.1, 7.6,
    /// from memory), hence the sign.
    fn text(&mut self, text: &Text, offset: Vec2) {
        let at = flipped(self.sheet, text.at + offset);
        self.attribute("<text x=\"", at.x);
        self.attribute("\" y=\"", at.y);
        if text.turn != Angle::ZERO {
            self.attribute("\" transform=\"rotate(", -text.turn.as_degrees());
            self.attribute(" ", at.x);
            self.attribute(" ", at.y);
            self.out.push(')');
        }
        self.out.push_str("\">");
        push_escaped(&mut self.out, &text.words);
        self.out.push_str("</text>\n");
    }

    /// Appends markup followed by a point of the sheet.
    fn pair(&mut self, before: &str, point: Point) {
        let point = flipped(self.sheet, point);
        self.attribute(before, point.x);
        self.attribute(" ", point.y);
    }

    /// Appends markup followed by a number.
    fn attribute(&mut self, before: &str, value: f64) {
        self.out.push_str(before);
        self.out.short(FIGURE, value, PLACES);
    }
}

/// Appends words with XML escapes; characters that XML cannot contain at all (XML 1.0, 2.2) are left out.
fn push_escaped(out: &mut Written, words: &str) {
    for letter in words.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '\0'..=' ' | '\u{fffe}' | '\u{ffff}' if letter != ' ' => {}
            _ => out.push(letter),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use drawing::{Anchor, Line, View};
    use kurbo::{Rect, Size};
    use testkit::{assert_near, svg_raster};

    fn item(layer: Layer, shape: Shape) -> Item {
        let line = Line::Drill;
        Item { layer, line, shape }
    }

    fn sheet(items: Vec<Item>) -> Sheet {
        let size = Size::new(100.0, 60.0);
        Sheet {
            size,
            label: "A & B".to_owned(),
            view: View {
                window: size.to_rect(),
                page_from_board: Vec2::new(50.0, 30.0),
                tints: Vec::new(),
                items,
            },
            marks: Vec::new(),
            correction: None,
        }
    }

    fn circle() -> Item {
        item(Layer::Track, Shape::Circle(Circle::new((20.0, 10.0), 4.0)))
    }

    #[test]
    fn the_root_says_millimeters() {
        let file = svg(&sheet(vec![circle()])).unwrap();
        let root = file.lines().next().unwrap();
        for part in [
            "width=\"100mm\"",
            "height=\"60mm\"",
            "viewBox=\"0 0 100 60\"",
        ] {
            assert!(root.contains(part), "{root}");
        }
        assert!(file.contains("<title>A &amp; B</title>"), "{file}");
    }

    /// CSS Values and Units Level 4, 6.2, Absolute Lengths: 1 in = 25.4 mm = 96 px.
    #[test]
    fn readers_convert_100_mm_to_377_9528_pixels() {
        let file = svg(&sheet(vec![circle()])).unwrap();
        let width = testkit::svg_size(&file, 96).unwrap().width;
        assert_near!(width, 377.9528, 1e-3);
    }

    #[test]
    fn circles_stay_circles_and_y_points_down() {
        let file = svg(&sheet(vec![circle()])).unwrap();
        assert!(
            file.contains("<circle cx=\"70\" cy=\"20\" r=\"4\"/>"),
            "{file}"
        );
        assert!(!file.contains("clip-path"), "{file}");
    }

    #[test]
    fn layers_are_groups_in_the_order_of_drawing() {
        let layers = [Layer::Title, Layer::Home, Layer::Edge];
        let shape = circle().shape;
        let items = layers.map(|layer| item(layer, shape.clone())).to_vec();
        let file = svg(&sheet(items)).unwrap();
        let places =
            ["edge", "home", "title"].map(|id| file.find(&format!("<g id=\"{id}\">")).unwrap());
        assert!(places.is_sorted(), "{file}");
        assert!(!file.contains("\"track\""), "{file}");
    }

    #[test]
    fn parts_outside_the_window_are_clipped() {
        let bar = item(
            Layer::Edge,
            Shape::Line(kurbo::Line::new((-50.0, 0.0), (50.0, 0.0))),
        );
        let mut sheet = sheet(vec![bar]);
        sheet.view.window = Rect::new(30.0, 10.0, 60.0, 50.0);
        let file = svg(&sheet).unwrap();
        assert!(
            file.contains("<rect height=\"40\" width=\"30\" x=\"30\" y=\"10\"/>"),
            "{file}"
        );
        let [blob] = svg_raster(&file, 600, &[]).unwrap().blobs()[..] else {
            panic!("{file}")
        };
        assert_near!(blob.width, 30.0, 0.1);
        assert_near!(blob.center, Point::new(45.0, 30.0), 0.05);
    }

    #[test]
    fn arcs_run_clockwise_and_full_turns_are_circles() {
        let arc = |sweep| Arc {
            center: Point::ZERO,
            radius: 10.0,
            start: Angle::ZERO,
            sweep: Angle::degrees(sweep),
        };
        let file = |sweep| svg(&sheet(vec![item(Layer::Edge, Shape::Arc(arc(sweep)))])).unwrap();
        assert!(
            file(90.0).contains("d=\"M50 20A10 10 0 0 1 60 30\""),
            "{}",
            file(90.0)
        );
        assert!(
            file(270.0).contains("d=\"M50 20A10 10 0 1 1 40 30\""),
            "{}",
            file(270.0)
        );
        assert!(
            file(360.0).contains("<circle cx=\"50\" cy=\"30\" r=\"10\"/>"),
            "{}",
            file(360.0)
        );
    }

    #[test]
    fn words_are_escaped_and_rotated() {
        let text = Text {
            turn: Angle::degrees(90.0),
            ..Text::level(Point::ZERO, 4.0, Anchor::Middle, "<a> & \u{7}b")
        };
        let file = svg(&sheet(vec![item(Layer::Names, Shape::Text(text))])).unwrap();
        assert!(file.contains(">&lt;a&gt; &amp; b</text>"), "{file}");
        assert!(file.contains("rotate(-90 50 30)"), "{file}");
        assert!(file.contains("text-anchor=\"middle\""), "{file}");
    }

    #[test]
    fn the_same_sheet_gives_the_same_text() {
        let sheet = sheet(vec![circle()]);
        assert_eq!(svg(&sheet).unwrap(), svg(&sheet).unwrap());
    }

    #[test]
    fn a_part_without_a_finite_position_is_rejected() {
        let nowhere = item(
            Layer::Track,
            Shape::Circle(Circle::new((f64::NAN, 0.0), 4.0)),
        );
        assert!(matches!(
            svg(&sheet(vec![nowhere])),
            Err(Error::NotANumber { .. })
        ));
    }
}
