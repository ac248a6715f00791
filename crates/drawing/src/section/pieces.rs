//! The sizes of the piece in a bore: marble, peg, or magnet piece on its ball or disc.
//!
//! The position of a piece (its seat, its play, the magnet's gap) is computed in crate `workshop`. A piece that does not fit,
//! or falls in, has no such sizes, and its figure says so instead of showing meaningless numbers.

use kurbo::Rect;
use workshop::{BodyKind, InsertSizes, MarbleStand, PegStand, Section, Stands};

use super::body_of;
use super::measures::{Side, Size};
use super::says::{HAIR, Says};

/// The words beside a piece in a bore. Where its outline is not in the section, as where the hole is cut beside its axis, only
/// words that need no outline are written.
pub fn standing(says: &Says<'_>, section: &Section) -> Vec<Size> {
    let seen = |kind| body_of(section, kind, says.sizes.hole.name.id());
    let piece = seen(BodyKind::Piece);
    match &says.sizes.stands {
        Stands::Nothing => Vec::new(),
        Stands::Marble(stand) => piece.map_or_else(Vec::new, |ball| says.marble(stand, ball)),
        Stands::Peg(None) => {
            let words = "the shank does not go in";
            vec![says.note(Side::Right, (0.5 * says.radius, 0.0), words)]
        }
        Stands::Peg(Some(stand)) => piece.map_or_else(Vec::new, |peg| says.peg(stand, peg)),
        Stands::Magnet(sizes) => {
            let set_in = seen(BodyKind::Insert);
            let mut all = set_in.map_or_else(Vec::new, |area| says.insert(sizes, area));
            all.extend(piece.into_iter().flat_map(|piece| says.magnet_piece(piece)));
            all.extend(says.magnet(sizes, seen(BodyKind::Magnet)));
            all
        }
    }
}

