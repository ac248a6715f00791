//! The section through the film: the wood, and every layer on it with its coats, its time and its preparation.
//!
//! A film is a few hundredths of a millimeter thick, so the drawing is not to scale, and each layer states its thickness. Where
//! color covers only a part, the parts of the board with different layers are drawn side by side as columns.

use board::{Coat, Measure};
use kurbo::{Line as Segment, Point, Rect, Size, Vec2};
use workshop::{Meeting, Parts, Workpiece, coat_data, columns, drying_time, meetings};

use crate::font::Weight;
use crate::pages::wrapped;
use crate::{Anchor, Figure, Item, Line, Shape, Text, corners_of};

/// Size of the names of layers, mm.
const NAME: f64 = 3.0;
/// Size of the words about them.
const SAID: f64 = 2.5;
/// Line spacing, in sizes of the type.
const LEADING: f64 = 1.35;
/// Width of the strip at the left of a layer that shows its coats, mm.
const STRIP: f64 = 7.0;
/// Gap between a layer's border and its words, mm.
const PAD: f64 = 1.6;
/// Height of the wood, mm.
const WOOD: f64 = 9.0;
/// Film thickness below which no number is shown, mm.
const VISIBLE: f64 = 0.005;
/// Gap between two columns, mm.
const BETWEEN: f64 = 5.0;
/// The narrowest column whose words can be read, mm.
const NARROW: f64 = 52.0;
/// The widest column, mm.
const WIDE: f64 = 110.0;

/// The section through the film as a drawing of a width, mm; none where no coats are planned.
///
/// ```
/// use board::{Board, Coat, CoatKind, CoatPlace};
/// use drawing::film_figure;
/// use workshop::Workpiece;
/// let color = Coat { place: CoatPlace::Marks, ..Coat::of(CoatKind::Acrylic, 24.0) };
/// let mut board = Board { finish: vec![Coat::of(CoatKind::DewaxedShellac, 2.0)], ..Board::default() };
/// let one = film_figure(&Workpiece::of(&board)?, 190.0).unwrap();
/// board.finish.push(color);
/// // Color only on the marks gets a column of its own.
/// let two = film_figure(&Workpiece::of(&board)?, 190.0).unwrap();
/// assert!(two.size.height > one.size.height && two.size.width > one.size.width);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn film_figure(workpiece: &Workpiece, width: f64) -> Option<Figure> {
    let coats = &workpiece.board().finish;
    let stacks = columns(coats);
    if stacks.is_empty() {
        return None;
    }
    let most = (((width + BETWEEN) / (NARROW + BETWEEN)) as usize).max(1);
    let beside = stacks.len().min(most);
    let each = (width - BETWEEN * (beside - 1) as f64) / beside as f64;
    let film = Film {
        workpiece,
        coats,
        met: meetings(coats),
        width: each.min(WIDE),
    };
    let drawn: Vec<Figure> = stacks
        .iter()
        .map(|(parts, layers)| film.column(*parts, layers, stacks.len()))
        .collect();
    Some(in_rows(&drawn, beside, film.width))
}

/// Columns side by side and, where there is no room, in further rows below, aligned at their feet.
///
/// `beside` is the number of columns in a row and `width` that of each, mm.
fn in_rows(columns: &[Figure], beside: usize, width: f64) -> Figure {
    let mut items = Vec::new();
    let mut up = 0.0;
    for row in columns.chunks(beside).rev() {
        for (at, column) in row.iter().enumerate() {
            let by = Vec2::new(at as f64 * (width + BETWEEN), up);
            items.extend(column.items.iter().cloned().map(|item| item.moved(by)));
        }
        let heights = row.iter().map(|column| column.size.height);
        up += heights.fold(0.0, f64::max) + BETWEEN;
    }
    let count = columns.len().min(beside) as f64;
    Figure {
        size: Size::new(count * (width + BETWEEN) - BETWEEN, up - BETWEEN),
        items,
    }
}

/// Builds the text and the columns of a section through the film.
///
/// It is made once for all columns.
struct Film<'a> {
    /// The board, for its wood and its units.
    workpiece: &'a Workpiece,
    /// The layers, from the wood up, each with its number of coats.
    coats: &'a [Coat],
    /// Every two coats that meet anywhere on the board, with the assessment of their bond.
    met: Vec<Meeting>,
    /// Width of a column, mm.
    width: f64,
}

/// Lines of words, each with its size and weight.
type Lines = Vec<(String, f64, Weight)>;

