//! A printer's correction, and the part of a page that it leaves printable.

use kurbo::{Rect, Size};

use crate::PrintCorrection;

/// The correction that compensates a printer's errors on a sheet, and the printer's name.
#[derive(Debug, Clone, PartialEq)]
pub struct Correction {
    /// The maker's name for the printer.
    pub printer: String,
    /// The correction in the frame of the sheet: its x axis is across the sheet, whichever way the sheet goes through the
    /// printer.
    pub print: PrintCorrection,
}

impl Correction {
    /// The correction for paper of this size, given the correction for portrait paper.
    ///
    /// Printers feed a landscape page short side first and draw it rotated by a quarter turn, so their errors across and up are
    /// swapped on it.
    ///
    /// ```
    /// use kurbo::Size;
    /// use workshop::{Correction, PrintCorrection};
    /// let print = PrintCorrection { x: 1.006, ..PrintCorrection::IDENTITY };
    /// let correction = Correction { printer: "Laser".into(), print };
    /// assert_eq!(correction.on(Size::new(210.0, 297.0)), correction);
    /// assert_eq!(correction.on(Size::new(297.0, 210.0)).print.y, 1.006);
    /// ```
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

    /// The correction as two lines of text for the sheet.
    ///
    /// ```
    /// use workshop::{Correction, PrintCorrection};
    /// let print = PrintCorrection { x: 1.006, y: 0.998, ..PrintCorrection::IDENTITY };
    /// let correction = Correction { printer: "Laser".into(), print };
    /// assert_eq!(correction.words(), ["Corrected for Laser:", "across × 1.0060, up × 0.9980, skew 0.00°"]);
    /// ```
    pub fn words(&self) -> [String; 2] {
        let PrintCorrection { x, y, skew } = self.print;
        // A skew that rounds to zero has no sign.
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

/// The largest part of a page, about its center, that stays inside the margins both before and after it is corrected.
///
/// ```
/// use kurbo::{Rect, Size};
/// let area = workshop::printable(Size::new(210.0, 297.0), 10.0, None);
/// assert_eq!(area, Rect::new(10.0, 10.0, 200.0, 287.0));
/// ```
pub fn printable(paper: Size, margin: f64, correction: Option<&Correction>) -> Rect {
    if correction.is_none() {
        return paper.to_rect().inset(-margin);
    }
    let room = printable_size(paper, margin, correction);
    Rect::from_center_size(paper.to_rect().center(), room)
}

/// The size of [`printable`]; 0 or negative if margins leave nothing.
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
