//! PDFs read back: preferences, boxes, positions, words, layers, and the validity of the objects.

use super::*;
use drawing::{Anchor, Line, Shape, Text, View};
use geometry::{Circle, Point, Vec2};
use kurbo::Size;
use testkit::{PdfFile, assert_near};

const A4: Size = Size::new(210.0, 297.0);

fn item(layer: Layer, shape: Shape) -> Item {
    let line = Line::Drill;
    Item { layer, line, shape }
}

/// A bore with its name on the board, a bar and a word beside it.
fn sheet(size: Size) -> Sheet {
    let name = Text::level(Point::new(0.0, 6.0), 4.0, Anchor::Middle, "T3-07");
    let bar = kurbo::Line::new((20.0, 30.0), (120.0, 30.0));
    let word = Text::level(Point::new(20.0, 33.0), 4.0, Anchor::Start, "Ø 8 × 12½");
    Sheet {
        size,
        label: "1A".to_owned(),
        view: View {
            window: kurbo::Rect::new(10.0, 10.0, size.width - 10.0, size.height - 10.0),
            page_from_board: Vec2::new(100.0, 150.0),
            tints: Vec::new(),
            items: vec![
                item(Layer::Track, Shape::Circle(Circle::new((0.125, -7.3), 4.0))),
                item(Layer::Names, Shape::Text(name)),
            ],
        },
        marks: vec![
            item(Layer::Marks, Shape::Line(bar)),
            item(Layer::Marks, Shape::Text(word)),
        ],
        correction: None,
    }
}

fn written(sheets: &[Sheet]) -> PdfFile {
    PdfFile::read(&pdf(sheets, &PdfOptions::default()).unwrap()).unwrap()
}

/// ISO 32000-1:2008, 12.2, Table 150; `Enforce` is of extension level 3 and ISO 32000-2.
#[test]
fn the_file_asks_not_to_be_scaled() {
    let preferences = written(&[sheet(A4)]).preferences();
    assert_eq!(preferences["PrintScaling"], "/None");
    assert_eq!(preferences["PickTrayByPDFSize"], "true");
    assert_eq!(preferences["Duplex"], "/Simplex");
    assert!(preferences["Enforce"].contains("/PrintScaling"));
}

/// ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1: size A is 8.5 x 11 in; 1 in is 72 units.
#[test]
fn pages_have_exactly_the_size_of_the_paper() {
    let letter = Size::new(215.9, 279.4);
    let read = written(&[sheet(A4), sheet(letter)]);
    for (page, (width, height)) in read
        .pages
        .iter()
        .zip([(595.2756, 841.8898), (612.0, 792.0)])
    {
        for key in ["MediaBox", "CropBox", "TrimBox"] {
            let paper = page.boxes[key];
            assert_near!(paper.x0, 0.0, 0.0);
            assert_near!(paper.y0, 0.0, 0.0);
            assert_near!(paper.width(), width, 1e-4);
            assert_near!(paper.height(), height, 1e-4);
        }
    }
}

/// 1 in = 72 units = 25.4 mm: 100 mm are 283.4646 units.
#[test]
fn a_bar_of_100_mm_is_100_mm_long_on_the_page() {
    let read = written(&[sheet(A4)]);
    let [bar] = read.pages[0].lines[..] else {
        panic!("{:?}", read.pages[0].lines)
    };
    assert_near!(bar.from.distance(bar.to) * 72.0 / 25.4, 283.4646, 1e-4);
    assert_near!(bar.from, Point::new(20.0, 30.0), 1e-4);
    assert_near!(bar.width, Line::Drill.width(), 1e-4);
}

#[test]
fn circles_are_within_a_thousandth_of_a_millimeter() {
    let mut large = sheet(Size::new(3000.0, 2000.0));
    let radii = [0.4, 3.175, 25.0, 300.0, 949.7];
    large.view.items = radii
        .map(|radius| {
            let center = Point::new(1.0 / 3.0 + radius, 700.0 / 9.0 - radius / 7.0);
            item(Layer::Track, Shape::Circle(Circle::new(center, radius)))
        })
        .to_vec();
    let read = written(std::slice::from_ref(&large));
    assert_eq!(read.pages[0].circles.len(), radii.len());
    for (found, drawn) in read.pages[0].circles.iter().zip(&large.view.items) {
        let Shape::Circle(circle) = &drawn.shape else {
            panic!("not a circle")
        };
        assert_near!(
            found.center,
            circle.center + large.view.page_from_board,
            0.001
        );
        assert_near!(found.radius, circle.radius, 0.001);
    }
}