impl Film<'_> {
    /// One column: the wood, its layers, and above them the parts of the board that it stands for.
    ///
    /// `parts` are the parts of the board, `layers` the indices of their coats in the finish from the wood up, and `stacks` the
    /// number of columns: a single one has no title.
    fn column(&self, parts: Parts, layers: &[usize], stacks: usize) -> Figure {
        let mut items = self.wood();
        let mut up = WOOD;
        for (at, layer) in layers.iter().enumerate() {
            let under = at.checked_sub(1).and_then(|below| layers.get(below));
            let words = self.layer_words(*layer, under.copied());
            let height = self.height(*layer, &words);
            items.extend(self.band(*layer, up, height));
            let corner = Point::new(STRIP + PAD, up + height - PAD);
            items.extend(written(corner, words));
            up += height;
        }
        if stacks > 1 {
            let title = lines_of(&parts.words(), NAME, Weight::SemiBold, self.width);
            let height = height_of(&title) + PAD;
            items.extend(written(Point::new(0.0, up + height), title));
            up += height + PAD;
        }
        Figure {
            size: Size::new(self.width, up),
            items,
        }
    }

    /// The wood below all layers, as an area with its name.
    ///
    /// The name is that of the species where one is chosen.
    fn wood(&self) -> Vec<Item> {
        let area = Rect::new(0.0, 0.0, self.width, WOOD);
        let species = self.workpiece.board().wood.as_ref();
        let species = species.and_then(|wood| {
            let mut all = workshop::species().iter();
            all.find(|species| species.id == wood.species)
        });
        let name = species.map_or_else(|| "wood".into(), workshop::Species::spoken);
        let at = Point::new(STRIP + PAD, (WOOD - NAME) / 2.0);
        vec![
            Item::of_title(Line::Dimension, Shape::Area(corners_of(area).to_vec())),
            line(area.x0, area.y1, area.x1, area.y1),
            Item::of_title(
                Line::Dimension,
                Shape::Text(Text::level(at, NAME, Anchor::Start, name)),
            ),
        ]
    }

    /// Name, thickness and time of a layer, and how it holds on the one below it.
    ///
    /// `under` is the layer below it in this column; none where that is bare wood. A bond that fails or comes too early is in
    /// bold.
    fn layer_words(&self, layer: usize, under: Option<usize>) -> Lines {
        let Some(coat) = self.coats.get(layer) else {
            return Vec::new();
        };
        let room = self.width - STRIP - 2.0 * PAD;
        let name = match coat.coats {
            1 => format!("{}. {}", layer + 1, coat.kind.label()),
            coats => format!("{}. {}, {coats} coats", layer + 1, coat.kind.label()),
        };
        let mut lines = lines_of(&name, NAME, Weight::SemiBold, room);
        lines.extend(lines_of(
            &self.film_words(coat),
            SAID,
            Weight::Regular,
            room,
        ));
        for met in self.met.iter().filter(|met| met.over == layer) {
            if met.under == layer || Some(met.under) == under {
                let weight = if met.holds() {
                    Weight::Regular
                } else {
                    Weight::SemiBold
                };
                lines.extend(lines_of(&self.bond_words(met), SAID, weight, room));
            }
        }
        lines
    }

    /// Thickness of a layer's film, and the drying time of each coat.
    ///
    /// The thickness is the sum of all its coats, in mm or in decimals of an inch: no fraction of an inch is as fine.
    fn film_words(&self, coat: &Coat) -> String {
        let thick = coat_data(coat.kind).film * f64::from(coat.coats);
        let film = if thick >= VISIBLE {
            let film = Measure::mm(thick);
            let shown = match self.workpiece.units() {
                board::Units::Mm => film.shown(board::Units::Mm),
                board::Units::Inch(_) => format!("{:.4}\"", thick / board::INCH),
            };
            format!("film about {shown}")
        } else if thick > 0.0 {
            "hardly a film".into()
        } else {
            "soaks in".into()
        };
        let each = if coat.coats > 1 { " each" } else { "" };
        format!("{film}; dries {}{each}", drying_time(coat.dries))
    }

    /// The words on how well a coat holds on the one below it.
    ///
    /// They begin with STOP where nothing would hold, and with TOO EARLY where it would hold after a longer wait.
    fn bond_words(&self, met: &Meeting) -> String {
        let below = self
            .coats
            .get(met.under)
            .map_or("", |coat| coat.kind.label());
        let below = if met.under == met.over {
            "each coat on the one before".to_owned()
        } else {
            format!("on {below}")
        };
        let bond = met.bond;
        if met.fails() {
            return format!("STOP, {below}: {}", bond.why);
        }
        let sanded = bond
            .grit
            .map_or(String::new(), |grit| format!(", sanded with grit {grit}"));
        if met.is_early() {
            let (waits, needs) = (drying_time(met.waits), drying_time(bond.hours));
            return format!("TOO EARLY, {below}: after {waits}, needs {needs}{sanded}");
        }
        format!("{below}: holds after {}{sanded}", drying_time(bond.hours))
    }

    /// Height of a layer: of its words and of the strip of its coats, whichever is more.
    ///
    /// More than twenty coats are as high as twenty, since their lines would merge into gray.
    fn height(&self, layer: usize, words: &Lines) -> f64 {
        let coats = self.coats.get(layer).map_or(1, |coat| coat.coats);
        (height_of(words) + 2.0 * PAD).max(f64::from(coats.min(20)) * 1.2)
    }

    /// A layer's border, and the strip at its left with a line for each coat.
    ///
    /// `up` is its foot and `height` its height, mm from the lower left corner of the column.
    fn band(&self, layer: usize, up: f64, height: f64) -> Vec<Item> {
        let coats = self.coats.get(layer).map_or(1, |coat| coat.coats);
        let (top, right) = (up + height, self.width);
        let mut items = vec![
            line(0.0, top, right, top),
            line(0.0, up, 0.0, top),
            line(right, up, right, top),
            line(STRIP, up, STRIP, top),
        ];
        items.extend((1..coats).map(|coat| {
            let at = up + height * f64::from(coat) / f64::from(coats);
            line(0.0, at, STRIP, at)
        }));
        items
    }
}

