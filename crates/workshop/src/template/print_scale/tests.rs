//! Readings of known printers, and readings that no printer produces.

use super::*;
use geometry::Point;
use kurbo::{Affine, Vec2};
use proptest::prelude::*;
use testkit::assert_near;

fn bar(nominal: f64, readings: &[f64]) -> PrintBar {
    PrintBar {
        nominal,
        readings: readings.to_vec(),
    }
}

/// Bars without diagonals.
fn bars(level: f64, upright: f64) -> PrintReadings {
    PrintReadings {
        level: bar(100.0, &[level]),
        upright: bar(100.0, &[upright]),
        ..PrintReadings::default()
    }
}

/// The readings of a perfect rule on a test sheet from a printer.
fn readings_of(printer: Affine) -> PrintReadings {
    let length = |x: f64, y: f64| {
        let [from, to] = [Point::ZERO, Point::new(x, y)].map(|point| printer * point);
        vec![from.distance(to)]
    };
    PrintReadings {
        level: bar(170.0, &length(170.0, 0.0)),
        upright: bar(250.0, &length(0.0, 250.0)),
        square: 150.0,
        rising: length(150.0, 150.0),
        falling: length(150.0, -150.0),
        division: 0.5,
    }
}

fn only_fault(readings: &PrintReadings) -> PrintFault {
    let mut faults = print_scale(readings).unwrap_err();
    assert_eq!(faults.len(), 1, "{faults:?}");
    faults.remove(0)
}

/// 100 / 99.4 = 1.0060362.
#[test]
fn a_factor_is_the_nominal_length_over_the_printed_one() {
    let scale = print_scale(&bars(99.4, 100.0)).unwrap();
    assert_near!(scale.correction.x, 1.006_036_2, 1e-7);
    assert_near!(scale.correction.y, 1.0, 0.0);
    assert_eq!(scale.correction.skew, Angle::ZERO);
    assert_eq!(scale.skew_uncertainty, None);
    assert_eq!(
        print_scale(&bars(100.0, 100.0)).unwrap().correction,
        PrintCorrection::default()
    );
}

/// A print 1 % too small puts the edge of a board with a radius of 200 mm 2.0 mm too far in.
#[test]
fn the_error_without_correction_grows_with_the_board() {
    let scale = print_scale(&bars(99.0, 99.0)).unwrap();
    let error = scale.error_without(200.0);
    assert_near!(error.across, -2.0, 1e-9);
    assert_near!(error.up, -2.0, 1e-9);
    assert_near!(error.diagonal, 0.0, 0.0);
    assert_near!(error.most, 2.0, 1e-9);
    let uneven = print_scale(&bars(100.4, 99.8))
        .unwrap()
        .error_without(200.0);
    assert_near!(uneven.across, 0.80, 1e-9);
    assert_near!(uneven.up, -0.40, 1e-9);
}

/// By hand for 99.2, 99.4, 99.6: mean 99.4, standard deviation 0.2, standard error 0.2/√3 = 0.11547.
#[test]
fn the_uncertainty_of_readings_comes_from_their_spread_and_the_rule() {
    let mut readings = bars(99.4, 100.0);
    readings.level.readings = vec![99.2, 99.4, 99.6];
    readings.division = 0.1;
    let scale = print_scale(&readings).unwrap();
    assert_near!(scale.x_uncertainty, 0.115_470 / 99.4, 1e-8);
    assert_near!(scale.y_uncertainty, 0.05 / 100.0, 1e-12);
    assert_near!(scale.error_left(200.0).across, 0.232_334, 1e-5);
    // A rule with divisions of 1 mm cannot be read more accurately than to half of one.
    readings.division = 1.0;
    let scale = print_scale(&readings).unwrap();
    assert_near!(scale.x_uncertainty, 0.5 / 99.4, 1e-12);
}

/// Two readings, each half a division (0.25 mm) off, of a length of 141.42 mm: √2 · 0.25 / 141.42 = 0.0025 rad.
#[test]
fn the_uncertainty_of_the_skew_comes_from_both_diagonals() {
    let mut readings = bars(100.0, 100.0);
    let side = readings.square * core::f64::consts::SQRT_2;
    (readings.rising, readings.falling) = (vec![side], vec![side]);
    let scale = print_scale(&readings).unwrap();
    assert_near!(scale.skew_uncertainty.unwrap().as_radians(), 0.0025, 1e-9);
    let left = scale.error_left(200.0);
    assert_near!(left.diagonal, 0.25, 1e-9);
    assert_near!(left.most, 0.5 + 0.25, 1e-9);
}

