//! The title of a tiled sheet: its label, words and key map in one block, as large as there is room for.
//!
//! Nothing here has a fixed place, as any corner may be full of holes: the block goes where it covers the least. On small paper
//! the map shrinks, and then the words are reduced to those that a sheet needs: which sheet it is, and how to print it.

use board::Choice;
use kurbo::{Point, Size, Vec2};
use workshop::{Correction, Tile, Tiling};

use crate::font::{self, Weight};
use crate::pages::wrapped;
use crate::template::key_map::KeyMap;
use crate::template::subject::Subject;
use crate::{Anchor, Item, Layer, Line, Shape, Stamp, Text};

/// Width of the largest block, mm.
const WIDEST: f64 = 80.0;
/// Size of the words of the largest block, mm.
const WORDS: f64 = 2.4;
/// Size of the kind of template, mm.
const KIND: f64 = 3.2;
/// Line spacing, in sizes of the type.
const LEADING: f64 = 1.58;
/// Gap between words and key map, mm.
const BESIDE: f64 = 3.0;

/// The sizes with which a block is laid out.
#[derive(Debug, Clone, Copy)]
struct Form {
    /// Width of the block, mm.
    width: f64,
    /// Largest width and height of the key map, mm.
    map: f64,
    /// Size of the label, mm.
    label: f64,
    /// Size of the words, mm.
    words: f64,
    /// Whether title, date and joining order are printed.
    full: bool,
}

/// The forms of a block, the fullest first.
const FORMS: [Form; 9] = [
    form(WIDEST, 33.0, 8.0, WORDS, true),
    form(62.0, 26.0, 8.0, WORDS, true),
    form(50.0, 22.0, 7.0, 2.2, true),
    form(44.0, 20.0, 7.0, 2.2, true),
    form(50.0, 24.0, 7.0, 2.2, false),
    form(40.0, 20.0, 6.0, 2.2, false),
    form(34.0, 16.0, 6.0, font::SMALLEST, false),
    form(28.0, 12.0, 5.0, font::SMALLEST, false),
    form(22.0, 9.0, 5.0, font::SMALLEST, false),
];

/// A form from its width, map, label, words, and whether everything is printed.
const fn form(width: f64, map: f64, label: f64, words: f64, full: bool) -> Form {
    Form {
        width,
        map,
        label,
        words,
        full,
    }
}

/// Whether a line fits at the foot of the block without being cut.
pub fn fits(line: &str) -> bool {
    font::width(line, WORDS, Weight::Regular) <= WIDEST
}

/// A block with its upper left corner at the origin.
pub struct Block {
    /// Width and height, mm.
    pub size: Size,
    /// Its parts.
    pub items: Vec<Item>,
}

/// The label of a sheet, its part of the whole, how to print and join it, and the key map, in every form that it can have, the
/// fullest first.
///
/// Every form has the label, the key map, the print note, the settings and the printer's correction. They differ in the size of
/// the map, in how words are broken beside it, and in the title, the date and the joining order, which the small ones leave
/// out, since whoever tapes the sheets together has all of them.
pub fn title_blocks(
    subject: &Subject<'_>,
    tiling: &Tiling,
    tile: &Tile,
    stamp: &Stamp,
) -> impl Iterator<Item = Block> {
    FORMS.into_iter().map(move |form| {
        let map = KeyMap::of(subject, tiling, tile, Size::new(form.map, form.map));
        let mut lay = Lay::new(form, map);
        lay.label(&tile.label(), subject.kind);
        for line in lines(subject, tiling, tile, stamp, form.full) {
            lay.line(&line);
        }
        lay.below_map();
        for line in foot(subject, tiling) {
            lay.foot(&line);
        }
        lay.block()
    })
}

/// The lines beside the key map.
///
/// The short form keeps those that a sheet needs: which one of how many it is, and that it is not to be scaled.
fn lines(
    subject: &Subject<'_>,
    tiling: &Tiling,
    tile: &Tile,
    stamp: &Stamp,
    full: bool,
) -> Vec<String> {
    let place = tiling
        .tiles
        .iter()
        .position(|other| other == tile)
        .map_or(0, |at| at + 1);
    let count = tiling.tiles.len();
    if !full {
        return vec![format!("sheet {place} of {count}"), "Print at 100 %".into()];
    }
    let paper = subject.board.template.paper.words();
    let mut lines = vec![
        format!("sheet {place} of {count}, {paper}"),
        subject.board.title.clone(),
        stamp.date.clone(),
        "Print at 100 %; measure the bars.".into(),
        joining(tiling).into(),
    ];
    lines.retain(|line| !line.is_empty());
    lines
}

