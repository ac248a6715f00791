//! The tiled template: one sheet for each tile, with crosses on every joint.
//!
//! Items that touch a sheet's window are on it whole, and the writer of the sheet clips them at the window. Bars and words come
//! last, in the places where they cover the least.

use geometry::Arc;
use kurbo::{Point, Rect, Vec2};

use crate::stopped::stop_line;
use crate::taken::{Taken, farthest, nearest};
use crate::template::joint::{Joint, Room, joints};
use crate::template::placing::{Furniture, furniture};
use crate::template::subject::Subject;
use workshop::{Tile, Tiling, TilingError, Workpiece};

use crate::{Item, Layer, Shape, Sheet, Stamp, View, corners_of};

/// The sheets of a tiled template, row by row from the top left: each shows its part of the plan at true size, with the
/// crosses it shares with its neighbors, bars to measure, a key map and a title.
///
/// ```
/// use board::Board;
/// use drawing::{Stamp, tiled_sheets};
/// use workshop::Workpiece;
///
/// let workpiece = Workpiece::of(&Board::default())?;
/// let (sheets, tiling) = (tiled_sheets(&workpiece, &Stamp::default())?, workpiece.tiling().unwrap());
/// assert_eq!(sheets.len(), tiling.tiles.len());
/// // The board is drawn within the printable area.
/// assert!(sheets.iter().all(|sheet| sheet.view.window == tiling.printable()));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`TilingError`] where it cannot be cut into sheets of its paper.
pub fn tiled_sheets(workpiece: &Workpiece, stamp: &Stamp) -> Result<Vec<Sheet>, TilingError> {
    let tiling = workpiece.tiling().map_err(Clone::clone)?;
    let subject = Subject {
        stop: stop_line(workpiece),
        ..Subject::template(workpiece)
    };
    Ok(sheets_of(&subject, tiling, stamp))
}

/// The sheets of any subject, whose joints keep clear of its holes.
pub fn sheets_of(subject: &Subject<'_>, tiling: &Tiling, stamp: &Stamp) -> Vec<Sheet> {
    let joints = joints(tiling, room(subject));
    let make = |(mut items, tile): (Vec<Item>, &Tile)| {
        let printable = tiling.printable();
        let page_from_board = printable.origin() - tile.window.origin();
        let Furniture { marks, blocks } =
            furniture(subject, tiling, tile, stamp, &items, page_from_board);
        leave_marks_clear(&mut items, &blocks, page_from_board);
        let view = View {
            window: printable,
            page_from_board,
            tints: Vec::new(),
            items,
        };
        Sheet {
            size: tiling.paper,
            label: tile.label(),
            view,
            marks,
            correction: tiling.correction.clone(),
        }
    };
    let shown = shown(&subject.items, tiling, &joints);
    shown.into_iter().zip(&tiling.tiles).map(make).collect()
}

/// The room that bores, their names and other words leave for the crosses on joints.
///
/// A cross may overlap the outline of a bore if there is no other room, but never the cross in it, which marks the punch.
fn room(subject: &Subject<'_>) -> Room {
    let side = subject.board.blank.diameter;
    let area = Rect::from_center_size(Point::ORIGIN, (side, side));
    let new = || Taken::new(area, subject.mouths.len());
    let (mut best, mut least, marks) = (new(), new(), new());
    for mouth in &subject.mouths {
        let side = 2.0 * mouth.radius;
        best.add(Rect::from_center_size(mouth.center, (side, side)));
    }
    for item in &subject.items {
        match &item.shape {
            Shape::Text(text) => best.add(text.bounds()),
            Shape::Cross { center, arm } => {
                for (across, up) in [(*arm, 0.5), (0.5, *arm)] {
                    let line = Rect::from_center_size(*center, (2.0 * across, 2.0 * up));
                    best.add(line);
                    least.add(line);
                }
            }
            _ => {}
        }
    }
    Room { best, least, marks }
}

