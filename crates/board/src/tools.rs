//! The bits and guide bushings that the maker owns, entered once for the shop.

use serde::{Deserialize, Serialize};

/// The bits and guide bushings that the maker owns; an empty list was not filled in, and says nothing about what the maker
/// owns.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tools {
    /// Diameters of Forstner and brad-point bits.
    #[serde(rename = "forstner_mm", default)]
    pub forstner: Vec<f64>,
    /// Diameters of straight router bits.
    #[serde(rename = "straight_mm", default)]
    pub straight: Vec<f64>,
    /// Diameters of round-nose router bits.
    #[serde(rename = "round_nose_mm", default)]
    pub round_nose: Vec<f64>,
    /// Outside diameters of guide bushings.
    #[serde(rename = "bushings_mm", default)]
    pub bushings: Vec<f64>,
    /// Lengths of those bushings below the router's base, in the same order; the last one applies to all that follow.
    #[serde(rename = "bushing_lengths_mm", default)]
    pub bushing_lengths: Vec<f64>,
}

impl Tools {
    /// Every guide bushing: its outside diameter, and its length if one is given.
    ///
    /// ```
    /// use board::Tools;
    /// let tools = Tools { bushings: vec![16.0, 19.0, 24.0], bushing_lengths: vec![5.0, 8.0], ..Tools::default() };
    /// let all: Vec<_> = tools.bushings().collect();
    /// assert_eq!(all, [(16.0, Some(5.0)), (19.0, Some(8.0)), (24.0, Some(8.0))]);
    /// ```
    pub fn bushings(&self) -> impl Iterator<Item = (f64, Option<f64>)> {
        let last = self.bushing_lengths.last();
        let with_length = move |(at, bushing): (usize, &f64)| {
            let length = self.bushing_lengths.get(at).or(last);
            (*bushing, length.copied())
        };
        self.bushings.iter().enumerate().map(with_length)
    }

    /// Whether every list is empty.
    pub const fn is_empty(&self) -> bool {
        self.forstner.is_empty()
            && self.straight.is_empty()
            && self.round_nose.is_empty()
            && self.bushings.is_empty()
    }
}
