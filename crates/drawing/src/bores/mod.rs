//! The fit strip on paper: bores to drill in scrap at true size, and a list to tick off.
//!
//! A strip is laid on the scrap like a sheet of the template and punched through, so it is corrected for the maker's printer in
//! the same way. The bore that fits is ticked by hand, and entered in the document afterward.

mod figure;

use board::{Measure, Role, Units, show_setting};
use kurbo::Size;
use workshop::{
    Caution, Correction, Fit, FitStrip, FitTry, NearDrill, Workpiece, diameter_field, fit_strips,
    paper_size, printable,
};

use crate::cautions::cautions;
use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, pages};

/// The fit strips of a board on the paper of its template: five test holes around each planned size, drawn at true size, with
/// their nearest drills, their depth and the calculated fit of the piece.
///
/// ```
/// use board::Board;
/// use drawing::{Shape, Stamp, fit_strip_pages};
/// use workshop::Workpiece;
///
/// let sheets = fit_strip_pages(&Workpiece::of(&Board::default())?, &Stamp::default());
/// let circles = sheets[0].marks.iter().filter(|item| matches!(item.shape, Shape::Circle(_)));
/// assert_eq!((sheets.len(), circles.count()), (1, 5));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn fit_strip_pages(workpiece: &Workpiece, stamp: &Stamp) -> Vec<Sheet> {
    let board = workpiece.board();
    let paper = paper_size(board.template.paper);
    let correction = workpiece.printer().map(|printer| printer.on(paper));
    let area = printable(paper, board.template.margin, correction.as_ref());
    // The margin of a page is the widest of the sheet's margins on every side.
    let margin = area.x0.max(area.y0);
    let says = Says {
        units: board.units,
        room: Size::new(paper.width - 2.0 * margin, paper.height - 2.0 * margin),
    };
    let mut blocks = opening(correction.as_ref());
    for strip in fit_strips(board) {
        blocks.extend(says.strip(&strip));
    }
    let head = Head {
        // The strip is drilled in scrap, and may resolve what stops the board.
        stop: None,
        ..Head::of("Fit strip", "fit strip", workpiece, stamp)
    };
    let mut sheets = pages(paper, margin, &head, &blocks);
    for sheet in &mut sheets {
        sheet.correction.clone_from(&correction);
    }
    sheets
}

/// The words before the strips: how to try the pieces, in which wood, and how to hold the scrap. Scrap held by hand is how
/// fingers get hurt at a drill press, so the caution comes before anything is drilled.
fn opening(correction: Option<&Correction>) -> Vec<Block> {
    let mut print = "Print at 100 %, not fitted to the page, and measure the line below each strip before you lay it on the wood."
        .to_owned();
    if let Some(correction) = correction {
        print.push(' ');
        print.push_str(&correction.words().join(" "));
    }
    let scrap = "Clamp the scrap over a waste board; do not hold it by hand: a bit that catches spins short scrap or lifts it.";
    let mut blocks = vec![
        Block::Words(
            "Drill these holes in scrap of the same board, with the bit and at the speed that you will drill the board with, \
             and finish them as you will finish the board. Try the piece in each; where pieces differ, try the largest and \
             the smallest. Tick the hole that fits."
                .into(),
        ),
        Block::Words(print),
        Block::Caution(scrap.into()),
    ];
    blocks.extend(cautions(&[
        Caution::DrillPress,
        Caution::Eyes,
        Caution::Dust,
        Caution::Noise,
    ]));
    blocks
}

/// Builds the text of the strips, for the room on their page.
struct Says {
    /// The unit of sizes.
    units: Units,
    /// Width and height inside the margins, mm.
    room: Size,
}

impl Says {
    /// A strip under its heading, with its list and how to enter the result. Where the paper has no room for the bores, only
    /// the list is printed.
    fn strip(&self, strip: &FitStrip) -> Vec<Block> {
        let (bore, roles) = (strip.bore, roles(&strip.roles));
        let mut blocks = vec![Block::Heading(format!(
            "{roles}: {} across, {} deep, {}",
            self.size(bore.diameter),
            self.size(bore.depth),
            bore.bottom.label()
        ))];
        let figures = figure::rows(&strip.tries, self.units, self.room);
        if figures.is_empty() {
            blocks.push(Block::Words(
                "These holes are wider than the paper: mark their centers on the scrap by hand, as far apart as there is room."
                    .into(),
            ));
        }
        blocks.extend(figures.into_iter().map(Block::Figure));
        blocks.push(Block::Table(self.table(&strip.tries)));
        blocks.push(Block::Words(take_over(&strip.roles)));
        blocks
    }