#[test]
fn senseless_readings_are_rejected_one_by_one() {
    for value in [0.0, -99.0, f64::NAN, f64::INFINITY] {
        let fault = only_fault(&bars(value, 100.0));
        assert!(matches!(fault, PrintFault::NoLength { .. }), "{fault}");
        assert_eq!(fault.length(), Some(PrintLength::Level));
    }
    let fault = only_fault(&bars(100.0, 89.9));
    assert_eq!(fault.length(), Some(PrintLength::Upright));
    assert!(fault.to_string().ends_with("measure it again"), "{fault}");
    assert!(print_scale(&bars(90.5, 109.5)).is_ok());
    let faults = print_scale(&bars(0.0, 50.0)).unwrap_err();
    assert_eq!(faults.len(), 2, "{faults:?}");
    for division in [0.0, f64::NAN] {
        let readings = PrintReadings {
            division,
            ..bars(100.0, 100.0)
        };
        assert!(matches!(
            only_fault(&readings),
            PrintFault::NoDivision { .. }
        ));
    }
    let mut readings = bars(100.0, 100.0);
    readings.level.nominal = 0.0;
    assert!(matches!(
        only_fault(&readings),
        PrintFault::NoNominal { .. }
    ));
}

#[test]
fn readings_that_disagree_are_rejected() {
    let mut readings = bars(100.0, 100.0);
    readings.level.readings = vec![99.0, 100.0];
    assert!(print_scale(&readings).is_ok());
    readings.level.readings.push(100.1);
    let fault = only_fault(&readings);
    assert!(
        fault
            .to_string()
            .contains("from 99 mm to 100.1 mm; they may be 1 mm apart"),
        "{fault}"
    );
    readings.level.readings = vec![100.0; 6];
    assert!(matches!(
        only_fault(&readings),
        PrintFault::TooMany { count: 6, .. }
    ));
}

#[test]
fn missing_measurements_are_requested() {
    let readings = PrintReadings::default();
    assert!(readings.is_empty());
    let faults = print_scale(&readings).unwrap_err();
    let lengths: Vec<_> = faults.iter().filter_map(PrintFault::length).collect();
    assert_eq!(lengths, [PrintLength::Level, PrintLength::Upright]);
    let mut readings = bars(100.0, 100.0);
    readings.falling = vec![141.4];
    assert_eq!(
        only_fault(&readings),
        PrintFault::Missing {
            length: PrintLength::Rising
        }
    );
}

#[test]
fn diagonals_of_another_print_are_rejected() {
    let mut readings = bars(100.0, 100.0);
    (readings.rising, readings.falling) = (vec![140.0], vec![140.0]);
    let fault = only_fault(&readings);
    assert!(matches!(fault, PrintFault::Unlike { .. }), "{fault}");
}

/// Any printer that stretches, leans and rotates.
fn printer() -> impl Strategy<Value = Affine> {
    let parts = (0.95..1.05_f64, 0.95..1.05_f64, -0.03..0.03_f64);
    (parts, -0.02..0.02_f64, -3.0..3.0_f64).prop_map(|((across, up, shear), lean, shift)| {
        let matrix = Affine::new([across, lean, shear, up, 0.0, 0.0]);
        Affine::translate(Vec2::new(shift, -shift)) * matrix
    })
}

proptest! {
    /// The correction is derived from lengths alone, without the printer's matrix.
    #[test]
    fn a_corrected_sheet_is_printed_true_to_size(
        printer in printer(), ax in 0.0..210.0_f64, ay in 0.0..297.0_f64, bx in 0.0..210.0_f64, by in 0.0..297.0_f64,
    ) {
        let correction = print_scale(&readings_of(printer)).unwrap().correction;
        let center = Point::new(105.0, 148.5);
        let print = |x, y| printer * correction.map(Point::new(x, y), center);
        let printed = print(ax, ay).distance(print(bx, by));
        let nominal = Point::new(ax, ay).distance(Point::new(bx, by));
        assert_near!(printed, nominal, 1e-9);
    }

    /// A printer that keeps horizontal lines level reproduces every point, and not only distances.
    #[test]
    fn a_printer_that_scales_and_leans_reproduces_points(
        across in 0.95..1.05_f64, up in 0.95..1.05_f64, shear in -0.03..0.03_f64,
        x in -148.0..148.0_f64, y in -148.0..148.0_f64,
    ) {
        let printer = Affine::new([across, 0.0, shear, up, 0.0, 0.0]);
        let correction = print_scale(&readings_of(printer)).unwrap().correction;
        let point = Point::new(x, y);
        assert_near!(printer * correction.map(point, Point::ZERO), point, 1e-9);
    }
}
