//! Small sketches of the words of the trade, on a field of 100 by 60 with y down: the thing that the word means stands out.

use egui::{Color32, Painter, Pos2, Rect, Shape, Stroke, Ui};

use crate::palette::Palette;
use crate::theme::Tokens;

/// A part of a sketch.
#[derive(Clone, Copy)]
enum Part {
    /// Wood, by two corners.
    Wood(f32, f32, f32, f32),
    /// A round of wood: its middle and radius.
    Round(f32, f32, f32),
    /// A hole, or a cut, by two corners.
    Cut(f32, f32, f32, f32),
    /// A hole seen from above: its middle and radius.
    Hole(f32, f32, f32),
    /// A line of less weight.
    Line(f32, f32, f32, f32),
    /// A dashed line.
    Dashed(f32, f32, f32, f32),
    /// The thing itself as a line.
    This(f32, f32, f32, f32),
    /// The thing itself as an area, by two corners.
    Area(f32, f32, f32, f32),
    /// The thing itself as a ring: its middle and radius.
    Ring(f32, f32, f32),
    /// The thing itself as a full disc.
    Disc(f32, f32, f32),
    /// The thing itself as a triangle.
    Wedge([(f32, f32); 3]),
}

use Part::{Area, Cut, Dashed, Disc, Hole, Line, Ring, Round, This, Wedge, Wood};

/// A track of holes around a board, seen from above.
const TRACK: [Part; 9] = [
    Round(50.0, 30.0, 28.0),
    Hole(50.0, 8.0, 3.0),
    Hole(65.6, 14.4, 3.0),
    Hole(72.0, 30.0, 3.0),
    Hole(65.6, 45.6, 3.0),
    Hole(50.0, 52.0, 3.0),
    Hole(34.4, 45.6, 3.0),
    Hole(28.0, 30.0, 3.0),
    Hole(34.4, 14.4, 3.0),
];

