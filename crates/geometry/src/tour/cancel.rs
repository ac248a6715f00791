//! The question whether to go on, which is not asked again after the first no.

use std::cell::Cell;

/// The caller's wish to stop.
pub(super) struct Cancel<'a> {
    wish: &'a dyn Fn() -> bool,
    said: Cell<bool>,
}

impl<'a> Cancel<'a> {
    pub(super) fn new(wish: &'a dyn Fn() -> bool) -> Self {
        let said = Cell::new(false);
        Self { wish, said }
    }

    /// Whether to stop, asked of the caller unless it is known.
    pub(super) fn ask(&self) -> bool {
        if !self.said.get() {
            self.said.set((self.wish)());
        }
        self.said.get()
    }

    /// Whether an earlier question was answered by a stop.
    pub(super) fn said(&self) -> bool {
        self.said.get()
    }
}
