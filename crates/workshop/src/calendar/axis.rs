//! An axis of working time beside that of the clock.
//!
//! Clock minutes run on through nights and weekends; work minutes count only while the maker is at the bench. Hands-on work is
//! placed on the second axis, where a job that continues the next morning is in one piece; drying runs on the first. An axis
//! may also run backward, with clock minutes negated: jobs are placed on it in the same way.

/// A stretch of work without a break.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// Its start, in clock minutes.
    pub clock: i64,
    /// Work minutes before it.
    pub work: i64,
    /// Its length in minutes.
    pub length: i64,
}

impl Stretch {
    /// Its end, in clock minutes.
    const fn clock_end(self) -> i64 {
        self.clock + self.length
    }

    /// Work minutes up to its end.
    pub const fn work_end(self) -> i64 {
        self.work + self.length
    }
}

/// The axis of work, extended on demand.
pub struct Axis<I> {
    stretches: Vec<Stretch>,
    more: I,
}

/// No days are left to plan on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TooFar;

impl<I: Iterator<Item = (i64, i64)>> Axis<I> {
    /// An axis of consecutive stretches, each from one clock minute to another.
    pub const fn new(more: I) -> Self {
        Self {
            stretches: Vec::new(),
            more,
        }
    }

    /// The stretches known so far.
    pub fn stretches(&self) -> &[Stretch] {
        &self.stretches
    }

    /// Adds the next stretch.
    fn grow(&mut self) -> Result<Stretch, TooFar> {
        let (clock, end) = self.more.next().ok_or(TooFar)?;
        let work = self.stretches.last().map_or(0, |last| last.work_end());
        let next = Stretch {
            clock,
            work,
            length: end - clock,
        };
        self.stretches.push(next);
        Ok(next)
    }

    /// Work minutes before the first working minute at or after a clock minute.
    pub fn work_from(&mut self, clock: i64) -> Result<i64, TooFar> {
        while self
            .stretches
            .last()
            .is_none_or(|last| last.clock_end() <= clock)
        {
            self.grow()?;
        }
        let at = self.stretches.partition_point(|it| it.clock_end() <= clock);
        let stretch = self.stretches.get(at).ok_or(TooFar)?;
        Ok(stretch.work + (clock - stretch.clock).max(0))
    }

    /// Work minutes up to a clock minute, within the stretches known so far.
    pub fn work_until(&self, clock: i64) -> i64 {
        let after = self.stretches.partition_point(|it| it.clock < clock);
        let before = after.checked_sub(1).and_then(|at| self.stretches.get(at));
        before.map_or(0, |it| (it.work + (clock - it.clock)).min(it.work_end()))
    }

    /// The stretch in which work that follows this many work minutes begins.
    pub fn stretch_from(&mut self, work: i64) -> Result<Stretch, TooFar> {
        while self
            .stretches
            .last()
            .is_none_or(|last| last.work_end() <= work)
        {
            self.grow()?;
        }
        let at = self.stretches.partition_point(|it| it.work_end() <= work);
        self.stretches.get(at).copied().ok_or(TooFar)
    }

    /// The stretch in which this many work minutes have passed, among those known so far.
    pub fn stretch_until(&self, work: i64) -> Option<Stretch> {
        let at = self.stretches.partition_point(|it| it.work_end() < work);
        self.stretches.get(at).copied()
    }

    /// The clock minute at which work begins after this many work minutes.
    pub fn begins(&mut self, work: i64) -> Result<i64, TooFar> {
        let stretch = self.stretch_from(work)?;
        Ok(stretch.clock + work - stretch.work)
    }

    /// The clock minute at which this many work minutes have passed.
    pub fn ends(&mut self, work: i64) -> Result<i64, TooFar> {
        self.stretch_from(work - 1)?;
        let stretch = self.stretch_until(work).ok_or(TooFar)?;
        Ok(stretch.clock + work - stretch.work)
    }

    /// The index of the stretch in which work can continue from a clock minute, among those known so far.
    pub fn place(&self, clock: i64) -> usize {
        self.stretches.partition_point(|it| it.clock_end() <= clock)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two days of 60 work minutes each, which begin at clock minutes 100 and 1540.
    fn axis() -> Axis<impl Iterator<Item = (i64, i64)>> {
        Axis::new([(100, 160), (1540, 1600)].into_iter())
    }

    #[test]
    fn work_continues_the_next_morning_and_ends_in_the_evening() {
        let mut axis = axis();
        assert_eq!(axis.work_from(0), Ok(0));
        assert_eq!(axis.work_from(130), Ok(30));
        assert_eq!(axis.work_from(160), Ok(60));
        assert_eq!(axis.begins(60), Ok(1540));
        assert_eq!(axis.ends(60), Ok(160));
        assert_eq!(axis.ends(61), Ok(1541));
        assert_eq!(axis.work_until(1000), 60);
        assert_eq!(axis.work_until(100), 0);
        assert_eq!(axis.work_until(1550), 70);
    }

    #[test]
    fn a_used_up_axis_reports_an_error() {
        assert_eq!(axis().work_from(1600), Err(TooFar));
        assert_eq!(axis().begins(120), Err(TooFar));
        assert_eq!(axis().ends(120), Ok(1600));
    }
}
