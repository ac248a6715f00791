//! Undo and redo as whole snapshots: a board is a few kilobytes, and a snapshot cannot go stale.

/// Number of steps that can be undone.
const MOST_STEPS: usize = 500;

/// The states of a document: those before, this one, and those that were undone.
#[derive(Debug, Clone)]
pub struct History<T> {
    past: Vec<T>,
    present: T,
    future: Vec<T>,
}

impl<T: Clone + PartialEq> History<T> {
    /// Begins with a document.
    pub fn new(present: T) -> Self {
        Self {
            past: Vec::new(),
            present,
            future: Vec::new(),
        }
    }

    /// Makes the present document a step, if it has changed; returns whether it had.
    pub fn commit(&mut self, now: &T) -> bool {
        if *now == self.present {
            return false;
        }
        self.past
            .push(core::mem::replace(&mut self.present, now.clone()));
        if self.past.len() > MOST_STEPS {
            self.past.remove(0);
        }
        self.future.clear();
        true
    }

    /// The document one step back.
    pub fn undo(&mut self) -> Option<&T> {
        let before = self.past.pop()?;
        self.future
            .push(core::mem::replace(&mut self.present, before));
        Some(&self.present)
    }

    /// The document one step forward again.
    pub fn redo(&mut self) -> Option<&T> {
        let after = self.future.pop()?;
        self.past.push(core::mem::replace(&mut self.present, after));
        Some(&self.present)
    }

    /// The document as it was when the last step was made.
    pub const fn present(&self) -> &T {
        &self.present
    }

    /// The document as it would be one step back.
    pub fn before(&self) -> Option<&T> {
        self.past.last()
    }

    /// The document as it would be one step forward again.
    pub fn after(&self) -> Option<&T> {
        self.future.last()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn undo_and_redo_walk_the_same_steps() {
        let mut history = History::new(1);
        assert!(!history.commit(&1));
        assert!(history.commit(&2) && history.commit(&3));
        assert_eq!(history.undo(), Some(&2));
        assert_eq!(history.undo(), Some(&1));
        assert_eq!(history.undo(), None);
        assert_eq!(history.redo(), Some(&2));
        assert!(history.commit(&9));
        assert_eq!(history.after(), None);
        assert_eq!(history.undo(), Some(&2));
    }

    #[test]
    fn the_oldest_steps_go_first() {
        let mut history = History::new(0);
        (1..=MOST_STEPS + 50).for_each(|step| assert!(history.commit(&step)));
        let mut steps = 0;
        while history.undo().is_some() {
            steps += 1;
        }
        assert_eq!(steps, MOST_STEPS);
    }
}