/// The lines at the foot of the block: settings, and the printer's correction.
fn foot(subject: &Subject<'_>, tiling: &Tiling) -> Vec<String> {
    let edge = (!tiling.whole && subject.kind.is_empty()).then(|| EDGE.to_owned());
    let correction = tiling.correction.iter().flat_map(Correction::words);
    let notes = subject.notes.iter().cloned();
    notes.chain(edge).chain(correction).collect()
}

/// The note where slivers of the edge are on no sheet.
const EDGE: &str = "Cut the edge from the pin: slivers are on no sheet.";

/// The order of assembly.
fn joining(tiling: &Tiling) -> &'static str {
    match (tiling.columns, tiling.rows) {
        (1, 1) => "All of it is on this sheet.",
        (1, _) => "Join from the top, cross on cross.",
        (_, 1) => "Join from the left, cross on cross.",
        _ => "Join rows from the left, then the rows.",
    }
}

/// A block being filled from the top.
struct Lay {
    /// Its sizes.
    form: Form,
    /// Width and height of the key map, mm.
    map: Size,
    /// The parts added so far.
    items: Vec<Item>,
    /// The top of the next line; down is negative.
    top: f64,
}

impl Lay {
    /// The block with its key map at the upper right.
    fn new(form: Form, map: KeyMap) -> Self {
        let corner = Vec2::new(form.width - map.size.width, -map.size.height);
        Self {
            form,
            map: map.size,
            items: map
                .items
                .into_iter()
                .map(|item| item.moved(corner))
                .collect(),
            top: 0.0,
        }
    }

    /// Room beside the key map, mm.
    fn beside(&self) -> f64 {
        self.form.width - self.map.width - BESIDE
    }

    /// Adds the label, large enough to be read from the other side of a bench, and the kind of sheet, beside it or, where there
    /// is no room, below.
    fn label(&mut self, label: &str, kind: &str) {
        let strong = Weight::SemiBold;
        let base = self.top - font::FIGURE_HEIGHT * self.form.label;
        self.text(Point::new(0.0, base), self.form.label, strong, label.into());
        self.top = base - 1.2;
        let aside = font::width(label, self.form.label, strong) + 2.5;
        let size = KIND.min(1.3 * self.form.words);
        let room = self.beside() - aside;
        if font::width(kind, size, strong) <= room {
            self.text(Point::new(aside, base), size, strong, kind.into());
        } else {
            self.add_line(kind, size, strong, self.beside());
        }
    }

    /// Adds words beside the map, or over the whole width below it, broken into lines.
    ///
    /// Words that start beside the map stay beside it, so that no line of them changes to the other width. On a small block the
    /// few words are not broken.
    fn line(&mut self, words: &str) {
        let whole = font::width(words, self.form.words, Weight::Regular);
        if !self.form.full && whole > self.beside() {
            self.below_map();
        }
        let is_below = self.top < -self.map.height - 0.5;
        let room = if is_below {
            self.form.width
        } else {
            self.beside()
        };
        self.add_line(words, self.form.words, Weight::Regular, room);
    }

    /// Continues below the key map.
    fn below_map(&mut self) {
        self.top = self.top.min(-self.map.height - 0.8);
    }

    /// Adds a line over the whole width: cut to fit if the block is wide, broken if it is small.
    fn foot(&mut self, words: &str) {
        let Form {
            width, words: size, ..
        } = self.form;
        let words = if width >= WIDEST {
            font::cut(words, size, Weight::Regular, width)
        } else {
            words.to_owned()
        };
        self.add_line(&words, size, Weight::Regular, width);
    }

    /// Adds words broken into lines of a width.
    fn add_line(&mut self, words: &str, size: f64, weight: Weight, room: f64) {
        if words.is_empty() {
            return;
        }
        for line in wrapped(words, size, weight, room) {
            let base = self.top - size;
            self.text(Point::new(0.0, base), size, weight, line);
            self.top -= LEADING * size;
        }
    }

    /// Adds one line of words with its baseline at a point of the block.
    fn text(&mut self, at: Point, size: f64, weight: Weight, words: String) {
        let text = Text::level(at, size, Anchor::Start, words).weighing(weight);
        self.items.push(Item {
            layer: Layer::Marks,
            line: Line::Dimension,
            shape: Shape::Text(text),
        });
    }

    /// The finished block, as high as its content.
    fn block(self) -> Block {
        let height = (-self.top).max(self.map.height) + 0.5;
        Block {
            size: Size::new(self.form.width, height),
            items: self.items,
        }
    }
}
