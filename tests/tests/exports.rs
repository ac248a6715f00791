//! The same holes at the same positions in every format: each file is read back by an independent reader.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use app::exports::Kind;
use board::{
    Board, BoreColor, BorePart, HoleId, Hue, Layout, Medium, Paper, Rgb, Role, SectorJig, Template,
    Units,
};
use drawing::{Stamp, font, sector_sheets, whole_sheet};
use kurbo::{Affine, Circle, Point, Rect, Vec2};
use testkit::{
    PageWords, PdfFile, PdfPage, assert_near, pdf_raster, svg_circles, svg_raster, svg_size,
};
use tests::{exported, files, planned, samples, worked};
use workshop::Tiling;

/// 1 in = 72 pt = 25.4 mm (CSS Values and Units Level 4, absolute lengths).
const POINTS_PER_MM: f64 = 72.0 / 25.4;

fn nearest_circle(file_circles: &[testkit::PageCircle], center: Point, radius: f64) -> f64 {
    let same_size = file_circles
        .iter()
        .filter(|circle| (circle.radius - radius).abs() < 1e-3);
    same_size
        .map(|circle| circle.center.distance(center))
        .fold(f64::INFINITY, f64::min)
}

/// A page with the part of the board that it shows, and the vector that moves the board onto the page.
type Shown<'a> = (&'a PdfPage, Rect, Vec2);

fn tiles<'a>(file: &'a PdfFile, tiling: &Tiling) -> Vec<Shown<'a>> {
    assert!(file.pages.len() >= tiling.tiles.len());
    let pages = tiling.tiles.iter().zip(&file.pages);
    let corner = tiling.printable().origin();
    pages
        .map(|(tile, page)| (page, tile.window, corner - tile.window.origin()))
        .collect()
}

