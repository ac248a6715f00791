//! The parts of a batch in the units they are measured out in.

use board::{Measure, Mix, MixedBy, Units, show_number};

/// The two parts of a batch: ml where the resin is mixed by volume, g where it is mixed by weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MixParts {
    /// The amount of resin.
    pub resin: f64,
    /// The amount of hardener.
    pub hardener: f64,
}

/// The resin and the hardener in `ml` milliliters of the mix. The parts of a mix by volume are assumed to add up, though some
/// mixtures shrink by a percent or two (from memory).
///
/// ```
/// use board::{Mix, MixedBy};
/// let two_to_one = Mix { by: MixedBy::Volume, resin: 2.0, hardener: 1.0, ..Mix::default() };
/// let parts = workshop::mix_parts(&two_to_one, 30.0);
/// assert_eq!((parts.resin, parts.hardener), (20.0, 10.0));
/// let weighed = Mix { by: MixedBy::Weight, density: 1.1, ..two_to_one };
/// let parts = workshop::mix_parts(&weighed, 30.0);
/// assert!((parts.resin + parts.hardener - 33.0).abs() < 1e-9);
/// ```
pub fn mix_parts(mix: &Mix, ml: f64) -> MixParts {
    let amount = match mix.by {
        MixedBy::Volume => ml,
        MixedBy::Weight => ml * mix.density,
    };
    let resin = amount * mix.resin / (mix.resin + mix.hardener);
    MixParts {
        resin,
        hardener: amount - resin,
    }
}

/// One of the [`MixParts`] with its unit.
pub fn part(mix: &Mix, amount: f64) -> Measure {
    match mix.by {
        MixedBy::Volume => Measure::milliliters(amount),
        MixedBy::Weight => Measure::grams(amount),
    }
}

/// Both parts of an amount as text: "20 + 10 ml". Where either is less than 1 g, 1 ml or a tenth of an ounce, there is one more
/// digit, so that no part of a small batch is shown as 0.
///
/// ```
/// use board::{Mix, MixedBy, Units};
/// let mix = Mix { by: MixedBy::Volume, resin: 2.0, hardener: 1.0, ..Mix::default() };
/// assert_eq!(workshop::parts_shown(&mix, 30.0, Units::Mm), "20 + 10 ml");
/// assert_eq!(workshop::parts_shown(&mix, 1.5, Units::Mm), "1 + 0.5 ml");
/// assert_eq!(workshop::parts_shown(&mix, 30.0, Units::INCH), "0.68 + 0.34 fl oz");
/// ```
pub fn parts_shown(mix: &Mix, ml: f64, units: Units) -> String {
    let MixParts { resin, hardener } = mix_parts(mix, ml);
    let [(resin, unit), (hardener, _)] =
        [resin, hardener].map(|amount| part(mix, amount).in_unit(units));
    let (decimals, small) = match units {
        Units::Mm => (1, 1.0),
        Units::Inch(_) => (2, 0.1),
    };
    let decimals = decimals + usize::from(resin.min(hardener) < small);
    let shown = |part| show_number(part, decimals);
    format!("{} + {} {unit}", shown(resin), shown(hardener))
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn parts_are_shown_as_they_are_measured_out() {
        let mix = Mix {
            by: MixedBy::Volume,
            resin: 2.0,
            hardener: 1.0,
            density: 1.15,
        };
        let parts = mix_parts(&mix, 30.0);
        assert_eq!((parts.resin, parts.hardener), (20.0, 10.0));
        let shown = |ml| [Units::Mm, Units::INCH].map(|units| parts_shown(&mix, ml, units));
        assert_eq!(shown(30.0), ["20 + 10 ml", "0.68 + 0.34 fl oz"]);
        assert_eq!(shown(0.1), ["0.07 + 0.03 ml", "0.002 + 0.001 fl oz"]);
        let weighed = Mix {
            by: MixedBy::Weight,
            resin: 100.0,
            hardener: 43.0,
            ..mix
        };
        let MixParts { resin, hardener } = mix_parts(&weighed, 100.0);
        assert_near!(resin + hardener, 115.0, 1e-9);
        assert_near!(hardener / resin, 0.43, 1e-12);
    }
}
