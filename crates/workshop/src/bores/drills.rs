//! The sizes in which drills and cutters are made, from `assets/drills/drills.json`, and those nearest to a bore.
//!
//! A nominal size does not guarantee the width of the hole: the maker measures the bit and a hole in scrap.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use board::{Bottom, Units, show_setting};
use serde::Deserialize;

/// A drill or cutter of a standard size.
#[derive(Debug, Clone, PartialEq)]
pub struct Drill {
    /// The trade name of its size: 3/8", 9.5 mm, No. 37, letter F.
    pub name: String,
    /// Its diameter, mm.
    pub diameter: f64,
    /// The series that it belongs to.
    pub series: Series,
}

/// Standard sizes of one kind of drill or cutter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Series {
    /// The name of the series.
    pub name: &'static str,
    /// The kind of drill or cutter.
    pub cutter: Cutter,
    /// Whether its sizes are in inches or in millimeters.
    pub units: Units,
    /// Where the sizes come from.
    pub source: &'static str,
}

/// A kind of drill or cutter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cutter {
    /// A drill with a point.
    Twist,
    /// A bit with a rim and a spur.
    Forstner,
    /// An end mill or a straight router cutter.
    Flat,
    /// A ball-nose mill or a core-box cutter.
    RoundNose,
}

impl Cutter {
    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Twist => "twist drill",
            Self::Forstner => "Forstner bit",
            Self::Flat => "straight cutter",
            Self::RoundNose => "round-nose cutter",
        }
    }

    /// Whether it can leave this bottom. A Forstner bit does not leave a flat one, because its spur cuts deeper.
    ///
    /// ```
    /// use board::Bottom;
    /// use workshop::Cutter;
    /// assert!(Cutter::Twist.leaves(Bottom::Point118) && !Cutter::Twist.leaves(Bottom::Flat));
    /// assert!(Cutter::Forstner.leaves(Bottom::Forstner) && !Cutter::Forstner.leaves(Bottom::Flat));
    /// ```
    pub const fn leaves(self, bottom: Bottom) -> bool {
        match self {
            Self::Twist => matches!(bottom, Bottom::Point118 | Bottom::Point135),
            Self::Forstner => matches!(bottom, Bottom::Forstner),
            Self::Flat => matches!(bottom, Bottom::Flat),
            Self::RoundNose => matches!(bottom, Bottom::Ball),
        }
    }
}

/// A drill or cutter compared with a bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NearDrill {
    /// The drill or cutter.
    pub drill: &'static Drill,
    /// Its diameter less the bore's, mm; negative if it is smaller.
    pub larger: f64,
}

impl NearDrill {
    /// Whether it matches the bore to within 0.01 mm, the resolution at which lengths are shown.
    pub fn is_exact(self) -> bool {
        self.larger.abs() <= EXACT
    }
}

/// Sizes this close count as equal, mm.
const EXACT: f64 = 0.01;

/// Every drill and cutter, series by series, each from the smallest.
pub fn drills() -> &'static [Drill] {
    &TABLE
}

/// The drills or cutters of this diameter, mm, for a bottom: those of exactly that size if there are any, otherwise the
/// nearest inch size and the nearest metric size. Of two sizes equally near, the earlier series wins.
///
/// ```
/// use board::Bottom;
/// let near = workshop::nearest_drills(12.7, Bottom::Forstner);
/// assert!(near[0].is_exact() && near[0].drill.name == "1/2\"");
/// // No bit is 12.3 mm wide: the nearest inch size and the nearest metric one are told.
/// assert_eq!(workshop::nearest_drills(12.3, Bottom::Forstner).len(), 2);
/// ```
pub fn nearest_drills(diameter: f64, bottom: Bottom) -> Vec<NearDrill> {
    let near = |units| {
        drills()
            .iter()
            .filter(|drill| drill.series.units == units && drill.series.cutter.leaves(bottom))
            .map(|drill| NearDrill {
                drill,
                larger: drill.diameter - diameter,
            })
            .min_by(|a, b| a.larger.abs().total_cmp(&b.larger.abs()))
    };
    let mut found: Vec<NearDrill> = [Units::INCH, Units::Mm]
        .into_iter()
        .filter_map(near)
        .collect();
    if found.iter().any(|near| near.is_exact()) {
        found.retain(|near| near.is_exact());
    }
    found
}

// The table is compiled in and a test reads it, so that reading cannot fail.
static TABLE: LazyLock<Vec<Drill>> = LazyLock::new(|| read().unwrap_or_default());

