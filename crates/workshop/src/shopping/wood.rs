//! Lumber, panels and sheets to buy, from the cut list.

use std::collections::BTreeMap;

use board::{Board, Build, INCH, Measure, StockOutline, Units, capital, counted, show_length};

use super::lumber::{SoldThickness, board_feet, cubic_meters, tallied_board_feet};
use super::parts::{CutFrom, CutPart, PartSize, cut_list};
use super::{Shelf, SoldBy, ToBuy, in_name};
use crate::Workpiece;
use crate::blank::panel::{panel_width, sawn_width};
use crate::blank::stock::boards_of_blank;
use crate::wood::species_of;

/// Lumber by thickness, then panels and sheets.
pub fn lines(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let board = workpiece.board();
    let parts = cut_list(workpiece, boards);
    let mut all = lumber(workpiece, &parts, boards);
    all.extend(blanks(board, boards));
    all.extend(tenon_stock(board, &parts));
    for part in &parts {
        match part.from {
            CutFrom::Plywood => all.push(sheet_part(part, board, "plywood", Shelf::Wood)),
            CutFrom::Hardboard => all.push(hardboard(part, board)),
            _ => {}
        }
    }
    all
}

/// Blocks of lumber by the thickness in which they are sold; `None` for blocks thicker than any sold.
///
/// The entries are length (all parts in a row), width and thickness of blocks, mm.
type Volumes = BTreeMap<Option<SoldThickness>, Vec<[f64; 3]>>;

/// Lumber by the board foot or the cubic meter, with waste.
///
/// Waste is the share typed with the prices, for ends, knots and edges.
///
/// Amounts use the nominal thickness, as sold, and not that of the part.
fn lumber(workpiece: &Workpiece, parts: &[CutPart], boards: u32) -> Vec<ToBuy> {
    let board = workpiece.board();
    let mut volumes = Volumes::new();
    for (from, block, count) in rough(board, parts, boards) {
        let CutFrom::Lumber(sold) = from else {
            continue;
        };
        let [length, width, thick] = block;
        let nominal = sold.map_or(thick, SoldThickness::mm);
        let row = volumes.entry(sold.ok()).or_default();
        row.push([length * f64::from(count), width, nominal]);
    }
    let line = |(sold, blocks): (Option<SoldThickness>, Vec<[f64; 3]>)| {
        let (by, volume): (_, fn([f64; 3]) -> f64) = measured(board.units);
        let widest = blocks
            .iter()
            .map(|[_, width, _]| *width)
            .fold(0.0, f64::max);
        let net: f64 = blocks.into_iter().map(volume).sum();
        let (id, wood) = species(board);
        let thickness = sold.map_or_else(|| "thick slab".to_owned(), SoldThickness::label);
        ToBuy {
            article: format!("lumber-{id}-{}-{}", thickness.replace(' ', ""), by.unit()),
            name: format!("{wood}, {thickness}, rough"),
            note: format!(
                "{} in the parts as sawn, the widest {} wide; the rest for ends, knots and edges",
                by.shown(net, board.units),
                Measure::mm(widest).shown(board.units)
            ),
            shelf: Shelf::Wood,
            sold: by,
            need: net * (1.0 + board.price.waste),
            pack: 1.0,
            owned: false,
        }
    };
    volumes.into_iter().map(line).collect()
}

/// The rough blocks of lumber to buy, each with its count.
///
/// They are those of the cut list; for leaves, the slab that both are resawn from.
fn rough(board: &Board, parts: &[CutPart], boards: u32) -> Vec<(CutFrom, [f64; 3], u32)> {
    let block = |part: &CutPart| {
        let halves = board.panel.build == Build::Halves && part.name.starts_with("leaf");
        if halves {
            let slab = [
                panel_width(board),
                sawn_width(board)?,
                super::parts::bought(board),
            ];
            return Some((part.from, slab, boards));
        }
        Some((part.from, part.rough?.block(), part.count))
    };
    parts.iter().filter_map(block).collect()
}

/// The unit in which lumber is sold in a system, and the function that calculates it.
///
/// Inch boards use board feet, metric boards cubic meters.
fn measured(units: Units) -> (SoldBy, fn([f64; 3]) -> f64) {
    match units {
        Units::Inch(_) => (SoldBy::BoardFoot, board_feet),
        Units::Mm => (SoldBy::CubicMeter, cubic_meters),
    }
}

/// The id and the name of the species; generic words if none is chosen.
///
/// The name includes the cut, plain or quarter sawn, since yards charge different prices for them.
fn species(board: &Board) -> (&str, String) {
    let wood = board.wood.as_ref();
    let known = wood.and_then(|wood| species_of(wood).ok());
    known.map_or_else(
        || ("any", "Lumber".to_owned()),
        |species| {
            let cut = wood.map_or("", |wood| wood.cut.label());
            (species.id, format!("{}, {cut}", capital(&species.spoken())))
        },
    )
}

