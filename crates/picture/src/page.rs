//! The proof as a page: the picture of the board with a margin, its title, the facts a customer asks about first, and a hand
//! beside it.
//!
//! Positions are in pixels from the upper left corner, y down, as in picture files.
//!
//! From above, the board is as wide as the page allows, with words at the left and a hand at the right below it, to the scale
//! of the board. Where the board is so small that a hand would need more room than there is, a ruler takes its place; the size
//! is given in words as well. A picture in perspective has no single scale, so there a ruler lies on the table in front of the
//! board.

use board::{Units, capital, several};
use drawing::font::{self, Weight};
use drawing::{Anchor, Item, Layer, Shape, Sheet, Text};
use kurbo::{Point, Rect, Size, Vec2};
use workshop::{Species, Workpiece, species, topcoat};

use crate::hand;
use crate::ruler::Ruler;
use crate::scene::heights;
use crate::space::Space;
use crate::view::{Area, Camera, View};

/// A page as data, before it is drawn in pixels.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Width, pixels.
    pub width: u32,
    /// Height, pixels.
    pub height: u32,
    /// The area of the board.
    pub board: Area,
    /// The words on it.
    pub lines: Vec<Line>,
    /// The hand beside the board, if there is one.
    pub hand: Option<Hand>,
    /// The ruler beside the board, if there is no hand.
    pub ruler: Option<Ruler>,
}

/// A line of words.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// The words themselves.
    pub words: String,
    /// The left end.
    pub x: f64,
    /// The baseline.
    pub y: f64,
    /// The size of the type.
    pub size: f64,
    /// The weight.
    pub weight: Weight,
    /// The color, sRGB.
    pub color: [u8; 3],
}

/// A hand that reaches in from the right, its fingers to the left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hand {
    /// The start of its wrist.
    pub x: f64,
    /// Its center line.
    pub y: f64,
    /// Pixels per mm.
    pub scale: f64,
}

/// The ink of the title, and of the lines below it; both have a contrast of at least 4.5 to 1 on the background.
const INK: ([u8; 3], [u8; 3]) = ([0x26, 0x22, 0x1e], [0x57, 0x50, 0x48]);
/// Margin, as a share of the shorter side.
const MARGIN: f64 = 0.065;

impl Page {
    /// The page of a workpiece, with its longer side in pixels.
    ///
    /// Formats that have text of their own (PDF, SVG) take the words from here and the picture without them, so that the title
    /// can be searched for and read aloud.
    ///
    /// ```
    /// use picture::{Page, View};
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// let page = Page::of(&workpiece, View::Above, 1000);
    /// assert_eq!((page.width, page.height), (800, 1000));
    /// assert_eq!(page.lines[0].words, "Untitled board");
    /// // The board is to one scale, and so is the hand.
    /// assert_eq!(page.hand.unwrap().scale, page.board.width / 640.0);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn of(workpiece: &Workpiece, view: View, longest: u32) -> Self {
        let long = f64::from(longest);
        let (width, height) = match view {
            View::Above => (0.8 * long, long),
            View::Perspective { .. } => (long, 0.8 * long),
        };
        let short = width.min(height);
        let margin = MARGIN * short;
        let board = match view {
            View::Above => Area {
                x: margin,
                y: margin,
                width: width - 2.0 * margin,
                height: width - 2.0 * margin,
            },
            View::Perspective { .. } => Area {
                x: margin,
                y: margin,
                width: width - 2.0 * margin,
                height: height * 0.74 - margin,
            },
        };
        let scale = board.width / workpiece.board().blank.diameter;
        let foot = board.y + board.height + 0.9 * margin;
        let room = height - margin * 0.8 - foot;
        let hand = (view == View::Above)
            .then(|| Hand::beside((width, foot + room / 2.0), room, scale))
            .flatten();
        let ruler = match view {
            View::Above if hand.is_some() => None,
            View::Above => {
                let corner = (width - margin, foot + room / 2.0);
                let most = 0.4 * width / scale;
                Some(flat_ruler(workpiece.units(), corner, scale, most))
            }
            View::Perspective { .. } => {
                let corner = (board.x, board.y + board.height + 0.1 * margin);
                standing_ruler(workpiece, (view, board), corner)
            }
        };
        let taken = match (&hand, &ruler) {
            (Some(hand), _) => width - hand.x + hand::LENGTH * hand.scale,
            (None, Some(ruler)) if view == View::Above => width - ruler.bounds()[0],
            _ => 0.0,
        };
        let words = (width - margin - taken - 0.02 * short).max(0.3 * width);
        Self {
            width: width.round() as u32,
            height: height.round() as u32,
            board,
            lines: lines(
                &workpiece.board().title,
                shown_facts(workpiece, view, (hand.is_some(), ruler.as_ref())),
                (margin, foot),
                words - margin,
                short,
            ),
            hand,
            ruler,
        }
    }
}

