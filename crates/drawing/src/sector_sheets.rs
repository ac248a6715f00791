//! The sector jig on sheets: its outline, the holes to drill, the index holes, and how it is turned.

use board::{Board, Hole, Layout, show_length};
use geometry::{Angle, bearing_of, point_at};
use kurbo::{Circle, Line as Segment, Point, Rect};
use workshop::{Caution, FIRST, SectorPlan};

use crate::names::place_names;
use crate::plan::{cross_arm, layer};
use crate::tiled::sheets_of;
use crate::tiling::{Drawn, tile};
use crate::{
    Align, Anchor, Arc, Block, Cell, Column, Correction, Head, Item, Layer, Line, Shape, Sheet,
    Stamp, Table, Text, TilingError, pages, paper_size,
};

/// Wood around the outermost holes and beside the sides, mm; common practice, no source.
const BORDER: f64 = 25.0;
/// Size of the words at the index holes, mm.
const NOTE: f64 = 2.4;

/// The sheets of a sector jig, at true size, and a page that tells how it is turned.
///
/// # Errors
/// [`TilingError`] where it cannot be cut into sheets of the template's paper.
pub fn sector_sheets(
    board: &Board,
    layout: &Layout,
    jig: &SectorPlan,
    stamp: &Stamp,
    printer: Option<&Correction>,
) -> Result<Vec<Sheet>, TilingError> {
    let outline = Outline::of(board, jig);
    let mut items = outline.items();
    items.extend(drawn(board, layout, jig));
    let bounds = items
        .iter()
        .filter(|item| item.layer != Layer::Guides)
        .map(|item| match &item.shape {
            Shape::Arc(arc) => arc_bounds(arc),
            shape => shape.bounds(),
        })
        .reduce(|a, b| a.union(b))
        .unwrap_or(Rect::ZERO);
    let mut places: Vec<_> = jig
        .holes
        .iter()
        .map(|hole| (hole.name, hole.center))
        .collect();
    places.extend(jig.index.iter().map(|(name, hole)| (*name, hole.center)));
    let mut mouths: Vec<Circle> = jig.holes.iter().map(Hole::mouth).collect();
    mouths.extend(jig.index.iter().map(|(_, hole)| *hole));
    let drawing = Drawn {
        bounds,
        is_on: &|window| items.iter().any(|item| meets(item, window)),
        places: &places,
    };
    let tiling = tile(&board.template, &drawing, printer)?;
    let titled = Board {
        title: format!("Sector jig: {}", board.title),
        ..board.clone()
    };
    let mut sheets = sheets_of(&titled, &items, &mouths, &tiling, stamp);
    sheets.extend(turning(board, jig, stamp));
    Ok(sheets)
}

fn meets(item: &Item, window: Rect) -> bool {
    let bounds = item.shape.bounds();
    item.layer != Layer::Guides
        && bounds.x0 <= window.x1
        && bounds.x1 >= window.x0
        && bounds.y0 <= window.y1
        && bounds.y1 >= window.y0
}

/// Two sides as far beside the outermost bearings as the hub is wide, a hub around the pin, and an arc outside.
struct Outline {
    /// Bearing of the counter-clockwise side, and how far round the other is.
    from: Angle,
    sweep: Angle,
    hub: f64,
    outer: f64,
}

impl Outline {
    fn of(board: &Board, jig: &SectorPlan) -> Self {
        let axis = Angle::degrees(board.rotation);
        let index = jig.index.iter().map(|(_, hole)| *hole);
        let holes: Vec<Circle> = jig.holes.iter().map(Hole::mouth).chain(index).collect();
        let off = |hole: &Circle| {
            (bearing_of(hole.center) - axis)
                .wrapped_to_half_turns()
                .as_degrees()
        };
        let (mut low, mut high, mut outer, mut widest) = (0.0_f64, 0.0_f64, 0.0_f64, 0.0_f64);
        for hole in &holes {
            low = low.min(off(hole));
            high = high.max(off(hole));
            outer = outer.max(hole.center.to_vec2().length() + hole.radius);
            widest = widest.max(hole.radius);
        }
        Self {
            from: axis + Angle::degrees(low),
            sweep: Angle::degrees(high - low),
            hub: BORDER.max(widest + BORDER / 2.0),
            outer: outer + BORDER,
        }
    }

