//! The chance that any web of a board falls below the limit.
//!
//! Each web alone is normally distributed, and its chance has a closed form. Webs share errors (a hole has several neighbors,
//! and the printer's scale is the same for all), so the chance that any of them is thin is sampled. The sampling does not wait
//! for a thin web: each trial makes one web thin, chosen in proportion to its own chance, and counts how many webs are thin
//! with it. The mean of the reciprocal of that count, times the sum of all chances, is the chance of any (2019, "Importance
//! sampling the union of rare events", Electronic Journal of Statistics 13; from memory). A chance of one in a billion is then
//! found as accurately as one in two, and a single web gives exactly its closed form.

use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng as _, SeedableRng as _};

use crate::template::budget::normal::{share_below, value_at};
use crate::template::budget::pair::{DEVIATIONS, Pair};
use crate::template::budget::{BudgetError, HAIR, Work, check_finite};

/// The chance that any web of a board falls below the limit, as a share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    /// The chance; exact where no trials were needed.
    pub share: f64,
    /// The standard error of `share`, from the spread of the trials.
    pub standard_error: f64,
    /// Number of boards simulated; 0 if a closed form gives the answer.
    pub trials: u32,
    /// The sum of the chances of all webs, which the chance of any never exceeds.
    pub at_most: f64,
}

/// The chance that any web falls below `web_limit` mm.
///
/// Each error of the work is assumed to be normal, with its ± as three standard deviations along any direction. The printer's
/// scale is drawn once for the whole board and the shift of a taped joint once for everything beyond it; punching, drilling and
/// indexing are drawn for each hole. Webs that clear the limit by eight standard deviations (a chance below 1e-15) count as
/// safe. Up to 20,000 boards are simulated, fewer once the standard error is less than half a percent of the chance; the draws
/// are the same every time and on every machine. `cancel` is called now and then.
///
/// # Errors
///
/// The errors of [`crate::template::budget::budget`], and [`BudgetError`] where the limit is not finite or `cancel` returned
/// true.
pub fn chance(
    work: &Work<'_>,
    web_limit: f64,
    cancel: &dyn Fn() -> bool,
) -> Result<Chance, BudgetError> {
    let events = events(work, web_limit)?;
    // The empty sum is 0, not -0.
    let sum = events.iter().map(|event| event.share).sum::<f64>() + 0.0;
    let certain = events.iter().any(|event| event.terms.is_empty());
    if certain || events.len() < 2 {
        return Ok(Chance {
            share: if certain { 1.0 } else { sum },
            standard_error: 0.0,
            trials: 0,
            at_most: sum.min(1.0),
        });
    }
    sampled(events, sum, cancel)
}

/// The sum of the chances of all webs by their closed forms, at most 1. It is an upper bound of the chance that any web falls
/// below `web_limit` mm, and a close one while the chance is small.
///
/// # Errors
///
/// The errors of [`crate::template::budget::budget`], and [`BudgetError`] where the limit is not finite.
pub fn chance_at_most(work: &Work<'_>, web_limit: f64) -> Result<f64, BudgetError> {
    let shares = events(work, web_limit)?
        .into_iter()
        .map(|event| event.share);
    Ok((shares.sum::<f64>() + 0.0).min(1.0))
}

/// The webs that may fall below the limit.
fn events(work: &Work<'_>, web_limit: f64) -> Result<Vec<Event>, BudgetError> {
    work.check()?;
    check_finite("the least web", web_limit)?;
    // The greatest change is at least three standard deviations of any web.
    let near = web_limit + SAFE / DEVIATIONS * work.most_change() + HAIR;
    let pairs = work.pairs_under(near);
    let event = |pair| Event::new(pair, web_limit);
    Ok(pairs.iter().filter_map(event).collect())
}

/// Number of standard deviations above the limit from which a web is safe.
const SAFE: f64 = 8.0;

/// The most boards to simulate.
const MOST_TRIALS: u32 = 20_000;

/// Number of boards after which the precision is checked and `cancel` is called.
const ROUND: u32 = 500;

/// The fewest boards from which the spread can be judged.
const LEAST_TRIALS: u32 = 2000;

/// Standard error that is small enough, as a share of the chance.
const PRECISE: f64 = 0.005;

/// The seed of the draws.
const SEED: u64 = 1;

/// The event that a web falls below the limit: `terms . errors < value`, for independent standard normal errors.
struct Event {
    share: f64,
    value: f64,
    /// The indices of the errors and their weights, whose squares add up to 1; empty if the web is certainly thin.
    terms: Vec<(usize, f64)>,
}

