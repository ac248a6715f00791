//! Numbers of every kind as makers type and read them.

use board::{DensityUnit, INCH, MassUnit, Measure, Quantity, TimeUnit, Units};
use proptest::prelude::*;
use testkit::assert_near;

const GRAM: Quantity = Quantity::Mass(MassUnit::Gram);
const KILOGRAM: Quantity = Quantity::Mass(MassUnit::Kilogram);
const WOOD: Quantity = Quantity::Density(DensityUnit::KilogramsPerCubicMeter);
const PIECE: Quantity = Quantity::Density(DensityUnit::GramsPerCubicCentimeter);
const RESIN: Quantity = Quantity::Density(DensityUnit::GramsPerMilliliter);
const SECOND: Quantity = Quantity::Time(TimeUnit::Second);
const MINUTE: Quantity = Quantity::Time(TimeUnit::Minute);
const HOUR: Quantity = Quantity::Time(TimeUnit::Hour);

const ALL: [Quantity; 22] = [
    Quantity::Length,
    Quantity::Angle,
    Quantity::Count,
    Quantity::Share,
    Quantity::Percent,
    Quantity::Number,
    GRAM,
    KILOGRAM,
    Quantity::Volume,
    Quantity::Solid,
    Quantity::Force,
    Quantity::Temperature,
    Quantity::Speed,
    Quantity::Feed,
    Quantity::Rotation,
    WOOD,
    PIECE,
    RESIN,
    SECOND,
    MINUTE,
    HOUR,
    Quantity::Money,
];

fn read(quantity: Quantity, text: &str, units: Units) -> f64 {
    quantity
        .read(text, units)
        .unwrap_or_else(|error| panic!("{error}"))
}

fn refused(text: &str, units: Units) -> String {
    let read = Quantity::Length.read(text, units);
    read.map_or_else(|error| error.to_string(), |mm| panic!("{text} is {mm} mm"))
}

// Exact according to NIST SP 811 (2008), Appendix B, from memory; those of derived units follow from the pound, the inch and
// the gallon of 231 cubic inches.
#[test]
fn every_quantity_is_read_in_any_of_its_units() {
    for (quantity, text, held) in [
        (Quantity::Length, "1 yd", 914.4_f64),
        (Quantity::Length, "5 thou", 0.127),
        (Quantity::Angle, "22,5°", 22.5),
        (Quantity::Angle, "30 deg", 30.0),
        (Quantity::Angle, "360/7", 360.0 / 7.0),
        (Quantity::Count, "84/4", 21.0),
        (Quantity::Share, "12.5 %", 0.125),
        (Quantity::Share, "8", 0.08),
        (Quantity::Percent, "8 percent", 8.0),
        (Quantity::Number, "1/4", 0.25),
        (GRAM, "1 oz", 28.349_523_125),
        (GRAM, "1/2 kg", 500.0),
        (KILOGRAM, "1 lb", 0.453_592_37),
        (KILOGRAM, "2 lb 3 oz", 0.992_233_309_375),
        (KILOGRAM, "500 g", 0.5),
        (Quantity::Volume, "1 fl oz", 29.573_529_562_5),
        (Quantity::Volume, "1 cup", 236.588_236_5),
        (Quantity::Volume, "1 qt", 946.352_946),
        (Quantity::Volume, "1 gal 1 qt 2 fl oz", 4_790.911_789_125),
        (Quantity::Volume, "1.5 L", 1500.0),
        (Quantity::Volume, "1 cu in", 16.387_064),
        (Quantity::Force, "1 lbf", 4.448_221_615_260_5),
        (Quantity::Force, "100 g", 0.980_665),
        (Quantity::Force, "2 kgf", 19.6133),
        (Quantity::Temperature, "68 °F", 20.0),
        (Quantity::Temperature, "-40F", -40.0),
        (Quantity::Temperature, "(60 + 8) F", 20.0),
        (Quantity::Temperature, "20 °C", 20.0),
        (Quantity::Speed, "60 m/min", 1.0),
        (Quantity::Speed, "1 ft/s", 0.3048),
        (Quantity::Speed, "10 mph", 4.4704),
        (Quantity::Feed, "12 in/min", 304.8),
        (Quantity::Feed, "12 ipm", 304.8),
        (Quantity::Feed, "12\"", 304.8),
        (Quantity::Feed, "0.3 m/min", 300.0),
        (Quantity::Rotation, "12000 rpm", 12_000.0),
        (WOOD, "1 lb/ft3", 16.018_463_373_960_14),
        (WOOD, "0.61 g/cm3", 610.0),
        (PIECE, "7850 kg/m³", 7.85),
        (RESIN, "1 lb/gal", 0.119_826_427_316_897_85),
        (SECOND, "1 min 30", 90.0),
        (MINUTE, "1 h 30 min", 90.0),
        (MINUTE, "2 h 30 s", 120.5),
        (HOUR, "1 d 6 h", 30.0),
        (HOUR, "90 min", 1.5),
        (Quantity::Money, "$12.50", 12.5),
        (Quantity::Money, "3*4.25 €", 12.75),
    ] {
        for units in [Units::Mm, Units::INCH] {
            assert_near!(read(quantity, text, units), held, 1e-9 * held.abs());
        }
    }
}

