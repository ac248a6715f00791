//! What takes longer than a frame: a large blank, what joining would give, the chance of a thin web.
//!
//! It is worked out beside the window, from the start again whenever the document has changed; what was begun for an
//! older document is stopped.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

use board::Board;
use workshop::{Budget, Chance, Joined, StockPlan, Work, chance, joined, stock_plan};

use crate::derived::{Derived, budgeted, taped};
use crate::host::Host;

/// What was worked out for a document.
#[derive(Debug, Clone, PartialEq)]
pub struct Study {
    /// Where the board lies on its blank.
    pub plan: Option<StockPlan>,
    /// What joining would make of the blank.
    pub joined: Option<Joined>,
    /// What the errors of the work leave, and the most chance of a thin web.
    pub budget: Option<(Budget, f64)>,
    /// The chance that any web falls under its limit.
    pub chance: Option<Chance>,
}

impl Study {
    /// Works it out; none when `cancel` answered yes.
    pub fn of(board: &Board, derived: &Derived, cancel: &dyn Fn() -> bool) -> Option<Self> {
        let plan = match derived.blank.plan() {
            Some(plan) => Some(plan.clone()),
            None if derived.blank.is_pending() => stock_plan(&board.stock, cancel).ok()?,
            None => None,
        };
        let (mouths, joints) = (derived.layout.mouths(), taped(&derived.tiling));
        let slab = plan.as_ref().and_then(|plan| plan.slab.as_ref().ok());
        let joined = match slab {
            Some(slab) => Some(joined(board, slab, cancel).ok()?),
            None => None,
        };
        let work = Work {
            mouths: &mouths,
            errors: &board.errors,
            joints: &joints,
        };
        if cancel() {
            return None;
        }
        let budget = derived.budget;
        let budget = budget.or_else(|| budgeted(board, &derived.layout, &joints));
        let chance = chance(&work, board.limits.web, cancel).ok();
        if cancel() {
            return None;
        }
        Some(Self {
            plan,
            joined,
            budget,
            chance,
        })
    }
}

/// A study that was begun.
struct Asked {
    board: Board,
    stop: Arc<AtomicBool>,
    /// Seconds since the program began.
    since: f64,
    busy: bool,
    /// Whether it is to be begun again once it has stopped.
    again: bool,
}

/// After so many seconds a study is worth telling of.
const LONG: f64 = 0.4;

/// Studies in the making, and the last one that is done.
pub struct Studies {
    sender: Sender<(Board, Option<Study>)>,
    receiver: Receiver<(Board, Option<Study>)>,
    asked: Option<Asked>,
    done: Option<(Board, Study)>,
}

impl Studies {
    /// None yet.
    pub fn new() -> Self {
        let (sender, receiver) = channel();
        Self {
            sender,
            receiver,
            asked: None,
            done: None,
        }
    }

    /// Begins the study of a document, unless it is done or begun; one of an older document is stopped first.
    pub fn ask(
        &mut self,
        ctx: &egui::Context,
        host: &Arc<dyn Host>,
        board: &Board,
        derived: &Derived,
    ) {
        if self
            .asked
            .as_ref()
            .is_some_and(|asked| asked.board == *board)
        {
            return;
        }
        if self.asked.as_ref().is_some_and(|asked| asked.busy) {
            // One at a time: when the older one has stopped, the window looks again.
            self.stop();
            return;
        }
        let stop = Arc::new(AtomicBool::new(false));
        self.asked = Some(Asked {
            board: board.clone(),
            stop: stop.clone(),
            since: ctx.input(|input| input.time),
            busy: true,
            again: false,
        });
        let (board, derived) = (board.clone(), derived.clone());
        let (sender, ctx) = (self.sender.clone(), ctx.clone());
        let work = move || {
            let study = Study::of(&board, &derived, &|| stop.load(Ordering::Relaxed));
            // A window that is gone wants no answer.
            let _ = sender.send((board, study));
            ctx.request_repaint();
        };
        host.spawn("study of the board", Box::new(work));
    }