    /// The drilling list, one row per bore, with boxes for "drilled" and for the one that fits.
    ///
    /// Twist drills have a separate column where the bit is of another kind: they come in tenths of a millimeter or 64ths of an
    /// inch, and show how the piece fits at a width that no Forstner bit has.
    fn table(&self, tries: &[FitTry]) -> Table {
        let first = tries.first();
        let cutter = first.and_then(|tried| tried.near.first());
        let cutter = cutter.map_or("bit", |near| near.drill.series.cutter.label());
        let has_twist = tries.iter().any(|tried| !tried.twist.is_empty());
        let fit = first.and_then(|tried| tried.fit).map(column_of);
        let mut titles = vec![
            ("Drilled", Align::Start),
            ("Hole", Align::Start),
            ("Diameter", Align::End),
            ("Depth", Align::End),
        ];
        let nearest = format!("Nearest {cutter}");
        titles.push((&nearest, Align::Start));
        titles.extend(has_twist.then_some(("Nearest twist drill", Align::Start)));
        titles.extend(fit.map(|title| (title, Align::End)));
        titles.push(("Fits", Align::Start));
        let row = |tried: &FitTry| {
            let mut row = vec![
                Cell::Tick,
                tried.letter.to_string().into(),
                self.size(tried.bore.diameter).into(),
                self.size(tried.bore.depth).into(),
                self.drills(&tried.near).into(),
            ];
            row.extend(has_twist.then(|| self.drills(&tried.twist).into()));
            row.extend(tried.fit.map(|fit| self.fit(fit).into()));
            row.push(Cell::Tick);
            row
        };
        Table {
            columns: Column::all(&titles),
            rows: tries.iter().map(row).collect(),
        }
    }

    /// The names of drills, with the difference if the size is another.
    fn drills(&self, near: &[NearDrill]) -> String {
        let words = near.iter().map(|near| {
            let name = &near.drill.name;
            if near.is_exact() {
                return name.clone();
            }
            let sign = if near.larger < 0.0 { "−" } else { "+" };
            format!("{name} ({sign}{})", self.difference(near.larger.abs()))
        });
        let words = words.collect::<Vec<_>>().join(", ");
        if words.is_empty() {
            "none".into()
        } else {
            words
        }
    }

    /// The fit of a piece, in words. It is calculated from sizes, for comparison with the trial by hand, which decides.
    fn fit(&self, fit: Fit) -> String {
        match fit {
            Fit::FallsIn => "falls in".into(),
            Fit::TooWide(by) => format!("too tight by {}", self.reading(by)),
            Fit::Sinks(mm) | Fit::Play(mm) | Fit::Glue(mm) => self.reading(mm),
        }
    }

    /// A size to drill, as text.
    fn size(&self, mm: f64) -> String {
        show_setting(mm, self.units)
    }

    /// The difference of two sizes, as text. In inches it has the resolution of a size: a fraction would round it away.
    fn difference(&self, mm: f64) -> String {
        match self.units {
            Units::Mm => self.reading(mm),
            Units::Inch(_) => self.size(mm),
        }
    }

    /// A length that is only read, as text.
    fn reading(&self, mm: f64) -> String {
        Measure::mm(mm).shown(self.units)
    }
}

/// The heading of the column for the fit of a piece. All bores of a strip hold the same kind of piece, so the first bore
/// decides it.
const fn column_of(fit: Fit) -> &'static str {
    match fit {
        Fit::Sinks(_) | Fit::FallsIn => "Marble sinks",
        Fit::Play(_) | Fit::TooWide(_) => "Play",
        Fit::Glue(_) => "Room for glue",
    }
}

