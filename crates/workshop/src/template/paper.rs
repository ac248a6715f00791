//! Sizes of paper.

use board::{INCH, Paper};
use kurbo::Size;

/// Sizes of paper that differ by no more, in mm, are the same; printers themselves hold a sheet no better.
const SAME_PAPER: f64 = 0.1;

/// Width and height of a paper, upright, in mm: ISO 216 for the A series, ANSI/ASME Y14.1 and trade sizes
/// for the inch papers.
///
/// ```
/// use board::Paper;
/// assert_eq!(workshop::paper_size(Paper::A4), kurbo::Size::new(210.0, 297.0));
/// ```
pub fn paper_size(paper: Paper) -> Size {
    match paper {
        Paper::A4 => Size::new(210.0, 297.0),
        Paper::A3 => Size::new(297.0, 420.0),
        Paper::Letter => Size::new(8.5 * INCH, 11.0 * INCH),
        Paper::Legal => Size::new(8.5 * INCH, 14.0 * INCH),
        Paper::Tabloid => Size::new(11.0 * INCH, 17.0 * INCH),
        Paper::Custom { width, height } => Size::new(width, height),
    }
}

/// The paper that a page of a size in mm is printed on, upright or on its side.
///
/// ```
/// use board::Paper;
/// assert_eq!(workshop::paper_of(kurbo::Size::new(297.0, 210.0)), Paper::A4);
/// ```
pub fn paper_of(page: Size) -> Paper {
    let known = [
        Paper::A4,
        Paper::A3,
        Paper::Letter,
        Paper::Legal,
        Paper::Tabloid,
    ];
    let is_alike = |paper: &Paper| {
        let size = paper_size(*paper);
        (size.min_side() - page.min_side()).abs() < SAME_PAPER
            && (size.max_side() - page.max_side()).abs() < SAME_PAPER
    };
    known.into_iter().find(is_alike).unwrap_or(Paper::Custom {
        width: page.width,
        height: page.height,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    /// ISO 216: the long side of the next smaller size is the short side of this one.
    #[test]
    fn an_a3_is_two_a4_sheets() {
        assert_eq!(paper_size(Paper::A3).width, paper_size(Paper::A4).height);
        assert_eq!(
            paper_size(Paper::A3).height,
            2.0 * paper_size(Paper::A4).width
        );
    }

    /// ASME Y14.1: ANSI B is two sheets of ANSI A.
    #[test]
    fn a_tabloid_is_two_letters() {
        assert_near!(
            paper_size(Paper::Tabloid).width,
            paper_size(Paper::Letter).height,
            1e-9
        );
        assert_near!(
            paper_size(Paper::Tabloid).height,
            2.0 * paper_size(Paper::Letter).width,
            1e-9
        );
    }
}
