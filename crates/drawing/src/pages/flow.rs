//! The pages being filled from the top.
//!
//! A new page begins when the next line would not fit. Parts that must stay together (a heading with its text, a caution with
//! its bar) reserve their room beforehand. The number of pages is known only at the end, so the line at the foot, which states
//! it, is added last.

use kurbo::{Line as Segment, Point, Rect, Size, Vec2};

use super::wrap::wrapped;
use super::{Figure, Head};
use crate::font::{self, Weight};
use crate::stopped::{self, stop_item};
use crate::{Anchor, Item, Line, Shape, Sheet, Text, corners_of};

/// Size of the title of the first page, mm.
const TITLE: f64 = 6.5;
/// Size of headings, mm.
const HEADING: f64 = 4.2;
/// Size of a stage's name, mm.
const STAGE: f64 = 5.6;
/// Default size of plain words, mm.
const WORDS: f64 = 3.0;
/// Size of the line below each page.
const FOOT: f64 = 2.2;
/// Height of the line above each page of a board that is stopped, mm.
const STOP: f64 = stopped::SIZE * 1.6;
/// Line spacing, in sizes of the type.
pub const LEADING: f64 = 1.42;
/// Room above a heading and below a table.
const GAP: f64 = 3.5;
/// Room that a heading needs below it on its page, mm.
const KEEP: f64 = 16.0;

/// Pages that are filled from the top.
pub struct Flow<'a> {
    /// The head of every page.
    head: &'a Head,
    /// Width and height of each page, mm.
    paper: Size,
    /// The area to fill, excluding the lines at the foot and at the top left.
    room: Rect,
    /// The pages before this one.
    done: Vec<Vec<Item>>,
    /// The items of this page so far.
    page: Vec<Item>,
    /// The top of the next line.
    top: f64,
    /// Size of words, mm.
    words: f64,
    /// Distance from the left of the area to the column of the table that is being filled, mm.
    aside: f64,
}

impl<'a> Flow<'a> {
    /// The first page, with its title.
    ///
    /// The paper's size and its margin are in mm. On a board that is stopped, every page has a line above its area, for which
    /// room is made here.
    pub fn new(paper: Size, margin: f64, head: &'a Head) -> Self {
        let all = paper.to_rect().inset(-margin);
        let foot = FOOT * (LEADING + 1.0);
        let top = all.y1 - head.stop.as_ref().map_or(0.0, |_| STOP);
        let mut flow = Self {
            head,
            paper,
            room: Rect::new(all.x0, all.y0 + foot, all.x1, top),
            done: Vec::new(),
            page: Vec::new(),
            top,
            words: WORDS,
            aside: 0.0,
        };
        flow.lines(&head.title, TITLE, Weight::SemiBold, 0.0);
        flow.lines(&head.subtitle, WORDS, Weight::Regular, 0.0);
        flow.space(GAP);
        flow
    }

    /// An empty page like this one, to measure how much room something takes.
    pub fn trial(&self) -> Self {
        Self {
            head: self.head,
            paper: self.paper,
            room: self.room,
            done: Vec::new(),
            page: Vec::new(),
            top: self.room.y1,
            words: self.words,
            aside: 0.0,
        }
    }

    /// Height of the content put on an empty page, mm; `None` if it takes more than one.
    pub fn taken(&self) -> Option<f64> {
        self.done.is_empty().then_some(self.room.y1 - self.top)
    }

    /// Usable height of a page, mm.
    pub fn height_of_page(&self) -> f64 {
        self.room.height()
    }

    /// Size of words, mm.
    pub const fn words_size(&self) -> f64 {
        self.words
    }

    /// Sets the size of words from here on, mm.
    pub const fn set_words_size(&mut self, size: f64) {
        self.words = size;
    }

    /// Usable width.
    pub fn width(&self) -> f64 {
        self.room.width()
    }

    /// Height left on the page from the top of the next line, mm.
    pub fn left(&self) -> f64 {
        self.top - self.room.y0
    }

    /// The top of the next line.
    pub const fn top(&self) -> f64 {
        self.top
    }

    /// Whether the page is still empty.
    pub fn is_fresh(&self) -> bool {
        self.page.is_empty()
    }