impl Event {
    /// The event of a web; `None` if the web is safe.
    fn new(pair: &Pair, web_limit: f64) -> Option<Self> {
        let margin = pair.web.mm - pair.oversize - web_limit;
        let deviation = pair.deviation();
        if deviation == 0.0 {
            let thin = margin < -HAIR;
            return thin.then(|| Self {
                share: 1.0,
                value: f64::INFINITY,
                terms: Vec::new(),
            });
        }
        let value = -margin / deviation;
        (value > -SAFE).then(|| Self {
            share: share_below(value),
            value,
            terms: pair
                .terms
                .iter()
                .map(|&(error, mm)| (error, mm / deviation))
                .collect(),
        })
    }

    /// The weighted sum of the errors on which this event depends.
    fn measure(&self, errors: &[f64]) -> f64 {
        let part = |&(error, weight): &(usize, f64)| weight * errors.get(error).unwrap_or(&0.0);
        self.terms.iter().map(part).sum()
    }

    /// Moves the errors along this web's own direction until their weighted sum is `wanted`.
    fn force(&self, errors: &mut [f64], wanted: f64) {
        let by = wanted - self.measure(errors);
        for &(error, weight) in &self.terms {
            if let Some(error) = errors.get_mut(error) {
                *error += weight * by;
            }
        }
    }
}

/// The chance by sampling, until it is precise enough or the most trials were made. The seed is always the same, so that a
/// board has the same chance each time.
fn sampled(
    mut events: Vec<Event>,
    sum: f64,
    cancel: &dyn Fn() -> bool,
) -> Result<Chance, BudgetError> {
    let mut errors = vec![0.0; renumber(&mut events)];
    let sums: Vec<f64> = events
        .iter()
        .scan(0.0, |sum, event| {
            *sum += event.share;
            Some(*sum)
        })
        .collect();
    let mut draws = Pcg64::seed_from_u64(SEED);
    let mut tally = Tally::default();
    while !tally.is_enough() {
        if tally.trials.is_multiple_of(ROUND) && cancel() {
            return Err(BudgetError::Stopped);
        }
        tally.add(trial(&events, &sums, &mut errors, &mut draws));
    }
    Ok(Chance {
        share: (sum * tally.mean()).min(1.0),
        standard_error: sum * tally.standard_error(),
        trials: tally.trials,
        at_most: sum.min(1.0),
    })
}

/// Renumbers the errors that occur, from zero in order of appearance; returns their count.
fn renumber(events: &mut [Event]) -> usize {
    let mut numbers = std::collections::BTreeMap::new();
    for (error, _) in events.iter_mut().flat_map(|event| &mut event.terms) {
        let next = numbers.len();
        *error = *numbers.entry(*error).or_insert(next);
    }
    numbers.len()
}

/// Draws a board with at least one thin web, and returns the reciprocal of the number of thin webs.
fn trial(events: &[Event], sums: &[f64], errors: &mut [f64], draws: &mut Pcg64) -> f64 {
    let sum = sums.last().unwrap_or(&0.0);
    let place = share(draws) * sum;
    let chosen = sums.partition_point(|sum| *sum <= place);
    let Some(thin) = events.get(chosen) else {
        return 1.0;
    };
    errors.fill_with(|| value_at(share(draws)));
    thin.force(errors, value_at(share(draws) * thin.share));
    let others = events
        .iter()
        .enumerate()
        .filter(|(index, event)| *index != chosen && event.measure(errors) < event.value);
    1.0 / (1 + others.count()) as f64
}

/// A uniform random number strictly between 0 and 1.
fn share(draws: &mut Pcg64) -> f64 {
    ((draws.next_u64() >> 12) as f64 + 0.5) / (1_u64 << 52) as f64
}

/// The mean of the trials so far, with its standard error.
#[derive(Default)]
struct Tally {
    trials: u32,
    sum: f64,
    squares: f64,
}

impl Tally {
    /// Adds a value.
    fn add(&mut self, value: f64) {
        self.trials += 1;
        self.sum += value;
        self.squares += value * value;
    }

    /// The mean of the values so far.
    fn mean(&self) -> f64 {
        self.sum / f64::from(self.trials)
    }

    /// The standard error, as if one more trial had been off by a half: equal trials do not prove that the next one is equal.
    fn standard_error(&self) -> f64 {
        let count = f64::from(self.trials);
        let spread = (self.squares / count - self.mean() * self.mean()).max(0.0);
        ((spread + 0.25 / count) / (count - 1.0)).sqrt()
    }

    /// Whether the mean is precise enough to show.
    fn is_enough(&self) -> bool {
        self.trials >= MOST_TRIALS
            || self.trials >= LEAST_TRIALS
                && self.trials.is_multiple_of(ROUND)
                && self.standard_error() <= PRECISE * self.mean()
    }
}
