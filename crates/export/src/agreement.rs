//! PDF and SVG of one sheet give the same picture, and its holes are where the drawing has them.

use std::sync::LazyLock;

use crate::PdfOptions;
use drawing::font;
use drawing::{Anchor, Item, Layer, Line, Shape, Sheet, Text, View};
use geometry::{Angle, Arc, Circle, Point, Vec2, point_at};
use kurbo::{Rect, Size};
use testkit::{Gray, PdfFile, assert_near, pdf_raster, svg_raster};

const DPI: u32 = 300;
const HOLES: u32 = 20;
const DIAMETER: f64 = 6.35;

fn item(layer: Layer, line: Line, shape: Shape) -> Item {
    Item { layer, line, shape }
}

fn hole_centers() -> Vec<Point> {
    let step = Angle::TURN / f64::from(HOLES);
    let centers = (0..HOLES).map(|hole| point_at(50.0, step * (f64::from(hole) + 0.3)));
    centers.collect()
}

/// Holes with names inside them, an edge clipped by the window, an axis, and marks.
fn sheet() -> Sheet {
    let edge = Shape::Circle(Circle::new((0.0, 0.0), 80.0));
    let axis = Shape::Line(kurbo::Line::new((-60.0, 0.0), (60.0, 0.0)));
    let pin = Shape::Cross {
        center: Point::ZERO,
        arm: 5.0,
    };
    let mut items = vec![
        item(Layer::Edge, Line::Cut, edge),
        item(Layer::Guides, Line::Guide, axis),
        item(Layer::Center, Line::Drill, pin),
    ];
    for (index, center) in hole_centers().into_iter().enumerate() {
        let bore = Shape::Circle(Circle::new(center, DIAMETER / 2.0));
        let at = center - Vec2::new(0.0, 0.8);
        let name = Text::level(at, 2.0, Anchor::Middle, format!("T{index}"));
        items.push(item(Layer::Track, Line::Drill, bore));
        items.push(item(Layer::Names, Line::Dimension, Shape::Text(name)));
    }
    Sheet {
        size: Size::new(148.0, 210.0),
        label: "1A".to_owned(),
        view: View {
            window: Rect::new(10.0, 10.0, 138.0, 200.0),
            page_from_board: Vec2::new(74.25, 110.125),
            tints: Vec::new(),
            items,
        },
        marks: marks(),
        correction: None,
    }
}

/// An area, an arc and rotated words.
fn marks() -> Vec<Item> {
    let area = [(20.0, 20.0), (40.0, 20.0), (40.0, 26.0)].map(Point::from);
    let arc = Arc {
        center: Point::new(74.0, 110.0),
        radius: 25.0,
        start: Angle::degrees(300.0),
        sweep: Angle::degrees(100.0),
    };
    let title = Text {
        turn: Angle::degrees(30.0),
        weight: font::Weight::SemiBold,
        ..Text::level(Point::new(120.0, 30.0), 6.0, Anchor::End, "Sheet 1A")
    };
    vec![
        item(Layer::Marks, Line::Dimension, Shape::Area(area.to_vec())),
        item(Layer::Marks, Line::Dimension, Shape::Arc(arc)),
        item(Layer::Title, Line::Dimension, Shape::Text(title)),
    ]
}

/// The sheet as the PDF and as the SVG show it.
static PICTURES: LazyLock<[Gray; 2]> = LazyLock::new(|| {
    let bytes = crate::pdf(&[sheet()], &PdfOptions::default()).unwrap();
    let text = crate::svg(&sheet()).unwrap();
    [
        pdf_raster(&bytes, 0, DPI).unwrap(),
        svg_raster(&text, DPI, &[font::REGULAR, font::SEMI_BOLD]).unwrap(),
    ]
});

/// The holes of a picture, in the order of the drawing.
fn holes(picture: &Gray) -> Vec<(Point, f64)> {
    let round = picture.round_blobs();
    let nearest = |center: Point| {
        let off = |found: &&(Point, f64)| found.0.distance(center);
        let nearest = round.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        *nearest.unwrap()
    };
    let centers = hole_centers().into_iter();
    centers
        .map(|center| nearest(center + sheet().view.page_from_board))
        .collect()
}

#[test]
fn holes_are_where_the_drawing_has_them_in_both_pictures() {
    let [pdf, svg] = PICTURES.each_ref().map(holes);
    for (index, center) in hole_centers().into_iter().enumerate() {
        let center = center + sheet().view.page_from_board;
        for (found, diameter) in [pdf[index], svg[index]] {
            assert_near!(found, center, 0.05);
            assert_near!(diameter, DIAMETER, 0.05);
        }
        assert_near!(pdf[index].0, svg[index].0, 0.05);
    }
}

#[test]
fn an_arc_is_written_alike_in_either_direction() {
    let mut back = sheet();
    for item in &mut back.marks {
        if let Shape::Arc(arc) = &mut item.shape {
            *arc = arc.reversed();
        }
    }
    assert_ne!(back, sheet());
    let options = PdfOptions::default();
    assert_eq!(
        crate::pdf(&[back.clone()], &options).unwrap(),
        crate::pdf(&[sheet()], &options).unwrap()
    );
    assert_eq!(crate::svg(&back).unwrap(), crate::svg(&sheet()).unwrap());
    let dxf = |sheet| crate::dxf(sheet, crate::DxfOptions::default()).unwrap();
    assert_eq!(dxf(&back), dxf(&sheet()));
}

#[test]
fn both_pictures_have_the_same_ink_in_the_same_places() {
    let [pdf, svg] = &*PICTURES;
    assert_eq!((pdf.width, pdf.height), (svg.width, svg.height));
    assert_near!(pdf.area() / svg.area(), 1.0, 0.01);
    // Squares of about 5 mm: ink may differ by a hundredth of the square, a few pixels at the edge of a line.
    let side = 80;
    for y in (0..pdf.height).step_by(side) {
        for x in (0..pdf.width).step_by(side) {
            let ink = |picture: &Gray| {
                let rows = y..y + side;
                let cells = rows.flat_map(|y| (x..x + side).map(move |x| (x, y)));
                cells.map(|(x, y)| picture.ink(x, y)).sum::<f64>() / (side * side) as f64
            };
            assert_near!(ink(pdf), ink(svg), 0.01);
        }
    }
}

#[test]
fn the_page_keeps_every_circle_to_a_thousandth() {
    let bytes = crate::pdf(&[sheet()], &PdfOptions::default()).unwrap();
    let circles = PdfFile::read(&bytes).unwrap().pages.remove(0).circles;
    assert_eq!(circles.len(), hole_centers().len() + 1);
    for (circle, center) in circles[1..].iter().zip(hole_centers()) {
        assert_near!(circle.center, center + sheet().view.page_from_board, 0.001);
        assert_near!(circle.radius, DIAMETER / 2.0, 0.001);
    }
}