impl Page {
    /// The words of the page as a sheet of paper with room for the picture, and the area of the picture, in mm from the lower
    /// left corner of the paper.
    ///
    /// The picture is as large as the margin allows, centered horizontally and at the top of the paper.
    ///
    /// ```
    /// use kurbo::Size;
    /// use picture::{Page, View};
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// let page = Page::of(&workpiece, View::Above, 2000);
    /// let (sheet, area) = page.on_paper(Size::new(210.0, 297.0), 10.0);
    /// assert_eq!(sheet.size.width, 210.0);
    /// assert!((area.width() - 190.0).abs() < 1e-9 && (area.y1 - 287.0).abs() < 1e-9);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn on_paper(&self, paper: Size, margin: f64) -> (Sheet, Rect) {
        let (width, height) = (f64::from(self.width), f64::from(self.height));
        let room = (paper.width - 2.0 * margin, paper.height - 2.0 * margin);
        let scale = (room.0 / width).min(room.1 / height).max(1e-6);
        let left = (paper.width - width * scale) / 2.0;
        let top = paper.height - margin;
        let area = Rect::new(left, top - height * scale, left + width * scale, top);
        let item = |line: &Line| {
            let at = Point::new(left + line.x * scale, top - line.y * scale);
            let mut text = Text::level(at, line.size * scale, Anchor::Start, line.words.as_str());
            text.weight = line.weight;
            Item {
                layer: Layer::Title,
                line: drawing::Line::Dimension,
                shape: Shape::Text(text),
            }
        };
        let sheet = Sheet {
            size: paper,
            label: "proof".into(),
            view: drawing::View {
                window: paper.to_rect(),
                page_from_board: Vec2::ZERO,
                tints: Vec::new(),
                items: Vec::new(),
            },
            marks: self.lines.iter().map(item).collect(),
            correction: None,
        };
        (sheet, area)
    }
}

impl Hand {
    /// A hand at the right edge, if there is room for it and it leaves half the width to the words.
    fn beside((width, middle): (f64, f64), room: f64, scale: f64) -> Option<Self> {
        let (long, wide) = (hand::LENGTH * scale, hand::WIDTH * scale);
        let hand = Self {
            x: width - 12.0 * scale,
            y: middle + 0.1 * wide,
            scale,
        };
        (long < 0.5 * width && wide < 1.15 * room).then_some(hand)
    }

    /// The share of a pixel that it covers, 0 to 1, by the center of the pixel.
    pub fn covers(&self, x: f64, y: f64) -> f64 {
        let off = hand::off((self.x - x) / self.scale, (self.y - y) / self.scale);
        (0.5 - off * self.scale).clamp(0.0, 1.0)
    }

    /// Its left, upper, right and lower edge.
    pub fn bounds(&self) -> [f64; 4] {
        let (long, half) = (
            (hand::LENGTH + 4.0) * self.scale,
            0.7 * hand::WIDTH * self.scale,
        );
        [
            self.x - long,
            self.y - half,
            self.x + 60.0 * self.scale,
            self.y + half,
        ]
    }
}

