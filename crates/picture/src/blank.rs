//! The wood of the blank, as a background for the drawing of the parts sawn from it.
//!
//! The board in the plan and in the proof shows the wood that is under it here, and its figure continues around it over the
//! whole blank. One of two bookmatched leaves has the wood of one half. Strips, which may come from anywhere, have the figure
//! that they have in the board, and the rest of the blank is a log of its own.

use board::{Build, Rgb};
use geometry::{Side, StripPlace};
use kurbo::{Point, Rect, Vec2};
use workshop::Workpiece;

use crate::face::{Ground, paint};
use crate::grain::Grain;
use crate::noise::Noise;
use crate::proof::Picture;
use crate::space::Space;
use crate::tone::Tone;

/// Number of pixels in a picture of a blank.
const PIXELS: f64 = 640_000.0;
/// The most pixels along one side.
const LONGEST: f64 = 2048.0;

/// The inputs of the wood figure of a blank; two equal values give the same picture.
#[derive(Debug, Clone, PartialEq)]
pub struct BlankWood {
    grain: Grain,
    bounds: Rect,
    sawn: Sawn,
}

/// The conversion from a point on the blank to the same wood in the board.
#[derive(Debug, Clone, PartialEq)]
enum Sawn {
    /// A board with its center pin at a point.
    Board(Point),
    /// Half a board with the midpoint of its straight side at a point, on one side of it.
    Half(Point, Side),
    /// Strips, each with the vector from its place to the board, and the log around them.
    Strips(Vec<(Rect, Vec2)>),
}

impl BlankWood {
    /// The wood of the blank of a workpiece; `None` if no wood is chosen, or the outline of the blank is unknown or invalid.
    ///
    /// ```
    /// use board::{Board, StockOutline, Wood};
    /// use picture::BlankWood;
    /// use workshop::Workpiece;
    /// let mut board = Board { wood: Some(Wood::default()), ..Board::default() };
    /// assert!(BlankWood::of(&Workpiece::of(&board)?).is_none());
    /// let (lower, upper) = (vec![], vec![]);
    /// board.stock.outline = StockOutline::Slab { length: 900.0, width: 600.0, lower, upper };
    /// let wood = BlankWood::of(&Workpiece::of(&board)?).unwrap();
    /// assert_eq!((wood.bounds().width(), wood.bounds().height()), (900.0, 600.0));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn of(workpiece: &Workpiece) -> Option<Self> {
        workpiece.board().wood.as_ref()?;
        let slab = workpiece.stock()?.slab.as_ref().ok()?;
        let corners = slab.outline.corners();
        let first = *corners.first()?;
        let bounds = corners
            .iter()
            .fold(Rect::from_points(first, first), |all, corner| {
                all.union_pt(*corner)
            });
        let grain = Grain::of(workpiece);
        let sawn = Sawn::of(workpiece);
        Some(Self {
            grain: match sawn {
                Sawn::Strips(_) => grain.with_log(workpiece, bounds.y0, bounds.y1),
                Sawn::Board(_) | Sawn::Half(..) => grain,
            },
            bounds,
            sawn,
        })
    }

    /// The box around the blank, which a picture of it fills, mm.
    pub const fn bounds(&self) -> Rect {
        self.bounds
    }

    /// The wood in the box around the blank, as bright as a background color; the upper edge of the picture is the blank's.
    pub fn picture(&self, ground: Rgb) -> Picture {
        let (width, height) = (self.bounds.width(), self.bounds.height());
        let step = libm::sqrt(width * height / PIXELS).max(width.max(height) / LONGEST);
        let pixels = |length: f64| (length / step.max(1e-6)).clamp(1.0, LONGEST) as u32;
        let (ground, noise) = (Ground::of(ground, &self.grain), Noise::default());
        paint(
            self.bounds,
            (pixels(width), pixels(height)),
            &ground,
            |at, step| self.tone(at, step, &noise),
        )
    }

    fn tone(&self, at: Point, pixel: f32, noise: &Noise) -> Tone {
        let face = |at: Point| Space::new(at.x, at.y, 0.0);
        let of_strip = |strip, at| self.grain.of_strip(strip, face(at), pixel, noise).0;
        match &self.sawn {
            Sawn::Board(pin) => self.grain.at(face((at - *pin).to_point()), pixel, noise),
            Sawn::Half(seam, side) => {
                let from = at - *seam;
                let away = match side {
                    Side::Above => from.y,
                    Side::Below => -from.y,
                };
                of_strip(1, Point::new(from.x, away))
            }
            Sawn::Strips(strips) => {
                let here = strips.iter().position(|(part, _)| part.contains(at));
                match here.and_then(|strip| Some((strip, strips.get(strip)?.1))) {
                    Some((strip, way)) => of_strip(strip, at + way),
                    None => of_strip(strips.len(), at),
                }
            }
        }
    }
}