impl Says<'_> {
    /// A size at the right of the bore, where the piece is measured; positions are relative to the bore's axis and the top
    /// face.
    fn right(&self, heights: [(f64, f64); 2], words: String) -> Size {
        self.upright(Side::Right, heights, words)
    }

    /// A marble: its diameter, how much of it is above the mouth and how much below, and the circle of contact.
    ///
    /// It touches the rim only if neither floor nor resin holds it up; a marble smaller than the bore has fallen in, and its
    /// height means nothing.
    fn marble(&self, stand: &MarbleStand, ball: Rect) -> Vec<Size> {
        let diameter = self.board.piece.diameter;
        let middle = ball.center().y;
        let words = format!("marble Ø {}", self.length(diameter));
        let mut all = vec![self.across(Side::Above, diameter, middle, words)];
        let (Some(sinks), Some(above)) = (stand.sinks, stand.above) else {
            let fallen = (0.5 * diameter, middle);
            all.push(self.note(Side::Right, fallen, "the marble falls in"));
            return all;
        };
        all.push(self.right(
            [(0.0, above), (self.radius, 0.0)],
            format!("marble {} above", self.length(above)),
        ));
        all.push(self.right(
            [(self.radius, 0.0), (0.0, -sinks)],
            format!("marble {} below", self.length(sinks)),
        ));
        let on_rim = stand.clear.is_some_and(|clear| clear >= -HAIR);
        if let Some(contact) = stand.contact.filter(|_| on_rim) {
            let words = format!("touches on Ø {}", self.length(contact));
            all.push(self.note(Side::Right, (contact / 2.0, 0.0), words));
        }
        all.extend(self.room_under(stand, sinks));
        all
    }

    /// The gap below a marble that rests on the rim, or its lift off the rim; `None` if it touches both.
    fn room_under(&self, stand: &MarbleStand, sinks: f64) -> Option<Size> {
        let clear = stand.clear?;
        // A bore through the underside has no floor to stand on.
        if clear > HAIR && self.sizes.floor.left <= 0.0 {
            None
        } else if clear > HAIR {
            let ends = [(0.0, -sinks), (0.0, -sinks - clear)];
            let words = format!("{} of room under it", self.length(clear));
            Some(self.right(ends, words))
        } else if clear < -HAIR {
            let what = self.sizes.resin.map_or("the floor", |_| "the resin");
            let words = format!("{what} keeps it {} off the rim", self.length(-clear));
            Some(self.note(Side::Right, (0.0, -sinks), words))
        } else {
            None
        }
    }

    /// A peg: its length, the depth of the shank, its diameter and its play in the bore, and how far it stands above the top
    /// face or is below it.
    fn peg(&self, stand: &PegStand, peg: Rect) -> Vec<Size> {
        let shank = self.radius - stand.play / 2.0;
        let mut all = vec![
            self.right(
                [(peg.width() / 2.0, peg.y1), (shank, peg.y0)],
                format!("peg {}", self.length(self.board.piece.height)),
            ),
            self.right(
                [(shank, peg.y0), (shank, peg.y0 + stand.deep)],
                format!("{} in the hole", self.length(stand.deep)),
            ),
            self.note(
                Side::Right,
                (0.8 * shank, peg.y0 + 0.75 * stand.deep),
                format!("shank Ø {}", self.length(2.0 * shank)),
            ),
            self.note(
                Side::Right,
                (shank + stand.play / 4.0, peg.y0 + 0.3 * stand.deep),
                format!("play {}", self.length(stand.play)),
            ),
        ];
        if stand.above > HAIR {
            all.push(self.right(
                [(peg.width() / 2.0, peg.y1), (shank, 0.0)],
                format!("{} above", self.length(stand.above)),
            ));
            let words = format!("peg Ø {}", self.length(peg.width()));
            all.push(self.across(Side::Above, peg.width(), peg.y1, words));
        } else if stand.above < -HAIR {
            let ends = [(shank, 0.0), (shank, stand.above)];
            let words = format!("{} below the top", self.length(-stand.above));
            all.push(self.right(ends, words));
        }
        all
    }

    /// A ball or a disc set into a bore: its diameter, the height of its top, and the gap for glue all around, half of the
    /// difference in diameter.
    fn insert(&self, sizes: &InsertSizes, area: Rect) -> Vec<Size> {
        let what = match sizes.thickness {
            None => "ball",
            Some(_) => "disc",
        };
        let middle = area.center().y;
        let mut all = vec![self.note(
            Side::Right,
            (0.35 * sizes.diameter, middle),
            format!("{what} Ø {}", self.length(sizes.diameter)),
        )];
        let aside = match sizes.thickness {
            None => 0.0,
            Some(_) => sizes.diameter / 2.0,
        };
        if sizes.below.abs() > HAIR {
            let way = if sizes.below > 0.0 { "below" } else { "above" };
            let words = format!("{what} {} {way} the top", self.length(sizes.below.abs()));
            all.push(self.right([(self.radius, 0.0), (aside, -sizes.below)], words));
        } else {
            all.push(self.note(
                Side::Right,
                (aside, 0.0),
                format!("{what} level with the top"),
            ));
        }
        if let Some(thickness) = sizes.thickness {
            let ends = [(aside, area.y0), (aside, area.y1)];
            all.push(self.right(ends, format!("disc {}", self.length(thickness))));
        }
        let words = if sizes.gap < -HAIR {
            format!("the {what} does not go in")
        } else if sizes.gap < HAIR {
            "no gap for glue".into()
        } else {
            format!("gap of {} all round", self.length(sizes.gap))
        };
        let beside = (sizes.diameter / 2.0 + sizes.gap / 2.0, middle);
        all.push(self.note(Side::Left, beside, words));
        all
    }

    /// Height and diameter of the piece that a magnet holds.
    fn magnet_piece(&self, piece: Rect) -> Vec<Size> {
        let half = piece.width() / 2.0;
        vec![
            self.right(
                [(half, piece.y0), (half, piece.y1)],
                format!("piece {}", self.length(piece.height())),
            ),
            self.across(
                Side::Above,
                piece.width(),
                piece.y1,
                format!("piece Ø {}", self.length(piece.width())),
            ),
        ]
    }

    /// The magnet, and its distance from the ball or disc below it.
    fn magnet(&self, sizes: &InsertSizes, area: Option<Rect>) -> Vec<Size> {
        let (Some(area), Some(magnet), Some(hold)) = (area, self.board.piece.magnet, sizes.hold)
        else {
            return Vec::new();
        };
        let half = magnet.diameter / 2.0;
        vec![
            self.note(
                Side::Right,
                (half, area.center().y),
                format!(
                    "magnet Ø {}, {} thick",
                    self.length(magnet.diameter),
                    self.length(magnet.thickness)
                ),
            ),
            self.note(
                Side::Right,
                (0.7 * half, area.y0),
                format!("{} from magnet to steel", self.length(hold.gap)),
            ),
        ]
    }
}