/// Blanks that the maker measured, by the board foot or the cubic meter as a yard tallies them, or panels bought glued.
///
/// A blank is bought whole, whatever is left of it: one for each board, and fewer where the strips of several boards are found to
/// lie on one.
///
/// It is `None` if the blank is made from lumber listed by thickness, or where its outline is unknown.
fn blanks(board: &Board, boards: u32) -> Option<ToBuy> {
    let count = f64::from(boards);
    let (id, wood) = species(board);
    if let Build::Seams { .. } = board.panel.build {
        let wide = panel_width(board);
        let thick = board.stock.thickness.max(board.blank.thickness);
        let size = PartSize::straight([wide, wide, thick]).shown(board.units);
        return Some(ToBuy::pieces(
            Shelf::Wood,
            format!("panel-{id}-{}x{}", in_name(wide), in_name(thick)),
            format!("{wood}: panel, glued, {size} or larger"),
            count,
        ));
    }
    let [length, width] = around(&board.stock.outline)?;
    let sold = SoldThickness::at_least(board.stock.thickness, board.units);
    let (by, each) = match sold {
        Some(SoldThickness::Quarters(quarters)) => (
            SoldBy::BoardFoot,
            tallied_board_feet([length, width], quarters),
        ),
        Some(sold @ SoldThickness::Millimeters(_)) => {
            (SoldBy::CubicMeter, cubic_meters([length, width, sold.mm()]))
        }
        None => {
            let (by, volume) = measured(board.units);
            (by, volume([length, width, board.stock.thickness]))
        }
    };
    let thickness = sold.map_or_else(|| "thick slab".to_owned(), SoldThickness::label);
    let size = |mm| show_length(mm, board.units);
    let gives = boards_of_blank(board, boards);
    let slabs = boards.div_ceil(gives);
    let given = match (gives, slabs) {
        (_, 1) if boards == 1 => "bought whole".to_owned(),
        (1, _) => "each board takes a slab of its own, bought whole".to_owned(),
        (_, 1) => format!("bought whole; its strips are enough for {boards} boards"),
        _ => format!("bought whole; the strips of {gives} boards lie on one"),
    };
    Some(ToBuy {
        article: format!("slab-{id}-{}-{}", thickness.replace(' ', ""), by.unit()),
        name: format!("{wood}, slab, {thickness}"),
        note: format!(
            "{} of {} × {}, {} each; {given}",
            counted(slabs, "slab", "slabs"),
            size(length),
            size(width),
            by.shown(each, board.units)
        ),
        shelf: Shelf::Wood,
        sold: by,
        need: each * f64::from(slabs),
        pack: 1.0,
        owned: false,
    })
}

/// Length and width of the block around a measured blank, mm; `None` if it is not known.
///
/// It is the box around its corners, parallel to the axes, as a yard measures it.
fn around(outline: &StockOutline) -> Option<[f64; 2]> {
    let corners = outline.corners()?;
    let span = |axis: usize| {
        let along = corners
            .iter()
            .filter_map(|corner| corner.get(axis).copied());
        let [low, high] = [
            along.clone().fold(f64::INFINITY, f64::min),
            along.fold(f64::NEG_INFINITY, f64::max),
        ];
        (high - low).max(0.0)
    };
    Some([span(0), span(1)])
}

/// Strips that loose tenons are cut from, by the foot or by 300 mm; none for a board without tenons.
///
/// Planed offcuts of a hard wood do as well; a tenth is for the cuts.
fn tenon_stock(board: &Board, parts: &[CutPart]) -> Option<ToBuy> {
    let each = match board.units {
        Units::Inch(_) => 12.0 * INCH,
        Units::Mm => 300.0,
    };
    let tenon = parts.iter().find(|part| part.name == "loose tenon")?;
    let [long, wide, thick] = tenon.finished.block();
    let length = |mm| show_length(mm, board.units);
    Some(ToBuy {
        note: format!(
            "for {}; strips from hardwood offcuts do as well",
            counted(tenon.count, "loose tenon", "loose tenons")
        ),
        ..ToBuy::pieces(
            Shelf::Wood,
            format!("tenon-stock-{}x{}", in_name(wide), in_name(thick)),
            format!(
                "Loose-tenon stock, {} × {}, {} long",
                length(wide),
                length(thick),
                length(each)
            ),
            (f64::from(tenon.count) * long * 1.1 / each).ceil(),
        )
    })
}

/// A piece of plywood or other sheet stock, sold cut to size.
///
/// A whole sheet for a lid would be more plywood than most shops have room for.
fn sheet_part(part: &CutPart, board: &Board, what: &str, shelf: Shelf) -> ToBuy {
    let size = part.rough.unwrap_or(part.finished);
    let [length, width, thick] = size.block();
    ToBuy {
        note: format!("for the {}", part.name),
        ..ToBuy::pieces(
            shelf,
            format!(
                "{what}-{}x{}x{}",
                in_name(length),
                in_name(width),
                in_name(thick)
            ),
            format!("{}, {}", capital(what), size.shown(board.units)),
            f64::from(part.count),
        )
    }
}

/// Sheet sizes of hardboard, mm: 2 by 4 and 4 by 8 ft, and their metric equivalents; from memory.
const fn sheets(units: Units) -> [[f64; 2]; 2] {
    match units {
        Units::Inch(_) => [[1219.2, 609.6], [2438.4, 1219.2]],
        Units::Mm => [[1220.0, 610.0], [2440.0, 1220.0]],
    }
}

/// The smallest sheet of hardboard from which a template can be cut; the template's own size if it is larger than any sheet.
///
/// A sheet may be turned to fit.
fn hardboard(part: &CutPart, board: &Board) -> ToBuy {
    let [length, width, thick] = part.finished.block();
    let fits = |sheet: &[f64; 2]| length.max(width) <= sheet[0] && length.min(width) <= sheet[1];
    let Some([long, wide]) = sheets(board.units).into_iter().find(fits) else {
        return sheet_part(part, board, "hardboard", Shelf::Templates);
    };
    let size = PartSize::straight([long, wide, thick]).shown(board.units);
    ToBuy {
        note: format!("for the {}", part.name),
        ..ToBuy::pieces(
            Shelf::Templates,
            format!(
                "hardboard-{}x{}x{}",
                in_name(long),
                in_name(wide),
                in_name(thick)
            ),
            format!("Hardboard, sheet of {size}"),
            1.0,
        )
    }
}
