//! Work that takes longer than a frame is done beside the window: a large blank, the boards joining would give, the chance of
//! a thin web.
//!
//! It begins again whenever there is another workpiece; work for an older one is stopped.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use workshop::Workpiece;

use crate::host::Host;

/// A study that was begun.
struct Asked {
    workpiece: Arc<Workpiece>,
    stop: Arc<AtomicBool>,
    is_over: Arc<AtomicBool>,
    /// Seconds since the program began.
    since: f64,
}

impl Asked {
    fn is_busy(&self) -> bool {
        !self.is_over.load(Ordering::Acquire)
    }
}

/// Seconds after which a running study is shown.
const LONG: f64 = 0.4;

/// The study of the current workpiece.
#[derive(Default)]
pub struct Studies {
    asked: Option<Asked>,
}

impl Studies {
    /// Begins the study of a workpiece, unless it is done or begun; one of an older workpiece is stopped first, and the
    /// next call begins this one.
    pub fn ask(&mut self, ctx: &egui::Context, host: &Arc<dyn Host>, workpiece: &Arc<Workpiece>) {
        if let Some(asked) = &self.asked {
            if Arc::ptr_eq(&asked.workpiece, workpiece) {
                return;
            }
            if asked.is_busy() {
                // One at a time: when the older one has stopped, the window looks again.
                self.stop();
                return;
            }
        }
        let asked = Asked {
            workpiece: workpiece.clone(),
            stop: Arc::default(),
            is_over: Arc::default(),
            since: ctx.input(|input| input.time),
        };
        let (workpiece, ctx) = (workpiece.clone(), ctx.clone());
        let (stop, is_over) = (asked.stop.clone(), asked.is_over.clone());
        self.asked = Some(asked);
        let work = move || {
            // One that was stopped keeps its results; no message is needed.
            let _ = workpiece.work_out(&|| stop.load(Ordering::Relaxed));
            is_over.store(true, Ordering::Release);
            ctx.request_repaint();
        };
        host.spawn("study of the board", Box::new(work));
    }

    /// Stops the study in the making; it is not begun again until there is another workpiece.
    pub fn stop(&self) {
        if let Some(asked) = &self.asked {
            asked.stop.store(true, Ordering::Relaxed);
        }
    }

    /// Whether a study takes long enough to be shown; the window checks again when one may.
    pub fn is_long(&self, ctx: &egui::Context) -> bool {
        let Some(asked) = self.asked.as_ref().filter(|asked| asked.is_busy()) else {
            return false;
        };
        let left = asked.since + LONG - ctx.input(|input| input.time);
        if left > 0.0 {
            ctx.request_repaint_after_secs(left as f32);
        }
        left <= 0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fake::Fake;
    use board::{Board, StockOutline};

    fn on_slab() -> Arc<Workpiece> {
        let mut board = Board::default();
        board.stock.outline = StockOutline::Slab {
            length: 1300.0,
            width: 300.0,
            lower: vec![],
            upper: vec![],
        };
        Arc::new(Workpiece::of(&board).unwrap())
    }

    #[test]
    fn a_study_is_made_once_for_each_workpiece() {
        let ctx = egui::Context::default();
        let host = Arc::new(Fake::new()) as Arc<dyn Host>;
        let workpiece = on_slab();
        let mut studies = Studies::default();
        studies.ask(&ctx, &host, &workpiece);
        let first = studies.asked.as_ref().unwrap().stop.clone();
        studies.ask(&ctx, &host, &workpiece);
        assert!(Arc::ptr_eq(&first, &studies.asked.as_ref().unwrap().stop));
        assert!(workpiece.joined().unwrap().halves > 580.0);
        assert!(workpiece.chance().is_some() && !studies.is_long(&ctx));
    }

    #[test]
    fn a_study_is_stopped_for_a_newer_workpiece_and_that_one_begun() {
        let ctx = egui::Context::default();
        let host = Arc::new(Fake::new()) as Arc<dyn Host>;
        let (older, newer) = (on_slab(), on_slab());
        let mut studies = Studies::default();
        studies.ask(&ctx, &host, &older);
        let asked = studies.asked.as_ref().unwrap();
        // As if it were still in the making.
        asked.is_over.store(false, Ordering::Release);
        let (stop, is_over) = (asked.stop.clone(), asked.is_over.clone());
        studies.ask(&ctx, &host, &newer);
        assert!(stop.load(Ordering::Relaxed) && newer.chance().is_none());
        is_over.store(true, Ordering::Release);
        studies.ask(&ctx, &host, &newer);
        assert!(newer.chance().is_some());
    }
}
