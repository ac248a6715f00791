//! The router template on sheets, and a page of its settings.
//!
//! The template is a workpiece of its own, whose bores are wider by the bushing's diameter minus the bit's. So it is cut into
//! sheets, named and checked like the board; only its texts differ.

use board::{Board, Center, HoleId, Role, Router, in_a_row, show_setting};
use workshop::{
    Operation, RouterSetting, TilingError, Workpiece, paper_size, plunges, router_settings,
    router_work,
};

use crate::cautions::cautions;
use crate::stopped::stop_line;
use crate::template::furniture::fits;
use crate::template::subject::Subject;
use crate::template::summary::true_size;
use crate::template::tiled::sheets_of;
use crate::template::whole::whole_of;
use crate::{Align, Block, Cell, Column, Head, Layer, Line, Sheet, Stamp, Table, numbered, pages};

/// The router template of a workpiece in sheets, and the page with its settings; empty if none is planned.
///
/// Its openings are wider than the bores by the bushing's diameter minus the bit's, so that a bit in the bushing cuts the bore.
///
/// ```
/// use board::{Board, Router};
/// use drawing::{Stamp, router_sheets, router_whole};
/// use workshop::Workpiece;
///
/// let mut board = Board::default();
/// board.router = Some(Router { bushing: 16.0, bit: 12.0, ..Router::default() });
/// let workpiece = Workpiece::of(&board)?;
/// let sheets = router_sheets(&workpiece, &Stamp::default())?;
/// assert_eq!(sheets.len(), workpiece.tiling().unwrap().tiles.len() + 1);
/// assert!(router_whole(&workpiece, &Stamp::default()).is_some());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`TilingError`] where the template cannot be cut into sheets of its paper.
pub fn router_sheets(workpiece: &Workpiece, stamp: &Stamp) -> Result<Vec<Sheet>, TilingError> {
    let Some((router, template)) = workpiece.router() else {
        return Ok(Vec::new());
    };
    let (board, tiling) = (workpiece.board(), workpiece.tiling().map_err(Clone::clone)?);
    let settings = router_settings(workpiece.layout(), router);
    let subject = Subject {
        notes: notes(board, router, &settings),
        stop: stop_line(workpiece),
        ..subject(template)
    };
    let mut sheets = sheets_of(&subject, tiling, stamp);
    sheets.extend(page(workpiece, router, &settings, stamp));
    Ok(sheets)
}

/// The router template of a workpiece on one sheet, for a plotter or a laser cutter; `None` if none is planned.
pub fn router_whole(workpiece: &Workpiece, stamp: &Stamp) -> Option<Sheet> {
    let (router, template) = workpiece.router()?;
    let (board, wide) = (workpiece.board(), template.layout());
    let settings = router_settings(workpiece.layout(), router);
    let length = |mm: f64| show_setting(mm, board.units);
    let center = match wide.hole(HoleId::CENTER) {
        Some(pin) => format!("at the center Ø {} for the pin", length(pin.bore.diameter)),
        None => "the center is a mark, undrilled".into(),
    };
    let routed: usize = settings
        .iter()
        .flat_map(|setting| &setting.holes)
        .map(|(_, count)| count)
        .sum();
    let subject = Subject {
        notes: vec![
            tools(board, router),
            depths(board, &settings),
            format!(
                "{routed} holes, {} larger than those of the board; {center}",
                length(router.wider())
            ),
            true_size(board),
        ],
        stop: stop_line(workpiece),
        ..subject(template)
    };
    Some(whole_of(subject, "router template", stamp))
}

/// An operation of the work plan for the page of a jig: its name, and its steps to tick off.
pub fn operation_blocks(operation: &Operation) -> [Block; 2] {
    [
        Block::Heading(operation.task.title().into()),
        Block::Ticked(operation.work.clone()),
    ]
}

/// The template to be cut into sheets. The board's edge is drawn as a guide and not as a line to cut, because the template may
/// have any shape that can be clamped.
fn subject(template: &Workpiece) -> Subject<'_> {
    let mut subject = Subject {
        kind: "Router template",
        ..Subject::template(template)
    };
    for item in &mut subject.items {
        if item.layer == Layer::Edge {
            item.line = Line::Guide;
        }
    }
    subject
}

/// Tools and plunge for the title block, in one line if there is room.
fn notes(board: &Board, router: Router, settings: &[RouterSetting]) -> Vec<String> {
    let tools = tools(board, router);
    let one = match plunges(settings).as_slice() {
        [one] => Some(format!(
            "{tools}, plunge {}",
            show_setting(one.mm, board.units)
        )),
        _ => None,
    };
    one.filter(|line| fits(line))
        .map_or_else(|| vec![tools, depths(board, settings)], |one| vec![one])
}

