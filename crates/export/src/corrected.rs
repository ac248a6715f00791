//! Corrected sheets, read back as the printer they are corrected for would print them.

use board::{Board, Layout};
use drawing::{Layer, Shape, Sheet, Stamp, fit_strip_pages, tiled_sheets};
use geometry::{Circle, Point};
use kurbo::Affine;
use testkit::{PdfFile, assert_near, svg_circles};
use workshop::{Correction, PrintBar, PrintReadings, Workpiece, print_scale};

use crate::{Error, PdfOptions, pdf, svg};

/// A printer that prints 0.6 % small across and 0.2 % large up, leans to the right and runs slightly uphill.
const PRINTER: Affine = Affine::new([0.994, 0.0008, 0.0021, 1.002, 0.0, 0.0]);

/// The correction that follows from what a maker would read, with a perfect rule, on a sheet from this printer.
fn correction() -> Correction {
    let length = |x, y| vec![(PRINTER * Point::new(x, y)).distance(Point::ZERO)];
    let bar = |readings| PrintBar {
        nominal: 100.0,
        readings,
    };
    let readings = PrintReadings {
        level: bar(length(100.0, 0.0)),
        upright: bar(length(0.0, 100.0)),
        square: 100.0,
        rising: length(100.0, 100.0),
        falling: length(100.0, -100.0),
        division: 0.5,
    };
    Correction {
        printer: "Laser".into(),
        print: print_scale(&readings).unwrap().correction,
    }
}

fn sheets(correction: Option<&Correction>) -> (Layout, Vec<Sheet>) {
    let workpiece = Workpiece::printed(&Board::default(), correction.cloned()).unwrap();
    let sheets = tiled_sheets(&workpiece, &Stamp::default()).unwrap();
    (workpiece.layout().clone(), sheets)
}

/// The printer's distortion of a sheet: a landscape sheet goes through rotated by a quarter turn.
fn printer_of(sheet: &Sheet) -> Affine {
    let quarter = Affine::new([0.0, 1.0, -1.0, 0.0, 0.0, 0.0]);
    if sheet.size.width > sheet.size.height {
        quarter.inverse() * PRINTER * quarter
    } else {
        PRINTER
    }
}

/// The bores of a sheet, in the page frame.
fn bores(sheet: &Sheet) -> Vec<Circle> {
    let layers = [Layer::Track, Layer::Home, Layer::Start];
    let items = sheet.view.items.iter();
    let bores = items.filter_map(|item| match item.shape {
        Shape::Circle(circle) if layers.contains(&item.layer) => {
            Some(circle + sheet.view.page_from_board)
        }
        _ => None,
    });
    bores.collect()
}

/// The printed circle nearest to where a bore is printed.
fn nearest(printed: &[(Point, f64)], bore: Circle, radius: f64) -> (Point, f64) {
    let alike = printed
        .iter()
        .filter(|found| (found.1 - radius).abs() < 0.1);
    let off = |found: &&(Point, f64)| found.0.distance(bore.center);
    *alike.min_by(|a, b| off(a).total_cmp(&off(b))).unwrap()
}

/// Checks distances between bores, since a printed sheet may be shifted and rotated as a whole, and their radii.
fn assert_true(printed: &[(Point, f64)], bores: &[Circle]) {
    let found: Vec<_> = bores
        .iter()
        .map(|bore| nearest(printed, *bore, bore.radius))
        .collect();
    for (one, found_one) in bores.iter().zip(&found) {
        assert_near!(found_one.1, one.radius, 0.001);
        for (other, found_other) in bores.iter().zip(&found) {
            let wanted = one.center.distance(other.center);
            assert_near!(found_one.0.distance(found_other.0), wanted, 0.001);
        }
    }
}

#[test]
fn bores_of_a_corrected_pdf_are_printed_true_to_size() {
    let (_, sheets) = sheets(Some(&correction()));
    for sheet in &sheets {
        let bytes = pdf(std::slice::from_ref(sheet), &PdfOptions::default()).unwrap();
        let read = PdfFile::read_printed(&bytes, printer_of(sheet)).unwrap();
        let circles = read.pages[0].circles.iter();
        let printed: Vec<_> = circles
            .map(|circle| (circle.center, circle.radius))
            .collect();
        assert_true(&printed, &bores(sheet));
    }
    assert!(sheets.iter().map(|sheet| bores(sheet).len()).sum::<usize>() >= 144);
}

