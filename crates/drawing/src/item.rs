//! The parts of a drawing.
//!
//! An item states three things: the part of the board it belongs to ([`Layer`], which a drawing program can hide), the purpose
//! of the line ([`Line`], from which a writer decides how to draw it), and its geometry ([`Shape`]). There are no colors, no
//! fills except one gray, and no groups: a writer either sorts items by layer or keeps their order, in which later ones cover
//! earlier ones.

use geometry::{Angle, Arc};
use kurbo::{Circle, Point, Rect, Vec2};

use crate::font::{self, Weight};

/// One stroke or one piece of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// The layer it belongs to.
    pub layer: Layer,
    /// The purpose of the line.
    pub line: Line,
    /// Its geometry or text.
    pub shape: Shape,
}

impl Item {
    /// A part of the words and rules of a sheet, on the layer [`Layer::Title`] and in the frame of that sheet.
    ///
    /// ```
    /// use drawing::{Anchor, Item, Layer, Line, Shape, Text};
    /// use geometry::Point;
    /// let words = Text::level(Point::new(10.0, 10.0), 3.0, Anchor::Start, "Quote");
    /// let item = Item::of_title(Line::Dimension, Shape::Text(words));
    /// assert_eq!(item.layer, Layer::Title);
    /// ```
    pub const fn of_title(line: Line, shape: Shape) -> Self {
        Self {
            layer: Layer::Title,
            line,
            shape,
        }
    }

    /// The item moved by a vector, mm.
    ///
    /// ```
    /// use drawing::{Item, Layer, Line, Shape};
    /// use geometry::{Circle, Vec2};
    /// let bore = |x| Item {
    ///     layer: Layer::Track,
    ///     line: Line::Drill,
    ///     shape: Shape::Circle(Circle::new((x, 0.0), 6.0)),
    /// };
    /// assert_eq!(bore(10.0).moved(Vec2::new(5.0, 0.0)), bore(15.0));
    /// ```
    #[must_use]
    pub fn moved(self, by: Vec2) -> Self {
        let shape = match self.shape {
            Shape::Circle(circle) => Shape::Circle(circle + by),
            Shape::Arc(arc) => Shape::Arc(arc + by),
            Shape::Line(line) => Shape::Line(line + by),
            Shape::Cross { center, arm } => Shape::Cross {
                center: center + by,
                arm,
            },
            Shape::Area(corners) => {
                Shape::Area(corners.into_iter().map(|corner| corner + by).collect())
            }
            Shape::Text(mut text) => {
                text.at += by;
                Shape::Text(text)
            }
        };
        Self { shape, ..self }
    }
}

/// The layer of an item; each format has a layer or group for each.
///
/// A layer is what someone may want to hide, or to send to another tool: a laser cutter gets the edge and the bores, a pen
/// plotter everything. So holes are separated by role, and words by whether they are about the board or about the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// The board's edge, and its roundover.
    Edge,
    /// Seams, and mortises and screws hidden in the wood.
    Seams,
    /// The middles of V-grooves.
    Grooves,
    /// The center lines of V-grooves.
    Guides,
    /// Track spaces.
    Track,
    /// Home lanes.
    Home,
    /// Start pockets.
    Start,
    /// Holes added by hand.
    Extra,
    /// The center pin, or the center hole with its pilot.
    Center,
    /// Names of holes.
    Names,
    /// Joint crosses, bars, key map, labels of a sheet.
    Marks,
    /// The title block.
    Title,
}

impl Layer {
    /// Every layer, in the order in which they are drawn.
    pub const ALL: [Self; 12] = [
        Self::Edge,
        Self::Seams,
        Self::Grooves,
        Self::Guides,
        Self::Track,
        Self::Home,
        Self::Start,
        Self::Extra,
        Self::Center,
        Self::Names,
        Self::Marks,
        Self::Title,
    ];

