//! Jobs put on the axis of work, one after the other, each as early as it can be.
//!
//! One maker has one pair of hands, so that no two jobs overlap on the axis of work; a job that cannot be interrupted stands within one
//! stretch; and of a kind of station no more are taken at once than there are. What comes first in the list is placed first, and later
//! jobs fill the gaps that waits have left. The same list gives the same days.

use std::collections::BTreeMap;

use super::axis::{Axis, Stretch, TooFar};

/// Kinds of stations that boards wait in.
pub const KINDS: usize = 2;

/// A job: an operation on one board, or on all at once.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Job {
    /// Minutes that hands are at it.
    pub minutes: i64,
    /// Whether it is done in one go.
    pub whole: bool,
    /// Jobs earlier in the list that it comes after, with the minutes of the clock between the end of one and its begin.
    pub after: Vec<(usize, i64)>,
    /// The minute of the clock before which it does not begin.
    pub not_before: i64,
    /// The minutes of the clock after its end, before all is over.
    pub trail: i64,
    /// The kind of station that the board is in, and for how many minutes before it begins and after it ends.
    pub station: Option<(usize, [i64; 2])>,
}

/// A job in its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placed {
    /// Minutes of the clock at which it begins and ends.
    pub clock: [i64; 2],
    /// Minutes of work before it begins and when it ends.
    pub work: [i64; 2],
}

impl Placed {
    /// The stretches of the clock that it takes, of those of the axis; one of no length where hands are at nothing.
    pub fn stretches(&self, axis: &[Stretch]) -> Vec<[i64; 2]> {
        let [from, to] = self.clock;
        if from == to {
            return vec![[from, to]];
        }
        let first = axis.partition_point(|it| it.clock + it.length <= from);
        let taken = axis.iter().skip(first).take_while(|it| it.clock < to);
        taken
            .map(|it| [it.clock.max(from), (it.clock + it.length).min(to)])
            .collect()
    }
}

/// Places jobs on an axis; of each kind of station there are so many.
///
/// # Errors
/// [`TooFar`] where the axis has no day left for a job.
pub fn place<I: Iterator<Item = (i64, i64)>>(
    jobs: &[Job],
    axis: &mut Axis<I>,
    stations: [u32; KINDS],
) -> Result<Vec<Placed>, TooFar> {
    let mut shop = Shop {
        hands: BTreeMap::new(),
        taken: [Vec::new(), Vec::new()],
        stations,
    };
    let mut placed: Vec<Placed> = Vec::with_capacity(jobs.len());
    for job in jobs {
        let after = job.after.iter().filter_map(|(before, lag)| {
            let before = placed.get(*before)?;
            Some(before.clock[1] + lag)
        });
        let ready = after.max().unwrap_or(i64::MIN).max(job.not_before);
        placed.push(shop.put(job, ready, axis)?);
    }
    Ok(placed)
}

/// The hands and the stations, with what they are taken for.
struct Shop {
    /// Minutes of work that hands are taken, each stretch by its begin.
    hands: BTreeMap<i64, i64>,
    /// Minutes of the clock that stations of each kind are taken.
    taken: [Vec<[i64; 2]>; KINDS],
    /// The stations of each kind.
    stations: [u32; KINDS],
}

impl Shop {
    /// Puts a job at the first place from a minute of the clock on where it can be.
    fn put<I: Iterator<Item = (i64, i64)>>(
        &mut self,
        job: &Job,
        ready: i64,
        axis: &mut Axis<I>,
    ) -> Result<Placed, TooFar> {
        if job.minutes == 0 {
            let work = axis.work_from(ready)?;
            return Ok(Placed {
                clock: [ready; 2],
                work: [work; 2],
            });
        }
        let mut work = axis.work_from(ready)?;
        loop {
            work = self.free(job, work, axis)?;
            let clock = [axis.begins(work)?, axis.ends(work + job.minutes)?];
            match self.station_free(job, clock) {
                None => {
                    self.take(job, work, clock);
                    return Ok(Placed {
                        clock,
                        work: [work, work + job.minutes],
                    });
                }
                Some(later) => work = (work + 1).max(axis.work_from(later)?),
            }
        }
    }

    /// The first place on the axis of work where hands are free for a job.
    fn free<I: Iterator<Item = (i64, i64)>>(
        &self,
        job: &Job,
        mut work: i64,
        axis: &mut Axis<I>,
    ) -> Result<i64, TooFar> {
        loop {
            if job.whole {
                let stretch = axis.stretch_from(work)?;
                if work + job.minutes > stretch.work_end() {
                    work = stretch.work_end();
                    continue;
                }
            }
            // Stretches do not overlap: only the last that begins before the end can be in the way.
            let in_the_way = self.hands.range(..work + job.minutes).next_back();
            match in_the_way.filter(|(_, end)| **end > work) {
                Some((_, end)) => work = self.free_after(*end),
                None => return Ok(work),
            }
        }
    }

    /// The end of the stretch that is taken up to a minute of work, where others follow it without a gap.
    fn free_after(&self, mut work: i64) -> i64 {
        while let Some(end) = self.hands.get(&work) {
            work = *end;
        }
        work
    }

    /// When a job can begin, at the earliest, where its kind of station is taken at some time of this one; none where it is free.
    fn station_free(&self, job: &Job, clock: [i64; 2]) -> Option<i64> {
        let (kind, [before, after]) = job.station?;
        let (from, to) = (clock[0] - before, clock[1] + after);
        let taken = self.taken.get(kind)?;
        let overlapping = taken.iter().filter(|it| it[0] < to && it[1] > from);
        let mut ends: Vec<i64> = overlapping.map(|it| it[1]).collect();
        let stations = *self.stations.get(kind)? as usize;
        // Taken stretches that all touch this one need not overlap one another; a station is free where one follows the other.
        if ends.len() < stations || most_at_once(taken, from, to) < stations {
            return None;
        }
        ends.sort_unstable();
        ends.first().map(|end| end + before)
    }

    /// Takes hands and a station for a job.
    fn take(&mut self, job: &Job, work: i64, clock: [i64; 2]) {
        self.hands.insert(work, work + job.minutes);
        if let Some((kind, [before, after])) = job.station
            && let Some(taken) = self.taken.get_mut(kind)
        {
            taken.push([clock[0] - before, clock[1] + after]);
        }
    }
}

/// The most of stretches that are taken at one time within a span.
fn most_at_once(taken: &[[i64; 2]], from: i64, to: i64) -> usize {
    let within = |it: &&[i64; 2]| it[0] < to && it[1] > from;
    let mut turns: Vec<(i64, i32)> = taken
        .iter()
        .filter(within)
        .flat_map(|it| [(it[0].max(from), 1), (it[1], -1)])
        .collect();
    // Of one minute, what ends comes before what begins.
    turns.sort_unstable();
    let mut now = 0;
    let counts = turns.iter().map(|(_, turn)| {
        now += turn;
        now
    });
    counts.max().unwrap_or(0).max(0) as usize
}
