//! Properties of tiled sheets, tested on random boards, papers, margins and overlaps.

use board::{Board, Marking, Paper, SheetLayout};
use kurbo::{Point, Rect, Vec2};
use proptest::prelude::*;
use workshop::Workpiece;

use crate::font::SMALLEST;
use crate::{Layer, Shape, Sheet, Stamp, Text, tiled_sheets};

/// Everything to read or look at on a sheet, in the page frame: words by their boxes, crosses by those of their two lines.
struct Seen {
    texts: Vec<(Rect, String)>,
    crosses: Vec<Rect>,
    /// Lines and areas of title block and bars.
    strokes: Vec<Rect>,
}

/// Whether boxes overlap by more than rounding.
fn meet(a: Rect, b: Rect) -> bool {
    let shared = a.intersect(b);
    shared.width() > 1e-6 && shared.height() > 1e-6
}

fn seen(sheet: &Sheet) -> Seen {
    let mut seen = Seen {
        texts: Vec::new(),
        crosses: Vec::new(),
        strokes: Vec::new(),
    };
    let shift = sheet.view.page_from_board;
    let on_board = sheet.view.items.iter().map(|item| (item, shift, false));
    let on_page = sheet.marks.iter().map(|item| (item, Vec2::ZERO, true));
    for (item, shift, is_furniture) in on_board.chain(on_page) {
        let bounds = item.shape.bounds() + shift;
        match &item.shape {
            Shape::Text(text) => seen.texts.push((bounds, text.words.clone())),
            Shape::Cross { center, arm } => {
                for (across, up) in [(*arm, 0.05), (0.05, *arm)] {
                    let size = (2.0 * across, 2.0 * up);
                    seen.crosses
                        .push(Rect::from_center_size(*center + shift, size));
                }
            }
            _ if is_furniture => seen.strokes.push(bounds.inflate(0.01, 0.01)),
            _ => {}
        }
    }
    let page = sheet.view.window;
    seen.crosses.retain(|cross| meet(*cross, page));
    seen
}

fn words(sheet: &Sheet) -> Vec<&Text> {
    let items = sheet.marks.iter().chain(&sheet.view.items);
    let texts = items.filter_map(|item| match &item.shape {
        Shape::Text(text) => Some(text),
        _ => None,
    });
    texts.collect()
}

fn check(sheet: &Sheet) -> Result<(), TestCaseError> {
    let Seen {
        texts,
        crosses,
        strokes,
    } = seen(sheet);
    for (at, (area, words)) in texts.iter().enumerate() {
        for (other, others) in &texts[at + 1..] {
            prop_assert!(
                !meet(*area, *other),
                "{words} on {others} of {}",
                sheet.label
            );
        }
        let cross = crosses.iter().find(|cross| meet(**cross, *area));
        prop_assert!(cross.is_none(), "{words} on a cross of {}", sheet.label);
    }
    for stroke in &strokes {
        let cross = crosses.iter().find(|cross| meet(**cross, *stroke));
        prop_assert!(
            cross.is_none(),
            "a bar or the key map on a cross of {}",
            sheet.label
        );
    }
    let all = words(sheet);
    for text in &all {
        prop_assert!(
            text.size >= SMALLEST - 1e-9,
            "{} at {}",
            text.words,
            text.size
        );
    }
    let says = |wanted: &str| all.iter().any(|text| text.words.starts_with(wanted));
    prop_assert!(
        says(&sheet.label) && says("Print at 100 %") && says("sheet "),
        "{}",
        sheet.label
    );
    let filled = sheet
        .marks
        .iter()
        .any(|item| matches!(item.shape, Shape::Area(_)));
    prop_assert!(filled, "no key map on {}", sheet.label);
    let page = sheet.view.window.inflate(1e-6, 1e-6);
    for item in &sheet.marks {
        prop_assert!(page.contains_rect(item.shape.bounds()), "{:?}", item.shape);
    }
    for item in sheet
        .view
        .items
        .iter()
        .filter(|item| item.layer == Layer::Marks)
    {
        if let Shape::Text(text) = &item.shape {
            let on_page = text.bounds() + sheet.view.page_from_board;
            prop_assert!(page.contains_rect(on_page), "{} is cut off", text.words);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// Titles, bars, key maps, names and crosses never overlap, nothing is smaller than 6 pt, each sheet states its label and
    /// how to print it, and no name of a cross is cut off.
    #[test]
    fn sheets_are_readable_for_any_board_and_paper(
        diameter in 260.0..800.0_f64,
        players in 2_u32..9,
        pattern in 0_usize..3,
        bore in 3.0..14.0_f64,
        sides in (100.0..300.0_f64, 100.0..420.0_f64),
        margin in 3.0..14.0_f64,
        overlap in 0.0..25.0_f64,
        marking in 0_usize..3,
        widest in any::<bool>(),
    ) {
        let mut board = Board { players, ..Board::default() };
        board.blank.diameter = diameter;
        board.pattern = [
            geometry::Pattern::Ring,
            geometry::Pattern::Lobes { depth: 0.15 },
            geometry::Pattern::Polygon,
        ][pattern];
        board.pitch = 0.78 * diameter * 19.0 / 640.0 * 6.0 / f64::from(players);
        let bore = board::Bore { diameter: bore.min(0.7 * board.pitch), ..board.bores.track };
        board.bores = board::Bores::all(bore);
        board.template.paper = Paper::Custom { width: sides.0, height: sides.1 };
        (board.template.margin, board.template.overlap) = (margin, overlap);
        board.template.marking = Marking::ALL[marking];
        if widest {
            board.template.layout = SheetLayout::Widest;
        }
        let Ok(workpiece) = Workpiece::of(&board) else { return Ok(()) };
        let Ok(sheets) = tiled_sheets(&workpiece, &Stamp { date: "29 Nov 2026".into() }) else { return Ok(()) };
        for sheet in &sheets {
            check(sheet)?;
        }
        for hole in &workpiece.layout().holes {
            let on = |sheet: &Sheet| {
                let at: Point = hole.center + sheet.view.page_from_board;
                sheet.view.window.contains(at)
            };
            prop_assert!(sheets.iter().any(on), "{} is on no sheet", hole.name);
        }
    }
}
