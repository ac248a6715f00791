//! The latest time for each job that does not move the end; jobs that cannot wait for the next working day are the critical
//! path.
//!
//! The order in which hands and stations are used stays as placed, so that the slack holds for one maker alone, and not only
//! with a second pair of hands.

use super::axis::Axis;
use super::place::{Job, KINDS, Placed, Predecessor, StationUse};

/// Working days by which each job can be postponed, from 0 up.
///
/// It works back from the end, the last job first: each ends by the latest start of its successors, less the wait between.
pub fn days_of_slack<I>(
    jobs: &[Job],
    placed: &[Placed],
    axis: &Axis<I>,
    stations: [u32; KINDS],
) -> Vec<usize>
where
    I: Iterator<Item = (i64, i64)>,
{
    let ends = jobs
        .iter()
        .zip(placed)
        .map(|(job, at)| at.clock[1] + job.trail);
    let end = ends.max().unwrap_or(0);
    let mut order: Vec<usize> = (0..jobs.len()).collect();
    order.sort_by_key(|at| (placed.get(*at).map(|it| it.clock[0]), *at));
    let before = chains(jobs, placed, &order, stations);
    let latest_end = |job: &Job| end - job.trail;
    let mut ends: Vec<i64> = jobs.iter().map(latest_end).collect();
    let mut slack = vec![0; jobs.len()];
    for at in order.into_iter().rev() {
        let (Some(job), Some(place), Some(latest)) = (jobs.get(at), placed.get(at), ends.get(at))
        else {
            continue;
        };
        let starts = latest_start(job, *latest, axis).max(place.clock[0]);
        if let Some(days) = slack.get_mut(at) {
            *days = axis
                .place(starts)
                .saturating_sub(axis.place(place.clock[0]));
        }
        let needed = job.after.iter().copied();
        let chained = before.get(at).into_iter().flatten().copied();
        for earlier in needed.chain(chained) {
            if let Some(end) = ends.get_mut(earlier.job) {
                *end = (*end).min(starts - earlier.lag);
            }
        }
    }
    slack
}

/// The latest clock minute at which a job can begin and still end by another.
///
/// A job done in one go ends on the evening before where the day could not hold all of it.
fn latest_start<I: Iterator<Item = (i64, i64)>>(job: &Job, end: i64, axis: &Axis<I>) -> i64 {
    if job.minutes == 0 {
        return end;
    }
    let mut until = axis.work_until(end);
    while let Some(stretch) = axis.stretch_until(until).filter(|it| it.work > 0) {
        if !job.whole || until - job.minutes >= stretch.work {
            break;
        }
        until = stretch.work;
    }
    let from = until - job.minutes;
    let stretches = axis.stretches();
    let at = stretches.partition_point(|it| it.work_end() <= from);
    stretches
        .get(at)
        .map_or(i64::MIN, |it| it.clock + from - it.work)
}

/// For each job, the jobs that occupy the hands or the station until it begins, with the minutes between.
fn chains(
    jobs: &[Job],
    placed: &[Placed],
    order: &[usize],
    stations: [u32; KINDS],
) -> Vec<Vec<Predecessor>> {
    let mut before = vec![Vec::new(); jobs.len()];
    let mut hands: Option<usize> = None;
    let mut lanes: [Vec<Predecessor>; KINDS] = [Vec::new(), Vec::new()];
    for &at in order {
        let (Some(job), Some(place), Some(before)) =
            (jobs.get(at), placed.get(at), before.get_mut(at))
        else {
            continue;
        };
        if job.minutes > 0 {
            before.extend(hands.replace(at).map(|job| Predecessor { job, lag: 0 }));
        }
        let Some(StationUse { kind, lead, trail }) = job.station else {
            continue;
        };
        let (Some(lanes), Some(most)) = (lanes.get_mut(kind), stations.get(kind)) else {
            continue;
        };
        let taken = Predecessor {
            job: at,
            lag: trail,
        };
        let is_free = |lane: &&mut Predecessor| {
            let until = placed.get(lane.job).map(|it| it.clock[1] + lane.lag);
            until.is_some_and(|until| until <= place.clock[0] - lead)
        };
        if lanes.len() < *most as usize {
            lanes.push(taken);
        } else if let Some(lane) = lanes.iter_mut().find(is_free) {
            before.push(Predecessor {
                job: lane.job,
                lag: lane.lag + lead,
            });
            *lane = taken;
        }
    }
    before
}