/// The facts of the page, with the length of the hand or the ruler on it.
fn shown_facts(workpiece: &Workpiece, view: View, beside: (bool, Option<&Ruler>)) -> Vec<String> {
    let mut facts = facts(workpiece);
    let long = |mm: f64| workpiece.length(mm);
    match beside {
        (true, _) => facts.push(format!("The hand is {} long.", long(hand::LENGTH))),
        (false, Some(ruler)) if view == View::Above => {
            facts.push(format!("The ruler is {} long.", long(ruler.long)));
        }
        // A landscape page has no room for another line.
        (false, Some(ruler)) => {
            if let Some(size) = facts.first_mut() {
                *size = format!("{size} (the ruler is {} long)", long(ruler.long));
            }
        }
        (false, None) => {}
    }
    facts
}

/// A ruler on the page, to the scale of the board in pixels per millimeter and at most `most` mm long; `right` and `middle` are
/// the position of its right end, in pixels.
pub fn flat_ruler(units: Units, (right, middle): (f64, f64), scale: f64, most: f64) -> Ruler {
    let kind = Ruler::kind(units, most);
    let (left, low) = (
        right - kind.0 * scale,
        middle + Ruler::wide(kind.0) * scale / 2.0,
    );
    Ruler::laid(kind, |x, y| (left + x * scale, low - y * scale))
}

/// A ruler that lies on the table in front of the board, as far away as the board's nearest edge; given its lower left corner
/// in the picture.
pub fn standing_ruler(
    workpiece: &Workpiece,
    (view, area): (View, Area),
    (x, y): (f64, f64),
) -> Option<Ruler> {
    let radius = workpiece.board().blank.radius();
    let heights = heights(workpiece);
    let camera = Camera::fitted(view, radius, heights, area);
    let ray = camera.ray(x, y, heights.1 + 100.0);
    let corner = ray.at(ray.to_level(heights.0)?);
    let (right, up) = camera.sides();
    let away = Space::new(up.x, up.y, 0.0).unit();
    let kind = Ruler::kind(workpiece.units(), 0.4 * radius);
    Some(Ruler::laid(kind, |x, y| {
        camera.pixel_of(corner + right * x + away * y)
    }))
}

/// Title and facts, from a position downward, in this width.
fn lines(name: &str, facts: Vec<String>, (x, top): (f64, f64), room: f64, short: f64) -> Vec<Line> {
    let (title, plain) = (0.042 * short, 0.0205 * short);
    let long = font::width(name, 1.0, Weight::SemiBold).max(0.1);
    let title = title.min(room / long).max(0.6 * title);
    let mut lines = vec![Line {
        words: font::cut(name, title, Weight::SemiBold, room),
        x,
        y: top + title,
        size: title,
        weight: Weight::SemiBold,
        color: INK.0,
    }];
    lines.extend((0..).zip(facts).map(|(at, words)| Line {
        words: font::cut(&words, plain, Weight::Regular, room),
        x,
        y: top + title + plain * (2.0 + 1.5 * f64::from(at)),
        size: plain,
        weight: Weight::Regular,
        color: INK.1,
    }));
    lines
}

/// The facts a customer asks for first: size, players, wood and finish, pieces.
///
/// ```
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// let facts = picture::facts(&workpiece);
/// assert!(facts[0].contains("640 mm across"));
/// // The page claims nothing about wood that is not chosen.
/// assert!(facts[1].contains("no wood chosen"));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn facts(workpiece: &Workpiece) -> Vec<String> {
    let board = workpiece.board();
    let size = format!(
        "{} across, {} thick",
        workpiece.length(board.blank.diameter),
        workpiece.length(board.blank.thickness)
    );
    // With the hole at the center, as on every other sheet.
    let holes = workpiece.layout().holes.len();
    let players = several(board.players as usize, "player");
    let pieces = format!(
        "{}, {}",
        board.piece.kind.label(),
        workpiece.length(board.piece.diameter)
    );
    vec![
        size,
        wood(workpiece),
        format!("{players}, {}", several(holes, "hole")),
        format!("For {pieces} across"),
    ]
}