/// For each tile, the parts of the plan and the joint marks that it shows.
///
/// A name that would be cut off on a tile is left to a sheet that shows all of it, if there is one.
fn shown(plan: &[Item], tiling: &Tiling, joints: &[Joint]) -> Vec<Vec<Item>> {
    let tiles = &tiling.tiles;
    let mut shown = vec![Vec::new(); tiles.len()];
    let grid = Grid::of(tiling);
    for item in plan {
        let bounds = item.shape.bounds();
        let near = grid.meeting(bounds);
        let is_whole = |at: &usize| {
            let tile = tiles.get(*at);
            tile.is_some_and(|tile| tile.window.contains_rect(bounds))
        };
        let is_name_seen_whole = item.layer == Layer::Names && near.iter().any(is_whole);
        for at in near {
            let is_seen = tiles
                .get(at)
                .is_some_and(|tile| touches(&item.shape, tile.window));
            if is_seen
                && (!is_name_seen_whole || is_whole(&at))
                && let Some(items) = shown.get_mut(at)
            {
                items.push(item.clone());
            }
        }
    }
    for joint in joints {
        for (tile, names) in joint.tiles.iter().zip(&joint.names) {
            if let Some(items) = shown.get_mut(*tile) {
                items.extend(joint.marks.iter().chain(names).cloned());
            }
        }
    }
    shown
}

/// The tiles by their positions, so that an item is tested only on those near it.
struct Grid {
    /// Left and right ends of the columns.
    columns: Vec<(f64, f64)>,
    /// Lower and upper ends of the rows.
    rows: Vec<(f64, f64)>,
    /// The tile at each place, row by row.
    tiles: Vec<Option<usize>>,
}

impl Grid {
    fn of(tiling: &Tiling) -> Self {
        let (columns, rows) = (tiling.columns as usize, tiling.rows as usize);
        let nowhere = (f64::INFINITY, f64::NEG_INFINITY);
        let mut grid = Self {
            columns: vec![nowhere; columns],
            rows: vec![nowhere; rows],
            tiles: vec![None; columns * rows],
        };
        for (at, tile) in tiling.tiles.iter().enumerate() {
            let (column, row) = (tile.column as usize, tile.row as usize);
            if let Some(ends) = grid.columns.get_mut(column) {
                *ends = (tile.window.x0, tile.window.x1);
            }
            if let Some(ends) = grid.rows.get_mut(row) {
                *ends = (tile.window.y0, tile.window.y1);
            }
            if let Some(place) = grid.tiles.get_mut(row * columns + column) {
                *place = Some(at);
            }
        }
        grid
    }

    /// The tiles whose windows a box overlaps.
    fn meeting(&self, bounds: Rect) -> Vec<usize> {
        let meets = |ends: &(f64, f64), low: f64, high: f64| low <= ends.1 && high >= ends.0;
        let rows = self.rows.iter().enumerate();
        let rows = rows.filter(|(_, ends)| meets(ends, bounds.y0, bounds.y1));
        let across = |row: usize| {
            let columns = self.columns.iter().enumerate();
            let columns = columns.filter(|(_, ends)| meets(ends, bounds.x0, bounds.x1));
            columns.filter_map(move |(column, _)| {
                *self.tiles.get(row * self.columns.len() + column)?
            })
        };
        rows.flat_map(|(row, _)| across(row)).collect()
    }
}

/// Leaves out the names of holes under a block or a mark of a joint; the hole table has them all the same.
///
/// This happens on sheets so crowded that neither block nor cross has another place.
fn leave_marks_clear(items: &mut Vec<Item>, blocks: &[Rect], page_from_board: Vec2) {
    let marks = items.iter().filter(|item| item.layer == Layer::Marks);
    let marks = marks.filter(|item| !matches!(item.shape, Shape::Line(_)));
    let blocks = blocks.iter().map(|block| *block - page_from_board);
    let taken: Vec<Rect> = marks
        .map(|item| item.shape.bounds())
        .chain(blocks)
        .collect();
    items.retain(|item| {
        let is_name = item.layer == Layer::Names;
        let bounds = item.shape.bounds();
        !is_name || !taken.iter().any(|area| area.overlaps(bounds))
    });
}

/// Whether any of a shape's line can be in a window; true is allowed for a near miss.
///
/// A shape that misses is left out of a sheet; one that is kept needlessly costs a few bytes, and is clipped with the rest.
pub fn touches(shape: &Shape, window: Rect) -> bool {
    let bounds = shape.bounds();
    let meets = bounds.x0 <= window.x1
        && bounds.x1 >= window.x0
        && bounds.y0 <= window.y1
        && bounds.y1 >= window.y0;
    let rings = |center, radius| {
        meets && farthest(window, center) >= radius && nearest(window, center) <= radius
    };
    match shape {
        Shape::Circle(circle) => rings(circle.center, circle.radius),
        Shape::Arc(arc) => rings(arc.center, arc.radius) && passes(arc, window),
        Shape::Line(line) => meets && !is_aside(line, window),
        _ => meets,
    }
}

