//! The table of species, in `assets/wood/species.json`: every value with its source.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

/// A species of wood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Species {
    /// Its id in documents.
    pub id: &'static str,
    /// Its name in lists to choose from, with the genus first.
    pub name: &'static str,
    /// Change of size across the rings per 1 % of moisture, as a share.
    pub radial: Option<Known>,
    /// Change of size along the rings per 1 % of moisture, as a share.
    pub tangential: Option<Known>,
    /// Specific gravity: oven-dry mass over volume at 12 % moisture.
    pub gravity: Option<Known>,
}

/// A value and its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    /// The value.
    pub value: f64,
    /// Its source.
    pub source: &'static str,
}

impl Species {
    /// Its name as spoken; the table has the genus first, so that lists are sorted by genus.
    ///
    /// ```
    /// let walnut = workshop::species().iter().find(|wood| wood.id == "black-walnut").unwrap();
    /// assert_eq!((walnut.name, walnut.spoken().as_str()), ("walnut, black", "black walnut"));
    /// ```
    pub fn spoken(&self) -> String {
        match self.name.split_once(", ") {
            Some((genus, kind)) => format!("{kind} {genus}"),
            None => self.name.into(),
        }
    }
}

/// The table of species, in the order of their names.
///
/// ```
/// let walnut = workshop::species().iter().find(|wood| wood.id == "black-walnut").unwrap();
/// let (radial, tangential) = (walnut.radial.unwrap(), walnut.tangential.unwrap());
/// // Wood moves more along its rings than across them.
/// assert!(radial.value < tangential.value && !radial.source.is_empty());
/// ```
pub fn species() -> &'static [Species] {
    &TABLE
}

/// The species with an id.
pub fn find(id: &str) -> Option<&'static Species> {
    species().iter().find(|species| species.id == id)
}

// The table is compiled in and a test reads it, so that reading cannot fail.
static TABLE: LazyLock<Vec<Species>> = LazyLock::new(|| read().unwrap_or_default());

/// The text of the table of species, which is kept in a file of its own.
const TEXT: &str = include_str!("../../../../assets/wood/species.json");

#[derive(Deserialize)]
/// The table in the form of its file.
struct Table<'a> {
    #[serde(borrow)]
    sources: BTreeMap<&'a str, &'a str>,
    species: Vec<Row<'a>>,
}

#[derive(Deserialize)]
/// One species.
struct Row<'a> {
    id: &'a str,
    name: &'a str,
    #[serde(borrow)]
    radial: Option<Cell<'a>>,
    tangential: Option<Cell<'a>>,
    gravity: Option<Cell<'a>>,
}

#[derive(Deserialize)]
/// A value with the key of its source.
struct Cell<'a> {
    value: f64,
    source: &'a str,
}

/// Reads the table, each value with its source in words.
fn read() -> serde_json::Result<Vec<Species>> {
    let table: Table<'static> = serde_json::from_str(TEXT)?;
    // A source that is not a key of the list is its own text.
    let known = |cell: Cell<'static>| Known {
        value: cell.value,
        source: table.sources.get(cell.source).unwrap_or(&cell.source),
    };
    let rows = table.species.into_iter().map(|row| Species {
        id: row.id,
        name: row.name,
        radial: row.radial.map(known),
        tangential: row.tangential.map(known),
        gravity: row.gravity.map(known),
    });
    Ok(rows.collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Wood Handbook, FPL-GTR-190 (2010), Table 13-5: radial and tangential.
    const HANDBOOK: &[(&str, f64, f64)] = &[
        ("red-alder", 0.001_51, 0.002_56),
        ("white-ash", 0.001_69, 0.002_74),
        ("american-basswood", 0.002_30, 0.003_30),
        ("american-beech", 0.001_90, 0.004_31),
        ("paper-birch", 0.002_19, 0.003_04),
        ("yellow-birch", 0.002_56, 0.003_38),
        ("butternut", 0.001_16, 0.002_23),
        ("black-cherry", 0.001_26, 0.002_48),
        ("american-elm", 0.001_44, 0.003_38),
        ("black-locust", 0.001_58, 0.002_52),
        ("red-maple", 0.001_37, 0.002_89),
        ("sugar-maple", 0.001_65, 0.003_53),
        ("red-oak", 0.001_58, 0.003_69),
        ("white-oak", 0.001_80, 0.003_65),
        ("persimmon", 0.002_78, 0.004_03),
        ("sweetgum", 0.001_83, 0.003_65),
        ("american-sycamore", 0.001_72, 0.002_96),
        ("black-walnut", 0.001_90, 0.002_74),
    ];

    #[test]
    fn the_table_is_as_published() {
        for (id, radial, tangential) in HANDBOOK {
            let found = find(id).unwrap();
            for (cell, wanted) in [(found.radial, radial), (found.tangential, tangential)] {
                let cell = cell.unwrap();
                assert_eq!(cell.value, *wanted, "{id}");
                assert!(cell.source.contains("Table 13-5"), "{id}: {}", cell.source);
            }
        }
    }

    /// Specific gravities at 12 %: sugar maple 0.63 by a trade association's page, Douglas-fir 0.48 by a university
    /// extension page; black walnut 0.55 from memory.
    #[test]
    fn gravities_are_as_published() {
        for (id, wanted) in [
            ("sugar-maple", 0.63),
            ("douglas-fir", 0.48),
            ("black-walnut", 0.55),
        ] {
            assert_eq!(find(id).unwrap().gravity.unwrap().value, wanted, "{id}");
        }
    }

    #[test]
    fn every_row_is_sound_and_has_its_sources() {
        let table: Table<'_> = serde_json::from_str(TEXT).unwrap();
        assert_eq!(table.species.len(), species().len());
        for row in &table.species {
            for cell in [&row.radial, &row.tangential, &row.gravity] {
                let Some(cell) = cell else { continue };
                assert!(table.sources.contains_key(cell.source), "{}", row.id);
            }
        }
        let names: Vec<String> = species()
            .iter()
            .map(|row| row.name.to_lowercase())
            .collect();
        assert!(names.is_sorted(), "{names:?}");
        for row in species() {
            // Wood moves more along its rings than across them, and, with a few exceptions, floats.
            let (radial, tangential) = (row.radial, row.tangential.unwrap());
            assert!(
                radial.is_none_or(|radial| radial.value < tangential.value),
                "{}",
                row.id
            );
            assert!((0.001..0.005).contains(&tangential.value), "{}", row.id);
            assert!(
                row.gravity
                    .is_none_or(|gravity| (0.3..1.0).contains(&gravity.value))
            );
            assert_eq!(find(row.id), Some(row));
        }
        assert_eq!(find("driftwood"), None);
    }
}