/// A sketch: its word, its background, and its own parts.
type Sketch = (&'static str, &'static [Part], &'static [Part]);

/// The words with a sketch.
const SKETCHES: &[Sketch] = &[
    (
        "Bearing",
        &TRACK,
        &[Dashed(50.0, 30.0, 50.0, 2.0), This(50.0, 30.0, 70.0, 10.0)],
    ),
    (
        "Blank",
        &[Round(38.0, 30.0, 22.0)],
        &[
            This(6.0, 4.0, 94.0, 4.0),
            This(94.0, 4.0, 94.0, 56.0),
            This(94.0, 56.0, 6.0, 56.0),
            This(6.0, 56.0, 6.0, 4.0),
        ],
    ),
    (
        "Bookmatch",
        &[Wood(10.0, 6.0, 90.0, 54.0)],
        &[
            Line(10.0, 14.0, 50.0, 22.0),
            Line(90.0, 14.0, 50.0, 22.0),
            Line(10.0, 30.0, 50.0, 42.0),
            Line(90.0, 30.0, 50.0, 42.0),
            This(50.0, 6.0, 50.0, 54.0),
        ],
    ),
    (
        "Bore",
        &[Wood(8.0, 16.0, 92.0, 54.0)],
        &[
            Cut(38.0, 16.0, 62.0, 40.0),
            This(38.0, 16.0, 38.0, 40.0),
            This(38.0, 40.0, 62.0, 40.0),
            This(62.0, 40.0, 62.0, 16.0),
        ],
    ),
    ("Center pin", &TRACK, &[Disc(50.0, 30.0, 4.0)]),
    (
        "Floor",
        &[Wood(8.0, 12.0, 92.0, 54.0), Cut(38.0, 12.0, 62.0, 38.0)],
        &[Area(38.0, 38.0, 62.0, 54.0)],
    ),
    (
        "Forstner bit",
        &[Wood(8.0, 34.0, 92.0, 56.0), Cut(34.0, 34.0, 66.0, 46.0)],
        &[
            Area(46.0, 2.0, 54.0, 30.0),
            Area(34.0, 28.0, 66.0, 40.0),
            Wedge([(47.0, 40.0), (53.0, 40.0), (50.0, 48.0)]),
        ],
    ),
    (
        "Guide bushing",
        &[
            Wood(4.0, 30.0, 30.0, 44.0),
            Wood(70.0, 30.0, 96.0, 44.0),
            Line(4.0, 56.0, 96.0, 56.0),
        ],
        &[
            Area(24.0, 18.0, 76.0, 24.0),
            Area(32.0, 24.0, 38.0, 40.0),
            Area(62.0, 24.0, 68.0, 40.0),
            Line(46.0, 4.0, 46.0, 52.0),
            Line(54.0, 4.0, 54.0, 52.0),
        ],
    ),
    (
        "Hole spacing (pitch)",
        &[
            Wood(6.0, 12.0, 94.0, 56.0),
            Hole(30.0, 38.0, 9.0),
            Hole(70.0, 38.0, 9.0),
        ],
        &[
            Line(30.0, 38.0, 30.0, 16.0),
            Line(70.0, 38.0, 70.0, 16.0),
            This(30.0, 20.0, 70.0, 20.0),
        ],
    ),
    (
        "Home lane",
        &TRACK,
        &[Disc(50.0, 15.0, 3.0), Disc(50.0, 22.0, 3.0)],
    ),
    (
        "Index plate",
        &[Round(50.0, 30.0, 27.0)],
        &[
            Ring(50.0, 10.0, 2.5),
            Ring(67.3, 20.0, 2.5),
            Ring(67.3, 40.0, 2.5),
            Ring(50.0, 50.0, 2.5),
            Ring(32.7, 40.0, 2.5),
            Ring(32.7, 20.0, 2.5),
            Disc(50.0, 10.0, 2.5),
        ],
    ),
    (
        "Joint",
        &[Wood(8.0, 8.0, 92.0, 52.0)],
        &[
            Line(38.0, 8.0, 38.0, 52.0),
            Line(62.0, 8.0, 62.0, 52.0),
            This(50.0, 8.0, 50.0, 52.0),
        ],
    ),
    (
        "Kerf",
        &[Wood(8.0, 14.0, 92.0, 52.0)],
        &[Area(47.0, 14.0, 53.0, 52.0)],
    ),
    (
        "Loose tenon",
        &[Wood(6.0, 14.0, 46.0, 50.0), Wood(54.0, 14.0, 94.0, 50.0)],
        &[Area(32.0, 27.0, 68.0, 37.0)],
    ),
    (
        "Mortise",
        &[Wood(6.0, 14.0, 60.0, 50.0)],
        &[
            Cut(40.0, 26.0, 60.0, 38.0),
            This(60.0, 26.0, 40.0, 26.0),
            This(40.0, 26.0, 40.0, 38.0),
            This(40.0, 38.0, 60.0, 38.0),
        ],
    ),
    (
        "Pilot",
        &[Wood(8.0, 14.0, 92.0, 54.0), Cut(36.0, 14.0, 64.0, 34.0)],
        &[Area(46.0, 34.0, 54.0, 48.0)],
    ),
    (
        "Pocket",
        &TRACK,
        &[
            Disc(57.0, 21.0, 2.6),
            Disc(62.0, 26.0, 2.6),
            Disc(56.0, 28.0, 2.6),
        ],
    ),
    (
        "Resaw",
        &[Wood(8.0, 14.0, 92.0, 50.0)],
        &[This(8.0, 32.0, 92.0, 32.0)],
    ),
    (
        "Rim margin",
        &[Wood(8.0, 12.0, 84.0, 54.0), Cut(34.0, 12.0, 54.0, 36.0)],
        &[Area(54.0, 12.0, 76.0, 18.0), Line(76.0, 12.0, 84.0, 22.0)],
    ),
    (
        "Roundover",
        &[Wood(8.0, 24.0, 70.0, 54.0), Wood(70.0, 34.0, 84.0, 54.0)],
        &[
            This(70.0, 24.0, 77.0, 26.0),
            This(77.0, 26.0, 82.0, 31.0),
            This(82.0, 31.0, 84.0, 38.0),
            This(8.0, 24.0, 70.0, 24.0),
        ],
    ),
    (
        "Sector",
        &TRACK,
        &[
            Dashed(50.0, 30.0, 39.0, 4.0),
            Dashed(50.0, 30.0, 61.0, 4.0),
            This(39.0, 4.0, 50.0, 2.0),
            This(50.0, 2.0, 61.0, 4.0),
        ],
    ),
    (
        "Sheet",
        &[
            Round(50.0, 30.0, 26.0),
            Line(6.0, 3.0, 94.0, 3.0),
            Line(6.0, 57.0, 94.0, 57.0),
            Line(94.0, 3.0, 94.0, 57.0),
        ],
        &[
            This(6.0, 3.0, 50.0, 3.0),
            This(50.0, 3.0, 50.0, 30.0),
            This(50.0, 30.0, 6.0, 30.0),
            This(6.0, 30.0, 6.0, 3.0),
        ],
    ),
    (
        "Spoilboard",
        &[Wood(8.0, 12.0, 92.0, 38.0), Cut(44.0, 4.0, 56.0, 44.0)],
        &[
            Area(8.0, 40.0, 44.0, 56.0),
            Area(56.0, 40.0, 92.0, 56.0),
            Area(44.0, 46.0, 56.0, 56.0),
        ],
    ),
    (
        "Start pocket",
        &TRACK,
        &[
            Disc(57.0, 21.0, 2.6),
            Disc(62.0, 26.0, 2.6),
            Disc(56.0, 28.0, 2.6),
        ],
    ),
    (
        "Track",
        &TRACK,
        &[
            Ring(50.0, 8.0, 3.4),
            Ring(65.6, 14.4, 3.4),
            Ring(72.0, 30.0, 3.4),
            Ring(65.6, 45.6, 3.4),
            Ring(50.0, 52.0, 3.4),
            Ring(34.4, 45.6, 3.4),
            Ring(28.0, 30.0, 3.4),
            Ring(34.4, 14.4, 3.4),
        ],
    ),
    (
        "Turn-in space",
        &TRACK,
        &[
            Disc(50.0, 8.0, 3.4),
            Hole(50.0, 16.0, 2.6),
            Hole(50.0, 23.0, 2.6),
        ],
    ),
    (
        "V-groove",
        &[Wood(8.0, 18.0, 92.0, 54.0)],
        &[Wedge([(38.0, 18.0), (62.0, 18.0), (50.0, 36.0)])],
    ),
    (
        "Wood between holes (web)",
        &[
            Wood(6.0, 14.0, 94.0, 54.0),
            Cut(20.0, 14.0, 42.0, 42.0),
            Cut(58.0, 14.0, 80.0, 42.0),
        ],
        &[Area(42.0, 14.0, 58.0, 42.0)],
    ),
];

/// The parts behind a word and its own; none for a word that no picture helps.
fn parts(word: &str) -> Option<(&'static [Part], &'static [Part])> {
    let found = SKETCHES.iter().find(|(known, ..)| *known == word)?;
    Some((found.1, found.2))
}

/// The sketch of a word, if it has one.
pub fn paint(ui: &Ui, rect: Rect, word: &str) {
    let Some((ground, own)) = parts(word) else {
        return;
    };
    let (tokens, palette) = (Tokens::of(ui), Palette::of(ui.visuals()));
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    for part in ground.iter().chain(own) {
        one(&painter, rect, *part, tokens, &palette);
    }
}

fn one(painter: &Painter, rect: Rect, part: Part, tokens: &Tokens, palette: &Palette) {
    let scale = rect.width() / 100.0;
    let at = |x: f32, y: f32| -> Pos2 { rect.min + scale * egui::vec2(x, y) };
    let boxed = |x0, y0, x1, y1| Rect::from_two_pos(at(x0, y0), at(x1, y1));
    let thin = Stroke::new(1.0, tokens.faint_ink);
    let this = Stroke::new(2.5, tokens.accent);
    match part {
        Wood(x0, y0, x1, y1) => {
            painter.rect_filled(boxed(x0, y0, x1, y1), 1.0, palette.wood);
        }
        Round(x, y, radius) => {
            painter.circle(
                at(x, y),
                scale * radius,
                palette.wood,
                Stroke::new(1.0, palette.edge),
            );
        }
        Cut(x0, y0, x1, y1) => {
            painter.rect_filled(boxed(x0, y0, x1, y1), 0.0, tokens.panel);
        }
        Hole(x, y, radius) => {
            painter.circle_filled(at(x, y), scale * radius, palette.bore);
        }
        Line(x0, y0, x1, y1) => {
            painter.line_segment([at(x0, y0), at(x1, y1)], thin);
        }
        Dashed(x0, y0, x1, y1) => {
            painter.extend(Shape::dashed_line(
                &[at(x0, y0), at(x1, y1)],
                thin,
                4.0,
                3.0,
            ));
        }
        This(x0, y0, x1, y1) => {
            painter.line_segment([at(x0, y0), at(x1, y1)], this);
        }
        Area(x0, y0, x1, y1) => {
            painter.rect_filled(boxed(x0, y0, x1, y1), 0.0, tokens.accent);
        }
        Ring(x, y, radius) => {
            painter.circle_stroke(at(x, y), scale * radius, Stroke::new(2.0, tokens.accent));
        }
        Disc(x, y, radius) => {
            let casing = Stroke::new(1.0, Color32::from_black_alpha(120));
            painter.circle(at(x, y), scale * radius, tokens.accent, casing);
        }
        Wedge(corners) => {
            let corners = corners.map(|(x, y)| at(x, y)).to_vec();
            painter.add(Shape::convex_polygon(corners, tokens.accent, Stroke::NONE));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::terms::WORDS;

    /// Words for a machine, a time or a sum need no sketch.
    #[test]
    fn every_word_has_a_sketch_but_those_that_no_picture_helps() {
        let without: Vec<&str> = WORDS
            .iter()
            .map(|(word, _)| *word)
            .filter(|word| parts(word).is_none())
            .collect();
        assert_eq!(without, ["Jointer", "Pot life", "Tolerance budget"]);
    }
}
