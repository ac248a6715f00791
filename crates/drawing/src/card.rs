//! The card for the customer: one sheet to fold, with the board and its pieces on the front, its care and the rules on the
//! back.
//!
//! The rules of the game are for the maker to write: the card has ruled lines for them. It is half of the usual paper for the
//! maker's unit, folded across: A5 to A6, half a Letter to a quarter.

use board::{Board, INCH, Units};
use kurbo::{Line as Segment, Point, Size, Vec2};
use workshop::{Workpiece, age_words, care_words, pieces, player_look};

use crate::font::Weight;
use crate::looks::{near_name, small_plan};
use crate::pages::wrapped;
use crate::{Anchor, Item, Line, Shape, Sheet, Stamp, Text};

/// Border of each side of the card, mm.
const MARGIN: f64 = 9.0;
/// Size of the title, mm: 14 pt.
const TITLE: f64 = 14.0 / 72.0 * INCH;
/// Size of headings, mm: 10 pt.
const HEADING: f64 = 10.0 / 72.0 * INCH;
/// Size of words, mm: 8.5 pt.
const WORDS: f64 = 8.5 / 72.0 * INCH;
/// Size of small words, mm: 7 pt, for the sentence on the source of the words about age.
const SMALL: f64 = 7.0 / 72.0 * INCH;
/// Line spacing, in sizes of the type.
const LEADING: f64 = 1.36;
/// Spacing of ruled lines, mm: wide enough for handwriting.
const RULED: f64 = 7.5;
/// Largest side of the drawing of the board, mm.
const BOARD: f64 = 44.0;
/// Smallest side of the drawing of the board, mm; below that it is left out.
const LEAST_BOARD: f64 = 22.0;
/// Room below the drawing, mm.
const AFTER: f64 = 2.0;
/// Sizes of type to try, as shares of the usual ones.
const SHARES: [f64; 5] = [1.0, 0.94, 0.88, 0.82, LEAST];
/// The least share of the usual size of type.
const LEAST: f64 = 0.74;
/// The smallest type, mm: 6 pt.
const SMALLEST: f64 = 6.0 / 72.0 * INCH;

/// The card of a board, on one sheet that is folded in the middle: the right half is its front.
///
/// The card has no price and no shop math, since it goes into the box with the board. The date of the stamp is beside the line
/// for the maker's name.
///
/// ```
/// use board::{Board, Units};
/// use drawing::{Stamp, card_sheet};
/// use workshop::Workpiece;
/// let sheet = card_sheet(&Workpiece::of(&Board::default())?, &Stamp::default());
/// assert_eq!((sheet.size.width, sheet.size.height), (210.0, 148.0));
/// let inches = Board { units: Units::INCH, ..Board::default() };
/// let sheet = card_sheet(&Workpiece::of(&inches)?, &Stamp::default());
/// // Half a letter sheet: 8 1/2 × 5 1/2 in.
/// assert!((sheet.size.width - 215.9).abs() < 1e-9 && (sheet.size.height - 139.7).abs() < 1e-9);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn card_sheet(workpiece: &Workpiece, stamp: &Stamp) -> Sheet {
    let size = size_of(workpiece.units());
    let mut marks = back(workpiece, Side::of(size, 0.0));
    marks.extend(front(workpiece, stamp, &Side::of(size, size.width / 2.0)));
    let fold = Segment::new(
        Point::new(size.width / 2.0, 0.0),
        Point::new(size.width / 2.0, size.height),
    );
    marks.push(Item::of_title(Line::Guide, Shape::Line(fold)));
    Sheet::of_marks(size, "card for the customer".into(), marks)
}

/// The sheet before it is folded, mm.
///
/// It is A5 where lengths are in mm, and half of a Letter sheet where they are in inches.
const fn size_of(units: Units) -> Size {
    match units {
        Units::Mm => Size::new(210.0, 148.0),
        Units::Inch(_) => Size::new(8.5 * INCH, 5.5 * INCH),
    }
}

