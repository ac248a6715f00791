//! Working time as an axis of its own, beside that of the clock.
//!
//! Minutes of the clock run on through nights and weekends; minutes of work are counted only while the maker is at the bench.
//! What hands do is placed on the second axis, where a job that goes on the next morning is in one piece; what dries is on the
//! first. An axis may also run backward, with the minutes of the clock negated: the placing of jobs on it is the same.

/// A stretch of work without a break.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// Its begin, minutes of the clock.
    pub clock: i64,
    /// Minutes of work before it.
    pub work: i64,
    /// Its length, minutes.
    pub length: i64,
}

impl Stretch {
    /// Its end, minutes of the clock.
    const fn clock_end(self) -> i64 {
        self.clock + self.length
    }

    /// Minutes of work up to its end.
    pub const fn work_end(self) -> i64 {
        self.work + self.length
    }
}

/// The axis of work, which grows as far as it is needed.
pub struct Axis<I> {
    stretches: Vec<Stretch>,
    more: I,
}

/// The days that can be reckoned with are used up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TooFar;

impl<I: Iterator<Item = (i64, i64)>> Axis<I> {
    /// An axis of stretches that follow one another, each from and to a minute of the clock.
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

    /// Minutes of work up to the first at or after a minute of the clock.
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

    /// Minutes of work up to a minute of the clock, of the stretches known so far.
    pub fn work_until(&self, clock: i64) -> i64 {
        let after = self.stretches.partition_point(|it| it.clock < clock);
        let before = after.checked_sub(1).and_then(|at| self.stretches.get(at));
        before.map_or(0, |it| (it.work + (clock - it.clock)).min(it.work_end()))
    }

    /// The stretch in which work begins after so many minutes of it.
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

    /// The stretch in which this number of minutes of work is reached, of those known so far.
    pub fn stretch_until(&self, work: i64) -> Option<Stretch> {
        let at = self.stretches.partition_point(|it| it.work_end() < work);
        self.stretches.get(at).copied()
    }

    /// The minute of the clock at which work begins after so many minutes of it.
    pub fn begins(&mut self, work: i64) -> Result<i64, TooFar> {
        let stretch = self.stretch_from(work)?;
        Ok(stretch.clock + work - stretch.work)
    }

    /// The minute of the clock at which so many minutes of work are full.
    pub fn ends(&mut self, work: i64) -> Result<i64, TooFar> {
        self.stretch_from(work - 1)?;
        let stretch = self.stretch_until(work).ok_or(TooFar)?;
        Ok(stretch.clock + work - stretch.work)
    }

    /// The place of the stretch in which work can go on from a minute of the clock, of those known so far.
    pub fn place(&self, clock: i64) -> usize {
        self.stretches.partition_point(|it| it.clock_end() <= clock)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two days of 60 minutes from minutes 100 and 1540 on.
    fn axis() -> Axis<impl Iterator<Item = (i64, i64)>> {
        Axis::new([(100, 160), (1540, 1600)].into_iter())
    }

    #[test]
    fn work_goes_on_the_next_morning_and_ends_in_the_evening() {
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
    fn an_axis_that_is_used_up_says_so() {
        assert_eq!(axis().work_from(1600), Err(TooFar));
        assert_eq!(axis().begins(120), Err(TooFar));
        assert_eq!(axis().ends(120), Ok(1600));
    }
}