    /// Moves down by a height.
    pub fn space(&mut self, by: f64) {
        self.top -= by;
    }

    /// Begins a new page, unless this one is still empty.
    ///
    /// The column of the table that is being filled stays the same.
    pub fn turn(&mut self) {
        if !self.page.is_empty() {
            self.done.push(core::mem::take(&mut self.page));
        }
        self.top = self.room.y1;
    }

    /// A heading above its text; on the next page where too little of the text would follow on this one.
    ///
    /// `needs` is the height of what must not be separated from it: the words below it, and the first rows of their table.
    pub fn heading(&mut self, words: &str, needs: f64) {
        let wanted = (self.heading_height(words) + needs).min(self.room.height() / 2.0);
        if self.left() < wanted.max(KEEP.min(self.room.height() / 3.0)) {
            self.turn();
        } else if !self.is_fresh() {
            self.space(GAP / 2.0);
        }
        self.lines(words, HEADING, Weight::SemiBold, 0.0);
        self.space(1.0);
    }

    /// Height of a heading with the room above and below it, mm.
    pub fn heading_height(&self, words: &str) -> f64 {
        GAP / 2.0 + self.height(words, HEADING, Weight::SemiBold) + 1.0
    }

    /// The name of a stage of the work over a rule as wide as the page; on the next page where less than `needs` would follow on this
    /// one.
    pub fn stage(&mut self, words: &str, needs: f64) {
        let own = GAP + self.height(words, STAGE, Weight::SemiBold) + 2.0;
        let wanted = (own + needs.max(KEEP)).min(self.room.height() / 2.0);
        if self.left() < wanted {
            self.turn();
        } else if !self.is_fresh() {
            self.space(GAP);
        }
        self.lines(words, STAGE, Weight::SemiBold, 0.0);
        self.rule(Line::Cut, self.width());
        self.space(2.0);
    }

    /// Height of words on the page, mm.
    fn height(&self, words: &str, size: f64, weight: Weight) -> f64 {
        let lines = wrapped(words, size, weight, self.width()).len();
        lines as f64 * size * LEADING
    }

    /// Height of plain words with the gap below them, mm.
    pub fn words_height(&self, words: &str) -> f64 {
        self.height(words, self.words, Weight::SemiBold) + 1.8
    }

    /// Goes to a height on the page and a distance from its left side, where a column of a table begins.
    pub const fn go_to(&mut self, top: f64, aside: f64) {
        self.top = top;
        self.aside = aside;
    }

    /// Words, broken into lines.
    pub fn words(&mut self, words: &str) {
        self.lines(words, self.words, Weight::Regular, 0.0);
        self.space(1.4);
    }

    /// Words with a bar beside them.
    pub fn caution(&mut self, words: &str) {
        let indent = 4.0_f64.min(self.width() / 6.0);
        let count = wrapped(words, self.words, Weight::SemiBold, self.width() - indent).len();
        let height = self.words * LEADING * count as f64;
        if self.left() < height {
            self.turn();
        }
        let top = self.top;
        self.lines(words, self.words, Weight::SemiBold, indent);
        let bar = Rect::new(self.room.x0, self.top, self.room.x0 + indent / 3.0, top);
        if self.top < top {
            self.area(bar);
        }
        self.space(1.8);
    }

    /// A drawing at the left of the page, on a new page if it does not fit on this one.
    ///
    /// A figure higher than a page begins at the top of one.
    pub fn figure(&mut self, figure: &Figure) {
        if self.left() < figure.size.height && !self.is_fresh() {
            self.turn();
        }
        let corner = Vec2::new(self.room.x0, self.top - figure.size.height);
        let items = figure.items.iter().cloned();
        self.page.extend(items.map(|item| item.moved(corner)));
        self.space(figure.size.height + GAP);
    }

    /// Lines of words, continued from page to page.
    ///
    /// `indent` is their distance from the left of the area, mm. A word wider than the area is cut.
    fn lines(&mut self, words: &str, size: f64, weight: Weight, indent: f64) {
        if words.is_empty() {
            return;
        }
        for line in wrapped(words, size, weight, self.width() - indent) {
            if self.left() < size * LEADING {
                self.turn();
            }
            let at = Point::new(self.room.x0 + indent, self.top - size);
            self.text(at, size, weight, Anchor::Start, line);
            self.space(size * LEADING);
        }
    }