    fn items(&self) -> Vec<Item> {
        let quarter = Angle::degrees(90.0);
        let to = self.from + self.sweep;
        let along = (self.outer * self.outer - self.hub * self.hub)
            .max(0.0)
            .sqrt();
        let side = |bearing: Angle, out: Angle| {
            let start = point_at(self.hub, out);
            let end = start + point_at(along, bearing).to_vec2();
            (start, end)
        };
        let (left, right) = (side(self.from, self.from - quarter), side(to, to + quarter));
        // From the left side's end over the outside to the right one's.
        let aside = Angle::asin((self.hub / self.outer).min(1.0));
        let arc = |radius, start: Angle, sweep: Angle| {
            Shape::Arc(Arc {
                center: Point::ORIGIN,
                radius,
                start,
                sweep,
            })
        };
        let cut = |shape| Item {
            layer: Layer::Edge,
            line: Line::Cut,
            shape,
        };
        let around = Angle::TURN - self.sweep - quarter * 2.0;
        let mut items = vec![
            cut(Shape::Line(Segment::new(left.0, left.1))),
            cut(Shape::Line(Segment::new(right.0, right.1))),
            cut(arc(self.outer, self.from - aside, self.sweep + aside * 2.0)),
        ];
        if around.as_degrees() > 0.0 {
            items.push(cut(arc(self.hub, to + quarter, around)));
        }
        items
    }
}

/// A box around an arc, by points along it.
fn arc_bounds(arc: &Arc) -> Rect {
    let at = |step: u32| {
        let bearing = arc.start + arc.sweep * (f64::from(step) / 90.0);
        arc.center + point_at(arc.radius, bearing).to_vec2()
    };
    let first = Rect::from_points(at(0), at(90));
    // What lies between two of so many points sticks out by less than a tenth of a millimeter.
    let all = (1..90).fold(first, |all, step| all.union_pt(at(step)));
    all.inflate(0.1, 0.1)
}

/// Axis, holes to drill, index holes, the center pin, names.
fn drawn(board: &Board, layout: &Layout, jig: &SectorPlan) -> Vec<Item> {
    let mut items = Vec::new();
    let axis = Angle::degrees(board.rotation);
    let out = jig.holes.iter().map(|hole| hole.center.to_vec2().length());
    let rim = point_at(out.fold(0.0, f64::max) + BORDER, axis);
    items.push(Item {
        layer: Layer::Guides,
        line: Line::Guide,
        shape: Shape::Line(Segment::new(Point::ORIGIN, rim)),
    });
    for hole in &jig.holes {
        let mut mark = |shape| {
            items.push(Item {
                layer: layer(hole.name.id().role()),
                line: Line::Drill,
                shape,
            });
        };
        mark(Shape::Circle(hole.mouth()));
        mark(Shape::Cross {
            center: hole.center,
            arm: cross_arm(hole),
        });
    }
    let mut center = |shape| {
        items.push(Item {
            layer: Layer::Center,
            line: Line::Drill,
            shape,
        });
    };
    center(Shape::Circle(Circle::new(
        Point::ORIGIN,
        board.jig.pin / 2.0,
    )));
    center(Shape::Cross {
        center: Point::ORIGIN,
        arm: board.jig.pin / 2.0 + 6.0,
    });
    words(
        &mut items,
        Point::new(0.0, -board.jig.pin / 2.0 - 9.0),
        format!("center pin Ø {}", show_length(board.jig.pin, board.units)),
    );
    for (name, hole) in &jig.index {
        index(board, &mut items, &name.to_string(), *hole);
    }
    let mut own = layout.clone();
    own.holes.clone_from(&jig.holes);
    place_names(board, &own, &mut items);
    items
}

/// An index hole: two circles, a cross, and which hole's copy it stands over.
fn index(board: &Board, items: &mut Vec<Item>, name: &str, hole: Circle) {
    let mut mark = |shape| {
        items.push(Item {
            layer: Layer::Extra,
            line: Line::Drill,
            shape,
        });
    };
    mark(Shape::Circle(hole));
    mark(Shape::Circle(Circle::new(hole.center, hole.radius + 1.5)));
    mark(Shape::Cross {
        center: hole.center,
        arm: 0.5 * hole.radius,
    });
    let size = show_length(2.0 * hole.radius, board.units);
    let below = hole.center - kurbo::Vec2::new(0.0, hole.radius + 5.0);
    words(items, below, format!("index {name} Ø {size}"));
}

fn words(items: &mut Vec<Item>, at: Point, words: String) {
    items.push(Item {
        layer: Layer::Names,
        line: Line::Dimension,
        shape: Shape::Text(Text::level(at, NOTE, Anchor::Middle, words)),
    });
}