/// Wood and finish in words.
fn wood(workpiece: &Workpiece) -> String {
    let board = workpiece.board();
    let Some(wood) = &board.wood else {
        return "Plain pale wood shown: no wood chosen yet".into();
    };
    let known = species().iter().find(|known| known.id == wood.species);
    let name = known.map_or_else(|| wood.species.replace('-', " "), Species::spoken);
    let mut words = capital(&name);
    if let Some(top) = topcoat(board) {
        words = format!("{words}, {}", top.label());
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Wood};

    fn page(board: &Board, view: View) -> Page {
        Page::of(&Workpiece::of(board).unwrap(), view, 2000)
    }

    #[test]
    fn words_stay_inside_the_page_and_below_the_board() {
        for diameter in [250.0, 560.0, 1100.0] {
            for view in [View::Above, View::PERSPECTIVE] {
                let mut board = Board::default();
                board.blank.diameter = diameter;
                board.title = "A board for the long table in the kitchen of a large family".into();
                let page = page(&board, view);
                for line in &page.lines {
                    let end = line.x + font::width(&line.words, line.size, line.weight);
                    assert!(end < f64::from(page.width), "{}", line.words);
                    assert!(
                        line.y + line.size * 0.3 < f64::from(page.height),
                        "{}",
                        line.words
                    );
                    assert!(line.y - line.size > page.board.y + page.board.height);
                    let hand = page.hand.map(|hand| hand.bounds()[0]);
                    assert!(hand.is_none_or(|left| end < left), "{}", line.words);
                }
            }
        }
    }

    #[test]
    fn wood_has_its_spoken_name() {
        let board = Board {
            wood: Some(Wood::default()),
            ..Board::default()
        };
        let page = page(&board, View::Above);
        assert!(page.lines.iter().any(|line| line.words == "Black walnut"));
        assert_eq!(page.lines[0].words, "Untitled board");
    }

    /// The customer reads the number that job sheet, plan and window have.
    #[test]
    fn the_hole_at_the_center_counts() {
        let page = page(&Board::default(), View::Above);
        let told = page.lines.iter().map(|line| line.words.as_str());
        assert!(
            told.clone().any(|words| words == "6 players, 145 holes"),
            "{:?}",
            told.collect::<Vec<_>>()
        );
    }

    /// From above it has the scale of the board; in perspective it lies as far away as the nearest edge of the board.
    #[test]
    fn a_ruler_replaces_the_hand_and_keeps_clear_of_board_and_words() {
        for diameter in [100.0, 250.0, 300.0, 560.0, 1100.0] {
            for (units, view) in [(Units::Mm, View::Above), (Units::INCH, View::PERSPECTIVE)] {
                let mut board = Board {
                    units,
                    ..Board::default()
                };
                board.blank.diameter = diameter;
                let page = page(&board, view);
                let Some(ruler) = &page.ruler else {
                    assert!(page.hand.is_some());
                    continue;
                };
                assert!(page.hand.is_none());
                let [left, top, right, bottom] = ruler.bounds();
                assert!(left > 0.0 && right < f64::from(page.width));
                if view == View::Above {
                    let scale = page.board.width / diameter;
                    assert!((right - left - ruler.long * scale).abs() < 1e-6);
                    assert!(top > page.board.y + page.board.height);
                } else {
                    let title = &page.lines[0];
                    assert!(bottom < title.y - title.size, "{bottom}");
                }
                let told = format!("he ruler is {} long", workpiece_length(&board, ruler.long));
                assert!(page.lines.iter().any(|line| line.words.contains(&told)));
            }
        }
    }

    fn workpiece_length(board: &Board, mm: f64) -> String {
        Workpiece::of(board).unwrap().length(mm)
    }

    #[test]
    fn the_hand_has_the_scale_of_the_board() {
        let page = page(&Board::default(), View::Above);
        let hand = page.hand.unwrap();
        assert!((hand.scale - page.board.width / 640.0).abs() < 1e-9);
    }
}