/// The front: the board, its maker, its pieces, and the ages it suits.
///
/// The words about age are never cut: first the drawing of the board gives way to them, then the size of the type.
fn front(workpiece: &Workpiece, stamp: &Stamp, side: &Side) -> Vec<Item> {
    let filled = |mut side: Side, picture: f64| {
        title(workpiece, picture, &mut side);
        match workpiece.board().price.maker.trim() {
            "" => side.ruled("Made by", &stamp.date),
            maker => side.signed(&format!("Made by {maker}"), &stamp.date),
        }
        inside(workpiece, &mut side);
        side
    };
    let tried = SHARES.map(|share| side.empty(share));
    let fits = |side: &Side| {
        let left = filled(side.endless(), 0.0).top - side.bottom;
        (left >= 0.0).then_some(left)
    };
    let found = tried.iter().find_map(|side| Some((side, fits(side)?)));
    match found {
        Some((side, left)) => filled(side.empty(side.share), (left - AFTER).min(BOARD)).items,
        None => filled(side.empty(LEAST), 0.0).items,
    }
}

/// The title, and the board from above if there is room for it.
///
/// `picture` is the side of the drawing, mm.
fn title(workpiece: &Workpiece, picture: f64, side: &mut Side) {
    side.words(&workpiece.board().title, TITLE, Weight::SemiBold);
    side.space(1.0);
    if picture >= LEAST_BOARD {
        side.picture(workpiece, picture);
    }
}

/// The pieces, and the ages they suit.
///
/// The words about age come from the checks of the board, with the rule they are taken from; they are no certificate, and say
/// so.
fn inside(workpiece: &Workpiece, side: &mut Side) {
    let board = workpiece.board();
    side.heading("Pieces");
    side.words(&in_all(board, workpiece), WORDS, Weight::Regular);
    side.words(&by_color(board), WORDS, Weight::Regular);
    side.heading("Who may play");
    let words = age_words(board);
    let last = words.len() - 1;
    for (at, words) in words.iter().enumerate() {
        // The last of several sentences names the rules that the others sum up.
        let is_source = at > 0 && at == last;
        let (size, weight) = match at {
            _ if is_source => (SMALL, Weight::Regular),
            0 => (WORDS, Weight::Regular),
            _ => (WORDS, Weight::SemiBold),
        };
        side.words(words, size, weight);
    }
}

/// The back: care, and lines for the rules.
///
/// Care depends on the finish and on the wood. The lines extend down to the border.
fn back(workpiece: &Workpiece, mut side: Side) -> Vec<Item> {
    side.heading("Care");
    for words in care_words(workpiece.board()) {
        side.words(&words, WORDS, Weight::Regular);
    }
    side.heading("Rules");
    side.lines();
    side.items
}

/// The total number of pieces, and of spares.
///
/// Spare pieces are those planned for the storage recess.
fn in_all(board: &Board, workpiece: &Workpiece) -> String {
    let (all, kind) = (pieces(board), board.piece.kind.label());
    let size = workpiece.length(board.piece.diameter);
    let spare = match board.recess.map_or(0, |recess| recess.spare) {
        0 => String::new(),
        1 => ", including 1 spare".into(),
        spare => format!(", including {spare} spares"),
    };
    format!("{all} {kind}, {size} across{spare}.")
}

/// The pieces of each player, by color: players of one color are counted together.
///
/// Colors are given by their nearest common name, as nobody compares numbers at a table.
fn by_color(board: &Board) -> String {
    let each = board.start.max(board.home);
    let mut colors: Vec<(&str, u32)> = Vec::new();
    for player in 1..=board.players {
        let color = near_name(player_look(board, player).color);
        match colors.iter_mut().find(|(known, _)| *known == color) {
            Some((_, count)) => *count += each,
            None => colors.push((color, each)),
        }
    }
    let told = colors
        .iter()
        .map(|(color, count)| format!("{count} {color}"));
    let told: Vec<String> = told.collect();
    format!("For {} players: {}.", board.players, told.join(", "))
}

/// One side of the card, filled from the top.
///
/// Positions are in mm from the lower left corner of the sheet, y up.
struct Side {
    /// Its left border, mm.
    left: f64,
    /// Usable width, mm.
    width: f64,
    /// Height above the foot of the sheet down to which it may be filled, mm.
    bottom: f64,
    /// Its top, mm.
    begin: f64,
    /// Size of its type as a share of the usual one.
    share: f64,
    /// The top of the next line, mm.
    ///
    /// It moves down with each part added to the side.
    top: f64,
    /// The items on the side so far.
    items: Vec<Item>,
}