impl Sawn {
    fn of(workpiece: &Workpiece) -> Self {
        let board = workpiece.board();
        let joined = workpiece.joined();
        let pin = workpiece.stock().and_then(|plan| plan.center(board));
        let half = joined.and_then(|joined| joined.half.as_ref());
        match board.panel.build {
            Build::Halves => half.map(|half| Self::Half(half.center, half.side)),
            Build::Strips { count } => {
                let places = joined.and_then(|joined| joined.places.as_deref());
                let width = workshop::piece_width(board).unwrap_or_default();
                Some(Self::strips(places.unwrap_or_default(), count, width))
            }
            Build::Whole | Build::Seams { .. } => pin.map(Self::Board),
        }
        .unwrap_or(Self::Board(Point::ORIGIN))
    }

    /// The strips of a board, each of this width in mm, the lowest first; those without a place have no wood on the blank.
    fn strips(places: &[StripPlace], count: u32, width: f64) -> Self {
        let mut strips = vec![(Rect::ZERO, Vec2::ZERO); count as usize];
        for place in places {
            let part = Rect::from_origin_size(place.corner, (place.size.length, place.size.width));
            let height = (place.strip as f64 - (f64::from(count) - 1.0) / 2.0) * width;
            if let Some(strip) = strips.get_mut(place.strip) {
                *strip = (part, Point::new(0.0, height) - part.center());
            }
        }
        Self::Strips(strips)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, StockOutline, Wood};

    const GROUND: Rgb = Rgb::new(0xea, 0xd0, 0xa3);

    fn on_slab(build: Build, place: Option<[f64; 2]>) -> Workpiece {
        let mut board = Board {
            wood: Some(Wood::default()),
            ..Board::default()
        };
        board.panel.build = build;
        board.stock.outline = StockOutline::Slab {
            length: 1400.0,
            width: 700.0,
            lower: vec![],
            upper: vec![30.0, 10.0, 40.0],
        };
        board.stock.place = place;
        let workpiece = Workpiece::of(&board).unwrap();
        workpiece.work_out(&|| false).unwrap();
        workpiece
    }

    fn tone(wood: &BlankWood, at: Point) -> Tone {
        wood.tone(at, 0.5, &Noise::default())
    }

    /// The tone of the board in its plan and its proof.
    fn in_board(workpiece: &Workpiece, at: Point) -> Tone {
        Grain::of(workpiece).at(Space::new(at.x, at.y, 0.0), 0.5, &Noise::default())
    }

    fn assert_same(here: Tone, there: Tone) {
        for (here, there) in here.0.into_iter().zip(there.0) {
            assert!((here - there).abs() < 0.02, "{here} beside {there}");
        }
    }

    #[test]
    fn the_wood_under_the_board_stays_when_the_board_moves() {
        let (best, moved) = (
            on_slab(Build::Whole, None),
            on_slab(Build::Whole, Some([500.0, 330.0])),
        );
        let (wood, after) = (
            BlankWood::of(&best).unwrap(),
            BlankWood::of(&moved).unwrap(),
        );
        let pin = Point::new(500.0, 330.0);
        for at in [(410.0, 300.0), (700.0, 90.0), (1000.0, 650.0)].map(Point::from) {
            assert_same(tone(&wood, at), tone(&after, at));
            assert_same(tone(&after, at), in_board(&moved, (at - pin).to_point()));
        }
    }

    #[test]
    fn a_leaf_is_half_of_the_board_and_continues_across_the_seam() {
        let workpiece = on_slab(Build::Halves, None);
        let wood = BlankWood::of(&workpiece).unwrap();
        let half = workpiece.joined().unwrap().half.unwrap();
        let side = if half.side == Side::Above { 1.0 } else { -1.0 };
        let away = |x: f64, y: f64| half.center + Vec2::new(x, side * y);
        for (x, y) in [(20.0, 30.0), (-90.0, 120.0)] {
            let leaf = tone(&wood, away(x, y));
            assert_same(leaf, in_board(&workpiece, Point::new(x, y)));
            assert_same(leaf, in_board(&workpiece, Point::new(x, -y)));
            assert_ne!(leaf, tone(&wood, away(x, -y)));
        }
    }

    #[test]
    fn every_strip_has_its_figure_from_the_board() {
        let workpiece = on_slab(Build::Strips { count: 4 }, None);
        let wood = BlankWood::of(&workpiece).unwrap();
        let places = workpiece.joined().unwrap().places.clone().unwrap();
        let width = workshop::panel_width(workpiece.board()) / 4.0;
        for place in places {
            let middle =
                Rect::from_origin_size(place.corner, (place.size.length, place.size.width))
                    .center();
            let height = (place.strip as f64 - 1.5) * width;
            for off in [(40.0, 7.0), (-120.0, -30.0)].map(Vec2::from) {
                let board = Point::new(0.0, height) + off;
                assert_same(tone(&wood, middle + off), in_board(&workpiece, board));
            }
        }
    }

    #[test]
    fn a_picture_has_the_shape_of_the_blank_and_is_of_bounded_size() {
        let wood = BlankWood::of(&on_slab(Build::Whole, None)).unwrap();
        let picture = wood.picture(GROUND);
        let shape = f64::from(picture.width) / f64::from(picture.height);
        assert!((shape - 1400.0 / 690.0).abs() < 0.01, "{shape}");
        assert_eq!(
            picture.rgba.len(),
            4 * (picture.width * picture.height) as usize
        );
        assert!(picture.rgba.len() <= 4 * 640_000);
    }
}