#[test]
fn large_circles_and_bars_are_stored_once_for_all_pages() {
    let circle = Circle::new((7.0, -9.0), 150.0);
    let mut sheets = [sheet(A4), sheet(A4)];
    sheets[1].view.page_from_board.x -= 33.3;
    for (index, sheet) in (0..).zip(&mut sheets) {
        let guide = item(Layer::Guides, Shape::Circle(circle));
        sheet.view.items.push(guide);
        sheet.marks = ticks(Point::new(20.0, 30.0 + 12.3 * f64::from(index)));
    }
    let bytes = pdf(&sheets, &PdfOptions::default()).unwrap();
    assert_eq!(
        String::from_utf8_lossy(&bytes)
            .matches("/Subtype/Form")
            .count(),
        2
    );
    let read = PdfFile::read(&bytes).unwrap();
    for (page, sheet) in read.pages.iter().zip(&sheets) {
        let found = page.circles.last().unwrap();
        assert_near!(
            found.center,
            circle.center + sheet.view.page_from_board,
            0.001
        );
        assert_near!(found.radius, circle.radius, 0.001);
        assert_eq!(page.lines.len(), sheet.marks.len());
        for (found, drawn) in page.lines.iter().zip(&sheet.marks) {
            let Shape::Line(line) = &drawn.shape else {
                panic!("not a line")
            };
            assert_near!(found.from, line.p0, 0.001);
            assert_near!(found.to, line.p1, 0.001);
        }
    }
}

/// A bar with a tick every 10 mm.
fn ticks(start: Point) -> Vec<Item> {
    let tick = |index| {
        let foot = start + Vec2::new(10.0 * f64::from(index), 0.0);
        item(
            Layer::Marks,
            Shape::Line(kurbo::Line::new(foot, foot + Vec2::new(0.0, 2.0))),
        )
    };
    (0..=10).map(tick).collect()
}

/// An empty title, in a typeface that nothing else uses.
#[test]
fn empty_words_name_no_typeface() {
    let mut sheet = sheet(A4);
    let empty = Text {
        weight: drawing::font::Weight::SemiBold,
        ..Text::level(Point::new(5.0, 50.0), 5.0, Anchor::Start, "")
    };
    sheet.marks.push(item(Layer::Title, Shape::Text(empty)));
    assert_eq!(written(&[sheet]).pages[0].words.len(), 2);
}

#[test]
fn words_can_be_found_at_their_positions() {
    let mut sheet = sheet(A4);
    sheet.marks.push(item(
        Layer::Title,
        Shape::Text(Text {
            turn: geometry::Angle::degrees(90.0),
            weight: drawing::font::Weight::SemiBold,
            ..Text::level(Point::new(5.0, 50.0), 5.0, Anchor::Start, "1A → 2A")
        }),
    ));
    let read = written(&[sheet.clone()]);
    let words = &read.pages[0].words;
    let texts: Vec<_> = words.iter().map(|words| words.words.as_str()).collect();
    assert_eq!(texts, ["T3-07", "Ø 8 × 12½", "1A → 2A"]);
    let Shape::Text(name) = &sheet.view.items[1].shape else {
        panic!("not words")
    };
    assert_near!(words[0].at, name.start() + sheet.view.page_from_board, 1e-3);
    assert_near!(words[0].size, 4.0, 1e-4);
    assert_near!(words[2].at, Point::new(5.0, 50.0), 1e-3);
    assert_near!(words[2].size, 5.0, 1e-4);
}

#[test]
fn only_the_weights_in_use_are_embedded_and_only_once() {
    let plain = pdf(&[sheet(A4), sheet(A4)], &PdfOptions::default()).unwrap();
    let text = String::from_utf8_lossy(&plain);
    assert_eq!(text.matches("/FontFile2 ").count(), 1);
    assert!(text.contains("+Inter-Regular") && !text.contains("+Inter-SemiBold"));
    assert!(plain.len() < 12_000, "{} bytes", plain.len());
}

#[test]
fn layers_in_use_can_be_switched_on_and_off() {
    let options = PdfOptions {
        layers: true,
        ..PdfOptions::default()
    };
    let bytes = pdf(&[sheet(A4)], &options).unwrap();
    let read = PdfFile::read(&bytes).unwrap();
    assert_eq!(read.pages[0].circles[0].layer.as_deref(), Some("track"));
    let catalog = read.document.catalog().unwrap();
    let properties = catalog.get(b"OCProperties").unwrap().as_dict().unwrap();
    let groups = properties.get(b"OCGs").unwrap().as_array().unwrap();
    let name = |group: &testkit::lopdf::Object| {
        let group = read
            .document
            .get_dictionary(group.as_reference().unwrap())
            .unwrap();
        String::from_utf8_lossy(group.get(b"Name").unwrap().as_str().unwrap()).into_owned()
    };
    let names: Vec<_> = groups.iter().map(name).collect();
    assert_eq!(names, ["track", "names", "marks"]);
    assert_eq!(written(&[sheet(A4)]).pages[0].circles[0].layer, None);
}

