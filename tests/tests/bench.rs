//! Shop sheets read back by an independent reader: a section is drawn to the scale that it states, and each bore of a filling
//! plan shows the batch that is poured into it.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use app::exports::Kind;
use board::{Board, Coat, CoatKind, CoatPlace, PieceKind};
use kurbo::{Affine, Point};
use testkit::{PageWords, PdfFile, assert_near, svg_circles};
use tests::{exported, planned, samples, worked};

/// The scale in a heading: "Hole T1-09, scale 2 : 1".
fn scale(svg: &str, figure: &str) -> f64 {
    let heading = svg
        .split('>')
        .find(|part| part.starts_with(figure))
        .unwrap();
    let ratio = heading.split("scale ").nth(1).unwrap();
    let ratio = ratio.split('<').next().unwrap();
    let (drawn, real) = ratio.split_once(" : ").unwrap();
    drawn.parse::<f64>().unwrap() / real.parse::<f64>().unwrap()
}

#[test]
fn a_marble_is_drawn_to_the_scale_that_the_section_states() {
    let mut read = 0;
    for (name, board) in samples() {
        if board.piece.kind != PieceKind::Marble {
            continue;
        }
        let svg = String::from_utf8(exported(Kind::Section, &board)).unwrap();
        let circles = svg_circles(&svg, Affine::IDENTITY).unwrap();
        for figure in ["Board", "Hole"] {
            let wanted = board.piece.diameter / 2.0 * scale(&svg, figure);
            let nearest = circles.iter().map(|(_, radius)| (radius - wanted).abs());
            let off = nearest.fold(f64::INFINITY, f64::min);
            assert!(off < 0.001, "{name}, {figure}: {off} mm off {wanted}");
            read += 1;
        }
    }
    assert!(read >= 4, "only {read} figures were read");
}

/// The number whose center is nearest to a point, and its distance from the point.
fn number_at(words: &[PageWords], point: Point) -> Option<(u32, f64)> {
    let numbers = words.iter().filter_map(|words| {
        let number: u32 = words.words.parse().ok()?;
        Some((number, words.at.distance(point)))
    });
    numbers.min_by(|a, b| a.1.total_cmp(&b.1))
}

#[test]
fn each_bore_of_a_filling_plan_shows_its_batch() {
    for (name, board) in samples() {
        let board = planned(&board);
        let worked = worked(&board);
        let (layout, pour) = (worked.layout(), worked.pour().unwrap());
        let file = PdfFile::read(&exported(Kind::Filling, &board)).unwrap();
        let plan = file.pages.last().unwrap();
        let edge = plan
            .circles
            .iter()
            .max_by(|a, b| a.radius.total_cmp(&b.radius))
            .unwrap();
        let scale = edge.radius / board.blank.radius();
        let mut found = 0;
        for (batch, number) in pour.batches.iter().zip(1_u32..) {
            for (_, bore) in pour.bores_of(batch) {
                let hole = layout.hole(bore.name.id()).unwrap();
                let at = edge.center + hole.center.to_vec2() * scale;
                let radius = hole.bore.radius() * scale;
                let there = plan.circles.iter().any(|circle| {
                    circle.center.distance(at) < 0.001 && (circle.radius - radius).abs() < 0.001
                });
                assert!(there, "{name}: no circle for {}", bore.name);
                // The position of a text is that of its start: inside the circle.
                let (read, away) = number_at(&plan.words, at).unwrap();
                assert_eq!(read, number, "{name}: {}", bore.name);
                assert!(away < radius, "{name}: {} is {away} mm off", bore.name);
                found += 1;
            }
        }
        assert_eq!(found, pour.bores.len(), "{name}");
    }
}

