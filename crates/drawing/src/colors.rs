//! The colors of a board as areas and lines: fields, rings, grooves, bores, marks.
//!
//! They are below the black lines of a plan. Each color is shown as it looks on the wood: dye on walnut is dark on paper too.

use board::{BorePart, Mark, MarkShape, Rgb};
use geometry::{Angle, Circle, Point, point_at};
use kurbo::Vec2;
use workshop::{
    MARK_LINE, PlayerLook, Stroke, Tint, Workpiece, contrast, mark_places, seen_on, tone_of,
};

use crate::{Anchor, Shape, Text};

/// A colored part of the board, in the board frame.
///
/// Lengths are in mm, the origin at the center pin, y up. Colors are sRGB.
#[derive(Debug, Clone, PartialEq)]
pub struct Tinted {
    /// The color as seen on the wood.
    pub color: Rgb,
    /// The part.
    pub shape: Shape,
    /// Width of the line along it, mm; `None` if its inside is filled.
    pub stroke: Option<f64>,
    /// Whether it is within a bore or over one.
    pub in_bore: bool,
}

impl Tinted {
    /// The inside of a shape of the top face.
    const fn inside(color: Rgb, shape: Shape) -> Self {
        Self {
            color,
            shape,
            stroke: None,
            in_bore: false,
        }
    }

    /// A line along a shape of the top face.
    const fn along(color: Rgb, shape: Shape, width: f64) -> Self {
        Self {
            color,
            shape,
            stroke: Some(width),
            in_bore: false,
        }
    }
}

/// Everything that is colored, in drawing order: fields, rings, grooves, bores, marks.
///
/// It is empty if no part of the wood has a color.
///
/// It is empty where no part of the wood has a color.
///
/// ```
/// use board::{Board, Hue};
/// use workshop::Workpiece;
/// let mut board = Board::default();
/// assert!(drawing::tints(&Workpiece::of(&board)?).is_empty());
/// board.colors.home.hue = Hue::Player;
/// // A ring around each hole of the home lanes.
/// assert_eq!(drawing::tints(&Workpiece::of(&board)?).len(), 30);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn tints(workpiece: &Workpiece) -> Vec<Tinted> {
    let mut found = Vec::new();
    if workpiece.board().colors.colors_wood() {
        fields(workpiece, &mut found);
        bores(workpiece, &mut found, false);
        grooves(workpiece, &mut found);
        bores(workpiece, &mut found, true);
        let marks = player_marks(workpiece).into_iter();
        found.extend(marks.flat_map(|mark| [mark.line, mark.inside].concat()));
    }
    found
}

/// A color as seen on the board's wood.
///
/// Stain and dye let the wood show through, paint covers it; the tint includes its medium.
fn seen(workpiece: &Workpiece, tint: Tint) -> Rgb {
    seen_on(tone_of(workpiece.board()), tint)
}

/// The players' fields: sectors of the disc out to the roundover.
///
/// The field of a single player is the whole disc. Roundover and edge stay bare, since a line of color there could not be
/// masked.
fn fields(workpiece: &Workpiece, found: &mut Vec<Tinted>) {
    let players = workpiece.board().players;
    let radius = workpiece.board().blank.flat_radius();
    for (player, sector) in (1..).zip(&workpiece.layout().sectors) {
        let Some(tint) = workpiece.sector_color(player) else {
            continue;
        };
        let color = seen(workpiece, tint);
        if players == 1 {
            let disc = Circle::new(Point::ORIGIN, radius);
            found.push(Tinted::inside(color, Shape::Circle(disc)));
            continue;
        }
        let half = 180.0 / f64::from(players);
        // A chord of two degrees leaves the circle by less than a tenth of a millimeter on any board.
        let steps = (half).ceil() as u32;
        let along = (0..=steps).map(|step| {
            let turned = 2.0 * half * f64::from(step) / f64::from(steps) - half;
            point_at(radius, sector.axis() + Angle::degrees(turned))
        });
        let corners = std::iter::once(Point::ORIGIN).chain(along).collect();
        found.push(Tinted::inside(color, Shape::Area(corners)));
    }
}

/// Rings on the top face around bores, or the colored parts within them.
///
/// `within` selects which: fillings and the insides of bores are over the grooves, rings on the top face below them.
fn bores(workpiece: &Workpiece, found: &mut Vec<Tinted>, within: bool) {
    let ring = workpiece.board().colors.ring;
    for hole in &workpiece.layout().holes {
        let Some(has) = workpiece.color_of(hole.name.id()) else {
            continue;
        };
        let (color, mouth) = (seen(workpiece, has.tint), hole.mouth());
        match (has.on, within) {
            (BorePart::Ring, false) => {
                let middle = Circle::new(mouth.center, mouth.radius + ring / 2.0);
                found.push(Tinted::along(color, Shape::Circle(middle), ring));
            }
            (BorePart::Inside | BorePart::Filling, true) => found.push(Tinted {
                in_bore: true,
                ..Tinted::inside(color, Shape::Circle(mouth))
            }),
            _ => {}
        }
    }
}

