//! All shop math as data: each sum with its name, value, formula and source.
//!
//! There is one file per group. A group exists when its subject is planned; a sum that cannot be worked out is left out, and a
//! note says why.
//!
//! A sum carries its formula in words and its source, so that a maker who checks it with a pencil arrives at the same number.
//! Values are in the units of the document, and converted to the maker's where they are shown.

use board::{HoleName, Measure, Quantity, Units};
use serde::Serialize;

use crate::check::names_as_text;
use crate::{Workpiece, base, bores, calendar, filling, grooves, recess, repair, wood};

/// Sums about one subject.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SumGroup {
    /// The subject in a word.
    pub heading: &'static str,
    /// The sums.
    pub sums: Vec<Sum>,
    /// Notes, for example on sums that could not be worked out.
    pub notes: Vec<String>,
}

/// One sum.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Sum {
    /// Its name.
    pub name: &'static str,
    /// The case it applies to, if there are several: a distance from the center pin, a diameter.
    pub at: Option<Measure>,
    /// Its value; `None` if there is none: for a board that no push tips, a piece that never leaves.
    pub value: Option<Measure>,
    /// A name beside the value, where the result is a thing and not just a number, such as a drill.
    pub words: Option<String>,
    /// The formula.
    pub formula: &'static str,
    /// The source of the formula, or of a value without one.
    pub source: &'static str,
    /// The holes it is about; empty if it is about the board.
    #[serde(serialize_with = "names_as_text")]
    pub holes: Vec<HoleName>,
}

/// The most sums with one name in a brief list: the speed for each of a hundred radii adds nothing.
const ALIKE: usize = 3;

impl SumGroup {
    /// The sums, but only the first three of each name.
    ///
    /// The tables for programs have all of them.
    pub fn brief(&self) -> Vec<&Sum> {
        let mut told: Vec<&Sum> = Vec::new();
        for sum in &self.sums {
            let alike = told.iter().filter(|other| other.name == sum.name).count();
            if alike < ALIKE {
                told.push(sum);
            }
        }
        told
    }
}

/// A value with the precision that is useful in the shop: a tilt to a tenth of a degree, which is all that anyone sees.
fn readable(value: Measure) -> Measure {
    match value.quantity {
        Quantity::Angle if value.value.abs() >= 1.0 => {
            Measure::degrees((value.value * 10.0).round() / 10.0)
        }
        _ => value,
    }
}

impl Sum {
    /// Its name, with the case it applies to.
    ///
    /// ```
    /// use board::Units;
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// let bores = workpiece.sums().iter().find(|group| group.heading == "bores").unwrap();
    /// let depth = bores.sums.iter().find(|sum| sum.name == "depth of the bore").unwrap();
    /// assert_eq!(depth.titled(Units::Mm), "depth of the bore, 12 mm");
    /// assert_eq!(depth.shown(Units::Mm), "5 mm");
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn titled(&self, units: Units) -> String {
        match self.at {
            Some(at) => format!("{}, {}", self.name, at.shown(units)),
            None => self.name.into(),
        }
    }

    /// The name beside the value, if any, and the value.
    pub fn shown(&self, units: Units) -> String {
        let value = self.value.map(|value| readable(value).shown(units));
        match (&self.words, value) {
            (Some(words), Some(value)) => format!("{words}, {value}"),
            (Some(words), None) => words.clone(),
            (None, Some(value)) => value,
            (None, None) => "never".into(),
        }
    }

    /// A sum about the whole board.
    pub(crate) const fn new(
        name: &'static str,
        value: Option<Measure>,
        formula: &'static str,
        source: &'static str,
    ) -> Self {
        Self {
            name,
            at: None,
            value,
            words: None,
            formula,
            source,
            holes: Vec::new(),
        }
    }

    /// A sum that is a length, mm.
    pub(crate) const fn mm(
        name: &'static str,
        mm: f64,
        formula: &'static str,
        source: &'static str,
    ) -> Self {
        Self::new(name, Some(Measure::mm(mm)), formula, source)
    }

    /// The sum for this case.
    pub(crate) const fn at(mut self, measure: Measure) -> Self {
        self.at = Some(measure);
        self
    }

    /// The sum with the name beside its value.
    pub(crate) fn worded(mut self, words: String) -> Self {
        self.words = Some(words);
        self
    }