#[test]
fn bores_of_a_corrected_svg_are_printed_true_to_size() {
    let (_, sheets) = sheets(Some(&correction()));
    for sheet in &sheets {
        let printed = svg_circles(&svg(sheet).unwrap(), printer_of(sheet)).unwrap();
        assert_true(&printed, &bores(sheet));
    }
}

/// The printer is bad enough for the tests above to fail without the correction.
#[test]
fn uncorrected_bores_would_be_off() {
    let (_, sheets) = sheets(None);
    let off = |sheet: &Sheet| {
        let bores = bores(sheet);
        let ways = bores
            .iter()
            .flat_map(|one| bores.iter().map(|other| other.center - one.center));
        let printer = printer_of(sheet);
        let off =
            ways.map(|way| ((printer * way.to_point()).to_vec2().length() - way.length()).abs());
        off.fold(0.0, f64::max)
    };
    let most = sheets.iter().map(off).fold(0.0, f64::max);
    assert!(most > 0.5, "{most}");
}

#[test]
fn the_bars_of_a_corrected_sheet_are_true_to_size() {
    let (_, sheets) = sheets(Some(&correction()));
    let sheet = &sheets[0];
    let bytes = pdf(std::slice::from_ref(sheet), &PdfOptions::default()).unwrap();
    let read = PdfFile::read_printed(&bytes, printer_of(sheet)).unwrap();
    let lines = read.pages[0].lines.iter();
    let bars = lines.filter(|line| (line.from.distance(line.to) - 101.6).abs() < 0.001);
    assert_eq!(bars.count(), 2);
}

/// The five bores of the strip are printed as wide as they are drawn, and as far apart.
#[test]
fn a_corrected_fit_strip_is_printed_true_to_size() {
    let workpiece = Workpiece::printed(&Board::default(), Some(correction())).unwrap();
    let sheets = fit_strip_pages(&workpiece, &Stamp::default());
    let bytes = pdf(&sheets, &PdfOptions::default()).unwrap();
    let read = PdfFile::read_printed(&bytes, printer_of(&sheets[0])).unwrap();
    let circles = &read.pages[0].circles;
    assert_eq!(circles.len(), 5);
    for (circle, diameter) in circles.iter().zip([11.8, 11.9, 12.0, 12.1, 12.2]) {
        assert_near!(circle.radius * 2.0, diameter, 0.001);
    }
    for pair in circles.windows(2) {
        assert_near!(pair[1].center.distance(pair[0].center), 25.0, 0.001);
    }
}

#[test]
fn pages_keep_their_paper_and_ask_not_to_be_scaled() {
    let (_, sheets) = sheets(Some(&correction()));
    let read = PdfFile::read(&pdf(&sheets, &PdfOptions::default()).unwrap()).unwrap();
    for (page, sheet) in read.pages.iter().zip(&sheets) {
        for key in ["MediaBox", "CropBox", "TrimBox"] {
            assert_near!(
                page.boxes[key].width(),
                sheet.size.width * 72.0 / 25.4,
                1e-4
            );
            assert_near!(
                page.boxes[key].height(),
                sheet.size.height * 72.0 / 25.4,
                1e-4
            );
        }
    }
    assert_eq!(read.preferences()["PrintScaling"], "/None");
}

#[test]
fn a_correction_that_changes_nothing_changes_no_byte_but_its_words() {
    let (_, mut sheets) = sheets(None);
    let before = pdf(&sheets, &PdfOptions::default()).unwrap();
    let picture = svg(&sheets[0]).unwrap();
    for sheet in &mut sheets {
        sheet.correction = Some(Correction {
            printer: "Laser".into(),
            print: workshop::PrintCorrection::IDENTITY,
        });
    }
    assert_eq!(pdf(&sheets, &PdfOptions::default()).unwrap(), before);
    assert_eq!(svg(&sheets[0]).unwrap(), picture);
}

#[test]
fn a_correction_that_is_not_a_number_is_rejected() {
    let (_, mut sheets) = sheets(Some(&correction()));
    for x in [f64::NAN, 0.0, -1.0, f64::INFINITY] {
        for sheet in &mut sheets {
            if let Some(correction) = &mut sheet.correction {
                correction.print.x = x;
            }
        }
        assert!(matches!(svg(&sheets[0]), Err(Error::NotANumber { .. })));
        let bytes = pdf(&sheets, &PdfOptions::default());
        assert!(matches!(bytes, Err(Error::NotANumber { .. })));
    }
}