#[test]
fn the_same_sheets_give_the_same_bytes() {
    let options = PdfOptions {
        layers: true,
        ..PdfOptions::default()
    };
    let sheets = [sheet(A4), sheet(Size::new(420.0, 297.0))];
    assert_eq!(
        pdf(&sheets, &options).unwrap(),
        pdf(&sheets, &options).unwrap()
    );
}

#[test]
fn title_creator_and_date_are_in_the_file() {
    let options = PdfOptions {
        title: "Board – 6 players".to_owned(),
        creator: "Ringwright".to_owned(),
        created: Some(Date {
            year: 2026,
            month: 3,
            day: 9,
            hour: 7,
            minute: 5,
        }),
        layers: false,
    };
    let bytes = pdf(&[sheet(A4)], &options).unwrap();
    let text = String::from_utf8_lossy(&bytes);
    assert!(text.contains("/Creator(Ringwright)") && text.contains("/CreationDate(D:202603090705"));
    assert!(text.contains("/Title"));
    let without = pdf(&[sheet(A4)], &PdfOptions::default()).unwrap();
    assert!(!String::from_utf8_lossy(&without).contains("CreationDate"));
}

/// A dictionary may have a key only once (ISO 32000-1:2008, 7.3.7); the library that writes it does not check.
#[test]
fn no_dictionary_has_a_key_twice() {
    let options = PdfOptions {
        title: "Board".to_owned(),
        layers: true,
        ..PdfOptions::default()
    };
    let bytes = pdf(&[sheet(A4), sheet(A4)], &options).unwrap();
    let text = without_streams(&bytes);
    let dictionaries = keys_of_dictionaries(&text);
    assert!(
        dictionaries.len() > 20,
        "{} dictionaries",
        dictionaries.len()
    );
    for mut keys in dictionaries {
        let count = keys.len();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), count, "{keys:?}");
    }
}

fn without_streams(bytes: &[u8]) -> String {
    let text = String::from_utf8_lossy(bytes).into_owned();
    let mut parts = text.split("stream\n");
    let mut out = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        // Either the text after "endstream", or a stream's bytes up to its end.
        if !part.ends_with("end") {
            out += part;
        }
    }
    out
}

/// The keys of each dictionary: the names in positions where a key is expected.
fn keys_of_dictionaries(text: &str) -> Vec<Vec<String>> {
    let tokens = text
        .replace("<<", " << ")
        .replace(">>", " >> ")
        .replace('[', " [ ");
    let tokens = tokens
        .replace(']', " ] ")
        .replace('/', " /")
        .replace('(', " (");
    let (mut open, mut done) = (Vec::new(), Vec::new());
    for token in tokens.split_whitespace() {
        match token {
            "<<" | "[" => open.push((token, Vec::new(), true)),
            ">>" | "]" => {
                let (_, keys, _) = open.pop().unwrap();
                if token == ">>" {
                    done.push(keys);
                }
                if let Some((_, _, key_due)) = open.last_mut() {
                    *key_due = true;
                }
            }
            _ => {
                if let Some(("<<", keys, key_due)) = open.last_mut() {
                    let is_key = *key_due && token.starts_with('/');
                    if is_key {
                        keys.push(token.to_owned());
                    }
                    *key_due = !is_key;
                }
            }
        }
    }
    done
}

#[test]
fn impossible_pages_are_rejected() {
    let refused = |change: fn(&mut Sheet)| {
        let mut sheet = sheet(A4);
        change(&mut sheet);
        pdf(&[sheet], &PdfOptions::default())
            .unwrap_err()
            .to_string()
    };
    assert!(matches!(
        pdf(&[], &PdfOptions::default()),
        Err(Error::NoSheets)
    ));
    for change in [
        |sheet: &mut Sheet| sheet.size.width = 0.0,
        |sheet: &mut Sheet| sheet.size.height = -297.0,
        |sheet: &mut Sheet| sheet.size.width = 5080.1,
        |sheet: &mut Sheet| sheet.size.height = f64::NAN,
        |sheet: &mut Sheet| sheet.size.height = f64::INFINITY,
    ] {
        assert!(
            refused(change).contains("up to 5080 mm"),
            "{}",
            refused(change)
        );
    }
    for change in [
        |sheet: &mut Sheet| sheet.view.page_from_board.x = f64::NAN,
        |sheet: &mut Sheet| {
            sheet.marks.push(item(
                Layer::Marks,
                Shape::Area(vec![Point::new(0.0, f64::INFINITY)]),
            ));
        },
    ] {
        assert!(
            refused(change).contains("not a number"),
            "{}",
            refused(change)
        );
    }
    let longest = Sheet {
        size: Size::new(5080.0, 10.0),
        ..sheet(A4)
    };
    assert!(pdf(&[longest], &PdfOptions::default()).is_ok());
}
