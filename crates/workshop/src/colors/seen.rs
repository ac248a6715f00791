//! Colors as seen on the wood: paint covers it, dye and stain let its tone show through.

use board::{Medium, Rgb};

use super::Tint;
use super::sight::{linear, of_linear};

/// The color of a tint as seen on wood of a tone; an estimate from memory, since every dye and every piece of wood differs.
///
/// Dye only filters the light that the wood reflects. Stain does so over half of the area, and covers the other half with pigment.
///
/// ```
/// use board::{Medium, Rgb};
/// use workshop::{Tint, contrast, seen_on, tone};
/// let yellow = Rgb::new(240, 228, 66);
/// let [paint, dye] = [Medium::Paint, Medium::Dye].map(|medium| Tint { color: yellow, medium });
/// let walnut = tone("black-walnut");
/// assert_eq!(seen_on(walnut, paint), yellow);
/// // A yellow dye hardly shows on walnut.
/// assert!(contrast(seen_on(walnut, dye), walnut) < 1.3);
/// ```
pub fn seen_on(wood: Rgb, tint: Tint) -> Rgb {
    let [own, below] = [tint.color, wood].map(linear);
    let through = |cover: f64| {
        let parts = own.into_iter().zip(below);
        let mut seen = [0.0; 3];
        for (seen, (own, below)) in seen.iter_mut().zip(parts) {
            *seen = cover * own + (1.0 - cover) * own * below;
        }
        of_linear(seen)
    };
    match tint.medium {
        Medium::Paint | Medium::Inlay | Medium::Resin => tint.color,
        Medium::Dye => through(0.0),
        Medium::Stain => through(0.5),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{luminance, species, tone};
    use proptest::prelude::*;

    proptest! {
        /// No dye makes wood lighter.
        #[test]
        fn dye_only_darkens(parts in any::<[u8; 3]>(), of in 0..38_usize) {
            let [red, green, blue] = parts;
            let wood = tone(species()[of].id);
            let tint = Tint { color: Rgb::new(red, green, blue), medium: Medium::Dye };
            let seen = seen_on(wood, tint);
            for (seen, wood) in seen.parts().into_iter().zip(wood.parts()) {
                prop_assert!(seen <= wood);
            }
            let stained = seen_on(wood, Tint { medium: Medium::Stain, ..tint });
            prop_assert!(luminance(stained) >= luminance(seen) - 1e-6);
        }
    }
}