    /// One line of words with its baseline at a point of the page.
    pub fn text(&mut self, at: Point, size: f64, weight: Weight, anchor: Anchor, words: String) {
        let text = Text::level(at, size, anchor, words).weighing(weight);
        self.page
            .push(Item::of_title(Line::Dimension, Shape::Text(text)));
    }

    /// A level rule over the whole width at the top of the next line.
    pub fn rule(&mut self, line: Line, width: f64) {
        let start = Point::new(self.start(), self.top);
        let segment = Segment::new(start, start + Vec2::new(width, 0.0));
        self.page.push(Item::of_title(line, Shape::Line(segment)));
    }

    /// A box to tick, with its lower left corner at a point.
    pub fn tick_box(&mut self, at: Point, side: f64) {
        let corners =
            [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)].map(|by| at + Vec2::from(by));
        for corner in 0..4 {
            let segment = Segment::new(corners[corner], corners[(corner + 1) % 4]);
            self.page
                .push(Item::of_title(Line::Dimension, Shape::Line(segment)));
        }
    }

    /// The left end of the area, or of the column of the table.
    pub const fn start(&self) -> f64 {
        self.room.x0 + self.aside
    }

    /// A gray area of the page.
    fn area(&mut self, area: Rect) {
        self.page.push(Item::of_title(
            Line::Dimension,
            Shape::Area(corners_of(area).to_vec()),
        ));
    }

    /// The sheets, each with its line at the foot.
    ///
    /// A sheet is named by the label of its head, with its number if there are several.
    pub fn finish(mut self) -> Vec<Sheet> {
        self.turn();
        let count = self.done.len();
        let (head, paper, room) = (self.head, self.paper, self.room);
        let pages = self.done.into_iter().enumerate();
        pages
            .map(|(at, mut marks)| {
                marks.push(foot(head, room));
                let above = Point::new(room.x0, room.y1 + STOP - stopped::SIZE);
                let stop = head.stop.as_deref();
                marks.extend(stop.map(|line| stop_item(line, above, room.width())));
                let label = match count {
                    1 => head.label.clone(),
                    _ => format!("{} {}", head.label, at + 1),
                };
                Sheet::of_marks(paper, label, marks)
            })
            .collect()
    }
}

/// The line at the foot of a page.
///
/// Its right end is left free for the page number, which is known once all pages of a file are together.
fn foot(head: &Head, room: Rect) -> Item {
    let base = room.y0 - FOOT * (LEADING + 0.6);
    let left = room.width() - font::width("page 99 of 99", FOOT, Weight::Regular) - 2.0;
    let title = font::cut(&head.title, FOOT, Weight::Regular, left);
    let at = Point::new(room.x0, base);
    Item::of_title(
        Line::Dimension,
        Shape::Text(Text::level(at, FOOT, Anchor::Start, title)),
    )
}

/// Pages with consecutive numbers at the foot: "page 3 of 7".
///
/// A file consists of several parts: steps, a section, a filling plan. With the numbers, a reader sees that no page is missing.
///
/// ```
/// use board::Board;
/// use drawing::{Shape, Stamp, job_pages, numbered};
/// use workshop::Workpiece;
///
/// let pages = numbered(job_pages(&Workpiece::of(&Board::default())?, &Stamp::default()), 10.0);
/// let last = format!("page {} of {}", pages.len(), pages.len());
/// let says = |shape: &Shape| matches!(shape, Shape::Text(text) if text.words == last);
/// assert!(pages.last().unwrap().marks.iter().any(|item| says(&item.shape)));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn numbered(mut sheets: Vec<Sheet>, margin: f64) -> Vec<Sheet> {
    let count = sheets.len();
    for (sheet, number) in sheets.iter_mut().zip(1..) {
        let at = Point::new(sheet.size.width - margin, margin + 0.4 * FOOT);
        let words = format!("page {number} of {count}");
        let text = Text::level(at, FOOT, Anchor::End, words);
        sheet
            .marks
            .push(Item::of_title(Line::Dimension, Shape::Text(text)));
    }
    sheets
}