impl Side {
    /// The half of a sheet that begins this far right, mm.
    const fn of(size: Size, from: f64) -> Self {
        Self {
            left: from + MARGIN,
            width: size.width / 2.0 - 2.0 * MARGIN,
            bottom: MARGIN,
            begin: size.height - MARGIN,
            share: 1.0,
            top: size.height - MARGIN,
            items: Vec::new(),
        }
    }

    /// The same side without content, with its type at a share of the usual size.
    const fn empty(&self, share: f64) -> Self {
        Self {
            left: self.left,
            width: self.width,
            bottom: self.bottom,
            begin: self.begin,
            share,
            top: self.begin,
            items: Vec::new(),
        }
    }

    /// The same side without a lower limit, to measure how much room something takes.
    fn endless(&self) -> Self {
        Self {
            bottom: f64::NEG_INFINITY,
            ..self.empty(self.share)
        }
    }

    /// Moves down, mm.
    const fn space(&mut self, by: f64) {
        self.top -= by;
    }

    /// Words broken into lines, as far as there is room.
    ///
    /// The type shrinks with the side, but not below 6 pt. Lines without room are left out, which `front` detects beforehand.
    fn words(&mut self, words: &str, size: f64, weight: Weight) {
        let size = (size * self.share).max(SMALLEST);
        for line in wrapped(words, size, weight, self.width) {
            if self.top - size * LEADING < self.bottom {
                return;
            }
            self.text(
                Point::new(self.left, self.top - size),
                size,
                weight,
                Anchor::Start,
                line,
            );
            self.space(size * LEADING);
        }
        self.space(1.0);
    }

    /// A heading, with a little room above it.
    fn heading(&mut self, words: &str) {
        self.space(1.4);
        self.words(words, HEADING, Weight::SemiBold);
    }

    /// The board from above, centered.
    ///
    /// `side` is that of the square it takes, mm.
    fn picture(&mut self, workpiece: &Workpiece, side: f64) {
        let corner = Vec2::new(self.left + (self.width - side) / 2.0, self.top - side);
        let items = small_plan(workpiece, side).into_iter();
        self.items.extend(items.map(|item| item.moved(corner)));
        self.space(side + AFTER);
    }

    /// Words, a line to write on, and the words at its end.
    ///
    /// The line takes up the room between the two.
    fn ruled(&mut self, words: &str, end: &str) {
        let base = self.top - HEADING;
        let right = self.left + self.width;
        let date = crate::font::width(end, WORDS, Weight::Regular);
        let from = self.left + crate::font::width(words, WORDS, Weight::Regular) + 2.0;
        self.text(
            Point::new(self.left, base),
            WORDS,
            Weight::Regular,
            Anchor::Start,
            words.into(),
        );
        self.text(
            Point::new(right, base),
            WORDS,
            Weight::Regular,
            Anchor::End,
            end.into(),
        );
        self.rule(from, right - date - 2.0, base - 0.6);
        self.space(HEADING + 2.0);
    }

    /// Words at the left, cut where they are too long, and others at the end of the line.
    fn signed(&mut self, words: &str, end: &str) {
        let base = self.top - HEADING;
        let room = self.width - crate::font::width(end, WORDS, Weight::Regular) - 2.0;
        let words = crate::font::cut(words, WORDS, Weight::Regular, room);
        let right = self.left + self.width;
        for (x, anchor, words) in [
            (self.left, Anchor::Start, words),
            (right, Anchor::End, end.into()),
        ] {
            self.text(Point::new(x, base), WORDS, Weight::Regular, anchor, words);
        }
        self.space(HEADING + 2.0);
    }

    /// Ruled lines down to the border.
    fn lines(&mut self) {
        while self.top - RULED >= self.bottom {
            self.space(RULED);
            self.rule(self.left, self.left + self.width, self.top);
        }
    }

    /// A horizontal line between two x positions at a height, mm.
    fn rule(&mut self, from: f64, to: f64, at: f64) {
        let line = Segment::new(Point::new(from, at), Point::new(to, at));
        self.items
            .push(Item::of_title(Line::Dimension, Shape::Line(line)));
    }

    /// Words at a point on the baseline, with a size in mm.
    fn text(&mut self, at: Point, size: f64, weight: Weight, anchor: Anchor, words: String) {
        let text = Text::level(at, size, anchor, words).weighing(weight);
        self.items
            .push(Item::of_title(Line::Dimension, Shape::Text(text)));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Coat, CoatKind, PieceKind, Wood};