/// The page that tells how the jig is turned, and what that adds up to.
fn turning(board: &Board, jig: &SectorPlan, stamp: &Stamp) -> Vec<Sheet> {
    let turn = board::show_number(360.0 / f64::from(board.players), 4);
    let mut blocks = vec![
        Block::Words(format!(
            "Drill and cut the jig from hardboard; turn it clockwise by {turn}° each time. Drill the center hole of the \
             board apart."
        )),
        Block::Caution(format!(
            "{} {} {FIRST}",
            Caution::DrillPress.words(),
            Caution::Dust.words()
        )),
        Block::Heading("Order of turning".into()),
        Block::Table(turns(board, jig)),
        Block::Heading("What the turns add up to".into()),
    ];
    blocks.extend(closing(board, jig).into_iter().map(Block::Words));
    if !jig.apart.is_empty() {
        let names: Vec<String> = jig.apart.iter().map(ToString::to_string).collect();
        let names = names.join(" ");
        blocks.push(Block::Caution(format!(
            "Changed by hand in one sector only, so not as the jig drills: {names}."
        )));
    }
    let head = Head {
        title: "Sector jig".into(),
        subtitle: format!("{}  {}", board.title, stamp.date),
        label: "order of turning".into(),
    };
    let paper = paper_size(board.template.paper);
    pages(paper, board.template.margin, &head, &blocks)
}

fn turns(board: &Board, jig: &SectorPlan) -> Table {
    let row = |player: u32| {
        let copy = |(name, _): &(board::HoleName, Circle)| {
            name.to_string().replacen('1', &(player - 1).to_string(), 1)
        };
        let into = if player == 1 {
            "center pin only: clamp on player 1's axis".to_owned()
        } else {
            let copies: Vec<String> = jig.index.iter().map(copy).collect();
            format!("index pin in {}", copies.join(" and "))
        };
        vec![
            Cell::Tick,
            Cell::Words(player.to_string()),
            Cell::Words(into),
            Cell::Words(format!("all holes of player {player}")),
        ]
    };
    let columns = [
        ("", Align::Start),
        ("Turn", Align::End),
        ("Hold by", Align::Start),
        ("Drill", Align::Start),
    ];
    Table {
        columns: columns
            .map(|(title, align)| Column::new(title, align))
            .to_vec(),
        rows: (1..=board.players).map(row).collect(),
    }
}

fn closing(board: &Board, jig: &SectorPlan) -> Vec<String> {
    let length = |mm: f64| show_length((mm * 100.0).round() / 100.0, board.units);
    let degrees = |degrees: f64| board::show_number(degrees, 3);
    let play = board.sector_jig.map_or(0.0, |jig| jig.play);
    let mut words = vec![format!(
        "With {} of play at each pin the last sector may be turned off by {}°, at worst {}°.",
        length(play),
        degrees(jig.turned.1),
        degrees(jig.turned.0)
    )];
    if let Some((a, b, wood)) = jig.closing {
        words.push(format!(
            "Between {a} and {b}, where the round closes, {} of wood are laid out; {} are likely to be left, {} at worst.",
            length(wood),
            length(jig.left.1),
            length(jig.left.0)
        ));
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{SectorJig, layout};
    use workshop::sector_jig;

    fn sheets(board: &Board) -> Vec<Sheet> {
        let holes = layout(board).unwrap();
        let plan = sector_jig(board, &holes).unwrap().unwrap();
        sector_sheets(board, &holes, &plan, &Stamp::default(), None).unwrap()
    }

    fn asked(players: u32) -> Board {
        Board {
            players,
            sector_jig: Some(SectorJig::default()),
            ..Board::default()
        }
    }

    #[test]
    fn every_hole_of_the_sector_and_every_index_hole_is_on_a_sheet() {
        for players in [2, 3, 6, 8] {
            let board = asked(players);
            let plan = sector_jig(&board, &layout(&board).unwrap())
                .unwrap()
                .unwrap();
            let sheets = sheets(&board);
            let centers = plan.holes.iter().map(|hole| hole.center);
            for center in centers.chain(plan.index.iter().map(|(_, hole)| hole.center)) {
                let on = |sheet: &&Sheet| {
                    sheet
                        .view
                        .window
                        .contains(center + sheet.view.page_from_board)
                };
                assert!(
                    sheets
                        .iter()
                        .filter(|sheet| !sheet.view.items.is_empty())
                        .any(|sheet| on(&sheet))
                );
            }
        }
    }

    #[test]
    fn wood_is_left_around_every_hole_of_the_jig() {
        let board = asked(6);
        let plan = sector_jig(&board, &layout(&board).unwrap())
            .unwrap()
            .unwrap();
        let outline = Outline::of(&board, &plan);
        for hole in &plan.holes {
            assert!(
                outline.outer - hole.center.to_vec2().length() - hole.bore.radius()
                    >= BORDER - 1e-9
            );
        }
        assert!(outline.hub >= BORDER);
    }

    #[test]
    fn the_order_of_turning_names_the_hole_of_the_sector_before() {
        let all: Vec<String> = sheets(&asked(6))
            .into_iter()
            .flat_map(|sheet| sheet.marks)
            .filter_map(|item| match item.shape {
                Shape::Text(text) => Some(text.words),
                _ => None,
            })
            .collect();
        assert!(
            all.iter().any(|words| words == "index pin in T5-14"),
            "{all:?}"
        );
    }
}