    /// The name of the layer in files: lower case, no spaces.
    ///
    /// ```
    /// use drawing::Layer;
    /// assert_eq!(Layer::ALL.map(Layer::id)[4], "track");
    /// ```
    pub const fn id(self) -> &'static str {
        match self {
            Self::Edge => "edge",
            Self::Seams => "seams",
            Self::Grooves => "grooves",
            Self::Guides => "guides",
            Self::Track => "track",
            Self::Home => "home",
            Self::Start => "start",
            Self::Extra => "extra",
            Self::Center => "center",
            Self::Names => "names",
            Self::Marks => "marks",
            Self::Title => "title",
        }
    }
}

/// The purpose of a line, from which a writer chooses its width and dashes, and a screen its color.
///
/// The purpose matters more than the part of the board: the edge is cut along on a template, but only guides the eye on a
/// router template.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Line {
    /// A line to saw or route along.
    Cut,
    /// A line to drill by: the outline or the cross of a bore.
    Drill,
    /// A line to groove along: the center line of a V-groove.
    Groove,
    /// Parts hidden in the wood: seams, mortises, screws from below.
    Hidden,
    /// A line for orientation: axes, radius circles, joint lines.
    Guide,
    /// Dimension lines, bars, frames and all text.
    Dimension,
}

impl Line {
    /// Stroke width on paper, in mm. Thin enough to set a bradawl or a drill point by.
    pub const fn width(self) -> f64 {
        match self {
            Self::Cut => 0.25,
            Self::Groove => 0.18,
            Self::Drill | Self::Hidden | Self::Dimension => 0.13,
            Self::Guide => 0.09,
        }
    }

    /// Lengths of dash and gap, mm; empty for a solid line.
    ///
    /// ```
    /// use drawing::Line;
    /// assert!(Line::Cut.dashes().is_empty() && !Line::Hidden.dashes().is_empty());
    /// assert!(Line::Guide.width() < Line::Drill.width() && Line::Drill.width() < Line::Cut.width());
    /// ```
    pub const fn dashes(self) -> &'static [f64] {
        match self {
            Self::Hidden => &[2.0, 1.0],
            Self::Guide => &[4.0, 1.0, 0.6, 1.0],
            Self::Cut | Self::Groove | Self::Drill | Self::Dimension => &[],
        }
    }
}

/// The geometry of an item, in mm. A circle stays a circle up to the last writer whose format has circles.
///
/// The only curves are circles and arcs, since nothing on a board has others: it is drilled, turned, sawn and routed. Words
/// stay words, so that they can be searched in a PDF and edited in a drawing program.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A full circle.
    Circle(Circle),
    /// Part of a circle; its direction does not show.
    Arc(Arc),
    /// A straight line.
    Line(kurbo::Line),
    /// Two lines that cross at a point, each `arm` to either side of it.
    Cross {
        /// Where they cross.
        center: Point,
        /// Half the length of each line.
        arm: f64,
    },
    /// An area filled with light gray, bounded by straight lines.
    Area(Vec<Point>),
    /// Words.
    Text(Text),
}

/// A line of words.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// The anchor point, on the baseline.
    pub at: Point,
    /// Size of the type (its em), mm; digits are 0.73 of it high.
    pub size: f64,
    /// The part of the words that is at `at`.
    pub anchor: Anchor,
    /// The direction of the words, counterclockwise from left-to-right.
    pub turn: Angle,
    /// The weight of the letters.
    pub weight: Weight,
    /// The words.
    pub words: String,
}

/// The part of a line of words that is held in place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// The start of the first letter.
    Start,
    /// The middle.
    Middle,
    /// The end of the last letter.
    End,
}

impl Text {
    /// Level words of regular weight.
    pub fn level(at: Point, size: f64, anchor: Anchor, words: impl Into<String>) -> Self {
        Self {
            at,
            size,
            anchor,
            turn: Angle::ZERO,
            weight: Weight::Regular,
            words: words.into(),
        }
    }

    /// The same words in another weight.
    ///
    /// ```
    /// use drawing::font::Weight;
    /// use drawing::{Anchor, Text};
    /// use geometry::Point;
    /// let words = Text::level(Point::ORIGIN, 4.0, Anchor::Start, "Total").weighing(Weight::SemiBold);
    /// assert_eq!(words.weight, Weight::SemiBold);
    /// ```
    #[must_use]
    pub fn weighing(mut self, weight: Weight) -> Self {
        self.weight = weight;
        self
    }

