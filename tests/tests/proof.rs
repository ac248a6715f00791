//! The proof read back: its size, the wood between the holes, the shadow in a bore, and the colors of every player.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use app::exports::Kind;
use board::{Board, HoleId, Role, Wood};
use geometry::Point;
use image::RgbImage;
use picture::{Page, View};
use testkit::{PdfFile, pdf_raster};
use tests::{PROOF, files, worked};
use workshop::look;

/// A cherry board with bores deep enough to be dark.
fn board() -> Board {
    let mut board = Board {
        wood: Some(Wood {
            species: "black-cherry".into(),
            ..Wood::default()
        }),
        ..Board::default()
    };
    board.bores.track.depth = 9.0;
    board
}

/// The pictures of a proof: from above, and in perspective.
fn pictures(board: &Board) -> [RgbImage; 2] {
    let files = files(Kind::Proof, board);
    let pictures = files.into_iter().filter(|(name, _)| name.contains(".png"));
    let pictures: Vec<RgbImage> = pictures
        .map(|(_, bytes)| image::load_from_memory(&bytes).unwrap().to_rgb8())
        .collect();
    pictures.try_into().unwrap()
}

/// The mean color around a point of the board, in the picture from above.
fn color_at(picture: &RgbImage, board: &Board, at: Point, reach: i64) -> [f64; 3] {
    let area = Page::of(&worked(board), View::Above, PROOF).board;
    let scale = area.width / board.blank.diameter;
    let x = (area.x + area.width / 2.0 + at.x * scale) as i64;
    let y = (area.y + area.height / 2.0 - at.y * scale) as i64;
    let mut sum = [0.0; 3];
    let side = 2 * reach + 1;
    for place in 0..side * side {
        let (x, y) = (x + place % side - reach, y + place / side - reach);
        let pixel = picture.get_pixel(x as u32, y as u32);
        for (sum, part) in sum.iter_mut().zip(pixel.0) {
            *sum += f64::from(part) / (side * side) as f64;
        }
    }
    sum
}

#[test]
fn proofs_have_the_requested_size() {
    let [above, perspective] = pictures(&board());
    assert_eq!(above.dimensions(), (PROOF * 4 / 5, PROOF));
    assert_eq!(perspective.dimensions(), (PROOF, PROOF * 4 / 5));
}

#[test]
fn wood_without_holes_has_the_tone_of_its_species() {
    let board = board();
    let [above, _] = pictures(&board);
    let wood = look("black-cherry").heart.parts();
    let seen = color_at(&above, &board, Point::new(-40.0, 20.0), 6);
    for (seen, wood) in seen.into_iter().zip(wood) {
        assert!((seen - f64::from(wood)).abs() < 30.0, "{seen} and {wood}");
    }
}

#[test]
fn the_upper_left_of_a_bore_is_in_its_own_shadow() {
    let board = board();
    let [above, _] = pictures(&board);
    let layout = worked(&board).layout().clone();
    for hole in layout
        .holes
        .iter()
        .filter(|hole| hole.name.id().role() == Role::Track)
    {
        let dark = color_at(&above, &board, hole.center + kurbo::Vec2::new(-3.0, 3.0), 0);
        let way = hole.center.to_vec2();
        let beside = (way * (1.0 - 9.5 / way.length())).to_point();
        let wood = color_at(&above, &board, beside, 1);
        let sum = |color: [f64; 3]| color.iter().sum::<f64>();
        assert!(
            sum(dark) < 0.72 * sum(wood),
            "{}: {dark:?} in {wood:?}",
            hole.name
        );
    }
}

/// Every player's pieces have a distinct color, shared by all of that player's pieces.
#[test]
fn pieces_stand_in_every_pocket_in_the_color_of_their_player() {
    let board = board();
    let [above, _] = pictures(&board);
    let layout = worked(&board).layout().clone();
    let piece = |player, number| {
        let hole = layout
            .hole(HoleId::new(Role::Start, player, number))
            .unwrap();
        color_at(&above, &board, hole.center, 1)
    };
    let apart = |one: [f64; 3], other: [f64; 3]| {
        let parts = one
            .iter()
            .zip(other)
            .map(|(one, other)| (one - other).abs());
        parts.fold(0.0, f64::max)
    };
    for player in 1..=board.players {
        let first = piece(player, 1);
        for number in 2..=board.start {
            assert!(
                apart(first, piece(player, number)) < 26.0,
                "player {player}, piece {number}"
            );
        }
        for other in player + 1..=board.players {
            assert!(
                apart(first, piece(other, 1)) > 40.0,
                "players {player} and {other}"
            );
        }
    }
}