    /// The sum about these holes.
    pub(crate) fn about(mut self, holes: Vec<HoleName>) -> Self {
        self.holes = holes;
        self
    }
}

/// Source: exact geometry.
pub(crate) const GEOMETRY: &str = "geometry";
/// Source: statics.
pub(crate) const STATICS: &str = "statics of rigid bodies";
/// Source: the equation of wood movement.
pub(crate) const MOVEMENT: &str =
    "Wood Handbook, FPL-GTR-190 (2010), Eq. 13-2; holds from 6 to 14 % of moisture";
/// Source: the maker's own number.
pub(crate) const TYPED: &str = "as typed";

/// All sums of a board, by subject.
pub(crate) fn sums(workpiece: &Workpiece) -> Vec<SumGroup> {
    let groups = [
        wood::sums::group(workpiece),
        base::sums::group(workpiece),
        bores::sums::group(workpiece),
        Some(bores::piece_sums::group(workpiece)),
        filling::sums::group(workpiece),
        grooves::sums::group(workpiece),
        recess::sums::group(workpiece),
        repair::sums::group(workpiece),
        calendar::sums::group(workpiece),
    ];
    groups.into_iter().flatten().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::{Base, Filling, Grooves, Magnet, PieceKind, Recess, ScrewCircle, Wood};

    fn all(kind: PieceKind) -> Vec<SumGroup> {
        let mut board = Board {
            wood: Some(Wood::default()),
            base: Some(Base::default()),
            recess: Some(Recess {
                lid: 4.0,
                ..Recess::default()
            }),
            screws: vec![ScrewCircle::default()],
            filling: Some(Filling::default()),
            grooves: Some(Grooves::default()),
            ..Board::default()
        };
        board.piece.kind = kind;
        board.piece.shank = Some(11.8);
        board.piece.magnet = Some(Magnet::default());
        sums(&Workpiece::of(&board).unwrap())
    }

    #[test]
    fn groups_exist_for_planned_subjects() {
        let headings = |groups: &[SumGroup]| -> Vec<&str> {
            groups.iter().map(|group| group.heading).collect()
        };
        assert_eq!(
            headings(&all(PieceKind::Marble)),
            [
                "wood", "base", "bores", "pieces", "filling", "grooves", "storage"
            ]
        );
        let plain = Board::default();
        let few = sums(&Workpiece::of(&plain).unwrap());
        assert_eq!(headings(&few), ["bores", "pieces"]);
    }

    #[test]
    fn every_sum_has_a_name_a_formula_and_a_source_and_occurs_once() {
        for kind in PieceKind::ALL {
            for group in all(kind) {
                assert!(group.sums.len() >= 3, "{group:?}");
                for (place, sum) in group.sums.iter().enumerate() {
                    assert!(
                        !sum.name.is_empty() && !sum.formula.is_empty() && !sum.source.is_empty()
                    );
                    let same = |other: &Sum| {
                        (other.name, other.at, &other.holes) == (sum.name, sum.at, &sum.holes)
                    };
                    assert!(!group.sums[..place].iter().any(same), "{sum:?}");
                    if let Some(value) = sum.value {
                        assert!(value.value.is_finite(), "{sum:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn a_brief_list_has_three_of_each_name() {
        for group in all(PieceKind::Marble) {
            let brief = group.brief();
            for sum in &group.sums {
                let count = |sums: &mut dyn Iterator<Item = &Sum>| {
                    sums.filter(|other| other.name == sum.name).count()
                };
                let (all, told) = (
                    count(&mut group.sums.iter()),
                    count(&mut brief.iter().copied()),
                );
                assert_eq!(told, all.min(3), "{}", sum.name);
            }
        }
    }

    #[test]
    fn sums_are_written_with_their_units() {
        let groups = all(PieceKind::Marble);
        let json = serde_json::to_value(&groups).unwrap();
        let first = &json[0]["sums"][0];
        assert_eq!(first["name"], "movement per 1 % of moisture");
        assert_eq!(first["value"]["number"], 0.002_74);
        assert!(first["source"].as_str().unwrap().contains("Table 13-5"));
        let flight = json[3]["sums"].as_array().unwrap().last().unwrap();
        assert!(flight["value"]["rpm"].is_number() && flight["at"]["mm"].is_number());
        assert!(flight["holes"][0].is_string());
    }
}