    /// The start of the first letter, on the baseline.
    ///
    /// ```
    /// use drawing::{Anchor, Text, font};
    /// use geometry::{Angle, Point};
    /// let words = Text::level(Point::new(100.0, 20.0), 4.0, Anchor::End, "6 players");
    /// let width = font::width("6 players", 4.0, font::Weight::Regular);
    /// assert_eq!(words.start(), Point::new(100.0 - width, 20.0));
    /// let upright = Text { turn: Angle::degrees(90.0), ..words };
    /// assert!((upright.start().y - (20.0 - width)).abs() < 1e-9);
    /// ```
    pub fn start(&self) -> Point {
        let width = font::width(&self.words, self.size, self.weight);
        let back = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => width / 2.0,
            Anchor::End => width,
        };
        self.at - self.along() * back
    }

    /// The direction of the words, as a unit vector.
    pub fn along(&self) -> Vec2 {
        Vec2::new(self.turn.cos(), self.turn.sin())
    }

    /// A box around the words: from the baseline up to the height of digits, with room for descenders below.
    pub fn bounds(&self) -> Rect {
        let width = font::width(&self.words, self.size, self.weight);
        let (start, along) = (self.start(), self.along());
        let up = Vec2::new(-along.y, along.x);
        let (low, high) = (
            up * (-font::tail(&self.words) * self.size),
            up * (font::FIGURE_HEIGHT * self.size),
        );
        let end = start + along * width;
        Rect::from_points(start + low, end + high).union(Rect::from_points(start + high, end + low))
    }
}

impl Shape {
    /// A box around the shape, without the width of its line.
    ///
    /// ```
    /// use drawing::Shape;
    /// use geometry::Point;
    /// let cross = Shape::Cross { center: Point::new(3.0, 4.0), arm: 2.0 };
    /// assert_eq!(cross.bounds(), kurbo::Rect::new(1.0, 2.0, 5.0, 6.0));
    /// ```
    pub fn bounds(&self) -> Rect {
        match self {
            Self::Circle(circle) => disc_bounds(circle.center, circle.radius),
            Self::Arc(arc) => arc.bounds(),
            Self::Line(line) => Rect::from_points(line.p0, line.p1),
            Self::Cross { center, arm } => disc_bounds(*center, *arm),
            Self::Area(corners) => corners_bounds(corners),
            Self::Text(text) => text.bounds(),
        }
    }
}

/// The square around a circle, or around a cross with arms as long as its radius.
fn disc_bounds(center: Point, radius: f64) -> Rect {
    Rect::from_center_size(center, (2.0 * radius, 2.0 * radius))
}

/// The box around corners; for none, the empty box at the origin.
fn corners_bounds(corners: &[Point]) -> Rect {
    let Some(&first) = corners.first() else {
        return Rect::ZERO;
    };
    corners
        .iter()
        .fold(Rect::from_points(first, first), |all, &corner| {
            all.union_pt(corner)
        })
}

/// The corners of a box, counterclockwise from the lower left.
pub(crate) fn corners_of(area: Rect) -> [Point; 4] {
    let Rect { x0, y0, x1, y1 } = area;
    [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(Point::from)
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn turned_words_keep_their_anchor() {
        let mut text = Text::level(Point::new(10.0, 20.0), 4.0, Anchor::Middle, "T3-07");
        let level = text.bounds();
        assert_near!(level.center().x, 10.0, 1e-9);
        text.turn = Angle::degrees(90.0);
        let upright = text.bounds();
        assert_near!(upright.center().y, 20.0, 1e-9);
        assert_near!(upright.height(), level.width(), 1e-9);
    }

    #[test]
    fn every_layer_has_its_own_id() {
        let ids: std::collections::BTreeSet<_> =
            Layer::ALL.iter().map(|layer| layer.id()).collect();
        assert_eq!(ids.len(), Layer::ALL.len());
    }
}
