//! What follows from the document as it is now, and the last document that could be laid out.

use board::{Board, BuildError, Stock};
use drawing::Correction;

use crate::blank::Blank;
use crate::derived::Derived;
use crate::study::Study;

/// What follows from the document as it is now.
pub struct Current {
    /// The document that was looked at last.
    seen: Board,
    /// The last document that could be laid out, and what follows from it.
    good: Option<(Board, Derived)>,
    error: Option<BuildError>,
    /// What the sheets of the template are corrected for.
    printer: Option<Correction>,
    /// Whether another printer has been chosen since.
    is_stale: bool,
}

impl Current {
    /// Works it out for the first time.
    pub fn of(board: &Board) -> Self {
        let mut current = Self {
            seen: board.clone(),
            good: None,
            error: None,
            printer: None,
            is_stale: false,
        };
        current.work_out(board);
        current
    }

    /// Works it out again if the document has changed.
    pub fn refresh(&mut self, board: &Board) {
        if self.is_stale || *board != self.seen {
            self.work_out(board);
        }
    }

    /// From the next refresh on the template is for a printer; tells whether it was for another before.
    pub fn print_on(&mut self, printer: Option<Correction>) -> bool {
        if self.printer == printer {
            return false;
        }
        self.printer = printer;
        self.is_stale = true;
        true
    }

    fn work_out(&mut self, board: &Board) {
        self.seen = board.clone();
        self.is_stale = false;
        let blank = match &self.good {
            Some((_, derived)) => derived.blank.after(&board.stock),
            None => Blank::of(&Stock::default()).after(&board.stock),
        };
        match Derived::on(board, self.printer.as_ref(), blank) {
            Ok(derived) => {
                self.good = Some((board.clone(), derived));
                self.error = None;
            }
            Err(error) => self.error = Some(error),
        }
    }

    /// Takes what was worked out beside the window for this document, where it waits for that.
    pub fn take(&mut self, board: &Board, study: &Study) {
        let waits = |(good, derived): &(Board, Derived)| {
            let waits = derived.blank.is_pending() || derived.budget.is_none();
            waits && good == board
        };
        let Some((_, derived)) = self.good.as_ref().filter(|good| waits(good)) else {
            return;
        };
        let blank = if derived.blank.is_pending() {
            Blank::with(&board.stock, study.plan.clone())
        } else {
            derived.blank.clone()
        };
        if study.budget.is_some() || derived.blank.is_pending() {
            let derived = Derived::after(board, self.printer.as_ref(), blank, study.budget);
            self.good = derived.ok().map(|derived| (board.clone(), derived));
        }
    }

    /// The last document that could be laid out, and what follows from it.
    pub fn good(&self) -> Option<(&Board, &Derived)> {
        self.good.as_ref().map(|(board, derived)| (board, derived))
    }

    /// The maker's unit.
    pub const fn units(&self) -> board::Units {
        self.seen.units
    }

    /// Why the document as it is now cannot be laid out, if it cannot.
    pub fn error(&self) -> Option<&BuildError> {
        self.error.as_ref()
    }
}