/// Roles as a list that starts a sentence: Track, home and start. They have the names of the document's fields, which the line
/// below the list uses too.
fn roles(roles: &[Role]) -> String {
    let ids: Vec<&str> = roles.iter().map(|role| role.id()).collect();
    let list = match ids.as_slice() {
        [others @ .., last] if !others.is_empty() => format!("{} and {last}", others.join(", ")),
        _ => ids.concat(),
    };
    board::capital(&list)
}

/// How to enter the size that fits in the document, in the window and on a command line. A number without a unit is in the
/// board's own, as in the list.
fn take_over(roles: &[Role]) -> String {
    let fields = roles.iter().filter_map(|role| diameter_field(*role));
    let paths: Vec<String> = fields.map(|field| format!("{} SIZE", field.path)).collect();
    format!(
        "To use the size that fits, press it beside “Fit strip” under the bore at the stage Drill, or type this command with the \
         size in place of SIZE: ringwright set BOARD.json {}",
        paths.join(" ")
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Shape;
    use board::{Board, Bore, Bottom, Paper, PieceKind};
    use testkit::assert_near;

    fn sheets(board: &Board) -> Vec<Sheet> {
        fit_strip_pages(&Workpiece::of(board).unwrap(), &Stamp::default())
    }

    fn words(sheets: &[Sheet]) -> String {
        let items = sheets.iter().flat_map(|sheet| &sheet.marks);
        let words = items.filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text.words.as_str()),
            _ => None,
        });
        words.collect::<Vec<_>>().join(" ")
    }

    fn circles(sheets: &[Sheet]) -> Vec<kurbo::Circle> {
        let items = sheets.iter().flat_map(|sheet| &sheet.marks);
        let circles = items.filter_map(|item| match item.shape {
            Shape::Circle(circle) => Some(circle),
            _ => None,
        });
        circles.collect()
    }

    #[test]
    fn five_bores_are_drawn_at_true_size_beside_their_list() {
        let sheets = sheets(&Board::default());
        let circles = circles(&sheets);
        for (circle, diameter) in circles.iter().zip([11.8, 11.9, 12.0, 12.1, 12.2]) {
            assert_near!(circle.radius * 2.0, diameter, 1e-9);
        }
        let apart = circles[4].center.distance(circles[0].center);
        let words = words(&sheets);
        assert!(words.contains(&format!("A to E: {apart:.0} mm")), "{words}");
        assert!(words.contains("Nearest Forstner bit") && words.contains("Marble sinks"));
        assert!(words.contains("bores.start.diameter_mm SIZE"));
    }

    #[test]
    fn each_bore_that_differs_has_a_strip_with_its_own_fit() {
        let mut board = Board {
            units: Units::INCH,
            ..Board::default()
        };
        board.piece.kind = PieceKind::Peg;
        board.piece.shank = Some(12.0);
        board.bores.home.diameter = 8.0;
        board.center = board::Center::Nothing;
        let sheets = sheets(&board);
        assert_eq!(circles(&sheets).len(), 10);
        let words = words(&sheets);
        assert!(words.contains("Track and start: "), "{words}");
        assert!(words.contains("Home: ") && words.contains("too tight by"));
        assert!(words.contains("A to E: 4\""), "{words}");
    }

    /// No size or role of bore, paper or unit puts anything outside the margins or over the foot of a page.
    #[test]
    fn nothing_leaves_the_margins_whatever_the_bore_and_the_paper() {
        let small = Paper::Custom {
            width: 80.0,
            height: 120.0,
        };
        for paper in [Paper::A4, Paper::Letter, small] {
            for diameter in [0.2, 6.0, 12.0, 40.0, 90.0, 300.0] {
                let mut board = Board::default();
                (board.template.paper, board.template.margin) = (paper, 8.0);
                board.bores.home = Bore {
                    diameter,
                    depth: 4.0,
                    bottom: Bottom::Flat,
                };
                for sheet in sheets(&board) {
                    let room = sheet.size.to_rect().inset(-7.9);
                    for item in &sheet.marks {
                        let bounds = item.shape.bounds();
                        assert!(room.contains_rect(bounds), "{diameter}: {:?}", item.shape);
                    }
                }
            }
        }
    }
}