/// The finish plan read back: every coat in order, the film layer by layer, amounts, and nothing off the page.
#[test]
fn the_finish_plan_lists_every_coat_in_order_and_draws_the_film_from_the_wood_up() {
    let mut board = planned(&Board::default());
    let color = Coat {
        place: CoatPlace::Marks,
        ..Coat::of(CoatKind::Acrylic, 24.0)
    };
    board.finish = vec![
        Coat::of(CoatKind::DewaxedShellac, 2.0),
        color,
        Coat {
            coats: 3,
            ..Coat::of(CoatKind::WaterPolyurethane, 6.0)
        },
    ];
    let file = PdfFile::read(&exported(Kind::Finish, &board)).unwrap();
    let words = || file.pages.iter().flat_map(|page| &page.words);
    let all: Vec<&str> = words().map(|words| words.words.as_str()).collect();
    let all = all.join(" ");
    let mut from = 0;
    for part in [
        "Finish plan",
        "Section through the film",
        "Coat 1: dewaxed shellac",
        "Coat 2: acrylic color",
        "Coat 3: water-based polyurethane",
        "Coat 5: water-based polyurethane",
        "Amounts",
        "Which coat bonds to which",
    ] {
        let at = all[from..].find(part);
        from += at.unwrap_or_else(|| panic!("{part} is not after what comes before it: {all}"));
    }
    // The column for marks has all three layers, each above the one below it.
    let heights = |name: &str| -> Vec<f64> {
        let found = file.pages[0].words.iter();
        let found = found.filter(|words| words.words.starts_with(name));
        found.map(|words| words.at.y).collect()
    };
    let (low, middle, high) = (
        heights("1. dewaxed shellac"),
        heights("2. acrylic color"),
        heights("3. water-based"),
    );
    assert_eq!((low.len(), middle.len(), high.len()), (2, 1, 2));
    assert!(low.iter().all(|low| *low < middle[0]) && high.iter().any(|high| *high > middle[0]));
}

#[test]
fn the_job_sheet_has_every_step_and_ends_with_section_and_plan() {
    let board = planned(&Board::default());
    let file = PdfFile::read(&exported(Kind::Job, &board)).unwrap();
    let said: Vec<String> = file
        .pages
        .iter()
        .map(|page| {
            let words = page.words.iter().map(|words| words.words.as_str());
            words.collect::<Vec<_>>().join(" ")
        })
        .collect();
    let all = said.join(" ");
    for part in [
        "1. Resting the wood",
        ". Drilling the holes",
        ". Pouring the resin",
        ". Sanding",
        "Hole T1-09, scale",
        "Filling plan",
        "Shopping and cut list",
        "page 3 of",
        "OSHA 3157",
    ] {
        assert!(all.contains(part), "{part} is not on the job sheet");
    }
    let paper = workshop::paper_size(board.template.paper);
    for page in &file.pages {
        let media = page.boxes["MediaBox"];
        assert_near!(media.width(), paper.width / 25.4 * 72.0, 0.01);
        assert_near!(media.height(), paper.height / 25.4 * 72.0, 0.01);
    }
}

/// The customer's card, read back: as many pieces of each color as players need, age, care, and half a page of paper.
#[test]
fn the_card_has_pieces_age_and_care_on_half_a_page() {
    for (name, board) in samples() {
        let file = PdfFile::read(&exported(Kind::Card, &board)).unwrap();
        assert_eq!(file.pages.len(), 1, "{name}");
        let words = file.pages[0].words.iter().map(|words| words.words.as_str());
        let said = words.collect::<Vec<_>>().join(" ");
        let each = board.start.max(board.home);
        let age = format!("For ages {} and up.", board.piece.youngest);
        let pieces = format!("For {} players: {each} ", board.players);
        for part in [&pieces, &age, "Made by", "2026-11-25", "Care", "Rules"] {
            assert!(said.contains(part), "{name}: {part} in {said}");
        }
        let size = match board.units {
            board::Units::Mm => [210.0, 148.0],
            board::Units::Inch(_) => [8.5 * 25.4, 5.5 * 25.4],
        };
        let media = file.pages[0].boxes["MediaBox"];
        assert_near!(media.width(), size[0] / 25.4 * 72.0, 0.01);
        assert_near!(media.height(), size[1] / 25.4 * 72.0, 0.01);
    }
}