#[test]
fn the_hand_and_the_words_are_clear_of_the_board() {
    let page = Page::of(&worked(&board()), View::Above, PROOF);
    let bottom = page.board.y + page.board.height;
    assert!(page.hand.unwrap().bounds()[1] > bottom - 0.1 * page.board.height);
    assert!(page.lines.iter().all(|line| line.y - line.size > bottom));
}

/// The file of a proof with an extension.
fn ending(board: &Board, ending: &str) -> Vec<u8> {
    let mut files = files(Kind::Proof, board).into_iter();
    files.find(|(name, _)| name.ends_with(ending)).unwrap().1
}

#[test]
fn the_pdf_is_one_page_of_the_boards_paper_with_words_and_a_picture() {
    let board = board();
    let bytes = ending(&board, "proof.pdf");
    let file = PdfFile::read(&bytes).unwrap();
    let [page] = file.pages.as_slice() else {
        panic!("{} pages", file.pages.len());
    };
    let words: Vec<&str> = page.words.iter().map(|line| line.words.as_str()).collect();
    for wanted in [
        "Untitled board",
        "Black cherry",
        "640 mm across, 20 mm thick",
        "6 players, 145 holes",
    ] {
        assert!(words.contains(&wanted), "{wanted} is not among {words:?}");
    }
    // White paper at the edge, wood in the middle of the picture.
    let raster = pdf_raster(&bytes, 0, 50).unwrap();
    let pixel = |mm: f64| (mm / 25.4 * 50.0) as usize;
    let dark = |x: f64, y: f64| raster.ink(pixel(x), pixel(raster.top - y));
    assert!(dark(2.0, 2.0) < 0.05);
    assert!(dark(95.0, 160.0) > 0.3);
}

#[test]
fn the_svg_has_its_words_and_embeds_the_picture() {
    let board = board();
    let text = String::from_utf8(ending(&board, "proof.svg")).unwrap();
    let document = roxmltree::Document::parse(&text).unwrap();
    let named = |name: &'static str| {
        document
            .descendants()
            .filter(move |node| node.has_tag_name(name))
    };
    let image = named("image").next().unwrap();
    let link = image.attribute("href").unwrap();
    assert!(link.starts_with("data:image/png;base64,iVBORw0KGgo"));
    let number = |name| image.attribute(name).unwrap().parse::<f64>().unwrap();
    assert!((number("width") / number("height") - 0.8).abs() < 1e-3);
    let words: Vec<&str> = named("text").filter_map(|node| node.text()).collect();
    assert!(
        words.contains(&"Untitled board") && words.contains(&"Black cherry"),
        "{words:?}"
    );
}

/// The picture on the first page of the job sheet has 300 dots per inch, in grayscale, and is light enough to print.
#[test]
fn the_job_sheet_begins_with_a_grayscale_proof_of_limited_size() {
    let board = board();
    let bytes = files(Kind::Job, &board).remove(0).1;
    assert!(bytes.len() < 900_000, "{}", bytes.len());
    let file = String::from_utf8_lossy(&bytes);
    let image = file.find("/Subtype/Image").unwrap();
    let about: String = file[image..].chars().take(200).collect();
    assert!(
        about.contains("/Width 780") && about.contains("/Height 780"),
        "{about}"
    );
    assert!(about.contains("/DeviceGray"), "{about}");
    let room = drawing::job_picture(&worked(&board), &drawing::Stamp::default()).unwrap();
    let raster = pdf_raster(&bytes, 0, 100).unwrap();
    let dark = |at: Point| {
        let scale = room.area.width() * (0.5 - room.inset) / board.blank.radius();
        let place = room.area.center() + at.to_vec2() * scale;
        let pixel = |mm: f64| (mm / 25.4 * 100.0) as usize;
        raster.ink(pixel(place.x), pixel(raster.top - place.y))
    };
    let wood = dark(Point::new(-40.0, 20.0));
    assert!((0.1..0.4).contains(&wood), "{wood}");
    let layout = worked(&board).layout().clone();
    let track = layout
        .holes
        .iter()
        .filter(|hole| hole.name.id().role() == Role::Track);
    let darker = track.filter(|hole| dark(hole.center) > wood + 0.1).count();
    assert!(darker as u32 > board.spaces * board.players / 2, "{darker}");
}
