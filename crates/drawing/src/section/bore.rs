//! One bore and the piece in it, with all of their sizes.
//!
//! Sizes of the wood are on the left and those of the piece on the right, so that a reader finds each number. The floor has its
//! size even if none is left: then it shows how far the bore breaks through.

use board::{Board, Bottom};
use kurbo::{Point, Rect};
use workshop::{BodyKind, BoreSizes, FloorOver, Section};

use super::figure::Figure;
use super::measures::{Side, Size};
use super::pieces::standing;
use super::says::{HAIR, Says};
use super::scene::Shown;
use super::{body_of, top};
use crate::Line;

/// Wood on either side of the drawn part: as a share of its width, and at least this many mm.
const BESIDE: (f64, f64) = (0.25, 4.0);

/// The figure.
pub fn bore<'a>(board: &'a Board, section: &'a Section, sizes: &BoreSizes) -> Figure<'a> {
    let says = Says::new(board, sizes);
    let piece = body_of(section, BodyKind::Piece, sizes.hole.name.id());
    let (at, radius) = (says.at, says.radius);
    let floor = -board.blank.thickness.max(says.deepest);
    let mouth = Rect::new(at - radius, floor, at + radius, 0.0);
    let drawn = piece.map_or(mouth, |piece| mouth.union(piece));
    let (share, least) = BESIDE;
    let beside = (share * drawn.width()).max(least);
    Figure {
        heading: format!("Hole {}", sizes.hole.name),
        remark: "",
        section,
        window: Rect {
            x0: drawn.x0 - beside,
            x1: drawn.x1 + beside,
            y1: drawn.y1.max(top(section)),
            ..drawn
        },
        shown: Shown {
            piece_of: Some(sizes.hole.name.id()),
            base: false,
        },
        axes: vec![(at, drawn.y1)],
        more: more(section, sizes),
        sizes: says
            .wood()
            .into_iter()
            .chain(standing(&says, section))
            .collect(),
        names: Vec::new(),
        tallest: 125.0,
    }
}

/// The line where the full diameter ends above a point, and the line where the drill breaks through the underside.
///
/// The first is a thin line across the bore at the typed depth; a Forstner bit's spur does not need it. The second is dashed,
/// as there is no wood left to cut.
fn more(section: &Section, sizes: &BoreSizes) -> Vec<(Line, [Point; 2])> {
    let bores = section.cavities.iter();
    let bores = bores.filter(|bore| bore.hole == Some(sizes.hole.name));
    let corners =
        bores.flat_map(|bore| bore.corners.iter().zip(bore.corners.iter().cycle().skip(1)));
    let under = -sizes.thickness;
    let below = corners.filter_map(|(from, to)| {
        let (high, low) = if from.y > to.y {
            (*from, *to)
        } else {
            (*to, *from)
        };
        if low.y >= under - HAIR {
            return None;
        }
        let share = ((high.y - under) / (high.y - low.y)).max(0.0);
        let high = if high.y > under {
            high.lerp(low, share)
        } else {
            high
        };
        Some((Line::Hidden, [high, low]))
    });
    let mut more: Vec<(Line, [Point; 2])> = below.collect();
    let bore = sizes.hole.bore;
    if sizes.tip > 0.0 && bore.bottom != Bottom::Forstner && bore.depth <= sizes.thickness {
        let at = sizes.hole.center.to_vec2().hypot();
        let ends = [at - bore.radius(), at + bore.radius()];
        more.push((Line::Dimension, ends.map(|s| Point::new(s, -bore.depth))));
    }
    more
}

impl Says<'_> {
    /// Sizes of the bore and of the wood below it.
    fn wood(&self) -> Vec<Size> {
        let (radius, bore) = (self.radius, self.sizes.hole.bore);
        let thickness = self.sizes.thickness;
        let left = |heights, words| self.upright(Side::Left, heights, words);
        let mut wood = vec![
            self.across(
                Side::Below,
                bore.diameter,
                -bore.depth,
                format!("bore Ø {}", self.length(bore.diameter)),
            ),
            left(
                [(radius, 0.0), (radius, -thickness)],
                format!("board {}", self.length(thickness)),
            ),
        ];
        if bore.depth > HAIR {
            wood.push(left(
                [(radius, 0.0), (radius, -bore.depth)],
                format!("depth {}", self.length(bore.depth)),
            ));
        }
        let tip = self.sizes.tip;
        if tip > HAIR {
            let what = match bore.bottom {
                Bottom::Forstner => "spur",
                _ => "point",
            };
            wood.push(left(
                [(radius, -bore.depth), (0.0, -self.deepest)],
                format!("{what} {}", self.length(tip)),
            ));
        }
        wood.push(self.floor());
        wood.extend(self.resin());
        wood
    }

    /// The wood between the deepest point of the bore and the next thing below it: the underside, the recess, its lid, a screw
    /// or a mortise. It is measured where the bore is deepest: on the axis of a point, otherwise at the wall, if there is no
    /// other size.
    fn floor(&self) -> Size {
        let floor = self.sizes.floor;
        let over = match floor.over {
            FloorOver::Underside => String::new(),
            over => format!(" over {}", over.label()),
        };
        let amount = self.length(floor.left.abs());
        let words = if floor.left < 0.0 {
            match floor.over {
                FloorOver::Underside => format!("{amount} out of the underside"),
                over => format!("{amount} into {}", over.label()),
            }
        } else {
            format!("floor left {amount}{over}")
        };
        // Where the recess is beside its axis, the nearest point of a bore is higher than its deepest.
        let under = match floor.over {
            FloorOver::Underside => -self.sizes.thickness,
            _ => -self.cut_below(floor.over),
        };
        let away = if self.sizes.tip > HAIR || floor.over != FloorOver::Underside {
            0.0
        } else {
            self.radius
        };
        self.upright(
            Side::Left,
            [(away, under + floor.left), (away, under)],
            words,
        )
    }

    /// Depth below the top face of the nearest cut from below: the recess, or the place of its lid, mm.
    fn cut_below(&self, over: FloorOver) -> f64 {
        let depth = self.board.recess.map_or(0.0, |recess| match over {
            FloorOver::Lid => recess.lid,
            _ => recess.depth,
        });
        self.sizes.thickness - depth
    }

    /// Depth of the resin's edge below the top face.
    fn resin(&self) -> Option<Size> {
        let below = self.sizes.resin?;
        Some(if below > HAIR {
            let ends = [(self.radius, 0.0), (self.radius, -below)];
            let words = format!("resin {} below the top", self.length(below));
            self.upright(Side::Left, ends, words)
        } else {
            self.note(Side::Left, (0.8 * self.radius, 0.0), "resin up to the top")
        })
    }
}
