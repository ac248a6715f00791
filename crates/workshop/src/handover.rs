//! The calendar, the costing and the cut list of an order: parts of the workpiece that cover all of its boards.

use crate::{Calendar, CalendarError, Costing, CutPart, Workpiece, calendar, price, shopping};

impl Workpiece {
    /// The days on which the work is done.
    ///
    /// # Errors
    /// [`CalendarError`] where no calendar can be made.
    ///
    /// ```
    /// use board::{Board, Schedule};
    /// use workshop::{Task, Workpiece};
    /// let schedule = Schedule { start: "2026-11-30".parse().ok(), ..Schedule::default() };
    /// let workpiece = Workpiece::of(&Board { schedule, ..Board::default() })?;
    /// let calendar = workpiece.calendar().unwrap();
    /// // The wood rests for a week first.
    /// assert!(calendar.last > "2026-12-07".parse().unwrap());
    /// assert_eq!(calendar.work.len(), workpiece.work_plan().operations.len());
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn calendar(&self) -> Result<&Calendar, &CalendarError> {
        let made = || calendar::calendar(self);
        self.parts.calendar.get_or_init(made).as_ref()
    }

    /// The shopping list with its prices, the time, and the price of the order, for the number of boards in the document.
    ///
    /// ```
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// assert!(workpiece.costing().lines.iter().all(|line| line.cost.is_none()));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn costing(&self) -> &Costing {
        let boards = || shopping::boards_of(&self.board);
        self.parts
            .costing
            .get_or_init(|| price::costing(self, boards()))
    }

    /// Every part that is cut from wood or sheet stock, for the number of boards in the document.
    ///
    /// ```
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// assert_eq!(workpiece.cut_list().len(), 1);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn cut_list(&self) -> &[CutPart] {
        let boards = || shopping::boards_of(&self.board);
        self.parts
            .cut_list
            .get_or_init(|| shopping::cut_list(self, boards()))
    }
}
