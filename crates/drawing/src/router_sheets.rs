//! The router's template on sheets, and a page that tells what to set.

use board::{Board, Layout, Router, TemplateCenter, show_length};
use workshop::{Caution, FIRST, plunge, router_template};

use crate::tiled::tiled_sheets;
use crate::{
    Align, Block, Cell, Column, Head, Sheet, Stamp, Table, Tiling, pages, paper_size, whole_sheet,
};

/// The template of a router in sheets, and the page with its settings; `tiling` is that of the board.
pub fn router_sheets(
    board: &Board,
    layout: &Layout,
    router: Router,
    tiling: &Tiling,
    stamp: &Stamp,
) -> Vec<Sheet> {
    let (template, wide) = router_template(board, layout, router);
    let mut sheets = tiled_sheets(&template, &wide, tiling, stamp);
    sheets.extend(settings(board, router, stamp));
    sheets
}

/// The template of a router on one sheet, for a plotter or a laser cutter.
pub fn router_whole(board: &Board, layout: &Layout, router: Router, stamp: &Stamp) -> Sheet {
    let (template, wide) = router_template(board, layout, router);
    Sheet {
        label: "router template".into(),
        ..whole_sheet(&template, &wide, stamp)
    }
}

fn settings(board: &Board, router: Router, stamp: &Stamp) -> Vec<Sheet> {
    let length = |mm: f64| show_length(mm, board.units);
    let center = match router.center {
        TemplateCenter::Pilot => {
            "Drill the pilot at the center, and pin template and board together by it."
        }
        TemplateCenter::Undrilled => {
            "The center stays undrilled: lay its mark on the board's center and fix the template."
        }
    };
    let blocks = [
        Block::Words(format!(
            "Guide bushing {} outside, bit {}: every hole of the template is {} wider than its bore. The plunge is from \
             where the bit touches the hardboard, which is {} thick. A bit narrower than a bore is led round the hole's rim.",
            length(router.bushing),
            length(router.bit),
            length(router.wider()),
            length(router.hardboard)
        )),
        Block::Words(center.into()),
        Block::Caution(format!(
            "{} {} {FIRST}",
            Caution::Router.words(),
            Caution::Noise.words()
        )),
        Block::Heading("What to set".into()),
        Block::Table(table(board, router)),
    ];
    let head = Head {
        title: "Router template".into(),
        subtitle: format!("{}  {}", board.title, stamp.date),
        label: "settings".into(),
    };
    let paper = paper_size(board.template.paper);
    pages(paper, board.template.margin, &head, &blocks)
}

/// Bore, hole of the template and plunge by role.
fn table(board: &Board, router: Router) -> Table {
    let length = |mm: f64| show_length(mm, board.units);
    let row = |name: &str, bore: board::Bore| {
        vec![
            Cell::from(name),
            Cell::Words(length(bore.diameter)),
            Cell::Words(length(bore.diameter + router.wider())),
            Cell::Words(length(bore.depth)),
            Cell::Words(length(plunge(bore, router))),
        ]
    };
    let roles = board.bores;
    let columns = [
        ("Holes", Align::Start),
        ("Bore", Align::End),
        ("Template", Align::End),
        ("Deep", Align::End),
        ("Plunge", Align::End),
    ];
    Table {
        columns: columns
            .map(|(title, align)| Column::new(title, align))
            .to_vec(),
        rows: vec![
            row("track", roles.track),
            row("home", roles.home),
            row("start", roles.start),
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Layer, Shape, tiling};
    use board::layout;

    #[test]
    fn holes_are_drawn_for_the_bushing_and_settings_are_told() {
        let board = Board::default();
        let holes = layout(&board).unwrap();
        let tiling = tiling(&board, &holes, None).unwrap();
        let sheets = router_sheets(
            &board,
            &holes,
            Router::default(),
            &tiling,
            &Stamp::default(),
        );
        assert_eq!(sheets.len(), tiling.tiles.len() + 1);
        let radii: Vec<f64> = sheets
            .iter()
            .flat_map(|sheet| &sheet.view.items)
            .filter(|item| [Layer::Track, Layer::Home, Layer::Start].contains(&item.layer))
            .filter_map(|item| match &item.shape {
                Shape::Circle(circle) => Some(circle.radius),
                _ => None,
            })
            .collect();
        // 12 mm bores, a 16 mm bushing and a 12 mm bit: holes of 16 mm.
        assert!(radii.len() >= 132 && radii.iter().all(|radius| (radius - 8.0).abs() < 1e-9));
        let words = sheets.last().unwrap().marks.iter();
        assert!(
            words
                .clone()
                .any(|item| matches!(&item.shape, Shape::Text(text) if text.words == "11 mm"))
        );
    }
}