/// The text of the table of sizes, which is kept in a file of its own.
const TEXT: &str = include_str!("../../../../assets/drills/drills.json");

#[derive(Deserialize)]
/// The table in the form of its file.
struct File<'a> {
    #[serde(borrow)]
    sources: BTreeMap<&'a str, &'a str>,
    series: Vec<Row<'a>>,
}

/// Sizes listed by name, or given by a rule.
#[derive(Deserialize)]
struct Row<'a> {
    name: &'a str,
    cutter: Cutter,
    unit: Units,
    source: &'a str,
    #[serde(borrow, default)]
    sizes: Vec<(&'a str, f64)>,
    /// Fractions of the unit that the runs count in; 0 if the sizes are named.
    #[serde(default)]
    parts: u32,
    /// First, last and step of each run.
    #[serde(default)]
    runs: Vec<(u32, u32, usize)>,
}

/// Reads the table: sizes that are named one by one, and runs of sizes that follow a rule.
fn read() -> serde_json::Result<Vec<Drill>> {
    let file: File<'static> = serde_json::from_str(TEXT)?;
    let sources = &file.sources;
    let drills = file.series.into_iter().flat_map(|row| {
        // A source that is not a key of the list is its own text.
        let series = Series {
            name: row.name,
            cutter: row.cutter,
            units: row.unit,
            source: sources.get(row.source).unwrap_or(&row.source),
        };
        drills_of(series, &row)
    });
    Ok(drills.collect())
}