/// The words on the bushing, bit and hardboard that the openings are drawn for.
fn tools(board: &Board, router: Router) -> String {
    let length = |mm: f64| show_setting(mm, board.units);
    format!(
        "Bushing Ø {}, bit Ø {}, hardboard {}",
        length(router.bushing),
        length(router.bit),
        length(router.hardboard)
    )
}

/// The plunge settings in one line.
fn depths(board: &Board, settings: &[RouterSetting]) -> String {
    let length = |mm: f64| show_setting(mm, board.units);
    let depths = plunges(settings);
    let mut roles: Vec<Role> = depths
        .iter()
        .flat_map(|depth| &depth.roles)
        .copied()
        .collect();
    let all = roles.len();
    roles.sort_unstable();
    roles.dedup();
    match depths.as_slice() {
        [one] => format!("Set the plunge to {}", length(one.mm)),
        _ if roles.len() < all => "Set the plunge hole by hole: see the page of settings".into(),
        _ => {
            let told = depths.iter().map(|depth| {
                let roles: Vec<&str> = depth.roles.iter().map(|role| role.id()).collect();
                format!("{} for {} holes", length(depth.mm), in_a_row(&roles))
            });
            let told: Vec<String> = told.collect();
            format!("Set the plunge to {}", told.join("; "))
        }
    }
}

/// The page with the router's settings for each kind of bore, and on holding the template.
fn page(
    workpiece: &Workpiece,
    router: Router,
    settings: &[RouterSetting],
    stamp: &Stamp,
) -> Vec<Sheet> {
    let board = workpiece.board();
    let work = router_work(workpiece);
    let [make, rout] = &work;
    let mut blocks = vec![Block::Words(format!(
        "{}. Every hole of the template is {} larger than the board's.{}",
        tools(board, router),
        show_setting(router.wider(), board.units),
        playing_hole(board)
    ))];
    blocks.extend(cautions(&workshop::cautions_of(&work)));
    blocks.extend(operation_blocks(make));
    blocks.push(Block::Heading("What to set".into()));
    blocks.push(Block::Table(table(board, settings)));
    blocks.extend(operation_blocks(rout));
    let head = Head::of("Router template", "settings", workpiece, stamp);
    let paper = paper_size(board.template.paper);
    let margin = board.template.margin;
    numbered(pages(paper, margin, &head, &blocks), margin)
}

/// The sentence on the playing hole at the center, for which the template has no hole.
fn playing_hole(board: &Board) -> &'static str {
    match board.drilled_center() {
        Center::Hole { .. } => " The playing hole at the center is drilled without it.",
        Center::Nothing | Center::Pivot { .. } => "",
    }
}

