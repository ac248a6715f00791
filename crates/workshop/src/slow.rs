//! Parts of a workpiece that can take longer than a frame of the window: they are worked out in the background and known once
//! they are done.

use geometry::Stopped;

use crate::blank::stock;
use crate::template::budget;
use crate::{
    Budget, Calendar, CalendarError, Chance, Joined, StockPlan, Work, Workpiece, boards_of,
};

/// The most holes for which the tolerance budget is worked out at once.
const FEW_HOLES: usize = 500;
/// The most corners and flaws of a blank for which the place of the board is worked out at once.
const FEW_CORNERS: usize = 300;
/// The most boards of an order for which the calendar is worked out at once; the time grows with the square of their number.
const FEW_BOARDS: u32 = 20;

impl Workpiece {
    /// The place of the board on its blank; `None` if the blank is not described, or not worked out yet.
    pub fn stock(&self) -> Option<&StockPlan> {
        if self.parts.stock.get().is_none() && stock::corners(&self.board.stock) > FEW_CORNERS {
            return None;
        }
        let place = || {
            stock::stock_plan(&self.board.stock, &|| false)
                .ok()
                .flatten()
        };
        self.parts.stock.get_or_init(place).as_ref()
    }

    /// Whether the place of the board on its blank is yet to be worked out.
    pub fn stock_is_waiting(&self) -> bool {
        self.stock().is_none() && self.parts.stock.get().is_none()
    }

    /// The result of [`Self::calendar`]; none for an order of many boards until [`Self::work_out`] is done.
    ///
    /// ```
    /// use board::Board;
    /// use workshop::Workpiece;
    /// let mut board = Board::default();
    /// board.schedule.boards = 200;
    /// let many = Workpiece::of(&board)?;
    /// assert!(many.calendar_by_now().is_none());
    /// many.work_out(&|| false).unwrap();
    /// assert!(many.calendar_by_now().is_some());
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn calendar_by_now(&self) -> Option<Result<&Calendar, &CalendarError>> {
        (!self.calendar_is_waiting()).then(|| self.calendar())
    }

    /// Whether the calendar is yet to be worked out by [`Self::work_out`].
    pub fn calendar_is_waiting(&self) -> bool {
        self.parts.calendar.get().is_none() && boards_of(&self.board) > FEW_BOARDS
    }

    /// Boards that joining would make from the blank; none until [`Self::work_out`] is done.
    pub fn joined(&self) -> Option<&Joined> {
        self.parts.joined.get()?.as_ref()
    }

    /// The errors of the finished board, and an upper bound of the chance of a thin web; `None` for a board of many holes until
    /// [`Self::work_out`] is done.
    ///
    /// The bound is the sum over all pairs of holes, which is never too small (Boole's inequality).
    pub fn budget(&self) -> Option<&(Budget, f64)> {
        if self.parts.budget.get().is_none() && self.layout.holes.len() > FEW_HOLES {
            return None;
        }
        self.parts.budget.get_or_init(|| self.budgeted()).as_ref()
    }

    /// The chance that any web is below its limit; none until [`Self::work_out`] is done.
    pub fn chance(&self) -> Option<&Chance> {
        self.parts.chance.get()?.as_ref()
    }

    /// Whether any part of the findings is yet to be worked out by [`Self::work_out`].
    pub(crate) fn is_waiting(&self) -> bool {
        let budget = self.budget().is_none() && self.parts.budget.get().is_none();
        budget || self.stock_is_waiting() || self.calendar_is_waiting()
    }

    /// Works out what takes longer than a frame.
    ///
    /// ```
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// assert!(workpiece.chance().is_none());
    /// assert!(workpiece.work_out(&|| true).is_err());
    /// workpiece.work_out(&|| false).unwrap();
    /// assert!(workpiece.chance().is_some());
    /// # Ok::<(), board::BuildError>(())
    /// ```
    ///
    /// # Errors
    /// [`Stopped`] when `cancel` returned true; finished results are kept.
    pub fn work_out(&self, cancel: &dyn Fn() -> bool) -> Result<(), Stopped> {
        if self.parts.stock.get().is_none() {
            let plan = stock::stock_plan(&self.board.stock, cancel)?;
            self.parts.stock.get_or_init(|| plan);
        }
        if self.parts.joined.get().is_none() {
            let slab = self.stock().and_then(|plan| plan.slab.as_ref().ok());
            let joined = slab.map(|slab| stock::joined(&self.board, slab, cancel));
            let joined = joined.transpose()?;
            self.parts.joined.get_or_init(|| joined);
        }
        if cancel() {
            return Err(Stopped);
        }
        // An error is shown together with the result.
        let _ = self.calendar();
        if cancel() {
            return Err(Stopped);
        }
        self.parts.budget.get_or_init(|| self.budgeted());
        if self.parts.chance.get().is_none() {
            let chance = budget::chance(&self.work(), self.board.limits.web, cancel).ok();
            if cancel() {
                return Err(Stopped);
            }
            self.parts.chance.get_or_init(|| chance);
        }
        Ok(())
    }

    /// The inputs from which the tolerance budget is worked out.
    fn work(&self) -> Work<'_> {
        Work {
            mouths: self.mouths(),
            errors: &self.board.errors,
            joints: self.joints(),
        }
    }

    /// The tolerance budget, with an upper bound of the chance of a thin web.
    fn budgeted(&self) -> Option<(Budget, f64)> {
        let work = self.work();
        // The errors and holes of a document within its ranges can be added up.
        let most = budget::chance_at_most(&work, self.board.limits.web).ok()?;
        Some((budget::budget(&work).ok()?, most))
    }
}