#[test]
fn a_number_without_a_unit_is_in_the_displayed_unit() {
    for (quantity, units, held) in [
        (Quantity::Length, Units::INCH, 254.0),
        (GRAM, Units::Mm, 10.0),
        (GRAM, Units::INCH, 283.495_231_25),
        (KILOGRAM, Units::INCH, 4.535_923_7),
        (Quantity::Volume, Units::INCH, 295.735_295_625),
        (Quantity::Force, Units::INCH, 44.482_216_152_605),
        (Quantity::Temperature, Units::INCH, -110.0 / 9.0),
        (Quantity::Temperature, Units::Mm, 10.0),
        (Quantity::Feed, Units::INCH, 254.0),
        (HOUR, Units::INCH, 10.0),
    ] {
        assert_near!(read(quantity, "10", units), held, 1e-9);
    }
}

#[test]
fn arithmetic_with_lengths_is_read_as_makers_write_it() {
    for (text, inches) in [
        ("23 1/2 - 2*3/8", 22.75),
        ("(3+1/4)*2 in", 6.5),
        ("(3+1/4) in * 2", 6.5),
        ("2' 3 1/2\" + 1/8", 27.625),
        ("2'-3 1/2\" - 1/8\"", 27.375),
        ("2' 0\" − 3\"", 21.0),
        ("(2') - 3\"", 21.0),
        ("1-3/16\" + 1/16\"", 1.25),
        ("(23 5/8)/2", 11.8125),
        ("23 5/8 ÷ 2", 11.8125),
        ("5/8\" / 2", 0.3125),
        ("-1/8 + 1/4", 0.125),
        ("2*-1/4 + 3/4", 0.25),
        ("3 × 1 1/2\"", 4.5),
        ("2 x 3 in.", 6.0),
        ("25.4 mm + 5/8", 1.625),
        ("10 ft. 6 in. - 6 in", 120.0),
        ("1/2 + 5/4", 1.75),
    ] {
        for units in [Units::Mm, Units::INCH] {
            let mm = read(Quantity::Length, text, units);
            assert_near!(mm, inches * INCH, 1e-9);
        }
    }
    for (text, mm) in [
        ("560/2", 280.0),
        ("560 - 2*18", 524.0),
        ("560 mm - 3/4", 540.95),
        ("12.5/2", 6.25),
        ("5 - 2 mm", 3.0),
        ("560-2", 558.0),
        ("100 + 560*1/2", 380.0),
        ("560*1/2 mm", 280.0),
        ("5/4 + 3/2 mm", 2.75),
        ("100/(2+2)", 25.0),
    ] {
        assert_near!(read(Quantity::Length, text, Units::Mm), mm, 1e-9);
    }
    assert_near!(read(Quantity::Length, "3 + 1/4", Units::INCH), 82.55, 1e-9);
    assert_near!(
        read(Quantity::Length, "3 1/2 * 1/2", Units::INCH),
        44.45,
        1e-9
    );
}

#[test]
fn an_ambiguous_text_is_refused_with_unambiguous_alternatives() {
    for (text, units, words) in [
        ("3 + 1/4\"", Units::Mm, "unit after each number"),
        ("3 + 1/4", Units::Mm, "unit after each number"),
        ("3 + 6 mm", Units::INCH, "unit after each number"),
        ("2' + 3", Units::INCH, "unit after each number"),
        ("5/4", Units::Mm, "in or mm at the end"),
        ("560*1/2", Units::Mm, "in or mm at the end"),
        ("5/8/2", Units::INCH, "in parentheses"),
        ("10 / 3/8", Units::INCH, "in parentheses"),
        ("12.5 / 1/2", Units::INCH, "in parentheses"),
        ("2' - 3\"", Units::INCH, "join or subtract"),
        ("2' -3", Units::INCH, "join or subtract"),
        ("1 -3/16", Units::INCH, "join or subtract"),
        ("2 in * 3 in", Units::INCH, "Only one number"),
        ("10 in / 2 in", Units::INCH, "a divisor has none"),
        ("3 / (1 - 1)", Units::INCH, "divides by zero"),
        ("1,234 + 1", Units::Mm, "comma"),
    ] {
        let message = refused(text, units);
        assert!(
            message.contains(words) && message.contains(text),
            "{message}"
        );
    }
    let sum = Quantity::Temperature.read("60 °F + 8", Units::INCH);
    assert!(sum.unwrap_err().to_string().contains("(60 + 8) °F"));
}

