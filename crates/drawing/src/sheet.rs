//! One printed page.
//!
//! A sheet has two frames: that of the board, which its view uses, and that of the page, with the origin at the paper's lower
//! left corner. [`View::page_from_board`] converts between them and is a pure translation: nothing on a template is scaled or
//! rotated.

use kurbo::{Affine, Rect, Size, Vec2};
use workshop::{Correction, PrintCorrection};

use crate::{Item, Tinted};

/// One printed page: its paper, the part of the board on it, and the marks around that.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Width and height of the paper.
    pub size: Size,
    /// The name of the sheet, printed on it and used in the page list: "1B", "whole board".
    pub label: String,
    /// The part of the board that the sheet shows.
    pub view: View,
    /// Joint crosses, bars, key map, title: in the page frame, drawn over the view.
    pub marks: Vec<Item>,
    /// The correction that compensates the printer's errors on the whole sheet; the parts above are in their nominal places,
    /// and the writers of printed files apply it.
    pub correction: Option<Correction>,
}

impl Sheet {
    /// A page that shows no part of the board at true size: words, tables, figures with scales of their own.
    ///
    /// Everything on it is a mark, and its view is empty, so that no reader of a file takes a line on it for one of the board.
    pub(crate) fn of_marks(size: Size, label: String, marks: Vec<Item>) -> Self {
        Self {
            size,
            label,
            view: View {
                window: size.to_rect(),
                page_from_board: Vec2::ZERO,
                tints: Vec::new(),
                items: Vec::new(),
            },
            marks,
            correction: None,
        }
    }

    /// The transform of everything on the sheet, in the page frame, that compensates the printer's errors; `None` if nothing is
    /// to be corrected.
    ///
    /// It stretches and skews about the center of the paper, where printers are most accurate. A screen does not apply it,
    /// since it would show the inverse of the printer's errors.
    pub fn correction_transform(&self) -> Option<Affine> {
        let print = self.correction.as_ref()?.print;
        let center = self.size.to_rect().center();
        (print != PrintCorrection::IDENTITY).then(|| print.affine(center))
    }

    /// The sheet on paper of a size, with its content at the top left; unchanged if it does not fit.
    ///
    /// ```
    /// use board::Board;
    /// use drawing::{Stamp, whole_sheet};
    /// use kurbo::Size;
    /// use workshop::Workpiece;
    ///
    /// let sheet = whole_sheet(&Workpiece::of(&Board::default())?, &Stamp::default());
    /// let (small, large) = (Size::new(210.0, 297.0), Size::new(841.0, 1189.0));
    /// assert_eq!(sheet.clone().on_paper(small).size, sheet.size);
    /// let pinned = sheet.clone().on_paper(large);
    /// // The distance from the top edge of the paper to the center pin is unchanged.
    /// let down = |sheet: &drawing::Sheet| sheet.size.height - sheet.view.page_from_board.y;
    /// assert!((down(&pinned) - down(&sheet)).abs() < 1e-9);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    #[must_use]
    pub fn on_paper(self, paper: Size) -> Self {
        if self.size.width > paper.width || self.size.height > paper.height {
            return self;
        }
        let up = Vec2::new(0.0, paper.height - self.size.height);
        let mut view = self.view;
        view.window = view.window + up;
        view.page_from_board += up;
        let marks = self.marks.into_iter().map(|item| item.moved(up));
        Self {
            size: paper,
            view,
            marks: marks.collect(),
            ..self
        }
    }
}

/// A window on the board, placed on a page at true size.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// The part of the page that the window occupies; nothing of the board is drawn outside it.
    pub window: Rect,
    /// The page point of the board's origin: board point + `page_from_board` = page point.
    pub page_from_board: Vec2,
    /// The colors below the items, in the board frame; empty if the board is drawn black.
    pub tints: Vec<Tinted>,
    /// The items to draw, in the board frame, already without those that miss the window.
    pub items: Vec<Item>,
}

/// Facts about the making of a sheet that are not in the document.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Stamp {
    /// The date as printed; empty for none.
    pub date: String,
}
