//! The pictures of the guide, taken of the window as it is.
//!
//! `UPDATE_SNAPSHOTS=1 cargo test -p app guide` takes them anew; without it the test names those that are out of date.

use board::{FlawKind, FlawShape, Stock, StockFlaw, StockOutline};
use egui::Rect;
use egui_kittest::{SnapshotOptions, SnapshotResults};

use super::*;

/// A picture: its name, the sample on which it is taken, the size of the window, the keys and presses that lead to it, and the part of the
/// window that it shows by the name of that part; all of it where that is empty.
struct Picture {
    name: &'static str,
    sample: &'static str,
    size: [f32; 2],
    lead: fn(&mut Story),
    part: &'static str,
}

const PICTURES: [Picture; 7] = [
    Picture {
        name: "window",
        sample: "six-lobes",
        size: [1280.0, 820.0],
        lead: |_| {},
        part: "",
    },
    Picture {
        name: "figures",
        sample: "six-lobes",
        size: [1280.0, 640.0],
        lead: |story| {
            story.press("All figures");
            story.fill("Find a figure", "marble");
        },
        part: "",
    },
    Picture {
        name: "blank",
        sample: "eight-ring",
        size: [1200.0, 750.0],
        lead: |story| {
            story.harness.state_mut().session.board.stock = slab();
            story.press("Wood");
        },
        part: "",
    },
    Picture {
        name: "section",
        sample: "eight-ring",
        size: [1200.0, 750.0],
        lead: |story| story.keys(Modifiers::COMMAND, Key::J),
        part: "",
    },
    Picture {
        name: "export",
        sample: "six-lobes",
        size: [1200.0, 750.0],
        lead: |story| story.keys(Modifiers::COMMAND, Key::E),
        part: "",
    },
    Picture {
        name: "printer",
        sample: "six-lobes",
        size: [1280.0, 1100.0],
        lead: |story| {
            story.keys(Modifiers::COMMAND, Key::E);
            story.reach("Show Printer test sheet (PDF)");
        },
        part: "Preview of the sheet",
    },
    Picture {
        name: "proof",
        sample: "six-lobes",
        size: [1280.0, 820.0],
        lead: |story| story.keys(Modifiers::COMMAND, Key::P),
        part: "Picture of the finished board, in perspective",
    },
];

/// A slab with a knot, a crack and sapwood.
fn slab() -> Stock {
    let area = |kind, corners: &[[f64; 2]]| StockFlaw {
        kind,
        shape: FlawShape::Area {
            corners: corners.to_vec(),
        },
    };
    let knot = FlawShape::Round {
        x: 1000.0,
        y: 300.0,
        diameter: 45.0,
    };
    Stock {
        outline: StockOutline::Slab {
            length: 1500.0,
            width: 660.0,
            lower: vec![12.0, 8.0, 25.0, 18.0, 10.0],
            upper: vec![5.0, 20.0, 12.0, 22.0, 4.0],
        },
        flaws: vec![
            StockFlaw {
                kind: FlawKind::Knot,
                shape: knot,
            },
            area(
                FlawKind::Crack,
                &[[1380.0, 330.0], [1500.0, 318.0], [1500.0, 346.0]],
            ),
            area(
                FlawKind::Sapwood,
                &[[700.0, 0.0], [1500.0, 0.0], [1500.0, 70.0], [1100.0, 50.0]],
            ),
        ],
        ..Stock::default()
    }
}

fn folder() -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide")
}

/// The window on a sample, opened from a file.
fn opened(picture: &Picture) -> Story {
    let sample = concat!(env!("CARGO_MANIFEST_DIR"), "/../../assets/boards/");
    let text = std::fs::read(format!("{sample}{}.json", picture.sample)).unwrap();
    let fake = Fake::new();
    let path: &'static str = match picture.sample {
        "eight-ring" => "/home/maker/eight-ring.json",
        _ => "/home/maker/six-lobes.json",
    };
    fake.put(path, &text);
    Story::in_world(fake, Some(path), picture.size)
}

/// The picture of a part of the window, by its name.
fn cut(story: &Story, all: &image::RgbaImage, part: &str) -> image::RgbaImage {
    let rect: Rect = story.harness.get_by_label(part).rect();
    let (left, top) = (rect.left().ceil() as u32, rect.top().ceil() as u32);
    let width = (rect.width() as u32).min(all.width() - left);
    let height = (rect.height() as u32).min(all.height() - top);
    image::imageops::crop_imm(all, left, top, width, height).to_image()
}

#[test]
fn pictures_of_the_guide_show_the_window_as_it_is() {
    let mut results = SnapshotResults::new();
    let options = SnapshotOptions::new().output_path(folder());
    for picture in &PICTURES {
        let mut story = opened(picture);
        (picture.lead)(&mut story);
        story.harness.remove_cursor();
        story.harness.run_ok();
        let mut image = story.harness.render().unwrap();
        if !picture.part.is_empty() {
            image = cut(&story, &image, picture.part);
        }
        results.add(egui_kittest::try_image_snapshot_options(
            &image,
            picture.name,
            &options,
        ));
    }
}

#[test]
fn every_picture_of_the_guide_is_taken_of_the_program() {
    let mut kept: Vec<String> = std::fs::read_dir(folder())
        .unwrap()
        .filter_map(|entry| {
            let name = entry.unwrap().file_name().into_string().unwrap();
            let name = name.strip_suffix(".png")?;
            // Files that a failed comparison leaves behind have a second ending.
            let is_left = name.contains('.');
            (!is_left).then(|| name.to_owned())
        })
        .collect();
    kept.sort();
    let mut taken = PICTURES.map(|picture| picture.name);
    taken.sort_unstable();
    assert_eq!(kept, taken);
}