#[test]
fn messages_quote_what_was_typed_and_say_what_would_work() {
    assert_eq!(
        refused("banana", Units::Mm),
        "Not a length: \"banana\". Try 5/8, 12.5 mm or 2' 1/4\"."
    );
    assert_eq!(
        refused("3 1/2 apples", Units::Mm),
        "Not a length: \"3 1/2 apples\", from \"apples\" on. Try 5/8, 12.5 mm or 2' 1/4\"."
    );
    for (quantity, text) in [
        (Quantity::Count, "7/2"),
        (Quantity::Count, "5 kg"),
        (GRAM, "5 mm"),
        (Quantity::Temperature, "warm"),
        (HOUR, "1 h 30 d"),
        (Quantity::Money, ""),
        (Quantity::Length, "2 (3)"),
        (Quantity::Length, "(3"),
        (Quantity::Length, "3)"),
        (Quantity::Length, "()"),
        (Quantity::Length, "5 - -3"),
        (Quantity::Length, "(1 in + 2) in"),
    ] {
        let message = quantity.read(text, Units::Mm).expect_err(text).to_string();
        assert!(
            message.starts_with("Not a") && message.contains(". Try "),
            "{message}"
        );
    }
}

#[test]
fn deep_nesting_and_huge_numbers_are_handled() {
    let nested = |deep: usize| "(".repeat(deep) + "3" + &")".repeat(deep);
    assert_near!(read(Quantity::Length, &nested(16), Units::Mm), 3.0, 0.0);
    for text in [nested(17), nested(40), nested(1_000_000), "-(".repeat(49)] {
        refused(&text, Units::Mm);
    }
    let large = "9".repeat(30);
    let product = format!("{large}*{large}*{large}");
    assert!(read(Quantity::Length, &product, Units::Mm) > 1e89);
}

#[test]
fn inch_boards_are_shown_in_the_units_of_the_shop() {
    for (quantity, held, field) in [
        (Quantity::Length, 30.1625, "1 3/16\""),
        (Quantity::Angle, 22.5, "22.5°"),
        (Quantity::Count, 84.0, "84"),
        (Quantity::Share, 0.125, "12.5 %"),
        (GRAM, 283.495_231_25, "10 oz"),
        (GRAM, 5.0, "0.1764 oz"),
        (KILOGRAM, 4.8, "10.58 lb"),
        (Quantity::Volume, 60.0, "2.029 fl oz"),
        (Quantity::Force, 8.0, "1.798 lbf"),
        (Quantity::Temperature, 20.0, "68 °F"),
        (Quantity::Feed, 304.8, "12 in/min"),
        (WOOD, 610.0, "38.08 lb/ft³"),
        (RESIN, 1.1, "9.18 lb/gal"),
        (MINUTE, 45.0, "45 min"),
        (Quantity::Money, 12.5, "12.50"),
    ] {
        assert_eq!(quantity.shown(held, Units::INCH), field);
    }
}

proptest! {
    #[test]
    fn shown_values_read_back(
        kind in 0..ALL.len(),
        size in -9999.0..9999.0_f64,
        small in 0..4_i32,
        inches: bool,
    ) {
        let units = if inches { Units::INCH } else { Units::Mm };
        let quantity = ALL[kind];
        let value = match quantity {
            Quantity::Count => size.abs().round(),
            _ => size / 10_f64.powi(small),
        };
        let shown = quantity.shown(value, units);
        let back = quantity.read(&shown, units);
        let back = back.unwrap_or_else(|error| panic!("{error}"));
        // Half of the second decimal, in the largest ratio of a unit to the document's: a pound, an hour.
        let slack = if shown.contains('≈') {
            // Half a fraction of an inch.
            12.701 / 64.0
        } else {
            0.005_001 * quantity.read("1", units).unwrap().max(1.0)
        };
        prop_assert!((back - value).abs() <= slack, "{shown} {value} {back}");
        // A decimal of an inch can round to what is shown as a fraction.
        let is_inch = quantity == Quantity::Length && inches;
        prop_assert!(is_inch || quantity.shown(back, units) == shown, "{shown} {value} {back}");
        let told = Measure::new(quantity, value).shown(units);
        let back = quantity.read(&told, units).unwrap();
        // Half of the last digit: of three significant digits, of two below one, of whole kg/m³, or of tenths of a percent.
        let slack = (0.005_001 * value.abs()).max(0.500_1);
        prop_assert!((back - value).abs() <= slack, "{told} {value} {back}");
        let again = Measure::new(quantity, back).shown(units);
        prop_assert!(is_inch || again == told, "{told} {value} {again}");
    }

    #[test]
    fn no_text_like_a_sum_causes_a_panic(
        kind in 0..ALL.len(),
        text in "[-+*/÷x() 0-9.,'\"°½a-z%³]{0,60}",
    ) {
        for units in [Units::Mm, Units::INCH] {
            if let Ok(value) = ALL[kind].read(&text, units) {
                prop_assert!(value.is_finite());
            }
        }
    }

    #[test]
    fn sums_of_sixty_fourths_are_exact(one in 0_u32..6400, two in 0_u32..6400, count in 1_u32..20) {
        let inches = |parts: u32| format!("{} {}/64", parts / 64, parts % 64);
        let text = format!("({} + {}) * {count} in", inches(one), inches(two));
        let wanted = f64::from((one + two) * count) / 64.0 * INCH;
        prop_assert!((read(Quantity::Length, &text, Units::Mm) - wanted).abs() < 1e-9);
    }
}