    fn card(board: &Board) -> Sheet {
        let stamp = Stamp {
            date: "2026-11-29".into(),
        };
        card_sheet(&Workpiece::of(board).unwrap(), &stamp)
    }

    /// A board with as many words as a card may have to hold.
    fn wordy(units: Units) -> Board {
        let mut board = Board {
            units,
            players: 8,
            spaces: 10,
            wood: Some(Wood::default()),
            finish: vec![Coat::of(CoatKind::Oil, 24.0)],
            title: "A board of a long name for the table in the winter garden".into(),
            ..Board::default()
        };
        board.piece.kind = PieceKind::Magnet;
        board
    }

    fn texts(sheet: &Sheet) -> Vec<&Text> {
        let texts = sheet.marks.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text),
            _ => None,
        });
        texts.collect()
    }

    #[test]
    fn a_card_has_pieces_by_color_care_and_words_about_age() {
        let board = wordy(Units::Mm);
        let sheet = card(&board);
        let said: Vec<&str> = texts(&sheet)
            .iter()
            .map(|text| text.words.as_str())
            .collect();
        let said = said.join(" ");
        for part in [
            "40 magnet pieces, 16 mm across",
            "5 orange, 5 sky blue",
            "For ages 8 and up",
            "can kill",
            "no certificate",
            "penetrating oil",
            "30 to 65 % humidity",
            "Made by",
            "2026-11-29",
            "Rules",
        ] {
            assert!(said.contains(part), "{part} in {said}");
        }
    }

    /// A maker who has typed a name has it on the card; the line to sign is for those who have not.
    #[test]
    fn the_maker_is_named() {
        let mut board = wordy(Units::INCH);
        board.price.maker = "Bench & Sons".into();
        let sheet = card(&board);
        assert!(
            texts(&sheet)
                .iter()
                .any(|text| text.words == "Made by Bench & Sons")
        );
        assert!(!texts(&sheet).iter().any(|text| text.words == "Made by"));
    }

    /// Both sides hold all their words, each within its border and none overlapping another, with lines left for the rules.
    #[test]
    fn nothing_leaves_its_side_and_rules_have_lines() {
        for units in [Units::Mm, Units::INCH] {
            let board = wordy(units);
            let sheet = card(&board);
            let fold = sheet.size.width / 2.0;
            for text in texts(&sheet) {
                let bounds = text.bounds();
                let from = if bounds.x0 < fold { 0.0 } else { fold };
                assert!(
                    bounds.x0 >= from + MARGIN - 0.5 && bounds.x1 <= from + fold - MARGIN + 0.5,
                    "{text:?}"
                );
                assert!(bounds.y0 >= MARGIN - 1.0, "{text:?}");
                assert!(text.size / INCH * 72.0 >= 6.0, "{text:?}");
            }
            let said: Vec<&str> = texts(&sheet)
                .iter()
                .map(|text| text.words.as_str())
                .collect();
            let said = said.join(" ");
            assert!(said.contains("the board meets them."), "{said}");
            let is_rule = |item: &&Item| match &item.shape {
                Shape::Line(line) => {
                    (line.p0.y - line.p1.y).abs() < 1e-9
                        && line.p0.x < fold
                        && line.p0.distance(line.p1) > 80.0
                }
                _ => false,
            };
            assert!(sheet.marks.iter().filter(is_rule).count() >= 5);
        }
    }

    /// However many colors there are and however long the title is, the words about age are complete.
    #[test]
    fn no_word_of_caution_is_cut() {
        let mut board = wordy(Units::INCH);
        board.title = "A long name ".repeat(9);
        (board.players, board.spaces, board.start) = (24, 4, 1);
        board.colors.players = (0..24_u8)
            .map(|at| board::PlayerColor {
                color: Some(board::Rgb::new(at * 10, 255 - at * 7, at * 3)),
                ..board::PlayerColor::default()
            })
            .collect();
        let sheet = card(&board);
        let said: Vec<&str> = texts(&sheet)
            .iter()
            .map(|text| text.words.as_str())
            .collect();
        assert!(said.join(" ").contains("the board meets them."));
    }

    #[test]
    fn players_of_one_color_are_counted_together() {
        let board = Board {
            players: 9,
            spaces: 10,
            ..Board::default()
        };
        assert!(by_color(&board).contains("10 orange"));
    }
}
