//! Jobs placed on the axis of work one after the other, each as early as possible.
//!
//! One maker has one pair of hands, so no two jobs overlap on the axis of work; a job that cannot be interrupted stays within
//! one stretch; and no more stations of a kind are occupied at once than exist. Jobs are placed in the order of the list, and
//! later jobs fill the gaps that waits leave. The same list always gives the same days.

use std::collections::BTreeMap;

use super::axis::{Axis, Stretch, TooFar};

/// Kinds of stations that boards wait in.
pub const KINDS: usize = 2;

/// A job: an operation on one board, or on all boards at once.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Job {
    /// Hands-on minutes.
    pub minutes: i64,
    /// Whether it must be done in one go.
    pub whole: bool,
    /// Jobs earlier in the list that it comes after, with the minutes of the clock between the end of one and its begin.
    pub after: Vec<Predecessor>,
    /// The earliest clock minute at which it may begin.
    pub not_before: i64,
    /// The clock minutes from its end until everything that follows from it is over.
    pub trail: i64,
    /// The kind of station that the board is in, and for how many minutes before it begins and after it ends.
    pub station: Option<StationUse>,
}

/// A job that comes before another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Predecessor {
    /// Its index in the list of jobs.
    pub job: usize,
    /// The least number of clock minutes from its end to the start of the other job.
    pub lag: i64,
}

/// The use of a station by a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StationUse {
    /// The kind of station, as an index.
    pub kind: usize,
    /// Minutes that it is occupied before the job begins.
    pub lead: i64,
    /// Minutes that it is occupied after the job ends.
    pub trail: i64,
}

impl StationUse {
    /// The same use on a clock that runs backward.
    pub const fn reversed(self) -> Self {
        Self {
            kind: self.kind,
            lead: self.trail,
            trail: self.lead,
        }
    }
}

/// The place of a job in time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placed {
    /// Clock minutes at which it begins and ends.
    pub clock: [i64; 2],
    /// Work minutes before it begins and when it ends.
    pub work: [i64; 2],
}

impl Placed {
    /// The stretches of the clock that it occupies on the axis; one of zero length if there is no hands-on work.
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

/// Places jobs on an axis, with the given number of stations of each kind.
///
/// # Errors
/// [`TooFar`] where the axis has no day left for a job.
pub fn place<I: Iterator<Item = (i64, i64)>>(
    jobs: &[Job],
    axis: &mut Axis<I>,
    stations: [u32; KINDS],
) -> Result<Vec<Placed>, TooFar> {
    let mut shop = Shop {
        hands: Taken::default(),
        stations: stations.map(|most| Station {
            most,
            ..Station::default()
        }),
    };
    let mut placed: Vec<Placed> = Vec::with_capacity(jobs.len());
    for job in jobs {
        let after = job.after.iter().filter_map(|before| {
            let placed = placed.get(before.job)?;
            Some(placed.clock[1] + before.lag)
        });
        let ready = after.max().unwrap_or(i64::MIN).max(job.not_before);
        placed.push(shop.put(job, ready, axis)?);
    }
    Ok(placed)
}

/// The hands and the stations, with the times at which they are occupied.
struct Shop {
    /// Work minutes at which the hands are occupied.
    hands: Taken,
    /// The stations of each kind.
    stations: [Station; KINDS],
}

/// Occupied stretches, each by its start; stretches without a gap between them are merged.
#[derive(Default)]
struct Taken(BTreeMap<i64, i64>);

impl Taken {
    /// Adds a stretch that overlaps no other.
    fn take(&mut self, mut from: i64, mut to: i64) {
        if let Some((begin, _)) = self.0.range(..from).next_back().filter(|it| *it.1 == from) {
            from = *begin;
        }
        if let Some(end) = self.0.remove(&to) {
            to = end;
        }
        self.0.insert(from, to);
    }

    /// The end of the last stretch that overlaps a span; `None` if the span is free.
    fn until(&self, from: i64, to: i64) -> Option<i64> {
        let last = self.0.range(..to).next_back();
        last.map(|(_, end)| *end).filter(|end| *end > from)
    }
}

/// The stations of a kind.
#[derive(Default)]
struct Station {
    /// The number of them.
    most: u32,
    /// The number occupied from a clock minute on, up to the next minute in the list.
    levels: BTreeMap<i64, u32>,
    /// Clock minutes at which all are occupied.
    full: Taken,
}

impl Station {
    /// The number occupied at a clock minute.
    fn level(&self, minute: i64) -> u32 {
        let last = self.levels.range(..=minute).next_back();
        last.map_or(0, |(_, level)| *level)
    }

    /// Occupies one station from one clock minute to another.
    fn take(&mut self, from: i64, to: i64) {
        for minute in [from, to] {
            let level = self.level(minute);
            self.levels.insert(minute, level);
        }
        let mut full = Vec::new();
        let mut next = None;
        for (minute, level) in self.levels.range_mut(from..to).rev() {
            *level += 1;
            if *level == self.most {
                full.push((*minute, next.unwrap_or(to)));
            }
            next = Some(*minute);
        }
        for (from, to) in full {
            self.full.take(from, to);
        }
    }
}

impl Shop {
    /// Puts a job at the first possible place from a clock minute on.
    fn put<I: Iterator<Item = (i64, i64)>>(
        &mut self,
        job: &Job,
        mut ready: i64,
        axis: &mut Axis<I>,
    ) -> Result<Placed, TooFar> {
        if job.minutes == 0 {
            while let Some(later) = self.station_free(job, [ready; 2]) {
                ready = later;
            }
            self.take_station(job, [ready; 2]);
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
                    self.hands.take(work, work + job.minutes);
                    self.take_station(job, clock);
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
            match self.hands.until(work, work + job.minutes) {
                Some(end) => work = end,
                None => return Ok(work),
            }
        }
    }

    /// The earliest clock minute at which a job can begin, where all stations of its kind are occupied at some time during this
    /// one; `None` if one is free.
    fn station_free(&self, job: &Job, clock: [i64; 2]) -> Option<i64> {
        let station = job.station?;
        let full = &self.stations.get(station.kind)?.full;
        let until = full.until(clock[0] - station.lead, clock[1] + station.trail)?;
        Some(until + station.lead)
    }

    /// Occupies a station for a job; a job that takes no time occupies none.
    fn take_station(&mut self, job: &Job, clock: [i64; 2]) {
        let Some(StationUse { kind, lead, trail }) = job.station else {
            return;
        };
        let (from, to) = (clock[0] - lead, clock[1] + trail);
        if let Some(station) = self.stations.get_mut(kind).filter(|_| from < to) {
            station.take(from, to);
        }
    }
}