/// The grooves at their real width.
///
/// A groove is drawn along its center line with round ends, as its bit leaves them.
fn grooves(workpiece: &Workpiece, found: &mut Vec<Tinted>) {
    let (Some(wanted), Some(plan)) = (workpiece.board().grooves, workpiece.grooves()) else {
        return;
    };
    for groove in &plan.grooves {
        let Some(tint) = workpiece.groove_color(groove.kind, groove.player) else {
            continue;
        };
        let color = seen(workpiece, tint);
        let shapes = groove.path.iter().map(|stroke| match *stroke {
            Stroke::Line(line) => Shape::Line(line),
            Stroke::Circle(circle) => Shape::Circle(circle),
            Stroke::Arc(arc) => Shape::Arc(arc),
        });
        found.extend(shapes.map(|shape| Tinted::along(color, shape, wanted.width)));
    }
}

/// A player's mark on the board, in drawing order.
#[derive(Debug, Clone, PartialEq)]
pub struct PlayerMark {
    /// Its color in the can, and its medium.
    pub tint: Tint,
    /// The line around it, if there is one: a wider mark below it.
    pub line: Vec<Tinted>,
    /// The mark, in its color as seen on the wood.
    pub inside: Vec<Tinted>,
}

/// The players' marks beside their start pockets, as the document plans them.
///
/// ```
/// use board::{Board, MarksMade};
/// use workshop::Workpiece;
/// let mut board = Board::default();
/// assert!(drawing::player_marks(&Workpiece::of(&board)?).is_empty());
/// board.colors.marks = Some(MarksMade::default());
/// assert_eq!(drawing::player_marks(&Workpiece::of(&board)?).len(), 6);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn player_marks(workpiece: &Workpiece) -> Vec<PlayerMark> {
    let Some(made) = workpiece.board().colors.marks else {
        return Vec::new();
    };
    let wood = tone_of(workpiece.board());
    let places = mark_places(workpiece, made.size);
    let placed = workpiece.players().iter().zip(places);
    let mark_of = |(look, place): (&PlayerLook, Option<Point>)| {
        let (radius, line) = (made.size / 2.0, if made.outline { MARK_LINE } else { 0.0 });
        let circle = Circle::new(place?, radius * (1.0 - line));
        let tint = Tint {
            color: look.color,
            medium: made.medium,
        };
        let line = made.outline.then(|| {
            let parts = mark_parts(&look.mark, circle, 2.0 * line * radius);
            in_color(parts, outline_color(wood))
        });
        Some(PlayerMark {
            tint,
            line: line.unwrap_or_default(),
            inside: mark(look, circle, seen(workpiece, tint)),
        })
    };
    placed.filter_map(mark_of).collect()
}

/// The color of the line around marks on a wood: dark, or light where the wood is dark.
fn outline_color(wood: Rgb) -> Rgb {
    if contrast(wood, Rgb::BLACK) > contrast(wood, Rgb::WHITE) {
        Rgb::BLACK
    } else {
        Rgb::WHITE
    }
}

/// A player's mark within a circle, in a color.
///
/// The circle is in the board frame, mm; the mark fills it or stays inside.
pub fn mark(look: &PlayerLook, within: Circle, color: Rgb) -> Vec<Tinted> {
    in_color(mark_parts(&look.mark, within, 0.0), color)
}

/// Shapes with the width of the line along each, in a color.
fn in_color(parts: Vec<(Shape, Option<f64>)>, color: Rgb) -> Vec<Tinted> {
    let part = |(shape, stroke)| Tinted {
        color,
        shape,
        stroke,
        in_bore: false,
    };
    parts.into_iter().map(part).collect()
}

/// The shapes of a mark within a circle, each with the width of the line along it. `wider` is added to the width of every line,
/// mm, and insides get a line of that width around them.
fn mark_parts(mark: &Mark, within: Circle, wider: f64) -> Vec<(Shape, Option<f64>)> {
    let line = 0.22 * within.radius;
    let scaled = |share: f64| Circle::new(within.center, within.radius * share);
    let mut parts = match mark {
        Mark::Auto => Vec::new(),
        Mark::Solid { shape } => vec![(figure(*shape, within), None)],
        Mark::Outlined { shape } => {
            let inset = 1.0 - line / (2.0 * within.radius);
            vec![(figure(*shape, scaled(inset)), Some(line + wider))]
        }
        Mark::Ringed { shape } => {
            let ring = scaled(1.0 - 0.5 * line / within.radius);
            vec![
                (Shape::Circle(ring), Some(0.7 * line + wider)),
                (figure(*shape, scaled(0.6)), None),
            ]
        }
        Mark::Letters { text } => {
            let size = 2.2 * within.radius / (text.chars().count().max(1) as f64 * 0.7).max(1.2);
            let at = within.center - Vec2::new(0.0, 0.36 * size);
            return vec![(
                Shape::Text(Text::level(at, size, Anchor::Middle, text)),
                None,
            )];
        }
    };
    if wider > 0.0 {
        let around: Vec<_> = parts
            .iter()
            .filter(|(_, width)| width.is_none())
            .map(|(shape, _)| (shape.clone(), Some(wider)))
            .collect();
        parts.extend(around);
    }
    parts
}