    /// Takes what has been worked out since the last look; tells whether there was anything.
    pub fn take(&mut self) -> bool {
        let mut any = false;
        while let Ok((board, study)) = self.receiver.try_recv() {
            if let Some(asked) = self.asked.as_mut().filter(|asked| asked.board == board) {
                asked.busy = false;
                if asked.again {
                    self.asked = None;
                    continue;
                }
            }
            if let Some(study) = study {
                self.done = Some((board, study));
                any = true;
            }
        }
        any
    }

    /// Stops the study in the making; it is not begun again until the document changes.
    pub fn stop(&self) {
        if let Some(asked) = &self.asked {
            asked.stop.store(true, Ordering::Relaxed);
        }
    }

    /// Forgets what was worked out, as something besides the document has changed, and begins again.
    pub fn forget(&mut self) {
        self.done = None;
        self.stop();
        match &mut self.asked {
            Some(asked) if asked.busy => asked.again = true,
            _ => self.asked = None,
        }
    }

    /// Whether a study takes long enough to be told of; the window looks again when one may.
    pub fn is_long(&self, ctx: &egui::Context) -> bool {
        let Some(asked) = self.asked.as_ref().filter(|asked| asked.busy) else {
            return false;
        };
        let left = asked.since + LONG - ctx.input(|input| input.time);
        if left > 0.0 {
            ctx.request_repaint_after_secs(left as f32);
        }
        left <= 0.0
    }

    /// The study of this document, if it is done.
    pub fn of(&self, board: &Board) -> Option<&Study> {
        let (done, study) = self.done.as_ref()?;
        (done == board).then_some(study)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fake::Fake;
    use board::StockOutline;

    fn on_slab() -> Board {
        let mut board = Board::default();
        board.stock.outline = StockOutline::Slab {
            length: 1300.0,
            width: 300.0,
            lower: vec![],
            upper: vec![],
        };
        board
    }

    #[test]
    fn a_study_is_made_once_for_each_document() {
        let (ctx, host) = (
            egui::Context::default(),
            Arc::new(Fake::new()) as Arc<dyn Host>,
        );
        let board = on_slab();
        let derived = Derived::of(&board).unwrap();
        let mut studies = Studies::new();
        studies.ask(&ctx, &host, &board, &derived);
        assert!(studies.take());
        studies.ask(&ctx, &host, &board, &derived);
        assert!(!studies.take());
        let study = studies.of(&board).unwrap();
        assert!(study.joined.as_ref().unwrap().halves > 580.0);
        assert!(study.chance.is_some());
        assert_eq!(studies.of(&Board::default()), None);
    }

    #[test]
    fn a_study_is_stopped_on_request_and_for_a_newer_document() {
        let board = on_slab();
        let derived = Derived::of(&board).unwrap();
        let ctx = egui::Context::default();
        let host = Arc::new(Fake::new()) as Arc<dyn Host>;
        let mut studies = Studies::new();
        studies.ask(&ctx, &host, &board, &derived);
        let stop = studies.asked.as_ref().unwrap().stop.clone();
        // The answer is not taken yet, so that the older study passes for one in the making.
        studies.ask(&ctx, &host, &Board::default(), &derived);
        assert!(stop.load(Ordering::Relaxed));
        assert!(studies.take() && !studies.is_long(&ctx));
        studies.ask(&ctx, &host, &Board::default(), &derived);
        assert!(studies.take() && studies.of(&Board::default()).is_some());
    }

    #[test]
    fn a_study_that_is_forgotten_is_begun_again_done_or_not() {
        let board = on_slab();
        let derived = Derived::of(&board).unwrap();
        let ctx = egui::Context::default();
        let host = Arc::new(Fake::new()) as Arc<dyn Host>;
        let mut studies = Studies::new();
        studies.ask(&ctx, &host, &board, &derived);
        // The answer is not taken yet, so that the study passes for one in the making.
        studies.forget();
        assert!(!studies.take(), "what was begun before is not taken");
        studies.ask(&ctx, &host, &board, &derived);
        assert!(studies.take() && studies.of(&board).is_some());
        studies.forget();
        assert_eq!(studies.of(&board), None);
        studies.ask(&ctx, &host, &board, &derived);
        assert!(studies.take() && studies.of(&board).is_some());
    }

    #[test]
    fn a_study_that_is_stopped_is_none() {
        let board = on_slab();
        let derived = Derived::of(&board).unwrap();
        assert_eq!(Study::of(&board, &derived, &|| true), None);
    }
}