/// Whether an arc comes within a millimeter of a window, tested at points along it.
fn passes(arc: &Arc, window: Rect) -> bool {
    let steps = arc.length().ceil().max(1.0);
    let near = window.inflate(1.0, 1.0);
    (0..=steps as u32).any(|step| near.contains(arc.at(f64::from(step) / steps)))
}

/// Whether a whole window is on one side of a line.
fn is_aside(line: &kurbo::Line, window: Rect) -> bool {
    let way = line.p1 - line.p0;
    let sides = corners_of(window).map(|corner| way.cross(corner - line.p0));
    sides.iter().all(|side| *side > 0.0) || sides.iter().all(|side| *side < 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Layer;
    use board::Board;
    use board::layout;
    use std::collections::BTreeMap;
    use workshop::Correction;

    fn sheets_of(board: &Board) -> Vec<Sheet> {
        tiled_sheets(&Workpiece::of(board).unwrap(), &Stamp::default()).unwrap()
    }

    #[test]
    fn every_bore_is_whole_on_some_sheet_or_shared_across_a_joint() {
        let board = Board::default();
        let holes = layout(&board).unwrap();
        let sheets = sheets_of(&board);
        for hole in &holes.holes {
            let on = |sheet: &Sheet| {
                sheet
                    .view
                    .window
                    .contains(hole.center + sheet.view.page_from_board)
            };
            assert!(sheets.iter().any(on), "{} is on no sheet", hole.name);
        }
    }

    #[test]
    fn each_joint_has_two_crosses_and_both_sheets_show_them() {
        let mut seen: BTreeMap<String, usize> = BTreeMap::new();
        for sheet in sheets_of(&Board::default()) {
            let names = sheet
                .view
                .items
                .iter()
                .filter(|item| item.layer == Layer::Marks);
            for item in names {
                if let Shape::Text(text) = &item.shape {
                    let at = text.at + sheet.view.page_from_board;
                    assert!(
                        sheet.view.window.contains(at),
                        "{} is off its sheet",
                        text.words
                    );
                    *seen.entry(text.words.clone()).or_default() += 1;
                }
            }
        }
        assert!(seen.len() >= 2 * 7, "{seen:?}");
        assert!(seen.values().all(|&sheets| sheets == 2), "{seen:?}");
        for name in seen.keys().filter(|name| name.ends_with('a')) {
            assert!(seen.contains_key(&name.replace('a', "b")));
        }
    }

    /// A name too long for the sheet is cut, and the words stay on the sheet.
    #[test]
    fn corrected_sheets_say_so_and_draw_inside_their_printable_part() {
        let board = Board::default();
        let print = workshop::PrintCorrection {
            x: 1.02,
            y: 1.01,
            skew: geometry::Angle::degrees(0.5),
        };
        let correction = Correction {
            printer: "the one in the office, ".repeat(4),
            print,
        };
        let workpiece = Workpiece::printed(&board, Some(correction.clone())).unwrap();
        let tiling = workpiece.tiling().unwrap();
        let inside = tiling.paper.to_rect().inset(1e-9 - tiling.margin);
        for sheet in tiled_sheets(&workpiece, &Stamp::default()).unwrap() {
            let map = sheet.correction_transform().unwrap();
            assert!(inside.contains_rect(map.transform_rect_bbox(sheet.view.window)));
            let mut words = 0;
            for item in &sheet.marks {
                assert!(inside.contains_rect(map.transform_rect_bbox(item.shape.bounds())));
                if let Shape::Text(text) = &item.shape {
                    let [first, second] = correction.on(tiling.paper).words();
                    let is_first = text.words.ends_with('…')
                        && first.starts_with(text.words.trim_end_matches('…'));
                    words += usize::from(is_first || text.words == second);
                }
            }
            assert_eq!(words, 2, "{}", sheet.label);
        }
    }

    /// By the windows: two neighbors share the overlap, on every printer.
    #[test]
    fn a_printer_that_prints_small_fits_less_board_on_a_sheet() {
        let board = Board::default();
        let print = workshop::PrintCorrection {
            x: 1.01,
            y: 0.99,
            ..workshop::PrintCorrection::IDENTITY
        };
        let correction = Correction {
            printer: "Ink".into(),
            print,
        };
        let workpiece = Workpiece::printed(&board, Some(correction.clone())).unwrap();
        let tiling = workpiece.tiling().unwrap();
        let lies = tiling.is_landscape();
        let inside = tiling.paper.to_rect().inset(-tiling.margin).size();
        let window = tiling.tiles[0].window.size();
        let [stretched, kept] = if lies {
            [(window.height, inside.height), (window.width, inside.width)]
        } else {
            [(window.width, inside.width), (window.height, inside.height)]
        };
        assert!((stretched.0 - stretched.1 / 1.01).abs() < 1e-9);
        assert!((kept.0 - kept.1).abs() < 1e-9);
        let (first, second) = (&tiling.tiles[0].window, &tiling.tiles[1].window);
        assert!((first.x1 - second.x0 - tiling.overlap).abs() < 1e-9);
    }

    /// The lines at the foot run below the key map, not over it.
    #[test]
    fn no_words_of_the_title_block_overlap_its_key_map() {
        let board = Board {
            router: Some(board::Router::default()),
            ..Board::default()
        };
        let workpiece = Workpiece::of(&board).unwrap();
        let tiling = workpiece.tiling().unwrap();
        let sheets = crate::router_sheets(&workpiece, &Stamp::default()).unwrap();
        for sheet in &sheets[..tiling.tiles.len()] {
            let bounds = |wanted: fn(&Shape) -> bool| {
                let found = sheet.marks.iter().filter(move |item| wanted(&item.shape));
                found.map(|item| item.shape.bounds())
            };
            let map =
                bounds(|shape| matches!(shape, Shape::Area(_) | Shape::Circle(_) | Shape::Arc(_)))
                    .reduce(|a, b| a.union(b))
                    .unwrap();
            let foot = bounds(
                |shape| matches!(shape, Shape::Text(text) if text.words.starts_with("Bushing")),
            );
            let foot: Vec<Rect> = foot.collect();
            assert_eq!(foot.len(), 1);
            assert!(
                foot[0].y1 < map.y0,
                "{foot:?} on {map:?} of {}",
                sheet.label
            );
        }
    }

    #[test]
    fn every_sheet_of_a_board_that_is_stopped_says_so_in_its_upper_part() {
        let mut board = Board {
            pitch: 11.0,
            ..Board::default()
        };
        for paper in [board::Paper::A4, board::Paper::Letter] {
            board.template.paper = paper;
            for sheet in sheets_of(&board) {
                let page = sheet.size.to_rect().inset(1.0 - board.template.margin);
                let stop = sheet.marks.iter().find_map(|item| match &item.shape {
                    Shape::Text(text) if text.words.starts_with("STOP") => Some(text),
                    _ => None,
                });
                let stop = stop.unwrap();
                // The line may be broken.
                let titles = sheet.marks.iter().filter(|item| item.layer == Layer::Title);
                let words = titles.filter_map(|item| match &item.shape {
                    Shape::Text(text) => Some(text.words.as_str()),
                    _ => None,
                });
                let words: Vec<&str> = words.collect();
                assert!(words.join(" ").contains("wood between holes"), "{words:?}");
                assert!(page.contains_rect(stop.bounds()), "{:?}", stop.bounds());
                assert!(stop.at.y > 0.7 * sheet.size.height);
            }
        }
        let sound = sheets_of(&Board::default());
        let marks = sound.iter().flat_map(|sheet| &sheet.marks);
        let is_stop = |item: &Item| matches!(&item.shape, Shape::Text(text) if text.words.starts_with("STOP"));
        assert!(!marks.into_iter().any(is_stop));
    }

    #[test]
    fn every_sheet_has_bars_both_ways_and_a_label() {
        for sheet in sheets_of(&Board::default()) {
            let words: Vec<&str> = sheet
                .marks
                .iter()
                .filter_map(|item| match &item.shape {
                    Shape::Text(text) => Some(text.words.as_str()),
                    _ => None,
                })
                .collect();
            assert_eq!(
                words.iter().filter(|words| **words == "100 mm").count(),
                2,
                "{words:?}"
            );
            assert_eq!(words.iter().filter(|words| **words == "4\"").count(), 2);
            assert!(words.contains(&sheet.label.as_str()));
            for item in &sheet.marks {
                let page = sheet
                    .size
                    .to_rect()
                    .inset(-board::Template::default().margin + 1.0);
                assert!(
                    page.contains_rect(item.shape.bounds()),
                    "{:?} leaves the page",
                    item.shape
                );
            }
        }
    }
}