/// A shape of marks within a circle.
///
/// The first corner of a regular figure points up, to 12 o'clock.
fn figure(shape: MarkShape, within: Circle) -> Shape {
    let at = |radius: f64, bearing: f64| {
        within.center + point_at(within.radius * radius, Angle::degrees(bearing)).to_vec2()
    };
    let regular = |count: u32, first: f64| {
        let turn = 360.0 / f64::from(count);
        (0..count)
            .map(|corner| at(1.0, first + turn * f64::from(corner)))
            .collect()
    };
    let on = |corners: &[(f64, f64)]| {
        let place = |(x, y): &(f64, f64)| within.center + Vec2::new(*x, *y) * within.radius;
        corners.iter().map(place).collect()
    };
    Shape::Area(match shape {
        MarkShape::Dot => return Shape::Circle(within),
        MarkShape::Triangle => regular(3, 0.0),
        MarkShape::Square => regular(4, 45.0),
        MarkShape::Star => (0..10)
            .map(|corner| {
                at(
                    if corner % 2 == 0 { 1.0 } else { 0.42 },
                    36.0 * f64::from(corner),
                )
            })
            .collect(),
        MarkShape::Cross => on(&CROSS),
        MarkShape::Bar => on(&[(-0.95, -0.28), (0.95, -0.28), (0.95, 0.28), (-0.95, 0.28)]),
        MarkShape::Lozenge => on(&[(0.0, -1.0), (0.45, 0.0), (0.0, 1.0), (-0.45, 0.0)]),
        MarkShape::HalfMoon => (0..=24)
            .map(|step| at(1.0, 7.5 * f64::from(step)))
            .collect(),
    })
}

/// Corners of a cross within a circle of radius 1.
const CROSS: [(f64, f64); 12] = [
    (-0.28, -0.95),
    (0.28, -0.95),
    (0.28, -0.28),
    (0.95, -0.28),
    (0.95, 0.28),
    (0.28, 0.28),
    (0.28, 0.95),
    (-0.28, 0.95),
    (-0.28, 0.28),
    (-0.95, 0.28),
    (-0.95, -0.28),
    (-0.28, -0.28),
];

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Hue, MarksMade};

    #[test]
    fn every_mark_keeps_within_its_circle_and_has_something_to_see() {
        let board = Board::default();
        let circle = Circle::new((50.0, -20.0), 5.0);
        for player in 1..=24 {
            let look = workshop::player_look(&board, player);
            let parts = mark(&look, circle, look.color);
            assert!(!parts.is_empty());
            for part in parts {
                let half = part.stroke.unwrap_or_default() / 2.0;
                let bounds = part.shape.bounds().inflate(half, half);
                let box_of = kurbo::Rect::from_center_size(circle.center, (10.8, 10.8));
                assert!(box_of.contains_rect(bounds), "player {player}: {bounds:?}");
            }
        }
    }

    #[test]
    fn the_line_around_a_mark_shows_and_keeps_within_its_circle() {
        let mut board = Board {
            players: 16,
            ..Board::default()
        };
        board.colors.marks = Some(MarksMade {
            outline: true,
            ..MarksMade::default()
        });
        let workpiece = Workpiece::of(&board).unwrap();
        let marks = player_marks(&workpiece);
        assert!(!marks.is_empty());
        for mark in marks {
            let reach = |parts: &[Tinted]| {
                let each = parts.iter().map(|part| {
                    let half = part.stroke.unwrap_or_default() / 2.0;
                    part.shape.bounds().inflate(half, half)
                });
                each.reduce(|one, other| one.union(other)).unwrap()
            };
            let (line, inside) = (reach(&mark.line), reach(&mark.inside));
            assert!(line.width() > inside.width() + 1.0 && line.height() > inside.height() + 1.0);
            assert!(line.width().max(line.height()) < 10.8, "{line:?}");
        }
    }

    #[test]
    fn colored_parts_are_drawn_in_their_places() {
        let mut board = Board::default();
        board.colors.sectors.hue = Hue::Player;
        board.colors.track.hue = Hue::One { color: Rgb::BLACK };
        board.colors.track.on = BorePart::Inside;
        board.colors.marks = Some(MarksMade::default());
        let workpiece = Workpiece::of(&board).unwrap();
        let all = tints(&workpiece);
        let within = all.iter().filter(|tint| tint.in_bore).count();
        assert_eq!(within, 96);
        // Six fields are below everything.
        assert!(
            all[..6]
                .iter()
                .all(|tint| matches!(tint.shape, Shape::Area(_)))
        );
        assert!(all.len() >= 6 + 96 + 6);
    }
}
