//! Rejections by the drilling program: missing feeds and speeds, heights in the wrong order, holes without a finite position.

use super::*;

/// The error message after one changed setting.
fn refused(change: impl Fn(&mut GcodeOptions)) -> String {
    let mut options = options();
    change(&mut options);
    gcode(&table(), &options).unwrap_err().to_string()
}

#[test]
fn feeds_and_speeds_are_never_assumed() {
    let error = refused(|options| options.machine.bits[0].feed = None);
    assert_eq!(
        error,
        "missing feed for the 12 mm forstner bit: enter the plunge feed under Drill, Machine"
    );
    let error = refused(|options| options.machine.bits[0].speed = None);
    assert!(
        error.starts_with("missing spindle speed for the 12 mm forstner bit"),
        "{error}"
    );
    let error = refused(|options| options.machine.bits.clear());
    assert!(error.starts_with("missing"), "{error}");
}

#[test]
fn settings_that_are_not_positive_numbers_are_rejected_by_name() {
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e-9] {
        for (what, change) in [
            (
                "feed",
                Box::new(move |bit: &mut BitRun| bit.feed = Some(bad)) as Box<dyn Fn(&mut BitRun)>,
            ),
            ("spindle speed", Box::new(move |bit| bit.speed = Some(bad))),
            ("peck", Box::new(move |bit| bit.peck = Some(bad))),
            ("dwell", Box::new(move |bit| bit.dwell = Some(bad))),
        ] {
            let error = refused(|options| change(&mut options.machine.bits[0]));
            assert!(error.contains(what), "{bad}: {error}");
        }
        assert!(refused(|options| options.thickness = bad).contains("thickness"));
        assert!(refused(|options| options.machine.clearance = bad).contains("height"));
        assert!(refused(|options| options.machine.retract = bad).contains("retract height"));
    }
    for bad in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(refused(|options| options.spur = bad).contains("spur"));
        assert!(refused(|options| options.machine.through = Some(bad)).contains("allowance"));
        assert!(refused(|options| options.machine.spin_up = bad).contains("speed"));
    }
}

#[test]
fn heights_in_the_wood_or_in_the_wrong_order_are_rejected() {
    assert!(
        refused(|options| options.machine.clearance = -3.0).contains("is -3 mm above the top face")
    );
    let error = refused(|options| options.machine.retract = 25.0);
    assert!(
        error.contains("retract height, 25 mm, is above the clearance height, 20 mm"),
        "{error}"
    );
    let level = with(options(), |machine| machine.retract = CLEARANCE);
    assert!(gcode(&table(), &level).is_ok());
}

/// Only the first hole of a board, with another bore.
fn one(depth: f64, bottom: Bottom) -> HoleTable {
    let row = HoleRow {
        depth,
        bottom,
        diameter: 10.0,
        ..table().rows[0]
    };
    HoleTable { rows: vec![row] }
}

fn drilled(table: &HoleTable, through: Option<f64>) -> Result<Vec<Program>, GcodeError> {
    let bits = Bottom::ALL.map(|bottom| setting(10.0, bottom)).to_vec();
    gcode(
        table,
        &with(options(), |machine| {
            machine.through = through;
            machine.bits = bits;
        }),
    )
}

#[test]
fn a_bit_goes_through_only_where_it_is_allowed() {
    for (depth, bottom, through, may) in [
        (19.9, Bottom::Flat, None, true),
        (20.0, Bottom::Flat, None, false),
        (20.0, Bottom::Flat, Some(0.0), true),
        (20.5, Bottom::Ball, Some(1.0), true),
        (21.5, Bottom::Ball, Some(1.0), false),
        // The spur is 2 mm long, the point 3.004 mm.
        (17.9, Bottom::Forstner, None, true),
        (18.0, Bottom::Forstner, None, false),
        (16.9, Bottom::Point118, None, true),
        (17.1, Bottom::Point118, None, false),
        (20.0, Bottom::Point118, Some(3.1), true),
        (20.0, Bottom::Point118, Some(2.9), false),
    ] {
        let programs = drilled(&one(depth, bottom), through);
        assert_eq!(
            programs.is_ok(),
            may,
            "{depth} {bottom:?} {through:?}: {programs:?}"
        );
    }
    let error = drilled(&one(25.0, Bottom::Flat), Some(1.0))
        .unwrap_err()
        .to_string();
    assert!(
        error.contains("reaches 25 mm below the top face") && error.contains("4 mm shallower"),
        "{error}"
    );
}

#[test]
fn a_table_without_holes_or_with_a_bad_one_is_rejected() {
    assert_eq!(
        drilled(&HoleTable { rows: vec![] }, None),
        Err(GcodeError::NoHoles)
    );
    for broken in [
        HoleRow {
            center: Point::new(f64::NAN, 0.0),
            ..one(5.0, Bottom::Flat).rows[0]
        },
        HoleRow {
            diameter: f64::NAN,
            ..one(5.0, Bottom::Flat).rows[0]
        },
        one(0.0, Bottom::Flat).rows[0],
        one(-5.0, Bottom::Flat).rows[0],
    ] {
        let error = drilled(&HoleTable { rows: vec![broken] }, None);
        assert!(matches!(error, Err(GcodeError::Hole { .. })), "{error:?}");
    }
}

proptest! {
    /// Holes of all sizes anywhere at a safe distance from each other, with any pecks, in either unit and kind of file.
    #[test]
    fn any_table_is_drilled_as_specified(
        holes in prop::collection::vec((0.0..40.0_f64, 1_u8..40, 0.5..17.0_f64, 0_usize..5), 1..40),
        peck in prop::option::of(0.5..20.0_f64),
        dwell in prop::option::of(0.01..9.0_f64),
        inches: bool,
        together: bool,
        plain: bool,
    ) {
        let names = self::table().rows;
        let rows = holes.iter().enumerate().map(|(at, &(off, diameter, depth, bottom))| HoleRow {
            center: Point::new(50.0 * at as f64 - 900.0 + off, 10.0 * off - 200.0),
            diameter: f64::from(diameter) / 4.0,
            depth,
            bottom: Bottom::ALL[bottom],
            ..names[at]
        });
        let table = HoleTable { rows: rows.collect() };
        let bits = table.rows.iter().map(|row| BitRun {
            peck,
            dwell,
            ..setting(row.cutter(), row.bottom)
        });
        let options = GcodeOptions {
            units: if inches { Units::INCH } else { Units::Mm },
            machine: Machine {
                bits: bits.collect(),
                files: if together { ProgramFiles::One } else { ProgramFiles::OnePerBit },
                words: if plain { DrillWords::Moves } else { DrillWords::Cycles },
                through: Some(5.0),
                ..self::options().machine
            },
            ..self::options()
        };
        assert_bores(&all_bored(&gcode(&table, &options).unwrap()), &table.rows);
    }
}
