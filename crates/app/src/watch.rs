//! A watch over a job: its present step, and whether it should stop.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};

/// The progress of a job and a request to stop it, shared by the job and the window.
#[derive(Debug, Default)]
pub struct Watch {
    is_stopped: AtomicBool,
    at: Mutex<String>,
}

impl Watch {
    /// Asks the job to stop at the next place where it can.
    pub fn stop(&self) {
        self.is_stopped.store(true, Ordering::Relaxed);
    }

    /// Whether it is to stop.
    pub fn is_stopped(&self) -> bool {
        self.is_stopped.load(Ordering::Relaxed)
    }

    /// Notes the present step.
    pub fn note(&self, words: String) {
        if let Ok(mut at) = self.at.lock() {
            *at = words;
        }
    }

    /// The progress in words; empty before the job reports any.
    pub fn at(&self) -> String {
        self.at.lock().map(|at| at.clone()).unwrap_or_default()
    }
}