/// Bores, their holes in the template, and the plunge.
fn table(board: &Board, settings: &[RouterSetting]) -> Table {
    let length = |mm: f64| show_setting(mm, board.units);
    let row = |setting: &RouterSetting| {
        let holes: Vec<String> = setting
            .holes
            .iter()
            .map(|(role, count)| format!("{count} {}", role.id()))
            .collect();
        vec![
            Cell::Tick,
            Cell::Words(holes.join(", ")),
            Cell::Words(length(setting.bore.diameter)),
            Cell::Words(length(setting.opening)),
            Cell::Words(length(setting.bore.depth)),
            Cell::Words(length(setting.plunge)),
            Cell::Words(setting.way.label().into()),
        ]
    };
    let columns = [
        ("", Align::Start),
        ("Holes", Align::Start),
        ("Bore Ø", Align::End),
        ("Template Ø", Align::End),
        ("Depth", Align::End),
        ("Plunge", Align::End),
        ("Bit goes", Align::Start),
    ];
    Table {
        columns: columns
            .map(|(title, align)| Column::new(title, align))
            .to_vec(),
        rows: settings.iter().map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Item, Shape};
    use board::{Bore, Bottom, Change, Edit, Marking, TemplateCenter, layout};

    fn planned(board: &Board, router: Router) -> Workpiece {
        let board = Board {
            router: Some(router),
            ..board.clone()
        };
        Workpiece::of(&board).unwrap()
    }

    fn sheets(board: &Board, router: Router) -> Vec<Sheet> {
        router_sheets(&planned(board, router), &Stamp::default()).unwrap()
    }

    fn radii(items: &[Item], wanted: &[Layer]) -> Vec<f64> {
        items
            .iter()
            .filter(|item| wanted.contains(&item.layer))
            .filter_map(|item| match &item.shape {
                Shape::Circle(circle) => Some(circle.radius),
                _ => None,
            })
            .collect()
    }

    fn words(sheet: &Sheet) -> Vec<&str> {
        sheet
            .marks
            .iter()
            .filter_map(|item| match &item.shape {
                Shape::Text(text) => Some(text.words.as_str()),
                _ => None,
            })
            .collect()
    }

    const HOLES: [Layer; 3] = [Layer::Track, Layer::Home, Layer::Start];

    /// Bores 12 mm wide and 5 mm deep, a bushing of 16 mm, a bit of 12 mm, hardboard of 6 mm: holes of 16 mm, a plunge of 11
    /// mm.
    #[test]
    fn holes_are_drawn_for_the_bushing_and_settings_are_printed() {
        let mut board = Board::default();
        board.template.marking = Marking::Crosses;
        let sheets = sheets(&board, Router::default());
        let (page, drawn) = sheets.split_last().unwrap();
        let all = drawn.iter().flat_map(|sheet| &sheet.view.items).cloned();
        let radii = radii(&all.collect::<Vec<_>>(), &HOLES);
        assert!(radii.len() >= 144 && radii.iter().all(|radius| (radius - 8.0).abs() < 1e-9));
        assert!(words(page).contains(&"11 mm"));
        for sheet in drawn {
            let words = words(sheet);
            assert!(words.contains(&"Router template"), "{words:?}");
            let set = "Bushing Ø 16 mm, bit Ø 12 mm, hardboard 6 mm, plunge 11 mm";
            assert!(words.contains(&set), "{words:?}");
        }
    }

    #[test]
    fn the_whole_sheet_has_the_pins_hole_or_none_and_the_edge_as_a_guide() {
        let board = Board::default();
        let drawn = |center| {
            let router = Router {
                center,
                ..Router::default()
            };
            router_whole(&planned(&board, router), &Stamp::default())
                .unwrap()
                .view
                .items
        };
        let pin = drawn(TemplateCenter::Pilot);
        assert_eq!(radii(&pin, &[Layer::Center]), [3.0]);
        assert_eq!(radii(&pin, &HOLES).len(), 144);
        assert!(radii(&drawn(TemplateCenter::Undrilled), &[Layer::Center]).is_empty());
        let edge = pin.iter().filter(|item| item.layer == Layer::Edge);
        assert!(edge.map(|item| item.line).eq([Line::Guide]));
    }

    /// A bit wider than the bores cannot plunge: settings and sheets say that it does not fit.
    #[test]
    fn every_sheet_says_that_a_bit_or_a_bushing_does_not_fit() {
        let board = Board::default();
        let wide = Router {
            bushing: 18.0,
            bit: 14.0,
            ..Router::default()
        };
        let long = Router {
            reach: 6.0,
            ..Router::default()
        };
        let says = |router| {
            let whole = router_whole(&planned(&board, router), &Stamp::default());
            let mut sheets = sheets(&board, router);
            sheets.extend(whole);
            let stopped = |sheet: &Sheet| {
                let words = words(sheet);
                words
                    .iter()
                    .any(|words| words.starts_with("STOP") && words.contains("guide bushing"))
            };
            let all: Vec<bool> = sheets.iter().map(stopped).collect();
            let page = sheets.len() - 2;
            (all, words(&sheets[page]).join(" "))
        };
        for router in [wide, long] {
            assert!(says(router).0.iter().all(|said| *said), "{router:?}");
        }
        let (none, fits) = says(Router::default());
        assert!(!none.iter().any(|said| *said) && fits.contains("straight down"));
        let (_, too_wide) = says(wide);
        assert!(too_wide.contains("does not fit") && !too_wide.contains("straight down"));
    }

    #[test]
    fn plunges_are_listed_by_role_where_depths_differ() {
        let mut board = Board::default();
        board.bores.start = Bore {
            diameter: 14.0,
            depth: 8.0,
            bottom: Bottom::Flat,
        };
        let told = |board: &Board| {
            depths(
                board,
                &router_settings(&layout(board).unwrap(), Router::default()),
            )
        };
        assert_eq!(
            told(&board),
            "Set the plunge to 11 mm for track and home holes; 14 mm for start holes"
        );
        board.edits = vec![Edit {
            hole: "T1-1".parse().unwrap(),
            mirrored: true,
            change: Change::Bore {
                bore: board.bores.start,
            },
        }];
        assert!(told(&board).contains("hole by hole"));
    }
}
