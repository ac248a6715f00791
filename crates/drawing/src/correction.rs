//! A printer's correction on a sheet.

use kurbo::{Affine, Rect, Size};
use workshop::PrintCorrection;

use crate::Sheet;

/// What takes a printer's errors out of a sheet, and which printer's.
#[derive(Debug, Clone, PartialEq)]
pub struct Correction {
    /// What the maker calls the printer.
    pub printer: String,
    /// The correction in the frame of the sheet: across is across the sheet, whichever way it goes through the printer.
    pub print: PrintCorrection,
}

impl Correction {
    /// The correction for paper of a size, where this one is for upright paper.
    ///
    /// Printers draw a page that lies on its long side turned by a quarter, short side first, so their errors across and
    /// up change places on it.
    #[must_use]
    pub fn on(&self, paper: Size) -> Self {
        let lies = paper.width > paper.height;
        let print = if lies {
            self.print.turned()
        } else {
            self.print
        };
        Self {
            printer: self.printer.clone(),
            print,
        }
    }

    /// What the correction is, in two lines of words for the sheet.
    ///
    /// ```
    /// use drawing::Correction;
    /// use workshop::PrintCorrection;
    /// let print = PrintCorrection { x: 1.006, y: 0.998, ..PrintCorrection::IDENTITY };
    /// let correction = Correction { printer: "Laser".into(), print };
    /// assert_eq!(correction.words(), ["Corrected for Laser:", "across × 1.0060, up × 0.9980, skew 0.00°"]);
    /// ```
    pub fn words(&self) -> [String; 2] {
        let PrintCorrection { x, y, skew } = self.print;
        // What is nothing to two places has no sign.
        let degrees = (skew.as_degrees() * 100.0).round() / 100.0;
        let sign = if degrees < 0.0 { "−" } else { "" };
        [
            format!("Corrected for {}:", self.printer),
            format!(
                "across × {x:.4}, up × {y:.4}, skew {sign}{:.2}°",
                degrees.abs()
            ),
        ]
    }
}

/// The largest part of a paper, about its center, that stays inside the margin when it is corrected, and that does not
/// reach into the margin before either.
pub fn printable(paper: Size, margin: f64, correction: Option<&Correction>) -> Rect {
    if correction.is_none() {
        return paper.to_rect().inset(-margin);
    }
    let room = printable_size(paper, margin, correction);
    Rect::from_center_size(paper.to_rect().center(), room)
}

/// The size of [`printable`]; not over 0 where margins leave nothing.
pub fn printable_size(paper: Size, margin: f64, correction: Option<&Correction>) -> Size {
    let inside = Size::new(paper.width - 2.0 * margin, paper.height - 2.0 * margin);
    correction.map_or(inside, |correction| {
        let map = correction.print.affine(kurbo::Point::ORIGIN);
        let [across, _, lean, up, ..] = map.as_coeffs();
        let height = inside.height / up.max(1.0);
        let width = (inside.width - lean.abs() * height) / across.max(1.0);
        Size::new(width, height)
    })
}

impl Sheet {
    /// The transform of everything on the sheet, in the page frame, that takes the printer's errors out; none where
    /// nothing is to be corrected.
    pub fn correction_transform(&self) -> Option<Affine> {
        let print = self.correction.as_ref()?.print;
        let center = self.size.to_rect().center();
        (print != PrintCorrection::IDENTITY).then(|| print.affine(center))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::Angle;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn correction(x: f64, y: f64, degrees: f64) -> Correction {
        let skew = Angle::degrees(degrees);
        Correction {
            printer: "Laser".into(),
            print: PrintCorrection { x, y, skew },
        }
    }

    #[test]
    fn lying_paper_has_the_factors_swapped() {
        let upright = correction(1.006, 0.998, 0.12);
        assert_eq!(upright.on(Size::new(210.0, 297.0)), upright);
        let lying = upright.on(Size::new(297.0, 210.0));
        assert_eq!(
            lying.words()[1],
            "across × 0.9980, up × 1.0060, skew −0.12°"
        );
        assert_eq!(
            correction(1.0, 1.0, -0.001).words()[1],
            "across × 1.0000, up × 1.0000, skew 0.00°"
        );
    }

    /// 190 × 277 mm of an A4: 190 / 1.01 across; up, a factor under 1 gives nothing.
    #[test]
    fn what_is_stretched_gets_less_room() {
        let a4 = Size::new(210.0, 297.0);
        let room = printable(a4, 10.0, Some(&correction(1.01, 0.99, 0.0)));
        assert_near!(room.width(), 190.0 / 1.01, 1e-9);
        assert_near!(room.height(), 277.0, 1e-9);
        assert_near!(room.center(), a4.to_rect().center(), 1e-9);
        assert_eq!(printable(a4, 10.0, None), a4.to_rect().inset(-10.0));
        assert!(printable_size(a4, 110.0, Some(&correction(1.0, 1.0, 0.0))).width < 0.0);
    }

    proptest! {
        #[test]
        fn what_is_printable_stays_inside_the_margin_when_it_is_corrected(
            x in 0.9..1.1_f64, y in 0.9..1.1_f64, degrees in -3.0..3.0_f64, margin in 0.0..30.0_f64,
        ) {
            let (paper, correction) = (Size::new(215.9, 279.4), correction(x, y, degrees));
            let room = printable(paper, margin, Some(&correction));
            let inside = paper.to_rect().inset(1e-9 - margin);
            let map = correction.print.affine(paper.to_rect().center());
            prop_assert!(inside.contains_rect(map.transform_rect_bbox(room)));
            prop_assert!(inside.contains_rect(room));
        }
    }
}