/// Asserts that a circle of the board is on every page that shows its center, to within a thousandth of a millimeter, and that
/// there is such a page.
fn assert_shown(pages: &[Shown<'_>], circle: Circle, what: &str) {
    let on = pages
        .iter()
        .filter(|(_, window, _)| window.contains(circle.center));
    for (page, _, shift) in on.clone() {
        let off = nearest_circle(&page.circles, circle.center + *shift, circle.radius);
        assert!(off <= 0.001, "{what} is {off} mm off");
    }
    assert!(on.count() > 0, "{what} is on no page");
}

#[test]
fn every_bore_is_on_the_whole_page_within_a_thousandth_of_a_millimeter() {
    for (name, board) in samples() {
        let layout = worked(&board).layout().clone();
        let shift = whole_sheet(&worked(&board), &Stamp::default())
            .view
            .page_from_board;
        let file = PdfFile::read(&exported(Kind::PlotPdf, &board)).unwrap();
        for hole in &layout.holes {
            let off = nearest_circle(
                &file.pages[0].circles,
                hole.center + shift,
                hole.bore.radius(),
            );
            assert!(off <= 0.001, "{name}: {} is {off} mm off", hole.name);
        }
    }
}

#[test]
fn every_bore_is_on_every_tile_that_shows_its_center_within_a_thousandth_of_a_millimeter() {
    for (name, board) in samples() {
        let worked = worked(&board);
        let file = PdfFile::read(&exported(Kind::TemplatePdf, &board)).unwrap();
        let pages = tiles(&file, worked.tiling().unwrap());
        for hole in &worked.layout().holes {
            let bore = Circle::new(hole.center, hole.bore.radius());
            assert_shown(&pages, bore, &format!("{name}: {}", hole.name));
        }
    }
}

/// ISO 32000-1:2008, 12.2, Table 150; ISO 216 and ASME Y14.1 sheets.
#[test]
fn pages_are_exactly_the_paper_size_and_request_no_scaling() {
    for (paper, width, height) in [
        (Paper::A4, 595.2756, 841.8898),
        (Paper::A3, 841.8898, 1190.5512),
        (Paper::Letter, 612.0, 792.0),
        (Paper::Legal, 612.0, 1008.0),
        (Paper::Tabloid, 792.0, 1224.0),
        (
            Paper::Custom {
                width: 254.0,
                height: 508.0,
            },
            720.0,
            1440.0,
        ),
    ] {
        let board = Board {
            template: Template {
                paper,
                ..Template::default()
            },
            ..Board::default()
        };
        let tiling = worked(&board).tiling().unwrap().clone();
        let turned = tiling.paper * POINTS_PER_MM;
        let file = PdfFile::read(&exported(Kind::TemplatePdf, &board)).unwrap();
        assert_eq!(file.pages.len(), tiling.tiles.len());
        assert_eq!(
            file.preferences().get("PrintScaling").map(String::as_str),
            Some("/None")
        );
        assert_eq!(
            file.preferences()
                .get("PickTrayByPDFSize")
                .map(String::as_str),
            Some("true")
        );
        for page in &file.pages {
            let media = page.boxes["MediaBox"];
            assert_near!(media.width(), turned.width, 1e-3);
            assert_near!(media.height(), turned.height, 1e-3);
            assert_near!(media.width().min(media.height()), width, 1e-3);
            assert_near!(media.width().max(media.height()), height, 1e-3);
        }
    }
}

#[test]
fn every_tile_has_100_mm_and_4_in_bars_in_both_directions() {
    let file = PdfFile::read(&exported(Kind::TemplatePdf, &Board::default())).unwrap();
    for page in &file.pages {
        let bars = |level: bool| {
            page.lines.iter().filter(move |line| {
                let way = line.to - line.from;
                let (along, aside) = if level {
                    (way.x, way.y)
                } else {
                    (way.y, way.x)
                };
                // The line of a bar is as long as the longer of its scales, 4 in.
                (along.abs() - 101.6).abs() < 1e-3 && aside.abs() < 1e-6
            })
        };
        assert!(bars(true).count() >= 1 && bars(false).count() >= 1);
        assert_eq!(
            page.words
                .iter()
                .filter(|words| words.words == "100 mm")
                .count(),
            2
        );
        assert_eq!(
            page.words
                .iter()
                .filter(|words| words.words == "4\"")
                .count(),
            2
        );
    }
}

#[test]
fn neighboring_sheets_have_the_same_crosses_at_the_same_board_points() {
    let board = Board::default();
    let worked = worked(&board);
    let tiling = worked.tiling().unwrap();
    let file = PdfFile::read(&exported(Kind::TemplatePdf, &board)).unwrap();
    // Matching crosses have a ring of 2 mm, which no bore of this board has.
    let rings = |index: usize| -> Vec<Point> {
        let shift = tiling.tiles[index].window.origin() - tiling.printable().origin();
        let rings = file.pages[index]
            .circles
            .iter()
            .filter(|circle| (circle.radius - 2.0).abs() < 1e-3);
        rings.map(|ring| ring.center + shift).collect()
    };
    let mut joints = 0;
    for (a, first) in tiling.tiles.iter().enumerate() {
        for (b, second) in tiling.tiles.iter().enumerate().skip(a + 1) {
            if first.column.abs_diff(second.column) + first.row.abs_diff(second.row) != 1 {
                continue;
            }
            let theirs = rings(b);
            let shared = rings(a)
                .into_iter()
                .filter(|ring| theirs.iter().any(|other| other.distance(*ring) < 0.001));
            assert!(
                shared.count() >= 2,
                "{} and {} share too few",
                first.label(),
                second.label()
            );
            joints += 1;
        }
    }
    assert!(joints > 3);
}

/// Both rasters are made by independent readers; holes are recognized by being round.
#[test]
fn pdf_and_svg_show_the_same_holes_at_the_models_positions() {
    let mut board = Board::default();
    board.template.marking = board::Marking::Circles;
    let layout = worked(&board).layout().clone();
    let sheet = whole_sheet(&worked(&board), &Stamp::default());
    let pdf = pdf_raster(&exported(Kind::PlotPdf, &board), 0, 200).unwrap();
    let svg = String::from_utf8(exported(Kind::Svg, &board)).unwrap();
    let svg = svg_raster(&svg, 200, &[font::REGULAR, font::SEMI_BOLD]).unwrap();
    let (pdf, svg) = (pdf.round_blobs(), svg.round_blobs());
    let near = |blobs: &[(Point, f64)], at: Point| {
        let same = blobs
            .iter()
            .filter(|(_, diameter)| (diameter - 12.0).abs() < 0.5);
        same.map(|(center, _)| *center)
            .min_by(|a, b| a.distance(at).total_cmp(&b.distance(at)))
    };
    // Where a guide crosses a bore, its outline is part of a larger figure; the start pockets have no guides.
    let free = layout
        .holes
        .iter()
        .filter(|hole| hole.name.id().role() == board::Role::Start);
    let mut seen = 0;
    for hole in free {
        let at = hole.center + sheet.view.page_from_board;
        let (Some(a), Some(b)) = (near(&pdf, at), near(&svg, at)) else {
            continue;
        };
        if a.distance(at) > 3.0 || b.distance(at) > 3.0 {
            continue;
        }
        assert_near!(a, at, 0.05);
        assert_near!(b, at, 0.05);
        assert_near!(a, b, 0.05);
        seen += 1;
    }
    assert!(seen >= 12, "only {seen} holes could be told apart");
}

/// CSS Values and Units Level 4: 1 mm is 96/25.4 px. The readers' pictures keep only the green channel of a color.
#[test]
fn colors_are_in_the_bores_of_both_whole_boards_and_on_no_sheet() {
    const DPI: u32 = 60;
    let mut board = Board::default();
    let color = Rgb::named("dark blue").unwrap();
    board.colors.track = BoreColor {
        hue: Hue::One { color },
        on: BorePart::Inside,
        medium: Medium::Paint,
    };
    board.colors.on_plan = true;
    board.template.names = false;
    let sheet = whole_sheet(&worked(&board), &Stamp::default());
    let svg = String::from_utf8(exported(Kind::Svg, &board)).unwrap();
    let pdf = exported(Kind::PlotPdf, &board);
    let pictures = [
        svg_raster(&svg, DPI, &[]).unwrap(),
        pdf_raster(&pdf, 0, DPI).unwrap(),
    ];
    let wanted = 1.0 - color.shares()[1];
    for hole in &worked(&board).layout().holes {
        // Off the cross at its center; a line of the plan may cover one of these points, but not all.
        let beside = [(3.0, 3.0), (3.0, -3.0), (-3.0, 3.0), (-3.0, -3.0)];
        let beside =
            beside.map(|aside| hole.center + Vec2::from(aside) + sheet.view.page_from_board);
        let pixel = |mm: f64| (mm / 25.4 * f64::from(DPI)) as usize;
        for picture in &pictures {
            let ink = |at: Point| picture.ink(pixel(at.x), pixel(sheet.size.height - at.y));
            let least = beside.map(ink).into_iter().fold(f64::INFINITY, f64::min);
            let is_track = hole.name.id().role() == Role::Track;
            let near = if is_track { wanted } else { 0.0 };
            assert_near!(least, near, 0.02);
        }
    }
    // The drilling template stays black.
    let tiled = drawing::tiled_sheets(&worked(&board), &Stamp::default()).unwrap();
    assert!(tiled.iter().all(|sheet| sheet.view.tints.is_empty()));
}

#[test]
fn the_svg_is_as_large_as_the_page_in_millimeters() {
    let board = Board::default();
    let page = whole_sheet(&worked(&board), &Stamp::default()).size;
    let svg = String::from_utf8(exported(Kind::Svg, &board)).unwrap();
    let size = svg_size(&svg, 96).unwrap();
    assert_near!(size.width, page.width * 96.0 / 25.4, 0.01);
    assert_near!(size.height, page.height * 96.0 / 25.4, 0.01);
    let tree = roxmltree::Document::parse(&svg).unwrap();
    let root = tree.root_element();
    assert!(root.attribute("width").unwrap().ends_with("mm"));
    let corners: Vec<f64> = root
        .attribute("viewBox")
        .unwrap()
        .split([' ', ','])
        .map(|part| part.parse().unwrap())
        .collect();
    assert_near!(corners[2], page.width, 1e-3);
    let group = |id| {
        tree.descendants()
            .find(|node| node.attribute("id") == Some(id))
            .unwrap()
    };
    let circles = |id| {
        group(id)
            .descendants()
            .filter(|node| node.has_tag_name("circle"))
            .count()
    };
    assert_eq!(
        (circles("track"), circles("home"), circles("start")),
        (96, 30, 18)
    );
}

/// Every bore is a circle on its role's layer, in the displayed unit, whatever marks the template has.
#[test]
fn the_dxf_has_every_bore_at_its_position_in_the_layout() {
    for (name, mut board) in samples() {
        board.template.marking = board::Marking::Crosses;
        let millimeters = if board.units.is_inch() { 25.4 } else { 1.0 };
        let bytes = exported(Kind::Dxf, &board);
        let file = testkit::DxfFile::read(&bytes).unwrap();
        assert_eq!(file.metric, board.units == Units::Mm, "{name}");
        let layers = ["TRACK", "HOME", "START", "CENTER"];
        let circles: Vec<(Point, f64)> = layers
            .into_iter()
            .flat_map(|layer| file.circles(layer))
            .collect();
        for hole in worked(&board).layout().holes.clone() {
            let same = |(center, radius): &(Point, f64)| {
                let center = (center.to_vec2() * millimeters).to_point();
                center.distance(hole.center) < 1e-3
                    && (radius * millimeters - hole.bore.radius()).abs() < 1e-3
            };
            assert!(circles.iter().any(same), "{name}: {}", hole.name);
        }
    }
}

fn table(board: &Board) -> Vec<Vec<String>> {
    let bytes = exported(Kind::Csv, board);
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(bytes.as_slice());
    reader
        .records()
        .map(|row| row.unwrap().iter().map(ToOwned::to_owned).collect())
        .collect()
}

fn number(field: &str) -> f64 {
    field.parse().unwrap()
}

fn place(layout: &Layout, name: &str) -> Point {
    layout.hole(name.parse().unwrap()).unwrap().center
}

#[test]
fn the_hole_table_has_every_hole_in_both_units() {
    for (name, board) in samples() {
        let layout = worked(&board).layout().clone();
        let mm = table(&Board {
            units: Units::Mm,
            ..board.clone()
        });
        let inch = table(&Board {
            units: Units::INCH,
            ..board.clone()
        });
        let header =
            "name,role,player,number,x_mm,y_mm,radius_mm,bearing_deg,diameter_mm,depth_mm,bottom";
        assert_eq!(mm[0].join(","), header);
        assert_eq!(inch[0].join(","), header.replace("_mm", "_in"));
        assert_eq!(mm.len(), layout.holes.len() + 1, "{name}");
        for (row, inches) in mm.iter().zip(&inch).skip(1) {
            let center = place(&layout, &row[0]);
            assert_near!(Point::new(number(&row[4]), number(&row[5])), center, 1e-6);
            assert_near!(number(&inches[4]) * 25.4, center.x, 2e-5);
            assert_near!(number(&row[6]), center.to_vec2().length(), 1e-6);
            let bearing = geometry::Angle::degrees(number(&row[7]));
            assert!((0.0..360.0).contains(&bearing.as_degrees()));
            assert_near!(geometry::point_at(number(&row[6]), bearing), center, 1e-4);
        }
    }
}

#[test]
fn the_same_board_gives_the_same_bytes() {
    for kind in Kind::ALL {
        let board = planned(&Board::default());
        assert_eq!(files(kind, &board), files(kind, &board), "{kind:?}");
    }
}

/// An inside opening is larger by bushing minus bit: 16 and 12 mm here, so holes are 4 mm wider than their bores.
#[test]
fn router_templates_have_holes_for_the_bushing_at_the_centers_of_the_bores() {
    for (name, board) in samples() {
        let board = planned(&board);
        let worked = worked(&board);
        let file = PdfFile::read(&exported(Kind::Router, &board)).unwrap();
        let pages = tiles(&file, worked.tiling().unwrap());
        let wider = board.router.unwrap().wider();
        let holes = worked.layout().holes.iter();
        for hole in holes.filter(|hole| hole.name.id() != HoleId::CENTER) {
            let opening = Circle::new(hole.center, hole.bore.radius() + wider / 2.0);
            assert_shown(&pages, opening, &format!("{name}: {}", hole.name));
        }
    }
}

/// Holes of player 1 and index holes, on every page that shows their centers; the index holes are at the holes of the last
/// sector, which comes before the first.
#[test]
fn sector_jigs_have_their_holes_and_index_holes_within_a_thousandth_of_a_millimeter() {
    for (name, board) in samples() {
        let mut board = planned(&board);
        board.sector_jig = Some(SectorJig { pins: 2, play: 0.1 });
        let layout = worked(&board).layout().clone();
        let plan = worked(&board).sector_jig().unwrap().unwrap().clone();
        let sheets = sector_sheets(&worked(&board), &plan, &Stamp::default()).unwrap();
        let file = PdfFile::read(&exported(Kind::Sector, &board)).unwrap();
        let own = plan
            .holes
            .iter()
            .map(|hole| (hole.center, hole.bore.radius()));
        let index = plan.index.iter().map(|index| {
            let before = layout
                .hole(index.name.id().of_player(board.players))
                .unwrap();
            (before.center, index.mouth.radius)
        });
        let ringed = index.clone().map(|(center, radius)| (center, radius + 1.5));
        let pin = [(Point::ORIGIN, board.jig.pin / 2.0)];
        let pages = sheets.iter().zip(&file.pages);
        let pages = pages.filter(|(sheet, _)| !sheet.view.items.is_empty());
        let pages: Vec<Shown<'_>> = pages
            .map(|(sheet, page)| {
                let shift = sheet.view.page_from_board;
                (page, sheet.view.window - shift, shift)
            })
            .collect();
        for (center, radius) in own.chain(index).chain(ringed).chain(pin) {
            let what = format!("{name}: {center:?}");
            assert_shown(&pages, Circle::new(center, radius), &what);
        }
    }
}

/// A page of the PDF and the SVG of the same sheet show the same picture.
#[test]
fn every_sheet_has_its_own_svg_with_the_bores_of_its_page() {
    for (name, board) in samples() {
        let tiling = worked(&board).tiling().unwrap().clone();
        let drawings = files(Kind::TemplateSvg, &board);
        let file = PdfFile::read(&exported(Kind::TemplatePdf, &board)).unwrap();
        assert_eq!(drawings.len(), file.pages.len(), "{name}");
        for ((tile, page), (file, svg)) in tiling.tiles.iter().zip(&file.pages).zip(&drawings) {
            assert!(
                file.ends_with(&format!("-template-{}.svg", tile.label())),
                "{file}"
            );
            let svg = core::str::from_utf8(svg).unwrap();
            let media = page.boxes["MediaBox"];
            let size = svg_size(svg, 254).unwrap() / 10.0;
            assert_near!(size.width, media.width() / POINTS_PER_MM, 0.1);
            assert_near!(size.height, media.height() / POINTS_PER_MM, 0.1);
            let circles = svg_circles(svg, Affine::IDENTITY).unwrap();
            assert_eq!(circles.len(), page.circles.len(), "{file}");
            for (center, radius) in circles {
                let off = nearest_circle(&page.circles, center, radius);
                assert!(off <= 0.001, "{file}: a circle is {off} mm off");
            }
        }
    }
}

/// Names of holes are part of the picture, which is clipped at the edge of the printed area.
#[test]
fn words_begin_in_the_printed_area_and_hole_names_on_the_paper() {
    for (name, board) in samples() {
        let tiling = worked(&board).tiling().unwrap().clone();
        let paper = Rect::from_origin_size(Point::ORIGIN, tiling.paper);
        let file = PdfFile::read(&exported(Kind::TemplatePdf, &board)).unwrap();
        for page in &file.pages {
            let (names, others): (Vec<&PageWords>, Vec<&PageWords>) = page
                .words
                .iter()
                .partition(|words| words.words.parse::<HoleId>().is_ok());
            assert!(names.iter().all(|words| paper.contains(words.at)));
            // The title, the label, the key map, and two bars of two scales.
            assert!(others.len() > 8, "{name}: {others:?}");
            for PageWords { words, at, .. } in others {
                let printed = tiling.printable().contains(*at);
                assert!(printed, "{name}: {words} is at {at}");
            }
        }
    }
}

/// The bores of a paper fit strip: each as wide as its letter says, at a round distance from the next.
#[test]
fn fit_strips_have_their_five_bores_at_true_size() {
    for (units, step, round) in [
        (Units::Mm, 0.1, 5.0),
        (Units::INCH, 25.4 / 128.0, 25.4 / 4.0),
    ] {
        for paper in [Paper::A4, Paper::Letter] {
            let mut board = Board {
                units,
                ..Board::default()
            };
            board.template.paper = paper;
            board.bores.start.diameter = 20.0;
            let file = PdfFile::read(&exported(Kind::FitStrip, &board)).unwrap();
            let circles: Vec<_> = file.pages.iter().flat_map(|page| &page.circles).collect();
            assert_eq!(circles.len(), 10);
            for (strip, wanted) in circles.chunks(5).zip([12.0, 20.0]) {
                for (circle, steps) in strip.iter().zip(-2..) {
                    let width = wanted + f64::from(steps) * step;
                    assert_near!(circle.radius * 2.0, width, 0.001);
                }
                for pair in strip.windows(2) {
                    let apart = pair[0].center.distance(pair[1].center) / round;
                    assert!(apart > 2.0);
                    assert_near!(apart, apart.round(), 0.001 / round);
                }
            }
        }
    }
}

/// The tables match the pages: every article of one is in the other, with the same number to buy, and so is every part.
#[test]
fn lists_on_paper_match_the_tables() {
    for (name, board) in samples() {
        let [pages, to_buy, to_cut] = <[_; 3]>::try_from(files(Kind::Lists, &board)).unwrap();
        let file = PdfFile::read(&pages.1).unwrap();
        let told: Vec<&str> = file
            .pages
            .iter()
            .flat_map(|page| page.words.iter().map(|words| words.words.as_str()))
            .collect();
        let told = told.join(" ");
        for (table, column) in [(to_buy.1, "name"), (to_cut.1, "part")] {
            let mut reader = csv::Reader::from_reader(&*table);
            let at = reader
                .headers()
                .unwrap()
                .iter()
                .position(|head| head == column);
            let rows: Vec<_> = reader.records().map(Result::unwrap).collect();
            assert!(!rows.is_empty(), "{name}");
            for row in rows {
                for word in row[at.unwrap()].split(' ') {
                    assert!(told.contains(word), "{name}: {word}");
                }
            }
        }
    }
}