/// The sizes of one row of the table, from the smallest.
fn drills_of(series: Series, row: &Row<'_>) -> Vec<Drill> {
    let unit = match series.units {
        Units::Mm => 1.0,
        Units::Inch(_) => board::INCH,
    };
    let named = row.sizes.iter().map(|(name, size)| Drill {
        name: (*name).into(),
        diameter: size * unit,
        series,
    });
    let counted = row
        .runs
        .iter()
        .flat_map(|&(first, last, step)| (first..=last).step_by(step));
    let ruled = counted.map(|count| {
        let diameter = f64::from(count) / f64::from(row.parts) * unit;
        Drill {
            name: show_setting(diameter, series.units),
            diameter,
            series,
        }
    });
    let mut drills: Vec<Drill> = named.chain(ruled).collect();
    drills.sort_by(|a, b| a.diameter.total_cmp(&b.diameter));
    drills
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bores::profile::tip;
    use board::{Bore, INCH};
    use proptest::prelude::*;
    use testkit::assert_near;

    fn named(name: &str, cutter: Cutter) -> &'static Drill {
        let mut found = drills().iter().filter(|drill| drill.name == name);
        found.find(|drill| drill.series.cutter == cutter).unwrap()
    }

    fn names(diameter: f64, bottom: Bottom) -> Vec<&'static str> {
        let near = nearest_drills(diameter, bottom);
        near.iter().map(|near| near.drill.name.as_str()).collect()
    }

    fn series() -> Vec<&'static [Drill]> {
        drills().chunk_by(|a, b| a.series == b.series).collect()
    }

    #[test]
    fn every_series_is_ascending_and_has_a_source() {
        let file: File<'_> = serde_json::from_str(TEXT).unwrap();
        assert_eq!(series().len(), file.series.len());
        for (drills, row) in series().into_iter().zip(&file.series) {
            assert!(file.sources.contains_key(row.source), "{}", row.name);
            assert!(row.sizes.is_empty() != row.runs.is_empty(), "{}", row.name);
            assert!(drills.is_sorted_by(|a, b| a.diameter < b.diameter));
            let names: std::collections::BTreeSet<&str> =
                drills.iter().map(|drill| drill.name.as_str()).collect();
            assert_eq!(names.len(), drills.len(), "{}", row.name);
        }
    }

    /// Twist drills: 64 fractional sizes by sixty-fourths up to 1 in, 80 number sizes, 26 letters. Metric sizes by the rule of
    /// BS 328: four per tenth from 0.2 to 0.98 mm (32), then steps of 0.05 to 2.95 (40), 0.1 to 13.9 (110) and 0.25 to 25 (45).
    #[test]
    fn series_have_the_number_of_sizes_their_rules_give() {
        let counts: Vec<(&str, usize)> = series()
            .iter()
            .map(|drills| (drills[0].series.name, drills.len()))
            .collect();
        assert_eq!(
            counts,
            [
                ("fractional", 64),
                ("number", 80),
                ("letter", 26),
                ("metric", 32 + 40 + 110 + 45),
                ("Forstner, inch", 29),
                ("Forstner, metric", 43),
                ("flat, inch", 11),
                ("flat, metric", 13),
                ("round nose, inch", 13),
                ("round nose, metric", 13),
            ]
        );
        let whole = drills().iter().take(64).zip(1..);
        for (drill, sixty_fourths) in whole {
            assert_near!(drill.diameter, f64::from(sixty_fourths) * 0.396_875, 1e-12);
        }
    }

    /// Drill-size lists that cite ANSI B94.11M: both ends of each series, and a few between.
    #[test]
    fn sizes_are_as_published() {
        for (name, inches) in [
            ("No. 80", 0.0135),
            ("No. 61", 0.039),
            ("No. 60", 0.04),
            ("No. 37", 0.104),
            ("No. 30", 0.1285),
            ("No. 1", 0.228),
            ("letter A", 0.234),
            ("letter F", 0.257),
            ("letter Z", 0.413),
            ("1/64\"", 0.015_625),
            ("19/32\"", 0.593_75),
            ("1\"", 1.0),
        ] {
            assert_near!(named(name, Cutter::Twist).diameter, inches * INCH, 1e-12);
        }
        for (name, mm) in [
            ("0.2 mm", 0.2),
            ("0.98 mm", 0.98),
            ("9.5 mm", 9.5),
            ("25 mm", 25.0),
        ] {
            assert_near!(named(name, Cutter::Twist).diameter, mm, 1e-12);
        }
        let (quarter, e) = (
            named("1/4\"", Cutter::Twist),
            named("letter E", Cutter::Twist),
        );
        assert_near!(quarter.diameter, e.diameter, 0.0);
        assert_near!(named("1 3/16\"", Cutter::Forstner).diameter, 30.1625, 1e-12);
    }

    /// A number 37 drill is 0.104 in wide, and its point of 118° about 0.031 in long (trade page, not a standard).
    #[test]
    fn a_drill_has_the_point_of_its_size() {
        let bore = Bore {
            diameter: named("No. 37", Cutter::Twist).diameter,
            depth: 5.0,
            bottom: Bottom::Point118,
        };
        assert_near!(tip(bore, 0.0) / INCH, 0.031_244_8, 1e-6);
    }

    #[test]
    fn an_exact_size_is_named_alone_and_others_get_two_neighbors() {
        assert_eq!(names(0.257 * INCH, Bottom::Point118), ["letter F"]);
        // Of two equals, the earlier series.
        assert_eq!(names(6.35, Bottom::Point135), ["1/4\""]);
        assert_eq!(names(9.53, Bottom::Point118), ["3/8\""]);
        // This size is made both as an inch and as a metric drill.
        assert_eq!(names(12.7, Bottom::Point118), ["1/2\"", "12.7 mm"]);
        assert_eq!(names(9.1, Bottom::Point118), ["letter T", "9.1 mm"]);
        assert_eq!(names(15.0, Bottom::Forstner), ["15 mm"]);
        // 25.4 mm: no metric size is close enough to be named beside it.
        assert_eq!(names(25.4, Bottom::Ball), ["1\""]);
        assert_eq!(names(15.1, Bottom::Point118), ["19/32\"", "15 mm"]);
        let near = nearest_drills(15.1, Bottom::Point118);
        assert_near!(near[0].larger, -0.018_75, 1e-12);
        assert_near!(near[1].larger, -0.1, 1e-12);
    }

    #[test]
    fn only_cutters_that_leave_the_bottom_are_named() {
        // Twist drills are made in tenths of a millimeter, Forstner bits in whole ones.
        assert_eq!(names(9.2, Bottom::Point118), ["9.2 mm"]);
        assert_eq!(names(9.2, Bottom::Forstner), ["3/8\"", "9 mm"]);
        assert_eq!(names(9.2, Bottom::Ball), ["3/8\"", "10 mm"]);
        for bottom in Bottom::ALL {
            assert_eq!(nearest_drills(70.0, bottom).len(), 2, "{bottom:?}");
        }
    }

    proptest! {
        #[test]
        fn no_size_of_the_table_is_nearer(diameter in 0.1..60.0_f64, kind in 0_usize..5) {
            let bottom = Bottom::ALL[kind];
            let near = nearest_drills(diameter, bottom);
            let least = near.iter().map(|near| near.larger.abs()).fold(f64::INFINITY, f64::min);
            for drill in drills().iter().filter(|drill| drill.series.cutter.leaves(bottom)) {
                prop_assert!((drill.diameter - diameter).abs() >= least);
            }
            prop_assert!(near.len() == 2 || near.iter().all(|near| near.is_exact()));
        }
    }
}