/// Words broken to a width.
fn lines_of(words: &str, size: f64, weight: Weight, room: f64) -> Lines {
    let lines = wrapped(words, size, weight, room).into_iter();
    lines.map(|line| (line, size, weight)).collect()
}

/// Height of lines of words, mm.
fn height_of(lines: &Lines) -> f64 {
    lines.iter().map(|(_, size, _)| size * LEADING).sum()
}

/// Lines of words below a corner.
///
/// The corner is the upper left one of the first line.
fn written(corner: Point, lines: Lines) -> Vec<Item> {
    let mut top = corner.y;
    let each = |(words, size, weight): (String, f64, Weight)| {
        let at = Point::new(corner.x, top - size);
        top -= size * LEADING;
        let text = Text::level(at, size, Anchor::Start, words).weighing(weight);
        Item::of_title(Line::Dimension, Shape::Text(text))
    };
    lines.into_iter().map(each).collect()
}

/// A line of the drawing.
fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Item {
    let segment = Segment::new(Point::new(x0, y0), Point::new(x1, y1));
    Item::of_title(Line::Cut, Shape::Line(segment))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, CoatKind, CoatPlace};

    fn drawn(finish: Vec<Coat>, width: f64) -> Figure {
        let board = Board {
            finish,
            ..Board::default()
        };
        film_figure(&Workpiece::of(&board).unwrap(), width).unwrap()
    }

    fn words(figure: &Figure) -> String {
        let texts = figure.items.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text.words.as_str()),
            _ => None,
        });
        texts.collect::<Vec<_>>().join(" ")
    }

    fn color(place: CoatPlace) -> Coat {
        Coat {
            place,
            ..Coat::of(CoatKind::Acrylic, 24.0)
        }
    }

    #[test]
    fn every_layer_has_its_name_its_time_and_its_base() {
        let said = words(&drawn(
            vec![
                Coat::of(CoatKind::DewaxedShellac, 2.0),
                color(CoatPlace::Marks),
                Coat {
                    coats: 3,
                    ..Coat::of(CoatKind::WaterPolyurethane, 3.0)
                },
            ],
            190.0,
        ));
        for part in [
            "wood",
            "1. dewaxed shellac",
            "2. acrylic color",
            "3. water-based polyurethane, 3 coats",
            "on letters and marks",
            "dries 24 h",
            "on acrylic color: holds after 24 h",
            "on dewaxed shellac: holds after 2 h",
            "TOO EARLY",
        ] {
            assert!(said.contains(part), "{part} in {said}");
        }
    }

    #[test]
    fn a_coat_that_does_not_bond_says_stop() {
        let coats = vec![
            Coat::of(CoatKind::Wax, 1.0),
            Coat::of(CoatKind::Lacquer, 0.5),
        ];
        assert!(words(&drawn(coats, 120.0)).contains("STOP, on wax: only wax bonds to wax"));
    }

    #[test]
    fn everything_stays_within_its_size_at_any_width() {
        let places = [
            CoatPlace::Marks,
            CoatPlace::Rings,
            CoatPlace::Grooves,
            CoatPlace::Bores,
            CoatPlace::Edge,
            CoatPlace::Underside,
        ];
        let mut coats = vec![Coat::of(CoatKind::Shellac, 2.0)];
        coats.extend(places.map(color));
        coats.push(Coat {
            coats: 50,
            ..Coat::of(CoatKind::OilPolyurethane, 24.0)
        });
        for width in [60.0, 120.0, 190.0, 400.0] {
            let figure = drawn(coats.clone(), width);
            assert!(figure.size.width <= width + 1e-9);
            let room = figure.size.to_rect().inset(1e-6);
            for item in &figure.items {
                let bounds = item.shape.bounds();
                assert!(
                    room.contains_rect(bounds),
                    "{bounds:?} in {room:?}: {item:?}"
                );
            }
        }
    }

    #[test]
    fn a_board_without_coats_has_no_section() {
        assert_eq!(
            film_figure(&Workpiece::of(&Board::default()).unwrap(), 190.0),
            None
        );
    }
}
